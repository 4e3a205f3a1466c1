//! With what an answer was made: the entries of the table and the program's judgement. So that, where it comes out differently
//! later, a person is told which of the two has changed.

use super::mark::{fnv_1a, mark};
use super::plate::{OWN, Plate};
use fit::{JUDGEMENT, Pairing};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use std::collections::HashMap;

/// The length of a fingerprint, in hexadecimal digits.
const DIGITS: usize = 8;

/// Fields of a machine or an attachment by which nothing comes out differently: what it is called, where it stands.
const NO_MATTER: [&str; 6] = ["maker", "model", "serial_range", "link", "stock", "checked"];
/// Fields of the whole table by which nothing comes out differently; its lists of entries have fingerprints of their own.
const NO_MATTER_OF_TABLE: [&str; 10] =
    ["format", "version", "title", "publisher", "licence", "date", "note", "invented", "carriers", "heads"];

/// With what an answer was made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Made {
    /// A fingerprint of machine, attachment, and what all answers of the table hang on (parts, hourly rate, ranges): eight
    /// hexadecimal digits. Against mistakes, not against malice.
    pub entries: String,
    /// The [`JUDGEMENT`] of the program.
    pub judgement: u32,
}

/// What has changed since an answer was made that comes out differently now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Changed {
    /// Entries of the table, or the figures of a machine of one's own.
    Entries,
    /// How the program judges.
    Program,
    /// Both.
    Both,
    /// One of them, nobody can tell which: whatever made it kept no fingerprint.
    EntriesOrProgram,
}

impl Made {
    /// What has changed between then and now; none when nothing has. What was made without fingerprints was made by another
    /// judgement than this build's; whether its entries are the same is known only of a table that is, to the letter.
    pub fn since(then: Option<&Self>, now: Option<&Self>, same_table: bool) -> Option<Changed> {
        match then.zip(now).map(|(then, now)| (then.entries == now.entries, then.judgement == now.judgement)) {
            Some((true, true)) => None,
            Some((true, false)) => Some(Changed::Program),
            Some((false, true)) => Some(Changed::Entries),
            Some((false, false)) => Some(Changed::Both),
            None if same_table => Some(Changed::Program),
            None => Some(Changed::EntriesOrProgram),
        }
    }

    /// What has changed where an answer comes out differently now: with the same entries it is the program, whatever its number says.
    pub fn changed(then: Option<&Self>, now: Option<&Self>, same_table: bool) -> Changed {
        Self::since(then, now, same_table).unwrap_or(Changed::Program)
    }

    /// Of several answers together.
    pub fn of_all(all: &[Self]) -> Option<Self> {
        match all {
            [] => None,
            [one] => Some(one.clone()),
            [first, ..] => {
                let entries: Vec<&str> = all.iter().map(|made| made.entries.as_str()).collect();
                Some(Self { entries: short(&entries.join(" ")), judgement: first.judgement })
            }
        }
    }

    /// Whether it is of the form in which it is written.
    pub fn is_sound(&self) -> bool {
        self.entries.len() == DIGITS && self.entries.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b))
    }
}

/// The fingerprints of a table's entries. They are of its text, not of what this build reads in it, so that a newer build finds
/// the same ones; the order of fields and the spaces between them make no difference.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Entries {
    carriers: HashMap<String, String>,
    heads: HashMap<String, String>,
    /// Maker and model of each, by id: what it is called.
    carrier_names: HashMap<String, String>,
    head_names: HashMap<String, String>,
    /// Of what all answers hang on.
    shared: String,
}

/// In what a table differs from what it was.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TableChange {
    /// Its machines.
    pub carriers: Renewed,
    /// Its attachments.
    pub heads: Renewed,
    /// Whether parts, prices, hourly rate or ranges are others.
    pub shared: bool,
}

/// What has become of the entries of a list, by their names.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Renewed {
    /// There now, and not before.
    pub new: Vec<String>,
    /// Not there any more.
    pub gone: Vec<String>,
    /// With other figures, or under another name.
    pub changed: Vec<String>,
}

