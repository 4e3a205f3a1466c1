//! What to fill in next in a table, in words and as JSON.

use super::{Words, capital, counted};
use explain::fill_next::{Asked, Column, Entry, Gain, Looked, Question, Report};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use table::{Carrier, Table, full_name};

/// What to fill in next, in words.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FillNextText {
    /// How much is held up, a sentence each.
    pub says: Vec<String>,
    /// The columns, the one that decides most first.
    pub columns: Vec<NextText>,
    /// The same by machine and attachment.
    pub entries: Vec<NextText>,
}

/// Something to fill in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NextText {
    /// Whose it is, where it is one machine's or attachment's.
    pub of: Option<String>,
    /// What is to be filled in, with the circuit that it is asked about.
    pub what: String,
    /// Where it is read or measured.
    pub place: String,
    /// What it is worth.
    pub worth: String,
}

impl Words<'_> {
    /// What to fill in next, so many columns and entries at most.
    pub fn fill_next(&self, report: &Report, table: &Table, looked: &Looked, most: usize) -> FillNextText {
        FillNextText {
            says: self.held_up(report, table, looked),
            columns: report.columns.iter().take(most).map(|column| self.next_column(column)).collect(),
            entries: report.entries.iter().take(most).map(|asked| self.next_entry(asked, table)).collect(),
        }
    }

    /// How far it has come.
    pub fn looking_at(&self, checked: usize, total: usize) -> String {
        match (checked, total) {
            (_, 0) => "Looking at every pairing …".to_owned(),
            (checked, total) => format!("Looking at {} … {checked} done", counted(total, "pairing", "pairings")),
        }
    }

    fn held_up(&self, report: &Report, table: &Table, looked: &Looked) -> Vec<String> {
        let total = looked.pairings.len();
        let pairings = counted(total, "pairing", "pairings");
        let mut says = Vec::new();
        if total < looked.of {
            let of = self.numbers.decimal(looked.of as f64, 0);
            says.push(format!(
                "Looked at {pairings} of {of}, spread evenly over the table; what is counted below is of these."
            ));
        }
        says.push(match report.held_up {
            0 => format!("A verdict is given for every one of {pairings}: nothing that is missing holds one up."),
            held_up => format!("Of {pairings}, {held_up} cannot be said yet."),
        });
        if report.beyond > 0 {
            let wait = if report.beyond == 1 { "it waits" } else { "they wait" };
            says.push(format!(
                "For {} of them filling in the table is probably not enough: {wait} for a reading at the machine, or for an answer of \
                 the maker.",
                report.beyond
            ));
        }
        let classes = table.carriers.iter().filter(|carrier| carrier.generic).count();
        if classes > 0 {
            let stand = if classes == 1 { "that stands for its class is" } else { "that stand for their class are" };
            says.push(format!("{} {stand} left out.", counted(classes, "machine", "machines")));
        }
        says
    }

    fn next_column(&self, column: &Column) -> NextText {
        let of = if column.fact.is_of_machine() {
            counted(column.entries, "machine", "machines")
        } else {
            self.attachments(column.entries)
        };
        NextText {
            of: None,
            what: capital(self.fact(column.fact)),
            place: self.place(column.fact).to_owned(),
            worth: format!("not stated of {of}; {}", self.worth(&column.gain)),
        }
    }

    fn next_entry(&self, asked: &Asked, table: &Table) -> NextText {
        let Asked { question, gain } = asked;
        let (carrier, name) = whose(question, table);
        let circuit = carrier.filter(|carrier| carrier.circuits.len() > 1).and_then(|carrier| {
            let circuit = carrier.circuit(question.circuit.as_ref()?)?;
            Some(circuit.name.clone().unwrap_or_else(|| circuit.id.to_string()))
        });
        let what = self.fact(question.fact).to_owned();
        NextText {
            of: Some(name),
            what: circuit.map_or_else(|| what.clone(), |circuit| format!("{what} (circuit “{circuit}”)")),
            place: self.place(question.fact).to_owned(),
            worth: self.worth(gain),
        }
    }

    fn worth(&self, gain: &Gain) -> String {
        let wait = if gain.holds_up == 1 { "waits" } else { "wait" };
        let waits = format!("{} {wait} for it", counted(gain.holds_up, "pairing", "pairings"));
        match gain.decides {
            0 => format!("{waits}, together with other facts"),
            decides if decides == gain.holds_up => format!("{waits}; by itself it may decide {}", all_of(decides)),
            decides => format!("{waits}; by itself it may decide {decides}"),
        }
    }

    /// What to fill in next for a script, one object a line: what is held up, the columns, then the entries.
    pub fn fill_next_json(&self, report: &Report, looked: &Looked, most: usize) -> Vec<String> {
        let Report { held_up, beyond, columns, entries } = report;
        let gain = |gain: &Gain| json!({ "holds_up": gain.holds_up, "decides": gain.decides });
        let (of, total) = (looked.of, looked.pairings.len());
        let whole = json!({ "of": "table", "pairings": of, "looked_at": total, "held_up": held_up, "beyond_the_table": beyond });
        let columns = columns.iter().take(most).map(|column| {
            let of = json!({ "of": "column", "fact": column.fact, "entries": column.entries });
            joined([of, self.found(column.fact), gain(&column.gain)])
        });
        let entries = entries.iter().take(most).map(|asked| {
            let Question { entry, circuit, fact } = &asked.question;
            let of = match entry {
                Entry::Carrier(id) => json!({ "of": "machine", "id": id, "circuit": circuit, "fact": fact }),
                Entry::Head(id) => json!({ "of": "attachment", "id": id, "fact": fact }),
            };
            joined([of, self.found(*fact), gain(&asked.gain)])
        });
        std::iter::once(whole).chain(columns).chain(entries).map(|line| line.to_string()).collect()
    }

    fn found(&self, fact: fit::FactId) -> Value {
        json!({ "what": self.fact(fact), "where": self.place(fact) })
    }
}

