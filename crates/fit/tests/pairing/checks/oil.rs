//! Whether the oil in the tank does for the day. Viscosities by ISO 3448 and the curves of the usual grades.

use super::{met, pair_under};
use crate::fixture::{assert_mended, assert_today, pair_of, stated, today};
use fit::{CheckId, Conditions, FactId, Outcome, Pairing, Reason, Remark, Verdict};
use hydraulics::OilCurve;
use quantity::shop::celsius;
use quantity::{Named, Quantity, Stated, ThermodynamicTemperature, Unit};
use table::{Carrier, Head, OilGrade};

fn grade(carrier: &mut Carrier, grade: OilGrade) {
    carrier.oil.as_mut().expect("oil").grade = Some(grade);
}

fn degrees(amount: quantity::Amount) -> f64 {
    Unit::Celsius.of_si(amount.quantity::<ThermodynamicTemperature>().expect("a temperature").si())
}

fn mm2_s(amount: quantity::Amount) -> f64 {
    Unit::SquareMillimetrePerSecond.of_si(amount.quantity::<quantity::KinematicViscosity>().expect("a viscosity").si())
}

/// VG 15 has 10 mm²/s at 52 °C, VG 22 at 62 and VG 32 at 74: where the oil settles hotter it is too thin.
#[test]
fn oil_too_thin_where_it_settles_is_the_wrong_oil() {
    let hot = |of| {
        pair_of(move |carrier, _| {
            grade(carrier, of);
            carrier.cooler.as_mut().expect("a cooler").conductance = stated("300 W/K");
        })
    };
    let thin = hot(OilGrade::Vg15);
    let check = today(&thin, CheckId::Oil);
    let Reason::OilTooThin { settles, viscosity, least } = check.reason else { panic!("{check:?}") };
    assert_eq!((check.outcome, check.blocks), (Outcome::NotMet, true));
    let curve = OilCurve::of_grade(OilGrade::Vg15).viscosity(celsius(degrees(settles)));
    assert!((mm2_s(viscosity) - Unit::SquareMillimetrePerSecond.of_si(curve.si())).abs() < 0.01, "{viscosity:?}");
    assert!(mm2_s(viscosity) < 10.0 && (mm2_s(least) - 10.0).abs() < 1e-9 && degrees(settles) > 52.0, "{settles:?}");
    assert_today(&hot(OilGrade::Vg46), CheckId::Oil, Outcome::Met);
    assert_mended(&thin, &["oil-change"]);
    let filled = thin.changed.as_ref().and_then(|carrier| carrier.oil.as_ref()).and_then(|oil| oil.grade);
    assert_eq!(filled, Some(OilGrade::Vg46));
}

#[test]
fn oil_of_which_nothing_says_how_thick_it_is_is_not_known() {
    let unknown = pair_of(|carrier, _| carrier.oil.as_mut().expect("oil").grade = None);
    let check = today(&unknown, CheckId::Oil);
    assert_eq!((check.outcome, check.blocks), (Outcome::NotKnown, true));
    assert_eq!(check.missing[0].fact, FactId::OilGrade);
    // Where nothing says how hot it gets, the temperature at work decides what is too thin for certain.
    let uncooled = |of| {
        pair_of(move |carrier, _| {
            grade(carrier, of);
            carrier.cooler = None;
        })
    };
    assert_today(&uncooled(OilGrade::Vg15), CheckId::Oil, Outcome::NotMet);
    let open = uncooled(OilGrade::Vg32);
    assert_today(&open, CheckId::Oil, Outcome::NotKnown);
    assert_eq!(today(&open, CheckId::Oil).missing[0].fact, FactId::CoolerConductance);
    assert_today(&uncooled(OilGrade::Vg46), CheckId::Oil, Outcome::Met);
}

