//! The cheapest set of changes that is proven to work: every set is applied, solved and checked again.

mod choice;
mod explain;
mod fixes;
mod judgement;
mod reads;
mod sets;

use super::changes::{Catalogue, ChangeOption, SLOTS, Slot};
use super::checks;
use super::machine::{Machine, Store};
use super::setup::Setup;
use super::{Check, CheckId, Cost, Outcome, Verdict};
use choice::{Choice, NOTHING};
use fixes::{
    MAKES_KNOWN, SETS_FLOW, SETS_RELIEF, UNFIXABLE, by_flow, by_relief, fixes, is_figure_missing, saves_loss,
    stands_in_return,
};
use judgement::{Checks, Judgement};
use quantity::Named;
use rustc_hash::FxHashSet;
pub use sets::{Made, Plan};
use sets::{Set, Sets};
use smallvec::SmallVec;
use std::collections::BinaryHeap;
use std::rc::Rc;
use table::ChangeId;

/// What the search found.
#[derive(Clone, Debug)]
pub enum SearchResult<'a> {
    /// The cheapest set that works, and another by other means that costs at most a tenth more.
    Works(Plan<'a>, Option<Plan<'a>>),
    /// No set works.
    Nothing {
        /// Checks that are not met in any set.
        unmendable: Vec<CheckId>,
        /// The set, perhaps empty, that leaves nothing failed but only things not known, when there is one.
        open: Option<Plan<'a>>,
    },
    /// The search gave up: no set that was tried works, one of the others may.
    GaveUp,
}

/// What a search finds first.
pub enum Begun<'a> {
    /// These checks are not met in any set.
    NeverMet(Vec<CheckId>),
    /// These checks stay open whatever is done: no set works.
    Open(Checks),
    /// What trying sets found.
    Tried(Box<Cheapest<'a>>),
}

impl Begun<'_> {
    /// Whether a set works.
    pub fn works(&self) -> bool {
        matches!(self, Self::Tried(found) if found.plan.is_some())
    }
}

/// What trying sets in the order of their cost found.
#[derive(Default)]
pub struct Cheapest<'a> {
    /// The cheapest set that works.
    plan: Option<Plan<'a>>,
    /// Another one by other means.
    second: Option<Plan<'a>>,
    /// Whether sets were left untried before one that works was found.
    gave_up: bool,
}

/// What is seen before any change is looked for.
#[derive(Clone, Debug)]
pub enum Prescreen {
    /// Something fails that no change can fix.
    Never,
    /// Nothing fails.
    Fits,
    /// Something fails that a change may fix: every check of the machine as it is.
    Open(Vec<Check>),
}

/// What is seen before any change is looked for. What no change can fix comes first: most machines are too light.
pub fn glance(setup: Setup) -> Prescreen {
    let facts = setup.facts();
    let warm = facts.warm_enough;
    let failed = |id: CheckId| checks::outcome(id, &facts, warm).outcome == Outcome::NotMet;
    let mut unmendable = UNFIXABLE.iter();
    if unmendable.any(|&id| failed(id)) || failed(CheckId::Mounting) && checks::can_be_bridged(&facts).is_none() {
        return Prescreen::Never;
    }
    let today = checks::outcomes(&facts);
    if today.iter().any(Check::fails) { Prescreen::Open(today) } else { Prescreen::Fits }
}

/// What is certain before any set is tried.
enum Feasibility {
    /// These checks are not met in any set.
    NeverMet(Vec<CheckId>),
    /// These checks stay open whatever is done; with none of them some set may work.
    Open(Checks),
}

/// How many sets are tried at the most: far more than any pairing of a usual shop needs, and no more than a phone bears.
const BUDGET: usize = 2000;

/// A set that waits to be tried; the heap gives the one first that comes to the least.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Waiting(std::cmp::Reverse<Rank>);

/// Cost, minutes, count, names, the choice itself; then whether it is known to get too hot, and what failed before its last option.
type Rank = (u64, u32, usize, Names, Choice, bool, Checks);

