//! What is tried at the hand-over and answered by yes or no, beside what instruments read. Common practice, no published source.

use fit::{CheckId, Class, Pairing, Reason, Verdict};
use quantity::{Named, string_enum};
use table::{Head, HeadKind};

string_enum! {
    /// A function that is tried at the hand-over.
    "function check" pub enum FunctionCheck {
        /// The coupler's lock and the pins are seen in place.
        Locked = "locked",
        /// The guards that the attachment demands are on the machine.
        Guards = "guards",
        /// No hose is pinched or pulled in any position of boom and attachment.
        HosesFree = "hoses-free",
        /// Nothing leaks, looked for before the rotor turns.
        NoLeaks = "no-leaks",
        /// It turns the way that its arrow shows.
        Direction = "direction",
        /// It stops when the operator lets go or leaves the seat, and when the power is cut.
        Stops = "stops",
        /// It does not start again by itself once the power is back.
        StaysOff = "stays-off",
        /// The rotor runs down without a jerk when the flow is cut.
        RunsDown = "runs-down",
        /// Door, tilt or rotation moves both ways and holds.
        Door = "door",
        /// Boom, slew and travel move as the customer has been told that they will.
        Functions = "functions",
        /// After switch-back the other tools work, and everything stands as it was.
        SwitchedBack = "switched-back",
        /// The operator has been shown how to stop it, who must stay how far away, and the way back.
        Instructed = "instructed",
    }
}

impl FunctionCheck {
    /// What is at risk where the answer is no.
    pub fn class(self) -> Class {
        match self {
            Self::Locked
            | Self::Guards
            | Self::NoLeaks
            | Self::Direction
            | Self::Stops
            | Self::StaysOff
            | Self::SwitchedBack
            | Self::Instructed => Class::Safety,
            Self::HosesFree | Self::RunsDown => Class::Damage,
            Self::Door | Self::Functions => Class::Work,
        }
    }

    fn is_for(self, pairing: &Pairing, head: &Head) -> bool {
        let turns = !matches!(head.kind, HeadKind::Breaker | HeadKind::PlateCompactor);
        let check = |id: CheckId| pairing.final_checks().iter().find(|check| check.id == id);
        match self {
            Self::Direction => turns,
            Self::RunsDown => {
                turns && check(CheckId::RunDown).is_some_and(|check| check.reason != Reason::NoHeavyRotor)
            }
            // A guard that nobody has said not to be needed is looked for.
            Self::Guards => head.demands.guards.as_ref().is_none_or(|guards| !guards.is_empty()),
            Self::Door => !head.extra_functions.is_empty(),
            _ => true,
        }
    }
}

/// What is to be tried of a pairing, in the order of work; nothing of one that must not go to work.
pub fn function_checks(pairing: &Pairing, head: &Head) -> Vec<FunctionCheck> {
    if !matches!(pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges) {
        return Vec::new();
    }
    FunctionCheck::ALL.iter().copied().filter(|check| check.is_for(pairing, head)).collect()
}
