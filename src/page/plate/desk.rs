//! What the screens of a spec plate work on: the plate, what it is asked, what comes out of it.

// The desk is a handful of handles, made to be copied.
#![allow(clippy::large_types_passed_by_value)]

use super::super::breath::Breath;
use super::super::loaded::Loaded;
use super::super::route::Route;
use super::super::state::App;
use super::super::{storage, time};
use fit::{FactId, Pairing, Verdict, pair, step};
use leptos::prelude::*;
use leptos::task::spawn_local;
use record::plate::{self, Plate};
use std::collections::BTreeMap;
use std::sync::Arc;
use table::{CarrierClass, Head};

/// Where one is.
#[derive(Clone, Copy, PartialEq)]
pub enum Step {
    /// What stands on the machine's own plate.
    Plate,
    /// One of the questions, counted from the first.
    Question(usize),
    /// What comes out, and all that was written.
    Answer,
}

/// What stands when another table comes in under the screen: what was typed is not asked for again.
#[derive(Clone, Copy)]
pub struct Standing {
    pub plate: StoredValue<Option<Plate>>,
    pub step: RwSignal<Step>,
}

impl Standing {
    pub fn new(step: Step) -> Self {
        Self { plate: StoredValue::new(None), step: RwSignal::new(step) }
    }
}

/// A first answer: that of a machine which is typical for the class.
#[derive(Clone, PartialEq)]
pub struct Typical {
    /// The machine.
    pub name: String,
    /// What comes out on it.
    pub verdicts: Vec<Verdict>,
}

/// What the screen works on.
#[derive(Clone, Copy)]
pub struct Desk {
    pub app: App,
    pub plate: RwSignal<Plate>,
    /// Where one is.
    pub step: RwSignal<Step>,
    /// Ids of the chosen attachments; all when empty.
    pub chosen: RwSignal<Vec<String>>,
    /// What attachments ask of a machine of this class; none until it is known.
    pub asked: RwSignal<Option<Vec<(FactId, usize)>>>,
    /// The chosen attachments that ask it.
    pub asking: StoredValue<Option<Vec<String>>>,
    /// A first answer, until the figures are read.
    pub typical: RwSignal<Option<Typical>>,
    /// The verdicts, in the order of the table.
    pub verdicts: RwSignal<Vec<Arc<Pairing>>>,
    /// Whether they are being solved.
    pub busy: RwSignal<bool>,
    /// How many are solved of how many.
    pub done: RwSignal<(usize, usize)>,
    /// The newest round of solving; an older one stops.
    pub round: StoredValue<u32>,
    /// The names that nobody gave it.
    pub by_itself: StoredValue<Vec<String>>,
}

impl Desk {
    /// Goes to a step; who listens is told where he is.
    pub fn go(self, step: Step) {
        self.step.set(step);
        self.app.host.focus_heading();
    }

    /// Whether nobody has given it a name.
    pub fn is_nameless(self, plate: &Plate) -> bool {
        self.by_itself.with_value(|names| names.contains(&plate.name))
    }

    /// The plate as it is kept, which may be older than it stands here.
    pub fn kept(self) -> Option<Plate> {
        self.app.own.with(|own| self.plate.with(|plate| own.iter().find(|known| known.id == plate.id).cloned()))
    }
}

/// A machine of one's own like one of the table.
pub fn like(app: App, loaded: &Loaded, carrier: &str, id: &str) -> Option<Plate> {
    let of = loaded.table.carrier(carrier)?;
    let mass = of.operating_mass.as_ref().map(|mass| mass.nominal);
    let name = app.words().own_name(of.class, mass);
    Plate::like(&loaded.text, carrier, (id.to_owned(), name, time::now()))
}

/// The name that the machine has as long as nobody gives it one.
pub fn named_by_itself(desk: Desk) -> String {
    let (class, mass) = desk.plate.with_untracked(|plate| {
        let mass = plate.read().carrier.and_then(|carrier| Some(carrier.operating_mass?.nominal));
        (plate.class().unwrap_or(CarrierClass::MiniExcavator), mass)
    });
    desk.app.words().own_name(class, mass)
}

/// Keeps the plate when something on it has changed since the screen was opened.
pub fn keep(desk: Desk, first: &Plate, standing: Standing) {
    let plate = desk.plate.get_untracked();
    let heads = desk.chosen.get_untracked();
    let changed = Plate { heads, ..plate };
    standing.plate.set_value(Some(changed.clone()));
    let known = untrack(|| desk.kept());
    let before = known.as_ref().unwrap_or(first);
    if changed.says_the_same(before) && changed.is_unchecked() == before.is_unchecked() && changed.heads == before.heads
    {
        return;
    }
    // The choice of attachments alone makes no machine.
    if known.is_none() && changed.name == first.name && changed.figures.is_empty() {
        return;
    }
    let changed = Plate { changed: time::now(), ..changed };
    // What another tab has typed meanwhile stays.
    if storage::save_merged(desk.app, before, &changed).is_some() {
        // A reload comes back to what was kept.
        if known.is_none() {
            desk.app.host.replace(&Route::plate(&changed.id));
        }
    }
}

/// What one round of solving works on.
struct Round {
    desk: Desk,
    loaded: Arc<Loaded>,
    /// Its number; a newer one stops it.
    number: u32,
    chosen: Vec<String>,
    breath: Breath,
}

