use super::*;

const DEMO: &str = include_str!("../../../../public/table/demo.json");

/// One question to a table.
fn pair_json(table: &str, carrier: &str, head: &str) -> String {
    Desk::default().pair(table, carrier, head)
}

/// An answer, which stands on one line.
fn value(json: &str) -> Value {
    assert!(!json.contains('\n'), "one line: {json}");
    serde_json::from_str(json).expect("JSON")
}

/// A machine of the demo, as it stands there.
fn machine(id: &str) -> Value {
    let table: Value = serde_json::from_str(DEMO).expect("JSON");
    let machine = table["carriers"].as_array().expect("a list").iter().find(|carrier| carrier["id"] == id);
    machine.expect("a machine").clone()
}

#[test]
fn the_answer_is_the_pairing() {
    let table = table::read(DEMO).table.expect("the demo table");
    let (carrier, head) =
        (table.carrier("quern-q56").expect("a carrier"), table.head("thistlecut-r90").expect("a head"));
    let pairing = pair(carrier, head, &Conditions::of_table(&table));
    assert_eq!(pair_json(DEMO, "quern-q56", "thistlecut-r90"), pairing.to_json());
    let answer = Desk::default().ask(DEMO, "quern-q56", "thistlecut-r90").expect("an answer");
    assert_eq!(answer, Answer { pairing, carrier_problems: Vec::new() });
}

#[test]
fn hundreds_of_questions_read_the_table_once() {
    let mut desk = Desk::default();
    for _ in 0..500 {
        assert!(desk.pair(DEMO, "quern-q27", "nothing").contains("unknown-head"));
    }
    assert_eq!(value(&desk.check_table(DEMO))["usable"], true);
    assert_eq!(desk.read, 1);
    // Another text is another table, however like the last one, and so is the first again.
    let other = DEMO.replacen("quern-q27", "quern-q28", 1);
    assert!(desk.ask(&other, "quern-q27", "thistlecut-r60").is_err());
    assert!(desk.ask(&other, "quern-q28", "thistlecut-r60").is_ok());
    assert!(desk.ask(DEMO, "quern-q27", "thistlecut-r60").is_ok());
    assert_eq!(desk.read, 3);
}

#[test]
fn unknown_ids_are_named_both_at_once_with_the_nearest_known() {
    let json = value(&pair_json(DEMO, "Quern QU 56", "thistelcut-r90"));
    assert_eq!(
        json,
        json!({
            "error": "No machine \"Quern QU 56\" in the table: did you mean \"quern-q56\"? \
                      No attachment \"thistelcut-r90\" in the table: did you mean \"thistlecut-r90\"?",
            "reasons": [
                { "code": "unknown-carrier", "id": "Quern QU 56", "near": "quern-q56" },
                { "code": "unknown-head", "id": "thistelcut-r90", "near": "thistlecut-r90" },
            ],
            "set_aside": [],
        })
    );
    let json = value(&pair_json(DEMO, &format!("zzzz{}\n", "y".repeat(80)), "thistlecut-r90"));
    assert_eq!(json["reasons"][0]["near"], Value::Null);
    let shown = format!("zzzz{}…", "y".repeat(55));
    assert_eq!(json["error"], format!("No machine \"{shown}\" in the table."));
}

/// Where a table numbers its machines, a person still asks for them by name.
#[test]
fn a_name_leads_to_an_id_that_is_nothing_like_it() {
    let numbered = DEMO.replacen("\"quern-q27\"", "\"lot-0815\"", 1);
    let json = value(&pair_json(&numbered, "QUERN QU 27", "thistlecut-r60"));
    assert_eq!(json["reasons"][0]["near"], "lot-0815");
}

#[test]
fn a_broken_table_is_refused_with_all_its_problems() {
    let json = value(&pair_json("{\"format\": \"pairwright.table\", \"version\": 1,", "a", "b"));
    assert_eq!(json["reasons"][0]["code"], "table-unusable");
    assert_eq!(
        json["error"],
        "The table cannot be used (1 error), the first at line 1, column 44: the whole file: the bracket opened on line 1 \
         seems not to be closed; else the file ends before all brackets are closed."
    );
    let problems = &json["reasons"][0]["problems"];
    assert_eq!(problems.as_array().map(Vec::len), Some(1));
    assert_eq!((&problems[0]["severity"], &problems[0]["line"]), (&json!("error"), &json!(1)));
    let checked = value(&Desk::default().check_table("{\"format\": \"pairwright.table\", \"version\": 1,"));
    assert_eq!((&checked["usable"], &checked["problems"]), (&json!(false), problems));
    for nothing in ["", "[]", "null", "{}", "\u{feff}"] {
        assert_eq!(value(&pair_json(nothing, "a", "b"))["reasons"][0]["code"], "table-unusable", "{nothing}");
    }
}

