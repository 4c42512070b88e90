//! Listing a folder of 5,000 jobs: the shipped ones again and again, each with a customer of its own.
#![allow(missing_docs, clippy::expect_used, reason = "a bench says why it stops")]

use criterion::{Criterion, criterion_group, criterion_main};
use springwright::job::file;
use springwright::{jobs, presets};

const JOBS: usize = 5_000;

fn listing(c: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder");
    for i in 0..JOBS {
        let mut job = presets::PRESETS[i % presets::PRESETS.len()].job();
        job.customer.name = format!("Customer {i}");
        let text = file::text(&job).expect("writes");
        let year = folder.path().join(format!("{}", 2000 + i / 500));
        std::fs::create_dir_all(&year).expect("a folder");
        // Without syncing each of them: only reading is measured.
        std::io::Write::write_all(
            &mut std::fs::File::create(year.join(format!("job-{i}.ron"))).expect("a file"),
            text.as_bytes(),
        )
        .expect("writes");
    }
    let records = jobs::list(folder.path()).expect("lists");
    assert!(records.len() == JOBS && records.iter().all(|r| r.wrong.is_none()));
    let mut group = c.benchmark_group("jobs");
    group.sample_size(20);
    group.bench_function("list 5,000", |b| b.iter(|| jobs::list(folder.path()).expect("lists").len()));
    group.bench_function("search 5,000", |b| {
        b.iter(|| records.iter().filter(|r| r.has("customer 4711 van")).count());
    });
    group.finish();
}

criterion_group!(benches, listing);
criterion_main!(benches);
