//! How a sound machine may differ from the likely one: each stated and assumed fact within its tolerance, the load that the operator
//! gives, the engine. Each is one figure that bears on many readings at once, so that their deviations go together.

use super::rig::{Rig, harder};
use super::site::{Has, Site};
use fit::assume::{ENGINE_SPEED, HEAT_BAND};
use fit::facts::{Extreme, Facts, least_rated};
use fit::sample::{Corner, Sample};
use hydraulics::{Element, Resistance, line::Piece};
use quantity::{Interval, Pressure, Quantity, Ratio, ThermodynamicTemperature, VolumeRate, string_enum};

string_enum! {
    /// What may differ.
    "spread" pub(super) enum Spread {
        /// The set flow.
        Setting = "setting",
        /// The pumps' flow.
        Pumps = "pumps",
        /// Their leakage.
        Leak = "leak",
        /// Their power limit.
        Power = "power",
        /// The relief.
        Relief = "relief",
        /// How early it opens.
        Override = "override",
        /// The pumps' cut-off.
        CutOff = "cut-off",
        /// What a load-sensing pump keeps above the load.
        Margin = "margin",
        /// The pressure over the idling motor.
        Free = "free",
        /// The load at work.
        Load = "load",
        /// The motor's volumetric efficiency.
        Motor = "motor",
        /// What lines to the head lose.
        Supply = "supply",
        /// What lines back lose.
        Return = "return",
        /// How loaded the filter is.
        Filter = "filter",
        /// What the case line loses.
        CaseLine = "case-line",
        /// What the motor leaks into its housing.
        CaseFlow = "case-flow",
        /// The engine without load.
        Idle = "idle",
        /// The engine at work.
        Governor = "governor",
        /// Heat.
        Heat = "heat",
        /// What the functions take.
        Functions = "functions",
        /// How exactly the tester's load valve is set.
        Tester = "tester",
    }
}

/// How far something may differ to both sides: a share, a logarithm of a multiple or a pressure, as [`Spread::shift`] takes it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Range {
    /// At the least; not above zero.
    pub low: f64,
    /// At the most; not below zero.
    pub high: f64,
}

impl Range {
    /// Its mean, when each side of the likely figure is as likely as the other and everything on a side alike.
    pub fn mean(self) -> f64 {
        (self.low + self.high) / 4.0
    }

    /// Its standard deviation about that.
    pub fn deviation(self) -> f64 {
        let square = (self.low * self.low + self.high * self.high) / 6.0;
        (square - self.mean().powi(2)).max(0.0).sqrt()
    }

    /// A figure of it: half of `share` for each side.
    #[cfg(test)]
    pub fn at(self, share: f64) -> f64 {
        if share < 0.5 { self.low * (1.0 - 2.0 * share) } else { self.high * (2.0 * share - 1.0) }
    }
}

/// How far an operator's load at work may be from the one computed (common practice, no published source).
const LOAD: f64 = 0.10;
/// How far what functions take may be from what is stated (common practice, no published source).
const FUNCTIONS: f64 = 0.3;
/// How much more a half-loaded element loses, as a logarithm: twice, and a quarter more for its housing.
const FILTER: f64 = 0.9;

