//! What is shown when a link is opened: what somebody sent, or a screen of another table.

use super::loaded::{Loaded, Origin};
use super::missing::NoTable;
use super::names::label;
use super::notice::Notice;
use super::route::Route;
use super::send::made;
use super::state::{App, app};
use super::{compare, load, sheet, storage, time};
use leptos::prelude::*;
use record::link::{Link, LinkFault, LinkHead, LinkMachine, LinkRecord, LinkTable, TableNow};
use record::plate::OWN;
use record::stamp::Stamp;
use record::{Difference, HandOver, Made, Plate};

/// A screen whose address says of which table it is: shown where that is the one in use, or the entries are the same; else why not,
/// and what to do.
#[component]
pub fn Stamped(to: Route, stamp: Result<Stamp, LinkFault>) -> impl IntoView {
    let app = app();
    let stamp = match stamp {
        Ok(stamp) => stamp,
        Err(fault) => return cannot_be_opened(app, &fault).into_any(),
    };
    app.host.title("From another table");
    let to = StoredValue::new(to);
    let table = StoredValue::new(stamp.table.clone());
    let now = Memo::new(move |_| {
        let loaded = app.table()?;
        let entries =
            to.with_value(|to| to.ids().and_then(|(carriers, heads)| loaded.entries().of_ids(&carriers, &heads)));
        Some(stamp.now(&loaded.table, &loaded.mark, entries.as_deref()))
    });
    Effect::new(move |_| {
        if now.get() == Some(TableNow::Same) {
            app.route.set(to.get_value());
        }
    });
    let screen = move || match (now.get(), app.table()) {
        (Some(TableNow::Same), _) => ().into_any(),
        (Some(now), Some(loaded)) => {
            let words = table.with_value(|table| app.words().stamped(table, now, &loaded.table));
            view! {
                <h1 tabindex="-1">"Made with another table"</h1>
                <div class="missing sent">
                    <p>{words}</p>
                    <p class="actions">
                        {load_its_table(app, &loaded, &table.get_value(), true)}
                        <button type="button" on:click=move |_| app.route.set(to.get_value())>{ANYWAY}</button>
                    </p>
                </div>
            }
            .into_any()
        }
        _ => view! { <h1 tabindex="-1">"From another table"</h1><NoTable/> }.into_any(),
    };
    screen.into_any()
}

/// What is pressed by whoever wants to see a screen of another table all the same.
const ANYWAY: &str = "Show it with the table in use";

/// The way to the table of a link. Nothing is fetched before it is pressed.
fn load_its_table(app: App, loaded: &Loaded, table: &LinkTable, beside: bool) -> Option<AnyView> {
    match table.address.clone() {
        Some(address) if loaded.origin.address() != Some(&address) => {
            let shown = app.words().address(&address);
            let load = move |_| load::from_address(app, address.clone(), || {});
            Some(view! { <button type="button" on:click=load>"Load its table, in place of the one in use: "{shown}</button> }.into_any())
        }
        None if beside && loaded.origin != Origin::Beside => {
            Some(view! { <button type="button" on:click=move |_| load::back_to_own(app)>"Use the table beside this app"</button> }.into_any())
        }
        _ => None,
    }
}

fn cannot_be_opened(app: App, fault: &LinkFault) -> impl IntoView + use<> {
    app.host.title("A link");
    view! {
        <h1 tabindex="-1">"This link cannot be opened"</h1>
        <p>{app.words().link_fault(fault)}</p>
        <p><a class="button" href=app.href(&Route::Start)>"Choose a machine"</a></p>
    }
}

