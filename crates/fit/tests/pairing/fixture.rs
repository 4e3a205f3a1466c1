//! One machine and one attachment that fit as they are; each test spoils or withholds one thing.

use fit::{Check, CheckId, Conditions, Outcome, Pairing, pair};
use quantity::{Named, Quantity, Stated, text};
use table::{Carrier, Head, Table, read};

const TABLE: &str = r#"{
  "format": "pairwright.table", "version": 1, "title": "Fixture",
  "carriers": [{
    "id": "machine", "model": "Machine", "class": "midi-excavator", "operating_mass": "8000 kg", "main_relief": "320 bar",
    "engine": {"power": "48 kW", "working_speed": "2000 rpm", "high_idle": "2100 rpm"},
    "pumps": [{"id": "p", "control": "load-sensing", "greatest_flow": "150 L/min", "pressure": "280 bar", "power_group": "g"}],
    "power_groups": [{"id": "g", "limit": "36 kW"}],
    "circuits": [{
      "id": "aux", "flow": "100 L/min", "relief": "230 bar", "relief_range": "160..260 bar", "pumps": ["p"],
      "fed_from": "valve", "ways": "one", "continuous": true, "stops_and_stays_off": true, "shared_with": [],
      "flow_setting": {"range": "30..100 L/min", "locked": true},
      "supply": [{"bore": "19.05 mm", "length": "6 m", "standard": "4sp"}],
      "coupling": {"loss": {"loss": "2 bar", "flow": "100 L/min"}, "rated_pressure": "350 bar", "rated_flow": "120 L/min", "screwed": true},
      "return_path": {"route": "spool", "loss": {"loss": "4 bar", "flow": "100 L/min"},
        "line": [{"bore": "25.4 mm", "length": "6 m"}], "through_filter": true, "through_cooler": true, "can_be_shut": false}
    }],
    "case_line": {"fitted": true, "own_port": true, "line": [{"bore": "19.05 mm", "length": "6 m"}]},
    "return_filter": {"loss": {"loss": "0.4 bar", "flow": "250 L/min"}, "bypass": "1.7 bar"},
    "tank": {"pressure": "0.2 bar", "volume": "90 L"}, "oil": {"kind": "hm", "grade": "vg-46"},
    "cooler": {"conductance": "900 W/K", "flow": "100 L/min"}, "functions": {"least_flow": "10 L/min", "pressure": "100 bar"},
    "electrics": {"voltage": "12 V", "spare_buttons": 2}, "guards": ["front-guard", "impact-window"],
    "coupler": {"fitted": true, "mass": "70 kg", "capacity": "900 kg", "secured": true}, "curl_clearance": "900 mm",
    "lifting": {"chart": [{"reach": "4.5 m", "height": "0 m", "over_side": true, "mass": "900 kg"}],
      "greatest_reach": "4.5 m", "tipping_edge": "1100 mm", "boom_foot": "250 mm"},
    "reaction_torque": "14 kN.m",
    "mounting": [{"pin": "50 mm", "width": "200 mm", "centres": "250 mm"}]
  }],
  "heads": [{
    "id": "head", "model": "Head", "kind": "rotary-cutter", "mass": "300 kg", "centre_of_gravity": "300 mm", "curl_radius": "700 mm", "ways": "one",
    "run_down_check": true, "demands": {"guards": ["front-guard", "impact-window"], "thrown_object_distance": "90 m"},
    "flow": {"least": "60 L/min", "rated": "90 L/min", "greatest": "130 L/min"},
    "pressure": {"working": "150 bar", "greatest": "280 bar"},
    "motor": {"kind": "axial-piston", "displacement": "45 cm3/{rev}", "ratio": "1 1",
      "rotor_speed": {"rated": "1850 rpm", "greatest": "2700 rpm"}},
    "outlet": {"back_pressure": "25 bar", "case_pressure": "3 bar", "needs_case_line": true, "case_flow": "2 L/min"},
    "mounting": [{"pin": "50 mm", "width": "203 mm", "centres": "250 mm"}],
    "carrier_mass": {"least": "6000 kg", "greatest": "10000 kg"}
  }],
  "parts": []
}"#;

/// The installation of check values, as a table.
pub const INSTALLATION: &str = include_str!("installation.json");

/// The table of the fixture.
pub fn table() -> Table {
    let outcome = read(TABLE);
    assert_eq!(outcome.problems, Vec::new());
    outcome.table.expect("the fixture is a table")
}

/// The pair after spoiling it.
pub fn pair_of(spoil: impl FnOnce(&mut Carrier, &mut Head)) -> Pairing {
    let mut table = table();
    let (mut carrier, mut head) = (table.carriers.remove(0), table.heads.remove(0));
    spoil(&mut carrier, &mut head);
    pair(&carrier, &head, &Conditions::default())
}

/// A stated figure as a table would write it, in the form in which the table holds it.
#[allow(clippy::unnecessary_wraps)]
pub fn stated<Q: Quantity>(words: &str) -> Option<Stated<Q>> {
    Some(text::read(words).expect(words))
}

/// A check of the machine as it is.
pub fn today(pairing: &Pairing, id: CheckId) -> &Check {
    pairing.check(id).expect("every check is there")
}

/// How a check came out, as it is.
#[track_caller]
pub fn assert_today(pairing: &Pairing, id: CheckId, outcome: Outcome) {
    let check = today(pairing, id);
    assert_eq!(check.outcome, outcome, "{}: {check:?}", id.name());
}

/// The changes by name.
pub fn changes(pairing: &Pairing) -> Vec<&'static str> {
    pairing.changes.iter().map(|change| change.id.name()).collect()
}

/// Asserts that the pairing fits after changes, that nothing fails once they are made, and that each is needed.
#[track_caller]
pub fn assert_mended(pairing: &Pairing, by: &[&str]) {
    assert_eq!(pairing.verdict.name(), "fits-after-changes", "{:#?}", pairing.checks);
    assert_eq!(changes(pairing), by);
    for check in &pairing.checks_after {
        assert!(check.outcome == Outcome::Met || !check.blocks, "{check:?}");
    }
    for change in &pairing.changes {
        assert!(!change.fixes.is_empty(), "{change:?}");
    }
}
