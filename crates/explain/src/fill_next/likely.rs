//! What somebody who looks a fact up likely finds: its range of practice or of the class, at both ends and where most lie; of a yes or no
//! either answer.
//!
//! Nothing here enters a verdict that anybody is told: it is only tried how many pairings a fact would decide, so as to ask for the right
//! one first. All of it is common practice, no published source.

mod head;
mod machine;

use crate::deciding_fact::set;
use fit::assume::Practice;
use fit::{Conditions, FactId};
use quantity::{Amount, Interval, Quantity, Source, Spread, Stated, Unit, UnitSystem};
use table::{AssumptionId, Carrier, Head, Id};

/// Which of the likely answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// What most find.
    Likeliest,
    /// The low end of the range; of a yes or no the other answer.
    Low,
    /// The high end of the range.
    High,
}

impl Which {
    /// All of them, the likeliest first.
    pub const ALL: [Self; 3] = [Self::Likeliest, Self::Low, Self::High];

    /// One of low end, likeliest and high end.
    fn of<T>(self, low: T, likeliest: T, high: T) -> T {
        match self {
            Self::Likeliest => likeliest,
            Self::Low => low,
            Self::High => high,
        }
    }

    /// A figure of a range.
    fn within<Q: Quantity>(self, range: Interval<Q>) -> Stated<Q> {
        stated(self.of(range.low, range.nominal, range.high))
    }

    /// The likeliest of two answers, or the other one.
    fn either<T>(self, likeliest: T, other: T) -> T {
        if self == Self::Low { other } else { likeliest }
    }
}

/// A figure as it is read off.
fn stated<Q: Quantity>(nominal: Q) -> Stated<Q> {
    let unit = Unit::shown(Q::DIMENSION, UnitSystem::Metric);
    Stated { nominal, spread: Spread::Unstated, source: Source::Plate, unit }
}

/// A figure in a unit as it is read off.
fn figure<Q: Quantity>(value: f64, unit: Unit) -> Stated<Q> {
    stated(Q::from_si(unit.to_si(value)))
}

/// A machine with an attachment, and the circuit between them.
#[derive(Clone)]
pub struct Pair<'a> {
    /// The machine.
    pub carrier: Carrier,
    /// The attachment.
    pub head: Head,
    /// The circuit that is asked about.
    pub circuit: Id,
    /// Under which conditions it is judged.
    pub conditions: &'a Conditions,
}

