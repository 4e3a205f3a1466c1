//! The page of Pairwright: which powered hydraulic attachments really fit a machine, what must change, and the proof.
//!
//! It shows what the crates under `crates/` work out, and knows no trade. Data goes one way through these, and none depends on a later one:
//! `quantity → table → hydraulics → fit → workshop → explain → handover → record → wording → drawing → document → solver`. `fit::pair` is the heart: a pure function from a
//! machine, an attachment and conditions to plain data.

#[cfg(target_arch = "wasm32")]
pub mod embed;
#[cfg(target_arch = "wasm32")]
pub mod page;
