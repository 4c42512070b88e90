//! Results about dampers: the one that is needed, the old one, one that is thought of.

use super::{AT_WHEEL, OfAxle, Out, Row, Substitution, like, row, si, then};
use crate::damper::TEST_SPEEDS_M_PER_S;
use crate::language::tr;
use crate::say;
use crate::solve::answer::{AxleAnswer, DamperTargets, Damping, ForceAtSpeed, OfferedDamper, OldDamper, Parts};
use crate::units::{Dim, Quantity};

static DAMPING: &[Row<Damping>] = &[
    row(
        "old_at_wheel",
        "old damper's rate",
        Dim::DampingRate,
        "at the wheel, mean of bump and rebound",
        "c_w = 2 ζ √(k_w m_s), or c_d r_d²",
        "GIL",
        |d| si(d.old_at_wheel),
    ),
    row(
        "scale",
        "damper stiffness for the same damping ratio, new ÷ old",
        Dim::Ratio,
        "on the springs that will be fitted",
        "√(k_w m_s) / r_d² after ÷ before",
        "DERIVED",
        |d| si(d.scale),
    ),
    row(
        "hop_frequency",
        "wheel hop",
        Dim::Frequency,
        "unsprung mass on suspension and tyre, undamped",
        "f_u = √((k_w + k_t) / m_u) / 2π",
        "GIL",
        |d| si(d.hop_frequency),
    ),
    row(
        "hop_ratio",
        "damping ratio of wheel hop, with the damper aimed at",
        Dim::Ratio,
        "unsprung mass on suspension and tyre",
        "ζ_u = c_w / (2 √((k_w + k_t) m_u))",
        "GIL",
        |d: &Damping| si(d.hop_ratio),
    )
    .with(|d| vec![("c_w", Some(d.at_wheel.aim.si()), Dim::DampingRate)]),
    row(
        "old_hop_ratio",
        "damping ratio of wheel hop, with the old damper",
        Dim::Ratio,
        "unsprung mass on suspension and tyre",
        "ζ_u = c_w / (2 √((k_w + k_t) m_u))",
        "GIL",
        |d: &Damping| si(d.old_hop_ratio),
    )
    .with(|d| vec![("c_w", si(d.old_at_wheel), Dim::DampingRate)]),
    row(
        "peak_speed",
        "peak speed at which a curve counts as one rate",
        Dim::DamperSpeed,
        "at the damper, of a sinusoid",
        "as named",
        "PRACTICE",
        |d| Some(d.peak_speed.si()),
    ),
    row("hot_share", "force left when hot", Dim::Ratio, "of the force when cold", "1 − loss", "PRACTICE", |d| {
        si(d.hot_share)
    }),
    row(
        "hot_ratio",
        "damping ratio aimed at, when hot",
        Dim::Ratio,
        "on springs, mean of bump and rebound",
        "ζ (1 − loss)",
        "PRACTICE",
        |d| si(d.hot(d.ratio.aim)),
    ),
    row(
        "gas_force",
        "push of the gas",
        Dim::Force,
        "along the damper, gauge pressure on the rod",
        "F_gas = p π d² / 4",
        "DIX",
        |d| si(d.gas_force),
    ),
    row(
        "gas_lift",
        "how far the gas lifts the body",
        Dim::Length,
        "at the wheel; it is in every height here",
        "F_gas r_d / k_w",
        "DERIVED",
        |d: &Damping| si(d.gas_lift),
    )
    .with(|d| vec![("F_gas", si(d.gas_force), Dim::Force)]),
];

static TARGETS: &[Row<DamperTargets>] = &[
    row(
        "bump_rate",
        "damper rate in bump",
        Dim::DampingRate,
        "at the damper, for the middle of the wanted damping",
        "c_bump = 2 c / (1 + ρ)",
        "DERIVED",
        |d: &DamperTargets| Some(d.split.bump.si()),
    )
    .with(|d| vec![("c", Some(d.at_damper.aim.si()), Dim::DampingRate), ("ρ", Some(rebound_over_bump(d)), Dim::Ratio)]),
    row(
        "rebound_rate",
        "damper rate in rebound",
        Dim::DampingRate,
        "at the damper, for the middle of the wanted damping",
        "c_reb = ρ c_bump",
        "DERIVED",
        |d: &DamperTargets| Some(d.split.rebound.si()),
    )
    .with(|d| {
        vec![("ρ", Some(rebound_over_bump(d)), Dim::Ratio), ("c_bump", Some(d.split.bump.si()), Dim::DampingRate)]
    }),
    row(
        "two_slope.knee_speed",
        "knee of the two-slope curve",
        Dim::DamperSpeed,
        "at the damper",
        "as named",
        "PRACTICE",
        |d| d.two_slope.map(|t| t.aim.knee.si()),
    ),
    row(
        "two_slope.upper_share",
        "slope beyond the knee, of that below it",
        Dim::Ratio,
        "at the damper",
        "as named",
        "PRACTICE",
        |d| d.two_slope.map(|t| t.aim.upper_share.si()),
    ),
    row(
        "two_slope.bump_rate",
        "two-slope curve, bump rate below the knee",
        Dim::DampingRate,
        "at the damper, for the middle of the wanted damping; as much work at the peak speed as the straight line",
        "c_low = c / (s + (1 − s) N), N = (2/π)(asin a + a √(1 − a²)), a = v_knee / V, 1 above",
        "DERIVED",
        |d: &DamperTargets| d.two_slope.map(|t| t.aim.low.bump.si()),
    )
    .with(two_slope),
    row(
        "two_slope.rebound_rate",
        "two-slope curve, rebound rate below the knee",
        Dim::DampingRate,
        "at the damper, for the middle of the wanted damping; as much work at the peak speed as the straight line",
        "ρ c_bump",
        "DERIVED",
        |d: &DamperTargets| d.two_slope.map(|t| t.aim.low.rebound.si()),
    )
    .with(two_slope),
];

