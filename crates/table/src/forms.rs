//! Texts of a fixed form: identifiers, dates, money, currencies, cleanliness codes.

use serde::Serialize;

/// An identifier: unique within its list, 1 to 64 characters of `a–z`, `0–9`, `-`, `_` and `.`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(transparent)]
pub struct Id(String);

impl Id {
    /// The longest identifier, in characters.
    pub const LONGEST: usize = 64;

    /// The identifier with this text, when the text is one.
    pub fn new(text: &str) -> Option<Self> {
        let sound = (1..=Self::LONGEST).contains(&text.len())
            && text.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b"-_.".contains(&b));
        sound.then(|| Self(text.to_owned()))
    }

    /// Its text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for Id {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
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
    /// The date with this ISO 8601 text, when it is a day of the calendar between 1900 and 2199.
    pub fn new(text: &str) -> Option<Self> {
        let bytes = text.as_bytes();
        if bytes.len() != 10 || bytes[4] != b'-' || bytes[7] != b'-' {
            return None;
        }
        let digits = |range: std::ops::Range<usize>| {
            let part = text.get(range)?;
            part.bytes().all(|b| b.is_ascii_digit()).then(|| part.parse::<u16>().ok())?
        };
        let (year, month, day) = (digits(0..4)?, digits(5..7)?, digits(8..10)?);
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            _ => return None,
        };
        ((1900..2200).contains(&year) && (1..=days).contains(&day)).then(|| Self {
            year,
            month: u8::try_from(month).unwrap_or(0),
            day: u8::try_from(day).unwrap_or(0),
        })
    }
}

impl std::fmt::Display for Date {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
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
    pub fn new(text: &str) -> Option<Self> {
        let (whole, cents) = text.split_once('.').unwrap_or((text, "00"));
        let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
        if !digits(whole) || !digits(cents) || cents.len() != 2 || whole.len() > 8 {
            return None;
        }
        Some(Self(whole.parse::<u64>().ok()? * 100 + cents.parse::<u64>().ok()?))
    }
}

impl std::fmt::Display for Money {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
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
    pub fn new(text: &str) -> Option<Self> {
        let bytes: [u8; 3] = text.as_bytes().try_into().ok()?;
        bytes.iter().all(u8::is_ascii_uppercase).then_some(Self(bytes))
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
    pub fn new(text: &str) -> Option<Self> {
        let mut code = [0; 3];
        let mut parts = text.split('/');
        for place in &mut code {
            *place = parts.next()?.trim().parse().ok()?;
        }
        let sound = parts.next().is_none() && code[0] <= 28 && code[0] >= code[1] && code[1] >= code[2];
        sound.then_some(Self(code))
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
