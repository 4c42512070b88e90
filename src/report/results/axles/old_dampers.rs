//! Results about the old damper and about a candidate.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, Velocity};
use crate::report::results::collect::{OfAxle, Out, like, then};
use crate::report::results::row::{Row, rows, si};
use crate::report::results::{By, Figure, Say, Substitution};
use crate::say;
use crate::solve::answer::{AxleAnswer, OfferedDamper, OldDamper, OldDamperBy};
use crate::trade::damper::{Curve, TEST_SPEEDS_M_PER_S};

/// What a damping ratio with a hot damper comes from.
pub(super) fn hot(axle: &AxleAnswer, ratio: f64) -> Option<Vec<Substitution>> {
    let loss = si(axle.damping.as_ref()?.hot_loss)?;
    Some(vec![("ζ", ratio, Dim::Ratio), ("loss", loss, Dim::Ratio)])
}

/// What a candidate damps, and by how much at the wheel.
fn damps(damper: &OfferedDamper) -> Vec<Substitution> {
    let (wheel_rate, sprung) = damper.damps;
    vec![
        ("c_w", damper.at_wheel.si(), Dim::DampingRate),
        ("k_w", wheel_rate.si(), Dim::SpringRate),
        ("m_s", sprung.si(), Dim::Mass),
    ]
}

const EQUAL_WORK: &str = "c = work of one cycle / (π V X): Σ Δk_i (1 − N(v_i / V)) over the corners of the curve";
const BY_EQUAL_WORK: &str =
    "at the damper; for a curve, the average up to the given peak speed, for equal work per stroke";

static OLD: &[Row<OldDamper>] = rows! { OldDamper;
    "bump_rate", "old damper, rate in bump", DampingRate, BY_EQUAL_WORK;
        EQUAL_WORK, "DIX", |d| d.rates.map(|r| r.bump.si()), by: By::Solving;
    "rebound_rate", "old damper, rate in rebound", DampingRate, BY_EQUAL_WORK;
        EQUAL_WORK, "DIX", |d| d.rates.map(|r| r.rebound.si()), by: By::Solving;
};

static ON_NEW: &[Row<AxleAnswer>] = rows! { AxleAnswer;
    "at_damper", "old damper, rate at the damper", DampingRate, "at the damper, mean of bump and rebound";
        "(c_bump + c_reb) / 2, or 2 ζ √(k_w m_s) / r_d², as before the change", "GIL",
        |a| Some(a.damper_motion_ratio.and(a.old_damper.as_ref())?.at_damper.si()),
        with: old_damper;
    "hot_ratio", "damping ratio when hot, old damper on the springs that will be fitted", Ratio, "without tyre deflection, mean of bump and rebound";
        "ζ (1 − loss)", "PRACTICE", |a| si(a.damping.as_ref()?.hot(a.standing.new.as_ref()?.old_damper_ratio?)),
        with: |a| hot(a, si(a.standing.new.as_ref()?.old_damper_ratio)?);
};

/// What the rate of an old damper comes from: its two rates, or the damping ratio it gave before the change.
fn old_damper(axle: &AxleAnswer) -> Option<Vec<Substitution>> {
    let old = axle.old_damper.as_ref()?;
    if let OldDamperBy::RatioBefore(ratio) = old.by {
        let before = axle.standing.before.as_ref()?;
        return Some(vec![
            ("ζ", ratio.si(), Dim::Ratio),
            ("k_w", before.wheel_rate.si(), Dim::SpringRate),
            ("m_s", before.sprung.si(), Dim::Mass),
            ("r_d", before.curve.damper_length.ratio(before.travel).si(), Dim::Ratio),
        ]);
    }
    let rates = old.rates?;
    Some(vec![("c_bump", rates.bump.si(), Dim::DampingRate), ("c_reb", rates.rebound.si(), Dim::DampingRate)])
}

