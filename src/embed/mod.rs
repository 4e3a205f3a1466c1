//! The app from outside: mounting it as a page, mounting it into an element of somebody else's page, and the functions for
//! a dealer's own script. `public/pairwright.js` and `public/pairwright-fit.js` call these; nobody else does, so that the
//! names there can stay while those here change.

mod solver;

pub use solver::{Solver, own_module};

use crate::page::{self, Around, ElementShell, KeptState, Line, Reach, Settings};
use js_sys::Function;
use leptos::mount::{UnmountHandle, mount_to};
use leptos::prelude::*;
use leptos::tachys::view::any_view::AnyViewState;
use leptos::wasm_bindgen::JsValue;
use leptos::web_sys::HtmlElement;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::wasm_bindgen;

/// Reads the app's own table, which was fetched for the first screen; then [`open_page`] need not ask for it.
#[wasm_bindgen(js_name = takeTable)]
pub fn take_table(text: String) {
    page::take_table(text);
}

/// Mounts the app into its own page. What takes time is asked by `line`.
#[wasm_bindgen(js_name = openPage)]
pub fn open_page(line: Line) {
    page::connect(line);
    page::open();
}

/// An app in an element.
#[wasm_bindgen]
pub struct Mounted {
    frame: HtmlElement,
    folder: String,
    reach: Reach,
    // Dropping it takes the app out of the element.
    _app: UnmountHandle<AnyViewState>,
}

/// Mounts the app into a frame within an element. What takes time is asked by `line`. `attributes` are pairs of name and value; `kept` is what [`Mounted::state`]
/// gave when the element was taken out of a page; `ready` is told whether there is something to show.
///
/// # Errors
/// When the app could not be put into the frame.
#[wasm_bindgen(js_name = mountElement)]
pub fn mount_element(
    line: Line,
    element: HtmlElement,
    frame: HtmlElement,
    folder: String,
    attributes: Vec<JsValue>,
    kept: Option<String>,
    ready: Function,
) -> Result<Mounted, JsValue> {
    page::connect(line);
    let texts: Vec<Option<String>> = attributes.into_iter().map(|text| text.as_string()).collect();
    let settings = texts.chunks(2).fold(Settings::new(folder.clone()), |settings, pair| match pair {
        [Some(name), value] => settings.with(name, value.clone(), &folder),
        _ => settings,
    });
    let kept: Option<KeptState> = kept.and_then(|text| serde_json::from_str(&text).ok());
    let around = Around { element, frame: frame.clone(), folder: folder.clone() };
    let reached = Rc::new(RefCell::new(None));
    let reach = reached.clone();
    let tell = move |there: bool| {
        let _ = ready.call1(&JsValue::UNDEFINED, &JsValue::from_bool(there));
    };
    let app = mount_to(frame.clone(), move || {
        view! {
            <ElementShell around settings kept ready=tell reach=move |means| { reach.borrow_mut().replace(means); }/>
        }
        .into_any()
    });
    page::tell_faults_at(&frame);
    let reach = reached.borrow_mut().take().ok_or_else(|| JsValue::from_str("the app did not start"))?;
    Ok(Mounted { frame, folder, reach, _app: app })
}

#[wasm_bindgen]
impl Mounted {
    /// An attribute of the element was set or taken away.
    pub fn set(&self, name: &str, value: Option<String>) {
        self.reach.set(name, value, &self.folder);
    }

    /// Where it stands, as a text to mount it with again.
    pub fn state(&self) -> String {
        serde_json::to_string(&self.reach.state()).unwrap_or_default()
    }
}

impl Drop for Mounted {
    fn drop(&mut self) {
        page::tell_faults_no_more_at(&self.frame);
    }
}
