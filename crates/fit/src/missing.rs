//! Facts that an answer rests on, and what to say of a missing one.

use super::bound::Bound;
use quantity::{
    Amount, AngularVelocity, Displacement, Length, Mass, Named, Power, Pressure, Quantity, Torque, VolumeRate,
    string_enum,
};
use serde::Serialize;

/// A fact that is not known.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Missing {
    /// The fact.
    pub fact: FactId,
    /// From which value on the check would hold, when a single figure decides.
    pub holds: Option<Threshold>,
}

/// The value of one fact from which a check holds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Threshold {
    /// On which side it holds.
    pub bound: Bound,
    /// The value.
    pub value: Amount,
}

string_enum! {
    /// A fact of carrier or head that an answer rests on, named like its field in the table.
    "fact" pub enum FactId {
        /// An auxiliary circuit.
        Circuit = "carrier.circuits",
        /// The end of the machine that the circuit feeds.
        CircuitEnd = "carrier.circuit.end",
        /// Flow of the circuit.
        CircuitFlow = "carrier.circuit.flow",
        /// Relief of the circuit.
        CircuitRelief = "carrier.circuit.relief",
        /// Whether the flow setting can be locked.
        FlowSettingLocked = "carrier.circuit.flow_setting.locked",
        /// Bore and length of the supply line.
        SupplyLine = "carrier.circuit.supply",
        /// Loss of the couplings.
        CouplingLoss = "carrier.circuit.coupling.loss",
        /// Whether the return goes through the spool.
        ReturnRoute = "carrier.circuit.return_path.route",
        /// Loss of the return path.
        ReturnLoss = "carrier.circuit.return_path.loss",
        /// Bore and length of the return line.
        ReturnLine = "carrier.circuit.return_path.line",
        /// Pressure above the oil in the tank.
        TankPressure = "carrier.tank.pressure",
        /// The machine's return filter.
        ReturnFilter = "carrier.return_filter",
        /// Loss of the return filter.
        FilterLoss = "carrier.return_filter.loss",
        /// Net engine power.
        EnginePower = "carrier.engine.power",
        /// Engine speed at work.
        WorkingSpeed = "carrier.engine.working_speed",
        /// Engine speed without load.
        HighIdle = "carrier.engine.high_idle",
        /// Power limit of the pumps.
        PowerLimit = "carrier.power_groups.limit",
        /// Leakage of the pumps.
        PumpLeak = "carrier.pumps.leak",
        /// What a load-sensing pump keeps above its load.
        PumpMargin = "carrier.pumps.margin",
        /// How the pump's flow falls before its cut-off.
        PumpCutOff = "carrier.pumps.pressure",
        /// What the machine's functions need while the head works.
        Functions = "carrier.functions",
        /// Oil in the tank.
        TankVolume = "carrier.tank.volume",
        /// What the cooler carries away.
        CoolerConductance = "carrier.cooler.conductance",
        /// Where the oil settles over half an hour's work.
        OilSettles = "carrier.oil.temperature",
        /// Whether the return passes the cooler.
        ThroughCooler = "carrier.circuit.return_path.through_cooler",
        /// How the head's return pulsates.
        ReturnPulsation = "head.outlet.pulsation",
        /// Whether the head lets its rotor run down.
        RunDownCheck = "head.run_down_check",
        /// What its anti-cavitation check valve loses at full flow.
        RunDownLoss = "head.run_down_check.loss",
        /// Override of the relief.
        ReliefOverride = "carrier.circuit.relief.override",
        /// Whether there is a case line.
        CaseLine = "carrier.case_line",
        /// Whether the case drain ends in the tank by a port of its own.
        CasePort = "carrier.case_line.own_port",
        /// Bore and length of the case line.
        CaseLineSize = "carrier.case_line.line",
        /// Grade of the oil.
        OilGrade = "carrier.oil.grade",
        /// Pressure difference over the idling motor.
        FreeRunning = "head.pressure.free",
        /// Operating mass.
        OperatingMass = "carrier.operating_mass",
        /// The machine's mounting.
        CarrierMounting = "carrier.mounting",
        /// The end of the machine at which a mounting is.
        MountingEnd = "carrier.mounting.end",
        /// The head's least flow.
        HeadLeastFlow = "head.flow.least",
        /// The head's rated flow.
        HeadRatedFlow = "head.flow.rated",
        /// The head's greatest flow.
        HeadGreatestFlow = "head.flow.greatest",
        /// The head's greatest hydraulic power.
        HeadGreatestPower = "head.power.greatest",
        /// The motor's pressure at work.
        WorkingPressure = "head.pressure.working",
        /// The head's greatest pressure.
        HeadGreatestPressure = "head.pressure.greatest",
        /// How the motor is built.
        MotorKind = "head.motor.kind",
        /// The motor's displacement.
        MotorDisplacement = "head.motor.displacement",
        /// Volumetric efficiency of the motor.
        MotorVolumetric = "head.motor.volumetric_efficiency",
        /// Hydro-mechanical efficiency of the motor.
        MotorHydromechanical = "head.motor.hydromechanical_efficiency",
        /// Rotor revolutions per motor revolution.
        MotorRatio = "head.motor.ratio",
        /// The rotor's greatest speed.
        RotorGreatestSpeed = "head.motor.rotor_speed.greatest",
        /// Allowed pressure at the outlet.
        OutletLimit = "head.outlet.back_pressure",
        /// Allowed pressure in the housing.
        CaseLimit = "head.outlet.case_pressure",
        /// Whether a case line is needed.
        NeedsCaseLine = "head.outlet.needs_case_line",
        /// Flow through the case line.
        CaseFlow = "head.outlet.case_flow",
        /// Other tools on the same spool.
        SharedTools = "carrier.circuit.shared_with",
        /// What another tool bears.
        SharedToolPressure = "carrier.circuit.shared_with.greatest_pressure",
        /// What the circuit's relief is for.
        ReliefRole = "carrier.circuit.relief_role",
        /// The machine's main relief.
        MainRelief = "carrier.main_relief",
        /// Relief block of the head's own.
        HeadRelief = "carrier.circuit.head_relief",
        /// Kind or rating of the hoses to the head.
        SupplyRating = "carrier.circuit.supply.rating",
        /// Kind or rating of the hoses back.
        ReturnRating = "carrier.circuit.return_path.line.rating",
        /// The couplings at boom or arm.
        Coupling = "carrier.circuit.coupling",
        /// What the couplings bear.
        CouplingRating = "carrier.circuit.coupling.rated_pressure",
        /// What the couplings pass.
        CouplingFlow = "carrier.circuit.coupling.rated_flow",
        /// Whether the couplings are screwed and lock.
        CouplingScrewed = "carrier.circuit.coupling.screwed",
        /// Directions of the circuit.
        CircuitWays = "carrier.circuit.ways",
        /// Whether the flow stays on.
        Continuous = "carrier.circuit.continuous",
        /// Where the circuit gets its oil.
        FedFrom = "carrier.circuit.fed_from",
        /// Whether the pump is told of the head.
        DemandSignal = "carrier.circuit.demand_signal",
        /// Whether the head stops without operator or power.
        StopsAndStaysOff = "carrier.circuit.stops_and_stays_off",
        /// Whether the circuit lets its oil through to the tank while the head's valve is shut.
        UnloadsWhenOff = "carrier.circuit.unloads_when_off",
        /// Whether the divider is vented while the head is off.
        DividerOff = "carrier.circuit.divider.vented_when_off",
        /// Whether the divider's port has a relief.
        DividerRelief = "carrier.circuit.divider.port_relief",
        /// What can shut the return.
        CanBeShut = "carrier.circuit.return_path.can_be_shut",
        /// How the pumps are commanded.
        PumpControl = "carrier.pumps.control",
        /// Flow of the pumps.
        PumpFlow = "carrier.pumps.greatest_flow",
        /// What else the pumps feed.
        AlsoFeeds = "carrier.pumps.also_feeds",
        /// Family of the oil.
        OilKind = "carrier.oil.kind",
        /// Cleanliness of the oil.
        OilCleanliness = "carrier.oil.cleanliness",
        /// Filtration rating of the return filter.
        FiltrationRating = "carrier.return_filter.fineness_um",
        /// What the machine lifts.
        Lifting = "carrier.lifting",
        /// What a digging arm lifts over the side, at ground level and at its greatest reach.
        LiftChart = "carrier.lifting.chart",
        /// The greatest reach at ground level.
        GreatestReach = "carrier.lifting.greatest_reach",
        /// From the slew or tipping axis to where a load tips or hangs.
        LiftGeometry = "carrier.lifting.tipping_edge",
        /// The coupler between arm and head.
        ToolCoupler = "carrier.coupler",
        /// The end of the machine at which its coupler is.
        CouplerEnd = "carrier.coupler.end",
        /// Its lock.
        CouplerSecured = "carrier.coupler.secured",
        /// Free radius for a curled tool.
        CurlClearance = "carrier.curl_clearance",
        /// Torque that the machine holds.
        ReactionTorque = "carrier.reaction_torque",
        /// Travel speeds at full engine speed.
        TravelSpeed = "carrier.travel_speed",
        /// Guards fitted.
        Guards = "carrier.guards",
        /// Voltage of the machine.
        Voltage = "carrier.electrics.voltage",
        /// Spare outputs.
        Outputs = "carrier.electrics.outputs",
        /// Spare buttons.
        SpareButtons = "carrier.electrics.spare_buttons",
        /// Mass of the head.
        HeadMass = "head.mass",
        /// Where its mass hangs.
        CentreOfGravity = "head.centre_of_gravity",
        /// How far it swings in.
        CurlRadius = "head.curl_radius",
        /// What it may hold besides.
        Payload = "head.work.payload",
        /// What it works on.
        HeadWork = "head.work.materials",
        /// Directions that it bears.
        HeadWays = "head.ways",
        /// Whether it passes oil while off.
        HeadCentre = "head.centre",
        /// How its other functions are driven.
        ExtraDrive = "head.extra_functions.drive",
        /// Pressure that its other functions bear.
        ExtraPressure = "head.extra_functions.greatest_pressure",
        /// Voltage and current of its coils.
        Coils = "head.extra_functions.voltage",
        /// Guards that it demands.
        GuardsDemanded = "head.demands.guards",
        /// Kinds of oil that it takes.
        OilKindsDemanded = "head.demands.oil_kinds",
        /// Grades of oil that it takes.
        OilGradesDemanded = "head.demands.oil_grades",
        /// How clean its oil must be.
        CleanlinessDemanded = "head.demands.cleanliness",
        /// Whether its return must pass a filter.
        FilterDemanded = "head.demands.return_filter",
        /// The filtration rating that it needs.
        FiltrationDemanded = "head.demands.filter_fineness_um",
        /// Torque of its drive.
        TorqueLimit = "head.motor.torque_limit",
        /// Whether it shakes.
        Vibrating = "head.vibrating",
        /// The head's window of carrier mass.
        CarrierMassWindow = "head.carrier_mass",
        /// The head's mounting.
        HeadMounting = "head.mounting",
    }
}

