//! A generated stock: enough of it reaches the circuit to be worth measuring, and the quick verdict is the whole one's.

mod generator;

use crate::is_long;
use fit::{CheckId, Conditions, Judge, Outcome, Verdict, pair};
use table::read;

#[test]
fn invariant_the_quick_verdict_is_the_whole_one_on_a_generated_stock() {
    let (carriers, heads) = if is_long() { (60, 30) } else { (30, 30) };
    let outcome = read(&generator::stock(carriers, heads, 20_261_125));
    assert_eq!(outcome.problems, Vec::new());
    let table = outcome.table.expect("a table");
    let conditions = Conditions::of_table(&table);
    let judge = Judge::new(&conditions);
    let (mut pairs, mut reach, mut mended, mut all) = (0.0, 0.0, 0.0, Vec::new());
    for carrier in &table.carriers {
        for head in &table.heads {
            let pairing = pair(carrier, head, &conditions);
            let hangs = pairing
                .checks
                .iter()
                .filter(|check| matches!(check.id, CheckId::WeightClass | CheckId::Mounting))
                .all(|check| check.outcome == Outcome::Met);
            let verdict = judge.verdict(carrier, head);
            assert_eq!(verdict, pairing.verdict, "{} {}", carrier.id, head.id);
            pairs += 1.0;
            reach += f64::from(u8::from(hangs));
            mended += f64::from(u8::from(verdict == Verdict::FitsAfterChanges));
            all.push(verdict);
        }
    }
    assert!(reach / pairs >= 0.25 && mended / pairs >= 0.10, "{reach} reach, {mended} mended of {pairs}");
    for verdict in [Verdict::Fits, Verdict::FitsAfterChanges, Verdict::CannotSay, Verdict::DoesNotFit] {
        assert!(all.contains(&verdict), "{verdict:?}");
    }
}
