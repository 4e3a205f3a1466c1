//! The whole work in order, from shutting the machine down to the last reading: what is fitted, and the first start around it. Each step
//! knows the earlier one without which it must not be begun.

use super::switch_back::{self, Joined, Step, Trial};
use super::{FirstStep, Item, Job, State};
use fit::Change;
use serde::Serialize;
use table::ChangeId;

/// What is done in one step.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "task", rename_all = "kebab-case")]
pub enum Task {
    /// A step of shutting down, of the first start, or of proving.
    Step {
        /// Which.
        does: FirstStep,
    },
    /// A change is fitted.
    Fit {
        /// Which.
        change: ChangeId,
    },
}

/// One step of the work.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WorkStep {
    /// What is done.
    pub task: Task,
    /// The place, from 0, of the step that must be done before; none where nothing else is waited for.
    pub after: Option<usize>,
}

/// All steps. Locking out comes first: nothing is opened, and nothing fitted, on a machine that could be started.
pub(super) fn work(job: &Job, first_start: &[FirstStep], states: &[State]) -> Vec<WorkStep> {
    let switch = |steps: Vec<Step>| steps.into_iter().map(|does| FirstStep::Switch { does });
    let begin: Vec<_> =
        switch(switch_back::stow(states)).chain(switch(switch_back::shut_down(job, Joined::Nothing))).collect();
    let (settled, rest) = first_start.split_at(first_start.iter().take_while(|step| is_settled_first(step)).count());
    let fills = rest.iter().take_while(|step| **step == FirstStep::FillTank).count();
    let (fill, rest) = rest.split_at(fills);
    // The first start begins by shutting down, as where nothing was fitted: here that is done already.
    let rest = rest.strip_prefix(begin.as_slice()).unwrap_or(rest);
    let does = |step: &FirstStep| Task::Step { does: step.clone() };
    let mut tasks: Vec<_> = begin.iter().chain(settled).map(does).collect();
    tasks.extend(
        job.pairing.changes.iter().filter(|change| is_fitted(change)).map(|change| Task::Fit { change: change.id }),
    );
    tasks.extend(fill.iter().chain(rest).map(does));
    let after: Vec<_> = (0..tasks.len()).map(|place| waits_for(&tasks, place)).collect();
    tasks.into_iter().zip(after).map(|(task, after)| WorkStep { task, after }).collect()
}

/// What is fitted by hand; what is set is set with the tester, at the first start.
fn is_fitted(change: &Change) -> bool {
    !change.id.is_setting()
}

/// What is settled before a line is opened.
fn is_settled_first(step: &FirstStep) -> bool {
    matches!(step, FirstStep::ProveBefore { .. } | FirstStep::FindMakeUp | FirstStep::BenchRelief { .. })
}

/// The latest earlier step without which one must not be begun.
fn waits_for(tasks: &[Task], place: usize) -> Option<usize> {
    let latest = |wanted: fn(&Task) -> bool| tasks[..place].iter().rposition(wanted);
    match &tasks[place] {
        Task::Fit { .. } => latest(is_locked),
        Task::Step { does: FirstStep::Switch { does } } => latest(before_switching(does)?),
        Task::Step { does } => latest(before_step(does)?),
    }
}

