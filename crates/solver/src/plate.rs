//! What a spec plate comes to while it is being filled in.

use super::answer::Typical;
use super::memory::{Kept, Memory, Solvable};
use super::row::of_head;
use super::task::Task;
use super::{Answer, Row};
use fit::{Pairing, Verdict};
use record::Plate;
use record::plate::{asked, nearest};
use std::collections::BTreeMap;
use std::sync::Arc;
use wording::Words;

/// What is solved, in this order.
#[derive(Clone, Copy, PartialEq)]
enum Stage {
    /// A machine of which nothing but the class is known.
    Blank,
    /// The plate as it stands.
    AsItStands,
    /// The plate with what is not on it taken from a machine that is typical for the class.
    Typical,
}

/// A machine that is being solved with every attachment that is asked about.
struct Round {
    stage: Stage,
    machine: Option<Solvable>,
    pairings: Vec<Arc<Pairing>>,
}

/// A plate whose pairings are being solved.
pub struct OfPlate {
    kept: Arc<Kept>,
    words: Words<'static>,
    heads: Vec<usize>,
    /// Id and name of the typical machine.
    like: (String, String),
    /// The last one is being solved.
    rounds: Vec<Round>,
    rows: Vec<Row>,
    checked: usize,
    /// How many pairings there are in all rounds.
    total: usize,
    answers: Vec<Answer>,
}

impl OfPlate {
    /// The plate with these attachments.
    pub fn new(
        kept: Arc<Kept>,
        words: Words<'static>,
        plate: &Plate,
        among: &[String],
        questions: bool,
        typical: bool,
    ) -> Self {
        let is_asked = |id: &str| among.is_empty() || among.iter().any(|known| known == id);
        let heads: Vec<usize> =
            (0..kept.table.heads.len()).filter(|&head| is_asked(kept.table.heads[head].id.as_str())).collect();
        let round = |stage, plate: &Plate| Round { stage, machine: Solvable::own(plate), pairings: Vec::new() };
        // The last one is solved first.
        let mut rounds = vec![round(Stage::AsItStands, plate)];
        if questions {
            rounds.push(round(Stage::Blank, &Plate { figures: BTreeMap::new(), ..plate.clone() }));
        }
        let mut like = (String::new(), String::new());
        if typical {
            let found = typical_of(&kept, &words, plate);
            let machine = found.and_then(|(of, plate)| {
                like = of;
                Solvable::own(&plate)
            });
            rounds.push(Round { stage: Stage::Typical, machine, pairings: Vec::new() });
        }
        let total = heads.len() * rounds.iter().filter(|round| round.machine.is_some()).count();
        Self { kept, words, heads, like, rounds, rows: Vec::new(), checked: 0, total, answers: Vec::new() }
    }

    /// What a round has come to.
    fn end(&mut self, round: Round) {
        match round.stage {
            Stage::Blank => {
                let asked = asked(round.pairings.iter().map(AsRef::as_ref));
                self.answers.push(Answer::Questions(asked));
            }
            Stage::AsItStands => {}
            Stage::Typical => {
                let verdicts: Vec<Verdict> = round.pairings.iter().map(|pairing| pairing.verdict).collect();
                let (carrier, name) = std::mem::take(&mut self.like);
                self.answers.push(Answer::Typical(round.machine.map(|_| Typical { carrier, name, verdicts })));
            }
        }
    }
}

impl Task for OfPlate {
    fn step(&mut self, memory: &mut Memory) -> bool {
        if let Some(round) = self.rounds.last_mut()
            && let Some(machine) = &round.machine
            && let Some(&head) = self.heads.get(round.pairings.len())
        {
            let head = &self.kept.table.heads[head];
            let pairing = memory.pairing(&self.kept, machine, head);
            if round.stage == Stage::AsItStands {
                self.rows.push(of_head(&self.words, &pairing, head, false));
            }
            self.checked += 1;
            round.pairings.push(pairing);
        }
        let is_over = |round: &Round| round.machine.is_none() || round.pairings.len() == self.heads.len();
        if self.rounds.last().is_some_and(is_over)
            && let Some(round) = self.rounds.pop()
        {
            self.end(round);
        }
        if self.rounds.is_empty() {
            self.answers.push(Answer::Done);
        }
        !self.rounds.is_empty()
    }

    fn tell(&mut self) -> Vec<Answer> {
        let (checked, total) = (self.checked, self.total);
        // Rows are told all at once: on a plate they settle, and are no list that grows.
        let rows = if self.rounds.is_empty() { std::mem::take(&mut self.rows) } else { Vec::new() };
        let mut answers = vec![Answer::Rows { rows, checked, total }];
        answers.append(&mut self.answers);
        answers
    }
}

/// The plate with what is not on it taken from the machine that is nearest in mass, and that machine's id and name.
fn typical_of(kept: &Kept, words: &Words, plate: &Plate) -> Option<((String, String), Plate)> {
    let mass = plate.read().carrier?.operating_mass?.nominal;
    let near = nearest(&kept.table, plate.class()?, mass)?;
    let name = words.own_name(near.class, near.operating_mass.as_ref().map(|mass| mass.nominal));
    let like = Plate::like(&kept.text, near.id.as_str(), (plate.id.clone(), name, plate.changed.clone()))?;
    Some(((near.id.to_string(), like.taken_from.clone()), plate.filled_from(&like)))
}
