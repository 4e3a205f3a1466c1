//! The form of a machine or an attachment of the table in use: its figures as texts, checked as they are typed, and saved into the table
//! that this browser keeps.

// The desk is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

mod desk;
mod field;
mod keep;

use super::loaded::Origin;
use super::missing::{NoTable, NotInTable};
use super::route::Route;
use super::state::app;
use desk::{Desk, names_of};
use entry::{Role, Target, asked_first, of_table};
use field::EntryField;
use leptos::prelude::*;

/// The screen.
#[component]
pub fn EntryForm(role: Role, id: Option<String>, fields: String) -> impl IntoView {
    let app = app();
    let there = {
        let id = id.clone();
        Memo::new(move |_| {
            let has = |text: &str| id.as_ref().is_none_or(|id| of_table(text, role, id).is_some());
            app.table().map(|loaded| has(&loaded.text))
        })
    };
    move || match there.get() {
        None => view! { <h1 tabindex="-1">"An entry of the table"</h1><NoTable/> }.into_any(),
        Some(false) => {
            let choose = Some((Route::Table, "To the table"));
            view! { <NotInTable what=role.one() id=id.clone().unwrap_or_default() choose/> }.into_any()
        }
        Some(true) => view! { <Form role id=id.clone() fields=fields.clone()/> }.into_any(),
    }
}

#[component]
fn Form(role: Role, id: Option<String>, fields: String) -> impl IntoView {
    let app = app();
    let Some(desk) = Desk::open(app, role, id.clone()) else { return ().into_any() };
    let is_new = id.is_none();
    let heading = move || {
        let kept = desk.draft.with(|draft| draft.base().name());
        match kept {
            Some(name) => name,
            None if is_new => format!("A new {}", role.one()),
            None => format!("The {} “{}”", role.one(), id.clone().unwrap_or_default()),
        }
    };
    app.host.title(&untrack(heading.clone()));
    let save = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        keep::save(desk);
    };
    // What one came for stands first.
    let led_to: Vec<Target> = fields.split(',').filter_map(|name| Target::named(role, name)).collect();
    view! {
        <p class="path"><a href=app.href(&Route::Table)>"The table"</a>" / "{if role == Role::Machines { "Machines" } else { "Attachments" }}</p>
        <h1 tabindex="-1">{heading}</h1>
        <WhereKept/>
        {desk.had_left.then(|| view! {
            <p class="missing" hidden=move || desk.draft.with(|draft| draft.count() == 0)>"What you typed here before is not saved yet. "
                <button type="button" on:click=move |_| desk.drop_changes()>"Drop it"</button></p>
        })}
        <form class="entry" on:submit=save>
            <Fields desk led_to/>
            <Elsewhere desk/>
            <Saving desk/>
        </form>
        {(!is_new).then(|| view! { <Ways desk/> })}
    }
    .into_any()
}

/// Where the table is kept, and what becomes of one that is somebody else's.
#[component]
fn WhereKept() -> impl IntoView {
    let app = app();
    move || {
        let loaded = app.table()?;
        let says = match &loaded.origin {
            Origin::Beside => app.words().becomes_a_copy(None),
            Origin::Address(address) => app.words().becomes_a_copy(Some(address)),
            Origin::File(name) => app.words().kept_as_a_file(name),
        };
        Some(view! { <p class="quiet">{says}</p> })
    }
}

/// The figures: those that decide most, those that are stated besides, and a way to write any other.
#[component]
fn Fields(desk: Desk, led_to: Vec<Target>) -> impl IntoView {
    let words = move || desk.app.words();
    let role = desk.role;
    let came_for = names_of(&led_to);
    let first: Vec<Target> =
        asked_first(role).into_iter().filter(|target| !came_for.contains(&target.name())).collect();
    let above: Vec<String> = came_for.iter().cloned().chain(names_of(&first)).collect();
    let more = desk.more(above.clone());
    let opened = RwSignal::new(Vec::<String>::new());
    let add = move |event: leptos::ev::Event| {
        let name = event_target_value(&event);
        if !name.is_empty() {
            desk.opened.update(|all| all.push(name.clone()));
            opened.update(|all| all.push(name));
        }
        // What is chosen has left the list.
        event_target::<leptos::web_sys::HtmlSelectElement>(&event).set_value("");
    };
    // Every field that is not on the form yet, by what it is a part of.
    let others = Memo::new(move |_| {
        let stands = more.get();
        let free = |target: &Target| !above.contains(&target.name()) && !stands.contains(&target.name());
        let mut groups: Vec<(String, Vec<(String, String)>)> = Vec::new();
        for target in desk.draft.with(|draft| draft.entry().writable()).into_iter().filter(free) {
            let (group, option) =
                (words().field_group(role, &target), (target.name(), words().field_title(role, &target)));
            match groups.iter_mut().find(|(known, _)| *known == group) {
                Some((_, options)) => options.push(option),
                None => groups.push((group, vec![option])),
            }
        }
        groups
    });
    let option = |(name, says): (String, String)| view! { <option value=name>{says}</option> };
    let has_error = move |name: &str| {
        desk.problems.with(|all| {
            all.iter().any(|(at, problem)| at.as_deref() == Some(name) && problem.severity == table::Severity::Error)
        })
    };
    view! {
        {(!led_to.is_empty()).then(|| view! {
            <section class="asked-for" aria-labelledby="asked-for">
                <h2 id="asked-for">"What is to be found out"</h2>
                <div class="figures-of-plate">
                    {led_to.into_iter().map(|target| view! { <EntryField desk target/> }).collect_view()}
                </div>
            </section>
        })}
        <section aria-labelledby="deciding">
            <h2 id="deciding">"What decides most"</h2>
            <div class="figures-of-plate">
                {first.into_iter().map(|target| view! { <EntryField desk target/> }).collect_view()}
            </div>
        </section>
        <section class="written" aria-labelledby="besides">
            <h2 id="besides">"Everything else that is stated"</h2>
            {move || more.with(Vec::is_empty).then(|| view! { <p class="quiet">"Nothing yet."</p> })}
            <For each=move || more.get() key=String::clone let:name>
                {Target::named(role, &name).map(|target| {
                    let (shown, titled) = (target.clone(), target.clone());
                    let open = opened.with_untracked(|all| all.contains(&name)) || untrack(|| has_error(&name));
                    view! {
                        <details class="fold more" open=open>
                            <summary>
                                <span class="name">{move || words().field_title(role, &titled)}</span>
                                <span class="fig">{move || desk.shown(&shown)}
                                    {move || has_error(&name).then(|| view! { <span class="quiet">" · not used: open it"</span> })}</span>
                            </summary>
                            <EntryField desk target/>
                        </details>
                    }
                })}
            </For>
            <p class="field no-print">
                <label for="entry-other">"Write another figure"</label>
                <select id="entry-other" on:change=add>
                    <option value="">"Choose which"</option>
                    {move || others.get().into_iter().map(|(group, options)| view! {
                        <optgroup label=group>{options.into_iter().map(option).collect_view()}</optgroup>
                    }).collect_view()}
                </select>
            </p>
        </section>
    }
}

