//! The fitting sheet: parts, lengths, seats, order of work, this spring's force and energy, and room for the re-weigh.

use super::header;
use super::page::{Page, one_line};
use super::{Block, Report};
use crate::base::units::{Angle, Dim, Energy, G_M_PER_S2, Length, Mass, Quantity, Ratio, display};
use crate::job::{BagFitted, Side, SpringKind};
use crate::report::sections::sentence;
use crate::report::sheets::sheet::check_again_after;
use crate::solve::answer::{Again, AxleAnswer, State};

/// A line to write on, in a table.
const BLANK: &str = "________";

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks: Vec<Block> = header::names(page).into_iter().collect();
    let title = page.plain("fit.title");
    if page.is_stopped() {
        blocks.extend(page.stops());
        blocks.push(page.text("fit.stopped", &[]));
        return Report { title, blocks };
    }
    let renewed = page.renewed();
    blocks.extend(page.answer.axles.iter().filter_map(|axle| page.withheld(axle)));
    if renewed.is_empty() {
        blocks.push(page.text("fit.nothing", &[]));
    }
    for axle in page.redamped() {
        blocks.push(page.text("fit.dampers_alone", &[("dampers", &page.dampers_words(axle.side))]));
    }
    for axle in &renewed {
        blocks.push(parts(page, axle));
        blocks.extend(energy(page, axle));
    }
    blocks.extend(seats(page));
    if !renewed.is_empty() {
        let numbered = steps(&renewed).into_iter().enumerate();
        let steps = numbered.map(|(i, key)| format!("{}. {}", i + 1, page.plain(key)));
        blocks.extend([page.heading("fit.work"), Block::List(steps.collect())]);
        let torques = ["fit.torque.lower", "fit.torque.upper", "fit.torque.damper", "fit.torque.wheel"];
        blocks.extend([page.heading("fit.torque"), page.text("fit.torque.note", &[])]);
        blocks.push(Block::Blanks(torques.map(|k| page.plain(k)).to_vec()));
    }
    blocks.extend(reweigh(page));
    let cautions = [
        "fit.caution.stands",
        "fit.caution.compressor",
        "fit.caution.gas",
        "fit.caution.heat",
        "fit.caution.stem",
        "fit.caution.once",
        "fit.caution.hoses",
        "fit.caution.after",
    ];
    blocks.extend([page.heading("fit.cautions"), Block::List(cautions.map(|k| page.plain(k)).to_vec())]);
    blocks.push(page.caution("mind.compliance", &[]));
    blocks.push(Block::Blanks(
        ["sign.fitter", "sign.road_test", "sign.later", "sign.date"]
            .map(|k| page.say(k, &[("distance", check_again_after(page.units()))]))
            .to_vec(),
    ));
    Report { title, blocks }
}

/// The order of work for the kinds of spring that are renewed.
fn steps(renewed: &[&AxleAnswer]) -> Vec<&'static str> {
    let has = |kind: fn(SpringKind) -> bool| renewed.iter().any(|a| kind(a.kind));
    let kinds = [
        (has(SpringKind::is_coil), "fit.step.out", "fit.step.in"),
        (has(|k| k == SpringKind::TorsionBar), "fit.step.out_bar", "fit.step.in_bar"),
        (has(|k| k == SpringKind::Leaf), "fit.step.out_leaf", "fit.step.in_leaf"),
    ];
    let mut steps = vec!["fit.step.stands", "fit.step.free"];
    steps.extend(kinds.iter().filter(|k| k.0).map(|k| k.1));
    steps.extend(kinds.iter().filter(|k| k.0).map(|k| k.2));
    steps.extend(["fit.step.pivots", "fit.step.settle", "fit.step.weigh", "fit.step.checks"]);
    steps
}

