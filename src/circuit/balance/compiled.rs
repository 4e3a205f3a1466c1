//! A circuit as coefficients: what changes only with the oil is computed once, so that g costs tens of nanoseconds.

use super::Circuit;
use crate::circuit::line::{Extreme, LAMINAR_UP_TO, Piece, Resistance, TURBULENT_FROM, friction_laminar};
use crate::circuit::{Element, Filter, Oil};
use crate::quantity::{Kind, Pressure, VolumeRate};
use smallvec::SmallVec;
use std::f64::consts::PI;

/// A pipe in one oil: Δp = `laminar`·Q up to `q_laminar`, f·`square`·Q² from there on.
#[derive(Clone, Copy, Debug)]
struct Pipe {
    laminar: f64,
    square: f64,
    q_laminar: f64,
    q_turbulent: f64,
    /// ((ε/D)/3.7)^1.11.
    rough: f64,
    /// 6.9·Q/Re.
    smooth: f64,
    /// Slope of the friction factor over the flow between laminar and turbulent.
    slope: f64,
}

/// What a wall makes of the friction, whatever the oil: it takes a power and a logarithm, so once a pipe.
#[derive(Clone, Copy)]
struct Wall {
    rough: f64,
    friction_from: f64,
}

impl Wall {
    fn of(relative_roughness: f64) -> Self {
        let rough = (relative_roughness / 3.7).powf(1.11);
        let root = -1.8 * (rough + 6.9 / TURBULENT_FROM).log10();
        Self { rough, friction_from: 1.0 / (root * root) }
    }
}

impl Pipe {
    fn of(bore: f64, length: f64, wall: Wall, oil: &Oil) -> Self {
        let nu = oil.viscosity.si();
        let area = PI / 4.0 * bore * bore;
        let square = length / bore * oil.density.si() / (2.0 * area * area);
        // Re = Q·D/(A·ν), so that Q = Re·A·ν/D.
        let per_re = area * nu / bore;
        let (q_laminar, q_turbulent) = (LAMINAR_UP_TO * per_re, TURBULENT_FROM * per_re);
        let rise = wall.friction_from - friction_laminar(LAMINAR_UP_TO);
        Self {
            laminar: 64.0 * per_re * square,
            square,
            q_laminar,
            q_turbulent,
            rough: wall.rough,
            smooth: 6.9 * per_re,
            slope: rise / (q_turbulent - q_laminar),
        }
    }

    fn loss(&self, q: f64) -> f64 {
        if q <= self.q_laminar {
            return self.laminar * q;
        }
        let friction = if q >= self.q_turbulent {
            let root = -1.8 * (self.rough + self.smooth / q).log10();
            1.0 / (root * root)
        } else {
            friction_laminar(LAMINAR_UP_TO) + self.slope * (q - self.q_laminar)
        };
        friction * self.square * q * q
    }
}

/// A pipe in oil that may be as thick and as thin as said.
#[derive(Clone, Copy, Debug)]
struct PipeOver {
    thick: Pipe,
    thin: Pipe,
    extreme: Extreme,
    /// Δp/Q² just where the flow turns, with the density that makes the more of it.
    turning: f64,
}

impl PipeOver {
    fn loss(&self, q: f64) -> f64 {
        let (thick, thin) = (self.thick.loss(q), self.thin.loss(q));
        // The flow turns somewhere between the two oils.
        let turns = match self.extreme {
            Extreme::Most => q < self.thick.q_turbulent && q > self.thin.q_turbulent,
            Extreme::Least => q < self.thick.q_laminar && q > self.thin.q_laminar,
        };
        let between = self.turning * q * q;
        match self.extreme {
            Extreme::Most if turns => thick.max(thin).max(between),
            Extreme::Most => thick.max(thin),
            Extreme::Least if turns => thick.min(thin).min(between),
            Extreme::Least => thick.min(thin),
        }
    }
}

/// Everything between two nodes in one oil.
#[derive(Clone, Debug)]
struct Losses {
    pipes: SmallVec<[Pipe; 4]>,
    over: SmallVec<[PipeOver; 4]>,
    filters: SmallVec<[(Filter, Element); 1]>,
    /// What goes with the flow squared, added up.
    square: f64,
    /// What checks need to open: there as soon as anything flows.
    opening: f64,
    /// What is there at any flow.
    constant: f64,
    oil: Oil,
}

impl Losses {
    fn of(resistance: &Resistance, oil: &Oil) -> Self {
        let mut losses = Self {
            pipes: SmallVec::new(),
            over: SmallVec::new(),
            filters: SmallVec::new(),
            square: 0.0,
            opening: 0.0,
            constant: 0.0,
            oil: *oil,
        };
        for piece in &resistance.pieces {
            match *piece {
                Piece::Pipe { bore, length, roughness } => {
                    let wall = Wall::of(roughness.0.si() / bore.si());
                    losses.pipes.push(Pipe::of(bore.si(), length.si(), wall, oil));
                }
                Piece::PipeOver { bore, length, roughness, oil, extreme } => {
                    let wall = Wall::of(roughness.0.si() / bore.si());
                    let of = |oil| Pipe::of(bore.si(), length.si(), wall, oil);
                    let oil = oil.of_one_density(extreme);
                    let (thick, thin) = (of(&oil.thick), of(&oil.thin));
                    let turning = match extreme {
                        Extreme::Most => wall.friction_from * thick.square,
                        Extreme::Least => friction_laminar(LAMINAR_UP_TO) * thin.square,
                    };
                    losses.over.push(PipeOver { thick, thin, extreme, turning });
                }
                Piece::Fitting { k, bore } => {
                    let area = PI / 4.0 * bore.si() * bore.si();
                    losses.square += k * oil.density.si() / (2.0 * area * area);
                }
                Piece::Point { loss, flow } => losses.square += loss.si() / (flow.si() * flow.si()),
                Piece::Filter(filter, element) => losses.filters.push((filter, element)),
                Piece::Check(check) => {
                    losses.opening += check.cracking.si();
                    losses.square += (check.loss - check.cracking).si() / (check.flow.si() * check.flow.si());
                }
                Piece::Constant(pressure) => losses.constant += pressure.si(),
            }
        }
        losses
    }

