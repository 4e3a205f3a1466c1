//! Figures of standards **from memory**, not re-read: the hose ratings of EN 853:2015, EN 856:2015 and SAE J517, the densities
//! of ASTM D1250. They are counted apart from the published ones.

use crate::{celsius, of, printed, to};
use fit::lift::Loader;
use hydraulics::coupling::rated_flow;
use hydraulics::hose::rated_pressure;
use hydraulics::oil::density;
use quantity::{Length, Pressure, Quantity, Ratio, Unit};
use table::{CouplingStandard, LineStandard};

pub(crate) fn hose(standard: LineStandard, dash: u8) -> Option<f64> {
    // A dash is a sixteenth of an inch.
    rated_pressure(standard, of(f64::from(dash) / 16.0, Unit::Inch)).map(|bar| to(bar, Unit::Bar))
}

/// From memory: EN 853 and EN 856 by dash size.
#[test]
fn hoses_bear_less_the_larger_they_are() {
    let rows: [(LineStandard, [f64; 7]); 3] = [
        (LineStandard::En1sn, [180.0, 160.0, 130.0, 105.0, 88.0, 63.0, 50.0]),
        (LineStandard::En2sn, [330.0, 275.0, 250.0, 215.0, 165.0, 125.0, 90.0]),
        (LineStandard::En4sp, [445.0, 415.0, 350.0, 350.0, 280.0, 210.0, 185.0]),
    ];
    for (standard, row) in rows {
        for (dash, bar) in [6, 8, 10, 12, 16, 20, 24].into_iter().zip(row) {
            assert_eq!(hose(standard, dash), Some(bar), "{standard:?} -{dash}");
        }
    }
}

/// A standard that has no small hose rates none; between two sizes the larger one counts; nothing is rated beyond.
#[test]
fn sizes_that_a_standard_does_not_have() {
    assert_eq!(hose(LineStandard::En4sh, 8), None);
    assert_eq!(hose(LineStandard::En4sh, 12), Some(420.0));
    let between = rated_pressure(LineStandard::En2sn, of(14.0, Unit::Millimetre)).expect("a rating");
    printed(to(between, Unit::Bar), 250.0, 1e-9);
    assert_eq!(rated_pressure(LineStandard::En2sn, of(60.0, Unit::Millimetre)), None);
    assert_eq!(rated_pressure(LineStandard::Tube, of(12.7, Unit::Millimetre)), None);
}

/// ASTM D1250 for lubricating oils (from memory) gives 841.49 kg/m³ at 60 °C for 870 at 15 °C: our linear rule is within
/// 0.25 %.
#[test]
fn density_near_astm_d1250() {
    for (t, astm) in [(0.0, 879.39), (20.0, 866.86), (40.0, 854.22), (60.0, 841.49), (80.0, 828.68)] {
        let rho = to(density(celsius(t)), Unit::KilogramPerCubicMetre);
        assert!((rho / astm - 1.0).abs() < 0.0025, "{t} °C: {rho} against {astm}");
    }
}

/// From memory: a catalogue's psi for 2SN (4800, 4000, 3600, 3100, 2400, 1800, 1300) are EN 853's bar, rounded.
#[test]
fn psi_of_a_catalogue_are_the_bar_of_the_standard() {
    let catalogue = [(6, 4800.0), (8, 4000.0), (10, 3600.0), (12, 3100.0), (16, 2400.0), (20, 1800.0), (24, 1300.0)];
    for (dash, psi) in catalogue {
        let bar = to(of::<Pressure>(psi, Unit::Psi), Unit::Bar);
        let ours = hose(LineStandard::En2sn, dash).expect("a size");
        assert!((ours / bar - 1.0).abs() < 0.015, "-{dash}: {ours} against {bar}");
    }
}

/// From secondary pages: a tipping load of 4800 lb is 2400 lb of rated operating capacity at 50 %, 7000 lb is 2450 lb at 35 %
/// (SAE J818, ISO 14397-1; the tables themselves were not read).
#[test]
fn rated_operating_capacity_of_a_tipping_load() {
    let at = Length::from_si(0.4);
    for (pounds, share, rated) in [(4800.0, 0.50, 2400.0), (7000.0, 0.35, 2450.0)] {
        let tipping_load = of(pounds, Unit::Pound);
        let loader = Loader { tipping_load, share: Ratio::from_si(share), coupler: Length::from_si(0.8), bucket: at };
        printed(to(loader.carries(at), Unit::Pound), rated, 1e-6);
    }
}

/// From memory: EN 856 gives 4SH of 31.5 mm 325 bar in its edition of 1996 and 350 in that of 2015. The smaller one holds.
#[test]
fn of_two_editions_the_smaller_pressure_holds() {
    let row = [(12, 420.0), (16, 380.0), (20, 325.0), (24, 290.0), (32, 250.0)];
    for (dash, bar) in row {
        assert_eq!(hose(LineStandard::En4sh, dash), Some(bar), "-{dash}");
    }
}

/// From memory: a flush-face coupling of size 19 by ISO 16028 passes 100 L/min, the screwed one of ISO 14541 106.
#[test]
fn of_two_rated_flows_of_a_coupling_the_smaller_holds() {
    let passes = |standard| to(rated_flow(standard, of(19.0, Unit::Millimetre)).expect("a size"), Unit::LitrePerMinute);
    printed(passes(CouplingStandard::Iso16028), 100.0, 1e-9);
    printed(passes(CouplingStandard::Iso14541), 106.0, 1e-9);
}
