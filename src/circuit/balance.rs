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
    ///
    /// ```
    /// use pairwright::circuit::{Circuit, OilCurve, Relief, Resistance, Source, line::Piece};
    /// use pairwright::quantity::{Kind, Power, Pressure, ThermodynamicTemperature, Unit, VolumeRate};
    /// use pairwright::table::OilGrade;
    /// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
    /// let litres = |q| VolumeRate::from_si(Unit::LitrePerMinute.to_si(q));
    /// // 100 L/min up to 200 bar and never more than 20 kW; 10 bar are lost on the way back at 100 L/min.
    /// let circuit = Circuit {
    ///     source: Source {
    ///         greatest: litres(100.0), set: None, leak: litres(0.0), leak_at: bar(200.0),
    ///         power: Some(Power::from_si(20e3)), cut_off: None, surplus_is_pumped: false,
    ///     },
    ///     relief: Some(Relief::new(bar(200.0), 0.08)),
    ///     supply: Resistance::default(),
    ///     back: Resistance { pieces: vec![Piece::Point { loss: bar(10.0), flow: litres(100.0) }] },
    ///     oil: OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(333.15)),
    /// };
    /// // A motor that needs 150 bar: the brochure says 100 L/min and 200 bar, the circuit gives 77 L/min at 155.9 bar.
    /// let point = circuit.solve(bar(150.0)).expect("it turns");
    /// assert!((Unit::LitrePerMinute.of_si(point.flow.si()) - 77.0).abs() < 0.1);
    /// assert!((Unit::Bar.of_si(point.pump.si()) - 155.9).abs() < 0.1);
    /// ```
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
        let taken =
            if self.source.surplus_is_pumped { Source { set: None, ..self.source }.flow_at(pump) } else { offered };
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::line::{Piece, Roughness};
    use crate::circuit::pump::CutOff;
    use crate::circuit::{Element, Filter, OilCurve};
    use crate::quantity::{Length, ThermodynamicTemperature, Unit};
    use crate::table::OilGrade;
    use proptest::prelude::*;

    fn bar(p: f64) -> Pressure {
        Pressure::from_si(Unit::Bar.to_si(p))
    }

    fn litres(q: f64) -> VolumeRate {
        VolumeRate::from_si(Unit::LitrePerMinute.to_si(q))
    }

    prop_compose! {
        /// A circuit as it may stand in a yard, with the pressure difference over its motor.
        fn circuits()(
            greatest in 10.0f64..400.0,
            set in proptest::option::of(5.0f64..400.0),
            leak in 0.0f64..0.1,
            power in proptest::option::of(3.0f64..120.0),
            relief in 60.0f64..380.0,
            override_share in 0.02f64..0.3,
            bore in 8.0f64..40.0,
            length in 0.5f64..15.0,
            back in 0.0f64..30.0,
            filter in 0.1f64..1.0,
            element in prop_oneof![Just(Element::Clean), Just(Element::HalfLoaded), Just(Element::Blocked)],
            cut_off in proptest::option::of((60.0f64..380.0, proptest::bool::ANY)),
            celsius in -20.0f64..95.0,
            motor in 1.0f64..330.0,
        ) -> (Circuit, Pressure) {
            let oil = OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(celsius + 273.15));
            let pipe = |bore: f64| Piece::Pipe {
                bore: Length::from_si(bore / 1000.0),
                length: Length::from_si(length),
                roughness: Roughness::default(),
            };
            let source = Source {
                greatest: litres(greatest),
                set: set.map(litres),
                leak: litres(greatest * leak),
                leak_at: bar(relief),
                power: power.map(|kw| Power::from_si(kw * 1e3)),
                cut_off: cut_off.map(|(p, sensing)| {
                    let pressure = bar(p);
                    if sensing { CutOff::LoadSensing { pressure, margin: bar(20.0) } } else { CutOff::Compensator { pressure, band: 0.05 } }
                }),
                surplus_is_pumped: false,
            };
            let supply = Resistance { pieces: vec![pipe(bore), Piece::Fitting { k: 12.0, bore: Length::from_si(bore / 1000.0) }] };
            let back = Resistance {
                pieces: vec![
                    pipe(bore * 1.2),
                    Piece::Point { loss: bar(back), flow: litres(100.0) },
                    Piece::Filter(Filter::of_one_point(bar(filter), litres(200.0), None, bar(1.7)), element),
                    Piece::Constant(bar(0.3)),
                ],
            };
            let relief = Some(Relief::new(bar(relief), override_share));
            (Circuit { source, relief, supply, back, oil }, bar(motor))
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4000))]

        #[test]
        fn the_quick_root_is_the_plain_one((circuit, motor) in circuits()) {
            match (circuit.solve(motor), circuit.solve_plainly(motor)) {
                (Ok(quick), Ok(plain)) => {
                    let scale = circuit.source.greatest.si();
                    prop_assert!((quick.flow - plain.flow).si().abs() <= 1e-9 * scale, "{quick:?} {plain:?}");
                }
                (Err(Stall), Err(Stall)) => {}
                other => prop_assert!(false, "{other:?}"),
            }
        }

        #[test]
        fn the_surplus_falls_with_the_flow((circuit, motor) in circuits(), a in 0.0f64..1.0, b in 0.0f64..1.0) {
            let at = |share: f64| circuit.surplus(circuit.source.greatest * share, motor);
            if a < b {
                prop_assert!(at(a) > at(b));
            }
        }

        #[test]
        fn a_solved_point_balances((circuit, motor) in circuits()) {
            if let Ok(point) = circuit.solve(motor) {
                prop_assert!((point.inlet - point.outlet - motor).si().abs() < 1e-3);
                prop_assert!((circuit.need(point.flow, motor) - point.pump).si().abs() < 1e-3);
                let offered = circuit.available(point.pump);
                prop_assert!((offered - point.flow).si().abs() <= 1e-6 * circuit.source.greatest.si(), "{offered:?} {point:?}");
                prop_assert!(point.flow.si() >= 0.0 && point.pump.si().is_finite());
                // No more power reaches the head than the pumps' limit.
                if let Some(power) = circuit.source.power {
                    prop_assert!((motor * point.flow).si() <= power.si() * (1.0 + 1e-9));
                }
            }
        }

        #[test]
        fn a_resistance_taken_away_never_raises_the_back_pressure((circuit, motor) in circuits(), which in 0usize..3) {
            let mut easier = circuit.clone();
            easier.back.pieces.remove(which);
            if let (Ok(before), Ok(after)) = (circuit.solve(motor), easier.solve(motor)) {
                prop_assert!(after.outlet.si() <= before.outlet.si() * (1.0 + 1e-9) + 1.0);
                prop_assert!(after.flow.si() >= before.flow.si() - 1e-9 * circuit.source.greatest.si());
            }
        }

        #[test]
        fn loss_rises_with_flow_and_with_viscosity((circuit, _) in circuits(), q in 0.1f64..300.0, more in 1.001f64..3.0) {
            let loss = |flow: f64| circuit.supply.loss(litres(flow), &circuit.oil);
            prop_assert!(loss(q) < loss(q * more));
            let thicker = Oil { viscosity: circuit.oil.viscosity * more, ..circuit.oil };
            let pipe = Resistance { pieces: vec![circuit.supply.pieces[0]] };
            if let Piece::Pipe { bore, .. } = pipe.pieces[0]
                && crate::circuit::line::reynolds(litres(q), bore, &circuit.oil) <= 2300.0
            {
                prop_assert!(pipe.loss(litres(q), &thicker) > pipe.loss(litres(q), &circuit.oil));
            }
        }
    }

    #[test]
    fn a_need_above_the_relief_stalls() {
        let oil = OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(323.15));
        let source = Source {
            greatest: litres(100.0),
            set: None,
            leak: litres(5.0),
            leak_at: bar(200.0),
            power: None,
            cut_off: None,
            surplus_is_pumped: false,
        };
        let relief = Some(Relief::new(bar(200.0), 0.08));
        let circuit = Circuit { source, relief, supply: Resistance::default(), back: Resistance::default(), oil };
        assert_eq!(circuit.solve(bar(200.0)), Err(Stall));
        let stalled = circuit.stalled().expect("a relief");
        assert_eq!((stalled.flow, stalled.inlet), (litres(0.0), bar(200.0)));
        // 95 L/min over the relief at 200 bar: 31.7 kW into the oil.
        assert!((stalled.heat(Power::from_si(0.0)).si() - 200e5 * litres(95.0).si()).abs() < 1e-6);
        assert!(circuit.solve(bar(180.0)).is_ok());
    }
}
