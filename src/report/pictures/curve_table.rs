//! A damper's curve as it was read from a file, and the rates it gives.

use crate::base::language::tr;
use crate::base::units::{Quantity, Unit, Velocity, display};
use crate::report::Block;
use crate::report::Report;
use crate::report::or_unknown;
use crate::say;
use crate::shop::parts::test_sheet::{CurveTable, Row};
use crate::trade::damper::{Curve, ForcePoint, TEST_SPEEDS_M_PER_S};

/// Rows and notes, then for each click the rates by equal work; false when some rows make no curve.
pub fn build(read: &CurveTable) -> (Report, bool) {
    let [speed, force] = read.units;
    let cell = |si: f64, unit: &Unit| format!("{} {}", display::significant(si / unit.si, 6), unit.symbol);
    let row = |r: &Row| {
        let size = |f: Option<crate::base::units::Force>| or_unknown(f, |f| cell(f.si(), force));
        let click = r.click.map_or(String::new(), |n| n.to_string());
        vec![r.line.to_string(), click, cell(r.point.speed.si(), speed), size(r.point.bump), size(r.point.rebound)]
    };
    let head = [tr("Line"), tr("click"), tr("speed"), tr("bump"), tr("rebound")];
    let mut blocks = vec![
        Block::list(&read.notes),
        Block::table(head, read.rows.iter().map(row).collect()),
        Block::Heading(tr("Average rates (for equal work per stroke), at the damper").into()),
    ];
    let mut clicks: Vec<Option<f64>> = Vec::new();
    for row in &read.rows {
        if !clicks.contains(&row.click) {
            clicks.push(row.click);
        }
    }
    let mut all = true;
    for click in clicks {
        let points: Vec<ForcePoint> = read.rows.iter().filter(|r| r.click == click).map(|r| r.point).collect();
        match Curve::through(&points) {
            Ok(curve) => blocks.push(rates(click, &curve, speed)),
            Err(why) => {
                all = false;
                blocks.push(Block::Caution(match click {
                    Some(click) => say!("Click {click}: {why}.", click, why),
                    None => format!("{why}."),
                }));
            }
        }
    }
    (Report { title: tr("Damper curve").into(), blocks }, all)
}

fn rates(click: Option<f64>, curve: &Curve, speed: &Unit) -> Block {
    let row = |peak: f64| {
        let rates = curve.equal_work(Velocity::from_si(peak));
        let number = |si: f64| format!("{} N·s/m", display::significant(si, 4));
        let beyond = if curve.is_beyond(Velocity::from_si(peak)) { tr(", extrapolated") } else { "" };
        let at = format!("{} {}{beyond}", display::significant(peak / speed.si, 3), speed.symbol);
        vec![at, number(rates.bump.si()), number(rates.rebound.si()), number(rates.mean().si())]
    };
    let peak = click.map_or(tr("peak speed").to_owned(), |click| say!("Click {click}: peak speed", click));
    Block::table([peak.as_str(), tr("bump"), tr("rebound"), tr("mean")], TEST_SPEEDS_M_PER_S.map(row).to_vec())
}
