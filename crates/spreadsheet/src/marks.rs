//! Which mark parts thousands and which decimals: what a number shows by itself, and what a whole column shows.

use serde::{Deserialize, Serialize};

/// The mark before decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mark {
    /// `1,234.5`
    Point,
    /// `1.234,5`
    Comma,
}

impl Mark {
    fn sign(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    fn other(self) -> Self {
        match self {
            Self::Point => Self::Comma,
            Self::Comma => Self::Point,
        }
    }
}

/// What numbers of a column show.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Evidence {
    /// One has a decimal point, or thousands set off by commas.
    pub point: bool,
    /// One has a decimal comma, or thousands set off by points.
    pub comma: bool,
}

impl Evidence {
    /// Takes in what a text shows.
    pub fn look(&mut self, text: &str) {
        for number in numbers(text) {
            match number.shows() {
                Shown::Decimal(Mark::Point) => self.point = true,
                Shown::Decimal(Mark::Comma) => self.comma = true,
                Shown::Nothing | Shown::Either(_) => {}
            }
        }
    }

    /// The mark before decimals; none where nothing shows it, or both are shown.
    pub fn decides(self) -> Option<Mark> {
        match (self.point, self.comma) {
            (true, false) => Some(Mark::Point),
            (false, true) => Some(Mark::Comma),
            _ => None,
        }
    }
}

/// What one number shows.
#[derive(Clone, Copy, PartialEq)]
enum Shown {
    Nothing,
    Decimal(Mark),
    /// `1,234`: thousands for one reader, decimals for another; the mark that stands there.
    Either(Mark),
}

/// A number with marks in a text.
struct Number<'t> {
    begin: usize,
    text: &'t str,
}

fn is_space(sign: char) -> bool {
    matches!(sign, ' ' | '\u{a0}' | '\u{202f}' | '\u{2009}' | '\'' | '’')
}

/// The numbers of a text: digits with single marks between them; a space parts thousands where three digits follow.
fn numbers(text: &str) -> Vec<Number<'_>> {
    let signs: Vec<(usize, char)> = text.char_indices().collect();
    let digits_from =
        |place: usize| signs[place.min(signs.len())..].iter().take_while(|(_, sign)| sign.is_ascii_digit()).count();
    let (mut found, mut place) = (Vec::new(), 0);
    while place < signs.len() {
        let length = digits_from(place);
        if length == 0 {
            place += 1;
            continue;
        }
        let (begin, mut end, mut first) = (place, place + length, length <= 3);
        while let Some((_, sign)) = signs.get(end) {
            let after = digits_from(end + 1);
            let behind = signs.get(end + 1 + after).map(|(_, sign)| *sign);
            let goes_on = match sign {
                '.' | ',' => after > 0,
                sign if is_space(*sign) => first && after == 3 && behind != Some('/'),
                _ => false,
            };
            if !goes_on {
                break;
            }
            first &= after == 3;
            end += 1 + after;
        }
        let at = |place: usize| signs.get(place).map_or(text.len(), |(at, _)| *at);
        found.push(Number { begin: at(begin), text: &text[at(begin)..at(end)] });
        place = end;
    }
    found
}

impl Number<'_> {
    fn shows(&self) -> Shown {
        let marks: Vec<char> = self.text.chars().filter(|sign| ".,".contains(*sign)).collect();
        let Some(last) = marks.last() else { return Shown::Nothing };
        let mark = if *last == '.' { Mark::Point } else { Mark::Comma };
        if marks.iter().any(|sign| sign != last) {
            return Shown::Decimal(mark);
        }
        if marks.len() > 1 {
            return Shown::Decimal(mark.other());
        }
        let (before, after) = self.text.split_once(*last).unwrap_or((self.text, ""));
        let whole = !before.starts_with('0') && before.chars().all(|sign| sign.is_ascii_digit()) && before.len() <= 3;
        if after.len() == 3 && whole { Shown::Either(mark) } else { Shown::Decimal(mark) }
    }

    /// With a point before its decimals and nothing between its thousands.
    fn plain(&self, decimal: Mark) -> String {
        let kept = self.text.chars().filter(|sign| !is_space(*sign) && *sign != decimal.other().sign());
        kept.map(|sign| if sign == decimal.sign() { '.' } else { sign }).collect()
    }
}

/// The text with its numbers in plain notation. None where one may be read in two ways and `decided` says neither.
pub fn plain(text: &str, decided: Option<Mark>) -> Option<String> {
    let (mut made, mut passed) = (String::new(), 0);
    for number in numbers(text) {
        let decimal = match number.shows() {
            Shown::Nothing => Mark::Point,
            Shown::Decimal(mark) => mark,
            Shown::Either(_) => decided?,
        };
        made.push_str(&text[passed..number.begin]);
        made.push_str(&number.plain(decimal));
        passed = number.begin + number.text.len();
    }
    made.push_str(&text[passed..]);
    Some(made)
}

/// Whether the text holds no other two-faced number than such with a point: in a column that the format itself names, that is decimal.
pub fn only_points(text: &str) -> bool {
    numbers(text).iter().all(|number| number.shows() != Shown::Either(Mark::Comma))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn decides(texts: &[&str]) -> Option<Mark> {
        let mut evidence = Evidence::default();
        for text in texts {
            evidence.look(text);
        }
        evidence.decides()
    }

    #[test]
    fn a_column_shows_its_decimal_mark() {
        assert_eq!(decides(&["1,234", "62,5"]), Some(Mark::Comma));
        assert_eq!(decides(&["1,234", "1,234.5"]), Some(Mark::Point));
        assert_eq!(decides(&["1.234.567 kg"]), Some(Mark::Comma));
        assert_eq!(decides(&["0,125 L"]), Some(Mark::Comma));
        assert_eq!(decides(&["1 234,500 kg"]), Some(Mark::Comma));
        assert_eq!(decides(&["1,234", "12,345 kg", "180..235 bar", "20/18/15"]), None);
        assert_eq!(decides(&["1,5", "1.5"]), None);
    }

    #[test]
    fn numbers_are_written_plainly_or_asked() {
        let plainly = |text, mark| plain(text, mark);
        for (text, mark, read) in [
            ("1.234,5 kg", None, Some("1234.5 kg")),
            ("1,234 kg", Some(Mark::Comma), Some("1.234 kg")),
            ("1,234 kg", Some(Mark::Point), Some("1234 kg")),
            ("1,234 kg", None, None),
            ("3.640", Some(Mark::Comma), Some("3640")),
            ("1 234 kg", None, Some("1234 kg")),
            ("12’345 kg", None, Some("12345 kg")),
            ("2 1/2 in", None, Some("2 1/2 in")),
            ("180,5..260,5 bar", None, Some("180.5..260.5 bar")),
            ("62 L/min -15/+8 % (plate)", None, Some("62 L/min -15/+8 % (plate)")),
            ("1,5 and 1.5", None, Some("1.5 and 1.5")),
            ("é,5", None, Some("é,5")),
        ] {
            assert_eq!(plainly(text, mark).as_deref(), read, "{text}");
        }
    }
}
