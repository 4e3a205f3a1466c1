//! Saved comparisons: which attachments on which machine, what came out then, and how that differs from what comes out
//! now.

use super::envelope::Envelope;
use super::{Made, RecordFault, merge};
use fit::{CarrierName, CheckId, HeadName, Pairing, Verdict};
use quantity::Named;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use table::{ChangeId, Id, Table};

/// The name by which a kept text says what it is.
pub const FORMAT: &str = "pairwright.saved";
/// The longest name, in characters.
pub const LONGEST_NAME: usize = 80;

/// The longest note, in characters.
pub const LONGEST_NOTE: usize = 2000;

/// A name of at least one visible character, cut to its greatest length.
pub fn sound_name(name: &str) -> Option<String> {
    let name: String = name.trim().chars().filter(|c| !c.is_control()).take(LONGEST_NAME).collect();
    Some(name).filter(|name| !name.is_empty())
}

/// A saved comparison.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Saved {
    /// Unique among the saved ones; part of the key under which it is kept.
    pub id: String,
    /// What the person calls it.
    pub name: String,
    /// The person's notes.
    #[serde(default)]
    pub note: String,
    /// When it was saved, ISO 8601.
    pub created: String,
    /// The table as it was then.
    pub table: TableThen,
    /// The machine; of several the first one's.
    pub carrier: CarrierThen,
    /// The attachments with their verdicts then.
    pub heads: Vec<HeadThen>,
}

/// Which table it was.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TableThen {
    /// Its title.
    pub title: String,
    /// Its date.
    #[serde(default)]
    pub date: Option<String>,
    /// A mark of its text (see [`crate::mark`]); none when saved by a build that made none.
    #[serde(default)]
    pub mark: Option<String>,
}

/// An id with the name that a person knows.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CarrierThen {
    /// The id in the table.
    pub id: String,
    /// Maker and model.
    pub name: String,
}

impl TableThen {
    /// A table as it is now, given the mark of its text.
    pub fn of(table: &Table, mark: &str) -> Self {
        Self { title: table.title.clone(), date: table.date.map(|date| date.to_string()), mark: Some(mark.to_owned()) }
    }
}

impl CarrierThen {
    /// A machine.
    pub fn of_carrier(CarrierName { id, maker, model }: &CarrierName) -> Self {
        Self::named(id, maker.as_ref(), model)
    }

    /// An attachment.
    pub fn of_head(HeadName { id, maker, model, .. }: &HeadName) -> Self {
        Self::named(id, maker.as_ref(), model)
    }

    fn named(id: &Id, maker: Option<&String>, model: &str) -> Self {
        Self { id: id.to_string(), name: table::full_name(maker.map(String::as_str), model) }
    }
}

/// An attachment with its verdict when the comparison was saved.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HeadThen {
    /// The machine, where it is another one than the comparison's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub carrier: Option<CarrierThen>,
    /// The id in the table.
    pub id: String,
    /// Maker and model.
    pub name: String,
    /// The verdict's name then.
    pub verdict: String,
    /// What else came out then; none when saved by a build that kept only the verdict.
    #[serde(default)]
    pub figures: Option<FiguresThen>,
    /// With what it came out; none when saved by a build that did not keep it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made: Option<Made>,
}

/// What came out of a pairing when it was saved.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FiguresThen {
    /// The names of the changes.
    pub changes: Vec<String>,
    /// Workshop time.
    pub minutes: u32,
    /// Price with its currency, `EUR 1240.50`.
    pub price: Option<String>,
    /// The name of the tightest check.
    pub tightest: Option<String>,
    /// Its margin in thousandths of the limit.
    pub margin: Option<i32>,
}

/// One way in which a pairing comes out differently now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Difference {
    /// The machine or the attachment is not there any more.
    Gone,
    /// Another verdict.
    Verdict {
        /// Then.
        then: Verdict,
        /// Now.
        now: Verdict,
    },
    /// Other changes.
    Changes {
        /// No longer needed.
        gone: Vec<ChangeId>,
        /// Newly needed.
        new: Vec<ChangeId>,
    },
    /// Another workshop time.
    Minutes {
        /// Then.
        then: u32,
        /// Now.
        now: u32,
    },
    /// Another price, with its currency; none where one part is not priced.
    Price {
        /// Then.
        then: Option<String>,
        /// Now.
        now: Option<String>,
    },
    /// Another tightest check, or another margin of it, in thousandths of the limit.
    Margin {
        /// The check and its margin then.
        then: (CheckId, i32),
        /// The check and its margin now.
        now: (CheckId, i32),
    },
}

