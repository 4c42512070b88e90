//! An air bag that helps the spring.

use crate::base::units::{Area, Length, Pressure, Quantity, Volume};

/// The atmosphere, Pa. Source `SP811` (standard atmosphere, exact).
pub const ATMOSPHERE_PA: f64 = 101_325.0;
/// Below this share of its volume a bag is taken as a block.
const LEAST_VOLUME: f64 = 0.1;

/// A bag at its set height: area, volume and pressure there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirBag {
    /// Effective area A = dV/dL at the set height, m².
    pub area_m2: f64,
    /// dA/dL, m: negative when the area grows as the bag is compressed.
    pub area_slope_m: f64,
    /// Volume at the set height, m³.
    pub volume_m3: f64,
    /// Gauge pressure at the set height, Pa.
    pub gauge_pa: f64,
    /// Polytropic exponent: 1 for slow loading, about 1.38 for ride.
    pub exponent: f64,
}

impl AirBag {
    /// A bag of constant area.
    pub fn new(area: Area, volume: Volume, gauge: Pressure, exponent: f64) -> Self {
        AirBag { area_m2: area.si(), area_slope_m: 0.0, volume_m3: volume.si(), gauge_pa: gauge.si(), exponent }
    }

    /// Force at a compression (m) from the set height, N: gauge pressure × area. Below the air around it the bag folds
    /// and carries nothing. Source `DERIVED` (virtual work: A = dV/dL).
    pub fn force_n(&self, compressed_m: f64) -> f64 {
        if self.folded(compressed_m) { 0.0 } else { self.pumped_force_n(compressed_m) }
    }

    /// Rate k = n p_abs A²/V − p_gauge dA/dL, N/m. Source `DERIVED` (p V^n constant).
    pub fn rate_n_per_m(&self, compressed_m: f64) -> f64 {
        if self.folded(compressed_m) { 0.0 } else { self.rate_inside(self.inside(compressed_m)) }
    }

    /// The same bag pumped so that it gives a force at its set height.
    #[must_use]
    pub fn pumped_to(self, force_n: f64) -> Self {
        AirBag { gauge_pa: force_n / self.area_m2, ..self }
    }

    /// Gauge pressure at a compression from the set height.
    pub fn gauge(&self, compressed: Length) -> Pressure {
        Pressure::from_si(self.absolute_pa(self.inside(compressed.si())) - ATMOSPHERE_PA)
    }

    fn folded(&self, compressed_m: f64) -> bool {
        self.absolute_pa(self.inside(compressed_m)) < ATMOSPHERE_PA || self.pumped_force_n(compressed_m) < 0.0
    }

    fn pumped_force_n(&self, compressed_m: f64) -> f64 {
        let x = self.inside(compressed_m);
        (self.absolute_pa(x) - ATMOSPHERE_PA) * self.area(x) + (compressed_m - x) * self.rate_inside(x)
    }

    fn rate_inside(&self, x: f64) -> f64 {
        let absolute_pa = self.absolute_pa(x);
        self.exponent * absolute_pa * self.area(x).powi(2) / self.volume(x)
            - (absolute_pa - ATMOSPHERE_PA) * self.area_slope_m
    }

    fn area(&self, x: f64) -> f64 {
        self.area_m2 - self.area_slope_m * x
    }

    fn volume(&self, x: f64) -> f64 {
        self.volume_m3 - x * (self.area_m2 - 0.5 * self.area_slope_m * x)
    }

    fn absolute_pa(&self, x: f64) -> f64 {
        (self.gauge_pa + ATMOSPHERE_PA) * (self.volume_m3 / self.volume(x)).powf(self.exponent)
    }

    /// The compression, held where the bag still has volume and area; beyond, the end rate goes on.
    fn inside(&self, compressed_m: f64) -> f64 {
        let left = 1.0 - LEAST_VOLUME;
        let block_m = if self.area_slope_m == 0.0 {
            left * self.volume_m3 / self.area_m2
        } else {
            // A x − A' x²/2 = left · V, the smaller root; none when the area vanishes first.
            let under = self.area_m2.powi(2) - 2.0 * self.area_slope_m * left * self.volume_m3;
            match under {
                u if u >= 0.0 => (self.area_m2 - u.sqrt()) / self.area_slope_m,
                _ => left * self.area_m2 / self.area_slope_m,
            }
        };
        let open_m = if self.area_slope_m < 0.0 { left * self.area_m2 / self.area_slope_m } else { -1.0 };
        compressed_m.max(open_m).min(block_m)
    }
}
