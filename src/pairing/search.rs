//! The cheapest set of changes that is proven to work: every set is applied, solved and checked again.

mod mending;

use super::changes::{Catalogue, ChangeOption, SLOTS, Slot, apply, can_ever_apply};
use super::checks;
use super::facts::Facts;
use super::installation::sharing::sharing;
use super::machine::Machine;
use super::pace::{Pace, Steadily, step};
use super::{
    Change, ChangeReason, Check, CheckId, Conditions, Cost, FactId, FindOut, Outcome, Setting, SettingId, Sharing,
    Verdict,
};
use crate::quantity::Named;
use crate::table::{self, Carrier, ChangeId, Head};
use mending::{MAKES_KNOWN, UNMENDABLE, by_relief, is_figure_missing, mends, saves_loss};
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
    /// The changed machine.
    pub machine: Machine,
    /// The changes made with their settings.
    pub made: Vec<(ChangeOption, Vec<Setting>)>,
    /// How every check on the changed carrier comes out.
    pub checks: Vec<Check>,
}

/// What the search found.
#[derive(Clone, Debug)]
pub enum Found {
    /// The cheapest set that works, and another by other means that costs at most a tenth more.
    Works(Box<Plan>, Option<Box<Plan>>),
    /// No set works.
    Nothing {
        /// Checks that are not met in any set.
        unmendable: Vec<CheckId>,
        /// The set, perhaps empty, that leaves nothing failed but only things not known, when there is one.
        open: Option<Box<Plan>>,
    },
    /// The search gave up: no set that was tried works, one of the others may.
    GaveUp,
}

/// What trying sets in the order of their cost found.
#[derive(Default)]
struct Cheapest {
    /// The cheapest set that works.
    plan: Option<Plan>,
    /// Another one by other means.
    second: Option<Plan>,
    /// Whether sets were left untried before one that works was found.
    gave_up: bool,
}

/// What is seen before any change is looked for.
#[derive(Clone, Debug)]
pub enum Glance {
    /// Something fails that no change can mend.
    Never,
    /// Nothing fails.
    Fits,
    /// Something fails that a change may mend: every check of the machine as it is.
    Open(Vec<Check>),
}

/// What is certain before any set is tried.
enum Prospects {
    /// These checks are not met in any set.
    NeverMet(Vec<CheckId>),
    /// These checks stay open whatever is done; with none of them some set may work.
    Open(Vec<CheckId>),
}

/// Whether a relief is set by what fills the slots.
fn sets_relief(slots: &[Vec<&ChangeOption>], filled: &Choice) -> bool {
    let chosen = filled.iter().enumerate().filter_map(|(place, option)| Some(slots[place][(*option)?].id));
    chosen.into_iter().any(|id| {
        matches!(id, ChangeId::ReliefSetting | ChangeId::OwnRelief | ChangeId::PriorityShare | ChangeId::DividerRelief)
    })
}

/// How many sets are tried at the most: far more than any pairing of a usual shop needs, and no more than a phone bears.
const BUDGET: usize = 2000;

/// A choice for every slot: an index into the slot's options, or nothing.
type Choice = [Option<usize>; SLOTS.len()];

/// A set that waits to be tried; the heap gives the one first that comes to the least.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Waiting(std::cmp::Reverse<Rank>);

/// Cost, minutes, count, names, the choice itself, and whether it is known to get too hot.
type Rank = (u64, u32, usize, Vec<&'static str>, Choice, bool);

/// Looks for the cheapest set that works.
///
/// From a set that does not work yet one failing check is taken, and one option of every slot that can mend it and is not filled
/// is added in turn: whatever set works in the end holds one of them. The least cost is tried first, so that the first set that works is
/// the cheapest. The check with the fewest ways out is taken, which keeps the sets few.
pub struct Search<'a> {
    setup: Setup<'a>,
    /// The machine as it is.
    machine: Machine,
    catalogue: &'a Catalogue,
    slots: Vec<Vec<&'a ChangeOption>>,
    /// Whether a second set by other means is looked for.
    second: bool,
    /// How many sets are tried at the most.
    budget: usize,
    pace: &'a dyn Pace,
}

