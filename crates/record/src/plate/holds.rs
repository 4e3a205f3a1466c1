//! How far a typed figure may be off before the answer changes. A wrong figure is worse than a missing one.

use super::{Answer, Figure, Plate};
use fit::{Conditions, Judge};
use quantity::{
    Amount, AngularVelocity, Dimension, ElectricCurrent, ElectricPotential, Length, Mass, Named, Power, Pressure,
    Quantity, Source, Spread, Stated, Unit, Until, VolumeRate, halved, text,
};
use table::Head;

/// How far to look on each side, in steps, as shares of the figure: what is off by more is another machine.
const STEPS: [f64; 5] = [0.02, 0.05, 0.10, 0.20, 0.40];
/// How often the last step is halved: to a fortieth of it at worst.
const HALVINGS: u32 = 5;
/// How far a reading may be off that says nothing of it: what a gauge, a tape or a scale in a workshop does (common practice, no
/// published source).
const INSTRUMENT: f64 = 0.02;

/// How far a figure may be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holds {
    /// The figure.
    pub figure: Figure,
    /// The least with which the answer stays; none where it stays with 40 % less.
    pub from: Option<Amount>,
    /// The greatest with which it stays; none where it stays with 40 % more.
    pub to: Option<Amount>,
    /// Whether a point where it changes lies within the error of what it was read with: it is to be read again.
    pub again: bool,
}

impl Plate {
    /// The typed figures of which it can be said how far they may be off.
    pub fn weighed(&self) -> Vec<Figure> {
        let is_read = |figure: &Figure| self.applies(*figure) && self.value_of(*figure).is_some();
        Figure::ALL.iter().copied().filter(is_read).collect()
    }

    /// How far a typed figure may be off before verdict or price of an attachment change, all else as it is; none where it is no figure
    /// with a unit. Some twenty verdicts are solved for it.
    pub fn holds(&self, figure: Figure, head: &Head, conditions: &Conditions) -> Option<Holds> {
        let value = self.value_of(figure)?;
        let judge = Judge::new(conditions);
        let answer = |share: f64| {
            let mut other = self.clone();
            other.write(figure, &format!("{} {}", value.unit.of_si(value.si * (1.0 + share)), value.unit.name()));
            Some(judge.cost(&other.read().carrier?, head))
        };
        let now = answer(0.0)?;
        let stays = |share: f64| answer(share).is_none_or(|then| then == now);
        let side = |sign: f64| {
            let at = STEPS.iter().position(|&step| !stays(sign * step))?;
            let same = if at == 0 { 0.0 } else { STEPS[at - 1] };
            Some(sign * halved((STEPS[at], same), Until::Rounds(HALVINGS), |share| stays(sign * share)).1)
        };
        let (down, up) = (side(-1.0), side(1.0));
        let amount = |share: f64| Amount::from_si(value.dimension, value.si * (1.0 + share));
        let again = [down, up].into_iter().flatten().any(|share| share.abs() <= value.error);
        Some(Holds { figure, from: down.map(amount), to: up.map(amount), again })
    }

    /// A figure as it is read; none where it is no single figure with a unit.
    fn value_of(&self, figure: Figure) -> Option<Value> {
        let Answer::Quantity(dimension) = figure.answer() else { return None };
        // What names no source was read off the machine.
        let typed = text::with_points(self.typed(figure).trim());
        let typed = if typed.contains('(') { typed } else { format!("{typed} (plate)") };
        match dimension {
            Dimension::Mass => Value::read::<Mass>(&typed),
            Dimension::Power => Value::read::<Power>(&typed),
            Dimension::RotationalSpeed => Value::read::<AngularVelocity>(&typed),
            Dimension::Flow => Value::read::<VolumeRate>(&typed),
            Dimension::Pressure => Value::read::<Pressure>(&typed),
            Dimension::Length => Value::read::<Length>(&typed),
            Dimension::Voltage => Value::read::<ElectricPotential>(&typed),
            Dimension::Current => Value::read::<ElectricCurrent>(&typed),
            _ => None,
        }
    }
}

/// A figure as it is read.
struct Value {
    si: f64,
    unit: Unit,
    dimension: Dimension,
    /// How far it may be off, as a share.
    error: f64,
}

