//! The table: what is loaded, from where, its problems; load another.

use super::edit::Entries;
use super::file_choice::{GiveFile, PasteCells};
use super::fill_next::FillNext;
use super::loaded::{Loaded, Loading, NO_ANSWER, Origin};
use super::notice::{Notice, Topic};
use super::own_machines::OwnMachines;
use super::problems::ProblemList;
use super::route::Route;
use super::state::{App, app};
use super::{files, load, offline, spreadsheet, time};
use leptos::prelude::*;
use std::sync::Arc;

/// The screen.
#[component]
pub fn TableScreen() -> impl IntoView {
    let app = app();
    app.host.title("The table");
    view! {
        <h1 tabindex="-1">"The table"</h1>
        {move || match app.loading.get() {
            Loading::Waiting => view! { <p role="status">"Loading the table …"</p> }.into_any(),
            Loading::Failed(why) => view! { <p class="notice fault" role="alert">{why}</p> }.into_any(),
            Loading::Ready(loaded) => {
                let table = &loaded.table;
                let date = table.date.map_or_else(|| "not stated".to_owned(), |date| time::day(&date.to_string()));
                let stated = |text: &Option<String>| text.clone().unwrap_or_else(|| "not stated".to_owned());
                view! {
                    <dl class="block">
                        <div><dt>"Title"</dt><dd>{table.title.clone()}</dd></div>
                        <div><dt>"Publisher"</dt><dd>{stated(&table.publisher)}</dd></div>
                        <div><dt>"Date"</dt><dd>{date}</dd></div>
                        <div><dt>"Licence"</dt><dd>{stated(&table.licence)}</dd></div>
                        <div><dt>"From"</dt><dd>{app.words().address(&loaded.origin.words())}</dd></div>
                        <div><dt>"Loaded"</dt><dd>{time::shown(&loaded.when)}{loaded.is_unasked.then_some(NO_ANSWER)}</dd></div>
                        <div><dt>"Holds"</dt><dd>{app.words().table_holds(table)}</dd></div>
                    </dl>
                    <p class="actions">
                        <button type="button" on:click={
                            let loaded = loaded.clone();
                            move |_| files::download(&loaded.origin.file_name(), &loaded.text)
                        }>"Download this table"</button>
                        <HandOut loaded=loaded.clone() packed=false name="As a workbook (.xlsx)"/>
                        <HandOut loaded=loaded.clone() packed=true name="As separated texts (.csv)"/>
                        {renew(app, &loaded.origin)}
                        {(loaded.origin != Origin::Beside).then(|| view! {
                            <button type="button" on:click=move |_| load::back_to_own(app)>"Back to the table beside this app"</button>
                        })}
                        <a class="button" href="table/schema.json" download="spec-table.schema.json">"Download the format's JSON Schema"</a>
                    </p>
                    <p class="quiet">"A download holds what the table holds: not the other columns of a spreadsheet that it came from, nor what was left out."</p>
                    <FillNext loaded=loaded.clone()/>
                    <h2>"Problems of “"{table.title.clone()}"”"</h2>
                    {(!loaded.set_aside.is_empty()).then(|| view! {
                        <p>"Left out because of errors: "<strong>{loaded.set_aside.join(", ")}</strong>"."</p>
                    })}
                    {if loaded.problems.is_empty() {
                        view! { <p>"None."</p> }.into_any()
                    } else {
                        view! { <ProblemList problems=loaded.problems.clone() unlisted=loaded.unlisted/> }.into_any()
                    }}
                }
                .into_any()
            }
        }}
        <Entries/>
        <LoadAnother app/>
        <OwnMachines/>
        <p class="quiet">{move || offline::status().get().words()}</p>
        <section aria-labelledby="elsewhere">
            <h2 id="elsewhere">"In your own page"</h2>
            <p class="quiet">"A dealer's page can show what fits, with a table of its own."</p>
            <p><a class="button" href=app.href(&Route::Snippet)>"Put it into your own page"</a></p>
        </section>
    }
}

/// Asks the address of a table for a newer one.
fn renew(app: App, origin: &Origin) -> Option<impl IntoView + use<>> {
    let address = origin.address()?.to_owned();
    let busy = RwSignal::new(false);
    let ask = move |_| {
        if !busy.get_untracked() {
            busy.set(true);
            load::from_address(app, address.clone(), move || {
                busy.try_set(false);
            });
        }
    };
    Some(view! {
        <button type="button" disabled=busy on:click=ask>
            {move || if busy.get() { "Asking …" } else { "Look there for a newer one" }}
        </button>
    })
}

/// The table in use as a spreadsheet.
#[component]
fn HandOut(loaded: Arc<Loaded>, packed: bool, name: &'static str) -> impl IntoView {
    let app = app();
    let busy = RwSignal::new(false);
    let write = move |_| {
        if !busy.get_untracked() {
            busy.set(true);
            spreadsheet::hand_out(app, loaded.clone(), packed, move || {
                busy.try_set(false);
            });
        }
    };
    view! { <button type="button" disabled=busy on:click=write>{move || if busy.get() { "Writing …" } else { name }}</button> }
}

/// By file, by pasted cells or by address.
#[component]
fn LoadAnother(app: App) -> impl IntoView {
    let address = RwSignal::new(String::new());
    let busy = RwSignal::new(false);
    let open = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let wanted = address.get_untracked().trim().to_owned();
        if wanted.is_empty() {
            app.tell(Notice::fault("Write the address of a table first, then load it.".to_owned()).about(Topic::Table));
        } else if !busy.get_untracked() {
            busy.set(true);
            load::from_address(app, wanted, move || {
                busy.try_set(false);
            });
        }
    };
    view! {
        <section aria-labelledby="another">
            <h2 id="another">"Load another table"</h2>
            <p class="quiet">"You see what a spreadsheet was read as before it is used. A table with errors is used as far as it is sound, and kept in this browser for the next time."</p>
            <GiveFile app/>
            <PasteCells app/>
            <form class="field" on:submit=open>
                <label for="address">"From an address"</label>
                <input id="address" type="text" inputmode="url" placeholder="https://…/table.json" prop:value=address
                    on:input=move |event| address.set(event_target_value(&event))/>
                <button type="submit" disabled=busy>{move || if busy.get() { "Loading …" } else { "Load" }}</button>
            </form>
            <p class="quiet">"No spreadsheet yet? This one has a column for each figure, with notes on where it is found and a few invented rows."</p>
            <p><a class="button" href="table/workbook.xlsx" download="workbook.xlsx">"A workbook to begin with"</a></p>
        </section>
    }
}