impl Pair<'_> {
    fn practice(&self) -> Practice<'_> {
        Practice {
            overrides: &self.conditions.assumptions,
            class: self.carrier.class,
            head: self.head.kind,
            motor: self.head.motor.as_ref().and_then(|motor| motor.kind),
        }
    }

    fn range<Q: Quantity>(&self, id: AssumptionId) -> Option<Interval<Q>> {
        self.practice().range(id)
    }

    /// The pair with a fact as it is likely found; none where there is no such answer, or where it would be the likeliest once more.
    pub fn with(&self, fact: FactId, which: Which) -> Option<Self> {
        if let Some(yes) = yes_or_no(fact) {
            let said = match which {
                Which::Likeliest => yes,
                Which::Low => !yes,
                Which::High => return None,
            };
            let (carrier, head) = set::answer(&self.carrier, &self.head, &self.circuit, fact, said)?;
            return Some(Self { carrier, head, ..self.clone() });
        }
        if let Some(value) = self.value(fact, which) {
            let (carrier, head) = set::figure(&self.carrier, &self.head, &self.circuit, fact, value)?;
            return Some(Self { carrier, head, ..self.clone() });
        }
        let mut found = self.clone();
        if fact.is_of_machine() {
            found.set_machine(fact, which)?;
        } else {
            found.set_head(fact, which)?;
        }
        Some(found)
    }

    /// The likely value of a fact that is one figure of one place; none of any other.
    fn value(&self, fact: FactId, which: Which) -> Option<Amount> {
        let practice = |id| self.practice().stated(id).map(|range| which.of(range.low, range.nominal, range.high));
        let in_unit = |low: f64, likeliest: f64, high: f64, unit: Unit| {
            Some(Amount::from_si(unit.dimension(), unit.to_si(which.of(low, likeliest, high))))
        };
        // A share of another figure of the attachment, else of the middle of its kind.
        let share = |of: Option<f64>, low: f64, likeliest: f64, high: f64, unit: Unit| {
            Some(Amount::from_si(unit.dimension(), of? * which.of(low, likeliest, high)))
        };
        let head = &self.head;
        let flow = head.flow.rated.or(head.flow.greatest).or(head.flow.least).map(|flow| flow.nominal.si());
        match fact {
            FactId::OperatingMass => practice(AssumptionId::OperatingMass),
            FactId::CircuitFlow => practice(AssumptionId::CircuitFlow),
            FactId::CircuitRelief => practice(AssumptionId::CircuitRelief),
            FactId::EnginePower => practice(AssumptionId::EnginePower),
            FactId::ReactionTorque => practice(AssumptionId::ReactionTorque),
            FactId::OutletLimit => practice(AssumptionId::OutletLimit).or_else(|| in_unit(5.0, 15.0, 30.0, Unit::Bar)),
            FactId::CaseLimit => practice(AssumptionId::CaseLimit).or_else(|| in_unit(2.0, 3.0, 5.0, Unit::Bar)),
            // 20 to 40 bar above what the circuit's relief is set to.
            FactId::MainRelief => {
                let relief = self.carrier.circuit(&self.circuit).and_then(|circuit| circuit.relief);
                share(relief.map(|relief| relief.nominal.si()), 1.05, 1.15, 1.3, Unit::Bar)
            }
            // Two- to four-ply hoses of these bores (EN 853, EN 856).
            FactId::SupplyRating | FactId::ReturnRating => in_unit(215.0, 350.0, 420.0, Unit::Bar),
            FactId::CouplingRating => in_unit(200.0, 300.0, 350.0, Unit::Bar),
            FactId::CouplingFlow => {
                let circuit = self.carrier.circuit(&self.circuit).and_then(|circuit| circuit.flow);
                share(circuit.map(|flow| flow.nominal.si()), 0.8, 1.2, 2.0, Unit::LitrePerMinute)
            }
            FactId::SharedToolPressure => in_unit(150.0, 250.0, 350.0, Unit::Bar),
            FactId::CurlClearance => in_unit(0.4, 0.7, 1.2, Unit::Metre),
            FactId::CurlRadius => in_unit(0.4, 0.8, 1.4, Unit::Metre),
            FactId::CentreOfGravity => in_unit(0.25, 0.45, 0.9, Unit::Metre),
            FactId::HeadMass => {
                share(self.carrier.operating_mass.map(|mass| mass.nominal.si()), 0.02, 0.05, 0.1, Unit::Kilogram)
            }
            FactId::Payload => share(head.mass.map(|mass| mass.nominal.si()), 0.2, 0.7, 1.5, Unit::Kilogram),
            FactId::HeadLeastFlow => share(flow, 0.5, 0.75, 0.95, Unit::LitrePerMinute),
            FactId::HeadRatedFlow => share(flow, 0.8, 1.0, 1.2, Unit::LitrePerMinute),
            FactId::HeadGreatestFlow => share(flow, 1.1, 1.4, 1.8, Unit::LitrePerMinute),
            FactId::WorkingPressure => in_unit(110.0, 160.0, 210.0, Unit::Bar),
            FactId::HeadGreatestPressure => in_unit(200.0, 260.0, 350.0, Unit::Bar),
            FactId::HeadGreatestPower => {
                let pressure = head.pressure.working.map(|pressure| pressure.nominal.si());
                share(flow.zip(pressure).map(|(flow, pressure)| flow * pressure), 1.0, 1.3, 1.8, Unit::Kilowatt)
            }
            _ => None,
        }
    }
}

/// What most find of a fact that is a yes or no; none of any other.
fn yes_or_no(fact: FactId) -> Option<bool> {
    match fact {
        FactId::SharedTools | FactId::CanBeShut | FactId::Vibrating => Some(false),
        FactId::NeedsCaseLine
        | FactId::RunDownCheck
        | FactId::CasePort
        | FactId::CaseLine
        | FactId::CouplerSecured
        | FactId::FedFrom
        | FactId::StopsAndStaysOff
        | FactId::UnloadsWhenOff
        | FactId::DemandSignal
        | FactId::ReturnFilter
        | FactId::CouplingScrewed
        | FactId::DividerOff
        | FactId::DividerRelief => Some(true),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Named;

    /// What no verdict waits for, and what this machine with this attachment has none of: a divider, a locked setting it lacks.
    const NONE: [FactId; 12] = [
        FactId::Circuit,
        FactId::TankVolume,
        FactId::CoolerConductance,
        FactId::ThroughCooler,
        FactId::Functions,
        FactId::Continuous,
        FactId::TravelSpeed,
        FactId::HeadWork,
        FactId::HeadRelief,
        FactId::DividerOff,
        FactId::DividerRelief,
        FactId::CaseLineSize,
    ];

    #[test]
    fn every_fact_that_a_verdict_waits_for_has_a_likely_answer() {
        let table = table::read(include_str!("../../../../public/table/demo.json")).table.expect("the demo table");
        let conditions = Conditions::of_table(&table);
        let (carrier, head) = (table.carrier("quern-q56").expect("it"), table.head("thistlecut-r90").expect("it"));
        let mut carrier = carrier.clone();
        carrier.case_line = None;
        let circuit = carrier.circuits[0].id.clone();
        let pair = Pair { carrier, head: head.clone(), circuit, conditions: &conditions };
        for &fact in FactId::ALL.iter().filter(|fact| fact.has_field()) {
            let answers = Which::ALL.iter().filter(|&&which| pair.with(fact, which).is_some()).count();
            let expected = !NONE.contains(&fact) && !matches!(fact, FactId::CasePort);
            assert_eq!(answers > 0, expected, "{}", fact.name());
        }
    }
}
