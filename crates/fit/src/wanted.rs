//! What somebody looks for among attachments. Nothing here changes a verdict: it says which of them are of interest.

use super::{Outcome, Pairing, Verdict, WorkAsked};
use quantity::{Length, Quantity, Stated, put_in_order_by};
use table::{Head, HeadKind, Material, Table};

/// What is looked for; what is not named is not asked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wanted {
    /// Words of the name, in any order.
    pub name: String,
    /// How it must come out.
    pub verdict: Option<Verdict>,
    /// What it does.
    pub kind: Option<HeadKind>,
    /// What is to be worked.
    pub work: Option<WorkAsked>,
    /// The working width that it must have at least.
    pub width: Option<Length>,
    /// The most changes that the machine may need.
    pub most_changes: Option<usize>,
    /// Whether it must be in stock.
    pub in_stock: bool,
}

/// What the maker of an attachment says about a material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Takes<'a> {
    /// It is named, with the greatest diameter or thickness where that is said.
    Named(Option<&'a Stated<Length>>),
    /// Others are named.
    Others,
    /// No material is named at all.
    Unsaid,
}

/// What the maker says about a material, by its name in whatever case.
pub fn takes<'a>(materials: &'a [Material], name: &str) -> Takes<'a> {
    match materials.iter().find(|material| material.name.eq_ignore_ascii_case(name)) {
        Some(material) => Takes::Named(material.greatest.as_ref()),
        None if materials.is_empty() => Takes::Unsaid,
        None => Takes::Others,
    }
}

/// Whether a text holds every word that is looked for, in any order and in whatever case.
pub fn holds_words(text: &str, words: &str) -> bool {
    let text = text.to_lowercase();
    words.to_lowercase().split_whitespace().all(|word| text.contains(word))
}

/// Every material that an attachment of the table is made for, each once, in the order of the alphabet; and whether some
/// maker names a greatest diameter or thickness for it.
pub fn materials(table: &Table) -> Vec<(String, bool)> {
    let mut all: Vec<(String, bool)> = Vec::new();
    for material in table.heads.iter().flat_map(|head| &head.work.materials) {
        match all.iter_mut().find(|(name, _)| name.eq_ignore_ascii_case(&material.name)) {
            Some((_, measured)) => *measured |= material.greatest.is_some(),
            None => all.push((material.name.clone(), material.greatest.is_some())),
        }
    }
    put_in_order_by(&mut all, |(name, _)| name.to_lowercase());
    all
}

/// Whether an attachment is in stock: its entry has a note on stock. What is not there has none.
pub fn in_stock(head: &Head) -> bool {
    head.stock.as_ref().is_some_and(|note| !note.trim().is_empty())
}

impl Wanted {
    /// Whether the attachment by itself is what is looked for: name, kind, stock, material with its diameter, and width. Not
    /// known where its maker does not say what is asked: that is no reason to leave it out.
    ///
    /// ```
    /// use fit::{Outcome, Wanted, WorkAsked};
    /// let table = table::read(include_str!("../../../public/table/demo.json")).table.expect("a table");
    /// let stems = WorkAsked { material: "stems".to_owned(), thickness: None };
    /// let wanted = Wanted { work: Some(stems), ..Wanted::default() };
    /// assert_eq!(wanted.suits(table.head("thistlecut-r60").expect("a cutter")), Outcome::Met);
    /// assert_eq!(wanted.suits(table.head("wrackline-c40").expect("a planer")), Outcome::NotMet);
    /// assert_eq!(wanted.suits(table.head("pebblegate-s150").expect("a sweeper")), Outcome::NotKnown);
    /// ```
    pub fn suits(&self, head: &Head) -> Outcome {
        let named = holds_words(&head.full_name(), &self.name);
        if !named || self.kind.is_some_and(|kind| kind != head.kind) || self.in_stock && !in_stock(head) {
            return Outcome::NotMet;
        }
        let work = self.work.as_ref().map_or(Outcome::Met, |asked| suits_work(head, asked));
        let width = self.width.map_or(Outcome::Met, |width| match &head.work.width {
            Some(stated) => met(stated.nominal.si() >= width.si()),
            None => Outcome::NotKnown,
        });
        match (work, width) {
            (Outcome::NotMet, _) | (_, Outcome::NotMet) => Outcome::NotMet,
            (Outcome::Met, Outcome::Met) => Outcome::Met,
            _ => Outcome::NotKnown,
        }
    }

    /// Whether the pairing comes out as it must; the attachment itself is asked by [`Wanted::suits`].
    pub fn admits(&self, pairing: &Pairing) -> bool {
        self.verdict.is_none_or(|wanted| pairing.verdict == wanted)
            // What does not fit whatever is done needs no changes and is not meant by "at most two".
            && self.most_changes.is_none_or(|most| {
                pairing.verdict != Verdict::DoesNotFit && pairing.changes.len() <= most
            })
    }
}

