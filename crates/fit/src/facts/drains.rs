//! Whether a motor drains outside.

use table::{Head, MotorKind};

/// Whether the head's motor has a drain of its own to be led to the tank.
pub fn drains(head: &Head) -> bool {
    let kind = head.motor.as_ref().and_then(|motor| motor.kind);
    head.outlet
        .needs_case_line
        .unwrap_or_else(|| kind.is_some_and(|kind| kind.is_piston() || kind == MotorKind::GearDrained))
}
