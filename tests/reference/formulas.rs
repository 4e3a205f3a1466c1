//! What printed examples ask for and no verdict does: pumps, cylinders and holes by themselves, and the arithmetic around them.

use hydraulics::{Motor, Oil};
use quantity::{
    AngularVelocity, Area, Displacement, Energy, Force, Length, MassDensity, MomentOfInertia, Power, Pressure,
    Quantity, Ratio, SpecificHeatCapacity, TemperatureInterval, ThermalConductance, Torque, Unit, Velocity, VolumeRate,
};
use std::f64::consts::{PI, TAU};
use uom::si::area::square_meter;
use uom::si::energy::joule;
use uom::si::force::newton;
use uom::si::pressure::bar;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
use uom::si::temperature_interval::kelvin;

/// A displacement pump: `Q = V·n·η_v`, `T = V·p/(2π·η_hm)`, `P = T·ω`.
#[derive(Clone, Copy)]
pub(crate) struct Pump {
    pub displacement: Displacement,
    pub volumetric: f64,
    pub hydromechanical: f64,
}

impl Pump {
    /// The flow that it would give without leakage.
    pub fn theoretical(&self, speed: AngularVelocity) -> VolumeRate {
        VolumeRate::from_si(self.displacement.si() * speed.si() / TAU)
    }

    pub fn flow(&self, speed: AngularVelocity) -> VolumeRate {
        self.theoretical(speed) * self.volumetric
    }

    pub fn torque(&self, pressure: Pressure) -> Torque {
        Torque::from_si(self.displacement.si() * pressure.si() / (TAU * self.hydromechanical))
    }

    pub fn shaft_power(&self, speed: AngularVelocity, pressure: Pressure) -> Power {
        Power::from_si(self.torque(pressure).si() * speed.si())
    }
}

/// Displacement of an external gear pump from the circles of its gears: `V = π/4·(D_o² − D_i²)·L`.
pub(crate) fn gear_displacement(outside: Length, inside: Length, width: Length) -> Displacement {
    Displacement::from_si(((outside * outside - inside * inside) * width).si() * PI / 4.0)
}

/// What motors are asked for beside speed and power.
pub(crate) trait MotorFormulas {
    /// The flow at which the rotor turns at a speed, `Q = n·V/η_v`.
    fn flow_for(&self, rotor: AngularVelocity) -> VolumeRate;
    /// Torque at the shaft, `T = Δp·V·η_hm/2π`.
    fn torque(&self, difference: Pressure) -> Torque;
}

impl MotorFormulas for Motor {
    fn flow_for(&self, rotor: AngularVelocity) -> VolumeRate {
        VolumeRate::from_si(rotor.si() / self.ratio * self.displacement.si() / (TAU * self.volumetric))
    }

    fn torque(&self, difference: Pressure) -> Torque {
        Torque::from_si(difference.si() * self.displacement.si() * self.hydromechanical / TAU)
    }
}

/// The displacement that turns at a speed with a flow, V = Q·η_v/n.
pub(crate) fn inferred_displacement(flow: VolumeRate, shaft: AngularVelocity, volumetric: f64) -> Displacement {
    Displacement::from_si(TAU * flow.si() * volumetric / shaft.si())
}

/// A double-acting cylinder without friction.
pub(crate) struct Cylinder {
    pub bore: Length,
    pub rod: Length,
}

impl Cylinder {
    pub fn bore_area(&self) -> Area {
        self.bore * self.bore * (PI / 4.0)
    }

    /// The ring on the rod's side.
    pub fn annulus_area(&self) -> Area {
        self.bore_area() - self.rod * self.rod * (PI / 4.0)
    }

    /// Speed of the rod on its way in.
    pub fn speed_in(&self, flow: VolumeRate) -> Velocity {
        flow / self.annulus_area()
    }

    /// What flows back while it retracts: more than goes in.
    pub fn return_while_retracting(&self, flow: VolumeRate) -> VolumeRate {
        flow * (self.bore_area() / self.annulus_area()).value
    }

