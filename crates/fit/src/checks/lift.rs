//! What the machine lifts: a loader by its rated operating capacity (ISO 14397-1), a digging arm by its chart (ISO 10567); both secondary
//! and from memory.
//!
//! Both ratings hold the shares of tipping load and lift that the standards take (50 % on wheels and 35 % on crawlers;
//! 75 % and 87 %): none is taken twice. Those shares are from secondary sources, for the loaders from memory.

use crate::assume::{GROUND_LEVEL_METRES, PUBLISHED_MASS, REACH_ROUNDED};
use crate::facts::{Facts, known, limit};
use crate::judge::missing;
use crate::lift::{ChartPoint, Loader};
use crate::question::{Finding, Findings, Question, Reading};
use crate::sample::{End, Parameter, Sample};
use crate::{Bound, Cause, CheckId, Class, FactId};
use quantity::{Fact, Length, Mass, Quantity, Ratio, Tolerance};
use table::{CarrierClass, HeadKind, LiftPoint, Lifting, MachineEnd};

/// Share of the tipping load that a loader may carry where nobody prints another: 50 % on wheels, 35 % on crawlers
/// (ISO 14397-1, secondary and from memory).
fn usual_share(class: CarrierClass) -> f64 {
    if class == CarrierClass::CompactTrackLoader { 0.35 } else { 0.50 }
}

/// Head, what it holds, coupler and bucket of the chart against the rating at every point that the table names: it works at all of
/// them. Of a machine with two ends only the rating of the end that the circuit feeds counts.
pub fn check<'f>(facts: &'f Facts) -> Findings<'f> {
    let Some(end) = facts.end() else { return lacking(FactId::CircuitEnd).into() };
    let Some(lifting) = facts.lifting() else { return lacking(FactId::Lifting).into() };
    match end {
        MachineEnd::Arm => on_arm(facts, lifting),
        MachineEnd::Loader => on_loader(facts, lifting),
    }
}

const QUESTION: Question = Question { id: CheckId::Lift, class: Class::Safety, blocks: true, bound: Bound::AtMost };

fn lacking<'f>(fact: FactId) -> Finding<'f> {
    missing(CheckId::Lift, Class::Safety, &[fact]).into()
}

/// A digging arm swings: it must lift over the side, where it lifts less, at ground level and as far out as it reaches. Points nearer,
/// higher or over the front say nothing of that one; but a head that is too heavy at any of them is too heavy.
fn on_arm<'f>(facts: &'f Facts, lifting: &'f Lifting) -> Findings<'f> {
    if lifting.chart.is_empty() {
        return lacking(facts.unstated(FactId::Lifting)).into();
    }
    let payload = payload(facts);
    let lifts = QUESTION.asks(move |sample| {
        Reading::new(hangs(facts, sample, payload.as_ref()), by_chart(facts, sample, lifting), Cause::HeavyHead)
    });
    let open = match facts.greatest_reach(lifting) {
        None => Some(lacking(FactId::GreatestReach)),
        Some(_) if farthest(lifting).is_none() => Some(lacking(facts.unstated(FactId::LiftChart))),
        Some(_) => None,
    };
    std::iter::once(lifts).chain(open).collect()
}

fn on_loader<'f>(facts: &'f Facts, lifting: &'f Lifting) -> Findings<'f> {
    if lifting.rated_operating_capacity.is_none() && lifting.tipping_load.is_none() {
        return lacking(facts.unstated(FactId::Lifting)).into();
    }
    let payload = payload(facts);
    let lifts = QUESTION.asks(move |sample| {
        Reading::new(hangs(facts, sample, payload.as_ref()), by_moments(facts, sample, lifting), Cause::HeavyHead)
    });
    lifts.into()
}

/// The point of the chart that says what the arm lifts over the side, at ground level and at its greatest reach; of several the least
/// load. None where the chart or the greatest reach is not stated so far.
pub fn farthest(lifting: &Lifting) -> Option<&LiftPoint> {
    let reach = lifting.greatest_reach.as_ref()?.nominal.si();
    let at_ground = |point: &&LiftPoint| point.height.nominal.si().abs() <= GROUND_LEVEL_METRES;
    let so_far = |point: &&LiftPoint| point.reach.nominal.si() >= reach * (1.0 - REACH_ROUNDED);
    let points = lifting.chart.iter().filter(|point| point.over_side).filter(at_ground).filter(so_far);
    points.min_by(|a, b| a.mass.nominal.si().total_cmp(&b.mass.nominal.si()))
}

