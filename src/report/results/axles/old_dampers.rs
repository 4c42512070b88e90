//! Results about the old damper and about a candidate.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, Ratio, Velocity};
use crate::report::results::collect::{OfAxle, Out, then};
use crate::report::results::row::{Row, like, put, rows, si};
use crate::report::results::{By, Figure, Say, Substitution};
use crate::say;
use crate::solve::answer::{AxleAnswer, OfferedDamper, OldDamper, OldDamperBy};
use crate::trade::damper::{Curve, TEST_SPEEDS_M_PER_S};

/// What a damping ratio with a hot damper comes from.
pub(super) fn hot(axle: &AxleAnswer, ratio: Ratio) -> Option<Vec<Substitution>> {
    put!["ζ": ratio, "loss": axle.damping.as_ref()?.hot_loss?]
}

/// What a candidate damps, and by how much at the wheel.
fn damps(damper: &OfferedDamper) -> Option<Vec<Substitution>> {
    put!["c_w": damper.at_wheel, "k_w": damper.damps.0, "m_s": damper.damps.1]
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
        with: |a| hot(a, a.standing.new.as_ref()?.old_damper_ratio?);
};

/// What the rate of an old damper comes from: its two rates, or the damping ratio it gave before the change.
fn old_damper(axle: &AxleAnswer) -> Option<Vec<Substitution>> {
    let old = axle.old_damper.as_ref()?;
    if let OldDamperBy::RatioBefore(ratio) = old.by {
        let before = axle.standing.before.as_ref()?;
        let motion_ratio = before.curve.damper_length.ratio(before.travel);
        return put!["ζ": ratio, "k_w": before.wheel_rate, "m_s": before.sprung, "r_d": motion_ratio];
    }
    put!["c_bump": old.rates?.bump, "c_reb": old.rates?.rebound]
}

static OFFERED: &[Row<OfferedDamper>] = rows! { OfferedDamper;
    "click", "best click setting", Ratio, "clicks counted as the maker counts them";
        "nearest to the aim", "PRACTICE", |d| d.click(), by: By::Seeking, say: Say::Number;
    "ratio", "damping ratio", Ratio, "without tyre deflection, at the best click setting";
        "ζ = c_w / (2 √(k_w m_s))", "GIL", |d| Some(d.ratio().si()), with: damps;
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
        with: |d| put![..damps(d)?, "k_t": d.hops?.0, "m_u": d.hops?.1];
    "to_closed", "damper travel left at full bump", Length, "damper length at metal contact minus closed length";
        "L_d − L_closed", "DERIVED", |d| si(d.to_closed), with: |d| put!["L_d": d.closed?.0, "L_closed": d.closed?.1];
    "to_open", "damper travel left at full droop", Length, "open length minus damper length at full droop";
        "L_open − L_d", "DERIVED", |d| si(d.to_open), with: |d| put!["L_open": d.open?.0, "L_d": d.open?.1];
};

/// All about the old damper and a candidate.
pub(super) fn add(out: &mut Out, of: OfAxle<'_>) {
    out.part("old_damper", "", OLD, of, |a| a.old_damper.as_ref());
    out.part("old_damper", "", ON_NEW, of, |a| Some(a));
    let old = of.axle.old_damper.as_ref();
    on_curve(out, of, "old_damper", tr("old damper"), old.and_then(|d| d.curve.as_ref()));
    out.bought("new_damper", &then(tr("candidate damper")), OFFERED, of, |p| p.offered_damper.as_ref());
    let offered = of.part.and_then(|part| part.parts().offered_damper.as_ref());
    let (key, label) = (format!("{}.new_damper.hot_ratio", of.key()), tr("damping ratio when hot"));
    let convention = "without tyre deflection, at the best click setting";
    let like = like(key, label, Dim::Ratio, convention, "ζ (1 − loss)", "PRACTICE");
    let like = Figure { name: format!("{}{}{label}", of.words(), then(tr("candidate damper"))), ..like };
    let found = offered.and_then(|d| si(of.axle.damping.as_ref()?.hot(d.ratio())));
    out.put(like.with(|| hot(of.axle, offered?.ratio())), found, None);
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
            let like = like(key, label, Dim::Force, convention, "read off the curve", "DIX").by(By::Reading);
            let like = like.of(of.axle.side.word_inside().said());
            out.put(Figure { remark: remark.to_owned(), ..like }, si(force), None);
        }
    }
}
