//! In words: how a saved pairing comes out differently now, why a kept text cannot be read, and what came of a file of
//! everything.

use super::{Words, counted, reasons};
use fit::{Bound, CheckId};
use record::bundle::{Action, Kind, Step};
use record::{Changed, Difference, RecordFault, Renewed, TableChange};
use table::ChangeId;

/// How many names are told of those that were refused or put beside.
const TOLD: usize = 5;

impl Words<'_> {
    /// One difference between then and now.
    pub fn difference(&self, difference: &Difference) -> String {
        match difference {
            Difference::Gone => "is not in the table in use".to_owned(),
            Difference::Verdict { then, now } => format!("was: {}; now: {}", self.verdict(*then), self.verdict(*now)),
            Difference::Changes { gone, new } => {
                let list = |ids: &[ChangeId]| {
                    let names: Vec<_> = ids.iter().map(|id| self.change_name(*id)).collect();
                    names.join(", ")
                };
                match (gone.is_empty(), new.is_empty()) {
                    (true, _) => format!("now also needs: {}", list(new)),
                    (_, true) => format!("no longer needs: {}", list(gone)),
                    _ => format!("now needs {} instead of {}", list(new), list(gone)),
                }
            }
            Difference::Minutes { then, now } => {
                format!("workshop time {} instead of {}", self.duration(*now), self.duration(*then))
            }
            Difference::Price { then, now } => {
                let shown = |price: &Option<String>| price.clone().unwrap_or_else(|| "none".to_owned());
                format!("price {} instead of {}", shown(now), shown(then))
            }
            Difference::Margin { then, now } => {
                let shown = |(check, thousandths): (CheckId, i32)| {
                    let margin = self.margin(f64::from(thousandths) / 1000.0, None::<Bound>);
                    format!("{} {margin}", self.check_title(check).to_lowercase())
                };
                format!("tightest is now {}, was {}", shown(*now), shown(*then))
            }
        }
    }

    /// What has changed, where something comes out differently: table or program. `own` says that it is about a machine of one's
    /// own, whose figures are among the entries.
    pub fn changed(&self, changed: Changed, own: bool) -> String {
        let entries =
            if own { "The machine's figures or the table have changed since" } else { "The table has changed since" };
        match changed {
            Changed::Entries => format!("{entries}."),
            Changed::Program => "The program judges differently since; all entries are the same.".to_owned(),
            Changed::Both => format!("{entries}, and the program judges differently."),
            Changed::EntriesOrProgram => {
                "It was made by an older version of the program: whether that or the table has changed since cannot be told.".to_owned()
            }
        }
    }

    /// With what a record of a hand-over was begun, where that is not what it is shown with.
    pub fn begun_with(&self, changed: Changed) -> String {
        match changed {
            Changed::Entries => {
                "Begun with other entries of the table: what is expected is solved with those in use."
            }
            Changed::Program => {
                "Begun when the program judged differently: what is expected is solved as it judges today."
            }
            Changed::Both => {
                "Begun with other entries of the table, and when the program judged differently: what is expected is solved with \
                 those in use, as it judges today."
            }
            Changed::EntriesOrProgram => {
                "Begun with another state of the table, and by an older version of the program: what is expected is solved with \
                 those in use."
            }
        }
        .to_owned()
    }

    /// Why a kept text or a file cannot be read, and what to do.
    pub fn record_fault(&self, fault: &RecordFault) -> String {
        match fault {
            RecordFault::Damaged => {
                "It is damaged or cut off. Nothing of it is used: get it once more from where it was made.".to_owned()
            }
            RecordFault::Foreign => {
                "It is nothing that this app keeps. Choose a file that was exported from this app; a table is loaded under Table.".to_owned()
            }
            RecordFault::Newer { found } => format!(
                "It is of version {found}, newer than this app. Reload the page to get the newest app, then try again."
            ),
            RecordFault::TooLarge { most } => format!(
                "It is larger than {} MB, more than a browser keeps. Choose a file that was saved from this app.",
                most / (1024 * 1024)
            ),
        }
    }

    /// What of the kept things cannot be read any more, of each kind how many, and where it is now.
    pub fn damaged(&self, kinds: &[(Kind, usize)], moved: bool) -> String {
        let (what, one) = kept_things(kinds);
        match (one, moved) {
            (true, true) => {
                format!("{what} is damaged and cannot be read. It is put aside under Saved, nothing is deleted.")
            }
            (true, false) => {
                format!(
                    "{what} is damaged and cannot be read. It is left where it was, as there is no room, nothing is deleted."
                )
            }
            (false, true) => {
                format!("{what} are damaged and cannot be read. They are put aside under Saved, nothing is deleted.")
            }
            (false, false) => format!(
                "{what} are damaged and cannot be read. They are left where they were, as there is no room, nothing is deleted."
            ),
        }
    }

    /// What of the kept things a newer version of the app has written, of each kind how many.
    pub fn newer(&self, kinds: &[(Kind, usize)], found: u32) -> String {
        let (what, one) = kept_things(kinds);
        let (is, it_is) = if one { ("is", "it is kept as it is") } else { ("are", "they are kept as they are") };
        let mut told = format!(
            "{what} {is} of version {found}, newer than this app. Reload the page to get the newest app; {it_is}."
        );
        if kinds.iter().any(|(kind, _)| *kind == Kind::Table) {
            told.push_str(" Until then the table beside this app is in use.");
        }
        told
    }

    /// In what a table has changed since it was loaded.
    pub fn table_change(&self, change: &TableChange) -> String {
        let list = |what: &str, Renewed { new, gone, changed }: &Renewed| {
            let parts: Vec<_> = [("new", new), ("gone", gone), ("changed", changed)]
                .into_iter()
                .filter(|(_, names)| !names.is_empty())
                .map(|(how, names)| format!("{how} {}", told(names)))
                .collect();
            (!parts.is_empty()).then(|| format!("{what}: {}.", parts.join("; ")))
        };
        let shared = change.shared.then(|| "Parts, prices, hourly rate or ranges are others.".to_owned());
        let all = [list("Machines", &change.carriers), list("Attachments", &change.heads), shared];
        let all: Vec<_> = all.into_iter().flatten().collect();
        if all.is_empty() { "Nothing comes out otherwise by it.".to_owned() } else { all.join(" ") }
    }

    /// Of a figure with a decimal comma: how it is read.
    pub fn read_as(&self, read: &str) -> String {
        format!("Read as {read}.")
    }

    /// What came of a file of everything.
    pub fn imported(&self, steps: &[Step]) -> String {
        let of = |wanted: fn(&Action) -> bool| steps.iter().filter(move |step| wanted(&step.action));
        let names = |wanted: fn(&Action) -> bool| of(wanted).map(|step| format!("“{}”", step.name)).collect::<Vec<_>>();
        let mut sentences = Vec::new();
        let new: Vec<_> = [
            (Kind::Comparison, "comparison", "comparisons"),
            (Kind::Machine, "machine", "machines"),
            (Kind::HandOver, "record of a hand-over", "records of hand-overs"),
            (Kind::Photo, "photo", "photos"),
            (Kind::Table, "table", "tables"),
            (Kind::Preference, "preference", "preferences"),
            (Kind::Unreadable, "damaged text, put aside", "damaged texts, put aside"),
        ]
        .into_iter()
        .map(|(kind, one, many)| {
            (steps.iter().filter(|step| step.what == kind && step.text().is_some()).count(), one, many)
        })
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, many)| counted(count, one, many))
        .collect();
        if !new.is_empty() {
            sentences.push(format!("Imported: {}.", new.join(", ")));
        }
        let beside = names(|action| matches!(action, Action::Beside { .. }));
        if !beside.is_empty() {
            sentences.push(format!("Put beside what is here and differs: {}.", told(&beside)));
        }
        // One's own preferences stay without a word.
        let same = of(|action| *action == Action::Same).filter(|step| step.what != Kind::Preference).count();
        if same > 0 {
            sentences.push(format!("Already here: {same}."));
        }
        for left in names(|action| *action == Action::TableLeft) {
            sentences
                .push(format!("The table {left} is left out: another is kept here. Load its file to use it instead."));
        }
        for (told_as, fault) in [
            ("damaged", (|action| matches!(action, Action::Refused(RecordFault::Damaged))) as fn(&Action) -> bool),
            ("nothing of this app", |action| matches!(action, Action::Refused(RecordFault::Foreign))),
            ("too large", |action| matches!(action, Action::Refused(RecordFault::TooLarge { .. }))),
            ("newer than this app: reload the page, then import once more", |action| {
                matches!(action, Action::Refused(RecordFault::Newer { .. }))
            }),
        ] {
            let refused = names(fault);
            if !refused.is_empty() {
                sentences.push(format!("Not imported: {} ({told_as}).", told(&refused)));
            }
        }
        if sentences.is_empty() { "There is nothing to import in it.".to_owned() } else { sentences.join(" ") }
    }
}

