//! The order list: what to buy, per axle and side, so that a supplier need not ask. What is not known is a blank that
//! names itself and the field which fills it.

mod added_leaf;
mod bag_lines;
mod damper_lines;
mod lines;
mod spring_lines;
mod wound;

use super::both_sides;
use super::header;
use super::judged::Verdict;
use super::open;
use super::page::{Page, SPRINGS, listed};
use super::{Block, Report};
use crate::base::units::{Length, Quantity};
use crate::job::{BagFitted, HeldBy, SpringKind};
use crate::report::phrases;
use crate::report::sheets::sheet::default_label;
use crate::solve::answer::{AxleAnswer, Part};
use lines::{Blanks, Lines};

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks: Vec<Block> = header::working_names(page).into_iter().collect();
    let mut blanks = Blanks::default();
    if page.is_stopped() {
        blocks.extend(page.stops().into_iter().map(Block::Caution));
        blocks.push(page.text("order.stopped", &[]));
    } else {
        blocks.extend(of_the_order(page, &mut blanks));
        blocks.extend(page.sized_case_words("fit.case").map(Block::Text));
        for axle in &page.answer.axles {
            blocks.extend(one_axle(page, axle, &mut blanks));
        }
        blocks.extend(open::said(page));
        blocks.extend(notes(page));
        blocks.extend(blanks.blocks(page));
    }
    Report { title: page.plain("order.title"), blocks }
}

/// What holds for the whole order; of each kind of spring only where one is bought.
fn notes(page: &Page<'_>) -> Vec<Block> {
    let sold: Vec<_> = page.answer.axles.iter().filter_map(|axle| Some((axle, springs(page, axle)?))).collect();
    let has = |is: &dyn Fn(SpringKind) -> bool| sold.iter().any(|(axle, _)| is(axle.kind));
    let mut blocks = vec![page.heading("order.notes"), page.text("order.note", &[])];
    blocks.extend(has(&|kind| kind == SpringKind::TorsionBar).then(|| page.text("order.note_bars", &[])));
    if page.answer.axles.iter().any(|axle| page.part(axle).is_some() && axle.sizing.is_some()) {
        blocks.push(both_sides::corners(page));
    }
    blocks.extend(has(&|kind| kind == SpringKind::Leaf).then(|| page.text("order.note_leaves", &[])));
    let sells_bag = |axle: &AxleAnswer| page.job.axle(axle.side).bag.fitted == BagFitted::WithNew;
    blocks.extend(sold.iter().any(|(axle, _)| sells_bag(axle)).then(|| page.text("order.note_bags", &[])));
    let is_wound = sold.iter().any(|(_, part)| part.wound.is_some());
    blocks.extend(is_wound.then(|| page.text("order.note_stress", &[])));
    if has(&SpringKind::is_coil) {
        let limits = &page.job.limits;
        let rate = page.said("limits.rate_tolerance", &limits.rate_tolerance);
        let length = page.said("limits.length_tolerance", &limits.length_tolerance);
        blocks.push(page.text("order.note_along", &[]));
        blocks.push(page.text("order.note_governs", &[]));
        blocks.push(page.text("order.note_coils", &[("rate", &rate), ("length", &length)]));
    }
    blocks.extend(assumed(page));
    blocks
}

/// What the figures of an order rest on without having been measured: unsprung masses and motion ratios. That of the
/// dampers is named with their figures; a leaf on the axle moves with the wheel.
fn assumed(page: &Page<'_>) -> Vec<Block> {
    const DECIDE: [&str; 6] =
        ["unsprung", "ratio.arm", "ratio.seat_angle", "damper_ratio.arm", "damper_ratio.seat_angle", "bag.ratio"];
    let ordered = |side: &str| page.answer.axles.iter().any(|axle| axle.side.key() == side && is_ordered(page, axle));
    let decides = |path: &str| path.split_once('.').is_some_and(|(side, key)| DECIDE.contains(&key) && ordered(side));
    let said = page
        .answer
        .defaults
        .iter()
        .filter(|default| decides(&default.path))
        .map(|default| {
            let (label, value) = (default_label(&default.path), page.mark(&default.text.to_string()));
            page.say("order.assumed_one", &[("what", &label), ("value", &value), ("reason", &default.reason)])
        })
        .collect();
    Block::under(page.text("order.assumed", &[]), said)
}

/// Springs or dampers of an axle are on the order.
fn is_ordered(page: &Page<'_>, axle: &AxleAnswer) -> bool {
    page.part(axle).is_some_and(|part| springs(page, axle).is_some() || damper_lines::are_ordered(page, axle, part))
}

/// The springs that are bought for an axle.
fn springs<'a>(page: &Page<'a>, axle: &AxleAnswer) -> Option<Part<'a>> {
    let is_bought = page.verdict(axle) == Verdict::New && axle.sizing.is_some();
    page.part(axle).filter(|part| is_bought && part.spring.is_some())
}

