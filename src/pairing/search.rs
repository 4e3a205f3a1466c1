//! The cheapest set of changes that is proven to work: every set is applied, solved and checked again.

use super::changes::{Catalogue, ChangeOption, SLOTS, Slot, apply};
use super::checks;
use super::facts::Facts;
use super::{Change, ChangeReason, Check, CheckId, Conditions, Outcome, Setting};
use crate::quantity::Named;
use crate::table::{self, Carrier, ChangeId, Head};
use std::collections::{BTreeSet, BinaryHeap};

/// One auxiliary circuit of a carrier with a head, as it is.
#[derive(Clone, Copy, Debug)]
pub struct Setup<'a> {
    /// The carrier.
    pub carrier: &'a Carrier,
    /// The circuit.
    pub circuit: &'a table::Circuit,
    /// The head.
    pub head: &'a Head,
    /// Oil and shop.
    pub conditions: &'a Conditions,
}

/// A set of changes with what comes of it.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The changed carrier.
    pub carrier: Carrier,
    /// The changes made with their settings.
    pub made: Vec<(ChangeOption, Vec<Setting>)>,
    /// Every check on the changed carrier.
    pub checks: Vec<Check>,
}

/// What the search found.
#[derive(Clone, Debug)]
pub enum Found {
    /// The cheapest set that works.
    Works(Plan),
    /// No set works. The checks that fail whatever is done; when empty, something is not known that no change settles,
    /// or no set mends everything at once.
    Nothing {
        /// Checks that are not met in any set.
        unmendable: Vec<CheckId>,
        /// Whether some set leaves nothing failed, only things not known.
        only_unknown: bool,
    },
}

/// Whether a check keeps a pairing from fitting.
pub fn fails(check: &Check) -> bool {
    check.outcome == Outcome::NotMet || check.outcome == Outcome::NotKnown && check.blocks
}

/// The slots that can mend or settle a failing check. The other slots leave the check's figures as they are or only make
/// them worse.
fn mending(check: CheckId) -> &'static [Slot] {
    match check {
        CheckId::FlowWindow | CheckId::Power => &[Slot::Flow, Slot::Relief, Slot::Return],
        CheckId::RotorSpeed => &[Slot::Flow],
        CheckId::Pressure => &[Slot::Relief, Slot::Return, Slot::Flow],
        CheckId::BackPressure => &[Slot::Return, Slot::Flow],
        CheckId::CasePressure => &[Slot::Case, Slot::Return, Slot::Flow],
        CheckId::ReturnFilter => &[Slot::Filter],
        CheckId::WeightClass => &[],
        CheckId::Mounting => &[Slot::Mounting],
    }
}

/// A choice for every slot: an index into the slot's options, or nothing.
type Choice = [Option<usize>; SLOTS.len()];

/// A set that waits to be tried; the heap gives the least (cost, minutes, count, ids) first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Waiting(std::cmp::Reverse<(u64, u32, usize, Vec<&'static str>, Choice)>);

/// Looks for the cheapest set that works.
pub struct Search<'a> {
    setup: Setup<'a>,
    catalogue: &'a Catalogue,
    slots: Vec<Vec<&'a ChangeOption>>,
}

impl<'a> Search<'a> {
    /// A search in a shop's catalogue.
    pub fn new(setup: Setup<'a>, catalogue: &'a Catalogue) -> Self {
        let slots = SLOTS.iter().map(|&slot| catalogue.of_slot(slot).collect()).collect();
        Self { setup, catalogue, slots }
    }

    /// The machine as it is.
    pub fn as_it_is(&self) -> Vec<Check> {
        let Setup { carrier, circuit, head, conditions } = self.setup;
        checks::all(&Facts::gather(carrier, circuit, head, conditions))
    }

    /// Runs the search from the checks of the machine as it is.
    pub fn run(&self, today: &[Check]) -> Found {
        if let Some(found) = self.hopeless(today) {
            return found;
        }
        let mut heap = BinaryHeap::new();
        let mut seen = BTreeSet::new();
        self.expand(&[None; SLOTS.len()], today, &mut heap, &mut seen);
        while let Some(Waiting(std::cmp::Reverse((.., choice)))) = heap.pop() {
            let Some(plan) = self.build(&choice) else { continue };
            if !plan.checks.iter().any(fails) {
                return Found::Works(plan);
            }
            self.expand(&choice, &plan.checks, &mut heap, &mut seen);
        }
        Found::Nothing { unmendable: Vec::new(), only_unknown: false }
    }

    /// Whether a check fails whatever is done: tried with each slot at its strongest.
    fn hopeless(&self, today: &[Check]) -> Option<Found> {
        let fixed: Vec<_> = today.iter().filter(|check| fails(check) && self.open_slots(check.id).is_empty()).collect();
        let mut tried = vec![today.to_vec()];
        if fixed.is_empty() {
            let filter_asked = today.iter().any(|check| check.id == CheckId::ReturnFilter && fails(check));
            for choice in self.strongest(filter_asked) {
                tried.extend(self.build(&choice).map(|plan| plan.checks));
            }
        }
        let always = |id: CheckId, failing: &dyn Fn(&Check) -> bool| {
            tried.iter().all(|checks| checks.iter().any(|check| check.id == id && failing(check)))
        };
        let not_met = |check: &Check| check.outcome == Outcome::NotMet;
        let unmendable: Vec<_> = CheckId::ALL
            .iter()
            .copied()
            .filter(|&id| {
                if fixed.is_empty() { always(id, &not_met) } else { fixed.iter().any(|c| c.id == id && not_met(c)) }
            })
            .collect();
        let stuck = !fixed.is_empty() || CheckId::ALL.iter().any(|&id| always(id, &fails));
        stuck.then_some(Found::Nothing { only_unknown: unmendable.is_empty(), unmendable })
    }

