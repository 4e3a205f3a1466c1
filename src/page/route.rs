//! Addresses: everything behind the `#`, so that the app runs in any folder of any static host. What an address does where
//! the app stands in somebody else's page is told by `host`, and where the eye was on a screen by `history`.

use entry::Role;
use leptos::prelude::location;
use quantity::{Named, string_enum};
use record::Saved;
use record::link::{self, LinkFault};
use record::stamp::Stamp;

/// The part of an address that leads to hand-overs.
const HAND_OVER: &str = "hand-over";

/// What stands before the fields that a form begins with.
const FIELDS: &str = "fields=";

/// A machine with an attachment, by their ids.
pub type Pair = (String, String);

/// A screen with what it shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Route {
    /// Choose a machine.
    Start,
    /// Choose an attachment.
    Attachments,
    /// Which machines run an attachment.
    Attachment { head: String },
    /// Begin with the work: what is asked, as it stands behind the `?`.
    Work { asked: String },
    /// What fits a machine, of what is asked.
    Machine { carrier: String, asked: String },
    /// One attachment on it.
    Sheet { carrier: String, head: String },
    /// A sheet of paper about one attachment on it.
    Paper { carrier: String, head: String, whose: Whose },
    /// A hand-over of one attachment on it: a fresh record, or one that is kept.
    HandOver { carrier: String, head: String, id: Option<String> },
    /// A record of a hand-over as a paper: the whole of it, or the page that a customer signs.
    HandOverPaper { carrier: String, head: String, id: String, whose: Whose },
    /// Several side by side: machine and attachment of each.
    Compare { pairs: Vec<Pair> },
    /// Their quotation, on two pages.
    Quotation { pairs: Vec<Pair> },
    /// Describe a machine of one's own: choose its class.
    Own,
    /// A fresh spec plate of a class.
    NewPlate { class: String },
    /// A fresh spec plate of a machine like one of the table.
    PlateLike { carrier: String },
    /// A spec plate.
    Plate { id: String },
    /// What was saved.
    Saved,
    /// The table.
    Table,
    /// What a file was read as, before it is used.
    Import,
    /// The form of a machine or an attachment of the table, of a new one without an id, with the fields that are asked for first.
    Entry { role: Role, id: Option<String>, fields: String },
    /// The lines that put the app into another page.
    Snippet,
    /// What somebody sent: the address as it stands behind the `#`.
    Link { path: String },
    /// A screen whose address says of which table it is; the whole fragment.
    Stamped { to: Box<Route>, stamp: Result<Stamp, LinkFault>, whole: String },
    /// Anything else.
    Unknown,
}

string_enum! {
    /// Whose sheet of paper it is.
    "reader of a paper" pub enum Whose {
        /// Works from it.
        Fitter = "fitter",
        /// Takes the parts from the shelf by it.
        Stores = "parts",
        /// Decides by it.
        Customer = "customer",
        /// Keeps it in the cab.
        Cab = "cab",
    }
}

impl Whose {
    /// What the paper is called.
    pub fn title(self) -> &'static str {
        match self {
            Self::Fitter => "Fitter's sheet",
            Self::Stores => "Parts list",
            Self::Customer => "Quotation",
            Self::Cab => "Back to the bucket",
        }
    }
}

