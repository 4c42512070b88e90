//! How much is tried. The README's command, with the window, tries all; the quick one of the core alone tries a part of
//! the long sets and of what is drawn at random.

/// One in how many the quick command tries: a prime, so that of sets in sets no inner one is always the same.
const ONE_IN: usize = if cfg!(feature = "gui-test") { 1 } else { 11 };

/// Those of a long set that are tried.
pub fn some<T>(all: impl IntoIterator<Item = T>) -> impl Iterator<Item = T> {
    all.into_iter().step_by(ONE_IN)
}

/// How many of so many random cases are drawn.
pub fn tries(all: u32) -> u32 {
    all.div_ceil(ONE_IN as u32)
}

/// Whether all is tried: what is found can be counted.
pub const IS_WHOLE: bool = ONE_IN == 1;
