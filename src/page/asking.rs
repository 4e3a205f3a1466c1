//! Asks the solver, and takes what it answers as it comes.

use super::loaded::Loaded;
use super::state::App;
use js_sys::Function;
use leptos::prelude::Get;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::closure::Closure;
use solver::{Answer, Reader, Request};
use std::cell::{OnceCell, RefCell};
use std::collections::HashSet;
use wasm_bindgen::prelude::wasm_bindgen;

#[wasm_bindgen]
extern "C" {
    /// What `connect` in `public/solver.js` gives.
    pub type Line;

    #[wasm_bindgen(method)]
    fn table(this: &Line, mark: &str, text: &str);

    #[wasm_bindgen(method)]
    fn ask(this: &Line, request: &str, take: &Function) -> u32;

    #[wasm_bindgen(method)]
    fn stop(this: &Line, id: u32);
}

thread_local! {
    /// One for all that this module shows: several elements of a page share a solver.
    static LINE: OnceCell<Line> = const { OnceCell::new() };
    /// The marks of the tables that it knows.
    static TABLES: RefCell<HashSet<String>> = RefCell::new(HashSet::new());
}

/// From now on it is asked by this line; the first one counts.
pub fn connect(line: Line) {
    LINE.with(|known| {
        let _ = known.set(line);
    });
}

/// Something that was asked, as long as somebody waits for the answer.
pub struct Asking {
    id: u32,
    // Called as long as it is waited for.
    _take: Closure<dyn Fn(String)>,
}

impl Drop for Asking {
    fn drop(&mut self) {
        LINE.with(|line| {
            if let Some(line) = line.get() {
                line.stop(self.id);
            }
        });
    }
}

/// Asks; every part of the answer is handed over as it comes, until what is given back is dropped.
pub fn ask(request: &Request, take: impl Fn(Answer) + 'static) -> Option<Asking> {
    let request = serde_json::to_string(request).ok()?;
    let take = Closure::<dyn Fn(String)>::new(move |answer: String| {
        if let Ok(answer) = serde_json::from_str(&answer) {
            take(answer);
        }
    });
    let id = LINE.with(|line| line.get().map(|line| line.ask(&request, take.as_ref().unchecked_ref())))?;
    Some(Asking { id, _take: take })
}

/// For whom an answer is written; the solver knows the table from then on.
pub fn reader(app: App, loaded: &Loaded) -> Reader {
    let mark = &loaded.mark;
    if TABLES.with_borrow_mut(|known| known.insert(mark.clone())) {
        LINE.with(|line| {
            if let Some(line) = line.get() {
                line.table(mark, &loaded.text);
            }
        });
    }
    Reader { table: mark.clone(), units: app.units.get() }
}
