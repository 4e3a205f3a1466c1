//! Texts that want to break the reader: it answers them clearly, quickly and harmlessly.

use crate::{carrier, is_syntax, only, table};
use proptest::prelude::*;
use std::sync::LazyLock;
use std::time::{Duration, Instant};
use table::read::LARGEST;
use table::{Fault, Outcome, read};

/// Reads within a second.
fn quickly(text: &str) -> Outcome {
    within(Duration::from_secs(1), text)
}

/// Reads a text of [`LARGE`] bytes: a second or two.
fn soon(text: &str) -> Outcome {
    within(Duration::from_secs(20), text)
}

fn within(most: Duration, text: &str) -> Outcome {
    let begin = worked();
    let outcome = read(text);
    let taken = worked().saturating_sub(begin);
    assert!(taken < most, "{taken:?} for {} bytes", text.len());
    outcome
}

/// How long this thread has worked: what others make it wait on a machine that they share is not its fault. By the clock where the
/// system does not count.
fn worked() -> Duration {
    static BEGIN: LazyLock<Instant> = LazyLock::new(Instant::now);
    // It is counted up whenever the thread may be changed.
    std::thread::yield_now();
    let counted = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds = counted.and_then(|text| text.split_whitespace().next()?.parse().ok());
    nanoseconds.map_or_else(|| BEGIN.elapsed(), Duration::from_nanos)
}

/// The size of large texts: the largest that is read, or a part of it where the build is not optimised.
const LARGE: usize = if cfg!(debug_assertions) { LARGEST / 8 } else { LARGEST };

fn filled(begin: &str, piece: &str, end: &str) -> String {
    let count = (LARGE - begin.len() - end.len()) / piece.len();
    format!("{begin}{}{end}", piece.repeat(count))
}

const BEGIN: &str = r#"{"format": "pairwright.table", "version": 1, "title": "T", "heads": [], "carriers": ["#;

#[test]
fn a_text_that_is_too_large_is_refused_at_once() {
    let text = " ".repeat(LARGEST + 1);
    let begin = worked();
    let outcome = read(&text);
    assert!(worked().saturating_sub(begin) < Duration::from_millis(10));
    assert_eq!(only(&outcome).fault, Fault::TooLarge { bytes: LARGEST + 1, most: LARGEST });
    assert!(outcome.table.is_none());
}

#[test]
fn a_hundred_thousand_brackets_are_answered() {
    let open = "[".repeat(100_000);
    assert!(is_syntax(only(&quickly(&open))));
    let closed = open + &"]".repeat(100_000);
    assert_eq!(only(&quickly(&closed)).fault, Fault::WrongType { expected: "an object in braces" });
    let deep = format!("{}{}", "{\"a\":".repeat(100_000), "1".to_owned() + &"}".repeat(100_000));
    assert_eq!(only(&quickly(&deep)).fault, Fault::NotATable);
    for field in ["guards", "circuits", "engine", "operating_mass", "unheard_of"] {
        let outcome = quickly(&table(&carrier(&format!("\"{field}\": {closed}")), ""));
        assert!(!outcome.problems.is_empty(), "{field}");
        assert!(outcome.problems.iter().all(|problem| problem.pointer.starts_with(&format!("/carriers/0/{field}"))));
    }
}

#[test]
fn the_largest_texts_are_read_quickly() {
    let machine = carrier(
        r#""operating_mass": "8 t", "engine": {"power": "55 kW"}, "pumps": [{"id": "p", "greatest_flow": "120 L/min"}]"#,
    );
    let list = |count: usize| {
        let all: Vec<_> = (0..count).map(|n| machine.replace("\"a\"", &format!("\"a{n}\""))).collect();
        format!("{BEGIN}{}]}}", all.join(","))
    };
    let count = LARGE / (machine.len() + 8);
    let outcome = soon(&list(count));
    assert_eq!(outcome.problems, []);
    assert_eq!(outcome.table.expect("a table").carriers.len(), count);
}

