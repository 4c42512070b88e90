//! How well the height is predicted, with what it is corrected, and how far the body leans.

use crate::base::units::{Length, Quantity};
use crate::job::{BagFitted, SpringKind};
use crate::report::phrases;
use crate::report::sheets::both_sides::LEVEL_M;
use crate::report::sheets::page::Page;
use crate::report::sheets::procedure::{Construction, Unit};
use crate::solve::answer::AxleAnswer;
use crate::solve::drawn;

/// With what a height is corrected, of each axle whose springs came out; then the lean.
pub(super) fn lines(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<String> {
    let placed = renewed.iter().filter(|axle| super::is_placed(axle));
    placed.map(|axle| phrases::upper_first(&correction(page, axle))).chain(lean(page)).collect()
}

/// A tolerance that is narrower than the forecast is expected to be missed.
fn correction(page: &Page<'_>, axle: &AxleAnswer) -> String {
    let (page, means) = (page.on(axle.side), page.plain(means(page, axle)));
    let within = page.answer.reweigh.arch[axle.side.corners()[0]].within;
    let forecast = drawn::two_in_three(page.job, axle).and_then(|within| within.height);
    let Some((forecast, within)) = forecast.zip(within).filter(|(forecast, within)| forecast.si() > within.si()) else {
        return page.say("fit.correct", &[("means", &means)]);
    };
    let (amount, within) = (page.at_least(forecast), page.within(within));
    page.say("fit.correct_wide", &[("means", &means), ("amount", &amount), ("within", &within)])
}

fn means(page: &Page<'_>, axle: &AxleAnswer) -> &'static str {
    let data = page.job.axle(axle.side);
    match axle.kind {
        SpringKind::TorsionBar => "fit.means.bar",
        _ if data.bag.fitted != BagFitted::No => "fit.means.bag",
        SpringKind::Leaf => "fit.means.leaf",
        _ if Construction::of(data).unit == Unit::Apart => "fit.means.coil",
        _ => "fit.means.unit",
    }
}

/// How far the body leans on these springs, at the weights that are aimed at.
fn lean(page: &Page<'_>) -> Option<String> {
    let whole = &page.answer.whole;
    let set = whole.cross.filter(|_| page.answer.reweigh.cross_set).map(|cross| cross.right_lower);
    let lower = set.or(whole.corners.new.map(|corners| corners.right_lower))?.si();
    let key = match lower {
        l if l.abs() <= LEVEL_M => return None,
        l if l > 0.0 => "fit.lean_right",
        _ => "fit.lean_left",
    };
    Some(page.say(key, &[("amount", &page.qty(Length::from_si(lower.abs())))]))
}
