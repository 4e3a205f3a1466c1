//! Which screen an address shows.

use super::route::Route;
use super::state::app;
use super::{
    attachment, compare, edit, handover, opened, paper, plate, results, saved, sheet, snippet, spreadsheet, start,
    table_screen, work,
};
use leptos::prelude::*;
use quantity::Named;
use table::CarrierClass;

/// The screen of the route.
#[component]
pub fn Screen() -> impl IntoView {
    let app = app();
    let only = app.host.only_head();
    move || match app.route.get() {
        Route::Start => view! { <start::Start/> }.into_any(),
        Route::Attachments => view! { <attachment::Attachments/> }.into_any(),
        Route::Attachment { head } => view! { <attachment::RunsOn head/> }.into_any(),
        Route::Work { asked } => view! { <work::Work asked/> }.into_any(),
        Route::Machine { carrier, asked } => match only.get() {
            Some(head) => view! { <sheet::Sheet carrier head/> }.into_any(),
            None => view! { <results::Results carrier asked/> }.into_any(),
        },
        Route::Sheet { carrier, head } => view! { <sheet::Sheet carrier head/> }.into_any(),
        Route::Paper { carrier, head, whose } => view! { <paper::Paper carrier head whose/> }.into_any(),
        Route::HandOver { carrier, head, id } => view! { <handover::HandOverOf carrier head id/> }.into_any(),
        Route::HandOverPaper { carrier, head, id, whose } => {
            view! { <handover::Paper carrier head id whose/> }.into_any()
        }
        Route::Compare { pairs } => view! { <compare::Compare pairs/> }.into_any(),
        Route::Quotation { pairs } => view! { <paper::Quotation pairs/> }.into_any(),
        Route::Own => view! { <plate::ChooseClass/> }.into_any(),
        Route::NewPlate { class } => view! { <plate::FreshPlate class=CarrierClass::from_name(&class)/> }.into_any(),
        Route::PlateLike { carrier } => view! { <plate::PlateLike carrier/> }.into_any(),
        Route::Plate { id } => view! { <plate::KeptPlate id/> }.into_any(),
        Route::Saved => view! { <saved::SavedList/> }.into_any(),
        Route::Table => view! { <table_screen::TableScreen/> }.into_any(),
        Route::Import => view! { <spreadsheet::ImportScreen/> }.into_any(),
        Route::Entry { role, id, fields } => view! { <edit::EntryForm role id fields/> }.into_any(),
        Route::Snippet => view! { <snippet::Snippet/> }.into_any(),
        Route::Link { path } => view! { <opened::Opened path/> }.into_any(),
        Route::Stamped { to, stamp, .. } => view! { <opened::Stamped to=*to stamp/> }.into_any(),
        Route::Unknown => view! { <Lost/> }.into_any(),
    }
}

#[component]
fn Lost() -> impl IntoView {
    let app = app();
    view! {
        <h1 tabindex="-1">"Nothing here"</h1>
        <p>"This address leads to no screen of the app."</p>
        <p><a class="button" href=app.href(&Route::Start)>"Choose a machine"</a></p>
    }
}
