//! The customer's quotation: who offers, what is done and for how much, what is proved, what to beware of, and a place to sign.

use super::given::or_rule;
use super::{Papers, heading, sections};
use crate::tree::{Block, Fact, Form, Look, Slot, Span};
use fit::{Conditions, Price, Verdict};
use quantity::{Amount, Ratio};
use wording::{Words, capital};
use workshop::{Quotation, QuotedChange};

/// Who offers, and what stands on this quotation alone; what is empty is left out or written by hand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Letter {
    /// The dealer's name.
    pub name: String,
    /// Street and place.
    pub address: String,
    /// How he is reached.
    pub contact: String,
    /// His logo, as a picture within the page.
    pub logo: String,
    /// What the tax is called.
    pub tax_name: String,
    /// The tax, as a share of the price.
    pub tax: Option<Ratio>,
    /// For whom it is.
    pub customer: String,
    /// The quotation's number.
    pub number: String,
    /// Its day, as the reader writes it.
    pub day: String,
    /// Until when it is valid, as the reader writes it.
    pub valid_until: String,
}

impl Letter {
    /// Who offers, at the head of the page.
    fn head(&self) -> Block {
        let mut inside = Vec::new();
        if !self.logo.is_empty() {
            inside.push(Block::Logo(self.logo.clone()));
        }
        inside.push(Block::says(Look::Name, or_rule(&self.name)));
        let said: Vec<_> = [&self.address, &self.contact].into_iter().filter(|text| !text.trim().is_empty()).collect();
        inside.extend(said.into_iter().map(|text| Block::says(Look::Plain, text.trim())));
        Block::Page { look: Look::Letterhead, inside }
    }

    fn facts(&self) -> [Fact; 4] {
        let fact = |name: &str, says: &str| Fact::new(name, [Span::Text(or_rule(says))]);
        [
            fact("Quotation", &self.number),
            fact("Date", &self.day),
            fact("Valid until", &self.valid_until),
            fact("For", &self.customer),
        ]
    }
}

impl Papers<'_> {
    /// The quotation of this pairing: one page.
    pub fn for_the_customer(&self, letter: &Letter) -> Vec<Block> {
        let (words, pairing) = (self.words, self.pairing);
        let serial = |name: String, serial: &str| {
            if serial.trim().is_empty() { name } else { format!("{name}, serial {}", serial.trim()) }
        };
        let mut facts = letter.facts().to_vec();
        for (name, says) in [
            ("Machine", serial(capital(&self.carrier.full_name()), &self.given.machine_serial)),
            ("Attachment", serial(self.head.full_name(), &self.given.attachment_serial)),
            ("Job", or_rule(&self.given.job)),
            ("Prepared by", or_rule("")),
        ] {
            facts.push(Fact::new(name, [Span::Text(says)]));
        }
        let mut inside = vec![letter.head(), Block::Facts { look: Look::TitleBlock, facts }];
        inside.extend(sections(words.hazards(&[pairing]), false));
        let said =
            |title: &str, text: String| Block::of(Look::Plain, [Span::Strong(format!("{title} ")), Span::Text(text)]);
        let offers = matches!(pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges);
        inside.push(said("Does it fit?", words.plain_verdict(pairing)));
        inside.extend(words.doubts(pairing).map(|text| said("What we find out first.", text)));
        if !pairing.changes.is_empty() {
            let quotation = Quotation::of(&self.sheets.changes, letter.tax);
            let title = if pairing.verdict == Verdict::CannotSay {
                "What it needs, whatever else comes out"
            } else {
                "What we do, and for how much"
            };
            inside.push(heading(currency_behind(title, &quotation)));
            inside.push(offered(&words, &quotation, letter, offers));
            let about = if offers { included(&words, &quotation, self.conditions) } else { NO_OFFER.to_owned() };
            inside.push(Block::says(Look::Quiet, about));
        }
        inside.extend(words.question_that_decides(pairing).map(|text| said("The question that decides most.", text)));
        let proved = words.what_is_proved(pairing);
        inside.extend((offers && !proved.is_empty()).then(|| said("What is proved when it is handed over.", proved)));
        let read = words.what_to_read(self.sheets);
        inside.extend((!read.is_empty()).then(|| said("What we need from you.", read)));
        inside.push(said("What to know before work.", words.what_to_know(self.sheets).join(" ")));
        inside.extend(offers.then(accepted));
        vec![Block::Page { look: Look::Plain, inside }]
    }
}

