//! What the hand-over's core is held to: what each fault makes of the readings, and how often the diagnosis finds it.

mod alike;
mod directions;
mod setups;
mod simulation;
mod worn_pump;
