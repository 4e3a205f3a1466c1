//! What an installation tells beside its verdict: the brochure's difference, the oil, its temperature over a day.

use super::Words;
use super::reasons::list;
use crate::circuit::oil::OilWarning;
use crate::pairing::installation::{Brochure, Cause, Gap, OilReading, Warmth};
use crate::quantity::{Amount, Dimension};

impl Words<'_> {
    /// What the brochure says and what the circuit makes of it, as a sentence.
    pub fn brochure(&self, brochure: &Brochure) -> String {
        let amount = |amount| self.amount(amount);
        let (flow, pressure) = (&brochure.flow, &brochure.pressure);
        let says = format!("The brochure says {} and {}.", amount(flow.says), amount(pressure.says));
        let at = amount(brochure.at);
        if flow.gives.si() <= 0.0 {
            return format!(
                "{says} The attachment works at {at}, and the circuit gives no flow at that: it stands still. At its least flow \
                 {} would be left for the motor.",
                amount(pressure.gives)
            );
        }
        format!(
            "{says} While the attachment works at {at}, {} reach it, and {} are left for the motor.",
            amount(flow.gives),
            amount(pressure.gives)
        )
    }

    /// Where the difference goes: `power limit −31 L/min, leakage −3 L/min`.
    pub fn causes(&self, gap: &Gap) -> String {
        if gap.causes.is_empty() {
            return "nothing lost".to_owned();
        }
        let one = |(cause, amount): &(Cause, Amount)| format!("{} −{}", self.cause(*cause), self.amount(*amount));
        gap.causes.iter().map(one).collect::<Vec<_>>().join(", ")
    }

    /// What takes away of a brochure's figure.
    pub fn cause(&self, cause: Cause) -> &'static str {
        match cause {
            Cause::Setting => "setting",
            Cause::Leak => "pump leakage",
            Cause::PowerLimit => "power limit",
            Cause::Margin => "load-sensing margin",
            Cause::CutOff => "pump cut-off",
            Cause::Relief => "relief opening",
            Cause::Supply => "line to the attachment",
            Cause::Return => "way back",
        }
    }

    /// The oil at a temperature, and what is to be said against it.
    pub fn oil(&self, reading: &OilReading) -> String {
        let thick = reading
            .viscosity
            .map_or_else(|| "of unknown grade".to_owned(), |viscosity| format!("{} thick", self.amount(viscosity)));
        let warnings: Vec<_> = reading.warnings.iter().map(|&warning| self.oil_warning(warning)).collect();
        let but = if warnings.is_empty() { String::new() } else { format!(": {}", warnings.join("; ")) };
        format!("Oil at {}, {thick}{but}.", self.amount(reading.temperature))
    }

    /// Why an oil is not fit for use at a temperature.
    pub fn oil_warning(&self, warning: OilWarning) -> &'static str {
        match warning {
            OilWarning::TooThickToStart => "too thick to start a pump with",
            OilWarning::Extrapolated => "below freezing its thickness is an estimate",
            OilWarning::TooThin => "too thin to keep moving parts apart",
            OilWarning::TooHot => "so hot that seals and oil age fast",
        }
    }

    /// Where the oil's temperature ends over a day of work.
    pub fn warmth(&self, warmth: &Warmth) -> String {
        let Some(heat) = warmth.heat else {
            return "How warm the oil becomes cannot be said without the figures that are missing above.".to_owned();
        };
        let made = format!("Over a usual working day it makes {} of heat on average.", self.amount(heat));
        let (time, stop) = (|amount: Amount| self.span(amount), self.amount(warmth.stop));
        let after = warmth.to_stop.map(time);
        let ends = match (warmth.settles, after) {
            (Some(settles), None) => format!("Then the oil settles at about {}.", self.amount(settles)),
            (Some(settles), Some(after)) => format!(
                "Then the oil would settle at about {}, too hot: it is at {stop} after about {after}. Pause, or fit a larger cooler.",
                self.amount(settles)
            ),
            (None, Some(after)) if warmth.past_cooler => format!(
                "The return goes past the oil cooler, and with nothing else to carry it away the oil is at {stop} after about \
                 {after}. Lead the return through the cooler, or pause in time."
            ),
            (None, Some(after)) if warmth.boundless => format!(
                "What carries it away is not enough by far: the oil is at {stop} after about {after}. Pause, or fit a cooler."
            ),
            _ => {
                let facts: Vec<_> = warmth.missing.iter().map(|&fact| self.fact(fact)).collect();
                let unknown = format!("Where the oil settles cannot be said without {}.", list(&facts));
                match warmth.at_the_soonest.map(time) {
                    Some(soonest) => format!(
                        "{unknown} Without any cooler it would be at {stop} after {soonest} of that: watch the thermometer on the first day."
                    ),
                    None => format!("{unknown} Watch the thermometer on the first day."),
                }
            }
        };
        format!("{made} {ends}")
    }

    /// A span of time, to what means something: minutes, or hours.
    fn span(&self, amount: Amount) -> String {
        debug_assert_eq!(amount.dimension(), Dimension::Time);
        let minutes = amount.si() / 60.0;
        if minutes < 1.0 {
            "1 min".to_owned()
        } else if minutes < 90.0 {
            format!("{} min", self.numbers.decimal(minutes, 0))
        } else {
            format!("{} h", self.numbers.decimal(minutes / 60.0, usize::from(minutes < 600.0)))
        }
    }
}
