//! Facts that are missing: what they are called, where they are found, and from which value on a check holds.

use super::Words;
use super::parts::{Part, Stage, of_template};
use explain::FigureId;
use fit::{Bound, CheckId, FactId, Missing, Threshold};
use quantity::UnitSystem;

/// A missing fact in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MissingText {
    /// What is missing.
    pub what: &'static str,
    /// Where to read or measure it.
    pub where_to_find: &'static str,
    /// From which value on the check holds, when a single figure decides.
    pub holds: Option<String>,
}

impl Words<'_> {
    /// A missing fact.
    pub fn missing(&self, missing: &Missing) -> MissingText {
        let (what, where_to_find) = (self.fact(missing.fact), self.place(missing.fact));
        // Whose check it is does not matter to its words.
        let whole = |holds| super::parts::whole(&self.holds_parts(holds, CheckId::FlowWindow, Stage::AsItIs));
        let holds = missing.holds.map(whole);
        MissingText { what, where_to_find, holds }
    }

    /// From which value of a fact on a check holds, in pieces.
    pub(super) fn holds_parts(&self, holds: Threshold, check: CheckId, stage: Stage) -> Vec<Part> {
        let template = match holds.bound {
            Bound::AtLeast => "from \u{1} up it holds",
            Bound::AtMost => "up to \u{1} it holds",
        };
        of_template(template, FigureId::Check(check, stage), &[Some(self.limit(holds.value, Some(holds.bound))), None])
    }

    /// Where a fact is found.
    pub fn place(&self, id: FactId) -> &'static str {
        match (id, self.units) {
            (FactId::CircuitRelief, UnitSystem::UsCustomary) => {
                "service manual; gauge at the test port with nothing connected, oil at 122 °F or more"
            }
            (FactId::ReturnLoss, UnitSystem::UsCustomary) => {
                "gauge of 0 to 300 psi at the return coupling, full flow, oil warm, nothing connected behind it that can shut"
            }
            (FactId::TravelSpeed, UnitSystem::UsCustomary) => "operator's manual; stopwatch over thirty feet",
            _ => fact(id).1,
        }
    }

    /// What a fact is called.
    pub fn fact(&self, id: FactId) -> &'static str {
        fact(id).0
    }
}

