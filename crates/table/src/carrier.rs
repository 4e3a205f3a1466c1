//! Carrier machines.

use super::{
    CarrierClass, Centre, CouplingStandard, Date, ExtraValve, FedFrom, Guard, Id, LimiterSum, LineStandard, MachineEnd,
    MountingStandard, OilGrade, OilKind, OutputKind, PortStandard, PriorityUser, PumpControl, PumpKind, ReliefRole,
    ReturnRoute, Ways,
};
use quantity::{
    AngularVelocity, Displacement, ElectricCurrent, ElectricPotential, KinematicViscosity, Length, Mass, Power,
    Pressure, Range, Ratio, Stated, ThermalConductance, ThermodynamicTemperature, Torque, Velocity, Volume, VolumeRate,
};
use serde::Serialize;

/// A machine that carries and drives a head.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Carrier {
    /// Unique among the carriers.
    pub id: Id,
    /// Who makes it.
    pub maker: Option<String>,
    /// What it is called.
    pub model: String,
    /// Its class.
    pub class: CarrierClass,
    /// Whether this is no machine but a class of them, of which everything is assumed.
    pub generic: bool,
    /// Serial numbers for which this holds.
    pub serial_range: Option<String>,
    /// Where more is to be read.
    pub link: Option<String>,
    /// A note on stock.
    pub stock: Option<String>,
    /// When the figures were last checked.
    pub checked: Option<Date>,
    /// Operating mass (ISO 6016: with operator, full tank and empty attachment).
    pub operating_mass: Option<Stated<Mass>>,
    /// The engine.
    pub engine: Engine,
    /// The pumps that may feed a head.
    pub pumps: Vec<Pump>,
    /// Which pumps share a power limit.
    pub power_groups: Vec<PowerGroup>,
    /// The relief that guards the main valve: full-flow pressure.
    pub main_relief: Option<Stated<Pressure>>,
    /// The auxiliary circuits.
    pub circuits: Vec<Circuit>,
    /// The line that leads a motor's drain to the tank.
    pub case_line: Option<CaseLine>,
    /// The machine's own filter in the return.
    pub return_filter: Option<ReturnFilter>,
    /// The oil tank.
    pub tank: Option<Tank>,
    /// What oil is in it.
    pub oil: Option<Oil>,
    /// The oil cooler.
    pub cooler: Option<Cooler>,
    /// Voltage and outputs.
    pub electrics: Option<Electrics>,
    /// What it lifts.
    pub lifting: Option<Lifting>,
    /// How heads are mounted: one or more.
    pub mounting: Vec<Mounting>,
    /// The coupler between arm and head.
    pub coupler: Option<ToolCoupler>,
    /// A backhoe loader's coupler at its other end.
    pub second_coupler: Option<ToolCoupler>,
    /// Free radius about the tool's pin with the tool curled in, to boom, cab and window; a backhoe loader's at its digging arm.
    pub curl_clearance: Option<Stated<Length>>,
    /// Torque about the vertical axis that slew brake or lift arm holds; a backhoe loader's digging arm.
    pub reaction_torque: Option<Stated<Torque>>,
    /// Guards and structures fitted.
    pub guards: Option<Vec<Guard>>,
    /// Travel speeds that can be held at full engine speed.
    pub travel_speed: Option<Range<Velocity>>,
    /// What the machine's functions need at least while the head works.
    pub functions: Option<Functions>,
}

impl Carrier {
    /// The end that a circuit feeds; none where a machine with two ends does not say.
    pub fn end_of(&self, circuit: &Circuit) -> Option<MachineEnd> {
        self.class.only_end().or(circuit.end)
    }

    /// The end of one of its mountings; none where a machine with two ends does not say.
    pub fn end_of_mounting(&self, mounting: &Mounting) -> Option<MachineEnd> {
        self.class.only_end().or(mounting.end())
    }

    /// What is stated of the coupler at an end; none where nothing is, or where a machine with two ends does not say at which end its
    /// coupler is.
    pub fn coupler_at(&self, end: MachineEnd) -> Option<&ToolCoupler> {
        if self.class.only_end().is_some() {
            return self.coupler.as_ref();
        }
        [&self.coupler, &self.second_coupler].into_iter().flatten().find(|coupler| coupler.end == Some(end))
    }
}

