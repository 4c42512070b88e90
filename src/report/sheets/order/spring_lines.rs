//! The spring of one axle as an enquiry: coil, leaf or torsion bar.

use super::lines::{Blanks, Lines};
use crate::base::units::{Length, Quantity, Ratio, SpringRate, display};
use crate::job::SpringKind;
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::both_sides;
use crate::report::sheets::page::{Page, SPRINGS, listed, one_line};
use crate::solve::answer::{AxleAnswer, Part};
use crate::trade::spring::Wound;

/// The spring to buy.
pub(super) fn table(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>, blanks: &mut Blanks) -> Block {
    let mut lines = Lines::of(page, Some(axle.side), blanks);
    what(page, axle, part, &mut lines);
    both_sides::own_springs(page, axle).into_iter().for_each(|(key, text)| lines.push(key, Some(text)));
    match axle.kind {
        SpringKind::TorsionBar => bar(page, axle, &mut lines),
        SpringKind::Leaf => leaf(page, axle, &mut lines),
        SpringKind::Coil | SpringKind::WithHelper | SpringKind::Progressive => coil(page, axle, part, &mut lines),
    }
    if part.selected().is_none() && part.wound.is_none() {
        lines.push("order.steel", Some(page.plain("order.steel_by_maker")));
    }
    lines.ask_text("order.finish", &page.job.axle(axle.side).order.finish, "finish");
    lines.table(phrases::upper_first(&page.plain(SPRINGS[axle.side])))
}

/// How many, from which list, at what price.
fn what(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>, lines: &mut Lines<'_, '_>) {
    let data = page.job.axle(axle.side);
    let shelf = page.typed_of(axle, "taken.in_stock", &data.taken.in_stock).map(|n: Ratio| n.si());
    let shelf = shelf.filter(|n| part.taken.is_some() && *n < 2.0);
    let differ = axle.kind == SpringKind::TorsionBar || !both_sides::own_springs(page, axle).is_empty();
    let two = page.plain(if differ { "order.two" } else { "order.two_alike" });
    let pieces = match shelf {
        Some(n) => page.say("order.in_stock", &[("pieces", &two), ("count", &page.mark(&display::significant(n, 3)))]),
        None => two,
    };
    lines.push("order.pieces", Some(pieces));
    if part.taken.is_none() {
        return;
    }
    let named = listed([&data.taken.number, &data.taken.what]);
    lines.push("order.number", Some(named).filter(|named| !named.is_empty()));
    lines.push("order.price", both_sides::price_each(page, axle));
}

/// The rate with its tolerance.
fn rate(page: &Page<'_>, axle: &AxleAnswer, lines: &mut Lines<'_, '_>) {
    let tolerance = page.said("limits.rate_tolerance", &page.job.limits.rate_tolerance);
    let rate = page.of(axle, "sizing.pick");
    lines.push("order.rate", rate.map(|r| page.say("order.within", &[("value", &r), ("tolerance", &tolerance)])));
}

/// Which other stock rates would do, and how long a spring of each is ordered; the rate that is ordered is none of them.
fn other_rates(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>) -> Option<String> {
    let spring = part.spring.as_ref()?;
    let stock = spring.stock?;
    let steps = |from: SpringRate, to: SpringRate| ((to.si() - from.si()) / stock.step.si()).round();
    let of = |end: &str| {
        let rate = page.of(axle, &format!("sizing.stock_{end}"))?;
        Some(match page.of(axle, &format!("sizing.length_{end}")) {
            Some(length) => page.say("order.rate_of_length", &[("rate", &rate), ("length", &length)]),
            None => rate,
        })
    };
    if steps(stock.lowest, stock.highest) < 1.0 {
        return None;
    }
    let [below, above] = [steps(stock.lowest, spring.pick), steps(spring.pick, stock.highest)];
    if below == 0.0 {
        let high = of("highest")?;
        return Some(if above > 1.0 { page.say("order.up_to", &[("value", &high)]) } else { high });
    }
    if above == 0.0 {
        let low = of("lowest")?;
        return Some(if below > 1.0 { page.say("order.down_to", &[("value", &low)]) } else { low });
    }
    match stock.lengths {
        Some(_) => Some(page.say("order.from_to", &[("low", &of("lowest")?), ("high", &of("highest")?)])),
        None => page.range::<SpringRate>(axle, "sizing.stock_lowest", "sizing.stock_highest"),
    }
}

/// "6565 N at 250 mm": a load at the length of the spring itself; the load alone where no length is known.
fn load_at(page: &Page<'_>, load: Option<String>, length: Option<String>) -> Option<String> {
    let load = load?;
    Some(match length {
        Some(length) => page.say("order.load_at", &[("load", &load), ("length", &length)]),
        None => load,
    })
}

