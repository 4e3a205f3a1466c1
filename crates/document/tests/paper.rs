//! The papers as documents: every step ticked once, every setting with room for what was found and set, every page by its running head.

use document::{Block, Form, Given, Letter, Look, Papers, Slot, Step, figures, quotation_of, text, titles};
use fit::{Conditions, Pairing, Verdict, pair};
use handover::{Circumstances, FunctionCheck, Measurement, Planned, function_checks, plan, standing};
use quantity::{Quantity, Ratio, UnitSystem};
use record::HandOver;
use table::{Carrier, Head, Table};
use wording::{PARTS_COLUMNS, PlainNumbers, Words};
use workshop::{FirstStep, Sheets, Step as Switch, Task};

const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

/// The acceptance installation, a rich one, one that fits as it is, one that cannot be said, one that does not fit.
const CASES: [(&str, &str); 5] = [
    ("quern-q27", "thistlecut-r60"),
    ("quern-q56", "thistlecut-r90"),
    ("quern-q27", "pebblegate-k70"),
    ("quern-q09", "thistlecut-r60"),
    ("orrin-e78", "thistlecut-r90"),
];

struct Case {
    table: Table,
    conditions: Conditions,
    carrier: Carrier,
    head: Head,
    pairing: Pairing,
    sheets: Sheets,
    planned: Vec<Planned>,
    given: Given,
}

impl Case {
    fn of((carrier, head): (&str, &str)) -> Self {
        let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
        let conditions = Conditions::of_table(&table);
        let (carrier, head) = (table.carrier(carrier).expect("a machine"), table.head(head).expect("an attachment"));
        let (carrier, head) = (carrier.clone(), head.clone());
        let pairing = pair(&carrier, &head, &conditions);
        let sheets = Sheets::of(&pairing, &carrier, &head, &conditions);
        let planned = plan(&pairing, &carrier, &head, &conditions, &Circumstances::default());
        let given = Given {
            machine_serial: "M-17".to_owned(),
            job: "J-4711".to_owned(),
            made: "30 Nov 2026".to_owned(),
            table: "Yard table".to_owned(),
            mark: "657e2d74".to_owned(),
            ..Given::default()
        };
        Self { table, conditions, carrier, head, pairing, sheets, planned, given }
    }

    fn papers(&self) -> Papers<'_> {
        let Self { conditions, carrier, head, pairing, sheets, planned, given, .. } = self;
        Papers { words: WORDS, pairing, carrier, head, conditions, sheets, planned, given }
    }

    fn letter(&self) -> Letter {
        let dealer = self.table.dealer.as_ref().expect("a dealer");
        Letter {
            name: dealer.name.clone(),
            logo: dealer.logo.clone().unwrap_or_default(),
            tax_name: "VAT".to_owned(),
            tax: Some(Ratio::from_si(0.2)),
            number: "20261130-1542".to_owned(),
            day: "30 Nov 2026".to_owned(),
            valid_until: "30 Dec 2026".to_owned(),
            ..Letter::default()
        }
    }
}

/// Every block, those within pages too.
fn all(blocks: &[Block]) -> Vec<&Block> {
    let mut found = Vec::new();
    for block in blocks {
        found.push(block);
        if let Block::Page { inside, .. } | Block::Together(inside) = block {
            found.extend(all(inside));
        }
    }
    found
}

fn forms(blocks: &[Block]) -> Vec<&Form> {
    all(blocks).into_iter().filter_map(|block| if let Block::Form(form) = block { Some(form) } else { None }).collect()
}

fn steps(blocks: &[Block]) -> Vec<&[Step]> {
    all(blocks)
        .into_iter()
        .filter_map(|block| if let Block::Steps(steps) = block { Some(&steps[..]) } else { None })
        .collect()
}

fn form<'a>(blocks: &'a [Block], name: &str) -> &'a Form {
    forms(blocks).into_iter().find(|form| form.name == name).unwrap_or_else(|| panic!("{name}"))
}

#[test]
fn every_step_is_ticked_once_in_its_order_and_waits_for_none_that_comes_later() {
    for case in CASES.map(Case::of) {
        let blocks = case.papers().fitters();
        for list in steps(&blocks) {
            let numbers: Vec<_> = list.iter().map(|step| step.number).collect();
            assert_eq!(numbers, (1..=list.len()).collect::<Vec<_>>());
            for step in list {
                assert!(step.after.is_none_or(|after| after < step.number), "{step:?}");
            }
        }
        let Some(job) = &case.sheets.job else { continue };
        let work = steps(&blocks).into_iter().max_by_key(|list| list.len()).expect("the work");
        assert_eq!(work.len(), job.work.len());
        // Every change that is fitted and every step of the first start stands there; what is shut down already is not shut down twice.
        for change in case.pairing.changes.iter().filter(|change| !change.id.is_setting()) {
            let fits = job.work.iter().filter(|step| step.task == Task::Fit { change: change.id });
            assert_eq!(fits.count(), 1, "{:?}", change.id);
        }
        let once = |step: &&FirstStep| !matches!(step, FirstStep::Switch { .. });
        for step in job.first_start.iter().filter(once) {
            let found = job.work.iter().filter(|known| known.task == Task::Step { does: step.clone() });
            assert_eq!(found.count(), 1, "{step:?}");
        }
    }
}

