//! What a brochure says against what the circuit gives: the difference with its causes.

use super::Installation;
use super::states::balanced;
use crate::Load;
use crate::facts::Facts;
use crate::sample::Corner;
use crate::trace::{InputRecord, Worked};
use hydraulics::Source;
use hydraulics::balance::Balanced;
use hydraulics::pump::CutOff;
use quantity::{Amount, Pressure, Quantity, VolumeRate, string_enum};
use serde::Serialize;

string_enum! {
    /// What takes away of a brochure's figure.
    "cause" pub enum GapCause {
        /// Pumps that give less than the circuit's flow.
        Pump = "pump",
        /// A regulator or a setting below the greatest flow.
        Setting = "setting",
        /// Leakage of the pumps.
        Leak = "leak",
        /// The pumps' power limit.
        PowerLimit = "power-limit",
        /// The margin that a load-sensing pump keeps above the load, where power is short.
        Margin = "margin",
        /// The pumps' cut-off; for a load-sensing pump its margin before it.
        CutOff = "cut-off",
        /// What the relief passes before it is fully open.
        Relief = "relief",
        /// Lines and couplings to the head.
        Supply = "supply",
        /// Lines, couplings, valves and filter back.
        Return = "return",
    }
}

/// A figure of the brochure, what is left of it, and where the rest goes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Gap {
    /// What the brochure says.
    pub says: Amount,
    /// What the circuit gives.
    pub gives: Amount,
    /// What is lost, in the order of the circuit; together the whole difference.
    pub causes: Vec<(GapCause, Amount)>,
}

/// The two figures that a brochure compares.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Brochure {
    /// The circuit's flow against what reaches the head at work.
    pub flow: Gap,
    /// The relief's pressure against what is left for the motor before relief or cut-off take flow, at that flow, or at the
    /// head's least where less reaches it.
    pub pressure: Gap,
    /// The pressure difference that the head's motor works at.
    pub at: Amount,
}

impl Installation<'_> {
    /// What the brochure says and the circuit gives at work, with oil at working temperature and at likely figures. None where
    /// flow or relief are not stated, or something else is missing without which nothing can be solved.
    pub fn brochure(&self) -> Option<Brochure> {
        self.brochure_by(&self.facts())
    }

    /// The brochure's difference, with what it was worked out from.
    pub fn brochure_with_inputs(&self) -> (Option<Brochure>, Vec<InputRecord>) {
        self.facts().with_inputs(|facts| self.brochure_by(facts))
    }

    fn brochure_by(&self, facts: &Facts) -> Option<Brochure> {
        let (says_flow, says_pressure) = self.says()?;
        let sample = facts.sample(Corner::Likely);
        let (circuit, point) = balanced(facts, &sample, Load::Working, self.conditions.working);
        if !sample.missing().is_empty() {
            return None;
        }
        let motor = sample.step(Worked::Difference, facts.working_difference(&sample, &circuit));
        let zero = VolumeRate::from_si(0.0);
        let (gives, at_pump) = match point {
            Balanced::Turns(at) => (at.flow, at.supply),
            // It stands still at what it would need with no flow at all.
            Balanced::Stalls(_) => (zero, circuit.need(zero, motor)),
            Balanced::NoSuchPoint => return None,
        };
        let least = self.head.flow.least.or(self.head.flow.rated).map(|stated| stated.nominal);
        // Less than its least flow is no work: the pressure is asked at that.
        let through = gives.max(least.unwrap_or(if gives > zero { gives } else { says_flow }));
        let (supply, back) = (circuit.supply.loss(through, &circuit.oil), circuit.outlet(through));
        let relief = circuit.relief?;
        let whole = circuit.whole_flow_up_to()?;
        let ends_first = if whole < relief.opens_at() { GapCause::CutOff } else { GapCause::Relief };
        let none = Pressure::from_si(0.0);
        let left = (whole - supply - back).max(none);
        sample.step(Worked::FlowAtWork, gives);
        sample.step(Worked::WholeFlowUpTo, whole);
        sample.step(Worked::SupplyLoss, supply);
        sample.step(Worked::ReturnLoss, back);
        // What is not there cannot be lost: where the lines would take more than all, the way back gets the rest.
        let supply = if supply < whole { supply } else { whole };
        let back = if back < whole - supply { back } else { whole - supply };
        // What a change has set lower than the brochure has it is lost to that, and to nothing in the circuit.
        let lower =
            |says: Pressure| self.circuit.relief.map(|set| set.nominal).filter(|set| *set < says).unwrap_or(says);
        let set = lower(says_pressure);
        let pressure_causes = [
            (GapCause::Setting, says_pressure - set),
            (ends_first, set - whole),
            (GapCause::Supply, supply),
            (GapCause::Return, back),
        ];
        Some(Brochure {
            flow: Gap {
                says: Amount::of(says_flow),
                gives: Amount::of(gives),
                causes: self.flow_causes(&circuit.source, says_flow, at_pump, gives),
            },
            pressure: Gap {
                says: Amount::of(says_pressure),
                gives: Amount::of(left),
                causes: kept(
                    pressure_causes.into_iter().map(|(cause, lost)| (cause, lost.si(), Amount::of(lost))),
                    1e4,
                ),
            },
            at: Amount::of(motor),
        })
    }

    /// Where the flow goes at a pressure: what a change has set lower than the brochure has it, then link by link.
    fn flow_causes(
        &self,
        source: &Source,
        says: VolumeRate,
        at: Pressure,
        gives: VolumeRate,
    ) -> Vec<(GapCause, Amount)> {
        let set = self.circuit.flow.map(|set| set.nominal).filter(|set| *set < says);
        let mut causes = flow_causes(source, set.unwrap_or(says), at, gives);
        if let Some(lost) = set.map(|set| says - set) {
            match causes.iter_mut().find(|(cause, _)| *cause == GapCause::Setting) {
                Some((_, more)) => *more = Amount::of(VolumeRate::from_si(more.si() + lost.si())),
                None => causes.insert(0, (GapCause::Setting, Amount::of(lost))),
            }
        }
        causes
    }
}

