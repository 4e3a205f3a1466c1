//! The last step: what comes out, and all that stands on the plate.

use super::super::field::{Field, problems};
use super::super::files;
use super::super::loaded::Loaded;
use super::super::names::label;
use super::super::route::Route;
use super::super::svg::Mark;
use super::desk::{Desk, tally};
use super::photo::{PlatePhoto, Shown};
use super::steps::{Again, Name};
use leptos::prelude::*;
use quantity::Named;
use record::plate::{Figure, Plate};
use solver::Row;
use std::sync::Arc;
use table::HeadKind;

/// Up to how many figures are listed at once.
const FEW: usize = 8;

/// What comes out, and all that stands on the plate.
#[component]
pub fn Answer(desk: Desk, loaded: Arc<Loaded>, delete: Callback<()>) -> impl IntoView {
    let words = move || desk.app.words();
    let fits = move || desk.app.href(&Route::machine(&desk.plate.with(Plate::carrier_id)));
    // What the sheets are solved from is what is kept, which may be older where there was no room.
    let kept = Memo::new(move |_| desk.kept().is_some_and(|known| desk.plate.with(|plate| known.says_the_same(plate))));
    let problems = problems(desk.plate);
    let refused = Memo::new(move |_| {
        let refuses = |figure: &Figure| problems.with(|problems| problems.refuses(*figure));
        words().figures_refused(&Figure::ALL.iter().copied().filter(refuses).collect::<Vec<_>>())
    });
    let download = move |_| {
        let plate = desk.plate.get_untracked();
        let text = serde_json::to_string_pretty(&plate.table()).unwrap_or_default();
        files::download(&format!("{}.json", plate.name), &text);
    };
    view! {
        <h1 tabindex="-1">"What fits your machine"</h1>
        {move || desk.plate.with(|plate| words().whose_figures(plate)).map(|whose| view! {
            <p class="missing">{whose}</p>
            <p class="actions"><button type="button" on:click=move |_| desk.plate.update(|plate| *plate = plate.checked())>
                "I have checked them at the machine"
            </button></p>
        })}
        {move || refused.get().map(|refused| view! { <p class="missing">{refused}</p> })}
        <p role="status" class="tally lead" aria-busy=move || desk.busy.get().to_string()>{move || tally(desk)}</p>
        <Again desk/>
        {move || desk.typical.get().map(|typical| view! {
            <details class="fold more no-print">
                <summary><span class="name">{words().typically(&typical.verdicts)}</span></summary>
                <p>{words().tally(&typical.verdicts)}</p>
                <p class="quiet">{words().typical_as(&typical.name)}" "<a href=desk.app.href(&Route::machine(&typical.carrier))>"See what fits that one"</a></p>
            </details>
        })}
        <p class="actions">
            {move || kept.get().then(|| view! { <a class="button strong" href=fits>"See what fits, with reasons"</a> })}
        </p>
        <Written desk/>
        <details class="fold of-sheet settling">
            <summary><span class="name">"Attachment by attachment"</span></summary>
            <ul class="list">
                <For each=move || desk.rows.get() key=|row| (row.head.clone(), row.says.clone(), row.price.clone(), row.below.clone()) let:row>
                    <Settling desk row/>
                </For>
            </ul>
        </details>
        <Chosen desk loaded/>
        <section aria-labelledby="keep">
            <h2 id="keep">"Keep it"</h2>
            <Name desk/>
            <p role="status" class="quiet">{move || if kept.get() {
                "Kept in this browser. Never sent."
            } else if desk.plate.with(|plate| plate.figures.is_empty()) {
                "It is kept in this browser as soon as you fill in a figure."
            } else {
                "Not kept as it stands here: download it, or make room and type on."
            }}</p>
            <p class="actions">
                <button type="button" on:click=download>"Download it as a table"</button>
                {move || desk.kept().is_some().then(|| view! { <button type="button" on:click=move |_| delete.run(())>"Delete it"</button> })}
            </p>
        </section>
    }
}

