//! What the parts list offers in dampers: a sentence, those that fit, and why the others do not.

use serde_json::{Value, json};

use super::choose::price;
use super::{Block, or_unknown};
use crate::choose::Unable;
use crate::choose::dampers::{DamperLimit, DamperRanking, JudgedDamper};
use crate::job::{Job, Side};
use crate::parts::Damper;
use crate::solve::answer::{AxleAnswer, Damping};
use crate::units::{DamperSpeed, Dim, Length, Quantity, UnitChoice, display};

/// So many dampers that fit, and so many of the others, are told one by one.
const TOLD: usize = 8;

/// A damper by its number, or by what it is.
fn name(damper: &Damper) -> &str {
    match (damper.number.as_str(), damper.what.as_str()) {
        ("", "") => "a damper without number",
        ("", what) => what,
        (number, _) => number,
    }
}

/// Everything about the dampers of the list on one axle.
pub fn blocks(job: &Job, axle: &AxleAnswer, dampers: &[Damper], found: Result<&DamperRanking, Unable>) -> Vec<Block> {
    let (side, units) = (axle.side, &job.units);
    let mut blocks = vec![Block::Heading(format!("Dampers from the parts list: {} axle", side.key()))];
    let (ranking, needed) = match (found, &axle.damping) {
        (Ok(ranking), Some(needed)) => (ranking, needed),
        (Err(Unable::Stopped), _) => {
            let said = format!("{}: over its rating, so no damper is chosen.", side.word());
            return [blocks, vec![Block::Caution(said)]].concat();
        }
        (Err(Unable::NoDampers), _) => {
            let said = format!("{}: {}.", side.word(), Unable::NoDampers);
            return [blocks, vec![Block::Text(said)]].concat();
        }
        _ => {
            let said = format!("{}: dampers follow once the springs are known.", side.word());
            return [blocks, vec![Block::Text(said)]].concat();
        }
    };
    blocks.push(Block::Text(answer(side, ranking, needed, dampers, units)));
    let (fit, others) = ranking.ranked.split_at(ranking.fitting);
    if !fit.is_empty() {
        blocks.push(fitting(&fit[..fit.len().min(TOLD)], needed, dampers, units, &job.prices.currency));
    }
    if !others.is_empty() {
        let rows = others.iter().take(TOLD).map(|j| vec![name(&dampers[j.row]).to_owned(), why(j, units)]);
        let head = ["Dampers that are out", "why"].map(str::to_owned).to_vec();
        blocks.push(Block::Table { head, rows: rows.collect() });
        if others.len() > TOLD {
            blocks.push(Block::Text(format!("{} others are out too.", others.len() - TOLD)));
        }
    }
    blocks
}

/// The best in a sentence, or that none fits and what comes nearest.
fn answer(side: Side, ranking: &DamperRanking, needed: &Damping, dampers: &[Damper], units: &UnitChoice) -> String {
    let (who, all) = (side.word(), ranking.ranked.len());
    let wanted = format!("{:.2} to {:.2}", needed.ratio.low.si(), needed.ratio.high.si());
    let peak = display::rounded(DamperSpeed::from(needed.peak_speed), units);
    let Some(first) = ranking.ranked.first() else { return format!("{who}: none is on the list.") };
    if !first.fits() {
        return format!(
            "{who}: none of the {all} dampers fits. Nearest is {}: {}.",
            name(&dampers[first.row]),
            why(first, units)
        );
    }
    let ratio = first.ratio.map_or(String::new(), |z| format!("{:.2}", z.si()));
    let mut text = format!(
        "{who}: {} gives a damping ratio of {ratio} on these springs (equal work at a peak of {peak}; {wanted} is wanted). {} of {all} dampers fit.",
        name(&dampers[first.row]),
        ranking.fitting
    );
    if first.to_closed.is_none() || first.to_open.is_none() {
        text += " NOT looked at, since not known: its length against the travel.";
    }
    if first.is_beyond {
        text += " Its points end below that speed: the last slope was continued.";
    }
    text += " Check its mounts.";
    text
}

