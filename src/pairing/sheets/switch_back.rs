//! Attachment off and on again, step by step. What is set comes from the one list of states; here is when it may be set, and
//! what goes before and after.

use super::readings::{Expected, widened};
use super::states::{Item, Position, State};
use super::{Job, gauges};
use crate::pairing::FactId;
use crate::pairing::assume::{OWN_SETTING, PUBLISHED_PRESSURE};
use crate::quantity::{Interval, Kind, Pressure};
use crate::table::{Centre, Circuit, ExtraKind, HeadKind, ReturnRoute, SharedTool, Ways};
use serde::Serialize;

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
        /// Which.
        tool: String,
        /// What the gauge reads; none where it cannot be said.
        reads: Option<Expected>,
        /// What is missing to say it.
        missing: Vec<FactId>,
    },
    /// The tool that is shut off does not move while the attachment turns.
    ToolStands {
        /// Which.
        tool: String,
    },
    /// At low speed it turns the right way and evenly.
    TurnsRight,
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

/// When something may be set.
#[derive(Clone, Copy, PartialEq, Eq)]
enum When {
    /// With the engine running, before it is shut down for the work.
    Before,
    /// Shut down and locked out.
    LockedOut,
    /// With the engine running again.
    After,
}

fn when(item: &Item, way: Way) -> When {
    match (item, way) {
        // What is driven by the machine's own oil is moved with the engine running.
        (Item::Mounting { coupler: true } | Item::Tool { .. }, Way::On) => When::Before,
        // Values are set with a gauge, pumps running.
        (Item::Mounting { coupler: true }, Way::Off) | (Item::FlowSetting | Item::Relief | Item::EngineSpeed, _) => {
            When::After
        }
        _ => When::LockedOut,
    }
}

impl SwitchBack {
    pub(super) fn of(job: &Job, states: &[State]) -> Self {
        Self { off: off(job, states), on: on(job, states) }
    }
}

fn moved<'a>(states: impl Iterator<Item = &'a State>, way: Way, at: When) -> Vec<Step> {
    states
        .filter(|state| state.moves() && when(&state.item, way) == at)
        .map(|state| Step::Move { item: state.item.clone(), to: if way == Way::Off { state.off } else { state.on } })
        .collect()
}

fn off(job: &Job, states: &[State]) -> Vec<Step> {
    let mut steps = vec![
        Step::StopAttachment { runs_on: job.head.kind.has_heavy_rotor() },
        Step::Ground,
        Step::Relieve { by: relief_of(job, Way::Off) },
        Step::LockOut,
    ];
    steps.extend(moved(states.iter(), Way::Off, When::LockedOut));
    steps.push(Step::Start);
    steps.extend(moved(states.iter(), Way::Off, When::After));
    let mut attempt = |trial: Trial| steps.push(Step::Try { trial });
    attempt(Trial::MountingHolds);
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
    // The other way round, so that what came off last goes on first.
    let mut steps = moved(states.iter().rev(), Way::On, When::Before);
    steps.extend([Step::Ground, Step::Relieve { by: relief_of(job, Way::On) }, Step::LockOut]);
    steps.extend(moved(states.iter().rev(), Way::On, When::LockedOut));
    steps.push(Step::Start);
    steps.extend(moved(states.iter().rev(), Way::On, When::After));
    let mut attempt = |trial: Trial| steps.push(Step::Try { trial });
    attempt(Trial::MountingHolds);
    attempt(Trial::NoLeak);
    if job.head.kind.has_rotor() {
        attempt(Trial::TurnsRight);
    }
    for tool in job.after.circuit.shared_with.iter().flatten().filter(|tool| tool.isolated == Some(true)) {
        attempt(Trial::ToolStands { tool: tool.name.clone() });
    }
    attempt(Trial::StopsAndStays);
    attempt(Trial::Readings);
    steps
}

/// How pressure is let out on this circuit: what feeds it, and what shuts it in.
fn relief_of(job: &Job, way: Way) -> Vec<Relieve> {
    let circuit = job.after.circuit;
    let mut by = vec![Relieve::Lever];
    let valve = job.head.extra_functions.iter().any(|extra| extra.kind == ExtraKind::OnOff);
    if way == Way::Off && (valve || job.head.centre == Some(Centre::Closed)) {
        by.push(Relieve::HeadValve);
    }
    if way == Way::Off && circuit.divider.is_some() {
        by.push(Relieve::DividerVent);
    }
    let tank = job.after.carrier.tank.as_ref().and_then(|tank| tank.pressure);
    if tank.is_none_or(|pressure| pressure.nominal.si() > 0.0) {
        by.push(Relieve::TankBreather);
    }
    if way == Way::Off && job.head.kind == HeadKind::Breaker {
        by.push(Relieve::AccumulatorKeeps);
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

/// Whether reverse flow could put the relief's pressure on the return.
pub(super) fn return_sees_relief(circuit: &Circuit) -> bool {
    circuit.return_path.route != Some(ReturnRoute::Direct)
        && circuit.ways != Some(Ways::One)
        && circuit.reverse_locked != Some(true)
}
