//! Pumps and engine as a sample sees them: the source of oil.

use super::Facts;
use super::extreme::Extreme;
use super::pumps::least_rated;
use super::stated::{known, of_class};
use crate::FactId;
use crate::assume::PUBLISHED_POWER;
use crate::sample::{End, Parameter, Sample};
use crate::trace::Worked;
use hydraulics::Source;
use hydraulics::pump::CutOff;
use quantity::{Fact, Power, Pressure, Quantity, Ratio, VolumeRate};
use table::{AssumptionId, PumpControl};

impl Facts<'_> {
    /// The power that the engine can spare for the pumps while the head works: what fan, alternator and, on a loader,
    /// driving leave of it. None when the engine's power is not stated.
    pub fn spared_power(&self) -> Option<(Parameter<Power>, Parameter<Ratio>)> {
        let stated = known(self.carrier.engine.power.as_ref(), PUBLISHED_POWER);
        let engine = of_class(FactId::EnginePower, stated, AssumptionId::EnginePower, self.carrier, &self.practice);
        if engine.fact == Fact::Missing {
            return None;
        }
        let range = self.practice.range(AssumptionId::PumpPowerShare);
        let share = Parameter::or_assumed(FactId::PowerLimit, None, AssumptionId::PumpPowerShare, range);
        Some((engine, share))
    }

    /// The pumps as a scenario sees them.
    pub fn source(&self, sample: &Sample, lean: Extreme) -> Source {
        let side = if lean == Extreme::LeastFlow { End::Low } else { End::High };
        let set_flow = sample.take(if lean == Extreme::LeastFlow { &self.flow } else { &self.flow_reachable }, side);
        let limit = self.flow_limit.as_ref().map(|limit| sample.take(limit, side));
        let pumps = self.pumps.as_ref().map(|pumps| sample.take(pumps, side));
        // Without load the engine runs faster, and its pumps with it.
        let faster = !sample.is_likely() && lean != Extreme::LeastFlow || self.state.high_idle;
        let up_to = || sample.take(&self.idle_ratio, End::High).si();
        let idle = if faster { sample.sampler().engine(up_to()) } else { 1.0 };
        let at_working_speed = pumps.unwrap_or(set_flow);
        let greatest = at_working_speed * idle;
        // A load-sensing spool holds its flow whatever the engine does, and so does a sealed regulator.
        let by_spool = if self.spool_holds_flow() { set_flow } else { set_flow * idle };
        let set = limit.map_or(by_spool, |limit| if limit < by_spool { limit } else { by_spool });
        Source {
            greatest,
            set: Some(set),
            // Gaps leak by pressure, however fast the pump turns.
            leak: at_working_speed * sample.take(&self.leak, side.other()).si(),
            leak_at: sample.take(&self.rated_pressure, side).max(least_rated()),
            // The limiter holds a torque: at a higher speed it is more power.
            power: Some(sample.take(&self.power, side) * idle),
            cut_off: if lean == Extreme::LeastFlow { self.pump_cut_off(sample) } else { None },
            surplus_is_pumped: self.control() == Some(PumpControl::Fixed),
        }
    }

    /// Where the pumps' own control ends the flow: a load-sensing pump a margin before its cut-off, others over its last
    /// per cents; a fixed pump nowhere, whatever pressure it is rated for. Only where that makes less of it: what can hurt
    /// takes no credit for it. Likely, a cut-off that is not stated lies above the relief; at worst it is the least that pumps
    /// of such machines are rated for, wherever the relief stands.
    fn pump_cut_off(&self, sample: &Sample) -> Option<CutOff> {
        let cut_off = self.cut_off.as_ref()?;
        let likely = sample.is_likely();
        let control = self.control();
        let stated = (cut_off.fact.is_known() || !likely).then(|| sample.take(cut_off, End::Low));
        let band = || sample.take(&self.cut_off_band, End::High).si();
        // Without a stated cut-off only the relief ends it, but the pump stands its margin above the load all the same.
        let sensing = stated.unwrap_or(Pressure::from_si(1e9));
        match control {
            Some(PumpControl::LoadSensing) => {
                Some(CutOff::LoadSensing { pressure: sensing, margin: sample.take(&self.margin, End::High) })
            }
            // It may sense the load, which takes more than any other control does.
            None if !likely => {
                let margin = Parameter { id: FactId::PumpControl, ..self.margin };
                let margin = sample.take(&margin, End::High).max(sensing * band());
                Some(CutOff::LoadSensing { pressure: sensing, margin })
            }
            Some(PumpControl::PressureCompensated) => {
                stated.map(|pressure| CutOff::Compensated { pressure, band: band() })
            }
            _ => stated.map(|pressure| CutOff::AtLoad { pressure, band: band() }),
        }
    }

    /// How the pumps of this circuit are commanded, when all say the same.
    pub fn control(&self) -> Option<PumpControl> {
        if self.trace().is_none() {
            return self.commanded;
        }
        let mut controls = self.pumps_of_circuit().map(|pump| self.pump_control(pump));
        let Some(first) = controls.next() else {
            self.unstated(FactId::PumpControl);
            return None;
        };
        let first = first?;
        controls.all(|control| control == Some(first)).then_some(first)
    }

    /// The pumps that feed the circuit.
    pub fn pumps_of_circuit(&self) -> impl Iterator<Item = &table::Pump> {
        self.carrier.pumps.iter().filter(|pump| self.circuit.pumps.contains(&pump.id))
    }

    /// Whether the circuit's flow is held by a spool that senses the load: then it does not rise with the engine. Where only
    /// the pumps' flow is stated, nothing holds it.
    pub fn spool_holds_flow(&self) -> bool {
        self.control() == Some(PumpControl::LoadSensing)
            && self.circuit.flow.is_some()
            && self.circuit.divider.is_none()
    }

    /// The most that can flow when nothing hinders: setting turned up, engine at high idle, no leakage, no load.
    pub fn unhindered_flow(&self, sample: &Sample) -> VolumeRate {
        let limit = self.flow_limit.as_ref().map(|limit| sample.take(limit, End::High));
        let bounded = limit.filter(|_| !sample.is_likely());
        // A sealed regulator alone bounds it: whatever else is set or unknown no longer matters.
        if let Some(limit) = bounded {
            return sample.step(Worked::MostFlow, limit);
        }
        let reachable = sample.take(&self.flow_reachable, End::High);
        let most =
            if self.spool_holds_flow() { reachable } else { reachable * sample.take(&self.idle_ratio, End::High).si() };
        sample.step(Worked::MostFlow, most)
    }
}
