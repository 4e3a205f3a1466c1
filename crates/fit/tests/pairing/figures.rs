//! Figures of the circuit to their last digit: leakage, cut-off, the pumps' node, the case drain, a divider's relief, a sweeper without
//! load, the coupling in a direct return. The formulas are those of any fluid-power textbook; the shares are common practice, no
//! published source.

use crate::fixture::{stated, table, today};
use fit::installation::{EngineState, FilterState, FunctionsState, Standing, State};
use fit::{CheckId, Conditions, FactId, Installation, Load, Node, OilState, Outcome, Verdict, pair};
use quantity::{Amount, UnitSystem};
use table::{
    Carrier, CarrierClass, Circuit, FlowDivider, Functions, Head, HeadKind, Id, MotorKind, Pump, PumpControl,
    ReturnRoute, Table, read,
};

fn figure(amount: Amount) -> f64 {
    amount.in_system(UnitSystem::Metric).0
}

fn at(load: Load) -> State {
    State {
        load,
        oil: OilState::Working,
        functions: FunctionsState::Idle,
        engine: EngineState::Working,
        filter: FilterState::Clean,
    }
}

/// What the spoilt fixture does in a state.
fn does(state: State, spoil: impl FnOnce(&mut Carrier, &mut Head)) -> Standing {
    let mut table = table();
    let (mut carrier, mut head) = (table.carriers.remove(0), table.heads.remove(0));
    spoil(&mut carrier, &mut head);
    let circuit = carrier.circuits[0].id.clone();
    Installation::new(&carrier, &circuit, &head, &Conditions::default()).expect("the circuit is there").state(state)
}

/// Flow and pressure at a node.
#[track_caller]
fn node(standing: &Standing, wanted: Node) -> (f64, f64) {
    let (Standing::Turns { nodes, .. } | Standing::Stalls { nodes, .. }) = standing else { panic!("{standing:?}") };
    let reading = nodes.iter().find(|reading| reading.node == wanted).expect("the node is there");
    (figure(reading.flow), figure(reading.pressure))
}

fn has(standing: &Standing, wanted: Node) -> bool {
    let (Standing::Turns { nodes, .. } | Standing::Stalls { nodes, .. }) = standing else { panic!("{standing:?}") };
    nodes.iter().any(|reading| reading.node == wanted)
}

#[track_caller]
fn near(value: f64, wanted: f64, by: f64) {
    assert!((value - wanted).abs() <= by, "{value} instead of {wanted}");
}

/// A fixed pump of 100 L/min rated for 250 bar, with more set than it ever gives, so that its node shows all that it gives.
fn fixed(carrier: &mut Carrier) {
    let pump = &mut carrier.pumps[0];
    pump.control = Some(PumpControl::Fixed);
    pump.greatest_flow = stated("100 L/min");
    pump.pressure = stated("250 bar");
    let circuit = &mut carrier.circuits[0];
    circuit.flow = stated("120 L/min");
    circuit.flow_setting = None;
}

#[test]
fn invariant_a_pump_leaks_by_its_own_rated_pressure_wherever_the_relief_stands() {
    for relief in ["190 bar", "230 bar", "260 bar"] {
        let standing = does(at(Load::Working), |carrier, _| {
            fixed(carrier);
            carrier.circuits[0].relief = stated(relief);
        });
        let (flow, pressure) = node(&standing, Node::Pump);
        near(flow, 100.0 - 5.0 * pressure / 250.0, 1e-6);
        assert!(pressure > 150.0);
    }
}

/// Two pumps leak what each leaks by itself: Σ 5 %·Q_i·p/p_i.
#[test]
fn two_pumps_leak_what_each_leaks() {
    let standing = does(at(Load::Working), |carrier, _| {
        fixed(carrier);
        carrier.power_groups[0].limit = stated("80 kW");
        let first = &carrier.pumps[0];
        let second = Pump {
            id: Id::new("p2").expect("an id"),
            greatest_flow: stated("40 L/min"),
            pressure: stated("300 bar"),
            ..first.clone()
        };
        carrier.pumps[0].greatest_flow = stated("60 L/min");
        carrier.pumps[0].pressure = stated("200 bar");
        carrier.circuits[0].pumps.push(second.id.clone());
        carrier.pumps.push(second);
    });
    let (flow, pressure) = node(&standing, Node::Pump);
    near(flow, 100.0 - 3.0 * pressure / 200.0 - 2.0 * pressure / 300.0, 1e-6);
}

