//! Everything that one carrier, one of its auxiliary circuits and one head say about the circuit between them, each
//! fact known, assumed or missing; and the circuit that a draw of them makes.

use super::assume::{
    PUBLISHED_FLOW, PUBLISHED_LOSS, PUBLISHED_MASS, PUBLISHED_POWER, PUBLISHED_PRESSURE, Practice, REGULATOR,
};
use super::draw::{Draw, Input, Side, Stance};
use super::{Conditions, FactId};
use crate::circuit::line::{Piece, Resistance, Roughness};
use crate::circuit::{self, Motor, OilCurve, Relief, Source};
use crate::quantity::{
    AngularVelocity, Displacement, Fact, Interval, Kind, KinematicViscosity, Length, Mass, Power, Pressure, Ratio,
    Stated, ThermodynamicTemperature, Tolerance, Unit, VolumeRate,
};
use crate::table::{
    self, AssumptionId, Carrier, Coupling, Head, HeadKind, Limits, MotorKind, PointLoss, PressureBasis, PumpControl,
    ReturnRoute,
};

/// One carrier's circuit and one head, as facts.
#[derive(Clone, Debug)]
pub struct Facts<'a> {
    /// The carrier.
    pub carrier: &'a Carrier,
    /// The auxiliary circuit.
    pub circuit: &'a table::Circuit,
    /// The head.
    pub head: &'a Head,
    /// Oil temperatures and shop.
    pub conditions: &'a Conditions,
    /// The ranges of practice.
    pub practice: Practice<'a>,
    /// Flow that the circuit gives at working speed.
    pub flow: Input<VolumeRate>,
    /// Flow to which an operator can turn it up without tools.
    pub flow_reachable: Input<VolumeRate>,
    /// A sealed regulator.
    pub flow_limit: Option<Input<VolumeRate>>,
    /// Flow of the pumps, where they are stated.
    pub pumps: Option<Input<VolumeRate>>,
    /// High idle over working speed.
    pub idle_ratio: Input<Ratio>,
    /// Leakage at the relief's pressure as a share of the flow.
    pub leak: Input<Ratio>,
    /// Hydraulic power that the pumps of this circuit may give.
    pub power: Input<Power>,
    /// Full-flow pressure of the relief.
    pub relief: Input<Pressure>,
    /// The lowest pressure at which one of the pumps cuts off, where all of them say.
    pub cut_off: Option<Input<Pressure>>,
    /// Its override.
    pub relief_override: Input<Ratio>,
    /// Pressure difference over the motor at work (or inlet pressure, see `basis`).
    pub working: Input<Pressure>,
    /// Pressure difference over the idling motor.
    pub free: Input<Pressure>,
    /// Viscosity of the oil at 40 °C.
    pub oil: Input<KinematicViscosity>,
    /// The motor's displacement.
    pub displacement: Input<Displacement>,
    /// η_v.
    pub volumetric: Input<Ratio>,
    /// η_hm.
    pub hydromechanical: Input<Ratio>,
    /// Rotor turns per motor turn.
    pub ratio: Input<Ratio>,
    supply: Vec<PieceFact>,
    back: Vec<PieceFact>,
    case_line: Vec<PieceFact>,
}

/// Something in a line whose figures are facts.
#[derive(Clone, Copy, Debug)]
enum PieceFact {
    Pipe { bore: Input<Length>, length: Input<Length> },
    Fitting { k: Input<Ratio>, bore: Input<Length> },
    Point { loss: Input<Pressure>, flow: VolumeRate },
    Filter { loss: Input<Pressure>, flow: VolumeRate, bypass: Input<Pressure> },
    Constant(Input<Pressure>),
}

/// Which way a scenario leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lean {
    /// As little flow and pressure at the head as may be: low tolerance, working speed, high losses, filter on bypass.
    Poor,
    /// As much as may be: high tolerance, high idle, the setting turned up, low losses.
    Rich,
    /// As much flow as may be, against a return that loses as much as may be: for pressures in the return.
    RichAgainstReturn,
}

