//! A pairing as a message to a dealer: plain text for mail, messenger or clipboard.
//!
//! Nothing is sent from here: the page opens what [`Enquiry::mailto`] gives, or copies [`Enquiry::message`]. Names come from
//! whoever wrote the table, so everything is text on its own line and percent-encoded in an address.

#[cfg(test)]
mod tests;

use super::Words;
use fit::Total;
use fit::{Missing, Outcome, Pairing, Verdict};
use std::fmt::Write;
use table::{Table, read};

/// The longest `mailto:` address, in characters: some systems cut longer ones off without a word (about 2000, common
/// practice, no published source).
pub const LONGEST_MAILTO: usize = 1900;

/// The most that a subject takes of it, percent-encoded.
const LONGEST_SUBJECT: usize = 400;

/// The longest mail address, in bytes (RFC 5321, 4.5.3.1.3: a path of 256 with its brackets), and its part before the @.
const LONGEST_ADDRESS: (usize, usize) = (254, 64);

/// The deference of every sheet, at the end of a message.
const DEFERRAL: &str = "Makers' manuals, local codes and licensed practice decide, not this message.";

/// Says that something is left out.
const CUT: &str = "…\n\n";

/// A message to a dealer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Enquiry {
    /// What it is about, on one line.
    pub subject: String,
    /// What it says, lines ended by `\n`.
    pub body: String,
    /// The link at its end, on a line of its own.
    link: Option<String>,
}

impl Words<'_> {
    /// The message about a pairing, with a link to it.
    pub fn enquiry(&self, pairing: &Pairing, link: Option<&str>) -> Enquiry {
        self.enquiry_with(pairing, None, link)
    }

    /// The message about a pairing, with a link to it and the name of the table that its figures are from.
    pub fn enquiry_from(&self, table: &Table, pairing: &Pairing, link: Option<&str>) -> Enquiry {
        self.enquiry_with(pairing, Some(table), link)
    }

    fn enquiry_with(&self, pairing: &Pairing, table: Option<&Table>, link: Option<&str>) -> Enquiry {
        let machine = named(pairing.carrier.maker.as_deref(), &pairing.carrier.model);
        let attachment = named(pairing.head.maker.as_deref(), &pairing.head.model);
        let mut lines = vec![
            format!("Machine: {machine}"),
            format!("Attachment: {attachment} ({})", self.head_kind(pairing.head.kind)),
        ];
        lines.extend(table.map(|table| {
            let date = table.date.map_or_else(String::new, |date| format!(", {date}"));
            format!("Figures from: {}{date}", read::shortened(&table.title))
        }));
        lines.extend(table.and_then(|table| self.invented_to_send(table)).map(str::to_owned));
        // A sentence a line: nothing is broken within, so that screens of any width break it as they like.
        lines.push(String::new());
        lines.extend(self.sentence(pairing).split_inclusive(". ").map(|part| part.trim_end().to_owned()));
        lines.extend(self.warm_up(pairing));
        let mut section = |title: &str, items: Vec<String>| {
            if !items.is_empty() {
                lines.extend([String::new(), title.to_owned()]);
                lines.extend(items);
            }
        };
        let find = |find: &fit::FindOut| {
            let spares = self.named_changes(&find.may_spare);
            format!("- {}: may spare {spares}", self.find_out(find))
        };
        if pairing.verdict == Verdict::FitsAfterChanges {
            let mut first: Vec<_> = pairing.find_out.iter().map(find).collect();
            if let Some(cost) = &pairing.cost_without_doubts {
                first.push(format!("Where all of that comes out well: {}", self.cost(cost)));
            }
            section("To find out before any of it is bought:", first);
        }
        let certain = pairing.verdict == Verdict::CannotSay;
        section(
            if certain { "What it needs, whatever else comes out:" } else { "What must change:" },
            self.changes_together(pairing),
        );
        section("To find out before it can be said whether it fits:", self.open(pairing, true));
        if let Some(branches) = &pairing.branches {
            let either = self.branches(branches).into_iter().map(|branch| format!("- {branch}")).collect();
            section(&format!("What either answer comes to ({}):", self.fact(branches.fact)), either);
        }
        section("To read off or try before any work:", self.open(pairing, false));
        let questions = pairing.questions.iter().map(|question| format!("- {}", self.question(*question)));
        section("To ask the makers:", questions.collect());
        lines.extend([String::new(), DEFERRAL.to_owned()]);
        let link = link.map(one_line);
        lines.extend(link.clone());
        let lines: Vec<_> = lines.iter().map(|line| one_line(line)).collect();
        let subject = one_line(&format!("{attachment} on {machine}: {}", self.verdict_of(pairing)));
        Enquiry { subject, body: lines.join("\n"), link }
    }

    /// The changes, each on its line, and what they take together.
    fn changes_together(&self, pairing: &Pairing) -> Vec<String> {
        let mut lines: Vec<_> =
            pairing.changes.iter().map(|change| format!("- {}", self.change_title(change))).collect();
        if lines.is_empty() {
            return lines;
        }
        let total = Total::of(pairing);
        let rest = if total.from && total.price.is_some() { " (not all of it has a price)" } else { "" };
        lines.push(format!("Together: {}{rest}", self.total(&total)));
        lines
    }

    /// What is not known of machine and attachment, each fact once with where it is found: what the verdict waits for, or
    /// what it does not wait for. A pairing that does not fit waits for nothing.
    fn open(&self, pairing: &Pairing, decides: bool) -> Vec<String> {
        if pairing.verdict == Verdict::DoesNotFit {
            return Vec::new();
        }
        let of = |blocks: bool| {
            let open = pairing.open_checks().iter().filter(|check| check.outcome == Outcome::NotKnown);
            open.filter(move |check| check.blocks == blocks).flat_map(|check| &check.missing)
        };
        let mut told: Vec<&Missing> = Vec::new();
        for missing in of(decides) {
            // What decides is told there alone.
            let before = !decides && of(true).any(|other| other.fact == missing.fact);
            if !before && !told.iter().any(|other| other.fact == missing.fact) {
                told.push(missing);
            }
        }
        // What decides most is asked first.
        let place = |missing: &&Missing| pairing.find_out.iter().position(|find| find.fact == missing.fact);
        if decides {
            told.sort_by_key(place);
        }
        let line = |missing: &Missing| {
            let text = self.missing(missing);
            let holds = text.holds.map_or_else(String::new, |holds| format!(" ({holds})"));
            format!("- {}{holds}: {}", text.what, text.where_to_find)
        };
        told.into_iter().map(line).collect()
    }
}