/// What a fact is called, and where it is found (common practice, no published source).
#[expect(clippy::too_many_lines, reason = "a list, one entry a fact")]
fn fact(id: FactId) -> (&'static str, &'static str) {
    match id {
        FactId::Circuit => (
            "the machine's auxiliary circuit",
            "operator's manual, auxiliary hydraulics; look for capped ports at the end of boom or arm",
        ),
        FactId::CircuitFlow => (
            "the flow of the auxiliary circuit",
            "operator's manual or display; measure with a flow tester at the couplings, oil warm, at working speed",
        ),
        FactId::CircuitRelief => (
            "the relief setting of the auxiliary circuit",
            "service manual; gauge at the test port with nothing connected, oil at 50 °C or more",
        ),
        FactId::FlowSettingLocked => {
            ("whether the flow setting can be locked", "operator's manual, display menu: is there a code?")
        }
        FactId::SupplyLine => {
            ("bore and length of the supply line", "print on the hose's lay line; tape along boom or arm")
        }
        FactId::CouplingLoss => ("the couplings' loss", "data sheet of the couplings; size stamped on them"),
        FactId::ReturnRoute => {
            ("whether the return goes through the valve", "circuit drawing; follow the return hose from the coupling")
        }
        FactId::ReturnLoss => (
            "the pressure lost through the valve on the return",
            "gauge of 0 to 25 bar at the return coupling, full flow, oil warm, nothing connected behind it that can shut",
        ),
        FactId::ReturnLine => {
            ("bore and length of the return line", "print on the hose's lay line; tape along boom or arm")
        }
        FactId::TankPressure => ("the pressure in the tank", "setting stamped on the breather or filler cap"),
        FactId::ReturnFilter => {
            ("whether the return passes a filter", "circuit drawing; follow the return hose to the tank")
        }
        FactId::FilterLoss => ("the return filter's loss", "tag on the filter: loss, flow and bypass pressure"),
        FactId::EnginePower => ("the engine's net power", "plate on the engine; operator's manual"),
        FactId::WorkingSpeed => ("the engine's speed at work", "display or tachometer, full throttle, at work"),
        FactId::HighIdle => (
            "the engine's speed without load and at work",
            "display or tachometer, full throttle: with nothing in use, and at work",
        ),
        FactId::PowerLimit => (
            "the hydraulic power that the pumps may take",
            "service manual, hydraulics: pump torque or power; the engine's net power alone narrows it",
        ),
        FactId::PumpLeak => ("the pump's leakage", "flow tester: flow unloaded and at 90 % of the relief setting"),
        FactId::ReliefOverride => ("the relief's override", "gauge: when it begins to open and when all flows over it"),
        FactId::PumpMargin => {
            ("the load-sensing pump's margin", "service manual; two gauges: at the pump and in the sense line")
        }
        FactId::PumpCutOff => (
            "the pump's cut-off or rated pressure",
            "pump tag; service manual; gauge at the pump with a cylinder at its stop",
        ),
        FactId::Functions => (
            "what the machine's functions need while the attachment works",
            "ask the operator; flow and pressure of boom, slew and travel in the service manual",
        ),
        FactId::TankVolume => ("the oil in the tank", "operator's manual, filling quantities; sight glass and drain"),
        FactId::CoolerConductance => (
            "what the oil cooler carries away",
            "parts book; or run a known load for half an hour and read oil and air temperature",
        ),
        FactId::OilSettles => (
            "where the oil's temperature settles",
            "thermometer in the tank over half an hour of full work: it stands still below the limit, or it does not",
        ),
        FactId::ThroughCooler => (
            "whether the return passes the cooler",
            "circuit drawing; infrared thermometer on the cooler's lines straight after work, engine off; never a hand",
        ),
        FactId::ReturnPulsation => {
            ("how the attachment's return pulsates", "ask its maker for mean and peak back pressure")
        }
        FactId::RunDownCheck => (
            "whether a check valve lets the rotor run down",
            "attachment's manual or circuit drawing; a valve block across the motor's ports",
        ),
        FactId::RunDownLoss => (
            "what the anti-cavitation check valve loses at full flow",
            "its data sheet; transmitter that shows vacuum too, at the motor's inlet, read from the cab while the rotor coasts down",
        ),
        FactId::CaseLine => (
            "whether the machine has a case drain",
            "look for a third, smaller line at the end of boom or arm that ends in the tank by itself",
        ),
        FactId::CasePort => (
            "whether the case drain ends in the tank by a port of its own",
            "follow the hose: into the tank, neither into the return nor behind the return filter",
        ),
        FactId::CaseLineSize => {
            ("bore and length of the case drain", "print on the hose's lay line; tape along boom or arm")
        }
        FactId::OilGrade => ("the grade of the oil", "tag on the tank; service log"),
        FactId::FreeRunning => (
            "the pressure for idling",
            "transmitter at the attachment's inlet, read from the cab, turning freely at working flow",
        ),
        FactId::OperatingMass => ("the machine's operating mass", "plate on the machine; operator's manual; a scale"),
        FactId::CarrierMounting => (
            "the machine's mounting",
            "measure pin diameter, stick width and pin centres; or the coupler's standard on its plate",
        ),
        FactId::HeadLeastFlow => ("the attachment's least flow", "attachment's manual or plate"),
        FactId::HeadRatedFlow => ("the attachment's rated flow", "attachment's manual or plate"),
        FactId::HeadGreatestFlow => ("the attachment's greatest flow", "attachment's manual or plate"),
        FactId::HeadGreatestPower => ("the attachment's greatest hydraulic power", "attachment's manual or plate"),
        FactId::WorkingPressure => {
            ("the motor's pressure at work", "attachment's manual; ask whether it is a difference")
        }
        FactId::HeadGreatestPressure => ("the attachment's greatest pressure", "attachment's manual or plate"),
        FactId::MotorKind => ("how the motor is built", "plate on the motor; parts book"),
        FactId::MotorDisplacement => ("the motor's displacement", "plate on the motor; parts book"),
        FactId::MotorVolumetric => ("the motor's volumetric efficiency", "data sheet of the motor"),
        FactId::MotorHydromechanical => ("the motor's hydro-mechanical efficiency", "data sheet of the motor"),
        FactId::MotorRatio => (
            "the ratio from motor to rotor",
            "engine off and locked: count teeth or measure pulleys; one to one when the rotor sits on the motor's shaft",
        ),
        FactId::RotorGreatestSpeed => ("the rotor's greatest speed", "plate beside the rotor; attachment's manual"),
        FactId::OutletLimit => (
            "the pressure that the motor's outlet allows",
            "attachment's manual: back pressure or return pressure; data sheet of the motor",
        ),
        FactId::CaseLimit => (
            "the pressure that the motor's shaft seal allows",
            "attachment's manual: case or drain pressure; data sheet of the motor",
        ),
        FactId::NeedsCaseLine => (
            "whether the motor needs a case drain",
            "attachment's manual; count its hoses: a third, smaller one is the drain",
        ),
        FactId::CaseFlow => (
            "the motor's leakage",
            "case drain into a bucket at the tank, its end tied down before the start; stopwatch, from outside the throw zone, nobody near",
        ),
        FactId::CarrierMassWindow => {
            ("the machine weight for which the attachment is made", "attachment's manual or plate")
        }
        FactId::SharedTools => (
            "whether another tool is fed by the same valve",
            "engine off: follow the lines from the valve; nobody near: work each lever with the circuit's lever: thumb, tilt, grab",
        ),
        FactId::SharedToolPressure => (
            "the pressure that the other tool is rated for",
            "tag on its cylinder; its manual; gauge with the tool at its stop",
        ),
        FactId::ReliefRole => (
            "what the circuit's relief is for",
            "circuit drawing: main relief, shock relief of a port, or limit for a tool; it stands close to another pressure setting",
        ),
        FactId::MainRelief => {
            ("the machine's main relief", "service manual; gauge at the pump with a cylinder at its stop")
        }
        FactId::HeadRelief => {
            ("the setting of the attachment's own relief", "tag on the block; gauge at the test port")
        }
        FactId::SupplyRating => {
            ("kind or rating of the hoses to the attachment", "print on the hose's lay line: standard, size, pressure")
        }
        FactId::ReturnRating => {
            ("kind or rating of the hoses back", "print on the hose's lay line: standard, size, pressure")
        }
        FactId::Coupling => ("the couplings at boom or arm", "print on the coupling: standard, size, pressure"),
        FactId::CouplingRating => ("what the couplings bear", "print on the coupling; its data sheet"),
        FactId::CouplingFlow => ("the flow for which the couplings are rated", "data sheet of the couplings"),
        FactId::CouplingScrewed => ("whether the couplings are screwed and lock", "look at them"),
        FactId::CircuitWays => {
            ("whether oil can be sent both ways", "pedal or menu; try with the lines coupled together")
        }
        FactId::Continuous => ("whether the flow stays on without a hand", "try: detent, roller or hold in the menu"),
        FactId::FedFrom => (
            "where the circuit gets its oil",
            "circuit drawing; follow the pressure line: from the control valve, its power-beyond port, or the pump's line",
        ),
        FactId::DemandSignal => {
            ("whether the pump is told", "circuit drawing; pump pressure at neutral and with the circuit on")
        }
        FactId::StopsAndStaysOff => (
            "whether it stops without operator or power and stays off",
            "try with the lines coupled together: leave the seat, unplug, and come back",
        ),
        FactId::UnloadsWhenOff => (
            "whether the oil goes to the tank unloaded while the attachment's valve is shut",
            "circuit drawing; pump pressure with the circuit on and the attachment's valve off",
        ),
        FactId::DividerOff => ("whether the divider is vented while off", "circuit drawing; sheet of the divider"),
        FactId::DividerRelief => {
            ("whether the divider's port has a relief", "sheet of the divider; look for its cartridge")
        }
        FactId::ExtraPressure => {
            ("the pressure that its other functions bear", "tag on their cylinders; attachment's manual")
        }
        FactId::CanBeShut => (
            "whether anything can shut the return",
            "follow the return hose: shut-off valves, half-open couplings, a filter without bypass",
        ),
        FactId::PumpControl => ("how the pump is commanded", "service manual; pilot lines at the pump's regulator"),
        FactId::PumpFlow => ("the flow of the pumps", "pump tag; service manual"),
        FactId::AlsoFeeds => {
            ("what else the pumps feed", "circuit drawing: steering, brakes and pilot supply from the same pump")
        }
        FactId::OilKind => ("the kind of the oil", "tag on the tank; service log"),
        FactId::OilCleanliness => ("how clean the oil is", "bottle sample to a laboratory: code of ISO 4406"),
        FactId::FiltrationRating => ("the filtration rating of the return filter", "tag on the filter; parts book"),
        FactId::Lifting => (
            "what the machine lifts",
            "lift chart in the cab (ISO 10567), or rated operating capacity on the plate (ISO 14397-1)",
        ),
        FactId::LiftChart => (
            "what the machine lifts over the side at its greatest reach",
            "lift chart in the cab (ISO 10567): the farthest column, over the side, at ground level",
        ),
        FactId::GreatestReach => (
            "the greatest reach at ground level",
            "working range drawing in the manual; tape from the slew axis to the pin, arm stretched out along the ground",
        ),
        FactId::CircuitEnd => (
            "which end of the machine the circuit feeds",
            "follow the hoses from the valve: to the digging arm, or to the loader end",
        ),
        FactId::MountingEnd => ("at which end of the machine its mounting is", "look: digging arm, or loader end"),
        FactId::CouplerEnd => ("at which end of the machine its coupler is", "look: digging arm, or loader end"),
        FactId::LiftGeometry => (
            "where the machine tips",
            "tape: slew axis to the tracks' edge and to the boom's foot; front axle to the coupler and to the bucket's middle",
        ),
        FactId::ToolCoupler => {
            ("the coupler between arm and attachment", "its plate: mass and capacity; or that there is none")
        }
        FactId::CouplerSecured => (
            "whether the coupler's lock is proven by its build",
            "its manual: ISO 13031; it holds without pressure and shows that it has locked",
        ),
        FactId::CurlClearance => (
            "the room for a curled attachment",
            "bucket curled in and lowered, engine off: tape from the pin to boom, cab and window",
        ),
        FactId::ReactionTorque => {
            ("the torque that slew brake or lift arm holds", "service manual; ask the machine's maker")
        }
        FactId::TravelSpeed => {
            ("the travel speed at full engine speed", "operator's manual; stopwatch over ten metres")
        }
        FactId::Guards => ("which guards are fitted", "plates on the structure: standard and level"),
        FactId::Voltage => ("the machine's voltage", "battery; plate"),
        FactId::Outputs => ("the spare outputs", "fuse diagram; meter at the connector, under load"),
        FactId::SpareButtons => ("the spare buttons", "look at the levers"),
        FactId::HeadMass => ("the attachment's mass with hoses", "weigh it; plate"),
        FactId::CentreOfGravity => (
            "where the attachment's mass hangs",
            "hang it in rated slings, nobody under it, and plumb from its mounting",
        ),
        FactId::CurlRadius => ("how far the attachment swings in", "tape from its pin to its farthest point"),
        FactId::Payload => ("what the attachment holds", "attachment's manual"),
        FactId::HeadWork => ("what the attachment is made to work", "attachment's manual"),
        FactId::HeadWays => {
            ("whether the attachment takes oil both ways", "attachment's manual or plate: an arrow on the motor")
        }
        FactId::HeadCentre => {
            ("whether the attachment passes oil while off", "attachment's circuit drawing: its own valve")
        }
        FactId::ExtraDrive => ("how the attachment's other functions are driven", "count its hoses and plugs"),
        FactId::Coils => ("voltage and current of the coils", "print on the coil"),
        FactId::GuardsDemanded => ("which guards the attachment demands", "attachment's manual"),
        FactId::OilKindsDemanded => ("which kinds of oil the attachment takes", "attachment's manual; ask its maker"),
        FactId::OilGradesDemanded => ("which grades of oil the attachment takes", "attachment's manual; ask its maker"),
        FactId::CleanlinessDemanded => ("how clean the attachment's oil must be", "attachment's manual; ask its maker"),
        FactId::FilterDemanded => {
            ("whether the attachment's return must pass a filter", "attachment's manual; ask its maker")
        }
        FactId::FiltrationDemanded => {
            ("the filtration rating that the attachment needs", "attachment's manual; ask its maker")
        }
        FactId::TorqueLimit => ("the greatest torque of the drive", "attachment's manual or plate"),
        FactId::Vibrating => ("whether the attachment shakes its couplings", "attachment's manual"),
        FactId::HeadMounting => {
            ("the attachment's mounting", "measure pin diameter, ear gap and pin centres; or ask its maker")
        }
    }
}