/// A known fact from a stated figure with its tolerance of practice.
fn known<Q: Kind>(stated: Option<&Stated<Q>>, practice: Tolerance) -> Option<Fact<Q>> {
    stated.map(|s| Fact::Known(s.interval(practice), s.source))
}

/// A limit that a maker names: no tolerance but a stated one.
pub fn limit<Q: Kind>(id: FactId, stated: Option<&Stated<Q>>) -> Input<Q> {
    Input::new(id, known(stated, Tolerance::NONE).unwrap_or(Fact::Missing))
}

fn share(value: f64) -> Ratio {
    Ratio::from_si(value)
}

impl<'a> Facts<'a> {
    /// Gathers the facts.
    pub fn gather(
        carrier: &'a Carrier,
        circuit: &'a table::Circuit,
        head: &'a Head,
        conditions: &'a Conditions,
    ) -> Self {
        let motor = head.motor.as_ref();
        let motor_kind = motor.and_then(|m| m.kind);
        let practice =
            Practice { overrides: &conditions.assumptions, class: carrier.class, head: head.kind, motor: motor_kind };
        let pumps = pump_flow(carrier, circuit);
        let flow_known = known(circuit.flow.as_ref(), PUBLISHED_FLOW).or(pumps.map(|input| input.fact));
        let flow =
            Input { by_nature: (0.0, 0.1), ..Input::new(FactId::CircuitFlow, flow_known.unwrap_or(Fact::Missing)) };
        let assumed = |id, known, assumption| Input::or_assumed(id, known, assumption, practice.range(assumption));
        let efficiency = |id, stated: Option<&Stated<Ratio>>, assumption| Input {
            by_nature: (0.01, 1.0),
            ..Input::or_assumed(
                id,
                known(stated, Tolerance::both(0.02)).map(at_most_one),
                assumption,
                practice.range(assumption).map(Interval::<Ratio>::at_most_one),
            )
        };
        let relief = known(circuit.relief.as_ref(), PUBLISHED_PRESSURE).unwrap_or(Fact::Missing);
        let mut facts = Self {
            carrier,
            circuit,
            head,
            conditions,
            practice,
            flow,
            flow_reachable: reachable(circuit, flow),
            flow_limit: circuit
                .flow_limit
                .as_ref()
                .map(|s| Input::new(FactId::CircuitFlow, Fact::Known(s.interval(REGULATOR), s.source))),
            pumps,
            idle_ratio: idle_ratio(carrier, &practice),
            leak: assumed(FactId::PumpLeak, None, AssumptionId::PumpLeak),
            power: pump_power(carrier, circuit, &practice),
            relief: Input { by_nature: (0.0, 1e8), ..Input::new(FactId::CircuitRelief, relief) },
            cut_off: cut_off(carrier, circuit),
            relief_override: assumed(FactId::ReliefOverride, None, AssumptionId::ReliefOverride),
            working: Input { by_nature: (0.0, 1e8), ..limit(FactId::WorkingPressure, head.pressure.working.as_ref()) },
            free: Input::or_assumed(
                FactId::FreeRunning,
                None,
                AssumptionId::FreeRunning,
                practice.range(AssumptionId::FreeRunning),
            ),
            oil: Input::or_assumed(
                FactId::OilGrade,
                carrier.oil.as_ref().and_then(|oil| oil.grade).map(grade_fact),
                AssumptionId::OilViscosity,
                practice.range(AssumptionId::OilViscosity),
            ),
            displacement: Input {
                by_nature: (1e-7, 1e-2),
                ..limit(FactId::MotorDisplacement, motor.and_then(|m| m.displacement.as_ref()))
            },
            volumetric: efficiency(
                FactId::MotorVolumetric,
                motor.and_then(|m| m.volumetric_efficiency.as_ref()),
                AssumptionId::MotorVolumetric,
            ),
            hydromechanical: efficiency(
                FactId::MotorHydromechanical,
                motor.and_then(|m| m.hydromechanical_efficiency.as_ref()),
                AssumptionId::MotorHydromechanical,
            ),
            ratio: Input {
                by_nature: (0.01, 100.0),
                ..limit(FactId::MotorRatio, motor.and_then(|m| m.ratio.as_ref()))
            },
            supply: Vec::new(),
            back: Vec::new(),
            case_line: Vec::new(),
        };
        facts.supply = facts.supply_pieces();
        facts.back = facts.return_pieces();
        facts.case_line = facts.case_pieces();
        facts
    }

