//! A list of pairings that the solver fills in as it goes. What somebody has touched stands still.

use super::asking::{Asking, ask};
use super::state::app;
use fit::Verdict;
use leptos::prelude::*;
use solver::{Answer, Listing, Request, Row};
use std::sync::Arc;

/// A list that is being solved.
#[derive(Clone, Copy)]
pub struct Listed {
    /// The list as it is shown.
    pub now: RwSignal<Listing>,
    /// Whether what is shown is an answer to what was asked before.
    pub is_old: RwSignal<bool>,
    /// Whether a finger or the focus was on it since it was asked.
    touched: StoredValue<bool>,
}

impl Listed {
    /// Asks whenever what is asked changes, for as long as the screen is shown.
    pub fn of(request: impl Fn() -> Option<Request> + 'static) -> Self {
        let listed = Self {
            now: RwSignal::new(Listing::default()),
            is_old: RwSignal::new(false),
            touched: StoredValue::new(false),
        };
        let asking = StoredValue::new_local(None::<Asking>);
        Effect::new(move |before: Option<Option<Request>>| {
            let request = request();
            if before.is_some_and(|before| before == request) {
                return request;
            }
            listed.is_old.set(listed.now.with_untracked(|now| now.total > 0));
            listed.touched.set_value(false);
            let is_first = StoredValue::new(true);
            let asked = request.as_ref().and_then(|request| ask(request, move |answer| listed.take(answer, is_first)));
            asking.set_value(asked);
            request
        });
        listed
    }

    fn take(self, answer: Answer, is_first: StoredValue<bool>) {
        let is_first = is_first.try_update_value(|first| std::mem::replace(first, false)).unwrap_or(false);
        let touched = self.touched.try_get_value().unwrap_or(false);
        self.now.try_update(|now| {
            if is_first {
                *now = Listing::default();
            }
            now.take(answer, touched);
        });
        self.is_old.try_set(false);
    }

    /// Somebody has a finger or the focus on it.
    pub fn touch(self) {
        self.touched.set_value(true);
    }

    /// Whether it is still being solved.
    pub fn is_solving(self) -> bool {
        self.is_old.get() || !self.now.with(Listing::is_complete)
    }

    /// How far it has come, in words.
    pub fn so_far(self) -> String {
        let (checked, total) = self.now.with(|now| (now.checked, now.total));
        app().words().solving(checked, total)
    }

    /// The verdicts of all that came.
    pub fn verdicts(self) -> Vec<Verdict> {
        self.now.with(|now| now.rows().map(|row| row.verdict).collect())
    }

    /// Those that are shown of it.
    pub fn shown(self, shows: impl Fn(&Row) -> bool) -> Shown {
        self.now.with(|now| {
            let of = |rows: &mut dyn Iterator<Item = &Arc<Row>>| rows.filter(|row| shows(row)).cloned().collect();
            let room = if now.total == 0 { FIRST_ROOM } else { now.room() };
            Shown { above: of(&mut now.above()), room, below: of(&mut now.below()), is_in_order: now.is_in_order() }
        })
    }
}

/// For how many rows room is kept before anything is known.
const FIRST_ROOM: usize = 8;

/// What is shown of a list.
#[derive(Clone, PartialEq)]
pub struct Shown {
    /// The rows above the room that is left.
    pub above: Vec<Arc<Row>>,
    /// For how many rows there is room.
    pub room: usize,
    /// The rows below it.
    pub below: Vec<Arc<Row>>,
    /// Whether it is in its order.
    pub is_in_order: bool,
}

impl Shown {
    /// How many rows are shown.
    pub fn count(&self) -> usize {
        self.above.len() + self.below.len()
    }
}

/// Offers to put a list in order that stood still because somebody touched it.
#[component]
pub fn PutInOrder(listed: Listed) -> impl IntoView {
    move || {
        listed.now.with(|now| now.is_complete() && !now.is_in_order()).then(|| {
            view! {
                <p class="actions put-in-order">"All are checked. "
                    <button type="button" on:click=move |_| listed.now.update(Listing::put_in_order)>"Put the list in order"</button></p>
            }
        })
    }
}
