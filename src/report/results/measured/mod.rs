//! Results that are compared with a measurement on the vehicle as it is.

mod bench_results;
mod record_results;

pub(super) use bench_results::add as add_bench;
pub use bench_results::plate_runs;
pub(super) use record_results::add as add_body_mode;
pub use record_results::recorded;
