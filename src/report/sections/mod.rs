//! What a report says, part by part: sentences, tables, and what a parts list offers.

pub mod choose;
pub mod said;
pub mod tables;

pub use choose::{choose_dampers, parts_rows};
pub use said::{brief, dampers_stay, needed, sentence, unchecked};
pub use tables::{
    axle_tables, bench_tables, corner_tables, damper_tables, load_tables, record_tables, remedy_tables, reweigh_table,
    road_tables, spring_tables, vehicle_tables,
};
