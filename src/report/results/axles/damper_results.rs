//! Results about dampers: the one that is needed, the old one, one that is thought of.

use std::f64::consts::PI;

use super::AT_WHEEL;
use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::report::results::collect::{OfAxle, Out, like, then};
use crate::report::results::row::{Row, row, si};
use crate::report::results::{By, Figure, Substitution};
use crate::solve::answer::{AxleAnswer, DamperTargets, OfferedDamper, OldDamper, Standing};

static DAMPING: &[Row<AxleAnswer>] = &[
    row(
        "old_at_wheel",
        "old damper's rate",
        Dim::DampingRate,
        "at the wheel, mean of bump and rebound",
        "c_w = c_d r_d²",
        "GIL",
        |a: &AxleAnswer| si(a.damping.as_ref()?.old_at_wheel),
    )
    .with(|a| {
        let ratio = damper_ratio(a.standing.new.as_ref()?);
        Some(vec![("c_d", a.old_damper.as_ref()?.at_damper.si(), Dim::DampingRate), ("r_d", ratio, Dim::Ratio)])
    }),
    row(
        "scale",
        "damper stiffness for the same damping ratio, new ÷ old",
        Dim::Ratio,
        "on the springs that will be fitted",
        "√(k_w m_s) / r_d² / (√(k_w,b m_s,b) / r_d,b²), b before the swap",
        "DERIVED",
        |a: &AxleAnswer| si(a.damping.as_ref()?.scale),
    )
    .with(|a| {
        let (new, before) = (a.standing.new.as_ref()?, a.standing.before.as_ref()?);
        Some(vec![
            ("k_w", new.wheel_rate.si(), Dim::SpringRate),
            ("m_s", new.sprung.si(), Dim::Mass),
            ("r_d", damper_ratio(new), Dim::Ratio),
            ("k_w,b", before.wheel_rate.si(), Dim::SpringRate),
            ("m_s,b", before.sprung.si(), Dim::Mass),
            ("r_d,b", damper_ratio(before), Dim::Ratio),
        ])
    }),
    row(
        "hop_frequency",
        "wheel hop",
        Dim::Frequency,
        "unsprung mass on suspension and tyre, undamped",
        "f_u = √((k_w + k_t) / m_u) / 2π",
        "GIL",
        |a: &AxleAnswer| si(a.damping.as_ref()?.hop_frequency),
    )
    .with(|a| {
        let (k_w, unsprung) = (a.standing.new.as_ref()?.wheel_rate.si(), si(a.unsprung.after)?);
        let both = unsprung * (std::f64::consts::TAU * a.damping.as_ref()?.hop_frequency?.si()).powi(2);
        Some(vec![("k_w", k_w, Dim::SpringRate), ("k_t", both - k_w, Dim::SpringRate), ("m_u", unsprung, Dim::Mass)])
    })
    .needs(&["tyre_rate"]),
    row(
        "hop_ratio",
        "damping ratio of wheel hop, with the damper aimed at",
        Dim::Ratio,
        "unsprung mass on suspension and tyre",
        "ζ_u = c_w / (4π f_u m_u), f_u the wheel hop",
        "GIL",
        |a: &AxleAnswer| si(a.damping.as_ref()?.hop_ratio),
    )
    .with(|a| hop(a, a.damping.as_ref()?.at_wheel.aim.si())),
    row(
        "old_hop_ratio",
        "damping ratio of wheel hop, with the old damper",
        Dim::Ratio,
        "unsprung mass on suspension and tyre",
        "ζ_u = c_w / (4π f_u m_u), f_u the wheel hop",
        "GIL",
        |a: &AxleAnswer| si(a.damping.as_ref()?.old_hop_ratio),
    )
    .with(|a| hop(a, si(a.damping.as_ref()?.old_at_wheel)?)),
    row(
        "peak_speed",
        "peak speed at which a curve counts as one rate",
        Dim::DamperSpeed,
        "at the damper, of a sinusoid",
        "as named",
        "PRACTICE",
        |a: &AxleAnswer| Some(a.damping.as_ref()?.peak_speed.si()),
    )
    .by(By::Reading),
    row(
        "hot_share",
        "force left when hot",
        Dim::Ratio,
        "of the force when cold",
        "1 − loss",
        "PRACTICE",
        |a: &AxleAnswer| si(a.damping.as_ref()?.hot_share),
    )
    .with(|a| Some(vec![("loss", 1.0 - si(a.damping.as_ref()?.hot_share)?, Dim::Ratio)])),
    row(
        "hot_ratio",
        "damping ratio aimed at, when hot",
        Dim::Ratio,
        "on springs, mean of bump and rebound",
        "ζ (1 − loss)",
        "PRACTICE",
        |a: &AxleAnswer| {
            let d = a.damping.as_ref()?;
            si(d.hot(d.ratio.aim))
        },
    )
    .with(|a| hot(a, a.damping.as_ref()?.ratio.aim.si())),
    row(
        "gas_force",
        "push of the gas",
        Dim::Force,
        "along the damper, gauge pressure on the rod",
        "F_gas = p π d² / 4",
        "DIX",
        |a: &AxleAnswer| si(a.damping.as_ref()?.gas_force),
    ),
    row(
        "gas_lift",
        "how far the gas lifts the body",
        Dim::Length,
        "at the wheel; it is in every height here",
        "F_gas r_d / k_w",
        "DERIVED",
        |a: &AxleAnswer| si(a.damping.as_ref()?.gas_lift),
    )
    .with(|a| {
        let new = a.standing.new.as_ref()?;
        Some(vec![
            ("F_gas", si(a.damping.as_ref()?.gas_force)?, Dim::Force),
            ("r_d", damper_ratio(new), Dim::Ratio),
            ("k_w", new.wheel_rate.si(), Dim::SpringRate),
        ])
    }),
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
    .with(|d| Some(vec![("c", d.at_damper.aim.si(), Dim::DampingRate), ("ρ", rebound_over_bump(d), Dim::Ratio)])),
    row(
        "rebound_rate",
        "damper rate in rebound",
        Dim::DampingRate,
        "at the damper, for the middle of the wanted damping",
        "c_reb = ρ c_bump",
        "DERIVED",
        |d: &DamperTargets| Some(d.split.rebound.si()),
    )
    .with(|d| Some(vec![("ρ", rebound_over_bump(d), Dim::Ratio), ("c_bump", d.split.bump.si(), Dim::DampingRate)])),
    row(
        "two_slope.knee_speed",
        "knee of the two-slope curve",
        Dim::DamperSpeed,
        "at the damper",
        "as named",
        "PRACTICE",
        |d: &DamperTargets| d.two_slope.map(|t| t.aim.knee.si()),
    )
    .by(By::Reading),
    row(
        "two_slope.upper_share",
        "slope beyond the knee, of that below it",
        Dim::Ratio,
        "at the damper",
        "as named",
        "PRACTICE",
        |d: &DamperTargets| d.two_slope.map(|t| t.aim.upper_share.si()),
    )
    .by(By::Reading),
    row(
        "two_slope.bump_rate",
        "two-slope curve, bump rate below the knee",
        Dim::DampingRate,
        "at the damper, for the middle of the wanted damping; as much work at the peak speed as the straight line",
        "c_bump = 2 c / ((1 + ρ) (s + (1 − s) N)), N = (2/π)(asin a + a √(1 − a²)), a = v_knee / V, 1 above",
        "DERIVED",
        |d: &DamperTargets| d.two_slope.map(|t| t.aim.low.bump.si()),
    )
    .with(|d| {
        let two = d.two_slope?.aim;
        let a = two.knee.si() / d.peak_speed.si();
        let below = if a < 1.0 { 2.0 / PI * (a.asin() + a * (1.0 - a * a).sqrt()) } else { 1.0 };
        Some(vec![
            ("c", d.at_damper.aim.si(), Dim::DampingRate),
            ("ρ", rebound_over_bump(d), Dim::Ratio),
            ("s", two.upper_share.si(), Dim::Ratio),
            ("N", below, Dim::Ratio),
            ("v_knee", two.knee.si(), Dim::DamperSpeed),
            ("V", d.peak_speed.si(), Dim::DamperSpeed),
        ])
    }),
    row(
        "two_slope.rebound_rate",
        "two-slope curve, rebound rate below the knee",
        Dim::DampingRate,
        "at the damper, for the middle of the wanted damping; as much work at the peak speed as the straight line",
        "ρ c_bump",
        "DERIVED",
        |d: &DamperTargets| d.two_slope.map(|t| t.aim.low.rebound.si()),
    )
    .with(|d| {
        let bump = d.two_slope?.aim.low.bump.si();
        Some(vec![("ρ", rebound_over_bump(d), Dim::Ratio), ("c_bump", bump, Dim::DampingRate)])
    }),
];

