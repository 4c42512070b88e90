//! Hub to arch of an axle, however it was measured.

use super::Reading;
use crate::base::units::Length;
use crate::job::Side;

impl Reading<'_> {
    /// Hub to arch of an axle before or after, on the old springs: its mean as typed, else that of its corners.
    pub fn arch_mean(&self, side: Side, is_before: bool) -> Option<Length> {
        let checks = &self.job.axle(side).checks;
        let (mean, weighing) = match is_before {
            true => (&checks.arch_before, &self.job.before),
            false => (&checks.arch_after, &self.job.after),
        };
        let arch = &weighing.arch;
        let [left, right] = match side {
            Side::Front => [&arch.lf, &arch.rf],
            Side::Rear => [&arch.lr, &arch.rr],
        };
        self.typed(mean).or_else(|| Some((self.typed(left)? + self.typed(right)?) / 2.0))
    }
}