impl<'a> Search<'a> {
    /// A search in a shop's catalogue.
    pub fn new(setup: Setup<'a>, catalogue: &'a Catalogue) -> Self {
        let usable = |option: &&ChangeOption| option.suits(setup.carrier) && can_ever_apply(setup, option.id);
        let slots = SLOTS.iter().map(|&slot| catalogue.of_slot(slot).filter(usable).collect()).collect();
        let machine = Machine::of(setup.carrier, setup.circuit);
        Self { setup, machine, catalogue, slots, second: false, budget: BUDGET, pace: &Steadily }
    }

    /// The same, which also looks for a second set by other means.
    pub fn with_second(self) -> Self {
        Self { second: true, ..self }
    }

    /// The same at a pace.
    pub fn at_pace(self, pace: &'a dyn Pace) -> Self {
        Self { pace, ..self }
    }

    /// The machine as it is.
    pub fn as_it_is(&self) -> Vec<Check> {
        let Setup { carrier, circuit, head, conditions } = self.setup;
        checks::all(&Facts::gather(carrier, circuit, head, conditions))
    }

    /// What is seen before any change is looked for. What no change can mend comes first: most machines are too light.
    pub fn glance(&self) -> Glance {
        let Setup { carrier, circuit, head, conditions } = self.setup;
        let facts = Facts::gather(carrier, circuit, head, conditions).for_a_search();
        let warm = checks::warm_enough(&facts);
        let failed = |id: CheckId| checks::check(id, &facts, warm).outcome == Outcome::NotMet;
        let mut unmendable = UNMENDABLE.iter();
        if unmendable.any(|&id| failed(id)) || failed(CheckId::Mounting) && checks::can_be_bridged(&facts).is_none() {
            return Glance::Never;
        }
        let today = checks::all(&facts);
        if today.iter().any(Check::fails) { Glance::Open(today) } else { Glance::Fits }
    }

    /// The verdict and no more.
    pub async fn verdict(&self) -> Verdict {
        self.outcome().await.0
    }

    /// The verdict, and what the set of changes costs where there is one that works.
    pub async fn outcome(&self) -> (Verdict, Option<Cost>) {
        let today = match self.glance() {
            Glance::Never => return (Verdict::DoesNotFit, None),
            Glance::Fits => return (Verdict::Fits, None),
            Glance::Open(today) => today,
        };
        let verdict = match self.run(&today).await {
            Found::Works(plan, _) => return (Verdict::FitsAfterChanges, Some(self.cost(&plan))),
            Found::Nothing { unmendable, open: Some(_) } if unmendable.is_empty() => Verdict::CannotSay,
            Found::GaveUp => Verdict::CannotSay,
            Found::Nothing { .. } => Verdict::DoesNotFit,
        };
        (verdict, None)
    }

    /// Whether some set of changes is proven to work, from the checks of the machine as it is. Quicker than the verdict: where
    /// something stays open whatever is done, nothing more is looked for.
    pub async fn fits_after_changes(&self, today: &[Check]) -> bool {
        match self.prospects(today).await {
            Prospects::Open(parked) if parked.is_empty() => Box::pin(self.cheapest(today, &[])).await.plan.is_some(),
            Prospects::Open(_) | Prospects::NeverMet(_) => false,
        }
    }

    /// What is certain before any set is tried.
    async fn prospects(&self, today: &[Check]) -> Prospects {
        let not_met = |check: &&Check| check.outcome == Outcome::NotMet;
        let closed = |check: &&Check| self.ways_out(check, &[None; SLOTS.len()]).is_empty();
        let fixed: Vec<_> = today.iter().filter(not_met).filter(closed).map(|check| check.id).collect();
        if !fixed.is_empty() {
            return Prospects::NeverMet(fixed);
        }
        // What is not known and no change settles does not stop the search: it is what stays open of its outcome.
        let mut parked: Vec<_> =
            today.iter().filter(|check| check.fails()).filter(closed).map(|check| check.id).collect();
        let (stuck, never_met) = self.hopeless(today, &parked).await;
        if !never_met.is_empty() {
            return Prospects::NeverMet(never_met);
        }
        parked.extend(stuck);
        Prospects::Open(parked)
    }

