//! What the linkage of an axle says.

use std::sync::Arc;

use super::{PerState, State};
use crate::base::units::{Angle, Length, Ratio, RatioSlope};
use crate::trade::linkage::{Alignment, Fault, Mounts, Sweep, TieRod, TravelEnds};

/// The motion ratio of a spring or damper at the reference height by each way that measures the linkage, and by rows;
/// whichever counts.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RatioWays {
    /// By points.
    pub points: Option<Ratio>,
    /// How it changes with travel there, by points.
    pub points_slope: Option<RatioSlope>,
    /// Length between its own points.
    pub points_length: Option<Length>,
    /// Where its travel ends, by points.
    pub ends: TravelEnds,
    /// Why its points give no ratio.
    pub fault: Option<Fault>,
    /// By the lengths of the arm.
    pub arm: Option<Ratio>,
    /// Why these give none.
    pub arm_fault: Option<Fault>,
    /// By rows.
    pub rows: Option<Ratio>,
    /// Length at the reference height, by rows.
    pub rows_length: Option<Length>,
}

/// What the linkage says, by its points or the lengths of its arm.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LinkageFacts {
    /// Of the spring.
    pub spring: RatioWays,
    /// Of the damper.
    pub damper: RatioWays,
    /// Why the points are no linkage.
    pub fault: Option<Fault>,
    /// The wheel at the reference height.
    pub reference: Option<Alignment>,
    /// The wheel at the three heights, against the reference height.
    pub at: PerState<Option<Alignment>>,
    /// The roll centre of a beam axle by its Panhard rod or leaf.
    pub beam_roll_centre: Option<Length>,
    /// The linkage over its travel, to draw it.
    pub sweep: Option<Arc<Sweep>>,
    /// Where the spring is fixed.
    pub spring_mounts: Option<Mounts>,
    /// Where the damper is fixed.
    pub damper_mounts: Option<Mounts>,
    /// Its tie rod.
    pub tie_rod: Option<TieRod>,
}

/// How far an alignment moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AlignmentMoved {
    /// Camber, + with the top outward.
    pub camber: Angle,
    /// Toe of one wheel, + in.
    pub toe: Option<Angle>,
    /// Track, both sides.
    pub track: Length,
}

impl LinkageFacts {
    /// The wheel before; where that is not known, at the reference height.
    pub fn was(&self) -> Option<&Alignment> {
        self.at.before.as_ref().or(self.reference.as_ref())
    }

    /// How far the wheel's alignment moved from before to a state.
    pub fn moved_by(&self, state: State) -> Option<AlignmentMoved> {
        let (now, was) = (self.at.of(state).as_ref()?, self.was()?);
        Some(AlignmentMoved {
            camber: now.camber - was.camber,
            toe: now.toe.zip(was.toe).map(|(now, was)| now - was),
            track: (now.half_track - was.half_track) * 2.0,
        })
    }

    /// Height of the roll centre above the ground in a state.
    pub fn roll_centre(&self, state: State) -> Option<Length> {
        self.at.of(state).as_ref().or(self.reference.as_ref()).map(|a| a.roll_centre).or(self.beam_roll_centre)
    }
}
