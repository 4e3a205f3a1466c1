//! Getting tables: the one beside the app, a file, or another address. A table that fails never takes the place of one
//! that works.

use super::attributes::resolved;
use super::breath::breathe;
use super::files::text_of;
use super::kept_table::{self, TableKept};
use super::loaded::{Loaded, Loading, OWN_TABLE, Origin, read};
use super::notice::{Notice, Offer, Topic, Undo};
use super::state::App;
use super::time;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use record::link::is_address;
use record::{Entries, KeptTable};
use std::cell::RefCell;
use std::time::Duration;
use table::{Problem, Severity};
use wasm_bindgen_futures::JsFuture;

/// How long an address may take to answer.
const PATIENCE: Duration = Duration::from_secs(15);
/// How long the address of a kept table may take at an opening: as long as the app's own table may.
const AT_OPENING: Duration = Duration::from_secs(3);

/// Loads the table that the person loaded last and that was kept, else the one beside the app. One from an address is asked for
/// anew.
pub fn first(app: App) {
    match kept_table::read(app) {
        Some(kept) if kept.is_address => ask_anew(app, kept),
        Some(kept) => take_kept(app, kept, false),
        None => beside(app),
    }
}

/// Takes a kept table into use.
fn take_kept(app: App, kept: KeptTable, is_unasked: bool) {
    let origin = if kept.is_address { Origin::Address(kept.origin) } else { Origin::File(kept.origin) };
    if let Ok(mut loaded) = read(kept.text, origin, kept.loaded) {
        loaded.is_unasked = is_unasked;
        app.take(loaded);
    } else {
        // A newer app may refuse what an older one took: then the own table is used, and the kept one stays.
        let words = "The table that you loaded last cannot be used any more. Load it again.";
        app.tell(Notice::fault(words.to_owned()));
        beside(app);
    }
}

/// Asks the address of a kept table for what is there now. What differs is told; where no answer comes the kept one is used.
fn ask_anew(app: App, kept: KeptTable) {
    let asked = app.ask();
    app.loading.set(Loading::Waiting);
    spawn_local(async move {
        let outcome = fetched(&kept.origin, AT_OPENING).await;
        // Another table may have been loaded meanwhile.
        if !app.is_newest(asked) {
            return;
        }
        let shown = app.words_untracked().address(&kept.origin);
        let day = time::shown(&kept.loaded);
        let text = match outcome {
            Ok(text) if text == kept.text => return take_kept(app, kept, false),
            Ok(text) => text,
            Err(_) => return take_kept(app, kept, true),
        };
        let newer = KeptTable { loaded: time::now(), text: text.clone(), ..kept.clone() };
        match read(text, Origin::Address(kept.origin.clone()), newer.loaded.clone()) {
            Ok(loaded) => {
                let change = Entries::of_text(&kept.text).change_to(loaded.entries());
                let difference = app.words_untracked().table_change(&change);
                let left_out = left_out(&loaded);
                let room = match kept_table::keep(app, &newer) {
                    TableKept::Yes(_) => "",
                    TableKept::NoRoom(_) => " This browser has no room to keep it: the older one stays kept.",
                };
                let words = format!("The table at {shown} has changed since {day}. {difference}{left_out}{room}");
                app.take(loaded);
                let notice = if left_out.is_empty() { Notice::news(words) } else { Notice::fault(words) };
                app.tell(notice.about(Topic::Table));
            }
            Err(problems) => {
                let words = refused(app, &format!("What is now at {shown}"), &problems);
                take_kept(app, kept, false);
                let words = format!("{words} The table as it was on {day} stays in use.");
                app.tell(Notice::problems(words, problems).about(Topic::Table));
            }
        }
    });
}

/// Goes back to the table beside the app and keeps no other.
pub fn back_to_own(app: App) {
    let before = kept_table::forget();
    let notice = Notice::news("Back to the table beside this app. The other one is kept no more.".to_owned());
    let undo = before.map(|text| Offer::Undo(Box::new(Undo::Table(Some(text)))));
    told(app, undo.into_iter().fold(notice, Notice::offering));
    app.ask();
    beside(app);
}

/// Tells how a loading ended, where the eye is: at the top.
fn told(app: App, notice: Notice) {
    app.tell(notice.about(Topic::Table));
    app.host.to_top();
}

