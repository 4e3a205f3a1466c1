//! Reference tests: figures that others have published, asserted as printed and within their printed rounding.
//!
//! One test per figure or table row; each names its source. `README.md` beside this file lists the sources, the
//! deviations and the gaps. Figures from memory stand apart in `from_memory`, arithmetic of our own in `own`.

mod counts;
mod formulas;
mod from_memory;
mod heat;
mod lines;
mod motors;
mod oils;
mod own;
mod pumps;
mod rotors;
mod traps;
mod units;
mod whole_circuits;

use hydraulics::{Motor, OilCurve};
pub(crate) use quantity::shop::celsius;
use quantity::{Displacement, Quantity, Unit};
use table::OilGrade;

fn of<Q: Quantity>(value: f64, unit: Unit) -> Q {
    assert_eq!(unit.dimension(), Q::DIMENSION);
    Q::from_si(unit.to_si(value))
}

fn to<Q: Quantity>(quantity: Q, unit: Unit) -> f64 {
    assert_eq!(unit.dimension(), Q::DIMENSION);
    unit.of_si(quantity.si())
}

/// Asserts a printed figure: the computed one rounds to it, give or take half a unit of its last printed digit.
#[track_caller]
fn printed(computed: f64, figure: f64, last_digit: f64) {
    assert!(
        (computed - figure).abs() <= last_digit / 2.0 * (1.0 + 1e-9),
        "computed {computed}, printed {figure} (last digit {last_digit})"
    );
}

fn motor(displacement: Displacement) -> Motor {
    Motor { displacement, volumetric: 1.0, hydromechanical: 1.0, ratio: 1.0 }
}

fn vg46() -> OilCurve {
    OilCurve::of_grade(OilGrade::Vg46)
}
