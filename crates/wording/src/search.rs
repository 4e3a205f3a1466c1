//! What people type to find a machine: maker and model, also misspelt or written together; a class in its own or in plain words; a mass
//! or a power, by which the nearest comes first.

use super::Words;
use quantity::{Amount, Mass, Named, Power, Quantity, UnitSystem, put_in_order, text};
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
    /// Understands what was typed by a reader of these units. A bare number is part of a name.
    pub fn of(typed: &str, units: UnitSystem) -> Self {
        let typed = typed.to_lowercase().replace('-', " ");
        let tokens: Vec<&str> = typed.split_whitespace().collect();
        let mut search = Self::default();
        let mut at = 0;
        while at < tokens.len() {
            let (figure, taken) = figure_at(&tokens[at..], units);
            match figure {
                Some(Figure::Mass(mass)) => search.mass = Some(mass),
                Some(Figure::Power(power)) => search.power = Some(power),
                None => search.words.push(tokens[at].to_owned()),
            }
            at += taken;
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

/// A figure among what was typed.
enum Figure {
    Mass(Mass),
    Power(Power),
}

/// The figure that begins here, and of how many tokens it is made: `8t`, `8 t`, `18,000 lb` or `18 000 lb`; none where a word stands.
fn figure_at(tokens: &[&str], units: UnitSystem) -> (Option<Figure>, usize) {
    let first = tokens[0];
    let end = first.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))).unwrap_or(first.len());
    let (number, behind) = first.split_at(end);
    let is_group = |token: &&&str| token.len() == 3 && token.bytes().all(|byte| byte.is_ascii_digit());
    let is_open = behind.is_empty() && (1..=3).contains(&number.len()) && !number.contains(['.', ',']);
    let groups = if is_open { tokens[1..].iter().take_while(is_group).count() } else { 0 };
    let number = number.to_owned() + &tokens[1..=groups].concat();
    let (unit, taken) =
        if behind.is_empty() { (tokens.get(groups + 1).copied(), groups + 2) } else { (Some(behind), 1) };
    let figure = unit.filter(|_| !number.is_empty()).and_then(|unit| figure_in(&number, unit, units));
    let taken = if figure.is_some() { taken } else { 1 };
    (figure, taken)
}

/// A number in a unit as people write it.
fn figure_in(number: &str, unit: &str, units: UnitSystem) -> Option<Figure> {
    // Nobody weighs a machine to a thousandth of a pound: three digits behind a sign are thousands.
    let grouped = matches!(unit, "kg" | "kilo" | "kilos" | "lb" | "lbs" | "pounds") && is_grouped(number);
    // A ton of a reader of US units is 2000 lb.
    let (unit, times) = match unit {
        "ton" | "tons" if units == UnitSystem::UsCustomary => ("lb", 2000.0),
        "t" | "to" | "ton" | "tons" | "tonne" | "tonnes" => ("t", 1.0),
        "kg" | "kilo" | "kilos" => ("kg", 1.0),
        "lb" | "lbs" | "pounds" => ("lb", 1.0),
        "kw" => ("kW", 1.0),
        "hp" | "bhp" | "horsepower" => ("hp", 1.0),
        _ => return None,
    };
    let number = if grouped { number.replace(['.', ','], "") } else { text::with_points(number) };
    let written = format!("{number} {unit}");
    let mass = text::read::<Mass>(&written).ok().map(|mass| Figure::Mass(Mass::from_si(mass.nominal.si() * times)));
    mass.or_else(|| Some(Figure::Power(text::read::<Power>(&written).ok()?.nominal)))
}

