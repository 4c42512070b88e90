//! Timing of work that is long enough to be timed at once.

use std::time::{Duration, Instant};

/// The shortest time of so many runs, and what that run gave.
pub fn best_of<T>(runs: usize, mut work: impl FnMut() -> T) -> (Duration, T) {
    let mut once = || {
        let start = Instant::now();
        let result = work();
        (start.elapsed(), result)
    };
    let mut best = once();
    for _ in 1..runs {
        let again = once();
        if again.0 < best.0 {
            best = again;
        }
    }
    best
}
