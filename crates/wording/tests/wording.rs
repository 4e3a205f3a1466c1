//! The words: exact where somebody acts on them, and for every value of every closed list.

use fit::installation::{Brochure, Gap, GapCause, Warmth};
use fit::{
    CheckId, Class, Conditions, FactId, Installation, Load, Missing, OilState, Outcome, Pairing, Stage, Verdict, pair,
};
use handover::{Circumstances, Planned, plan};
use hydraulics::oil::OilWarning;
use quantity::{
    Amount, Dimension, Named, Power, Quantity, ThermodynamicTemperature, Time, UnitSystem, VolumeRate, text::TextFault,
};
use sound::sound;
use table::{AssumptionId, CarrierClass, ChangeId, HeadKind, Table, read};
use wording::{PlainNumbers, Section, Words};
use workshop::Sheets;

#[path = "wording/advice.rs"]
mod advice;
#[path = "wording/hazards.rs"]
mod hazards;
#[path = "../../../tests/told/sound.rs"]
mod sound;
#[path = "wording/units.rs"]
mod units;

fn words(units: UnitSystem) -> Words<'static> {
    Words { numbers: &PlainNumbers, units }
}

fn demo() -> Table {
    read(include_str!("../../../public/table/demo.json")).table.expect("the demo table")
}

fn sentence(carrier: &str, head: &str, units: UnitSystem) -> String {
    let table = demo();
    let (carrier, head) = (table.carrier(carrier).expect("a carrier"), table.head(head).expect("a head"));
    words(units).sentence(&pair(carrier, head, &Conditions::of_table(&table)))
}

#[test]
fn every_value_of_every_list_has_words() {
    let words = words(UnitSystem::Metric);
    for &value in Verdict::ALL {
        sound(words.verdict(value));
    }
    for &value in CheckId::ALL {
        sound(words.check_title(value));
    }
    for &value in Outcome::ALL {
        sound(words.outcome(value));
    }
    for &value in Class::ALL {
        sound(words.class(value));
    }
    for &value in HeadKind::ALL {
        sound(words.head_kind(value));
    }
    for &value in CarrierClass::ALL {
        sound(words.carrier_class(value));
    }
    for &value in OilState::ALL {
        sound(words.oil_state(value));
    }
    for &value in Load::ALL {
        sound(words.load(value));
    }
    for &value in Stage::ALL {
        sound(words.stage(value));
    }
    for &value in AssumptionId::ALL {
        sound(words.assumption(value));
    }
    for &fact in FactId::ALL {
        let text = words.missing(&Missing { fact, holds: None });
        sound(text.what);
        sound(text.where_to_find);
    }
}

fn sheets_of(carrier: &str, head: &str) -> (Pairing, Sheets) {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let (carrier, head) = (table.carrier(carrier).expect("a carrier"), table.head(head).expect("a head"));
    let pairing = pair(carrier, head, &conditions);
    let sheets = Sheets::of(&pairing, carrier, head, &conditions);
    (pairing, sheets)
}

fn planned_of(carrier: &str, head: &str) -> Vec<Planned> {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let (carrier, head) = (table.carrier(carrier).expect("a carrier"), table.head(head).expect("a head"));
    plan(&pair(carrier, head, &conditions), carrier, head, &conditions, &Circumstances::default())
}

#[test]
fn the_sentence_is_what_a_good_salesperson_would_say() {
    let metric = |carrier, head| sentence(carrier, head, UnitSystem::Metric);
    assert_eq!(
        metric("quern-q56", "thistlecut-r90"),
        "Does not fit today; fits after 4 changes; 1 point to prove before work. The motor needs a line of its own from its housing to the tank, and the \
         machine has none. Its outlet would get 25 bar, and it allows 15 bar (more can press out its seals): the oil returns through the machine's \
         valve. Also in the way: return filter, flow and pressure. Find out first: the filtration rating of the return filter (read it \
         off, or look, 5 min); it may spare a filter in the return. The relief's override (gauge at a test port, 30 min); it may \
         spare resetting the relief. Where all of it does: 3 h 18 min · EUR 384 instead of 5 h 48 min · EUR 744. Prove before any \
         work, as people are at risk: clearance. Prove in the first half hour of work: machine's functions. 6 points are to prove at the hand-over."
    );
    assert_eq!(
        metric("quern-q27", "thistlecut-r130"),
        "Does not fit. The machine may weigh as little as 2600 kg, and the attachment is made for 10\u{202f}400 kg and \
         more: too light."
    );
    let us = sentence("quern-q56", "thistlecut-r90", UnitSystem::UsCustomary);
    assert!(us.contains("psi") && !us.contains("bar,"), "{us}");
    let of_a_class = metric("any-mini-excavator", "thistlecut-r60");
    assert!(of_a_class.starts_with("Cannot say yet. ") && of_a_class.contains("To find out first: "), "{of_a_class}");
    let fits = metric("orrin-d34", "pebblegate-s180");
    assert!(fits.starts_with("Fits; 1 point to prove before work. Tightest is "), "{fits}");
}

