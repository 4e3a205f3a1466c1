//! Where the app stands: as a page of its own, or as an element in somebody else's page, whose address, title and content
//! are never touched.

use super::attributes::{Links, Part, Settings};
use super::loaded::OWN_TABLE;
use super::route::Route;
use super::translated;
use leptos::prelude::*;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys;

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
pub struct Host {
    around: Option<StoredValue<Around, LocalStorage>>,
    /// What the element's attributes set; as they are by themselves on a page of one's own.
    pub settings: RwSignal<Settings>,
    /// What took the place of the route without a new screen; on a page the address says so.
    replaced: StoredValue<Option<Route>>,
}

/// From how many pixels on columns have room; as in the style sheet, 38 units of text.
const WIDE: f64 = 608.0;

impl Host {
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

    /// Whether there is room for columns side by side.
    pub fn is_wide(self) -> bool {
        let width = match self.around {
            None => window().inner_width().ok().and_then(|width| width.as_f64()),
            Some(around) => around.try_with_value(|around| f64::from(around.frame.client_width())),
        };
        width.is_some_and(|width| width >= WIDE)
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
        self.settings.with(|settings| settings.app != folder).then(|| self.beside(OWN_TABLE))
    }

    /// Puts the focus on the screen's heading, once it is drawn, and brings it into sight.
    pub fn focus_heading(self) {
        self.focus(true);
    }

    /// Puts the focus on the heading of a screen that was just opened: what stands above it stays in sight.
    pub fn arrive(self) {
        self.focus(false);
    }

    fn focus(self, scrolls: bool) {
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
                let options = web_sys::FocusOptions::new();
                options.set_prevent_scroll(!scrolls);
                let _ = heading.focus_with_options(&options);
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
    pub fn has(self, route: &Route) -> bool {
        self.settings.with_untracked(|settings| {
            let shows = |part: Part| settings.show.contains(&part);
            settings.links == Links::Here
                && match route {
                    Route::Start | Route::Attachments | Route::Attachment { .. } | Route::Work { .. } => {
                        shows(Part::Machines)
                    }
                    Route::Machine { .. } | Route::Sheet { .. } => true,
                    Route::Compare { .. } => shows(Part::Compare) || shows(Part::Saved),
                    Route::Own | Route::NewPlate { .. } | Route::PlateLike { .. } | Route::Plate { .. } => {
                        shows(Part::Own)
                    }
                    Route::Saved => shows(Part::Saved),
                    // A paper is printed by itself, not with the page around an element; a hand-over is the workshop's.
                    Route::Paper { .. }
                    | Route::Quotation { .. }
                    | Route::HandOver { .. }
                    | Route::HandOverPaper { .. }
                    | Route::Table
                    | Route::Import
                    | Route::Entry { .. }
                    | Route::Snippet
                    | Route::Link { .. }
                    | Route::Stamped { .. }
                    | Route::Unknown => false,
                }
        })
    }

    /// Puts another address in the place of the present one without going there.
    pub fn replace(self, route: &Route) {
        if self.is_page() {
            replace_address(&route.fragment());
        } else {
            self.replaced.set_value(Some(route.clone()));
        }
    }

    /// Forgets what took the place of the route, as another screen is shown.
    pub fn forget_replaced(self) {
        self.replaced.set_value(None);
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

    /// Goes to an address of the app outside of the element.
    pub fn leave(self, address: &str) {
        let new_tab = self.settings.with_untracked(|settings| settings.links != Links::App);
        let _ = if new_tab {
            window().open_with_url_and_target_and_features(address, "_blank", "noopener").map(|_| ())
        } else {
            location().set_href(address)
        };
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

/// Puts another address in the place of the present one; the number that `history` gave it stays.
fn replace_address(fragment: &str) {
    if let Ok(history) = window().history() {
        let number = history.state().unwrap_or(JsValue::NULL);
        let _ = history.replace_state_with_url(&number, "", Some(fragment));
    }
}
