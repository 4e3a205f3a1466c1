//! How long the core takes, from one g to a whole stock: `make bench`.

// Criterion's macros make public functions without documentation.
#![allow(missing_docs)]

use criterion::measurement::WallTime;
use criterion::{BatchSize, BenchmarkGroup, Criterion, criterion_group, criterion_main};
use fit::{Conditions, Judge, Verdict, pair};
use hydraulics::balance::Compiled;
use hydraulics::line::{Piece, Roughness};
use hydraulics::{Circuit, Element, Filter, OilCurve, Relief, Resistance, Source};
use quantity::shop::{bar, litres};
use quantity::{Length, Power, Quantity, ThermodynamicTemperature};
use std::hint::black_box;
use std::time::{Duration, Instant};
use table::{OilGrade, Table, read};

#[path = "../tests/pairing/stock/generator.rs"]
mod generator;

/// Four lines, two couplings, a spool and a filter: the same figures as in `benches/plain.py`.
fn circuit() -> Circuit {
    let pipe = |bore: f64, length: f64| Piece::Pipe {
        bore: Length::from_si(bore / 1000.0),
        length: Length::from_si(length),
        roughness: Roughness::default(),
    };
    let coupling = |bore: f64| Piece::Fitting { k: 12.0, bore: Length::from_si(bore / 1000.0) };
    let filter = Filter::of_one_point(bar(0.4), litres(250.0), None, bar(1.7));
    Circuit {
        source: Source {
            greatest: litres(150.0),
            set: Some(litres(110.0)),
            leak: litres(7.0),
            leak_at: bar(230.0),
            power: Some(Power::from_si(30e3)),
            cut_off: None,
            surplus_is_pumped: false,
        },
        functions: None,
        relief: Some(Relief::new(bar(230.0), 0.08)),
        supply: Resistance::of([pipe(19.05, 6.0), pipe(15.875, 2.0), coupling(15.875)]),
        back: Resistance::of([
            coupling(19.05),
            pipe(19.05, 2.0),
            pipe(25.4, 6.0),
            Piece::Point { loss: bar(8.0), flow: litres(110.0) },
            Piece::Filter(filter, Element::Clean),
            Piece::Constant(bar(0.2)),
        ]),
        drain: None,
        oil: OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(323.15)),
    }
}

fn circuits(c: &mut Criterion) {
    let circuit = circuit();
    let compiled = Compiled::of(&circuit);
    let motor = bar(160.0);
    let mut flow = 60.0;
    // Another flow each time, so that nothing can be remembered.
    let mut next = move || {
        flow = if flow > 100.0 { 60.0 } else { flow + 0.37 };
        litres(flow)
    };
    c.bench_function("g", |b| b.iter(|| compiled.surplus(black_box(next()), black_box(motor))));
    c.bench_function("g-plain", |b| b.iter(|| circuit.surplus(black_box(next()), black_box(motor))));
    c.bench_function("compile", |b| b.iter(|| Compiled::of(black_box(&circuit))));
    c.bench_function("root", |b| b.iter(|| compiled.root(black_box(motor))));
    c.bench_function("root-plain", |b| b.iter(|| circuit.solve_plainly(black_box(motor))));
}

fn stock(machines: usize, heads: usize) -> Table {
    let outcome = read(&generator::stock(machines, heads, 1));
    assert!(outcome.problems.is_empty());
    outcome.table.expect("a table")
}

fn demo_table() -> Table {
    read(include_str!("../../../public/table/demo.json")).table.expect("the demo table")
}

fn pairings(c: &mut Criterion) {
    let table = demo_table();
    let conditions = Conditions::of_table(&table);
    let judge = Judge::new(&conditions);
    let of = |wanted: Verdict| {
        // Of machines with one circuit: another circuit is another verdict.
        let single = table.carriers.iter().filter(|carrier| carrier.circuits.len() == 1);
        let mut all = single.flat_map(|carrier| table.heads.iter().map(move |head| (carrier, head)));
        all.find(|(carrier, head)| judge.verdict(carrier, head) == wanted).expect("the demo has one")
    };
    let (carrier, head) = of(Verdict::Fits);
    c.bench_function("verdict", |b| b.iter(|| judge.verdict(black_box(carrier), black_box(head))));
    c.bench_function("pairing", |b| b.iter(|| pair(black_box(carrier), black_box(head), &conditions)));
    let (carrier, head) = of(Verdict::FitsAfterChanges);
    c.bench_function("verdict-with-changes", |b| b.iter(|| judge.verdict(black_box(carrier), black_box(head))));
    c.bench_function("pairing-with-changes", |b| {
        b.iter_batched(|| (carrier, head), |(carrier, head)| pair(carrier, head, &conditions), BatchSize::SmallInput);
    });
}

/// Measures what takes seconds once, and lets that stand for all samples: criterion wants many.
fn once(group: &mut BenchmarkGroup<WallTime>, name: &str, work: impl Fn() -> Duration) {
    let mut taken = None;
    group.bench_function(name, |b| {
        b.iter_custom(|times| *taken.get_or_insert_with(&work) * u32::try_from(times).unwrap_or(1));
    });
}

fn short<'c>(c: &'c mut Criterion, name: &str) -> BenchmarkGroup<'c, WallTime> {
    let mut group = c.benchmark_group(name);
    group.sample_size(10).measurement_time(Duration::from_secs(1)).warm_up_time(Duration::from_millis(1));
    group
}

fn whole_stock(c: &mut Criterion) {
    let table = stock(1000, 200);
    let conditions = Conditions::of_table(&table);
    let judge = Judge::new(&conditions);
    once(&mut short(c, "stock"), "1000x200", || {
        let mut all = [0; 4];
        let began = Instant::now();
        for carrier in &table.carriers {
            for head in &table.heads {
                // With the cheapest set's cost where it fits after changes.
                let (verdict, _) = black_box(judge.cost(carrier, head));
                all[verdict as usize] += 1;
            }
        }
        let taken = began.elapsed();
        println!("stock: {} fit, {} after changes, {} cannot be said, {} do not", all[0], all[1], all[2], all[3]);
        taken
    });
}

/// Every pair of the demo, and the one that takes longest.
fn demo(c: &mut Criterion) {
    let table = demo_table();
    let conditions = Conditions::of_table(&table);
    let timed = |(carrier, head)| {
        let began = Instant::now();
        black_box(pair(carrier, head, &conditions));
        (began.elapsed(), carrier, head)
    };
    let pairs = || table.carriers.iter().flat_map(|carrier| table.heads.iter().map(move |head| (carrier, head)));
    let mut group = short(c, "demo");
    once(&mut group, "all", || pairs().map(|pair| timed(pair).0).sum());
    let (_, carrier, head) = pairs().map(timed).max_by_key(|(taken, ..)| *taken).expect("the demo has pairs");
    group.bench_function("worst", |b| b.iter(|| pair(black_box(carrier), black_box(head), &conditions)));
}

criterion_group!(benches, circuits, pairings, demo, whole_stock);
criterion_main!(benches);
