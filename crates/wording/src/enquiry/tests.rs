use super::*;
use crate::PlainNumbers;
use crate::yard::paired;
use fit::{Conditions, pair};
use proptest::prelude::*;
use quantity::UnitSystem;

const LINK: &str = "https://tools.example/app/#/link/1/quern-q56.thistlecut-r90";
const TO: &str = "yard@dealer.example";
const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

fn demo() -> Table {
    table::read(include_str!("../../../../public/table/demo.json")).table.expect("the demo table")
}

fn judged(table: &Table, carrier: &str, head: &str) -> Pairing {
    let (carrier, head) = (table.carrier(carrier).expect("a carrier"), table.head(head).expect("a head"));
    pair(carrier, head, &Conditions::of_table(table))
}

fn enquiry(carrier: &str, head: &str) -> Enquiry {
    WORDS.enquiry(&judged(&demo(), carrier, head), Some(LINK))
}

/// A text by hand, for what no pairing of the demo says.
fn written(subject: &str, body: &str, link: Option<&str>) -> Enquiry {
    Enquiry { subject: subject.to_owned(), body: body.to_owned(), link: link.map(str::to_owned) }
}

/// Takes an address apart as RFC 6068 has it: receiver, and headers by name in their order.
fn taken_apart(uri: &str) -> (String, Vec<(String, String)>) {
    assert!(uri.is_ascii() && uri.len() <= LONGEST_MAILTO, "{} characters: {uri}", uri.len());
    let decoded = |text: &str| {
        let mut bytes = Vec::new();
        let mut rest = text.bytes();
        while let Some(byte) = rest.next() {
            let mut digit = || rest.next().and_then(|digit| char::from(digit).to_digit(16)).expect("a digit");
            bytes.push(if byte == b'%' { u8::try_from(16 * digit() + digit()).expect("a byte") } else { byte });
        }
        String::from_utf8(bytes).expect("UTF-8")
    };
    let (to, headers) = uri.strip_prefix("mailto:").expect("a mail").split_once('?').expect("headers");
    let header = |text: &str| text.split_once('=').map(|(name, value)| (decoded(name), decoded(value)));
    (decoded(to), headers.split('&').map(|text| header(text).expect("name and value")).collect())
}

/// Receiver, subject and body of an address that has nothing else.
fn mail(uri: &str) -> (String, String, String) {
    let (to, headers) = taken_apart(uri);
    let [(first, subject), (second, body)] = headers.try_into().expect("two headers and no more");
    assert_eq!((first.as_str(), second.as_str()), ("subject", "body"));
    (to, subject, body)
}

#[test]
fn what_fits_is_told_with_what_is_still_to_prove() {
    let enquiry = enquiry("orrin-d34", "pebblegate-s180");
    assert_eq!(enquiry.subject, "Pebblegate PB 180 on Orrin Bay OB 34 high flow: fits; 1 point to prove before work");
    assert_eq!(
        enquiry.body,
        "\
Machine: Orrin Bay OB 34 high flow
Attachment: Pebblegate PB 180 (sweeper)

Fits; 1 point to prove before work.
Tightest is oil temperature: the oil settles at 56 °C on a warm day; work ends at 82 °C.
Prove before any work, as people are at risk: clearance.
Prove in the first half hour of work: machine's functions.
8 points are to prove at the hand-over.

To read off or try before any work:
- what the machine's functions need while the attachment works: ask the operator; flow and pressure of boom, slew and \
travel in the service manual
- how far the attachment swings in: tape from its pin to its farthest point
- the room for a curled attachment: bucket curled in and lowered, engine off: tape from the pin to boom, cab and window

Makers' manuals, local codes and licensed practice decide, not this message.
https://tools.example/app/#/link/1/quern-q56.thistlecut-r90"
    );
}

