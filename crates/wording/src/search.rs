//! What people type to find a machine: maker and model, also misspelt or written together; a class in its own or in plain words; a mass
//! or a power, by which the nearest comes first.

use super::Words;
use quantity::{Amount, Kind, Mass, Named, Power, text};
use record::plate::Plate;
use table::{Carrier, CarrierClass};

/// How far a machine may be from the mass or the power that is asked for, as a ratio.
const NEAR: f64 = 1.5;

/// What was typed, understood.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Search {
    /// The mass about which the machine should be.
    pub mass: Option<Mass>,
    /// The power about which it should be.
    pub power: Option<Power>,
    /// All else, in small letters.
    words: Vec<String>,
}

impl Search {
    /// Understands what was typed. A bare number is part of a name.
    pub fn of(typed: &str) -> Self {
        let typed = typed.to_lowercase().replace('-', " ");
        let mut tokens = typed.split_whitespace().peekable();
        let mut search = Self::default();
        while let Some(token) = tokens.next() {
            let end = token.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))).unwrap_or(token.len());
            let (number, behind) = token.split_at(end);
            // “8t” as well as “8 t”.
            let apart = behind.is_empty();
            let unit = if apart { tokens.peek().copied() } else { Some(behind) };
            let unit = unit.filter(|_| !number.is_empty()).and_then(unit_of);
            let number = text::with_points(number);
            let mass = unit.and_then(|unit| text::read::<Mass>(&format!("{number} {unit}")).ok());
            let power = unit.and_then(|unit| text::read::<Power>(&format!("{number} {unit}")).ok());
            if mass.is_none() && power.is_none() {
                search.words.push(token.to_owned());
                continue;
            }
            search.mass = mass.map(|stated| stated.nominal).or(search.mass);
            search.power = power.map(|stated| stated.nominal).or(search.power);
            if apart {
                tokens.next();
            }
        }
        search
    }

    /// How far a machine is from what is asked for, as the logarithm of a ratio; none when it is no such machine. Of no figure all are
    /// as near.
    fn apart(&self, carrier: &Carrier) -> Option<f64> {
        let apart = |asked: f64, has: Option<f64>| Some((has? / asked).ln().abs()).filter(|apart| *apart <= NEAR.ln());
        let mass = carrier.operating_mass.as_ref().map(|stated| stated.nominal.si());
        let power = carrier.engine.power.as_ref().map(|stated| stated.nominal.si());
        let mass = self.mass.map_or(Some(0.0), |asked| apart(asked.si(), mass))?;
        let power = self.power.map_or(Some(0.0), |asked| apart(asked.si(), power))?;
        Some(mass + power)
    }

    /// Whether every word stands in a name; nearly, when letters may be wrong.
    fn is_in(&self, name: &Name, nearly: bool) -> bool {
        self.words.iter().all(|word| name.has(word, nearly))
    }
}

/// A unit as people write it, as the table has it.
fn unit_of(word: &str) -> Option<&'static str> {
    Some(match word {
        "t" | "to" | "ton" | "tons" | "tonne" | "tonnes" => "t",
        "kg" | "kilo" | "kilos" => "kg",
        "lb" | "lbs" | "pounds" => "lb",
        "kw" => "kW",
        "hp" | "bhp" | "horsepower" => "hp",
        _ => return None,
    })
}

/// A name as it is searched.
struct Name {
    /// Maker and model written together.
    together: String,
    words: Vec<String>,
}

impl Name {
    fn new(called: &str, also: &str) -> Self {
        let small = |text: &str| text.to_lowercase();
        let together = small(called).chars().filter(|c| c.is_alphanumeric()).collect();
        let words = small(&format!("{called} {also}"));
        let words = words.split(|c: char| !(c.is_alphanumeric() || c == '.')).filter(|word| !word.is_empty());
        Self { together, words: words.map(str::to_owned).collect() }
    }

    fn has(&self, word: &str, nearly: bool) -> bool {
        let exact = self.together.contains(word) || self.words.iter().any(|own| own.contains(word));
        // A wrong digit is another model; a short word is near to too many.
        let letters = word.chars().all(char::is_alphabetic).then(|| word.chars().count()).filter(|count| *count >= 4);
        let wrong = letters.filter(|_| nearly).map(|count| if count < 7 { 1 } else { 2 });
        exact || wrong.is_some_and(|most| self.words.iter().any(|own| strsim::damerau_levenshtein(own, word) <= most))
    }
}

/// What people call a class besides its name.
fn also_called(class: CarrierClass) -> &'static str {
    match class {
        CarrierClass::MicroExcavator | CarrierClass::MiniExcavator => "digger mini micro",
        CarrierClass::MidiExcavator => "digger midi",
        CarrierClass::Excavator => "digger",
        CarrierClass::SkidSteer => "skid steer skidsteer",
        CarrierClass::CompactTrackLoader => "ctl tracked skid steer",
        CarrierClass::WheelLoader => "wheeled shovel",
        CarrierClass::BackhoeLoader => "backhoe digger tractor",
    }
}

