//! The balance: the one flow at which the pumps give what the head takes.
//!
//! `need(Q) = Δp_motor + Δp_supply(Q) + p_back(Q)` is the pressure that a flow through the head needs at the pumps' side of its
//! lines; `available(p)` is what reaches the head's branch at a pressure there. `g(Q) = available(need(Q)) − Q` falls strictly, so
//! a flow is reached exactly when g ≥ 0 there (a *sign* is enough for a verdict), and there is one root or the head stalls.
//!
//! This file is the plain way, in typed quantities, as the formulas are written: the truth for the tests. [`Compiled`] is
//! the same circuit as coefficients, in which g costs tens of nanoseconds; [`Circuit::solve`] goes by it.

mod compiled;
mod feed;
mod ledger;
#[cfg(test)]
mod tests;

pub use compiled::Compiled;
pub use feed::{DividedPumps, Functions, Leg, Order};
pub use ledger::{Ledger, Place};

use super::{CaseLine, Oil, Relief, Resistance, Source};
use quantity::{Pressure, Quantity, Until, VolumeRate, halved};

/// One circuit in one state of oil, engine and functions.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    /// The pumps, as far as they feed this circuit.
    pub source: Source,
    /// What the machine's functions take meanwhile. None: they idle.
    pub functions: Option<Functions>,
    /// The relief that guards it. None only where the question does not depend on it.
    pub relief: Option<Relief>,
    /// From the pumps (or the divider) to the motor's inlet.
    pub supply: Resistance,
    /// From the motor's outlet to the tank, the tank's own pressure included.
    pub back: Resistance,
    /// Where the motor's leakage goes. None: inside, to its outlet.
    pub drain: Option<DrainLine>,
    /// The oil.
    pub oil: Oil,
}

/// A motor's leakage with a line of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct DrainLine {
    /// Share of the motor's flow that leaks into the housing with the oil as it is, 0 to less than 1; zero where that is
    /// stated as a flow.
    pub share: f64,
    /// What is stated to leak with the oil as it is, whatever flows through the motor; zero where it is a share.
    pub stated: VolumeRate,
    /// What leaks while the motor is held fast at full pressure.
    pub stalled: VolumeRate,
    /// The line.
    pub line: CaseLine,
}

/// Of what flows into a motor no more than this share can leak: the rest turns it.
const MOST_LEAKED: f64 = 0.9;

impl DrainLine {
    /// What leaks into the housing of a motor that turns with a flow.
    pub fn leaked(&self, through: VolumeRate) -> VolumeRate {
        (through * self.share + self.stated).min(through * MOST_LEAKED)
    }
}

/// A solved operating point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Operating {
    /// Flow through the head.
    pub flow: VolumeRate,
    /// Pressure at the beginning of the supply: at the pumps, but for what their control or a divider takes.
    pub supply: Pressure,
    /// Pressure at the motor's inlet.
    pub inlet: Pressure,
    /// Pressure at the motor's outlet.
    pub outlet: Pressure,
    /// Pressure in the motor's housing where it has a line of its own.
    pub case: Option<Pressure>,
    /// Flow that the pumps give to this circuit and its relief, functions apart.
    pub pumped: VolumeRate,
}

/// The circuit gives no flow at all at the pressure that the head needs: it stands still with the relief open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stall;

impl std::fmt::Display for Stall {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("nothing flows at the pressure that the head needs: the circuit must give it more, or the head ask for less")
    }
}

impl std::error::Error for Stall {}

/// A flow so small that it is none, as a share of the pumps' greatest: a check valve and a filter's bypass need their
/// opening pressure as soon as anything flows, so that a stall is judged just above zero.
const JUST_FLOWING: f64 = 1e-9;

/// What a circuit does with a load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Balanced {
    /// The head turns.
    Turns(Operating),
    /// The head stands still: nothing flows through it, and the pressure is what relief or cut-off make of it.
    Stalls(Operating),
    /// There is no such point: the head stands still and nothing is known that ends the pressure.
    NoSuchPoint,
}

impl Circuit {
    /// The flow that comes back from the head: less what leaks into its housing.
    pub fn returned(&self, flow: VolumeRate) -> VolumeRate {
        self.drain.as_ref().map_or(flow, |drain| flow - drain.leaked(flow))
    }

    /// Pressure at the motor's outlet at a flow through the head.
    pub fn outlet(&self, flow: VolumeRate) -> Pressure {
        self.back.loss(self.returned(flow), &self.oil)
    }

