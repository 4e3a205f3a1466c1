//! What the machine's functions leave of the pumps' oil while they work together with the head.

use crate::Source;
use crate::valve::{Divided, Divider};
use quantity::{Power, Pressure, Quantity, Ratio, VolumeRate};
use table::LimiterSum;

/// How the functions are supplied beside the head.
#[derive(Clone, Debug, PartialEq)]
pub enum Functions {
    /// By dividers in the pumps' lines, before the main valve.
    Divided(DividedPumps),
    /// From the same source, in an order that the main valve sets.
    Shared {
        /// Who comes first.
        order: Order,
        /// What they want.
        wanted: VolumeRate,
        /// At which pressure.
        pressure: Pressure,
    },
}

/// Who gets the oil first without a priority divider.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// Open centre, in parallel: the lowest pressure takes first.
    Parallel,
    /// Tandem or power beyond with the head upstream.
    HeadFirst,
    /// Load sensing with compensators before the spools: short of oil, the lowest pressure is filled first and the
    /// highest, usually the head, starves.
    PreCompensated,
}

impl Functions {
    /// What they leave for the head's branch at a pressure there, in the worst case: the functions take what they want.
    ///
    /// With load sensing the pump stands above the highest load, the head's or the functions'.
    ///
    /// ```
    /// use hydraulics::{Source, balance::{Functions, Order}};
    /// use quantity::{Quantity, Unit};
    /// use quantity::shop::{bar, litres};
    /// let pump = Source {
    ///     greatest: litres(160.0), set: Some(litres(100.0)), leak: litres(0.0), leak_at: bar(200.0), power: None, cut_off: None,
    ///     surplus_is_pumped: false,
    /// };
    /// let digging = |order| Functions::Shared { order, wanted: litres(100.0), pressure: bar(120.0) };
    /// let left = |order, p| Unit::LitrePerMinute.of_si(digging(order).leave(&pump, bar(p)).si());
    /// // The head works at 200 bar, above the functions: pre-compensated it starves.
    /// assert!((left(Order::PreCompensated, 200.0) - 60.0).abs() < 1e-9);
    /// assert!((left(Order::HeadFirst, 200.0) - 100.0).abs() < 1e-9);
    /// ```
    pub fn leave(&self, source: &Source, head: Pressure) -> VolumeRate {
        let none = VolumeRate::from_si(0.0);
        match self {
            Self::Divided(pumps) => pumps.at(head).iter().fold(none, |sum, leg| sum + leg.head),
            Self::Shared { order, wanted, pressure } => {
                let whole = Source { set: None, ..*source };
                let head_wants = source.set.unwrap_or(source.greatest);
                // The pump stands at the highest load, and what is left of its flow there is shared.
                let given = whole.flow_at(head.max(*pressure)).si();
                let (head_wants, wanted) = (head_wants.si(), wanted.si());
                let rest = (given - wanted).max(0.0);
                let to_head = match order {
                    Order::HeadFirst => given,
                    Order::Parallel | Order::PreCompensated => {
                        if head > *pressure {
                            rest
                        } else {
                            given
                        }
                    }
                };
                VolumeRate::from_si(to_head.min(head_wants).min(source.flow_at(head).si()).max(0.0))
            }
        }
    }

    /// More than they ever leave.
    pub(super) fn at_most(&self, source: &Source) -> VolumeRate {
        let none = Pressure::from_si(0.0);
        match self {
            Self::Divided(pumps) => pumps.legs.iter().fold(VolumeRate::from_si(0.0), |sum, leg| sum + leg.greatest),
            Self::Shared { .. } => source.flow_at(none),
        }
    }
}

/// One pump with what it feeds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Its flow at no pressure.
    pub greatest: VolumeRate,
    /// Flow lost to leakage at `leak_at`.
    pub leak: VolumeRate,
    /// The pressure at which `leak` is lost; above zero.
    pub leak_at: Pressure,
    /// Pressure of the functions that it feeds.
    pub functions: Pressure,
    /// What a divider in its line gives the head. None: it feeds its functions alone, and only shares the power.
    pub divider: Option<Divider>,
}

