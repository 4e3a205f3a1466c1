//! What a dealer's own script asks: texts in, JSON out, for the page's functions and the command line alike.
//!
//! The answer is the JSON of a pairing, its fields listed in docs/pairing.md. What cannot be answered is a [`Refused`], in JSON
//! `{"error", "reasons", "set_aside"}`. Sentences in it are for people; a script goes by `code`. Numbers and units are the
//! same for every reader: plain and metric.

#[cfg(test)]
mod tests;

use super::{PlainNumbers, Words, counted};
use explain::deciding_fact::with_branches;
use fit::{Conditions, Pairing, pair};
use quantity::{Named, UnitSystem};
use serde::Serialize;
use serde_json::{Value, json};
use std::borrow::Cow;
use table::{Alone, Carrier, Head, Id, Outcome, Problem, Severity, Table, read};

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

/// Answers one question after another and keeps the table of the last one read, so that hundreds of questions to one table
/// read it once.
///
/// ```
/// let mut desk = wording::Desk::default();
/// let table = include_str!("../../../public/table/demo.json");
/// assert!(desk.pair(table, "quern-q56", "thistlecut-r90").contains(r#""verdict":"fits-after-changes""#));
/// assert!(desk.pair(table, "quem-q56", "thistlecut-r90").starts_with(r#"{"error":"No machine \"quem-q56\""#));
/// ```
#[derive(Debug, Default)]
pub struct Desk {
    kept: Option<Kept>,
    /// How often a table was read.
    read: usize,
}

#[derive(Debug)]
struct Kept {
    /// Compared whole: of two tables that only a mark takes for one, the wrong one would answer.
    text: String,
    outcome: Outcome,
    conditions: Conditions,
}

/// A pairing, and what is improbable or not understood in the machine that the question brought along.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The pairing.
    pub pairing: Pairing,
    /// Warnings; none for a machine of the table.
    pub carrier_problems: Vec<Problem>,
}

/// Machine and attachment of a question.
#[derive(Clone, Debug)]
pub struct Found<'t> {
    /// The machine, of the table or brought along.
    pub carrier: Cow<'t, Carrier>,
    /// Warnings of a machine that was brought along.
    pub carrier_problems: Vec<Problem>,
    /// The attachment.
    pub head: &'t Head,
}

/// Why there is no answer: every reason at once.
#[derive(Clone, Debug, PartialEq)]
pub struct Refused {
    /// The reasons, one at least.
    pub reasons: Vec<Refusal>,
    /// The entries of the table that were left out because of an error: what is looked for may be one of them.
    pub set_aside: Vec<String>,
}

/// One reason.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// Nothing of the table can be used.
    TableUnusable {
        /// What is wrong with it.
        problems: Vec<Problem>,
        /// How many more problems there are.
        unlisted: usize,
    },
    /// The machine that the question brought along has errors.
    CarrierUnusable {
        /// What is wrong with it, pointers beginning at the machine.
        problems: Vec<Problem>,
        /// How many more problems there are.
        unlisted: usize,
    },
    /// The table has no such machine.
    UnknownCarrier(Unknown),
    /// The table has no such attachment.
    UnknownHead(Unknown),
}

/// An id that is not in the table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unknown {
    /// What was asked for, shortened.
    pub id: String,
    /// The id that was probably meant.
    pub near: Option<Id>,
}

impl std::fmt::Display for Refused {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.reasons.iter().map(Refusal::to_string).collect::<Vec<_>>().join(" "))
    }
}

impl std::error::Error for Refused {}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&WORDS.refusal(self))
    }
}

impl std::error::Error for Refusal {}

impl Desk {
    /// The pairing of a machine with an attachment as JSON. `table` is the table's text; `carrier` the id of a machine in it,
    /// or a machine that is not in it: a JSON object as in the list `carriers`; `head` the id of an attachment.
    pub fn pair(&mut self, table: &str, carrier: &str, head: &str) -> String {
        match self.ask(table, carrier, head) {
            Ok(answer) => answer.to_json(),
            Err(refused) => refused.to_json(),
        }
    }

    /// The answer to a question as data.
    ///
    /// # Errors
    /// [`Refused`] when the table or the machine cannot be read, or an id is not in the table.
    pub fn ask(&mut self, table: &str, carrier: &str, head: &str) -> Result<Answer, Refused> {
        let Kept { outcome, conditions, .. } = self.kept(table);
        let table = usable(outcome)?;
        let found = look_up(table, carrier, head)
            .map_err(|reasons| Refused { reasons, set_aside: outcome.set_aside.clone() })?;
        let pairing = pair(&found.carrier, found.head, conditions);
        let pairing = with_branches(&found.carrier, found.head, conditions, pairing);
        Ok(Answer { pairing, carrier_problems: found.carrier_problems })
    }