#[test]
fn what_is_left_out_of_a_table_is_told_with_what_is_not_found() {
    let broken = DEMO.replacen("\"class\": \"mini-excavator\"", "\"class\": \"mini-digger\"", 1);
    let table = table::read(&broken);
    assert_eq!(table.set_aside.len(), 1);
    let checked = value(&Desk::default().check_table(&broken));
    assert_eq!((&checked["usable"], &checked["set_aside"]), (&json!(true), &json!(table.set_aside)));
    assert_eq!(checked["problems"].as_array().map(Vec::len), Some(table.problems.len()));
    let whole = table::read(DEMO).table.expect("the demo table");
    let gone = whole
        .carriers
        .iter()
        .find(|carrier| table.table.as_ref().is_some_and(|t| t.carrier(carrier.id.as_str()).is_none()));
    let json = value(&pair_json(&broken, gone.expect("one is gone").id.as_str(), "thistlecut-r60"));
    assert_eq!(json["set_aside"], checked["set_aside"]);
    let error = json["error"].as_str().expect("a sentence");
    assert!(error.ends_with("1 entry is left out of the table for errors."), "{error}");
}

#[test]
fn a_machine_brought_along_is_judged_like_one_of_the_table() {
    let text = machine("quern-q56").to_string();
    assert_eq!(pair_json(DEMO, &text, "thistlecut-r90"), pair_json(DEMO, "quern-q56", "thistlecut-r90"));
    assert_eq!(pair_json(DEMO, &format!("\n {text}"), "thistlecut-r90"), pair_json(DEMO, &text, "thistlecut-r90"));
    // One that no table has.
    let little = r#"{"id": "mine", "model": "My digger", "class": "mini-excavator"}"#;
    let json = value(&pair_json(DEMO, little, "thistlecut-r60"));
    assert_eq!((&json["carrier"]["model"], &json["verdict"]), (&json!("My digger"), &json!("cannot-say")));
    assert!(json.get("carrier_problems").is_none() && json.get("error").is_none());
}

#[test]
fn what_is_improbable_in_a_machine_brought_along_is_told_besides() {
    let mut own = machine("quern-q56");
    own["colour"] = json!("red");
    let json = value(&pair_json(DEMO, &own.to_string(), "thistlecut-r90"));
    let problems = json["carrier_problems"].as_array().expect("problems");
    assert_eq!(problems.len(), 1);
    assert_eq!((&problems[0]["severity"], &problems[0]["pointer"]), (&json!("warning"), &json!("/colour")));
    let mut rest = json.clone();
    rest.as_object_mut().expect("an object").remove("carrier_problems");
    assert_eq!(rest, value(&pair_json(DEMO, "quern-q56", "thistlecut-r90")));
}

#[test]
fn a_machine_with_errors_is_refused_with_all_of_them_and_the_attachment_too() {
    let own = r#"{"id": "Mine!", "class": "mini-excavator", "operating_mass": "2.7", "engine": {"power": "55 bar"}}"#;
    let json = value(&pair_json(DEMO, own, "nothing-like-it"));
    let codes: Vec<_> = json["reasons"].as_array().expect("reasons").iter().map(|reason| &reason["code"]).collect();
    assert_eq!(codes, ["carrier-unusable", "unknown-head"]);
    let problems = json["reasons"][0]["problems"].as_array().expect("problems");
    let places: Vec<_> = problems.iter().map(|problem| problem["pointer"].as_str().expect("a pointer")).collect();
    assert_eq!(places, ["", "/id", "/operating_mass", "/engine/power"]);
    // Nothing that is hidden behind the object gets into the table.
    let hidden = r#"{"id": "a", "model": "b", "class": "skid-steer"}], "heads": [{"id": "c"}"#;
    assert_eq!(value(&pair_json(DEMO, hidden, "thistlecut-r60"))["reasons"][0]["code"], "carrier-unusable");
    for broken in ["{", "{}", "{\"id\": \"a\"", "{]"] {
        let json = value(&pair_json(DEMO, broken, "thistlecut-r60"));
        assert_eq!(json["reasons"][0]["code"], "carrier-unusable", "{broken}");
        assert!(
            json["error"].as_str().is_some_and(|error| error.starts_with("The machine cannot be used (")),
            "{json}"
        );
    }
}

/// What is left out of a machine brought along is no yes.
#[test]
fn less_said_of_a_machine_that_fits_leaves_it_open() {
    let mut desk = Desk::default();
    let whole = machine("orrin-d34");
    assert_eq!(value(&desk.pair(DEMO, &whole.to_string(), "pebblegate-s180"))["verdict"], "fits");
    for field in ["circuits", "operating_mass", "mounting"] {
        let mut less = whole.clone();
        less.as_object_mut().expect("an object").remove(field).expect("it is stated");
        let json = value(&desk.pair(DEMO, &less.to_string(), "pebblegate-s180"));
        assert_eq!(json["verdict"], "cannot-say", "without {field}");
    }
}
