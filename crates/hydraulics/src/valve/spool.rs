//! The main valve's spool: there and back through one valve.

use crate::line::Piece;
use quantity::{Kind, Pressure, VolumeRate};

/// A spool with a loss on the way out and one, often larger, on the way back: its return notches are made to hold a
/// falling boom, not to let a motor's oil pass. That is what a direct return to the tank avoids.
///
/// Each is known by one point and goes with the flow squared. Of a return that nobody states 10 bar (5 to 25) at the rated
/// flow are common practice, no published source.
///
/// ```
/// use hydraulics::valve::Spool;
/// use quantity::{Kind, Pressure, Unit, VolumeRate};
/// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
/// let litres = |q| VolumeRate::from_si(Unit::LitrePerMinute.to_si(q));
/// let spool = Spool { out: bar(6.0), back: bar(10.0), flow: litres(100.0) };
/// assert!((Unit::Bar.of_si(spool.return_loss(litres(130.0)).si()) - 16.9).abs() < 1e-9);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spool {
    /// Loss from the pump's port to the work port at `flow`.
    pub out: Pressure,
    /// Loss from the work port to the tank's port at `flow`.
    pub back: Pressure,
    /// The flow at which both were stated; above zero.
    pub flow: VolumeRate,
}

impl Spool {
    /// What it costs on the way to the head, as a piece of the supply.
    pub fn supply(&self) -> Piece {
        Piece::Point { loss: self.out, flow: self.flow }
    }

    /// What it costs on the way back, as a piece of the return.
    pub fn back(&self) -> Piece {
        Piece::Point { loss: self.back, flow: self.flow }
    }

    /// Loss on the way back at a flow ≥ 0.
    pub fn return_loss(&self, flow: VolumeRate) -> Pressure {
        self.back * (flow / self.flow).value.powi(2)
    }

    /// The way back of a differential cylinder gives more oil than goes in: its flow times the ratio of its areas.
    pub fn largest_return(into: VolumeRate, area_ratio: f64) -> VolumeRate {
        into * area_ratio.max(1.0)
    }
}

impl Default for Spool {
    /// A spool that loses nothing.
    fn default() -> Self {
        Self { out: Pressure::from_si(0.0), back: Pressure::from_si(0.0), flow: VolumeRate::from_si(1.0) }
    }
}
