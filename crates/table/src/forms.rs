//! Texts of a fixed form: identifiers, dates, money, currencies, cleanliness codes.

use serde::Serialize;
use std::fmt::{self, Display, Formatter};

/// Why a text is not of the form that it should have: what was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FormFault {
    /// An identifier without a character, or with too many.
    IdLength(String),
    /// An identifier with a character that none has.
    IdCharacter(String, char),
    /// No year, month and day.
    DateForm(String),
    /// A day that no calendar has, or none between 1900 and 2199.
    NoSuchDay(String),
    /// No digits, or not with two decimals behind a point.
    MoneyForm(String),
    /// More money than can be kept.
    MoneyTooMuch(String),
    /// Not three capital letters.
    Currency(String),
    /// No three numbers that never rise.
    Cleanliness(String),
}

/// For logs; what a person reads is put into words elsewhere.
impl Display for FormFault {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::IdLength(found) => {
                let (long, most) = (found.chars().count(), Id::LONGEST);
                write!(f, "`{found}` has {long} characters, an id 1 to {most}: write as many")
            }
            Self::IdCharacter(found, character) => {
                write!(f, "`{found}` is no id, for `{character}` stands in it: write a–z, 0–9, `-`, `_` and `.` only")
            }
            Self::DateForm(found) => write!(f, "`{found}` is no date: write year, month and day as 2026-11-25"),
            Self::NoSuchDay(found) => {
                write!(f, "`{found}` is no day of the calendar from 1900 to 2199: look which day was meant")
            }
            Self::MoneyForm(found) => {
                write!(f, "`{found}` is no amount of money: write digits, or digits with two decimals as 1240.50")
            }
            Self::MoneyTooMuch(found) => {
                write!(f, "`{found}` is more than 99999999.99: look where the point belongs")
            }
            Self::Currency(found) => write!(f, "`{found}` is no currency: write its three capital letters as EUR"),
            Self::Cleanliness(found) => {
                write!(f, "`{found}` is no cleanliness: write three numbers up to 28 that never rise as 20/18/15")
            }
        }
    }
}

impl std::error::Error for FormFault {}

/// An identifier: unique within its list, 1 to 64 characters of `a–z`, `0–9`, `-`, `_` and `.`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(transparent)]
pub struct Id(String);

impl Id {
    /// The longest identifier, in characters.
    pub const LONGEST: usize = 64;

    /// The identifier with this text.
    ///
    /// # Errors
    /// [`FormFault`] when it is none.
    pub fn new(text: &str) -> Result<Self, FormFault> {
        let is_of_an_id = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "-_.".contains(c);
        match text.chars().find(|&c| !is_of_an_id(c)) {
            Some(foreign) => Err(FormFault::IdCharacter(text.to_owned(), foreign)),
            None if (1..=Self::LONGEST).contains(&text.len()) => Ok(Self(text.to_owned())),
            None => Err(FormFault::IdLength(text.to_owned())),
        }
    }

    /// Its text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Display for Id {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// A calendar date, written `2026-11-25` (ISO 8601).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// The date with this ISO 8601 text: a day of the calendar between 1900 and 2199.
    ///
    /// # Errors
    /// [`FormFault`] when it is none.
    pub fn new(text: &str) -> Result<Self, FormFault> {
        let Some((year, month, day)) = Self::numbers(text) else { return Err(FormFault::DateForm(text.to_owned())) };
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            _ => 0,
        };
        let there = (1900..2200).contains(&year) && (1..=days).contains(&day);
        if there { Ok(Self { year, month, day }) } else { Err(FormFault::NoSuchDay(text.to_owned())) }
    }

    fn numbers(text: &str) -> Option<(u16, u8, u8)> {
        let sound = |(place, b): (usize, u8)| if [4, 7].contains(&place) { b == b'-' } else { b.is_ascii_digit() };
        (text.len() == 10 && text.bytes().enumerate().all(sound)).then_some(())?;
        Some((text[..4].parse().ok()?, text[5..7].parse().ok()?, text[8..].parse().ok()?))
    }
}

impl Display for Date {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Serialize for Date {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// An amount of money in minor units of the table's currency, written `1240.50`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money(u64);

impl Money {
    /// From minor units (cents).
    pub fn from_minor(minor: u64) -> Self {
        Self(minor)
    }

    /// In minor units (cents).
    pub fn minor(self) -> u64 {
        self.0
    }

    /// The amount with this text: digits, or digits with a point and two decimals; up to 99 999 999.99.
    ///
    /// # Errors
    /// [`FormFault`] when it is none.
    pub fn new(text: &str) -> Result<Self, FormFault> {
        let (whole, cents) = text.split_once('.').unwrap_or((text, "00"));
        let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
        if !digits(whole) || !digits(cents) || cents.len() != 2 {
            return Err(FormFault::MoneyForm(text.to_owned()));
        }
        if whole.len() > 8 {
            return Err(FormFault::MoneyTooMuch(text.to_owned()));
        }
        // Ten digits at the most, so they are a number.
        format!("{whole}{cents}").parse().map(Self).map_err(|_| FormFault::MoneyForm(text.to_owned()))
    }
}

impl Display for Money {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{:02}", self.0 / 100, self.0 % 100)
    }
}

impl Serialize for Money {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// An ISO 4217 currency code: three capital letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency([u8; 3]);

impl Currency {
    /// The code with this text.
    ///
    /// # Errors
    /// [`FormFault`] when it is none.
    pub fn new(text: &str) -> Result<Self, FormFault> {
        match text.as_bytes().try_into() {
            Ok(bytes) if text.bytes().all(|b| b.is_ascii_uppercase()) => Ok(Self(bytes)),
            _ => Err(FormFault::Currency(text.to_owned())),
        }
    }

