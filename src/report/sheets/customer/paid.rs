//! What the customer pays for, and what it would cost to do less.

use crate::base::units::{Entry, Pressure, Quantity, Ratio};
use crate::job::BagFitted;
use crate::report::Block;
use crate::report::sheets::both_sides;
use crate::report::sheets::judged::Verdict;
use crate::report::sheets::open;
use crate::report::sheets::page::Page;
use crate::solve::answer::{AxleAnswer, OptionStanding, RemedyKind};

/// What is being paid for.
pub(super) fn paid_for(page: &Page<'_>) -> Vec<String> {
    let (renewed, redamped) = (page.refitted(), page.redamped());
    let bars: Vec<String> = page.rebarred().into_iter().filter_map(|axle| roll_bar(page, axle)).collect();
    if renewed.is_empty() && redamped.is_empty() && bars.is_empty() {
        let suits = |axle: &AxleAnswer| axle.old_will_do == Some(true) || page.verdict(axle) == Verdict::Fine;
        let key = match page.answer.axles.iter().all(suits) {
            true => "pay.nothing",
            false if open::items(page).is_empty() => "pay.nothing_done",
            false => "pay.nothing_yet",
        };
        return vec![page.plain(key)];
    }
    let mut items = Vec::new();
    for axle in &renewed {
        let page = &page.on(axle.side);
        if axle.is_set_again() {
            let key = both_sides::set_again(page, axle, ["pay.on_spacers", "pay.indexed", "pay.added_leaf"]);
            items.push(page.say(key, &[("spacers", &both_sides::raised_with(page, axle))]));
        } else {
            let part = page.bought(axle).unwrap_or_else(|| page.plain("unknown"));
            items.push(page.say("pay.springs", &[("part", &part)]));
            items.extend(taken_spacers(page, axle));
        }
        if page.job.axle(axle.side).bag.fitted == BagFitted::WithNew {
            items.push(page.say("pay.bag", &[]));
            let pressure: Option<Pressure> =
                page.typed_of(axle, "bag.pressure", &page.job.axle(axle.side).bag.pressure);
            items.extend(pressure.map(|p| page.say("pay.bag_pressure", &[("pressure", &page.qty(p))])));
        }
        if page.needs_dampers(axle) {
            let key = if axle.is_set_again() { "pay.dampers_with_old" } else { "pay.dampers" };
            items.push(page.say(key, &[]));
        }
        items.extend(spacer(page, axle));
    }
    items.extend(redamped.iter().map(|axle| page.on(axle.side).say("pay.dampers_alone", &[])));
    let has_springs_or_dampers = !items.is_empty();
    items.extend(bars);
    items.extend(has_springs_or_dampers.then(|| page.plain("pay.why")));
    items
}

/// The spacers that go with new springs.
fn taken_spacers(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let both = both_sides::spacers(page, axle).both();
    both.into_iter().flatten().any(|spacer| spacer.si() > 0.0).then_some(())?;
    let key = if both[0] == both[1] { "pay.taken_spacer" } else { "pay.taken_spacer_each" };
    let each = both_sides::spacers_said(page, axle)?;
    Some(page.on(axle.side).say(key, &[("amount", &each), ("each", &each)]))
}

/// Another anti-roll bar.
fn roll_bar(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let thick = page.fine(page.roll_bar(axle)?);
    Some(page.on(axle.side).say("pay.roll_bar", &[("diameter", &thick)]))
}

/// What it costs, a line for each axle and one for all; a price that is not known is a line to write it on. Nothing where
/// nothing is sold.
pub(super) fn prices(page: &Page<'_>) -> Option<Block> {
    let (sold, is_open) = (sold(page), !open::items(page).is_empty());
    if sold.iter().all(|(_, price)| price.is_none()) {
        let key = if is_open { "pay.price_without" } else { "pay.price" };
        return (!sold.is_empty()).then(|| Block::Blanks(vec![page.plain(key)]));
    }
    let cell = |price: Option<f64>| price.map_or_else(|| page.plain("pay.price_open"), |price| page.money(price));
    let what = |axle: &AxleAnswer| page.on(axle.side).say("pay.price_of", &[]);
    let mut rows: Vec<Vec<String>> = sold.iter().map(|(axle, price)| vec![what(axle), cell(*price)]).collect();
    if rows.len() > 1 || is_open {
        let key = if is_open { "pay.total_open" } else { "pay.total" };
        rows.push(vec![page.plain(key), cell(sold.iter().map(|(_, price)| *price).sum())]);
    }
    Some(Block::Table { head: vec![page.plain("pay.price"), String::new()], rows })
}