/// What goes in, and where it then stands.
fn parts(page: &Page<'_>, axle: &AxleAnswer) -> Block {
    let data = page.job.axle(axle.side);
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut push = |key: &str, text: Option<String>| rows.extend(text.map(|t| vec![page.plain(key), t]));
    let part = page.part(axle);
    let taken = part.and_then(|p| p.parts().taken.as_deref());
    push("order.number", taken.map(one_line));
    let bar = page.of(axle, "sizing.bar.pick");
    push("order.rate", page.of(axle, "sizing.pick").filter(|_| bar.is_none()));
    let bore = bar.as_ref().map(|_| page.bore_words(axle));
    push("order.bar", bar);
    push("order.bar_bore", bore);
    push("fit.index", page.of(axle, "sizing.bar.index"));
    push("fit.free", page.of(axle, "sizing.bought_length"));
    if axle.kind.is_coil() {
        let none = || page.plain("fit.no_spacer");
        push("order.spacer", Some(page.taken_spacer(axle).map_or_else(none, |s| page.qty(s))));
    }
    let at_ride = if axle.kind == SpringKind::Leaf { "order.leaf_height" } else { "fit.ride_length" };
    push(at_ride, page.of(axle, "new_springs.spring_length"));
    push("order.load", page.of(axle, "new_springs.spring_force"));
    push("fit.droop_length", page.of(axle, "room.spring_at_droop"));
    let seat = page.value(axle, "room.seat").map(|s: Length| match s.si() {
        s if s < 0.0 => page.say("fit.loose", &[("amount", &page.qty(Length::from_si(-s)))]),
        s => page.say("fit.grips", &[("amount", &page.qty(Length::from_si(s)))]),
    });
    push("fit.seat", seat);
    push("fit.bind", page.of(axle, "room.to_bind"));
    push("fit.alignment", alignment(page, axle));
    let bag = data.bag.fitted == BagFitted::WithNew;
    push("fit.bag", page.typed_of(axle, "bag.pressure", &data.bag.pressure).filter(|_| bag).map(|p| page.qty(p)));
    Block::Table { head: vec![sentence::upper_first(&page.springs_words(axle.side)), String::new()], rows }
}

/// How far the alignment moves from the height before to the new one, as far as points of the linkage say it.
fn alignment(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let moved = axle.linkage.moved_by(State::NewSprings)?;
    let degrees = |a: Angle| page.mark(&format!("{}°", display::signed(a.si().to_degrees(), 1)));
    let (camber, track) = (degrees(moved.camber), page.qty(moved.track));
    Some(match moved.toe.map(degrees) {
        Some(toe) => page.say("fit.alignment_moves_toe", &[("camber", &camber), ("toe", &toe), ("track", &track)]),
        None => page.say("fit.alignment_moves", &[("camber", &camber), ("track", &track)]),
    })
}

/// What this spring holds: force and energy of the old one as it comes out, of the new one at ride and at full bump.
fn energy(page: &Page<'_>, axle: &AxleAnswer) -> Vec<Block> {
    let mut blocks = Vec::new();
    let springs = page.springs_words(axle.side);
    let states = [
        ("fit.energy.old", "old_springs.spring_force", "old_springs.stored"),
        ("fit.energy.new", "new_springs.spring_force", "new_springs.stored"),
        ("fit.energy.hanging", "room.old_force_hanging", "room.old_stored_hanging"),
        ("fit.energy.bump", "room.force_at_metal", "room.stored_at_metal"),
    ];
    for (key, force, stored) in states {
        let Some((force, energy)) = page.of(axle, force).zip(page.value(axle, stored)) else { continue };
        let (mass, height) = fall(page, energy);
        let fill = [
            ("springs", springs.clone()),
            ("force", force),
            ("energy", page.qty(energy)),
            ("mass", mass),
            ("height", height),
        ];
        blocks.push(page.caution(key, &fill.each_ref().map(|(k, v)| (*k, v.as_str()))));
    }
    blocks
}

/// The mass whose fall from a height everybody knows has this energy.
fn fall(page: &Page<'_>, energy: Energy) -> (String, String) {
    let (height_m, words) = match page.units().unit(Dim::Length).symbol {
        "in" => (3.0 * 0.3048, "3 ft"),
        _ => (1.0, "1 m"),
    };
    (page.qty(Mass::from_si(energy.si() / (G_M_PER_S2 * height_m))), words.to_owned())
}

