//! What was chosen to stand side by side, at hand on every screen where more can be chosen.

use super::attributes::Part;
use super::route::Route;
use super::state::{MOST_COMPARED, app};
use leptos::prelude::*;

/// Opens the comparison of what is chosen.
#[component]
pub fn CompareBar() -> impl IntoView {
    let app = app();
    let wanted = move || {
        app.route.with(|route| {
            let chooses = matches!(
                route,
                Route::Start
                    | Route::Attachments
                    | Route::Attachment { .. }
                    | Route::Work { .. }
                    | Route::Machine { .. }
                    | Route::Sheet { .. }
            );
            chooses && app.shows(Part::Compare)
        })
    };
    move || {
        let ticked = app.ticked.get();
        (wanted() && !ticked.is_empty()).then(|| {
            let count = ticked.len();
            let text = match count {
                1 => "1 chosen. One more to compare".to_owned(),
                MOST_COMPARED => format!("{count} chosen, as many as there is room for"),
                _ => format!("{count} chosen"),
            };
            view! {
                <div class="bar" role="region" aria-label="Chosen to stand side by side">
                    <span role="status">{text}</span>
                    <span class="actions">
                        {(count > 1).then(|| view! { <a class="button strong" href=app.href(&Route::compare(&ticked))>{format!("Compare {count} side by side")}</a> })}
                        <button type="button" class="quiet" on:click=move |_| app.ticked.set(Vec::new())>"Clear"</button>
                    </span>
                </div>
            }
        })
    }
}
