//! The codes of figures and verdicts within a link. They stay what they are, whatever a figure is called some day: links
//! that were sent hold them.

use super::super::plate::Figure;
use fit::Verdict;
use quantity::Named;

/// The code of a figure: two letters.
pub(super) fn of_figure(figure: Figure) -> &'static str {
    match figure {
        Figure::OperatingMass => "ma",
        Figure::Flow => "fl",
        Figure::Relief => "re",
        Figure::End => "en",
        Figure::Mounting => "mo",
        Figure::Pin => "pi",
        Figure::StickWidth => "sw",
        Figure::PinCentres => "pc",
        Figure::Coupler => "co",
        Figure::CouplerMass => "cm",
        Figure::CouplerCapacity => "cc",
        Figure::CouplerSecured => "cs",
        Figure::LiftReach => "lr",
        Figure::LiftMass => "lm",
        Figure::TippingEdge => "te",
        Figure::BoomFoot => "bf",
        Figure::RatedCapacity => "rc",
        Figure::TippingAxis => "ta",
        Figure::LoadCentre => "lc",
        Figure::EnginePower => "ep",
        Figure::WorkingSpeed => "ws",
        Figure::HighIdle => "hi",
        Figure::FlowSetting => "fs",
        Figure::FlowLocked => "fk",
        Figure::ReliefRange => "rr",
        Figure::FedFrom => "ff",
        Figure::PumpControl => "pu",
        Figure::PumpPressure => "pp",
        Figure::Ways => "wa",
        Figure::ReverseLocked => "rv",
        Figure::Continuous => "cn",
        Figure::StopsAndStaysOff => "ss",
        Figure::UnloadsWhenOff => "uo",
        Figure::OtherTool => "ot",
        Figure::OtherToolPressure => "op",
        Figure::OtherToolRelief => "or",
        Figure::ReturnRoute => "rt",
        Figure::ReturnLoss => "rl",
        Figure::ReturnLossFlow => "rf",
        Figure::ReturnShut => "rs",
        Figure::ReturnFilter => "ri",
        Figure::FilterFineness => "fi",
        Figure::ThroughCooler => "tc",
        Figure::SupplyBore => "sb",
        Figure::SupplyLength => "sl",
        Figure::SupplyStandard => "sd",
        Figure::SupplyRating => "sr",
        Figure::ReturnBore => "rb",
        Figure::ReturnLength => "rn",
        Figure::ReturnStandard => "rd",
        Figure::ReturnRating => "rg",
        Figure::CouplingStandard => "ks",
        Figure::CouplingSize => "kz",
        Figure::CouplingRating => "kr",
        Figure::CouplingScrewed => "kw",
        Figure::CaseLine => "ca",
        Figure::CasePort => "cp",
        Figure::CaseBore => "cb",
        Figure::CaseLength => "cl",
        Figure::OilGrade => "og",
        Figure::OilKind => "ok",
        Figure::OilCleanliness => "oc",
        Figure::FrontGuard => "gf",
        Figure::ImpactWindow => "gw",
        Figure::Voltage => "vo",
        Figure::SpareOutputs => "so",
        Figure::OutputCurrent => "ou",
        Figure::SpareButtons => "bu",
    }
}

/// The figure with this code.
pub(super) fn to_figure(code: &str) -> Option<Figure> {
    Figure::ALL.iter().copied().find(|figure| of_figure(*figure) == code)
}

/// The letter of a verdict.
pub(super) fn of_verdict(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::Fits) => "f",
        Some(Verdict::FitsAfterChanges) => "c",
        Some(Verdict::CannotSay) => "q",
        Some(Verdict::DoesNotFit) => "n",
        None => "x",
    }
}

/// The verdict with this letter; the letter of none is not among them.
pub(super) fn to_verdict(letter: &str) -> Option<Verdict> {
    Verdict::ALL.iter().copied().find(|verdict| of_verdict(Some(*verdict)) == letter)
}
