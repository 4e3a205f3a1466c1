//! Which machine, attachment and job the papers are of: typed once, kept in this browser, and at the edge of every page.

use crate::page::local_storage;
use leptos::prelude::*;
use record::{JobMarks, job_mark};

/// What was typed for a machine with an attachment.
pub fn marks(carrier: &str, head: &str) -> RwSignal<JobMarks> {
    let kept = local_storage::preference(&JobMarks::preference(carrier, head));
    RwSignal::new(kept.map(|text| JobMarks::decode(&text)).unwrap_or_default())
}

/// Where it is typed.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn Marks(typed: RwSignal<JobMarks>, carrier: String, head: String) -> impl IntoView {
    let name = StoredValue::new(JobMarks::preference(&carrier, &head));
    let field = move |id: &'static str, label: &'static str, of: fn(&mut JobMarks) -> &mut String| {
        let value = move || typed.with(|typed| of(&mut typed.clone()).clone());
        let write = move |event: leptos::ev::Event| {
            typed.update(|typed| *of(typed) = job_mark(&event_target_value(&event)));
            name.with_value(|name| typed.with_untracked(|typed| local_storage::keep_preference(name, &typed.encode())));
        };
        view! {
            <p class="field"><label for=id>{label}</label>
                <input id=id type="text" autocomplete="off" spellcheck="false" prop:value=value on:change=write/></p>
        }
    };
    view! {
        <div class="figures-of-plate">
            {field("machine-serial", "Serial number of the machine", |typed| &mut typed.machine_serial)}
            {field("attachment-serial", "Serial number of the attachment", |typed| &mut typed.attachment_serial)}
            {field("job", "Job number", |typed| &mut typed.job)}
        </div>
    }
}
