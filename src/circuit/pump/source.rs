//! Where the oil comes from: pumps with leakage and a power limit, and a flow that is set.

use super::CutOff;
use crate::quantity::{Kind, Power, Pressure, VolumeRate};

/// The pumps that feed a circuit, seen from the circuit.
///
/// `Q(p) = min(Q_set, Q_max − leak·p, P_limit/p)·κ(p)`: leakage grows with pressure (linear), and a limiter holds pressure
/// times flow; κ is what the cut-off leaves. A load-sensing pump stands its margin above p, so that its leakage and its
/// limiter act at p + Δp_m. That is why a published greatest flow and a published greatest pressure are seldom had together.
/// The constant-power hyperbola Q·p = const is the ideal of a torque limiter at constant speed (textbook).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Source {
    /// Flow of the pumps at no pressure and the present engine speed.
    pub greatest: VolumeRate,
    /// Flow to which something limits it: a menu, a spool, a sealed regulator. None: the pumps alone.
    pub set: Option<VolumeRate>,
    /// Flow lost to leakage at `leak_at`.
    pub leak: VolumeRate,
    /// The pressure at which `leak` is lost; above zero.
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
    /// use pairwright::circuit::Source;
    /// use pairwright::quantity::{Kind, Power, Pressure, Unit, VolumeRate};
    /// let litres = |q| VolumeRate::from_si(Unit::LitrePerMinute.to_si(q));
    /// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
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
        let at_pump = p + self.cut_off.map_or(0.0, |cut_off| cut_off.above_load().si());
        let mut flow = (self.greatest.si() - self.leak.si() * at_pump / self.leak_at.si()).max(0.0);
        if let Some(set) = self.set {
            flow = flow.min(set.si());
        }
        if let Some(power) = self.power
            && at_pump > 0.0
        {
            flow = flow.min(power.si() / at_pump);
        }
        VolumeRate::from_si(flow * self.cut_off.map_or(1.0, |cut_off| cut_off.share_left(pressure)))
    }

    /// The pressure at the pump above which the power limit holds the flow below what it would be otherwise; none when no
    /// limiter acts.
    pub fn limited_from(&self) -> Option<Pressure> {
        let unlimited = Self { power: None, ..*self };
        let power = self.power?;
        Some(power / unlimited.flow_at(Pressure::from_si(0.0)))
    }

    /// The pressure at the pump itself when its circuit stands at one: a load-sensing pump keeps its margin above it, up
    /// to its cut-off.
    pub fn pump_pressure(&self, circuit: Pressure) -> Pressure {
        match self.cut_off {
            Some(CutOff::LoadSensing { pressure, margin }) => {
                let above = circuit + margin;
                if above < pressure { above } else { circuit.max(pressure) }
            }
            _ => circuit,
        }
    }

    /// The same pumps with the engine at another speed, as a share of the present one: flow and power go with it, since
    /// the limiter holds a torque; a set flow stays.
    #[must_use]
    pub fn at_engine_speed(&self, share: f64) -> Self {
        Self { greatest: self.greatest * share, power: self.power.map(|power| power * share), ..*self }
    }
}
