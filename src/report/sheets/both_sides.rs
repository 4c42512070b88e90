//! Left and right on the sheets: springs that differ, and what the corners then carry.

use super::Block;
use super::page::Page;
use crate::base::units::{Length, Quantity, SpringRate};
use crate::job::OwnSpring;
use crate::solve::answer::AxleAnswer;

const CORNERS: [&str; 4] = ["corner.lf", "corner.rf", "corner.lr", "corner.rr"];
/// A body that is lower on one side by no more is level on a sheet, m.
const LEVEL_M: f64 = 0.002;

/// Results for each side of an axle that has a spring of its own: what is typed of it; the rest is the axle's.
pub(super) fn own_springs(page: &Page<'_>, axle: &AxleAnswer) -> Vec<(&'static str, String)> {
    let data = page.job.axle(axle.side);
    let row = |key: &'static str, side: &str, own: &OwnSpring| {
        let rate = page.typed_of(axle, &format!("{side}.rate"), &own.rate);
        let free = page.typed_of(axle, &format!("{side}.free_length"), &own.free_length);
        let spacer: Option<Length> = page.typed_of(axle, &format!("{side}.spacer"), &own.spacer);
        let spacer = spacer.map(|s| page.say("order.own_spacer", &[("amount", &page.qty(s))]));
        let all = [rate.map(|k: SpringRate| page.qty(k)), free.map(|l: Length| page.qty(l)), spacer];
        let said: Vec<String> = all.into_iter().flatten().collect();
        (!said.is_empty()).then(|| (key, said.join(", ")))
    };
    [row("order.own_left", "left", &data.left), row("order.own_right", "right", &data.right)]
        .into_iter()
        .flatten()
        .collect()
}

/// What the corners carry on the springs of the order, and how level the body then is; without corner weights, that it is
/// not known.
pub(super) fn corners(page: &Page<'_>) -> Block {
    if page.answer.after.corners.is_none() {
        return page.text("order.corners_unknown", &[]);
    }
    let Some(corners) = page.answer.whole.corners.new else { return page.text("order.corners_open", &[]) };
    let weights = CORNERS.into_iter().zip(corners.weight.walk());
    let weights: Vec<String> =
        weights.map(|(key, weight)| format!("{} {}", page.plain(key), page.qty(weight))).collect();
    let lower = corners.right_lower.si();
    let (weights, amount) = (weights.join(", "), page.qty(Length::from_si(lower.abs())));
    match lower {
        l if l.abs() <= LEVEL_M => page.text("order.corners_level", &[("weights", &weights)]),
        l if l > 0.0 => page.text("order.corners_right", &[("weights", &weights), ("amount", &amount)]),
        _ => page.text("order.corners_left", &[("weights", &weights), ("amount", &amount)]),
    }
}
