//! Spreadsheets in layouts of their own, as dealers have them.

use crate::of_csv;
use quantity::{Unit, VolumeRate};
use spreadsheet::{Answers, CellFault, Imported, LeftOut, Mark, Question, Role, import};
use table::{Carrier, CarrierClass, HeadKind, Severity, Table};

fn table(imported: &Imported) -> &Table {
    imported.outcome.table.as_ref().expect("a table")
}

#[track_caller]
fn is_clean(imported: &Imported) {
    assert!(
        imported.problems.is_empty() && imported.questions.is_empty(),
        "{:#?}\n{:#?}",
        imported.problems,
        imported.questions
    );
}

fn figures(carrier: &Carrier) -> Vec<String> {
    let json = serde_json::to_value(carrier).expect("JSON");
    let circuits = json["circuits"].as_array().expect("circuits");
    circuits
        .iter()
        .map(|circuit| {
            format!("{} {}", circuit["flow"].as_str().unwrap_or("-"), circuit["relief"].as_str().unwrap_or("-"))
        })
        .collect()
}

#[test]
fn machines_in_plain_words_with_units_above() {
    let imported = of_csv(
        "Maker;Model;Type;Weight (kg);Engine power (kW);Aux flow [L/min];Aux pressure [bar];Coupling size (in);Case drain;Stock\n\
         Orrin Bay;OB 36;Mini excavator;3.640;21,5;62;215;1/2;no;bay 4\n\
         Orrin Bay;OB 78;Digger;7.800;44;n/a;-;3/4;yes;\n",
    );
    is_clean(&imported);
    let [small, large] = &table(&imported).carriers[..] else { panic!("two machines") };
    assert_eq!(small.id.as_str(), "orrin-bay-ob-36");
    // The engine's 21,5 shows what the points in the weights are.
    assert_eq!(
        small.operating_mass.map(|mass| Unit::Kilogram.of_si(quantity::Quantity::si(mass.nominal)).round()),
        Some(3640.0)
    );
    assert_eq!(figures(small), ["62 L/min 215 bar"]);
    // A digger of 7.8 t is what its mass says.
    assert_eq!(large.class, table::CarrierClass::MidiExcavator);
    assert!(large.circuits[0].flow.is_none() && large.circuits[0].coupling.is_some());
    assert_eq!(small.stock.as_deref(), Some("bay 4"));
    assert_eq!(large.stock, None);
}

#[test]
fn several_rows_are_several_circuits_of_one_machine() {
    let imported = of_csv(
        "Make,Model,Class,Circuit,Aux flow,Relief\n\
         Quern,Q 90,midi-excavator,first,90 L/min,230 bar\n\
         Quern,Q 90,midi-excavator,second,45 L/min,210 bar\n\
         Quern,Q 50,mini-excavator,first,70 L/min,210 bar\n",
    );
    is_clean(&imported);
    let carriers = &table(&imported).carriers;
    assert_eq!(
        carriers.iter().map(figures).collect::<Vec<_>>(),
        [vec!["90 L/min 230 bar", "45 L/min 210 bar"], vec!["70 L/min 210 bar"]]
    );
    assert_eq!(carriers[0].circuits[1].name.as_deref(), Some("second"));
    let one_row = of_csv("Model,Class,Aux 1 flow (L/min),Aux 2 flow (L/min)\nQ 90,midi-excavator,90,45\n");
    is_clean(&one_row);
    assert_eq!(figures(&table(&one_row).carriers[0]), ["90 L/min -", "45 L/min -"]);
}

#[test]
fn rows_of_one_machine_that_disagree_are_told() {
    let imported = of_csv(
        "Model,Class,Weight (kg),Circuit,Aux flow (L/min)\nQ 90,midi-excavator,8600,a,90\nQ 90,midi-excavator,8800,b,45\n",
    );
    let [problem] = &imported.problems[..] else { panic!("{:#?}", imported.problems) };
    assert!(matches!(&problem.fault, CellFault::Conflict { first } if first == "8600 kg"));
    assert_eq!((problem.found.as_str(), problem.left_out), ("8800", LeftOut::Cell));
    assert_eq!(table(&imported).carriers[0].circuits.len(), 2);
}

