//! Attachment off and on again, step by step. What is set comes from the one list of states; here is when it may be set, and
//! what goes before and after. The first start takes its steps from here wherever it does the same.

use super::readings::{Expected, widened};
use super::states::{Item, Position, State};
use super::{Job, Slow, gauges};
use fit::FactId;
use fit::assume::{OWN_SETTING, PUBLISHED_PRESSURE};
use quantity::{Interval, Pressure, Quantity};
use serde::Serialize;
use table::{Centre, Drive, ExtraKind, HeadKind, SharedTool};

/// The way back to the bucket, and on again.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SwitchBack {
    /// Attachment off.
    pub off: Vec<Step>,
    /// Attachment on again.
    pub on: Vec<Step>,
}

/// One step.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "step", rename_all = "kebab-case")]
pub enum Step {
    /// Switch the attachment off and wait.
    StopAttachment {
        /// A rotor that runs on for a while.
        runs_on: bool,
    },
    /// Flat on firm ground, nothing raised, engine off.
    Ground,
    /// Let the pressure out.
    Relieve {
        /// How, on this circuit, in this order.
        by: Vec<Relieve>,
    },
    /// Key out, tag on it.
    LockOut,
    /// Set something.
    Move {
        /// What.
        item: Item,
        /// To where.
        to: Position,
    },
    /// Support what is pinned on, drive its pins out, go away from it.
    Unpin {
        /// What hangs there.
        from: Position,
    },
    /// Tag off, start, drive out of one tool into the other while nobody stands at either.
    Drive {
        /// Into which.
        to: Position,
    },
    /// Engine off, key out, tag on again.
    ShutDown,
    /// Tag off, everybody away, start at low idle.
    Start,
    /// Try something.
    Try {
        /// What.
        trial: Trial,
    },
}

/// How pressure is let out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Relieve {
    /// Work the circuit's lever or pedal all ways with the ignition on.
    Lever,
    /// Hold the attachment's own valve on: what it shuts in has no other way out.
    HeadValve,
    /// Vent the divider: no lever reaches its line.
    DividerVent,
    /// Open the breather of a tank under pressure.
    TankBreather,
    /// The gas accumulator keeps its charge whatever is done.
    AccumulatorKeeps,
    /// The lines of the attachment's other functions may hold pressure, whatever is done.
    FunctionsHold,
    /// Read nothing on a gauge at the couplings.
    GaugeAtNothing,
}

/// Something to try before work goes on.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "trial", rename_all = "kebab-case")]
pub enum Trial {
    /// Press on the ground: the mounting holds.
    MountingHolds,
    /// No leak, searched with a card.
    NoLeak,
    /// Bucket and the machine's functions work, nothing creeps.
    Bucket,
    /// Another tool on the circuit works both ways; at its stop a gauge reads its relief.
    Tool {
        /// Its name.
        tool: String,
        /// What the gauge reads; none where it cannot be said.
        reads: Option<Expected>,
        /// What is missing to say it.
        missing: Vec<FactId>,
    },
    /// The tool that is shut off does not move while the attachment turns.
    ToolStands {
        /// Its name.
        tool: String,
    },
    /// It turns the right way and evenly.
    TurnsRight {
        /// What could turn it slowly.
        slow: Slow,
    },
    /// It stops when the operator lets go or leaves, and stays off.
    StopsAndStays,
    /// The readings are those of the setting sheet.
    Readings,
}

/// Which way.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Off,
    On,
}

/// What is set together.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Group {
    /// Another tool, stowed by the machine's own oil.
    Tool,
    /// Plug, couplings and case line.
    Lines,
    /// Valves, while everything is shut down.
    Valves,
    /// What brings oil: in service last, out of service with the valves.
    Source,
    /// What holds the attachment or the bucket.
    Mounting,
    /// Values, with a gauge and the engine running.
    Values,
}

fn group(item: &Item) -> Group {
    match item {
        Item::Tool { .. } => Group::Tool,
        Item::Plug | Item::Couplings { .. } | Item::CaseLine => Group::Lines,
        Item::Divider | Item::Demand => Group::Source,
        Item::Mounting { .. } => Group::Mounting,
        Item::FlowSetting | Item::Relief | Item::EngineSpeed => Group::Values,
        Item::Changeover | Item::Isolation { .. } | Item::ReverseLock | Item::Diverter | Item::Guards => Group::Valves,
    }
}

