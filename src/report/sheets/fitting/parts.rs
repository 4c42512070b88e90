//! What goes in, and how the seats are set.

use super::BLANK;
use crate::base::units::{Angle, Dim, Length, Quantity, display};
use crate::job::{BagFitted, LeftRight, Side, SpringKind};
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::both_sides;
use crate::report::sheets::judged::Verdict;
use crate::report::sheets::open;
use crate::report::sheets::page::{Page, SPRINGS, one_line};
use crate::report::sheets::procedure::{Construction, Unit};
use crate::solve::answer::{AxleAnswer, State};

/// What goes in on one axle, and by whom, where that matters.
pub(super) fn blocks(page: &Page<'_>, axle: &AxleAnswer) -> Vec<Block> {
    let by_maker = both_sides::added_leaf_said(page, axle).map(|_| page.caution("added.by_spring_maker", &[]));
    std::iter::once(table(page, axle)).chain(by_maker).collect()
}

/// What goes in on one axle, and where it then is.
fn table(page: &Page<'_>, axle: &AxleAnswer) -> Block {
    let data = page.job.axle(axle.side);
    let mut rows = if axle.is_set_again() {
        vec![("fit.springs", Some(page.plain("fit.old_springs")))]
    } else {
        new_springs(page, axle)
    };
    let has_leaf = both_sides::added_leaf_said(page, axle).is_some();
    let is_raised = axle.is_set_again() && axle.kind != SpringKind::TorsionBar && !has_leaf;
    if axle.kind.is_coil() && super::is_placed(axle) || is_raised {
        let LeftRight { left, right } =
            both_sides::spacers(page, axle).map(|own| own.map_or_else(|| page.plain("fit.no_spacer"), |s| page.qty(s)));
        let key = if axle.kind == SpringKind::Leaf { "fit.blocks" } else { "fit.spacers" };
        rows.push((key, Some(page.say("fit.both_sides", &[("left", &left), ("right", &right)]))));
    }
    let index = both_sides::index_said(page, axle);
    rows.push(("fit.index", index.map(|angle| page.say("fit.index_by", &[("angle", &angle)]))));
    rows.push(("added.to_add", both_sides::added_leaf_said(page, axle)));
    rows.extend(both_sides::own_springs(page, axle).into_iter().map(|(key, text)| (key, Some(text))));
    let at_ride = if axle.kind == SpringKind::Leaf { "order.leaf_height" } else { "fit.ride_length" };
    let length = page.of(axle, "new_springs.spring_length");
    rows.push((at_ride, length.or_else(|| axle.kind.is_coil().then(|| BLANK.to_owned()))));
    let main = page.of(axle, "room.own_at_ride").filter(|_| axle.kind == SpringKind::WithHelper);
    rows.push(("fit.main_at_ride", main));
    rows.push(("fit.load", page.of(axle, "new_springs.spring_force")));
    rows.push(("fit.droop_length", page.of(axle, "room.spring_at_droop")));
    let seat = page.value(axle, "room.seat").map(|s: Length| match s.si() {
        s if s < 0.0 => page.say("fit.loose", &[("amount", &page.qty(Length::from_si(-s)))]),
        s => page.say("fit.grips", &[("amount", &page.qty(Length::from_si(s)))]),
    });
    rows.push(("fit.seat", seat));
    rows.push(("fit.bind", bind(page, axle)));
    rows.push(("fit.alignment", alignment(page, axle)));
    let pressure = page.typed_of(axle, "bag.pressure", &data.bag.pressure).map(|p| page.qty(p));
    rows.push(("fit.bag", pressure.filter(|_| data.bag.fitted == BagFitted::WithNew)));
    let head = vec![phrases::upper_first(&page.plain(SPRINGS[axle.side])), String::new()];
    Block::Table { head, rows: page.rows(rows) }
}

/// Something is listed that goes in with the insulators, or left and right differ.
pub(super) fn has_spacers(page: &Page<'_>, axle: &AxleAnswer) -> bool {
    both_sides::spacers(page, axle) != LeftRight::default() || !both_sides::own_springs(page, axle).is_empty()
}

/// The room to coil bind at full bump: of the spring that is designed, of the longest that fills the order, or as known.
fn bind(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let metal = || Some(page.value::<Length>(axle, "room.spring_at_metal")? - axle.room.beside_solid?);
    let wound = page.part(axle).and_then(|part| part.wound.as_ref().filter(|w| w.holds())?.wire.solid_length());
    if let Some(solid) = wound.filter(|_| page.orders_solid_length(axle)) {
        return Some(page.qty(metal()? - solid));
    }
    if !page.orders_solid_length(axle) {
        return page.of(axle, "room.to_bind");
    }
    let room = metal()? - page.value::<Length>(axle, "room.longest_solid")?;
    Some(page.say("fit.bind_ordered", &[("room", &page.qty(room))]))
}

/// The dampers that are renewed.
pub(super) fn dampers(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    page.part(axle)?.damper.as_ref()?;
    let order = &page.job.axle(axle.side).order;
    let typed = |text: &str| Some(one_line(text)).filter(|text| !text.is_empty());
    let rows = page.rows([
        ("order.pieces", Some(page.plain("order.two_alike"))),
        ("order.closed", page.value(axle, "room.damper_closed_most").map(|l| page.at_most(l))),
        ("order.open", page.value(axle, "room.damper_open_least").map(|l| page.at_least(l))),
        ("order.upper_mount", typed(&order.upper_mount)),
        ("order.lower_mount", typed(&order.lower_mount)),
    ]);
    let head = page.on(axle.side).say("fit.dampers", &[]);
    Some(Block::Table { head: vec![phrases::upper_first(&head), String::new()], rows })
}

