//! Which pressure a motor's shaft seal sees, by how it is built and drained.

use quantity::{Kind, Pressure};
use table::MotorKind;

/// Where the leakage behind the seal goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drain {
    /// By a line of its own.
    CaseLine,
    /// Inside, to the outlet: the seal sees the return.
    ToOutlet,
    /// Inside, by check valves, to the lower of the two ports.
    ToLowerPort,
}

impl Drain {
    /// How a motor of a kind drains when its case line is connected or not; none where that cannot be: a piston motor, or
    /// a gear motor with a drain port, has nowhere else to send its leakage, and an impact hammer has no shaft.
    ///
    /// Common practice, no published source.
    ///
    /// ```
    /// use hydraulics::motor::Drain;
    /// use table::MotorKind;
    /// assert_eq!(Drain::of(MotorKind::BentAxis, false), None);
    /// assert_eq!(Drain::of(MotorKind::Orbital, false), Some(Drain::ToLowerPort));
    /// assert_eq!(Drain::of(MotorKind::GearOneWay, true), Some(Drain::ToOutlet));
    /// ```
    pub fn of(kind: MotorKind, case_line: bool) -> Option<Self> {
        match kind {
            MotorKind::GearOneWay => Some(Self::ToOutlet),
            MotorKind::Gerotor | MotorKind::Orbital => Some(if case_line { Self::CaseLine } else { Self::ToLowerPort }),
            MotorKind::GearDrained | MotorKind::AxialPiston | MotorKind::BentAxis | MotorKind::RadialPiston => {
                case_line.then_some(Self::CaseLine)
            }
            MotorKind::Impact => None,
        }
    }

    /// The pressure at the seal: of the drain where it is connected, else of the return.
    ///
    /// ```
    /// use hydraulics::motor::Drain;
    /// use quantity::{Kind, Pressure};
    /// let bar = |p: f64| Pressure::from_si(p * 1e5);
    /// // Nine bar in the return and half a bar in the case line.
    /// assert_eq!(Drain::ToOutlet.at_seal(bar(180.0), bar(9.0), bar(0.5)), bar(9.0));
    /// assert_eq!(Drain::CaseLine.at_seal(bar(180.0), bar(9.0), bar(0.5)), bar(0.5));
    /// ```
    pub fn at_seal(self, inlet: Pressure, outlet: Pressure, case: Pressure) -> Pressure {
        match self {
            Self::CaseLine => case,
            Self::ToOutlet => outlet,
            Self::ToLowerPort => {
                if inlet < outlet {
                    inlet
                } else {
                    outlet
                }
            }
        }
    }
}

/// Motors in series: the seal of the first, drained inside, sees the whole pressure difference of those behind it. So
/// every case must be drained.
pub fn outlet_in_series(last_outlet: Pressure, behind: &[Pressure]) -> Pressure {
    behind.iter().fold(last_outlet, |sum, &difference| sum + difference).max(Pressure::from_si(0.0))
}