impl SwitchBack {
    pub(super) fn of(job: &Job, states: &[State]) -> Self {
        Self { off: off(job, states), on: on(job, states) }
    }
}

fn moved(states: &[State], way: Way, groups: &[Group]) -> Vec<Step> {
    let step =
        |state: &State| Step::Move { item: state.item.clone(), to: if way == Way::Off { state.off } else { state.on } };
    let moves = states.iter().filter(|state| state.moves() && groups.contains(&group(&state.item))).map(step);
    // The other way round, so that what came off last goes on first.
    if way == Way::Off { moves.collect() } else { moves.rev().collect() }
}

/// Engine off, pressure out, locked out.
pub(super) fn shut_down(job: &Job, joined: Joined) -> Vec<Step> {
    vec![Step::Ground, Step::Relieve { by: relief_of(job, joined) }, Step::LockOut]
}

/// Other tools out of the way, their pressure let out, and only then the valves set.
pub(super) fn stow(states: &[State]) -> Vec<Step> {
    moved(states, Way::On, &[Group::Tool])
}

/// Out of one tool and into the other, up to the press on the ground: from shut down with pins, else with the engine running.
fn change(states: &[State], way: Way) -> Vec<Step> {
    let mount = moved(states, way, &[Group::Mounting]);
    let pinned = states.iter().any(|state| state.item == Item::Mounting { coupler: false });
    let (from, to) = match way {
        Way::Off => (Position::Attachment, Position::Bucket),
        Way::On => (Position::Bucket, Position::Attachment),
    };
    let mut steps = Vec::new();
    if pinned {
        steps.extend([Step::Unpin { from }, Step::Drive { to }, Step::ShutDown]);
        steps.extend(mount);
        steps.push(Step::Start);
    } else {
        steps.push(Step::Start);
        steps.extend(mount);
    }
    steps.push(Step::Try { trial: Trial::MountingHolds });
    steps
}

/// The attachment taken up from shut down, proved, and all shut down again: nothing is connected yet.
pub(super) fn mount(job: &Job, states: &[State]) -> (Vec<Step>, Vec<Step>) {
    (change(states, Way::On), shut_down(job, Joined::Nothing))
}

/// The lines, first the case line; then what brings oil; the plug last.
pub(super) fn connect(states: &[State]) -> Vec<Step> {
    let (plug, mut steps): (Vec<_>, Vec<_>) = moved(states, Way::On, &[Group::Lines])
        .into_iter()
        .partition(|step| matches!(step, Step::Move { item: Item::Plug, .. }));
    steps.extend(moved(states, Way::On, &[Group::Source]));
    steps.extend(plug);
    steps
}

/// What brings oil taken out of service.
pub(super) fn vent(states: &[State]) -> Vec<Step> {
    moved(states, Way::Off, &[Group::Source])
}

fn off(job: &Job, states: &[State]) -> Vec<Step> {
    let mut steps = vec![Step::StopAttachment { runs_on: job.head.kind.has_heavy_rotor() }];
    steps.extend(shut_down(job, Joined::Attachment));
    steps.extend(moved(states, Way::Off, &[Group::Lines]));
    let values = moved(states, Way::Off, &[Group::Values]);
    // A relief that stands for the attachment must not find the other tool's valve open.
    let first = !values.is_empty() && states.iter().any(|state| matches!(state.item, Item::Isolation { .. }));
    if first {
        steps.push(Step::Start);
        steps.extend(values.clone());
        steps.extend(shut_down(job, Joined::Capped));
    }
    steps.extend(moved(states, Way::Off, &[Group::Valves, Group::Tool, Group::Source]));
    steps.extend(change(states, Way::Off));
    if !first {
        steps.extend(values);
    }
    let mut attempt = |trial: Trial| steps.push(Step::Try { trial });
    attempt(Trial::NoLeak);
    attempt(Trial::Bucket);
    for tool in job.after.circuit.shared_with.iter().flatten() {
        let (reads, missing) = match tool_reads(job, tool) {
            Ok(reads) => (Some(reads), Vec::new()),
            Err(missing) => (None, missing),
        };
        attempt(Trial::Tool { tool: tool.name.clone(), reads, missing });
    }
    steps
}

