//! Short names in drawings, and what each drawing says to who does not see it: sentences from the same data.

use super::Words;
use crate::pairing::schema::Part;

impl Words<'_> {
    /// The short name of a part in a drawing. Where its setting is written below the name leads on to it.
    pub fn part(&self, part: Part, pumps: usize, set: bool) -> String {
        let name = match part {
            Part::Tank => "tank",
            Part::Pump if pumps > 1 => return format!("{pumps} pumps"),
            Part::Pump => "pump",
            Part::First => "steering, brakes or pilot first",
            Part::Relief | Part::ToolRelief | Part::HeadRelief | Part::ReturnRelief if set => "relief at",
            Part::Relief | Part::ToolRelief | Part::HeadRelief | Part::ReturnRelief => "relief",
            Part::Functions => "functions",
            Part::Divider if set => "divider, first",
            Part::Divider => "divider",
            Part::Demand => "signal to the pump",
            Part::Spool if set => "spool, set to",
            Part::Spool => "spool",
            Part::ReverseLock => "reverse locked",
            Part::FlowLimit if set => "limited to",
            Part::FlowLimit => "flow limit",
            Part::Tool => "other tool",
            Part::ShutOff => "shut off",
            Part::Changeover => "changeover",
            Part::SupplyLine => "supply line",
            Part::ReturnLine => "return line",
            Part::MachineFilter | Part::OwnFilter => "filter",
            Part::MachineCooler | Part::OwnCooler => "cooler",
            Part::Diverter => "diverter",
            Part::DoorBlock => "valve block",
            Part::Door => "door",
            Part::Couplings => "couplings",
            Part::CaseLine => "case line",
            Part::CasePlug => "no case line",
            Part::OnOff => "on and off",
            Part::RunDownCheck => "run-down check",
            Part::Motor => "motor",
        };
        name.to_owned()
    }

    /// Where machine and attachment meet, on the attachment's side.
    pub fn border(&self) -> &'static str {
        "attachment"
    }

    /// What short dashes are.
    pub fn legend_drain(&self) -> &'static str {
        "drain or pilot line"
    }

    /// What dots are.
    pub fn legend_not_stated(&self) -> &'static str {
        "not stated by anybody"
    }

    /// What heavy lines are.
    pub fn legend_added(&self) -> &'static str {
        "added by the change of that number"
    }
}
