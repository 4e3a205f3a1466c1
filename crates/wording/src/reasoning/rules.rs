//! The rules of checks that no figure decides.

use super::formula_text::FormulaText;
use fit::CheckId;

const PRACTICE: &str = "Common practice, no published source.";

/// The rule of a check.
#[expect(clippy::too_many_lines, reason = "a list, one entry a check")]
pub fn rule(check: CheckId) -> FormulaText {
    let (line, source) = match check {
        CheckId::ReturnFilter => (
            "A new attachment brings dirt: oil that comes back by a line of its own needs a filter there, and so does any return where \
             the attachment's maker demands one; no coarser than he demands.",
            PRACTICE,
        ),
        CheckId::Mounting => (
            "One open standard on both, or pins no more than 0.5 mm apart, a gap wider than the stick by no more than shims take up, \
             and the same pin centres. Other pins need bushes, shims or a bracket.",
            PRACTICE,
        ),
        CheckId::Direction => (
            "An auger clears itself by turning back: it needs oil both ways. By a direct return the reverse would run into the tank.",
            PRACTICE,
        ),
        CheckId::Oil => (
            "Kind, grade and cleanliness are what the attachment demands; what names nothing takes what hydraulic machines have. \
             At the hottest that it settles to it has 10 mm²/s at least; no warm-up goes beyond 30 °C; on the coldest day that is asked \
             for it has 1000 mm²/s at most.",
            "Grades by ISO 3448, cleanliness by the code of ISO 4406; the rule is common practice, no published source.",
        ),
        CheckId::Electrics => (
            "Coils for the machine's voltage, an output rated for their current for each thing that is switched, and a spare button \
             for each.",
            PRACTICE,
        ),
        CheckId::ExtraFunctions => (
            "What else is driven needs oil both ways: from a second circuit kept below what it allows, from a block on the attachment, \
             or by a diverter on a two-way circuit with its return through the valve.",
            PRACTICE,
        ),
        CheckId::Guarding => (
            "Every guard that the attachment demands is fitted. Protection against what falls or rolls is no window.",
            "Guards by the standards that name them: ISO 3449, 3471, 8083, 8084, 10262, 11837, 12117-2 (from memory).",
        ),
        CheckId::PumpDemand => (
            "A pump that gives what is asked must be told of oil taken ahead of the valve; a constant or compensated one gives anyway, \
             and one with negative control strokes up by itself.",
            PRACTICE,
        ),
        CheckId::CentreType => (
            "Off, an attachment that shuts the supply sends a constant pump's oil over the relief; one that passes oil takes full flow \
             from a pump that gives what is asked.",
            PRACTICE,
        ),
        CheckId::ReverseLock => (
            "A motor that drains inside to its outlet loses its seal within seconds of reverse flow; breakers and plates break. On a \
             two-way circuit the reverse must be barred.",
            PRACTICE,
        ),
        CheckId::FeedOrder => {
            ("Never ahead of steering, brakes or pilot supply: the attachment gets what these leave.", PRACTICE)
        }
        CheckId::StraightTravel => (
            "On most excavators each of two pumps drives one track: oil taken ahead of the valve from one alone pulls the machine to \
             one side. It counts for what works while the machine travels.",
            PRACTICE,
        ),
        CheckId::ReturnShut => (
            "Nothing may shut the return while oil is supplied, or the outlet gets the whole relief; where something can, a relief to \
             the tank must open first.",
            PRACTICE,
        ),
        CheckId::StopAndRestart => (
            "What stays on by itself must stop when the operator leaves or power fails, and must not start again by itself. What is \
             held by hand or foot stops with it.",
            "ISO 12100 and ISO 4413, from memory.",
        ),
        CheckId::ContinuousFlow => {
            ("An attachment that works for minutes on end needs flow that stays on without a hand or foot.", PRACTICE)
        }
        CheckId::AttachmentOff => (
            "Switched back, every other tool is rated for the relief as it then stands or has one of its own; a divider is vented, never \
             capped, and its port has a relief.",
            "Balance of forces on a divider's spool (textbook); the rest is common practice, no published source.",
        ),
        CheckId::SharedTool => (
            "Another tool on the same valve gets what the attachment gets, unless it is shut off or has a relief of its own.",
            PRACTICE,
        ),
        CheckId::Coupler => (
            "The coupler's lock holds without its engaging force and shows that it has locked; without a coupler there is nothing to \
             hold.",
            "ISO 13031 (secondary).",
        ),
        CheckId::Couplings => (
            "Both halves are of one standard and size, they are rated for its pressure and pass what flows, and where the attachment shakes they are screwed \
             and lock.",
            PRACTICE,
        ),
        CheckId::RunDown => (
            "A rotor that is heavy enough drives its motor as a pump when its oil stops: a check valve from outlet to inlet must feed \
             it.",
            PRACTICE,
        ),
        CheckId::CasePressure => (
            "Piston motors and drained gear motors need a line from their housing to the tank by a port of its own, never into the \
             return; what drains inside to its outlet is judged by its back pressure.",
            PRACTICE,
        ),
        CheckId::BackPressure => (
            "A motor with a drain of its own allows pressure at its outlet: what its seal gets in the case drain decides.",
            PRACTICE,
        ),
        CheckId::RotorSpeed => ("What has no rotor cannot overspeed.", PRACTICE),
        CheckId::TorqueLimit => {
            ("Only augers, trenchers and saws twist machine or drive with all that their motor has.", PRACTICE)
        }
        CheckId::CreepSpeed => (
            "Trenchers, planers, snow blowers and sweepers work while the machine creeps, where their makers name a speed; an excavator \
             stands.",
            PRACTICE,
        ),
        CheckId::Work => ("Nothing named, nothing judged: its maker names what it is made for.", PRACTICE),
        CheckId::ReliefOverlap => (
            "Two pressure settings within 15 bar of each other open together; which way the gap goes depends on what the relief is for.",
            PRACTICE,
        ),
        CheckId::FlowWindow => ("The attachment's least and greatest flow bound what reaches it.", PRACTICE),
        CheckId::Pressure => {
            ("What relief and lines leave must drive the motor, and no more than it allows.", PRACTICE)
        }
        CheckId::Power => ("Working pressure times flow reaches what the attachment is made for.", PRACTICE),
        CheckId::LineRating => ("Every piece of the lines is rated for the relief.", PRACTICE),
        CheckId::Functions => ("What the machine needs is left to it while the attachment works.", PRACTICE),
        CheckId::Heat => ("Cooler and tank carry the heat away before the oil is too hot.", PRACTICE),
        CheckId::Lift => (
            "Attachment, coupler and what it holds weigh no more than the machine lifts where it works.",
            "Excavators by ISO 10567, loaders by ISO 14397-1 (both secondary).",
        ),
        CheckId::WeightClass => (
            "The machine weighs what the attachment's maker asks for: without his least it is not known whether it stands.",
            PRACTICE,
        ),
        CheckId::Clearance => ("Curled in, the attachment clears boom, cab and window.", PRACTICE),
    };
    FormulaText { line, symbols: "", holds: "", source }
}
