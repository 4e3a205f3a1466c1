//! What to beware of: only what belongs to this pairing, what kills first, what is left to others last.
//!
//! Sources: fluid injection from about 7 bar up (occupational-safety literature, UK research report RR976); residual pressure
//! and isolation (29 CFR 1910.147, whose steps are common practice outside its scope too); trapped oil gains about 11 bar a
//! kelvin (handbook); thrown objects of rotary cutters beyond 90 m (agricultural extension literature); couplers that only seem
//! locked (ISO 13031, secondary); dust of stone and concrete with silica in it (29 CFR 1926.1153 and 1910.1053); clearance of overhead lines
//! (29 CFR 1926.1408) and services located before digging (29 CFR 1926.651(b)), all four from memory. Protection of eyes, ears and
//! hands, the blocked rotor, the isolated battery, caught oil and dry debris are common practice, no published source.

use super::{Place, Slow};
use fit::{CheckId, OilState, Pairing, Remark, Verdict};
use quantity::{Amount, Length, Quantity};
use serde::Serialize;
use table::{ChangeId, HeadKind, MachineEnd, ReturnRoute};

/// One thing to beware of.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "beware", rename_all = "kebab-case")]
pub enum Caution {
    /// Makers' manuals, local codes and licensed practice come first.
    ManualsFirst,
    /// What is not judged here.
    NotJudged,
    /// Changes that are not made yet: it does not fit today.
    NotToday,
    /// Pressure that is left in lines.
    ResidualPressure,
    /// A jet of oil goes through skin.
    Injection,
    /// Hot oil, and oil locked in that warms.
    HotOil,
    /// Nobody under a raised boom.
    RaisedBoom,
    /// Eyes, ears and hands are protected.
    Protection,
    /// Spilt oil is caught.
    CatchOil,
    /// The battery is isolated before anything is wired.
    IsolateBattery,
    /// A rotor is blocked before its teeth or blades are touched.
    BlockRotor,
    /// Dry debris on a hot machine burns.
    DryDebris,
    /// Dust of stone and concrete.
    Silica,
    /// Power lines overhead.
    OverheadLines,
    /// Services below ground.
    BuriedServices,
    /// Thrown objects.
    ThrownObjects {
        /// How far everybody stays away.
        distance: Amount,
        /// Whether the maker names it.
        stated: bool,
    },
    /// A rotor that runs on after its oil has stopped.
    RunsOn {
        /// How long, where it can be computed.
        about: Option<Amount>,
    },
    /// A turning auger or chain.
    Auger,
    /// A gas accumulator keeps its charge.
    Accumulator,
    /// Water or dust.
    WaterOrDust,
    /// Case line first on and last off, housing filled.
    CaseLineFirst,
    /// The direct return goes past the cooler.
    PastCooler,
    /// The return must never be shut while the motor turns.
    ReturnNeverShut,
    /// A tool that is shut off keeps its oil and its pressure.
    TrappedTool {
        /// Its name.
        tool: String,
    },
    /// Low idle is not low speed: the set flow comes at once.
    LowIdleNotSlow {
        /// What turns the flow down.
        how: Slow,
    },
    /// Nothing is known to turn the flow down.
    NothingSlow,
    /// Reset the relief before another tool goes on.
    ReliefBack,
    /// A divider is vented, never capped.
    DividerNeverCapped,
    /// Reverse flow destroys the motor's seal.
    NoReverse,
    /// A case coupling that fits a pressure line.
    CaseCouplingCrosses,
    /// Cold oil: idle it warm.
    ColdStart {
        /// From which temperature full speed may be asked.
        from: Amount,
    },
    /// Colder than this the oil is too thick to be started.
    StartsDownTo {
        /// The lowest temperature.
        from: Amount,
    },
    /// A loader's rating is for level ground.
    LevelGround,
    /// The oil no hotter than the verdict was judged for.
    OilNoHotter {
        /// Above it, stop.
        most: Amount,
    },
    /// The end of a machine with two ends at which the attachment goes: nothing of the other end counts.
    AtEnd {
        /// The end.
        end: MachineEnd,
    },
    /// Not farther out than this.
    Reach {
        /// From the slew axis.
        reach: Amount,
        /// Over the side rather than over the front.
        over_side: bool,
        /// What hangs there at the most, where it is known.
        hangs: Option<Amount>,
        /// What may hang there, where it is known.
        allowed: Option<Amount>,
    },
}

/// What kills, of several attachments together: a jet of oil, what is thrown with the greatest of their distances, and a rotor that
/// keeps turning with the longest of their times, as far as any of them has it.
pub fn hazards(pairings: &[&Pairing]) -> Vec<Caution> {
    let zones = pairings.iter().filter_map(|pairing| throw_zone(pairing));
    let zone = zones.reduce(|a, b| if b.0.si() > a.0.si() { b } else { a });
    let heavy = || pairings.iter().filter(|pairing| pairing.head.kind.has_heavy_rotor());
    // One whose time is not known may turn longest of all.
    let known: Option<Vec<_>> = heavy().map(|pairing| pairing.coasts).collect();
    let about = known.and_then(|all| all.into_iter().reduce(|a, b| if b.si() > a.si() { b } else { a }));
    let mut all = vec![Caution::Injection];
    all.extend(zone.map(|(distance, stated)| Caution::ThrownObjects { distance, stated }));
    all.extend((heavy().count() > 0).then_some(Caution::RunsOn { about }));
    all
}

/// How far everybody stays away, and whether the maker names it; none where nothing is thrown.
fn throw_zone(pairing: &Pairing) -> Option<(Amount, bool)> {
    let stated = pairing.remarks.iter().find_map(|remark| match remark {
        Remark::ThrowZone { distance, stated } => Some((*distance, *stated)),
        _ => None,
    });
    let usual = || (Amount::of(Length::from_si(fit::assume::THROW_ZONE_METRES)), false);
    stated.or_else(|| pairing.head.kind.throws_far().then(usual))
}

