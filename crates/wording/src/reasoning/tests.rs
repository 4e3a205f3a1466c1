//! Every reasoning has words, and every sentence its pieces.

use crate::{InputText, Part, PlainNumbers, Words};
use explain::{
    BrochureFigure, FigureId, Formula, OilFigure, PointFigure, Reasoning, reasoning, reasoning_of_brochure,
    reasoning_of_point, why,
};
use fit::installation::Installation;
use fit::{CheckId, Conditions, Load, OilState, Pairing, SettingId, Stage, pair};
use quantity::{Named, Quantity, ThermodynamicTemperature, Unit, UnitSystem};
use table::{Carrier, ChangeId, Head, Table, read};
use workshop::Sheets;

const WORDS: Words<'static> = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn demo() -> Table {
    read(include_str!("../../../../public/table/demo.json")).table.expect("the demo table")
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
fn invariant_the_pieces_of_a_sentence_are_the_sentence_and_each_figure_stands_in_its_check() {
    let table = demo();
    let mut figures = 0;
    for (_, _, pairing) in pairs(&table, 1) {
        let parts = WORDS.sentence_parts(&pairing);
        assert_eq!(whole(&parts), WORDS.sentence(&pairing));
        for part in &parts {
            let Part::Figure { text, of: FigureId::Check(check, stage) } = part else { continue };
            let checks = if *stage == Stage::AsItIs { &pairing.checks } else { &pairing.checks_after };
            let check = checks.iter().find(|known| known.id == *check).expect("the check that it belongs to");
            let thresholds = check.missing.iter().filter_map(|missing| missing.holds);
            let thresholds = thresholds.map(|holds| WORDS.limit(holds.value, Some(holds.bound)));
            let mut own = WORDS.worst_and_limit(check).into_iter().flatten().chain(thresholds);
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
fn invariant_every_recorded_input_has_words_and_a_source() {
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

/// Everything of a pairing that opens, as its sentences and lists name it.
fn all_that_opens(pairing: &Pairing, carrier: &Carrier, head: &Head, conditions: &Conditions) -> Vec<Part> {
    let mut parts = WORDS.sentence_parts(pairing);
    parts.extend(WORDS.warm_up_parts(pairing).unwrap_or_default());
    parts.extend(pairing.changes.iter().flat_map(|change| WORDS.change_title_parts(change)));
    let stage = if pairing.checks_after.is_empty() { Stage::AsItIs } else { Stage::AfterChanges };
    parts.extend(pairing.final_checks().iter().flat_map(|check| WORDS.check_line_parts(check, stage)));
    let sheets = Sheets::of(pairing, carrier, head, conditions);
    let planned = handover::plan(pairing, carrier, head, conditions, &handover::Circumstances::default());
    for section in WORDS.sheets(pairing, &sheets, &planned).into_iter().chain([WORDS.for_customer(pairing, &sheets)]) {
        for line in section.lines.into_iter().chain(section.total) {
            if !line.pieces.is_empty() {
                assert_eq!(whole(&line.pieces), line.title);
            }
            parts.extend(line.pieces);
            parts.extend(line.of.map(|of| Part::Figure { text: line.value, of }));
        }
    }
    parts
}

#[test]
fn invariant_whatever_opens_has_a_reasoning_in_words_that_ends_in_that_figure() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let mut opened = std::collections::BTreeMap::new();
    for (carrier, head, pairing) in pairs(&table, 31) {
        for part in all_that_opens(&pairing, carrier, head, &conditions) {
            let Part::Figure { text, of } = part else { continue };
            let why = why(&pairing, carrier, head, &conditions, of).unwrap_or_else(|| panic!("{of:?} of {head:?}"));
            is_told(&why);
            let told = WORDS.reasoning(&why).result.join(" ");
            if !matches!(of, FigureId::Check(..)) {
                let bare = ["at least, ", "at least ", "at most ", "from "]
                    .iter()
                    .fold(text.as_str(), |text, word| text.trim_start_matches(word));
                let bare = bare.split(" (").next().unwrap_or(bare);
                assert!(told.contains(bare), "{text} of {of:?}: {told}");
                assert!(!why.inputs.is_empty(), "{of:?}");
            }
            *opened.entry(format!("{of:?}").split('(').next().unwrap_or_default().to_owned()).or_insert(0) += 1;
        }
    }
    for name in ["Check", "Setting", "Change", "Cost"] {
        assert!(opened.get(name).is_some_and(|count| *count > 20), "{opened:?}");
    }
}

#[test]
fn the_oil_at_a_temperature_says_the_figures_that_the_thermometer_shows() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let mut seen = 0;
    for (carrier, head, pairing) in pairs(&table, 41) {
        let Some(circuit) = &pairing.circuit else { continue };
        let installation = Installation::new(carrier, circuit, head, &conditions).expect("its circuit");
        for celsius in [-15.0, 20.0, 60.0, 90.0] {
            let at = ThermodynamicTemperature::from_si(Unit::Celsius.to_si(celsius));
            let reading = installation.at_oil(at);
            let shown = [
                (OilFigure::Viscosity, reading.viscosity),
                (OilFigure::Flow, reading.flow),
                (OilFigure::Pump, reading.pump),
                (OilFigure::BackPressure, reading.back_pressure),
                (OilFigure::CasePressure, reading.case_pressure),
            ];
            for (figure, shown) in shown.into_iter().filter(|(_, shown)| shown.is_some()) {
                let why = why(&pairing, carrier, head, &conditions, FigureId::Oil(figure, Stage::AsItIs, at));
                let why = why.unwrap_or_else(|| panic!("{figure:?}"));
                assert_eq!(why.result.likely, shown, "{figure:?} at {celsius}");
                assert!(!why.inputs.is_empty());
                is_told(&why);
                seen += 1;
            }
            for mark in &reading.marks {
                let whence = FigureId::Mark(mark.check, Stage::AsItIs, at);
                let why = why(&pairing, carrier, head, &conditions, whence).expect("its circuit");
                assert_eq!((why.result.outcome, why.result.margin), (Some(mark.outcome), mark.margin), "{mark:?}");
                is_told(&why);
            }
        }
    }
    assert!(seen > 100, "{seen}");
}

#[test]
fn a_setting_says_what_spoke_against_another_and_what_it_is_held_against() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let (carrier, head) = (table.carrier("quern-q56"), table.head("thistlecut-r90"));
    let (carrier, head) = (carrier.expect("in the table"), head.expect("in the table"));
    let pairing = pair(carrier, head, &conditions);
    let told = |of: FigureId| WORDS.reasoning(&why(&pairing, carrier, head, &conditions, of).expect("a reasoning"));
    let has = |text: &crate::ReasoningText, name: &str, value: &str| {
        assert!(text.inputs.iter().any(|input| input.name == name && input.value == value), "{:#?}", text.inputs);
    };
    // As much as the attachment is rated for would be too much for its outlet.
    let flow = told(FigureId::Setting(Some(ChangeId::MachineFlowSetting), SettingId::Flow));
    assert_eq!(flow.tried, ["Higher, at 65 L/min: back pressure 15.2 bar (at most 15.0 bar) · 1 % over."]);
    assert_eq!(flow.result, ["64 L/min.", "It is set right between 63 L/min and 65 L/min."]);
    has(&flow, "Step to which it is set", "1 L/min");
    let relief = told(FigureId::Setting(Some(ChangeId::ReliefSetting), SettingId::Relief));
    assert_eq!(relief.tried.len(), 1, "{:?}", relief.tried);
    assert!(
        relief.tried[0].starts_with("Lower, at 230 bar: pressure 186 bar (at least 170 bar)"),
        "{:?}",
        relief.tried
    );
    assert!(relief.tried[0].ends_with("where 10 % are asked."), "{:?}", relief.tried);
    assert!(
        relief.held.contains(&"Hose rating: 240 bar (at most 350 bar) · 32 % to spare".to_owned()),
        "{:?}",
        relief.held
    );
    has(&relief, "Between what it can be set", "180 bar to 245 bar");
    has(&relief, "Attachment's greatest pressure", "260 bar");
    let cost = told(FigureId::Change(ChangeId::CaseLine));
    assert_eq!(cost.result, ["3 h · EUR 364."]);
    has(&cost, "Part of the table", "case drain 13 mm with tank port (case-13)");
    has(&cost, "Price of the part", "EUR 160");
    has(&cost, "An hour in the workshop", "EUR 68");
    has(&cost, "Labour", "EUR 204");
    let sum = told(FigureId::Cost);
    has(&sum, "A case drain to the tank", "3 h · EUR 364");
    assert_eq!(sum.inputs.len(), pairing.changes.len());
}

#[test]
fn a_shop_without_a_list_is_told_the_usual_hours_and_what_has_no_price() {
    let table = demo();
    let (carrier, head) = (table.carrier("quern-q56"), table.head("thistlecut-r90"));
    let (carrier, head) = (carrier.expect("in the table"), head.expect("in the table"));
    let conditions = Conditions::default();
    let pairing = pair(carrier, head, &conditions);
    let change = pairing.changes.iter().find(|change| change.id == ChangeId::CaseLine).expect("its motor needs one");
    let why = why(&pairing, carrier, head, &conditions, FigureId::Change(change.id)).expect("a reasoning");
    let text = WORDS.reasoning(&why);
    let says = |name: &str, value: &str, source: &str| {
        let input = InputText { name: name.to_owned(), value: value.to_owned(), source: source.to_owned() };
        assert!(text.inputs.contains(&input), "{:#?}", text.inputs);
    };
    let usual = "not stated; typically 2 h to 6 h: common practice, no published source";
    says("Time in the workshop", "3 h", usual);
    says("An hour in the workshop", "not known", "not stated");
    assert_eq!(text.result, ["3 h · no price stated."]);
}

#[test]
fn every_relation_says_what_its_symbols_are_and_who_published_it() {
    for &formula in Formula::ALL {
        let text = super::formulas::formula(formula);
        assert!(text.source.ends_with('.'), "{formula:?}");
        assert!(formula == Formula::Rule || !text.symbols.is_empty() && text.holds.ends_with('.'), "{formula:?}");
    }
    for &check in CheckId::ALL {
        let text = super::FormulaText::of_rule(check);
        assert!(text.line.ends_with('.') && text.source.ends_with('.'), "{check:?}");
    }
}

#[test]
fn an_input_says_its_value_its_worst_and_who_says_so() {
    let table = demo();
    let conditions = Conditions::of_table(&table);
    let carrier = table.carriers.iter().find(|carrier| carrier.model == "QU 27").expect("in the demo table");
    let circuit = carrier.circuits.first().map(|circuit| &circuit.id);
    let head = table.heads.iter().find(|head| head.model == "WN 12").expect("in the demo table");
    let why = reasoning(carrier, circuit, head, &conditions, CheckId::FlowWindow).expect("its circuit");
    let text = WORDS.reasoning(&why);
    let says = |name: &str, value: &str, source: &str| {
        let input = InputText { name: name.to_owned(), value: value.to_owned(), source: source.to_owned() };
        assert!(text.inputs.contains(&input), "{input:?} in {:#?}", text.inputs);
    };
    let added = "published, −15/+8 % added: common practice, no published source";
    says("Flow of the auxiliary circuit", "likely 46 L/min, at worst 50 L/min", added);
    let usual = "not stated; typically 2 % to 8 %: common practice, no published source";
    says("Leakage of the pump", "likely 5 %, at worst 2 %", usual);
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
        "At most 49 L/min is asked: 1 % over.",
        "What sets the worst corner: flow at its highest, engine without load, setting turned up.",
        "Not met.",
    ];
    assert_eq!(text.result, came);
}