    /// Its three letters.
    pub fn as_str(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or("")
    }
}

impl Serialize for Currency {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.as_str())
    }
}

/// A cleanliness code of ISO 4406: scale numbers at 4, 6 and 14 µm(c), never rising.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cleanliness([u8; 3]);

impl Cleanliness {
    /// The code as it is written, `20/18/15`.
    pub fn text(self) -> String {
        let [a, b, c] = self.0;
        format!("{a}/{b}/{c}")
    }

    /// The code with this text, `20/18/15`; each number 0 to 28 and none greater than the one before.
    ///
    /// # Errors
    /// [`FormFault`] when it is none.
    pub fn new(text: &str) -> Result<Self, FormFault> {
        let parts: Vec<_> = text.split('/').map(|part| part.trim().parse::<u8>()).collect();
        match parts[..] {
            [Ok(a), Ok(b), Ok(c)] if a <= 28 && a >= b && b >= c => Ok(Self([a, b, c])),
            _ => Err(FormFault::Cleanliness(text.to_owned())),
        }
    }

    /// The code with this last number, and the others as far above it as they usually are (20/18/15, 18/16/13: common practice, no
    /// published source).
    pub fn with_last(last: u8) -> Self {
        let last = last.min(23);
        Self([last + 5, last + 3, last])
    }

    /// Whether oil of this code is at least as clean as another code asks, at each size of particle.
    pub fn at_least_as_clean_as(self, asked: Self) -> bool {
        self.0.iter().zip(asked.0).all(|(own, asked)| *own <= asked)
    }
}

impl Serialize for Cleanliness {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.text())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn says<T: std::fmt::Debug>(read: Result<T, FormFault>, words: &str) {
        assert_eq!(read.expect_err("a fault").to_string(), words);
    }

    #[test]
    fn an_id_that_is_none_says_why() {
        let long = "a".repeat(65);
        says(Id::new(""), "`` has 0 characters, an id 1 to 64: write as many");
        says(Id::new(&long), &format!("`{long}` has 65 characters, an id 1 to 64: write as many"));
        says(Id::new("yard 8"), "`yard 8` is no id, for ` ` stands in it: write a–z, 0–9, `-`, `_` and `.` only");
        says(Id::new("höhe"), "`höhe` is no id, for `ö` stands in it: write a–z, 0–9, `-`, `_` and `.` only");
        assert_eq!(Id::new(&long[1..]).expect("just short enough").as_str(), &long[1..]);
    }

    #[test]
    fn a_date_that_is_none_says_why() {
        for text in ["25.11.2026", "2026-1-25", "2026-11-2x", "2026/11/25", "２026-11-", ""] {
            says(Date::new(text), &format!("`{text}` is no date: write year, month and day as 2026-11-25"));
        }
        for text in ["2026-02-29", "1900-02-29", "2026-13-01", "2026-04-31", "2026-01-00", "1899-12-31", "2200-01-01"] {
            let words = "is no day of the calendar from 1900 to 2199: look which day was meant";
            says(Date::new(text), &format!("`{text}` {words}"));
        }
        for text in ["2024-02-29", "2000-02-29", "1900-01-01", "2199-12-31"] {
            assert_eq!(Date::new(text).expect(text).to_string(), text);
        }
    }

    #[test]
    fn money_that_is_none_says_why() {
        for text in ["", "€ 12", "12.5", "12.500", ".50", "1,240.50", "-1.00", "12.", "+1"] {
            let words = "is no amount of money: write digits, or digits with two decimals as 1240.50";
            says(Money::new(text), &format!("`{text}` {words}"));
        }
        says(Money::new("100000000"), "`100000000` is more than 99999999.99: look where the point belongs");
        assert_eq!(Money::new("99999999.99"), Ok(Money::from_minor(9_999_999_999)));
        assert_eq!(Money::new("1240"), Ok(Money::from_minor(124_000)));
    }

    #[test]
    fn a_code_that_is_none_says_why() {
        for text in ["eur", "EURO", "€", ""] {
            says(Currency::new(text), &format!("`{text}` is no currency: write its three capital letters as EUR"));
        }
        for text in ["20/18", "18/20/15", "29/18/15", "20/18/15/12", "a/b/c"] {
            let words = "is no cleanliness: write three numbers up to 28 that never rise as 20/18/15";
            says(Cleanliness::new(text), &format!("`{text}` {words}"));
        }
        assert_eq!(Cleanliness::new("20 / 18/15").expect("a code").text(), "20/18/15");
    }
}
