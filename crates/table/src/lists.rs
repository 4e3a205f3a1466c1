//! The closed lists of names that a table uses.

use quantity::string_enum;

string_enum! {
    /// The class of a carrier machine, by build and size.
    "carrier class" pub enum CarrierClass {
        /// Excavator up to 2 t.
        MicroExcavator = "micro-excavator",
        /// Excavator from 2 t to 6 t.
        MiniExcavator = "mini-excavator",
        /// Excavator from 6 t to 13 t.
        MidiExcavator = "midi-excavator",
        /// Excavator of 13 t and more.
        Excavator = "excavator",
        /// Skid-steer loader on wheels.
        SkidSteer = "skid-steer",
        /// Compact loader on tracks.
        CompactTrackLoader = "compact-track-loader",
        /// Loader on wheels with articulated or rigid frame.
        WheelLoader = "wheel-loader",
        /// Loader with a digging arm at the rear.
        BackhoeLoader = "backhoe-loader",
    }
}

impl CarrierClass {
    /// Whether it digs with a slewing upper structure; the others work while they drive.
    pub fn is_excavator(self) -> bool {
        matches!(self, Self::MicroExcavator | Self::MiniExcavator | Self::MidiExcavator | Self::Excavator)
    }

    /// The one end at which its machines carry heads; none for a backhoe loader, which has two.
    pub fn only_end(self) -> Option<MachineEnd> {
        match self {
            Self::MicroExcavator | Self::MiniExcavator | Self::MidiExcavator | Self::Excavator => Some(MachineEnd::Arm),
            Self::SkidSteer | Self::CompactTrackLoader | Self::WheelLoader => Some(MachineEnd::Loader),
            Self::BackhoeLoader => None,
        }
    }
}

string_enum! {
    /// An end of a machine at which heads are hung.
    "end of a machine" pub enum MachineEnd {
        /// The digging arm of an excavator or a backhoe loader.
        Arm = "arm",
        /// The lift arms of a loader, a backhoe loader's too.
        Loader = "loader",
    }
}

string_enum! {
    /// What a head does.
    "head kind" pub enum HeadKind {
        /// Blades on a rotating disc or carrier that cut stems.
        RotaryCutter = "rotary-cutter",
        /// Swinging flails on a shaft.
        Flail = "flail",
        /// Drum with fixed teeth that grinds standing wood.
        DrumMulcher = "drum-mulcher",
        /// Drum with swinging hammers.
        HammerMulcher = "hammer-mulcher",
        /// Earth drill.
        Auger = "auger",
        /// Impact hammer.
        Breaker = "breaker",
        /// Digging chain or wheel.
        Trencher = "trencher",
        /// Wheel that grinds stumps.
        StumpGrinder = "stump-grinder",
        /// Vibrating plate.
        PlateCompactor = "plate-compactor",
        /// Drum that mills road surfaces.
        ColdPlaner = "cold-planer",
        /// Circular or chain saw for wood or stone.
        Saw = "saw",
        /// Bucket that screens what it holds.
        ScreeningBucket = "screening-bucket",
        /// Rotating broom.
        Sweeper = "sweeper",
        /// Snow blower.
        SnowBlower = "snow-blower",
    }
}

impl HeadKind {
    /// Whether something turns fast enough that overspeed can throw it apart: then the rotor's greatest speed must be
    /// known and kept.
    pub fn has_rotor(self) -> bool {
        !matches!(self, Self::Breaker | Self::PlateCompactor)
    }

    /// Whether its rotor is heavy enough to drive its motor on when the oil stops, and to throw what it hits (common practice, no
    /// published source): the others stand at once against what they work in.
    pub fn has_heavy_rotor(self) -> bool {
        match self {
            Self::RotaryCutter
            | Self::Flail
            | Self::DrumMulcher
            | Self::HammerMulcher
            | Self::StumpGrinder
            | Self::ColdPlaner
            | Self::Saw
            | Self::SnowBlower => true,
            Self::Auger
            | Self::Breaker
            | Self::Trencher
            | Self::PlateCompactor
            | Self::ScreeningBucket
            | Self::Sweeper => false,
        }
    }

    /// Whether it throws wood, stone or teeth so far that the operator needs guards (common practice, no published source): a planer
    /// is hooded, and a blower throws snow.
    pub fn throws_far(self) -> bool {
        self.has_heavy_rotor() && !matches!(self, Self::ColdPlaner | Self::SnowBlower)
    }
}

