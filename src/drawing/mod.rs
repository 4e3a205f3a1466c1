//! Drawings as plain shapes: numbers and paths, without a browser. The page turns them into SVG.

mod margin;
mod mark;
mod strip;
pub mod thermometer;

pub use margin::{Margin, margin};
pub use mark::{Mark, Stroke, mark};
pub use strip::{Strip, strip};
