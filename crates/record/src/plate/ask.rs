//! What is asked of a machine of one's own, and in which order.

use super::Figure;
use fit::{CheckId, Class, FactId, Outcome, Pairing, Verdict};
use quantity::{Mass, Named, Quantity, put_in_order};
use std::collections::BTreeMap;
use table::{Carrier, CarrierClass, Table};

/// What is read first: the facts that rule most heads out, and that decide with what the others must agree (common
/// practice, no published source).
const FIRST: [FactId; 3] = [FactId::CircuitFlow, FactId::CircuitRelief, FactId::CarrierMounting];

/// What pairings ask of the machine: the facts that keep a check open, what is read first and then the one that decides
/// most, each with the number of pairings that wait for it. A pairing that does not fit waits for nothing.
///
/// A check names what it misses with the deciding fact first, so the first counts whole, the second half, the third a
/// third, and so on: a fact that merely makes an answer finer comes behind one that makes it, and one that opens several
/// checks before one that opens a single one.
pub fn asked<'a>(pairings: impl IntoIterator<Item = &'a Pairing>) -> Vec<(FactId, usize)> {
    let mut tally: BTreeMap<FactId, (f64, usize)> = BTreeMap::new();
    for pairing in pairings.into_iter().filter(|pairing| pairing.verdict != Verdict::DoesNotFit) {
        let mut here: BTreeMap<(CheckId, FactId), f64> = BTreeMap::new();
        // What a change settles counts half: to read it may make the change unnecessary.
        for (checks, share) in [(pairing.open_checks(), 1.0), (pairing.checks.as_slice(), 0.5)] {
            for check in checks.iter().filter(|check| check.outcome == Outcome::NotKnown) {
                // What can hurt people comes first, and last what no verdict waits for.
                let weight = match check.class {
                    _ if !check.blocks => 0.01,
                    Class::Safety => 1.5,
                    Class::Damage | Class::Work => 1.0,
                };
                let of_machine = check.missing.iter().filter(|missing| missing.fact.is_of_machine());
                for (place, missing) in (1_u32..).zip(of_machine) {
                    let counts = here.entry((check.id, missing.fact)).or_default();
                    *counts = counts.max(share * weight / f64::from(place));
                }
            }
        }
        let mut facts: BTreeMap<FactId, f64> = BTreeMap::new();
        for ((_, fact), weight) in here {
            *facts.entry(fact).or_default() += weight;
        }
        for (fact, weight) in facts {
            let entry = tally.entry(fact).or_default();
            entry.0 += weight;
            entry.1 += 1;
        }
    }
    let first = |fact: &FactId| FIRST.iter().position(|first| first == fact).unwrap_or(FIRST.len());
    let mut facts: Vec<_> = tally.into_iter().collect();
    put_in_order(&mut facts, |(a, (x, _)), (b, (y, _))| {
        first(a).cmp(&first(b)).then_with(|| y.total_cmp(x)).then_with(|| a.cmp(b))
    });
    facts.into_iter().map(|(fact, (_, pairings))| (fact, pairings)).collect()
}

/// How many questions are asked before the answer. Every other one comes on a sheet, when it decides there.
const BEFORE_THE_ANSWER: usize = 6;

/// A question of the plate: the figures that answer it, and how many attachments wait for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// What is asked.
    pub fact: FactId,
    /// The figures, each followed by those that its answer opens.
    pub figures: Vec<Figure>,
    /// How many attachments wait for the answer.
    pub heads: usize,
}

/// The questions that decide most, the first one first: what stands on the machine's own plate is not among them.
pub fn questions(asked: &[(FactId, usize)]) -> Vec<Question> {
    let mut before = Figure::ON_THE_PLATE.to_vec();
    let mut questions = Vec::new();
    for &(fact, heads) in asked {
        let mut figures = figures(&[(fact, heads)]);
        figures.retain(|figure| !before.contains(figure));
        before.extend(&figures);
        // What another answer opens is asked with it.
        if figures.iter().any(|figure| figure.depends_on().is_none()) {
            questions.push(Question { fact, figures, heads });
        }
    }
    questions.truncate(BEFORE_THE_ANSWER);
    questions
}

