//! The band of spring rates of one axle, for the wanted frequency.

use super::{AT_WHEEL, fitted, spring_results};
use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::report::results::collect::{OfAxle, Out, like};
use crate::report::results::row::si;
use crate::report::results::{By, Figure, Substitution};

pub(super) fn size(out: &mut Out, of: OfAxle<'_>) {
    let practice = "as entered, or as before the change";
    let frequency = like(
        "sizing.frequency",
        tr("target ride frequency, without tyre"),
        Dim::Frequency,
        "without tyre deflection",
        practice,
        "PRACTICE",
    );
    let frequency = Figure { by: By::Reading, ..frequency };
    out.band(frequency, of, |a| Some(a.sizing.as_ref()?.frequency), |_| None);
    let wheel = like(
        "sizing.wheel_rate",
        tr("wheel rate for the target frequency"),
        Dim::SpringRate,
        AT_WHEEL,
        "k_w = m_s (2π f)²",
        "GIL",
    );
    let sizing = of.axle.sizing.as_ref();
    let sprung = si(of.axle.masses.sprung.after);
    out.band(
        wheel,
        of,
        |a| Some(a.sizing.as_ref()?.wheel_rate),
        |end| Some(vec![("m_s", sprung?, Dim::Mass), ("f", end.of(&sizing?.frequency), Dim::Frequency)]),
    );
    let formula = "k_s = (k_w − k_rest (rubber, gas, bag, stop) − F_s r′) / r²";
    let along = "along the spring; for a torsion bar, vertically at the end of the arm";
    let spring = like(
        "sizing.spring_rate",
        tr("spring rate for the target frequency"),
        Dim::SpringRate,
        along,
        formula,
        "DERIVED",
    );
    out.band(
        spring,
        of,
        |a| Some(a.sizing.as_ref()?.spring_rate),
        |end| {
            let sizing = of.axle.sizing.as_ref().filter(|s| s.open_helper.is_none())?;
            Some(fitted::rate_at_the_spring(sizing, end.of(&sizing.wheel_rate)))
        },
    );
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
    let like = like(
        &format!("{}.sizing.settling", of.key()),
        tr("settling until the allowance is used up"),
        Dim::Length,
        "at the wheel",
        "allowance k_s r / k_w",
        "DERIVED",
    );
    let put_in = || -> Option<Vec<Substitution>> {
        let (bought, new) = (of.part?.parts().spring.as_ref()?, of.axle.standing.new.as_ref()?);
        Some(vec![
            ("allowance", si(bought.order_length.and(bought.allowance))?, Dim::Length),
            ("k_s", new.spring_rate.si(), Dim::SpringRate),
            ("r", new.curve.spring_length.ratio(new.travel).si(), Dim::Ratio),
            ("k_w", new.wheel_rate.si(), Dim::SpringRate),
        ])
    };
    let with = put_in();
    let si = with.as_ref().map(|w| w[0].1 * w[1].1 * w[2].1 / w[3].1);
    let named = Figure { name: format!("{}{}", of.words(), like.label), ..like };
    out.put(Figure { with: with.unwrap_or_default(), ..named }, si, None);
}

/// The diameters of a torsion bar for the wanted range.
fn bar_diameter(out: &mut Out, of: OfAxle<'_>) {
    let formula = "d = (32 l k_θ / (π G) + d_i⁴)^¼";
    let bar = like(
        "sizing.bar.diameter",
        tr("bar diameter for the target frequency"),
        Dim::Length,
        "between the splines",
        formula,
        "SHI",
    );
    let bought = of.part.and_then(|part| part.parts().spring.as_ref()?.bar);
    out.bought_band(
        bar,
        of,
        |p| Some(p.spring?.bar?.diameter),
        |end| {
            let choice = bought?;
            Some(vec![
                ("l", choice.bar.length_m, Dim::Length),
                ("k_θ", end.of(&choice.twist_rate), Dim::TwistRate),
                ("G", choice.bar.shear_modulus_pa, Dim::Stress),
                ("d_i", choice.bar.inside_m, Dim::Length),
            ])
        },
    );
}
