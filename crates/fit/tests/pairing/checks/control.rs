//! How the oil is switched, and where it comes from: mostly yes or no, so that the border is the neighbouring state.

use super::{fails, met, open, worst};
use crate::fixture::{assert_today, pair_of, stated, today};
use fit::{Cause, CheckId, FactId, Outcome, Pairing, Reason, Verdict};
use table::{
    CarrierClass, Centre, Circuit, ExtraFunction, ExtraKind, FedFrom, FlowDivider, HeadKind, Id, MotorKind,
    PriorityUser, PumpControl, PumpKind, ReturnRoute, Ways,
};

fn circuit(spoil: impl FnOnce(&mut Circuit)) -> Pairing {
    pair_of(|carrier, _| spoil(&mut carrier.circuits[0]))
}

// ---- Both ways -----------------------------------------------------------------------------------------------------------

fn auger(ways: Option<Ways>, locked: Option<bool>, route: ReturnRoute) -> Pairing {
    pair_of(move |carrier, head| {
        (head.kind, head.ways) = (HeadKind::Auger, Some(Ways::Two));
        let circuit = &mut carrier.circuits[0];
        (circuit.ways, circuit.reverse_locked) = (ways, locked);
        circuit.return_path.route = Some(route);
    })
}

#[test]
fn an_auger_must_turn_back_to_clear_itself() {
    let spool = ReturnRoute::Spool;
    met(&auger(Some(Ways::Two), None, spool), CheckId::Direction, &Reason::BothWays);
    met(&auger(Some(Ways::Two), Some(false), spool), CheckId::Direction, &Reason::BothWays);
    fails(&auger(Some(Ways::Two), Some(true), spool), CheckId::Direction, &Reason::OneWayOnly);
    fails(&auger(Some(Ways::One), None, spool), CheckId::Direction, &Reason::OneWayOnly);
    open(&auger(None, None, spool), CheckId::Direction, &[FactId::CircuitWays], true);
    // A cutter need not, whatever the circuit.
    met(&circuit(|circuit| circuit.ways = None), CheckId::Direction, &Reason::OneWayEnough);
}

#[test]
fn past_the_spool_no_auger_turns_back() {
    fails(&auger(Some(Ways::Two), None, ReturnRoute::Direct), CheckId::Direction, &Reason::OneWayOnly);
}

#[test]
fn a_one_way_head_on_a_two_way_circuit_wants_the_reverse_locked() {
    let with = |head_ways, ways, locked| {
        pair_of(move |carrier, head| {
            head.ways = head_ways;
            (carrier.circuits[0].ways, carrier.circuits[0].reverse_locked) = (ways, locked);
        })
    };
    let (one, two) = (Some(Ways::One), Some(Ways::Two));
    met(&with(one, two, Some(true)), CheckId::ReverseLock, &Reason::ReverseBarred);
    fails(&with(one, two, Some(false)), CheckId::ReverseLock, &Reason::ReverseOpen);
    fails(&with(one, two, None), CheckId::ReverseLock, &Reason::ReverseOpen);
    met(&with(one, one, None), CheckId::ReverseLock, &Reason::ReverseBarred);
    met(&with(two, two, None), CheckId::ReverseLock, &Reason::ReverseHarmless);
    open(&with(one, None, None), CheckId::ReverseLock, &[FactId::CircuitWays], true);
    open(&with(None, two, None), CheckId::ReverseLock, &[FactId::HeadWays], true);
}

/// What drains inside to its outlet, hammers or shakes is known not to bear it (common practice, no published source).
#[test]
fn some_heads_need_not_say_that_they_bear_no_reverse() {
    let hurt = |kind, motor| {
        pair_of(move |carrier, head| {
            (head.kind, head.ways) = (kind, None);
            head.motor.as_mut().expect("a motor").kind = Some(motor);
            carrier.circuits[0].ways = Some(Ways::Two);
        })
    };
    let fit = [
        (HeadKind::RotaryCutter, MotorKind::GearOneWay),
        (HeadKind::Breaker, MotorKind::Impact),
        (HeadKind::PlateCompactor, MotorKind::GearDrained),
    ];
    for (kind, motor) in fit {
        fails(&hurt(kind, motor), CheckId::ReverseLock, &Reason::ReverseOpen);
    }
    open(&hurt(HeadKind::RotaryCutter, MotorKind::GearDrained), CheckId::ReverseLock, &[FactId::HeadWays], true);
}

// ---- Running down -----------------------------------------------------------------------------------------------------------

