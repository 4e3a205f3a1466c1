//! A circuit as coefficients: what changes only with the oil is computed once, so that g costs tens of nanoseconds.

use super::{Circuit, Operating, Stall};
use crate::resistance::KnownLosses;
use quantity::{Pressure, Quantity, VolumeRate};

/// A circuit as coefficients.
#[derive(Clone, Debug)]
pub struct Compiled<'a> {
    circuit: &'a Circuit,
    supply: KnownLosses<'a>,
    back: KnownLosses<'a>,
}

impl<'a> Compiled<'a> {
    /// Compiles a circuit.
    pub fn of(circuit: &'a Circuit) -> Self {
        Self { circuit, supply: circuit.supply.losses(&circuit.oil), back: circuit.back.losses(&circuit.oil) }
    }

    /// The pressure that a flow needs at the beginning of the supply; see [`Circuit::need`].
    pub fn need(&self, flow: VolumeRate, motor: Pressure) -> Pressure {
        let (supply, outlet) = self.losses(flow);
        motor + supply + outlet
    }

    /// What a flow loses on the way to the head, and the pressure that it then has at the motor's outlet.
    pub fn losses(&self, flow: VolumeRate) -> (Pressure, Pressure) {
        let returned = self.circuit.returned(flow);
        (Pressure::from_si(self.supply.at(flow.si())), Pressure::from_si(self.back.at(returned.si())))
    }

    /// g(Q); see [`Circuit::surplus`].
    pub fn surplus(&self, flow: VolumeRate, motor: Pressure) -> VolumeRate {
        self.circuit.available(self.need(flow, motor)) - flow
    }

    /// Whether at least a flow reaches the head at a pressure difference over the motor: the sign of g, no root.
    ///
    /// ```
    /// use hydraulics::{Circuit, OilCurve, Relief, Resistance, Source, balance::Compiled};
    /// use quantity::{Quantity, ThermodynamicTemperature};
    /// use table::OilGrade;
    /// use quantity::shop::{bar, litres};
    /// let circuit = Circuit {
    ///     source: Source {
    ///         greatest: litres(100.0), set: None, leak: litres(10.0), leak_at: bar(200.0), power: None, cut_off: None,
    ///         surplus_is_pumped: false,
    ///     },
    ///     functions: None, relief: Some(Relief::new(bar(250.0), 0.08)), supply: Resistance::default(),
    ///     back: Resistance::default(), drain: None,
    ///     oil: OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(333.15)),
    /// };
    /// let compiled = Compiled::of(&circuit);
    /// assert!(compiled.reaches(litres(90.0), bar(200.0)) && !compiled.reaches(litres(91.0), bar(200.0)));
    /// ```
    pub fn reaches(&self, flow: VolumeRate, motor: Pressure) -> bool {
        self.surplus(flow, motor).si() >= 0.0
    }

    /// More than flows at a pressure difference over the motor, without solving for it; none when the head stalls.
    pub fn at_most(&self, motor: Pressure) -> Option<VolumeRate> {
        let greatest = self.circuit.greatest();
        (self.surplus(greatest * super::JUST_FLOWING, motor).si() > 0.0).then_some(greatest)
    }

    /// The root of g; none when the head stalls.
    ///
    /// g falls strictly from available(need(0)) just above no flow to no more than zero at the greatest flow of the pumps, so there is
    /// one root or the circuit stalls. ITP (Oliveira and Takahashi 2020) keeps the bracket: it never takes more than
    /// one step more than bisection, and on the smooth stretches far fewer.
    pub fn root(&self, motor: Pressure) -> Option<VolumeRate> {
        let g = |q: f64| self.surplus(VolumeRate::from_si(q), motor).si();
        let greatest = self.circuit.greatest().si();
        let (mut low, mut high) = (greatest * super::JUST_FLOWING, greatest);
        let (mut g_low, mut g_high) = (g(low), g(high));
        if g_low <= 0.0 {
            return None;
        }
        if g_high >= 0.0 {
            return Some(VolumeRate::from_si(high));
        }
        let tolerance = 1e-13 * high;
        let truncation = 0.2 / high;
        // The method's ε·2^n with one step of slack over bisection, rounded up to twice the bracket.
        let mut reach = 2.0 * high;
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
        Some(VolumeRate::from_si(low.midpoint(high)))
    }
}

impl Circuit {
    /// The flow through the head at a pressure difference over its motor, with all that goes with it.
    ///
    /// # Errors
    /// [`Stall`] when nothing flows at that pressure.
    ///
    /// ```
    /// use hydraulics::{Circuit, OilCurve, Relief, Resistance, Source, line::Piece};
    /// use quantity::{Quantity, Power, ThermodynamicTemperature, Unit};
    /// use table::OilGrade;
    /// use quantity::shop::{bar, litres};
    /// // 100 L/min up to 200 bar and never more than 20 kW; 10 bar are lost on the way back at 100 L/min.
    /// let circuit = Circuit {
    ///     source: Source {
    ///         greatest: litres(100.0), set: None, leak: litres(0.0), leak_at: bar(200.0),
    ///         power: Some(Power::from_si(20e3)), cut_off: None, surplus_is_pumped: false,
    ///     },
    ///     functions: None,
    ///     relief: Some(Relief::new(bar(200.0), 0.08)),
    ///     supply: Resistance::default(),
    ///     back: Resistance::of([Piece::Point { loss: bar(10.0), flow: litres(100.0) }]),
    ///     drain: None,
    ///     oil: OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(333.15)),
    /// };
    /// // A motor that needs 150 bar: the brochure says 100 L/min and 200 bar, the circuit gives 77 L/min at 155.9 bar.
    /// let point = circuit.solve(bar(150.0)).expect("it turns");
    /// assert!((Unit::LitrePerMinute.of_si(point.flow.si()) - 77.0).abs() < 0.1);
    /// assert!((Unit::Bar.of_si(point.supply.si()) - 155.9).abs() < 0.1);
    /// ```
    pub fn solve(&self, motor: Pressure) -> Result<Operating, Stall> {
        let compiled = Compiled::of(self);
        let flow = compiled.root(motor).ok_or(Stall)?;
        let (supply, outlet) = compiled.losses(flow);
        Ok(self.operating(flow, motor, supply, outlet))
    }
}
