//! What a machine has that can go wrong, and what stands elsewhere in its changes: looked up once.

use super::computed::Computed;
use super::rig::Rig;
use fit::facts::{Extreme, Facts};
use fit::sample::{Corner, Sample};
use fit::{Conditions, FactId, Node};
use hydraulics::pump::CutOff;
use hydraulics::{Resistance, line::Piece};
use quantity::{Pressure, Quantity, ThermodynamicTemperature, VolumeRate};
use table::{Carrier, ChangeId, Circuit, PumpControl, ReturnRoute};
use workshop::Job;

/// What not every machine has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Has {
    /// A power limit that is stated or taken from practice.
    PowerLimit,
    /// Something that sets the flow: a menu, a regulator, a divider.
    SetFlow,
    /// Pumps that are stated by themselves, so that they may give more than is set.
    StatedPumps,
    /// A divider that gives the head its oil.
    Divider,
    /// Pumps that must be told that the head wants oil.
    DemandSignal,
    /// A valve beside the motor that lets its rotor run down.
    RunDownCheck,
}

/// A machine with its head, sound, and what can be wrong with it.
#[derive(Clone, Debug)]
pub(super) struct Site {
    /// As it is computed.
    pub rig: Rig,
    /// What it is compared with.
    pub computed: Computed,
    /// How its pumps are commanded.
    pub control: Option<PumpControl>,
    /// What there is of what not every machine has.
    has: Vec<Has>,
    /// Of several pumps: the share of the flow that each gives, least first.
    pub shares: Vec<f64>,
    /// The return through the spool, where it has another way beside, with those of its pieces that may differ.
    pub by_spool: Option<(Resistance, Vec<usize>)>,
    /// The pressure of another tool that is shut off and bears less than the relief.
    pub tool: Option<Pressure>,
}

impl Site {
    /// # Errors
    /// What is missing without which no circuit can be solved.
    pub fn of(job: &Job, oil: ThermodynamicTemperature, conditions: &Conditions) -> Result<Self, Vec<FactId>> {
        let (carrier, circuit) = (job.after.carrier, job.after.circuit);
        let facts = Facts::gather(carrier, circuit, job.head, conditions);
        let (rig, computed) = Rig::of(&facts, oil)?;
        let pumps: Option<Vec<VolumeRate>> =
            facts.pumps_of_circuit().map(|pump| Some(pump.greatest_flow?.nominal)).collect();
        let pumps = pumps.filter(|pumps| pumps.len() > 1).unwrap_or_default();
        let all = pumps.iter().fold(0.0, |sum, flow| sum + flow.si());
        let mut shares: Vec<f64> = pumps.iter().map(|flow| flow.si() / all).filter(|share| share.is_finite()).collect();
        shares.sort_by(f64::total_cmp);
        let direct = circuit.return_path.route == Some(ReturnRoute::Direct);
        let by_spool = direct.then(|| by_spool(job, conditions, oil)).flatten();
        let relief = rig.circuit.relief.map(|relief| relief.full_flow);
        let shut_off = circuit.shared_with.iter().flatten().filter(|tool| tool.isolated == Some(true));
        let tool = shut_off
            .filter_map(|tool| tool.greatest_pressure.map(|pressure| pressure.nominal))
            .filter(|pressure| relief.is_some_and(|relief| *pressure < relief))
            .min_by(|a, b| a.si().total_cmp(&b.si()));
        let fed = circuit.make_up_check == Some(true) || job.head.run_down_check == Some(true);
        let set = circuit.flow_setting.is_some() || circuit.flow_limit.is_some() || circuit.divider.is_some();
        let has = [
            (Has::PowerLimit, facts.power.fact.interval().is_some()),
            (Has::SetFlow, set),
            (Has::StatedPumps, facts.pumps.is_some()),
            (Has::Divider, circuit.divider.is_some()),
            (Has::DemandSignal, circuit.demand_signal == Some(true) || job.makes(ChangeId::DemandSignal)),
            (Has::RunDownCheck, computed.rotor && fed),
        ];
        let has = has.into_iter().filter(|(_, is)| *is).map(|(has, _)| has).collect();
        Ok(Self { control: facts.control(), has, shares, by_spool, tool, rig, computed })
    }

    /// Whether it has something that not every machine has.
    pub fn has(&self, what: Has) -> bool {
        self.has.contains(&what)
    }

    /// Where the pumps' own control ends the pressure, as far as that is stated.
    pub fn cuts_off(&self) -> Option<Pressure> {
        let pressure = self.rig.circuit.source.cut_off.map(|cut_off| cut_off.pressure())?;
        // Of a load-sensing pump without a stated cut-off only the relief ends it.
        (pressure.si() < 1e9).then_some(pressure)
    }

    /// Whether the pumps stroke back by themselves at a pressure.
    pub fn strokes_back(&self) -> bool {
        matches!(self.rig.circuit.source.cut_off, Some(CutOff::LoadSensing { .. }))
            || self.cuts_off().is_some()
            || self.control == Some(PumpControl::PressureCompensated)
    }

    /// Whether the return has a filter whose loss is known in some way.
    pub fn has_filter(&self) -> bool {
        let pieces = self.rig.circuit.back.pieces();
        self.rig
            .places
            .filters
            .iter()
            .any(|&index| matches!(pieces.get(index), Some(Piece::Filter(..) | Piece::Constant(_))))
    }
}

/// The return as it runs while the changeover valve stands on the spool: the machine's own way of before, or with a machine that
/// came so the usual one: of that the spool's loss alone is not known, since the hoses are the same.
fn by_spool(job: &Job, conditions: &Conditions, oil: ThermodynamicTemperature) -> Option<(Resistance, Vec<usize>)> {
    let mut carrier: Carrier = job.after.carrier.clone();
    let place: &mut Circuit = carrier.circuits.iter_mut().find(|place| place.id == job.after.circuit.id)?;
    let before = &job.before.circuit.return_path;
    let came_so = before.route == Some(ReturnRoute::Direct);
    if came_so {
        place.return_path.route = Some(ReturnRoute::Spool);
        place.return_path.loss = None;
    } else {
        place.return_path = before.clone();
    }
    let place = place.clone();
    let facts = Facts::gather(&carrier, &place, job.head, conditions);
    let sample = Sample::new(Corner::Likely);
    let circuit = facts.circuit(&sample, Extreme::LeastFlow, oil);
    let differ = facts.nodes().1.enumerate().filter(|(_, node)| !came_so || *node == Node::ReturnValve);
    let differ = differ.map(|(index, _)| index).collect();
    sample.missing().is_empty().then(|| (circuit.back.clone(), differ))
}
