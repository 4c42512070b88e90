//! The vehicle as it was solved, on other springs of one axle: left and right need not be alike.

use crate::job::{Job, Side};
use crate::solve::answer::{Answer, SidesStand, State};
use crate::solve::evaluate::on_corners;
use crate::solve::evaluate::pitch_and_roll::{RestsOn, Vehicle};
use crate::solve::read::Reading;
use crate::trade::wheel::ForceTravel;

/// One axle to be put on other springs.
pub struct OtherSprings<'a> {
    reading: Reading<'a>,
    answer: &'a Answer,
    side: Side,
}

impl<'a> OtherSprings<'a> {
    /// Of a job and its answer.
    pub fn of(job: &'a Job, answer: &'a Answer, side: Side) -> Self {
        OtherSprings { reading: Reading::of(job), answer, side }
    }

    /// Where it is on these curves, left and right, under the load that springs are sized on. `None` where the four corners
    /// are not known.
    pub fn stand(&self, curves: [ForceTravel; 2]) -> Option<SidesStand> {
        let answer = self.answer;
        let axles = answer.axles.as_ref();
        let on = RestsOn { axles, before: &answer.before, after: &answer.after, compared: &answer.compared };
        let vehicle = Vehicle::read(&self.reading, on, State::NewSprings)?;
        on_corners::on_other_springs(&vehicle, &answer.whole.level, self.side, curves)
    }
}
