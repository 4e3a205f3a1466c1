//! What is judged.

use crate::Conditions;
use table::{Carrier, Head};

/// One auxiliary circuit of a carrier with a head, as it is.
#[derive(Clone, Copy, Debug)]
pub struct Setup<'a> {
    /// The carrier.
    pub carrier: &'a Carrier,
    /// The circuit.
    pub circuit: &'a table::Circuit,
    /// The head.
    pub head: &'a Head,
    /// Oil and shop.
    pub conditions: &'a Conditions,
}
