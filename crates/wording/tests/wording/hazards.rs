//! What kills stands at the top of every sheet and paper and in every text that is sent, and what is left to others at their end.

use super::{demo, sheets_of, words};
use fit::{Conditions, Remark, pair};
use handover::{Circumstances, function_checks, plan, standing};
use quantity::{Amount, Length, Named, Quantity, Time, UnitSystem};
use record::HandOver;
use table::HeadKind;
use wording::{Line, SafetySign};
use workshop::{Caution, cautions};

const DEFERENCE: &str = "Makers' manuals, local codes and licensed practice";

/// The first lines of a sheet about a cutter: a jet, the zone with its distance, the rotor with its time.
#[track_caller]
fn begins_with_what_kills(lines: &[Line], stands: &str) {
    let text = |at: usize| lines.get(at).map_or("", |line: &Line| line.title.as_str());
    assert!(
        text(0).contains("goes through skin and gloves") && text(0).contains("however small the wound"),
        "{stands}: {}",
        text(0)
    );
    assert!(text(1).contains("nobody nearer than") && text(1).contains(" m while it works"), "{stands}: {}", text(1));
    assert!(text(2).contains("keeps turning") && text(2).contains("until it stands"), "{stands}: {}", text(2));
    let signs: Vec<_> = lines[..3].iter().map(|line| line.sign).collect();
    assert_eq!(
        signs,
        [Some(SafetySign::Warning), Some(SafetySign::NoThoroughfare), Some(SafetySign::Warning)],
        "{stands}"
    );
}

#[test]
fn invariant_every_sheet_and_paper_begins_with_what_kills_and_ends_with_what_is_left_to_others() {
    let words = words(UnitSystem::Metric);
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let (carrier, head) = table.carrier("quern-q56").zip(table.head("thistlecut-r90")).expect("in the table");
    let (pairing, sheets) = sheets_of("quern-q56", "thistlecut-r90");
    begins_with_what_kills(&words.hazards(&[&pairing]).expect("a section").lines, "sheet and comparison");
    let of = plan(&pairing, carrier, head, &conditions, &Circumstances::default());
    let fitter = words.sheets(&pairing, &sheets, &of);
    assert_eq!(fitter[0].title, "Danger");
    begins_with_what_kills(&fitter[0].lines, "fitter's sheet");
    begins_with_what_kills(&words.for_customer(&pairing, &sheets).lines, "customer's sheet");
    let record = HandOver::blank("a".to_owned(), "2026-11-27T10:00:00Z".to_owned(), (&table, "m"), &pairing, None);
    let (planned, asked) =
        (plan(&pairing, carrier, head, &conditions, &Circumstances::default()), function_checks(&pairing, head));
    let stands = standing(&planned, &record.reads(), &asked, |check| record.answer(check), record.is_signed());
    let paper = words.hand_over(&pairing, &record, &planned, &asked, &stands, None);
    begins_with_what_kills(&paper[0].lines, "record of the hand-over");
    let last = paper.last().and_then(|section| section.lines.last()).expect("a line");
    assert!(last.title.starts_with(DEFERENCE), "{last:?}");
    // What is left to others stands last among the cautions.
    let beware = &fitter.iter().find(|section| section.title == "Beware").expect("cautions").lines;
    assert!(beware.last().is_some_and(|line| line.title.starts_with(DEFERENCE)), "{beware:?}");
    assert!(words.cautions(&pairing).last().is_some_and(|text| text.starts_with(DEFERENCE)));
}

#[test]
fn invariant_what_is_sent_tells_what_kills() {
    let words = words(UnitSystem::Metric);
    let (pairing, _) = sheets_of("quern-q56", "thistlecut-r90");
    let sent = words.text_to_send(&[&pairing]);
    let (told, beware) = sent.split_once('\n').expect("two lines");
    assert_eq!(told, words.to_send(&pairing));
    assert!(beware.starts_with("Beware: a jet of oil from about 7 bar up goes through skin, nobody nearer than 90 m while it works and the rotor keeps turning"), "{beware}");
    assert!(beware.ends_with(&format!("{DEFERENCE} come first.")), "{beware}");
    // Of several the greatest distance, and a rotor whose time is not known may turn longest.
    let (breaker, _) = sheets_of("quern-q56", "wrackline-b34");
    let several = words.text_to_send(&[&breaker, &pairing]);
    assert!(several.lines().last().is_some_and(|line| line == beware), "{several}");
    assert!(!words.text_to_send(&[&breaker]).contains("rotor"), "a breaker has none");
}

