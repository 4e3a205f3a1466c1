//! One machine, one attachment: the best circuit, what must change, and the whole answer.

use crate::changes::Catalogue;
use crate::facts::Facts;
use crate::machine::{Machine, Store};
use crate::search::{Begun, Search, SearchResult};
use crate::setup::Setup;
use crate::warm_up::warm_up_from;
use crate::{
    CarrierName, Change, Check, CheckId, Class, Conditions, Cost, FORMAT, HeadName, Incomplete, Outcome, Pairing,
    RunnerUp, Stage, Tightest, VERSION, Verdict, WayOut, checks, coast_down, find_out, installation, points, remarks,
    search, unknown_circuit,
};
use quantity::{Amount, put_in_order_by};
use std::cmp::Ordering;
use table::{Carrier, ChangeId, Head};

/// Judges one carrier with one head: every auxiliary circuit is tried, the best one is told.
pub fn pair(carrier: &Carrier, head: &Head, conditions: &Conditions) -> Pairing {
    let catalogue = Catalogue::of(conditions);
    let store = Store::default();
    let look = |circuit| Look::of(&store, Setup { carrier, circuit, head, conditions }, &catalogue);
    let mut looks: Vec<_> = carrier.circuits.iter().map(look).collect();
    // Nothing beats what fits as it is: no change is looked for on the others.
    if looks.iter().any(|look| look.fits) {
        looks.retain(|look| look.fits);
    }
    let mut begun: Vec<_> = looks.iter().map(|look| (look, look.begin())).collect();
    // Nor does what is not known beat what fits after changes.
    if begun.iter().any(|(_, begun)| begun.works()) {
        begun.retain(|(_, begun)| begun.works());
    }
    let mut all: Vec<_> = begun.into_iter().map(|(look, begun)| (look, look.judge(begun, None))).collect();
    // Where none serves, the one that least speaks against; of two alike the first stays.
    let against = |pairing: &Pairing| (pairing.verdict, pairing.unmendable.len());
    let is_better = |a: &Pairing, b: &Pairing| against(a).cmp(&against(b)).then_with(|| order(a, b)).is_lt();
    let best = (0..all.len()).reduce(|best, other| if is_better(&all[other].1, &all[best].1) { other } else { best });
    if let Some((look, best)) = best.map(|best| all.swap_remove(best)) {
        let others: Vec<_> = all.iter().map(|(_, pairing)| pairing).filter(|p| p.verdict == best.verdict).collect();
        let needed = needed_on_all(&best, &others);
        if best.verdict == Verdict::CannotSay && needed.len() < best.changes.len() {
            return look.judge(look.begin(), Some(&needed));
        }
        return best;
    }
    // No circuit stated: judge one of which nothing is known, so that what is known still speaks.
    let unknown = Carrier { circuits: vec![unknown_circuit()], ..carrier.clone() };
    let setup = Setup { carrier: &unknown, circuit: &unknown.circuits[0], head, conditions };
    let look = Look::of(&store, setup, &catalogue);
    let mut pairing = look.judge(look.begin(), None);
    pairing.circuit = None;
    pairing
}

/// The changes of a pairing that those of other circuits need as well, and no cheaper: only these are certain whatever circuit it will be.
fn needed_on_all(best: &Pairing, others: &[&Pairing]) -> Vec<ChangeId> {
    let cost = |change: &Change| (change.price.as_ref().map(|price| price.amount), change.minutes);
    let needs = |other: &Pairing, change: &Change| {
        let same = other.changes.iter().find(|known| known.id == change.id).map(cost);
        same.is_some_and(|(price, minutes)| price >= cost(change).0 && minutes >= change.minutes)
    };
    let on_all = best.changes.iter().filter(|change| others.iter().all(|other| needs(other, change)));
    on_all.map(|change| change.id).collect()
}

/// The order of a list: verdict, cost, tightest margin (largest first), id of the head, id of the carrier.
pub fn order(a: &Pairing, b: &Pairing) -> Ordering {
    let cost = |p: &Pairing| (p.cost.price.as_ref().map(|price| price.amount), p.cost.minutes, p.cost.changes);
    let margin = |p: &Pairing| p.tightest.map_or(f64::NEG_INFINITY, |tightest| tightest.margin);
    a.verdict
        .cmp(&b.verdict)
        .then_with(|| cost(a).cmp(&cost(b)))
        .then_with(|| margin(b).total_cmp(&margin(a)))
        .then_with(|| a.head.id.cmp(&b.head.id))
        .then_with(|| a.carrier.id.cmp(&b.carrier.id))
}

