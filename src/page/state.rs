//! What all screens share.

use super::attributes::{Links, Part};
use super::breath::Breath;
use super::file_read::FileRead;
use super::host::Host;
use super::loaded::{Loaded, Loading};
use super::local_storage;
use super::notice::{self, Notice};
use super::route::{Pair, Route};
use super::theme::Theme;
use super::unread::Unread;
use fit::{Pairing, pair, step};
use intl::INTL;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use quantity::{Named, UnitSystem};
use record::link::LinkTable;
use record::plate::OWN;
use record::stamp::Stamp;
use record::{HandOver, Made, Plate, Recent, RecentEntry, Saved};
use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::sync::Arc;
use table::{Carrier, Head};
use wording::{Search, Words};

/// Where an element stood when it was taken out of its page.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct KeptState {
    route: String,
    ticked: Vec<Pair>,
    units: String,
}

/// How many may stand side by side.
pub const MOST_COMPARED: usize = 6;

/// Solved pairings by machine and attachment.
type Solved = HashMap<Pair, Arc<Pairing>>;

/// The app's shared signals.
#[derive(Clone, Copy)]
pub struct App {
    /// Where it stands.
    pub host: Host,
    /// The screen.
    pub route: RwSignal<Route>,
    /// The table, or what keeps it away.
    pub loading: RwSignal<Loading>,
    /// Metric or US.
    pub units: RwSignal<UnitSystem>,
    /// Light or dark.
    pub theme: RwSignal<Theme>,
    /// Saved comparisons, newest first.
    pub saved: RwSignal<Vec<Saved>>,
    /// Machines of one's own, the one changed last first.
    pub own: RwSignal<Vec<Plate>>,
    /// Records of hand-overs, the one changed last first.
    pub handovers: RwSignal<Vec<HandOver>>,
    /// What could not be read and was put aside: key and text.
    pub aside: RwSignal<Vec<(String, String)>>,
    /// The file that is read or was read, until its table is used.
    pub file: RwSignal<FileRead>,
    /// What the person must be told.
    pub notices: RwSignal<Vec<Notice>>,
    /// What is to stand side by side, from whatever screen it was chosen.
    pub ticked: RwSignal<Vec<Pair>>,
    /// What was opened last.
    pub recent: RwSignal<Recent>,
    /// Machines that came in a link: used as long as the page is open, and kept only when the person asks.
    pub visiting: RwSignal<Vec<Plate>>,
    /// Whether an answer was just given on a sheet: then the next question is gone on to.
    pub goes_on: StoredValue<bool>,
    /// What was looked for among the machines, for whoever does not find his.
    pub sought: StoredValue<Search>,
    /// What was kept and could not be read, as far as it was told.
    pub unread: StoredValue<Unread>,
    solved: StoredValue<Solved>,
    /// How often what was solved was forgotten.
    forgotten: StoredValue<u32>,
    asked: StoredValue<u32>,
}

/// The app, from any component.
pub fn app() -> App {
    expect_context()
}

impl App {
    /// The app as it starts, with what this browser has kept of the reader's ways.
    pub fn new(host: Host) -> Self {
        let units = local_storage::preference("units").and_then(|name| UnitSystem::from_name(&name));
        let theme = local_storage::preference("theme").map_or(Theme::System, |name| Theme::from_name(&name));
        Self {
            host,
            route: RwSignal::new(Route::Start),
            loading: RwSignal::new(Loading::Waiting),
            units: RwSignal::new(units.unwrap_or(UnitSystem::Metric)),
            theme: RwSignal::new(theme),
            saved: RwSignal::new(Vec::new()),
            own: RwSignal::new(Vec::new()),
            handovers: RwSignal::new(Vec::new()),
            aside: RwSignal::new(Vec::new()),
            file: RwSignal::new(FileRead::None),
            notices: RwSignal::new(Vec::new()),
            ticked: RwSignal::new(Vec::new()),
            recent: RwSignal::new(if host.is_page() { local_storage::recent() } else { Recent::default() }),
            visiting: RwSignal::new(Vec::new()),
            goes_on: StoredValue::new(false),
            sought: StoredValue::new(Search::default()),
            unread: StoredValue::new(Unread::default()),
            solved: StoredValue::new(Solved::new()),
            forgotten: StoredValue::new(0),
            asked: StoredValue::new(0),
        }
    }

    /// The address of a screen. One that leads out of somebody else's page says of which table it is, so that it is not opened with
    /// another.
    pub fn href(&self, route: &Route) -> String {
        let fragment = route.fragment();
        let stamp = if self.host.is_page() { None } else { self.stamp(route) };
        self.host.address(&stamp.map_or_else(|| fragment.clone(), |stamp| stamp.behind(&fragment)))
    }

    /// The fragment of a screen with of which table it is, to be sent; none of a screen that shows nothing of a table.
    pub fn stamped(&self, route: &Route) -> Option<String> {
        Some(self.stamp(route)?.behind(&route.fragment()))
    }

