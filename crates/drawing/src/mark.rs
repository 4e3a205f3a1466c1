//! Joint marks: a verdict as plug and socket in section, legible without colour.

use super::shape::Stroke;
use fit::Verdict;

/// A mark: paths on a field of 32 × 24.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// Paths in SVG's path notation with their strokes.
    pub paths: Vec<(&'static str, Stroke)>,
}

/// The socket: an open block on the right with a bore 8 high.
const SOCKET: &str = "M29 3H15V8H24V16H15V21H29Z";

/// The mark of a verdict.
///
/// Seated: fits. Seated with a shim drawn heavy: fits after changes. A plug wider than the bore: does not fit. A dashed
/// socket: cannot say yet.
pub fn mark(verdict: Verdict) -> Mark {
    let paths = match verdict {
        Verdict::Fits => vec![(SOCKET, Stroke::Thin), ("M3 8H24V16H3Z", Stroke::Face)],
        Verdict::FitsAfterChanges => {
            vec![(SOCKET, Stroke::Thin), ("M3 10.5H21V16H3Z", Stroke::Face), ("M12 8.6H24M22.6 8.6V16", Stroke::Heavy)]
        }
        Verdict::DoesNotFit => vec![("M29 3H17V8H26V16H17V21H29Z", Stroke::Thin), ("M2 5H14V19H2Z", Stroke::Face)],
        Verdict::CannotSay => vec![(SOCKET, Stroke::Dashed), ("M2 8H11V16H2Z", Stroke::Face)],
    };
    Mark { paths }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Named;

    #[test]
    fn every_verdict_has_a_mark_of_its_own() {
        let marks: Vec<_> = Verdict::ALL.iter().map(|&verdict| mark(verdict)).collect();
        for (index, one) in marks.iter().enumerate() {
            assert!(one.paths.len() >= 2);
            assert!(marks[..index].iter().all(|other| other != one));
        }
    }

    #[test]
    fn nothing_is_drawn_outside_the_field() {
        for &verdict in Verdict::ALL {
            for (path, _) in mark(verdict).paths {
                let numbers = path.split(|c: char| !c.is_ascii_digit() && c != '.').filter(|n| !n.is_empty());
                for number in numbers {
                    let place: f64 = number.parse().expect("a number");
                    assert!((0.0..=32.0).contains(&place), "{path}");
                }
            }
        }
    }
}
