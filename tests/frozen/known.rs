//! Differences that are meant, each with its reason: lists that are remade by one command, and whose reasons a person writes.

use std::collections::BTreeMap;
use std::fmt::Write;

/// The variable that has the lists remade.
pub const REMAKE: &str = "FROZEN_REMAKE";

/// A list of differences, its columns divided by tabs: a line with the columns' names, then a line each, the reason last.
pub struct Known {
    /// The file, in this folder.
    pub file: &'static str,
    /// What stands in the file now.
    pub text: &'static str,
    /// The names of the columns before the reason.
    pub columns: &'static [&'static str],
}

impl Known {
    /// Holds what differs today against the list. A difference is a text a column, what comes of it told besides, as a hint
    /// for whoever must say why.
    ///
    /// # Panics
    /// When the list is not what differs, or a reason is missing.
    pub fn holds(&self, today: &[(Vec<String>, String)]) {
        let whys = self.whys();
        let mut text = format!("{}\twhy\n", self.columns.join("\t"));
        let (mut unknown, mut unexplained) = (String::new(), String::new());
        for (columns, hint) in today {
            let why = whys.get(columns.as_slice()).copied();
            let row = columns.join("\t");
            // Neither adds to a String that could fail.
            let _ = writeln!(text, "{row}\t{}", why.unwrap_or_default());
            let to = if why.is_none() { &mut unknown } else { &mut unexplained };
            if why.is_none_or(|why| why.trim().is_empty()) {
                let _ = writeln!(to, "  {row}   ({hint})");
            }
        }
        let path = format!("{}/tests/frozen/{}", env!("CARGO_MANIFEST_DIR"), self.file);
        if std::env::var_os(REMAKE).is_some() {
            std::fs::write(&path, &text).unwrap_or_else(|error| panic!("{path}: {error}"));
            unexplained += &std::mem::take(&mut unknown);
        }
        let gone: Vec<String> = whys
            .keys()
            .filter(|row| today.iter().all(|(columns, _)| columns != *row))
            .map(|row| row.join("\t"))
            .collect();
        let stale = std::env::var_os(REMAKE).is_none() && (!unknown.is_empty() || !gone.is_empty());
        assert!(
            !stale,
            "{} is not what differs today. If that is meant, run `{REMAKE}=1 cargo test --test frozen` and write into its last \
             column why.\nNew:\n{unknown}Gone:\n  {}",
            self.file,
            gone.join("\n  ")
        );
        assert!(unexplained.is_empty(), "{}: say why in the last column of\n{unexplained}", self.file);
    }

    /// The reasons by their differences. A difference that changes needs a reason anew.
    fn whys(&self) -> BTreeMap<Vec<String>, &'static str> {
        let rows = self.text.lines().skip(1).filter(|line| !line.is_empty());
        let row = |line: &'static str| {
            let (difference, why) = line.rsplit_once('\t').expect("a column for the reason");
            (difference.split('\t').map(str::to_owned).collect(), why)
        };
        rows.map(row).collect()
    }
}