    /// Whether the return goes by a line of its own rather than through the spool. Unstated it goes through the spool,
    /// which loses more.
    pub fn returns_direct(&self) -> bool {
        self.circuit.return_path.route == Some(ReturnRoute::Direct)
    }

    /// How the motor is built.
    pub fn motor_kind(&self) -> Option<MotorKind> {
        self.practice.motor
    }

    /// The head's mass window, flow window and the like, as limits.
    pub fn least_or_rated<Q: Kind>(limits: &Limits<Q>, least: FactId) -> Input<Q> {
        limit(least, limits.least.as_ref().or(limits.rated.as_ref()))
    }

    /// The machine's operating mass. Of an entry that stands for a class, and of a machine that does not say, only the
    /// range of its class is assumed: enough for a certain no, never for a yes.
    pub fn operating_mass(&self) -> Input<Mass> {
        let stated = self.carrier.operating_mass.as_ref();
        let of_class = self.practice.range(AssumptionId::OperatingMass);
        let (fact, range) = if self.carrier.generic {
            (None, stated.map(|mass| mass.interval(PUBLISHED_MASS)).or(of_class))
        } else {
            (known(stated, PUBLISHED_MASS), of_class)
        };
        Input::or_assumed(FactId::OperatingMass, fact, AssumptionId::OperatingMass, range)
    }

    /// The power that the engine can spare for the pumps while the head works: what fan, alternator and, on a loader,
    /// driving leave of it. None when the engine's power is not stated.
    pub fn spared_power(&self) -> Option<(Input<Power>, Input<Ratio>)> {
        let engine = known(self.carrier.engine.power.as_ref(), PUBLISHED_POWER)?;
        let range = self.practice.range(AssumptionId::PumpPowerShare);
        let share = Input::or_assumed(FactId::PowerLimit, None, AssumptionId::PumpPowerShare, range);
        Some((Input::new(FactId::EnginePower, engine), share))
    }

    /// Efficiency of the pumps.
    pub fn pump_efficiency(&self) -> Input<Ratio> {
        let range = self.practice.range(AssumptionId::PumpEfficiency);
        Input::or_assumed(FactId::PowerLimit, None, AssumptionId::PumpEfficiency, range)
    }

    /// The pieces of a line with its couplings' loss, unknown sizes assumed.
    fn line(
        &self,
        line: &table::Line,
        fact: FactId,
        (bore_practice, length_practice): (AssumptionId, AssumptionId),
    ) -> Vec<PieceFact> {
        let pipe = |bore: Option<&Stated<Length>>, length: Option<&Stated<Length>>| PieceFact::Pipe {
            bore: Input::or_assumed(
                fact,
                known(bore, Tolerance::NONE),
                bore_practice,
                self.practice.range(bore_practice),
            ),
            length: Input::or_assumed(
                fact,
                known(length, Tolerance::both(0.05)),
                length_practice,
                self.practice.range(length_practice),
            ),
        };
        if line.segments.is_empty() {
            return vec![pipe(None, None)];
        }
        line.segments.iter().map(|s| pipe(s.bore.as_ref(), s.length.as_ref())).collect()
    }

