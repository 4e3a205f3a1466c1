//! Pages that a browser translates: it puts `<font>` elements in the place of texts, and what changes afterwards would be written to
//! texts that nobody sees any more. So each text that was taken out is put back beside its translation, empty, and as soon as it says
//! something else, or goes, its translation goes with it. The browser then translates what is new.

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::closure::Closure;
use leptos::web_sys::{Element, MutationObserver, MutationObserverInit, MutationRecord, Node, Text};
use std::cell::RefCell;
use std::rc::Rc;

/// What browsers put in the place of a text.
const STANDS_FOR: &str = "FONT";

/// A text with what stands for it.
struct Translated {
    text: Text,
    by: Element,
    said: String,
}

impl Translated {
    /// Whether it still holds; else what is left to do with it is done.
    fn holds(&self) -> bool {
        let changed = !self.text.is_connected() || !self.text.data().is_empty();
        if changed {
            self.by.remove();
        } else if !self.by.is_connected() {
            // The translation was taken back.
            self.text.set_data(&self.said);
        }
        !changed && self.by.is_connected()
    }
}

/// From now on what changes below a node is seen, translated or not.
pub fn follow(root: &Node) {
    let known: Rc<RefCell<Vec<Translated>>> = Rc::default();
    let seen = Closure::<dyn FnMut(js_sys::Array)>::new(move |records: js_sys::Array| {
        let records: Vec<MutationRecord> = records.iter().filter_map(|record| record.dyn_into().ok()).collect();
        let Ok(mut known) = known.try_borrow_mut() else { return };
        // First what is new: a text that was just put back is empty by us.
        let fresh = newly_translated(&records, &known);
        known.retain(Translated::holds);
        known.extend(fresh);
    });
    let Ok(observer) = MutationObserver::new(seen.as_ref().unchecked_ref()) else { return };
    let what = MutationObserverInit::new();
    what.set_child_list(true);
    what.set_character_data(true);
    what.set_subtree(true);
    if observer.observe_with_options(root, &what).is_ok() {
        let kept = StoredValue::new_local(Some(seen));
        on_cleanup(move || {
            observer.disconnect();
            kept.try_set_value(None);
        });
    }
}

/// The texts that were just taken out for a translation, put back beside it.
fn newly_translated(records: &[MutationRecord], known: &[Translated]) -> Vec<Translated> {
    let mut came: Vec<Element> = Vec::new();
    let mut fresh: Vec<Translated> = Vec::new();
    for record in records {
        let added = record.added_nodes();
        for place in 0..added.length() {
            let Some(element) = added.get(place).and_then(|node| node.dyn_into::<Element>().ok()) else { continue };
            if element.node_name() == STANDS_FOR && element.is_connected() {
                came.push(element);
            }
        }
    }
    if came.is_empty() {
        return fresh;
    }
    for record in records {
        let (added, removed) = (record.added_nodes(), record.removed_nodes());
        for place in 0..removed.length() {
            let Some(text) = removed.get(place).and_then(|node| node.dyn_into::<Text>().ok()) else { continue };
            if text.is_connected() || known.iter().any(|known| known.text == text) {
                continue;
            }
            // It came in the same stroke, or just before, beside it.
            let here = |node: Option<Node>| {
                let node = node?;
                came.iter().find(|element| ***element == node).cloned()
            };
            let of_record = (0..added.length()).find_map(|place| here(added.get(place)));
            let by = of_record.or_else(|| here(record.previous_sibling())).or_else(|| here(record.next_sibling()));
            let Some(by) = by.filter(|by| fresh.iter().all(|other| other.by != *by)) else { continue };
            let Some(parent) = by.parent_node() else { continue };
            let said = text.data();
            text.set_data("");
            if parent.insert_before(&text, Some(&by)).is_ok() {
                fresh.push(Translated { text, by, said });
            }
        }
    }
    fresh
}
