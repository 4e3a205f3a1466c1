//! How a hand-over stands: what stops it, what is not as computed, what is still to be read or tried, and whether the machine may go
//! to work. A machine with changes fits only once this says that it is proven.

use super::{FunctionCheck, Measurement, Planned, Read};
use fit::Class;
use quantity::string_enum;
use serde::Serialize;
use workshop::Judged;

/// What a record asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Item {
    /// To be read.
    Reading(Measurement),
    /// To be tried.
    Function(FunctionCheck),
}

string_enum! {
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
    /// Not applicable on this machine, as somebody has said; what may not be left out is open all the same.
    pub not_applicable: Vec<Item>,
    /// What was read.
    pub read: Vec<Measurement>,
    /// Whether somebody stands for it.
    pub signed: bool,
}

impl Standing {
    /// Whether any reading by itself is not as computed.
    pub fn reads_off(&self) -> bool {
        self.stop.iter().chain(&self.off).any(|item| matches!(item, Item::Reading(_)))
    }

    /// With what was said not to be applicable on this machine, where nothing was read or tried of it. What has a limit, or can hurt
    /// somebody, stays open until it is read or tried.
    #[must_use]
    pub fn with_not_applicable(mut self, planned: &[Planned], items: Vec<Item>) -> Self {
        let may_be_left_out = |item: &Item| match item {
            Item::Function(check) => check.class() != Class::Safety,
            Item::Reading(what) => planned.iter().filter(|planned| planned.what == *what).all(|planned| {
                let reading = &planned.reading;
                reading.not_below.is_none() && reading.not_above.is_none() && reading.stop.is_none()
            }),
        };
        self.open.retain(|item| !items.contains(item) || !may_be_left_out(item));
        self.not_applicable = items;
        self
    }

    /// With what was over its limit, or failed, before: as long as it is not read or tried again, that stops the hand-over as it did.
    #[must_use]
    pub fn with_beyond_before(mut self, items: &[Item]) -> Self {
        let is_read = |item: &Item| matches!(item, Item::Reading(what) if self.read.contains(what));
        let is_tried = |item: &Item| matches!(item, Item::Function(_)) && !self.open.contains(item);
        let still: Vec<Item> = items.iter().filter(|item| !is_read(item) && !is_tried(item)).copied().collect();
        self.open.retain(|item| !still.contains(item));
        self.stop.extend(still);
        self
    }

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
    let mut standing = Standing { signed, read: read.iter().map(|read| read.what).collect(), ..Standing::default() };
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

#[cfg(test)]
mod tests {
    use super::super::cases::{Case, case};
    use super::*;
    use quantity::Amount;
    use workshop::Found;

    /// Every needed reading at its likely figure, and every answer yes.
    fn all_well(case: &Case) -> Vec<Read> {
        let read = |planned: &Planned| match &planned.reading.found {
            Found::Expected { reads } => Read { what: planned.what, value: reads.nominal },
            Found::NotKnown { .. } => {
                Read { what: planned.what, value: Amount::from_si(planned.what.dimension(), 290.0) }
            }
        };
        case.planned.iter().filter(|planned| is_needed(planned.what)).map(read).collect()
    }

    fn stands(case: &Case, read: &[Read], no: Option<FunctionCheck>, signed: bool) -> Standing {
        standing(&case.planned, read, &case.asked, |check| Some(Some(check) != no), signed)
    }

    #[test]
    fn invariant_a_hand_over_is_proven_once_all_is_read_tried_and_signed() {
        let case = case("quern-q56", "thistlecut-r90");
        let read = all_well(&case);
        assert_eq!(stands(&case, &read, None, false).state(&case.planned), State::Unsigned);
        assert_eq!(stands(&case, &read, None, true).state(&case.planned), State::Proven);
    }

    #[test]
    fn invariant_a_hand_over_with_anything_missing_is_not_proven() {
        let case = case("quern-q56", "thistlecut-r90");
        let read = all_well(&case);
        for missing in 0..read.len() {
            let mut fewer = read.clone();
            let gone = fewer.remove(missing).what;
            let standing = stands(&case, &fewer, None, true);
            assert_eq!((standing.state(&case.planned), standing.open), (State::Open, vec![Item::Reading(gone)]));
        }
        for &check in &case.asked {
            let unanswered = |asked| (asked != check).then_some(true);
            let standing = standing(&case.planned, &read, &case.asked, unanswered, true);
            assert_eq!((standing.state(&case.planned), standing.open), (State::Open, vec![Item::Function(check)]));
        }
        assert_eq!(standing(&[], &[], &[], |_| None, true).state(&[]), State::Open, "nothing was asked");
    }

    #[test]
    fn a_no_that_can_hurt_a_person_stops_and_another_is_off() {
        let case = case("quern-q56", "thistlecut-r90");
        let read = all_well(&case);
        for &check in &case.asked {
            let state = stands(&case, &read, Some(check), true).state(&case.planned);
            let wanted = if check.class() == Class::Safety { State::Stop } else { State::Off };
            assert_eq!(state, wanted, "{check:?}");
        }
    }

    #[test]
    fn a_reading_beyond_its_limit_stops_even_where_all_else_is_well() {
        let case = case("quern-q56", "thistlecut-r90");
        let mut read = all_well(&case);
        let place = read.iter().position(|read| read.what == Measurement::CaseWorking).expect("read");
        read[place].value = Amount::from_si(read[place].value.dimension(), 1e7);
        let standing = stands(&case, &read, None, true);
        assert_eq!(standing.stop, [Item::Reading(Measurement::CaseWorking)]);
        assert_eq!(standing.state(&case.planned), State::Stop);
    }

    #[test]
    fn a_breaker_has_no_rotor_to_be_tried() {
        let case = case("quern-q27", "wrackline-b22");
        assert!(!case.planned.is_empty());
        assert!(!case.asked.contains(&FunctionCheck::Direction) && !case.asked.contains(&FunctionCheck::RunsDown));
        assert!(case.asked.contains(&FunctionCheck::Stops));
        let waiting = super::super::cases::case("quern-q27", "saltmarsh-g25");
        assert!(waiting.asked.is_empty() && waiting.planned.is_empty(), "what must not go to work is not handed over");
    }
}
