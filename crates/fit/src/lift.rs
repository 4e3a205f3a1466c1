//! What a machine may carry of a head, by moments.
//!
//! A loader's rating holds at its bucket's centre of gravity, an excavator's chart at the pin: a head whose centre of gravity
//! lies further out may weigh less. Statics; ratings by ISO 14397-1 (loaders, 50 % of the tipping load on wheels, 35 % on
//! crawlers: secondary sources, from memory) and ISO 10567 (excavators: 75 % of the tipping load and 87 % of the hydraulic lift are in
//! the chart already, and are not taken twice; secondary sources, from memory).
//!
//! Ratings are for firm, level ground and slow work. Only the maker may allow more.

use quantity::{Length, Mass, Quantity, Ratio};

/// A loader, seen from its tipping axis: the front wheels' contact or the front roller.
///
/// `m_head·(a_c + e_head) + m_payload·(a_c + e_payload) ≤ k·m_tip·(a_c + e_bucket)`, the bucket's own mass left out: it is taken
/// off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loader {
    /// Tipping load at the bucket's centre of gravity, m_tip.
    pub tipping_load: Mass,
    /// Share of it that may be carried, k: 0.50 on wheels, 0.35 on crawlers, or what the maker prints.
    pub share: Ratio,
    /// From the tipping axis forward to the coupler's face at greatest reach, a_c; above zero.
    pub coupler: Length,
    /// From the coupler's face to the bucket's centre of gravity, e_bucket; ≥ 0.
    pub bucket: Length,
}

impl Loader {
    /// What a head may weigh whose centre of gravity lies so far before the coupler's face.
    ///
    /// ```
    /// use fit::lift::Loader;
    /// use quantity::{Quantity, Length, Mass, Ratio};
    /// let metres = Length::from_si;
    /// let loader = Loader {
    ///     tipping_load: Mass::from_si(2000.0), share: Ratio::from_si(0.5), coupler: metres(0.8), bucket: metres(0.4),
    /// };
    /// // A head that hangs 250 mm further out: 828 kg, not 1000.
    /// assert!((loader.carries(metres(0.65)).si() - 828.0).abs() < 0.5);
    /// assert!((loader.carries(metres(0.4)).si() - 1000.0).abs() < 1e-9);
    /// ```
    pub fn carries(&self, centre_of_gravity: Length) -> Mass {
        let arm = (self.coupler + self.bucket) / (self.coupler + centre_of_gravity);
        self.tipping_load * self.share * arm
    }
}

/// A point of an excavator's lift chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChartPoint {
    /// From the slew axis to the pin, r.
    pub radius: Length,
    /// Rated lift there, m_chart.
    pub rated: Mass,
    /// From the slew axis to the tipping edge, b: over the side half the gauge. Less than `radius`.
    pub tipping_edge: Length,
    /// From the slew axis to the boom's foot, c. Less than `radius`.
    pub boom_foot: Length,
}

impl ChartPoint {
    /// What may hang there whose centre of gravity lies so far beyond the pin, coupler and hoses taken off:
    /// `m_chart·min((r−b)/(r−b+e), (r−c)/(r−c+e)) − m_coupler − m_hoses`, never below zero.
    ///
    /// Taking r for r − b errs to the unsafe side: at 6 m with b 1.1 m and e 0.5 m it gives .923 rather than .907.
    ///
    /// ```
    /// use fit::lift::ChartPoint;
    /// use quantity::{Quantity, Length, Mass};
    /// let metres = Length::from_si;
    /// let point = ChartPoint {
    ///     radius: metres(6.0), rated: Mass::from_si(1000.0), tipping_edge: metres(1.1), boom_foot: metres(0.3),
    /// };
    /// assert!((point.carries(metres(0.5), Mass::from_si(0.0)).si() - 907.0).abs() < 0.5);
    /// assert!((point.carries(metres(0.5), Mass::from_si(150.0)).si() - 757.0).abs() < 0.5);
    /// ```
    pub fn carries(&self, centre_of_gravity: Length, coupler_and_hoses: Mass) -> Mass {
        // Nothing hangs nearer than the edge over which the machine tips.
        if self.radius <= self.tipping_edge || self.radius <= self.boom_foot {
            return Mass::from_si(0.0);
        }
        let arm = |axis: Length| (self.radius - axis) / (self.radius - axis + centre_of_gravity);
        let (tipping, lifting) = (arm(self.tipping_edge), arm(self.boom_foot));
        let share = if tipping < lifting { tipping } else { lifting };
        (self.rated * share - coupler_and_hoses).max(Mass::from_si(0.0))
    }
}
