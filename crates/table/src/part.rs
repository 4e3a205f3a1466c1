//! What changes use in a dealer's shop, and typical ranges that a dealer knows better.

use super::{AssumptionId, CarrierClass, ChangeId, CouplingStandard, ExtraValve, Id, LineStandard, MotorKind, bounds};
use quantity::{Amount, Length, Pressure, Stated, ThermalConductance, Time, VolumeRate, text};
use serde::Serialize;

/// An amount of money in minor units of the table's currency, written `1240.50`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money(u64);

impl Money {
    /// From minor units (cents).
    pub fn from_minor(minor: u64) -> Self {
        Self(minor)
    }

    /// In minor units (cents).
    pub fn minor(self) -> u64 {
        self.0
    }

    /// The amount with this text: digits, or digits with a point and two decimals; up to 99 999 999.99.
    pub fn new(text: &str) -> Option<Self> {
        let (whole, cents) = text.split_once('.').unwrap_or((text, "00"));
        let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
        if !digits(whole) || !digits(cents) || cents.len() != 2 || whole.len() > 8 {
            return None;
        }
        Some(Self(whole.parse::<u64>().ok()? * 100 + cents.parse::<u64>().ok()?))
    }
}

impl std::fmt::Display for Money {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}.{:02}", self.0 / 100, self.0 % 100)
    }
}

impl Serialize for Money {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// An ISO 4217 currency code: three capital letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency([u8; 3]);

impl Currency {
    /// The code with this text.
    pub fn new(text: &str) -> Option<Self> {
        let bytes: [u8; 3] = text.as_bytes().try_into().ok()?;
        bytes.iter().all(u8::is_ascii_uppercase).then_some(Self(bytes))
    }

    /// Its three letters.
    pub fn as_str(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or("")
    }
}

impl Serialize for Currency {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.as_str())
    }
}

/// What one change uses: a part with its own figures, price and hours.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Part {
    /// Unique among the parts.
    pub id: Id,
    /// For which change.
    pub change: ChangeId,
    /// What it is called.
    pub name: String,
    /// By which coupling standard, of couplings.
    pub coupling: Option<CouplingStandard>,
    /// Of which line standard, of hoses.
    pub standard: Option<LineStandard>,
    /// Which valve, of a circuit for a door.
    pub valve: Option<ExtraValve>,
    /// Heat carried away per kelvin, of a cooler.
    pub conductance: Option<Stated<ThermalConductance>>,
    /// Inner diameter of the lines that come with it.
    pub bore: Option<Stated<Length>>,
    /// Rated flow.
    pub rated_flow: Option<Stated<VolumeRate>>,
    /// Rated pressure.
    pub rated_pressure: Option<Stated<Pressure>>,
    /// Pressure lost in it at its rated flow.
    pub loss: Option<Stated<Pressure>>,
    /// Pressure at which a filter's bypass opens.
    pub bypass: Option<Stated<Pressure>>,
    /// Price without labour.
    pub price: Option<Money>,
    /// Time in the workshop.
    pub time: Option<Stated<Time>>,
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
