//! One solve of every shipped job, every ± included, and what is built from its answer. Aim: the values alone, which a
//! frame waits for, at most 1 ms for any; every ±, worked out beside it, at most 50 ms.
#![allow(clippy::expect_used, reason = "a benchmark says why it stops")]

#[path = "common/timing.rs"]
#[allow(dead_code, reason = "what others need")]
mod timing;

use std::hint::black_box;

use springwright::job::{Job, file};
use springwright::report::results;
use springwright::report::sheets::plan_table::Plans;
use springwright::report::sheets::sheet;
use springwright::shop::presets::PRESETS;
use springwright::solve::{solve, solve_values};
use timing::{Against, Table};

const RUNS: usize = 1_000;

/// The largest there is of points measured by tape: both axles' links.
fn points_on_both_axles() -> Job {
    let mut job = PRESETS.iter().find(|p| p.name == "points-two-arms").expect("it is shipped").job();
    job.rear = job.front.clone();
    job
}

/// The demo with two plans besides the chosen one.
fn planned_job() -> Job {
    file::parse(include_str!("../tests/versions/2-plans.ron")).expect("a job")
}

fn main() {
    let mut table = Table::of("solve");
    for preset in PRESETS {
        let job = preset.job();
        table.timed(preset.name, RUNS, Against::Limit(50.0), || solve(black_box(&job)));
    }
    for preset in PRESETS {
        let job = preset.job();
        let what = format!("{}, values alone", preset.name);
        table.timed(&what, RUNS, Against::Limit(1.0), || solve_values(black_box(&job)));
    }
    let job = points_on_both_axles();
    table.timed("points on both axles", RUNS, Against::Limit(50.0), || solve(black_box(&job)));
    let what = "points on both axles, values alone";
    table.timed(what, RUNS, Against::Limit(1.0), || solve_values(black_box(&job)));
    let job = planned_job();
    let answer = solve(&job);
    let what = "three plans and nothing done, compared";
    table.timed(what, RUNS / 4, Against::Limit(50.0), || Plans::of(black_box(&job), black_box(&answer), || true));
    let largest = PRESETS.iter().max_by_key(|p| p.text.len()).expect("there are presets");
    let job = largest.job();
    let answer = solve(&job);
    let what = "all figures of the largest answer";
    table.timed(what, RUNS, Against::Nothing, || results::figures(black_box(&answer)));
    table.timed("the report tree of it", RUNS, Against::Nothing, || sheet::build(black_box(&job), black_box(&answer)));
    table.end();
}