fn currency_behind(title: &str, quotation: &Quotation) -> String {
    quotation.net.as_ref().map_or_else(|| title.to_owned(), |net| format!("{title} ({})", net.currency))
}

/// Every change with its parts and labour, and what it comes to with the tax.
fn offered(words: &Words, quotation: &Quotation, letter: &Letter, offers: bool) -> Block {
    let price = |price: &Option<Price>| {
        price.as_ref().map_or_else(|| "no price yet".to_owned(), |price| words.price_in_full(price))
    };
    let row = |(place, change): (usize, &QuotedChange)| {
        let spared = if change.may_be_spared { "only where what is found out first does not spare it" } else { "" };
        vec![
            Slot::says((place + 1).to_string()),
            Slot::More(vec![Span::Text(capital(words.change_name(change.change)))], spared.to_owned()),
            Slot::says(price(&change.parts)),
            Slot::says(format!("{} · {}", price(&change.labour), words.duration(change.minutes))),
            Slot::says(price(&change.together)),
        ]
    };
    let sum = |name: String, price: &Price, from: bool| {
        let from = if from { "from " } else { "" };
        vec![
            Slot::says(""),
            Slot::says(name),
            Slot::says(""),
            Slot::says(""),
            Slot::says(format!("{from}{}", words.price_in_full(price))),
        ]
    };
    let mut foot = Vec::new();
    if let Some((net, gross)) = quotation.net.as_ref().zip(quotation.gross.as_ref()) {
        if let (Some(tax), Some(share)) = (&quotation.tax, letter.tax) {
            foot.push(sum("Without tax".to_owned(), net, quotation.from));
            let percent = words.amount(Amount::of(share));
            let name = if letter.tax_name.trim().is_empty() { "Tax" } else { letter.tax_name.trim() };
            foot.push(sum(format!("{name}, {percent}"), tax, quotation.from));
        }
        let name = match (offers, quotation.tax.is_some()) {
            (true, true) => "Total with tax",
            (true, false) => "Total, tax not counted",
            (false, true) => "Certain so far",
            (false, false) => "Certain so far, tax not counted",
        };
        foot.push(sum(name.to_owned(), gross, quotation.from));
    }
    Block::Form(Form {
        name: "What is done, with its price".to_owned(),
        head: ["", "What is done", "Parts", "Labour", "Together"].map(str::to_owned).to_vec(),
        rows: quotation.changes.iter().enumerate().map(row).collect(),
        foot,
    })
}

/// What stands under prices where it is not said yet whether it fits.
const NO_OFFER: &str = "This is no offer yet: it is not said whether it fits, and more may be needed.";

/// What the price includes.
fn included(words: &Words, quotation: &Quotation, conditions: &Conditions) -> String {
    let open = if quotation.from { " What has no price yet comes on top." } else { "" };
    let rate = conditions.labour_rate.zip(quotation.net.as_ref()).map(|(rate, net)| {
        let rate = Price { amount: rate, currency: net.currency.clone() };
        format!(" Labour at {} {} an hour.", rate.currency, words.price_in_full(&rate))
    });
    let rate = rate.unwrap_or_default();
    format!(
        "Included: the parts named here and their fitting. Not included: the attachment itself, carriage, oil and filters that are not named, and whatever is found worn.{rate}{open}"
    )
}

/// Where a customer accepts it.
fn accepted() -> Block {
    let facts = ["Accepted by", "Place, date", "Signature"].map(|name| Fact::new(name, Vec::<Span>::new()));
    Block::Together(vec![Block::Facts { look: Look::Signed, facts: facts.to_vec() }])
}

