//! Figures of a rough road, by closed forms.

use super::{Out, Row, Substitution, row};
use crate::job::Side;
use crate::solve::answer::{Answer, OfVehicle, OnRoad, State};
use crate::units::{Dim, Quantity};

const GAUSSIAN: &str = "straight spring and damper, Gaussian road; comparative only";

fn inside(r: &OnRoad) -> Vec<Substitution> {
    let c = &r.corner;
    vec![
        ("G_v, m²/s", Some(r.passage.velocity_psd_m2_per_s()), Dim::Ratio),
        ("m_s", Some(c.sprung.si()), Dim::Mass),
        ("m_u", Some(c.unsprung.si()), Dim::Mass),
        ("k", Some(c.wheel_rate.si()), Dim::SpringRate),
        ("k_t", Some(c.tyre_rate.si()), Dim::SpringRate),
        ("c", Some(c.damping.si()), Dim::DampingRate),
    ]
}

const ROWS: [Row<OnRoad>; 5] = [
    row(
        "travel_rms",
        "travel on the rough road, rms",
        Dim::Length,
        GAUSSIAN,
        "√(G_v (m_s + m_u)/(4c)); no spring rate in it",
        "DERIVED",
        |r: &OnRoad| Some(r.travel.si()),
    )
    .with(inside),
    row(
        "stop_hits_per_km",
        "stop hits (per km)",
        Dim::Ratio,
        GAUSSIAN,
        "√(k_t/(m_s + m_u))/2π · exp(−b²/2σ²) · 1000/v",
        "DERIVED",
        |r: &OnRoad| r.hits_per_km,
    )
    .with(inside),
    row(
        "body_acceleration_rms",
        "body acceleration on the rough road, rms",
        Dim::Acceleration,
        "not weighted; straight spring and damper, Gaussian road",
        "√(G_v/4 · (k_t c/m_s² + M k²/(c m_s²)))",
        "DERIVED",
        |r: &OnRoad| Some(r.acceleration.si()),
    )
    .with(inside),
    row(
        "tyre_load_rms",
        "tyre force on the rough road, rms over its standing load",
        Dim::Ratio,
        GAUSSIAN,
        "√(G_v/4 · (k_t c M²/m_s² + M³k²/(c m_s²) − 2 m_u M k k_t/(c m_s) + m_u k_t²/c))/(M g)",
        "DERIVED",
        |r: &OnRoad| Some(r.tyre_load.si()),
    )
    .with(inside),
    row(
        "pulled_down",
        "pulled down by rebound on the rough road",
        Dim::Length,
        "not in the stop hits by closed form",
        "½(c_reb − c_bump) E|v|/k, E|v| = √(2/π) σ_v",
        "DERIVED",
        |r: &OnRoad| r.pulled_down.map(Quantity::si),
    )
    .with(inside),
];

/// Of one corner.
pub(super) fn add_one(
    out: &mut Out,
    prefix: &str,
    words: &str,
    answer: &Answer,
    on_road: impl for<'a> Fn(&OfVehicle<'a>) -> Option<OnRoad>,
) {
    if let Some(found) = on_road(&answer.of_vehicle()) {
        out.with_u(prefix, words, &ROWS, &found, |row| answer.u_of(|v| on_road(v).and_then(|r| (row.value)(&r))));
    }
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
