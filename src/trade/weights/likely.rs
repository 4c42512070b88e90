//! How likely readings of four scales are, so that a typing slip can be distinguished from a real vehicle.
//!
//! The readings of an axle are its sum and what its right side carries more. A rigid body on four springs shares a
//! load that sits off the centreline between both axles, so those two differences change together (roll); against each
//! other (twist) they change by uneven pads and friction alone. Readings that were swapped twist the vehicle.

use crate::base::math::spread::Measured;

/// What the scales say of one axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnAxle {
    /// Both sides, kg.
    pub sum_kg: f64,
    /// Right less left, kg; `None` when the axle was weighed whole.
    pub right_more_kg: Option<f64>,
}

/// How readings, or their change, are spread: each independent and normal, with its standard deviation, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spreads {
    /// Front and rear axle; `None` when nothing is known of them.
    pub axles: Option<[Measured; 2]>,
    /// What the right side carries more, both axles together.
    pub roll: Measured,
    /// What it carries more in front than behind.
    pub twist: Measured,
}

impl Spreads {
    /// Logarithm of the probability density of these readings, but for a constant: only differences count.
    /// ln p = −Σ ((x − μ)/σ)²/2. Source `DERIVED` (independent normal laws).
    pub fn log_density(&self, read: &[Option<OnAxle>; 2]) -> f64 {
        let sums = self.axles.iter().flat_map(|axles| axles.iter().zip(read));
        let of_sums: f64 = sums.filter_map(|(law, axle)| Some(normal(law, axle.as_ref()?.sum_kg))).sum();
        let [front, rear] = read.map(|axle| axle?.right_more_kg);
        let one = |sign: f64| Measured {
            value: (self.roll.value + sign * self.twist.value) / 2.0,
            u: self.roll.u.hypot(self.twist.u) / 2.0,
        };
        of_sums
            + match (front, rear) {
                (Some(front), Some(rear)) => normal(&self.roll, front + rear) + normal(&self.twist, front - rear),
                (Some(front), None) => normal(&one(1.0), front),
                (None, Some(rear)) => normal(&one(-1.0), rear),
                (None, None) => 0.0,
            }
    }
}

fn normal(law: &Measured, x: f64) -> f64 {
    -0.5 * ((x - law.value) / law.u).powi(2)
}
