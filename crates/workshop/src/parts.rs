//! What a part must be follows from the changed circuit: the flow that passes at the most and the pressure that can come at the
//! most. A part of the table's list keeps its own figures beside that. What is not stated is named, never guessed.

use super::{End, Place, Regulator, Requirement, Signal};
use fit::assume::{CHANGEOVER_LOSS, FITTED_FILTRATION_UM};
use fit::facts::{Extreme, Facts, either_line_is_fed};
use fit::installation::states::balanced;
use fit::sample::{Corner, End as ParameterEnd, Sample};
use fit::{Change, Conditions, FactId, Load, SettingId};
use hydraulics::balance::Balanced;
use quantity::shop::bar;
use quantity::{Amount, Pressure, Quantity, Stated, Unit, VolumeRate};
use table::{Carrier, ChangeId, Drive, Head, Mounting, PointLoss, Port, PumpControl, Segment};

/// What the parts are chosen by.
pub(super) struct Parts<'a> {
    pub before: &'a Carrier,
    pub after: Place<'a>,
    pub head: &'a Head,
    pub conditions: &'a Conditions,
}

fn nominal<Q: Quantity>(stated: Option<Stated<Q>>) -> Option<Amount> {
    stated.map(|stated| Amount::of(stated.nominal))
}

/// Rounded up to what is printed on a part, so that nothing is chosen a hair too weak.
pub(super) fn up<Q: Quantity>(quantity: Q, unit: Unit, step: f64) -> Amount {
    Amount::of(Q::from_si(unit.to_si((unit.of_si(quantity.si()) / step - 1e-9).ceil() * step)))
}