/// A gap leaks by pressure, however fast the pump turns: at high idle, 5 % faster, it gives 5 L/min more and leaks what it did.
#[test]
fn the_engine_s_speed_does_not_change_what_leaks() {
    let idling = State { engine: EngineState::HighIdle, ..at(Load::Free) };
    let standing = does(idling, |carrier, _| fixed(carrier));
    let (flow, pressure) = node(&standing, Node::Pump);
    near(flow, 105.0 - 5.0 * pressure / 250.0, 1e-6);
}

fn worst(id: CheckId, spoil: impl FnOnce(&mut Carrier, &mut Head)) -> (Outcome, f64) {
    let mut table = table();
    let (mut carrier, mut head) = (table.carriers.remove(0), table.heads.remove(0));
    spoil(&mut carrier, &mut head);
    let pairing = pair(&carrier, &head, &Conditions::default());
    let check = today(&pairing, id);
    (check.outcome, check.margin.expect("figures"))
}

/// Whatever a pump is rated for, and however it is commanded, a machine of which that is not stated comes out no better.
#[test]
fn a_pump_that_is_not_stated_is_no_better_than_one_that_is() {
    for id in [CheckId::FlowWindow, CheckId::Pressure] {
        for control in [None, Some(PumpControl::Fixed), Some(PumpControl::LoadSensing), Some(PumpControl::Negative)] {
            let with = |pressure: Option<&str>, linked: bool| {
                worst(id, |carrier, _| {
                    carrier.pumps[0].control = control;
                    carrier.pumps[0].pressure = pressure.and_then(stated);
                    if !linked {
                        carrier.circuits[0].pumps.clear();
                        carrier.power_groups.clear();
                    }
                })
            };
            let (unstated, unlinked) = (with(None, true).1, with(None, false).1);
            for pressure in ["180 bar", "200 bar", "230 bar", "260 bar", "340 bar"] {
                let known = with(Some(pressure), true).1;
                assert!(unstated <= known + 1e-9, "{id:?} {control:?} {pressure}: {unstated} {known}");
                assert!(id == CheckId::FlowWindow || unlinked <= known + 1e-9, "{id:?} {control:?} {unlinked} {known}");
            }
        }
    }
}

/// With a cut-off of 260 bar, 28 bar of margin and 3 % on both the relief of 230 bar ends the pressure; without it it is not known
/// what does, and the fact that is asked for is the pump's.
#[test]
fn invariant_a_cut_off_that_is_not_stated_is_asked_for() {
    let (known, _) = worst(CheckId::Pressure, |carrier, _| carrier.pumps[0].pressure = stated("260 bar"));
    assert_eq!(known, Outcome::Met);
    let mut table = table();
    let (mut carrier, head) = (table.carriers.remove(0), table.heads.remove(0));
    carrier.pumps[0].pressure = None;
    let pairing = pair(&carrier, &head, &Conditions::default());
    let check = today(&pairing, CheckId::Pressure);
    assert_eq!(check.outcome, Outcome::NotKnown);
    assert_eq!(check.missing[0].fact, FactId::PumpCutOff);
    assert_ne!(pairing.verdict, Verdict::Fits);
}

fn demo() -> Table {
    read(include_str!("../../../../public/table/demo.json")).table.expect("the demo table")
}

