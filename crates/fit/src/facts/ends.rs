//! What belongs to the end of the machine that the circuit feeds: a head goes with one end, and only with that end's figures.

use super::Facts;
use crate::FactId;
use crate::trace::Context;
use quantity::{Quantity, Stated};
use table::{MachineEnd, Mounting, ToolCoupler};

impl<'a> Facts<'a> {
    /// The end that the circuit feeds; none where a machine with two ends does not say.
    pub fn end(&self) -> Option<MachineEnd> {
        self.carrier_class().only_end().or_else(|| self.circuit_end())
    }

    /// The machine's mountings at the end of the circuit, and those that may be there, as their end is not stated.
    pub fn mountings(&self) -> (Vec<&'a Mounting>, Vec<&'a Mounting>) {
        let all = self.carrier.mounting.iter();
        let Some(end) = self.end() else { return (Vec::new(), all.collect()) };
        let at = |mounting: &&Mounting| self.carrier.end_of_mounting(mounting);
        let here = all.clone().filter(|mounting| at(mounting) == Some(end)).collect();
        (here, all.filter(|mounting| at(mounting).is_none()).collect())
    }

    /// The coupler at the end of the circuit.
    ///
    /// # Errors
    /// The fact that is missing to say which.
    pub fn coupler(&self) -> Result<&'a ToolCoupler, FactId> {
        let end = self.end().ok_or(FactId::CircuitEnd)?;
        let of_unknown_end = || {
            let mut all = self.carrier.coupler.iter().chain(&self.carrier.second_coupler);
            self.carrier.class.only_end().is_none() && all.any(|coupler| coupler.end.is_none())
        };
        let Some(coupler) = self.carrier.coupler_at(end) else {
            return Err(self.unstated(if of_unknown_end() { FactId::CouplerEnd } else { FactId::ToolCoupler }));
        };
        self.read(Context::CouplerFitted, coupler.fitted);
        Ok(coupler)
    }

    /// A figure that machines of one end state for it, and a backhoe loader for its digging arm.
    pub fn at_single_end_or_arm<'s, Q: Quantity>(&self, stated: Option<&'s Stated<Q>>) -> Option<&'s Stated<Q>> {
        let of_arm = self.carrier.class.only_end().is_some() || self.end() == Some(MachineEnd::Arm);
        stated.filter(|_| of_arm)
    }
}