/// Kept things of several kinds as the beginning of a sentence, and whether it is a single one.
fn kept_things(kinds: &[(Kind, usize)]) -> (String, bool) {
    let total: usize = kinds.iter().map(|(_, count)| count).sum();
    let one = |kind: Kind| match kind {
        Kind::Comparison => "a saved comparison",
        Kind::Machine => "a machine of your own",
        Kind::HandOver => "a record of a hand-over",
        Kind::Photo => "a photo of a plate",
        Kind::Table => "the table that you loaded last",
        Kind::Preference => "a preference",
        Kind::Unreadable | Kind::Other => "something else",
    };
    let named = |(kind, count): &(Kind, usize)| match (kind, count) {
        (kind, 1) => one(*kind).to_owned(),
        (Kind::Comparison, count) => format!("{count} saved comparisons"),
        (Kind::Machine, count) => format!("{count} machines of your own"),
        (Kind::HandOver, count) => format!("{count} records of hand-overs"),
        (_, count) => format!("{count} other things"),
    };
    if total == 1 {
        let what = kinds.iter().find(|(_, count)| *count == 1).map_or("something", |(kind, _)| one(*kind));
        let (first, rest) = what.split_at(1);
        return (format!("{}{rest}", first.to_uppercase()), true);
    }
    let names: Vec<String> = kinds.iter().filter(|(_, count)| *count > 0).map(named).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    (format!("{total} things that were kept here ({})", reasons::list(&names)), false)
}

