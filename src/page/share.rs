//! A link to a pairing or a comparison: to send, and what is shown when one is opened. What stands in it is `record::link`'s.

use super::loaded::{Loaded, Origin};
use super::notice::Notice;
use super::route::Route;
use super::start::NoTable;
use super::state::{App, app, label};
use super::svg::QrCode;
use super::{compare, files, hand, load, sheet, storage, when};
use fit::Pairing;
use leptos::prelude::*;
use record::link::{Link, LinkFault, LinkHead, LinkMachine, LinkRecord, LinkTable, TableNow};
use record::plate::OWN;
use record::stamp::Stamp;
use record::{Difference, HandOver, Made, Plate};
use std::sync::Arc;

/// The link to pairings on one machine; with the figures of a machine of one's own only when asked.
pub fn link(app: App, loaded: &Loaded, pairings: &[Arc<Pairing>], with_figures: bool) -> Option<Link> {
    // A link holds one machine.
    let one = pairings.windows(2).all(|pair| pair[0].carrier.id == pair[1].carrier.id);
    if !one {
        return None;
    }
    let table = LinkTable::of(&loaded.table, &loaded.mark, loaded.origin.address());
    let own = pairings.first().and_then(|first| app.plate(first.carrier.id.as_str()));
    let made = made(app, loaded, pairings);
    let pairings: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
    let link = Link::of_pairings(table, own.as_ref(), &pairings)?.with_made(made);
    Some(if with_figures { link } else { link.without_own_figures() })
}

/// With what pairings together are made.
fn made(app: App, loaded: &Loaded, pairings: &[Arc<Pairing>]) -> Option<Made> {
    let all: Option<Vec<Made>> = pairings.iter().map(|pairing| app.made(loaded, pairing)).collect();
    Made::of_all(&all?)
}

/// Send it: as a link, by the device's own ways, or as a code to be scanned.
#[component]
pub fn Send(
    loaded: Arc<Loaded>,
    pairings: Vec<Arc<Pairing>>,
    /// A record of a hand-over that goes along.
    #[prop(optional, into)]
    record: Signal<Option<HandOver>>,
) -> impl IntoView {
    let app = app();
    let own = pairings.first().is_some_and(|pairing| app.plate(pairing.carrier.id.as_str()).is_some());
    let (with_figures, open) = (RwSignal::new(false), RwSignal::new(false));
    let title = pairings.first().map(|first| label(first.carrier.maker.as_ref(), &first.carrier.model));
    let title = StoredValue::new(title.unwrap_or_default());
    // An address may be meant for its reader alone: it is shown before it is sent.
    let from = loaded.origin.address().map(|address| app.words_untracked().address(address));
    let invented = app.words_untracked().invented_to_send(&loaded.table);
    let whole_app = app.place.whole_app();
    let sent = StoredValue::new(pairings.clone());
    let address = Memo::new(move |_| {
        let link = link(app, &loaded, &pairings, with_figures.get())?;
        let with_record = |link: Link| {
            record.with(|record| record.as_ref().map(|record| link.clone().with_record(record)).unwrap_or(link))
        };
        Some(with_record(link).address(&whole_app))
    });
    let inside = move || {
        let sentence = sentence(app, invented, &sent.get_value());
        let address = match address.get() {
            Some(Ok(address)) => address,
            Some(Err(fault)) => {
                return view! {
                    <p>{app.words().link_fault(&fault)}</p>
                    {move || record.get().map(|record| view! {
                        <p class="actions"><button type="button" on:click=move |_| files::download(&format!("{}.json", record.name), &record.encode())>
                            "Download the record as a file"
                        </button></p>
                    })}
                }
                .into_any();
            }
            None => {
                let to_copy = sentence.clone();
                return view! {
                    <p>"A link holds one machine. Send this text, or each sheet by itself."</p>
                    <p class="note letter">{sentence}</p>
                    <p class="actions">
                        <button type="button" on:click=move |_| hand::copy(app, to_copy.clone(), "The text is copied.")>"Copy it as text"</button>
                    </p>
                }
                .into_any();
            }
        };
        let (copied, shared) = (address.clone(), address.clone());
        let to_copy = format!("{sentence}\n{address}");
        let code = drawing::qr(&address);
        view! {
            <p class="field">
                <label for="link">"Link"</label>
                <input id="link" type="text" readonly prop:value=address
                    on:focus=move |event| hand::select_all(&event)/>
            </p>
            <p class="actions">
                <button type="button" on:click=move |_| hand::copy(app, copied.clone(), "The link is copied.")>"Copy the link"</button>
                {hand::can_share().then(|| view! {
                    <button type="button" on:click=move |_| hand::share(app, &title.get_value(), None, Some(&shared))>"Share …"</button>
                })}
            </p>
            <p class="note letter">{sentence}</p>
            <p class="actions">
                <button type="button" on:click=move |_| hand::copy(app, to_copy.clone(), "The text is copied.")>"Copy it as text"</button>
            </p>
            {match code {
                Some(code) => view! { <p class="code-to-scan"><QrCode code/></p> }.into_any(),
                None => view! { <p class="quiet">"It is too long for a code that scans well."</p> }.into_any(),
            }}
        }
        .into_any()
    };
    view! {
        <details class="more send" part="send" on:toggle=move |event| open.set(hand::is_open(&event))>
            <summary>"Send it as a link"</summary>
            <p class="quiet">"All of it stands in the link: nothing is sent or kept anywhere else."</p>
            {from.map(|address| view! { <p class="quiet">"It says where the table is from: "{address}</p> })}
            {own.then(|| view! { <WithFigures with_figures/> })}
            {move || open.get().then(inside)}
        </details>
    }
}