impl FiguresThen {
    fn of(pairing: &Pairing) -> Self {
        Self {
            changes: pairing.changes.iter().map(|change| change.id.name().to_owned()).collect(),
            minutes: pairing.cost.minutes,
            price: pairing.cost.price.as_ref().map(|price| format!("{} {}", price.currency, price.amount)),
            tightest: pairing.tightest.map(|tightest| tightest.check.name().to_owned()),
            margin: pairing.tightest.map(|tightest| thousandths(tightest.margin)),
        }
    }
}

fn thousandths(share: f64) -> i32 {
    // Clamped just before: no margin is a million times its limit.
    #[allow(clippy::cast_possible_truncation)]
    let whole = (share * 1000.0).round().clamp(-1e9, 1e9) as i32;
    whole
}

impl HeadThen {
    /// The verdict then, when this build knows its name.
    pub fn verdict(&self) -> Option<Verdict> {
        Verdict::from_name(&self.verdict)
    }

    /// In what it comes out differently now; nothing when all that was kept is as it was.
    pub fn differences(&self, now: Option<&Pairing>) -> Vec<Difference> {
        let Some(pairing) = now else { return vec![Difference::Gone] };
        let mut found = Vec::new();
        if let Some(then) = self.verdict().filter(|then| *then != pairing.verdict) {
            found.push(Difference::Verdict { then, now: pairing.verdict });
        }
        let Some(then) = &self.figures else { return found };
        let now = FiguresThen::of(pairing);
        let missing_in = |all: &[String], other: &[String]| {
            let ids = all.iter().filter(|name| !other.contains(name)).filter_map(|name| ChangeId::from_name(name));
            ids.collect::<Vec<_>>()
        };
        let (gone, new) = (missing_in(&then.changes, &now.changes), missing_in(&now.changes, &then.changes));
        if !gone.is_empty() || !new.is_empty() {
            found.push(Difference::Changes { gone, new });
        }
        if then.minutes != now.minutes {
            found.push(Difference::Minutes { then: then.minutes, now: now.minutes });
        }
        if then.price != now.price {
            found.push(Difference::Price { then: then.price.clone(), now: now.price.clone() });
        }
        let margin = |of: &FiguresThen| Some((CheckId::from_name(of.tightest.as_ref()?)?, of.margin?));
        if let Some((then, now)) = margin(then).zip(margin(&now)).filter(|(then, now)| then != now) {
            found.push(Difference::Margin { then, now });
        }
        found
    }
}

const ENVELOPE: Envelope = Envelope { format: FORMAT, field: "saved", steps: &[of_one_machine] };

/// Version 1 knew comparisons on one machine only, which are what they were.
#[expect(clippy::unnecessary_wraps, reason = "a step may fail")]
fn of_one_machine(saved: Value) -> Option<Value> {
    Some(saved)
}

impl Saved {
    /// A new record of a comparison, given with what each of its pairings was made.
    pub fn new(
        id: String,
        name: &str,
        created: String,
        (table, mark): (&Table, &str),
        pairings: &[&Pairing],
        made: impl Fn(&Pairing) -> Option<Made>,
    ) -> Option<Self> {
        let first = pairings.first()?;
        let machine = |pairing: &Pairing| CarrierThen::of_carrier(&pairing.carrier);
        Some(Self {
            id,
            name: sound_name(name)?,
            note: String::new(),
            created,
            table: TableThen::of(table, mark),
            carrier: machine(first),
            heads: pairings
                .iter()
                .map(|pairing| HeadThen {
                    carrier: Some(machine(pairing)).filter(|carrier| carrier.id != first.carrier.id.as_str()),
                    id: pairing.head.id.to_string(),
                    name: CarrierThen::of_head(&pairing.head).name,
                    verdict: pairing.verdict.name().to_owned(),
                    figures: Some(FiguresThen::of(pairing)),
                    made: made(pairing),
                })
                .collect(),
        })
    }

