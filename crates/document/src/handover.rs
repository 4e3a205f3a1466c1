//! What a hand-over tells where nothing is typed: what is to be heard before a group of readings, and what may be wrong.

use super::tree::{Block, Fold, Look};
use handover::{Diagnosis, Finding, Measurement, NAMED, Next, Sign, Step, Suspect, first_start_before};
use quantity::Named;
use wording::Words;
use workshop::FirstStep;

/// What is to be heard before a group of readings is begun: its caution, and the steps of the first start that lead to it.
pub fn before(words: &Words, step: Step, first_start: &[FirstStep]) -> Vec<Block> {
    let mut blocks = vec![Block::says(Look::Lead, words.caution_of_step(step))];
    let steps = &first_start[first_start_before(step, first_start)];
    if let Some(told) = words.first_start(steps) {
        let items = told.lines.into_iter().map(|line| {
            let value = if line.value.is_empty() { String::new() } else { format!(": {}", line.value) };
            let mut said = vec![Block::says(Look::Name, line.title + &value)];
            said.extend((!line.detail.is_empty()).then(|| Block::says(Look::Plain, line.detail)));
            said
        });
        let list = Block::List { look: Look::Plain, ordered: true, items: items.collect() };
        let name = words.first_start_comes_first(step, steps.len());
        blocks.push(Block::Fold(Fold::new(format!("first-start-{}", step.name()), Look::Part, name, vec![list])));
    }
    blocks
}

/// What may be wrong, the likeliest first, but what is dangerous before all; each unfolds to what speaks for and against it. `off` says
/// whether any reading by itself is not as computed.
pub fn suspects(words: &Words, diagnosis: Option<&Diagnosis>, off: bool) -> Vec<Block> {
    let Some(diagnosis) = diagnosis else { return vec![Block::says(Look::Quiet, words.solving_faults())] };
    let mut blocks = vec![Block::says(Look::Plain, words.finding(diagnosis, off))];
    if let Finding::Suspects { suspects, explained } = &diagnosis.finding {
        let items = suspects.iter().take(NAMED).map(|one| vec![suspect(words, one, *explained, off, "all", true)]);
        blocks.push(Block::List { look: Look::Suspect, ordered: true, items: items.collect() });
    }
    blocks.extend(words.left_out(diagnosis).map(|text| Block::says(Look::Quiet, text)));
    blocks
}

/// What may be wrong where one reading shows it, short enough to stand under it: what to do about the first suspect, the names of the
/// others. Of several suspects those that this reading speaks for. Nothing where nothing is suspected.
pub fn behind(words: &Words, diagnosis: Option<&Diagnosis>, what: Measurement) -> Vec<Block> {
    let Some(diagnosis) = diagnosis else { return vec![Block::says(Look::Quiet, words.solving_faults())] };
    let Finding::Suspects { suspects, explained } = &diagnosis.finding else { return Vec::new() };
    let named: Vec<_> = suspects.iter().take(NAMED).collect();
    let speaks = |suspect: &&&Suspect| suspect.stop || suspect.speaks_for.iter().any(|sign| sign.what == what);
    let own: Vec<_> = named.iter().filter(speaks).copied().collect();
    let told = if own.is_empty() { named } else { own };
    let items = told
        .into_iter()
        .enumerate()
        .map(|(place, one)| vec![suspect(words, one, *explained, true, what.name(), place == 0)]);
    vec![
        Block::Heading { level: 3, text: words.what_may_be_wrong().to_owned() },
        Block::List { look: Look::Suspect, ordered: true, items: items.collect() },
    ]
}

/// A suspect as a fold. What to do next stands in its line where that is `told`, else in it.
fn suspect(words: &Words, suspect: &Suspect, explained: bool, off: bool, whose: &str, told: bool) -> Block {
    let stop = suspect.stop && off;
    let name = words.fault_name(suspect.fault);
    let name = if stop { format!("Stop. {name}") } else { name.to_owned() };
    let next = words.next_step(suspect.next);
    let mut inside: Vec<Block> =
        words.suspicion(suspect, explained).map(|said| Block::says(Look::Quiet, said)).into_iter().collect();
    inside.extend((!told).then(|| Block::says(Look::Plain, next.clone())));
    if suspect.next != (Next::Look { at: suspect.look }) {
        inside.push(Block::says(Look::Plain, words.look_at(suspect.look)));
    }
    for (name, signs) in [("For it", &suspect.speaks_for), ("Against it", &suspect.speaks_against)] {
        inside.extend(signs_of(words, name, signs));
    }
    inside.extend(words.alike(suspect).map(|text| Block::says(Look::Plain, text)));
    let look = if stop { Look::Stop } else { Look::Suspect };
    let fold = Fold::new(format!("{whose}-{}", suspect.fault.name()), look, name, inside);
    Block::Fold(Fold { summary: if told { next } else { String::new() }, ..fold })
}

fn signs_of(words: &Words, name: &str, signs: &[Sign]) -> Vec<Block> {
    if signs.is_empty() {
        return Vec::new();
    }
    let signs = signs.iter().map(|sign| format!("{}.", words.sign(sign)));
    vec![Block::says(Look::Name, name), Block::sentences(signs)]
}
