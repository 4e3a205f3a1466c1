//! What helps where nothing can be said yet: the one fact that decides most, from which figure on it decides, and what is on
//! either side of that, found by really setting it and pairing again.
//!
//! A figure is set as somebody would read it off a plate, with the tolerance of practice: what holds at it holds once it has been
//! entered, too.

pub(crate) mod set;
#[cfg(test)]
mod tests;

use fit::facts::Facts;
use fit::find_out::facts_in_the_way;
use fit::pace::{Pace, Steadily, at_once, step};
use fit::{
    Bound, Branch, Branches, Change, CheckId, Conditions, Cost, FactId, Incomplete, Judge, Pairing, Verdict, When,
    checks, pair,
};
use quantity::{Amount, UnitSystem};
use table::{Carrier, Head, Id};

/// The fact to find out first.
#[derive(Clone, Debug, PartialEq)]
pub struct DecidingFact {
    /// The fact.
    pub fact: FactId,
    /// The checks that wait for it and that its value settles, in their order; where it cannot be set all that wait for it.
    pub checks: Vec<CheckId>,
    /// What its value decides, where it is one figure, or one yes or no, that can be set.
    pub decision: Option<Decision>,
    /// What else must be found out, once it is known to be well.
    pub others: Vec<FactId>,
}

/// At how many places of its scale a figure is looked at, to find where it begins to be good.
const LOOKS: u32 = 32;
/// Where the side below a value is looked at, as a share of it.
const BELOW: f64 = 0.97;
/// Where the side above a value is looked at, as a share of it.
const ABOVE: f64 = 1.03;

/// What a fact decides.
#[derive(Clone, Debug, PartialEq)]
pub enum Decision {
    /// A figure, at a value.
    At {
        /// On which side the check holds.
        bound: Bound,
        /// The value as it is read, on the good side.
        value: Amount,
        /// Up to, or down to, where the answer of the good side stays the same; none when nothing ends it.
        until: Option<Amount>,
        /// What is said at the value.
        good: Consequence,
        /// What is said just on the other side.
        otherwise: Consequence,
    },
    /// A yes or no; of a place that the oil comes from a valve of its own or the pumps' line.
    By {
        /// Which of both is well.
        good_when: bool,
        /// What is said then.
        good: Consequence,
        /// What is said otherwise.
        otherwise: Consequence,
    },
}

/// The answer with a fact set.
#[derive(Clone, Debug, PartialEq)]
pub struct Consequence {
    /// The verdict.
    pub verdict: Verdict,
    /// What was not done that would decide, where no fact does.
    pub incomplete: Option<Incomplete>,
    /// What the machine must get then; with `cannot-say` what is certain of it.
    pub changes: Vec<Change>,
    /// What that costs.
    pub cost: Cost,
    /// What fails then, that nothing fixes.
    pub unmendable: Vec<CheckId>,
    /// What is still to be found out.
    pub open: Vec<FactId>,
}

impl Consequence {
    fn of(pairing: Pairing) -> Self {
        let open = facts_in_the_way(&pairing).into_iter().map(|waits| waits.fact).collect();
        Self {
            verdict: pairing.verdict,
            incomplete: pairing.incomplete,
            changes: pairing.changes,
            cost: pairing.cost,
            unmendable: pairing.unmendable,
            open,
        }
    }
}

/// A pairing of which nothing can be said yet with what either answer to its first question comes to; any other as it is. Found by
/// pairing again many times.
pub fn with_branches(carrier: &Carrier, head: &Head, conditions: &Conditions, pairing: Pairing) -> Pairing {
    let branches = settles(carrier, head, conditions, &pairing).and_then(|settling| settling.branches());
    Pairing { branches, ..pairing }
}

impl DecidingFact {
    /// What either answer comes to; none where it cannot be set.
    pub fn branches(&self) -> Option<Branches> {
        let of = |when: When, then: &Consequence| Branch {
            when,
            verdict: then.verdict,
            changes: then.changes.iter().map(|change| change.id).collect(),
            cost: then.cost.clone(),
            unmendable: then.unmendable.clone(),
            open: then.open.clone(),
        };
        let either = match self.decision.as_ref()? {
            Decision::At { bound, value, until, good, otherwise } => {
                let (bound, value) = (*bound, *value);
                let other = if bound == Bound::AtLeast { Bound::AtMost } else { Bound::AtLeast };
                [
                    of(When::Figure { bound, value, until: *until }, good),
                    of(When::Otherwise { bound: other, value }, otherwise),
                ]
            }
            Decision::By { good_when, good, otherwise } => {
                [of(When::Is(*good_when), good), of(When::Is(!good_when), otherwise)]
            }
        };
        let by = self.fact.found_by();
        Some(Branches { fact: self.fact, by, minutes: by.minutes(), either })
    }
}

