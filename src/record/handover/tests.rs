use super::*;
use crate::pairing::{Conditions, pair};
use crate::quantity::{Kind, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};

fn pairing() -> (Table, Pairing) {
    let table = crate::table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
    let of = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("both stand in the table");
    let pairing = pair(of.0, of.1, &Conditions::of_table(&table));
    (table, pairing)
}

fn made() -> Made {
    Made { entries: "0d2f1b69".to_owned(), judgement: 1 }
}

fn blank() -> HandOver {
    let (table, pairing) = pairing();
    HandOver::blank("a1".to_owned(), "2026-11-27T10:00:00Z".to_owned(), (&table, "m"), &pairing, Some(made()))
}

fn bar(value: f64) -> Amount {
    Amount::of(Pressure::from_si(value * 1e5))
}

#[test]
fn a_bare_number_is_kept_with_the_unit_that_was_asked_for() {
    let mut record = blank();
    record.write(Measurement::OutletWorking, " 6.2 ", UnitSystem::Metric);
    assert_eq!(record.typed(Measurement::OutletWorking), "6.2 bar");
    record.write(Measurement::OutletWorking, "90", UnitSystem::UsCustomary);
    assert_eq!(record.typed(Measurement::OutletWorking), "90 [psi]");
    // Whoever reads metric units later sees the same figure, not ninety bar.
    let read = record.amount(Measurement::OutletWorking).expect("a figure").expect("typed");
    assert!((read.si() - 90.0 * 6894.757).abs() < 1.0);
    record.write(Measurement::OilStart, "-4", UnitSystem::Metric);
    assert_eq!(record.circumstances().oil, Some(ThermodynamicTemperature::from_si(269.15)));
}

#[test]
fn what_is_no_figure_stays_as_typed_and_says_what_is_wrong() {
    let mut record = blank();
    for (text, fault) in [
        ("6,2", TextFault::Comma),
        ("6.2 L/min", TextFault::WrongDimension { unit: Unit::LitrePerMinute }),
        ("5..6 bar", TextFault::PlainFigureWanted),
        ("6.2 bar (plate)", TextFault::PlainFigureWanted),
        ("six", TextFault::NoNumber),
    ] {
        record.write(Measurement::OutletWorking, text, UnitSystem::Metric);
        assert_eq!(record.typed(Measurement::OutletWorking), text);
        assert_eq!(record.amount(Measurement::OutletWorking), Err(fault), "{text}");
        assert!(record.reads().is_empty());
    }
    record.write(Measurement::OutletWorking, " ", UnitSystem::Metric);
    assert_eq!(record.amount(Measurement::OutletWorking), Ok(None));
    assert!(record.is_blank());
}

#[test]
fn readings_come_in_the_order_of_work() {
    let mut record = blank();
    record.write(Measurement::RotorWorking, "2100", UnitSystem::Metric);
    record.write(Measurement::Relief, "250 bar", UnitSystem::Metric);
    record.write(Measurement::FlowFree, "4e1", UnitSystem::Metric);
    let reads: Vec<_> = record.reads().iter().map(|read| read.what).collect();
    assert_eq!(reads, [Measurement::Relief, Measurement::RotorWorking], "a figure that cannot be read is left out");
    assert_eq!(record.reads()[0].value, bar(250.0));
}

#[test]
fn own_instruments_take_the_place_of_the_usual_ones() {
    let mut record = blank();
    let usual = Instruments::default();
    assert_eq!(record.circumstances().instruments, usual);
    for (text, is) in [("1", 0.01), ("0.6 %", 0.006)] {
        record.write_instrument(InstrumentKind::Pressure, text);
        assert_eq!(record.circumstances().instruments, Instruments { pressure: Ratio::from_si(is), ..usual });
    }
    for wrong in ["0", "-1", "50", "good", "1 bar"] {
        record.write_instrument(InstrumentKind::Pressure, wrong);
        assert!(record.off(InstrumentKind::Pressure).is_err(), "{wrong}");
        assert_eq!(record.circumstances().instruments, usual, "{wrong}");
    }
}

#[test]
fn it_is_signed_by_a_name_and_a_day() {
    let mut record = blank();
    record.write_entry(Entry::By, "A. Fitter");
    assert!(!record.is_signed());
    record.write_entry(Entry::Day, "2026-11-27");
    assert!(record.is_signed());
    record.write_entry(Entry::By, "  ");
    assert!(!record.is_signed());
}

#[test]
fn answers_are_given_and_taken_back() {
    let mut record = blank();
    assert_eq!(record.answer(FunctionCheck::Stops), None);
    for answer in [Some(true), Some(false), None] {
        record.write_answer(FunctionCheck::Stops, answer);
        assert_eq!(record.answer(FunctionCheck::Stops), answer);
    }
    assert!(record.is_blank());
}

#[test]
fn what_is_kept_reads_back_and_keeps_what_this_build_does_not_know() {
    let mut record = blank();
    record.write(Measurement::CaseFlow, "3.5", UnitSystem::Metric);
    record.write_entry(Entry::Note, "second\nline");
    record.written.readings.insert("noise".to_owned(), "80 dB".to_owned());
    assert_eq!(HandOver::decode(&record.encode()), Ok(record.clone()));
    assert!(record.encode().starts_with(r#"{"format":"pairwright.handover""#));
    let text = record.encode();
    for end in (0..text.len()).filter(|&end| text.is_char_boundary(end)) {
        assert_eq!(HandOver::decode(&text[..end]), Err(RecordFault::Damaged), "cut at {end}");
    }
    assert_eq!(
        HandOver::decode(r#"{"format":"pairwright.handover","version":2,"handover":{}}"#),
        Err(RecordFault::Newer { found: 2 })
    );
}

#[test]
fn it_belongs_to_its_machine_and_attachment() {
    let record = blank();
    assert!(record.is_of("quern-q56", "thistlecut-r90"));
    assert!(!record.is_of("quern-q56", "thistlecut-r60"));
    assert_eq!(record.name, "Thistlecut TI 90 on Quern QU 56");
    let mut other = HandOver { id: "b".to_owned(), changed: "later".to_owned(), ..record.clone() };
    assert!(record.says_the_same(&other));
    other.write(Measurement::FlowFree, "100", UnitSystem::Metric);
    assert!(!record.says_the_same(&other));
    assert_eq!(other.reads()[0].value.quantity(), Some(VolumeRate::from_si(Unit::LitrePerMinute.to_si(100.0))));
}
