//! What may be wrong, worked out: every fault is solved once for the circumstances, in stretches; then each figure that is typed is
//! held against all of them at once.

use super::job::Job;
use crate::page::breath::{Breath, Pause};
use handover::{Circumstances, Diagnosis, Read, Signatures};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::sync::Arc;
use std::time::Duration;

/// How long a person pauses before the faults are solved anew.
const PAUSE: Duration = Duration::from_millis(400);

/// All faults of a job under some circumstances, once they are solved.
fn solved(job: StoredValue<Job>, at: Memo<Circumstances>) -> RwSignal<Option<Arc<Signatures>>> {
    let found = RwSignal::new(None);
    let round = StoredValue::new(0_u32);
    let pause = Pause::new();
    Effect::new(move |before: Option<()>| {
        let at = at.get();
        round.update_value(|round| *round += 1);
        let own = round.get_value();
        let solve = move || {
            let Some(job) = job.try_get_value() else { return };
            spawn_local(async move {
                let Job { loaded, machine, attachment, pairing } = &job;
                let solved = Box::pin(Signatures::in_stretches(
                    pairing,
                    machine,
                    attachment,
                    &loaded.conditions,
                    &at,
                    &Breath::new(),
                ))
                .await;
                // Another temperature may have been typed meanwhile, or the screen been left.
                if round.try_get_value() == Some(own) {
                    found.try_set(Some(Arc::new(solved)));
                }
            });
        };
        pause.then(if before.is_some() { PAUSE } else { Duration::ZERO }, solve);
    });
    found
}

/// What may be wrong by what was read; none until every fault is solved. It waits for a pause: what is typed is judged at once, and
/// all faults against it would keep a phone from taking the next key.
pub fn diagnosed(job: StoredValue<Job>, at: Memo<Circumstances>, read: Memo<Vec<Read>>) -> RwSignal<Option<Diagnosis>> {
    let faults = solved(job, at);
    let (found, pause) = (RwSignal::new(None), Pause::new());
    Effect::new(move |_| {
        let (Some(faults), read) = (faults.get(), read.get()) else { return };
        let wait = if found.with_untracked(Option::is_none) { Duration::ZERO } else { PAUSE };
        pause.then(wait, move || found.set(Some(faults.diagnose(&read))));
    });
    found
}
