//! What the machine lifts: a loader by its rated operating capacity (ISO 14397-1), a digging arm by its chart (ISO 10567); both secondary
//! and from memory.
//!
//! Both ratings hold the shares of tipping load and lift that the standards take (50 % on wheels and 35 % on crawlers;
//! 75 % and 87 %): none is taken twice. Those shares are from secondary sources, for the loaders from memory.

use crate::assume::{GROUND_LEVEL_METRES, PUBLISHED_MASS, REACH_ROUNDED};
use crate::draw::{Draw, Parameter, Side};
use crate::facts::{Facts, known, limit};
use crate::judge::{Question, Reading, missing, worst_of};
use crate::lift::{ChartPoint, Loader};
use crate::trace::Context;
use crate::{Bound, Cause, Check, CheckId, Class, FactId};
use quantity::{Fact, Kind, Length, Mass, Ratio, Tolerance};
use table::{CarrierClass, HeadKind, LiftPoint, Lifting, MachineEnd};

/// Share of the tipping load that a loader may carry where nobody prints another: 50 % on wheels, 35 % on crawlers
/// (ISO 14397-1, secondary and from memory).
fn usual_share(class: CarrierClass) -> f64 {
    if class == CarrierClass::CompactTrackLoader { 0.35 } else { 0.50 }
}

/// Head, what it holds, coupler and bucket of the chart against the rating at every point that the table names: it works at all of
/// them. Of a machine with two ends only the rating of the end that the circuit feeds counts.
pub fn check(facts: &Facts) -> Check {
    let lacking = |fact| missing(CheckId::Lift, Class::Safety, &[fact]);
    let Some(end) = facts.end() else { return lacking(FactId::CircuitEnd) };
    let Some(lifting) = &facts.carrier.lifting else { return lacking(facts.lacks(FactId::Lifting)) };
    match end {
        MachineEnd::Arm => on_arm(facts, lifting),
        MachineEnd::Loader => on_loader(facts, lifting),
    }
}

const QUESTION: Question = Question { id: CheckId::Lift, class: Class::Safety, blocks: true, bound: Bound::AtMost };

/// A digging arm swings: it must lift over the side, where it lifts less, at ground level and as far out as it reaches. Points nearer,
/// higher or over the front say nothing of that one; but a head that is too heavy at any of them is too heavy.
fn on_arm(facts: &Facts, lifting: &Lifting) -> Check {
    let lacking = |fact| missing(CheckId::Lift, Class::Safety, &[facts.lacks(fact)]);
    if lifting.chart.is_empty() {
        return lacking(FactId::Lifting);
    }
    let payload = payload(facts);
    let judged = QUESTION.judge(facts.depth, |draw| Reading {
        value: hangs(facts, draw, payload.as_ref()),
        limit: by_chart(facts, draw, lifting),
        because: Cause::HeavyHead,
    });
    let open = match facts.see(FactId::GreatestReach, lifting.greatest_reach) {
        None => Some(lacking(FactId::GreatestReach)),
        Some(_) if farthest(lifting).is_none() => Some(lacking(FactId::LiftChart)),
        Some(_) => None,
    };
    worst_of(std::iter::once(judged).chain(open).collect())
}