    /// Runs the search from the checks of the machine as it is.
    pub async fn run(&self, today: &[Check]) -> Found {
        let parked = match self.prospects(today).await {
            Prospects::NeverMet(unmendable) => return Found::Nothing { unmendable, open: None },
            Prospects::Open(parked) => parked,
        };
        let found = Box::pin(self.cheapest(today, &parked)).await;
        let open = match found.plan {
            Some(plan) if parked.is_empty() => return Found::Works(Box::new(plan), found.second.map(Box::new)),
            Some(open) => Some(open),
            None if found.gave_up => return Found::GaveUp,
            // Where not all can be settled at once, a set in which nothing is plainly wrong.
            None => {
                let found = Box::pin(self.cheapest(today, CheckId::ALL)).await;
                if found.gave_up {
                    return Found::GaveUp;
                }
                found.plan
            }
        };
        let open = match open {
            Some(open) => Some(self.without_needless(open).await),
            None => None,
        };
        Found::Nothing { unmendable: Vec::new(), open }
    }

    /// The cheapest set in which nothing fails but what is parked, which may be not known but not failed; and a second one by other
    /// means.
    async fn cheapest(&self, today: &[Check], parked: &[CheckId]) -> Cheapest {
        let fails = |check: &Check| {
            if parked.contains(&check.id) { check.outcome == Outcome::NotMet } else { check.fails() }
        };
        if !today.iter().any(fails) {
            let plan = Plan { machine: self.machine.clone(), made: Vec::new(), checks: today.to_vec() };
            return Cheapest { plan: Some(plan), ..Cheapest::default() };
        }
        let mut heap = BinaryHeap::new();
        let mut seen = BTreeSet::new();
        self.expand(&[None; SLOTS.len()], today, &fails, &mut heap, &mut seen);
        let mut best: Option<(u64, Plan)> = None;
        let mut tried = 0;
        while let Some(Waiting(std::cmp::Reverse((cost, .., choice, too_hot)))) = heap.pop() {
            step(self.pace).await;
            tried += 1;
            if tried > self.budget && best.is_none() {
                return Cheapest { gave_up: true, ..Cheapest::default() };
            }
            if tried > self.budget || best.as_ref().is_some_and(|(least, _)| cost * 10 > least * 11) {
                break;
            }
            let Some(mut plan) = self.build(&choice) else { continue };
            // An option that cannot be applied here leaves the set as it was without it.
            if plan.made.len() < choice.iter().flatten().count() {
                continue;
            }
            if !plan.checks.iter().any(fails) {
                self.balance_heat(&mut plan);
            }
            if plan.checks.iter().any(fails) {
                // Put off by the build: as it was before, where nothing was done about it.
                plan.checks.iter_mut().filter(|check| too_hot && check.id == CheckId::Heat).for_each(|heat| {
                    heat.outcome = Outcome::NotMet;
                });
                self.expand(&choice, &plan.checks, &fails, &mut heap, &mut seen);
                continue;
            }
            match best {
                // Another way, not the same with more to it.
                Some((_, first)) if !ids(&first).iter().all(|id| ids(&plan).contains(id)) => {
                    return Cheapest { plan: Some(first), second: Some(plan), gave_up: false };
                }
                Some(_) => {}
                None if self.second && parked.is_empty() => best = Some((cost, plan)),
                None => return Cheapest { plan: Some(plan), ..Cheapest::default() },
            }
        }
        Cheapest { plan: best.map(|(_, plan)| plan), ..Cheapest::default() }
    }