/// What is sent, in a plain sentence; a comparison with a line for each.
fn sentence(app: App, invented: Option<&str>, pairings: &[Arc<Pairing>]) -> String {
    let of: Vec<&Pairing> = pairings.iter().map(AsRef::as_ref).collect();
    let mut text = app.words().text_to_send(&of);
    // Whoever reads it does not see the screen.
    if let Some(invented) = invented {
        text.push('\n');
        text.push_str(invented);
    }
    text
}

/// Says of machines whose figures came in a link that they are somebody else's, wherever a verdict rests on them.
#[component]
pub fn WhoseFigures(carriers: Vec<String>) -> impl IntoView {
    let app = app();
    move || {
        let any = carriers.iter().any(|carrier| app.is_somebody_elses(carrier));
        any.then(|| view! { <p class="missing whose">{app.words().somebody_elses()}</p> })
    }
}

/// A screen whose address says of which table it is: shown where that is the one in use, or the entries are the same; else why not,
/// and what to do.
#[component]
pub fn Stamped(to: Route, stamp: Result<Stamp, LinkFault>) -> impl IntoView {
    let app = app();
    let stamp = match stamp {
        Ok(stamp) => stamp,
        Err(fault) => return cannot_be_opened(app, &fault).into_any(),
    };
    app.place.title("From another table");
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
    app.place.title("A link");
    view! {
        <h1 tabindex="-1">"This link cannot be opened"</h1>
        <p>{app.words().link_fault(fault)}</p>
        <p><a class="button" href=app.href(&Route::Start)>"Choose a machine"</a></p>
    }
}

/// Whether the figures of a machine of one's own go along.
#[component]
pub fn WithFigures(with_figures: RwSignal<bool>) -> impl IntoView {
    view! {
        <p><label class="check-line">
            <input type="checkbox" prop:checked=with_figures on:change=move |event| with_figures.set(event_target_checked(&event))/>
            <span>"With the figures of this machine. Without them its reader sees only the verdicts as they are here."</span>
        </label></p>
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
        let kept = Plate { id: when::fresh_id(), changed: when::now(), ..plate.came_in_a_link() };
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
            when::fresh_id(),
            record.created.clone(),
            (&loaded.table, &loaded.mark),
            &pairing,
            link.with_value(|link| link.made.clone()),
        );
        Some(HandOver { written: record.written.clone(), changed: when::now(), ..blank })
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
