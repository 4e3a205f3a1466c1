//! Another tool on the same spool: while the head works, and after switch-back.

use crate::draw::{Parameter, Side};
use crate::facts::{Facts, limit};
use crate::judge::{Question, Reading, missing, worst_of, yes_no};
use crate::trace::{Context, Counted};
use crate::{Bound, Cause, Check, CheckId, Class, FactId, Outcome, Reason};
use quantity::Pressure;
use table::SharedTool;

fn no_figures(id: CheckId, outcome: Outcome, reason: Reason) -> Check {
    yes_no(id, Class::Safety, outcome, reason, &[])
}

/// What the relief lets through against what a tool bears, at the upper tolerance.
fn bears(facts: &Facts, id: CheckId, relief: &Parameter<Pressure>, tool: &SharedTool) -> Check {
    let greatest = limit(FactId::SharedToolPressure, tool.greatest_pressure.as_ref());
    let question = Question { id, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    question.judge(facts.depth, |draw| Reading {
        value: draw.take(relief, Side::High),
        limit: draw.take(&greatest, Side::Low),
        because: Cause::OtherTool,
    })
}

/// While the head works: a tool that is not shut off gets what the head gets, unless it has a relief of its own. (At that relief's
/// pressure the head's work then ends, which the pressure check counts; what must be rated for the pressure takes no credit for it.)
pub fn shared(facts: &Facts) -> Check {
    let id = CheckId::SharedTool;
    let Some(tools) = &facts.circuit.shared_with else {
        return missing(id, Class::Safety, &[facts.lacks(FactId::SharedTools)]);
    };
    facts.see_context(Context::OtherTools, Counted(tools.len()));
    let judged = tools.iter().map(|tool| {
        match (
            facts.see_context(Context::ToolShutOff, tool.isolated),
            facts.see_context(Context::ToolRelief, tool.own_relief),
        ) {
            (Some(true), _) => no_figures(id, Outcome::Met, Reason::ToolShutOff),
            (_, Some(true)) => no_figures(id, Outcome::Met, Reason::ToolRelieved),
            _ => bears(facts, id, &facts.protection, tool),
        }
    });
    let judged: Vec<_> = judged.collect();
    if judged.is_empty() { no_figures(id, Outcome::Met, Reason::NoOtherTool) } else { worst_of(judged) }
}

/// After switch-back the tool is on its lines again, whatever shuts it off while the head works: it must bear the relief as
/// that then stands, or have one of its own. A divider must be vented, never capped: its spring would shut the machine's
/// functions off (balance of forces on such a spool); for the same reason its port needs a relief, on or off.
pub fn off(facts: &Facts) -> Check {
    let id = CheckId::AttachmentOff;
    let mut judged = Vec::new();
    match &facts.circuit.shared_with {
        None => judged.push(missing(id, Class::Safety, &[facts.lacks(FactId::SharedTools)])),
        Some(tools) => {
            facts.see_context(Context::OtherTools, Counted(tools.len()));
            let relieved = |tool: &SharedTool| facts.see_context(Context::ToolRelief, tool.own_relief) == Some(true);
            let exposed = tools.iter().filter(|tool| !relieved(tool));
            judged.extend(exposed.map(|tool| bears(facts, id, &facts.valve_relief, tool)));
        }
    }
    facts.see_context(Context::Divider, facts.circuit.divider.is_some());
    if let Some(divider) = &facts.circuit.divider {
        let duties = [
            (divider.vented_when_off, Reason::DividerCapped, FactId::DividerOff),
            (divider.port_relief, Reason::DividerUnrelieved, FactId::DividerRelief),
        ];
        judged.extend(duties.map(|(done, otherwise, fact)| match facts.see(fact, done) {
            Some(true) => no_figures(id, Outcome::Met, Reason::OffAsBefore),
            Some(false) => no_figures(id, Outcome::NotMet, otherwise),
            None => missing(id, Class::Safety, &[fact]),
        }));
    }
    if judged.is_empty() { no_figures(id, Outcome::Met, Reason::OffAsBefore) } else { worst_of(judged) }
}