    /// What a whole list is made of: the machine, and the table with its shop.
    ///
    /// # Errors
    /// [`Refused`] when the table or the machine cannot be read, or the machine is not in the table.
    pub fn machine(&mut self, table: &str, carrier: &str) -> Result<(Carrier, Table, Conditions), Refused> {
        let Kept { outcome, conditions, .. } = self.kept(table);
        let table = usable(outcome)?;
        let (carrier, _) = look_up_machine(table, carrier)
            .map_err(|reason| Refused { reasons: vec![reason], set_aside: outcome.set_aside.clone() })?;
        Ok((carrier.into_owned(), table.clone(), conditions.clone()))
    }

    /// What is wrong with a table, as JSON: `usable` says whether anything of it can be used, `problems` lists each with
    /// `severity`, `pointer`, `line`, `column`, `found`, `expected` and `remedy`, `unlisted` counts the others, and
    /// `set_aside` names the entries that are left out.
    pub fn check_table(&mut self, table: &str) -> String {
        let Outcome { table, problems, unlisted, set_aside } = &self.kept(table).outcome;
        let problems = as_json(problems);
        json!({ "usable": table.is_some(), "problems": problems, "unlisted": unlisted, "set_aside": set_aside })
            .to_string()
    }

    fn kept(&mut self, text: &str) -> &Kept {
        let kept = self.kept.take().filter(|kept| kept.text == text);
        let kept = kept.unwrap_or_else(|| {
            self.read += 1;
            let outcome = table::read(text);
            let conditions = outcome.table.as_ref().map(Conditions::of_table).unwrap_or_default();
            Kept { text: text.to_owned(), outcome, conditions }
        });
        self.kept.insert(kept)
    }
}

/// The table that was read.
///
/// # Errors
/// [`Refused`] when nothing of it can be used.
fn usable(outcome: &Outcome) -> Result<&Table, Refused> {
    outcome.table.as_ref().ok_or_else(|| {
        let reason = Refusal::TableUnusable { problems: outcome.problems.clone(), unlisted: outcome.unlisted };
        Refused { reasons: vec![reason], set_aside: Vec::new() }
    })
}

/// Machine and attachment of a question; `carrier` is an id, or a machine as a JSON object.
///
/// # Errors
/// A reason for each of the two that cannot be had.
pub fn look_up<'t>(table: &'t Table, carrier: &str, head: &str) -> Result<Found<'t>, Vec<Refusal>> {
    let attachment = table.head(head).ok_or_else(|| {
        let known = table.heads.iter().map(|known| (&known.id, known.maker.as_deref(), known.model.as_str()));
        Refusal::UnknownHead(unknown(head, known))
    });
    match (look_up_machine(table, carrier), attachment) {
        (Ok((carrier, carrier_problems)), Ok(head)) => Ok(Found { carrier, carrier_problems, head }),
        (machine, attachment) => Err(machine.err().into_iter().chain(attachment.err()).collect()),
    }
}

/// The machine of a question, an id or a machine as a JSON object, and the warnings about the latter.
///
/// # Errors
/// Why it cannot be had.
pub fn look_up_machine<'t>(table: &'t Table, carrier: &str) -> Result<(Cow<'t, Carrier>, Vec<Problem>), Refusal> {
    if carrier.trim_start().starts_with('{') {
        return match table::read_carrier(carrier) {
            Alone { carrier: Some(carrier), problems, .. } => Ok((Cow::Owned(carrier), problems)),
            Alone { carrier: None, problems, unlisted } => Err(Refusal::CarrierUnusable { problems, unlisted }),
        };
    }
    table.carrier(carrier).map(|known| (Cow::Borrowed(known), Vec::new())).ok_or_else(|| {
        let known = table.carriers.iter().map(|known| (&known.id, known.maker.as_deref(), known.model.as_str()));
        Refusal::UnknownCarrier(unknown(carrier, known))
    })
}

/// An id that is not in the list, with the one that is nearest by id, maker and model, or model.
fn unknown<'t>(asked: &str, known: impl Iterator<Item = (&'t Id, Option<&'t str>, &'t str)>) -> Unknown {
    let (mut ids, mut names) = (Vec::new(), Vec::new());
    for (id, maker, model) in known {
        ids.push((id.as_str().to_owned(), id));
        names.extend(maker.map(|_| (like_an_id(&table::full_name(maker, model)), id)));
        names.push((like_an_id(model), id));
    }
    // Of two equally near the id itself, which comes first.
    ids.append(&mut names);
    let texts: Vec<_> = ids.iter().map(|(text, _)| text.as_str()).collect();
    let near = read::nearest(&like_an_id(asked), &texts);
    let near = near.and_then(|near| ids.iter().find(|(text, _)| text == near)).map(|(_, id)| (*id).clone());
    Unknown { id: read::shortened(asked), near }
}

