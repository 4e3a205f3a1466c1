//! The cheapest set of changes that is proven to work: every set is applied, solved and checked again.

use super::changes::{Catalogue, ChangeOption, SLOTS, Slot, apply};
use super::checks;
use super::facts::Facts;
use super::{Change, ChangeReason, Check, CheckId, Conditions, Outcome, Setting, Verdict};
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
    /// How every check on the changed carrier comes out.
    pub checks: Vec<Check>,
}

/// What the search found.
#[derive(Clone, Debug)]
pub enum Found {
    /// The cheapest set that works.
    Works(Plan),
    /// No set works.
    Nothing {
        /// Checks that are not met in any set.
        unmendable: Vec<CheckId>,
        /// The set, perhaps empty, that leaves nothing failed but only things not known, when there is one.
        open: Option<Plan>,
    },
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

    /// The verdict and no more. What no change can mend comes first: most machines are too light, and that is soon seen.
    pub fn verdict(&self) -> Verdict {
        let Setup { carrier, circuit, head, conditions } = self.setup;
        let facts = Facts::gather(carrier, circuit, head, conditions).for_a_search();
        let failed = |id: CheckId| checks::check(id, &facts, checks::warm_enough()).outcome == Outcome::NotMet;
        let mut unmendable = CheckId::ALL.iter().filter(|id| mending(**id).is_empty());
        if unmendable.any(|&id| failed(id)) || failed(CheckId::Mounting) && checks::can_be_bridged(&facts).is_none() {
            return Verdict::DoesNotFit;
        }
        let today = checks::all(&facts);
        if !today.iter().any(Check::fails) {
            return Verdict::Fits;
        }
        match self.run(&today) {
            Found::Works(_) => Verdict::FitsAfterChanges,
            Found::Nothing { unmendable, open: Some(_) } if unmendable.is_empty() => Verdict::CannotSay,
            Found::Nothing { .. } => Verdict::DoesNotFit,
        }
    }

    /// Runs the search from the checks of the machine as it is.
    pub fn run(&self, today: &[Check]) -> Found {
        if let Some(found) = self.hopeless(today) {
            return found;
        }
        let mut heap = BinaryHeap::new();
        let mut seen = BTreeSet::new();
        let mut open = self.open_today(today);
        self.expand(&[None; SLOTS.len()], today, &mut heap, &mut seen);
        while let Some(Waiting(std::cmp::Reverse((.., choice)))) = heap.pop() {
            let Some(plan) = self.build(&choice) else { continue };
            if !plan.checks.iter().any(Check::fails) {
                return Found::Works(plan);
            }
            self.expand(&choice, &plan.checks, &mut heap, &mut seen);
            keep_the_more_open(&mut open, plan);
        }
        Found::Nothing { unmendable: Vec::new(), open }
    }

    /// Whether a check fails whatever is done: tried with each slot at its strongest.
    fn hopeless(&self, today: &[Check]) -> Option<Found> {
        let not_met = |check: &Check| check.outcome == Outcome::NotMet;
        let fixed = today.iter().filter(|check| not_met(check) && self.open_slots(check.id).is_empty());
        let fixed: Vec<_> = fixed.map(|check| check.id).collect();
        if !fixed.is_empty() {
            return Some(Found::Nothing { unmendable: fixed, open: None });
        }
        let mut open = self.open_today(today);
        let mut tried = vec![today.to_vec()];
        let filter_asked = today.iter().any(|check| check.id == CheckId::ReturnFilter && check.fails());
        for plan in self.strongest(filter_asked).iter().filter_map(|choice| self.build(choice)) {
            tried.push(plan.checks.clone());
            keep_the_more_open(&mut open, plan);
        }
        let always = |id: CheckId, failing: &dyn Fn(&Check) -> bool| {
            tried.iter().all(|checks| checks.iter().any(|check| check.id == id && failing(check)))
        };
        let stuck = CheckId::ALL.iter().any(|&id| always(id, &Check::fails));
        let unmendable = CheckId::ALL.iter().copied().filter(|&id| always(id, &not_met)).collect();
        stuck.then_some(Found::Nothing { unmendable, open: open.map(|plan| self.without_needless(plan)) })
    }

    /// The empty plan, when nothing fails today and only something is not known.
    fn open_today(&self, today: &[Check]) -> Option<Plan> {
        let nothing_failed = today.iter().all(|check| check.outcome != Outcome::NotMet);
        nothing_failed.then(|| Plan { carrier: self.setup.carrier.clone(), made: Vec::new(), checks: today.to_vec() })
    }

    /// The plan without the changes that make no difference to how its checks come out.
    fn without_needless(&self, mut plan: Plan) -> Plan {
        let outcomes = |plan: &Plan| plan.checks.iter().map(|check| check.outcome).collect::<Vec<_>>();
        for option in plan.made.clone().into_iter().map(|(option, _)| option) {
            if let Some(less) = self.build(&self.choice_without(&plan, option.id))
                && outcomes(&less) == outcomes(&plan)
            {
                plan = less;
            }
        }
        plan
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
                Slot::Return | Slot::Relief => vec![None, options.len().checked_sub(1)],
                Slot::Flow => std::iter::once(None).chain((0..options.len()).map(Some)).collect(),
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
        for check in checks.iter().filter(|check| check.fails()) {
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
            let facts = Facts::gather(&carrier, circuit, head, conditions).for_a_search();
            if let Some((changed, settings)) = apply(&facts, option) {
                carrier = changed;
                made.push((option.clone(), settings));
            }
        }
        let circuit = carrier.circuits.iter().find(|circuit| circuit.id == self.setup.circuit.id)?;
        let checks = checks::all(&Facts::gather(&carrier, circuit, head, conditions).for_a_search());
        Some(Plan { carrier, made, checks })
    }

