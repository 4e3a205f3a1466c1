//! The walk of a hand-over: one reading or trial after the other in the order of the first start, and which comes next.

use super::{FunctionCheck, Item, Planned, Standing, Step, is_needed};
use quantity::{put_in_order_by, string_enum};
use std::ops::Range;
use workshop::FirstStep;

string_enum! {
    /// How far an item is.
    "progress of an item" pub enum Progress {
        /// To be read or tried.
        Open = "open",
        /// Put off: it comes again when the others are done.
        Later = "later",
        /// Not applicable on this machine, and not asked again.
        NotApplicable = "not-applicable",
        /// Read only where something is off.
        Extra = "extra",
        /// Read or tried, and as it should be.
        Done = "done",
        /// Read or tried, and not as it should be.
        Off = "off",
        /// Over a limit, or a no that can hurt somebody.
        Stop = "stop",
    }
}

impl Progress {
    /// Whether nothing was read or tried yet, and nothing said of it.
    pub fn is_unread(self) -> bool {
        matches!(self, Self::Open | Self::Later | Self::Extra)
    }
}

/// Where one stands on the walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Station {
    /// What is to be heard before a group is begun.
    Before {
        /// The group.
        step: Step,
        /// What follows.
        then: Item,
    },
    /// A reading or a trial.
    At(Item),
    /// Who stands for it.
    End,
}

/// All that is read and tried of a hand-over, in the order of work, with how far each is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Walk {
    items: Vec<(Item, Progress)>,
}

impl Item {
    /// The group in which it is read or tried.
    pub fn step(self) -> Step {
        match self {
            Self::Reading(what) => Step::of(what),
            Self::Function(FunctionCheck::SwitchedBack | FunctionCheck::Instructed) => Step::After,
            Self::Function(_) => Step::Attachment,
        }
    }

    /// Its place within its group: what is looked at before anything turns, what is read, what is tried.
    fn turn(self) -> u8 {
        use FunctionCheck as F;
        match self {
            Self::Function(F::Locked | F::Guards | F::HosesFree | F::NoLeaks | F::Direction) => 0,
            Self::Reading(_) => 1,
            Self::Function(_) => 2,
        }
    }
}

impl Walk {
    /// The walk of what is planned and asked, given how it stands and what was put off.
    pub fn of(planned: &[Planned], asked: &[FunctionCheck], standing: &Standing, later: &[Item]) -> Self {
        let readings = planned.iter().map(|planned| Item::Reading(planned.what));
        let mut items: Vec<Item> = readings.chain(asked.iter().copied().map(Item::Function)).collect();
        put_in_order_by(&mut items, |item| (item.step(), item.turn()));
        let progress = |item: Item| {
            let not_read = matches!(item, Item::Reading(what) if !is_needed(what) && !standing.read.contains(&what));
            if standing.stop.contains(&item) {
                Progress::Stop
            } else if standing.off.contains(&item) {
                Progress::Off
            } else if standing.not_applicable.contains(&item) {
                Progress::NotApplicable
            } else if later.contains(&item) && (not_read || standing.open.contains(&item)) {
                Progress::Later
            } else if standing.open.contains(&item) || not_read && standing.reads_off() {
                Progress::Open
            } else if not_read {
                Progress::Extra
            } else {
                Progress::Done
            }
        };
        Self { items: items.into_iter().map(|item| (item, progress(item))).collect() }
    }

    /// The items in the order of work.
    pub fn items(&self) -> &[(Item, Progress)] {
        &self.items
    }

    /// The place of an item among those that are asked, from 1, and how many these are; none of one that is not asked.
    pub fn place(&self, item: Item) -> Option<(usize, usize)> {
        let asked = || self.items.iter().filter(|(_, progress)| *progress != Progress::Extra);
        asked().position(|(one, _)| *one == item).map(|place| (place + 1, asked().count()))
    }

    /// How far an item is.
    pub fn progress(&self, item: Item) -> Option<Progress> {
        self.items.iter().find(|(one, _)| *one == item).map(|(_, progress)| *progress)
    }

    /// Which item comes next: what is open behind this one, then what is open at all, then what was put off. Who puts off again what was
    /// put off goes on to the others of these, and at last to the end.
    pub fn next(&self, at: Option<Item>) -> Option<Item> {
        let here = at.and_then(|at| self.items.iter().position(|(item, _)| *item == at));
        let behind = here.map_or(0, |here| here + 1);
        let is_put_off = here.is_some_and(|here| self.items[here].1 == Progress::Later);
        let first = |wanted: Progress, from: usize, to: usize| {
            self.items[from..to].iter().find(|(_, progress)| *progress == wanted).map(|(item, _)| *item)
        };
        let (before, all) = (here.unwrap_or(0), self.items.len());
        first(Progress::Open, behind, all)
            .or_else(|| first(Progress::Open, 0, before))
            .or_else(|| first(Progress::Later, behind, all))
            .or_else(|| first(Progress::Later, 0, if is_put_off { 0 } else { before }))
    }

