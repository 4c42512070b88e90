//! Figures of a rough road, by closed forms.

use std::f64::consts::PI;

use crate::base::units::Quantity;
use crate::job::Side;
use crate::report::results::collect::Out;
use crate::report::results::row::{Row, put, rows, si};
use crate::report::results::{Say, Substitution};
use crate::solve::answer::{Answer, OnRoad, State};

const GAUSSIAN: &str = "linear spring and damper, Gaussian road; for comparison only";

/// What the closed forms come from.
fn inside(r: &OnRoad) -> Option<Vec<Substitution>> {
    let c = &r.corner;
    put![
        "G_v": r.passage.velocity_psd_m2_per_s() => Ratio, "m_s": c.sprung, "m_u": c.unsprung, "k": c.wheel_rate,
        "k_t": c.tyre_rate, "M": c.sprung + c.unsprung, "c": c.damping,
    ]
}

/// Of one corner.
pub(super) static ROWS: &[Row<OnRoad>] = rows! { OnRoad;
    "travel_rms", "wheel travel, rms", Length, GAUSSIAN;
        "√(G_v M/(4c)), G_v in m²/s; no spring rate in it", "DERIVED", |r| Some(r.travel.si()), with: inside;
    "stop_hits_per_km", "bump stop hits per km", Ratio, GAUSSIAN;
        "√(k_t/M)/2π · exp(−b²/2σ²) · 1000/v", "DERIVED", |r| r.hits_per_km,
        with: |r| put![
            "k_t": r.corner.tyre_rate, "M": r.corner.sprung + r.corner.unsprung,
            // On the stop already, every wave meets it.
            "b": si(r.stop_room)?.max(0.0) => Length, "σ": r.travel, "v": r.passage.speed,
        ],
        say: Say::Hits;
    "body_acceleration_rms", "body acceleration, rms, unweighted", Acceleration, GAUSSIAN;
        "√(G_v/4 · (k_t c/m_s² + M k²/(c m_s²)))", "DERIVED", |r| Some(r.acceleration.si()), with: inside;
    "tyre_load_rms", "tyre load variation, rms ÷ static load", Ratio, GAUSSIAN;
        "√(G_v/4 · (k_t c M²/m_s² + M³k²/(c m_s²) − 2 m_u M k k_t/(c m_s) + m_u k_t²/c))/(M g)", "DERIVED",
        |r| Some(r.tyre_load.si()), with: inside, say: Say::Percent(0);
    "pulled_down", "mean jacking-down", Length, "not included in the bump stop hits calculated by formula";
        "½(c_reb − c_bump) E|v|/k, E|v| = √(2/π) σ_v", "DERIVED", |r| si(r.pulled_down),
        with: |r| {
            // The mean of both rates is c, the one this many times the other.
            let ratio = si(r.rebound_over_bump)?;
            put![
                "c_reb − c_bump": 2.0 * r.corner.damping.si() * (ratio - 1.0) / (ratio + 1.0) => DampingRate,
                "E|v|": (2.0 / PI).sqrt() * r.corner.travel_speed_rms(&r.passage).si() => Velocity,
                "k": r.corner.wheel_rate,
            ]
        };
};

/// Of an axle in every state.
pub(in crate::report::results) fn add(out: &mut Out, answer: &Answer, side: Side) {
    for state in State::ALL {
        let prefix = format!("{}.{}.road", side.key(), state.key());
        let words = format!("{}, {}: ", side.word_inside(), state.words());
        out.of_made(&prefix, &words, ROWS, answer, |v| v.whole.road.of(state)[side]);
    }
}
