//! The relief valve.

use quantity::{Pressure, Quantity, VolumeRate};

/// A relief valve between its cracking pressure and the pressure at which it passes the whole flow.
///
/// Override is the difference of the two: pilot-operated 3 to 10 %, direct-operated 10 to 35 % (common practice, no published
/// source); a plain poppet in a textbook's example (Esposito 8.1) has 33 %. It is a steep line, not a jump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relief {
    /// At which it begins to open.
    pub cracking: Pressure,
    /// At which it passes everything; not below `cracking`.
    pub full_flow: Pressure,
    /// What is lost between the pumps and the valve: a divider's metering, where it stands on the divider's port. With its
    /// port stalled the pumps stand that much above what the valve is set to.
    pub behind: Pressure,
    /// What a seat that does not close lets go to the tank at `full_flow`; nothing of a sound valve.
    pub seat: VolumeRate,
}

impl Relief {
    /// From the full-flow pressure and the override as a share of it (0 ≤ share < 1).
    pub fn new(full_flow: Pressure, override_share: f64) -> Self {
        let none = Pressure::from_si(0.0);
        Self { cracking: full_flow * (1.0 - override_share), full_flow, behind: none, seat: VolumeRate::from_si(0.0) }
    }

    /// The pressure at the pumps' side at which it passes everything.
    ///
    /// ```
    /// use hydraulics::Relief;
    /// use quantity::shop::bar;
    /// // On the port of a divider that loses 10 bar.
    /// let relief = Relief { behind: bar(10.0), ..Relief::new(bar(303.0), 0.08) };
    /// assert_eq!(relief.ends_at(), bar(313.0));
    /// assert!(relief.share_passed(bar(303.0)) < 1.0 && relief.share_passed(bar(313.0)) == 1.0);
    /// ```
    pub fn ends_at(&self) -> Pressure {
        self.full_flow + self.behind
    }

    /// The pressure at the pumps' side at which it begins to open.
    pub fn opens_at(&self) -> Pressure {
        self.cracking + self.behind
    }

    /// What its seat lets go at a pressure at the pumps' side, open or not: like an orifice, `Q ∝ √p`.
    ///
    /// ```
    /// use hydraulics::Relief;
    /// use quantity::{Quantity, Pressure, VolumeRate};
    /// let sound = Relief::new(Pressure::from_si(200e5), 0.1);
    /// let worn = Relief { seat: VolumeRate::from_si(4e-4), ..sound };
    /// // At a quarter of the pressure half as much.
    /// assert!((worn.leaked(Pressure::from_si(50e5)).si() - 2e-4).abs() < 1e-12);
    /// assert_eq!(sound.leaked(Pressure::from_si(50e5)).si(), 0.0);
    /// ```
    pub fn leaked(&self, pressure: Pressure) -> VolumeRate {
        let at_valve = (pressure - self.behind).si();
        if self.seat.si() > 0.0 && at_valve > 0.0 {
            self.seat * (at_valve / self.full_flow.si()).sqrt()
        } else {
            VolumeRate::from_si(0.0)
        }
    }

    /// The share of the flow that it lets go to the tank at a pressure at the pumps' side, 0 to 1.
    ///
    /// ```
    /// use hydraulics::Relief;
    /// use quantity::{Quantity, Pressure};
    /// let relief = Relief::new(Pressure::from_si(200e5), 0.1);
    /// assert_eq!(relief.share_passed(Pressure::from_si(170e5)), 0.0);
    /// assert!((relief.share_passed(Pressure::from_si(190e5)) - 0.5).abs() < 1e-9);
    /// assert_eq!(relief.share_passed(Pressure::from_si(230e5)), 1.0);
    /// ```
    pub fn share_passed(&self, pressure: Pressure) -> f64 {
        let (span, above) = (self.full_flow.si() - self.cracking.si(), (pressure - self.opens_at()).si());
        // Without override it is a jump.
        if span > 0.0 { (above / span).clamp(0.0, 1.0) } else { f64::from(u8::from(above >= 0.0)) }
    }
}