    /// The changes of a plan that works, each with the checks that fail without it.
    pub fn explain(&self, plan: &Plan, today: &[Check]) -> Vec<Change> {
        plan.made
            .iter()
            .map(|(option, settings)| {
                let mends = self.missed_without(plan, option.id);
                let outcome_today =
                    |id: &CheckId| today.iter().find(|check| check.id == *id).map(|check| check.outcome);
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

    /// The checks that come out worse when one change of a set is left out.
    fn missed_without(&self, plan: &Plan, left_out: ChangeId) -> Vec<CheckId> {
        let Some(without) = self.build(&self.choice_without(plan, left_out)) else { return Vec::new() };
        let pairs = plan.checks.iter().zip(&without.checks);
        pairs.filter(|(with, without)| without.fails() && with.outcome != without.outcome).map(|(c, _)| c.id).collect()
    }

    /// The choice that makes a plan, less one change.
    fn choice_without(&self, plan: &Plan, left_out: ChangeId) -> Choice {
        let mut choice = [None; SLOTS.len()];
        for (option, _) in plan.made.iter().filter(|(option, _)| option.id != left_out) {
            let place = SLOTS.iter().position(|&slot| slot == Slot::of(option.id)).unwrap_or(0);
            choice[place] = self.slots[place].iter().position(|known| *known == option);
        }
        choice
    }
}

/// Keeps of two plans the one that fails nothing and leaves less unknown, then the one with fewer changes. The empty plan
/// stays whatever comes: where nothing fails today, reading what is missing comes before any change.
fn keep_the_more_open(best: &mut Option<Plan>, plan: Plan) {
    if plan.checks.iter().any(|check| check.outcome == Outcome::NotMet) {
        return;
    }
    let key = |plan: &Plan| (plan.checks.iter().filter(|check| check.fails()).count(), plan.made.len());
    if best.as_ref().is_none_or(|best| !best.made.is_empty() && key(&plan) < key(best)) {
        *best = Some(plan);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::read;

    /// Every choice of every slot, tried.
    fn cheapest_by_trying_all(search: &Search) -> Option<(u64, u32, usize)> {
        let mut choices: Vec<Choice> = vec![[None; SLOTS.len()]];
        for place in 0..SLOTS.len() {
            let options = search.slots[place].len();
            choices = choices
                .into_iter()
                .flat_map(|choice| {
                    std::iter::once(None).chain((0..options).map(Some)).map(move |option| {
                        let mut next = choice;
                        next[place] = option;
                        next
                    })
                })
                .collect();
        }
        let works = |choice: &Choice| {
            let wanted = choice.iter().flatten().count();
            search.build(choice).is_some_and(|plan| plan.made.len() == wanted && !plan.checks.iter().any(Check::fails))
        };
        let key = |choice: &Choice| {
            let Waiting(std::cmp::Reverse((cost, minutes, count, ..))) = search.waiting(*choice);
            (cost, minutes, count)
        };
        choices.iter().filter(|choice| works(choice)).map(key).min()
    }

    #[test]
    fn the_cheapest_set_is_the_one_that_trying_all_finds() {
        let text = include_str!("../../public/table/demo.json");
        let table = read(text).table.expect("the demo table");
        let conditions = Conditions::of_table(&table);
        let catalogue = Catalogue::of(&conditions);
        let (mut mended, mut hopeless) = (0, 0);
        for carrier in &table.carriers {
            for circuit in &carrier.circuits {
                for head in &table.heads {
                    let search = Search::new(Setup { carrier, circuit, head, conditions: &conditions }, &catalogue);
                    let today = search.as_it_is();
                    let fixed = today.iter().any(|check| check.fails() && mending(check.id).is_empty());
                    let mounts = today.iter().all(|check| check.id != CheckId::Mounting || !check.fails());
                    // Trying all takes long: only pairs that the circuit decides, and of those a part.
                    if fixed || !mounts || !today.iter().any(Check::fails) || mended + hopeless >= 24 {
                        continue;
                    }
                    let found = match search.run(&today) {
                        Found::Works(plan) => {
                            let cost = plan.made.iter().map(|(option, _)| catalogue.cost(option)).sum::<u64>();
                            let minutes = plan.made.iter().map(|(option, _)| option.minutes).sum::<u32>();
                            mended += 1;
                            Some((cost, minutes, plan.made.len()))
                        }
                        Found::Nothing { .. } => {
                            hopeless += 1;
                            None
                        }
                    };
                    assert_eq!(found, cheapest_by_trying_all(&search), "{} with {}", carrier.id, head.id);
                }
            }
        }
        assert!(mended >= 12 && hopeless >= 3, "{mended} mended, {hopeless} hopeless");
    }
}
