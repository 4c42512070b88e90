//! Results about the damper that is needed.

use std::f64::consts::PI;

use super::AT_WHEEL;
use super::old_dampers::hot;
use crate::base::language::tr;
use crate::base::units::{DampingRate, Quantity, Ratio};
use crate::report::results::collect::{OfAxle, Out};
use crate::report::results::row::{Row, figures, put, rows, si};
use crate::report::results::{By, Say, Substitution};
use crate::solve::answer::{AxleAnswer, DamperTargets, Standing};

static DAMPING: &[Row<AxleAnswer>] = rows! { AxleAnswer;
    "old_at_wheel", "old damper, rate at the wheel", DampingRate, "at the wheel, mean of bump and rebound";
        "c_w = c_d r_d²", "GIL", |a| si(a.damping.as_ref()?.old_at_wheel),
        with: |a| put!["c_d": a.old_damper.as_ref()?.at_damper, "r_d": damper_ratio(a.standing.new.as_ref()?)];
    "scale", "damper rate for the same damping ratio, new ÷ old", Ratio, "on the springs that will be fitted";
        "√(k_w m_s) / r_d² / (√(k_w,b m_s,b) / r_d,b²), b before the swap", "DERIVED", |a| si(a.damping.as_ref()?.scale),
        say: Say::Factor,
        with: |a| {
            let (new, before) = (a.standing.new.as_ref()?, a.standing.before.as_ref()?);
            put![
                "k_w": new.wheel_rate, "m_s": new.sprung, "r_d": damper_ratio(new),
                "k_w,b": before.wheel_rate, "m_s,b": before.sprung, "r_d,b": damper_ratio(before),
            ]
        };
    "hop_frequency", "wheel hop frequency", Frequency, "vibration of the unsprung mass between suspension and tyre, undamped";
        "f_u = √((k_w + k_t) / m_u) / 2π", "GIL", |a| si(a.damping.as_ref()?.hop_frequency),
        with: |a| {
            let new = a.standing.new.as_ref()?;
            put!["k_w": new.wheel_rate, "k_t": new.tyre_rate?, "m_u": a.masses.unsprung.after?]
        },
        needs: &["tyre_rate"];
    "hop_ratio", "wheel hop damping ratio, with the target damper rate", Ratio, "vibration of the unsprung mass between suspension and tyre";
        "ζ_u = c_w / (4π f_u m_u), f_u the wheel hop", "GIL", |a| si(a.damping.as_ref()?.hop_ratio),
        with: |a| hop(a, a.damping.as_ref()?.at_wheel.aim);
    "old_hop_ratio", "wheel hop damping ratio, with the old damper", Ratio, "vibration of the unsprung mass between suspension and tyre";
        "ζ_u = c_w / (4π f_u m_u), f_u the wheel hop", "GIL", |a| si(a.damping.as_ref()?.old_hop_ratio),
        with: |a| hop(a, a.damping.as_ref()?.old_at_wheel?);
    "peak_speed", "peak damper speed for the equivalent damping rate", DamperSpeed, "at the damper, for sinusoidal motion";
        "as entered, or the default", "PRACTICE", |a| Some(a.damping.as_ref()?.peak_speed.si()), by: By::Reading;
    "hot_share", "damper force left when hot", Ratio, "force when hot ÷ force when cold";
        "1 − loss", "PRACTICE", |a| si(a.damping.as_ref()?.hot_share),
        with: |a| put!["loss": a.damping.as_ref()?.hot_loss?];
    "hot_ratio", "target damping ratio when hot", Ratio, "without tyre deflection, mean of bump and rebound";
        "ζ (1 − loss)", "PRACTICE", |a| {
            let d = a.damping.as_ref()?;
            si(d.hot(d.ratio.aim))
        },
        with: |a| hot(a, a.damping.as_ref()?.ratio.aim);
    "gas_force", "gas force", Force, "along the damper, gauge pressure × rod area";
        "F_gas = p π d² / 4", "DIX", |a| si(a.damping.as_ref()?.gas_force),
        with: |a| {
            let (pressure, rod) = a.damping.as_ref()?.gas?;
            put!["p": pressure, "d": rod]
        };
    "gas_lift", "body lift from the gas force", Length, "at the wheel; included in every height shown";
        "F_gas r_d / k_w", "DERIVED", |a| si(a.damping.as_ref()?.gas_lift),
        with: |a| {
            let new = a.standing.new.as_ref()?;
            put!["F_gas": a.damping.as_ref()?.gas_force?, "r_d": damper_ratio(new), "k_w": new.wheel_rate]
        };
};

