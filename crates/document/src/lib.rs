//! Documents: what a screen says, as a tree of a few kinds of blocks with every word, figure and unit in it.
//!
//! A document is plain data. The page draws any of them with one renderer, the command line writes one as text, and a test reads it
//! natively, in milliseconds. What is in a document is decided here and worded in `wording`; how it looks is left to the page's style.

mod compare;
pub mod handover;
mod oil;
mod paper;
mod reasoning;
pub mod sheet;
mod text;
mod tree;

pub use compare::{Column, compared};
pub use oil::{at_oil, brochure, over_a_day};
pub use paper::{Given, Letter, Papers, RunningHead, quotation_of};
pub use reasoning::reasoning;
pub use text::text;
pub use tree::{Block, Cell, Fact, Fold, Form, Line, Look, Row, Slot, Span, Step, Title, figures, titles};
