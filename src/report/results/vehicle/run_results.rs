//! Results of the runs over rough roads.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::job::Side;
use crate::report::results::collect::{Out, Wants};
use crate::report::results::row::{Row, like, rows};
use crate::report::results::{By, Figure, Say, Why};
use crate::say;
use crate::solve::answer::{OverRoad, Said, State, WeightedBy};
use crate::solve::road::{Driven, NoRuns, Ride};

const RUN: &str = "of one wheel on this run, with the full damper curve";
const STEPS: &str = "equations of motion, step by step";

static ROWS: &[Row<Said>] = rows! { Said;
    "stop_hits", "bump stop hit", Ratio, RUN;
        "counted", "DERIVED", |s| s.stop_hits.map(|n| n as f64), by: By::Solving, say: Say::Times;
    "metal_hits", "metal contact", Ratio, RUN;
        "counted", "DERIVED", |s| s.metal_hits.map(|n| n as f64), by: By::Solving, say: Say::Times;
    "most_pressed", "largest compression from rest", Length, RUN;
        STEPS, "DERIVED", |s| Some(s.most_pressed.si()), by: By::Solving;
    "travel_rms", "wheel travel about its mean, rms", Length, RUN;
        STEPS, "DERIVED", |s| Some(s.travel_rms.si()), by: By::Solving;
    "pulled_down", "jacking-down during the run", Length, RUN;
        STEPS, "DERIVED", |s| Some(s.pulled_down.si()), by: By::Solving;
    "weighted", "weighted body acceleration (W_k)", Acceleration,
        "weighted for human sensitivity: rms, or the largest running rms over 1 s (MTVV)";
        "a_w = √(mean of a_w(t)²)", "R2631", |s| Some(s.weighted.si()), by: By::Solving, remark: felt;
    "in_the_air", "wheel off the ground", Ratio, "share of the time";
        STEPS, "DERIVED", |s| Some(s.in_the_air.si()), by: By::Solving, say: Say::Percent(1),
        remark: |_| format!(" {}", tr("of the time"));
    "acceleration_rms", "body acceleration, rms, unweighted", Acceleration, RUN;
        STEPS, "DERIVED", |s| Some(s.acceleration_rms.si()), by: By::Solving;
    "tyre_rms", "tyre force about its mean, rms", Force, RUN;
        STEPS, "DERIVED", |s| Some(s.tyre_rms.si()), by: By::Solving;
};

static OF_RIDE: &[Row<Ride>] = rows! { Ride;
    "work_open", "energy not accounted for", Ratio, "share of the work done by the road that is neither dissipated nor stored";
        "1 − (lost + held) / put in", "DERIVED", |r| r.open_share.map(Quantity::si), by: By::Solving,
        say: Say::Percent(0);
};

/// Text for an acceleration as felt.
fn felt(said: &Said) -> String {
    match (said.weighted_by, said.reactions().as_slice()) {
        (WeightedBy::Mtvv, _) => tr(", largest over 1 s (MTVV)").to_owned(),
        (_, [low, high]) => say!(" rms, {low} to {high}", low, high),
        (_, one) => say!(" rms, {felt}", felt = one.first().map_or("", |felt| felt.said())),
    }
}

/// Every result of the runs; without values, with the reason, when there are none. Which there are hangs on nothing.
pub fn runs(driven: Result<&Driven, &NoRuns>) -> Vec<Figure> {
    let mut out = Out::new(Wants::Values);
    let why = driven.err().map(|why| Why::Told(why.to_string()));
    let driven = driven.ok();
    let name = tr("simulated speed");
    let speed = like("runs.speed", name, Dim::Velocity, "along the road", "as entered, or the default", "PRACTICE");
    out.put(Figure { by: By::Reading, why: why.clone(), ..speed }, driven.map(|d| d.speed.si()), None);
    for (over, state) in OverRoad::ALL.into_iter().flat_map(|over| State::ALL.map(|state| (over, state))) {
        let ride = driven.and_then(|d| d.over[over as usize].of(state).as_ref());
        let key = format!("runs.{}.{}", over.key(), state.key());
        let words = format!("{}, {}", over.words(), state.words());
        out.of_other(&key, &format!("{words}: "), OF_RIDE, ride, why.as_ref());
        for side in Side::BOTH {
            let said = ride.and_then(|ride| ride.said[side].as_ref());
            let words = format!("{words}, {}: ", side.word_inside());
            out.of_other(&format!("{key}.{}", side.key()), &words, ROWS, said, why.as_ref());
        }
    }
    out.figures
}
