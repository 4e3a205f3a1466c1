//! What is told of a pairing by what stands on it: sheets, words, reasoning, totals, the hand-over.

mod any;
mod certain;
#[allow(dead_code, reason = "a part of it is asked for here")]
#[path = "../../crates/fit/tests/pairing/fixture.rs"]
mod fixture;
mod handover;
mod one_statement;
mod sheets;
mod sound;
mod totals;
mod words;
#[path = "../../crates/fit/tests/pairing/yard.rs"]
mod yard;

use fit::{CheckId, Verdict};
use fixture::{pair_of, stated};
use quantity::UnitSystem;
use table::{HeadKind, Mounting};
use wording::{PlainNumbers, Words};

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

/// Too light, another mounting, not enough oil for both, then pressure, then the rest.
#[test]
fn the_plainest_reason_comes_first() {
    let pairing = pair_of(|carrier, head| {
        carrier.functions.as_mut().expect("functions").least_flow = stated("145 L/min");
        carrier.circuits[0].relief_range = None;
        head.pressure.greatest = stated("150 bar");
        head.outlet.back_pressure = stated("0.3 bar");
    });
    assert_eq!(pairing.unmendable, [CheckId::Functions, CheckId::Pressure, CheckId::BackPressure]);
    let sentence = WORDS.sentence(&pairing);
    let told = sentence.strip_prefix("Does not fit. It needs ").expect(&sentence);
    let (taken, _) = told.split_once(" % of all the oil that the pumps give. ").expect(&sentence);
    let (free, work) = taken.split_once(" to ").expect(&sentence);
    let share = |text: &str| text.parse::<f64>().expect("a whole number");
    assert!(share(free) > 50.0 && share(free) < share(work) && share(work) <= 100.0, "{sentence}");
    let row = WORDS.row_below(&pairing);
    assert_eq!(row, format!("not enough oil for both (the attachment takes {taken} %), pressure and back pressure"));
    let light = pair_of(|_, head| {
        head.carrier_mass.least = stated("9000 kg");
        head.mounting.clear();
        head.mounting.push(Mounting::Standard { standard: table::MountingStandard::Iso24410, end: None });
    });
    assert_eq!(light.unmendable, [CheckId::WeightClass, CheckId::Mounting]);
}

/// What tape or eye settle with the engine off, and what is surely held, holds up no verdict; but the verdict says so.
#[test]
fn what_can_hurt_and_is_open_is_said_with_the_verdict() {
    let fits = pair_of(|_, _| {});
    assert_eq!((WORDS.verdict_of(&fits), fits.before_work.len()), ("fits as it is".to_owned(), 0));
    let one = pair_of(|_, head| head.curl_radius = None);
    assert_eq!((one.verdict, WORDS.verdict_of(&one)), (Verdict::Fits, "fits; 1 point to prove before work".to_owned()));
    let three = pair_of(|carrier, head| {
        head.kind = HeadKind::Trencher;
        let motor = head.motor.as_mut().expect("a motor");
        motor.torque_limit = stated("9 kN.m");
        (carrier.reaction_torque, head.curl_radius, head.demands.guards) = (None, None, None);
    });
    assert_eq!(three.before_work, [CheckId::Guarding, CheckId::Clearance, CheckId::TorqueLimit]);
    assert_eq!(WORDS.verdict_of(&three), "fits; 3 points to prove before work");
    assert!(WORDS.sentence(&three).starts_with("Fits; 3 points to prove before work. "));
    assert!(WORDS.to_send(&three).contains(": fits; 3 points to prove before work."));
    assert!(WORDS.comparison_to_send(&[&three]).lines[0].ends_with(": fits; 3 points to prove before work"));
    assert!(three.to_json().contains(r#""before_work":["guarding","clearance","torque-limit"]"#));
    let changed = pair_of(|carrier, head| {
        carrier.case_line.as_mut().expect("a line").fitted = false;
        head.curl_radius = None;
    });
    assert_eq!(WORDS.verdict_of(&changed), "fits after changes; 1 point to prove before work");
    assert!(WORDS.sentence(&changed).contains("fits after 1 change; 1 point to prove before work."));
    // Where it does not go to work there is nothing to prove before work.
    let open = pair_of(|_, head| (head.curl_radius, head.mass) = (None, None));
    assert!(open.verdict == Verdict::CannotSay && open.before_work.is_empty());
}
