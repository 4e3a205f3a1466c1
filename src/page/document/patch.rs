//! Brings what stands on the screen in line with what was drawn: what is the same stays the very node that it is, with its focus and
//! whether it is unfolded.

use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{Element, Node};

/// Brings the children of an element in line with those of another, which it uses up.
pub fn children(stands: &Element, drawn: &Element) {
    let old = all(stands);
    let mut old = old.iter().peekable();
    let new = all(drawn);
    for (place, node) in new.iter().enumerate() {
        let is_next = old.peek().is_some_and(|stands| alike(stands, node));
        if is_next {
            if let Some(stands) = old.next() {
                one(stands, node);
            }
            continue;
        }
        // What is new here stands before what was here; what was here and is not drawn any more is gone.
        let goes_on = |stands: &Node| new[place..].iter().any(|node| alike(stands, node));
        while let Some(gone) = old.next_if(|stands| !goes_on(stands)) {
            let _ = stands.remove_child(gone);
        }
        match old.next_if(|stands| alike(stands, node)) {
            Some(stands) => one(stands, node),
            None => {
                let _ = stands.insert_before(node, old.peek().copied());
            }
        }
    }
    for gone in old {
        let _ = stands.remove_child(gone);
    }
}

/// Whether one node may become the other.
fn alike(stands: &Node, drawn: &Node) -> bool {
    let id = |node: &Node| node.dyn_ref::<Element>().map(Element::id).unwrap_or_default();
    stands.node_name() == drawn.node_name() && id(stands) == id(drawn)
}

fn one(stands: &Node, drawn: &Node) {
    let (Some(element), Some(to)) = (stands.dyn_ref::<Element>(), drawn.dyn_ref::<Element>()) else {
        if stands.node_value() != drawn.node_value() {
            stands.set_node_value(drawn.node_value().as_deref());
        }
        return;
    };
    // A drawing is drawn anew as a whole.
    if element.tag_name() == "svg" {
        if !element.is_equal_node(Some(drawn)) {
            let _ = element.replace_with_with_node_1(drawn);
        }
        return;
    }
    for name in to.get_attribute_names().iter().filter_map(|name| name.as_string()) {
        let value = to.get_attribute(&name);
        if let Some(value) = value.filter(|value| element.get_attribute(&name).as_ref() != Some(value)) {
            let _ = element.set_attribute(&name, &value);
        }
    }
    for name in element.get_attribute_names().iter().filter_map(|name| name.as_string()) {
        // Whether something is unfolded is the reader's.
        if name != "open" && !to.has_attribute(&name) {
            let _ = element.remove_attribute(&name);
        }
    }
    children(element, to);
}

fn all(of: &Element) -> Vec<Node> {
    let nodes = of.child_nodes();
    (0..nodes.length()).filter_map(|at| nodes.item(at)).collect()
}