impl Words<'_> {
    /// The machines that are meant, the nearest to a mass or a power first, else in their order. Where no name holds every word, those
    /// that nearly do.
    pub fn machines_found<'a>(&self, carriers: &'a [Carrier], search: &Search) -> Vec<&'a Carrier> {
        let name = |carrier: &Carrier| {
            let class = carrier.class;
            let also = format!("{} {} {}", self.carrier_class(class), class.name(), also_called(class));
            Name::new(&carrier.full_name(), &also)
        };
        let among = |nearly: bool| {
            let named = carriers.iter().filter(|carrier| search.is_in(&name(carrier), nearly));
            named.filter_map(|carrier| Some((search.apart(carrier)?, carrier))).collect::<Vec<_>>()
        };
        let mut found = among(false);
        if found.is_empty() {
            found = among(true);
        }
        found.sort_by(|a, b| a.0.total_cmp(&b.0));
        found.into_iter().map(|(_, carrier)| carrier).collect()
    }

    /// Whether a machine of one's own is meant: by its name, its class, or anything that was typed on its plate.
    pub fn is_own_found(&self, plate: &Plate, search: &Search) -> bool {
        let class = plate.class();
        let typed: Vec<_> = plate.figures.values().map(String::as_str).collect();
        let also = format!(
            "{} {} {}",
            class.map_or("", |class| self.carrier_class(class)),
            class.map_or("", also_called),
            typed.join(" ")
        );
        let near = search.mass.is_none() && search.power.is_none()
            || plate.read().carrier.is_some_and(|carrier| search.apart(&carrier).is_some());
        near && search.is_in(&Name::new(&plate.name, &also), false)
    }

    /// How far a machine is from the mass that was asked for.
    pub fn lighter_or_heavier(&self, carrier: &Carrier, search: &Search) -> Option<String> {
        let (mass, asked) = (carrier.operating_mass.as_ref()?.nominal, search.mass?);
        let apart = mass - asked;
        let by = self.amount(Amount::of(Mass::from_si(apart.si().abs())));
        Some(match apart.si() {
            apart if apart.abs() < 0.5 => "as asked".to_owned(),
            apart if apart < 0.0 => format!("{by} lighter"),
            _ => format!("{by} heavier"),
        })
    }

    /// How many machines there are.
    pub fn machines_count(&self, count: usize, search: &Search) -> String {
        let near = [search.mass.map(Amount::of), search.power.map(Amount::of)];
        let near: Vec<_> = near.into_iter().flatten().map(|asked| self.amount(asked)).collect();
        match (count, near.as_slice()) {
            (0, _) => "No machine of the table is meant. Shorten the search, or describe your own.".to_owned(),
            (_, []) => super::counted(count, "machine", "machines"),
            (_, near) => format!(
                "{} near {}, the nearest first",
                super::counted(count, "machine", "machines"),
                near.join(" and ")
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use quantity::UnitSystem;
    use std::sync::LazyLock;
    use table::Table;

    static DEMO: LazyLock<Table> =
        LazyLock::new(|| table::read(include_str!("../../../public/table/demo.json")).table.unwrap());
    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    fn found(typed: &str) -> Vec<&'static str> {
        WORDS.machines_found(&DEMO.carriers, &Search::of(typed)).iter().map(|carrier| carrier.id.as_str()).collect()
    }

    #[test]
    fn a_mass_is_understood_however_it_is_written_and_the_nearest_comes_first() {
        for typed in ["8 t", "8t", "8 tonne", "8,0 t", "8000 kg", "8.0 tons"] {
            assert_eq!(found(typed)[..2], ["orrin-e78", "quern-b78"], "{typed}");
        }
        assert_eq!(found("8 tonne excavator")[..2], ["orrin-e78", "skerry-s84"]);
        assert!(found("8 t").iter().all(|id| !id.starts_with("any-")), "a class has no mass");
    }

    #[test]
    fn a_class_is_found_by_the_words_that_people_use() {
        assert!(found("digger").contains(&"quern-q27") && found("digger").contains(&"quern-b78"));
        assert!(!found("digger").contains(&"quern-k29"));
        assert!(
            found("skid steer 75 hp")
                .iter()
                .all(|id| id.contains("-k") || id.contains("-d") || id.contains("-t") || id.contains("-c"))
        );
        assert!(!found("skid steer 75 hp").is_empty());
        assert!(found("mini excavator").contains(&"skerry-s24"));
    }

    #[test]
    fn a_name_is_found_written_together_or_misspelt_but_not_by_a_wrong_digit() {
        assert_eq!(found("qu 27"), ["quern-q27"]);
        assert_eq!(found("QU27"), ["quern-q27"]);
        assert_eq!(found("Quren QU27"), ["quern-q27"]);
        assert!(found("skery mini").contains(&"skerry-s24"));
        assert_eq!(found("qu 28"), Vec::<&str>::new());
        assert_eq!(found("no such thing"), Vec::<&str>::new());
    }

    #[test]
    fn what_was_typed_on_a_plate_is_found() {
        let mut plate =
            Plate::blank("a".to_owned(), CarrierClass::MidiExcavator, "Old digger".to_owned(), String::new());
        plate.write(record::plate::Figure::OperatingMass, "8.1 t");
        for typed in ["old", "excavator", "8.1", "8 t"] {
            assert!(WORDS.is_own_found(&plate, &Search::of(typed)), "{typed}");
        }
        for typed in ["new", "2 t", "loader"] {
            assert!(!WORDS.is_own_found(&plate, &Search::of(typed)), "{typed}");
        }
    }

    #[test]
    fn a_row_says_how_far_it_is_from_what_was_asked() {
        let search = Search::of("8 t");
        let apart = |id: &str| WORDS.lighter_or_heavier(DEMO.carrier(id).unwrap(), &search).unwrap();
        assert_eq!(apart("orrin-e78"), "150 kg lighter");
        assert_eq!(apart("skerry-s84"), "440 kg heavier");
        assert_eq!(WORDS.machines_count(9, &search), "9 machines near 8000 kg, the nearest first");
    }
}