#[test]
fn a_wrong_quantity_is_mended_from_its_message_alone() {
    let words = words(UnitSystem::Metric);
    let remedy = |fault| words.text_fault(Dimension::Flow, &fault).1;
    assert_eq!(remedy(TextFault::NoUnit), "add the unit: L/min, gpm");
    assert_eq!(remedy(TextFault::Comma), "write a point for decimals and nothing between thousands: 1240.5");
    assert_eq!(remedy(TextFault::RangeReversed), "write the smaller figure first");
    assert_eq!(words.text_fault(Dimension::Flow, &TextFault::NoUnit).0, "a flow like \"118 L/min\"");
    let outcome =
        read(r#"{"format": "pairwright.table", "version": 1, "title": "x", "carriers": [], "heads": [], "partz": []}"#);
    let text = words.problem(&outcome.problems[0]);
    assert_eq!(text.place, "line 1, column 98: /partz");
    assert_eq!(text.remedy, "did you mean \"parts\"? The field is ignored");
}

/// What people most often do to a JSON file by hand, each with the words that mend it.
#[test]
fn a_text_that_is_no_json_is_mended_from_its_message_alone() {
    let words = words(UnitSystem::Metric);
    for (text, remedy) in [
        ("{\n\"a\": \"b,\n\"c\": 1\n}", "a quote is opened on this line and not closed"),
        ("<!doctype html>", "this is a web page, not a table: check the address, or choose another file"),
        ("{“a”: 1}", "write straight quotes: \" instead of “ and ”"),
        ("{\n// the yard\n\"a\": 1}", "JSON has no comments: remove it"),
        ("{\"a\": [1, 2,]}", "there is a comma too many just before: remove it"),
        ("{\"a\": 1,}", "there is a comma too many just before: remove it"),
        ("", "the file ends here: it is empty or cut off"),
        ("{\"a\": 2,5}", "decimals are written with a point, and figures with their unit in quotes: \"2.5 t\""),
        ("{a: 1}", "a name in straight quotes must stand here, with a comma before it"),
        ("{\"a\": yes}", "write a text in quotes, true or false, a list or an object"),
        (
            "{\n  \"a\": [\n    {\n      \"b\": 1\n  ]\n}",
            "the bracket opened on line 3 seems not to be closed; else expected `,` or `}`: look for a missing comma, quote or \
             bracket here or just before",
        ),
    ] {
        let outcome = read(text);
        assert_eq!(words.problem(&outcome.problems[0]).remedy, remedy, "{text}");
    }
}

#[test]
fn a_problem_names_its_machine_and_what_there_is() {
    let words = words(UnitSystem::Metric);
    let carrier = r#"{"id": "q", "maker": "Quern", "model": "QU 27", "class": "mini-excavator", "pumps": [{"id": "p1"}], "circuits": [{"id": "c", "pumps": ["p2"]}]}"#;
    let outcome = read(&format!(
        r#"{{"format": "pairwright.table", "version": 1, "title": "T", "carriers": [{carrier}], "heads": []}}"#
    ));
    let text = words.problem(&outcome.problems[0]);
    assert!(text.place.starts_with("Quern QU 27, line 1, column "), "{}", text.place);
    assert_eq!(text.expected, "the id of a pump of this entry: p1");
}

/// A saved pairing that comes out differently now.
#[test]
fn differences_are_told_in_words() {
    use record::Difference;
    use table::ChangeId;
    let words = words(UnitSystem::Metric);
    let said = |difference| words.difference(&difference);
    assert_eq!(said(Difference::Gone), "is not in the table in use");
    assert_eq!(
        said(Difference::Verdict { then: Verdict::Fits, now: Verdict::DoesNotFit }),
        "was: fits as it is; now: does not fit"
    );
    let changes =
        |gone: &[ChangeId], new: &[ChangeId]| said(Difference::Changes { gone: gone.into(), new: new.into() });
    assert_eq!(changes(&[], &[ChangeId::CaseLine]), "now also needs: a case drain to the tank");
    assert_eq!(changes(&[ChangeId::CaseLine], &[]), "no longer needs: a case drain to the tank");
    assert_eq!(said(Difference::Minutes { then: 30, now: 90 }), "workshop time 1 h 30 min instead of 30 min");
    let price = Difference::Price { then: Some("EUR 10.00".to_owned()), now: None };
    assert_eq!(said(price), "price none instead of EUR 10.00");
    let margin = Difference::Margin { then: (CheckId::Power, 120), now: (CheckId::BackPressure, 35) };
    assert_eq!(said(margin), "tightest is now back pressure 4 % to spare, was power 12 % to spare");
}

// ---- What an installation tells ----------------------------------------------------------------------------------

fn look<R>(carrier: &str, head: &str, see: impl FnOnce(Installation) -> R) -> R {
    let table = demo();
    let (carrier, head) = (table.carrier(carrier).expect("a carrier"), table.head(head).expect("a head"));
    let conditions = Conditions::of_table(&table);
    see(Installation::new(carrier, &carrier.circuits[0].id, head, &conditions).expect("a circuit"))
}

#[test]
fn a_brochure_and_what_is_left_of_it() {
    let brochure = look("quern-q27", "thistlecut-r60", |i| i.brochure()).expect("it is all stated");
    let metric = words(UnitSystem::Metric);
    assert_eq!(
        metric.brochure(&brochure),
        "The brochure says 46 L/min and 210 bar. While the attachment works at 150 bar, 42 L/min reach it. 179 bar are left \
         for its motor before the relief begins to open."
    );
    assert_eq!(metric.causes(&brochure.flow), "load-sensing margin −3.8 L/min");
    assert_eq!(
        words(UnitSystem::UsCustomary).causes(&brochure.pressure),
        "relief begins to open −244 psi, line to the attachment −45 psi, return −167 psi"
    );
}

#[test]
fn a_brochure_of_a_machine_that_is_too_weak() {
    let stalls = look("quern-q27", "thistlecut-r60", |i| i.brochure()).map(|brochure| Brochure {
        flow: Gap { gives: Amount::of(VolumeRate::from_si(0.0)), ..brochure.flow },
        ..brochure
    });
    let text = words(UnitSystem::Metric).brochure(&stalls.expect("it is all stated"));
    assert!(text.contains("gives no flow at that: it stands still."), "{text}");
}

#[test]
fn causes_warnings_and_warmth_have_words() {
    let words = words(UnitSystem::Metric);
    for &cause in GapCause::ALL {
        sound(words.cause(cause));
    }
    for warning in [OilWarning::TooThickToStart, OilWarning::Extrapolated, OilWarning::TooThin, OilWarning::TooHot] {
        sound(words.oil_warning(warning));
    }
    let reading = look("quern-q27", "thistlecut-r60", |i| i.at_oil(ThermodynamicTemperature::from_si(263.15)));
    assert_eq!(
        words.oil(&reading),
        "Oil at −10 °C, 1470 mm²/s thick: too thick to start a pump with; below freezing its thickness is an estimate."
    );
    assert_eq!(words.oil_marks("−10 °C", &reading), "−10 °C, not met: Flow, Pressure, Power and Back pressure");
    sound(&words.checks_hold());
    let celsius = |t: f64| Some(Amount::of(ThermodynamicTemperature::from_si(273.15 + t)));
    let minutes = |t: f64| Some(Amount::of(Time::from_si(t * 60.0)));
    let known = Warmth {
        from: celsius(30.0).expect("a temperature"),
        heat: Some(Amount::of(Power::from_si(12e3))),
        settles: celsius(71.0),
        within: celsius(60.0).zip(celsius(80.0)),
        boundless: false,
        past_cooler: false,
        stop: celsius(82.0).expect("a temperature"),
        to_stop: None,
        at_the_soonest: minutes(6.0),
        missing: Vec::new(),
    };
    let made = "With the typical mix of work and pauses it makes 12 kW of heat on average.";
    let cases = [
        (known.clone(), "So the oil settles at about 71 °C."),
        // Where a third of the heat decides, the likely figure is told as such, as the check has it.
        (
            Warmth { within: celsius(60.0).zip(celsius(90.0)), ..known.clone() },
            "So the oil likely settles at about 71 °C. Such a balance is good to a third: it may be 90 °C, and above 82 °C seals and \
             oil age fast. Prove it in the first half hour of work.",
        ),
        (
            Warmth {
                settles: celsius(96.0),
                within: celsius(75.0).zip(celsius(120.0)),
                to_stop: minutes(38.0),
                ..known.clone()
            },
            "So the oil would likely settle at about 96 °C, too hot: started at 30 °C it is at 82 °C after about 38 min, and above \
             82 °C seals and oil age fast. Such a balance is good to a third: it may end at 75 °C as well. Prove it in the first half \
             hour of work.",
        ),
        (
            Warmth {
                settles: celsius(96.0),
                within: celsius(85.0).zip(celsius(120.0)),
                to_stop: minutes(38.0),
                ..known.clone()
            },
            "So the oil would settle at about 96 °C, too hot: started at 30 °C it is at 82 °C after about 38 min, and above 82 °C \
             seals and oil age fast. Pause in time, or fit a larger cooler.",
        ),
        (
            Warmth { settles: None, boundless: true, past_cooler: true, to_stop: minutes(0.4), ..known.clone() },
            "This return goes past the oil cooler, and nothing else is credited: started at 30 °C the oil is at 82 °C after about \
             1 min, and above 82 °C seals and oil age fast. Lead the return through the cooler as well, or pause in time.",
        ),
        (
            Warmth { settles: None, boundless: true, to_stop: minutes(140.0), ..known.clone() },
            "What carries it away is not enough by far: started at 30 °C the oil is at 82 °C after about 2.3 h, and above 82 °C \
             seals and oil age fast. Pause in time, or fit a cooler.",
        ),
        (
            Warmth { settles: None, missing: vec![FactId::CoolerConductance], ..known.clone() },
            "Where the oil settles cannot be said without knowing what the oil cooler carries away. Without any cooler, started \
             at 30 °C, it would be at 82 °C after 6 min of it, and above 82 °C seals and oil age fast: watch the thermometer on \
             the first day.",
        ),
    ];
    for (warmth, ends) in cases {
        assert_eq!(words.warmth(&warmth), format!("{made} {ends}"));
    }
    assert_eq!(words.too_hot(&known), None);
    assert_eq!(
        words.too_hot(&Warmth { to_stop: minutes(38.0), ..known.clone() }).as_deref(),
        Some(
            "At likely figures the oil gets too hot: from 30 °C to 82 °C in about 38 min of such work; see the oil \
             thermometer."
        )
    );
    sound(&words.warmth(&Warmth { heat: None, settles: None, ..known }));
}

// ---- Sheets ------------------------------------------------------------------------------------------------------------

/// A line of a section by its title, as `title | value | detail`.
#[track_caller]
fn line(sections: &[Section], section: &str, title: &str) -> String {
    let found = sections.iter().find(|known| known.title.starts_with(section)).expect("the section");
    let line = found.lines.iter().find(|line| line.title.starts_with(title)).expect("the line");
    format!("{} | {} | {}", line.title, line.value, line.detail)
}

#[test]
fn the_sheets_tell_a_fitter_what_to_do() {
    let (pairing, sheets) = sheets_of("orrin-e78", "thistlecut-r90");
    let planned = planned_of("orrin-e78", "thistlecut-r90");
    let metric = words(UnitSystem::Metric).sheets(&pairing, &sheets, &planned);
    assert_eq!(
        line(&metric, "What to set", "Relief, all flow"),
        "Relief, all flow over it | 220 bar (216 bar to 224 bar) | Read at a tee in the attachment's inlet. Off: back to 255 bar."
    );
    assert_eq!(
        line(&metric, "How it stands", "Changeover valve"),
        "Changeover valve of the return |  | On: to the direct line, locked. Off: to the control valve, locked."
    );
    assert_eq!(
        line(&metric, "Attachment off", "Set the relief"),
        "Set the relief of the circuit | 255 bar | With a gauge, the lines capped, oil at 50 °C or more; never with the attachment \
         connected."
    );
    assert_eq!(
        line(&metric, "Attachment on", "Stow or pin"),
        "Stow or pin the grab rotation |  | With the engine running, nobody in its path; then let its pressure out before its valve is \
         shut."
    );
    assert_eq!(
        line(&metric, "First start", "Set the values"),
        "Set the values of the setting sheet, read list A |  | With the tester, in its order, oil at 50 °C or more; write down what \
         was found. Turn the machine's flow setting to its lowest, read what flow is left and write it here, with its unit: ________. Seal the rest."
    );
    // The sum is no step of the list.
    let list = metric.iter().find(|section| section.title == "What is done to the machine").expect("the list");
    assert_eq!(list.lines.len(), 5);
    assert_eq!(
        list.total.as_ref().map(|total| (total.title.as_str(), total.value.as_str())),
        Some(("Together", "9 h 48 min · EUR 1\u{202f}656"))
    );
    // Nothing is dead-ended with the attachment connected.
    let titles = |list: &str| {
        let found = metric.iter().find(|section| section.title.starts_with(list)).expect("the list");
        found.lines.iter().map(|line| format!("{} {}", line.title, line.detail)).collect::<Vec<_>>()
    };
    assert!(titles("List A").iter().any(|told| told.contains("load valve shut")));
    assert!(!titles("List B").iter().any(|told| told.contains("load valve") || told.starts_with("Flow")));
    let us = words(UnitSystem::UsCustomary).sheets(&pairing, &sheets, &planned);
    assert_eq!(
        line(&us, "What to set", "Relief, all flow"),
        "Relief, all flow over it | 3200 psi (3130 psi to 3250 psi) | Read at a tee in the attachment's inlet. Off: back to 3700 psi."
    );
    assert_eq!(
        line(&us, "Where instruments go", "At a tee in the attachment's outlet"),
        "At a tee in the attachment's outlet | gauge 0 to 300 psi | With a snubber."
    );
}

#[test]
fn what_is_sent_says_who_whether_what_and_how_much() {
    let metric = words(UnitSystem::Metric);
    let (pairing, sheets) = sheets_of("orrin-e78", "thistlecut-r90");
    assert_eq!(
        metric.to_send(&pairing),
        "Orrin Bay OB 78 with Thistlecut TI 90: does not fit today; fits after 5 changes (wiring with buttons and seat switch, \
         shutting the other tool off, a filter in the return and 2 more); 1 point to prove before work. In all 9 h 48 min · EUR 1\u{202f}656. First find out \
         the spare outputs (read it off, or look, 5 min): it may come to 5 h 48 min · EUR 1\u{202f}124. 7 points to prove at the hand-over."
    );
    let customer = metric.for_customer(&pairing, &sheets);
    assert_eq!(customer.title, "Thistlecut TI 90 (rotary brush cutter) on Orrin Bay OB 78");
    // What kills stands before it.
    let customer = &customer.lines[3..];
    let titles: Vec<_> = customer.iter().map(|line| line.title.as_str()).collect();
    assert_eq!(
        titles,
        [
            "Does it fit?",
            "What we find out first",
            "What is done to your machine",
            "Price and time",
            "What to know before work"
        ]
    );
    assert_eq!(
        customer[1].detail,
        "Find out first: the spare outputs (read it off, or look, 5 min); it may spare wiring with buttons and seat switch. Where \
         it does: 5 h 48 min · EUR 1\u{202f}124 instead of 9 h 48 min · EUR 1\u{202f}656."
    );
    assert_eq!(
        customer[2].detail,
        "Done to it: a filter in the return, shutting the other tool off and wiring with buttons and seat \
         switch. Setting the machine's own flow and resetting the relief."
    );
    // What has no price makes the sum a "from".
    let mut unpriced = pairing.clone();
    unpriced.changes[0].price = None;
    assert!(metric.to_send(&unpriced).contains("9 h 48 min · from EUR 1\u{202f}330"), "{}", metric.to_send(&unpriced));
    let (no, _) = sheets_of("any-backhoe-loader", "saltmarsh-h110");
    assert_eq!(
        metric.to_send(&no),
        "A backhoe loader with Saltmarsh SA 110: does not fit for pressure, and no change fixes it."
    );
    let (other, _) = sheets_of("orrin-e78", "pebblegate-k70");
    let compared = metric.comparison_to_send(&[&pairing, &no, &other]);
    assert_eq!(
        compared.lines[0],
        "Orrin Bay OB 78 with Thistlecut TI 90: fits after changes; 1 point to prove before work · 5 changes · 9 h 48 min · EUR 1\u{202f}656"
    );
    assert_eq!(compared.lines[1], "A backhoe loader with Saltmarsh SA 110: does not fit");
    // Filter and selector serve both.
    let total = &compared.totals[0];
    assert!(total.starts_with("Orrin Bay OB 78 made ready for all 2, what they share counted once: "), "{total}");
    // Nothing is summed up over machines, and one set of changes has its own line.
    let (elsewhere, _) = sheets_of("quern-q56", "thistlecut-r90");
    assert!(metric.comparison_to_send(&[&pairing, &elsewhere]).totals.is_empty());
}

#[test]
fn however_long_a_name_what_is_sent_stays_short() {
    let (mut pairing, _) = sheets_of("orrin-e78", "thistlecut-r90");
    pairing.carrier.model = "M".repeat(500);
    pairing.head.model = "A\u{202e}\n".repeat(500);
    let sent = words(UnitSystem::Metric).to_send(&pairing);
    assert!(sent.chars().count() <= 400, "{sent}");
    assert!(!sent.contains(['\n', '\u{202e}']) && sent.contains("9 h 48 min"), "{sent}");
}

/// A number of a code and micrometres are no shares.
#[test]
fn what_is_assumed_of_oil_and_filter_is_told_as_the_trade_writes_it() {
    let (pairing, _) = sheets_of("quern-q27", "thistlecut-r60");
    let words = words(UnitSystem::Metric);
    let told: Vec<_> = pairing.assumptions.iter().map(|assumed| words.assumed(assumed)).collect();
    for line in [
        "cleanliness of the oil (last number of ISO 4406), 13 to 16",
        "filtration rating of return filters, 6 µm to 25 µm",
    ] {
        assert!(told.iter().any(|known| known == line), "{line}: {told:?}");
    }
}

/// The relief of this machine is raised only where the gauge has shown that its override asks for it.
#[test]
fn nothing_is_set_or_fitted_for_a_doubt_before_it_is_found_out() {
    let metric = words(UnitSystem::Metric);
    let (pairing, sheets) = sheets_of("quern-q56", "thistlecut-r90");
    let only = "Only where what is found out first does not spare it. ";
    let doubts: Vec<_> = pairing.find_out.iter().flat_map(|find| find.may_spare.iter().copied()).collect();
    assert_eq!(doubts, [ChangeId::ReturnFilter, ChangeId::ReliefSetting]);
    let fitter = metric.sheets(&pairing, &sheets, &[]);
    let detail = |title: &str, line: &str| {
        let section = fitter.iter().find(|section| section.title == title).expect(title);
        section.lines.iter().find(|known| known.title.starts_with(line)).expect(line).detail.clone()
    };
    assert!(detail("What to set", "Relief").starts_with(only));
    assert!(!detail("What to set", "Flow").contains(only));
    for (line, doubt) in [("Filter in the return", true), ("Reset the relief", true), ("Case drain", false)] {
        assert_eq!(detail("What is done to the machine", line).starts_with(only), doubt, "{line}");
    }
    let relief = pairing.changes.iter().find(|change| change.id == ChangeId::ReliefSetting).expect("it is reset");
    assert_eq!(
        metric.change_reason(relief),
        "Only where what is found out first does not spare it; not known yet: flow and pressure."
    );
}