impl Enquiry {
    /// Subject and body as one text, for a messenger or the clipboard.
    pub fn message(&self) -> String {
        format!("{}\n\n{}", one_line(&self.subject), self.body)
    }

    /// The address (RFC 6068) that opens the message in a mail program, of [`LONGEST_MAILTO`] characters at the most: a
    /// longer body loses whole lines before its last ones, with a line that says so. None when `to` is not plausibly one
    /// mail address, or has something in it that could add a header or another receiver.
    pub fn mailto(&self, to: &str) -> Option<String> {
        let to = address(to)?;
        let mut subject = String::new();
        for c in one_line(&self.subject).chars() {
            let c = encoded(c.encode_utf8(&mut [0; 4]));
            if subject.len() + c.len() > LONGEST_SUBJECT {
                break;
            }
            subject += &c;
        }
        let mut uri = format!("mailto:{to}?subject={subject}&body=");
        uri += &self.body_within(LONGEST_MAILTO.saturating_sub(uri.len()));
        Some(uri)
    }

    /// The body, percent-encoded, in so many characters at the most.
    fn body_within(&self, room: usize) -> String {
        let whole = encoded(&self.body);
        if whole.len() <= room {
            return whole;
        }
        let link = self.link.clone().unwrap_or_default();
        let closing = format!("{DEFERRAL}\n{link}");
        // A link so long that it leaves no room: first the deferral gives way, which stands behind the link too.
        let last = [closing.trim_end(), &link, DEFERRAL].into_iter().map(|last| encoded(&format!("{CUT}{last}")));
        let Some(last) = last.into_iter().find(|last| last.len() <= room) else { return String::new() };
        let mut kept = String::new();
        for line in self.body.lines() {
            let line = encoded(&format!("{line}\n"));
            if kept.len() + line.len() + last.len() > room {
                break;
            }
            kept += &line;
        }
        kept + &last
    }
}

fn named(maker: Option<&str>, model: &str) -> String {
    table::full_name(maker.map(read::shortened).as_deref(), &read::shortened(model))
}

/// A text that stays on its line and misleads no eye.
fn one_line(text: &str) -> String {
    text.chars().map(|c| if read::is_unseen(c) { ' ' } else { c }).collect()
}

/// Percent-encoded UTF-8 (RFC 3986); a line ends with CRLF (RFC 6068, 5).
fn encoded(text: &str) -> String {
    let mut encoded = String::with_capacity(text.len() * 2);
    for byte in text.bytes() {
        match byte {
            b'\n' => encoded.push_str("%0D%0A"),
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' => encoded.push(char::from(byte)),
            // Writing to a String cannot fail.
            _ => drop(write!(encoded, "%{byte:02X}")),
        }
    }
    encoded
}

/// Whether this is plausibly one mail address, to which an [`Enquiry`] can go.
///
/// ```
/// use wording::is_mail_address;
/// assert!(is_mail_address("yard@dealer.example") && !is_mail_address("yard@dealer.example?bcc=x@y.example"));
/// ```
pub fn is_mail_address(to: &str) -> bool {
    address(to).is_some()
}

/// One plausible mail address, percent-encoded. Stricter than RFC 5322: quoted parts, comments and rare signs are no
/// dealer's, and a comma, `?`, `&`, `%` or line break would make something else of the whole.
fn address(to: &str) -> Option<String> {
    let (mailbox, domain) = to.split_once('@')?;
    let dotted = |text: &str, also: &[char]| {
        let sound = |c: char| c.is_alphanumeric() || also.contains(&c);
        text.split('.').all(|part| !part.is_empty() && part.chars().all(sound))
    };
    let hyphens = |part: &str| part.starts_with('-') || part.ends_with('-');
    let sound = to.len() <= LONGEST_ADDRESS.0
        && mailbox.len() <= LONGEST_ADDRESS.1
        && dotted(mailbox, &['-', '_', '+', '\''])
        && dotted(domain, &['-'])
        && domain.contains('.')
        && !domain.split('.').any(hyphens);
    sound.then(|| format!("{}@{}", encoded(mailbox), encoded(domain)))
}
