//! What each change uses, takes and costs: the table's parts, else the workshop's usual hours.

use super::slot::Slot;
use crate::{Conditions, Price};
use quantity::{Length, Named, Pressure, Quantity, Stated, ThermalConductance, Unit, VolumeRate};
use table::{Carrier, ChangeId, CouplingStandard, ExtraValve, Id, LineStandard, Money, Part};

/// One way to make a change.
#[derive(Clone, Debug, PartialEq)]
pub struct ChangeOption {
    /// Which change.
    pub id: ChangeId,
    /// The part of the table.
    pub part: Option<Id>,
    /// Inner diameter of new lines, size of couplings.
    pub bore: Option<Length>,
    /// Rated flow.
    pub rated_flow: Option<Stated<VolumeRate>>,
    /// Rated pressure.
    pub rated_pressure: Option<Stated<Pressure>>,
    /// Loss at the rated flow.
    pub loss: Option<Stated<Pressure>>,
    /// At which a filter's bypass opens.
    pub bypass: Option<Stated<Pressure>>,
    /// Of hoses.
    pub standard: Option<LineStandard>,
    /// Of couplings.
    pub coupling: Option<CouplingStandard>,
    /// Of a circuit for a door.
    pub valve: Option<ExtraValve>,
    /// Of a cooler.
    pub conductance: Option<Stated<ThermalConductance>>,
    /// Whether a port is made in the tank besides, of which its minutes then hold the time.
    pub tank_port: bool,
    /// Workshop minutes.
    pub minutes: u32,
    /// Part and labour in minor units, when both are priced.
    pub price: Option<u64>,
}

/// Whether one size is at most another, both stated or neither.
fn at_most<Q: Quantity>(one: Option<Q>, other: Option<Q>) -> bool {
    one.is_some() == other.is_some() && one.zip(other).is_none_or(|(one, other)| one.si() <= other.si())
}

fn nominal<Q: Quantity>(stated: Option<Stated<Q>>) -> Option<Q> {
    stated.map(|stated| stated.nominal)
}

/// All options of a shop, cheapest first in each slot.
#[derive(Clone, Debug, PartialEq)]
pub struct Catalogue {
    options: Vec<ChangeOption>,
    currency: Option<String>,
    /// Whether every option is priced, so that sets are compared by money rather than by minutes.
    pub priced: bool,
}

/// What a shop usually takes for a change, in workshop minutes: least, likeliest, most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UsualTime {
    /// The least.
    pub least: u32,
    /// The likeliest: what is reckoned with where the table's parts say nothing.
    pub likely: u32,
    /// The most.
    pub most: u32,
}

/// Workshop time of a change (common practice, no published source), used where the table's parts give none. Where least and most are
/// the likeliest, practice names no range.
pub fn usual_time(change: ChangeId) -> UsualTime {
    let of = |least, likely, most| UsualTime { least, likely, most };
    match change {
        ChangeId::MachineFlowSetting | ChangeId::EngineSpeed | ChangeId::WarmUp => of(12, 18, 30),
        ChangeId::ReliefSetting | ChangeId::ReverseLock => of(18, 30, 60),
        ChangeId::Couplings => of(30, 60, 90),
        // A relief that is fitted into a port; a divider that is set with a flow tester in the line.
        ChangeId::ToolRelief | ChangeId::ReturnRelief | ChangeId::DividerRelief | ChangeId::DividerFlow => {
            of(30, 60, 120)
        }
        // The most with a relief across the motor besides.
        ChangeId::MakeUpCheck => of(60, 60, 120),
        ChangeId::HoseClass => of(30, 90, 180),
        ChangeId::ReturnFilter | ChangeId::FlowLimit => of(90, 120, 240),
        // A vent with its drain, a valve with its pilot line.
        ChangeId::MountingKit | ChangeId::DividerVent | ChangeId::UnloadValve => of(60, 120, 240),
        ChangeId::OwnRelief => of(60, 120, 180),
        ChangeId::DemandSignal => of(60, 120, 300),
        ChangeId::OilChange => of(120, 120, 120),
        ChangeId::CaseLine => of(120, 180, 360),
        ChangeId::IsolateTool | ChangeId::DoorCircuit => of(120, 180, 300),
        ChangeId::Guarding => of(120, 180, 480),
        ChangeId::Harness => of(120, 240, 600),
        ChangeId::SupplyLine | ChangeId::ReturnLine => of(180, 300, 600),
        ChangeId::FilterReturn => of(240, 360, 600),
        ChangeId::DirectReturn => of(300, 480, 840),
        ChangeId::Cooler => of(300, 480, 960),
        // Two dividers with their checks, 12 h (8 to 20), and the relief on the port, 1 h (0.5 to 2).
        ChangeId::PriorityShare => of(510, 780, 1320),
    }
}

