//! What each change uses, takes and costs: the table's parts, else the workshop's usual hours.

use super::Slot;
use crate::pairing::{Conditions, Price};
use crate::quantity::{Kind, Length, Named, Pressure, Stated, Unit, VolumeRate};
use crate::table::{ChangeId, Id, Money, Part};

/// One way to make a change.
#[derive(Clone, Debug, PartialEq)]
pub struct ChangeOption {
    /// Which change.
    pub id: ChangeId,
    /// The part of the table.
    pub part: Option<Id>,
    /// Inner diameter of new lines.
    pub bore: Option<Length>,
    /// Rated flow.
    pub rated_flow: Option<Stated<VolumeRate>>,
    /// Loss at the rated flow.
    pub loss: Option<Stated<Pressure>>,
    /// At which a filter's bypass opens.
    pub bypass: Option<Stated<Pressure>>,
    /// Workshop minutes.
    pub minutes: u32,
    /// Part and labour in minor units, when both are priced.
    pub price: Option<u64>,
}

/// All options of a shop, cheapest first in each slot.
#[derive(Clone, Debug, PartialEq)]
pub struct Catalogue {
    options: Vec<ChangeOption>,
    currency: Option<String>,
    /// Whether every option is priced, so that sets are compared by money rather than by minutes.
    pub priced: bool,
}

/// Workshop minutes of a change (common practice, no published source), used where the table's parts give none.
fn usual_minutes(change: ChangeId) -> u32 {
    match change {
        ChangeId::MachineFlowSetting => 18,
        ChangeId::ReliefSetting => 30,
        ChangeId::DirectReturn => 480,
        ChangeId::CaseLine => 180,
        ChangeId::ReturnFilter | ChangeId::FlowLimit | ChangeId::MountingKit => 120,
    }
}

/// Sizes that a shop has without a list: whole hose sizes, mm.
fn usual_bores(change: ChangeId) -> &'static [f64] {
    match change {
        ChangeId::DirectReturn => &[19.05, 25.4, 31.75],
        ChangeId::CaseLine => &[12.7, 19.05],
        _ => &[],
    }
}

impl Catalogue {
    /// The options of a shop.
    pub fn of(conditions: &Conditions) -> Self {
        let mut options = Vec::new();
        for &id in ChangeId::ALL {
            let parts: Vec<_> = conditions.parts.iter().filter(|part| part.change == id).collect();
            if parts.is_empty() {
                options.extend(usual_options(id, conditions.labour_rate));
            } else {
                options.extend(parts.into_iter().map(|part| of_part(part, conditions.labour_rate)));
            }
        }
        let priced = conditions.currency.is_some() && options.iter().all(|option| option.price.is_some());
        let currency = conditions.currency.map(|currency| currency.as_str().to_owned());
        Self { options, currency, priced }
    }

    /// The options that fill a slot.
    pub fn of_slot(&self, slot: Slot) -> impl Iterator<Item = &ChangeOption> {
        self.options.iter().filter(move |option| Slot::of(option.id) == slot)
    }

    /// The cost by which sets are compared: minor currency units where everything is priced, else minutes.
    pub fn cost(&self, option: &ChangeOption) -> u64 {
        match option.price {
            Some(price) if self.priced => price,
            _ => u64::from(option.minutes),
        }
    }

    /// An amount in the shop's currency.
    pub fn price(&self, minor: Option<u64>) -> Option<Price> {
        Some(Price { amount: Money::from_minor(minor?), currency: self.currency.clone()? })
    }
}

fn labour(rate: Option<Money>, minutes: u32) -> Option<u64> {
    Some((rate?.minor() * u64::from(minutes)).div_ceil(60))
}

fn of_part(part: &Part, rate: Option<Money>) -> ChangeOption {
    let minutes = part.time.as_ref().map_or_else(
        || usual_minutes(part.change),
        |time| {
            let minutes = Unit::Minute.of_si(time.nominal.si()).round().clamp(0.0, 1e6);
            // Clamped to a small whole number just before.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let minutes = minutes as u32;
            minutes
        },
    );
    ChangeOption {
        id: part.change,
        part: Some(part.id.clone()),
        bore: part.bore.as_ref().map(|bore| bore.nominal),
        rated_flow: part.rated_flow,
        loss: part.loss,
        bypass: part.bypass,
        minutes,
        price: part.price.zip(labour(rate, minutes)).map(|(part, labour)| part.minor() + labour),
    }
}

fn usual_options(id: ChangeId, rate: Option<Money>) -> Vec<ChangeOption> {
    let minutes = usual_minutes(id);
    let plain = ChangeOption {
        id,
        part: None,
        bore: None,
        rated_flow: None,
        loss: None,
        bypass: None,
        minutes,
        // A setting needs no part: labour is all of it.
        price: matches!(id, ChangeId::MachineFlowSetting | ChangeId::ReliefSetting)
            .then(|| labour(rate, minutes))
            .flatten(),
    };
    let bores = usual_bores(id);
    if id == ChangeId::ReturnFilter {
        // Clean loss 0.5 bar at rated flow, bypass 1.7 bar: common practice, no published source.
        let size = |flow: f64| ChangeOption {
            rated_flow: Some(Stated::published(flow, Unit::LitrePerMinute)),
            loss: Some(Stated::published(0.5, Unit::Bar)),
            bypass: Some(Stated::published(1.7, Unit::Bar)),
            ..plain.clone()
        };
        return vec![size(150.0), size(300.0)];
    }
    if bores.is_empty() {
        return vec![plain];
    }
    let with =
        |bore: &f64| ChangeOption { bore: Some(Length::from_si(Unit::Millimetre.to_si(*bore))), ..plain.clone() };
    bores.iter().map(with).collect()
}
