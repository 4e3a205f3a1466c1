//! Oil temperatures between which full speed is asked.

use crate::assume::WARMEST_START_CELSIUS;
use crate::facts::Facts;
use crate::trace::Context;
use quantity::{Quantity, ThermodynamicTemperature, Unit};
use table::AssumptionId;

/// Up to which oil temperature a machine may be idled warm: 30 °C, or from where full speed is asked where a table asks for more. What
/// would have to wait longer has the wrong oil, or too small a line.
pub fn warmest_start(facts: &Facts) -> ThermodynamicTemperature {
    let usual: ThermodynamicTemperature = facts.practice.limit(AssumptionId::WarmEnough).nominal;
    let most = ThermodynamicTemperature::from_si(Unit::Celsius.to_si(WARMEST_START_CELSIUS));
    facts.by_practice(Context::WarmestStart, if usual.si() > most.si() { usual } else { most })
}