/// What a shop usually takes to make a port in a tank: drained, cleaned, a boss below the oil's level (common practice, no published
/// source).
pub const TANK_PORT: UsualTime = UsualTime { least: 60, likely: 120, most: 240 };

/// Whether a change leads oil into a port of the tank that a machine may have to spare. A case drain's usual time holds its port.
fn takes_a_tank_port(id: ChangeId) -> bool {
    id == ChangeId::DirectReturn
}

impl ChangeOption {
    /// Whether it is the option for this machine: with a port made in the tank where none to spare is stated, else without.
    pub fn suits(&self, carrier: &Carrier) -> bool {
        let spare = carrier.tank.as_ref().is_some_and(|tank| tank.spare_port.is_some());
        self.tank_port == (takes_a_tank_port(self.id) && !spare)
    }

    /// Whether it is the same part in a smaller size: no size of it is larger, and all that is no size is alike.
    pub fn is_smaller_than(&self, other: &Self) -> bool {
        let kind = |option: &Self| {
            (option.id, option.tank_port, option.standard, option.coupling, option.valve, option.bypass)
        };
        let sizes = [
            at_most(self.bore, other.bore),
            at_most(nominal(self.rated_flow), nominal(other.rated_flow)),
            at_most(nominal(self.rated_pressure), nominal(other.rated_pressure)),
            at_most(nominal(self.conductance), nominal(other.conductance)),
            at_most(nominal(other.loss), nominal(self.loss)),
        ];
        kind(self) == kind(other) && sizes.iter().all(|at_most| *at_most) && self != other
    }
}

impl Catalogue {
    /// The options of a shop.
    pub fn of(conditions: &Conditions) -> Self {
        let mut options = Vec::new();
        for &id in ChangeId::ALL {
            let parts: Vec<_> = conditions.parts.iter().filter(|part| part.change == id).collect();
            let ports: &[bool] = if takes_a_tank_port(id) { &[false, true] } else { &[false] };
            for &port in ports {
                if parts.is_empty() {
                    options.extend(usual_options(id, port, conditions.labour_rate));
                } else {
                    options.extend(parts.iter().map(|part| of_part(part, port, conditions.labour_rate)));
                }
            }
        }
        let priced = conditions.currency.is_some() && options.iter().all(|option| option.price.is_some());
        let currency = conditions.currency.map(|currency| currency.as_str().to_owned());
        Self { options, currency, priced }
    }

    /// The options that fill a slot.
    pub fn of_slot(&self, slot: Slot) -> impl Iterator<Item = &ChangeOption> {
        self.options.iter().filter(move |option| Slot::of(option.id) == slot)
    }

    /// The cost by which sets are compared: minor currency units where everything is priced, else minutes.
    pub fn cost(&self, option: &ChangeOption) -> u64 {
        match option.price {
            Some(price) if self.priced => price,
            _ => u64::from(option.minutes),
        }
    }

    /// An amount in the shop's currency.
    pub fn price(&self, minor: Option<u64>) -> Option<Price> {
        Some(Price { amount: Money::from_minor(minor?), currency: self.currency.clone()? })
    }
}

/// What workshop time costs at a rate for the hour, in minor units, a begun one counted whole.
pub fn labour(rate: Option<Money>, minutes: u32) -> Option<u64> {
    Some((rate?.minor() * u64::from(minutes)).div_ceil(60))
}

fn plain(id: ChangeId, minutes: u32) -> ChangeOption {
    ChangeOption {
        id,
        part: None,
        bore: None,
        rated_flow: None,
        rated_pressure: None,
        loss: None,
        bypass: None,
        standard: None,
        coupling: None,
        valve: None,
        conductance: None,
        tank_port: false,
        minutes,
        price: None,
    }
}

