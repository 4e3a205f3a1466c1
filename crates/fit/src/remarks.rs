//! What is told without being judged, and what only a maker may decide.

use super::assume::{MUCH_LOSS, SPIKE, THROW_ZONE_METRES};
use super::checks;
use super::facts::Facts;
use super::installation::states::balanced;
use super::sample::{Corner, Sample};
use super::{CheckId, LineId, Load, MakerQuestion, Remark};
use hydraulics::balance::Balanced;
use hydraulics::velocity::{Service, velocity};
use quantity::{Amount, Length, Quantity, Ratio, VolumeRate};
use table::{FedFrom, HeadKind, Line, MachineEnd};

/// The remarks on a machine as it would go to work.
pub fn remarks(facts: &Facts) -> Vec<Remark> {
    let mut all = Vec::new();
    let sample = Sample::new(Corner::Likely);
    let (circuit, at) = balanced(facts, &sample, Load::Working, facts.conditions.working);
    if let (Balanced::Turns(at), true) = (at, sample.missing().is_empty()) {
        let path = &facts.circuit.return_path;
        all.extend(too_fast(LineId::Supply, Service::Supply, &facts.circuit.supply, at.flow));
        all.extend(too_fast(LineId::Return, Service::Return, &path.line, circuit.returned(at.flow)));
        if let Some(case) = facts.carrier.case_line.as_ref().filter(|line| line.fitted) {
            all.extend(too_fast(LineId::Case, Service::Case, &case.line, facts.case_flow(&sample, at.flow)));
        }
        let motor = at.inlet - at.outlet;
        let share = if motor.si() > 0.0 { (at.supply - motor) / motor } else { Ratio::from_si(0.0) };
        if share.si() >= MUCH_LOSS {
            all.push(Remark::LossShare { share: Amount::of(share) });
        }
    }
    if let (Some(weakest), Some(relief)) = (checks::weakest_hose(&facts.circuit.supply), facts.circuit.relief) {
        let spike = relief.nominal * SPIKE;
        if spike > weakest && relief.nominal <= weakest {
            all.push(Remark::HoseFatigue);
        }
    }
    let couplings =
        facts.circuit.coupling.as_ref().zip(facts.carrier.case_line.as_ref().and_then(|l| l.coupling.as_ref()));
    if couplings.is_some_and(|(a, b)| {
        a.standard.is_some() && a.standard == b.standard && a.size.map(|s| s.nominal) == b.size.map(|s| s.nominal)
    }) {
        all.push(Remark::CaseCouplingCrosses);
    }
    all.extend(checks::coldest_start(facts).map(|from| Remark::StartsDownTo { from: Amount::of(from) }));
    if facts.head.kind == HeadKind::Breaker {
        all.push(Remark::Accumulator);
    }
    if matches!(facts.head.kind, HeadKind::ColdPlaner | HeadKind::Saw | HeadKind::Sweeper) {
        all.push(Remark::WaterOrDust);
    }
    let stated = facts.head.demands.thrown_object_distance.map(|stated| stated.nominal);
    if facts.head.kind.throws_far() || stated.is_some() {
        let distance = stated.unwrap_or(Length::from_si(THROW_ZONE_METRES));
        all.push(Remark::ThrowZone { distance: Amount::of(distance), stated: stated.is_some() });
    }
    let end = facts.end();
    if let (None, Some(end)) = (facts.carrier.class.only_end(), end) {
        all.push(Remark::AtEnd { end });
    }
    if let (Some(lifting), Some(end)) = (&facts.carrier.lifting, end) {
        let far = checks::farthest_point(lifting);
        match end {
            MachineEnd::Arm => {
                all.extend(far.map(|point| Remark::LiftsAt {
                    reach: Amount::of(point.reach.nominal),
                    over_side: point.over_side,
                }));
            }
            MachineEnd::Loader => all.push(Remark::LevelGround),
        }
    }
    if checks::from_one_of_several(facts) && facts.circuit.fed_from != Some(FedFrom::PumpLine) {
        all.push(Remark::PullsAside);
    }
    let on_lines = |tool: &table::SharedTool| tool.own_relief == Some(true) && tool.isolated != Some(true);
    if facts.circuit.shared_with.iter().flatten().any(on_lines) {
        all.push(Remark::ToolReliefLimits);
    }
    all
}

/// Where oil flows faster than a short piece of such a line may reach: the narrowest piece counts.
fn too_fast(line: LineId, service: Service, pieces: &Line, flow: VolumeRate) -> Option<Remark> {
    let narrowest =
        pieces.segments.iter().filter_map(|piece| piece.bore).map(|bore| bore.nominal).reduce(Length::min)?;
    let (value, (_, short)) = (velocity(flow, narrowest), service.velocities());
    (value > short).then(|| Remark::Velocity { line, value: Amount::of(value), usual: Amount::of(short) })
}

/// What only a maker may decide, by what fails on the machine as it would go to work, or whatever is done.
pub fn questions(failing: &[CheckId], unmendable: &[CheckId]) -> Vec<MakerQuestion> {
    let of = |id: &CheckId| match id {
        CheckId::FlowWindow | CheckId::RotorSpeed | CheckId::Power => Some(MakerQuestion::HeadDisplacement),
        CheckId::Pressure | CheckId::ReliefOverlap | CheckId::SharedTool | CheckId::AttachmentOff => {
            Some(MakerQuestion::MachinePressure)
        }
        CheckId::BackPressure | CheckId::CasePressure | CheckId::TorqueLimit | CheckId::Work => {
            Some(MakerQuestion::HeadLimits)
        }
        CheckId::Lift | CheckId::WeightClass => Some(MakerQuestion::Stability),
        CheckId::CentreType => Some(MakerQuestion::HeadCentre),
        CheckId::Guarding => Some(MakerQuestion::ProtectiveStructure),
        CheckId::Coupler => Some(MakerQuestion::CouplerRating),
        CheckId::FeedOrder => Some(MakerQuestion::PrioritySupply),
        CheckId::Direction | CheckId::StopAndRestart | CheckId::ContinuousFlow => Some(MakerQuestion::CircuitControl),
        CheckId::CreepSpeed => Some(MakerQuestion::TravelSpeed),
        _ => None,
    };
    let mut all: Vec<_> = failing.iter().chain(unmendable).filter_map(of).collect();
    all.sort_unstable();
    all.dedup();
    all
}
