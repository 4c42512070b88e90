//! One solve of each shipped job. Aim: at most 100 µs for the largest.

#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use springwright::presets::PRESETS;
use springwright::report::{figures, sheet};
use springwright::solve::solve;

fn solves(c: &mut Criterion) {
    let largest = PRESETS.iter().max_by_key(|p| p.text.len()).expect("there are presets");
    let job = largest.job();
    c.bench_function(&format!("solve the largest preset ({})", largest.name), |b| b.iter(|| solve(black_box(&job))));
    let answer = solve(&job);
    c.bench_function("all figures of its answer", |b| b.iter(|| figures::figures(black_box(&answer))));
    c.bench_function("the report tree of its answer", |b| b.iter(|| sheet::build(black_box(&job), black_box(&answer))));
}

criterion_group!(benches, solves);
criterion_main!(benches);
