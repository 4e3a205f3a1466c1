//! What is asked of the solver and what comes back, as text both ways, as between a page and a worker.

use fit::{Conditions, Verdict, order, pair};
use quantity::UnitSystem;
use record::Plate;
use solver::{Answer, Asked, Listing, Machine, Message, Reader, Reply, Request, Solver};
use std::collections::BTreeMap;
use table::{CarrierClass, Table};
use wording::{PlainNumbers, Words};

const DEMO: &str = include_str!("../../../public/table/demo.json");
const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn demo() -> Table {
    table::read(DEMO).table.expect("a table")
}

fn reader() -> Reader {
    Reader { table: "demo".to_owned(), units: UnitSystem::Metric }
}

/// A solver with the demo table.
fn solver() -> Solver {
    let mut solver = Solver::new(&PlainNumbers);
    solver.hear(Message::Table { mark: "demo".to_owned(), text: DEMO.to_owned() });
    solver
}

/// Says something as it is sent: as text.
fn say(solver: &mut Solver, message: &Message) {
    let text = serde_json::to_string(message).expect("written");
    solver.hear(serde_json::from_str(&text).expect("read"));
}

fn ask(solver: &mut Solver, id: u32, request: Request) {
    say(solver, &Message::Ask { id, request });
}

/// What was told, as it arrives: from text.
fn told(solver: &mut Solver) -> Vec<Reply> {
    let arrive = |reply: Reply| {
        let read: Reply = serde_json::from_str(&serde_json::to_string(&reply).expect("written")).expect("read");
        assert_eq!(read, reply, "nothing is lost on the way");
        read
    };
    solver.replies().into_iter().map(arrive).collect()
}

/// All answers to one request.
fn answers(solver: &mut Solver, request: Request) -> Vec<Answer> {
    ask(solver, 1, request);
    while solver.step() {}
    let answers: Vec<_> = told(solver).into_iter().map(|reply| reply.answer).collect();
    assert_eq!(answers.iter().filter(|answer| answer.is_last()).count(), 1, "one end");
    assert!(answers.last().is_some_and(Answer::is_last), "and it comes last");
    answers
}

fn fits(machine: &str, asked: Asked) -> Request {
    Request::Fits { reader: reader(), machine: Machine::OfTable(machine.to_owned()), asked, among: Vec::new() }
}

fn listed(answers: Vec<Answer>) -> Listing {
    let mut listing = Listing::default();
    for answer in answers {
        listing.take(answer, false);
    }
    listing
}

fn heads(listing: &Listing) -> Vec<String> {
    listing.rows().map(|row| row.head.clone()).collect()
}

#[test]
fn a_list_holds_every_attachment_in_the_order_of_its_pairings() {
    let (table, mut solver) = (demo(), solver());
    let conditions = Conditions::of_table(&table);
    for machine in ["quern-q27", "skerry-s11"] {
        let listing = listed(answers(&mut solver, fits(machine, Asked::default())));
        let carrier = table.carrier(machine).expect("a machine");
        let mut pairings: Vec<_> = table.heads.iter().map(|head| pair(carrier, head, &conditions)).collect();
        pairings.sort_by(order);
        let expected: Vec<_> = pairings.iter().map(|pairing| pairing.head.id.to_string()).collect();
        assert_eq!(heads(&listing), expected, "{machine}");
        for (row, pairing) in listing.rows().zip(&pairings) {
            assert_eq!((row.verdict, &row.says), (pairing.verdict, &WORDS.verdict_of(pairing)));
            assert_eq!(row.below, WORDS.row_below(pairing));
            assert_eq!(
                row.price.is_empty(),
                pairing.verdict == Verdict::DoesNotFit || WORDS.row_price(pairing).is_empty()
            );
        }
        assert!(listing.is_complete() && listing.is_in_order() && listing.room() == 0);
        assert_eq!((listing.checked, listing.total), (table.heads.len(), table.heads.len()));
    }
}

#[test]
fn what_is_seen_at_once_comes_before_what_takes_a_search() {
    let (table, mut solver) = (demo(), solver());
    let conditions = Conditions::of_table(&table);
    let judge = fit::Judge::new(&conditions);
    let carrier = table.carrier("quern-q27").expect("a machine");
    let answers = answers(&mut solver, fits("quern-q27", Asked::default()));
    let Answer::Rows { rows, .. } = &answers[0] else { panic!("rows first") };
    let at_once: Vec<bool> =
        rows.iter().map(|row| judge.is_seen_at_once(carrier, table.head(&row.head).expect("an attachment"))).collect();
    let first_search = at_once.iter().position(|at_once| !at_once).expect("some take a search");
    assert!(first_search > 0 && at_once[first_search..].iter().all(|at_once| !at_once), "{at_once:?}");
    for row in &rows[..first_search] {
        assert!(matches!(row.verdict, Verdict::Fits | Verdict::DoesNotFit), "{}: {:?}", row.head, row.verdict);
    }
}

