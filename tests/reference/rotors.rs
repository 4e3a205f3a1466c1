//! Rotors that coast down.

use crate::formulas::rotor_energy;
use crate::printed;
use hydraulics::coast_down::coast_down_time;
use quantity::shop::rpm;
use quantity::{AngularVelocity, MomentOfInertia, Quantity, Torque};
use uom::si::energy::kilojoule;

fn inertia(kilograms: f64, radius_of_gyration: f64) -> MomentOfInertia {
    MomentOfInertia::from_si(kilograms * radius_of_gyration * radius_of_gyration)
}

fn seconds(rotor: MomentOfInertia, speed: AngularVelocity, torque: f64) -> f64 {
    coast_down_time(rotor, speed, Torque::from_si(torque)).si()
}

/// Sarkar, *Theory of Machines*, illustration 10.8, p. 274: 80 kg with k 0.5 m at 250 rpm, a band brake of μ 0.23 over 260° with 140 N
/// on its slack side on a drum of 0.32 m → 12.7 s.
#[test]
fn sarkar_10_8_band_brake() {
    let (slack, friction) = (140.0, 0.23 * 260.0_f64.to_radians());
    let torque = slack * (friction.exp() - 1.0) * 0.32 / 2.0;
    printed(seconds(inertia(80.0, 0.5), rpm(250.0), torque), 12.7, 0.1);
}

/// Sarkar 10.9: 2 400 kg with k 0.5 m, 185 kW at 300 rpm → 3.2 s.
#[test]
fn sarkar_10_9_from_the_power_of_a_shaft() {
    printed(seconds(inertia(2400.0, 0.5), rpm(300.0), 185e3 / rpm(300.0).si()), 3.2, 0.1);
}

/// Sarkar 10.10, p. 275: 2 000 kg with k 0.5 m at 360 rpm against 2 481.6 N·m → 4.96 rad/s², 7.59 s (7.596: cut off).
#[test]
fn sarkar_10_10_flywheel() {
    let wheel = inertia(2000.0, 0.5);
    printed(2481.6 / wheel.si(), 4.96, 0.01);
    printed(seconds(wheel, rpm(360.0), 2481.6), 7.59, 0.01 + 2.0 * 0.001);
}

/// Tayal, *Engineering Mechanics*, 22.1: a disc of 300 N and 0.5 m at 1 500 rpm stands after 120 s against 5.0038 N·m.
#[test]
fn tayal_22_1_disc() {
    let disc = MomentOfInertia::from_si(300.0 / 9.81 * 0.5 * 0.5 / 2.0);
    printed(seconds(disc, rpm(1500.0), 5.0038), 120.0, 1.0);
}

/// Verma, *Concepts of Physics*, chapter 10 (answers on a web page): 5.0 kg·m² at 60 rad/s stand after 5 min against 1.0 N·m, and held
/// 9 kJ.
#[test]
fn verma_wheel() {
    let (wheel, speed) = (MomentOfInertia::from_si(5.0), AngularVelocity::from_si(60.0));
    printed(seconds(wheel, speed, 1.0), 300.0, 1.0);
    printed(rotor_energy(wheel, speed).get::<kilojoule>(), 9.0, 1.0);
}