/// Number, day and place of the order, where something is ordered.
fn of_the_order(page: &Page<'_>, blanks: &mut Blanks) -> Option<Block> {
    let buys = |axle: &AxleAnswer| {
        let springs = matches!(page.verdict(axle), Verdict::New | Verdict::OnSpacers);
        page.part(axle).is_some() && (springs || page.needs_dampers(axle) || axle.gets_roll_bar())
    };
    if !page.answer.axles.iter().any(buys) {
        return None;
    }
    let (order, mut lines) = (&page.job.order, Lines::of(page, None, blanks));
    let shop = listed([&page.job.shop.name, &page.job.shop.contact]);
    lines.asked_above("head.fitter", &page.job.shop.fitter);
    lines.ask_of_job("order.from", &shop);
    lines.ask_of_job("order.order_number", &order.number);
    lines.ask_of_job("order.needed", &order.needed);
    lines.ask_of_job("order.deliver_to", &order.deliver_to);
    Some(lines.table(page.plain("order.order")))
}

fn one_axle(page: &Page<'_>, axle: &AxleAnswer, blanks: &mut Blanks) -> Vec<Block> {
    let mut blocks = vec![Block::Heading(phrases::upper_first(&page.axle_words(axle.side)))];
    let does_wanted = page.lead(axle).is_some_and(|lead| lead.does_wanted);
    let all_stays = page.part(axle).is_some() && page.dampers(axle).is_to_stay();
    let key = match page.verdict(axle) {
        Verdict::Unanswered => Some("order.unanswered"),
        Verdict::Stays if all_stays => Some("order.all_stays"),
        Verdict::Stays => Some("order.stays"),
        Verdict::Fine if !does_wanted => Some("order.fine_same"),
        Verdict::Fine if axle.standing.before.is_some() => Some("order.fine"),
        Verdict::Fine => Some("order.fine_no_before"),
        Verdict::OnSpacers if page.lead(axle).is_some() => {
            Some(both_sides::set_again(page, axle, ["order.led", "order.led_indexed", "order.led"]))
        }
        Verdict::MeasureFirst => Some("order.measure_first"),
        Verdict::New | Verdict::OnSpacers => None,
    };
    blocks.extend(key.map(|key| page.on(axle.side).text(key, &[])));
    if key == Some("order.all_stays") {
        blocks.extend(damper_lines::stay_by_assumption(page, axle));
    }
    let Some(part) = page.part(axle) else {
        blocks.extend(page.withheld(axle));
        blocks.extend(page.overruled(axle));
        return blocks;
    };
    if springs(page, axle).is_some() {
        blocks.push(spring_lines::table(page, axle, part, blanks));
        blocks.extend(droop(page, axle));
        blocks.extend(bag_lines::table(page, axle, blanks));
        blocks.extend(part.wound.as_ref().map(|w| wound::table(page, axle, w)));
        blocks.extend(part.added_leaf.iter().flat_map(|added| added_leaf::blocks(page, axle, added)));
    }
    blocks.extend(on_spacers(page, axle, blanks));
    blocks.extend(damper_lines::blocks(page, axle, part, blanks));
    blocks.extend(roll_bar(page, axle, blanks));
    blocks.extend(page.overruled(axle));
    blocks
}

/// The spacers of old springs that stay, or how far old bars are indexed again, and what one side has of its own.
fn on_spacers(page: &Page<'_>, axle: &AxleAnswer, blanks: &mut Blanks) -> Option<Block> {
    if page.verdict(axle) != Verdict::OnSpacers {
        return None;
    }
    let mut lines = Lines::of(page, Some(axle.side), blanks);
    lines.push("order.kept_spacer", both_sides::spacers_said(page, axle));
    lines.push("fit.index", both_sides::index_said(page, axle));
    added_leaf::lines(page, axle, &mut lines);
    both_sides::own_springs(page, axle).into_iter().for_each(|(key, text)| lines.push(key, Some(text)));
    let head = both_sides::set_again(page, axle, ["order.spacers", "order.indexed", "order.with_leaf"]);
    Some(lines.table(page.plain(head)))
}

/// The new anti-roll bar, otherwise as the old one.
fn roll_bar(page: &Page<'_>, axle: &AxleAnswer, blanks: &mut Blanks) -> Option<Block> {
    let diameter = page.fine(page.roll_bar(axle)?);
    let data = &page.job.axle(axle.side).roll_bar;
    let mut lines = Lines::of(page, Some(axle.side), blanks);
    lines.push("order.pieces", Some(page.plain("order.roll_bar.one")));
    lines.push("order.roll_bar.diameter", Some(diameter));
    let bore: Option<Length> = page.typed_of(axle, "roll_bar.inside_diameter", &data.inside_diameter);
    let bore = bore.filter(|bore| bore.si() > 0.0);
    lines.push("order.roll_bar.bore", Some(bore.map_or_else(|| page.plain("order.bar_solid"), |b| page.fine(b))));
    lines.ask_typed("order.roll_bar.length", "roll_bar.length", &data.length, Page::qty);
    lines.ask_typed("order.roll_bar.arm", "roll_bar.blade", &data.blade, Page::qty);
    Some(lines.table(phrases::upper_first(&page.on(axle.side).say("order.roll_bar", &[]))))
}

/// A spring that is loose at full droop is ordered on a condition, until the job says what holds it.
fn droop(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    let loose: Length = page.value(axle, "room.seat").filter(|left: &Length| left.si() < 0.0)?;
    let springs = phrases::upper_first(&page.plain(SPRINGS[axle.side]));
    let (amount, held) = (page.qty(Length::from_si(-loose.si())), page.job.axle(axle.side).held_by);
    Some(match held {
        HeldBy::NotSaid => page.caution("order.loose", &[("springs", &springs), ("amount", &amount)]),
        held => page.text("order.held", &[("springs", &springs), ("by", held.words().said())]),
    })
}