    /// The pressure that a flow through the head needs: `Δp_motor + Δp_supply(Q) + p_back(Q)`.
    pub fn need(&self, flow: VolumeRate, motor: Pressure) -> Pressure {
        motor + self.supply.loss(flow, &self.oil) + self.outlet(flow)
    }

    /// The flow that is left for the head at a pressure at the beginning of its supply, after functions and relief.
    pub fn available(&self, pressure: Pressure) -> VolumeRate {
        let offered = match &self.functions {
            None => self.source.flow_at(pressure),
            Some(functions) => functions.leave(&self.source, pressure),
        };
        let Some(relief) = self.relief else { return offered };
        offered * (1.0 - relief.share_passed(pressure)) - relief.leaked(pressure)
    }

    /// `g(Q) = available(need(Q)) − Q`. It falls strictly with Q.
    pub fn surplus(&self, flow: VolumeRate, motor: Pressure) -> VolumeRate {
        self.available(self.need(flow, motor)) - flow
    }

    /// [`Self::solve`] by plain bisection over the plain g: slow and beyond doubt, the truth for the tests.
    ///
    /// # Errors
    /// [`Stall`] when nothing flows at that pressure.
    pub fn solve_plainly(&self, motor: Pressure) -> Result<Operating, Stall> {
        let g = |q: f64| self.surplus(VolumeRate::from_si(q), motor).si();
        let (low, high) = (self.greatest().si() * JUST_FLOWING, self.greatest().si());
        if g(low) <= 0.0 {
            return Err(Stall);
        }
        let (high, low) = halved((high, low), Until::Rounds(64), |q| g(q) >= 0.0);
        let flow = VolumeRate::from_si(low.midpoint(high));
        Ok(self.operating(flow, motor, self.supply.loss(flow, &self.oil), self.outlet(flow)))
    }

    /// More than can ever flow through the head.
    fn greatest(&self) -> VolumeRate {
        let none = Pressure::from_si(0.0);
        match &self.functions {
            None => self.source.flow_at(none),
            Some(functions) => functions.at_most(&self.source),
        }
    }

    /// What the circuit does with a pressure difference over the motor: turn, stall, or neither can be said.
    pub fn balance(&self, motor: Pressure) -> Balanced {
        self.balanced(self.solve(motor))
    }

    /// What the circuit does where this was solved of it.
    pub fn balanced(&self, solved: Result<Operating, Stall>) -> Balanced {
        match solved {
            Ok(operating) => Balanced::Turns(operating),
            Err(Stall) => self.stalled().map_or(Balanced::NoSuchPoint, Balanced::Stalls),
        }
    }

    fn operating(&self, flow: VolumeRate, motor: Pressure, lost: Pressure, outlet: Pressure) -> Operating {
        let inlet = outlet + motor;
        let supply = inlet + lost;
        Operating { flow, supply, inlet, outlet, case: self.case(flow), pumped: self.pumped_with(flow, supply) }
    }

    fn case(&self, flow: VolumeRate) -> Option<Pressure> {
        self.drain.as_ref().map(|drain| drain.line.pressure(drain.leaked(flow), &self.oil))
    }

    /// What the pumps give to head, relief and bypass with a flow through the head, functions apart. It follows from that flow
    /// where it can: near a cut-off the last bit of a pressure is much flow, and where the functions' order makes a jump the
    /// head has less than it might, and the rest is theirs.
    fn pumped_with(&self, flow: VolumeRate, pressure: Pressure) -> VolumeRate {
        let kept = 1.0 - self.relief.map_or(0.0, |relief| relief.share_passed(pressure));
        let by_flow = match self.functions {
            Some(Functions::Divided(_)) => false,
            Some(Functions::Shared { .. }) => true,
            None => !self.source.surplus_is_pumped,
        };
        if by_flow && kept > 1e-9 { (flow + self.leaked(pressure)) / kept } else { self.pumped(pressure) }
    }

    /// What functions beside the head get at a solved point without a divider, and at which pressure: of what the pumps give
    /// there, what head and relief leave, and no more than they want.
    pub fn to_functions(&self, at: &Operating) -> Option<(VolumeRate, Pressure)> {
        let Some(Functions::Shared { wanted, pressure, .. }) = self.functions else { return None };
        let rest = self.beside(at, pressure);
        Some((if wanted < rest { wanted } else { rest }, pressure))
    }

    /// What the pumps give beside head and relief, with functions at a pressure.
    fn beside(&self, at: &Operating, functions: Pressure) -> VolumeRate {
        let whole = Source { set: None, ..self.source }.flow_at(at.supply.max(functions));
        (whole - at.pumped).max(VolumeRate::from_si(0.0))
    }

