//! Switch-back and its reverse in words: each for a second fitter, without the first.

use super::{Line, Section, section};
use crate::pairing::sheets::{Item, Position, Relieve, Step, SwitchBack, Trial};
use crate::wording::Words;

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

    fn step(&self, step: &Step) -> Line {
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
                        "case line, last of the lines"
                    } else {
                        "pressure and return couplings"
                    }
                )
            }
            (Item::CaseLine, _) => "Connect the case line, first of the lines".to_owned(),
            (Item::Couplings { .. }, _) => "Connect pressure and return couplings".to_owned(),
            (Item::Plug, Position::Capped) => "Pull the attachment's plug".to_owned(),
            (Item::Plug, _) => "Plug the attachment in".to_owned(),
            (Item::Mounting { coupler: true }, Position::Bucket) => {
                "Set the attachment down, release the coupler, take the bucket up".to_owned()
            }
            (Item::Mounting { coupler: true }, _) => {
                "Set the bucket down, release the coupler, take the attachment up".to_owned()
            }
            (Item::Mounting { coupler: false }, Position::Bucket) => {
                "Support the attachment, drive the pins out, pin the bucket on".to_owned()
            }
            (Item::Mounting { coupler: false }, _) => {
                "Support the bucket, drive the pins out, pin the attachment on".to_owned()
            }
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
        Line::with(title, "", place)
    }

    fn proof(&self, item: &Item) -> String {
        let fixed = match item {
            Item::Relief => return format!("With a gauge, the line dead-ended, oil at {} or more.", self.warm()),
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
            Trial::NoLeak => Line::new("Search for leaks with a piece of card", "Never by hand."),
            Trial::Bucket => Line::new(
                "Bucket and functions",
                "Boom, arm, bucket, slew and travel work as before, and nothing creeps.",
            ),
            Trial::Tool { tool, reads, missing } => {
                let value = reads.map_or_else(|| self.unknown(missing), |reads| self.expected(&reads));
                Line::with(
                    format!("The {tool} works both ways"),
                    "At its stop a gauge reads its relief; more than that, stop: a relief stands wrong.",
                    value,
                )
            }
            Trial::ToolStands { tool } => {
                Line::new(format!("The {tool} stands still while the attachment turns"), "If it creeps, stop.")
            }
            Trial::TurnsRight => {
                Line::new("At low idle it turns the right way, evenly", "As the arrow on the attachment says.")
            }
            Trial::StopsAndStays => {
                Line::new("It stops when let go or left, and stays off", "Also when power comes back.")
            }
            Trial::Readings => Line::new("Read the instruments", "As the setting sheet says; beyond a limit, stop."),
        }
    }
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
        Relieve::GaugeAtNothing => "A gauge at the couplings reads nothing; only then open a line.",
    }
}