    /// A coupled pair: by its published point, else by a loss coefficient on the velocity in the line.
    fn coupling(&self, coupling: Option<&Coupling>, line: &[PieceFact]) -> PieceFact {
        if let Some(point) = coupling.and_then(|c| c.loss.as_ref()) {
            return point_fact(FactId::CouplingLoss, point);
        }
        let k = Input::or_assumed(
            FactId::CouplingLoss,
            None,
            AssumptionId::CouplingLoss,
            self.practice.range(AssumptionId::CouplingLoss),
        );
        let of_line = line.iter().rev().find_map(|piece| match piece {
            PieceFact::Pipe { bore, .. } => Some(*bore),
            _ => None,
        });
        let size = known(coupling.and_then(|c| c.size.as_ref()), Tolerance::NONE);
        let bore = match (size, of_line) {
            (Some(fact), _) => Input::new(FactId::CouplingLoss, fact),
            (None, Some(bore)) => bore,
            (None, None) => Input::new(FactId::CouplingLoss, Fact::Missing),
        };
        PieceFact::Fitting { k, bore }
    }

    fn supply_pieces(&self) -> Vec<PieceFact> {
        let mut pieces =
            self.line(&self.circuit.supply, FactId::SupplyLine, (AssumptionId::SupplyBore, AssumptionId::SupplyLength));
        pieces.push(self.coupling(self.circuit.coupling.as_ref(), &pieces));
        pieces
    }

    fn return_pieces(&self) -> Vec<PieceFact> {
        let path = &self.circuit.return_path;
        let mut pieces =
            self.line(&path.line, FactId::ReturnLine, (AssumptionId::ReturnBore, AssumptionId::ReturnLength));
        // A direct return gets couplings of its own bore with the new line.
        let coupling = if self.returns_direct() { None } else { self.circuit.coupling.as_ref() };
        pieces.push(self.coupling(coupling, &pieces));
        match &path.loss {
            Some(point) => pieces.push(point_fact(FactId::ReturnLoss, point)),
            None if self.returns_direct() => {}
            None => {
                let loss = Input::or_assumed(
                    FactId::ReturnLoss,
                    None,
                    AssumptionId::SpoolReturnLoss,
                    self.practice.range(AssumptionId::SpoolReturnLoss),
                );
                let flow = self.flow.fact.interval().map_or(VolumeRate::from_si(0.1), |interval| interval.nominal);
                pieces.push(PieceFact::Point { loss, flow });
            }
        }
        if path.through_filter.unwrap_or(!self.returns_direct()) {
            pieces.push(self.filter(self.carrier.return_filter.as_ref()));
        }
        if let Some(filter) = &path.filter {
            pieces.push(self.filter(Some(filter)));
        }
        pieces.push(PieceFact::Constant(self.tank_pressure()));
        pieces
    }

    fn tank_pressure(&self) -> Input<Pressure> {
        Input::or_assumed(
            FactId::TankPressure,
            known(self.carrier.tank.as_ref().and_then(|tank| tank.pressure.as_ref()), PUBLISHED_PRESSURE),
            AssumptionId::TankPressure,
            self.practice.range(AssumptionId::TankPressure),
        )
    }

    fn filter(&self, filter: Option<&table::ReturnFilter>) -> PieceFact {
        let range: Option<Interval<Pressure>> = self.practice.range(AssumptionId::FilterLoss);
        let Some(point) = filter.and_then(|f| f.loss.as_ref()) else {
            return PieceFact::Constant(Input::or_assumed(FactId::FilterLoss, None, AssumptionId::FilterLoss, range));
        };
        let bypass = known(filter.and_then(|f| f.bypass.as_ref()), PUBLISHED_PRESSURE);
        PieceFact::Filter {
            loss: Input::new(FactId::FilterLoss, known(Some(&point.loss), PUBLISHED_LOSS).unwrap_or(Fact::Missing)),
            flow: point.flow.nominal,
            bypass: Input::or_assumed(FactId::FilterLoss, bypass, AssumptionId::FilterLoss, range),
        }
    }

