use super::*;
use fit::{Conditions, pair};
use quantity::{Pressure, Quantity, Ratio, ThermodynamicTemperature, VolumeRate};

fn pairing() -> (Table, Pairing) {
    let table = table::read(include_str!("../../../../public/table/demo.json")).table.expect("a table");
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
        ("1,234", TextFault::Comma),
        ("6,", TextFault::Comma),
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
fn a_decimal_comma_is_read_and_said_and_what_may_be_thousands_is_asked() {
    let mut record = blank();
    record.write(Measurement::OutletWorking, "9,5", UnitSystem::Metric);
    assert_eq!(record.typed(Measurement::OutletWorking), "9,5 bar", "as it was typed");
    assert_eq!(record.amount(Measurement::OutletWorking), Ok(Some(bar(9.5))));
    assert_eq!(record.read_as(Measurement::OutletWorking), Some((9.5, Unit::Bar)));
    assert_eq!(record.likely_meant(Measurement::OutletWorking, UnitSystem::Metric), [""; 0]);
    record.write(Measurement::OutletWorking, "9.5", UnitSystem::Metric);
    assert_eq!(record.read_as(Measurement::OutletWorking), None, "nothing to say of a point");
    record.write(Measurement::RotorWorking, "1,234", UnitSystem::Metric);
    assert_eq!(record.amount(Measurement::RotorWorking), Err(TextFault::Comma));
    assert_eq!(record.likely_meant(Measurement::RotorWorking, UnitSystem::Metric), ["1.234", "1234"]);
    record.write_instrument(InstrumentKind::Pressure, "1,6");
    assert_eq!(record.circumstances().instruments.pressure, Ratio::from_si(0.016));
}

/// Two tabs, or a phone and a desk one after the other: no reading is blanked by the other one's.
#[test]
fn invariant_what_two_tabs_write_on_a_record_is_put_together() {
    let mut base = blank();
    base.write(Measurement::Relief, "240 bar", UnitSystem::Metric);
    let (mut mine, mut theirs) = (base.clone(), base.clone());
    mine.write(Measurement::OutletWorking, "6 bar", UnitSystem::Metric);
    mine.write(Measurement::Relief, "250 bar", UnitSystem::Metric);
    theirs.write(Measurement::CaseWorking, "1.5 bar", UnitSystem::Metric);
    theirs.write_entry(Entry::Note, "Hose rubs");
    theirs.write_instrument(InstrumentKind::Pressure, "1");
    theirs.write_answer(FunctionCheck::ALL[0], Some(true));
    theirs.changed = "2099-01-01T00:00:00Z".to_owned();
    let both = HandOver::merged(&base, &mine, &theirs);
    assert_eq!(both.typed(Measurement::OutletWorking), "6 bar");
    assert_eq!(both.typed(Measurement::Relief), "250 bar");
    assert_eq!(both.typed(Measurement::CaseWorking), "1.5 bar");
    assert_eq!(both.entry(Entry::Note), "Hose rubs");
    assert_eq!(both.instrument(InstrumentKind::Pressure), "1");
    assert_eq!(both.answer(FunctionCheck::ALL[0]), Some(true));
    assert_eq!(both.changed, "2099-01-01T00:00:00Z");
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
fn a_day_alone_makes_no_record() {
    let mut record = blank();
    record.write_entry(Entry::Day, "2026-11-27");
    assert!(record.is_blank());
    record.write_entry(Entry::To, "B. Customer");
    assert!(!record.is_blank());
}

#[test]
fn invariant_a_signature_holds_for_what_stood_there_and_for_nothing_else() {
    let mut record = blank();
    assert_eq!(record.is_signed_as_it_stands(), None);
    record.write(Measurement::FlowFree, "64", UnitSystem::Metric);
    record.sign(&[vec![(10, 10), (60, 40)]]);
    assert_eq!(record.is_signed_as_it_stands(), Some(true));
    assert_eq!(record.signature.as_ref().map(Signature::path), Some("M10 10L60 40"));
    let read = HandOver::decode(&record.encode()).expect("it opens");
    assert_eq!((read.is_signed_as_it_stands(), &read), (Some(true), &record));
    record.write(Measurement::FlowFree, "63", UnitSystem::Metric);
    assert_eq!(record.is_signed_as_it_stands(), Some(false), "a figure was changed since");
    record.sign(&[]);
    assert_eq!(record.signature, None);
    assert!(!record.encode().contains("signature"), "a record without one is written as before");
}

#[test]
fn a_record_opens_without_a_signature_that_is_none() {
    let mut record = blank();
    record.sign(&[vec![(10, 10), (60, 40)]]);
    let text = record.encode();
    for wrong in ["M10 10Z", "M10 10L60 900", "<script>"] {
        let spoilt = text.replace("M10 10L60 40", wrong);
        assert_ne!(spoilt, text);
        let read = HandOver::decode(&spoilt).expect("it opens all the same");
        assert_eq!(read.signature, None, "{wrong}");
    }
    let none = text.replace(r#""path":"M10 10L60 40""#, r#""path":7"#);
    assert_eq!(HandOver::decode(&none).expect("it opens all the same").signature, None);
}

#[test]
fn what_is_not_applicable_is_no_figure_and_no_answer() {
    let mut record = blank();
    let items = [Item::Reading(Measurement::PumpFree), Item::Function(FunctionCheck::Door)];
    for item in items {
        record.write_not_applicable(item);
    }
    assert_eq!(record.not_applicable(), items);
    assert_eq!(record.amount(Measurement::PumpFree), Ok(None));
    assert_eq!(record.answer(FunctionCheck::Door), None);
    assert!(record.reads().is_empty());
    record.write(Measurement::PumpFree, "210", UnitSystem::Metric);
    record.write_answer(FunctionCheck::Door, Some(true));
    assert!(record.not_applicable().is_empty());
    record.write(Measurement::PumpFree, NOT_APPLICABLE, UnitSystem::Metric);
    assert_eq!(record.not_applicable(), [Item::Reading(Measurement::PumpFree)], "as it comes out of the field");
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
