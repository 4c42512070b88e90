//! Everything that needs no window: one program, so that the library is linked once.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "a test says why it stops")]

#[path = "../common/mod.rs"]
mod common;

mod architecture;
mod bad_files;
mod broken_files;
mod cases;
mod choose;
mod cli;
mod dampers;
mod dampers_solved;
mod dictionary;
mod doubt;
mod doubtful_files;
mod ends;
mod exit_codes;
mod files_of_others;
mod identities;
mod invariants;
mod jobs;
mod kinds;
mod limits_near;
mod linkage;
mod linkage_jobs;
mod loads;
mod no_wolf;
mod nothing_lost;
mod one_verdict;
mod parts;
mod published;
mod regressions;
mod released;
mod results;
mod road;
mod routes;
mod sheets;
mod sheets_numbers;
mod sheets_words;
mod shift;
mod shop;
mod slips;
mod spring_energy;
mod spring_jobs;
mod spring_kinds;
mod springs_fitted;
mod springs_published;
mod tidy;
mod true_spreads;
mod units_shown;
mod unknown_rate;
mod values_first;
mod vehicle;
mod vehicle_published;
mod whole;
mod wound;
