//! One thing, one statement: what a check says, what a chart shows and what a brochure said agree.

use super::WORDS;
use super::fixture::{pair_of, stated};
use explain::{FigureId, why};
use fit::trace::What;
use fit::{CheckId, Conditions, FactId, Installation, Outcome, Stage, Verdict, pair};
use quantity::Amount;
use table::{ChangeId, read};

#[test]
fn invariant_what_goes_to_work_is_over_no_limit_and_its_oil_stands_as_its_chart_shows() {
    let table = read(include_str!("../../public/table/demo.json")).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    let (mut fit, mut open, mut set) = (0, 0, 0);
    for (k, carrier) in table.carriers.iter().enumerate() {
        for head in table.heads.iter().skip(k % 7).step_by(7) {
            let pairing = pair(carrier, head, &conditions);
            if !matches!(pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges) {
                continue;
            }
            fit += 1;
            let told = format!("{} with {}", carrier.id, head.id);
            if let Some(tightest) = pairing.tightest {
                let check = pairing.final_check(tightest.check).expect("a check");
                assert!(tightest.margin >= 0.0 && check.outcome == Outcome::Met, "{told}: {tightest:?}");
            }
            let row = WORDS.row_below(&pairing);
            assert!(!row.contains("beyond") && !row.contains("times the limit"), "{told}: {row}");
            let circuit = pairing.circuit.as_ref().expect("its circuit");
            let machine = pairing.changed.as_deref().unwrap_or(carrier);
            let look =
                Installation::new(machine, circuit, head, &conditions).expect("its circuit").changed_from(carrier);
            let heat = pairing.final_check(CheckId::Heat).expect("a check");
            let warmth = look.warmth();
            match heat.outcome {
                Outcome::Met => assert!(!warmth.is_open(), "{told}: {warmth:?}"),
                Outcome::NotKnown if heat.value.is_some() => {
                    assert!(warmth.is_open(), "{told}: {warmth:?}");
                    assert!(WORDS.check_line(heat).starts_with("to prove: likely "), "{}", WORDS.check_line(heat));
                    assert!(warmth.settles.is_none() || WORDS.warmth(&warmth).contains("likely"), "{told}");
                    open += 1;
                }
                _ => {}
            }
            // The brochure says what it said before the machine's own flow was set.
            if pairing.changes.iter().any(|change| change.id == ChangeId::MachineFlowSetting) {
                let flow = |machine: &table::Carrier| {
                    let circuit = machine.circuit(circuit).expect("a circuit");
                    circuit.flow.as_ref().map(|flow| Amount::of(flow.nominal))
                };
                let says = look.pump_curve().and_then(|curve| curve.says).map(|says| says.1);
                if says.is_some() && flow(machine) != flow(carrier) {
                    assert_eq!(says, flow(carrier), "{told}");
                    assert_eq!(look.brochure().map(|brochure| brochure.flow.says), flow(carrier), "{told}");
                    set += 1;
                }
            }
        }
    }
    assert!(fit > 20 && set > 0, "{fit} fit, {open} with open heat, {set} with a set flow");
}

#[test]
fn the_limit_of_power_goes_by_its_own_name() {
    let mut found = None;
    let pairing = pair_of(|carrier, head| {
        head.power.greatest = stated("20 kW");
        found = Some((carrier.clone(), head.clone()));
    });
    let (carrier, head) = found.expect("the pair");
    let conditions = Conditions::default();
    let reasoning = why(&pairing, &carrier, &head, &conditions, FigureId::Check(CheckId::Power, Stage::AsItIs));
    let inputs = reasoning.expect("a reasoning").inputs;
    let named = |fact| inputs.iter().any(|input| matches!(input.what, What::Fact(known, _) if known == fact));
    assert!(named(FactId::HeadGreatestPower) && !named(FactId::HeadGreatestFlow), "{inputs:#?}");
}
