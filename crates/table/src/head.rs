//! Work heads: what a carrier drives.

use super::{
    Centre, Cleanliness, Coupling, Date, Drive, ExtraKind, Guard, HeadKind, Id, MotorKind, Mounting, OilGrade, OilKind,
    Port, PressureBasis, Ways,
};
use quantity::{
    AngularVelocity, Displacement, ElectricCurrent, ElectricPotential, Kind, Length, Mass, MomentOfInertia, Power,
    Pressure, Ratio, Stated, Torque, Velocity, VolumeRate,
};
use serde::Serialize;

/// A powered hydraulic head.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Head {
    /// Unique among the heads.
    pub id: Id,
    /// Who makes it.
    pub maker: Option<String>,
    /// What it is called.
    pub model: String,
    /// What it does.
    pub kind: HeadKind,
    /// Where more is to be read.
    pub link: Option<String>,
    /// A note on stock.
    pub stock: Option<String>,
    /// When the figures were last checked.
    pub checked: Option<Date>,
    /// Mass with hoses and mounting.
    pub mass: Option<Stated<Mass>>,
    /// From the mounting face to the centre of gravity.
    pub centre_of_gravity: Option<Stated<Length>>,
    /// From the pin to the farthest point that swings in when it is curled.
    pub curl_radius: Option<Stated<Length>>,
    /// What it works on.
    pub work: Work,
    /// Flow at which it works.
    pub flow: Limits<VolumeRate>,
    /// Its pressures.
    pub pressure: HeadPressure,
    /// Hydraulic power for which it is made, where the maker names it.
    pub power: Limits<Power>,
    /// Its motor.
    pub motor: Option<Motor>,
    /// What its outlet and housing bear.
    pub outlet: Outlet,
    /// Door, tilt, rotation.
    pub extra_functions: Vec<ExtraFunction>,
    /// Its ports.
    pub port: Option<Port>,
    /// Its couplings.
    pub coupling: Option<Coupling>,
    /// Which mountings it is made for: any of them will do.
    pub mounting: Vec<Mounting>,
    /// The carrier's operating mass for which it is made.
    pub carrier_mass: Limits<Mass>,
    /// What it demands of machine and place.
    pub demands: Demands,
    /// Travel speed while it works.
    pub creep_speed: Limits<Velocity>,
    /// How long it may work without a pause, and the like, in the maker's words.
    pub duty: Option<String>,
    /// Whether it shakes so that couplings must lock.
    pub vibrating: Option<bool>,
    /// Whether oil may flow both ways through it.
    pub ways: Option<Ways>,
    /// Whether it passes oil while off.
    pub centre: Option<Centre>,
    /// Whether a check valve lets the rotor run down when the supply stops.
    pub run_down_check: Option<bool>,
}

/// A window that a maker names. A limit carries no tolerance; an absent one is not known.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(bound = "")]
pub struct Limits<Q: Kind> {
    /// Not less than this.
    pub least: Option<Stated<Q>>,
    /// At its best here.
    pub rated: Option<Stated<Q>>,
    /// Not more than this.
    pub greatest: Option<Stated<Q>>,
}

impl<Q: Kind> Default for Limits<Q> {
    fn default() -> Self {
        Self { least: None, rated: None, greatest: None }
    }
}

/// What a head works on.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Work {
    /// Materials with the greatest diameter or thickness for each.
    pub materials: Vec<Material>,
    /// Working width.
    pub width: Option<Stated<Length>>,
    /// Working depth.
    pub depth: Option<Stated<Length>>,
    /// What it may carry besides its own mass.
    pub payload: Option<Stated<Mass>>,
}

/// A material.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Material {
    /// Its name.
    pub name: String,
    /// The greatest diameter or thickness.
    pub greatest: Option<Stated<Length>>,
}

/// A head's pressures.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct HeadPressure {
    /// Pressure that the motor needs at work.
    pub working: Option<Stated<Pressure>>,
    /// How `working` is meant; taken as a difference when nobody says.
    pub basis: Option<PressureBasis>,
    /// The relief setting that the maker asks for.
    pub relief: Option<Stated<Pressure>>,
    /// The greatest pressure at the inlet.
    pub greatest: Option<Stated<Pressure>>,
}

/// A head's motor.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Motor {
    /// How it is built.
    pub kind: Option<MotorKind>,
    /// Displacement.
    pub displacement: Option<Stated<Displacement>>,
    /// Volumetric efficiency at work.
    pub volumetric_efficiency: Option<Stated<Ratio>>,
    /// Hydro-mechanical efficiency at work.
    pub hydromechanical_efficiency: Option<Stated<Ratio>>,
    /// Rotor revolutions per motor revolution.
    pub ratio: Option<Stated<Ratio>>,
    /// Rotor speed.
    pub rotor_speed: Limits<AngularVelocity>,
    /// Rotor inertia about its own axis.
    pub inertia: Option<Stated<MomentOfInertia>>,
    /// Greatest torque of the drive.
    pub torque_limit: Option<Stated<Torque>>,
}

/// What a motor's outlet and housing bear.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Outlet {
    /// Greatest pressure at the motor's outlet.
    pub back_pressure: Option<Stated<Pressure>>,
    /// Greatest pressure in the housing (at the shaft seal).
    pub case_pressure: Option<Stated<Pressure>>,
    /// Whether a case line is needed.
    pub needs_case_line: Option<bool>,
    /// Flow through the case line.
    pub case_flow: Option<Stated<VolumeRate>>,
}

/// A function besides the rotor.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct ExtraFunction {
    /// What it does.
    pub kind: ExtraKind,
    /// How it is driven.
    pub drive: Option<Drive>,
    /// Current of its coils.
    pub current: Option<Stated<ElectricCurrent>>,
    /// Voltage of its coils.
    pub voltage: Option<Stated<ElectricPotential>>,
    /// Greatest pressure.
    pub greatest_pressure: Option<Stated<Pressure>>,
    /// Flow.
    pub flow: Option<Stated<VolumeRate>>,
}

/// What a head demands of machine and place.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Demands {
    /// Whether the return must pass a filter.
    pub return_filter: Option<bool>,
    /// Fineness in micrometres at β ≥ 200 (ISO 16889).
    #[cfg_attr(not(target_arch = "wasm32"), schemars(range(min = 1)))]
    pub filter_fineness_um: Option<u16>,
    /// Oil families allowed.
    pub oil_kinds: Vec<OilKind>,
    /// Oil grades allowed.
    pub oil_grades: Vec<OilGrade>,
    /// Cleanliness by ISO 4406 or better.
    pub cleanliness: Option<Cleanliness>,
    /// Guards that the operator needs; an empty list says that none is.
    pub guards: Option<Vec<Guard>>,
    /// Nobody nearer than this.
    pub thrown_object_distance: Option<Stated<Length>>,
}
