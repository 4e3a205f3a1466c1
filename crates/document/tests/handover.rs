//! What a hand-over tells as documents: the first start and the cautions before the readings, and what may be wrong.

use document::handover::{before, behind, reading, suspects};
use document::{Block, Fold, text};
use fit::{Conditions, pair};
use handover::{Circumstances, Measurement, Read, Signatures, Step, plan};
use quantity::{Amount, Named, Pressure, Quantity, UnitSystem, VolumeRate};
use wording::{PlainNumbers, Words};
use workshop::Sheets;

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn case<R>(look: impl FnOnce(&fit::Pairing, &table::Carrier, &table::Head, &Conditions) -> R) -> R {
    let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("the demo reads");
    let (carrier, head) = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("in the table");
    let conditions = Conditions::of_table(&table);
    look(&pair(carrier, head, &conditions), carrier, head, &conditions)
}

fn folds(blocks: &[Block]) -> Vec<&Fold> {
    blocks
        .iter()
        .flat_map(|block| match block {
            Block::Fold(fold) => vec![fold],
            Block::List { items, .. } => items.iter().flat_map(|item| folds(item)).collect(),
            _ => Vec::new(),
        })
        .collect()
}

#[test]
fn invariant_every_caution_and_every_step_of_the_first_start_is_told_before_its_readings() {
    let first_start = case(|pairing, carrier, head, conditions| {
        Sheets::of(pairing, carrier, head, conditions).job.expect("it fits").first_start
    });
    let told: Vec<_> = Step::ALL.iter().map(|step| text(&before(&WORDS, *step, &first_start))).collect();
    for (step, told) in Step::ALL.iter().zip(&told) {
        assert!(told.starts_with(WORDS.caution_of_step(*step)), "{told}");
    }
    for line in WORDS.first_start(&first_start).expect("steps").lines {
        let times = told.iter().filter(|told| told.contains(&line.title)).count();
        assert!(times >= 1, "{}", line.title);
    }
    assert!(told[1].contains("Join supply to return by a flow tester"), "{}", told[1]);
    assert!(told[2].contains("Direction of rotation, at its lowest flow"), "{}", told[2]);
    assert!(told[3].contains("Stop test"), "{}", told[3]);
}

#[test]
fn what_may_be_wrong_stands_under_the_reading_that_shows_it() {
    let read = [
        Read { what: Measurement::FlowFree, value: Amount::of(VolumeRate::from_si(64.0 / 60_000.0)) },
        Read { what: Measurement::CaseWorking, value: Amount::of(Pressure::from_si(3.1e5)) },
    ];
    let found = case(|pairing, carrier, head, conditions| {
        Signatures::of(pairing, carrier, head, conditions, &Circumstances::default()).diagnose(&read)
    });
    let here = behind(&WORDS, Some(&found), Measurement::CaseWorking);
    let first = folds(&here)[0];
    assert_eq!(first.name, "Stop. Case drain pinched or not open");
    // Nobody is sent to read on: what is told first is to stop.
    assert!(first.summary.starts_with("Stop. Engine off, pressure out"), "{}", first.summary);
    let all = suspects(&WORDS, Some(&found), true);
    assert!(text(&all).contains("For it\n"), "{}", text(&all));
    let ids: Vec<_> = folds(&here).into_iter().chain(folds(&all)).map(|fold| fold.id.clone()).collect();
    let mut once = ids.clone();
    once.sort();
    once.dedup();
    assert_eq!(once.len(), ids.len(), "both stand on a desk");
    // By itself nothing is off: nobody is told to stop.
    assert!(!text(&suspects(&WORDS, Some(&found), false)).contains("Stop. Case drain"));
    assert!(text(&behind(&WORDS, None, Measurement::CaseWorking)).contains("Solving the circuit"));
}

#[test]
fn where_nothing_is_suspected_nothing_stands_under_a_reading() {
    let found = case(|pairing, carrier, head, conditions| {
        Signatures::of(pairing, carrier, head, conditions, &Circumstances::default()).diagnose(&[])
    });
    assert_eq!(behind(&WORDS, Some(&found), Measurement::FlowFree), []);
    assert!(text(&suspects(&WORDS, Some(&found), false)).contains("Too little is read"));
}

#[test]
fn a_reading_says_where_what_is_expected_and_what_limits_it() {
    let planned =
        case(|pairing, carrier, head, conditions| plan(pairing, carrier, head, conditions, &Circumstances::default()));
    for planned in &planned {
        let told = text(&reading(&WORDS, planned, None));
        assert!(told.starts_with(&WORDS.measurement_place(planned)), "{told}");
        assert_eq!(told.contains("Limit: "), planned.reading.stop.is_some() || planned.reading.not_below.is_some());
    }
    let of = |what| planned.iter().find(|planned| planned.what == what).expect("planned");
    let case_pressure = text(&reading(&WORDS, of(Measurement::CaseWorking), None));
    assert!(case_pressure.contains("Limit: at most 2.4 bar"), "{case_pressure}");
    let flow = text(&reading(&WORDS, of(Measurement::FlowWorking), None));
    assert!(flow.contains("[Dial: flow, loaded as at work]\nExpected: 62 to 66 L/min"), "{flow}");
}
