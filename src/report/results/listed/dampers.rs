//! Results of the dampers of a list on one axle.

use super::{collector, damper_name};
use crate::base::language::tr;
use crate::base::units::Quantity;
use crate::choose::Unable;
use crate::choose::damper_choice::{DamperRanking, JudgedDamper};
use crate::report::results::row::{Row, put, rows, si};
use crate::report::results::{By, Figure, Say, Why};
use crate::shop::parts::Damper;
use crate::solve::answer::{AxleAnswer, Damping, Room};

/// A damper of the list.
struct OfList<'a> {
    judged: &'a JudgedDamper,
    damper: &'a Damper,
    damping: &'a Damping,
    room: &'a Room,
    currency: &'a str,
}

const BY_EQUAL_WORK: &str = "at the damper, average up to the peak speed, for equal work per stroke";

impl<'a> OfList<'a> {
    /// How it damps, whether it fits, what it costs, and how many there are.
    const ROWS: &'a [Row<Self>] = rows! { Self;
        "ratio", "damping ratio", Ratio, "without tyre deflection, with the springs that will be fitted";
            "ζ_aim c / c_aim", "GIL", |d| si(d.judged.ratio), by: By::Solving;
        "hot_ratio", "damping ratio when hot", Ratio, "without tyre deflection";
            "ζ (1 − loss)", "PRACTICE", |d| si(d.damping.hot(d.judged.ratio?)),
            with: |d| put!["ζ": d.judged.ratio?, "loss": d.damping.hot_loss?];
        "bump_rate", "rate in bump", DampingRate, BY_EQUAL_WORK;
            "work / (π V X)", "DIX", |d| d.judged.rates.map(|r| r.bump.si()), by: By::Solving;
        "rebound_rate", "rate in rebound", DampingRate, BY_EQUAL_WORK;
            "work / (π V X)", "DIX", |d| d.judged.rates.map(|r| r.rebound.si()), by: By::Solving;
        "to_closed", "damper travel left at full bump", Length, "at metal contact";
            "L_d − L_closed", "DERIVED", |d| si(d.judged.to_closed),
            with: |d| put!["L_d": d.room.damper_at_metal?, "L_closed": d.damper.closed_length?];
        "to_open", "damper travel left at full droop", Length, "at full droop";
            "L_open − L_d", "DERIVED", |d| si(d.judged.to_open),
            with: |d| put!["L_open": d.damper.open_length?, "L_d": d.room.damper_at_droop?];
        "price", "price", Ratio, "each, in the shop's currency";
            "as listed", "PRACTICE", |d| d.damper.price, by: By::Reading, say: Say::Places(2),
            remark: |d| format!(" {}", d.currency).trim_end().to_owned();
        "in_stock", "in stock", Ratio, "quantity";
            "as listed", "PRACTICE", |d| d.damper.stock.map(f64::from), by: By::Reading, say: Say::Number;
    };
}

/// Of the whole list.
static COUNTED: &[Row<DamperRanking>] = rows! { DamperRanking;
    "fitting", "dampers that fit", Ratio, "on the list";
        "counted", "PRACTICE", |r| Some(r.fitting as f64), by: By::Solving, say: Say::Number;
};

/// Every result of the dampers of a list that are listed one by one; of an axle for which none can be ranked, that they
/// fit, with the reason why it is not known.
pub fn dampers_of_list(
    axle: &AxleAnswer,
    found: Result<&DamperRanking, Unable>,
    dampers: &[Damper],
    currency: &str,
) -> Vec<Figure> {
    let mut out = collector();
    let (prefix, words) = (format!("{}.choose.dampers", axle.side.key()), axle.side.word_inside());
    let reason = found.err().map(|unable| Why::Told(unable.to_string()));
    let ranking = found.ok();
    out.of_other(&prefix, &format!("{words}, {}: ", tr("parts list")), COUNTED, ranking, reason.as_ref());
    let Some((ranking, damping)) = ranking.zip(axle.damping.as_ref()) else { return out.figures };
    for (i, judged) in ranking.told().enumerate() {
        let damper = &dampers[judged.row];
        let of = OfList { judged, damper, damping, room: &axle.room, currency };
        let words = format!("{words}, {}: ", damper_name(damper));
        out.of_other(&format!("{prefix}[{i}]"), &words, OfList::ROWS, Some(&of), None);
    }
    out.figures
}
