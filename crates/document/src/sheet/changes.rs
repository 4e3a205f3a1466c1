//! What the machine must get: a line each, and folded why, its settings and what it takes.

use super::Sheet;
use crate::tree::{Block, Fact, Fold, Look, Span, Title};
use explain::FigureId;
use fit::{Change, Verdict};
use wording::capital;

impl Sheet<'_> {
    /// The changes in working order, with what they take together; nothing where there are none.
    pub fn changes(&self) -> Option<Block> {
        let (words, pairing) = (self.words, self.pairing);
        if pairing.changes.is_empty() {
            return None;
        }
        let mut inside: Vec<_> = self.doubts().into_iter().collect();
        let items = pairing.changes.iter().enumerate().map(|(place, change)| vec![self.change(place + 1, change)]);
        inside.push(Block::List { look: Look::Change, ordered: true, items: items.collect() });
        inside.push(Block::of(
            Look::Name,
            [Span::Text("Together: ".to_owned()), Span::Figure { text: words.cost(&pairing.cost), of: FigureId::Cost }],
        ));
        if let Some(second) = &pairing.runner_up {
            inside.push(Block::Fold(Fold::new(
                "runner-up",
                Look::More,
                match &second.cost.price {
                    Some(price) => format!("Nearly as cheap: {}", words.price(price)),
                    None => format!("Nearly as cheap: {}", words.duration(second.cost.minutes)),
                },
                vec![Block::says(Look::Plain, words.runner_up(second))],
            )));
        }
        let currency = pairing.changes.iter().find_map(|change| Some(change.price.as_ref()?.currency.clone()));
        let certain = pairing.verdict == Verdict::CannotSay;
        let text = if certain { "What it needs, whatever else comes out" } else { "What the machine must get" };
        Some(Block::Part {
            title: Title { id: "changes", text: text.to_owned(), aside: currency.unwrap_or_default() },
            part: "changes",
            inside,
        })
    }

    /// What is found out before money is spent, folded what that may spare.
    fn doubts(&self) -> Option<Block> {
        let (words, first) = (self.words, self.pairing.find_out.first()?);
        let doubts = words.doubts(self.pairing)?;
        Some(Block::Fold(Fold::new(
            "find-out",
            Look::More,
            format!("Find out first: {}", words.fact(first.fact)),
            vec![Block::says(Look::Plain, doubts)],
        )))
    }

    fn change(&self, number: usize, change: &Change) -> Block {
        let words = self.words;
        let mut facts = vec![Fact::new("Why", [words.change_reason(change)])];
        for setting in &change.settings {
            let of = FigureId::Setting(Some(change.id), setting.name);
            let name = capital(words.setting_name(setting.name));
            facts.push(Fact::new(name, [Span::Figure { text: words.setting_value(setting), of }]));
        }
        let takes = Span::Figure { text: words.takes(change), of: FigureId::Change(change.id) };
        facts.push(Fact::new("Takes", [takes]));
        // The currency stands over them all.
        let price = change.price.as_ref().map(|price| words.price_alone(price));
        Block::Fold(Fold {
            number: Some(number),
            figures: price.into_iter().chain([words.duration(change.minutes)]).collect(),
            ..Fold::new(
                format!("change-{number}"),
                Look::Change,
                words.change_title(change),
                vec![Block::Facts { look: Look::Facts, facts }],
            )
        })
    }
}
