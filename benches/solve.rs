//! One solve of every shipped job, every ± included, and what is built from its answer. Aim: at most 1 ms for the demo,
//! 2 ms for a ledger or load cases.

#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use springwright::presets::PRESETS;
use springwright::report::{figures, sheet};
use springwright::solve::solve;

fn solves(c: &mut Criterion) {
    let mut group = c.benchmark_group("solve");
    group.warm_up_time(Duration::from_millis(500)).measurement_time(Duration::from_secs(2));
    for preset in PRESETS {
        let job = preset.job();
        group.bench_function(preset.name, |b| b.iter(|| solve(black_box(&job))));
    }
    group.finish();
    let largest = PRESETS.iter().max_by_key(|p| p.text.len()).expect("there are presets");
    let job = largest.job();
    let answer = solve(&job);
    c.bench_function("all figures of the largest answer", |b| b.iter(|| figures::figures(black_box(&answer))));
    c.bench_function("the report tree of it", |b| b.iter(|| sheet::build(black_box(&job), black_box(&answer))));
}

criterion_group!(benches, solves);
criterion_main!(benches);
