//! The figures of a spec plate: how each is answered, which fact it settles, and where it stands in a carrier.

use fit::FactId;
use quantity::{Dimension, Named, names};
use table::{
    CarrierClass, CouplingStandard, FedFrom, LineStandard, MachineEnd, MountingStandard, OilGrade, OilKind,
    PumpControl, ReturnRoute, Ways,
};

names! {
    /// A figure of the plate.
    "plate figure" pub enum Figure {
        /// Operating mass.
        OperatingMass = "operating-mass",
        /// Greatest flow of the auxiliary circuit.
        Flow = "flow",
        /// Relief of the auxiliary circuit.
        Relief = "relief",
        /// The end of the machine that the auxiliary circuit feeds.
        End = "end",
        /// How heads are mounted.
        Mounting = "mounting",
        /// Diameter of the pins.
        Pin = "pin",
        /// Width of the stick between the head's ears.
        StickWidth = "stick-width",
        /// Distance of the pin centres.
        PinCentres = "pin-centres",
        /// Whether there is a coupler between arm and head.
        Coupler = "coupler",
        /// Its mass.
        CouplerMass = "coupler-mass",
        /// What it may carry.
        CouplerCapacity = "coupler-capacity",
        /// Whether its lock is proven by its build.
        CouplerSecured = "coupler-secured",
        /// Greatest reach of an excavator's lift chart.
        LiftReach = "lift-reach",
        /// Rated lift there, over the side.
        LiftMass = "lift-mass",
        /// From the slew axis to the tipping edge.
        TippingEdge = "tipping-edge",
        /// From the slew axis to the boom's foot.
        BoomFoot = "boom-foot",
        /// Rated operating capacity of a loader.
        RatedCapacity = "rated-operating-capacity",
        /// From the tipping axis to the coupler's face.
        TippingAxis = "tipping-axis",
        /// From the coupler's face to the bucket's centre of gravity.
        LoadCentre = "load-centre",
        /// Net engine power.
        EnginePower = "engine-power",
        /// Engine speed at work.
        WorkingSpeed = "working-speed",
        /// Engine speed without load.
        HighIdle = "high-idle",
        /// To which flows the machine itself can be set.
        FlowSetting = "flow-setting",
        /// Whether that setting can be locked.
        FlowLocked = "flow-locked",
        /// To which pressures the relief may be set.
        ReliefRange = "relief-range",
        /// Where the circuit gets its oil.
        FedFrom = "fed-from",
        /// How the pump is commanded.
        PumpControl = "pump-control",
        /// Where the pump cuts off, or what it is rated for.
        PumpPressure = "pump-pressure",
        /// Whether oil can be sent both ways.
        Ways = "ways",
        /// Whether the reverse direction is locked.
        ReverseLocked = "reverse-locked",
        /// Whether the flow stays on without a hand.
        Continuous = "continuous",
        /// Whether it stops without operator or power, and stays off.
        StopsAndStaysOff = "stops-and-stays-off",
        /// Whether the oil goes to the tank unloaded while the attachment's valve is shut.
        UnloadsWhenOff = "unloads-when-off",
        /// Whether another tool hangs on the same spool.
        OtherTool = "other-tool",
        /// The pressure that it bears.
        OtherToolPressure = "other-tool-pressure",
        /// Whether it has a relief of its own.
        OtherToolRelief = "other-tool-relief",
        /// Whether the return goes through the valve.
        ReturnRoute = "return-route",
        /// Pressure lost on the way back.
        ReturnLoss = "return-loss",
        /// At which flow that was measured.
        ReturnLossFlow = "return-loss-flow",
        /// Whether anything can shut the return.
        ReturnShut = "return-shut",
        /// Whether the return passes the machine's filter.
        ReturnFilter = "return-filter",
        /// Fineness of that filter.
        FilterFineness = "filter-fineness",
        /// Whether the return passes the cooler.
        ThroughCooler = "through-cooler",
        /// Bore of the supply line.
        SupplyBore = "supply-bore",
        /// Length of the supply line.
        SupplyLength = "supply-length",
        /// Of which standard the supply line is.
        SupplyStandard = "supply-standard",
        /// Rated pressure of the supply line, where it is stated.
        SupplyRating = "supply-rating",
        /// Bore of the return line.
        ReturnBore = "return-bore",
        /// Length of the return line.
        ReturnLength = "return-length",
        /// Of which standard the return line is.
        ReturnStandard = "return-standard",
        /// Rated pressure of the return line, where it is stated.
        ReturnRating = "return-rating",
        /// Standard of the couplings at boom or arm.
        CouplingStandard = "coupling-standard",
        /// Their nominal size.
        CouplingSize = "coupling-size",
        /// Their rated pressure.
        CouplingRating = "coupling-rating",
        /// Whether they are screwed and lock.
        CouplingScrewed = "coupling-screwed",
        /// Whether there is a case line.
        CaseLine = "case-line",
        /// Whether the case line ends in the tank by a port of its own.
        CasePort = "case-port",
        /// Bore of the case line.
        CaseBore = "case-bore",
        /// Length of the case line.
        CaseLength = "case-length",
        /// Grade of the oil.
        OilGrade = "oil-grade",
        /// Family of the oil.
        OilKind = "oil-kind",
        /// Cleanliness of the oil.
        OilCleanliness = "oil-cleanliness",
        /// Whether a front guard is fitted.
        FrontGuard = "front-guard",
        /// Whether an impact-resistant window is fitted.
        ImpactWindow = "impact-window",
        /// System voltage.
        Voltage = "voltage",
        /// How many switched outputs are spare.
        SpareOutputs = "spare-outputs",
        /// What each of them switches.
        OutputCurrent = "output-current",
        /// How many buttons are spare.
        SpareButtons = "spare-buttons",
    }
}

