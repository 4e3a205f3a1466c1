use super::*;
use crate::{CarrierThen, TableThen};
use std::collections::BTreeMap;
use table::CarrierClass;

type Here = BTreeMap<String, String>;

fn plate(id: &str, name: &str, flow: &str) -> Plate {
    let changed = "2026-11-25T10:00:00Z".to_owned();
    let mut plate = Plate::blank(id.to_owned(), CarrierClass::MiniExcavator, name.to_owned(), changed);
    plate.write(plate::Figure::Flow, flow);
    plate
}

fn comparison(id: &str, name: &str, carrier: &str) -> Saved {
    Saved {
        id: id.to_owned(),
        name: name.to_owned(),
        note: "wet\nbelow".to_owned(),
        created: "2026-11-25T10:00:00Z".to_owned(),
        table: TableThen { title: "Yard".to_owned(), date: None, mark: None },
        carrier: CarrierThen { id: carrier.to_owned(), name: "Ours".to_owned() },
        heads: Vec::new(),
    }
}

fn shelf() -> KeptTable {
    KeptTable {
        origin: "yard.json".to_owned(),
        is_address: false,
        loaded: "2026-11-25T10:00:00Z".to_owned(),
        text: "{\"ä\": 1}".to_owned(),
    }
}

fn photo(machine: &str) -> Photo {
    let taken = "2026-11-25T10:00:00Z".to_owned();
    Photo { machine: machine.to_owned(), taken, picture: "data:image/jpeg;base64,AAAA".to_owned() }
}

/// Two comparisons, two machines, a photo of one's plate, a table, a preference and two texts that nobody can read.
fn kept() -> Here {
    let entries = [
        ("pairwright.saved.s1", comparison("s1", "North bank", "own.m1").encode()),
        ("pairwright.saved.s2", comparison("s2", "South bank", "mini-1").encode()),
        ("pairwright.saved.s3", "{\"format\":\"pairwright.saved\"".to_owned()),
        ("pairwright.machine.m1", plate("m1", "Ours", "60 L/min").encode()),
        ("pairwright.machine.m2", plate("m2", "Theirs", "90 L/min").encode()),
        ("pairwright.photo.m1", photo("m1").encode()),
        ("pairwright.table", shelf().encode()),
        ("pairwright.preference.units", "us".to_owned()),
        ("pairwright.aside.pairwright.saved.x.0", "§".to_owned()),
    ];
    entries.into_iter().map(|(key, text)| (key.to_owned(), text)).collect()
}

fn bundle() -> Bundle {
    let foreign = [("other.app".to_owned(), "{}".to_owned())];
    Bundle::gather("2026-11-26T08:00:00Z".to_owned(), kept().into_iter().chain(foreign))
}

fn planned(bundle: &Bundle, here: &Here) -> Vec<Step> {
    let mut number = 0;
    let mut fresh = || {
        number += 1;
        format!("n{number}")
    };
    plan(bundle, here, &mut fresh)
}

/// Does what was planned, without overwriting anything.
fn done(mut here: Here, steps: &[Step]) -> Here {
    for step in steps {
        if let Some(text) = step.text() {
            assert_eq!(here.insert(step.key.clone(), text.to_owned()), None, "{} is overwritten", step.key);
        }
    }
    here
}

fn actions(steps: &[Step]) -> Vec<(&str, &str, &Action)> {
    steps.iter().map(|step| (step.key.as_str(), step.name.as_str(), &step.action)).collect()
}

#[test]
fn everything_comes_back_where_nothing_is() {
    let file = bundle().encode();
    let read = Bundle::decode(&file).expect("a file of everything");
    assert_eq!(read, bundle());
    assert_eq!((read.kept.len(), read.unreadable.len()), (7, 2));
    let steps = planned(&read, &Here::new());
    let here = done(Here::new(), &steps);
    let mut expected = kept();
    // What nobody can read goes aside.
    let unread = expected.remove("pairwright.saved.s3").expect("a text");
    expected.insert("pairwright.aside.pairwright.saved.s3.0".to_owned(), unread);
    assert_eq!(here, expected);
}

#[test]
fn invariant_importing_a_file_twice_is_the_same_as_once() {
    for here in [Here::new(), kept(), clashing()] {
        let once = done(here.clone(), &planned(&bundle(), &here));
        let again = planned(&bundle(), &once);
        assert!(again.iter().all(|step| step.text().is_none()), "{again:?}");
    }
}

