//! Sets of changes on one machine with one head: each is made and judged once, however often it is asked for.

use super::Setup;
use crate::pairing::changes::{Catalogue, ChangeOption, SLOTS, Slot, apply, can_ever_apply};
use crate::pairing::checks;
use crate::pairing::facts::Facts;
use crate::pairing::judge::plain;
use crate::pairing::machine::Machine;
use crate::pairing::{Check, CheckId, Class, Outcome, Reason, Setting};
use crate::quantity::Named;
use crate::table::ChangeId;
use std::cell::{OnceCell, RefCell};
use std::collections::HashMap;
use std::rc::Rc;

/// A choice for every slot: an index into the slot's options, or nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Choice([u8; SLOTS.len()]);

/// Nothing chosen.
pub const NOTHING: Choice = Choice([0; SLOTS.len()]);

impl Choice {
    /// What a slot is filled with.
    pub fn of(&self, place: usize) -> Option<u8> {
        self.0[place].checked_sub(1)
    }

    /// With a slot filled, or emptied.
    #[must_use]
    pub fn with(mut self, place: usize, index: Option<u8>) -> Self {
        self.0[place] = index.map_or(0, |index| index + 1);
        self
    }

    /// The slots that are filled, each with its index.
    pub fn filled(&self) -> impl DoubleEndedIterator<Item = (usize, u8)> {
        self.0.iter().enumerate().filter_map(|(place, index)| Some((place, index.checked_sub(1)?)))
    }

    /// Of some slots only.
    fn only(mut self, of: impl Fn(Slot) -> bool) -> Self {
        for (index, slot) in self.0.iter_mut().zip(SLOTS) {
            if !of(slot) {
                *index = 0;
            }
        }
        self
    }

    /// Of the coupled slots only.
    fn coupled(self) -> Self {
        self.only(|slot| !slot.is_separable())
    }
}

/// The checks that options of slots apart can move, whatever the circuit is.
const MOVED_APART: [CheckId; 3] = [CheckId::Mounting, CheckId::Guarding, CheckId::Coupler];

/// The checks that options of the other slots that stand by themselves can move. All others come out as the coupled slots alone make
/// them.
const MOVED_BY_SEPARABLE: [CheckId; 9] = [
    CheckId::ReturnShut,
    CheckId::PumpDemand,
    CheckId::CentreType,
    CheckId::AttachmentOff,
    CheckId::RunDown,
    CheckId::ExtraFunctions,
    CheckId::Electrics,
    CheckId::StopAndRestart,
    CheckId::ContinuousFlow,
];

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

/// How the checks of a machine come out, without figures.
#[derive(Clone, Debug)]
pub struct Judged {
    /// Of every check, in the order of the list.
    pub outcomes: [Outcome; CheckId::ALL.len()],
    /// Those that fail, in that order.
    pub failing: Vec<Check>,
}

impl Judged {
    /// From all checks, in the order of the list.
    fn of(checks: impl IntoIterator<Item = Check>) -> Self {
        let mut judged = Self { outcomes: [Outcome::Met; CheckId::ALL.len()], failing: Vec::new() };
        for (outcome, check) in judged.outcomes.iter_mut().zip(checks) {
            *outcome = check.outcome;
            if check.fails() {
                judged.failing.push(check);
            }
        }
        judged
    }

    /// With a balance of heat that was too hot before, and is put off.
    pub fn still_too_hot(self) -> Self {
        self.with(plain(CheckId::Heat, Class::Work, Outcome::NotMet, Reason::Within, &[]))
    }

    /// How one came out.
    pub fn outcome(&self, id: CheckId) -> Outcome {
        self.outcomes[id as usize]
    }

    /// With one of them judged anew.
    fn with(mut self, check: Check) -> Self {
        self.outcomes[check.id as usize] = check.outcome;
        self.failing.retain(|failing| failing.id != check.id);
        if check.fails() {
            let at = self.failing.iter().position(|failing| failing.id > check.id);
            self.failing.insert(at.unwrap_or(self.failing.len()), check);
        }
        self
    }
}

/// A set of changes with what comes of it.
#[derive(Clone, Debug)]
pub struct Plan<'a> {
    /// What is chosen.
    pub choice: Choice,
    /// The changes made with their settings, in working order.
    pub made: Vec<Made<'a>>,
    /// How every check on it comes out; the balance of heat is put off while anything else fails.
    pub judged: Judged,
}

impl Plan<'_> {
    /// Nothing changed, with how the checks of the machine as it is come out.
    pub fn nothing(today: &[Check]) -> Self {
        Self { choice: NOTHING, made: Vec::new(), judged: Judged::of(today.iter().cloned()) }
    }
}

/// What the options of some slots make of a machine.
struct Step<'a> {
    machine: Machine,
    made: Vec<Made<'a>>,
    /// How its checks come out, where somebody asked.
    judged: OnceCell<Judged>,
    /// Those of its checks that slots apart can move.
    apart: OnceCell<Vec<Check>>,
    /// Those that the other slots that stand by themselves can move.
    separable: OnceCell<Vec<Check>>,
    /// The balance of heat, where somebody asked: it takes as long as all the others.
    heat: OnceCell<Check>,
}

impl<'a> Step<'a> {
    fn of(machine: Machine, made: Vec<Made<'a>>) -> Self {
        let (judged, apart, separable, heat) = (OnceCell::new(), OnceCell::new(), OnceCell::new(), OnceCell::new());
        Self { machine, made, judged, apart, separable, heat }
    }
}

