//! Sizes springs and dampers for a vehicle whose axle weights have changed, and shows why.
//!
//! A job in, the answer out:
//!
//! ```
//! use springwright::report::results::Results;
//! use springwright::{presets, solve::solve, units::UnitChoice};
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
//! The modules, in the order of their dependencies (each uses only those above it):
//!
//! | module | what it knows |
//! |---|---|
//! | [`bounds`] | the most that is taken of anything from outside |
//! | [`language`] | in which language and with which decimal mark is spoken; the table of texts |
//! | [`progress`] | how far long work has come |
//! | [`math`] | roots and fits; no trade |
//! | [`units`] | quantities, exact units, numbers as typed |
//! | [`sources`] | the published sources that formulas cite |
//! | [`weights`], [`spring`], [`wheel`], [`ride`], [`damper`], [`tyre`] | the trade: quantities in, quantities out |
//! | [`road`] | rough roads: closed forms and runs over them |
//! | [`roll`], [`pitch`], [`ledger`] | the trade, whole vehicle: roll, pitch and bounce, parts out and in |
//! | [`parts`] | the shop's own list of springs and dampers: text in, list out |
//! | [`job`] | what the user edits: fields, file, findings |
//! | [`jobs`] | all jobs of a folder, found by customer, vehicle, date |
//! | [`presets`] | the jobs that ship with the program |
//! | [`solve`](mod@solve) | the order of calculation: job in, answer out |
//! | [`shop`] | where the shop's lists lie, and what their columns mean |
//! | [`choose`] | which spring of a list, how likely, and what to measure again first |
//! | [`report`] | one neutral tree built from an answer, and its writers |
//! | [`cli`] | the command line |
//! | `gui` | the window (feature `gui`) |

pub mod bounds;
pub mod choose;
pub mod cli;
pub mod damper;
#[cfg(feature = "gui")]
pub mod gui;
pub mod job;
pub mod jobs;
pub mod language;
pub mod ledger;
pub mod math;
pub mod parts;
pub mod pitch;
pub mod presets;
pub mod progress;
pub mod report;
pub mod ride;
pub mod road;
pub mod roll;
pub mod shop;
pub mod solve;
pub mod sources;
pub mod spring;
pub mod tyre;
pub mod units;
pub mod weights;
pub mod wheel;