fn runs_down(head_check: Option<bool>, make_up: Option<bool>, route: Option<ReturnRoute>, tank: &str) -> Pairing {
    pair_of(|carrier, head| {
        head.run_down_check = head_check;
        carrier.circuits[0].make_up_check = make_up;
        carrier.circuits[0].return_path.route = route;
        carrier.tank.as_mut().expect("a tank").pressure = stated(tank);
    })
}

#[test]
fn a_heavy_rotor_runs_down_over_a_check_valve() {
    let with = |head_check, make_up| runs_down(head_check, make_up, Some(ReturnRoute::Spool), "0.2 bar");
    met(&with(Some(true), None), CheckId::RunDown, &Reason::RunsDown);
    met(&with(Some(false), Some(true)), CheckId::RunDown, &Reason::RunsDown);
    met(&with(None, Some(true)), CheckId::RunDown, &Reason::RunsDown);
    fails(&with(Some(false), None), CheckId::RunDown, &Reason::CannotRunDown);
    open(&with(None, Some(false)), CheckId::RunDown, &[FactId::RunDownCheck], true);
    open(&with(None, None), CheckId::RunDown, &[FactId::RunDownCheck], true);
    let light = pair_of(|_, head| (head.kind, head.run_down_check) = (HeadKind::Sweeper, None));
    met(&light, CheckId::RunDown, &Reason::NoHeavyRotor);
}

/// Direct to the tank nothing preloads the return: 3 m of oil above the tank are 0.25 bar, the check valve loses 1 bar (common
/// practice), and 1.05 bar in the tank leave the motor 0.2 bar below the air.
#[test]
fn a_rotor_high_above_the_tank_draws_air() {
    let direct = |tank: &str| runs_down(Some(true), None, Some(ReturnRoute::Direct), tank);
    let dry = direct("1.0 bar");
    assert_today(&dry, CheckId::RunDown, Outcome::NotKnown);
    let check = today(&dry, CheckId::RunDown);
    assert_eq!(check.reason, Reason::Undecided { because: Cause::RunsDry });
    // The tank's pressure is stated: what decides is what the check valve really loses.
    let named: Vec<_> = check.missing.iter().map(|missing| missing.fact).collect();
    assert_eq!((named.as_slice(), check.blocks), ([FactId::RunDownLoss].as_slice(), false));
    let unstated = pair_of(|carrier, head| {
        head.run_down_check = Some(true);
        carrier.circuits[0].return_path.route = Some(ReturnRoute::Direct);
        carrier.tank.as_mut().expect("a tank").pressure = None;
    });
    let named: Vec<_> = today(&unstated, CheckId::RunDown).missing.iter().map(|missing| missing.fact).collect();
    assert_eq!(named, [FactId::RunDownLoss, FactId::TankPressure]);
    let by_hand = 1.0 - 3.0 * 9.81 * 850.0 / 1e5 - 1.0;
    assert!((worst(&dry, CheckId::RunDown) - by_hand).abs() < 0.02, "{check:?}");
    met(&direct("1.1 bar"), CheckId::RunDown, &Reason::RunsDown);
}

#[test]
fn a_way_back_that_nobody_states_preloads_nothing() {
    let pairing = runs_down(Some(true), None, None, "0.2 bar");
    open(&pairing, CheckId::RunDown, &[FactId::ReturnRoute], false);
}

#[test]
fn of_an_unknown_flow_no_rotor_is_known_to_run_down() {
    let pairing = pair_of(|carrier, _| {
        carrier.pumps[0].greatest_flow = None;
        (carrier.circuits[0].flow, carrier.circuits[0].flow_setting) = (None, None);
    });
    open(&pairing, CheckId::RunDown, &[FactId::CircuitFlow], false);
}

// ---- Where the oil comes from ------------------------------------------------------------------------------------------------

fn fed(from: Option<FedFrom>, control: Option<PumpControl>, signal: Option<bool>) -> Pairing {
    pair_of(move |carrier, _| {
        carrier.circuits[0].fed_from = from;
        carrier.circuits[0].demand_signal = signal;
        carrier.pumps[0].control = control;
    })
}