#[test]
fn rows_are_told_as_they_come_and_nothing_is_told_twice() {
    let mut solver = solver();
    ask(&mut solver, 7, fits("quern-q27", Asked::default()));
    let (mut listing, mut parts, mut before) = (Listing::default(), 0, 0);
    let mut stood = (Vec::new(), Vec::new());
    loop {
        let more = solver.step();
        for reply in told(&mut solver) {
            assert_eq!(reply.id, 7);
            listing.take(reply.answer, false);
        }
        assert!(listing.checked >= before, "it only grows");
        parts += usize::from(listing.checked > before);
        before = listing.checked;
        if more {
            let works = |row: &&std::sync::Arc<solver::Row>| row.verdict <= Verdict::FitsAfterChanges;
            assert!(listing.above().all(|row| works(&row)) && !listing.below().any(|row| works(&row)));
            let above: Vec<_> = listing.above().map(|row| row.head.clone()).collect();
            let below: Vec<_> = listing.below().map(|row| row.head.clone()).collect();
            assert!(
                above.starts_with(&stood.0) && below.ends_with(&stood.1),
                "what stands stays, from above and from below"
            );
            assert_eq!(above.len() + listing.room() + below.len(), listing.total);
            stood = (above, below);
        }
        if !more {
            break;
        }
    }
    assert!(parts > 30, "in {parts} parts");
    assert_eq!(listing.rows().count(), demo().heads.len());
    assert!(told(&mut solver).is_empty());
}

#[test]
fn a_list_that_was_touched_stands_still_until_it_is_asked_for() {
    let mut solver = solver();
    let mut listing = Listing::default();
    for answer in answers(&mut solver, fits("quern-q56", Asked::default())) {
        listing.take(answer, true);
    }
    let stood = heads(&listing);
    assert!(listing.is_complete() && !listing.is_in_order());
    listing.put_in_order();
    assert!(listing.is_in_order());
    assert_ne!(heads(&listing), stood);
    let in_order = listed(answers(&mut solver, fits("quern-q56", Asked::default())));
    assert_eq!(heads(&listing), heads(&in_order));
}

#[test]
fn an_answer_that_nobody_waits_for_is_not_worked_out() {
    let mut solver = solver();
    ask(&mut solver, 1, fits("quern-q27", Asked::default()));
    solver.step();
    say(&mut solver, &Message::Stop { id: 1 });
    assert!(!solver.step(), "nothing is left to do");
    assert!(told(&mut solver).is_empty());
}

#[test]
fn requests_take_turns() {
    let mut solver = solver();
    ask(&mut solver, 1, fits("quern-q27", Asked::default()));
    let table = DEMO.to_owned();
    ask(&mut solver, 2, Request::Pair { table, carrier: "quern-q56".to_owned(), head: "thistlecut-r90".to_owned() });
    solver.step();
    solver.step();
    let second: Vec<_> = told(&mut solver).into_iter().filter(|reply| reply.id == 2).collect();
    let [Reply { answer: Answer::Json(json), .. }] = second.as_slice() else { panic!("answered before the list ends") };
    assert_eq!(*json, wording::Desk::default().pair(DEMO, "quern-q56", "thistlecut-r90"));
    assert!(solver.step(), "the list goes on");
}

#[test]
fn what_is_looked_for_is_all_that_is_listed() {
    let (table, mut solver) = (demo(), solver());
    let stems = Asked { material: "stems".to_owned(), thickness: "100".to_owned(), ..Asked::default() };
    let listing = listed(answers(&mut solver, fits("quern-q56", stems)));
    assert!(heads(&listing).contains(&"thistlecut-r90".to_owned()));
    assert!(listing.rows().any(|row| row.unsaid) && listing.rows().any(|row| !row.unsaid));
    assert!(listing.total < table.heads.len());
    let few = Asked { changes: Some(1), ..Asked::default() };
    let listing = listed(answers(&mut solver, fits("quern-q56", few)));
    assert!(listing.rows().all(|row| row.verdict != Verdict::DoesNotFit));
    assert_eq!(listing.checked, table.heads.len(), "all are checked, few are shown");
    let light = Asked { order: fit::ListOrder::Mass, ..Asked::default() };
    let listing = listed(answers(&mut solver, fits("quern-q56", light)));
    let masses: Vec<_> = heads(&listing)
        .iter()
        .filter_map(|id| Some(quantity::Quantity::si(table.head(id)?.mass.as_ref()?.nominal)))
        .collect();
    assert!(masses.is_sorted() && masses.len() > 30);
}