/// The mounting by pins, among the names of standards.
pub const BY_PINS: &str = "pins";

/// How a figure is answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// By a figure with its unit.
    Quantity(Dimension),
    /// By the least and the greatest figure.
    Range(Dimension),
    /// By yes or no.
    YesNo,
    /// By one of these names.
    Choice(Vec<&'static str>),
    /// By a whole number.
    Count,
    /// By a code, as it is written.
    Code,
}

impl Figure {
    /// What stands on the machine's own plate besides its name.
    pub const ON_THE_PLATE: [Self; 2] = [Self::OperatingMass, Self::EnginePower];

    /// How it is answered.
    pub fn answer(self) -> Answer {
        fn choice<T: Named>() -> Vec<&'static str> {
            T::NAMES.to_vec()
        }
        match self {
            Self::OperatingMass | Self::CouplerMass | Self::CouplerCapacity | Self::LiftMass | Self::RatedCapacity => {
                Answer::Quantity(Dimension::Mass)
            }
            Self::EnginePower => Answer::Quantity(Dimension::Power),
            Self::WorkingSpeed | Self::HighIdle => Answer::Quantity(Dimension::RotationalSpeed),
            Self::Flow | Self::ReturnLossFlow => Answer::Quantity(Dimension::Flow),
            Self::Relief
            | Self::PumpPressure
            | Self::ReturnLoss
            | Self::OtherToolPressure
            | Self::SupplyRating
            | Self::ReturnRating
            | Self::CouplingRating => Answer::Quantity(Dimension::Pressure),
            Self::FlowSetting => Answer::Range(Dimension::Flow),
            Self::ReliefRange => Answer::Range(Dimension::Pressure),
            Self::SupplyBore
            | Self::SupplyLength
            | Self::ReturnBore
            | Self::ReturnLength
            | Self::CaseBore
            | Self::CaseLength
            | Self::CouplingSize
            | Self::Pin
            | Self::StickWidth
            | Self::PinCentres
            | Self::LiftReach
            | Self::TippingEdge
            | Self::BoomFoot
            | Self::TippingAxis
            | Self::LoadCentre => Answer::Quantity(Dimension::Length),
            Self::Voltage => Answer::Quantity(Dimension::Voltage),
            Self::OutputCurrent => Answer::Quantity(Dimension::Current),
            Self::FlowLocked
            | Self::ReverseLocked
            | Self::Continuous
            | Self::StopsAndStaysOff
            | Self::UnloadsWhenOff
            | Self::OtherTool
            | Self::OtherToolRelief
            | Self::ReturnShut
            | Self::ReturnFilter
            | Self::ThroughCooler
            | Self::CouplingScrewed
            | Self::Coupler
            | Self::CouplerSecured
            | Self::CaseLine
            | Self::CasePort
            | Self::FrontGuard
            | Self::ImpactWindow => Answer::YesNo,
            Self::FilterFineness | Self::SpareOutputs | Self::SpareButtons => Answer::Count,
            Self::OilCleanliness => Answer::Code,
            Self::ReturnRoute => Answer::Choice(choice::<ReturnRoute>()),
            Self::FedFrom => Answer::Choice(choice::<FedFrom>()),
            Self::End => Answer::Choice(choice::<MachineEnd>()),
            Self::PumpControl => Answer::Choice(choice::<PumpControl>()),
            Self::Ways => Answer::Choice(choice::<Ways>()),
            Self::SupplyStandard | Self::ReturnStandard => Answer::Choice(choice::<LineStandard>()),
            Self::CouplingStandard => Answer::Choice(choice::<CouplingStandard>()),
            Self::OilGrade => Answer::Choice(choice::<OilGrade>()),
            Self::OilKind => Answer::Choice(choice::<OilKind>()),
            Self::Mounting => Answer::Choice([BY_PINS].into_iter().chain(choice::<MountingStandard>()).collect()),
        }
    }

    /// The fact that it settles, alone or with others.
    pub fn settles(self) -> FactId {
        match self {
            Self::OperatingMass => FactId::OperatingMass,
            Self::Flow | Self::FlowSetting => FactId::CircuitFlow,
            Self::FlowLocked => FactId::FlowSettingLocked,
            Self::Relief | Self::ReliefRange => FactId::CircuitRelief,
            Self::End => FactId::CircuitEnd,
            Self::Mounting | Self::Pin | Self::StickWidth | Self::PinCentres => FactId::CarrierMounting,
            Self::Coupler | Self::CouplerMass | Self::CouplerCapacity => FactId::ToolCoupler,
            Self::CouplerSecured => FactId::CouplerSecured,
            Self::LiftReach | Self::LiftMass | Self::RatedCapacity => FactId::Lifting,
            Self::TippingEdge | Self::BoomFoot | Self::TippingAxis | Self::LoadCentre => FactId::LiftGeometry,
            Self::EnginePower => FactId::EnginePower,
            Self::WorkingSpeed | Self::HighIdle => FactId::HighIdle,
            Self::FedFrom => FactId::FedFrom,
            Self::PumpControl => FactId::PumpControl,
            Self::PumpPressure => FactId::PumpCutOff,
            Self::Ways | Self::ReverseLocked => FactId::CircuitWays,
            Self::Continuous => FactId::Continuous,
            Self::StopsAndStaysOff => FactId::StopsAndStaysOff,
            Self::UnloadsWhenOff => FactId::UnloadsWhenOff,
            Self::OtherTool => FactId::SharedTools,
            Self::OtherToolPressure | Self::OtherToolRelief => FactId::SharedToolPressure,
            // Unstated, the oil comes back through the valve, which loses more.
            Self::ReturnRoute | Self::ReturnLoss | Self::ReturnLossFlow => FactId::ReturnLoss,
            Self::ReturnShut => FactId::CanBeShut,
            Self::ReturnFilter => FactId::ReturnFilter,
            Self::FilterFineness => FactId::FilterFineness,
            Self::ThroughCooler => FactId::ThroughCooler,
            Self::SupplyBore | Self::SupplyLength => FactId::SupplyLine,
            Self::SupplyStandard | Self::SupplyRating => FactId::SupplyRating,
            Self::ReturnBore | Self::ReturnLength => FactId::ReturnLine,
            Self::ReturnStandard | Self::ReturnRating => FactId::ReturnRating,
            Self::CouplingStandard | Self::CouplingSize => FactId::Coupling,
            Self::CouplingRating => FactId::CouplingRating,
            Self::CouplingScrewed => FactId::CouplingScrewed,
            Self::CaseLine => FactId::CaseLine,
            Self::CasePort => FactId::CasePort,
            Self::CaseBore | Self::CaseLength => FactId::CaseLineSize,
            Self::OilGrade => FactId::OilGrade,
            Self::OilKind => FactId::OilKind,
            Self::OilCleanliness => FactId::OilCleanliness,
            Self::FrontGuard | Self::ImpactWindow => FactId::Guards,
            Self::Voltage => FactId::Voltage,
            Self::SpareOutputs | Self::OutputCurrent => FactId::Outputs,
            Self::SpareButtons => FactId::SpareButtons,
        }
    }

    /// The figure without whose answer this one has no meaning, and the answer that gives it one (any, when `None`).
    pub fn depends_on(self) -> Option<(Self, Option<&'static str>)> {
        match self {
            Self::Pin => Some((Self::Mounting, Some(BY_PINS))),
            Self::StickWidth | Self::PinCentres => Some((Self::Pin, None)),
            Self::FlowLocked => Some((Self::FlowSetting, None)),
            Self::ReverseLocked => Some((Self::Ways, Some(Ways::Two.name()))),
            Self::OtherToolPressure | Self::OtherToolRelief => Some((Self::OtherTool, Some("yes"))),
            Self::ReturnLossFlow => Some((Self::ReturnLoss, None)),
            Self::CouplerMass | Self::CouplerCapacity | Self::CouplerSecured => Some((Self::Coupler, Some("yes"))),
            Self::CasePort | Self::CaseBore | Self::CaseLength => Some((Self::CaseLine, Some("yes"))),
            Self::OutputCurrent => Some((Self::SpareOutputs, None)),
            _ => None,
        }
    }

    /// The figure without which this one says nothing, and which says nothing without this one.
    pub fn counts_with(self) -> Option<Self> {
        match self {
            // A loss at no flow and a load at no reach say nothing.
            Self::ReturnLoss => Some(Self::ReturnLossFlow),
            Self::ReturnLossFlow => Some(Self::ReturnLoss),
            Self::LiftReach => Some(Self::LiftMass),
            Self::LiftMass => Some(Self::LiftReach),
            // The list of guards is whole or none: who is silent about the window does not say that there is none.
            Self::FrontGuard => Some(Self::ImpactWindow),
            Self::ImpactWindow => Some(Self::FrontGuard),
            _ => None,
        }
    }

    /// Whether machines of a class have it: a digging arm has a lift chart, a loader a rated operating capacity, a backhoe loader both.
    pub fn is_for(self, class: CarrierClass) -> bool {
        match self {
            Self::End => class.only_end().is_none(),
            _ => self.end().is_none_or(|end| class.only_end().is_none_or(|only| only == end)),
        }
    }

    /// The end of a machine to which it belongs; none where it belongs to either.
    pub fn end(self) -> Option<MachineEnd> {
        match self {
            Self::LiftReach | Self::LiftMass | Self::TippingEdge | Self::BoomFoot => Some(MachineEnd::Arm),
            Self::RatedCapacity | Self::TippingAxis | Self::LoadCentre => Some(MachineEnd::Loader),
            _ => None,
        }
    }

    /// Where it stands in a carrier, as a JSON Pointer from the carrier on.
    pub(super) fn pointer(self) -> &'static str {
        match self {
            Self::OperatingMass => "/operating_mass",
            Self::Flow => "/circuits/0/flow",
            Self::Relief => "/circuits/0/relief",
            Self::End => "/circuits/0/end",
            Self::Mounting => "/mounting/0/standard",
            Self::Pin => "/mounting/0/pin",
            Self::StickWidth => "/mounting/0/width",
            Self::PinCentres => "/mounting/0/centres",
            Self::Coupler => "/coupler/fitted",
            Self::CouplerMass => "/coupler/mass",
            Self::CouplerCapacity => "/coupler/capacity",
            Self::CouplerSecured => "/coupler/secured",
            Self::LiftReach => "/lifting/chart/0/reach",
            Self::LiftMass => "/lifting/chart/0/mass",
            Self::TippingEdge => "/lifting/tipping_edge",
            Self::BoomFoot => "/lifting/boom_foot",
            Self::RatedCapacity => "/lifting/rated_operating_capacity",
            Self::TippingAxis => "/lifting/tipping_axis",
            Self::LoadCentre => "/lifting/load_centre",
            Self::EnginePower => "/engine/power",
            Self::WorkingSpeed => "/engine/working_speed",
            Self::HighIdle => "/engine/high_idle",
            Self::FlowSetting => "/circuits/0/flow_setting/range",
            Self::FlowLocked => "/circuits/0/flow_setting/locked",
            Self::ReliefRange => "/circuits/0/relief_range",
            Self::FedFrom => "/circuits/0/fed_from",
            Self::PumpControl => "/pumps/0/control",
            Self::PumpPressure => "/pumps/0/pressure",
            Self::Ways => "/circuits/0/ways",
            Self::ReverseLocked => "/circuits/0/reverse_locked",
            Self::Continuous => "/circuits/0/continuous",
            Self::StopsAndStaysOff => "/circuits/0/stops_and_stays_off",
            Self::UnloadsWhenOff => "/circuits/0/unloads_when_off",
            Self::OtherTool => "/circuits/0/shared_with",
            Self::OtherToolPressure => "/circuits/0/shared_with/0/greatest_pressure",
            Self::OtherToolRelief => "/circuits/0/shared_with/0/own_relief",
            Self::ReturnRoute => "/circuits/0/return_path/route",
            Self::ReturnLoss => "/circuits/0/return_path/loss/loss",
            Self::ReturnLossFlow => "/circuits/0/return_path/loss/flow",
            Self::ReturnShut => "/circuits/0/return_path/can_be_shut",
            Self::ReturnFilter => "/circuits/0/return_path/through_filter",
            Self::FilterFineness => "/return_filter/fineness_um",
            Self::ThroughCooler => "/circuits/0/return_path/through_cooler",
            Self::SupplyBore => "/circuits/0/supply/0/bore",
            Self::SupplyLength => "/circuits/0/supply/0/length",
            Self::SupplyStandard => "/circuits/0/supply/0/standard",
            Self::SupplyRating => "/circuits/0/supply/0/rating",
            Self::ReturnBore => "/circuits/0/return_path/line/0/bore",
            Self::ReturnLength => "/circuits/0/return_path/line/0/length",
            Self::ReturnStandard => "/circuits/0/return_path/line/0/standard",
            Self::ReturnRating => "/circuits/0/return_path/line/0/rating",
            Self::CouplingStandard => "/circuits/0/coupling/standard",
            Self::CouplingSize => "/circuits/0/coupling/size",
            Self::CouplingRating => "/circuits/0/coupling/rated_pressure",
            Self::CouplingScrewed => "/circuits/0/coupling/screwed",
            Self::CaseLine => "/case_line/fitted",
            Self::CasePort => "/case_line/own_port",
            Self::CaseBore => "/case_line/line/0/bore",
            Self::CaseLength => "/case_line/line/0/length",
            Self::OilGrade => "/oil/grade",
            Self::OilKind => "/oil/kind",
            Self::OilCleanliness => "/oil/cleanliness",
            Self::FrontGuard => "/guards",
            Self::ImpactWindow => "/guards/0",
            Self::Voltage => "/electrics/voltage",
            Self::SpareOutputs => "/electrics/outputs",
            Self::OutputCurrent => "/electrics/outputs/0/current",
            Self::SpareButtons => "/electrics/spare_buttons",
        }
    }
}
