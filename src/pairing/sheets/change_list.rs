//! The change list: what is done in working order, what each part must be, between which points it goes, and what it takes.
//!
//! What a part must be follows from the changed circuit: the flow that passes at the most and the pressure that can come at the
//! most. A part of the table's list keeps its own name and figures beside that.

use super::{Place, switch_back};
use crate::circuit::balance::Balanced;
use crate::pairing::assume::{CHANGEOVER_LOSS, FITTED_FINENESS_UM};
use crate::pairing::checks::{greatest_current, outputs_needed};
use crate::pairing::draw::{Draw, Side, Stance};
use crate::pairing::facts::{Facts, Lean};
use crate::pairing::installation::states::balanced;
use crate::pairing::{Change, Conditions, FactId, Load, Pairing, Price, SettingId};
use crate::quantity::{Amount, Kind, Pressure, Stated, Unit, VolumeRate};
use crate::table::{
    Carrier, ChangeId, Cleanliness, CouplingStandard, Drive, ExtraValve, Guard, Head, LineStandard, Money, Mounting,
    OilGrade, OilKind, Port, PumpControl, Segment,
};
use serde::Serialize;

/// What is to be done.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangeList {
    /// The changes, in working order.
    pub lines: Vec<ChangeLine>,
    /// What they take together.
    pub total: Total,
}

/// What all changes take.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Total {
    /// Workshop minutes.
    pub minutes: u32,
    /// Parts and labour of what has a price; none where nothing has.
    pub price: Option<Price>,
    /// Whether something has no price, so that it is "from".
    pub from: bool,
}

impl Total {
    /// Of a pairing.
    pub fn of(pairing: &Pairing) -> Self {
        let priced: Vec<_> = pairing.changes.iter().filter_map(|change| change.price.as_ref()).collect();
        let minor = priced.iter().map(|price| price.amount.minor()).sum();
        let price = priced.first().map(|first| Price { amount: Money::from_minor(minor), ..(*first).clone() });
        Self { minutes: pairing.cost.minutes, price, from: priced.len() < pairing.changes.len() }
    }
}

/// One change.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangeLine {
    /// The change as judged.
    pub change: Change,
    /// What the chosen part of the table's list is called.
    pub part: Option<String>,
    /// What its part must be.
    pub must_be: Vec<Requirement>,
    /// Between which points it goes.
    pub between: Option<(End, End)>,
}

/// A point of the circuit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "at", rename_all = "kebab-case")]
pub enum End {
    /// The pumps' outlets.
    Pumps,
    /// The valve's port to the attachment.
    Valve,
    /// The coupling to the attachment at boom or arm.
    SupplyCoupling {
        /// The thread there, where stated.
        port: Option<Port>,
    },
    /// The coupling back.
    ReturnCoupling {
        /// The thread there, where stated.
        port: Option<Port>,
    },
    /// The motor's inlet.
    MotorInlet {
        /// The thread there, where stated.
        port: Option<Port>,
    },
    /// The motor's outlet.
    MotorOutlet {
        /// The thread there, where stated.
        port: Option<Port>,
    },
    /// The motor's drain port.
    Housing,
    /// The tank, by a port of its own below the oil's level.
    Tank {
        /// The spare port there, where stated.
        port: Option<Port>,
    },
    /// The spare port of the machine's filter and cooler manifold.
    Manifold,
    /// The other tool's lines.
    ToolLines,
    /// The pumps' regulator.
    Regulator,
}

/// How a flow regulator gets rid of what it does not pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Regulator {
    /// Two ports: the pump gives less.
    TwoPort,
    /// Three ports: the rest goes past to the tank.
    ThreePort,
}

/// How a pump is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Signal {
    /// A shuttle valve into the load-sensing line.
    Shuttle,
    /// A pilot or electric signal to the regulator.
    Pilot,
}

