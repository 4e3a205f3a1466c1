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
    let begun = sheet.get_untracked();
    let (name, answered_as, roles, role) =
        begun.map(|sheet| (sheet.name, sheet.answered_as, sheet.roles, sheet.role)).unwrap_or_default();
    let says = move || sheet.with(|sheet| sheet.as_ref().map(|sheet| sheet.says.clone()));
    // What was open once stays where it is, or it would be gone as soon as it is put right.
    let open = Memo::new(move |before: Option<&Vec<usize>>| {
        let mut open = before.cloned().unwrap_or_default();
        sheet.with(|sheet| {
            for column in sheet.iter().flat_map(|sheet| &sheet.columns) {
                if !column.is_plain && !open.contains(&column.number) {
                    open.push(column.number);
                }
            }
        });
        open.sort_unstable();
        open
    });
    let plain = Memo::new(move |_| {
        let number_of =
            |column: &ColumnText| (!open.with(|open| open.contains(&column.number))).then_some(column.number);
        sheet.with(|sheet| sheet.iter().flat_map(|sheet| &sheet.columns).filter_map(number_of).collect::<Vec<_>>())
    });
    let headers = move || {
        let header =
            |column: &ColumnText| plain.with(|plain| plain.contains(&column.number)).then(|| column.header.clone());
        sheet.with(|sheet| {
            sheet.iter().flat_map(|sheet| &sheet.columns).filter_map(header).collect::<Vec<_>>().join(", ")
        })
    };
    let is_unfolded = RwSignal::new(false);
    let role_id = format!("sheet-{place}");
    let as_role = answered_as.clone();
    let choose = move |event: leptos::ev::Event| {
        let wanted = event_target_value(&event);
        let sheet = as_role.clone();
        let role = Role::ALL.into_iter().find(|role| role.sheet() == wanted);
        answer(app, move |all| {
            all.sheets.retain(|known| known.sheet != sheet);
            all.sheets.push(SheetAnswer { sheet, role });
        });
    };
    let (for_open, for_plain) = (answered_as.clone(), answered_as);
    view! {
        <div class="sheet-read">
            <h3>"“"{name.clone()}"”"</h3>
            <p class="quiet capital">{says}</p>
            <p class="field">
                <label for=role_id.clone()>"This sheet holds"</label>
                <select id=role_id on:change=choose>
                    {roles.into_iter().map(|choice| {
                        let is_chosen = choice.name == role;
                        view! { <option value=choice.name selected=is_chosen>{choice.says}</option> }
                    }).collect_view()}
                </select>
            </p>
            <ul class="columns">
                <For each=move || open.get() key=|number| *number let:number>
                    <OneColumn place number answered_as=for_open.clone()/>
                </For>
            </ul>
            {move || {
                let for_plain = for_plain.clone();
                let count = plain.with(Vec::len);
                (count > 0).then(|| view! {
                    <details class="fold more" on:toggle=move |event| if events::is_open(&event) { is_unfolded.set(true); }>
                        <summary>
                            <span class="name">{if count == 1 { "1 column as it says".to_owned() } else { format!("{count} columns as they say") }}</span>
                            <span class="sum">{headers}</span>
                        </summary>
                        <div class="within">
                            {move || {
                                let for_plain = for_plain.clone();
                                is_unfolded.get().then(|| view! {
                                    <ul class="columns">
                                        <For each=move || plain.get() key=|number| *number let:number>
                                            <OneColumn place number answered_as=for_plain.clone()/>
                                        </For>
                                    </ul>
                                })
                            }}
                        </div>
                    </details>
                })
            }}
        </div>
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
    let samples = if begun.samples.is_empty() { "empty".to_owned() } else { begun.samples.join(" · ") };
    view! {
        <li>
            <p class="title"><span class="letter">{begun.letters}</span>" "<strong>{begun.header}</strong>" "<span class="quiet">{samples}</span></p>
            <div class="choices">
                <p>
                    <label for=field_id.clone()>"Is taken for"</label>
                    <select id=field_id node_ref=field_list on:change=choose_field aria-label=format!("Column {}, is taken for", begun.number)>
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
                            <label for=unit_id.clone()>"In"</label>
                            <select id=unit_id node_ref=unit_list on:change=choose_unit>
                                <option value="">"as written"</option>
                                {units.get().into_iter().map(|choice| view! { <option value=choice.unit.name()>{choice.says}</option> }).collect_view()}
                            </select>
                        </p>
                    }
                })}
            </div>
            <p class="quiet">{what}</p>
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