/// The figures that stand on the plate, a line each that opens its field, and a way to write any other.
#[component]
fn Written(desk: Desk) -> impl IntoView {
    let words = move || desk.app.words();
    let problems = problems(desk.plate);
    let typed = move |figure: Figure| desk.plate.with(|plate| !plate.typed(figure).is_empty());
    // What stands there keeps its place: a field under the finger must not move or go.
    let opened = RwSignal::new(Vec::<Figure>::new());
    let lines = Memo::new(move |before: Option<&Vec<Figure>>| {
        let mut lines = before.cloned().unwrap_or_default();
        let more = Figure::ALL.iter().copied().filter(|figure| typed(*figure)).chain(opened.get());
        for figure in more {
            if !lines.contains(&figure) {
                lines.push(figure);
            }
        }
        lines
    });
    let others = move || {
        let stands = lines.get();
        let free = |figure: &Figure| !stands.contains(figure) && desk.plate.with(|plate| plate.applies(*figure));
        Figure::ALL.iter().copied().filter(free).collect::<Vec<_>>()
    };
    let add = move |event| {
        if let Some(figure) = Figure::from_name(&event_target_value(&event)) {
            opened.update(|opened| opened.push(figure));
        }
    };
    // What cannot be read is not used, and must not look as if it were.
    let is_refused = move |figure: Figure| problems.with(|problems| problems.refuses(figure));
    let count = move || Figure::ALL.iter().filter(|figure| typed(**figure)).count();
    // A long list is folded, and says how much is in it.
    let short = untrack(|| count() <= FEW || Figure::ALL.iter().any(|figure| is_refused(*figure)));
    let opened_now = move |figure: Figure| {
        opened.with_untracked(|opened| opened.contains(&figure)) || untrack(|| is_refused(figure))
    };
    view! {
        <details class="fold of-sheet written" open=short>
            <summary><h2 class="name">"On its plate"</h2><span class="sum">{move || words().figures_written(count())}</span></summary>
            <PlatePhoto desk shown=Shown::Kept/>
            <For each=move || lines.get() key=|figure| figure.name() let:figure>
                <details class="fold more" open=opened_now(figure)>
                    <summary>
                        <span class="name">{move || words().figure_title(figure)}</span>
                        <span class="fig">{move || desk.plate.with(|plate| words().figure_typed(figure, plate.typed(figure)))}
                            {move || is_refused(figure).then(|| view! { <span class="quiet">" · not used: open it"</span> })}</span>
                    </summary>
                    <Field plate=desk.plate figure problems/>
                </details>
            </For>
            <p class="field no-print">
                <label for="plate-other">"Write another figure"</label>
                <select id="plate-other" on:change=add>
                    <option value="">"Choose which"</option>
                    {move || others().into_iter().map(|figure| view! { <option value=figure.name()>{words().figure_title(figure)}</option> }).collect_view()}
                </select>
            </p>
        </details>
    }
}

/// One attachment of the list, whose mark settles.
#[component]
fn Settling(desk: Desk, row: Row) -> impl IntoView {
    let Row { head, verdict, name, what, says, price, below, .. } = row;
    // Only a machine that is kept has sheets.
    let address = move || desk.kept().map(|kept| desk.app.href(&Route::sheet(&kept.carrier_id(), &head)));
    let more = [price, below].into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join(", ");
    view! {
        <li><a class="settle" href=address>
            <Mark verdict/>
            <span class="text">
                <span class="name">{name}</span>
                <span class="quiet">{what.join(" · ")}" · "<span class="verdict">{says}</span></span>
                <span class="quiet">{more}</span>
            </span>
        </a></li>
    }
}

/// For which attachments.
#[component]
fn Chosen(desk: Desk, loaded: Arc<Loaded>) -> impl IntoView {
    let kinds = loaded.table.head_kinds();
    let heads = StoredValue::new(
        loaded
            .table
            .heads
            .iter()
            .map(|head| (head.kind, head.id.to_string(), label(head.maker.as_ref(), &head.model)))
            .collect::<Vec<_>>(),
    );
    let of_kind = move |kind: HeadKind| -> Vec<String> {
        heads.with_value(|all| all.iter().filter(|(of, ..)| *of == kind).map(|(_, id, _)| id.clone()).collect())
    };
    let turn = move |ids: Vec<String>| {
        desk.chosen.update(|chosen| {
            let all = ids.iter().all(|id| chosen.contains(id));
            chosen.retain(|id| !ids.contains(id));
            if !all {
                chosen.extend(ids);
            }
        });
    };
    let has = move |ids: &[String]| desk.chosen.with(|chosen| ids.iter().all(|id| chosen.contains(id)));
    view! {
        <details class="chosen">
            <summary>{move || match desk.chosen.with(Vec::len) {
                0 => "For all attachments: choose some".to_owned(),
                1 => "For 1 attachment".to_owned(),
                count => format!("For {count} attachments"),
            }}</summary>
            <p class="actions">
                {kinds.into_iter().map(|kind| {
                    let pressed = move || has(&of_kind(kind)).to_string();
                    view! {
                        <button type="button" class="chip" aria-pressed=pressed on:click=move |_| turn(of_kind(kind))>
                            {desk.app.words().head_kind(kind)}
                        </button>
                    }
                }).collect_view()}
            </p>
            <details>
                <summary>"One by one"</summary>
                <ul class="ticks">
                    {heads.get_value().into_iter().map(|(_, id, name)| {
                        let (own, turned) = (vec![id.clone()], vec![id]);
                        view! {
                            <li><label><input type="checkbox" prop:checked=move || has(&own) on:change=move |_| turn(turned.clone())/>" "{name}</label></li>
                        }
                    }).collect_view()}
                </ul>
            </details>
        </details>
    }
}