/// A gear pump pumps on against its relief: 5.6 kW of the limiter, by 88 % of the pump 6.4 kW, all of it heat.
#[test]
fn a_fixed_pump_has_no_cut_off() {
    let table = demo();
    let carrier = table.carriers.iter().find(|carrier| carrier.id.as_str() == "skerry-s11").expect("it is in the demo");
    assert_eq!(carrier.pumps[0].control, Some(PumpControl::Fixed));
    let head = table.heads.iter().find(|head| head.kind == HeadKind::Flail).expect("a flail");
    let circuit = carrier.circuits[0].id.clone();
    let conditions = Conditions::of_table(&table);
    let standing = Installation::new(carrier, &circuit, head, &conditions).expect("a circuit").state(at(Load::Stalled));
    let Standing::Stalls { heat: Some(heat), .. } = standing else { panic!("{standing:?}") };
    near(figure(heat), 5.6 / 0.88, 1e-3);
}

/// The head idles at 42 bar, the functions take 120: the load-sensing pump stands its margin of 20 bar above the higher.
#[test]
fn invariant_the_pumps_node_shows_the_higher_of_two_loads() {
    let busy = |load| State { functions: FunctionsState::Busy, ..at(load) };
    let functions = |carrier: &mut Carrier| {
        carrier.functions = Some(Functions { least_flow: stated("20 L/min"), pressure: stated("120 bar") });
    };
    let standing = does(busy(Load::Free), |carrier, _| functions(carrier));
    assert!(node(&standing, Node::SupplyLine).1 < 60.0);
    near(node(&standing, Node::Pump).1, 140.0, 1e-9);
    // Idle functions ask for nothing, and at work the head is the higher.
    let standing = does(at(Load::Free), |carrier, _| functions(carrier));
    near(node(&standing, Node::Pump).1, node(&standing, Node::SupplyLine).1 + 20.0, 1e-9);
    let standing = does(busy(Load::Working), |carrier, _| functions(carrier));
    near(node(&standing, Node::Pump).1, node(&standing, Node::SupplyLine).1 + 20.0, 1e-9);
}

/// 3.2 L/min that a maker states run off at work whatever the motor takes today; in cold oil less by the viscosities.
#[test]
fn invariant_a_stated_case_flow_is_what_runs_off() {
    let case = |load, oil, limit: &str| {
        let standing = does(State { oil, ..at(load) }, |carrier, head| {
            carrier.power_groups[0].limit = stated(limit);
            head.outlet.case_flow = stated("3.2 L/min");
        });
        (node(&standing, Node::Case), node(&standing, Node::MotorInlet).0)
    };
    let ((full, pressure), _) = case(Load::Working, OilState::Working, "36 kW");
    let ((throttled, _), through) = case(Load::Working, OilState::Working, "10 kW");
    assert!(through < 40.0, "{through}");
    near(full, 3.2, 1e-9);
    near(throttled, 3.2, 1e-9);
    near(case(Load::Free, OilState::Working, "36 kW").0.0, 3.2, 1e-9);
    // Hot oil would leak more, but the figure is stated for work; cold oil leaks less, whatever flows through.
    near(case(Load::Working, OilState::Hot, "36 kW").0.0, 3.2, 1e-9);
    let cold = case(Load::Working, OilState::Cold, "36 kW").0.0;
    assert!(cold < 0.5 && (case(Load::Free, OilState::Cold, "36 kW").0.0 - cold).abs() < 1e-9, "{cold}");
    // The check says the same of likely figures.
    let mut table = table();
    let (carrier, mut head) = (table.carriers.remove(0), table.heads.remove(0));
    head.outlet.case_flow = stated("3.2 L/min");
    let pairing = pair(&carrier, &head, &Conditions::default());
    near(figure(today(&pairing, CheckId::CasePressure).value.expect("figures")), pressure, 1e-9);
}

/// Without a drain of its own nothing runs off by a line that the machine happens to have.
#[test]
fn a_motor_without_a_drain_is_not_drained() {
    let standing = does(at(Load::Working), |_, head| {
        head.outlet.needs_case_line = Some(false);
        head.motor.as_mut().expect("a motor").kind = Some(MotorKind::Orbital);
    });
    assert!(!has(&standing, Node::Case));
    near(node(&standing, Node::MotorOutlet).0, node(&standing, Node::MotorInlet).0, 1e-12);
    assert!(has(&does(at(Load::Working), |_, _| {}), Node::Case));
}

