//! Words of the spec plate: what a figure is called, how an answer reads, what to type.

use super::{Words, counted};
use fit::Verdict;
use quantity::{Amount, Dimension, Length, Mass, Named, Quantity, Stated, Unit, UnitSystem};
use record::plate::{Answer, Figure, Holds, Plate};
use table::{CarrierClass, Mounting};

impl Words<'_> {
    /// A name for a machine of one's own, until it is given one: its class, and its mass where that is known.
    pub fn own_name(&self, class: CarrierClass, mass: Option<Mass>) -> String {
        let class = self.carrier_class_plain(class);
        match mass {
            None => format!("My {class}"),
            Some(mass) if self.units == UnitSystem::Metric => {
                let tonnes = self.decimal(Unit::Tonne.of_si(mass.si()), 1);
                format!("{tonnes} t {class}")
            }
            Some(mass) => format!("{} {class}", self.amount(Amount::of(mass))),
        }
    }

    /// For how many of the chosen attachments a question decides.
    pub fn decides_for(&self, heads: usize, of: usize) -> String {
        format!("This decides for {heads} of {}.", counted(of, "attachment", "attachments"))
    }

    /// How many questions of a plate are left, at most.
    pub fn still_to_ask(&self, left: usize) -> String {
        match left {
            0 => "This is the last one. Every other question comes on a sheet, when it decides there.".to_owned(),
            _ => format!("At most {} after this.", counted(left, "question", "questions")),
        }
    }

    /// What a sketch beside a question shows.
    pub fn sketch_of_place(&self) -> &'static str {
        "A sketch of where it is read"
    }

    /// What a first answer needs.
    pub fn no_first_answer_yet(&self) -> &'static str {
        "Class and mass are enough for a first answer."
    }

    /// Figures that stand on a plate and cannot be used as they stand.
    pub fn figures_refused(&self, figures: &[Figure]) -> Option<String> {
        let named: Vec<_> = figures.iter().map(|figure| self.figure_title(*figure).to_lowercase()).collect();
        let named: Vec<_> = named.iter().map(String::as_str).collect();
        (!named.is_empty())
            .then(|| format!("Not used as it stands: {}. See what is wrong below.", super::reasons::list(&named)))
    }

    /// A mass that is of another size of excavator.
    pub fn other_size(&self, size: CarrierClass) -> String {
        format!("By its mass it is of the class “{}”.", self.carrier_class(size))
    }

    /// How many figures stand on a plate.
    pub fn figures_written(&self, count: usize) -> String {
        match count {
            0 => "nothing yet".to_owned(),
            _ => counted(count, "figure", "figures"),
        }
    }

    /// What was typed for a figure, as it is read.
    pub fn figure_typed(&self, figure: Figure, typed: &str) -> String {
        match figure.answer() {
            Answer::Choice(_) => self.figure_choice(typed),
            _ => typed.to_owned(),
        }
    }

    /// How many attachments may fit as long as what is not read is taken from a machine like it.
    pub fn typically(&self, verdicts: &[Verdict]) -> String {
        let may = verdicts.iter().filter(|verdict| **verdict <= Verdict::FitsAfterChanges).count();
        format!("Typical for its class: {may} may fit")
    }

    /// On what a first answer rests.
    pub fn typical_as(&self, machine: &str) -> String {
        format!("As on the {machine}, the nearest in mass here. Only figures read on yours count in the end.")
    }

    /// Whose figures a machine of one's own has, as long as nobody has checked them on it; none when they are its own.
    pub fn whose_figures(&self, plate: &Plate) -> Option<String> {
        if plate.somebody_elses {
            return Some(self.somebody_elses().to_owned());
        }
        (!plate.taken_from.is_empty()).then(|| {
            format!(
                "The machine's figures are those of the {}, as far as a plate has a place for them: check them at the machine before \
                 you rely on this, and read what is asked for.",
                plate.taken_from
            )
        })
    }

    /// How far a typed figure may be off before the answer changes.
    pub fn holds(&self, holds: &Holds) -> String {
        let range = match (holds.from, holds.to) {
            (None, None) => return "holds, also when it is well off".to_owned(),
            (Some(from), None) => format!("holds from {} on", self.at_least(from)),
            (None, Some(to)) => format!("holds up to {}", self.at_most(to)),
            (Some(from), Some(to)) => format!("holds from {} to {}", self.at_least(from), self.at_most(to)),
        };
        if holds.again { format!("{range}: that is within what it was read with, so read it again") } else { range }
    }

    /// How far the weighing of typed figures has come.
    pub fn weighing(&self, done: usize, of: usize) -> String {
        format!("Trying how far each of {} may be off … {done} done", counted(of, "figure", "figures"))
    }

    /// What becomes of a figure that is typed where the machine is one of a table.
    pub fn becomes_own(&self, plate: &Plate) -> String {
        match plate.taken_from.as_str() {
            "" => "It is kept with your own machines.".to_owned(),
            from => format!("It makes a machine of your own, like the {from}, kept in this browser."),
        }
    }

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
            Figure::Coupler => "Is there a coupler for attachments?",
            Figure::CouplerMass => "Coupler, mass",
            Figure::CouplerCapacity => "Coupler, what it may carry",
            Figure::CouplerSecured => "Is the coupler's lock proven by its build?",
            Figure::LiftReach => "Lift chart, greatest reach",
            Figure::LiftMass => "Lift chart, load at that reach",
            Figure::TippingEdge => "From slew axis to tipping edge",
            Figure::BoomFoot => "From slew axis to boom foot",
            Figure::RatedCapacity => "Rated operating capacity",
            Figure::TippingAxis => "From front axle to coupler",
            Figure::LoadCentre => "From coupler to middle of the bucket",
            Figure::EnginePower => "Engine power, net",
            Figure::WorkingSpeed => "Engine speed at work",
            Figure::HighIdle => "Engine speed without load",
            Figure::FlowSetting => "Flow can be set from … to",
            Figure::FlowLocked => "Can that setting be locked?",
            Figure::ReliefRange => "Relief can be set from … to",
            Figure::MainRelief => "The machine's main relief",
            Figure::FedFrom => "Where the circuit gets its oil",
            Figure::End => "End of the machine that the circuit feeds",
            Figure::PumpControl => "How the pump is commanded",
            Figure::PumpPressure => "Pressure at which the pump cuts off, or is rated for",
            Figure::Ways => "Ways in which oil can be sent",
            Figure::ReverseLocked => "Is the other way locked?",
            Figure::Continuous => "Does the flow stay on without a hand?",
            Figure::UnloadsWhenOff => "Does its oil go to the tank unloaded while the attachment's valve is shut?",
            Figure::StopsAndStaysOff => "Does it stop without operator or power, and stay off?",
            Figure::OtherTool => "Is another tool on the same valve?",
            Figure::OtherToolPressure => "Other tool, pressure that it is rated for",
            Figure::OtherToolRelief => "Has the other tool a relief of its own?",
            Figure::ReturnRoute => "Where the oil returns",
            Figure::ReturnLoss => "Pressure in the return",
            Figure::ReturnLossFlow => "… measured at a flow of",
            Figure::ReturnShut => "Can anything shut the return?",
            Figure::ReturnFilter => "Does the return pass a filter?",
            Figure::FiltrationRating => "Filtration rating of that filter, in µm",
            Figure::ThroughCooler => "Does the return pass the cooler?",
            Figure::SupplyBore => "Supply hose, bore",
            Figure::SupplyLength => "Supply hose, length",
            Figure::SupplyStandard => "Supply hose, kind",
            Figure::SupplyRating => "Supply hose, rated pressure",
            Figure::ReturnBore => "Return hose, bore",
            Figure::ReturnLength => "Return hose, length",
            Figure::ReturnStandard => "Return hose, kind",
            Figure::ReturnRating => "Return hose, rated pressure",
            Figure::CouplingStandard => "Hose couplings, kind",
            Figure::CouplingSize => "Hose couplings, size",
            Figure::CouplingRating => "Hose couplings, rated pressure",
            Figure::CouplingScrewed => "Are the hose couplings screwed, so that they lock?",
            Figure::CaseLine => "Is there a case drain?",
            Figure::CasePort => "Does it end in the tank by a port of its own?",
            Figure::CaseBore => "Case drain, bore",
            Figure::CaseLength => "Case drain, length",
            Figure::OilGrade => "Oil in the tank",
            Figure::OilKind => "Oil in the tank, kind",
            Figure::OilCleanliness => "Oil in the tank, cleanliness",
            Figure::FrontGuard => "Is a front guard fitted?",
            Figure::ImpactWindow => "Is the window impact-resistant?",
            Figure::Voltage => "Voltage",
            Figure::SpareOutputs => "Spare switched outputs, how many",
            Figure::OutputCurrent => "… each switches up to",
            Figure::SpareButtons => "Spare buttons, how many",
        }
    }

    /// Where on the machine a figure is read.
    pub fn figure_place(&self, figure: Figure) -> &'static str {
        match figure {
            Figure::Pin => "calliper on a pin, where it is not worn",
            Figure::StickWidth => "tape, across the end of the stick between the ears",
            Figure::PinCentres => "tape, from the middle of one pin to the middle of the other",
            Figure::End => "follow the hoses from the valve; mounting and coupler here are those of the same end",
            Figure::Mounting => {
                "look at the end of the arm or the lift frame; a standard is named on the coupler's plate"
            }
            Figure::ReturnRoute => {
                "circuit drawing; follow the return hose from the coupling: to the valve, or past it to the tank"
            }
            Figure::WorkingSpeed => "display or plate on the engine: the speed at which flows are stated",
            Figure::FlowSetting => "display menu or operator's manual: least and greatest",
            Figure::ReliefRange => "service manual: to what the valve may be set; leave it empty when it is sealed",
            Figure::MainRelief => "service manual; gauge at the pump with a cylinder at its stop",
            Figure::ReturnLossFlow => "flow tester, at the same moment as the gauge",
            Figure::Coupler => "look between arm or frame and bucket; a bucket on its own pins has none",
            Figure::CouplerMass | Figure::CouplerCapacity => "plate on the coupler; its manual",
            Figure::LiftReach => {
                "lift chart in the cab (ISO 10567): the farthest reach with a figure, the greatest at ground level"
            }
            Figure::LiftMass => "the same column, over the side: the least figure in it",
            Figure::TippingEdge => "tape: from the slew axis sideways to the edge of the tracks",
            Figure::BoomFoot => "tape: from the slew axis forward to the pin at the foot of the boom",
            Figure::RatedCapacity => "plate on the machine; operator's manual (ISO 14397-1)",
            Figure::TippingAxis => {
                "tape, arm as far out as it goes: from the front axle or front roller to the face of the coupler"
            }
            Figure::LoadCentre => "tape: from the face of the coupler to the middle of a heaped bucket",
            Figure::ReverseLocked => "menu, or a stop at the pedal: oil cannot be sent back by mistake",
            Figure::OtherToolRelief => "follow its lines: a relief block between valve and tool",
            Figure::SupplyBore | Figure::ReturnBore | Figure::CaseBore => {
                "print on the hose; a dash size is in sixteenths of an inch"
            }
            Figure::SupplyStandard | Figure::ReturnStandard => {
                "print on the hose: EN 853, EN 856 or SAE 100R with its type; it counts with the bore"
            }
            Figure::SupplyRating | Figure::ReturnRating => {
                "print on the hose: a pressure there counts before the kind; of several pieces the least"
            }
            Figure::CouplingStandard => "print on the coupling; flat face, pushed cone, or screwed together",
            Figure::CouplingSize => "print on the coupling; else measure its thread and ask a hose shop",
            Figure::FrontGuard => "plate on the guard: ISO 10262; it counts with the answer on the window",
            Figure::ImpactWindow => "mark in the corner of the pane; it counts with the answer on the front guard",
            Figure::OutputCurrent => "meter at the connector, under load; fuse",
            Figure::SupplyLength | Figure::ReturnLength | Figure::CaseLength => "tape, from the valve to the coupling",
            other => self.place(other.settles()),
        }
    }

    /// What to type, in the reader's units; any others are read as well.
    pub fn figure_example(&self, figure: Figure) -> String {
        let us = self.units == UnitSystem::UsCustomary;
        let own = |metric: &str, customary: &str| if us { customary } else { metric }.to_owned();
        match figure.answer() {
            Answer::YesNo | Answer::Choice(_) => String::new(),
            Answer::Count if figure == Figure::FiltrationRating => "10".to_owned(),
            Answer::Count => "2".to_owned(),
            Answer::Code => "20/18/15".to_owned(),
            Answer::Range(Dimension::Flow) => own("30..118 L/min", "8..31 gpm"),
            Answer::Range(_) => own("180..250 bar", "2600..3600 psi"),
            Answer::Quantity(_) => match figure {
                Figure::OperatingMass => own("3640 kg", "8020 lb"),
                Figure::CouplerMass => own("65 kg", "143 lb"),
                Figure::CouplerCapacity => own("900 kg", "1980 lb"),
                Figure::LiftMass => own("640 kg", "1410 lb"),
                Figure::RatedCapacity => own("950 kg", "2090 lb"),
                Figure::LiftReach => own("4.5 m", "15 ft"),
                Figure::TippingEdge => own("800 mm", "31 in"),
                Figure::BoomFoot => own("250 mm", "10 in"),
                Figure::TippingAxis => own("1050 mm", "41 in"),
                Figure::LoadCentre => own("400 mm", "16 in"),
                Figure::Relief | Figure::OtherToolPressure => own("215 bar", "3120 psi"),
                Figure::SupplyRating | Figure::ReturnRating | Figure::PumpPressure | Figure::MainRelief => {
                    own("280 bar", "4060 psi")
                }
                Figure::CouplingRating => own("250 bar", "3630 psi"),
                Figure::CouplingSize => own("12.5 mm", "1/2 in"),
                Figure::Voltage => "12 V".to_owned(),
                Figure::OutputCurrent => "8 A".to_owned(),
                Figure::ReturnLoss => own("9 bar", "130 psi"),
                Figure::EnginePower => own("36 kW", "48 hp"),
                Figure::WorkingSpeed => "2200 rpm".to_owned(),
                Figure::HighIdle => "2350 rpm".to_owned(),
                Figure::Pin => own("45 mm", "1 3/4 in"),
                Figure::StickWidth => own("178 mm", "7 in"),
                Figure::PinCentres => own("225 mm", "8 7/8 in"),
                Figure::SupplyBore | Figure::ReturnBore => own("15.9 mm", "5/8 in"),
                Figure::CaseBore => own("12.7 mm", "1/2 in"),
                Figure::SupplyLength | Figure::ReturnLength | Figure::CaseLength => own("5.6 m", "18 ft"),
                _ => own("62 L/min", "16 gpm"),
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
            "arm" => "digging arm",
            "loader" => "loader end",
            "spool" => "through the valve",
            "direct" => "by a line of its own to the tank",
            "one" => "one way only",
            "two" => "both ways",
            "valve" => "control valve",
            "power-beyond" => "power-beyond port",
            "pump-line" => "pump's line",
            "fixed" => "constant flow",
            "negative" => "negative control",
            "positive" => "positive control",
            "1sn" => "EN 853 1SN",
            "2sn" => "EN 853 2SN",
            "4sp" => "EN 856 4SP",
            "4sh" => "EN 856 4SH",
            "100r12" => "SAE 100R12",
            "100r13" => "SAE 100R13",
            "100r15" => "SAE 100R15",
            "tube" => "steel tube",
            "iso-6149" => "ISO 6149",
            "iso-1179" => "ISO 1179",
            "iso-11926" => "ISO 11926",
            "iso-8434-1" => "ISO 8434-1",
            "iso-6162" => "ISO 6162",
            "iso-16028" => "flat face (ISO 16028)",
            "iso-7241-a" => "poppet A (ISO 7241)",
            "iso-7241-b" => "poppet B (ISO 7241)",
            "iso-14541" => "screwed (ISO 14541)",
            "hm" => "mineral, HM",
            "hv" => "mineral, HV",
            "hees" => "synthetic ester, HEES",
            "engine-oil" => "engine oil",
            "utto" => "tractor oil, UTTO",
            other => {
                return other.strip_prefix("vg-").map_or_else(|| other.to_owned(), |grade| format!("ISO VG {grade}"));
            }
        };
        words.to_owned()
    }

    /// How a machine or an attachment is mounted: any one of these will do.
    pub fn mountings(&self, mountings: &[Mounting]) -> String {
        let named = |mounting: &Mounting| match mounting {
            Mounting::Standard { standard, .. } => self.figure_choice(standard.name()),
            Mounting::Pins { pin, width, centres, .. } => {
                let amount = |stated: &Stated<Length>| self.amount(Amount::of(stated.nominal));
                let pieces = [
                    Some(format!("pins of {}", amount(pin))),
                    width.as_ref().map(|width| format!("{} wide", amount(width))),
                    centres.as_ref().map(|centres| format!("{} apart", amount(centres))),
                ];
                pieces.into_iter().flatten().collect::<Vec<_>>().join(", ")
            }
        };
        let one = |mounting: &Mounting| match mounting.end() {
            Some(end) => format!("{} ({})", named(mounting), self.machine_end(end)),
            None => named(mounting),
        };
        match mountings {
            [] => "not stated".to_owned(),
            all => all.iter().map(one).collect::<Vec<_>>().join("; or "),
        }
    }

    /// The units in which a figure is likely meant when none was typed, the reader's first.
    pub fn likely_units(&self, figure: Figure) -> Vec<&'static str> {
        let (Answer::Quantity(dimension) | Answer::Range(dimension)) = figure.answer() else { return Vec::new() };
        let long =
            matches!(figure, Figure::SupplyLength | Figure::ReturnLength | Figure::CaseLength | Figure::LiftReach);
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
    use crate::PlainNumbers;
    use quantity::Quantity;
    use quantity::text;

    const METRIC: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };
    const US: Words = Words { numbers: &PlainNumbers, units: UnitSystem::UsCustomary };

    /// Two fields with one name would be one field to who hears them read out.
    #[test]
    fn every_figure_has_a_name_of_its_own_and_a_place() {
        let mut names: Vec<_> = Figure::ALL.iter().map(|figure| METRIC.figure_title(*figure)).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), Figure::ALL.len());
        for &figure in Figure::ALL {
            assert!(!METRIC.figure_place(figure).is_empty(), "{figure:?}");
            let Answer::Choice(answers) = figure.answer() else { continue };
            let mut shown: Vec<_> = answers.iter().map(|answer| METRIC.figure_choice(answer)).collect();
            shown.sort_unstable();
            shown.dedup();
            assert_eq!(shown.len(), answers.len(), "{figure:?}");
        }
    }

    #[test]
    fn a_typed_figure_says_from_where_to_where_it_holds() {
        let mass = |kilograms| Some(Amount::of(Mass::from_si(kilograms)));
        let holds = |from, to, again| METRIC.holds(&Holds { figure: Figure::OperatingMass, from, to, again });
        assert_eq!(holds(mass(1907.3), None, false), "holds from 1910 kg on");
        assert_eq!(
            holds(None, mass(2450.0), true),
            "holds up to 2450 kg: that is within what it was read with, so read it again"
        );
        assert_eq!(holds(mass(1907.3), mass(2450.0), false), "holds from 1910 kg to 2450 kg");
        assert_eq!(holds(None, None, false), "holds, also when it is well off");
    }

    #[test]
    fn a_machine_without_a_name_is_called_by_its_class_and_mass() {
        let name = |words: &Words, mass| words.own_name(CarrierClass::MidiExcavator, mass);
        assert_eq!(name(&METRIC, None), "My excavator");
        assert_eq!(name(&METRIC, Some(Mass::from_si(8100.0))), "8.1 t excavator");
        assert_eq!(name(&US, Some(Mass::from_si(8100.0))), "17\u{202f}900 lb excavator");
    }

    /// What a form proposes to type, its own grammar reads.
    #[test]
    fn every_example_and_every_likely_unit_can_be_read() {
        use quantity::{
            AngularVelocity, ElectricCurrent, ElectricPotential, Length, Mass, Power, Pressure, VolumeRate,
        };
        fn reads<Q: Quantity>(text: &str) -> bool {
            text::read::<Q>(text).is_ok()
        }
        let of = |dimension: Dimension, text: &str| match dimension {
            Dimension::Flow => reads::<VolumeRate>(text),
            Dimension::Pressure => reads::<Pressure>(text),
            Dimension::Power => reads::<Power>(text),
            Dimension::RotationalSpeed => reads::<AngularVelocity>(text),
            Dimension::Mass => reads::<Mass>(text),
            Dimension::Voltage => reads::<ElectricPotential>(text),
            Dimension::Current => reads::<ElectricCurrent>(text),
            _ => reads::<Length>(text),
        };
        for &figure in Figure::ALL {
            let (Answer::Quantity(dimension) | Answer::Range(dimension)) = figure.answer() else { continue };
            for words in [METRIC, US] {
                let example = words.figure_example(figure);
                assert!(of(dimension, &example), "{figure:?}: {example}");
            }
            for unit in METRIC.likely_units(figure) {
                assert!(of(dimension, &format!("12 {unit}")), "{figure:?}: 12 {unit}");
            }
        }
    }
}