string_enum! {
    /// How a pump is built.
    "pump kind" pub enum PumpKind {
        /// External gear.
        Gear = "gear",
        /// Vane.
        Vane = "vane",
        /// Axial piston.
        AxialPiston = "axial-piston",
        /// Bent axis piston.
        BentAxis = "bent-axis",
    }
}

string_enum! {
    /// How a pump's flow is commanded.
    "pump control" pub enum PumpControl {
        /// Constant displacement.
        Fixed = "fixed",
        /// Strokes up when the centre flow falls.
        Negative = "negative",
        /// Strokes up with the pilot signal.
        Positive = "positive",
        /// Keeps a margin above the highest load.
        LoadSensing = "load-sensing",
        /// Full flow up to the cut-off pressure.
        PressureCompensated = "pressure-compensated",
    }
}

string_enum! {
    /// How pumps that share an engine share its torque.
    "limiter sum" pub enum LimiterSum {
        /// Each pump has a limit of its own.
        Individual = "individual",
        /// One limit acts on the sum of the pressures.
        PressureSum = "pressure-sum",
        /// One limit acts on the sum of the torques.
        TorqueSum = "torque-sum",
    }
}

string_enum! {
    /// Whether oil can be sent both ways through an auxiliary circuit, or through a head.
    "ways" pub enum Ways {
        /// One direction only.
        One = "one",
        /// Both directions.
        Two = "two",
    }
}

string_enum! {
    /// Where the oil from the head goes.
    "return path" pub enum ReturnRoute {
        /// Back through the control valve's spool.
        Spool = "spool",
        /// By a line of its own to the tank or the return manifold.
        Direct = "direct",
    }
}

string_enum! {
    /// Where an auxiliary circuit gets its oil.
    "feed" pub enum FedFrom {
        /// From a spool of the machine's own control valve.
        Valve = "valve",
        /// From the port behind the control valve that passes on what it leaves.
        PowerBeyond = "power-beyond",
        /// From the pump's line, ahead of the control valve.
        PumpLine = "pump-line",
    }
}

string_enum! {
    /// What must have its oil before any head has.
    "supply that comes first" pub enum PriorityUser {
        /// Steering.
        Steering = "steering",
        /// Brakes or their charge valve, parking brake included.
        Brakes = "brakes",
        /// Pilot supply of the controls.
        Pilot = "pilot",
    }
}

string_enum! {
    /// What a relief is for.
    "relief role" pub enum ReliefRole {
        /// Guards the whole valve: above the pump's cut-off.
        Main = "main",
        /// Takes shocks at a port: above the main relief.
        Shock = "shock",
        /// Limits what the head sees: below the main relief on purpose.
        WorkLimit = "work-limit",
    }
}

string_enum! {
    /// A valve that serves a head's functions besides its rotor.
    "extra valve" pub enum ExtraValve {
        /// Switches the main lines from the motor to the other function: the motor stands meanwhile.
        Diverter = "diverter",
        /// Valve block on the head, from supply to return of the head.
        HeadBlock = "head-block",
    }
}

string_enum! {
    /// Whether a valve or head passes oil or shuts it off while idle.
    "centre type" pub enum Centre {
        /// Passes oil.
        Open = "open",
        /// Shuts it off.
        Closed = "closed",
    }
}

string_enum! {
    /// How a head's motor is built.
    "motor kind" pub enum MotorKind {
        /// Gear motor for one direction, drained inside to its outlet.
        GearOneWay = "gear-one-way",
        /// Gear motor with a drain of its own.
        GearDrained = "gear-drained",
        /// Gerotor motor with check valves behind the seal.
        Gerotor = "gerotor",
        /// Orbital motor.
        Orbital = "orbital",
        /// Axial piston motor.
        AxialPiston = "axial-piston",
        /// Bent axis piston motor.
        BentAxis = "bent-axis",
        /// Radial piston motor.
        RadialPiston = "radial-piston",
        /// No motor: an impact piston.
        Impact = "impact",
    }
}

impl MotorKind {
    /// Whether the housing must have a drain line of its own, whatever the brochure leaves out: piston motors leak into
    /// the housing and have nowhere else to send it (common practice, no published source).
    pub fn is_piston(self) -> bool {
        matches!(self, Self::AxialPiston | Self::BentAxis | Self::RadialPiston)
    }
}

string_enum! {
    /// Which hose or tube a line is made of. Ratings are of the standards named.
    "line standard" pub enum LineStandard {
        /// EN 853 1SN.
        En1sn = "1sn",
        /// EN 853 2SN.
        En2sn = "2sn",
        /// EN 856 4SP.
        En4sp = "4sp",
        /// EN 856 4SH.
        En4sh = "4sh",
        /// SAE 100R12.
        SaeR12 = "100r12",
        /// SAE 100R13.
        SaeR13 = "100r13",
        /// SAE 100R15.
        SaeR15 = "100r15",
        /// Steel tube.
        Tube = "tube",
    }
}

