//! What lines and couplings are rated for: the weakest part in the path counts.

use crate::facts::{Extreme, Facts, known, limit};
use crate::judge::{missing, yes_no};
use crate::question::{Finding, Findings, Question, Reading};
use crate::sample::{Corner, End, Parameter};
use crate::{Bound, Cause, CheckId, Class, FactId, Outcome, Reason};
use hydraulics::coupling::{Rating, rated_flow, rating};
use hydraulics::hose::rated_pressure;
use quantity::{Fact, Interval, Pressure, Provenance, Quantity, Source, Tolerance};
use smallvec::smallvec;
use table::{Coupling, HeadKind, Line, Segment};

/// Every piece of the line to the head is rated for the relief at its upper tolerance, without losses; so is every piece of the
/// return, unless the circuit is known to send no pressure there. A piece of unknown kind is not known.
pub fn lines<'f>(facts: &'f Facts) -> Findings<'f> {
    let mut findings = line(facts, &facts.circuit.supply, FactId::SupplyRating);
    if facts.either_line_is_fed() {
        findings.extend(line(facts, &facts.circuit.return_path.line, FactId::ReturnRating));
    }
    findings
}

fn line<'f>(facts: &'f Facts, line: &Line, id: FactId) -> Findings<'f> {
    let question = Question { id: CheckId::LineRating, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    if line.segments.is_empty() {
        return gets_relief(question, facts, unknown(id), Cause::HoseWeak).into();
    }
    line.segments
        .iter()
        .map(|piece| gets_relief(question, facts, rating_or_missing(piece, id), Cause::HoseWeak))
        .collect()
}

/// The relief at its upper tolerance, without losses, against what a piece is rated for.
fn gets_relief<'f>(question: Question, facts: &'f Facts, rated: Parameter<Pressure>, because: Cause) -> Finding<'f> {
    question.asks(move |sample| {
        Reading::new(sample.take(&facts.valve_relief, End::High), sample.take(&rated, End::Low), because)
    })
}

fn unknown(id: FactId) -> Parameter<Pressure> {
    Parameter { physical_limits: (0.0, 1e8), ..Parameter::new(id, Fact::Missing) }
}

/// What a piece is rated for: as stated, else by its standard and bore.
fn rating_of(piece: &Segment) -> Option<Fact<Pressure>> {
    known(piece.rating.as_ref(), Tolerance::NONE).or_else(|| {
        let rated = rated_pressure(piece.standard?, piece.bore?.nominal)?;
        Some(Fact::Known(Interval::exact(rated), Provenance::exactly(Source::Published)))
    })
}

fn rating_or_missing(piece: &Segment, id: FactId) -> Parameter<Pressure> {
    rating_of(piece).map_or(unknown(id), |fact| Parameter::new(id, fact))
}

/// What the weakest piece of a line is rated for, as far as that is known.
pub fn weakest_hose(line: &Line) -> Option<Pressure> {
    let rated = line.segments.iter().filter_map(rating_of).filter_map(|fact| fact.interval());
    rated.map(|interval| interval.nominal).reduce(Pressure::min)
}

/// The couplings at boom or arm.
pub fn couplings<'f>(facts: &'f Facts) -> Findings<'f> {
    let no_figures = |outcome, reason| yes_no(CheckId::Couplings, Class::Safety, outcome, reason, &[]).into();
    let unknown = |fact| missing(CheckId::Couplings, Class::Safety, &[fact]).into();
    let Some(coupling) = facts.circuit_coupling() else { return Finding::into(unknown(FactId::Coupling)) };
    let mut findings: Findings = smallvec![coupling_holds(facts, coupling), passes(facts, coupling)];
    facts.coupling_standard(coupling);
    facts.head_coupling_standard();
    if facts.head.coupling.as_ref().is_some_and(|other| coupling.both_halves != Some(true) && differ(coupling, other)) {
        findings.push(no_figures(Outcome::NotMet, Reason::CouplingsDiffer));
    }
    let shakes = shakes(facts);
    if shakes != Some(false) {
        findings.push(match (facts.coupling_screwed(coupling), shakes) {
            (Some(true), _) => no_figures(Outcome::Met, Reason::Within),
            (_, None) => unknown(FactId::Vibrating),
            (Some(false), _) => no_figures(Outcome::NotMet, Reason::CouplingMustLock),
            (None, _) => unknown(FactId::CouplingScrewed),
        });
    }
    findings
}

/// Whether a head shakes its couplings loose: as its maker says; where that is not stated, breakers, plates, cutters and mulchers do
/// (common practice, no published source), and of the others it is not known.
fn shakes(facts: &Facts) -> Option<bool> {
    let does = matches!(
        facts.head_kind(),
        HeadKind::Breaker
            | HeadKind::PlateCompactor
            | HeadKind::RotaryCutter
            | HeadKind::Flail
            | HeadKind::DrumMulcher
            | HeadKind::HammerMulcher
    );
    facts.vibrating().or(does.then_some(true))
}

/// Whether two halves are known not to go together.
fn differ(own: &Coupling, other: &Coupling) -> bool {
    let standards = own.standard.zip(other.standard).is_some_and(|(a, b)| a != b);
    // Nominal sizes are rounded: 19 and 20 mm are one size.
    let sizes = own.size.zip(other.size).is_some_and(|(a, b)| (a.nominal - b.nominal).si().abs() > 1.1e-3);
    standards || sizes
}

fn coupling_holds<'f>(facts: &'f Facts, coupling: &Coupling) -> Finding<'f> {
    let question = Question { id: CheckId::Couplings, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    let high = facts.sample(Corner::Worst).take(&facts.valve_relief, End::High);
    let known = |rated| {
        Parameter::new(
            FactId::CouplingRating,
            Fact::Known(Interval::exact(rated), Provenance::exactly(Source::Published)),
        )
    };
    let rated = match (&coupling.rated_pressure, coupling.standard) {
        (Some(_), _) => limit(FactId::CouplingRating, coupling.rated_pressure.as_ref()),
        (None, Some(standard)) => match rating(standard, coupling.size.map(|size| size.nominal)) {
            Rating::OfSize(rated) => known(rated),
            // All couplings of the standard are rated for the least of it, none more than the greatest.
            Rating::Between { least, .. } if high <= least => known(least),
            Rating::Between { least, greatest } => Parameter {
                physical_limits: (least.si(), greatest.si()),
                ..Parameter::new(FactId::CouplingRating, Fact::Missing)
            },
        },
        (None, None) => unknown(FactId::CouplingRating),
    };
    gets_relief(question, facts, rated, Cause::CouplingWeak)
}

/// The greatest flow of any state, free running at high idle, is no more than what the coupling is rated for (common practice, no
/// published source): its loss is in the circuit already, what is left is wear. Not known, it is proved by its loss at the hand-over.
fn passes<'f>(facts: &'f Facts, coupling: &Coupling) -> Finding<'f> {
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
    question.asks(move |sample| {
        let flow = if sample.is_likely() {
            super::flow_window::greatest_flow(facts, sample, Extreme::MostFlow, facts.warm_enough)
        } else {
            facts.unhindered_flow(sample)
        };
        Reading::new(flow, sample.take(&rated, End::Low), Cause::CouplingSmall)
    })
}
