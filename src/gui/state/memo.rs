//! Solved once per change of the job: the answer and all that is drawn from it. Another voice shows the same answer.
//!
//! In a window the whole answer is found in the background, in a few milliseconds. A frame that comes earlier shows the
//! values alone, marked as coming.

use std::cell::LazyCell;
use std::rc::Rc;
use std::sync::Arc;

use eframe::egui;

use crate::base::language::{Voice, spoken};
use crate::base::units::UnitChoice;
use crate::gui::background::worker::{Ended, Worker};
use crate::job::{Job, PerAxle, Side};
use crate::report::Block;
use crate::report::pictures::corners::Aim;
use crate::report::pictures::corners::from_above::{FromAbove, from_above};
use crate::report::pictures::corners::from_behind::{FromBehind, from_behind};
use crate::report::pictures::force_speed;
use crate::report::pictures::linkage_drawn;
use crate::report::pictures::motion::{self, hump};
use crate::report::pictures::on_road;
use crate::report::pictures::picture::{self, Picture};
use crate::report::pictures::rows::{self, Part};
use crate::report::pictures::shift;
use crate::report::results::Results;
use crate::report::sections::axle_tables;
use crate::report::sections::bench_tables;
use crate::report::sections::brief::{self, Brief};
use crate::report::sections::corner_tables;
use crate::report::sections::damper_tables;
use crate::report::sections::load_tables;
use crate::report::sections::record_tables;
use crate::report::sections::remedy_tables;
use crate::report::sections::road_tables;
use crate::report::sections::sentence::{self, Sentence};
use crate::report::sections::spring_tables;
use crate::report::sections::vehicle_tables;
use crate::solve::answer::Answer;
use crate::solve::{solve, solve_values};

/// Built when a screen first looks at it.
pub type Later<T> = LazyCell<T, Box<dyn FnOnce() -> T>>;

/// What the screens show of one job. Most of it is on one screen only and is not built for the others.
#[derive(Debug)]
pub struct Shown {
    /// The answer.
    pub answer: Arc<Answer>,
    /// One sentence per axle.
    pub sentences: PerAxle<Sentence>,
    /// The same in one line per axle.
    pub briefs: PerAxle<Brief>,
    /// Every result.
    pub results: Arc<Results>,
    /// Height against frequency, per axle.
    pub shift: PerAxle<Later<Option<Picture>>>,
    /// The old spring in numbers, per axle.
    pub old_spring: PerAxle<Later<Option<Block>>>,
    /// The new springs in numbers, per axle.
    pub springs: PerAxle<Later<Vec<Block>>>,
    /// Load against travel, per axle.
    pub load_travel: PerAxle<Later<Option<Picture>>>,
    /// Frequency against rate, per axle.
    pub frequency_rate: PerAxle<Later<Option<Picture>>>,
    /// Rows of the spring's motion ratio, per axle.
    pub ratio_rows: PerAxle<Later<Vec<Picture>>>,
    /// What the linkage does over its travel, per axle.
    pub linkage: PerAxle<Later<Vec<Picture>>>,
    /// Rows of the damper's motion ratio, per axle.
    pub damper_rows: PerAxle<Later<Vec<Picture>>>,
    /// The damper in numbers, per axle.
    pub dampers: PerAxle<Later<Vec<Block>>>,
    /// Damper force against speed, per axle.
    pub force_speed: PerAxle<Later<Option<Picture>>>,
    /// Rear ÷ front frequency.
    pub rear_front: Later<Option<Picture>>,
    /// Front and rear after one hump.
    pub after_hump: Later<Option<Picture>>,
    /// Comfort against grip over the damping ratio, per axle.
    pub trade: PerAxle<Later<Option<Picture>>>,
    /// What closed forms say of a rough road, per axle.
    pub road: PerAxle<Later<Vec<Block>>>,
    /// What a suspension bench measures on it, per axle.
    pub bench: PerAxle<Later<Vec<Block>>>,
    /// What the job holds of recorded drives.
    pub drives: Later<Vec<Block>>,
    /// How recorded bounces die out, per axle.
    pub decays: PerAxle<Later<Option<Picture>>>,
    /// What recorded bounces showed, per axle.
    pub bounces: PerAxle<Later<Vec<Block>>>,
    /// What the money buys, per axle.
    pub remedies: PerAxle<Later<Vec<Block>>>,
    /// Pitch.
    pub nose_and_tail: Later<Vec<Block>>,
    /// Roll.
    pub bends: Later<Vec<Block>>,
    /// Anti-roll bars for the target roll.
    pub bars: Later<Vec<Block>>,
    /// The four corners in every state, lean and centre of gravity.
    pub corners: Later<Vec<Block>>,
    /// Cross weight, and what corrects it.
    pub cross_weight: Later<Vec<Block>>,
    /// The corners from above, or why they are not known.
    pub from_above: Later<Result<FromAbove, String>>,
    /// The body from behind, or why its lean is not known.
    pub from_behind: Later<Result<FromBehind, String>>,
    /// The load cases.
    pub cases: Later<Vec<Block>>,
    /// Both weigh-ins.
    pub weights: Later<Vec<Block>>,
    /// The ledger of parts.
    pub ledger: Later<Vec<Block>>,
    /// Axle weights against axle ratings.
    pub ratings: Later<Vec<Block>>,
    /// Each axle in its states.
    pub standing: PerAxle<Later<Option<Block>>>,
}

