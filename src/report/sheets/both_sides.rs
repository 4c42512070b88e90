//! Left and right on the sheets: springs that differ, and what the corners then carry.

use super::Block;
use super::page::Page;
use crate::base::units::{Entry, Length, Quantity, SpringRate};
use crate::job::OwnSpring;
use crate::solve::answer::AxleAnswer;

const CORNERS: [&str; 4] = ["corner.lf", "corner.rf", "corner.lr", "corner.rr"];
/// A body that is lower on one side by no more is level on a sheet, m.
pub(super) const LEVEL_M: f64 = 0.002;

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

/// The spacers left and right of the springs as they will be fitted, where there are any.
pub(super) fn spacers(page: &Page<'_>, axle: &AxleAnswer) -> [Option<Length>; 2] {
    let data = page.job.axle(axle.side);
    let of = |path: &str, own: &Entry<Length>| {
        page.typed_of(axle, path, own).or_else(|| page.fitted_spacer(axle)).filter(|s| s.si() != 0.0)
    };
    [of("left.spacer", &data.left.spacer), of("right.spacer", &data.right.spacer)]
}

/// What the corners carry on the springs of the order, as on the fitting sheet; without corner weights, that it is not
/// known.
pub(super) fn corners(page: &Page<'_>) -> Block {
    let targets = page.answer.reweigh.corners.iter().map(|corner| corner.foretold);
    let weights: Vec<String> = CORNERS
        .into_iter()
        .zip(targets)
        .filter_map(|(key, weight)| Some(format!("{} {}", page.plain(key), page.qty(weight?))))
        .collect();
    if weights.is_empty() {
        return page.text("order.corners_unknown", &[]);
    }
    let load = if page.answer.after.corners.is_some() { "order.load_weighed" } else { "order.load_predicted" };
    let (load, weights) = (page.plain(load), weights.join(", "));
    page.text("order.corners", &[("load", &load), ("weights", &weights)])
}
