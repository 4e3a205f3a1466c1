//! Which way a scenario leans.

/// Which way a scenario leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extreme {
    /// As little flow and pressure at the head as may be: low tolerance, working speed, high losses, filter on bypass.
    LeastFlow,
    /// As much as may be: high tolerance, high idle, the setting turned up, low losses.
    MostFlow,
    /// As much flow as may be, against a return that loses as much as may be: for pressures in the return.
    MostFlowAgainstReturn,
}
