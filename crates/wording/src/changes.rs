//! The changes in words.

use super::parts::{Part, Telling};
use super::{Words, capital, counted};
use explain::FigureId;
use fit::{Change, ChangeReason, Setting, SettingId};
use table::{ChangeId, ExtraValve};

impl Words<'_> {
    /// A change by its name alone.
    pub fn change_name(&self, id: ChangeId) -> &'static str {
        match id {
            ChangeId::MachineFlowSetting => "setting the machine's own flow",
            ChangeId::ReliefSetting => "resetting the relief",
            ChangeId::DirectReturn => "a direct return to the tank",
            ChangeId::ReturnFilter => "a filter in the return",
            ChangeId::CaseLine => "a case drain to the tank",
            ChangeId::FlowLimit => "a sealed flow regulator",
            ChangeId::MountingKit => "a mounting kit",
            ChangeId::EngineSpeed => "a higher engine speed",
            ChangeId::WarmUp => "warming the oil first",
            ChangeId::FilterReturn => "a return into the filter and cooler manifold",
            ChangeId::ReturnLine => "a larger return line",
            ChangeId::PriorityShare => "a priority flow divider with its relief",
            ChangeId::DividerFlow => "turning the priority divider down",
            ChangeId::DividerVent => "a vent for the priority divider",
            ChangeId::DividerRelief => "a relief on the divider's port",
            ChangeId::UnloadValve => "an unload valve",
            ChangeId::OwnRelief => "a relief block of the attachment's own",
            ChangeId::IsolateTool => "shutting the other tool off",
            ChangeId::ToolRelief => "a relief on the other tool's side",
            ChangeId::Couplings => "other couplings",
            ChangeId::SupplyLine => "a larger supply line",
            ChangeId::HoseClass => "hose of a higher class",
            ChangeId::DemandSignal => "a signal to the pump",
            ChangeId::ReverseLock => "a lock of the reverse direction",
            ChangeId::ReturnRelief => "a low-pressure relief on the return",
            ChangeId::MakeUpCheck => "an anti-cavitation check valve",
            ChangeId::Cooler => "a cooler in the return",
            ChangeId::OilChange => "an oil change",
            ChangeId::DoorCircuit => "a valve for the attachment's other functions",
            ChangeId::Harness => "wiring with buttons and seat switch",
            ChangeId::Guarding => "guards for the operator",
        }
    }

    /// What is done.
    pub fn change_title(&self, change: &Change) -> String {
        super::parts::whole(&self.change_title_parts(change))
    }

    /// What is done, in pieces: each figure with the setting that it is.
    pub fn change_title_parts(&self, change: &Change) -> Vec<Part> {
        let (name, figures) = titled(change);
        let mut told = Telling::default();
        told.text(&name);
        for &(before, setting, behind) in figures {
            if let Some(made) = change.settings.iter().find(|made| made.name == setting) {
                told.text(before);
                told.figure(self.setting_value(made), FigureId::Setting(Some(change.id), setting));
                told.text(behind);
            }
        }
        told.0
    }

    /// Why it is done.
    pub fn change_reason(&self, change: &Change) -> String {
        let named = self.named_checks(&change.fixes);
        let sentence = match change.reason {
            ChangeReason::Fixes => format!("without it {named} would not be met."),
            ChangeReason::Settles => {
                format!("only where what is found out first does not spare it; not known yet: {named}.")
            }
            ChangeReason::Follows => format!("another change of this list brings the need: {named}."),
        };
        capital(&sentence)
    }

    /// What something is set to, or of which size or rating it must be.
    pub fn setting_value(&self, setting: &Setting) -> String {
        match setting.name {
            SettingId::Bore => self.bore(setting.value),
            SettingId::Conductance | SettingId::OilTemperature => self.at_least(setting.value),
            SettingId::RatedFlow | SettingId::RatedPressure => self.amount(setting.value),
            SettingId::ReturnRelief => self.at_most(setting.value),
            _ => self.set_to(setting.value),
        }
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

/// A figure of a title: what stands before it, what it is, what stands behind it.
type Titled = (&'static str, SettingId, &'static str);

/// What is done, and the figures that are told with it where they are known.
fn titled(change: &Change) -> (String, &'static [Titled]) {
    const BORE: &[Titled] = &[(", bore ", SettingId::Bore, "")];
    let (name, figures): (&str, &[Titled]) = match change.id {
        ChangeId::MachineFlowSetting => ("Set the machine's own flow", &[(" to ", SettingId::Flow, "")]),
        ChangeId::ReliefSetting => ("Reset the relief", &[(" to ", SettingId::Relief, "")]),
        ChangeId::DirectReturn => ("Return direct to the tank by a changeover valve", BORE),
        ChangeId::ReturnFilter => ("Filter in the return", &[(", rated for ", SettingId::RatedFlow, "")]),
        ChangeId::CaseLine => ("Case drain to the tank", BORE),
        ChangeId::FlowLimit => ("Sealed flow regulator", &[(" set to ", SettingId::Flow, "")]),
        ChangeId::MountingKit => ("Mounting kit", &[(" for pins of ", SettingId::Pin, "")]),
        ChangeId::EngineSpeed => ("Work at a higher engine speed", &[(", ", SettingId::EngineSpeed, "")]),
        ChangeId::WarmUp => {
            ("Warm the oil at little flow before full speed", &[(", to ", SettingId::OilTemperature, "")])
        }
        ChangeId::FilterReturn => ("Return into the spare port of the filter and cooler manifold", BORE),
        ChangeId::ReturnLine => ("Larger return line", BORE),
        ChangeId::PriorityShare => (
            "Priority flow divider ahead of the valve",
            &[
                (", set to ", SettingId::Flow, ""),
                (": ", SettingId::ShareAtWork, " of the pumps' oil at work"),
                ("; relief on its port ", SettingId::Relief, ""),
            ],
        ),
        ChangeId::DividerFlow => ("Turn the priority flow divider down", &[(" to ", SettingId::Flow, "")]),
        ChangeId::DividerVent => ("Vent the priority flow divider while the attachment is off", &[]),
        ChangeId::DividerRelief => ("Relief on the divider's priority port", &[(", set to ", SettingId::Relief, "")]),
        ChangeId::UnloadValve => ("Unload valve: the oil goes to the tank while the attachment's valve is shut", &[]),
        ChangeId::OwnRelief => ("Relief block of the attachment's own", &[(", set to ", SettingId::HeadRelief, "")]),
        ChangeId::IsolateTool => (
            "Shut the other tool off on both lines, with a relief on its side",
            &[(" set to ", SettingId::ToolRelief, "")],
        ),
        ChangeId::ToolRelief => ("Relief on the other tool's side", &[(", set to ", SettingId::ToolRelief, "")]),
        ChangeId::Couplings => (
            "Couplings for machine and attachment",
            &[(", size ", SettingId::Bore, ""), (", rated for ", SettingId::RatedPressure, "")],
        ),
        ChangeId::SupplyLine => ("Larger supply line", BORE),
        ChangeId::HoseClass => ("Hose of a higher class, same bore", &[(", rated for ", SettingId::RatedPressure, "")]),
        ChangeId::DemandSignal => ("Signal to the pump that the attachment wants oil", &[]),
        ChangeId::ReverseLock => ("Lock the reverse direction", &[]),
        ChangeId::ReturnRelief => {
            ("Low-pressure relief from the return to the tank", &[(", opening at ", SettingId::ReturnRelief, "")])
        }
        ChangeId::MakeUpCheck => ("Anti-cavitation check valve across the motor", &[]),
        ChangeId::Cooler => ("Cooler in the return", &[(", ", SettingId::Conductance, "")]),
        ChangeId::OilChange => ("Flush and fill the oil that the attachment demands", &[]),
        ChangeId::DoorCircuit => match &change.valve {
            Some(ExtraValve::Diverter) => ("Diverter in the main lines for the attachment's other functions", &[]),
            _ => ("Valve block on the attachment for its other functions", &[]),
        },
        ChangeId::Harness => match change.outputs {
            Some(count) => {
                let outputs = counted(count, "output", "outputs");
                return (format!("Wiring with buttons, fuses and seat switch: {outputs}"), &[]);
            }
            None => ("Seat switch, and a hold for the flow", &[]),
        },
        ChangeId::Guarding => ("Fit the guards that the attachment demands", &[]),
    };
    (name.to_owned(), figures)
}
