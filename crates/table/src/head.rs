//! Work heads: what a carrier drives.

use super::read::{Around, Field, Node, Value, contradictions, entry};
use super::row;
use super::rule::Rule;
use super::{
    Centre, Cleanliness, Coupling, Date, Drive, ExtraKind, Fault, Guard, HeadKind, Id, MotorKind, Mounting, OilGrade,
    OilKind, Port, PressureBasis, Ways,
};
use quantity::{
    AngularVelocity, Displacement, ElectricCurrent, ElectricPotential, Length, Mass, MomentOfInertia, Named, Power,
    Pressure, Quantity, Ratio, Stated, Torque, Unit, Velocity, VolumeRate,
};
use serde::Serialize;
use std::f64::consts::TAU;

entry! {
    /// A powered hydraulic attachment.
    pub struct Head {
        /// Unique among the attachments.
        id: Id,
        /// Who makes it.
        maker: Option<String> => "plate",
        /// What it is called.
        model: String => "plate",
        /// What it does.
        kind: HeadKind => "plate",
        /// Where more is to be read.
        link: Option<String> as Link,
        /// A note on stock.
        stock: Option<String> => "your own books",
        /// When the figures were last checked.
        checked: Option<Date> => "your own books",
        /// Mass with hoses and mounting.
        mass: Option<Stated<Mass>> as HEAD_MASS => "weigh it",
        /// From the mounting face to the centre of gravity.
        centre_of_gravity: Option<Stated<Length>> as ARM => "hang it and plumb",
        /// From the pin to the farthest point that swings in when it is curled.
        curl_radius: Option<Stated<Length>> as ARM => "tape from the pin",
        /// What it works on.
        work: Work => "manual",
        /// Flow at which it works.
        flow: Limits<VolumeRate> as FLOW => "plate, manual",
        /// Its pressures.
        pressure: HeadPressure => "plate, manual",
        /// Hydraulic power for which it is made, where the maker names it.
        power: Limits<Power> as POWER => "manual",
        /// Its motor.
        motor: Option<Motor>,
        /// What its outlet and housing bear.
        outlet: Outlet => "motor data; count the hoses; bucket and stopwatch",
        /// Door, tilt, rotation.
        extra_functions: Vec<ExtraFunction> => "coil print, cylinder tag",
        /// Its ports.
        port: Option<Port>,
        /// Its couplings.
        coupling: Option<Coupling>,
        /// Which mountings it is made for: any of them will do.
        mounting: Vec<Mounting>,
        /// The machine's operating mass for which it is made.
        carrier_mass: Limits<Mass> as CARRIER_MASS => "manual",
        /// What it demands of machine and place.
        demands: Demands => "manual",
        /// Travel speed while it works.
        creep_speed: Limits<Velocity> as VELOCITY => "manual",
        /// How long it may work without a pause, and the like, in the maker's words.
        duty: Option<String> => "manual",
        /// Whether it shakes so that couplings must lock.
        vibrating: Option<bool> => "manual",
        /// Whether oil may flow both ways through it.
        ways: Option<Ways> => "plate, manual",
        /// Whether it passes oil while off.
        centre: Option<Centre> => "plate, manual",
        /// Whether a check valve lets the rotor run down when the supply stops.
        run_down_check: Option<bool> => "parts book",
    }
    first |object| { *object.context.around.borrow_mut() = Around { kind: object.ahead("kind"), ..Around::default() }; }
    then |object| {
        contradictions::of_mass(object, mass.flatten(), carrier_mass.as_ref().and_then(|window| window.least));
        if let (Some(flow), Some(Some(motor))) = (&flow, &motor) {
            contradictions::of_motor(object, motor.speed_agrees(flow.rated), || motor.window_agrees(flow));
        }
    }

    /// What an attachment works on.
    pub struct Work: Default {
        /// Materials with the greatest diameter or thickness for each.
        materials: Vec<Material>,
        /// Working width.
        width: Option<Stated<Length>> as WORK,
        /// Working depth.
        depth: Option<Stated<Length>> as WORK,
        /// What it may carry besides its own mass.
        payload: Option<Stated<Mass>> as LOAD,
    }

    /// A material.
    pub struct Material {
        /// Its name.
        name: String,
        /// The greatest diameter or thickness.
        greatest: Option<Stated<Length>> as WORK,
    }

    /// An attachment's pressures.
    pub struct HeadPressure: Default {
        /// Pressure that the motor needs at work.
        working: Option<Stated<Pressure>> as OfKind,
        /// How `working` is meant; taken as a difference when nobody says.
        basis: Option<PressureBasis>,
        /// The relief setting that the maker asks for.
        relief: Option<Stated<Pressure>> as OfKind,
        /// The greatest pressure at the inlet.
        greatest: Option<Stated<Pressure>> as OfKind,
    }
    then |object| { contradictions::of_pressure(object, working.flatten(), greatest.flatten()); }

    /// An attachment's motor.
    pub struct Motor {
        /// How it is built.
        kind: Option<MotorKind> => "motor tag",
        /// Displacement.
        displacement: Option<Stated<Displacement>> as DISPLACEMENT => "motor tag",
        /// Volumetric efficiency at work.
        volumetric_efficiency: Option<Stated<Ratio>> as EFFICIENCY => "motor data",
        /// Hydro-mechanical efficiency at work.
        hydromechanical_efficiency: Option<Stated<Ratio>> as EFFICIENCY => "motor data",
        /// Rotor revolutions per motor revolution.
        ratio: Option<Stated<Ratio>> as RATIO => "count teeth, measure pulleys",
        /// Rotor speed.
        rotor_speed: Limits<AngularVelocity> as ROTOR_SPEED => "plate; tachometer",
        /// Rotor inertia about its own axis.
        inertia: Option<Stated<MomentOfInertia>> as INERTIA => "maker",
        /// Greatest torque of the drive.
        torque_limit: Option<Stated<Torque>> as TORQUE => "plate, manual",
    }

    /// What a motor's outlet and housing bear.
    pub struct Outlet: Default {
        /// Greatest pressure at the motor's outlet.
        back_pressure: Option<Stated<Pressure>> as BACK_PRESSURE,
        /// Greatest pressure in the housing (at the shaft seal).
        case_pressure: Option<Stated<Pressure>> as CASE_PRESSURE,
        /// Whether a case line is needed.
        needs_case_line: Option<bool>,
        /// Flow through the case line.
        case_flow: Option<Stated<VolumeRate>> as SMALL_FLOW,
    }

    /// A function besides the rotor.
    pub struct ExtraFunction {
        /// What it does.
        kind: ExtraKind,
        /// How it is driven.
        drive: Option<Drive>,
        /// Current of its coils.
        current: Option<Stated<ElectricCurrent>> as CURRENT,
        /// Voltage of its coils.
        voltage: Option<Stated<ElectricPotential>> as VOLTAGE,
        /// Greatest pressure.
        greatest_pressure: Option<Stated<Pressure>> as PRESSURE,
        /// Flow.
        flow: Option<Stated<VolumeRate>> as SMALL_FLOW,
    }

    /// What an attachment demands of machine and place.
    pub struct Demands: Default {
        /// Whether the return must pass a filter.
        return_filter: Option<bool>,
        /// Fineness in micrometres at β ≥ 200 (ISO 16889).
        #[cfg_attr(not(target_arch = "wasm32"), schemars(range(min = 1)))]
        filter_fineness_um: Option<u16> as FILTRATION,
        /// Oil families allowed.
        oil_kinds: Vec<OilKind>,
        /// Oil grades allowed.
        oil_grades: Vec<OilGrade>,
        /// Cleanliness by ISO 4406 or better.
        cleanliness: Option<Cleanliness>,
        /// Guards that the operator needs; an empty list says that none is.
        guards: Option<Vec<Guard>>,
        /// Nobody nearer than this.
        thrown_object_distance: Option<Stated<Length>> as THROW,
    }
}

