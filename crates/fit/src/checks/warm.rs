//! Oil temperatures between which full speed is asked.

use crate::assume::WARMEST_START_CELSIUS;
use crate::facts::Facts;
use crate::trace::{Context, From, Given};
use quantity::{Amount, Kind, ThermodynamicTemperature, Unit};
use table::AssumptionId;

/// The oil temperature from which full speed is asked: that of practice, or the one to which the machine is idled warm.
pub fn warm_enough(facts: &Facts) -> ThermodynamicTemperature {
    let usual: ThermodynamicTemperature = facts.practice.limit(AssumptionId::WarmEnough).nominal;
    let own = facts.circuit.warm_up.map(|stated| stated.nominal);
    own.filter(|own| own.si() > usual.si()).unwrap_or(usual)
}

/// Up to which oil temperature a machine may be idled warm: 30 °C, or from where full speed is asked where a table asks for more. What
/// would have to wait longer has the wrong oil, or too small a line.
pub fn warmest_start(facts: &Facts) -> ThermodynamicTemperature {
    let usual: ThermodynamicTemperature = facts.practice.limit(AssumptionId::WarmEnough).nominal;
    let most = ThermodynamicTemperature::from_si(Unit::Celsius.to_si(WARMEST_START_CELSIUS));
    let most = if usual.si() > most.si() { usual } else { most };
    facts.see_context(Context::WarmestStart, Given(Amount::of(most), From::Practice));
    most
}