fn coil(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>, lines: &mut Lines<'_, '_>) {
    let data = page.job.axle(axle.side);
    lines.push("order.curve", (axle.kind == SpringKind::Progressive).then(|| page.plain("order.linear")));
    rate(page, axle, lines);
    let has_lengths = page.of(axle, "sizing.length_lowest").is_some();
    let is_designed = part.wound.as_ref().is_some_and(Wound::holds);
    let others = other_rates(page, axle, part).filter(|_| !is_designed);
    lines.push(if has_lengths { "order.rate_also" } else { "order.rates_also" }, others);
    let tolerance = page.said("limits.length_tolerance", &page.job.limits.length_tolerance);
    let free = page.of(axle, "sizing.bought_length");
    let free = free.map(|l| page.say("order.within", &[("value", &l), ("tolerance", &tolerance)]));
    lines.ask("order.free", free, &["spring.fitted_length"]);
    let settle = page.of(axle, "sizing.allowance").or_else(|| Some(page.said("stock.settle", &data.stock.settle)));
    lines.push("order.settle", settle.filter(|_| part.taken.is_none()));
    // Behind a helper the main spring has a length of its own.
    let [ride_key, metal_key] = match axle.kind {
        SpringKind::WithHelper => ["order.load_main", "order.force_metal_main"],
        // Its length is not the one between the seats.
        _ if both_sides::spacers(page, axle).both().iter().any(Option::is_some) => {
            ["order.load_no_spacer", "order.force_metal_no_spacer"]
        }
        _ => ["order.load", "order.force_metal"],
    };
    let length = page.of(axle, "room.own_at_ride");
    // By rows or by points, lengths are known without the one at ride height.
    let of_length = length.is_none().then_some("spring.fitted_length");
    lines.push(ride_key, load_at(page, page.of(axle, "new_springs.spring_force"), length.clone()));
    if length.is_none() {
        lines.ask("order.length_at_ride", None, &["spring.fitted_length"]);
    }
    let own_at_metal = axle.room.own_at_metal.map(|length| page.qty(length));
    let at_metal = load_at(page, page.of(axle, "room.force_at_metal"), own_at_metal);
    lines.ask(metal_key, at_metal, &["travel.metal"]);
    // One to be wound has its diameters below.
    if !is_designed {
        diameters(page, axle, lines);
        // The one that was checked, where it is named.
        let own: Option<Length> = page.typed_of(axle, "stock.solid_length", &data.stock.solid_length);
        let longest = page.value::<Length>(axle, "room.longest_solid");
        let solid = longest.map(|longest| own.filter(|own| *own < longest).unwrap_or(longest));
        let missing: Vec<&str> = of_length.into_iter().chain(["travel.metal"]).collect();
        lines.ask("order.solid", solid.map(|l| page.at_most(l)), &missing);
    }
    lines.push("order.spacer", both_sides::spacers_said(page, axle));
    if part.selected().is_none() {
        // How they are made is in the design.
        let ends = if is_designed { "order.ends_lie" } else { "order.ends" };
        lines.ask_text(ends, &data.order.ends, "ends");
        let hand = one_line(&data.order.hand);
        lines.push("order.hand", Some(if hand.is_empty() { page.plain("order.hand_either") } else { hand }));
        let preset = if data.stock.preset { "wound.preset_yes" } else { "wound.preset_no" };
        lines.push("wound.preset", Some(page.plain(preset)));
    }
    lines.push("order.helper", (axle.kind == SpringKind::WithHelper).then(|| helper(page, axle)));
}

/// The helper that stays, as far as it was measured.
fn helper(page: &Page<'_>, axle: &AxleAnswer) -> String {
    let data = &page.job.axle(axle.side).spring.helper;
    let length = |path: &str, entry| page.typed_of(axle, path, entry).map(|l: Length| page.qty(l));
    let rate = page.typed_of(axle, "spring.helper.rate", &data.rate).map(|k: SpringRate| page.qty(k));
    let free = length("spring.helper.free_length", &data.free_length);
    let solid = length("spring.helper.solid_length", &data.solid_length);
    match (rate, free, solid) {
        (Some(rate), Some(free), Some(solid)) => {
            page.say("order.helper_is", &[("rate", &rate), ("free", &free), ("solid", &solid)])
        }
        _ => page.plain("order.helper_stays"),
    }
}

/// Inside and outside diameter: one of them is enough, and asked for where neither is known.
fn diameters(page: &Page<'_>, axle: &AxleAnswer, lines: &mut Lines<'_, '_>) {
    let choice = &page.job.axle(axle.side).choice;
    let of = |key: &str, entry| page.typed_of(axle, key, entry).map(|l: Length| page.fine(l));
    let inside = of("choice.inside_least", &choice.inside_least);
    let outside = of("choice.outside_most", &choice.outside_most);
    if inside.is_none() && outside.is_none() {
        lines.ask("order.inside", None, &["choice.inside_least"]);
        lines.ask("order.outside", None, &["choice.outside_most"]);
    } else {
        lines.push("order.inside", inside);
        lines.push("order.outside", outside);
    }
}