/// The engine.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Engine {
    /// Net power.
    pub power: Option<Stated<Power>>,
    /// Speed under load at which flows are stated.
    pub working_speed: Option<Stated<AngularVelocity>>,
    /// Speed without load.
    pub high_idle: Option<Stated<AngularVelocity>>,
    /// Speeds at which the operator may work.
    pub speed_range: Option<Range<AngularVelocity>>,
}

/// A pump.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Pump {
    /// Unique among the carrier's pumps.
    pub id: Id,
    /// How it is built.
    pub kind: Option<PumpKind>,
    /// How its flow is commanded.
    pub control: Option<PumpControl>,
    /// Greatest displacement.
    pub displacement: Option<Stated<Displacement>>,
    /// Greatest flow at working speed.
    pub greatest_flow: Option<Stated<VolumeRate>>,
    /// Cut-off or greatest working pressure.
    pub pressure: Option<Stated<Pressure>>,
    /// Hydraulic power at its outlet at which its own limiter acts.
    pub power_limit: Option<Stated<Power>>,
    /// The power group to which it belongs.
    pub power_group: Option<Id>,
    /// Load-sensing margin.
    pub margin: Option<Stated<Pressure>>,
    /// What else it feeds that must have its oil first; an empty list says that there is nothing.
    pub also_feeds: Option<Vec<PriorityUser>>,
}

/// Pumps that share one limit of power.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct PowerGroup {
    /// Unique among the carrier's groups.
    pub id: Id,
    /// Hydraulic power at the outlets of all its pumps together.
    pub limit: Option<Stated<Power>>,
    /// How the limit is shared.
    pub sum: Option<LimiterSum>,
}

/// An auxiliary circuit that can drive a head.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Circuit {
    /// Unique among the carrier's circuits.
    pub id: Id,
    /// What it is called on the machine.
    pub name: Option<String>,
    /// The end of the machine that it feeds; a machine with one end needs not say.
    pub end: Option<MachineEnd>,
    /// Its greatest flow.
    pub flow: Option<Stated<VolumeRate>>,
    /// What the machine itself offers to set.
    pub flow_setting: Option<FlowSetting>,
    /// The flow of a sealed regulator fitted in the supply; it bounds the flow whatever the cab menu says.
    pub flow_limit: Option<Stated<VolumeRate>>,
    /// A priority flow divider that gives it its oil ahead of the machine's functions.
    pub divider: Option<FlowDivider>,
    /// The relief that guards it, as it stands: full-flow pressure.
    pub relief: Option<Stated<Pressure>>,
    /// What that relief is for.
    pub relief_role: Option<ReliefRole>,
    /// A relief block of the head's own, behind that: full-flow pressure.
    pub head_relief: Option<Stated<Pressure>>,
    /// The pressures to which that relief may be set; none when it may not be moved.
    pub relief_range: Option<Range<Pressure>>,
    /// Which pumps feed it.
    pub pumps: Vec<Id>,
    /// Where it gets its oil.
    pub fed_from: Option<FedFrom>,
    /// Whether the pumps are told that it wants oil, where it is fed ahead of the control valve.
    pub demand_signal: Option<bool>,
    /// One or two directions.
    pub ways: Option<Ways>,
    /// Whether the reverse direction is locked.
    pub reverse_locked: Option<bool>,
    /// Whether it can be held on without a hand (detent or proportional hold).
    pub continuous: Option<bool>,
    /// Whether the valve passes oil while idle.
    pub centre: Option<Centre>,
    /// Whether it lets its oil through to the tank at low pressure while a head's own valve is shut.
    pub unloads_when_off: Option<bool>,
    /// Whether it stops when the operator leaves or power fails, and does not start again by itself.
    pub stops_and_stays_off: Option<bool>,
    /// To which oil temperature it is idled at little flow before full speed.
    pub warm_up: Option<Stated<ThermodynamicTemperature>>,
    /// Other tools on the same spool; an empty list says that there are none.
    pub shared_with: Option<Vec<SharedTool>>,
    /// A valve that serves a head's other functions.
    pub extra_valve: Option<ExtraValve>,
    /// Whether a check valve near the head's motor lets its rotor run down.
    pub make_up_check: Option<bool>,
    /// The line to the head.
    pub supply: Line,
    /// The way back.
    pub return_path: ReturnPath,
    /// The ports at the end of the boom or arm.
    pub port: Option<Port>,
    /// The couplings there.
    pub coupling: Option<Coupling>,
}

