//! What is told without being judged, what only a maker may decide, and how head and functions share the oil.

use super::Words;
use fit::{LineId, MakerQuestion, Remark, RunnerUp, Sharing};
use quantity::{Amount, Quantity, ThermodynamicTemperature, Unit, UnitSystem};
use table::MachineEnd;

impl Words<'_> {
    /// A remark as a sentence.
    pub fn remark(&self, remark: &Remark) -> String {
        match remark {
            Remark::Velocity { line, value, usual } => format!(
                "In the {} the oil flows at {}; typical is up to {}.",
                match line {
                    LineId::Supply => "supply line",
                    LineId::Return => "return line",
                    LineId::Case => "case drain",
                },
                self.oil_velocity(*value),
                self.oil_velocity(*usual)
            ),
            Remark::LossShare { share } => format!(
                "Lines and valves take {} of what the motor gets: above a tenth is much, above a fifth ask why.",
                self.amount(*share)
            ),
            Remark::HoseFatigue => {
                "Pressure spikes come above what the weakest hose is rated for in the long run: look at it often."
                    .to_owned()
            }
            Remark::CaseCouplingCrosses => {
                "The case drain's coupling fits a pressure line: mark it, or change it, so that they are never crossed."
                    .to_owned()
            }
            Remark::Accumulator => {
                "It holds a charged gas accumulator: its charge stays when the machine is off.".to_owned()
            }
            Remark::WaterOrDust => "It needs water, or raises dust: ask its maker how much.".to_owned(),
            Remark::ThrowZone { distance, stated } => {
                let whose = if *stated { "its maker's figure" } else { "a typical value: its maker names none" };
                format!("Nobody nearer than {} while it works ({whose}).", self.keep_away(*distance))
            }
            Remark::LiftsAt { reach, over_side } => self.lifts_at(*reach, *over_side),
            Remark::AtEnd { end } => self.at_end(*end),
            Remark::PullsAside => {
                "It takes its oil from one pump of two: while it works the machine may pull to one side.".to_owned()
            }
            Remark::LevelGround => {
                "The loader lifts to the front; its rating is for firm, level ground and slow work.".to_owned()
            }
            Remark::StartsDownTo { from } => self.starts_down_to(*from),
            Remark::ToolReliefLimits => {
                "The other tool's relief limits the attachment as long as that tool is not shut off.".to_owned()
            }
        }
    }

    /// Down to which temperature the oil may be started, and what is done below.
    pub(super) fn starts_down_to(&self, from: Amount) -> String {
        format!(
            "The oil in the tank may be started down to {}. Below that it is too thick to follow into the pumps: a thinner grade, \
             an HV oil of the same grade, or a tank heater.",
            self.amount(self.whole_degrees(from))
        )
    }

    /// A temperature in whole degrees, rounded up.
    fn whole_degrees(&self, from: Amount) -> Amount {
        let unit = match self.units {
            UnitSystem::Metric => Unit::Celsius,
            UnitSystem::UsCustomary => Unit::Fahrenheit,
        };
        let degrees = from.quantity::<ThermodynamicTemperature>().map(|from| unit.of_si(from.si()).ceil());
        degrees.map_or(from, |degrees| Amount::of(ThermodynamicTemperature::from_si(unit.to_si(degrees))))
    }

    /// Over which side and how far out lift is judged.
    pub fn lifts_at(&self, reach: Amount, over_side: bool) -> String {
        let side = if over_side { "over the side" } else { "over the front" };
        format!("Lift is judged {side}, at ground level, {} from the slew axis: not farther out.", self.at_most(reach))
    }

    /// The end of a machine with two ends at which an attachment goes.
    pub fn at_end(&self, end: MachineEnd) -> String {
        format!("It goes on the machine's {}: only oil, mounting and lift of that end count.", self.machine_end(end))
    }

    /// How fast oil flows: in metres or feet a second, as hose tables write it.
    fn oil_velocity(&self, value: quantity::Amount) -> String {
        let metres = value.quantity::<quantity::Velocity>().map_or(0.0, quantity::Quantity::si);
        match self.units {
            quantity::UnitSystem::Metric => format!("{} m/s", self.decimal(metres, 1)),
            quantity::UnitSystem::UsCustomary => format!("{} ft/s", self.numbers.decimal(metres / 0.3048, 0)),
        }
    }

    /// What to ask a maker.
    pub fn question(&self, question: MakerQuestion) -> &'static str {
        match question {
            MakerQuestion::HeadDisplacement => {
                "Attachment's maker: another motor displacement or pulley for this flow?"
            }
            MakerQuestion::HeadCentre => "Attachment's maker: a plug or conversion for its valve's centre type?",
            MakerQuestion::HeadLimits => "Attachment's maker: what do outlet, seal and drive really allow?",
            MakerQuestion::MachinePressure => "Machine's maker: main relief, cut-off or pump setting?",
            MakerQuestion::Stability => {
                "Machine's maker: a lift rating, counterweight or structure for this attachment?"
            }
            MakerQuestion::ProtectiveStructure => {
                "Machine's maker: drilling or welding on a protective structure, or another structure?"
            }
            MakerQuestion::CouplerRating => "Coupler's maker: its capacity and lock with this attachment?",
            MakerQuestion::PrioritySupply => {
                "Machine's maker: where may oil be taken behind steering, brakes and pilot?"
            }
            MakerQuestion::CircuitControl => "Machine's maker: a two-way, held or seat-switched auxiliary circuit?",
            MakerQuestion::TravelSpeed => "Machine's maker: a creep speed at full engine speed?",
        }
    }

    /// How head and functions share the pumps' oil.
    pub fn sharing(&self, sharing: &Sharing) -> String {
        let left = sharing
            .left
            .map_or_else(String::new, |left| format!(" {} of today's flow is left to the machine.", self.amount(left)));
        format!(
            "The attachment gets {} of the pumps' oil at work, {} free running.{left}",
            self.amount(sharing.at_work),
            self.amount(sharing.free)
        )
    }

    /// Another set of changes that works.
    pub fn runner_up(&self, runner_up: &RunnerUp) -> String {
        let named: Vec<_> = runner_up.changes.iter().map(|id| self.change_name(*id)).collect();
        format!("Nearly as cheap ({}): {}.", self.cost(&runner_up.cost), super::reasons::list(&named))
    }
}