#[test]
fn where_nothing_is_left_it_is_told_what_keeps_it_away() {
    let mut solver = solver();
    let of_kind =
        Asked { kind: Some(table::HeadKind::RotaryCutter), stock: true, changes: Some(0), ..Asked::default() };
    let listing = listed(answers(&mut solver, fits("quern-q56", of_kind.clone())));
    assert_eq!(listing.rows().count(), 0);
    let told = listing.loosen.join(" ");
    assert!(told.contains("Without the kind: ") && told.contains("Without a limit to the changes: "), "{told}");
    assert!(!told.contains("the name") && !told.contains("the width"), "only what is set: {told}");
    // Without that limit there are some indeed.
    let without = Asked { changes: None, ..of_kind };
    let listing = listed(answers(&mut solver, fits("quern-q56", without)));
    assert!(listing.rows().count() > 0 && listing.loosen.is_empty());
}

#[test]
fn of_a_class_it_is_told_what_decides_and_of_a_machine_it_is_not() {
    let mut solver = solver();
    assert_eq!(listed(answers(&mut solver, fits("any-wheel-loader", Asked::default()))).decide.len(), 3);
    assert!(listed(answers(&mut solver, fits("quern-q27", Asked::default()))).decide.is_empty());
}

#[test]
fn the_machines_for_an_attachment_come_with_the_smallest_that_runs_it() {
    let mut solver = solver();
    let plate = Plate::like(DEMO, "quern-q56", ("7".to_owned(), "Ours".to_owned(), "2026-01-01T00:00:00Z".to_owned()));
    let plate = plate.expect("a plate");
    let own = vec![plate.clone()];
    let request = Request::Machines { reader: reader(), head: "thistlecut-r60".to_owned(), own: own.clone() };
    let listing = listed(answers(&mut solver, request));
    let smallest = listing.rows().next().expect("one").clone();
    assert!(listing.says.contains(&smallest.name), "{}", listing.says);
    let ours = listing.rows().find(|row| row.carrier == plate.carrier_id()).expect("one's own");
    assert_eq!(ours.stock.as_deref(), Some("your own"));
    let request = Request::RunsOn { reader: reader(), heads: vec!["thistlecut-r60".to_owned()], own };
    let runs = answers(&mut solver, request);
    let Answer::RunsOn { says, .. } = &runs[0] else { panic!("a sentence") };
    assert!(says.contains(&smallest.name), "{says}");
}

#[test]
fn a_plate_is_told_its_questions_its_rows_and_a_first_answer() {
    let (table, mut solver) = (demo(), solver());
    let id = ("7".to_owned(), "Ours".to_owned(), "2026-01-01T00:00:00Z".to_owned());
    let blank = Plate::blank(id.0, CarrierClass::MiniExcavator, id.1, id.2);
    let figures = BTreeMap::from([("operating-mass".to_owned(), "2700 kg".to_owned())]);
    let plate = Plate { figures, ..blank };
    let request = |plate: &Plate, questions| Request::Plate {
        reader: reader(),
        plate: plate.clone(),
        among: vec!["thistlecut-r60".to_owned(), "pebblegate-k70".to_owned()],
        questions,
        typical: true,
    };
    let all = answers(&mut solver, request(&plate, true));
    assert!(matches!(&all[0], Answer::Rows { rows, checked: 6, total: 6 } if rows.len() == 2), "{:?}", all[0]);
    let Answer::Typical(Some(typical)) = &all[1] else { panic!("a first answer before all else: {all:?}") };
    assert!(table.carriers.iter().any(|carrier| typical.name.contains(&carrier.model)), "{}", typical.name);
    assert_eq!(typical.verdicts.len(), 2);
    assert!(table.carrier(&typical.carrier).is_some_and(|carrier| typical.name.contains(&carrier.model)));
    assert!(matches!(&all[2], Answer::Questions(asked) if !asked.is_empty()));
    // Without a mass there is none.
    let bare = Plate { figures: BTreeMap::new(), ..plate };
    let all = answers(&mut solver, request(&bare, false));
    assert!(all.contains(&Answer::Typical(None)) && !all.iter().any(|answer| matches!(answer, Answer::Questions(_))));
}

