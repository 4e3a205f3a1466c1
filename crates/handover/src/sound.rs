//! The machine as it is computed, with nothing wrong.

use super::computed::{Computed, Places};
use super::plan::NEAR_RELIEF;
use super::rig::{Engine, Losses, Rig};
use fit::assume::duty;
use fit::facts::{Extreme, Facts};
use fit::installation::heat_up::HeatUp;
use fit::installation::states::idles;
use fit::sample::{Corner, End, Sample};
use fit::{FactId, Load};
use hydraulics::Motor;
use quantity::{Displacement, Pressure, Quantity, Ratio, ThermodynamicTemperature, VolumeRate};
use table::AssumptionId;

impl Rig {
    /// The machine as it is computed.
    ///
    /// # Errors
    /// What is missing without which no circuit can be solved.
    pub fn of(facts: &Facts, oil: ThermodynamicTemperature) -> Result<(Self, Computed), Vec<FactId>> {
        let sample = Sample::new(Corner::Likely);
        let circuit = facts.circuit(&sample, Extreme::LeastFlow, oil);
        let working = facts.working_difference(&sample, &circuit);
        let free = idles(facts.head.kind).then(|| facts.free_difference(&sample));
        if !sample.missing().is_empty() {
            return Err(sample.missing());
        }
        let idle = facts.idle_ratio.fact.interval().map_or(1.0, |ratio| ratio.nominal.si());
        let stated = facts.carrier.engine.working_speed.map(|speed| speed.nominal);
        let rig = Self {
            set_follows_engine: !facts.spool_holds_flow() && facts.flow_limit.is_none(),
            busy: facts.functions_at_work().map(|(flow, pressure)| (facts.order_of_functions(), flow, pressure)),
            untold: None,
            engine: Engine {
                stated,
                idle_stated: stated.is_some() && facts.carrier.engine.high_idle.is_some(),
                free: idle,
                working: 1.0,
            },
            free,
            working,
            motor: facts.nominal_motor(),
            losses: Losses::default(),
            places: Places::of(facts),
            heat: 1.0,
            cooler: 1.0,
            tester_off: Pressure::from_si(0.0),
            circuit: circuit.to_circuit(),
        };
        let computed = Computed::of(facts, &rig, oil);
        Ok((rig, computed))
    }
}

impl Computed {
    pub fn of(facts: &Facts, rig: &Rig, oil: ThermodynamicTemperature) -> Self {
        let none = VolumeRate::from_si(0.0);
        let sample = Sample::new(Corner::Likely);
        // The load valve is set by the plan's figures, which hold at the stated speed of the engine.
        let plainly = Rig { engine: Engine { free: 1.0, working: 1.0, ..rig.engine }, ..rig.clone() };
        let range = facts.practice.range::<Ratio>(AssumptionId::FunctionsUseful);
        let useful = range.map_or(Ratio::from_si(0.5), |range| range.nominal);
        let motor = if facts.is_impact() {
            // Half of what passes a breaker is blow (taken like the functions' useful part; common practice, no published
            // source).
            Motor { displacement: Displacement::from_si(1.0), volumetric: 1.0, hydromechanical: 0.5, ratio: 1.0 }
        } else {
            facts.motor_by_its_efficiencies(&sample)
        };
        let drive = facts.ratio.fact.interval().map(|ratio| ratio.nominal.si());
        let mut computed = Self {
            set: [None; 3],
            flow: none,
            working: rig.working,
            leak: (rig.circuit.source.leak, rig.circuit.source.leak_at),
            heats: [None; 3],
            warms: HeatUp::of(facts).ok(),
            oil,
            day: duty(facts.head.kind),
            efficiencies: (motor, sample.take(&facts.pump_efficiency, End::Low), useful),
            rotor: facts.has_rotor(),
            belt: drive.is_some_and(|drive| (drive - 1.0).abs() >= 1e-9),
        };
        let inlet = |load| plainly.connected(&computed, load).map(|(_, at)| at.inlet);
        let set =
            [inlet(Load::Free), inlet(Load::Working), rig.circuit.stall_pressure().map(|dead| dead * NEAR_RELIEF)];
        computed.set = set;
        computed.flow = plainly.connected(&computed, Load::Working).map_or(none, |(_, at)| at.flow);
        let heat = |load| rig.connected(&computed, load).map(|solved| rig.warms(&computed, load, &solved));
        computed.heats = [heat(Load::Free), heat(Load::Working), heat(Load::Stalled)];
        computed
    }
}
