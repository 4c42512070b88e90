//! The working: every result with its formula, the numbers put in, what it means, and where the formula comes from.
//!
//! Numbers stand in kilograms, metres, newtons, seconds and radians, so that a formula needs no conversion.

use std::collections::BTreeSet;

use super::header;
use super::page::Page;
use super::{Block, Report};
use crate::base::sources;
use crate::base::units::{Dim, display};
use crate::job::Side;
use crate::report::results::{self, Figure};
use crate::report::sections::sentence;
use crate::report::sheets::sheet;
use crate::report::write::json::si_unit;

/// Results about parts that would be chosen: not shown of an axle that is withheld. The sheet of everything has the
/// engineer's numbers among them, marked.
const CHOICES: [&str; 13] = [
    ".sizing.",
    ".room.",
    ".damping.",
    ".new_springs",
    ".new_damper.",
    ".old_damper.hot_ratio",
    ".other_bars",
    ".wound.",
    ".offered.",
    ".levelled.",
    ".added_leaf.",
    ".by_air.",
    ".remedies.",
];

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks: Vec<Block> = header::working_names(page).into_iter().collect();
    if page.is_stopped() {
        blocks.extend(page.stops());
        blocks.push(page.text("work.stopped", &[]));
    }
    blocks.extend(page.answer.axles.iter().flat_map(|axle| page.overruled(axle)));
    blocks.push(page.text("work.note", &[("gravity", &sheet::gravity(page.units()))]));
    let all = results::figures(page.answer);
    blocks.extend(page.answer.axles.iter().filter(|_| !page.is_stopped()).filter_map(|axle| page.withheld(axle)));
    let shown = |f: &&Figure| f.si.is_some() && !(is_choice(&f.key) && is_withheld(page, &f.key));
    let mut part = String::new();
    let mut items = Vec::new();
    let mut cited = BTreeSet::new();
    for figure in all.iter().filter(shown) {
        let of = figure.key.split('.').next().unwrap_or_default();
        if of != part {
            flush(page, &mut blocks, &part, &mut items);
            part = of.to_owned();
        }
        items.push(line(page, figure));
        cited.insert(figure.source);
    }
    flush(page, &mut blocks, &part, &mut items);
    blocks.extend([page.heading("work.conventions"), Block::Text(sheet::conventions(page.units()))]);
    let sources = cited.into_iter().map(|key| format!("{key}: {}", sources::cite(key)));
    blocks.extend([page.heading("work.sources"), Block::List(sources.collect())]);
    Report { title: page.plain("work.title"), blocks }
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
        "front" => sentence::upper_first(&page.plain("front.axle")),
        "rear" => sentence::upper_first(&page.plain("rear.axle")),
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

/// "front: ride frequency = 1.2610 Hz. f = √(k_w / m_s) / 2π; k_w = 26130.44 N/m, m_s = 416.0000 kg. On springs. [GIL]"
fn line(page: &Page<'_>, figure: &Figure) -> String {
    let value = figure.si.map_or_else(String::new, |si| base(si, figure.dim, VALUE));
    let shown = figure.si.map_or_else(String::new, |si| display::rounded_si(si, figure.dim, page.units()));
    let unit = page.units().unit(figure.dim);
    let u = figure.si.zip(figure.u_si).and_then(|(si, u)| display::u_that_matters(si, u, unit));
    let u = u.map_or_else(String::new, |u| format!(" ± {}", base(display::to_figures(u * unit.si, 2), figure.dim, 2)));
    let known: Vec<String> =
        figure.with.iter().map(|(symbol, si, dim)| format!("{symbol} = {}", base(*si, *dim, PUT_IN))).collect();
    // In a job in inches what is metric stands in brackets.
    let (known, in_inches) = (known.join(", "), page.units().in_inches());
    let with = match known.as_str() {
        "" => String::new(),
        known if in_inches => format!("; ({known})"),
        known => format!("; {known}"),
    };
    let value = match is_same(&value, &shown) {
        true => format!("{value}{u}"),
        false if in_inches => format!("{shown} ({value}{u})"),
        false => format!("{value}{u} ({shown})"),
    };
    let text = format!("{} = {value}. {}{with}. ", figure.name, figure.formula);
    page.mark_numbers(&text) + &page.say("work.means", &[("convention", figure.convention), ("source", figure.source)])
}

/// Significant figures of a result, and of the numbers put into its formula.
const VALUE: usize = 5;
const PUT_IN: usize = 7;

fn is_same(base: &str, shown: &str) -> bool {
    base.split(' ').nth(1) == shown.split(' ').nth(1)
}

/// A number in kilograms, metres, newtons, seconds, radians.
fn base(si: f64, dim: Dim, figures: usize) -> String {
    let number =
        if si != 0.0 && si.abs() < 1e-4 { format!("{si:.*e}", figures - 1) } else { display::significant(si, figures) };
    format!("{number} {}", symbol(dim)).trim_end().to_owned()
}

fn symbol(dim: Dim) -> &'static str {
    if dim == Dim::Ratio { "" } else { si_unit(dim) }
}
