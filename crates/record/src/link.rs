//! A pairing or a comparison as the fragment of an address: the machine, the attachments with the verdicts they had, and
//! which table it was, so that whoever opens it solves it again and sees whether it still comes out so.
//!
//! ```text
//! /link/1/MACHINE/TABLE/HEADS/SUM
//! /link/2/MACHINE/TABLE/HEADS/RECORD/SUM
//! /link/3/MACHINE/TABLE/HEADS/MADE[/RECORD]/SUM
//! MACHINE = t ID | o CLASS ~ NAME ~ CHANGED { ~ CODE FIGURE | ~ zz NAME ~ FIGURE }
//! TABLE   = m MARK ~ n TITLE [ ~ d DATE ] [ ~ a ADDRESS ]
//! HEADS   = h [ VERDICT ID { ~ VERDICT ID } ]
//! MADE    = j JUDGEMENT ~ ENTRIES
//! RECORD  = r CREATED { ~ CODE TEXT | ~ z KIND NAME ~ TEXT }
//! SUM     = the mark of all before it
//! ```
//!
//! Only letters, digits and `-_.~/` stand in it, and it ends with a letter or digit, so that mail and messengers leave it
//! whole; what they escape all the same is undone. Nothing in a link is believed: every text has a greatest length, and a
//! link that was cut or altered is refused as a whole. A figure keeps the text that was typed, with its source, as half a
//! figure may be another one. How texts and figures are written stands in `text` and `codes`, how a record of a hand-over is
//! in `record`; whoever changes one of them, or adds a figure or a verdict, raises [`VERSION`] and goes on reading the older
//! versions. What was made without a fingerprint is written as version 1, with a record as version 2.

mod codes;
mod record;
#[cfg(test)]
mod tests;
mod text;

pub(super) use text::unescaped;

pub use record::LinkRecord;

use super::plate::{Figure, OWN, Plate};
use super::{HandOver, LONGEST_NAME, Made, mark};
use fit::{Pairing, Verdict};
use quantity::Named;
use record::{BETWEEN, LONGEST_WORD};
use std::collections::BTreeMap;
use std::error::Error;
use std::fmt::{self, Display, Formatter};
use table::{Date, Id, Table, is_unseen};

/// What the fragment begins with, after `#`.
pub const BEGINS: &str = "/link/";
/// The newest version that is read, and the one that is written with a fingerprint.
pub const VERSION: u32 = 3;
/// The version that is written with a record of a hand-over alone.
const WITH_RECORD: u32 = 2;
/// The version that is written with neither.
const FIRST: u32 = 1;
/// The greatest number of attachments.
pub const MOST_HEADS: usize = 6;
/// The greatest length of the whole address, in characters: what mail and messengers of every kind still take as one.
pub const LONGEST: usize = 2000;
/// The longest address of a table, in characters.
pub const LONGEST_TABLE_ADDRESS: usize = 500;

/// The code before a figure that this build knows by its name only.
const BY_NAME: &str = "zz";

/// A pairing or a comparison to be sent.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// The machine.
    pub machine: LinkMachine,
    /// The attachments.
    pub heads: Vec<LinkHead>,
    /// The table with which it was made.
    pub table: LinkTable,
    /// A record of a hand-over of the only attachment.
    pub record: Option<LinkRecord>,
    /// With what all its pairings together were made; none when a build made it that did not keep that.
    pub made: Option<Made>,
}

/// The machine of a link.
#[derive(Clone, Debug, PartialEq)]
pub enum LinkMachine {
    /// One of the table.
    OfTable(Id),
    /// The sender's own, with its figures. Of a link that was read, the plate's id is `link-` with the mark of what was
    /// sent of the machine: the same machine is the same plate, however often it comes. It asks for every attachment.
    Own(Plate),
}

/// An attachment of a link.
#[derive(Clone, Debug, PartialEq)]
pub struct LinkHead {
    /// Its id in the table.
    pub id: Id,
    /// The verdict it had when the link was made.
    pub verdict: Option<Verdict>,
}

/// Which table it was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LinkTable {
    /// A mark of its text (see [`mark`]).
    pub mark: String,
    /// Its title.
    pub title: String,
    /// Its date, ISO 8601.
    pub date: Option<String>,
    /// Where the sender loaded it from; none for the app's own and for a file.
    pub address: Option<String>,
}

/// How the table of a link stands to the one in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TableNow {
    /// It is the same, to the letter.
    Same,
    /// It has the same title, and something in it is different.
    OtherState,
    /// It has another title.
    Other,
}

/// Why a link cannot be made or read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkFault {
    /// Cut off, altered on the way, or no link at all.
    Damaged,
    /// Made by a newer version of the app.
    Newer {
        /// Its version.
        found: u32,
    },
    /// Longer than [`LONGEST`].
    TooLong {
        /// Its length in characters.
        length: usize,
    },
}

