//! The open list: laid out so that 100,000 rows can be searched and sorted between two frames.

use std::sync::Arc;

use super::work::{ForAxle, Found};
use crate::base::language::tr;
use crate::base::units::Quantity as _;
use crate::gui::background::texts::{Search, Texts};
use crate::job::Side;
use crate::shop::lists::Opened;
use crate::shop::parts::Spring;

/// A list that was read, with what searching and sorting it needs.
#[derive(Debug)]
pub struct OpenList {
    /// As it was opened.
    pub opened: Opened,
    /// Number and words of each spring.
    texts: Texts,
    /// Springs by rate, free length and price; what is not known comes last.
    sorted: [Vec<usize>; 3],
}

/// By what the rows of a list are sorted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sort {
    /// What suits best first.
    #[default]
    Best,
    /// Softest first.
    Rate,
    /// Shortest first.
    FreeLength,
    /// Cheapest first.
    Price,
}

impl Sort {
    /// All of them.
    pub const ALL: [Sort; 4] = [Sort::Best, Sort::Rate, Sort::FreeLength, Sort::Price];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Sort::Best => tr("best match"),
            Sort::Rate => tr("rate"),
            Sort::FreeLength => tr("free length"),
            Sort::Price => tr("price"),
        }
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

    /// Places of the springs that are found and pass a filter, in its order. Without a choice the best are not known,
    /// and the order is that of the file.
    fn rows(&self, filter: &Filter, axle: Option<&ForAxle>, is_found: &[bool], rows: &mut Vec<usize>) {
        let fits = |i: usize| axle.is_some_and(|a| a.fits.get(i) == Some(&true));
        let passes = |i: &usize| is_found.get(*i) == Some(&true) && (!filter.only_fitting || fits(*i));
        let order = match filter.sort {
            Sort::Best => match axle.map(|a| a.order.as_slice()).filter(|o| !o.is_empty()) {
                Some(order) => order,
                None => return rows.extend((0..is_found.len()).filter(passes)),
            },
            Sort::Rate => &self.sorted[0],
            Sort::FreeLength => &self.sorted[1],
            Sort::Price => &self.sorted[2],
        };
        rows.extend(order.iter().copied().filter(passes));
    }
}

/// The rows shown, kept until filter, list or choice is another.
#[derive(Debug, Default)]
pub(super) struct Rows {
    of: Option<(Filter, Side, Arc<OpenList>, u64)>,
    search: Search,
    pub rows: Vec<usize>,
    pub filtered: u64,
}

impl Rows {
    /// Filters again, if need be.
    pub fn update(&mut self, filter: &Filter, side: Side, list: &Arc<OpenList>, found: Option<&Found>) {
        let serial = found.map_or(0, |f| f.serial);
        let same = self
            .of
            .as_ref()
            .is_some_and(|(f, s, l, n)| f == filter && *s == side && Arc::ptr_eq(l, list) && *n == serial);
        if same {
            return;
        }
        let axle = found.filter(|f| Arc::ptr_eq(&f.list, list)).and_then(|f| f.axle(side));
        if self.of.as_ref().is_none_or(|(_, _, l, _)| !Arc::ptr_eq(l, list)) {
            self.search = Search::default();
        }
        self.rows.clear();
        list.rows(filter, axle, self.search.rows_with(&filter.words, &list.texts), &mut self.rows);
        self.of = Some((filter.clone(), side, Arc::clone(list), serial));
        self.filtered += 1;
    }

    /// They were filtered by this.
    pub fn are_of(&self, filter: &Filter, side: Side) -> bool {
        self.of.as_ref().is_none_or(|(f, s, _, _)| f == filter && *s == side)
    }
}
