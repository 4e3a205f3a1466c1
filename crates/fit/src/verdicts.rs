//! Verdicts and no more, for whole stocks.

use crate::changes::Catalogue;
use crate::machine::Store;
use crate::search::{self, Prescreen, Search};
use crate::setup::Setup;
use crate::{Check, Conditions, Cost, Verdict, pair};
use table::{Carrier, Head, Id};

/// Gives verdicts and no more, for whole stocks: with one shop's catalogue, without reasons or figures. Many times as quick
/// as [`pair`], and always of the same mind.
///
/// ```
/// use fit::{Conditions, Judge, pair};
/// let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
/// let conditions = Conditions::of_table(&table);
/// let judge = Judge::new(&conditions);
/// let (carrier, head) = (&table.carriers[0], &table.heads[0]);
/// assert_eq!(judge.verdict(carrier, head), pair(carrier, head, &conditions).verdict);
/// ```
#[derive(Clone, Debug)]
pub struct Judge<'a> {
    conditions: &'a Conditions,
    pub(crate) catalogue: Catalogue,
}

impl<'a> Judge<'a> {
    /// A judge under these conditions.
    pub fn new(conditions: &'a Conditions) -> Self {
        Self { conditions, catalogue: Catalogue::of(conditions) }
    }

    /// The conditions that it judges under.
    pub fn conditions(&self) -> &'a Conditions {
        self.conditions
    }

    /// Every check of one circuit of a machine as it stands today; none where the machine has no such circuit.
    pub fn today(&self, carrier: &Carrier, circuit: &Id, head: &Head) -> Option<Vec<Check>> {
        let circuit = carrier.circuit(circuit)?;
        let setup = Setup { carrier, circuit, head, conditions: self.conditions };
        Some(setup.checks())
    }

    /// What is seen of the circuits of a machine before any change is looked for, each by itself.
    pub(crate) fn glances<'c>(
        &'c self,
        carrier: &'c Carrier,
        head: &'c Head,
    ) -> impl Iterator<Item = (Setup<'c>, Prescreen)> {
        let setup = move |circuit| Setup { carrier, circuit, head, conditions: self.conditions };
        carrier.circuits.iter().map(setup).map(|setup| (setup, search::glance(setup)))
    }

    /// Whether what comes out is seen without looking for changes: it fits as it is, or nothing would help.
    pub fn is_seen_at_once(&self, carrier: &Carrier, head: &Head) -> bool {
        let mut open = false;
        for (_, glance) in self.glances(carrier, head) {
            match glance {
                Prescreen::Fits => return true,
                Prescreen::Open(_) => open = true,
                Prescreen::Never => {}
            }
        }
        !open
    }

    /// The verdict of the circuit that serves best.
    pub fn verdict(&self, carrier: &Carrier, head: &Head) -> Verdict {
        self.best(carrier, head, |verdict| verdict != Verdict::FitsAfterChanges).0
    }

    /// The verdict of the circuit that serves best, and where it fits after changes what the cheapest set costs: as [`pair`] has both.
    pub fn cost(&self, carrier: &Carrier, head: &Head) -> (Verdict, Option<Cost>) {
        self.best(carrier, head, |_| true)
    }

    /// The best of what the circuits come to; `goes_on` says whether another one may be better than what was found.
    fn best(&self, carrier: &Carrier, head: &Head, goes_on: impl Fn(Verdict) -> bool) -> (Verdict, Option<Cost>) {
        let price = |cost: &Cost| (cost.price.as_ref().map(|price| price.amount), cost.minutes, cost.changes);
        let order = |(verdict, cost): &(Verdict, Option<Cost>)| (*verdict, cost.as_ref().map(price));
        let glances: Vec<_> = self.glances(carrier, head).collect();
        if glances.iter().any(|(_, glance)| matches!(glance, Prescreen::Fits)) {
            return (Verdict::Fits, None);
        }
        let store = Store::default();
        let mut best: Option<(Verdict, Option<Cost>)> = None;
        for (setup, glance) in glances {
            let found = match glance {
                Prescreen::Open(today) => Search::new(&store, setup, &self.catalogue, &today).outcome(),
                Prescreen::Fits | Prescreen::Never => (Verdict::DoesNotFit, None),
            };
            if best.as_ref().is_none_or(|best| order(&found) < order(best)) {
                best = Some(found);
            }
            if best.as_ref().is_some_and(|(verdict, _)| !goes_on(*verdict)) {
                break;
            }
        }
        // A machine without circuits is judged with one of which nothing is known.
        best.unwrap_or_else(|| (pair(carrier, head, self.conditions).verdict, None))
    }
}