    /// The machine that an attachment of it stood on.
    pub fn carrier_of<'a>(&'a self, head: &'a HeadThen) -> &'a CarrierThen {
        head.carrier.as_ref().unwrap_or(&self.carrier)
    }

    /// The machines, each once, in the order of the comparison.
    pub fn carriers(&self) -> Vec<&CarrierThen> {
        let mut all: Vec<&CarrierThen> = Vec::new();
        for head in &self.heads {
            let carrier = self.carrier_of(head);
            if all.iter().all(|known| known.id != carrier.id) {
                all.push(carrier);
            }
        }
        if all.is_empty() { vec![&self.carrier] } else { all }
    }

    /// Machine and attachment of each, by their ids.
    pub fn pairs(&self) -> impl Iterator<Item = (&str, &str)> {
        self.heads.iter().map(|head| (self.carrier_of(head).id.as_str(), head.id.as_str()))
    }

    /// The comparison under another name and with other notes; none when nothing is left of the name.
    pub fn renamed(&self, name: &str, note: &str) -> Option<Self> {
        let sound = |c: &char| !c.is_control() || *c == '\n';
        let note: String = note.trim().chars().filter(sound).take(LONGEST_NOTE).collect();
        Some(Self { name: sound_name(name)?, note, ..self.clone() })
    }

    /// The one of these that a comparison of the same pairings is saved onto: it has the same name. Under another name it is
    /// another one.
    pub fn onto<'a>(all: &'a [Self], pairs: &[(&str, &str)], name: &str) -> Option<&'a Self> {
        let name = sound_name(name)?;
        all.iter().find(|saved| saved.name == name && saved.pairs().eq(pairs.iter().copied()))
    }

    /// What stands here put together with what another tab has kept meanwhile. What came out stays together: a verdict belongs
    /// to its table.
    pub(super) fn merged(base: &Self, mine: &Self, theirs: &Self) -> Self {
        let came_out =
            |saved: &Self| (saved.created.clone(), saved.table.clone(), saved.carrier.clone(), saved.heads.clone());
        let (created, table, carrier, heads) = merge::field(&came_out(base), &came_out(mine), &came_out(theirs));
        Self {
            id: mine.id.clone(),
            name: merge::field(&base.name, &mine.name, &theirs.name),
            note: merge::prose(&base.note, &mine.note, &theirs.note),
            created,
            table,
            carrier,
            heads,
        }
    }
}

