//! Results of one axle in one state.

use super::{AT_WHEEL, CORNER, Row, Substitution, none, si};
use crate::solve::answer::Standing;
use crate::units::{Dim, Quantity};

pub(super) static STANDING: &[Row<Standing>] = &[
    Row {
        key: "sprung",
        name: "sprung mass",
        dim: Dim::Mass,
        convention: CORNER,
        formula: "m_s = axle / 2 − m_u",
        source: "DERIVED",
        value: |s| Some(s.sprung.si()),
        with: none,
    },
    Row {
        key: "travel",
        name: "wheel travel from the reference height",
        dim: Dim::Length,
        convention: "+ in bump",
        formula: "F_w(z) = m_s g, solved",
        source: "DERIVED",
        value: |s| Some(s.travel.si()),
        with: none,
    },
    Row {
        key: "height_change",
        name: "height against before, at the wheel",
        dim: Dim::Length,
        convention: "hub to arch, + when the body rises",
        formula: "z_before − z",
        source: "DERIVED",
        value: |s| si(s.height_change),
        with: none,
    },
    Row {
        key: "height_change_at_ground",
        name: "height against before, at the ground",
        dim: Dim::Length,
        convention: "tyre squash added, + when the body rises",
        formula: "z_before − z − ΔW / k_t",
        source: "DERIVED",
        value: |s| si(s.height_change_at_ground),
        with: |s| vec![("z_before − z", si(s.height_change), Dim::Length)],
    },
    Row {
        key: "wheel_rate",
        name: "wheel rate",
        dim: Dim::SpringRate,
        convention: AT_WHEEL,
        formula: "k_w = k_s r² + F_s r′ + k_par + F_gas r_d′",
        source: "GIL",
        value: |s| Some(s.wheel_rate.si()),
        with: |s| {
            let curve = &s.curve;
            let length_m = curve.spring_length.length(s.travel).si();
            vec![
                ("k_s", Some(curve.spring.rate_n_per_m(length_m)), Dim::SpringRate),
                ("r", Some(curve.spring_length.ratio(s.travel).si()), Dim::Ratio),
                ("F_s r′", Some(s.spring_force.si() * curve.spring_length.slope(s.travel).value), Dim::SpringRate),
                ("k_par", Some(curve.parallel_rate_n_per_m), Dim::SpringRate),
            ]
        },
    },
    Row {
        key: "spring_rate",
        name: "rate of the spring itself",
        dim: Dim::SpringRate,
        convention: "along the spring, at this height; of a bar, upright at the arm's end",
        formula: "−dF/dL",
        source: "DERIVED",
        value: |s| Some(s.spring_rate.si()),
        with: none,
    },
    Row {
        key: "stored",
        name: "energy stored in the spring",
        dim: Dim::Energy,
        convention: "at this height",
        formula: "∫ F dL",
        source: "DERIVED",
        value: |s| Some(s.stored.si()),
        with: none,
    },
    Row {
        key: "frequency",
        name: "ride frequency, on springs",
        dim: Dim::Frequency,
        convention: "on springs, undamped",
        formula: "f = √(k_w / m_s) / 2π",
        source: "GIL",
        value: |s| Some(s.frequency.si()),
        with: on_springs,
    },
    Row {
        key: "frequency_with_tyre",
        name: "ride frequency, with tyre",
        dim: Dim::Frequency,
        convention: "tyre in series, undamped",
        formula: "f_t = √(k_w k_t / ((k_w + k_t) m_s)) / 2π",
        source: "GIL",
        value: |s| si(s.frequency_with_tyre),
        with: on_springs,
    },
    Row {
        key: "static_deflection",
        name: "equivalent static deflection",
        dim: Dim::Length,
        convention: AT_WHEEL,
        formula: "m_s g / k_w",
        source: "GIL",
        value: |s| Some(s.static_deflection.si()),
        with: on_springs,
    },
    Row {
        key: "spring_force",
        name: "spring load at ride height",
        dim: Dim::Force,
        convention: "along the spring",
        formula: "F_s = (m_s g − F_gas r_d − F_par) / r",
        source: "DERIVED",
        value: |s| Some(s.spring_force.si()),
        with: on_springs,
    },
    Row {
        key: "spring_length",
        name: "spring length at ride height",
        dim: Dim::Length,
        convention: "along the spring",
        formula: "L_s(z)",
        source: "DERIVED",
        value: |s| si(s.spring_length),
        with: none,
    },
    Row {
        key: "stop_room",
        name: "room to the bump stop",
        dim: Dim::Length,
        convention: "wheel travel; negative: already touched",
        formula: "gap − z",
        source: "DERIVED",
        value: |s| si(s.stop_room),
        with: |s| {
            vec![("gap", s.curve.stop.as_ref().map(|p| p.gap_m), Dim::Length), ("z", Some(s.travel.si()), Dim::Length)]
        },
    },
    Row {
        key: "reserve",
        name: "reserve before the bump stop",
        dim: Dim::Ratio,
        convention: "extra g over standing still; braking, roll and road use the same room",
        formula: "(F_w(gap) − m_s g) / (m_s g)",
        source: "DERIVED",
        value: |s| si(s.reserve),
        with: on_springs,
    },
    Row {
        key: "old_damper_ratio",
        name: "damping ratio with the old damper",
        dim: Dim::Ratio,
        convention: "at the wheel, on springs, mean of bump and rebound",
        formula: "ζ = c_w / (2 √(k_w m_s))",
        source: "GIL",
        value: |s| si(s.old_damper_ratio),
        with: on_springs,
    },
];

fn on_springs(s: &Standing) -> Vec<Substitution> {
    vec![("k_w", Some(s.wheel_rate.si()), Dim::SpringRate), ("m_s", Some(s.sprung.si()), Dim::Mass)]
}