/// The axles on which something is sold, each with its price where it is known.
fn sold<'a>(page: &Page<'a>) -> Vec<(&'a AxleAnswer, Option<f64>)> {
    let (refitted, redamped) = (page.refitted(), page.redamped());
    let is_one_of = |axles: &[&AxleAnswer], axle: &AxleAnswer| axles.iter().any(|of| of.side == axle.side);
    let of_all = |axle: &'a AxleAnswer| {
        let springs = is_one_of(&refitted, axle).then(|| of_springs(page, axle));
        let dampers = is_one_of(&redamped, axle).then(|| of_dampers(page));
        let bar = page.roll_bar(axle).map(|_| price_of(page, "prices.roll_bar", &page.job.prices.roll_bar));
        let prices: Vec<Option<f64>> = [springs, dampers, bar].into_iter().flatten().collect();
        (!prices.is_empty()).then(|| (axle, prices.into_iter().sum()))
    };
    page.answer.axles.iter().filter_map(of_all).collect()
}

/// A price as typed.
fn price_of(page: &Page<'_>, path: &str, entry: &Entry<Ratio>) -> Option<f64> {
    page.typed(path, entry).map(|price: Ratio| price.si())
}

/// What all of it costs, parts and work, in the shop's currency; nothing where nothing is sold. `None` as soon as one
/// price is not known, or nothing may be sold.
pub(in crate::report::sheets) fn price(page: &Page<'_>) -> Option<f64> {
    if page.names_nothing() {
        return None;
    }
    sold(page).into_iter().try_fold(0.0, |sum, (_, price)| Some(sum + price?))
}

/// Of springs or spacers, and of the dampers that go with them; parts and work.
fn of_springs(page: &Page<'_>, axle: &AxleAnswer) -> Option<f64> {
    if axle.is_set_again() {
        let prices = &page.job.prices;
        // Old bars are only set up again.
        let has_spacers = both_sides::spacers(page, axle).both().into_iter().flatten().next().is_some();
        let spacers = if has_spacers { price_of(page, "prices.spacers", &prices.spacers)? } else { 0.0 };
        let leaves = match both_sides::added_leaf_said(page, axle) {
            Some(_) => price_of(page, "prices.added_leaves", &prices.added_leaves)?,
            None => 0.0,
        };
        let set = spacers + leaves + price_of(page, "prices.work", &prices.work)?;
        return if page.needs_dampers(axle) { Some(set + of_dampers(page)?) } else { Some(set) };
    }
    let kind = if page.needs_dampers(axle) { RemedyKind::SpringsAndDampers } else { RemedyKind::Springs };
    page.answer.remedies[axle.side].iter().find(|remedy| remedy.kind == kind)?.price
}

/// Of dampers alone; parts and work.
fn of_dampers(page: &Page<'_>) -> Option<f64> {
    let prices = &page.job.prices;
    let work = price_of(page, "prices.damper_work", &prices.damper_work)?;
    Some(price_of(page, "prices.dampers", &prices.dampers)? + work)
}

/// The old springs on a spacer, or an old bar that is only set up again.
pub(super) struct Raised {
    /// Where it would stand.
    pub stands: OptionStanding,
    /// Parts and work, when they are known.
    pub price: Option<f64>,
    /// A bar that is set up again.
    pub is_set_up: bool,
}

/// What that would do; nothing where the coils would then bind, or the bar would be over its stress.
pub(super) fn raised(page: &Page<'_>, axle: &AxleAnswer) -> Option<Raised> {
    let spacer = page.part(axle)?.spacer?;
    if spacer.to_bind.is_some_and(|left| left.si() < 0.0) || !spacer.holds_stress() {
        return None;
    }
    let remedy = page.answer.remedies[axle.side].iter().find(|r| r.kind == RemedyKind::Spacer)?;
    let stands = remedy.cases.get(page.answer.compared_case()).copied().flatten()?;
    Some(Raised { stands, price: remedy.price, is_set_up: spacer.index.is_some() })
}

/// Frequencies that differ by a smaller share are the same to whoever drives. Common practice, no source.
const ALIKE: f64 = 0.03;

/// The same in a sentence.
pub(super) fn spacer(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let Raised { stands, price, is_set_up } = raised(page, axle)?;
    let new = axle.standing.new.as_ref()?.frequency;
    let is_alike = (new.si() / stands.on.frequency().si() - 1.0).abs() < ALIKE;
    let [plain, priced] = match (is_set_up, is_alike) {
        // What does the same leads; this one does not: it brings up a doubt, or new springs are wanted anyway.
        (_, true) => return None,
        (true, false) => ["pay.set_up", "pay.set_up_priced"],
        (false, false) => ["pay.spacer", "pay.spacer_priced"],
    };
    let (spacers, bounces) = (page.raised_by(axle), page.two_places(stands.on.frequency().si()));
    let (key, price) = price.map_or((plain, String::new()), |price| (priced, page.money(price)));
    Some(page.on(axle.side).say(key, &[("bounces", &bounces), ("spacers", &spacers), ("price", &price)]))
}
