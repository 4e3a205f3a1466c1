//! What lines and couplings are rated for: the weakest part in the path counts.

use crate::draw::{Corner, Parameter, Side};
use crate::facts::{Extreme, Facts, either_line_is_fed, known, limit};
use crate::judge::{Question, Reading, missing, worst_of, yes_no};
use crate::trace::Context;
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::coupling::{Rating, rated_flow, rating};
use hydraulics::hose::rated_pressure;
use quantity::{Fact, Interval, Kind, Pressure, Provenance, Source, Tolerance};
use table::{Coupling, HeadKind, Line, Segment};

/// Every piece of the line to the head is rated for the relief at its upper tolerance, without losses; so is every piece of the
/// return, unless the circuit is known to send no pressure there. A piece of unknown kind is not known.
pub fn lines(facts: &Facts) -> Check {
    let mut judged = line(facts, &facts.circuit.supply, FactId::SupplyRating);
    facts.see_context(Context::ReverseLocked, facts.circuit.reverse_locked);
    facts.see(FactId::CircuitWays, facts.circuit.ways);
    facts.returns_direct();
    if either_line_is_fed(facts.circuit) {
        judged.extend(line(facts, &facts.circuit.return_path.line, FactId::ReturnRating));
    }
    worst_of(judged)
}

