//! What is wrong with a table, as a list.

use super::state::app;
use leptos::prelude::*;
use quantity::Named;
use table::Problem;

/// How many problems are shown at once.
const SHOWN: usize = 50;

/// Problems with place, what was found, what is expected, and how to mend it.
#[component]
pub fn ProblemList(
    problems: Vec<Problem>,
    /// How many more there are than are in the list.
    #[prop(optional)]
    unlisted: usize,
) -> impl IntoView {
    let app = app();
    let more = problems.len().saturating_sub(SHOWN) + unlisted;
    let row = move |problem: Problem| {
        let text = app.words().problem(&problem);
        let kind = problem.severity.name();
        view! {
            <li class=format!("problem {kind}")>
                <p><span class="outcome">{kind}</span>" "{text.place}</p>
                {(!text.found.is_empty()).then(|| view! { <p>"Found: "<code>{text.found.clone()}</code></p> })}
                <p>"Expected: "{text.expected}</p>
                <p>"To fix it: "{text.remedy}</p>
            </li>
        }
    };
    let count = app.words().problem_count(&problems);
    view! {
        <p>{count}</p>
        <ol class="problems">{problems.into_iter().take(SHOWN).map(row).collect_view()}</ol>
        {(more > 0).then(|| view! { <p>"And "{more}" more."</p> })}
    }
}