super::envelope::encloses!(Saved);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mark;

    fn saved() -> Saved {
        Saved {
            id: "a1".to_owned(),
            name: "Flood bank \"north\" <b>".to_owned(),
            note: String::new(),
            created: "2026-11-25T10:00:00Z".to_owned(),
            table: TableThen { title: "Yard".to_owned(), date: Some("2026-11-25".to_owned()), mark: Some(mark("{}")) },
            carrier: CarrierThen { id: "m".to_owned(), name: "Machine".to_owned() },
            heads: vec![HeadThen {
                carrier: None,
                id: "h".to_owned(),
                name: "Head".to_owned(),
                verdict: "fits".to_owned(),
                figures: None,
                made: Some(Made { entries: "0d2f1b69".to_owned(), judgement: 1 }),
            }],
        }
    }

    #[test]
    fn what_is_kept_reads_back() {
        assert_eq!(Saved::decode(&saved().encode()), Ok(saved()));
        assert_eq!(saved().heads[0].verdict(), Some(Verdict::Fits));
    }

    #[test]
    fn a_text_cut_anywhere_is_damaged_and_nothing_else() {
        let text = saved().encode();
        for end in (0..text.len()).filter(|&end| text.is_char_boundary(end)) {
            assert_eq!(Saved::decode(&text[..end]), Err(RecordFault::Damaged), "cut at {end}");
        }
    }

    #[test]
    fn foreign_and_newer_texts_are_told_apart() {
        assert_eq!(Saved::decode(r#"{"format":"other","version":1,"saved":{}}"#), Err(RecordFault::Foreign));
        assert_eq!(
            Saved::decode(r#"{"format":"pairwright.saved","version":7,"saved":{}}"#),
            Err(RecordFault::Newer { found: 7 })
        );
        assert_eq!(Saved::decode(r#"{"format":"pairwright.saved","version":1,"saved":{}}"#), Err(RecordFault::Damaged));
    }

    /// What the first build kept, without marks and figures, still reads.
    #[test]
    fn the_first_form_of_version_1_reads() {
        let first = r#"{"format":"pairwright.saved","version":1,"saved":{"id":"a1","name":"N","created":"2026-11-25T10:00:00Z","table":{"title":"Yard"},"carrier":{"id":"m","name":"M"},"heads":[{"id":"h","name":"H","verdict":"fits"}]}}"#;
        let read = Saved::decode(first).expect("the first form");
        assert_eq!((read.table.mark, read.heads[0].figures.clone(), read.note), (None, None, String::new()));
        assert_eq!(read.heads[0].made, None);
    }

    #[test]
    fn a_comparison_over_several_machines_names_each() {
        let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
        let conditions = fit::Conditions::of_table(&table);
        let pairing = |carrier, head| {
            let of = table.carrier(carrier).zip(table.head(head)).expect("both stand in the table");
            fit::pair(of.0, of.1, &conditions)
        };
        let all = [
            pairing("quern-q27", "wrackline-b12"),
            pairing("quern-q56", "wrackline-b12"),
            pairing("quern-q27", "thistlecut-r60"),
        ];
        let of: Vec<_> = all.iter().collect();
        let saved =
            Saved::new("a".to_owned(), "Two machines", String::new(), (&table, "m"), &of, |_| None).expect("a name");
        let pairs = [("quern-q27", "wrackline-b12"), ("quern-q56", "wrackline-b12"), ("quern-q27", "thistlecut-r60")];
        assert!(saved.pairs().eq(pairs));
        let names: Vec<_> = saved.carriers().iter().map(|carrier| carrier.name.as_str()).collect();
        assert_eq!(names, ["Quern QU 27", "Quern QU 56"]);
        let read = Saved::decode(&saved.encode()).expect("what was kept");
        assert!(read.pairs().eq(pairs));
        // What is on one machine alone says nothing more than it did.
        assert!(
            !Saved::new("a".to_owned(), "One", String::new(), (&table, "m"), &of[..1], |_| None)
                .expect("a name")
                .encode()
                .contains("QU 56")
        );
    }

    #[test]
    fn under_another_name_it_is_another_comparison() {
        let all = [Saved { id: "a2".to_owned(), name: "Jones".to_owned(), ..saved() }, saved()];
        let pairs = [("m", "h")];
        let onto = |name: &str, pairs: &[(&str, &str)]| Saved::onto(&all, pairs, name).map(|saved| saved.id.clone());
        assert_eq!(onto(" Jones ", &pairs).as_deref(), Some("a2"));
        assert_eq!(onto("Flood bank \"north\" <b>", &pairs).as_deref(), Some("a1"));
        assert_eq!(onto("Smith", &pairs), None);
        assert_eq!(onto("Jones", &[("m", "other")]), None, "of other pairings");
        assert_eq!(onto(" ", &pairs), None);
    }

    #[test]
    fn invariant_what_two_tabs_write_on_a_comparison_is_put_together() {
        let base = saved();
        let mut anew = base.clone();
        anew.created = "2026-11-26T10:00:00Z".to_owned();
        anew.heads[0].verdict = "does-not-fit".to_owned();
        let noted = base.renamed("South bank", "Gate on the left").expect("a name");
        let both = Saved::merged(&base, &anew, &noted);
        assert_eq!((both.name.as_str(), both.note.as_str()), ("South bank", "Gate on the left"));
        assert_eq!((both.created.as_str(), both.heads[0].verdict.as_str()), ("2026-11-26T10:00:00Z", "does-not-fit"));
        assert_eq!(Saved::merged(&base, &noted, &anew), both);
        assert_eq!(Saved::merged(&base, &base, &noted), noted);
        let other = base.renamed("Flood bank", "Soft ground").expect("a name");
        let both = Saved::merged(&base, &other, &noted);
        assert_eq!((both.name.as_str(), both.note.as_str()), ("Flood bank", "Soft ground\nGate on the left"));
    }

    #[test]
    fn a_new_name_must_say_something() {
        let renamed = saved().renamed(" South\u{7} bank ", " wet\nbelow ").expect("a name");
        assert_eq!((renamed.name.as_str(), renamed.note.as_str()), ("South bank", "wet\nbelow"));
        assert_eq!(saved().renamed(" \u{7} ", ""), None);
    }
}
