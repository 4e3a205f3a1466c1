//! A comparison as a table, natively.

use document::{Block, Cell, Column, compared, figures, text};
use explain::FigureId;
use fit::{CheckId, Conditions, Pairing, Verdict, pair};
use quantity::{Named, UnitSystem};
use wording::{PlainNumbers, Words};

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn pairings(of: &[(&str, &str)]) -> Vec<Pairing> {
    let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
    let conditions = Conditions::of_table(&table);
    let one = |(machine, head): &(&str, &str)| {
        pair(table.carrier(machine).expect("a machine"), table.head(head).expect("an attachment"), &conditions)
    };
    of.iter().map(one).collect()
}

fn table_of(pairings: &[Pairing], one: bool, only_differing: bool) -> Block {
    let column = |pairing| Column {
        pairing,
        name: pairing.head.model.clone(),
        on: (!one).then(|| pairing.carrier.model.clone()),
        to: format!("#/{}", pairing.head.id),
        is_unchecked: true,
    };
    compared(&WORDS, &pairings.iter().map(column).collect::<Vec<_>>(), only_differing)
}

const THREE: [(&str, &str); 3] =
    [("quern-q56", "thistlecut-r90"), ("quern-q56", "thistlecut-r60"), ("quern-q56", "wrackline-b45")];

#[test]
fn every_check_has_a_row_and_every_pairing_a_cell_in_each() {
    let all = pairings(&THREE);
    let Block::Table { head, rows, foot, .. } = table_of(&all, true, false) else { panic!("a table") };
    assert_eq!(head.iter().filter_map(|cell| cell.to.clone()).count(), 3);
    assert!(rows.iter().chain(&foot).all(|row| row.cells.len() == 3));
    for &id in CheckId::ALL {
        let row = rows.iter().find(|row| row.name == WORDS.check_title(id)).expect("its row");
        for (cell, pairing) in row.cells.iter().zip(&all) {
            assert_eq!(cell.outcome, pairing.final_check(id).map(|check| check.outcome), "{id:?}");
        }
    }
    assert_eq!(
        rows[0].cells.iter().filter_map(|cell| cell.mark).collect::<Vec<Verdict>>(),
        all.iter().map(|p| p.verdict).collect::<Vec<_>>()
    );
}

#[test]
fn only_what_differs_is_left_when_asked_and_all_of_it() {
    let all = pairings(&THREE);
    let rows = |only| match table_of(&all, true, only) {
        Block::Table { rows, .. } => rows,
        _ => panic!("a table"),
    };
    let (whole, differing) = (rows(false), rows(true));
    let names = |rows: &[document::Row]| rows.iter().map(|row| row.name.clone()).collect::<Vec<_>>();
    let expected: Vec<_> =
        whole.iter().enumerate().filter(|(at, row)| *at == 0 || row.differs).map(|(_, row)| row.name.clone()).collect();
    assert_eq!(names(&differing), expected);
    assert!(differing.len() < whole.len() && differing.len() > 5);
    // Of the same pairing twice nothing differs.
    let twice = pairings(&[THREE[0], THREE[0]]);
    let Block::Table { rows, .. } = table_of(&twice, true, true) else { panic!("a table") };
    assert_eq!(rows.len(), 1, "the verdicts stand all the same");
}

#[test]
fn a_figure_is_of_the_pairing_of_its_column() {
    let all = pairings(&THREE);
    let table = table_of(&all, true, false);
    let costs: Vec<_> = figures(std::slice::from_ref(&table))
        .filter(|(_, of)| *of == FigureId::Cost)
        .map(|(column, _)| column)
        .collect();
    let changed: Vec<_> = (0..3).filter(|&column| !all[column].changes.is_empty()).collect();
    assert!(changed.iter().all(|column| costs.contains(column)), "{costs:?} of {changed:?}");
    assert!(costs.iter().all(|column| changed.contains(column)));
}

#[test]
fn machines_stand_in_the_head_where_there_are_several_and_say_when_nobody_checked_them() {
    let all = pairings(&[("quern-q27", "thistlecut-r60"), ("quern-q56", "thistlecut-r60")]);
    let read = text(&[table_of(&all, false, false)]);
    let first = read.lines().next().expect("its head");
    assert!(first.contains("on QU 27; figures not checked | ") && first.contains("on QU 56"), "{first}");
    assert!(!text(&[table_of(&all, true, false)]).contains("not checked"));
    assert!(!Cell::says("1").says_the_same(&Cell::says("2")));
}
