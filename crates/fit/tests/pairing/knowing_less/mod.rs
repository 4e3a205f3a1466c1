//! Knowing less never helps: with an optional fact of machine or attachment taken away, *fits* and *fits after changes* stand
//! only where they stood before, with a set that is no cheaper, and no check of safety or damage becomes *met*. With a limit
//! lowered or a load raised, the same.
//!
//! Taken away is what the table's text states, one field or one element at a time, so that a new field is tried as soon as the demo
//! states it. What physics or the table's own meaning explains stands in [`exceptions`], each with its reason.

mod entry;
mod exceptions;
mod worse;

use crate::is_long;
use entry::{Entry, Place};
use exceptions::Both;
use fit::{Check, Class, Conditions, Cost, Judge, Outcome, Pairing, RunsOn, Verdict, pair};
use quantity::Named;
use serde_json::{Value, json};
use std::sync::Mutex;
use table::{Carrier, Head, read};

const DEMO: &str = include_str!("../../../../../public/table/demo.json");
/// How many pairs of each verdict are drawn: good ones, those that cannot be said, those that do not fit.
const DRAWN: [usize; 3] = [120, 100, 80];
/// One of so many of them is tried where nobody asks for the long runs.
const SHARE: usize = 20;

/// A yard of one machine and one attachment.
struct Yard {
    carrier: Carrier,
    head: Head,
    conditions: Conditions,
}

/// The demo's head matter, parts and prices around one machine and one attachment; none where the reader refuses it.
fn yard(demo: &Value, carrier: &Value, head: &Value) -> Option<Yard> {
    let around = |(name, value): (&String, &Value)| match name.as_str() {
        "carriers" => (name.clone(), json!([carrier])),
        "heads" => (name.clone(), json!([head])),
        _ => (name.clone(), value.clone()),
    };
    let table: Value = demo.as_object()?.iter().map(around).collect();
    let table = read(&table.to_string()).table?;
    let conditions = Conditions::of_table(&table);
    let mut carriers = table.carriers.into_iter();
    let mut heads = table.heads.into_iter();
    Some(Yard { carrier: carriers.next()?, head: heads.next()?, conditions })
}

fn is_good(verdict: Verdict) -> bool {
    matches!(verdict, Verdict::Fits | Verdict::FitsAfterChanges)
}

/// What a set costs in minor units of money: everything of the demo is priced.
fn minor(cost: &Cost) -> u64 {
    cost.price.as_ref().map_or(0, |price| price.amount.minor())
}

