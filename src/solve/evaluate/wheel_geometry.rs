//! What the linkage of an axle says: its motion ratio by every way that was measured, and the wheel at the three heights.

use crate::base::units::{Length, Quantity};
use crate::job::Side;
use crate::job::read::RatioRow;
use crate::solve::answer::{LinkageFacts, PerState, RatioWays, Standing, State};
use crate::solve::read::{Moves, Reading};
use crate::trade::linkage::Mounts;
use crate::trade::wheel::LengthCurve;

/// Results of an axle's linkage at its equilibrium.
pub(in crate::solve) fn facts(
    reading: &Reading<'_>,
    side: Side,
    standing: &PerState<Option<Standing>>,
) -> LinkageFacts {
    let axle = reading.job.axle(side);
    let swept = reading.sweep(side);
    let rod = reading.tie_rod(axle);
    let at = |travel: Length| swept.as_ref()?.as_ref().ok()?.alignment(travel, rod.as_ref());
    LinkageFacts {
        spring: ways(reading, side, Moves::Spring),
        damper: ways(reading, side, Moves::Damper),
        fault: swept.as_ref().and_then(|s| s.as_ref().err().copied()),
        reference: at(Length::from_si(0.0)),
        at: PerState::each(|state: State| at(standing.of(state).as_ref()?.travel)),
        beam_roll_centre: reading.beam_roll_centre(axle),
        sweep: swept.as_ref().and_then(|s| s.as_ref().ok().cloned()),
        spring_mounts: swept.as_ref().and_then(|_| reading.mounts(axle, Moves::Spring)),
        damper_mounts: swept.as_ref().and_then(|_| reading.mounts(axle, Moves::Damper)),
        tie_rod: rod,
    }
}

fn ways(reading: &Reading<'_>, side: Side, moves: Moves) -> RatioWays {
    let (reference, axle) = (Length::from_si(0.0), reading.job.axle(side));
    let mut ways = RatioWays::default();
    match reading.by_points(side, moves) {
        Some(Ok((curve, ends))) => {
            (ways.points, ways.points_slope) = (Some(curve.ratio(reference)), Some(curve.slope(reference)));
            let apart = matches!(reading.mounts(axle, moves), Some(Mounts::Apart(..)));
            ways.points_length = apart.then(|| curve.length(reference));
            ways.ends = ends;
        }
        Some(Err(fault)) => ways.fault = Some(fault),
        None => {}
    }
    match reading.by_arm(side, moves) {
        Some(Ok(ratio)) => ways.arm = Some(ratio),
        Some(Err(fault)) => ways.arm_fault = Some(fault),
        None => {}
    }
    let ratio = moves.ratio(axle);
    // Rows stand beside another way of the same linkage; alone they are the motion ratio itself.
    if (ways.points.is_some() || ways.arm.is_some()) && !ratio.rows.iter().all(RatioRow::is_blank) {
        let curve = reading.points(ratio).and_then(|points| LengthCurve::from_points(&points));
        if let Some(curve) = curve.filter(|c| c.ratio_at_reference() > 0.0) {
            (ways.rows, ways.rows_length) = (Some(curve.ratio(reference)), Some(curve.length(reference)));
        }
    }
    ways
}
