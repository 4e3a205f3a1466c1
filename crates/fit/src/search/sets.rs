//! Sets of changes on one machine with one head: each is made and judged once, however often it is asked for.

use super::choice::{Choice, NOTHING};
use super::judgement::Judgement;
use super::reads::{self, COUPLED, Slots};
use crate::changes::{Catalogue, ChangeOption, SLOTS, Slot, apply, can_ever_apply};
use crate::checks;
use crate::facts::{Facts, Touched};
use crate::machine::{Machine, Store};
use crate::setup::Setup;
use crate::{Check, CheckId, Outcome, Setting};
use quantity::Named;
use rustc_hash::FxHashMap;
use smallvec::SmallVec;
use std::cell::{Cell, OnceCell, RefCell};
use std::rc::Rc;
use table::ChangeId;

/// One option of a set, as it was made.
#[derive(Clone, Debug)]
pub struct Made<'a> {
    /// The place of its slot.
    pub place: usize,
    /// Its index among the options of the slot.
    pub index: u8,
    /// The option.
    pub option: &'a ChangeOption,
    /// Its settings.
    pub settings: Vec<Setting>,
}

/// A set of changes with what comes of it.
#[derive(Clone, Debug)]
pub struct Plan<'a> {
    /// What is chosen.
    pub choice: Choice,
    /// The changes made with their settings, in working order.
    pub made: Vec<Made<'a>>,
    /// How every check on it comes out, in the order of the list.
    pub judged: [Judgement; CheckId::ALL.len()],
}

impl Plan<'_> {
    /// How one check comes out.
    pub fn outcome(&self, id: CheckId) -> Outcome {
        self.judged[id as usize].outcome
    }

    /// The checks that fail.
    pub fn failing(&self) -> impl Iterator<Item = &Judgement> {
        self.judged.iter().filter(|judged| judged.fails)
    }
}

/// What the options of some slots make of a machine.
pub(super) struct Step<'a> {
    machine: Machine<'a>,
    before: Option<Rc<Step<'a>>>,
    /// What was made last; none where it cannot be applied.
    made: Option<Made<'a>>,
    /// The places of all that were made, a bit each.
    places: Slots,
    facts: OnceCell<Facts<'a>>,
    /// How its checks come out, where somebody asked.
    judged: [Cell<Option<Judgement>>; CheckId::ALL.len()],
}

impl<'a> Step<'a> {
    fn of(machine: Machine<'a>, before: Option<Rc<Step<'a>>>, made: Option<Made<'a>>) -> Self {
        let places = before.as_ref().map_or(Slots::NONE, |before| before.places);
        let places = made.as_ref().map_or(places, |made| places.with(made.place));
        let judged = [const { Cell::new(None) }; CheckId::ALL.len()];
        Self { machine, before, made, places, facts: OnceCell::new(), judged }
    }

    /// What is known of it, for a search: as it was known before, but for what was touched since.
    fn facts(&self) -> &Facts<'a> {
        self.facts.get_or_init(|| {
            let (mut step, mut touched) = (self, Touched::NOTHING);
            while let Some(before) = step.before.as_deref() {
                touched = step.made.as_ref().map_or(touched, |made| touched.and(Touched::by(made.option.id)));
                if let Some(known) = before.facts.get() {
                    return known.after(touched, self.machine.setup);
                }
                step = before;
            }
            self.machine.setup.facts()
        })
    }

    /// How one of its checks comes out.
    fn judge(&self, id: CheckId) -> Judgement {
        let known = &self.judged[id as usize];
        known.get().unwrap_or_else(|| {
            let facts = self.facts();
            let judged = Judgement::of(&checks::outcome(id, facts, facts.warm_enough));
            known.set(Some(judged));
            judged
        })
    }

    /// All that was made, the last one first.
    fn made(&self) -> impl Iterator<Item = &Made<'a>> {
        std::iter::successors(Some(self), |step| step.before.as_deref()).filter_map(|step| step.made.as_ref())
    }
}

/// All sets of changes of a shop on one machine with one head.
pub struct Sets<'a> {
    /// The options of every slot.
    pub slots: Vec<Vec<&'a ChangeOption>>,
    /// Of every slot's options the larger sizes of the same part that cost no less, by their index.
    larger: Vec<Vec<SmallVec<[u8; 4]>>>,
    pub(super) steps: RefCell<FxHashMap<Choice, Rc<Step<'a>>>>,
}

impl<'a> Sets<'a> {
    /// The sets of a shop's catalogue on a machine of which these checks for a search are known.
    pub fn of(store: &'a Store, setup: Setup<'a>, catalogue: &'a Catalogue, today: &[Check]) -> Self {
        let step = Step::of(Machine::of(store, setup), None, None);
        for check in today {
            step.judged[check.id as usize].set(Some(Judgement::of(check)));
        }
        let usable = |option: &&ChangeOption| option.suits(setup.carrier) && can_ever_apply(step.facts(), option.id);
        let slots: Vec<Vec<_>> = SLOTS.iter().map(|&slot| catalogue.of_slot(slot).filter(usable).collect()).collect();
        let larger = slots.iter().map(|options| larger_sizes(options, catalogue)).collect();
        Self { slots, larger, steps: RefCell::new([(NOTHING, Rc::new(step))].into_iter().collect()) }
    }

