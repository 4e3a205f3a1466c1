//! A link in words: why it cannot be made or read, and with which table and machine it was made.

use super::Words;
use record::link::{LONGEST, Link, LinkFault, LinkTable, TableNow, hidden_host};
use table::Table;

impl Words<'_> {
    /// Why a link cannot be made or read, and what to do.
    pub fn link_fault(&self, fault: &LinkFault) -> String {
        match fault {
            LinkFault::Damaged => {
                "The link is damaged: something of it was lost or changed on its way. Copy it once more as a \
                                   whole, or have it sent again."
                    .to_owned()
            }
            LinkFault::Newer { found } => format!(
                "The link is of version {found}, newer than this app. Reload the page to get the newest app, then open it again."
            ),
            LinkFault::TooLong { length } => format!(
                "The link has {length} characters; mail and messengers pass on no more than {LONGEST} for certain. Send fewer \
                 attachments, the machine without its figures, or a file in place of a hand-over's record."
            ),
        }
    }

    /// With which table a link was made, and what that means for what is seen now.
    pub fn link_table(&self, table: &LinkTable, now: TableNow) -> String {
        let name = self.titled_table(table);
        let from = |address: &String| {
            let address = self.address(address);
            format!(" The sender loaded it from {address}: load it from there only if you trust that address.")
        };
        let from = table.address.as_ref().map(from);
        match now {
            TableNow::Same => format!("Made with the table {name}, the one in use here."),
            TableNow::OtherState => format!(
                "Made with another state of the table {name}. Solved again with the one in use here, it may come out \
                 differently.{}",
                from.unwrap_or_default()
            ),
            TableNow::Other => format!(
                "Made with another table, {name}. In the one in use here, machine and attachments may be missing or be others \
                 under the same ids.{}",
                from.unwrap_or_else(|| " Ask the sender for the table's file and load it.".to_owned())
            ),
        }
    }

    /// Why a screen is not shown whose address came from a page with another table: what it is about may be missing in the one in
    /// use, or be another thing under the same id.
    pub fn stamped(&self, table: &LinkTable, now: TableNow, used: &Table) -> String {
        let (name, used) = (self.titled_table(table), &used.title);
        let why = match now {
            TableNow::Same => return format!("Made with the table {name}, the one in use here."),
            TableNow::OtherState => format!(
                "This address was made with another state of the table {name}. What it leads to is not the same in the one in use \
                 here, or is missing there."
            ),
            TableNow::Other => format!(
                "This address was made with another table, {name}. In the one in use here, “{used}”, what it leads to is missing, \
                 or is another machine or attachment under the same id."
            ),
        };
        let whence = match &table.address {
            Some(address) => {
                format!("Its table is at {}: load it only if you trust that address.", self.address(address))
            }
            None => "Its table is the one beside this app.".to_owned(),
        };
        format!("{why} {whence}")
    }

    /// An address to be read before it is used. One that hides its host behind another name is told by its host.
    pub fn address(&self, address: &str) -> String {
        match hidden_host(address) {
            Some(host) => format!("{address} (this leads to {host}, whatever stands before the @)"),
            None => address.to_owned(),
        }
    }

    /// Whose figures a verdict rests on, of a machine that came in a link.
    pub fn somebody_elses(&self) -> &'static str {
        "The machine's figures came in a link and are somebody else's: check them at the machine before you rely on this."
    }

    /// What to know of a machine that came with a link; nothing for one of the table.
    pub fn link_machine(&self, link: &Link) -> Option<String> {
        let (plate, solvable) = link.own()?;
        let name = if plate.name.is_empty() { "without a name" } else { &format!("“{}”", plate.name) };
        Some(if solvable {
            format!(
                "The machine {name} is the sender's own, and so are its figures: check them at the machine before you rely on them."
            )
        } else {
            format!(
                "The machine {name} is the sender's own and came without its figures. Nothing can be solved here: the verdicts are those the sender saw."
            )
        })
    }
}

