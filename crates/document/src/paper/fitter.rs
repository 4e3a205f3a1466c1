//! What a fitter works from: what is to be reached, the circuit as it will be, and the work in order, each step with a box to tick.

use super::{Papers, form, heading, line, page, sections, steps};
use crate::tree::{Block, Fact, Look, Slot, Span, Step};
use drawing::Form;
use fit::installation::Installation;
use fit::installation::State;
use fit::{Load, Stage, Verdict};
use handover::{Planned, Step as Group};
use quantity::Named;
use workshop::schema::Schema;
use workshop::{Found, JobSheets, Value};

impl Papers<'_> {
    /// The fitter's sheet, page by page.
    pub fn fitters(&self) -> Vec<Block> {
        let mut pages = vec![page(self.first_page())];
        pages.extend(self.drawn().map(page));
        let mut rest = self.before_the_work();
        if let Some(job) = &self.sheets.job {
            rest.extend(self.work(job));
            pages.push(page(rest));
            pages.push(page(self.readings(job)));
            let mut back = self.back_and_on_again(job);
            back.push(Self::remarks());
            back.extend(Self::signed());
            pages.push(page(back));
        } else {
            pages.push(page(rest));
        }
        pages.push(page(self.for_the_office()));
        pages
    }

    /// Title block, what kills, what is to be reached, instruments and parts.
    fn first_page(&self) -> Vec<Block> {
        let words = self.words;
        let mut blocks = vec![self.title_block()];
        blocks.extend(sections(words.hazards(&[self.pairing]), true));
        let Some(job) = &self.sheets.job else {
            blocks.extend(self.not_yet());
            return blocks;
        };
        if !job.settings.values.is_empty() {
            blocks.push(heading("What is to be set"));
            // The numbers are those of the changes, as on the drawing.
            let number = |value: &Value| {
                let place = self.pairing.changes.iter().position(|change| Some(change.id) == value.change);
                place.map_or_else(|| "–".to_owned(), |place| (place + 1).to_string())
            };
            let rows = job.settings.values.iter().map(|value| {
                let row = words.value_row(value);
                let said =
                    [row.only_if_needed.as_str(), &format!("{}. Off: {}.", wording::capital(&row.read), row.off)];
                let said: Vec<_> = said.into_iter().filter(|text| !text.is_empty()).collect();
                [
                    Slot::says(number(value)),
                    Slot::More(vec![Span::Text(row.name)], said.join(" ")),
                    Slot::Says(vec![Span::Figure { text: row.set_to, of: row.of }]),
                    Slot::Blank,
                    Slot::Blank,
                    Slot::Blank,
                ]
            });
            blocks.push(form(
                "What is to be set",
                ["Change", "Setting", "Set to", "Found", "Set", "By"],
                rows.collect(),
            ));
        }
        blocks.push(Block::says(Look::Quiet, words.rounded_to_the_safe_side()));
        let (instruments, _) = self.instruments(job);
        if !instruments.is_empty() {
            blocks.push(heading("Tools and instruments"));
            let rows = instruments.into_iter().map(|of| {
                let what = format!("{}, {}", wording::capital(&of.value), wording::small(&of.title));
                [Slot::Tick, Slot::says(what), Slot::says(of.detail)]
            });
            blocks.push(form("Tools and instruments", ["", "Instrument, and where it goes", "How"], rows.collect()));
        }
        let parts = words.parts_list(&self.sheets.changes);
        if !parts.is_empty() {
            blocks.push(heading("Parts (what each must be: see the parts list)"));
            let rows = parts.into_iter().map(|part| {
                let what = if part.size.is_empty() { part.part } else { format!("{}, {}", part.part, part.size) };
                [Slot::Tick, Slot::says(what), Slot::says(part.count), Slot::or_blank(part.number)]
            });
            blocks.push(form("Parts", ["", "Part", "Number", "Stores no."], rows.collect()));
        }
        blocks
    }

    /// Where no work may begin: why not, and what is found out, with room for what was found.
    fn not_yet(&self) -> Vec<Block> {
        let words = self.words;
        let mut blocks = Vec::new();
        blocks.push(Block::says(
            Look::Lead,
            match self.pairing.verdict {
                Verdict::DoesNotFit => "It does not fit: nothing is ordered and nothing is fitted by this sheet.",
                _ => "It cannot be said yet whether it fits: nothing is ordered and nothing is fitted until what is open below is read and \
                     the pairing is solved again.",
            },
        ));
        let open = words.to_find_out(&self.sheets.rests_on);
        if !open.is_empty() {
            blocks.push(heading("What is to be found out"));
            let rows = open
                .into_iter()
                .map(|of| [Slot::Tick, Slot::More(vec![Span::Text(of.title)], of.detail), Slot::Blank, Slot::Blank]);
            blocks.push(form(
                "What is to be found out",
                ["", "What, and where it is found", "Found", "By"],
                rows.collect(),
            ));
        }
        blocks
    }

    /// The circuit as it will be, as large as the page.
    fn drawn(&self) -> Option<Vec<Block>> {
        self.sheets.job.as_ref()?;
        let stage = if self.pairing.changed.is_some() { Stage::AfterChanges } else { Stage::AsItIs };
        let machine = self.pairing.changed.as_deref().unwrap_or(self.carrier);
        let circuit = self.pairing.circuit.as_ref()?;
        let standing = Installation::new(machine, circuit, self.head, self.conditions)
            .map(|found| found.changed_from(self.carrier).state(State::usual(Load::Working)));
        let of = (self.pairing, self.carrier, self.head);
        let picture = drawing::circuit(of, stage, standing.as_ref(), &self.words, Form::Wide).picture();
        let (before, after) = Schema::of_pairing(self.pairing, self.carrier, self.head);
        let said = self.words.circuit_text(&after.unwrap_or(before), standing.as_ref()).join(" ");
        let (title, about) = if stage == Stage::AfterChanges {
            (
                "The circuit, after the changes",
                "What is added is drawn heavier; the numbers are those of the changes. Flows and pressures at work, oil warm.",
            )
        } else {
            ("The circuit", "Flows and pressures at work, oil warm.")
        };
        Some(vec![
            heading(title),
            Block::says(Look::Quiet, about),
            Block::Page { look: Look::Large, inside: vec![Block::Picture { picture, said }] },
        ])
    }

    /// What to beware of, and what is found out before anything is bought.
    fn before_the_work(&self) -> Vec<Block> {
        let words = self.words;
        let mut blocks = vec![heading("Beware")];
        let lines = words.cautions_besides(&self.sheets.cautions).into_iter().map(line).collect();
        blocks.push(Block::Lines { look: Look::Cautions, ordered: false, lines });
        if let Some(found) = words.found_out_first(self.pairing) {
            blocks.push(heading(found.title));
            blocks.push(steps(found.lines));
        }
        let needs = words.change_sheet(&self.sheets.changes).filter(|_| self.sheets.job.is_none());
        if let Some(mut needs) = needs {
            if self.pairing.verdict == Verdict::CannotSay {
                "What it needs, whatever else comes out".clone_into(&mut needs.title);
            }
            blocks.extend(sections([needs], true));
        }
        blocks
    }

    /// The whole work in order: locked out first, fitted, set, started.
    fn work(&self, job: &JobSheets) -> Vec<Block> {
        let words = self.words;
        let mut blocks = self.positions(job).to_vec();
        let steps = job.work.iter().enumerate().map(|(place, step)| Step {
            number: place + 1,
            after: step.after.map(|after| after + 1),
            line: line(words.task(&step.task, &self.sheets.changes)),
        });
        blocks.extend([
            heading("The work, in order"),
            Block::says(
                Look::Quiet,
                "Tick each step when it is done. “after 3” at its end: not before step 3 is ticked. The setting sheet is page 1; lists A and B follow the work.",
            ),
            Block::Steps(steps.collect()),
        ]);
        blocks
    }

    /// How everything stands, attachment on and off.
    fn positions(&self, job: &JobSheets) -> [Block; 2] {
        let rows = job.settings.positions.iter().map(|state| {
            let [item, on, off] = self.words.position_row(state);
            [Slot::Tick, Slot::says(item), Slot::says(on), Slot::says(off)]
        });
        [
            heading("How it stands, attachment on and off"),
            form("How it stands", ["", "What", "Attachment on", "Attachment off"], rows.collect()),
        ]
    }

    /// What is read, with room for what was read.
    fn readings(&self, job: &JobSheets) -> Vec<Block> {
        let words = self.words;
        let mut blocks = Vec::new();
        let (_, allowed) = self.instruments(job);
        let quiet = |line: wording::Line| Block::says(Look::Quiet, format!("{}: {}", line.title, line.detail));
        let at = words.readings_at(&job.settings);
        for &group in Group::ALL {
            let rows: Vec<_> = self
                .planned
                .iter()
                .filter(|planned| Group::of(planned.what) == group)
                .map(|planned| self.reading(planned))
                .collect();
            if rows.is_empty() {
                continue;
            }
            let title = format!("{}, {at}", words.step_of_hand_over(group));
            let name = words.step_of_hand_over(group);
            blocks.push(heading(if matches!(group, Group::Tester | Group::Attachment) {
                title
            } else {
                name.to_owned()
            }));
            blocks.push(Block::says(Look::Quiet, words.caution_of_step(group)));
            blocks.push(form(name, ["Reading", "Expected", "Limit", "Read", "By"], rows));
        }
        blocks.extend(allowed.into_iter().map(quiet));
        blocks
    }

    /// What is expected of a reading, in a word or two; and why nothing can be, which stands with its name.
    pub(super) fn expected(&self, planned: &Planned) -> (String, Option<String>) {
        match (&planned.reading.found, self.words.expected_of(&planned.reading)) {
            (Found::NotKnown { .. }, Some(why)) => {
                ("not known".to_owned(), Some(format!("{}.", wording::capital(&why))))
            }
            (_, None) => ("to be noted".to_owned(), None),
            (_, Some(expected)) => (expected, None),
        }
    }

    /// The instruments, and apart from them what the readings allow for.
    fn instruments(&self, job: &JobSheets) -> (Vec<wording::Line>, Vec<wording::Line>) {
        let all = self.words.instruments(&job.settings, self.planned);
        all.into_iter().partition(|line| !line.value.is_empty())
    }

    fn reading(&self, planned: &Planned) -> [Slot; 5] {
        let words = self.words;
        let (expected, why) = self.expected(planned);
        let place = [Some(words.measurement_place(planned)), words.reading_remark(&planned.reading), why];
        let place: Vec<_> = place.into_iter().flatten().collect();
        [
            Slot::More(vec![Span::Text(words.measurement(planned.what).to_owned())], place.join(" ")),
            Slot::says(expected),
            Slot::says(words.limit_of_reading(&planned.reading).unwrap_or_else(|| "–".to_owned())),
            Slot::Blank,
            Slot::Blank,
        ]
    }

    fn back_and_on_again(&self, job: &JobSheets) -> Vec<Block> {
        let mut blocks = Vec::new();
        for section in self.words.switch_back(&job.switch_back) {
            blocks.push(heading(section.title));
            blocks.push(steps(section.lines));
        }
        blocks
    }

    /// Room for what nobody foresaw.
    fn remarks() -> Block {
        let rows = (0..4).map(|_| [Slot::Blank]).collect();
        Block::Together(vec![
            heading("Remarks"),
            form("Remarks", ["What was found otherwise, worn or left to do"], rows),
        ])
    }

    /// Who stands for it, by hand.
    pub(super) fn signed() -> Vec<Block> {
        let names = ["Changed by, date", "Set and proved by, date", "Hours on the clock", "Handed over to"];
        let facts = names.map(|name| Fact::new(name, Vec::<Span>::new())).to_vec();
        vec![Block::Together(vec![heading("Who stands for it"), Block::Facts { look: Look::Signed, facts }])]
    }
}