/// A flow that the machine itself offers to set.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct FlowSetting {
    /// From the least to the greatest.
    pub range: Range<VolumeRate>,
    /// The step, when it is not stepless.
    pub step: Option<Stated<VolumeRate>>,
    /// Whether the setting can be locked so that an operator cannot turn it up. Only then does it bound anything.
    pub locked: Option<bool>,
}

/// A priority flow divider: the head gets its set flow first.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct FlowDivider {
    /// The flow to which it is set, of all the pumps together.
    pub set_flow: Stated<VolumeRate>,
    /// Whether its priority port has a relief. Without one a blocked head stops the machine's functions.
    pub port_relief: Option<bool>,
    /// Whether it is vented or switched off while the head is off, rather than capped.
    pub vented_when_off: Option<bool>,
}

/// Another tool on the same spool.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct SharedTool {
    /// What it is.
    pub name: String,
    /// The greatest pressure that it may see.
    pub greatest_pressure: Option<Stated<Pressure>>,
    /// The greatest flow that it may see.
    pub greatest_flow: Option<Stated<VolumeRate>>,
    /// Whether it has a relief of its own between the valve and itself.
    pub own_relief: Option<bool>,
    /// Whether it is shut off on both its lines while a head works.
    pub isolated: Option<bool>,
}

/// A line: segments one after another.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(transparent)]
pub struct Line {
    /// From valve to coupling.
    pub segments: Vec<Segment>,
}

/// A piece of hose or tube.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Segment {
    /// Inner diameter.
    pub bore: Option<Stated<Length>>,
    /// Length.
    pub length: Option<Stated<Length>>,
    /// Of which standard.
    pub standard: Option<LineStandard>,
    /// Rated pressure, where known apart from the standard.
    pub rating: Option<Stated<Pressure>>,
}

/// The way back from the head.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct ReturnPath {
    /// Through the spool or direct.
    pub route: Option<ReturnRoute>,
    /// What the valve, manifold and whatever else stands in it lose at a flow.
    pub loss: Option<PointLoss>,
    /// The coupling in it, where it is another than the circuit's.
    pub coupling: Option<Coupling>,
    /// Its line.
    pub line: Line,
    /// Whether it passes the machine's return filter.
    pub through_filter: Option<bool>,
    /// A filter of its own in this return.
    pub filter: Option<ReturnFilter>,
    /// Whether it passes the cooler.
    pub through_cooler: Option<bool>,
    /// A cooler of its own in this return.
    pub cooler: Option<Cooler>,
    /// Whether a valve, coupling or filter without bypass can shut it while oil is supplied.
    pub can_be_shut: Option<bool>,
    /// Whether a low-pressure relief to the tank guards it.
    pub relief: Option<bool>,
}

/// A pressure lost at a flow; scaled with the flow squared.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct PointLoss {
    /// The loss.
    pub loss: Stated<Pressure>,
    /// At this flow.
    pub flow: Stated<VolumeRate>,
    /// At this viscosity, where stated.
    pub viscosity: Option<Stated<KinematicViscosity>>,
}

/// A threaded or flanged port.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Port {
    /// Which thread or flange.
    pub standard: PortStandard,
    /// Its size as the standard writes it, for example `M27x2` or `G 3/4`.
    pub size: String,
}

/// A quick-action coupling.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Coupling {
    /// By which standard.
    pub standard: Option<CouplingStandard>,
    /// Nominal bore.
    pub size: Option<Stated<Length>>,
    /// Rated flow.
    pub rated_flow: Option<Stated<VolumeRate>>,
    /// Pressure lost in a coupled pair, at a flow.
    pub loss: Option<PointLoss>,
    /// Rated pressure, where the part has one of its own.
    pub rated_pressure: Option<Stated<Pressure>>,
    /// Whether it is screwed and locks against vibration.
    pub screwed: Option<bool>,
    /// Whether its other half is there too, for the head's hoses.
    pub both_halves: Option<bool>,
}

