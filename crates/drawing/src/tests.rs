//! Curves, lift, oil, gauges and margins of the demo table: drawn, measured, and held against what they are drawn from.

use super::{Picture, Scale, Stroke, curve, gauge, lift, margin_picture, unreachable, warmth};
use crate::yard::{Yard, yard};
use fit::installation::PumpCurve;
use fit::{CheckId, Conditions, Installation, Outcome, Pairing};
use quantity::{Amount, Named, Quantity, Time, UnitSystem};
use table::{Carrier, Head};
use wording::{PlainNumbers, Words};
use workshop::{Found, Instrument, Judged, Sheets};

fn words(index: usize) -> Words<'static> {
    Words { numbers: &PlainNumbers, units: UnitSystem::ALL[index % 2] }
}

/// Every pairing of a machine with figures, as it would go to work.
fn each(step: usize, look: impl Fn(&str, &Pairing, (&Carrier, &Head, &Conditions), Installation, &Words)) -> usize {
    let Yard { table, pairings: judged, .. } = yard();
    let conditions = Conditions::of_table(table);
    let pairs = table.carriers.iter().flat_map(|carrier| table.heads.iter().map(move |head| (carrier, head)));
    let mut looked = 0;
    for (index, ((carrier, head), pairing)) in pairs.zip(judged).enumerate().step_by(step) {
        let machine = pairing.changed.as_deref().unwrap_or(carrier);
        let Some(circuit) = &pairing.circuit else { continue };
        let Some(installation) = Installation::new(machine, circuit, head, &conditions) else { continue };
        let name = format!("{} {}", carrier.id, head.id);
        look(&name, pairing, (carrier, head, &conditions), installation, &words(index / 3));
        looked += 1;
    }
    looked
}

/// Texts lie within the field and over no other; no figure of a path is missing.
pub(super) fn sound(name: &str, picture: &Picture) {
    let field = super::Area { left: 0.0, top: 0.0, right: picture.width, bottom: picture.height };
    for (index, text) in picture.texts.iter().enumerate() {
        let area = text.area();
        let inside = area.left >= field.left
            && area.right <= field.right
            && area.top >= field.top
            && area.bottom <= field.bottom;
        assert!(inside, "{name}: “{}” leaves the field: {area:?}", text.text);
        for other in &picture.texts[..index] {
            assert!(!area.overlaps(other.area()), "{name}: “{}” lies over “{}”", text.text, other.text);
        }
    }
    for path in &picture.paths {
        assert!(!path.d.contains("NaN") && !path.d.contains("inf"), "{name}: {}", path.d);
    }
}

fn of(amount: Amount) -> f64 {
    amount.in_system(UnitSystem::Metric).0
}

/// Pressure of a curve at a flow, between its points.
fn pressure_at(points: &[(Amount, Amount)], flow: f64) -> Option<f64> {
    points.windows(2).find_map(|pair| {
        let ((p0, q0), (p1, q1)) = ((of(pair[0].0), of(pair[0].1)), (of(pair[1].0), of(pair[1].1)));
        let within = (q0..=q1).contains(&flow);
        within.then(|| if q1 > q0 { p0 + (p1 - p0) * (flow - q0) / (q1 - q0) } else { p0 })
    })
}

fn holds_together(name: &str, curve: &PumpCurve) {
    assert!(curve.gives.windows(2).all(|pair| pair[1].1.si() <= pair[0].1.si() + 1e-12), "{name}: the curve rises");
    for need in curve.needs.iter().filter(|need| !need.stalls) {
        let (pressure, flow) = (of(need.works_at.0), of(need.works_at.1));
        let needed = pressure_at(&need.points, flow).unwrap_or_else(|| panic!("{name}: {flow} L/min is off the curve"));
        assert!((needed - pressure).abs() < 0.01 * pressure + 0.3, "{name}: needs {needed}, works at {pressure} bar");
    }
}

