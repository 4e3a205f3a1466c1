//! The workshop's sheets in words: sections of lines that a page lays out without knowing the trade.

mod change_list;
mod customer;
mod first_start;
mod message;
mod open;
mod parts_list;
mod settings;
mod switch_back;
mod work;

pub use message::ComparisonText;
pub use parts_list::{COLUMNS, PartRow};
pub use settings::ValueRow;

use super::{Part, SafetySign, Words};
use explain::FigureId;
use fit::{FactId, Pairing};
use handover::Planned;
use quantity::{Amount, Unit, UnitSystem};
use workshop::{Expected, Sheets};

/// What stands before whatever only settles a doubt: no part is bought and no setting moved for it before it is found out.
fn only_if_needed(it_is: bool) -> String {
    if it_is { "Only where what is found out first does not spare it. ".to_owned() } else { String::new() }
}

/// One line of a sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line {
    /// What it is about, or what is done.
    pub title: String,
    /// More of it, as sentences or parts of one; may be empty.
    pub detail: String,
    /// Its figure; may be empty.
    pub value: String,
    /// The title in pieces, where some of it has a reasoning; else none.
    pub pieces: Vec<Part>,
    /// What the figure is of, where it has a reasoning.
    pub of: Option<FigureId>,
    /// The safety sign that stands before it, where one fits.
    pub sign: Option<SafetySign>,
}

/// Lines under a title.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The title.
    pub title: String,
    /// Whether the order of the lines is the order of work.
    pub in_order: bool,
    /// The lines; never none.
    pub lines: Vec<Line>,
    /// What they come to together, no step of its own; stands below them.
    pub total: Option<Line>,
}

impl Line {
    pub(super) fn new(title: impl Into<String>, detail: impl Into<String>) -> Self {
        Self { title: title.into(), detail: detail.into(), ..Self::default() }
    }

    pub(super) fn with(title: impl Into<String>, detail: impl Into<String>, value: impl Into<String>) -> Self {
        Self { title: title.into(), detail: detail.into(), value: value.into(), ..Self::default() }
    }

    /// The line with a figure that opens.
    fn of(self, whence: FigureId) -> Self {
        Self { of: Some(whence), ..self }
    }
}

/// A section, where there is anything in it.
pub(super) fn section(title: impl Into<String>, in_order: bool, lines: Vec<Line>) -> Option<Section> {
    (!lines.is_empty()).then(|| Section { title: title.into(), in_order, lines, total: None })
}

