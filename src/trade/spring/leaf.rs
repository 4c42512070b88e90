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

impl Leaf {
    /// Force at a height, N.
    pub fn force_n(&self, height_m: f64) -> f64 {
        self.rate_n_per_m * (self.free_height_m - height_m)
    }

    /// Work stored at a height, J.
    pub fn energy_j(&self, height_m: f64) -> f64 {
        0.5 * self.rate_n_per_m * (self.free_height_m - height_m).powi(2)
    }

    /// The same leaf on a block, or of more camber, m.
    pub(super) fn moved(self, by_m: f64) -> Self {
        Leaf { free_height_m: self.free_height_m + by_m, ..self }
    }

    /// The same leaf with this multiple of its rate.
    pub(super) fn times(self, factor: f64) -> Self {
        Leaf { rate_n_per_m: self.rate_n_per_m * factor, ..self }
    }

    /// This leaf and another one, which give way together.
    pub(super) fn clamped_with(self, other: &Leaf) -> Self {
        let rate_n_per_m = self.rate_n_per_m + other.rate_n_per_m;
        let free = self.rate_n_per_m * self.free_height_m + other.rate_n_per_m * other.free_height_m;
        Leaf { rate_n_per_m, free_height_m: free / rate_n_per_m }
    }
}

/// A leaf over a helper pack of less camber, which carries only once the leaf has given way so far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnHelper {
    /// The leaf.
    pub main: Leaf,
    /// The helper pack.
    pub helper: Leaf,
}

impl OnHelper {
    fn is_touched(&self, height_m: f64) -> bool {
        height_m < self.helper.free_height_m
    }

    /// Force at a height, N.
    pub fn force_n(&self, height_m: f64) -> f64 {
        self.main.force_n(height_m) + self.helper.force_n(height_m).max(0.0)
    }

    /// Slope of force against compression at a height, N/m.
    pub fn rate_n_per_m(&self, height_m: f64) -> f64 {
        self.main.rate_n_per_m + if self.is_touched(height_m) { self.helper.rate_n_per_m } else { 0.0 }
    }

    /// Work stored at a height, J.
    pub fn energy_j(&self, height_m: f64) -> f64 {
        self.main.energy_j(height_m) + if self.is_touched(height_m) { self.helper.energy_j(height_m) } else { 0.0 }
    }

    /// The height at which it carries a force, m.
    pub fn length_for_m(&self, force_n: f64) -> f64 {
        let carries = |leaf: &Leaf| leaf.free_height_m - force_n / leaf.rate_n_per_m;
        let alone_m = carries(&self.main);
        if self.is_touched(alone_m) { carries(&self.main.clamped_with(&self.helper)) } else { alone_m }
    }

    pub(super) fn moved(self, by_m: f64) -> Self {
        OnHelper { main: self.main.moved(by_m), helper: self.helper.moved(by_m) }
    }

    pub(super) fn times(self, factor: f64) -> Self {
        OnHelper { main: self.main.times(factor), helper: self.helper.times(factor) }
    }
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
    /// Friction, either way: half the gap along the load axis; `None` when the branches are swapped.
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

    /// One graduated leaf of this thickness, of the same width, span and steel: added to the pack it bends with it.
    pub fn one_of(&self, thickness_m: f64) -> LeafPack {
        LeafPack { leaves: 1.0, full_length: 0.0, thickness_m, ..*self }
    }

    /// How many leaves, none thicker than those of the pack, add this rate; at least one. `None` for a rate that is none.
    pub fn leaves_to_add(&self, rate: SpringRate) -> Option<f64> {
        let count = (rate / self.one_of(self.thickness_m).rate()).value.ceil();
        (rate.si() > 0.0 && count.is_finite()).then_some(count.max(1.0))
    }

    /// This number of equal leaves that add this rate together: t = (3 k L³ / (8 E n b))^⅓, the rate of a graduated pack turned
    /// around. Source `SHI`.
    pub fn added(&self, rate: SpringRate, leaves: f64) -> LeafPack {
        let cubed = 3.0 * rate.si() * self.working_span_m.powi(3) / (8.0 * self.modulus_pa * leaves * self.width_m);
        LeafPack { leaves, ..self.one_of(cubed.cbrt()) }
    }
}

/// A leaf or a pack that is added to a leaf which stays: clamped together, both give way by as much.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// Rate to add.
    pub rate: SpringRate,
    /// What it carries.
    pub load: Force,
    /// How far it gives way under that.
    pub gives_way: Length,
    /// How much further it gives way than the leaf that stays: + it is arched more and presses against that leaf when
    /// free; − it is touched only after that leaf has given way so far.
    pub nip: Length,
}

impl Beside {
    /// What is added to this leaf, so that both together carry a load at a height at a rate: the rate and the load that
    /// it does not bring itself. `None` when it brings as much already. Source `DERIVED` (springs in parallel).
    pub fn of(leaf: &Leaf, height: Length, load: Force, rate: SpringRate) -> Option<Beside> {
        let own_m = leaf.free_height_m - height.si();
        let added = SpringRate::from_si(rate.si() - leaf.rate_n_per_m);
        let left = Force::from_si(load.si() - leaf.rate_n_per_m * own_m);
        let gives_way = Length::from_si(left.si() / added.si());
        (added.si() > 0.0 && left.si() > 0.0).then_some(Beside {
            rate: added,
            load: left,
            gives_way,
            nip: gives_way - Length::from_si(own_m),
        })
    }
}
