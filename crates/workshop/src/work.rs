//! The whole work in order, from shutting the machine down to the last reading: what is fitted, and the first start around it. Each step
//! knows the earlier one without which it must not be begun.

use super::switch_back::{self, Joined, Step};
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

/// A task that is a step of the first start.
macro_rules! step {
    ($name:ident) => {
        Task::Step { does: FirstStep::$name }
    };
    ($name:ident { .. }) => {
        Task::Step { does: FirstStep::$name { .. } }
    };
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
    let any = |wanted: &[fn(&Task) -> bool]| wanted.iter().filter_map(|wanted| latest(*wanted)).max();
    let does = match &tasks[place] {
        Task::Fit { .. } => return latest(is_locked),
        Task::Step { does } => does,
    };
    match does {
        FirstStep::FillTank => latest(|task| matches!(task, Task::Fit { .. })),
        FirstStep::Positions { .. }
        | FirstStep::JoinLoop { .. }
        | FirstStep::TesterOut
        | FirstStep::BlowCaseLine
        | FirstStep::FillHousing
        | FirstStep::TracePorts => latest(is_locked),
        FirstStep::Flush { .. } | FirstStep::OilLevel => latest(|task| matches!(task, step!(JoinLoop { .. }))),
        FirstStep::WarmThrough => any(&[|t| matches!(t, step!(JoinLoop { .. })), |t| matches!(t, step!(Flush { .. }))]),
        FirstStep::SetValues { .. } => latest(|task| matches!(task, step!(WarmThrough))),
        FirstStep::ProveMounted { .. } => latest(is_held),
        FirstStep::KeepAway { .. } => latest(is_tight),
        FirstStep::Bleed { .. } => latest(|task| matches!(task, step!(KeepAway { .. }))),
        FirstStep::Direction { .. } => latest(|task| matches!(task, step!(Bleed { .. }))),
        FirstStep::FirstStop { .. } | FirstStep::Extras { .. } | FirstStep::WarmUp { .. } => latest(turned),
        FirstStep::Read { .. } => latest(turned),
        FirstStep::ToolStands { .. } | FirstStep::Functions | FirstStep::StopTest | FirstStep::RunDown { .. } => {
            latest(|task| matches!(task, step!(Read { .. })))
        }
        FirstStep::Retighten | FirstStep::FirstHalfHour { .. } => latest(|task| matches!(task, step!(StopTest))),
        FirstStep::FilterChange { .. } | FirstStep::Record => None,
        FirstStep::ProveBefore { .. } | FirstStep::FindMakeUp | FirstStep::BenchRelief { .. } => None,
        FirstStep::Switch { does } => match does {
            Step::Relieve { .. } => {
                latest(|task| matches!(task, Task::Step { does: FirstStep::Switch { does: Step::Ground } }))
            }
            Step::LockOut => {
                latest(|task| matches!(task, Task::Step { does: FirstStep::Switch { does: Step::Relieve { .. } } }))
            }
            Step::Move { item: Item::Couplings { .. }, .. } => latest(|task| matches!(task, step!(TracePorts))),
            Step::Move { item: Item::Divider, .. } => latest(|task| {
                let does =
                    if let Task::Step { does: FirstStep::Switch { does } } = task { does } else { return false };
                matches!(does, Step::Move { item: Item::Couplings { .. }, .. })
            }),
            Step::Move { item: Item::Tool { .. }, .. } => None,
            // A coupler is worked from the seat, with the engine running.
            Step::Move { item: Item::Mounting { coupler: true }, .. } => latest(is_started),
            Step::Move { .. } | Step::Unpin { .. } => latest(is_locked),
            Step::Drive { .. } => {
                latest(|task| matches!(task, Task::Step { does: FirstStep::Switch { does: Step::Unpin { .. } } }))
            }
            Step::StopAttachment { .. } | Step::Ground | Step::ShutDown | Step::Start | Step::Try { .. } => None,
        },
    }
}

/// The machine cannot be started.
fn is_locked(task: &Task) -> bool {
    let Task::Step { does: FirstStep::Switch { does } } = task else { return false };
    matches!(does, Step::LockOut | Step::ShutDown)
}

/// The engine runs.
fn is_started(task: &Task) -> bool {
    matches!(task, Task::Step { does: FirstStep::Switch { does: Step::Start } })
}

/// The mounting was seen to hold.
fn is_held(task: &Task) -> bool {
    let Task::Step { does: FirstStep::Switch { does } } = task else { return false };
    matches!(does, Step::Try { trial: super::Trial::MountingHolds })
}

/// No leak was found.
fn is_tight(task: &Task) -> bool {
    let Task::Step { does: FirstStep::Switch { does } } = task else { return false };
    matches!(does, Step::Try { trial: super::Trial::NoLeak })
}

/// It turns, slowly, as it should.
fn turned(task: &Task) -> bool {
    matches!(task, step!(Bleed { .. }) | step!(Direction { .. }) | step!(FirstStop { .. }) | step!(WarmUp { .. }))
}
