//! Results of the dampers of a list on one axle.

use super::{collector, damper_name};
use crate::base::language::tr;
use crate::base::units::Dim::{DampingRate, Length, Ratio};
use crate::base::units::Quantity;
use crate::choose::Unable;
use crate::choose::damper_choice::{DamperRanking, JudgedDamper};
use crate::job::Side;
use crate::report::results::row::{Row, row, si};
use crate::report::results::{By, Figure, Say, Why};
use crate::shop::parts::Damper;
use crate::solve::answer::Damping;

/// A damper of the list.
struct OfList<'a> {
    judged: &'a JudgedDamper,
    damper: &'a Damper,
    damping: &'a Damping,
    currency: &'a str,
}

const BY_EQUAL_WORK: &str = "at the damper, average up to the peak speed, for equal work per stroke";

fn damping_of_list<'a>() -> [Row<OfList<'a>>; 4] {
    [
        row(
            "ratio",
            "damping ratio",
            Ratio,
            "without tyre deflection, with the springs that will be fitted",
            "ζ_aim c / c_aim",
            "GIL",
            |d: &OfList<'a>| si(d.judged.ratio),
        )
        .by(By::Solving),
        row(
            "hot_ratio",
            "damping ratio when hot",
            Ratio,
            "without tyre deflection",
            "ζ (1 − loss)",
            "PRACTICE",
            |d: &OfList<'a>| si(d.damping.hot(d.judged.ratio?)),
        )
        .with(|d| {
            let loss = 1.0 - si(d.damping.hot_share)?;
            Some(vec![("ζ", si(d.judged.ratio)?, Ratio), ("loss", loss, Ratio)])
        }),
        row("bump_rate", "rate in bump", DampingRate, BY_EQUAL_WORK, "work / (π V X)", "DIX", |d: &OfList<'a>| {
            d.judged.rates.map(|r| r.bump.si())
        })
        .by(By::Solving),
        row(
            "rebound_rate",
            "rate in rebound",
            DampingRate,
            BY_EQUAL_WORK,
            "work / (π V X)",
            "DIX",
            |d: &OfList<'a>| d.judged.rates.map(|r| r.rebound.si()),
        )
        .by(By::Solving),
    ]
}

/// Whether it fits, what it costs, and how many there are.
fn size_and_price<'a>() -> [Row<OfList<'a>>; 4] {
    [
        row(
            "to_closed",
            "damper travel left at full bump",
            Length,
            "at metal contact",
            "L_d − L_closed",
            "DERIVED",
            |d: &OfList<'a>| si(d.judged.to_closed),
        )
        .with(|d| {
            let (left, closed) = (si(d.judged.to_closed)?, si(d.damper.closed_length)?);
            Some(vec![("L_d", left + closed, Length), ("L_closed", closed, Length)])
        }),
        row(
            "to_open",
            "damper travel left at full droop",
            Length,
            "at full droop",
            "L_open − L_d",
            "DERIVED",
            |d: &OfList<'a>| si(d.judged.to_open),
        )
        .with(|d| {
            let (left, open) = (si(d.judged.to_open)?, si(d.damper.open_length)?);
            Some(vec![("L_open", open, Length), ("L_d", open - left, Length)])
        }),
        row("price", "price", Ratio, "each, in the shop's currency", "as listed", "PRACTICE", |d: &OfList<'a>| {
            d.damper.price
        })
        .by(By::Reading)
        .say(Say::Places(2))
        .remark(|d| format!(" {}", d.currency).trim_end().to_owned()),
        row("in_stock", "in stock", Ratio, "quantity", "as listed", "PRACTICE", |d: &OfList<'a>| {
            d.damper.stock.map(f64::from)
        })
        .by(By::Reading)
        .say(Say::Number),
    ]
}

/// Every result of the dampers of a list that are listed one by one; of an axle for which none can be ranked, that they
/// fit, with the reason why it is not known.
pub fn dampers_of_list(
    side: Side,
    found: Result<&DamperRanking, Unable>,
    damping: Option<&Damping>,
    dampers: &[Damper],
    currency: &str,
) -> Vec<Figure> {
    let mut out = collector();
    let (prefix, words) = (format!("{}.choose.dampers", side.key()), side.word_inside());
    let reason = found.err().map(|unable| Why::Told(unable.to_string()));
    let ranking = found.ok();
    let count =
        [row("fitting", "dampers that fit", Ratio, "on the list", "counted", "PRACTICE", |r: &DamperRanking| {
            Some(r.fitting as f64)
        })
        .by(By::Solving)
        .say(Say::Number)];
    out.of_other(&prefix, &format!("{words}, {}: ", tr("parts list")), &count, ranking, reason.as_ref());
    let Some((ranking, damping)) = ranking.zip(damping) else { return out.figures };
    for (i, judged) in ranking.told().enumerate() {
        let damper = &dampers[judged.row];
        let of = OfList { judged, damper, damping, currency };
        let words = format!("{words}, {}: ", damper_name(damper));
        for rows in [damping_of_list(), size_and_price()] {
            out.of_other(&format!("{prefix}[{i}]"), &words, &rows, Some(&of), None);
        }
    }
    out.figures
}
