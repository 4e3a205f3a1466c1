//! What the sheet of a pairing says on a screen besides what papers say too: the answer in a sentence, what can kill in a few words,
//! what is proved, and how the checks stand.

use super::parts::{Part, Stage, Telling};
use super::{SafetySign, Words, counted};
use fit::installation::{Brochure, Warmth};
use fit::{Bound, Check, Class, Outcome, Pairing, Verdict};
use quantity::{Amount, put_in_order_by};
use table::Head;
use workshop::Caution;

/// What can kill, in a few words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HazardText {
    /// Its sign.
    pub sign: Option<SafetySign>,
    /// Its distance, time or pressure; empty where nobody can name it.
    pub figure: String,
    /// What it does, a sentence.
    pub what: &'static str,
    /// What is done about it, a sentence or two.
    pub so: String,
}

/// When something is proved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Proof {
    /// Before any work: people or parts are at risk.
    BeforeWork,
    /// In the first half hour of work: only work is at risk.
    AtFirst,
    /// With a gauge at the hand-over: it holds on typical values.
    AtHandOver,
}

/// What is proved, in a few words, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProofText {
    /// What is expected, or looked at.
    pub what: String,
    /// How it is found out; empty where a gauge says it.
    pub how: String,
}

/// Checks that keep a pairing from fitting, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct InTheWay {
    /// Not met.
    pub not_met: usize,
    /// Not known, while the verdict waits for them.
    pub not_known: usize,
}

/// How the checks came out, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Standing {
    /// In the way today.
    pub today: InTheWay,
    /// In the way after the changes.
    pub after: InTheWay,
    /// To prove, at the hand-over or before.
    pub to_prove: usize,
    /// The others.
    pub met: usize,
}

/// A card of a comparison.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardText {
    /// What it comes to, by name; nothing where it does not fit or cannot be said yet.
    pub sums: Vec<(&'static str, String)>,
    /// The tightest margin, what fails, or what to find out first.
    pub below: Option<String>,
    /// What the attachment's brochure says.
    pub brochure: String,
}

