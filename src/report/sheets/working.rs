//! The working: every result with its formula, the numbers put in, what it means, and where the formula comes from.
//!
//! Each value is in the job's units, then in kilograms, metres, newtons, seconds and radians, in which the numbers put
//! in are, so that a formula needs no conversion. [`brief`](super::working_brief) is the same of what decides the
//! order.

use std::collections::BTreeSet;

use super::header;
use super::page::Page;
use super::{Block, Report};
use crate::base::language::tr;
use crate::base::sources;
use crate::base::units::{Dim, Length, Quantity as _, display};
use crate::job::Side;
use crate::report::phrases;
use crate::report::results::as_json::si_unit;
use crate::report::results::{self, Figure, Say};
use crate::report::sheets::sheet;

/// Results about parts that would be chosen: not shown of an axle that is withheld. The sheet of everything has the
/// engineer's numbers among them, marked.
const CHOICES: [&str; 13] = [
    ".sizing.",
    ".room.",
    ".damping.",
    ".new_springs",
    ".new_damper.",
    ".old_damper.hot_ratio",
    ".old_bars",
    ".wound.",
    ".offered.",
    ".levelled.",
    ".added_leaf.",
    ".by_air.",
    ".remedies.",
];

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks = opening(page);
    let all = results::figures(page.answer);
    let mut part = String::new();
    let mut items = Vec::new();
    let mut cited = BTreeSet::new();
    for figure in all.iter().filter(|figure| is_shown(page, figure)) {
        let of = figure.key.split('.').next().unwrap_or_default();
        if of != part {
            flush(page, &mut blocks, &part, &mut items);
            part = of.to_owned();
        }
        let means = [("convention", figure.convention), ("source", figure.source)];
        items.push(worked_out(page, figure) + &page.say("work.means", &means));
        cited.insert(figure.source);
    }
    flush(page, &mut blocks, &part, &mut items);
    blocks.extend([page.heading("work.conventions"), Block::Text(sheet::conventions(page.units()))]);
    blocks.extend(sources_cited(page, cited));
    Report { title: page.plain("work.title"), blocks }
}

/// Whose job it is, what stops or withholds it, what was overruled, and how numbers are put in.
pub(super) fn opening(page: &Page<'_>) -> Vec<Block> {
    let mut blocks: Vec<Block> = header::working_names(page).into_iter().collect();
    if page.is_stopped() {
        blocks.extend(page.stops().into_iter().map(Block::Caution));
        blocks.push(page.text("work.stopped", &[]));
    }
    blocks.extend(page.answer.axles.iter().flat_map(|axle| page.overruled(axle)));
    blocks.push(page.text("work.note", &[("gravity", &sheet::gravity(page.units()))]));
    blocks.extend(page.answer.axles.iter().filter(|_| !page.is_stopped()).filter_map(|axle| page.withheld(axle)));
    blocks
}

/// It is known, and nothing that would be chosen for an axle that is withheld.
pub(super) fn is_shown(page: &Page<'_>, figure: &Figure) -> bool {
    figure.si.is_some() && !is_withheld_choice(page, &figure.key)
}

/// What would be chosen for an axle that is withheld.
pub(super) fn is_withheld_choice(page: &Page<'_>, key: &str) -> bool {
    is_choice(key) && is_withheld(page, key)
}

/// The sources of these keys.
pub(super) fn sources_cited(page: &Page<'_>, cited: BTreeSet<&'static str>) -> [Block; 2] {
    let sources = cited.into_iter().map(|key| format!("{key}: {}", sources::cite(key)));
    [page.heading("work.sources"), Block::List(sources.collect())]
}

/// The axle of this result is withheld; of one that is no axle's, any.
fn is_withheld(page: &Page<'_>, key: &str) -> bool {
    let own = Side::BOTH.into_iter().find(|side| key.split('.').next() == Some(side.key()));
    let withheld = |side: &Side| page.answer.released(*side).is_err();
    own.map_or_else(|| Side::BOTH.iter().any(withheld), |side| withheld(&side))
}

