//! How sure the customer's page is, in words.

use crate::base::units::{Length, Quantity};
use crate::report::sections::sentence;
use crate::report::sheets::page::Page;
use crate::solve::answer::AxleAnswer;
use crate::solve::drawn;

/// Findings of two measurements of the same thing that do not agree.
const APART: [&str; 5] =
    ["ratio-ways-apart", "stamp-against-wire", "arch-against-weight", "coils-contradict", "rows-off"];

/// How sure it all is, in words.
pub(super) fn sure(page: &Page<'_>) -> String {
    use crate::job::Side;
    let weighed = Side::BOTH.map(|s| page.read_weight(1, s).map(|w| w.1));
    let before = Side::BOTH.map(|s| page.read_weight(0, s).map(|w| w.1));
    let mut said = vec![page.plain(match (weighed, before) {
        ([Some(true), Some(true)], [Some(true), Some(true)]) if counts_a_load(page) => "sure.weighed_loaded",
        ([Some(true), Some(true)], [Some(true), Some(true)]) => "sure.weighed",
        ([Some(true), Some(true)], [None, _] | [_, None]) => "sure.weighed_after_only",
        ([Some(true), Some(true)], _) => "sure.before_by_list",
        ([None, _] | [_, None], _) => "sure.not_weighed",
        _ => "sure.by_list",
    })];
    let renewed = page.refitted();
    if renewed.is_empty() {
        return said.join(" ");
    }
    let is_new = renewed.iter().any(|axle| !axle.is_set_again());
    let is_placed = renewed.iter().any(|axle| page.value::<Length>(axle, "new_springs.height_change").is_some());
    said.push(page.plain(match (is_new, is_placed) {
        (true, true) => "sure.worked_out",
        (true, false) => "sure.bounces_worked_out",
        (false, _) => "sure.worked_out_old",
    }));
    said.extend(known_how_well(page, &renewed));
    said.extend(renewed.iter().filter_map(|a| spread(page, a)));
    let assumed: usize = renewed.iter().map(|a| sentence::assumed(page.answer, a).len()).sum();
    let not_measured = renewed.iter().flat_map(|a| page.answer.not_measured(a.side)).count();
    match (assumed, not_measured) {
        (0, 0) => said.push(page.plain("sure.own_numbers")),
        (0, _) => {}
        (1, _) => said.push(page.plain("sure.one_assumed")),
        (n, _) => said.push(page.say("sure.assumed", &[("count", &n.to_string())])),
    }
    match not_measured {
        0 => {}
        1 => said.push(page.plain("sure.one_quoted")),
        n => said.push(page.say("sure.quoted", &[("count", &n.to_string())])),
    }
    said.join(" ")
}

/// Something else than what stood on the scales is shown: a load that springs are sized on, or one that is too much.
fn counts_a_load(page: &Page<'_>) -> bool {
    page.load_words().is_some() || page.is_stopped() && page.over().any(|(case, _)| case.index.is_some())
}

/// ± of the ride frequency on the new springs, Hz.
fn frequency_u(page: &Page<'_>, axle: &AxleAnswer) -> Option<f64> {
    let checked = page.answer.checked(axle.side);
    checked.nudged.u_of(|a| Some(a.standing.new.as_ref()?.frequency.si())).filter(|u| *u > 0.0)
}

/// In words, by the axle that is known worst.
fn known_how_well(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Option<String> {
    if renewed.iter().any(|axle| page.doubts(axle).any(|finding| APART.contains(&finding.rule))) {
        return Some(page.plain("sure.apart"));
    }
    let share = |a: &&AxleAnswer| Some(frequency_u(page, a)? / a.standing.new.as_ref()?.frequency.si());
    Some(page.plain(match renewed.iter().filter_map(share).reduce(f64::max)? {
        share if share < 0.03 => "sure.close",
        share if share < 0.07 => "sure.fair",
        _ => "sure.rough",
    }))
}

/// "Two times in three the front comes out within 4 mm of this height and within 0.03 of these bounces per second": drawn,
/// and rounded up, so that it holds.
fn spread(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let within = drawn::two_in_three(page.job, axle)?;
    let bounces = page.two_places((within.frequency.si() * 100.0).ceil() / 100.0);
    let page = page.on(axle.side);
    Some(match within.height {
        Some(height) => page.say("sure.within", &[("height", &page.at_least(height)), ("bounces", &bounces)]),
        None => page.say("sure.within_bounces", &[("bounces", &bounces)]),
    })
}