/// What comes before a step of the first start; none where nothing is waited for.
fn before_step(step: &FirstStep) -> Option<fn(&Task) -> bool> {
    Some(match step {
        FirstStep::FillTank => |task| matches!(task, Task::Fit { .. }),
        FirstStep::Positions { .. }
        | FirstStep::JoinLoop { .. }
        | FirstStep::TesterOut
        | FirstStep::BlowCaseLine
        | FirstStep::FillHousing
        | FirstStep::TracePorts => is_locked,
        FirstStep::Flush { .. } | FirstStep::OilLevel => {
            |task| does(task, |step| matches!(step, FirstStep::JoinLoop { .. }))
        }
        FirstStep::WarmThrough => {
            |task| does(task, |step| matches!(step, FirstStep::JoinLoop { .. } | FirstStep::Flush { .. }))
        }
        FirstStep::SetValues { .. } => |task| does(task, |step| matches!(step, FirstStep::WarmThrough)),
        FirstStep::ProveMounted { .. } => |task| tries(task, &Trial::MountingHolds),
        FirstStep::KeepAway { .. } => |task| tries(task, &Trial::NoLeak),
        FirstStep::Bleed { .. } => |task| does(task, |step| matches!(step, FirstStep::KeepAway { .. })),
        FirstStep::Direction { .. } => |task| does(task, |step| matches!(step, FirstStep::Bleed { .. })),
        FirstStep::FirstStop { .. } | FirstStep::Extras { .. } | FirstStep::WarmUp { .. } | FirstStep::Read { .. } => {
            turned
        }
        FirstStep::ToolStands { .. } | FirstStep::Functions | FirstStep::StopTest | FirstStep::RunDown { .. } => {
            |task| does(task, |step| matches!(step, FirstStep::Read { .. }))
        }
        FirstStep::Retighten | FirstStep::FirstHalfHour { .. } => {
            |task| does(task, |step| matches!(step, FirstStep::StopTest))
        }
        FirstStep::FilterChange { .. }
        | FirstStep::Record
        | FirstStep::ProveBefore { .. }
        | FirstStep::FindMakeUp
        | FirstStep::BenchRelief { .. }
        | FirstStep::Switch { .. } => return None,
    })
}

/// What comes before a step of taking the attachment up or shutting down; none where nothing is waited for.
fn before_switching(step: &Step) -> Option<fn(&Task) -> bool> {
    Some(match step {
        Step::Relieve { .. } => |task| switches(task, |step| *step == Step::Ground),
        Step::LockOut => |task| switches(task, |step| matches!(step, Step::Relieve { .. })),
        Step::Move { item: Item::Couplings { .. }, .. } => {
            |task| does(task, |step| matches!(step, FirstStep::TracePorts))
        }
        Step::Move { item: Item::Divider, .. } => {
            |task| switches(task, |step| matches!(step, Step::Move { item: Item::Couplings { .. }, .. }))
        }
        // A coupler is worked from the seat, with the engine running.
        Step::Move { item: Item::Mounting { coupler: true }, .. } => |task| switches(task, |step| *step == Step::Start),
        Step::Drive { .. } => |task| switches(task, |step| matches!(step, Step::Unpin { .. })),
        // A tool is stowed by the machine's own oil, before all else.
        Step::Move { item: Item::Tool { .. }, .. }
        | Step::StopAttachment { .. }
        | Step::Ground
        | Step::ShutDown
        | Step::Start
        | Step::Try { .. } => return None,
        Step::Move { .. } | Step::Unpin { .. } => is_locked,
    })
}

/// Whether a task is such a step of the first start.
fn does(task: &Task, wanted: fn(&FirstStep) -> bool) -> bool {
    matches!(task, Task::Step { does } if wanted(does))
}

/// Whether a task is such a step of taking the attachment up or shutting down.
fn switches(task: &Task, wanted: fn(&Step) -> bool) -> bool {
    matches!(task, Task::Step { does: FirstStep::Switch { does } } if wanted(does))
}

fn tries(task: &Task, wanted: &Trial) -> bool {
    matches!(task, Task::Step { does: FirstStep::Switch { does: Step::Try { trial } } } if trial == wanted)
}

/// The machine cannot be started.
fn is_locked(task: &Task) -> bool {
    switches(task, |step| matches!(step, Step::LockOut | Step::ShutDown))
}

/// It turns, slowly, as it should.
fn turned(task: &Task) -> bool {
    does(task, |step| {
        use FirstStep::{Bleed, Direction, FirstStop, WarmUp};
        matches!(step, Bleed { .. } | Direction { .. } | FirstStop { .. } | WarmUp { .. })
    })
}
