//! Steps of the formulas, by their names: what is solved or worked out of a circuit on the way to what a rule judges.

use super::{Drawn, Facts};
use crate::sample::Sample;
use crate::trace::Worked;
use hydraulics::Operating;
use hydraulics::balance::{Compiled, Stall};
use quantity::{Pressure, Quantity, VolumeRate};

/// What a circuit has for the motor at a flow.
#[derive(Clone, Copy, Debug)]
pub struct Pressures {
    /// Up to which the pumps give their whole flow and no relief opens.
    pub whole: Pressure,
    /// What the way to the head takes.
    pub supply: Pressure,
    /// What the way back takes.
    pub back: Pressure,
}

impl Facts<'_> {
    /// The point at which pumps and circuit agree at work.
    ///
    /// # Errors
    /// [`Stall`] where the head does not turn.
    pub fn working_point(&self, sample: &Sample, circuit: &Drawn) -> Result<Operating, Stall> {
        let difference = sample.step(Worked::Difference, self.working_difference(sample, circuit));
        let point = circuit.solve(difference)?;
        sample.step(Worked::FlowAtWork, point.flow);
        Ok(point)
    }

    /// The point at which they agree with the motor free running, at a pressure difference over it.
    ///
    /// # Errors
    /// [`Stall`] where the head does not turn.
    pub fn free_point(&self, sample: &Sample, circuit: &Drawn, free: Pressure) -> Result<Operating, Stall> {
        let point = circuit.solve(free)?;
        sample.step(Worked::FlowFree, point.flow);
        Ok(point)
    }

    /// The flow through the motor free running; where it does not turn another one.
    pub fn free_flow(&self, sample: &Sample, circuit: &Drawn, free: Pressure, stalled: VolumeRate) -> VolumeRate {
        sample.step(Worked::FlowFree, circuit.solve(free).map_or(stalled, |point| point.flow))
    }

    /// What there is for the motor at a flow.
    pub fn pressures(&self, sample: &Sample, circuit: &Drawn, flow: VolumeRate) -> Pressures {
        let whole = circuit.whole_flow_up_to().unwrap_or(Pressure::from_si(0.0));
        let (supply, back) = Compiled::of(circuit).losses(flow);
        sample.step(Worked::WholeFlowUpTo, whole);
        sample.step(Worked::SupplyLoss, supply);
        sample.step(Worked::ReturnLoss, back);
        Pressures { whole, supply, back }
    }

    /// The pressure that the pumps must give for a flow at work.
    pub fn pressure_needed(&self, sample: &Sample, circuit: &Drawn, flow: VolumeRate) -> Pressure {
        sample.step(Worked::PressureNeeded, circuit.need(flow, self.working_difference(sample, circuit)))
    }
}
