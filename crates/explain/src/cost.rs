//! Why a change, or a set of them, takes the time and money that it does.

use crate::formula::Formula;
use crate::reasoning::{Conclusion, Reasoning};
use fit::changes::{TANK_PORT, labour, usual_time};
use fit::trace::{Context, InputRecord, Origin, Value, What};
use fit::{Change, Conditions, Pairing, Price, Total};
use table::{ChangeId, Money};

/// What one change takes: its part, the workshop's time at its rate. None where the set has no such change.
pub fn reasoning_of_change(pairing: &Pairing, conditions: &Conditions, change: ChangeId) -> Option<Reasoning> {
    let made = pairing.changes.iter().find(|made| made.id == change)?;
    let part = made.part.as_ref().and_then(|id| conditions.parts.iter().find(|part| part.id == *id));
    let money = |amount: Option<Money>, origin: Origin| {
        let price = amount.zip(conditions.currency);
        let price = price.map(|(amount, currency)| Price { amount, currency: currency.as_str().to_owned() });
        price.map_or((Value::NotStated, Origin::Missing), |price| (Value::Money(price), origin))
    };
    let mut inputs = Vec::new();
    let mut note = |besides: Context, (value, origin): (Value, Origin)| {
        inputs.push(InputRecord { what: What::Context(besides), value, origin });
    };
    if let Some(part) = part {
        note(Context::PartUsed, (Value::Text(format!("{} ({})", part.name, part.id)), Origin::Table));
    }
    // A setting without an entry in the table needs no part, so that nobody misses its price.
    if part.is_some() || made.price.is_none() && conditions.labour_rate.is_some() {
        note(Context::PartPrice, money(part.and_then(|part| part.price), Origin::Table));
    }
    let usual = usual_time(change);
    let port = if made.option.tank_port { TANK_PORT.likely } else { 0 };
    let own = made.minutes.saturating_sub(port);
    note(
        Context::WorkshopTime,
        match part.and_then(|part| part.time) {
            Some(_) => (Value::Minutes(own, None), Origin::Table),
            None => (Value::Minutes(own, Some((usual.least, usual.most))), Origin::Practice),
        },
    );
    if made.option.tank_port {
        let usual = Some((TANK_PORT.least, TANK_PORT.most));
        note(Context::TankPortTime, (Value::Minutes(port, usual), Origin::Practice));
    }
    note(Context::LabourRate, money(conditions.labour_rate, Origin::Table));
    if let Some(cost) = labour(conditions.labour_rate, made.minutes) {
        note(Context::Labour, money(Some(Money::from_minor(cost)), Origin::Worked));
    }
    Some(told(Formula::ChangeCost, inputs, of_one(made)))
}

/// What all changes of a set take together; none where there are none.
pub fn reasoning_of_cost(pairing: &Pairing) -> Option<Reasoning> {
    if pairing.changes.is_empty() {
        return None;
    }
    let one = |made: &Change| InputRecord {
        what: What::Change(made.id),
        value: Value::Takes(of_one(made)),
        origin: Origin::Worked,
    };
    Some(told(Formula::SetCost, pairing.changes.iter().map(one).collect(), Total::of(pairing)))
}

fn of_one(made: &Change) -> Total {
    Total { minutes: made.minutes, price: made.price.clone(), from: made.price.is_none() }
}

fn told(formula: Formula, inputs: Vec<InputRecord>, takes: Total) -> Reasoning {
    Reasoning {
        check: None,
        formulas: vec![formula],
        inputs,
        own_ranges: Vec::new(),
        tried: Vec::new(),
        held: Vec::new(),
        result: Conclusion { takes: Some(takes), ..Conclusion::figure(None) },
    }
}
