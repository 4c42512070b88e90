//! Leaf springs: by test with friction, by dimensions.

use crate::base::math::fit;
use crate::base::units::{Force, Length, Quantity, SpringRate, Stress};

/// A leaf at the axle: a straight line both ways, since it is clamped. Its length is the height from frame to axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leaf {
    /// Rate, N/m.
    pub rate_n_per_m: f64,
    /// Height from frame to axle at which it carries nothing, m.
    pub free_height_m: f64,
}

/// One row of a test: a load on one leaf, and the height from frame to axle going down and coming back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeafRow {
    /// Load on one leaf, above what it carried at the start.
    pub load: Force,
    /// Height while the load grew.
    pub loading: Length,
    /// Height at the same load while it was taken off again.
    pub unloading: Option<Length>,
}

/// What a test says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeafTest {
    /// Rate of the loading branch.
    pub rate: SpringRate,
    /// Rate of the unloading branch, without the row where the test turned.
    pub unloading_rate: Option<SpringRate>,
    /// Gap between the branches at equal load.
    pub loop_height: Option<Length>,
    /// Friction, either way: half the gap along the load axis; `None` when the branches are changed over.
    pub friction: Option<Force>,
}

impl LeafTest {
    /// Least-squares slope of height on load. `None` with fewer than two loads, or when the leaf rises under load.
    ///
    /// Rate from the loading branch; friction = k × gap / 2; the row of the greatest load, where the test turned,
    /// is left out of gap and unloading rate. Source `DERIVED`.
    pub fn of(rows: &[LeafRow]) -> Option<LeafTest> {
        let rate = slope_rate(rows.iter().map(|r| (r.load, r.loading)))?;
        let turning = rows.iter().map(|r| r.load.si()).fold(f64::NEG_INFINITY, f64::max);
        let both: Vec<(Force, Length, Length)> = rows
            .iter()
            .filter(|r| r.load.si() < turning)
            .filter_map(|r| Some((r.load, r.loading, r.unloading?)))
            .collect();
        let loop_height = (!both.is_empty()).then(|| {
            let sum_m: f64 = both.iter().map(|(_, down, up)| (*down - *up).si()).sum();
            Length::from_si(sum_m / both.len() as f64)
        });
        Some(LeafTest {
            rate,
            unloading_rate: slope_rate(both.iter().map(|(load, _, up)| (*load, *up))),
            loop_height,
            friction: loop_height.filter(|gap| gap.si() >= 0.0).map(|gap| Force::from_si(0.5 * (rate * gap).si())),
        })
    }
}

fn slope_rate(rows: impl Iterator<Item = (Force, Length)>) -> Option<SpringRate> {
    let points: Vec<(f64, f64)> = rows.map(|(load, height)| (load.si(), height.si())).collect();
    let slope = fit::polynomial(&points, 1)?[1];
    (slope < 0.0).then(|| SpringRate::from_si(-1.0 / slope))
}

/// A semi-elliptic pack of equal leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeafPack {
    /// Young's modulus, Pa.
    pub modulus_pa: f64,
    /// Number of leaves.
    pub leaves: f64,
    /// How many of them are full length.
    pub full_length: f64,
    /// Width, m.
    pub width_m: f64,
    /// Thickness of one leaf, m.
    pub thickness_m: f64,
    /// Span between the eyes less the length clamped to the axle, m.
    pub working_span_m: f64,
}

impl LeafPack {
    /// k = 8 E n b t³ / (3 L³) · (3 n_f + 2 n_g) / (2 n). Source `SHI`; `BHA` for the full-length leaves (seen).
    pub fn rate(&self) -> SpringRate {
        let graduated = self.leaves - self.full_length;
        let stiffened = (3.0 * self.full_length + 2.0 * graduated) / (2.0 * self.leaves);
        SpringRate::from_si(
            8.0 * self.modulus_pa * self.leaves * self.width_m * self.thickness_m.powi(3)
                / (3.0 * self.working_span_m.powi(3))
                * stiffened,
        )
    }

    /// Bending stress 3 F L / (2 n b t²), the leaves nipped to equal stress. Source `BHA` (seen).
    pub fn stress(&self, load: Force) -> Stress {
        Stress::from_si(1.5 * load.si() * self.working_span_m / (self.leaves * self.width_m * self.thickness_m.powi(2)))
    }
}
