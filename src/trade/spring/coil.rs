//! A coil spring by its rate.

use crate::base::units::{Length, Quantity, SpringRate};

/// Below solid length the coils touch: the rate rises by this factor, so that
/// a solved curve stays monotone and finite. A stand-in, not a prediction.
pub(super) const SOLID_STIFFENING: f64 = 1_000.0;

/// F = k (L0 − L), nothing when loose, steep when solid. Source `SHI`, springs chapter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coil {
    /// Rate, N/m.
    pub rate_n_per_m: f64,
    /// Free length, m.
    pub free_length_m: f64,
    /// Length with all coils touching, m, if known.
    pub solid_length_m: Option<f64>,
}

impl Coil {
    /// A coil of this rate and free length.
    ///
    /// ```
    /// use springwright::trade::spring::Coil;
    /// use springwright::base::units::{Length, Quantity, SpringRate};
    /// let coil = Coil::by_rate(SpringRate::from_si(40_000.0), Length::from_si(0.35), None);
    /// assert_eq!(coil.force_n(0.25).round(), 4_000.0);
    /// assert_eq!(coil.force_n(0.36), 0.0);
    /// ```
    pub fn by_rate(rate: SpringRate, free_length: Length, solid_length: Option<Length>) -> Self {
        Coil {
            rate_n_per_m: rate.si(),
            free_length_m: free_length.si(),
            solid_length_m: solid_length.map(Quantity::si),
        }
    }

    /// The same coil with its seat moved: a spacer of this thickness, m.
    pub(super) fn moved(self, by_m: f64) -> Self {
        Coil { free_length_m: self.free_length_m + by_m, solid_length_m: self.solid_length_m.map(|l| l + by_m), ..self }
    }

    /// This coil and another as one: at any length it carries the mean of what both carry.
    pub(super) fn shared_with(self, other: &Coil) -> Self {
        let (k, k_other) = (self.rate_n_per_m, other.rate_n_per_m);
        let free_length_m = (k * self.free_length_m + k_other * other.free_length_m) / (k + k_other);
        let solid = self.solid_length_m.zip(other.solid_length_m);
        Coil { rate_n_per_m: (k + k_other) / 2.0, free_length_m, solid_length_m: solid.map(|(a, b)| (a + b) / 2.0) }
    }

    /// Force at a length, N.
    pub fn force_n(&self, length_m: f64) -> f64 {
        let linear_n = (self.rate_n_per_m * (self.free_length_m - length_m)).max(0.0);
        linear_n + self.solid_depth_m(length_m) * self.rate_n_per_m * SOLID_STIFFENING
    }

    /// The force at which it is solid, N; without end when its solid length is not known.
    pub fn solid_force_n(&self) -> f64 {
        self.solid_length_m.map_or(f64::INFINITY, |solid| self.rate_n_per_m * (self.free_length_m - solid).max(0.0))
    }

    /// The length at which it carries a force, m.
    pub(super) fn length_for_m(&self, force_n: f64) -> f64 {
        let open_m = self.free_length_m - force_n / self.rate_n_per_m;
        match self.solid_length_m {
            Some(solid_m) if open_m < solid_m => {
                let stiff = self.rate_n_per_m * SOLID_STIFFENING;
                (self.rate_n_per_m * self.free_length_m + stiff * solid_m - force_n) / (self.rate_n_per_m + stiff)
            }
            _ => open_m,
        }
    }

    /// Slope of force against compression at a length, N/m.
    pub fn rate_n_per_m(&self, length_m: f64) -> f64 {
        if length_m > self.free_length_m {
            0.0
        } else if self.solid_depth_m(length_m) > 0.0 {
            self.rate_n_per_m * (1.0 + SOLID_STIFFENING)
        } else {
            self.rate_n_per_m
        }
    }

    /// Work stored at a length, J: the integral of force over compression.
    pub fn energy_j(&self, length_m: f64) -> f64 {
        let compressed_m = (self.free_length_m - length_m).max(0.0);
        let solid_m = self.solid_depth_m(length_m);
        0.5 * self.rate_n_per_m * (compressed_m.powi(2) + SOLID_STIFFENING * solid_m.powi(2))
    }

    fn solid_depth_m(&self, length_m: f64) -> f64 {
        self.solid_length_m.map_or(0.0, |solid_m| (solid_m - length_m).max(0.0))
    }
}
