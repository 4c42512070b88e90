//! The calculation in brief: what decides the order, from the weights to the length, and how it was checked.
//!
//! The same results as in the whole working, without what they mean; two pages at most.

use std::collections::BTreeSet;

use super::judged::{Dampers, Verdict};
use super::page::Page;
use super::{Block, Report, working};
use crate::base::units::Quantity;
use crate::job::{Side, SpringKind, fields};
use crate::report::phrases;
use crate::report::results::{self, Figure, Results};
use crate::solve::answer::{AxleAnswer, CaseAnswer, RatedPart};

/// To whom a line of the working belongs.
#[derive(Clone, Copy, PartialEq)]
enum For {
    /// Every axle.
    All,
    /// Springs to buy.
    NewSprings,
    /// The same, but no torsion bars: their rate follows from the diameter.
    NewCoils,
    /// Dampers to buy.
    NewDampers,
}

/// What decides the spring of an axle, in the order of the work; `{axle}` is the axle's key.
const CHAIN: [(For, &str); 19] = [
    (For::All, "after.{axle}_axle"),
    (For::All, "{axle}.sprung_after"),
    (For::All, "{axle}.motion_ratio"),
    (For::All, "{axle}.old_spring.rate"),
    (For::All, "{axle}.before.frequency"),
    (For::All, "{axle}.sizing.frequency.aim"),
    (For::All, "{axle}.sizing.wheel_rate.aim"),
    (For::All, "{axle}.sizing.spring_rate.aim"),
    (For::NewCoils, "{axle}.sizing.pick"),
    (For::NewSprings, "{axle}.sizing.bar.pick"),
    (For::NewSprings, "{axle}.sizing.bar.index"),
    (For::NewSprings, "{axle}.sizing.spring_force"),
    (For::NewSprings, "{axle}.sizing.free_length"),
    (For::NewSprings, "{axle}.sizing.order_length"),
    (For::All, "{axle}.new_springs.frequency"),
    (For::All, "{axle}.new_springs.height_change"),
    (For::All, "{axle}.damping.ratio.aim"),
    (For::NewDampers, "{axle}.damping.bump_rate"),
    (For::NewDampers, "{axle}.damping.rebound_rate"),
];
/// What that was held against.
const CHECKS: [&str; 21] = [
    "rating_share",
    "sizing.frequency",
    "sizing.spring_rate",
    "new_springs.stop_room",
    "new_springs.reserve",
    "room.to_bind",
    "room.seat",
    "room.damper_bump",
    "room.damper_droop",
    "bar.stress_bump",
    "bar.allowed",
    "offered.stress_bump",
    "offered.allowed",
    "wound.stress",
    "wound.allowed",
    "old_spring.leaf.stress_bump",
    "damping.ratio",
    "new_springs.old_damper_ratio",
    "old_damper.hot_ratio",
    "damping.hop_ratio",
    "sizing.same_factor.spring_rate",
];
/// The result whose ± tells how surely the spring was picked.
const DECIDES: &str = "sizing.spring_rate.aim";
/// Number of fields named that contribute most to a ±.
const MOST_SHARES: usize = 4;

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks = working::opening(page);
    blocks.extend(page.sized_case_words("fit.case").map(Block::Text));
    let results: Results = results::with_steps(page.answer).into();
    let mut cited = BTreeSet::new();
    for axle in &page.answer.axles {
        blocks.push(Block::Heading(phrases::upper_first(&page.axle_words(axle.side))));
        if page.verdict(axle) == Verdict::Fine {
            blocks.push(page.on(axle.side).text("work.brief.fine", &[]));
        }
        let keys = CHAIN.into_iter().filter(|(whose, _)| is_bought(page, axle, *whose)).map(|(_, key)| key);
        let chain = keys.filter_map(|key| results.find(&as_fitted(page, axle, key).replace("{axle}", axle.side.key())));
        let told: Vec<&Figure> = chain.filter(|figure| working::is_shown(page, figure)).collect();
        cited.extend(told.iter().map(|figure| figure.source));
        let one = |figure: &&Figure| format!("{}[{}]", working::worked_out(page, figure), figure.source);
        blocks.push(Block::List(told.iter().map(one).collect()));
        blocks.extend(where_from(page, &results, axle.side));
        blocks.extend(checks(page, &results, axle));
        blocks.extend(damper_rule(page, axle));
        blocks.extend(doubts(page, axle));
    }
    blocks.extend(of_both(page, &results));
    blocks.extend(working::sources_cited(page, cited));
    Report { title: page.plain("work.brief.title"), blocks }
}

