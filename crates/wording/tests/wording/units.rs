//! Every figure of every document is in the units that were chosen, told with no more digits than it has, and limits on their safe
//! side; what the button of the units is on changes no verdict, no price and nothing that is kept.

use super::{demo, words};
use fit::{Conditions, Installation, Pairing, Verdict, pair};
use handover::{Circumstances, Measurement, function_checks, plan, standing};
use quantity::{Amount, Named, Pressure, Quantity, ThermodynamicTemperature, UnitSystem, VolumeRate};
use record::HandOver;
use table::{Carrier, Head};
use wording::{Section, Words};
use workshop::{Expected, Found, Sheets};

/// Units of one system that have another of their own in the other.
const METRIC: [&str; 16] = [
    "bar", "L/min", "kg", "mm", "m", "km/h", "kW", "N·m", "kN·m", "°C", "L", "m/s", "W/K", "kg·m²", "mm²/s", "cm³/rev",
];
const US: [&str; 15] = [
    "psi",
    "gpm",
    "lb",
    "in",
    "ft",
    "mph",
    "hp",
    "lbf·ft",
    "°F",
    "gal",
    "ft/s",
    "Btu/(h·°F)",
    "lb·ft²",
    "cSt",
    "in³/rev",
];

/// The figures of a text with the word behind each, in order: `(220, "bar")`. What names a standard, a grade, a thread or a code is none.
fn figures(text: &str) -> Vec<(String, String)> {
    let mut all = Vec::new();
    let words: Vec<&str> = text.split([' ', '\n', '\u{a0}']).collect();
    for pair in words.windows(2) {
        let trim = |word: &str| word.trim_matches(|c: char| "(),.;:“”\"…".contains(c)).to_owned();
        let figure = trim(pair[0]).replace(['\u{202f}', ','], "");
        let digits = figure.trim_start_matches(['−', '-', '+', '±']);
        let unit = pair[1].trim_start_matches(['(', '“']).trim_end_matches([',', '.', ';', ':', '”', '…']);
        let unit = if unit.contains('(') { unit } else { unit.trim_end_matches(')') };
        if !digits.is_empty() && digits.chars().all(|c| c.is_ascii_digit() || c == '.') {
            all.push((digits.to_owned(), unit.to_owned()));
        }
    }
    all
}

fn significant(digits: &str) -> usize {
    let bare: String = digits.chars().filter(char::is_ascii_digit).collect();
    let bare = bare.trim_start_matches('0');
    if digits.contains('.') { bare.len() } else { bare.trim_end_matches('0').len() }
}

/// All that is told of a pairing, but for the names that a dealer gave his parts.
fn documents(words: Words, carrier: &Carrier, head: &Head, pairing: &Pairing, conditions: &Conditions) -> Vec<String> {
    let mut all = vec![words.sentence(pairing), words.row_below(pairing), words.text_to_send(&[pairing])];
    let checks = pairing.checks.iter().chain(&pairing.checks_after);
    all.extend(checks.flat_map(|check| [words.reason(check), words.check_line(check)]));
    all.extend(pairing.changes.iter().flat_map(|change| [words.change_title(change), words.change_reason(change)]));
    all.extend(words.cautions(pairing));
    all.extend(pairing.remarks.iter().map(|remark| words.remark(remark)));
    all.extend(pairing.sharing.iter().map(|sharing| words.sharing(sharing)));
    all.extend(pairing.assumptions.iter().map(|assumed| words.assumed(assumed)));
    all.push(words.enquiry(pairing, None).body);
    let sheets = Sheets::of(pairing, carrier, head, conditions);
    let mut sections =
        words.sheets(pairing, &sheets, &plan(pairing, carrier, head, conditions, &Circumstances::default()));
    sections.push(words.for_customer(pairing, &sheets));
    if matches!(pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges) {
        let planned = plan(pairing, carrier, head, conditions, &Circumstances::default());
        let asked = function_checks(pairing, head);
        let record = HandOver::blank("a".to_owned(), "2026-11-27T10:00:00Z".to_owned(), (&demo(), "m"), pairing, None);
        let stands = standing(&planned, &record.reads(), &asked, |check| record.answer(check), record.is_signed());
        sections.extend(words.hand_over(pairing, &record, &planned, &asked, &stands, None));
        all.extend(planned.iter().map(|planned| words.measurement_place(planned)));
    }
    let lines = |section: Section| {
        let lines = section
            .lines
            .into_iter()
            .chain(section.total)
            .map(|line| format!("{} | {} | {}", line.title, line.value, line.detail));
        lines.chain([section.title]).collect::<Vec<_>>()
    };
    all.extend(sections.into_iter().flat_map(lines));
    let circuit = pairing.circuit.as_ref();
    if let Some(looked) = circuit.and_then(|circuit| Installation::new(carrier, circuit, head, conditions)) {
        all.extend(looked.brochure().iter().flat_map(|brochure| {
            [words.brochure(brochure), words.causes(&brochure.flow), words.causes(&brochure.pressure)]
        }));
        let oil = looked.at_oil(ThermodynamicTemperature::from_si(263.15));
        all.push(words.oil(&oil));
        all.push(words.warmth(&looked.warmth()));
    }
    let names = conditions.parts.iter().map(|part| part.name.clone());
    let without = |text: String| names.clone().fold(text, |text, name| text.replace(&name, ""));
    all.into_iter().map(without).collect()
}

