//! Whole circuits as others have published them: pump, valve, line, motor and shaft together.
//!
//! Where an example can be stated so, it is a table of one machine and one attachment, read by the reader and solved by the code
//! that judges a pairing (`as_entries`); where it has heights, cylinders or wheels, it is a circuit of the balance
//! (`as_circuits`). Sources, with the names used here:
//!
//! - *Esposito*: A. Esposito, *Fluid Power with Applications*, 6th edition 2005 (ISBN 81-7758-580-0), by the open data set of solved
//!   textbook examples (FOSSEE).
//! - *Sullivan*: J. A. Sullivan, *Fluid Power: Theory and Applications*, 4th edition (ISBN 0-13-555588-1), by the same.
//! - *Peerless*: S. J. Peerless, *Basic Fluid Mechanics*, Pergamon 1967 (ISBN 978-0-08-011098-1), by the same.
//! - *Fox*: R. W. Fox, A. T. McDonald, *Introduction to Fluid Mechanics*, 5th edition, by the same.
//! - *Trinkel*: B. Trinkel's fluid-power e-book of a trade magazine, book 2, chapter 10 (author from memory).
//! - *Koc*: A. B. Koc, open course on a lift platform (modules 2 to 7 and its earlier problem sets).
//! - *Web course*: an open course in SI units, author not named: of less weight than a printed book.

mod as_circuits;
mod as_entries;

use crate::printed;

/// Asserts a printed figure that was rounded, or made with rounded constants, on the way to it: off by as much as that makes.
#[track_caller]
fn rounded_on_the_way(computed: f64, figure: f64, last_digit: f64, by: f64) {
    printed(computed, figure, last_digit + 2.0 * by);
}

/// Watts in a Btu an hour: 1055.056 J, the international table's.
const BTU_PER_HOUR: f64 = 1055.056 / 3600.0;