impl Route {
    /// The screen of a fragment.
    pub fn of_fragment(fragment: &str) -> Self {
        let whole = fragment.trim_start_matches('#');
        // It has its own way of writing, and a mark against being cut: nothing of it may be trimmed. Messengers escape it whole, once or
        // twice.
        let begins = |path: &str| path.starts_with(link::BEGINS);
        if begins(whole) || begins(&decoded(whole)) || begins(&decoded(&decoded(whole))) {
            return Self::Link { path: whole.to_owned() };
        }
        if let Some((plain, stamp)) = Stamp::off(whole) {
            return Self::Stamped { to: Box::new(Self::of_fragment(&plain)), stamp, whole: whole.to_owned() };
        }
        let (path, asked) = whole.split_once('?').unwrap_or((whole, ""));
        let (path, asked) = (path.trim_matches('/'), asked.to_owned());
        let parts: Vec<String> = path.split('/').map(decoded).collect();
        let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
        match parts.as_slice() {
            [""] => Self::Start,
            ["attachments"] => Self::Attachments,
            ["attachment", head] => Self::Attachment { head: (*head).to_owned() },
            ["work"] => Self::Work { asked },
            ["machine", carrier] => Self::Machine { carrier: (*carrier).to_owned(), asked },
            ["machine", carrier, head] => Self::Sheet { carrier: (*carrier).to_owned(), head: (*head).to_owned() },
            ["machine", carrier, head, HAND_OVER] => Self::hand_over(carrier, head, None),
            ["machine", carrier, head, HAND_OVER, id] => Self::hand_over(carrier, head, Some(id)),
            ["machine", carrier, head, HAND_OVER, id, "paper"] => Self::record(carrier, head, id, Whose::Fitter),
            ["machine", carrier, head, HAND_OVER, id, "customer"] => Self::record(carrier, head, id, Whose::Customer),
            ["machine", carrier, head, whose] => match Whose::from_name(whose) {
                Some(whose) => Self::Paper { carrier: (*carrier).to_owned(), head: (*head).to_owned(), whose },
                None => Self::Unknown,
            },
            // A machine with its attachments, and again for each machine.
            ["compare", groups @ ..] if !groups.is_empty() && groups.len() % 2 == 0 => {
                Self::Compare { pairs: groups.chunks(2).flat_map(|group| of_machine(group[0], group[1])).collect() }
            }
            ["quotation", groups @ ..] if !groups.is_empty() && groups.len() % 2 == 0 => {
                Self::Quotation { pairs: groups.chunks(2).flat_map(|group| of_machine(group[0], group[1])).collect() }
            }
            ["own"] => Self::Own,
            ["own", "new", class] => Self::NewPlate { class: (*class).to_owned() },
            ["own", "like", carrier] => Self::PlateLike { carrier: (*carrier).to_owned() },
            ["own", id] => Self::Plate { id: (*id).to_owned() },
            ["saved"] => Self::Saved,
            ["table"] => Self::Table,
            ["table", "import"] => Self::Import,
            ["table", one] => entry_of(one, None, &asked),
            ["table", one, id] => entry_of(one, Some(id), &asked),
            ["snippet"] => Self::Snippet,
            _ => Self::Unknown,
        }
    }
}

fn of_machine<'a>(carrier: &'a str, heads: &'a str) -> impl Iterator<Item = Pair> + 'a {
    heads.split(',').filter(|id| !id.is_empty()).map(|head| (carrier.to_owned(), head.to_owned()))
}

/// The form of a new entry or of one of the table.
fn entry_of(one: &str, id: Option<&str>, asked: &str) -> Route {
    let role = [Role::Machines, Role::Attachments].into_iter().find(|role| role.one() == one);
    let fields = asked.strip_prefix(FIELDS).map(decoded).unwrap_or_default();
    role.map_or(Route::Unknown, |role| Route::Entry { role, id: id.map(str::to_owned), fields })
}

fn decoded(part: &str) -> String {
    js_sys::decode_uri_component(part).map_or_else(|_| part.to_owned(), String::from)
}

impl Route {
    /// What fits a machine.
    pub fn machine(carrier: &str) -> Self {
        Self::Machine { carrier: carrier.to_owned(), asked: String::new() }
    }

    /// Which machines run an attachment.
    pub fn attachment(head: &str) -> Self {
        Self::Attachment { head: head.to_owned() }
    }

    /// One attachment on a machine.
    pub fn sheet(carrier: &str, head: &str) -> Self {
        Self::Sheet { carrier: carrier.to_owned(), head: head.to_owned() }
    }

    /// A sheet of paper about one attachment on a machine.
    pub fn paper(carrier: &str, head: &str, whose: Whose) -> Self {
        Self::Paper { carrier: carrier.to_owned(), head: head.to_owned(), whose }
    }

    /// A fresh record of a hand-over, or one that is kept.
    pub fn hand_over(carrier: &str, head: &str, id: Option<&str>) -> Self {
        Self::HandOver { carrier: carrier.to_owned(), head: head.to_owned(), id: id.map(str::to_owned) }
    }

    /// A record of a hand-over as a paper.
    pub fn record(carrier: &str, head: &str, id: &str, whose: Whose) -> Self {
        Self::HandOverPaper { carrier: carrier.to_owned(), head: head.to_owned(), id: id.to_owned(), whose }
    }

    /// Several side by side.
    pub fn compare(pairs: &[Pair]) -> Self {
        Self::Compare { pairs: pairs.to_vec() }
    }

    /// A saved comparison.
    pub fn of_saved(saved: &Saved) -> Self {
        Self::Compare { pairs: saved.pairs().map(|(carrier, head)| (carrier.to_owned(), head.to_owned())).collect() }
    }

    /// A fresh spec plate.
    pub fn new_plate(class: &str) -> Self {
        Self::NewPlate { class: class.to_owned() }
    }

    /// A spec plate.
    pub fn plate(id: &str) -> Self {
        Self::Plate { id: id.to_owned() }
    }

    /// The form of an entry of the table.
    pub fn entry(role: Role, id: &str) -> Self {
        Self::Entry { role, id: Some(id.to_owned()), fields: String::new() }
    }