/// A name as most tables make an id of it: `Quern Q 56` is `quern-q-56`.
fn like_an_id(name: &str) -> String {
    name.trim().chars().flat_map(char::to_lowercase).map(|c| if c.is_alphanumeric() { c } else { '-' }).collect()
}

fn as_json(problems: &[Problem]) -> Vec<Value> {
    problems.iter().map(|problem| WORDS.problem_json(problem)).collect()
}

impl Answer {
    /// The JSON of the pairing, on one line; `carrier_problems` besides where there are any.
    pub fn to_json(&self) -> String {
        #[derive(Serialize)]
        struct Written<'a> {
            #[serde(flatten)]
            pairing: &'a Pairing,
            carrier_problems: Vec<Value>,
        }
        if self.carrier_problems.is_empty() {
            return self.pairing.to_json();
        }
        let written = Written { pairing: &self.pairing, carrier_problems: as_json(&self.carrier_problems) };
        serde_json::to_string(&written).unwrap_or_else(|_| self.pairing.to_json())
    }
}

impl Refused {
    /// `{"error", "reasons", "set_aside"}` on one line: a sentence or several for people; each reason with its `code` and
    /// what belongs to it.
    pub fn to_json(&self) -> String {
        let unusable = |code: &str, problems: &[Problem], unlisted: usize| json!({ "code": code, "problems": as_json(problems), "unlisted": unlisted });
        let unknown = |code: &str, unknown: &Unknown| json!({ "code": code, "id": unknown.id, "near": unknown.near });
        let reason = |reason: &Refusal| match reason {
            Refusal::TableUnusable { problems, unlisted } => unusable("table-unusable", problems, *unlisted),
            Refusal::CarrierUnusable { problems, unlisted } => unusable("carrier-unusable", problems, *unlisted),
            Refusal::UnknownCarrier(id) => unknown("unknown-carrier", id),
            Refusal::UnknownHead(id) => unknown("unknown-head", id),
        };
        let reasons: Vec<_> = self.reasons.iter().map(reason).collect();
        json!({ "error": WORDS.refused(self), "reasons": reasons, "set_aside": self.set_aside }).to_string()
    }
}

impl Words<'_> {
    /// Why there is no answer, in sentences.
    pub fn refused(&self, refused: &Refused) -> String {
        let mut sentences: Vec<_> = refused.reasons.iter().map(|reason| self.refusal(reason)).collect();
        if !refused.set_aside.is_empty() {
            let entries = counted(refused.set_aside.len(), "entry is", "entries are");
            sentences.push(format!("{entries} left out of the table for errors."));
        }
        sentences.join(" ")
    }

    /// One reason as a sentence.
    pub fn refusal(&self, refusal: &Refusal) -> String {
        let unusable = |what: &str, problems: &[Problem]| {
            // Warnings are no reason: the first error is.
            let first = problems.iter().find(|problem| problem.severity == Severity::Error).or(problems.first());
            let first = first.map_or_else(String::new, |problem| {
                let text = self.problem(problem);
                format!(", the first at {}: {}", text.place, text.remedy)
            });
            format!("{what} cannot be used ({}){first}.", self.problem_count(problems))
        };
        let unknown = |what: &str, unknown: &Unknown| {
            let near = unknown.near.as_ref();
            let near = near.map_or_else(|| ".".to_owned(), |near| format!(": did you mean \"{near}\"?"));
            format!("No {what} \"{}\" in the table{near}", unknown.id)
        };
        match refusal {
            Refusal::TableUnusable { problems, .. } => unusable("The table", problems),
            Refusal::CarrierUnusable { problems, .. } => unusable("The machine", problems),
            Refusal::UnknownCarrier(id) => unknown("machine", id),
            Refusal::UnknownHead(id) => unknown("attachment", id),
        }
    }

    /// A problem of a table for a script: where it is, and in words what was found, what is expected and how to mend it.
    pub fn problem_json(&self, problem: &Problem) -> Value {
        let text = self.problem(problem);
        json!({
            "severity": problem.severity.name(),
            "pointer": problem.pointer,
            "line": problem.line,
            "column": problem.column,
            "found": text.found,
            "expected": text.expected,
            "remedy": text.remedy,
        })
    }
}
