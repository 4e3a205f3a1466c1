//! Whole circuits against the ones that `circuits.py` solves from the formulas of the trade by general-purpose libraries.

use crate::{figure, opinions};
use hydraulics::balance::{Balanced, Circuit, DividedPumps, DrainLine, Functions, Leg, Operating, Order};
use hydraulics::case_line::height_of_oil;
use hydraulics::line::{Piece, Roughness};
use hydraulics::pump::CutOff;
use hydraulics::valve::{Check, Divided, Divider, DividerState};
use hydraulics::{CaseLine, Element, Filter, Motor, Oil, Relief, Resistance, Source};
use quantity::{Displacement, KinematicViscosity, Length, MassDensity, Power, Pressure, Quantity, Ratio, VolumeRate};
use serde_json::Value;
use std::collections::HashMap;
use table::LimiterSum;

/// How far two solutions of one circuit may be apart, as a share.
const APART: f64 = 1e-6;

fn pressure(value: &Value, name: &str) -> Pressure {
    Pressure::from_si(figure(value, name))
}

fn flow(value: &Value, name: &str) -> VolumeRate {
    VolumeRate::from_si(figure(value, name))
}

fn length(value: &Value, name: &str) -> Length {
    Length::from_si(figure(value, name))
}

fn oil(value: &Value) -> Oil {
    Oil {
        viscosity: KinematicViscosity::from_si(figure(value, "nu")),
        density: MassDensity::from_si(figure(value, "rho")),
    }
}

fn word<'v>(value: &'v Value, name: &str) -> &'v str {
    value[name].as_str().unwrap_or_else(|| panic!("no {name} in {value}"))
}

fn piece(value: &Value, oil: &Oil) -> Piece {
    match word(value, "kind") {
        "pipe" => Piece::Pipe {
            bore: length(value, "bore"),
            length: length(value, "length"),
            roughness: Roughness(length(value, "roughness")),
        },
        "fitting" => Piece::Fitting { k: figure(value, "k"), bore: length(value, "bore") },
        "point" => Piece::Point { loss: pressure(value, "loss"), flow: flow(value, "flow") },
        "check" => Piece::Check(Check {
            cracking: pressure(value, "cracking"),
            loss: pressure(value, "loss"),
            flow: flow(value, "flow"),
        }),
        "constant" => Piece::Constant(pressure(value, "pressure")),
        "height" => Piece::Constant(height_of_oil(length(value, "height"), oil)),
        "filter" => {
            let filter = Filter {
                element: pressure(value, "element"),
                housing: pressure(value, "housing"),
                flow: flow(value, "flow"),
                viscosity: KinematicViscosity::from_si(figure(value, "nu")),
                bypass: pressure(value, "bypass"),
                bypass_flow: flow(value, "bypass_flow"),
            };
            let element = match word(value, "state") {
                "clean" => Element::Clean,
                "half-loaded" => Element::HalfLoaded,
                "blocked" => Element::Blocked,
                other => panic!("an element that is {other}"),
            };
            Piece::Filter(filter, element)
        }
        other => panic!("a piece of kind {other}"),
    }
}

fn way(value: &Value, oil: &Oil) -> Resistance {
    Resistance::of(value.as_array().expect("a list").iter().map(|value| piece(value, oil)))
}

fn source(value: &Value) -> Source {
    let cut_off = &value["cut_off"];
    let at = || pressure(cut_off, "pressure");
    let cut_off = (!cut_off.is_null()).then(|| match word(cut_off, "kind") {
        "at-load" => CutOff::AtLoad { pressure: at(), band: figure(cut_off, "band") },
        "compensated" => CutOff::Compensated { pressure: at(), band: figure(cut_off, "band") },
        "load-sensing" => CutOff::LoadSensing { pressure: at(), margin: pressure(cut_off, "margin") },
        other => panic!("a cut-off of kind {other}"),
    });
    Source {
        greatest: flow(value, "greatest"),
        set: value["set"].as_f64().map(VolumeRate::from_si),
        leak: flow(value, "leak"),
        leak_at: pressure(value, "leak_at"),
        power: value["power"].as_f64().map(Power::from_si),
        cut_off,
        surplus_is_pumped: value["surplus_is_pumped"].as_bool().expect("yes or no"),
    }
}

