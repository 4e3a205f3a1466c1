//! What the form of an entry works on.

use super::super::state::App;
use entry::{Draft, Entry, Form, Role, Target, of_table};
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::HashMap;
use table::{Problem, Severity};

/// An entry by its list and id; a new one has none.
type Key = (Role, Option<String>);

thread_local! {
    /// What was typed and not saved when a form was left: it stands there again until the page is closed.
    static LEFT: RefCell<HashMap<Key, Draft>> = RefCell::default();
}

/// The names of targets.
pub fn names_of(targets: &[Target]) -> Vec<String> {
    targets.iter().map(Target::name).collect()
}

/// The form's handles.
#[derive(Clone, Copy)]
pub struct Desk {
    pub app: App,
    pub role: Role,
    /// The id; none of a new entry.
    pub id: StoredValue<Option<String>>,
    /// What is typed.
    pub draft: RwSignal<Draft>,
    /// What is wrong with it, by the names of the fields.
    pub problems: Memo<Vec<(Option<String>, Problem)>>,
    pub may_be_saved: Memo<bool>,
    /// Fields that were chosen to be written.
    pub opened: RwSignal<Vec<String>>,
    /// What came of the last saving.
    pub said: RwSignal<String>,
    /// Whether something typed before stands here again.
    pub had_left: bool,
}

impl Desk {
    /// The form of an entry of the table in use, or of a new one; none where there is no such entry.
    pub fn open(app: App, role: Role, id: Option<String>) -> Option<Self> {
        let of = move |id: &Option<String>, text: &str| match id {
            Some(id) => of_table(text, role, id),
            None => Some(Entry::blank(role)),
        };
        let base = untrack(|| app.table()).and_then(|loaded| of(&id, &loaded.text))?;
        let key = (role, id.clone());
        let left = LEFT.with_borrow(|left| left.get(&key).map(|draft| draft.over(base.clone())));
        let had_left = left.as_ref().is_some_and(|draft| draft.count() > 0);
        let draft = RwSignal::new(left.unwrap_or_else(|| Draft::of(base)));
        let problems = Memo::new(move |_| {
            // Of a new one nothing is missing until something is typed.
            if draft.with(|draft| draft.count() == 0 && draft.base().id().is_none()) {
                return Vec::new();
            }
            let told = draft.with(Draft::problems);
            told.into_iter().map(|(at, problem)| (at.map(|target| target.name()), problem)).collect()
        });
        // Another table, or another state of this one, comes in under what is typed.
        Effect::new(move |_| {
            let now = app.table().and_then(|loaded| of(&id, &loaded.text));
            if let Some(now) = now.filter(|now| draft.with_untracked(|draft| draft.base() != now)) {
                draft.update(|draft| *draft = draft.over(now));
            }
        });
        {
            let key = key.clone();
            Effect::new(move |_| {
                let now = draft.get();
                LEFT.with_borrow_mut(|left| {
                    if now.count() == 0 {
                        left.remove(&key)
                    } else {
                        left.insert(key.clone(), now)
                    };
                });
            });
        }
        // Whoever closes the page over something typed is asked.
        let asks = window_event_listener_untyped("beforeunload", move |event| {
            if draft.try_with_untracked(|draft| draft.count() > 0) == Some(true) {
                event.prevent_default();
            }
        });
        on_cleanup(move || asks.remove());
        Some(Self {
            app,
            role,
            id: StoredValue::new(key.1),
            draft,
            problems,
            may_be_saved: Memo::new(move |_| draft.with(Draft::may_be_saved)),
            opened: RwSignal::new(Vec::new()),
            said: RwSignal::new(String::new()),
            had_left,
        })
    }

    /// The form stands as the table has it.
    pub fn drop_changes(self) {
        self.draft.update(|draft| *draft = Draft::of(draft.base().clone()));
    }

    /// The fields besides those above that are stated, wrong, or were chosen. What stands there keeps its place: a field under the finger must
    /// not move or go.
    pub fn more(self, above: Vec<String>) -> Memo<Vec<String>> {
        Memo::new(move |before: Option<&Vec<String>>| {
            let mut lines = before.cloned().unwrap_or_default();
            let stated = self.draft.with(|draft| names_of(&draft.entry().stated()));
            let wrong = self.problems.with(|all| all.iter().filter_map(|(at, _)| at.clone()).collect::<Vec<_>>());
            for name in stated.into_iter().chain(wrong).chain(self.opened.get()) {
                if !lines.contains(&name) && !above.contains(&name) {
                    lines.push(name);
                }
            }
            lines
        })
    }

    /// How many things are wrong.
    pub fn errors(self) -> usize {
        self.problems.with(|all| all.iter().filter(|(_, problem)| problem.severity == Severity::Error).count())
    }

    /// What is typed for a field, as a person reads it.
    pub fn shown(self, target: &Target) -> String {
        let typed = self.draft.with(|draft| draft.typed(target));
        match target.field.form {
            Form::Name(names) => {
                let words = |name: &str| {
                    if names.contains(&name) { self.app.words().field_choice(target, name) } else { name.to_owned() }
                };
                typed.split(", ").map(words).collect::<Vec<_>>().join(", ")
            }
            _ => typed,
        }
    }
}
