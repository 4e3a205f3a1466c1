//! Reading parts and assumptions.

use super::object::{Object, read_whole};
use crate::{Assumption, AssumptionId, Fault, Money, Part, bounds};
use quantity::text;
use std::collections::HashSet;

/// A part.
pub fn part(object: &Object) -> Option<Part> {
    let (id, change, name) = (object.id(), object.required_name("change"), object.required_text("name"));
    Some(Part {
        coupling: object.named("coupling"),
        standard: object.named("standard"),
        valve: object.named("valve"),
        conductance: object.stated("conductance", bounds::CONDUCTANCE),
        bore: object.stated("bore", bounds::BORE),
        rated_flow: object.stated("rated_flow", bounds::FLOW),
        rated_pressure: object.stated("rated_pressure", bounds::RATING),
        loss: object.stated("loss", bounds::LOSS),
        bypass: object.stated("bypass", bounds::BYPASS),
        price: object.parsed("price", Money::new, Fault::NotMoney),
        time: object.stated("time", bounds::TIME),
        id: id?,
        change: change?,
        name: name?,
    })
}

/// The ranges that the table's publisher knows better; one with an error is left out, and so is a second range for the
/// same figure, class and motor.
pub fn assumptions(object: &Object) -> Vec<Assumption> {
    let mut seen = HashSet::new();
    let mut sound = Vec::new();
    object.each_node("assumptions", |node| {
        let errors = object.context.errors();
        let found: Option<Assumption> = read_whole(node, assumption);
        let Some(found) = found.filter(|_| object.context.errors() == errors) else { return };
        if seen.insert((found.id, found.class, found.motor)) {
            sound.push(found);
        } else {
            node.error(Fault::DuplicateId);
        }
    });
    sound
}

fn assumption(object: &Object) -> Option<Assumption> {
    let id: Option<AssumptionId> = object.required_name("id");
    let (class, motor) = (object.named("class"), object.named("motor"));
    let node = object.required("range");
    // Without the id nobody knows what the range measures.
    let (id, node) = (id?, node?);
    let (low, high) = node.quantity(id.dimension(), |words| text::read_amounts(words, id.dimension()))?;
    let sound = node.within([low.si(), high.si()], bounds::of_assumption(id), None);
    sound.then_some(Assumption { id, class, motor, low, nominal: low.midpoint(high), high })
}
