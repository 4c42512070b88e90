//! Corners that were weighed more than once.

use super::Reading;
use crate::base::units::{Mass, Quantity};
use crate::job::read::{Again, Read, Weighing};

impl Reading<'_> {
    /// A corner that was read more than once is known no better than its readings scatter.
    pub(super) fn read_repeats(&mut self, is_before: bool) {
        let weighing = if is_before { &self.job.before } else { &self.job.after };
        if weighing.repeats.is_empty() {
            return;
        }
        for ((first, again), scatter) in corners(weighing).into_iter().zip(scatter(self, weighing)) {
            let Some(scatter) = scatter else { continue };
            let read = std::iter::once(first).chain(weighing.repeats.iter().map(again));
            for i in read.filter_map(Read::number) {
                if self.numbers[i].u_si < scatter {
                    self.numbers[i].scatters(scatter);
                }
            }
        }
    }
}

/// How much the readings of each corner scatter, kg: standard deviation of repeated weighings, LF, RF, LR, RR; `None`
/// where a corner was not read twice.
pub(in crate::solve) fn scatter(reading: &Reading<'_>, w: &Weighing) -> [Option<f64>; 4] {
    corners(w).map(|corner| {
        let read: Vec<f64> = readings(reading, w, corner).map(Mass::si).collect();
        let n = read.len() as f64;
        let mean = read.iter().sum::<f64>() / n;
        let squares: f64 = read.iter().map(|r| (r - mean).powi(2)).sum();
        (read.len() > 1).then(|| (squares / (n - 1.0)).sqrt())
    })
}

/// The first reading of a corner, and where its repeats stand.
type Corner<'a> = (&'a Read<Mass>, fn(&Again) -> &Read<Mass>);

/// LF, RF, LR, RR.
pub(in crate::solve) fn corners(w: &Weighing) -> [Corner<'_>; 4] {
    [(&w.lf, |a| &a.lf), (&w.rf, |a| &a.rf), (&w.lr, |a| &a.lr), (&w.rr, |a| &a.rr)]
}

/// All that was read of a corner.
pub(in crate::solve) fn readings<'a>(
    reading: &'a Reading<'_>,
    w: &'a Weighing,
    (first, again): Corner<'a>,
) -> impl Iterator<Item = Mass> + 'a {
    std::iter::once(first).chain(w.repeats.iter().map(again)).filter_map(|e| reading.typed(e))
}
