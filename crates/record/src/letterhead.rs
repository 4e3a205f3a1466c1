//! What a dealer types for his papers, kept as preferences of his browser: who he is, and which machine, attachment and job it is.

use quantity::text::{read_amount, with_points};
use quantity::{Dimension, Ratio, Unit};
use serde::{Deserialize, Serialize};
use table::{Dealer, is_picture};

/// The preference that holds the letterhead.
pub const LETTERHEAD: &str = "letterhead";
/// For how many days a quotation is valid where nobody says otherwise.
pub const VALID_DAYS: u16 = 30;
/// The longest text of a field, in characters.
const LONGEST: usize = 200;

/// Who offers, as texts; an empty one stands as in the table.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Letterhead {
    /// His name.
    pub name: String,
    /// Street and place.
    pub address: String,
    /// How he is reached.
    pub contact: String,
    /// His logo, as a picture within the text.
    pub logo: String,
    /// What the tax is called.
    pub tax_name: String,
    /// The tax in percent, as typed.
    pub tax: String,
    /// For how many days a quotation is valid, as typed.
    pub valid_days: String,
}

impl Letterhead {
    /// Reads what was kept; what is damaged is none.
    pub fn decode(text: &str) -> Self {
        serde_json::from_str::<Self>(text).unwrap_or_default().sound()
    }

    /// The text that is kept.
    pub fn encode(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// With texts of a line each, and a logo only where it is a picture.
    #[must_use]
    pub fn sound(self) -> Self {
        let logo = if is_picture(&self.logo) { self.logo } else { String::new() };
        Self {
            name: short(&self.name),
            address: short(&self.address),
            contact: short(&self.contact),
            logo,
            tax_name: short(&self.tax_name),
            tax: short(&self.tax),
            valid_days: short(&self.valid_days),
        }
    }

    /// What is typed here, and where nothing is, what the table states of its dealer.
    #[must_use]
    pub fn or_of(self, dealer: Option<&Dealer>) -> Self {
        let Some(dealer) = dealer else { return self };
        let or = |own: String, of_table: Option<&String>| {
            if own.trim().is_empty() { of_table.cloned().unwrap_or_default() } else { own }
        };
        let percent = dealer.tax.map(|tax| Unit::Percent.of_si(quantity::Quantity::si(tax.nominal)).to_string());
        Self {
            name: or(self.name, Some(&dealer.name)),
            address: or(self.address, dealer.address.as_ref()),
            contact: or(self.contact, dealer.contact.as_ref()),
            logo: or(self.logo, dealer.logo.as_ref()),
            tax_name: or(self.tax_name, dealer.tax_name.as_ref()),
            tax: or(self.tax, percent.as_ref()),
            valid_days: or(self.valid_days, dealer.valid_days.map(|days| days.to_string()).as_ref()),
        }
    }

    /// The tax as a share of the price; none where nothing is typed, or what is typed is no percentage.
    pub fn tax(&self) -> Option<Ratio> {
        let text = with_points(self.tax.trim());
        let bare = text.trim_end_matches('%').trim();
        let read = read_amount(&format!("{bare} %"), Dimension::Ratio).ok()?;
        (0.0..=1.0).contains(&read.si()).then(|| read.quantity()).flatten()
    }

    /// Whether a tax is typed that is none.
    pub fn tax_is_wrong(&self) -> bool {
        !self.tax.trim().is_empty() && self.tax().is_none()
    }

    /// For how many days a quotation is valid.
    pub fn valid_days(&self) -> u16 {
        self.valid_days.trim().parse().ok().filter(|days| (1..=365).contains(days)).unwrap_or(VALID_DAYS)
    }
}

/// Which machine, attachment and job a paper is of; kept for each pairing.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct JobMarks {
    /// The machine's serial or yard number.
    pub machine_serial: String,
    /// The attachment's.
    pub attachment_serial: String,
    /// The number of the job.
    pub job: String,
}

impl JobMarks {
    /// The preference that holds those of a machine with an attachment.
    pub fn preference(carrier: &str, head: &str) -> String {
        format!("job.{carrier}.{head}")
    }

    /// Reads what was kept; what is damaged is none.
    pub fn decode(text: &str) -> Self {
        let Self { machine_serial, attachment_serial, job } = serde_json::from_str(text).unwrap_or_default();
        Self { machine_serial: mark(&machine_serial), attachment_serial: mark(&attachment_serial), job: mark(&job) }
    }

    /// The text that is kept.
    pub fn encode(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }
}

/// A text of one line, of a length that papers have room for.
pub fn short(text: &str) -> String {
    let line: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(LONGEST).collect();
    line.trim().to_owned()
}

/// A serial number or a job's: it stands in a line with others.
pub fn mark(text: &str) -> String {
    short(text).chars().take(30).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_takes_the_place_of_what_the_table_states() {
        let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
        let own = Letterhead { name: "Own yard".to_owned(), tax: "7,5".to_owned(), ..Letterhead::default() };
        let both = own.or_of(table.dealer.as_ref());
        assert_eq!((both.name.as_str(), both.tax_name.as_str(), both.valid_days()), ("Own yard", "VAT", 30));
        assert!((quantity::Quantity::si(both.tax().expect("a tax")) - 0.075).abs() < 1e-12);
        assert!(is_picture(&both.logo));
        let stated = Letterhead::default().or_of(table.dealer.as_ref());
        assert!((quantity::Quantity::si(stated.tax().expect("a tax")) - 0.2).abs() < 1e-12);
        assert_eq!(Letterhead::default().or_of(None), Letterhead::default());
    }

    #[test]
    fn what_was_kept_is_read_again_and_what_is_damaged_is_none() {
        let kept = Letterhead {
            name: "A\nB".to_owned(),
            logo: "https://example.invalid/x.png".to_owned(),
            ..Letterhead::default()
        };
        let read = Letterhead::decode(&kept.encode());
        assert_eq!((read.name.as_str(), read.logo.as_str()), ("A B", ""));
        assert_eq!(Letterhead::decode("{"), Letterhead::default());
        for wrong in ["twenty", "-3", "120"] {
            assert!(Letterhead { tax: wrong.to_owned(), ..Letterhead::default() }.tax_is_wrong(), "{wrong}");
        }
        assert_eq!(Letterhead { valid_days: "0".to_owned(), ..Letterhead::default() }.valid_days(), VALID_DAYS);
        let marks = JobMarks { job: "J".repeat(99), ..JobMarks::default() };
        assert_eq!(JobMarks::decode(&marks.encode()).job.len(), 30);
    }
}
