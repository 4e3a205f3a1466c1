//! What stands behind the address of a screen that leads out of somebody else's page: of which table it is, and a fingerprint
//! of the entries that it is about. Ids coincide between tables, so without it the sheet of another machine might open.
//!
//! ```text
//! #/machine/MACHINE/ATTACHMENT/fitter?from=1/TABLE/eENTRIES/SUM
//! TABLE = as in a link: m MARK ~ n TITLE [ ~ d DATE ] [ ~ a ADDRESS ]
//! SUM   = the mark of all before it
//! ```
//!
//! An address without one is what it always was. What a stamp says is not believed: it only keeps a screen from being shown,
//! and names an address that nobody asks before a person does.

use super::link::{LinkFault, LinkTable, TableNow};
use super::mark;
use table::Table;

/// What it begins with, among what stands behind the `?` of an address.
pub const FIELD: &str = "from=";
/// The version that is written, and the newest that is read.
pub const VERSION: u32 = 1;
/// The longest fingerprint, in characters.
const LONGEST_ENTRIES: usize = 16;

/// Of which table an address is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// The table.
    pub table: LinkTable,
    /// The fingerprint of what the screen is about (see [`super::Entries::of_ids`]); none where that is no entry.
    pub entries: Option<String>,
}

impl Stamp {
    /// The stamp as it stands behind an address.
    pub fn field(&self) -> String {
        let entries = self.entries.as_deref().unwrap_or_default();
        let body = format!("{VERSION}/{}/e{entries}", self.table.bounded().written());
        format!("{FIELD}{body}/{}", mark(&body))
    }

    /// A fragment with the stamp behind what stands behind its `?` already.
    #[must_use]
    pub fn behind(&self, fragment: &str) -> String {
        let sign = if fragment.contains('?') { '&' } else { '?' };
        format!("{fragment}{sign}{}", self.field())
    }

    /// Takes the stamp off a fragment; none where it has none.
    pub fn off(fragment: &str) -> Option<(String, Result<Self, LinkFault>)> {
        let (screen, behind) = fragment.split_once('?')?;
        let stamp = behind.split('&').find_map(|field| field.strip_prefix(FIELD))?;
        let rest: Vec<&str> = behind.split('&').filter(|field| !field.starts_with(FIELD)).collect();
        let plain = if rest.is_empty() { screen.to_owned() } else { format!("{screen}?{}", rest.join("&")) };
        Some((plain, Self::decode(stamp)))
    }

    /// Reads what stands behind [`FIELD`].
    fn decode(text: &str) -> Result<Self, LinkFault> {
        let text = super::link::unescaped(text).ok_or(LinkFault::Damaged)?;
        let (version, _) = text.split_once('/').ok_or(LinkFault::Damaged)?;
        let version: u32 = version.parse().map_err(|_| LinkFault::Damaged)?;
        if version > VERSION {
            return Err(LinkFault::Newer { found: version });
        }
        Self::read(&text).ok_or(LinkFault::Damaged)
    }

    fn read(text: &str) -> Option<Self> {
        let (body, sum) = text.rsplit_once('/')?;
        if mark(body) != sum {
            return None;
        }
        let [version, table, entries] = body.split('/').collect::<Vec<_>>()[..] else { return None };
        let entries = entries.strip_prefix('e')?;
        let sound =
            version == "1" && entries.len() <= LONGEST_ENTRIES && entries.bytes().all(|b| b.is_ascii_hexdigit());
        let table = LinkTable::read(table).filter(|table| sound && table.bounded() == *table)?;
        Some(Self { table, entries: Some(entries.to_owned()).filter(|entries| !entries.is_empty()) })
    }

