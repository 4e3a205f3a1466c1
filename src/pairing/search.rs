//! The cheapest set of changes that is proven to work: every set is applied, solved and checked again.

mod explain;
mod mending;
mod sets;

use super::changes::{Catalogue, ChangeOption, SLOTS, Slot};
use super::checks;
use super::facts::Facts;
use super::machine::Machine;
use super::{Check, CheckId, Conditions, Cost, Outcome, Verdict};
use crate::quantity::Named;
use crate::table::{self, Carrier, ChangeId, Head};
use mending::{MAKES_KNOWN, UNMENDABLE, by_relief, is_figure_missing, mends, saves_loss};
use sets::{Choice, NOTHING, Sets};
pub use sets::{Made, Plan};
use std::collections::{BTreeSet, BinaryHeap};
use std::rc::Rc;

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

impl<'a> Setup<'a> {
    /// What is known of it.
    pub fn facts(self) -> Facts<'a> {
        Facts::gather(self.carrier, self.circuit, self.head, self.conditions)
    }

    /// Every check of the machine as it is.
    pub fn checks(self) -> Vec<Check> {
        checks::all(&self.facts())
    }
}

/// What the search found.
#[derive(Clone, Debug)]
pub enum Found<'a> {
    /// The cheapest set that works, and another by other means that costs at most a tenth more.
    Works(Rc<Plan<'a>>, Option<Rc<Plan<'a>>>),
    /// No set works.
    Nothing {
        /// Checks that are not met in any set.
        unmendable: Vec<CheckId>,
        /// The set, perhaps empty, that leaves nothing failed but only things not known, when there is one.
        open: Option<Rc<Plan<'a>>>,
    },
    /// The search gave up: no set that was tried works, one of the others may.
    GaveUp,
}

/// What a search finds first.
pub enum Begun<'a> {
    /// These checks are not met in any set.
    NeverMet(Vec<CheckId>),
    /// These checks stay open whatever is done: no set works.
    Open(Vec<CheckId>),
    /// What trying sets found.
    Tried(Cheapest<'a>),
}

impl Begun<'_> {
    /// Whether a set works.
    pub fn works(&self) -> bool {
        matches!(self, Self::Tried(Cheapest { plan: Some(_), .. }))
    }
}

/// What trying sets in the order of their cost found.
#[derive(Default)]
pub struct Cheapest<'a> {
    /// The cheapest set that works.
    plan: Option<Rc<Plan<'a>>>,
    /// Another one by other means.
    second: Option<Rc<Plan<'a>>>,
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

/// What is seen before any change is looked for. What no change can mend comes first: most machines are too light.
pub fn glance(setup: Setup) -> Glance {
    let facts = setup.facts().for_a_search();
    let warm = checks::warm_enough(&facts);
    let failed = |id: CheckId| checks::check(id, &facts, warm).outcome == Outcome::NotMet;
    let mut unmendable = UNMENDABLE.iter();
    if unmendable.any(|&id| failed(id)) || failed(CheckId::Mounting) && checks::can_be_bridged(&facts).is_none() {
        return Glance::Never;
    }
    let today = checks::all(&facts);
    if today.iter().any(Check::fails) { Glance::Open(today) } else { Glance::Fits }
}

/// What is certain before any set is tried.
enum Prospects {
    /// These checks are not met in any set.
    NeverMet(Vec<CheckId>),
    /// These checks stay open whatever is done; with none of them some set may work.
    Open(Vec<CheckId>),
}

/// How many sets are tried at the most: far more than any pairing of a usual shop needs, and no more than a phone bears.
const BUDGET: usize = 2000;

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
    catalogue: &'a Catalogue,
    sets: Rc<Sets<'a>>,
    /// Of every slot the options that may be chosen, by their index in it.
    admitted: Vec<Vec<u8>>,
    /// Whether a second set by other means is looked for.
    second: bool,
    /// How many sets are tried at the most.
    budget: usize,
}

impl<'a> Search<'a> {
    /// A search in a shop's catalogue.
    pub fn new(setup: Setup<'a>, catalogue: &'a Catalogue) -> Self {
        let sets = Rc::new(Sets::of(setup, catalogue));
        let admitted = sets.slots.iter().map(|options| (0..).take(options.len()).collect()).collect();
        Self { catalogue, sets, admitted, second: false, budget: BUDGET }
    }