fn rebound_over_bump(d: &DamperTargets) -> f64 {
    d.split.rebound.si() / d.split.bump.si()
}

/// Damper travel over wheel travel where it stands.
fn damper_ratio(stands: &Standing) -> f64 {
    stands.curve.damper_length.ratio(stands.travel).si()
}

/// What a damping ratio of wheel hop comes from.
fn hop(axle: &AxleAnswer, at_wheel_n_s_per_m: f64) -> Option<Vec<Substitution>> {
    Some(vec![
        ("c_w", at_wheel_n_s_per_m, Dim::DampingRate),
        ("f_u", si(axle.damping.as_ref()?.hop_frequency)?, Dim::Frequency),
        ("m_u", si(axle.unsprung.after)?, Dim::Mass),
    ])
}

/// What a damping ratio with a hot damper comes from.
fn hot(axle: &AxleAnswer, ratio: f64) -> Option<Vec<Substitution>> {
    let loss = 1.0 - si(axle.damping.as_ref()?.hot_share)?;
    Some(vec![("ζ", ratio, Dim::Ratio), ("loss", loss, Dim::Ratio)])
}

const EQUAL_WORK: &str = "c = work of one cycle / (π V X): Σ Δk_i (1 − N(v_i / V)) over the corners of the curve";
const BY_EQUAL_WORK: &str = "at the damper; of a curve by equal work at the peak speed named beside it";

