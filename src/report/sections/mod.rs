//! What a report says, part by part: sentences and tables.

pub mod brief;
pub mod choose;
pub mod choose_dampers;
pub mod damper_tables;
pub mod load_tables;
pub mod needed;
pub mod parts_rows;
pub mod remedy_tables;
pub mod reweigh_table;
pub mod road_tables;
pub mod sentence;
pub mod spring_tables;
pub mod unchecked;
pub mod vehicle_tables;