impl Entries {
    /// Those of a table's text; none of a text that is no JSON.
    pub fn of_text(text: &str) -> Self {
        let Ok(Value::Object(mut table)) = serde_json::from_str(text.trim_start_matches('\u{feff}')) else {
            return Self::default();
        };
        let mut list = |name: &str| {
            let (mut marks, mut names) = (HashMap::new(), HashMap::new());
            let entries = table.get_mut(name).and_then(Value::as_array_mut).map(std::mem::take).unwrap_or_default();
            for entry in entries {
                let Value::Object(entry) = entry else { continue };
                let Some(id) = entry.get("id").and_then(Value::as_str).map(str::to_owned) else { continue };
                // Of two with one id the reader takes the first.
                names.entry(id.clone()).or_insert_with(|| {
                    let said =
                        ["maker", "model"].map(|field| entry.get(field).and_then(Value::as_str).unwrap_or_default());
                    said.join(" ").trim().to_owned()
                });
                marks.entry(id).or_insert_with(|| without(entry, &NO_MATTER));
            }
            (marks, names)
        };
        let ((carriers, carrier_names), (heads, head_names)) = (list("carriers"), list("heads"));
        Self { carriers, heads, carrier_names, head_names, shared: without(table, &NO_MATTER_OF_TABLE) }
    }

    /// A fingerprint of some machines and attachments with what they are called, and of what all answers hang on. Machines of one's
    /// own are in no table and are passed over. None where one of the others is not among the entries.
    pub fn of_ids(&self, carriers: &[&str], heads: &[&str]) -> Option<String> {
        let mut said = Vec::new();
        let carriers =
            carriers.iter().filter(|id| !id.starts_with(OWN)).map(|id| (&self.carriers, &self.carrier_names, *id));
        for (marks, names, id) in carriers.chain(heads.iter().map(|id| (&self.heads, &self.head_names, *id))) {
            said.push(format!("{} {} {}", marks.get(id)?, mark(id), mark(names.get(id)?)));
        }
        Some(short(&format!("{} {}", said.join(" "), self.shared)))
    }

    /// In what a newer state of the table differs from this one.
    pub fn change_to(&self, newer: &Self) -> TableChange {
        let (carriers, heads) = ((&self.carriers, &self.carrier_names), (&self.heads, &self.head_names));
        TableChange {
            carriers: renewed(carriers, (&newer.carriers, &newer.carrier_names)),
            heads: renewed(heads, (&newer.heads, &newer.head_names)),
            shared: self.shared != newer.shared,
        }
    }

    /// With what a pairing was made, given the plate of a machine of one's own. None where machine or attachment is not among
    /// the entries.
    pub fn made(&self, pairing: &Pairing, own: Option<&Plate>) -> Option<Made> {
        self.made_of(pairing.carrier.id.as_str(), pairing.head.id.as_str(), own)
    }

    /// With what the pairing of these ids is made, before it is solved.
    pub fn made_of(&self, carrier: &str, head: &str, own: Option<&Plate>) -> Option<Made> {
        let machine = match own {
            Some(plate) => of_plate(plate),
            None if carrier.starts_with(OWN) => return None,
            None => self.carriers.get(carrier)?.clone(),
        };
        let head = self.heads.get(head)?;
        Some(Made { entries: short(&format!("{machine} {head} {}", self.shared)), judgement: JUDGEMENT })
    }
}

/// The entries of a list: their marks and names, by id.
type Listed<'a> = (&'a HashMap<String, String>, &'a HashMap<String, String>);

fn renewed((marks, names): Listed, (new_marks, new_names): Listed) -> Renewed {
    let name = |names: &HashMap<String, String>, id: &String| {
        names.get(id).filter(|name| !name.is_empty()).unwrap_or(id).clone()
    };
    let sorted = |mut all: Vec<String>| {
        all.sort();
        all
    };
    let is_other = |id: &&String| {
        marks.get(*id).is_some_and(|mark| new_marks.get(*id) != Some(mark) || names.get(*id) != new_names.get(*id))
    };
    Renewed {
        new: sorted(new_marks.keys().filter(|id| !marks.contains_key(*id)).map(|id| name(new_names, id)).collect()),
        gone: sorted(marks.keys().filter(|id| !new_marks.contains_key(*id)).map(|id| name(names, id)).collect()),
        changed: sorted(new_marks.keys().filter(is_other).map(|id| name(new_names, id)).collect()),
    }
}

/// The mark of an object without some of its fields. The fields of a `Map` stand in the order of the alphabet.
fn without(mut fields: Map<String, Value>, left_out: &[&str]) -> String {
    fields.retain(|name, _| !left_out.contains(&name.as_str()));
    mark(&Value::Object(fields).to_string())
}

