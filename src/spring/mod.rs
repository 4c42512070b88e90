//! Springs: every kind is a force at a length.
//!
//! Each kind answers two questions, force and rate at a length, so that all
//! later steps are one path. To add a kind, add a variant and its two answers.

mod coil;

pub use coil::Coil;

/// A spring of any kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spring {
    /// A coil spring known by its rate.
    Coil(Coil),
}

impl Spring {
    /// Force along the spring's own axis at this length, N, + in compression.
    pub fn force_n(&self, length_m: f64) -> f64 {
        match self {
            Spring::Coil(coil) => coil.force_n(length_m),
        }
    }

    /// Slope of force against compression at this length, N/m.
    pub fn rate_n_per_m(&self, length_m: f64) -> f64 {
        match self {
            Spring::Coil(coil) => coil.rate_n_per_m(length_m),
        }
    }

    /// Work stored when compressed from loose to this length, J.
    pub fn energy_j(&self, length_m: f64) -> f64 {
        match self {
            Spring::Coil(coil) => coil.energy_j(length_m),
        }
    }

    /// The length at which it carries nothing, m.
    pub fn free_length_m(&self) -> f64 {
        match self {
            Spring::Coil(coil) => coil.free_length_m,
        }
    }

    /// The same spring with a spacer of this thickness (m) at its seat.
    #[must_use]
    pub fn with_spacer(self, thickness_m: f64) -> Spring {
        match self {
            Spring::Coil(coil) => Spring::Coil(coil.with_spacer(thickness_m)),
        }
    }
}
