//! What a judgement went by: every fact that was taken and every value that was tried, heard by a [`Trace`].
//!
//! Nothing here is listed by hand. A check, point, figure or setting is worked out once more, for whoever asks; an ordinary answer
//! knows nothing of it and is no slower.

mod recorder;
mod tried;
mod used;
mod visible;

pub use recorder::Trace;
pub use tried::{Against, Trial};
pub use used::{Aspect, Context, From, Used, Value, What, Worked};
pub use visible::{Counted, Ends, Given, Seen, Visible};
