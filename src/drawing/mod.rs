//! Drawings as plain shapes: numbers and paths, without a browser. The page turns them into SVG.

mod margin;
mod mark;
pub mod qr;
mod strip;
pub mod thermometer;

pub use margin::{Margin, margin};
pub use mark::{Mark, Stroke, mark};
pub use qr::{Qr, qr};
pub use strip::{Strip, strip};
