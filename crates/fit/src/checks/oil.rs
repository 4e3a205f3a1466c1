//! Kind, grade and cleanliness of the oil in the machine against what the head demands. A demand that its maker does not state is
//! not none: it is what heads usually demand (common practice, no published source).

use crate::facts::Facts;
use crate::judge::{missing, usual, yes_no};
use crate::question::{Finding, Findings};
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::OilCurve;
use quantity::{Interval, KinematicViscosity, Named, Quantity, Ratio, ThermodynamicTemperature, Unit};
use table::{AssumptionId, Cleanliness, OilGrade, OilKind};

const ID: CheckId = CheckId::Oil;
const CLASS: Class = Class::Damage;
/// Oils that every head takes unless its maker says otherwise: mineral ones with additives against wear, those for engines and
/// tractors among them.
const USUAL_KINDS: [OilKind; 4] = [OilKind::MineralHm, OilKind::MineralHv, OilKind::EngineOil, OilKind::Utto];

/// The check.
pub fn check<'f>(facts: &Facts) -> Findings<'f> {
    let mut judged = super::oil_of_the_day::against(facts);
    judged.extend([kind(facts), grade(facts), cleanliness(facts)]);
    // What a maker states comes before what is usual.
    judged.sort_by_key(|check| check.reason == Reason::NoOilDemanded);
    judged.into_iter().map(Finding::from).collect()
}

fn result(outcome: Outcome, reason: Reason) -> Check {
    yes_no(ID, CLASS, outcome, reason, &[])
}

fn kind(facts: &Facts) -> Check {
    let demanded = facts.oil_kinds_demanded();
    match facts.oil_kind() {
        None => missing(ID, CLASS, &[FactId::OilKind]),
        Some(kind) if demanded.contains(&kind) => result(Outcome::Met, Reason::OilAgrees),
        Some(_) if !demanded.is_empty() => result(Outcome::NotMet, Reason::OilKindDiffers),
        Some(kind) if USUAL_KINDS.contains(&kind) => as_usual(facts, AssumptionId::OilViscosity),
        Some(_) => missing(ID, CLASS, &[facts.unstated(FactId::OilKindsDemanded)]),
    }
}

/// Grades by name; where the machine states none, its oil lies in the range of practice, and so does what heads usually take.
fn grade(facts: &Facts) -> Check {
    let demanded = facts.oil_grades_demanded();
    let range: Interval<KinematicViscosity> = facts.practice.limit(AssumptionId::OilViscosity);
    let usual = |grade: OilGrade| is_usual(grade, &range);
    let by_sheet = facts.carrier.oil.as_ref().is_some_and(|oil| oil.viscosity_40.is_some());
    match facts.oil_grade() {
        Some(grade) if demanded.contains(&grade) => result(Outcome::Met, Reason::OilAgrees),
        Some(_) if !demanded.is_empty() => result(Outcome::NotMet, Reason::OilGradeDiffers),
        Some(grade) if usual(grade) => as_usual(facts, AssumptionId::OilViscosity),
        Some(_) => missing(ID, CLASS, &[facts.unstated(FactId::OilGradesDemanded)]),
        None if demanded.is_empty() && !by_sheet => as_usual(facts, AssumptionId::OilViscosity),
        None if demanded.is_empty() => match facts.oil.fact.interval() {
            Some(sheet) if sheet.nominal >= range.low && sheet.nominal <= range.high => {
                as_usual(facts, AssumptionId::OilViscosity)
            }
            _ => missing(ID, CLASS, &[facts.unstated(FactId::OilGradesDemanded)]),
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
    let in_service = in_service(facts, |range| range.high);
    match (facts.cleanliness_demanded(), facts.oil_cleanliness()) {
        (Some(asked), Some(found)) if found.at_least_as_clean_as(asked) => result(Outcome::Met, Reason::OilAgrees),
        (Some(_), Some(_)) => result(Outcome::NotMet, Reason::OilTooDirty),
        (Some(asked), None) if !in_service.at_least_as_clean_as(asked) => missing(ID, CLASS, &[FactId::OilCleanliness]),
        (None, Some(found)) if !found.at_least_as_clean_as(in_service) => {
            missing(ID, CLASS, &[facts.unstated(FactId::CleanlinessDemanded)])
        }
        (_, None) | (None, Some(_)) => as_usual(facts, AssumptionId::OilCleanliness),
    }
}

/// Met by what is usual.
fn as_usual(facts: &Facts, assumption: AssumptionId) -> Check {
    facts.usual(assumption);
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
