//! A list of pairings that is solved in stretches and put in order once all of it is known, so that nothing jumps meanwhile.

use super::breath::Breath;
use super::loaded::Loaded;
use super::state::{App, app};
use fit::{Pairing, Verdict, step};
use leptos::prelude::*;
use leptos::task::spawn_local;
use std::cmp::Ordering;
use std::sync::Arc;
use table::{Carrier, Head};

/// How often it is told how far the solving has come, in milliseconds.
const TOLD: f64 = 200.0;

/// A machine with an attachment, and what came out.
#[derive(Clone)]
pub struct Ranked {
    /// The machine.
    pub carrier: Arc<Carrier>,
    /// The attachment.
    pub head: Arc<Head>,
    /// What came out.
    pub pairing: Arc<Pairing>,
}

impl PartialEq for Ranked {
    /// Solved once, it is the same one: looking into it would take longer than to draw it anew.
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.pairing, &other.pairing)
    }
}

/// A list that is being solved.
#[derive(Clone, Copy)]
pub struct Ranking {
    /// Best first; empty until all are solved.
    pub all: RwSignal<Vec<Ranked>>,
    /// How many there will be.
    pub total: usize,
    done: RwSignal<usize>,
}

impl Ranking {
    /// Begins to solve, for as long as the screen is shown.
    pub fn of(
        app: App,
        loaded: Arc<Loaded>,
        pairs: Vec<(Arc<Carrier>, Arc<Head>)>,
        order: fn(&Ranked, &Ranked) -> Ordering,
    ) -> Self {
        let ranking = Self { all: RwSignal::new(Vec::new()), total: pairs.len(), done: RwSignal::new(0) };
        spawn_local(async move {
            let (mut all, breath, mut told) = (Vec::new(), Breath::new(), 0.0);
            for (carrier, head) in pairs {
                let pairing = app.pairing_in_stretches(&loaded, &carrier, &head, &breath).await;
                all.push(Ranked { carrier, head, pairing });
                step(&breath).await;
                // The person may have gone to another screen meanwhile.
                if ranking.all.is_disposed() {
                    return;
                }
                if js_sys::Date::now() - told > TOLD {
                    told = js_sys::Date::now();
                    ranking.done.set(all.len());
                }
            }
            all.sort_by(order);
            ranking.all.set(all);
        });
        ranking
    }

    /// Whether it is still being solved.
    pub fn is_solving(self) -> bool {
        self.all.with(Vec::is_empty) && self.total > 0
    }

    /// How far it has come, in words.
    pub fn so_far(self) -> String {
        app().words().solving(self.done.get(), self.total)
    }
}

/// Those of a verdict; all when none is asked for.
pub fn of_verdict(mut all: Vec<Ranked>, wanted: Option<Verdict>) -> Vec<Ranked> {
    all.retain(|row| wanted.is_none_or(|wanted| row.pairing.verdict == wanted));
    all
}

/// The verdicts of a list.
pub fn verdicts(all: &[Ranked]) -> Vec<Verdict> {
    all.iter().map(|row| row.pairing.verdict).collect()
}
