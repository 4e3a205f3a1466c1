//! In which order a list of pairings stands.

use super::pair::order;
use super::result::{Pairing, Verdict};
use quantity::{Quantity, string_enum};
use std::cmp::Ordering;
use table::Head;

string_enum! {
    /// The order of a list.
    #[derive(Default)]
    "order of a list" pub enum ListOrder {
        /// By verdict, the best first; of those alike the cheapest.
        #[default]
        Verdict = "verdict",
        /// By what it takes, the cheapest first; what does not fit has no price and comes last.
        Price = "price",
        /// By the attachment's own mass, the lightest first; one that is not stated comes last.
        Mass = "mass",
    }
}

impl ListOrder {
    /// Compares two pairings with their attachments.
    pub fn compare(self, a: (&Pairing, &Head), b: (&Pairing, &Head)) -> Ordering {
        let best = || order(a.0, b.0);
        match self {
            Self::Verdict => best(),
            Self::Price => {
                let price = |pairing: &Pairing| {
                    let rank = match pairing.verdict {
                        Verdict::Fits | Verdict::FitsAfterChanges => 0,
                        // What is certain is not all that it comes to.
                        Verdict::CannotSay => 1,
                        Verdict::DoesNotFit => 2,
                    };
                    (rank, pairing.cost.price.as_ref().map(|price| price.amount), pairing.cost.minutes)
                };
                price(a.0).cmp(&price(b.0)).then_with(best)
            }
            Self::Mass => {
                let mass = |head: &Head| head.mass.as_ref().map_or(f64::INFINITY, |mass| mass.nominal.si());
                mass(a.1).total_cmp(&mass(b.1)).then_with(best)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Conditions, pair};
    use quantity::Named;

    #[test]
    fn a_list_is_in_the_order_that_is_asked_for() {
        let table = table::read(include_str!("../../../public/table/demo.json")).table.unwrap();
        let conditions = Conditions::of_table(&table);
        let machine = table.carrier("quern-q27").unwrap();
        let pairings: Vec<_> = table.heads.iter().map(|head| (pair(machine, head, &conditions), head)).collect();
        let sorted = |by: ListOrder| {
            let mut all: Vec<_> = pairings.iter().map(|(pairing, head)| (pairing, *head)).collect();
            all.sort_by(|a, b| by.compare(*a, *b));
            all
        };
        for &by in ListOrder::ALL {
            assert_eq!(sorted(by).len(), table.heads.len());
        }
        let masses: Vec<_> =
            sorted(ListOrder::Mass).iter().filter_map(|(_, head)| Some(head.mass.as_ref()?.nominal.si())).collect();
        assert!(masses.is_sorted() && masses.len() > 30);
        let by_price = sorted(ListOrder::Price);
        let works = by_price.iter().filter(|(pairing, _)| pairing.verdict <= Verdict::FitsAfterChanges).count();
        let prices: Vec<_> = by_price[..works]
            .iter()
            .map(|(pairing, _)| pairing.cost.price.as_ref().map(|price| price.amount))
            .collect();
        assert!(works > 3 && prices.is_sorted(), "{prices:?}");
        assert_eq!(by_price.last().unwrap().0.verdict, Verdict::DoesNotFit);
    }
}
