//! The fields of the table as columns: every one of them from its own declaration, nested ones with dotted names.

use std::collections::HashMap;
use std::sync::OnceLock;
use table::row::{self, Form};

/// A list of the table, or what it says of itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Machines.
    Machines,
    /// Attachments.
    Attachments,
    /// Parts.
    Parts,
    /// Ranges of practice.
    Assumptions,
    /// Title, publisher and what else the table says of itself: a field a row.
    About,
}

impl Role {
    /// Each of them.
    pub const ALL: [Self; 5] = [Self::Machines, Self::Attachments, Self::Parts, Self::Assumptions, Self::About];

    /// The list in the table's JSON.
    pub fn list(self) -> &'static str {
        match self {
            Self::Machines => "carriers",
            Self::Attachments => "heads",
            Self::Parts => "parts",
            Self::Assumptions => "assumptions",
            Self::About => "",
        }
    }

    /// What its sheet is called.
    pub fn sheet(self) -> &'static str {
        match self {
            Self::Machines => "machines",
            Self::Attachments => "attachments",
            Self::Parts => "parts",
            Self::Assumptions => "assumptions",
            Self::About => "table",
        }
    }

    /// What one of its entries is called, in the header of the column by which a sheet of circuits refers to its machine.
    pub fn one(self) -> &'static str {
        match self {
            Self::Machines => "machine",
            Self::Attachments => "attachment",
            Self::Parts => "part",
            Self::Assumptions => "assumption",
            Self::About => "table",
        }
    }

    /// Its fields, from their declarations.
    pub fn fields(self) -> &'static Fields {
        static FIELDS: [OnceLock<Fields>; 5] = [const { OnceLock::new() }; 5];
        FIELDS[self as usize].get_or_init(|| {
            Fields::of(match self {
                Self::Machines => table::declared::of_carrier,
                Self::Attachments => table::declared::of_head,
                Self::Parts => table::declared::of_part,
                Self::Assumptions => table::declared::of_assumption,
                Self::About => table::declared::of_table,
            })
        })
    }

    /// The lists of objects that have a sheet of their own when a table is written: a row for each, referring to its entry.
    pub fn own_sheets(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Self::Machines => &[
                ("circuits", "circuits"),
                ("pumps", "pumps"),
                ("power_groups", "power groups"),
                ("lifting.chart", "lift charts"),
            ],
            _ => &[],
        }
    }
}

/// A field, however deep.
#[derive(Clone, Debug)]
pub struct Field {
    /// Its dotted name, without numbers of places in lists: `circuits.supply.bore`.
    pub name: String,
    /// The keys to it; which of them hold lists.
    pub steps: Vec<(&'static str, bool)>,
    /// What it holds, or each of it where it is a list.
    pub form: Form,
    /// Whether it may not be left out of its object.
    pub must_be_there: bool,
    /// Whether it is one thing to leave it out and another to state it empty.
    pub is_optional: bool,
    /// What it is.
    pub what: &'static str,
    /// Where a person finds it, or what holds it.
    pub found: &'static str,
}

impl Field {
    /// Whether it is a list itself.
    pub fn is_list(&self) -> bool {
        self.steps.last().is_some_and(|(_, is_list)| *is_list)
    }

    /// How many lists are on the way to it, itself not counted.
    pub fn lists_above(&self) -> usize {
        self.steps.iter().rev().skip(1).filter(|(_, is_list)| *is_list).count()
    }
}

/// All fields of an entry.
#[derive(Debug)]
pub struct Fields(pub Vec<Field>, HashMap<String, usize>);

impl Fields {
    fn of(rows: row::Rows) -> Self {
        let mut fields = Self(Vec::new(), HashMap::new());
        fields.take(&[], "", rows);
        fields.1 = fields.0.iter().enumerate().map(|(place, field)| (field.name.clone(), place)).collect();
        fields
    }

