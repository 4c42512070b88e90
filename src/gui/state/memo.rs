//! Solved once per change of job or voice: the answer and all that is drawn from it.

use std::cell::LazyCell;
use std::rc::Rc;

use crate::base::language::{Voice, spoken};
use crate::job::{Job, Side};
use crate::report::Block;
use crate::report::pictures::motion;
use crate::report::pictures::picture::{self, Picture};
use crate::report::pictures::rows::{self, Part};
use crate::report::pictures::shift;
use crate::report::results::Results;
use crate::report::sections::brief::{self, Brief};
use crate::report::sections::damper_tables;
use crate::report::sections::load_tables;
use crate::report::sections::remedy_tables;
use crate::report::sections::road_tables;
use crate::report::sections::sentence::{self, Sentence};
use crate::report::sections::vehicle_tables;
use crate::report::sheets::sheet;
use crate::solve::answer::Answer;
use crate::solve::solve;

/// Built when a screen first looks at it.
pub type Later<T> = LazyCell<T, Box<dyn FnOnce() -> T>>;

/// What the screens show of one job. Most of it stands on one screen only and is not built for the others.
#[derive(Debug)]
pub struct Shown {
    /// The answer.
    pub answer: Rc<Answer>,
    /// One sentence per axle.
    pub sentences: [Sentence; 2],
    /// The same in one line per axle.
    pub briefs: [Brief; 2],
    /// Every result.
    pub results: Rc<Later<Results>>,
    /// Height against frequency, per axle.
    pub shift: [Later<Option<Picture>>; 2],
    /// Load against travel, per axle.
    pub load_travel: [Later<Option<Picture>>; 2],
    /// Frequency against rate, per axle.
    pub frequency_rate: [Later<Option<Picture>>; 2],
    /// Rows of the spring's motion ratio, per axle.
    pub ratio_rows: [Later<Vec<Picture>>; 2],
    /// Rows of the damper's motion ratio, per axle.
    pub damper_rows: [Later<Vec<Picture>>; 2],
    /// Damper force against speed, per axle.
    pub force_speed: [Later<Option<Picture>>; 2],
    /// Rear against front frequency.
    pub rear_front: Later<Option<Picture>>,
    /// Front and rear after one hump.
    pub after_hump: Later<Option<Picture>>,
    /// Comfort against grip over the damping ratio, per axle.
    pub trade: [Later<Option<Picture>>; 2],
    /// What the money buys, per axle.
    pub remedies: [Later<Vec<Block>>; 2],
    /// Pitch.
    pub nose_and_tail: Later<Vec<Block>>,
    /// Roll.
    pub bends: Later<Vec<Block>>,
    /// What the four corners ask for.
    pub corners: Later<Vec<Block>>,
    /// The load cases.
    pub cases: Later<Vec<Block>>,
    /// Each axle in full.
    pub axles: [Later<Vec<Block>>; 2],
}

/// Remembers the last job by value, and in which voice its texts are.
#[derive(Debug)]
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
    let answer = Rc::new(solve(job));
    let (units, currency) = (job.units, Rc::<str>::from(job.prices.currency.as_str()));
    let all = &answer;
    let sentences = Side::BOTH.map(|side| sentence::axle(&answer, answer.axle(side), &units));
    let results = Rc::new(later(all, Results::of));
    let with = &results;
    Shown {
        briefs: Side::BOTH.map(|side| brief::axle(&answer, side, &sentences[side as usize].answer, &units)),
        sentences,
        results: Rc::clone(&results),
        shift: per_axle(all, move |a, side| shift::shift(a, side, &units)),
        load_travel: per_axle(all, move |a, side| picture::load_travel(a.axle(side), &units)),
        frequency_rate: per_axle(all, move |a, side| picture::frequency_rate(a, side, &units)),
        ratio_rows: per_axle(all, move |a, side| rows::pictures(a.axle(side), a.checked(side), Part::Spring, &units)),
        damper_rows: per_axle(all, move |a, side| rows::pictures(a.axle(side), a.checked(side), Part::Damper, &units)),
        force_speed: per_axle(all, move |a, side| damper_tables::force_speed(a, side, &units)),
        rear_front: later(all, motion::rear_front),
        after_hump: later(all, move |a| motion::after_hump(a, &units)),
        trade: per_axle(all, road_tables::trade),
        remedies: per_axle_of(all, with, move |a, r, side| remedy_tables::remedies(a, r, side, &units, &currency)),
        nose_and_tail: later_of(all, with, move |a, r| vehicle_tables::nose_and_tail(a, r, &units)),
        bends: later_of(all, with, move |a, r| vehicle_tables::bends(a, r, &units)),
        corners: later(all, move |a| vehicle_tables::corners(a, &units)),
        cases: later_of(all, with, move |a, r| load_tables::cases(a, r, &units)),
        axles: per_axle_of(all, with, move |a, r, side| sheet::axle(a, r, side, &units)),
        answer,
    }
}

fn later<T>(answer: &Rc<Answer>, make: impl FnOnce(&Answer) -> T + 'static) -> Later<T> {
    let answer = Rc::clone(answer);
    LazyCell::new(Box::new(move || make(&answer)))
}

/// The same with its results by key.
fn later_of<T>(
    answer: &Rc<Answer>,
    results: &Rc<Later<Results>>,
    make: impl FnOnce(&Answer, &Results) -> T + 'static,
) -> Later<T> {
    let results = Rc::clone(results);
    later(answer, move |answer| make(answer, &results))
}

fn per_axle_of<T>(
    answer: &Rc<Answer>,
    results: &Rc<Later<Results>>,
    make: impl Fn(&Answer, &Results, Side) -> T + Clone + 'static,
) -> [Later<T>; 2] {
    Side::BOTH.map(|side| {
        let make = make.clone();
        later_of(answer, results, move |answer, results| make(answer, results, side))
    })
}

fn per_axle<T>(answer: &Rc<Answer>, make: impl Fn(&Answer, Side) -> T + Clone + 'static) -> [Later<T>; 2] {
    Side::BOTH.map(|side| {
        let make = make.clone();
        later(answer, move |answer| make(answer, side))
    })
}