impl Words<'_> {
    /// A table by its title and date.
    fn titled_table(&self, table: &LinkTable) -> String {
        let date = table.date.as_deref().map(|date| self.numbers.day(date));
        match (table.title.as_str(), date) {
            ("", None) => "without a title".to_owned(),
            ("", Some(date)) => format!("without a title, of {date}"),
            (title, None) => format!("“{title}”"),
            (title, Some(date)) => format!("“{title}” of {date}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use quantity::UnitSystem;
    use record::Plate;
    use record::link::LinkMachine;
    use record::plate::Figure;
    use table::{CarrierClass, Id};

    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    fn table(address: Option<&str>) -> LinkTable {
        LinkTable {
            mark: "ab".to_owned(),
            title: "Yard".to_owned(),
            date: Some("2026-11-25".to_owned()),
            address: address.map(str::to_owned),
        }
    }

    #[test]
    fn each_fault_says_what_and_what_to_do() {
        assert_eq!(
            WORDS.link_fault(&LinkFault::Damaged),
            "The link is damaged: something of it was lost or changed on its way. Copy it once more as a whole, or have it sent \
             again."
        );
        assert_eq!(
            WORDS.link_fault(&LinkFault::Newer { found: 2 }),
            "The link is of version 2, newer than this app. Reload the page to get the newest app, then open it again."
        );
        assert_eq!(
            WORDS.link_fault(&LinkFault::TooLong { length: 2345 }),
            "The link has 2345 characters; mail and messengers pass on no more than 2000 for certain. Send fewer attachments, \
             the machine without its figures, or a file in place of a hand-over's record."
        );
    }

    #[test]
    fn the_table_is_named_with_what_it_means() {
        assert_eq!(
            WORDS.link_table(&table(None), TableNow::Same),
            "Made with the table “Yard” of 2026-11-25, the one in use here."
        );
        assert_eq!(
            WORDS.link_table(&table(None), TableNow::OtherState),
            "Made with another state of the table “Yard” of 2026-11-25. Solved again with the one in use here, it may come out \
             differently."
        );
        assert_eq!(
            WORDS.link_table(&table(None), TableNow::Other),
            "Made with another table, “Yard” of 2026-11-25. In the one in use here, machine and attachments may be missing or \
             be others under the same ids. Ask the sender for the table's file and load it."
        );
        let at = table(Some("https://yard.example/table.json"));
        assert_eq!(
            WORDS.link_table(&at, TableNow::Other),
            "Made with another table, “Yard” of 2026-11-25. In the one in use here, machine and attachments may be missing or \
             be others under the same ids. The sender loaded it from https://yard.example/table.json: load it from there only \
             if you trust that address."
        );
        assert_eq!(
            WORDS.link_table(&LinkTable { date: None, ..at }, TableNow::OtherState),
            "Made with another state of the table “Yard”. Solved again with the one in use here, it may come out differently. \
             The sender loaded it from https://yard.example/table.json: load it from there only if you trust that address."
        );
        let untitled = LinkTable { title: String::new(), ..table(None) };
        assert_eq!(
            WORDS.link_table(&untitled, TableNow::Same),
            "Made with the table without a title, of 2026-11-25, the one in use here."
        );
    }

    #[test]
    fn a_screen_of_another_table_says_why_it_is_not_shown() {
        let used = table::read(r#"{"format":"pairwright.table","version":1,"title":"Demo","carriers":[],"heads":[]}"#);
        let used = used.table.expect("a table");
        assert_eq!(
            WORDS.stamped(&table(Some("https://yard.example/t.json")), TableNow::Other, &used),
            "This address was made with another table, “Yard” of 2026-11-25. In the one in use here, “Demo”, what it leads to is \
             missing, or is another machine or attachment under the same id. Its table is at https://yard.example/t.json: load it \
             only if you trust that address."
        );
        assert_eq!(
            WORDS.stamped(&table(None), TableNow::OtherState, &used),
            "This address was made with another state of the table “Yard” of 2026-11-25. What it leads to is not the same in the \
             one in use here, or is missing there. Its table is the one beside this app."
        );
    }

    #[test]
    fn an_address_that_hides_its_host_is_told_by_its_host() {
        assert_eq!(WORDS.address("https://yard.example/t.json"), "https://yard.example/t.json");
        let told =
            "https://yard.example@other.example/t.json (this leads to other.example, whatever stands before the @)";
        assert_eq!(WORDS.address("https://yard.example@other.example/t.json"), told);
        let sent = WORDS.link_table(&table(Some("https://yard.example@other.example/t.json")), TableNow::Other);
        assert!(sent.contains(told), "{sent}");
    }

    #[test]
    fn whose_the_figures_are_is_said() {
        let mut plate = Plate::blank("a".to_owned(), CarrierClass::SkidSteer, "Ours".to_owned(), String::new());
        plate.write(Figure::OperatingMass, "3000 kg");
        plate.write(Figure::Flow, "80 L/min");
        let link =
            Link { machine: LinkMachine::Own(plate), heads: Vec::new(), table: table(None), record: None, made: None };
        assert_eq!(
            WORDS.link_machine(&link).as_deref(),
            Some(
                "The machine “Ours” is the sender's own, and so are its figures: check them at the machine before you rely on \
                 them."
            )
        );
        assert_eq!(
            WORDS.link_machine(&link.without_own_figures()).as_deref(),
            Some(
                "The machine “Ours” is the sender's own and came without its figures. Nothing can be solved here: the verdicts \
                 are those the sender saw."
            )
        );
        let machine = LinkMachine::OfTable(Id::new("m").expect("an id"));
        assert_eq!(WORDS.link_machine(&Link { machine, ..link }), None);
    }
}