/// Where the file was made, and nothing has changed since, all is here already.
#[test]
fn where_it_was_made_all_is_here() {
    let steps = planned(&bundle(), &kept());
    let new: Vec<_> = steps.iter().filter(|step| step.action != Action::Same).collect();
    // But for the text that was not aside yet: it stays where it is, and a copy goes aside.
    assert_eq!(
        new.iter().map(|step| step.key.as_str()).collect::<Vec<_>>(),
        ["pairwright.aside.pairwright.saved.s3.0"]
    );
}

/// Other things under the ids of the file.
fn clashing() -> Here {
    let entries = [
        ("pairwright.saved.s1", comparison("s1", "Another bank", "own.m1").encode()),
        ("pairwright.machine.m1", plate("m1", "Ours", "75 L/min").encode()),
        ("pairwright.table", KeptTable { text: "{}".to_owned(), ..shelf() }.encode()),
        ("pairwright.preference.units", "metric".to_owned()),
        ("pairwright.aside.pairwright.saved.x.0", "another".to_owned()),
    ];
    entries.into_iter().map(|(key, text)| (key.to_owned(), text)).collect()
}

#[test]
fn invariant_an_import_overwrites_nothing_and_puts_what_clashes_beside() {
    let steps = planned(&bundle(), &clashing());
    let machine = plate("n1", "Ours (imported)", "60 L/min").encode();
    let north = comparison("n2", "North bank (imported)", "own.n1").encode();
    let keep = |text: String| Action::Keep { text };
    assert_eq!(
        actions(&steps),
        [
            ("pairwright.machine.n1", "Ours (imported)", &Action::Beside { text: machine }),
            ("pairwright.machine.m2", "Theirs", &keep(plate("m2", "Theirs", "90 L/min").encode())),
            ("pairwright.photo.n1", "Ours (imported)", &keep(photo("n1").encode())),
            ("pairwright.saved.n2", "North bank (imported)", &Action::Beside { text: north }),
            ("pairwright.saved.s2", "South bank", &keep(comparison("s2", "South bank", "mini-1").encode())),
            ("pairwright.preference.units", "units", &Action::Same),
            ("pairwright.table", "yard.json", &Action::TableLeft),
            ("pairwright.aside.pairwright.saved.x.1", "pairwright.saved.x.0", &keep("§".to_owned())),
            (
                "pairwright.aside.pairwright.saved.s3.0",
                "pairwright.saved.s3",
                &keep("{\"format\":\"pairwright.saved\"".to_owned())
            ),
        ]
    );
}

#[test]
fn what_came_in_beside_is_known_again_under_another_name() {
    let mut once = done(clashing(), &planned(&bundle(), &clashing()));
    let renamed = plate("n1", "The old one", "60 L/min").encode();
    once.insert("pairwright.machine.n1".to_owned(), renamed);
    let steps = planned(&bundle(), &once);
    assert_eq!(actions(&steps)[0], ("pairwright.machine.n1", "The old one", &Action::Same));
    assert!(steps.iter().all(|step| step.text().is_none()), "{steps:?}");
}

/// A comparison without a clash of its own still follows its machine.
#[test]
fn a_comparison_alone_follows_its_machine() {
    let mut here = clashing();
    here.remove("pairwright.saved.s1");
    let steps = planned(&bundle(), &here);
    let north = steps.iter().find(|step| step.key == "pairwright.saved.s1").expect("the comparison");
    assert_eq!(north.action, Action::Keep { text: comparison("s1", "North bank", "own.n1").encode() });
}

#[test]
fn a_longest_name_stays_within_its_length_and_ids_are_never_taken_twice() {
    let long = |id: &str, flow: &str| plate(id, &"ö".repeat(80), flow).encode();
    let key = |id: &str| format!("{MACHINE_PREFIX}{id}");
    let here: Here = [(key("a"), long("a", "1 L/min")), (key("n"), long("n", "2 L/min"))].into();
    let file = Bundle::gather(String::new(), [(key("a"), long("a", "3 L/min")), (key("n"), long("n", "4 L/min"))]);
    let steps = plan(&file, &here, &mut || "n".to_owned());
    let name = format!("{} (imported)", "ö".repeat(69));
    assert_eq!(steps.iter().map(|step| step.name.clone()).collect::<Vec<_>>(), [name.clone(), name]);
    assert_eq!(steps.iter().map(|step| step.key.clone()).collect::<Vec<_>>(), [key("n-2"), key("n-3")]);
}

