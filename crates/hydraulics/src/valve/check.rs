//! The check valve: one way only, against a spring.

use quantity::{Pressure, Quantity, VolumeRate};

/// A check valve that opens at a pressure and loses more with the flow: `Δp = p_c + (Δp_0 − p_c)·(Q/Q_0)²`.
///
/// In a return it preloads (common practice: 3 bar, 0 to 6). Beside a motor, from outlet to inlet, it lets the rotor run
/// down when the supply stops: then it should open at no more than 0.5 bar and lose no more than 3 bar at full flow (common
/// practice, no published source).
///
/// ```
/// use hydraulics::valve::Check;
/// use quantity::shop::{bar, litres};
/// let check = Check { cracking: bar(0.5), loss: bar(2.5), flow: litres(100.0) };
/// assert_eq!(check.loss(litres(100.0)), bar(2.5));
/// assert_eq!(check.loss(litres(50.0)), bar(1.0));
/// // Without flow it is shut and nothing is lost.
/// assert_eq!(check.loss(litres(0.0)), bar(0.0));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// Pressure at which it opens, p_c.
    pub cracking: Pressure,
    /// The loss at `flow`, Δp_0; not below `cracking`.
    pub loss: Pressure,
    /// The flow at which the loss was stated, Q_0; above zero.
    pub flow: VolumeRate,
}

impl Check {
    /// What it loses at a flow in its own direction.
    pub fn loss(&self, flow: VolumeRate) -> Pressure {
        if flow.si() <= 0.0 {
            return Pressure::from_si(0.0);
        }
        self.cracking + (self.loss - self.cracking) * (flow / self.flow).value.powi(2)
    }
}
