//! Carrier machines.

use super::bounds::{MOUNTING, PIN};
use super::read::{Around, Field, Node, Value, contradictions, entry};
use super::rule::Rule;
use super::{
    CarrierClass, Centre, Cleanliness, CouplingStandard, Date, ExtraValve, FedFrom, Guard, Id, LimiterSum,
    LineStandard, MachineEnd, MountingStandard, OilGrade, OilKind, OutputKind, PortStandard, PriorityUser, PumpControl,
    PumpKind, ReliefRole, ReturnRoute, Ways,
};
use quantity::{
    AngularVelocity, Dimension, Displacement, ElectricCurrent, ElectricPotential, KinematicViscosity, Length, Mass,
    Power, Pressure, Quantity, Range, Ratio, Stated, ThermalConductance, ThermodynamicTemperature, Torque, Velocity,
    Volume, VolumeRate,
};
use serde::Serialize;

entry! {
    /// A machine that carries and drives an attachment.
    pub struct Carrier {
        /// Unique among the machines.
        id: Id,
        /// Who makes it.
        maker: Option<String> => "plate",
        /// What it is called.
        model: String => "plate",
        /// Its class.
        class: CarrierClass => "plate",
        /// Whether this is no machine but a class of them, of which everything is assumed.
        generic: bool as NoUnlessStated,
        /// Serial numbers for which this holds.
        serial_range: Option<String> => "plate",
        /// Where more is to be read.
        link: Option<String> as Link,
        /// A note on stock.
        stock: Option<String> => "your own books",
        /// When the figures were last checked.
        checked: Option<Date> => "your own books",
        /// Operating mass (ISO 6016: with operator, full tank and empty attachment).
        operating_mass: Option<Stated<Mass>> as CARRIER_MASS => "plate; weighbridge",
        /// The engine.
        engine: Engine => "engine plate, cab display, manual",
        /// The pumps that may feed an attachment.
        pumps: Vec<Pump>,
        /// Which pumps share a power limit.
        power_groups: Vec<PowerGroup> => "service manual, hydraulics page",
        /// The relief that guards the main valve: full-flow pressure.
        main_relief: Option<Stated<Pressure>> as OfClass => "service manual; gauge at the pump with a cylinder at its stop",
        /// The auxiliary circuits.
        circuits: Vec<Circuit>,
        /// The line that leads a motor's drain to the tank.
        case_line: Option<CaseLine> => "follow the hose",
        /// The machine's own filter in the return.
        return_filter: Option<ReturnFilter> => "filter tag, filter data sheet; look at the manifold",
        /// The oil tank.
        tank: Option<Tank> => "manual; breather; look at the tank",
        /// What oil is in it.
        oil: Option<Oil> => "tank tag, service log, data sheet",
        /// The oil cooler.
        cooler: Option<Cooler> => "parts book; 30-minute heat run",
        /// Voltage and outputs.
        electrics: Option<Electrics> => "fuse diagram, connector, clamp meter",
        /// What it lifts.
        lifting: Option<Lifting> => "lift chart, plate",
        /// How attachments are mounted: one or more.
        mounting: Vec<Mounting> as AtAnEnd => "tape, calliper",
        /// The coupler between arm and attachment.
        coupler: Option<ToolCoupler> => "its plate; its manual",
        /// A backhoe loader's coupler at its other end.
        second_coupler: Option<ToolCoupler> => "its plate; its manual",
        /// Free radius about the tool's pin with the tool curled in, to boom, cab and window; a backhoe loader's at its digging arm.
        curl_clearance: Option<Stated<Length>> as ARM => "tape from the pin, bucket curled in",
        /// Torque about the vertical axis that slew brake or lift arm holds; a backhoe loader's digging arm.
        reaction_torque: Option<Stated<Torque>> as TORQUE => "service manual; its maker",
        /// Guards and structures fitted.
        guards: Option<Vec<Guard>> => "plates on the structure",
        /// Travel speeds that can be held at full engine speed.
        travel_speed: Option<Range<Velocity>> as VELOCITY => "manual; stopwatch over ten metres",
        /// What the machine's functions need at least while the attachment works.
        functions: Option<Functions> => "try; flow tester",
    }
    first |object| {
        *object.context.around.borrow_mut() = Around {
            class: object.ahead("class"),
            engine_speed: object.figure_ahead("engine", "working_speed", Dimension::RotationalSpeed),
            engine_power: object.figure_ahead("engine", "power", Dimension::Power),
            power_groups: object.ids_ahead("power_groups"),
            ..Around::default()
        };
        contradictions::of_ends(object);
    }
    then |object| {
        contradictions::of_carrier(object, class, generic, operating_mass.flatten());
        let taken = power_taken(pumps.as_deref().unwrap_or_default(), power_groups.as_deref().unwrap_or_default());
        contradictions::of_power(object, engine.as_ref().and_then(|engine| engine.power), taken);
    }
}

