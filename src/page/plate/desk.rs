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

/// Solves the chosen attachments a stretch at a time; first, where others asked before, what they ask of a machine of which nothing but
/// the class is known.
pub fn solve(desk: Desk, loaded: Arc<Loaded>, plate: Plate, chosen: Vec<String>) {
    desk.round.update_value(|round| *round += 1);
    let round = desk.round.get_value();
    let stale = move || desk.round.try_get_value() != Some(round);
    spawn_local(async move {
        let wanted = |head: &&Head| chosen.is_empty() || chosen.iter().any(|id| head.id.as_str() == id);
        let heads: Vec<&Head> = loaded.table.heads.iter().filter(wanted).collect();
        let breath = Breath::new();
        let all_of = async |plate: &Plate| {
            let carrier = plate.read().carrier?;
            let mut all = Vec::new();
            for head in &heads {
                all.push(Arc::new(pair(&carrier, head, &loaded.conditions)));
                step(&breath).await;
                if stale() {
                    return None;
                }
            }
            Some(all)
        };
        if desk.asking.try_with_value(|asking| asking.as_ref() != Some(&chosen)) == Some(true) {
            let blank = Plate { figures: BTreeMap::new(), ..plate.clone() };
            let Some(all) = all_of(&blank).await else { return };
            desk.asked.try_set(Some(plate::asked(all.iter().map(AsRef::as_ref))));
            desk.asking.try_set_value(Some(chosen.clone()));
        }
        let Some(all) = all_of(&plate).await else { return };
        desk.verdicts.try_set(all);
        let Some((name, typical)) = typical(desk, &loaded, &plate) else {
            desk.typical.try_set(None);
            desk.busy.try_set(false);
            return;
        };
        if let Some(all) = all_of(&typical).await {
            let verdicts = all.iter().map(|pairing| pairing.verdict).collect();
            desk.typical.try_set(Some(Typical { name, verdicts }));
            desk.busy.try_set(false);
        }
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

/// How many attachments come out how, so far.
pub fn tally(desk: Desk) -> String {
    let verdicts: Vec<Verdict> = desk.verdicts.with(|all| all.iter().map(|pairing| pairing.verdict).collect());
    if verdicts.is_empty() {
        return if desk.busy.get() {
            "Asking the circuits what they need …".to_owned()
        } else {
            "No attachments".to_owned()
        };
    }
    desk.app.words().tally(&verdicts)
}
