//! Why a figure of an operating point, of the oil at a temperature, or of a brochure's comparison is what it is.

use crate::check::{judged_from, of_name};
use crate::formula;
use crate::reasoning::{Conclusion, Reasoning};
use crate::whence::{BrochureFigure, OilFigure, PointFigure};
use fit::draw::{Corner, Draw, Side};
use fit::facts::Facts;
use fit::installation::Installation;
use fit::installation::states::{balanced, powers_by, temperature_of};
use fit::judge::Depth;
use fit::trace::{Trace, Worked};
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
    let trace = Trace::default();
    let mut facts = Facts::gather(carrier, circuit, head, conditions);
    facts.depth = Depth::Recorded(&trace);
    let point = points::point(&facts, Stage::AsItIs, oil, load);
    let draw = facts.draw(Corner::Likely);
    let (solved, balanced) = balanced(&facts, &draw, load, temperature_of(&facts, oil));
    if let Balanced::Turns(at) | Balanced::Stalls(at) = &balanced {
        on_the_way(&facts, &draw, &solved, at, figure);
    }
    let practice = facts.practice;
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
    Some(Reasoning::new(None, formula::of_point(figure, load), trace.all(), &practice, Conclusion::figure(value)))
}

/// Notes what is worked out on the way to a figure of a solved point.
fn on_the_way(facts: &Facts, draw: &Draw, solved: &Circuit, at: &Operating, figure: PointFigure) {
    match figure {
        PointFigure::Flow => {}
        PointFigure::PumpPressure | PointFigure::HeadInlet | PointFigure::HeadOutlet => {
            draw.works_out(Worked::FlowAtWork, at.flow);
        }
        PointFigure::CasePressure => {
            draw.works_out(Worked::LeakedFlow, at.flow - solved.returned(at.flow));
        }
        PointFigure::RotorSpeed => {
            draw.works_out(Worked::FlowAtWork, at.flow);
            facts.motor(draw);
        }
        PointFigure::ShaftPower | PointFigure::Heat => {
            draw.works_out(Worked::FlowAtWork, at.flow);
            draw.works_out(Worked::PumpPressure, solved.source.pump_pressure(at.supply));
            powers_by(facts, draw, solved, at);
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
    let circuit = carrier.circuits.iter().find(|known| known.id == *circuit)?;
    let trace = Trace::default();
    let mut facts = Facts::gather(carrier, circuit, head, conditions);
    facts.depth = Depth::Recorded(&trace);
    let draw = facts.draw(Corner::Likely);
    let at = |load: Load, figure: PointFigure| {
        let (solved, balanced) = balanced(&facts, &draw, load, temperature);
        let (Balanced::Turns(at) | Balanced::Stalls(at)) = balanced else { return None };
        if load == Load::Free {
            draw.works_out(Worked::FlowFree, at.flow);
        } else {
            on_the_way(&facts, &draw, &solved, &at, figure);
        }
        if figure == PointFigure::CasePressure {
            draw.works_out(Worked::LeakedFlow, at.flow - solved.returned(at.flow));
        }
        Some((solved, at))
    };
    let value = match figure {
        OilFigure::Viscosity => {
            let grade = draw.take(&facts.oil, Side::High);
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
    let value = value.filter(|_| draw.missing().is_empty())?;
    let practice = facts.practice;
    Some(Reasoning::new(None, formula::of_oil(figure), trace.all(), &practice, Conclusion::figure(Some(value))))
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
    let circuit = carrier.circuits.iter().find(|known| known.id == *circuit)?;
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
    let trace = Trace::default();
    let installation = Installation::new(carrier, circuit, head, conditions)?;
    let brochure = installation.brochure_heard(Depth::Recorded(&trace))?;
    let practice = installation.practice();
    let gap = match figure {
        BrochureFigure::Flow => brochure.flow,
        BrochureFigure::Pressure => brochure.pressure,
    };
    let formulas = formula::of_brochure(figure);
    Some(Reasoning::new(None, formulas, trace.all(), &practice, Conclusion::figure(Some(gap.gives))))
}
