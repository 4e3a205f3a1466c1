//! The flow divider before the main valve: the head first, the machine's functions with the rest.

use quantity::{Pressure, Quantity, Until, VolumeRate, halved};

/// How a divider stands at a point of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DividerState {
    /// Head and functions both have oil; the higher load sets the pump's pressure.
    Both,
    /// The pump gives just the set flow: the port to the functions is shut.
    FunctionsShut,
    /// The pump gives less than the set flow: all of it goes to the head.
    AllToHead,
}

/// What a divider makes of one pump's oil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Divided {
    /// How it stands.
    pub state: DividerState,
    /// Pressure at the pump.
    pub pump: Pressure,
    /// Flow to the head.
    pub head: VolumeRate,
    /// Flow to the functions.
    pub functions: VolumeRate,
}

/// A spring-biased, pressure-compensated divider with a port for the head and one for the functions.
///
/// Of a pump with a falling curve Q(p), with the head's port at p_h and the functions' at p_f, and
/// `p_hi = max(p_h + Δp_s, p_f + Δp_EF)`:
/// - Q(p_hi) ≥ Q_set: both have oil, the higher leg sets the pump;
/// - else Q(p_h + Δp_s) ≥ Q_set: the functions' port shuts, the pump floats where it gives just Q_set;
/// - else all oil goes to the head, p = p_h + Δp_s·(Q/Q_set)².
///
/// Therefore the head's flow does not depend on the functions' pressure as long as the pump can give it. The port of the
/// head needs a relief of its own: shut in, its spring closes the functions' port (by balance of forces on such a
/// spool; check the part's sheet). Losses of 10 bar (5 to 15) and 3 bar (1 to 6) and ±10 % on the set flow are common practice,
/// no published source.
///
/// ```
/// use hydraulics::valve::{Divider, DividerState};
/// use quantity::{Quantity, Pressure, Unit, VolumeRate};
/// use quantity::shop::{bar, litres};
/// let divider = Divider { set: litres(100.0), metering: bar(10.0), excess: bar(3.0) };
/// // A pump of 240 L/min that is held to 53 kW: 187 L/min at 170 bar.
/// let pump = |p: Pressure| VolumeRate::from_si((53e3 / p.si()).min(litres(240.0).si()));
/// let at_work = divider.divide(pump, bar(160.0), bar(120.0));
/// assert_eq!(at_work.state, DividerState::Both);
/// assert!((Unit::LitrePerMinute.of_si(at_work.functions.si()) - 87.0).abs() < 0.5);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Divider {
    /// What the head gets first; above zero.
    pub set: VolumeRate,
    /// Pressure lost on the way to the head at the set flow, Δp_s; above zero.
    pub metering: Pressure,
    /// Pressure lost on the way to the functions, Δp_EF.
    pub excess: Pressure,
}

impl Divider {
    /// What it makes of a pump whose flow falls with its pressure, with both ports at a pressure.
    pub fn divide(&self, pump: impl Fn(Pressure) -> VolumeRate, head: Pressure, functions: Pressure) -> Divided {
        let set = self.set;
        let own = head + self.metering;
        let higher = own.max(functions + self.excess);
        let none = VolumeRate::from_si(0.0);
        let at_higher = pump(higher);
        if at_higher >= set {
            return Divided { state: DividerState::Both, pump: higher, head: set, functions: at_higher - set };
        }
        if pump(own) >= set {
            // The pump's curve falls from the set flow or more to less than it: somewhere between it gives just that.
            let p = falling_root(own.si(), higher.si(), |p| pump(Pressure::from_si(p)).si() - set.si());
            return Divided {
                state: DividerState::FunctionsShut,
                pump: Pressure::from_si(p),
                head: set,
                functions: none,
            };
        }
        let metered = |q: f64| head + self.metering * (q / set.si()).powi(2);
        let q = falling_root(0.0, set.si(), |q| pump(metered(q)).si() - q);
        let flow = VolumeRate::from_si(q);
        Divided { state: DividerState::AllToHead, pump: metered(q), head: flow, functions: none }
    }
}

/// The root of a falling function between two ends, by bisection to the last bit that counts.
pub(crate) fn falling_root(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    halved((high, low), Until::Rounds(60), |x| f(x) >= 0.0).1
}