impl Spread {
    /// Makes a rig differ by so much.
    pub fn shift(self, site: &Site, rig: &mut Rig, by: f64) {
        let times = (1.0 + by).max(0.01);
        let source = &mut rig.circuit.source;
        match self {
            Self::Setting => {
                source.set = source.set.map(|set| set * times);
                if !site.has(Has::StatedPumps) {
                    source.greatest *= times;
                }
            }
            Self::Pumps => {
                source.greatest *= times;
                source.leak *= times;
            }
            Self::Leak => source.leak *= times,
            Self::Power => source.power = source.power.map(|power| power * times),
            Self::Relief => super::act::relief_at(rig, times),
            Self::Override => {
                if let Some(relief) = &mut rig.circuit.relief {
                    let span = (relief.full_flow - relief.cracking) * times;
                    relief.cracking = relief.full_flow - span;
                }
            }
            Self::CutOff => state_of_cut_off(source, times, 1.0),
            Self::Margin => state_of_cut_off(source, 1.0, times),
            Self::Free => rig.free = rig.free.map(|free| free * times),
            Self::Load => rig.working *= times,
            Self::Motor => {
                if let Some(motor) = &mut rig.motor {
                    motor.volumetric *= times;
                }
            }
            Self::Supply => {
                let all: Vec<usize> = (0..rig.circuit.supply.pieces().len()).collect();
                harder(&mut rig.circuit.supply, &all, by.exp());
            }
            Self::Return => {
                let filters = &rig.places.filters;
                let all: Vec<usize> =
                    (0..rig.circuit.back.pieces().len()).filter(|index| !filters.contains(index)).collect();
                harder(&mut rig.circuit.back, &all, by.exp());
            }
            Self::Filter => {
                for &index in &rig.places.filters {
                    if let Some(piece) = rig.circuit.back.pieces_mut().get_mut(index) {
                        *piece = match *piece {
                            Piece::Constant(loss) => Piece::Constant(loss * by.exp()),
                            other => other.times(by.exp()),
                        };
                    }
                }
            }
            Self::CaseLine => {
                if let Some(drain) = &mut rig.circuit.drain {
                    let all: Vec<usize> = (0..drain.line.line.pieces().len()).collect();
                    harder(&mut drain.line.line, &all, by.exp());
                }
            }
            Self::CaseFlow => {
                if let Some(drain) = &mut rig.circuit.drain {
                    drain.share = (drain.share * by.exp()).min(0.8);
                    drain.stated *= by.exp();
                    drain.stalled *= by.exp();
                }
            }
            Self::Idle => rig.engine.free *= times,
            Self::Governor => {
                rig.engine.free *= times;
                rig.engine.working *= times;
            }
            Self::Heat => rig.heat *= by.exp(),
            Self::Functions => rig.busy = rig.busy.map(|(order, flow, pressure)| (order, flow * times, pressure)),
            Self::Tester => rig.tester_off += Pressure::from_si(by),
        }
    }

    /// How far it may be off on this machine; none where it is exact or there is no such thing.
    pub fn range(self, site: &Site, facts: &Facts, oil: ThermodynamicTemperature, tester: Pressure) -> Option<Range> {
        let flow = site.computed.flow;
        let both = |by: f64| Some(Range { low: -by, high: by });
        let range = match self {
            Self::Setting => relative(facts.flow_limit.as_ref().map_or(&facts.flow, |limit| limit).fact.interval()),
            Self::Pumps => relative(facts.pumps.as_ref().and_then(|pumps| pumps.fact.interval())),
            Self::Leak => relative(leak_by_pressure(facts)),
            Self::Power => relative(facts.power.fact.interval()),
            Self::Relief => relative(facts.relief.fact.interval()),
            Self::Override => relative(facts.relief_override.fact.interval()),
            // One that is not stated is not among the likely figures either.
            Self::CutOff => {
                let stated = facts.cut_off.as_ref().filter(|cut_off| cut_off.fact.is_known());
                relative(stated.and_then(|cut_off| cut_off.fact.interval()))
            }
            Self::Margin => relative(facts.margin.fact.interval()),
            Self::Free => relative(facts.free.fact.interval()),
            Self::Load => both(LOAD),
            Self::Motor => motor(facts),
            Self::Supply => lost(facts, oil, flow).map(|[supply, _]| supply),
            Self::Return => lost(facts, oil, flow).map(|[_, back]| back),
            Self::Filter => {
                let constant =
                    |index: &usize| matches!(site.rig.circuit.back.pieces().get(*index), Some(Piece::Constant(_)));
                let low = if site.rig.places.filters.iter().any(constant) { -FILTER / 2.0 } else { 0.0 };
                (!site.rig.places.filters.is_empty()).then_some(Range { low, high: FILTER })
            }
            Self::CaseLine => case_line(facts, site, oil, flow),
            Self::CaseFlow => case_flow(facts, oil, flow),
            Self::Idle => relative(facts.idle_ratio.fact.interval()).map(|range| Range {
                // Running free is not quite without load.
                low: range.low - 0.02,
                high: range.high + 0.005,
            }),
            Self::Governor => Some(Range { low: -ENGINE_SPEED.minus, high: ENGINE_SPEED.plus }),
            Self::Heat => both(HEAT_BAND.ln()),
            Self::Functions => site.rig.busy.and_then(|_| both(FUNCTIONS)),
            Self::Tester => both(tester.si()),
        };
        range.filter(|range| range.low.is_finite() && range.high.is_finite() && range.deviation() > 1e-9)
    }
}

