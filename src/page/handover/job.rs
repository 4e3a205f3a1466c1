//! What a hand-over is of, and how far a record of it is.

use crate::page::loaded::Loaded;
use crate::page::state::App;
use fit::Pairing;
use handover::{Circumstances, FunctionCheck, Planned, Standing, State, function_checks, plan, standing};
use record::HandOver;
use std::sync::Arc;
use table::{Carrier, Head};

/// One attachment on one machine, judged.
#[derive(Clone)]
pub struct Job {
    pub loaded: Arc<Loaded>,
    pub machine: Carrier,
    pub attachment: Head,
    pub pairing: Arc<Pairing>,
}

impl Job {
    pub fn of(app: App, loaded: Arc<Loaded>, machine: Carrier, attachment: Head) -> Self {
        let pairing = app.pairing(&loaded, &machine, &attachment);
        Self { loaded, machine, attachment, pairing }
    }

    pub fn plan(&self, at: &Circumstances) -> Vec<Planned> {
        plan(&self.pairing, &self.machine, &self.attachment, &self.loaded.conditions, at)
    }

    pub fn asked(&self) -> Vec<FunctionCheck> {
        function_checks(&self.pairing, &self.attachment)
    }

    /// How a record of it stands.
    pub fn state(&self, record: &HandOver) -> State {
        let planned = self.plan(&record.circumstances());
        stands(&planned, &self.asked(), record).state(&planned)
    }
}

/// How a record stands by what was read, tried and left out.
pub fn stands(planned: &[Planned], asked: &[FunctionCheck], record: &HandOver) -> Standing {
    standing(planned, &record.reads(), asked, |check| record.answer(check), record.is_signed())
        .with_not_applicable(planned, record.not_applicable())
        .with_beyond_before(&record.all_beyond_before())
}