/// For logs; what a person reads is put into words elsewhere.
impl Display for LinkFault {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::Damaged => f.write_str("damaged: a link is read whole and unaltered; ask for it again"),
            Self::Newer { found } => write!(f, "made in version {found}, newer than is read: update the app"),
            Self::TooLong { length } => write!(f, "{length} characters, more than {LONGEST}: send it as a file"),
        }
    }
}

impl Error for LinkFault {}

impl LinkTable {
    /// Which table it is, for a link.
    pub fn of(table: &Table, mark: &str, address: Option<&str>) -> Self {
        Self {
            mark: mark.to_owned(),
            title: table.title.clone(),
            date: table.date.map(|date| date.to_string()),
            address: address.map(str::to_owned),
        }
    }

    /// What of it can be sent: each text within its length.
    pub(super) fn bounded(&self) -> Self {
        Self {
            mark: text::clean(&self.mark, LONGEST_WORD),
            title: text::clean(&self.title, LONGEST_NAME),
            date: self.date.clone().filter(|date| Date::new(date).is_ok()),
            address: self.address.clone().filter(|address| is_address(address)),
        }
    }

    /// As it stands in an address.
    pub(super) fn written(&self) -> String {
        let date = self.date.as_ref().map_or_else(String::new, |date| format!("~d{}", date.replace('-', "")));
        let address = self.address.as_ref().map_or_else(String::new, |address| format!("~a{}", text::written(address)));
        format!("m{}~n{}{date}{address}", text::written(&self.mark), text::written(&self.title))
    }

    /// Reads what [`Self::written`] wrote; none when it did not.
    pub(super) fn read(written: &str) -> Option<Self> {
        read_table(written)
    }

    /// How it stands to the table in use, given that one's mark.
    pub fn now(&self, table: &Table, mark: &str) -> TableNow {
        if self.mark == mark {
            TableNow::Same
        } else if !self.title.is_empty()
            && text::clean(&self.title, LONGEST_NAME) == text::clean(&table.title, LONGEST_NAME)
        {
            TableNow::OtherState
        } else {
            TableNow::Other
        }
    }
}

impl Link {
    /// The link of some pairings on one machine, with the plate when the machine is the person's own. None without a
    /// pairing, and for an own machine without its plate, which nobody else has.
    pub fn of_pairings(table: LinkTable, own: Option<&Plate>, pairings: &[&Pairing]) -> Option<Self> {
        let carrier = &pairings.first()?.carrier.id;
        let machine = match own {
            Some(plate) => LinkMachine::Own(plate.clone()),
            None if carrier.as_str().starts_with(OWN) => return None,
            None => LinkMachine::OfTable(carrier.clone()),
        };
        let head = |pairing: &&Pairing| LinkHead { id: pairing.head.id.clone(), verdict: Some(pairing.verdict) };
        Some(Self { machine, heads: pairings.iter().map(head).collect(), table, record: None, made: None })
    }

    /// The link with what its pairings together were made with.
    #[must_use]
    pub fn with_made(self, made: Option<Made>) -> Self {
        Self { made, ..self }
    }

    /// The link with a record of a hand-over. Only a link with one attachment holds one.
    #[must_use]
    pub fn with_record(self, record: &HandOver) -> Self {
        let fits = self.heads.len() == 1;
        let record = LinkRecord { created: record.created.clone(), written: record.written.clone() };
        Self { record: Some(record).filter(|_| fits), ..self }
    }

    /// The fragment of its address, without `#`. What exceeds its bounds is not sent: attachments after
    /// [`MOST_HEADS`], the end of a long name or title, an address that is none.
    pub fn path(&self) -> String {
        let link = self.bounded();
        let machine = match &link.machine {
            LinkMachine::OfTable(id) => format!("t{id}"),
            LinkMachine::Own(plate) => own(plate),
        };
        let table = link.table.written();
        let heads: Vec<_> =
            link.heads.iter().map(|head| format!("{}{}", codes::of_verdict(head.verdict), head.id)).collect();
        let version = match (&link.made, &link.record) {
            (Some(_), _) => VERSION,
            (None, Some(_)) => WITH_RECORD,
            (None, None) => FIRST,
        };
        let made = link.made.as_ref().map(|made| format!("/j{}~{}", made.judgement, made.entries)).unwrap_or_default();
        let record = link.record.as_ref().map(|record| format!("/{}", record::written(record))).unwrap_or_default();
        let body = format!("{BEGINS}{version}/{machine}/{table}/h{}{made}{record}", heads.join("~"));
        format!("{body}/{}", mark(&body))
    }

