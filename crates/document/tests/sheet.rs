//! The sheet of a pairing as a document: what stands open, what is folded, and that nothing is lost.

use document::sheet::Sheet;
use document::{Block, Fold, figures, text};
use explain::why;
use fit::{CheckId, Conditions, Outcome, Pairing, Stage, Verdict, pair};
use quantity::{Named, UnitSystem};
use table::{Carrier, Head, Table};
use wording::{PlainNumbers, Words};

const DEMO: &str = include_str!("../../../public/table/demo.json");

/// Pairs of the demo with every verdict.
const PAIRS: [(&str, &str); 5] = [
    ("quern-q27", "thistlecut-r60"),
    ("quern-q56", "thistlecut-r90"),
    ("quern-q27", "wrackline-b45"),
    ("quern-q27", "saltmarsh-g25"),
    ("any-mini-excavator", "thistlecut-r60"),
];

fn demo() -> Table {
    table::read(DEMO).table.expect("the demo reads")
}

fn solved<'t>(table: &'t Table, (carrier, head): (&str, &str)) -> (Pairing, &'t Carrier, &'t Head, Conditions) {
    let (carrier, head) = (table.carrier(carrier).expect("a machine"), table.head(head).expect("an attachment"));
    let conditions = Conditions::of_table(table);
    (pair(carrier, head, &conditions), carrier, head, conditions)
}

/// All parts of a sheet, in the order of the screen.
fn whole(sheet: Sheet) -> Vec<Block> {
    let mut blocks = sheet.answer();
    blocks.extend(sheet.danger());
    blocks.extend(sheet.changes());
    blocks.extend(sheet.prove());
    blocks.push(Block::Fold(sheet.checks()));
    blocks.extend(sheet.warm_up());
    blocks.extend(Stage::ALL.iter().flat_map(|&stage| sheet.arrivals(stage)));
    blocks.push(Block::Fold(sheet.rest()));
    blocks
}

fn each(units: UnitSystem, mut look: impl FnMut(&str, Sheet, &Conditions)) {
    let (table, words) = (demo(), Words { numbers: &PlainNumbers, units });
    for pair in PAIRS {
        let (pairing, machine, attachment, conditions) = solved(&table, pair);
        let sheet = Sheet { words: &words, pairing: &pairing, machine, attachment };
        look(&format!("{} {}", pair.0, pair.1), sheet, &conditions);
    }
}

fn folds(blocks: &[Block]) -> Vec<&Fold> {
    blocks.iter().flat_map(folds_within).collect()
}

fn folds_within(block: &Block) -> Vec<&Fold> {
    match block {
        Block::Fold(fold) => std::iter::once(fold).chain(folds(&fold.inside)).collect(),
        Block::Part { inside, .. } => folds(inside),
        Block::List { items, .. } => items.iter().flat_map(|item| folds(item)).collect(),
        _ => Vec::new(),
    }
}

#[test]
fn the_answer_comes_first_and_needs_no_knowledge_of_the_trade() {
    let mut leads = Vec::new();
    each(UnitSystem::Metric, |_, sheet, _| {
        leads.push(text(&sheet.answer()).lines().next().unwrap_or_default().to_owned());
    });
    assert_eq!(
        leads,
        [
            "Do not run it as it stands. With the 4 changes below it fits.",
            "Do not run it as it stands. With the 4 changes below it fits.",
            "It does not fit this machine, and no change makes it fit.",
            "Cannot say yet. Find out first what decides most.",
            "Cannot say yet. Find out first what decides most.",
        ]
    );
}

#[test]
fn a_sheet_says_price_hours_and_how_much_is_to_prove() {
    let (table, words) = (demo(), Words { numbers: &PlainNumbers, units: UnitSystem::Metric });
    let (pairing, machine, attachment, _) = solved(&table, PAIRS[0]);
    let told = text(&Sheet { words: &words, pairing: &pairing, machine, attachment }.answer());
    let price = words.price(pairing.cost.price.as_ref().expect("priced"));
    assert!(told.contains(&format!("Changes cost: {price}\n")), "{told}");
    assert!(told.contains("Work: 12 h 48 min\n"), "{told}");
    assert!(told.contains("Prove first: 1 point\n"), "{told}");
}

#[test]
fn invariant_what_can_kill_stands_open_and_in_full_below() {
    each(UnitSystem::Metric, |name, sheet, _| {
        let danger = sheet.danger();
        let Some(Block::Lines { lines, .. }) = danger.first() else { panic!("{name}: no hazards") };
        assert_eq!(lines.len(), sheet.words.hazards(&[sheet.pairing]).expect("some").lines.len(), "{name}");
        assert!(lines.iter().all(|line| line.sign.is_some()), "{name}");
        let told = text(&danger);
        for line in sheet.words.hazards(&[sheet.pairing]).expect("some").lines {
            assert!(told.contains(&line.title), "{name}: {}", line.title);
        }
        for caution in sheet.words.cautions(sheet.pairing) {
            assert!(told.contains(&caution), "{name}: {caution}");
        }
    });
}

