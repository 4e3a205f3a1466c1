//! What two tabs write on the same thing, put together field by field: what only one of them has changed is as that one has it.

use std::collections::{BTreeMap, BTreeSet};

/// One field: as it stands here where it was changed here since `base`, else as it stands there.
pub fn field<T: Clone + PartialEq>(base: &T, mine: &T, theirs: &T) -> T {
    if mine == base { theirs.clone() } else { mine.clone() }
}

/// Several by their names, each by itself.
pub fn fields(
    base: &BTreeMap<String, String>,
    mine: &BTreeMap<String, String>,
    theirs: &BTreeMap<String, String>,
) -> BTreeMap<String, String> {
    let names: BTreeSet<&String> = mine.keys().chain(theirs.keys()).collect();
    let merged = |name: &String| field(&base.get(name), &mine.get(name), &theirs.get(name)).cloned();
    names.into_iter().filter_map(|name| Some((name.clone(), merged(name)?))).collect()
}

/// A text that a person writes in sentences. Where both have changed it and not alike, both stand there, one below the other.
pub fn prose(base: &str, mine: &str, theirs: &str) -> String {
    if mine == base || mine == theirs {
        theirs.to_owned()
    } else if theirs == base || theirs.is_empty() {
        mine.to_owned()
    } else if mine.is_empty() {
        theirs.to_owned()
    } else {
        format!("{mine}\n{theirs}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn map(fields: &[(&str, &str)]) -> BTreeMap<String, String> {
        fields.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
    }

    #[test]
    fn invariant_what_two_tabs_write_is_put_together_field_by_field() {
        let base = map(&[
            ("kept", "1"),
            ("mine", "1"),
            ("theirs", "1"),
            ("both", "1"),
            ("gone here", "1"),
            ("gone there", "1"),
        ]);
        let mine = map(&[
            ("kept", "1"),
            ("mine", "2"),
            ("theirs", "1"),
            ("both", "2"),
            ("gone there", "1"),
            ("new here", "2"),
        ]);
        let theirs = map(&[
            ("kept", "1"),
            ("mine", "1"),
            ("theirs", "3"),
            ("both", "3"),
            ("gone here", "1"),
            ("new there", "3"),
        ]);
        let merged = fields(&base, &mine, &theirs);
        let wanted =
            map(&[("kept", "1"), ("mine", "2"), ("theirs", "3"), ("both", "2"), ("new here", "2"), ("new there", "3")]);
        assert_eq!(merged, wanted);
    }

    #[test]
    fn of_two_notes_neither_is_lost() {
        assert_eq!(prose("", "", "theirs"), "theirs");
        assert_eq!(prose("", "mine", ""), "mine");
        assert_eq!(prose("old", "old", ""), "", "taken away there");
        assert_eq!(prose("old", "", "old"), "", "taken away here");
        assert_eq!(prose("old", "", "theirs"), "theirs", "taken away here, written there");
        assert_eq!(prose("old", "mine", "theirs"), "mine\ntheirs");
        assert_eq!(prose("old", "same", "same"), "same");
    }
}
