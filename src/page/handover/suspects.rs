//! What may be wrong, as it is told beside the readings.

use super::desk::Desk;
use handover::{Diagnosis, Finding, NAMED, Next, Sign, Standing, Suspect};
use leptos::prelude::*;

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
