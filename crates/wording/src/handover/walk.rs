//! The walk of a hand-over in words: where one stands on it, what is expected and allowed of a reading, why it is stopped, and what is
//! told of all of it in a list.

use crate::{Words, capital, counted};
use fit::{CheckId, Pairing, Verdict};
use handover::{FunctionCheck, Item, Lesson, Measurement, Planned, Progress, Standing, Step, Walk};
use quantity::Amount;
use quantity::text::TextFault;
use record::HandOver;
use record::handover::NOT_APPLICABLE;
use workshop::{Found, Judged, Reading};

/// What is done where something is over its limit.
const STOP: &str = "Stop. Engine off.";

/// What a list tells of an item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it is called.
    pub name: String,
    /// What is expected of it; may be empty.
    pub expected: String,
    /// Its limit; may be empty.
    pub limit: String,
    /// What was read or answered; may be empty.
    pub read: String,
    /// How far it is.
    pub result: String,
}

impl Words<'_> {
    /// What an item is called where it stands by itself.
    pub fn item_title(&self, item: Item) -> String {
        match item {
            Item::Reading(what) => self.measurement(what).to_owned(),
            Item::Function(_) => capital(&self.item_of_hand_over(item)),
        }
    }

    /// Where an item stands on the walk, and how many were put off.
    pub fn place_on_walk(&self, walk: &Walk, item: Item) -> String {
        let place = walk
            .place(item)
            .map_or_else(|| "Only where something is off".to_owned(), |(place, of)| format!("{place} of {of}"));
        let later = walk.items().iter().filter(|(_, progress)| *progress == Progress::Later).count();
        let later = if later > 0 { format!(" · {later} put off") } else { String::new() };
        format!("{place} · {}{later}", self.step_short(item.step()))
    }

    /// The button that leads to all items.
    pub fn all_items(&self, walk: &Walk) -> String {
        let all = walk.items().len();
        let readings = walk.items().iter().filter(|(item, _)| matches!(item, Item::Reading(_))).count();
        let trials = counted(all - readings, "trial", "trials");
        let readings = counted(readings, "reading", "readings");
        format!("All {readings}, {trials}")
    }

    /// What should be found, an end at a limit on its safe side as the limit is; none of what is only noted.
    pub fn expected_of(&self, reading: &Reading) -> Option<String> {
        match &reading.found {
            Found::Expected { reads } => {
                let (low, high) = self.ends(reads);
                Some(Self::with_unit_once(low, &high))
            }
            Found::NotKnown { missing } if missing.is_empty() => None,
            Found::NotKnown { missing } => Some(format!("not known without {}", self.facts_named(missing))),
        }
    }

    /// Between which figures a reading may lie; none where nothing limits it.
    pub fn limit_of_reading(&self, reading: &Reading) -> Option<String> {
        let (least, most) =
            (reading.not_below.map(|least| self.at_least(least)), reading.stop.map(|most| self.at_most(most)));
        match (least, most) {
            (Some(least), Some(most)) => Some(Self::with_unit_once(least, &most)),
            (Some(least), None) => Some(format!("at least {least}")),
            (None, most) => most.map(|most| format!("at most {most}")),
        }
    }

    /// From one figure to another, with their unit once.
    fn with_unit_once(low: String, high: &str) -> String {
        if low == high {
            return low;
        }
        match (low.rsplit_once(' '), high.rsplit_once(' ')) {
            (Some((bare, unit)), Some((_, same))) if unit == same => format!("{bare} to {high}"),
            _ => format!("{low} to {high}"),
        }
    }

    /// How a figure that was read lies to what was expected, and by how much it is over its limit.
    pub fn judged(&self, reading: &Reading, read: Amount) -> String {
        let said = match reading.judge(read) {
            Some(Judged::Inside) => ", as expected",
            Some(Judged::Below) => ", less than expected",
            Some(Judged::Above) => ", more than expected",
            Some(Judged::Beyond) => ", over the limit",
            None => "",
        };
        format!("Read: {}{said}", self.typed(read))
    }

    /// That a figure cannot be read, and how to fix it.
    pub fn reading_fault(&self, what: Measurement, fault: &TextFault) -> String {
        format!("Not read yet. To fix it: {}.", self.text_fault(what.dimension(), fault).1)
    }

    /// That a comma or a space in a figure is one of two things; what it may be stands behind it.
    pub fn thousands_or_decimal(&self) -> &'static str {
        "A comma or a space means thousands to one reader and a decimal to another. Did you mean"
    }

    /// What is said of an item that was not read or tried: that it is not applicable, and that this keeps the hand-over open where it
    /// may not be left out.
    pub fn not_read(&self, standing: &Standing, item: Item) -> &'static str {
        match (standing.not_applicable.contains(&item), standing.open.contains(&item), item) {
            (true, true, Item::Reading(_)) => {
                "Not applicable, so it is not proven: what has a limit counts only when it is read."
            }
            (true, true, Item::Function(_)) => {
                "Not applicable, so it is not proven: what can hurt somebody counts only when it is tried."
            }
            (true, false, _) => "Not applicable on this machine.",
            (false, _, Item::Reading(_)) => "Not read yet.",
            (false, true, Item::Function(_)) => "Not tried yet.",
            (false, false, Item::Function(_)) => "",
        }
    }

    /// Why a hand-over is stopped: what to do, and what shows it; none where it is not.
    pub fn stopped(
        &self,
        standing: &Standing,
        planned: &[Planned],
        record: &HandOver,
    ) -> Option<(&'static str, String)> {
        let (first, more) = standing.stop.split_first()?;
        let why = match first {
            Item::Reading(what) => {
                let limit = planned.iter().find(|planned| planned.what == *what)?.reading.stop?;
                let Ok(Some(value)) = record.amount(*what) else {
                    let before = record.was_beyond(*first)?;
                    let (name, limit) = (self.measurement(*what), self.at_most(limit));
                    return Some((
                        STOP,
                        format!("{name}: {before} was over the limit of {limit}. Fix it, then read again."),
                    ));
                };
                format!(
                    "{}: {} is over the limit of {}.",
                    self.measurement(*what),
                    self.typed(value),
                    self.at_most(limit)
                )
            }
            Item::Function(_) if record.was_beyond(*first).is_some() => {
                format!("{}: no. Fix it, then try again.", self.item_title(*first))
            }
            Item::Function(_) => format!("{}: no.", self.item_title(*first)),
        };
        let more = if more.is_empty() { String::new() } else { format!(" And {} more.", more.len()) };
        Some((STOP, why + &more))
    }

    /// How far an item is, in a word or two.
    pub fn progress(&self, item: Item, progress: Progress) -> &'static str {
        match (progress, item) {
            (Progress::Open, _) => "open",
            (Progress::Later, _) => "put off",
            (Progress::NotApplicable, _) => NOT_APPLICABLE,
            (Progress::Extra, _) => "only where something is off",
            (Progress::Done, Item::Reading(_)) => "met",
            (Progress::Done, Item::Function(_)) => "yes",
            (Progress::Off, Item::Reading(_)) => "not as computed",
            (Progress::Stop, Item::Reading(_)) => "over the limit: stop",
            (Progress::Off, Item::Function(_)) => "no",
            (Progress::Stop, Item::Function(_)) => "no: stop",
        }
    }

    /// What a list tells of an item.
    pub fn row_of_item(&self, record: &HandOver, planned: &[Planned], item: Item, progress: Progress) -> Row {
        let reading = match item {
            Item::Reading(what) => planned.iter().find(|planned| planned.what == what).map(|planned| &planned.reading),
            Item::Function(_) => None,
        };
        let expected = reading.and_then(|reading| self.expected_of(reading)).unwrap_or_default();
        let limit = reading.and_then(|reading| self.limit_of_reading(reading)).unwrap_or_default();
        let (read, result) = match item {
            Item::Reading(what) => match record.amount(what) {
                Ok(Some(read)) => {
                    let judged = reading.and_then(|reading| reading.judge(read));
                    let noted = progress == Progress::Done && judged.is_none();
                    (self.typed(read), if noted { "read" } else { self.progress(item, progress) })
                }
                Ok(None) => (String::new(), self.progress(item, progress)),
                Err(_) => (record.typed(what).to_owned(), "cannot be read"),
            },
            Item::Function(_) => (String::new(), self.progress(item, progress)),
        };
        let result = match record.was_beyond(item) {
            None => result.to_owned(),
            Some(before) if matches!(item, Item::Reading(_)) => format!("{result}; before: {before}, over the limit"),
            Some(before) => format!("{result}; before: {before}"),
        };
        Row { name: self.item_title(item), expected, limit, read, result }
    }

    /// Before what the steps of the first start are done, with their number.
    pub fn first_start_comes_first(&self, step: Step, count: usize) -> String {
        let steps = counted(count, "step", "steps");
        match step {
            Step::Start | Step::Tester => format!("First start: {steps} before this list is read"),
            Step::Attachment => format!("First start: {steps} with this list"),
            Step::After => format!("First start: {steps} to finish it"),
        }
    }

    /// What goes with the answers.
    pub fn about_answers(&self) -> &'static str {
        "Whatever is answered by no is put right before the machine goes to work."
    }

    /// What the readings teach, and where it can be kept.
    pub fn about_lessons(&self, is_own: bool) -> &'static str {
        if is_own {
            "Measured figures are surer than a brochure's. Fix what is wrong first: a worn or misset machine is kept as it is read."
        } else {
            "The machine stands in the table. To keep what was measured, describe it as a machine of your own."
        }
    }

    /// That a figure was kept on the machine, and what that makes of the verdict.
    pub fn lesson_kept(&self, lesson: &Lesson, before: Verdict, now: Verdict) -> String {
        let (kept, now_is) = (self.lesson(lesson), self.verdict(now));
        if before == now {
            format!("Kept as measured: {kept}. Solved again, the verdict stays: {now_is}.")
        } else {
            let was = self.verdict(before);
            format!("Kept as measured: {kept}. Solved again, the verdict is now: {now_is} (was: {was}).")
        }
    }

    /// The heading over who stands for a hand-over.
    pub fn who_stands_for_it(&self) -> &'static str {
        "Who stands for it"
    }

    /// Where it is kept who stands for it.
    pub fn about_entries(&self) -> &'static str {
        "Kept in this browser only. A link or a paper made from here holds it too. The customer signs on a page of his own, without what may be wrong \
         and without remarks."
    }

    /// Whether a record is kept in the browser.
    pub fn record_is_kept(&self, as_it_stands: bool, nothing_to_keep: bool) -> &'static str {
        if as_it_stands {
            "Kept in this browser."
        } else if nothing_to_keep {
            "Nothing is kept until something is typed."
        } else {
            "Not kept as it stands here: download it, or make room and type on."
        }
    }

    /// The heading over the customer's signature.
    pub fn signature(&self) -> &'static str {
        "Signature of who took it over"
    }

    /// What the customer's signature stands for, or why he is not asked for one.
    pub fn about_signature(&self, may_be_signed: bool, as_it_stands: Option<bool>) -> &'static str {
        match (may_be_signed, as_it_stands) {
            (false, _) => "Not to be signed: fix what is wrong first, and read or try it again.",
            (true, None) => "Sign here with a finger or a pen, or print the page and sign it by hand.",
            (true, Some(true)) => {
                "Signed as it stands here. The signature is kept with the record and goes into the export, not into a link."
            }
            (true, Some(false)) => "Something was changed since it was signed: sign again.",
        }
    }

    /// What to do where a trial is asked.
    pub fn function_place(&self, check: FunctionCheck, pairing: &Pairing) -> String {
        let no = if check.class() == fit::Class::Safety { "No means stop." } else { self.about_answers() };
        // What an instrument shows meanwhile, where that is to prove.
        let proved = || pairing.final_check(CheckId::RunDown).filter(|check| pairing.to_prove.contains(&check.id));
        let limit = match check {
            FunctionCheck::RunsDown => proved().and_then(|check| Some(self.at_least(check.limit?))),
            _ => None,
        };
        match limit {
            Some(limit) => format!(
                "Tried on the machine, with a transmitter that shows vacuum at the motor's inlet: yes only where it shows {limit} or \
                 more all the while. {no}"
            ),
            None => format!("Tried on the machine. {no}"),
        }
    }

    /// What is solved meanwhile.
    pub fn solving_faults(&self) -> &'static str {
        "Solving the circuit with every fault …"
    }
}
