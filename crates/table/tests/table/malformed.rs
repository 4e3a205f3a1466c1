//! Malformed tables, each with exactly the problems that it must have: severity, pointer, line and column, fault.

use crate::{carrier, head, table};
use quantity::text::TextFault;
use quantity::{Dimension, Unit, UnitSystem};
use table::{Contradiction, Fault, FormFault, Outcome, read};
use wording::{PlainNumbers, Words};

/// What is expected of one text: the place as `severity pointer line:column`, what was found there, the fault.
type Expected<'t> = (&'t str, &'t str, Fault);

fn check(text: &str, expected: &[Expected]) -> Outcome {
    let outcome = read(text);
    let found: Vec<_> = outcome.problems.iter().map(|p| (p.place(), p.found.as_str(), p.fault.clone())).collect();
    let expected: Vec<_> =
        expected.iter().map(|(place, found, fault)| ((*place).to_owned(), *found, fault.clone())).collect();
    assert_eq!(found, expected, "{text}");
    assert_eq!(outcome.unlisted, 0);
    crate::schema::agrees(text, &outcome);
    outcome
}

/// A text of which nothing can be used.
fn refused(text: &str, expected: &[Expected]) {
    assert!(check(text, expected).table.is_none(), "{text}");
}

/// A text whose one carrier or head is set aside.
fn set_aside(text: &str, expected: &[Expected]) {
    let table = check(text, expected).table.expect("a table");
    assert!(table.carriers.is_empty() && table.heads.is_empty() && table.parts.is_empty(), "{text}");
}

/// A text whose one carrier or head is used all the same.
fn used(text: &str, expected: &[Expected]) {
    let table = check(text, expected).table.expect("a table");
    assert!(table.carriers.len() + table.heads.len() == 1, "{text}");
}

fn of_carrier(fields: &str) -> String {
    table(&carrier(fields), "")
}

fn of_head(fields: &str) -> String {
    table("", &head(fields))
}

fn json(words: &str) -> Fault {
    Fault::NotJson(words.to_owned())
}

fn quantity(expected: Dimension, fault: TextFault) -> Fault {
    Fault::Quantity { expected, fault }
}

/// Of a text that is found in quotes.
fn form(fault: impl FnOnce(String) -> FormFault, found: &str) -> Fault {
    Fault::Form(fault(found.trim_matches('"').to_owned()))
}

const OBJECT: Fault = Fault::WrongType { expected: "an object in braces" };
const LIST: Fault = Fault::WrongType { expected: "a list in square brackets" };
const TEXT: Fault = Fault::WrongType { expected: "a text in quotes" };
const FLAG: Fault = Fault::WrongType { expected: "true or false" };
const FIGURE: Fault = Fault::WrongType { expected: "a figure with its unit, in quotes" };

#[test]
fn what_is_no_json_is_refused() {
    refused("", &[("error  1:1", "", json("EOF while parsing a value"))]);
    refused("\n\n  {\"format\": NaN}", &[("error  3:14", "NaN}", json("expected value"))]);
    refused("{\"ä\": \"ö\", \"é\": }", &[("error  1:17", "}", json("expected value"))]);
    refused("{\"a\": 1\n", &[("error  2:1", "", json("EOF while parsing an object"))]);
    refused("{\"a\": 1} x", &[("error  1:10", "x", json("trailing characters"))]);
    refused("{\"a\": 1,}", &[("error  1:9", "}", json("key must be a string"))]);
    refused("{'a': 1}", &[("error  1:2", "'a': 1}", json("key must be a string"))]);
    let control = "control character (\\u0000-\\u001F) found while parsing a string";
    refused("{\"a\": \"b\u{1}c\"}", &[("error  1:8", "b c\"}", json(control))]);
}

