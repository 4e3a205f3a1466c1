//! Another tool on the same spool: while the head works, and after switch-back.

use crate::facts::{Facts, limit};
use crate::judge::{missing, yes_no};
use crate::question::{Finding, Findings, Question, Reading};
use crate::sample::{End, Parameter};
use crate::{Bound, Cause, CheckId, Class, FactId, Outcome, Reason};
use quantity::Pressure;
use table::SharedTool;

fn no_figures<'f>(id: CheckId, outcome: Outcome, reason: Reason) -> Finding<'f> {
    yes_no(id, Class::Safety, outcome, reason, &[]).into()
}

/// What the relief lets through against what a tool is rated for, at the upper tolerance.
fn gets_relief<'f>(id: CheckId, relief: &'f Parameter<Pressure>, tool: &SharedTool) -> Finding<'f> {
    let greatest = limit(FactId::SharedToolPressure, tool.greatest_pressure.as_ref());
    let question = Question { id, class: Class::Safety, blocks: true, bound: Bound::AtMost };
    question.asks(move |sample| {
        Reading::new(sample.take(relief, End::High), sample.take(&greatest, End::Low), Cause::OtherTool)
    })
}

/// While the head works: a tool that is not shut off gets what the head gets, unless it has a relief of its own. (At that relief's
/// pressure the head's work then ends, which the pressure check counts; what must be rated for the pressure takes no credit for it.)
pub fn shared<'f>(facts: &'f Facts) -> Findings<'f> {
    let id = CheckId::SharedTool;
    let Some(tools) = facts.shared_with() else {
        return missing(id, Class::Safety, &[FactId::SharedTools]).into();
    };
    if tools.is_empty() {
        return no_figures(id, Outcome::Met, Reason::NoOtherTool).into();
    }
    let find = |tool| match (facts.tool_shut_off(tool), facts.tool_relieved(tool)) {
        (Some(true), _) => no_figures(id, Outcome::Met, Reason::ToolShutOff),
        (_, Some(true)) => no_figures(id, Outcome::Met, Reason::ToolRelieved),
        _ => gets_relief(id, &facts.protection, tool),
    };
    tools.iter().map(find).collect()
}

/// Back to the bucket the tool is on its lines again, whatever shuts it off while the head works: it must be rated for the relief as
/// that then stands, or have one of its own. A divider must be vented, never capped: its spring would shut the machine's
/// functions off (balance of forces on such a spool); for the same reason its port needs a relief, on or off.
pub fn off<'f>(facts: &'f Facts) -> Findings<'f> {
    let id = CheckId::AttachmentOff;
    let open = |fact| missing(id, Class::Safety, &[fact]).into();
    let mut findings = Findings::new();
    match facts.shared_with() {
        None => findings.push(open(FactId::SharedTools)),
        Some(tools) => {
            let exposed = tools.iter().filter(|tool| facts.tool_relieved(tool) != Some(true));
            findings.extend(exposed.map(|tool| gets_relief(id, &facts.valve_relief, tool)));
        }
    }
    if let Some(divider) = facts.divider() {
        findings.push(match facts.divider_vented(divider) {
            Some(true) => no_figures(id, Outcome::Met, Reason::OffAsBefore),
            Some(false) => no_figures(id, Outcome::NotMet, Reason::DividerCapped),
            None => open(FactId::DividerOff),
        });
        findings.push(match facts.divider_relieved(divider) {
            Some(true) => no_figures(id, Outcome::Met, Reason::OffAsBefore),
            Some(false) => no_figures(id, Outcome::NotMet, Reason::DividerUnrelieved),
            None => open(FactId::DividerRelief),
        });
    }
    if findings.is_empty() { no_figures(id, Outcome::Met, Reason::OffAsBefore).into() } else { findings }
}