#[test]
fn what_fits_after_changes_is_told_with_them_and_what_they_cost() {
    let enquiry = enquiry("quern-q56", "thistlecut-r90");
    assert_eq!(enquiry.subject, "Thistlecut TI 90 on Quern QU 56: fits after changes; 1 point to prove before work");
    assert_eq!(
        enquiry.body,
        "\
Machine: Quern QU 56
Attachment: Thistlecut TI 90 (rotary brush cutter)

Does not fit today; fits after 4 changes; 1 point to prove before work.
The motor needs a line of its own from its housing to the tank, and the machine has none.
Its outlet would get 25 bar, and it allows 15 bar (more can press out its seals): the oil returns through the machine's valve.
Also in the way: return filter, flow and pressure.
Find out first: the filtration rating of the return filter (read it off, or look, 5 min); it may spare a filter in the return.
The relief's override (gauge at a test port, 30 min); it may spare resetting the relief.
Where all of it does: 3 h 18 min · EUR 384 instead of 5 h 48 min · EUR 744.
Prove before any work, as people are at risk: clearance.
Prove in the first half hour of work: machine's functions.
6 points are to prove at the hand-over.
Let the machine idle until its oil reads 30 °C; only then full speed.

To find out before any of it is bought:
- the filtration rating of the return filter (read it off, or look, 5 min): may spare a filter in the return
- the relief's override (gauge at a test port, 30 min): may spare resetting the relief
Where all of that comes out well: 3 h 18 min · EUR 384

What must change:
- Case drain to the tank, bore 13 mm
- Filter in the return, rated for 200 L/min
- Set the machine's own flow to 64 L/min
- Reset the relief to 235 bar
Together: 5 h 48 min · EUR 744

To read off or try before any work:
- what the machine's functions need while the attachment works: ask the operator; flow and pressure of boom, slew and \
travel in the service manual
- how far the attachment swings in (up to 700 mm it holds): tape from its pin to its farthest point

Makers' manuals, local codes and licensed practice decide, not this message.
https://tools.example/app/#/link/1/quern-q56.thistlecut-r90"
    );
}

#[test]
fn what_cannot_be_said_is_told_with_what_to_find_out_and_what_is_certain() {
    let enquiry = enquiry("quern-q56", "saltmarsh-g25");
    assert_eq!(enquiry.subject, "Saltmarsh SA 25 on Quern QU 56: cannot say yet");
    assert_eq!(
        enquiry.body,
        "\
Machine: Quern QU 56
Attachment: Saltmarsh SA 25 (stump grinder)

Cannot say yet.
It needs an anti-cavitation check valve, whatever else comes out.
To find out first: where the attachment's mass hangs (tape or scale, 10 min); up to 4 m it holds.
Then the machine weight for which the attachment is made.

What it needs, whatever else comes out:
- Anti-cavitation check valve across the motor
Together: 1 h · EUR 158

To find out before it can be said whether it fits:
- where the attachment's mass hangs (up to 4 m it holds): hang it in rated slings, nobody under it, and plumb from its mounting
- the machine weight for which the attachment is made: attachment's manual or plate

To read off or try before any work:
- what the machine's functions need while the attachment works: ask the operator; flow and pressure of boom, slew and \
travel in the service manual
- how far the attachment swings in (up to 700 mm it holds): tape from its pin to its farthest point

To ask the makers:
- Machine's maker: a lift rating, counterweight or structure for this attachment?

Makers' manuals, local codes and licensed practice decide, not this message.
https://tools.example/app/#/link/1/quern-q56.thistlecut-r90"
    );
}

#[test]
fn what_does_not_fit_is_told_with_the_reason_and_nothing_to_find_out() {
    let enquiry = enquiry("quern-q27", "thistlecut-r130");
    assert_eq!(enquiry.subject, "Thistlecut TI 130 on Quern QU 27: does not fit");
    assert_eq!(
        enquiry.body,
        "\
Machine: Quern QU 27
Attachment: Thistlecut TI 130 (rotary brush cutter)

Does not fit.
The machine may weigh as little as 2600 kg, and the attachment is made for 10\u{202f}400 kg and more: too light.

To ask the makers:
- Attachment's maker: another motor displacement or pulley for this flow?
- Attachment's maker: what do outlet, seal and drive really allow?
- Machine's maker: main relief, cut-off or pump setting?
- Machine's maker: a lift rating, counterweight or structure for this attachment?

Makers' manuals, local codes and licensed practice decide, not this message.
https://tools.example/app/#/link/1/quern-q56.thistlecut-r90"
    );
}

/// The line that sums up what must change.
fn together(table: &Table) -> String {
    let body = WORDS.enquiry(&judged(table, "quern-q56", "thistlecut-r90"), None).body;
    body.lines().find(|line| line.starts_with("Together")).expect("a sum").to_owned()
}

