//! What to fill in next in a table.

use super::input::WORDS;
use clap::Args;
use explain::fill_next::{HeldUp, Looked, Report};
use fit::{Conditions, Judge};
use table::Table;
use wording::NextText;

/// What of it is shown, and how.
#[derive(Args)]
#[group(skip)]
pub struct Gain {
    /// So many columns, and so many machines' and attachments' facts, at most
    #[arg(long, value_name = "N", default_value_t = 15)]
    most: usize,
    /// One JSON object a line: what is held up, the columns, then the entries
    #[arg(long)]
    json: bool,
}

/// Looks at the pairings of the table, and says which facts hold up most of them.
pub fn told(table: &Table, asked: &Gain, conditions: &Conditions) -> String {
    let judge = Judge::new(conditions);
    let looked = Looked::at(table);
    let held_up = |&(machine, head): &(usize, usize)| HeldUp::of(&table.carriers[machine], &table.heads[head], &judge);
    let held: Vec<_> = looked.pairings.iter().filter_map(held_up).collect();
    let report = Report::of(&held);
    if asked.json {
        return WORDS.fill_next_json(&report, &looked, asked.most).join("\n");
    }
    let text = WORDS.fill_next(&report, table, &looked, asked.most);
    let mut lines = text.says;
    for (title, list) in [("By column", &text.columns), ("By machine and attachment", &text.entries)] {
        if !list.is_empty() {
            lines.extend([String::new(), title.to_owned()]);
            lines.extend((1..).zip(list).flat_map(|(place, next)| fact(place, next)));
        }
    }
    lines.join("\n")
}

fn fact(place: usize, next: &NextText) -> [String; 2] {
    let of = next.of.as_ref().map_or_else(String::new, |of| format!("{of}: "));
    [format!("{place}. {of}{}: {}", next.what, next.worth), format!("   Where: {}", next.place)]
}
