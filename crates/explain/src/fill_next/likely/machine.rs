//! What is likely found of a machine where it is more than one figure of one place.

use super::{Pair, Which, figure, stated};
use fit::FactId;
use quantity::{Length, Mass, Pressure, Quantity, Ratio, Stated, Unit, VolumeRate};
use table::{
    AssumptionId, Cleanliness, Coupling, CouplingStandard, Electrics, Guard, Id, LiftPoint, Lifting, Line, MachineEnd,
    Mounting, Oil, OilGrade, OilKind, Output, OutputKind, PointLoss, PriorityUser, Pump, PumpControl, ReliefRole,
    ReturnFilter, ReturnRoute, Segment, Tank, ToolCoupler, Ways,
};

impl Pair<'_> {
    /// Sets a fact of the machine; none where there is no such answer.
    pub(super) fn set_machine(&mut self, fact: FactId, which: Which) -> Option<()> {
        match fact {
            FactId::CarrierMounting | FactId::MountingEnd => {
                self.set_mounting(which);
                Some(())
            }
            FactId::ToolCoupler | FactId::CouplerEnd => {
                let mass = self.mass();
                self.carrier.coupler = Some(ToolCoupler {
                    fitted: which != Which::High,
                    mass: Some(stated(Mass::from_si(mass * which.of(0.02, 0.014, 0.01)))),
                    capacity: Some(stated(Mass::from_si(mass * which.of(0.08, 0.25, 0.4)))),
                    secured: self.carrier.coupler.as_ref().and_then(|coupler| coupler.secured),
                    end: self.end(),
                });
                Some(())
            }
            FactId::Lifting | FactId::LiftChart | FactId::GreatestReach => self.set_lifting(which),
            FactId::LiftGeometry => {
                let size = self.mass().cbrt();
                let lifting = self.carrier.lifting.get_or_insert_default();
                let length = |share: f64| Some(stated(Length::from_si(size * share)));
                lifting.tipping_edge = lifting.tipping_edge.or(length(which.of(0.04, 0.05, 0.06)));
                lifting.boom_foot = lifting.boom_foot.or(length(which.of(0.008, 0.013, 0.02)));
                lifting.tipping_axis = lifting.tipping_axis.or(length(which.of(0.04, 0.06, 0.1)));
                lifting.load_centre = lifting.load_centre.or(length(which.of(0.02, 0.03, 0.04)));
                Some(())
            }
            FactId::Guards => {
                let every = vec![Guard::Rops, Guard::Fops, Guard::FrontGuard, Guard::ImpactWindow];
                self.carrier.guards = Some(which.of(Vec::new(), every, vec![Guard::Rops]));
                Some(())
            }
            FactId::WorkingSpeed | FactId::HighIdle => {
                let engine = &mut self.carrier.engine;
                let speed = engine.working_speed.unwrap_or(figure(2000.0, Unit::RevolutionPerMinute));
                engine.working_speed = Some(speed);
                engine.high_idle = Some(speed.map(|speed| speed * which.of(1.10, 1.07, 1.04)));
                Some(())
            }
            FactId::TankPressure => {
                let range = self.range(AssumptionId::TankPressure)?;
                self.carrier.tank.get_or_insert_with(Tank::default).pressure = Some(which.within(range));
                Some(())
            }
            FactId::Voltage => {
                self.electrics().voltage = Some(figure(which.either(12.0, 24.0), Unit::Volt));
                Some(())
            }
            FactId::Outputs => {
                let output = || Output {
                    name: None,
                    kind: Some(OutputKind::Switched),
                    current: Some(figure(8.0, Unit::Ampere)),
                };
                self.electrics().outputs = Some(which.either(vec![output(), output()], Vec::new()));
                Some(())
            }
            FactId::SpareButtons => {
                self.electrics().spare_buttons = Some(which.of(0, 2, 4));
                Some(())
            }
            FactId::OilKind | FactId::OilGrade | FactId::OilCleanliness => {
                self.set_oil(fact, which);
                Some(())
            }
            FactId::FilterLoss | FactId::FiltrationRating => {
                self.set_filter(fact, which);
                Some(())
            }
            FactId::PowerLimit
            | FactId::PumpMargin
            | FactId::PumpCutOff
            | FactId::PumpControl
            | FactId::PumpFlow
            | FactId::AlsoFeeds => self.set_pumps(fact, which),
            _ => self.set_circuit(fact, which),
        }
    }

    fn mass(&self) -> f64 {
        let of_class = || self.range::<Mass>(AssumptionId::OperatingMass).map_or(5000.0, |range| range.nominal.si());
        self.carrier.operating_mass.map_or_else(of_class, |mass| mass.nominal.si())
    }

    fn flow(&self) -> VolumeRate {
        let stated = self.carrier.circuit(&self.circuit).and_then(|circuit| circuit.flow).map(|flow| flow.nominal);
        let of_class = || self.range::<VolumeRate>(AssumptionId::CircuitFlow).map(|range| range.nominal);
        stated.or_else(of_class).unwrap_or(VolumeRate::from_si(1e-3))
    }

    fn end(&self) -> Option<MachineEnd> {
        self.carrier.circuit(&self.circuit).and_then(|circuit| circuit.end)
    }

    fn electrics(&mut self) -> &mut Electrics {
        self.carrier.electrics.get_or_insert_with(Electrics::default)
    }

    /// As the attachment has it, or of another size.
    fn set_mounting(&mut self, which: Which) {
        let end = self.end();
        let asked = self.head.mounting.first().cloned();
        let matching = asked.unwrap_or(Mounting::Pins {
            pin: figure(50.0, Unit::Millimetre),
            width: Some(figure(200.0, Unit::Millimetre)),
            centres: Some(figure(250.0, Unit::Millimetre)),
            end: None,
        });
        let other = Mounting::Pins {
            pin: figure(which.of(20.0, 0.0, 120.0), Unit::Millimetre),
            width: None,
            centres: None,
            end: None,
        };
        self.carrier.mounting = vec![if which == Which::Likeliest { matching } else { other }.at(end)];
    }

    /// An arm lifts 6 to 15 % of the machine's mass at its greatest reach, a loader a fifth to two fifths.
    fn set_lifting(&mut self, which: Which) -> Option<()> {
        let (mass, end) = (self.mass(), self.carrier.class.only_end().or(self.end())?);
        let lifting = self.carrier.lifting.get_or_insert_with(Lifting::default);
        if end == MachineEnd::Loader {
            let rated = Mass::from_si(mass * which.of(0.15, 0.25, 0.4));
            lifting.rated_operating_capacity = Some(stated(rated));
            return Some(());
        }
        let reach: Stated<Length> = stated(Length::from_si(mass.cbrt() * 0.24));
        lifting.chart = vec![LiftPoint {
            reach,
            height: figure(0.0, Unit::Metre),
            over_side: true,
            mass: stated(Mass::from_si(mass * which.of(0.06, 0.10, 0.15))),
        }];
        lifting.greatest_reach = Some(reach);
        Some(())
    }

    fn set_oil(&mut self, fact: FactId, which: Which) {
        let none = Oil { kind: None, grade: None, viscosity_40: None, viscosity_100: None, cleanliness: None };
        let oil = self.carrier.oil.get_or_insert(none);
        match fact {
            FactId::OilKind => oil.kind = Some(which.of(OilKind::EngineOil, OilKind::MineralHm, OilKind::MineralHv)),
            FactId::OilGrade => oil.grade = Some(which.of(OilGrade::Vg32, OilGrade::Vg46, OilGrade::Vg68)),
            _ => oil.cleanliness = Some(Cleanliness::with_last(which.of(17, 15, 13))),
        }
    }

    fn set_filter(&mut self, fact: FactId, which: Which) {
        let through = stated(self.flow() * 2.0);
        let none = ReturnFilter { rated_flow: None, loss: None, bypass: None, fineness_um: None, spare_port: None };
        let filter = self.carrier.return_filter.get_or_insert(none);
        if fact == FactId::FiltrationRating {
            filter.fineness_um = Some(which.of(25, 10, 6));
            return;
        }
        filter.rated_flow = Some(through);
        filter.loss =
            Some(PointLoss { loss: figure(which.of(0.3, 0.5, 1.0), Unit::Bar), flow: through, viscosity: None });
        filter.bypass = Some(figure(which.of(1.5, 1.7, 3.5), Unit::Bar));
    }

    /// Sets a fact of every pump that feeds the circuit; where none is stated of one that feeds it alone.
    fn set_pumps(&mut self, fact: FactId, which: Which) -> Option<()> {
        let share = self.range::<Ratio>(AssumptionId::PumpPowerShare)?;
        let limit = self.carrier.engine.power.map(|power| stated(power.nominal * which.within(share).nominal.si()));
        let margin = which.within(self.range::<Pressure>(AssumptionId::LoadSensingMargin)?);
        let rated = which.within(self.range::<Pressure>(AssumptionId::PumpRatedPressure)?);
        let flow = stated(self.flow() * which.of(1.0, 1.15, 1.4));
        let circuit = self.carrier.circuits.iter_mut().find(|circuit| circuit.id == self.circuit)?;
        // A pump cuts off a little above the relief of what it feeds.
        let cut_off = circuit.relief.map_or(rated, |relief| stated(relief.nominal * which.of(0.95, 1.1, 1.3)));
        let is_excavator = self.carrier.class.is_excavator();
        if circuit.pumps.is_empty() {
            let free = |id: &Id| !self.carrier.pumps.iter().any(|pump| pump.id == *id);
            let id = ["pump", "pump-2", "pump-3"].iter().filter_map(|id| Id::new(id).ok()).find(free)?;
            circuit.pumps = vec![id.clone()];
            self.carrier.pumps.push(blank_pump(id));
        }
        for pump in self.carrier.pumps.iter_mut().filter(|pump| circuit.pumps.contains(&pump.id)) {
            match fact {
                FactId::PowerLimit => {
                    (pump.power_limit, pump.power_group) = (Some(limit?), None);
                }
                FactId::PumpMargin => pump.margin = pump.margin.or(Some(margin)),
                FactId::PumpCutOff => pump.pressure = pump.pressure.or(Some(cut_off)),
                FactId::PumpFlow => pump.greatest_flow = pump.greatest_flow.or(Some(flow)),
                FactId::AlsoFeeds => {
                    pump.also_feeds = Some(which.either(Vec::new(), vec![PriorityUser::Steering]));
                }
                _ => {
                    let usual = if is_excavator { PumpControl::LoadSensing } else { PumpControl::Fixed };
                    let other = if is_excavator { PumpControl::Fixed } else { PumpControl::LoadSensing };
                    pump.control = pump.control.or(Some(which.of(other, usual, PumpControl::Negative)));
                }
            }
        }
        Some(())
    }

    fn set_circuit(&mut self, fact: FactId, which: Which) -> Option<()> {
        let bores = |supply| if supply { AssumptionId::SupplyBore } else { AssumptionId::ReturnBore };
        let lengths = |supply| if supply { AssumptionId::SupplyLength } else { AssumptionId::ReturnLength };
        let line = |supply| {
            let (bore, length) = (self.range::<Length>(bores(supply)), self.range::<Length>(lengths(supply)));
            // What is narrow and what is long loses most.
            let length = length.map(|range| stated(which.of(range.high, range.nominal, range.low)));
            (bore.map(|range| which.within(range)), length)
        };
        let (supply, back) = (line(true), line(false));
        let case = (self.range(AssumptionId::CaseBore), self.range(AssumptionId::CaseLength));
        let through = stated(self.flow());
        let [by_spool, direct] = [AssumptionId::SpoolReturnLoss, AssumptionId::DirectReturnLoss]
            .map(|id| self.range::<Pressure>(id).map(|range| which.within(range)));
        if fact == FactId::CaseLineSize {
            let (bore, length) = (case.0.map(|range| which.within(range)), case.1.map(|range| which.within(range)));
            pieces(&mut self.carrier.case_line.as_mut()?.line, (bore, length));
            return Some(());
        }
        let circuit = self.carrier.circuits.iter_mut().find(|circuit| circuit.id == self.circuit)?;
        let loss = |loss| PointLoss { loss, flow: through, viscosity: None };
        match fact {
            FactId::CircuitEnd => circuit.end = Some(which.either(MachineEnd::Arm, MachineEnd::Loader)),
            FactId::FlowSettingLocked => circuit.flow_setting.as_mut()?.locked = Some(which.either(true, false)),
            FactId::SupplyLine => pieces(&mut circuit.supply, supply),
            FactId::ReturnLine => pieces(&mut circuit.return_path.line, back),
            FactId::CouplingLoss => {
                let coupling = circuit.coupling.get_or_insert_default();
                coupling.loss = Some(loss(figure(which.of(1.0, 2.0, 4.0), Unit::Bar)));
            }
            FactId::ReturnRoute => {
                circuit.return_path.route = Some(which.either(ReturnRoute::Spool, ReturnRoute::Direct));
            }
            FactId::ReturnLoss => {
                let is_direct = circuit.return_path.route == Some(ReturnRoute::Direct);
                circuit.return_path.loss = Some(loss(if is_direct { direct? } else { by_spool? }));
            }
            FactId::Coupling => {
                circuit.coupling = Some(Coupling {
                    standard: Some(CouplingStandard::Iso16028),
                    rated_flow: Some(stated(through.nominal * which.of(0.8, 1.2, 2.0))),
                    rated_pressure: Some(figure(which.of(200.0, 300.0, 350.0), Unit::Bar)),
                    screwed: Some(which != Which::Low),
                    ..Coupling::default()
                });
            }
            FactId::ReliefRole => {
                circuit.relief_role = Some(which.of(ReliefRole::Main, ReliefRole::WorkLimit, ReliefRole::Shock));
            }
            FactId::CircuitWays => circuit.ways = Some(which.either(Ways::Two, Ways::One)),
            _ => return None,
        }
        Some(())
    }
}

/// Bore and length of a line where they are not stated; one of which nothing is known is one piece.
fn pieces(line: &mut Line, (bore, length): (Option<Stated<Length>>, Option<Stated<Length>>)) {
    if line.segments.is_empty() {
        line.segments.push(Segment { bore: None, length: None, standard: None, rating: None });
    }
    // The length of several is that of all of them.
    let each = f64::from(u32::try_from(line.segments.len()).unwrap_or(1));
    for piece in &mut line.segments {
        piece.bore = piece.bore.or(bore);
        piece.length = piece.length.or(length.map(|length| length.map(|length| length / each)));
    }
}

/// A pump of which nothing is known.
fn blank_pump(id: Id) -> Pump {
    Pump {
        id,
        kind: None,
        control: None,
        displacement: None,
        greatest_flow: None,
        pressure: None,
        power_limit: None,
        power_group: None,
        margin: None,
        also_feeds: None,
    }
}
