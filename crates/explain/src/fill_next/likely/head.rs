//! What is likely found of an attachment where it is more than one figure of one place.

use super::{Pair, Which, figure, stated};
use fit::FactId;
use quantity::{AngularVelocity, Displacement, Quantity, Ratio, Torque, Unit};
use std::f64::consts::TAU;
use table::{
    AssumptionId, Centre, Cleanliness, Drive, Guard, Limits, Motor, MotorKind, Mounting, OilGrade, OilKind, Ways,
};

impl Pair<'_> {
    /// Sets a fact of the attachment; none where there is no such answer.
    pub(super) fn set_head(&mut self, fact: FactId, which: Which) -> Option<()> {
        let mass = self.carrier.operating_mass.map(|mass| mass.nominal);
        match fact {
            FactId::HeadMounting => {
                let matching = self.carrier.mounting.first().cloned();
                let other = Mounting::Pins {
                    pin: figure(which.of(20.0, 50.0, 120.0), Unit::Millimetre),
                    width: None,
                    centres: None,
                    end: None,
                };
                let found = if which == Which::Likeliest { matching.unwrap_or(other) } else { other };
                self.head.mounting = vec![found.at(None)];
            }
            FactId::CarrierMassWindow => {
                // Made for machines like this one, for smaller or for larger ones.
                let around = |share: f64| mass.map(|mass| stated(mass * share));
                self.head.carrier_mass = Limits {
                    least: around(which.of(0.3, 0.7, 1.5)),
                    rated: None,
                    greatest: around(which.of(0.7, 1.5, 3.0)),
                };
            }
            FactId::HeadWays => self.head.ways = Some(which.either(Ways::Two, Ways::One)),
            FactId::HeadCentre => self.head.centre = Some(which.either(Centre::Open, Centre::Closed)),
            FactId::ExtraDrive => {
                for extra in self.head.extra_functions.iter_mut().filter(|extra| extra.drive.is_none()) {
                    extra.drive = Some(which.either(Drive::Electric, Drive::Hydraulic));
                }
            }
            FactId::ExtraPressure => {
                for extra in self.head.extra_functions.iter_mut().filter(|extra| extra.greatest_pressure.is_none()) {
                    extra.greatest_pressure = Some(figure(which.of(160.0, 220.0, 300.0), Unit::Bar));
                }
            }
            FactId::Coils => {
                for extra in &mut self.head.extra_functions {
                    extra.voltage = extra.voltage.or(Some(figure(which.either(12.0, 24.0), Unit::Volt)));
                    extra.current = extra.current.or(Some(figure(which.of(1.0, 2.0, 4.0), Unit::Ampere)));
                }
            }
            _ => return if self.set_demand(fact, which) { Some(()) } else { self.set_motor(fact, which) },
        }
        Some(())
    }

    fn set_demand(&mut self, fact: FactId, which: Which) -> bool {
        let demands = &mut self.head.demands;
        match fact {
            FactId::GuardsDemanded => {
                demands.guards = Some(which.either(vec![Guard::FrontGuard], Vec::new()));
            }
            FactId::OilKindsDemanded => demands.oil_kinds = vec![OilKind::MineralHm, OilKind::MineralHv],
            FactId::OilGradesDemanded => demands.oil_grades = vec![OilGrade::Vg32, OilGrade::Vg46, OilGrade::Vg68],
            FactId::CleanlinessDemanded => demands.cleanliness = Some(Cleanliness::with_last(which.of(13, 15, 17))),
            FactId::FilterDemanded => demands.return_filter = Some(which.either(true, false)),
            FactId::FiltrationDemanded => demands.filter_fineness_um = Some(which.of(6, 10, 25)),
            _ => return false,
        }
        true
    }

    fn set_motor(&mut self, fact: FactId, which: Which) -> Option<()> {
        let flow = self.head.flow.rated.or(self.head.flow.greatest).or(self.head.flow.least).map(|flow| flow.nominal);
        let volumetric = self.range::<Ratio>(AssumptionId::MotorVolumetric).map(|range| which.within(range));
        let other = self.range::<Ratio>(AssumptionId::MotorHydromechanical).map(|range| which.within(range));
        let motor = self.head.motor.get_or_insert_with(blank_motor);
        match fact {
            FactId::MotorKind => {
                motor.kind = Some(which.of(MotorKind::Orbital, MotorKind::AxialPiston, MotorKind::GearDrained));
            }
            FactId::MotorDisplacement => {
                // What turns 2000 times a minute at the rated flow.
                let turns = Unit::RevolutionPerMinute.to_si(which.of(1400.0, 2000.0, 3000.0));
                motor.displacement = Some(stated(Displacement::from_si(flow?.si() / turns * TAU)));
            }
            FactId::MotorRatio => motor.ratio = Some(figure(1.0, Unit::One)),
            FactId::MotorVolumetric => motor.volumetric_efficiency = volumetric,
            FactId::MotorHydromechanical => motor.hydromechanical_efficiency = other,
            FactId::RotorGreatestSpeed => {
                let rated = motor.rotor_speed.rated.map(|rated| rated.nominal * which.of(1.2, 1.4, 1.8));
                let speed = rated.unwrap_or(AngularVelocity::from_si(Unit::RevolutionPerMinute.to_si(2500.0)));
                motor.rotor_speed.greatest = Some(stated(speed));
            }
            FactId::TorqueLimit => {
                motor.torque_limit = Some(stated(Torque::from_si(which.of(1e3, 5e3, 20e3))));
            }
            FactId::CaseFlow => self.head.outlet.case_flow = Some(stated(flow? * which.of(0.01, 0.03, 0.05))),
            _ => return None,
        }
        Some(())
    }
}

/// A motor of which nothing is known.
fn blank_motor() -> Motor {
    Motor {
        kind: None,
        displacement: None,
        volumetric_efficiency: None,
        hydromechanical_efficiency: None,
        ratio: None,
        rotor_speed: Limits::default(),
        inertia: None,
        torque_limit: None,
    }
}