/// One thing that a part must be.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "must", rename_all = "kebab-case")]
pub enum Requirement {
    /// Inner diameter.
    Bore {
        /// How wide.
        bore: Amount,
    },
    /// Length, as long as what it replaces.
    Length {
        /// How long.
        length: Amount,
    },
    /// Hose of a standard.
    Hose {
        /// Which.
        standard: LineStandard,
    },
    /// Couplings of a standard and nominal size.
    Coupling {
        /// Which, where the part says.
        standard: Option<CouplingStandard>,
        /// Which size.
        size: Option<Amount>,
    },
    /// Screwed and locked against vibration.
    Screwed,
    /// Both halves: for the machine and for the attachment's hoses.
    BothHalves,
    /// Passes at least this flow.
    Passes {
        /// How much.
        flow: Amount,
    },
    /// Bears at least this pressure.
    Bears {
        /// How much.
        pressure: Amount,
    },
    /// The chosen part's own rating.
    Rated {
        /// Its pressure.
        pressure: Option<Amount>,
        /// Its flow.
        flow: Option<Amount>,
    },
    /// Loses no more than this at a flow.
    Loses {
        /// How much.
        loss: Amount,
        /// At which flow.
        flow: Amount,
    },
    /// Filters at least as fine, β ≥ 200 (ISO 16889).
    Fineness {
        /// Micrometres.
        micrometres: u16,
    },
    /// A bypass that opens at this pressure, with an indicator.
    Bypass {
        /// The pressure.
        pressure: Amount,
    },
    /// Opens at no more than this.
    OpensBy {
        /// The pressure.
        pressure: Amount,
    },
    /// Set to this, and sealed.
    SetTo {
        /// The value.
        value: Amount,
    },
    /// No blocked position on the way, its place visible and lockable.
    OpenTransition,
    /// Nothing in it that can be shut.
    NothingShuts,
    /// One divider a pump, joined by checks.
    Dividers {
        /// How many.
        count: usize,
        /// What each sets.
        each: Amount,
    },
    /// How a regulator gets rid of the rest; none where nobody says how the pump is commanded.
    Regulator {
        /// How.
        kind: Option<Regulator>,
    },
    /// How the pump is told; none where nobody says how it is commanded.
    Signal {
        /// How.
        kind: Option<Signal>,
    },
    /// In both lines of a tool, worked together.
    BothLines {
        /// Which tool.
        tool: String,
    },
    /// Carries heat away.
    Cools {
        /// Per kelvin.
        conductance: Amount,
    },
    /// Oil of a kind and grade, so clean (ISO 4406).
    Oil {
        /// Kind.
        kind: Option<OilKind>,
        /// Grade.
        grade: Option<OilGrade>,
        /// Cleanliness.
        cleanliness: Option<Cleanliness>,
        /// How much fills the tank, where stated.
        volume: Option<Amount>,
    },
    /// Outputs with a button and a fuse each.
    Outputs {
        /// How many.
        count: usize,
        /// Current of the strongest coil, where stated.
        current: Option<Amount>,
        /// Voltage of the coils, where stated.
        voltage: Option<Amount>,
    },
    /// A converter from the machine's voltage.
    Converter,
    /// A seat switch: off when the operator leaves, and stays off.
    SeatSwitch,
    /// A guard.
    Guard {
        /// Which.
        guard: Guard,
    },
    /// From the machine's pins to the attachment's.
    Pins {
        /// The machine's pin, where stated.
        machine: Option<Amount>,
        /// The attachment's pin.
        attachment: Amount,
        /// The attachment's gap between its ears, where stated.
        width: Option<Amount>,
        /// Distance of its pin centres, where stated.
        centres: Option<Amount>,
    },
    /// A diverter in the main lines, or a block on the attachment.
    Extra {
        /// Which.
        valve: ExtraValve,
    },
    /// A function's flow, by an orifice or regulator.
    ExtraFlow {
        /// How much.
        flow: Amount,
    },
    /// A reducing valve before a function: it bears less than can come.
    Reduced {
        /// To what.
        pressure: Amount,
    },
    /// A figure that nobody states and that the part must be chosen by.
    FindOut {
        /// Which.
        fact: FactId,
    },
}

