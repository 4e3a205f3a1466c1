//! The other way round: the machines for one attachment, the smallest that runs it first.

use super::machine::Store;
use super::search::{Prescreen, Search};
use super::{Judge, Verdict};
use quantity::Quantity;
use std::cmp::Ordering;
use table::{Carrier, Head};

/// Lighter machines first; those of which nobody states the mass behind them, then by id.
pub fn by_size(a: &Carrier, b: &Carrier) -> Ordering {
    let mass = |carrier: &Carrier| carrier.operating_mass.as_ref().map_or(f64::INFINITY, |mass| mass.nominal.si());
    mass(a).total_cmp(&mass(b)).then_with(|| a.id.cmp(&b.id))
}

/// The order of machines for one attachment: verdict, then size.
pub fn smallest_first(a: (&Carrier, Verdict), b: (&Carrier, Verdict)) -> Ordering {
    a.1.cmp(&b.1).then_with(|| by_size(a.0, b.0))
}

/// Which machines run an attachment, without reasons or figures.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RunsOn {
    /// On how many it fits as it is.
    pub as_it_is: usize,
    /// The smallest machine on which it fits as it is; where there is none, the smallest on which it fits after changes: its place
    /// in the list that was asked.
    pub smallest: Option<(usize, Verdict)>,
}

impl RunsOn {
    /// Asks the machines of the list. Classes that stand for no machine in particular are left out: they never fit. What fits as it is is
    /// soon seen; changes are looked for only where nothing does, and no further than the smallest machine that they help.
    pub fn of(judge: &Judge, carriers: &[Carrier], head: &Head) -> Self {
        let mut places: Vec<_> = (0..carriers.len()).filter(|&place| !carriers[place].generic).collect();
        places.sort_by(|&a, &b| by_size(&carriers[a], &carriers[b]));
        let (mut runs, mut open) = (Self::default(), Vec::new());
        for place in places {
            let seen: Vec<_> = judge.glances(&carriers[place], head).collect();
            if seen.iter().any(|(_, glance)| matches!(glance, Prescreen::Fits)) {
                runs.as_it_is += 1;
                runs.smallest.get_or_insert((place, Verdict::Fits));
            } else if runs.smallest.is_none() {
                open.push((place, seen));
            }
        }
        let store = Store::default();
        for (place, seen) in open {
            if runs.smallest.is_some() {
                break;
            }
            for (setup, glance) in seen {
                if let Prescreen::Open(today) = glance
                    && Search::new(&store, setup, &judge.catalogue, &today).begin().works()
                {
                    runs.smallest = Some((place, Verdict::FitsAfterChanges));
                    break;
                }
            }
        }
        runs
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Conditions;
    use crate::yard::paired;

    #[test]
    fn the_smallest_is_what_pairing_every_machine_finds() {
        let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
        let conditions = Conditions::of_table(&table);
        let judge = Judge::new(&conditions);
        let mut seen = [0; 3];
        let one_of = if std::env::var_os("LONG").is_some() { 3 } else { 6 };
        for head in table.heads.iter().step_by(one_of) {
            let runs = RunsOn::of(&judge, &table.carriers, head);
            let mut all: Vec<_> = table
                .carriers
                .iter()
                .filter(|carrier| !carrier.generic)
                .map(|carrier| (carrier, paired(carrier, head).verdict))
                .collect();
            let count = |verdict| all.iter().filter(|(_, of)| *of == verdict).count();
            assert_eq!(runs.as_it_is, count(Verdict::Fits), "{}", head.id);
            all.sort_by(|a, b| smallest_first(*a, *b));
            let first = all.first().filter(|(_, verdict)| *verdict <= Verdict::FitsAfterChanges);
            let found = runs.smallest.map(|(place, verdict)| (&table.carriers[place], verdict));
            assert_eq!(found.map(|(c, v)| (&c.id, v)), first.map(|(c, v)| (&c.id, *v)), "{}", head.id);
            seen[first.map_or(2, |(_, verdict)| usize::from(*verdict == Verdict::FitsAfterChanges))] += 1;
        }
        assert!(seen[0] > 0 && seen[1] > 0, "the table has both: {seen:?}");
    }

    #[test]
    fn who_states_no_mass_comes_last_and_the_order_is_of_mass_alone() {
        let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
        let mut machines: Vec<_> = table.carriers.iter().filter(|carrier| !carrier.generic).cloned().collect();
        machines[0].operating_mass = None;
        let nameless = machines[0].id.clone();
        machines.sort_by(by_size);
        assert_eq!(machines.last().map(|carrier| &carrier.id), Some(&nameless));
        let masses: Vec<_> =
            machines.iter().filter_map(|c| c.operating_mass.as_ref()).map(|m| m.nominal.si()).collect();
        assert!(masses.windows(2).all(|pair| pair[0] <= pair[1]));
    }
}
