//! Reading the small things that carriers, heads and parts share.

use super::object::Object;
use crate::bounds::{self, Bounds};
use crate::{
    CarrierClass, Contradiction, Cooler, Coupling, Fault, Limits, Line, MachineEnd, Mounting, PointLoss, Port,
    ReturnFilter, Segment,
};
use quantity::Kind;

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

/// At which end of the machine something is. Warns where a machine with two ends does not say so, and where one names an end that
/// machines of its class do not have.
pub fn end(object: &Object, class: Option<CarrierClass>) -> Option<MachineEnd> {
    let (node, end) = (object.get("end"), object.named("end"));
    match (class.map(CarrierClass::only_end), node) {
        (Some(None), None) => object.node().warning(Fault::Contradiction(Contradiction::EndNotStated)),
        (Some(Some(only)), Some(node)) if end.is_some_and(|end| end != only) => {
            node.warning(Fault::Contradiction(Contradiction::EndOutsideClass));
        }
        _ => {}
    }
    end
}

/// A mounting at an end of a machine, or of a head: a standard, or pins.
pub fn mounting(object: &Object, end: Option<MachineEnd>) -> Option<Mounting> {
    if object.get("standard").is_some() {
        return object.named("standard").map(|standard| Mounting::Standard { standard, end });
    }
    let pin = object.required_stated("pin", bounds::PIN);
    let width = object.stated("width", bounds::MOUNTING);
    let centres = object.stated("centres", bounds::MOUNTING);
    Some(Mounting::Pins { pin: pin?, width, centres, end })
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
