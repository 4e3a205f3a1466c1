//! Sides of a limit.

use quantity::string_enum;

string_enum! {
    /// Which side of a limit is right.
    "bound" pub enum Bound {
        /// At least the limit.
        AtLeast = "at-least",
        /// At most the limit.
        AtMost = "at-most",
    }
}
