//! The codes of figures and verdicts within a link, as links that were sent hold them.

use super::super::plate::Figure;
use fit::Verdict;
use quantity::Named;

/// The figure with this code.
pub(super) fn to_figure(code: &str) -> Option<Figure> {
    Figure::ALL.iter().copied().find(|figure| figure.code() == code)
}

/// The letter of a verdict.
pub(super) fn of_verdict(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::Fits) => "f",
        Some(Verdict::FitsAfterChanges) => "c",
        Some(Verdict::CannotSay) => "q",
        Some(Verdict::DoesNotFit) => "n",
        None => "x",
    }
}

/// The verdict with this letter; the letter of none is not among them.
pub(super) fn to_verdict(letter: &str) -> Option<Verdict> {
    Verdict::ALL.iter().copied().find(|verdict| of_verdict(Some(*verdict)) == letter)
}