static OFFERED: &[Row<OfferedDamper>] = rows! { OfferedDamper;
    "click", "best click setting", Ratio, "clicks counted as the maker counts them";
        "nearest to the aim", "PRACTICE", |d| d.click(), by: By::Seeking, say: Say::Number;
    "ratio", "damping ratio", Ratio, "without tyre deflection, at the best click setting";
        "ζ = c_w / (2 √(k_w m_s))", "GIL", |d| Some(d.ratio().si()), with: |d| Some(damps(d));
    "bump_rate", "rate in bump", DampingRate, BY_EQUAL_WORK;
        EQUAL_WORK, "DIX", |d| Some(d.rates.bump.si()), by: By::Solving;
    "rebound_rate", "rate in rebound", DampingRate, BY_EQUAL_WORK;
        EQUAL_WORK, "DIX", |d| Some(d.rates.rebound.si()), by: By::Solving;
    "first_click", "first click in the target range", Ratio, "clicks counted as the maker counts them";
        "ζ from lowest to highest", "PRACTICE", |d| d.clicks_inside().map(|c| c[0]), by: By::Seeking, say: Say::Number;
    "last_click", "last click in the target range", Ratio, "clicks counted as the maker counts them";
        "ζ from lowest to highest", "PRACTICE", |d| d.clicks_inside().map(|c| c[1]), by: By::Seeking, say: Say::Number;
    "hop_ratio", "wheel hop damping ratio", Ratio, "vibration of the unsprung mass between suspension and tyre";
        "ζ_u = c_w / (2 √((k_w + k_t) m_u))", "GIL", |d| si(d.hop_ratio),
        with: |d| {
            let (tyre, unsprung) = d.hops?;
            let mut with = damps(d);
            with.extend([("k_t", tyre.si(), Dim::SpringRate), ("m_u", unsprung.si(), Dim::Mass)]);
            Some(with)
        };
    "to_closed", "damper travel left at full bump", Length, "damper length at metal contact minus closed length";
        "L_d − L_closed", "DERIVED", |d| si(d.to_closed),
        with: |d| {
            let (length, closed) = d.closed?;
            Some(vec![("L_d", length.si(), Dim::Length), ("L_closed", closed.si(), Dim::Length)])
        };
    "to_open", "damper travel left at full droop", Length, "open length minus damper length at full droop";
        "L_open − L_d", "DERIVED", |d| si(d.to_open),
        with: |d| {
            let (open, length) = d.open?;
            Some(vec![("L_open", open.si(), Dim::Length), ("L_d", length.si(), Dim::Length)])
        };
};

/// All about the old damper and a candidate.
pub(super) fn add(out: &mut Out, of: OfAxle<'_>) {
    out.part("old_damper", "", OLD, of, |a| a.old_damper.as_ref());
    out.part("old_damper", "", ON_NEW, of, |a| Some(a));
    let old = of.axle.old_damper.as_ref();
    on_curve(out, of, "old_damper", tr("old damper"), old.and_then(|d| d.curve.as_ref()));
    out.bought("new_damper", &then(tr("candidate damper")), OFFERED, of, |p| p.offered_damper.as_ref());
    let offered = of.part.and_then(|part| part.parts().offered_damper.as_ref());
    let label = tr("damping ratio when hot");
    let like = like(
        &format!("{}.new_damper.hot_ratio", of.key()),
        label,
        Dim::Ratio,
        "without tyre deflection, at the best click setting",
        "ζ (1 − loss)",
        "PRACTICE",
    );
    let like = Figure { name: format!("{}{}{label}", of.words(), then(tr("candidate damper"))), ..like };
    let found = offered.and_then(|d| si(of.axle.damping.as_ref()?.hot(d.ratio())));
    let with = offered.and_then(|d| hot(of.axle, d.ratio().si())).unwrap_or_default();
    out.put(Figure { with, ..like }, found, None);
    on_curve(out, of, "new_damper", tr("candidate damper"), offered.map(OfferedDamper::curve));
}

/// Forces of a curve at the customary speeds: straight between its points, and on beyond the last.
fn on_curve(out: &mut Out, of: OfAxle<'_>, key: &str, whose: &str, curve: Option<&Curve>) {
    let convention = "at the damper, at the best click setting; straight lines between the points of the curve";
    for v in TEST_SPEEDS_M_PER_S {
        let speed = Velocity::from_si(v);
        let forces = curve.map(|c| c.forces(speed));
        let beyond = curve.is_some_and(|c| c.is_beyond(speed));
        let remark = if beyond { tr(", extrapolated") } else { "" };
        let directions = [
            (
                "bump",
                say!("{whose}, bump force at a test speed ({speed:.2} m/s)", whose, speed = v),
                forces.map(|f| f.0),
            ),
            (
                "rebound",
                say!("{whose}, rebound force at a test speed ({speed:.2} m/s)", whose, speed = v),
                forces.map(|f| f.1),
            ),
        ];
        for (direction, label, force) in directions {
            let key = format!("{}.{key}.{direction}_force.{v:.2}", of.key());
            let like = like(&key, label, Dim::Force, convention, "read off the curve", "DIX");
            let like = Figure { by: By::Reading, remark: remark.to_owned(), ..like };
            out.put(Figure { name: format!("{}{}", of.words(), like.label), ..like }, si(force), None);
        }
    }
}