    /// The way to an item: past what is to be heard before its group, unless it was heard.
    pub fn towards(&self, item: Option<Item>, heard: &[Step]) -> Station {
        match item {
            Some(then) if !heard.contains(&then.step()) => Station::Before { step: then.step(), then },
            Some(item) => Station::At(item),
            None => Station::End,
        }
    }

    /// The first item of a group; none of a group without any.
    pub fn first_of(&self, step: Step) -> Option<Item> {
        self.items.iter().map(|(item, _)| *item).find(|item| item.step() == step)
    }
}

/// Which steps of the first start come before a group is read, and behind the group before it.
pub fn first_start_before(step: Step, all: &[FirstStep]) -> Range<usize> {
    let behind = |is_it: fn(&FirstStep) -> bool| all.iter().rposition(is_it).map_or(0, |place| place + 1);
    let tester =
        behind(|step| matches!(step, FirstStep::OilLevel | FirstStep::WarmThrough | FirstStep::SetValues { .. }));
    let attachment = behind(|step| matches!(step, FirstStep::Read { .. })).max(tester);
    match step {
        Step::Start => 0..0,
        Step::Tester => 0..tester,
        Step::Attachment => tester..attachment,
        Step::After => attachment..all.len(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::cases::{Case, case};
    use super::super::{Measurement, Read, standing};
    use super::*;
    use fit::{Class, Conditions};
    use quantity::Named;
    use table::read;
    use workshop::{Found, Sheets};

    fn nominal(case: &Case, what: Measurement) -> Read {
        let planned = case.planned.iter().find(|planned| planned.what == what).expect("planned");
        match &planned.reading.found {
            Found::Expected { reads } => Read { what, value: reads.nominal },
            Found::NotKnown { .. } => Read { what, value: quantity::Amount::from_si(what.dimension(), 290.0) },
        }
    }

    /// The walk with these items done as they should be.
    fn walk(case: &Case, done: &[Item], later: &[Item]) -> Walk {
        let reads: Vec<_> = done
            .iter()
            .filter_map(|item| match item {
                Item::Reading(what) => Some(nominal(case, *what)),
                Item::Function(_) => None,
            })
            .collect();
        let answer = |check| done.contains(&Item::Function(check)).then_some(true);
        let standing = standing(&case.planned, &reads, &case.asked, answer, false);
        Walk::of(&case.planned, &case.asked, &standing, later)
    }

    fn items(walk: &Walk) -> Vec<Item> {
        walk.items().iter().map(|(item, _)| *item).collect()
    }

    #[test]
    fn all_that_is_planned_and_asked_is_on_the_walk_once() {
        let case = case("quern-q56", "thistlecut-r90");
        let items = items(&walk(&case, &[], &[]));
        assert_eq!(items.len(), case.planned.len() + case.asked.len());
        for planned in &case.planned {
            assert_eq!(items.iter().filter(|item| **item == Item::Reading(planned.what)).count(), 1);
        }
        for check in &case.asked {
            assert_eq!(items.iter().filter(|item| **item == Item::Function(*check)).count(), 1);
        }
    }

    #[test]
    fn invariant_nothing_turns_before_it_was_looked_at() {
        let case = case("quern-q56", "thistlecut-r90");
        let items = items(&walk(&case, &[], &[]));
        let place = |item: Item| items.iter().position(|one| *one == item).expect("on the walk");
        let first_turning = items
            .iter()
            .position(|item| matches!(item, Item::Reading(what) if Step::of(*what) >= Step::Attachment))
            .expect("list B");
        for check in [
            FunctionCheck::Locked,
            FunctionCheck::Guards,
            FunctionCheck::HosesFree,
            FunctionCheck::NoLeaks,
            FunctionCheck::Direction,
        ] {
            assert!(place(Item::Function(check)) < first_turning, "{check:?}");
        }
        assert!(place(Item::Reading(Measurement::Relief)) < place(Item::Function(FunctionCheck::Locked)));
        assert!(place(Item::Function(FunctionCheck::Stops)) > place(Item::Reading(Measurement::RotorWorking)));
        assert_eq!(items.last(), Some(&Item::Function(FunctionCheck::Instructed)));
    }

    #[test]
    fn invariant_no_group_is_reached_before_its_caution_was_heard() {
        let case = case("quern-q56", "thistlecut-r90");
        let walk = walk(&case, &[], &[]);
        for (item, _) in walk.items() {
            let step = item.step();
            let others: Vec<_> = Step::ALL.iter().copied().filter(|one| *one != step).collect();
            assert_eq!(walk.towards(Some(*item), &others), Station::Before { step, then: *item });
            assert_eq!(walk.towards(Some(*item), &[step]), Station::At(*item));
        }
        assert_eq!(walk.towards(None, &[]), Station::End);
    }

    #[test]
    fn by_next_alone_one_comes_past_everything_that_is_needed_and_to_the_end() {
        let case = case("quern-q56", "thistlecut-r90");
        let (mut done, mut at) = (Vec::new(), None);
        while let Some(item) = walk(&case, &done, &[]).next(at) {
            assert!(!done.contains(&item), "{item:?} twice");
            done.push(item);
            at = Some(item);
        }
        let needed = case.planned.iter().filter(|planned| is_needed(planned.what)).count() + case.asked.len();
        assert_eq!(done.len(), needed);
    }

    #[test]
    fn what_is_put_off_comes_again_when_all_else_is_done_and_may_be_put_off_again() {
        let case = case("quern-q56", "thistlecut-r90");
        let all = items(&walk(&case, &[], &[]));
        let needed: Vec<_> =
            all.iter().copied().filter(|item| !matches!(item, Item::Reading(what) if !is_needed(*what))).collect();
        let later = [needed[1], needed[4]];
        let but_later: Vec<_> = needed.iter().copied().filter(|item| !later.contains(item)).collect();
        // One of the others is still open: it goes before.
        let nearly: Vec<_> = but_later[..but_later.len() - 1].to_vec();
        assert_eq!(walk(&case, &nearly, &later).next(Some(needed[1])), but_later.last().copied());
        let walk = walk(&case, &but_later, &later);
        assert_eq!(walk.progress(later[0]), Some(Progress::Later));
        assert_eq!(walk.next(but_later.last().copied()), Some(later[0]));
        assert_eq!(walk.next(Some(later[0])), Some(later[1]));
        assert_eq!(walk.next(Some(later[1])), None, "put off twice, it is not asked a third time");
    }

    #[test]
    fn what_helps_only_where_something_is_off_is_asked_only_then() {
        let case = case("quern-q56", "thistlecut-r90");
        let pump = Item::Reading(Measurement::PumpFree);
        let sound = walk(&case, &[Item::Reading(Measurement::FlowFree)], &[]);
        assert_eq!((sound.progress(pump), sound.place(pump)), (Some(Progress::Extra), None));
        let mut off = nominal(&case, Measurement::FlowFree);
        off.value = quantity::Amount::from_si(off.value.dimension(), off.value.si() * 0.5);
        let standing = standing(&case.planned, &[off], &case.asked, |_| None, false);
        let walk = Walk::of(&case.planned, &case.asked, &standing, &[]);
        assert_eq!(walk.progress(Item::Reading(Measurement::FlowFree)), Some(Progress::Off));
        assert_eq!(walk.progress(pump), Some(Progress::Open));
    }

    #[test]
    fn invariant_what_has_a_limit_or_can_hurt_is_never_left_out() {
        let case = case("quern-q56", "thistlecut-r90");
        let all = items(&walk(&case, &[], &[]));
        let stands =
            standing(&case.planned, &[], &case.asked, |_| None, true).with_not_applicable(&case.planned, all.clone());
        for item in &all {
            let may_hurt = match item {
                Item::Reading(what) => {
                    let reading = &case.planned.iter().find(|planned| planned.what == *what).expect("planned").reading;
                    reading.not_above.is_some() || reading.not_below.is_some() || reading.stop.is_some()
                }
                Item::Function(check) => check.class() == Class::Safety,
            };
            let is_open = stands.open.contains(item);
            let needed = !matches!(item, Item::Reading(what) if !is_needed(*what));
            assert_eq!(is_open, may_hurt && needed, "{item:?}");
        }
        let walk = Walk::of(&case.planned, &case.asked, &stands, &[]);
        assert!(walk.items().iter().all(|(_, progress)| *progress == Progress::NotApplicable));
        assert_eq!(walk.next(None), None, "what was said not to be there is not asked again");
    }

    #[test]
    fn the_first_start_is_told_whole_over_the_groups() {
        let table = read(include_str!("../../../public/table/demo.json")).table.expect("a table");
        let (carrier, head) = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("in the table");
        let conditions = Conditions::of_table(&table);
        let pairing = fit::pair(carrier, head, &conditions);
        let all = Sheets::of(&pairing, carrier, head, &conditions).job.expect("it fits").first_start;
        let parts: Vec<_> = Step::ALL.iter().map(|step| first_start_before(*step, &all)).collect();
        let told: Vec<usize> = parts.iter().cloned().flatten().collect();
        assert_eq!(told, (0..all.len()).collect::<Vec<_>>());
        assert!(all[parts[1].clone()].iter().any(|step| matches!(step, FirstStep::JoinLoop { .. })));
        assert!(all[parts[2].clone()].iter().any(|step| matches!(step, FirstStep::Direction { .. })));
        assert!(all[parts[3].clone()].contains(&FirstStep::StopTest));
        assert_eq!(first_start_before(Step::Tester, &[]), 0..0);
    }
}
