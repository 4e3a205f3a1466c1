//! Drawings as plain shapes: numbers and paths, without a browser. The page turns them into SVG.

pub mod circuit;
mod curve;
mod gauge;
mod lift;
mod margin;
mod mark;
mod place;
mod plot;
pub mod qr;
mod scale;
mod shape;
mod sign;
mod strip;
#[cfg(test)]
mod tests;
mod text;
pub mod thermometer;
mod warmth;
#[cfg(test)]
#[path = "../../fit/tests/pairing/yard.rs"]
mod yard;

pub use circuit::{Form, circuit};
pub use curve::{curve, unreachable};
pub use gauge::{Dial, gauge};
pub use lift::lift;
pub use margin::{Margin, margin, margin_line, margin_picture};
pub use mark::{Mark, mark};
pub use place::Place;
pub use qr::{Qr, qr};
pub use scale::Scale;
pub use shape::{Anchor, Area, Path, Picture, Point, Stroke, Text};
pub use sign::{Sign, sign};
pub use strip::{Strip, strip};
pub use text::{Face, TEXT, cut, width, wrap};
pub use warmth::warmth;