/// The fact to find out first for a pairing of which nothing can be said yet, with all that waits besides; none for any other. What
/// it decides is not worked out: that takes longer, see [`settles`].
pub fn first_to_find_out(pairing: &Pairing) -> Option<DecidingFact> {
    if pairing.verdict != Verdict::CannotSay {
        return None;
    }
    let all = facts_in_the_way(pairing);
    let first = all.first()?;
    let others = all.iter().skip(1).map(|waits| waits.fact).collect();
    Some(DecidingFact { fact: first.fact, checks: first.checks.clone(), decision: None, others })
}

/// The fact to find out first, with what its value decides: found by pairing again many times, which may take seconds on a phone.
pub fn settles(carrier: &Carrier, head: &Head, conditions: &Conditions, pairing: &Pairing) -> Option<DecidingFact> {
    at_once(settles_in_stretches(carrier, head, conditions, pairing, &Steadily))
}

/// The fact to find out first as [`settles`] tells it, in stretches, so that a screen can answer meanwhile.
pub async fn settles_in_stretches(
    carrier: &Carrier,
    head: &Head,
    conditions: &Conditions,
    pairing: &Pairing,
    pace: &dyn Pace,
) -> Option<DecidingFact> {
    if pairing.verdict != Verdict::CannotSay {
        return None;
    }
    let all = facts_in_the_way(pairing);
    let first = all.first()?;
    // Of a machine without any circuit the one is described of which nothing is known yet.
    let unknown =
        pairing.circuit.is_none().then(|| Carrier { circuits: vec![fit::unknown_circuit()], ..carrier.clone() });
    let carrier = unknown.as_ref().unwrap_or(carrier);
    let machine = Machine { carrier, head, conditions, pairing, pace };
    let circuit = pairing.circuit.as_ref().or_else(|| carrier.circuits.first().map(|circuit| &circuit.id));
    // All that wait for it at once; where one of them waits for something else besides, one of the others.
    let mut decision = None;
    for checks in std::iter::once(first.checks.as_slice()).chain(first.checks.chunks(1)) {
        if let Some(found) = Box::pin(machine.decision(circuit?, first.fact, checks)).await {
            decision = Some((checks.to_vec(), found));
            break;
        }
    }
    let (checks, decision) =
        decision.map_or((first.checks.clone(), None), |(checks, decision)| (checks, Some(decision)));
    let others = match &decision {
        Some(Decision::At { good, .. } | Decision::By { good, .. }) => good.open.clone(),
        None => all.iter().skip(1).map(|waits| waits.fact).collect(),
    };
    Some(DecidingFact { fact: first.fact, checks, decision, others })
}

/// A pairing with what it was made of.
#[derive(Clone, Copy)]
struct Machine<'a> {
    carrier: &'a Carrier,
    head: &'a Head,
    conditions: &'a Conditions,
    pairing: &'a Pairing,
    pace: &'a dyn Pace,
}

