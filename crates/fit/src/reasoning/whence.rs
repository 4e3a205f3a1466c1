//! What a number is of, and its reasoning by that name.

use super::{
    Reasoning, reasoning, reasoning_of_brochure, reasoning_of_change, reasoning_of_cost, reasoning_of_mark,
    reasoning_of_oil, reasoning_of_point, reasoning_of_setting,
};
use crate::{CheckId, Conditions, Load, OilState, Pairing, SettingId, Stage};
use quantity::{ThermodynamicTemperature, names};
use table::{Carrier, ChangeId, Head};

names! {
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

names! {
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

names! {
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
pub enum Whence {
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

/// Why a number of a pairing is what it is. `carrier` is the machine as it is today: the same that was judged, with the same head and
/// conditions. None where there is no such number.
pub fn why(
    pairing: &Pairing,
    carrier: &Carrier,
    head: &Head,
    conditions: &Conditions,
    whence: Whence,
) -> Option<Reasoning> {
    let circuit = pairing.circuit.as_ref();
    let machine = |stage: Stage| match stage {
        Stage::AsItIs => carrier,
        Stage::AfterChanges => pairing.changed.as_deref().unwrap_or(carrier),
    };
    match whence {
        Whence::Check(check, stage) => reasoning(machine(stage), circuit, head, conditions, check),
        Whence::Point(figure, stage) => {
            let at_work = (OilState::Working, Load::Working);
            reasoning_of_point(machine(stage), circuit, head, conditions, at_work, figure)
        }
        Whence::Oil(figure, stage, temperature) => {
            reasoning_of_oil(machine(stage), circuit?, head, conditions, figure, temperature)
        }
        Whence::Mark(check, stage, temperature) => {
            reasoning_of_mark(machine(stage), circuit?, head, conditions, check, temperature)
        }
        Whence::Brochure(figure) => reasoning_of_brochure(carrier, circuit?, head, conditions, figure),
        Whence::Setting(change, setting) => reasoning_of_setting(pairing, carrier, head, conditions, change, setting),
        Whence::Change(change) => reasoning_of_change(pairing, conditions, change),
        Whence::Cost => reasoning_of_cost(pairing),
    }
}
