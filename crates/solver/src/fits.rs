//! A list of pairings: the attachments for a machine, or the machines for an attachment.

use super::asked::Asked;
use super::memory::{Kept, Memory, Solvable, machines};
use super::row::{of_carrier, of_head};
use super::task::Task;
use super::{Answer, Row};
use fit::{Judge, ListOrder, Outcome, Pairing, Wanted, smallest_first};
use record::Plate;
use record::plate::{OWN, asked as asked_of};
use std::cmp::Ordering;
use std::collections::VecDeque;
use std::sync::Arc;
use wording::{Filter, Words};

/// How many of the figures that decide most are named.
const DECIDE: usize = 3;

/// What a list is of.
#[derive(Clone, Copy, PartialEq)]
enum Of {
    Heads,
    Machines,
}

/// A machine, and the place of an attachment in the table.
type Pair = (Solvable, usize);

/// A list that is being solved. What is seen at once comes first.
pub struct List {
    kept: Arc<Kept>,
    words: Words<'static>,
    of: Of,
    order: ListOrder,
    wanted: Wanted,
    /// Whether nothing but the class of the machine is known.
    of_class: bool,
    /// Not looked at yet.
    fresh: VecDeque<Pair>,
    /// Looked at: these take a search.
    open: VecDeque<Pair>,
    total: usize,
    checked: usize,
    /// What is shown, as it was told.
    told: Vec<(Pair, Arc<Pairing>)>,
    rows: Vec<Row>,
    is_told: bool,
}

impl List {
    /// What fits a machine.
    pub fn of_machine(
        kept: Arc<Kept>,
        words: Words<'static>,
        machine: &Solvable,
        asked: &Asked,
        among: &[String],
    ) -> Self {
        let wanted = Wanted { verdict: None, ..asked.wanted(words.units) };
        let is_asked = |id: &str| among.is_empty() || among.iter().any(|known| known == id);
        let fresh: VecDeque<Pair> = (0..kept.table.heads.len())
            .filter(|&head| {
                let head = &kept.table.heads[head];
                is_asked(head.id.as_str()) && wanted.suits(head) != Outcome::NotMet
            })
            .map(|head| (machine.clone(), head))
            .collect();
        let of_class = machine.carrier.generic && !machine.carrier.id.as_str().starts_with(OWN);
        Self { order: asked.order, of_class, ..Self::new(kept, words, Of::Heads, wanted, fresh) }
    }

    /// Which machines run an attachment. A class stands for no machine in particular: it never runs anything, and is no size.
    pub fn of_head(kept: Arc<Kept>, words: Words<'static>, head: usize, own: &[Plate]) -> Self {
        let is_one = |machine: &Solvable| !machine.carrier.generic || machine.carrier.id.as_str().starts_with(OWN);
        let fresh = machines(&kept, own).into_iter().filter(is_one).map(|machine| (machine, head)).collect();
        Self::new(kept, words, Of::Machines, Wanted::default(), fresh)
    }

    fn new(kept: Arc<Kept>, words: Words<'static>, of: Of, wanted: Wanted, fresh: VecDeque<Pair>) -> Self {
        Self {
            total: fresh.len(),
            order: ListOrder::default(),
            of_class: false,
            open: VecDeque::new(),
            checked: 0,
            told: Vec::new(),
            rows: Vec::new(),
            is_told: false,
            kept,
            words,
            of,
            wanted,
            fresh,
        }
    }

    fn is_done(&self) -> bool {
        self.fresh.is_empty() && self.open.is_empty()
    }

    fn join(&mut self, pair: Pair, pairing: Arc<Pairing>) {
        self.checked += 1;
        if !self.wanted.admits(&pairing) {
            return;
        }
        let head = &self.kept.table.heads[pair.1];
        let row = match self.of {
            Of::Heads => of_head(&self.words, &pairing, head, self.wanted.suits(head) == Outcome::NotKnown),
            Of::Machines => of_carrier(&self.words, &pairing, &pair.0.carrier),
        };
        self.rows.push(row);
        self.told.push((pair, pairing));
    }