    fn case_pieces(&self) -> Vec<PieceFact> {
        let Some(case) = &self.carrier.case_line else { return Vec::new() };
        let mut pieces =
            self.line(&case.line, FactId::CaseLineSize, (AssumptionId::CaseBore, AssumptionId::CaseLength));
        pieces.push(self.coupling(case.coupling.as_ref(), &pieces));
        pieces.push(PieceFact::Constant(self.tank_pressure()));
        pieces
    }

    /// The oil temperatures over which a check must hold at full speed: only the working one when likeliest figures are
    /// asked for, else from warm enough to hottest. Losses rise and leakage falls with viscosity all the way, so the
    /// ends are the worst.
    pub fn temperatures(&self, draw: &Draw, warm: ThermodynamicTemperature) -> Vec<ThermodynamicTemperature> {
        if draw.stance == Stance::Nominal { vec![self.conditions.working] } else { vec![warm, self.conditions.hot] }
    }

    /// The oil at a temperature; `thick` is whether thick oil is the worse.
    pub fn oil_at(&self, draw: &Draw, temperature: ThermodynamicTemperature) -> circuit::Oil {
        let nu40 = draw.take(&self.oil, Side::High);
        OilCurve::mineral(nu40).at(temperature)
    }

    /// The pumps as a scenario sees them.
    pub fn source(&self, draw: &Draw, lean: Lean) -> Source {
        let side = if lean == Lean::Poor { Side::Low } else { Side::High };
        let set_flow = draw.take(if lean == Lean::Poor { &self.flow } else { &self.flow_reachable }, side);
        let limit = self.flow_limit.as_ref().map(|limit| draw.take(limit, side));
        let pumps = self.pumps.as_ref().map(|pumps| draw.take(pumps, side));
        let load_sensing = self.control() == Some(PumpControl::LoadSensing);
        let nominal = draw.stance == Stance::Nominal;
        // A sealed regulator holds its flow whatever the engine does; a load-sensing spool does so too.
        let idle = if lean == Lean::Poor || nominal || limit.is_some() {
            1.0
        } else {
            draw.take(&self.idle_ratio, Side::High).si()
        };
        let greatest = pumps.unwrap_or(set_flow) * idle;
        let by_spool = if load_sensing { set_flow } else { set_flow * idle };
        let set = limit.map_or(by_spool, |limit| if limit < by_spool { limit } else { by_spool });
        Source {
            greatest,
            set: Some(set),
            leak: greatest * draw.take(&self.leak, side.other()).si(),
            leak_at: draw.take(&self.relief, Side::Low).max(Pressure::from_si(1e6)),
            power: Some(draw.take(&self.power, side)),
            surplus_is_pumped: self.control() == Some(PumpControl::Fixed),
        }
    }

    /// How the pumps of this circuit are commanded, when all say the same.
    fn control(&self) -> Option<PumpControl> {
        let mut controls = self.pumps_of_circuit().map(|pump| pump.control);
        let first = controls.next()??;
        controls.all(|control| control == Some(first)).then_some(first)
    }

    fn pumps_of_circuit(&self) -> impl Iterator<Item = &table::Pump> {
        self.carrier.pumps.iter().filter(|pump| self.circuit.pumps.contains(&pump.id))
    }

    /// The circuit in one scenario and one oil temperature.
    pub fn circuit(&self, draw: &Draw, lean: Lean, temperature: ThermodynamicTemperature) -> circuit::Circuit {
        let losses = if lean == Lean::Rich { Side::Low } else { Side::High };
        let supply = if lean == Lean::Poor { Side::High } else { Side::Low };
        let relief_side = if lean == Lean::Poor { Side::Low } else { Side::High };
        let relief = draw.take(&self.relief, relief_side);
        // Where the pumps cut off below the relief, the pressure ends there; what can hurt takes no credit for it.
        let cut_off = self.cut_off.as_ref().filter(|_| lean == Lean::Poor).map(|cut_off| draw.take(cut_off, Side::Low));
        let full_flow = cut_off.filter(|cut_off| *cut_off < relief).unwrap_or(relief);
        circuit::Circuit {
            source: self.source(draw, lean),
            relief: Some(Relief::new(full_flow, draw.take(&self.relief_override, relief_side.other()).si())),
            supply: resistance(draw, &self.supply, supply),
            back: resistance(draw, &self.back, losses),
            oil: self.oil_at(draw, temperature),
        }
    }

