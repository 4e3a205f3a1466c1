//! What is tried and answered by yes or no.

use super::desk::Desk;
use leptos::prelude::*;
use quantity::Named;

#[component]
pub fn Tried(desk: Desk) -> impl IntoView {
    let app = desk.app;
    let asked = desk.asked.get_value();
    view! {
        <section class="step" aria-labelledby="tried">
            <h2 id="tried" tabindex="-1">"What is tried"</h2>
            <p class="quiet">"Whatever is answered by no is put right before the machine goes to work."</p>
            {asked.into_iter().map(|check| {
                let answer = move || desk.record.with(|record| record.answer(check));
                let turn = move |to: bool| {
                    let now = desk.record.with_untracked(|record| record.answer(check));
                    desk.record.update(|record| record.write_answer(check, Some(to).filter(|_| now != Some(to))));
                };
                let button = move |to: bool, shown: &'static str| view! {
                    <button type="button" class="chip" aria-pressed=move || (answer() == Some(to)).to_string()
                        class:no=move || !to && answer() == Some(false) on:click=move |_| turn(to)>{shown}</button>
                };
                let id = format!("tried-{}", check.name());
                view! {
                    <div class="question" role="group" aria-labelledby=id.clone()>
                        <p id=id.clone()>{move || app.words().function_check(check)}</p>
                        <span class="actions">{button(true, "Yes")}{button(false, "No")}</span>
                    </div>
                }
            }).collect_view()}
        </section>
    }
}
