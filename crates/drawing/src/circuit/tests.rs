//! Every pairing of the demo table, before and after, tall and wide: measured.

use super::super::shape::{Area, Point, Stroke};
use super::sheet::round;
use super::{Form, Sheet, Symbol, circuit};
use crate::yard::{Yard, yard};
use fit::installation::State as Solved;
use fit::{Conditions, Installation, Load, Pairing, Stage};
use quantity::{Named, UnitSystem};
use table::{Carrier, ChangeId, Head};
use wording::{PlainNumbers, Words};
use workshop::schema::{Part, Schema, State, adds, sets};

/// Draws every pairing in every way, and measures.
fn each(measure: impl Fn(&str, &Sheet, (&Pairing, &Carrier, &Head), Stage)) {
    let Yard { table, pairings: judged, .. } = yard();
    let conditions = Conditions::of_table(table);
    let mut drawn = 0;
    for (index, carrier) in table.carriers.iter().enumerate() {
        for (other, head) in table.heads.iter().enumerate() {
            let pairing = &judged[index * table.heads.len() + other];
            for &stage in Stage::ALL {
                let changed = pairing.changed.as_deref().filter(|_| stage == Stage::AfterChanges).unwrap_or(carrier);
                let look = pairing.circuit.as_ref().and_then(|id| Installation::new(changed, id, head, &conditions));
                // All loads and both systems of units, in turn.
                let load = Load::ALL[(index + other) % 3];
                let units = UnitSystem::ALL[(index + other / 3) % 2];
                let words = Words { numbers: &PlainNumbers, units };
                let standing = look.map(|look| look.state(Solved::usual(load)));
                for &form in Form::ALL {
                    let sheet = circuit((pairing, carrier, head), stage, standing.as_ref(), &words, form);
                    let name = format!("{} {} {} {}", carrier.id, head.id, stage.name(), form.name());
                    measure(&name, &sheet, (pairing, carrier, head), stage);
                    drawn += 1;
                }
            }
        }
    }
    assert_eq!(drawn, judged.len() * 4);
}

fn stretches(sheet: &Sheet) -> impl Iterator<Item = (Part, Stroke, Point, Point)> {
    let of = |line: &super::Line| {
        let (part, stroke) = (line.part, line.stroke);
        line.points.windows(2).map(move |pair| (part, stroke, pair[0], pair[1])).collect::<Vec<_>>()
    };
    sheet.lines.iter().flat_map(of)
}

fn faults(sheet: &Sheet) -> Vec<String> {
    let mut found = Vec::new();
    let field = Area { left: 0.0, top: 0.0, right: sheet.width, bottom: sheet.height };
    let within = |area: Area| {
        area.left >= field.left && area.top >= field.top && area.right <= field.right && area.bottom <= field.bottom
    };
    let mut labels: Vec<(String, Area)> =
        sheet.labels.iter().map(|(part, text)| (format!("a label of {}", part.name()), text.area())).collect();
    labels.extend(sheet.rounds.iter().map(|(centre, number)| (format!("number {number}"), round(*centre))));
    let named = |symbol: &Symbol| symbol.part.name();
    for (part, _, from, to) in stretches(sheet) {
        if (from.x - to.x).abs() > 1e-6 && (from.y - to.y).abs() > 1e-6 {
            found.push(format!("a line of {} is askew", part.name()));
        }
        let (left, right) = (from.x.min(to.x), from.x.max(to.x));
        let stretch = Area { left, right, top: from.y.min(to.y), bottom: from.y.max(to.y) };
        for symbol in &sheet.symbols {
            if stretch.overlaps(symbol.area.shrunk(0.6)) {
                found.push(format!("a line of {} runs through {}", part.name(), named(symbol)));
            }
        }
        for (label, area) in &labels {
            if stretch.overlaps(*area) {
                found.push(format!("a line of {} runs through {label}", part.name()));
            }
        }
        if !within(stretch) {
            found.push(format!("a line of {} leaves the sheet", part.name()));
        }
    }
    for (index, symbol) in sheet.symbols.iter().enumerate() {
        if !within(symbol.area) {
            found.push(format!("{} leaves the sheet", named(symbol)));
        }
        for other in &sheet.symbols[..index] {
            if symbol.area.overlaps(other.area) {
                found.push(format!("{} lies over {}", named(symbol), named(other)));
            }
        }
        for (label, area) in &labels {
            if symbol.area.overlaps(*area) {
                found.push(format!("{label} lies over {}", named(symbol)));
            }
        }
    }
    for (index, (label, area)) in labels.iter().enumerate() {
        if !within(*area) {
            found.push(format!("{label} leaves the sheet"));
        }
        for (other, known) in &labels[..index] {
            if area.overlaps(*known) {
                found.push(format!("{label} lies over {other}"));
            }
        }
    }
    found
}

