//! A progressive or dual-rate coil: a table of lengths and loads.

use std::sync::Arc;

use crate::base::math::pchip::Pchip;
use crate::base::math::roots;

/// A coil by measured points, monotone cubic between them, straight on beyond. Cheap to clone.
#[derive(Debug, Clone, PartialEq)]
pub struct Points {
    /// Force against compression from the longest measured length.
    curve: Arc<Pchip>,
    /// Longest measured length, m, a spacer included.
    longest_m: f64,
    /// Length with all coils touching, m, if known.
    solid_length_m: Option<f64>,
    free_length_m: f64,
    /// Rate added once the coils touch, N/m.
    solid_rate_n_per_m: f64,
}

impl Points {
    /// Through at least two (length, load) points in any order; `None` unless a shorter spring always carries more.
    pub fn through(points: &[(f64, f64)]) -> Option<Self> {
        let longest_m = points.iter().map(|p| p.0).fold(f64::NEG_INFINITY, f64::max);
        let mut compressed: Vec<(f64, f64)> = points.iter().map(|(l, f)| (longest_m - l, *f)).collect();
        compressed.sort_by(|a, b| a.0.total_cmp(&b.0));
        if compressed.windows(2).any(|w| w[1].1 <= w[0].1) || compressed.first()?.1 < 0.0 {
            return None;
        }
        let curve = Pchip::through(&compressed)?;
        let (first_n, first_rate) = (curve.value(0.0), curve.slope(-1.0));
        let lead_m = first_n / first_rate;
        lead_m.is_finite().then(|| Points {
            solid_rate_n_per_m: super::coil::SOLID_STIFFENING * curve.steepest(),
            curve: Arc::new(curve),
            longest_m,
            solid_length_m: None,
            free_length_m: longest_m + lead_m,
        })
    }

    /// The length at which it carries nothing, m.
    pub fn free_length_m(&self) -> f64 {
        self.free_length_m
    }

    /// Length with all coils touching, m, if known.
    pub fn solid_length_m(&self) -> Option<f64> {
        self.solid_length_m
    }

    /// Shortest and longest measured length, m.
    pub fn measured_m(&self) -> (f64, f64) {
        (self.longest_m - self.curve.ends().1, self.longest_m)
    }

    /// Force at a length, N.
    pub fn force_n(&self, length_m: f64) -> f64 {
        if length_m >= self.free_length_m {
            return 0.0;
        }
        let x = self.longest_m - length_m;
        self.curve.value(x).max(0.0) + self.solid_depth_m(length_m) * self.solid_rate_n_per_m
    }

    /// Slope of force against compression at a length, N/m.
    pub fn rate_n_per_m(&self, length_m: f64) -> f64 {
        if length_m > self.free_length_m {
            return 0.0;
        }
        let solid = if self.solid_depth_m(length_m) > 0.0 { self.solid_rate_n_per_m } else { 0.0 };
        self.curve.slope(self.longest_m - length_m) + solid
    }

    /// The length at which it carries a force, m.
    pub(super) fn length_for_m(&self, force_n: f64) -> Option<f64> {
        let place_m = if force_n < 0.0 { None } else { self.curve.place_of(force_n) };
        let length_m = self.longest_m - place_m?;
        match self.solid_length_m {
            Some(solid_m) if length_m < solid_m => {
                roots::between(length_m, solid_m, 1e-12, |l| self.force_n(l) - force_n)
            }
            _ => Some(length_m),
        }
    }

    /// Work stored at a length, J.
    pub fn energy_j(&self, length_m: f64) -> f64 {
        let from = self.longest_m - self.free_length_m;
        let to = (self.longest_m - length_m).max(from);
        self.curve.integral(to) - self.curve.integral(from)
            + 0.5 * self.solid_rate_n_per_m * self.solid_depth_m(length_m).powi(2)
    }

    pub(super) fn with_solid_length(self, solid_length_m: Option<f64>) -> Self {
        Points { solid_length_m, ..self }
    }

    pub(super) fn moved(mut self, by_m: f64) -> Self {
        self.longest_m += by_m;
        self.free_length_m += by_m;
        self.solid_length_m = self.solid_length_m.map(|l| l + by_m);
        self
    }

    fn solid_depth_m(&self, length_m: f64) -> f64 {
        self.solid_length_m.map_or(0.0, |solid| (solid - length_m).max(0.0))
    }
}