impl ChangeList {
    pub(super) fn of(pairing: &Pairing, carrier: &Carrier, head: &Head, conditions: &Conditions) -> Self {
        let changed = pairing.changed.as_deref().unwrap_or(carrier);
        let after = Place::of(pairing, changed).or_else(|| {
            // A machine that states no circuit is judged with one of which nothing is known.
            changed.circuits.first().map(|circuit| Place { carrier: changed, circuit })
        });
        let lines = pairing.changes.iter().map(|change| {
            let named = change.part.as_ref().and_then(|id| conditions.parts.iter().find(|part| part.id == *id));
            let (must_be, between) = after.map_or((Vec::new(), None), |after| {
                let part = Parts { pairing, before: carrier, after, head, conditions };
                (part.must_be(change), part.between(change.id))
            });
            ChangeLine { change: change.clone(), part: named.map(|part| part.name.clone()), must_be, between }
        });
        Self { lines: lines.collect(), total: Total::of(pairing) }
    }
}

/// What the parts are chosen by.
struct Parts<'a> {
    pairing: &'a Pairing,
    before: &'a Carrier,
    after: Place<'a>,
    head: &'a Head,
    conditions: &'a Conditions,
}

fn nominal<Q: Kind>(stated: Option<Stated<Q>>) -> Option<Amount> {
    stated.map(|stated| Amount::of(stated.nominal))
}

/// Rounded up to what is printed on a part, so that nothing is chosen a hair too weak.
fn up<Q: Kind>(quantity: Q, unit: Unit, step: f64) -> Amount {
    Amount::of(Q::from_si(unit.to_si((unit.of_si(quantity.si()) / step - 1e-9).ceil() * step)))
}