/// Lines that lie on each other for a stretch, and so cannot be told apart.
fn doubled(sheet: &Sheet) -> Vec<String> {
    let all: Vec<_> = stretches(sheet).collect();
    let mut found = Vec::new();
    for (index, &(part, _, a, b)) in all.iter().enumerate() {
        for &(other, _, c, d) in &all[..index] {
            let shared = |a0: f64, a1: f64, b0: f64, b1: f64| a0.max(a1).min(b0.max(b1)) - a0.min(a1).max(b0.min(b1));
            let same = |one: f64, other: f64| (one - other).abs() < 1e-6;
            let upright =
                same(a.x, b.x) && same(c.x, d.x) && (a.x - c.x).abs() < 3.0 && shared(a.y, b.y, c.y, d.y) > 1.0;
            let level = same(a.y, b.y) && same(c.y, d.y) && (a.y - c.y).abs() < 3.0 && shared(a.x, b.x, c.x, d.x) > 1.0;
            if upright || level {
                found.push(format!("{} runs along {}", part.name(), other.name()));
            }
        }
    }
    found
}

#[test]
fn invariant_in_a_circuit_nothing_lies_over_anything_and_all_is_on_the_sheet() {
    let seen = std::cell::RefCell::new(std::collections::BTreeMap::<String, (usize, String)>::new());
    each(|name, sheet, _, _| {
        let form = name.rsplit(' ').next().unwrap_or_default();
        // A phone scrolls down only; a desk shows nearly all at once.
        let fits = if form == "tall" { (sheet.width - 328.0).abs() < 1e-9 } else { sheet.width < 1300.0 };
        assert!(fits && sheet.height < 1300.0, "{name}: {} by {}", sheet.width, sheet.height);
        for fault in faults(sheet).into_iter().chain(doubled(sheet)) {
            let fault = format!("{form}: {fault}");
            seen.borrow_mut().entry(fault).or_insert_with(|| (0, name.to_owned())).0 += 1;
        }
    });
    let seen = seen.into_inner();
    let told: Vec<_> = seen.iter().map(|(fault, (count, first))| format!("{count} × {fault} ({first})")).collect();
    assert!(told.is_empty(), "{}", told.join("\n"));
}

/// What a schema says is there is drawn, and nothing else.
#[test]
fn invariant_every_part_that_is_stated_is_drawn_once_and_no_other() {
    each(|name, sheet, (pairing, carrier, head), stage| {
        let (before, after) = Schema::of_pairing(pairing, carrier, head);
        let schema = if stage == Stage::AfterChanges { after.unwrap_or(before) } else { before };
        for &part in Part::ALL {
            let symbols = sheet.symbols.iter().filter(|symbol| symbol.part == part).count();
            let lines = sheet.lines.iter().filter(|line| line.part == part && line.stroke != Stroke::Chain).count();
            let wanted = match part {
                // The trough, and one for each drain that ends by itself.
                Part::Tank => symbols.max(1),
                Part::Pump => schema.pumps.min(2),
                Part::Couplings | Part::ShutOff | Part::Diverter => 2,
                Part::SupplyLine | Part::ReturnLine | Part::Demand => 0,
                _ => 1,
            };
            let there = schema.has(part);
            assert_eq!(symbols, if there { wanted } else { 0 }, "{name}: {}", part.name());
            if there && wanted == 0 {
                assert!(lines > 0, "{name}: no line of {}", part.name());
            }
            let state = schema.get(part).map(|fitted| fitted.state);
            assert!(
                sheet.symbols.iter().all(|s| s.part != part || s.part == Part::Tank || Some(s.state) == state),
                "{name}"
            );
        }
    });
}

