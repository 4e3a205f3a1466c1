//! Long work in stretches: a search may try hundreds of sets of changes, and who shows its result must stay able to answer.

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
pub(super) fn at_once<T>(work: impl Future<Output = T>) -> T {
    match pin!(work).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(done) => done,
        Poll::Pending => unreachable!("work that goes steadily waits for nothing"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pairing::{Conditions, Judge, pair, pair_in_stretches};
    use std::cell::Cell;

    /// Rests at each step, and counts them.
    struct EachStep {
        rests: Cell<usize>,
    }

    impl Pace for EachStep {
        fn rest(&self) -> Option<Pin<Box<dyn Future<Output = ()> + '_>>> {
            self.rests.set(self.rests.get() + 1);
            let mut asked = false;
            Some(Box::pin(std::future::poll_fn(move |_| {
                if std::mem::replace(&mut asked, true) { Poll::Ready(()) } else { Poll::Pending }
            })))
        }
    }

    /// Polls until it is done, as an executor would; how often it had to.
    fn patiently<T>(work: impl Future<Output = T>) -> (T, usize) {
        let (mut work, mut polls) = (pin!(work), 0);
        loop {
            polls += 1;
            if let Poll::Ready(done) = work.as_mut().poll(&mut Context::from_waker(Waker::noop())) {
                return (done, polls);
            }
        }
    }

    #[test]
    fn in_stretches_it_comes_out_the_same_and_the_longest_search_rests_often() {
        let table = crate::table::read(include_str!("../../public/table/demo.json")).table.expect("a table");
        let conditions = Conditions::of_table(&table);
        let judge = Judge::new(&conditions);
        for (carrier, head) in [
            ("orrin-e78", "saltmarsh-m95"),
            ("quern-q27", "thistlecut-r60"),
            ("quern-q27", "wrackline-f95"),
            ("quern-q27", "wrackline-b120"),
        ] {
            let (carrier, head) = table.carrier(carrier).zip(table.head(head)).expect("both stand in the table");
            let pace = EachStep { rests: Cell::new(0) };
            let (pairing, polls) = patiently(pair_in_stretches(carrier, head, &conditions, &pace));
            assert_eq!(pairing, pair(carrier, head, &conditions));
            assert_eq!(polls, pace.rests.get() + 1, "it goes on after each rest");
            assert!(polls > pairing.changes.len(), "{polls}");
            let (verdict, _) = patiently(judge.verdict_in_stretches(carrier, head, &pace));
            assert_eq!(verdict, pairing.verdict);
            if pairing.head.id.as_str() == "saltmarsh-m95" {
                assert!(polls > 100, "{polls}");
            }
        }
    }
}