    /// How it stands to the table in use, given that one's mark and the fingerprint of the same entries in it. Where the
    /// entries are the same, the rest of the table is no matter.
    pub fn now(&self, table: &Table, mark: &str, entries: Option<&str>) -> TableNow {
        let same = self.entries.as_deref().zip(entries).is_some_and(|(then, now)| then == now);
        if same { TableNow::Same } else { self.table.now(table, mark) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Entries;
    use table::read;

    const DEMO: &str = include_str!("../../../public/table/demo.json");

    fn stamp() -> Stamp {
        let table = LinkTable {
            mark: mark("{}"),
            title: "Yard — spring".to_owned(),
            date: Some("2026-11-25".to_owned()),
            address: Some("https://dealer.example/yard.json?v=2".to_owned()),
        };
        Stamp { table, entries: Some("0d2f1b69".to_owned()) }
    }

    #[test]
    fn what_is_put_behind_an_address_comes_off_again() {
        for (fragment, sign) in [("#/machine/m/h/fitter", '?'), ("#/machine/m?kind=auger", '&')] {
            let stamped = stamp().behind(fragment);
            assert!(stamped.starts_with(&format!("{fragment}{sign}from=1/")), "{stamped}");
            assert_eq!(Stamp::off(&stamped), Some((fragment.to_owned(), Ok(stamp()))));
        }
        let bare = Stamp { table: LinkTable { date: None, address: None, ..stamp().table }, entries: None };
        assert_eq!(Stamp::off(&bare.behind("#/work")), Some(("#/work".to_owned(), Ok(bare))));
        for plain in ["#/machine/m/h", "#/machine/m?kind=auger", "", "#/work?"] {
            assert_eq!(Stamp::off(plain), None, "{plain}");
        }
    }

    /// Addresses of dealers' pages lie in mails and bookmarks for years.
    #[test]
    fn a_stamp_of_version_1_reads_for_ever() {
        const PINNED: &str = "from=1/m08f44b07b5901a25~nYard_-u2014._spring~d20261125~ahttps-d-s-sdealer.example-syard.json-u3f.v-u3d.2/e0d2f1b69/c9e57940950f9535";
        assert_eq!(stamp().field(), PINNED);
        assert_eq!(Stamp::off(&format!("#/m?{}", stamp().field())), Some(("#/m".to_owned(), Ok(stamp()))));
    }

    #[test]
    fn one_that_was_cut_or_altered_says_so() {
        let stamped = stamp().behind("#/m");
        let begin = stamped.find(FIELD).expect("a stamp") + FIELD.len();
        for end in begin..stamped.len() {
            assert_eq!(Stamp::off(&stamped[..end]).expect("a stamp").1, Err(LinkFault::Damaged), "cut at {end}");
        }
        let altered = stamped.replace("dealer", "healer");
        assert_eq!(Stamp::off(&altered).expect("a stamp").1, Err(LinkFault::Damaged));
        let newer = stamped.replace("from=1/", "from=2/");
        assert_eq!(Stamp::off(&newer).expect("a stamp").1, Err(LinkFault::Newer { found: 2 }));
        let escaped = stamped.replace('~', "%7E");
        assert_eq!(Stamp::off(&escaped).expect("a stamp").1, Ok(stamp()));
    }

    /// An id in another table is another machine until its entry is the same.
    #[test]
    fn invariant_another_machine_under_the_same_id_is_not_the_same() {
        let (here, there) = (read(DEMO).table.expect("a table"), Entries::of_text(DEMO));
        let of = |entries: &Entries, id: &str| entries.of_ids(&[id], &["thistlecut-r60"]);
        let stamp = Stamp { table: LinkTable::of(&here, "elsewhere", None), entries: of(&there, "quern-q27") };
        let now = |entries: Option<&str>| stamp.now(&here, &mark(DEMO), entries);
        assert_eq!(now(of(&there, "quern-q27").as_deref()), TableNow::Same, "whatever else is in the table");
        assert_eq!(now(of(&there, "quern-q56").as_deref()), TableNow::OtherState);
        assert_eq!(now(None), TableNow::OtherState, "not in it");
        let foreign = Stamp { table: LinkTable { title: "Theirs".to_owned(), ..stamp.table.clone() }, ..stamp.clone() };
        assert_eq!(foreign.now(&here, "m", Some("00000000")), TableNow::Other);
        assert_eq!(foreign.now(&here, "elsewhere", None), TableNow::Same, "the same table, to the letter");
    }
}