    /// The option that a choice names.
    pub fn option(&self, place: usize, index: u8) -> &'a ChangeOption {
        self.slots[place][usize::from(index)]
    }

    /// The larger sizes of the part of an option.
    pub fn larger(&self, place: usize, index: u8) -> &[u8] {
        &self.larger[place][usize::from(index)]
    }

    /// The machine as a choice makes it.
    pub fn machine(&self, choice: &Choice) -> Machine<'a> {
        self.step(choice).machine
    }

    /// A set that is looked into.
    pub fn set(&self, choice: &Choice) -> Set<'_, 'a> {
        Set { sets: self, choice: *choice, coupled: self.step(&COUPLED.of_choice(choice)) }
    }

    /// Makes a set in working order, solves its settings and judges the changed machine. Options that do not apply to this machine
    /// are left out.
    pub fn plan(&self, choice: &Choice) -> Plan<'a> {
        let set = self.set(choice);
        let mut judged = [Judgement::TOO_HOT; CheckId::ALL.len()];
        for &id in CheckId::ALL {
            judged[id as usize] = set.judge(id);
        }
        Plan { choice: *choice, made: set.made(), judged }
    }

    /// What a choice makes of the machine: first the coupled slots, then those that stand by themselves, each in working order. What
    /// it shares with another choice is made once.
    fn step(&self, choice: &Choice) -> Rc<Step<'a>> {
        if let Some(known) = self.steps.borrow().get(choice) {
            return Rc::clone(known);
        }
        let last = |coupled: bool| choice.filled().rev().find(|&(place, _)| COUPLED.has(place) == coupled);
        let (place, index) = last(false).or_else(|| last(true)).expect("a machine without changes is known");
        let before = self.step(&choice.with(place, None));
        let option = self.option(place, index);
        let step = match apply(before.machine.among(reads::alike(choice)), option, || before.facts()) {
            Some((machine, solved)) => {
                let settings = solved.into_iter().map(|solved| solved.value).collect();
                let made = Made { place, index, option, settings };
                Step::of(machine, Some(Rc::clone(&before)), Some(made))
            }
            None => Step::of(before.machine, Some(Rc::clone(&before)), None),
        };
        let step = Rc::new(step);
        self.steps.borrow_mut().insert(*choice, Rc::clone(&step));
        step
    }
}

/// A set of changes that is looked into: what is asked of it is judged then, and remembered for all sets that share it.
pub struct Set<'s, 'a> {
    sets: &'s Sets<'a>,
    choice: Choice,
    /// What its coupled slots make of the machine.
    coupled: Rc<Step<'a>>,
}

impl<'a> Set<'_, 'a> {
    /// How one of its checks comes out.
    pub fn judge(&self, id: CheckId) -> Judgement {
        let reads = reads::of_check(id);
        if reads == COUPLED {
            return self.coupled.judge(id);
        }
        self.read(reads).judge(id)
    }

    /// What the options of some slots make of the machine, by themselves. Where one cannot be applied so, though it can with the others or
    /// the other way round, what all of them make of it.
    fn read(&self, reads: Slots) -> Rc<Step<'a>> {
        let asked = reads.of_choice(&self.choice);
        let step = self.sets.step(&asked);
        let shared = reads.both(COUPLED);
        let alike = step.places.both(shared) == self.coupled.places.both(shared);
        if alike { step } else { self.sets.step(&self.choice) }
    }

    /// Whether all of it can be applied.
    pub fn is_whole(&self) -> bool {
        let alone = |place: usize| !COUPLED.has(place);
        let made = |place: usize| self.alone(place).is_some();
        let coupled = |(place, _)| !COUPLED.has(place) || self.coupled.places.has(place);
        self.choice.filled().all(coupled) && self.choice.only(alone).filled().all(|(place, _)| made(place))
    }

    /// What was made of a slot that stands by itself.
    fn alone(&self, place: usize) -> Option<Made<'a>> {
        let step = self.read(reads::of_slot(SLOTS[place]));
        step.made().find(|made| made.place == place).cloned()
    }

    /// The changes made with their settings, in working order.
    pub fn made(&self) -> Vec<Made<'a>> {
        let alone = self.choice.only(|place| !COUPLED.has(place));
        let alone = alone.filled().filter_map(|(place, _)| self.alone(place));
        let mut made: Vec<_> = self.coupled.made().cloned().chain(alone).collect();
        made.sort_by_key(|made| made.place);
        made
    }
}

/// Of a slot's options the larger sizes that come later and cost no less.
fn larger_sizes(options: &[&ChangeOption], catalogue: &Catalogue) -> Vec<SmallVec<[u8; 4]>> {
    let cost = |option: &ChangeOption| (catalogue.cost(option), option.minutes);
    let of = |(at, option): (usize, &&ChangeOption)| {
        let later = (0..).zip(options).skip(at + 1);
        let larger = later.filter(|(_, other)| {
            let ((price, minutes), (of_other, its_minutes)) = (cost(option), cost(other));
            option.is_smaller_than(other) && price <= of_other && minutes <= its_minutes
        });
        larger.map(|(index, _)| index).collect()
    };
    options.iter().enumerate().map(of).collect()
}

/// The place of the slot that a change fills.
pub fn place_of(change: ChangeId) -> usize {
    SLOTS.iter().position(|&slot| slot == Slot::of(change)).unwrap_or(0)
}