/// A change that adds a part is drawn heavy with its number, and the legend has that number.
#[test]
fn invariant_every_change_is_drawn_heavy_and_numbered_where_it_is_made() {
    let seen = std::cell::RefCell::new(std::collections::BTreeSet::new());
    each(|name, sheet, (pairing, ..), stage| {
        if stage == Stage::AsItIs {
            assert!(sheet.rounds.is_empty(), "{name}: numbers on a machine without changes");
            let heavy = |stroke: Stroke| matches!(stroke, Stroke::Heavy | Stroke::HeavyDrain | Stroke::HeavySolid);
            assert!(!sheet.lines.iter().any(|line| heavy(line.stroke)), "{name}");
            return;
        }
        for (index, change) in pairing.changes.iter().enumerate() {
            let written = sheet.rounds.iter().filter(|(_, number)| *number == index + 1).count();
            let added = adds(change);
            for part in added {
                let symbols = sheet.symbols.iter().filter(|symbol| symbol.part == *part);
                let marked =
                    symbols.clone().all(|symbol| symbol.state == State::Added && symbol.numbers.contains(&(index + 1)));
                let line = |line: &&super::Line| {
                    line.part == *part && matches!(line.stroke, Stroke::Heavy | Stroke::HeavyDrain)
                };
                assert!(
                    marked && (symbols.count() > 0 || sheet.lines.iter().any(|l| line(&l))),
                    "{name}: {:?}",
                    change.id
                );
                seen.borrow_mut().insert(change.id.name());
            }
            let drawn =
                !added.is_empty() || sets(change.id).is_some_and(|part| sheet.symbols.iter().any(|s| s.part == part));
            // Once in the legend, and at each part.
            assert_eq!(written > 1, drawn, "{name}: {:?} is written {written} times", change.id);
        }
    });
    let adding = ChangeId::ALL.iter().filter(|change| {
        sets(**change).is_none() && !matches!(change, ChangeId::Harness | ChangeId::Guarding | ChangeId::MountingKit)
    });
    let missed: Vec<_> = adding.filter(|change| !seen.borrow().contains(change.name())).map(|c| c.name()).collect();
    assert!(missed.is_empty(), "never drawn: {missed:?}");
}

/// What stands before and after keeps its place, so that one may lie over the other.
#[test]
fn invariant_what_stands_before_and_after_keeps_its_place() {
    let Yard { table, pairings: judged, .. } = yard();
    let words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };
    let mut kept = 0;
    for (index, carrier) in table.carriers.iter().enumerate() {
        for (other, head) in table.heads.iter().enumerate() {
            let pairing = &judged[index * table.heads.len() + other];
            for &form in Form::ALL {
                let [before, after] = [Stage::AsItIs, Stage::AfterChanges]
                    .map(|stage| circuit((pairing, carrier, head), stage, None, &words, form));
                for part in [Part::Motor, Part::Couplings, Part::Spool, Part::MachineFilter, Part::Tank] {
                    let place = |sheet: &Sheet| sheet.symbols.iter().find(|s| s.part == part).map(|s| s.area);
                    let (Some(one), Some(other)) = (place(&before), place(&after)) else { continue };
                    assert!(
                        (one.top - other.top).abs() < 0.1 && (one.left - other.left).abs() < 0.1,
                        "{} {}: {part:?}",
                        carrier.id,
                        head.id
                    );
                    kept += 1;
                }
            }
        }
    }
    assert!(kept > 2000, "{kept}");
}
