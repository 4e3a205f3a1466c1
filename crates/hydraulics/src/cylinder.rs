//! A cylinder of a head: door, tilt.

use quantity::{Area, Force, Kind, Length, Pressure, Time, Velocity, VolumeRate};
use std::f64::consts::PI;
use uom::si::area::square_meter;
use uom::si::force::newton;

/// A double-acting cylinder.
///
/// Extending, oil works on the whole bore A_c and leaves from the annulus A_r; retracting, the other way round, and
/// A_c/A_r times as much leaves as goes in (any fluid-power textbook).
///
/// ```
/// use hydraulics::Cylinder;
/// use quantity::{Kind, Length, Pressure, Unit, VolumeRate};
/// use uom::si::force::newton;
/// let mm = |d| Length::from_si(Unit::Millimetre.to_si(d));
/// let door = Cylinder { bore: mm(50.0), rod: mm(30.0), stroke: mm(400.0), efficiency: 1.0 };
/// // 10 L/min open it in 4.7 s; the head's full 110 L/min would do it in 0.4 s.
/// let litres = |q| VolumeRate::from_si(Unit::LitrePerMinute.to_si(q));
/// assert!((door.time_to_extend(litres(10.0)).si() - 4.71).abs() < 0.01);
/// assert!((door.time_to_extend(litres(110.0)).si() - 0.43).abs() < 0.01);
/// // With both ports open to a return of 5 bar it creeps out with 353 N.
/// assert!((door.drift(Pressure::from_si(5e5)).get::<newton>() - 353.0).abs() < 1.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cylinder {
    /// Bore.
    pub bore: Length,
    /// Rod; thinner than the bore.
    pub rod: Length,
    /// Stroke.
    pub stroke: Length,
    /// η_c, what friction leaves of the force, 0 to 1.
    pub efficiency: f64,
}

impl Cylinder {
    /// The whole bore's area, A_c.
    pub fn bore_area(&self) -> Area {
        Area::new::<square_meter>(PI / 4.0 * self.bore.si().powi(2))
    }

    /// The annulus on the rod's side, A_r.
    pub fn annulus_area(&self) -> Area {
        Area::new::<square_meter>(PI / 4.0 * (self.bore.si().powi(2) - self.rod.si().powi(2)))
    }

    /// Speed of the rod on its way out, v = Q/A_c.
    pub fn speed_out(&self, flow: VolumeRate) -> Velocity {
        flow / self.bore_area()
    }

    /// Speed of the rod on its way in, v = Q/A_r: faster than out.
    pub fn speed_in(&self, flow: VolumeRate) -> Velocity {
        flow / self.annulus_area()
    }

    /// How long the whole stroke takes on the way out.
    pub fn time_to_extend(&self, flow: VolumeRate) -> Time {
        self.stroke / self.speed_out(flow)
    }

    /// What flows back while it retracts: more than goes in.
    pub fn return_while_retracting(&self, flow: VolumeRate) -> VolumeRate {
        flow * (self.bore_area() / self.annulus_area()).value
    }

    /// Force on the way out, `η_c·(p_s·A_c − p_r·A_r)`.
    pub fn force_out(&self, supply: Pressure, back: Pressure) -> Force {
        self.force(supply, self.bore_area(), back, self.annulus_area())
    }

    /// Force on the way in, `η_c·(p_s·A_r − p_r·A_c)`.
    pub fn force_in(&self, supply: Pressure, back: Pressure) -> Force {
        self.force(supply, self.annulus_area(), back, self.bore_area())
    }

    /// The force with which it drifts out when both ports stand at the same pressure, `p·(A_c − A_r)`: a door is held by
    /// piloted checks, not by an open valve.
    pub fn drift(&self, both: Pressure) -> Force {
        Force::new::<newton>(both.si() * (self.bore_area() - self.annulus_area()).get::<square_meter>())
    }

    fn force(&self, supply: Pressure, driven: Area, back: Pressure, against: Area) -> Force {
        let newtons = supply.si() * driven.get::<square_meter>() - back.si() * against.get::<square_meter>();
        Force::new::<newton>(newtons * if newtons > 0.0 { self.efficiency } else { 1.0 })
    }
}