    /// The plan without the changes that make no difference to how its checks come out: where something stays open, one may have
    /// been made for what is open anyway.
    async fn without_needless(&self, mut plan: Plan) -> Box<Plan> {
        let outcomes = |plan: &Plan| plan.checks.iter().map(|check| check.outcome).collect::<Vec<_>>();
        for id in ids(&plan) {
            step(self.pace).await;
            if let Some(mut less) = self.build(&self.choice_without(&plan, &[id])) {
                self.balance_heat(&mut less);
                if outcomes(&less) == outcomes(&plan) {
                    plan = less;
                }
            }
        }
        Box::new(plan)
    }

    /// Draws up the balance of heat that a build puts off while anything fails, also what is only parked.
    fn balance_heat(&self, plan: &mut Plan) {
        if !plan.checks.iter().any(Check::fails) {
            return;
        }
        let facts = self.facts(plan).for_a_search();
        let heat = checks::check(CheckId::Heat, &facts, checks::warm_enough(&facts));
        plan.checks.iter_mut().filter(|check| check.id == CheckId::Heat).for_each(|put_off| *put_off = heat.clone());
    }

    /// What fails whatever is done, and what of it is not met whatever is done: tried with each slot at its strongest. What is parked
    /// is known to stay open.
    async fn hopeless(&self, today: &[Check], parked: &[CheckId]) -> (Vec<CheckId>, Vec<CheckId>) {
        let not_met = |check: &Check| check.outcome == Outcome::NotMet;
        let failing = |fails: &dyn Fn(&Check) -> bool| -> Vec<CheckId> {
            today.iter().filter(|check| fails(check) && !parked.contains(&check.id)).map(|check| check.id).collect()
        };
        let (mut stuck, mut never_met) = (failing(&Check::fails), failing(&not_met));
        if stuck.is_empty() {
            return (stuck, never_met);
        }
        for choice in self.strongest(today) {
            step(self.pace).await;
            let Some(plan) = self.build(&choice) else { continue };
            stuck.retain(|id| plan.checks.iter().any(|check| check.id == *id && check.fails()));
            never_met.retain(|id| plan.checks.iter().any(|check| check.id == *id && not_met(check)));
            if stuck.is_empty() {
                break;
            }
        }
        (stuck, never_met)
    }

    /// The options that can mend or settle a check, by slot and place in it, of slots that are not filled yet.
    fn ways_out(&self, check: &Check, filled: &Choice) -> Vec<(usize, usize)> {
        // A relief is set as low as the need allows: what loses less lets it stand lower.
        let lowers = |id: ChangeId| by_relief(check) && sets_relief(&self.slots, filled) && saves_loss(id);
        // A figure that is missing may be one that a setting makes known.
        let settles = |id: ChangeId| is_figure_missing(check) && MAKES_KNOWN.contains(&id);
        let open = (0..SLOTS.len()).filter(|&place| filled[place].is_none());
        let options = |place: usize| self.slots[place].iter().enumerate().map(move |(i, option)| (place, i, option.id));
        open.flat_map(options)
            .filter(|&(.., id)| mends(check, id) || lowers(id) || settles(id))
            .map(|(place, i, _)| (place, i))
            .collect()
    }

