//! The sheets of a file with their columns: what each was taken for, three of its values, and a choice to put it right.

use super::part::part;
use super::reading::answer;
use crate::page::events;
use crate::page::state::{App, app};
use leptos::html::Select;
use leptos::prelude::*;
use quantity::{Named, Unit};
use spreadsheet::{Role, SheetAnswer};
use wording::{ColumnText, FieldText, SheetText};

/// All sheets.
#[component]
pub fn Sheets() -> impl IntoView {
    let app = app();
    // A sheet is drawn anew when it holds another list; else only what changes of it.
    let sheets = part(app, |reading| {
        reading.sheets.iter().map(|sheet| (sheet.name.clone(), sheet.role.clone())).collect::<Vec<_>>()
    });
    view! {
        <section aria-labelledby="sheets" class:empty=move || sheets.with(Vec::is_empty)>
            <h2 id="sheets">"Sheets and columns"</h2>
            <For each=move || sheets.get().into_iter().enumerate() key=Clone::clone let:entry>
                <OneSheet place=entry.0/>
            </For>
        </section>
    }
}

fn sheet_at(app: App, place: usize) -> Memo<Option<SheetText>> {
    part(app, move |reading| reading.sheets.get(place).cloned())
}

#[component]
fn OneSheet(place: usize) -> impl IntoView {
    let app = app();
    let sheet = sheet_at(app, place);
    let Some(begun) = sheet.get_untracked() else { return ().into_any() };
    let says = move || sheet.with(|sheet| sheet.as_ref().map(|sheet| sheet.says.clone()));
    // Where a column stands is settled here: it would be gone as soon as it is put right.
    let (plain, open): (Vec<_>, Vec<_>) = begun.columns.iter().partition(|column| column.is_plain);
    let numbers = |columns: &[&ColumnText]| columns.iter().map(|column| column.number).collect::<Vec<_>>();
    let (plain_numbers, open_numbers) = (numbers(&plain), numbers(&open));
    let headers = plain.iter().map(|column| breakable(&column.header)).collect::<Vec<_>>().join(", ");
    let count = plain.len();
    let name = if count == 1 {
        "1 column as its header says".to_owned()
    } else {
        format!("{count} columns as their headers say")
    };
    let answered_as = begun.answered_as.clone();
    let role = move || view! { <HoldsWhat place sheet=begun.clone()/> };
    // What is taken for something by itself is put right seldom.
    let is_within = count > 0;
    let is_unfolded = RwSignal::new(false);
    let columns = move |numbers: &[usize]| {
        let row = |number: &usize| view! { <OneColumn place number=*number answered_as=answered_as.clone()/> };
        view! { <ul class="read-columns">{numbers.iter().map(row).collect_view()}</ul> }
    };
    let title = sheet.with_untracked(|sheet| sheet.as_ref().map(|sheet| sheet.name.clone()));
    view! {
        <div class="sheet-read">
            <h3>"“"{title}"”"</h3>
            <p class="quiet capital">{says}</p>
            {(!is_within).then(role.clone())}
            {(!open_numbers.is_empty()).then(|| columns(&open_numbers))}
            {is_within.then(move || view! {
                <details class="fold more" on:toggle=move |event| if events::is_open(&event) { is_unfolded.set(true); }>
                    <summary><span class="name">{name}</span><span class="sum">{headers}</span></summary>
                    <div class="within">
                        {move || is_unfolded.get().then(|| view! { {role()}{columns(&plain_numbers)} })}
                    </div>
                </details>
            })}
        </div>
    }
    .into_any()
}

/// A header that may be broken between its words, where it is one of the format's own names.
fn breakable(header: &str) -> String {
    header.replace('_', "_\u{200b}").replace('.', ".\u{200b}")
}

/// Which list a sheet holds.
#[component]
fn HoldsWhat(place: usize, sheet: SheetText) -> impl IntoView {
    let app = app();
    let id = format!("sheet-{place}");
    let SheetText { answered_as, roles, role, .. } = sheet;
    let choose = move |event: leptos::ev::Event| {
        let wanted = event_target_value(&event);
        let sheet = answered_as.clone();
        let role = Role::ALL.into_iter().find(|role| role.sheet() == wanted);
        answer(app, move |all| {
            all.sheets.retain(|known| known.sheet != sheet);
            all.sheets.push(SheetAnswer { sheet, role });
        });
    };
    view! {
        <p class="field">
            <label for=id.clone()>"This sheet holds"</label>
            <select id=id on:change=choose>
                {roles.into_iter().map(|choice| {
                    let is_chosen = choice.name == role;
                    view! { <option value=choice.name selected=is_chosen>{choice.says}</option> }
                }).collect_view()}
            </select>
        </p>
    }
}