fn fitting(fit: &[JudgedDamper], needed: &Damping, dampers: &[Damper], units: &UnitChoice, currency: &str) -> Block {
    let peak = display::rounded(DamperSpeed::from(needed.peak_speed), units);
    let head = [
        "Damper".into(),
        "damping ratio".into(),
        "hot".into(),
        format!("bump, rebound rate at {peak}"),
        "left at bump".into(),
        "left at droop".into(),
        "mounts".into(),
        "price".into(),
        "on the shelf".into(),
    ];
    let row = |j: &JudgedDamper| {
        let damper = &dampers[j.row];
        let rates = or_unknown(j.rates, |r| {
            let bump = display::rounded_number(r.bump.si(), units.unit(Dim::DampingRate));
            format!("{bump}, {}", display::rounded(r.rebound, units))
        });
        vec![
            name(damper).to_owned(),
            or_unknown(j.ratio, |z| format!("{:.2}", z.si())),
            or_unknown(j.ratio.and_then(|z| needed.hot(z)), |z| format!("{:.2}", z.si())),
            rates,
            or_unknown(j.to_closed, |l| display::rounded(l, units)),
            or_unknown(j.to_open, |l| display::rounded(l, units)),
            if damper.mounts.is_empty() { "not known".into() } else { damper.mounts.clone() },
            price(damper.price, currency),
            damper.stock.map_or("not known".into(), |n| n.to_string()),
        ]
    };
    Block::Table { head: head.to_vec(), rows: fit.iter().map(row).collect() }
}

/// All that keeps a damper out.
pub fn why(judged: &JudgedDamper, units: &UnitChoice) -> String {
    let ratio = judged.ratio.map_or(String::new(), |z| format!("{:.2}", z.si()));
    let one = |limit: &DamperLimit| match limit {
        DamperLimit::NoForces => "the list gives no forces that make a curve".to_owned(),
        DamperLimit::Soft(by) => format!("damps too little: {ratio}, {:.2} below the range", by.si()),
        DamperLimit::Stiff(by) => format!("damps too much: {ratio}, {:.2} above the range", by.si()),
        DamperLimit::TooLong(by) => end(judged.to_closed, *by, ["long closed", "the stop", "full bump"], units),
        DamperLimit::TooShort(by) => end(judged.to_open, *by, ["short open", "the droop stop", "full droop"], units),
        DamperLimit::NotOnShelf => "fewer than two on the shelf".to_owned(),
    };
    judged.out.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// One end of its travel: it is the stop there, or leaves less than is asked for.
fn end(left: Option<Length>, short: Length, [too, stop, at]: [&str; 3], units: &UnitChoice) -> String {
    let said = |l: Length| display::rounded(l, units);
    match left.filter(|l| l.si() < 0.0) {
        Some(left) => format!("too {too} by {}: it becomes {stop}", said(-left)),
        None => format!("{} short of the room wanted at {at}", said(short)),
    }
}

/// The ranking of one axle as JSON, SI values.
pub fn json(found: Result<&DamperRanking, Unable>, dampers: &[Damper]) -> Value {
    let ranking = match found {
        Ok(ranking) => ranking,
        Err(unable) => return json!({ "unable": unable.to_string() }),
    };
    let key = |limit: &DamperLimit| match limit {
        DamperLimit::NoForces => "no_forces",
        DamperLimit::Soft(_) => "soft",
        DamperLimit::Stiff(_) => "stiff",
        DamperLimit::TooLong(_) => "too_long",
        DamperLimit::TooShort(_) => "too_short",
        DamperLimit::NotOnShelf => "not_on_shelf",
    };
    let all = ranking.ranked.iter().map(|j| {
        json!({
            "number": dampers[j.row].number, "line": dampers[j.row].line, "damping_ratio": j.ratio.map(Quantity::si),
            "bump_rate_n_s_per_m": j.rates.map(|r| r.bump.si()), "rebound_rate_n_s_per_m": j.rates.map(|r| r.rebound.si()),
            "left_at_bump_m": j.to_closed.map(Quantity::si), "left_at_droop_m": j.to_open.map(Quantity::si),
            "out": j.out.iter().map(key).collect::<Vec<_>>(),
        })
    });
    json!({ "dampers": ranking.ranked.len(), "fitting": ranking.fitting, "ranked": all.collect::<Vec<_>>() })
}