    fn at(&self, q: f64) -> f64 {
        if q <= 0.0 {
            return self.constant;
        }
        let mut sum = self.constant + self.opening + self.square * q * q;
        for pipe in &self.pipes {
            sum += pipe.loss(q);
        }
        for pipe in &self.over {
            sum += pipe.loss(q);
        }
        for (filter, element) in &self.filters {
            sum += filter.loss(VolumeRate::from_si(q), &self.oil, *element).si();
        }
        sum
    }
}

/// A circuit as coefficients.
#[derive(Clone, Debug)]
pub struct Compiled<'a> {
    circuit: &'a Circuit,
    supply: Losses,
    back: Losses,
}

impl<'a> Compiled<'a> {
    /// Compiles a circuit.
    pub fn of(circuit: &'a Circuit) -> Self {
        Self {
            circuit,
            supply: Losses::of(&circuit.supply, &circuit.oil),
            back: Losses::of(&circuit.back, &circuit.oil),
        }
    }

    /// The pressure that a flow needs at the beginning of the supply; see [`Circuit::need`].
    pub fn need(&self, flow: VolumeRate, motor: Pressure) -> Pressure {
        let (supply, outlet) = self.losses(flow);
        motor + supply + outlet
    }

    /// What a flow loses on the way to the head, and the pressure that it then has at the motor's outlet.
    pub fn losses(&self, flow: VolumeRate) -> (Pressure, Pressure) {
        let returned = self.circuit.returned(flow);
        (Pressure::from_si(self.supply.at(flow.si())), Pressure::from_si(self.back.at(returned.si())))
    }

    /// g(Q); see [`Circuit::surplus`].
    pub fn surplus(&self, flow: VolumeRate, motor: Pressure) -> VolumeRate {
        self.circuit.available(self.need(flow, motor)) - flow
    }

    /// Whether at least a flow reaches the head at a pressure difference over the motor: the sign of g, no root.
    ///
    /// ```
    /// use pairwright::circuit::{Circuit, OilCurve, Relief, Resistance, Source, balance::Compiled};
    /// use pairwright::quantity::{Kind, Pressure, ThermodynamicTemperature, Unit, VolumeRate};
    /// use pairwright::table::OilGrade;
    /// let bar = |p| Pressure::from_si(Unit::Bar.to_si(p));
    /// let litres = |q| VolumeRate::from_si(Unit::LitrePerMinute.to_si(q));
    /// let circuit = Circuit {
    ///     source: Source {
    ///         greatest: litres(100.0), set: None, leak: litres(10.0), leak_at: bar(200.0), power: None, cut_off: None,
    ///         surplus_is_pumped: false,
    ///     },
    ///     functions: None, relief: Some(Relief::new(bar(250.0), 0.08)), supply: Resistance::default(),
    ///     back: Resistance::default(), drain: None,
    ///     oil: OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(333.15)),
    /// };
    /// let compiled = Compiled::of(&circuit);
    /// assert!(compiled.reaches(litres(90.0), bar(200.0)) && !compiled.reaches(litres(91.0), bar(200.0)));
    /// ```
    pub fn reaches(&self, flow: VolumeRate, motor: Pressure) -> bool {
        self.surplus(flow, motor).si() >= 0.0
    }

    /// The root of g; none when the head stalls.
    ///
    /// g falls strictly from available(need(0)) just above no flow to no more than zero at the greatest flow of the pumps, so there is
    /// one root or the circuit stalls. ITP (Oliveira and Takahashi 2020) keeps the bracket: it never takes more than
    /// one step more than bisection, and on the smooth stretches far fewer.
    pub fn root(&self, motor: Pressure) -> Option<VolumeRate> {
        let g = |q: f64| self.surplus(VolumeRate::from_si(q), motor).si();
        let greatest = self.circuit.greatest().si();
        let (mut low, mut high) = (greatest * super::JUST_FLOWING, greatest);
        let (mut g_low, mut g_high) = (g(low), g(high));
        if g_low <= 0.0 {
            return None;
        }
        if g_high >= 0.0 {
            return Some(VolumeRate::from_si(high));
        }
        let tolerance = 1e-13 * high;
        let truncation = 0.2 / high;
        // The method's ε·2^n with one step of slack over bisection, rounded up to twice the bracket.
        let mut reach = 2.0 * high;
        while high - low > 2.0 * tolerance {
            let middle = low.midpoint(high);
            let secant = (g_low * high - g_high * low) / (g_low - g_high);
            let towards = (middle - secant).signum();
            let step = truncation * (high - low).powi(2);
            let near = if step <= (middle - secant).abs() { secant + towards * step } else { middle };
            let room = (reach - (high - low) / 2.0).max(0.0);
            let q = if (near - middle).abs() <= room { near } else { middle - towards * room };
            let value = g(q);
            if value >= 0.0 {
                (low, g_low) = (q, value);
            } else {
                (high, g_high) = (q, value);
            }
            reach /= 2.0;
        }
        Some(VolumeRate::from_si(low.midpoint(high)))
    }
}
