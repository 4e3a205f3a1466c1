//! Whether the oil in the tank does for the day: thin enough to be started and warmed, thick enough when it is hot.
//!
//! All figures are those of its grade's mid-point (ISO 3448) or of its data sheet: the limits are rules of practice, and no finer than
//! a grade's ±10 %.

use crate::assume::HEAT_BAND;
use crate::facts::Facts;
use crate::installation::warmth::HeatOverTemperature;
use crate::judge::{self, missing, to_prove, yes_no};
use crate::question::Findings;
use crate::sample::{Corner, End, Sample};
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::oil::{START_MOST_MM2_S, WORK_LEAST_MM2_S};
use quantity::shop::celsius;
use quantity::{Amount, KinematicViscosity, Quantity, ThermodynamicTemperature, Unit, Until, halved};
use table::AssumptionId;

/// The thickest that VG 46 may be at 40 °C, mm²/s (ISO 3448: ±10 %).
const USUAL_MM2_S: f64 = 50.6;

/// What speaks against the oil, whatever the head demands; nothing where it does. Of an oil that is not stated nothing can be said.
pub fn against(facts: &Facts) -> Vec<Check> {
    if !facts.oil.fact.is_known() {
        return vec![missing(CheckId::Oil, Class::Damage, &[facts.unstated(FactId::OilGrade)])];
    }
    facts.sample(Corner::Likely).take(&facts.oil, End::High);
    [too_thin(facts), too_thick(facts), too_thick_to_start(facts)].into_iter().flatten().collect()
}

/// The lowest temperature at which the oil in the tank may be started, by its likely viscosity; none where it is not stated.
pub fn coldest_start(facts: &Facts) -> Option<ThermodynamicTemperature> {
    let likely = facts.oil.fact.is_known().then(|| Sample::new(Corner::Likely).take(&facts.oil, End::High))?;
    Some(facts.oil_curve(likely).temperature_at(mm2_s(START_MOST_MM2_S)))
}

/// Whether the oil could get too thin for work before it is so hot that work ends.
pub fn may_get_too_thin(facts: &Facts) -> bool {
    facts.oil.fact.is_known() && viscosity(facts, stop(facts)) < mm2_s(WORK_LEAST_MM2_S)
}

fn mm2_s(value: f64) -> KinematicViscosity {
    KinematicViscosity::from_si(Unit::SquareMillimetrePerSecond.to_si(value))
}

fn viscosity(facts: &Facts, at: ThermodynamicTemperature) -> KinematicViscosity {
    facts.oil_curve(Sample::new(Corner::Likely).take(&facts.oil, End::High)).viscosity(at)
}

/// Where work ends: the oil gets no hotter.
fn stop(facts: &Facts) -> ThermodynamicTemperature {
    facts.practice.limit(AssumptionId::OilStop).nominal
}

fn cooler_of(a: ThermodynamicTemperature, b: ThermodynamicTemperature) -> ThermodynamicTemperature {
    if a.si() < b.si() { a } else { b }
}

fn not_met(reason: Reason) -> Check {
    yes_no(CheckId::Oil, Class::Damage, Outcome::NotMet, reason, &[])
}

/// At least 10 mm²/s at the hottest that the oil settles to (common practice, no published source). Where the balance of heat is too
/// close to say, half an hour's run shows it; where there is none, what it lacks decides.
fn too_thin(facts: &Facts) -> Option<Check> {
    let least = mm2_s(WORK_LEAST_MM2_S);
    if !may_get_too_thin(facts) {
        return None;
    }
    let thin = |at: ThermodynamicTemperature| viscosity(facts, at) < least;
    let fails = |at: ThermodynamicTemperature| {
        let (settles, viscosity) = (Amount::of(at), Amount::of(viscosity(facts, at)));
        not_met(Reason::OilTooThin { settles, viscosity, least: Amount::of(least) })
    };
    let unknown = |lacking: &[FactId]| {
        let at_work = facts.conditions.working;
        Some(if thin(at_work) { fails(at_work) } else { missing(CheckId::Oil, Class::Damage, lacking) })
    };
    let balance = match HeatOverTemperature::of(facts) {
        Ok(balance) => balance,
        Err(lacking) => return unknown(&lacking),
    };
    let at = |times: f64| cooler_of(balance.settles(times), stop(facts));
    if !thin(at(HEAT_BAND)) {
        return None;
    }
    if let Some(lacking) = balance.unknown {
        return unknown(&[lacking]);
    }
    let likely = at(1.0);
    Some(if thin(likely) { fails(likely) } else { to_prove(CheckId::Oil, Class::Damage, &[FactId::OilSettles]) })
}

/// Whether the oil is thicker than machines usually have: above VG 46 by more than a grade's tolerance.
pub fn is_thick(facts: &Facts) -> bool {
    facts.oil.fact.is_known() && viscosity(facts, celsius(40.0)) > mm2_s(USUAL_MM2_S)
}

/// No warming up beyond 30 °C (common practice, no published source): where a workshop's own rule, or a hot motor on a case drain that
/// still is cold, asks for more, the oil is the wrong one. Of oil that is no thicker than usual the drain's check says it by itself.
fn too_thick(facts: &Facts) -> Option<Check> {
    let most = super::warmest_start(facts);
    let fails = |from: ThermodynamicTemperature| {
        not_met(Reason::OilTooThick { warm_up: Amount::of(from), most: Amount::of(most) })
    };
    if let Some(own) = facts.circuit.warm_up.map(|stated| stated.nominal).filter(|own| own.si() > most.si()) {
        return Some(fails(own));
    }
    if !is_thick(facts) {
        return None;
    }
    let lacks = |lacking: &[FactId]| Some(missing(CheckId::Oil, Class::Damage, lacking));
    let needs = super::case_pressure::needs_case_line(facts);
    if needs == Some(false) {
        return None;
    }
    match facts.case_drain() {
        None => return lacks(&[FactId::CaseLine]),
        Some(line) if !line.fitted => return None,
        Some(_) => {}
    }
    // Only how it comes out counts here: its figures belong to the check of the case pressure.
    let asked = facts.untraced();
    let hot_motor = |at: ThermodynamicTemperature| super::case_pressure::hot_motor(&asked, at).map(Findings::from);
    let speaks = |at: ThermodynamicTemperature| hot_motor(at).and_then(judge::outcome);
    let at_most = speaks(most)?;
    if needs.is_none() {
        return lacks(&[FactId::NeedsCaseLine]);
    }
    if at_most.outcome == Outcome::NotKnown {
        let open = hot_motor(most).and_then(|asked| judge::whole(asked, None))?;
        let lacking: Vec<FactId> = open.missing.iter().map(|missing| missing.fact).collect();
        return lacks(&lacking);
    }
    let silent = |at: f64| speaks(ThermodynamicTemperature::from_si(at)).is_none();
    let (_, good) = halved((most.si(), stop(facts).si()), Until::Within(0.5), silent);
    Some(fails(ThermodynamicTemperature::from_si(good)))
}

/// No thicker than 1000 mm²/s at the coldest start that somebody sets (pumps' data sheets, from memory). With no day set nothing is
/// asked.
fn too_thick_to_start(facts: &Facts) -> Option<Check> {
    let start = facts.coldest_start()?;
    let from = coldest_start(facts)?;
    let fails = || not_met(Reason::OilTooThickToStart { start: Amount::of(start), from: Amount::of(from) });
    (start.si() < from.si()).then(fails)
}