fn divided(value: &Value) -> DividedPumps {
    let leg = |value: &Value| Leg {
        greatest: flow(value, "greatest"),
        leak: flow(value, "leak"),
        leak_at: pressure(value, "leak_at"),
        functions: pressure(value, "functions"),
        divider: (!value["divider"].is_null()).then(|| Divider {
            set: flow(&value["divider"], "set"),
            metering: pressure(&value["divider"], "metering"),
            excess: pressure(&value["divider"], "excess"),
        }),
    };
    DividedPumps {
        legs: value["legs"].as_array().expect("pumps").iter().map(leg).collect(),
        limit: value["limit"].as_f64().map(Power::from_si),
        sum: match word(value, "sum") {
            "pressure-sum" => LimiterSum::PressureSum,
            "individual" => LimiterSum::Individual,
            other => panic!("a limiter that acts on {other}"),
        },
    }
}

fn shared(value: &Value) -> Functions {
    let order = match word(value, "order") {
        "parallel" => Order::Parallel,
        "head-first" => Order::HeadFirst,
        "pre-compensated" => Order::PreCompensated,
        other => panic!("an order of {other}"),
    };
    Functions::Shared { order, wanted: flow(value, "wanted"), pressure: pressure(value, "pressure") }
}

fn circuit(value: &Value) -> Circuit {
    let oil = oil(&value["oil"]);
    let drain = &value["drain"];
    Circuit {
        source: source(&value["source"]),
        functions: match (&value["divided"], &value["shared"]) {
            (Value::Null, Value::Null) => None,
            (Value::Null, beside) => Some(shared(beside)),
            (pumps, _) => Some(Functions::Divided(divided(pumps))),
        },
        relief: Some(Relief {
            cracking: pressure(&value["relief"], "cracking"),
            full_flow: pressure(&value["relief"], "full_flow"),
            behind: pressure(&value["relief"], "behind"),
            seat: VolumeRate::from_si(0.0),
        }),
        supply: way(&value["supply"], &oil),
        back: way(&value["back"], &oil),
        drain: (!drain.is_null()).then(|| DrainLine {
            share: figure(drain, "share"),
            stated: flow(drain, "stated"),
            stalled: flow(drain, "stalled"),
            line: CaseLine {
                line: way(&drain["line"], &oil),
                tank: pressure(drain, "tank"),
                tank_above: length(drain, "above"),
            },
        }),
        oil,
    }
}

/// Two solutions of one node; what is next to nothing beside `of` is nothing.
#[track_caller]
fn near(what: &str, ours: f64, theirs: f64, of: f64, opinion: &Value) {
    let apart = (ours - theirs).abs();
    assert!(apart <= APART * theirs.abs().max(of), "{what}: ours {ours}, theirs {theirs}: {opinion}");
}