/// Where the flow goes at a pressure, link by link as the source computes it; what is left over at the end the relief
/// has passed.
fn flow_causes(source: &Source, says: VolumeRate, at: Pressure, gives: VolumeRate) -> Vec<(GapCause, Amount)> {
    let unlimited = Source { set: None, leak: VolumeRate::from_si(0.0), power: None, cut_off: None, ..*source };
    let least = |a: VolumeRate, b: VolumeRate| if a < b { a } else { b };
    // Load sensing without its end: the margin alone.
    let endless = source.cut_off.map(|cut_off| match cut_off {
        CutOff::LoadSensing { margin, .. } => CutOff::LoadSensing { pressure: Pressure::from_si(1e12), margin },
        CutOff::AtLoad { band, .. } | CutOff::Compensated { band, .. } => {
            CutOff::AtLoad { pressure: Pressure::from_si(1e12), band }
        }
    });
    let links = [
        (GapCause::Pump, unlimited),
        (GapCause::Setting, Source { set: source.set, ..unlimited }),
        (GapCause::Leak, Source { set: source.set, leak: source.leak, ..unlimited }),
        (GapCause::PowerLimit, Source { cut_off: None, ..*source }),
        (GapCause::Margin, Source { cut_off: endless, ..*source }),
        (GapCause::CutOff, *source),
    ];
    let mut so_far = says;
    let mut causes = Vec::new();
    for (cause, link) in links {
        let left = least(so_far, link.flow_at(at));
        causes.push((cause, so_far - left));
        so_far = left;
    }
    causes.push((GapCause::Relief, so_far - gives));
    kept(causes.into_iter().map(|(cause, lost)| (cause, lost.si(), Amount::of(lost))), 1e-3 / 60_000.0)
}

/// The causes that amount to anything.
fn kept(causes: impl Iterator<Item = (GapCause, f64, Amount)>, least: f64) -> Vec<(GapCause, Amount)> {
    causes.filter(|(_, si, _)| *si > least).map(|(cause, _, amount)| (cause, amount)).collect()
}
