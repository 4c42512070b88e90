//! The job that a command is about, solved.

use std::path::{Path, PathBuf};

use super::{CliError, JobArg};
use crate::base::language::{Spoken, Voice, speak, spoken};
use crate::job::{Job, file};
use crate::shop::presets;
use crate::solve::answer::Answer;
use crate::solve::{planned, solve};

/// A job with its answer, spoken of with its own decimal mark as long as this is held.
pub(super) struct Solved {
    pub job: Job,
    pub answer: Answer,
    /// Its file; `None` for a shipped job.
    pub path: Option<PathBuf>,
    pub _voice: Spoken,
}

/// Opens and solves a job, on the plan that was named.
///
/// # Errors
/// [`CliError`] when there is no such file, job or plan.
pub(super) fn open(asked: &JobArg) -> Result<Solved, CliError> {
    let path = Path::new(&asked.name);
    let (mut job, path) = match presets::named(path) {
        Some(preset) => (preset.job(), None),
        None => {
            let job = file::read(path).map_err(|source| CliError::File { source, path: path.to_owned() })?;
            (job, Some(path.to_owned()))
        }
    };
    let voice = speak(Voice { mark: job.decimal, ..spoken() });
    if let Some(name) = &asked.plan {
        job = planned::named(&job, name).ok_or_else(|| no_plan(&job, name))?;
    }
    Ok(Solved { answer: solve(&job), job, path, _voice: voice })
}

fn no_plan(job: &Job, name: &str) -> CliError {
    let plans: Vec<String> = job.every_plan().into_iter().map(|which| job.plan_words(which).to_string()).collect();
    CliError::NoPlan { name: name.to_owned(), plans: plans.join("; ") }
}
