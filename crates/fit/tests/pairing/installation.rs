//! What an installation tells beside its verdict: states, brochure, oil, run-down, warmth.

use crate::fixture::{stated, table};
use fit::installation::{EngineState, FilterState, FunctionsState, GapCause, NoPoint, Standing, State, Warmth};
use fit::{CheckId, Conditions, FactId, Installation, Load, Node, OilState, Outcome};
use hydraulics::oil::OilWarning;
use quantity::shop::celsius;
use quantity::{Amount, UnitSystem};
use table::{Carrier, Cooler, Functions, Head, HeadKind, PumpControl, ReturnRoute};

/// Spoils the fixture and looks into it.
fn look<R>(spoil: impl FnOnce(&mut Carrier, &mut Head), see: impl FnOnce(Installation) -> R) -> R {
    let mut table = table();
    let (mut carrier, mut head) = (table.carriers.remove(0), table.heads.remove(0));
    spoil(&mut carrier, &mut head);
    let conditions = Conditions::default();
    let circuit = carrier.circuits[0].id.clone();
    see(Installation::new(&carrier, &circuit, &head, &conditions).expect("the circuit is there"))
}

fn figure(amount: Amount) -> f64 {
    amount.in_system(UnitSystem::Metric).0
}

fn usual() -> State {
    State {
        load: Load::Working,
        oil: OilState::Working,
        functions: FunctionsState::Idle,
        engine: EngineState::Working,
        filter: FilterState::Clean,
    }
}

fn node(standing: &Standing, wanted: Node) -> Option<(f64, f64)> {
    let (Standing::Turns { nodes, .. } | Standing::Stalls { nodes, .. }) = standing else { return None };
    let reading = nodes.iter().find(|reading| reading.node == wanted)?;
    Some((figure(reading.flow), figure(reading.pressure)))
}

fn in_state(states: &[(State, Standing)], wanted: State) -> &Standing {
    &states.iter().find(|(state, _)| *state == wanted).expect("every state is there").1
}

fn busy(carrier: &mut Carrier) {
    carrier.functions = Some(Functions { least_flow: stated("40 L/min"), pressure: stated("120 bar") });
}

#[test]
fn every_state_is_solved_and_pressure_falls_along_the_oil() {
    let states = look(|carrier, _| busy(carrier), |installation| installation.states());
    assert_eq!(states.len(), 3 * 3 * 2 * 2 * 2);
    for (state, standing) in &states {
        let (Standing::Turns { nodes, .. } | Standing::Stalls { nodes, .. }) = standing else {
            panic!("{state:?}: {standing:?}");
        };
        let along = [
            Node::Pump,
            Node::SupplyLine,
            Node::SupplyCoupling,
            Node::MotorInlet,
            Node::MotorOutlet,
            Node::ReturnLine,
            Node::ReturnValve,
            Node::ReturnFilter,
            Node::Tank,
        ];
        let pressures: Vec<f64> = along.iter().map(|&place| node(standing, place).expect("a node").1).collect();
        assert!(pressures.windows(2).all(|pair| pair[0] >= pair[1] - 1e-9), "{state:?}: {pressures:?}");
        assert!((pressures[8] - 0.2).abs() < 1e-9, "the tank's breather");
        // Oil is neither made nor lost: what goes in comes back, by the return and by the case line.
        let (inlet, outlet) =
            (node(standing, Node::MotorInlet).unwrap().0, node(standing, Node::MotorOutlet).unwrap().0);
        let case = node(standing, Node::Case).expect("a case line").0;
        // What the pumps give beside the functions goes through the head or over the relief.
        let (pump, relief) =
            (node(standing, Node::Pump).unwrap().0, node(standing, Node::Relief).map_or(0.0, |over| over.0));
        assert!((pump - inlet - relief).abs() < 1e-6, "{state:?}: {pump} {inlet} {relief}");
        assert!((inlet - outlet - case).abs() < 1e-9, "{state:?}");
        assert_eq!(
            nodes.iter().any(|reading| reading.node == Node::Functions),
            state.functions == FunctionsState::Busy
        );
        assert_eq!(matches!(standing, Standing::Stalls { .. }), state.load == Load::Stalled, "{state:?}");
    }
}

