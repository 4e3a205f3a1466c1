//! What each fault does to a rig: the same machine, so severely wrong.

use super::fault::Fault;
use super::rig::{Rig, Untold, harder};
use super::site::{Has, Site};
use hydraulics::balance::Order;
use hydraulics::line::Piece;
use hydraulics::pump::CutOff;
use hydraulics::{Element, Filter, Relief};
use quantity::{Displacement, Pressure, Quantity, Unit};
use table::PumpControl;

/// What the bypass of a filter that nobody describes takes, bar (1.7 to 3.5; common practice, no published source).
const BYPASS_BAR: f64 = 2.5;
/// The share of its pressure over which a cut-off that nobody describes ends the flow (common practice, no published source).
const BAND: f64 = 0.05;

impl Fault {
    /// The machine with this fault, so severe.
    pub(super) fn on(self, site: &Site, rig: &Rig, severity: f64) -> Rig {
        let mut rig = rig.clone();
        if !self.on_pumps(site, &mut rig, severity)
            && !self.on_pressures(site, &mut rig, severity)
            && !self.on_lines(site, &mut rig, severity)
        {
            self.on_head(&mut rig, severity);
        }
        rig
    }

    /// Engine, pumps and what sets their flow. Whether it was one of them.
    fn on_pumps(self, site: &Site, rig: &mut Rig, severity: f64) -> bool {
        let source = &mut rig.circuit.source;
        match self {
            Self::WornPump => source.leak *= severity,
            Self::PowerLimitLow => source.power = source.power.map(|power| power * severity),
            Self::EngineWeak => rig.engine.working *= severity,
            Self::LowThrottle => {
                rig.engine.working *= severity;
                rig.engine.free *= severity;
            }
            Self::SetFlowLow => source.set = source.set.map(|set| set * severity),
            Self::SetFlowHigh => {
                source.set = source.set.map(|set| set * severity);
                if !site.has(Has::StatedPumps) {
                    source.greatest *= severity;
                }
            }
            Self::PumpNotJoined => {
                // The largest gone is the plainest; of two alike it is the half.
                let left = (1.0 - severity * site.shares.last().copied().unwrap_or(0.0)).max(0.05);
                source.greatest *= left;
                source.leak *= left;
                source.power = source.power.map(|power| power * left);
                // A divider a pump, each set to its share.
                if site.has(Has::Divider) {
                    source.set = source.set.map(|set| set * left);
                }
            }
            Self::NoDemandSignal => {
                let standby = match source.cut_off {
                    // Without a load it stands a little above its margin.
                    Some(CutOff::LoadSensing { margin, .. }) => Some(margin * (1.0 + severity)),
                    _ => None,
                };
                rig.untold = Some(Untold { stroke: severity, standby });
            }
            Self::PriorityStuck => {
                // The functions take their oil like without a divider.
                let order = match site.control {
                    Some(PumpControl::LoadSensing) => Order::PreCompensated,
                    _ => Order::Parallel,
                };
                rig.busy = rig.busy.map(|(_, flow, pressure)| (order, flow * severity, pressure));
            }
            _ => return false,
        }
        true
    }

    /// What ends the pressure. Whether it was one of them.
    fn on_pressures(self, site: &Site, rig: &mut Rig, severity: f64) -> bool {
        let stands = rig.circuit.relief.map(|relief| relief.full_flow.si());
        let opens_at = |rig: &mut Rig, pressure: Option<Pressure>| {
            if let (Some(stands), Some(pressure)) = (stands, pressure) {
                relief_at(rig, severity * pressure.si() / stands);
            }
        };
        match self {
            Self::ReliefLow | Self::ReliefHigh => relief_at(rig, severity),
            Self::ReliefLeaking => {
                let seat = site.computed.flow * severity;
                rig.circuit.relief = rig.circuit.relief.map(|relief| Relief { seat, ..relief });
            }
            Self::ReliefUnderCutOff => opens_at(rig, site.cuts_off()),
            Self::IsolatingValveOpen => opens_at(rig, site.tool),
            Self::CutOffLow => {
                let Some(pressure) = rig.circuit.stall_pressure().map(|dead| dead * severity) else { return true };
                rig.circuit.source.cut_off = Some(match rig.circuit.source.cut_off {
                    Some(CutOff::LoadSensing { margin, .. }) => CutOff::LoadSensing { pressure, margin },
                    Some(CutOff::Compensated { band, .. }) => CutOff::Compensated { pressure, band },
                    Some(CutOff::AtLoad { band, .. }) => CutOff::AtLoad { pressure, band },
                    None => CutOff::AtLoad { pressure, band: BAND },
                });
            }
            _ => return false,
        }
        true
    }

    /// Lines, couplings, filters and coolers. Whether it was one of them.
    fn on_lines(self, site: &Site, rig: &mut Rig, severity: f64) -> bool {
        match self {
            Self::ChangeoverOnSpool => {
                if let Some((back, may_differ)) = &site.by_spool {
                    rig.circuit.back = back.clone();
                    harder(&mut rig.circuit.back, may_differ, severity);
                }
            }
            Self::ReturnHalfShut => harder(&mut rig.circuit.back, &rig.places.coupling_back, severity),
            Self::SupplyHalfShut => harder(&mut rig.circuit.supply, &rig.places.coupling_in, severity),
            Self::ReturnHoseSmall => {
                for &index in &rig.places.hoses_back {
                    if let Some(Piece::Pipe { bore, .. }) = rig.circuit.back.pieces_mut().get_mut(index) {
                        *bore *= severity;
                    }
                }
            }
            Self::FilterBlocked => {
                for &index in &rig.places.filters {
                    match rig.circuit.back.pieces_mut().get_mut(index) {
                        Some(Piece::Filter(filter, element)) => {
                            *filter = Filter { bypass: filter.bypass * severity, ..*filter };
                            *element = Element::Blocked;
                        }
                        Some(Piece::Constant(loss)) => {
                            *loss = Pressure::from_si(Unit::Bar.to_si(BYPASS_BAR * severity));
                        }
                        _ => {}
                    }
                }
            }
            Self::CaseLinePinched => {
                if let Some(drain) = &mut rig.circuit.drain {
                    let all: Vec<usize> = (0..drain.line.line.pieces().len()).collect();
                    harder(&mut drain.line.line, &all, severity);
                }
            }
            Self::CoolerBlocked => rig.cooler *= severity,
            _ => return false,
        }
        true
    }

    /// Motor, what stands beside it, and belt.
    fn on_head(self, rig: &mut Rig, severity: f64) {
        match (self, &mut rig.motor) {
            (Self::WornMotor, _) => rig.losses.worn += severity,
            (Self::RunDownLeaking, _) => rig.losses.beside += severity,
            (Self::WrongMotor, Some(motor)) => {
                motor.displacement = Displacement::from_si(motor.displacement.si() * severity);
            }
            (Self::WrongPulley, Some(motor)) => motor.ratio *= severity,
            (Self::BeltSlips, _) => {
                rig.losses.slip = severity;
                // What slips does not bring the whole load to the motor.
                rig.working *= 1.0 - 0.5 * severity;
            }
            _ => {}
        }
    }
}

/// The relief at a share of its pressure, opening as it did.
pub(super) fn relief_at(rig: &mut Rig, share: f64) {
    rig.circuit.relief = rig.circuit.relief.map(|relief| Relief {
        cracking: relief.cracking * share,
        full_flow: relief.full_flow * share,
        ..relief
    });
}