impl Parts<'_> {
    fn facts(&self) -> Facts<'_> {
        Facts::gather(self.after.carrier, self.after.circuit, self.head, self.conditions)
    }

    fn must_be(&self, change: &Change) -> Vec<Requirement> {
        let circuit = self.after.circuit;
        let path = &circuit.return_path;
        match change.id {
            ChangeId::MachineFlowSetting | ChangeId::ReliefSetting | ChangeId::EngineSpeed | ChangeId::WarmUp => {
                Vec::new()
            }
            ChangeId::DirectReturn => {
                let mut all = self.line(&path.line.segments, self.greatest_flow(), self.on_return());
                all.extend([Requirement::OpenTransition, self.loses(path.loss.as_ref())]);
                all
            }
            ChangeId::FilterReturn | ChangeId::ReturnLine => {
                self.line(&path.line.segments, self.greatest_flow(), self.on_return())
            }
            ChangeId::ReturnFilter => self.filter(),
            ChangeId::CaseLine => self.case_line(),
            ChangeId::FlowLimit => self.regulator(change),
            ChangeId::MountingKit => self.kit(change),
            ChangeId::PriorityShare => self.divider(),
            ChangeId::OwnRelief => {
                let set = self.set_to(change, SettingId::HeadRelief);
                set.into_iter().chain(self.passes(self.greatest_flow())).chain(self.bears(self.on_supply())).collect()
            }
            ChangeId::IsolateTool | ChangeId::ToolRelief => self.tool(change),
            ChangeId::Couplings => self.couplings(),
            ChangeId::SupplyLine => self.line(&circuit.supply.segments, self.greatest_flow(), self.on_supply()),
            ChangeId::HoseClass => self.hoses(),
            ChangeId::DemandSignal => vec![Requirement::Signal { kind: self.signal() }],
            ChangeId::ReverseLock => Vec::new(),
            ChangeId::ReturnRelief => self
                .value(change, SettingId::ReturnRelief)
                .map(|pressure| Requirement::OpensBy { pressure })
                .into_iter()
                .chain(self.passes(self.greatest_flow()))
                .collect(),
            ChangeId::MakeUpCheck => {
                let opens = Requirement::OpensBy { pressure: Amount::of(bar(0.5)) };
                let loses = self
                    .greatest_flow()
                    .ok()
                    .map(|flow| Requirement::Loses { loss: Amount::of(bar(3.0)), flow: litres(flow) });
                [opens].into_iter().chain(loses).chain(self.bears(self.on_supply())).collect()
            }
            ChangeId::Cooler => self
                .value(change, SettingId::Conductance)
                .map(|conductance| Requirement::Cools { conductance })
                .into_iter()
                .chain(self.passes(self.greatest_flow()))
                .chain(self.bears(self.on_return()))
                .collect(),
            ChangeId::OilChange => self.oil(),
            ChangeId::DoorCircuit => self.extra(change),
            ChangeId::Harness => self.harness(change),
            ChangeId::Guarding => self.guards(),
        }
    }

    fn value(&self, change: &Change, name: SettingId) -> Option<Amount> {
        change.settings.iter().find(|setting| setting.name == name).map(|setting| setting.value)
    }

    fn set_to(&self, change: &Change, name: SettingId) -> Option<Requirement> {
        self.value(change, name).map(|value| Requirement::SetTo { value })
    }

    /// The most that can flow: free running, everything at its most.
    fn greatest_flow(&self) -> Result<VolumeRate, FactId> {
        let facts = self.facts();
        let draw = Draw::new(Stance::Worst);
        let circuit = facts.circuit(&draw, Lean::Rich, facts.conditions.working);
        let difference = facts.free_difference(&draw);
        let flow = circuit.solve(difference).map(|point| point.flow);
        match (draw.missing().first(), flow) {
            (Some(missing), _) => Err(*missing),
            (None, Ok(flow)) => Ok(flow),
            (None, Err(_)) => Err(FactId::CircuitFlow),
        }
    }

    /// The most that can come on the way to the head.
    fn on_supply(&self) -> Result<Pressure, FactId> {
        let facts = self.facts();
        let draw = Draw::new(Stance::Worst);
        let pressure = draw.take(&facts.valve_relief, Side::High);
        draw.missing().first().map_or(Ok(pressure), |missing| Err(*missing))
    }

    /// The most that can come on the way back: with reverse flow what comes on the supply, else what the oil makes there at full
    /// flow, as cold as it may be.
    fn on_return(&self) -> Result<Pressure, FactId> {
        let job = super::Job {
            pairing: self.pairing,
            before: self.after,
            after: self.after,
            head: self.head,
            conditions: self.conditions,
        };
        if switch_back::return_sees_relief(&job) {
            return self.on_supply();
        }
        let flow = self.greatest_flow()?;
        let facts = self.facts();
        let draw = Draw::new(Stance::Worst);
        let circuit = facts.circuit(&draw, Lean::RichAgainstReturn, facts.conditions.cold);
        let pressure = circuit.outlet(flow);
        draw.missing().first().map_or(Ok(pressure), |missing| Err(*missing))
    }

    fn passes(&self, flow: Result<VolumeRate, FactId>) -> Option<Requirement> {
        Some(match flow {
            Ok(flow) => Requirement::Passes { flow: litres(flow) },
            Err(fact) => Requirement::FindOut { fact },
        })
    }

    fn bears(&self, pressure: Result<Pressure, FactId>) -> Option<Requirement> {
        Some(match pressure {
            Ok(pressure) => Requirement::Bears { pressure: up(pressure, Unit::Bar, 1.0) },
            Err(fact) => Requirement::FindOut { fact },
        })
    }

    /// What a valve may lose: as its part says, else as is usual.
    fn loses(&self, point: Option<&crate::table::PointLoss>) -> Requirement {
        let usual = (
            Stated::published(CHANGEOVER_LOSS.0, Unit::Bar),
            Stated::published(CHANGEOVER_LOSS.1, Unit::LitrePerMinute),
        );
        let (loss, flow): (Stated<Pressure>, Stated<VolumeRate>) =
            point.map_or(usual, |point| (point.loss, point.flow));
        Requirement::Loses { loss: Amount::of(loss.nominal), flow: Amount::of(flow.nominal) }
    }

    fn line(
        &self,
        segments: &[Segment],
        flow: Result<VolumeRate, FactId>,
        pressure: Result<Pressure, FactId>,
    ) -> Vec<Requirement> {
        let mut all = Vec::new();
        for piece in segments {
            all.extend(nominal(piece.bore).map(|bore| Requirement::Bore { bore }));
            all.extend(nominal(piece.length).map(|length| Requirement::Length { length }));
            all.extend(piece.standard.map(|standard| Requirement::Hose { standard }));
            let rated = nominal(piece.rating);
            all.extend(rated.map(|pressure| Requirement::Rated { pressure: Some(pressure), flow: None }));
        }
        all.extend(self.passes(flow));
        all.extend(self.bears(pressure));
        all
    }

    fn hoses(&self) -> Vec<Requirement> {
        let mut all = Vec::new();
        for piece in &self.after.circuit.supply.segments {
            all.extend(nominal(piece.bore).map(|bore| Requirement::Bore { bore }));
            all.extend(nominal(piece.length).map(|length| Requirement::Length { length }));
        }
        let first = self.after.circuit.supply.segments.first();
        all.extend(first.and_then(|piece| piece.standard).map(|standard| Requirement::Hose { standard }));
        all.extend(
            first
                .and_then(|piece| nominal(piece.rating))
                .map(|pressure| Requirement::Rated { pressure: Some(pressure), flow: None }),
        );
        all.extend(self.bears(self.on_supply()));
        all
    }

    fn filter(&self) -> Vec<Requirement> {
        let filter = self.after.circuit.return_path.filter.as_ref();
        let rated = filter.and_then(|filter| nominal(filter.rated_flow));
        let mut all: Vec<_> =
            rated.map(|flow| Requirement::Rated { pressure: None, flow: Some(flow) }).into_iter().collect();
        let micrometres = filter.and_then(|filter| filter.fineness_um).unwrap_or(FITTED_FINENESS_UM);
        all.push(Requirement::Fineness { micrometres });
        all.extend(filter.and_then(|filter| nominal(filter.bypass)).map(|pressure| Requirement::Bypass { pressure }));
        all.extend(filter.and_then(|filter| filter.loss.as_ref()).map(|loss| self.loses(Some(loss))));
        all.extend(self.passes(self.greatest_flow()));
        all.extend(self.bears(self.on_return()));
        all
    }

    /// From the motor's housing: as wide as chosen, nothing in it that can shut, and at the most what the housing bears.
    fn case_line(&self) -> Vec<Requirement> {
        let line = self.after.carrier.case_line.as_ref();
        let bores = line.iter().flat_map(|line| &line.line.segments).filter_map(|piece| nominal(piece.bore));
        let mut all: Vec<_> = bores.map(|bore| Requirement::Bore { bore }).collect();
        let facts = self.facts();
        let draw = Draw::new(Stance::Worst);
        let leaked = self.greatest_flow().map(|flow| facts.case_flow(&draw, flow));
        all.extend(self.passes(leaked));
        all.push(Requirement::NothingShuts);
        all
    }

    fn regulator(&self, change: &Change) -> Vec<Requirement> {
        let kind = self.facts().control().map(|control| match control {
            PumpControl::LoadSensing | PumpControl::PressureCompensated => Regulator::TwoPort,
            PumpControl::Fixed | PumpControl::Negative | PumpControl::Positive => Regulator::ThreePort,
        });
        let mut all: Vec<_> = self.set_to(change, SettingId::Flow).into_iter().collect();
        all.push(Requirement::Regulator { kind });
        if kind.is_none() {
            all.push(Requirement::FindOut { fact: FactId::PumpControl });
        }
        all.extend(self.bears(self.on_supply()));
        all
    }

    fn divider(&self) -> Vec<Requirement> {
        let circuit = self.after.circuit;
        let mut all = Vec::new();
        let count = circuit.pumps.len().max(1);
        if let Some(divider) = &circuit.divider {
            // A count of pumps.
            #[allow(clippy::cast_precision_loss)]
            let each = divider.set_flow.nominal / count as f64;
            all.push(Requirement::Dividers { count, each: Amount::of(each) });
        }
        all.extend(nominal(circuit.relief).map(|value| Requirement::SetTo { value }));
        let pumps = || self.after.carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id));
        let most = pumps().filter_map(|pump| pump.greatest_flow).map(|flow| flow.nominal);
        let most = most.reduce(|a, b| if b > a { b } else { a }).ok_or(FactId::PumpFlow);
        all.extend(self.passes(most));
        // All of the pump's oil goes through it: it bears what the machine's own limiters let come.
        let cut_off = pumps().filter_map(|pump| pump.pressure).map(|stated| stated.nominal);
        let main = self.after.carrier.main_relief.map(|stated| stated.nominal);
        let bears = cut_off.chain(main).reduce(Pressure::max).ok_or(FactId::MainRelief);
        all.extend(self.bears(bears));
        all
    }

    fn tool(&self, change: &Change) -> Vec<Requirement> {
        let tools = self.after.circuit.shared_with.as_deref().unwrap_or(&[]);
        let isolates = change.id == ChangeId::IsolateTool;
        let both = tools.iter().filter(|_| isolates).map(|tool| Requirement::BothLines { tool: tool.name.clone() });
        both.chain(self.set_to(change, SettingId::ToolRelief)).chain(self.bears(self.on_supply())).collect()
    }

    fn couplings(&self) -> Vec<Requirement> {
        let Some(coupling) = &self.after.circuit.coupling else { return Vec::new() };
        let mut all = vec![Requirement::Coupling { standard: coupling.standard, size: nominal(coupling.size) }];
        if coupling.screwed == Some(true) {
            all.push(Requirement::Screwed);
        }
        if coupling.both_halves == Some(true) {
            all.push(Requirement::BothHalves);
        }
        let (pressure, flow) = (nominal(coupling.rated_pressure), nominal(coupling.rated_flow));
        if pressure.is_some() || flow.is_some() {
            all.push(Requirement::Rated { pressure, flow });
        }
        let facts = self.facts();
        let draw = Draw::new(Stance::Nominal);
        // What wears a coupling is the flow at work; its losses are in the circuit already.
        let (_, at) = balanced(&facts, &draw, Load::Working, self.conditions.working);
        let flow = match (at, draw.missing().first()) {
            (_, Some(missing)) => Err(*missing),
            (Balanced::Turns(at) | Balanced::Stalls(at), None) => Ok(at.flow),
            (Balanced::NoSuchPoint, None) => Err(FactId::CircuitFlow),
        };
        all.extend(self.passes(flow));
        all.extend(self.bears(self.on_supply()));
        all
    }

    fn signal(&self) -> Option<Signal> {
        self.facts().control().map(|control| match control {
            PumpControl::LoadSensing | PumpControl::PressureCompensated => Signal::Shuttle,
            PumpControl::Fixed | PumpControl::Negative | PumpControl::Positive => Signal::Pilot,
        })
    }

    fn oil(&self) -> Vec<Requirement> {
        let Some(oil) = &self.after.carrier.oil else { return Vec::new() };
        let volume = self.after.carrier.tank.as_ref().and_then(|tank| nominal(tank.volume));
        vec![Requirement::Oil { kind: oil.kind, grade: oil.grade, cleanliness: oil.cleanliness, volume }]
    }

    fn extra(&self, change: &Change) -> Vec<Requirement> {
        let mut all: Vec<_> = change.valve.iter().map(|valve| Requirement::Extra { valve: *valve }).collect();
        all.extend(self.bears(self.on_supply()));
        let comes = self.on_supply().ok();
        let driven = self.head.extra_functions.iter().filter(|extra| extra.drive == Some(Drive::Hydraulic));
        for extra in driven {
            all.extend(nominal(extra.flow).map(|flow| Requirement::ExtraFlow { flow }));
            let bears = extra.greatest_pressure.map(|stated| stated.nominal);
            let less = bears.filter(|bears| comes.is_none_or(|comes| comes > *bears));
            all.extend(less.map(|pressure| Requirement::Reduced { pressure: Amount::of(pressure) }));
        }
        all
    }

    fn harness(&self, change: &Change) -> Vec<Requirement> {
        let facts = self.facts();
        let mut all = Vec::new();
        if let Some(count) = change.outputs.or_else(|| outputs_needed(&facts)).filter(|count| *count > 0) {
            let voltage = self.head.extra_functions.iter().find_map(|extra| nominal(extra.voltage));
            let current = greatest_current(&facts).map(|stated| Amount::of(stated.nominal));
            all.push(Requirement::Outputs { count, current, voltage });
        }
        if self.after.carrier.electrics.as_ref().is_some_and(|electrics| electrics.converter == Some(true)) {
            all.push(Requirement::Converter);
        }
        all.push(Requirement::SeatSwitch);
        all
    }

    fn guards(&self) -> Vec<Requirement> {
        let old = self.before.guards.as_deref().unwrap_or(&[]);
        let new = self.after.carrier.guards.iter().flatten().filter(|guard| !old.contains(guard));
        new.map(|guard| Requirement::Guard { guard: *guard }).collect()
    }

    fn kit(&self, change: &Change) -> Vec<Requirement> {
        let Some(pin) = self.value(change, SettingId::Pin) else { return Vec::new() };
        let machine = self.before.mounting.iter().find_map(|mounting| match mounting {
            Mounting::Pins { pin, .. } => Some(Amount::of(pin.nominal)),
            Mounting::Standard { .. } => None,
        });
        let own = self.head.mounting.iter().find_map(|mounting| match mounting {
            Mounting::Pins { pin: own, width, centres } if Amount::of(own.nominal) == pin => {
                Some((nominal(*width), nominal(*centres)))
            }
            _ => None,
        });
        let (width, centres) = own.unwrap_or_default();
        vec![Requirement::Pins { machine, attachment: pin, width, centres }]
    }

    /// Where a part goes.
    fn between(&self, change: ChangeId) -> Option<(End, End)> {
        let circuit = self.after.circuit;
        let at_arm = || circuit.port.clone();
        let at_head = || self.head.port.clone();
        let tank = || End::Tank { port: self.after.carrier.tank.as_ref().and_then(|tank| tank.spare_port.clone()) };
        Some(match change {
            ChangeId::DirectReturn => (End::ReturnCoupling { port: at_arm() }, tank()),
            ChangeId::FilterReturn => (End::ReturnCoupling { port: at_arm() }, End::Manifold),
            ChangeId::ReturnLine => (End::ReturnCoupling { port: at_arm() }, End::Valve),
            ChangeId::ReturnFilter | ChangeId::Cooler | ChangeId::ReturnRelief => {
                (End::ReturnCoupling { port: at_arm() }, tank())
            }
            ChangeId::CaseLine => (End::Housing, tank()),
            ChangeId::FlowLimit | ChangeId::SupplyLine | ChangeId::HoseClass => {
                (End::Valve, End::SupplyCoupling { port: at_arm() })
            }
            ChangeId::PriorityShare => (End::Pumps, End::SupplyCoupling { port: at_arm() }),
            ChangeId::OwnRelief | ChangeId::MakeUpCheck => {
                (End::MotorInlet { port: at_head() }, End::MotorOutlet { port: at_head() })
            }
            ChangeId::IsolateTool | ChangeId::ToolRelief => (End::Valve, End::ToolLines),
            ChangeId::Couplings => (End::SupplyCoupling { port: at_arm() }, End::MotorInlet { port: at_head() }),
            ChangeId::DemandSignal => (End::SupplyCoupling { port: None }, End::Regulator),
            ChangeId::DoorCircuit
            | ChangeId::MachineFlowSetting
            | ChangeId::ReliefSetting
            | ChangeId::EngineSpeed
            | ChangeId::WarmUp
            | ChangeId::ReverseLock
            | ChangeId::MountingKit
            | ChangeId::OilChange
            | ChangeId::Harness
            | ChangeId::Guarding => return None,
        })
    }
}

fn bar(value: f64) -> Pressure {
    Pressure::from_si(Unit::Bar.to_si(value))
}

fn litres(flow: VolumeRate) -> Amount {
    up(flow, Unit::LitrePerMinute, 1.0)
}
