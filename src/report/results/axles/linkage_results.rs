//! Results of an axle's linkage: its motion ratio by every way that was measured, and the wheel at each height.

use crate::base::units::{Length, Quantity};
use crate::report::results::By;
use crate::report::results::row::{Row, put, rows, si};
use crate::solve::answer::{Alignment, LinkageFacts, RatioWays, State};

const AT_REFERENCE: &str =
    "spring or damper travel ÷ wheel travel, at the reference height; shown whichever method is used";
const FROM_REFERENCE: &str = "one side, change from the reference height";

pub(super) static WAYS: &[Row<RatioWays>] = rows! { RatioWays;
    "by_points", "motion ratio from points", Ratio, AT_REFERENCE;
        "r = −dL/dz, from the velocities of the linkage", "DERIVED", |w| si(w.points), by: By::Solving;
    "slope_by_points", "change in motion ratio with wheel travel, from points", RatioSlope,
        "per unit of wheel travel, at the reference height, + if the ratio increases in bump";
        "dr/dz, from the accelerations of the linkage", "DERIVED", |w| w.points_slope.map(|s| s.value), by: By::Solving;
    "by_arm", "motion ratio from the arm", Ratio, AT_REFERENCE;
        "r = a cos θ / (b cos α) · j", "MIL", |w| si(w.arm), by: By::Solving;
    "by_rows", "motion ratio from the table", Ratio, "measured in addition to points or arm, at the reference height";
        "r = −dL/dz, of the curve through the rows", "GIL", |w| si(w.rows), by: By::Solving;
};

pub(super) static WHEEL: &[Row<Alignment>] = rows! { Alignment;
    "camber", "camber change", Angle, "change from the reference height; + = top of the wheel outward";
        "turn of the upright in front view; of a trailing arm sin γ = −sin δ sin φ", "MIL", |a| Some(a.camber.si()),
        by: By::Solving;
    "half_track", "half-track change", Length, FROM_REFERENCE;
        "y_G minus y_G at the reference height", "MIL", |a| Some(a.half_track.si()), by: By::Solving;
    "toe", "toe change", Angle, "one wheel, first-order approximation; + = toe-in";
        "(|EF′| − |EF|) / (ℓ cos ψ)", "DERIVED", |a| si(a.toe), by: By::Solving;
    "roll_centre", "roll centre", Length, "height above the ground";
        "y_G dy_G/dh_G", "MIL", |a| Some(a.roll_centre.si()), by: By::Solving;
    "swing_arm", "swing arm length", Length,
        "front view, wheel centre to instant centre, + if the instant centre is inboard; none for parallel arms";
        "y_W − y_IC = −dz/dγ", "MIL", |a| si(swing_arm(a)), by: By::Solving;
};

pub(super) static LINKAGE: &[Row<LinkageFacts>] = rows! { LinkageFacts;
    "camber_moves", "camber change on the new springs", Angle,
        "at the new height, change from before; + = top of the wheel outward";
        "γ_n − γ_b", "DERIVED", |l| Some(l.moved_by(State::NewSprings)?.camber.si()),
        with: |l| put!["γ_n": l.at.new.as_ref()?.camber, "γ_b": l.was()?.camber];
    "toe_moves", "toe change on the new springs", Angle, "one wheel, at the new height, change from before; + = toe-in";
        "toe(new) − toe(before)", "DERIVED", |l| si(l.moved_by(State::NewSprings)?.toe), by: By::Solving;
    "track_moves", "track change on the new springs", Length, "both sides, at the new height, change from before";
        "2 (Δy(new) − Δy(before))", "DERIVED", |l| Some(l.moved_by(State::NewSprings)?.track.si()), by: By::Solving;
    "beam_roll_centre", "roll centre of the beam axle", Length,
        "height above the ground; height of the Panhard rod at the centreline, or of the line through the leaf spring eyes at the axle";
        "h_1 − y_1 (h_2 − h_1) / (y_2 − y_1)", "MIL", |l| si(l.beam_roll_centre), by: By::Solving;
};

/// Length of the swing arm; `None` from 100 m on: parallel arms.
fn swing_arm(at: &Alignment) -> Option<Length> {
    const LONGEST_M: f64 = 100.0;
    let length_m = 1.0 / at.swing_arm.si();
    (length_m.abs() < LONGEST_M).then(|| Length::from_si(length_m))
}