/// The machine of a table that is nearest by mass among those of a class, for a first answer; none without figures of its own.
pub fn nearest(table: &Table, class: CarrierClass, mass: Mass) -> Option<&Carrier> {
    let apart = |carrier: &Carrier| {
        let of = carrier.operating_mass.as_ref().map(|stated| stated.nominal)?;
        Some((of.si() / mass.si()).ln().abs())
    };
    let of_class = table.carriers.iter().filter(|carrier| carrier.class == class && !carrier.generic);
    let weighed = of_class.filter_map(|carrier| Some((apart(carrier)?, carrier)));
    weighed.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, carrier)| carrier)
}

/// The figures to ask for, in the order of what they decide, each followed by those that depend on its answer. Facts that
/// no plate shows (leakage, override, losses of couplings and filter) are left to what practice assumes.
pub fn figures(asked: &[(FactId, usize)]) -> Vec<Figure> {
    let mut figures = Vec::new();
    for (fact, _) in asked {
        let facts: &[FactId] = match fact {
            // The engine's power is what a person can read of what the pumps may take; a circuit begins with its flow.
            FactId::PowerLimit => &[FactId::EnginePower],
            FactId::Circuit => &[FactId::CircuitFlow],
            // The return is asked for with what it loses.
            FactId::ReturnRoute => &[FactId::ReturnLoss],
            // What a hand holds stops with it.
            FactId::StopsAndStaysOff => &[FactId::Continuous, FactId::StopsAndStaysOff],
            // Either says what they bear.
            FactId::Coupling | FactId::CouplingRating => &[FactId::Coupling, FactId::CouplingRating],
            FactId::CouplingFlow => &[FactId::Coupling],
            // A rating holds at its place.
            FactId::Lifting | FactId::LiftChart | FactId::GreatestReach => &[FactId::Lifting, FactId::LiftGeometry],
            // Mounting and coupler of a plate are those of the end that its circuit feeds.
            FactId::MountingEnd | FactId::CouplerEnd => &[FactId::CircuitEnd],
            other => std::slice::from_ref(other),
        };
        for &fact in facts {
            add(&mut figures, |_, figure| figure.settles() == fact);
        }
        add(&mut figures, |before, figure| figure.depends_on().is_some_and(|(on, _)| before.contains(&on)));
    }
    figures
}

/// Adds the figures that are wanted and not there yet, in their order.
fn add(figures: &mut Vec<Figure>, wanted: impl Fn(&[Figure], Figure) -> bool) {
    for &figure in Figure::ALL {
        if !figures.contains(&figure) && wanted(figures, figure) {
            figures.push(figure);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit::{Conditions, pair};
    use std::collections::BTreeSet;

    const DEMO: &str = include_str!("../../../../public/table/demo.json");

    #[test]
    fn six_questions_at_most_come_before_the_answer_and_none_twice() {
        let table = table::read(DEMO).table.unwrap();
        let conditions = Conditions::of_table(&table);
        for &class in CarrierClass::ALL {
            let blank = super::super::Plate::blank("a".to_owned(), class, "mine".to_owned(), String::new());
            let machine = blank.read().carrier.unwrap();
            let pairings: Vec<_> = table.heads.iter().map(|head| pair(&machine, head, &conditions)).collect();
            let questions = questions(&asked(&pairings));
            assert!((3..=BEFORE_THE_ANSWER).contains(&questions.len()), "{class:?}: {questions:?}");
            assert!(questions[0].figures.contains(&Figure::Flow), "{class:?}: {questions:?}");
            assert!(questions.iter().all(|question| (1..=table.heads.len()).contains(&question.heads)));
            let all: Vec<_> = questions.iter().flat_map(|question| question.figures.clone()).collect();
            assert_eq!(
                all.iter().map(|figure| figure.name()).collect::<BTreeSet<_>>().len(),
                all.len(),
                "{class:?}: {all:?}"
            );
            assert!(!all.contains(&Figure::OperatingMass) && !all.contains(&Figure::EnginePower));
        }
    }

    #[test]
    fn the_nearest_machine_is_of_the_class_and_by_ratio_of_mass() {
        let table = table::read(DEMO).table.unwrap();
        let near =
            |class, kilograms| nearest(&table, class, Mass::from_si(kilograms)).map(|carrier| carrier.id.to_string());
        assert_eq!(near(CarrierClass::MiniExcavator, 2700.0).as_deref(), Some("quern-q27"));
        assert_eq!(near(CarrierClass::MidiExcavator, 2700.0).as_deref(), Some("quern-q65"));
        // 9 t is nearer to 9.76 t than to 8.44 t.
        assert_eq!(near(CarrierClass::MidiExcavator, 9300.0).as_deref(), Some("skerry-s98"));
    }
}