fn on(job: &Job, states: &[State]) -> Vec<Step> {
    let mut steps = stow(states);
    steps.extend(shut_down(job, Joined::Nothing));
    steps.extend(moved(states, Way::On, &[Group::Valves]));
    let (mount, down) = mount(job, states);
    steps.extend(mount);
    // With the lines still capped: nothing is dead-ended with the attachment connected.
    steps.extend(moved(states, Way::On, &[Group::Values]));
    steps.extend(down);
    steps.extend(connect(states));
    steps.push(Step::Start);
    let mut attempt = |trial: Trial| steps.push(Step::Try { trial });
    attempt(Trial::NoLeak);
    if job.head.kind.has_rotor() {
        attempt(Trial::TurnsRight { slow: job.slow() });
    }
    for tool in job.after.circuit.shared_with.iter().flatten().filter(|tool| tool.isolated == Some(true)) {
        attempt(Trial::ToolStands { tool: tool.name.clone() });
    }
    attempt(Trial::StopsAndStays);
    attempt(Trial::Readings);
    steps
}

/// What the circuit is joined to while its pressure is let out.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Joined {
    /// The attachment.
    Attachment,
    /// A tester, or caps, with what brings oil in service.
    Capped,
    /// Nothing, and what brings oil out of service.
    Nothing,
}

/// How pressure is let out on this circuit: what feeds it, and what shuts it in.
fn relief_of(job: &Job, joined: Joined) -> Vec<Relieve> {
    let circuit = job.after.circuit;
    let extras = &job.head.extra_functions;
    let mut by = vec![Relieve::Lever];
    let valve = extras.iter().any(|extra| extra.kind == ExtraKind::OnOff);
    if joined == Joined::Attachment && (valve || job.head.centre == Some(Centre::Closed)) {
        by.push(Relieve::HeadValve);
    }
    if joined != Joined::Nothing && circuit.divider.is_some() {
        by.push(Relieve::DividerVent);
    }
    let tank = job.after.carrier.tank.as_ref().and_then(|tank| tank.pressure);
    if tank.is_none_or(|pressure| pressure.nominal.si() > 0.0) {
        by.push(Relieve::TankBreather);
    }
    if joined == Joined::Attachment && job.head.kind == HeadKind::Breaker {
        by.push(Relieve::AccumulatorKeeps);
    }
    let holds = extras.iter().any(|extra| extra.kind != ExtraKind::OnOff && extra.drive != Some(Drive::Electric));
    if joined == Joined::Attachment && holds {
        by.push(Relieve::FunctionsHold);
    }
    by.push(Relieve::GaugeAtNothing);
    by
}

/// What a gauge reads on another tool at its stop, the circuit's relief back as it was: the lower of that and of a relief on the
/// tool's side.
fn tool_reads(job: &Job, tool: &SharedTool) -> Result<Expected, Vec<FactId>> {
    let valve = job.before.circuit.relief.map(|stated| stated.interval(PUBLISHED_PRESSURE));
    let own = tool.own_relief == Some(true);
    let side = tool.greatest_pressure.filter(|_| own).map(|stated| Interval::around(stated.nominal, OWN_SETTING));
    let least = |a: Pressure, b: Pressure| if b < a { b } else { a };
    let interval = match (valve, side) {
        (Some(a), Some(b)) => {
            Interval { low: least(a.low, b.low), nominal: least(a.nominal, b.nominal), high: least(a.high, b.high) }
        }
        // The tool's own relief may open later than one that nobody states.
        _ if valve.is_none() => return Err(vec![FactId::CircuitRelief]),
        _ if own && side.is_none() => return Err(vec![FactId::SharedToolPressure]),
        (Some(valve), _) => valve,
        (None, _) => return Err(vec![FactId::CircuitRelief]),
    };
    let scale = gauges::full_scale(interval.high);
    Ok(widened(interval, gauges::GAUGE_CLASS * scale))
}
