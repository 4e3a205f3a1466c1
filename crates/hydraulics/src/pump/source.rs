//! Where the oil comes from: pumps with leakage and a power limit, and a flow that is set.

use super::CutOff;
use quantity::{Power, Pressure, Quantity, VolumeRate};

/// The pumps that feed a circuit, seen from the circuit.
///
/// `Q(p) = min(Q_set, (Q_max·n/n_r − leak·p/p_r)·κ(p), P_limit/p)`: leakage grows in a straight line from nothing at no pressure
/// to `leak` at `p_r`, the pressure for which *the pump* is rated (5 %, 2 to 8, of its flow at its working speed `n_r`: common
/// practice, no published source; the line itself is that of laminar gaps, any textbook). It belongs to the pump: neither a
/// relief, wherever it is set, nor the engine's speed `n` changes it. Of several pumps it is the sum of what each leaks,
/// `p_r = ΣQ_i/Σ(Q_i/p_r,i)`. A limiter holds pressure times flow; κ is what the cut-off leaves. A load-sensing pump stands its margin above p, so that its leakage and its
/// limiter act at p + Δp_m. That is why a published greatest flow and a published greatest pressure are seldom had together.
/// The constant-power hyperbola Q·p = const is the ideal of a torque limiter at constant speed (textbook).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Source {
    /// Flow of the pumps at no pressure and the present engine speed.
    pub greatest: VolumeRate,
    /// Flow to which something limits it: a menu, a spool, a sealed regulator. None: the pumps alone.
    pub set: Option<VolumeRate>,
    /// Flow lost to leakage at `leak_at`, whatever the speed.
    pub leak: VolumeRate,
    /// The pressure at which `leak` is lost: for which the pumps are rated; above zero.
    pub leak_at: Pressure,
    /// Hydraulic power that the limiter lets the pumps give at their outlet. None: no limiter acts.
    pub power: Option<Power>,
    /// Where the pumps' own control ends the flow. None: only a relief does.
    pub cut_off: Option<CutOff>,
    /// Whether what the circuit does not take leaves over a bypass at its pressure (a constant pump), rather than not
    /// being pumped at all.
    pub surplus_is_pumped: bool,
}

impl Source {
    /// The flow that it offers at a pressure ≥ 0.
    ///
    /// ```
    /// use hydraulics::Source;
    /// use quantity::{Quantity, Power, Unit};
    /// use quantity::shop::{bar, litres};
    /// // 100 cm³ at 1000 rpm under a limit of 20 kW: from 120 bar on the limiter holds p·Q.
    /// let pump = Source {
    ///     greatest: litres(100.0), set: None, leak: litres(0.0), leak_at: bar(300.0),
    ///     power: Some(Power::from_si(20e3)), cut_off: None, surplus_is_pumped: false,
    /// };
    /// assert!((Unit::LitrePerMinute.of_si(pump.flow_at(bar(200.0)).si()) - 60.0).abs() < 1e-9);
    /// assert!((Unit::LitrePerMinute.of_si(pump.flow_at(bar(100.0)).si()) - 100.0).abs() < 1e-9);
    /// ```
    pub fn flow_at(&self, pressure: Pressure) -> VolumeRate {
        let p = pressure.si().max(0.0);
        let set = self.set.map_or(f64::INFINITY, Quantity::si);
        let (sensed, of_pump) = match self.cut_off {
            Some(cut_off @ CutOff::LoadSensing { .. }) => (cut_off.share_left(pressure), 1.0),
            Some(cut_off) => (1.0, cut_off.share_left(pressure)),
            None => (1.0, 1.0),
        };
        let at_pump = self.sensed_pressure(p);
        let by_power = match self.power {
            Some(power) if at_pump > 0.0 => power.si() / at_pump,
            _ => f64::INFINITY,
        };
        // Without a set flow load sensing still throttles what the pump can give.
        let demand = if set.is_finite() { set * sensed } else { self.free(at_pump) * sensed };
        VolumeRate::from_si(demand.min(self.free(at_pump) * of_pump).min(by_power))
    }

