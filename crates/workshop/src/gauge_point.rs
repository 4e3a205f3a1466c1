//! Where an instrument goes.

use quantity::string_enum;

string_enum! {
    /// Where an instrument goes.
    "gauge point" pub enum GaugePoint {
        /// The pumps' test port.
        Pump = "pump",
        /// A tee at the attachment's inlet.
        HeadInlet = "head-inlet",
        /// A tee at the attachment's outlet.
        HeadOutlet = "head-outlet",
        /// A tee in the case line at the motor.
        Case = "case",
        /// In the line to the attachment.
        Flow = "flow",
        /// At the rotor.
        Rotor = "rotor",
        /// At another tool's lines.
        Tool = "tool",
        /// On the bench, or by a hand pump, before it is fitted.
        Bench = "bench",
        /// At the engine.
        Engine = "engine",
        /// At the low-pressure relief of the return.
        Return = "return",
        /// In the oil tank.
        Oil = "oil",
        /// At the end of the case line, into a bucket.
        CaseFlow = "case-flow",
        /// At the motor's shaft, before a belt or gear.
        Motor = "motor",
        /// In the air around the machine.
        Air = "air",
    }
}
