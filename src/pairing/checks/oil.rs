//! Kind, grade and cleanliness of the oil in the machine against what the head demands.

use crate::pairing::facts::Facts;
use crate::pairing::judge::{missing, plain, together};
use crate::pairing::reasoning::Besides;
use crate::pairing::{Check, CheckId, Class, FactId, Outcome, Reason};

/// The check. A head that names no oil takes what hydraulic machines have.
pub fn check(facts: &Facts) -> Check {
    let (id, class) = (CheckId::Oil, Class::Damage);
    let result = |outcome, reason| plain(id, class, outcome, reason, &[]);
    let (demands, oil) = (&facts.head.demands, facts.carrier.oil.as_ref());
    let mut judged = Vec::new();
    facts.see_besides(Besides::OilKindsDemanded, demands.oil_kinds.as_slice());
    facts.see_besides(Besides::OilGradesDemanded, demands.oil_grades.as_slice());
    facts.see_besides(Besides::CleanlinessDemanded, demands.cleanliness);
    if !demands.oil_kinds.is_empty() {
        judged.push(match facts.see(FactId::OilKind, oil.and_then(|oil| oil.kind)) {
            None => missing(id, class, &[FactId::OilKind]),
            Some(kind) if demands.oil_kinds.contains(&kind) => result(Outcome::Met, Reason::OilAgrees),
            Some(_) => result(Outcome::NotMet, Reason::OilKindDiffers),
        });
    }
    if !demands.oil_grades.is_empty() {
        judged.push(match facts.see(FactId::OilGrade, oil.and_then(|oil| oil.grade)) {
            None => missing(id, class, &[FactId::OilGrade]),
            Some(grade) if demands.oil_grades.contains(&grade) => result(Outcome::Met, Reason::OilAgrees),
            Some(_) => result(Outcome::NotMet, Reason::OilGradeDiffers),
        });
    }
    if let Some(asked) = demands.cleanliness {
        judged.push(match facts.see(FactId::OilCleanliness, oil.and_then(|oil| oil.cleanliness)) {
            None => missing(id, class, &[FactId::OilCleanliness]),
            Some(found) if found.at_least_as_clean_as(asked) => result(Outcome::Met, Reason::OilAgrees),
            Some(_) => result(Outcome::NotMet, Reason::OilTooDirty),
        });
    }
    judged.extend(super::oil_of_the_day::against(facts));
    if judged.is_empty() { result(Outcome::Met, Reason::NoOilDemanded) } else { together(judged) }
}
