//! Why a number is what it is: the formula, the inputs that were really used with where each comes from, and what came out.
//!
//! Nothing here is listed by hand. The check, point, figure or setting is worked out once more, for whoever asks, and comes with
//! every fact that it took and every value that was tried; an ordinary answer knows nothing of that and is no slower. The words are made
//! in `wording`.

mod check;
mod cost;
pub mod deciding_fact;
pub mod fill_next;
mod formula;
mod point;
mod reasoning;
mod setting;
#[cfg(test)]
mod tests;
mod whence;
mod why;

pub use check::reasoning;
pub use cost::{reasoning_of_change, reasoning_of_cost};
pub use formula::Formula;
pub use point::{reasoning_of_brochure, reasoning_of_mark, reasoning_of_oil, reasoning_of_point};
pub use reasoning::{Conclusion, Reasoning};
pub use setting::reasoning_of_setting;
pub use whence::{BrochureFigure, FigureId, OilFigure, PointFigure};
pub use why::why;

#[cfg(test)]
#[path = "../../fit/tests/pairing/yard.rs"]
mod yard;
