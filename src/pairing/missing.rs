//! Facts that an answer rests on, and what to say of a missing one.

use super::Bound;
use crate::quantity::{Amount, AngularVelocity, Displacement, Kind, Mass, Named, Power, Pressure, VolumeRate, names};
use serde::Serialize;

/// A fact that is not known.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Missing {
    /// Which.
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

names! {
    /// A fact of carrier or head that an answer rests on, named like its field in the table.
    "fact" pub enum FactId {
        /// An auxiliary circuit.
        Circuit = "carrier.circuits",
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
        /// Whether the return passes the cooler.
        ThroughCooler = "carrier.circuit.return_path.through_cooler",
        /// How the head's return pulsates.
        ReturnPulsation = "head.outlet.pulsation",
        /// Whether the head lets its rotor run down.
        RunDownCheck = "head.run_down_check",
        /// Override of the relief.
        ReliefOverride = "carrier.circuit.relief.override",
        /// Whether there is a case line.
        CaseLine = "carrier.case_line",
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
        /// The head's least flow.
        HeadLeastFlow = "head.flow.least",
        /// The head's rated flow.
        HeadRatedFlow = "head.flow.rated",
        /// The head's greatest flow.
        HeadGreatestFlow = "head.flow.greatest",
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
        /// The head's window of carrier mass.
        CarrierMassWindow = "head.carrier_mass",
        /// The head's mounting.
        HeadMounting = "head.mounting",
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

    /// Whether the fact is itself a limit of a check.
    pub(super) fn is_limit(self) -> bool {
        matches!(
            self,
            Self::HeadLeastFlow
                | Self::HeadRatedFlow
                | Self::HeadGreatestFlow
                | Self::HeadGreatestPressure
                | Self::RotorGreatestSpeed
                | Self::OutletLimit
                | Self::CaseLimit
                | Self::CarrierMassWindow
        )
    }

    /// Least and greatest value (SI) between which a threshold is looked for, and how to show it; none for facts that
    /// are more than one figure.
    pub(super) fn scale(self) -> Option<Scale> {
        fn amount<Q: Kind>(si: f64) -> Amount {
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
            Self::OutletLimit | Self::CaseLimit => Some((0.1 * BAR, 100.0 * BAR, amount::<Pressure>)),
            Self::EnginePower | Self::PowerLimit => Some((500.0, 500e3, amount::<Power>)),
            Self::MotorDisplacement => Some((1e-6, 2e-3, amount::<Displacement>)),
            Self::RotorGreatestSpeed => Some((1.0, 1000.0, amount::<AngularVelocity>)),
            Self::OperatingMass => Some((100.0, 100e3, amount::<Mass>)),
            _ => None,
        }
    }
}
