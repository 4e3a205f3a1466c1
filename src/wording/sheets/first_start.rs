//! The first start in words.

use super::{Line, Section, section};
use crate::pairing::CheckId;
use crate::pairing::sheets::FirstStep;
use crate::quantity::{Amount, Kind, ThermodynamicTemperature, Unit};
use crate::table::ExtraKind;
use crate::wording::reasons::list;
use crate::wording::{Words, capital};

impl Words<'_> {
    /// The first start, step by step.
    pub fn first_start(&self, steps: &[FirstStep]) -> Option<Section> {
        section("First start", true, steps.iter().map(|step| self.first_step(step)).collect())
    }

    fn titles(&self, checks: &[CheckId]) -> String {
        let titles: Vec<_> = checks.iter().map(|check| self.check_title(*check).to_lowercase()).collect();
        let titles: Vec<_> = titles.iter().map(String::as_str).collect();
        capital(&list(&titles))
    }

    #[expect(clippy::too_many_lines, reason = "a list, one entry a step")]
    fn first_step(&self, step: &FirstStep) -> Line {
        match step {
            FirstStep::ProveBefore { checks } => {
                Line::new("Prove what is open before anything turns", format!("{}.", self.titles(checks)))
            }
            FirstStep::Flush { changes } => {
                let names: Vec<_> = changes.iter().map(|change| self.change_name(*change)).collect();
                let names = capital(&list(&names));
                Line::new(
                    "Flush the new lines in a loop, attachment not connected",
                    format!(
                        "{names}: supply joined to return, low flow, until the oil runs clean through the filter; a case line by itself."
                    ),
                )
            }
            FirstStep::CaseLine => Line::new(
                "Connect the case line before any other",
                "Straight to its own port in the tank; blow through it that it is open.",
            ),
            FirstStep::FillHousing => Line::new(
                "Fill the motor's housing with clean oil by its drain port",
                "It must not turn dry, not even once.",
            ),
            FirstStep::Couple { screwed: true } => {
                Line::new("Couple supply and return", "Clean faces, screwed down to the stop, locks closed.")
            }
            FirstStep::Couple { screwed: false } => {
                Line::new("Couple supply and return", "Clean faces, pushed fully home; pull on each.")
            }
            FirstStep::Positions { items } => {
                let items: Vec<_> = items.iter().map(|item| self.item(item)).collect();
                let items: Vec<_> = items.iter().map(String::as_str).collect();
                Line::new(
                    "Set the valves for attachment on",
                    format!("{}, as the setting sheet says.", capital(&list(&items))),
                )
            }
            FirstStep::OilLevel => Line::new(
                "Top up the tank",
                "New lines have taken oil: same kind and grade, boom and arm as the manual says.",
            ),
            FirstStep::KeepAway { distance: Some(distance) } => Line::new(
                "Everybody away",
                format!("Nobody nearer than {}, its guards closed.", self.amount(*distance)),
            ),
            FirstStep::KeepAway { distance: None } => Line::new("Everybody away", "Only the operator, in the seat."),
            FirstStep::Bleed => Line::new(
                "Bleed at low idle",
                "Switch on for a few seconds at a time until it runs evenly and no foam is in the tank.",
            ),
            FirstStep::Direction => Line::new(
                "Direction of rotation, at low idle",
                "As the arrow on the attachment says; wrong, stop at once: engine off, no pressure, then change the hoses over.",
            ),
            FirstStep::WarmUp { to } => {
                Line::with("Warm the oil", "At low idle and little flow; only then full speed.", self.amount(*to))
            }
            FirstStep::SetValues { .. } => Line::new(
                "Set the values of the setting sheet",
                format!(
                    "A flow tester joins supply to return, the attachment is not connected; in its order, oil at {warm} or more. Seal what \
                 can be sealed and write down what was found.",
                    warm = self.warm()
                ),
            ),
            FirstStep::Read => Line::new(
                "Raise to working speed by steps and read every instrument",
                "Under each load of the setting sheet, the lightest first; beyond a limit, stop.",
            ),
            FirstStep::ToolStands { tool } => {
                Line::new(format!("The {tool} stands still meanwhile"), "If it creeps, its valve is not shut: stop.")
            }
            FirstStep::Functions => Line::new(
                "Work the machine's functions beside it",
                "Boom, slew and travel, slower as computed; it must track straight.",
            ),
            FirstStep::Extras { kinds } => {
                let kinds: Vec<_> = kinds.iter().map(|kind| extra(*kind)).collect();
                Line::new(
                    format!("Work its other functions: {}", list(&kinds)),
                    "Both ways, slowly first; let go, each must hold its place.",
                )
            }
            FirstStep::StopTest => Line::new(
                "Stop test",
                "Let go, leave the seat, pull its plug if it has one: it stops each time, and stays off when all is back.",
            ),
            FirstStep::RunDown { about } => {
                let about = about.map(|time| format!("about {}", self.seconds(time)));
                Line::with(
                    "Time the run-down from full speed until it stands",
                    "Write the time on the attachment: nobody comes near before, and never by the clock alone.",
                    about.unwrap_or_else(|| "measure".to_owned()),
                )
            }
            FirstStep::Retighten => Line::new(
                "Engine off, no pressure: retighten what is new, search for leaks",
                "With a piece of card, never by hand.",
            ),
            FirstStep::FirstHalfHour { checks } => {
                Line::new("In the first half hour of work, prove what is open", format!("{}.", self.titles(checks)))
            }
            FirstStep::FilterChange { hours } => Line::with(
                "Change the filter after running in",
                "Common practice, no published source; earlier when its indicator says so.",
                format!("{hours} h"),
            ),
            FirstStep::Record => {
                Line::new("Write the readings on the hand-over record", "With date, names and instruments.")
            }
        }
    }

    /// The oil temperature from which a setting holds (common practice, no published source): 50 °C.
    pub(super) fn warm(&self) -> String {
        self.amount(Amount::of(ThermodynamicTemperature::from_si(Unit::Celsius.to_si(50.0))))
    }

    fn seconds(&self, time: Amount) -> String {
        format!("{} s", self.numbers.decimal(time.si(), 0))
    }
}

/// A function besides the rotor.
fn extra(kind: ExtraKind) -> &'static str {
    match kind {
        ExtraKind::OnOff => "rotor on and off",
        ExtraKind::Door => "door",
        ExtraKind::Tilt => "tilt",
        ExtraKind::Rotation => "rotation",
        ExtraKind::SideShift => "side shift",
        ExtraKind::Depth => "depth",
    }
}
