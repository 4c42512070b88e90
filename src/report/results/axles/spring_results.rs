//! Results about springs themselves: rates, wire, cutting, bars, leaves, bags, routes.

use super::coils::of_wire;
use crate::base::units::{Angle, Force, Quantity};
use crate::report::results::row::{Row, lifted, pumped, put, rows, si, swings, to_contact, to_stop};
use crate::report::results::{By, Say, Substitution};
use crate::solve::answer::{AddedLeaf, BarChoice, BarFacts, ByAir, Crossover, LeafFacts, OldSpring};
use crate::trade::spring::{Bar, LeafPack};

const ALONG: &str = "along the spring";

pub(super) static OLD_SPRING: &[Row<OldSpring>] = rows! { OldSpring;
    "stated", "rate from label or catalogue", SpringRate, ALONG;
        "as stated", "PRACTICE", |o| o.stated.map(|m| m.value), by: By::Reading, say: Say::Measured;
    "by_wire", "rate from wire and coils", SpringRate, ALONG;
        "k = G d⁴ / (8 D³ N_a)", "SHI", |o| o.by_wire.map(|m| m.value),
        with: |o| of_wire(&o.coil.as_ref()?.wire),
        say: Say::Measured;
    "by_press", "rate from press", SpringRate, ALONG;
        "k = ΔF / ΔL", "DERIVED", |o| o.by_press.map(|m| m.value),
        with: |o| put!["ΔF": o.pressed?.0, "ΔL": o.pressed?.1], say: Say::Measured;
    "together", "wire and press, weighted mean", SpringRate, "along the spring, weighted by 1/u²";
        "(k_wire / u_wire² + k_press / u_press²) / (1 / u_wire² + 1 / u_press²)", "GUM", |o| o.together.map(|m| m.value),
        with: |o| {
            let (wire, press) = (o.by_wire?, o.by_press?);
            put![
                "k_wire": wire.value => SpringRate, "u_wire": wire.u => SpringRate,
                "k_press": press.value => SpringRate, "u_press": press.u => SpringRate,
            ]
        },
        say: Say::Measured;
    "rate", "rate used", SpringRate,
        "along the spring, at the reference height; for a torsion bar, vertically at the end of the arm";
        "−dF/dL", "DERIVED", |o| si(o.rate), by: By::Solving;
};

pub(super) static CUT: &[Row<OldSpring>] = rows! { OldSpring;
    "pitch", "coil pitch", Length, "spring unloaded";
        "p = (L0 − n d) / N, n and N by the ends", "SHI", |o| Some(o.cut?.pitch.si()),
        with: |o| {
            let (cut, wire) = (o.cut?, o.coil.as_ref()?.wire);
            let (thicknesses, pitches) = wire.pitches()?;
            put![
                "L0": cut.whole_length, "n": thicknesses => Ratio, "d": wire.diameter_m => Length,
                "N": pitches => Ratio,
            ]
        };
    "rate", "rate after cutting", SpringRate, ALONG;
        "k N_a / (N_a − cut)", "DERIVED", |o| Some(o.cut?.rate.si()),
        with: |o| put!["k": o.rate?, "N_a": o.coil?.wire.active => Ratio, "cut": o.cut?.coils];
    "free_length", "free length after cutting", Length, "the cut end is not closed";
        "L0 − cut · pitch", "DERIVED", |o| Some(o.cut?.free_length.si()),
        with: |o| put!["L0": o.cut?.whole_length, "cut": o.cut?.coils, "pitch": o.cut?.pitch];
    "length", "spring length at ride height after cutting", Length, ALONG;
        "F_w(z) = m_s g, solved", "DERIVED", |o| si(o.cut?.length), by: By::Solving;
    "height_change", "height change at the wheel after cutting", Length, "change from before, at the wheel; + = up";
        "solved", "DERIVED", |o| si(o.cut?.height_change), by: By::Solving, say: Say::Height("as before");
    "frequency", "resulting ride frequency", Frequency, "without tyre deflection";
        "f = √(k_w / m_s) / 2π", "GIL", |o| Some(o.cut?.on.frequency().si()), with: |o| swings(&o.cut?.on);
    "stop_room", "room to the bump stop after cutting (below 0: stop already touched)", Length, "negative: bump stop already touched";
        "gap − z", "DERIVED", |o| si(o.cut?.on.stop_room()), with: |o| to_stop(&o.cut?.on);
    "seat", "seat preload at full droop (below 0: loose on its seats)", Length, "at full droop; negative: loose on its seats";
        "L0 − L_droop", "DERIVED", |o| si(o.cut?.seat),
        with: |o| put!["L0": o.cut?.free_length, "L_droop": o.cut?.at_droop?];
};