#[test]
fn invariant_the_machine_is_locked_out_before_anything_is_opened_or_fitted() {
    let mut fitted = 0;
    for case in CASES.map(Case::of) {
        let Some(job) = &case.sheets.job else { continue };
        let place = |wanted: &dyn Fn(&Task) -> bool| job.work.iter().position(|step| wanted(&step.task));
        let locked = place(&|task| matches!(task, Task::Step { does: FirstStep::Switch { does: Switch::LockOut } }));
        let opened = place(&|task| match task {
            Task::Fit { .. } => true,
            Task::Step { does } => matches!(
                does,
                FirstStep::FillTank | FirstStep::JoinLoop { .. } | FirstStep::Positions { .. } | FirstStep::TracePorts
            ),
        });
        assert!(locked < opened && locked.is_some(), "{locked:?} {opened:?}");
        for step in &job.work {
            if matches!(step.task, Task::Fit { .. }) {
                assert_eq!(step.after, locked, "it waits for the lock-out");
                fitted += 1;
            }
        }
    }
    assert!(fitted > 5);
}

#[test]
fn every_setting_has_what_it_is_set_to_and_room_for_what_was_found_and_set() {
    for case in CASES.map(Case::of) {
        let blocks = case.papers().fitters();
        let Some(job) = case.sheets.job.as_ref().filter(|job| !job.settings.values.is_empty()) else { continue };
        let found = form(&blocks, "What is to be set");
        assert_eq!(found.head, ["Change", "Setting", "Set to", "Found", "Set", "By"]);
        assert_eq!(found.rows.len(), job.settings.values.len());
        for row in &found.rows {
            assert!(matches!(&row[2], Slot::Says(spans) if !spans[0].text().is_empty()), "{row:?}");
            assert_eq!(row[3..], [Slot::Blank, Slot::Blank, Slot::Blank]);
        }
    }
}

#[test]
fn invariant_the_lists_of_the_sheet_are_those_of_the_hand_over() {
    for case in CASES.map(Case::of) {
        let blocks = case.papers().fitters();
        let rows: Vec<_> = forms(&blocks)
            .into_iter()
            .filter(|form| form.head == ["Reading", "Expected", "Limit", "Read", "By"])
            .flat_map(|form| &form.rows)
            .collect();
        assert_eq!(rows.len(), case.planned.len());
        let said = |slot: &Slot| match slot {
            Slot::Says(spans) | Slot::More(spans, _) => spans.iter().map(document::Span::text).collect(),
            Slot::Blank | Slot::Tick => String::new(),
        };
        for planned in &case.planned {
            let name = WORDS.measurement(planned.what);
            let row = rows.iter().find(|row| said(&row[0]) == name).expect(name);
            // The very words that the screen of the hand-over shows.
            if let (workshop::Found::Expected { .. }, Some(expected)) =
                (&planned.reading.found, WORDS.expected_of(&planned.reading))
            {
                assert_eq!(said(&row[1]), expected);
            }
            if let Some(limit) = WORDS.limit_of_reading(&planned.reading) {
                assert_eq!(said(&row[2]), limit);
            }
            assert_eq!(row[3..], [Slot::Blank, Slot::Blank]);
        }
    }
}

#[test]
fn no_figure_is_told_in_two_ranges() {
    let case = Case::of(CASES[0]);
    let fitters = text(&case.papers().fitters());
    assert!(fitters.contains("0.8 to 3.3 bar"), "{fitters}");
    for wrong in ["0.7 to 3.4", "82 °C", "209 bar"] {
        assert!(!fitters.contains(wrong), "{wrong}");
    }
    // What was judged for the hottest oil and where a reading stops are one figure.
    assert!(fitters.contains("up to 80 °C") && fitters.contains("at most 80 °C"));
}