    /// The case line.
    pub fn case_resistance(&self, draw: &Draw) -> Resistance {
        resistance(draw, &self.case_line, Side::High)
    }

    /// The pressure difference over the motor at work. A figure stated at the inlet is less by the back pressure at the
    /// head's least flow; without a stated basis it is taken as a difference, which needs more.
    pub fn working_difference(&self, draw: &Draw, circuit: &circuit::Circuit) -> Pressure {
        let stated = draw.take(&self.working, Side::High);
        if self.head.pressure.basis != Some(PressureBasis::Inlet) {
            return stated;
        }
        let least = self.head.flow.least.or(self.head.flow.rated).map_or(VolumeRate::from_si(0.0), |s| s.nominal);
        (stated - circuit.back.loss(least, &circuit.oil)).max(Pressure::from_si(0.0))
    }

    /// The pressure difference over the idling motor: never more than at work.
    pub fn free_difference(&self, draw: &Draw) -> Pressure {
        let free = draw.take(&self.free, Side::Low);
        match self.working.fact.interval() {
            Some(working) if working.nominal < free => working.nominal,
            _ => free,
        }
    }

    /// The motor at nominal figures, for what is shown; none when its displacement is not known.
    pub fn nominal_motor(&self) -> Option<Motor> {
        let draw = Draw::new(Stance::Nominal);
        let motor = Motor {
            displacement: draw.take(&self.displacement, Side::Low),
            volumetric: draw.take(&self.volumetric, Side::Low).si(),
            hydromechanical: draw.take(&self.hydromechanical, Side::Low).si(),
            ratio: draw.take(&self.ratio, Side::Low).si(),
        };
        draw.missing().is_empty().then_some(motor)
    }

    /// Flow through the case line: as stated and then worn to twice that, else the range of practice of the motor's flow.
    pub fn case_flow(&self, draw: &Draw, through_motor: VolumeRate) -> VolumeRate {
        if let Some(stated) = &self.head.outlet.case_flow {
            // Worn motors leak twice as much (1.5 to 3 times); common practice, no published source.
            let worn = if draw.stance == Stance::Nominal { 1.0 } else { 2.0 };
            return stated.nominal * worn;
        }
        let share = Input::or_assumed(
            FactId::CaseFlow,
            None,
            AssumptionId::CaseFlow,
            self.practice.range::<Ratio>(AssumptionId::CaseFlow),
        );
        through_motor * draw.take(&share, Side::High).si()
    }

    /// The speed of the rotor that nothing may exceed.
    pub fn rotor_limit(&self) -> Input<AngularVelocity> {
        limit(
            FactId::RotorGreatestSpeed,
            self.head.motor.as_ref().and_then(|motor| motor.rotor_speed.greatest.as_ref()),
        )
    }

    /// Whether the head's kind has a rotor that could overspeed.
    pub fn has_rotor(&self) -> bool {
        self.head.kind.has_rotor()
    }

    /// Whether the head works by blows rather than by turning.
    pub fn is_impact(&self) -> bool {
        self.head.kind == HeadKind::Breaker || self.motor_kind() == Some(MotorKind::Impact)
    }
}

fn at_most_one(fact: Fact<Ratio>) -> Fact<Ratio> {
    match fact {
        Fact::Known(interval, source) => Fact::Known(interval.at_most_one(), source),
        other => other,
    }
}

impl Interval<Ratio> {
    /// An efficiency: by nature no more than one.
    fn at_most_one(self) -> Self {
        self.map(|ratio| if ratio > share(1.0) { share(1.0) } else { ratio })
    }
}

