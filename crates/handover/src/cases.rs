//! What the tests of this folder have in common.

use super::{Circumstances, FunctionCheck, Planned, function_checks, plan};
use fit::{Conditions, Pairing, pair};
use table::{Carrier, read};

/// A pairing of the demo table with what is to be read and tried of it.
pub struct Case {
    pub carrier: Carrier,
    pub pairing: Pairing,
    pub planned: Vec<Planned>,
    pub asked: Vec<FunctionCheck>,
}

pub fn case(carrier: &str, head: &str) -> Case {
    let table = read(include_str!("../../../public/table/demo.json")).table.expect("a table");
    let (carrier, head) = table.carrier(carrier).zip(table.head(head)).expect("both stand in the table");
    let conditions = Conditions::of_table(&table);
    let pairing = pair(carrier, head, &conditions);
    let planned = plan(&pairing, carrier, head, &conditions, &Circumstances::default());
    let asked = function_checks(&pairing, head);
    Case { carrier: carrier.clone(), pairing, planned, asked }
}