    /// The pressure at the pumps at a solved point: what they need for the higher of the head's branch and the functions beside
    /// it, with what their own control keeps above that; of divided pumps the highest.
    pub fn at_pumps(&self, at: &Operating) -> Pressure {
        match &self.functions {
            None => self.source.pump_pressure(at.supply),
            Some(Functions::Shared { pressure, .. }) => {
                // Head and functions together may take all that a compensated pump gives: then it stands at the load.
                let to_functions = self.to_functions(at).map_or(VolumeRate::from_si(0.0), |(flow, _)| flow);
                self.source.pump_pressure_giving(at.supply.max(*pressure), at.pumped + to_functions)
            }
            Some(Functions::Divided(pumps)) => {
                pumps.at(at.supply).iter().map(|leg| leg.pump).fold(at.supply, Pressure::max)
            }
        }
    }

    /// What flows over the relief at a solved point.
    pub fn over_relief(&self, at: &Operating) -> VolumeRate {
        // What a constant pump gives beyond the set flow has left over the bypass.
        let bypassed = self.functions.is_none() && self.source.surplus_is_pumped;
        let offered = if bypassed { self.source.flow_at(at.supply) } else { at.pumped };
        offered * self.relief.map_or(0.0, |relief| relief.share_passed(at.supply)) + self.leaked(at.supply)
    }

    /// What a relief's seat lets go at a pressure.
    fn leaked(&self, pressure: Pressure) -> VolumeRate {
        self.relief.map_or(VolumeRate::from_si(0.0), |relief| relief.leaked(pressure))
    }

    /// What the pumps give to head, relief and bypass at a pressure, functions apart.
    fn pumped(&self, pressure: Pressure) -> VolumeRate {
        match &self.functions {
            Some(functions) => functions.leave(&self.source, pressure),
            None if self.source.surplus_is_pumped => Source { set: None, ..self.source }.flow_at(pressure),
            None => self.source.flow_at(pressure),
        }
    }

    /// The pressure at which the head's branch stands when nothing flows through it: of relief and cut-off the one that
    /// comes first, and less where a seat that leaks takes all that the pumps still give. None when neither is known.
    pub fn stall_pressure(&self) -> Option<Pressure> {
        let ends = self.ends_at()?;
        let Some(relief) = self.relief else { return Some(ends) };
        // What a divider loses is lost only where oil flows through it: to its relief, or to a seat that leaks.
        Some(if relief.seat.si() > 0.0 { ends - relief.behind } else { ends.min(relief.full_flow) })
    }

    /// The pressure at the beginning of the supply with the head stalled: a divider's loss above what the relief on its port
    /// holds. None when neither relief nor cut-off is known.
    pub fn ends_at(&self) -> Option<Pressure> {
        let cut_off = self.source.cut_off.map(|cut_off| cut_off.pressure());
        let dead = lower(self.relief.map(|relief| relief.ends_at()), cut_off)?;
        if self.leaked(dead).si() <= 0.0 {
            return Some(dead);
        }
        // What is available falls with the pressure: where nothing is left, it ends.
        let is_left = |pressure| self.available(Pressure::from_si(pressure)).si() > 0.0;
        let (high, low) = halved((dead.si(), 0.0), Until::Rounds(40), is_left);
        Some(Pressure::from_si(low.midpoint(high)))
    }

    /// Up to which pressure the whole flow is there, as far as relief and cut-off go.
    pub fn whole_flow_up_to(&self) -> Option<Pressure> {
        let cut_off = self.source.cut_off.map(|cut_off| cut_off.whole_up_to());
        lower(self.relief.map(|relief| relief.opens_at()), cut_off)
    }

    /// The head held fast: no flow through the motor, the relief passes everything that the pumps still give.
    ///
    /// None when neither relief nor cut-off is known: then nobody knows where the pressure ends.
    pub fn stalled(&self) -> Option<Operating> {
        let zero = VolumeRate::from_si(0.0);
        let (ends, dead) = (self.ends_at()?, self.stall_pressure()?);
        Some(Operating {
            flow: zero,
            supply: ends,
            inlet: dead,
            outlet: self.outlet(zero),
            case: self.drain.as_ref().map(|drain| drain.line.pressure(drain.stalled, &self.oil)),
            pumped: self.pumped(ends),
        })
    }
}

/// The lower of two pressures, as far as they are known.
fn lower(a: Option<Pressure>, b: Option<Pressure>) -> Option<Pressure> {
    match (a, b) {
        (Some(a), Some(b)) => Some(if b < a { b } else { a }),
        (a, b) => a.or(b),
    }
}
