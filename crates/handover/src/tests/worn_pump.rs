//! A worn pump leaks four times what it did at the pressure for which it is rated, wherever the relief stands.

use super::setups::Setup;
use crate::Fault;
use hydraulics::Source;
use quantity::{Pressure, Quantity, Unit};

#[test]
fn a_worn_pump_leaks_by_its_own_rated_pressure() {
    let setup = Setup::demo("quern-k37", "saltmarsh-g40");
    let circuit = setup.site.rig.circuit.clone();
    let flow = |source: Source, at: f64| {
        let free = Source { set: None, power: None, cut_off: None, ..source };
        free.flow_at(Pressure::from_si(Unit::Bar.to_si(at))).si() / source.greatest.si()
    };
    let worn = Fault::WornPump.on(&setup.site, &setup.site.rig, 4.0).circuit.source;
    // Rated for 230 bar: of 5 % of its flow there it comes to 20 %, at half of that to 10 %.
    for (source, lost) in [(circuit.source, 0.05), (worn, 0.20)] {
        assert!((flow(source, 230.0) - (1.0 - lost)).abs() < 1e-9, "{source:?}");
        assert!((flow(source, 115.0) - (1.0 - lost / 2.0)).abs() < 1e-9, "{source:?}");
    }
    let raised = Fault::ReliefHigh.on(&setup.site, &setup.site.rig, 1.2).circuit;
    assert_ne!(raised.relief, circuit.relief);
    assert!((flow(raised.source, 230.0) - 0.95).abs() < 1e-9);
}