#[test]
fn invariant_pump_curves_hold_together_and_their_labels_keep_apart() {
    let counts = std::cell::Cell::new((0, 0, 0));
    each(1, |name, _, _, installation, words| {
        let Some(found) = installation.pump_curve() else { return };
        holds_together(name, &found);
        let picture = curve(&found, words);
        sound(name, &picture);
        let named = picture.texts.iter().any(|text| text.text.starts_with(words.at_work()));
        assert_eq!(picture.paths.iter().any(|path| path.stroke == Stroke::Beyond), unreachable(&found), "{name}");
        assert!(words.curve_text(&found).ends_with('.'));
        let (drawn, at_work, beyond) = counts.get();
        counts.set((drawn + 1, at_work + usize::from(named), beyond + usize::from(unreachable(&found))));
    });
    let (drawn, at_work, beyond) = counts.get();
    assert!(drawn > 1000 && at_work * 100 > 97 * drawn && beyond > drawn / 4, "{drawn} {at_work} {beyond}");
}

#[test]
fn invariant_a_lift_that_is_drawn_agrees_with_its_check() {
    let drawn = std::cell::Cell::new(0);
    each(2, |name, pairing, _, installation, words| {
        let Ok(found) = installation.lift_over_reach() else { return };
        sound(name, &lift(&found, words));
        let check = pairing.final_check(CheckId::Lift).expect("a check");
        let carries = found.carries_there().expect("a figure");
        if check.outcome == Outcome::Met {
            assert!(carries.si() >= found.hangs.si(), "{name}");
        }
        if let Some(limit) = check.limit {
            // The check's is the worst corner; likely figures are a little better, and never worse.
            assert!(of(carries) >= of(limit) - 0.5, "{name}: {} of {}", of(carries), of(limit));
        }
        assert!(words.lift_text(&found).ends_with('.'));
        drawn.set(drawn.get() + 1);
    });
    assert!(drawn.get() > 400, "{}", drawn.get());
}

#[test]
fn invariant_oil_is_drawn_warming_as_its_balance_of_heat_says() {
    let drawn = std::cell::Cell::new((0, 0));
    each(5, |name, _, _, installation, words| {
        let Ok(found) = installation.warming() else { return };
        sound(name, &warmth(&found, words));
        let balance = installation.warmth();
        let seconds = |amount: Amount| amount.quantity::<Time>().expect("a time").si();
        let crossed = found.points.iter().find(|(_, t)| t.si() >= found.stop.si()).map(|(time, _)| seconds(*time));
        let (last, end) = found.points.last().map(|(time, t)| (seconds(*time), of(*t))).expect("a point");
        match (balance.to_stop.map(seconds), crossed) {
            (Some(there), Some(here)) => {
                assert!((there - here).abs() < 0.05 * there + 150.0, "{name}: {there} s, drawn {here} s");
                drawn.set((drawn.get().0, drawn.get().1 + 1));
            }
            // Only beyond the day that is shown.
            (Some(there), None) => assert!(there > 0.9 * last, "{name}: {there} of {last} s"),
            (None, crossed) => assert!(crossed.is_none_or(|at| at > 0.5 * last), "{name}"),
        }
        if let Some(settles) = balance.settles.map(of) {
            assert!(end < settles + 1.0, "{name}: {end} of {settles} °C");
        }
        assert!(words.warming_text(&found).ends_with('.'));
        drawn.set((drawn.get().0 + 1, drawn.get().1));
    });
    let (all, hot) = drawn.get();
    assert!(all > 60 && hot > 5, "{all} {hot}");
}

