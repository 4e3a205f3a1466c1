//! The changes in words.

use super::reasons::list;
use super::{Words, capital, counted};
use crate::pairing::{Change, ChangeReason, Setting, SettingId};
use crate::table::{ChangeId, ExtraValve};

impl Words<'_> {
    /// A change by its name alone.
    pub fn change_name(&self, id: ChangeId) -> &'static str {
        match id {
            ChangeId::MachineFlowSetting => "setting the machine's own flow",
            ChangeId::ReliefSetting => "resetting the relief",
            ChangeId::DirectReturn => "a direct return to the tank",
            ChangeId::ReturnFilter => "a filter in the return",
            ChangeId::CaseLine => "a case line to the tank",
            ChangeId::FlowLimit => "a sealed flow regulator",
            ChangeId::MountingKit => "a mounting kit",
            ChangeId::EngineSpeed => "a higher engine speed",
            ChangeId::WarmUp => "warming the oil first",
            ChangeId::FilterReturn => "a return into the filter and cooler manifold",
            ChangeId::ReturnLine => "a larger return line",
            ChangeId::PriorityShare => "a priority flow divider with its relief",
            ChangeId::OwnRelief => "a relief block of the attachment's own",
            ChangeId::IsolateTool => "shutting the other tool off",
            ChangeId::ToolRelief => "a relief on the other tool's side",
            ChangeId::Couplings => "other couplings",
            ChangeId::SupplyLine => "a larger supply line",
            ChangeId::HoseClass => "hose of a higher class",
            ChangeId::DemandSignal => "a signal to the pump",
            ChangeId::ReverseLock => "a lock of the reverse direction",
            ChangeId::ReturnRelief => "a low-pressure relief on the return",
            ChangeId::MakeUpCheck => "a run-down check valve",
            ChangeId::Cooler => "a cooler in the return",
            ChangeId::OilChange => "an oil change",
            ChangeId::DoorCircuit => "a valve for the attachment's other functions",
            ChangeId::Harness => "wiring with buttons and seat switch",
            ChangeId::Guarding => "guards for the operator",
        }
    }

    /// What is done.
    pub fn change_title(&self, change: &Change) -> String {
        let setting = |name: SettingId| change.settings.iter().find(|setting| setting.name == name);
        let with = |name: SettingId, text: &str| {
            setting(name).map_or_else(String::new, |setting| format!("{text}{}", self.amount(setting.value)))
        };
        match change.id {
            ChangeId::MachineFlowSetting => format!("Set the machine's own flow{}", with(SettingId::Flow, " to ")),
            ChangeId::ReliefSetting => format!("Reset the relief{}", with(SettingId::Relief, " to ")),
            ChangeId::DirectReturn => {
                format!("Return direct to the tank by a changeover valve{}", with(SettingId::Bore, ", bore "))
            }
            ChangeId::ReturnFilter => {
                format!("Filter in the return{}", with(SettingId::RatedFlow, ", rated for "))
            }
            ChangeId::CaseLine => format!("Case line to the tank{}", with(SettingId::Bore, ", bore ")),
            ChangeId::FlowLimit => format!("Sealed flow regulator{}", with(SettingId::Flow, " set to ")),
            ChangeId::MountingKit => format!("Mounting kit{}", with(SettingId::Pin, " for pins of ")),
            ChangeId::EngineSpeed => format!("Work at a higher engine speed{}", with(SettingId::EngineSpeed, ", ")),
            ChangeId::WarmUp => {
                format!("Warm the oil at little flow before full speed{}", with(SettingId::OilTemperature, ", to "))
            }
            ChangeId::FilterReturn => {
                format!(
                    "Return into the spare port of the filter and cooler manifold{}",
                    with(SettingId::Bore, ", bore ")
                )
            }
            ChangeId::ReturnLine => format!("Larger return line{}", with(SettingId::Bore, ", bore ")),
            ChangeId::PriorityShare => {
                format!(
                    "Priority flow divider ahead of the valve{}{}{}",
                    with(SettingId::Flow, ", set to "),
                    with(SettingId::ShareAtWork, ": "),
                    if setting(SettingId::ShareAtWork).is_some() { " of the pumps' oil at work" } else { "" },
                ) + &with(SettingId::Relief, "; relief on its port ")
            }
            ChangeId::OwnRelief => {
                format!("Relief block of the attachment's own{}", with(SettingId::HeadRelief, ", set to "))
            }
            ChangeId::IsolateTool => format!(
                "Shut the other tool off on both lines, with a relief on its side{}",
                with(SettingId::ToolRelief, " set to ")
            ),
            ChangeId::ToolRelief => {
                format!("Relief on the other tool's side{}", with(SettingId::ToolRelief, ", set to "))
            }
            ChangeId::Couplings => format!(
                "Couplings for machine and attachment{}{}",
                with(SettingId::Bore, ", size "),
                with(SettingId::RatedPressure, ", rated for ")
            ),
            ChangeId::SupplyLine => format!("Larger supply line{}", with(SettingId::Bore, ", bore ")),
            ChangeId::HoseClass => {
                format!("Hose of a higher class, same bore{}", with(SettingId::RatedPressure, ", rated for "))
            }
            ChangeId::DemandSignal => "Signal to the pump that the attachment wants oil".to_owned(),
            ChangeId::ReverseLock => "Lock the reverse direction".to_owned(),
            ChangeId::ReturnRelief => {
                format!(
                    "Low-pressure relief from the return to the tank{}",
                    with(SettingId::ReturnRelief, ", opening at ")
                )
            }
            ChangeId::MakeUpCheck => "Run-down check valve across the motor".to_owned(),
            ChangeId::Cooler => format!("Cooler in the return{}", with(SettingId::Conductance, ", ")),
            ChangeId::OilChange => "Flush and fill the oil that the attachment demands".to_owned(),
            ChangeId::DoorCircuit => match &change.valve {
                Some(ExtraValve::Diverter) => {
                    "Diverter in the main lines for the attachment's other functions".to_owned()
                }
                _ => "Valve block on the attachment for its other functions".to_owned(),
            },
            ChangeId::Harness => match change.outputs {
                Some(count) => {
                    format!("Wiring with buttons, fuses and seat switch: {}", counted(count, "output", "outputs"))
                }
                None => "Seat switch, and a hold for the flow".to_owned(),
            },
            ChangeId::Guarding => "Fit the guards that the attachment demands".to_owned(),
        }
    }

    /// Why it is done.
    pub fn change_reason(&self, change: &Change) -> String {
        let titles: Vec<_> = change.mends.iter().map(|check| self.check_title(*check).to_lowercase()).collect();
        let titles: Vec<_> = titles.iter().map(String::as_str).collect();
        let named = list(&titles);
        let sentence = match change.reason {
            ChangeReason::Mends => format!("without it {named} would not be met."),
            ChangeReason::Settles => format!(
                "it settles {named}, which nobody can say today; reading the missing figure may make it unnecessary."
            ),
            ChangeReason::Follows => format!("another change of this list brings the need: {named}."),
        };
        capital(&sentence)
    }

    /// A setting by name and value.
    pub fn setting(&self, setting: &Setting) -> String {
        format!("{} {}", self.setting_name(setting.name), self.amount(setting.value))
    }

    /// What a setting sets.
    pub fn setting_name(&self, setting: SettingId) -> &'static str {
        match setting {
            SettingId::Flow => "flow",
            SettingId::Relief => "relief, all flow over it",
            SettingId::Bore => "bore",
            SettingId::RatedFlow => "rated flow",
            SettingId::Pin => "pin",
            SettingId::RatedPressure => "rated pressure",
            SettingId::ShareAtWork => "share of the pumps' oil at work",
            SettingId::ShareFree => "share of the pumps' oil free running",
            SettingId::ToolRelief => "relief on the other tool's side",
            SettingId::HeadRelief => "relief of the attachment's own, all flow over it",
            SettingId::EngineSpeed => "engine speed",
            SettingId::OilTemperature => "oil temperature",
            SettingId::Conductance => "heat per kelvin",
            SettingId::ReturnRelief => "opening pressure",
        }
    }
}