fn rebound_over_bump(d: &DamperTargets) -> f64 {
    d.split.rebound.si() / d.split.bump.si()
}

fn two_slope(d: &DamperTargets) -> Vec<Substitution> {
    vec![
        ("c", Some(d.at_damper.aim.si()), Dim::DampingRate),
        ("s", d.two_slope.map(|t| t.aim.upper_share.si()), Dim::Ratio),
        ("v_knee", d.two_slope.map(|t| t.aim.knee.si()), Dim::DamperSpeed),
        ("V", Some(d.peak_speed.si()), Dim::DamperSpeed),
    ]
}

const EQUAL_WORK: &str = "c = work of one cycle / (π V X): Σ Δk_i (1 − N(v_i / V)) over the corners of the curve";
const BY_EQUAL_WORK: &str = "at the damper; of a curve by equal work at the peak speed named beside it";

static OLD: &[Row<OldDamper>] = &[
    row("bump_rate", "rate in bump", Dim::DampingRate, BY_EQUAL_WORK, EQUAL_WORK, "DIX", |d| {
        d.rates.map(|r| r.bump.si())
    }),
    row("rebound_rate", "rate in rebound", Dim::DampingRate, BY_EQUAL_WORK, EQUAL_WORK, "DIX", |d| {
        d.rates.map(|r| r.rebound.si())
    }),
];

static ON_NEW: &[Row<AxleAnswer>] = &[
    row(
        "at_damper",
        "rate at the damper",
        Dim::DampingRate,
        "at the damper, mean of bump and rebound",
        "mean of bump and rebound, or 2 ζ √(k_w m_s) / r_d² where it stood before",
        "GIL",
        |a| Some(a.damper_motion_ratio.and(a.old_damper.as_ref())?.at_damper.si()),
    ),
    row(
        "hot_ratio",
        "damping ratio on the new springs, when hot",
        Dim::Ratio,
        "on springs, mean of bump and rebound",
        "ζ (1 − loss)",
        "PRACTICE",
        |a| si(a.damping.as_ref()?.hot(a.standing.new.as_ref()?.old_damper_ratio?)),
    ),
];

static OFFERED: &[Row<OfferedDamper>] = &[
    row(
        "ratio",
        "damping ratio",
        Dim::Ratio,
        "on springs, at the click that fits best",
        "ζ = c_w / (2 √(k_w m_s))",
        "GIL",
        |d| Some(d.ratio().si()),
    ),
    row("bump_rate", "rate in bump", Dim::DampingRate, BY_EQUAL_WORK, EQUAL_WORK, "DIX", |d| Some(d.rates.bump.si())),
    row("rebound_rate", "rate in rebound", Dim::DampingRate, BY_EQUAL_WORK, EQUAL_WORK, "DIX", |d| {
        Some(d.rates.rebound.si())
    }),
    row(
        "click",
        "click that fits best",
        Dim::Ratio,
        "as its maker counts them",
        "nearest to the aim",
        "PRACTICE",
        |d| d.click(),
    ),
    row(
        "first_click",
        "first click inside the range",
        Dim::Ratio,
        "as its maker counts them",
        "ζ from lowest to highest",
        "PRACTICE",
        |d| d.clicks_inside().map(|c| c[0]),
    ),
    row(
        "last_click",
        "last click inside the range",
        Dim::Ratio,
        "as its maker counts them",
        "ζ from lowest to highest",
        "PRACTICE",
        |d| d.clicks_inside().map(|c| c[1]),
    ),
    row(
        "hop_ratio",
        "damping ratio of wheel hop",
        Dim::Ratio,
        "unsprung mass on suspension and tyre",
        "ζ_u = c_w / (2 √((k_w + k_t) m_u))",
        "GIL",
        |d| si(d.hop_ratio),
    ),
    row(
        "to_closed",
        "left at full bump",
        Dim::Length,
        "damper length at metal less its closed length",
        "L_d − L_closed",
        "DERIVED",
        |d| si(d.to_closed),
    ),
    row(
        "to_open",
        "left at full droop",
        Dim::Length,
        "its open length less the length at droop",
        "L_open − L_d",
        "DERIVED",
        |d| si(d.to_open),
    ),
];

