//! Tables of results: each names the keys of its rows.

pub mod axle_tables;
pub mod bench_tables;
pub mod corner_tables;
pub mod damper_tables;
pub mod load_tables;
pub mod record_tables;
pub mod remedy_tables;
pub mod reweigh_table;
pub mod road_tables;
pub mod spring_tables;
pub mod vehicle_tables;