/// A workshop's own rule that idles the oil to more than 30 °C is no warm-up.
#[test]
fn a_warm_up_goes_to_thirty_degrees() {
    let idled = |to: &str| {
        let to: Option<Stated<ThermodynamicTemperature>> = stated(to);
        pair_of(|carrier, _| carrier.circuits[0].warm_up = to)
    };
    assert_today(&idled("30 °C"), CheckId::Oil, Outcome::Met);
    let wrong = idled("37 °C");
    let check = today(&wrong, CheckId::Oil);
    let Reason::OilTooThick { warm_up, most } = check.reason else { panic!("{check:?}") };
    assert!((degrees(warm_up) - 37.0).abs() < 1e-6 && (degrees(most) - 30.0).abs() < 1e-6);
    // The rule goes with the oil that it was for; what takes its place is thinner.
    assert_mended(&wrong, &["oil-change"]);
    let filled = wrong.changed.as_ref().and_then(|carrier| carrier.oil.as_ref()).and_then(|oil| oil.grade);
    assert_eq!(filled, Some(OilGrade::Vg32));
}

fn long_case_line(carrier: &mut Carrier, head: &mut Head) {
    let line = &mut carrier.case_line.as_mut().expect("a case line").line;
    line.segments[0].bore = stated("12.7 mm");
    line.segments[0].length = stated("8 m");
    head.outlet.case_flow = stated("4 L/min");
}

/// In thick oil a hot motor on a cold case drain would have to wait beyond 30 °C: it is the wrong oil, and no pair with it fits.
#[test]
fn oil_that_must_be_warm_for_a_hot_motor_is_too_thick() {
    let with = |of| {
        pair_of(move |carrier, head| {
            long_case_line(carrier, head);
            grade(carrier, of);
        })
    };
    assert_today(&with(OilGrade::Vg46), CheckId::CasePressure, Outcome::Met);
    let thick = with(OilGrade::Vg100);
    assert_today(&thick, CheckId::CasePressure, Outcome::NotMet);
    let check = today(&thick, CheckId::Oil);
    let Reason::OilTooThick { warm_up, .. } = check.reason else { panic!("{check:?}") };
    assert!((31.0..70.0).contains(&degrees(warm_up)), "{warm_up:?}");
    assert_ne!(thick.verdict, Verdict::Fits);
    assert!(thick.changes.iter().any(|change| matches!(change.id.name(), "oil-change" | "case-line")), "{thick:?}");
}

/// VG 46 has 1000 mm²/s at −6 °C (ISO 3448, ASTM D341). Nothing is asked as long as nobody sets a day.
#[test]
fn a_colder_day_than_the_oil_may_be_started_on_is_told_with_what_is_done() {
    let on = |day: Option<f64>, of| {
        let conditions = Conditions { coldest_start: day.map(celsius), ..Conditions::default() };
        pair_under(&conditions, move |carrier, _| grade(carrier, of))
    };
    let told = |pairing: &Pairing| {
        let from = pairing.remarks.iter().find_map(|remark| match remark {
            Remark::StartsDownTo { from } => Some(degrees(*from)),
            _ => None,
        });
        from.expect("down to which temperature it may be started")
    };
    let usual = on(None, OilGrade::Vg46);
    assert_eq!(usual.verdict, Verdict::Fits);
    assert!((told(&usual) + 6.0).abs() < 0.5, "{}", told(&usual));
    met(&on(Some(-6.0), OilGrade::Vg46), CheckId::Oil, &Reason::NoOilDemanded);
    let cold = on(Some(-7.0), OilGrade::Vg46);
    let check = today(&cold, CheckId::Oil);
    let Reason::OilTooThickToStart { start, from } = check.reason else { panic!("{check:?}") };
    assert!((degrees(start) + 7.0).abs() < 1e-6 && (degrees(from) - told(&usual)).abs() < 1e-6);
    assert_mended(&cold, &["oil-change"]);
    let filled = cold.changed.as_ref().and_then(|carrier| carrier.oil.as_ref()).and_then(|oil| oil.grade);
    assert_eq!(filled, Some(OilGrade::Vg32));
    assert!(told(&cold) < -7.0, "{}", told(&cold));
    // In the arctic no grade of the shop does.
    let arctic = on(Some(-45.0), OilGrade::Vg46);
    assert_eq!((arctic.verdict, arctic.unmendable.as_slice()), (Verdict::DoesNotFit, &[CheckId::Oil][..]));
}