string_enum! {
    /// How a fact is found out.
    "way to find out" pub enum FoundBy {
        /// Read off a plate, a print, a manual or a display, or by looking and trying.
        Plate = "plate",
        /// Measured with a tape or a scale.
        Tape = "tape",
        /// Read on a gauge at a test port.
        Gauge = "gauge",
        /// Measured with a flow tester, or over half an hour's run.
        FlowTester = "flow-tester",
        /// Asked of the maker, or of a laboratory.
        Maker = "maker",
    }
}

impl FoundBy {
    /// What it takes, in minutes; a maker's answer a working day of eight hours (common practice, no published source).
    pub fn minutes(self) -> u32 {
        match self {
            Self::Plate => 5,
            Self::Tape => 10,
            Self::Gauge => 30,
            Self::FlowTester => 60,
            Self::Maker => 480,
        }
    }
}

/// Least and greatest value in SI, and how such a value is shown.
type Scale = (f64, f64, fn(f64) -> Amount);

impl FactId {
    /// Whether it is a fact of the machine rather than of the head.
    pub fn is_of_machine(self) -> bool {
        // Facts are named like their fields, which begin with the list that they stand in.
        self.name().starts_with("carrier.")
    }

    /// Whether it is a fact of one circuit of the machine. Pumps are told by the circuit that they feed.
    pub fn is_of_circuit(self) -> bool {
        ["carrier.circuit.", "carrier.pumps.", "carrier.power_groups."].iter().any(|of| self.name().starts_with(of))
    }

