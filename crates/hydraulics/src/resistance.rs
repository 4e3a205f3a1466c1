//! All that costs pressure between two nodes: as its pieces, and as coefficients that cost tens of nanoseconds a flow.

use super::line::{Extreme, LAMINAR_UP_TO, Piece, TURBULENT_FROM, friction_laminar};
use super::{Element, Filter, Oil};
use quantity::{Pressure, Quantity, VolumeRate};
use smallvec::SmallVec;
use std::cell::RefCell;
use std::f64::consts::PI;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};

/// All that costs pressure between two nodes, one after another.
#[derive(Clone, Debug, Default)]
pub struct Resistance(Arc<Reckoned>);

/// What stands in a line: seldom more, so that it lies in one place with what is reckoned of it.
pub type Pieces = SmallVec<[Piece; 8]>;

/// Pieces with what is reckoned of them.
#[derive(Clone, Debug, Default)]
struct Reckoned {
    pieces: Pieces,
    /// Their coefficients in the oil that was asked for first.
    coefficients: OnceLock<Losses>,
}

impl PartialEq for Resistance {
    fn eq(&self, other: &Self) -> bool {
        self.pieces() == other.pieces()
    }
}

impl Resistance {
    /// From its pieces, in the order in which the oil meets them.
    pub fn of(pieces: impl IntoIterator<Item = Piece>) -> Self {
        Self(Arc::new(Reckoned { pieces: pieces.into_iter().collect(), coefficients: OnceLock::new() }))
    }

    /// The pieces.
    pub fn pieces(&self) -> &[Piece] {
        &self.0.pieces
    }

    /// The pieces, to be changed.
    pub fn pieces_mut(&mut self) -> &mut Pieces {
        let own = Arc::make_mut(&mut self.0);
        own.coefficients = OnceLock::new();
        &mut own.pieces
    }

    /// Its coefficients in an oil, reckoned once for the first one that is asked for.
    pub(super) fn losses(&self, oil: &Oil) -> KnownLosses<'_> {
        let reckoned = || Losses::of(self.pieces(), oil);
        let known = self.0.coefficients.get_or_init(reckoned);
        if known.oil == *oil { KnownLosses::Kept(known) } else { KnownLosses::Anew(Box::new(reckoned())) }
    }

    /// The sum of the losses of all pieces.
    ///
    /// ```
    /// use hydraulics::{OilCurve, Resistance, line::Piece};
    /// use quantity::{Quantity, Pressure, ThermodynamicTemperature, VolumeRate};
    /// use table::OilGrade;
    /// let oil = OilCurve::of_grade(OilGrade::Vg46).at(ThermodynamicTemperature::from_si(333.15));
    /// // A coupling of 2 bar at 1 L/s before a breather of 0.2 bar, at half the flow: 0.5 + 0.2 bar.
    /// let coupling = Piece::Point { loss: Pressure::from_si(2e5), flow: VolumeRate::from_si(1e-3) };
    /// let way = Resistance::of([coupling, Piece::Constant(Pressure::from_si(0.2e5))]);
    /// assert!((way.loss(VolumeRate::from_si(0.5e-3), &oil).si() - 0.7e5).abs() < 1.0);
    /// ```
    pub fn loss(&self, flow: VolumeRate, oil: &Oil) -> Pressure {
        self.pieces().iter().fold(Pressure::from_si(0.0), |sum, piece| sum + piece.loss(flow, oil))
    }

    /// Its hoses, tubes and fittings alone, without what filters and valves by a point cost.
    #[must_use]
    pub fn lines_alone(&self) -> Self {
        let of_a_line =
            |piece: &&Piece| matches!(piece, Piece::Pipe { .. } | Piece::PipeOver { .. } | Piece::Fitting { .. });
        Self::of(self.pieces().iter().filter(of_a_line).copied())
    }

    /// The mean loss of a flow that pulsates with a form factor FF = ⟨Q²⟩/⟨Q⟩² ≥ 1: what goes with the flow squared is FF
    /// times that of the mean flow, what goes with the flow is as it is.
    pub fn pulsating_loss(&self, mean: VolumeRate, form_factor: f64, oil: &Oil) -> Pressure {
        self.pieces().iter().fold(Pressure::from_si(0.0), |sum, piece| {
            let factor = 1.0 + (form_factor - 1.0) * piece.turbulent_share(mean, oil);
            sum + piece.loss(mean, oil) * factor
        })
    }
}

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

thread_local! {
    /// The walls that were asked for last, by their relative roughness (its bits): a machine's lines come in few bores.
    static WALLS: RefCell<([(u64, Wall); 8], usize)> =
        const { RefCell::new(([(u64::MAX, Wall { rough: 0.0, friction_from: 0.0 }); 8], 0)) };
}

impl Wall {
    /// The wall, remembered.
    fn of(relative_roughness: f64) -> Self {
        WALLS.with_borrow_mut(|(walls, next)| {
            let key = relative_roughness.to_bits();
            if let Some((_, known)) = walls.iter().find(|(known, _)| *known == key) {
                return *known;
            }
            let wall = Self::reckoned(relative_roughness);
            walls[*next] = (key, wall);
            *next = (*next + 1) % walls.len();
            wall
        })
    }

    fn reckoned(relative_roughness: f64) -> Self {
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
        // Where both are turbulent the thicker oil loses more, as where both are laminar.
        if q >= self.thick.q_turbulent || q <= self.thin.q_laminar {
            return match self.extreme {
                Extreme::Most => self.thick.loss(q),
                Extreme::Least => self.thin.loss(q),
            };
        }
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
pub(super) struct Losses {
    pipes: SmallVec<[Pipe; 2]>,
    over: SmallVec<[PipeOver; 2]>,
    filters: SmallVec<[(Filter, Element); 1]>,
    /// What goes with the flow squared, added up.
    square: f64,
    /// What checks need to open: there as soon as anything flows.
    opening: f64,
    /// What is there at any flow.
    constant: f64,
    oil: Oil,
}

/// Coefficients that are kept with the pieces, or were reckoned for another oil.
#[derive(Clone, Debug)]
pub(super) enum KnownLosses<'a> {
    Kept(&'a Losses),
    Anew(Box<Losses>),
}

impl Deref for KnownLosses<'_> {
    type Target = Losses;

    fn deref(&self) -> &Losses {
        match self {
            Self::Kept(losses) => losses,
            Self::Anew(losses) => losses,
        }
    }
}

impl Losses {
    fn of(pieces: &[Piece], oil: &Oil) -> Self {
        let mut losses = Self {
            pipes: SmallVec::new(),
            over: SmallVec::new(),
            filters: SmallVec::new(),
            square: 0.0,
            opening: 0.0,
            constant: 0.0,
            oil: *oil,
        };
        for piece in pieces {
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

    /// The loss at a flow, Pa over m³/s.
    pub(super) fn at(&self, q: f64) -> f64 {
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