#[test]
fn a_missing_price_makes_the_sum_a_least_one() {
    let mut table = demo();
    assert_eq!(together(&table), "Together: 5 h 48 min · EUR 744");
    for part in table.parts.iter_mut().filter(|part| part.change == table::ChangeId::CaseLine) {
        part.price = None;
    }
    let some = together(&table);
    assert!(
        some.starts_with("Together: 5 h 48 min · from EUR ") && some.ends_with(" (not all of it has a price)"),
        "{some}"
    );
    table.currency = None;
    assert_eq!(together(&table), "Together: 5 h 48 min · no price stated");
}

#[test]
fn the_table_is_told_where_there_is_one() {
    let table = demo();
    let pairing = judged(&table, "orrin-d34", "pebblegate-s180");
    let body = WORDS.enquiry_from(&table, &pairing, None).body;
    let date = table.date.expect("a date");
    assert_eq!(body.lines().nth(2), Some(format!("Figures from: {}, {date}", table.title).as_str()));
    assert!(body.ends_with("decide, not this message."), "no link, no line for one");
}

#[test]
fn every_pair_of_the_demo_makes_a_mail_with_its_link() {
    let table = demo();
    let mut cut = 0;
    for carrier in table.carriers.iter().step_by(7) {
        for head in &table.heads {
            let enquiry = WORDS.enquiry(paired(carrier, head), Some(LINK));
            let (to, subject, body) = mail(&enquiry.mailto(TO).expect("a mail"));
            assert_eq!((to.as_str(), &subject), (TO, &enquiry.subject));
            let whole = enquiry.body.replace('\n', "\r\n");
            assert!(body.ends_with(&format!("\r\n{DEFERRAL}\r\n{LINK}")), "{body}");
            if body != whole {
                cut += 1;
                let (kept, _) = body.split_once("…\r\n").expect("a line that says so");
                assert!(whole.starts_with(kept) && kept.ends_with("\r\n"), "{kept}");
                // The verdict is never what is cut.
                assert!(kept.lines().count() >= 4, "{kept}");
            }
            assert_eq!(enquiry.message(), format!("{}\n\n{}", enquiry.subject, enquiry.body));
        }
    }
    assert!(cut > 20, "{cut} were too long");
}

#[test]
fn a_name_adds_neither_a_line_nor_a_header() {
    let mut pairing = judged(&demo(), "quern-q56", "thistlecut-r90");
    let nasty = "X\r\nBcc: all@dealer.example\n\n?bcc=a@b.example&cc=c@d.example%0ABcc:\u{2028}e\u{202e}f";
    pairing.carrier.model = nasty.to_owned();
    pairing.head.maker = Some(nasty.to_owned());
    let lines = enquiry("quern-q56", "thistlecut-r90").body.lines().count();
    let enquiry = WORDS.enquiry(&pairing, Some("https://tools.example/\r\nBcc: x"));
    let (to, subject, body) = mail(&enquiry.mailto(TO).expect("a mail"));
    assert_eq!(to, TO);
    assert_eq!((enquiry.body.lines().count(), subject.lines().count()), (lines, 1));
    assert!(body.lines().count() <= lines && !body.lines().any(|line| line.starts_with("Bcc")));
    for text in [&subject, &enquiry.subject, &body.replace("\r\n", ""), &enquiry.body.replace('\n', "")] {
        assert!(!text.contains(read::is_unseen), "{text:?}");
    }
    assert_eq!(enquiry.message().lines().count(), lines + 2);
    // Nor does a subject that somebody else wrote.
    let (_, subject, _) = mail(&written("a\r\nBcc: b@c.example", "d", None).mailto(TO).expect("a mail"));
    assert_eq!(subject, "a  Bcc: b@c.example");
}

