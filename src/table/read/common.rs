//! Reading the small things that carriers, heads and parts share.

use super::object::Object;
use crate::quantity::Kind;
use crate::table::bounds::{self, Bounds};
use crate::table::{Cooler, Coupling, Fault, Limits, Line, Mounting, PointLoss, Port, ReturnFilter, Segment};

/// A line: a list of segments.
pub fn line(object: &Object, field: &'static str) -> Line {
    let segment = |object: &Object| Segment {
        bore: object.stated("bore", bounds::BORE),
        length: object.stated("length", bounds::LINE_LENGTH),
        standard: object.named("standard"),
        rating: object.stated("rating", bounds::RATING),
    };
    Line { segments: object.each(field, segment) }
}

/// A loss at a flow.
pub fn point_loss(object: &Object) -> Option<PointLoss> {
    let loss = object.required_stated("loss", bounds::LOSS);
    let flow = object.required_stated("flow", bounds::FLOW);
    let viscosity = object.stated("viscosity", bounds::VISCOSITY);
    Some(PointLoss { loss: loss?, flow: flow?, viscosity })
}

/// A port.
pub fn port(object: &Object) -> Option<Port> {
    let (standard, size) = (object.required_name("standard"), object.required_text("size"));
    Some(Port { standard: standard?, size: size? })
}

/// A coupling.
pub fn coupling(object: &Object) -> Coupling {
    Coupling {
        standard: object.named("standard"),
        size: object.stated("size", bounds::BORE),
        rated_flow: object.stated("rated_flow", bounds::FLOW),
        loss: object.nested("loss", point_loss),
        rated_pressure: object.stated("rated_pressure", bounds::RATING),
        screwed: object.flag("screwed"),
        both_halves: object.flag("both_halves"),
    }
}

/// A cooler.
pub fn cooler(object: &Object) -> Cooler {
    Cooler { conductance: object.stated("conductance", bounds::CONDUCTANCE), flow: object.stated("flow", bounds::FLOW) }
}

/// A filter in a return.
pub fn return_filter(object: &Object) -> ReturnFilter {
    ReturnFilter {
        rated_flow: object.stated("rated_flow", bounds::FLOW),
        loss: object.nested("loss", point_loss),
        bypass: object.stated("bypass", bounds::BYPASS),
        fineness_um: fineness(object, "fineness_um"),
        spare_port: object.flag("spare_port"),
    }
}

/// The fineness of a filter.
pub fn fineness(object: &Object, field: &'static str) -> Option<u16> {
    object.count(field, 1, "a whole number of micrometres from 1 to 65535")
}

/// A mounting: a standard, or pins.
pub fn mounting(object: &Object) -> Option<Mounting> {
    if object.get("standard").is_some() {
        return object.named("standard").map(|standard| Mounting::Standard { standard });
    }
    let pin = object.required_stated("pin", bounds::PIN);
    let width = object.stated("width", bounds::MOUNTING);
    let centres = object.stated("centres", bounds::MOUNTING);
    Some(Mounting::Pins { pin: pin?, width, centres })
}

/// A window of limits, which must rise.
pub fn limits<Q: Kind>(object: &Object, field: &'static str, bounds: Bounds) -> Limits<Q> {
    let read = |object: &Object| {
        let limits: Limits<Q> = Limits {
            least: object.stated("least", bounds),
            rated: object.stated("rated", bounds),
            greatest: object.stated("greatest", bounds),
        };
        let stated: Vec<Q> =
            [limits.least, limits.rated, limits.greatest].into_iter().flatten().map(|stated| stated.nominal).collect();
        if !stated.is_sorted() {
            object.node().error(Fault::LimitsNotRising);
        }
        limits
    };
    object.nested(field, read).unwrap_or_default()
}
