//! The first start after the attachment is fitted: only the steps that belong to this pairing, in their order (common practice,
//! no published source). First with a tester in place of the attachment, then mounted, then turning slowly. What is done as in
//! switch-back is taken from there.

use super::job::{open, proves_coast_down};
use super::settings::SettingSheet;
use super::switch_back::{self, Joined, Step, Trial};
use super::value::Value;
use super::{GaugePoint, Item, Job, Slow, State};
use fit::{CheckId, Remark, SettingId};
use hydraulics::coast_down::LEAST_INLET_BAR;
use quantity::{Amount, Pressure, Quantity};
use serde::Serialize;
use table::{ChangeId, ExtraKind};

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
    /// Find the check valve that lets the rotor run down, or fit one.
    FindMakeUp,
    /// Set and seal the relief on another tool's side before it is fitted.
    BenchRelief {
        /// To what.
        value: Amount,
    },
    /// The tank was drained: clean and fill it, fill and bleed the pumps.
    FillTank,
    /// A step of taking the attachment off or putting it on.
    Switch {
        /// What.
        does: Step,
    },
    /// Set valves as the setting sheet says for the attachment on.
    Positions {
        /// What stands otherwise than for the bucket.
        items: Vec<Item>,
    },
    /// Join supply and return by the tester.
    JoinLoop {
        /// A new relief is turned right out first.
        relief_out: bool,
    },
    /// Flush the new lines in a loop, without the attachment.
    Flush {
        /// Which changes brought them.
        changes: Vec<ChangeId>,
    },
    /// Top the tank up.
    OilLevel,
    /// Warm the oil through the tester.
    WarmThrough,
    /// Set the values of the setting sheet with instruments, the attachment not yet connected.
    SetValues {
        /// How many.
        count: usize,
        /// What turns the flow down afterwards.
        slow: Slow,
    },
    /// Take the tester out and cap the lines.
    TesterOut,
    /// Prove these on the attachment as it hangs, nothing connected.
    ProveMounted {
        /// Which checks.
        checks: Vec<CheckId>,
    },
    /// Blow the case line through before it touches the motor.
    BlowCaseLine,
    /// Fill the motor's housing with clean oil by its highest drain port.
    FillHousing,
    /// Trace supply and return to the ports marked in and out.
    TracePorts,
    /// Everybody away.
    KeepAway {
        /// How far, where something is thrown.
        distance: Option<Amount>,
    },
    /// Bleed slowly.
    Bleed {
        /// By what it is slow.
        slow: Slow,
    },
    /// Direction of rotation, slowly.
    Direction {
        /// By what it is slow.
        slow: Slow,
    },
    /// At the first stop from the lowest flow the inlet must not draw air.
    FirstStop {
        /// Not below this.
        least: Amount,
    },
    /// Warm the oil before full speed.
    WarmUp {
        /// To which temperature.
        to: Amount,
        /// By what it is slow.
        slow: Slow,
    },
    /// Raise to working speed by steps and read the instruments.
    Read {
        /// By what it is raised.
        slow: Slow,
    },
    /// A tool that is shut off stands still meanwhile.
    ToolStands {
        /// Its name.
        tool: String,
    },
    /// Work the machine's functions beside the attachment; track straight.
    Functions,
    /// Work each of the attachment's other functions.
    Extras {
        /// What they do.
        kinds: Vec<ExtraKind>,
    },
    /// It stops when the operator lets go, leaves or power fails, and stays off.
    StopTest,
    /// Switch off at full speed and time it until it stands.
    RunDown {
        /// How long at the least drag that is usual, where the rotor's inertia is stated.
        about: Option<Amount>,
    },
    /// Engine off, no pressure: retighten everything new, then search for leaks under pressure again.
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

pub(super) fn steps(job: &Job, sheet: &SettingSheet, states: &[State]) -> Vec<FirstStep> {
    let mut all = before(job, sheet);
    all.extend(with_tester(job, sheet, states));
    all.extend(mounted(job, states));
    all.extend(turning(job, sheet));
    all.extend(proved(job));
    all
}

fn switch(steps: Vec<Step>) -> impl Iterator<Item = FirstStep> {
    steps.into_iter().map(|does| FirstStep::Switch { does })
}

/// What is settled before anything runs.
fn before(job: &Job, sheet: &SettingSheet) -> Vec<FirstStep> {
    let mut all = Vec::new();
    let mut checks = open(job, false);
    let coasts = checks.contains(&CheckId::RunDown);
    checks.retain(|check| *check != CheckId::RunDown && !is_mounted(*check));
    all.extend(some(checks).map(|checks| FirstStep::ProveBefore { checks }));
    all.extend(coasts.then_some(FirstStep::FindMakeUp));
    let bench = sheet.values.iter().find(|value| value.at == GaugePoint::Bench);
    all.extend(bench.map(|value| FirstStep::BenchRelief { value: value.on.nominal }));
    if job.pairing.changes.iter().any(|change| drains_tank(change.id)) {
        all.push(FirstStep::FillTank);
    }
    all
}

