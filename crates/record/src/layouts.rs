//! What was answered about files of one layout, for the next file of it. A convenience: what is lost is asked once more.

use serde::{Deserialize, Serialize};
use spreadsheet::Answers;

/// How many layouts are kept.
pub const MOST: usize = 20;

/// What was answered about the files of one layout.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LayoutAnswers {
    /// The layout's fingerprint.
    pub layout: String,
    /// What was answered.
    pub answers: Answers,
}

/// What was answered about files, by their layouts, the one used last first.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Layouts {
    entries: Vec<LayoutAnswers>,
}

impl Layouts {
    /// What was answered about files of each layout.
    pub fn entries(&self) -> &[LayoutAnswers] {
        &self.entries
    }

    /// With what was answered about a layout, in the place of what was before. No answers are not kept.
    #[must_use]
    pub fn with(mut self, layout: &str, answers: &Answers) -> Self {
        self.entries.retain(|known| known.layout != layout);
        if !answers.is_empty() && !layout.is_empty() {
            self.entries.insert(0, LayoutAnswers { layout: layout.to_owned(), answers: answers.clone() });
        }
        self.entries.truncate(MOST);
        self
    }

    /// The text to keep.
    pub fn encode(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads a kept text; nothing of one that cannot be read.
    pub fn decode(text: &str) -> Self {
        let mut read: Self = serde_json::from_str(text).unwrap_or_default();
        read.entries.truncate(MOST);
        read
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answers(column: usize) -> Answers {
        let mut answers = Answers::default();
        answers.about("", column).field = Some("mass".to_owned());
        answers
    }

    #[test]
    fn the_last_one_is_in_front_each_once_and_the_oldest_goes() {
        let mut layouts = Layouts::default();
        for column in 1..=MOST + 2 {
            layouts = layouts.with(&format!("l{column}"), &answers(column));
        }
        assert_eq!(layouts.entries().len(), MOST);
        layouts = layouts.with("l7", &answers(1));
        assert_eq!(layouts.entries().len(), MOST);
        assert_eq!(layouts.entries()[0], LayoutAnswers { layout: "l7".to_owned(), answers: answers(1) });
        assert_eq!(Layouts::decode(&layouts.encode()), layouts);
        assert_eq!(layouts.with("l7", &Answers::default()).entries().len(), MOST - 1);
    }

    #[test]
    fn what_cannot_be_read_is_nothing() {
        for text in ["", "{", "[1]", "null", r#"[{"layout":"a"}]"#] {
            assert_eq!(Layouts::decode(text), Layouts::default(), "{text}");
        }
    }
}
