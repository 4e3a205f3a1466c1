//! The first start after the attachment is fitted: only the steps that belong to this pairing, in their order (common practice,
//! no published source).

use super::settings::SettingSheet;
use super::{Item, Job};
use crate::circuit::run_down::{drag_torque, run_down_time};
use crate::pairing::facts::Facts;
use crate::pairing::{CheckId, Class, Outcome, Remark};
use crate::quantity::{Amount, Kind, Time};
use crate::table::{ChangeId, ExtraKind};
use serde::Serialize;

/// After so many hours of work new lines have given up their dirt, and the filter is changed.
pub const RUN_IN_HOURS: u32 = 50;

/// One step of the first start.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "step", rename_all = "kebab-case")]
pub enum FirstStep {
    /// Prove these before anything turns: they can hurt a person or destroy a part.
    ProveBefore {
        /// Which checks.
        checks: Vec<CheckId>,
    },
    /// Flush the new lines in a loop, without the attachment.
    Flush {
        /// Which changes brought them.
        changes: Vec<ChangeId>,
    },
    /// Couple the case line before anything else.
    CaseLine,
    /// Fill the motor's housing with clean oil by its drain port.
    FillHousing,
    /// Couple supply and return.
    Couple {
        /// Whether they are screwed down to their stop.
        screwed: bool,
    },
    /// Set valves as the setting sheet says for the attachment on.
    Positions {
        /// What stands otherwise than for the bucket.
        items: Vec<Item>,
    },
    /// Top the tank up.
    OilLevel,
    /// Everybody away.
    KeepAway {
        /// How far, where something is thrown.
        distance: Option<Amount>,
    },
    /// Bleed at low idle.
    Bleed,
    /// Direction of rotation at low speed.
    Direction,
    /// Warm the oil before full speed.
    WarmUp {
        /// To which temperature.
        to: Amount,
    },
    /// Set the values of the setting sheet with instruments, the attachment not yet connected.
    SetValues {
        /// How many.
        count: usize,
    },
    /// Raise to working speed by steps and read the instruments.
    Read,
    /// A tool that is shut off stands still meanwhile.
    ToolStands {
        /// Which.
        tool: String,
    },
    /// Work the machine's functions beside the attachment; track straight.
    Functions,
    /// Work each of the attachment's other functions.
    Extras {
        /// Which.
        kinds: Vec<ExtraKind>,
    },
    /// It stops when the operator lets go, leaves or power fails, and stays off.
    StopTest,
    /// Switch off at full speed and time it until it stands.
    RunDown {
        /// How long at the least drag that is usual, where the rotor's inertia is stated.
        about: Option<Amount>,
    },
    /// Engine off, no pressure: retighten everything new, and search for leaks.
    Retighten,
    /// Prove these in the first half hour of work.
    FirstHalfHour {
        /// Which checks.
        checks: Vec<CheckId>,
    },
    /// Change the filter after running in.
    FilterChange {
        /// After so many hours.
        hours: u32,
    },
    /// Write the readings down.
    Record,
}

