//! The band of spring rates of one axle, for the wanted frequency.

use super::{AT_WHEEL, fitted, spring_results};
use crate::base::language::tr;
use crate::report::results::collect::{OfAxle, Out};
use crate::report::results::row::{figures, put};
use crate::report::results::{By, Substitution};

pub(super) fn size(out: &mut Out, of: OfAxle<'_>) {
    let (sizing, sprung) = (of.axle.sizing.as_ref(), of.axle.masses.sprung.after);
    figures! { out;
        band "sizing.frequency", tr("target ride frequency, without tyre"), Frequency, "without tyre deflection";
            "as entered, or as before the change", "PRACTICE", by: By::Reading
            => of, |a| Some(a.sizing.as_ref()?.frequency), |_| None;
        band "sizing.wheel_rate", tr("wheel rate for the target frequency"), SpringRate, AT_WHEEL;
            "k_w = m_s (2π f)²", "GIL" => of, |a| Some(a.sizing.as_ref()?.wheel_rate),
            |end| put!["m_s": sprung?, "f": end.of(&sizing?.frequency) => Frequency];
        band "sizing.spring_rate", tr("spring rate for the target frequency"), SpringRate,
            "along the spring; for a torsion bar, vertically at the end of the arm";
            "k_s = (k_w − k_rest (rubber, gas, bag, stop) − F_s r′) / r²", "DERIVED"
            => of, |a| Some(a.sizing.as_ref()?.spring_rate), |end| {
                let sizing = sizing.filter(|s| s.open_helper.is_none())?;
                fitted::rate_at_the_spring(sizing, end.of(&sizing.wheel_rate))
            };
    }
    out.part("sizing", "", fitted::SIZING, of, |a| a.sizing.as_ref());
    out.part("sizing.same_factor", "", fitted::SAME_FACTOR, of, |a| a.same_factor.as_ref());
    out.bought("sizing", "", fitted::TO_BUY, of, |p| p.spring.as_ref());
    settling(out, of);
    out.bought("sizing.spacer", "", fitted::SPACER, of, |p| p.spacer.as_ref());
    bar_diameter(out, of);
    out.bought("sizing.bar", "", spring_results::BAR_CHOICE, of, |p| p.spring.as_ref()?.bar.as_ref());
}

/// How far the axle settles when the spring has lost its allowance: what the seat gains reaches the wheel by k_s r / k_w.
fn settling(out: &mut Out, of: OfAxle<'_>) {
    let with = || -> Option<Vec<Substitution>> {
        let (bought, new) = (of.part?.parts().spring.as_ref()?, of.axle.standing.new.as_ref()?);
        put![
            "allowance": bought.order_length.and(bought.allowance)?, "k_s": new.spring_rate,
            "r": new.curve.spring_length.ratio(new.travel), "k_w": new.wheel_rate,
        ]
    };
    let with = with();
    let si = with.as_ref().map(|w| w[0].1 * w[1].1 * w[2].1 / w[3].1);
    figures! { out;
        put format!("{}.sizing.settling", of.key()), tr("settling until the allowance is used up"), Length,
            "at the wheel";
            "allowance k_s r / k_w", "DERIVED", of: of.axle.side.word_inside().said(), with: || with => si, None;
    }
}

/// The diameters of a torsion bar for the wanted range.
fn bar_diameter(out: &mut Out, of: OfAxle<'_>) {
    let bought = of.part.and_then(|part| part.parts().spring.as_ref()?.bar);
    figures! { out;
        bought_band "sizing.bar.diameter", tr("bar diameter for the target frequency"), Length, "between the splines";
            "d = (32 l k_θ / (π G) + d_i⁴)^¼", "SHI" => of, |p| Some(p.spring?.bar?.diameter), |end| {
                let (bar, twist_rate) = (bought?.bar, bought?.twist_rate);
                put![
                    "l": bar.length_m => Length, "k_θ": end.of(&twist_rate) => TwistRate,
                    "G": bar.shear_modulus_pa => Stress, "d_i": bar.inside_m => Length,
                ]
            };
    }
}
