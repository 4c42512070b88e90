//! Results of left and right springs of a list.

use super::{AS_STANDS, finite};
use crate::base::language::tr;
use crate::choose::{Choice, Judged, Limit, Pair};
use crate::report::results::collect::Out;
use crate::report::results::row::{Row, rows};
use crate::report::results::{By, Say, Why};

/// One side of an axle.
struct OfSide {
    judged: Judged,
    sprung_kg: f64,
    wanted_m: f64,
}

static OF_SIDE: &[Row<OfSide>] = rows! { OfSide;
    "sprung", "sprung mass", Mass, "of this corner";
        "weighed − unsprung", "DERIVED", |s| Some(s.sprung_kg), by: By::Solving;
    "spacer", "spacer", Length, AS_STANDS;
        "F_w(z) = m_s g at the wanted height", "DERIVED", |s| finite(s.judged.spacer_m), by: By::Solving;
    "above_wanted", "offset from the target height", Length, AS_STANDS;
        "z_wanted − z", "DERIVED", |s| s.judged.margin(Limit::Height).and(finite(s.wanted_m - s.judged.travel_m)),
        by: By::Solving, say: Say::Height("at the target height");
};

static OF_PAIR: &[Row<Pair>] = rows! { Pair;
    "right_lower", "height difference, + right side lower", Length, "at the mean track, tyres included";
        "rigid body on four curves, bars and tyres: ΣF = 0, ΣM = 0", "DERIVED", |p| Some(p.leaves?.right_lower.value), by: By::Solving, say: Say::Signed;
    "cross_weight", "cross weight", Ratio, "(right front + left rear) ÷ total";
        "(RF + LR) ÷ total weight", "DERIVED", |p| Some(p.leaves?.cross_weight.value), by: By::Solving, say: Say::Percent(1);
};

/// Every pair that is named, best first; the first one also where there is none.
pub(super) fn pairs(out: &mut Out, prefix: &str, words: &str, found: Option<&Choice>, why: Option<&Why>) {
    let named = found.and_then(|c| c.pairs.as_ref()).map_or(&[][..], |pairs| &pairs.named);
    for i in 0..named.len().max(1) {
        let (pair, prefix) = (named.get(i), format!("{prefix}.pairs[{i}]"));
        for (side, (key, of)) in [("left", tr("left")), ("right", tr("right"))].into_iter().enumerate() {
            let one = pair.zip(found).map(|(pair, choice)| OfSide {
                judged: pair.judged.both()[side],
                sprung_kg: pair.sprung_kg.both()[side],
                wanted_m: choice.ranking.ground.wanted_m,
            });
            out.of_other(&format!("{prefix}.{key}"), &format!("{words}, {of}: "), OF_SIDE, one.as_ref(), why);
        }
        let first = out.figures.len();
        out.of_other(&prefix, &format!("{words}: "), OF_PAIR, pair, why);
        let u = pair.and_then(|p| p.leaves).map(|leaves| [leaves.right_lower.u, leaves.cross_weight.u]);
        for (figure, u) in out.figures[first..].iter_mut().zip(u.into_iter().flatten()) {
            figure.u_si = Some(u);
        }
    }
}