#[test]
fn invariant_dials_hold_what_is_expected_and_end_at_a_round_figure() {
    let drawn = std::cell::Cell::new(0);
    each(3, |name, pairing, (carrier, head, conditions), _, words| {
        let Some(job) = Sheets::of(pairing, carrier, head, conditions).job else { return };
        for reading in &job.settings.readings {
            let instrument = job.settings.gauges.iter().find(|gauge| gauge.at == reading.at);
            let Found::Expected { reads } = &reading.found else { continue };
            for (read, wanted) in [
                (None, None),
                (Some(reads.nominal), Some(Judged::Inside)),
                (Some(Amount::from_si(reads.high.dimension(), reads.high.si() * 1.3 + 1.0)), None),
            ] {
                let dial = gauge(reading, instrument, read, words).expect("a dial");
                sound(name, &dial.picture);
                let high = reads.high.in_system(words.units).0;
                assert!(dial.full_scale >= high, "{name}: {} of {high}", dial.full_scale);
                let beyond_limit = reading.stop.is_some_and(|stop| reads.nominal.si() > stop.si());
                if wanted.is_some() && !beyond_limit {
                    assert_eq!(dial.judged, wanted, "{name}: {:?}", reading.at);
                }
                if let (Some(gauge), UnitSystem::Metric) = (instrument, words.units)
                    && let Instrument::Pressure { full_scale, .. } = gauge.instrument
                {
                    assert!((dial.full_scale - of(full_scale)).abs() < 1e-6, "{name}: {}", dial.full_scale);
                }
            }
            assert!(words.gauge_text(reading, Some(reads.low)).contains("Read:"));
            drawn.set(drawn.get() + 1);
        }
    });
    assert!(drawn.get() > 400, "{}", drawn.get());
}

#[test]
fn invariant_margins_say_limit_and_worst_corner_as_their_check_does() {
    let drawn = std::cell::Cell::new(0);
    each(4, |name, pairing, _, _, words| {
        for check in pairing.checks.iter().chain(&pairing.checks_after) {
            let Some(picture) = margin_picture(check, None, words) else { continue };
            sound(&format!("{name} {}", check.id.name()), &picture);
            let said: Vec<_> = picture.texts.iter().map(|text| text.text.as_str()).collect();
            let (limit, worst) = (words.limit_of(check).expect("a limit"), words.worst_of(check).expect("a value"));
            assert!(said[0] == limit && said[1..].join(" ") == worst, "{said:?}");
            // The same figures as in the line of the check.
            let figure = |text: &str| text.trim_start_matches("at least ").trim_start_matches("at most ").to_owned();
            let (line, open) = (words.check_line(check), check.outcome == Outcome::NotKnown);
            assert!(open || line.contains(&figure(&limit)), "{line}: {limit}");
            assert!(words.margin_text(check).expect("words").ends_with('.'));
            drawn.set(drawn.get() + 1);
        }
    });
    assert!(drawn.get() > 2000, "{}", drawn.get());
}

#[test]
fn ticks_of_a_gauge_end_where_its_scale_does() {
    for full in [4.0, 6.0, 10.0, 16.0, 25.0, 40.0, 60.0, 100.0, 160.0, 250.0, 400.0, 600.0, 1000.0, 1600.0] {
        let scale = Scale::of(0.0, full, 8);
        assert!((scale.to - full).abs() < 1e-9, "{full}: {scale:?}");
    }
}

/// What is told apart by colour is told apart by weight or dash too: in grey, in print, and for who sees no accent.
#[test]
fn invariant_what_differs_by_colour_differs_by_weight_or_dash_too() {
    let told_apart = [
        (Stroke::Heavy, Stroke::Thin),
        (Stroke::HeavyDrain, Stroke::Drain),
        (Stroke::Heavy, Stroke::HeavyDrain),
        (Stroke::Thin, Stroke::Drain),
        (Stroke::Thin, Stroke::Dotted),
        (Stroke::Drain, Stroke::Dotted),
        (Stroke::Beyond, Stroke::Thin),
        (Stroke::Beyond, Stroke::Curve),
        (Stroke::Beyond, Stroke::Limit),
        (Stroke::Heavy, Stroke::Curve),
        (Stroke::Chain, Stroke::Drain),
        (Stroke::Chain, Stroke::Thin),
    ];
    for (one, other) in told_apart {
        let weight = one.weight().max(other.weight()) / one.weight().min(other.weight());
        assert!(weight >= 1.25 || one.dashes() != other.dashes(), "{one:?} and {other:?}");
    }
    // What is added is more than twice as heavy as what stands.
    assert!(Stroke::Heavy.weight() > 2.0 * Stroke::Thin.weight());
    // Bands are bounded by lines: `Allowed` alone would rest on its tint.
    assert!(Stroke::Allowed.fills() && Stroke::Allowed.weight() == 0.0);
}
