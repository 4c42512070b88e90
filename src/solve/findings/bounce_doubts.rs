//! Findings about what recorded bounces showed.

use super::Say;
use crate::base::units::{Frequency, Quantity, Ratio};
use crate::job::Level;
use crate::message;
use crate::solve::answer::{AxleAnswer, State};

impl Say<'_> {
    pub(super) fn bounces(&mut self, axle: &AxleAnswer) {
        for state in [State::Before, State::NewSprings] {
            self.damping_recorded(axle, state);
            self.frequency_recorded(axle, state);
        }
    }

    fn damping_recorded(&mut self, axle: &AxleAnswer, state: State) {
        let found = axle.bounce.of(state);
        let (Some(measured), Some(predicted)) = (found.damping, found.predicted) else { return };
        if !self.is_off(axle.side, |a| a.bounce.of(state).damping_off().map(Ratio::si)) {
            return;
        }
        let (measured, predicted) = (measured.si(), predicted.damping.si());
        let (side, axle) = (axle.side, axle.side.axle());
        let (level, when, text) = match state {
            State::Before => (
                Level::Note,
                "before",
                message!(
                    "{axle}: the bounce test recorded before the change shows a damping ratio of {measured:.2}; {predicted:.2} is predicted. Use the recorded value as the damping ratio before the change, unless you have a better measurement.",
                    axle,
                    measured,
                    predicted
                ),
            ),
            State::OldSprings | State::NewSprings => (
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

    fn frequency_recorded(&mut self, axle: &AxleAnswer, state: State) {
        let found = axle.bounce.of(state);
        let (Some(measured), Some(predicted)) = (found.frequency, found.predicted) else { return };
        if !self.is_off(axle.side, |a| a.bounce.of(state).frequency_off().map(Frequency::si)) {
            return;
        }
        let when = if state == State::Before { "before" } else { "after" };
        let text = message!(
            "{axle}: the recorded bounce test shows a frequency of {measured:.2} Hz; {predicted:.2} Hz is predicted. Weights, motion ratio, spring rate or tyre differ from the job: see the cross-checks of this axle.",
            axle = axle.side.axle(),
            measured = measured.si(),
            predicted = predicted.frequency.si()
        );
        self.push(Level::Doubt, "bounce-frequency", format!("{}.bounce.{when}.frequency", axle.side.key()), text);
    }
}
