//! The balance: the one flow at which the pump gives what the head takes.

use super::{Oil, Relief, Resistance, Source};
use crate::quantity::{Kind, Power, Pressure, VolumeRate};

/// One circuit in one state of the oil.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    /// The pumps.
    pub source: Source,
    /// The relief that guards it. None only where the question does not depend on it.
    pub relief: Option<Relief>,
    /// From the pump to the motor's inlet.
    pub supply: Resistance,
    /// From the motor's outlet to the tank, the tank's own pressure included.
    pub back: Resistance,
    /// The oil.
    pub oil: Oil,
}

/// A solved operating point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Operating {
    /// Flow through the head.
    pub flow: VolumeRate,
    /// Pressure at the pump.
    pub pump: Pressure,
    /// Pressure at the motor's inlet.
    pub inlet: Pressure,
    /// Pressure at the motor's outlet.
    pub outlet: Pressure,
    /// Flow that the pumps give.
    pub pumped: VolumeRate,
}

/// The circuit gives no flow at all at the pressure that the head needs: it stands still with the relief open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stall;

impl Circuit {
    /// The pressure at the pump that a flow through the head needs: `Δp_motor + Δp_supply(Q) + p_back(Q)`.
    pub fn need(&self, flow: VolumeRate, motor: Pressure) -> Pressure {
        motor + self.supply.loss(flow, &self.oil) + self.back.loss(flow, &self.oil)
    }

    /// The flow that is left for the head at a pressure at the pump, after the relief.
    pub fn available(&self, pressure: Pressure) -> VolumeRate {
        let passed = self.relief.map_or(0.0, |relief| relief.share_passed(pressure));
        self.source.flow_at(pressure) * (1.0 - passed)
    }

    /// `g(Q) = available(need(Q)) − Q`. It falls strictly with Q, so a flow is reached exactly when g ≥ 0 there.
    pub fn surplus(&self, flow: VolumeRate, motor: Pressure) -> VolumeRate {
        self.available(self.need(flow, motor)) - flow
    }

    /// The flow through the head at a pressure difference over its motor.
    ///
    /// g falls strictly from g(0) = available(need(0)) to no more than zero at the greatest flow of the source, so there
    /// is one root or the circuit stalls. ITP (Oliveira and Takahashi 2020) keeps the bracket: it never takes more than
    /// one step more than bisection, and on the smooth stretches far fewer.
    ///
    /// # Errors
    /// [`Stall`] when nothing flows at that pressure.
    pub fn solve(&self, motor: Pressure) -> Result<Operating, Stall> {
        let g = |q: f64| self.surplus(VolumeRate::from_si(q), motor).si();
        let (mut low, mut high) = (0.0f64, self.source.flow_at(Pressure::from_si(0.0)).si());
        let (mut g_low, mut g_high) = (g(low), g(high));
        if g_low <= 0.0 {
            return Err(Stall);
        }
        if g_high >= 0.0 {
            return Ok(self.operating(VolumeRate::from_si(high), motor));
        }
        let tolerance = 1e-13 * high;
        let truncation = 0.2 / high;
        let mut reach = tolerance * 2f64.powi(((high / (2.0 * tolerance)).log2().ceil()) as i32 + 1);
        while high - low > 2.0 * tolerance {
            let middle = low.midpoint(high);
            let secant = (g_low * high - g_high * low) / (g_low - g_high);
            let towards = (middle - secant).signum();
            let step = truncation * (high - low).powi(2);
            let near = if step <= (middle - secant).abs() { secant + towards * step } else { middle };
            let room = (reach - (high - low) / 2.0).max(0.0);
            let q = if (near - middle).abs() <= room { near } else { middle - towards * room };
            let value = g(q);
            if value >= 0.0 {
                (low, g_low) = (q, value);
            } else {
                (high, g_high) = (q, value);
            }
            reach /= 2.0;
        }
        Ok(self.operating(VolumeRate::from_si(low.midpoint(high)), motor))
    }

    /// The same root by plain bisection: slow and beyond doubt, the truth for the tests.
    ///
    /// # Errors
    /// [`Stall`] when nothing flows at that pressure.
    pub fn solve_plainly(&self, motor: Pressure) -> Result<Operating, Stall> {
        let g = |q: f64| self.surplus(VolumeRate::from_si(q), motor).si();
        if g(0.0) <= 0.0 {
            return Err(Stall);
        }
        let (mut low, mut high) = (0.0f64, self.source.flow_at(Pressure::from_si(0.0)).si());
        for _ in 0..120 {
            let middle = low.midpoint(high);
            if g(middle) >= 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        Ok(self.operating(VolumeRate::from_si(low.midpoint(high)), motor))
    }

    fn operating(&self, flow: VolumeRate, motor: Pressure) -> Operating {
        let outlet = self.back.loss(flow, &self.oil);
        let inlet = outlet + motor;
        let pump = inlet + self.supply.loss(flow, &self.oil);
        let offered = self.source.flow_at(pump);
        let taken = if self.source.surplus_is_pumped {
            Source { set: None, ..self.source }.flow_at(pump)
        } else {
            offered
        };
        Operating { flow, pump, inlet, outlet, pumped: taken }
    }

    /// The head held fast: no flow through the motor, the relief passes everything that the pumps give.
    ///
    /// None when no relief is known: then nobody knows where the pressure ends.
    pub fn stalled(&self) -> Option<Operating> {
        let zero = VolumeRate::from_si(0.0);
        let pump = self.relief?.full_flow;
        let pumped = self.source.flow_at(pump);
        Some(Operating { flow: zero, pump, inlet: pump, outlet: self.back.loss(zero, &self.oil), pumped })
    }
}

impl Operating {
    /// Hydraulic power that warms the oil: what the pumps put in less what the motor's shaft takes out.
    pub fn heat(&self, shaft: Power) -> Power {
        self.pump * self.pumped - shaft
    }
}
