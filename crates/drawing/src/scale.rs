//! Round numbers on a scale: steps of 1, 2 or 5 times a power of ten.

/// A scale from nothing, or from a round figure, to a round figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Scale {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// From tick to tick.
    pub step: f64,
}

impl Scale {
    /// The scale that holds both figures in as many steps of 1, 2 or 5 as fit, at most `steps`; it begins and ends at a tick.
    ///
    /// ```
    /// use drawing::Scale;
    /// let scale = Scale::of(0.0, 228.0, 6);
    /// assert_eq!((scale.to, scale.step), (250.0, 50.0));
    /// assert_eq!(scale.ticks(), [0.0, 50.0, 100.0, 150.0, 200.0, 250.0]);
    /// ```
    pub fn of(least: f64, most: f64, steps: u32) -> Self {
        let span = if most > least && (most - least).is_finite() { most - least } else { 1.0 };
        let rough = span / f64::from(steps.max(1));
        let power = 10f64.powf(rough.log10().floor());
        let mut step = 10.0 * power;
        for round in [10.0, 5.0, 2.0, 1.0] {
            let candidate = round * power;
            let from = (least / candidate + 1e-9).floor() * candidate;
            let count = ((least + span - from) / candidate - 1e-9).ceil();
            if count <= f64::from(steps.max(1)) {
                step = candidate;
            }
        }
        let from = (least / step + 1e-9).floor() * step;
        let to = from + ((least + span - from) / step - 1e-9).ceil().max(1.0) * step;
        Self { from, to, step }
    }

    /// Every tick, from end to end.
    pub fn ticks(&self) -> Vec<f64> {
        let count = ((self.to - self.from) / self.step).round();
        let mut all = Vec::new();
        let mut index = 0.0;
        while index <= count {
            // By multiplying, so that no tenth adds up to 0.30000000000000004; rounded to what the step can show.
            all.push(self.from + index * self.step);
            index += 1.0;
        }
        all
    }

    /// Decimals that the ticks need.
    pub fn decimals(&self) -> usize {
        if self.step >= 1.0 {
            0
        } else if self.step >= 0.1 {
            1
        } else {
            2
        }
    }

    /// Where a figure stands, 0 at the beginning and 1 at the end; not held to them.
    pub fn place(&self, figure: f64) -> f64 {
        (figure - self.from) / (self.to - self.from)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_hold_both_ends() {
        for (least, most) in
            [(0.0, 0.7), (0.0, 12.0), (0.0, 99.0), (0.0, 228.0), (0.0, 4021.0), (17.0, 83.0), (-20.0, 95.0)]
        {
            for steps in [3, 5, 8] {
                let scale = Scale::of(least, most, steps);
                let lead = scale.step / 10f64.powf((scale.step * 1.0001).log10().floor());
                assert!([1.0, 2.0, 5.0].iter().any(|round| (lead - round).abs() < 1e-6), "{least} {most}: {scale:?}");
                assert!(scale.from <= least + 1e-9 && scale.to >= most - 1e-9, "{scale:?}");
                let ticks = scale.ticks();
                assert!(ticks.len() >= 2 && ticks.len() <= steps as usize + 1, "{scale:?}");
                assert!((ticks[0] - scale.from).abs() < 1e-9 && (ticks[ticks.len() - 1] - scale.to).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn nothing_to_show_still_makes_a_scale() {
        let scale = Scale::of(0.0, 0.0, 5);
        assert!(scale.to > scale.from && scale.place(scale.from).abs() < 1e-12);
    }
}
