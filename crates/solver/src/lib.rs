//! What takes time, asked by typed requests and answered by typed answers, a piece at a time.
//!
//! A page gives its [`Message`]s to a [`Solver`] as text and is handed [`Reply`]s as text, so that it makes no difference whether the solver
//! runs beside it in a worker, in its own thread, or natively in a test. [`Solver::step`] does one piece of the work, about one pairing;
//! whoever calls it looks after new messages in between, so that a newer request stops an older one. Answers come in words and
//! units already. Both ends are always of one build: whoever starts a worker hands it the very module that it runs itself.

mod answer;
mod asked;
mod fill_next;
mod fits;
mod listing;
mod memory;
mod plate;
mod request;
mod row;
mod runs;
mod script;
mod solve;
mod task;

pub use answer::{Answer, Reply, Row, Typical};
pub use asked::{Asked, length, unit};
pub use listing::Listing;
pub use request::{Machine, Message, Reader, Request};
pub use solve::Solver;