#[test]
fn invariant_the_running_head_names_machine_attachment_job_date_and_table() {
    for case in CASES.map(Case::of) {
        let head = case.papers().running_head("Fitter's sheet");
        assert_eq!(head.start[0], format!("{} · serial M-17", case.carrier.full_name()));
        assert_eq!(head.start[1], format!("{} · serial ____________", case.head.full_name()), "to be written by hand");
        assert_eq!(head.end, ["Job J-4711".to_owned(), "30 Nov 2026".to_owned()]);
        assert_eq!(head.foot, "Fitter's sheet · Yard table · 657e2d74");
    }
}

#[test]
fn a_title_block_has_no_empty_cell() {
    for case in CASES.map(Case::of) {
        let (papers, letter) = (case.papers(), case.letter());
        for blocks in [papers.fitters(), papers.for_the_stores(), papers.for_the_customer(&letter)] {
            let mut seen = 0;
            for block in all(&blocks) {
                if let Block::Facts { look: Look::TitleBlock, facts } = block {
                    seen += 1;
                    for fact in facts {
                        assert!(
                            !fact.says.is_empty() && fact.says.iter().all(|span| !span.text().trim().is_empty()),
                            "{fact:?}"
                        );
                    }
                }
            }
            assert_eq!(seen, 1);
        }
    }
}

#[test]
fn the_circuit_stands_on_a_page_of_its_own_with_the_numbers_of_the_changes() {
    let case = Case::of(CASES[0]);
    let blocks = case.papers().fitters();
    let Block::Page { inside, .. } = &blocks[1] else { panic!("a page") };
    assert!(matches!(&inside[0], Block::Heading { text, .. } if text == "The circuit, after the changes"));
    let Some(Block::Picture { picture, said }) =
        all(inside).into_iter().find(|block| matches!(block, Block::Picture { .. }))
    else {
        panic!("the circuit")
    };
    for number in 1..=case.pairing.changes.len() {
        assert!(picture.texts.iter().any(|text| text.text == number.to_string()), "{number}");
    }
    assert!(!said.is_empty());
    // Where nothing goes to work there is none.
    for case in CASES.map(Case::of).iter().filter(|case| case.sheets.job.is_none()) {
        assert!(!titles(&case.papers().fitters()).iter().any(|title| title.starts_with("The circuit")));
    }
}

#[test]
fn invariant_nobody_is_told_to_start_where_it_cannot_be_said() {
    let mut seen = 0;
    for case in CASES.map(Case::of) {
        if matches!(case.pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges) {
            continue;
        }
        seen += 1;
        let blocks = case.papers().fitters();
        let told = text(&blocks);
        assert!(told.contains("nothing is ordered and nothing is fitted"), "{told}");
        assert!(!told.contains("The work, in order") && !told.contains("List A"), "{told}");
        assert!(!text(&case.papers().for_the_customer(&case.letter())).contains("Accepted by"));
        if case.pairing.verdict == Verdict::CannotSay {
            let open = form(&blocks, "What is to be found out");
            assert!(open.rows.iter().all(|row| row[0] == Slot::Tick && row[2..] == [Slot::Blank, Slot::Blank]));
        }
    }
    assert!(seen > 0);
}

#[test]
fn the_parts_list_has_a_row_for_everything_from_a_shelf_and_says_the_same_as_a_file() {
    let case = Case::of(CASES[0]);
    let blocks = case.papers().for_the_stores();
    let rows = WORDS.parts_list(&case.sheets.changes);
    let list = form(&blocks, "Parts");
    assert_eq!(list.rows.len(), rows.len());
    assert!(list.rows.iter().all(|row| row[0] == Slot::Tick && row.len() == list.head.len()));
    let line = rows.iter().find(|row| row.part.starts_with("Changeover valve")).expect("the line");
    assert_eq!(
        (line.size.as_str(), line.threads.as_str(), line.number.as_str()),
        ("bore 19 mm, 4.2 m long", "in M30x2 (ISO 8434-1) and out M33x2 (ISO 6149)", "R-1906")
    );
    assert!(line.note.contains("hip restraints come with it"), "{}", line.note);
    let csv = WORDS.parts_csv(&rows);
    assert_eq!(csv.lines().count(), rows.len() + 1);
    assert!(csv.starts_with(&format!("\"{}\",\"Size\"", PARTS_COLUMNS[0])), "{csv}");
}

#[test]
fn invariant_a_text_of_a_table_is_no_formula_of_a_spreadsheet() {
    let row = wording::PartRow { part: "=HYPERLINK(\"x\")".to_owned(), note: "a\"b".to_owned(), ..Default::default() };
    let csv = WORDS.parts_csv(&[row]);
    assert!(csv.ends_with("\"'=HYPERLINK(\"\"x\"\")\",\"\",\"\",\"\",\"\",\"\",\"\",\"a\"\"b\"\r\n"), "{csv}");
}