/// Remembers the last job by value, and in which voice its texts are.
pub struct Memo {
    job: Job,
    voice: Voice,
    shown: Shown,
    stage: Stage,
    solves: u64,
    /// What solves in the background; without it every frame waits for the whole answer.
    beside: Option<Worker<Solved>>,
    /// What is no longer shown; the background takes it apart.
    past: Vec<(Arc<Answer>, Arc<Results>)>,
}

/// What was found in the background: the number of the solve, the answer, its results and the voice they are in.
type Solved = (u64, Answer, Results, Voice);

/// How far the job's answer has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stage {
    /// What is shown is of an earlier job.
    Earlier,
    /// Its values are shown, every ± is still to come.
    Values,
    /// All of it is shown.
    Whole,
}

impl Memo {
    /// Solves a job; every frame waits for the whole answer.
    pub fn new(job: &Job) -> Self {
        Memo::of(job, solve(job), Stage::Whole, None)
    }

    /// Finds the values of a job; a frame waits for no more than that, every ± is found in the background.
    pub fn beside(job: &Job) -> Self {
        Memo::of(job, solve_values(job), Stage::Values, Some(Worker::default()))
    }

    fn of(job: &Job, answer: Answer, stage: Stage, beside: Option<Worker<Solved>>) -> Self {
        let answer = Arc::new(answer);
        let results = Results::later(&answer);
        let shown = show(job, answer, results);
        Memo { job: job.clone(), voice: spoken(), shown, stage, solves: 1, beside, past: Vec::new() }
    }

    /// Begins to solve, only if the job is another one; another voice only shows the same answer.
    pub fn update(&mut self, job: &Job, ctx: &egui::Context) {
        if self.job != *job {
            self.job = job.clone();
            self.stage = Stage::Earlier;
            self.solves += 1;
        }
        if self.voice != spoken() {
            self.voice = spoken();
            let answer = Arc::clone(&self.shown.answer);
            let results = Results::later(&answer);
            self.put(answer, results, self.stage);
        }
        if self.stage == Stage::Whole {
            return;
        }
        let Some(worker) = &mut self.beside else { return self.solve_here() };
        if ctx.cumulative_frame_nr() == 0 {
            // The first frame comes to the screen by all processors there are.
            ctx.request_repaint();
        } else if !worker.is_busy() {
            let (id, job, past) = (self.solves, self.job.clone(), std::mem::take(&mut self.past));
            let solved = move |_: &_| {
                drop(past);
                let answer = solve(&job);
                let results = Results::of(&answer);
                (id, answer, results, spoken())
            };
            if worker.start(ctx, "solve", solved).is_err() {
                // No thread to be had: in the frame, as long as it takes.
                self.solve_here();
            }
        }
    }

