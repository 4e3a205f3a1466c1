//! Lines, valves, filters and couplings: parts that need no setting to be solved.

// All changes have one form, also those that can always be made.
#![allow(clippy::unnecessary_wraps)]

use super::catalogue::ChangeOption;
use super::changed::{Changed, exact, known_length, own, setting};
use crate::assume::{CHANGEOVER_LOSS, FITTED_FILTRATION_UM};
use crate::facts::either_line_is_fed;
use crate::machine::Machine;
use crate::solved::Solved;
use crate::trace::{InputRecord, once};
use crate::{FactId, Setting, SettingId};
use quantity::{Pressure, Stated, Unit};
use table::{
    CaseLine, Circuit, Cooler, Coupling, CouplingStandard, FedFrom, Line, PointLoss, ReturnFilter, ReturnPath,
    ReturnRoute, Segment, SharedTool, Ways,
};

/// What a changeover valve or manifold loses where its part does not say.
fn valve_loss(option: &ChangeOption) -> PointLoss {
    PointLoss {
        loss: option.loss.unwrap_or(Stated::published(CHANGEOVER_LOSS.0, Unit::Bar)),
        flow: option.rated_flow.unwrap_or(Stated::published(CHANGEOVER_LOSS.1, Unit::LitrePerMinute)),
        viscosity: None,
    }
}

/// A new line of a bore, as long as the one that it replaces.
fn new_line(old: &Line, option: &ChangeOption) -> Line {
    let length = known_length(old).map(|length| own(length, Unit::Metre));
    let bore = option.bore.map(|bore| exact(bore, Unit::Millimetre));
    Line { segments: vec![Segment { bore, length, standard: option.standard, rating: option.rated_pressure }] }
}

fn bore(option: &ChangeOption) -> Vec<Solved<Setting>> {
    option.bore.map(|bore| setting(SettingId::Bore, bore)).into_iter().collect()
}

fn rated_pressure(option: &ChangeOption) -> Option<Solved<Setting>> {
    option.rated_pressure.map(|rated| setting(SettingId::RatedPressure, rated.nominal))
}

/// What a part loses at its rated flow, where both are stated.
fn loss(option: &ChangeOption) -> Option<PointLoss> {
    option.loss.zip(option.rated_flow).map(|(loss, flow)| PointLoss { loss, flow, viscosity: None })
}

/// Sends the return past the spool: a changeover valve without a blocked position and a line of its own to the tank, as long
/// as the return was. What hung on the old way is lost with it: the machine's filter and its cooler; and with it the reverse
/// direction, which would run into the tank.
pub fn direct_return<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    past_the_spool(machine, option, false)
}

/// Leads the return past the spool into the spare port of the machine's own filter and cooler manifold: the cooler stays in the
/// way.
pub fn filter_return<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    past_the_spool(machine, option, true)
}

/// The coupling that comes with a return of its own: of the standard that its part states, and of the line's bore.
fn coupling_of_line(option: &ChangeOption) -> Coupling {
    Coupling {
        standard: option.coupling,
        size: option.bore.map(|bore| exact(bore, Unit::Millimetre)),
        both_halves: Some(true),
        ..Coupling::default()
    }
}

fn past_the_spool<'m>(machine: Machine<'m>, option: &ChangeOption, into_manifold: bool) -> Changed<'m> {
    let changed = machine.with_circuit(|place| {
        place.return_path = ReturnPath {
            route: Some(ReturnRoute::Direct),
            loss: Some(valve_loss(option)),
            coupling: Some(coupling_of_line(option)),
            line: new_line(&machine.setup.circuit.return_path.line, option),
            through_filter: Some(into_manifold),
            filter: None,
            through_cooler: Some(into_manifold && machine.setup.carrier.cooler.is_some()),
            cooler: None,
            can_be_shut: Some(false),
            relief: None,
        };
        place.ways = Some(Ways::One);
    });
    Some((changed, bore(option)))
}