#[test]
fn a_machine_changed_on_its_plate_is_solved_anew() {
    let mut solver = solver();
    let id = ("7".to_owned(), "Ours".to_owned(), "2026-01-01T00:00:00Z".to_owned());
    let plate = Plate::like(DEMO, "quern-q27", id).expect("a plate");
    let request = |plate: &Plate| Request::Fits {
        reader: reader(),
        machine: Machine::Own(plate.clone()),
        asked: Asked::default(),
        among: vec!["thistlecut-r60".to_owned()],
    };
    let first = |listing: Listing| listing.rows().next().expect("one").below.clone();
    let before = first(listed(answers(&mut solver, request(&plate))));
    let mut figures = plate.figures.clone();
    let mass = figures.get_mut("operating-mass").expect("its mass");
    *mass = "700 kg".to_owned();
    let after = first(listed(answers(&mut solver, request(&Plate { figures, ..plate }))));
    assert_ne!(before, after);
}

#[test]
fn a_whole_machine_is_told_to_a_script_best_first() {
    let (table, mut solver) = (demo(), solver());
    let request = |carrier: &str| Request::List { table: DEMO.to_owned(), carrier: carrier.to_owned() };
    let all = answers(&mut solver, request("quern-q27"));
    let [Answer::Json(json)] = all.as_slice() else { panic!("JSON") };
    let list: Vec<serde_json::Value> = serde_json::from_str(json).expect("an array");
    assert_eq!(list.len(), table.heads.len());
    let conditions = Conditions::of_table(&table);
    let best = table.heads.iter().map(|head| pair(table.carrier("quern-q27").expect("a machine"), head, &conditions));
    assert_eq!(list[0].to_string().len(), best.min_by(order).expect("one").to_json().len());
    let refused = answers(&mut solver, request("quem-q27"));
    assert!(matches!(&refused[0], Answer::Json(json) if json.contains(r#""code":"unknown-carrier""#)));
    let check = answers(&mut solver, Request::Check { table: "{".to_owned() });
    assert!(matches!(&check[0], Answer::Json(json) if json.contains(r#""usable":false"#)));
}

#[test]
fn what_is_asked_of_no_known_table_or_machine_ends() {
    let mut solver = solver();
    assert_eq!(answers(&mut solver, fits("no-such-machine", Asked::default())), [Answer::Done]);
    let reader = Reader { table: "another".to_owned(), units: UnitSystem::Metric };
    let request = Request::RunsOn { reader, heads: Vec::new(), own: Vec::new() };
    assert_eq!(answers(&mut solver, request), [Answer::Done]);
    say(&mut solver, &Message::Table { mark: "bad".to_owned(), text: "{".to_owned() });
    assert!(!solver.step());
}

#[test]
fn what_to_fill_in_next_comes_after_every_pairing_was_looked_at_and_tells_how_far_it_has_come() {
    let (table, mut solver) = (demo(), solver());
    let total = table.carriers.iter().filter(|carrier| !carrier.generic).count() * table.heads.len();
    ask(&mut solver, 1, Request::FillNext { reader: reader(), most: 4 });
    for _ in 0..100 {
        assert!(solver.step());
    }
    let so_far: Vec<_> = told(&mut solver).into_iter().map(|reply| reply.answer).collect();
    assert_eq!(so_far, vec![Answer::SoFar { checked: 100, total }]);
    assert_eq!(told(&mut solver), Vec::new(), "nothing is told twice");
    while solver.step() {}
    let all = told(&mut solver);
    let [Reply { id: 1, answer: Answer::FillNext(text) }] = &all[..] else { panic!("{all:?}") };
    assert_eq!((text.columns.len(), text.entries.len()), (4, 4));
    let conditions = Conditions::of_table(&table);
    let named = table.carriers.iter().filter(|carrier| !carrier.generic);
    let pairs = named.flat_map(|carrier| table.heads.iter().map(move |head| (carrier, head)));
    let open = pairs.filter(|(carrier, head)| pair(carrier, head, &conditions).verdict == Verdict::CannotSay).count();
    assert_eq!(text.says[0], format!("Of {total} pairings, {open} cannot be said yet."));
    // A newer question stops it.
    ask(&mut solver, 2, Request::FillNext { reader: reader(), most: 4 });
    assert!(solver.step());
    say(&mut solver, &Message::Stop { id: 2 });
    assert!(!solver.step() && told(&mut solver).is_empty());
}
