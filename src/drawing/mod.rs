//! Drawings as plain shapes: numbers and paths, without a browser. The page turns them into SVG.

mod margin;
mod mark;

pub use margin::{Margin, margin};
pub use mark::{Mark, Stroke, mark};