/// Couplings of which no size is stated are of the narrower line's bore: they stay so when a wider line is laid.
fn keep_coupling(place: &mut Circuit) {
    let bores = [&place.supply, &place.return_path.line].map(|line| line.segments.last().and_then(|last| last.bore));
    let of_lines =
        bores.into_iter().flatten().reduce(|one, other| if other.nominal < one.nominal { other } else { one });
    let coupling = place.coupling.get_or_insert_default();
    coupling.size = coupling.size.or(of_lines);
}

/// Lays a larger line back, to the same valve.
pub fn return_line<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    let changed = machine.with_circuit(|place| {
        keep_coupling(place);
        let mut line = new_line(&machine.setup.circuit.return_path.line, option);
        // Where it may get the pump's pressure its part must be rated for that.
        let old = machine.setup.circuit.return_path.line.segments.first();
        for segment in &mut line.segments {
            segment.standard = segment.standard.or(old.and_then(|old| old.standard));
        }
        place.return_path.line = line;
    });
    Some((changed, bore(option)))
}

/// Puts a filter into the return as it then is. One without a bypass could shut it.
pub fn return_filter<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    if machine.setup.circuit.return_path.filter.is_some() {
        return None;
    }
    let changed = machine.with_circuit(|place| {
        let (rated_flow, bypass) = (option.rated_flow, option.bypass);
        let fineness_um = Some(FITTED_FILTRATION_UM);
        let filter = ReturnFilter { rated_flow, loss: loss(option), bypass, fineness_um, spare_port: None };
        place.return_path.filter = Some(filter);
        if bypass.is_none() {
            place.return_path.can_be_shut = Some(true);
        }
    });
    let rated = option.rated_flow.map(|flow| setting(SettingId::RatedFlow, flow.nominal));
    Some((changed, rated.into_iter().collect()))
}

/// Puts a cooler into the head's return.
pub fn cooler<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    let conductance = option.conductance?;
    let changed = machine.with_circuit(|place| {
        place.return_path.cooler = Some(Cooler { conductance: Some(conductance), flow: option.rated_flow });
    });
    Some((changed, vec![setting(SettingId::Conductance, conductance.nominal)]))
}

/// Guards the return by a low-pressure relief to the tank: with all its flow over it no more than the outlet bears.
pub fn return_relief(machine: Machine) -> Changed {
    let changed = machine.with_circuit(|place| place.return_path.relief = Some(true));
    let rated = machine.setup.head.outlet.back_pressure;
    let inputs = vec![InputRecord::of(FactId::OutletLimit, &rated)];
    let opens = rated.map(|rated| Solved { inputs, ..setting(SettingId::ReturnRelief, rated.nominal) });
    Some((changed, opens.into_iter().collect()))
}

/// Leads the motor's drain to the tank by a line of its own.
pub fn case_line<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    let bore_of_line = option.bore.map(|bore| exact(bore, Unit::Millimetre));
    let line = Line { segments: vec![Segment { bore: bore_of_line, length: None, standard: None, rating: None }] };
    let case_line = Some(CaseLine { fitted: true, line, coupling: None, own_port: Some(true) });
    Some((machine.with_carrier(|carrier| carrier.case_line = case_line), bore(option)))
}

/// Puts hose of a higher class in place of what is there: same bores, same lengths; in the return too where it may get the pump's
/// pressure.
pub fn hose_class<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    if option.standard.is_none() && option.rated_pressure.is_none() {
        return None;
    }
    let renew = |line: &mut Line| {
        for segment in &mut line.segments {
            segment.standard = option.standard;
            segment.rating = option.rated_pressure;
        }
    };
    let changed = machine.with_circuit(|place| {
        renew(&mut place.supply);
        if either_line_is_fed(place) {
            renew(&mut place.return_path.line);
        }
    });
    Some((changed, rated_pressure(option).into_iter().collect()))
}

/// Lays a larger line to the head.
pub fn supply_line<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    let changed = machine.with_circuit(|place| {
        keep_coupling(place);
        place.supply = new_line(&machine.setup.circuit.supply, option);
    });
    Some((changed, bore(option)))
}