/// The relief on a divider's port is set to 288 bar and sees the port; the pump stands the divider's 10 bar above it.
#[test]
fn invariant_a_dividers_relief_acts_behind_the_divider() {
    let divided = |circuit: &mut Circuit| {
        circuit.divider = Some(FlowDivider {
            set_flow: stated("90 L/min").expect("a flow"),
            port_relief: Some(true),
            vented_when_off: Some(true),
        });
        circuit.relief = stated("288 bar");
    };
    let standing = does(at(Load::Stalled), |carrier, _| {
        fixed(carrier);
        carrier.pumps[0].pressure = stated("350 bar");
        divided(&mut carrier.circuits[0]);
    });
    near(node(&standing, Node::Pump).1, 298.0, 1e-9);
    near(node(&standing, Node::MotorInlet).1, 288.0, 1e-9);
    near(node(&standing, Node::Relief).1, 288.0, 1e-9);
    // A pump that cuts off first sends nothing through the divider, and nothing is lost there.
    let standing = does(at(Load::Stalled), |carrier, _| {
        carrier.pumps[0].control = Some(PumpControl::Negative);
        carrier.pumps[0].pressure = stated("280 bar");
        divided(&mut carrier.circuits[0]);
    });
    near(node(&standing, Node::Pump).1, 280.0, 1e-9);
    near(node(&standing, Node::MotorInlet).1, 280.0, 1e-9);
}

/// A broom always brushes: without load it takes 60 % of what it takes at work, whatever that is.
#[test]
fn invariant_a_sweeper_without_load_takes_60_percent_of_its_working_pressure() {
    for (working, free) in [("140 bar", 84.0), ("200 bar", 120.0)] {
        let standing = does(at(Load::Free), |_, head| {
            head.kind = HeadKind::Sweeper;
            head.pressure.working = stated(working);
        });
        near(node(&standing, Node::MotorInlet).1 - node(&standing, Node::MotorOutlet).1, free, 1e-9);
    }
}

/// The coupling in a direct return: what is stated, 2 bar at 100 L/min or one of its own; of nothing stated that of the line's bore.
#[test]
fn invariant_a_direct_return_loses_what_its_coupling_loses() {
    let loss = |spoil: fn(&mut Circuit)| {
        let standing = does(at(Load::Working), |carrier, _| {
            carrier.circuits[0].return_path.route = Some(ReturnRoute::Direct);
            spoil(&mut carrier.circuits[0]);
        });
        let (flow, outlet) = node(&standing, Node::MotorOutlet);
        (flow, outlet - node(&standing, Node::ReturnLine).1)
    };
    let (flow, lost) = loss(|_| {});
    near(lost, 2.0 * (flow / 100.0).powi(2), 1e-9);
    let (flow, lost) = loss(|circuit| {
        let mut own = circuit.coupling.clone().expect("a coupling");
        own.loss.as_mut().expect("a loss").loss = stated("0.5 bar").expect("a loss");
        circuit.return_path.coupling = Some(own);
    });
    near(lost, 0.5 * (flow / 100.0).powi(2), 1e-9);
    // K = 12 on the velocity in 25.4 mm.
    let (flow, lost) = loss(|circuit| circuit.coupling = None);
    let velocity = flow / 60e3 / (std::f64::consts::FRAC_PI_4 * 0.0254_f64.powi(2));
    near(lost / (12.0 * 850.0 / 2.0 * velocity * velocity / 1e5), 1.0, 0.05);
}

/// A machine of another class may have another pump: what is not stated goes by the class.
#[test]
fn an_excavators_pump_is_taken_for_more_than_a_minis() {
    let of = |class| {
        worst(CheckId::Pressure, |carrier, _| {
            carrier.class = class;
            carrier.pumps[0].pressure = None;
        })
        .1
    };
    assert!(of(CarrierClass::Excavator) > of(CarrierClass::MiniExcavator));
}