    /// Whether a table has a field for it: some things only practice says, or a gauge at the hand-over.
    pub fn has_field(self) -> bool {
        !matches!(
            self,
            Self::PumpLeak
                | Self::ReliefOverride
                | Self::FreeRunning
                | Self::ReturnPulsation
                | Self::OilSettles
                | Self::RunDownLoss
        )
    }

    /// How it is found out, by the quickest means that does for one who stands at the machine.
    pub fn found_by(self) -> FoundBy {
        match self {
            Self::CircuitFlow | Self::PumpLeak | Self::CaseFlow | Self::CoolerConductance | Self::PowerLimit => {
                FoundBy::FlowTester
            }
            Self::CircuitRelief
            | Self::ReliefOverride
            | Self::MainRelief
            | Self::ReturnLoss
            | Self::PumpMargin
            | Self::PumpCutOff
            | Self::FreeRunning => FoundBy::Gauge,
            Self::SupplyLine
            | Self::ReturnLine
            | Self::CaseLineSize
            | Self::CarrierMounting
            | Self::HeadMounting
            | Self::LiftGeometry
            | Self::CurlClearance
            | Self::CurlRadius
            | Self::CentreOfGravity
            | Self::HeadMass
            | Self::MotorRatio
            | Self::TravelSpeed => FoundBy::Tape,
            Self::ReturnPulsation
            | Self::CouplingLoss
            | Self::CouplingFlow
            | Self::MotorVolumetric
            | Self::MotorHydromechanical
            | Self::OilCleanliness
            | Self::ReactionTorque => FoundBy::Maker,
            _ => FoundBy::Plate,
        }
    }