    /// The whole address, given that of the app.
    ///
    /// # Errors
    /// [`LinkFault::TooLong`] when it has more than [`LONGEST`] characters.
    pub fn address(&self, app: &str) -> Result<String, LinkFault> {
        let app = app.split('#').next().unwrap_or_default();
        let address = format!("{app}#{}", self.path());
        let length = address.chars().count();
        if length > LONGEST { Err(LinkFault::TooLong { length }) } else { Ok(address) }
    }

    /// Reads the fragment of an address, without `#`.
    ///
    /// # Errors
    /// [`LinkFault`] when it is damaged, newer than this build, or too long.
    pub fn decode(path: &str) -> Result<Self, LinkFault> {
        // Whatever is escaped takes three characters; what is longer is not even looked at.
        if path.len() > 3 * LONGEST {
            return Err(LinkFault::TooLong { length: path.chars().count() });
        }
        let path = text::unescaped(path).ok_or(LinkFault::Damaged)?;
        if path.len() > LONGEST {
            return Err(LinkFault::TooLong { length: path.len() });
        }
        match version(&path).ok_or(LinkFault::Damaged)? {
            FIRST..=VERSION => read(&path).ok_or(LinkFault::Damaged),
            found => Err(LinkFault::Newer { found }),
        }
    }

    /// The link without the figures of a machine of one's own: its name, class and operating mass alone. Nothing can be
    /// solved from it, so the verdicts stand as the sender saw them.
    #[must_use]
    pub fn without_own_figures(&self) -> Self {
        let mut link = self.clone();
        if let LinkMachine::Own(plate) = &mut link.machine {
            link.made = None;
            plate.figures.retain(|name, _| name == Figure::OperatingMass.name());
        }
        link
    }

    /// The sender's own machine, and whether figures came with it from which something can be solved.
    pub fn own(&self) -> Option<(&Plate, bool)> {
        match &self.machine {
            LinkMachine::OfTable(_) => None,
            LinkMachine::Own(plate) => {
                Some((plate, plate.figures.keys().any(|name| name != Figure::OperatingMass.name())))
            }
        }
    }

    /// What of it can be sent: each text within its length, each attachment once.
    fn bounded(&self) -> Self {
        let mut heads: Vec<LinkHead> = Vec::new();
        for head in &self.heads {
            if heads.len() < MOST_HEADS && heads.iter().all(|there| there.id != head.id) {
                heads.push(head.clone());
            }
        }
        let machine = match &self.machine {
            LinkMachine::OfTable(id) => LinkMachine::OfTable(id.clone()),
            LinkMachine::Own(plate) => LinkMachine::Own(Plate {
                id: plate.id.clone(),
                name: text::clean(&plate.name, LONGEST_NAME),
                class: text::clean(&plate.class, LONGEST_WORD),
                figures: plate.figures.iter().map(seen).filter(|(_, typed)| !typed.trim().is_empty()).collect(),
                heads: Vec::new(),
                somebody_elses: false,
                taken_from: String::new(),
                changed: text::clean(&plate.changed, LONGEST_WORD),
            }),
        };
        let table = self.table.bounded();
        let record = self.record.as_ref().filter(|_| heads.len() == 1).map(LinkRecord::bounded);
        Self { machine, heads, table, record, made: self.made.clone().filter(Made::is_sound) }
    }
}

/// A figure without what misleads the eye.
fn seen((name, typed): (&String, &String)) -> (String, String) {
    let [name, typed] = [name, typed].map(|text| text.chars().filter(|c| !is_unseen(*c)).collect());
    (name, typed)
}

/// Whether a text may be the address of a table: of the web, or beside the app. Nothing in it may mislead the eye; a backslash is a
/// slash to a browser and none to a reader, and a scheme without its two slashes is read in either way.
pub fn is_address(text: &str) -> bool {
    let scheme = text.split(['/', '?', '#']).next().unwrap_or_default();
    let of_web =
        ["https://", "http://"].iter().any(|begin| text.strip_prefix(begin).is_some_and(|behind| !behind.is_empty()));
    !text.is_empty()
        && text.chars().count() <= LONGEST_TABLE_ADDRESS
        && !text.chars().any(|c| c.is_whitespace() || is_unseen(c) || shows_nothing(c) || c == '\\')
        && (!scheme.contains(':') || of_web)
}

/// Characters that a table's texts may have, as a script needs them, and an address has no use for: joiners, marks of direction, and
/// spaces of no width.
fn shows_nothing(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2060}'..='\u{2064}' | '\u{fe00}'..='\u{fe0f}')
}

/// The host that a web address leads to, where something that looks like another one stands before it: `https://known@other/`
/// leads to `other`.
pub fn hidden_host(address: &str) -> Option<&str> {
    let (_, behind) = address.split_once("//")?;
    let authority = behind.split(['/', '?', '#']).next().unwrap_or_default();
    authority.rsplit_once('@').map(|(_, host)| host)
}

