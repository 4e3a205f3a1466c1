//! How a variable pump learns how much oil is wanted, and where it stops.

use crate::valve::divider::falling_root;
use quantity::{Kind, Pressure, VolumeRate};

/// Where a pump's own control ends its flow, and where the pump itself stands meanwhile.
///
/// With a cut-off the flow of the pump falls to nothing over the last few per cent below it (3 to 8 %, common practice, no
/// published source). A pump with negative or positive control stands at the load; a *pressure-compensated* one stands at
/// its compensator whenever less is taken than it could give, and the difference is heat. With *load sensing* the pump
/// keeps a margin above the load, so that full flow ends a margin before the cut-off, and then falls as through an orifice:
/// `Q = Q_set·min(1, √((p_cut − p_load)/Δp_m))` (margin 14 to 28 bar, common practice, no published source).
///
/// ```
/// use hydraulics::pump::CutOff;
/// use quantity::{Kind, Pressure, Unit};
/// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
/// let sensing = CutOff::LoadSensing { pressure: bar(250.0), margin: bar(20.0) };
/// assert_eq!(sensing.share_left(bar(230.0)), 1.0);
/// // 5 bar before the cut-off a quarter of the margin is left, and half of the set flow.
/// assert_eq!(sensing.share_left(bar(245.0)), 0.5);
/// let compensated = CutOff::Compensated { pressure: bar(300.0), band: 0.05 };
/// assert_eq!(compensated.share_left(bar(285.0)), 1.0);
/// assert_eq!(compensated.share_left(bar(310.0)), 0.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CutOff {
    /// A cut-off on a pump that otherwise stands at its load.
    AtLoad {
        /// At which no flow is left.
        pressure: Pressure,
        /// The share of the pressure below it over which the pump's flow falls, ≥ 0.
        band: f64,
    },
    /// A pressure compensator: the pump stands at it as long as less is taken than it could give.
    Compensated {
        /// At which no flow is left.
        pressure: Pressure,
        /// The share of the pressure below it over which the pump's flow falls, ≥ 0.
        band: f64,
    },
    /// Load sensing.
    LoadSensing {
        /// The pump's greatest pressure.
        pressure: Pressure,
        /// What it keeps above the load; above zero.
        margin: Pressure,
    },
}

impl CutOff {
    /// What is left at a pressure behind the pump's control: of the pump's flow with a cut-off, of the set flow with load
    /// sensing, 0 to 1.
    pub fn share_left(&self, pressure: Pressure) -> f64 {
        let (end, over) = match *self {
            Self::AtLoad { pressure, band } | Self::Compensated { pressure, band } => (pressure, pressure * band),
            Self::LoadSensing { pressure, margin } => (pressure, margin),
        };
        let (left, over) = ((end - pressure).si(), over.si());
        // Without a band it is a jump.
        let share = if over > 0.0 { (left / over).clamp(0.0, 1.0) } else { f64::from(u8::from(left > 0.0)) };
        if matches!(self, Self::LoadSensing { .. }) { share.sqrt() } else { share }
    }

    /// At which no flow is left.
    pub fn pressure(&self) -> Pressure {
        match *self {
            Self::AtLoad { pressure, .. } | Self::Compensated { pressure, .. } | Self::LoadSensing { pressure, .. } => {
                pressure
            }
        }
    }

    /// Up to which pressure the flow is whole.
    pub fn whole_up_to(&self) -> Pressure {
        match *self {
            Self::AtLoad { pressure, band } | Self::Compensated { pressure, band } => pressure * (1.0 - band),
            Self::LoadSensing { pressure, margin } => pressure - margin,
        }
    }
}

/// Negative control: an orifice behind the open centre tells the pump how much is *not* wanted.
///
/// `ε = clamp(1 − (1 − ε_min)·(p_N − p_a)/(p_b − p_a), ε_min, 1)` with `p_N = k·Q_N²` of the centre flow Q_N. Taking oil off
/// before the main valve makes the centre flow fall, so the pump strokes up by itself, as long as the head's return does
/// not come back before that orifice. Orifice 30 bar (20 to 40), ε_min 0.15 (0.05 to 0.25): common practice, no published source.
///
/// ```
/// use hydraulics::pump::NegativeControl;
/// use quantity::{Kind, Pressure, Unit, VolumeRate};
/// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
/// let litres = |q| VolumeRate::from_si(Unit::LitrePerMinute.to_si(q));
/// let control = NegativeControl { at: (bar(30.0), litres(35.0)), begins: bar(5.0), ends: bar(30.0), least: 0.15 };
/// assert_eq!(control.stroke(litres(0.0)), 1.0);
/// assert_eq!(control.stroke(litres(60.0)), 0.15);
/// // Nothing taken: it idles; all taken: it gives everything.
/// assert!(control.settles(litres(200.0), litres(0.0)) < litres(40.0));
/// assert_eq!(control.settles(litres(200.0), litres(500.0)), litres(200.0));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NegativeControl {
    /// One point of the orifice: pressure and flow.
    pub at: (Pressure, VolumeRate),
    /// Pressure at which the pump begins to stroke back, p_a.
    pub begins: Pressure,
    /// Pressure at which it has stroked back all the way, p_b; above `begins`.
    pub ends: Pressure,
    /// The share that it never goes below, ε_min.
    pub least: f64,
}

impl NegativeControl {
    /// The stroke at a flow through the centre.
    pub fn stroke(&self, centre: VolumeRate) -> f64 {
        let pressure = self.at.0.si() * (centre.si().max(0.0) / self.at.1.si()).powi(2);
        let stroke = (pressure - self.begins.si()) / (self.ends.si() - self.begins.si());
        (1.0 - (1.0 - self.least) * stroke).clamp(self.least, 1.0)
    }

    /// The flow to which it settles when a flow is taken before the centre, of a pump with a greatest flow.
    pub fn settles(&self, greatest: VolumeRate, taken: VolumeRate) -> VolumeRate {
        // What is given rises no more the more of it passes the centre: one crossing.
        let all = greatest.si();
        let given = |centre: f64| all * self.stroke(VolumeRate::from_si(centre));
        if given(all - taken.si()) >= all {
            return greatest;
        }
        VolumeRate::from_si(falling_root(0.0, all, |flow| given(flow - taken.si()) - flow))
    }
}

/// Positive control: the strongest pilot signal of all levers strokes the pump out. A head that sends none gets what the
/// pump gives at rest.
///
/// ```
/// use hydraulics::pump::PositiveControl;
/// let control = PositiveControl { least: 0.1 };
/// assert_eq!(control.stroke(&[0.4, 0.9]), 0.9);
/// assert_eq!(control.stroke(&[]), 0.1);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PositiveControl {
    /// The share that it never goes below, ε_min.
    pub least: f64,
}

impl PositiveControl {
    /// The stroke at the signals of the levers, each 0 to 1.
    pub fn stroke(&self, signals: &[f64]) -> f64 {
        signals.iter().fold(self.least, |most, &signal| most.max(signal)).min(1.0)
    }
}
