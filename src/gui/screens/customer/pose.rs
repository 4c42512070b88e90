//! The pose of the vehicle at this moment: at rest, or on its way over the hump.

use crate::base::units::Quantity;
use crate::gui::background::riding::{Progress, Riding};
use crate::gui::state::Cx;
use crate::job::{PerAxle, Side};
use crate::report::sheets::Stage;
use crate::solve::answer::OverRoad;
use crate::solve::road::{Driven, Ride, SAMPLE_S, Track};

/// The vehicle at a moment.
pub(super) struct Pose<'a> {
    /// Change of the body's height from before, + up, m.
    pub height_m: PerAxle<Option<f64>>,
    /// The body against rest, + up, m.
    pub body_m: PerAxle<f64>,
    /// The wheels against rest, + up, m.
    pub wheel_m: PerAxle<f64>,
    /// Wheel travel left to the bump stop, m.
    pub room_m: PerAxle<Option<f64>>,
    /// The road, while it is driven.
    pub road: Option<Road<'a>>,
}

/// The road under a wheel, and how far it has come.
pub(super) struct Road<'a> {
    /// The end.
    pub end: Side,
    track: &'a Track,
    here: f64,
    m_per_sample: f64,
}

impl Road<'_> {
    /// Height, m, so far ahead of the wheel, m.
    pub fn height_m(&self, ahead_m: f64) -> f64 {
        let road = &self.track.road_m;
        let last = road.len().saturating_sub(1);
        let at = (self.here + ahead_m / self.m_per_sample).clamp(0.0, last as f64);
        let (low, share) = (at.floor() as usize, at.fract());
        let height = |i: usize| road.get(i.min(last)).copied().unwrap_or(0.0);
        height(low) * (1.0 - share) + height(low + 1) * share
    }
}

impl<'a> Pose<'a> {
    pub fn of(cx: &Cx<'a>, stage: &Stage) -> Pose<'a> {
        let ends = &stage.ends;
        let mut pose = Pose {
            height_m: ends.as_ref().map(|end| end.height_m),
            body_m: PerAxle::default(),
            wheel_m: PerAxle::default(),
            room_m: ends.as_ref().map(|end| end.room_m),
            road: None,
        };
        let playing = cx.riding.is_playing() && cx.riding.over() == OverRoad::Hump;
        if let Some((driven, ride)) = ride(cx, stage).filter(|_| playing) {
            pose.drive(driven, ride, cx.riding.at_s());
        }
        pose
    }

    fn drive(&mut self, driven: &'a Driven, ride: &'a Ride, at_s: f64) {
        let here = (Riding::shown_s(OverRoad::Hump).1 + at_s) / SAMPLE_S;
        for (end, track) in Side::BOTH.into_iter().zip(&ride.runs) {
            let Some(track) = track else { continue };
            let at = |of: &[f64]| of.get(here.round() as usize).or(of.last()).copied().unwrap_or(0.0);
            (self.body_m[end], self.wheel_m[end]) = (at(&track.body_m), at(&track.wheel_m));
            self.height_m[end] = self.height_m[end].map(|height| height - at(&track.pressed_m));
            self.room_m[end] = self.room_m[end].map(|room| room - at(&track.pressed_m));
            if self.road.is_none() {
                let m_per_sample = (driven.speed.si() * SAMPLE_S).max(1e-6);
                self.road = Some(Road { end, track, here, m_per_sample });
            }
        }
    }
}

/// The run that shows a step, if there is one for the current job.
fn ride<'a>(cx: &Cx<'a>, stage: &Stage) -> Option<(&'a Driven, &'a Ride)> {
    let driven = cx.riding.found()?.as_ref().ok()?;
    let ride = driven.over[OverRoad::Hump as usize].of(stage.driven?).as_ref()?;
    (cx.riding.progress() == Progress::Current).then_some((driven, ride))
}

/// A run shows this step, or may yet come.
pub(super) fn may_be_driven(cx: &Cx<'_>, stage: &Stage) -> bool {
    let is_coming = matches!(cx.riding.progress(), Progress::Running(_) | Progress::Resting);
    stage.driven.is_some() && (is_coming || ride(cx, stage).is_some())
}
