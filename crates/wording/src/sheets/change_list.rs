//! The change list in words.

use super::{Line, Section, only_if_needed, section};
use crate::{Words, capital, counted};
use explain::FigureId;
use fit::ChangeReason;
use fit::Total;
use quantity::Named;
use table::{ExtraValve, Port};
use workshop::{ChangeLine, ChangeList, End, Regulator, Requirement, Signal};

impl Words<'_> {
    /// What is done, in working order, and what it takes together.
    pub fn change_sheet(&self, changes: &ChangeList) -> Option<Section> {
        let lines: Vec<_> = changes.lines.iter().map(|line| self.change_line(line)).collect();
        let many = counted(lines.len(), "change", "changes");
        let detail = format!(
            "{many}. The time is that of fitting; first start and hand-over come besides. Torque: by the fitting maker's table for that \
             thread; mark each when done."
        );
        let total = Line::with("Together", detail, self.total(&changes.total)).of(FigureId::Cost);
        section("What is done to the machine", true, lines).map(|section| Section { total: Some(total), ..section })
    }

    /// Time and price together, "from" where something has no price.
    pub fn total(&self, total: &Total) -> String {
        let time = self.duration(total.minutes);
        match (&total.price, total.from) {
            (Some(price), false) => format!("{time} · {}", self.price(price)),
            (Some(price), true) => format!("{time} · from {}", self.price(price)),
            (None, _) => format!("{time} · no price stated"),
        }
    }

    fn change_line(&self, line: &ChangeLine) -> Line {
        let mut parts: Vec<String> = line.part.iter().map(|part| format!("part: {}", part.name)).collect();
        parts.extend(line.must_be.iter().map(|requirement| self.requirement(requirement)));
        parts.extend(line.between.as_ref().map(|(from, to)| format!("from {} to {}", self.end(from), self.end(to))));
        let time = self.duration(line.change.minutes);
        let price = line.change.price.as_ref().map(|price| self.price(price));
        let value = price.map_or_else(|| format!("{time} · no price stated"), |price| format!("{time} · {price}"));
        let mut detail = only_if_needed(line.change.reason == ChangeReason::Settles);
        if !parts.is_empty() {
            detail = detail + &capital(&parts.join("; ")) + ".";
        }
        if line.between.is_some() {
            detail += " Ends: machine __, part __ (thread and seal form read off the port).";
        }
        if line.change.id == table::ChangeId::Harness {
            let apart = if detail.is_empty() || detail.ends_with(' ') { "" } else { " " };
            detail = detail + apart + "Battery isolated before anything is wired.";
        }
        let pieces = self.change_title_parts(&line.change);
        Line {
            pieces,
            ..Line::with(self.change_title(&line.change), detail, value).of(FigureId::Change(line.change.id))
        }
    }

    /// What a part must be.
    #[expect(clippy::too_many_lines, reason = "a list, one entry a requirement")]
    pub(super) fn requirement(&self, requirement: &Requirement) -> String {
        let amount = |amount: &quantity::Amount| self.amount(*amount);
        match requirement {
            Requirement::Bore { bore } => format!("bore {}", self.bore(*bore)),
            Requirement::Length { length } => format!("{} long, as what it replaces", amount(length)),
            Requirement::Hose { standard } => format!("hose to {}", self.figure_choice(standard.name())),
            Requirement::Coupling { standard, size } => {
                let size = size.map_or_else(String::new, |size| format!(", size {}", self.bore(size)));
                let standard =
                    standard.map_or_else(|| "couplings".to_owned(), |standard| self.figure_choice(standard.name()));
                format!("{standard}{size}")
            }
            Requirement::Screwed => "screwed, locked against vibration".to_owned(),
            Requirement::BothHalves => "both halves: for the machine and for the attachment's hoses".to_owned(),
            Requirement::Passes { flow } => format!("passes at least {}", self.at_least(*flow)),
            Requirement::Bears { pressure } => format!("rated for at least {}", self.at_least(*pressure)),
            Requirement::Rated { pressure, flow } => {
                let rated: Vec<_> = pressure.iter().chain(flow).map(|rated| self.at_least(*rated)).collect();
                format!("rated by its maker for {}", rated.join(" and "))
            }
            Requirement::Loses { loss, flow } => format!("loses no more than {} at {}", self.at_most(*loss), self.at_least(*flow)),
            Requirement::FiltrationRating { micrometres } => {
                format!("filters {micrometres} µm or finer (β ≥ 200, ISO 16889)")
            }
            Requirement::Bypass { pressure } => format!("bypass opening at {}, with an indicator", amount(pressure)),
            Requirement::OpensBy { pressure } => format!("opens at no more than {}", self.at_most(*pressure)),
            Requirement::SetTo { value } => format!("set to {} and sealed", self.set_to(*value)),
            Requirement::OpenTransition => {
                "changeover valve without a blocked position on its way, its place visible and lockable".to_owned()
            }
            Requirement::TankPort { port: Some(port) } => {
                format!("into the tank's spare port {}, below the oil's level", port.size)
            }
            Requirement::TankPort { port: None } => {
                "a port made in the tank below the oil's level: none to spare is stated, and its time is counted".to_owned()
            }
            Requirement::NothingShuts => {
                "a port of its own in the tank, never into the return; nothing in it that can shut".to_owned()
            }
            Requirement::Dividers { count: 1, each } => format!("one divider set to {}", self.set_to(*each)),
            Requirement::Dividers { count, each } => {
                format!("{count} dividers, one a pump, each set to {}, joined by checks", self.set_to(*each))
            }
            Requirement::BehindBranch => "behind the branch to pilot, steering and brakes".to_owned(),
            Requirement::SetShares => {
                "each divider set to its share with the other vented, and the sum of both read".to_owned()
            }
            Requirement::Unloads => {
                "while the attachment's valve is shut it lets all the oil through to the tank at low pressure".to_owned()
            }
            Requirement::VentDrains => "vent and relief drain to a tank port of their own".to_owned(),
            Requirement::OffWithoutCurrent => "without current it is vented and the attachment stands".to_owned(),
            Requirement::JoinsSupply => {
                "joins the supply line by a selector or check, so that the valve's port is shut off when it is on, and the divider's when \
                 it is off"
                    .to_owned()
            }
            Requirement::ReturnCoupling => "the return coupling too, at both halves".to_owned(),
            Requirement::CouplingInReturn { standard, size } => {
                let size = size.map_or_else(String::new, |size| format!(", {}", self.bore(size)));
                match standard {
                    Some(standard) => format!("return coupling {}{size}", self.figure_choice(standard.name())),
                    None => format!("return coupling of the line's bore{size}"),
                }
            }
            Requirement::NotCrossed => "pressure and return couplings that do not fit each other".to_owned(),
            Requirement::CaseCoupling => "a coupling in it that cannot be crossed with a pressure line".to_owned(),
            Requirement::Regulator { kind } => match kind {
                Some(Regulator::TwoPort) => "two ports: this pump gives less by itself",
                Some(Regulator::ThreePort) => "three ports: the rest goes past to the tank, not over the relief",
                None => "two or three ports, by how the pump is commanded",
            }
            .to_owned(),
            Requirement::Signal { kind } => match kind {
                Some(Signal::Shuttle) => "a shuttle valve into the load-sensing line",
                Some(Signal::Pilot) => "a pilot or electric signal to the pump's regulator",
                None => "shuttle, pilot or electric, by how the pump is commanded",
            }
            .to_owned(),
            Requirement::BothLines { tool } => {
                format!("shuts both lines of the {tool} at once (one selector, or two valves worked together)")
            }
            Requirement::Cools { conductance } => format!("carries {} away", self.at_least(*conductance)),
            Requirement::Oil { kind, grade, cleanliness, volume } => {
                let kind = kind.map(|kind| self.figure_choice(kind.name()));
                let grade = grade.map(|grade| self.figure_choice(grade.name()));
                let clean = cleanliness.and_then(|code| serde_json::to_value(code).ok());
                let clean = clean.and_then(|code| code.as_str().map(|code| format!("{code} or cleaner (ISO 4406)")));
                let volume = volume.map(|volume| format!("{} in the tank", self.amount(volume)));
                let named: Vec<_> = [kind, grade, clean, volume].into_iter().flatten().collect();
                if named.is_empty() { "what the attachment's maker names".to_owned() } else { named.join(", ") }
            }
            Requirement::Outputs { count, current, voltage } => {
                let each: Vec<_> = voltage.iter().chain(current).map(amount).collect();
                let each = if each.is_empty() { String::new() } else { format!(" for {}", each.join(", ")) };
                format!("{}{each}, a button and a fuse each", counted(*count, "output", "outputs"))
            }
            Requirement::Converter => "a converter from the machine's voltage to the coils'".to_owned(),
            Requirement::SeatSwitch => {
                "a seat switch: off when the operator leaves or power fails, and it stays off".to_owned()
            }
            Requirement::Guard { guard } => self.guard(*guard).to_owned(),
            Requirement::Pins { machine, attachment, width, centres } => {
                let from =
                    machine.map_or_else(String::new, |pin| format!("from the machine's pins of {} ", self.amount(pin)));
                let more: Vec<_> = [
                    width.map(|w| format!("{} wide", self.amount(w))),
                    centres.map(|c| format!("{} apart", self.amount(c))),
                ]
                .into_iter()
                .flatten()
                .collect();
                let more = if more.is_empty() { String::new() } else { format!(", {}", more.join(", ")) };
                format!("{from}to the attachment's of {}{more}", amount(attachment))
            }
            Requirement::Extra { valve } => match valve {
                ExtraValve::Diverter => "6/2 diverter in the main lines: the rotor stands meanwhile",
                ExtraValve::HeadBlock => {
                    "4/3 valve block on the attachment, from supply to return, holding by pilot checks"
                }
            }
            .to_owned(),
            Requirement::ExtraFlow { flow } => format!("an orifice or regulator for {}", self.set_to(*flow)),
            Requirement::Reduced { pressure } => format!("a reducing valve to {} before it", self.at_most(*pressure)),
            Requirement::AlsoBack => "the same in the line back".to_owned(),
            Requirement::FindOut { fact } => format!("to be chosen by {}, which is not stated", self.fact(*fact)),
        }
    }

    /// A point of the circuit.
    pub(super) fn end(&self, end: &End) -> String {
        let with = |name: &str, port: &Option<Port>| match port {
            Some(port) => format!("{name} (thread {}, {})", port.size, self.figure_choice(port.standard.name())),
            None => name.to_owned(),
        };
        match end {
            End::Pumps => "the pumps' lines, ahead of the valve".to_owned(),
            End::Valve => "the control valve".to_owned(),
            End::SupplyCoupling { port } => with("the supply coupling at boom or arm", port),
            End::ReturnCoupling { port } => with("the return coupling at boom or arm", port),
            End::MotorInlet { port } => with("the motor's inlet", port),
            End::MotorOutlet { port } => with("the motor's outlet", port),
            End::Housing => "the drain port of the motor's housing".to_owned(),
            End::Tank { port } => with("a port of its own in the tank, below the oil's level", port),
            End::Manifold => "the spare port of the filter and cooler manifold".to_owned(),
            End::ToolLines => "the other tool's lines".to_owned(),
            End::Regulator => "the pump's regulator".to_owned(),
        }
    }
}
