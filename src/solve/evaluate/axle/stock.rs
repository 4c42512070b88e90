//! Stock sizes inside a range: whole multiples of a step.

use crate::base::units::{Quantity, SpringRate};
use crate::solve::answer::{Band, StockRates};

/// First and last whole multiple of `step` inside the band, its ends included; `None` when none lies inside.
pub(in crate::solve) fn multiples_inside<Q: Quantity>(band: &Band<Q>, step: Q) -> Option<[f64; 2]> {
    // Room for rounding in the last digits.
    const SLACK: f64 = 1e-9;
    let first = (band.low.si() / step.si() - SLACK).ceil().max(1.0);
    let last = (band.high.si() / step.si() + SLACK).floor();
    (last >= first).then_some([first, last])
}

/// The whole multiple of `step` to buy: of those inside the band the nearest to its aim; with none inside the nearest of
/// all, at least one step.
pub(in crate::solve) fn stock_pick<Q: Quantity>(band: &Band<Q>, step: Q) -> Q {
    let nearest = (band.aim.si() / step.si()).round().max(1.0);
    let count = multiples_inside(band, step).map_or(nearest, |[first, last]| nearest.clamp(first, last));
    Q::from_si(step.si() * count)
}

/// Inside, the ends included, with room for rounding in the last digits.
pub(in crate::solve) fn is_inside(rate: SpringRate, band: &Band<SpringRate>) -> bool {
    let slack = 1e-9 * rate.si();
    rate.si() >= band.low.si() - slack && rate.si() <= band.high.si() + slack
}

/// The stock rates inside the band; `None` when there is none.
pub(in crate::solve) fn stock_inside(band: &Band<SpringRate>, step: SpringRate) -> Option<StockRates> {
    let [first, last] = multiples_inside(band, step)?;
    let count = ((last - first) as usize).saturating_add(1);
    Some(StockRates { step, lowest: step * first, highest: step * last, count, lengths: None })
}