    /// Sets with the largest size of each part: every combination of what can be asked both ways, the rest filled wherever it
    /// could be asked. A part that nobody asks for could only cost pressure.
    fn strongest(&self, today: &[Check]) -> Vec<Choice> {
        let asks = |id: ChangeId| today.iter().any(|check| check.fails() && mends(check, id));
        let wanted: Vec<ChangeId> = ChangeId::ALL.iter().copied().filter(|&id| asks(id)).collect();
        let asked = |slot: Slot| wanted.iter().any(|id| Slot::of(*id) == slot);
        let mut choices: Vec<Choice> = vec![[None; SLOTS.len()]];
        for (place, slot) in SLOTS.iter().enumerate() {
            let options = &self.slots[place];
            let last = options.len().checked_sub(1);
            let place_of = |id: ChangeId| options.iter().rposition(|option| option.id == id);
            // The last option of each change: the largest part.
            let each = || {
                let is_last = |i: &usize| options.get(i + 1).is_none_or(|next| next.id != options[*i].id);
                (0..options.len()).filter(is_last).filter(|i| wanted.contains(&options[*i].id)).map(Some)
            };
            let by_pressure = asked(Slot::Relief) || asked(Slot::Source);
            let answers: Vec<Option<usize>> = match slot {
                // Their options leave the circuit as it is: whoever has one needs no other answer.
                slot if slot.is_separable() => vec![last],
                Slot::Case | Slot::Filter | Slot::Cooler | Slot::Oil => vec![last],
                Slot::Isolation if asked(*slot) || by_pressure => vec![place_of(ChangeId::IsolateTool).or(last)],
                Slot::WarmUp if asked(*slot) => vec![last],
                // Past the spool by the largest line nothing loses less.
                Slot::Return if asked(*slot) => vec![place_of(ChangeId::DirectReturn).or(last), None],
                Slot::Source | Slot::Relief if asked(*slot) => each().chain(std::iter::once(None)).collect(),
                Slot::Supply if asked(*slot) && !options.is_empty() => each().collect(),
                Slot::Couplings if asked(*slot) => vec![last, None],
                _ => vec![None],
            };
            let returns = SLOTS.iter().position(|s| *s == Slot::Return).unwrap_or(0);
            let fills = |choice: &Choice| match slot {
                Slot::Filter | Slot::Cooler => asked(*slot) || choice[returns].is_some(),
                Slot::Case | Slot::Oil => asked(*slot),
                _ => true,
            };
            choices = choices
                .into_iter()
                .flat_map(|choice| {
                    let fill = fills(&choice);
                    answers.iter().map(move |&option| {
                        let mut next = choice;
                        next[place] = option.filter(|_| fill);
                        next
                    })
                })
                .collect();
        }
        choices
    }

    /// Puts every set on the heap that adds one option for one failing check: of all of them that with the fewest ways out. Where one
    /// has none left, the set leads nowhere.
    fn expand(
        &self,
        from: &Choice,
        checks: &[Check],
        fails: &impl Fn(&Check) -> bool,
        heap: &mut BinaryHeap<Waiting>,
        seen: &mut BTreeSet<Choice>,
    ) {
        let mut ways: Vec<_> =
            checks.iter().filter(|check| fails(check)).map(|check| self.ways_out(check, from)).collect();
        ways.sort_by_key(Vec::len);
        let Some((fewest, others)) = ways.split_first() else { return };
        let hot = checks.iter().find(|check| check.id == CheckId::Heat && fails(check));
        for &(place, option) in fewest {
            let mut next = *from;
            next[place] = Some(option);
            let done = hot.is_some_and(|hot| mends(hot, self.slots[place][option].id));
            if seen.insert(next) {
                heap.push(self.waiting(&next, self.still_to_come(place, others), hot.is_some() && !done));
            }
        }
    }

    /// What a set must at least still cost once a slot is filled: each other failing check that this slot does not mend asks for
    /// an option of its own, as long as no two of them could share one.
    fn still_to_come(&self, filled: usize, others: &[Vec<(usize, usize)>]) -> (u64, u32, usize) {
        let mut taken = vec![filled];
        let mut least = (0, 0, 0);
        for ways in others {
            if ways.iter().any(|(place, _)| taken.contains(place)) {
                continue;
            }
            taken.extend(ways.iter().map(|(place, _)| place));
            let options = || ways.iter().map(|&(place, i)| self.slots[place][i]);
            least.0 += options().map(|option| self.catalogue.cost(option)).min().unwrap_or(0);
            least.1 += options().map(|option| option.minutes).min().unwrap_or(0);
            least.2 += 1;
        }
        least
    }

    /// A set with what it must at least come to.
    fn waiting(&self, choice: &Choice, still: (u64, u32, usize), too_hot: bool) -> Waiting {
        let chosen = || choice.iter().enumerate().filter_map(|(place, option)| Some(self.slots[place][(*option)?]));
        let cost = chosen().map(|option| self.catalogue.cost(option)).sum::<u64>() + still.0;
        let minutes = chosen().map(|option| option.minutes).sum::<u32>() + still.1;
        let ids: Vec<_> = chosen().map(|option| option.id.name()).collect();
        Waiting(std::cmp::Reverse((cost, minutes, ids.len() + still.2, ids, *choice, too_hot)))
    }