    /// The same, which also looks for a second set by other means.
    pub fn with_second(self) -> Self {
        Self { second: true, ..self }
    }

    /// The same among the options that are admitted.
    fn among(&self, admits: impl Fn(&ChangeOption) -> bool) -> Self {
        let of_slot = |(place, options): (usize, &Vec<u8>)| {
            options.iter().copied().filter(|&index| admits(self.sets.option(place, index))).collect()
        };
        let admitted = self.admitted.iter().enumerate().map(of_slot).collect();
        Self { sets: Rc::clone(&self.sets), admitted, second: false, ..*self }
    }

    /// The verdict on what a glance leaves open, and what the set of changes costs where there is one that works.
    pub fn outcome(&self, today: &[Check]) -> (Verdict, Option<Cost>) {
        let verdict = match self.run(today) {
            Found::Works(plan, _) => return (Verdict::FitsAfterChanges, Some(self.cost(&plan))),
            Found::Nothing { unmendable, open: Some(_) } if unmendable.is_empty() => Verdict::CannotSay,
            Found::GaveUp => Verdict::CannotSay,
            Found::Nothing { .. } => Verdict::DoesNotFit,
        };
        (verdict, None)
    }

    /// What is certain, and the cheapest set of changes that is proven to work, from the checks of the machine as it is. Quicker than
    /// the verdict: where something stays open whatever is done, no set is tried.
    pub fn begin(&self, today: &[Check]) -> Begun<'a> {
        match self.prospects(today) {
            Prospects::NeverMet(checks) => Begun::NeverMet(checks),
            Prospects::Open(parked) if parked.is_empty() => Begun::Tried(self.cheapest(today, &[])),
            Prospects::Open(parked) => Begun::Open(parked),
        }
    }

    /// What is certain before any set is tried.
    fn prospects(&self, today: &[Check]) -> Prospects {
        let not_met = |check: &&Check| check.outcome == Outcome::NotMet;
        let closed = |check: &&Check| self.ways_out(check, &NOTHING).is_empty();
        let fixed: Vec<_> = today.iter().filter(not_met).filter(closed).map(|check| check.id).collect();
        if !fixed.is_empty() {
            return Prospects::NeverMet(fixed);
        }
        // What is not known and no change settles does not stop the search: it is what stays open of its outcome.
        let mut parked: Vec<_> =
            today.iter().filter(|check| check.fails()).filter(closed).map(|check| check.id).collect();
        let (stuck, never_met) = self.hopeless(today, &parked);
        if !never_met.is_empty() {
            return Prospects::NeverMet(never_met);
        }
        parked.extend(stuck);
        Prospects::Open(parked)
    }

    /// Runs the search from the checks of the machine as it is.
    pub fn run(&self, today: &[Check]) -> Found<'a> {
        self.go_on(today, self.begin(today))
    }

    /// Goes on from what was found first.
    pub fn go_on(&self, today: &[Check], begun: Begun<'a>) -> Found<'a> {
        let found = match begun {
            Begun::NeverMet(unmendable) => return Found::Nothing { unmendable, open: None },
            Begun::Tried(Cheapest { plan: Some(plan), second, .. }) => return Found::Works(plan, second),
            Begun::Tried(found) => found,
            Begun::Open(parked) => self.cheapest(today, &parked),
        };
        let open = match found.plan {
            Some(open) => Some(open),
            None if found.gave_up => return Found::GaveUp,
            // Where not all can be settled at once, a set in which nothing is plainly wrong.
            None => {
                let found = self.cheapest(today, CheckId::ALL);
                if found.gave_up {
                    return Found::GaveUp;
                }
                found.plan
            }
        };
        Found::Nothing { unmendable: Vec::new(), open: open.map(|open| self.without_needless(open)) }
    }

    /// The cheapest set in which nothing fails but what is parked, which may be not known but not failed; and a second one by other
    /// means.
    fn cheapest(&self, today: &[Check], parked: &[CheckId]) -> Cheapest<'a> {
        let fails = |check: &Check| {
            if parked.contains(&check.id) { check.outcome == Outcome::NotMet } else { check.fails() }
        };
        if !today.iter().any(fails) {
            return Cheapest { plan: Some(Rc::new(Plan::nothing(today))), ..Cheapest::default() };
        }
        let mut heap = BinaryHeap::new();
        let mut seen = BTreeSet::new();
        self.expand(&NOTHING, today, &fails, &mut heap, &mut seen);
        let mut best: Option<(u64, Rc<Plan>)> = None;
        let mut tried = 0;
        while let Some(Waiting(std::cmp::Reverse((cost, .., choice, too_hot)))) = heap.pop() {
            tried += 1;
            if tried > self.budget && best.is_none() {
                return Cheapest { gave_up: true, ..Cheapest::default() };
            }
            if tried > self.budget || best.as_ref().is_some_and(|(least, _)| cost * 10 > least * 11) {
                break;
            }
            let mut plan = self.sets.plan(&choice);
            // An option that cannot be applied here leaves the set as it was without it.
            if plan.made.len() < choice.filled().count() {
                continue;
            }
            if !plan.judged.failing.iter().any(fails) {
                plan = self.sets.balanced(&choice);
            }
            if plan.judged.failing.iter().any(fails) {
                if too_hot {
                    // Put off: as it was before, where nothing was done about it.
                    let judged = plan.judged.clone().still_too_hot();
                    self.expand(&choice, &judged.failing, &fails, &mut heap, &mut seen);
                } else {
                    self.expand(&choice, &plan.judged.failing, &fails, &mut heap, &mut seen);
                }
                continue;
            }
            match best {
                // Another way, not the same with more to it.
                Some((_, first)) if !ids(&first).all(|id| ids(&plan).any(|known| known == id)) => {
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
    fn without_needless(&self, mut plan: Rc<Plan<'a>>) -> Rc<Plan<'a>> {
        for id in ids(&plan.clone()) {
            let less = self.sets.balanced(&choice_without(&plan, &[id]));
            if less.judged.outcomes == plan.judged.outcomes {
                plan = less;
            }
        }
        plan
    }

    /// What fails whatever is done, and what of it is not met whatever is done: tried with each slot at its strongest. What is parked
    /// is known to stay open.
    fn hopeless(&self, today: &[Check], parked: &[CheckId]) -> (Vec<CheckId>, Vec<CheckId>) {
        let not_met = |check: &Check| check.outcome == Outcome::NotMet;
        let failing = |fails: &dyn Fn(&Check) -> bool| -> Vec<CheckId> {
            today.iter().filter(|check| fails(check) && !parked.contains(&check.id)).map(|check| check.id).collect()
        };
        let (mut stuck, mut never_met) = (failing(&Check::fails), failing(&not_met));
        if stuck.is_empty() {
            return (stuck, never_met);
        }
        for choice in self.strongest(today) {
            let plan = self.sets.plan(&choice);
            stuck.retain(|id| plan.judged.failing.iter().any(|check| check.id == *id));
            never_met.retain(|id| plan.judged.outcome(*id) == Outcome::NotMet);
            if stuck.is_empty() {
                break;
            }
        }
        (stuck, never_met)
    }

    /// The options that can mend or settle a check, by slot and index in it, of slots that are not filled yet.
    fn ways_out(&self, check: &Check, filled: &Choice) -> Vec<(usize, u8)> {
        // A relief is set as low as the need allows: what loses less lets it stand lower.
        let lowers = |id: ChangeId| by_relief(check) && saves_loss(id) && self.sets_relief(filled);
        // A figure that is missing may be one that a setting makes known.
        let settles = |id: ChangeId| is_figure_missing(check) && MAKES_KNOWN.contains(&id);
        let ends = |id: ChangeId| mends(check, id) || lowers(id) || settles(id);
        let open = (0..SLOTS.len()).filter(|&place| filled.of(place).is_none());
        let of_slot = |place: usize| self.admitted[place].iter().map(move |&index| (place, index));
        open.flat_map(of_slot).filter(|&(place, index)| ends(self.sets.option(place, index).id)).collect()
    }

    /// Whether a relief is set by what fills the slots.
    fn sets_relief(&self, filled: &Choice) -> bool {
        filled.filled().any(|(place, index)| {
            matches!(
                self.sets.option(place, index).id,
                ChangeId::ReliefSetting | ChangeId::OwnRelief | ChangeId::PriorityShare | ChangeId::DividerRelief
            )
        })
    }

    /// Sets with the largest size of each part: every combination of what can be asked both ways, the rest filled wherever it
    /// could be asked. A part that nobody asks for could only cost pressure.
    fn strongest(&self, today: &[Check]) -> Vec<Choice> {
        let asks = |id: ChangeId| today.iter().any(|check| check.fails() && mends(check, id));
        let wanted: Vec<ChangeId> = ChangeId::ALL.iter().copied().filter(|&id| asks(id)).collect();
        let asked = |slot: Slot| wanted.iter().any(|id| Slot::of(*id) == slot);
        let mut choices: Vec<Choice> = vec![NOTHING];
        for (place, slot) in SLOTS.iter().enumerate() {
            let options = &self.admitted[place];
            let id_of = |index: u8| self.sets.option(place, index).id;
            let last = options.last().copied();
            let place_of = |id: ChangeId| options.iter().rev().copied().find(|&index| id_of(index) == id);
            // The last option of each change: the largest part.
            let each = || {
                let next = options.iter().skip(1).copied().map(Some).chain([None]);
                let ends = options.iter().copied().zip(next);
                let is_last = |&(index, next): &(u8, Option<u8>)| next.is_none_or(|next| id_of(next) != id_of(index));
                ends.filter(is_last).map(|(index, _)| index).filter(|&index| wanted.contains(&id_of(index))).map(Some)
            };
            let by_pressure = asked(Slot::Relief) || asked(Slot::Source);
            let answers: Vec<Option<u8>> = match slot {
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
                Slot::Filter | Slot::Cooler => asked(*slot) || choice.of(returns).is_some(),
                Slot::Case | Slot::Oil => asked(*slot),
                _ => true,
            };
            choices = choices
                .into_iter()
                .flat_map(|choice| {
                    let fill = fills(&choice);
                    answers.iter().map(move |&index| choice.with(place, index.filter(|_| fill)))
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
        for &(place, index) in fewest {
            let next = from.with(place, Some(index));
            let done = hot.is_some_and(|hot| mends(hot, self.sets.option(place, index).id));
            if seen.insert(next) {
                heap.push(self.waiting(&next, self.still_to_come(place, others), hot.is_some() && !done));
            }
        }
    }

    /// What a set must at least still cost once a slot is filled: each other failing check that this slot does not mend asks for
    /// an option of its own, as long as no two of them could share one.
    fn still_to_come(&self, filled: usize, others: &[Vec<(usize, u8)>]) -> (u64, u32, usize) {
        let mut taken = [false; SLOTS.len()];
        taken[filled] = true;
        let mut least = (0, 0, 0);
        for ways in others {
            if ways.iter().any(|(place, _)| taken[*place]) {
                continue;
            }
            for (place, _) in ways {
                taken[*place] = true;
            }
            let options = || ways.iter().map(|&(place, index)| self.sets.option(place, index));
            least.0 += options().map(|option| self.catalogue.cost(option)).min().unwrap_or(0);
            least.1 += options().map(|option| option.minutes).min().unwrap_or(0);
            least.2 += 1;
        }
        least
    }

    /// A set with what it must at least come to.
    fn waiting(&self, choice: &Choice, still: (u64, u32, usize), too_hot: bool) -> Waiting {
        let options = || choice.filled().map(|(place, index)| self.sets.option(place, index));
        let cost = options().map(|option| self.catalogue.cost(option)).sum::<u64>() + still.0;
        let minutes = options().map(|option| option.minutes).sum::<u32>() + still.1;
        let ids: Vec<_> = options().map(|option| option.id.name()).collect();
        Waiting(std::cmp::Reverse((cost, minutes, ids.len() + still.2, ids, *choice, too_hot)))
    }

    /// The machine as a plan makes it.
    pub fn machine(&self, plan: &Plan) -> Machine {
        self.sets.machine(plan)
    }

    /// What a plan costs.
    pub fn cost(&self, plan: &Plan) -> Cost {
        let minor = plan.made.iter().map(|made| made.option.price).sum::<Option<u64>>();
        Cost {
            changes: plan.made.len(),
            minutes: plan.made.iter().map(|made| made.option.minutes).sum(),
            price: self.catalogue.price(minor.filter(|_| !plan.made.is_empty())),
        }
    }
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

/// The choice that makes a plan, less some changes.
fn choice_without(plan: &Plan, left_out: &[ChangeId]) -> Choice {
    let kept = plan.made.iter().filter(|made| !left_out.contains(&made.option.id));
    kept.fold(NOTHING, |choice, made| choice.with(made.place, Some(made.index)))
}

/// Which changes a plan makes, in working order.
pub fn ids(plan: &Plan) -> impl Iterator<Item = ChangeId> {
    plan.made.iter().map(|made| made.option.id)
}

#[cfg(test)]
mod tests;