/// All sets of changes of a shop on one machine with one head.
pub struct Sets<'a> {
    /// The machine as it is.
    pub setup: Setup<'a>,
    machine: Machine,
    /// The options of every slot.
    pub slots: Vec<Vec<&'a ChangeOption>>,
    steps: RefCell<HashMap<Choice, Rc<Step<'a>>>>,
    plans: RefCell<HashMap<Choice, Rc<Plan<'a>>>>,
}

impl<'a> Sets<'a> {
    /// The sets of a shop's catalogue.
    pub fn of(setup: Setup<'a>, catalogue: &'a Catalogue) -> Self {
        let usable = |option: &&ChangeOption| option.suits(setup.carrier) && can_ever_apply(setup, option.id);
        let slots = SLOTS.iter().map(|&slot| catalogue.of_slot(slot).filter(usable).collect()).collect();
        let machine = Machine::of(setup.carrier, setup.circuit);
        Self { setup, machine, slots, steps: RefCell::default(), plans: RefCell::default() }
    }

    /// The option that a choice names.
    pub fn option(&self, place: usize, index: u8) -> &'a ChangeOption {
        self.slots[place][usize::from(index)]
    }

    /// The machine as a plan makes it.
    pub fn machine(&self, plan: &Plan) -> Machine {
        self.step(&plan.choice).machine.clone()
    }

    /// What is known of a machine.
    pub fn facts<'m>(&'m self, machine: &'m Machine) -> Facts<'m> {
        machine.facts(self.setup.head, self.setup.conditions)
    }

    /// Makes a set in working order, solves its settings and judges the changed machine. Options that do not apply to this machine
    /// are left out.
    pub fn plan(&self, choice: &Choice) -> Rc<Plan<'a>> {
        if let Some(known) = self.plans.borrow().get(choice) {
            return Rc::clone(known);
        }
        let coupled = choice.coupled();
        let alone = self.step(&coupled);
        let of = |step: &Step, ids: &[CheckId]| -> Vec<Check> {
            checks::but_for_heat(&self.facts(&step.machine).for_a_search(), ids).collect()
        };
        let mut judged = alone.judged.get_or_init(|| Judged::of(of(&alone, CheckId::ALL))).clone();
        let (apart, separable) = (choice.only(Slot::is_apart), choice.only(|slot| !slot.is_apart()));
        let (hung, made) = (self.step(&apart), self.step(&separable));
        if apart != NOTHING {
            let moved = hung.apart.get_or_init(|| of(&hung, &MOVED_APART));
            judged = moved.iter().cloned().fold(judged, Judged::with);
        }
        if separable != coupled {
            let moved = made.separable.get_or_init(|| of(&made, &MOVED_BY_SEPARABLE));
            judged = moved.iter().cloned().fold(judged, Judged::with);
        }
        if judged.failing.is_empty() {
            judged = judged.with(self.heat(&alone));
        }
        let mut made: Vec<_> = made.made.iter().chain(&hung.made).cloned().collect();
        made.sort_by_key(|made| made.place);
        let plan = Rc::new(Plan { choice: *choice, made, judged });
        self.plans.borrow_mut().insert(*choice, Rc::clone(&plan));
        plan
    }

    /// The same with the balance of heat drawn up whatever fails.
    pub fn balanced(&self, choice: &Choice) -> Rc<Plan<'a>> {
        let plan = self.plan(choice);
        if plan.judged.failing.iter().all(|check| check.id == CheckId::Heat) {
            return plan;
        }
        let heat = self.heat(&self.step(&choice.coupled()));
        Rc::new(Plan { judged: plan.judged.clone().with(heat), ..Plan::clone(&plan) })
    }

    /// Every check of a set that is made in working order on the machine as it is: nothing remembered, nothing put off.
    #[cfg(test)]
    pub fn judged_plainly(&self, choice: &Choice) -> Vec<Check> {
        let machine = choice.filled().fold(self.machine.clone(), |machine, (place, index)| {
            let Setup { head, conditions, .. } = self.setup;
            let changed = apply(&machine, head, conditions, self.option(place, index));
            changed.map_or(machine, |(changed, _)| changed)
        });
        checks::all(&self.facts(&machine).for_a_search())
    }

    /// The balance of heat.
    fn heat(&self, step: &Step<'a>) -> Check {
        let judge = || {
            let facts = self.facts(&step.machine).for_a_search();
            checks::check(CheckId::Heat, &facts, checks::warm_enough(&facts))
        };
        step.heat.get_or_init(judge).clone()
    }

    /// What a choice makes of the machine: first the coupled slots, then those that stand by themselves, each in working order. What
    /// it shares with another choice is made once.
    fn step(&self, choice: &Choice) -> Rc<Step<'a>> {
        if let Some(known) = self.steps.borrow().get(choice) {
            return Rc::clone(known);
        }
        let filled =
            |separable: bool| choice.filled().rev().find(|&(place, _)| SLOTS[place].is_separable() == separable);
        let step = match filled(true).or_else(|| filled(false)) {
            None => Step::of(self.machine.clone(), Vec::new()),
            Some((place, index)) => {
                let before = self.step(&choice.with(place, None));
                let option = self.option(place, index);
                let (mut machine, mut made) = (before.machine.clone(), before.made.clone());
                if let Some((changed, settings)) = apply(&machine, self.setup.head, self.setup.conditions, option) {
                    machine = changed;
                    made.push(Made { place, index, option, settings });
                }
                Step::of(machine, made)
            }
        };
        let step = Rc::new(step);
        self.steps.borrow_mut().insert(*choice, Rc::clone(&step));
        step
    }
}

/// The place of the slot that a change fills.
pub fn place_of(change: ChangeId) -> usize {
    SLOTS.iter().position(|&slot| slot == Slot::of(change)).unwrap_or(0)
}
