//! What is said of each check: one row a check.

use fit::{Bound, CheckId};

/// What is said of a check.
pub(super) struct CheckWords {
    /// Its title.
    pub title: &'static str,
    /// Why it is met and why it is not, with `{worst}` and `{limit}` for its figures: of two limits for each, the greatest first.
    forms: &'static [[&'static str; 2]],
    /// Its rule, where no figure decides.
    pub rule: &'static str,
    /// Who published the rule.
    pub source: &'static str,
}

impl CheckWords {
    /// Why it is met at a limit, and why it is not.
    pub fn met_and_not_met(&self, bound: Option<Bound>) -> [&'static str; 2] {
        match self.forms {
            [] => ["all matches.", "it does not match"],
            [greatest, _] if bound == Some(Bound::AtMost) => *greatest,
            [.., last] => *last,
        }
    }
}

const PRACTICE: &str = "Common practice, no published source.";

macro_rules! rows {
    ($($Check:ident, $title:literal, $([$met:literal, $not_met:literal],)* $rule:literal, $source:expr;)+) => {
        /// What is said of a check.
        pub(super) fn words(check: CheckId) -> CheckWords {
            match check {
                $(CheckId::$Check => {
                    CheckWords { title: $title, forms: &[$([$met, $not_met]),*], rule: $rule, source: $source }
                })+
            }
        }
    };
}