pub(super) static BAR: &[Row<BarFacts>] = rows! { BarFacts;
    "twist_rate", "torsional rate of the old bar", TwistRate, "torque ÷ angle";
        "k_θ = π G (d⁴ − d_i⁴) / (32 l)", "SHI", |b| Some(b.twist_rate.si()), with: |b| of_bar(&b.bar);
    "free_angle", "arm angle below horizontal, old bar unloaded", Angle, "below horizontal";
        "α + F R cos α / k_θ", "DERIVED", |b| si(b.free_angle),
        with: |b| {
            let (force, arm, angle) = b.wound_by?;
            put!["α": angle, "F": force, "R": arm, "k_θ": b.twist_rate]
        };
    "stress_ride", "bar stress at ride height, as fitted", Stress, "as fitted";
        "16 k_θ φ d / (π (d⁴ − d_i⁴)), φ how far it is wound up", "SHI", |b| si(b.stress_ride), with: |b| torn(b, b.twist_ride?);
    "stress_bump", "bar stress at full bump, as fitted", Stress, "as fitted";
        "16 k_θ φ d / (π (d⁴ − d_i⁴)), φ how far it is wound up", "SHI", |b| si(b.stress_bump), with: |b| torn(b, b.twist_bump?);
    "allowed", "allowable bar stress", Stress, "the shop's limit";
        "as typed", "PRACTICE", |b| si(b.allowed), by: By::Reading;
};

pub(super) static BAR_CHOICE: &[Row<BarChoice>] = rows! { BarChoice;
    "pick", "bar diameter nearest the target", Length,
        "n is the whole number that gives the diameter nearest the target, within the range and without exceeding the allowable stress";
        "step × n", "PRACTICE", |b| Some(b.pick.si()),
        with: |b| put!["step": b.step, "n": (b.pick.si() / b.step.si()).round() => Ratio], say: Say::Sold;
    "stock_lowest", "thinnest suitable stock bar", Length, "whole multiples of the step in bar diameter";
        "step × whole number", "PRACTICE", |b| b.stock.map(|s| s.lowest.si()), by: By::Seeking, say: Say::Sold;
    "stock_highest", "thickest suitable stock bar", Length, "whole multiples of the step in bar diameter";
        "step × whole number", "PRACTICE", |b| b.stock.map(|s| s.highest.si()), by: By::Seeking, say: Say::Sold;
    "index", "index angle of the new bar, from the old bar's position", Angle, "+ winds the bar up";
        "θ0,new − θ0,old", "DERIVED", |b| si(b.index),
        with: |b| put!["θ0,new": b.free_angle, "θ0,old": b.old_free_angle?], say: Say::Turned;
    "tolerance", "tolerance of the bar diameter", Length, "±, for the tolerance of the rate";
        "δ (d⁴ − d_i⁴) / (4 d³)", "DERIVED", |b| si(b.tolerance()),
        with: |b| put!["δ": b.rate_tolerance?, "d": b.bar.diameter_m => Length, "d_i": b.bar.inside_m => Length];
    "twist_rate", "torsional rate of the new bar", TwistRate, "torque ÷ angle";
        "k_θ = π G (d⁴ − d_i⁴) / (32 l)", "SHI", |b| Some(b.bar.twist_rate().si()),
        with: |b| of_bar(&b.bar);
    "angle_ride", "arm angle below horizontal at the target height", Angle, "below horizontal";
        "asin(L/R)", "DERIVED", |b| Some(b.angle_ride.si()), by: By::Reading;
    "twist_ride", "twist of the new bar at the target height", Angle, "from the unloaded position";
        "θ0 − α", "DERIVED", |b| Some(b.twist_ride().si()), with: |b| put!["θ0": b.free_angle, "α": b.angle_ride];
    "twist_bump", "twist of the new bar at full bump", Angle, "from the unloaded position";
        "θ0 − α", "DERIVED", |b| si(b.twist_bump()), with: |b| put!["θ0": b.free_angle, "α": b.angle_bump?];
};

