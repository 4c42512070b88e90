//! The values come first, their ± after them: the same values, and nothing to order until all is there.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::kept;

use std::sync::OnceLock;

use springwright::job::{Level, Side};
use springwright::solve::answer::Answer;
use springwright::solve::solve_values;

/// Every shipped job and every job of `kinds/`: its name, its values alone, its whole answer.
fn answers() -> impl Iterator<Item = (&'static str, &'static Answer, &'static Answer)> {
    static FIRST: OnceLock<Vec<Answer>> = OnceLock::new();
    let jobs = || kept::with_shipped(&["kinds"]);
    let first = FIRST.get_or_init(|| jobs().map(|kept| solve_values(&kept.job)).collect());
    jobs().zip(first).map(|(kept, first)| (kept.name.as_str(), first, kept.answer()))
}

#[test]
fn values_are_the_same_with_and_without_their_spreads() {
    for (name, first, all) in answers() {
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
    for (name, first, all) in answers() {
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
    for (name, first, all) in answers() {
        assert_eq!(first.unmeasured, all.unmeasured, "{name}");
        for default in &first.defaults {
            assert!(all.defaults.contains(default), "{name}: {}", default.path);
        }
    }
}
