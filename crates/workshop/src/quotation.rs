//! What is offered to a customer: every change with its parts and its labour, and the tax on all of it, to the minor unit.

use super::ChangeList;
use fit::{ChangeReason, Price};
use quantity::{Quantity, Ratio};
use serde::Serialize;
use table::{ChangeId, Money};

/// What one change costs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct QuotedChange {
    /// Which.
    pub change: ChangeId,
    /// Its parts; none where it has no price.
    pub parts: Option<Price>,
    /// Its labour; none where it has no price.
    pub labour: Option<Price>,
    /// Workshop minutes.
    pub minutes: u32,
    /// Both; none where it has no price.
    pub together: Option<Price>,
    /// Whether what is found out first may spare it.
    pub may_be_spared: bool,
}

/// An offer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Quotation {
    /// Every change, in working order.
    pub changes: Vec<QuotedChange>,
    /// What they come to without tax; none where nothing has a price.
    pub net: Option<Price>,
    /// The tax on it; none where no tax is stated.
    pub tax: Option<Price>,
    /// Both.
    pub gross: Option<Price>,
    /// Whether something has no price, so that it is "from".
    pub from: bool,
}

impl Quotation {
    /// Of some changes, with a tax as a share of their price.
    pub fn of(changes: &ChangeList, tax: Option<Ratio>) -> Self {
        let quoted = changes.lines.iter().map(|line| QuotedChange {
            change: line.change.id,
            parts: line.parts.clone(),
            labour: line.labour.clone(),
            minutes: line.change.minutes,
            together: line.change.price.clone(),
            may_be_spared: line.change.reason == ChangeReason::Settles,
        });
        let net = changes.total.price.clone();
        let of = |net: &Price, minor| Price { amount: Money::from_minor(minor), currency: net.currency.clone() };
        let tax = net.as_ref().zip(tax).map(|(net, share)| of(net, taxed(net.amount.minor(), share)));
        let sum = |net: &Price| of(net, net.amount.minor() + tax.as_ref().map_or(0, |tax| tax.amount.minor()));
        Self { changes: quoted.collect(), gross: net.as_ref().map(sum), net, tax, from: changes.total.from }
    }
}

/// A share of an amount, half a minor unit up. A share that is none of a price, below 0 or above 1, is nothing.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "positive, and far below 2⁵³")]
fn taxed(minor: u64, share: Ratio) -> u64 {
    // To a hundredth of a percent, as taxes are stated: a product of whole numbers has no binary tail.
    let share = (share.si().clamp(0.0, 1.0) * 1e4).round() as u64;
    (minor * share + 5_000) / 10_000
}

#[cfg(test)]
mod tests {
    use super::taxed;
    use quantity::{Quantity, Ratio};

    #[test]
    fn a_tax_is_told_to_the_cent_half_a_cent_up() {
        let tax = |minor, percent: f64| taxed(minor, Ratio::from_si(percent / 100.0));
        assert_eq!((tax(170_040, 20.0), tax(10_050, 21.0), tax(10, 5.0)), (34_008, 2_111, 1));
        assert_eq!((tax(1_000, 8.875), tax(1_000, -3.0), tax(1_000, f64::NAN)), (89, 0, 0));
    }
}
