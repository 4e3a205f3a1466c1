//! Words of the spec plate: what a figure is called, how an answer reads, what to type.

use super::Words;
use crate::quantity::{Amount, Dimension, Length, Named, Stated, Unit, UnitSystem};
use crate::record::plate::{Answer, Figure};
use crate::table::Mounting;

impl Words<'_> {
    /// What a figure of the plate is called.
    pub fn figure_title(&self, figure: Figure) -> &'static str {
        match figure {
            Figure::OperatingMass => "Operating mass",
            Figure::Flow => "Auxiliary flow, greatest",
            Figure::Relief => "Auxiliary relief",
            Figure::Mounting => "Mounting",
            Figure::Pin => "Pin diameter",
            Figure::StickWidth => "Width of the stick",
            Figure::PinCentres => "Distance of the pins, centre to centre",
            Figure::EnginePower => "Engine power, net",
            Figure::WorkingSpeed => "Engine speed at work",
            Figure::HighIdle => "Engine speed without load",
            Figure::FlowSetting => "Flow can be set from … to",
            Figure::FlowLocked => "Can that setting be locked?",
            Figure::ReliefRange => "Relief can be set from … to",
            Figure::ReturnRoute => "Way back of the oil",
            Figure::ReturnLoss => "Pressure in the return",
            Figure::ReturnLossFlow => "… measured at a flow of",
            Figure::ReturnFilter => "Does the return pass a filter?",
            Figure::SupplyBore => "Supply hose, bore",
            Figure::SupplyLength => "Supply hose, length",
            Figure::ReturnBore => "Return hose, bore",
            Figure::ReturnLength => "Return hose, length",
            Figure::CaseLine => "Is there a case line?",
            Figure::CaseBore => "Case line, bore",
            Figure::CaseLength => "Case line, length",
            Figure::OilGrade => "Oil in the tank",
        }
    }

    /// Where on the machine a figure is read.
    pub fn figure_place(&self, figure: Figure) -> &'static str {
        match figure {
            Figure::Pin => "calliper on a pin, where it is not worn",
            Figure::StickWidth => "tape, across the end of the stick between the ears",
            Figure::PinCentres => "tape, from the middle of one pin to the middle of the other",
            Figure::Mounting => {
                "look at the end of the arm or the lift frame; a standard is named on the coupler's plate"
            }
            Figure::ReturnRoute => {
                "circuit drawing; follow the return hose from the coupling: to the valve, or past it to the tank"
            }
            Figure::WorkingSpeed => "display or plate on the engine: the speed at which flows are stated",
            Figure::FlowSetting => "display menu or operator's manual: least and greatest",
            Figure::ReliefRange => "service manual: to what the valve may be set; leave it empty when it is sealed",
            Figure::ReturnLossFlow => "flow tester, at the same moment as the gauge",
            Figure::SupplyBore | Figure::ReturnBore | Figure::CaseBore => {
                "print on the hose; a dash size is in sixteenths of an inch"
            }
            Figure::SupplyLength | Figure::ReturnLength | Figure::CaseLength => "tape, from the valve to the coupling",
            other => self.place(other.settles()),
        }
    }

    /// What to type, in the reader's units first.
    pub fn figure_example(&self, figure: Figure) -> String {
        let us = self.units == UnitSystem::UsCustomary;
        let either = |metric: &str, customary: &str| {
            if us { format!("{customary} or {metric}") } else { format!("{metric} or {customary}") }
        };
        let own = |metric: &str, customary: &str| if us { customary } else { metric }.to_owned();
        match figure.answer() {
            Answer::YesNo | Answer::Choice(_) => String::new(),
            Answer::Range(Dimension::Flow) => own("30..118 L/min", "8..31 gpm"),
            Answer::Range(_) => own("180..250 bar", "2600..3600 psi"),
            Answer::Quantity(_) => match figure {
                Figure::OperatingMass => either("3640 kg", "8020 lb"),
                Figure::Relief => either("215 bar", "3120 psi"),
                Figure::ReturnLoss => either("9 bar", "130 psi"),
                Figure::EnginePower => either("36 kW", "48 hp"),
                Figure::WorkingSpeed => "2200 rpm".to_owned(),
                Figure::HighIdle => "2350 rpm".to_owned(),
                Figure::Pin => either("45 mm", "1 3/4 in"),
                Figure::StickWidth => either("178 mm", "7 in"),
                Figure::PinCentres => either("225 mm", "8 7/8 in"),
                Figure::SupplyBore | Figure::ReturnBore => either("15.9 mm", "5/8 in"),
                Figure::CaseBore => either("12.7 mm", "1/2 in"),
                Figure::SupplyLength | Figure::ReturnLength | Figure::CaseLength => either("5.6 m", "18 ft"),
                _ => either("62 L/min", "16 gpm"),
            },
        }
    }

    /// One of the answers to choose from.
    pub fn figure_choice(&self, answer: &str) -> String {
        let words = match answer {
            "pins" => "two pins",
            "iso-24410" => "plate of compact loaders (ISO 24410)",
            "iso-23727" => "wheel-loader coupler (ISO 23727)",
            "iso-730-1" => "three-point hitch, category 1 (ISO 730)",
            "iso-730-2" => "three-point hitch, category 2 (ISO 730)",
            "iso-730-3" => "three-point hitch, category 3 (ISO 730)",
            "spool" => "through the valve",
            "direct" => "by a line of its own to the tank",
            other => {
                return other.strip_prefix("vg-").map_or_else(|| other.to_owned(), |grade| format!("ISO VG {grade}"));
            }
        };
        words.to_owned()
    }

    /// How a machine or an attachment is mounted: any one of these will do.
    pub fn mountings(&self, mountings: &[Mounting]) -> String {
        let one = |mounting: &Mounting| match mounting {
            Mounting::Standard { standard } => self.figure_choice(standard.name()),
            Mounting::Pins { pin, width, centres } => {
                let amount = |stated: &Stated<Length>| self.amount(Amount::of(stated.nominal));
                let pieces = [
                    Some(format!("pins of {}", amount(pin))),
                    width.as_ref().map(|width| format!("{} wide", amount(width))),
                    centres.as_ref().map(|centres| format!("{} apart", amount(centres))),
                ];
                pieces.into_iter().flatten().collect::<Vec<_>>().join(", ")
            }
        };
        match mountings {
            [] => "not stated".to_owned(),
            all => all.iter().map(one).collect::<Vec<_>>().join("; or "),
        }
    }

    /// The units in which a figure is likely meant when none was typed, the reader's first.
    pub fn likely_units(&self, figure: Figure) -> Vec<&'static str> {
        let (Answer::Quantity(dimension) | Answer::Range(dimension)) = figure.answer() else { return Vec::new() };
        let long = matches!(figure, Figure::SupplyLength | Figure::ReturnLength | Figure::CaseLength);
        let mut units: Vec<Unit> = UnitSystem::ALL.iter().map(|&system| Unit::shown(dimension, system)).collect();
        if long {
            units = vec![Unit::Metre, Unit::Foot];
        }
        if self.units == UnitSystem::UsCustomary {
            units.reverse();
        }
        units.dedup();
        units.into_iter().map(|unit| self.unit(unit)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Kind;
    use crate::quantity::text;
    use crate::wording::PlainNumbers;

    const METRIC: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };

    /// What a form proposes to type, its own grammar reads.
    #[test]
    fn every_example_and_every_likely_unit_can_be_read() {
        use crate::quantity::{AngularVelocity, Length, Mass, Power, Pressure, VolumeRate};
        fn reads<Q: Kind>(text: &str) -> bool {
            text::read::<Q>(text).is_ok()
        }
        let of = |dimension: Dimension, text: &str| match dimension {
            Dimension::Flow => reads::<VolumeRate>(text),
            Dimension::Pressure => reads::<Pressure>(text),
            Dimension::Power => reads::<Power>(text),
            Dimension::RotationalSpeed => reads::<AngularVelocity>(text),
            Dimension::Mass => reads::<Mass>(text),
            _ => reads::<Length>(text),
        };
        for &figure in Figure::ALL {
            let (Answer::Quantity(dimension) | Answer::Range(dimension)) = figure.answer() else { continue };
            for example in METRIC.figure_example(figure).split(" or ") {
                assert!(of(dimension, example), "{figure:?}: {example}");
            }
            for unit in METRIC.likely_units(figure) {
                assert!(of(dimension, &format!("12 {unit}")), "{figure:?}: 12 {unit}");
            }
        }
    }
}
