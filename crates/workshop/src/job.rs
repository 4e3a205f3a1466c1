//! A pairing that goes to work, with its machine before and after the changes.

use fit::facts::drains;
use fit::{CheckId, Class, Conditions, Outcome, Pairing, Verdict};
use table::{Carrier, Circuit, Head};

/// A machine with the circuit that drives the head.
#[derive(Clone, Copy, Debug)]
pub struct Place<'a> {
    /// The machine.
    pub carrier: &'a Carrier,
    /// The circuit that drives the attachment.
    pub circuit: &'a Circuit,
}

impl<'a> Place<'a> {
    /// None where the machine has no such circuit.
    pub fn of(pairing: &Pairing, carrier: &'a Carrier) -> Option<Self> {
        Some(Self { carrier, circuit: carrier.circuit(pairing.circuit.as_ref()?)? })
    }
}

/// A pairing with its machine before and after the changes.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// The pairing.
    pub pairing: &'a Pairing,
    /// As it is today.
    pub before: Place<'a>,
    /// With the changes.
    pub after: Place<'a>,
    /// The attachment.
    pub head: &'a Head,
    /// Oil and shop.
    pub conditions: &'a Conditions,
}

impl<'a> Job<'a> {
    /// None where the pairing does not go to work: it does not fit, or something is open.
    pub fn of(pairing: &'a Pairing, carrier: &'a Carrier, head: &'a Head, conditions: &'a Conditions) -> Option<Self> {
        let before = Place::of(pairing, carrier)?;
        let after = Place::of(pairing, pairing.changed.as_deref().unwrap_or(carrier))?;
        let goes_to_work = matches!(pairing.verdict, Verdict::Fits | Verdict::FitsAfterChanges);
        goes_to_work.then_some(Self { pairing, before, after, head, conditions })
    }
}

impl Job<'_> {
    /// Whether a change is among those that are made.
    pub fn makes(&self, change: table::ChangeId) -> bool {
        self.pairing.changes.iter().any(|made| made.id == change)
    }

    /// Whether the head has a plug: wires of a harness, or functions switched electrically.
    pub fn has_plug(&self) -> bool {
        use table::{Drive, ExtraKind};
        let electric = self
            .head
            .extra_functions
            .iter()
            .any(|extra| extra.drive == Some(Drive::Electric) || extra.kind == ExtraKind::OnOff);
        electric || self.makes(table::ChangeId::Harness)
    }

    /// Whether a line from the motor's housing is there and needed.
    pub fn has_case_line(&self) -> bool {
        self.after.carrier.case_line.as_ref().is_some_and(|line| line.fitted) && self.drains_outside()
    }

    /// Whether the head's motor has a drain of its own to be led to the tank.
    pub fn drains_outside(&self) -> bool {
        drains(self.head)
    }
}

/// Whether the run-down is to be proved at the machine.
pub fn proves_coast_down(job: &Job) -> bool {
    job.pairing.to_prove.contains(&CheckId::RunDown) || open(job, false).contains(&CheckId::RunDown)
}

/// What is not known although it fits: of work, or of people and parts.
pub fn open(job: &Job, of_work: bool) -> Vec<CheckId> {
    let open = job.pairing.final_checks().iter().filter(|check| check.outcome == Outcome::NotKnown);
    open.filter(|check| (check.class == Class::Work) == of_work).map(|check| check.id).collect()
}
