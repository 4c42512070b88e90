//! One solve of every shipped job, every ± included, and what is built from its answer. Aim: at most 1 ms for the demo,
//! 2 ms for any; the values alone at most 1 ms for any.
#![allow(clippy::expect_used, reason = "a benchmark says why it stops")]

#[path = "common/timing.rs"]
#[allow(dead_code, reason = "what others need")]
mod timing;

use std::hint::black_box;

use springwright::report::results;
use springwright::report::sheets::sheet;
use springwright::shop::presets::PRESETS;
use springwright::solve::{solve, solve_values};
use timing::{Against, Table, timed};

const RUNS: usize = 1_000;

fn main() {
    let mut table = Table::of("solve");
    for (i, preset) in PRESETS.iter().enumerate() {
        let job = preset.job();
        let (took, _) = timed(RUNS, || solve(black_box(&job)));
        table.row(preset.name, &took, Against::Limit(if i == 0 { 1.0 } else { 2.0 }));
    }
    for preset in PRESETS {
        let job = preset.job();
        let (took, _) = timed(RUNS, || solve_values(black_box(&job)));
        table.row(&format!("{}, values alone", preset.name), &took, Against::Limit(1.0));
    }
    let largest = PRESETS.iter().max_by_key(|p| p.text.len()).expect("there are presets");
    let job = largest.job();
    let answer = solve(&job);
    let (took, _) = timed(RUNS, || results::figures(black_box(&answer)));
    table.row("all figures of the largest answer", &took, Against::Nothing);
    let (took, _) = timed(RUNS, || sheet::build(black_box(&job), black_box(&answer)));
    table.row("the report tree of it", &took, Against::Nothing);
    table.end();
}
