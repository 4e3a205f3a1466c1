//! A stock of machines and attachments from a seed, as the text of a spec table: for measuring, and for tests that want many
//! circuits that differ. All of it is invented.

use std::fmt::Write;

/// A small generator of the well-known SplitMix64 kind: the same seed gives the same stock everywhere.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    fn one_of<'a>(&mut self, list: &[&'a str]) -> &'a str {
        list[usize::try_from(self.next() % list.len() as u64).expect("a small number")]
    }

    fn chance(&mut self, of: f64) -> bool {
        self.share() < of
    }
}

/// Sizes of machine: mass in kg, flow in L/min, pin, ears and centres in mm.
const SIZES: [(f64, f64, u32, u32, u32); 3] =
    [(3200.0, 62.0, 40, 150, 190), (8500.0, 118.0, 50, 200, 250), (15_500.0, 185.0, 65, 270, 340)];

/// The text of a table with so many machines and attachments.
pub fn stock(machines: usize, attachments: usize, seed: u64) -> String {
    let mut dice = Dice(seed);
    let mut text = String::from(
        r#"{"format":"pairwright.table","version":1,"title":"Generated stock","currency":"EUR","labour_rate":"68.00","carriers":["#,
    );
    for i in 0..machines {
        text.push_str(if i == 0 { "" } else { "," });
        machine(&mut text, &mut dice, i);
    }
    text.push_str(r#"],"heads":["#);
    for i in 0..attachments {
        text.push_str(if i == 0 { "" } else { "," });
        attachment(&mut text, &mut dice, i);
    }
    text.push_str(r#"],"parts":["#);
    text.push_str(PARTS);
    text.push_str("]}");
    text
}

const PARTS: &str = r#"
{"id":"r1","name":"Return line, 1 in","change":"direct-return","bore":"25.4 mm","loss":"1.5 bar","rated_flow":"200 L/min","price":"810.00","time":"8 h"},
{"id":"r2","name":"Return line, 1¼ in","change":"direct-return","bore":"31.75 mm","loss":"1.5 bar","rated_flow":"300 L/min","price":"1190.00","time":"9 h"},
{"id":"f1","name":"Return filter","change":"return-filter","rated_flow":"400 L/min","loss":"0.4 bar","bypass":"1.7 bar","price":"390.00","time":"2 h"},
{"id":"c1","name":"Case line","change":"case-line","bore":"19.05 mm","price":"240.00","time":"3 h"},
{"id":"l1","name":"Flow regulator","change":"flow-limit","rated_flow":"150 L/min","price":"420.00","time":"2 h"},
{"id":"s1","name":"Relief reset","change":"relief-setting","price":"0.00","time":"30 min"},
{"id":"m1","name":"Flow setting","change":"machine-flow-setting","price":"0.00","time":"18 min"},
{"id":"b1","name":"Bushes","change":"mounting-kit","price":"180.00","time":"1 h"}"#;

fn machine(text: &mut String, dice: &mut Dice, i: usize) {
    let (mass, flow, pin, ears, centres) = SIZES[i % SIZES.len()];
    let mass = mass * dice.between(0.85, 1.15);
    let flow = flow * dice.between(0.75, 1.35);
    let relief = dice.between(185.0, 245.0);
    let power = flow * relief / 600.0 * dice.between(0.55, 1.05);
    let control = dice.one_of(&["load-sensing", "negative", "fixed"]);
    let route = if dice.chance(0.35) { "direct" } else { "spool" };
    let bore = if flow > 120.0 { 25.4 } else { 19.05 };
    let class = if mass < 6000.0 {
        "mini-excavator"
    } else if mass < 13_000.0 {
        "midi-excavator"
    } else {
        "excavator"
    };
    let loss = dice.between(2.0, 13.0);
    let (length, tank) = (dice.between(4.0, 10.0), mass / 100.0);
    // Brochures have gaps, and some machines a second, smaller circuit.
    let relief_stated = if dice.chance(0.06) { String::new() } else { format!(r#""relief":"{relief:.0} bar","#) };
    let second = if dice.chance(0.2) {
        format!(
            r#",{{"id":"low","flow":"{:.0} L/min","relief":"{relief:.0} bar","pumps":["p"],"supply":[{{"bore":"12.7 mm","length":"{length:.1} m"}}],"return_path":{{"route":"spool"}}}}"#,
            flow * 0.5
        )
    } else {
        String::new()
    };
    write!(
        text,
        r#"{{"id":"m{i}","model":"M{i}","class":"{class}","operating_mass":"{mass:.0} kg",
"engine":{{"power":"{engine:.1} kW","working_speed":"2000 rpm","high_idle":"2120 rpm"}},
"pumps":[{{"id":"p","control":"{control}","greatest_flow":"{greatest:.0} L/min","pressure":"{cut_off:.0} bar","power_limit":"{power:.1} kW"}}],
"circuits":[{{"id":"aux","flow":"{flow:.0} L/min",{relief_stated}"relief_range":"160..270 bar","pumps":["p"],"ways":"{ways}","continuous":true,"fed_from":"valve","stops_and_stays_off":true,"shared_with":[],
"flow_setting":{{"range":"{low:.0}..{flow:.0} L/min","locked":{locked}}},
"supply":[{{"bore":"{bore} mm","length":"{length:.1} m","standard":"{hose}"}}],
"coupling":{{"loss":{{"loss":"2 bar","flow":"{flow:.0} L/min"}},"rated_pressure":"315 bar","rated_flow":"{couplings:.0} L/min","screwed":true}},
"return_path":{{"route":"{route}","loss":{{"loss":"{loss:.1} bar","flow":"{flow:.0} L/min"}},"line":[{{"bore":"{bore} mm","length":"{length:.1} m","standard":"4sp"}}],"through_filter":true,"through_cooler":true,"can_be_shut":false}}}}{second}],
"case_line":{{"fitted":{case},"own_port":true}},"return_filter":{{"rated_flow":"400 L/min","loss":{{"loss":"0.4 bar","flow":"400 L/min"}},"bypass":"1.7 bar"}},
"tank":{{"volume":"{tank:.0} L","pressure":"0.2 bar"}},"oil":{{"kind":"hm","grade":"vg-46"}},"cooler":{{"conductance":"{cooler:.0} W/K","flow":"{flow:.0} L/min"}},
"coupler":{{"fitted":false}},"guards":["front-guard"],"reaction_torque":"60 kN.m","electrics":{{"voltage":"24 V","spare_buttons":2}},
"lifting":{{"chart":[{{"reach":"{reach:.1} m","height":"0 m","over_side":true,"mass":"{lift:.0} kg"}}],"greatest_reach":"{reach:.1} m","tipping_edge":"1000 mm","boom_foot":"250 mm"}},
"mounting":[{{"pin":"{pin} mm","width":"{ears} mm","centres":"{centres} mm"}}]}}"#,
        engine = power * 1.35,
        greatest = flow * 1.15,
        cut_off = relief + 25.0,
        low = flow * 0.3,
        couplings = flow * 1.3,
        locked = dice.chance(0.7),
        ways = dice.one_of(&["one", "two"]),
        hose = dice.one_of(&["4sp", "4sp", "2sn"]),
        cooler = mass * dice.between(0.05, 0.14),
        reach = 3.0 + mass / 5000.0,
        lift = mass * dice.between(0.08, 0.14),
        case = dice.chance(0.6),
    )
    .expect("a string takes it");
}

fn attachment(text: &mut String, dice: &mut Dice, i: usize) {
    let (mass, flow, pin, ears, centres) = SIZES[i % SIZES.len()];
    let rated = flow * dice.between(0.55, 0.95);
    let working = dice.between(115.0, 175.0);
    let kind = dice.one_of(&["rotary-cutter", "drum-mulcher", "flail", "auger"]);
    let motor = dice.one_of(&["axial-piston", "bent-axis", "gear-drained", "orbital", "gear-one-way"]);
    // Sized for 2000 turns a minute at the rated flow, and made for half as much again.
    let displacement = rated * 1000.0 * 0.92 / 2000.0;
    let back = match motor {
        "gear-one-way" => dice.between(2.5, 4.0),
        "orbital" => 25.0,
        _ => dice.between(10.0, 40.0),
    };
    let needs_case = !matches!(motor, "gear-one-way" | "orbital");
    write!(
        text,
        r#"{{"id":"h{i}","model":"H{i}","kind":"{kind}","mass":"{own:.0} kg",
"flow":{{"least":"{least:.0} L/min","rated":"{rated:.0} L/min","greatest":"{greatest:.0} L/min"}},
"pressure":{{"working":"{working:.0} bar","greatest":"{bears:.0} bar"}},
"motor":{{"kind":"{motor}","displacement":"{displacement:.1} cm3/{{rev}}","ratio":"1 1","torque_limit":"20 kN.m","rotor_speed":{{"rated":"2000 rpm","greatest":"{speed:.0} rpm"}}}},
"outlet":{{"back_pressure":"{back:.1} bar","case_pressure":"{case:.1} bar","needs_case_line":{needs_case}}},
"mounting":[{{"pin":"{pin} mm","width":"{gap} mm","centres":"{centres} mm"}}],
"carrier_mass":{{"least":"{light:.0} kg","greatest":"{heavy:.0} kg"}},"centre_of_gravity":"400 mm","ways":"{ways}","run_down_check":{run_down},
"demands":{{"return_filter":true,"guards":["front-guard"]}}}}"#,
        own = mass * 0.05,
        least = rated * 0.8,
        greatest = rated * dice.between(1.35, 1.8),
        bears = dice.between(230.0, 290.0),
        speed = dice.between(2900.0, 3900.0),
        case = dice.between(3.0, 6.0),
        ways = if motor == "gear-one-way" { "one" } else { "two" },
        run_down = dice.chance(0.8),
        gap = ears + 3,
        light = mass * 0.75,
        heavy = mass * 1.35,
    )
    .expect("a string takes it");
}