fn point_fact(id: FactId, point: &PointLoss) -> PieceFact {
    let loss = known(Some(&point.loss), PUBLISHED_LOSS).unwrap_or(Fact::Missing);
    PieceFact::Point { loss: Input::new(id, loss), flow: point.flow.nominal }
}

fn grade_fact(grade: table::OilGrade) -> Fact<KinematicViscosity> {
    let forty = ThermodynamicTemperature::from_si(Unit::Celsius.to_si(40.0));
    // ISO 3448: each grade is its mid-point viscosity at 40 °C ± 10 %.
    let interval = Interval::around(OilCurve::of_grade(grade).viscosity(forty), Tolerance::both(0.10));
    Fact::Known(interval, crate::quantity::Source::Published)
}

/// The sum of the greatest flows of the pumps that feed a circuit; none when one of them does not say.
fn pump_flow(carrier: &Carrier, circuit: &table::Circuit) -> Option<Input<VolumeRate>> {
    if circuit.pumps.is_empty() {
        return None;
    }
    let mut sum = Interval::exact(VolumeRate::from_si(0.0));
    let mut source = crate::quantity::Source::Measured;
    for id in &circuit.pumps {
        let stated = carrier.pumps.iter().find(|pump| pump.id == *id)?.greatest_flow.as_ref()?;
        let flow = stated.interval(PUBLISHED_FLOW);
        sum = Interval { low: sum.low + flow.low, nominal: sum.nominal + flow.nominal, high: sum.high + flow.high };
        source = stated.source.min(source);
    }
    Some(Input::new(FactId::CircuitFlow, Fact::Known(sum, source)))
}

/// The lowest of the pressures at which the pumps of a circuit cut off; none when one of them does not say.
fn cut_off(carrier: &Carrier, circuit: &table::Circuit) -> Option<Input<Pressure>> {
    let pump = |id: &table::Id| carrier.pumps.iter().find(|pump| pump.id == *id)?.pressure;
    let stated: Option<Vec<Stated<Pressure>>> = circuit.pumps.iter().map(pump).collect();
    let lowest = stated?.into_iter().min_by(|a, b| a.nominal.si().total_cmp(&b.nominal.si()))?;
    Some(Input::new(FactId::CircuitRelief, Fact::Known(lowest.interval(PUBLISHED_PRESSURE), lowest.source)))
}

/// The flow to which the circuit can be turned up without tools: its greatest, whatever it is set to, unless the setting
/// can be locked.
fn reachable(circuit: &table::Circuit, flow: Input<VolumeRate>) -> Input<VolumeRate> {
    let Some(setting) = &circuit.flow_setting else { return flow };
    if setting.locked == Some(true) {
        return flow;
    }
    match flow.fact {
        Fact::Known(interval, source) if interval.nominal < setting.range.high => {
            let most = Interval::around(setting.range.high, PUBLISHED_FLOW);
            Input { fact: Fact::Known(most, source), ..flow }
        }
        _ => flow,
    }
}

/// High idle over working speed: from both speeds, else practice.
fn idle_ratio(carrier: &Carrier, practice: &Practice) -> Input<Ratio> {
    let engine = &carrier.engine;
    let known = engine.high_idle.as_ref().zip(engine.working_speed.as_ref()).map(|(idle, working)| {
        let ratio = idle.nominal / working.nominal;
        Fact::Known(Interval::exact(share(ratio.si().max(1.0))), idle.source)
    });
    let range = practice.range::<Ratio>(AssumptionId::EngineDroop).map(|droop| droop.map(|d| share(1.0 + d.si())));
    Input { by_nature: (1.0, 1.2), ..Input::or_assumed(FactId::HighIdle, known, AssumptionId::EngineDroop, range) }
}