/// The anti-roll bar that goes in.
pub(super) fn roll_bar(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    let thick = page.fine(page.roll_bar(axle)?);
    let page = &page.on(axle.side);
    let old = &page.job.axle(axle.side).roll_bar.diameter;
    Some(match page.typed_of(axle, "roll_bar.diameter", old).map(|old| page.fine(old)) {
        Some(old) => page.text("fit.roll_bar", &[("diameter", &thick), ("old", &old)]),
        None => page.text("fit.roll_bar_first", &[("diameter", &thick)]),
    })
}

/// The springs stay, but the old dampers come out to be tested.
pub(super) fn is_tested_alone(page: &Page<'_>, axle: &AxleAnswer) -> bool {
    page.verdict(axle) == Verdict::Fine && open::is_open(page, axle) && page.part(axle).is_some()
}

/// Old dampers that are bought new only if they fail: their test, where springs come out; of others, as the order says.
pub(super) fn tested_dampers(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    let is_apart = Construction::of(page.job.axle(axle.side)).unit == Unit::Apart;
    let key = match page.verdict(axle) {
        Verdict::New | Verdict::OnSpacers if is_apart => "fit.test_dampers",
        Verdict::New | Verdict::OnSpacers => "fit.test_dampers_unit",
        Verdict::Fine => "fit.dampers_open",
        Verdict::Stays | Verdict::MeasureFirst | Verdict::Unanswered => return None,
    };
    let is_said = open::is_open(page, axle) && page.part(axle).is_some();
    is_said.then(|| page.on(axle.side).text(key, &[]))
}

/// What names the new springs.
fn new_springs(page: &Page<'_>, axle: &AxleAnswer) -> Vec<(&'static str, Option<String>)> {
    let taken = page.part(axle).and_then(|p| p.parts().selected());
    let bar = page.of(axle, "sizing.bar.pick");
    let bore = bar.as_ref().map(|_| page.bore_words(axle));
    let linear = (axle.kind == SpringKind::Progressive).then(|| page.plain("order.linear"));
    vec![
        ("order.curve", linear),
        ("order.number", taken.map(one_line)),
        ("order.rate", page.of(axle, "sizing.pick").filter(|_| bar.is_none())),
        ("order.bar", bar),
        ("order.bar_bore", bore),
        ("fit.index", page.index_words(axle)),
        ("fit.free", page.of(axle, "sizing.bought_length").or_else(|| axle.kind.is_coil().then(|| BLANK.to_owned()))),
    ]
}

/// How far the alignment moves from the height before to the new one, as far as points of the linkage say it.
fn alignment(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let moved = axle.linkage.moved_by(State::NewSprings)?;
    let degrees = |a: Angle| page.mark(&format!("{}°", display::signed(a.si().to_degrees(), 1)));
    let (camber, track) = (degrees(moved.camber), page.qty(moved.track));
    // By tenths of a degree, as printed.
    let turned = moved.toe.into_iter().chain([moved.camber]).any(|a| (10.0 * a.si().to_degrees()).round() != 0.0);
    if !turned && display::rounded_number(moved.track.si(), page.units().unit(Dim::Length)) == "0" {
        let rise = page.value(axle, "room.rise_as_weighed").map(|rise: Length| page.short_height(rise));
        return Some(match rise.filter(|rise| *rise != page.plain("height.short.same")) {
            Some(rise) => page.say("fit.alignment_stays_rise", &[("height", &rise)]),
            None => page.plain("fit.alignment_stays"),
        });
    }
    Some(match moved.toe.map(degrees) {
        Some(toe) => page.say("fit.alignment_moves_toe", &[("camber", &camber), ("toe", &toe), ("track", &track)]),
        None => page.say("fit.alignment_moves", &[("camber", &camber), ("track", &track)]),
    })
}

/// Collars or shims that bring the cross weight to what is wanted, when it is off.
pub(super) fn seats(page: &Page<'_>) -> Vec<Block> {
    let Some(cross) = page.answer.whole.cross.filter(|_| page.answer.reweigh.cross_set) else { return Vec::new() };
    let items = Side::BOTH.into_iter().filter(|s| cross.at_seat[*s].si() != 0.0).map(|side| {
        // + is up at RF and LR.
        let right_up = (cross.at_seat[side].si() > 0.0) == (side == Side::Front);
        let amount = match cross.by_turns[side] {
            true => page.say("fit.turns", &[("turns", &page.mark(&format!("{:.1}", cross.turns.abs())))]),
            false => page.say("fit.shims", &[("amount", &page.fine(Length::from_si(cross.at_seat[side].si().abs())))]),
        };
        let key = if right_up { "fit.right_up" } else { "fit.left_up" };
        phrases::upper_first(&page.on(side).say(key, &[("amount", &amount)]))
    });
    vec![page.heading("fit.cross"), page.text("fit.cross.note", &[]), Block::List(items.collect())]
}
