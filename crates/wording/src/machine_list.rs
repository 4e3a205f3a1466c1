//! The list of machines that a search finds, as it stands on the first screen.

use super::{Search, Words};
use quantity::{Amount, Named};
use serde::Serialize;
use table::{Carrier, CarrierClass};

/// How many machines are told before more are asked for: a screen of them.
const FIRST: usize = 8;

/// Which machines are asked for.
#[derive(Clone, Debug, Default)]
pub struct MachinesAsked {
    /// What was typed, understood.
    pub search: Search,
    /// The class that they shall be of.
    pub class: Option<CarrierClass>,
    /// Whether all are told, not the first alone.
    pub all: bool,
}

/// The machines that are meant.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct MachineList {
    /// How many there are.
    pub says: String,
    /// The classes of all that were found, whichever was asked for.
    pub classes: Vec<ClassFound>,
    /// The machines, the nearest first.
    pub rows: Vec<MachineRow>,
    /// How many more there are.
    pub more: usize,
}

/// A class among what was found.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize)]
pub struct ClassFound {
    /// Its id.
    pub class: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// How many machines of it there are.
    pub count: usize,
}

/// One machine with what its brochure says.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize)]
pub struct MachineRow {
    /// Its id.
    pub id: String,
    /// Maker and model.
    pub name: String,
    /// Its mass.
    pub mass: String,
    /// Its class, flow and relief.
    pub says: String,
    /// How far it is from the mass that was asked for.
    pub apart: String,
}

impl Words<'_> {
    /// The machines that are meant, with their classes.
    pub fn machine_list(&self, carriers: &[Carrier], asked: &MachinesAsked) -> MachineList {
        let found = self.machines_found(carriers, &asked.search);
        let count = |class: CarrierClass| found.iter().filter(|carrier| carrier.class == class).count();
        let classes = CarrierClass::ALL.iter().map(|&class| ClassFound {
            class: class.name(),
            name: self.carrier_class(class),
            count: count(class),
        });
        let classes = classes.filter(|found| found.count > 0).collect();
        let of_class = || found.iter().filter(|carrier| asked.class.is_none_or(|class| class == carrier.class));
        let count = of_class().count();
        let told = if asked.all { count } else { count.min(FIRST) };
        MachineList {
            says: self.machines_count(count, &asked.search, self.are_partly(&found, &asked.search)),
            classes,
            rows: of_class().take(told).map(|carrier| self.machine_row(carrier, &asked.search)).collect(),
            more: count - told,
        }
    }

    fn machine_row(&self, carrier: &Carrier, search: &Search) -> MachineRow {
        let mut says = vec![self.carrier_class_plain(carrier.class).to_owned()];
        if let Some(circuit) = carrier.circuits.first() {
            let flow = circuit.flow.as_ref().map(|flow| self.amount(Amount::of(flow.nominal)));
            let relief = circuit.relief.as_ref().map(|relief| self.amount(Amount::of(relief.nominal)));
            // A figure keeps its unit beside it.
            says.extend(flow.into_iter().chain(relief).map(|figure| figure.replace(' ', "\u{a0}")));
        }
        if carrier.generic {
            says.push("only typical values of its class".to_owned());
        }
        let mass = carrier.operating_mass.as_ref().map(|mass| self.amount(Amount::of(mass.nominal)));
        MachineRow {
            id: carrier.id.to_string(),
            name: carrier.full_name(),
            mass: mass.unwrap_or_default(),
            says: says.join(" · "),
            apart: self.lighter_or_heavier(carrier, search).unwrap_or_default(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use quantity::UnitSystem;

    #[test]
    fn a_search_tells_classes_nearest_machines_and_how_many_more() {
        let table = table::read(include_str!("../../../public/table/demo.json")).table.unwrap();
        let words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };
        let ask = |class, all| {
            let search = Search::of("8 t", UnitSystem::Metric);
            words.machine_list(&table.carriers, &MachinesAsked { search, class, all })
        };
        let first = ask(None, false);
        assert_eq!(first.rows.len(), FIRST);
        assert_eq!(first.rows[0].name, "Orrin Bay OB 78");
        assert_eq!((first.rows[0].mass.as_str(), first.rows[0].apart.as_str()), ("7850 kg", "150 kg lighter"));
        assert!(first.rows[0].says.starts_with("excavator · "), "{}", first.rows[0].says);
        let all = ask(None, true);
        assert_eq!((all.rows.len(), all.more), (FIRST + first.more, 0));
        assert_eq!(all.classes.iter().map(|class| class.count).sum::<usize>(), all.rows.len());
        assert_eq!(all.says, format!("{} machines near 8000 kg, the nearest first", all.rows.len()));
        let loaders = ask(Some(CarrierClass::WheelLoader), true);
        assert_eq!(loaders.classes, all.classes);
        let count = all.classes.iter().find(|class| class.class == "wheel-loader").unwrap().count;
        assert_eq!(loaders.rows.len(), count);
    }
}
