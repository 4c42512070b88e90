//! Commands about measurements on the vehicle: the suspension bench.

use super::{CliError, Outcome, Solved, code, exit, findings_of};
use crate::job::bounded;
use crate::report::sections::bench_tables;
use crate::report::write::text::{self, Markup};
use crate::solve::bench;

/// What a suspension bench measures on both axles.
pub(super) fn bench(solved: &Solved, json: bool) -> Result<Outcome, CliError> {
    let (job, answer) = (&*bounded::used(&solved.job), &solved.answer);
    let marks = bench::marks(job);
    let runs = bench::shake(job, answer, |_| true);
    let text = if json {
        serde_json::to_string_pretty(&bench_tables::json(job, answer, &marks, &runs))? + "\n"
    } else {
        findings_of(answer, &["front.bench.", "rear.bench.", "limits.bench_"])
            + &text::write(&bench_tables::build(job, answer, &marks, &runs), Markup::Plain)
    };
    let code = if runs.is_ok() { code(answer) } else { exit::FINDINGS };
    Ok(Outcome { text, code, ..Outcome::default() })
}