fn is_choice(key: &str) -> bool {
    CHOICES.iter().any(|c| key.contains(c))
}

/// What belongs together, under its heading.
fn flush(page: &Page<'_>, blocks: &mut Vec<Block>, part: &str, items: &mut Vec<String>) {
    if items.is_empty() {
        return;
    }
    let heading = match part {
        "before" => page.plain("work.before"),
        "after" => page.plain("work.after"),
        "front" => phrases::upper_first(&page.plain("front.axle")),
        "rear" => phrases::upper_first(&page.plain("rear.axle")),
        "compared" => page.plain("work.compared"),
        "ledger" => page.plain("work.ledger"),
        "whole" => page.plain("work.whole"),
        "fitted" => page.plain("work.fitted"),
        _ => page.plain("work.cases"),
    };
    // Load cases follow each other under one heading.
    if blocks.iter().all(|b| *b != Block::Heading(heading.clone())) {
        blocks.push(Block::Heading(heading));
    }
    blocks.push(Block::List(std::mem::take(items)));
}

/// "front: ride frequency = 1.26 Hz (1.2610 Hz ± 0.02 Hz). f = √(k_w / m_s) / 2π; k_w = 26130.44 N/m, m_s = 416.0000 kg. "
pub(super) fn worked_out(page: &Page<'_>, figure: &Figure) -> String {
    let value = figure.si.map_or_else(String::new, |si| base(si, figure.dim, VALUE));
    let shown = figure.si.map_or_else(String::new, |si| match figure.say {
        Say::Sold => display::as_sold(Length::from_si(si), page.units()),
        _ => display::rounded_si(si, figure.dim, page.units()),
    });
    let unit = page.units().unit(figure.dim);
    let u = figure.si.zip(figure.u_si).and_then(|(si, u)| display::u_that_matters(si, u, unit));
    let u = u.map_or_else(String::new, |u| format!(" ± {}", base(display::to_figures(u * unit.si, 2), figure.dim, 2)));
    let known: Vec<String> =
        figure.with.iter().map(|(symbol, si, dim)| format!("{symbol} = {}", base(*si, *dim, PUT_IN))).collect();
    // In a job in inches what is metric stands in brackets.
    let with = match known.join(", ").as_str() {
        "" => String::new(),
        known if page.units().in_inches() => format!("; ({known})"),
        known => format!("; {known}"),
    };
    let value = match is_same(&value, &shown) {
        true => format!("{value}{u}"),
        false => format!("{shown} ({value}{u})"),
    };
    page.mark_numbers(&format!("{} = {value}. {}{with}. ", figure.name, formula(figure.formula)))
}

/// A formula as it is printed: symbols are the same in every language, words are not.
fn formula(formula: &'static str) -> &'static str {
    match formula {
        "as entered, or the default" => tr("as entered, or the default"),
        "as entered, or as before the change" => tr("as entered, or as before the change"),
        symbols => symbols,
    }
}

/// Significant figures of a result, and of the numbers put into its formula.
const VALUE: usize = 5;
const PUT_IN: usize = 7;

fn is_same(base: &str, shown: &str) -> bool {
    base.split(' ').nth(1) == shown.split(' ').nth(1)
}

/// A number in kilograms, metres, newtons, seconds, radians.
fn base(si: f64, dim: Dim, figures: usize) -> String {
    // What is left of the difference of two equal numbers.
    const NOTHING: f64 = 1e-12;
    let si = if si.abs() < NOTHING { 0.0 } else { si };
    let number =
        if si != 0.0 && si.abs() < 1e-4 { format!("{si:.*e}", figures - 1) } else { display::significant(si, figures) };
    format!("{number} {}", symbol(dim)).trim_end().to_owned()
}

fn symbol(dim: Dim) -> &'static str {
    if dim == Dim::Ratio { "" } else { si_unit(dim) }
}
