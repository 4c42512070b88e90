//! Results of a weigh-in and of one axle.

use super::CORNER;
use super::standing::is_free;
use crate::base::units::Quantity;
use crate::report::results::row::{Row, half_less, put, rows, si};
use crate::report::results::{By, Say, Substitution};
use crate::solve::answer::{AxleAnswer, Weighed};
use crate::trade::spring::Spring;

pub(in crate::report::results) static WEIGHED: &[Row<Weighed>] = rows! { Weighed;
    "lf", "left front", Mass, "scale reading";
        "as read", "PRACTICE", |w| Some(w.corners?.lf.si()), by: By::Reading;
    "rf", "right front", Mass, "scale reading";
        "as read", "PRACTICE", |w| Some(w.corners?.rf.si()), by: By::Reading;
    "lr", "left rear", Mass, "scale reading";
        "as read", "PRACTICE", |w| Some(w.corners?.lr.si()), by: By::Reading;
    "rr", "right rear", Mass, "scale reading";
        "as read", "PRACTICE", |w| Some(w.corners?.rr.si()), by: By::Reading;
    "total", "total weight", Mass, "scale reading";
        "m = LF + RF + LR + RR", "PRACTICE", |w| si(w.total), with: of_corners;
    "front_axle", "front axle", Mass, "scale reading";
        "LF + RF", "PRACTICE", |w| si(w.front), with: of_corners;
    "rear_axle", "rear axle", Mass, "scale reading";
        "LR + RR", "PRACTICE", |w| si(w.rear), with: of_corners;
    "front_share", "front weight share", Ratio, "front axle ÷ total";
        "(LF + RF) / m", "PRACTICE", |w| si(w.front_share),
        with: |w| put!["LF + RF": w.front?, "m": w.total?], say: Say::Percent(1);
    "left_share", "left-side weight share", Ratio, "both left wheels ÷ total; left is the driver's left when facing forward";
        "(LF + LR) / m", "PRACTICE", |w| si(w.left_share), with: of_corners_and_total, say: Say::Percent(1);
    "cross_weight", "cross weight", Ratio, "(right front + left rear) ÷ total";
        "(RF + LR) / m", "PRACTICE", |w| si(w.cross_weight), with: of_corners_and_total, say: Say::Percent(1);
    "front_left_right", "front, left–right weight difference", Ratio, "(left − right) ÷ axle weight, + if the left is heavier";
        "(LF − RF) / (LF + RF)", "PRACTICE", |w| si(w.left_right.front), with: of_corners;
    "rear_left_right", "rear, left–right weight difference", Ratio, "(left − right) ÷ axle weight, + if the left is heavier";
        "(LR − RR) / (LR + RR)", "PRACTICE", |w| si(w.left_right.rear), with: of_corners;
};

pub(super) static AXLE: &[Row<AxleAnswer>] = rows! { AxleAnswer;
    "sprung_before", "sprung mass before", Mass, CORNER;
        "m_s = axle / 2 − m_u", "DERIVED", |a| si(a.masses.sprung.before),
        with: |a| half_less(a.masses.weight.before?, a.masses.unsprung.before?);
    "sprung_after", "sprung mass after", Mass, CORNER;
        "m_s = axle / 2 − m_u", "DERIVED", |a| si(a.masses.sprung.after),
        with: |a| half_less(a.masses.weight.after?, a.masses.unsprung.after?);
    "motion_ratio", "motion ratio of the spring", Ratio,
        "spring travel ÷ wheel travel, at the reference height, spring angle included";
        "r = −dL_s/dz", "GIL", |a| si(a.motion_ratio), by: By::Solving, needs: &["ratio.number"];
    "ratio_slope", "change in the motion ratio with wheel travel", RatioSlope,
        "per unit of wheel travel, at the reference height, + if the ratio increases in bump";
        "dr/dz = −d²L_s/dz²", "DERIVED", |a| a.ratio_slope.map(|s| s.value), by: By::Solving;
    "damping_as_fitted", "damping ratio as fitted", Ratio,
        "without tyre deflection, mean of bump and rebound; target value for new dampers, otherwise the value of the old ones";
        "that of the dampers as planned", "PRACTICE", |a| si(a.damping_as_fitted()), by: By::Reading;
    "roll_ratio", "motion ratio of the spring in roll", Ratio,
        "for a beam axle: motion ratio × spring base ÷ track, with the spring base at roll-centre height";
        "r t_s / t", "MIL", |a| si(a.roll_ratio()),
        with: |a| put!["r": a.motion_ratio?, "t_s": a.spring_base?.0, "t": a.spring_base?.1];
    "damper_motion_ratio", "motion ratio of the damper", Ratio,
        "damper travel ÷ wheel travel, at the reference height";
        "r_d = −dL_d/dz", "GIL", |a| si(a.damper_motion_ratio), by: By::Solving, needs: &["damper_ratio.number"];
    "damper_ratio_slope", "change in the damper's motion ratio with wheel travel", RatioSlope,
        "per unit of wheel travel, at the reference height, + if the ratio increases in bump";
        "dr_d/dz = −d²L_d/dz²", "DERIVED", |a| a.damper_ratio_slope.map(|s| s.value), by: By::Solving;
    "old_free_length", "free length of the old spring", Length, "along the spring, from load and fitted length";
        "L0 = L_ride + F_s / k_s", "SHI", |a| si(a.old_free_length),
        with: |a| {
            let old = a.standing.old.as_ref().filter(|s| matches!(s.curve.spring, Spring::Coil(_)) && is_free(s))?;
            put!["L_ride": old.spring_length?, "F_s": old.spring_force, "k_s": old.spring_rate]
        };
    "rating_share", "axle weight ÷ axle rating", Ratio,
        "after the change, at the load the springs are sized for, hitch load included";
        "axle / rating", "PRACTICE", |a| a.rated.map(|(axle, rating)| (axle / rating).value),
        with: |a| put!["axle": a.rated?.0, "rating": a.rated?.1], needs: &["rating"];
};

fn of_corners(w: &Weighed) -> Option<Vec<Substitution>> {
    let c = w.corners?;
    put!["LF": c.lf, "RF": c.rf, "LR": c.lr, "RR": c.rr]
}

fn of_corners_and_total(w: &Weighed) -> Option<Vec<Substitution>> {
    put![..of_corners(w)?, "m": w.total?]
}
