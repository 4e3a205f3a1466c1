//! A paper as a document: every section with its lines, in the order of work.

use document::{Block, Look, figures, paper, text};
use fit::{Conditions, pair};
use quantity::UnitSystem;
use wording::{PlainNumbers, Words};
use workshop::Sheets;

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn fitters(machine: &str, head: &str) -> (Vec<wording::Section>, Vec<Block>) {
    let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
    let conditions = Conditions::of_table(&table);
    let (carrier, head) = (table.carrier(machine).expect("a machine"), table.head(head).expect("an attachment"));
    let pairing = pair(carrier, head, &conditions);
    let sheets = Sheets::at(&pairing, carrier, head, &conditions, conditions.working);
    let sections = WORDS.sheets(&pairing, &sheets);
    (sections.clone(), paper(sections, true))
}

#[test]
fn every_line_stands_once_under_the_title_of_its_section_and_in_its_order() {
    for (machine, head) in
        [("quern-q56", "thistlecut-r90"), ("quern-q27", "thistlecut-r60"), ("quern-q27", "pebblegate-k70")]
    {
        let (sections, blocks) = fitters(machine, head);
        let mut blocks = blocks.iter();
        for section in &sections {
            let Some(Block::Heading { level: 2, text }) = blocks.next() else { panic!("a title") };
            assert_eq!(text, &section.title);
            let Some(Block::Lines { look: Look::Paper, ordered, lines }) = blocks.next() else { panic!("its lines") };
            assert_eq!((*ordered, lines.len()), (section.in_order, section.lines.len()));
            if section.total.is_some() {
                assert!(
                    matches!(blocks.next(), Some(Block::Lines { look: Look::Total, lines, .. }) if lines.len() == 1)
                );
            }
        }
        assert!(blocks.next().is_none());
    }
}

#[test]
fn what_is_set_and_what_it_takes_open_their_reasoning() {
    let (sections, blocks) = fitters("quern-q56", "thistlecut-r90");
    let all = sections.iter().flat_map(|section| section.lines.iter().chain(&section.total));
    let of_values = all.filter(|line| line.of.is_some() && !line.value.is_empty()).count();
    assert!(of_values > 3);
    assert!(figures(&blocks).count() >= of_values);
}

#[test]
fn as_text_the_steps_are_numbered() {
    let (_, blocks) = fitters("quern-q56", "thistlecut-r90");
    let text = text(&blocks);
    assert!(text.contains("## What is done to the machine\n1. "), "{text}");
    assert!(text.contains("\n2. "));
}