#[component]
fn OneColumn(
    /// The sheet's place among the sheets.
    place: usize,
    /// The column's number.
    number: usize,
    /// The sheet's name in answers.
    answered_as: String,
) -> impl IntoView {
    let app = app();
    let column = part(app, move |reading| {
        let sheet = reading.sheets.get(place)?;
        sheet.columns.iter().find(|column| column.number == number).cloned()
    });
    let of = move |what: fn(&ColumnText) -> String| {
        Memo::new(move |_| column.with(|column| column.as_ref().map(what).unwrap_or_default()))
    };
    let Some(begun) = column.get_untracked() else { return ().into_any() };
    let (says, what) = (of(|column| column.says.clone()), of(|column| column.what.clone()));
    let (field, unit) =
        (of(|column| column.field.clone()), of(|column| column.unit.map(Unit::name).unwrap_or_default().to_owned()));
    let units = Memo::new(move |_| {
        column.with(|column| column.as_ref().map(|column| column.units.clone()).unwrap_or_default())
    });
    let fields: Vec<FieldText> = app
        .file
        .with_untracked(|file| {
            let read = file.ready()?;
            let role = &read.reading.sheets.get(place)?.role;
            read.reading.fields.get(role).cloned()
        })
        .unwrap_or_default();
    let (field_id, unit_id) = (format!("column-{place}-{number}"), format!("unit-{place}-{number}"));
    let of_field = answered_as.clone();
    let choose_field = move |event: leptos::ev::Event| {
        let (wanted, sheet) = (event_target_value(&event), of_field.clone());
        answer(app, move |all| all.about(&sheet, number).field = Some(wanted));
    };
    let of_unit = answered_as;
    let choose_unit = move |event: leptos::ev::Event| {
        let (wanted, sheet) = (Unit::from_name(&event_target_value(&event)), of_unit.clone());
        answer(app, move |all| {
            let known = all.about(&sheet, number);
            // What stands with the figures is another matter: it is asked about where it may be wrong.
            (known.unit, known.meant) = (wanted, None);
        });
    };
    let (field_list, unit_list) = (NodeRef::<Select>::new(), NodeRef::<Select>::new());
    // A list shows what is chosen only once its choices are there.
    Effect::new(move |_| {
        let wanted = field.get();
        if let Some(list) = field_list.get() {
            list.set_value(&wanted);
        }
    });
    Effect::new(move |_| {
        let (wanted, _) = (unit.get(), units.get());
        if let Some(list) = unit_list.get() {
            list.set_value(&wanted);
        }
    });
    // What is deeper than what the list names is still what it is.
    let other = move || {
        let field = field.get();
        let is_known = field.is_empty() || fields_have(app, place, &field);
        (!is_known).then(|| view! { <option value=field.clone()>{says}</option> })
    };
    let letters = begun.letters;
    let unit_label = format!("Column {letters}, unit");
    let samples = if begun.samples.is_empty() { "empty".to_owned() } else { begun.samples.join(" · ") };
    view! {
        <li>
            <p class="title"><span class="letter">{letters.clone()}</span>" "<strong>{breakable(&begun.header)}</strong>" "</p>
            <p class="samples quiet">{samples}</p>
            <div class="choices">
                <p>
                    <label for=field_id.clone()>"Is taken for"</label>
                    <select id=field_id node_ref=field_list on:change=choose_field aria-label=format!("Column {letters}, is taken for")>
                        <option value="">"not used"</option>
                        {other}
                        {fields.into_iter().map(|choice| view! { <option value=choice.name>{choice.says}</option> }).collect_view()}
                    </select>
                </p>
                {move || (units.with(Vec::len) > 1).then(|| {
                    let unit_id = unit_id.clone();
                    let choose_unit = choose_unit.clone();
                    view! {
                        <p>
                            <label for=unit_id.clone()>"Unit"</label>
                            <select id=unit_id aria-label=unit_label.clone() node_ref=unit_list on:change=choose_unit>
                                <option value="">"none"</option>
                                {units.get().into_iter().map(|choice| view! { <option value=choice.unit.name()>{choice.says}</option> }).collect_view()}
                            </select>
                        </p>
                    }
                })}
            </div>
            <p class="what quiet">{what}</p>
        </li>
    }
    .into_any()
}

/// Whether the list of fields of a sheet names one.
fn fields_have(app: App, place: usize, field: &str) -> bool {
    app.file.with_untracked(|file| {
        file.ready().is_some_and(|read| {
            let fields = read.reading.sheets.get(place).and_then(|sheet| read.reading.fields.get(&sheet.role));
            fields.is_some_and(|fields| fields.iter().any(|known| known.name == field))
        })
    })
}
