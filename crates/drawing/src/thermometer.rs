//! The scale of an oil thermometer: ticks, and flags at the temperatures that mean something.

/// From where to where the thermometer goes, °C.
pub const RANGE: (f64, f64) = (-20.0, 95.0);

/// A tick of the scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tick {
    /// Where on the line, 0 to 1.
    pub at: f64,
    /// The temperature, °C.
    pub celsius: f64,
    /// Whether its number is written.
    pub named: bool,
}

/// Where a temperature in °C stands on the line; held to its ends.
pub fn place(celsius: f64) -> f64 {
    ((celsius - RANGE.0) / (RANGE.1 - RANGE.0)).clamp(0.0, 1.0)
}

/// A tick every 10 K, every other one named.
pub fn ticks() -> Vec<Tick> {
    (-2..=9)
        .map(|ten| {
            let celsius = f64::from(ten) * 10.0;
            Tick { at: place(celsius), celsius, named: ten % 2 == 0 }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_stand_in_order_and_on_the_line() {
        let ticks = ticks();
        assert!(ticks.windows(2).all(|pair| pair[0].at < pair[1].at));
        assert!((ticks[0].at).abs() < 1e-12 && ticks.last().is_some_and(|last| last.at < 1.0));
        assert!((place(37.5) - 0.5).abs() < 1e-12);
        assert!((place(-40.0)).abs() < 1e-12 && (place(200.0) - 1.0).abs() < 1e-12);
    }
}