/// What came out better.
#[derive(Clone, Debug, PartialEq)]
pub enum Better {
    /// The verdict.
    Verdict(Verdict, Verdict),
    /// The set of changes costs less, in minor units of money.
    Cheaper(u64, u64),
    /// A check of safety or damage.
    Check(&'static str),
}

/// What came out better of a yard of which less is known, with all that came out where that had to be worked out. Costs are only
/// reckoned where both fit after changes.
fn better(full: &Pairing, less: &Yard) -> (Vec<Better>, Option<Pairing>) {
    let (mut found, mut whole) = (Vec::new(), None);
    let judge = Judge::new(&less.conditions);
    // Where it was good, the money counts too; else it is enough to know that no set is proven to work.
    let now = if full.verdict == Verdict::FitsAfterChanges {
        Some(judge.cost(&less.carrier, &less.head))
    } else {
        let smallest = RunsOn::of(&judge, std::slice::from_ref(&less.carrier), &less.head).smallest;
        smallest.map(|(_, verdict)| (verdict, None))
    };
    match now.filter(|(verdict, _)| is_good(*verdict)) {
        Some((verdict, _)) if !is_good(full.verdict) || verdict < full.verdict => {
            found.push(Better::Verdict(full.verdict, verdict));
        }
        Some((_, Some(now))) if minor(&now) < minor(&full.cost) => {
            found.push(Better::Cheaper(minor(&full.cost), minor(&now)));
        }
        _ => {}
    }
    if !found.is_empty() {
        whole = Some(pair(&less.carrier, &less.head, &less.conditions));
    }
    let today = full.circuit.as_ref().and_then(|circuit| judge.today(&less.carrier, circuit, &less.head));
    let met = |check: &&Check| check.outcome == Outcome::Met && check.class != Class::Work;
    let was = |check: &Check| full.check(check.id).map(|known| known.outcome);
    let today = today.unwrap_or_default();
    let became = today.iter().filter(met).filter(|check| was(check) != Some(Outcome::Met));
    found.extend(became.map(|check| Better::Check(check.id.name())));
    (found, whole)
}

/// Pairs of the demo drawn by a seed, a share of each verdict.
fn drawn(demo: &Value, seed: u64) -> Vec<(usize, usize)> {
    let real: Vec<usize> = (0..demo["carriers"].as_array().map_or(0, Vec::len))
        .filter(|&index| demo["carriers"][index]["generic"] != json!(true))
        .collect();
    let heads = demo["heads"].as_array().map_or(0, Vec::len);
    let table = read(&demo.to_string()).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    let judge = Judge::new(&conditions);
    let mut pairs: Vec<_> = real.iter().flat_map(|&carrier| (0..heads).map(move |head| (carrier, head))).collect();
    let mut state = seed;
    for last in (1..pairs.len()).rev() {
        state = entry::next(state);
        pairs.swap(last, usize::try_from(state >> 33).unwrap_or(0) % (last + 1));
    }
    let mut left = DRAWN.map(|count| if is_long() { count } else { count / SHARE });
    let mut chosen = Vec::new();
    for (carrier, head) in pairs {
        if left.iter().all(|count| *count == 0) {
            break;
        }
        let kind = match judge.verdict(&table.carriers[carrier], &table.heads[head]) {
            Verdict::Fits | Verdict::FitsAfterChanges => 0,
            Verdict::CannotSay => 1,
            Verdict::DoesNotFit => 2,
        };
        if left[kind] > 0 {
            left[kind] -= 1;
            chosen.push((carrier, head));
        }
    }
    chosen
}

/// Something that came out better, with what was done.
struct Violation {
    what: String,
    better: Better,
}

/// Tries every variant of the drawn pairs; gives what came out better beyond the exceptions, and how many were tried.
fn tried(
    variants: impl Fn(&Entry) -> Vec<(Place, Value)> + Sync,
    explain: impl Fn(&Entry, &Place, &Better, &Both) -> Option<&'static str> + Sync,
) -> (Vec<Violation>, usize, Vec<&'static str>) {
    let demo: Value = serde_json::from_str(DEMO).expect("the demo is JSON");
    let pairs = drawn(&demo, 2026);
    assert_eq!(pairs.len() * if is_long() { 1 } else { SHARE }, DRAWN.iter().sum::<usize>());
    let found = Mutex::new((Vec::new(), 0, Vec::new()));
    let next = std::sync::atomic::AtomicUsize::new(0);
    let work = || {
        while let Some(&(carrier, head)) = pairs.get(next.fetch_add(1, std::sync::atomic::Ordering::Relaxed)) {
            let (machine, attachment) = (&demo["carriers"][carrier], &demo["heads"][head]);
            let whole = yard(&demo, machine, attachment).expect("an entry of the demo");
            let full = pair(&whole.carrier, &whole.head, &whole.conditions);
            for entry in [Entry::Carrier(machine), Entry::Head(attachment)] {
                for (place, changed) in variants(&entry) {
                    let less = match entry {
                        Entry::Carrier(_) => yard(&demo, &changed, attachment),
                        Entry::Head(_) => yard(&demo, machine, &changed),
                    };
                    let Some(less) = less else { continue };
                    let (all, less) = better(&full, &less);
                    let both = Both { full: &full, less: less.as_ref() };
                    let mut found = found.lock().expect("no other thread has failed");
                    found.1 += 1;
                    for better in all {
                        if let Some(reason) = explain(&entry, &place, &better, &both) {
                            found.2.push(reason);
                            continue;
                        }
                        let what = format!("{} with {}: {place}", whole.carrier.id, whole.head.id);
                        found.0.push(Violation { what, better });
                    }
                }
            }
        }
    };
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(work);
        }
    });
    found.into_inner().expect("no thread has failed")
}

/// Says what was found, all of it, by the place that it comes from.
fn report(violations: &[Violation], tries: usize, used: &[&'static str]) -> String {
    let mut lines: Vec<String> =
        violations.iter().map(|Violation { what, better }| format!("{what}: {better:?}")).collect();
    lines.sort();
    let mut reasons: Vec<_> = used.to_vec();
    reasons.sort_unstable();
    reasons.dedup();
    let count = |reason: &str| used.iter().filter(|known| **known == reason).count();
    let reasons: Vec<_> = reasons.iter().map(|reason| format!("{:5} × {reason}", count(reason))).collect();
    format!("{tries} tries, {} better\n{}\nexceptions:\n{}", violations.len(), lines.join("\n"), reasons.join("\n"))
}

/// That enough was tried, and that each exception is needed by one of all pairs.
fn assert_tried(least: usize, tries: usize, used: &[&'static str], exceptions: &[&'static str]) {
    if !is_long() {
        return assert!(tries > least / SHARE, "{tries}");
    }
    assert!(tries > least, "{tries}");
    for reason in exceptions {
        assert!(used.contains(reason), "no pair needs the exception any more: {reason}");
    }
}

#[test]
fn invariant_knowing_less_makes_nothing_better() {
    let (violations, tries, used) = tried(entry::without_each, exceptions::explain);
    println!("{}", report(&violations, tries, &used));
    assert!(violations.is_empty(), "{}", report(&violations, tries, &used));
    assert_tried(10_000, tries, &used, exceptions::REASONS);
}

#[test]
fn invariant_a_lower_limit_or_a_greater_load_makes_nothing_better() {
    let (violations, tries, used) =
        tried(worse::each, |_, place, better, both| exceptions::explain_limit(place, better, both));
    println!("{}", report(&violations, tries, &used));
    assert!(violations.is_empty(), "{}", report(&violations, tries, &used));
    assert_tried(2_000, tries, &used, exceptions::OF_LIMITS);
}