rows! {
    FlowWindow, "Flow",
        ["free running no more than {worst} flow; it takes {limit}.", "up to {worst} can flow, and it takes {limit}"],
        ["at least {worst} reach it at work; it needs {limit}.",
         "as little as {worst} may reach it at work, and it needs {limit}"],
        "The attachment's least and greatest flow bound what reaches it.", PRACTICE;
    RotorSpeed, "Rotor speed",
        ["the rotor turns {worst} at the very most; it is made for {limit}.",
         "the rotor could turn {worst}, and it is made for {limit}"],
        "What has no rotor cannot overspeed.", PRACTICE;
    Pressure, "Pressure",
        ["stalled it gets {worst} at the most; it is rated for {limit}.",
         "stalled it could get {worst}, and it is rated for {limit}"],
        ["at least {worst} are left for its motor; it works with {limit}.",
         "as little as {worst} may be left for its motor, and it works with {limit}"],
        "What relief and lines leave must drive the motor, and no more than it allows.", PRACTICE;
    Power, "Power",
        ["no more than {worst} reach it; it takes {limit}.", "up to {worst} could reach it, and it takes {limit}"],
        ["at least {worst} of hydraulic power reach it; it needs {limit}.",
         "as little as {worst} of hydraulic power may reach it, and it needs {limit}"],
        "Working pressure times flow reaches what the attachment is made for.", PRACTICE;
    BackPressure, "Back pressure",
        ["its outlet gets {worst} at the most; it allows {limit}.", "its outlet would get {worst}, and it allows {limit} (more can press out its seals)"],
        "A motor with a drain of its own allows pressure at its outlet: what its seal gets in the case drain decides.",
        PRACTICE;
    CasePressure, "Case pressure",
        ["its shaft seal gets {worst} at the most; it allows {limit}.",
         "its shaft seal would get {worst}, and it allows {limit}"],
        "Piston motors and drained gear motors need a line from their housing to the tank by a port of its own, never into the \
         return; what drains inside to its outlet is judged by its back pressure.", PRACTICE;
    ReturnFilter, "Return filter",
        "A new attachment brings dirt: oil that returns by a line of its own needs a filter there, and so does any return \
         where the attachment's maker demands one; no coarser than he demands.", PRACTICE;
    WeightClass, "Machine weight",
        ["the machine weighs {worst} at the most; the attachment is made for up to {limit}.",
         "the machine may weigh {worst}, and the attachment is made for up to {limit}"],
        ["the machine weighs at least {worst}; the attachment is made for {limit} and more.",
         "the machine may weigh as little as {worst}, and the attachment is made for {limit} and more"],
        "The machine weighs what the attachment's maker asks for: without his least it is not known whether it stands.",
        PRACTICE;
    Mounting, "Mounting",
        "One open standard on both, or pins no more than 0.5 mm apart, a gap wider than the stick by no more than shims take \
         up, and the same pin centres. Other pins need bushes, shims or a bracket.", PRACTICE;
    SharedTool, "Other tool",
        ["the other tool gets {worst} at the most; it allows {limit}.",
         "the other tool would get {worst}, and it allows {limit}"],
        "Another tool on the same valve gets what the attachment gets, unless it is shut off or has a relief of its own.",
        PRACTICE;
    ReliefOverlap, "Gap between pressure settings",
        ["it stands at {worst}, far enough below the next pressure setting, which asks for {limit} at the most.",
         "it stands at {worst}, and the next pressure setting asks for {limit} at the most"],
        ["it opens at {worst}, far enough above the next pressure setting, which asks for {limit} at least.",
         "it opens at {worst}, and the next pressure setting asks for {limit} at least"],
        "Two pressure settings within 15 bar of each other open together; which way the gap goes depends on what the relief is \
         for.", PRACTICE;
    LineRating, "Hose rating",
        ["the weakest hose gets {worst} at the most; it is rated for {limit}.",
         "the weakest hose would get {worst}, and it is rated for {limit}"],
        "Every piece of the lines is rated for the relief.", PRACTICE;
    Couplings, "Couplings",
        ["they get {worst} at the most and are rated for {limit}.", "they would get {worst}, and they are rated for {limit}"],
        "Both halves are of one standard and size, they are rated for its pressure and pass what flows, and where the \
         attachment shakes they are screwed and lock.", PRACTICE;
    Direction, "Direction",
        "An auger clears itself by turning back: it needs oil both ways. By a direct return the reverse would run into the \
         tank.", PRACTICE;
    RunDown, "Coast-down",
        ["coasting down its inlet gets {worst}; it needs {limit}.",
         "coasting down its inlet would get {worst}, and it needs {limit}"],
        "A rotor that is heavy enough drives its motor as a pump when its oil stops: a check valve from outlet to inlet must \
         feed it.", PRACTICE;
    Functions, "Machine's functions",
        ["{worst} are left to the machine; it needs {limit}.", "only {worst} are left to the machine, and it needs {limit}"],
        "What the machine needs is left to it while the attachment works.", PRACTICE;
    Heat, "Oil temperature",
        ["the oil settles at {worst} on a warm day; work ends at {limit}.",
         "the oil settles at {worst} on a warm day, and work ends at {limit}"],
        "Cooler and tank carry the heat away before the oil is too hot.", PRACTICE;
    Oil, "Oil",
        "Kind, grade and cleanliness are what the attachment demands; what names nothing takes what hydraulic machines have. \
         At the hottest that it settles to it has 10 mm²/s at least; no warm-up goes beyond 30 °C; on the coldest day that is \
         asked for it has 1000 mm²/s at most.",
        "Grades by ISO 3448, cleanliness by the code of ISO 4406; the rule is common practice, no published source.";
    Lift, "Lift",
        ["attachment, coupler and what it holds weigh {worst} at the most; the machine lifts {limit} there.",
         "attachment, coupler and what it holds may weigh {worst}, and the machine lifts {limit} there"],
        "Attachment, coupler and what it holds weigh no more than the machine lifts where it works.",
        "Excavators by ISO 10567, loaders by ISO 14397-1 (both secondary).";
    Electrics, "Electrics",
        "Coils for the machine's voltage, an output rated for their current for each thing that is switched, and a spare \
         button for each.", PRACTICE;
    ExtraFunctions, "Other functions",
        ["its other functions get {worst} at the most; they allow {limit}.",
         "its other functions would get {worst}, and they allow {limit}"],
        "What else is driven needs oil both ways: from a second circuit kept below what it allows, from a block on the \
         attachment, or by a diverter on a two-way circuit with its return through the valve.", PRACTICE;
    Guarding, "Guards",
        "Every guard that the attachment demands is fitted. Protection against what falls or rolls is no window.",
        "Guards by the standards that name them: ISO 3449, 3471, 8083, 8084, 10262, 11837, 12117-2; not compared with their text.";
    Work, "Work",
        ["it is made for {limit}; {worst} were named.", "{worst} were named, and it is made for {limit}"],
        "Nothing named, nothing judged: its maker names what it is made for.", PRACTICE;
    PumpDemand, "Pump's demand",
        "A pump that gives what is asked must get a demand signal for oil taken ahead of the valve; a constant or compensated one gives \
         anyway, and one with negative control strokes up by itself.", PRACTICE;
    CentreType, "Centre type",
        "Off, an attachment that shuts the supply sends a constant pump's oil over the relief; one that passes oil takes full \
         flow from a pump that gives what is asked.", PRACTICE;
    ReverseLock, "Reverse flow",
        "A motor that drains inside to its outlet loses its seal within seconds of reverse flow; breakers and plates break. On \
         a two-way circuit the reverse must be barred.", PRACTICE;
    FeedOrder, "Steering and brakes first",
        "Never ahead of steering, brakes or pilot supply: the attachment gets what these leave.", PRACTICE;
    StraightTravel, "Straight travel",
        "On most excavators each of two pumps drives one track: oil taken ahead of the valve from one alone pulls the machine \
         to one side. It counts for what works while the machine travels.", PRACTICE;
    ReturnShut, "Open return",
        "Nothing may shut the return while oil is supplied, or the outlet gets the whole relief; where something can, a relief \
         to the tank must open first.", PRACTICE;
    AttachmentOff, "With the attachment off",
        ["with the attachment off the other tool gets {worst} at the most; it allows {limit}.",
         "with the attachment off the other tool would get {worst}, and it allows {limit}"],
        "With the attachment off, every other tool is rated for the relief as it then stands or has one of its own; a divider is vented, \
         never capped, and its port has a relief.",
        "Balance of forces on a divider's spool (textbook); the rest is common practice, no published source.";
    StopAndRestart, "Stop and restart",
        "What stays on by itself must stop when the operator leaves or power fails, and must not start again by itself. What \
         is held by hand or foot stops with it.", "ISO 12100 and ISO 4413; not compared with their text.";
    Coupler, "Coupler",
        ["it carries {worst} at the most and is made for {limit}.", "it may have to carry {worst} and is made for {limit}"],
        "The coupler's lock holds without its engaging force and shows that it has locked; without a coupler there is nothing \
         to hold.", "ISO 13031 (secondary).";
    Clearance, "Clearance",
        ["it swings in {worst} at the most; {limit} are free.", "it may swing in {worst}, and {limit} are free"],
        "Curled in, the attachment clears boom, cab and window.", PRACTICE;
    TorqueLimit, "Torque",
        ["stalled it twists with {worst} at the most; {limit} are held.",
         "stalled it could twist with {worst}, and {limit} are held"],
        "Only augers, trenchers and saws twist machine or drive with all that their motor has.", PRACTICE;
    CreepSpeed, "Creep speed",
        ["the machine creeps at {worst}; the attachment works at {limit}.",
         "the machine creeps at {worst}, and the attachment works at {limit}"],
        "Trenchers, planers, snow blowers and sweepers work while the machine creeps, where their makers name a speed; an \
         excavator stands.", PRACTICE;
    ContinuousFlow, "Hands-free flow",
        "An attachment that works for minutes on end needs flow that stays on without a hand or foot.", PRACTICE;
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Named;

    #[test]
    fn of_two_limits_each_has_its_own_words() {
        let of = |bound| words(CheckId::Pressure).met_and_not_met(bound);
        assert_eq!(of(Some(Bound::AtMost))[0], "stalled it gets {worst} at the most; it is rated for {limit}.");
        assert_eq!(of(Some(Bound::AtLeast))[0], "at least {worst} are left for its motor; it works with {limit}.");
        for &check in CheckId::ALL {
            for bound in [None, Some(Bound::AtMost), Some(Bound::AtLeast)] {
                let [met, not_met] = words(check).met_and_not_met(bound);
                assert_eq!(met.contains("{worst}"), not_met.contains("{limit}"), "{check:?}");
                assert!(met.ends_with('.') && !not_met.ends_with('.'), "{check:?}");
            }
        }
    }
}