/// What somebody sent.
#[component]
#[allow(clippy::needless_pass_by_value)] // A prop is owned.
pub fn Opened(path: String) -> impl IntoView {
    let app = app();
    let link = match Link::decode(&path) {
        Ok(link) => link,
        Err(fault) => return cannot_be_opened(app, &fault).into_any(),
    };
    let carrier = match &link.machine {
        LinkMachine::OfTable(id) => id.to_string(),
        LinkMachine::Own(plate) => {
            // Used as long as the page is open, beside what is kept here.
            app.visiting.update(|visiting| {
                visiting.retain(|known| known.id != plate.id);
                visiting.push(plate.clone());
            });
            plate.carrier_id()
        }
    };
    let heads: Vec<String> = link.heads.iter().map(|head| head.id.to_string()).collect();
    let screen = {
        let carrier = carrier.clone();
        move || match heads.as_slice() {
            [head] => view! { <sheet::Sheet carrier=carrier.clone() head=head.clone()/> }.into_any(),
            heads => {
                let pairs = heads.iter().map(|head| (carrier.clone(), head.clone())).collect();
                view! { <compare::Compare pairs/> }.into_any()
            }
        }
    };
    let table = link.table.clone();
    let ids: Vec<String> = link.heads.iter().map(|head| head.id.to_string()).collect();
    let link = StoredValue::new(link);
    // With another table the ids may be those of other things: it is said before anything is shown.
    let (anyway, same) = (RwSignal::new(false), {
        let (table, carrier) = (table.clone(), carrier.clone());
        Memo::new(move |_| {
            let loaded = app.table()?;
            let heads: Vec<&str> = ids.iter().map(String::as_str).collect();
            let made = link.with_value(|link| link.made.clone()).zip(app.made_of(&loaded, &carrier, &heads));
            let same = made.is_some_and(|(then, now)| then.entries == now.entries);
            Some(same || table.now(&loaded.table, &loaded.mark) == TableNow::Same)
        })
    });
    let standing = move || {
        let loaded = app.table()?;
        let words = app.words();
        let now = table.now(&loaded.table, &loaded.mark);
        let (changed, cause) = link.with_value(|link| changed_since(app, &loaded, &carrier, link));
        let elsewhere = (now != TableNow::Same).then(|| load_its_table(app, &loaded, &table, false)).flatten();
        Some(view! {
            <p>{words.link_table(&table, now)}</p>
            {(!changed.is_empty()).then(|| view! { <ul>{changed.into_iter().map(|text| view! { <li>{text}</li> }).collect_view()}</ul> })}
            {cause.map(|text| view! { <p>{text}</p> })}
            {elsewhere.map(|button| view! { <p class="actions">{button}</p> })}
        })
    };
    let asks = move || same.get() == Some(false) && !anyway.get();
    view! {
        {move || asks().then(|| view! { <h1 tabindex="-1">"A link from another table"</h1> })}
        <div class="missing sent">
            <p class="name">"From a link. Nothing of yours is changed by it."</p>
            {standing}
            {move || link.with_value(|link| app.words().link_machine(link)).map(|text| view! { <p>{text}</p> })}
            {move || asks().then(|| view! {
                <p class="actions"><button type="button" on:click=move |_| anyway.set(true)>{ANYWAY}</button></p>
            })}
            {link.with_value(|link| match &link.machine {
                LinkMachine::Own(plate) => Some(view! { <KeepMachine plate=plate.clone()/> }),
                LinkMachine::OfTable(_) => None,
            })}
            {link.with_value(|link| link.record.clone()).map(|record| view! { <KeepRecord link record/> })}
        </div>
        {move || (!asks()).then(screen.clone())}
    }
    .into_any()
}

/// How the verdicts come out otherwise here than where the link was made, and whether the table or the program has changed.
fn changed_since(app: App, loaded: &Loaded, carrier: &str, link: &Link) -> (Vec<String>, Option<String>) {
    let Some(machine) = app.carrier(loaded, carrier) else { return (Vec::new(), None) };
    let solvable = link.own().is_none_or(|(_, solvable)| solvable);
    let otherwise = |head: &LinkHead| {
        let attachment = loaded.table.head(head.id.as_str())?;
        let (then, now) = (head.verdict?, app.pairing(loaded, &machine, attachment).verdict);
        let name = label(attachment.maker.as_ref(), &attachment.model);
        // Nothing can be solved of a machine that came without its figures: then what the sender saw is all there is.
        if !solvable {
            return Some(format!("{name}: {}", app.words().verdict(then)));
        }
        (then != now).then(|| format!("{name}: {}", app.words().difference(&Difference::Verdict { then, now })))
    };
    let told: Vec<String> = link.heads.iter().filter_map(otherwise).collect();
    let cause = (solvable && !told.is_empty()).then(|| {
        let attachments: Option<Vec<_>> = link.heads.iter().map(|head| loaded.table.head(head.id.as_str())).collect();
        let now = attachments.and_then(|all| {
            made(app, loaded, &all.into_iter().map(|head| app.pairing(loaded, &machine, head)).collect::<Vec<_>>())
        });
        // The figures of a machine that came along are those of the link.
        let same_table = link.table.mark == loaded.mark;
        app.words().changed(Made::changed(link.made.as_ref(), now.as_ref(), same_table), false)
    });
    (told, cause)
}