#[test]
fn attachments_are_told_from_machines_by_their_columns_and_values() {
    let imported = of_csv(
        "Our attachments\n\n\
         Make,Model,Type,Weight [kg],Oil flow [L/min],Working pressure [bar],Max pressure [bar],Max. back pressure [bar],Case drain required,Pin [mm]\n\
         Marram,F100,Flail mower,290,40-65,170,230,12,Yes,40\n\
         Marram,H20,Breaker,210,35 to 55,120,180,20,No,45\n",
    );
    is_clean(&imported);
    assert_eq!(imported.sheets[0].role, Some(Role::Attachments));
    let heads = &table(&imported).heads;
    let litres = |flow: Option<quantity::Stated<VolumeRate>>| {
        flow.map(|flow| Unit::LitrePerMinute.of_si(quantity::Quantity::si(flow.nominal)).round())
    };
    assert_eq!((litres(heads[0].flow.least), litres(heads[0].flow.greatest)), (Some(40.0), Some(65.0)));
    assert_eq!(heads[1].kind, table::HeadKind::Breaker);
    assert_eq!(heads[0].outlet.needs_case_line, Some(true));
}

#[test]
fn the_same_words_without_values_that_tell_are_asked() {
    let text = "Make,Model,Type,Weight [kg]\nMarram,F100,thing,290\nMarram,H20,thing,210\n";
    let imported = of_csv(text);
    assert_eq!(imported.questions, [Question::Sheet { sheet: "yard".to_owned() }]);
    let mut answers = Answers::default();
    answers.sheets.push(spreadsheet::SheetAnswer { sheet: String::new(), role: Some(Role::Attachments) });
    let answered = import(text.as_bytes(), "other.csv", &answers).expect("cells");
    assert_eq!(answered.sheets[0].role, Some(Role::Attachments));
}

#[test]
fn units_below_the_headers_are_units() {
    let imported = of_csv("Model,Class,Weight,Aux flow,Relief\n,,lb,gpm,psi\nS 75,Skid steer,7600,21,3050\n");
    is_clean(&imported);
    assert_eq!(figures(&table(&imported).carriers[0]), ["21 [gal_us]/min 3050 [psi]"]);
}

#[test]
fn pasted_cells_are_read_like_a_file() {
    let opened = spreadsheet::paste("Model\tClass\tWeight\nOB 36\tmini-excavator\t3640 kg\n").expect("cells");
    let imported = spreadsheet::of_opened(opened, &Answers::default(), "pasted");
    is_clean(&imported);
    assert_eq!(table(&imported).carriers[0].model, "OB 36");
}

#[test]
fn a_unit_is_asked_and_the_answer_holds_for_the_next_file_of_that_layout() {
    let november = "Model,Class,Aux flow\nOB 36,mini-excavator,62\n";
    let first = of_csv(november);
    let [Question::Unit { place, units, .. }] = &first.questions[..] else { panic!("{:?}", first.questions) };
    assert_eq!(units[..], [Unit::LitrePerMinute, Unit::UsGallonPerMinute]);
    assert!(table(&first).carriers[0].circuits.is_empty(), "nothing is guessed");
    let mut answers = Answers::default();
    answers.about(&place.sheet, place.column.expect("a column")).unit = Some(Unit::UsGallonPerMinute);
    let kept = serde_json::to_string(&answers).expect("plain data");
    let answers: Answers = serde_json::from_str(&kept).expect("plain data");
    let december =
        import("Model,Class,Aux flow\nOB 40,mini-excavator,17\n".as_bytes(), "yard.csv", &answers).expect("cells");
    is_clean(&december);
    assert_eq!(december.layout, first.layout);
    assert_eq!(figures(&table(&december).carriers[0]), ["17 [gal_us]/min -"]);
    assert_ne!(of_csv("Model,Class,Flow of aux\nOB 40,mini-excavator,17\n").layout, first.layout);
}

