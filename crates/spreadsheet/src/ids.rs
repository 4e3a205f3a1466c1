//! Ids for what has none: of an entry by its name, of what stands in its lists by what is usual there.

use std::collections::HashSet;
use std::hash::BuildHasher;

/// The lists of a machine whose items need an id, each with the usual one.
pub const OF_ITEMS: [(&str, &str); 3] = [("circuits", "aux"), ("pumps", "p1"), ("power_groups", "main")];

/// Small letters, digits and hyphens of a name; empty where it has none.
pub fn slug(name: &str) -> String {
    let words: Vec<String> = name
        .to_lowercase()
        .split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect();
    words.join("-").chars().take(table::Id::LONGEST - 4).collect()
}

/// The first of `name`, `name-2`, `name-3` … that is free; it is taken from then on.
pub fn free<S: BuildHasher>(taken: &mut HashSet<String, S>, name: &str) -> String {
    let (mut id, mut number) = (name.to_owned(), 1);
    while !taken.insert(id.clone()) {
        number += 1;
        id = format!("{name}-{number}");
    }
    id
}
