//! The band of spring rates of one axle, for the wanted frequency.

use super::{AT_WHEEL, fitted, spring_results};
use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::job::SpringKind;
use crate::report::results::collect::{End, OfAxle, Out, like};
use crate::report::results::row::si;
use crate::report::results::{By, Figure, Substitution};
use crate::solve::answer::AxleAnswer;

pub(super) fn size(out: &mut Out, of: OfAxle<'_>) {
    let practice = "as named, or as before";
    let frequency =
        like("sizing.frequency", tr("wanted ride frequency"), Dim::Frequency, "on springs", practice, "PRACTICE");
    let frequency = Figure { by: By::Reading, ..frequency };
    out.band(frequency, of, |a| Some(a.sizing.as_ref()?.frequency), |_| None);
    let wheel =
        like("sizing.wheel_rate", tr("wheel rate for it"), Dim::SpringRate, AT_WHEEL, "k_w = m_s (2π f)²", "GIL");
    let sizing = of.axle.sizing.as_ref();
    let sprung = si(of.axle.sprung_after);
    out.band(
        wheel,
        of,
        |a| Some(a.sizing.as_ref()?.wheel_rate),
        |end| Some(vec![("m_s", sprung?, Dim::Mass), ("f", end.of(&sizing?.frequency), Dim::Frequency)]),
    );
    let formula = "k_s = (k_w − k_rest (rubber, gas, bag, stop) − F_s r′) / r²";
    let along = "along the spring; of a bar, upright at the arm's end";
    let spring = like("sizing.spring_rate", tr("spring rate for it"), Dim::SpringRate, along, formula, "DERIVED");
    out.band(spring, of, |a| Some(a.sizing.as_ref()?.spring_rate), |end| for_rate(of.axle, end));
    out.part("sizing", "", fitted::SIZING, of, |a| a.sizing.as_ref());
    out.part("sizing.same_factor", "", fitted::SAME_FACTOR, of, |a| a.same_factor.as_ref());
    out.bought("sizing", "", fitted::TO_BUY, of, |p| p.spring.as_ref());
    out.bought("sizing.spacer", "", fitted::SPACER, of, |p| p.spacer.as_ref());
    let formula = "d = (32 l k_θ / (π G) + d_i⁴)^¼";
    let bar =
        like("sizing.bar.diameter", tr("bar diameter for it"), Dim::Length, "between the splines", formula, "SHI");
    out.bought_band(bar, of, |p| Some(p.spring?.bar?.diameter), |_| None);
    out.bought("sizing.bar", "", spring_results::BAR_CHOICE, of, |p| p.spring.as_ref()?.bar.as_ref());
}

/// What a spring rate comes from, at the wanted height, when it is along one coil or leaf.
fn for_rate(axle: &AxleAnswer, end: End) -> Option<Vec<Substitution>> {
    let plain = matches!(axle.kind, SpringKind::Coil | SpringKind::Leaf | SpringKind::Progressive);
    let (sizing, new) = axle.sizing.as_ref().zip(axle.standing.new.as_ref()).filter(|_| plain)?;
    let (curve, z) = (&new.curve, sizing.wanted_travel);
    let ratio = curve.spring_length.ratio(z).si();
    let geometry = sizing.spring_force.si() * curve.spring_length.slope(z).value;
    let stop = curve.stop.as_ref().map_or(0.0, |s| s.rate_n_per_m(z.si()));
    let rest = curve.other_rate_n_per_m(z.si()) + stop;
    Some(vec![
        ("k_w", end.of(&sizing.wheel_rate), Dim::SpringRate),
        ("k_rest", rest, Dim::SpringRate),
        ("F_s r′", geometry, Dim::SpringRate),
        ("r", ratio, Dim::Ratio),
    ])
}