impl Parts<'_> {
    fn facts(&self) -> Facts<'_> {
        Facts::gather(self.after.carrier, self.after.circuit, self.head, self.conditions)
    }

    /// What the part of a change must be.
    pub fn must_be(&self, change: &Change) -> Vec<Requirement> {
        let circuit = self.after.circuit;
        let path = &circuit.return_path;
        match change.id {
            ChangeId::MachineFlowSetting
            | ChangeId::ReliefSetting
            | ChangeId::EngineSpeed
            | ChangeId::WarmUp
            | ChangeId::DividerFlow
            | ChangeId::ReverseLock => Vec::new(),
            ChangeId::DirectReturn => {
                let mut all = line(&path.line.segments, self.greatest_flow(), self.on_return());
                all.extend([Requirement::OpenTransition, loses(path.loss.as_ref()), Requirement::ReturnCoupling]);
                all.extend(self.coupling_in_return());
                all.push(Requirement::TankPort { port: self.spare_port() });
                all
            }
            ChangeId::FilterReturn => {
                let line = line(&path.line.segments, self.greatest_flow(), self.on_return());
                line.into_iter().chain(self.coupling_in_return()).collect()
            }
            ChangeId::ReturnLine => line(&path.line.segments, self.greatest_flow(), self.on_return()),
            ChangeId::ReturnFilter => self.filter(),
            ChangeId::CaseLine => self.case_line(),
            ChangeId::FlowLimit => self.regulator(change),
            ChangeId::MountingKit => self.kit(change),
            ChangeId::PriorityShare => self.divider(),
            ChangeId::DividerVent => vec![Requirement::VentDrains, Requirement::OffWithoutCurrent],
            ChangeId::DividerRelief => {
                let set = set_to(change, SettingId::Relief);
                set.into_iter().chain([passes(self.greatest_flow()), bears(self.main_pressure())]).collect()
            }
            ChangeId::UnloadValve => {
                vec![Requirement::Unloads, passes(self.greatest_flow()), bears(self.on_supply())]
            }
            ChangeId::OwnRelief => {
                let set = set_to(change, SettingId::HeadRelief);
                set.into_iter().chain([passes(self.greatest_flow())]).chain([bears(self.on_supply())]).collect()
            }
            ChangeId::IsolateTool | ChangeId::ToolRelief => self.tool(change),
            ChangeId::Couplings => self.couplings(),
            ChangeId::SupplyLine => line(&circuit.supply.segments, self.greatest_flow(), self.on_supply()),
            ChangeId::HoseClass => self.hoses(),
            ChangeId::DemandSignal => vec![Requirement::Signal { kind: self.signal() }],
            ChangeId::ReturnRelief => value(change, SettingId::ReturnRelief)
                .map(|pressure| Requirement::OpensBy { pressure })
                .into_iter()
                .chain([passes(self.greatest_flow())])
                .collect(),
            ChangeId::MakeUpCheck => {
                let opens = Requirement::OpensBy { pressure: Amount::of(bar(0.5)) };
                let loses = self
                    .greatest_flow()
                    .ok()
                    .map(|flow| Requirement::Loses { loss: Amount::of(bar(3.0)), flow: litres(flow) });
                [opens].into_iter().chain(loses).chain([bears(self.on_supply())]).collect()
            }
            ChangeId::Cooler => value(change, SettingId::Conductance)
                .map(|conductance| Requirement::Cools { conductance })
                .into_iter()
                .chain([passes(self.greatest_flow())])
                .chain([bears(self.on_return())])
                .collect(),
            ChangeId::OilChange => self.oil(),
            ChangeId::DoorCircuit => self.extra(change),
            ChangeId::Harness => self.harness(change),
            ChangeId::Guarding => self.guards(),
        }
    }

    /// The coupling by which a return past the spool was judged.
    fn coupling_in_return(&self) -> Option<Requirement> {
        let coupling = self.after.circuit.return_path.coupling.as_ref()?;
        Some(Requirement::CouplingInReturn { standard: coupling.standard, size: nominal(coupling.size) })
    }

    /// The spare port of the tank, where one is stated.
    fn spare_port(&self) -> Option<Port> {
        self.after.carrier.tank.as_ref().and_then(|tank| tank.spare_port.clone())
    }

    /// The most that can flow: free running, everything at its most.
    fn greatest_flow(&self) -> Result<VolumeRate, FactId> {
        let facts = self.facts();
        let sample = Sample::new(Corner::Worst);
        let circuit = facts.circuit(&sample, Extreme::MostFlow, facts.conditions.working);
        let difference = facts.free_difference(&sample);
        let flow = circuit.solve(difference).map(|point| point.flow);
        match (sample.missing().first(), flow) {
            (Some(missing), _) => Err(*missing),
            (None, Ok(flow)) => Ok(flow),
            (None, Err(_)) => Err(FactId::CircuitFlow),
        }
    }

    /// The most that can come on the way to the head.
    pub fn on_supply(&self) -> Result<Pressure, FactId> {
        let facts = self.facts();
        let sample = Sample::new(Corner::Worst);
        let pressure = sample.take(&facts.valve_relief, ParameterEnd::High);
        sample.missing().first().map_or(Ok(pressure), |missing| Err(*missing))
    }

    /// The most that can come on the way back: with reverse flow what comes on the supply, else what the oil makes there at full
    /// flow, as cold as it may be.
    pub fn on_return(&self) -> Result<Pressure, FactId> {
        if either_line_is_fed(self.after.circuit) {
            return self.on_supply();
        }
        let flow = self.greatest_flow()?;
        let facts = self.facts();
        let sample = Sample::new(Corner::Worst);
        let circuit = facts.circuit(&sample, Extreme::MostFlowAgainstReturn, facts.conditions.cold);
        let pressure = circuit.outlet(flow);
        sample.missing().first().map_or(Ok(pressure), |missing| Err(*missing))
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
        all.push(bears(self.on_supply()));
        let before = self.before.circuit(&self.after.circuit.id);
        if before.is_some_and(|before| before.return_path.line != self.after.circuit.return_path.line)
            && either_line_is_fed(self.after.circuit)
        {
            all.push(Requirement::AlsoBack);
        }
        all
    }

    fn filter(&self) -> Vec<Requirement> {
        let filter = self.after.circuit.return_path.filter.as_ref();
        let rated = filter.and_then(|filter| nominal(filter.rated_flow));
        let mut all: Vec<_> =
            rated.map(|flow| Requirement::Rated { pressure: None, flow: Some(flow) }).into_iter().collect();
        let micrometres = filter.and_then(|filter| filter.fineness_um).unwrap_or(FITTED_FILTRATION_UM);
        all.push(Requirement::FiltrationRating { micrometres });
        all.extend(filter.and_then(|filter| nominal(filter.bypass)).map(|pressure| Requirement::Bypass { pressure }));
        all.extend(filter.and_then(|filter| filter.loss.as_ref()).map(|loss| loses(Some(loss))));
        all.push(passes(self.greatest_flow()));
        all.push(bears(self.on_return()));
        all
    }

    /// From the motor's housing: as wide as chosen, nothing in it that can shut, and at the most what the housing bears.
    fn case_line(&self) -> Vec<Requirement> {
        let line = self.after.carrier.case_line.as_ref();
        let bores = line.iter().flat_map(|line| &line.line.segments).filter_map(|piece| nominal(piece.bore));
        let mut all: Vec<_> = bores.map(|bore| Requirement::Bore { bore }).collect();
        let facts = self.facts();
        let sample = Sample::new(Corner::Worst);
        let leaked = self.greatest_flow().map(|flow| facts.case_flow(&sample, flow));
        all.push(passes(leaked));
        all.extend([Requirement::NothingShuts, Requirement::CaseCoupling]);
        all
    }

    fn regulator(&self, change: &Change) -> Vec<Requirement> {
        let kind = self.facts().control().map(|control| match control {
            PumpControl::LoadSensing | PumpControl::PressureCompensated => Regulator::TwoPort,
            PumpControl::Fixed | PumpControl::Negative | PumpControl::Positive => Regulator::ThreePort,
        });
        let mut all: Vec<_> = set_to(change, SettingId::Flow).into_iter().collect();
        all.push(Requirement::Regulator { kind });
        if kind.is_none() {
            all.push(Requirement::FindOut { fact: FactId::PumpControl });
        }
        all.push(bears(self.on_supply()));
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
        all.push(passes(most));
        all.push(bears(self.main_pressure()));
        all.push(Requirement::BehindBranch);
        if count > 1 {
            all.push(Requirement::SetShares);
        }
        all.extend([Requirement::VentDrains, Requirement::OffWithoutCurrent, Requirement::JoinsSupply]);
        all
    }

    /// What the machine's own limiters let come ahead of its valve.
    fn main_pressure(&self) -> Result<Pressure, FactId> {
        let fed = |id: &table::Id| self.after.circuit.pumps.contains(id);
        let pumps = self.after.carrier.pumps.iter().filter(|pump| fed(&pump.id));
        let cut_off = pumps.filter_map(|pump| pump.pressure).map(|stated| stated.nominal);
        let main = self.after.carrier.main_relief.map(|stated| stated.nominal);
        cut_off.chain(main).reduce(Pressure::max).ok_or(FactId::MainRelief)
    }

    fn tool(&self, change: &Change) -> Vec<Requirement> {
        let tools = self.after.circuit.shared_with.as_deref().unwrap_or(&[]);
        let isolates = change.id == ChangeId::IsolateTool;
        let both = tools.iter().filter(|_| isolates).map(|tool| Requirement::BothLines { tool: tool.name.clone() });
        both.chain(set_to(change, SettingId::ToolRelief)).chain([bears(self.on_supply())]).collect()
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
        let sample = Sample::new(Corner::Likely);
        // What wears a coupling is the flow at work; its losses are in the circuit already.
        let (_, at) = balanced(&facts, &sample, Load::Working, self.conditions.working);
        let flow = match (at, sample.missing().first()) {
            (_, Some(missing)) => Err(*missing),
            (Balanced::Turns(at) | Balanced::Stalls(at), None) => Ok(at.flow),
            (Balanced::NoSuchPoint, None) => Err(FactId::CircuitFlow),
        };
        all.push(passes(flow));
        all.push(bears(self.on_supply()));
        all.extend([Requirement::ReturnCoupling, Requirement::NotCrossed]);
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
        all.push(bears(self.on_supply()));
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
        if let Some(count) = change.outputs.or_else(|| facts.outputs_needed()).filter(|count| *count > 0) {
            let voltage = self.head.extra_functions.iter().find_map(|extra| nominal(extra.voltage));
            let current = facts.greatest_current().map(|stated| Amount::of(stated.nominal));
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
        let Some(pin) = value(change, SettingId::Pin) else { return Vec::new() };
        let end = self.after.carrier.end_of(self.after.circuit);
        let here = self.before.mounting.iter().filter(|mounting| self.before.end_of_mounting(mounting) == end);
        let machine = here.into_iter().find_map(|mounting| match mounting {
            Mounting::Pins { pin, .. } => Some(Amount::of(pin.nominal)),
            Mounting::Standard { .. } => None,
        });
        let own = self.head.mounting.iter().find_map(|mounting| match mounting {
            Mounting::Pins { pin: own, width, centres, .. } if Amount::of(own.nominal) == pin => {
                Some((nominal(*width), nominal(*centres)))
            }
            _ => None,
        });
        let (width, centres) = own.unwrap_or_default();
        vec![Requirement::Pins { machine, attachment: pin, width, centres }]
    }

    /// Where a part goes.
    pub fn between(&self, change: ChangeId) -> Option<(End, End)> {
        let circuit = self.after.circuit;
        let at_arm = || circuit.port.clone();
        let at_head = || self.head.port.clone();
        let tank = || End::Tank { port: self.spare_port() };
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
            ChangeId::DividerRelief => (End::Pumps, tank()),
            ChangeId::UnloadValve => (End::Valve, tank()),
            ChangeId::OwnRelief | ChangeId::MakeUpCheck => {
                (End::MotorInlet { port: at_head() }, End::MotorOutlet { port: at_head() })
            }
            ChangeId::IsolateTool | ChangeId::ToolRelief => (End::Valve, End::ToolLines),
            ChangeId::Couplings => (End::SupplyCoupling { port: at_arm() }, End::MotorInlet { port: at_head() }),
            ChangeId::DemandSignal => (End::SupplyCoupling { port: None }, End::Regulator),
            ChangeId::DoorCircuit
            | ChangeId::MachineFlowSetting
            | ChangeId::DividerFlow
            | ChangeId::DividerVent
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

fn litres(flow: VolumeRate) -> Amount {
    up(flow, Unit::LitrePerMinute, 1.0)
}

fn value(change: &Change, name: SettingId) -> Option<Amount> {
    change.settings.iter().find(|setting| setting.name == name).map(|setting| setting.value)
}

fn set_to(change: &Change, name: SettingId) -> Option<Requirement> {
    value(change, name).map(|value| Requirement::SetTo { value })
}

fn passes(flow: Result<VolumeRate, FactId>) -> Requirement {
    match flow {
        Ok(flow) => Requirement::Passes { flow: litres(flow) },
        Err(fact) => Requirement::FindOut { fact },
    }
}

fn bears(pressure: Result<Pressure, FactId>) -> Requirement {
    match pressure {
        Ok(pressure) => Requirement::Bears { pressure: up(pressure, Unit::Bar, 1.0) },
        Err(fact) => Requirement::FindOut { fact },
    }
}

/// What a valve may lose: as its part says, else as is usual.
fn loses(point: Option<&PointLoss>) -> Requirement {
    let usual =
        (Stated::published(CHANGEOVER_LOSS.0, Unit::Bar), Stated::published(CHANGEOVER_LOSS.1, Unit::LitrePerMinute));
    let (loss, flow): (Stated<Pressure>, Stated<VolumeRate>) = point.map_or(usual, |point| (point.loss, point.flow));
    Requirement::Loses { loss: Amount::of(loss.nominal), flow: Amount::of(flow.nominal) }
}

/// What a line must be, piece by piece.
fn line(
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
    all.push(passes(flow));
    all.push(bears(pressure));
    all
}
