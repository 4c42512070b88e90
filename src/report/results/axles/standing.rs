//! Results of one axle in one state.

use super::{AT_WHEEL, CORNER};
use crate::base::units::Quantity;
use crate::report::results::row::{Row, damped, half_less, put, rows, si, swings, to_contact, to_stop};
use crate::report::results::{By, Say};
use crate::solve::answer::Standing;
use crate::trade::spring::Spring;

pub(super) static STANDING: &[Row<Standing>] = rows! { Standing;
    "sprung", "sprung mass, per corner", Mass, CORNER;
        "m_s = axle / 2 − m_u", "DERIVED", |s| Some(s.sprung.si()),
        with: |s| half_less(s.of_axle?.0, s.of_axle?.1);
    "travel", "wheel travel from the reference height", Length, "+ in bump";
        "F_w(z) = m_s g, solved", "DERIVED", |s| Some(s.travel.si()), by: By::Solving;
    "height_change", "height change at the wheel", Length, "hub to arch, change from before, + when the body rises";
        "z_before − z", "DERIVED", |s| si(s.height_change),
        with: |s| put!["z_before": s.travel_before?, "z": s.travel], say: Say::Height("as before");
    "height_change_at_ground", "change in body height above the ground", Length,
        "change from before, with tyre deflection, + when the body rises";
        "z_before − z − ΔW / k_t", "DERIVED", |s| si(s.height_change_at_ground),
        with: |s| put!["z_before − z": s.height_change?, "ΔW / k_t": s.squash?],
        needs: &["tyre_rate"], say: Say::Height("as before");
    "wheel_rate", "wheel rate", SpringRate, AT_WHEEL;
        "k_w = k_s r² + F_s r′ + k_rest (rubber, gas, bag) + k_stop", "GIL", |s| Some(s.wheel_rate.si()),
        with: |s| {
            let curve = &s.curve;
            let length_m = curve.spring_length.length(s.travel).si();
            put![
                "k_s": curve.spring.rate_n_per_m(length_m) => SpringRate, "r": curve.spring_length.ratio(s.travel),
                "F_s r′": geometry_n_per_m(s) => SpringRate,
                "k_rest": curve.other_rate_n_per_m(s.travel.si()) => SpringRate,
                "k_stop": curve.stop_rate_n_per_m(s.travel.si()) => SpringRate,
            ]
        };
    "geometry_share", "geometry term of the wheel rate", Ratio,
        "share of the wheel rate that comes from the change in the motion ratio";
        "F_s r′ / k_w", "DERIVED", |s| Some(geometry_n_per_m(s) / s.wheel_rate.si()),
        with: |s| put!["F_s r′": geometry_n_per_m(s) => SpringRate, "k_w": s.wheel_rate], say: Say::Percent(1);
    "spring_rate", "rate of the spring itself", SpringRate,
        "along the spring, at this height; for a torsion bar, vertically at the end of the arm";
        "−dF/dL", "DERIVED", |s| Some(s.spring_rate.si()), by: By::Solving;
    "stored", "energy stored in the spring", Energy, "at this height";
        "area under force against length; a coil of one rate: k_s (L0 − L)² / 2", "DERIVED", |s| Some(s.stored.si()),
        with: |s| match s.curve.spring {
            Spring::Coil(coil) if is_free(s) => put![
                "k_s": coil.rate_n_per_m => SpringRate, "L0": coil.free_length_m => Length,
                "L": s.curve.spring_length.length(s.travel),
            ],
            _ => None,
        };
    "frequency", "ride frequency, without tyre", Frequency, "without tyre deflection, undamped";
        "f = √(k_w / m_s) / 2π", "GIL", |s| Some(s.frequency.si()), with: |s| swings(&s.at_rest());
    "frequency_with_tyre", "ride frequency, with tyre", Frequency, "tyre in series, undamped";
        "f_t = √(k_w k_t / ((k_w + k_t) m_s)) / 2π", "GIL", |s| si(s.frequency_with_tyre),
        with: |s| put![..swings(&s.at_rest())?, "k_t": s.tyre_rate?], needs: &["tyre_rate"];
    "static_deflection", "equivalent static deflection", Length, AT_WHEEL;
        "m_s g / k_w", "GIL", |s| Some(s.static_deflection.si()), with: |s| swings(&s.at_rest());
    "spring_force", "spring load", Force,
        "along the spring, at ride height; W = m_s g plus the share of the load on the hitch";
        "F_s = (W − F_rest (rubber, gas, bag, stop)) / r", "DERIVED", |s| Some(s.spring_force.si()),
        with: |s| put!["W": s.load, "F_rest": rest_n(s) => Force, "r": s.curve.spring_length.ratio(s.travel)];
    "spring_length", "spring length at ride height", Length, "along the spring";
        "L_s(z)", "DERIVED", |s| si(s.spring_length), by: By::Reading;
    "free_length", "free length of the spring", Length, "without load";
        "L0", "DERIVED", |s| s.spring_length.map(|_| s.curve.spring.free_length_m()), by: By::Reading;
    "stop_room", "room to the bump stop", Length, "wheel travel; negative: bump stop already touched";
        "gap − z", "DERIVED", |s| si(s.stop_room), with: |s| to_stop(&s.at_rest()), needs: &["travel.stop_gap"];
    "reserve", "reserve to the bump stop", Ratio,
        "acceleration in g, in addition to the static load, until the bump stop is touched at z_c, or until the coils bind if that comes first; braking, roll and road bumps share this travel";
        "F_w(z_c) / W − 1", "DERIVED", |s| si(s.reserve), with: |s| to_contact(&s.at_rest()),
        needs: &["travel.stop_gap"], say: Say::InG;
    "old_damper_ratio", "damping ratio, old damper", Ratio,
        "at the wheel, without tyre deflection, mean of bump and rebound";
        "ζ = c_w / (2 √(k_w m_s))", "GIL", |s| si(s.old_damper_ratio),
        with: |s| damped(&s.at_rest(), s.old_damper_at_wheel), needs: &["damper_ratio.number"];
};

/// Between loose and solid: a coil of one rate goes by its formulas there.
pub(super) fn is_free(s: &Standing) -> bool {
    let (spring, length_m) = (&s.curve.spring, s.curve.spring_length.length(s.travel).si());
    !s.loose && spring.solid_length_m().is_none_or(|solid_m| length_m >= solid_m)
}

/// What carries in addition to the spring, N: rubber, gas, bag and stop.
fn rest_n(s: &Standing) -> f64 {
    let z_m = s.travel.si();
    s.curve.other_force_n(z_m) + s.curve.stop_force_n(z_m)
}

/// What the change of the motion ratio adds to the wheel rate.
fn geometry_n_per_m(s: &Standing) -> f64 {
    s.spring_force.si() * s.curve.spring_length.slope(s.travel).value
}
