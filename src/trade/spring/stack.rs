//! A soft helper coil over the main coil.

use super::Coil;

/// Two coils in series: both work until one is solid, then the other works alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stack {
    /// The soft one, which keeps the stack seated at droop. Its solid length must be known.
    pub helper: Coil,
    /// The one that carries.
    pub main: Coil,
}

impl Stack {
    /// The main coil's rate for a rate of the whole while the helper is open, N/m: 1/k_m = 1/k − 1/k_h.
    /// Source `DERIVED` (in series, compliances add). Valid for 0 < k < k_h: no main coil makes a stack stiffer than its
    /// helper.
    pub fn main_rate_n_per_m(whole_n_per_m: f64, helper: &Coil) -> f64 {
        1.0 / (1.0 / whole_n_per_m - 1.0 / helper.rate_n_per_m)
    }

    /// Free length of the whole stack, m.
    pub fn free_length_m(&self) -> f64 {
        self.helper.free_length_m + self.main.free_length_m
    }

    /// Length with everything solid, m, if known.
    pub fn solid_length_m(&self) -> Option<f64> {
        Some(self.helper.solid_length_m? + self.main.solid_length_m?)
    }

    /// The force at which the helper is solid, N. Source `DERIVED`: k_h (L0_h − L_solid,h).
    pub fn crossover_force_n(&self) -> f64 {
        self.helper.solid_force_n()
    }

    /// Length of the helper under a force, m; solid at least.
    pub fn helper_length_m(&self, force_n: f64) -> f64 {
        self.helper.length_for_m(force_n).max(self.helper.solid_length_m.unwrap_or(0.0))
    }

    /// Length of the stack at which the helper becomes solid, m.
    pub fn crossover_length_m(&self) -> f64 {
        self.free_length_m() - self.compression_m(self.crossover_force_n())
    }

    /// Force at a length, N.
    pub fn force_n(&self, length_m: f64) -> f64 {
        let compressed_m = self.free_length_m() - length_m;
        let mut left_m = compressed_m.max(0.0);
        let mut force_n = 0.0;
        for (rate, until_n) in self.stages() {
            let room_m = (until_n - force_n) / rate;
            if left_m <= room_m {
                return force_n + rate * left_m;
            }
            (left_m, force_n) = (left_m - room_m, until_n);
        }
        force_n
    }

    /// Slope of force against compression at a length, N/m.
    pub fn rate_n_per_m(&self, length_m: f64) -> f64 {
        if length_m > self.free_length_m() {
            return 0.0;
        }
        let force_n = self.force_n(length_m);
        self.stages().iter().find(|s| force_n <= s.1).map_or(0.0, |s| s.0)
    }

    /// Work stored at a length, J.
    pub fn energy_j(&self, length_m: f64) -> f64 {
        let force_n = self.force_n(length_m);
        let (mut below_n, mut energy_j) = (0.0, 0.0);
        for (rate, until_n) in self.stages() {
            let top_n = force_n.min(until_n);
            if top_n <= below_n {
                break;
            }
            energy_j += (top_n * top_n - below_n * below_n) / (2.0 * rate);
            below_n = top_n;
        }
        energy_j
    }

    /// Compression at a force, m.
    fn compression_m(&self, force_n: f64) -> f64 {
        let (mut below_n, mut sum_m) = (0.0, 0.0);
        for (rate, until_n) in self.stages() {
            sum_m += (force_n.min(until_n) - below_n).max(0.0) / rate;
            below_n = until_n;
        }
        sum_m
    }

    /// Rate, and the force up to which it holds: both, one alone, all solid.
    fn stages(&self) -> [(f64, f64); 3] {
        let (h, m) = (self.helper.rate_n_per_m, self.main.rate_n_per_m);
        let (helper_n, main_n) = (self.helper.solid_force_n(), self.main.solid_force_n());
        let (first_n, second_n) = (helper_n.min(main_n), helper_n.max(main_n));
        let alone = if helper_n <= main_n { m } else { h };
        [(h * m / (h + m), first_n), (alone, second_n), (m.max(h) * super::coil::SOLID_STIFFENING, f64::INFINITY)]
    }
}
