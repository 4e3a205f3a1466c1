//! Short names in drawings. What a drawing says to who does not see it stands in `drawing_text`.

use super::Words;
use super::reasons::cause;
use fit::{Bound, Check, Reason};
use quantity::Amount;
use workshop::schema::Part;

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
            Part::Divider if set => "divider at",
            Part::Divider => "divider",
            Part::Demand => "signal to the pump",
            Part::Spool if set => "spool at",
            Part::Spool => "spool",
            Part::ReverseLock => "reverse locked",
            Part::FlowLimit if set => "limit at",
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
            Part::CaseLine => "case drain",
            Part::CasePlug => "no case drain",
            Part::OnOff => "on and off",
            Part::RunDownCheck => "anti-cavitation check",
            Part::Motor => "motor",
        };
        name.to_owned()
    }

    /// The lines of a machine's plate, from above.
    pub fn lines_of_a_plate(&self) -> [&'static str; 4] {
        ["Model", "Serial no.", "Operating mass", "Net power"]
    }

    /// The kinds of couplings that are told apart by looking: flat face, poppet of series A and B, screwed.
    pub fn kinds_of_couplings(&self) -> [&'static str; 4] {
        ["flat face", "poppet A", "poppet B", "screwed"]
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
        "not stated"
    }

    /// What heavy lines are.
    pub fn legend_added(&self) -> &'static str {
        "added by the change of that number"
    }

    /// The point at work in the pumps' curve.
    pub fn at_work(&self) -> &'static str {
        "at work"
    }

    /// The point that a brochure promises.
    pub fn brochure_point(&self) -> &'static str {
        "brochure"
    }

    /// Where the pumps' power is spent.
    pub fn power_limit(&self) -> &'static str {
        "power limit"
    }

    /// What the attachment's maker allows.
    pub fn window(&self) -> &'static str {
        "attachment"
    }

    /// All that hangs at the machine.
    pub fn hangs(&self, mass: Amount) -> String {
        format!("hangs: {}", self.amount(mass))
    }

    /// What the machine may carry.
    pub fn may_hang(&self) -> &'static str {
        "may hang"
    }

    /// The temperature at which work ends.
    pub fn work_ends(&self, temperature: Amount) -> String {
        format!("work ends: {}", self.at_most(temperature))
    }

    /// A range.
    pub fn from_to(&self, low: Amount, high: Amount) -> String {
        let (low, high) = (self.amount(low), self.amount(high));
        if low == high { low } else { format!("{low} to {high}") }
    }

    /// The limit of a check with its side.
    pub fn limit_of(&self, check: &Check) -> Option<String> {
        let [_, limit] = self.worst_and_limit(check);
        limit.map(|limit| match check.bound {
            Some(Bound::AtLeast) => format!("at least {limit}"),
            Some(Bound::AtMost) => format!("at most {limit}"),
            None => limit,
        })
    }

    /// The worst corner of a check with what sets it, where it does not hold.
    pub fn worst_of(&self, check: &Check) -> Option<String> {
        let [worst, _] = self.worst_and_limit(check);
        worst.map(|worst| match &check.reason {
            Reason::Beyond { because } | Reason::Undecided { because } => format!("worst {worst}: {}", cause(*because)),
            _ => format!("worst {worst}"),
        })
    }
}
