//! What the person must be told: news, faults, and what to do about them. `notices` shows it.

use record::{HandOver, Plate, Saved};
use std::sync::{Arc, Mutex};
use table::Problem;

/// Something to tell.
#[derive(Clone)]
pub struct Notice {
    /// Tells it from the others that stand.
    pub id: usize,
    pub text: String,
    pub fault: bool,
    pub problems: Vec<Problem>,
    pub offers: Vec<Offer>,
    /// What it is about: a newer notice of the same topic takes the place of the older ones.
    topic: Option<Topic>,
}

/// What a notice is about.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Topic {
    /// Loading a table.
    Table,
    /// Bringing back an exported file.
    Import,
    /// Things that were put aside.
    Aside,
    /// Things of a newer version.
    Newer,
}

/// What the person can do right in the notice.
#[derive(Clone)]
pub enum Offer {
    /// Take back a deletion.
    Undo(Box<Undo>),
    /// Use the newer version of the app that is ready.
    NewVersion,
    /// Get a text as a file.
    Download {
        /// The file's name.
        name: String,
        /// What is in it.
        text: Arc<Mutex<String>>,
    },
    /// Get everything that this browser keeps as one file.
    Everything,
}

/// What was deleted and can be brought back.
#[derive(Clone)]
pub enum Undo {
    /// A saved comparison.
    Saved(Saved),
    /// A machine of one's own.
    Machine(Plate),
    /// A record of a hand-over.
    HandOver(HandOver),
    /// The table that was kept before, as its text; none where none was.
    Table(Option<String>),
}

impl Offer {
    /// A text as a file.
    pub fn download(name: String, text: String) -> Self {
        Self::Download { name, text: Arc::new(Mutex::new(text)) }
    }
}

impl Notice {
    /// Good news.
    pub fn news(text: String) -> Self {
        Self { id: 0, text, fault: false, problems: Vec::new(), offers: Vec::new(), topic: None }
    }

    /// Something went wrong.
    pub fn fault(text: String) -> Self {
        Self { fault: true, ..Self::news(text) }
    }

    /// A table that cannot be used, with its problems.
    pub fn problems(text: String, problems: Vec<Problem>) -> Self {
        Self { problems, ..Self::fault(text) }
    }

    /// Whether another one says the same, newer: then this one's file becomes that one's, and nothing is told anew. What
    /// cannot be kept is told with every key.
    pub fn takes_over(&self, newer: &Self) -> bool {
        match (self.offers.as_slice(), newer.offers.as_slice()) {
            ([Offer::Download { name, text }, ..], [Offer::Download { name: newer_name, text: newer_text }, ..])
                if self.text == newer.text && name == newer_name && self.topic == newer.topic =>
            {
                let newest = newer_text.lock().map(|text| text.clone());
                if let (Ok(mut text), Ok(newest)) = (text.lock(), newest) {
                    *text = newest;
                }
                true
            }
            _ => false,
        }
    }

    /// Whether it is about a topic.
    pub fn is_about(&self, topic: Topic) -> bool {
        self.topic == Some(topic)
    }

    /// The same about a topic.
    pub fn about(self, topic: Topic) -> Self {
        Self { topic: Some(topic), ..self }
    }

    /// The same with something to do.
    pub fn offering(mut self, offer: Offer) -> Self {
        self.offers.push(offer);
        self
    }
}

/// A number that none of some notices has: what has the number of one that goes is not drawn anew.
pub fn next_id(notices: &[Notice]) -> usize {
    notices.iter().map(|known| known.id).max().unwrap_or(0) + 1
}

/// Puts a notice behind those that stand, in the place of what says the same or is of the same topic.
pub fn add(notices: &mut Vec<Notice>, notice: Notice) {
    let id = next_id(notices);
    notices.retain(|known| known.text != notice.text && (notice.topic.is_none() || known.topic != notice.topic));
    notices.push(Notice { id, ..notice });
    // The newest three are enough for a small screen.
    let surplus = notices.len().saturating_sub(3);
    notices.drain(..surplus);
}