string_enum! {
    /// The standard of a quick-action coupling.
    "coupling standard" pub enum CouplingStandard {
        /// Flush face, ISO 16028.
        Iso16028 = "iso-16028",
        /// Poppet, ISO 7241 series A.
        Iso7241A = "iso-7241-a",
        /// Poppet, ISO 7241 series B.
        Iso7241B = "iso-7241-b",
        /// Screwed, ISO 14541.
        Iso14541 = "iso-14541",
    }
}

string_enum! {
    /// The standard of a port thread or flange.
    "port standard" pub enum PortStandard {
        /// ISO 6149-1, metric straight thread with O-ring.
        Iso6149 = "iso-6149",
        /// ISO 1179-1, pipe thread to ISO 228-1 (G).
        Iso1179 = "iso-1179",
        /// ISO 11926-1, unified straight thread with O-ring.
        Iso11926 = "iso-11926",
        /// ISO 8434-1, 24° cone.
        Iso8434 = "iso-8434-1",
        /// ISO 6162-1, four-bolt flange.
        Iso6162 = "iso-6162",
    }
}

string_enum! {
    /// An open standard for an interchangeable mounting.
    "mounting standard" pub enum MountingStandard {
        /// Compact-loader attachment plate, ISO 24410.
        Iso24410 = "iso-24410",
        /// Wheel-loader coupler, ISO 23727.
        Iso23727 = "iso-23727",
        /// Three-point hitch category 1, ISO 730.
        Iso730Category1 = "iso-730-1",
        /// Three-point hitch category 2, ISO 730.
        Iso730Category2 = "iso-730-2",
        /// Three-point hitch category 3, ISO 730.
        Iso730Category3 = "iso-730-3",
    }
}

string_enum! {
    /// A viscosity grade of ISO 3448.
    "oil grade" pub enum OilGrade {
        /// 15 mm²/s at 40 °C.
        Vg15 = "vg-15",
        /// 22 mm²/s at 40 °C.
        Vg22 = "vg-22",
        /// 32 mm²/s at 40 °C.
        Vg32 = "vg-32",
        /// 46 mm²/s at 40 °C.
        Vg46 = "vg-46",
        /// 68 mm²/s at 40 °C.
        Vg68 = "vg-68",
        /// 100 mm²/s at 40 °C.
        Vg100 = "vg-100",
    }
}

string_enum! {
    /// The family of an oil.
    "oil kind" pub enum OilKind {
        /// Mineral oil with anti-wear additives, ISO 6743-4 HM.
        MineralHm = "hm",
        /// Mineral oil with a high viscosity index, ISO 6743-4 HV.
        MineralHv = "hv",
        /// Synthetic ester, ISO 6743-4 HEES.
        Ester = "hees",
        /// Engine oil used as hydraulic oil.
        EngineOil = "engine-oil",
        /// Universal tractor transmission oil.
        Utto = "utto",
    }
}

string_enum! {
    /// A protective structure or guard, by the standard that describes it.
    "guard" pub enum Guard {
        /// Roll-over, ISO 3471.
        Rops = "rops",
        /// Roll-over of excavators over 6 t, ISO 12117-2.
        RopsExcavator = "rops-excavator",
        /// Falling objects, ISO 3449.
        Fops = "fops",
        /// Front guard, ISO 10262.
        FrontGuard = "front-guard",
        /// Top guard, ISO 10262.
        TopGuard = "top-guard",
        /// Operator protection in forestry, ISO 8084.
        ForestryOps = "forestry-ops",
        /// Falling objects in forestry, ISO 8083.
        ForestryFops = "forestry-fops",
        /// Impact-resistant window.
        ImpactWindow = "impact-window",
        /// Guard against thrown saw-chain shot, ISO 11837.
        ChainShot = "chain-shot",
    }
}

string_enum! {
    /// How a spare electrical output switches.
    "output kind" pub enum OutputKind {
        /// On and off.
        Switched = "switched",
        /// Proportional by pulse width.
        Proportional = "proportional",
        /// By a data bus.
        DataBus = "data-bus",
    }
}

string_enum! {
    /// How a function of a head besides its rotor is driven.
    "drive" pub enum Drive {
        /// By oil of a circuit of its own.
        Hydraulic = "hydraulic",
        /// By a valve on the head, switched electrically.
        Electric = "electric",
    }
}

