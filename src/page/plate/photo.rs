//! A photo of the plate, beside the fields into which it is read.

use super::super::files;
use super::super::route::Route;
use super::super::{photos, storage, time};
use super::desk::Desk;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use record::{Photo, Plate};

/// What is shown of the photo.
#[derive(Clone, Copy, PartialEq)]
pub enum Shown {
    /// The photo and what may be done with it.
    Kept,
    /// The photo where there is one.
    Alone,
}

/// The photo that is kept comes onto the desk.
pub fn look_up(desk: Desk) {
    let machine = desk.plate.with_untracked(|plate| plate.id.clone());
    spawn_local(async move {
        let found = photos::of(&machine).await;
        desk.photo.try_set(found);
    });
}

/// Keeps the machine too: whoever takes a photo of its plate wants it kept.
fn keep_machine(desk: Desk) -> bool {
    if untrack(|| desk.kept()).is_some() {
        return true;
    }
    let plate = desk.plate.get_untracked();
    let kept = Plate { heads: desk.chosen.get_untracked(), changed: time::now(), ..plate.clone() };
    let is_kept = storage::save_merged(desk.app, &plate, &kept).is_some();
    if is_kept {
        desk.app.host.replace(&Route::plate(&kept.id));
    }
    is_kept
}

/// Scales a chosen picture down and keeps it; else what there is to tell.
async fn take(desk: Desk, file: web_sys::File) -> Result<(), &'static str> {
    let picture = files::scaled_picture_of(&file).await;
    let picture = picture.ok_or("The browser cannot read this picture: choose a JPEG or a PNG.")?;
    if !keep_machine(desk) {
        return Err("Not kept: there is no room for the machine.");
    }
    let machine = desk.plate.with_untracked(|plate| plate.id.clone());
    let photo = Photo { machine, taken: time::now(), picture };
    if !photos::keep(&photo.key(), &photo.encode()).await {
        return Err("Not kept: the browser has no room for pictures of this page, or keeps none.");
    }
    desk.photo.try_set(Some(photo));
    Ok(())
}

/// A photo of the plate: to be taken or chosen, looked at, made larger, taken away.
#[component]
pub fn PlatePhoto(desk: Desk, shown: Shown) -> impl IntoView {
    let large = RwSignal::new(false);
    let told = RwSignal::new("");
    let choose = move |event: leptos::ev::Event| {
        let input = event.target().and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok());
        let Some(input) = input else { return };
        if let Some(file) = input.files().and_then(|files| files.get(0)) {
            told.set("Keeping the photo …");
            spawn_local(async move {
                let came = take(desk, file).await;
                told.try_set(came.err().unwrap_or_default());
            });
        }
        // The same file can be chosen again.
        input.set_value("");
    };
    let remove = move |_| {
        let machine = desk.plate.with_untracked(|plate| plate.id.clone());
        spawn_local(async move {
            if photos::remove(&machine).await {
                desk.photo.try_set(None);
            } else {
                told.try_set("The browser does not delete it: try once more.");
            }
        });
    };
    let there = Memo::new(move |_| desk.photo.with(Option::is_some));
    let picture = move || desk.photo.with(|photo| photo.as_ref().map(|photo| photo.picture.clone()));
    view! {
        {move || there.get().then(|| view! {
            <figure class="photo" class:large=large>
                <div class="frame" tabindex=move || large.get().then_some("0")><img src=picture alt="The photo of the plate"/></div>
                <p class="actions no-print">
                    <button type="button" aria-pressed=move || large.get().to_string() on:click=move |_| large.update(|large| *large = !*large)>"Larger"</button>
                    {(shown == Shown::Kept).then(|| view! { <button type="button" on:click=remove>"Delete the photo"</button> })}
                </p>
            </figure>
        })}
        {(shown == Shown::Kept).then(|| view! {
            <p class="photo-choice no-print">
                <label class="button"><input type="file" class="unseen" accept="image/*" on:change=choose/>
                    {move || if there.get() { "Another photo" } else { "Photo of the plate" }}</label>
                <span role="status" class="quiet">{move || if told.get().is_empty() { "Stays on this device." } else { told.get() }}</span>
            </p>
        })}
    }
}