pub(super) fn steps(job: &Job, sheet: &SettingSheet) -> Vec<FirstStep> {
    let mut all = Vec::new();
    all.extend(some(open(job, false)).map(|checks| FirstStep::ProveBefore { checks }));
    let new_lines = new_lines(job);
    all.extend(some(new_lines.clone()).map(|changes| FirstStep::Flush { changes }));
    let valves = sheet.positions.iter().filter(|state| state.moves() && is_valve(&state.item));
    all.extend(some(valves.map(|state| state.item.clone()).collect()).map(|items| FirstStep::Positions { items }));
    if !new_lines.is_empty() || job.makes(ChangeId::OilChange) {
        all.push(FirstStep::OilLevel);
    }
    // With a tester in the loop instead of the attachment: a flow that stands too high must not find a rotor.
    let count = sheet.values.iter().filter(|value| value.what != crate::pairing::SettingId::OilTemperature).count();
    if count > 0 {
        all.push(FirstStep::SetValues { count });
    }
    if job.has_case_line() {
        all.push(FirstStep::CaseLine);
    }
    // A housing that drains outside stands empty as it comes; one that drains inside fills itself.
    if job.drains_outside() {
        all.push(FirstStep::FillHousing);
    }
    let screwed = job.after.circuit.coupling.as_ref().and_then(|coupling| coupling.screwed) == Some(true);
    all.push(FirstStep::Couple { screwed });
    let distance = job.pairing.remarks.iter().find_map(|remark| match remark {
        Remark::ThrowZone { distance, .. } => Some(*distance),
        _ => None,
    });
    all.push(FirstStep::KeepAway { distance });
    all.push(FirstStep::Bleed);
    if job.head.kind.has_rotor() {
        all.push(FirstStep::Direction);
    }
    let warm = sheet.values.iter().find(|value| value.what == crate::pairing::SettingId::OilTemperature);
    all.extend(warm.map(|value| FirstStep::WarmUp { to: value.on.nominal }));
    all.push(FirstStep::Read);
    let tools = job.after.circuit.shared_with.iter().flatten().filter(|tool| tool.isolated == Some(true));
    all.extend(tools.map(|tool| FirstStep::ToolStands { tool: tool.name.clone() }));
    if job.makes(ChangeId::PriorityShare) || job.pairing.remarks.contains(&Remark::PullsAside) {
        all.push(FirstStep::Functions);
    }
    let kinds: Vec<_> = job.head.extra_functions.iter().map(|extra| extra.kind).collect();
    let mut told = Vec::new();
    for kind in kinds.into_iter().filter(|kind| *kind != ExtraKind::OnOff) {
        if !told.contains(&kind) {
            told.push(kind);
        }
    }
    all.extend(some(told).map(|kinds| FirstStep::Extras { kinds }));
    all.push(FirstStep::StopTest);
    if job.head.kind.has_heavy_rotor() {
        all.push(FirstStep::RunDown { about: run_down(job) });
    }
    all.push(FirstStep::Retighten);
    all.extend(some(open(job, true)).map(|checks| FirstStep::FirstHalfHour { checks }));
    if job.after.circuit.return_path.filter.is_some() || new_lines.iter().any(|change| *change != ChangeId::CaseLine) {
        all.push(FirstStep::FilterChange { hours: RUN_IN_HOURS });
    }
    all.push(FirstStep::Record);
    all
}

fn some<T>(list: Vec<T>) -> Option<Vec<T>> {
    (!list.is_empty()).then_some(list)
}

/// What is not known although it fits: of work, or of people and parts.
fn open(job: &Job, of_work: bool) -> Vec<CheckId> {
    let open = job.pairing.final_checks().iter().filter(|check| check.outcome == Outcome::NotKnown);
    open.filter(|check| (check.class == Class::Work) == of_work).map(|check| check.id).collect()
}

/// The changes that bring new hoses and pipes, with the dirt of their making.
fn new_lines(job: &Job) -> Vec<ChangeId> {
    let brings = |id: &ChangeId| {
        matches!(
            id,
            ChangeId::DirectReturn
                | ChangeId::FilterReturn
                | ChangeId::ReturnLine
                | ChangeId::CaseLine
                | ChangeId::SupplyLine
                | ChangeId::HoseClass
                | ChangeId::PriorityShare
                | ChangeId::Cooler
        )
    };
    job.pairing.changes.iter().map(|change| change.id).filter(brings).collect()
}

fn is_valve(item: &Item) -> bool {
    matches!(
        item,
        Item::Changeover
            | Item::Isolation { .. }
            | Item::Tool { .. }
            | Item::Divider
            | Item::Demand
            | Item::ReverseLock
            | Item::Diverter
    )
}

/// How long the rotor turns on against the least drag that is usual at idle: never a leave to come nearer.
fn run_down(job: &Job) -> Option<Amount> {
    let facts = Facts::gather(job.after.carrier, job.after.circuit, job.head, job.conditions);
    let inertia = job.head.motor.as_ref()?.inertia?.nominal;
    let motor = facts.nominal_motor()?;
    let free = facts.free.fact.interval()?;
    let point = job
        .pairing
        .points
        .iter()
        .rev()
        .find(|point| point.load == crate::pairing::Load::Free && point.oil == crate::pairing::OilState::Working)?;
    let speed = point.rotor_speed?.quantity()?;
    let drag = drag_torque(motor.displacement, free.low) / motor.ratio;
    let time: Time = run_down_time(inertia, speed, drag);
    time.si().is_finite().then(|| Amount::of(time))
}
