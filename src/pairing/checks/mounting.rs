//! Pins or coupler pattern.

use crate::pairing::facts::Facts;
use crate::pairing::judge::plain;
use crate::pairing::{Check, CheckId, Class, FactId, Outcome, Reason};
use crate::quantity::{Kind, Length, Ratio, Stated};
use crate::table::{AssumptionId, Mounting};
use uom::si::length::millimeter;

/// Pins that differ by no more than this are the same pin.
fn same_pin() -> Length {
    Length::new::<millimeter>(0.5)
}

/// What shop and kit can bridge.
#[derive(Clone, Copy)]
struct Bridge {
    /// A gap wider than the stick by no more than this is taken up by shims.
    shims: Length,
    /// How far two pins may differ for a kit of bushes or a bracket, as a share of the machine's.
    pins: f64,
}

impl Bridge {
    fn of(facts: &Facts) -> Self {
        let shims = facts.practice.limit(AssumptionId::ShimWidth).nominal;
        Self { shims, pins: facts.practice.limit::<Ratio>(AssumptionId::PinBridge).nominal.si() }
    }
}

/// The check.
pub fn check(facts: &Facts) -> Check {
    let (own, asked) = (&facts.carrier.mounting, &facts.head.mounting);
    let result =
        |outcome, reason, missing: &[FactId]| plain(CheckId::Mounting, Class::Safety, outcome, reason, missing);
    facts.see(FactId::CarrierMounting, (!own.is_empty()).then_some(own));
    facts.see(FactId::HeadMounting, (!asked.is_empty()).then_some(asked));
    if own.is_empty() || asked.is_empty() {
        let mut missing = Vec::new();
        if own.is_empty() {
            missing.push(FactId::CarrierMounting);
        }
        if asked.is_empty() {
            missing.push(FactId::HeadMounting);
        }
        return result(Outcome::NotKnown, Reason::FactMissing, &missing);
    }
    let bridge = Bridge::of(facts);
    let pairs = || own.iter().flat_map(|a| asked.iter().map(move |b| agree(bridge, a, b)));
    if pairs().any(|agreement| agreement == Agreement::Same) {
        let standard = own.iter().any(|a| matches!(a, Mounting::Standard { .. }) && asked.contains(a));
        return result(Outcome::Met, if standard { Reason::SameStandard } else { Reason::PinsAgree }, &[]);
    }
    if pairs().any(|agreement| agreement == Agreement::Unknown) {
        let missing = [FactId::CarrierMounting, FactId::HeadMounting];
        return result(Outcome::NotKnown, Reason::FactMissing, &missing);
    }
    let reason = if pairs().any(|agreement| agreement == Agreement::Bridged) {
        Reason::PinsDiffer
    } else {
        Reason::MountingsDiffer
    };
    result(Outcome::NotMet, reason, &[])
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Agreement {
    Same,
    Unknown,
    Bridged,
    Different,
}

fn agree(bridge: Bridge, own: &Mounting, asked: &Mounting) -> Agreement {
    match (own, asked) {
        (Mounting::Standard { standard: a }, Mounting::Standard { standard: b }) if a == b => Agreement::Same,
        (
            Mounting::Pins { pin: own_pin, width: own_width, centres: own_centres },
            Mounting::Pins { pin, width, centres },
        ) => {
            let apart = (own_pin.nominal - pin.nominal).si().abs();
            if apart > bridge.pins * own_pin.nominal.si() {
                Agreement::Different
            } else if apart > same_pin().si()
                || !fits_width(bridge, own_width.as_ref(), width.as_ref()).unwrap_or(true)
                || differ(bridge, own_centres.as_ref(), centres.as_ref())
            {
                Agreement::Bridged
            } else if own_width.is_none() || width.is_none() || own_centres.is_none() || centres.is_none() {
                Agreement::Unknown
            } else {
                Agreement::Same
            }
        }
        _ => Agreement::Different,
    }
}

/// Whether the stick goes between the head's ears; none when a width is not known.
fn fits_width(bridge: Bridge, stick: Option<&Stated<Length>>, gap: Option<&Stated<Length>>) -> Option<bool> {
    let play = gap?.nominal - stick?.nominal;
    Some(play >= Length::from_si(0.0) && play <= bridge.shims)
}

/// Whether both pin centres are known and differ by more than pins can take up.
fn differ(bridge: Bridge, own: Option<&Stated<Length>>, asked: Option<&Stated<Length>>) -> bool {
    own.zip(asked).is_some_and(|(a, b)| (a.nominal - b.nominal).si().abs() > bridge.shims.si())
}

/// The pin mounting of the head that a kit can bridge to, if there is one.
pub fn can_be_bridged<'a>(facts: &Facts<'a>) -> Option<&'a Mounting> {
    let own = &facts.carrier.mounting;
    let bridge = Bridge::of(facts);
    facts.head.mounting.iter().find(|asked| own.iter().any(|a| agree(bridge, a, asked) == Agreement::Bridged))
}