/// Collars or shims that bring the cross weight to what is wanted, when it is off.
fn seats(page: &Page<'_>) -> Vec<Block> {
    let Some(cross) = page.answer.whole.cross.filter(|_| page.answer.reweigh.cross_set) else { return Vec::new() };
    let items = Side::BOTH.into_iter().filter(|s| cross.at_seat[*s as usize].si() != 0.0).map(|side| {
        let i = side as usize;
        // + is up at RF and LR.
        let right_up = (cross.at_seat[i].si() > 0.0) == (side == Side::Front);
        let amount = match cross.by_turns[i] {
            true => page.say("fit.turns", &[("turns", &page.mark(&format!("{:.1}", cross.correction.turns.abs())))]),
            false => page.say("fit.shims", &[("amount", &page.fine(Length::from_si(cross.at_seat[i].si().abs())))]),
        };
        let key = if right_up { "fit.right_up" } else { "fit.left_up" };
        sentence::upper_first(&page.say(key, &[("end", &page.end_words(side)), ("amount", &amount)]))
    });
    vec![page.heading("fit.cross"), page.text("fit.cross.note", &[]), Block::List(items.collect())]
}

/// Weights and heights to find again: foretold, how far off is accepted, and what was found or room to write it.
fn reweigh(page: &Page<'_>) -> Vec<Block> {
    let found = &page.answer.reweigh;
    let mut rows = Vec::new();
    for (i, key) in ["corner.lf", "corner.rf", "corner.lr", "corner.rr"].into_iter().enumerate() {
        if found.corners[i].foretold.is_some() {
            rows.push(again(page, &page.say("fit.weight", &[("place", &page.plain(key))]), &found.corners[i]));
        }
    }
    for side in Side::BOTH {
        let weight = &found.axles[side as usize];
        rows.push(again(page, &page.say("fit.weight", &[("place", &page.axle_words(side))]), weight));
    }
    for (i, key) in ["corner.lf", "corner.rf", "corner.lr", "corner.rr"].into_iter().enumerate() {
        rows.push(again(page, &page.say("fit.arch", &[("place", &page.plain(key))]), &found.arch[i]));
    }
    let head = ["fit.again", "fit.foretold", "fit.within", "fit.found"].map(|k| page.plain(k)).to_vec();
    let mut blocks = vec![page.heading("fit.reweigh"), page.text("fit.reweigh.note", &[]), Block::Table { head, rows }];
    let renewed = page.renewed();
    let rise = renewed.iter().filter_map(|a| {
        // With what stood on the scales, as the note above says, whatever the springs are sized on.
        let rise: Length = page.value(a, "room.rise_as_weighed")?;
        let key = if rise.si() < 0.0 { "fit.falls" } else { "fit.rises" };
        let amount = page.qty(Length::from_si(rise.si().abs()));
        Some(page.say(key, &[("end", &page.end_words(a.side)), ("amount", &amount)]))
    });
    let settle = renewed.iter().filter_map(|a| {
        let amount = page.of(a, "sizing.settling")?;
        Some(page.say("fit.settle", &[("end", &page.end_words(a.side)), ("amount", &amount)]))
    });
    let more: Vec<String> = rise.chain(settle).map(|t| sentence::upper_first(&t)).collect();
    if !more.is_empty() {
        blocks.push(Block::List(more));
    }
    let cross = found.cross_weight.map(|c: Ratio| page.mark(&format!("{:.1} %", 100.0 * c.si())));
    blocks.extend(cross.map(|c| page.text("fit.cross_found", &[("cross", &c)])));
    blocks
}

fn again<Q: Quantity>(page: &Page<'_>, what: &str, again: &Again<Q>) -> Vec<String> {
    let found = match (again.found, again.inside()) {
        (None, _) => BLANK.to_owned(),
        (Some(found), Some(true)) => page.say("fit.inside", &[("found", &page.qty(found))]),
        (Some(found), Some(false)) => {
            let off = again.difference().map_or_else(String::new, |d| {
                let sign = if d.si() > 0.0 { "+" } else { "−" };
                format!("{sign}{}", page.mark(&display::rounded_si(d.si().abs(), Q::DIM, page.units())))
            });
            page.say("fit.outside", &[("found", &page.qty(found)), ("off", &off)])
        }
        (Some(found), None) => page.qty(found),
    };
    let within =
        again.within.filter(|_| again.foretold.is_some()).map_or_else(String::new, |w| format!("± {}", page.qty(w)));
    vec![what.to_owned(), page.known(again.foretold), within, found]
}
