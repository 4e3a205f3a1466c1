//! Setting one fact of a machine or an attachment, as somebody would who has read it off.

use fit::FactId;
use quantity::{Amount, Quantity, Source, Spread, Stated, Unit, UnitSystem};
use table::{Carrier, CaseLine, Circuit, FedFrom, Head, Id, Limits, Line, Segment, SharedTool};

/// A figure as it stands on a plate.
fn read_off<Q: Quantity>(amount: Amount) -> Option<Stated<Q>> {
    let unit = Unit::shown(Q::DIMENSION, UnitSystem::Metric);
    Some(Stated { nominal: amount.quantity()?, spread: Spread::Unstated, source: Source::Plate, unit })
}

/// Machine and attachment with a figure set; none for a fact that is not one figure of one place.
pub fn figure(carrier: &Carrier, head: &Head, circuit: &Id, fact: FactId, value: Amount) -> Option<(Carrier, Head)> {
    let (mut carrier, mut head) = (carrier.clone(), head.clone());
    if fact.is_of_machine() {
        of_machine(&mut carrier, circuit, fact, value)?;
    } else {
        of_head(&mut head, fact, value)?;
    }
    Some((carrier, head))
}

fn of_machine(carrier: &mut Carrier, id: &Id, fact: FactId, value: Amount) -> Option<()> {
    match fact {
        FactId::EnginePower => carrier.engine.power = Some(read_off(value)?),
        FactId::OperatingMass => carrier.operating_mass = Some(read_off(value)?),
        FactId::MainRelief => carrier.main_relief = Some(read_off(value)?),
        FactId::ReactionTorque => carrier.reaction_torque = Some(read_off(value)?),
        FactId::CurlClearance => carrier.curl_clearance = Some(read_off(value)?),
        _ => of_circuit(carrier.circuits.iter_mut().find(|circuit| circuit.id == *id)?, fact, value)?,
    }
    Some(())
}

fn of_circuit(circuit: &mut Circuit, fact: FactId, value: Amount) -> Option<()> {
    match fact {
        FactId::CircuitFlow => circuit.flow = Some(read_off(value)?),
        FactId::CircuitRelief => circuit.relief = Some(read_off(value)?),
        FactId::SupplyRating => rate(&mut circuit.supply.segments, value)?,
        FactId::ReturnRating => rate(&mut circuit.return_path.line.segments, value)?,
        FactId::CouplingRating => circuit.coupling.as_mut()?.rated_pressure = Some(read_off(value)?),
        FactId::CouplingFlow => circuit.coupling.as_mut()?.rated_flow = Some(read_off(value)?),
        FactId::SharedToolPressure => {
            let tools = circuit.shared_with.as_mut()?;
            for tool in tools.iter_mut().filter(|tool| tool.greatest_pressure.is_none()) {
                tool.greatest_pressure = Some(read_off(value)?);
            }
        }
        _ => return None,
    }
    Some(())
}

/// Rates every piece without a stated rating; a line of which nothing is known is one piece.
fn rate(segments: &mut Vec<Segment>, value: Amount) -> Option<()> {
    if segments.is_empty() {
        segments.push(Segment { bore: None, length: None, rating: None, standard: None });
    }
    for piece in segments.iter_mut().filter(|piece| piece.rating.is_none() && piece.standard.is_none()) {
        piece.rating = Some(read_off(value)?);
    }
    Some(())
}

fn of_head(head: &mut Head, fact: FactId, value: Amount) -> Option<()> {
    fn least<Q: Quantity>(limits: &mut Limits<Q>, value: Amount) -> Option<()> {
        limits.least = Some(read_off(value)?);
        Some(())
    }
    match fact {
        FactId::HeadLeastFlow => least(&mut head.flow, value)?,
        FactId::HeadRatedFlow => head.flow.rated = Some(read_off(value)?),
        FactId::HeadGreatestFlow => head.flow.greatest = Some(read_off(value)?),
        FactId::HeadGreatestPower => head.power.greatest = Some(read_off(value)?),
        FactId::WorkingPressure => head.pressure.working = Some(read_off(value)?),
        FactId::HeadGreatestPressure => head.pressure.greatest = Some(read_off(value)?),
        FactId::HeadMass => head.mass = Some(read_off(value)?),
        FactId::Payload => head.work.payload = Some(read_off(value)?),
        FactId::CentreOfGravity => head.centre_of_gravity = Some(read_off(value)?),
        FactId::CurlRadius => head.curl_radius = Some(read_off(value)?),
        FactId::OutletLimit => head.outlet.back_pressure = Some(read_off(value)?),
        FactId::CaseLimit => head.outlet.case_pressure = Some(read_off(value)?),
        FactId::MotorDisplacement => head.motor.as_mut()?.displacement = Some(read_off(value)?),
        FactId::TorqueLimit => head.motor.as_mut()?.torque_limit = Some(read_off(value)?),
        FactId::RotorGreatestSpeed => head.motor.as_mut()?.rotor_speed.greatest = Some(read_off(value)?),
        _ => return None,
    }
    Some(())
}

/// Machine and attachment with a yes or no set; none for a fact that is neither.
pub fn answer(carrier: &Carrier, head: &Head, circuit: &Id, fact: FactId, yes: bool) -> Option<(Carrier, Head)> {
    let (mut carrier, mut head) = (carrier.clone(), head.clone());
    let said = Some(yes);
    if fact == FactId::NeedsCaseLine {
        head.outlet.needs_case_line = said;
        return Some((carrier, head));
    }
    if fact == FactId::RunDownCheck {
        head.run_down_check = said;
        return Some((carrier, head));
    }
    if fact == FactId::Vibrating {
        head.vibrating = said;
        return Some((carrier, head));
    }
    if fact == FactId::CasePort {
        carrier.case_line.as_mut()?.own_port = said;
        return Some((carrier, head));
    }
    if fact == FactId::CaseLine {
        carrier.case_line = Some(CaseLine { fitted: yes, line: Line::default(), coupling: None, own_port: Some(true) });
        return Some((carrier, head));
    }
    if fact == FactId::CouplerSecured {
        carrier.coupler.as_mut()?.secured = said;
        return Some((carrier, head));
    }
    let place = carrier.circuits.iter_mut().find(|known| known.id == *circuit)?;
    match fact {
        // One of which no more is known.
        FactId::SharedTools => {
            let tool = |name: &str| SharedTool {
                name: name.to_owned(),
                greatest_pressure: None,
                greatest_flow: None,
                isolated: None,
                own_relief: None,
            };
            place.shared_with = Some(if yes { vec![tool("another tool")] } else { Vec::new() });
        }
        // Of a port behind other valves more is asked than of a valve of its own, and less than of the pumps' line.
        FactId::FedFrom => place.fed_from = Some(if yes { FedFrom::Valve } else { FedFrom::PumpLine }),
        FactId::CanBeShut => place.return_path.can_be_shut = said,
        FactId::StopsAndStaysOff => place.stops_and_stays_off = said,
        FactId::UnloadsWhenOff => place.unloads_when_off = said,
        FactId::DemandSignal => place.demand_signal = said,
        FactId::ReturnFilter => place.return_path.through_filter = said,
        FactId::CouplingScrewed => place.coupling.as_mut()?.screwed = said,
        FactId::DividerOff => place.divider.as_mut()?.vented_when_off = said,
        FactId::DividerRelief => place.divider.as_mut()?.port_relief = said,
        _ => return None,
    }
    Some((carrier, head))
}
