use super::*;
use crate::PlainNumbers;
use fit::{Conditions, pair};
use handover::{Circumstances, Read, Walk, function_checks, plan, standing};
use quantity::{Named, Pressure, Quantity, UnitSystem, VolumeRate};
use record::HandOver;

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn litres(value: f64) -> Amount {
    Amount::of(VolumeRate::from_si(value / 60_000.0))
}

#[test]
fn every_name_is_said_once() {
    let all_differ = |mut names: Vec<String>| {
        let count = names.len();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), count);
    };
    all_differ(Measurement::ALL.iter().map(|what| WORDS.measurement(*what).to_owned()).collect());
    all_differ(FunctionCheck::ALL.iter().map(|check| WORDS.function_check(*check).to_owned()).collect());
    all_differ(FunctionCheck::ALL.iter().map(|check| WORDS.item_of_hand_over(Item::Function(*check))).collect());
    all_differ(Entry::ALL.iter().map(|entry| WORDS.entry_of_record(*entry).to_owned()).collect());
}

#[test]
fn how_it_stands_is_said_with_what_is_to_be_done() {
    let planned = Vec::new();
    let open = |items: &[Item]| Standing { open: items.to_vec(), ..Standing::default() };
    let (flow, relief) = (Item::Reading(Measurement::FlowFree), Item::Reading(Measurement::Relief));
    let (leaks, door) = (Item::Function(FunctionCheck::NoLeaks), Item::Function(FunctionCheck::Door));
    assert_eq!(WORDS.standing(&open(&[leaks]), &planned), "1 item still to be read or tried: leaks.");
    assert_eq!(
        WORDS.standing(&open(&[flow, relief, leaks, door]), &planned),
        "4 items still to be read or tried: flow, unloaded, relief, nothing connected, leaks and 1 more."
    );
    assert_eq!(
        WORDS.standing(&Standing { stop: vec![leaks], off: vec![door], ..open(&[flow]) }, &planned),
        "Over the limit: leaks. Switch it off, let it come to rest, and fix that before anybody goes on."
    );
    assert_eq!(
        WORDS.standing(&Standing { off: vec![relief], ..open(&[flow]) }, &planned),
        "Not as it should be: relief, nothing connected. It must not go to work like this."
    );
}

#[test]
fn a_lesson_is_a_figure_with_its_name() {
    let value = Amount::of(Pressure::from_si(6.2e5));
    assert_eq!(
        WORDS.lesson(&Lesson { what: Learned::Return, value, at: Some(litres(60.0)) }),
        "Pressure in the return: 6.2 bar at 60 L/min"
    );
    assert_eq!(
        WORDS.lesson(&Lesson { what: Learned::Flow, value: litres(60.0), at: None }),
        "Auxiliary flow: 60 L/min"
    );
}