/// Upwards to a round number, in whatever units: 90 m are 295.3 ft.
#[test]
fn a_distance_of_safety_is_rounded_upwards() {
    let (pairing, _) = sheets_of("quern-q56", "thistlecut-r90");
    let told = |metres: f64, units| {
        let mut pairing = pairing.clone();
        for remark in &mut pairing.remarks {
            if let Remark::ThrowZone { distance, .. } = remark {
                *distance = Amount::of(Length::from_si(metres));
            }
        }
        let text = words(units).hazards(&[&pairing]).expect("a section").lines[1].title.clone();
        assert!(text.starts_with("It throws objects: nobody nearer than "), "{text}");
        text.split("than ").nth(1).and_then(|rest| rest.split(" while").next()).expect("a distance").to_owned()
    };
    let both = |metres| (told(metres, UnitSystem::Metric), told(metres, UnitSystem::UsCustomary));
    assert_eq!(both(90.0), ("90 m".to_owned(), "300 ft".to_owned()));
    assert_eq!(both(15.0), ("15 m".to_owned(), "50 ft".to_owned()));
    assert_eq!(both(91.44), ("95 m".to_owned(), "300 ft".to_owned()));
    assert_eq!(both(100.0), ("100 m".to_owned(), "350 ft".to_owned()));
}

/// A time where the rotor's inertia is stated, rounded upwards; else what is usual.
#[test]
fn a_rotor_that_keeps_turning_is_told_with_its_time() {
    let words = words(UnitSystem::Metric);
    let (pairing, _) = sheets_of("quern-q56", "thistlecut-r90");
    let about = |seconds: f64| {
        let coasts = Some(Amount::of(Time::from_si(seconds)));
        let pairing = fit::Pairing { coasts, ..pairing.clone() };
        words.hazards(&[&pairing]).expect("a section").lines[2].title.clone()
    };
    assert!(about(41.2).contains("for about 45 s (computed"), "{}", about(41.2));
    let without = fit::Pairing { coasts: None, ..pairing.clone() };
    let text = &words.hazards(&[&without]).expect("a section").lines[2].title;
    assert!(text.contains("often for a minute and more"), "{text}");
    // Solved where it is stated.
    let table = demo();
    let heads = table.heads.iter().filter(|head| head.motor.as_ref().is_some_and(|motor| motor.inertia.is_some()));
    let solved = heads.filter(|head| {
        table.carriers.iter().any(|carrier| pair(carrier, head, &Conditions::of_table(&table)).coasts.is_some())
    });
    assert!(solved.count() > 0);
}

#[test]
fn what_else_can_hurt_stands_where_it_belongs() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let carrier = table.carrier("quern-q56").expect("a machine");
    for kind in HeadKind::ALL {
        let Some(head) = table.heads.iter().find(|head| head.kind == *kind) else { continue };
        let all = cautions(&pair(carrier, head, &conditions));
        let has = |caution: &Caution| all.contains(caution);
        for always in [Caution::Protection, Caution::CatchOil, Caution::OverheadLines, Caution::Injection] {
            assert!(has(&always), "{kind:?}: {always:?}");
        }
        let below = [
            HeadKind::Breaker,
            HeadKind::Saw,
            HeadKind::ColdPlaner,
            HeadKind::StumpGrinder,
            HeadKind::Auger,
            HeadKind::Trencher,
        ];
        assert_eq!(has(&Caution::BuriedServices), below.contains(kind), "{kind:?}");
        assert_eq!(has(&Caution::Silica), below[..3].contains(kind), "{kind:?}");
        assert_eq!(has(&Caution::BlockRotor), kind.has_heavy_rotor(), "{kind:?}");
        let dry = [
            HeadKind::RotaryCutter,
            HeadKind::Flail,
            HeadKind::DrumMulcher,
            HeadKind::HammerMulcher,
            HeadKind::StumpGrinder,
            HeadKind::Saw,
        ];
        assert_eq!(has(&Caution::DryDebris), dry.contains(kind), "{kind:?}");
    }
    let (wired, sheets) = sheets_of("orrin-e78", "thistlecut-r90");
    assert!(cautions(&wired).contains(&Caution::IsolateBattery));
    let fitter = words(UnitSystem::Metric).sheets(&wired, &sheets, &[]);
    let wiring = fitter.iter().flat_map(|section| &section.lines).find(|line| line.title.starts_with("Wiring"));
    assert!(wiring.is_some_and(|line| line.detail.contains("Battery isolated")), "{wiring:?}");
}
