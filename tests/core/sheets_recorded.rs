//! "Before and after, measured" on the customer's sheet and in the customer's view: only what was recorded both times.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use springwright::base::units::entry::AnyEntry;
use springwright::base::units::{Origin, Spread};
use springwright::job::{BounceReading, Job};
use springwright::report::sheets::{self, Words};
use springwright::shop::presets;
use springwright::solve::solve;

use crate::common::sheets as common;

const HEAD: &str = "Before and after, measured";

/// A frequency and a damping ratio, each with its ±.
fn reading([frequency, u_frequency, damping, u_damping]: [&str; 4]) -> BounceReading {
    let mut reading = BounceReading { frequency: frequency.into(), damping: damping.into(), ..Default::default() };
    let entries: [(&mut dyn AnyEntry, &str); 2] =
        [(&mut reading.frequency, u_frequency), (&mut reading.damping, u_damping)];
    for (entry, u) in entries {
        entry.set_origin(Some(Origin::Measured));
        entry.set_pm(u, Spread::Standard);
    }
    reading
}

fn job(before: [&str; 4], after: [&str; 4]) -> Job {
    let mut job = presets::demo();
    (job.front.bounce.before, job.front.bounce.after) = (reading(before), reading(after));
    job
}

fn sheet(job: &Job) -> String {
    common::customer(job, &solve(job))
}

const BEFORE: [&str; 4] = ["1.31 Hz", "0.01 Hz", "0.18", "0.02"];

#[test]
fn both_states_stand_side_by_side_with_their_spread() {
    let english = job(BEFORE, ["1.25 Hz", "0.01 Hz", "0.29", "0.02"]);
    let answer = solve(&english);
    let text = common::customer(&english, &answer);
    assert!(text.contains(HEAD), "{text}");
    let bounces = "The front bounces 1.250 ± 0.010 times a second; before, it was 1.310 ± 0.010.";
    assert!(text.contains(bounces), "{text}");
    let damping = "The front comes to rest sooner: its damping is 0.290 ± 0.020; before, it was 0.180 ± 0.020.";
    assert!(text.contains(damping), "{text}");
    assert!(
        !text.contains("The rear comes") && !text.contains("damping of the rear"),
        "the rear was not recorded: {text}"
    );
    let mut german = english;
    german.shop.language = "de".into();
    let text = common::customer(&german, &answer);
    assert!(text.contains("Die Dämpfung vorn ist 0,290 ± 0,020; vorher war sie 0,180 ± 0,020."), "{text}");
}

/// The ± of a difference is √(u₁² + u₂²): 0.02 and 0.02 give 0.028, so that 0.05 is no difference and 0.06 is one. `GUM` 5.1.2.
#[test]
fn a_difference_inside_both_spreads_is_none() {
    let none = "We could measure no difference.";
    let damping = |now: &str| sheet(&job(BEFORE, ["1.25 Hz", "0.01 Hz", now, "0.02"]));
    assert!(damping("0.23").contains(none));
    let sooner = damping("0.24");
    assert!(!sooner.contains(none) && sooner.contains("The front comes to rest sooner:"));
    assert!(damping("0.12").contains("The front takes longer to come to rest:"));
    let bounces = sheet(&job(BEFORE, ["1.33 Hz", "0.01 Hz", "0.29", "0.02"]));
    assert!(bounces.contains("before, it was 1.310 ± 0.010. We could measure no difference."), "{bounces}");
}

#[test]
fn one_state_alone_is_not_before_and_after() {
    let mut one = job(BEFORE, BEFORE);
    one.front.bounce.after = BounceReading::default();
    assert!(!sheet(&one).contains(HEAD));
    // What was heavily damped has no frequency: the damping is shown alone.
    let mut heavy = job(BEFORE, ["1.25 Hz", "0.01 Hz", "0.34", "0.05"]);
    heavy.front.bounce.after.frequency = Default::default();
    let text = sheet(&heavy);
    assert!(
        text.contains(HEAD)
            && text.contains("The front comes to rest sooner: its damping")
            && !text.contains("The front bounces")
    );
}

#[test]
fn the_view_says_it_in_its_last_step() {
    let job = job(BEFORE, ["1.25 Hz", "0.01 Hz", "0.29", "0.02"]);
    let view = sheets::showing(&job, &solve(&job), Words::english());
    let said: Vec<bool> =
        view.stages.iter().map(|s| s.says.iter().any(|text| text.contains("comes to rest sooner"))).collect();
    assert_eq!(said, [false, false, false, true]);
}