/// All figures about the dampers of one axle.
pub(super) fn add(out: &mut Out, of: OfAxle<'_>) {
    out.part("old_damper", &then(tr("old damper")), OLD, of, |a| a.old_damper.as_ref());
    if of.axle.old_damper.is_some() {
        out.part("old_damper", &then(tr("old damper")), ON_NEW, of, |a| Some(a));
    }
    out.bought("new_damper", &then(tr("damper thought of")), OFFERED, of, |p| p.offered_damper.as_ref());
    needed(out, of);
}

fn needed(out: &mut Out, of: OfAxle<'_>) {
    let convention = "on springs, mean of bump and rebound";
    let ratio = like("damping.ratio", tr("wanted damping ratio"), Dim::Ratio, convention, "as named", "PRACTICE");
    out.band(ratio, of, |a| Some(a.damping.as_ref()?.ratio));
    let wheel = like("damping.at_wheel", tr("damping rate"), Dim::DampingRate, AT_WHEEL, "c_w = 2 ζ √(k_w m_s)", "GIL");
    let damping = of.axle.damping.as_ref();
    let new = of.axle.standing.new.as_ref();
    out.band_with(
        wheel,
        of,
        |a| Some(a.damping.as_ref()?.at_wheel),
        |end| {
            vec![
                ("ζ", damping.map(|d| end.of(&d.ratio)), Dim::Ratio),
                ("k_w", new.map(|s| s.wheel_rate.si()), Dim::SpringRate),
                ("m_s", new.map(|s| s.sprung.si()), Dim::Mass),
            ]
        },
    );
    let name = tr("damper rate, mean of bump and rebound");
    let damper = like("damping.at_damper", name, Dim::DampingRate, "at the damper", "c_d = c_w / r_d²", "GIL");
    if damping.is_none() {
        return;
    }
    let targets = of.part.and_then(|p| p.parts().damper.as_ref());
    out.bought_band(
        damper,
        of,
        |p| Some(p.damper.as_ref()?.at_damper),
        |end| {
            let pair = damping.zip(targets).map(|(d, t)| (end.of(&d.at_wheel), end.of(&t.at_damper)));
            vec![
                ("c_w", pair.map(|p| p.0), Dim::DampingRate),
                ("r_d", pair.filter(|p| p.1 > 0.0).map(|p| (p.0 / p.1).sqrt()), Dim::Ratio),
            ]
        },
    );
    out.part("damping", "", DAMPING, of, |a| a.damping.as_ref());
    out.bought("damping", "", TARGETS, of, |p| p.damper.as_ref());
    let straight: Forces = |d| Some(&d.forces);
    let convention = "at the damper, straight line through the origin";
    let with = |force: f64, v: f64| vec![("c", Some(force / v), Dim::DampingRate), ("v", Some(v), Dim::DamperSpeed)];
    forces(out, of, ["", ""], [convention, "F = c v", "DIX"], straight, with);
    let bent: Forces = |d| d.two_slope_forces.as_ref();
    let convention = "at the damper, two-slope curve of equal work at the peak speed";
    let formula = "F = c_low v, beyond the knee c_low (v_knee + s (v − v_knee))";
    forces(out, of, ["two_slope.", &then(tr("two-slope curve"))], [convention, formula, "DERIVED"], bent, |_, _| {
        Vec::new()
    });
}

type Forces = fn(&DamperTargets) -> Option<&[ForceAtSpeed; 5]>;

/// Bump and rebound forces at the customary speeds.
fn forces(
    out: &mut Out,
    of: OfAxle<'_>,
    [prefix, words]: [&str; 2],
    [convention, formula, source]: [&'static str; 3],
    part: Forces,
    with: impl Fn(f64, f64) -> Vec<Substitution>,
) {
    let found = of.part.and_then(|p| part(p.parts().damper.as_ref()?));
    if of.part.is_some() && found.is_none() {
        return;
    }
    for (i, v) in TEST_SPEEDS_M_PER_S.into_iter().enumerate() {
        let named = |direction: &str, name: String| {
            let key = format!("damping.{prefix}{direction}_force.{v:.2}");
            like(&key, format!("{words}{name}"), Dim::Force, convention, formula, source)
        };
        let of_force = |force: Option<f64>| force.map_or_else(Vec::new, |f| with(f, v));
        let bump = |p: &Parts| Some(part(p.damper.as_ref()?)?[i].bump);
        let name = say!("bump force at a test speed ({speed:.2} m/s)", speed = v);
        out.bought_band(named("bump", name), of, bump, |end| of_force(found.map(|f| end.of(&f[i].bump))));
        let rebound = |p: &Parts| Some(part(p.damper.as_ref()?)?[i].rebound);
        let name = say!("rebound force at a test speed ({speed:.2} m/s)", speed = v);
        out.bought_band(named("rebound", name), of, rebound, |end| of_force(found.map(|f| end.of(&f[i].rebound))));
    }
}