/// Loads the table of an element: the one at the address that its page gives, else the one beside the app. What the reader
/// has loaded in the app is another matter, and stays kept there.
pub fn for_element(app: App, address: Option<String>) {
    // Relative to the page around it, as every address in a page.
    let origin = address.map_or(Origin::Beside, |address| Origin::Address(resolved(address)));
    let address = match &origin {
        Origin::Address(address) => address.clone(),
        Origin::Beside | Origin::File(_) => app.host.beside(OWN_TABLE),
    };
    let asked = app.ask();
    // The element may have got another table meanwhile, or be gone.
    get(app, address, origin, "The table", move || app.is_newest(asked));
}

/// Gets the table that an app begins with, unless it is not wanted any more when it comes.
fn get(app: App, address: String, origin: Origin, what: &'static str, wanted: impl Fn() -> bool + 'static) {
    app.loading.set(Loading::Waiting);
    spawn_local(async move {
        let outcome = fetched(&address, PATIENCE).await;
        if !wanted() {
            return;
        }
        match outcome {
            Ok(text) => match read(text, origin, time::now()) {
                Ok(loaded) => {
                    // Reading it and showing it are two pieces of work: the browser answers in between.
                    breathe().await;
                    if !wanted() {
                        return;
                    }
                    for_who_writes_the_page(app, &address, &loaded.problems, loaded.unlisted);
                    app.take(loaded);
                }
                Err(problems) => {
                    for_who_writes_the_page(app, &address, &problems, 0);
                    app.loading.set(Loading::Failed(refused(app, what, &problems)));
                }
            },
            Err(why) => {
                if !app.host.is_page() {
                    web_sys::console::warn_1(&format!("{ELEMENT}: {address} {why}").into());
                }
                app.loading.set(Loading::Failed(format!("{what} {why}")));
            }
        }
    });
}

/// The element's name, before what it tells whoever writes its page.
const ELEMENT: &str = "pairwright-fit";

/// What is wrong with the table of an element is told in the console of its page, one line a problem: its readers cannot fix it.
fn for_who_writes_the_page(app: App, address: &str, problems: &[Problem], unlisted: usize) {
    if app.host.is_page() {
        return;
    }
    let words = app.words_untracked();
    for problem in problems {
        let line = format!("{ELEMENT}: {address}: {}", words.problem_line(problem)).into();
        match problem.severity {
            Severity::Error => web_sys::console::error_1(&line),
            Severity::Warning => web_sys::console::warn_1(&line),
        }
    }
    if unlisted > 0 {
        web_sys::console::warn_1(&format!("{ELEMENT}: {address}: and {unlisted} more").into());
    }
}

/// Tries again after a failure.
pub fn again(app: App) {
    if app.host.is_page() {
        first(app);
    } else {
        for_element(app, app.host.settings.with_untracked(|settings| settings.table.clone()));
    }
}

thread_local! {
    /// The app's own table, where it was there before the app.
    static THERE: RefCell<Option<Loaded>> = const { RefCell::new(None) };
}

/// Reads the app's own table from its text, for the opening. One that cannot be used is asked for anew, and told then.
pub fn take_over(text: String) {
    THERE.set(read(text, Origin::Beside, time::now()).ok());
}

/// Loads the table beside the app.
fn beside(app: App) {
    if let Some(loaded) = THERE.take() {
        app.take(loaded);
        return;
    }
    // A table that the person has loaded meanwhile stays.
    let wanted = move || matches!(app.loading.get_untracked(), Loading::Waiting);
    get(app, OWN_TABLE.to_owned(), Origin::Beside, "The app's own table", wanted);
}

/// Loads a table from an address that the person gave.
pub fn from_address(app: App, address: String, done: impl FnOnce() + 'static) {
    let shown = app.words_untracked().address(&address);
    if !is_address(&address) {
        let words = format!(
            "{shown} is no address of a table: write it anew, with https:// and without spaces or signs that are not seen. The table in use stays."
        );
        told(app, Notice::fault(words));
        done();
        return;
    }
    let asked = app.ask();
    spawn_local(async move {
        match fetched(&address, PATIENCE).await {
            Ok(text) if app.is_newest(asked) => take(app, text, Origin::Address(address)),
            Ok(_) => {}
            Err(why) => told(app, Notice::fault(format!("{shown} {why} The table in use stays."))),
        }
        done();
    });
}

/// Loads a table from a file.
pub fn from_file(app: App, file: web_sys::File) {
    let asked = app.ask();
    spawn_local(async move {
        match text_of(&file, table::read::LARGEST).await {
            Ok(text) if app.is_newest(asked) => take(app, text, Origin::File(file.name())),
            Ok(_) => {}
            Err(why) => told(app, Notice::fault(format!("{} {why} The table in use stays.", file.name()))),
        }
    });
}