#[test]
fn states_differ_where_they_should() {
    let states = look(
        |carrier, _| {
            busy(carrier);
            carrier.pumps[0].control = Some(PumpControl::Negative);
        },
        |installation| installation.states(),
    );
    let outlet = |state| node(in_state(&states, state), Node::MotorOutlet).expect("it turns").1;
    let flow = |state| node(in_state(&states, state), Node::MotorInlet).expect("it turns").0;
    // A blocked filter stands on its bypass; cold oil loses more; the engine without load gives more.
    assert!(outlet(State { filter: FilterState::Bypass, ..usual() }) > outlet(usual()) + 1.0);
    assert!(outlet(State { oil: OilState::Cold, ..usual() }) > outlet(State { oil: OilState::Hot, ..usual() }));
    let idling = State { load: Load::Free, ..usual() };
    assert!(flow(State { engine: EngineState::HighIdle, ..idling }) > flow(idling) * 1.04);
    // With the functions at 120 bar the head at 150 bar comes last.
    assert!(flow(State { functions: FunctionsState::Busy, ..usual() }) < flow(usual()));
}

#[test]
fn what_is_no_point_or_not_known_is_said() {
    let spoil = |carrier: &mut Carrier, head: &mut Head| {
        head.kind = HeadKind::Breaker;
        carrier.functions = None;
    };
    let states = look(spoil, |installation| installation.states());
    let free = in_state(&states, State { load: Load::Free, ..usual() });
    assert_eq!(*free, Standing::NoSuchPoint { because: NoPoint::NoIdle });
    let busy = in_state(&states, State { functions: FunctionsState::Busy, ..usual() });
    assert_eq!(*busy, Standing::NotKnown { missing: vec![FactId::Functions] });
    let states = look(|carrier, _| carrier.circuits[0].relief = None, |installation| installation.states());
    let Standing::NotKnown { missing } = in_state(&states, usual()) else { panic!("a relief was missing") };
    assert_eq!(missing, &[FactId::CircuitRelief]);
}

#[test]
fn a_load_sensing_pump_ends_its_margin_before_its_cut_off() {
    let needs = |cut_off: &str| {
        look(
            |carrier, head| {
                carrier.pumps[0].pressure = stated(cut_off);
                carrier.power_groups[0].limit = stated("80 kW");
                head.pressure.working = stated("180 bar");
            },
            |installation| {
                let brochure = installation.brochure().expect("it can be solved");
                let lost = brochure.flow.causes.iter().find(|(cause, _)| *cause == GapCause::CutOff);
                (figure(brochure.flow.gives), lost.map(|(_, amount)| figure(*amount)))
            },
        )
    };
    // 230 bar of relief, and a cut-off that leaves 20 bar of margin above the need, or does not.
    assert_eq!(needs("240 bar").1, None);
    let (gives, lost) = needs("205 bar");
    assert!(gives < 95.0 && lost.is_some_and(|lost| lost > 5.0), "{gives} {lost:?}");
}

#[test]
fn a_brochure_s_difference_is_the_sum_of_its_causes() {
    look(
        |carrier, _| {
            carrier.circuits[0].relief = stated("185 bar");
            carrier.power_groups[0].limit = stated("24 kW");
        },
        |installation| {
            let brochure = installation.brochure().expect("it can be solved");
            assert_eq!((figure(brochure.flow.says), figure(brochure.pressure.says)), (100.0, 185.0));
            for gap in [&brochure.flow, &brochure.pressure] {
                let lost: f64 = gap.causes.iter().map(|(_, amount)| figure(*amount)).sum();
                assert!((figure(gap.says) - figure(gap.gives) - lost).abs() < 0.01, "{gap:?}");
            }
            let causes: Vec<_> = brochure.flow.causes.iter().map(|(cause, _)| *cause).collect();
            assert_eq!(causes, [GapCause::PowerLimit, GapCause::Margin]);
            let causes: Vec<_> = brochure.pressure.causes.iter().map(|(cause, _)| *cause).collect();
            assert_eq!(causes, [GapCause::Relief, GapCause::Supply, GapCause::Return]);
        },
    );
}

#[test]
fn a_head_that_stalls_gets_nothing_of_the_brochure_s_flow() {
    look(
        |_, head| head.pressure.working = stated("260 bar"),
        |installation| {
            let brochure = installation.brochure().expect("it can be solved");
            assert!(figure(brochure.flow.gives).abs() < 1e-12);
            let lost: f64 = brochure.flow.causes.iter().map(|(_, amount)| figure(*amount)).sum();
            assert!((lost - 100.0).abs() < 0.01, "{brochure:?}");
        },
    );
    assert!(look(|carrier, _| carrier.circuits[0].flow = None, |installation| installation.brochure()).is_none());
}

