//! Addresses: everything behind the `#`, so that the app runs in any folder of any static host. What an address does where
//! the app stands in somebody else's page is told by `place`.

use super::state::App;
use crate::quantity::{Named, names};
use crate::record::link;
use leptos::ev;
use leptos::prelude::*;

/// A screen with what it shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Route {
    /// Choose a machine.
    Start,
    /// What fits a machine.
    Machine { carrier: String },
    /// One attachment on it.
    Sheet { carrier: String, head: String },
    /// A sheet of paper about one attachment on it.
    Paper { carrier: String, head: String, whose: Whose },
    /// Several side by side.
    Compare { carrier: String, heads: Vec<String> },
    /// Describe a machine of one's own: choose its class.
    Own,
    /// A fresh spec plate of a class.
    NewPlate { class: String },
    /// A spec plate.
    Plate { id: String },
    /// What was saved.
    Saved,
    /// The table.
    Table,
    /// The lines that put the app into another page.
    Snippet,
    /// What somebody sent: the address as it stands behind the `#`.
    Link { path: String },
    /// Anything else.
    Unknown,
}

names! {
    /// Whose sheet of paper it is.
    "reader of a paper" pub enum Whose {
        /// Works from it.
        Fitter = "fitter",
        /// Decides by it.
        Customer = "customer",
    }
}

impl Whose {
    /// What the paper is called.
    pub fn title(self) -> &'static str {
        match self {
            Self::Fitter => "Fitter's sheet",
            Self::Customer => "Customer's sheet",
        }
    }

    /// The other one's.
    pub fn other(self) -> Self {
        match self {
            Self::Fitter => Self::Customer,
            Self::Customer => Self::Fitter,
        }
    }
}

impl Route {
    /// The screen of a fragment.
    pub fn of_fragment(fragment: &str) -> Self {
        let whole = fragment.trim_start_matches('#');
        // It has its own way of writing, and a mark against being cut: nothing of it may be trimmed.
        if whole.starts_with(link::BEGINS) {
            return Self::Link { path: whole.to_owned() };
        }
        let path = whole.trim_matches('/');
        let parts: Vec<String> = path.split('/').map(decoded).collect();
        let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
        match parts.as_slice() {
            [""] => Self::Start,
            ["machine", carrier] => Self::Machine { carrier: (*carrier).to_owned() },
            ["machine", carrier, head] => Self::Sheet { carrier: (*carrier).to_owned(), head: (*head).to_owned() },
            ["machine", carrier, head, whose] => match Whose::from_name(whose) {
                Some(whose) => Self::Paper { carrier: (*carrier).to_owned(), head: (*head).to_owned(), whose },
                None => Self::Unknown,
            },
            ["compare", carrier, heads] => Self::Compare {
                carrier: (*carrier).to_owned(),
                heads: heads.split(',').filter(|id| !id.is_empty()).map(str::to_owned).collect(),
            },
            ["own"] => Self::Own,
            ["own", "new", class] => Self::NewPlate { class: (*class).to_owned() },
            ["own", id] => Self::Plate { id: (*id).to_owned() },
            ["saved"] => Self::Saved,
            ["table"] => Self::Table,
            ["snippet"] => Self::Snippet,
            _ => Self::Unknown,
        }
    }
}

fn decoded(part: &str) -> String {
    js_sys::decode_uri_component(part).map_or_else(|_| part.to_owned(), String::from)
}

impl Route {
    /// What fits a machine.
    pub fn machine(carrier: &str) -> Self {
        Self::Machine { carrier: carrier.to_owned() }
    }

    /// One attachment on a machine.
    pub fn sheet(carrier: &str, head: &str) -> Self {
        Self::Sheet { carrier: carrier.to_owned(), head: head.to_owned() }
    }

    /// A sheet of paper about one attachment on a machine.
    pub fn paper(carrier: &str, head: &str, whose: Whose) -> Self {
        Self::Paper { carrier: carrier.to_owned(), head: head.to_owned(), whose }
    }

    /// Several on a machine.
    pub fn compare(carrier: &str, heads: &[String]) -> Self {
        Self::Compare { carrier: carrier.to_owned(), heads: heads.to_vec() }
    }

    /// A fresh spec plate.
    pub fn new_plate(class: &str) -> Self {
        Self::NewPlate { class: class.to_owned() }
    }

    /// A spec plate.
    pub fn plate(id: &str) -> Self {
        Self::Plate { id: id.to_owned() }
    }

    /// The fragment, `#` and all. Ids need no escaping: they are letters, digits, `-`, `_` and `.`.
    pub fn fragment(&self) -> String {
        match self {
            Self::Start | Self::Unknown => "#/".to_owned(),
            Self::Machine { carrier } => format!("#/machine/{carrier}"),
            Self::Sheet { carrier, head } => format!("#/machine/{carrier}/{head}"),
            Self::Paper { carrier, head, whose } => format!("#/machine/{carrier}/{head}/{}", whose.name()),
            Self::Compare { carrier, heads } => format!("#/compare/{carrier}/{}", heads.join(",")),
            Self::Own => "#/own".to_owned(),
            Self::NewPlate { class } => format!("#/own/new/{class}"),
            Self::Plate { id } => format!("#/own/{id}"),
            Self::Saved => "#/saved".to_owned(),
            Self::Table => "#/table".to_owned(),
            Self::Snippet => "#/snippet".to_owned(),
            Self::Link { path } => format!("#{path}"),
        }
    }
}

fn current() -> Route {
    Route::of_fragment(&location().hash().unwrap_or_default())
}

/// Keeps the route in step with the page's address. On every change but the first the focus goes to the heading.
pub fn follow(app: App) {
    app.route.set(current());
    let handle = window_event_listener(ev::hashchange, move |_| {
        app.route.set(current());
        window().scroll_to_with_x_and_y(0.0, 0.0);
        app.place.focus_heading();
    });
    on_cleanup(move || handle.remove());
}
