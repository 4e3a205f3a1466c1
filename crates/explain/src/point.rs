//! Why a figure of an operating point, of the oil at a temperature, or of a brochure's comparison is what it is.

use crate::check::{judged_from, of_name};
use crate::formula;
use crate::reasoning::{Conclusion, Reasoning};
use crate::whence::{BrochureFigure, OilFigure, PointFigure};
use fit::facts::Facts;
use fit::installation::Installation;
use fit::installation::states::{balanced, powers_by, temperature_of};
use fit::sample::{Corner, End, Sample};
use fit::trace::Worked;
use fit::{CheckId, Conditions, Load, OilState, Stage, points, unknown_circuit};
use hydraulics::balance::Balanced;
use hydraulics::{Circuit, Operating};
use quantity::{Amount, ThermodynamicTemperature};
use table::{Carrier, Head, Id};

/// How a figure of a solved operating point was worked out.
pub fn reasoning_of_point(
    carrier: &Carrier,
    circuit: Option<&Id>,
    head: &Head,
    conditions: &Conditions,
    (oil, load): (OilState, Load),
    figure: PointFigure,
) -> Option<Reasoning> {
    let unknown = unknown_circuit();
    let circuit = of_name(carrier, circuit, &unknown)?;
    let facts = Facts::gather(carrier, circuit, head, conditions);
    let (point, inputs) = facts.with_inputs(|facts| {
        let point = points::point(facts, Stage::AsItIs, oil, load);
        let sample = facts.sample(Corner::Likely);
        let (solved, balanced) = balanced(facts, &sample, load, temperature_of(facts, oil));
        if let Balanced::Turns(at) | Balanced::Stalls(at) = &balanced {
            on_the_way(facts, &sample, &solved, at, figure);
        }
        point
    });
    let value = match figure {
        PointFigure::Flow => point.flow,
        PointFigure::PumpPressure => point.pump_pressure,
        PointFigure::HeadInlet => point.head_inlet,
        PointFigure::HeadOutlet => point.head_outlet,
        PointFigure::CasePressure => point.case_pressure,
        PointFigure::RotorSpeed => point.rotor_speed,
        PointFigure::ShaftPower => point.shaft_power,
        PointFigure::Heat => point.heat,
    };
    Some(Reasoning::new(None, formula::of_point(figure, load), inputs, &facts.practice, Conclusion::figure(value)))
}

/// Notes what is worked out on the way to a figure of a solved point.
fn on_the_way(facts: &Facts, sample: &Sample, solved: &Circuit, at: &Operating, figure: PointFigure) {
    match figure {
        PointFigure::Flow => {}
        PointFigure::PumpPressure | PointFigure::HeadInlet | PointFigure::HeadOutlet => {
            sample.step(Worked::FlowAtWork, at.flow);
        }
        PointFigure::CasePressure => {
            sample.step(Worked::LeakedFlow, at.flow - solved.returned(at.flow));
        }
        PointFigure::RotorSpeed => {
            sample.step(Worked::FlowAtWork, at.flow);
            facts.motor(sample);
        }
        PointFigure::ShaftPower | PointFigure::Heat => {
            sample.step(Worked::FlowAtWork, at.flow);
            sample.step(Worked::PumpPressure, solved.source.pump_pressure(at.supply));
            powers_by(facts, sample, solved, at);
        }
    }
}

/// How a figure at one temperature of the oil was worked out; none where the machine has no such circuit, or the figure cannot be said.
pub fn reasoning_of_oil(
    carrier: &Carrier,
    circuit: &Id,
    head: &Head,
    conditions: &Conditions,
    figure: OilFigure,
    temperature: ThermodynamicTemperature,
) -> Option<Reasoning> {
    let circuit = carrier.circuit(circuit)?;
    let facts = Facts::gather(carrier, circuit, head, conditions);
    let (value, inputs) = facts.with_inputs(|facts| at_temperature(facts, figure, temperature));
    Some(Reasoning::new(None, formula::of_oil(figure), inputs, &facts.practice, Conclusion::figure(Some(value?))))
}

/// A figure at one temperature of the oil, at likely figures; none where something is missing.
fn at_temperature(facts: &Facts, figure: OilFigure, temperature: ThermodynamicTemperature) -> Option<Amount> {
    let sample = facts.sample(Corner::Likely);
    let at = |load: Load, figure: PointFigure| {
        let (solved, balanced) = balanced(facts, &sample, load, temperature);
        let (Balanced::Turns(at) | Balanced::Stalls(at)) = balanced else { return None };
        if load == Load::Free {
            sample.step(Worked::FlowFree, at.flow);
        } else {
            on_the_way(facts, &sample, &solved, &at, figure);
        }
        if figure == PointFigure::CasePressure {
            sample.step(Worked::LeakedFlow, at.flow - solved.returned(at.flow));
        }
        Some((solved, at))
    };
    let value = match figure {
        OilFigure::Viscosity => {
            let grade = sample.take(&facts.oil, End::High);
            Some(Amount::of(facts.oil_curve(grade).viscosity(temperature)))
        }
        OilFigure::Flow => at(Load::Working, PointFigure::Flow).map(|(_, at)| Amount::of(at.flow)),
        OilFigure::Pump => at(Load::Working, PointFigure::PumpPressure)
            .map(|(solved, at)| Amount::of(solved.source.pump_pressure(at.supply))),
        OilFigure::BackPressure => at(Load::Free, PointFigure::HeadOutlet).map(|(_, at)| Amount::of(at.outlet)),
        OilFigure::CasePressure => {
            at(Load::Free, PointFigure::CasePressure).and_then(|(_, at)| at.case).map(Amount::of)
        }
    };
    value.filter(|_| !sample.lacks())
}

/// How a check comes out with the oil at just one temperature; none when the machine has no such circuit.
pub fn reasoning_of_mark(
    carrier: &Carrier,
    circuit: &Id,
    head: &Head,
    conditions: &Conditions,
    check: CheckId,
    temperature: ThermodynamicTemperature,
) -> Option<Reasoning> {
    let circuit = carrier.circuit(circuit)?;
    let conditions = Conditions { hot: temperature, ..conditions.clone() };
    Some(judged_from(carrier, circuit, head, &conditions, check, Some(temperature)))
}

/// How what is left of a brochure's figure was worked out; none where the brochure cannot be compared.
pub fn reasoning_of_brochure(
    carrier: &Carrier,
    circuit: &Id,
    head: &Head,
    conditions: &Conditions,
    figure: BrochureFigure,
) -> Option<Reasoning> {
    let installation = Installation::new(carrier, circuit, head, conditions)?;
    let (brochure, inputs) = installation.brochure_with_inputs();
    let brochure = brochure?;
    let gap = match figure {
        BrochureFigure::Flow => brochure.flow,
        BrochureFigure::Pressure => brochure.pressure,
    };
    let conclusion = Conclusion::figure(Some(gap.gives));
    Some(Reasoning::new(None, formula::of_brochure(figure), inputs, &installation.practice(), conclusion))
}