/// Hydraulic power that the pumps of a circuit may give: the sum of the limits of their groups (the other pumps of a
/// group idle), else what practice leaves of the engine.
fn pump_power(carrier: &Carrier, circuit: &table::Circuit, practice: &Practice) -> Input<Power> {
    let by_nature = (0.0, 2e6);
    let pumps: Vec<_> = carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id)).collect();
    let mut sum = Some(Interval::exact(Power::from_si(0.0)));
    let mut seen = Vec::new();
    for pump in &pumps {
        let stated = match &pump.power_group {
            Some(group) if seen.contains(&group) => continue,
            Some(group) => {
                seen.push(group);
                carrier.power_groups.iter().find(|g| g.id == *group).and_then(|g| g.limit.as_ref())
            }
            None => pump.power_limit.as_ref(),
        };
        sum = sum.zip(stated).map(|(sum, stated)| {
            let own = stated.interval(PUBLISHED_POWER);
            Interval { low: sum.low + own.low, nominal: sum.nominal + own.nominal, high: sum.high + own.high }
        });
    }
    if let (Some(sum), false) = (sum, pumps.is_empty()) {
        let fact = Fact::Known(sum, crate::quantity::Source::Published);
        return Input { by_nature, ..Input::new(FactId::PowerLimit, fact) };
    }
    let engine = carrier.engine.power.as_ref().map(|power| power.interval(PUBLISHED_POWER));
    let shares: Option<Interval<Ratio>> = practice.range(AssumptionId::PumpPowerShare);
    let efficiency: Option<Interval<Ratio>> = practice.range(AssumptionId::PumpEfficiency);
    let range = engine.zip(shares).zip(efficiency).map(|((engine, share), eta)| Interval {
        low: engine.low * share.low * eta.low,
        nominal: engine.nominal * share.nominal * eta.nominal,
        high: engine.high * share.high * eta.high,
    });
    Input { by_nature, ..Input::or_assumed(FactId::PowerLimit, None, AssumptionId::PumpPowerShare, range) }
}

/// The resistance that a draw makes of facts; `worse` is whether high or low losses make the answer worse.
fn resistance(draw: &Draw, pieces: &[PieceFact], worse: Side) -> Resistance {
    let dirty = draw.stance != Stance::Nominal && worse == Side::High;
    let pieces = pieces
        .iter()
        .map(|piece| match piece {
            PieceFact::Pipe { bore, length } => Piece::Pipe {
                bore: draw.take(bore, worse.other()),
                length: draw.take(length, worse),
                roughness: Roughness::default(),
            },
            PieceFact::Fitting { k, bore } => {
                Piece::Fitting { k: draw.take(k, worse).si(), bore: draw.take(bore, worse.other()) }
            }
            PieceFact::Point { loss, flow } => Piece::Point { loss: draw.take(loss, worse), flow: *flow },
            // Work uses the dirty filter: at its bypass, not as new.
            PieceFact::Filter { bypass, .. } if dirty => Piece::Constant(draw.take(bypass, worse)),
            PieceFact::Filter { loss, flow, bypass } => {
                Piece::Filter { loss: draw.take(loss, worse), flow: *flow, bypass: draw.take(bypass, worse) }
            }
            PieceFact::Constant(pressure) => Piece::Constant(draw.take(pressure, worse)),
        })
        .collect();
    Resistance { pieces }
}

impl Facts<'_> {
    /// The most that can flow when nothing hinders: setting turned up, engine at high idle, no leakage, no load.
    pub fn unhindered_flow(&self, draw: &Draw) -> VolumeRate {
        let limit = self.flow_limit.as_ref().map(|limit| draw.take(limit, Side::High));
        let bounded = limit.filter(|_| draw.stance != Stance::Nominal);
        // A sealed regulator alone bounds it: whatever else is set or unknown no longer matters.
        if let Some(limit) = bounded {
            return limit;
        }
        let reachable = draw.take(&self.flow_reachable, Side::High);
        let held = self.control() == Some(PumpControl::LoadSensing);
        if held { reachable } else { reachable * draw.take(&self.idle_ratio, Side::High).si() }
    }
}