    /// Applies a set in working order, solves its settings and checks the changed carrier. Options that do not apply to
    /// this machine are left out.
    fn build(&self, choice: &Choice) -> Option<Plan> {
        let Setup { head, conditions, .. } = self.setup;
        let mut machine = self.machine.clone();
        let mut made = Vec::new();
        for (place, option) in choice.iter().enumerate() {
            let Some(option) = option.map(|option| self.slots[place][option]) else { continue };
            if let Some((changed, settings)) = apply(&machine, head, conditions, option) {
                machine = changed;
                made.push((option.clone(), settings));
            }
        }
        let checks = checks::in_a_search(&machine.facts(head, conditions).for_a_search());
        Some(Plan { machine, made, checks })
    }

    /// What is known of a plan's machine.
    fn facts<'p>(&'p self, plan: &'p Plan) -> Facts<'p> {
        plan.machine.facts(self.setup.head, self.setup.conditions)
    }

    /// What a plan costs.
    pub fn cost(&self, plan: &Plan) -> Cost {
        let minor = plan.made.iter().map(|(option, _)| option.price).sum::<Option<u64>>();
        Cost {
            changes: plan.made.len(),
            minutes: plan.made.iter().map(|(option, _)| option.minutes).sum(),
            price: self.catalogue.price(minor.filter(|_| !plan.made.is_empty())),
        }
    }

    /// The changes of a plan that works, each with the checks that fail without it.
    pub async fn explain(&self, plan: &Plan, today: &[Check]) -> Vec<Change> {
        let mut changes = Vec::with_capacity(plan.made.len());
        for made in &plan.made {
            step(self.pace).await;
            let missed = self.missed_without(plan, made.0.id);
            let today = |id: CheckId| today.iter().find(|check| check.id == id).map(|check| check.outcome);
            let plainly = |check: &&(CheckId, Outcome)| check.1 == Outcome::NotMet;
            let reason = if missed.iter().filter(plainly).any(|&(id, _)| today(id) == Some(Outcome::NotMet)) {
                ChangeReason::Mends
            } else if missed.iter().any(|check| plainly(&check)) {
                // Plainly wrong without it, and not so today: the others of the set bring that.
                ChangeReason::Follows
            } else if missed.iter().any(|&(id, _)| today(id) != Some(Outcome::Met)) {
                ChangeReason::Settles
            } else {
                ChangeReason::Follows
            };
            changes.push(self.change(plan, made, missed.into_iter().map(|(id, _)| id).collect(), reason));
        }
        changes
    }

    fn change(
        &self,
        plan: &Plan,
        (option, settings): &(ChangeOption, Vec<Setting>),
        mends: Vec<CheckId>,
        reason: ChangeReason,
    ) -> Change {
        let mut settings = settings.clone();
        if option.id == ChangeId::PriorityShare {
            settings.extend(self.shares(plan));
        }
        Change {
            id: option.id,
            settings,
            mends,
            minutes: option.minutes,
            price: self.catalogue.price(option.price),
            part: option.part.clone(),
            valve: option.valve,
            outputs: wired(option.id, plan.machine.carrier()),
            reason,
            option: option.clone(),
        }
    }