pub(super) static LEAF: &[Row<LeafFacts>] = rows! { LeafFacts;
    "test_rate", "leaf spring rate from test", SpringRate, "at the axle";
        "1 / slope of height on load, least squares", "DERIVED", |l| l.test.map(|t| t.rate.si()), by: By::Solving;
    "unloading_rate", "leaf spring rate from test, unloading", SpringRate, "without the row at the turning point";
        "as loading", "DERIVED", |l| l.test.and_then(|t| si(t.unloading_rate)), by: By::Solving;
    "loop", "gap between loading and unloading", Length, "at equal load, without the row at the turning point";
        "mean gap", "DERIVED", |l| l.test.and_then(|t| si(t.loop_height)), by: By::Solving;
    "friction", "friction, in each direction", Force, "half the gap along the load axis";
        "k · gap / 2", "DERIVED", |l| l.test.and_then(|t| si(t.friction)),
        with: |l| put!["k": l.test?.rate, "gap": l.test?.loop_height?];
    "by_sizes", "leaf spring rate from dimensions", SpringRate, "at the axle";
        "8 E n b t³ / (3 L³) · (3 n_f + 2 n_g) / (2 n)", "SHI", |l| si(l.by_sizes),
        with: |l| {
            let pack = l.pack?;
            put![
                ..of_pack(&pack)?, "E": pack.modulus_pa => Stress, "n_f": pack.full_length => Ratio,
                "n_g": pack.leaves - pack.full_length => Ratio,
            ]
        };
    "stress_ride", "bending stress at ride height", Stress, "at the axle, load shared equally by all leaves";
        "3 F L / (2 n b t²)", "BHA", |l| si(l.stress_ride), with: |l| bent(l.pack.as_ref()?, l.force_ride);
    "stress_bump", "bending stress at full bump", Stress, "at the axle, load shared equally by all leaves";
        "3 F L / (2 n b t²)", "BHA", |l| si(l.stress_bump), with: |l| bent(l.pack.as_ref()?, l.force_bump);
};

pub(super) static CROSSOVER: &[Row<Crossover>] = rows! { Crossover;
    "force", "spring load at which the helper spring goes solid", Force, ALONG;
        "k_h (L0_h − L_solid,h)", "DERIVED", |c| Some(c.force.si()),
        with: |c| put![
            "k_h": c.helper.rate_n_per_m => SpringRate, "L0_h": c.helper.free_length_m => Length,
            "L_solid,h": c.helper.solid_length_m? => Length,
        ];
    "travel", "wheel travel at which the helper spring goes solid", Length, "measured from the reference height, + in bump";
        "L_s(z)", "DERIVED", |c| si(c.travel), by: By::Reading;
};

pub(super) static LEVELLED: &[Row<ByAir>] = rows! { ByAir;
    "pressure", "air bag pressure for the target height", Pressure, "gauge pressure, at the target height";
        "p = (W − F_w) / (r_b A)", "DERIVED", |l| Some(l.pressure.si()), with: lifted;
    "bag_rate", "air bag rate", SpringRate, "along the bag";
        "k = n p_abs A² / V − p_gauge dA/dL", "DERIVED", |l| Some(l.bag_rate.si()), with: pumped;
    "frequency", "resulting ride frequency", Frequency, "with springs and air bag, without tyre deflection";
        "f = √(k_w / m_s) / 2π", "GIL", |l| Some(l.on.frequency().si()), with: |l| swings(&l.on);
    "reserve", "resulting reserve to the bump stop", Ratio, "extra g until the bump stop is touched or the coils bind";
        "F_w(z_c) / W − 1", "DERIVED", |l| si(l.on.reserve()), with: |l| to_contact(&l.on), say: Say::InG;
};

