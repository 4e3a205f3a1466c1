//! The sheets a fitter works from, once a pairing is judged: what to buy and fit, what to set and read, the first start, the
//! way back to the bucket and on again, what to beware of, what to ask and what rests on assumption.
//!
//! All of it is plain data that follows from the pairing and the machines before and after its changes; the words are made in
//! `wording`. Nothing here is put into [`Pairing`] itself: a search needs none of it. Papers for the workshop are made only
//! for a pairing that fits, as it is or after its changes: with anything open nobody is told to start.

mod cautions;
mod change_list;
mod first_start;
pub mod gauge_point;
pub mod gauges;
mod job;
mod judged;
mod machine_total;
mod open;
mod parts;
mod quotation;
pub mod readings;
mod requirement;
pub mod schema;
mod settings;
mod slow;
mod states;
mod switch_back;
mod value;
mod work;

pub use cautions::{Caution, cautions, hazards};
pub use change_list::{ChangeLine, ChangeList};
pub use first_start::{FirstStep, RUN_IN_HOURS};
pub use gauge_point::GaugePoint;
pub use gauges::{Gauge, Instrument, Protection};
pub use job::{Job, Place};
pub use judged::Judged;
pub use machine_total::{MachineTotal, machine_totals};
pub use open::{Ask, Proof, RestsOn};
pub use quotation::{Quotation, QuotedChange};
pub use readings::{Expected, Found, ReadWith, Reading};
pub use requirement::{End, Regulator, Requirement, Signal};
pub use settings::SettingSheet;
pub use slow::Slow;
pub use states::{Item, Position, State};
pub use switch_back::{Relieve, Step, SwitchBack, Trial};
pub use value::{OffValue, Value, tolerance};
pub use work::{Task, WorkStep};

use fit::{Conditions, Pairing};
use quantity::ThermodynamicTemperature;
use serde::Serialize;
use table::{Carrier, Head};

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
    /// The whole work in order: what is fitted, and the first start around it.
    pub work: Vec<WorkStep>,
    /// Attachment off and on again.
    pub switch_back: SwitchBack,
}

impl Sheets {
    /// The sheets of a pairing, with readings for oil at working temperature. `carrier` is the machine as it is today: the same
    /// that was judged, with the same head and conditions.
    pub fn of(pairing: &Pairing, carrier: &Carrier, head: &Head, conditions: &Conditions) -> Self {
        Self::at(pairing, carrier, head, conditions, conditions.working)
    }

    /// The sheets of a pairing, with readings for oil at another temperature.
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
            let work = work::work(&job, &first_start, &states);
            JobSheets { settings, first_start, work, switch_back }
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