/// Nothing of springs and dampers to buy where the old ones stay.
fn is_bought(page: &Page<'_>, axle: &AxleAnswer, whose: For) -> bool {
    let stays = matches!(page.verdict(axle), Verdict::Stays | Verdict::Fine | Verdict::MeasureFirst);
    match whose {
        For::All => true,
        For::NewSprings => !stays,
        For::NewCoils => !stays && axle.kind != SpringKind::TorsionBar,
        For::NewDampers => !stays || page.needs_dampers(axle),
    }
}

/// On the old springs where nothing else is fitted.
fn as_fitted(page: &Page<'_>, axle: &AxleAnswer, key: &str) -> String {
    if is_left(page, axle) { key.replace("new_springs", "old_springs") } else { key.to_owned() }
}

/// The axle is left as it is: its springs stay, could stay, or nothing is recommended.
fn is_left(page: &Page<'_>, axle: &AxleAnswer) -> bool {
    page.part(axle).is_none() || matches!(page.verdict(axle), Verdict::Stays | Verdict::Fine | Verdict::MeasureFirst)
}

/// Which fields bring the most of the ± of the rate that is needed.
fn where_from(page: &Page<'_>, results: &Results, side: Side) -> Option<Block> {
    let rate = results.find(&format!("{}.{DECIDES}", side.key())).filter(|rate| working::is_shown(page, rate))?;
    let share = |(path, share): (&str, f64)| format!("{} ({:.0} %)", fields::full_label(path), 100.0 * share);
    let fields: Vec<String> = rate.shares().into_iter().take(MOST_SHARES).map(share).collect();
    let fill = [("rate", rate.name.as_str()), ("fields", &fields.join(", "))];
    (!fields.is_empty()).then(|| page.text("work.brief.from", &fill))
}

/// What was checked of an axle; nothing where it has no answer.
fn checks(page: &Page<'_>, results: &Results, axle: &AxleAnswer) -> Option<Block> {
    let prefix = axle.side.key();
    let is_of_old = |key: &str| key == "room.to_bind" && page.orders_solid_length(axle);
    let shown = |key: &&str| !working::is_withheld_choice(page, &format!("{prefix}.{key}")) && !is_of_old(key);
    let keys: Vec<String> = CHECKS.into_iter().filter(shown).map(|key| as_fitted(page, axle, key)).collect();
    let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
    let mut rows = results.known(prefix, &keys, page.units());
    rows.splice(0..0, loaded(page, results, axle));
    Block::pairs(page.plain("work.brief.checks"), rows)
}

/// The axle against its rating in the load case, of those that must be driven, in which it carries most.
fn loaded(page: &Page<'_>, results: &Results, axle: &AxleAnswer) -> Option<Vec<String>> {
    let part = RatedPart::Axle(axle.side);
    let share = |case: &CaseAnswer| case.rated.iter().find(|r| r.part == part).map(|r| r.share.si());
    let driven = page.answer.cases.iter().filter(|case| !case.what_if);
    let (_, worst) = driven.filter_map(|case| Some((share(case)?, case))).max_by(|a, b| a.0.total_cmp(&b.0))?;
    worst.index?;
    let key = format!("rated.{}", part.field().replace('.', "_"));
    let said = results.known(&worst.key(), &[&key], page.units()).pop()?.pop()?;
    Some(vec![results.find(&format!("{}.{key}", worst.key()))?.name.clone(), said])
}

/// When old dampers count as too soft or too stiff, where that was judged.
fn damper_rule(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    let judged = !matches!(page.dampers(axle), Dampers::Unknown | Dampers::Wished);
    (judged && page.part(axle).is_some()).then(|| page.text("work.brief.dampers", &[]))
}

/// What should be checked before anything is ordered.
fn doubts(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    let texts: Vec<String> = page.doubts(axle).map(|finding| finding.text.to_string()).collect();
    (!texts.is_empty()).then(|| page.text("work.brief.doubts", &[("texts", &texts.join(" "))]))
}

/// What was checked of both axles together, on the springs that will be on them. There is no result for new springs on
/// one axle and, though new ones were sized, the old ones on the other.
fn of_both(page: &Page<'_>, results: &Results) -> Option<Block> {
    let left = page.answer.axles.iter().filter(|axle| is_left(page, axle));
    let by_plan = left.clone().filter(|axle| page.verdict(axle) == Verdict::Stays).count();
    let key = match left.count() {
        2 => "rear_over_front.old_springs",
        count if count == by_plan => "rear_over_front.new_springs",
        _ => return None,
    };
    Block::pairs(page.plain("work.whole"), results.known("whole", &[key], page.units()))
}