/// A share of the demo's pairs: every machine with heads in turn, so that each class and kind comes.
fn each(mut look: impl FnMut(&Carrier, &Head, &Pairing, &Conditions)) {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    for (index, carrier) in table.carriers.iter().enumerate() {
        for head in table.heads.iter().skip(index % 10).step_by(10) {
            look(carrier, head, &pair(carrier, head, &conditions), &conditions);
        }
    }
}

#[test]
fn invariant_no_document_has_a_unit_of_the_other_system() {
    let (mut told, mut goes) = (0, 0);
    each(|carrier, head, pairing, conditions| {
        goes += usize::from(matches!(pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges));
        for (units, foreign) in [(UnitSystem::Metric, &US[..]), (UnitSystem::UsCustomary, &METRIC[..])] {
            for text in documents(words(units), carrier, head, pairing, conditions) {
                for (digits, unit) in figures(&text) {
                    assert!(
                        !foreign.contains(&unit.as_str()),
                        "{} on {}, {units:?}: {digits} {unit} in “{text}”",
                        head.id,
                        carrier.id
                    );
                    told += usize::from(METRIC.contains(&unit.as_str()) || US.contains(&unit.as_str()));
                }
            }
        }
    });
    assert!(told > 10_000 && goes > 15, "{told} figures, {goes} pairings that go to work");
}

/// Of what is stated in metric figures alone, whatever is told in the other units was solved or converted.
#[test]
fn invariant_no_solved_figure_has_more_than_three_digits() {
    let mut looked = 0;
    each(|carrier, head, pairing, conditions| {
        if [carrier.id.as_str(), head.id.as_str()].iter().any(|id| states_us_figures(id)) {
            return;
        }
        looked += 1;
        for text in documents(words(UnitSystem::UsCustomary), carrier, head, pairing, conditions) {
            for (digits, unit) in figures(&text).iter().filter(|(_, unit)| US.contains(&unit.as_str())) {
                // A temperature that is round in degrees Celsius is round in Fahrenheit, too.
                assert!(
                    significant(digits) <= 3 || unit == "°F",
                    "{} on {}: {digits} {unit} in “{text}”",
                    head.id,
                    carrier.id
                );
            }
        }
        for check in pairing.checks.iter().chain(&pairing.checks_after) {
            let metric = words(UnitSystem::Metric).check_line(check);
            for (digits, unit) in figures(&metric) {
                let integer = !digits.contains('.');
                assert!(
                    significant(&digits) <= if integer { 5 } else { 3 } || unit == "mm",
                    "{digits} {unit} in “{metric}”"
                );
            }
        }
    });
    assert!(looked > 100, "{looked} pairs");
}