    /// What is found out before the changes of a plan that works are made: the facts that may spare those that only settle a doubt, the
    /// quickest first; and what the rest costs where all of it comes out well.
    pub async fn doubts(&self, plan: &Plan, changes: &[Change]) -> (Vec<FindOut>, Option<Cost>) {
        let with = |reason| changes.iter().filter(move |change| change.reason == reason);
        let mut all: Vec<FindOut> = Vec::new();
        for change in with(ChangeReason::Settles) {
            step(self.pace).await;
            let Some((fact, checks)) = self.doubt(plan, change) else { continue };
            match all.iter_mut().find(|known| known.fact == fact) {
                Some(known) => {
                    known
                        .checks
                        .extend(checks.into_iter().filter(|check| !known.checks.contains(check)).collect::<Vec<_>>());
                    known.may_spare.push(change.id);
                }
                None => all.push(FindOut::new(fact, checks, vec![change.id])),
            }
        }
        if all.is_empty() {
            return (all, None);
        }
        all.sort_by_key(|find| find.minutes);
        // What is needed only because of what falls away falls away with it.
        let mut rest = self.choice_without(plan, &[]);
        for change in with(ChangeReason::Settles).chain(with(ChangeReason::Follows)) {
            step(self.pace).await;
            let mut less = rest;
            less[place_of(change.id)] = None;
            let Some(mut without) = self.build(&less) else { continue };
            self.balance_heat(&mut without);
            if without.checks.iter().all(|check| check.outcome != Outcome::NotMet) {
                rest = less;
            }
        }
        let cost = self.build(&rest).map(|plan| self.cost(&plan));
        (all, cost.filter(|cost| cost.changes < changes.len()))
    }

    /// The fact that decides whether a change is needed, with the checks that wait for it: those of the plan without that change.
    fn doubt(&self, plan: &Plan, change: &Change) -> Option<(FactId, Vec<CheckId>)> {
        let without = self.build(&self.choice_without(plan, &[change.id]))?;
        let facts = self.facts(&without);
        let warm = checks::warm_enough(&facts);
        let checks: Vec<_> = change.mends.iter().map(|&id| checks::check(id, &facts, warm)).collect();
        let fact = checks.iter().find_map(|check| check.missing.first())?.fact;
        let waits = |check: &&Check| check.missing.iter().any(|missing| missing.fact == fact);
        Some((fact, checks.iter().filter(waits).map(|check| check.id).collect()))
    }

    /// Of the changes of a way out those that every way out needs, each by the cheapest part with which there is one: without them
    /// something is not met in every set, whatever the facts turn out to be that are not known. Where that cannot be shown a change is
    /// not among them.
    pub async fn certain(&self, today: &[Check], explained: &[Change]) -> (Plan, Vec<Change>) {
        let mut choice: Choice = [None; SLOTS.len()];
        for change in explained.iter().filter(|change| change.reason != ChangeReason::Settles) {
            let id = change.id;
            // What alone can mend something that is not met is needed; else it is tried without.
            let alone = today.iter().filter(|check| check.outcome == Outcome::NotMet).any(|check| {
                let ways = self.ways_out(check, &[None; SLOTS.len()]);
                !ways.is_empty() && ways.iter().all(|&(place, i)| self.slots[place][i].id == id)
            });
            if !alone && self.has_way_out(today, |option| option.id != id).await != Some(false) {
                continue;
            }
            let place = place_of(id);
            let mut options: Vec<_> = (0..self.slots[place].len()).filter(|&i| self.slots[place][i].id == id).collect();
            options.sort_by_key(|&i| (self.catalogue.cost(self.slots[place][i]), self.slots[place][i].minutes));
            let made = options.iter().position(|&i| *self.slots[place][i] == change.option);
            let mut cheapest = made.map(|made| options[made]);
            for &i in &options[..made.unwrap_or(0)] {
                let part = self.slots[place][i];
                if self.has_way_out(today, |option| option.id != id || option == part).await != Some(false) {
                    cheapest = Some(i);
                    break;
                }
            }
            choice[place] = cheapest;
        }
        let plan = self.build(&choice).filter(|plan| !plan.made.is_empty());
        let Some(plan) = plan else {
            return (Plan { machine: self.machine.clone(), made: Vec::new(), checks: today.to_vec() }, Vec::new());
        };
        let of = |made: &(ChangeOption, Vec<Setting>)| {
            let known = explained.iter().find(|change| change.id == made.0.id);
            let mends = known.map(|change| change.mends.clone()).unwrap_or_default();
            let change = self.change(&plan, made, mends, known.map_or(ChangeReason::Mends, |change| change.reason));
            // That it is set is certain; to what, the rest of the set decides.
            let settings = change.settings.iter().filter(|setting| !setting.name.is_set()).copied().collect();
            Change { settings, ..change }
        };
        let changes = plan.made.iter().map(of).collect();
        (plan, changes)
    }

