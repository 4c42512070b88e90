//! Figures of a rough road, by closed forms.

use std::f64::consts::{PI, TAU};

use crate::base::units::{Dim, Quantity};
use crate::job::Side;
use crate::report::results::collect::Out;
use crate::report::results::row::{Row, row};
use crate::report::results::{Say, Substitution};
use crate::solve::answer::{Answer, OfVehicle, OnRoad, State};

const GAUSSIAN: &str = "linear spring and damper, Gaussian road; for comparison only";

/// What the closed forms come from.
fn inside(r: &OnRoad) -> Option<Vec<Substitution>> {
    let c = &r.corner;
    Some(vec![
        ("G_v", r.passage.velocity_psd_m2_per_s(), Dim::Ratio),
        ("m_s", c.sprung.si(), Dim::Mass),
        ("m_u", c.unsprung.si(), Dim::Mass),
        ("k", c.wheel_rate.si(), Dim::SpringRate),
        ("k_t", c.tyre_rate.si(), Dim::SpringRate),
        ("M", (c.sprung + c.unsprung).si(), Dim::Mass),
        ("c", c.damping.si(), Dim::DampingRate),
    ])
}

const ROWS: [Row<OnRoad>; 5] = [
    row(
        "travel_rms",
        "wheel travel, rms",
        Dim::Length,
        GAUSSIAN,
        "√(G_v M/(4c)), G_v in m²/s; no spring rate in it",
        "DERIVED",
        |r: &OnRoad| Some(r.travel.si()),
    )
    .with(inside),
    row(
        "stop_hits_per_km",
        "bump stop hits per km",
        Dim::Ratio,
        GAUSSIAN,
        "√(k_t/M)/2π · exp(−b²/2σ²) · 1000/v",
        "DERIVED",
        |r: &OnRoad| r.hits_per_km,
    )
    .with(|r| {
        // The gap tells itself by what passes it.
        let waves_per_km = (r.corner.tyre_rate.si() / (r.corner.sprung + r.corner.unsprung).si()).sqrt() / TAU * 1000.0
            / r.passage.speed.si();
        let in_sigma = (-2.0 * (r.hits_per_km? / waves_per_km).min(1.0).ln()).sqrt();
        let with = vec![
            ("k_t", r.corner.tyre_rate.si(), Dim::SpringRate),
            ("M", (r.corner.sprung + r.corner.unsprung).si(), Dim::Mass),
            ("b", in_sigma * r.travel.si(), Dim::Length),
            ("σ", r.travel.si(), Dim::Length),
            ("v", r.passage.speed.si(), Dim::Velocity),
        ];
        Some(with).filter(|_| in_sigma.is_finite())
    })
    .say(Say::Hits),
    row(
        "body_acceleration_rms",
        "body acceleration, rms, unweighted",
        Dim::Acceleration,
        GAUSSIAN,
        "√(G_v/4 · (k_t c/m_s² + M k²/(c m_s²)))",
        "DERIVED",
        |r: &OnRoad| Some(r.acceleration.si()),
    )
    .with(inside),
    row(
        "tyre_load_rms",
        "tyre load variation, rms ÷ static load",
        Dim::Ratio,
        GAUSSIAN,
        "√(G_v/4 · (k_t c M²/m_s² + M³k²/(c m_s²) − 2 m_u M k k_t/(c m_s) + m_u k_t²/c))/(M g)",
        "DERIVED",
        |r: &OnRoad| Some(r.tyre_load.si()),
    )
    .with(inside)
    .say(Say::Percent(0)),
    row(
        "pulled_down",
        "jacking-down (mean)",
        Dim::Length,
        "not included in the bump stop hits calculated by formula",
        "½(c_reb − c_bump) E|v|/k, E|v| = √(2/π) σ_v",
        "DERIVED",
        |r: &OnRoad| r.pulled_down.map(Quantity::si),
    )
    .with(|r| {
        let (k, speed) = (r.corner.wheel_rate.si(), r.corner.travel_speed_rms(&r.passage).si());
        let mean = (2.0 / PI).sqrt() * speed;
        Some(vec![
            ("c_reb − c_bump", 2.0 * k * r.pulled_down?.si() / mean, Dim::DampingRate),
            ("E|v|", mean, Dim::Velocity),
            ("k", k, Dim::SpringRate),
        ])
    }),
];

/// Of one corner.
pub(super) fn add_one(
    out: &mut Out,
    prefix: &str,
    words: &str,
    answer: &Answer,
    on_road: impl for<'a> Fn(&OfVehicle<'a>) -> Option<OnRoad>,
) {
    out.of_made(prefix, words, &ROWS, answer, on_road);
}

/// Of both axles in every state.
pub(super) fn add(out: &mut Out, answer: &Answer) {
    for side in Side::BOTH {
        for state in State::ALL {
            let prefix = format!("{}.{}.road", side.key(), state.key());
            let words = format!("{}, {}: ", side.word_inside(), state.words());
            add_one(out, &prefix, &words, answer, |v| v.whole.road.of(state)[side as usize]);
        }
    }
}
