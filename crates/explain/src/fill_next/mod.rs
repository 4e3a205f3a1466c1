//! What to fill in next: the facts of a whole table that hold up most verdicts, by entry and by column.
//!
//! Each pairing of which nothing can be said yet is solved again with what it waits for as it is likely found ([`HeldUp::of`]), one at a
//! time so that a screen can answer meanwhile. [`Report::of`] counts what all of them ask of each entry and ranks it by what it decides.

mod held_up;
mod likely;

pub use held_up::{HeldUp, Wait};

use fit::FactId;
use quantity::put_in_order_by;
use std::collections::{BTreeMap, BTreeSet};
use table::{Id, Table};

/// How many pairings are looked at. Of a table with more they are spread evenly over it: that ranks the same columns, and nobody waits
/// an hour for it.
const MOST: usize = 2500;

/// The pairings of a table that are looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Looked {
    /// How many there are that could be.
    pub of: usize,
    /// The places of machine and attachment of those that are.
    pub pairings: Vec<(usize, usize)>,
}

impl Looked {
    /// All pairings of a table, or of a large one a share of them. A machine that stands for a class is none to look things up at: it is
    /// left out.
    pub fn at(table: &Table) -> Self {
        let machines: Vec<usize> =
            (0..table.carriers.len()).filter(|&machine| !table.carriers[machine].generic).collect();
        let of = machines.len() * table.heads.len();
        let pairing = |place: usize| (machines[place / table.heads.len()], place % table.heads.len());
        if of <= MOST {
            return Self { of, pairings: (0..of).map(pairing).collect() };
        }
        // Steps of the golden section leave no gap; one that shares no factor with all comes by every attachment alike, and nowhere twice.
        let step = (of / 1000 * 618..of).find(|step| shares_no_factor(*step, of)).unwrap_or(1);
        let mut pairings = Vec::with_capacity(MOST);
        let mut place = 0;
        while pairings.len() < MOST {
            pairings.push(pairing(place));
            place = (place + step) % of;
        }
        Self { of, pairings }
    }
}

fn shares_no_factor(mut a: usize, mut b: usize) -> bool {
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a == 1
}

/// An entry of a table.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Entry {
    /// A machine.
    Carrier(Id),
    /// An attachment.
    Head(Id),
}

/// A fact of one entry that is not known.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Question {
    /// Whose it is.
    pub entry: Entry,
    /// The circuit that it is asked about, where it is a fact of a circuit and the machine states one.
    pub circuit: Option<Id>,
    /// The fact.
    pub fact: FactId,
}

/// What an answer is worth.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Gain {
    /// The pairings that wait for it.
    pub holds_up: usize,
    /// How many of them it decides by itself, at its likeliest or at an end of its likely range.
    pub decides: usize,
    /// By which it is ranked: what it decides at each of these, and its share in what it decides with others.
    pub weight: f64,
}

/// A question with what its answer is worth.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The question.
    pub question: Question,
    /// What its answer is worth.
    pub gain: Gain,
}

/// A column that is empty for some entries.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// The fact.
    pub fact: FactId,
    /// Of how many entries it is not known where a pairing waits for it.
    pub entries: usize,
    /// What it is worth to fill in all of them.
    pub gain: Gain,
}

/// What to fill in next in a whole table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Report {
    /// The pairings of which nothing can be said yet.
    pub held_up: usize,
    /// Those among them that no field of the table settles, as far as can be seen: they wait for a maker, or for a gauge.
    pub beyond: usize,
    /// The questions, the one that decides most first.
    pub entries: Vec<Asked>,
    /// The columns, the one that decides most first.
    pub columns: Vec<Column>,
}

impl Report {
    /// What pairings that are held up ask for.
    pub fn of<'a>(held_up: impl IntoIterator<Item = &'a HeldUp>) -> Self {
        let mut report = Self::default();
        let mut questions: BTreeMap<&Question, Gain> = BTreeMap::new();
        let mut columns: BTreeMap<FactId, (BTreeSet<&Entry>, Gain)> = BTreeMap::new();
        for pairing in held_up {
            report.held_up += 1;
            report.beyond += usize::from(!pairing.is_settled);
            // It counts once for a column, of however many circuits it lacks the fact.
            let mut of_columns: BTreeMap<FactId, Gain> = BTreeMap::new();
            for wait in &pairing.waits {
                let gain = pairing.gain(wait);
                questions.entry(&wait.question).or_default().add(gain);
                let best = of_columns.entry(wait.question.fact).or_insert(gain);
                if gain.weight > best.weight {
                    *best = gain;
                }
                columns.entry(wait.question.fact).or_default().0.insert(&wait.question.entry);
            }
            for (fact, gain) in of_columns {
                columns.entry(fact).or_default().1.add(gain);
            }
        }
        let asked = |(question, gain): (&Question, Gain)| Asked { question: question.clone(), gain };
        report.entries = questions.into_iter().map(asked).collect();
        let column =
            |(fact, (entries, gain)): (FactId, (BTreeSet<&Entry>, Gain))| Column { fact, entries: entries.len(), gain };
        report.columns = columns.into_iter().map(column).collect();
        // Of two alike the quicker one to find out, then the first.
        let rank = |gain: &Gain, fact: FactId| (std::cmp::Reverse(Rank(gain.weight)), fact.found_by().minutes());
        put_in_order_by(&mut report.entries, |asked| rank(&asked.gain, asked.question.fact));
        put_in_order_by(&mut report.columns, |column| rank(&column.gain, column.fact));
        report
    }
}

impl Gain {
    fn add(&mut self, other: Self) {
        self.holds_up += other.holds_up;
        self.decides += other.decides;
        self.weight += other.weight;
    }
}

/// A weight in its order.
#[derive(PartialEq)]
struct Rank(f64);

impl Eq for Rank {}

impl PartialOrd for Rank {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Rank {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_a_large_table_pairings_are_spread_over_every_machine_and_attachment() {
        let mut table = table::read(include_str!("../../../../public/table/demo.json")).table.expect("the demo table");
        let named = table.carriers.iter().filter(|carrier| !carrier.generic).count();
        let small = Looked::at(&table);
        assert_eq!((small.of, small.pairings.len()), (named * table.heads.len(), small.of));
        table.carriers = table.carriers.iter().cycle().take(table.carriers.len() * 10).cloned().collect();
        let Looked { of, pairings } = Looked::at(&table);
        assert_eq!((of, pairings.len()), (10 * named * table.heads.len(), MOST));
        let each: BTreeSet<_> = pairings.iter().collect();
        assert_eq!(each.len(), MOST, "none twice");
        let count = |of: &dyn Fn(&(usize, usize)) -> bool| pairings.iter().filter(|pair| of(pair)).count();
        for (place, carrier) in table.carriers.iter().enumerate() {
            let looked = count(&|pair| pair.0 == place);
            assert!(if carrier.generic { looked == 0 } else { (5..=9).contains(&looked) }, "{place}: {looked}");
        }
        for place in 0..table.heads.len() {
            assert!((60..=65).contains(&count(&|pair| pair.1 == place)), "{place}");
        }
    }
}