#[test]
fn millions_of_problems_are_counted_but_not_all_listed() {
    for (begin, piece, end) in [
        (BEGIN, "1,", "1]}"),
        (BEGIN, "{},", "{}]}"),
        (BEGIN, "[],", "[]]}"),
        (BEGIN, r#"{"class":"excavatr"},"#, "{}]}"),
        (BEGIN, r#"{"id":"a","model":"M","class":"excavator","operating_mass":"3 kgg"},"#, "{}]}"),
        (r#"{"format": "pairwright.table", "version": 1, "titel": 1, "#, r#""titel":1,"#, r#""x":1}"#),
    ] {
        let outcome = soon(&filled(begin, piece, end));
        assert_eq!(outcome.problems.len(), 10_000, "{piece}");
        assert!(outcome.unlisted > 10_000, "{piece}: {}", outcome.unlisted);
        assert!(outcome.table.is_some_and(|table| table.carriers.is_empty()), "{piece}");
    }
}

#[test]
fn long_keys_names_and_lists_are_answered() {
    let long = "x".repeat(4_000_000);
    let outcome = quickly(&table(
        &carrier(&format!("\"{long}\": 1, \"oil\": {{\"kind\": \"{long}\"}}, \"stock\": \"{long}\"")),
        "",
    ));
    assert_eq!(outcome.problems.len(), 3);
    assert!(outcome.problems.iter().all(|problem| problem.pointer.len() < 100 && problem.found.chars().count() <= 60));
    // Many different keys, many pumps, and as many references to them: none of this may take time by the square.
    let keys: Vec<_> = (0..LARGE / 16).map(|n| format!("\"{n:x}\":1,")).collect();
    assert_eq!(soon(&table(&carrier(&format!("{}\"oil\": {{}}", keys.concat())), "")).problems.len(), 10_000);
    let pumps: Vec<_> = (0..LARGE / 100).map(|n| format!("{{\"id\":\"p{n}\"}}")).collect();
    let names: Vec<_> = (0..LARGE / 100).map(|n| format!("\"p{n}\"")).collect();
    let fields = format!(
        "\"pumps\": [{}], \"circuits\": [{{\"id\": \"c\", \"pumps\": [{}]}}]",
        pumps.join(","),
        names.join(",")
    );
    assert_eq!(soon(&table(&carrier(&fields), "")).problems, []);
}

#[test]
fn a_text_that_breaks_off_anywhere_is_answered() {
    let text = include_str!("version-1.json");
    for end in (0..text.trim_end().len()).filter(|end| text.is_char_boundary(*end)) {
        let outcome = read(&text[..end]);
        assert!(outcome.table.is_none() && is_syntax(only(&outcome)), "cut at {end}");
    }
}

#[test]
fn markup_is_kept_as_text_and_misleading_characters_are_refused() {
    let markup = "<img src=x onerror=alert(1)>&amp;";
    let outcome = read(&table(&carrier(&format!("\"stock\": \"{markup}\"")), ""));
    assert_eq!(outcome.problems, []);
    assert_eq!(outcome.table.expect("a table").carriers[0].stock.as_deref(), Some(markup));
    for hidden in ["\\u0000", "\\u0007", "\\n", "\\u202e", "\u{202e}", "\u{2066}"] {
        let outcome = read(&table(&carrier(&format!("\"stock\": \"a{hidden}b\"")), ""));
        assert_eq!(only(&outcome).fault, Fault::BadText { most: 400 }, "{hidden:?}");
        assert!(!only(&outcome).found.contains(['\u{0}', '\u{7}', '\n', '\u{202e}', '\u{2066}']));
    }
}

#[test]
fn only_web_addresses_are_links() {
    for link in [
        "javascript:alert(1)",
        "data:text/html,x",
        "https://",
        "https:///x",
        "//x.example",
        "https://x example",
        " https://x.example",
    ] {
        let outcome = read(&table(&carrier(&format!("\"link\": \"{link}\"")), ""));
        assert_eq!(only(&outcome).fault, Fault::NotALink, "{link}");
    }
    for link in ["https://x.example", "http://x.example/a?b=c#d", "https://[::1]/"] {
        assert_eq!(read(&table(&carrier(&format!("\"link\": \"{link}\"")), "")).problems, [], "{link}");
    }
}

/// A logo is shown as a picture and fetched from nowhere.
#[test]
fn invariant_only_a_picture_within_the_file_is_a_logo() {
    let of = |logo: &str| {
        read(&format!(
            r#"{{"format": "pairwright.table", "version": 1, "title": "T", "dealer": {{"name": "D", "logo": "{logo}"}}, "carriers": [], "heads": []}}"#
        ))
    };
    let long = format!("data:image/png;base64,{}", "A".repeat(table::LONGEST_PICTURE));
    for logo in [
        "https://x.example/logo.png",
        "data:text/html;base64,PGI+",
        "data:image/svg+xml,<svg onload='x'/>",
        "data:image/png;base64,",
        "data:image/png;base64,ab\\u0022cd",
        "data:image/gif;base64,R0lG",
        &long,
    ] {
        let outcome = of(logo);
        assert_eq!(only(&outcome).fault, Fault::NotAPicture, "{logo:.40}");
        assert_eq!(
            only(&outcome).fault.to_string(),
            "no picture: write it as data:image/png;base64, with its bytes in base64"
        );
    }
    for kind in ["png", "jpeg", "svg+xml"] {
        let outcome = of(&format!("data:image/{kind};base64,iVBORw0KGgo="));
        assert_eq!(outcome.problems, []);
        assert!(outcome.table.and_then(|table| table.dealer).is_some_and(|dealer| dealer.logo.is_some()));
    }
}

proptest! {
    #[test]
    fn no_text_makes_it_panic(text in ".{0,400}") {
        let _ = read(&text);
    }

    #[test]
    fn no_damage_to_a_table_makes_it_panic(at in 0usize..11_000, length in 0usize..40, text in "[\\[\\]{}\",:0-9a-z. ½–]{0,6}") {
        let whole = include_str!("version-1.json");
        let boundary = |mut at: usize| {
            at = at.min(whole.len());
            while !whole.is_char_boundary(at) {
                at -= 1;
            }
            at
        };
        let (begin, end) = (boundary(at), boundary(at + length));
        let damaged = format!("{}{text}{}", &whole[..begin], &whole[end..]);
        let outcome = read(&damaged);
        // Every place exists, and what was found stands there.
        let lines: Vec<&str> = damaged.split('\n').collect();
        for problem in &outcome.problems {
            let line = lines.get(problem.line - 1).expect("a line of the text");
            let found: Vec<char> = problem.found.chars().take_while(|c| *c != '…').take(20).collect();
            let there: Vec<char> = line.chars().skip(problem.column - 1).take(found.len()).collect();
            // A value may go on in the next line.
            prop_assert_eq!(&found[..there.len()], &there[..], "{:?}", problem);
        }
    }
}
