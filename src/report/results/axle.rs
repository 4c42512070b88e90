//! Results of a weigh-in and of one axle.

use super::{CORNER, Row, Substitution, row, si};
use crate::solve::answer::{AxleAnswer, Corners, Weighed};
use crate::spring::Spring;
use crate::units::{Dim, Mass, Quantity};

pub(super) static WEIGHED: &[Row<Weighed>] = &[
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
    .with(|w| vec![("LF + RF", si(w.front), Dim::Mass), ("m", si(w.total), Dim::Mass)]),
    row(
        "left_share",
        "left share",
        Dim::Ratio,
        "driver's left facing forward, over total",
        "(LF + LR) / m",
        "PRACTICE",
        |w: &Weighed| si(w.left_share),
    )
    .with(of_corners_and_total),
    row(
        "cross_weight",
        "cross weight",
        Dim::Ratio,
        "right front and left rear over total",
        "(RF + LR) / m",
        "PRACTICE",
        |w: &Weighed| si(w.cross_weight),
    )
    .with(of_corners_and_total),
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
    .with(|a| vec![("axle", si(a.weight[0]), Dim::Mass), ("m_u", si(a.unsprung[0]), Dim::Mass)]),
    row(
        "sprung_after",
        "sprung mass after",
        Dim::Mass,
        CORNER,
        "m_s = axle / 2 − m_u",
        "DERIVED",
        |a: &AxleAnswer| si(a.sprung_after),
    )
    .with(|a| vec![("axle", si(a.weight[1]), Dim::Mass), ("m_u", si(a.unsprung[1]), Dim::Mass)]),
    row(
        "motion_ratio",
        "motion ratio of the spring",
        Dim::Ratio,
        "spring travel over wheel travel, at the reference height, lean inside",
        "r = −dL_s/dz",
        "GIL",
        |a| si(a.motion_ratio),
    ),
    row(
        "ratio_slope",
        "change of the motion ratio with wheel travel",
        Dim::RatioSlope,
        "for each length of wheel travel, at the reference height, + when the ratio grows in bump",
        "dr/dz = −d²L_s/dz²",
        "DERIVED",
        |a| a.ratio_slope.map(|s| s.value),
    ),
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
        |a| si(a.damper_motion_ratio),
    ),
    row(
        "damper_ratio_slope",
        "change of the damper's motion ratio with wheel travel",
        Dim::RatioSlope,
        "for each length of wheel travel, at the reference height, + when the ratio grows in bump",
        "dr_d/dz = −d²L_d/dz²",
        "DERIVED",
        |a| a.damper_ratio_slope.map(|s| s.value),
    ),
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
        let old = a.standing.old.as_ref().filter(|s| matches!(s.curve.spring, Spring::Coil(_)));
        vec![
            ("L_ride", old.and_then(|s| si(s.spring_length)), Dim::Length),
            ("F_s", old.map(|s| s.spring_force.si()), Dim::Force),
            ("k_s", old.map(|s| s.spring_rate.si()), Dim::SpringRate),
        ]
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
    .with(|a| vec![("axle", a.rated.map(|r| r.0.si()), Dim::Mass), ("rating", a.rated.map(|r| r.1.si()), Dim::Mass)]),
    row(
        "room.spring_at_metal",
        "spring length at full bump",
        Dim::Length,
        "at metal, along the spring",
        "L_s(z)",
        "DERIVED",
        |a| si(a.room.spring_at_metal),
    ),
    row(
        "room.spring_at_droop",
        "spring length at full droop",
        Dim::Length,
        "along the spring",
        "L_s(z)",
        "DERIVED",
        |a| si(a.room.spring_at_droop),
    ),
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
        let solid = a.standing.new.as_ref().and_then(|s| s.curve.spring.solid_length_m());
        vec![("L", si(a.room.spring_at_metal), Dim::Length), ("L_solid", solid, Dim::Length)]
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
        let beside = a.room.longest_solid.and(a.room.beside_own[1]);
        let left = a.room.spring_at_metal.zip(a.room.longest_solid).map(|(l, solid)| l - solid);
        let room = left.zip(beside).map(|(left, beside)| (left - beside).si());
        vec![
            ("L", si(a.room.spring_at_metal), Dim::Length),
            ("room", room, Dim::Length),
            ("L_beside", si(beside), Dim::Length),
        ]
    }),
    row(
        "room.damper_closed_most",
        "a damper is closed at most",
        Dim::Length,
        "eye to eye; with the room the shop wants",
        "L_d(metal) − room",
        "DERIVED",
        |a| si(a.room.damper_closed_most),
    ),
    row(
        "room.damper_open_least",
        "a damper is open at least",
        Dim::Length,
        "eye to eye; with the room the shop wants",
        "L_d(droop) + room",
        "DERIVED",
        |a| si(a.room.damper_open_least),
    ),
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
        let free = a.standing.new.as_ref().filter(|_| a.room.seat.is_some()).map(|s| s.curve.spring.free_length_m());
        vec![("L0", free, Dim::Length), ("L_droop", si(a.room.spring_at_droop), Dim::Length)]
    }),
    row(
        "room.damper_bump",
        "damper travel left at full bump",
        Dim::Length,
        "negative: the damper is the stop",
        "L_d(metal) − closed length",
        "DERIVED",
        |a| si(a.room.damper_bump),
    ),
    row(
        "room.damper_droop",
        "damper travel left at full droop",
        Dim::Length,
        "negative: the damper is the stop",
        "open length − L_d(droop)",
        "DERIVED",
        |a| si(a.room.damper_droop),
    ),
];

fn of_corners(w: &Weighed) -> Vec<Substitution> {
    let corner = |read: fn(&Corners<Mass>) -> Mass| w.corners.as_ref().map(|c| read(c).si());
    vec![
        ("LF", corner(|c| c.lf), Dim::Mass),
        ("RF", corner(|c| c.rf), Dim::Mass),
        ("LR", corner(|c| c.lr), Dim::Mass),
        ("RR", corner(|c| c.rr), Dim::Mass),
    ]
}

fn of_corners_and_total(w: &Weighed) -> Vec<Substitution> {
    [of_corners(w), vec![("m", si(w.total), Dim::Mass)]].concat()
}

/// Of a coil of one rate: what gives its force and energy at metal, the coil no shorter than solid.
fn coil_at_metal(a: &AxleAnswer) -> Vec<Substitution> {
    let coil = a.standing.new.as_ref().and_then(|s| match s.curve.spring {
        Spring::Coil(coil) => Some(coil),
        _ => None,
    });
    let reached = |length_m: f64, solid_m: Option<f64>| solid_m.map_or(length_m, |s| length_m.max(s));
    let length = coil.zip(a.room.spring_at_metal).map(|(c, l)| reached(l.si(), c.solid_length_m));
    vec![
        ("k_s", coil.map(|c| c.rate_n_per_m), Dim::SpringRate),
        ("L0", coil.map(|c| c.free_length_m), Dim::Length),
        ("L", length, Dim::Length),
    ]
}