    /// Force on the way out, `p_s·A_c − p_r·A_r`.
    pub fn force_out(&self, supply: Pressure, back: Pressure) -> Force {
        let (driven, against) = (self.bore_area().get::<square_meter>(), self.annulus_area().get::<square_meter>());
        Force::new::<newton>(supply.si() * driven - back.si() * against)
    }
}

/// The discharge coefficient of a sharp edge in a wide pipe, C_d = π/(π+2).
pub(crate) const SHARP_EDGED: f64 = PI / (PI + 2.0);

/// A hole that oil passes turbulently: `Q = C_d·A·√(2Δp/ρ)`.
pub(crate) struct Orifice {
    pub bore: Length,
    pub coefficient: f64,
}

impl Orifice {
    /// C_d·A, m².
    fn effective_area(&self) -> f64 {
        self.coefficient * PI / 4.0 * self.bore.si() * self.bore.si()
    }

    pub fn flow(&self, difference: Pressure, oil: &Oil) -> VolumeRate {
        VolumeRate::from_si(self.effective_area() * (2.0 * difference.si() / oil.density.si()).sqrt())
    }

    pub fn loss(&self, flow: VolumeRate, oil: &Oil) -> Pressure {
        Pressure::from_si(oil.density.si() * (flow.si() / self.effective_area()).powi(2) / 2.0)
    }
}

/// Flow coefficient of a valve, `C_v = Q·√(SG/Δp)` in US gallons a minute and psi.
pub(crate) fn flow_coefficient(flow: VolumeRate, loss: Pressure, oil: &Oil) -> f64 {
    let specific_gravity = oil.density.si() / 999.0;
    Unit::UsGallonPerMinute.of_si(flow.si()) * (specific_gravity / Unit::Psi.of_si(loss.si())).sqrt()
}

/// The bore in which a flow has a velocity, D = √(4Q/(π·v)).
pub(crate) fn bore_for(flow: VolumeRate, velocity: Velocity) -> Length {
    Length::from_si((4.0 * flow.si() / (PI * velocity.si())).sqrt())
}

/// Share of the particles of a size that an element of a filtration ratio holds back, (β − 1)/β (ISO 16889).
pub(crate) fn efficiency_of(beta: f64) -> Ratio {
    Ratio::from_si((beta - 1.0) / beta)
}

/// Energy of a turning rotor, `½·J·ω²`.
pub(crate) fn rotor_energy(inertia: MomentOfInertia, speed: AngularVelocity) -> Energy {
    Energy::new::<joule>(inertia.si() * speed.si() * speed.si() / 2.0)
}

/// How much warmer oil is behind a valve in which it loses a pressure, ΔT = Δp/(ρ·c_p).
pub(crate) fn rise_over_throttle(
    lost: Pressure,
    density: MassDensity,
    heat: SpecificHeatCapacity,
) -> TemperatureInterval {
    TemperatureInterval::new::<kelvin>(lost.si() / (density.si() * heat.get::<joule_per_kilogram_kelvin>()))
}

/// What a tank's walls give off per kelvin by their area, 2 Btu/(h·ft²·°F).
pub(crate) fn tank_walls(area: Area) -> ThermalConductance {
    ThermalConductance::from_si(11.3565 * area.get::<square_meter>())
}

/// The heat of a pump that works part of the time: its own loss, what goes over its relief, and what the lines lose of the rest.
pub(crate) fn heat_of_a_circuit(hydraulic: Power, efficiency: Ratio, over_relief: Ratio, in_lines: Ratio) -> Power {
    let own = hydraulic / efficiency - hydraulic;
    own + hydraulic * over_relief + hydraulic * (Ratio::from_si(1.0) - over_relief) * in_lines
}

/// By how much the pressure of oil that is locked in rises when it warms: about 11 bar a kelvin.
pub(crate) fn locked_in_rise(warmer: TemperatureInterval) -> Pressure {
    Pressure::new::<bar>(11.0 * warmer.get::<kelvin>())
}
