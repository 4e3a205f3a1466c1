//! How a saved pairing comes out differently now, in words.

use super::Words;
use crate::pairing::{Bound, CheckId};
use crate::record::Difference;
use crate::table::ChangeId;

impl Words<'_> {
    /// One difference between then and now.
    pub fn difference(&self, difference: &Difference) -> String {
        match difference {
            Difference::Gone => "is not in the table in use".to_owned(),
            Difference::Verdict { then, now } => format!("was: {}; now: {}", self.verdict(*then), self.verdict(*now)),
            Difference::Changes { gone, new } => {
                let list = |ids: &[ChangeId]| {
                    let names: Vec<_> = ids.iter().map(|id| self.change_name(*id)).collect();
                    names.join(", ")
                };
                match (gone.is_empty(), new.is_empty()) {
                    (true, _) => format!("now also needs: {}", list(new)),
                    (_, true) => format!("no longer needs: {}", list(gone)),
                    _ => format!("now needs {} instead of {}", list(new), list(gone)),
                }
            }
            Difference::Minutes { then, now } => {
                format!("workshop time {} instead of {}", self.duration(*now), self.duration(*then))
            }
            Difference::Price { then, now } => {
                let shown = |price: &Option<String>| price.clone().unwrap_or_else(|| "none".to_owned());
                format!("price {} instead of {}", shown(now), shown(then))
            }
            Difference::Margin { then, now } => {
                let shown = |(check, thousandths): (CheckId, i32)| {
                    let margin = self.margin(f64::from(thousandths) / 1000.0, None::<Bound>);
                    format!("{} {margin}", self.check_title(check).to_lowercase())
                };
                format!("tightest is now {}, was {}", shown(*now), shown(*then))
            }
        }
    }
}
