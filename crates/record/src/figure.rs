//! The figures of a spec plate: how each is answered, which fact it settles, and where it stands in a carrier.

use fit::FactId;
use quantity::{Dimension, Named, string_enum};
use table::{
    CarrierClass, CouplingStandard, FedFrom, LineStandard, MachineEnd, MountingStandard, OilGrade, OilKind,
    PumpControl, ReturnRoute, Ways,
};

/// Declares the figures, a row each: its name, its code within a link, where it stands in a carrier as a JSON Pointer, how it is answered,
/// and the fact that it settles, alone or with others.
macro_rules! figures {
    ($($(#[$meta:meta])* $Figure:ident = $name:literal, $code:literal, $pointer:literal, $answer:expr, $Fact:ident;)+) => {
        string_enum! {
            /// A figure of the plate.
            "plate figure" pub enum Figure { $($(#[$meta])* $Figure = $name,)+ }
        }

        impl Figure {
            /// How it is answered.
            pub fn answer(self) -> Answer {
                use Answer::{Choice, Code, Count, Quantity, Range, YesNo};
                match self { $(Self::$Figure => $answer,)+ }
            }

            /// The fact that it settles, alone or with others.
            pub fn settles(self) -> FactId {
                match self { $(Self::$Figure => FactId::$Fact,)+ }
            }

            /// Where it stands in a carrier, as a JSON Pointer from the carrier on.
            pub(super) fn pointer(self) -> &'static str {
                match self { $(Self::$Figure => $pointer,)+ }
            }

            /// Its code within a link, two letters. It stays what it is, whatever the figure is called some day: links that were sent
            /// hold it.
            pub(super) fn code(self) -> &'static str {
                match self { $(Self::$Figure => $code,)+ }
            }
        }
    };
}

figures! {
    /// Operating mass.
    OperatingMass = "operating-mass", "ma", "/operating_mass", Quantity(Dimension::Mass), OperatingMass;
    /// Greatest flow of the auxiliary circuit.
    Flow = "flow", "fl", "/circuits/0/flow", Quantity(Dimension::Flow), CircuitFlow;
    /// Relief of the auxiliary circuit.
    Relief = "relief", "re", "/circuits/0/relief", Quantity(Dimension::Pressure), CircuitRelief;
    /// The end of the machine that the auxiliary circuit feeds.
    End = "end", "en", "/circuits/0/end", Choice(choice::<MachineEnd>()), CircuitEnd;
    /// How heads are mounted.
    Mounting = "mounting", "mo", "/mounting/0/standard", Choice([BY_PINS].into_iter().chain(choice::<MountingStandard>()).collect()), CarrierMounting;
    /// Diameter of the pins.
    Pin = "pin", "pi", "/mounting/0/pin", Quantity(Dimension::Length), CarrierMounting;
    /// Width of the stick between the head's ears.
    StickWidth = "stick-width", "sw", "/mounting/0/width", Quantity(Dimension::Length), CarrierMounting;
    /// Distance of the pin centres.
    PinCentres = "pin-centres", "pc", "/mounting/0/centres", Quantity(Dimension::Length), CarrierMounting;
    /// Whether there is a coupler between arm and head.
    Coupler = "coupler", "co", "/coupler/fitted", YesNo, ToolCoupler;
    /// Its mass.
    CouplerMass = "coupler-mass", "cm", "/coupler/mass", Quantity(Dimension::Mass), ToolCoupler;
    /// What it may carry.
    CouplerCapacity = "coupler-capacity", "cc", "/coupler/capacity", Quantity(Dimension::Mass), ToolCoupler;
    /// Whether its lock is proven by its build.
    CouplerSecured = "coupler-secured", "cs", "/coupler/secured", YesNo, CouplerSecured;
    /// Greatest reach of an excavator's lift chart.
    LiftReach = "lift-reach", "lr", "/lifting/chart/0/reach", Quantity(Dimension::Length), Lifting;
    /// Rated lift there, over the side.
    LiftMass = "lift-mass", "lm", "/lifting/chart/0/mass", Quantity(Dimension::Mass), Lifting;
    /// From the slew axis to the tipping edge.
    TippingEdge = "tipping-edge", "te", "/lifting/tipping_edge", Quantity(Dimension::Length), LiftGeometry;
    /// From the slew axis to the boom's foot.
    BoomFoot = "boom-foot", "bf", "/lifting/boom_foot", Quantity(Dimension::Length), LiftGeometry;
    /// Rated operating capacity of a loader.
    RatedCapacity = "rated-operating-capacity", "rc", "/lifting/rated_operating_capacity", Quantity(Dimension::Mass), Lifting;
    /// From the tipping axis to the coupler's face.
    TippingAxis = "tipping-axis", "ta", "/lifting/tipping_axis", Quantity(Dimension::Length), LiftGeometry;
    /// From the coupler's face to the bucket's centre of gravity.
    LoadCentre = "load-centre", "lc", "/lifting/load_centre", Quantity(Dimension::Length), LiftGeometry;
    /// Net engine power.
    EnginePower = "engine-power", "ep", "/engine/power", Quantity(Dimension::Power), EnginePower;
    /// Engine speed at work.
    WorkingSpeed = "working-speed", "ws", "/engine/working_speed", Quantity(Dimension::RotationalSpeed), HighIdle;
    /// Engine speed without load.
    HighIdle = "high-idle", "hi", "/engine/high_idle", Quantity(Dimension::RotationalSpeed), HighIdle;
    /// To which flows the machine itself can be set.
    FlowSetting = "flow-setting", "fs", "/circuits/0/flow_setting/range", Range(Dimension::Flow), CircuitFlow;
    /// Whether that setting can be locked.
    FlowLocked = "flow-locked", "fk", "/circuits/0/flow_setting/locked", YesNo, FlowSettingLocked;
    /// To which pressures the relief may be set.
    ReliefRange = "relief-range", "rr", "/circuits/0/relief_range", Range(Dimension::Pressure), CircuitRelief;
    /// The machine's main relief.
    MainRelief = "main-relief", "mr", "/main_relief", Quantity(Dimension::Pressure), MainRelief;
    /// Where the circuit gets its oil.
    FedFrom = "fed-from", "ff", "/circuits/0/fed_from", Choice(choice::<FedFrom>()), FedFrom;
    /// How the pump is commanded.
    PumpControl = "pump-control", "pu", "/pumps/0/control", Choice(choice::<PumpControl>()), PumpControl;
    /// Where the pump cuts off, or what it is rated for.
    PumpPressure = "pump-pressure", "pp", "/pumps/0/pressure", Quantity(Dimension::Pressure), PumpCutOff;
    /// Whether oil can be sent both ways.
    Ways = "ways", "wa", "/circuits/0/ways", Choice(choice::<Ways>()), CircuitWays;
    /// Whether the reverse direction is locked.
    ReverseLocked = "reverse-locked", "rv", "/circuits/0/reverse_locked", YesNo, CircuitWays;
    /// Whether the flow stays on without a hand.
    Continuous = "continuous", "cn", "/circuits/0/continuous", YesNo, Continuous;
    /// Whether it stops without operator or power, and stays off.
    StopsAndStaysOff = "stops-and-stays-off", "ss", "/circuits/0/stops_and_stays_off", YesNo, StopsAndStaysOff;
    /// Whether the oil goes to the tank unloaded while the attachment's valve is shut.
    UnloadsWhenOff = "unloads-when-off", "uo", "/circuits/0/unloads_when_off", YesNo, UnloadsWhenOff;
    /// Whether another tool hangs on the same spool.
    OtherTool = "other-tool", "ot", "/circuits/0/shared_with", YesNo, SharedTools;
    /// The pressure that it is rated for.
    OtherToolPressure = "other-tool-pressure", "op", "/circuits/0/shared_with/0/greatest_pressure", Quantity(Dimension::Pressure), SharedToolPressure;
    /// Whether it has a relief of its own.
    OtherToolRelief = "other-tool-relief", "or", "/circuits/0/shared_with/0/own_relief", YesNo, SharedToolPressure;
    /// Whether the return goes through the valve.
    // Unstated, the oil comes back through the valve, which loses more.
    ReturnRoute = "return-route", "rt", "/circuits/0/return_path/route", Choice(choice::<ReturnRoute>()), ReturnLoss;
    /// Pressure lost in the return.
    ReturnLoss = "return-loss", "rl", "/circuits/0/return_path/loss/loss", Quantity(Dimension::Pressure), ReturnLoss;
    /// At which flow that was measured.
    ReturnLossFlow = "return-loss-flow", "rf", "/circuits/0/return_path/loss/flow", Quantity(Dimension::Flow), ReturnLoss;
    /// Whether anything can shut the return.
    ReturnShut = "return-shut", "rs", "/circuits/0/return_path/can_be_shut", YesNo, CanBeShut;
    /// Whether the return passes the machine's filter.
    ReturnFilter = "return-filter", "ri", "/circuits/0/return_path/through_filter", YesNo, ReturnFilter;
    /// Filtration rating of that filter.
    FiltrationRating = "filter-fineness", "fi", "/return_filter/fineness_um", Count, FiltrationRating;
    /// Whether the return passes the cooler.
    ThroughCooler = "through-cooler", "tc", "/circuits/0/return_path/through_cooler", YesNo, ThroughCooler;
    /// Bore of the supply line.
    SupplyBore = "supply-bore", "sb", "/circuits/0/supply/0/bore", Quantity(Dimension::Length), SupplyLine;
    /// Length of the supply line.
    SupplyLength = "supply-length", "sl", "/circuits/0/supply/0/length", Quantity(Dimension::Length), SupplyLine;
    /// Of which standard the supply line is.
    SupplyStandard = "supply-standard", "sd", "/circuits/0/supply/0/standard", Choice(choice::<LineStandard>()), SupplyRating;
    /// Rated pressure of the supply line, where it is stated.
    SupplyRating = "supply-rating", "sr", "/circuits/0/supply/0/rating", Quantity(Dimension::Pressure), SupplyRating;
    /// Bore of the return line.
    ReturnBore = "return-bore", "rb", "/circuits/0/return_path/line/0/bore", Quantity(Dimension::Length), ReturnLine;
    /// Length of the return line.
    ReturnLength = "return-length", "rn", "/circuits/0/return_path/line/0/length", Quantity(Dimension::Length), ReturnLine;
    /// Of which standard the return line is.
    ReturnStandard = "return-standard", "rd", "/circuits/0/return_path/line/0/standard", Choice(choice::<LineStandard>()), ReturnRating;
    /// Rated pressure of the return line, where it is stated.
    ReturnRating = "return-rating", "rg", "/circuits/0/return_path/line/0/rating", Quantity(Dimension::Pressure), ReturnRating;
    /// Standard of the couplings at boom or arm.
    CouplingStandard = "coupling-standard", "ks", "/circuits/0/coupling/standard", Choice(choice::<CouplingStandard>()), Coupling;
    /// Their nominal size.
    CouplingSize = "coupling-size", "kz", "/circuits/0/coupling/size", Quantity(Dimension::Length), Coupling;
    /// Their rated pressure.
    CouplingRating = "coupling-rating", "kr", "/circuits/0/coupling/rated_pressure", Quantity(Dimension::Pressure), CouplingRating;
    /// Whether they are screwed and lock.
    CouplingScrewed = "coupling-screwed", "kw", "/circuits/0/coupling/screwed", YesNo, CouplingScrewed;
    /// Whether there is a case line.
    CaseLine = "case-line", "ca", "/case_line/fitted", YesNo, CaseLine;
    /// Whether the case line ends in the tank by a port of its own.
    CasePort = "case-port", "cp", "/case_line/own_port", YesNo, CasePort;
    /// Bore of the case line.
    CaseBore = "case-bore", "cb", "/case_line/line/0/bore", Quantity(Dimension::Length), CaseLineSize;
    /// Length of the case line.
    CaseLength = "case-length", "cl", "/case_line/line/0/length", Quantity(Dimension::Length), CaseLineSize;
    /// Grade of the oil.
    OilGrade = "oil-grade", "og", "/oil/grade", Choice(choice::<OilGrade>()), OilGrade;
    /// Family of the oil.
    OilKind = "oil-kind", "ok", "/oil/kind", Choice(choice::<OilKind>()), OilKind;
    /// Cleanliness of the oil.
    OilCleanliness = "oil-cleanliness", "oc", "/oil/cleanliness", Code, OilCleanliness;
    /// Whether a front guard is fitted.
    FrontGuard = "front-guard", "gf", "/guards", YesNo, Guards;
    /// Whether an impact-resistant window is fitted.
    ImpactWindow = "impact-window", "gw", "/guards/0", YesNo, Guards;
    /// System voltage.
    Voltage = "voltage", "vo", "/electrics/voltage", Quantity(Dimension::Voltage), Voltage;
    /// How many switched outputs are spare.
    SpareOutputs = "spare-outputs", "so", "/electrics/outputs", Count, Outputs;
    /// What each of them switches.
    OutputCurrent = "output-current", "ou", "/electrics/outputs/0/current", Quantity(Dimension::Current), Outputs;
    /// How many buttons are spare.
    SpareButtons = "spare-buttons", "bu", "/electrics/spare_buttons", Count, SpareButtons;
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

fn choice<T: Named>() -> Vec<&'static str> {
    T::NAMES.to_vec()
}

impl Figure {
    /// What stands on the machine's own plate besides its name.
    pub const ON_THE_PLATE: [Self; 2] = [Self::OperatingMass, Self::EnginePower];

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
}
