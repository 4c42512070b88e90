//! Forces to ask of a damper at the customary speeds, on a straight line and on two slopes.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::report::results::Substitution;
use crate::report::results::collect::{OfAxle, Out, then};
use crate::report::results::row::{like, put};
use crate::say;
use crate::solve::answer::{Band, DamperTargets, ForceAtSpeed, Parts};
use crate::trade::damper::{BumpRebound, TEST_SPEEDS_M_PER_S};

/// All of them.
pub(super) fn add(out: &mut Out, of: OfAxle<'_>) {
    let straight = Forces {
        prefix: "",
        words: String::new(),
        like: ["at the damper, straight line through the origin", "F = c v", "DIX"],
        of: |d| Some(&d.forces),
        rates: |d| Some(d.split),
        with: |_, c, v| put!["c": c => DampingRate, "v": v => DamperSpeed],
    };
    forces(out, of, &straight);
    let bent = Forces {
        prefix: "two_slope.",
        words: then(tr("two-slope curve")),
        like: [
            "at the damper, two-slope curve with the same work per stroke as the straight line at the peak speed",
            "F = c_low (v_1 + s v_2), v_1 of the speed below the knee, v_2 beyond it",
            "DERIVED",
        ],
        of: |d| d.two_slope_forces.as_ref(),
        rates: |d| Some(d.two_slope?.map(|t| t.low)),
        with: beyond_the_knee,
    };
    forces(out, of, &bent);
}

/// Forces of one curve at the customary speeds.
struct Forces {
    prefix: &'static str,
    words: String,
    /// Convention, formula, source.
    like: [&'static str; 3],
    of: fn(&DamperTargets) -> Option<&[ForceAtSpeed; 5]>,
    /// Bump and rebound rates at the damper, up to the knee where there is one.
    rates: fn(&DamperTargets) -> Option<Band<BumpRebound>>,
    /// The numbers put into the formula for such a rate, N s/m, and a speed, m/s.
    with: fn(&DamperTargets, f64, f64) -> Option<Vec<Substitution>>,
}

/// What a force on two slopes comes from.
fn beyond_the_knee(d: &DamperTargets, c_low: f64, v: f64) -> Option<Vec<Substitution>> {
    let two = d.two_slope?.aim;
    let below = v.min(two.knee.si());
    put![
        "c_low": c_low => DampingRate, "v_1": below => DamperSpeed, "s": two.upper_share,
        "v_2": v - below => DamperSpeed,
    ]
}

/// Bump and rebound forces at the customary speeds.
fn forces(out: &mut Out, of: OfAxle<'_>, curve: &Forces) {
    let ([convention, formula, source], part) = (curve.like, curve.of);
    let targets = of.part.and_then(|p| p.parts().damper.as_ref());
    let rates = targets.and_then(curve.rates);
    let with = |c: f64, v: f64| (curve.with)(targets?, c, v);
    for (i, v) in TEST_SPEEDS_M_PER_S.into_iter().enumerate() {
        let named = |direction: &str, name: String| {
            let key = format!("damping.{}{direction}_force.{v:.2}", curve.prefix);
            like(key, format!("{}{name}", curve.words), Dim::Force, convention, formula, source)
        };
        let bump = |p: &Parts| Some(part(p.damper.as_ref()?)?[i].bump);
        let name = say!("bump force at a test speed ({speed:.2} m/s)", speed = v);
        out.bought_band(named("bump", name), of, bump, |end| with(end.of(&rates?.map(|r| r.bump)), v));
        let rebound = |p: &Parts| Some(part(p.damper.as_ref()?)?[i].rebound);
        let name = say!("rebound force at a test speed ({speed:.2} m/s)", speed = v);
        out.bought_band(named("rebound", name), of, rebound, |end| with(end.of(&rates?.map(|r| r.rebound)), v));
    }
}