fn on_loader(facts: &Facts, lifting: &Lifting) -> Check {
    if lifting.rated_operating_capacity.is_none() && lifting.tipping_load.is_none() {
        return missing(CheckId::Lift, Class::Safety, &[facts.lacks(FactId::Lifting)]);
    }
    let payload = payload(facts);
    QUESTION.judge(facts.depth, |draw| Reading {
        value: hangs(facts, draw, payload.as_ref()),
        limit: by_moments(facts, draw, lifting),
        because: Cause::HeavyHead,
    })
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
pub fn hangs(facts: &Facts, draw: &Draw, payload: Option<&Parameter<Mass>>) -> Mass {
    let head = draw.take(&mass(FactId::HeadMass, facts.head.mass.as_ref()), Side::High);
    head + payload.map_or(Mass::from_si(0.0), |payload| draw.take(payload, Side::High)) + coupler(facts, draw)
}

/// The coupler's mass. Nobody can say that there is none where nobody says whether there is one.
fn coupler(facts: &Facts, draw: &Draw) -> Mass {
    match facts.coupler() {
        Ok(coupler) if !facts.see_context(Context::CouplerFitted, coupler.fitted) => Mass::from_si(0.0),
        Ok(coupler) => draw.take(&mass(FactId::ToolCoupler, coupler.mass.as_ref()), Side::High),
        Err(fact) => draw.take(&mass(fact, None), Side::High),
    }
}

fn length(id: FactId, stated: Option<&quantity::Stated<Length>>, physical_limits: (f64, f64)) -> Parameter<Length> {
    let fact = known(stated, Tolerance::both(0.03)).unwrap_or(Fact::Missing);
    Parameter { physical_limits, ..Parameter::new(id, fact) }
}

/// How far out its mass hangs.
pub fn hangs_out(facts: &Facts, draw: &Draw) -> Length {
    draw.take(&length(FactId::CentreOfGravity, facts.head.centre_of_gravity.as_ref(), (0.0, 4.0)), Side::High)
}

/// What may hang at a point of the chart that hangs so far out.
pub fn at_point(draw: &Draw, lifting: &Lifting, point: &LiftPoint, out: Length) -> Mass {
    let nothing = Mass::from_si(0.0);
    let radius = point.reach.nominal;
    let within = (0.0, 0.8 * radius.si());
    let edge = draw.take(&length(FactId::LiftGeometry, lifting.tipping_edge.as_ref(), within), Side::High);
    let foot = draw.take(&length(FactId::LiftGeometry, lifting.boom_foot.as_ref(), within), Side::High);
    let rated = draw.take(&limit(FactId::Lifting, Some(&point.mass)), Side::Low);
    let carries = ChartPoint { radius, rated, tipping_edge: edge, boom_foot: foot }.carries(out, nothing);
    carries + lifting.bucket.map_or(nothing, |bucket| bucket.nominal)
}

fn by_chart(facts: &Facts, draw: &Draw, lifting: &Lifting) -> Mass {
    let out = hangs_out(facts, draw);
    let nothing = lifting.bucket.map_or(Mass::from_si(0.0), |bucket| bucket.nominal);
    lifting.chart.iter().map(|point| at_point(draw, lifting, point, out)).reduce(Mass::min).unwrap_or(nothing)
}

fn by_moments(facts: &Facts, draw: &Draw, lifting: &Lifting) -> Mass {
    at_distance(facts, draw, lifting, hangs_out(facts, draw))
}

/// What a loader may carry that hangs so far before the coupler's face.
pub fn at_distance(facts: &Facts, draw: &Draw, lifting: &Lifting, out: Length) -> Mass {
    let rated = match (&lifting.rated_operating_capacity, &lifting.tipping_load) {
        (Some(rated), _) => draw.take(&limit(FactId::Lifting, Some(rated)), Side::Low),
        (None, tipping) => {
            let share = lifting.share.map_or(Ratio::from_si(usual_share(facts.carrier.class)), |share| share.nominal);
            draw.take(&limit(FactId::Lifting, tipping.as_ref()), Side::Low) * share
        }
    };
    let bucket = draw.take(&length(FactId::LiftGeometry, lifting.load_centre.as_ref(), (0.0, 2.0)), Side::Low);
    // No farther out than the bucket: the rating holds whatever the distance from the axis.
    if out <= bucket {
        return rated;
    }
    let arm = draw.take(&length(FactId::LiftGeometry, lifting.tipping_axis.as_ref(), (0.0, 5.0)), Side::Low);
    let whole = Ratio::from_si(1.0);
    Loader { tipping_load: rated, share: whole, coupler: arm, bucket }.carries(out)
}
