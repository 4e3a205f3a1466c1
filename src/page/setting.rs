//! What a sheet is about: one judged pairing, to be looked into again and again.

use explain::{FigureId, Reasoning, why};
use fit::installation::{Installation, Warmth};
use fit::{Conditions, Pairing, Stage};
use quantity::{Named, ThermodynamicTemperature};
use std::sync::{Arc, OnceLock};
use table::{Carrier, Head};

/// A judged pairing with its machine, its attachment and the conditions of the day.
pub struct Setting {
    pairing: Arc<Pairing>,
    machine: Carrier,
    attachment: Head,
    conditions: Conditions,
    /// What its oil does over a day, by stage: asked for in two places, and hundreds of circuits each.
    warmth: [OnceLock<Option<Warmth>>; 2],
}

impl Setting {
    /// Of a judged pairing.
    pub fn new(pairing: &Arc<Pairing>, machine: &Carrier, attachment: &Head, conditions: Conditions) -> Self {
        Self {
            pairing: pairing.clone(),
            machine: machine.clone(),
            attachment: attachment.clone(),
            conditions,
            warmth: [OnceLock::new(), OnceLock::new()],
        }
    }

    /// What its oil does over a day.
    pub fn warmth(&self, stage: Stage) -> Option<Warmth> {
        let known = &self.warmth[usize::from(stage == Stage::AfterChanges)];
        known.get_or_init(|| self.look(stage, |i| i.warmth())).clone()
    }

    /// Looks into the machine as it is or as it will be; nothing to see where it has no circuit.
    pub fn look<R>(&self, stage: Stage, see: impl FnOnce(Installation) -> R) -> Option<R> {
        let machine = match stage {
            Stage::AsItIs => &self.machine,
            Stage::AfterChanges => self.pairing.changed.as_deref()?,
        };
        let look = Installation::new(machine, self.pairing.circuit.as_ref()?, &self.attachment, &self.conditions)?;
        Some(see(look.changed_from(&self.machine)))
    }

    /// Machine and attachment as they are.
    pub fn of(&self) -> (&Carrier, &Head) {
        (&self.machine, &self.attachment)
    }

    /// The temperature of the oil at work.
    pub fn working_temperature(&self) -> ThermodynamicTemperature {
        self.conditions.working
    }

    /// Of what it is found out what would settle it.
    pub fn to_settle(&self) -> (Carrier, Head, Conditions) {
        (self.machine.clone(), self.attachment.clone(), self.conditions.clone())
    }

    /// Why a number is what it is.
    pub fn why(&self, whence: FigureId) -> Option<Reasoning> {
        why(&self.pairing, &self.machine, &self.attachment, &self.conditions, whence)
    }

    /// The stages that there are.
    pub fn stages(&self) -> &'static [Stage] {
        if self.pairing.changed.is_some() { Stage::ALL } else { &[Stage::AsItIs] }
    }
}
