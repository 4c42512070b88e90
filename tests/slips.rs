//! Slips are caught where people make them, each with a button that mends it.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

#[path = "common/folders.rs"]
#[allow(dead_code, reason = "only the list of files is used here")]
mod folders;

use springwright::job::{Finding, Job, file};
use springwright::presets::PRESETS;
use springwright::solve::solve;

/// Every job beside the tests and every shipped one that can be read, with its name.
fn all_jobs() -> Vec<(String, Job)> {
    let files = ["doubtful", "bad", "kinds"].into_iter().flat_map(folders::job_files);
    let read = files.filter_map(|path| Some((path.display().to_string(), file::read(&path).ok()?)));
    let shipped = PRESETS.iter().map(|p| (p.name.to_owned(), p.job()));
    read.chain(shipped).collect()
}

/// The same rule about the same field.
fn again(findings: &[Finding], of: &Finding) -> bool {
    findings.iter().any(|f| f.rule == of.rule && f.field == of.field)
}

#[test]
fn every_mend_of_every_job_applies_and_settles_its_finding() {
    let mut seen = std::collections::BTreeMap::<&str, usize>::new();
    let mut wrong = Vec::new();
    for (name, job) in all_jobs() {
        for finding in solve(&job).findings {
            for mend in &finding.mends {
                let mut mended = job.clone();
                mended.mend(mend).expect("no mend names an unknown field");
                assert_ne!(mended, job, "{name}: {mend:?} changes something");
                assert!(!mend.label.trim().is_empty() && mend.label.chars().count() < 110, "{name}: {mend:?}");
                let left = solve(&mended).findings;
                if again(&left, &finding) {
                    wrong.push(format!("{name}: {} stays after {mend:?}", finding.text));
                }
                *seen.entry(finding.rule).or_default() += 1;
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    for rule in [
        "arch-against-weight",
        "arm-upright",
        "bar-bore",
        "coils-contradict",
        "frequency",
        "helper-lengths",
        "impossible",
        "leaf-clamped",
        "leaf-count",
        "leaf-loop",
        "lengths-contradict",
        "press-contradicts",
        "range-reversed",
        "ratio-upside-down",
        "read-as",
        "readings-swapped",
        "routes-disagree",
        "solid-above-fitted",
        "stop-after-metal",
        "unreadable",
        "unusual",
        "wire-too-thick",
    ] {
        assert!(seen.contains_key(rule), "no job shows a mend of {rule}: {seen:?}");
    }
}
