//! Commands about measurements on the vehicle: the suspension bench, recordings.

use std::path::Path;

use super::{CliError, Outcome, RecordArgs, Solved, code, exit, findings_of, open};
use crate::base::progress::Watch;
use crate::job::{Job, bounded};
use crate::report::sections::bench_tables;
use crate::report::sections::record_tables::{self, Told};
use crate::report::write::text::{self, Markup};
use crate::shop::lists::Shop;
use crate::shop::recordings::{self, Ask, Recording};
use crate::solve::bench;
use crate::solve::recorded::{self, Analysed};

/// What a suspension bench measures on both axles.
pub(super) fn bench(solved: &Solved, json: bool) -> Result<Outcome, CliError> {
    let (job, answer) = (&*bounded::used(&solved.job), &solved.answer);
    let runs = bench::shake(job, answer, |_| true);
    let text = if json {
        serde_json::to_string_pretty(&bench_tables::json(job, answer, &runs))? + "\n"
    } else {
        findings_of(answer, &["front.bench.", "rear.bench.", "limits.bench_"])
            + &text::write(&bench_tables::build(job, answer, &runs), Markup::Plain)
    };
    let code = if runs.is_ok() { code(answer) } else { exit::FINDINGS };
    Ok(Outcome { text, code, ..Outcome::default() })
}

/// A record read and analysed.
fn analysed(file: &Path, asked: &RecordArgs) -> Result<(Recording, Analysed), CliError> {
    let ask = Ask {
        rate_hz: asked.rate,
        time: asked.time.clone(),
        time_unit: asked.time_unit.clone(),
        unit: asked.unit.clone(),
        axis: asked.axis.clone(),
    };
    let before = Shop::of_user().recording_mappings();
    let recording = recordings::open_as(file, &ask, &before, &Watch::default())?;
    let analysed = recorded::analyse(&recording.record, recording.signal, recording.named);
    Ok((recording, analysed))
}

/// What a recording shows, by itself and of an axle of a job.
pub(super) fn record(asked: &RecordArgs) -> Result<Outcome, CliError> {
    let solved = asked.job.as_deref().map(|name| open(&name.into())).transpose()?;
    let (recording, found) = analysed(&asked.file, asked)?;
    let before = asked.compare.as_deref().map(|file| analysed(file, asked)).transpose()?;
    let ratio = before.and_then(|(_, before)| found.drive.as_ref()?.ratio_to(before.drive.as_ref()?));
    let of = solved.as_ref().map(|solved| (asked.axle, asked.state, &solved.answer));
    let axle = of.and_then(|(side, state, answer)| recorded::of_axle(answer, side, state, &found.bounce));
    let told = Told { file: &asked.file, recording: &recording, analysed: &found, of, axle, ratio };
    let blank = Job::default();
    let job = solved.as_ref().map_or(&blank, |solved| &solved.job);
    let text = if asked.json {
        serde_json::to_string_pretty(&record_tables::json(&told, job))? + "\n"
    } else {
        text::write(&record_tables::build(&told, &job.units), Markup::Plain)
    };
    // Nothing in it that could be analysed is an answer to nothing.
    let is_something = !found.bounce.decays.is_empty() || found.drive.is_some();
    let is_compared = solved.is_none() || axle.is_some_and(|axle| axle.is_compared());
    let code = if is_something && is_compared { exit::OK } else { exit::FINDINGS };
    Ok(Outcome { text, code, ..Outcome::default() })
}
