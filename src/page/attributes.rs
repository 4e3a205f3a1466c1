//! What the attributes of an element set: its table, its machine, what it shows, where its links lead.

use leptos::prelude::*;
use leptos::web_sys;
use quantity::{Named, UnitSystem, string_enum};
use wording::is_mail_address;

string_enum! {
    /// A part of the app that an element may leave out. The verdict, what is to be proved, the makers' questions and the
    /// cautions are none: they are always shown.
    "part to show" pub enum Part {
        /// Choosing another machine than the one that is set.
        Machines = "machines",
        /// A machine of one's own.
        Own = "own",
        /// Filters above the list.
        Filters = "filters",
        /// Side by side.
        Compare = "compare",
        /// What the machine must get.
        Changes = "changes",
        /// The checks.
        Checks = "checks",
        /// The ways to the sheets of paper.
        Papers = "papers",
        /// Brochure and circuit, the oil thermometer, the solved points.
        Circuit = "circuit",
        /// Saving, and what was saved.
        Saved = "saved",
        /// A link to send, with its code.
        Share = "share",
        /// A text for the dealer.
        Enquiry = "enquiry",
        /// The switch of the units.
        Units = "units",
    }
}

impl Part {
    /// What it is called where one chooses.
    pub fn title(self) -> &'static str {
        match self {
            Self::Machines => "Other machines of the table",
            Self::Own => "A machine of one's own",
            Self::Filters => "Filters above the list",
            Self::Compare => "Side by side",
            Self::Changes => "What the machine must get",
            Self::Checks => "The checks",
            Self::Papers => "Fitter's and customer's sheet",
            Self::Circuit => "Brochure and circuit, oil, operating points",
            Self::Saved => "Saved comparisons",
            Self::Share => "A link to send",
            Self::Enquiry => "Asking the dealer",
            Self::Units => "The switch of the units",
        }
    }
}

string_enum! {
    /// Where the links of an element lead.
    "way of links" pub enum Links {
        /// They stay in the element.
        Here = "here",
        /// To the app, in the place of the page.
        App = "app",
        /// To the app, in a tab of its own.
        NewTab = "new-tab",
    }
}

/// What the attribute `enquiry` says when the page around the element takes enquiries itself.
pub const PAGE: &str = "page";

/// What the attributes of an element set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settings {
    /// Address of the table; the one beside the app when none is given.
    pub table: Option<String>,
    /// The machine to begin with.
    pub carrier: Option<String>,
    /// The attachment that is asked about.
    pub head: Option<String>,
    /// The units to begin with.
    pub units: Option<UnitSystem>,
    /// What is shown.
    pub show: Vec<Part>,
    /// Where an enquiry goes.
    pub enquiry: Option<String>,
    /// Where links lead.
    pub links: Links,
    /// The address of the whole app.
    pub app: String,
}

impl Settings {
    /// Nothing set; `app` is the folder of the loader.
    pub fn new(app: String) -> Self {
        Self {
            table: None,
            carrier: None,
            head: None,
            units: None,
            show: Part::ALL.to_vec(),
            enquiry: None,
            links: Links::Here,
            app,
        }
    }

    /// The same with an attribute set, or taken away. Words that mean nothing are told to whoever writes the page.
    #[must_use]
    pub fn with(mut self, name: &str, value: Option<String>, folder: &str) -> Self {
        let value = value.map(|value| value.trim().to_owned()).filter(|value| !value.is_empty());
        let unknown = |what: &str, word: &str| {
            web_sys::console::warn_1(&format!("pairwright-fit: {what} “{word}” is not known and is left out").into());
        };
        match name {
            "table" => self.table = value,
            "carrier" => self.carrier = value,
            "head" => self.head = value,
            "enquiry" => {
                let value = value.map(|value| value.trim_start_matches("mailto:").to_owned());
                if let Some(word) = value.as_ref().filter(|word| *word != PAGE && !is_mail_address(word)) {
                    unknown("the mail address for enquiries", word);
                }
                self.enquiry = value;
            }
            "app" => self.app = value.map_or_else(|| folder.to_owned(), resolved),
            "units" => {
                self.units = value.as_deref().and_then(UnitSystem::from_name);
                if let (Some(word), None) = (&value, self.units) {
                    unknown("units", word);
                }
            }
            "links" => {
                let known = value.as_deref().map(Links::from_name);
                if let (Some(word), Some(None)) = (&value, known) {
                    unknown("links", word);
                }
                self.links = known.flatten().unwrap_or(Links::Here);
            }
            "show" => {
                self.show = value.map_or_else(
                    || Part::ALL.to_vec(),
                    |words| {
                        let part = |word: &str| {
                            let part = Part::from_name(word);
                            if part.is_none() && word != "none" {
                                unknown("the part to show", word);
                            }
                            part
                        };
                        words.split_whitespace().filter_map(part).collect()
                    },
                );
            }
            _ => {}
        }
        self
    }
}

/// An address of the page around an element as a whole: what is sent must lead there from anywhere.
pub fn resolved(address: String) -> String {
    let base = document().base_uri().ok().flatten().unwrap_or_default();
    web_sys::Url::new_with_base(&address, &base).map_or(address, |url| url.href())
}
