//! Kind, grade and cleanliness of the oil in the machine against what the head demands. A demand that its maker does not state is
//! not none: it is what heads usually demand (common practice, no published source).

use crate::facts::Facts;
use crate::judge::{missing, usual, worst_of, yes_no};
use crate::trace::{Context, From, Given};
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::OilCurve;
use quantity::{Interval, Kind, KinematicViscosity, Named, Ratio, ThermodynamicTemperature, Unit};
use table::{AssumptionId, Cleanliness, OilGrade, OilKind};

const ID: CheckId = CheckId::Oil;
const CLASS: Class = Class::Damage;
/// Oils that every head takes unless its maker says otherwise: mineral ones with additives against wear, those for engines and
/// tractors among them.
const USUAL_KINDS: [OilKind; 4] = [OilKind::MineralHm, OilKind::MineralHv, OilKind::EngineOil, OilKind::Utto];

/// The check.
pub fn check(facts: &Facts) -> Check {
    let mut judged: Vec<_> = super::oil_of_the_day::against(facts).into_iter().collect();
    judged.extend([kind(facts), grade(facts), cleanliness(facts)]);
    // What a maker states comes before what is usual.
    judged.sort_by_key(|check| check.reason == Reason::NoOilDemanded);
    worst_of(judged)
}

fn result(outcome: Outcome, reason: Reason) -> Check {
    yes_no(ID, CLASS, outcome, reason, &[])
}

fn kind(facts: &Facts) -> Check {
    let demanded = facts.head.demands.oil_kinds.as_slice();
    facts.see_context(Context::OilKindsDemanded, demanded);
    match facts.see(FactId::OilKind, facts.carrier.oil.as_ref().and_then(|oil| oil.kind)) {
        None => missing(ID, CLASS, &[FactId::OilKind]),
        Some(kind) if demanded.contains(&kind) => result(Outcome::Met, Reason::OilAgrees),
        Some(_) if !demanded.is_empty() => result(Outcome::NotMet, Reason::OilKindDiffers),
        Some(kind) if USUAL_KINDS.contains(&kind) => as_usual(facts, AssumptionId::OilViscosity),
        Some(_) => missing(ID, CLASS, &[facts.lacks(FactId::OilKindsDemanded)]),
    }
}

/// Grades by name; where the machine states none, its oil lies in the range of practice, and so does what heads usually take.
fn grade(facts: &Facts) -> Check {
    let demanded = facts.head.demands.oil_grades.as_slice();
    facts.see_context(Context::OilGradesDemanded, demanded);
    let oil = facts.carrier.oil.as_ref();
    let range: Interval<KinematicViscosity> = facts.practice.limit(AssumptionId::OilViscosity);
    let usual = |grade: OilGrade| is_usual(grade, &range);
    let by_sheet = oil.is_some_and(|oil| oil.viscosity_40.is_some());
    match facts.see(FactId::OilGrade, oil.and_then(|oil| oil.grade)) {
        Some(grade) if demanded.contains(&grade) => result(Outcome::Met, Reason::OilAgrees),
        Some(_) if !demanded.is_empty() => result(Outcome::NotMet, Reason::OilGradeDiffers),
        Some(grade) if usual(grade) => as_usual(facts, AssumptionId::OilViscosity),
        Some(_) => missing(ID, CLASS, &[facts.lacks(FactId::OilGradesDemanded)]),
        None if demanded.is_empty() && !by_sheet => as_usual(facts, AssumptionId::OilViscosity),
        None if demanded.is_empty() => match facts.oil.fact.interval() {
            Some(sheet) if sheet.nominal >= range.low && sheet.nominal <= range.high => {
                as_usual(facts, AssumptionId::OilViscosity)
            }
            _ => missing(ID, CLASS, &[facts.lacks(FactId::OilGradesDemanded)]),
        },
        None => {
            let usual_grades = || OilGrade::ALL.iter().filter(|grade| usual(**grade));
            if !by_sheet && usual_grades().all(|grade| demanded.contains(grade)) {
                as_usual(facts, AssumptionId::OilViscosity)
            } else {
                missing(ID, CLASS, &[FactId::OilGrade])
            }
        }
    }
}