/// The paper of a record: everything that stands on it, and a place to write where nothing does.
#[test]
fn invariant_the_paper_of_a_record_holds_everything_that_was_typed() {
    let table = table::read(include_str!("../../../../public/table/demo.json")).table.expect("a table");
    let (carrier, head) = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("in the table");
    let conditions = Conditions::of_table(&table);
    let pairing = pair(carrier, head, &conditions);
    let mut record = HandOver::blank("a".to_owned(), "2026-11-27T10:00:00Z".to_owned(), (&table, "m"), &pairing, None);
    record.write(Measurement::FlowFree, "64", UnitSystem::Metric);
    record.write(Measurement::Relief, "about 230", UnitSystem::Metric);
    record.write_entry(Entry::By, "A. Fitter");
    record.write_entry(Entry::Note, "Second gauge borrowed.");
    record.write_answer(FunctionCheck::Stops, Some(false));
    record.write_instrument(InstrumentKind::Pressure, "1");
    let at = record.circumstances();
    assert_ne!(at, Circumstances::default());
    let (planned, asked) = (plan(&pairing, carrier, head, &conditions, &at), function_checks(&pairing, head));
    let stands = standing(&planned, &record.reads(), &asked, |check| record.answer(check), record.is_signed());
    let paper = WORDS.hand_over(&pairing, &record, &planned, &asked, &stands, None);
    let titles: Vec<_> = paper.iter().map(|section| section.title.as_str()).collect();
    assert_eq!(
        titles,
        [
            "Danger",
            "Record of the hand-over",
            "Which machine, who and when",
            "What was read",
            "What was tried",
            "What comes first"
        ]
    );
    let line = |title: &str| paper.iter().flat_map(|section| &section.lines).find(|line| line.title == title);
    let value = |title: &str| line(title).map(|line| line.value.as_str());
    assert_eq!(value("How it stands"), Some("stop"));
    assert_eq!(value("Set and proved by"), Some("A. Fitter"));
    assert_eq!(value("Handed over to"), Some("__________"));
    assert_eq!(line("Remarks").map(|line| line.detail.as_str()), Some("Second gauge borrowed."));
    assert_eq!(value("Flow, unloaded"), Some("64 L/min"));
    assert!(line("Flow, unloaded").is_some_and(|line| line.detail.ends_with("Read: 64 L/min, as expected.")));
    assert_eq!(value("Relief, nothing connected"), Some("about 230"));
    assert!(line("Relief, nothing connected").is_some_and(|line| line.detail.ends_with("no figure that can be read.")));
    assert_eq!(value("Case flow, at work"), Some("__________"));
    assert_eq!(value("Does it stop when the operator lets go, leaves the seat, and without current?"), Some("no"));
    assert_eq!(line("Instruments used").map(|line| line.detail.as_str()), Some("Gauges: class, % of full scale: 1 %"));
    // Of a machine that does not go to work any more nothing is computed, and nothing is lost.
    let later = WORDS.hand_over(&pairing, &record, &[], &[], &stands, None);
    let read = later.iter().find(|section| section.title == "What was read").expect("readings");
    let kept: Vec<_> = read.lines.iter().map(|line| line.value.as_str()).collect();
    assert_eq!(kept, ["64 L/min", "about 230", ""]);
    let _: Vec<Read> = record.reads();
}

#[test]
fn the_usual_instruments_are_said() {
    assert_eq!(
        WORDS.instruments_left_empty(),
        "Empty: class 1.6 gauges, a flow tester to 2 %, a tachometer to 0.5 %. Their certificates say."
    );
    assert_eq!(WORDS.instrument_fault(), "Not used yet. To fix it: write a figure like 1.6, above 0 and up to 20.");
}

#[test]
fn every_fault_has_a_name_and_something_to_look_at() {
    use handover::{Fault, LookAt};
    let mut names: Vec<_> = Fault::ALL.iter().map(|fault| WORDS.fault_name(*fault)).collect();
    let mut looks: Vec<_> = LookAt::ALL.iter().map(|at| WORDS.look_at(*at)).collect();
    let counts = (names.len(), looks.len());
    names.sort_unstable();
    names.dedup();
    looks.sort_unstable();
    looks.dedup();
    assert_eq!((names.len(), looks.len()), counts);
    // Whoever is told to stop is told so by what is to be looked at as well.
    for fault in Fault::ALL.iter().filter(|fault| fault.is_dangerous()) {
        let look = WORDS.look_at(fault.look_at());
        assert!(look.starts_with("Stop.") || look.starts_with("Read the flow setting"), "{fault:?}: {look}");
    }
}