/// One circuit of the machine as it is, and the search for changes on it.
struct Look<'a> {
    setup: Setup<'a>,
    catalogue: &'a Catalogue,
    search: Search<'a>,
    fits: bool,
}

impl<'a> Look<'a> {
    fn of(store: &'a Store, setup: Setup<'a>, catalogue: &'a Catalogue) -> Self {
        let quick = checks::outcomes(&setup.facts());
        let search = Search::new(store, setup, catalogue, &quick).with_second();
        Self { setup, catalogue, search, fits: !quick.iter().any(Check::fails) }
    }

    /// What the search finds first.
    fn begin(&self) -> Begun<'a> {
        self.search.begin()
    }

    /// Judges it from what the search found first. Where nothing can be said yet, `among` names the changes that may be told as
    /// certain; none where all may.
    fn judge(&self, begun: Begun<'a>, among: Option<&[ChangeId]>) -> Pairing {
        let Self { setup, catalogue, search, fits } = self;
        let assemble = |verdict, plan, unmendable| assemble(*setup, catalogue, verdict, plan, unmendable);
        if *fits {
            return assemble(Verdict::Fits, None, Vec::new());
        }
        let (mut runner_up, mut find_out, mut cost_without_doubts, mut way_out) = (None, Vec::new(), None, None);
        let pairing = match search.go_on(begun) {
            SearchResult::Works(plan, second) => {
                let changes = search.explain(&plan);
                (find_out, cost_without_doubts) = search.doubts(&plan, &changes);
                runner_up = second
                    .map(|second| RunnerUp { changes: search::ids(&second).collect(), cost: search.cost(&second) });
                assemble(Verdict::FitsAfterChanges, Some((search.machine(&plan), changes)), Vec::new())
            }
            SearchResult::Nothing { unmendable, open: Some(plan) } if unmendable.is_empty() => {
                // What is open decides: on the machine as it is, or once the changes are made that fix what fails. Of these only those
                // are told that every way out needs.
                let plan = search.without_needless(plan);
                let explained = search.explain(&plan);
                let may_be = |change: &&Change| among.is_none_or(|among| among.contains(&change.id));
                let candidates: Vec<_> = explained.iter().filter(may_be).cloned().collect();
                let (certain, changes) = search.certain(&candidates);
                if changes.len() < explained.len() {
                    way_out = Some(way_out_of(search.machine(&plan), explained));
                }
                let certain = (!changes.is_empty()).then(|| (search.machine(&certain), changes));
                assemble(Verdict::CannotSay, certain, Vec::new())
            }
            SearchResult::GaveUp => {
                let incomplete = Some(Incomplete::NotAllSetsTried);
                let pairing = assemble(Verdict::CannotSay, None, Vec::new());
                Pairing { incomplete, ..pairing }
            }
            SearchResult::Nothing { unmendable, .. } => {
                // When each check can be fixed but not all at once, what fails today is named.
                let mut named = if unmendable.is_empty() { search.not_met_today().collect() } else { unmendable };
                // The plainest first: a machine that is too light needs no other reason.
                put_in_order_by(&mut named, |id| search::display_rank(*id));
                assemble(Verdict::DoesNotFit, None, named)
            }
        };
        let pairing = Pairing { cost_without_doubts, runner_up, way_out, ..pairing };
        if pairing.verdict != Verdict::CannotSay {
            return Pairing { find_out, ..pairing };
        }
        let open = |check: &&Check| check.outcome == Outcome::NotKnown && check.blocks;
        let open: Vec<_> = pairing.open_checks().iter().filter(open).map(|check| check.id).collect();
        let find_out = find_out::to_find_out(&pairing);
        Pairing { find_out, questions: remarks::questions(&open, &[]), ..pairing }
    }
}

/// A way out with all its checks, to ask its open questions of.
fn way_out_of(machine: Machine, changes: Vec<Change>) -> Box<WayOut> {
    let checks = machine.setup.checks();
    Box::new(WayOut { carrier: machine.whole(), changes, checks })
}