fn line(facts: &Facts, line: &Line, id: FactId) -> Vec<Check> {
    let question = Question { id: CheckId::LineRating, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    let judge = |bears: Parameter<Pressure>| {
        question.judge(facts.depth, |draw| Reading {
            value: draw.take(&facts.valve_relief, Side::High),
            limit: draw.take(&bears, Side::Low),
            because: Cause::HoseWeak,
        })
    };
    if line.segments.is_empty() {
        return vec![judge(unknown(id))];
    }
    line.segments.iter().map(|piece| judge(bears(piece, id))).collect()
}

fn unknown(id: FactId) -> Parameter<Pressure> {
    Parameter { physical_limits: (0.0, 1e8), ..Parameter::new(id, Fact::Missing) }
}

/// What a piece bears: as stated, else by its standard and bore.
fn rating_of(piece: &Segment) -> Option<Fact<Pressure>> {
    known(piece.rating.as_ref(), Tolerance::NONE).or_else(|| {
        let bears = rated_pressure(piece.standard?, piece.bore?.nominal)?;
        Some(Fact::Known(Interval::exact(bears), Provenance::exactly(Source::Published)))
    })
}

fn bears(piece: &Segment, id: FactId) -> Parameter<Pressure> {
    rating_of(piece).map_or(unknown(id), |fact| Parameter::new(id, fact))
}

/// What the weakest piece of a line bears, as far as that is known.
pub fn weakest_hose(line: &Line) -> Option<Pressure> {
    let bears = line.segments.iter().filter_map(rating_of).filter_map(|fact| fact.interval());
    bears.map(|interval| interval.nominal).reduce(Pressure::min)
}

/// The couplings at boom or arm.
pub fn couplings(facts: &Facts) -> Check {
    let no_figures = |outcome, reason| yes_no(CheckId::Couplings, Class::Safety, outcome, reason, &[]);
    let Some(coupling) = &facts.circuit.coupling else {
        return missing(CheckId::Couplings, Class::Safety, &[facts.lacks(FactId::Coupling)]);
    };
    let mut judged = vec![couple_bears(facts, coupling), passes(facts, coupling)];
    facts.see_context(Context::CouplingStandard, coupling.standard);
    facts.see_context(Context::HeadCouplingStandard, facts.head.coupling.as_ref().and_then(|other| other.standard));
    if facts.head.coupling.as_ref().is_some_and(|other| coupling.both_halves != Some(true) && differ(coupling, other)) {
        judged.push(no_figures(Outcome::NotMet, Reason::CouplingsDiffer));
    }
    let shakes = shakes(facts);
    if shakes != Some(false) {
        let unknown = |fact| missing(CheckId::Couplings, Class::Safety, &[fact]);
        judged.push(match (facts.see(FactId::CouplingScrewed, coupling.screwed), shakes) {
            (Some(true), _) => no_figures(Outcome::Met, Reason::Within),
            (_, None) => unknown(FactId::Vibrating),
            (Some(false), _) => no_figures(Outcome::NotMet, Reason::CouplingMustLock),
            (None, _) => unknown(FactId::CouplingScrewed),
        });
    }
    worst_of(judged)
}

/// Whether a head shakes its couplings loose: as its maker says; where that is not stated, breakers, plates, cutters and mulchers do
/// (common practice, no published source), and of the others it is not known.
fn shakes(facts: &Facts) -> Option<bool> {
    let does = matches!(
        facts.see_context(Context::HeadKind, facts.head.kind),
        HeadKind::Breaker
            | HeadKind::PlateCompactor
            | HeadKind::RotaryCutter
            | HeadKind::Flail
            | HeadKind::DrumMulcher
            | HeadKind::HammerMulcher
    );
    facts.see(FactId::Vibrating, facts.head.vibrating).or(does.then_some(true))
}

/// Whether two halves are known not to go together.
fn differ(own: &Coupling, other: &Coupling) -> bool {
    let standards = own.standard.zip(other.standard).is_some_and(|(a, b)| a != b);
    // Nominal sizes are rounded: 19 and 20 mm are one size.
    let sizes = own.size.zip(other.size).is_some_and(|(a, b)| (a.nominal - b.nominal).si().abs() > 1.1e-3);
    standards || sizes
}

fn couple_bears(facts: &Facts, coupling: &Coupling) -> Check {
    let question = Question { id: CheckId::Couplings, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    let high = facts.draw(Corner::Worst).take(&facts.valve_relief, Side::High);
    let known = |bears| {
        Parameter::new(
            FactId::CouplingRating,
            Fact::Known(Interval::exact(bears), Provenance::exactly(Source::Published)),
        )
    };
    let bears = match (&coupling.rated_pressure, coupling.standard) {
        (Some(_), _) => limit(FactId::CouplingRating, coupling.rated_pressure.as_ref()),
        (None, Some(standard)) => match rating(standard, coupling.size.map(|size| size.nominal)) {
            Rating::OfSize(bears) => known(bears),
            // All couplings of the standard bear the least of it, none more than the greatest.
            Rating::Between { least, .. } if high <= least => known(least),
            Rating::Between { least, greatest } => Parameter {
                physical_limits: (least.si(), greatest.si()),
                ..Parameter::new(FactId::CouplingRating, Fact::Missing)
            },
        },
        (None, None) => unknown(FactId::CouplingRating),
    };
    question.judge(facts.depth, |draw| Reading {
        value: draw.take(&facts.valve_relief, Side::High),
        limit: draw.take(&bears, Side::Low),
        because: Cause::CouplingWeak,
    })
}

/// The greatest flow of any state, free running at high idle, is no more than what the coupling is rated for (common practice, no
/// published source): its loss is in the circuit already, what is left is wear. Not known, it is proved by its loss at the hand-over.
fn passes(facts: &Facts, coupling: &Coupling) -> Check {
    let question = Question { id: CheckId::Couplings, class: Class::Damage, blocks: false, bound: Bound::AtMost };
    let by_standard = coupling.standard.zip(coupling.size).and_then(|(s, size)| rated_flow(s, size.nominal));
    let rated = match (&coupling.rated_flow, by_standard) {
        (Some(_), _) => limit(FactId::CouplingFlow, coupling.rated_flow.as_ref()),
        (None, Some(flow)) => Parameter::new(
            FactId::CouplingFlow,
            Fact::Known(Interval::exact(flow), Provenance::exactly(Source::Published)),
        ),
        (None, None) => {
            Parameter { physical_limits: (0.0, 1.0), ..Parameter::new(FactId::CouplingFlow, Fact::Missing) }
        }
    };
    question.judge(facts.depth, |draw| Reading {
        value: if draw.corner == Corner::Likely {
            super::flow_window::greatest_flow(facts, draw, Extreme::MostFlow, super::warm_enough(facts))
        } else {
            facts.unhindered_flow(draw)
        },
        limit: draw.take(&rated, Side::Low),
        because: Cause::CouplingSmall,
    })
}