#[test]
fn what_is_found_is_said_with_what_to_do() {
    use handover::{Diagnosis, Fault, Finding, LookAt, Next, Sign, Suspect};
    use workshop::Expected;
    let bar = |value| Amount::of(quantity::shop::bar(value));
    let diagnosis = |finding| Diagnosis { finding, beyond: Vec::new(), left_out: vec![Measurement::FlowBusy] };
    let first = vec![Measurement::FlowFree, Measurement::Relief];
    assert_eq!(
        WORDS.finding(&diagnosis(Finding::TooFew { first }), false),
        "Too little is read to say whether something is wrong. Best read next: “Flow, unloaded” and “Relief, nothing connected”."
    );
    assert_eq!(
        WORDS.finding(&diagnosis(Finding::NothingWrong { unseen: vec![Fault::CoolerBlocked] }), false),
        "Nothing is wrong as far as the readings show it. They would not show: cooler blocked or passed by."
    );
    let sign = Sign {
        what: Measurement::CaseWorking,
        read: bar(6.2),
        healthy: bar(0.8),
        with_fault: Expected { nominal: bar(6.0), low: bar(5.0), high: bar(9.0) },
    };
    assert_eq!(
        WORDS.sign(&sign),
        "Case pressure, at work: read 6.2 bar; sound, it would be 0.8 bar; with this fault 5 bar to 9 bar"
    );
    let suspect = Suspect {
        fault: Fault::CaseLinePinched,
        severity: 100.0,
        score: 0.93,
        speaks_for: vec![sign],
        speaks_against: Vec::new(),
        alike: vec![Fault::WornMotor],
        next: Next::Measure { what: Measurement::CaseFlow },
        look: LookAt::CaseLine,
        stop: true,
    };
    assert_eq!(WORDS.suspicion(&suspect, true).as_deref(), Some("93 % likely among these faults"));
    assert_eq!(WORDS.suspicion(&suspect, false), None);
    assert_eq!(WORDS.alike(&suspect).as_deref(), Some("By these readings it cannot be told from: worn motor."));
    assert_eq!(WORDS.next_step(suspect.next), "Read next, as it parts them best: case flow, at work.");
    let found = diagnosis(Finding::Suspects { suspects: vec![suspect], explained: true });
    assert_eq!(WORDS.finding(&found, true), "One fault explains what was read:");
    assert_eq!(WORDS.finding(&found, false), WORDS.leaning());
    let line = WORDS.faults_of_paper(&found, true).lines.pop().expect("the suspect");
    assert_eq!(line.title, "Case drain pinched or not open");
    assert_eq!(
        line.detail,
        "Stop first. For it: Case pressure, at work: read 6.2 bar; sound, it would be 0.8 bar; with this fault 5 bar to 9 bar. \
         By these readings it cannot be told from: worn motor. Read next, as it parts them best: case flow, at work."
    );
    assert_eq!(
        WORDS.left_out(&found).as_deref(),
        Some("Nothing could be computed for: “Flow, loaded as at work, while a function moves”.")
    );
}

/// A case of the demo: planned, asked, and how a record of it stands.
struct Case {
    pairing: fit::Pairing,
    planned: Vec<Planned>,
    asked: Vec<FunctionCheck>,
    record: HandOver,
}

impl Case {
    fn new() -> Self {
        let table = table::read(include_str!("../../../../public/table/demo.json")).table.expect("a table");
        let (carrier, head) = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("in the table");
        let conditions = Conditions::of_table(&table);
        let pairing = pair(carrier, head, &conditions);
        let record = HandOver::blank("a".to_owned(), "2026-11-27T10:00:00Z".to_owned(), (&table, "m"), &pairing, None);
        let planned = plan(&pairing, carrier, head, &conditions, &Circumstances::default());
        Self { planned, asked: function_checks(&pairing, head), pairing, record }
    }

    fn stands(&self) -> Standing {
        let (record, read) = (&self.record, self.record.reads());
        standing(&self.planned, &read, &self.asked, |check| record.answer(check), record.is_signed())
            .with_not_applicable(&self.planned, record.not_applicable())
            .with_beyond_before(&record.all_beyond_before())
    }

    fn row(&self, item: Item) -> Row {
        let walk = Walk::of(&self.planned, &self.asked, &self.stands(), &[]);
        WORDS.row_of_item(&self.record, &self.planned, item, walk.progress(item).expect("on the walk"))
    }
}

