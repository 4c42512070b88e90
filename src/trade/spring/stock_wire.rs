//! Diameters that spring wire and bar are sold in.

const INCH_M: f64 = 0.0254;

/// Thinner US wire, in: gauge sizes and the fractions between them. Washburn & Moen gauge seen (public tables of wire
/// weavers); that springs are wound of these fractions is common practice, no source.
const US_BELOW_HALF_IN: [f64; 20] = [
    0.1770, 0.1875, 0.1920, 0.2070, 0.21875, 0.2253, 0.2437, 0.2500, 0.2625, 0.2830, 0.3065, 0.3125, 0.3310, 0.3625,
    0.3750, 0.3938, 0.40625, 0.4305, 0.4375, 0.46875,
];

/// Metric wire, m, thinnest first: 4 to 40 mm by 0.5 mm. Common practice, no source.
pub fn metric_m() -> Vec<f64> {
    (8..=80).map(|halves| f64::from(halves) * 0.5e-3).collect()
}

/// US wire, m, thinnest first: gauge sizes and fractions, from 1/2 to 1 1/2 in by 1/32 in. Common practice, no source.
pub fn us_m() -> Vec<f64> {
    let thick = (16..=48).map(|parts| f64::from(parts) / 32.0);
    US_BELOW_HALF_IN.into_iter().chain(thick).map(|inches| inches * INCH_M).collect()
}

/// Whole multiples of a step, m, for a coil so wide outside, with an index D/d of 4 to 20.
pub fn multiples_m(step_m: f64, outside_m: f64) -> Vec<f64> {
    // No more sizes than about these: of a finer step every so many are looked at.
    const MOST: f64 = 5_000.0;
    let every = ((outside_m / 5.0 - outside_m / 21.0) / step_m / MOST).ceil().max(1.0);
    let step_m = step_m * every;
    let first = (outside_m / 21.0 / step_m - 1e-9).ceil().max(1.0);
    let last = (outside_m / 5.0 / step_m + 1e-9).floor();
    (0..).map(|i| first + f64::from(i)).take_while(|n| *n <= last).map(|n| n * step_m).collect()
}
