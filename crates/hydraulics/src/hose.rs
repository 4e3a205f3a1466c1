//! What a hose of a standard is rated for, by its size.
//!
//! EN 853:2015 (1SN, 2SN), EN 856:2015 (4SP; 4SH but for one size, see there) and SAE J517 (100R12, R13, R15), all **from memory**; a catalogue may
//! promise more. (Hose by ISO 18752 has one pressure for all sizes: its class is its rating, and is stated as such.) The rating falls with the bore: a single figure for a kind of hose holds only at its smallest size. An
//! assembly bears what its weakest part bears (SAE J517).

use quantity::{Length, Pressure, Quantity, Unit};
use table::LineStandard;

/// Bores of whole hose sizes, mm: dash 4, 6, 8, 10, 12, 16, 20, 24 and 32 (sixteenths of an inch).
const SIZES: [f64; 9] = [6.35, 9.525, 12.7, 15.875, 19.05, 25.4, 31.75, 38.1, 50.8];

/// Greatest working pressures by size, bar; zero where the standard has no such size.
fn ratings(standard: LineStandard) -> Option<[f64; 9]> {
    match standard {
        LineStandard::En1sn => Some([225.0, 180.0, 160.0, 130.0, 105.0, 88.0, 63.0, 50.0, 40.0]),
        LineStandard::En2sn => Some([400.0, 330.0, 275.0, 250.0, 215.0, 165.0, 125.0, 90.0, 80.0]),
        LineStandard::En4sp => Some([450.0, 445.0, 415.0, 350.0, 350.0, 280.0, 210.0, 185.0, 165.0]),
        // 31.5 mm (dash 20): 325 bar by EN 856:1996, 350 by EN 856:2015, both from memory. A hose's print does not say by which it was
        // made: the smaller one.
        LineStandard::En4sh => Some([0.0, 0.0, 0.0, 0.0, 420.0, 380.0, 325.0, 290.0, 250.0]),
        LineStandard::SaeR12 => Some([0.0, 275.0, 275.0, 275.0, 275.0, 275.0, 210.0, 175.0, 175.0]),
        LineStandard::SaeR13 => Some([0.0, 0.0, 0.0, 0.0, 345.0, 345.0, 345.0, 345.0, 345.0]),
        LineStandard::SaeR15 => Some([0.0, 420.0, 420.0, 420.0, 420.0, 420.0, 420.0, 420.0, 420.0]),
        // Depends on wall and steel.
        LineStandard::Tube => None,
    }
}

/// The greatest working pressure of a hose of a standard and bore. Between two sizes that of the larger one, which is
/// lower. None for tube, for a bore beyond the largest size, and where the standard has no hose so small.
///
/// ```
/// use hydraulics::hose::rated_pressure;
/// use quantity::{Quantity, Length, Unit};
/// use table::LineStandard;
/// let bar = |mm| rated_pressure(LineStandard::En2sn, Length::from_si(mm / 1000.0)).map(|p| Unit::Bar.of_si(p.si()));
/// assert_eq!(bar(12.7), Some(275.0));
/// // A larger hose of the same kind bears less.
/// assert_eq!(bar(25.4), Some(165.0));
/// ```
pub fn rated_pressure(standard: LineStandard, bore: Length) -> Option<Pressure> {
    let millimetres = Unit::Millimetre.of_si(bore.si());
    // Bores are written with and without their second decimal.
    let size = SIZES.iter().position(|size| millimetres <= size + 0.1)?;
    let bar = ratings(standard)?[size];
    (bar > 0.0).then(|| Pressure::from_si(Unit::Bar.to_si(bar)))
}
