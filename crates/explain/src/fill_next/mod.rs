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

/// The pairings of a table that are asked about, as places of machine and attachment. A machine that stands for a class is none to look
/// things up at: it is left out.
pub fn pairings(table: &Table) -> Vec<(usize, usize)> {
    let machines = (0..table.carriers.len()).filter(|&machine| !table.carriers[machine].generic);
    machines.flat_map(|machine| (0..table.heads.len()).map(move |head| (machine, head))).collect()
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
