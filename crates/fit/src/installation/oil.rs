//! The installation with its oil at any one temperature: what the thermometer on the sheet moves.

use super::Installation;
use super::states::balanced;
use crate::sample::{Corner, End, Sample};
use crate::{Bound, CheckId, Conditions, FactId, Load, Outcome, checks};
use hydraulics::balance::Balanced;
use hydraulics::oil::OilWarning;
use quantity::{Amount, ThermodynamicTemperature};

/// A check with the oil at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilMark {
    /// The check.
    pub check: CheckId,
    /// How it comes out.
    pub outcome: Outcome,
    /// Its margin, where it has one.
    pub margin: Option<f64>,
    /// On which side of its limit it is right.
    pub bound: Option<Bound>,
}

/// An installation with its oil at a temperature. What cannot be said is absent.
#[derive(Clone, Debug, PartialEq)]
pub struct OilReading {
    /// The temperature.
    pub temperature: Amount,
    /// The oil's viscosity there, at the likely grade.
    pub viscosity: Option<Amount>,
    /// What is to be said against the oil at this temperature.
    pub warnings: Vec<OilWarning>,
    /// Flow through the head at work; nothing when it stalls.
    pub flow: Option<Amount>,
    /// Whether it stands still at work.
    pub stalls: bool,
    /// Pressure at the pumps at work.
    pub pump: Option<Amount>,
    /// Pressure at the motor's outlet, free running: the flow is greatest then.
    pub back_pressure: Option<Amount>,
    /// Pressure in the motor's housing, free running, where it has a line of its own.
    pub case_pressure: Option<Amount>,
    /// The checks that the oil has a say in.
    pub marks: Vec<OilMark>,
}

/// The checks that change with the oil's temperature.
const BY_OIL: [CheckId; 5] =
    [CheckId::FlowWindow, CheckId::Pressure, CheckId::Power, CheckId::BackPressure, CheckId::CasePressure];

impl Installation<'_> {
    /// The installation with its oil at a temperature.
    pub fn at_oil(&self, temperature: ThermodynamicTemperature) -> OilReading {
        let facts = self.facts();
        let sample = Sample::new(Corner::Likely);
        let (_, at_work) = balanced(&facts, &sample, Load::Working, temperature);
        let known = sample.missing().is_empty();
        let (_, free) = balanced(&facts, &sample, Load::Free, temperature);
        let free_known = sample.missing().is_empty();
        let oil = Sample::new(Corner::Likely);
        let grade = oil.take(&facts.oil, End::High);
        let grade = (!oil.missing().contains(&FactId::OilGrade)).then(|| facts.oil_curve(grade));
        let (stalls, at) = match at_work {
            Balanced::Turns(at) => (false, Some(at)),
            Balanced::Stalls(at) => (true, Some(at)),
            Balanced::NoSuchPoint => (true, None),
        };
        let at = at.filter(|_| known);
        let free = match free {
            Balanced::Turns(at) if free_known => Some(at),
            _ => None,
        };
        let pumps = |at: &hydraulics::Operating| {
            let source = facts.source(&sample, crate::facts::Extreme::LeastFlow);
            source.pump_pressure(at.supply)
        };
        OilReading {
            temperature: Amount::of(temperature),
            viscosity: grade.as_ref().map(|curve| Amount::of(curve.viscosity(temperature))),
            warnings: grade.map(|curve| curve.warnings(temperature)).unwrap_or_default(),
            flow: at.map(|at| Amount::of(at.flow)),
            stalls: known && stalls,
            pump: at.as_ref().map(|at| Amount::of(pumps(at))),
            back_pressure: free.map(|at| Amount::of(at.outlet)),
            case_pressure: free.and_then(|at| at.case).map(Amount::of),
            marks: self.marks(temperature),
        }
    }

    /// How the checks come out with the oil at just this temperature.
    fn marks(&self, temperature: ThermodynamicTemperature) -> Vec<OilMark> {
        let conditions = Conditions { hot: temperature, ..self.conditions.clone() };
        let here = Installation { conditions: &conditions, ..*self };
        let facts = here.facts();
        BY_OIL
            .iter()
            .map(|&id| {
                let check = checks::check(id, &facts, temperature);
                OilMark { check: id, outcome: check.outcome, margin: check.margin, bound: check.bound }
            })
            .collect()
    }
}
