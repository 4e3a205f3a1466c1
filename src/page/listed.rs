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
        let listed =
            Self { now: RwSignal::new(Listing::default()), is_old: RwSignal::new(false), touched: StoredValue::new(false) };
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

    /// The rows as they are shown.
    pub fn rows(self) -> Vec<Arc<Row>> {
        self.now.with(Listing::rows)
    }

    /// Their verdicts.
    pub fn verdicts(self) -> Vec<Verdict> {
        self.rows().iter().map(|row| row.verdict).collect()
    }
}

/// Offers to put a list in order that stood still because somebody touched it.
#[component]
pub fn PutInOrder(listed: Listed) -> impl IntoView {
    move || {
        listed.now.with(Listing::is_out_of_order).then(|| {
            view! {
                <p class="actions put-in-order">"All are checked. "
                    <button type="button" on:click=move |_| listed.now.update(Listing::put_in_order)>"Put the list in order"</button></p>
            }
        })
    }
}

/// Those of a verdict; all when none is asked for.
pub fn of_verdict(mut all: Vec<Arc<Row>>, wanted: Option<Verdict>) -> Vec<Arc<Row>> {
    all.retain(|row| wanted.is_none_or(|wanted| row.verdict == wanted));
    all
}