/// A machine of one's own, as it is written.
fn own(plate: &Plate) -> String {
    let mut fields = vec![text::written(&plate.class), text::written(&plate.name), text::written(&plate.changed)];
    let known = Figure::ALL.iter().filter_map(|figure| {
        let typed = plate.figures.get(figure.name())?;
        Some(format!("{}{}", figure.code(), text::written(typed)))
    });
    fields.extend(known);
    for (name, typed) in plate.figures.iter().filter(|(name, _)| Figure::from_name(name).is_none()) {
        fields.push(format!("{BY_NAME}{}{BETWEEN}{}", text::written(name), text::written(typed)));
    }
    format!("o{}", fields.join("~"))
}

/// The version of a link; none when there is no such number.
fn version(path: &str) -> Option<u32> {
    let (number, _) = path.strip_prefix(BEGINS)?.split_once('/')?;
    whole_number(number)
}

/// A whole number from 1 on, in the one way in which it is written.
fn whole_number(text: &str) -> Option<u32> {
    let canonical = !text.starts_with('0') && text.bytes().all(|b| b.is_ascii_digit());
    text.parse().ok().filter(|_| canonical)
}

/// Reads a link. One of version 2 has a record, one of version 3 a fingerprint and perhaps a record.
fn read(path: &str) -> Option<Link> {
    let (body, sum) = path.rsplit_once('/')?;
    if mark(body) != sum {
        return None;
    }
    let (version, parts) = body.strip_prefix(BEGINS)?.split_once('/')?;
    let parts: Vec<&str> = parts.split('/').collect();
    let [machine, table, heads, more @ ..] = parts.as_slice() else { return None };
    let (made, record) = match (version, more) {
        ("1", []) => (None, None),
        ("2", [record]) => (None, Some(record::read(record)?)),
        ("3", [made]) => (Some(read_made(made)?), None),
        ("3", [made, record]) => (Some(read_made(made)?), Some(record::read(record)?)),
        _ => return None,
    };
    let machine = match machine.split_at_checked(1)? {
        ("t", id) => LinkMachine::OfTable(Id::new(id).ok()?),
        ("o", fields) => LinkMachine::Own(read_own(fields, format!("link-{}", mark(machine)))?),
        _ => return None,
    };
    let link = Link { machine, heads: read_heads(heads.strip_prefix('h')?)?, table: read_table(table)?, record, made };
    // What its bounds would change was not written by this app.
    (link.bounded() == link).then_some(link)
}

fn read_made(made: &str) -> Option<Made> {
    let (judgement, entries) = made.strip_prefix('j')?.split_once(BETWEEN)?;
    Some(Made { entries: entries.to_owned(), judgement: whole_number(judgement)? })
}

fn read_heads(heads: &str) -> Option<Vec<LinkHead>> {
    let head = |text: &str| {
        let (verdict, id) = text.split_at_checked(1)?;
        let verdict = if verdict == codes::of_verdict(None) { None } else { Some(codes::to_verdict(verdict)?) };
        Some(LinkHead { verdict, id: Id::new(id).ok()? })
    };
    if heads.is_empty() { Some(Vec::new()) } else { heads.split(BETWEEN).map(head).collect() }
}

fn read_table(table: &str) -> Option<LinkTable> {
    let mut fields = table.split(BETWEEN);
    let mark = text::read(fields.next()?.strip_prefix('m')?)?;
    let title = text::read(fields.next()?.strip_prefix('n')?)?;
    let mut fields = fields.peekable();
    let date = match fields.next_if(|field| field.starts_with('d')) {
        Some(field) => {
            let day = |range: std::ops::Range<usize>| field.get(range);
            Some(format!("{}-{}-{}", day(1..5)?, day(5..7)?, field.get(7..)?))
        }
        None => None,
    };
    let address = match fields.next() {
        Some(field) => Some(text::read(field.strip_prefix('a')?)?),
        None => None,
    };
    fields.next().is_none().then_some(LinkTable { mark, title, date, address })
}

fn read_own(fields: &str, id: String) -> Option<Plate> {
    let mut fields = fields.split(BETWEEN);
    let mut next = || text::read(fields.next()?);
    let (class, name, changed) = (next()?, next()?, next()?);
    let mut figures = BTreeMap::new();
    while let Some(field) = fields.next() {
        let (name, typed) = match field.split_at_checked(2)? {
            (BY_NAME, name) => (text::read(name)?, fields.next()?),
            (code, typed) => (codes::to_figure(code)?.name().to_owned(), typed),
        };
        if figures.insert(name, text::read(typed)?).is_some() {
            return None;
        }
    }
    Some(Plate {
        id,
        name,
        class,
        figures,
        heads: Vec::new(),
        somebody_elses: false,
        taken_from: String::new(),
        changed,
    })
}
