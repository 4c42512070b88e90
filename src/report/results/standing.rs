//! Results of one axle in one state.

use super::{AT_WHEEL, CORNER, Row, Substitution, row, si};
use crate::solve::answer::Standing;
use crate::spring::Spring;
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
        |s: &Standing| si(s.height_change),
    )
    .with(|s| {
        vec![
            ("z_before", s.height_change.map(|h| (h + s.travel).si()), Dim::Length),
            ("z", s.height_change.map(|_| s.travel.si()), Dim::Length),
        ]
    }),
    row(
        "height_change_at_ground",
        "height against before, at the ground",
        Dim::Length,
        "tyre squash added, + when the body rises",
        "z_before − z − ΔW / k_t",
        "DERIVED",
        |s: &Standing| si(s.height_change_at_ground),
    )
    .with(|s| {
        let squash = s.height_change.zip(s.height_change_at_ground).map(|(wheel, ground)| (wheel - ground).si());
        vec![("z_before − z", si(s.height_change), Dim::Length), ("ΔW / k_t", squash, Dim::Length)]
    }),
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
    row(
        "stored",
        "energy stored in the spring",
        Dim::Energy,
        "at this height",
        "area under force against length; a coil of one rate: k_s (L0 − L)² / 2",
        "DERIVED",
        |s: &Standing| Some(s.stored.si()),
    )
    .with(|s| match s.curve.spring {
        Spring::Coil(coil) => vec![
            ("k_s", Some(coil.rate_n_per_m), Dim::SpringRate),
            ("L0", Some(coil.free_length_m), Dim::Length),
            ("L", Some(s.curve.spring_length.length(s.travel).si()), Dim::Length),
        ],
        _ => Vec::new(),
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
    .with(|s| {
        // What the tyre makes of the wheel rate tells its own.
        let both = s.frequency_with_tyre.map(|f| s.sprung.si() * (std::f64::consts::TAU * f.si()).powi(2));
        let k_w = s.wheel_rate.si();
        let tyre = both.map(|k| k * k_w / (k_w - k));
        [on_springs(s), vec![("k_t", tyre, Dim::SpringRate)]].concat()
    }),
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
        "along the spring; W = m_s g and what a load on the hitch adds",
        "F_s = (W − F_rest (rubber, gas, bag, stop)) / r",
        "DERIVED",
        |s: &Standing| Some(s.spring_force.si()),
    )
    .with(|s| {
        let ratio = s.curve.spring_length.ratio(s.travel).si();
        vec![
            ("W", Some(load_n(s)), Dim::Force),
            ("F_rest", Some(rest_n(s)), Dim::Force),
            ("r", Some(ratio), Dim::Ratio),
        ]
    }),
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
        "extra g over standing still until the stop is touched at z_c, or the coils bind before that; braking, roll and road use the same room",
        "F_w(z_c) / W − 1",
        "DERIVED",
        |s: &Standing| si(s.reserve),
    )
    .with(|s| {
        let at_contact = s.reserve.and(s.curve.first_contact_m()).map(|z| s.curve.force_without_stop_n(z));
        vec![("F_w(z_c)", at_contact, Dim::Force), ("W", at_contact.map(|_| load_n(s)), Dim::Force)]
    }),
    row(
        "old_damper_ratio",
        "damping ratio with the old damper",
        Dim::Ratio,
        "at the wheel, on springs, mean of bump and rebound",
        "ζ = c_w / (2 √(k_w m_s))",
        "GIL",
        |s: &Standing| si(s.old_damper_ratio),
    )
    .with(|s| {
        let critical = 2.0 * (s.wheel_rate.si() * s.sprung.si()).sqrt();
        let c_w = s.old_damper_ratio.map(|z| z.si() * critical);
        [vec![("c_w", c_w, Dim::DampingRate)], on_springs(s)].concat()
    }),
];

fn on_springs(s: &Standing) -> Vec<Substitution> {
    vec![("k_w", Some(s.wheel_rate.si()), Dim::SpringRate), ("m_s", Some(s.sprung.si()), Dim::Mass)]
}

/// What presses on the corner: what its curve carries there, N.
fn load_n(s: &Standing) -> f64 {
    s.curve.force_n(s.travel.si())
}

/// What carries beside the spring, N: rubber, gas, bag and stop.
fn rest_n(s: &Standing) -> f64 {
    let z_m = s.travel.si();
    s.curve.other_force_n(z_m) + s.curve.force_n(z_m) - s.curve.force_without_stop_n(z_m)
}