impl Motor {
    /// Whether the rated rotor speed is about what rated flow, displacement and ratio make of it; true when one is missing.
    fn speed_agrees(&self, rated_flow: Option<Stated<VolumeRate>>) -> bool {
        let figures = (rated_flow, self.displacement, self.ratio, self.rotor_speed.rated);
        let (Some(flow), Some(displacement), Some(ratio), Some(stated)) = figures else { return true };
        let turns_per_second = flow.nominal.si() / displacement.nominal.si() * ratio.nominal.si();
        let computed = turns_per_second * TAU;
        // Leakage takes up to a third, and brochures round: only a figure that is plainly another one is named.
        (0.6..=1.15).contains(&(stated.nominal.si() / computed))
    }

    /// Whether a window of flow is about what displacement, speeds and ratio make of it; true where figures are missing.
    ///
    /// The least flow of a window is half to nine tenths of what the rated speed takes, the greatest one to five times, as far as the
    /// greatest speed lets it (common practice, no published source): only what is plainly another figure is named.
    fn window_agrees(&self, flow: &Limits<VolumeRate>) -> bool {
        let Some(displacement) = self.displacement.map(|displacement| displacement.nominal.si()) else { return true };
        let [least, greatest] = [flow.least, flow.greatest].map(|flow| flow.map(|flow| flow.nominal.si()));
        // No motor of an attachment turns so fast, whatever its rotor does.
        let turns = least.or(flow.rated.map(|flow| flow.nominal.si())).map(|flow| flow / displacement * TAU);
        if turns.is_some_and(|turns| turns > Unit::RevolutionPerMinute.to_si(FASTEST_MOTOR_RPM)) {
            return false;
        }
        let takes = |speed: Option<Stated<AngularVelocity>>| {
            let (speed, ratio) = (speed?.nominal.si(), self.ratio?.nominal.si());
            Some(displacement * speed / ratio / TAU)
        };
        let (rated, fastest) = (takes(self.rotor_speed.rated), takes(self.rotor_speed.greatest));
        let above = |flow: Option<f64>, share: f64, takes: Option<f64>| {
            flow.zip(takes).is_some_and(|(flow, takes)| flow > share * takes)
        };
        let below = |flow: Option<f64>, share: f64, takes: Option<f64>| {
            flow.zip(takes).is_some_and(|(flow, takes)| flow < share * takes)
        };
        !(above(least, 2.0, rated.or(fastest)) || below(greatest, 0.5, rated) || above(greatest, 3.0, fastest))
    }
}

