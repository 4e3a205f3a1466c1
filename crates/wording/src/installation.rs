//! What an installation tells beside its verdict: the brochure's difference, the oil, its temperature over a day.

use super::Words;
use super::reasons::list;
use explain::OilFigure;
use fit::Outcome;
use fit::assume::WARM_ENOUGH_CELSIUS;
use fit::installation::{Brochure, Gap, GapCause, OilReading, Warmth};
use hydraulics::oil::OilWarning;
use quantity::{Amount, Dimension, Quantity, ThermodynamicTemperature, Unit};

impl Words<'_> {
    /// What the brochure says and what the circuit makes of it, as a sentence.
    pub fn brochure(&self, brochure: &Brochure) -> String {
        let amount = |amount| self.amount(amount);
        let (flow, pressure) = (&brochure.flow, &brochure.pressure);
        let says = format!("The brochure says {} and {}.", amount(flow.says), amount(pressure.says));
        let at = amount(brochure.at);
        if flow.gives.si() <= 0.0 {
            let left = if pressure.gives.si() > 0.0 {
                format!("only {} would be left for its motor", amount(pressure.gives))
            } else {
                "the lines alone would take all of the pressure".to_owned()
            };
            return format!(
                "{says} The attachment works at {at}, and the circuit gives no flow at that: it stands still. At its least flow \
                 {left}."
            );
        }
        let cut_off = pressure.causes.iter().any(|(cause, _)| *cause == GapCause::CutOff);
        let before = if cut_off { "the pump cuts back" } else { "the relief begins to open" };
        format!(
            "{says} While the attachment works at {at}, {} reach it. {} are left for its motor before {before}.",
            amount(flow.gives),
            amount(pressure.gives)
        )
    }

    /// Where the difference goes: `power limit −31 L/min, leakage −3 L/min`.
    pub fn causes(&self, gap: &Gap) -> String {
        if gap.causes.is_empty() {
            return "as the brochure says, at likely figures".to_owned();
        }
        let one = |(cause, amount): &(GapCause, Amount)| format!("{} −{}", self.cause(*cause), self.amount(*amount));
        gap.causes.iter().map(one).collect::<Vec<_>>().join(", ")
    }

    /// What takes away of a brochure's figure.
    pub fn cause(&self, cause: GapCause) -> &'static str {
        match cause {
            GapCause::Pump => "pump's own flow",
            GapCause::Setting => "setting",
            GapCause::Leak => "pump leakage",
            GapCause::PowerLimit => "power limit",
            GapCause::Margin => "load-sensing margin",
            GapCause::CutOff => "pump cuts back",
            GapCause::Relief => "relief begins to open",
            GapCause::Supply => "line to the attachment",
            GapCause::Return => "return",
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

    /// A temperature with the checks that are not met at it, for who does not see the marks.
    pub fn oil_marks(&self, temperature: &str, reading: &OilReading) -> String {
        let with = |wanted: Outcome| -> Vec<_> {
            let marks = reading.marks.iter().filter(|mark| mark.outcome == wanted);
            marks.map(|mark| self.check_title(mark.check)).collect()
        };
        let said = [(Outcome::NotMet, "not met"), (Outcome::NotKnown, "not known")];
        let parts: Vec<_> = said
            .into_iter()
            .map(|(outcome, word)| (with(outcome), word))
            .filter(|(titles, _)| !titles.is_empty())
            .map(|(titles, word)| format!("{word}: {}", list(&titles)))
            .collect();
        if parts.is_empty() {
            format!("{temperature}, all met")
        } else {
            format!("{temperature}, {}", parts.join("; "))
        }
    }

    /// What stands where the circuit cannot be solved.
    pub fn cannot_be_solved(&self) -> &'static str {
        "The circuit cannot be solved: the checks above say what is missing."
    }

    /// What a figure of the circuit with the oil at a temperature is called.
    pub fn oil_figure(&self, figure: OilFigure) -> &'static str {
        match figure {
            OilFigure::Flow => "Flow at work",
            OilFigure::Pump => "At the pump",
            OilFigure::BackPressure => "Back pressure, free running",
            OilFigure::CasePressure => "In the case drain",
            OilFigure::Viscosity => "The oil's viscosity",
        }
    }

    /// Under which conditions brochure and circuit are compared.
    pub fn brochure_holds(&self) -> &'static str {
        "The machine as it is, oil at working temperature, at likely figures. The checks take the worst ones."
    }

    /// What the reasoning behind a day of work is about.
    pub fn where_it_settles(&self) -> &'static str {
        "where the oil settles"
    }

    /// What two bars show, for who cannot see them.
    pub fn two_bars(&self, name: &str) -> String {
        format!("{name}: the brochure's figure and what the circuit gives, as two bars")
    }

    /// For which oil the checks are judged.
    pub fn checks_hold(&self) -> String {
        let from = Amount::of(ThermodynamicTemperature::from_si(Unit::Celsius.to_si(WARM_ENOUGH_CELSIUS)));
        format!(
            "At the worst of what may be, with oil from {} up. Colder oil waits: let the machine idle itself warm.",
            self.amount(from)
        )
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
        let made =
            format!("With the typical mix of work and pauses it makes {} of heat on average.", self.amount(heat));
        let (time, stop) = (|amount: Amount| self.span(amount), self.amount(warmth.stop));
        let start = format!("started at {}", self.amount(warmth.from));
        let ages = format!("above {stop} seals and oil age fast");
        let ends = match (warmth.settles, warmth.to_stop.map(time)) {
            (Some(settles), None) if warmth.is_open() => {
                let most = warmth.within.map_or_else(String::new, |(_, most)| self.amount(most));
                format!(
                    "So the oil likely settles at about {}. Such a balance is good to a third: it may be {most}, and {ages}. Prove it in \
                     the first half hour of work.",
                    self.amount(settles)
                )
            }
            (Some(settles), None) => format!("So the oil settles at about {}.", self.amount(settles)),
            (Some(settles), Some(after)) if warmth.is_open() => {
                let least = warmth.within.map_or_else(String::new, |(least, _)| self.amount(least));
                format!(
                    "So the oil would likely settle at about {}, too hot: {start} it is at {stop} after about {after}, and {ages}. Such a \
                     balance is good to a third: it may end at {least} as well. Prove it in the first half hour of work.",
                    self.amount(settles)
                )
            }
            (Some(settles), Some(after)) => format!(
                "So the oil would settle at about {}, too hot: {start} it is at {stop} after about {after}, and {ages}. Pause in \
                 time, or fit a larger cooler.",
                self.amount(settles)
            ),
            (None, Some(after)) if warmth.past_cooler => format!(
                "This return goes past the oil cooler, and nothing else is credited: {start} the oil is at {stop} after about \
                 {after}, and {ages}. Lead the return through the cooler as well, or pause in time."
            ),
            (None, Some(after)) if warmth.boundless => format!(
                "What carries it away is not enough by far: {start} the oil is at {stop} after about {after}, and {ages}. Pause in \
                 time, or fit a cooler."
            ),
            _ => {
                let facts: Vec<_> = warmth.missing.iter().map(|&fact| self.fact(fact)).collect();
                let unknown = format!("Where the oil settles cannot be said without knowing {}.", list(&facts));
                match warmth.at_the_soonest.map(time) {
                    Some(soonest) => format!(
                        "{unknown} Without any cooler, {start}, it would be at {stop} after {soonest} of it, and {ages}: watch the \
                         thermometer on the first day."
                    ),
                    None => format!("{unknown} Watch the thermometer on the first day: {ages}."),
                }
            }
        };
        format!("{made} {ends}")
    }

    /// One line where the oil gets too hot, for the head of a sheet.
    pub fn too_hot(&self, warmth: &Warmth) -> Option<String> {
        let after = self.span(warmth.to_stop?);
        let (from, stop) = (self.amount(warmth.from), self.amount(warmth.stop));
        Some(format!(
            "At likely figures the oil gets too hot: from {from} to {stop} in about {after} of such work; see the oil \
             thermometer."
        ))
    }

    /// A span of time, to what means something: minutes, or hours.
    pub(super) fn span(&self, amount: Amount) -> String {
        debug_assert_eq!(amount.dimension(), Dimension::Time);
        let minutes = amount.si() / 60.0;
        if minutes < 1.0 {
            "1 min".to_owned()
        } else if minutes < 90.0 {
            format!("{} min", self.numbers.decimal(minutes, 0))
        } else {
            format!("{} h", self.decimal(minutes / 60.0, usize::from(minutes < 600.0)))
        }
    }
}
