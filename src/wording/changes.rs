//! The changes in words.

use super::reasons::list;
use super::{Words, capital};
use crate::pairing::{Change, ChangeReason, Setting, SettingId};
use crate::table::ChangeId;

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
        let name = match setting.name {
            SettingId::Flow => "flow",
            SettingId::Relief => "relief, all flow over it",
            SettingId::Bore => "bore",
            SettingId::RatedFlow => "rated flow",
            SettingId::Pin => "pin",
        };
        format!("{name} {}", self.amount(setting.value))
    }
}
