//! The checks: one list, today and after the changes side by side. What fails or is open is listed, the rest stands in a line that
//! unfolds.

use super::Sheet;
use crate::tree::{Block, Fold, Look, Span};
use drawing::margin_picture;
use explain::FigureId;
use fit::{Assumed, Check, CheckId, Outcome, Stage};
use quantity::{Named, put_in_order_by};
use wording::{InTheWay, Standing};

/// A check today and after the changes.
#[derive(Clone, Copy)]
struct Both<'a> {
    today: Option<&'a Check>,
    after: Option<&'a Check>,
}

impl<'a> Both<'a> {
    /// The one that counts: on the machine as it would go to work.
    fn last(self) -> Option<&'a Check> {
        self.after.or(self.today)
    }

    /// The worst of its outcomes: what fails first, then what is open.
    fn rank(self) -> u8 {
        let rank = |check: &Check| match check.outcome {
            Outcome::NotMet => 0,
            Outcome::NotKnown if check.blocks => 1,
            Outcome::NotKnown => 2,
            Outcome::Met => 3,
        };
        self.today.into_iter().chain(self.after).map(rank).min().unwrap_or(3)
    }

    fn has_figures(self) -> bool {
        self.last().is_some_and(|check| check.value.is_some() || check.worst.is_some() || check.limit.is_some())
    }
}

/// How many of some checks keep a pairing from fitting.
fn in_the_way<'c>(checks: impl Iterator<Item = &'c Check>) -> InTheWay {
    let mut counted = InTheWay::default();
    for check in checks.filter(|check| check.fails()) {
        match check.outcome {
            Outcome::NotMet => counted.not_met += 1,
            Outcome::NotKnown | Outcome::Met => counted.not_known += 1,
        }
    }
    counted
}

