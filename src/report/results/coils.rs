//! Results about a coil by its wire: as it is, and to have it wound.

use super::{Row, Substitution, row, si};
use crate::solve::answer::CoilFacts;
use crate::spring::{Wire, Wound};
use crate::units::Dim::{Force, Length, Ratio, SpringRate, Stress};
use crate::units::Quantity;

const ALONG: &str = "along the spring";
const WAHL: &str = "shear, Wahl's factor";
const EN: &str = "shear, (C + 0.5)/(C − 0.75)";

pub(super) static COIL: &[Row<CoilFacts>] = &[
    row("rate", "rate by wire", SpringRate, ALONG, "k = G d⁴ / (8 D³ N_a)", "SHI", |c: &CoilFacts| {
        Some(c.rate.si())
    })
    .with(|c| {
        vec![
            ("G", Some(c.wire.shear_modulus_pa), Stress),
            ("d", Some(c.wire.diameter_m), Length),
            ("D", Some(c.wire.mean_m), Length),
            ("N_a", Some(c.wire.active), Ratio),
        ]
    }),
    row("index", "spring index", Ratio, "mean diameter over wire", "C = D / d", "SHI", |c: &CoilFacts| {
        Some(c.wire.index().si())
    })
    .with(|c| vec![("D", Some(c.wire.mean_m), Length), ("d", Some(c.wire.diameter_m), Length)]),
    row(
        "wahl",
        "Wahl's factor",
        Ratio,
        "direct shear and curvature",
        "K = (4C−1)/(4C−4) + 0.615/C",
        "SHI",
        |c: &CoilFacts| Some(c.wire.wahl().si()),
    )
    .with(|c| vec![("C", Some(c.wire.index().si()), Ratio)]),
    row(
        "en_factor",
        "stress factor of the standard",
        Ratio,
        "instead of Wahl's",
        "(C + 0.5)/(C − 0.75)",
        "EN",
        |c: &CoilFacts| Some(c.wire.en_factor().si()),
    )
    .with(|c| vec![("C", Some(c.wire.index().si()), Ratio)]),
    row("active", "working coils", Ratio, "coils that bend", "all coils − dead coils", "SHI", |c| {
        Some(c.wire.active)
    }),
    row(
        "solid_length",
        "solid length by its ends",
        Length,
        "all coils touching, by the ends alone",
        "d N_t ground, d (N_t + 1) not ground",
        "SHI",
        |c| si(c.solid_length),
    ),
    row(
        "least_gaps",
        "least sum of gaps between coils",
        Length,
        "at the shortest working length, moving load; cold wound, thick wire (above 16 mm) hot",
        "1.5 n (0.0015 D²/d + 0.1 d), or 2 · 0.02 n (D + d)",
        "EN",
        |c| Some(c.wire.least_gaps().si()),
    ),
    row(
        "longest_unguided",
        "longest free length that stands by itself",
        Length,
        "between flat parallel seats; a longer one may buckle unless guided",
        "2.63 D / 0.5",
        "SHI",
        |c: &CoilFacts| Some(c.wire.longest_unguided().si()),
    )
    .with(|c| vec![("D", Some(c.wire.mean_m), Length)]),
    row("stress_ride", "stress at ride height", Stress, WAHL, "τ = K 8 F D / (π d³)", "SHI", |c: &CoilFacts| {
        si(c.stress_ride)
    })
    .with(|c| shear(&c.wire, c.stress_ride.map(|s| s.si()), "K", c.wire.wahl().si())),
    row("stress_bump", "stress at full bump", Stress, WAHL, "τ = K 8 F D / (π d³)", "SHI", |c: &CoilFacts| {
        si(c.stress_bump)
    })
    .with(|c| shear(&c.wire, c.stress_bump.map(|s| s.si()), "K", c.wire.wahl().si())),
    row(
        "stress_ride_en",
        "stress at ride height, standard",
        Stress,
        EN,
        "τ = k 8 F D / (π d³)",
        "EN",
        |c: &CoilFacts| Some(c.by_standard(c.stress_ride?).si()),
    )
    .with(|c| shear(&c.wire, c.stress_ride.map(|s| c.by_standard(s).si()), "k", c.wire.en_factor().si())),
    row(
        "stress_bump_en",
        "stress at full bump, standard",
        Stress,
        EN,
        "τ = k 8 F D / (π d³)",
        "EN",
        |c: &CoilFacts| Some(c.by_standard(c.stress_bump?).si()),
    )
    .with(|c| shear(&c.wire, c.stress_bump.map(|s| c.by_standard(s).si()), "k", c.wire.en_factor().si())),
    row(
        "stress_solid_en",
        "stress when solid, standard",
        Stress,
        EN,
        "τ = k 8 F D / (π d³)",
        "EN",
        |c: &CoilFacts| Some(c.by_standard(c.stress_solid?).si()),
    )
    .with(|c| shear(&c.wire, c.stress_solid.map(|s| c.by_standard(s).si()), "k", c.wire.en_factor().si())),
    row("stress_solid", "stress when solid", Stress, WAHL, "τ = K 8 F D / (π d³)", "SHI", |c: &CoilFacts| {
        si(c.stress_solid)
    })
    .with(|c| shear(&c.wire, c.stress_solid.map(|s| s.si()), "K", c.wire.wahl().si())),
    row("stress_range", "stress range, ride to bump", Stress, WAHL, "τ_bump − τ_ride", "SHI", |c: &CoilFacts| {
        Some((c.stress_bump?.si() - c.stress_ride?.si()).abs())
    })
    .with(|c| vec![("τ_bump", si(c.stress_bump), Stress), ("τ_ride", si(c.stress_ride), Stress)]),
    row(
        "allowed",
        "allowed stress",
        Stress,
        "share of the least tensile strength of this steel and size, static",
        "share · A / d^m",
        "SHI",
        |c| si(c.allowed),
    ),
];

