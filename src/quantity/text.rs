//! placeholder
use super::{Kind, Range, Stated, Unit};
/// x
#[derive(Clone, Debug, PartialEq)]
pub enum TextFault {
    /// x
    Empty,
    /// x
    U(Unit),
}
/// x
pub fn read<Q: Kind>(_text: &str) -> Result<Stated<Q>, TextFault> { Err(TextFault::Empty) }
/// x
pub fn write<Q: Kind>(_s: &Stated<Q>) -> String { String::new() }
/// x
pub fn write_range<Q: Kind>(_s: &Range<Q>) -> String { String::new() }