pub(super) static ADDED_LEAF: &[Row<AddedLeaf>] = rows! { AddedLeaf;
    "rate", "rate needed from the added leaves", SpringRate, "at the axle; old leaf spring and added leaves deflect together";
        "k − k_old", "DERIVED", |a| Some(a.beside.rate.si()), with: |a| put!["k": a.both, "k_old": a.old_rate];
    "load", "load on the added leaves", Force, "at the target height";
        "F_s − F_old", "DERIVED", |a| Some(a.beside.load.si()),
        with: |a| put!["F_s": a.load, "F_old": a.old_rate * a.old_gives_way];
    "share", "share of the load carried by the added leaves", Ratio, "at the target height";
        "F_add / F_s", "DERIVED", |a| Some(a.share().si()), say: Say::Percent(0),
        with: |a| put!["F_add": a.beside.load, "F_s": a.load];
    "camber", "extra camber of the added leaves when unloaded", Length, "unloaded camber of the added leaves minus their camber at the target height";
        "F_add / k_add", "DERIVED", |a| Some(a.beside.gives_way.si()),
        with: |a| put!["F_add": a.beside.load, "k_add": a.beside.rate];
    "nip", "nip: camber of the added leaves minus that of the old leaf spring", Length, "both unloaded; negative: the added leaves start to carry once the old leaf spring has deflected by this amount";
        "c_add − c_old", "DERIVED", |a| Some(a.beside.nip.si()), say: Say::Signed,
        with: |a| put!["c_add": a.beside.gives_way, "c_old": a.old_gives_way];
    "leaves", "number of leaves to add", Ratio, "graduated leaves, same width and span as the old ones, and no thicker";
        "fewest that are no thicker than the old ones", "PRACTICE", |a| Some(a.pack?.leaves), by: By::Seeking;
    "thickness", "thickness of one added leaf", Length, "graduated leaves, same width and span as the old ones";
        "(3 k L³ / (8 E n b))^⅓", "SHI", |a| Some(a.pack?.thickness_m),
        with: |a| {
            let pack = a.pack?;
            put![
                "k": a.beside.rate, "L": pack.working_span_m => Length, "E": pack.modulus_pa => Stress,
                "n": pack.leaves => Ratio, "b": pack.width_m => Length,
            ]
        };
    "stack", "stack height of the added leaves", Length, "between leaf spring and axle, or on top";
        "n t", "DERIVED", |a| si(a.stack()),
        with: |a| put!["n": a.pack?.leaves => Ratio, "t": a.pack?.thickness_m => Length];
    "stress_bump", "bending stress of the added leaves, at full bump", Stress, "at the axle, load shared equally by all leaves";
        "3 F L / (2 n b t²)", "BHA", |a| si(a.stress_bump()),
        with: |a| bent(a.pack.as_ref()?, a.load_at_metal);
};

/// The sizes of a torsion bar.
fn of_bar(bar: &Bar) -> Option<Vec<Substitution>> {
    put![
        "G": bar.shear_modulus_pa => Stress, "d": bar.diameter_m => Length, "d_i": bar.inside_m => Length,
        "l": bar.length_m => Length,
    ]
}

/// What the stress of a bar that is wound up comes from.
fn torn(facts: &BarFacts, twist: Angle) -> Option<Vec<Substitution>> {
    let bar = &facts.fitted;
    put!["k_θ": facts.fitted_rate?, "φ": twist, "d": bar.diameter_m => Length, "d_i": bar.inside_m => Length]
}

/// The sizes of a pack of leaves.
fn of_pack(pack: &LeafPack) -> Option<Vec<Substitution>> {
    put![
        "L": pack.working_span_m => Length, "n": pack.leaves => Ratio, "b": pack.width_m => Length,
        "t": pack.thickness_m => Length,
    ]
}

/// What the bending stress of a pack of leaves comes from.
fn bent(pack: &LeafPack, force: Option<Force>) -> Option<Vec<Substitution>> {
    put![..of_pack(pack)?, "F": force?]
}
