//! What the parts list offers in dampers: a sentence, those that fit, and why the others do not.

use serde_json::{Value, json};

use super::{before_price, unable};
use crate::base::language::{inside, tr};
use crate::base::units::{DamperSpeed, Length, Quantity, UnitChoice, display};
use crate::choose::Unable;
use crate::choose::damper_choice::{DamperLimit, DamperRanking, JudgedDamper};
use crate::job::{Job, Side};
use crate::report::Block;
use crate::report::results::{Column, Results, damper_name, dampers_of_list};
use crate::say;
use crate::shop::parts::Damper;
use crate::solve::answer::{AxleAnswer, Damping};

/// An axle, and how the dampers of a list rank on it.
pub type DampersOfAxle<'a> = (&'a AxleAnswer, Result<&'a DamperRanking, Unable>);

/// Everything about the dampers of the list on one axle.
pub fn blocks(job: &Job, axle: &AxleAnswer, dampers: &[Damper], found: Result<&DamperRanking, Unable>) -> Vec<Block> {
    let (side, units) = (axle.side, &job.units);
    let mut blocks =
        vec![Block::Heading(say!("Dampers from the parts list: {axle}", axle = inside(side.axle().said())))];
    let (ranking, needed) = match (found, &axle.damping) {
        (Ok(ranking), Some(needed)) => (ranking, needed),
        (Err(why @ (Unable::Stopped | Unable::Withheld | Unable::NoDampers)), _) => {
            return [blocks, vec![unable(side, why)]].concat();
        }
        _ => {
            let said = say!("{side}: dampers can be chosen once the springs are known.", side = side.word());
            return [blocks, vec![Block::Text(said)]].concat();
        }
    };
    blocks.push(Block::Text(answer(side, ranking, needed, dampers, units)));
    if !ranking.fit().is_empty() {
        blocks.push(fitting(axle, ranking, dampers, units, &job.prices.currency));
    }
    if !ranking.others().is_empty() {
        let rows = ranking.others().iter().map(|j| vec![damper_name(&dampers[j.row]).to_owned(), why(j, units)]);
        blocks.push(Block::table([tr("Rejected dampers"), tr("reason")], rows.collect()));
        match ranking.not_told() {
            0 => {}
            1 => blocks.push(Block::Text(tr("1 more damper is rejected.").into())),
            count => blocks.push(Block::Text(say!("{count} more dampers are rejected.", count))),
        }
    }
    blocks
}

/// The best in a sentence, or that none fits and what comes nearest.
fn answer(side: Side, ranking: &DamperRanking, needed: &Damping, dampers: &[Damper], units: &UnitChoice) -> String {
    let (side, all) = (side.word(), ranking.ranked.len());
    let wanted = say!("{low:.2} to {high:.2}", low = needed.ratio.low.si(), high = needed.ratio.high.si());
    let peak = display::rounded(DamperSpeed::from(needed.peak_speed), units);
    let Some(first) = ranking.ranked.first() else { return say!("{side}: there is no damper on the list.", side) };
    if !first.fits() {
        return say!(
            "{side}: none of the {all} dampers fits. The nearest is {damper}: {why}.",
            side,
            all,
            damper = damper_name(&dampers[first.row]),
            why = why(first, units)
        );
    }
    let ratio = first.ratio.map_or(String::new(), |z| display::fixed(z.si(), 2));
    let mut text = say!(
        "{side}: {damper} gives a damping ratio of {ratio} on these springs (average up to {peak}, for equal work per stroke; target {wanted}). Dampers that fit: {fitting} of {all}.",
        side,
        ratio,
        peak,
        wanted,
        all,
        damper = damper_name(&dampers[first.row]),
        fitting = ranking.fitting
    );
    if first.to_closed.is_none() || first.to_open.is_none() {
        text += tr(" NOT checked, data missing: damper length over the full travel.");
    }
    if first.is_beyond {
        text += tr(" The curve of this damper ends below the peak speed; the last slope is extrapolated.");
    }
    text += tr(" Check that the damper mounts fit the vehicle.");
    text
}

