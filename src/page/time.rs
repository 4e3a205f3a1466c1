//! The time of day and ids made of it.

pub use intl::{day, shown};
use js_sys::{Date, Math};

/// Now, ISO 8601 in UTC.
pub fn now() -> String {
    String::from(Date::new_0().to_iso_string())
}

/// Today, where the reader is: year, month and day as forms write them.
pub fn today() -> String {
    let now = Date::new_0();
    format!("{:04}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// A day so many days after another, as forms write them; empty where that is no day.
pub fn days_after(day: &str, days: u16) -> String {
    let then = Date::new(&day.into()).get_time() + f64::from(days) * 86_400_000.0;
    if then.is_nan() {
        return String::new();
    }
    let then = String::from(Date::new(&then.into()).to_iso_string());
    then.get(..10).unwrap_or_default().to_owned()
}

/// A number for a paper, made of day and time of day where the reader is: `20261130-1542`.
pub fn number() -> String {
    let now = Date::new_0();
    let day = today().replace('-', "");
    format!("{day}-{:02}{:02}", now.get_hours(), now.get_minutes())
}

/// An id that no other saved thing has: the time and a random part.
pub fn fresh_id() -> String {
    // Both are whole, positive and far below 2⁵³.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let (time, random) = (Date::now() as u64, (Math::random() * 1e9) as u64);
    format!("{time:x}-{random:x}")
}
