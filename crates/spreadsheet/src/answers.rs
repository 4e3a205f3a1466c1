//! What a person has answered about the layout of a file: plain data, kept under the layout's fingerprint.

use crate::fields::Role;
use crate::{DayOrder, Mark};
use quantity::Unit;
use serde::{Deserialize, Serialize};

/// All answers about one layout.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Answers {
    /// Which list a sheet holds.
    #[serde(default)]
    pub sheets: Vec<SheetAnswer>,
    /// What columns are.
    #[serde(default)]
    pub columns: Vec<ColumnAnswer>,
}

/// Which list a sheet holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetAnswer {
    /// The sheet; of a file with one sheet its name does not matter.
    pub sheet: String,
    /// The list; none where the sheet is to be left out.
    pub role: Option<Role>,
}

/// What a column is.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ColumnAnswer {
    /// Its sheet; of a file with one sheet its name does not matter.
    pub sheet: String,
    /// Its number, from 1.
    pub column: usize,
    /// The dotted name of its field; an empty one leaves the column out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub field: Option<String>,
    /// The unit of its figures without one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<Unit>,
    /// The unit that was meant where another stands with the figures. The same as that which stands there says that all is right.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub meant: Option<Unit>,
    /// The mark before decimals.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub decimal: Option<Mark>,
    /// Which number of a day is the month.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub days: Option<DayOrder>,
}

impl Answers {
    /// The answer about a sheet.
    pub(crate) fn sheet(&self, sheet: &str) -> Option<&SheetAnswer> {
        self.sheets.iter().find(|answer| answer.sheet == sheet || answer.sheet.is_empty())
    }

    /// The answer about a column.
    pub(crate) fn column(&self, sheet: &str, column: usize) -> Option<&ColumnAnswer> {
        self.columns.iter().find(|answer| (answer.sheet == sheet || answer.sheet.is_empty()) && answer.column == column)
    }

    /// The answer about a column, to be filled in.
    pub fn about(&mut self, sheet: &str, column: usize) -> &mut ColumnAnswer {
        let known = self.columns.iter().position(|answer| answer.sheet == sheet && answer.column == column);
        let at = known.unwrap_or_else(|| {
            self.columns.push(ColumnAnswer { sheet: sheet.to_owned(), column, ..ColumnAnswer::default() });
            self.columns.len() - 1
        });
        &mut self.columns[at]
    }

    /// Takes in what else was answered: it takes the place of what was answered of the same before.
    pub fn take(&mut self, other: &Self) {
        for answer in &other.sheets {
            self.sheets.retain(|known| known.sheet != answer.sheet);
            self.sheets.push(answer.clone());
        }
        for answer in &other.columns {
            let known = self.about(&answer.sheet, answer.column);
            known.field = answer.field.clone().or(known.field.take());
            known.unit = answer.unit.or(known.unit);
            known.meant = answer.meant.or(known.meant);
            known.decimal = answer.decimal.or(known.decimal);
            known.days = answer.days.or(known.days);
        }
    }

    /// Whether nothing is answered.
    pub fn is_empty(&self) -> bool {
        self.sheets.is_empty() && self.columns.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_later_answer_takes_the_place_of_an_earlier_one_and_leaves_the_others() {
        let of = |json: &str| serde_json::from_str::<Answers>(json).expect("answers");
        let mut answers =
            of(r#"{"sheets":[{"sheet":"a","role":"parts"}],"columns":[{"sheet":"a","column":2,"unit":"bar"}]}"#);
        answers
            .take(&of(r#"{"sheets":[{"sheet":"a","role":null}],"columns":[{"sheet":"a","column":2,"field":"mass"}]}"#));
        answers.take(&of(r#"{"columns":[{"sheet":"a","column":3,"days":"day-first"}]}"#));
        let expected = r#"{"sheets":[{"sheet":"a","role":null}],"columns":[{"sheet":"a","column":2,"field":"mass","unit":"bar"},{"sheet":"a","column":3,"days":"day-first"}]}"#;
        assert_eq!(serde_json::to_string(&answers).expect("JSON"), expected);
    }
}
