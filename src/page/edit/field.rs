//! A field of the form of an entry: what it is, where its figure is found, what is typed, what is wrong with it.

use super::super::field::Wrong;
use super::desk::Desk;
use entry::{Form, NONE, Target};
use leptos::prelude::*;
use table::Severity;

/// The lists of the same machine to whose items a field may refer.
fn list_of(target: &Target) -> &'static str {
    if target.field.name.ends_with("power_group") { "power_groups" } else { "pumps" }
}

/// One field.
#[component]
pub fn EntryField(desk: Desk, target: Target) -> impl IntoView {
    let (app, role) = (desk.app, desk.role);
    let words = move || app.words();
    let name = target.name();
    let id = format!("entry-{}", name.replace('.', "-"));
    let (note_id, wrong_id) = (format!("{id}-where"), format!("{id}-wrong"));
    let described = format!("{note_id} {wrong_id}");
    let target = StoredValue::new(target);
    let typed = Signal::derive(move || target.with_value(|target| desk.draft.with(|draft| draft.typed(target))));
    let write = Callback::new(move |text: String| {
        desk.said.set(String::new());
        target.with_value(|target| desk.draft.update(|draft| draft.write(target, &text)));
    });
    let problem = Memo::new(move |_| {
        desk.problems.with(|all| {
            all.iter().find(|(at, _)| at.as_deref() == Some(name.as_str())).map(|(_, problem)| problem.clone())
        })
    });
    let wrong = move || problem.with(|problem| problem.as_ref().is_some_and(|p| p.severity == Severity::Error));
    let title = move || target.with_value(|target| words().field_title(role, target));
    let (form, is_list) = target.with_value(|target| (target.field.form, target.is_whole_list()));
    let says = move |name: &str| target.with_value(|target| words().field_choice(target, name));
    let among = move || -> Vec<String> {
        match form {
            Form::Name(names) => names.iter().map(|name| (*name).to_owned()).collect(),
            Form::Reference => desk.draft.with(|draft| draft.entry().ids_in(target.with_value(list_of))),
            Form::YesNo => vec!["yes".to_owned(), "no".to_owned()],
            _ => vec![NONE.to_owned()],
        }
    };
    let shown = move |name: &str| if matches!(form, Form::Name(_)) { says(name) } else { name.to_owned() };
    let is_many = is_list && matches!(form, Form::Name(_) | Form::Reference);
    let can_be_none = target.with_value(|target| target.field.is_optional);
    let input = match form {
        _ if is_many => view! {
            <div class="actions several" role="group" id=id.clone() aria-labelledby=format!("{id}-title") aria-describedby=described>
                {move || {
                    let none = can_be_none.then(|| NONE.to_owned());
                    among().into_iter().chain(none).map(|one| view! { <OneOfMany typed write one=one.clone() says=shown(&one)/> }).collect_view()
                }}
            </div>
        }
        .into_any(),
        Form::YesNo | Form::Name(_) | Form::Reference | Form::Object(_) => view! {
            <select id=id.clone() aria-describedby=described prop:value=typed aria-invalid=move || wrong().to_string()
                on:change=move |event| write.run(event_target_value(&event))>
                <option value="">"not known"</option>
                {move || {
                    let now = typed.get_untracked();
                    // What no list has stands there until something else is chosen.
                    let mut all = among();
                    if !now.is_empty() && !all.contains(&now) {
                        all.push(now.clone());
                    }
                    all.into_iter().map(|one| {
                        let (chosen, says) = (one == now, shown(&one));
                        view! { <option value=one selected=chosen>{says}</option> }
                    }).collect_view()
                }}
            </select>
        }
        .into_any(),
        _ => view! {
            <input id=id.clone() type="text" autocomplete="off" autocapitalize="off" spellcheck="false"
                inputmode=matches!(form, Form::Count).then_some("numeric") aria-describedby=described
                placeholder=move || target.with_value(|target| Some(words().field_example(target)).filter(|text| !text.is_empty()).map(|text| format!("e.g. {text}")))
                aria-invalid=move || wrong().to_string() prop:value=typed
                on:input=move |event| write.run(event_target_value(&event))/>
        }
        .into_any(),
    };
    let place = move || target.with_value(|target| words().field_place(role, target));
    view! {
        <div class="figure" class:wrong=wrong>
            {if is_many {
                view! { <span class="label" id=format!("{id}-title")>{title}</span> }.into_any()
            } else {
                view! { <label for=id>{title}</label> }.into_any()
            }}
            {input}
            <p class="where" id=note_id hidden=move || place().is_empty()>{place}</p>
            <Wrong id=wrong_id problem typed write
                units=Callback::new(move |()| target.with_value(|target| words().field_units(target)))
                meant=Callback::new(move |()| target.with_value(|target| desk.draft.with(|draft| draft.likely_meant(target))))/>
        </div>
    }
}

/// One of several that may hold at once; that none does goes by itself.
#[component]
fn OneOfMany(typed: Signal<String>, write: Callback<String>, one: String, says: String) -> impl IntoView {
    let of = |text: &str| -> Vec<String> {
        text.split(',').map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect()
    };
    let one = StoredValue::new(one);
    let has = Memo::new(move |_| one.with_value(|one| of(&typed.get()).contains(one)));
    let turn = move |_| {
        let mut all = of(&typed.get_untracked());
        one.with_value(|one| {
            if has.get_untracked() {
                all.retain(|known| known != one);
            } else {
                all.retain(|known| (known == NONE) == (one == NONE));
                all.push(one.clone());
            }
        });
        write.run(all.join(", "));
    };
    view! { <button type="button" class="chip" aria-pressed=move || has.get().to_string() on:click=turn>{says}</button> }
}