/// A line that leads a motor's drain to the tank.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct CaseLine {
    /// Whether it is there.
    pub fitted: bool,
    /// The line.
    pub line: Line,
    /// Its coupling.
    pub coupling: Option<Coupling>,
    /// Whether it ends in the tank by a port of its own, neither in the return nor behind the return filter.
    pub own_port: Option<bool>,
}

/// A return filter.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct ReturnFilter {
    /// Rated flow.
    pub rated_flow: Option<Stated<VolumeRate>>,
    /// Loss of the clean element and housing, at a flow.
    pub loss: Option<PointLoss>,
    /// Pressure at which the bypass opens.
    pub bypass: Option<Stated<Pressure>>,
    /// Fineness in micrometres at β ≥ 200 (ISO 16889).
    #[cfg_attr(not(target_arch = "wasm32"), schemars(range(min = 1)))]
    pub fineness_um: Option<u16>,
    /// Whether its manifold has a spare port before the filter.
    pub spare_port: Option<bool>,
}

/// The oil tank.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Tank {
    /// Oil in the tank.
    pub volume: Option<Stated<Volume>>,
    /// Gauge pressure above the oil (breather).
    pub pressure: Option<Stated<Pressure>>,
    /// Whether a spare return port lies below the oil level.
    pub spare_port: Option<Port>,
    /// Heat given off by its walls per kelvin.
    pub dissipation: Option<Stated<ThermalConductance>>,
}

/// The oil in the machine.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Oil {
    /// Its family.
    pub kind: Option<OilKind>,
    /// Its grade.
    pub grade: Option<OilGrade>,
    /// Kinematic viscosity at 40 °C by its own data sheet, in place of the grade's.
    pub viscosity_40: Option<Stated<KinematicViscosity>>,
    /// Kinematic viscosity at 100 °C by its own data sheet: multigrade and ester oils thin less than mineral ones.
    pub viscosity_100: Option<Stated<KinematicViscosity>>,
    /// Cleanliness by ISO 4406, for example `20/18/15`.
    pub cleanliness: Option<Cleanliness>,
}

/// A cleanliness code of ISO 4406: scale numbers at 4, 6 and 14 µm(c), never rising.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cleanliness([u8; 3]);

impl Cleanliness {
    /// The code as it is written, `20/18/15`.
    pub fn text(self) -> String {
        let [a, b, c] = self.0;
        format!("{a}/{b}/{c}")
    }

    /// The code with this text, `20/18/15`; each number 0 to 28 and none greater than the one before.
    pub fn new(text: &str) -> Option<Self> {
        let mut code = [0; 3];
        let mut parts = text.split('/');
        for place in &mut code {
            *place = parts.next()?.trim().parse().ok()?;
        }
        let sound = parts.next().is_none() && code[0] <= 28 && code[0] >= code[1] && code[1] >= code[2];
        sound.then_some(Self(code))
    }

    /// The code with this last number, and the others as far above it as they usually are (20/18/15, 18/16/13: common practice, no
    /// published source).
    pub fn with_last(last: u8) -> Self {
        let last = last.min(23);
        Self([last + 5, last + 3, last])
    }

    /// Whether oil of this code is at least as clean as another code asks, at each size of particle.
    pub fn at_least_as_clean_as(self, asked: Self) -> bool {
        self.0.iter().zip(asked.0).all(|(own, asked)| *own <= asked)
    }
}

impl Serialize for Cleanliness {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.text())
    }
}

/// The oil cooler.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Cooler {
    /// Heat carried away per kelvin between oil and air.
    pub conductance: Option<Stated<ThermalConductance>>,
    /// The flow at which that holds.
    pub flow: Option<Stated<VolumeRate>>,
}

/// Voltage and outputs.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Electrics {
    /// System voltage.
    pub voltage: Option<Stated<ElectricPotential>>,
    /// Spare outputs; an empty list says that there are none.
    pub outputs: Option<Vec<Output>>,
    /// Spare buttons in the operator's reach.
    pub spare_buttons: Option<u8>,
    /// Whether a converter gives coils of another voltage theirs.
    pub converter: Option<bool>,
}

