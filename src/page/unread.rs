//! What was kept and could not be read since the page was opened: it is told of all kinds together, or one would take the place of
//! another.

use record::bundle::Kind;
use std::collections::BTreeMap;

/// What could not be read, counted by kind.
#[derive(Clone, Debug, Default)]
pub struct Unread {
    /// Written by a newer version: how many, and of which version at most.
    newer: BTreeMap<Kind, (usize, u32)>,
    /// Put aside, and left where it was as there is no room.
    aside: BTreeMap<Kind, usize>,
    left: BTreeMap<Kind, usize>,
}

impl Unread {
    /// Notes what a newer version has written of a kind, with the newest version among it; none where all of it can be read.
    pub fn note_newer(&mut self, kind: Kind, newer: Option<(usize, u32)>) {
        match newer {
            Some(found) => self.newer.insert(kind, found),
            None => self.newer.remove(&kind),
        };
    }

    /// How much a newer version has written, by kind, and the newest version among it.
    pub fn newer(&self) -> (Vec<(Kind, usize)>, u32) {
        let newest = self.newer.values().map(|(_, version)| *version).max().unwrap_or(0);
        (self.newer.iter().map(|(kind, (count, _))| (*kind, *count)).collect(), newest)
    }

    /// Notes how much of a kind was put aside now, and how much stays where it was.
    pub fn note_aside(&mut self, kind: Kind, moved: usize, left: usize) {
        *self.aside.entry(kind).or_default() += moved;
        self.left.insert(kind, left);
    }

    /// How much is damaged, by kind, and whether all of it could be put aside.
    pub fn damaged(&self) -> (Vec<(Kind, usize)>, bool) {
        let of = |kind: Kind| [&self.aside, &self.left].map(|all| all.get(&kind).copied().unwrap_or(0)).iter().sum();
        let kinds = self.aside.keys().map(|&kind| (kind, of(kind))).filter(|(_, count)| *count > 0).collect();
        (kinds, self.left.values().all(|count| *count == 0))
    }
}
