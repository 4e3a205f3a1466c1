//! What may be wrong: every fault is solved once for the circumstances, in stretches; then each figure that is typed is held
//! against all of them at once.

use super::{Desk, Job};
use crate::page::breath::{Breath, Pause};
use handover::{Circumstances, Diagnosis, Finding, NAMED, Next, Read, Sign, Signatures, Standing, Suspect};
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

#[component]
pub fn Suspects(desk: Desk) -> impl IntoView {
    let words = move || desk.app.words();
    let diagnosis = desk.diagnosis;
    let off = Memo::new(move |_| desk.standing.with(Standing::reads_off));
    let said = move || match diagnosis.get() {
        None => "Solving the circuit with every fault …".to_owned(),
        Some(diagnosis) => words().finding(&diagnosis, off.get()),
    };
    let suspects = move || match diagnosis.get() {
        Some(Diagnosis { finding: Finding::Suspects { suspects, explained }, .. }) => (suspects, explained),
        _ => (Vec::new(), false),
    };
    view! {
        <section class="suspects" aria-labelledby="suspects" aria-busy=move || diagnosis.with(Option::is_none).to_string()>
            <h2 id="suspects" tabindex="-1">"What may be wrong"</h2>
            <p role="status">{said}</p>
            <ol>{move || {
                let (suspects, explained) = suspects();
                suspects.into_iter().take(NAMED).map(|suspect| view! { <Named desk suspect explained off=off.get()/> }).collect_view()
            }}</ol>
            {move || diagnosis.get().and_then(|diagnosis| words().left_out(&diagnosis)).map(|text| view! { <p class="quiet">{text}</p> })}
        </section>
    }
}

/// A suspect, with what speaks for and against it and what to do next.
#[component]
fn Named(
    desk: Desk,
    suspect: Suspect,
    /// Whether the suspects explain what was read.
    explained: bool,
    /// Whether any reading by itself is not as computed.
    off: bool,
) -> impl IntoView {
    let stop = suspect.stop && off;
    let words = desk.app.words();
    let signs = |title: &'static str, signs: &[Sign]| {
        (!signs.is_empty()).then(|| {
            view! {
                <p class="name">{title}</p>
                <ul>{signs.iter().map(|sign| view! { <li>{words.sign(sign)}"."</li> }).collect_view()}</ul>
            }
        })
    };
    view! {
        <li class:beyond=stop>
            <p class="name">{stop.then_some("Stop. ")}{words.fault_name(suspect.fault)}
                {words.suspicion(&suspect, explained).map(|said| view! { <span class="quiet">" · "{said}</span> })}</p>
            <p>{words.next_step(suspect.next)}</p>
            <details>
                <summary>"What speaks for and against it"</summary>
                {signs("For it", &suspect.speaks_for)}
                {signs("Against it", &suspect.speaks_against)}
                {words.alike(&suspect).map(|text| view! { <p>{text}</p> })}
                {(suspect.next != Next::Look { at: suspect.look }).then(|| view! { <p>{words.look_at(suspect.look)}</p> })}
            </details>
        </li>
    }
}
