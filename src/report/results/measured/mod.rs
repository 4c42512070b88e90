//! Results that are compared with a measurement on the vehicle as it stands.

mod bench_results;

pub(super) use bench_results::add as add_bench;
pub use bench_results::plate_runs;