    /// What the pumps give at a pressure of their own (Pa), limits apart, m³/s.
    fn free(&self, p: f64) -> f64 {
        (self.greatest.si() - self.leak.si() * p / self.leak_at.si()).max(0.0)
    }

    /// The pressure of a load-sensing pump at a load (Pa): its margin above it, up to its cut-off. Others stand at the load as
    /// far as their flow goes.
    fn sensed_pressure(&self, load: f64) -> f64 {
        match self.cut_off {
            Some(CutOff::LoadSensing { pressure, margin }) => (load + margin.si()).min(pressure.si()).max(load),
            _ => load,
        }
    }

    /// The pressure at the pumps themselves when their circuit stands at one: a load-sensing pump keeps its margin above
    /// it; a compensated one from which less is taken than it could give stands at its compensator, or where its limiter
    /// lets it give just that.
    ///
    /// ```
    /// use hydraulics::{Source, pump::CutOff};
    /// use quantity::shop::{bar, litres};
    /// // 60 of 120 L/min are taken at 100 bar: the pump stands at 250 bar, and 15 kW are throttled away.
    /// let pump = Source {
    ///     greatest: litres(120.0), set: Some(litres(60.0)), leak: litres(0.0), leak_at: bar(250.0), power: None,
    ///     cut_off: Some(CutOff::Compensated { pressure: bar(250.0), band: 0.05 }), surplus_is_pumped: false,
    /// };
    /// assert_eq!(pump.flow_at(bar(100.0)), litres(60.0));
    /// assert_eq!(pump.pump_pressure(bar(100.0)), bar(250.0));
    /// ```
    pub fn pump_pressure(&self, circuit: Pressure) -> Pressure {
        self.pump_pressure_giving(circuit, self.flow_at(circuit))
    }

    /// The pressure at the pumps themselves when their circuit stands at one and takes a flow, together with whatever else the
    /// pumps feed there.
    pub fn pump_pressure_giving(&self, circuit: Pressure, taken: VolumeRate) -> Pressure {
        let (load, taken) = (circuit.si().max(0.0), taken.si());
        let Some(CutOff::Compensated { pressure, .. }) = self.cut_off else {
            return Pressure::from_si(self.sensed_pressure(load));
        };
        let whole = Self { set: None, ..*self }.flow_at(circuit).si();
        // All of it, give or take what adding up its parts rounds.
        if taken >= whole * (1.0 - 1e-9) {
            return circuit;
        }
        let by_power = self.power.map_or(f64::INFINITY, |power| power.si() / taken);
        Pressure::from_si(pressure.si().min(by_power).max(load))
    }

    /// The pressure at the pumps above which the power limit holds their flow below what it would be otherwise: where
    /// p·(Q_max − leak·p), or p·Q_set, is the limit. None when no limiter acts, or none that they ever reach.
    pub fn limited_from(&self) -> Option<Pressure> {
        let power = self.power?.si();
        let (q, slope) = (self.greatest.si(), self.leak.si() / self.leak_at.si());
        // The smaller root of slope·p² − Q_max·p + P = 0, in the form that also holds without leakage.
        let root = q * q - 4.0 * slope * power;
        let by_pump = (root >= 0.0).then(|| 2.0 * power / (q + root.sqrt()))?;
        // It must bind both: what is set, and what the pumps can give.
        Some(Pressure::from_si(self.set.map_or(by_pump, |set| by_pump.max(power / set.si()))))
    }

    /// The pumps with the engine at another speed, as a share of the present one: flow and power go with it, since
    /// the limiter holds a torque; a set flow stays.
    #[must_use]
    pub fn at_engine_speed(&self, share: f64) -> Self {
        Self { greatest: self.greatest * share, power: self.power.map(|power| power * share), ..*self }
    }
}
