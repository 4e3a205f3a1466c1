//! What a hand-over tells where nothing is typed: what is to be heard before a group of readings, what a reading should be, and
//! what may be wrong.

use super::tree::{Block, Fact, Fold, Look};
use handover::{Diagnosis, Finding, Measurement, NAMED, Next, Planned, Sign, Step, Suspect, first_start_before};
use quantity::{Amount, Named};
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

/// What is read: where and how, the drawn dial with its needle where something was read, what is expected, what limits it, and what
/// is to be minded where these come near each other.
pub fn reading(words: &Words, planned: &Planned, read: Option<Amount>) -> Vec<Block> {
    let Planned { what, reading, gauge, .. } = planned;
    let dial = drawing::gauge(reading, gauge.as_ref(), read, words);
    let picture = dial.map(|dial| Block::Picture { picture: dial.picture, said: words.dial_of(*what) });
    let bounds = [("Expected", words.expected_of(reading)), ("Limit", words.limit_of_reading(reading))];
    let facts = bounds.into_iter().filter_map(|(name, says)| Some(Fact::new(name, [says?]))).collect();
    let where_to = Block::says(Look::Where, words.measurement_place(planned));
    let near = words.reading_remark(reading).map(|text| Block::says(Look::Plain, text));
    std::iter::once(where_to).chain(picture).chain([Block::Facts { look: Look::Bounds, facts }]).chain(near).collect()
}

/// What may be wrong, the likeliest first, but what is dangerous before all; each unfolds to what speaks for and against it. `off` says
/// whether any reading by itself is not as computed.
pub fn suspects(words: &Words, diagnosis: Option<&Diagnosis>, off: bool) -> Vec<Block> {
    let Some(diagnosis) = diagnosis else { return vec![Block::says(Look::Quiet, words.solving_faults())] };
    let mut blocks = vec![Block::says(Look::Plain, words.finding(diagnosis, off))];
    if let Finding::Suspects { suspects, explained } = &diagnosis.finding
        && !suspects.is_empty()
    {
        let runs = diagnosis.beyond.is_empty();
        let items =
            suspects.iter().take(NAMED).map(|one| vec![suspect(words, one, *explained, (off, runs), "all", true)]);
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
    if named.is_empty() {
        return vec![Block::says(Look::Quiet, words.finding(diagnosis, true))];
    }
    let speaks = |suspect: &&&Suspect| suspect.stop || suspect.speaks_for.iter().any(|sign| sign.what == what);
    let runs = diagnosis.beyond.is_empty();
    let own: Vec<_> = named.iter().filter(speaks).copied().collect();
    let told = if own.is_empty() { named } else { own };
    let items = told
        .into_iter()
        .enumerate()
        .map(|(place, one)| vec![suspect(words, one, *explained, (true, runs), what.name(), place == 0)]);
    vec![
        Block::Heading { level: 3, text: words.what_may_be_wrong().to_owned() },
        Block::List { look: Look::Suspect, ordered: true, items: items.collect() },
    ]
}

/// A suspect as a fold. Nothing is read next on a machine that does not run, as something is over its limit. What to do stands in its line where that is `told`, else in it: what to look at where it is dangerous, as nobody
/// reads on then; else what to do next.
fn suspect(
    words: &Words,
    suspect: &Suspect,
    explained: bool,
    (off, runs): (bool, bool),
    whose: &str,
    told: bool,
) -> Block {
    let stop = suspect.stop && off;
    let name = words.fault_name(suspect.fault);
    let name = if stop { format!("Stop. {name}") } else { name.to_owned() };
    let mut to_do = vec![words.next_step(suspect.next)];
    if !runs {
        to_do = vec![words.look_at(suspect.look).to_owned()];
    } else if suspect.next != (Next::Look { at: suspect.look }) {
        to_do.insert(usize::from(!stop), words.look_at(suspect.look).to_owned());
    }
    let summary = if told { to_do.remove(0) } else { String::new() };
    let suspicion = words.suspicion(suspect, explained).map(|said| Block::says(Look::Quiet, said));
    let mut inside: Vec<Block> = suspicion.into_iter().collect();
    inside.extend(to_do.into_iter().map(|text| Block::says(Look::Plain, text)));
    for (name, signs) in [("For it", &suspect.speaks_for), ("Against it", &suspect.speaks_against)] {
        inside.extend(signs_of(words, name, signs));
    }
    inside.extend(words.alike(suspect).map(|text| Block::says(Look::Plain, text)));
    let look = if stop { Look::Stop } else { Look::Suspect };
    Block::Fold(Fold { summary, ..Fold::new(format!("{whose}-{}", suspect.fault.name()), look, name, inside) })
}

fn signs_of(words: &Words, name: &str, signs: &[Sign]) -> Vec<Block> {
    if signs.is_empty() {
        return Vec::new();
    }
    let signs = signs.iter().map(|sign| format!("{}.", words.sign(sign)));
    vec![Block::says(Look::Name, name), Block::sentences(signs)]
}
