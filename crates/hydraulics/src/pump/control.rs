//! Where the control of a variable pump ends its flow.

use quantity::{Pressure, Quantity};

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
/// use quantity::shop::bar;
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
