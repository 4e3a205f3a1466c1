//! The first start in words.

use super::{Line, Section, section};
use crate::reasons::list;
use crate::{Words, capital};
use fit::CheckId;
use quantity::{Amount, Quantity, ThermodynamicTemperature, Unit};
use table::ExtraKind;
use workshop::{FirstStep, Slow};

impl Words<'_> {
    /// The first start, step by step.
    pub fn first_start(&self, steps: &[FirstStep]) -> Option<Section> {
        section("First start", true, steps.iter().map(|step| self.first_step(step)).collect())
    }

    fn titles(&self, checks: &[CheckId]) -> String {
        capital(&self.named_checks(checks))
    }

    #[expect(clippy::too_many_lines, reason = "a list, one entry a step")]
    pub(super) fn first_step(&self, step: &FirstStep) -> Line {
        match step {
            FirstStep::ProveBefore { checks } => {
                Line::new("Prove what is open before anything turns", format!("{}.", self.titles(checks)))
            }
            FirstStep::FindMakeUp => Line::new(
                "Find the anti-cavitation check valve that lets the rotor coast down",
                "On the plate, in the parts list or by looking: a check from outlet to inlet near its motor. If there is none, fit one \
                 before it turns.",
            ),
            FirstStep::BenchRelief { value } => Line::with(
                "Set and seal the relief on the other tool's side before it is fitted",
                "On the bench or by a hand pump: the valve's own relief stands at or below it, or it is not stated.",
                self.amount(*value),
            ),
            FirstStep::FillTank => Line::new(
                "The tank was opened: clean and fill it, fill and bleed the pumps",
                "As the machine's manual says, before the engine turns.",
            ),
            FirstStep::Switch { does } => self.step(does),
            FirstStep::Positions { items } => {
                let items: Vec<_> = items.iter().map(|item| self.item(item)).collect();
                let items: Vec<_> = items.iter().map(String::as_str).collect();
                Line::new(
                    "Set the valves for attachment on",
                    format!("{}, as the setting sheet says.", capital(&list(&items))),
                )
            }
            FirstStep::JoinLoop { relief_out } => {
                let out = if *relief_out { " Turn the new relief right out." } else { "" };
                Line::new(
                    "Join supply to return by a flow tester, its load valve open",
                    format!("The tester bypassed until the oil is clean; the attachment is not connected.{out}"),
                )
            }
            FirstStep::Flush { changes } => {
                let names: Vec<_> = changes.iter().map(|change| self.change_name(*change)).collect();
                let names = capital(&list(&names));
                Line::new(
                    "Flush the new lines in the loop, at low idle",
                    format!("{names}: low flow, until the oil runs clean through the filter; a case drain by itself."),
                )
            }
            FirstStep::OilLevel => Line::new(
                "Read the tank's level, top up",
                "New lines have taken oil: same kind and grade, boom and arm as the manual says.",
            ),
            FirstStep::WarmThrough => {
                Line::with("Warm the oil through the tester", "Little load on it.", format!("at least {}", self.warm()))
            }
            FirstStep::SetValues { slow, .. } => Line::new(
                "Set the values of the setting sheet, read list A",
                format!(
                    "With the tester, in its order, oil at {warm} or more; write down what was found. {then}",
                    warm = self.warm(),
                    then = after_setting(*slow),
                ),
            ),
            FirstStep::TesterOut => Line::new("Take the tester out, cap both lines", ""),
            FirstStep::ProveMounted { checks } => Line::new(
                "Tape it there, nothing connected",
                format!(
                    "{}: curled in slowly from the seat, low over the ground, stopped before it is near and set down so; engine off, key out, then the tape.",
                    self.titles(checks)
                ),
            ),
            FirstStep::BlowCaseLine => Line::new(
                "Blow the case drain through into the open tank",
                "At low pressure, eye protection on, its far end tied down in the tank's opening and nobody before it. Before it touches the motor: it \
                 is clean and open, no cock in it.",
            ),
            FirstStep::FillHousing => Line::new(
                "Fill the motor's housing with clean oil at its highest drain port",
                "It must not turn dry, not even once.",
            ),
            FirstStep::TracePorts => Line::new(
                "Trace supply and return to the ports marked in and out",
                "Before anything is coupled, and mark them. The pressure and the return coupling must not fit each other: if they do, mark \
                 or change them.",
            ),
            FirstStep::KeepAway { distance: Some(distance) } => Line::new(
                "Everybody away, cab closed",
                format!(
                    "Nobody nearer than {}, its guards closed. From here on everything is read from the closed cab: nobody goes nearer to \
                     read.",
                    self.keep_away(*distance)
                ),
            ),
            FirstStep::KeepAway { distance: None } => {
                Line::new("Everybody away", "Only the operator, in the seat; everything is read from there.")
            }
            FirstStep::Bleed { slow } => Line::new(
                "Bleed, at its lowest flow",
                format!(
                    "{} Switch on for a few seconds at a time until it runs evenly; no foam in the tank.",
                    at_lowest(*slow)
                ),
            ),
            FirstStep::Direction { slow } => Line::new(
                "Direction of rotation, at its lowest flow",
                format!(
                    "{} Marked before on the rotor, seen from the cab: as the arrow says. Wrong, stop at once: engine off, pressure out, trace \
                     the lines again. A one-way motor is never driven backwards: not crossed, ask the attachment's maker.",
                    at_lowest(*slow)
                ),
            ),
            FirstStep::FirstStop { least } => Line::with(
                "First stop, from its lowest flow: read the inlet",
                "With a transmitter that shows vacuum, from the cab. Less than this, or it draws air by the sound: stop, no higher flow.",
                format!("at least {}", self.amount(*least)),
            ),
            FirstStep::WarmUp { to, slow } => Line::with(
                "Warm the oil",
                format!("At its lowest flow. {} Only then more.", at_lowest(*slow)),
                self.amount(*to),
            ),
            FirstStep::Read { slow } => Line::new(
                "Raise to working speed by steps and read list B at each",
                format!(
                    "{} Each load as it comes, the lightest first; never with its lines shut; beyond a limit, stop.",
                    raised(*slow)
                ),
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
                    "Everybody beyond the throw distance, from the cab, at its lowest flow: both ways; let go, each must hold its place. After \
                     parting, their lines may hold pressure: open none.",
                )
            }
            FirstStep::StopTest => Line::new(
                "Stop test",
                "Let go, leave the seat, switch it off by its fuse or switch in the cab: it stops each time, and stays off when all is back. \
                 Nobody goes to its plug at the arm.",
            ),
            FirstStep::RunDown { about } => {
                let about = about.map(|time| format!("about {}", self.seconds(time)));
                Line::with(
                    "Time the coast-down from full speed until it stands",
                    "Write the time on the attachment: nobody comes near before, and never by the clock alone.",
                    about.unwrap_or_else(|| "measure".to_owned()),
                )
            }
            FirstStep::Retighten => Line::new(
                "Engine off, pressure out: retighten what is new",
                "Then under pressure again, rotor off: search for leaks with a piece of card, never by hand; engine off and pressure out before \
                 a fitting is touched.",
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
}

/// What is left to do with the tester still in the line.
fn after_setting(slow: Slow) -> &'static str {
    match slow {
        Slow::Divider => {
            "Mark the divider's place, then turn it down to its lowest, count the turns, read what flow is left and write it here, \
             with its unit: ________. Seal the rest."
        }
        Slow::Regulator => {
            "Mark the regulator's place, then turn it down to its lowest, count the turns, read what flow is left and write it here, \
             with its unit: ________. Seal the rest."
        }
        Slow::Setting => {
            "Turn the machine's flow setting to its lowest, read what flow is left and write it here, with its unit: ________. Seal the rest."
        }
        Slow::Engine => {
            "Read the flow at low idle and write it here, with its unit: ________. Seal what can be sealed."
        }
        Slow::Cannot => {
            "Read the flow at low idle and write it here, with its unit: ________; the attachment's maker says whether it may start with that. Seal what \
             can be sealed."
        }
    }
}

/// What makes it slow.
fn at_lowest(slow: Slow) -> &'static str {
    match slow {
        Slow::Divider => "By the divider turned to its lowest: low idle is not low speed.",
        Slow::Regulator => "By the regulator turned to its lowest: low idle is not low speed.",
        Slow::Setting => "By the machine's flow setting at its lowest, at low idle.",
        Slow::Engine => "At low idle.",
        Slow::Cannot => {
            "Nothing is known to turn it down: only with the flow at low idle that was read on a tester and that the attachment's maker \
             allows: ________ (with its unit)."
        }
    }
}

/// By what it is raised to its set flow.
fn raised(slow: Slow) -> &'static str {
    match slow {
        Slow::Divider => "By the divider, not by the engine, turn by turn up to its mark; then seal it.",
        Slow::Regulator => "By the regulator, not by the engine, turn by turn up to its mark; then seal it.",
        Slow::Setting => "By the machine's flow setting, not by the engine.",
        Slow::Engine => "By the engine.",
        Slow::Cannot => "Nothing is known to raise it by: no further than each reading allows.",
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
