//! Money is shown for what is certain; what is found out comes before any part that only settles a doubt.

use super::fixture::pair_of;
use explain::deciding_fact::with_branches;
use fit::{ChangeReason, Check, CheckId, Conditions, Outcome, Pairing, Verdict, pair};
use table::{ChangeId, Table, read};

fn demo() -> Table {
    read(include_str!("../../public/table/demo.json")).table.expect("the demo table")
}

fn of(checks: &[Check], id: CheckId) -> &Check {
    checks.iter().find(|check| check.id == id).expect("every check is there")
}

fn minor(pairing: &Pairing) -> u64 {
    pairing.changes.iter().map(|change| change.price.as_ref().map_or(0, |price| price.amount.minor())).sum()
}

/// What must hold of what is told of any pairing.
fn sound(pairing: &Pairing) {
    let told = format!("{} with {}", pairing.carrier.id, pairing.head.id);
    match pairing.verdict {
        Verdict::FitsAfterChanges => {
            // No change is for a check that does not block and is merely not known.
            for change in &pairing.changes {
                let plainly = |id: &&CheckId| of(&pairing.checks, **id).outcome == Outcome::NotMet;
                let blocks = |id: &&CheckId| of(&pairing.checks, **id).blocks;
                if change.reason == ChangeReason::Settles {
                    assert!(change.fixes.iter().any(|id| blocks(&id)), "{told}: {:?}", change.id);
                    // It is told what may make it unnecessary.
                    let spared = pairing.find_out.iter().any(|find| find.may_spare.contains(&change.id));
                    assert!(spared, "{told}: {:?}", change.id);
                }
                if change.reason == ChangeReason::Fixes {
                    assert!(change.fixes.iter().any(|id| plainly(&id)), "{told}: {:?}", change.id);
                }
            }
            for find in &pairing.find_out {
                assert!(!find.may_spare.is_empty() && find.minutes == find.fact.found_by().minutes(), "{told}");
            }
            assert!(pairing.find_out.is_sorted_by_key(|find| find.minutes), "{told}");
            if let Some(cost) = &pairing.cost_without_doubts {
                assert!(cost.changes < pairing.cost.changes && cost.minutes < pairing.cost.minutes, "{told}");
            }
        }
        Verdict::CannotSay => {
            for change in &pairing.changes {
                assert!(change.reason != ChangeReason::Settles, "{told}: {:?} is not certain", change.id);
                assert!(change.settings.iter().all(|setting| !setting.name.is_set()), "{told}: {:?}", change.id);
            }
            assert!(pairing.changes.is_empty() || pairing.checks.iter().any(|check| check.outcome == Outcome::NotMet));
            assert!(pairing.incomplete.is_some() || !pairing.find_out.is_empty(), "{told} asks nothing");
            assert!(pairing.open_checks().iter().all(|check| check.outcome != Outcome::NotMet), "{told}");
        }
        Verdict::Fits | Verdict::DoesNotFit => {
            assert!(pairing.find_out.is_empty() && pairing.cost_without_doubts.is_none(), "{told}");
        }
    }
}

/// What is certain is in whatever either answer comes to, and costs no more than it.
fn holds_in_every_branch(pairing: &Pairing) -> usize {
    let told = format!("{} with {}", pairing.carrier.id, pairing.head.id);
    let Some(branches) = &pairing.branches else { return 0 };
    assert_eq!((branches.fact, branches.minutes), (pairing.find_out[0].fact, pairing.find_out[0].minutes), "{told}");
    for branch in branches.either.iter().filter(|branch| branch.verdict != Verdict::DoesNotFit) {
        for change in &pairing.changes {
            assert!(branch.changes.contains(&change.id), "{told}: {:?} is spared by {branch:?}", change.id);
        }
        assert!(pairing.cost.minutes <= branch.cost.minutes, "{told}: {:?} {branch:?}", pairing.cost);
        if let Some(price) = &branch.cost.price {
            assert!(minor(pairing) <= price.amount.minor(), "{told}: {branch:?}");
        }
    }
    1
}

/// Every so many pairs of the demo, another set of heads for each machine.
fn every(step: usize, mut see: impl FnMut(Pairing, &dyn Fn(Pairing) -> Pairing)) {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    for (k, carrier) in table.carriers.iter().enumerate() {
        for head in table.heads.iter().skip(k % step).step_by(step) {
            see(pair(carrier, head, &conditions), &|pairing| with_branches(carrier, head, &conditions, pairing));
        }
    }
}

#[test]
fn invariant_what_is_told_as_certain_is_in_what_either_answer_comes_to() {
    let (mut told, mut certain) = (0, 0);
    every(9, |pairing, branched| {
        sound(&pairing);
        if pairing.verdict == Verdict::CannotSay {
            certain += usize::from(!pairing.changes.is_empty());
            told += holds_in_every_branch(&branched(pairing));
        }
    });
    assert!(told >= 15 && certain >= 5, "{told} with branches, {certain} with something certain");
}

#[test]
fn a_machine_of_which_little_is_known_is_not_told_the_price_of_all_that_might_be_needed() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let carrier = table.carrier("any-excavator-6t").or_else(|| table.carriers.iter().find(|carrier| carrier.generic));
    let carrier = carrier.expect("a class");
    let mut open = 0;
    for head in table.heads.iter().step_by(5) {
        let pairing = pair(carrier, head, &conditions);
        sound(&pairing);
        open += usize::from(pairing.verdict == Verdict::CannotSay);
    }
    assert!(open > 0);
}

#[test]
fn what_alone_can_mend_is_certain_and_what_could_be_done_otherwise_is_not() {
    // No drain and no other way than one; where the mass hangs is not known.
    let pairing = pair_of(|carrier, head| {
        carrier.case_line = None;
        carrier.operating_mass = None;
        head.outlet.needs_case_line = Some(true);
    });
    sound(&pairing);
    assert_eq!(pairing.verdict, Verdict::CannotSay);
    let ids: Vec<_> = pairing.changes.iter().map(|change| change.id).collect();
    assert!(ids.iter().all(|id| *id == ChangeId::CaseLine), "{ids:?}");
}
