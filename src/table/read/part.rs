//! Reading parts, assumptions, and the small things that carriers and heads share.

use super::json::Object;
use crate::quantity::{Kind, Named, text};
use crate::table::bounds;
use crate::table::{
    Assumption, AssumptionId, Coupling, Fault, Limits, Line, Money, Mounting, Part, PointLoss, Port, Segment,
};

/// A part.
pub fn part(object: &Object) -> Option<Part> {
    let id = object.id("id");
    let change = object.required("change").and(object.named("change"));
    let name = object.required_text("name");
    let part = |id, change, name| Part {
        id,
        change,
        name,
        bore: object.stated("bore", bounds::BORE),
        rated_flow: object.stated("rated_flow", bounds::FLOW),
        rated_pressure: object.stated("rated_pressure", bounds::PRESSURE),
        loss: object.stated("loss", bounds::LOW_PRESSURE),
        bypass: object.stated("bypass", bounds::LOW_PRESSURE),
        price: object.parsed("price", Money::new, Fault::NotMoney),
        time: object.stated("time", bounds::TIME),
    };
    Some(part(id?, change?, name?))
}

/// A range of practice that the table's publisher knows better.
pub fn assumption(object: &Object) -> Option<Assumption> {
    let id: Option<AssumptionId> = object.required("id").and(object.named("id"));
    let (class, motor) = (object.named("class"), object.named("motor"));
    let node = object.required("range");
    let id = id?;
    let words = node?.text(object.context)?;
    let dimension = id.dimension();
    match text::read_amounts(&words, dimension) {
        Ok((low, high)) => Some(Assumption { id, class, motor, low, nominal: low.midpoint(high), high }),
        Err(fault) => {
            node?.error(object.context, Fault::Quantity { expected: dimension, fault });
            None
        }
    }
}

/// A line: a list of segments.
pub fn line(object: &Object, field: &'static str) -> Line {
    let segment = |object: &Object| {
        Some(Segment {
            bore: object.stated("bore", bounds::BORE),
            length: object.stated("length", bounds::LINE_LENGTH),
            standard: object.named("standard"),
            rating: object.stated("rating", bounds::PRESSURE),
        })
    };
    Line { segments: object.each(field, segment) }
}

/// A loss at a flow.
pub fn point_loss(object: &Object) -> Option<PointLoss> {
    let loss = object.required("loss").and(object.stated("loss", bounds::LOW_PRESSURE));
    let flow = object.required("flow").and(object.stated("flow", bounds::FLOW));
    let viscosity = object.stated("viscosity", bounds::VISCOSITY);
    Some(PointLoss { loss: loss?, flow: flow?, viscosity })
}

/// A port.
pub fn port(object: &Object) -> Option<Port> {
    let standard = object.required("standard").and(object.named("standard"));
    let size = object.required_text("size");
    Some(Port { standard: standard?, size: size? })
}

/// A coupling.
pub fn coupling(object: &Object) -> Option<Coupling> {
    Some(Coupling {
        standard: object.named("standard"),
        size: object.stated("size", bounds::BORE),
        rated_flow: object.stated("rated_flow", bounds::FLOW),
        loss: object.nested("loss", point_loss),
        rated_pressure: object.stated("rated_pressure", bounds::PRESSURE),
        screwed: object.flag("screwed"),
    })
}

/// A mounting: a standard, or pins.
pub fn mounting(object: &Object) -> Option<Mounting> {
    if object.get("standard").is_some() {
        return object.named("standard").map(|standard| Mounting::Standard { standard });
    }
    let pin = object.required("pin").and(object.stated("pin", bounds::PIN));
    let width = object.stated("width", bounds::DISTANCE);
    let centres = object.stated("centres", bounds::DISTANCE);
    Some(Mounting::Pins { pin: pin?, width, centres })
}

/// A window of limits, which must rise.
pub fn limits<Q: Kind>(object: &Object, field: &'static str, bounds: bounds::Bounds) -> Limits<Q> {
    let read = |object: &Object| {
        let limits = Limits {
            least: object.stated("least", bounds),
            rated: object.stated("rated", bounds),
            greatest: object.stated("greatest", bounds),
        };
        let stated: Vec<Q> =
            [&limits.least, &limits.rated, &limits.greatest].into_iter().flatten().map(|s| s.nominal).collect();
        if stated.windows(2).any(|pair| pair[0] > pair[1]) {
            object.node.error(object.context, Fault::LimitsNotRising);
        }
        Some(limits)
    };
    object.nested(field, read).unwrap_or_default()
}

/// Every value of a closed list by name; kept here so that a new list needs no new reader.
pub fn listed<T: Named>(object: &Object, field: &'static str) -> Option<Vec<T>> {
    object.get(field).is_some().then(|| object.names(field))
}
