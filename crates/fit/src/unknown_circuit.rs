//! The circuit of a machine that states none.

use table::Id;

/// A circuit of which nothing is known.
///
/// # Panics
/// Never: its identifier is a constant.
pub fn unknown_circuit() -> table::Circuit {
    table::Circuit {
        id: Id::new("unknown").expect("a constant identifier"),
        name: None,
        end: None,
        flow: None,
        flow_setting: None,
        flow_limit: None,
        divider: None,
        relief: None,
        relief_role: None,
        head_relief: None,
        relief_range: None,
        pumps: Vec::new(),
        fed_from: None,
        demand_signal: None,
        ways: None,
        reverse_locked: None,
        unloads_when_off: None,
        stops_and_stays_off: None,
        warm_up: None,
        extra_valve: None,
        make_up_check: None,
        continuous: None,
        centre: None,
        shared_with: None,
        supply: table::Line::default(),
        return_path: table::ReturnPath {
            coupling: None,
            route: None,
            loss: None,
            line: table::Line::default(),
            through_filter: None,
            filter: None,
            through_cooler: None,
            cooler: None,
            can_be_shut: None,
            relief: None,
        },
        port: None,
        coupling: None,
    }
}