impl Round {
    /// Begins a round, which stops the one before.
    fn begin(desk: Desk, loaded: Arc<Loaded>, chosen: Vec<String>) -> Self {
        desk.round.update_value(|round| *round += 1);
        desk.busy.set(true);
        Self { desk, loaded, number: desk.round.get_value(), chosen, breath: Breath::new() }
    }

    fn is_newest(&self) -> bool {
        self.desk.round.try_get_value() == Some(self.number)
    }

    /// Whether the step is shown that has the first answer.
    fn shows_first(&self) -> bool {
        self.desk.step.try_get_untracked() == Some(Step::Plate)
    }

    /// The chosen attachments on a machine with this plate, a stretch at a time; none when it is wanted no more.
    async fn all(&self, plate: &Plate, is_wanted: impl Fn() -> bool) -> Option<Vec<Arc<Pairing>>> {
        let carrier = plate.read().carrier?;
        let wanted = |head: &&Head| self.chosen.is_empty() || self.chosen.iter().any(|id| head.id.as_str() == id);
        let (mut all, total) = (Vec::new(), self.loaded.table.heads.iter().filter(wanted).count());
        for head in self.loaded.table.heads.iter().filter(wanted) {
            all.push(Arc::new(pair(&carrier, head, &self.loaded.conditions)));
            self.desk.done.try_set((all.len(), total));
            step(&self.breath).await;
            if !self.is_newest() || !is_wanted() {
                return None;
            }
        }
        Some(all)
    }

    /// The first answer, as long as its step is shown.
    async fn first(&self, plate: &Plate) {
        if !self.shows_first() || !self.is_newest() {
            return;
        }
        let Some((name, typical)) = typical(self.desk, &self.loaded, plate) else {
            self.desk.typical.try_set(None);
            return;
        };
        match self.all(&typical, || self.shows_first()).await {
            Some(all) => {
                let verdicts = all.iter().map(|pairing| pairing.verdict).collect();
                self.desk.typical.try_set(Some(Typical { name, verdicts }));
            }
            // It was left on the way: what stands there may be of an older plate.
            None if self.is_newest() => {
                self.desk.typical.try_set(None);
            }
            None => {}
        }
    }

    fn end(&self) {
        if self.is_newest() {
            self.desk.busy.try_set(false);
        }
    }
}

/// Solves the chosen attachments; before them, where others asked before, what they ask of a machine of which nothing but the class is
/// known. The first answer is solved where it is shown alone, and there before all else.
pub fn solve(desk: Desk, loaded: Arc<Loaded>, plate: Plate, chosen: Vec<String>) {
    let round = Round::begin(desk, loaded, chosen);
    if !round.shows_first() {
        desk.typical.set(None);
    }
    spawn_local(async move {
        round.first(&plate).await;
        let chosen = &round.chosen;
        if desk.asking.try_with_value(|asking| asking.as_ref() != Some(chosen)) == Some(true) {
            let blank = Plate { figures: BTreeMap::new(), ..plate.clone() };
            let Some(all) = round.all(&blank, || true).await else { return round.end() };
            desk.asked.try_set(Some(plate::asked(all.iter().map(AsRef::as_ref))));
            desk.asking.try_set_value(Some(chosen.clone()));
        }
        let Some(all) = round.all(&plate, || true).await else { return round.end() };
        desk.verdicts.try_set(all);
        // Somebody may have come back to it meanwhile.
        if desk.typical.try_with_untracked(Option::is_none) == Some(true) {
            round.first(&plate).await;
        }
        round.end();
    });
}

/// Solves the first answer for whoever comes back to its step, where it is not known and nothing is being solved.
pub fn solve_first(desk: Desk, loaded: Arc<Loaded>) {
    if desk.busy.get_untracked() || desk.typical.with_untracked(Option::is_some) {
        return;
    }
    let round = Round::begin(desk, loaded, desk.chosen.get_untracked());
    let plate = desk.plate.get_untracked();
    spawn_local(async move {
        round.first(&plate).await;
        round.end();
    });
}

/// The plate with what is not on it taken from the machine that is nearest in mass, and that machine's name.
fn typical(desk: Desk, loaded: &Loaded, plate: &Plate) -> Option<(String, Plate)> {
    let mass = plate.read().carrier?.operating_mass?.nominal;
    let near = plate::nearest(&loaded.table, plate.class()?, mass)?;
    let like = like(desk.app, loaded, near.id.as_str(), &plate.id)?;
    let name = like.taken_from.clone();
    let figures = like.figures.into_iter().chain(plate.figures.clone()).collect();
    Some((name, Plate { figures, ..plate.clone() }))
}

/// How far the solving has come.
pub fn so_far(desk: Desk) -> String {
    let (done, total) = desk.done.get();
    desk.app.words().solving(done, total)
}

/// How many attachments come out how, so far.
pub fn tally(desk: Desk) -> String {
    let verdicts: Vec<Verdict> = desk.verdicts.with(|all| all.iter().map(|pairing| pairing.verdict).collect());
    if verdicts.is_empty() {
        return if desk.busy.get() { so_far(desk) } else { "No attachments".to_owned() };
    }
    desk.app.words().tally(&verdicts)
}