impl Carrier {
    /// The circuit with this id.
    pub fn circuit(&self, id: &Id) -> Option<&Circuit> {
        self.circuits.iter().find(|circuit| circuit.id == *id)
    }

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

/// What the limiters let the pumps take together, W; limits that are not stated add nothing.
fn power_taken(pumps: &[Pump], groups: &[PowerGroup]) -> f64 {
    let alone = pumps.iter().filter(|pump| pump.power_group.is_none()).map(|pump| pump.power_limit);
    let limits = groups.iter().map(|group| group.limit).chain(alone);
    limits.flatten().map(|limit| limit.nominal.si()).sum()
}

entry! {
    /// The engine.
    pub struct Engine: Default {
        /// Net power.
        power: Option<Stated<Power>> as POWER,
        /// Speed under load at which flows are stated.
        working_speed: Option<Stated<AngularVelocity>> as ENGINE_SPEED,
        /// Speed without load.
        high_idle: Option<Stated<AngularVelocity>> as ENGINE_SPEED,
        /// Speeds at which the operator may work.
        speed_range: Option<Range<AngularVelocity>> as ENGINE_SPEED,
    }
    then |object| { contradictions::of_engine(object, working_speed.flatten(), high_idle.flatten()); }

    /// A pump.
    pub struct Pump {
        /// Unique among the machine's pumps.
        id: Id,
        /// How it is built.
        kind: Option<PumpKind> => "pump tag",
        /// How its flow is commanded.
        control: Option<PumpControl> => "service manual; pilot lines at the regulator; pressure at neutral",
        /// Greatest displacement.
        displacement: Option<Stated<Displacement>> as DISPLACEMENT => "pump tag, manual",
        /// Greatest flow at working speed.
        greatest_flow: Option<Stated<VolumeRate>> as FLOW => "pump tag, manual",
        /// Cut-off or greatest working pressure.
        pressure: Option<Stated<Pressure>> as OfClass => "pump tag; manual; gauge",
        /// Hydraulic power at its outlet at which its own limiter acts.
        power_limit: Option<Stated<Power>> as POWER => "service manual",
        /// The power group to which it belongs.
        power_group: Option<Id> as POWER_GROUP => "service manual",
        /// Load-sensing margin.
        margin: Option<Stated<Pressure>> as MARGIN => "service manual; two gauges",
        /// What else it feeds that must have its oil first; an empty list says that there is nothing.
        also_feeds: Option<Vec<PriorityUser>> => "circuit drawing",
    }
    then |object| {
        if let Some(id) = &id {
            let flow = greatest_flow.flatten().map(|flow| flow.nominal.si());
            object.context.around.borrow_mut().pumps.entry(id.clone()).or_insert(flow);
            contradictions::of_pump(object, displacement.flatten(), greatest_flow.flatten());
        }
    }

    /// Pumps that share one limit of power.
    pub struct PowerGroup {
        /// Unique among the machine's groups.
        id: Id,
        /// Hydraulic power at the outlets of all its pumps together.
        limit: Option<Stated<Power>> as POWER,
        /// How the limit is shared.
        sum: Option<LimiterSum>,
    }

    /// An auxiliary circuit that can drive an attachment.
    pub struct Circuit {
        /// Unique among the machine's circuits.
        id: Id,
        /// What it is called on the machine.
        name: Option<String>,
        /// The end of the machine that it feeds; a machine with one end needs not say.
        end: Option<MachineEnd>,
        /// Its greatest flow.
        flow: Option<Stated<VolumeRate>> as FLOW => "manual; flow tester",
        /// What the machine itself offers to set.
        flow_setting: Option<FlowSetting> => "cab menu",
        /// The flow of a sealed regulator fitted in the supply; it bounds the flow whatever the cab menu says.
        flow_limit: Option<Stated<VolumeRate>> as FLOW => "look; its tag",
        /// A priority flow divider that gives it its oil ahead of the machine's functions.
        divider: Option<FlowDivider> => "look ahead of the valve; its tag and sheet",
        /// The relief that guards it, as it stands: full-flow pressure.
        relief: Option<Stated<Pressure>> as OfClass => "manual; gauge at the test port, oil at 50 °C or more",
        /// What that relief is for.
        relief_role: Option<ReliefRole> => "circuit drawing",
        /// A relief block of the attachment's own, behind that: full-flow pressure.
        head_relief: Option<Stated<Pressure>> as OfClass => "tag on the block; gauge at the test port",
        /// The pressures to which that relief may be set; none when it may not be moved.
        relief_range: Option<Range<Pressure>> as PRESSURE => "manual",
        /// Which pumps feed it.
        pumps: Vec<Id> as PUMP => "circuit drawing; follow the hoses",
        /// Where it gets its oil.
        fed_from: Option<FedFrom> => "circuit drawing; follow the pressure line",
        /// Whether the pumps are told that it wants oil, where it is fed ahead of the control valve.
        demand_signal: Option<bool> => "circuit drawing; pump pressure at neutral and with the circuit on",
        /// One or two directions.
        ways: Option<Ways> => "pedal, menu",
        /// Whether the reverse direction is locked.
        reverse_locked: Option<bool> => "look; try with the lines coupled together",
        /// Whether it can be held on without a hand (detent or proportional hold).
        continuous: Option<bool> => "try",
        /// Whether the valve passes oil while idle.
        centre: Option<Centre> => "circuit drawing",
        /// Whether it lets its oil through to the tank at low pressure while an attachment's own valve is shut.
        unloads_when_off: Option<bool> => "circuit drawing; pump pressure with the circuit on and the head's valve off",
        /// Whether it stops when the operator leaves or power fails, and does not start again by itself.
        stops_and_stays_off: Option<bool> => "try with the lines coupled together: leave the seat, unplug, come back",
        /// To which oil temperature it is idled at little flow before full speed.
        warm_up: Option<Stated<ThermodynamicTemperature>> as OIL_TEMPERATURE => "your own books",
        /// Other tools on the same spool; an empty list says that there are none.
        shared_with: Option<Vec<SharedTool>> => "work each lever with the circuit's; cylinder tag; gauge with the tool dead-ended",
        /// A valve that serves an attachment's other functions.
        extra_valve: Option<ExtraValve> => "look at the end of the arm and at the head",
        /// Whether a check valve near the attachment's motor lets its rotor run down.
        make_up_check: Option<bool> => "look; parts book",
        /// The line to the attachment.
        supply: Line => "print along the hose; tape",
        /// The way back.
        return_path: ReturnPath => "drawing; follow the hose; 0–25 bar gauge at the head's return",
        /// The ports at the end of the boom or arm.
        port: Option<Port> => "thread gauge",
        /// The couplings there.
        coupling: Option<Coupling> => "print on the coupling",
    }
    then |object| {
        if id.is_some() {
            let setting = flow_setting.as_ref().and_then(Option::as_ref).map(|setting| setting.range);
            let (flow, relief) = ((flow.flatten(), setting), (relief.flatten(), relief_range.flatten()));
            contradictions::of_circuit(object, pumps.as_deref().unwrap_or_default(), flow, relief);
        }
    }

    /// A flow that the machine itself offers to set.
    pub struct FlowSetting {
        /// From the least to the greatest.
        range: Range<VolumeRate> as FLOW_SETTING,
        /// The step, when it is not stepless.
        step: Option<Stated<VolumeRate>> as SMALL_FLOW,
        /// Whether the setting can be locked so that an operator cannot turn it up. Only then does it bound anything.
        locked: Option<bool>,
    }

    /// A priority flow divider: the attachment gets its set flow first.
    pub struct FlowDivider {
        /// The flow to which it is set, of all the pumps together.
        set_flow: Stated<VolumeRate> as FLOW,
        /// Whether its priority port has a relief. Without one a blocked attachment stops the machine's functions.
        port_relief: Option<bool>,
        /// Whether it is vented or switched off while the attachment is off, rather than capped.
        vented_when_off: Option<bool>,
    }

    /// Another tool on the same spool.
    pub struct SharedTool {
        /// What it is.
        name: String,
        /// The greatest pressure that it may see.
        greatest_pressure: Option<Stated<Pressure>> as OfClass,
        /// The greatest flow that it may see.
        greatest_flow: Option<Stated<VolumeRate>> as FLOW,
        /// Whether it has a relief of its own between the valve and itself.
        own_relief: Option<bool>,
        /// Whether it is shut off on both its lines while an attachment works.
        isolated: Option<bool>,
    }

    /// A piece of hose or tube.
    pub struct Segment {
        /// Inner diameter.
        bore: Option<Stated<Length>> as BORE,
        /// Length.
        length: Option<Stated<Length>> as LINE_LENGTH,
        /// Of which standard.
        standard: Option<LineStandard>,
        /// Rated pressure, where known apart from the standard.
        rating: Option<Stated<Pressure>> as RATING,
    }

    /// The return from the attachment.
    pub struct ReturnPath: Default {
        /// Through the spool or direct.
        route: Option<ReturnRoute>,
        /// What the valve, manifold and whatever else stands in it lose at a flow.
        loss: Option<PointLoss>,
        /// The coupling in it, where it is another than the circuit's.
        coupling: Option<Coupling>,
        /// Its line.
        line: Line,
        /// Whether it passes the machine's return filter.
        through_filter: Option<bool>,
        /// A filter of its own in this return.
        filter: Option<ReturnFilter>,
        /// Whether it passes the cooler.
        through_cooler: Option<bool>,
        /// A cooler of its own in this return.
        cooler: Option<Cooler>,
        /// Whether a valve, coupling or filter without bypass can shut it while oil is supplied.
        can_be_shut: Option<bool>,
        /// Whether a low-pressure relief to the tank guards it.
        relief: Option<bool>,
    }

    /// A pressure lost at a flow; scaled with the flow squared.
    pub struct PointLoss {
        /// The loss.
        loss: Stated<Pressure> as LOSS,
        /// At this flow.
        flow: Stated<VolumeRate> as FLOW,
        /// At this viscosity, where stated.
        viscosity: Option<Stated<KinematicViscosity>> as VISCOSITY,
    }

    /// A threaded or flanged port.
    pub struct Port {
        /// Which thread or flange.
        standard: PortStandard,
        /// Its size as the standard writes it, for example `M27x2` or `G 3/4`.
        size: String,
    }

    /// A quick-action coupling.
    pub struct Coupling: Default {
        /// By which standard.
        standard: Option<CouplingStandard>,
        /// Nominal bore.
        size: Option<Stated<Length>> as BORE,
        /// Rated flow.
        rated_flow: Option<Stated<VolumeRate>> as FLOW,
        /// Pressure lost in a coupled pair, at a flow.
        loss: Option<PointLoss>,
        /// Rated pressure, where the part has one of its own.
        rated_pressure: Option<Stated<Pressure>> as RATING,
        /// Whether it is screwed and locks against vibration.
        screwed: Option<bool>,
        /// Whether its other half is there too, for the attachment's hoses.
        both_halves: Option<bool>,
    }

    /// A line that leads a motor's drain to the tank.
    pub struct CaseLine {
        /// Whether it is there.
        fitted: bool,
        /// The line.
        line: Line,
        /// Its coupling.
        coupling: Option<Coupling>,
        /// Whether it ends in the tank by a port of its own, neither in the return nor behind the return filter.
        own_port: Option<bool>,
    }

    /// A return filter.
    pub struct ReturnFilter {
        /// Rated flow.
        rated_flow: Option<Stated<VolumeRate>> as FLOW,
        /// Loss of the clean element and housing, at a flow.
        loss: Option<PointLoss>,
        /// Pressure at which the bypass opens.
        bypass: Option<Stated<Pressure>> as BYPASS,
        /// Fineness in micrometres at β ≥ 200 (ISO 16889).
        #[cfg_attr(not(target_arch = "wasm32"), schemars(range(min = 1)))]
        fineness_um: Option<u16> as FILTRATION,
        /// Whether its manifold has a spare port before the filter.
        spare_port: Option<bool>,
    }

    /// The oil tank.
    pub struct Tank: Default {
        /// Oil in the tank.
        volume: Option<Stated<Volume>> as VOLUME,
        /// Gauge pressure above the oil (breather).
        pressure: Option<Stated<Pressure>> as TANK_PRESSURE,
        /// Whether a spare return port lies below the oil level.
        spare_port: Option<Port>,
        /// Heat given off by its walls per kelvin.
        dissipation: Option<Stated<ThermalConductance>> as CONDUCTANCE,
    }

    /// The oil in the machine.
    pub struct Oil {
        /// Its family.
        kind: Option<OilKind>,
        /// Its grade.
        grade: Option<OilGrade>,
        /// Kinematic viscosity at 40 °C by its own data sheet, in place of the grade's.
        viscosity_40: Option<Stated<KinematicViscosity>> as VISCOSITY,
        /// Kinematic viscosity at 100 °C by its own data sheet: multigrade and ester oils thin less than mineral ones.
        viscosity_100: Option<Stated<KinematicViscosity>> as VISCOSITY_100,
        /// Cleanliness by ISO 4406, for example `20/18/15`.
        cleanliness: Option<Cleanliness>,
    }
    then |object| { contradictions::of_oil(object, viscosity_40.flatten(), viscosity_100.flatten()); }

    /// The oil cooler.
    pub struct Cooler: Default {
        /// Heat carried away per kelvin between oil and air.
        conductance: Option<Stated<ThermalConductance>> as CONDUCTANCE,
        /// The flow at which that holds.
        flow: Option<Stated<VolumeRate>> as FLOW,
    }

    /// Voltage and outputs.
    pub struct Electrics: Default {
        /// System voltage.
        voltage: Option<Stated<ElectricPotential>> as VOLTAGE,
        /// Spare outputs; an empty list says that there are none.
        outputs: Option<Vec<Output>>,
        /// Spare buttons in the operator's reach.
        spare_buttons: Option<u8> as SPARE,
        /// Whether a converter gives coils of another voltage theirs.
        converter: Option<bool>,
    }

    /// A spare electrical output.
    pub struct Output {
        /// What it is called.
        name: Option<String>,
        /// How it switches.
        kind: Option<OutputKind>,
        /// Greatest current.
        current: Option<Stated<ElectricCurrent>> as CURRENT,
    }

    /// What the machine lifts.
    pub struct Lifting: Default {
        /// Points of a digging arm's lift chart (ISO 10567), an excavator's or a backhoe loader's.
        chart: Vec<LiftPoint> => "lift chart",
        /// The greatest reach at ground level, from the slew axis to the pin at which attachments are hung (working range drawing).
        greatest_reach: Option<Stated<Length>> as REACH => "working range drawing",
        /// Rated operating capacity of a loader or of a backhoe's loader end (ISO 14397-1).
        rated_operating_capacity: Option<Stated<Mass>> as LOAD,
        /// Straight or full-turn tipping load.
        tipping_load: Option<Stated<Mass>> as LOAD,
        /// From the tipping axis forward to the coupler's face.
        tipping_axis: Option<Stated<Length>> as ARM,
        /// From the coupler's face to the bucket's centre of gravity.
        load_centre: Option<Stated<Length>> as ARM,
        /// Share of the tipping load that may be carried, where the maker prints it.
        share: Option<Stated<Ratio>> as SHARE,
        /// From the slew axis to the tipping edge: over the side half the gauge.
        tipping_edge: Option<Stated<Length>> as ARM => "tape",
        /// From the slew axis to the boom's foot.
        boom_foot: Option<Stated<Length>> as ARM => "tape",
        /// Mass of the bucket with which the chart was made; none when it hangs at the bare pin.
        bucket: Option<Stated<Mass>> as LOAD => "foot of the chart",
    }

    /// The coupler between arm and attachment.
    pub struct ToolCoupler {
        /// Whether there is one; without it attachments are pinned or hooked directly.
        fitted: bool,
        /// Its mass.
        mass: Option<Stated<Mass>> as LOAD,
        /// What it may carry.
        capacity: Option<Stated<Mass>> as LOAD,
        /// Whether it holds the tool without its engaging force and shows that it has locked (ISO 13031).
        secured: Option<bool>,
        /// The end of the machine at which it is; a machine with one end needs not say.
        end: Option<MachineEnd>,
    }

    /// A point of a lift chart.
    pub struct LiftPoint {
        /// From the slew axis.
        reach: Stated<Length> as REACH,
        /// Above the ground.
        height: Stated<Length> as HEIGHT,
        /// Over the side (the smaller figure) rather than over the front.
        over_side: bool,
        /// Rated lift there.
        mass: Stated<Mass> as LOAD,
    }

    /// What the machine's functions need at least.
    pub struct Functions: Default {
        /// Flow left to boom, slew and travel.
        least_flow: Option<Stated<VolumeRate>> as SMALL_FLOW,
        /// At this pressure.
        pressure: Option<Stated<Pressure>> as PRESSURE,
    }
}

/// A line: segments one after another.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(transparent)]
pub struct Line {
    /// From valve to coupling.
    pub segments: Vec<Segment>,
}

impl Value for Line {
    const WHEN_LEFT_OUT: Option<fn() -> Self> = Some(Self::default);

