//! Guards that the head demands against those that are fitted.

use crate::pairing::facts::Facts;
use crate::pairing::judge::plain;
use crate::pairing::{Check, CheckId, Class, FactId, Outcome, Reason};
use crate::table::{Guard, HeadKind};

/// Whether a head of a kind throws what it hits, so that a maker who names no guard has only left it out.
pub fn throws(kind: HeadKind) -> bool {
    matches!(
        kind,
        HeadKind::RotaryCutter
            | HeadKind::Flail
            | HeadKind::DrumMulcher
            | HeadKind::HammerMulcher
            | HeadKind::StumpGrinder
            | HeadKind::Saw
    )
}

/// The guards that are demanded and not fitted; none when nobody says what is fitted.
pub fn lacking(facts: &Facts) -> Option<Vec<Guard>> {
    let demanded = facts.head.demands.guards.as_deref().unwrap_or(&[]);
    let fitted = facts.carrier.guards.as_ref()?;
    Some(demanded.iter().copied().filter(|guard| !fitted.contains(guard)).collect())
}

/// The check. Protection against what falls or rolls is no window: a mulcher's window is not covered by it.
pub fn check(facts: &Facts) -> Check {
    let result =
        |outcome, reason, missing: &[FactId]| plain(CheckId::Guarding, Class::Safety, outcome, reason, missing);
    match &facts.head.demands.guards {
        None if throws(facts.head.kind) => result(Outcome::NotKnown, Reason::FactMissing, &[FactId::GuardsDemanded]),
        // Nobody says, and little flies: it is asked before the hand-over.
        None => {
            let check = result(Outcome::NotKnown, Reason::FactMissing, &[FactId::GuardsDemanded]);
            Check { blocks: false, ..check }
        }
        Some(demanded) if demanded.is_empty() => result(Outcome::Met, Reason::NoGuardsDemanded, &[]),
        Some(_) => match lacking(facts) {
            None => result(Outcome::NotKnown, Reason::FactMissing, &[FactId::Guards]),
            Some(guards) if guards.is_empty() => result(Outcome::Met, Reason::GuardsFitted, &[]),
            Some(guards) => result(Outcome::NotMet, Reason::GuardsLacking { guards }, &[]),
        },
    }
}
