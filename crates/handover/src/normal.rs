//! The little of statistics that a diagnosis needs: readings that scatter together, normally distributed about what is computed.
//!
//! Standard results (any textbook of multivariate statistics): with covariance Σ = L·Lᵀ, `r'Σ⁻¹r = |L⁻¹r|²` and `ln det Σ = 2·Σ ln L_ii`.

use super::reads::COUNT;
use smallvec::SmallVec;

/// One figure a reading.
pub(super) type Column = SmallVec<[f64; COUNT]>;

/// A covariance by its triangular root.
#[derive(Clone, Debug)]
pub(super) struct Covariance {
    size: usize,
    root: Vec<f64>,
}

impl Covariance {
    /// From what each reading scatters by itself (standard deviations, above zero) and what moves them together, a column each.
    pub fn of(own: &[f64], together: &[Column]) -> Self {
        let size = own.len();
        let mut root = vec![0.0; size * size];
        for i in 0..size {
            for j in 0..=i {
                let mut sum: f64 = together.iter().map(|column| column[i] * column[j]).sum();
                if i == j {
                    sum += own[i] * own[i];
                }
                for k in 0..j {
                    sum -= root[i * size + k] * root[j * size + k];
                }
                root[i * size + j] = if i == j { sum.max(1e-18).sqrt() } else { sum / root[j * size + j] };
            }
        }
        Self { size, root }
    }

    /// L⁻¹·r.
    fn solved(&self, deviation: &[f64]) -> Column {
        let mut solved = Column::with_capacity(self.size);
        for (i, deviation) in deviation.iter().enumerate() {
            let known: f64 = (0..i).map(|k| self.root[i * self.size + k] * solved[k]).sum();
            solved.push((deviation - known) / self.root[i * self.size + i]);
        }
        solved
    }

    /// Σ⁻¹·r.
    pub fn weights(&self, deviation: &[f64]) -> Column {
        let mut weights = self.solved(deviation);
        for i in (0..self.size).rev() {
            let known: f64 = (i + 1..self.size).map(|k| self.root[k * self.size + i] * weights[k]).sum();
            weights[i] = (weights[i] - known) / self.root[i * self.size + i];
        }
        weights
    }

    /// r'Σ⁻¹r: how far readings are off, in standard deviations squared.
    pub fn distance(&self, deviation: &[f64]) -> f64 {
        self.solved(deviation).iter().map(|x| x * x).sum()
    }

    /// The logarithm of the likelihood of a deviation, but for a constant that is the same for all of as many readings.
    pub fn log_likelihood(&self, deviation: &[f64]) -> f64 {
        let det: f64 = (0..self.size).map(|i| self.root[i * self.size + i].ln()).sum();
        -0.5 * self.distance(deviation) - det
    }

    /// How far one reading is off from what all others lead to expect, and with which standard deviation it is expected there.
    pub fn left_out(&self, deviation: &[f64], which: usize) -> (f64, f64) {
        let mut unit = Column::from_elem(0.0, self.size);
        unit[which] = 1.0;
        let (unit, solved) = (self.solved(&unit), self.solved(deviation));
        let precision: f64 = unit.iter().map(|x| x * x).sum();
        let weight: f64 = unit.iter().zip(&solved).map(|(a, b)| a * b).sum();
        (weight / precision, 1.0 / precision.sqrt())
    }

    /// The standard deviation of one reading by itself.
    pub fn deviation_of(&self, which: usize) -> f64 {
        (0..=which).map(|k| self.root[which * self.size + k].powi(2)).sum::<f64>().sqrt()
    }
}

/// ln(Σ exp(x) / n).
pub(super) fn log_mean(terms: &[f64]) -> f64 {
    let most = terms.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if !most.is_finite() {
        return f64::NEG_INFINITY;
    }
    let sum: f64 = terms.iter().map(|x| (x - most).exp()).sum();
    most + (sum / terms.len() as f64).ln()
}

#[cfg(test)]
mod tests {
    use super::*;
    use smallvec::smallvec;

    #[test]
    fn two_readings_that_go_together_are_one_deviation() {
        // Both scatter by 0.1 by themselves and by 1 together: off by 1 alike is one deviation, off by 1 apart is ten.
        let covariance = Covariance::of(&[0.1, 0.1], &[smallvec![1.0, 1.0]]);
        assert!((covariance.distance(&[1.0, 1.0]) - 1.0 / 1.005).abs() < 1e-9);
        assert!((covariance.distance(&[1.0, -1.0]) - 2.0 / 0.01).abs() < 1e-6);
        assert!((covariance.deviation_of(1) - 1.01_f64.sqrt()).abs() < 1e-12);
        let weights = covariance.weights(&[1.0, -1.0]);
        assert!((weights[0] - 100.0).abs() < 1e-6 && (weights[1] + 100.0).abs() < 1e-6);
        // The other leads to expect 1/1.01 of its own deviation.
        let (off, expected) = covariance.left_out(&[1.0, 1.0], 0);
        assert!((off - (1.0 - 1.0 / 1.01)).abs() < 1e-9 && (expected - (1.01 - 1.0 / 1.01_f64).sqrt()).abs() < 1e-9);
    }

    #[test]
    fn a_wider_scatter_makes_the_same_reading_less_likely_near_and_more_likely_far() {
        let (narrow, wide) = (Covariance::of(&[1.0], &[]), Covariance::of(&[3.0], &[]));
        assert!(narrow.log_likelihood(&[0.5]) > wide.log_likelihood(&[0.5]));
        assert!(narrow.log_likelihood(&[4.0]) < wide.log_likelihood(&[4.0]));
    }

    #[test]
    fn a_mean_of_very_small_likelihoods_is_no_zero() {
        let mean = log_mean(&[-2000.0, -2000.0]);
        assert!((mean + 2000.0).abs() < 1e-9);
    }
}