#[test]
fn invariant_what_a_customer_signs_says_nothing_of_faults_and_leaves_out_no_reading() {
    let mut case = Case::new();
    case.record.write(Measurement::FlowFree, "64", UnitSystem::Metric);
    case.record.write(Measurement::CaseWorking, "3.1", UnitSystem::Metric);
    case.record.write_not_applicable(Item::Reading(Measurement::EngineWorking));
    case.record.write_entry(Entry::To, "B. Customer");
    case.record.write_entry(Entry::Note, "Pump sounds worn.");
    case.record.write_answer(FunctionCheck::Stops, Some(true));
    let page = WORDS.hand_over_for_customer(&case.pairing, &case.record, &case.planned, &case.asked, &case.stands());
    let lines: Vec<_> = page.iter().flat_map(|section| &section.lines).collect();
    let told: Vec<_> = lines.iter().map(|line| format!("{} {} {}", line.title, line.detail, line.value)).collect();
    let told = told.join("\n");
    for fault in handover::Fault::ALL {
        assert!(!told.contains(WORDS.fault_name(*fault)), "{fault:?}");
    }
    for words in ["may be wrong", "likely", "Pump sounds worn", "points", "Expected"] {
        assert!(!told.contains(words), "{words}:\n{told}");
    }
    let value = |title: &str| lines.iter().find(|line| line.title == title).map(|line| line.value.as_str());
    let detail = |title: &str| lines.iter().find(|line| line.title == title).map(|line| line.detail.as_str());
    assert_eq!(value("How it stands"), Some("stop"));
    assert_eq!(value("Handed over to"), Some("B. Customer"));
    assert_eq!(
        (value("Case pressure, at work"), detail("Case pressure, at work")),
        (Some("3.1 bar"), Some("Limit: at most 2.4 bar; over the limit: stop"))
    );
    assert_eq!(value("Flow, unloaded"), Some("64 L/min"));
    assert_eq!(value("Engine speed at work"), Some("not applicable"));
    assert_eq!(value("Relief, nothing connected"), Some("not read"));
    assert_eq!(value(WORDS.function_check(FunctionCheck::Stops)), Some("yes"));
    assert_eq!(value(WORDS.function_check(FunctionCheck::NoLeaks)), Some("not tried"));
    for planned in case.planned.iter().filter(|planned| handover::is_needed(planned.what)) {
        assert!(value(WORDS.measurement(planned.what)).is_some(), "{:?}", planned.what);
    }
    assert!(page.iter().any(|section| section.title == "Danger"));
}

#[test]
fn a_row_says_what_was_expected_allowed_and_read() {
    let mut case = Case::new();
    let of = Item::Reading(Measurement::CaseWorking);
    let open = case.row(of);
    assert_eq!(
        (open.name.as_str(), open.limit.as_str(), open.result.as_str()),
        ("Case pressure, at work", "at most 2.4 bar", "open")
    );
    case.record.write(Measurement::CaseWorking, "3.1", UnitSystem::Metric);
    assert_eq!((case.row(of).read.as_str(), case.row(of).result.as_str()), ("3.1 bar", "over the limit: stop"));
    case.record.write(Measurement::CaseWorking, "three", UnitSystem::Metric);
    assert_eq!((case.row(of).read.as_str(), case.row(of).result.as_str()), ("three", "cannot be read"));
    case.record.write(Measurement::Air, "15", UnitSystem::Metric);
    assert_eq!(case.row(Item::Reading(Measurement::Air)).result, "read");
    let stops = Item::Function(FunctionCheck::Stops);
    case.record.write_answer(FunctionCheck::Stops, Some(false));
    assert_eq!(
        (case.row(stops).name.as_str(), case.row(stops).result.as_str()),
        ("Stop without operator or current", "no: stop")
    );
}

#[test]
fn a_stop_names_what_shows_it_and_its_limit() {
    let mut case = Case::new();
    assert_eq!(WORDS.stopped(&case.stands(), &case.planned, &case.record), None);
    case.record.write(Measurement::CaseWorking, "3.1", UnitSystem::Metric);
    let said = WORDS.stopped(&case.stands(), &case.planned, &case.record);
    let why = "Case pressure, at work: 3.1 bar is over the limit of 2.4 bar.";
    assert_eq!(said, Some(("Stop. Engine off.", why.to_owned())));
    case.record.write_answer(FunctionCheck::Stops, Some(false));
    let said = WORDS.stopped(&case.stands(), &case.planned, &case.record);
    assert_eq!(said.map(|(_, why)| why), Some(format!("{why} And 1 more.")));
    case.record.write(Measurement::CaseWorking, "0.4", UnitSystem::Metric);
    let said = WORDS.stopped(&case.stands(), &case.planned, &case.record);
    assert_eq!(said.map(|(_, why)| why), Some("Stop without operator or current: no.".to_owned()));
}

