//! What a number is of, and its reasoning by that name.

use fit::{CheckId, SettingId, Stage};
use quantity::{ThermodynamicTemperature, string_enum};
use table::ChangeId;

string_enum! {
    /// A quantity of a solved operating point.
    "figure of a point" pub enum PointFigure {
        /// Flow through the head.
        Flow = "flow",
        /// Pressure at the pump.
        PumpPressure = "pump-pressure",
        /// Pressure at the head's inlet.
        HeadInlet = "head-inlet",
        /// Pressure at the head's outlet.
        HeadOutlet = "head-outlet",
        /// Pressure in the motor's housing.
        CasePressure = "case-pressure",
        /// Rotor speed.
        RotorSpeed = "rotor-speed",
        /// Power at the motor's shaft.
        ShaftPower = "shaft-power",
        /// Power that warms the oil.
        Heat = "heat",
    }
}

string_enum! {
    /// A figure at one temperature of the oil.
    "figure of the oil" pub enum OilFigure {
        /// How thick it is.
        Viscosity = "viscosity",
        /// Flow through the head at work.
        Flow = "flow",
        /// Pressure at the pumps at work.
        Pump = "pump",
        /// Pressure at the head's outlet, free running.
        BackPressure = "back-pressure",
        /// Pressure in the motor's housing, free running.
        CasePressure = "case-pressure",
    }
}

string_enum! {
    /// A figure that a brochure is compared with.
    "figure of a brochure" pub enum BrochureFigure {
        /// The flow that reaches the head at work.
        Flow = "flow",
        /// The pressure that is left for the motor.
        Pressure = "pressure",
    }
}

/// What a number of a pairing is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FigureId {
    /// A check on the machine of a stage.
    Check(CheckId, Stage),
    /// An operating point, oil and load at work, of the machine of a stage.
    Point(PointFigure, Stage),
    /// A figure at a temperature of the oil, of the machine of a stage.
    Oil(OilFigure, Stage, ThermodynamicTemperature),
    /// A check with the oil at just this temperature, of the machine of a stage.
    Mark(CheckId, Stage, ThermodynamicTemperature),
    /// What is left of a brochure's figure.
    Brochure(BrochureFigure),
    /// A setting or size of a change; of none, the temperature to which the oil is idled.
    Setting(Option<ChangeId>, SettingId),
    /// What a change takes.
    Change(ChangeId),
    /// What all changes take.
    Cost,
}