#[test]
fn invariant_every_check_stands_once_in_the_list_and_what_fails_is_not_folded_away() {
    each(UnitSystem::Metric, |name, sheet, _| {
        let checks = sheet.checks();
        let open = checks.inside.iter().filter_map(|block| match block {
            Block::Fold(fold) if fold.id != "checks-met" => Some(fold.id.clone()),
            _ => None,
        });
        let open: Vec<_> = open.collect();
        let all: Vec<_> = folds(&checks.inside).into_iter().map(|fold| fold.id.clone()).collect();
        for id in CheckId::ALL {
            let fold = format!("check-{}", id.name());
            assert_eq!(all.iter().filter(|one| **one == fold).count(), 1, "{name}: {fold}");
            let find = |checks: &[fit::Check]| checks.iter().find(|check| check.id == *id).map(|check| check.outcome);
            let both = [find(&sheet.pairing.checks), find(&sheet.pairing.checks_after)];
            let is_met = both.into_iter().flatten().all(|outcome| outcome == Outcome::Met);
            assert_eq!(open.contains(&fold), !is_met, "{name}: {fold}");
        }
    });
}

#[test]
fn invariant_every_figure_that_opens_has_a_reasoning() {
    each(UnitSystem::Metric, |name, sheet, conditions| {
        let blocks = whole(sheet);
        let figures: Vec<_> = figures(&blocks).collect();
        assert!(figures.len() > 30, "{name}: {}", figures.len());
        for (_, of) in figures {
            let found = why(sheet.pairing, sheet.machine, sheet.attachment, conditions, of);
            assert!(found.is_some(), "{name}: {of:?}");
        }
    });
}

#[test]
fn every_change_and_every_point_to_prove_is_told() {
    each(UnitSystem::Metric, |name, sheet, _| {
        let changes = sheet.changes().map(|block| text(&[block])).unwrap_or_default();
        for change in &sheet.pairing.changes {
            assert!(changes.contains(&sheet.words.change_title(change)), "{name}: {changes}");
            assert!(changes.contains(&sheet.words.change_reason(change)), "{name}: {changes}");
        }
        let goes = sheet.pairing.verdict != Verdict::DoesNotFit;
        let proved = sheet.prove().map(|block| text(&[block])).unwrap_or_default().to_lowercase();
        for id in sheet.pairing.to_prove.iter().filter(|_| goes) {
            assert!(proved.contains(&sheet.words.check_title(*id).to_lowercase()), "{name}: {id:?} in {proved}");
        }
    });
}

#[test]
fn ids_of_folds_are_unique_and_stay_in_other_units() {
    let ids = |units| {
        let mut all = Vec::new();
        each(units, |name, sheet, _| {
            let parts = [sheet.danger(), sheet.changes().into_iter().collect(), sheet.prove().into_iter().collect()];
            for blocks in parts.into_iter().chain([vec![Block::Fold(sheet.checks())]]) {
                let mut ids: Vec<_> = folds(&blocks).into_iter().map(|fold| fold.id.clone()).collect();
                let count = ids.len();
                all.extend(ids.clone());
                ids.sort();
                ids.dedup();
                assert_eq!(ids.len(), count, "{name}");
            }
        });
        all
    };
    assert_eq!(ids(UnitSystem::Metric), ids(UnitSystem::UsCustomary));
}

#[test]
fn invariant_all_of_a_sheet_turns_with_the_units() {
    each(UnitSystem::UsCustomary, |name, sheet, _| {
        for line in text(&whole(sheet)).lines() {
            let metric = [" bar", " L/min", " kW", " °C"].iter().any(|unit| {
                line.match_indices(unit).any(|(at, _)| {
                    let digit = line[..at].ends_with(|sign: char| sign.is_ascii_digit());
                    let ends = !line[at + unit.len()..].starts_with(|sign: char| sign.is_alphanumeric());
                    digit && ends
                })
            });
            assert!(!metric, "{name}: {line}");
        }
    });
}

#[test]
fn a_sheet_that_does_not_fit_has_no_price_and_nothing_to_prove() {
    let (table, words) = (demo(), Words { numbers: &PlainNumbers, units: UnitSystem::Metric });
    let (pairing, machine, attachment, _) = solved(&table, PAIRS[2]);
    let sheet = Sheet { words: &words, pairing: &pairing, machine, attachment };
    assert_eq!(pairing.verdict, Verdict::DoesNotFit);
    assert!(!text(&sheet.answer()).contains("EUR"));
    assert_eq!(sheet.prove(), None);
}
