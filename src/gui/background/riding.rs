//! Runs over rough roads, worked out in the background, and the clock of the picture that moves.
//!
//! Nothing is run before the step Road was shown. What is shown says whether it belongs to the current job.

use std::sync::Arc;
use std::time::Duration;

use eframe::egui;

use crate::base::language::tr;
use crate::gui::background::worker::{DRAWN_EVERY, Ended, REST_S, Worker};
use crate::job::Job;
use crate::say;
use crate::solve::answer::OverRoad;
use crate::solve::road::{self, Driven, NoRuns};
use crate::solve::solve;

/// One step of the picture, s.
const STEP_S: f64 = 0.02;

/// How far the runs have come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Progress {
    /// What is shown belongs to the current job.
    Current,
    /// The job was changed a moment ago.
    Resting,
    /// Progress, 0 to 1.
    Running(f32),
    /// The user stopped it.
    Stopped,
}

/// What can be done with the runs over rough roads and their picture.
#[derive(Debug, Clone)]
pub enum RoadCommand {
    /// Stop driving.
    Stop,
    /// Drive.
    WorkOut,
    /// Show what happens on this.
    Over(OverRoad),
    /// Let the picture move, or hold it.
    Play(bool),
    /// Move the picture by this number of steps.
    Step(i32),
    /// Show this moment, s.
    At(f64),
}

/// What was run, for which job.
type Found = (Job, Result<Driven, NoRuns>);

/// The runs, and where the picture is.
#[derive(Default)]
pub struct Riding {
    worker: Worker<Box<Found>>,
    found: Option<Arc<Found>>,
    latest: Job,
    changed_s: f64,
    was_shown: bool,
    is_stopped: bool,
    trouble: Option<String>,
    over: OverRoad,
    is_playing: bool,
    at_s: f64,
    drawn_s: f64,
}

impl Riding {
    /// Nothing was run yet.
    pub(in crate::gui) fn new() -> Self {
        Riding { changed_s: f64::NEG_INFINITY, over: OverRoad::Hump, ..Riding::default() }
    }

    /// What was run last, or why nothing was.
    pub fn found(&self) -> Option<&Result<Driven, NoRuns>> {
        self.found.as_deref().map(|f| &f.1)
    }

    /// How far the runs have come.
    pub fn progress(&self) -> Progress {
        if self.is_current() {
            Progress::Current
        } else if self.worker.is_busy() {
            Progress::Running(self.worker.share())
        } else if self.is_stopped {
            Progress::Stopped
        } else {
            Progress::Resting
        }
    }

    /// How often work was started; for tests.
    pub fn started(&self) -> u64 {
        self.worker.started()
    }

    /// What went wrong, if anything did.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// What is driven over in the picture.
    pub fn over(&self) -> OverRoad {
        self.over
    }

    /// The picture moves.
    pub fn is_playing(&self) -> bool {
        self.is_playing
    }

    /// The moment shown, s from the beginning of what is shown.
    pub fn at_s(&self) -> f64 {
        self.at_s
    }

    /// So long is what is shown, s, and at this moment of the run it begins.
    pub fn shown_s(over: OverRoad) -> (f64, f64) {
        crate::report::pictures::on_road::shown_s(over)
    }

    /// Obstacles are shown slowed down by this factor.
    pub fn slower(over: OverRoad) -> f64 {
        if over == OverRoad::Rough { 1.0 } else { 4.0 }
    }

    fn is_current(&self) -> bool {
        self.found.as_ref().is_some_and(|f| f.0 == self.latest)
    }

    pub(in crate::gui) fn run(&mut self, command: &RoadCommand) {
        match command {
            RoadCommand::Stop => {
                self.is_stopped = true;
                self.worker.cancel();
            }
            RoadCommand::WorkOut => (self.is_stopped, self.changed_s) = (false, f64::NEG_INFINITY),
            RoadCommand::Over(over) => (self.over, self.at_s, self.is_playing) = (*over, 0.0, false),
            RoadCommand::Play(play) => {
                let (lasts_s, _) = Self::shown_s(self.over);
                if *play && self.at_s >= lasts_s {
                    self.at_s = 0.0;
                }
                (self.is_playing, self.drawn_s) = (*play, f64::NAN);
            }
            RoadCommand::Step(steps) => {
                self.is_playing = false;
                self.at_s = (self.at_s + f64::from(*steps) * STEP_S).clamp(0.0, Self::shown_s(self.over).0);
            }
            RoadCommand::At(at_s) => (self.is_playing, self.at_s) = (false, *at_s),
        }
    }

    /// Once a frame: takes what has come, notices what changed, starts what is to be done next, moves the picture on.
    pub(in crate::gui) fn update(&mut self, job: &Job, is_shown: bool, time_s: f64, ctx: &egui::Context) {
        self.was_shown |= is_shown;
        if !self.was_shown {
            return;
        }
        match self.worker.ended() {
            Some(Ended::Done(found)) => self.found = Some(Arc::from(found)),
            Some(Ended::Died) => {
                self.trouble = Some(tr("The simulation ended without a result. Save the job, then try again.").into());
                self.is_stopped = true;
            }
            Some(Ended::Unwanted) | None => {}
        }
        if self.latest != *job {
            self.latest = job.clone();
            (self.changed_s, self.is_stopped, self.trouble) = (time_s, false, None);
            self.worker.cancel();
        }
        let is_due = is_shown && !self.is_current() && !self.is_stopped && !self.worker.is_busy();
        if is_due && time_s - self.changed_s >= REST_S {
            let job = job.clone();
            let work = move |watch: &crate::base::progress::Watch| {
                let told = |share: f64| {
                    watch.tell(share);
                    !watch.is_cancelled()
                };
                let driven = road::drive(&job, &solve(&job), told);
                Box::new((job, driven))
            };
            if let Err(error) = self.worker.start(ctx, "runs over roads", work) {
                self.is_stopped = true;
                self.trouble = Some(say!("The background calculation could not be started: {error}.", error));
            }
        } else if is_due {
            ctx.request_repaint_after(Duration::from_secs_f64((self.changed_s + REST_S - time_s).clamp(0.001, REST_S)));
        }
        if self.worker.is_busy() {
            ctx.request_repaint_after(DRAWN_EVERY);
        }
        self.play_on(is_shown, time_s, ctx);
    }

    /// The picture follows the clock, and the window is drawn for it, only while it plays.
    fn play_on(&mut self, is_shown: bool, time_s: f64, ctx: &egui::Context) {
        if !self.is_playing {
            return;
        }
        let (lasts_s, _) = Self::shown_s(self.over);
        if !self.drawn_s.is_nan() {
            self.at_s += (time_s - self.drawn_s) / Self::slower(self.over);
        }
        self.drawn_s = time_s;
        if self.at_s >= lasts_s || !is_shown {
            (self.at_s, self.is_playing) = (self.at_s.min(lasts_s), false);
        } else {
            ctx.request_repaint();
        }
    }
}
