//! What is said of the table in use wherever something of it is shown.

use super::Words;
use table::Table;

impl Words<'_> {
    /// What is said of a demo table on every screen.
    pub const INVENTED: &'static str = "Demo table in use: its machines and attachments are invented.";

    /// That what a table holds is invented; none of a table of real machines. A reader must never take one for the other.
    pub fn invented(&self, table: &Table) -> Option<&'static str> {
        (table.invented == Some(true)).then_some(Self::INVENTED)
    }

    /// The line behind a text that is sent: it was worked out with invented machines; none for a table of real ones.
    pub fn invented_to_send(&self, table: &Table) -> Option<&'static str> {
        (table.invented == Some(true))
            .then_some("Worked out with a demo table, whose machines and attachments are invented.")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use quantity::UnitSystem;
    use table::read;

    const WORDS: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    #[test]
    fn the_demo_says_that_it_is_invented_and_a_table_of_real_machines_does_not() {
        let demo = read(include_str!("../../../public/table/demo.json")).table.expect("the demo table");
        assert!(WORDS.invented(&demo).is_some_and(|words| words.contains("invented")));
        assert!(WORDS.invented_to_send(&demo).is_some_and(|words| words.contains("invented")));
        for invented in [None, Some(false)] {
            let real = Table { invented, ..demo.clone() };
            assert_eq!((WORDS.invented(&real), WORDS.invented_to_send(&real)), (None, None));
        }
    }
}
