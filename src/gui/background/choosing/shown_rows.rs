//! The rows of the open list that are shown.

use std::sync::Arc;

use super::open_list::{Filter, OpenList, Sort};
use super::work::{ForAxle, Found};
use crate::gui::background::texts::Search;
use crate::job::Side;

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
        passing(list, filter, axle, self.search.rows_with(&filter.words, &list.texts), &mut self.rows);
        self.of = Some((filter.clone(), side, Arc::clone(list), serial));
        self.filtered += 1;
    }

    /// They were filtered by this.
    pub fn are_of(&self, filter: &Filter, side: Side) -> bool {
        self.of.as_ref().is_none_or(|(f, s, _, _)| f == filter && *s == side)
    }
}

/// Places of the springs that are found and pass a filter, in its order. Without a choice the best are not known,
/// and the order is that of the file.
fn passing(list: &OpenList, filter: &Filter, axle: Option<&ForAxle>, is_found: &[bool], rows: &mut Vec<usize>) {
    let fits = |i: usize| axle.is_some_and(|a| a.fits.get(i) == Some(&true));
    let passes = |i: &usize| is_found.get(*i) == Some(&true) && (!filter.only_fitting || fits(*i));
    let order = match filter.sort {
        Sort::Best => match axle.map(|a| a.order.as_slice()).filter(|o| !o.is_empty()) {
            Some(order) => order,
            None => return rows.extend((0..is_found.len()).filter(passes)),
        },
        Sort::Rate => &list.sorted[0],
        Sort::FreeLength => &list.sorted[1],
        Sort::Price => &list.sorted[2],
    };
    rows.extend(order.iter().copied().filter(passes));
}
