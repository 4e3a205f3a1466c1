//! Pins or coupler pattern.

use crate::facts::Facts;
use crate::judge::yes_no;
use crate::{Check, CheckId, Class, FactId, Outcome, Reason};
use quantity::{Length, Quantity, Ratio, Stated};
use table::{AssumptionId, Mounting};
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

/// The head's mountings against those at the end of the machine that the circuit feeds.
pub fn check(facts: &Facts) -> Check {
    let (carrier, head) = (facts.carrier_mountings(), facts.head_mountings());
    let result =
        |outcome, reason, missing: &[FactId]| yes_no(CheckId::Mounting, Class::Safety, outcome, reason, missing);
    let open = |missing: &[FactId]| result(Outcome::NotKnown, Reason::FactMissing, missing);
    let (Some(_), Some(asked)) = (carrier, head) else {
        let carrier = carrier.is_none().then_some(FactId::CarrierMounting);
        let head = head.is_none().then_some(FactId::HeadMounting);
        return open(&carrier.into_iter().chain(head).collect::<Vec<_>>());
    };
    let bridge = Bridge::of(facts);
    let (here, perhaps) = facts.mountings();
    let best = |own: &[&Mounting]| own.iter().flat_map(|a| asked.iter().map(move |b| agree(bridge, a, b))).min();
    let agreement = best(&here);
    if agreement == Some(Agreement::Same) {
        let standard = here
            .iter()
            .any(|a| a.standard().is_some_and(|standard| asked.iter().any(|b| b.standard() == Some(standard))));
        return result(Outcome::Met, if standard { Reason::SameStandard } else { Reason::PinsAgree }, &[]);
    }
    if best(&perhaps).is_some_and(|agreement| agreement != Agreement::Different) {
        let fact = if facts.end().is_none() { FactId::CircuitEnd } else { facts.unstated(FactId::MountingEnd) };
        return open(&[fact]);
    }
    match agreement {
        Some(Agreement::Unknown) => open(&[FactId::CarrierMounting, FactId::HeadMounting]),
        Some(Agreement::Bridged) => result(Outcome::NotMet, Reason::PinsDiffer, &[]),
        // What is stated is at the other end: of this one nothing is.
        None if facts.end().is_some() => open(&[facts.unstated(FactId::CarrierMounting)]),
        _ => result(Outcome::NotMet, Reason::MountingsDiffer, &[]),
    }
}

/// How two mountings agree, the best first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Agreement {
    Same,
    Unknown,
    Bridged,
    Different,
}

fn agree(bridge: Bridge, own: &Mounting, asked: &Mounting) -> Agreement {
    match (own, asked) {
        (Mounting::Standard { standard: a, .. }, Mounting::Standard { standard: b, .. }) if a == b => Agreement::Same,
        (
            Mounting::Pins { pin: own_pin, width: own_width, centres: own_centres, .. },
            Mounting::Pins { pin, width, centres, .. },
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

/// The pin mounting of the head that a kit can bridge to at the end of the circuit, if there is one.
pub fn can_be_bridged<'a>(facts: &Facts<'a>) -> Option<&'a Mounting> {
    let (own, _) = facts.mountings();
    let bridge = Bridge::of(facts);
    facts.head.mounting.iter().find(|asked| own.iter().any(|a| agree(bridge, a, asked) == Agreement::Bridged))
}
