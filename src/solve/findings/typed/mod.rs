//! Findings about what was typed: what can hardly be, what was mixed up, and what mends it.

mod measured;
mod mends;
mod mixed_up;
mod sizes;
mod swapped;
mod table_rows;
mod weigh_ins;
mod weighed;
