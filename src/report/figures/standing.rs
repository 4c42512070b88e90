//! Results of one axle in one state.

use super::{AT_WHEEL, CORNER, Row, Substitution, row, si};
use crate::solve::answer::Standing;
use crate::units::{Dim, Quantity};

pub(super) static STANDING: &[Row<Standing>] = &[
    row("sprung", "sprung mass", Dim::Mass, CORNER, "m_s = axle / 2 − m_u", "DERIVED", |s| Some(s.sprung.si())),
    row(
        "travel",
        "wheel travel from the reference height",
        Dim::Length,
        "+ in bump",
        "F_w(z) = m_s g, solved",
        "DERIVED",
        |s| Some(s.travel.si()),
    ),
    row(
        "height_change",
        "height against before, at the wheel",
        Dim::Length,
        "hub to arch, + when the body rises",
        "z_before − z",
        "DERIVED",
        |s| si(s.height_change),
    ),
    row(
        "height_change_at_ground",
        "height against before, at the ground",
        Dim::Length,
        "tyre squash added, + when the body rises",
        "z_before − z − ΔW / k_t",
        "DERIVED",
        |s: &Standing| si(s.height_change_at_ground),
    )
    .with(|s| vec![("z_before − z", si(s.height_change), Dim::Length)]),
    row(
        "wheel_rate",
        "wheel rate",
        Dim::SpringRate,
        AT_WHEEL,
        "k_w = k_s r² + F_s r′ + k_rest (rubber, gas, bag) + k_stop",
        "GIL",
        |s: &Standing| Some(s.wheel_rate.si()),
    )
    .with(|s| {
        let curve = &s.curve;
        let length_m = curve.spring_length.length(s.travel).si();
        vec![
            ("k_s", Some(curve.spring.rate_n_per_m(length_m)), Dim::SpringRate),
            ("r", Some(curve.spring_length.ratio(s.travel).si()), Dim::Ratio),
            ("F_s r′", Some(s.spring_force.si() * curve.spring_length.slope(s.travel).value), Dim::SpringRate),
            ("k_rest", Some(curve.other_rate_n_per_m(s.travel.si())), Dim::SpringRate),
            ("k_stop", Some(curve.stop.as_ref().map_or(0.0, |p| p.rate_n_per_m(s.travel.si()))), Dim::SpringRate),
        ]
    }),
    row(
        "spring_rate",
        "rate of the spring itself",
        Dim::SpringRate,
        "along the spring, at this height; of a bar, upright at the arm's end",
        "−dF/dL",
        "DERIVED",
        |s| Some(s.spring_rate.si()),
    ),
    row("stored", "energy stored in the spring", Dim::Energy, "at this height", "∫ F dL", "DERIVED", |s| {
        Some(s.stored.si())
    }),
    row(
        "frequency",
        "ride frequency, on springs",
        Dim::Frequency,
        "on springs, undamped",
        "f = √(k_w / m_s) / 2π",
        "GIL",
        |s: &Standing| Some(s.frequency.si()),
    )
    .with(on_springs),
    row(
        "frequency_with_tyre",
        "ride frequency, with tyre",
        Dim::Frequency,
        "tyre in series, undamped",
        "f_t = √(k_w k_t / ((k_w + k_t) m_s)) / 2π",
        "GIL",
        |s: &Standing| si(s.frequency_with_tyre),
    )
    .with(on_springs),
    row(
        "static_deflection",
        "equivalent static deflection",
        Dim::Length,
        AT_WHEEL,
        "m_s g / k_w",
        "GIL",
        |s: &Standing| Some(s.static_deflection.si()),
    )
    .with(on_springs),
    row(
        "spring_force",
        "spring load at ride height",
        Dim::Force,
        "along the spring",
        "F_s = (m_s g − F_rest (rubber, gas, bag, stop)) / r",
        "DERIVED",
        |s: &Standing| Some(s.spring_force.si()),
    )
    .with(on_springs),
    row("spring_length", "spring length at ride height", Dim::Length, "along the spring", "L_s(z)", "DERIVED", |s| {
        si(s.spring_length)
    }),
    row(
        "stop_room",
        "room to the bump stop",
        Dim::Length,
        "wheel travel; negative: already touched",
        "gap − z",
        "DERIVED",
        |s: &Standing| si(s.stop_room),
    )
    .with(|s| {
        vec![("gap", s.curve.stop.as_ref().map(|p| p.gap_m), Dim::Length), ("z", Some(s.travel.si()), Dim::Length)]
    }),
    row(
        "reserve",
        "reserve before the bump stop",
        Dim::Ratio,
        "extra g over standing still; braking, roll and road use the same room",
        "(F_w(gap) − m_s g) / (m_s g)",
        "DERIVED",
        |s: &Standing| si(s.reserve),
    )
    .with(on_springs),
    row(
        "old_damper_ratio",
        "damping ratio with the old damper",
        Dim::Ratio,
        "at the wheel, on springs, mean of bump and rebound",
        "ζ = c_w / (2 √(k_w m_s))",
        "GIL",
        |s: &Standing| si(s.old_damper_ratio),
    )
    .with(on_springs),
];

fn on_springs(s: &Standing) -> Vec<Substitution> {
    vec![("k_w", Some(s.wheel_rate.si()), Dim::SpringRate), ("m_s", Some(s.sprung.si()), Dim::Mass)]
}
