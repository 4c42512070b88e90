//! The open list: laid out so that 100,000 rows can be searched and sorted between two frames.

use crate::base::language::worded;
use crate::base::units::Quantity as _;
use crate::gui::background::texts::Texts;
use crate::shop::lists::Opened;
use crate::shop::parts::Spring;

/// A list that was read, with what searching and sorting it needs.
#[derive(Debug)]
pub struct OpenList {
    /// As it was opened.
    pub opened: Opened,
    /// Number and words of each spring.
    pub(super) texts: Texts,
    /// Springs by rate, free length and price; what is not known comes last.
    pub(super) sorted: [Vec<usize>; 3],
}

worded! {
    /// By what the rows of a list are sorted.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
    pub enum Sort {
        /// What suits best first.
        #[default]
        Best => Word("best match"),
        /// Softest first.
        Rate => Word("rate"),
        /// Shortest first.
        FreeLength => Word("free length"),
        /// Cheapest first.
        Price => Word("price"),
    }
}

/// Which rows are shown, and in which order.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Filter {
    /// Words that number or description must hold, all of them.
    pub words: String,
    /// Only springs that fit.
    pub only_fitting: bool,
    /// The order.
    pub sort: Sort,
}

impl OpenList {
    pub(super) fn new(opened: Opened) -> Self {
        let springs = &opened.list.springs;
        let texts = Texts::new(springs.iter().map(|s| format!("{} {}", s.number, s.what)));
        let by = |key: fn(&Spring) -> Option<f64>| {
            let keys: Vec<f64> = springs.iter().map(|s| key(s).unwrap_or(f64::INFINITY)).collect();
            let mut order: Vec<usize> = (0..springs.len()).collect();
            order.sort_by(|a, b| keys[*a].total_cmp(&keys[*b]));
            order
        };
        let sorted = [by(|s| Some(s.rate.si())), by(|s| s.free_length.map(|l| l.si())), by(|s| s.price)];
        OpenList { texts, sorted, opened }
    }

    /// Its springs.
    pub fn springs(&self) -> &[Spring] {
        &self.opened.list.springs
    }
}
