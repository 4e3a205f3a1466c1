//! The parts list for the stores: a row for everything that is taken from a shelf.

use crate::reasons::list;
use crate::{Words, capital};
use quantity::Named;
use table::{ChangeId, Part, Port};
use workshop::{ChangeLine, ChangeList, Requirement};

/// A row of the parts list; what is not stated is empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PartRow {
    /// What it is.
    pub part: String,
    /// Its size.
    pub size: String,
    /// By which standard.
    pub standard: String,
    /// Threads or flanges at its ends.
    pub threads: String,
    /// What it is rated for.
    pub rating: String,
    /// How many.
    pub count: String,
    /// Its number in the stores.
    pub number: String,
    /// What else it must be.
    pub note: String,
}

/// What stands over the columns of the list.
pub const COLUMNS: [&str; 8] = ["Part", "Size", "Standard", "Threads", "Rated for", "Number", "Stores no.", "Note"];

impl PartRow {
    /// The row as the columns have it.
    pub fn columns(&self) -> [&str; 8] {
        let Self { part, size, standard, threads, rating, count, number, note } = self;
        [part, size, standard, threads, rating, count, number, note].map(String::as_str)
    }
}

impl Words<'_> {
    /// Everything that the changes take from a shelf, in working order.
    pub fn parts_list(&self, changes: &ChangeList) -> Vec<PartRow> {
        let fitted =
            changes.lines.iter().filter(|line| !line.change.id.is_setting() && line.change.id != ChangeId::WarmUp);
        fitted.flat_map(|line| self.parts_of(line)).collect()
    }

    /// The list as comma-separated values (RFC 4180), each text as it is: what begins like a formula is kept from being one.
    pub fn parts_csv(&self, rows: &[PartRow]) -> String {
        let cell = |text: &str| {
            let apart = if text.starts_with(['=', '+', '-', '@', '\t']) { "'" } else { "" };
            format!("\"{apart}{}\"", text.replace('"', "\"\""))
        };
        let line = |cells: [&str; 8]| cells.map(cell).join(",") + "\r\n";
        std::iter::once(line(COLUMNS)).chain(rows.iter().map(|row| line(row.columns()))).collect()
    }

    fn parts_of(&self, line: &ChangeLine) -> Vec<PartRow> {
        let part = line.part.as_ref();
        let mut row = PartRow {
            part: part.map_or_else(|| capital(self.change_name(line.change.id)), |part| capital(&part.name)),
            threads: part.map_or_else(String::new, |part| self.threads(part)),
            count: "1".to_owned(),
            number: part.and_then(|part| part.number.clone()).unwrap_or_default(),
            ..PartRow::default()
        };
        let (mut sizes, mut standards, mut ratings, mut notes) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        let mut besides = Vec::new();
        let more = |name: &str, size: String, note: &str, count: &str| PartRow {
            part: name.to_owned(),
            size,
            count: count.to_owned(),
            note: note.to_owned(),
            ..PartRow::default()
        };
        let once = |list: &mut Vec<String>, text: String| {
            if !list.contains(&text) {
                list.push(text);
            }
        };
        let mut has_hose = false;
        for requirement in &line.must_be {
            match requirement {
                Requirement::Bore { bore } => {
                    has_hose = true;
                    once(&mut sizes, format!("bore {}", self.bore(*bore)));
                }
                Requirement::Length { length } => once(&mut sizes, format!("{} long", self.amount(*length))),
                Requirement::Hose { standard } => {
                    has_hose = true;
                    once(&mut standards, self.figure_choice(standard.name()));
                }
                Requirement::Coupling { standard, size } => {
                    standards.extend(standard.map(|standard| self.figure_choice(standard.name())));
                    sizes.extend(size.map(|size| self.bore(size)));
                    "2".clone_into(&mut row.count);
                }
                Requirement::CouplingInReturn { standard, size } => {
                    let mut coupling = more(
                        "Coupling of the return, both halves",
                        size.map_or_else(|| "of the line's bore".to_owned(), |size| self.bore(size)),
                        "Must not fit the pressure coupling",
                        "1",
                    );
                    coupling.standard =
                        standard.map_or_else(String::new, |standard| self.figure_choice(standard.name()));
                    besides.push(coupling);
                }
                Requirement::CaseCoupling => besides.push(more(
                    "Coupling of the case drain, both halves",
                    String::new(),
                    "Must not fit a coupling of a pressure line",
                    "1",
                )),
                // Stands in a row of its own, with its size.
                Requirement::ReturnCoupling if line.must_be.iter().any(is_coupling_in_return) => {}
                Requirement::Passes { flow } => once(&mut ratings, format!("{} or more", self.at_least(*flow))),
                Requirement::Bears { pressure } => once(&mut ratings, format!("{} or more", self.at_least(*pressure))),
                Requirement::Rated { pressure, flow } => {
                    let rated: Vec<_> = pressure.iter().chain(flow).map(|rated| self.at_least(*rated)).collect();
                    once(&mut notes, format!("its maker rates it for {}", rated.join(" and ")));
                }
                Requirement::Dividers { count, .. } => {
                    row.count = count.to_string();
                    notes.push(self.requirement(requirement));
                }
                Requirement::Outputs { .. } | Requirement::Cools { .. } | Requirement::FiltrationRating { .. } => {
                    once(&mut sizes, self.requirement(requirement));
                }
                other => notes.push(self.requirement(other)),
            }
        }
        notes.extend(part.and_then(|part| part.least_flow).map(|least| {
            format!("holds what it is set to from {} up", self.at_least(quantity::Amount::of(least.nominal)))
        }));
        match part.and_then(|part| part.cock) {
            Some(true) => notes.push("a cock comes with it: locked open while the attachment is connected".to_owned()),
            Some(false) => notes.push("no cock in it".to_owned()),
            None => {}
        }
        if part.and_then(|part| part.whip_restraints) == Some(true) {
            notes.push("whip restraints come with it".to_owned());
        } else if has_hose && line.change.id != ChangeId::CaseLine {
            besides.push(more(
                "Whip restraint, one for each hose end",
                String::new(),
                "None is stated to come with the hoses",
                "2",
            ));
        }
        row.size = sizes.join(", ");
        row.standard = standards.join(", ");
        row.rating = ratings.join("; ");
        row.note = capital(&notes.join("; "));
        std::iter::once(row).chain(besides).collect()
    }

    /// What stands at both ends of a part, and at the ends of its hoses; empty where nothing is stated.
    fn threads(&self, part: &Part) -> String {
        let port = |port: &Port| format!("{} ({})", port.size, self.figure_choice(port.standard.name()));
        let mut ends = Vec::new();
        match (&part.inlet, &part.outlet) {
            (Some(one), Some(other)) if one == other => ends.push(format!("both ends {}", port(one))),
            (one, other) => {
                ends.extend(one.as_ref().map(|one| format!("in {}", port(one))));
                ends.extend(other.as_ref().map(|other| format!("out {}", port(other))));
            }
        }
        let known = [&part.inlet, &part.outlet].into_iter().flatten().any(|end| Some(end) == part.hose_ends.as_ref());
        ends.extend(part.hose_ends.as_ref().filter(|_| !known).map(|end| format!("hoses {}", port(end))));
        let told: Vec<_> = ends.iter().map(String::as_str).collect();
        list(&told)
    }
}

fn is_coupling_in_return(requirement: &Requirement) -> bool {
    matches!(requirement, Requirement::CouplingInReturn { .. })
}