#[test]
fn a_pump_that_gives_what_is_asked_must_be_told() {
    let ahead = |control, signal| fed(Some(FedFrom::PumpLine), Some(control), signal);
    for control in [PumpControl::LoadSensing, PumpControl::Positive] {
        met(&ahead(control, Some(true)), CheckId::PumpDemand, &Reason::PumpKnows);
        fails(&ahead(control, Some(false)), CheckId::PumpDemand, &Reason::PumpNotTold);
        open(&ahead(control, None), CheckId::PumpDemand, &[FactId::DemandSignal], true);
    }
    for control in [PumpControl::Fixed, PumpControl::PressureCompensated, PumpControl::Negative] {
        met(&ahead(control, Some(false)), CheckId::PumpDemand, &Reason::PumpKnows);
    }
    met(&fed(Some(FedFrom::Valve), None, None), CheckId::PumpDemand, &Reason::PumpKnows);
    open(&fed(Some(FedFrom::PumpLine), None, Some(true)), CheckId::PumpDemand, &[FactId::PumpControl], true);
    open(&fed(None, Some(PumpControl::Fixed), None), CheckId::PumpDemand, &[FactId::FedFrom], true);
}

/// Behind the valve no spool of the machine's opens for the head: a pump that senses the load stands by at its margin (common
/// practice, no published source).
#[test]
fn behind_the_valve_a_pump_that_gives_what_is_asked_must_be_told_too() {
    let behind = |signal| fed(Some(FedFrom::PowerBeyond), Some(PumpControl::LoadSensing), signal);
    met(&behind(Some(true)), CheckId::PumpDemand, &Reason::PumpKnows);
    fails(&behind(Some(false)), CheckId::PumpDemand, &Reason::PumpNotTold);
    open(&behind(None), CheckId::PumpDemand, &[FactId::DemandSignal], true);
}

fn feeds(from: Option<FedFrom>, users: &[Option<&[PriorityUser]>]) -> Pairing {
    pair_of(|carrier, _| {
        let circuit = &mut carrier.circuits[0];
        circuit.fed_from = from;
        let pump = carrier.pumps.remove(0);
        for (name, users) in ["p", "q"].iter().zip(users) {
            let mut own = pump.clone();
            (own.id, own.also_feeds) = (Id::new(name).expect("an id"), users.map(<[PriorityUser]>::to_vec));
            carrier.pumps.push(own);
        }
        circuit.pumps = carrier.pumps.iter().map(|pump| pump.id.clone()).collect();
    })
}

#[test]
fn no_head_comes_before_steering_brakes_or_pilot() {
    let ahead = |users: &[Option<&[PriorityUser]>]| feeds(Some(FedFrom::PumpLine), users);
    met(&ahead(&[Some(&[])]), CheckId::FeedOrder, &Reason::PumpsFeedNoPriority);
    for user in [PriorityUser::Steering, PriorityUser::Brakes, PriorityUser::Pilot] {
        fails(&ahead(&[Some(&[]), Some(&[user])]), CheckId::FeedOrder, &Reason::AheadOfPriority);
        let behind = feeds(Some(FedFrom::Valve), &[Some(&[user])]);
        met(&behind, CheckId::FeedOrder, &Reason::BehindPriority);
    }
    open(&ahead(&[None]), CheckId::FeedOrder, &[FactId::AlsoFeeds], true);
    open(&ahead(&[Some(&[]), None]), CheckId::FeedOrder, &[FactId::AlsoFeeds], true);
    open(&feeds(None, &[Some(&[])]), CheckId::FeedOrder, &[FactId::FedFrom], true);
}

#[test]
fn what_one_pump_feeds_for_certain_is_not_hidden_by_another() {
    let pairing = feeds(Some(FedFrom::PumpLine), &[Some(&[PriorityUser::Steering]), None]);
    fails(&pairing, CheckId::FeedOrder, &Reason::AheadOfPriority);
}

/// Two pumps, of which so many feed the circuit ahead of the valve.
fn of_two(taken: usize, kind: PumpKind, class: CarrierClass) -> Pairing {
    with_two(HeadKind::RotaryCutter, taken, kind, class)
}

/// Two pumps, of which so many feed the circuit ahead of the valve, with a head of a kind.
fn with_two(head_kind: HeadKind, taken: usize, kind: PumpKind, class: CarrierClass) -> Pairing {
    pair_of(move |carrier, head| {
        head.kind = head_kind;
        carrier.class = class;
        let mut other = carrier.pumps[0].clone();
        (other.id, other.kind) = (Id::new("q").expect("an id"), Some(kind));
        carrier.pumps.push(other);
        carrier.circuits[0].fed_from = Some(FedFrom::PumpLine);
        carrier.circuits[0].pumps = carrier.pumps.iter().take(taken).map(|pump| pump.id.clone()).collect();
    })
}

