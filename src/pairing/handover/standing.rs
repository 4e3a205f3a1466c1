//! How a hand-over stands: what stops it, what is not as computed, what is still to be read or tried, and whether the machine may go
//! to work. A machine with changes fits only once this says that it is proven.

use super::{FunctionCheck, Measurement, Planned, Read};
use crate::pairing::Class;
use crate::pairing::sheets::Judged;
use crate::quantity::names;
use serde::Serialize;

/// What a record asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Item {
    /// To be read.
    Reading(Measurement),
    /// To be tried.
    Function(FunctionCheck),
}

names! {
    /// How a hand-over stands.
    "state of a hand-over" pub enum State {
        /// Something is beyond what may be: stop.
        Stop = "stop",
        /// Something is not as it should be.
        Off = "off",
        /// Something is still to be read or tried.
        Open = "open",
        /// All is as it should be, and nobody stands for it yet.
        Unsigned = "unsigned",
        /// All is as it should be, and somebody stands for it.
        Proven = "proven",
    }
}

/// How a hand-over stands, item by item.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Standing {
    /// Beyond what may be.
    pub stop: Vec<Item>,
    /// Not as computed, or not as it should be.
    pub off: Vec<Item>,
    /// Not read or tried yet.
    pub open: Vec<Item>,
    /// Whether somebody stands for it.
    pub signed: bool,
}

impl Standing {
    /// In one word. What nothing was asked of is not proven.
    pub fn state(&self, planned: &[Planned]) -> State {
        if !self.stop.is_empty() {
            State::Stop
        } else if !self.off.is_empty() {
            State::Off
        } else if !self.open.is_empty() || planned.is_empty() {
            State::Open
        } else if self.signed {
            State::Proven
        } else {
            State::Unsigned
        }
    }
}

/// Whether a hand-over waits for a reading; the others help where something is off.
pub fn is_needed(what: Measurement) -> bool {
    !matches!(
        what,
        Measurement::FlowBusy
            | Measurement::MotorWorking
            | Measurement::EngineFree
            | Measurement::PumpFree
            | Measurement::InletFree
            | Measurement::CaseFree
    )
}

/// How a hand-over stands, given what was planned, read, asked and answered.
pub fn standing(
    planned: &[Planned],
    read: &[Read],
    asked: &[FunctionCheck],
    answer: impl Fn(FunctionCheck) -> Option<bool>,
    signed: bool,
) -> Standing {
    let mut standing = Standing { signed, ..Standing::default() };
    for plan in planned {
        let item = Item::Reading(plan.what);
        match read.iter().find(|read| read.what == plan.what) {
            None if is_needed(plan.what) => standing.open.push(item),
            None => {}
            Some(read) => match plan.reading.judge(read.value) {
                Some(Judged::Beyond) => standing.stop.push(item),
                Some(Judged::Below | Judged::Above) => standing.off.push(item),
                // What nobody could compute is written down; its limit, where there is one, was kept.
                Some(Judged::Inside) | None => {}
            },
        }
    }
    for &check in asked {
        let item = Item::Function(check);
        match answer(check) {
            None => standing.open.push(item),
            Some(true) => {}
            Some(false) if check.class() == Class::Safety => standing.stop.push(item),
            Some(false) => standing.off.push(item),
        }
    }
    standing
}