#[test]
fn only_one_plausible_address_is_taken() {
    let enquiry = written("a", "b", None);
    for (to, begins) in [
        ("yard@dealer.example", "mailto:yard@dealer.example?subject=a&body=b"),
        ("a.b-c_d+e@x-1.dealer.example", "mailto:a.b-c_d%2Be@x-1.dealer.example?"),
        ("o'neil@dealer.example", "mailto:o%27neil@dealer.example?"),
        ("höfer@händler.example", "mailto:h%C3%B6fer@h%C3%A4ndler.example?"),
    ] {
        let uri = enquiry.mailto(to).expect("plausible");
        assert!(uri.starts_with(begins), "{uri}");
        assert_eq!(mail(&uri).0, to);
    }
    for to in [
        "",
        "@",
        "yard",
        "yard@",
        "@dealer.example",
        "yard@dealer",
        "yard@dealer.",
        "yard@.example",
        "yard@-dealer.example",
        "yard@dealer-.example",
        ".yard@dealer.example",
        "yard..a@dealer.example",
        "a@b@dealer.example",
        "yard @dealer.example",
        " yard@dealer.example",
        "yard@dealer.example ",
        "yard@dealer.example\r\nBcc: a@b.example",
        "yard@dealer.example\n",
        "yard@dealer.example?bcc=a@b.example",
        "yard?cc=x@dealer.example",
        "yard@dealer.example&bcc=a",
        "yard%0ABcc:a@dealer.example",
        "yard@dealer.example,a@b.example",
        "yard@dealer.example;a@b.example",
        "Yard <yard@dealer.example>",
        "\"yard\"@dealer.example",
        "yard@dealer.example#x",
        "yard@dealer.example/x",
        "yard@[192.0.2.1]",
        "yard\u{202e}@dealer.example",
        "yard\u{200b}@dealer.example",
        "mailto:yard@dealer.example",
    ] {
        assert_eq!(enquiry.mailto(to), None, "{to:?}");
    }
    assert_eq!(enquiry.mailto(&format!("{}@dealer.example", "a".repeat(65))), None);
    assert_eq!(enquiry.mailto(&format!("a@{}.example", "b.".repeat(130))), None);
}

#[test]
fn a_link_that_leaves_no_room_outlasts_the_deferral_and_is_never_cut() {
    let long = |characters: usize| format!("https://tools.example/{}", "a".repeat(characters - 22));
    let body = |link: &str| {
        let enquiry = WORDS.enquiry(&judged(&demo(), "quern-q56", "thistlecut-r90"), Some(link));
        mail(&enquiry.mailto(TO).expect("a mail")).2
    };
    assert!(body(&long(1000)).ends_with(&format!("{DEFERRAL}\r\n{}", long(1000))));
    let without = body(&long(1686));
    assert!(without.ends_with(&format!("…\r\n\r\n{}", long(1686))) && !without.contains(DEFERRAL), "{without}");
    assert!(body(&long(1900)).ends_with(&format!("…\r\n\r\n{DEFERRAL}")));
}

proptest! {
    #[test]
    fn a_mail_says_what_the_message_says(subject in ".{0,80}", lines in prop::collection::vec("\\PC{0,60}", 0..9)) {
        let body = lines.join("\n");
        let (to, told, text) = mail(&written(&subject, &body, None).mailto(TO).expect("a mail"));
        prop_assert_eq!(to, TO);
        prop_assert!(one_line(&subject).starts_with(&told));
        if !text.contains('…') {
            prop_assert_eq!(text.replace("\r\n", "\n"), body);
        }
    }

    #[test]
    fn whatever_there_is_to_say_it_keeps_within_bounds_and_whole_lines(
        subject in any::<String>(),
        lines in prop::collection::vec("\\PC{0,200}", 0..40),
        link in "https://[a-z]{1,20}\\.example/[!-~]{0,700}",
    ) {
        let body = format!("{}\n{DEFERRAL}\n{link}", lines.join("\n"));
        let (_, _, text) = mail(&written(&subject, &body, Some(&link)).mailto(TO).expect("a mail"));
        let text = text.replace("\r\n", "\n");
        prop_assert!(text.ends_with(&link));
        if text != body {
            let (kept, _) = text.rsplit_once("…\n\n").expect("it says that something is left out");
            prop_assert!(body.starts_with(kept) && (kept.is_empty() || kept.ends_with('\n')));
        }
    }

    #[test]
    fn no_receiver_adds_a_header(to in "[a-z+.ü]{1,8}[?&%\\r\\n ,:]?[a-z]{1,3}@[a-z]{1,6}[?&%\\r\\n ,@]?\\.[a-z]{2,4}") {
        if let Some(uri) = written("a", "b", None).mailto(&to) {
            prop_assert_eq!(mail(&uri), (to, "a".to_owned(), "b".to_owned()));
        }
    }
}
