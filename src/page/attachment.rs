//! The other way round: an attachment first, then the machines that run it, the smallest first.

use super::asked::Asked;
use super::asking::reader;
use super::edit::EditIt;
use super::filters::VerdictChips;
use super::listed::{Listed, PutInOrder, Shown};
use super::loaded::Loaded;
use super::missing::{NoTable, NotInTable};
use super::names::label;
use super::route::Route;
use super::row::Rows;
use super::state::app;
use entry::Role;
use fit::holds_words;
use leptos::prelude::*;
use solver::Request;
use std::sync::Arc;
use table::{Head, HeadKind};

/// Choose an attachment.
#[component]
pub fn Attachments() -> impl IntoView {
    let app = app();
    app.host.title("Choose an attachment");
    view! {
        <h1 tabindex="-1">"Which attachment?"</h1>
        {move || match app.table() {
            Some(loaded) => view! { <All loaded/> }.into_any(),
            None => view! { <NoTable/> }.into_any(),
        }}
    }
}

/// The search and the attachments by kind.
#[component]
fn All(loaded: Arc<Loaded>) -> impl IntoView {
    let app = app();
    let search = RwSignal::new(String::new());
    let heads = StoredValue::new(loaded.clone());
    let found = Memo::new(move |_| {
        let (asked, words) = (search.get(), app.words());
        let matches = |head: &&Head| {
            let materials: Vec<_> = head.work.materials.iter().map(|material| material.name.as_str()).collect();
            let text = format!(
                "{} {} {}",
                label(head.maker.as_ref(), &head.model),
                words.head_kind(head.kind),
                materials.join(" ")
            );
            holds_words(&text, &asked)
        };
        heads.with_value(|loaded| loaded.table.heads.iter().filter(matches).cloned().collect::<Vec<_>>())
    });
    let kinds = loaded.table.head_kinds();
    let of_kind = move |kind: HeadKind| {
        let heads: Vec<_> = found.get().into_iter().filter(|head| head.kind == kind).collect();
        (!heads.is_empty()).then(|| {
            view! {
                <section class="class">
                    <h2>{app.words().head_kind(kind)}</h2>
                    <ul class="list">{heads.into_iter().map(|head| view! { <Attachment head/> }).collect_view()}</ul>
                </section>
            }
        })
    };
    view! {
        <div class="search">
            <label for="search">"Search maker, model, kind or material"</label>
            <input id="search" type="search" autocomplete="off" prop:value=search
                on:input=move |event| search.set(event_target_value(&event))/>
        </div>
        <p role="status" class="tally">{move || app.words().attachments(found.with(Vec::len))}</p>
        {move || found.with(Vec::is_empty).then(|| view! {
            <p>"No attachment of the table in use is called that. "
                <button type="button" on:click=move |_| search.set(String::new())>"Show all"</button></p>
        })}
        <div class="columns">{move || kinds.iter().map(|&kind| of_kind(kind)).collect_view()}</div>
    }
}

/// One attachment with what its brochure says.
#[component]
fn Attachment(head: Head) -> impl IntoView {
    let app = app();
    let id = head.id.to_string();
    let says = {
        let head = head.clone();
        move || app.words().brochure_of(&head)
    };
    view! {
        <li>
            <a class="row" href=app.href(&Route::attachment(&id))>
                <span class="name">{label(head.maker.as_ref(), &head.model)}</span>
                {head.stock.clone().map(|note| view! { <span class="stock">{note}</span> })}
                <span class="quiet says">{says}</span>
            </a>
        </li>
    }
}

/// Which machines run an attachment.
#[component]
pub fn RunsOn(head: String) -> impl IntoView {
    let app = app();
    move || {
        let Some(loaded) = app.table() else {
            return view! { <h1 tabindex="-1">"What runs it"</h1><NoTable/> }.into_any();
        };
        if let Some(attachment) = loaded.table.head(&head).cloned() {
            view! { <Machines loaded attachment/> }.into_any()
        } else {
            let choose = Some((Route::Attachments, "Choose an attachment"));
            view! { <NotInTable what="attachment" id=head.clone() choose/> }.into_any()
        }
    }
}

#[component]
fn Machines(loaded: Arc<Loaded>, attachment: Head) -> impl IntoView {
    let app = app();
    let name = label(attachment.maker.as_ref(), &attachment.model);
    app.host.title(&name);
    let asked = RwSignal::new(Asked::default());
    let head = attachment.id.to_string();
    let listed = Listed::of(move || {
        let own = app.own.get();
        Some(Request::Machines { reader: reader(app, &loaded), head: head.clone(), own })
    });
    let shown = Memo::new(move |_| {
        let verdict = asked.with(|asked| asked.verdict);
        listed.shown(|row| verdict.is_none_or(|verdict| row.verdict == verdict))
    });
    let verdicts = Signal::derive(move || listed.verdicts());
    let solving = Signal::derive(move || listed.is_solving());
    let is_empty = move || !solving.get() && listed.now.with(|now| now.total == 0);
    let (kind, of) = (attachment.kind, attachment.id.to_string());
    let answer = move || {
        if solving.get() { listed.so_far() } else { listed.now.with(|now| now.says.clone()) }
    };
    let stock = attachment.stock.clone();
    let says = move || app.words().brochure_of(&attachment);
    view! {
        <p class="path"><a href=app.href(&Route::Attachments)>"Attachments"</a></p>
        <h1 tabindex="-1">{name}</h1>
        <p class="quiet">{move || app.words().head_kind(kind)}" · "{says}{stock.map(|note| format!(" · {note}"))}</p>
        {app.host.is_page().then(|| view! { <p class="actions"><EditIt role=Role::Attachments id=of/></p> })}
        <p role="status" class="answer">{answer}</p>
        <div class="sieved">
        <div class="sieve"><VerdictChips asked verdicts solving/></div>
        <div class="mainly">
        <PutInOrder listed/>
        <Rows listed shown/>
        {move || is_empty().then(|| view! {
            <p>"The table has no machines. "<a href=app.href(&Route::Table)>"Load another table"</a></p>
        })}
        {move || (!solving.get() && !is_empty() && shown.with(Shown::count) == 0).then(|| view! {
            <p>"No machine comes out so. "<button type="button" on:click=move |_| asked.set(Asked::default())>"Show all"</button></p>
        })}
        </div>
        </div>
    }
}