#[test]
fn a_mark_that_nothing_in_the_file_shows_is_asked() {
    let text = "Model,Class,Weight (kg)\nOB 36,mini-excavator,\"3,640\"\nOB 40,mini-excavator,\"4,100\"\n";
    let imported = of_csv(text);
    assert!(
        matches!(&imported.questions[..], [Question::Marks { found, .. }] if found == "3,640"),
        "{:?}",
        imported.questions
    );
    assert!(table(&imported).carriers[0].operating_mass.is_none());
    let mut answers = Answers::default();
    answers.about("yard", 3).decimal = Some(Mark::Point);
    let answered = import(text.as_bytes(), "yard.csv", &answers).expect("cells");
    is_clean(&answered);
    assert!(table(&answered).carriers[0].operating_mass.is_some());
}

#[test]
fn a_column_can_be_put_right() {
    let text = "Model,Class,Wieght,Hyd. flow (L/min)\nOB 36,mini-excavator,3640 kg,62\n";
    let imported = of_csv(text);
    assert!(
        matches!(&imported.questions[..], [Question::Field { near, .. }] if near == "operating_mass"),
        "{:?}",
        imported.questions
    );
    let mut answers = Answers::default();
    answers.about("yard", 3).field = Some("operating_mass".to_owned());
    answers.about("yard", 4).field = Some("pumps.greatest_flow".to_owned());
    let answered = import(text.as_bytes(), "yard.csv", &answers).expect("cells");
    is_clean(&answered);
    let carrier = &table(&answered).carriers[0];
    assert!(
        carrier.operating_mass.is_some() && carrier.circuits.is_empty() && carrier.pumps[0].greatest_flow.is_some()
    );
}

/// A column whose figures are unusual as a whole is asked once, and nothing of it is used meanwhile.
#[track_caller]
fn asks_once(text: &str, wanted: (&str, Unit, Unit)) {
    let imported = of_csv(text);
    let [Question::OtherUnit { header, written, meant, place, .. }] = &imported.questions[..] else {
        panic!("{:#?}\n{:#?}", imported.questions, imported.problems)
    };
    assert_eq!((header.as_str(), *written, *meant), wanted);
    assert!(imported.problems.is_empty(), "asked once: {:#?}", imported.problems);
    let mut answers = Answers::default();
    answers.about(&place.sheet, place.column.expect("a column")).meant = Some(*meant);
    let answered = import(text.as_bytes(), "yard.csv", &answers).expect("cells");
    is_clean(&answered);
    answers.about(&place.sheet, place.column.expect("a column")).meant = Some(*written);
    let kept = import(text.as_bytes(), "yard.csv", &answers).expect("cells");
    assert!(kept.questions.is_empty(), "as it stands: {:#?}", kept.questions);
    assert_ne!(kept.json, imported.json, "it is used");
}

#[test]
fn units_mixed_up_in_a_whole_column_are_asked_once() {
    // psi above bar, and bar above psi; in the cells too.
    asks_once(
        "Model,Class,Relief (bar)\nA,mini-excavator,3050\nB,mini-excavator,2900\nC,midi-excavator,3300\n",
        ("Relief (bar)", Unit::Bar, Unit::Psi),
    );
    asks_once(
        "Model,Class,Relief (psi)\nA,mini-excavator,215\nB,mini-excavator,200\n",
        ("Relief (psi)", Unit::Psi, Unit::Bar),
    );
    asks_once(
        "Model,Kind,Working pressure\nA,flail,170 psi\nB,breaker,120 psi\nC,auger,160 psi\n",
        ("Working pressure", Unit::Psi, Unit::Bar),
    );
    // Pounds above kilograms: no class weighs that.
    asks_once(
        "Model,Class,Weight (kg)\nA,mini-excavator,8000\nB,midi-excavator,17200\nC,skid-steer,7600\n",
        ("Weight (kg)", Unit::Kilogram, Unit::Pound),
    );
    // Litres above gallons: no engine gives that.
    asks_once(
        "Model,Class,Engine power (kW),Aux flow (gpm),Relief (bar)\nA,mini-excavator,21.5,62,215\nB,mini-excavator,25,75,215\n",
        ("Aux flow (gpm)", Unit::UsGallonPerMinute, Unit::LitrePerMinute),
    );
}

