//! The field on which a customer signs with a finger: strokes as they are drawn, kept with the record when the finger is lifted.

use crate::page::state::app;
use crate::page::{storage, time};
use leptos::ev::PointerEvent;
use leptos::html::Div;
use leptos::prelude::*;
use record::HandOver;
use record::handover::{HIGH, WIDE, path};

/// The field, with what is drawn on it.
#[component]
pub fn Sign(
    /// The record as it is kept.
    #[prop(into)]
    record: Signal<Option<HandOver>>,
    /// Whether it may be signed as it stands.
    may_be_signed: Signal<bool>,
) -> impl IntoView {
    let app = app();
    let field = NodeRef::<Div>::new();
    let strokes = RwSignal::new(Vec::<Vec<(u16, u16)>>::new());
    let as_it_stands = move || record.with(|record| record.as_ref().and_then(HandOver::is_signed_as_it_stands));
    // A field is as wide as its place: what is drawn is brought to the units that are kept.
    let point = move |event: &PointerEvent| {
        let place = field.get_untracked()?.get_bounding_client_rect();
        let at = |at: f64, of: f64, units: u16| {
            // Within the field by the clamp.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let whole = (at / of.max(1.0) * f64::from(units)).round().clamp(0.0, f64::from(units)) as u16;
            whole
        };
        let (x, y) = (f64::from(event.client_x()) - place.x(), f64::from(event.client_y()) - place.y());
        Some((at(x, place.width(), WIDE), at(y, place.height(), HIGH)))
    };
    let keep = move |drawn: &[Vec<(u16, u16)>]| {
        let Some(before) = record.get_untracked() else { return };
        let mut signed = HandOver { changed: time::now(), ..before.clone() };
        signed.sign(drawn);
        storage::save_merged(app, &before, &signed);
    };
    let down = move |event: PointerEvent| {
        if let (true, Some(field), Some(point)) = (may_be_signed.get_untracked(), field.get_untracked(), point(&event))
        {
            // Without it a stroke that leaves the field ends there.
            let _ = field.set_pointer_capture(event.pointer_id());
            strokes.update(|strokes| strokes.push(vec![point]));
        }
    };
    let moved = move |event: PointerEvent| {
        if let (true, Some(point)) = (event.buttons() > 0, point(&event)) {
            strokes.update(|strokes| {
                if let Some(stroke) = strokes.last_mut() {
                    stroke.push(point);
                }
            });
        }
    };
    let up = move |_| {
        strokes.with_untracked(|strokes| {
            if !strokes.is_empty() {
                keep(strokes);
            }
        });
    };
    let again = move |_| {
        strokes.set(Vec::new());
        keep(&[]);
    };
    let drawn = move || {
        let kept = record.with(|record| record.as_ref()?.signature.as_ref().map(|kept| kept.path().to_owned()));
        let now = strokes.with(|strokes| path(strokes, 1));
        if now.is_empty() { kept.filter(|_| as_it_stands() == Some(true)).unwrap_or_default() } else { now }
    };
    view! {
        <section class="sign-here">
            <h2>{move || app.words().signature()}</h2>
            <p role="status" class="no-print">{move || app.words().about_signature(may_be_signed.get(), as_it_stands())}</p>
            <div class="signature" class:closed=move || !may_be_signed.get() node_ref=field on:pointerdown=down on:pointermove=moved on:pointerup=up>
                <svg viewBox=format!("0 0 {WIDE} {HIGH}") role="img" aria-label="Signature"><path d=drawn/></svg>
            </div>
            <p class="actions no-print">
                <button type="button" disabled=move || drawn().is_empty() on:click=again>"Clear"</button>
            </p>
        </section>
    }
}