pub(super) static WOUND: &[Row<Wound>] = &[
    row(
        "wire",
        "wire to have it wound of",
        Length,
        "thinnest of the list that meets every limit",
        "by the list",
        "SHI",
        |w| Some(w.wire.diameter_m),
    ),
    row("mean_diameter", "mean coil diameter", Length, "outside less one wire", "OD − d", "SHI", |w: &Wound| {
        Some(w.wire.mean_m)
    })
    .with(|w| vec![("OD", Some(w.wire.mean_m + w.wire.diameter_m), Length), ("d", Some(w.wire.diameter_m), Length)]),
    row("active", "working coils", Ratio, "coils that bend", "N_a = G d⁴ / (8 D³ k)", "SHI", |w: &Wound| {
        Some(w.wire.active)
    })
    .with(|w| {
        vec![
            ("G", Some(w.wire.shear_modulus_pa), Stress),
            ("d", Some(w.wire.diameter_m), Length),
            ("D", Some(w.wire.mean_m), Length),
            ("k", Some(w.wire.rate().si()), SpringRate),
        ]
    }),
    row("total", "all coils", Ratio, "dead ones included", "N_a + dead coils", "SHI", |w: &Wound| Some(w.total))
        .with(|w| vec![("N_a", Some(w.wire.active), Ratio), ("dead coils", Some(w.total - w.wire.active), Ratio)]),
    row(
        "solid_length",
        "its solid length",
        Length,
        "by its ends",
        "d N_t ground, d (N_t + 1) not",
        "SHI",
        |w: &Wound| Some(w.solid_length.si()),
    )
    .with(|w| vec![("d", Some(w.wire.diameter_m), Length), ("N_t", Some(w.total), Ratio)]),
    row("stress", "its stress at full bump", Stress, WAHL, "τ = K 8 F D / (π d³)", "SHI", |w: &Wound| {
        Some(w.stress.si())
    })
    .with(|w| shear(&w.wire, Some(w.stress.si()), "K", w.wire.wahl().si())),
    row(
        "stress_solid",
        "its stress when solid",
        Stress,
        WAHL,
        "τ = K 8 F D / (π d³), F = k (L0 − L_solid)",
        "SHI",
        |w: &Wound| si(w.stress_solid),
    )
    .with(|w| shear(&w.wire, si(w.stress_solid), "K", w.wire.wahl().si())),
    row("allowed", "its allowed stress", Stress, "share of tensile strength", "share · A / d^m", "SHI", |w| {
        Some(w.allowed.si())
    }),
    row(
        "plain_solid",
        "its stress when solid, without a factor",
        Stress,
        "held against its limit",
        "τ = 8 F D / (π d³), F = k (L0 − L_solid)",
        "EN",
        |w: &Wound| si(w.plain_solid),
    ),
    row("allowed_solid", "its allowed stress when solid", Stress, "without a factor", "share · A / d^m", "EN", |w| {
        Some(w.allowed_solid.si())
    }),
    row(
        "clearance",
        "least left between its coils at full bump",
        Length,
        "the standard's sum of gaps, or the shop's room if that is more",
        "n (0.0015 D² / d + 0.1 d) cold, 0.02 n (D + d) hot",
        "EN",
        |w: &Wound| Some(w.clearance.si()),
    ),
    row(
        "spare",
        "spare length at full bump",
        Length,
        "below 0: too long",
        "L_bump − L_solid − S_a",
        "DERIVED",
        |w: &Wound| si(w.spare),
    ),
];

/// What a shear stress comes from: its factor, the force that makes it, mean and wire diameter.
fn shear(wire: &Wire, stress_pa: Option<f64>, symbol: &'static str, factor: f64) -> Vec<Substitution> {
    let (mean_m, diameter_m) = (wire.mean_m, wire.diameter_m);
    let force = stress_pa.map(|t| t * std::f64::consts::PI * diameter_m.powi(3) / (8.0 * factor * mean_m));
    vec![
        (symbol, Some(factor), Ratio),
        ("F", force, Force),
        ("D", Some(mean_m), Length),
        ("d", Some(diameter_m), Length),
    ]
}