/// Fits couplings at boom or arm with their other halves for the head's hoses; screwed ones lock against vibration.
pub fn couplings<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    let screwed = option.coupling.map(|standard| standard == CouplingStandard::Iso14541);
    let coupling = Coupling {
        standard: option.coupling,
        size: option.bore.map(|bore| exact(bore, Unit::Millimetre)),
        rated_flow: option.rated_flow,
        loss: loss(option),
        rated_pressure: option.rated_pressure,
        screwed,
        both_halves: Some(true),
    };
    let changed = machine.with_circuit(|place| place.coupling = Some(coupling));
    Some((changed, bore(option).into_iter().chain(rated_pressure(option)).collect()))
}

/// The tools on the spool, each changed, with the least that one of them bears: to that their reliefs are set.
fn with_tools(machine: Machine, change: impl Fn(&mut SharedTool)) -> Changed {
    let rated = || machine.setup.circuit.shared_with.iter().flatten().map(|tool| tool.greatest_pressure);
    let least = rated().flatten().map(|stated| stated.nominal).reduce(Pressure::min)?;
    let inputs = once(rated().map(|stated| InputRecord::of(FactId::SharedToolPressure, &stated)));
    let changed = machine.with_circuit(|place| {
        place.shared_with.iter_mut().flatten().for_each(change);
    });
    Some((changed, vec![Solved { inputs, ..setting(SettingId::ToolRelief, least) }]))
}

/// Gives the other tool a relief of its own on its side. As long as it is on the lines that relief limits the head too.
pub fn tool_relief(machine: Machine) -> Changed {
    with_tools(machine, |tool| tool.own_relief = Some(true))
}

/// Shuts the other tool off on both its lines while the head works. Shut off it is cut off from its port reliefs, and trapped
/// oil gains 11 bar a kelvin: a relief on its side belongs to it, which also holds after switch-back.
pub fn isolate_tool(machine: Machine) -> Changed {
    with_tools(machine, |tool| {
        tool.isolated = Some(true);
        tool.own_relief = Some(true);
    })
}

/// Fits a check valve near the motor over which its rotor runs down.
pub fn make_up_check(machine: Machine) -> Changed {
    Some((machine.with_circuit(|place| place.make_up_check = Some(true)), Vec::new()))
}

/// Locks the reverse direction: a stop at the pedal, a menu, or a check in the head's line.
pub fn reverse_lock(machine: Machine) -> Changed {
    // A divider sends its oil one way as it is.
    let lockable = machine.setup.circuit.divider.is_none();
    lockable.then(|| (machine.with_circuit(|place| place.reverse_locked = Some(true)), Vec::new()))
}

/// Serves door, tilt or rotation by a diverter in the main lines or a valve block on the head.
pub fn door_circuit<'m>(machine: Machine<'m>, option: &ChangeOption) -> Changed<'m> {
    let valve = option.valve?;
    Some((machine.with_circuit(|place| place.extra_valve = Some(valve)), Vec::new()))
}

/// Tells the pump that a head fed ahead of the valve wants oil: shuttle, pilot or electronic signal.
pub fn demand_signal(machine: Machine) -> Changed {
    let unheard = matches!(machine.setup.circuit.fed_from, Some(FedFrom::PumpLine | FedFrom::PowerBeyond));
    unheard.then(|| (machine.with_circuit(|place| place.demand_signal = Some(true)), Vec::new()))
}

/// Vents a fitted divider while the head is off: its spring then holds no port shut, and the machine's functions have their oil.
pub fn divider_vent(machine: Machine) -> Changed {
    machine.setup.circuit.divider.as_ref()?;
    let changed = machine.with_circuit(|place| {
        if let Some(divider) = &mut place.divider {
            divider.vented_when_off = Some(true);
        }
    });
    Some((changed, Vec::new()))
}

/// Fits a valve that lets a constant pump's oil through to the tank at low pressure while the head's own valve is shut.
pub fn unload_valve(machine: Machine) -> Changed {
    // A divider that the same set has put in is vented instead.
    let without = machine.setup.circuit.divider.is_none();
    without.then(|| (machine.with_circuit(|place| place.unloads_when_off = Some(true)), Vec::new()))
}