impl Value {
    fn read<Q: Quantity>(typed: &str) -> Option<Self> {
        let stated: Stated<Q> = text::read(typed).ok()?;
        let si = stated.nominal.si();
        let error = match stated.spread {
            Spread::Relative(tolerance) => tolerance.minus.max(tolerance.plus),
            Spread::Range { low, high } => ((si - low.si()).max(high.si() - si) / si).abs(),
            // What a maker prints is no reading.
            Spread::Unstated if stated.source == Source::Published => 0.0,
            Spread::Unstated => INSTRUMENT,
        };
        Some(Self { si, unit: stated.unit, dimension: Q::DIMENSION, error })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit::{Judge, Verdict};

    const DEMO: &str = include_str!("../../../../public/table/demo.json");

    fn mass(head: &Head) -> f64 {
        head.mass.as_ref().map_or(0.0, |mass| mass.nominal.si())
    }

    fn like() -> Plate {
        Plate::like(DEMO, "quern-q27", ("a1".to_owned(), "Mine".to_owned(), String::new())).unwrap()
    }

    #[test]
    fn a_figure_that_decides_says_from_where_to_where_it_holds() {
        let table = table::read(DEMO).table.unwrap();
        let conditions = Conditions::of_table(&table);
        let plate = like();
        let judge = Judge::new(&conditions);
        let (mut bounded, mut unbounded) = (0, 0);
        let machine = plate.read().carrier.unwrap();
        let works = table.heads.iter().filter(|head| judge.verdict(&machine, head) <= Verdict::FitsAfterChanges);
        for head in works.take(1) {
            let now = judge.cost(&machine, head);
            for figure in plate.weighed().into_iter().step_by(2) {
                let holds = plate.holds(figure, head, &conditions).unwrap();
                let with = |amount: Amount, share: f64| {
                    let mut other = plate.clone();
                    let value = plate.value_of(figure).unwrap();
                    other.write(
                        figure,
                        &format!("{} {}", value.unit.of_si(amount.si() * (1.0 + share)), value.unit.name()),
                    );
                    judge.cost(&other.read().carrier.unwrap(), head)
                };
                for (end, outwards) in [(holds.from, -1.0), (holds.to, 1.0)] {
                    match end {
                        // It holds at the end that is named, and no longer a little beyond.
                        Some(end) => {
                            bounded += 1;
                            assert_eq!(with(end, 0.0), now, "{figure:?} on {}", head.id);
                            assert!(
                                (1..=8).any(|step| with(end, outwards * 0.002 * f64::from(step)) != now),
                                "{figure:?} on {}",
                                head.id
                            );
                        }
                        None => unbounded += 1,
                    }
                }
            }
        }
        assert!(bounded > 5 && unbounded > 5, "{bounded} {unbounded}");
    }

    #[test]
    fn what_lies_within_the_error_of_its_reading_is_to_be_read_again() {
        let table = table::read(DEMO).table.unwrap();
        let conditions = Conditions::of_table(&table);
        let mut plate = like();
        let (judge, machine) = (Judge::new(&conditions), plate.read().carrier.unwrap());
        let works = |head: &&Head| judge.verdict(&machine, head) <= Verdict::FitsAfterChanges;
        let head = table.heads.iter().filter(works).max_by(|a, b| mass(a).total_cmp(&mass(b))).unwrap();
        let all = plate.weighed();
        let bounded = |figure: &Figure| {
            plate.holds(*figure, head, &conditions).is_some_and(|holds| holds.from.is_some() && holds.to.is_none())
        };
        let figure = all.into_iter().find(bounded).expect("some figure decides");
        let holds = plate.holds(figure, head, &conditions).unwrap();
        assert!(!holds.again, "what a maker prints is no reading");
        let unit = plate.value_of(figure).unwrap().unit;
        let from = holds.from.unwrap().si();
        let mut again = |share: f64, spread: &str| {
            plate.write(figure, &format!("{} {}{spread}", unit.of_si(from * (1.0 + share)), unit.name()));
            plate.holds(figure, head, &conditions).unwrap().again
        };
        assert!(again(0.002, ""));
        assert!(!again(0.06, ""));
        assert!(again(0.06, " ±10 %"));
    }
}