#[test]
fn cold_oil_raises_the_back_pressure_and_fails_marks() {
    look(
        |carrier, head| {
            carrier.circuits[0].return_path.line.segments[0].bore = stated("19.05 mm");
            head.outlet.back_pressure = stated("14 bar");
        },
        |installation| {
            let (cold, warm) = (installation.at_oil(celsius(-10.0)), installation.at_oil(celsius(60.0)));
            assert!(figure(cold.back_pressure.unwrap()) > 2.0 * figure(warm.back_pressure.unwrap()));
            assert!(figure(cold.viscosity.unwrap()) > 1000.0);
            assert!(cold.warnings.contains(&OilWarning::TooThickToStart) && warm.warnings.is_empty());
            let mark = |reading: &fit::installation::OilReading| {
                reading.marks.iter().find(|mark| mark.check == CheckId::BackPressure).expect("a mark").outcome
            };
            assert_eq!((mark(&cold), mark(&warm)), (Outcome::NotMet, Outcome::Met));
        },
    );
}

/// An oil by its data sheet: as thick as VG 46 at 40 °C, but thinning less, as esters and multigrade oils do.
#[test]
fn an_oil_by_two_points_is_thinner_cold_and_thicker_hot() {
    let thick = |hot: Option<&str>, t: f64| {
        look(
            |carrier, _| {
                let oil = carrier.oil.as_mut().expect("an oil");
                oil.grade = None;
                oil.viscosity_40 = stated("46 mm2/s");
                oil.viscosity_100 = hot.and_then(stated);
            },
            |installation| figure(installation.at_oil(celsius(t)).viscosity.expect("a viscosity")),
        )
    };
    // ISO VG 46 with a viscosity index of 150 has 8.1 mm²/s at 100 °C.
    assert!((thick(Some("8.1 mm2/s"), 40.0) - 46.0).abs() < 1e-9 && (thick(None, 40.0) - 46.0).abs() < 1e-9);
    assert!(thick(Some("8.1 mm2/s"), 0.0) < 0.8 * thick(None, 0.0));
    assert!(thick(Some("8.1 mm2/s"), 90.0) > 1.1 * thick(None, 90.0));
}

fn warmth(spoil: impl FnOnce(&mut Carrier, &mut Head)) -> Warmth {
    look(spoil, |installation| installation.warmth())
}

fn with_cooler(carrier: &mut Carrier, conductance: &str) {
    carrier.tank.as_mut().expect("a tank").volume = stated("90 L");
    carrier.circuits[0].return_path.through_cooler = Some(true);
    carrier.cooler = Some(Cooler { conductance: stated(conductance), flow: stated("100 L/min") });
}

#[test]
fn without_a_cooler_s_figures_only_the_soonest_is_told() {
    let nobody_says = warmth(|carrier, _| {
        carrier.tank.as_mut().expect("a tank").volume = None;
        carrier.circuits[0].return_path.through_cooler = None;
    });
    assert_eq!(nobody_says.missing, [FactId::TankVolume, FactId::ThroughCooler]);
    assert!(nobody_says.heat.is_some() && nobody_says.at_the_soonest.is_none() && nobody_says.settles.is_none());
    let tank_alone = warmth(|carrier, _| {
        carrier.cooler = None;
    });
    assert_eq!(tank_alone.missing, [FactId::CoolerConductance]);
    assert!(tank_alone.at_the_soonest.is_some() && tank_alone.to_stop.is_none());
}

#[test]
fn a_better_cooler_settles_lower_and_a_return_past_it_boils() {
    let good = warmth(|carrier, _| with_cooler(carrier, "600 W/K"));
    let poor = warmth(|carrier, _| with_cooler(carrier, "150 W/K"));
    let settles = |warmth: &Warmth| figure(warmth.settles.expect("it settles"));
    assert!(settles(&good) < settles(&poor), "{good:?} {poor:?}");
    // In the balance what flows in is carried away: at 600 W/K about the heat over the conductance above 40 °C.
    let rise = settles(&good) - 40.0;
    let heat = figure(good.heat.expect("heat")) * 1000.0;
    assert!((rise * 600.0 / heat - 1.0).abs() < 0.35, "{rise} K, {heat} W");
    let past = warmth(|carrier, _| {
        with_cooler(carrier, "600 W/K");
        carrier.circuits[0].return_path.route = Some(ReturnRoute::Direct);
        carrier.circuits[0].return_path.through_cooler = None;
    });
    assert!(past.boundless && past.settles.is_none());
    let (soonest, really) = (past.at_the_soonest.expect("oil"), past.to_stop.expect("it gets there"));
    assert!(figure(soonest) <= figure(really));
}
