//! Findings about what one side of an axle has of its own.

use crate::base::message::Message;
use crate::base::units::{Angle, Length, Quantity as _, SpringRate};
use crate::job::read::OwnSpring;
use crate::job::{Level, SpringKind};
use crate::message;
use crate::solve::answer::AxleAnswer;
use crate::solve::evaluate::own_springs::{has_a_rate, takes_a_free_length};
use crate::solve::findings::Say;

impl Say<'_> {
    /// What was typed of old springs that stay, or of one side, and cannot count.
    pub(in crate::solve::findings) fn own_sides(&mut self, axle: &AxleAnswer) {
        if axle.standing.new.is_none() {
            return;
        }
        let data = self.job().axle(axle.side);
        self.spacer_and_index(axle);
        for (own, side) in [(&data.left, "left"), (&data.right, "right")] {
            self.one_side(axle, own, side);
        }
    }

    fn spacer_and_index(&mut self, axle: &AxleAnswer) {
        let (data, key, who) = (self.job().axle(axle.side), axle.side.key(), axle.side.word());
        let spacer: Option<Length> = self.reading.typed(&data.spacer);
        if spacer.is_some_and(|s| s.si() != 0.0) && (!axle.keeps() || is_bar(axle)) {
            let text = match axle.keeps() {
                true => message!(
                    "{who}: a torsion bar cannot have a spacer; the value is not used. Re-index the bar instead: enter by how much.",
                    who
                ),
                false => message!(
                    "{who}: a spacer under the old spring counts only if the old springs stay; the value is not used here. Leave the field blank.",
                    who
                ),
            };
            self.push(Level::Doubt, "spacer-not-used", format!("{key}.spacer"), text);
        }
        let index: Option<Angle> = self.reading.typed(&data.index);
        if index.is_some_and(|by| by.si() != 0.0) && !is_indexed(axle) {
            self.push(Level::Doubt, "index-not-used", format!("{key}.index"), only_old_bars(axle));
        }
        let leaf: Option<SpringRate> = self.reading.typed(&data.added_leaf.rate);
        if leaf.is_some() && !(axle.keeps() && axle.kind == SpringKind::Leaf) {
            self.push(Level::Doubt, "leaf-not-used", format!("{key}.added_leaf.rate"), message!(
                "{who}: a leaf can be added only to old leaf springs that stay; the value is not used here. Leave the field blank.",
                who
            ));
        }
    }

    fn one_side(&mut self, axle: &AxleAnswer, own: &OwnSpring, side: &str) {
        let who = axle.side.word();
        let reading = self.reading;
        let has_rate = axle.standing.new.as_ref().is_some_and(|new| has_a_rate(&new.curve.spring));
        let mut not_used = |of: &str, text: Message| {
            self.push(Level::Doubt, "side-not-used", format!("{}.{side}.{of}", axle.side.key()), text);
        };
        if reading.typed(&own.rate).is_some() && !has_rate {
            not_used(
                "rate",
                message!(
                    "{who}: a rate for one side applies only to coil and leaf springs of constant rate; the value is not used here. Leave the field blank.",
                    who
                ),
            );
        }
        if reading.typed(&own.free_length).is_some() && !takes_a_free_length(axle) {
            not_used(
                "free_length",
                message!(
                    "{who}: a free length for one side applies only to coil springs, and only if the axle's spring was measured fitted; the value is not used here. Enter the fitted length, or a spacer for that side.",
                    who
                ),
            );
        }
        if reading.typed(&own.solid_length).is_some() && !takes_a_free_length(axle) {
            not_used(
                "solid_length",
                message!(
                    "{who}: a solid length for one side applies only to coil springs, and only if the axle's spring was measured fitted; the value is not used here. Leave the field blank.",
                    who
                ),
            );
        }
        if reading.typed(&own.spacer).is_some() && is_bar(axle) {
            not_used(
                "spacer",
                message!(
                    "{who}: a torsion bar cannot have a spacer; the value is not used. Re-index the bar on that side instead: enter by how much.",
                    who
                ),
            );
        }
        if reading.typed(&own.index).is_some() && !is_indexed(axle) {
            not_used("index", only_old_bars(axle));
        }
    }
}

fn is_bar(axle: &AxleAnswer) -> bool {
    axle.kind == SpringKind::TorsionBar
}

/// It keeps its bars, which can be indexed again.
fn is_indexed(axle: &AxleAnswer) -> bool {
    is_bar(axle) && axle.keeps()
}

fn only_old_bars(axle: &AxleAnswer) -> Message {
    message!(
        "{who}: only an old torsion bar that stays can be re-indexed; the value is not used here. Leave the field blank.",
        who = axle.side.word()
    )
}