    fn of(node: Node, field: &Field) -> Option<Self> {
        Value::of(node, field).map(|segments| Self { segments })
    }

    fn kind(rule: Rule) -> super::row::Kind {
        Vec::<Segment>::kind(rule)
    }
}

/// How an attachment is mounted: by an open standard or by pins.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(untagged)]
pub enum Mounting {
    /// A standard pattern.
    Standard {
        /// The standard.
        standard: MountingStandard,
        /// The end of the machine at which it is; a machine with one end needs not say. Never with an attachment.
        #[serde(skip_serializing_if = "Option::is_none")]
        end: Option<MachineEnd>,
    },
    /// Two pins through ears.
    Pins {
        /// Pin diameter.
        pin: Stated<Length>,
        /// Width of the stick, or of the gap between the attachment's ears.
        width: Option<Stated<Length>>,
        /// Distance of the pin centres.
        centres: Option<Stated<Length>>,
        /// The end of the machine at which it is; a machine with one end needs not say. Never with an attachment.
        #[serde(skip_serializing_if = "Option::is_none")]
        end: Option<MachineEnd>,
    },
}

impl Value for Mounting {
    /// A standard, or pins.
    fn of(node: Node, field: &Field) -> Option<Self> {
        let object = node.object()?;
        let at_an_end = field.rule == Rule::AtAnEnd;
        let end = at_an_end.then(|| Value::read(&object, &Field::plain("end"))).flatten().flatten();
        let mounting = if object.get("standard").is_some() {
            object.plain("standard").map(|standard| Self::Standard { standard, end })
        } else {
            let within = |name| Field { name, rule: MOUNTING.rule() };
            let pin = Value::read(&object, &Field { name: "pin", rule: PIN.rule() });
            let (width, centres) = (object.value(&within("width")), object.value(&within("centres")));
            pin.map(|pin| Self::Pins { pin, width, centres, end })
        };
        object.warn_of_unknown_fields();
        mounting
    }

    fn kind(rule: Rule) -> super::row::Kind {
        super::row::mounting(rule)
    }
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