    fn take(&mut self, above: &[(&'static str, bool)], found_above: &'static str, rows: row::Rows) {
        for row in rows() {
            let mut steps = above.to_vec();
            steps.push((row.name, row.kind.is_list));
            let found = if row.found.is_empty() { found_above } else { row.found };
            let name = steps.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(".");
            let field = |name: String, steps: Vec<_>, form, what| Field {
                name,
                steps,
                form,
                must_be_there: row.must_be_there,
                is_optional: row.kind.is_optional,
                what,
                found,
            };
            self.0.push(field(name.clone(), steps.clone(), row.kind.form, row.what.trim()));
            match row.kind.form {
                Form::Object(rows) => self.take(&steps, found, rows),
                Form::Window(dimension, unit) => {
                    for (end, what) in [
                        ("least", "Not less than this."),
                        ("rated", "At its best here."),
                        ("greatest", "Not more than this."),
                    ] {
                        let steps = [&steps[..], &[(end, false)]].concat();
                        self.0.push(field(format!("{name}.{end}"), steps, Form::Figure(dimension, unit), what));
                    }
                }
                _ => {}
            }
        }
    }

    /// The field with a dotted name.
    pub fn named(&self, name: &str) -> Option<&Field> {
        self.0.get(self.place_of(name)?)
    }

    /// The place of a field in the order of the format.
    pub fn place_of(&self, name: &str) -> Option<usize> {
        self.1.get(name).copied()
    }
}

/// A field and its places in the lists on the way to it, from 0.
#[derive(Clone, Debug)]
pub struct Target {
    /// The field.
    pub field: &'static Field,
    /// A place for each list on the way; where the field is a list itself, a place for it says which one of it.
    pub places: Vec<usize>,
}

impl Target {
    /// The target with a dotted name in which numbers from 1 may stand behind lists: `circuits.2.supply.1.bore`.
    pub fn named(role: Role, name: &str) -> Option<Self> {
        let (mut plain, mut numbers) = (Vec::new(), Vec::new());
        for part in name.split('.') {
            match part.parse::<usize>() {
                Ok(number) if (1..=200).contains(&number) && !plain.is_empty() => {
                    numbers.push((plain.len(), number - 1));
                }
                _ => plain.push(part),
            }
        }
        let field = role.fields().named(&plain.join("."))?;
        let (mut places, mut used) = (Vec::new(), 0);
        let last = field.steps.len();
        for (index, (_, is_list)) in field.steps.iter().enumerate() {
            let number = numbers.iter().find(|(behind, _)| *behind == index + 1);
            used += usize::from(number.is_some());
            match number {
                Some((_, place)) if *is_list => places.push(*place),
                Some(_) => return None,
                None if *is_list && index + 1 < last => places.push(0),
                None => {}
            }
        }
        (used == numbers.len()).then_some(Self { field, places })
    }

    /// Its dotted name, with numbers from 1 where they are not 1.
    pub fn name(&self) -> String {
        let mut places = self.places.iter();
        let mut parts = Vec::new();
        for (index, (name, is_list)) in self.field.steps.iter().enumerate() {
            parts.push((*name).to_owned());
            if let Some(place) = is_list.then(|| places.next()).flatten() {
                let itself = index + 1 == self.field.steps.len();
                if *place > 0 || itself {
                    parts.push((place + 1).to_string());
                }
            }
        }
        parts.join(".")
    }

    /// Whether its value is one of the list, or the whole of it.
    pub fn is_whole_list(&self) -> bool {
        self.field.is_list() && self.places.len() == self.field.lists_above()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dotted_name_leads_to_a_field_and_back() {
        for name in [
            "operating_mass",
            "engine.power",
            "circuits.2.supply.3.bore",
            "circuits.coupling.size",
            "guards",
            "mounting.2",
        ] {
            let target = Target::named(Role::Machines, name).expect(name);
            assert_eq!(target.name(), name);
        }
        assert_eq!(Target::named(Role::Machines, "circuits.1.flow").expect("a field").name(), "circuits.flow");
        assert_eq!(
            Target::named(Role::Attachments, "pressure.greatest").expect("a field").field.what,
            "The greatest pressure at the inlet."
        );
        for name in ["engine.2.power", "circuits.0.flow", "circuits.9999.flow", "colour", "", "1"] {
            assert!(Target::named(Role::Machines, name).is_none(), "{name}");
        }
    }

    /// The schema is made of the same declarations by other means.
    #[test]
    fn every_field_of_the_schema_is_a_column() {
        let schema = table::schema::schema();
        for (role, definition) in [(Role::Machines, "Carrier"), (Role::Attachments, "Head"), (Role::Parts, "Part")] {
            let properties = schema["$defs"][definition]["properties"].as_object().expect("properties");
            let own: Vec<_> =
                role.fields().0.iter().filter(|field| field.steps.len() == 1).map(|field| &field.name).collect();
            assert_eq!(own.len(), properties.len(), "{definition}");
            assert!(own.iter().all(|name| properties.contains_key(*name)), "{definition}");
        }
        let about = Role::About.fields();
        for name in schema["properties"].as_object().expect("properties").keys() {
            let listed = Role::ALL.iter().any(|role| role.list() == name);
            assert!(
                listed || ["format", "version", "$schema"].contains(&name.as_str()) || about.named(name).is_some(),
                "{name}"
            );
        }
    }
}
