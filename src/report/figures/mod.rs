//! Every result as a named figure: value in SI, unit, convention, formula, source.
//!
//! One table per part of the answer. JSON, the working, the tables on screen and
//! on paper are all built from these rows. To add a result, add a row.

mod axle;
mod fitted;
mod standing;

use crate::job::Side;
use crate::solve::answer::{Answer, AxleAnswer, Band, Damping, PerState, Sizing, State};
use crate::units::{Dim, Quantity};

/// A symbol of a formula with the number put in for it.
pub type Substitution = (&'static str, Option<f64>, Dim);

/// One result.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Its path among the results: `front.old_springs.frequency`.
    pub key: String,
    /// What it is, in words.
    pub name: String,
    /// The value in the coherent SI unit; `None` when not known.
    pub si: Option<f64>,
    /// What it measures.
    pub dim: Dim,
    /// Sign, place and reference of the value.
    pub convention: &'static str,
    /// The formula, in symbols.
    pub formula: &'static str,
    /// The numbers put into the formula.
    pub with: Vec<Substitution>,
    /// Key into [`crate::sources::SOURCES`].
    pub source: &'static str,
}

/// One row of a table of results of `T`.
struct Row<T: ?Sized> {
    key: &'static str,
    name: &'static str,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
    value: fn(&T) -> Option<f64>,
    with: fn(&T) -> Vec<Substitution>,
}

fn si<Q: Quantity>(q: Option<Q>) -> Option<f64> {
    q.map(Quantity::si)
}

fn none<T: ?Sized>(_: &T) -> Vec<Substitution> {
    Vec::new()
}

const CORNER: &str = "per corner, mean of the two sides";
const AT_WHEEL: &str = "at the wheel, per corner, mean of the two sides";

/// Collects figures under a prefix.
struct Out {
    figures: Vec<Figure>,
}

impl Out {
    fn rows<T: ?Sized>(&mut self, prefix: &str, words: &str, rows: &[Row<T>], of: &T) {
        for row in rows {
            self.figures.push(Figure {
                key: format!("{prefix}.{}", row.key),
                name: format!("{words}{}", row.name),
                si: (row.value)(of),
                dim: row.dim,
                convention: row.convention,
                formula: row.formula,
                with: (row.with)(of),
                source: row.source,
            });
        }
    }

    fn band<Q: Quantity>(&mut self, like: Figure, band: &Band<Q>) {
        for (end, words, value) in
            [("low", "lowest", band.low), ("aim", "aimed at", band.aim), ("high", "highest", band.high)]
        {
            self.figures.push(Figure {
                key: format!("{}.{end}", like.key),
                name: format!("{}, {words}", like.name),
                si: Some(value.si()),
                ..like.clone()
            });
        }
    }

    fn per_state<Q: Quantity>(&mut self, like: Figure, values: &PerState<Option<Q>>) {
        for state in State::ALL {
            self.figures.push(Figure {
                key: format!("{}.{}", like.key, state.key()),
                name: format!("{}, {}", like.name, state.words()),
                si: values.of(state).map(Quantity::si),
                ..like.clone()
            });
        }
    }
}

fn like(
    key: String,
    name: String,
    dim: Dim,
    convention: &'static str,
    formula: &'static str,
    source: &'static str,
) -> Figure {
    Figure { key, name, si: None, dim, convention, formula, with: Vec::new(), source }
}

/// Every figure of an answer, in the order of the work.
pub fn figures(answer: &Answer) -> Vec<Figure> {
    let mut out = Out { figures: Vec::with_capacity(256) };
    out.rows("before", "before, ", axle::WEIGHED, &answer.before);
    out.rows("after", "after, ", axle::WEIGHED, &answer.after);
    for side in Side::BOTH {
        one_axle(&mut out, answer.axle(side));
    }
    out.per_state(
        like(
            "whole.rear_over_front".into(),
            "rear ÷ front frequency".into(),
            Dim::Ratio,
            "both on springs",
            "f_R / f_F",
            "GIL",
        ),
        &answer.rear_over_front,
    );
    out.per_state(
        like(
            "whole.flat_ride_speed".into(),
            "flat-ride speed".into(),
            Dim::Velocity,
            "n = 1, on springs; none when the rear is not quicker than the front",
            "v = L / (n (1/f_F − 1/f_R))",
            "GIL",
        ),
        &answer.flat_ride,
    );
    out.figures
}

fn one_axle(out: &mut Out, axle: &AxleAnswer) {
    let (key, words) = (axle.side.key(), format!("{}: ", axle.side.key()));
    out.rows(key, &words, axle::AXLE, axle);
    for state in State::ALL {
        if let Some(standing) = axle.standing.of(state) {
            let prefix = format!("{key}.{}", state.key());
            out.rows(&prefix, &format!("{key} {}: ", state.words()), standing::STANDING, standing);
        }
    }
    if let Some(sizing) = &axle.sizing {
        size(out, &format!("{key}.sizing"), &words, sizing);
    }
    if let Some(damping) = &axle.damping {
        damp(out, &format!("{key}.damping"), &words, damping);
    }
}

fn size(out: &mut Out, prefix: &str, words: &str, sizing: &Sizing) {
    let named = |key: &str, name: &str| (format!("{prefix}.{key}"), format!("{words}{name}"));
    let (key, name) = named("frequency", "wanted ride frequency");
    out.band(like(key, name, Dim::Frequency, "on springs", "as named, or as before", "PRACTICE"), &sizing.frequency);
    let (key, name) = named("wheel_rate", "wheel rate for it");
    out.band(like(key, name, Dim::SpringRate, AT_WHEEL, "k_w = m_s (2π f)²", "GIL"), &sizing.wheel_rate);
    let (key, name) = named("spring_rate", "spring rate for it");
    let formula = "k_s = (k_w − k_par − F_s r′ − F_gas r_d′) / r²";
    out.band(like(key, name, Dim::SpringRate, "along the spring", formula, "DERIVED"), &sizing.spring_rate);
    out.rows(prefix, words, fitted::SIZING, sizing);
}

fn damp(out: &mut Out, prefix: &str, words: &str, damping: &Damping) {
    let named = |key: &str, name: &str| (format!("{prefix}.{key}"), format!("{words}{name}"));
    let (key, name) = named("ratio", "wanted damping ratio");
    out.band(
        like(key, name, Dim::Ratio, "on springs, mean of bump and rebound", "as named", "PRACTICE"),
        &damping.ratio,
    );
    let (key, name) = named("at_wheel", "damping rate");
    out.band(like(key, name, Dim::DampingRate, AT_WHEEL, "c_w = 2 ζ √(k_w m_s)", "GIL"), &damping.at_wheel);
    let (key, name) = named("at_damper", "damper rate, mean of bump and rebound");
    out.band(like(key, name, Dim::DampingRate, "at the damper", "c_d = c_w / r_d²", "GIL"), &damping.at_damper);
    out.rows(prefix, words, fitted::DAMPING, damping);
    for force in &damping.forces {
        let speed = format!("{:.2}", force.speed.si());
        let convention = "at the damper, straight line through the origin";
        for (direction, band) in [("bump", &force.bump), ("rebound", &force.rebound)] {
            let (key, name) =
                named(&format!("{direction}_force.{speed}"), &format!("{direction} force at {speed} m/s"));
            out.band(like(key, name, Dim::Force, convention, "F = c v", "DIX"), band);
        }
    }
}
