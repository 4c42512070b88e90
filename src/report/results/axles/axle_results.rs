//! Results of a weigh-in and of one axle.

use super::CORNER;
use super::standing::is_free;
use crate::base::units::{Dim, Quantity};
use crate::report::results::row::{Row, row, si};
use crate::report::results::{By, Say, Substitution};
use crate::solve::answer::{AxleAnswer, Weighed};
use crate::trade::spring::Spring;

pub(in crate::report::results) static WEIGHED: &[Row<Weighed>] = &[
    row("lf", "left front", Dim::Mass, "scale reading", "as read", "PRACTICE", |w: &Weighed| Some(w.corners?.lf.si()))
        .by(By::Reading),
    row("rf", "right front", Dim::Mass, "scale reading", "as read", "PRACTICE", |w: &Weighed| Some(w.corners?.rf.si()))
        .by(By::Reading),
    row("lr", "left rear", Dim::Mass, "scale reading", "as read", "PRACTICE", |w: &Weighed| Some(w.corners?.lr.si()))
        .by(By::Reading),
    row("rr", "right rear", Dim::Mass, "scale reading", "as read", "PRACTICE", |w: &Weighed| Some(w.corners?.rr.si()))
        .by(By::Reading),
    row("total", "total", Dim::Mass, "scale reading", "m = LF + RF + LR + RR", "PRACTICE", |w: &Weighed| si(w.total))
        .with(of_corners),
    row("front_axle", "front axle", Dim::Mass, "scale reading", "LF + RF", "PRACTICE", |w: &Weighed| si(w.front))
        .with(of_corners),
    row("rear_axle", "rear axle", Dim::Mass, "scale reading", "LR + RR", "PRACTICE", |w: &Weighed| si(w.rear))
        .with(of_corners),
    row(
        "front_share",
        "front share",
        Dim::Ratio,
        "front axle over total",
        "(LF + RF) / m",
        "PRACTICE",
        |w: &Weighed| si(w.front_share),
    )
    .with(|w| Some(vec![("LF + RF", si(w.front)?, Dim::Mass), ("m", si(w.total)?, Dim::Mass)]))
    .say(Say::Percent(1)),
    row(
        "left_share",
        "left share",
        Dim::Ratio,
        "driver's left facing forward, over total",
        "(LF + LR) / m",
        "PRACTICE",
        |w: &Weighed| si(w.left_share),
    )
    .with(of_corners_and_total)
    .say(Say::Percent(1)),
    row(
        "cross_weight",
        "cross weight",
        Dim::Ratio,
        "right front and left rear over total",
        "(RF + LR) / m",
        "PRACTICE",
        |w: &Weighed| si(w.cross_weight),
    )
    .with(of_corners_and_total)
    .say(Say::Percent(1)),
    row(
        "front_left_right",
        "front, left against right",
        Dim::Ratio,
        "(left − right) over the axle, + when the left is heavier",
        "(LF − RF) / (LF + RF)",
        "PRACTICE",
        |w: &Weighed| si(w.left_right[0]),
    )
    .with(of_corners),
    row(
        "rear_left_right",
        "rear, left against right",
        Dim::Ratio,
        "(left − right) over the axle, + when the left is heavier",
        "(LR − RR) / (LR + RR)",
        "PRACTICE",
        |w: &Weighed| si(w.left_right[1]),
    )
    .with(of_corners),
];