/// The names of the changes, in working order.
type Names = SmallVec<[&'static str; 8]>;

/// Looks for the cheapest set that works.
///
/// From a set that does not work yet one failing check is taken, and one option of every slot that can fix it and is not filled, or the
/// next larger size of what fills it, is added in turn: whatever set works in the end holds one of them. The least cost is tried first, so that the
/// first set that works is the cheapest. The check with the fewest ways out is taken, which keeps the sets few.
pub struct Search<'a> {
    catalogue: &'a Catalogue,
    sets: Rc<Sets<'a>>,
    /// The checks of the machine as it is.
    today: Rc<[Judgement]>,
    /// Of every slot the options that may be chosen, by their index in it.
    admitted: Vec<Vec<u8>>,
    /// Whether a second set by other means is looked for.
    second: bool,
    /// How many sets are tried at the most.
    budget: usize,
}

impl<'a> Search<'a> {
    /// A search in a shop's catalogue, from the checks for a search of the machine as it is.
    pub fn new(store: &'a Store, setup: Setup<'a>, catalogue: &'a Catalogue, today: &[Check]) -> Self {
        let sets = Rc::new(Sets::of(store, setup, catalogue, today));
        let admitted = sets.slots.iter().map(|options| (0..).take(options.len()).collect()).collect();
        let today = today.iter().map(Judgement::of).collect();
        Self { catalogue, sets, admitted, today, second: false, budget: BUDGET }
    }

    /// This search, which also looks for a second set by other means.
    #[must_use]
    pub fn with_second(self) -> Self {
        Self { second: true, ..self }
    }

    /// This search among the options that are admitted.
    fn among(&self, admits: impl Fn(&ChangeOption) -> bool) -> Self {
        let of_slot = |(place, options): (usize, &Vec<u8>)| {
            options.iter().copied().filter(|&index| admits(self.sets.option(place, index))).collect()
        };
        let admitted = self.admitted.iter().enumerate().map(of_slot).collect();
        let (sets, today) = (Rc::clone(&self.sets), Rc::clone(&self.today));
        Self { sets, today, admitted, second: false, ..*self }
    }

    /// The verdict on what a glance leaves open, and what the set of changes costs where there is one that works.
    pub fn outcome(&self) -> (Verdict, Option<Cost>) {
        let verdict = match self.run() {
            SearchResult::Works(plan, _) => return (Verdict::FitsAfterChanges, Some(self.cost(&plan))),
            SearchResult::Nothing { unmendable, open: Some(_) } if unmendable.is_empty() => Verdict::CannotSay,
            SearchResult::GaveUp => Verdict::CannotSay,
            SearchResult::Nothing { .. } => Verdict::DoesNotFit,
        };
        (verdict, None)
    }