    /// Shows what has come of the job: all of it, or its values.
    pub fn arrive(&mut self) {
        if self.stage == Stage::Whole {
            return;
        }
        let ended = self.beside.as_mut().and_then(Worker::ended);
        self.take(ended);
        if self.stage == Stage::Earlier {
            self.put_later(solve_values(&self.job), Stage::Values);
        }
    }

    /// Waits for all of it: what is written down is never half known.
    pub fn finish(&mut self) {
        if self.stage == Stage::Whole {
            return;
        }
        let ended = self.beside.as_mut().and_then(Worker::wait);
        self.take(ended);
        if self.stage != Stage::Whole {
            self.solve_here();
        }
    }

    /// Takes what was found in the background, if it is of this job.
    fn take(&mut self, ended: Option<Ended<Solved>>) {
        match ended {
            Some(Ended::Done((id, answer, results, voice))) if id == self.solves && voice == self.voice => {
                self.put(Arc::new(answer), results, Stage::Whole);
            }
            Some(Ended::Done((id, answer, ..))) if id == self.solves => self.put_later(answer, Stage::Whole),
            Some(Ended::Done((_, answer, results, _))) => self.past.push((Arc::new(answer), Arc::new(results))),
            Some(Ended::Died) => self.solve_here(),
            Some(Ended::Unwanted) | None => {}
        }
    }

    fn solve_here(&mut self) {
        self.put_later(solve(&self.job), Stage::Whole);
    }

    /// Shows this from now on; its results are collected once they are needed.
    fn put_later(&mut self, answer: Answer, stage: Stage) {
        let answer = Arc::new(answer);
        let results = Results::later(&answer);
        self.put(answer, results, stage);
    }

    /// Shows this from now on.
    fn put(&mut self, answer: Arc<Answer>, results: Results, stage: Stage) {
        let before = std::mem::replace(&mut self.shown, show(&self.job, answer, results));
        self.stage = stage;
        // Without a worker nothing takes it away.
        if self.beside.is_some() {
            self.past.push((before.answer, before.results));
        }
    }