pub(super) static AXLE: &[Row<AxleAnswer>] = &[
    row(
        "sprung_before",
        "sprung mass before",
        Dim::Mass,
        CORNER,
        "m_s = axle / 2 − m_u",
        "DERIVED",
        |a: &AxleAnswer| si(a.sprung_before),
    )
    .with(|a| Some(vec![("axle", si(a.weight.before)?, Dim::Mass), ("m_u", si(a.unsprung.before)?, Dim::Mass)])),
    row(
        "sprung_after",
        "sprung mass after",
        Dim::Mass,
        CORNER,
        "m_s = axle / 2 − m_u",
        "DERIVED",
        |a: &AxleAnswer| si(a.sprung_after),
    )
    .with(|a| Some(vec![("axle", si(a.weight.after)?, Dim::Mass), ("m_u", si(a.unsprung.after)?, Dim::Mass)])),
    row(
        "motion_ratio",
        "motion ratio of the spring",
        Dim::Ratio,
        "spring travel over wheel travel, at the reference height, lean inside",
        "r = −dL_s/dz",
        "GIL",
        |a: &AxleAnswer| si(a.motion_ratio),
    )
    .by(By::Solving)
    .needs(&["ratio.number"]),
    row(
        "ratio_slope",
        "change of the motion ratio with wheel travel",
        Dim::RatioSlope,
        "for each length of wheel travel, at the reference height, + when the ratio grows in bump",
        "dr/dz = −d²L_s/dz²",
        "DERIVED",
        |a: &AxleAnswer| a.ratio_slope.map(|s| s.value),
    )
    .by(By::Solving),
    row(
        "roll_ratio",
        "motion ratio of the spring in roll",
        Dim::Ratio,
        "beam axle; spring base over track, the base where the spring axes cross roll-centre height",
        "r t_s / t",
        "MIL",
        |a| si(a.roll_ratio),
    ),
    row(
        "damper_motion_ratio",
        "motion ratio of the damper",
        Dim::Ratio,
        "damper travel over wheel travel, at the reference height",
        "r_d = −dL_d/dz",
        "GIL",
        |a: &AxleAnswer| si(a.damper_motion_ratio),
    )
    .by(By::Solving)
    .needs(&["damper_ratio.number"]),
    row(
        "damper_ratio_slope",
        "change of the damper's motion ratio with wheel travel",
        Dim::RatioSlope,
        "for each length of wheel travel, at the reference height, + when the ratio grows in bump",
        "dr_d/dz = −d²L_d/dz²",
        "DERIVED",
        |a: &AxleAnswer| a.damper_ratio_slope.map(|s| s.value),
    )
    .by(By::Solving),
    row(
        "old_free_length",
        "free length of the old spring",
        Dim::Length,
        "along the spring, from load and fitted length",
        "L0 = L_ride + F_s / k_s",
        "SHI",
        |a: &AxleAnswer| si(a.old_free_length),
    )
    .with(|a| {
        let old = a.standing.old.as_ref().filter(|s| matches!(s.curve.spring, Spring::Coil(_)) && is_free(s))?;
        Some(vec![
            ("L_ride", si(old.spring_length)?, Dim::Length),
            ("F_s", old.spring_force.si(), Dim::Force),
            ("k_s", old.spring_rate.si(), Dim::SpringRate),
        ])
    }),
    row(
        "rating_share",
        "axle weight over its rating",
        Dim::Ratio,
        "after the swap, at the load that springs are sized on, a load on the hitch included",
        "axle / rating",
        "PRACTICE",
        |a: &AxleAnswer| a.rated.map(|(axle, rating)| (axle / rating).value),
    )
    .with(|a| {
        let (axle, rating) = a.rated?;
        Some(vec![("axle", axle.si(), Dim::Mass), ("rating", rating.si(), Dim::Mass)])
    })
    .needs(&["rating"]),
    row(
        "room.spring_at_metal",
        "spring length at full bump",
        Dim::Length,
        "at metal, along the spring",
        "L_s(z)",
        "DERIVED",
        |a: &AxleAnswer| si(a.room.spring_at_metal),
    )
    .by(By::Reading)
    .needs(&["travel.bump"]),
    row(
        "room.spring_at_droop",
        "spring length at full droop",
        Dim::Length,
        "along the spring",
        "L_s(z)",
        "DERIVED",
        |a: &AxleAnswer| si(a.room.spring_at_droop),
    )
    .by(By::Reading)
    .needs(&["travel.droop"]),
    row(
        "room.stored_at_metal",
        "energy stored in the spring at full bump",
        Dim::Energy,
        "springs as they will be fitted",
        "area under force against length; a coil of one rate: k_s (L0 − L)² / 2",
        "DERIVED",
        |a: &AxleAnswer| si(a.room.stored_at_metal),
    )
    .with(coil_at_metal),
    row(
        "room.force_at_metal",
        "spring force at full bump",
        Dim::Force,
        "along the spring, springs as they will be fitted",
        "F = k_s (L0 − L)",
        "SHI",
        |a: &AxleAnswer| si(a.room.force_at_metal),
    )
    .with(coil_at_metal),
    row(
        "room.to_bind",
        "room to coil bind",
        Dim::Length,
        "at metal; negative: binds first",
        "L − L_solid",
        "EN",
        |a: &AxleAnswer| si(a.room.to_bind),
    )
    .with(|a| {
        let solid = a.standing.new.as_ref()?.curve.spring.solid_length_m()?;
        Some(vec![("L", si(a.room.spring_at_metal)?, Dim::Length), ("L_solid", solid, Dim::Length)])
    }),
    row(
        "room.longest_solid",
        "longest solid length that leaves the room wanted",
        Dim::Length,
        "the spring itself at metal; spacer and helper take their part of L",
        "L − room − L_beside",
        "EN",
        |a: &AxleAnswer| si(a.room.longest_solid),
    )
    .with(|a| {
        let beside = a.room.beside_own[1]?;
        let room = a.room.spring_at_metal? - a.room.longest_solid? - beside;
        Some(vec![
            ("L", si(a.room.spring_at_metal)?, Dim::Length),
            ("room", room.si(), Dim::Length),
            ("L_beside", beside.si(), Dim::Length),
        ])
    }),
    row(
        "room.damper_closed_most",
        "a damper is closed at most",
        Dim::Length,
        "eye to eye; with the room the shop wants",
        "L_d(metal) − room",
        "DERIVED",
        |a: &AxleAnswer| si(a.room.damper_closed_most),
    )
    .with(|a| {
        let (metal, room) = (si(a.room.damper_at_ends[0])?, si(a.damping.as_ref()?.least_room)?);
        Some(vec![("L_d(metal)", metal, Dim::Length), ("room", room, Dim::Length)])
    }),
    row(
        "room.damper_open_least",
        "a damper is open at least",
        Dim::Length,
        "eye to eye; with the room the shop wants",
        "L_d(droop) + room",
        "DERIVED",
        |a: &AxleAnswer| si(a.room.damper_open_least),
    )
    .with(|a| {
        let (droop, room) = (si(a.room.damper_at_ends[1])?, si(a.damping.as_ref()?.least_room)?);
        Some(vec![("L_d(droop)", droop, Dim::Length), ("room", room, Dim::Length)])
    }),
    row(
        "room.seat",
        "seat margin at full droop",
        Dim::Length,
        "compression left; negative: loose by so much",
        "L0 − L_droop",
        "DERIVED",
        |a: &AxleAnswer| si(a.room.seat),
    )
    .with(|a| {
        let free = a.standing.new.as_ref()?.curve.spring.free_length_m();
        Some(vec![("L0", free, Dim::Length), ("L_droop", si(a.room.spring_at_droop)?, Dim::Length)])
    }),
    row(
        "room.damper_bump",
        "damper travel left at full bump",
        Dim::Length,
        "negative: the damper is the stop",
        "L_d(metal) − closed length",
        "DERIVED",
        |a: &AxleAnswer| si(a.room.damper_bump),
    )
    .with(|a| {
        let (metal, left) = (si(a.room.damper_at_ends[0])?, si(a.room.damper_bump)?);
        Some(vec![("L_d(metal)", metal, Dim::Length), ("closed length", metal - left, Dim::Length)])
    })
    .needs(&["damper.closed_length"]),
    row(
        "room.damper_droop",
        "damper travel left at full droop",
        Dim::Length,
        "negative: the damper is the stop",
        "open length − L_d(droop)",
        "DERIVED",
        |a: &AxleAnswer| si(a.room.damper_droop),
    )
    .with(|a| {
        let (droop, left) = (si(a.room.damper_at_ends[1])?, si(a.room.damper_droop)?);
        Some(vec![("open length", droop + left, Dim::Length), ("L_d(droop)", droop, Dim::Length)])
    })
    .needs(&["damper.open_length"]),
];

fn of_corners(w: &Weighed) -> Option<Vec<Substitution>> {
    let c = w.corners?;
    Some(vec![
        ("LF", c.lf.si(), Dim::Mass),
        ("RF", c.rf.si(), Dim::Mass),
        ("LR", c.lr.si(), Dim::Mass),
        ("RR", c.rr.si(), Dim::Mass),
    ])
}

fn of_corners_and_total(w: &Weighed) -> Option<Vec<Substitution>> {
    let mut with = of_corners(w)?;
    with.push(("m", si(w.total)?, Dim::Mass));
    Some(with)
}

/// Of a coil of one rate: what gives its force and energy at metal, the coil no shorter than solid.
fn coil_at_metal(a: &AxleAnswer) -> Option<Vec<Substitution>> {
    let Spring::Coil(coil) = a.standing.new.as_ref()?.curve.spring else { return None };
    let length_m = si(a.room.spring_at_metal)?;
    Some(vec![
        ("k_s", coil.rate_n_per_m, Dim::SpringRate),
        ("L0", coil.free_length_m, Dim::Length),
        ("L", coil.solid_length_m.map_or(length_m, |solid_m| length_m.max(solid_m)), Dim::Length),
    ])
}
