//! What is made of a figure that was really read.

use super::readings::{Found, Reading};
use quantity::{Amount, string_enum};

string_enum! {
    /// How a figure that was read lies to what was expected.
    "judgement" pub enum Judged {
        /// Where it was expected.
        Inside = "inside",
        /// Less than was expected.
        Below = "below",
        /// More than was expected, and not beyond what the attachment bears.
        Above = "above",
        /// Beyond what the attachment bears: stop.
        Beyond = "beyond",
    }
}

impl Reading {
    /// How a figure that was read lies to this; none where nothing could be said beforehand and no limit is passed, or where the
    /// figure measures something else.
    ///
    /// The attachment's limit comes first, as its instrument shows it: what is expected never excuses going beyond it.
    pub fn judge(&self, read: Amount) -> Option<Judged> {
        if self.stop.is_some_and(|stop| stop.dimension() == read.dimension() && read.si() > stop.si()) {
            return Some(Judged::Beyond);
        }
        let Found::Expected { reads } = &self.found else { return None };
        if reads.nominal.dimension() != read.dimension() || !read.si().is_finite() {
            return None;
        }
        Some(if read.si() < reads.low.si() {
            Judged::Below
        } else if read.si() > reads.high.si() {
            Judged::Above
        } else {
            Judged::Inside
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Expected, GaugePoint};
    use fit::{FactId, Load};
    use quantity::{Pressure, Quantity, VolumeRate};

    fn bar(p: f64) -> Amount {
        Amount::of(Pressure::from_si(p * 1e5))
    }

    fn reading(stop: Option<f64>) -> Reading {
        Reading {
            at: GaugePoint::HeadOutlet,
            load: Load::Free,
            found: Found::Expected { reads: Expected { nominal: bar(6.0), low: bar(4.0), high: bar(8.0) } },
            not_below: None,
            not_above: stop.map(bar),
            stop: stop.map(bar),
            finer: None,
        }
    }

    #[test]
    fn a_figure_is_inside_below_above_or_beyond() {
        let asked = [3.9, 4.0, 6.0, 8.0, 8.1, 10.0, 10.1].map(|p| reading(Some(10.0)).judge(bar(p)).expect("judged"));
        let (inside, above) = (Judged::Inside, Judged::Above);
        assert_eq!(asked, [Judged::Below, inside, inside, inside, above, above, Judged::Beyond]);
    }

    #[test]
    fn a_limit_is_kept_whatever_was_expected() {
        assert_eq!(reading(Some(7.0)).judge(bar(7.5)), Some(Judged::Beyond));
        let unknown = Reading { found: Found::NotKnown { missing: vec![FactId::SupplyLine] }, ..reading(Some(7.0)) };
        assert_eq!((unknown.judge(bar(6.0)), unknown.judge(bar(7.1))), (None, Some(Judged::Beyond)));
    }

    #[test]
    fn nothing_is_made_of_another_quantity() {
        assert_eq!(reading(None).judge(Amount::of(VolumeRate::from_si(1e-3))), None);
        assert_eq!(reading(None).judge(bar(f64::NAN)), None);
    }
}
