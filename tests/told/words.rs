//! The words of every pair of the demo table.

use super::sound::sound;
use super::yard::yard;
use fit::Pairing;
use handover::{Circumstances, Planned, plan};
use quantity::{Named, UnitSystem};
use wording::{PlainNumbers, Words};
use workshop::Sheets;

#[test]
fn every_pair_of_the_demo_has_sound_words_in_both_unit_systems() {
    let yard = yard();
    for (place, carrier) in yard.table.carriers.iter().enumerate() {
        for (head, pairing) in yard.of(place) {
            let sheets = Sheets::of(pairing, carrier, head, &yard.conditions);
            let planned = plan(pairing, carrier, head, &yard.conditions, &Circumstances::default());
            for &units in UnitSystem::ALL {
                let words = Words { numbers: &PlainNumbers, units };
                sound(&words.sentence(pairing));
                sound(&words.row_below(pairing));
                for check in pairing.checks.iter().chain(&pairing.checks_after) {
                    sound(&words.reason(check));
                    sound(&words.check_line(check));
                    assert!(words.reason(check).ends_with('.'), "{}", words.reason(check));
                }
                for change in &pairing.changes {
                    sound(&words.change_title(change));
                    sound(&words.change_reason(change));
                }
                for text in words.cautions(pairing) {
                    sound(&text);
                }
                sound_sheets(words, pairing, &sheets, &planned);
            }
        }
    }
}

/// No section without lines, no line without a title, nothing empty between; what is sent stays short.
fn sound_sheets(words: Words, pairing: &Pairing, sheets: &Sheets, planned: &[Planned]) {
    let customer = words.for_customer(pairing, sheets);
    for section in words.sheets(pairing, sheets, planned).iter().chain([&customer]) {
        assert!(!section.lines.is_empty() && !section.title.is_empty(), "{section:?}");
        for line in &section.lines {
            sound(&line.title);
            for text in [&line.detail, &line.value].into_iter().filter(|text| !text.is_empty()) {
                sound(text);
            }
            assert!(line.detail.is_empty() || line.detail.ends_with('.') || line.detail.ends_with('_'), "{line:?}");
        }
    }
    let sent = words.to_send(pairing);
    sound(&sent);
    assert!(sent.chars().count() <= 400 && sent.ends_with('.') && !sent.contains('\n'), "{sent}");
    // One page: no code of a list stands in it.
    let told: usize = customer.lines.iter().map(|line| line.title.len() + line.detail.len() + line.value.len()).sum();
    assert!(told < 3500, "{told} characters: {customer:?}");
}