/// Loads what a file of another kind than JSON was read as.
pub fn from_text(app: App, text: String, name: String) {
    app.ask();
    take(app, text, Origin::File(name));
}

fn take(app: App, text: String, origin: Origin) {
    let kept = KeptTable {
        origin: origin.words(),
        is_address: matches!(origin, Origin::Address(_)),
        loaded: time::now(),
        text: text.clone(),
    };
    let what = origin.words();
    match read(text, origin, kept.loaded.clone()) {
        Ok(loaded) => {
            let (carriers, heads) = (loaded.table.carriers.len(), loaded.table.heads.len());
            let title = &loaded.table.title;
            let wrong = if loaded.problems.is_empty() {
                String::new()
            } else {
                format!(
                    " The table screen lists what is wrong with it: {}.",
                    app.words().problem_count(&loaded.problems)
                )
            };
            let left_out = left_out(&loaded);
            let some_left_out = !left_out.is_empty();
            let (room, undo) = match kept_table::keep(app, &kept) {
                TableKept::Yes(before) => {
                    let replaced = before.as_deref().and_then(|text| KeptTable::decode(text).ok());
                    let replaced = replaced.filter(|before| before.origin != kept.origin);
                    let room = replaced.map_or_else(String::new, |before| {
                        format!(
                            " It takes the place of the table that was kept, {}.",
                            app.words_untracked().address(&before.origin)
                        )
                    });
                    (room, Some(Offer::Undo(Box::new(Undo::Table(before)))))
                }
                TableKept::NoRoom(before) => {
                    let next = match before.as_deref().map(KeptTable::decode) {
                        Some(Ok(before)) => {
                            format!("the one that stays kept, {}", app.words_untracked().address(&before.origin))
                        }
                        Some(Err(_)) => "the one that stays kept".to_owned(),
                        None => "the one beside this app".to_owned(),
                    };
                    let words = " This browser has no room to keep it: it is used until this page is closed, and then";
                    (format!("{words} {next}."), None)
                }
            };
            let words = format!("Loaded “{title}”. Machines: {carriers}, attachments: {heads}.{left_out}{wrong}{room}");
            app.take(loaded);
            let notice = if some_left_out { Notice::fault(words) } else { Notice::news(words) };
            told(app, undo.into_iter().fold(notice, Notice::offering));
        }
        Err(problems) => {
            told(app, Notice::problems(refused(app, &what, &problems) + " The table in use stays.", problems));
        }
    }
}

/// The entries that were left out, as a sentence behind others; empty where none was.
fn left_out(loaded: &Loaded) -> String {
    if loaded.set_aside.is_empty() {
        return String::new();
    }
    let shown: Vec<_> = loaded.set_aside.iter().take(5).map(String::as_str).collect();
    let more = loaded.set_aside.len().saturating_sub(shown.len());
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    format!(" Left out because of errors: {}{more}.", shown.join(", "))
}

fn refused(app: App, what: &str, problems: &[Problem]) -> String {
    format!("{what} cannot be used: {}.", app.words().problem_count(problems))
}

/// The text at an address; else why not, as the end of a sentence.
async fn fetched(address: &str, patience: Duration) -> Result<String, String> {
    let unreachable = || "cannot be reached: check the address and the connection, then try again.".to_owned();
    let controller = web_sys::AbortController::new().map_err(|_| unreachable())?;
    let options = web_sys::RequestInit::new();
    options.set_signal(Some(&controller.signal()));
    // What the browser has kept of it is used only where it is still what is there.
    options.set_cache(web_sys::RequestCache::NoCache);
    let abort = controller.clone();
    let timer = set_timeout_with_handle(move || abort.abort(), patience).ok();
    let outcome = JsFuture::from(window().fetch_with_str_and_init(address, &options)).await;
    let stopped = controller.signal().aborted();
    let response = match outcome.map(JsCast::dyn_into::<web_sys::Response>) {
        Ok(Ok(response)) => response,
        _ if stopped => {
            return Err(format!("does not answer within {} seconds: try again later.", patience.as_secs()));
        }
        _ => return Err(unreachable()),
    };
    if !response.ok() {
        return Err(format!("answers with status {}: check the address.", response.status()));
    }
    let text = response.text().map_err(|_| unreachable())?;
    let text = JsFuture::from(text).await.map_err(|_| unreachable())?;
    if let Some(timer) = timer {
        timer.clear();
    }
    text.as_string().ok_or_else(unreachable)
}
