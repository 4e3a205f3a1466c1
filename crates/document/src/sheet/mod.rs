//! The sheet of a pairing: the answer first, then what can kill, what the machine must get, what is proved; and folded, each with a
//! summary that one can read, the checks and what stands behind them.

mod arrivals;
mod changes;
mod checks;

use super::text::text;
use super::tree::{Block, Fact, Fold, Line, Look, Span, Title};
use explain::FigureId;
use fit::{Check, Outcome, Pairing, Stage, Verdict};
use quantity::Named;
use table::{Carrier, Head};
use wording::Words;

/// What a sheet is made of.
#[derive(Clone, Copy)]
pub struct Sheet<'a> {
    /// Its words.
    pub words: &'a Words<'a>,
    /// The pairing.
    pub pairing: &'a Pairing,
    /// The machine as it stands today.
    pub machine: &'a Carrier,
    /// The attachment.
    pub attachment: &'a Head,
}

impl Sheet<'_> {
    /// The answer: a sentence, what stands behind it, and what it comes to.
    pub fn answer(&self) -> Vec<Block> {
        let (words, pairing) = (self.words, self.pairing);
        let mut blocks = vec![Block::says(Look::Lead, words.lead(pairing))];
        let because = words.because_parts(pairing);
        if !because.is_empty() {
            blocks.push(Block::of(Look::Quiet, because));
        }
        blocks.extend(self.sums().map(|facts| Block::Facts { look: Look::Sums, facts }));
        blocks
    }

    /// What to do with cold oil; nothing where there is nothing to do.
    pub fn warm_up(&self) -> Option<Block> {
        Some(Block::of(Look::Plain, self.words.warm_up_parts(self.pairing)?))
    }

    /// What it comes to; nothing where it does not fit.
    fn sums(&self) -> Option<Vec<Fact>> {
        let (words, pairing) = (self.words, self.pairing);
        if pairing.verdict == Verdict::DoesNotFit {
            return None;
        }
        let certain = pairing.verdict == Verdict::CannotSay;
        if certain && pairing.changes.is_empty() {
            return None;
        }
        let mut facts = Vec::new();
        if !pairing.changes.is_empty() {
            let price = pairing.cost.price.as_ref().map_or_else(|| "not stated".to_owned(), |price| words.price(price));
            facts.push(Fact::new(if certain { "Certain so far" } else { "Changes cost" }, [Span::Strong(price)]));
            facts.push(Fact::new("Work", [Span::Strong(words.duration(pairing.cost.minutes))]));
        }
        if pairing.changes.is_empty() {
            facts.push(Fact::new("Changes", [Span::Strong("none".to_owned())]));
        }
        if !certain {
            facts.push(match pairing.before_work.len() {
                0 => Fact::new("To prove", [Span::Strong(points(pairing.to_prove.len()))]),
                count => Fact::new("Prove first", [Span::Strong(points(count))]),
            });
        }
        Some(facts)
    }

    /// What can kill, and folded all other cautions.
    pub fn danger(&self) -> Vec<Block> {
        let (words, pairing) = (self.words, self.pairing);
        let cautions = words.cautions(pairing);
        let all = Fold::new(
            "cautions",
            Look::More,
            format!("{} more cautions", cautions.len()),
            hazards_in_full(words, pairing).into_iter().chain([Block::sentences(cautions)]).collect(),
        );
        vec![hazards(words, &[pairing]), Block::Fold(all)]
    }

    /// What is proved, with its limits; nothing where nothing is.
    pub fn prove(&self) -> Option<Block> {
        let words = self.words;
        let mut inside = Vec::new();
        let mut before = None;
        // What holds on typical values and has no figure to prove is one line.
        let is_typical = |check: &Check| check.outcome == Outcome::Met && check.limit.is_none();
        let (typical, proofs): (Vec<_>, Vec<_>) =
            words.proofs(self.pairing).into_iter().partition(|(_, check)| is_typical(check));
        for (when, check) in proofs {
            if before != Some(when) {
                inside.push(Block::says(Look::Label, words.proved_when(when)));
            }
            before = Some(when);
            inside.push(self.proof(check));
        }
        if !typical.is_empty() {
            let checks: Vec<_> = typical.into_iter().map(|(_, check)| check).collect();
            inside.push(self.typical(&checks));
        }
        let title = "What to prove".to_owned();
        match self.pairing.verdict {
            _ if inside.is_empty() => None,
            // It is not going to work: the checks say what is open.
            Verdict::DoesNotFit => None,
            Verdict::CannotSay => Some(Block::Fold(Fold {
                level: Some(2),
                summary: format!("{}, once that is found out", points(self.pairing.to_prove.len())),
                ..Fold::new("to-prove", Look::Part, title, inside)
            })),
            Verdict::Fits | Verdict::FitsAfterChanges => Some(Block::Part {
                title: Title { id: "to-prove", text: title, aside: "limit".to_owned() },
                part: "",
                inside,
            }),
        }
    }

    /// Points that hold on typical values, folded why.
    fn typical(&self, checks: &[&Check]) -> Block {
        let words = self.words;
        let reasons = checks.iter().map(|check| format!("{}: {}", words.check_title(check.id), words.reason(check)));
        Block::Fold(Fold {
            summary: words.typical_values().to_owned(),
            ..Fold::new("prove-typical", Look::Look, words.checks_named(checks), vec![Block::sentences(reasons)])
        })
    }

    /// A point to prove: what its gauge must not pass, or folded how it is found out.
    fn proof(&self, check: &Check) -> Block {
        let words = self.words;
        let (name, detail) = (words.check_title(check.id).to_owned(), words.proof_detail(check));
        match words.limit_in_short(check).filter(|_| detail.how.is_empty()) {
            Some(text) => {
                let figure = vec![Span::Figure { text, of: FigureId::Check(check.id, self.final_stage()) }];
                let detail = vec![Span::Text(detail.what)];
                Block::Lines {
                    look: Look::Prove,
                    ordered: false,
                    lines: vec![Line { sign: None, name: vec![name.into()], figure, detail, outcome: None }],
                }
            }
            None => Block::Fold(Fold {
                summary: detail.what,
                ..Fold::new(
                    format!("prove-{}", check.id.name()),
                    Look::Look,
                    name,
                    vec![Block::says(Look::Plain, words.reason(check)), Block::says(Look::Plain, detail.how)]
                        .into_iter()
                        .filter(|block| !text(std::slice::from_ref(block)).trim().is_empty())
                        .collect(),
                )
            }),
        }
    }

    /// What is asked of the makers, what is told without being judged, and how old the figures are; with a summary of it.
    pub fn rest(&self) -> Fold {
        let (words, pairing) = (self.words, self.pairing);
        let mut inside = Vec::new();
        if !pairing.questions.is_empty() {
            inside.push(Block::Heading { level: 3, text: "To ask the makers".to_owned() });
            inside.push(Block::sentences(pairing.questions.iter().map(|question| words.question(*question))));
        }
        if !pairing.remarks.is_empty() {
            inside.push(Block::Heading { level: 3, text: "Remarks".to_owned() });
            inside.push(Block::sentences(pairing.remarks.iter().map(|remark| words.remark(remark))));
        }
        let checked = |date: Option<table::Date>| {
            date.map_or_else(|| "not stated".to_owned(), |date| self.words.numbers.day(&date.to_string()))
        };
        let facts = vec![
            Fact::new("Machine's figures checked", [checked(self.machine.checked)]),
            Fact::new("Attachment's figures checked", [checked(self.attachment.checked)]),
        ];
        inside.push(Block::Facts { look: Look::Facts, facts });
        let asked = match pairing.questions.len() {
            0 => "nothing to ask".to_owned(),
            count => format!("{count} to ask"),
        };
        let remarks = match pairing.remarks.len() {
            0 => String::new(),
            1 => "; 1 remark".to_owned(),
            count => format!("; {count} remarks"),
        };
        Fold {
            level: Some(2),
            summary: format!("{asked}{remarks}"),
            ..Fold::new("questions", Look::Part, "Questions, remarks, sources", inside)
        }
    }

    /// The machine as it would go to work.
    fn final_stage(&self) -> Stage {
        if self.pairing.checks_after.is_empty() { Stage::AsItIs } else { Stage::AfterChanges }
    }
}

fn points(count: usize) -> String {
    match count {
        0 => "nothing".to_owned(),
        1 => "1 point".to_owned(),
        count => format!("{count} points"),
    }
}

/// What can kill with any of these, a line each with its distance or time.
pub fn hazards(words: &Words, pairings: &[&Pairing]) -> Block {
    let lines = words.hazards_in_short(pairings).into_iter().map(|hazard| Line {
        sign: hazard.sign,
        name: vec![hazard.what.into()],
        figure: if hazard.figure.is_empty() { Vec::new() } else { vec![Span::Strong(hazard.figure)] },
        detail: vec![Span::Text(format!(" {}", hazard.so))],
        outcome: None,
    });
    Block::Lines { look: Look::Hazards, ordered: false, lines: lines.collect() }
}

/// What can kill, in full.
fn hazards_in_full(words: &Words, pairing: &Pairing) -> Option<Block> {
    let section = words.hazards(&[pairing])?;
    Some(Block::sentences(section.lines.into_iter().map(|line| line.title)))
}