    /// Whether some set of the options that are admitted leaves nothing plainly wrong; none where not all sets were tried.
    async fn has_way_out(&self, today: &[Check], admits: impl Fn(&ChangeOption) -> bool) -> Option<bool> {
        let admitted = |slot: &Vec<&'a ChangeOption>| slot.iter().copied().filter(|option| admits(option)).collect();
        let search = Self { slots: self.slots.iter().map(admitted).collect(), second: false, machine: self.machine.clone(), ..*self };
        if let Prospects::NeverMet(_) = search.prospects(today).await {
            return Some(false);
        }
        let found = Box::pin(search.cheapest(today, CheckId::ALL)).await;
        if found.gave_up { None } else { Some(found.plan.is_some()) }
    }

    /// How much of the pumps' oil a divider gives the head, at work and free running.
    fn shares(&self, plan: &Plan) -> Vec<Setting> {
        let shares = sharing(&self.facts(plan));
        let told = |shares: Sharing| {
            [(SettingId::ShareAtWork, shares.at_work), (SettingId::ShareFree, shares.free)]
                .map(|(name, value)| Setting { name, value })
        };
        shares.map(told).into_iter().flatten().collect()
    }

    /// The checks that come out worse when one change of a set is left out, and how they come out then.
    fn missed_without(&self, plan: &Plan, left_out: ChangeId) -> Vec<(CheckId, Outcome)> {
        let Some(mut without) = self.build(&self.choice_without(plan, &[left_out])) else { return Vec::new() };
        self.balance_heat(&mut without);
        let pairs = plan.checks.iter().zip(&without.checks);
        let worse = pairs.filter(|(with, without)| without.fails() && with.outcome != without.outcome);
        worse.map(|(_, without)| (without.id, without.outcome)).collect()
    }

    /// The choice that makes a plan, less some changes.
    fn choice_without(&self, plan: &Plan, left_out: &[ChangeId]) -> Choice {
        let mut choice = [None; SLOTS.len()];
        for (option, _) in plan.made.iter().filter(|(option, _)| !left_out.contains(&option.id)) {
            let place = place_of(option.id);
            choice[place] = self.slots[place].iter().position(|known| *known == option);
        }
        choice
    }
}

/// The place of the slot that a change fills.
fn place_of(change: ChangeId) -> usize {
    SLOTS.iter().position(|&slot| slot == Slot::of(change)).unwrap_or(0)
}

/// How many outputs a harness has; none of another change, and of one that is a seat switch alone.
fn wired(id: ChangeId, changed: &Carrier) -> Option<usize> {
    let outputs = changed.electrics.as_ref().map_or(0, |electrics| electrics.outputs.as_ref().map_or(0, Vec::len));
    (id == ChangeId::Harness && outputs > 0).then_some(outputs)
}

/// What is told first of what cannot be mended, the plainest before the rest: too light, another mounting, not enough oil for both, then
/// pressure.
const PLAINEST: [CheckId; 12] = [
    CheckId::WeightClass,
    CheckId::Lift,
    CheckId::Coupler,
    CheckId::Mounting,
    CheckId::FlowWindow,
    CheckId::Power,
    CheckId::Functions,
    CheckId::Pressure,
    CheckId::Direction,
    CheckId::Work,
    CheckId::Clearance,
    CheckId::CreepSpeed,
];

/// In which order what cannot be mended is told.
pub fn told_first(check: CheckId) -> usize {
    PLAINEST.iter().position(|id| *id == check).unwrap_or(PLAINEST.len())
}

/// Which changes a plan makes, in working order.
pub fn ids(plan: &Plan) -> Vec<ChangeId> {
    plan.made.iter().map(|(option, _)| option.id).collect()
}

#[cfg(test)]
mod tests;