string_enum! {
    /// A function of a head besides its rotor.
    "extra function" pub enum ExtraKind {
        /// Rotor on and off by a valve on the head.
        OnOff = "on-off",
        /// Door or hood.
        Door = "door",
        /// Tilt.
        Tilt = "tilt",
        /// Endless or limited rotation.
        Rotation = "rotation",
        /// Side shift.
        SideShift = "side-shift",
        /// Depth setting.
        Depth = "depth",
    }
}

string_enum! {
    /// How a head's pressure figures are meant.
    "pressure basis" pub enum PressureBasis {
        /// Between inlet and outlet.
        Difference = "difference",
        /// At the inlet.
        Inlet = "inlet",
    }
}

string_enum! {
    /// What is done to a machine so that a head fits.
    "change" pub enum ChangeId {
        /// Set the flow that the machine itself offers to set.
        MachineFlowSetting = "machine-flow-setting",
        /// Work at a higher engine speed.
        EngineSpeed = "engine-speed",
        /// Idle the oil warm at little flow before full speed.
        WarmUp = "warm-up",
        /// Reset a relief valve with a gauge.
        ReliefSetting = "relief-setting",
        /// Send the return past the spool by a changeover valve.
        DirectReturn = "direct-return",
        /// Lead the return into the spare port of the machine's filter and cooler manifold.
        FilterReturn = "filter-return",
        /// Lay a larger return line.
        ReturnLine = "return-line",
        /// Put a filter into the return.
        ReturnFilter = "return-filter",
        /// Lead the motor's drain to the tank by a line of its own.
        CaseLine = "case-line",
        /// Limit the flow with a sealed regulator.
        FlowLimit = "flow-limit",
        /// Give the head its set flow first by a divider in the pumps' lines, with a relief on its port.
        PriorityShare = "priority-share",
        /// Turn a fitted priority divider down.
        DividerFlow = "divider-flow",
        /// Vent a fitted priority divider while the head is off.
        DividerVent = "divider-vent",
        /// Fit a relief to the priority port of a fitted divider.
        DividerRelief = "divider-relief",
        /// Let the oil of a constant pump through to the tank while the head's own valve is shut.
        UnloadValve = "unload-valve",
        /// Fit a relief block of the head's own.
        OwnRelief = "own-relief",
        /// Shut another tool off while the head works, with a relief of its own on its side.
        IsolateTool = "isolate-tool",
        /// Give another tool on the same spool a relief of its own.
        ToolRelief = "tool-relief",
        /// Fit couplings with a rating of their own that lock against vibration.
        Couplings = "couplings",
        /// Lay a larger supply line.
        SupplyLine = "supply-line",
        /// Put hose of a higher class in place of what is there, same bore.
        HoseClass = "hose-class",
        /// Tell the pump that the head wants oil.
        DemandSignal = "demand-signal",
        /// Lock the reverse direction.
        ReverseLock = "reverse-lock",
        /// Guard the return by a low-pressure relief to the tank.
        ReturnRelief = "return-relief",
        /// Let the rotor run down over a check valve.
        MakeUpCheck = "make-up-check",
        /// Fit a cooler into the head's return.
        Cooler = "cooler",
        /// Flush and fill the oil that the head demands.
        OilChange = "oil-change",
        /// Serve the head's other functions by a diverter or a valve block.
        DoorCircuit = "door-circuit",
        /// Wire outputs, buttons and the seat switch.
        Harness = "harness",
        /// Fit the guards that the head demands.
        Guarding = "guarding",
        /// Bridge different pins with bushes, shims or a bracket.
        MountingKit = "mounting-kit",
    }
}

impl ChangeId {
    /// Whether it is a setting rather than work on the machine: it needs no part, and can be set otherwise again.
    pub fn is_setting(self) -> bool {
        matches!(
            self,
            Self::MachineFlowSetting | Self::EngineSpeed | Self::WarmUp | Self::ReliefSetting | Self::DividerFlow
        )
    }
}