/// Names in a row, not more than a reader takes in.
fn told(names: &[String]) -> String {
    let mut shown: Vec<_> = names.iter().take(TOLD).map(String::as_str).collect();
    let more = format!("{} more", names.len().saturating_sub(TOLD));
    if names.len() > TOLD {
        shown.push(&more);
    }
    reasons::list(&shown)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use quantity::UnitSystem;

    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    fn step(what: Kind, name: &str, action: Action) -> Step {
        Step { key: String::new(), name: name.to_owned(), what, action }
    }

    fn keep() -> Action {
        Action::Keep { text: String::new() }
    }

    #[test]
    fn each_fault_says_what_and_what_to_do() {
        assert_eq!(
            WORDS.record_fault(&RecordFault::Damaged),
            "It is damaged or cut off. Nothing of it is used: get it once more from where it was made."
        );
        assert_eq!(
            WORDS.record_fault(&RecordFault::Foreign),
            "It is nothing that this app keeps. Choose a file that was exported from this app; a table is loaded under Table."
        );
        assert_eq!(
            WORDS.record_fault(&RecordFault::Newer { found: 7 }),
            "It is of version 7, newer than this app. Reload the page to get the newest app, then try again."
        );
        assert_eq!(
            WORDS.record_fault(&RecordFault::TooLarge { most: record::bundle::LARGEST }),
            "It is larger than 64 MB, more than a browser keeps. Choose a file that was saved from this app."
        );
    }

    #[test]
    fn table_and_program_are_named() {
        let told = |changed, own| WORDS.changed(changed, own);
        assert_eq!(told(Changed::Entries, false), "The table has changed since.");
        assert_eq!(told(Changed::Entries, true), "The machine's figures or the table have changed since.");
        assert_eq!(told(Changed::Program, false), "The program judges differently since; all entries are the same.");
        assert_eq!(told(Changed::Both, false), "The table has changed since, and the program judges differently.");
        assert_eq!(
            told(Changed::Both, true),
            "The machine's figures or the table have changed since, and the program judges differently."
        );
        assert_eq!(
            told(Changed::EntriesOrProgram, false),
            "It was made by an older version of the program: whether that or the table has changed since cannot be told."
        );
        let all = [Changed::Entries, Changed::Program, Changed::Both, Changed::EntriesOrProgram]
            .map(|changed| WORDS.begun_with(changed));
        assert_eq!(all[0], "Begun with other entries of the table: what is expected is solved with those in use.");
        assert_eq!(all[1], "Begun when the program judged differently: what is expected is solved as it judges today.");
        assert_eq!(
            all[2],
            "Begun with other entries of the table, and when the program judged differently: what is expected is solved with \
             those in use, as it judges today."
        );
        assert_eq!(
            all[3],
            "Begun with another state of the table, and by an older version of the program: what is expected is solved with \
             those in use."
        );
    }

    #[test]
    fn what_came_of_a_file_is_told_in_a_few_sentences() {
        assert_eq!(WORDS.imported(&[]), "There is nothing to import in it.");
        let same = |count: usize| vec![step(Kind::Comparison, "A", Action::Same); count];
        assert_eq!(WORDS.imported(&same(3)), "Already here: 3.");
        let mut steps = same(3);
        steps.extend([
            step(Kind::Comparison, "North bank", keep()),
            step(Kind::Comparison, "South bank (imported)", Action::Beside { text: String::new() }),
            step(Kind::Machine, "Ours", keep()),
        ]);
        assert_eq!(
            WORDS.imported(&steps),
            "Imported: 2 comparisons, 1 machine. Put beside what is here and differs: “South bank (imported)”. Already here: 3."
        );
        let odd = [
            step(Kind::Table, "yard.json", Action::TableLeft),
            step(Kind::Preference, "units", Action::Same),
            step(Kind::Unreadable, "x", keep()),
            step(Kind::Machine, "Theirs", Action::Refused(RecordFault::Damaged)),
            step(Kind::Comparison, "Later", Action::Refused(RecordFault::Newer { found: 2 })),
            step(Kind::Other, "other.app", Action::Refused(RecordFault::Foreign)),
        ];
        assert_eq!(
            WORDS.imported(&odd),
            "Imported: 1 damaged text, put aside. The table “yard.json” is left out: another is kept here. Load its file to use \
             it instead. Not imported: “Theirs” (damaged). Not imported: “other.app” (nothing of this app). Not imported: \
             “Later” (newer than this app: reload the page, then import once more)."
        );
    }

    #[test]
    fn damage_of_several_kinds_is_told_of_all() {
        assert_eq!(
            WORDS.damaged(&[(Kind::Comparison, 1)], true),
            "A saved comparison is damaged and cannot be read. It is put aside under Saved, nothing is deleted."
        );
        assert_eq!(
            WORDS.damaged(&[(Kind::Comparison, 2), (Kind::Machine, 1), (Kind::Table, 1)], true),
            "4 things that were kept here (2 saved comparisons, a machine of your own and the table that you loaded last) are \
             damaged and cannot be read. They are put aside under Saved, nothing is deleted."
        );
        assert_eq!(
            WORDS.damaged(&[(Kind::HandOver, 3)], false),
            "3 things that were kept here (3 records of hand-overs) are damaged and cannot be read. They are left where they \
             were, as there is no room, nothing is deleted."
        );
    }

    #[test]
    fn what_a_newer_app_has_kept_is_told_with_what_is_used_meanwhile() {
        assert_eq!(
            WORDS.newer(&[(Kind::Comparison, 1)], 9),
            "A saved comparison is of version 9, newer than this app. Reload the page to get the newest app; it is kept as it is."
        );
        assert_eq!(
            WORDS.newer(&[(Kind::Table, 1)], 2),
            "The table that you loaded last is of version 2, newer than this app. Reload the page to get the newest app; it is \
             kept as it is. Until then the table beside this app is in use."
        );
        assert_eq!(
            WORDS.newer(&[(Kind::Machine, 2), (Kind::HandOver, 1)], 3),
            "3 things that were kept here (2 machines of your own and a record of a hand-over) are of version 3, newer than this \
             app. Reload the page to get the newest app; they are kept as they are."
        );
    }

    #[test]
    fn in_what_a_table_has_changed_is_told_list_by_list() {
        let names = |all: &[&str]| all.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
        let carriers = Renewed { new: names(&["A", "B"]), gone: names(&["C"]), changed: Vec::new() };
        let heads = Renewed { changed: names(&["H"]), ..Renewed::default() };
        assert_eq!(
            WORDS.table_change(&TableChange { carriers, heads, shared: true }),
            "Machines: new A and B; gone C. Attachments: changed H. Parts, prices, hourly rate or ranges are others."
        );
        assert_eq!(WORDS.table_change(&TableChange::default()), "Nothing comes out otherwise by it.");
    }

    #[test]
    fn of_many_names_five_are_told() {
        let names = ["A", "B", "C", "D", "E", "F", "G"];
        let steps = names.map(|name| step(Kind::Machine, name, Action::Refused(RecordFault::Damaged)));
        assert_eq!(WORDS.imported(&steps), "Not imported: “A”, “B”, “C”, “D”, “E” and 2 more (damaged).");
        assert_eq!(WORDS.imported(&steps[..5]), "Not imported: “A”, “B”, “C”, “D” and “E” (damaged).");
    }
}
