//! Why a number of a pairing is what it is, whichever it is.

use crate::check::reasoning;
use crate::cost::{reasoning_of_change, reasoning_of_cost};
use crate::point::{reasoning_of_brochure, reasoning_of_mark, reasoning_of_oil, reasoning_of_point};
use crate::reasoning::Reasoning;
use crate::setting::reasoning_of_setting;
use crate::whence::FigureId;
use fit::{Conditions, Load, OilState, Pairing, Stage};
use table::{Carrier, Head};

/// Why a number of a pairing is what it is. `carrier` is the machine as it is today: the same that was judged, with the same head and
/// conditions. None where there is no such number.
pub fn why(
    pairing: &Pairing,
    carrier: &Carrier,
    head: &Head,
    conditions: &Conditions,
    whence: FigureId,
) -> Option<Reasoning> {
    let circuit = pairing.circuit.as_ref();
    let machine = |stage: Stage| match stage {
        Stage::AsItIs => carrier,
        Stage::AfterChanges => pairing.changed.as_deref().unwrap_or(carrier),
    };
    match whence {
        FigureId::Check(check, stage) => reasoning(machine(stage), circuit, head, conditions, check),
        FigureId::Point(figure, stage) => {
            let at_work = (OilState::Working, Load::Working);
            reasoning_of_point(machine(stage), circuit, head, conditions, at_work, figure)
        }
        FigureId::Oil(figure, stage, temperature) => {
            reasoning_of_oil(machine(stage), circuit?, head, conditions, figure, temperature)
        }
        FigureId::Mark(check, stage, temperature) => {
            reasoning_of_mark(machine(stage), circuit?, head, conditions, check, temperature)
        }
        FigureId::Brochure(figure) => reasoning_of_brochure(carrier, circuit?, head, conditions, figure),
        FigureId::Setting(change, setting) => reasoning_of_setting(pairing, carrier, head, conditions, change, setting),
        FigureId::Change(change) => reasoning_of_change(pairing, conditions, change),
        FigureId::Cost => reasoning_of_cost(pairing),
    }
}
