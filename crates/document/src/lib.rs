//! Documents: what a screen says, as a tree of a few kinds of blocks with every word, figure and unit in it.
//!
//! A document is plain data. The page draws any of them with one renderer, the command line writes one as text, and a test reads it
//! natively, in milliseconds. What is in a document is decided here and worded in `wording`; how it looks is left to the page's style.

pub mod handover;
mod paper;
mod reasoning;
pub mod sheet;
mod text;
mod tree;

pub use paper::paper;
pub use reasoning::reasoning;
pub use text::text;
pub use tree::{Block, Fact, Fold, Line, Look, Span, Title, figures};
