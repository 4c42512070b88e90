//! Figures of what each remedy would do, case by case.

use super::road_results;
use super::shared_rows::AT_REST;
use crate::base::units::Quantity;
use crate::job::Side;
use crate::report::results::collect::Out;
use crate::report::results::row::{Row, damped, figures, rows, si};
use crate::report::results::{By, Say};
use crate::say;
use crate::solve::answer::{Answer, OptionStanding, RemedyKind, Vehicle};

/// How far a corner rises.
static RISEN: &[Row<OptionStanding>] = rows! { OptionStanding;
    "above_before", "height change at the wheel", Length, "at the wheel, + up";
        "z_b − z", "DERIVED", |s| si(s.above_before), by: By::Solving, say: Say::Height("as before");
};

/// How it is damped.
static DAMPED: &[Row<OptionStanding>] = rows! { OptionStanding;
    "damping_ratio", "damping ratio", Ratio, "without tyre deflection, with the dampers fitted in this case";
        "c_w/(2√(k_w m_s))", "GIL", |s| s.damper_at_wheel.map(|c| s.on.damping_ratio(c).si()),
        with: |s| damped(&s.on, s.damper_at_wheel);
};

/// All of an axle.
pub(in crate::report::results) fn add(out: &mut Out, answer: &Answer, side: Side) {
    for kind in RemedyKind::ALL {
        one(out, answer, side, kind);
    }
}

fn one(out: &mut Out, answer: &Answer, side: Side, kind: RemedyKind) {
    let (key, words) = (kind.key(), kind.words(answer.axle(side).kind));
    let found = answer.remedies[side].iter().find(|remedy| remedy.kind == kind);
    figures! { out;
        put format!("{}.remedies.{key}.price", side.key()),
            say!("{side}, {remedy}: price", side = side.word_inside(), remedy = words), Ratio,
            "parts and labour for the axle, in the shop's currency";
            "Σ prices", "DERIVED", by: By::Solving => found.and_then(|remedy| remedy.price), None;
    }
    for (n, case) in answer.cases.iter().enumerate() {
        let prefix = format!("{}.remedies.{key}.{}", side.key(), case.key());
        let words = format!("{}, {words}, {}: ", side.word_inside(), case.name);
        out.of_made(&prefix, &words, RISEN, answer, |v| standing(v, side, kind, n));
        out.of_made(&prefix, &words, AT_REST, answer, |v| Some(standing(v, side, kind, n)?.on));
        out.of_made(&prefix, &words, DAMPED, answer, |v| standing(v, side, kind, n));
        let prefix = format!("{prefix}.road");
        out.of_made(&prefix, &words, road_results::ROWS, answer, |v| standing(v, side, kind, n)?.road);
    }
}

/// Equilibrium of the axle in a load case.
fn standing(v: &Vehicle, side: Side, kind: RemedyKind, case: usize) -> Option<OptionStanding> {
    let remedy = v.remedies[side].iter().find(|remedy| remedy.kind == kind)?;
    *remedy.cases.get(case)?
}
