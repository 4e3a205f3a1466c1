//! What was opened last: machines, and attachments on them. A convenience; losing it is no loss.

use serde::{Deserialize, Serialize};

/// How many are kept.
pub const MOST: usize = 6;

/// A machine that was opened, or an attachment on it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecentEntry {
    /// The machine's id.
    pub carrier: String,
    /// The attachment's id; none for the machine alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<String>,
    /// What the person saw it called.
    pub name: String,
}

/// What was opened last, newest first.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Recent {
    entries: Vec<RecentEntry>,
}

impl Recent {
    /// The entries, newest first, each once, six at the most.
    pub fn entries(&self) -> &[RecentEntry] {
        &self.entries
    }

    /// The list with one more in front. A machine gives way to an attachment on it: that says more, and leads to it too.
    #[must_use]
    pub fn with(mut self, entry: RecentEntry) -> Self {
        let known = |known: &RecentEntry| known.carrier == entry.carrier && known.head.is_some();
        if entry.head.is_none() && self.entries.iter().any(known) {
            return self;
        }
        self.entries.retain(|known| {
            let same = (&known.carrier, &known.head) == (&entry.carrier, &entry.head);
            !same && (known.head.is_some() || known.carrier != entry.carrier)
        });
        self.entries.insert(0, entry);
        self.entries.truncate(MOST);
        self
    }

    /// The text to keep.
    pub fn encode(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads a kept text; nothing of one that cannot be read.
    pub fn decode(text: &str) -> Self {
        let mut read: Self = serde_json::from_str(text).unwrap_or_default();
        read.entries.truncate(MOST);
        read
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(carrier: &str, head: Option<&str>) -> RecentEntry {
        RecentEntry { carrier: carrier.to_owned(), head: head.map(str::to_owned), name: format!("{carrier} {head:?}") }
    }

    fn ids(recent: &Recent) -> Vec<(String, Option<String>)> {
        recent.entries().iter().map(|entry| (entry.carrier.clone(), entry.head.clone())).collect()
    }

    #[test]
    fn the_newest_is_in_front_each_once_and_the_oldest_goes() {
        let mut recent = Recent::default();
        for place in 0..MOST + 2 {
            recent = recent.with(entry("m", Some(&format!("h{place}"))));
        }
        assert_eq!(recent.entries().len(), MOST);
        recent = recent.with(entry("m", Some("h4")));
        assert_eq!(recent.entries().len(), MOST);
        assert_eq!(ids(&recent)[0], ("m".to_owned(), Some("h4".to_owned())));
        assert_eq!(Recent::decode(&recent.encode()), recent);
    }

    #[test]
    fn a_machine_gives_way_to_an_attachment_on_it() {
        let recent = Recent::default().with(entry("m", None)).with(entry("n", None)).with(entry("m", Some("h")));
        let recent = recent.with(entry("m", None));
        assert_eq!(ids(&recent), [("m".to_owned(), Some("h".to_owned())), ("n".to_owned(), None)]);
    }

    #[test]
    fn what_cannot_be_read_is_nothing() {
        for text in ["", "{", "[1]", "{\"entries\":[]}", "null"] {
            assert_eq!(Recent::decode(text), Recent::default(), "{text}");
        }
    }
}