/// The results of a damper that stand in the table of those that fit.
const FITTING: [&str; 8] =
    ["ratio", "hot_ratio", "bump_rate", "rebound_rate", "to_closed", "to_open", "price", "in_stock"];

fn fitting(
    axle: &AxleAnswer,
    ranking: &DamperRanking,
    dampers: &[Damper],
    units: &UnitChoice,
    currency: &str,
) -> Block {
    let results = Results::from(dampers_of_list(axle, Ok(ranking), dampers, currency));
    let prefix = format!("{}.choose.dampers", axle.side.key());
    let named = |(i, j): (usize, &JudgedDamper)| (damper_name(&dampers[j.row]).to_owned(), format!("{prefix}[{i}]"));
    let rows: Vec<Column> = ranking.fit().iter().enumerate().map(named).collect();
    let mounts = ranking.fit().iter().map(|judged| match dampers[judged.row].mounts.as_str() {
        "" => tr("not known"),
        mounts => mounts,
    });
    before_price(results.across(tr("Damper"), &rows, &FITTING, units), tr("mounts"), mounts)
}

/// All that keeps a damper out.
pub fn why(judged: &JudgedDamper, units: &UnitChoice) -> String {
    let ratio = judged.ratio.map_or(String::new(), |z| display::fixed(z.si(), 2));
    let said = |l: Length| display::rounded(l, units);
    // One end of its travel: it is the stop there, or leaves less than is asked for.
    let beyond = |left: Option<Length>| left.filter(|l| l.si() < 0.0).map(|l| -l);
    let one = |limit: &DamperLimit| match limit {
        DamperLimit::NoForces => tr("the list gives no forces").to_owned(),
        DamperLimit::NoCurve(error) => say!("its forces do not form a curve: {error}", error),
        DamperLimit::Soft(by) => say!("damps too little: {ratio}, {by:.2} below the range", ratio, by = by.si()),
        DamperLimit::Stiff(by) => say!("damps too much: {ratio}, {by:.2} above the range", ratio, by = by.si()),
        DamperLimit::TooLong(by) => match beyond(judged.to_closed) {
            Some(by) => say!("closed length {by} too long: the damper becomes the bump stop", by = said(by)),
            None => say!("{by} too little damper travel left at full bump", by = said(*by)),
        },
        DamperLimit::TooShort(by) => match beyond(judged.to_open) {
            Some(by) => say!("open length {by} too short: the damper becomes the droop stop", by = said(by)),
            None => say!("{by} too little damper travel left at full droop", by = said(*by)),
        },
        DamperLimit::NotOnShelf => tr("fewer than two in stock").to_owned(),
    };
    judged.out.iter().map(one).collect::<Vec<_>>().join("; ")
}

/// The ranking of one axle as JSON: which damper is which, and what keeps it out. The results of each are in the same
/// order: those that fit, then the others.
pub fn json(found: Result<&DamperRanking, Unable>, dampers: &[Damper]) -> Value {
    let ranking = match found {
        Ok(ranking) => ranking,
        Err(unable) => return json!({ "unable": unable.to_string() }),
    };
    let key = |limit: &DamperLimit| match limit {
        DamperLimit::NoForces => "no_forces",
        DamperLimit::NoCurve(_) => "no_curve",
        DamperLimit::Soft(_) => "soft",
        DamperLimit::Stiff(_) => "stiff",
        DamperLimit::TooLong(_) => "too_long",
        DamperLimit::TooShort(_) => "too_short",
        DamperLimit::NotOnShelf => "not_on_shelf",
    };
    let all = ranking.ranked.iter().map(|j| {
        json!({
            "number": dampers[j.row].number, "line": dampers[j.row].line, "damping_ratio": j.ratio.map(Quantity::si),
            "out": j.out.iter().map(key).collect::<Vec<_>>(),
        })
    });
    json!({ "dampers": ranking.ranked.len(), "fitting": ranking.fitting, "ranked": all.collect::<Vec<_>>() })
}
