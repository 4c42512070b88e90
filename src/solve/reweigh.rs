//! The springs as fitted: what scales and tape should show, and what they do.

use crate::base::units::{Length, Mass, Quantity, Ratio};
use crate::job::read::Read;
use crate::job::{PerAxle, Side};
use crate::solve::answer::{Again, AxleAnswer, Corners, Reweigh, State, Vehicle, Weighed, Whole, cross_weight};
use crate::solve::read::Reading;

/// What was predicted, and what was found.
pub(super) fn solve(reading: &Reading<'_>, vehicle: &Vehicle, axles: PerAxle<&AxleAnswer>) -> Reweigh {
    let Vehicle { after, compared, whole, .. } = vehicle;
    let fitted = &reading.job.fitted;
    let read = |entry: &Read<Mass>| reading.typed(entry);
    let corners = [&fitted.lf, &fitted.rf, &fitted.lr, &fitted.rr].map(read);
    let arch: [Option<Length>; 4] =
        [&fitted.arch.lf, &fitted.arch.rf, &fitted.arch.lr, &fitted.arch.rr].map(|e| reading.typed(e));
    let share: Option<Ratio> = reading.known(&reading.job.limits.fitted_weight);
    let height: Option<Length> = reading.known(&reading.job.limits.fitted_height);
    let weight_of = |foretold: Option<Mass>, found: Option<Mass>| Again {
        foretold,
        found,
        within: foretold.zip(share).map(|(m, share)| m * share.si()),
    };
    let cross_set = cross_is_off(reading, after, whole);
    let foretold = corners_foretold(reading, after, whole, cross_set);
    let axle = |side: Side, typed: &Read<Mass>| {
        let [left, right] = side.corners().map(|corner| corners[corner]);
        let pair = left.zip(right).map(|(l, r)| l + r);
        // Not weighed after: what the ledger predicts.
        weight_of(after.axle(side).or(compared.stood.after[side]), pair.or_else(|| read(typed)))
    };
    let heights = axles.both().map(|axle| arch_foretold(reading, axle));
    let on_corners = whole.corners.new.map(|c| c.arch);
    let all = corners.iter().flatten().count() == 4;
    let [lf, rf, lr, rr] = corners.map(Option::unwrap_or_default);
    Reweigh {
        corners: std::array::from_fn(|i| weight_of(foretold.map(|f| f[i]), corners[i])),
        axles: PerAxle { front: axle(Side::Front, &fitted.front), rear: axle(Side::Rear, &fitted.rear) },
        arch: std::array::from_fn(|i| Again {
            foretold: on_corners.map_or(heights[i / 2], |arch| arch.walk()[i]),
            found: arch[i],
            within: height,
        }),
        cross_weight: Again {
            foretold: foretold.map(|[lf, rf, lr, rr]| cross_weight(&Corners { lf, rf, lr, rr })),
            found: all.then(|| cross_weight(&Corners { lf, rf, lr, rr })),
            within: reading.known(&reading.job.limits.cross),
        },
        cross_set,
    }
}

/// Cross weight is further from what is wanted than the shop likes, and it is known what sets it right.
fn cross_is_off(reading: &Reading<'_>, after: &Weighed, whole: &Whole) -> bool {
    let limit: Option<Ratio> = reading.known(&reading.job.limits.cross);
    let wanted: Option<Ratio> = reading.known(&reading.job.chassis.cross_wanted);
    let read = || whole.level.after.as_ref().map(cross_weight).or(after.cross_weight);
    let is = whole.corners.new.map(|c| c.cross_weight).or_else(read);
    let off = is.zip(wanted).zip(limit).is_some_and(|((is, wanted), limit)| (is - wanted).si().abs() > limit.si());
    off && whole.cross.is_some()
}

/// What the corners carry on the springs as fitted, or after the cross weight was set; where no spring is changed, what was
/// weighed after.
fn corners_foretold(reading: &Reading<'_>, after: &Weighed, whole: &Whole, cross_set: bool) -> Option<[Mass; 4]> {
    let set = whole.cross.filter(|_| cross_set).map(|c| c.corners);
    let fitted = whole.corners.new.map(|c| c.weight);
    let is_left = Side::BOTH.into_iter().all(|side| reading.texts.axle(side).leaves_springs());
    let as_weighed = || whole.level.after.or(after.corners).filter(|_| is_left);
    Some(set.or(fitted).or_else(as_weighed)?.walk())
}

/// Hub to arch on the springs as fitted, with what stood on the scales: from the height before, or from that on the
/// old springs after. Source `DERIVED`.
fn arch_foretold(reading: &Reading<'_>, axle: &AxleAnswer) -> Option<Length> {
    let fitted = axle.on_scales(State::NewSprings, State::NewSprings)?;
    let from = |state: State| {
        let arch = reading.arch_mean(axle.side, state == State::Before)?;
        Some(arch + axle.on_scales(state, state)? - fitted)
    };
    from(State::Before).or_else(|| from(State::OldSprings))
}