fn at_forty(grade: OilGrade) -> KinematicViscosity {
    OilCurve::of_grade(grade).viscosity(ThermodynamicTemperature::from_si(Unit::Celsius.to_si(40.0)))
}

fn is_usual(grade: OilGrade, range: &Interval<KinematicViscosity>) -> bool {
    // A grade at the very end belongs to the range, whatever the last digit of its curve is.
    (range.low * 0.99..=range.high * 1.01).contains(&at_forty(grade))
}

/// How clean the oil of machines in service is, at an end of the range of practice.
fn in_service(facts: &Facts, end: impl Fn(Interval<Ratio>) -> Ratio) -> Cleanliness {
    // A number of the scale, which the reader bounds.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    Cleanliness::with_last(end(facts.practice.limit(AssumptionId::OilCleanliness)).si().clamp(0.0, 28.0) as u8)
}

fn cleanliness(facts: &Facts) -> Check {
    let asked = facts.head.demands.cleanliness;
    facts.see_context(Context::CleanlinessDemanded, asked);
    let in_service = in_service(facts, |range| range.high);
    let found = facts.see(FactId::OilCleanliness, facts.carrier.oil.as_ref().and_then(|oil| oil.cleanliness));
    match (asked, found) {
        (Some(asked), Some(found)) if found.at_least_as_clean_as(asked) => result(Outcome::Met, Reason::OilAgrees),
        (Some(_), Some(_)) => result(Outcome::NotMet, Reason::OilTooDirty),
        (Some(asked), None) if !in_service.at_least_as_clean_as(asked) => missing(ID, CLASS, &[FactId::OilCleanliness]),
        (None, Some(found)) if !found.at_least_as_clean_as(in_service) => {
            missing(ID, CLASS, &[facts.lacks(FactId::CleanlinessDemanded)])
        }
        (_, None) | (None, Some(_)) => as_usual(facts, AssumptionId::OilCleanliness),
    }
}

/// Met by what is usual, which whoever listens hears.
fn as_usual(facts: &Facts, assumption: AssumptionId) -> Check {
    let besides = match assumption {
        AssumptionId::OilCleanliness => Context::UsualCleanliness,
        _ => Context::UsualGrade,
    };
    if let Some(range) = facts.practice.stated(assumption) {
        facts.see_context(besides, Given(range.nominal, From::Assumed(assumption)));
    }
    usual(ID, CLASS, Reason::NoOilDemanded, assumption)
}

/// The oils that a head takes: those that its maker names, else the usual ones, the likeliest first.
#[derive(Clone, Debug)]
pub struct Taken {
    /// Kinds.
    pub kinds: Vec<OilKind>,
    /// Grades.
    pub grades: Vec<OilGrade>,
    /// How clean.
    pub cleanliness: Cleanliness,
}

/// The oils that the head takes.
pub fn oils_taken(facts: &Facts) -> Taken {
    let demands = &facts.head.demands;
    let named_or = |named: &[OilKind]| if named.is_empty() { USUAL_KINDS.to_vec() } else { named.to_vec() };
    let range: Interval<KinematicViscosity> = facts.practice.limit(AssumptionId::OilViscosity);
    let from_likeliest = |grade: &OilGrade| (at_forty(*grade) - range.nominal).si().abs();
    let grades = if demands.oil_grades.is_empty() {
        let mut usual: Vec<_> = OilGrade::ALL.iter().copied().filter(|grade| is_usual(*grade, &range)).collect();
        usual.sort_by(|a, b| from_likeliest(a).total_cmp(&from_likeliest(b)));
        usual
    } else {
        demands.oil_grades.clone()
    };
    let usual = || in_service(facts, |range| range.nominal);
    Taken { kinds: named_or(&demands.oil_kinds), grades, cleanliness: demands.cleanliness.unwrap_or_else(usual) }
}
