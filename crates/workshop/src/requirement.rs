//! What a part must be, and where it goes.

use fit::FactId;
use quantity::Amount;
use serde::Serialize;
use table::{Cleanliness, CouplingStandard, ExtraValve, Guard, LineStandard, OilGrade, OilKind, Port};

/// A point of the circuit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "at", rename_all = "kebab-case")]
pub enum End {
    /// The pumps' outlets.
    Pumps,
    /// The valve's port to the attachment.
    Valve,
    /// The coupling to the attachment at boom or arm.
    SupplyCoupling {
        /// The thread there, where stated.
        port: Option<Port>,
    },
    /// The coupling back.
    ReturnCoupling {
        /// The thread there, where stated.
        port: Option<Port>,
    },
    /// The motor's inlet.
    MotorInlet {
        /// The thread there, where stated.
        port: Option<Port>,
    },
    /// The motor's outlet.
    MotorOutlet {
        /// The thread there, where stated.
        port: Option<Port>,
    },
    /// The motor's drain port.
    Housing,
    /// The tank, by a port of its own below the oil's level.
    Tank {
        /// The spare port there, where stated.
        port: Option<Port>,
    },
    /// The spare port of the machine's filter and cooler manifold.
    Manifold,
    /// The other tool's lines.
    ToolLines,
    /// The pumps' regulator.
    Regulator,
}

/// How a flow regulator gets rid of what it does not pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Regulator {
    /// Two ports: the pump gives less.
    TwoPort,
    /// Three ports: the rest goes past to the tank.
    ThreePort,
}

/// How a pump is commanded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Signal {
    /// A shuttle valve into the load-sensing line.
    Shuttle,
    /// A pilot or electric signal to the regulator.
    Pilot,
}

/// One thing that a part must be.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "must", rename_all = "kebab-case")]
pub enum Requirement {
    /// Inner diameter.
    Bore {
        /// How wide.
        bore: Amount,
    },
    /// Length, as long as what it replaces.
    Length {
        /// How long.
        length: Amount,
    },
    /// Hose of a standard.
    Hose {
        /// The standard.
        standard: LineStandard,
    },
    /// Couplings of a standard and nominal size.
    Coupling {
        /// Which, where the part says.
        standard: Option<CouplingStandard>,
        /// Which size.
        size: Option<Amount>,
    },
    /// Screwed and locked against vibration.
    Screwed,
    /// Both halves: for the machine and for the attachment's hoses.
    BothHalves,
    /// Passes at least this flow.
    Passes {
        /// How much.
        flow: Amount,
    },
    /// Bears at least this pressure.
    Bears {
        /// How much.
        pressure: Amount,
    },
    /// The chosen part's own rating.
    Rated {
        /// Its pressure.
        pressure: Option<Amount>,
        /// Its flow.
        flow: Option<Amount>,
    },
    /// Loses no more than this at a flow.
    Loses {
        /// How much.
        loss: Amount,
        /// At which flow.
        flow: Amount,
    },
    /// Filters at least as fine, β ≥ 200 (ISO 16889).
    #[serde(rename = "fineness")]
    FiltrationRating {
        /// Micrometres.
        micrometres: u16,
    },
    /// A bypass that opens at this pressure, with an indicator.
    Bypass {
        /// The pressure.
        pressure: Amount,
    },
    /// Opens at no more than this.
    OpensBy {
        /// The pressure.
        pressure: Amount,
    },
    /// Set to this, and sealed.
    SetTo {
        /// The value.
        value: Amount,
    },
    /// No blocked position on the way, its place visible and lockable.
    OpenTransition,
    /// Ends in the tank below the oil's level.
    TankPort {
        /// The spare port there; none where none is stated: then one is made.
        port: Option<Port>,
    },
    /// Nothing in it that can be shut.
    NothingShuts,
    /// One divider a pump, joined by checks.
    Dividers {
        /// How many.
        count: usize,
        /// What each sets.
        each: Amount,
    },
    /// Ahead of it the branch to pilot, steering and brakes.
    BehindBranch,
    /// Each divider is set to its share with the others vented, and the sum read.
    SetShares,
    /// Vent and relief drain to a tank port of their own.
    VentDrains,
    /// Without current it is vented, and the attachment stands.
    OffWithoutCurrent,
    /// While the attachment's valve is shut it lets all the oil through to the tank at low pressure.
    Unloads,
    /// How a divider joins the supply line: never open to the spool's port.
    JoinsSupply,
    /// The return coupling as well, both halves.
    ReturnCoupling,
    /// Which coupling stands in a return past the spool: of a standard where one is stated, else of the line's bore.
    CouplingInReturn {
        /// The standard, where stated.
        standard: Option<CouplingStandard>,
        /// Its size, where that or the line's bore is known.
        size: Option<Amount>,
    },
    /// The pressure coupling does not fit the return's.
    NotCrossed,
    /// A coupling in the case line fits no pressure line.
    CaseCoupling,
    /// How a regulator gets rid of the rest; none where it is not stated how the pump is commanded.
    Regulator {
        /// How.
        kind: Option<Regulator>,
    },
    /// How the pump is commanded; none where it is not stated.
    Signal {
        /// How.
        kind: Option<Signal>,
    },
    /// In both lines of a tool, worked together.
    BothLines {
        /// Which tool.
        tool: String,
    },
    /// Carries heat away.
    Cools {
        /// Per kelvin.
        conductance: Amount,
    },
    /// Oil of a kind and grade, so clean (ISO 4406).
    Oil {
        /// Kind.
        kind: Option<OilKind>,
        /// Grade.
        grade: Option<OilGrade>,
        /// Cleanliness.
        cleanliness: Option<Cleanliness>,
        /// How much fills the tank, where stated.
        volume: Option<Amount>,
    },
    /// Outputs with a button and a fuse each.
    Outputs {
        /// How many.
        count: usize,
        /// Current of the strongest coil, where stated.
        current: Option<Amount>,
        /// Voltage of the coils, where stated.
        voltage: Option<Amount>,
    },
    /// A converter from the machine's voltage.
    Converter,
    /// A seat switch: off when the operator leaves, and stays off.
    SeatSwitch,
    /// A guard.
    Guard {
        /// The guard.
        guard: Guard,
    },
    /// From the machine's pins to the attachment's.
    Pins {
        /// The machine's pin, where stated.
        machine: Option<Amount>,
        /// The attachment's pin.
        attachment: Amount,
        /// The attachment's gap between its ears, where stated.
        width: Option<Amount>,
        /// Distance of its pin centres, where stated.
        centres: Option<Amount>,
    },
    /// A diverter in the main lines, or a block on the attachment.
    Extra {
        /// The kind of valve.
        valve: ExtraValve,
    },
    /// A function's flow, by an orifice or regulator.
    ExtraFlow {
        /// How much.
        flow: Amount,
    },
    /// A reducing valve before a function: it bears less than can come.
    Reduced {
        /// To what.
        pressure: Amount,
    },
    /// A reducing valve in the line back too, through which oil is sent as well.
    AlsoBack,
    /// A figure that nobody states and that the part must be chosen by.
    FindOut {
        /// The fact that gives it.
        fact: FactId,
    },
}
