//! Results of an axle's linkage: its motion ratio by every way that was measured, and the wheel at each height.

use crate::base::units::{Dim, Length, Quantity};
use crate::report::results::By;
use crate::report::results::row::{Row, row, si};
use crate::solve::answer::{Alignment, LinkageFacts, RatioWays, State};

const AT_REFERENCE: &str =
    "spring or damper travel ÷ wheel travel, at the reference height; shown whichever method is used";
const FROM_REFERENCE: &str = "one side, change from the reference height";

pub(super) static WAYS: &[Row<RatioWays>] = &[
    row(
        "by_points",
        "motion ratio from points",
        Dim::Ratio,
        AT_REFERENCE,
        "r = −dL/dz, from the velocities of the linkage",
        "DERIVED",
        |w: &RatioWays| si(w.points),
    )
    .by(By::Solving),
    row(
        "slope_by_points",
        "change in motion ratio with wheel travel, from points",
        Dim::RatioSlope,
        "per unit of wheel travel, at the reference height, + if the ratio increases in bump",
        "dr/dz, from the accelerations of the linkage",
        "DERIVED",
        |w: &RatioWays| w.points_slope.map(|s| s.value),
    )
    .by(By::Solving),
    row(
        "by_arm",
        "motion ratio from the arm",
        Dim::Ratio,
        AT_REFERENCE,
        "r = a cos θ / (b cos α) · j",
        "MIL",
        |w: &RatioWays| si(w.arm),
    )
    .by(By::Solving),
    row(
        "by_rows",
        "motion ratio from the table",
        Dim::Ratio,
        "measured in addition to points or arm, at the reference height",
        "r = −dL/dz, of the curve through the rows",
        "GIL",
        |w: &RatioWays| si(w.rows),
    )
    .by(By::Solving),
];

pub(super) static WHEEL: &[Row<Alignment>] = &[
    row(
        "camber",
        "camber change",
        Dim::Angle,
        "change from the reference height; + = top of the wheel outward",
        "turn of the upright in front view; of a trailing arm sin γ = −sin δ sin φ",
        "MIL",
        |a: &Alignment| Some(a.camber.si()),
    )
    .by(By::Solving),
    row(
        "half_track",
        "half-track change",
        Dim::Length,
        FROM_REFERENCE,
        "y_G minus y_G at the reference height",
        "MIL",
        |a: &Alignment| Some(a.half_track.si()),
    )
    .by(By::Solving),
    row(
        "toe",
        "toe change",
        Dim::Angle,
        "one wheel, first-order approximation; + = toe-in",
        "(|EF′| − |EF|) / (ℓ cos ψ)",
        "DERIVED",
        |a: &Alignment| si(a.toe),
    )
    .by(By::Solving),
    row(
        "roll_centre",
        "roll centre",
        Dim::Length,
        "height above the ground",
        "y_G dy_G/dh_G",
        "MIL",
        |a: &Alignment| Some(a.roll_centre.si()),
    )
    .by(By::Solving),
    row(
        "swing_arm",
        "swing arm length",
        Dim::Length,
        "front view, wheel centre to instant centre, + if the instant centre is inboard; none for parallel arms",
        "y_W − y_IC = −dz/dγ",
        "MIL",
        |a: &Alignment| swing_arm(a).map(Quantity::si),
    )
    .by(By::Solving),
];

pub(super) static LINKAGE: &[Row<LinkageFacts>] = &[
    row(
        "camber_moves",
        "camber change on the new springs",
        Dim::Angle,
        "at the new height, change from before; + = top of the wheel outward",
        "γ_n − γ_b",
        "DERIVED",
        |l: &LinkageFacts| Some(l.moved_by(State::NewSprings)?.camber.si()),
    )
    .with(|l| {
        let (new, was) = (l.at.new.as_ref()?, l.was()?);
        Some(vec![("γ_n", new.camber.si(), Dim::Angle), ("γ_b", was.camber.si(), Dim::Angle)])
    }),
    row(
        "toe_moves",
        "toe change on the new springs",
        Dim::Angle,
        "one wheel, at the new height, change from before; + = toe-in",
        "toe(new) − toe(before)",
        "DERIVED",
        |l: &LinkageFacts| si(l.moved_by(State::NewSprings)?.toe),
    )
    .by(By::Solving),
    row(
        "track_moves",
        "track change on the new springs",
        Dim::Length,
        "both sides, at the new height, change from before",
        "2 (Δy(new) − Δy(before))",
        "DERIVED",
        |l: &LinkageFacts| Some(l.moved_by(State::NewSprings)?.track.si()),
    )
    .by(By::Solving),
    row(
        "beam_roll_centre",
        "roll centre of the beam axle",
        Dim::Length,
        "height above the ground; height of the Panhard rod at the centreline, or of the line through the leaf spring eyes at the axle",
        "h_1 − y_1 (h_2 − h_1) / (y_2 − y_1)",
        "MIL",
        |l: &LinkageFacts| si(l.beam_roll_centre),
    )
    .by(By::Solving),
];

/// Length of the swing arm; `None` from 100 m on: parallel arms.
fn swing_arm(at: &Alignment) -> Option<Length> {
    const LONGEST_M: f64 = 100.0;
    let length_m = 1.0 / at.swing_arm.si();
    (length_m.abs() < LONGEST_M).then(|| Length::from_si(length_m))
}