#[test]
fn a_single_thing_is_read_as_a_file_of_its_own() {
    let whole = kept().into_iter().filter(|(_, text)| text.starts_with('{') && text.ends_with('}'));
    // A photo alone is of no machine.
    for (key, text) in whole.filter(|(key, _)| !key.starts_with(PHOTO_PREFIX)) {
        let read = Bundle::decode(&text).expect("a single thing");
        assert_eq!(read.kept.iter().map(|kept| kept.key.clone()).collect::<Vec<_>>(), std::slice::from_ref(&key));
        assert_eq!(done(Here::new(), &planned(&read, &Here::new())), [(key, text)].into());
    }
    assert_eq!(
        Bundle::decode(r#"{"format":"pairwright.machine","version":9,"machine":{}}"#),
        Err(RecordFault::Newer { found: 9 })
    );
}

#[test]
fn a_letterhead_with_its_logo_comes_back() {
    let key = format!("{PREFERENCE_PREFIX}letterhead");
    let logo = format!("data:image/png;base64,{}", "A".repeat(100_000));
    let letterhead = crate::Letterhead { name: "The yard".to_owned(), logo, ..crate::Letterhead::default() }.encode();
    let file = Bundle::gather(String::new(), [(key.clone(), letterhead.clone())]);
    assert_eq!(done(Here::new(), &planned(&file, &Here::new())), [(key.clone(), letterhead)].into());
    let endless = Bundle::gather(String::new(), [(key, "A".repeat(1_000_000))]);
    assert!(matches!(planned(&endless, &Here::new())[0].action, Action::Refused(RecordFault::Damaged)));
}

#[test]
fn a_photo_stays_with_its_machine_and_goes_nowhere_without_it() {
    let file = Bundle::decode(&photo("m1").encode()).expect("a photo");
    let nowhere = planned(&file, &Here::new());
    assert_eq!(
        actions(&nowhere),
        [("pairwright.photo.m1", "pairwright.photo.m1", &Action::Refused(RecordFault::Foreign))]
    );
    let mut here = kept();
    let own = Photo { picture: "data:image/jpeg;base64,BBBB".to_owned(), ..photo("m1") };
    here.insert(own.key(), own.encode());
    assert_eq!(actions(&planned(&file, &here)), [("pairwright.photo.m1", "Ours", &Action::Same)]);
}

#[test]
fn what_cannot_be_read_is_told_apart() {
    let file = bundle().encode();
    for end in (0..file.len()).filter(|&end| file.is_char_boundary(end)) {
        assert_eq!(Bundle::decode(&file[..end]), Err(RecordFault::Damaged), "cut at {end}");
    }
    assert_eq!(Bundle::decode(&file.replace("\"version\":1}", "\"version\":2}")), Err(RecordFault::Newer { found: 2 }));
    for foreign in ["{}", "[]", "3", r#"{"format":"pairwright.table","version":1}"#, r#"{"format":7}"#] {
        assert_eq!(Bundle::decode(foreign), Err(RecordFault::Foreign), "{foreign}");
    }
    assert_eq!(Bundle::decode(&" ".repeat(LARGEST + 1)), Err(RecordFault::TooLarge { most: LARGEST }));
    assert_eq!(Bundle::decode(&"[".repeat(1000)), Err(RecordFault::Damaged));
}

/// A newer version's things are kept in the file, and refused where the app is older; so is what no app writes.
#[test]
fn what_is_newer_or_no_thing_of_the_app_is_refused_alone() {
    let newer = r#"{"format":"pairwright.saved","version":7,"saved":{"name":"Later"}}"#.to_owned();
    let file = Bundle::gather(String::new(), [("pairwright.saved.z".to_owned(), newer)]);
    assert_eq!(file.kept.len(), 1);
    let refused = |fault| Action::Refused(fault);
    assert_eq!(
        actions(&planned(&file, &Here::new())),
        [("pairwright.saved.z", "Later", &refused(RecordFault::Newer { found: 7 }))]
    );
    let kept =
        |key: &str, text: String| Kept { key: key.to_owned(), thing: serde_json::from_str(&text).expect("JSON") };
    let odd = Bundle {
        made: String::new(),
        kept: vec![
            kept("other.app", "{}".to_owned()),
            kept("pairwright.machine.b", plate("B b", "Odd", "1 L/min").encode()),
            kept("pairwright.machine.c", comparison("c", "No machine", "m").encode()),
            kept("pairwright.preference.units", "[1]".to_owned()),
            kept("pairwright.saved.d", comparison("", "No id", "m").encode()),
            kept("pairwright.tables", shelf().encode()),
        ],
        unreadable: vec![Unreadable { key: "k".repeat(300), text: String::new() }],
    };
    let steps = planned(&odd, &Here::new());
    assert_eq!(steps.len(), 7);
    assert!(steps.iter().all(|step| matches!(step.action, Action::Refused(_))), "{steps:?}");
}