/// What the head holds besides: a screening bucket and an auger, which lifts its spoil, must say.
pub fn payload(facts: &Facts) -> Option<Parameter<Mass>> {
    let stated = facts.head.work.payload.as_ref();
    let must_say = matches!(facts.head.kind, HeadKind::ScreeningBucket | HeadKind::Auger);
    (stated.is_some() || must_say).then(|| mass(FactId::Payload, stated))
}

/// A mass that nobody states may be any.
pub fn mass(id: FactId, stated: Option<&quantity::Stated<Mass>>) -> Parameter<Mass> {
    Parameter {
        physical_limits: (0.0, 2e4),
        ..Parameter::new(id, known(stated, PUBLISHED_MASS).unwrap_or(Fact::Missing))
    }
}

/// What hangs at the machine: head, what it holds, coupler.
pub fn hangs(facts: &Facts, sample: &Sample, payload: Option<&Parameter<Mass>>) -> Mass {
    let head = sample.take(&mass(FactId::HeadMass, facts.head.mass.as_ref()), End::High);
    head + payload.map_or(Mass::from_si(0.0), |payload| sample.take(payload, End::High)) + coupler(facts, sample)
}

/// The coupler's mass. Where it is not stated whether there is one, its mass is not known.
fn coupler(facts: &Facts, sample: &Sample) -> Mass {
    match facts.coupler() {
        Ok(coupler) if !coupler.fitted => Mass::from_si(0.0),
        Ok(coupler) => sample.take(&mass(FactId::ToolCoupler, coupler.mass.as_ref()), End::High),
        Err(fact) => sample.take(&mass(fact, None), End::High),
    }
}

fn length(id: FactId, stated: Option<&quantity::Stated<Length>>, physical_limits: (f64, f64)) -> Parameter<Length> {
    let fact = known(stated, Tolerance::both(0.03)).unwrap_or(Fact::Missing);
    Parameter { physical_limits, ..Parameter::new(id, fact) }
}

/// How far out its mass hangs.
pub fn hangs_out(facts: &Facts, sample: &Sample) -> Length {
    sample.take(&length(FactId::CentreOfGravity, facts.head.centre_of_gravity.as_ref(), (0.0, 4.0)), End::High)
}

/// What may hang at a point of the chart that hangs so far out.
pub fn at_point(sample: &Sample, lifting: &Lifting, point: &LiftPoint, out: Length) -> Mass {
    let nothing = Mass::from_si(0.0);
    let radius = point.reach.nominal;
    let within = (0.0, 0.8 * radius.si());
    let edge = sample.take(&length(FactId::LiftGeometry, lifting.tipping_edge.as_ref(), within), End::High);
    let foot = sample.take(&length(FactId::LiftGeometry, lifting.boom_foot.as_ref(), within), End::High);
    let rated = sample.take(&limit(FactId::Lifting, Some(&point.mass)), End::Low);
    let carries = ChartPoint { radius, rated, tipping_edge: edge, boom_foot: foot }.carries(out, nothing);
    carries + lifting.bucket.map_or(nothing, |bucket| bucket.nominal)
}

fn by_chart(facts: &Facts, sample: &Sample, lifting: &Lifting) -> Mass {
    let out = hangs_out(facts, sample);
    let nothing = lifting.bucket.map_or(Mass::from_si(0.0), |bucket| bucket.nominal);
    lifting.chart.iter().map(|point| at_point(sample, lifting, point, out)).reduce(Mass::min).unwrap_or(nothing)
}

fn by_moments(facts: &Facts, sample: &Sample, lifting: &Lifting) -> Mass {
    at_distance(facts, sample, lifting, hangs_out(facts, sample))
}

/// What a loader may carry that hangs so far before the coupler's face.
pub fn at_distance(facts: &Facts, sample: &Sample, lifting: &Lifting, out: Length) -> Mass {
    let rated = match (&lifting.rated_operating_capacity, &lifting.tipping_load) {
        (Some(rated), _) => sample.take(&limit(FactId::Lifting, Some(rated)), End::Low),
        (None, tipping) => {
            let share = lifting.share.map_or(Ratio::from_si(usual_share(facts.carrier.class)), |share| share.nominal);
            sample.take(&limit(FactId::Lifting, tipping.as_ref()), End::Low) * share
        }
    };
    let bucket = sample.take(&length(FactId::LiftGeometry, lifting.load_centre.as_ref(), (0.0, 2.0)), End::Low);
    // No farther out than the bucket: the rating holds whatever the distance from the axis.
    if out <= bucket {
        return rated;
    }
    let arm = sample.take(&length(FactId::LiftGeometry, lifting.tipping_axis.as_ref(), (0.0, 5.0)), End::Low);
    let whole = Ratio::from_si(1.0);
    Loader { tipping_load: rated, share: whole, coupler: arm, bucket }.carries(out)
}