string_enum! {
    /// A figure that practice gives a range for when nobody states it.
    "assumption" pub enum AssumptionId {
        /// Length of the supply line from spool to head, m.
        SupplyLength = "supply-length",
        /// Length of the return line from head to spool or tank, m.
        ReturnLength = "return-length",
        /// Bore of the supply line, mm.
        SupplyBore = "supply-bore",
        /// Bore of the return line, mm.
        ReturnBore = "return-bore",
        /// Loss of a coupled pair with its adapters as a multiple of the velocity head, K.
        CouplingLoss = "coupling-loss",
        /// Viscosity of the oil at 40 °C, mm²/s: of the oil that machines have, and that attachments take.
        OilViscosity = "oil-viscosity",
        /// Cleanliness of the oil in machines in service, and that attachments ask for: the scale number of ISO 4406 at 14 µm(c).
        OilCleanliness = "oil-cleanliness",
        /// Filtration rating of return filters, and that attachments ask for, µm at β ≥ 200 (ISO 16889).
        FiltrationRating = "filtration-rating",
        /// Operating mass of a machine of a class, kg.
        OperatingMass = "operating-mass",
        /// Greatest flow of the auxiliary circuit of a machine of a class, L/min.
        CircuitFlow = "circuit-flow",
        /// Relief of the auxiliary circuit of a machine of a class, bar.
        CircuitRelief = "circuit-relief",
        /// Net engine power of a machine of a class, kW.
        EnginePower = "engine-power",
        /// Oil in the tank of a machine of a class, L.
        TankVolume = "tank-volume",
        /// Heat that the cooler of a machine of a class carries away per kelvin, W/K.
        CoolerConductance = "cooler-conductance",
        /// Bore of the case line, mm.
        CaseBore = "case-bore",
        /// Length of the case line, m.
        CaseLength = "case-length",
        /// Pressure lost through the spool on the way back, at the circuit's greatest flow, bar.
        SpoolReturnLoss = "spool-return-loss",
        /// Pressure lost in what stands in a return by a line of its own, at the circuit's greatest flow, bar.
        DirectReturnLoss = "direct-return-loss",
        /// Pressure lost in the return filter, from clean to bypass, bar.
        FilterLoss = "filter-loss",
        /// Pump leakage at the rated pressure as a share of the flow, %.
        PumpLeak = "pump-leak",
        /// Pressure for which a pump is rated, by class of machine, bar.
        PumpRatedPressure = "pump-rated-pressure",
        /// Share of the engine's power that the pumps may take, %.
        PumpPowerShare = "pump-power-share",
        /// Efficiency of the pump, %.
        PumpEfficiency = "pump-efficiency",
        /// What a load-sensing pump keeps above its highest load, bar.
        LoadSensingMargin = "load-sensing-margin",
        /// Share of a pump's cut-off pressure over which its flow falls to nothing, %.
        CutOffBand = "cut-off-band",
        /// Share of the functions' power that is work rather than heat, %.
        FunctionsUseful = "functions-useful",
        /// Power that the pilot supply turns into heat, kW.
        PilotHeat = "pilot-heat",
        /// Rise of the engine speed from working speed to high idle, %.
        EngineDroop = "engine-droop",
        /// Relief override from cracking to full flow as a share of full-flow pressure, %.
        ReliefOverride = "relief-override",
        /// Volumetric efficiency of the motor, %.
        MotorVolumetric = "motor-volumetric",
        /// Hydro-mechanical efficiency of the motor, %.
        MotorHydromechanical = "motor-hydromechanical",
        /// Case flow as a share of the motor's flow, new to worn, %.
        CaseFlow = "case-flow",
        /// How the flow in a breaker's return pulsates: mean of the square over the square of the mean.
        ReturnPulsation = "return-pulsation",
        /// Pressure difference over the idling head's motor, by kind of head, bar.
        FreeRunning = "free-running",
        /// Pressure difference over the idling motor as a share of the head's working pressure, of heads that never run without work, %.
        FreeRunningShare = "free-running-share",
        /// Pressure in the tank, bar.
        TankPressure = "tank-pressure",
        /// Allowed pressure at the motor's outlet, by motor kind, bar.
        OutletLimit = "outlet-limit",
        /// Allowed pressure in the motor's housing, by motor kind, bar.
        CaseLimit = "case-limit",
        /// Pressure of the machine's functions while the head works, bar.
        FunctionsPressure = "functions-pressure",
        /// Pressure lost in a priority divider on the way to the head, bar.
        DividerLoss = "divider-loss",
        /// Between two limiters, so that they do not fight, bar.
        ReliefGap = "relief-gap",
        /// Oil temperature from which full speed is asked, °C.
        WarmEnough = "warm-enough",
        /// Oil temperature at which work ends, °C.
        OilStop = "oil-stop",
        /// Torque that slew brake or lift arm of a machine of a class holds, N·m.
        ReactionTorque = "reaction-torque",
        /// How far two pins may differ for a kit to bridge them, as a share of the machine's, %.
        PinBridge = "pin-bridge",
        /// How much wider a gap may be than the stick, for shims to take it up, mm.
        ShimWidth = "shim-width",
    }
}