/// Keeps a machine that came in a link, beside those that are there.
#[component]
fn KeepMachine(plate: Plate) -> impl IntoView {
    let app = app();
    let name = plate.name.clone();
    let same = {
        let plate = plate.clone();
        move || app.own.with(|own| own.iter().find(|known| known.says_the_same(&plate)).cloned())
    };
    let keep = move |_| {
        let kept = Plate { id: time::fresh_id(), changed: time::now(), ..plate.came_in_a_link() };
        if storage::save(app, &kept) {
            app.tell(Notice::news(format!("“{}” is kept with your own machines.", kept.name)));
        }
    };
    view! {
        <p class="actions">{move || match same() {
            Some(known) => view! { <a class="button" href=app.href(&Route::plate(&known.id))>"You keep this machine: open its spec plate"</a> }.into_any(),
            None => view! { <button type="button" on:click=keep.clone()>"Keep “"{name.clone()}"” with your own machines"</button> }.into_any(),
        }}</p>
    }
}

/// Keeps a record of a hand-over that came in a link, beside those that are there.
#[component]
fn KeepRecord(link: StoredValue<Link>, record: LinkRecord) -> impl IntoView {
    let app = app();
    let readings = record.written.readings.len();
    // As it would be kept; none as long as its machine or attachment is not here.
    let sent = Memo::new(move |_| {
        let loaded = app.table()?;
        let (carrier, head) = link.with_value(|link| {
            let carrier = match &link.machine {
                LinkMachine::OfTable(id) => id.to_string(),
                LinkMachine::Own(plate) => app
                    .own
                    .with(|own| own.iter().find(|known| known.says_the_same(plate)).map(Plate::carrier_id))
                    .unwrap_or_else(|| plate.carrier_id()),
            };
            (carrier, link.heads.first().map(|head| head.id.to_string()))
        });
        let (machine, attachment) = (app.carrier(&loaded, &carrier)?, loaded.table.head(&head?).cloned()?);
        let pairing = app.pairing(&loaded, &machine, &attachment);
        let blank = HandOver::blank(
            time::fresh_id(),
            record.created.clone(),
            (&loaded.table, &loaded.mark),
            &pairing,
            link.with_value(|link| link.made.clone()),
        );
        Some(HandOver { written: record.written.clone(), changed: time::now(), ..blank })
    });
    // A machine that came along is kept first: a record of a machine that is nowhere leads nowhere.
    let is_here =
        move |record: &HandOver| app.own.with(|own| own.iter().any(|plate| plate.carrier_id() == record.carrier.id));
    view! {
        <p>{app.words().record_came(readings)}</p>
        {move || sent.get().map(|record| {
            if record.carrier.id.starts_with(OWN) && !is_here(&record) {
                return view! { <p class="quiet">"Keep the machine first, then its record."</p> }.into_any();
            }
            let known = app.handovers.with(|all| all.iter().find(|known| known.says_the_same(&record)).cloned());
            let address = |record: &HandOver| app.href(&Route::hand_over(&record.carrier.id, &record.head.id, Some(&record.id)));
            match known {
                Some(known) => view! { <p class="actions"><a class="button" href=address(&known)>"You keep this record: open it"</a></p> }.into_any(),
                None => view! {
                    <p class="actions"><button type="button" on:click=move |_| {
                        if storage::save(app, &record) {
                            app.tell(Notice::news("The record is kept with your hand-overs.".to_owned()));
                        }
                    }>"Keep the record"</button></p>
                }.into_any(),
            }
        })}
    }
}