    fn compare(&self, a: usize, b: usize) -> Ordering {
        let ((of_a, a), (of_b, b)) = (&self.told[a], &self.told[b]);
        match self.of {
            Of::Machines => smallest_first((&of_a.0.carrier, a.verdict), (&of_b.0.carrier, b.verdict)),
            Of::Heads => {
                let head = |of: &Pair| &self.kept.table.heads[of.1];
                self.order.compare((a, head(of_a)), (b, head(of_b)))
            }
        }
    }

    fn sorted(&self) -> Answer {
        let mut order: Vec<usize> = (0..self.told.len()).collect();
        order.sort_by(|&a, &b| self.compare(a, b));
        let says = match self.of {
            Of::Heads => String::new(),
            Of::Machines => {
                let all: Vec<_> =
                    order.iter().map(|&at| (&*self.told[at].0.0.carrier, self.told[at].1.verdict)).collect();
                self.words.smallest(&all)
            }
        };
        let mut decide = Vec::new();
        if self.of_class {
            let asked = asked_of(self.told.iter().map(|(_, pairing)| &**pairing));
            let line = |(fact, _)| format!("{}: {}", self.words.fact(fact), self.words.place(fact));
            decide = asked.into_iter().take(DECIDE).map(line).collect();
        }
        let loosen = if self.of == Of::Heads && self.told.is_empty() { self.loosen() } else { Vec::new() };
        Answer::Sorted { order, says, decide, loosen }
    }

    /// What would be left without each of the filters that are set; those without which nothing is left either are not named.
    fn loosen(&self) -> Vec<String> {
        let wanted = &self.wanted;
        let without: [(Filter, Wanted); 6] = [
            (Filter::Name, Wanted { name: String::new(), ..wanted.clone() }),
            (Filter::Quantity, Wanted { kind: None, ..wanted.clone() }),
            (Filter::Material, Wanted { work: None, ..wanted.clone() }),
            (Filter::Width, Wanted { width: None, ..wanted.clone() }),
            (Filter::Stock, Wanted { in_stock: false, ..wanted.clone() }),
            (Filter::Changes, Wanted { most_changes: None, ..wanted.clone() }),
        ];
        let left = |(filter, without): (Filter, Wanted)| {
            let heads = self.kept.table.heads.iter().filter(|head| without.suits(head) != Outcome::NotMet);
            // How many changes each needs is known of those alone that were looked at.
            let count = if filter == Filter::Changes { self.checked } else { heads.count() };
            (without != *wanted && count > 0).then(|| self.words.without_filter(filter, count))
        };
        without.into_iter().filter_map(left).collect()
    }
}

impl Task for List {
    fn step(&mut self, memory: &mut Memory) -> bool {
        if let Some(pair) = self.fresh.pop_front() {
            let head = &self.kept.table.heads[pair.1];
            if let Some(known) = memory.known(&self.kept, &pair.0, head) {
                self.join(pair, known);
            } else if Judge::new(&self.kept.conditions).is_seen_at_once(&pair.0.carrier, head) {
                let pairing = memory.pairing(&self.kept, &pair.0, head);
                self.join(pair, pairing);
            } else {
                self.open.push_back(pair);
            }
        } else if let Some(pair) = self.open.pop_front() {
            let pairing = memory.pairing(&self.kept, &pair.0, &self.kept.table.heads[pair.1]);
            self.join(pair, pairing);
        }
        !self.is_done()
    }

    fn tell(&mut self) -> Vec<Answer> {
        let mut answers = Vec::new();
        if !self.rows.is_empty() || self.is_done() || self.checked > 0 {
            let rows = std::mem::take(&mut self.rows);
            answers.push(Answer::Rows { rows, checked: self.checked, total: self.total });
        }
        if self.is_done() && !std::mem::replace(&mut self.is_told, true) {
            answers.push(self.sorted());
        }
        answers
    }
}
