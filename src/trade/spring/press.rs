//! A coil spring by a press: two loads at two lengths.

use crate::base::units::{Force, Length, Quantity, SpringRate};

/// Rate k = |ΔF / ΔL| between two readings that bracket the fitted length; never from the free length, where
/// the end coils are not yet at work. `None` when the lengths are equal or the longer one carries more.
///
/// A gauge that shows a share too much does so in both loads: that error does not fall out of the difference.
/// Source `DERIVED` (definition of the rate).
pub fn rate(first: (Length, Force), second: (Length, Force)) -> Option<SpringRate> {
    let k = (second.1 - first.1).si() / (first.0 - second.0).si();
    (k.is_finite() && k > 0.0).then(|| SpringRate::from_si(k))
}
