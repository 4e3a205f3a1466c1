//! Which slots a check reads. What fills the others leaves it as it comes out, so that it is judged once for all sets that have these in
//! common; a test holds that against judging every set whole.

use super::choice::Choice;
use crate::CheckId;
use crate::changes::{SLOTS, Slot};

/// Some of the slots, a bit each, by their place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slots(u32);

impl Slots {
    /// None of them.
    pub const NONE: Self = Self(0);

    /// These.
    const fn of(slots: &[Slot]) -> Self {
        let (mut bits, mut at) = (0, 0);
        while at < SLOTS.len() {
            let mut wanted = 0;
            while wanted < slots.len() {
                if SLOTS[at] as u8 == slots[wanted] as u8 {
                    bits |= 1 << at;
                }
                wanted += 1;
            }
            at += 1;
        }
        Self(bits)
    }

    /// With others.
    const fn and(self, others: Self) -> Self {
        Self(self.0 | others.0)
    }

    /// With one more.
    #[must_use]
    pub const fn with(self, place: usize) -> Self {
        Self(self.0 | 1 << place)
    }

    /// What is among others too.
    #[must_use]
    pub const fn both(self, others: Self) -> Self {
        Self(self.0 & others.0)
    }

    /// Whether a place is among them.
    pub const fn has(self, place: usize) -> bool {
        self.0 >> place & 1 == 1
    }

    /// What a choice fills of them.
    pub fn of_choice(self, choice: &Choice) -> Choice {
        choice.only(|place| self.has(place))
    }
}

/// All slots that the circuit couples: whoever solves a setting reads all of them. A cooler and what bars the reverse move no flow and no
/// pressure, so that no setting reads these.
pub const COUPLED: Slots = {
    let (mut slots, mut place) = (Slots::NONE, 0);
    while place < SLOTS.len() {
        let moves = !SLOTS[place].is_separable() && !matches!(SLOTS[place], Slot::Cooler | Slot::Reverse);
        if moves {
            slots = slots.with(place);
        }
        place += 1;
    }
    slots
};

/// The slots that a check reads.
pub const fn of_check(check: CheckId) -> Slots {
    match check {
        CheckId::WeightClass | CheckId::Lift | CheckId::Work | CheckId::Clearance | CheckId::CreepSpeed => Slots::NONE,
        CheckId::Mounting | CheckId::Coupler => const { Slots::of(&[Slot::Mounting]) },
        CheckId::Guarding => const { Slots::of(&[Slot::Guarding]) },
        CheckId::ReturnFilter => const { Slots::of(&[Slot::Return, Slot::Filter]) },
        CheckId::ReturnShut => const { Slots::of(&[Slot::Return, Slot::Filter, Slot::ReturnRelief, Slot::Source]) },
        CheckId::FeedOrder | CheckId::StraightTravel => const { Slots::of(&[Slot::Source]) },
        CheckId::PumpDemand => of_slot(Slot::Demand),
        CheckId::CentreType => of_slot(Slot::Unload),
        CheckId::Electrics => of_slot(Slot::Harness),
        CheckId::StopAndRestart | CheckId::ContinuousFlow => const { Slots::of(&[Slot::Source, Slot::Harness]) },
        CheckId::Direction | CheckId::ReverseLock => const { Slots::of(&[Slot::Return, Slot::Source, Slot::Reverse]) },
        CheckId::AttachmentOff => COUPLED.and(of_slot(Slot::Unload)),
        CheckId::RunDown => COUPLED.and(of_slot(Slot::RunDown)),
        CheckId::ExtraFunctions => COUPLED.and(const { Slots::of(&[Slot::Reverse, Slot::Door]) }),
        CheckId::LineRating => COUPLED.and(of_slot(Slot::Reverse)),
        CheckId::Heat => COUPLED.and(of_slot(Slot::Cooler)),
        CheckId::FlowWindow
        | CheckId::RotorSpeed
        | CheckId::Pressure
        | CheckId::Power
        | CheckId::BackPressure
        | CheckId::CasePressure
        | CheckId::SharedTool
        | CheckId::ReliefOverlap
        | CheckId::Couplings
        | CheckId::Functions
        | CheckId::Oil
        | CheckId::TorqueLimit => COUPLED,
    }
}

/// The slots on which it rests whether, and how, a slot that stands by itself can be filled; the slot itself among them.
pub const fn of_slot(slot: Slot) -> Slots {
    match slot {
        Slot::Demand => const { Slots::of(&[Slot::Source, Slot::Demand]) },
        // A divider put in is vented; what lets a pump unload is then none.
        Slot::Unload => const { Slots::of(&[Slot::Source, Slot::Unload]) },
        // Wires and buttons for what drives a door, and for a divider.
        Slot::Harness => const { Slots::of(&[Slot::Source, Slot::Door, Slot::Harness]) },
        // A divider sends its oil one way as it is.
        Slot::Reverse => const { Slots::of(&[Slot::Source, Slot::Reverse]) },
        Slot::Cooler => const { Slots::of(&[Slot::Cooler]) },
        own if own.is_separable() => Slots::of(&[own]),
        _ => COUPLED,
    }
}

/// What sets share whose settings are found near each other: the way back, and what gives the flow.
pub fn alike(choice: &Choice) -> u64 {
    const NEAR: Slots = Slots::of(&[Slot::Return, Slot::Source]);
    NEAR.of_choice(choice).filled().fold(0, |sum, (place, index)| sum << 16 | (place as u64) << 8 | u64::from(index))
}
