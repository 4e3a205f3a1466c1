//! Long work in stretches: many pairings one after another take seconds on a phone, and who shows them must stay able to answer.

use std::future::Future;
use std::pin::{Pin, pin};
use std::task::{Context, Poll, Waker};

/// Says when work that takes long has to rest.
pub trait Pace {
    /// What to wait for before the work goes on; nothing as long as it may just go on. It is asked hundreds of times a second.
    fn rest(&self) -> Option<Pin<Box<dyn Future<Output = ()> + '_>>>;
}

/// Goes on without a rest.
#[derive(Clone, Copy, Debug)]
pub struct Steadily;

impl Pace for Steadily {
    fn rest(&self) -> Option<Pin<Box<dyn Future<Output = ()> + '_>>> {
        None
    }
}

/// Rests when it is time.
pub async fn step(pace: &dyn Pace) {
    if let Some(rest) = pace.rest() {
        rest.await;
    }
}

/// Does work that goes [`Steadily`] at once.
///
/// # Panics
/// When the work waits for something after all, which is a fault of whoever wrote it.
pub fn at_once<T>(work: impl Future<Output = T>) -> T {
    match pin!(work).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(done) => done,
        Poll::Pending => unreachable!("work that goes steadily waits for nothing"),
    }
}
