//! What a head's functions besides its rotor need of the machine's wires.

use super::Facts;
use crate::FactId;
use crate::trace::{Context, Counted};
use quantity::{ElectricCurrent, Quantity, Stated};
use table::{Drive, ExtraFunction, ExtraKind, ExtraValve, Output};

impl<'a> Facts<'a> {
    /// The switched outputs that head and machine need together; none when it is not stated how a function is driven.
    ///
    /// On and off is one, shared with a divider that is vented while the head is off; what moves both ways needs two from a valve
    /// of its own, one from a diverter, whose direction is the spool's.
    pub fn outputs_needed(&self) -> Option<usize> {
        let extras = &self.head.extra_functions;
        let switched = extras.iter().any(|extra| extra.kind == ExtraKind::OnOff) || self.circuit.divider.is_some();
        let of = |extra: &ExtraFunction| match (extra.drive?, self.circuit.extra_valve) {
            (Drive::Electric, _) | (Drive::Hydraulic, Some(ExtraValve::HeadBlock)) => Some(2),
            (Drive::Hydraulic, Some(ExtraValve::Diverter)) => Some(1),
            (Drive::Hydraulic, None) => Some(0),
        };
        let others: Option<Vec<usize>> = extras.iter().filter(|extra| extra.kind != ExtraKind::OnOff).map(of).collect();
        let needed = others.map(|others| usize::from(switched) + others.into_iter().sum::<usize>());
        self.read(Context::OutputsNeeded, needed.map(Counted));
        needed
    }

    /// The greatest current of a coil.
    pub fn greatest_current(&self) -> Option<Stated<ElectricCurrent>> {
        let currents = self.head.extra_functions.iter().filter_map(|extra| extra.current);
        currents.max_by(|a, b| a.nominal.si().total_cmp(&b.nominal.si()))
    }

    /// The machine's switched outputs.
    pub(crate) fn outputs(&self) -> Option<&'a [Output]> {
        let outputs = self.carrier.electrics.as_ref().and_then(|electrics| electrics.outputs.as_deref());
        self.read(FactId::Outputs, outputs.map(|outputs| Counted(outputs.len())));
        outputs
    }

    /// How many buttons the machine has to spare.
    pub(crate) fn spare_buttons(&self) -> Option<usize> {
        let buttons = self.carrier.electrics.as_ref().and_then(|electrics| electrics.spare_buttons);
        self.read(FactId::SpareButtons, buttons.map(|buttons| Counted(usize::from(buttons)))).map(|count| count.0)
    }
}