#[test]
fn what_is_no_table_is_refused() {
    refused("[]", &[("error  1:1", "[]", OBJECT)]);
    refused("\u{feff}[]", &[("error  1:1", "[]", OBJECT)]);
    refused("null", &[("error  1:1", "null", OBJECT)]);
    refused("{}", &[("error  1:1", "{}", Fault::NotATable)]);
    refused(r#"{"format": "another"}"#, &[("error /format 1:12", "\"another\"", Fault::NotATable)]);
    refused(r#"{"format": 1}"#, &[("error /format 1:12", "1", TEXT), ("error /format 1:12", "1", Fault::NotATable)]);
}

#[test]
fn a_version_that_is_not_known_is_refused() {
    let text = |version: &str| format!("{{\"format\": \"pairwright.table\",\n \"version\": {version}}}");
    refused(&text("2"), &[("error /version 2:13", "2", Fault::NewerVersion { found: 2 })]);
    refused(
        &text("99999999999"),
        &[("error /version 2:13", "99999999999", Fault::NewerVersion { found: 99_999_999_999 })],
    );
    let expected = Fault::WrongType { expected: "a version, a whole number from 1 on" };
    for wrong in ["0", "-1", "1.0", "\"1\"", "true"] {
        refused(&text(wrong), &[("error /version 2:13", wrong, expected.clone())]);
    }
    let missing = Fault::MissingField { field: "version" };
    refused(r#"{"format": "pairwright.table"}"#, &[("error  1:1", "{\"format\": \"pairwright.table\"}", missing)]);
}

#[test]
fn the_head_matter_is_checked() {
    let text = r#"{"format": "pairwright.table", "version": 1,
"title": " ", "publisher": 3, "licence": "a\nb", "date": "2026-02-30", "currency": "eur", "labour_rate": "68",
"labor_rate": "68.00", "carriers": {}, "heads": null, "parts": [7]}"#;
    let start = "{\"format\": \"pairwright.table\", \"version\": 1, \"title\": \" \", …";
    let missing = Fault::MissingField { field: "heads" };
    let outcome = check(
        text,
        &[
            ("error  1:1", start, missing),
            ("error /title 2:10", "\" \"", Fault::BadText { most: 400 }),
            ("error /publisher 2:28", "3", TEXT),
            ("error /licence 2:42", "\"a\\nb\"", Fault::BadText { most: 400 }),
            ("error /date 2:58", "\"2026-02-30\"", form(FormFault::NoSuchDay, "\"2026-02-30\"")),
            ("error /currency 2:84", "\"eur\"", form(FormFault::Currency, "\"eur\"")),
            ("warning /labor_rate 3:15", "\"68.00\"", Fault::UnknownField { near: Some("labour_rate") }),
            ("error /carriers 3:36", "{}", LIST),
            ("error /parts/0 3:65", "7", OBJECT),
        ],
    );
    assert!(outcome.table.is_some());
}

#[test]
fn money_has_no_sign_and_two_decimals_or_none() {
    let text = |rate: &str| {
        format!(
            "{{\"format\": \"pairwright.table\", \"version\": 1, \"title\": \"T\", \"carriers\": [], \"heads\": [],\n\"labour_rate\": {rate}}}"
        )
    };
    for wrong in ["\"68.5\"", "\"€ 68\"", "\"68,00\"", "\"-68\""] {
        check(&text(wrong), &[("error /labour_rate 2:16", wrong, form(FormFault::MoneyForm, wrong))]);
    }
    let much = "\"999999999\"";
    check(&text(much), &[("error /labour_rate 2:16", much, form(FormFault::MoneyTooMuch, much))]);
    check(&text("68"), &[("error /labour_rate 2:16", "68", TEXT)]);
    check(&text("\"68\""), &[]);
}

#[test]
fn what_must_be_there_is_asked_for() {
    let all = ["id", "model", "class"].map(|field| ("error /carriers/0 4:1", "{}", Fault::MissingField { field }));
    set_aside(&table("{}", ""), &all);
    let all = ["id", "model", "kind"].map(|field| ("error /heads/0 7:1", "{}", Fault::MissingField { field }));
    set_aside(&table("", "{}"), &all);
    let port = r#""tank": {"spare_port": {"standard": "iso-1179"}}"#;
    let missing = Fault::MissingField { field: "size" };
    set_aside(
        &of_carrier(port),
        &[("error /carriers/0/tank/spare_port 4:72", "{\"standard\": \"iso-1179\"}", missing)],
    );
    let missing = Fault::MissingField { field: "over_side" };
    let point = r#"{"reach": "3 m", "height": "-1 m", "mass": "1 t"}"#;
    set_aside(
        &of_carrier(&format!("\"lifting\": {{\"chart\": [{point}]}}")),
        &[("error /carriers/0/lifting/chart/0 4:71", point, missing)],
    );
    let missing = Fault::MissingField { field: "pin" };
    set_aside(
        &of_head(r#""mounting": [{"width": "200 mm"}]"#),
        &[("error /heads/0/mounting/0 7:57", "{\"width\": \"200 mm\"}", missing)],
    );
}

#[test]
fn null_means_not_stated() {
    used(
        &of_carrier(r#""operating_mass": null, "pumps": null, "oil": null, "generic": null, "unheard_of": 1"#),
        &[("warning /carriers/0/unheard_of 4:132", "1", Fault::UnknownField { near: None })],
    );
    let missing = Fault::MissingField { field: "model" };
    let text = r#"{"id": "a", "model": null, "class": "excavator"}"#;
    set_aside(&table(text, ""), &[("error /carriers/0 4:1", text, missing)]);
}

#[test]
fn unknown_fields_are_named_with_what_was_probably_meant() {
    used(
        &of_carrier(r#""operatingMass": "8 t", "engine": {"high_idel": "2400 rpm"}, "ro/pe~": 1"#),
        &[
            ("warning /carriers/0/operatingMass 4:66", "\"8 t\"", Fault::UnknownField { near: Some("operating_mass") }),
            (
                "warning /carriers/0/engine/high_idel 4:97",
                "\"2400 rpm\"",
                Fault::UnknownField { near: Some("high_idle") },
            ),
            ("warning /carriers/0/ro~1pe~0 4:120", "1", Fault::UnknownField { near: None }),
        ],
    );
    let both = r#""mounting": [{"standard": "iso-24410", "pin": "45 mm"}]"#;
    used(&of_head(both), &[("warning /heads/0/mounting/0/pin 7:90", "\"45 mm\"", Fault::UnknownField { near: None })]);
}

#[test]
fn a_key_that_stands_twice_is_an_error() {
    set_aside(&of_carrier(r#""model": "N""#), &[("error /carriers/0/model 4:58", "\"N\"", Fault::DuplicateKey)]);
    set_aside(
        &of_head(r#""flow": {"least": "40 L/min", "l\u0065ast": "40 L/min"}"#),
        &[("error /heads/0/flow/least 7:88", "\"40 L/min\"", Fault::DuplicateKey)],
    );
    let twice = table("", "").replace("\"heads\"", "\"title\": \"U\", \"heads\"");
    let outcome = check(&twice, &[("error /title 6:10", "\"U\"", Fault::DuplicateKey)]);
    assert_eq!(outcome.table.expect("a table").title, "T", "the first one counts");
}

#[test]
fn an_id_that_stands_twice_is_an_error() {
    set_aside(
        &of_carrier(r#""pumps": [{"id": "p"}, {"id": "p"}]"#),
        &[("error /carriers/0/pumps/1/id 4:79", "\"p\"", Fault::DuplicateId)],
    );
    used(
        &of_carrier(r#""pumps": [{"id": "p"}], "circuits": [{"id": "c", "pumps": ["p", "p"]}]"#),
        &[("warning /carriers/0/circuits/0/pumps/1 4:113", "\"p\"", Fault::DuplicateId)],
    );
    let long = format!("\"{}\"", "x".repeat(65));
    let shown = format!("{}…", &long[..59]);
    let character = |foreign| move |text| FormFault::IdCharacter(text, foreign);
    for (wrong, fault) in [
        ("\"\"", form(FormFault::IdLength, "\"\"")),
        ("\"Yard 8\"", form(character('Y'), "\"Yard 8\"")),
        ("\"yard/8\"", form(character('/'), "\"yard/8\"")),
        ("\"ä\"", form(character('ä'), "\"ä\"")),
        (&long, form(FormFault::IdLength, &long)),
    ] {
        let found = if wrong == long { &shown } else { wrong };
        let text = table(&format!("{{\"id\": {wrong}, \"model\": \"M\", \"class\": \"excavator\"}}"), "");
        set_aside(&text, &[("error /carriers/0/id 4:8", found, fault)]);
    }
}

#[test]
fn a_reference_must_lead_somewhere() {
    let pump = Fault::UnknownReference { what: "pump", known: vec!["p1".to_owned()] };
    set_aside(
        &of_carrier(r#""pumps": [{"id": "p1"}], "circuits": [{"id": "c", "pumps": ["p1", "p2"]}]"#),
        &[("error /carriers/0/circuits/0/pumps/1 4:115", "\"p2\"", pump)],
    );
    let group = Fault::UnknownReference { what: "power group", known: vec![] };
    set_aside(
        &of_carrier(r#""pumps": [{"id": "p1", "power_group": "g"}]"#),
        &[("error /carriers/0/pumps/0/power_group 4:87", "\"g\"", group)],
    );
}

#[test]
fn names_come_from_closed_lists() {
    let known = |names: &[&'static str]| names.to_vec();
    let name = |what, names, near| Fault::UnknownName { what, known: known(names), near };
    let ways = |near| name("ways", &["one", "two"], near);
    set_aside(&of_head(r#""ways": "tow""#), &[("error /heads/0/ways 7:52", "\"tow\"", ways(Some("two")))]);
    set_aside(&of_head(r#""ways": "Two""#), &[("error /heads/0/ways 7:52", "\"Two\"", ways(Some("two")))]);
    set_aside(&of_head(r#""ways": "both""#), &[("error /heads/0/ways 7:52", "\"both\"", ways(None))]);
    set_aside(&of_head(r#""ways": 2"#), &[("error /heads/0/ways 7:52", "2", TEXT)]);
    let drives = name("drive", &["hydraulic", "electric"], Some("electric"));
    set_aside(
        &of_head(r#""extra_functions": [{"kind": "door", "drive": "electrical"}]"#),
        &[("error /heads/0/extra_functions/0/drive 7:90", "\"electrical\"", drives)],
    );
    let bases = name("pressure basis", &["difference", "inlet"], None);
    set_aside(
        &of_head(r#""pressure": {"basis": "peak"}"#),
        &[("error /heads/0/pressure/basis 7:66", "\"peak\"", bases)],
    );
}

#[test]
fn a_figure_needs_its_unit_and_the_right_one() {
    let mass = |fault| quantity(Dimension::Mass, fault);
    for (wrong, fault) in [
        ("3640", mass(TextFault::NoUnit)),
        ("-3.64e3", mass(TextFault::NoUnit)),
        ("\"3640\"", mass(TextFault::NoUnit)),
        ("\"\"", mass(TextFault::Empty)),
        ("\"3,640 kg\"", mass(TextFault::Comma)),
        ("\"about 3640 kg\"", mass(TextFault::NoNumber)),
        ("\"3 640 kg\"", mass(TextFault::BadNumber { found: "3 640".to_owned() })),
        ("\"3640 kgg\"", mass(TextFault::UnknownUnit { found: "kgg".to_owned(), near: Some(Unit::Kilogram) })),
        ("\"3640 bar\"", mass(TextFault::WrongDimension { unit: Unit::Bar })),
        ("\"3640 kg ±\"", mass(TextFault::BadTolerance { found: "±".to_owned() })),
        ("\"3640 kg (scale)\"", mass(TextFault::UnknownSource { found: "scale".to_owned() })),
        ("\"4..3 t\"", mass(TextFault::RangeReversed)),
        ("true", FIGURE),
        ("{\"value\": 3640}", FIGURE),
        ("[\"3640 kg\"]", FIGURE),
    ] {
        set_aside(
            &of_carrier(&format!("\"operating_mass\": {wrong}")),
            &[("error /carriers/0/operating_mass 4:67", wrong, fault)],
        );
    }
    let range = |fault| quantity(Dimension::Pressure, fault);
    let text = r#""circuits": [{"id": "c", "relief_range": "210 bar"}]"#;
    set_aside(
        &of_carrier(text),
        &[("error /carriers/0/circuits/0/relief_range 4:90", "\"210 bar\"", range(TextFault::RangeWanted))],
    );
    set_aside(
        &of_carrier(&text.replace("210 bar", "200..210 bar (plate)")),
        &[(
            "error /carriers/0/circuits/0/relief_range 4:90",
            "\"200..210 bar (plate)\"",
            range(TextFault::PlainRangeWanted),
        )],
    );
}

#[test]
fn what_is_impossible_is_an_error_and_what_is_improbable_a_warning() {
    let kilograms = |least, greatest| (least, greatest, Unit::Kilogram);
    let impossible = |(least, greatest, unit)| Fault::Impossible { least, greatest, unit };
    let improbable = |(least, greatest, unit)| Fault::Improbable { least, greatest, unit };
    let text = |mass: &str| of_carrier(&format!("\"operating_mass\": \"{mass}\""));
    let place = "carriers/0/operating_mass 4:67";
    let error = |found: &str| {
        let place = format!("error /{place}");
        set_aside(&text(found), &[(&place, &format!("\"{found}\""), impossible(kilograms(50.0, 200_000.0)))]);
    };
    let warning = |found: &str| {
        let place = format!("warning /{place}");
        used(&text(found), &[(&place, &format!("\"{found}\""), improbable(kilograms(400.0, 100_000.0)))]);
    };
    error("0 kg");
    error("-3 t");
    error("3640 t");
    error("190..210 t");
    warning("120 t");
    warning("300 kg");
    // Possible and not improbable for a machine, but for none of its class.
    for (far, found) in [("0.4 t", "\"0.4 t\""), ("100 t", "\"100 t\"")] {
        let fault = Fault::Contradiction(Contradiction::MassOutsideClass);
        used(&text(far), &[("warning /carriers/0/operating_mass 4:67", found, fault)]);
    }
    used(&text("6.5 t"), &[]);
    used(&text("90 t"), &[]);
    let low = (1.0, 100.0, Unit::Percent);
    set_aside(
        &of_head(r#""motor": {"volumetric_efficiency": "105 %"}"#),
        &[("error /heads/0/motor/volumetric_efficiency 7:79", "\"105 %\"", impossible(low))],
    );
    let relief = (10.0, 450.0, Unit::Bar);
    used(
        &of_carrier(r#""circuits": [{"id": "c", "relief_range": "200..600 bar"}]"#),
        &[("warning /carriers/0/circuits/0/relief_range 4:90", "\"200..600 bar\"", improbable(relief))],
    );
}

#[test]
fn windows_must_rise() {
    let window = r#"{"least": "60 L/min", "rated": "50 L/min", "greatest": "70 L/min"}"#;
    let shown = r#"{"least": "60 L/min", "rated": "50 L/min", "greatest": "70 …"#;
    set_aside(&of_head(&format!("\"flow\": {window}")), &[("error /heads/0/flow 7:52", shown, Fault::LimitsNotRising)]);
    let units = r#"{"least": "20 gpm", "greatest": "70 L/min"}"#;
    set_aside(&of_head(&format!("\"flow\": {units}")), &[("error /heads/0/flow 7:52", units, Fault::LimitsNotRising)]);
    used(&of_head(r#""flow": {"least": "60 L/min", "rated": "60 L/min"}"#), &[]);
}

#[test]
fn flags_counts_and_codes_have_their_form() {
    set_aside(&of_head(r#""vibrating": "yes""#), &[("error /heads/0/vibrating 7:57", "\"yes\"", FLAG)]);
    let fineness = Fault::WrongType { expected: "a whole number of micrometres from 1 to 65535" };
    for wrong in ["0", "-10", "10.5", "70000", "\"10\""] {
        set_aside(
            &of_carrier(&format!("\"return_filter\": {{\"fineness_um\": {wrong}}}")),
            &[("error /carriers/0/return_filter/fineness_um 4:82", wrong, fineness.clone())],
        );
    }
    for wrong in ["\"20/18\"", "\"18/20/15\"", "\"30/18/15\"", "\"20/18/15/12\""] {
        set_aside(
            &of_carrier(&format!("\"oil\": {{\"cleanliness\": {wrong}}}")),
            &[("error /carriers/0/oil/cleanliness 4:72", wrong, form(FormFault::Cleanliness, wrong))],
        );
    }
    for (wrong, fault) in [
        ("\"20.11.2026\"", FormFault::DateForm as fn(String) -> FormFault),
        ("\"2026-13-01\"", FormFault::NoSuchDay),
        ("\"2025-02-29\"", FormFault::NoSuchDay),
    ] {
        set_aside(
            &of_head(&format!("\"checked\": {wrong}")),
            &[("error /heads/0/checked 7:55", wrong, form(fault, wrong))],
        );
    }
}

#[test]
fn lists_and_objects_are_told_apart() {
    set_aside(&of_carrier(r#""pumps": {"id": "p"}"#), &[("error /carriers/0/pumps 4:58", "{\"id\": \"p\"}", LIST)]);
    set_aside(&of_carrier(r#""tank": ["80 L"]"#), &[("error /carriers/0/tank 4:57", "[\"80 L\"]", OBJECT)]);
    set_aside(&of_carrier(r#""guards": "rops""#), &[("error /carriers/0/guards 4:59", "\"rops\"", LIST)]);
    set_aside(
        &of_carrier(r#""mounting": ["iso-24410"]"#),
        &[("error /carriers/0/mounting/0 4:62", "\"iso-24410\"", OBJECT)],
    );
    set_aside(
        &table("1,\n\"x\"", ""),
        &[("error /carriers/0 4:1", "1", OBJECT), ("error /carriers/1 5:1", "\"x\"", OBJECT)],
    );
}

#[test]
fn half_a_character_is_no_text() {
    set_aside(
        &of_carrier(r#""stock": "a\ud800b""#),
        &[("error /carriers/0/stock 4:66", "b\"", json("unexpected end of hex escape"))],
    );
}

#[test]
fn figures_that_cannot_both_be_true_are_warned_of() {
    let both = Fault::Contradiction;
    used(
        &of_carrier(
            r#""generic": true, "maker": "Orrin", "engine": {"power": "20 kW", "working_speed": "2200 rpm", "high_idle": "2100 rpm"},
"pumps": [{"id": "p", "greatest_flow": "60 L/min", "power_group": "g"}, {"id": "q", "power_limit": "5 kW"}],
"power_groups": [{"id": "g", "limit": "16 kW"}],
"circuits": [{"id": "c", "flow": "70 L/min", "relief": "240 bar", "relief_range": "180..220 bar", "pumps": ["p"]}]"#,
        ),
        &[
            ("warning /carriers/0/maker 4:75", "\"Orrin\"", both(Contradiction::GenericWithMaker)),
            ("warning /carriers/0/engine/power 4:104", "\"20 kW\"", both(Contradiction::PowerAboveEngine)),
            ("warning /carriers/0/engine/high_idle 4:155", "\"2100 rpm\"", both(Contradiction::HighIdleBelowWorking)),
            ("warning /carriers/0/circuits/0/flow 7:34", "\"70 L/min\"", both(Contradiction::FlowAbovePumps)),
            ("warning /carriers/0/circuits/0/relief 7:56", "\"240 bar\"", both(Contradiction::ReliefOutsideRange)),
        ],
    );
    used(
        &of_carrier(
            r#""operating_mass": "3 t", "engine": {"working_speed": "2000 rpm"},
"pumps": [{"id": "p", "displacement": "220 cc", "greatest_flow": "42 L/min"}],
"circuits": [{"id": "c", "flow": "4.6 L/min", "flow_setting": {"range": "15..46 L/min"}, "pumps": ["p"]}]"#,
        ),
        &[
            ("warning /carriers/0/operating_mass 4:67", "\"3 t\"", both(Contradiction::MassOutsideClass)),
            (
                "warning /carriers/0/pumps/0/greatest_flow 5:66",
                "\"42 L/min\"",
                both(Contradiction::FlowAgainstDisplacement),
            ),
            ("warning /carriers/0/circuits/0/flow 6:34", "\"4.6 L/min\"", both(Contradiction::FlowOutsideSetting)),
        ],
    );
    used(
        &of_carrier("\"oil\": {\"viscosity_40\": \"46 mm2/s\", \"viscosity_100\": \"36 mm2/s\"}"),
        &[("warning /carriers/0/oil/viscosity_100 4:102", "\"36 mm2/s\"", both(Contradiction::OilHardlyThins))],
    );
    used(&of_carrier("\"oil\": {\"viscosity_40\": \"46 mm2/s\", \"viscosity_100\": \"9.3 mm2/s\"}"), &[]);
    used(
        &of_head(r#""mass": "1450 kg", "carrier_mass": {"least": "1700 kg"}"#),
        &[("warning /heads/0/mass 7:52", "\"1450 kg\"", both(Contradiction::HeavyForItsMachines))],
    );
    used(
        &of_head(r#""pressure": {"working": "300 bar", "greatest": "250 bar"}"#),
        &[("warning /heads/0/pressure/working 7:68", "\"300 bar\"", both(Contradiction::WorkingAboveGreatest))],
    );
    let speed = |rated: &str| {
        of_head(&format!(
            "\"flow\": {{\"rated\": \"100 L/min\"}},\n\"motor\": {{\"displacement\": \"50 cc\", \"ratio\": \"1 1\", \"rotor_speed\": {{\"rated\": \"{rated}\"}}}}"
        ))
    };
    used(&speed("1900 rpm"), &[]);
    for wrong in ["1000 rpm", "2400 rpm"] {
        let found = format!("{{\"rated\": \"{wrong}\"}}");
        used(
            &speed(wrong),
            &[("warning /heads/0/motor/rotor_speed 8:67", &found, both(Contradiction::DisplacementAgainstSpeed))],
        );
    }
}

/// One slip, one message: a field that must be there under a misspelt name, and one in the wrong place.
#[test]
fn a_misspelt_field_that_must_be_there_is_named_once() {
    set_aside(
        &table(r#"{"id": "a", "model": "M", "clas": "excavator"}"#, ""),
        &[("error /carriers/0/clas 4:35", "\"excavator\"", Fault::MisspeltField { field: "class" })],
    );
    let lists = r#"{"format": "pairwright.table", "version": 1, "title": "T",
"machines": [], "attachments": []}"#;
    check(
        lists,
        &[
            ("error /machines 2:13", "[]", Fault::MisspeltField { field: "carriers" }),
            ("error /attachments 2:32", "[]", Fault::MisspeltField { field: "heads" }),
        ],
    );
    used(
        &of_carrier(r#""engine": {"power": "60 kW", "pumps": [], "tank": {}}"#),
        &[
            ("warning /carriers/0/engine/pumps 4:87", "[]", Fault::MisplacedField),
            ("warning /carriers/0/engine/tank 4:99", "{}", Fault::MisplacedField),
        ],
    );
}

/// Whoever reads a message knows which machine it is about, and which are left out.
#[test]
fn entries_with_problems_are_named() {
    let carriers = r#"{"id": "a", "maker": "Quern", "model": "Q27", "class": "digger"},
{"id": "b", "model": "B", "class": "excavator", "unheard_of": 1}, 7"#;
    let outcome = read(&table(carriers, ""));
    assert_eq!(outcome.set_aside, ["Quern Q27", "/carriers/2"]);
    let entries: Vec<_> = outcome.problems.iter().map(|problem| problem.entry.as_deref()).collect();
    assert_eq!(entries, [Some("Quern Q27"), Some("B"), None]);
}

/// The parser stumbles far behind a bracket that is not closed; the line of the bracket is told.
#[test]
fn a_bracket_that_is_not_closed_is_found() {
    let sound = serde_json::to_string_pretty(&serde_json::json!({
        "format": "pairwright.table", "version": 1, "title": "T", "heads": [],
        "carriers": [{ "id": "a", "model": "M", "class": "excavator", "engine": { "power": "60 kW" }, "tank": {} }, {}],
    }))
    .expect("JSON");
    let lines: Vec<&str> = sound.lines().collect();
    let mut found = 0;
    for (index, line) in lines.iter().enumerate() {
        // Whatever closing bracket stands alone in its line is taken away, with its comma.
        let Some(sign) = line.trim().trim_end_matches(',').chars().next().filter(|sign| "}]".contains(*sign)) else {
            continue;
        };
        let kept: Vec<&str> = lines.iter().enumerate().filter(|(at, _)| *at != index).map(|(_, line)| *line).collect();
        let problem = read(&kept.join("\n")).problems.remove(0);
        let indent = |line: &str| line.len() - line.trim_start().len();
        let opening = if sign == '}' { '{' } else { '[' };
        let opened = (0..index).rev().find(|&at| lines[at].ends_with(opening) && indent(lines[at]) == indent(line));
        if problem.left_open.is_some() {
            assert_eq!(problem.left_open, opened.map(|at| at + 1), "without line {}", index + 1);
            found += 1;
        }
    }
    assert!(found >= 3, "{found}");
}

#[test]
fn an_assumption_measures_what_its_id_says() {
    let text = |assumption: &str| {
        table("", "").replace("\"heads\"", &format!("\"assumptions\": [\n{assumption}],\n\"heads\""))
    };
    let wrong = |assumption: &str, expected: &[Expected]| {
        let table = check(&text(assumption), expected).table.expect("a table");
        assert!(table.assumptions.is_empty());
    };
    wrong(
        r#"{"id": "supply-length", "range": "3..6 bar"}"#,
        &[(
            "error /assumptions/0/range 7:34",
            "\"3..6 bar\"",
            quantity(Dimension::Length, TextFault::WrongDimension { unit: Unit::Bar }),
        )],
    );
    wrong(
        r#"{"id": "supply-length", "range": "3 m"}"#,
        &[("error /assumptions/0/range 7:34", "\"3 m\"", quantity(Dimension::Length, TextFault::RangeWanted))],
    );
    wrong(
        r#"{"id": "supply-length", "range": "3..600 m"}"#,
        &[(
            "error /assumptions/0/range 7:34",
            "\"3..600 m\"",
            Fault::Impossible { least: 0.02, greatest: 200.0, unit: Unit::Metre },
        )],
    );
    wrong(
        r#"{"id": "supply-length"}"#,
        &[("error /assumptions/0 7:1", "{\"id\": \"supply-length\"}", Fault::MissingField { field: "range" })],
    );
    wrong(
        r#"{"id": "warm-enough", "range": "25..35 bar"}"#,
        &[(
            "error /assumptions/0/range 7:32",
            "\"25..35 bar\"",
            quantity(Dimension::Temperature, TextFault::WrongDimension { unit: Unit::Bar }),
        )],
    );
    let twice =
        text("{\"id\": \"case-limit\", \"range\": \"2..3 bar\"},\n{\"id\": \"case-limit\", \"range\": \"2..4 bar\"}");
    let outcome = check(
        &twice,
        &[("error /assumptions/1 8:1", "{\"id\": \"case-limit\", \"range\": \"2..4 bar\"}", Fault::DuplicateId)],
    );
    assert_eq!(outcome.table.expect("a table").assumptions.len(), 1);
}

#[test]
fn a_divider_and_a_coupler_say_at_least_what_they_are() {
    let divider = r#"{"port_relief": true}"#;
    set_aside(
        &of_carrier(&format!(r#""circuits": [{{"id": "c", "divider": {divider}}}]"#)),
        &[("error /carriers/0/circuits/0/divider 4:85", divider, Fault::MissingField { field: "set_flow" })],
    );
    set_aside(
        &of_carrier(r#""coupler": {"mass": "90 kg"}"#),
        &[("error /carriers/0/coupler 4:60", r#"{"mass": "90 kg"}"#, Fault::MissingField { field: "fitted" })],
    );
    set_aside(
        &of_carrier(r#""coupler": {"fited": true, "secured": "yes"}"#),
        &[
            ("error /carriers/0/coupler/fited 4:70", "true", Fault::MisspeltField { field: "fitted" }),
            ("error /carriers/0/coupler/secured 4:87", "\"yes\"", FLAG),
        ],
    );
}

#[test]
fn misspelt_fields_about_feed_lift_and_room_are_named() {
    let near = |field| Fault::UnknownField { near: Some(field) };
    used(
        &of_carrier(
            r#""main_releif": "250 bar", "curl_clearence": "1 m", "travelSpeed": "0..5 km/h",
"circuits": [{"id": "c", "fed_form": "valve", "warmup": "35 Cel", "return_path": {"can_be_shutt": false}}],
"lifting": {"boomfoot": "250 mm"}, "coupling": {"both_halves": true}"#,
        ),
        &[
            ("warning /carriers/0/main_releif 4:64", "\"250 bar\"", near("main_relief")),
            ("warning /carriers/0/curl_clearence 4:93", "\"1 m\"", near("curl_clearance")),
            ("warning /carriers/0/travelSpeed 4:115", "\"0..5 km/h\"", near("travel_speed")),
            ("warning /carriers/0/circuits/0/fed_form 5:38", "\"valve\"", near("fed_from")),
            ("warning /carriers/0/circuits/0/warmup 5:57", "\"35 Cel\"", near("warm_up")),
            ("warning /carriers/0/circuits/0/return_path/can_be_shutt 5:99", "false", near("can_be_shut")),
            ("warning /carriers/0/lifting/boomfoot 6:25", "\"250 mm\"", near("boom_foot")),
            // Circuits and heads have couplings: a machine has a coupler.
            ("warning /carriers/0/coupling 6:48", "{\"both_halves\": true}", Fault::MisplacedField),
        ],
    );
    used(
        &of_head(r#""curl_radios": "900 mm", "demands": {"gaurds": []}"#),
        &[
            ("warning /heads/0/curl_radios 7:59", "\"900 mm\"", near("curl_radius")),
            ("warning /heads/0/demands/gaurds 7:91", "[]", near("guards")),
        ],
    );
}

#[test]
fn names_about_feed_relief_and_valves_come_from_closed_lists() {
    let name = |what, known: &[&'static str], near| Fault::UnknownName { what, known: known.to_vec(), near };
    let of_circuit = |field: &str| of_carrier(&format!(r#""circuits": [{{"id": "c", {field}}}]"#));
    set_aside(
        &of_circuit(r#""fed_from": "spool""#),
        &[(
            "error /carriers/0/circuits/0/fed_from 4:86",
            "\"spool\"",
            name("feed", &["valve", "power-beyond", "pump-line"], None),
        )],
    );
    set_aside(
        &of_circuit(r#""relief_role": "work_limit""#),
        &[(
            "error /carriers/0/circuits/0/relief_role 4:89",
            "\"work_limit\"",
            name("relief role", &["main", "shock", "work-limit"], Some("work-limit")),
        )],
    );
    set_aside(
        &of_circuit(r#""extra_valve": "divertor""#),
        &[(
            "error /carriers/0/circuits/0/extra_valve 4:89",
            "\"divertor\"",
            name("extra valve", &["diverter", "head-block"], Some("diverter")),
        )],
    );
    set_aside(
        &of_carrier(r#""pumps": [{"id": "p", "also_feeds": ["steering", "brake"]}]"#),
        &[(
            "error /carriers/0/pumps/0/also_feeds/1 4:98",
            "\"brake\"",
            name("supply that comes first", &["steering", "brakes", "pilot"], Some("brakes")),
        )],
    );
}

#[test]
fn figures_flags_and_lists_about_feed_lift_and_room_have_their_form() {
    let of_circuit = |field: &str| of_carrier(&format!(r#""circuits": [{{"id": "c", {field}}}]"#));
    let degrees = |fault| quantity(Dimension::Temperature, fault);
    let impossible = |least, greatest, unit| Fault::Impossible { least, greatest, unit };
    for (wrong, fault) in [
        ("35", degrees(TextFault::NoUnit)),
        ("\"35 bar\"", degrees(TextFault::WrongDimension { unit: Unit::Bar })),
        ("\"35 Cel ±5 %\"", degrees(TextFault::BadTolerance { found: "±5 %".to_owned() })),
        ("\"200 °C\"", impossible(-40.0, 150.0, Unit::Celsius)),
        ("true", FIGURE),
    ] {
        set_aside(
            &of_circuit(&format!("\"warm_up\": {wrong}")),
            &[("error /carriers/0/circuits/0/warm_up 4:85", wrong, fault)],
        );
    }
    used(&of_circuit("\"warm_up\": \"95 °F ±5 °C\""), &[]);
    for (field, wrong, place, fault) in [
        ("shared_with", "{\"name\": \"thumb\"}", "shared_with 4:89", LIST),
        ("shared_with", "[{\"name\": \"thumb\", \"isolated\": 1}]", "shared_with/0/isolated 4:120", FLAG),
        ("demand_signal", "\"yes\"", "demand_signal 4:91", FLAG),
        ("divider", "\"40 L/min\"", "divider 4:85", OBJECT),
    ] {
        let found = if wrong.starts_with('[') { "1" } else { wrong };
        set_aside(
            &of_circuit(&format!("\"{field}\": {wrong}")),
            &[(&format!("error /carriers/0/circuits/0/{place}"), found, fault)],
        );
    }
    let travel = quantity(Dimension::Velocity, TextFault::RangeWanted);
    for (field, wrong, place, fault) in [
        ("travel_speed", "\"5 km/h\"", "travel_speed 4:65", travel),
        ("reaction_torque", "\"0 N.m\"", "reaction_torque 4:68", impossible(0.1, 1e7, Unit::NewtonMetre)),
        ("lifting", "{\"share\": \"130 %\"}", "lifting/share 4:70", impossible(1.0, 100.0, Unit::Percent)),
        ("electrics", "{\"converter\": 24}", "electrics/converter 4:76", FLAG),
        ("return_filter", "{\"spare_port\": {}}", "return_filter/spare_port 4:81", FLAG),
    ] {
        let found = wrong.split_once(": ").map_or(wrong, |(_, value)| value.trim_end_matches('}'));
        let found = if wrong.ends_with("{}}") { "{}" } else { found };
        set_aside(
            &of_carrier(&format!("\"{field}\": {wrong}")),
            &[(&format!("error /carriers/0/{place}"), found, fault)],
        );
    }
    set_aside(
        &of_head(r#""demands": {"guards": "front-guard"}"#),
        &[("error /heads/0/demands/guards 7:66", "\"front-guard\"", LIST)],
    );
}

#[test]
fn a_part_says_in_its_own_words_what_it_is() {
    let wrong = |field: &str, place: &str, found: &str, fault: Fault| {
        let part = format!(
            "\"parts\": [\n{{\"id\": \"x\", \"change\": \"couplings\", \"name\": \"X\", {field}}}],\n\"heads\""
        );
        set_aside(&table("", "").replace("\"heads\"", &part), &[(place, found, fault)]);
    };
    let object = r#"{"standard": "iso-14541"}"#;
    wrong(&format!("\"coupling\": {object}"), "error /parts/0/coupling 7:61", object, TEXT);
    wrong(
        r#""valve": "block""#,
        "error /parts/0/valve 7:58",
        "\"block\"",
        Fault::UnknownName { what: "extra valve", known: vec!["diverter", "head-block"], near: None },
    );
    wrong(
        r#""conductance": "8 kW""#,
        "error /parts/0/conductance 7:64",
        "\"8 kW\"",
        quantity(Dimension::ThermalConductance, TextFault::WrongDimension { unit: Unit::Kilowatt }),
    );
}

/// Expected and remedy of the only problem of a text, word for word.
#[track_caller]
fn says(text: &str, expected: &str, remedy: &str) {
    let outcome = read(text);
    let said = Words { numbers: &PlainNumbers, units: UnitSystem::Metric }.problem(crate::only(&outcome));
    assert_eq!((said.expected.as_str(), said.remedy.as_str()), (expected, remedy));
}

/// That flow and relief together ask for more than the engine has is usual; at a third of the relief it is a slip.
#[test]
fn a_flow_that_the_engine_cannot_turn_is_warned_of() {
    let of_mini = |flow: &str, more: &str| {
        let carrier = format!(
            r#"{{"id": "a", "model": "M", "class": "mini-excavator", "operating_mass": "2.7 t", "engine": {{"power": "18.5 kW"}},
"circuits": [{{"id": "c", "flow": "{flow}"{more}}}]}}"#
        );
        table(&carrier, "")
    };
    let relief = r#", "relief": "210 bar""#;
    let slip = |found| {
        [("warning /carriers/0/circuits/0/flow 5:34", found, Fault::Contradiction(Contradiction::FlowAboveEngine))]
    };
    used(&of_mini("45 gpm", relief), &slip("\"45 gpm\""));
    // Three times the engine's power is where it begins: 158.6 L/min at 210 bar are 55.5 kW.
    used(&of_mini("159 L/min", relief), &slip("\"159 L/min\""));
    used(&of_mini("158 L/min", relief), &[]);
    used(&of_mini("45 L/min", relief), &[]);
    // Without a relief the least that the class has counts: 150 bar.
    used(&of_mini("60 gpm", ""), &slip("\"60 gpm\""));
    used(&of_mini("50 gpm", ""), &[]);
    says(
        &of_mini("45 gpm", relief),
        "a flow that at a third of its relief takes less than the engine's whole power",
        "check the flow's unit (L/min or gpm), its decimal point, the relief and the engine's power",
    );
}

/// 180 psi in place of 180 bar, and a decimal that slipped: pressures that no machine of the class and no attachment of the
/// kind works with.
#[test]
fn pressures_far_from_what_the_kind_has_are_warned_of() {
    let psi =
        |least| Fault::OtherUnit { written: Unit::Psi, meant: Unit::Bar, least, greatest: 450.0, unit: Unit::Bar };
    let low = |least| Fault::Improbable { least, greatest: 450.0, unit: Unit::Bar };
    let circuit =
        |field: &str, figure: &str| of_carrier(&format!(r#""circuits": [{{"id": "c", "{field}": "{figure}"}}]"#));
    for (field, column) in [("relief", 84), ("head_relief", 89)] {
        let place = format!("warning /carriers/0/circuits/0/{field} 4:{column}");
        used(&circuit(field, "180 psi"), &[(&place, "\"180 psi\"", psi(85.0))]);
        used(&circuit(field, "32.0 bar"), &[(&place, "\"32.0 bar\"", low(85.0))]);
        used(&circuit(field, "2600 psi"), &[]);
        used(&circuit(field, "85 bar"), &[]);
    }
    used(
        &of_carrier(r#""main_relief": "350 psi""#),
        &[("warning /carriers/0/main_relief 4:64", "\"350 psi\"", psi(85.0))],
    );
    used(
        &of_carrier(r#""pumps": [{"id": "p", "pressure": "34.5 bar"}]"#),
        &[("warning /carriers/0/pumps/0/pressure 4:83", "\"34.5 bar\"", low(85.0))],
    );
    used(
        &of_carrier(r#""circuits": [{"id": "c", "shared_with": [{"name": "thumb", "greatest_pressure": "210 psi"}]}]"#),
        &[("warning /carriers/0/circuits/0/shared_with/0/greatest_pressure 4:129", "\"210 psi\"", psi(85.0))],
    );
    for (field, column) in [("working", 68), ("relief", 67), ("greatest", 69)] {
        let of_flail = |figure: &str| of_head(&format!(r#""pressure": {{"{field}": "{figure}"}}"#));
        let place = format!("warning /heads/0/pressure/{field} 7:{column}");
        used(&of_flail("180 psi"), &[(&place, "\"180 psi\"", psi(40.0))]);
        used(&of_flail("18.0 bar"), &[(&place, "\"18.0 bar\"", low(40.0))]);
        used(&of_flail("105 bar"), &[]);
        used(&of_flail("40 bar"), &[]);
    }
    // The other way round: 600 psi would be usual, 600 bar is not.
    let bar = Fault::OtherUnit { written: Unit::Bar, meant: Unit::Psi, least: 40.0, greatest: 450.0, unit: Unit::Bar };
    used(
        &of_head(r#""pressure": {"working": "600 bar"}"#),
        &[("warning /heads/0/pressure/working 7:68", "\"600 bar\"", bar)],
    );
    says(
        &circuit("relief", "180 psi"),
        "usually 85 to 450 bar",
        "it is written in psi: if bar was meant, write bar; if it is right, leave it",
    );
    says(
        &circuit("relief", "32.0 bar"),
        "usually 85 to 450 bar",
        "check decimal point and unit; if it is right, leave it",
    );
}

#[test]
fn a_window_of_flow_far_from_displacement_and_speed_is_warned_of() {
    // 40 cc at 2000 rpm take 80 L/min, at the greatest speed of 3000 rpm 120 L/min.
    let of_window = |least: &str, greatest: &str, speeds: &str| {
        of_head(&format!(
            "\"flow\": {{\"least\": \"{least}\", \"greatest\": \"{greatest}\"}},\n\"motor\": {{\"displacement\": \"40 cc\", \"ratio\": \"1 1\"{speeds}}}"
        ))
    };
    let speeds = r#", "rotor_speed": {"rated": "2000 rpm", "greatest": "3000 rpm"}"#;
    let warned = |text: &str, found: &str| {
        let fault = Fault::Contradiction(Contradiction::WindowAgainstDisplacement);
        used(text, &[("warning /heads/0/flow 7:52", found, fault)]);
    };
    used(&of_window("50 L/min", "130 L/min", speeds), &[]);
    used(&of_window("159 L/min", "359 L/min", speeds), &[]);
    warned(&of_window("161 L/min", "200 L/min", speeds), r#"{"least": "161 L/min", "greatest": "200 L/min"}"#);
    warned(&of_window("50 L/min", "361 L/min", speeds), r#"{"least": "50 L/min", "greatest": "361 L/min"}"#);
    warned(&of_window("20 L/min", "39 L/min", speeds), r#"{"least": "20 L/min", "greatest": "39 L/min"}"#);
    // 45 gpm where 45 L/min was meant.
    warned(&of_window("45 gpm", "60 gpm", speeds), r#"{"least": "45 gpm", "greatest": "60 gpm"}"#);
    // No hydraulic motor turns at 10 000 rpm, whatever its rotor does.
    warned(&of_window("400 L/min", "410 L/min", ""), r#"{"least": "400 L/min", "greatest": "410 L/min"}"#);
    used(&of_window("300 L/min", "410 L/min", ""), &[]);
    // One slip, one message: a rated flow that does not go with the rated speed is named at the speed.
    let both = r#""flow": {"rated": "220 L/min", "least": "161 L/min"},
"motor": {"displacement": "40 cc", "ratio": "1 1", "rotor_speed": {"rated": "2000 rpm"}}"#;
    used(
        &of_head(both),
        &[(
            "warning /heads/0/motor/rotor_speed 8:67",
            "{\"rated\": \"2000 rpm\"}",
            Fault::Contradiction(Contradiction::DisplacementAgainstSpeed),
        )],
    );
    says(
        &of_window("45 gpm", "60 gpm", speeds),
        "a window of flow around displacement × rotor speed ÷ ratio",
        "check the flow's unit (L/min or gpm), the displacement, the speeds, the ratio, and the decimal points of all",
    );
}
