//! Every reasoning has words, and every sentence its pieces.

use crate::pairing::reasoning::{
    BrochureFigure, Formula, PointFigure, Reasoning, reasoning, reasoning_of_brochure, reasoning_of_point,
};
use crate::pairing::{CheckId, Conditions, Load, OilState, Pairing, Stage, pair};
use crate::quantity::{Named, UnitSystem};
use crate::table::{Carrier, Head, Table, read};
use crate::wording::{InputText, Part, PlainNumbers, Words};

const WORDS: Words<'static> = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn demo() -> Table {
    read(include_str!("../../../public/table/demo.json")).table.expect("the demo table")
}

fn whole(parts: &[Part]) -> String {
    parts.iter().map(Part::text).collect()
}

/// Every so many pairs of the demo table.
fn pairs(table: &Table, one_in: usize) -> impl Iterator<Item = (&Carrier, &Head, Pairing)> {
    let conditions = Conditions::of_table(table);
    let all = table.carriers.iter().flat_map(move |carrier| table.heads.iter().map(move |head| (carrier, head)));
    all.step_by(one_in).map(move |(carrier, head)| (carrier, head, pair(carrier, head, &conditions)))
}

#[test]
fn the_pieces_of_a_sentence_are_the_sentence_and_each_figure_stands_in_its_check() {
    let table = demo();
    let mut figures = 0;
    for (_, _, pairing) in pairs(&table, 1) {
        let parts = WORDS.sentence_parts(&pairing);
        assert_eq!(whole(&parts), WORDS.sentence(&pairing));
        for part in &parts {
            let Part::Figure { text, check, stage } = part else { continue };
            let checks = if *stage == Stage::AsItIs { &pairing.checks } else { &pairing.checks_after };
            let check = checks.iter().find(|known| known.id == *check).expect("the check that it belongs to");
            let thresholds = check.missing.iter().filter_map(|missing| missing.holds).map(|holds| holds.value);
            let mut own =
                check.worst.into_iter().chain(check.limit).chain(thresholds).map(|amount| WORDS.amount(amount));
            assert!(own.any(|own| own == *text), "{text} in {check:?}");
            figures += 1;
        }
        for check in pairing.checks.iter().chain(&pairing.checks_after) {
            assert_eq!(whole(&WORDS.reason_parts(check, Stage::AsItIs)), WORDS.reason(check));
            assert!(!WORDS.reason(check).contains(['\u{1}', '\u{2}']), "{:?}", WORDS.reason(check));
        }
    }
    assert!(figures > 300, "{figures}");
}

/// Fails where a word or a source is missing.
fn is_told(why: &Reasoning) {
    let text = WORDS.reasoning(why);
    for formula in &text.formulas {
        assert!(!formula.line.is_empty() && formula.source.ends_with('.'), "{formula:?}");
    }
    for (input, used) in text.inputs.iter().zip(&why.inputs) {
        assert!(!input.name.is_empty() && !input.value.is_empty() && !input.source.is_empty(), "{input:?} of {used:?}");
        assert!(!input.value.contains("NaN") && !input.source.contains("NaN"), "{input:?} of {used:?}");
        assert!(input.name.chars().next().is_some_and(char::is_uppercase), "{input:?}");
    }
}

#[test]
fn every_recorded_input_has_words_and_a_source() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    for (carrier, head, pairing) in pairs(&table, 13) {
        let circuit = pairing.circuit.as_ref();
        for &check in CheckId::ALL {
            is_told(&reasoning(carrier, circuit, head, &conditions, check).expect("its circuit"));
        }
        for &figure in PointFigure::ALL {
            let at = (OilState::Working, Load::Working);
            is_told(&reasoning_of_point(carrier, circuit, head, &conditions, at, figure).expect("its circuit"));
        }
        for &figure in BrochureFigure::ALL {
            if let Some(why) = circuit.and_then(|id| reasoning_of_brochure(carrier, id, head, &conditions, figure)) {
                is_told(&why);
            }
        }
    }
}

#[test]
fn every_relation_says_what_its_symbols_are_and_who_published_it() {
    for &formula in Formula::ALL {
        let text = super::formulas::formula(formula);
        assert!(text.source.ends_with('.'), "{formula:?}");
        assert!(formula == Formula::Rule || !text.symbols.is_empty() && text.holds.ends_with('.'), "{formula:?}");
    }
    for &check in CheckId::ALL {
        let text = super::rules::rule(check);
        assert!(text.line.ends_with('.') && text.source.ends_with('.'), "{check:?}");
    }
}

#[test]
fn an_input_says_its_value_its_worst_and_who_says_so() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let carrier = table.carriers.iter().find(|carrier| carrier.model == "Q27").expect("in the demo table");
    let circuit = carrier.circuits.first().map(|circuit| &circuit.id);
    let head = table.heads.iter().find(|head| head.model == "B12").expect("in the demo table");
    let why = reasoning(carrier, circuit, head, &conditions, CheckId::FlowWindow).expect("its circuit");
    let text = WORDS.reasoning(&why);
    let says = |name: &str, value: &str, source: &str| {
        let input = InputText { name: name.to_owned(), value: value.to_owned(), source: source.to_owned() };
        assert!(text.inputs.contains(&input), "{input:?} in {:#?}", text.inputs);
    };
    let added = "published, −15/+8 % added: common practice, no published source";
    says("Flow of the auxiliary circuit", "likely 46 L/min, at worst 50 L/min", added);
    let usual = "not stated; usually 2.0 % to 8.0 %: common practice, no published source";
    says("Leakage of the pump", "likely 5.0 %, at worst 2.0 %", usual);
    says(
        "Viscosity of the oil at 40 °C",
        "likely 46 mm²/s, at worst 41 mm²/s and 51 mm²/s",
        "published, ±10 % by ISO 3448",
    );
    says("How the pump is commanded", "load sensing", "as stated");
    says("Attachment's greatest flow", "49 L/min", "published, taken as it stands");
    says("Flow through the attachment, turning freely", "likely 46 L/min, at worst 50 L/min", "worked out on the way");
    assert_eq!(text.formulas[0].line, "Q(p) − Q = 0 at p = Δp_motor + Δp_supply(Q) + p_back(Q)");
    let came = [
        "Likely 46 L/min, in the worst corner 50 L/min.",
        "At most 49 L/min is asked: 1 % beyond.",
        "What sets the worst corner: flow at its highest, engine without load, setting turned up.",
        "Not met.",
    ];
    assert_eq!(text.result, came);
}
