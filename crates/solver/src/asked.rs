//! What is looked for among attachments, as it is typed and chosen.

use fit::{ListOrder, Verdict, Wanted, WorkAsked};
use quantity::{Length, Quantity, UnitSystem, text};
use serde::{Deserialize, Serialize};
use table::HeadKind;

/// What is looked for. Lengths stand as they were typed, so that half a figure is not another one.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Asked {
    /// Words of the name.
    pub name: String,
    /// How it must come out.
    pub verdict: Option<Verdict>,
    /// What it does.
    pub kind: Option<HeadKind>,
    /// What is to be worked.
    pub material: String,
    /// Its diameter or thickness.
    pub thickness: String,
    /// The working width that it must have at least.
    pub width: String,
    /// The most changes.
    pub changes: Option<usize>,
    /// Whether it must be in stock.
    pub stock: bool,
    /// In which order the list stands.
    pub order: ListOrder,
}

impl Asked {
    /// What the core is asked. A length that cannot be read is not asked; the field says why.
    pub fn wanted(&self, units: UnitSystem) -> Wanted {
        let thickness = length(&self.thickness, units).ok().flatten();
        let material = Some(self.material.clone()).filter(|name| !name.is_empty());
        Wanted {
            name: self.name.clone(),
            verdict: self.verdict,
            kind: self.kind,
            work: material.map(|material| WorkAsked { material, thickness }),
            width: length(&self.width, units).ok().flatten(),
            most_changes: self.changes,
            in_stock: self.stock,
        }
    }

    /// How many filters are set, but for the verdict, which has a place of its own.
    pub fn filters(&self) -> usize {
        let set = [
            !self.name.trim().is_empty(),
            self.kind.is_some(),
            !self.material.is_empty(),
            !self.width.trim().is_empty(),
            self.changes.is_some(),
        ];
        set.into_iter().filter(|set| *set).count()
    }
}

/// A length as typed; a bare number is in millimetres or inches, as the reader measures.
///
/// # Errors
/// What is wrong with it and what is wanted, in words.
pub fn length(typed: &str, units: UnitSystem) -> Result<Option<Length>, String> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let unit = unit(units);
    let bare = typed.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
    let whole = if bare { format!("{typed} {unit}") } else { typed.to_owned() };
    match text::read::<Length>(&whole) {
        Ok(stated) if stated.nominal.si() > 0.0 => Ok(Some(stated.nominal)),
        _ => Err(format!("“{typed}” is no length. Write it like 80 {unit}.")),
    }
}

/// In which unit a bare number is meant.
pub fn unit(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Metric => "mm",
        UnitSystem::UsCustomary => "in",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bare_length_is_in_the_readers_unit_and_half_a_figure_is_not_asked() {
        let millimetres = |typed, units| length(typed, units).map(|read| read.map(|length| length.si() * 1000.0));
        assert_eq!(millimetres("80", UnitSystem::Metric), Ok(Some(80.0)));
        let inches = millimetres("2", UnitSystem::UsCustomary).expect("a length").expect("one");
        assert!((inches - 50.8).abs() < 1e-9);
        assert_eq!(millimetres(" ", UnitSystem::Metric), Ok(None));
        let fault = millimetres("8 kg", UnitSystem::Metric).expect_err("no length");
        assert_eq!(fault, "“8 kg” is no length. Write it like 80 mm.");
        let asked = Asked { width: "8 kg".to_owned(), ..Asked::default() };
        assert_eq!((asked.wanted(UnitSystem::Metric).width, asked.filters()), (None, 1));
    }
}