    /// The form of a new entry.
    pub fn new_entry(role: Role) -> Self {
        Self::Entry { role, id: None, fields: String::new() }
    }

    /// Whether it is the same screen as another, with something else asked or kept.
    pub fn takes_the_place_of(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Machine { carrier, .. }, Self::Machine { carrier: of, .. }) => carrier == of,
            (Self::Work { .. }, Self::Work { .. })
            | (Self::Plate { .. }, Self::NewPlate { .. } | Self::PlateLike { .. })
            | (Self::HandOver { id: Some(_), .. }, Self::HandOver { id: None, .. }) => true,
            _ => false,
        }
    }

    /// The machines and attachments that a screen is about, by their ids; none of a screen that shows nothing of a table.
    pub fn ids(&self) -> Option<(Vec<&str>, Vec<&str>)> {
        Some(match self {
            Self::Start | Self::Attachments | Self::Work { .. } | Self::NewPlate { .. } | Self::Plate { .. } => {
                (Vec::new(), Vec::new())
            }
            Self::Attachment { head } => (Vec::new(), vec![head]),
            Self::PlateLike { carrier } | Self::Machine { carrier, .. } => (vec![carrier], Vec::new()),
            Self::Sheet { carrier, head }
            | Self::Paper { carrier, head, .. }
            | Self::HandOver { carrier, head, .. }
            | Self::HandOverPaper { carrier, head, .. } => (vec![carrier], vec![head]),
            Self::Compare { pairs } | Self::Quotation { pairs } => {
                pairs.iter().map(|(carrier, head)| (carrier.as_str(), head.as_str())).unzip()
            }
            Self::Own
            | Self::Saved
            | Self::Table
            | Self::Import
            | Self::Entry { .. }
            | Self::Snippet
            | Self::Link { .. }
            | Self::Stamped { .. }
            | Self::Unknown => {
                return None;
            }
        })
    }

    /// The fragment, `#` and all. Ids need no escaping: they are letters, digits, `-`, `_` and `.`.
    pub fn fragment(&self) -> String {
        match self {
            Self::Start | Self::Unknown => "#/".to_owned(),
            Self::Attachments => "#/attachments".to_owned(),
            Self::Attachment { head } => format!("#/attachment/{head}"),
            Self::Work { asked } => format!("#/work{}", behind(asked)),
            Self::Machine { carrier, asked } => format!("#/machine/{carrier}{}", behind(asked)),
            Self::Sheet { carrier, head } => format!("#/machine/{carrier}/{head}"),
            Self::Paper { carrier, head, whose } => format!("#/machine/{carrier}/{head}/{}", whose.name()),
            Self::HandOver { carrier, head, id } => {
                let id = id.as_ref().map(|id| format!("/{id}")).unwrap_or_default();
                format!("#/machine/{carrier}/{head}/{HAND_OVER}{id}")
            }
            Self::HandOverPaper { carrier, head, id, whose } => {
                let whose = if *whose == Whose::Fitter { "paper" } else { "customer" };
                format!("#/machine/{carrier}/{head}/{HAND_OVER}/{id}/{whose}")
            }
            Self::Compare { pairs } => format!("#/compare{}", grouped(pairs)),
            Self::Quotation { pairs } => format!("#/quotation{}", grouped(pairs)),
            Self::Own => "#/own".to_owned(),
            Self::NewPlate { class } => format!("#/own/new/{class}"),
            Self::PlateLike { carrier } => format!("#/own/like/{carrier}"),
            Self::Plate { id } => format!("#/own/{id}"),
            Self::Saved => "#/saved".to_owned(),
            Self::Table => "#/table".to_owned(),
            Self::Import => "#/table/import".to_owned(),
            Self::Entry { role, id, fields } => {
                let id = id.as_ref().map(|id| format!("/{id}")).unwrap_or_default();
                let fields = if fields.is_empty() { String::new() } else { format!("?{FIELDS}{fields}") };
                format!("#/table/{}{id}{fields}", role.one())
            }
            Self::Snippet => "#/snippet".to_owned(),
            Self::Link { path } | Self::Stamped { whole: path, .. } => format!("#{path}"),
        }
    }
}

/// Pairs by their machines: a machine with its attachments, and again for each machine.
fn grouped(pairs: &[Pair]) -> String {
    let group = |group: &[Pair]| {
        let heads: Vec<_> = group.iter().map(|(_, head)| head.as_str()).collect();
        format!("/{}/{}", group[0].0, heads.join(","))
    };
    pairs.chunk_by(|a, b| a.0 == b.0).map(group).collect()
}

fn behind(asked: &str) -> String {
    if asked.is_empty() { String::new() } else { format!("?{asked}") }
}

/// The screen of the page's address.
pub fn current() -> Route {
    Route::of_fragment(&location().hash().unwrap_or_default())
}
