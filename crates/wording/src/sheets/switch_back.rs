//! Switch-back and its reverse in words: each for a second fitter, without the first.

use super::{Line, Section, section};
use crate::Words;
use workshop::{Item, Position, Relieve, Slow, Step, SwitchBack, Trial};

impl Words<'_> {
    /// Attachment off, and on again.
    pub fn switch_back(&self, sheet: &SwitchBack) -> Vec<Section> {
        let lines = |steps: &[Step]| steps.iter().map(|step| self.step(step)).collect();
        [
            section("Attachment off: back to the bucket", true, lines(&sheet.off)),
            section("Attachment on again", true, lines(&sheet.on)),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// One step.
    pub fn step(&self, step: &Step) -> Line {
        match step {
            Step::StopAttachment { runs_on: true } => {
                Line::new("Switch the attachment off and wait until its rotor stands", "Look, do not count.")
            }
            Step::StopAttachment { runs_on: false } => Line::new("Switch the attachment off", ""),
            Step::Ground => Line::new(
                "Everything flat on firm, level ground, nothing raised; engine off",
                "Parking brake on; chock what could roll or tip once it hangs no more.",
            ),
            Step::Relieve { by } => {
                let by: Vec<_> = by.iter().map(|how| relieve(*how)).collect();
                Line::new("Let the pressure out", by.join(" "))
            }
            Step::LockOut => Line::new("Lock out", "Key out and kept, tag on the wheel or lever."),
            Step::Move { item, to } => self.moved(item, *to),
            Step::Unpin { from } => Line::new(
                format!("Support {}, drive the pins out", tool(*from)),
                "So that it stands by itself; then everybody away from it.",
            ),
            Step::Drive { to } => Line::new(
                format!("Take the tag off, start, drive out and into {}", tool(*to)),
                "Nobody at either while the machine runs; line the holes up from the seat, by signs from a distance.",
            ),
            Step::ShutDown => Line::new(
                "Engine off, key out, tag on again",
                "Before anybody goes to the pins; never a finger in a hole.",
            ),
            Step::Start => Line::new("Take the tag off, everybody away, start at low idle", ""),
            Step::Try { trial } => self.trial(trial),
        }
    }

    /// Something is set.
    fn moved(&self, item: &Item, to: Position) -> Line {
        let place = self.position(item, to);
        let title = match (item, to) {
            (Item::Couplings { .. } | Item::CaseLine, Position::Capped) => {
                format!(
                    "Part the {}",
                    if *item == Item::CaseLine {
                        "case drain, last of the lines"
                    } else {
                        "pressure and return couplings"
                    }
                )
            }
            (Item::CaseLine, _) => "Connect the case drain, first of the lines".to_owned(),
            (Item::Couplings { .. }, _) => "Connect pressure and return couplings".to_owned(),
            (Item::Plug, Position::Capped) => "Pull the attachment's plug".to_owned(),
            (Item::Plug, _) => "Plug the attachment in".to_owned(),
            (Item::Mounting { coupler: true }, Position::Bucket) => {
                "Set the attachment down, release the coupler, take the bucket up".to_owned()
            }
            (Item::Mounting { coupler: true }, _) => {
                "Set the bucket down, release the coupler, take the attachment up".to_owned()
            }
            (Item::Mounting { coupler: false }, Position::Bucket) => "Drive the pins into the bucket".to_owned(),
            (Item::Mounting { coupler: false }, _) => "Drive the pins into the attachment".to_owned(),
            (Item::FlowSetting | Item::Relief | Item::EngineSpeed, _) => {
                return Line::with(format!("Set the {}", bare(&self.item(item))), self.proof(item), place);
            }
            (Item::Isolation { tool }, Position::Open) => format!("Open the isolating valve of the {tool}"),
            (Item::Isolation { tool }, _) => format!("Shut the isolating valve of the {tool}"),
            (Item::Tool { tool }, Position::Free) => format!("Free the {tool}"),
            (Item::Tool { tool }, _) => format!("Stow or pin the {tool}"),
            _ => format!("Set the {}", bare(&self.item(item))),
        };
        let place = match item {
            Item::Isolation { .. } => format!("{place}, both lines"),
            Item::Tool { .. } => String::new(),
            _ => place,
        };
        let how = match (item, to) {
            (Item::Tool { .. }, Position::Free) => {
                "Its valve open, nobody in its path: ignition on for the lever alone, engine off, lever both ways until its lines are without pressure; key out again, only then the pin out."
            }
            (Item::Tool { .. }, _) => {
                "With the engine running, nobody in its path; then let its pressure out before its valve is shut."
            }
            (Item::Couplings { screwed: true }, Position::Connected) => {
                "To the ports as traced and marked; clean faces, screwed down to the stop, locks closed."
            }
            (Item::Couplings { screwed: false }, Position::Connected) => {
                "To the ports as traced and marked; clean faces, pushed fully home; pull on each."
            }
            (Item::Divider, Position::InService) => "Only now, with case drain, return and supply connected.",
            _ => "",
        };
        Line::with(title, how, place)
    }

    fn proof(&self, item: &Item) -> String {
        let fixed = match item {
            Item::Relief => {
                return format!(
                    "With a gauge, the lines capped, oil at {} or more; never with the attachment connected.",
                    self.warm()
                );
            }
            Item::FlowSetting => {
                "In the machine's menu or at its roller; prove it with the flow tester where it bounds a speed."
            }
            _ => "On the machine's display.",
        };
        fixed.to_owned()
    }

    fn trial(&self, trial: &Trial) -> Line {
        match trial {
            Trial::MountingHolds => Line::new(
                "Press on the ground: the mounting holds",
                "Then lift a hand's breadth and look at its locks.",
            ),
            Trial::NoLeak => Line::new(
                "Search for leaks with a piece of card, under low pressure, rotor off",
                "What switches it on is locked, or its fuse is out, meanwhile. Never by hand, never near a turning rotor; engine off and pressure out before a fitting is touched.",
            ),
            Trial::Bucket => Line::new(
                "Bucket and functions",
                "Boom, arm, bucket, slew and travel work as before, and nothing creeps.",
            ),
            Trial::Tool { tool, reads, missing } => {
                let value = reads.map_or_else(|| self.unknown(missing), |reads| self.expected(&reads));
                Line::with(
                    format!("The {tool} works both ways"),
                    "At its stop a gauge reads its relief; more or less than expected, stop: a relief stands wrong.",
                    value,
                )
            }
            Trial::ToolStands { tool } => {
                Line::new(format!("The {tool} stands still while the attachment turns"), "If it creeps, stop.")
            }
            Trial::TurnsRight { slow } => {
                let how = match slow {
                    Slow::Engine => "At low idle, for a moment.",
                    Slow::Setting => "With the machine's flow setting at its lowest, then as the setting sheet says.",
                    Slow::Divider | Slow::Regulator | Slow::Cannot => {
                        "Low idle is not low speed here: switched on for a moment, everybody beyond the throw distance."
                    }
                };
                Line::new(
                    "It turns the right way, evenly",
                    format!(
                        "Oil warmed before by the machine's functions. {how} Seen from the closed cab: as the arrow says."
                    ),
                )
            }
            Trial::StopsAndStays => {
                Line::new("It stops when let go or left, and stays off", "Also when power comes back.")
            }
            Trial::Readings => Line::new(
                "Read the instruments",
                "List B of the setting sheet, from the closed cab; beyond a limit, stop.",
            ),
        }
    }
}

/// What hangs there.
fn tool(position: Position) -> &'static str {
    if position == Position::Bucket { "the bucket" } else { "the attachment" }
}

fn bare(name: &str) -> &str {
    name.strip_prefix("the ").unwrap_or(name)
}

/// How pressure is let out.
fn relieve(how: Relieve) -> &'static str {
    match how {
        Relieve::Lever => "Ignition on, engine off: work the circuit's lever or pedal all ways, several times.",
        Relieve::HeadValve => "Hold the attachment's own valve on meanwhile: what it shuts in has no other way out.",
        Relieve::DividerVent => "Vent the divider: no lever reaches its line.",
        Relieve::TankBreather => "Open the tank's breather or cap slowly until no pressure is left in the tank.",
        Relieve::AccumulatorKeeps => "The gas accumulator keeps its charge: do not open it.",
        Relieve::FunctionsHold => {
            "The lines of its other functions (door and the like) may hold pressure still, parted too: open none."
        }
        Relieve::GaugeAtNothing => "A gauge at the couplings reads nothing; only then open a line.",
    }
}