    /// All that is shown is of this job, and final.
    pub fn is_whole(&self) -> bool {
        self.stage == Stage::Whole
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

fn show(job: &Job, answer: Arc<Answer>, results: Results) -> Shown {
    let (units, currency) = (job.units, Rc::<str>::from(job.prices.currency.as_str()));
    let all = &answer;
    let sentences = PerAxle::each(|side| sentence::axle(&answer, answer.axle(side), &units));
    let results = Arc::new(results);
    let with = &results;
    Shown {
        briefs: PerAxle::each(|side| brief::axle(&answer, side, &units)),
        sentences,
        results: Arc::clone(&results),
        shift: per_axle(all, move |a, side| shift::shift(a, side, &units)),
        old_spring: per_axle_of(all, with, move |a, r, side| spring_tables::old_spring(a, r, side, &units)),
        springs: per_axle_of(all, with, move |a, r, side| springs(a, r, side, &units)),
        load_travel: per_axle(all, move |a, side| picture::load_travel(a.axle(side), &units)),
        frequency_rate: per_axle(all, move |a, side| picture::frequency_rate(a, side, &units)),
        ratio_rows: per_axle(all, move |a, side| rows::pictures(a.axle(side), a.checked(side), Part::Spring, &units)),
        linkage: per_axle(all, move |a, side| linkage_drawn::pictures(a.axle(side), a.checked(side), &units)),
        damper_rows: per_axle(all, move |a, side| rows::pictures(a.axle(side), a.checked(side), Part::Damper, &units)),
        dampers: per_axle_of(all, with, move |a, r, side| damper_tables::blocks(a, r, side, &units)),
        force_speed: per_axle(all, move |a, side| force_speed::force_speed(a, side, &units)),
        rear_front: later(all, motion::rear_front),
        after_hump: later(all, move |a| hump::after_hump(a, &units)),
        trade: per_axle(all, on_road::trade),
        road: per_axle_of(all, with, move |a, r, side| road_tables::closed(a, r, side, &units)),
        bench: per_axle_of(all, with, move |a, r, side| bench_tables::in_window(a, side, r, &units)),
        drives: later_of(all, with, move |a, r| record_tables::drives(a, r, &units)),
        decays: per_axle(all, motion::decays),
        bounces: per_axle_of(all, with, move |a, r, side| record_tables::measured(a.axle(side), r, &units)),
        remedies: per_axle_of(all, with, move |a, r, side| remedy_tables::remedies(a, r, side, &units, &currency)),
        nose_and_tail: later_of(all, with, move |a, r| vehicle_tables::nose_and_tail(a, r, &units)),
        bends: later_of(all, with, move |a, r| vehicle_tables::bends(a, r, &units)),
        bars: later_of(all, with, move |a, r| vehicle_tables::wanted_bars(a, r, &units)),
        corners: later_of(all, with, move |a, r| {
            [corner_tables::at_once(a, r, &units), corner_tables::lean_and_centre(a, &units)].concat()
        }),
        cross_weight: later(all, move |a| corner_tables::cross_weights(a, &units)),
        from_above: later_of(all, with, move |a, r| from_above(a, r, &units, Aim::AsFitted)),
        from_behind: later_of(all, with, move |a, r| from_behind(a, r, &units)),
        cases: later_of(all, with, move |a, r| load_tables::cases(a, r, &units)),
        weights: later_of(all, with, move |a, r| axle_tables::weights(a, r, &units)),
        ledger: later_of(all, with, move |a, r| load_tables::ledger(a, r, &units)),
        ratings: later_of(all, with, move |_, r| load_tables::ratings(r, &units)),
        standing: per_axle_of(all, with, move |a, r, side| axle_tables::standing(a, r, side, &units)),
        answer,
    }
}

/// The new springs of an axle, and what else can be done with its springs.
fn springs(answer: &Answer, results: &Results, side: Side, units: &UnitChoice) -> Vec<Block> {
    let blocks = [
        axle_tables::springs(answer, results, side, units),
        spring_tables::levelled(results, side, units),
        spring_tables::cut(answer, results, side, units),
        spring_tables::offered(results, side, units),
        spring_tables::wound(answer, results, side, units),
    ];
    blocks.into_iter().flatten().collect()
}

fn later<T>(answer: &Arc<Answer>, make: impl FnOnce(&Answer) -> T + 'static) -> Later<T> {
    let answer = Arc::clone(answer);
    LazyCell::new(Box::new(move || make(&answer)))
}

/// The same with its results by key.
fn later_of<T>(
    answer: &Arc<Answer>,
    results: &Arc<Results>,
    make: impl FnOnce(&Answer, &Results) -> T + 'static,
) -> Later<T> {
    let results = Arc::clone(results);
    later(answer, move |answer| make(answer, &results))
}

fn per_axle_of<T>(
    answer: &Arc<Answer>,
    results: &Arc<Results>,
    make: impl Fn(&Answer, &Results, Side) -> T + Clone + 'static,
) -> PerAxle<Later<T>> {
    PerAxle::each(|side| {
        let make = make.clone();
        later_of(answer, results, move |answer, results| make(answer, results, side))
    })
}

fn per_axle<T>(answer: &Arc<Answer>, make: impl Fn(&Answer, Side) -> T + Clone + 'static) -> PerAxle<Later<T>> {
    PerAxle::each(|side| {
        let make = make.clone();
        later(answer, move |answer| make(answer, side))
    })
}