#[test]
fn one_figure_that_is_odd_among_others_is_a_problem_of_its_own() {
    let imported =
        of_csv("Model,Class,Relief (bar)\nA,mini-excavator,215\nB,mini-excavator,2900\nC,midi-excavator,240\n");
    assert!(imported.questions.is_empty());
    let [problem] = &imported.problems[..] else { panic!("{:#?}", imported.problems) };
    assert_eq!((problem.severity, problem.left_out, problem.found.as_str()), (Severity::Error, LeftOut::Cell, "2900"));
    assert_eq!(problem.place.as_ref().map(|place| (place.row, place.column)), Some((3, Some(3))));
    assert_eq!(table(&imported).carriers.len(), 3);
}

#[test]
fn a_heading_and_repeated_headers_are_no_machines() {
    let imported = of_csv(
        "Model,Class,Weight\nExcavators,,\nA,mini-excavator,3500 kg\nModel,Class,Weight\nB,mini-excavator,3600 kg\n",
    );
    assert_eq!(table(&imported).carriers.len(), 2);
    assert!(matches!(&imported.problems[..], [problem] if problem.fault == CellFault::RowSkipped));
}

#[test]
fn the_documented_answers_are_read() {
    let page = include_str!("../../../../docs/table.md");
    let (_, behind) = page.split_once("```json answers\n").expect("an example");
    let (example, _) = behind.split_once("```").expect("its end");
    let answers: Answers = serde_json::from_str(example).expect("answers");
    assert_eq!((answers.sheets.len(), answers.columns.len()), (1, 1));
}

/// What stands in a column says more than its header, and a sum is no machine.
#[test]
fn the_cells_of_a_column_decide_what_it_is() {
    let machines = of_csv(
        "No.;Make;Type;What;Wt. (kg);Max pressure (bar);Quick coupler\nA-01;Marram;OB 36;mini excavator;3640;215;S45\n\
         A 02;Marram;OB 41;mini excavator;4100;230;S45\nSum;;;;7740;;\n",
    );
    let carriers = &table(&machines).carriers;
    let told: Vec<_> = carriers.iter().map(|one| (one.id.as_str(), one.class)).collect();
    assert_eq!(told, [("a-01", CarrierClass::MiniExcavator), ("a-02", CarrierClass::MiniExcavator)]);
    assert!(
        carriers.iter().all(|one| one.circuits[0].relief.is_some() && one.coupler.is_none()),
        "{:?}",
        machines.problems
    );
    let taken = |header: &str| {
        let column = machines.sheets[0].columns.iter().find(|column| column.header == header);
        column.and_then(|column| column.field.clone())
    };
    assert_eq!(
        (taken("What"), taken("Type"), taken("Quick coupler")),
        (Some("class".to_owned()), Some("model".to_owned()), None)
    );
    let skipped: Vec<_> = machines.problems.iter().map(|problem| &problem.fault).collect();
    assert_eq!(skipped, [&CellFault::RowSkipped]);
    let attachments =
        of_csv("What;Model;Weight (kg);Back pressure max (bar)\nflail mower;F 80;210;10\nhammer;H 7;420;8\n");
    let heads = &table(&attachments).heads;
    assert_eq!(heads.iter().map(|one| one.kind).collect::<Vec<_>>(), [HeadKind::Flail, HeadKind::Breaker]);
    assert!(heads.iter().all(|one| one.outlet.back_pressure.is_some()), "{:?}", attachments.problems);
}

/// The class may stand in a heading above machines, or in what one of them is called.
#[test]
fn a_class_is_found_in_headings_and_names() {
    let machines = of_csv(
        "Make;Type;Wt. (kg);Engine power (kW);Relief (bar)\nExcavators;;;;\nMarram;OX 18;1800;14;200\nMarram;SG 80;8200;46;215\n\
         Compact loaders;;;;\nMarram;BV 60 skid steer;2900;48;210\nMarram;BV 9;2900;48;210\n",
    );
    let classes: Vec<_> = table(&machines).carriers.iter().map(|one| one.class).collect();
    let (micro, midi) = (CarrierClass::MicroExcavator, CarrierClass::MidiExcavator);
    assert_eq!(classes, [micro, midi, CarrierClass::SkidSteer]);
    // What no heading says is not guessed.
    let left_out: Vec<_> = machines.problems.iter().filter(|one| one.severity == Severity::Error).collect();
    assert!(matches!(&left_out[..], [one] if one.entry.as_deref() == Some("Marram BV 9")), "{left_out:?}");
}
