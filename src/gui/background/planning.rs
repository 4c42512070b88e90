//! The plans side by side, compared in the background while a step shows them.

use std::sync::Arc;

use eframe::egui;

use crate::base::language::{Voice, spoken};
use crate::gui::background::worker::{Ended, Worker};
use crate::job::{Job, bounded};
use crate::report::Block;
use crate::report::pictures::plans::Seen;
use crate::report::sheets::plan_table::Plans;
use crate::solve::answer::Answer;

/// What was compared, for which job and in which voice.
struct Found {
    job: Job,
    voice: Voice,
    plans: Option<Plans>,
    blocks: Vec<Block>,
}

/// The comparison of the plans.
#[derive(Default)]
pub struct Planning {
    worker: Worker<Box<Found>>,
    found: Option<Box<Found>>,
    /// What is being worked on.
    asked: Option<(Job, Voice)>,
}

impl Planning {
    /// What was compared last.
    pub fn plans(&self) -> Option<&Plans> {
        self.found.as_ref()?.plans.as_ref()
    }

    /// How often a comparison was begun; for tests.
    pub fn started(&self) -> u64 {
        self.worker.started()
    }

    /// The same as tables and sentences.
    pub(in crate::gui) fn blocks(&self) -> &[Block] {
        self.found.as_ref().map_or(&[], |found| &found.blocks)
    }

    /// The job's other plans, as pictures show them; none until they were compared for this very job.
    pub(in crate::gui) fn others(&self, job: &Job) -> Vec<&Seen> {
        self.plans().filter(|_| self.is_current(job)).map_or_else(Vec::new, Plans::others)
    }

    /// It belongs to the present job.
    pub(in crate::gui) fn is_current(&self, job: &Job) -> bool {
        self.found.as_ref().is_some_and(|found| found.voice == spoken() && found.job == *job)
    }

    /// Compares again when the job has changed and a step shows it; `answer` gives the whole answer once it is there.
    pub(in crate::gui) fn update<'a>(
        &mut self,
        job: &Job,
        is_shown: bool,
        answer: impl FnOnce() -> Option<&'a Arc<Answer>>,
        ctx: &egui::Context,
    ) {
        match self.worker.ended() {
            Some(Ended::Done(found)) => (self.found, self.asked) = (Some(found), None),
            Some(Ended::Unwanted | Ended::Died) => self.asked = None,
            None => {}
        }
        let is_asked = |asked: &(Job, Voice)| asked.0 == *job && asked.1 == spoken();
        if !is_shown || self.is_current(job) || self.asked.as_ref().is_some_and(is_asked) {
            return;
        }
        if self.worker.is_busy() {
            self.worker.cancel();
            return;
        }
        let Some(answer) = answer() else { return };
        let (job, answer, voice) = (job.clone(), Arc::clone(answer), spoken());
        self.asked = Some((job.clone(), voice));
        // Without a thread there is no comparison: the steps show the chosen plan all the same.
        let _ = self.worker.start(ctx, "plans", move |watch| {
            let plans = Plans::of(&bounded::used(&job), &answer, || !watch.is_cancelled());
            let blocks = plans.as_ref().map_or_else(Vec::new, Plans::all_blocks);
            Box::new(Found { job, voice, plans, blocks })
        });
    }
}
