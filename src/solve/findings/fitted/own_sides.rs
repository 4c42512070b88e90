//! Findings about what one side of an axle has of its own.

use crate::base::units::{Length, Quantity as _, SpringRate};
use crate::job::{Level, SpringKind};
use crate::message;
use crate::solve::answer::AxleAnswer;
use crate::solve::evaluate::own_springs::{has_a_rate, takes_a_free_length};
use crate::solve::findings::Say;

impl Say<'_> {
    /// What was typed of one side and cannot count.
    pub(in crate::solve::findings) fn own_sides(&mut self, axle: &AxleAnswer) {
        let Some(new) = &axle.standing.new else { return };
        let (data, key, who) = (self.job().axle(axle.side), axle.side.key(), axle.side.word());
        let kept_spacer: Option<Length> = self.reading.typed(&data.spacer);
        if kept_spacer.is_some_and(|s| s.si() != 0.0) && axle.parts.kept_spacers.is_none() {
            let text = if axle.keeps() {
                message!(
                    "{who}: a torsion bar cannot have a spacer; the value is not used. Re-index the bar instead.",
                    who
                )
            } else {
                message!(
                    "{who}: a spacer under the old spring counts only if the old springs stay; the value is not used here. Leave the field blank.",
                    who
                )
            };
            self.push(Level::Doubt, "spacer-not-used", format!("{key}.spacer"), text);
        }
        for (own, side) in [(&data.left, "left"), (&data.right, "right")] {
            let rate: Option<SpringRate> = self.reading.typed(&own.rate);
            if rate.is_some() && !has_a_rate(&new.curve.spring) {
                self.push(Level::Doubt, "side-not-used", format!("{key}.{side}.rate"), message!(
                    "{who}: a rate for one side applies only to coil and leaf springs of constant rate; the value is not used here. Leave the field blank.",
                    who
                ));
            }
            let free: Option<Length> = self.reading.typed(&own.free_length);
            if free.is_some() && !takes_a_free_length(axle) {
                self.push(Level::Doubt, "side-not-used", format!("{key}.{side}.free_length"), message!(
                    "{who}: a free length for one side applies only to coil springs, and only if the axle's spring was measured fitted; the value is not used here. Enter the fitted length, or a spacer for that side.",
                    who
                ));
            }
            let solid: Option<Length> = self.reading.typed(&own.solid_length);
            if solid.is_some() && !takes_a_free_length(axle) {
                self.push(Level::Doubt, "side-not-used", format!("{key}.{side}.solid_length"), message!(
                    "{who}: a solid length for one side applies only to coil springs, and only if the axle's spring was measured fitted; the value is not used here. Leave the field blank.",
                    who
                ));
            }
            let spacer: Option<Length> = self.reading.typed(&own.spacer);
            if spacer.is_some() && axle.kind == SpringKind::TorsionBar {
                self.push(Level::Doubt, "side-not-used", format!("{key}.{side}.spacer"), message!(
                    "{who}: a torsion bar cannot have a spacer; the value is not used. Re-index the bar on that side instead.",
                    who
                ));
            }
        }
    }
}