/// The mark of what stands on a plate: class and figures, as typed.
fn of_plate(plate: &Plate) -> String {
    let figures = plate.figures.iter().filter(|(_, typed)| !typed.trim().is_empty());
    let figures: Map<String, Value> = figures.map(|(name, typed)| (name.clone(), Value::from(typed.trim()))).collect();
    mark(&format!("{} {}", plate.class, Value::Object(figures)))
}

/// The mark of a text, its two halves folded into one, as FNV's authors advise for fewer digits.
fn short(text: &str) -> String {
    let whole = fnv_1a(text);
    format!("{:08x}", whole >> 32 ^ whole & u64::from(u32::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::Figure;
    use fit::{Conditions, pair};
    use serde_json::json;
    use table::{CarrierClass, read};

    const DEMO: &str = include_str!("../../../public/table/demo.json");

    fn made(text: &str) -> Made {
        let table = read(text).table.expect("a table");
        let of = table.carrier("quern-q27").zip(table.head("wrackline-b12")).expect("both stand in the table");
        Entries::of_text(text).made(&pair(of.0, of.1, &Conditions::of_table(&table)), None).expect("both are entries")
    }

    /// The demo table after a change.
    fn changed(change: impl FnOnce(&mut Value)) -> String {
        let mut table: Value = serde_json::from_str(DEMO).expect("JSON");
        change(&mut table);
        table.to_string()
    }

    fn entry<'v>(table: &'v mut Value, list: &str, id: &str) -> &'v mut Value {
        table[list].as_array_mut().expect("a list").iter_mut().find(|entry| entry["id"] == id).expect("the entry")
    }

    #[test]
    fn what_can_come_out_differently_changes_the_fingerprint_and_nothing_else_does() {
        let before = made(DEMO);
        assert!(before.is_sound(), "{before:?}");
        assert_eq!(before.judgement, JUDGEMENT);
        let same: [fn(&mut Value); 5] = [
            |_| (),
            |table| table["title"] = json!("Another"),
            |table| entry(table, "carriers", "quern-q27")["stock"] = json!("two in the yard"),
            |table| entry(table, "heads", "thistlecut-r60")["mass"] = json!("9 kg"),
            |table| entry(table, "carriers", "quern-q56")["operating_mass"] = json!("9 kg"),
        ];
        for (place, change) in same.into_iter().enumerate() {
            assert_eq!(made(&changed(change)), before, "{place}");
        }
        let other: [fn(&mut Value); 4] = [
            |table| entry(table, "carriers", "quern-q27")["operating_mass"] = json!("2750 kg"),
            |table| entry(table, "heads", "wrackline-b12")["mass"] = json!("181 kg"),
            |table| table["labour_rate"] = json!("99.00"),
            |table| table["parts"][0]["price"] = json!("1.00"),
        ];
        for (place, change) in other.into_iter().enumerate() {
            assert_ne!(made(&changed(change)).entries, before.entries, "{place}");
        }
    }

    /// Of an address that is sent: another machine under the same id, or the same under another name, is not what was meant.
    #[test]
    fn ids_are_told_apart_with_their_names() {
        let of =
            |text: &str| Entries::of_text(text).of_ids(&["quern-q27"], &["wrackline-b12"]).expect("both are entries");
        let before = of(DEMO);
        assert_eq!(before.len(), DIGITS);
        assert_eq!(
            of(&changed(|table| entry(table, "carriers", "quern-q56")["operating_mass"] = json!("9 kg"))),
            before
        );
        assert_eq!(of(&changed(|table| table["title"] = json!("Another"))), before);
        for (place, change) in [
            (|table: &mut Value| entry(table, "carriers", "quern-q27")["model"] = json!("Z9")) as fn(&mut Value),
            |table| entry(table, "carriers", "quern-q27")["operating_mass"] = json!("2750 kg"),
            |table| entry(table, "heads", "wrackline-b12")["maker"] = json!("Somebody else"),
            |table| table["labour_rate"] = json!("99.00"),
        ]
        .into_iter()
        .enumerate()
        {
            assert_ne!(of(&changed(change)), before, "{place}");
        }
        let entries = Entries::of_text(DEMO);
        assert_eq!(entries.of_ids(&["quern-q27"], &["none"]), None);
        assert_eq!(entries.of_ids(&["own.a"], &["wrackline-b12"]), entries.of_ids(&[], &["wrackline-b12"]));
        assert_ne!(entries.of_ids(&[], &["wrackline-b12"]), entries.of_ids(&[], &[]));
    }

    #[test]
    fn in_what_a_table_has_changed_is_told_by_name() {
        let old = r#"{"carriers":[{"id":"a","maker":"Quern","model":"A"},{"id":"b","model":"B"}],"heads":[{"id":"h","model":"H"}]}"#;
        let new = r#"{"title":"T","carriers":[{"id":"a","maker":"Quern","model":"A","stock":"2"},{"id":"c","model":"C"}],
            "heads":[{"id":"h","model":"H","mass":"9 kg"}],"labour_rate":"70.00"}"#;
        let change = Entries::of_text(old).change_to(&Entries::of_text(new));
        let all = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
        let carriers = Renewed { new: all(&["C"]), gone: all(&["B"]), changed: Vec::new() };
        let heads = Renewed { changed: all(&["H"]), ..Renewed::default() };
        assert_eq!(change, TableChange { carriers, heads, shared: true });
        assert_eq!(Entries::of_text(old).change_to(&Entries::of_text(old)), TableChange::default());
    }

    /// A newer build must find the same ones, or it says that a table has changed which has not.
    #[test]
    fn fingerprints_stay_what_they_are() {
        assert_eq!(short("a"), "296230c0", "the published test vector of FNV-1a, 64 bit, folded");
        let text = r#"{"format":"pairwright.table","version":1,"title":"T","parts":[{"kind":"hose","price":"9.50"}],
            "carriers":[{"id":"m","model":"M","class":"mini-excavator","operating_mass":"2700 kg"}],
            "heads":[{"id":"h","model":"H","kind":"auger","mass":"90 kg"}]}"#;
        let entries = Entries::of_text(text);
        assert_eq!(entries.carriers["m"], mark(r#"{"class":"mini-excavator","id":"m","operating_mass":"2700 kg"}"#));
        assert_eq!(entries.heads["h"], mark(r#"{"id":"h","kind":"auger","mass":"90 kg"}"#));
        assert_eq!(entries.shared, mark(r#"{"parts":[{"kind":"hose","price":"9.50"}]}"#));
        let mut plate = Plate::blank("a".to_owned(), CarrierClass::SkidSteer, "Ours".to_owned(), String::new());
        plate.write(Figure::Flow, " 80 L/min ");
        assert_eq!(of_plate(&plate), mark(r#"skid-steer {"flow":"80 L/min"}"#));
        plate.name = "Theirs".to_owned();
        assert_eq!(of_plate(&plate), mark(r#"skid-steer {"flow":"80 L/min"}"#), "whatever it is called");
        for text in ["", "{", "[]", "7", "{\"carriers\":7,\"heads\":[7,{}]}"] {
            assert_eq!((Entries::of_text(text).carriers.len(), Entries::of_text(text).heads.len()), (0, 0), "{text}");
        }
    }

    #[test]
    fn invariant_a_changed_table_and_a_changed_program_are_told_apart() {
        let of = |entries: &str, judgement| Made { entries: entries.to_owned(), judgement };
        let now = of("0000000a", 3);
        let told = |then: Option<Made>, same_table| Made::changed(then.as_ref(), Some(&now), same_table);
        assert_eq!(told(Some(of("0000000b", 3)), false), Changed::Entries);
        assert_eq!(told(Some(of("0000000a", 2)), false), Changed::Program);
        assert_eq!(told(Some(of("0000000b", 2)), false), Changed::Both);
        // The number was not raised: still nothing else can be the reason.
        assert_eq!(told(Some(of("0000000a", 3)), false), Changed::Program);
        assert_eq!(told(None, false), Changed::EntriesOrProgram);
        assert_eq!(told(None, true), Changed::Program);
        assert_eq!(Made::changed(Some(&now), None, false), Changed::EntriesOrProgram);
        assert_eq!(Made::since(Some(&now), Some(&now), false), None);
        assert_eq!(Made::since(None, Some(&now), true), Some(Changed::Program));
    }

    #[test]
    fn of_several_one_fingerprint_is_kept() {
        let of = |entries: &str| Made { entries: entries.to_owned(), judgement: 3 };
        assert_eq!(Made::of_all(&[]), None);
        assert_eq!(Made::of_all(&[of("0000000a")]), Some(of("0000000a")));
        let two = Made::of_all(&[of("0000000a"), of("0000000b")]).expect("of two");
        assert!(two.is_sound());
        assert_ne!(Some(two), Made::of_all(&[of("0000000b"), of("0000000a")]));
    }
}
