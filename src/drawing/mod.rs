//! Drawings as plain shapes: numbers and paths, without a browser. The page turns them into SVG.

pub mod circuit;
mod margin;
mod mark;
pub mod qr;
mod scale;
mod shape;
mod strip;
mod text;
pub mod thermometer;

pub use circuit::{Form, circuit};
pub use margin::{Margin, margin};
pub use mark::{Mark, mark};
pub use qr::{Qr, qr};
pub use scale::Scale;
pub use shape::{Anchor, Area, Face, Path, Picture, Point, Stroke, TEXT, Text};
pub use strip::{Strip, strip};
pub use text::{cut, width, wrap};
