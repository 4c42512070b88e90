//! Sizes springs and dampers for a vehicle whose axle weights have changed, and shows why.
//!
//! A job in, the answer out:
//!
//! ```
//! use springwright::base::units::UnitChoice;
//! use springwright::report::results::Results;
//! use springwright::shop::presets;
//! use springwright::solve::solve;
//!
//! let mut job = presets::demo();
//! job.front.target.low = "1.30 Hz".into(); // every field takes what a person would type
//! job.front.target.high = "1.35 Hz".into();
//! let results = Results::of(&solve(&job)); // every result by its key, each with its ±
//! for key in ["front.old_springs.frequency", "front.new_springs.frequency", "front.new_springs.reserve"] {
//!     let result = results.find(key).ok_or(key)?;
//!     println!("{}: {}", result.name, result.said(&UnitChoice::metric()));
//! }
//! assert!(results.find("front.new_springs.frequency").is_some_and(|f| f.si > Some(1.28)));
//! # Ok::<(), &str>(())
//! ```
//!
//! The rooms, in the order of their dependencies (each uses only those above it):
//!
//! | room | what it knows |
//! |---|---|
//! | [`base`] | bounds, language, arithmetic, units, sources; no trade |
//! | [`trade`] | weights, springs, wheel, tyre, ride, dampers, roll, pitch, roads: quantities in, quantities out |
//! | [`job`] | what the user edits: fields, file, findings |
//! | [`solve`](mod@solve) | the order of calculation: job in, answer out |
//! | [`shop`] | the shop's lists of parts, its letterhead, its folder of jobs, the jobs that ship |
//! | [`choose`] | which spring of a list, how likely, and what to measure again first |
//! | [`report`] | one neutral tree built from an answer, and its writers |
//! | [`cli`] | the command line |
//! | `gui` | the window (feature `gui`) |

pub mod base;
pub mod choose;
pub mod cli;
#[cfg(feature = "gui")]
pub mod gui;
pub mod job;
pub mod report;
pub mod shop;
pub mod solve;
pub mod trade;
