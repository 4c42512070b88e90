//! The values come first, their ± after them: the same values, and nothing to order until all is there.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::folders;

use springwright::job::{Job, Level, Side, file};
use springwright::shop::presets::PRESETS;
use springwright::solve::{solve, solve_values};

fn jobs() -> Vec<(String, Job)> {
    let shipped = PRESETS.iter().map(|p| (p.name.to_owned(), file::parse(p.text).expect("a job")));
    let kinds = folders::job_files("kinds").into_iter();
    let kinds = kinds.map(|path| (path.display().to_string(), file::read(&path).expect("a job")));
    shipped.chain(kinds).collect()
}

#[test]
fn values_are_the_same_with_and_without_their_spreads() {
    for (name, job) in jobs() {
        let (first, all) = (solve_values(&job), solve(&job));
        assert!(first.axles == all.axles, "{name}: an axle differs");
        assert!(first.cases == all.cases && first.remedies == all.remedies, "{name}: a load case differs");
        assert!(first.whole == all.whole && first.reweigh == all.reweigh, "{name}: the whole vehicle differs");
        assert!(first.compared == all.compared && first.ledger == all.ledger, "{name}: weights differ");
        assert!(first.rear_over_front == all.rear_over_front && first.flat_ride == all.flat_ride, "{name}");
        assert!(first.moved.is_empty() && first.checked.iter().all(|c| c.nudged.is_empty()), "{name}: a ± is there");
    }
}

#[test]
fn nothing_is_released_until_every_spread_is_there() {
    let mut released = 0;
    for (name, job) in jobs() {
        let (first, all) = (solve_values(&job), solve(&job));
        assert!(first.is_coming && !all.is_coming, "{name}");
        for side in Side::BOTH {
            let reasons = first.released(side).expect_err("nothing yet");
            assert!(reasons.rules().contains(&"coming"), "{name}: {:?}", reasons.rules());
            released += usize::from(all.released(side).is_ok());
        }
        assert!(all.findings.iter().all(|f| f.rule != "coming"), "{name}");
        assert!(first.findings.iter().any(|f| f.level == Level::Withheld), "{name}");
    }
    assert!(released > 20, "the whole answer releases what it did: {released}");
}

#[test]
fn what_was_not_measured_and_what_was_taken_is_told_at_once() {
    for (name, job) in jobs() {
        let (first, all) = (solve_values(&job), solve(&job));
        assert_eq!(first.unmeasured, all.unmeasured, "{name}");
        for default in &first.defaults {
            assert!(all.defaults.contains(default), "{name}: {}", default.path);
        }
    }
}
