//! A brochure's figure over what is left of it, as two bars with the gap between their ends dimensioned and shared out to
//! its causes.

use super::shape::{Picture, Stroke};
use fit::installation::{Gap, GapCause};
use quantity::UnitSystem;
use std::fmt::Write;

/// Two bars on a line of length 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Length of the brochure's bar.
    pub says: f64,
    /// Length of the circuit's bar.
    pub gives: f64,
    /// The causes of the gap, from the end of the circuit's bar outwards, each from where to where.
    pub causes: Vec<(GapCause, f64, f64)>,
}

/// The strip of a gap; none when there is no figure to draw.
///
/// The longer bar fills the line. The cause nearest to the circuit's bar is the last of the circuit.
pub fn strip(gap: &Gap) -> Option<Strip> {
    let figure = |amount: quantity::Amount| amount.in_system(UnitSystem::Metric).0;
    let (says, gives) = (figure(gap.says), figure(gap.gives).max(0.0));
    let whole = says.max(gives);
    if !(whole > 0.0 && whole.is_finite()) {
        return None;
    }
    let mut from = gives / whole;
    let causes = gap.causes.iter().rev().map(|(cause, amount)| {
        let to = (from + figure(*amount) / whole).min(1.0);
        let piece = (*cause, from, to);
        from = to;
        piece
    });
    let causes: Vec<_> = causes.collect();
    Some(Strip { says: says / whole, gives: gives / whole, causes })
}

impl Strip {
    /// The strip drawn: the brochure's bar above, dashed, the circuit's below it, and the gap between their ends.
    pub fn picture(&self) -> Picture {
        let at = |place: f64| 1.0 + place * 238.0;
        let (from, to) = (at(self.gives), at(self.says));
        let mut picture = Picture { width: 240.0, height: 40.0, ..Picture::default() };
        picture.path(format!("M1 4H{to:.2}V14H1Z"), Stroke::Dashed);
        picture.path(format!("M1 22H{from:.2}V32H1Z"), Stroke::HeavySolid);
        picture.path(format!("M{to:.2} 4V40M{from:.2} 22V40"), Stroke::Thin);
        if to - from > 2.0 {
            let mut gap = format!("M{from:.2} 36H{to:.2}");
            for (.., end) in &self.causes {
                // Writing to a String cannot fail.
                let _ = write!(gap, "M{:.2} 33V39", at(*end));
            }
            picture.path(gap, Stroke::Beyond);
        }
        picture
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Amount, Pressure, Quantity};

    fn bar(p: f64) -> Amount {
        Amount::of(Pressure::from_si(p * 1e5))
    }

    #[test]
    fn the_causes_fill_the_gap_one_after_another() {
        let causes = vec![(GapCause::Relief, bar(16.0)), (GapCause::Supply, bar(10.0)), (GapCause::Return, bar(14.0))];
        let drawn = strip(&Gap { says: bar(200.0), gives: bar(160.0), causes }).expect("figures");
        assert!((drawn.says - 1.0).abs() < 1e-12 && (drawn.gives - 0.8).abs() < 1e-12);
        assert_eq!(drawn.causes[0].0, GapCause::Return);
        let ends: Vec<f64> = drawn.causes.iter().map(|(.., to)| *to).collect();
        assert!((ends[0] - 0.87).abs() < 1e-12 && (ends[2] - 1.0).abs() < 1e-12);
        assert!(drawn.causes.windows(2).all(|pair| (pair[0].2 - pair[1].1).abs() < 1e-12));
    }

    #[test]
    fn the_gap_is_drawn_from_the_end_of_one_bar_to_that_of_the_other() {
        let causes = vec![(GapCause::Relief, bar(20.0)), (GapCause::Return, bar(20.0))];
        let drawn = strip(&Gap { says: bar(200.0), gives: bar(160.0), causes }).expect("figures").picture();
        assert_eq!(drawn.paths.last().expect("the gap").d, "M191.40 36H239.00M215.20 33V39M239.00 33V39");
        let none = strip(&Gap { says: bar(200.0), gives: bar(200.0), causes: vec![] }).expect("figures").picture();
        assert!(none.paths.iter().all(|path| path.stroke != Stroke::Beyond), "no gap, no dimension");
    }

    #[test]
    fn nothing_is_drawn_of_nothing() {
        assert_eq!(strip(&Gap { says: bar(0.0), gives: bar(0.0), causes: vec![] }), None);
        // More than the brochure says fills the line and leaves the other bar shorter.
        let more = strip(&Gap { says: bar(100.0), gives: bar(125.0), causes: vec![] }).expect("figures");
        assert!((more.says - 0.8).abs() < 1e-12 && (more.gives - 1.0).abs() < 1e-12);
    }
}