/// Whether an entry of the demo states a figure in US units, which comes back as it is.
fn states_us_figures(id: &str) -> bool {
    let demo: serde_json::Value =
        serde_json::from_str(include_str!("../../../../public/table/demo.json")).expect("the demo table");
    let entries = ["carriers", "heads"].iter().filter_map(|list| demo[list].as_array()).flatten();
    let entry = entries.filter(|entry| entry["id"] == id).map(ToString::to_string).next().expect("an entry");
    ["psi", "gpm", " lb\"", " in\"", " hp\"", " ft\""].iter().any(|unit| entry.contains(unit))
}

/// What is to be set lies, in either way of telling it, within what the checks hold over; the ends that are told are no wider.
#[test]
fn invariant_a_setting_is_told_within_its_span() {
    let mut seen = 0;
    each(|carrier, head, pairing, conditions| {
        let sheets = Sheets::of(pairing, carrier, head, conditions);
        let Some(job) = sheets.job else { return };
        for value in job.settings.values.iter().filter(|value| value.bound.is_none()) {
            let Expected { low, high, nominal } = value.on;
            for &units in UnitSystem::ALL {
                let told = words(units).set_to(nominal);
                let (digits, _) = figures(&format!("{told} "))
                    .first()
                    .cloned()
                    .unwrap_or_else(|| (told.split(' ').next().unwrap_or_default().to_owned(), String::new()));
                let told: f64 = digits.parse().unwrap_or_else(|_| panic!("{told}"));
                let shown = |amount: Amount| amount.in_system(units).0;
                assert!(told >= shown(low) - 1e-9 && told <= shown(high) + 1e-9, "{told} outside {low:?} to {high:?}");
                seen += 1;
            }
        }
        for reading in job.settings.readings {
            let Found::Expected { .. } = reading.found else { continue };
            let Some(stop) = reading.stop else { continue };
            for &units in UnitSystem::ALL {
                let told = words(units).at_most(stop);
                let figure: f64 = told
                    .split(' ')
                    .next()
                    .and_then(|figure| figure.replace('\u{202f}', "").parse().ok())
                    .expect("a figure");
                assert!(figure <= stop.in_system(units).0 + 1e-9, "{told} for {stop:?}");
            }
        }
    });
    assert!(seen > 20, "{seen}");
}

/// Whoever types 4325 psi or 9.5 bar reads 4325 psi or 9.5 bar.
#[test]
fn what_was_typed_comes_back_as_it_was_typed() {
    use quantity::{Dimension, text};
    for (typed, units) in [
        ("4325 psi", UnitSystem::UsCustomary),
        ("2657 psi", UnitSystem::UsCustomary),
        ("12.5 gpm", UnitSystem::UsCustomary),
        ("31.0 gpm", UnitSystem::UsCustomary),
        ("9.5 bar", UnitSystem::Metric),
        ("117 L/min", UnitSystem::Metric),
        ("62.5 L/min", UnitSystem::Metric),
        ("3640 kg", UnitSystem::Metric),
        ("8015 lb", UnitSystem::UsCustomary),
        ("1835 rpm", UnitSystem::Metric),
        ("215.6 bar", UnitSystem::Metric),
    ] {
        let dimension = match typed.split(' ').nth(1).expect("a unit") {
            "psi" | "bar" => Dimension::Pressure,
            "gpm" | "L/min" => Dimension::Flow,
            "rpm" => Dimension::RotationalSpeed,
            _ => Dimension::Mass,
        };
        let amount = text::read_amount(typed, dimension).expect("a figure");
        let same = |told: String| told == typed || told == typed.replace(".0 ", " ");
        // What is written on a record is told with every digit, a solved figure with three.
        if typed == "215.6 bar" {
            assert_eq!(on_a_record(typed, units), typed);
            continue;
        }
        assert!(same(words(units).amount(amount)), "{typed}: {}", words(units).amount(amount));
        assert!(same(words(units).at_most(amount)) && same(words(units).at_least(amount)), "{typed}");
        assert!(same(words(units).set_to(amount)), "{typed}: {}", words(units).set_to(amount));
    }
}