#[test]
fn oil_is_taken_from_both_of_an_excavator_s_pumps() {
    let (midi, piston) = (CarrierClass::MidiExcavator, PumpKind::AxialPiston);
    fails(&of_two(1, piston, midi), CheckId::StraightTravel, &Reason::TakenFromOne);
    met(&of_two(2, piston, midi), CheckId::StraightTravel, &Reason::TakenEvenly);
    // A gear pump drives no track, and a loader's tracks have pumps of their own.
    met(&of_two(1, PumpKind::Gear, midi), CheckId::StraightTravel, &Reason::TakenEvenly);
    met(&of_two(1, piston, CarrierClass::WheelLoader), CheckId::StraightTravel, &Reason::TakenEvenly);
    met(&pair_of(|_, _| {}), CheckId::StraightTravel, &Reason::TakenEvenly);
    // A breaker works while the machine stands.
    let standing = with_two(HeadKind::Breaker, 1, piston, midi);
    met(&standing, CheckId::StraightTravel, &Reason::WorksStanding);
    fails(&with_two(HeadKind::DrumMulcher, 1, piston, midi), CheckId::StraightTravel, &Reason::TakenFromOne);
    open(&fed(None, None, None), CheckId::StraightTravel, &[FactId::FedFrom], false);
}

#[test]
fn of_unnamed_pumps_nobody_knows_whether_oil_is_taken_evenly() {
    let pairing = of_two(0, PumpKind::AxialPiston, CarrierClass::MidiExcavator);
    assert_today(&pairing, CheckId::StraightTravel, Outcome::NotKnown);
}

// ---- While the head is off ---------------------------------------------------------------------------------------------------

fn off(centre: Option<Centre>, control: Option<PumpControl>, spoil: impl FnOnce(&mut Circuit)) -> Pairing {
    pair_of(|carrier, head| {
        head.centre = centre;
        let kind = ExtraKind::OnOff;
        let (drive, current, voltage) = (None, None, stated("12 V"));
        head.extra_functions =
            vec![ExtraFunction { kind, drive, current, voltage, greatest_pressure: None, flow: None }];
        carrier.pumps[0].control = control;
        spoil(&mut carrier.circuits[0]);
    })
}

#[test]
fn head_and_pump_agree_while_the_head_is_off() {
    let with = |centre, control| off(Some(centre), Some(control), |circuit| circuit.unloads_when_off = Some(false));
    met(&with(Centre::Open, PumpControl::Fixed), CheckId::CentreType, &Reason::CentreAgrees);
    fails(&with(Centre::Closed, PumpControl::Fixed), CheckId::CentreType, &Reason::ClosedOnFixed);
    for control in [PumpControl::LoadSensing, PumpControl::PressureCompensated] {
        met(&with(Centre::Closed, control), CheckId::CentreType, &Reason::CentreAgrees);
    }
    open(&off(None, Some(PumpControl::Fixed), |_| {}), CheckId::CentreType, &[FactId::HeadCentre], true);
    open(&off(Some(Centre::Closed), None, |_| {}), CheckId::CentreType, &[FactId::PumpControl], true);
    met(&pair_of(|_, _| {}), CheckId::CentreType, &Reason::NoValveOnHead);
}

#[test]
fn a_circuit_that_unloads_takes_a_head_that_shuts_its_supply() {
    let with =
        |unloads| off(Some(Centre::Closed), Some(PumpControl::Fixed), |circuit| circuit.unloads_when_off = unloads);
    met(&with(Some(true)), CheckId::CentreType, &Reason::CentreAgrees);
    fails(&with(Some(false)), CheckId::CentreType, &Reason::ClosedOnFixed);
    open(&with(None), CheckId::CentreType, &[FactId::UnloadsWhenOff], true);
}

/// Behind the machine's spool an open motor gets no oil while that is at rest; ahead of it nothing shuts it.
#[test]
fn an_open_head_is_nothing_behind_the_spool_and_full_flow_ahead_of_it() {
    let id = CheckId::CentreType;
    let fed = |centre, control, from| {
        pair_of(|carrier, head| {
            head.centre = centre;
            carrier.pumps[0].control = control;
            carrier.circuits[0].fed_from = from;
        })
    };
    let open_motor = Some(Centre::Open);
    for control in [PumpControl::LoadSensing, PumpControl::PressureCompensated] {
        let control = Some(control);
        met(&fed(open_motor, control, Some(FedFrom::Valve)), id, &Reason::CentreAgrees);
        met(&fed(None, control, Some(FedFrom::Valve)), id, &Reason::NoValveOnHead);
        for ahead in [FedFrom::PumpLine, FedFrom::PowerBeyond] {
            fails(&fed(open_motor, control, Some(ahead)), id, &Reason::OpenOnDemand);
            open(&fed(None, control, Some(ahead)), id, &[FactId::HeadCentre], true);
            open(&fed(open_motor, None, Some(ahead)), id, &[FactId::PumpControl], true);
        }
        open(&fed(open_motor, control, None), id, &[FactId::FedFrom], true);
    }
    // Whatever its pump does, the spool shuts it off; and a constant pump gives all day anyway.
    met(&fed(open_motor, None, Some(FedFrom::Valve)), id, &Reason::CentreAgrees);
    met(&fed(open_motor, Some(PumpControl::Fixed), None), id, &Reason::CentreAgrees);
}