    /// Whether the fact is one figure.
    pub fn is_figure(self) -> bool {
        self.scale().is_some()
    }

    /// Whether the fact is itself a limit of a check.
    pub(super) fn is_limit(self) -> bool {
        matches!(
            self,
            Self::HeadLeastFlow
                | Self::HeadRatedFlow
                | Self::HeadGreatestFlow
                | Self::HeadGreatestPower
                | Self::HeadGreatestPressure
                | Self::RotorGreatestSpeed
                | Self::OutletLimit
                | Self::CaseLimit
                | Self::CarrierMassWindow
                | Self::SharedToolPressure
                | Self::SupplyRating
                | Self::ReturnRating
                | Self::CouplingRating
                | Self::CouplingFlow
                | Self::TorqueLimit
                | Self::ReactionTorque
                | Self::CurlClearance
                | Self::ToolCoupler
        )
    }

    /// Least and greatest value (SI) between which a threshold is looked for, and how to show it; none for facts that
    /// are more than one figure.
    pub fn scale(self) -> Option<Scale> {
        fn amount<Q: Quantity>(si: f64) -> Amount {
            Amount::of(Q::from_si(si))
        }
        const LITRE_PER_MINUTE: f64 = 1e-3 / 60.0;
        const BAR: f64 = 1e5;
        match self {
            Self::CircuitFlow | Self::HeadLeastFlow | Self::HeadRatedFlow | Self::HeadGreatestFlow => {
                Some((LITRE_PER_MINUTE, 600.0 * LITRE_PER_MINUTE, amount::<VolumeRate>))
            }
            Self::CircuitRelief | Self::WorkingPressure | Self::HeadGreatestPressure => {
                Some((10.0 * BAR, 500.0 * BAR, amount::<Pressure>))
            }
            Self::SupplyRating
            | Self::ReturnRating
            | Self::CouplingRating
            | Self::SharedToolPressure
            | Self::MainRelief => Some((10.0 * BAR, 1000.0 * BAR, amount::<Pressure>)),
            Self::CouplingFlow => Some((LITRE_PER_MINUTE, 2000.0 * LITRE_PER_MINUTE, amount::<VolumeRate>)),
            Self::TorqueLimit | Self::ReactionTorque => Some((10.0, 1e6, amount::<Torque>)),
            Self::HeadMass | Self::Payload => Some((1.0, 20e3, amount::<Mass>)),
            Self::CentreOfGravity | Self::CurlRadius | Self::CurlClearance => Some((0.01, 10.0, amount::<Length>)),
            Self::OutletLimit | Self::CaseLimit => Some((0.1 * BAR, 100.0 * BAR, amount::<Pressure>)),
            Self::EnginePower | Self::PowerLimit | Self::HeadGreatestPower => Some((500.0, 500e3, amount::<Power>)),
            Self::MotorDisplacement => Some((1e-6, 2e-3, amount::<Displacement>)),
            Self::RotorGreatestSpeed => Some((1.0, 1000.0, amount::<AngularVelocity>)),
            Self::OperatingMass => Some((100.0, 100e3, amount::<Mass>)),
            _ => None,
        }
    }
}