impl Sheet<'_> {
    /// All checks, folded, with how they stand.
    pub fn checks(&self) -> Fold {
        let (words, pairing) = (self.words, self.pairing);
        let mut all = self.both();
        // What is told of the same rank stays in the order of the checks.
        put_in_order_by(&mut all, |(_, both)| (both.rank(), !both.has_figures()));
        let (listed, met): (Vec<_>, Vec<_>) = all.iter().partition(|(_, both)| both.rank() < 3);
        let standing = Standing {
            today: in_the_way(all.iter().filter_map(|(_, both)| both.today)),
            after: in_the_way(all.iter().filter_map(|(_, both)| both.after)),
            to_prove: pairing.to_prove.len(),
            met: all.iter().filter(|(id, both)| both.rank() == 3 && !pairing.to_prove.contains(id)).count(),
        };
        let row = |(id, both): &(CheckId, Both)| Block::Fold(self.check(*id, *both));
        let mut inside = vec![Block::says(Look::Quiet, words.checks_hold())];
        inside.extend(listed.into_iter().map(row));
        if !met.is_empty() {
            let changed = !pairing.checks_after.is_empty();
            inside.push(Block::Fold(Fold {
                level: Some(3),
                ..Fold::new(
                    "checks-met",
                    Look::More,
                    format!("{} more{}", met.len(), if changed { ", met today and after" } else { " met" }),
                    met.into_iter().map(row).collect(),
                )
            }));
        }
        Fold {
            level: Some(2),
            summary: words.standing_of_checks(standing, !pairing.checks_after.is_empty()),
            ..Fold::new("checks", Look::Part, "Checks", inside)
        }
    }

    /// Every check today and after, in the order of the checks.
    fn both(&self) -> Vec<(CheckId, Both<'_>)> {
        let find = |checks, id| <[Check]>::iter(checks).find(|check| check.id == id);
        let (today, after) = (&self.pairing.checks, &self.pairing.checks_after);
        let both = |&id| (id, Both { today: find(today, id), after: find(after, id) });
        CheckId::ALL.iter().map(both).filter(|(_, both)| both.last().is_some()).collect()
    }

    fn check(&self, id: CheckId, both: Both) -> Fold {
        let words = self.words;
        let mut inside = Vec::new();
        let stages = [(Stage::AsItIs, both.today), (Stage::AfterChanges, both.after)];
        let told = stages.into_iter().filter_map(|(stage, check)| Some((stage, check?)));
        // Twice the same is said once.
        let same = both.today.zip(both.after).is_some_and(|(today, after)| today == after);
        let told: Vec<_> = if same { told.take(1).collect() } else { told.collect() };
        let several = told.len() > 1;
        for (stage, check) in told {
            if several {
                inside.push(Block::says(Look::Name, stage_name(stage)));
            }
            let beside = if stage == Stage::AsItIs { both.after } else { both.today };
            inside.extend(self.stage_of(check, stage, beside));
        }
        let outcome = both.last().map_or(Outcome::NotKnown, |check| check.outcome);
        Fold {
            level: Some(3),
            summary: words.stands(self.pairing, both.today, both.after),
            ..Fold::new(
                format!("check-{}", id.name()),
                match outcome {
                    Outcome::NotMet => Look::NotMet,
                    Outcome::NotKnown => Look::NotKnown,
                    Outcome::Met => Look::Met,
                },
                words.check_title(id).to_owned(),
                inside,
            )
        }
    }

    /// A check on the machine of a stage: its reason with figures, its margin drawn, what is missing, what it rests on.
    fn stage_of(&self, check: &Check, stage: Stage, beside: Option<&Check>) -> Vec<Block> {
        let (words, pairing) = (self.words, self.pairing);
        let mut blocks = vec![Block::of(Look::Plain, words.reason_parts(check, stage))];
        if check.id == CheckId::Mounting {
            let (machine, attachment) = (&self.machine.mounting, &self.attachment.mounting);
            let both = format!("Machine: {}. Attachment: {}.", words.mountings(machine), words.mountings(attachment));
            blocks.push(Block::says(Look::Quiet, both));
        }
        let picture = margin_picture(check, beside, words).zip(words.margin_text(check));
        let drawn = picture.is_some();
        blocks.extend(picture.map(|(picture, said)| Block::Picture { picture, said }));
        blocks.extend(self.figures(check, drawn));
        if !check.missing.is_empty() {
            let line = |missing| {
                let text = words.missing(missing);
                let holds = text.holds.map(|holds| format!(" ({holds})")).unwrap_or_default();
                format!("{}{holds}: {}", text.what, text.where_to_find)
            };
            let items = check.missing.iter().map(|missing| vec![Block::says(Look::Plain, line(missing))]).collect();
            blocks.push(Block::says(Look::Name, "To find out"));
            blocks.push(Block::List { look: Look::Missing, ordered: false, items });
        }
        let assumed: Vec<_> = pairing.assumptions.iter().filter(|range| check.assumed.contains(&range.id)).collect();
        if !assumed.is_empty() {
            blocks.push(Block::says(Look::Quiet, words.rests_on_typical(assumed.len())));
            blocks.push(Block::sentences(assumed.into_iter().map(|range: &Assumed| words.assumed(range))));
        }
        if check.outcome != Outcome::Met {
            blocks.push(Block::says(Look::Quiet, format!("At risk: {}.", words.class(check.class))));
        }
        let opens = Span::Opens {
            text: words.reasoning_opens().to_owned(),
            about: words.check_title(check.id).to_owned(),
            of: FigureId::Check(check.id, stage),
        };
        blocks.push(Block::Text { look: Look::Plain, spans: vec![opens] });
        blocks
    }

    /// Likely, worst and limit with the margin; a drawing says worst and limit itself.
    fn figures(&self, check: &Check, drawn: bool) -> Option<Block> {
        let words = self.words;
        let named = [("likely", check.value), ("at worst", check.worst), ("limit", check.limit)];
        let named = named.into_iter().take(if drawn { 1 } else { 3 });
        let mut told: Vec<_> =
            named.filter_map(|(name, amount)| Some(format!("{name} {}", words.amount(amount?)))).collect();
        told.extend(words.margin_of(check));
        (!told.is_empty()).then(|| Block::says(Look::Quiet, told.join(" · ")))
    }
}

/// What stands over the part of a check that is of a stage.
fn stage_name(stage: Stage) -> &'static str {
    match stage {
        Stage::AsItIs => "Today",
        Stage::AfterChanges => "After the changes",
    }
}
