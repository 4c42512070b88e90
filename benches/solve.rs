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
use timing::{Against, Table, timed};

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
        let (took, _) = timed(RUNS, || solve(black_box(&job)));
        table.row(preset.name, &took, Against::Limit(50.0));
    }
    for preset in PRESETS {
        let job = preset.job();
        let (took, _) = timed(RUNS, || solve_values(black_box(&job)));
        table.row(&format!("{}, values alone", preset.name), &took, Against::Limit(1.0));
    }
    let job = points_on_both_axles();
    let (took, _) = timed(RUNS, || solve(black_box(&job)));
    table.row("points on both axles", &took, Against::Limit(50.0));
    let (took, _) = timed(RUNS, || solve_values(black_box(&job)));
    table.row("points on both axles, values alone", &took, Against::Limit(1.0));
    let job = planned_job();
    let answer = solve(&job);
    let (took, _) = timed(RUNS / 4, || Plans::of(black_box(&job), black_box(&answer), || true));
    table.row("three plans and nothing done, compared", &took, Against::Limit(50.0));
    let largest = PRESETS.iter().max_by_key(|p| p.text.len()).expect("there are presets");
    let job = largest.job();
    let answer = solve(&job);
    let (took, _) = timed(RUNS, || results::figures(black_box(&answer)));
    table.row("all figures of the largest answer", &took, Against::Nothing);
    let (took, _) = timed(RUNS, || sheet::build(black_box(&job), black_box(&answer)));
    table.row("the report tree of it", &took, Against::Nothing);
    table.end();
}
