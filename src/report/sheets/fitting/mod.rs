//! The fitting sheet: parts, order of work by construction, forces and energies, targets with room for what is found.

mod corrected;
mod energy;
mod parts;
mod targets;
mod work;

use super::header;
use super::judged::Verdict;
use super::open;
use super::page::Page;
use super::{Block, Report};
use crate::report::sections::unchecked;
use crate::report::sheets::header::check_again_after;
use crate::solve::answer::AxleAnswer;

/// A line to write on, in a table.
const BLANK: &str = "________";

/// A coil whose length is not known has no seat and is at no height yet.
fn is_placed(axle: &AxleAnswer) -> bool {
    !axle.kind.is_coil() || axle.standing.new.as_ref().is_some_and(|s| s.spring_length.is_some())
}

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks: Vec<Block> = header::working_names(page).into_iter().collect();
    let title = page.plain("fit.title");
    if page.is_stopped() {
        blocks.extend(page.stops().into_iter().map(Block::Caution));
        blocks.push(page.text("fit.stopped", &[]));
        blocks.extend(unchecked::lines(page.job, page.answer).into_iter().map(Block::Text));
        return Report { title, blocks };
    }
    let (renewed, redamped) = (page.refitted(), page.redamped());
    blocks.extend(page.answer.axles.iter().filter_map(|axle| page.withheld(axle)));
    if renewed.is_empty() {
        let is_open = |axle: &AxleAnswer| matches!(page.verdict(axle), Verdict::Unanswered | Verdict::MeasureFirst);
        let key = if page.answer.axles.iter().any(is_open) { "fit.nothing" } else { "fit.nothing_stays" };
        blocks.push(page.text(key, &[]));
    }
    blocks.extend(redamped.iter().map(|axle| page.on(axle.side).text("fit.dampers_alone", &[])));
    let rebarred = page.rebarred();
    blocks.extend(rebarred.iter().filter_map(|axle| parts::roll_bar(page, axle)));
    blocks.extend(open::said(page));
    if renewed.is_empty() && redamped.is_empty() && rebarred.is_empty() {
        blocks.extend(unchecked::lines(page.job, page.answer).into_iter().map(Block::Text));
        return Report { title, blocks };
    }
    let load = page.sized_case_words("fit.case").filter(|_| !renewed.is_empty());
    blocks.extend(load.map(Block::Text));
    blocks.extend(renewed.iter().flat_map(|axle| parts::blocks(page, axle)));
    let all = page.answer.axles.iter();
    blocks.extend(all.filter(|axle| page.needs_dampers(axle)).filter_map(|axle| parts::dampers(page, axle)));
    blocks.extend(page.answer.axles.iter().filter_map(|axle| parts::tested_dampers(page, axle)));
    blocks.extend(parts::seats(page));
    blocks.extend(energy::blocks(page, &renewed));
    let worked_on: Vec<&AxleAnswer> = page
        .answer
        .axles
        .iter()
        .filter(|a| {
            parts::is_tested_alone(page, a)
                || [&renewed, &redamped, &rebarred].iter().any(|l| l.iter().any(|b| b.side == a.side))
        })
        .collect();
    blocks.extend(work::blocks(page, &worked_on));
    blocks.extend(targets::blocks(page, &renewed));
    blocks.extend(unchecked::lines(page.job, page.answer).into_iter().map(Block::Text));
    blocks.push(page.caution("mind.compliance", &[]));
    blocks.push(Block::Blanks(
        ["sign.fitter", "sign.road_test", "sign.later", "sign.date"]
            .map(|k| page.say(k, &[("distance", check_again_after(page.units()))]))
            .to_vec(),
    ));
    Report { title, blocks }
}