/// The quotation of several pairings: what each comes to side by side, and on a second page what each needs and where to sign.
pub fn quotation_of(papers: &[Papers], letter: &Letter) -> Vec<Block> {
    let Some(first) = papers.first() else { return Vec::new() };
    let words = first.words;
    let pairings: Vec<_> = papers.iter().map(|papers| papers.pairing).collect();
    let mut front = vec![letter.head(), Block::Facts { look: Look::TitleBlock, facts: letter.facts().to_vec() }];
    front.extend(sections(words.hazards(&pairings), false));
    let quoted: Vec<_> = papers.iter().map(|papers| Quotation::of(&papers.sheets.changes, letter.tax)).collect();
    let currency = quoted.iter().find_map(|quotation| Some(quotation.net.as_ref()?.currency.clone()));
    front.push(heading(
        currency.map_or_else(|| "Side by side".to_owned(), |currency| format!("Side by side ({currency})")),
    ));
    let rows = papers.iter().zip(&quoted).map(|(papers, quotation)| {
        let pairing = papers.pairing;
        let says = |price: &Option<Price>| match price {
            Some(price) => format!("{}{}", if quotation.from { "from " } else { "" }, words.price_in_full(price)),
            None if pairing.changes.is_empty() => "–".to_owned(),
            None => "no price yet".to_owned(),
        };
        let done: Vec<_> = pairing.changes.iter().map(|change| words.change_name(change.id)).collect();
        vec![
            Slot::Tick,
            Slot::More(
                vec![Span::Text(format!("{} on {}", papers.head.full_name(), papers.carrier.full_name()))],
                done.join(", "),
            ),
            Slot::says(capital(words.verdict(pairing.verdict))),
            Slot::says(says(&quotation.net)),
            Slot::says(if quotation.tax.is_some() { says(&quotation.tax) } else { "–".to_owned() }),
            Slot::says(says(&quotation.gross)),
        ]
    });
    front.push(Block::Form(Form {
        name: "Side by side".to_owned(),
        head: ["", "What, and what is done", "Does it fit?", "Without tax", "Tax", "Total"].map(str::to_owned).to_vec(),
        rows: rows.collect(),
        foot: Vec::new(),
    }));
    front.push(Block::says(Look::Quiet, "Tick what you choose. Each price is for that attachment alone; what two of them share on one machine is paid once."));
    // What holds of all of them is told once, what holds of one with its name.
    let cautions: Vec<_> = papers.iter().map(|papers| words.what_to_know(papers.sheets)).collect();
    let of_all = |caution: &str| cautions.iter().all(|known| known.iter().any(|known| known == caution));
    let told = |cautions: &[String], common: bool| {
        let told: Vec<_> = cautions.iter().map(String::as_str).filter(|caution| of_all(caution) == common).collect();
        told.join(" ")
    };
    let mut back = Vec::new();
    for (papers, cautions) in papers.iter().zip(&cautions) {
        let name = format!("{} on {}", papers.head.full_name(), papers.carrier.full_name());
        let mut said = vec![
            Block::Heading { level: 3, text: name },
            Block::says(Look::Plain, words.plain_verdict(papers.pairing)),
        ];
        let read = words.what_to_read(papers.sheets);
        said.extend((!read.is_empty()).then(|| Block::says(Look::Plain, format!("What we need from you: {read}"))));
        let own = told(cautions, false);
        said.extend((!own.is_empty()).then(|| Block::says(Look::Plain, own)));
        back.push(Block::Together(said));
    }
    back.push(heading("What to know before work"));
    back.push(Block::says(Look::Plain, told(&cautions[0], true)));
    back.push(Block::says(Look::Quiet, included(&words, &quoted[0], first.conditions)));
    back.push(accepted());
    vec![Block::Page { look: Look::Plain, inside: front }, Block::Page { look: Look::Plain, inside: back }]
}
