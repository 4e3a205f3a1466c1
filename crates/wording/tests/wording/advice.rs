//! What people are told to do at a machine that is under pressure, hot or turning: nothing of it may hurt whoever does it.

use super::{demo, sheets_of, words};
use fit::{Conditions, FactId};
use handover::{Circumstances, LookAt, Step, plan};
use quantity::{Named, UnitSystem};
use record::plate::Figure;

/// Every text that sends somebody to a part of the machine to find something out.
fn advice() -> Vec<&'static str> {
    let words = words(UnitSystem::Metric);
    // The engine's own speed is read by a display or tachometer in the cab.
    let engine = [FactId::WorkingSpeed, FactId::HighIdle];
    let looks = LookAt::ALL.iter().map(|&at| words.look_at(at));
    let places = FactId::ALL.iter().filter(|fact| !engine.contains(fact)).map(|&fact| words.place(fact));
    let figures =
        Figure::ALL.iter().map(|&figure| words.figure_place(figure)).filter(|text| !text.starts_with("display"));
    looks.chain(places).chain(figures).collect()
}

/// All of that, with where instruments are put and what is done step by step.
fn everything() -> Vec<String> {
    let words = words(UnitSystem::Metric);
    let mut all: Vec<_> = advice().into_iter().map(str::to_owned).collect();
    all.extend(Step::ALL.iter().map(|&step| words.caution_of_step(step).to_owned()));
    let mut seen = (0, 0);
    for (carrier, head) in [("quern-q56", "thistlecut-r90"), ("quern-q27", "thistlecut-r60")] {
        let (table, (pairing, sheets)) = (demo(), sheets_of(carrier, head));
        let (carrier, head) = (table.carrier(carrier).expect("a carrier"), table.head(head).expect("a head"));
        let planned = plan(&pairing, carrier, head, &Conditions::of_table(&table), &Circumstances::default());
        seen.0 += planned.len();
        all.extend(planned.iter().map(|planned| words.measurement_place(planned)));
        for line in words.sheets(&pairing, &sheets, &planned).into_iter().flat_map(|section| section.lines) {
            seen.1 += 1;
            // What an instrument may be off, or proves, is no advice where to stand.
            if !line.title.starts_with("To prove") && !line.title.starts_with("What the readings") {
                all.push(format!("{} {} {}", line.title, line.detail, line.value));
            } else if line.title.starts_with("What the readings") {
                assert!(line.detail.ends_with("no hose under pressure in a cab."), "{}", line.detail);
            }
        }
    }
    assert!(seen.0 > 20 && seen.1 > 100, "{seen:?}");
    all
}

#[test]
fn invariant_no_advice_sends_a_hand_to_a_hot_line() {
    for text in advice() {
        let lower = text.to_lowercase();
        assert!(!lower.contains("feel") && !lower.contains("by hand") && !lower.contains("touch"), "{text}");
        let heat = ["hot", "hotter", "cool", "cold", "heats"];
        let of_heat = lower.split(|c: char| !c.is_alphabetic()).any(|word| heat.contains(&word));
        if of_heat && !lower.contains("tank") {
            assert!(lower.contains("infrared thermometer") && lower.contains("engine off"), "{text}");
        }
    }
    let mut told: Vec<_> = advice().into_iter().filter(|text| text.contains("infrared thermometer")).collect();
    told.sort_unstable();
    told.dedup();
    assert_eq!(told.len(), 5, "texts that tell how heat is found: {told:?}");
}

/// Nobody stands where a hose may whip, a rotor may throw, a belt may pull in or a load may fall.
#[test]
fn invariant_whoever_measures_stands_where_nothing_reaches_him() {
    for text in everything() {
        let lower = text.to_lowercase();
        let needs = |word: &str, all: &[&str]| {
            if lower.contains(word) {
                assert!(all.iter().all(|told| lower.contains(told)), "{text}");
            }
        };
        assert!(!lower.contains("test hose"), "{text}");
        needs(
            "stopwatch",
            if lower.contains("ten metres") { &[] } else { &["tied down", "outside the throw zone", "nobody"] },
        );
        needs("tachometer", &["fixed before the start", "cab"]);
        needs("listen", &["from the cab", "few seconds"]);
        needs("hang it", &["rated slings", "nobody under"]);
        needs("belt's tension", &["engine off and locked"]);
        needs("pulleys", &["engine off and locked"]);
        needs("fins and fan", &["engine off and locked"]);
        needs("blow ", &["low pressure", "eye protection"]);
        needs("transmitters", &["no hose under pressure in a cab"]);
    }
}

/// It is the only thing that limits the pressure.
#[test]
fn the_relief_is_exchanged_or_tested_and_never_blocked() {
    let text = words(UnitSystem::Metric).look_at(LookAt::ReliefPort);
    assert!(text.starts_with("Engine off, pressure out: exchange") && text.contains("tested on a bench"), "{text}");
    assert!(text.contains("never blocked"), "{text}");
    for text in advice() {
        let blocks = text.contains("blocked") || text.contains("block off") || text.contains("plug its port");
        assert!(!blocks || text.contains("never blocked"), "{text}");
    }
}