/// A leaf by its rate and its height under the load; sections of the old one, since the maker chooses the new ones.
fn leaf(page: &Page<'_>, axle: &AxleAnswer, lines: &mut Lines<'_, '_>) {
    let data = page.job.axle(axle.side);
    let (old, order) = (&data.spring.leaf, &data.order);
    rate(page, axle, lines);
    lines.push("fit.load", page.of(axle, "new_springs.spring_force"));
    let tolerance = page.said("limits.length_tolerance", &page.job.limits.length_tolerance);
    let height = page.of(axle, "new_springs.spring_length");
    let height = height.map(|h| page.say("order.within", &[("value", &h), ("tolerance", &tolerance)]));
    lines.ask("order.leaf_height", height, &["spring.fitted_length"]);
    lines.push("order.leaf_free", page.of(axle, "new_springs.free_length"));
    lines.push("order.leaf_settling", Some(page.plain("order.leaf_settled")));
    let to_metal = to_metal(axle);
    let length = page.value::<Length>(axle, "new_springs.spring_length").zip(to_metal).map(|(l, d)| page.qty(l - d));
    let at_metal = load_at(page, page.of(axle, "room.force_at_metal"), length);
    lines.ask("order.leaf_at_bump", at_metal, &["travel.metal"]);
    lines.ask_text("order.u_bolts", &order.u_bolts, "u_bolts");
    lines.ask_typed("order.leaf_clamped", "spring.leaf.clamped", &old.clamped, Page::qty);
    let camber: Option<Length> = page.typed_of(axle, "order.camber", &order.camber);
    lines.ask("order.camber", camber.map(|c| page.qty(c)), &["order.camber"]);
    let deflection = deflection(page, axle);
    lines.push("order.camber_free", camber.zip(deflection).map(|(c, d)| page.qty(c + d)));
    lines.push("order.camber_bump", camber.zip(to_metal).map(|(c, d)| page.qty(c - d)));
    lines.ask_typed("order.eye_to_eye", "spring.leaf.span", &old.span, Page::qty);
    lines.ask_typed("order.centre_bolt", "order.centre_bolt", &order.centre_bolt, Page::qty);
    lines.ask_text("order.fixed_eye", &order.fixed_eye, "fixed_eye");
    lines.ask_typed("order.leaf_width", "spring.leaf.width", &old.width, Page::fine);
    lines.ask_typed("order.leaf_thickness", "spring.leaf.thickness", &old.thickness, Page::fine);
    let count = |page: &Page<'_>, n: Ratio| page.mark(&display::significant(n.si(), 3));
    lines.ask_typed("order.leaves", "spring.leaf.leaves", &old.leaves, count);
    lines.ask_text("order.bolt", &order.bolt, "bolt");
    lines.ask_text("order.eyes", &order.eyes, "eyes");
    lines.ask_text("order.clips", &order.clips, "clips");
}

/// How much further a leaf gives way from ride height to full bump.
fn to_metal(axle: &AxleAnswer) -> Option<Length> {
    Some((axle.travel.metal? - axle.standing.new.as_ref()?.travel) * axle.motion_ratio?.si())
}

/// How far the new leaf gives way from no load to the load at ride height.
fn deflection(page: &Page<'_>, axle: &AxleAnswer) -> Option<Length> {
    let free: Length = page.value(axle, "new_springs.free_length")?;
    let loaded: Length = page.value(axle, "new_springs.spring_length")?;
    Some(free - loaded)
}

fn bar(page: &Page<'_>, axle: &AxleAnswer, lines: &mut Lines<'_, '_>) {
    let data = page.job.axle(axle.side);
    let within = |value: String| match page.value(axle, "sizing.bar.tolerance") {
        Some(tolerance) => page.say("order.within", &[("value", &value), ("tolerance", &page.fine(tolerance))]),
        None => value,
    };
    lines.push("order.bar", page.of(axle, "sizing.bar.pick").map(within));
    lines.push("order.bar_bore", Some(page.bore_words(axle)));
    lines.ask_typed("order.bar_length", "spring.bar.length", &data.spring.bar.length, Page::qty);
    lines.ask_typed("order.bar_over_all", "order.bar_length", &data.order.bar_length, Page::qty);
    lines.ask_text("order.splines", &data.order.splines, "splines");
    lines.push("order.bar_sides", Some(page.plain("order.bar_sides_marked")));
    lines.ask_text("order.bar_direction", &data.order.bar_direction, "bar_direction");
    lines.push("fit.index", page.index_words(axle));
    lines.ask_typed("order.bar_arm", "spring.bar.arm", &data.spring.bar.arm, Page::qty);
    lines.push("order.bar_angle", page.of(axle, "sizing.bar.angle_ride"));
    lines.push("order.bar_rate", page.of(axle, "sizing.bar.twist_rate"));
    lines.push("fit.load", page.of(axle, "new_springs.spring_force"));
    lines.push("order.twist_ride", page.of(axle, "sizing.bar.twist_ride"));
    lines.ask("order.leaf_bump", page.of(axle, "room.force_at_metal"), &["travel.metal"]);
    lines.ask("order.twist_bump", page.of(axle, "sizing.bar.twist_bump"), &["travel.metal"]);
    lines.push("order.stress_bump", page.of(axle, "bar.stress_bump"));
    lines.push("order.allowed", page.of(axle, "bar.allowed"));
}
