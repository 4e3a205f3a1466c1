//! Why a set is what it is: which checks each change fixes, what may make it needless, and what is certain whatever comes out.

use super::choice::NOTHING;
use super::judgement::Checks;
use super::sets::place_of;
use super::{Feasibility, Made, Plan, Search, choice_without};
use crate::changes::ChangeOption;
use crate::checks;
use crate::installation::sharing::sharing;
use crate::{Change, ChangeReason, Check, CheckId, Cost, FactId, FindOut, Outcome, Setting, SettingId, Sharing};
use quantity::put_in_order_by;
use table::{Carrier, ChangeId};

impl<'a> Search<'a> {
    /// The changes of a plan that works, each with the checks that fail without it.
    pub fn explain(&self, plan: &Plan) -> Vec<Change> {
        let mut changes = Vec::with_capacity(plan.made.len());
        for made in &plan.made {
            let missed = self.missed_without(plan, made.option.id);
            let today = |id: CheckId| self.today.iter().find(|judged| judged.id == id).map(|judged| judged.outcome);
            let plainly = |check: &&(CheckId, Outcome)| check.1 == Outcome::NotMet;
            let reason = if missed.iter().filter(plainly).any(|&(id, _)| today(id) == Some(Outcome::NotMet)) {
                ChangeReason::Fixes
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
        Made { option, settings, .. }: &Made,
        fixes: Vec<CheckId>,
        reason: ChangeReason,
    ) -> Change {
        let mut settings = settings.clone();
        if option.id == ChangeId::PriorityShare {
            settings.extend(self.shares(plan));
        }
        Change {
            id: option.id,
            settings,
            fixes,
            minutes: option.minutes,
            price: self.catalogue.price(option.price),
            part: option.part.clone(),
            valve: option.valve,
            outputs: if option.id == ChangeId::Harness { wired(self.machine(plan).setup.carrier) } else { None },
            reason,
            option: (*option).clone(),
        }
    }

    /// What is found out before the changes of a plan that works are made: the facts that may spare those that only settle a doubt, the
    /// quickest first; and what the rest costs where all of it comes out well.
    pub fn doubts(&self, plan: &Plan, changes: &[Change]) -> (Vec<FindOut>, Option<Cost>) {
        let with = |reason| changes.iter().filter(move |change| change.reason == reason);
        let mut all: Vec<FindOut> = Vec::new();
        for change in with(ChangeReason::Settles) {
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
        put_in_order_by(&mut all, |find| find.minutes);
        // What is needed only because of what falls away falls away with it.
        let mut rest = choice_without(plan, &[]);
        for change in with(ChangeReason::Settles).chain(with(ChangeReason::Follows)) {
            let less = rest.with(place_of(change.id), None);
            if self.sets.plan(&less).judged.iter().all(|judged| judged.outcome != Outcome::NotMet) {
                rest = less;
            }
        }
        let cost = self.cost(&self.sets.plan(&rest));
        (all, Some(cost).filter(|cost| cost.changes < changes.len()))
    }

    /// The fact that decides whether a change is needed, with the checks that wait for it: those of the plan without that change.
    fn doubt(&self, plan: &Plan, change: &Change) -> Option<(FactId, Vec<CheckId>)> {
        let facts = self.sets.machine(&choice_without(plan, &[change.id])).setup.facts();
        let warm = facts.warm_enough;
        let checks: Vec<_> = change.fixes.iter().map(|&id| checks::check(id, &facts, warm)).collect();
        let fact = checks.iter().find_map(|check| check.missing.first())?.fact;
        let waits = |check: &&Check| check.missing.iter().any(|missing| missing.fact == fact);
        Some((fact, checks.iter().filter(waits).map(|check| check.id).collect()))
    }

    /// Of the changes of a way out those that every way out needs, each by the cheapest part with which there is one: without them
    /// something is not met in every set, whatever the facts turn out to be that are not known. Where that cannot be shown a change is
    /// not among them.
    pub fn certain(&self, explained: &[Change]) -> (Plan<'a>, Vec<Change>) {
        let mut choice = NOTHING;
        for change in explained.iter().filter(|change| change.reason != ChangeReason::Settles) {
            let id = change.id;
            // What alone can fix something that is not met is needed; else it is tried without.
            let alone = self.today.iter().filter(|judged| judged.outcome == Outcome::NotMet).any(|judged| {
                let ways = self.candidates(*judged, &NOTHING);
                !ways.is_empty() && ways.iter().all(|&(place, index)| self.sets.option(place, index).id == id)
            });
            if !alone && self.has_way_out(|option| option.id != id) != Some(false) {
                continue;
            }
            let place = place_of(id);
            let part = |index: u8| self.sets.option(place, index);
            let mut options: Vec<_> =
                self.admitted[place].iter().copied().filter(|&index| part(index).id == id).collect();
            options.sort_by_key(|&index| (self.catalogue.cost(part(index)), part(index).minutes));
            let made = options.iter().position(|&index| *part(index) == change.option);
            let mut cheapest = made.map(|made| options[made]);
            for &i in &options[..made.unwrap_or(0)] {
                let part = part(i);
                if self.has_way_out(|option| option.id != id || option == part) != Some(false) {
                    cheapest = Some(i);
                    break;
                }
            }
            choice = choice.with(place, cheapest);
        }
        let plan = self.sets.plan(&choice);
        if plan.made.is_empty() {
            return (plan, Vec::new());
        }
        let of = |made: &Made| {
            let known = explained.iter().find(|change| change.id == made.option.id);
            let fixes = known.map(|change| change.fixes.clone()).unwrap_or_default();
            let change = self.change(&plan, made, fixes, known.map_or(ChangeReason::Fixes, |change| change.reason));
            // That it is set is certain; to what, the rest of the set decides.
            let settings = change.settings.iter().filter(|setting| !setting.name.is_set()).copied().collect();
            Change { settings, ..change }
        };
        let changes = plan.made.iter().map(of).collect();
        (plan, changes)
    }

    /// Whether some set of the options that are admitted leaves nothing plainly wrong; none where not all sets were tried.
    fn has_way_out(&self, admits: impl Fn(&ChangeOption) -> bool) -> Option<bool> {
        let search = self.among(admits);
        if let Feasibility::NeverMet(_) = search.prospects() {
            return Some(false);
        }
        let found = search.cheapest(Checks::ALL);
        if found.gave_up { None } else { Some(found.plan.is_some()) }
    }

    /// How much of the pumps' oil a divider gives the head, at work and free running.
    fn shares(&self, plan: &Plan) -> Vec<Setting> {
        let shares = sharing(&self.machine(plan).setup.facts());
        let told = |shares: Sharing| {
            [(SettingId::ShareAtWork, shares.at_work), (SettingId::ShareFree, shares.free)]
                .map(|(name, value)| Setting { name, value })
        };
        shares.map(told).into_iter().flatten().collect()
    }

    /// The checks that come out worse when one change of a set is left out, and how they come out then.
    fn missed_without(&self, plan: &Plan, left_out: ChangeId) -> Vec<(CheckId, Outcome)> {
        let without = self.sets.plan(&choice_without(plan, &[left_out]));
        let worse = without.failing().filter(|judged| plan.outcome(judged.id) != judged.outcome);
        worse.map(|judged| (judged.id, judged.outcome)).collect()
    }
}

/// How many outputs a harness has; none of one that is a seat switch alone.
fn wired(changed: &Carrier) -> Option<usize> {
    let outputs = changed.electrics.as_ref()?.outputs.as_ref()?.len();
    (outputs > 0).then_some(outputs)
}
