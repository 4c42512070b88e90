//! Forces to ask of a damper at the customary speeds, on a straight line and on two slopes.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::report::results::Substitution;
use crate::report::results::collect::{OfAxle, Out, like, then};
use crate::say;
use crate::solve::answer::{DamperTargets, ForceAtSpeed, Parts};
use crate::trade::damper::TEST_SPEEDS_M_PER_S;

/// All of them.
pub(super) fn add(out: &mut Out, of: OfAxle<'_>) {
    let straight = Forces {
        prefix: "",
        words: String::new(),
        like: ["at the damper, straight line through the origin", "F = c v", "DIX"],
        of: |d| Some(&d.forces),
        with: |_, v, force| Some(vec![("c", force / v, Dim::DampingRate), ("v", v, Dim::DamperSpeed)]),
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
    /// The numbers put into the formula for a speed, m/s, and its force, N.
    with: fn(&DamperTargets, f64, f64) -> Option<Vec<Substitution>>,
}

/// What a force on two slopes comes from.
fn beyond_the_knee(d: &DamperTargets, v: f64, force: f64) -> Option<Vec<Substitution>> {
    let two = d.two_slope?.aim;
    let (below, share) = (v.min(two.knee.si()), two.upper_share.si());
    let counts = below + share * (v - below);
    Some(vec![
        ("c_low", force / counts, Dim::DampingRate),
        ("v_1", below, Dim::DamperSpeed),
        ("s", share, Dim::Ratio),
        ("v_2", v - below, Dim::DamperSpeed),
    ])
}

/// Bump and rebound forces at the customary speeds.
fn forces(out: &mut Out, of: OfAxle<'_>, curve: &Forces) {
    let ([convention, formula, source], part) = (curve.like, curve.of);
    let targets = of.part.and_then(|p| p.parts().damper.as_ref());
    let with = |v: f64, force: Option<f64>| (curve.with)(targets?, v, force?);
    for (i, v) in TEST_SPEEDS_M_PER_S.into_iter().enumerate() {
        let named = |direction: &str, name: String| {
            let key = format!("damping.{}{direction}_force.{v:.2}", curve.prefix);
            like(&key, format!("{}{name}", curve.words), Dim::Force, convention, formula, source)
        };
        let at = targets.and_then(part).map(|f| f[i]);
        let bump = |p: &Parts| Some(part(p.damper.as_ref()?)?[i].bump);
        let name = say!("bump force at a test speed ({speed:.2} m/s)", speed = v);
        out.bought_band(named("bump", name), of, bump, |end| with(v, at.map(|f| end.of(&f.bump))));
        let rebound = |p: &Parts| Some(part(p.damper.as_ref()?)?[i].rebound);
        let name = say!("rebound force at a test speed ({speed:.2} m/s)", speed = v);
        out.bought_band(named("rebound", name), of, rebound, |end| with(v, at.map(|f| end.of(&f.rebound))));
    }
}