static TARGETS: &[Row<DamperTargets>] = rows! { DamperTargets;
    "bump_rate", "damper rate in bump", DampingRate, "at the damper, for the middle of the target damping range";
        "c_bump = 2 c / (1 + ρ)", "DERIVED", |d| Some(d.split.aim.bump.si()),
        with: |d| put!["c": d.at_damper.aim, "ρ": d.rebound_over_bump];
    "rebound_rate", "damper rate in rebound", DampingRate, "at the damper, for the middle of the target damping range";
        "c_reb = ρ c_bump", "DERIVED", |d| Some(d.split.aim.rebound.si()),
        with: |d| put!["ρ": d.rebound_over_bump, "c_bump": d.split.aim.bump];
    "two_slope.knee_speed", "knee speed of the two-slope curve", DamperSpeed, "at the damper";
        "as entered, or the default", "PRACTICE", |d| d.two_slope.map(|t| t.aim.knee.si()), by: By::Reading;
    "two_slope.upper_share", "slope beyond the knee ÷ slope below it", Ratio, "at the damper";
        "as entered, or the default", "PRACTICE", |d| d.two_slope.map(|t| t.aim.upper_share.si()), by: By::Reading;
    "two_slope.bump_rate", "two-slope curve, bump rate below the knee", DampingRate,
        "at the damper, for the middle of the target damping range; at the peak speed, the same work per stroke as the straight line";
        "c_bump = 2 c / ((1 + ρ) (s + (1 − s) N)), N = (2/π)(asin a + a √(1 − a²)), a = v_knee / V, 1 above", "DERIVED",
        |d| d.two_slope.map(|t| t.aim.low.bump.si()),
        with: |d| {
            let two = d.two_slope?.aim;
            let a = two.knee.si() / d.peak_speed.si();
            let below = if a < 1.0 { 2.0 / PI * (a.asin() + a * (1.0 - a * a).sqrt()) } else { 1.0 };
            put![
                "c": d.at_damper.aim, "ρ": d.rebound_over_bump, "s": two.upper_share, "N": below => Ratio,
                "v_knee": two.knee.si() => DamperSpeed, "V": d.peak_speed.si() => DamperSpeed,
            ]
        };
    "two_slope.rebound_rate", "two-slope curve, rebound rate below the knee", DampingRate,
        "at the damper, for the middle of the target damping range; at the peak speed, the same work per stroke as the straight line";
        "ρ c_bump", "DERIVED", |d| d.two_slope.map(|t| t.aim.low.rebound.si()),
        with: |d| put!["ρ": d.rebound_over_bump, "c_bump": d.two_slope?.aim.low.bump];
};

/// Damper travel over wheel travel where it is.
fn damper_ratio(stands: &Standing) -> Ratio {
    stands.curve.damper_length.ratio(stands.travel)
}

/// What a damping ratio of wheel hop comes from.
fn hop(axle: &AxleAnswer, at_wheel: DampingRate) -> Option<Vec<Substitution>> {
    put!["c_w": at_wheel, "f_u": axle.damping.as_ref()?.hop_frequency?, "m_u": axle.masses.unsprung.after?]
}

/// All about the damper that is needed.
pub(super) fn add(out: &mut Out, of: OfAxle<'_>) {
    let (damping, new) = (of.axle.damping.as_ref(), of.axle.standing.new.as_ref());
    figures! { out;
        band "damping.ratio", tr("target damping ratio"), Ratio, "without tyre deflection, mean of bump and rebound";
            "as entered, or the default", "PRACTICE", by: By::Reading
            => of, |a| Some(a.damping.as_ref()?.ratio), |_| None;
        band "damping.at_wheel", tr("damper rate at the wheel"), DampingRate, AT_WHEEL;
            "c_w = 2 ζ √(k_w m_s)", "GIL" => of, |a| Some(a.damping.as_ref()?.at_wheel),
            |end| put!["ζ": end.of(&damping?.ratio) => Ratio, "k_w": new?.wheel_rate, "m_s": new?.sprung];
        bought_band "damping.at_damper", tr("damper rate, mean of bump and rebound"), DampingRate, "at the damper";
            "c_d = c_w / r_d²", "GIL" => of, |p| Some(p.damper.as_ref()?.at_damper),
            |end| put!["c_w": end.of(&damping?.at_wheel) => DampingRate, "r_d": damper_ratio(new?)];
    }
    out.part("damping", "", DAMPING, of, |a| a.damping.as_ref().map(|_| a));
    out.bought("damping", "", TARGETS, of, |p| p.damper.as_ref());
    super::forces::add(out, of);
}