/// The cautions of a pairing, as far as the pairing by itself tells them.
pub fn cautions(pairing: &Pairing) -> Vec<Caution> {
    let place = pairing.changed.as_deref().and_then(|carrier| Place::of(pairing, carrier));
    let case = pairing.final_checks().iter().any(|check| check.id == CheckId::CasePressure && check.limit.is_some());
    of(pairing, place, case)
}

/// The cautions of a pairing, by the circuit as it goes to work and whether the motor's housing has a line of its own.
pub(super) fn of(pairing: &Pairing, place: Option<Place>, case_line: bool) -> Vec<Caution> {
    let mut all = hazards(&[pairing]);
    if !pairing.changes.is_empty() {
        all.push(Caution::NotToday);
    }
    all.extend([
        Caution::ResidualPressure,
        Caution::Protection,
        Caution::HotOil,
        Caution::CatchOil,
        Caution::RaisedBoom,
    ]);
    if pairing.changes.iter().any(|change| change.id == ChangeId::Harness) {
        all.push(Caution::IsolateBattery);
    }
    all.extend(of_the_head(pairing));
    if pairing.verdict != Verdict::DoesNotFit {
        all.extend(of_the_circuit(pairing, place, case_line));
    }
    all.extend([Caution::NotJudged, Caution::ManualsFirst]);
    all
}

fn of_the_head(pairing: &Pairing) -> Vec<Caution> {
    let mut all = Vec::new();
    let kind = pairing.head.kind;
    if matches!(kind, HeadKind::Auger | HeadKind::Trencher) {
        all.push(Caution::Auger);
    }
    if kind.has_heavy_rotor() {
        all.push(Caution::BlockRotor);
    }
    if cuts_plants(kind) {
        all.push(Caution::DryDebris);
    }
    if matches!(kind, HeadKind::Breaker | HeadKind::Saw | HeadKind::ColdPlaner) {
        all.push(Caution::Silica);
    }
    all.push(Caution::OverheadLines);
    if goes_below_ground(kind) {
        all.push(Caution::BuriedServices);
    }
    for remark in &pairing.remarks {
        match remark {
            Remark::Accumulator => all.push(Caution::Accumulator),
            Remark::WaterOrDust => all.push(Caution::WaterOrDust),
            Remark::LevelGround => all.push(Caution::LevelGround),
            Remark::AtEnd { end } => all.push(Caution::AtEnd { end: *end }),
            Remark::LiftsAt { reach, over_side } => {
                let lift = pairing.final_check(CheckId::Lift);
                let (hangs, allowed) = lift.map_or((None, None), |check| (check.worst, check.limit));
                all.push(Caution::Reach { reach: *reach, over_side: *over_side, hangs, allowed });
            }
            Remark::CaseCouplingCrosses => all.push(Caution::CaseCouplingCrosses),
            _ => {}
        }
    }
    all
}

/// Whether what it cuts lies dry on the machine.
fn cuts_plants(kind: HeadKind) -> bool {
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

/// Whether it works in the ground, a road or a floor, where services may lie.
fn goes_below_ground(kind: HeadKind) -> bool {
    matches!(
        kind,
        HeadKind::Auger
            | HeadKind::Trencher
            | HeadKind::Breaker
            | HeadKind::Saw
            | HeadKind::ColdPlaner
            | HeadKind::StumpGrinder
    )
}

fn of_the_circuit(pairing: &Pairing, place: Option<Place>, case_line: bool) -> Vec<Caution> {
    let mut all = Vec::new();
    let circuit = place.map(|place| place.circuit);
    let changed = |id: ChangeId| pairing.changes.iter().any(|change| change.id == id);
    if let Some(place) = place.filter(|_| pairing.head.kind.has_rotor()) {
        match Slow::of(place, changed) {
            how @ (Slow::Divider | Slow::Regulator | Slow::Setting) => all.push(Caution::LowIdleNotSlow { how }),
            Slow::Cannot => all.push(Caution::NothingSlow),
            Slow::Engine => {}
        }
    }
    if changed(ChangeId::CaseLine) || case_line {
        all.push(Caution::CaseLineFirst);
    }
    if changed(ChangeId::DirectReturn) {
        all.push(Caution::PastCooler);
    }
    if circuit.is_some_and(|circuit| circuit.return_path.route == Some(ReturnRoute::Direct)) {
        all.push(Caution::ReturnNeverShut);
    }
    let tools = circuit.iter().flat_map(|circuit| circuit.shared_with.iter().flatten());
    let shut = tools.filter(|tool| tool.isolated == Some(true));
    all.extend(shut.map(|tool| Caution::TrappedTool { tool: tool.name.clone() }));
    if changed(ChangeId::ReliefSetting) {
        all.push(Caution::ReliefBack);
    }
    if circuit.is_some_and(|circuit| circuit.divider.is_some()) {
        all.push(Caution::DividerNeverCapped);
    }
    if changed(ChangeId::ReverseLock) {
        all.push(Caution::NoReverse);
    }
    let hottest = pairing.points.iter().rev().find(|point| point.oil == OilState::Hot);
    all.extend(hottest.map(|point| Caution::OilNoHotter { most: point.oil_temperature }));
    all.extend(pairing.warm_up.map(|from| Caution::ColdStart { from }));
    all.extend(pairing.remarks.iter().find_map(|remark| match remark {
        Remark::StartsDownTo { from } => Some(Caution::StartsDownTo { from: *from }),
        _ => None,
    }));
    all
}