/// Leakage by pressure, as a share of the flow: both the share and where it holds may be off.
fn leak_by_pressure(facts: &Facts) -> Option<Interval<Ratio>> {
    let (leak, rated) = (facts.leak.fact.interval()?, facts.rated_pressure.fact.interval()?);
    let slope = |leak: Ratio, rated: Pressure| Ratio::from_si(leak.si() / rated.max(least_rated()).si());
    Some(Interval {
        low: slope(leak.low, rated.high),
        nominal: slope(leak.nominal, rated.nominal),
        high: slope(leak.high, rated.low),
    })
}

fn state_of_cut_off(source: &mut hydraulics::Source, pressure_by: f64, margin_by: f64) {
    use hydraulics::pump::CutOff;
    source.cut_off = source.cut_off.map(|cut_off| match cut_off {
        CutOff::LoadSensing { pressure, margin } => {
            CutOff::LoadSensing { pressure: pressure * pressure_by, margin: margin * margin_by }
        }
        CutOff::Compensated { pressure, band } => CutOff::Compensated { pressure: pressure * pressure_by, band },
        CutOff::AtLoad { pressure, band } => CutOff::AtLoad { pressure: pressure * pressure_by, band },
    });
}

fn relative<Q: Quantity>(interval: Option<Interval<Q>>) -> Option<Range> {
    let interval = interval?;
    let nominal = interval.nominal.si();
    (nominal > 0.0).then(|| Range {
        low: (interval.low.si() / nominal - 1.0).min(0.0),
        high: (interval.high.si() / nominal - 1.0).max(0.0),
    })
}

/// Efficiency and displacement together: a displacement is made to a hundredth (common practice, no published source).
fn motor(facts: &Facts) -> Option<Range> {
    let own = relative(facts.volumetric.fact.interval())?;
    Some(Range { low: own.low - 0.01, high: own.high + 0.01 })
}

fn logarithm(low: f64, nominal: f64, high: f64) -> Option<Range> {
    (low > 0.0 && nominal > 0.0 && high > 0.0)
        .then(|| Range { low: (low / nominal).ln().min(0.0), high: (high / nominal).ln().max(0.0) })
}

/// What lines to the head and back may lose, filters and the tank apart.
fn lost(facts: &Facts, oil: ThermodynamicTemperature, flow: VolumeRate) -> Option<[Range; 2]> {
    let mut facts = facts.clone();
    facts.state.filter = Some(Element::Clean);
    let (nominal, worst) = (Sample::new(Corner::Likely), Sample::new(Corner::Worst));
    let likely = facts.circuit(&nominal, Extreme::LeastFlow, oil);
    let (poor, rich) = (facts.circuit(&worst, Extreme::LeastFlow, oil), facts.circuit(&worst, Extreme::MostFlow, oil));
    let of = |line: &Resistance, oil| -> f64 {
        let counts = |piece: &&Piece| !matches!(piece, Piece::Filter(..) | Piece::Constant(_));
        line.pieces().iter().filter(counts).map(|piece| piece.loss(flow, oil).si()).sum()
    };
    let supply = logarithm(of(&rich.supply, &rich.oil), of(&likely.supply, &likely.oil), of(&poor.supply, &poor.oil))?;
    let back = logarithm(of(&rich.back, &rich.oil), of(&likely.back, &likely.oil), of(&poor.back, &poor.oil))?;
    Some([supply, back])
}

fn case_line(facts: &Facts, site: &Site, oil: ThermodynamicTemperature, flow: VolumeRate) -> Option<Range> {
    site.rig.circuit.drain.as_ref()?;
    let draws = [Corner::Best, Corner::Likely, Corner::Worst].map(Sample::new);
    let leaked = facts.leaks(&draws[1], flow, oil);
    let lost = |sample: &Sample| facts.case_line(sample).line.loss(leaked, &facts.oil_at(sample, oil)).si();
    logarithm(lost(&draws[0]), lost(&draws[1]), lost(&draws[2]))
}

fn case_flow(facts: &Facts, oil: ThermodynamicTemperature, flow: VolumeRate) -> Option<Range> {
    let draws = [Corner::Best, Corner::Likely, Corner::Worst].map(Sample::new);
    let leaks = |sample: &Sample| facts.leaks(sample, flow, oil).si();
    let (low, nominal, high) = (leaks(&draws[0]), leaks(&draws[1]), leaks(&draws[2]));
    logarithm(low.min(nominal * 0.8), nominal, high)
}
