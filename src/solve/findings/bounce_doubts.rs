//! Findings about what recorded bounces showed.

use super::Say;
use crate::base::units::{Frequency, Quantity, Ratio};
use crate::job::Level;
use crate::message;
use crate::solve::answer::{AxleAnswer, BounceMeasured};

fn of(axle: &AxleAnswer, is_before: bool) -> &BounceMeasured {
    if is_before { &axle.bounce.before } else { &axle.bounce.after }
}

impl Say<'_> {
    pub(super) fn bounces(&mut self, axle: &AxleAnswer) {
        for is_before in [true, false] {
            self.damping_recorded(axle, is_before, of(axle, is_before));
            self.frequency_recorded(axle, is_before, of(axle, is_before));
        }
    }

    fn damping_recorded(&mut self, axle: &AxleAnswer, is_before: bool, found: &BounceMeasured) {
        let (Some(measured), Some(predicted)) = (found.damping, found.predicted) else { return };
        if !self.is_off(axle.side, |a| of(a, is_before).damping_off().map(Ratio::si)) {
            return;
        }
        let (measured, predicted) = (measured.si(), predicted.damping.si());
        let (side, axle) = (axle.side, axle.side.axle());
        let (level, when, text) = match is_before {
            true => (
                Level::Note,
                "before",
                message!(
                    "{axle}: the bounce test recorded before the change shows a damping ratio of {measured:.2}; {predicted:.2} is predicted. Use the recorded value as the damping ratio before the change, unless you have a better measurement.",
                    axle,
                    measured,
                    predicted
                ),
            ),
            false => (
                Level::Doubt,
                "after",
                message!(
                    "{axle}: the bounce test recorded after the change shows a damping ratio of {measured:.2}; {predicted:.2} was predicted. Check the click setting and the mounts, and that the ordered dampers are fitted; then record again.",
                    axle,
                    measured,
                    predicted
                ),
            ),
        };
        self.push(level, "bounce-damping", format!("{}.bounce.{when}.damping", side.key()), text);
    }

    fn frequency_recorded(&mut self, axle: &AxleAnswer, is_before: bool, found: &BounceMeasured) {
        let (Some(measured), Some(predicted)) = (found.frequency, found.predicted) else { return };
        if !self.is_off(axle.side, |a| of(a, is_before).frequency_off().map(Frequency::si)) {
            return;
        }
        let when = if is_before { "before" } else { "after" };
        let text = message!(
            "{axle}: the recorded bounce test shows a frequency of {measured:.2} Hz; {predicted:.2} Hz is predicted. Weights, motion ratio, spring rate or tyre differ from the job: see the cross-checks of this axle.",
            axle = axle.side.axle(),
            measured = measured.si(),
            predicted = predicted.frequency.si()
        );
        self.push(Level::Doubt, "bounce-frequency", format!("{}.bounce.{when}.frequency", axle.side.key()), text);
    }
}
