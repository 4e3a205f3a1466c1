//! What may come out better although less is known, each with its reason.

use super::Better;
use super::entry::{Entry, Place};
use fit::{Check, Outcome, Pairing};
use serde_json::Value;

const STRICTER: &str = "a demand that is stricter than what the trade usually demands vanishes with its statement";
const TO_PROVE: &str = "a check that may stay open is to be proved before work, and buys no part and moves no setting";
const LINE_S_BORE: &str = "a coupling in a direct return of which nothing is stated is of the line's bore";
const BEYOND_PRACTICE: &str = "a loss is stated that is more than practice knows";
const SPARE: &str = "a relief is set with a tenth to spare above the need where the attachment is rated for that, and as high as it may be where not";
const ANOTHER: &str = "a divider that is not stated is not there: another machine";

/// Every reason; each must be needed by some pair.
pub const REASONS: &[&str] = &[STRICTER, TO_PROVE, LINE_S_BORE, BEYOND_PRACTICE, ANOTHER];
/// The reasons that a lowered limit needs.
pub const OF_LIMITS: &[&str] = &[TO_PROVE, SPARE];

/// Why a lower limit or a greater load may make something better; nothing where it may not.
pub fn explain_limit(place: &Place, better: &Better, both: &Both) -> Option<&'static str> {
    let spare = place.pattern() == "pressure.greatest" && matches!(better, Better::Cheaper(..));
    if spare { Some(SPARE) } else { stays_open(better, both).then_some(TO_PROVE) }
}

/// What came out of a pair as it is stated, and with less of it where that was worked out.
pub struct Both<'a> {
    pub full: &'a Pairing,
    pub less: Option<&'a Pairing>,
}

/// Why this may come out better; nothing where it may not.
pub fn explain(entry: &Entry, place: &Place, better: &Better, both: &Both) -> Option<&'static str> {
    let is_divider = matches!(entry, Entry::Carrier(_)) && place.pattern() == "circuits[].divider";
    let known = [
        (STRICTER, is_stricter(entry, place).is_some_and(|checks| is_of(better, checks))),
        (LINE_S_BORE, is_coupling_in_direct_return(entry, place, better)),
        (BEYOND_PRACTICE, is_beyond_practice(entry, place, better)),
        (ANOTHER, is_divider),
        (TO_PROVE, stays_open(better, both)),
    ];
    known.into_iter().find(|(_, explains)| *explains).map(|(reason, _)| reason)
}

/// Whether one of some checks became *met*, or the verdict or the money followed from it.
fn is_of(better: &Better, checks: &[&str]) -> bool {
    match better {
        Better::Check(check) => checks.contains(check),
        Better::Verdict(..) | Better::Cheaper(..) => true,
    }
}

/// The checks that hear a demand of an attachment, where it asks for more than the trade usually does.
fn is_stricter(entry: &Entry, place: &Place) -> Option<&'static [&'static str]> {
    let Entry::Head(head) = entry else { return None };
    let demands = &head["demands"];
    let number = |value: &Value| value.as_str().and_then(|text| text.split(' ').next()?.parse::<f64>().ok());
    let cleaner = || {
        let usual = [21, 19, 16];
        let code = demands["cleanliness"].as_str().unwrap_or_default().split('/').map(str::parse::<i32>);
        code.zip(usual).any(|(stated, usual)| stated.is_ok_and(|stated| stated < usual))
    };
    let finer = || demands["filter_fineness_um"].as_f64().or_else(|| number(&demands["filter_fineness_um"]));
    let finer = || finer().is_some_and(|rating| rating < 25.0);
    // Hydraulic, engine and tractor oil will usually do.
    let usual = ["hm", "hv", "engine-oil", "utto"];
    let lacks = |kinds: &Vec<Value>| usual.iter().any(|usual| !kinds.iter().any(|kind| kind == usual));
    let other_oil = || demands["oil_kinds"].as_array().is_some_and(lacks);
    // A motor drained into a line of its own takes the return's pressure unless its maker says otherwise.
    let drained = head["outlet"]["needs_case_line"] == true;
    match place.pattern().as_str() {
        "demands.cleanliness" if cleaner() => Some(&["oil"]),
        "demands.oil_kinds" if other_oil() => Some(&["oil"]),
        "demands.filter_fineness_um" if finer() => Some(&["return-filter"]),
        "demands" if cleaner() || finer() || other_oil() => Some(&["oil", "return-filter"]),
        // Usually an attachment has nothing to be switched or driven besides, no valve of its own, and takes what power it gets.
        "extra_functions" => Some(&["extra-functions", "electrics"]),
        "centre" if head["centre"] == "closed" => Some(&["centre-type"]),
        "power" | "power.least" | "pressure.relief" => Some(&[]),
        "outlet" | "outlet.back_pressure" if drained => Some(&["back-pressure"]),
        _ => None,
    }
}

fn is_coupling_in_direct_return(entry: &Entry, place: &Place, better: &Better) -> bool {
    let Entry::Carrier(machine) = entry else { return false };
    let circuit = circuit_of(machine, place);
    matches!(place.pattern().as_str(), "circuits[].coupling" | "circuits[].coupling.size")
        && circuit.is_some_and(|circuit| circuit["return_path"]["route"] == "direct")
        && is_of(better, &["back-pressure"])
}

/// Practice knows up to 6 bar in a direct return and 25 bar through a spool.
fn is_beyond_practice(entry: &Entry, place: &Place, better: &Better) -> bool {
    let Entry::Carrier(machine) = entry else { return false };
    let Some(path) = circuit_of(machine, place).map(|circuit| &circuit["return_path"]) else { return false };
    let most = if path["route"] == "direct" { 6.0 } else { 25.0 };
    let stated = path["loss"]["loss"].as_str().and_then(|text| text.strip_suffix(" bar")?.parse::<f64>().ok());
    place.pattern() == "circuits[].return_path.loss"
        && stated.is_some_and(|stated| stated > most)
        && is_of(better, &["back-pressure"])
}

fn circuit_of<'a>(machine: &'a Value, place: &Place) -> Option<&'a Value> {
    Place(place.0.get(..2)?.to_vec()).of(machine)
}

/// Whether a check that does not hold up the verdict while it is open is open now and was not before.
fn stays_open(better: &Better, both: &Both) -> bool {
    if matches!(better, Better::Check(_)) {
        return false;
    }
    let open = |check: &&Check| check.outcome == Outcome::NotKnown && !check.blocks;
    let was_open = |check: &Check| both.full.final_checks().iter().filter(open).any(|known| known.id == check.id);
    both.less.is_some_and(|less| less.final_checks().iter().filter(open).any(|check| !was_open(check)))
}
