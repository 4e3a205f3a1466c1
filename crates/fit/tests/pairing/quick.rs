//! That pairings stay quick: as a ratio to work that nobody here changes, done in turn in the same run, whatever machine it is.

use fit::{Conditions, pair};
use std::hint::black_box;
use std::time::{Duration, Instant};
use table::read;

/// The demo table's text.
const DEMO: &str = include_str!("../../../../public/table/demo.json");

/// How many times as long as reading the demo table's text as plain JSON all its pairings may take, machine by machine in turn: some
/// three times what they take where this was measured, so that only what makes them plainly slower fails.
const MOST: f64 = 80.0;

fn timed<T>(work: impl FnOnce() -> T) -> Duration {
    let began = Instant::now();
    black_box(work());
    began.elapsed()
}

#[test]
fn invariant_all_pairings_of_the_demo_take_no_longer_than_so_much_reading() {
    let table = read(DEMO).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    let (mut pairing, mut reading) = (Duration::ZERO, Duration::ZERO);
    for carrier in &table.carriers {
        // In turn, so that whatever else the machine does slows both.
        pairing += timed(|| table.heads.iter().map(|head| pair(carrier, head, &conditions)).collect::<Vec<_>>());
        reading += timed(|| serde_json::from_str::<serde_json::Value>(DEMO).expect("it is JSON"));
    }
    let ratio = pairing.as_secs_f64() / reading.as_secs_f64();
    println!("{ratio:.1} times: {pairing:.1?} to {reading:.1?}");
    assert!(ratio <= MOST, "{ratio:.1} times as long: {pairing:.1?} to {reading:.1?}");
}
