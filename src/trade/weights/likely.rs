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

#[cfg(test)]
mod tests {
    use super::*;

    fn law(value: f64, u: f64) -> Measured {
        Measured { value, u }
    }

    /// By hand: sums 86 ± 100 and 4 ± 100 kg; right more −26 and +1 kg, so roll −25 of ± 20, twist −27 of ± 8:
    /// −(0.86² + 0.04² + 1.25² + 3.375²)/2 = −6.8472.
    #[test]
    fn a_swapped_pair_twists_the_vehicle() {
        let spreads = Spreads { axles: Some([law(0.0, 100.0); 2]), roll: law(0.0, 20.0), twist: law(0.0, 8.0) };
        let read = |front: f64| {
            [
                Some(OnAxle { sum_kg: 86.0, right_more_kg: Some(front) }),
                Some(OnAxle { sum_kg: 4.0, right_more_kg: Some(1.0) }),
            ]
        };
        assert!((spreads.log_density(&read(-26.0)) + 6.8472).abs() < 1e-4, "{}", spreads.log_density(&read(-26.0)));
        // The other way round, −4: roll −3 and twist −5.
        let hand = -(0.86_f64.powi(2) + 0.04_f64.powi(2) + 0.15_f64.powi(2) + 0.625_f64.powi(2)) / 2.0;
        assert!((spreads.log_density(&read(-4.0)) - hand).abs() < 1e-12);
    }

    /// One axle's difference alone: mean and variance of (roll ± twist)/2.
    #[test]
    fn an_axle_weighed_whole_says_nothing_of_its_sides() {
        let spreads = Spreads { axles: None, roll: law(6.0, 6.0), twist: law(2.0, 8.0) };
        let whole = Some(OnAxle { sum_kg: 700.0, right_more_kg: None });
        let corners = |right_more_kg| Some(OnAxle { sum_kg: 700.0, right_more_kg: Some(right_more_kg) });
        assert_eq!(spreads.log_density(&[whole, whole]), 0.0);
        assert_eq!(spreads.log_density(&[corners(4.0), whole]), 0.0, "(6 + 2)/2");
        assert_eq!(spreads.log_density(&[None, corners(2.0)]), 0.0, "(6 − 2)/2");
        assert!((spreads.log_density(&[corners(9.0), None]) + 0.5).abs() < 1e-12, "one u: √(6² + 8²)/2 = 5");
    }
}