/// What is told of the entry and stands in none of its fields.
#[component]
fn Elsewhere(desk: Desk) -> impl IntoView {
    let told = move || {
        let words = desk.app.words();
        let nowhere = |(at, _): &&(Option<String>, table::Problem)| at.is_none();
        let line = |(_, problem): &(Option<String>, table::Problem)| {
            format!("{}: {}", problem.pointer.trim_start_matches('/'), words.form_problem(problem))
        };
        desk.problems.with(|all| all.iter().filter(nowhere).map(line).collect::<Vec<_>>())
    };
    move || {
        let told = told();
        (!told.is_empty()).then(|| {
            view! {
                <section aria-labelledby="elsewhere-told">
                    <h2 id="elsewhere-told">"In no field of this form"</h2>
                    <ul>{told.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
                </section>
            }
        })
    }
}

/// Saves what is typed, and says how it stands.
#[component]
fn Saving(desk: Desk) -> impl IntoView {
    let count = move || desk.draft.with(entry::Draft::count);
    let says = move || match (count(), desk.errors()) {
        (0, _) => desk.said.get(),
        (count, 0) => format!("{}.", desk.app.words().unsaved(count)),
        (count, errors) => format!("{}, {}.", desk.app.words().unsaved(count), desk.app.words().to_put_right(errors)),
    };
    view! {
        <div class="bar saving" class:idle=move || count() == 0 role="region" aria-label="Save">
            <span role="status">{says}</span>
            <span class="actions">
                <button type="submit" class="strong" disabled=move || !desk.may_be_saved.get()>"Save"</button>
            </span>
        </div>
    }
}

/// What one goes on to from an entry.
#[component]
fn Ways(desk: Desk) -> impl IntoView {
    let app = desk.app;
    let id = desk.id.get_value().unwrap_or_default();
    let (answers, words) = match desk.role {
        Role::Machines => (Route::machine(&id), "What fits it"),
        _ => (Route::attachment(&id), "What runs it"),
    };
    // One that is left out for an error has no screen.
    let is_used = Memo::new(move |_| {
        app.table().is_some_and(|loaded| match desk.role {
            Role::Machines => loaded.table.carrier(&id).is_some(),
            _ => loaded.table.head(&id).is_some(),
        })
    });
    view! {
        <p class="actions no-print">
            {move || is_used.get().then(|| view! { <a class="button" href=app.href(&answers)>{words}</a> })}
            <button type="button" on:click=move |_| keep::delete(desk)>"Delete it from the table"</button>
        </p>
    }
}

/// Leads from an entry's screen to its form; nothing in somebody else's page.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn EditIt(role: Role, id: String) -> impl IntoView {
    let app = app();
    app.host
        .is_page()
        .then(|| view! { <a class="button" href=app.href(&Route::entry(role, &id))>"Edit this entry"</a> })
}

/// What the table screen offers: new entries, and those that are left out for an error.
#[component]
pub fn Entries() -> impl IntoView {
    let app = app();
    let left_out =
        move || {
            let loaded = app.table()?;
            let all = entry::left_out(&loaded.text, &loaded.problems);
            (!all.is_empty()).then(|| view! {
            <p>"Left out for an error; open one to put it right:"</p>
            <ul class="list">{all.into_iter().map(|(role, id, name)| view! {
                <li><a class="row" href=app.href(&Route::entry(role, &id))><span class="name">{name}</span></a></li>
            }).collect_view()}</ul>
        })
        };
    view! {
        <section aria-labelledby="entries">
            <h2 id="entries">"Its machines and attachments"</h2>
            <p class="quiet">"Open one and press “Edit this entry”, or write a new one."</p>
            {left_out}
            <p class="actions">
                <a class="button" href=app.href(&Route::new_entry(Role::Machines))>"Add a machine"</a>
                <a class="button" href=app.href(&Route::new_entry(Role::Attachments))>"Add an attachment"</a>
            </p>
        </section>
    }
}