    /// Of which table a screen is; none of one that shows nothing of it.
    fn stamp(&self, route: &Route) -> Option<Stamp> {
        let (carriers, heads) = route.ids()?;
        let loaded = self.table()?;
        let beside = || self.host.table_beside();
        let address = loaded.origin.address().map(str::to_owned).or_else(beside);
        let table = LinkTable::of(&loaded.table, &loaded.mark, address.as_deref());
        let entries =
            if carriers.is_empty() && heads.is_empty() { None } else { loaded.entries().of_ids(&carriers, &heads) };
        Some(Stamp { table, entries })
    }

    /// Goes to a screen.
    pub fn go(&self, route: Route) {
        if self.host.is_page() {
            let _ = location().set_hash(&route.fragment());
        } else if self.host.has(&route) {
            self.host.forget_replaced();
            self.route.set(route);
            self.host.focus_heading();
        } else {
            self.host.leave(&self.href(&route));
        }
    }

    /// Follows a click on a link within an element, so that the page around it stays where it is. A click with a key held
    /// is the browser's: it opens the app in another tab.
    pub fn follow_click(&self, event: &web_sys::MouseEvent) {
        let held = event.ctrl_key() || event.meta_key() || event.shift_key() || event.alt_key();
        if self.host.is_page() || held || event.button() != 0 || event.default_prevented() {
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
        let links = self.host.settings.with_untracked(|settings| settings.links);
        if self.host.has(&route) || links != Links::App {
            event.prevent_default();
            self.go(route);
        }
    }

    /// Tells the person something; the same words do not stand twice.
    pub fn tell(&self, notice: Notice) {
        if self.notices.with_untracked(|notices| notices.iter().any(|known| known.takes_over(&notice))) {
            return;
        }
        self.notices.update(|notices| notice::add(notices, notice));
    }

    /// Whether a part is shown here.
    pub fn shows(&self, part: Part) -> bool {
        self.host.shows(part)
    }

    /// Where an element stands, to go on there when it comes back into a page.
    pub fn state(&self) -> KeptState {
        KeptState {
            route: self.host.standing(self.route.get_untracked()).fragment(),
            ticked: self.ticked.get_untracked(),
            units: self.units.get_untracked().name().to_owned(),
        }
    }

    /// Goes on where an element stood.
    pub fn go_on(&self, kept: KeptState) {
        self.route.set(Route::of_fragment(&kept.route));
        self.ticked.set(kept.ticked);
        if let Some(units) = UnitSystem::from_name(&kept.units) {
            self.units.set(units);
        }
    }

    /// The table, once it is there.
    pub fn table(&self) -> Option<Arc<Loaded>> {
        self.loading.with(|loading| match loading {
            Loading::Ready(loaded) => Some(loaded.clone()),
            Loading::Waiting | Loading::Failed(_) => None,
        })
    }

    /// A machine of one's own, or one that came in a link.
    pub fn plate(&self, carrier: &str) -> Option<Plate> {
        let among = |plates: &Vec<Plate>| plates.iter().find(|plate| plate.carrier_id() == carrier).cloned();
        carrier.starts_with(OWN).then(|| self.own.with(among).or_else(|| self.visiting.with(among)))?
    }

    /// With what a pairing is made.
    pub fn made(&self, loaded: &Loaded, pairing: &Pairing) -> Option<Made> {
        loaded.entries().made(pairing, self.plate(pairing.carrier.id.as_str()).as_ref())
    }

    /// With what the pairings of a machine with these attachments are made, before they are solved.
    pub fn made_of(&self, loaded: &Loaded, carrier: &str, heads: &[&str]) -> Option<Made> {
        let own = self.plate(carrier);
        let all: Option<Vec<Made>> =
            heads.iter().map(|head| loaded.entries().made_of(carrier, head, own.as_ref())).collect();
        Made::of_all(&all?)
    }

    /// Whose figures a machine has that nobody has checked on it; none when they are its own. One that is not kept came in a link.
    pub fn whose_figures(&self, carrier: &str) -> Option<String> {
        let plate = self.plate(carrier)?;
        let kept = self.own.with(|own| own.iter().any(|known| known.id == plate.id));
        self.words().whose_figures(&if kept { plate } else { plate.came_in_a_link() })
    }

    /// A machine of the table, of one's own, or from a link.
    pub fn carrier(&self, loaded: &Loaded, id: &str) -> Option<Carrier> {
        let own = self.plate(id).and_then(|plate| plate.read().carrier);
        own.or_else(|| loaded.table.carrier(id).cloned())
    }

    /// The same, to be followed: drawn anew only when this very machine is another.
    pub fn machine(self, id: String) -> Memo<Option<Carrier>> {
        Memo::new(move |_| self.table().and_then(|loaded| self.carrier(&loaded, &id)))
    }

    /// Forgets what was solved, as a machine of one's own has changed.
    pub fn forget_solved(&self) {
        self.solved.set_value(Solved::new());
        self.forgotten.update_value(|count| *count += 1);
    }

    /// Takes a table into use; what was solved with another is forgotten.
    pub fn take(&self, loaded: Loaded) {
        self.forget_solved();
        self.loading.set(Loading::Ready(Arc::new(loaded)));
    }

    /// Notes that a table is asked for. Only the newest asking may put its table into use: an older one that comes late
    /// must not take its place.
    pub fn ask(&self) -> u32 {
        self.asked.update_value(|asked| *asked += 1);
        self.asked.get_value()
    }

    /// Whether no other table has been asked for since, and the app is still shown.
    pub fn is_newest(&self, asked: u32) -> bool {
        self.asked.try_get_value() == Some(asked)
    }

    /// One pairing, solved once for each table.
    pub fn pairing(&self, loaded: &Loaded, carrier: &Carrier, head: &Head) -> Arc<Pairing> {
        self.known(carrier, head).unwrap_or_else(|| {
            let solved = Arc::new(pair(carrier, head, &loaded.conditions));
            self.keep_solved(carrier, head, &solved);
            solved
        })
    }

    /// A pairing that was solved already.
    fn known(&self, carrier: &Carrier, head: &Head) -> Option<Arc<Pairing>> {
        self.solved.try_with_value(|solved| solved.get(&key(carrier, head)).cloned()).flatten()
    }

    fn keep_solved(&self, carrier: &Carrier, head: &Head, solved: &Arc<Pairing>) {
        self.solved.try_update_value(|all| all.insert(key(carrier, head), solved.clone()));
    }

    /// Whether a pairing was chosen to stand side by side with others.
    pub fn is_ticked(&self, pair: &Pair) -> bool {
        self.ticked.with(|ticked| ticked.contains(pair))
    }

    /// Whether there is room for one more.
    pub fn may_tick(&self) -> bool {
        self.ticked.with(|ticked| ticked.len() < MOST_COMPARED)
    }

    /// Chooses a pairing to stand side by side with others, or takes it out.
    pub fn turn_tick(&self, pair: &Pair) {
        self.ticked.update(|ticked| match ticked.iter().position(|known| known == pair) {
            Some(place) => {
                ticked.remove(place);
            }
            None if ticked.len() < MOST_COMPARED => ticked.push(pair.clone()),
            None => {}
        });
    }

    /// Notes what is open, to be at hand on the start screen.
    pub fn note_recent(&self, entry: RecentEntry) {
        if self.host.is_page() {
            // Another tab may have noted something meanwhile.
            let recent = local_storage::recent().with(entry);
            local_storage::keep_recent(&recent);
            self.recent.set(recent);
        }
    }

    /// Forgets what was opened last.
    pub fn forget_recent(&self) {
        local_storage::keep_recent(&Recent::default());
        self.recent.set(Recent::default());
    }

    /// Whether a pairing is known already.
    pub fn is_solved(&self, carrier: &Carrier, head: &Head) -> bool {
        self.known(carrier, head).is_some()
    }

    /// The same with a rest before it when it is time, so that the screen stays able to answer.
    pub async fn pairing_in_stretches(
        &self,
        loaded: &Loaded,
        carrier: &Carrier,
        head: &Head,
        breath: &Breath,
    ) -> Arc<Pairing> {
        if let Some(known) = self.known(carrier, head) {
            return known;
        }
        let begun = self.state_of_solving();
        step(breath).await;
        let solved = Arc::new(pair(carrier, head, &loaded.conditions));
        // What was solved of another table, or of a machine that has changed meanwhile, is kept for nobody.
        if self.state_of_solving() == begun {
            self.keep_solved(carrier, head, &solved);
        }
        solved
    }

    /// A number that changes when what was solved is forgotten.
    fn state_of_solving(&self) -> Option<u32> {
        self.forgotten.try_get_value()
    }

    /// The reader's words: number style and units. Follows the units.
    pub fn words(&self) -> Words<'static> {
        Words { numbers: &INTL, units: self.units.get() }
    }

    /// The same, of the units as they are now.
    pub fn words_untracked(&self) -> Words<'static> {
        Words { numbers: &INTL, units: self.units.get_untracked() }
    }

    /// The units in words.
    pub fn units_name(&self) -> &'static str {
        match self.units.get() {
            UnitSystem::Metric => "L/min · bar",
            UnitSystem::UsCustomary => "gpm · psi",
        }
    }

    /// Metric to US and back.
    pub fn turn_units(&self) {
        let next = match self.units.get_untracked() {
            UnitSystem::Metric => UnitSystem::UsCustomary,
            UnitSystem::UsCustomary => UnitSystem::Metric,
        };
        self.units.set(next);
        local_storage::keep_preference("units", next.name());
    }

    /// As the system has it, light, dark.
    pub fn turn_theme(&self) {
        let next = match self.theme.get_untracked() {
            Theme::System => Theme::Light,
            Theme::Light => Theme::Dark,
            Theme::Dark => Theme::System,
        };
        self.theme.set(next);
        local_storage::keep_preference("theme", next.name());
    }
}

/// Under which a solved pairing is kept.
fn key(carrier: &Carrier, head: &Head) -> Pair {
    (carrier.id.to_string(), head.id.to_string())
}
