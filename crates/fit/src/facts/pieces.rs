//! What stands in a line as facts, and the resistance that a sample of it makes.

use super::stated::known;
use crate::FactId;
use crate::assume::PUBLISHED_LOSS;
use crate::sample::{End, Parameter, Sample};
use hydraulics::line::{self, OilSpan, Piece, Roughness};
use hydraulics::{Element, Filter, Resistance};
use quantity::{Fact, KinematicViscosity, Length, Pressure, Quantity, Ratio, VolumeRate};
use table::{PointLoss, ReturnRoute, Ways};

/// Something in a line whose figures are facts.
#[derive(Clone, Copy, Debug)]
pub(super) enum PieceFact {
    Pipe { bore: Parameter<Length>, length: Parameter<Length> },
    Fitting { k: Parameter<Ratio>, bore: Parameter<Length> },
    Point { loss: Parameter<Pressure>, flow: VolumeRate },
    Filter { loss: Parameter<Pressure>, point: FilterPoint, bypass: Parameter<Pressure> },
    Constant(Parameter<Pressure>),
}

/// Where a filter's loss was stated, and how much it is made for.
#[derive(Clone, Copy, Debug)]
pub(super) struct FilterPoint {
    pub flow: VolumeRate,
    pub viscosity: Option<KinematicViscosity>,
    pub rated: VolumeRate,
}

/// Whether either line of a circuit may get the pump's pressure: it may, unless it is known to be one-way, its reverse is locked, it is fed
/// by a divider, or the return goes to the tank by a line of its own.
pub fn either_line_is_fed(circuit: &table::Circuit) -> bool {
    circuit.return_path.route != Some(ReturnRoute::Direct)
        && circuit.divider.is_none()
        && circuit.ways != Some(Ways::One)
        && circuit.reverse_locked != Some(true)
}

/// The bore of the last pipe of a line.
pub(super) fn bore_of(line: &[PieceFact]) -> Option<Parameter<Length>> {
    line.iter().rev().find_map(|piece| match piece {
        PieceFact::Pipe { bore, .. } => Some(*bore),
        _ => None,
    })
}

pub(super) fn point_fact(id: FactId, point: &PointLoss) -> PieceFact {
    let loss = known(Some(&point.loss), PUBLISHED_LOSS).unwrap_or(Fact::Missing);
    PieceFact::Point { loss: Parameter::new(id, loss), flow: point.flow.nominal }
}

/// The resistance that a sample makes of facts; `worse` is whether high or low losses make the answer worse. Filters are
/// clean or on their bypass as `filter` says, else as the sample has them. With a span of oil the lines lose the most, or the least,
/// that they do anywhere in it.
pub(super) fn resistance<'a>(
    sample: &Sample,
    pieces: impl IntoIterator<Item = &'a PieceFact>,
    worse: End,
    filter: Option<Element>,
    span: Option<OilSpan>,
) -> Resistance {
    let state = filter.unwrap_or_else(|| sample.sampler().element(worse));
    let piece = |piece: &PieceFact| match piece {
        PieceFact::Pipe { bore, length } => {
            let (bore, length) = (sample.take(bore, worse.other()), sample.take(length, worse));
            let roughness = Roughness::default();
            let extreme = if worse == End::High { line::Extreme::Most } else { line::Extreme::Least };
            match span {
                Some(oil) => Piece::PipeOver { bore, length, roughness, oil, extreme },
                None => Piece::Pipe { bore, length, roughness },
            }
        }
        PieceFact::Fitting { k, bore } => {
            Piece::Fitting { k: sample.take(k, worse).si(), bore: sample.take(bore, worse.other()) }
        }
        PieceFact::Point { loss, flow } => Piece::Point { loss: sample.take(loss, worse), flow: *flow },
        // Work uses the dirty filter: on its bypass, not as new.
        PieceFact::Filter { loss, point, bypass } => {
            let (loss, bypass) = (sample.take(loss, worse), sample.take(bypass, worse));
            let filter = Filter::of_one_point(loss, point.flow, point.viscosity, bypass);
            Piece::Filter(Filter { bypass_flow: point.rated, ..filter }, state)
        }
        PieceFact::Constant(pressure) => Piece::Constant(sample.take(pressure, worse)),
    };
    Resistance::of(pieces.into_iter().map(piece))
}
