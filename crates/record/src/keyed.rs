//! What all things have in common that are kept each under a key of its own: a comparison, a machine of one's own,
//! a record of a hand-over.

use super::{HANDOVER_PREFIX, HandOver, MACHINE_PREFIX, Plate, RecordFault, SAVED_PREFIX, Saved};

/// A thing that is kept under a key of its own.
pub trait Keyed: Clone + PartialEq {
    /// What its keys begin with; its id follows.
    const PREFIX: &'static str;
    /// Its id, the rest of its key.
    fn id(&self) -> &str;
    /// What the person calls it.
    fn name(&self) -> &str;
    /// The thing under another id and name.
    #[must_use]
    fn called(&self, id: &str, name: &str) -> Self;
    /// The text to keep.
    fn encode(&self) -> String;
    /// Reads a kept text.
    ///
    /// # Errors
    /// [`RecordFault`] when it is damaged, of another kind, or newer than this build.
    fn decode(text: &str) -> Result<Self, RecordFault>;
    /// What stands here put together with what another tab has kept meanwhile, field by field. `base` is what both began with:
    /// a field that was not changed here is as it stands there.
    #[must_use]
    fn merged(base: &Self, mine: &Self, theirs: &Self) -> Self;
}

/// All kept things have an id, a name, and an envelope of their own.
macro_rules! keyed {
    ($Type:ident, $prefix:ident) => {
        impl Keyed for $Type {
            const PREFIX: &'static str = $prefix;
            fn id(&self) -> &str {
                &self.id
            }
            fn name(&self) -> &str {
                &self.name
            }
            fn called(&self, id: &str, name: &str) -> Self {
                Self { id: id.to_owned(), name: name.to_owned(), ..self.clone() }
            }
            fn encode(&self) -> String {
                self.encode()
            }
            fn decode(text: &str) -> Result<Self, RecordFault> {
                Self::decode(text)
            }
            fn merged(base: &Self, mine: &Self, theirs: &Self) -> Self {
                Self::merged(base, mine, theirs)
            }
        }
    };
}

keyed!(Saved, SAVED_PREFIX);
keyed!(Plate, MACHINE_PREFIX);
keyed!(HandOver, HANDOVER_PREFIX);
