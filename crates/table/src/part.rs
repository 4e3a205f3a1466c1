//! What changes use in a dealer's shop, and typical ranges that a dealer knows better.

use super::bounds;
use super::read::{Field, Node, Value, entry};
use super::{
    AssumptionId, CarrierClass, ChangeId, CouplingStandard, ExtraValve, Id, LineStandard, Money, MotorKind, Port,
};
use quantity::{Amount, Length, Pressure, Range, Stated, ThermalConductance, Time, VolumeRate, text};
use serde::Serialize;

entry! {
    /// What one change uses: a part with its own figures, price and hours.
    pub struct Part {
        /// Unique among the parts.
        id: Id,
        /// For which change.
        change: ChangeId,
        /// What it is called.
        name: String,
        /// By which coupling standard, of couplings.
        coupling: Option<CouplingStandard>,
        /// Of which line standard, of hoses.
        standard: Option<LineStandard>,
        /// Which valve, of a circuit for a door.
        valve: Option<ExtraValve>,
        /// Heat carried away per kelvin, of a cooler.
        conductance: Option<Stated<ThermalConductance>> as CONDUCTANCE,
        /// Inner diameter of the lines that come with it.
        bore: Option<Stated<Length>> as BORE,
        /// Rated flow.
        rated_flow: Option<Stated<VolumeRate>> as FLOW,
        /// Rated pressure.
        rated_pressure: Option<Stated<Pressure>> as RATING,
        /// Pressure lost in it at its rated flow.
        loss: Option<Stated<Pressure>> as LOSS,
        /// Pressure at which a filter's bypass opens.
        bypass: Option<Stated<Pressure>> as BYPASS,
        /// Its number in the stores.
        number: Option<String> => "your own books",
        /// Thread or flange at the end where the oil comes in.
        inlet: Option<Port>,
        /// Thread or flange at the end where the oil goes out.
        outlet: Option<Port>,
        /// What the hoses that come with it end in.
        hose_ends: Option<Port>,
        /// Whether whip restraints come with its hoses.
        whip_restraints: Option<bool>,
        /// Whether a cock comes with it, of a case drain: it is locked open while an attachment is connected.
        cock: Option<bool>,
        /// The least flow at which it still holds what it is set to, of a divider or regulator.
        least_flow: Option<Stated<VolumeRate>> as SMALL_FLOW,
        /// Price without labour.
        price: Option<Money>,
        /// Time in the workshop.
        time: Option<Stated<Time>> as TIME,
    }
}

/// A typical range that this table's publisher uses instead of the built-in one.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumption {
    /// Which figure.
    pub id: AssumptionId,
    /// For which class of carriers; for all when absent.
    pub class: Option<CarrierClass>,
    /// For which kind of motor; for all when absent.
    pub motor: Option<MotorKind>,
    /// The least value.
    pub low: Amount,
    /// The likeliest value: the middle.
    pub nominal: Amount,
    /// The greatest value.
    pub high: Amount,
}

impl Serialize for Assumption {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeStruct;
        let mut assumption = serializer.serialize_struct("Assumption", 4)?;
        assumption.serialize_field("id", &self.id)?;
        assumption.serialize_field("class", &self.class)?;
        assumption.serialize_field("motor", &self.motor)?;
        let unit = bounds::of_assumption(self.id).unit;
        assumption.serialize_field("range", &text::write_amounts(self.low, self.high, unit))?;
        assumption.end()
    }
}

impl Value for Assumption {
    fn of(node: Node, _: &Field) -> Option<Self> {
        let object = node.object()?;
        let id: Option<AssumptionId> = Value::read(&object, &Field::plain("id"));
        let (class, motor) = (object.plain("class"), object.plain("motor"));
        let range = object.required("range");
        object.warn_of_unknown_fields();
        // Without the id nobody knows what the range measures.
        let (id, range) = (id?, range?);
        let Range { low, high, .. } = range.range(id.dimension(), bounds::of_assumption(id))?;
        Some(Self { id, class, motor, low, nominal: low.midpoint(high), high })
    }
}
