//! The cautions that belong to a pairing. Makers' manuals, local codes and licensed practice come first.

use super::Words;
use crate::pairing::{CheckId, Pairing};
use crate::table::{ChangeId, HeadKind};

impl Words<'_> {
    /// The cautions of a pairing, most general first.
    ///
    /// Sources: fluid injection from about 7 bar up (occupational-safety literature, UK research report RR976); residual
    /// pressure and isolation (29 CFR 1910.147, whose steps are common practice outside its scope too); thrown objects of
    /// rotary cutters beyond 90 m (agricultural extension literature); couplers that only seem locked (ISO 13031).
    pub fn cautions(&self, pairing: &Pairing) -> Vec<&'static str> {
        let mut cautions = vec![
            "The makers' manuals of machine and attachment, local codes and licensed practice come before this sheet.",
            "Not judged here: slope and ground, wear of hoses, pins and seals, the operator's training, transport by road.",
            "Engine off, attachment on the ground, levers worked until no pressure is left, before any line is opened.",
            "Never feel for a leak: a jet from about 7 bar up goes through skin and gloves. Whoever is hit goes to a hospital at once and says fluid injection.",
            "Hot oil and hot lines burn; oil locked in a shut-off line gains pressure as it warms.",
            "Nobody under a raised boom or arm. Press the attachment on the ground to prove that its mounting is locked.",
        ];
        if pairing.head.kind.has_heavy_rotor() {
            cautions.push("Rotors throw objects: keep everybody outside the distance in the attachment's manual, 90 m where it names none, and wait until the rotor stands.");
        }
        if pairing.head.kind == HeadKind::Auger || pairing.head.kind == HeadKind::Trencher {
            cautions.push("Nobody near a turning auger or chain; have buried services located before digging.");
        }
        let changed = |id: ChangeId| pairing.changes.iter().any(|change| change.id == id);
        if changed(ChangeId::CaseLine)
            || pairing.checks.iter().any(|c| c.id == CheckId::CasePressure && c.limit.is_some())
        {
            cautions.push(
                "Case line first on and last off, and the motor's housing filled with oil before the first start.",
            );
        }
        if changed(ChangeId::DirectReturn) {
            cautions.push("The direct return goes past the machine's oil cooler: watch the oil's temperature.");
            cautions.push("The direct return must never be shut while the motor turns: changeover valve without a blocked position, its place visible and locked.");
        }
        if changed(ChangeId::ReliefSetting) {
            cautions.push("Reset the relief before another tool goes on this circuit, and prove it with a gauge.");
        }
        cautions
    }
}
