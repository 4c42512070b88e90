//! Runs of both axles on the shaking plate of a suspension bench, when they are asked for.

use crate::job::{Job, PerAxle, Side, bounded};
use crate::solve::answer::{Answer, PerState, State};
use crate::solve::read::Reading;
use crate::solve::road::{NoRuns, wheel};
pub use crate::trade::bench::AMPLITUDE_M;
use crate::trade::bench::plate;
pub use crate::trade::bench::plate::Shaken;

/// A run of each axle in each state; `None` for an axle that is not known.
pub type PlateRuns = PerState<PerAxle<Option<Shaken>>>;

/// Shakes each axle on the plate: before, on the old springs, on the new.
///
/// `watch` gets the share done, 0 to 1, now and then; `false` stops it.
///
/// # Errors
/// [`NoRuns`]: stopped, not enough is known, or too stiff to follow.
pub fn shake(job: &Job, answer: &Answer, mut watch: impl FnMut(f64) -> bool) -> Result<PlateRuns, NoRuns> {
    let used = bounded::used(job);
    let reading = Reading::of(&used);
    let all = State::ALL.len() * Side::BOTH.len();
    let (mut runs, mut done) = (PlateRuns::default(), 0);
    for state in State::ALL {
        for side in Side::BOTH {
            let shaken = wheel(&reading, answer.axle(side), state)
                .map(|wheel| plate::shake(&wheel, |share| watch((done as f64 + share) / all as f64)))
                .transpose()?;
            runs.of_mut(state)[side] = shaken;
            done += 1;
        }
    }
    let is_known = State::ALL.iter().any(|state| runs.of(*state).as_ref().both().iter().any(|run| run.is_some()));
    if is_known { Ok(runs) } else { Err(NoRuns::NotKnown) }
}
