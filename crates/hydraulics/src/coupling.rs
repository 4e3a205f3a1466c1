//! What a quick-action coupling of a standard bears and passes, by its nominal size.
//!
//! ISO 14541 (screwed): its table, as reproduced by a maker of such couplings. ISO 16028 (flush face): 200 to 315 bar over
//! its sizes, and rated flows **from memory**; its table of pressures by size was not at hand. ISO 7241: rated flows **from
//! memory**; its pressures by size were not at hand, and nothing is promised.

use quantity::shop::{bar, litres};
use quantity::{Length, Pressure, Quantity, Unit, VolumeRate};
use table::CouplingStandard;

/// What a standard says that a coupling bears.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rating {
    /// The greatest pressure of this size.
    OfSize(Pressure),
    /// All of the standard lie between these.
    Between {
        /// None bears less.
        least: Pressure,
        /// None is promised more.
        greatest: Pressure,
    },
}

/// ISO 14541: nominal size mm, greatest pressure coupled bar, rated flow L/min.
const SCREWED: [(f64, f64, f64); 4] =
    [(6.3, 350.0, 12.0), (10.0, 300.0, 23.0), (12.5, 300.0, 45.0), (20.0, 250.0, 106.0)];

/// ISO 16028: the rated flow of size 19 (written 20 here), L/min. From memory 100 in one table and 106, that of the screwed coupling, in
/// another: the smaller one is safe.
const FLUSH_FACE_19: f64 = 100.0;

/// ISO 16028 (but for size 19) and ISO 7241: nominal size mm, rated flow L/min; from memory.
const FLOWS: [(f64, f64); 6] = [(6.3, 12.0), (10.0, 23.0), (12.5, 45.0), (16.0, 74.0), (20.0, 106.0), (25.0, 189.0)];

/// Sizes are written as bores of hoses and as nominal sizes: 19.05 and 20 mm are one.
fn is_size(size: Length, millimetres: f64) -> bool {
    (Unit::Millimetre.of_si(size.si()) - millimetres).abs() <= 1.0
}

/// What a coupling of a standard bears, where nothing else is known of it.
///
/// ```
/// use hydraulics::coupling::{Rating, rating};
/// use quantity::{Quantity, Length};
/// use table::CouplingStandard;
/// use quantity::shop::bar;
/// // A screwed coupling of 20 mm: 250 bar, whatever the hose bears.
/// let size = Length::from_si(0.020);
/// assert_eq!(rating(CouplingStandard::Iso14541, Some(size)), Rating::OfSize(bar(250.0)));
/// assert_eq!(
///     rating(CouplingStandard::Iso16028, Some(size)),
///     Rating::Between { least: bar(200.0), greatest: bar(315.0) },
/// );
/// ```
pub fn rating(standard: CouplingStandard, size: Option<Length>) -> Rating {
    match standard {
        CouplingStandard::Iso14541 => {
            let of_size = size.and_then(|size| SCREWED.iter().find(|(known, ..)| is_size(size, *known)));
            of_size
                .map_or(Rating::Between { least: bar(250.0), greatest: bar(350.0) }, |row| Rating::OfSize(bar(row.1)))
        }
        CouplingStandard::Iso16028 => Rating::Between { least: bar(200.0), greatest: bar(315.0) },
        CouplingStandard::Iso7241A | CouplingStandard::Iso7241B => {
            Rating::Between { least: bar(0.0), greatest: bar(350.0) }
        }
    }
}

/// The rated flow of a coupling of a standard and size; none for a size that the standard does not have.
///
/// ```
/// use hydraulics::coupling::rated_flow;
/// use quantity::{Quantity, Length, Unit};
/// use table::CouplingStandard;
/// let flow = rated_flow(CouplingStandard::Iso14541, Length::from_si(0.01905)).expect("a size");
/// assert!((Unit::LitrePerMinute.of_si(flow.si()) - 106.0).abs() < 1e-9);
/// let flow = rated_flow(CouplingStandard::Iso16028, Length::from_si(0.01905)).expect("a size");
/// assert!((Unit::LitrePerMinute.of_si(flow.si()) - 100.0).abs() < 1e-9);
/// ```
pub fn rated_flow(standard: CouplingStandard, size: Length) -> Option<VolumeRate> {
    match standard {
        CouplingStandard::Iso14541 => SCREWED.iter().find(|(known, ..)| is_size(size, *known)).map(|row| litres(row.2)),
        CouplingStandard::Iso16028 | CouplingStandard::Iso7241A | CouplingStandard::Iso7241B => {
            let row = FLOWS.iter().find(|(known, _)| is_size(size, *known))?;
            let flush_face_19 = standard == CouplingStandard::Iso16028 && is_size(size, 20.0);
            Some(litres(if flush_face_19 { FLUSH_FACE_19 } else { row.1 }))
        }
    }
}