#[test]
fn invariant_a_stop_stays_until_it_is_read_again_within_its_limit_and_leaves_a_trace() {
    let mut case = Case::new();
    let of = Item::Reading(Measurement::CaseWorking);
    case.record.write(Measurement::CaseWorking, "3.1", UnitSystem::Metric);
    case.record.note_beyond(of);
    for typed in ["", "three", "not applicable"] {
        case.record.write(Measurement::CaseWorking, typed, UnitSystem::Metric);
        let (_, why) = WORDS.stopped(&case.stands(), &case.planned, &case.record).expect("stopped");
        assert_eq!(why, "Case pressure, at work: 3.1 bar was over the limit of 2.4 bar. Fix it, then read again.");
        assert_eq!(case.stands().state(&case.planned), State::Stop, "{typed}");
    }
    case.record.write(Measurement::CaseWorking, "0.4", UnitSystem::Metric);
    assert_eq!(WORDS.stopped(&case.stands(), &case.planned, &case.record), None);
    assert_eq!(case.row(of).result, "met; before: 3.1 bar, over the limit");
    let stops = Item::Function(FunctionCheck::Stops);
    case.record.note_beyond(stops);
    let (_, why) = WORDS.stopped(&case.stands(), &case.planned, &case.record).expect("stopped");
    assert_eq!(why, "Stop without operator or current: no. Fix it, then try again.");
    case.record.write_answer(FunctionCheck::Stops, Some(true));
    assert_eq!(WORDS.stopped(&case.stands(), &case.planned, &case.record), None);
    assert_eq!(case.row(stops).result, "yes; before: no");
}

#[test]
fn what_is_left_out_and_has_a_limit_is_said_to_keep_it_open() {
    let mut case = Case::new();
    let (case_pressure, engine) = (Item::Reading(Measurement::CaseWorking), Item::Reading(Measurement::EngineWorking));
    for item in [case_pressure, engine] {
        case.record.write_not_applicable(item);
    }
    let said = |item| WORDS.not_read(&case.stands(), item);
    assert!(said(case_pressure).contains("so it is not proven"));
    assert_eq!(said(engine), "Not applicable on this machine.");
    assert_eq!(said(Item::Reading(Measurement::Relief)), "Not read yet.");
    assert_eq!(said(Item::Function(FunctionCheck::Stops)), "Not tried yet.");
}

#[test]
fn a_place_on_the_walk_is_counted_among_what_is_asked() {
    let case = Case::new();
    let stands = case.stands();
    let oil = Item::Reading(Measurement::OilStart);
    let walk = Walk::of(&case.planned, &case.asked, &stands, &[oil]);
    let asked = stands.open.len();
    assert_eq!(WORDS.place_on_walk(&walk, oil), format!("1 of {asked} · Before · 1 put off"));
    let extra = Item::Reading(Measurement::PumpFree);
    assert_eq!(WORDS.place_on_walk(&walk, extra), "Only where something is off · List B · 1 put off");
    assert_eq!(WORDS.all_items(&walk), format!("All {} readings, {} trials", case.planned.len(), case.asked.len()));
}

#[test]
fn the_trial_of_the_coast_down_says_what_an_instrument_shows_where_that_is_to_prove() {
    let table = table::read(include_str!("../../../../public/table/demo.json")).table.expect("the demo");
    let (carrier, head) =
        (table.carrier("orrin-e78").expect("a machine"), table.head("thistlecut-r90").expect("an attachment"));
    let mut pairing = pair(carrier, head, &Conditions::of_table(&table));
    let told = WORDS.function_place(FunctionCheck::RunsDown, &pairing);
    assert!(told.starts_with("Tried on the machine, with a transmitter that shows vacuum"), "{told}");
    assert!(told.contains("yes only where it shows −0.2 bar or more"), "{told}");
    assert!(WORDS.function_place(FunctionCheck::Door, &pairing).starts_with("Tried on the machine. "));
    pairing.to_prove.clear();
    assert!(WORDS.function_place(FunctionCheck::RunsDown, &pairing).starts_with("Tried on the machine. "));
}
