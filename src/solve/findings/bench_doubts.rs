//! Findings about what a suspension bench measured.

use super::Say;
use crate::base::units::{Quantity, Ratio};
use crate::job::Level;
use crate::message;
use crate::solve::answer::{AxleAnswer, BenchMarks, BenchMeasured, State};

impl Say<'_> {
    pub(super) fn bench(&mut self, axle: &AxleAnswer) {
        let marks = self.answer.bench_marks;
        for (when, state) in [("before", State::Before), ("after", State::NewSprings)] {
            self.sides_of_bench(axle, when, axle.bench.measured.of(state), &marks);
            self.bench_against_predicted(axle, when, state);
        }
        self.light_on_bench(axle, &marks);
    }

    /// Left and right differ by more than the inspection allows.
    fn sides_of_bench(&mut self, axle: &AxleAnswer, when: &str, found: &BenchMeasured, marks: &BenchMarks) {
        let (Some(share), Some(limit)) = (found.left_right(), marks.left_right) else { return };
        let [left, right] = found.adhesion.map(|a| a.map_or(f64::NAN, Ratio::si_percent)).both();
        if share <= limit {
            return;
        }
        let weaker = if left < right { "left" } else { "right" };
        self.push(Level::Doubt, "bench-left-right", format!("{}.bench.{when}.{weaker}", axle.side.key()), message!(
            "{axle}: the bench shows {left:.0} % on the left and {right:.0} % on the right, a difference of {share:.0} % of the larger value; at most {limit:.0} % is usual. Check both tyre pressures, then the damper on the weaker side.",
            axle = axle.side.axle(), left, right, share = share.si_percent(), limit = limit.si_percent()
        ));
    }

    /// What was measured is not what was predicted, beyond both ±.
    fn bench_against_predicted(&mut self, axle: &AxleAnswer, when: &str, state: State) {
        let found = axle.bench.measured.of(state);
        let (Some(off), Some(predicted)) = (found.adhesion_off(), found.predicted) else { return };
        if !self.is_off(axle.side, |a| a.bench.measured.of(state).adhesion_off().map(Ratio::si)) {
            return;
        }
        let (measured, predicted) = ((off + predicted.adhesion).si_percent(), predicted.adhesion.si_percent());
        let field = format!("{}.bench.{when}.left", axle.side.key());
        let text = match off.si() < 0.0 {
            true => message!(
                "{axle}: the bench shows {measured:.0} % adhesion; {predicted:.0} % is predicted. Worn dampers, or a stiffer tyre or higher pressure than assumed, give a low reading. Check the tyre rate and the field \"Damping ratio before the change\".",
                axle = axle.side.axle(),
                measured,
                predicted
            ),
            false => message!(
                "{axle}: the bench shows {measured:.0} % adhesion; {predicted:.0} % is predicted. The dampers give more damping than assumed, or the tyre is softer. Check the tyre rate and the field \"Damping ratio before the change\".",
                axle = axle.side.axle(),
                measured,
                predicted
            ),
        };
        self.push(Level::Note, "bench-off", field, text);
    }

    /// A stiff tyre under a light axle reads low with sound dampers.
    fn light_on_bench(&mut self, axle: &AxleAnswer, marks: &BenchMarks) {
        let found = &axle.bench.measured.after;
        let (Some(on), Some(good)) = (axle.bench.as_fitted(), marks.good) else { return };
        let reads_low = found.adhesion.both().into_iter().flatten().any(|adhesion| adhesion < good);
        if !reads_low || !axle.is_light_on_bench(good) {
            return;
        }
        let field = format!("{}.bench.after.left", axle.side.key());
        self.push(Level::Note, "bench-light-axle", field, message!(
            "{axle}: the bench reads low, as expected: {predicted:.0} % is predicted for dampers within the target range. A stiff tyre under a light axle keeps the adhesion down; the phase angle says more about the dampers.",
            axle = axle.side.axle(), predicted = on.cold.adhesion.si_percent()
        ));
    }
}

/// A share as a number of per cent.
trait Percent {
    fn si_percent(self) -> f64;
}

impl Percent for Ratio {
    fn si_percent(self) -> f64 {
        100.0 * self.si()
    }
}