    /// The slots with options that can mend a check.
    fn open_slots(&self, check: CheckId) -> Vec<usize> {
        let open = |slot: &Slot| SLOTS.iter().position(|s| s == slot).filter(|&i| !self.slots[i].is_empty());
        mending(check).iter().filter_map(open).collect()
    }

    /// Every combination of return, flow and relief with the largest size of each part; the other slots always filled, but
    /// a filter only where it is asked for: in a return that has one already it would only cost pressure.
    fn strongest(&self, filter_asked: bool) -> Vec<Choice> {
        let mut choices: Vec<Choice> = vec![[None; SLOTS.len()]];
        for (place, slot) in SLOTS.iter().enumerate() {
            let options = &self.slots[place];
            let wanted: Vec<Option<usize>> = match slot {
                Slot::Mounting | Slot::Case | Slot::Filter => vec![options.len().checked_sub(1)],
                Slot::Return => vec![None, options.len().checked_sub(1)],
                Slot::Flow => std::iter::once(None).chain((0..options.len()).map(Some)).collect(),
                Slot::Relief => vec![None, options.len().checked_sub(1)],
            };
            let returns = SLOTS.iter().position(|s| *s == Slot::Return).unwrap_or(0);
            let fills = |choice: &Choice| *slot != Slot::Filter || filter_asked || choice[returns].is_some();
            choices = choices
                .into_iter()
                .flat_map(|choice| {
                    let fill = fills(&choice);
                    wanted.iter().map(move |&option| {
                        let mut next = choice;
                        next[place] = option.filter(|_| fill);
                        next
                    })
                })
                .collect();
        }
        choices
    }

    /// Puts every set that adds one option for a failing check on the heap.
    fn expand(&self, from: &Choice, checks: &[Check], heap: &mut BinaryHeap<Waiting>, seen: &mut BTreeSet<Choice>) {
        for check in checks.iter().filter(|check| fails(check)) {
            for place in self.open_slots(check.id) {
                for option in 0..self.slots[place].len() {
                    let mut next = *from;
                    next[place] = Some(option);
                    if next != *from && seen.insert(next) {
                        heap.push(self.waiting(next));
                    }
                }
            }
        }
    }

    fn waiting(&self, choice: Choice) -> Waiting {
        let chosen = || choice.iter().enumerate().filter_map(|(place, option)| Some(self.slots[place][(*option)?]));
        let cost = chosen().map(|option| self.catalogue.cost(option)).sum();
        let minutes = chosen().map(|option| option.minutes).sum();
        let ids: Vec<_> = chosen().map(|option| option.id.name()).collect();
        Waiting(std::cmp::Reverse((cost, minutes, ids.len(), ids, choice)))
    }

    /// Applies a set in working order, solves its settings and checks the changed carrier. Options that do not apply to
    /// this machine are left out in the strongest sets; in a set that is searched they make it worthless.
    fn build(&self, choice: &Choice) -> Option<Plan> {
        let Setup { head, conditions, .. } = self.setup;
        let mut carrier = self.setup.carrier.clone();
        let mut made = Vec::new();
        for (place, option) in choice.iter().enumerate() {
            let Some(option) = option.map(|option| self.slots[place][option]) else { continue };
            let circuit = carrier.circuits.iter().find(|circuit| circuit.id == self.setup.circuit.id)?;
            let facts = Facts::gather(&carrier, circuit, head, conditions);
            if let Some((changed, settings)) = apply(&facts, option) {
                carrier = changed;
                made.push((option.clone(), settings));
            }
        }
        let circuit = carrier.circuits.iter().find(|circuit| circuit.id == self.setup.circuit.id)?;
        let checks = checks::all(&Facts::gather(&carrier, circuit, head, conditions));
        Some(Plan { carrier, made, checks })
    }

    /// The changes of a plan that works, each with the checks that fail without it.
    pub fn explain(&self, plan: &Plan, today: &[Check]) -> Vec<Change> {
        plan.made
            .iter()
            .map(|(option, settings)| {
                let mends = self.missed_without(plan, option.id);
                let outcome_today = |id: &CheckId| today.iter().find(|check| check.id == *id).map(|check| check.outcome);
                let reason = if mends.iter().any(|id| outcome_today(id) == Some(Outcome::NotMet)) {
                    ChangeReason::Mends
                } else if mends.iter().any(|id| outcome_today(id) == Some(Outcome::NotKnown)) {
                    ChangeReason::Settles
                } else {
                    ChangeReason::Follows
                };
                Change {
                    id: option.id,
                    settings: settings.clone(),
                    mends,
                    minutes: option.minutes,
                    price: self.catalogue.price(option.price),
                    part: option.part.clone(),
                    reason,
                }
            })
            .collect()
    }

    /// The checks that fail when one change of a set is left out.
    fn missed_without(&self, plan: &Plan, left_out: ChangeId) -> Vec<CheckId> {
        let mut choice = [None; SLOTS.len()];
        for (option, _) in plan.made.iter().filter(|(option, _)| option.id != left_out) {
            let place = SLOTS.iter().position(|&slot| slot == Slot::of(option.id)).unwrap_or(0);
            choice[place] = self.slots[place].iter().position(|known| *known == option);
        }
        let without = self.build(&choice);
        without.map_or_else(Vec::new, |plan| plan.checks.iter().filter(|c| fails(c)).map(|c| c.id).collect())
    }
}