impl Words<'_> {
    /// All sheets of a pairing, section by section: what kills first, then the other cautions.
    pub fn sheets(&self, pairing: &Pairing, sheets: &Sheets, planned: &[Planned]) -> Vec<Section> {
        let mut all = Vec::new();
        all.extend(self.hazard_section(&sheets.cautions));
        all.extend(section("Beware", false, self.cautions_besides(&sheets.cautions)));
        all.extend(self.found_out_first(pairing));
        let mut changes = self.change_sheet(&sheets.changes);
        if let Some(changes) = changes.as_mut().filter(|_| pairing.verdict == fit::Verdict::CannotSay) {
            "What it needs, whatever else comes out".clone_into(&mut changes.title);
        }
        all.extend(changes);
        if let Some(job) = &sheets.job {
            all.extend(self.setting_sheet(&job.settings, planned));
            all.extend(self.first_start(&job.first_start));
            all.extend(self.switch_back(&job.switch_back));
        }
        all.extend(self.asks(&sheets.asks));
        all.extend(self.rests_on(pairing, &sheets.rests_on));
        all
    }

    /// What is found out before anything is bought or set: what, where, and what it may spare.
    pub fn found_out_first(&self, pairing: &Pairing) -> Option<Section> {
        let find = |find: &fit::FindOut| {
            let spares = if find.may_spare.is_empty() {
                String::new()
            } else {
                format!(" It may spare {}.", self.named_changes(&find.may_spare))
            };
            let place = super::capital(self.place(find.fact));
            Line::with(super::capital(self.fact(find.fact)), format!("{place}.{spares}"), self.found_by(find.by))
        };
        section("What is found out first", true, pairing.find_out.iter().map(find).collect())
    }

    /// A figure with the ends between which it may lie, these never told farther apart than they are: `288 bar (282 bar to 294 bar)`.
    fn expected(&self, expected: &Expected) -> String {
        self.with_ends(expected, self.amount(expected.nominal))
    }

    /// A setting with the ends between which it may lie, written so that it can be set.
    fn set_within(&self, expected: &Expected) -> String {
        self.with_ends(expected, self.set_to(expected.nominal))
    }

    fn with_ends(&self, expected: &Expected, nominal: String) -> String {
        let (low, high) = self.ends(expected);
        if low == high { nominal } else { format!("{nominal} ({low} to {high})") }
    }

    /// The ends between which a figure may lie, each rounded inwards, so that no limit is told beyond what it is.
    pub(crate) fn ends(&self, expected: &Expected) -> (String, String) {
        if self.crosses(expected.low, expected.high) {
            (self.amount(expected.low), self.amount(expected.high))
        } else {
            (self.at_least(expected.low), self.at_most(expected.high))
        }
    }

    /// What is not known, as the end of a sentence.
    pub(super) fn unknown(&self, missing: &[FactId]) -> String {
        let named: Vec<_> = missing.iter().map(|fact| self.fact(*fact)).collect();
        format!("cannot be said without {}", super::reasons::list(&named))
    }

    /// A gauge's full scale, as dials are sold in the reader's units.
    fn full_scale(&self, scale: Amount) -> String {
        let (end, unit) = self.dial(scale);
        format!("0 to {} {}", self.numbers.decimal(end, 0), self.unit(unit))
    }

    /// Where a dial that is sold in the reader's units ends, for one that ends at this pressure in bar.
    pub fn dial(&self, scale: Amount) -> (f64, Unit) {
        let bar = scale.si() / 1e5;
        match self.units {
            UnitSystem::Metric => (bar, Unit::Bar),
            UnitSystem::UsCustomary => {
                let dial = DIALS.iter().find(|(of, _)| (bar - of).abs() < 1e-6 * bar);
                (dial.map_or_else(|| Unit::Psi.of_si(scale.si()), |(_, psi)| *psi), Unit::Psi)
            }
        }
    }
}

/// Dials in bar (EN 837-1) and those in psi that stand for them (ranges of ASME B40.100), both from memory. What is read lies in the
/// lower two thirds of the one, and on the other; and of its grade 1A (1 % of full scale) the other is off no more than the one of
/// class 1.6 for which the readings allow.
const DIALS: [(f64, f64); 14] = [
    (4.0, 60.0),
    (6.0, 100.0),
    (10.0, 160.0),
    (16.0, 200.0),
    (25.0, 300.0),
    (40.0, 600.0),
    (60.0, 1000.0),
    (100.0, 1500.0),
    (160.0, 3000.0),
    (250.0, 5000.0),
    (400.0, 6000.0),
    (600.0, 10_000.0),
    (1000.0, 15_000.0),
    (1600.0, 20_000.0),
];

#[cfg(test)]
mod tests {
    use super::DIALS;
    use quantity::Unit;

    #[test]
    fn a_dial_in_psi_shows_as_much_and_is_off_no_more() {
        for (bar, psi) in DIALS {
            let in_bar = Unit::Bar.of_si(Unit::Psi.to_si(psi));
            assert!(in_bar > bar * 2.0 / 3.0 * 1.15, "{bar} bar, {psi} psi: what is read is on it, and more");
            assert!(in_bar * 0.01 <= bar * 0.016, "{bar} bar, {psi} psi: off by no more");
        }
    }
}