#[test]
fn a_divider_that_is_vented_takes_the_load_off_a_constant_pump() {
    let divided = |vented_when_off| {
        off(Some(Centre::Closed), Some(PumpControl::Fixed), |circuit| {
            let set_flow = stated("95 L/min").expect("a flow");
            circuit.divider = Some(FlowDivider { set_flow, port_relief: Some(true), vented_when_off });
            circuit.unloads_when_off = Some(false);
        })
    };
    met(&divided(Some(true)), CheckId::CentreType, &Reason::CentreAgrees);
    fails(&divided(Some(false)), CheckId::CentreType, &Reason::ClosedOnFixed);
}

#[test]
fn nothing_shuts_the_return_unless_a_relief_opens_first() {
    let shut = |can_be_shut, relief| {
        circuit(|circuit| (circuit.return_path.can_be_shut, circuit.return_path.relief) = (can_be_shut, relief))
    };
    met(&shut(Some(false), None), CheckId::ReturnShut, &Reason::ReturnStaysOpen);
    fails(&shut(Some(true), None), CheckId::ReturnShut, &Reason::ReturnCanBeShut);
    fails(&shut(Some(true), Some(false)), CheckId::ReturnShut, &Reason::ReturnCanBeShut);
    met(&shut(Some(true), Some(true)), CheckId::ReturnShut, &Reason::ReturnRelieved);
    open(&shut(None, None), CheckId::ReturnShut, &[FactId::CanBeShut], true);
    met(&shut(None, Some(true)), CheckId::ReturnShut, &Reason::ReturnRelieved);
}

fn held(continuous: Option<bool>, stops: Option<bool>, from: Option<FedFrom>) -> Pairing {
    circuit(|circuit| (circuit.continuous, circuit.stops_and_stays_off, circuit.fed_from) = (continuous, stops, from))
}

#[test]
fn what_stays_on_by_itself_stops_and_stays_off() {
    let valve = Some(FedFrom::Valve);
    met(&held(Some(true), Some(true), valve), CheckId::StopAndRestart, &Reason::StopsAndStays);
    fails(&held(Some(true), Some(false), valve), CheckId::StopAndRestart, &Reason::RunsOn);
    open(&held(Some(true), None, valve), CheckId::StopAndRestart, &[FactId::StopsAndStaysOff], true);
    open(&held(None, None, valve), CheckId::StopAndRestart, &[FactId::StopsAndStaysOff], true);
    // Held by hand or foot it stops with it; fed ahead of the valve it is switched by wire.
    met(&held(Some(false), None, valve), CheckId::StopAndRestart, &Reason::HeldByOperator);
    let by_wire = held(Some(false), None, Some(FedFrom::PumpLine));
    open(&by_wire, CheckId::StopAndRestart, &[FactId::StopsAndStaysOff], true);
}

#[test]
fn fed_from_nobody_knows_where_nothing_is_known_to_stop() {
    assert_today(&held(Some(false), None, None), CheckId::StopAndRestart, Outcome::NotKnown);
}

#[test]
fn nobody_holds_a_lever_for_an_hour() {
    let with = |continuous| held(continuous, Some(true), Some(FedFrom::Valve));
    met(&with(Some(true)), CheckId::ContinuousFlow, &Reason::StaysOn);
    fails(&with(Some(false)), CheckId::ContinuousFlow, &Reason::HeldByHand);
    let unknown = with(None);
    open(&unknown, CheckId::ContinuousFlow, &[FactId::Continuous], false);
    assert!(unknown.verdict == Verdict::Fits && unknown.to_prove.contains(&CheckId::ContinuousFlow));
    let breaker = pair_of(|carrier, head| {
        (head.kind, carrier.circuits[0].continuous) = (HeadKind::Breaker, Some(false));
    });
    met(&breaker, CheckId::ContinuousFlow, &Reason::HandIsEnough);
}
