//! Where the app stands: as a page of its own, or as an element in somebody else's page, whose address, title and content
//! are never touched.

use super::route::Route;
use super::state::App;
use super::{history, translated};
use leptos::prelude::*;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys;
use quantity::{Named, UnitSystem, names};
use wording::is_mail_address;

names! {
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

names! {
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

/// The element around the app.
pub struct Around {
    /// The element itself, which events come from.
    pub element: web_sys::HtmlElement,
    /// What the app is mounted into.
    pub frame: web_sys::HtmlElement,
    /// The folder of the loader.
    pub folder: String,
}

/// Where the app stands.
#[derive(Clone, Copy)]
pub struct Place {
    around: Option<StoredValue<Around, LocalStorage>>,
    /// What the element's attributes set; as they are by themselves on a page of one's own.
    pub settings: RwSignal<Settings>,
    /// What took the place of the route without a new screen; on a page the address says so.
    replaced: StoredValue<Option<Route>>,
}

impl Place {
    /// A page of its own.
    pub fn page() -> Self {
        Self { around: None, settings: RwSignal::new(Settings::new(String::new())), replaced: StoredValue::new(None) }
    }

    /// An element.
    pub fn element(around: Around, settings: Settings) -> Self {
        Self {
            around: Some(StoredValue::new_local(around)),
            settings: RwSignal::new(settings),
            replaced: StoredValue::new(None),
        }
    }

    /// Whether it is a page of its own.
    pub fn is_page(self) -> bool {
        self.around.is_none()
    }

    /// Whether a part is shown.
    pub fn shows(self, part: Part) -> bool {
        self.settings.with(|settings| settings.show.contains(&part))
    }

    /// The one attachment that an element asks about on whatever machine the reader chooses.
    pub fn only_head(self) -> Memo<Option<String>> {
        Memo::new(move |_| self.settings.with(|all| all.head.clone().filter(|_| all.carrier.is_none())))
    }

    /// Sets the window's title, where the window is ours.
    pub fn title(self, text: &str) {
        if self.is_page() {
            document().set_title(&format!("{text} · Pairwright"));
        }
    }

    /// The address of a fragment of the app.
    pub fn address(self, fragment: &str) -> String {
        if self.is_page() {
            return fragment.to_owned();
        }
        self.settings.with(|settings| format!("{}{fragment}", settings.app))
    }

    /// The address of the whole app, to be sent to others.
    pub fn whole_app(self) -> String {
        if self.is_page() {
            let here = location().href().unwrap_or_default();
            return here.split(['#', '?']).next().unwrap_or_default().to_owned();
        }
        self.settings.with_untracked(|settings| settings.app.clone())
    }

    /// The table beside the app.
    pub fn beside(self, path: &str) -> String {
        self.around
            .map_or_else(|| path.to_owned(), |around| around.with_value(|around| format!("{}{path}", around.folder)))
    }

    /// The address of the table beside the app, where an element's links lead to another copy of the app than it is from; none
    /// where that copy has the same one beside it.
    pub fn table_beside(self) -> Option<String> {
        let around = self.around?;
        let folder = around.with_value(|around| around.folder.clone());
        self.settings.with(|settings| settings.app != folder).then(|| self.beside(super::load::OWN))
    }

    /// Puts the focus on the screen's heading, once it is drawn.
    pub fn focus_heading(self) {
        request_animation_frame(move || {
            let heading = match self.around {
                None => document().query_selector("main h1"),
                // It may have been taken out of its page meanwhile.
                Some(around) => match around.try_with_value(|around| around.frame.query_selector("h1")) {
                    Some(found) => found,
                    None => return,
                },
            };
            if let Ok(Some(heading)) = heading
                && let Some(heading) = heading.dyn_ref::<web_sys::HtmlElement>()
            {
                let _ = heading.focus();
            }
        });
    }

    /// Whether the focus is on the screen's heading.
    pub fn heading_has_focus(self) -> bool {
        let found = match self.around {
            None => document().query_selector("main h1:focus"),
            Some(around) => around.try_with_value(|around| around.frame.query_selector("h1:focus")).unwrap_or(Ok(None)),
        };
        found.ok().flatten().is_some()
    }

    /// What changes within an element is seen where its page is translated, too.
    pub fn follow_translation(self) {
        if let Some(around) = self.around {
            around.with_value(|around| translated::follow(&around.frame));
        }
    }

    /// Shows what was told at the top.
    pub fn to_top(self) {
        match self.around {
            None => window().scroll_to_with_x_and_y(0.0, 0.0),
            Some(around) => around.with_value(|around| around.frame.scroll_into_view()),
        }
    }

    /// Whether an element shows this screen itself; the others are the app's.
    fn has(self, route: &Route) -> bool {
        self.settings.with_untracked(|settings| {
            let shows = |part: Part| settings.show.contains(&part);
            settings.links == Links::Here
                && match route {
                    Route::Start | Route::Attachments | Route::Attachment { .. } | Route::Work { .. } => {
                        shows(Part::Machines)
                    }
                    Route::Machine { .. } | Route::Sheet { .. } => true,
                    Route::Compare { .. } => shows(Part::Compare) || shows(Part::Saved),
                    Route::Own | Route::NewPlate { .. } | Route::Plate { .. } => shows(Part::Own),
                    Route::Saved => shows(Part::Saved),
                    // A paper is printed by itself, not with the page around an element; a hand-over is the workshop's.
                    Route::Paper { .. }
                    | Route::HandOver { .. }
                    | Route::HandOverPaper { .. }
                    | Route::Table
                    | Route::Snippet
                    | Route::Link { .. }
                    | Route::Stamped { .. }
                    | Route::Unknown => false,
                }
        })
    }

    /// Goes to a screen.
    pub fn go(self, app: App, route: Route) {
        if self.is_page() {
            let _ = location().set_hash(&route.fragment());
        } else if self.has(&route) {
            self.replaced.set_value(None);
            app.route.set(route);
            self.focus_heading();
        } else {
            self.leave(&app.href(&route));
        }
    }

    /// Puts another address in the place of the present one without going there.
    pub fn replace(self, route: &Route) {
        if self.is_page() {
            history::replace(&route.fragment());
        } else {
            self.replaced.set_value(Some(route.clone()));
        }
    }

    /// Where an element stands, given its route.
    pub fn standing(self, route: Route) -> Route {
        match route {
            // The plate is kept by now, or something else is asked on the same screen.
            Route::NewPlate { .. } | Route::Machine { .. } | Route::Work { .. } => {
                let replaced = self.replaced.get_value();
                replaced.filter(|replaced| replaced.takes_the_place_of(&route)).unwrap_or(route)
            }
            _ => route,
        }
    }

    fn leave(self, address: &str) {
        let new_tab = self.settings.with_untracked(|settings| settings.links != Links::App);
        let _ = if new_tab {
            window().open_with_url_and_target_and_features(address, "_blank", "noopener").map(|_| ())
        } else {
            location().set_href(address)
        };
    }

    /// Follows a click on a link within an element, so that the page around it stays where it is. A click with a key held
    /// is the browser's: it opens the app in another tab.
    pub fn follow_click(self, app: App, event: &web_sys::MouseEvent) {
        let held = event.ctrl_key() || event.meta_key() || event.shift_key() || event.alt_key();
        if self.is_page() || held || event.button() != 0 || event.default_prevented() {
            return;
        }
        let link = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
        let link = link.and_then(|target| target.closest("a[href]").ok().flatten());
        let Some(href) = link.and_then(|link| link.get_attribute("href")) else { return };
        // Only screens have such a fragment; the address before it may have been another when the link was drawn.
        let Some((_, fragment)) = href.split_once("#/").filter(|(before, _)| !before.starts_with("mailto:")) else {
            return;
        };
        let route = match Route::of_fragment(&format!("#/{fragment}")) {
            Route::Stamped { to, .. } => *to,
            route => route,
        };
        let links = self.settings.with_untracked(|settings| settings.links);
        if self.has(&route) || links != Links::App {
            event.prevent_default();
            self.go(app, route);
        }
    }

    /// Tells the page around it something when there is time: what that page does then must not happen while we draw.
    pub fn tell(self, name: &'static str, detail: String) {
        if !self.is_page() {
            queue_microtask(move || {
                self.emit(name, &detail);
            });
        }
    }

    /// Tells the page around it; whether that page leaves the rest to us.
    pub fn emit(self, name: &str, detail: &str) -> bool {
        let Some(around) = self.around else { return true };
        let options = web_sys::CustomEventInit::new();
        options.set_bubbles(true);
        options.set_cancelable(true);
        options.set_detail(&js_sys::JSON::parse(detail).unwrap_or(JsValue::NULL));
        let event = web_sys::CustomEvent::new_with_event_init_dict(name, &options);
        event.ok().is_none_or(|event| {
            let told = around.try_with_value(|around| around.element.dispatch_event(&event));
            told.and_then(Result::ok).unwrap_or(true)
        })
    }
}