/// Flow and pressure at every node of 1 000 circuits, what goes over relief and bypass and to the functions, and the whole
/// heat: within a millionth.
#[test]
#[ignore = "needs Python: make second-opinion"]
fn whole_circuits_agree_with_the_formulas_of_the_trade() {
    let opinions = opinions("circuit");
    assert!(opinions.len() >= 1000);
    let mut seen = HashMap::<&str, usize>::new();
    let mut count = |what: &'static str, holds: bool| *seen.entry(what).or_default() += usize::from(holds);
    for opinion in &opinions {
        let answer = &opinion["answer"];
        let circuit = circuit(opinion);
        let at = match circuit.balance(pressure(opinion, "motor")) {
            Balanced::Turns(at) => {
                assert_eq!(answer["stalls"], Value::Bool(false), "{opinion}");
                at
            }
            Balanced::Stalls(at) => {
                assert_eq!(answer["stalls"], Value::Bool(true), "{opinion}");
                at
            }
            Balanced::NoSuchPoint => panic!("{opinion}"),
        };
        nodes_agree(&circuit, &at, opinion);
        count("stalls", at.flow.si() <= 0.0);
        count("limited by power", answer["limited"] == Value::Bool(true));
        count("relief half open", at.flow.si() > 0.0 && circuit.over_relief(&at).si() > 0.0);
        count("filter on its bypass", answer["on_bypass"] == Value::Bool(true));
        count("case line", at.case.is_some());
        count("load sensing", matches!(circuit.source.cut_off, Some(CutOff::LoadSensing { .. })));
        let (mut given, mut taken) = (false, false);
        if let Some((functions, _)) = circuit.to_functions(&at) {
            near("to the functions", functions.si(), figure(answer, "functions"), figure(answer, "pumped"), opinion);
            (given, taken) = (at.flow.si() > 0.0, at.flow < circuit.source.flow_at(at.supply) * 0.999);
        }
        count("beside functions", given);
        count("short of oil beside functions", given && taken);
        count("compensated", matches!(circuit.source.cut_off, Some(CutOff::Compensated { .. })));
        if let Some(Functions::Divided(pumps)) = &circuit.functions {
            let legs = pumps.at(at.supply);
            legs_agree(&legs, pumps, opinion);
            for (leg, divided) in pumps.legs.iter().zip(&legs) {
                count("both have oil", leg.divider.is_some() && divided.state == DividerState::Both);
                count("functions shut", divided.state == DividerState::FunctionsShut);
                count("all to the head", divided.state == DividerState::AllToHead);
            }
        }
    }
    let rare: Vec<_> = seen.iter().filter(|(_, times)| **times < 15).collect();
    assert!(rare.is_empty(), "hardly tried: {rare:?} of {seen:?}");
}

#[track_caller]
fn nodes_agree(circuit: &Circuit, at: &Operating, opinion: &Value) {
    let answer = &opinion["answer"];
    let theirs = |name| figure(answer, name);
    // A pressure near none beside the relief's, a flow beside all that the pumps give.
    let (bar, litre) = (circuit.relief.map_or(0.0, |relief| relief.full_flow.si()), theirs("pumped"));
    near("flow", at.flow.si(), theirs("flow"), 0.0, opinion);
    near("supply", at.supply.si(), theirs("supply"), 0.0, opinion);
    near("inlet", at.inlet.si(), theirs("inlet"), 0.0, opinion);
    near("outlet", at.outlet.si(), theirs("outlet"), 0.0, opinion);
    near("pumped", at.pumped.si(), theirs("pumped"), 0.0, opinion);
    near("over the relief", circuit.over_relief(at).si(), theirs("over_relief"), litre, opinion);
    if let Some(case) = at.case {
        near("case", case.si(), theirs("case"), 1e-3 * bar, opinion);
    }
    assert_eq!(at.case.is_some(), answer.get("case").is_some(), "{opinion}");
    if answer.get("pump").is_some() {
        near("pump", circuit.at_pumps(at).si(), theirs("pump"), 0.0, opinion);
    }
    let motor = Motor {
        displacement: Displacement::from_si(1e-5),
        volumetric: figure(opinion, "eta_v"),
        hydromechanical: figure(opinion, "eta_hm"),
        ratio: 1.0,
    };
    let [pumps, useful] = ["eta_pump", "useful"].map(|name| Ratio::from_si(figure(opinion, name)));
    let ledger = circuit.ledger(at, &motor, pumps, useful);
    near("heat", ledger.warms().si(), theirs("heat"), 0.0, opinion);
}

#[track_caller]
fn legs_agree(ours: &[Divided], pumps: &DividedPumps, opinion: &Value) {
    let theirs = opinion["answer"]["legs"].as_array().expect("pumps");
    assert_eq!(ours.len(), theirs.len());
    // Where both pumps of a shared limit float, their pressures are not settled by what they give: the flows are the same.
    let floating = ours.iter().filter(|leg| leg.state == DividerState::FunctionsShut).count();
    for ((ours, theirs), leg) in ours.iter().zip(theirs).zip(&pumps.legs) {
        let litre = leg.greatest.si();
        near("to the head", ours.head.si(), figure(theirs, "head"), litre, opinion);
        near("to the functions", ours.functions.si(), figure(theirs, "functions"), litre, opinion);
        if floating < 2 {
            near("pump of a divider", ours.pump.si(), figure(theirs, "pump"), 0.0, opinion);
        }
    }
}