/// Whether a sign parts the thousands of a number: `18,000`.
fn is_grouped(number: &str) -> bool {
    let mut groups = number.split(['.', ',']);
    let first = groups.next().unwrap_or_default();
    let mut rest = groups.peekable();
    (1..=3).contains(&first.len()) && first != "0" && rest.peek().is_some() && rest.all(|group| group.len() == 3)
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
        let among = |nearly: bool| {
            let named = carriers.iter().filter(|carrier| search.is_in(&self.name_of(carrier), nearly));
            named.filter_map(|carrier| Some((search.apart(carrier)?, carrier))).collect::<Vec<_>>()
        };
        let mut found = among(false);
        if found.is_empty() {
            found = among(true);
        }
        if found.is_empty() && search.mass.is_none() && search.power.is_none() {
            found = self.partly(carriers, search);
        }
        put_in_order(&mut found, |a, b| a.0.total_cmp(&b.0));
        found.into_iter().map(|(_, carrier)| carrier).collect()
    }

    /// The machines that have most of the words, where none has all: somebody may call it otherwise than the table.
    fn partly<'a>(&self, carriers: &'a [Carrier], search: &Search) -> Vec<(f64, &'a Carrier)> {
        let has = |carrier: &Carrier| {
            let name = self.name_of(carrier);
            // A syllable stands in too many names.
            search.words.iter().filter(|word| word.chars().count() > 2 && name.has(word, true)).count()
        };
        let counted: Vec<_> = carriers.iter().map(|carrier| (has(carrier), carrier)).collect();
        let most = counted.iter().map(|(count, _)| *count).max().unwrap_or(0);
        counted.into_iter().filter(|(count, _)| most > 0 && *count == most).map(|(_, carrier)| (0.0, carrier)).collect()
    }

    fn name_of(&self, carrier: &Carrier) -> Name {
        let class = carrier.class;
        let also = format!("{} {} {}", self.carrier_class(class), class.name(), also_called(class));
        Name::new(&carrier.full_name(), &also)
    }

    /// Whether none of these has every word that is asked for.
    pub(crate) fn are_partly(&self, carriers: &[&Carrier], search: &Search) -> bool {
        !carriers.is_empty() && !carriers.iter().any(|carrier| search.is_in(&self.name_of(carrier), true))
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

    /// What may be typed, for whoever does not know.
    pub fn search_example(&self) -> &'static str {
        match self.units {
            UnitSystem::Metric => "e.g. 8 t digger",
            UnitSystem::UsCustomary => "e.g. 18,000 lb digger",
        }
    }

    /// How many machines there are; `partly` where none has all that was asked for.
    pub fn machines_count(&self, count: usize, search: &Search, partly: bool) -> String {
        let near = [search.mass.map(Amount::of), search.power.map(Amount::of)];
        let near: Vec<_> = near.into_iter().flatten().map(|asked| self.amount(asked)).collect();
        match (count, near.as_slice()) {
            (0, _) => "No machine in the table answers to that. Shorten the search, or describe your own.".to_owned(),
            _ if partly => {
                format!("No machine has all of that; {} with part of it", super::counted(count, "machine", "machines"))
            }
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
    use quantity::Unit;
    use std::sync::LazyLock;
    use table::Table;

    static DEMO: LazyLock<Table> =
        LazyLock::new(|| table::read(include_str!("../../../public/table/demo.json")).table.unwrap());
    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    fn of(typed: &str) -> Search {
        Search::of(typed, UnitSystem::Metric)
    }

    fn found(typed: &str) -> Vec<&'static str> {
        WORDS.machines_found(&DEMO.carriers, &of(typed)).iter().map(|carrier| carrier.id.as_str()).collect()
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
    fn a_mass_is_understood_in_the_units_of_its_reader() {
        let us = Words { units: UnitSystem::UsCustomary, ..WORDS };
        let pounds = |typed: &str| {
            let mass = Search::of(typed, UnitSystem::UsCustomary).mass.expect(typed);
            format!("{:.0}", Unit::Pound.of_si(mass.si()))
        };
        for typed in ["18,000 lb", "18 000 lb", "18\u{202f}000 lb", "18000lbs", "9 tons", "9-ton", "9.0 ton"] {
            assert_eq!(pounds(typed), "18000", "{typed}");
        }
        assert_eq!(pounds("8 t"), "17637");
        assert_eq!(pounds("2.125 tons"), "4250");
        assert_eq!(of("8 ton").mass, of("8 t").mass);
        assert_eq!(of("1,950 kg").mass, of("1.95 t").mass);
        assert_eq!(of("qu 27 000").words, ["qu", "27", "000"]);
        let search = Search::of("9 tons", us.units);
        let found = us.machines_found(&DEMO.carriers, &search);
        let named: Vec<_> = found.iter().map(|carrier| carrier.id.as_str()).collect();
        assert_eq!(named[..2], ["skerry-b82", "skerry-s84"]);
        assert_eq!(us.machines_count(1, &search, false), "1 machine near 18\u{202f}000 lb, the nearest first");
        assert_eq!(us.lighter_or_heavier(DEMO.carrier("skerry-s84").unwrap(), &search).unwrap(), "607 lb heavier");
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
            assert!(WORDS.is_own_found(&plate, &of(typed)), "{typed}");
        }
        for typed in ["new", "2 t", "loader"] {
            assert!(!WORDS.is_own_found(&plate, &of(typed)), "{typed}");
        }
    }

    #[test]
    fn what_nobody_is_called_finds_those_that_have_part_of_it() {
        let all = found("Quern Q27");
        assert!(!all.is_empty() && all.iter().all(|id| id.starts_with("quern")), "{all:?}");
        let asked = crate::MachinesAsked { search: of("Quern Q27"), all: true, ..Default::default() };
        let says = WORDS.machine_list(&DEMO.carriers, &asked).says;
        assert_eq!(says, format!("No machine has all of that; {} machines with part of it", all.len()));
        assert!(found("xyzzy").is_empty());
    }

    #[test]
    fn a_row_says_how_far_it_is_from_what_was_asked() {
        let search = of("8 t");
        let apart = |id: &str| WORDS.lighter_or_heavier(DEMO.carrier(id).unwrap(), &search).unwrap();
        assert_eq!(apart("orrin-e78"), "150 kg lighter");
        assert_eq!(apart("skerry-s84"), "440 kg heavier");
        assert_eq!(WORDS.machines_count(9, &search, false), "9 machines near 8000 kg, the nearest first");
    }
}