/// The greatest speed of a hydraulic motor, rpm: small bent-axis motors come near it (common practice, no published source).
const FASTEST_MOTOR_RPM: f64 = 9000.0;

/// A window that a maker names. A limit carries no tolerance; an absent one is not known.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(bound = "")]
pub struct Limits<Q: Quantity> {
    /// Not less than this.
    pub least: Option<Stated<Q>>,
    /// At its best here.
    pub rated: Option<Stated<Q>>,
    /// Not more than this.
    pub greatest: Option<Stated<Q>>,
}

impl<Q: Quantity> Default for Limits<Q> {
    fn default() -> Self {
        Self { least: None, rated: None, greatest: None }
    }
}

impl<Q: Quantity> Value for Limits<Q> {
    const IS_FIGURE: bool = true;
    const WHEN_LEFT_OUT: Option<fn() -> Self> = Some(Self::default);

    /// Its limits must rise.
    fn of(node: Node, field: &Field) -> Option<Self> {
        let object = node.object()?;
        let limit = |name| object.value(&Field { name, ..*field });
        let limits = Self { least: limit("least"), rated: limit("rated"), greatest: limit("greatest") };
        let stated = [limits.least, limits.rated, limits.greatest].into_iter().flatten();
        if !stated.map(|stated| stated.nominal).is_sorted() {
            node.error(Fault::LimitsNotRising);
        }
        object.warn_of_unknown_fields();
        Some(limits)
    }

    fn kind(rule: Rule) -> row::Kind {
        let form = row::Form::Window(Q::DIMENSION, row::Form::usual_unit(Q::DIMENSION, rule));
        row::Kind::new(form, format!("[window](#window) of {}", Q::DIMENSION.name()))
    }
}