fn all_of(count: usize) -> String {
    match count {
        1 => "it".to_owned(),
        2 => "both".to_owned(),
        _ => format!("all {count}"),
    }
}

/// One object of several.
fn joined(parts: [Value; 3]) -> Value {
    let fields = parts.into_iter().filter_map(|part| match part {
        Value::Object(fields) => Some(fields),
        _ => None,
    });
    Value::Object(fields.flatten().filter(|(_, value)| !value.is_null()).collect())
}

/// The machine that is asked about, and what the entry is called.
fn whose<'t>(question: &Question, table: &'t Table) -> (Option<&'t Carrier>, String) {
    match &question.entry {
        Entry::Carrier(id) => {
            let carrier = table.carrier(id.as_str());
            (carrier, carrier.map_or_else(|| id.to_string(), |of| full_name(of.maker.as_deref(), &of.model)))
        }
        Entry::Head(id) => {
            let head = table.head(id.as_str());
            (None, head.map_or_else(|| id.to_string(), |of| full_name(of.maker.as_deref(), &of.model)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use fit::FactId;
    use quantity::UnitSystem;
    use table::Id;

    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    fn report() -> Report {
        let id = |id: &str| Id::new(id).unwrap();
        let question = |entry, circuit: Option<&str>, fact| Question { entry, circuit: circuit.map(id), fact };
        let gain = |holds_up, decides| Gain { holds_up, decides, weight: 1.0 };
        let asked = |question, gain| Asked { question, gain };
        Report {
            held_up: 12,
            beyond: 1,
            entries: vec![
                asked(question(Entry::Carrier(id("orrin-d34")), Some("high"), FactId::CircuitRelief), gain(8, 3)),
                asked(question(Entry::Head(id("pebblegate-a15")), None, FactId::CarrierMassWindow), gain(2, 2)),
            ],
            columns: vec![Column { fact: FactId::CarrierMassWindow, entries: 1, gain: gain(2, 0) }],
        }
    }

    fn looked(pairings: usize) -> Looked {
        Looked { of: pairings, pairings: vec![(0, 0); pairings] }
    }

    fn demo() -> Table {
        table::read(include_str!("../../../public/table/demo.json")).table.unwrap()
    }

    #[test]
    fn each_is_told_with_whose_it_is_where_it_is_found_and_what_it_is_worth() {
        let text = WORDS.fill_next(&report(), &demo(), &looked(1440), 10);
        assert_eq!(text.says[0], "Of 1440 pairings, 12 cannot be said yet.");
        assert!(text.says[1].starts_with("For 1 of them filling in the table is probably not enough: it waits"));
        assert_eq!(text.says[2], "7 machines that stand for their class are left out.");
        let [relief, window] = &text.entries[..] else { panic!("{text:?}") };
        assert_eq!(relief.of.as_deref(), Some("Orrin Bay OB 34 high flow"));
        assert_eq!(relief.what, "the relief setting of the auxiliary circuit (circuit “high flow”)");
        assert_eq!(relief.worth, "8 pairings wait for it; by itself it may decide 3");
        assert!(relief.place.contains("gauge"));
        assert_eq!(window.worth, "2 pairings wait for it; by itself it may decide both");
        assert_eq!(
            text.columns[0].worth,
            "not stated of 1 attachment; 2 pairings wait for it, together with other facts"
        );
        assert_eq!(WORDS.fill_next(&report(), &demo(), &looked(1440), 1).entries.len(), 1);
        assert_eq!(WORDS.looking_at(40, 1440), "Looking at 1440 pairings … 40 done");
        let share = WORDS.fill_next(&report(), &demo(), &Looked { of: 200_000, ..looked(2500) }, 1);
        assert_eq!(
            share.says[0],
            "Looked at 2500 pairings of 200\u{202f}000, spread evenly over the table; what is counted below is of these."
        );
        let none = WORDS.fill_next(&Report::default(), &demo(), &looked(9), 1);
        assert_eq!(
            none.says[0],
            "A verdict is given for every one of 9 pairings: nothing that is missing holds one up."
        );
    }

    #[test]
    fn a_script_gets_the_facts_by_the_names_of_their_fields() {
        let lines = WORDS.fill_next_json(&report(), &looked(1440), 10);
        let lines: Vec<Value> = lines.iter().map(|line| serde_json::from_str(line).unwrap()).collect();
        assert_eq!(
            lines[0],
            json!({"of": "table", "pairings": 1440, "looked_at": 1440, "held_up": 12, "beyond_the_table": 1})
        );
        assert_eq!((&lines[1]["of"], &lines[1]["fact"]), (&json!("column"), &json!("head.carrier_mass")));
        let relief = &lines[2];
        assert_eq!(relief["what"], "the relief setting of the auxiliary circuit");
        assert_eq!(
            (&relief["id"], &relief["circuit"], &relief["holds_up"], &relief["decides"]),
            (&json!("orrin-d34"), &json!("high"), &json!(8), &json!(3))
        );
        assert!(lines[3].get("circuit").is_none() && lines[3]["of"] == "attachment");
    }
}