static OLD: &[Row<OldDamper>] = &[
    row("bump_rate", "rate in bump", Dim::DampingRate, BY_EQUAL_WORK, EQUAL_WORK, "DIX", |d: &OldDamper| {
        d.rates.map(|r| r.bump.si())
    })
    .by(By::Solving),
    row("rebound_rate", "rate in rebound", Dim::DampingRate, BY_EQUAL_WORK, EQUAL_WORK, "DIX", |d: &OldDamper| {
        d.rates.map(|r| r.rebound.si())
    })
    .by(By::Solving),
];

static ON_NEW: &[Row<AxleAnswer>] = &[
    row(
        "at_damper",
        "rate at the damper",
        Dim::DampingRate,
        "at the damper, mean of bump and rebound",
        "(c_bump + c_reb) / 2, or 2 ζ √(k_w m_s) / r_d² where it stood before",
        "GIL",
        |a: &AxleAnswer| Some(a.damper_motion_ratio.and(a.old_damper.as_ref())?.at_damper.si()),
    )
    .with(|a| {
        let rates = a.old_damper.as_ref()?.rates?;
        Some(vec![("c_bump", rates.bump.si(), Dim::DampingRate), ("c_reb", rates.rebound.si(), Dim::DampingRate)])
    }),
    row(
        "hot_ratio",
        "damping ratio on the new springs, when hot",
        Dim::Ratio,
        "on springs, mean of bump and rebound",
        "ζ (1 − loss)",
        "PRACTICE",
        |a: &AxleAnswer| si(a.damping.as_ref()?.hot(a.standing.new.as_ref()?.old_damper_ratio?)),
    )
    .with(|a| hot(a, si(a.standing.new.as_ref()?.old_damper_ratio)?)),
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
    row("bump_rate", "rate in bump", Dim::DampingRate, BY_EQUAL_WORK, EQUAL_WORK, "DIX", |d: &OfferedDamper| {
        Some(d.rates.bump.si())
    })
    .by(By::Solving),
    row("rebound_rate", "rate in rebound", Dim::DampingRate, BY_EQUAL_WORK, EQUAL_WORK, "DIX", |d: &OfferedDamper| {
        Some(d.rates.rebound.si())
    })
    .by(By::Solving),
    row(
        "click",
        "click that fits best",
        Dim::Ratio,
        "as its maker counts them",
        "nearest to the aim",
        "PRACTICE",
        |d: &OfferedDamper| d.click(),
    )
    .by(By::Seeking),
    row(
        "first_click",
        "first click inside the range",
        Dim::Ratio,
        "as its maker counts them",
        "ζ from lowest to highest",
        "PRACTICE",
        |d: &OfferedDamper| d.clicks_inside().map(|c| c[0]),
    )
    .by(By::Seeking),
    row(
        "last_click",
        "last click inside the range",
        Dim::Ratio,
        "as its maker counts them",
        "ζ from lowest to highest",
        "PRACTICE",
        |d: &OfferedDamper| d.clicks_inside().map(|c| c[1]),
    )
    .by(By::Seeking),
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
    out.part("old_damper", &then(tr("old damper")), ON_NEW, of, |a| Some(a));
    out.bought("new_damper", &then(tr("damper thought of")), OFFERED, of, |p| p.offered_damper.as_ref());
    needed(out, of);
}

fn needed(out: &mut Out, of: OfAxle<'_>) {
    let convention = "on springs, mean of bump and rebound";
    let ratio = like("damping.ratio", tr("wanted damping ratio"), Dim::Ratio, convention, "as named", "PRACTICE");
    let ratio = Figure { by: By::Reading, ..ratio };
    out.band(ratio, of, |a| Some(a.damping.as_ref()?.ratio), |_| None);
    let wheel = like("damping.at_wheel", tr("damping rate"), Dim::DampingRate, AT_WHEEL, "c_w = 2 ζ √(k_w m_s)", "GIL");
    let damping = of.axle.damping.as_ref();
    let new = of.axle.standing.new.as_ref();
    out.band(
        wheel,
        of,
        |a| Some(a.damping.as_ref()?.at_wheel),
        |end| {
            Some(vec![
                ("ζ", end.of(&damping?.ratio), Dim::Ratio),
                ("k_w", new?.wheel_rate.si(), Dim::SpringRate),
                ("m_s", new?.sprung.si(), Dim::Mass),
            ])
        },
    );
    let name = tr("damper rate, mean of bump and rebound");
    let damper = like("damping.at_damper", name, Dim::DampingRate, "at the damper", "c_d = c_w / r_d²", "GIL");
    out.bought_band(
        damper,
        of,
        |p| Some(p.damper.as_ref()?.at_damper),
        |end| {
            Some(vec![("c_w", end.of(&damping?.at_wheel), Dim::DampingRate), ("r_d", damper_ratio(new?), Dim::Ratio)])
        },
    );
    out.part("damping", "", DAMPING, of, |a| a.damping.as_ref().map(|_| a));
    out.bought("damping", "", TARGETS, of, |p| p.damper.as_ref());
    super::forces::add(out, of);
}