impl Words<'_> {
    /// The answer in a sentence or two that need no knowledge of the trade.
    pub fn lead(&self, pairing: &Pairing) -> String {
        let changes = || match pairing.changes.len() {
            1 => "the change below".to_owned(),
            count => format!("the {count} changes below"),
        };
        let prove = || match pairing.before_work.len() {
            0 => String::new(),
            count => format!(" Before any work, prove {}.", counted(count, "point", "points")),
        };
        match pairing.verdict {
            Verdict::Fits if pairing.before_work.is_empty() => "It fits as it is.".to_owned(),
            Verdict::Fits => format!("It fits.{}", prove()),
            Verdict::FitsAfterChanges if pairing.checks.iter().any(|check| check.outcome == Outcome::NotMet) => {
                format!("Do not run it as it stands. With {} it fits.", changes())
            }
            Verdict::FitsAfterChanges => {
                format!("Not certain as it stands. With {} it fits for certain.", changes())
            }
            Verdict::CannotSay => match pairing.incomplete {
                Some(incomplete) => format!("Cannot say yet: {}.", self.incomplete(incomplete)),
                None if pairing.find_out.len() == 1 => "Cannot say yet. One thing is left to find out.".to_owned(),
                None => "Cannot say yet. Find out first what decides most.".to_owned(),
            },
            Verdict::DoesNotFit => "It does not fit this machine, and no change makes it fit.".to_owned(),
        }
    }

    /// The verdict in the fewest words, for a line that stays in sight: `Fits after 5 changes`.
    pub fn verdict_line(&self, pairing: &Pairing) -> String {
        match (pairing.verdict, pairing.changes.len()) {
            (Verdict::FitsAfterChanges, count) => format!("Fits after {}", counted(count, "change", "changes")),
            (verdict, _) => super::capital(self.verdict(verdict)),
        }
    }

    /// What stands behind the answer: the reason that weighs most with its figures, the others by name.
    pub fn because_parts(&self, pairing: &Pairing) -> Vec<Part> {
        let mut told = Telling::default();
        match pairing.verdict {
            Verdict::Fits => self.tightest(pairing, "", &mut told),
            Verdict::FitsAfterChanges => self.today(pairing, 1, &mut told),
            Verdict::CannotSay if pairing.incomplete.is_some() => self.today(pairing, 1, &mut told),
            Verdict::CannotSay => {
                told.text(&self.certain(pairing).map_or_else(String::new, |certain| format!("{certain}.")));
            }
            Verdict::DoesNotFit => self.unfixable(pairing, &mut told),
        }
        told.0
    }

    /// What can kill with an attachment, in a few words each.
    pub fn hazards_in_short(&self, pairings: &[&Pairing]) -> Vec<HazardText> {
        let one = |caution: Caution| {
            let sign = super::cautions::sign(&caution);
            let (figure, what, so) = match caution {
                Caution::ThrownObjects { distance, stated } => {
                    let whose = if stated { "" } else { " (typical: its maker names none)" };
                    let so = format!("Nobody nearer while it works{whose}, nobody near until it stands.");
                    (self.keep_away(distance), "It throws objects.", so)
                }
                Caution::RunsOn { about } => {
                    let (figure, so) = match about {
                        Some(about) => (self.seconds(about), "Computed: time it. Nobody near until it stands."),
                        None => (String::new(), "Time it at the first start. Nobody near until it stands."),
                    };
                    (figure, "It keeps turning after switching off.", so.to_owned())
                }
                Caution::Injection => {
                    let so = "Never feel for a leak. If hit, see a doctor at once.".to_owned();
                    (self.injection().to_owned(), "A jet of oil goes through gloves and skin.", so)
                }
                _ => return None,
            };
            Some(HazardText { sign, figure, what, so })
        };
        workshop::hazards(pairings).into_iter().filter_map(one).collect()
    }

    /// What is proved, in the order in which it is.
    pub fn proofs<'p>(&self, pairing: &'p Pairing) -> Vec<(Proof, &'p Check)> {
        let when = |check: &Check| match (check.outcome, check.class) {
            (Outcome::NotKnown, Class::Safety | Class::Damage) => Proof::BeforeWork,
            (Outcome::NotKnown, Class::Work) => Proof::AtFirst,
            _ => Proof::AtHandOver,
        };
        let checks = pairing.final_checks().iter().filter(|check| pairing.to_prove.contains(&check.id));
        let mut all: Vec<_> = checks.map(|check| (when(check), check)).collect();
        put_in_order_by(&mut all, |(when, _)| *when);
        all
    }

    /// When something is proved.
    pub fn proved_when(&self, when: Proof) -> &'static str {
        match when {
            Proof::BeforeWork => "Before any work",
            Proof::AtFirst => "In the first half hour of work",
            Proof::AtHandOver => "With gauge and flow meter, at the hand-over",
        }
    }

    /// The limit of a check with its side, on the safe side of rounding: `≤ 215 bar`; none where it has no figure.
    pub fn limit_in_short(&self, check: &Check) -> Option<String> {
        let (limit, bound) = (check.limit?, check.bound?);
        Some(match bound {
            Bound::AtMost => format!("≤ {}", self.at_most(limit)),
            Bound::AtLeast => format!("≥ {}", self.at_least(limit)),
        })
    }

    /// What is expected where something is proved; where nothing is, what is looked at, and how.
    pub fn proof_detail(&self, check: &Check) -> ProofText {
        let expected = match (check.value, check.worst) {
            // Typical values that are not stated may break the limit: that is no expectation.
            (likely, Some(worst))
                if check.outcome == Outcome::NotKnown && likely.is_none_or(|likely| likely == worst) =>
            {
                Some(format!("not stated; at its typical worst {}", self.amount(worst)))
            }
            (Some(likely), Some(worst)) if likely != worst => Some(self.likely_and_worst(likely, worst)),
            (Some(one), _) | (None, Some(one)) => Some(format!("expected {}", self.amount(one))),
            (None, None) => None,
        };
        let open = check.missing.first().filter(|_| check.outcome == Outcome::NotKnown);
        match (expected, open) {
            (Some(what), _) => ProofText { what, how: String::new() },
            (None, Some(missing)) => {
                let text = self.missing(missing);
                ProofText { what: text.what.to_owned(), how: super::capital(text.where_to_find) + "." }
            }
            (None, None) => ProofText { what: self.typical_values().to_owned(), how: String::new() },
        }
    }

    /// What something rests on that is not stated.
    pub fn typical_values(&self) -> &'static str {
        "typical values, not stated"
    }

    /// Checks by their titles: `Return filter and oil`.
    pub fn checks_named(&self, checks: &[&Check]) -> String {
        super::capital(&self.named_checks(checks.iter().map(|check| &check.id)))
    }

    fn likely_and_worst(&self, likely: Amount, worst: Amount) -> String {
        format!("expected {}, at worst {}", self.amount(likely), self.amount(worst))
    }

    /// How a check stands, today and after the changes.
    pub fn stands(&self, pairing: &Pairing, today: Option<&Check>, after: Option<&Check>) -> String {
        let is_proved = |check: &Check| check.outcome == Outcome::NotKnown && pairing.to_prove.contains(&check.id);
        let outcome = |check: &Check| if is_proved(check) { "to prove" } else { self.outcome(check.outcome) };
        match (today, after) {
            (Some(today), Some(after)) if outcome(today) == outcome(after) => outcome(after).to_owned(),
            (Some(today), Some(after)) => {
                format!("{} today · {} after changes", self.outcome(today.outcome), outcome(after))
            }
            (Some(one), None) | (None, Some(one)) => outcome(one).to_owned(),
            (None, None) => String::new(),
        }
    }

    /// How all checks stand: `7 not met today, met after; 3 to prove`, or `all 36 met`.
    pub fn standing_of_checks(&self, standing: Standing, changed: bool) -> String {
        let Standing { today, after, to_prove, met } = standing;
        let told = |of: InTheWay| {
            let counts = [(of.not_met, "not met"), (of.not_known, "not known")];
            let counts: Vec<_> =
                counts.iter().filter(|(count, _)| *count > 0).map(|(count, how)| format!("{count} {how}")).collect();
            counts.join(" and ")
        };
        let mut parts = Vec::new();
        if today != InTheWay::default() {
            parts.push(match told(after) {
                _ if !changed => told(today),
                left if left.is_empty() => format!("{} today, met after", told(today)),
                left => format!("{} today, {left} after", told(today)),
            });
        }
        if to_prove > 0 {
            parts.push(format!("{to_prove} to prove"));
        }
        if parts.is_empty() {
            parts.push(format!("all {met} met"));
        }
        parts.join("; ")
    }

    /// How many typical values a check rests on.
    pub fn rests_on_typical(&self, count: usize) -> String {
        format!("Rests on {} (not stated for this machine):", counted(count, "typical value", "typical values"))
    }

    /// For which machine the solved points hold.
    pub fn points_hold(&self) -> &'static str {
        "At likely figures, engine at working speed, other functions idle. What is left out cannot be said from the table."
    }

    /// What the brochure says and what the circuit gives, in a line: `brochure 46 L/min, circuit 42 L/min`.
    pub fn brochure_in_short(&self, brochure: &Brochure) -> String {
        let flow = &brochure.flow;
        format!("brochure {}, circuit {}", self.amount(flow.says), self.amount(flow.gives))
    }

    /// From when on full speed may be asked, and where the oil settles, in a line.
    pub fn oil_in_short(&self, pairing: &Pairing, warmth: Option<&Warmth>) -> String {
        let from = pairing.warm_up.map(|from| format!("full speed from {}", self.at_least(from)));
        let ends = warmth.map(|warmth| match (warmth.settles, warmth.to_stop) {
            (_, Some(after)) => format!("too hot after about {} of work", self.span(after)),
            (Some(settles), None) => format!("settles at about {}", self.amount(settles)),
            (None, None) => "where it settles is not known yet".to_owned(),
        });
        // Unknown is no news beside what is known.
        let ends =
            ends.filter(|_| from.is_none() || warmth.is_some_and(|warmth| warmth.settles.or(warmth.to_stop).is_some()));
        from.into_iter().chain(ends).collect::<Vec<_>>().join("; ")
    }

    /// Of which machine the circuit is drawn.
    pub fn circuit_is_drawn(&self, last: Stage) -> &'static str {
        match last {
            Stage::AsItIs => "drawn with its flows and pressures",
            Stage::AfterChanges => "drawn as it is and after the changes",
        }
    }

    /// What a row of a list says at its end: the price of the changes; of *cannot say yet* of those that are certain.
    pub fn row_price(&self, pairing: &Pairing) -> String {
        match &pairing.cost.price {
            _ if pairing.changes.is_empty() && pairing.verdict == Verdict::CannotSay => String::new(),
            _ if pairing.changes.is_empty() => "no changes".to_owned(),
            Some(price) if pairing.verdict == Verdict::CannotSay => format!("from {}", self.price(price)),
            Some(price) => self.price(price),
            None => "price not stated".to_owned(),
        }
    }

    /// What the row of verdicts is called.
    pub fn verdict_title(&self) -> &'static str {
        "Verdict"
    }

    /// That nobody has checked a machine's figures on it.
    pub fn not_checked(&self) -> &'static str {
        "figures not checked"
    }

    /// How long the changes of a row take.
    pub fn row_time(&self, pairing: &Pairing) -> String {
        if pairing.changes.is_empty() { String::new() } else { self.duration(pairing.cost.minutes) }
    }

    /// What a card of a comparison says of a pairing.
    pub fn card(&self, pairing: &Pairing, head: &Head) -> CardText {
        let prove = match pairing.to_prove.len() {
            0 => "nothing".to_owned(),
            count => count.to_string(),
        };
        let time = Some(self.row_time(pairing)).filter(|time| !time.is_empty()).unwrap_or_else(|| "none".to_owned());
        let price =
            Some(self.row_price(pairing)).filter(|price| !price.is_empty()).unwrap_or_else(|| "not known".to_owned());
        let works = pairing.verdict <= Verdict::FitsAfterChanges;
        let changes = counted(pairing.changes.len(), "change", "changes");
        let below = match self.margin_and_proof(pairing).into_iter().next().filter(|_| works) {
            Some(margin) if pairing.changes.is_empty() => Some(margin),
            Some(margin) => Some(format!("{changes} · {margin}")),
            None => Some(self.row_below(pairing)),
        };
        let kind = super::capital(self.head_kind(head.kind));
        let stock = head.stock.as_ref().map(|note| format!(" · {note}")).unwrap_or_default();
        CardText {
            sums: if works { vec![("Changes cost", price), ("Work", time), ("To prove", prove)] } else { Vec::new() },
            below: below.filter(|below| !below.is_empty()),
            brochure: format!("{kind}{stock} · {}", self.brochure_of(head)),
        }
    }

    /// The tightest margin, and how many points are to prove.
    pub(super) fn margin_and_proof(&self, pairing: &Pairing) -> Vec<String> {
        let margin =
            |check: &Check| Some(format!("{} {}", self.check_title(check.id).to_lowercase(), self.margin_of(check)?));
        let margin = pairing.tightest_check().and_then(margin);
        let proof = Some(pairing.to_prove.len()).filter(|count| *count > 0);
        margin.into_iter().chain(proof.map(|count| format!("{count} to prove in all"))).collect()
    }

    /// What a row says below its verdict: changes, tightest margin and points to prove; what fails; what to find out first.
    pub fn row_below(&self, pairing: &Pairing) -> String {
        match pairing.verdict {
            Verdict::DoesNotFit => {
                let named: Vec<_> = pairing.unmendable.iter().map(|id| self.failing(pairing, *id)).collect();
                let named: Vec<_> = named.iter().map(String::as_str).collect();
                return super::reasons::list(&named);
            }
            Verdict::CannotSay => {
                return match (pairing.incomplete, pairing.find_out.first()) {
                    (Some(incomplete), _) => self.incomplete(incomplete).to_owned(),
                    (None, Some(first)) => format!("find out first: {}", self.fact(first.fact)),
                    (None, None) => String::new(),
                };
            }
            Verdict::Fits | Verdict::FitsAfterChanges => {}
        }
        let mut parts = Vec::new();
        if !pairing.changes.is_empty() {
            parts.push(counted(pairing.changes.len(), "change", "changes"));
        }
        parts.extend(self.margin_and_proof(pairing));
        if let Some(first) = pairing.find_out.first() {
            parts.push(format!("find out first: {}", self.fact(first.fact)));
        }
        parts.join(" · ")
    }
}