fn met(holds: bool) -> Outcome {
    if holds { Outcome::Met } else { Outcome::NotMet }
}

fn suits_work(head: &Head, asked: &WorkAsked) -> Outcome {
    match (takes(&head.work.materials, &asked.material), asked.thickness) {
        (Takes::Others, _) => Outcome::NotMet,
        (Takes::Unsaid, _) | (Takes::Named(None), Some(_)) => Outcome::NotKnown,
        (Takes::Named(_), None) => Outcome::Met,
        (Takes::Named(Some(greatest)), Some(thickness)) => met(thickness.si() <= greatest.nominal.si()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Conditions, pair};
    use quantity::Named;

    fn demo() -> Table {
        table::read(include_str!("../../../public/table/demo.json")).table.expect("a table")
    }

    fn length(millimetres: f64) -> Length {
        Length::from_si(millimetres / 1000.0)
    }

    fn found(table: &Table, wanted: &Wanted) -> Vec<String> {
        table.heads.iter().filter(|head| wanted.suits(head) == Outcome::Met).map(|head| head.id.to_string()).collect()
    }

    #[test]
    fn the_diameter_decides_to_the_millimetre() {
        let table = demo();
        let asked = |mm| Wanted {
            work: Some(WorkAsked { material: "Stems".to_owned(), thickness: Some(length(mm)) }),
            ..Wanted::default()
        };
        let (takes_it, too_thick) = (found(&table, &asked(100.0)), found(&table, &asked(100.1)));
        assert!(takes_it.contains(&"thistlecut-r90".to_owned()) && !too_thick.contains(&"thistlecut-r90".to_owned()));
        assert!(too_thick.iter().all(|id| takes_it.contains(id)));
    }

    #[test]
    fn who_does_not_say_stays_in_and_who_names_others_goes() {
        let table = demo();
        let concrete = WorkAsked { material: "concrete".to_owned(), thickness: Some(length(200.0)) };
        let wanted = Wanted { work: Some(concrete), ..Wanted::default() };
        let outcome = |id: &str| wanted.suits(table.head(id).expect("an attachment"));
        assert_eq!(outcome("wrackline-b12"), Outcome::NotKnown, "named without a limit");
        assert_eq!(outcome("saltmarsh-p40"), Outcome::NotKnown, "names nothing");
        assert_eq!(outcome("wrackline-n160"), Outcome::NotMet, "names snow");
    }

    #[test]
    fn width_stock_kind_and_name_are_asked_together() {
        let table = demo();
        let wide = Wanted { width: Some(length(1500.0)), ..Wanted::default() };
        assert!(found(&table, &wide).contains(&"thistlecut-r150".to_owned()));
        let wide_flail = Wanted { kind: Some(HeadKind::Flail), ..wide };
        assert_eq!(found(&table, &wide_flail), ["wrackline-f160"]);
        assert!(found(&table, &Wanted { name: "160 wrack".to_owned(), ..wide_flail.clone() }).len() == 1);
        assert!(found(&table, &Wanted { name: "f161".to_owned(), ..wide_flail }).is_empty());
        let stocked = found(&table, &Wanted { in_stock: true, ..Wanted::default() });
        assert!(!stocked.is_empty() && stocked.len() < table.heads.len());
        assert!(stocked.iter().all(|id| table.head(id).is_some_and(|head| head.stock.is_some())));
    }

    #[test]
    fn at_most_so_many_changes_leaves_out_what_does_not_fit() {
        let table = demo();
        let (machine, conditions) = (table.carrier("quern-q27").expect("a machine"), Conditions::of_table(&table));
        let pairings: Vec<_> = table.heads.iter().map(|head| pair(machine, head, &conditions)).collect();
        for most in 0..4 {
            let wanted = Wanted { most_changes: Some(most), ..Wanted::default() };
            for pairing in &pairings {
                let expected = pairing.verdict != Verdict::DoesNotFit && pairing.changes.len() <= most;
                assert_eq!(wanted.admits(pairing), expected, "{} at most {most}", pairing.head.id);
            }
        }
        for &verdict in Verdict::ALL {
            let wanted = Wanted { verdict: Some(verdict), ..Wanted::default() };
            assert!(pairings.iter().all(|pairing| wanted.admits(pairing) == (pairing.verdict == verdict)));
        }
    }

    #[test]
    fn every_material_stands_once_in_order() {
        let all = materials(&demo());
        let names: Vec<_> = all.iter().map(|(name, _)| name.as_str()).collect();
        assert!(names.windows(2).all(|pair| pair[0] < pair[1]), "{names:?}");
        assert!(all.contains(&("stems".to_owned(), true)) && all.contains(&("concrete".to_owned(), false)));
    }
}