    /// What is certain, and the cheapest set of changes that is proven to work. Quicker than the verdict: where something stays open
    /// whatever is done, no set is tried.
    pub fn begin(&self) -> Begun<'a> {
        match self.prospects() {
            Feasibility::NeverMet(checks) => Begun::NeverMet(checks),
            Feasibility::Open(deferred) if deferred.is_empty() => Begun::Tried(Box::new(self.cheapest(Checks::NONE))),
            Feasibility::Open(deferred) => Begun::Open(deferred),
        }
    }

    /// What is certain before any set is tried.
    fn prospects(&self) -> Feasibility {
        let failing = || self.today.iter().filter(|judged| judged.fails);
        let closed = |judged: &&Judgement| self.candidates(**judged, &NOTHING).is_empty();
        let not_met = |judged: &&Judgement| judged.outcome == Outcome::NotMet;
        let fixed: Vec<_> = failing().filter(not_met).filter(closed).map(|judged| judged.id).collect();
        if !fixed.is_empty() {
            return Feasibility::NeverMet(fixed);
        }
        // What is not known and no change settles does not stop the search: it is what stays open of its outcome.
        let deferred: Checks = failing().filter(closed).map(|judged| judged.id).collect();
        let (stuck, never_met) = self.unfixable(deferred);
        if !never_met.is_empty() {
            return Feasibility::NeverMet(never_met.iter().collect());
        }
        Feasibility::Open(deferred.and(stuck))
    }

    /// The checks that the machine does not meet as it is.
    pub fn not_met_today(&self) -> impl Iterator<Item = CheckId> {
        self.today.iter().filter(|judged| judged.outcome == Outcome::NotMet).map(|judged| judged.id)
    }

    /// Runs the search.
    pub fn run(&self) -> SearchResult<'a> {
        self.go_on(self.begin())
    }

    /// Goes on from what was found first.
    pub fn go_on(&self, begun: Begun<'a>) -> SearchResult<'a> {
        let found = match begun {
            Begun::NeverMet(unmendable) => return SearchResult::Nothing { unmendable, open: None },
            Begun::Tried(found) => match *found {
                Cheapest { plan: Some(plan), second, .. } => return SearchResult::Works(plan, second),
                found => found,
            },
            Begun::Open(deferred) => self.cheapest(deferred),
        };
        let open = match found.plan {
            Some(open) => Some(open),
            None if found.gave_up => return SearchResult::GaveUp,
            // Where not all can be settled at once, a set in which nothing is plainly wrong.
            None => {
                let found = self.cheapest(Checks::ALL);
                if found.gave_up {
                    return SearchResult::GaveUp;
                }
                found.plan
            }
        };
        SearchResult::Nothing { unmendable: Vec::new(), open }
    }

    /// The cheapest set in which nothing fails but what is deferred, which may be not known but not failed; and a second one by other
    /// means.
    fn cheapest(&self, deferred: Checks) -> Cheapest<'a> {
        let fails =
            |judged: &Judgement| if deferred.has(judged.id) { judged.outcome == Outcome::NotMet } else { judged.fails };
        let today: Failing = self.today.iter().copied().filter(&fails).collect();
        if today.is_empty() {
            return Cheapest { plan: Some(self.sets.plan(&NOTHING)), ..Cheapest::default() };
        }
        let mut heap = BinaryHeap::new();
        let mut seen = FxHashSet::default();
        self.expand(&NOTHING, &today, &mut heap, &mut seen);
        let mut best: Option<(u64, Plan)> = None;
        let mut tried = 0;
        while let Some(Waiting(std::cmp::Reverse((cost, .., choice, too_hot, before)))) = heap.pop() {
            tried += 1;
            if tried > self.budget && best.is_none() {
                return Cheapest { gave_up: true, ..Cheapest::default() };
            }
            if tried > self.budget || best.as_ref().is_some_and(|(least, _)| cost * 10 > least * 11) {
                break;
            }
            let set = self.sets.set(&choice);
            // An option that cannot be applied here leaves the set as it was without it.
            if !set.is_whole() {
                continue;
            }
            let mut failing = fail_first(&set, before, fails);
            if !failing.is_empty() {
                // Put off: as it was before, where nothing was done about it.
                if too_hot && fails(&Judgement::TOO_HOT) {
                    failing.push(Judgement::TOO_HOT);
                }
                self.expand(&choice, &failing, &mut heap, &mut seen);
                continue;
            }
            let plan = self.sets.plan(&choice);
            match best {
                // Another way, not the same with more to it.
                Some((_, first)) if !ids(&first).all(|id| ids(&plan).any(|known| known == id)) => {
                    return Cheapest { plan: Some(first), second: Some(plan), gave_up: false };
                }
                Some(_) => {}
                None if self.second && deferred.is_empty() => best = Some((cost, plan)),
                None => return Cheapest { plan: Some(plan), ..Cheapest::default() },
            }
        }
        Cheapest { plan: best.map(|(_, plan)| plan), ..Cheapest::default() }
    }

    /// The plan without the changes that make no difference to how its checks come out: where something stays open, one may have
    /// been made for what is open anyway.
    pub fn without_needless(&self, mut plan: Plan<'a>) -> Plan<'a> {
        for id in ids(&plan).collect::<Vec<_>>() {
            let less = self.sets.plan(&choice_without(&plan, &[id]));
            if CheckId::ALL.iter().all(|&id| less.outcome(id) == plan.outcome(id)) {
                plan = less;
            }
        }
        plan
    }

    /// What fails whatever is done, and what of it is not met whatever is done: tried with each slot at its strongest. What is deferred
    /// is known to stay open.
    fn unfixable(&self, deferred: Checks) -> (Checks, Checks) {
        let failing: Vec<_> =
            self.today.iter().filter(|judged| judged.fails && !deferred.has(judged.id)).copied().collect();
        let mut stuck: Checks = failing.iter().map(|judged| judged.id).collect();
        let not_met = failing.iter().filter(|judged| judged.outcome == Outcome::NotMet);
        let mut never_met: Checks = not_met.map(|judged| judged.id).collect();
        if stuck.is_empty() {
            return (stuck, never_met);
        }
        for choice in self.strongest() {
            let set = self.sets.set(&choice);
            // The balance of heat is drawn up only where nothing else fails.
            let put_off = stuck.has(CheckId::Heat) && Checks::BUT_HEAT.iter().any(|id| set.judge(id).fails);
            let judge = |id: CheckId| (id != CheckId::Heat || !put_off).then(|| set.judge(id));
            never_met =
                never_met.iter().filter(|&id| judge(id).is_some_and(|j| j.outcome == Outcome::NotMet)).collect();
            stuck = stuck.iter().filter(|&id| judge(id).is_some_and(|judged| judged.fails)).collect();
            if stuck.is_empty() {
                break;
            }
        }
        (stuck, never_met)
    }

    /// The options that can fix or settle a check, by slot and index in it: the smallest of each part for slots that are not filled yet,
    /// and for those that are the next larger size.
    fn candidates(&self, check: Judgement, filled: &Choice) -> Vec<(usize, u8)> {
        // A relief, and a flow, is set as low as the need allows: what loses less lets it stand lower.
        let set_lower =
            by_relief(check) && self.holds(filled, &SETS_RELIEF) || by_flow(check) && self.holds(filled, &SETS_FLOW);
        let lowers = |id: ChangeId| set_lower && saves_loss(id);
        // A figure that is missing may be one that a setting makes known.
        let settles = |id: ChangeId| is_figure_missing(check) && MAKES_KNOWN.contains(&id);
        let ends = |id: ChangeId| fixes(check, id) || lowers(id) || settles(id);
        let mut ways = Vec::new();
        for (place, admitted) in self.admitted.iter().enumerate() {
            let now = filled.of(place);
            for &index in admitted {
                let id = self.sets.option(place, index).id;
                let helps = ends(id) || now.is_some() && stands_in_return(id) && ends(ChangeId::ReturnLine);
                // A larger size is tried where the smaller one fails.
                let is_larger = |known: u8| self.sets.larger(place, known).contains(&index);
                if now.map_or(!helps, |now| !is_larger(now)) {
                    continue;
                }
                let between = |&known: &u8| {
                    is_larger(known) && now.is_none_or(|now| self.sets.larger(place, now).contains(&known))
                };
                if !admitted.iter().any(between) && (helps || self.size_matters(check, filled, place)) {
                    ways.push((place, index));
                }
            }
        }
        ways
    }

    /// Whether a check comes out otherwise with the largest size of what fills a slot.
    fn size_matters(&self, check: Judgement, filled: &Choice, place: usize) -> bool {
        let largest = filled.of(place).and_then(|now| {
            let admitted = |index: &&u8| self.admitted[place].contains(index);
            self.sets.larger(place, now).iter().rev().find(admitted)
        });
        let matters = |&largest: &u8| {
            let set = self.sets.set(&filled.with(place, Some(largest)));
            set.judge(check.id) != check
        };
        check.id != CheckId::Heat && reads::of_check(check.id).has(place) && largest.is_some_and(matters)
    }

    /// Whether a choice holds one of some changes.
    fn holds(&self, filled: &Choice, changes: &[ChangeId]) -> bool {
        filled.filled().any(|(place, index)| changes.contains(&self.sets.option(place, index).id))
    }

    /// Sets with the largest size of each part: every combination of what can be asked both ways, the rest filled wherever it
    /// could be asked. A part that nobody asks for could only cost pressure.
    fn strongest(&self) -> Vec<Choice> {
        let asks = |id: ChangeId| self.today.iter().any(|judged| judged.fails && fixes(*judged, id));
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
                Slot::Couplings | Slot::Reverse if asked(*slot) => vec![last, None],
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
        failing: &[Judgement],
        heap: &mut BinaryHeap<Waiting>,
        seen: &mut FxHashSet<Choice>,
    ) {
        let mut ways: Vec<_> = failing.iter().map(|judged| self.candidates(*judged, from)).collect();
        ways.sort_by_key(Vec::len);
        let Some((fewest, others)) = ways.split_first() else { return };
        let hot = failing.iter().find(|judged| judged.id == CheckId::Heat);
        let before = failing.iter().map(|judged| judged.id).collect();
        for &(place, index) in fewest {
            let next = from.with(place, Some(index));
            let done = hot.is_some_and(|hot| fixes(*hot, self.sets.option(place, index).id));
            if seen.insert(next) {
                heap.push(self.waiting(&next, self.lower_bound(from, place, others), hot.is_some() && !done, before));
            }
        }
    }

    /// What a set must at least still cost once a slot is filled: each other failing check that this slot does not fix asks for
    /// an option of its own, as long as no two of them could share one.
    fn lower_bound(&self, from: &Choice, filled: usize, others: &[Vec<(usize, u8)>]) -> (u64, u32, usize) {
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
            // A larger size costs what it is dearer.
            let now = |place: usize| from.of(place).map(|index| self.sets.option(place, index));
            let options = || ways.iter().map(|&(place, index)| (self.sets.option(place, index), now(place)));
            let cost = |option: &ChangeOption| self.catalogue.cost(option);
            least.0 += options().map(|(to, now)| cost(to) - now.map_or(0, cost)).min().unwrap_or(0);
            least.1 += options().map(|(to, now)| to.minutes - now.map_or(0, |now| now.minutes)).min().unwrap_or(0);
            least.2 += usize::from(options().all(|(_, now)| now.is_none()));
        }
        least
    }

    /// A set with what it must at least come to.
    fn waiting(&self, choice: &Choice, still: (u64, u32, usize), too_hot: bool, before: Checks) -> Waiting {
        let (mut cost, mut minutes, mut count) = still;
        let mut names = Names::default();
        for (place, index) in choice.filled() {
            let option = self.sets.option(place, index);
            cost += self.catalogue.cost(option);
            minutes += option.minutes;
            count += 1;
            names.push(option.id.name());
        }
        Waiting(std::cmp::Reverse((cost, minutes, count, names, *choice, too_hot, before)))
    }

    /// The machine as a plan makes it.
    pub fn machine(&self, plan: &Plan) -> Machine<'a> {
        self.sets.machine(&plan.choice)
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

/// Checks that fail.
type Failing = SmallVec<[Judgement; 8]>;

/// What fails of a set: first of what failed before its last option was chosen, which mostly settles it; then of the rest; at last the
/// balance of heat, which takes as long as all the others.
fn fail_first(set: &Set, before: Checks, fails: impl Fn(&Judgement) -> bool) -> Failing {
    let heat = Checks::ALL.without(Checks::BUT_HEAT);
    let stages = [before.without(heat), Checks::BUT_HEAT.without(before), heat];
    let of = |checks: Checks| checks.iter().map(|id| set.judge(id)).filter(&fails).collect::<Failing>();
    stages.into_iter().map(of).find(|failing| !failing.is_empty()).unwrap_or_default()
}

/// What is told first of what cannot be fixed, the plainest before the rest: too light, another mounting, not enough oil for both, then
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

/// In which order what cannot be fixed is told.
pub fn display_rank(check: CheckId) -> usize {
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