/// With a tester in the loop instead of the attachment: a flow that stands too high must not find a rotor.
fn with_tester(job: &Job, sheet: &SettingSheet, states: &[State]) -> Vec<FirstStep> {
    let new_lines = new_lines(job);
    let at_machine = |value: &&Value| value.what != SettingId::OilTemperature && value.at != GaugePoint::Bench;
    let count = sheet.values.iter().filter(at_machine).count();
    let valves = sheet.positions.iter().filter(|state| state.moves() && is_valve(&state.item));
    let valves: Vec<_> = valves.map(|state| state.item.clone()).collect();
    let mut all: Vec<_> = switch(switch_back::stow(states)).collect();
    all.extend(switch(switch_back::shut_down(job, Joined::Nothing)));
    let sources = valves.iter().any(|item| matches!(item, Item::Divider | Item::Demand));
    all.extend(some(valves).map(|items| FirstStep::Positions { items }));
    let oil = job.makes(ChangeId::OilChange);
    if new_lines.is_empty() && count == 0 && !oil {
        if sources {
            all.extend(switch(switch_back::vent(states)));
        }
        return all;
    }
    let relief_out =
        [ChangeId::PriorityShare, ChangeId::DividerRelief, ChangeId::OwnRelief].iter().any(|change| job.makes(*change));
    all.push(FirstStep::JoinLoop { relief_out });
    all.extend(switch(vec![Step::Start]));
    all.extend(some(new_lines).map(|changes| FirstStep::Flush { changes }));
    all.push(FirstStep::OilLevel);
    if count > 0 {
        all.extend([FirstStep::WarmThrough, FirstStep::SetValues { count, slow: job.slow() }]);
    }
    all.extend(switch(switch_back::shut_down(job, Joined::Capped)));
    all.extend(switch(switch_back::vent(states)));
    all.push(FirstStep::TesterOut);
    all
}

/// The attachment taken up and connected, as when it is put on again.
fn mounted(job: &Job, states: &[State]) -> Vec<FirstStep> {
    let (mount, down) = switch_back::mount(job, states);
    let mut all: Vec<_> = switch(mount).collect();
    let checks = open(job, false).into_iter().filter(|check| is_mounted(*check)).collect();
    all.extend(some(checks).map(|checks| FirstStep::ProveMounted { checks }));
    all.extend(switch(down));
    if job.has_case_line() {
        all.push(FirstStep::BlowCaseLine);
    }
    // A housing that drains outside stands empty as it comes; one that drains inside fills itself.
    if job.drains_outside() {
        all.push(FirstStep::FillHousing);
    }
    all.push(FirstStep::TracePorts);
    all.extend(switch(switch_back::connect(states)));
    all
}

/// From the first turn to the readings at work.
fn turning(job: &Job, sheet: &SettingSheet) -> Vec<FirstStep> {
    let slow = job.slow();
    let distance = job.pairing.remarks.iter().find_map(|remark| match remark {
        Remark::ThrowZone { distance, .. } => Some(*distance),
        _ => None,
    });
    // Leaks are searched for near by, before anything can turn.
    let mut all: Vec<_> = switch(vec![Step::Start, Step::Try { trial: Trial::NoLeak }]).collect();
    all.extend([FirstStep::KeepAway { distance }, FirstStep::Bleed { slow }]);
    if job.head.kind.has_rotor() {
        all.push(FirstStep::Direction { slow });
    }
    if proves_coast_down(job) {
        let least = Amount::of(Pressure::from_si(LEAST_INLET_BAR * 1e5));
        all.push(FirstStep::FirstStop { least });
    }
    let warm = sheet.values.iter().find(|value| value.what == SettingId::OilTemperature);
    all.extend(warm.map(|value| FirstStep::WarmUp { to: value.on.nominal, slow }));
    // While the flow still stands at its lowest.
    let mut told = Vec::new();
    for kind in job.head.extra_functions.iter().map(|extra| extra.kind) {
        if kind != ExtraKind::OnOff && !told.contains(&kind) {
            told.push(kind);
        }
    }
    all.extend(some(told).map(|kinds| FirstStep::Extras { kinds }));
    all.push(FirstStep::Read { slow });
    let tools = job.after.circuit.shared_with.iter().flatten().filter(|tool| tool.isolated == Some(true));
    all.extend(tools.map(|tool| FirstStep::ToolStands { tool: tool.name.clone() }));
    if job.makes(ChangeId::PriorityShare)
        || job.makes(ChangeId::DividerFlow)
        || job.pairing.remarks.contains(&Remark::PullsAside)
    {
        all.push(FirstStep::Functions);
    }
    all
}

/// What is proved last, and written down.
fn proved(job: &Job) -> Vec<FirstStep> {
    let mut all = vec![FirstStep::StopTest];
    if job.head.kind.has_heavy_rotor() {
        all.push(FirstStep::RunDown { about: job.pairing.coasts });
    }
    all.push(FirstStep::Retighten);
    all.extend(some(open(job, true)).map(|checks| FirstStep::FirstHalfHour { checks }));
    let new_lines = new_lines(job);
    if job.after.circuit.return_path.filter.is_some() || new_lines.iter().any(|change| *change != ChangeId::CaseLine) {
        all.push(FirstStep::FilterChange { hours: RUN_IN_HOURS });
    }
    all.push(FirstStep::Record);
    all
}

/// What can only be read on the attachment as it hangs.
fn is_mounted(check: CheckId) -> bool {
    matches!(check, CheckId::Clearance | CheckId::Mounting | CheckId::Coupler)
}

/// What opens the tank.
fn drains_tank(change: ChangeId) -> bool {
    matches!(change, ChangeId::DirectReturn | ChangeId::CaseLine | ChangeId::ReturnFilter | ChangeId::OilChange)
}

fn some<T>(list: Vec<T>) -> Option<Vec<T>> {
    (!list.is_empty()).then_some(list)
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
        Item::Changeover | Item::Isolation { .. } | Item::Divider | Item::Demand | Item::ReverseLock | Item::Diverter
    )
}
