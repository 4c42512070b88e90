//! Solved once per change of job or voice: the answer and all that is drawn from it.

use crate::job::{Job, Side};
use crate::language::{Voice, spoken};
use crate::report::dampers;
use crate::report::figures::{self, Figure};
use crate::report::motion;
use crate::report::picture::{self, Picture};
use crate::report::rows::{self, Part};
use crate::report::sentence::{self, Sentence};
use crate::report::{Block, options, road};
use crate::solve::answer::Answer;
use crate::solve::solve;

/// What the screens show of one job.
#[derive(Debug, Clone)]
pub struct Shown {
    /// The answer.
    pub answer: Answer,
    /// One sentence per axle.
    pub sentences: [Sentence; 2],
    /// Every result.
    pub figures: Vec<Figure>,
    /// Load against travel, per axle.
    pub load_travel: [Option<Picture>; 2],
    /// Frequency against rate, per axle.
    pub frequency_rate: [Option<Picture>; 2],
    /// Rows of the spring's motion ratio, per axle.
    pub ratio_rows: [Vec<Picture>; 2],
    /// Rows of the damper's motion ratio, per axle.
    pub damper_rows: [Vec<Picture>; 2],
    /// Damper force against speed, per axle.
    pub force_speed: [Option<Picture>; 2],
    /// Rear against front frequency.
    pub rear_front: Option<Picture>,
    /// Front and rear after one hump.
    pub after_hump: Option<Picture>,
    /// Comfort against grip over the damping ratio, per axle.
    pub trade: [Option<Picture>; 2],
    /// What the money buys, per axle.
    pub remedies: [Vec<Block>; 2],
}

/// Remembers the last job by value, and in which voice its texts are.
#[derive(Debug, Clone)]
pub struct Memo {
    job: Job,
    voice: Voice,
    shown: Shown,
    solves: u64,
}

impl Memo {
    /// Solves a job.
    pub fn new(job: &Job) -> Self {
        Memo { job: job.clone(), voice: spoken(), shown: show(job), solves: 1 }
    }

    /// Solves again only if the job or the voice is another one.
    pub fn update(&mut self, job: &Job) {
        if self.job != *job || self.voice != spoken() {
            self.job = job.clone();
            self.voice = spoken();
            self.shown = show(job);
            self.solves += 1;
        }
    }

    /// The job that was solved.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// What to show.
    pub fn shown(&self) -> &Shown {
        &self.shown
    }

    /// How often was solved since the start.
    pub fn solves(&self) -> u64 {
        self.solves
    }
}

fn show(job: &Job) -> Shown {
    let answer = solve(job);
    let per_axle = |f: fn(&crate::solve::answer::AxleAnswer, &crate::units::UnitChoice) -> Option<Picture>| {
        Side::BOTH.map(|side| f(answer.axle(side), &job.units))
    };
    let rows_of =
        |part: Part| Side::BOTH.map(|side| rows::pictures(answer.axle(side), answer.checked(side), part, &job.units));
    Shown {
        sentences: Side::BOTH.map(|side| sentence::axle(&answer, answer.axle(side), &job.units)),
        figures: figures::figures(&answer),
        load_travel: per_axle(picture::load_travel),
        frequency_rate: per_axle(picture::frequency_rate),
        ratio_rows: rows_of(Part::Spring),
        damper_rows: rows_of(Part::Damper),
        force_speed: per_axle(dampers::force_speed),
        rear_front: motion::rear_front(&answer),
        after_hump: motion::after_hump(&answer, &job.units),
        trade: Side::BOTH.map(|side| road::trade(&answer, side)),
        remedies: Side::BOTH.map(|side| options::remedies(&answer, side, &job.units, &job.prices.currency)),
        answer,
    }
}