fn of_part(part: &Part, tank_port: bool, rate: Option<Money>) -> ChangeOption {
    let minutes = part.time.as_ref().map_or_else(
        || usual_time(part.change).likely,
        |time| {
            let minutes = Unit::Minute.of_si(time.nominal.si()).round().clamp(0.0, 1e6);
            // Clamped to a small whole number just before.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let minutes = minutes as u32;
            minutes
        },
    );
    let minutes = minutes + if tank_port { TANK_PORT.likely } else { 0 };
    ChangeOption {
        tank_port,
        part: Some(part.id.clone()),
        bore: part.bore.as_ref().map(|bore| bore.nominal),
        rated_flow: part.rated_flow,
        rated_pressure: part.rated_pressure,
        loss: part.loss,
        bypass: part.bypass,
        standard: part.standard,
        coupling: part.coupling,
        valve: part.valve,
        conductance: part.conductance,
        price: part.price.zip(labour(rate, minutes)).map(|(part, labour)| part.minor() + labour),
        ..plain(part.change, minutes)
    }
}

/// What a shop without a list has: whole hose sizes, filters of two sizes, couplings of a standard. All common practice, no
/// published source.
fn usual_options(id: ChangeId, tank_port: bool, rate: Option<Money>) -> Vec<ChangeOption> {
    let minutes = usual_time(id).likely + if tank_port { TANK_PORT.likely } else { 0 };
    // A setting needs no part: labour is all of it.
    let price = id.is_setting().then(|| labour(rate, minutes)).flatten();
    let plain = ChangeOption { tank_port, price, ..plain(id, minutes) };
    let bore = |millimetres: f64| Some(Length::from_si(Unit::Millimetre.to_si(millimetres)));
    let bores = |sizes: &[f64]| {
        let with = |size: &f64| ChangeOption { bore: bore(*size), ..plain.clone() };
        sizes.iter().map(with).collect()
    };
    let bar = |pressure: f64| Some(Stated::published(pressure, Unit::Bar));
    let litres = |flow: f64| Some(Stated::published(flow, Unit::LitrePerMinute));
    match id {
        ChangeId::DirectReturn => bores(&[19.05, 25.4, 31.75]),
        ChangeId::FilterReturn | ChangeId::ReturnLine => bores(&[25.4, 31.75]),
        ChangeId::CaseLine => bores(&[12.7, 19.05]),
        ChangeId::ReturnFilter => {
            // Clean loss 0.5 bar at rated flow, bypass 1.7 bar.
            let size = |flow: f64| ChangeOption {
                rated_flow: litres(flow),
                loss: bar(0.5),
                bypass: bar(1.7),
                ..plain.clone()
            };
            vec![size(150.0), size(300.0)]
        }
        ChangeId::HoseClass => [LineStandard::En4sp, LineStandard::SaeR15]
            .map(|standard| ChangeOption { standard: Some(standard), ..plain.clone() })
            .to_vec(),
        ChangeId::SupplyLine => [19.05, 25.4]
            .map(|size| ChangeOption { bore: bore(size), standard: Some(LineStandard::En4sh), ..plain.clone() })
            .to_vec(),
        // Known by their standard alone: what that says they bear is all that they may be taken for.
        ChangeId::Couplings => [12.5, 20.0]
            .map(|size| ChangeOption { bore: bore(size), coupling: Some(CouplingStandard::Iso14541), ..plain.clone() })
            .to_vec(),
        ChangeId::DoorCircuit => [ExtraValve::Diverter, ExtraValve::HeadBlock]
            .map(|valve| ChangeOption { valve: Some(valve), ..plain.clone() })
            .to_vec(),
        ChangeId::Cooler => vec![ChangeOption {
            conductance: Some(Stated::published(350.0, Unit::WattPerKelvin)),
            rated_flow: litres(100.0),
            ..plain
        }],
        ChangeId::PriorityShare | ChangeId::DividerRelief => vec![ChangeOption { rated_pressure: bar(350.0), ..plain }],
        _ => vec![plain],
    }
}
