//! What stands above and in the lists: how many there are, what an attachment's brochure says, which machine is the smallest.

use super::{Words, counted};
use fit::{ListOrder, RunsOn, Verdict};
use quantity::{Amount, string_enum};
use table::{Carrier, Head, Table};

string_enum! {
    /// A filter of a list.
    "filter" pub enum Filter {
        /// Words of the name.
        Name = "name",
        /// What it does.
        Quantity = "kind",
        /// What is to be worked.
        Material = "material",
        /// The least working width.
        Width = "width",
        /// What stands in the yard.
        Stock = "stock",
        /// The most changes.
        Changes = "changes",
    }
}

impl Words<'_> {
    /// How many attachments there would be to look at without a filter.
    pub fn without_filter(&self, filter: Filter, count: usize) -> String {
        let name = match filter {
            Filter::Name => "the name",
            Filter::Quantity => "the kind",
            Filter::Material => "the material",
            Filter::Width => "the width",
            Filter::Stock => "“In the yard”",
            Filter::Changes => "a limit to the changes",
        };
        format!("Without {name}: {} to look at.", self.attachments(count))
    }

    /// How far the solving of a list has come.
    pub fn solving(&self, done: usize, total: usize) -> String {
        if total == 0 {
            "Solving …".to_owned()
        } else if done == 0 {
            format!("Solving {} …", counted(total, "circuit", "circuits"))
        } else {
            format!("Solving {} … {done} done", counted(total, "circuit", "circuits"))
        }
    }

    /// What the table of a comparison says.
    pub fn rows_that_differ(&self) -> &'static str {
        "Rows that differ are marked by a bar. Checks are those of the machine as it would go to work, after the changes."
    }

    /// By what a list is ordered.
    pub fn list_order(&self, by: ListOrder) -> &'static str {
        match by {
            ListOrder::Verdict => "best first",
            ListOrder::Price => "cost of changes",
            ListOrder::Mass => "lightest first",
        }
    }

    /// How many attachments of a list are folded, as their makers do not say whether they do the work.
    pub fn not_stated(&self, count: usize) -> String {
        format!("Not stated: {} whose makers do not say whether they do that", self.attachments(count))
    }

    /// How much of a list is shown.
    pub fn in_list(&self, shown: usize, total: usize) -> String {
        if shown == total { self.attachments(total) } else { format!("{shown} of {} shown", self.attachments(total)) }
    }

    /// Of what the prices in a list are.
    pub fn what_prices_are_of(&self) -> &'static str {
        "Prices: the changes alone, without the attachment."
    }

    /// What a table holds.
    pub fn table_holds(&self, table: &Table) -> String {
        let machines = counted(table.carriers.len(), "machine", "machines");
        let parts = counted(table.parts.len(), "part", "parts");
        format!("{machines}, {}, {parts}", self.attachments(table.heads.len()))
    }

    /// How many attachments there are.
    pub fn attachments(&self, count: usize) -> String {
        counted(count, "attachment", "attachments")
    }

    /// What an attachment's brochure says of oil and size.
    pub fn brochure_of(&self, head: &Head) -> String {
        let flow = match (&head.flow.least, &head.flow.greatest, &head.flow.rated) {
            (Some(least), Some(greatest), _) => {
                Some(self.low_to_high(Amount::of(least.nominal), Amount::of(greatest.nominal)))
            }
            (_, _, Some(rated)) => Some(self.amount(Amount::of(rated.nominal))),
            (Some(least), None, None) => Some(format!("at least {}", self.amount(Amount::of(least.nominal)))),
            (None, Some(greatest), None) => Some(format!("at most {}", self.amount(Amount::of(greatest.nominal)))),
            (None, None, None) => None,
        };
        let pressure = head.pressure.working.as_ref().map(|working| self.amount(Amount::of(working.nominal)));
        let mass = head.mass.as_ref().map(|mass| self.amount(Amount::of(mass.nominal)));
        let width = head.work.width.as_ref().map(|width| format!("{} wide", self.amount(Amount::of(width.nominal))));
        let said: Vec<_> = [flow, pressure, mass, width].into_iter().flatten().collect();
        if said.is_empty() { "nothing is stated of it".to_owned() } else { said.join(" · ") }
    }

    /// Two amounts of the same unit as a span: `30–46 L/min`.
    fn low_to_high(&self, low: Amount, high: Amount) -> String {
        let (low, high) = (self.amount(low), self.amount(high));
        // The unit is said once where both have the same.
        match (low.rsplit_once('\u{a0}').or(low.rsplit_once(' ')), high.rsplit_once('\u{a0}').or(high.rsplit_once(' ')))
        {
            (Some((number, unit)), Some((_, of))) if unit == of => format!("{number}–{high}"),
            _ => format!("{low} to {high}"),
        }
    }

    /// What an attachment is made to work, with the greatest diameters or thicknesses.
    pub fn work_of(&self, head: &Head) -> String {
        let material = |material: &table::Material| match &material.greatest {
            Some(greatest) => format!("{} up to {}", material.name, self.amount(Amount::of(greatest.nominal))),
            None => material.name.clone(),
        };
        let mut said: Vec<_> = head.work.materials.iter().map(material).collect();
        said.extend(head.work.width.as_ref().map(|width| format!("{} wide", self.amount(Amount::of(width.nominal)))));
        said.join(" · ")
    }

    /// How many attachments are made for a work.
    pub fn made_for_it(&self, said: usize, unsaid: usize) -> String {
        let made = format!("{} made for it", counted(said, "attachment is", "attachments are"));
        match unsaid {
            0 => made,
            more => format!("{made} · of {more} more it is not stated"),
        }
    }

    /// The smallest machine that runs an attachment, given all machines in order (see `pairing::smallest_first`).
    pub fn smallest(&self, machines: &[(&Carrier, Verdict)]) -> String {
        let Some((first, verdict)) = machines.first() else { return "There is no machine to put it on.".to_owned() };
        let name = self.sized(first);
        match verdict {
            Verdict::Fits => format!("The smallest machine here that runs it as it is: {name}."),
            Verdict::FitsAfterChanges => {
                format!("No machine here runs it as it is. The smallest that does after changes: {name}.")
            }
            Verdict::CannotSay => {
                let open = machines.iter().filter(|(_, verdict)| *verdict == Verdict::CannotSay).count();
                let machines = counted(open, "machine", "machines");
                format!("Of no machine here is it known that it runs it; of {machines} it cannot be said yet.")
            }
            Verdict::DoesNotFit => "No machine here runs it, whatever is changed.".to_owned(),
        }
    }

    /// On how many machines an attachment runs as it is, and the smallest; or the smallest on which it runs after changes.
    pub fn runs_on(&self, runs: &RunsOn, smallest: Option<&Carrier>) -> String {
        match (runs.smallest, smallest) {
            (Some((_, Verdict::Fits)), Some(carrier)) => {
                let machines = counted(runs.as_it_is, "machine here", "machines here");
                format!("runs as it is on {machines}, the smallest {}", self.sized(carrier))
            }
            (Some(_), Some(carrier)) => {
                format!("runs on no machine here as it is; the smallest after changes {}", self.sized(carrier))
            }
            _ => "runs on no machine here for certain".to_owned(),
        }
    }

    /// A machine with its mass.
    fn sized(&self, carrier: &Carrier) -> String {
        let name = carrier.full_name();
        match &carrier.operating_mass {
            Some(mass) => format!("{name}, {}", self.amount(Amount::of(mass.nominal))),
            None => format!("{name}, of unknown mass"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use crate::yard::paired;
    use fit::{Conditions, Judge, smallest_first};
    use quantity::UnitSystem;
    use table::Table;

    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    fn demo() -> Table {
        table::read(include_str!("../../../public/table/demo.json")).table.expect("a table")
    }

    #[test]
    fn an_attachment_says_what_its_brochure_does() {
        let table = demo();
        let says = |id: &str| WORDS.brochure_of(table.head(id).expect("an attachment"));
        assert_eq!(says("thistlecut-r60"), "34–78 L/min · 150 bar · 145 kg · 620 mm wide");
        let mut bare = table.head("thistlecut-r60").expect("an attachment").clone();
        bare.flow.greatest = None;
        (bare.pressure.working, bare.mass, bare.work.width) = (None, None, None);
        bare.flow.rated = None;
        assert_eq!(WORDS.brochure_of(&bare), "at least 34 L/min");
        bare.flow.least = None;
        assert_eq!(WORDS.brochure_of(&bare), "nothing is stated of it");
        assert_eq!(
            WORDS.work_of(table.head("thistlecut-r60").expect("it")),
            "stems up to 50 mm · grass and reeds · 620 mm wide"
        );
    }

    #[test]
    fn the_smallest_machine_is_named_with_what_it_takes() {
        let table = demo();
        let conditions = Conditions::of_table(&table);
        let machines: Vec<_> = table.carriers.iter().filter(|carrier| !carrier.generic).cloned().collect();
        let mut seen = std::collections::BTreeMap::new();
        for head in table.heads.iter().step_by(2) {
            let mut all: Vec<_> = machines.iter().map(|carrier| (carrier, paired(carrier, head).verdict)).collect();
            all.sort_by(|a, b| smallest_first(*a, *b));
            let said = WORDS.smallest(&all);
            let quick = RunsOn::of(&Judge::new(&conditions), &machines, head);
            let runs = WORDS.runs_on(&quick, quick.smallest.map(|(place, _)| &machines[place]));
            if all[0].1 <= Verdict::FitsAfterChanges {
                assert!(said.contains(&all[0].0.model) && runs.contains(&all[0].0.model), "{said} / {runs}");
            }
            // The same words say the same.
            let told = (all[0].1 <= Verdict::FitsAfterChanges).then(|| (all[0].0.id.clone(), all[0].1));
            assert_eq!(seen.entry((said, runs)).or_insert_with(|| told.clone()), &told);
        }
        assert!(seen.len() >= 15, "{seen:?}");
        assert_eq!(WORDS.smallest(&[]), "There is no machine to put it on.");
        assert_eq!(WORDS.runs_on(&RunsOn::default(), None), "runs on no machine here for certain");
    }

    #[test]
    fn counts_are_said_as_people_do() {
        assert_eq!(WORDS.attachments(1), "1 attachment");
        assert_eq!(WORDS.made_for_it(1, 0), "1 attachment is made for it");
        assert_eq!(WORDS.made_for_it(14, 6), "14 attachments are made for it · of 6 more it is not stated");
        assert_eq!(WORDS.solving(0, 0), "Solving …");
        assert_eq!(WORDS.solving(0, 40), "Solving 40 circuits …");
        assert_eq!(WORDS.solving(12, 40), "Solving 40 circuits … 12 done");
        assert_eq!(WORDS.in_list(40, 40), "40 attachments");
        assert_eq!(WORDS.in_list(1, 40), "1 of 40 attachments shown");
    }
}