/// A reading of the relief that was typed, as it stands on the record's paper.
fn on_a_record(typed: &str, units: UnitSystem) -> String {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let (carrier, head) = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("in the table");
    let pairing = pair(carrier, head, &conditions);
    let mut record = HandOver::blank("a".to_owned(), "2026-11-27T10:00:00Z".to_owned(), (&table, "m"), &pairing, None);
    record.write(Measurement::Relief, typed, units);
    let planned = plan(&pairing, carrier, head, &conditions, &Circumstances::default());
    let asked = function_checks(&pairing, head);
    let stands = standing(&planned, &record.reads(), &asked, |check| record.answer(check), record.is_signed());
    let paper = words(units).hand_over(&pairing, &record, &planned, &asked, &stands, None);
    let line =
        paper.into_iter().flat_map(|section| section.lines).find(|line| line.title == "Relief, nothing connected");
    line.expect("the reading").value
}

/// A dial of a gauge is one that is sold in those units, and never named in both.
#[test]
fn a_dial_is_one_that_is_sold() {
    let sold = |units| match units {
        UnitSystem::Metric => ["4", "6", "10", "16", "25", "40", "60", "100", "160", "250", "400", "600"].to_vec(),
        UnitSystem::UsCustomary => {
            ["60", "100", "160", "200", "300", "600", "1000", "1500", "3000", "5000", "6000", "10\u{202f}000"].to_vec()
        }
    };
    let mut seen = 0;
    each(|carrier, head, pairing, conditions| {
        let sheets = Sheets::of(pairing, carrier, head, conditions);
        for &units in UnitSystem::ALL {
            for line in words(units)
                .sheets(pairing, &sheets, &plan(pairing, carrier, head, conditions, &Circumstances::default()))
                .into_iter()
                .flat_map(|section| section.lines)
            {
                let Some(dial) = line.value.strip_prefix("gauge 0 to ") else { continue };
                let (end, unit) = dial.split_once(' ').expect("a unit");
                assert!(
                    sold(units).contains(&end)
                        && unit == words(units).unit(Amount::of(Pressure::from_si(0.0)).in_system(units).1),
                    "{dial}"
                );
                seen += 1;
            }
        }
    });
    assert!(seen > 100, "{seen}");
}

/// The units are of the words alone: the pairing, what it costs and what is kept of it know none.
#[test]
fn the_button_of_the_units_changes_nothing_but_words() {
    let table = demo();
    let (carrier, head) = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("in the table");
    let pairing = pair(carrier, head, &Conditions::of_table(&table));
    let (metric, us) =
        (words(UnitSystem::Metric).sentence(&pairing), words(UnitSystem::UsCustomary).sentence(&pairing));
    let plain = |text: &str| text.chars().filter(|c| c.is_alphabetic()).collect::<String>();
    assert_ne!(metric, us);
    assert_eq!(plain(&metric).replace("bar", ""), plain(&us).replace("psi", ""));
    assert_eq!(words(UnitSystem::Metric).cost(&pairing.cost), words(UnitSystem::UsCustomary).cost(&pairing.cost));
    let flow = Amount::of(VolumeRate::from_si(0.001));
    assert_eq!(serde_json::to_string(&flow).expect("text"), r#"{"value":60.0,"unit":"L/min"}"#);
}

/// What is proposed to whoever typed something that is no figure can be typed, and is of his units.
#[test]
fn what_is_proposed_to_be_typed_is_of_the_readers_units() {
    use quantity::{Dimension, text};
    for &units in UnitSystem::ALL {
        for &dimension in Dimension::ALL {
            let (expected, _) = words(units).text_fault(dimension, &text::TextFault::NoUnit);
            let example = expected.split('"').nth(1).expect("an example");
            let amount = text::read_amount(example, dimension).expect(example);
            let own = amount.in_system(units).1.dimension();
            assert_eq!(own, dimension, "{example}");
            let foreign = if units == UnitSystem::Metric {
                &US[..]
            } else {
                &["bar", "L/min", "kg", "mm", "kW", "°C", "L", "km/h"]
            };
            assert!(figures(example).iter().all(|(_, unit)| !foreign.contains(&unit.as_str())), "{units:?}: {example}");
        }
    }
}