fn assemble(
    setup: Setup,
    catalogue: &Catalogue,
    verdict: Verdict,
    plan: Option<(Machine, Vec<Change>)>,
    unmendable: Vec<CheckId>,
) -> Pairing {
    let Setup { carrier, circuit, head, conditions } = setup;
    let facts = setup.facts();
    let today = checks::all(&facts);
    let practice = facts.practice;
    let mut points = points::points(&facts, Stage::AsItIs);
    let (mut checks_after, mut changes, mut minor, mut changed) = (Vec::new(), Vec::new(), Some(0), None);
    if let Some((machine, explained)) = plan {
        minor = explained.iter().map(|change| change.option.price).sum();
        (changes, changed) = (explained, Some(Box::new(machine.whole())));
    }
    // The machine as it would go to work: changed, where there are changes.
    let place = changed.as_ref().and_then(|carrier| carrier.circuit(&circuit.id));
    let facts = match (&changed, place) {
        (Some(carrier), Some(place)) => {
            let facts = Facts::gather(carrier, place, head, conditions);
            points.extend(points::points(&facts, Stage::AfterChanges));
            checks_after = checks::all(&facts);
            facts
        }
        _ => facts,
    };
    let goes_to_work = matches!(verdict, Verdict::Fits | Verdict::FitsAfterChanges);
    let warm_up = if goes_to_work { warm_up_from(&facts) } else { None };
    let warm_up = warm_up.map(|solved| Amount::of(solved.value));
    let (remarks, sharing) = (remarks::remarks(&facts), installation::sharing::sharing(&facts));
    let on_the_job = if checks_after.is_empty() { &today } else { &checks_after };
    let to_prove = on_the_job
        .iter()
        .filter(|check| match check.outcome {
            Outcome::Met => !check.assumed.is_empty(),
            Outcome::NotKnown => !check.blocks,
            Outcome::NotMet => false,
        })
        .map(|check| check.id)
        .collect();
    let people_at_risk = |check: &&Check| check.class == Class::Safety && check.outcome == Outcome::NotKnown;
    let before_work = on_the_job
        .iter()
        .filter(|check| goes_to_work && people_at_risk(check) && !check.blocks)
        .map(|check| check.id)
        .collect();
    let mut assumed: Vec<_> =
        today.iter().chain(&checks_after).flat_map(|check| check.assumed.iter().copied()).collect();
    assumed.sort_unstable();
    assumed.dedup();
    let assumptions = assumed.into_iter().filter_map(|id| practice.stated(id)).collect();
    let failing: Vec<_> = on_the_job.iter().filter(|check| check.fails()).map(|check| check.id).collect();
    let tightest = on_the_job
        .iter()
        // Of what goes to work no check is over its limit: what is open is told among what is to prove.
        .filter(|check| match verdict {
            Verdict::Fits | Verdict::FitsAfterChanges => check.outcome == Outcome::Met,
            // What is plainly wrong there has more than one way out.
            Verdict::CannotSay => check.outcome != Outcome::NotMet,
            Verdict::DoesNotFit => true,
        })
        .filter_map(|check| Some(Tightest { check: check.id, margin: check.margin? }))
        .min_by(|a, b| a.margin.total_cmp(&b.margin));
    Pairing {
        format: FORMAT,
        version: VERSION,
        carrier: CarrierName { id: carrier.id.clone(), maker: carrier.maker.clone(), model: carrier.model.clone() },
        head: HeadName { id: head.id.clone(), maker: head.maker.clone(), model: head.model.clone(), kind: head.kind },
        circuit: Some(circuit.id.clone()),
        end: carrier.end_of(circuit),
        verdict,
        incomplete: None,
        cost: Cost {
            changes: changes.len(),
            minutes: changes.iter().map(|change| change.minutes).sum(),
            price: catalogue.price(minor.filter(|_| !changes.is_empty())),
        },
        checks: today,
        checks_after,
        changes,
        questions: remarks::questions(&failing, &unmendable),
        remarks,
        sharing,
        runner_up: None,
        find_out: Vec::new(),
        cost_without_doubts: None,
        branches: None,
        way_out: None,
        unmendable,
        to_prove,
        before_work,
        tightest,
        warm_up,
        assumptions,
        coasts: coast_down::coast_down(&facts, &points),
        points,
        changed,
    }
}