impl Machine<'_> {
    async fn decision(self, circuit: &Id, fact: FactId, checks: &[CheckId]) -> Option<Decision> {
        let Some((low, high, amount)) = fact.scale() else { return self.by(circuit, fact, checks).await };
        let holds = |si: f64| self.holds(circuit, fact, amount(si), checks);
        let places: Vec<f64> =
            (0..=LOOKS).map(|place| low * (high / low).powf(f64::from(place) / f64::from(LOOKS))).collect();
        let mut good = Vec::with_capacity(places.len());
        for &si in &places {
            step(self.pace).await;
            good.push(holds(si)?);
        }
        let first = good.iter().position(|good| *good)?;
        let last = first + good[first..].iter().take_while(|good| **good).count() - 1;
        let is_good = async |si: f64| holds(si) == Some(true);
        let below = match first.checked_sub(1) {
            Some(bad) => Some(between((places[bad], places[first]), 1e-3, is_good).await),
            None => None,
        };
        let above = match places.get(last + 1) {
            Some(&bad) => Some(between((bad, places[last]), 1e-3, is_good).await),
            None => None,
        };
        // What holds from one value on and up to another is told from the lower one on.
        let (bound, value, end) = match (below, above) {
            (Some(below), above) => (Bound::AtLeast, below, above.unwrap_or(high)),
            (None, Some(above)) => (Bound::AtMost, above, low),
            (None, None) => return None,
        };
        let up = bound == Bound::AtLeast;
        let value = rounded(amount(value), up);
        if holds(value.si()) != Some(true) {
            return None;
        }
        let beyond = amount(value.si() * if up { BELOW } else { ABOVE });
        let (good, otherwise) =
            (self.consequence(circuit, fact, value).await?, self.consequence(circuit, fact, beyond).await?);
        let until = self.until(circuit, fact, (value, amount(end)), good.verdict).await;
        let until = until.or(above.filter(|_| up).map(|above| rounded(amount(above), false)));
        Some(Decision::At { bound, value, until, good, otherwise })
    }

    /// Where the answer of the good side ends, on the way to the far end.
    async fn until(self, circuit: &Id, fact: FactId, (from, to): (Amount, Amount), verdict: Verdict) -> Option<Amount> {
        let judge = Judge::new(self.conditions);
        let same = async |si: f64| {
            let set = set::figure(self.carrier, self.head, circuit, fact, Amount::from_si(from.dimension(), si));
            let Some((carrier, head)) = set else { return false };
            step(self.pace).await;
            judge.verdict(&carrier, &head) == verdict
        };
        if same(to.si()).await {
            return None;
        }
        let last = between((to.si(), from.si()), 1e-2, same).await;
        Some(rounded(Amount::from_si(from.dimension(), last), to.si() < from.si()))
    }

    async fn by(self, circuit: &Id, fact: FactId, checks: &[CheckId]) -> Option<Decision> {
        let of = |yes: bool| {
            let (carrier, head) = set::answer(self.base(), self.head, circuit, fact, yes)?;
            self.judged(&carrier, &head, circuit, checks)
        };
        let (yes, no) = (of(true)?, of(false)?);
        if yes == no {
            return None;
        }
        let then = async |yes: bool| {
            let (carrier, head) = set::answer(self.carrier, self.head, circuit, fact, yes)?;
            step(self.pace).await;
            Some(Consequence::of(pair(&carrier, &head, self.conditions)))
        };
        Some(Decision::By { good_when: yes, good: then(yes).await?, otherwise: then(!yes).await? })
    }

    /// The machine that the open question is about: with changes by which nothing in it is plainly wrong.
    fn base(&self) -> &Carrier {
        let way_out = self.pairing.way_out.as_ref().map(|way| &way.carrier);
        way_out.or(self.pairing.changed.as_deref()).unwrap_or(self.carrier)
    }

    /// Whether none of some checks stands in the way any more once a fact has a value; none where it cannot be set.
    fn holds(self, circuit: &Id, fact: FactId, value: Amount, checks: &[CheckId]) -> Option<bool> {
        let (carrier, head) = set::figure(self.base(), self.head, circuit, fact, value)?;
        self.judged(&carrier, &head, circuit, checks)
    }

    fn judged(self, carrier: &Carrier, head: &Head, circuit: &Id, asked: &[CheckId]) -> Option<bool> {
        let circuit = carrier.circuit(circuit)?;
        let facts = Facts::gather(carrier, circuit, head, self.conditions);
        let warm = facts.warm_enough;
        Some(!asked.iter().any(|&check| checks::outcome(check, &facts, warm).fails()))
    }

    async fn consequence(self, circuit: &Id, fact: FactId, value: Amount) -> Option<Consequence> {
        let (carrier, head) = set::figure(self.carrier, self.head, circuit, fact, value)?;
        step(self.pace).await;
        Some(Consequence::of(pair(&carrier, &head, self.conditions)))
    }
}

/// The last value, on the way from a good end to a bad one, that is good; within a share of it.
async fn between((mut bad, mut good): (f64, f64), within: f64, is_good: impl AsyncFn(f64) -> bool) -> f64 {
    while (bad - good).abs() > within * good.abs() {
        let middle = bad.midpoint(good);
        if is_good(middle).await {
            good = middle;
        } else {
            bad = middle;
        }
    }
    good
}

/// A figure with no more digits than can be read off, rounded up or down.
fn rounded(amount: Amount, up: bool) -> Amount {
    let (value, unit) = amount.in_system(UnitSystem::Metric);
    let step = if value.abs() >= 20.0 { 1.0 } else { 0.1 };
    let steps = value / step;
    // What is whole but for the last bit stays.
    let whole = if up { (steps - 1e-9).ceil() } else { (steps + 1e-9).floor() };
    Amount::from_si(amount.dimension(), unit.to_si(whole * step))
}