/// Pumps of one power group, some of them with a divider for the head in their line.
///
/// Their relief is the circuit's; a cut-off below it is not looked at here. A divider in one pump's line only makes a machine
/// with one pump a track pull to one side: take equally from both.
#[derive(Clone, Debug, PartialEq)]
pub struct DividedPumps {
    /// The pumps.
    pub legs: Vec<Leg>,
    /// Hydraulic power that all may give together (each, with individual limits). None: no limiter acts.
    pub limit: Option<Power>,
    /// How they share it.
    pub sum: LimiterSum,
}

impl DividedPumps {
    /// Flow of one pump at a pressure, with the others at theirs.
    fn flow(&self, which: usize, at: Pressure, pressures: &[Pressure]) -> VolumeRate {
        let free =
            |leg: &Leg, p: Pressure| (leg.greatest - leg.leak * (p / leg.leak_at).value).max(VolumeRate::from_si(0.0));
        let own = free(&self.legs[which], at);
        let Some(limit) = self.limit else { return own };
        let own_power = (at * own).si();
        let all: f64 = self
            .legs
            .iter()
            .enumerate()
            .map(|(i, leg)| if i == which { own_power } else { (pressures[i] * free(leg, pressures[i])).si() })
            .sum();
        let demand = match self.sum {
            LimiterSum::Individual => own_power,
            // All are stroked alike, by what all would take stroked out.
            LimiterSum::PressureSum | LimiterSum::TorqueSum => all,
        };
        if demand > limit.si() { own * (limit.si() / demand) } else { own }
    }

    /// What each divider makes of its pump at a pressure of the head's branch.
    ///
    /// Each pump's pressure follows from its own divider; with a shared limit also from the others', so it is gone round
    /// until nothing moves. (Where several pumps float at once their pressures are not settled by their flows: any of
    /// them will do, the head's flow is the same.)
    pub fn at(&self, head: Pressure) -> Vec<Divided> {
        let mut pressures: Vec<Pressure> = self
            .legs
            .iter()
            .map(|leg| leg.divider.map_or(leg.functions, |d| (head + d.metering).max(leg.functions + d.excess)))
            .collect();
        let mut divided = Vec::new();
        for _ in 0..2000 {
            let before = pressures.clone();
            divided.clear();
            for (i, leg) in self.legs.iter().enumerate() {
                let own = |p: Pressure| self.flow(i, p, &pressures);
                let one = match leg.divider {
                    Some(divider) => divider.divide(own, head, leg.functions),
                    None => feeds_functions_only(own(leg.functions), leg.functions),
                };
                pressures[i] = one.pump;
                divided.push(one);
            }
            if self.sum == LimiterSum::Individual || self.limit.is_none() {
                break;
            }
            let moved = before.iter().zip(&pressures).map(|(a, b)| (*a - *b).si().abs()).fold(0.0, f64::max);
            if moved <= 1e-6 {
                break;
            }
        }
        divided
    }

    /// What is left to the functions of today's flow at their pressures, under the same limiter: the share that an operator
    /// will feel. None when they have nothing today.
    pub fn left(&self, head: Pressure) -> Option<Ratio> {
        let today: Vec<Pressure> = self.legs.iter().map(|leg| leg.functions).collect();
        let none = VolumeRate::from_si(0.0);
        let had = (0..self.legs.len()).fold(none, |sum, i| sum + self.flow(i, today[i], &today));
        let left = self.at(head).iter().fold(none, |sum, divided| sum + divided.functions);
        (had > none).then(|| left / had)
    }
}

fn feeds_functions_only(flow: VolumeRate, pressure: Pressure) -> Divided {
    Divided { state: crate::valve::DividerState::Both, pump: pressure, head: VolumeRate::from_si(0.0), functions: flow }
}