#[test]
fn a_quotation_adds_up_line_by_line_with_its_tax() {
    let case = Case::of(CASES[0]);
    let blocks = case.papers().for_the_customer(&case.letter());
    let offer = form(&blocks, "What is done, with its price");
    let figure = |slot: &Slot| -> u64 {
        let Slot::Says(spans) = slot else { panic!("{slot:?}") };
        let text: String =
            spans[0].text().split(" · ").next().expect("a price").chars().filter(char::is_ascii_digit).collect();
        text.parse().expect("a price")
    };
    let mut sum = 0;
    for row in &offer.rows {
        assert_eq!(figure(&row[2]) + figure(&row[3]), figure(&row[4]), "{row:?}");
        sum += figure(&row[4]);
    }
    let foot: Vec<_> = offer.foot.iter().map(|row| figure(&row[4])).collect();
    assert_eq!(foot, [sum, sum / 5, sum + sum / 5]);
    let told = text(&blocks);
    for words in [
        "20261130-1542",
        "Valid until: 30 Dec 2026",
        "VAT, 20 %",
        "Included:",
        "What is proved when it is handed over. Flow, ",
        "Labour at EUR 68.00 an hour",
        "Accepted by",
        "What to know before work",
    ] {
        assert!(told.contains(words), "{words}: {told}");
    }
    // A page for one pairing, two for several.
    assert_eq!(blocks.iter().filter(|block| matches!(block, Block::Page { .. })).count(), 1);
    let other = Case::of(CASES[1]);
    let both = [case.papers(), other.papers()];
    let several = quotation_of(&both, &case.letter());
    assert_eq!(several.len(), 2);
    assert_eq!(form(&several, "Side by side").rows.len(), 2);
    // No caution is told twice, and one that holds of one machine alone stands under its name.
    let (first, rest) =
        text(&several[1..]).split_once("## What to know").map(|(a, b)| (a.to_owned(), b.to_owned())).expect("cautions");
    assert!(first.contains("816 kg may hang there") && !rest.contains("may hang there"), "{first}{rest}");
    assert_eq!(rest.matches("Catch spilt oil").count(), 1);
}

#[test]
fn the_card_for_the_cab_has_every_position_and_every_step_back() {
    let case = Case::of(CASES[0]);
    let blocks = case.papers().for_the_cab();
    let told = text(&blocks);
    let job = case.sheets.job.as_ref().expect("it goes to work");
    assert_eq!(form(&blocks, "How it stands").rows.len(), job.settings.positions.len());
    for step in &job.switch_back.off {
        assert!(told.contains(&WORDS.step(step).title), "{step:?}");
    }
    assert!(told.contains("Set the relief of the circuit: 210 bar"), "{told}");
}

#[test]
fn the_record_is_two_pages_and_what_may_be_wrong_a_third() {
    let case = Case::of(CASES[0]);
    let mut record =
        HandOver::blank("a".to_owned(), "2026-11-27T10:00:00Z".to_owned(), (&case.table, "m"), &case.pairing, None);
    record.write(Measurement::OutletWorking, "1.4", UnitSystem::Metric);
    record.write_answer(FunctionCheck::Stops, Some(true));
    let asked = function_checks(&case.pairing, &case.head);
    let stands = standing(&case.planned, &record.reads(), &asked, |check| record.answer(check), record.is_signed());
    let papers = case.papers();
    let blocks = papers.record(&record, &asked, &stands, None);
    assert_eq!(blocks.len(), 2);
    let read = form(&blocks, "What was read");
    assert_eq!(read.rows.len(), case.planned.len());
    let set = form(&blocks, "What was set");
    assert!(set.rows.iter().all(|row| row[2..] == [Slot::Blank, Slot::Blank, Slot::Blank]));
    let told = text(&blocks);
    assert!(told.contains("Back pressure, at work | 0.8 to 3.3 bar | at most 3.9 bar | 1.4 bar | met"), "{told}");
    let signatures =
        handover::Signatures::of(&case.pairing, &case.carrier, &case.head, &case.conditions, &record.circumstances());
    let found = signatures.diagnose(&record.reads());
    let blocks = papers.record(&record, &asked, &stands, Some(&found));
    assert_eq!(blocks.len(), 3);
    assert!(text(&blocks[2..]).contains("not for the customer"));
    assert!(!text(&blocks[..2]).contains(WORDS.what_may_be_wrong()));
}

#[test]
fn what_is_set_and_what_it_takes_open_their_reasoning() {
    let case = Case::of(CASES[1]);
    let job = case.sheets.job.as_ref().expect("it goes to work");
    let fitted = case.pairing.changes.iter().filter(|change| !change.id.is_setting()).count();
    assert_eq!(figures(&case.papers().fitters()).count(), job.settings.values.len() + fitted);
}