/// A spare electrical output.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Output {
    /// What it is called.
    pub name: Option<String>,
    /// How it switches.
    pub kind: Option<OutputKind>,
    /// Greatest current.
    pub current: Option<Stated<ElectricCurrent>>,
}

/// What the machine lifts.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Lifting {
    /// Points of a digging arm's lift chart (ISO 10567), an excavator's or a backhoe loader's.
    pub chart: Vec<LiftPoint>,
    /// The greatest reach at ground level, from the slew axis to the pin at which heads are hung (working range drawing).
    pub greatest_reach: Option<Stated<Length>>,
    /// Rated operating capacity of a loader or of a backhoe's loader end (ISO 14397-1).
    pub rated_operating_capacity: Option<Stated<Mass>>,
    /// Straight or full-turn tipping load.
    pub tipping_load: Option<Stated<Mass>>,
    /// From the tipping axis forward to the coupler's face.
    pub tipping_axis: Option<Stated<Length>>,
    /// From the coupler's face to the bucket's centre of gravity.
    pub load_centre: Option<Stated<Length>>,
    /// Share of the tipping load that may be carried, where the maker prints it.
    pub share: Option<Stated<Ratio>>,
    /// From the slew axis to the tipping edge: over the side half the gauge.
    pub tipping_edge: Option<Stated<Length>>,
    /// From the slew axis to the boom's foot.
    pub boom_foot: Option<Stated<Length>>,
    /// Mass of the bucket with which the chart was made; none when it hangs at the bare pin.
    pub bucket: Option<Stated<Mass>>,
}

/// The coupler between arm and head.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct ToolCoupler {
    /// Whether there is one; without it heads are pinned or hooked directly.
    pub fitted: bool,
    /// Its mass.
    pub mass: Option<Stated<Mass>>,
    /// What it may carry.
    pub capacity: Option<Stated<Mass>>,
    /// Whether it holds the tool without its engaging force and shows that it has locked (ISO 13031).
    pub secured: Option<bool>,
    /// The end of the machine at which it is; a machine with one end needs not say.
    pub end: Option<MachineEnd>,
}

/// A point of a lift chart.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct LiftPoint {
    /// From the slew axis.
    pub reach: Stated<Length>,
    /// Above the ground.
    pub height: Stated<Length>,
    /// Over the side (the smaller figure) rather than over the front.
    pub over_side: bool,
    /// Rated lift there.
    pub mass: Stated<Mass>,
}

/// How a head is mounted: by an open standard or by pins.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(untagged)]
pub enum Mounting {
    /// A standard pattern.
    Standard {
        /// The standard.
        standard: MountingStandard,
        /// The end of the machine at which it is; a machine with one end needs not say. Never with a head.
        #[serde(skip_serializing_if = "Option::is_none")]
        end: Option<MachineEnd>,
    },
    /// Two pins through ears.
    Pins {
        /// Pin diameter.
        pin: Stated<Length>,
        /// Width of the stick, or of the gap between the head's ears.
        width: Option<Stated<Length>>,
        /// Distance of the pin centres.
        centres: Option<Stated<Length>>,
        /// The end of the machine at which it is; a machine with one end needs not say. Never with a head.
        #[serde(skip_serializing_if = "Option::is_none")]
        end: Option<MachineEnd>,
    },
}

impl Mounting {
    /// The end of the machine that is stated with it.
    pub fn end(&self) -> Option<MachineEnd> {
        match self {
            Self::Standard { end, .. } | Self::Pins { end, .. } => *end,
        }
    }

    /// The mounting at an end of a machine.
    #[must_use]
    pub fn at(mut self, at: Option<MachineEnd>) -> Self {
        match &mut self {
            Self::Standard { end, .. } | Self::Pins { end, .. } => *end = at,
        }
        self
    }

    /// The open standard that it follows; none for pins.
    pub fn standard(&self) -> Option<MountingStandard> {
        match self {
            Self::Standard { standard, .. } => Some(*standard),
            Self::Pins { .. } => None,
        }
    }
}

/// What the machine's functions need at least.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
pub struct Functions {
    /// Flow left to boom, slew and travel.
    pub least_flow: Option<Stated<VolumeRate>>,
    /// At this pressure.
    pub pressure: Option<Stated<Pressure>>,
}
