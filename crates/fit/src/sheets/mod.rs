//! The sheets a fitter works from, once a pairing is judged: what to buy and fit, what to set and read, the first start, the
//! way back to the bucket and on again, what to beware of, what to ask and what rests on assumption.
//!
//! All of it is plain data that follows from the pairing and the machines before and after its changes; the words are made in
//! `wording`. Nothing here is put into [`Pairing`] itself: a search needs none of it. Papers for the workshop are made only
//! for a pairing that fits, as it is or after its changes: with anything open nobody is told to start.

mod cautions;
mod change_list;
mod first_start;
pub(super) mod gauges;
mod judged;
mod machine_total;
mod open;
mod parts;
pub(super) mod readings;
mod requirement;
mod settings;
mod slow;
mod states;
mod switch_back;

pub use cautions::{Caution, cautions, hazards};
pub use change_list::{ChangeLine, ChangeList, Total};
pub use first_start::{FirstStep, RUN_IN_HOURS};
pub use gauges::{Gauge, GaugePoint, Instrument, Protection};
pub use judged::Judged;
pub use machine_total::{MachineTotal, machine_totals};
pub use open::{Ask, Proof, RestsOn};
pub use readings::{Expected, Found, ReadWith, Reading};
pub use requirement::{End, Regulator, Requirement, Signal};
pub(super) use settings::tolerance;
pub use settings::{OffValue, SettingSheet, Value};
pub use slow::Slow;
pub use states::{Item, Position, State};
pub use switch_back::{Relieve, Step, SwitchBack, Trial};

use super::{Conditions, Pairing, Verdict};
use quantity::ThermodynamicTemperature;
use serde::Serialize;
use table::{Carrier, Circuit, Head};

/// All sheets of one pairing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sheets {
    /// What is to be done to the machine, in working order.
    pub changes: ChangeList,
    /// For the workshop; only where the pairing fits, as it is or after its changes.
    pub job: Option<JobSheets>,
    /// What to beware of: what kills first, what is left to others last.
    pub cautions: Vec<Caution>,
    /// What to ask the makers.
    pub asks: Vec<Ask>,
    /// What rests on assumption, is to be proved or is missing.
    pub rests_on: Vec<RestsOn>,
}

/// What the workshop needs to set the machine to work, and back.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct JobSheets {
    /// Values, positions, gauges and readings.
    pub settings: SettingSheet,
    /// The first start, step by step.
    pub first_start: Vec<FirstStep>,
    /// Attachment off and on again.
    pub switch_back: SwitchBack,
}

impl Sheets {
    /// The sheets of a pairing, with readings for oil at working temperature. `carrier` is the machine as it is today: the same
    /// that was judged, with the same head and conditions.
    pub fn of(pairing: &Pairing, carrier: &Carrier, head: &Head, conditions: &Conditions) -> Self {
        Self::at(pairing, carrier, head, conditions, conditions.working)
    }

    /// The same with readings for oil at another temperature.
    pub fn at(
        pairing: &Pairing,
        carrier: &Carrier,
        head: &Head,
        conditions: &Conditions,
        oil: ThermodynamicTemperature,
    ) -> Self {
        let before = Place::of(pairing, carrier);
        let after = Place::of(pairing, pairing.changed.as_deref().unwrap_or(carrier));
        let job = Job::of(pairing, carrier, head, conditions).map(|job| {
            let states = states::states(&job);
            let settings = SettingSheet::of(&job, &states, oil);
            let first_start = first_start::steps(&job, &settings, &states);
            let switch_back = SwitchBack::of(&job, &states);
            JobSheets { settings, first_start, switch_back }
        });
        let case_line = before
            .zip(after)
            .is_some_and(|(before, after)| Job { pairing, before, after, head, conditions }.has_case_line());
        Self {
            changes: ChangeList::of(pairing, carrier, head, conditions),
            job,
            cautions: cautions::of(pairing, after, case_line),
            asks: open::asks(pairing),
            rests_on: open::rests_on(pairing),
        }
    }
}

/// A machine with the circuit that drives the head.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place<'a> {
    pub carrier: &'a Carrier,
    pub circuit: &'a Circuit,
}

impl<'a> Place<'a> {
    /// None where the machine has no such circuit.
    fn of(pairing: &Pairing, carrier: &'a Carrier) -> Option<Self> {
        let id = pairing.circuit.as_ref()?;
        let circuit = carrier.circuits.iter().find(|circuit| circuit.id == *id)?;
        Some(Self { carrier, circuit })
    }
}

/// A pairing with its machine before and after the changes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Job<'a> {
    pub pairing: &'a Pairing,
    pub before: Place<'a>,
    pub after: Place<'a>,
    pub head: &'a Head,
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
    /// What turns the flow down.
    fn slow(&self) -> Slow {
        Slow::of(self.after, |change| self.makes(change))
    }

    pub fn makes(&self, change: table::ChangeId) -> bool {
        self.pairing.changes.iter().any(|made| made.id == change)
    }

    /// Whether the head has a plug: wires of a harness, or functions switched electrically.
    fn has_plug(&self) -> bool {
        use table::{Drive, ExtraKind};
        let electric = self
            .head
            .extra_functions
            .iter()
            .any(|extra| extra.drive == Some(Drive::Electric) || extra.kind == ExtraKind::OnOff);
        electric || self.makes(table::ChangeId::Harness)
    }

    pub fn has_case_line(&self) -> bool {
        self.after.carrier.case_line.as_ref().is_some_and(|line| line.fitted) && self.drains_outside()
    }

    /// Whether the head's motor has a drain of its own to be led to the tank.
    fn drains_outside(&self) -> bool {
        super::schema::drains(self.head)
    }
}
