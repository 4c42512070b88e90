//! Left and right on the sheets: springs that differ, and what the corners then carry.

use super::Block;
use super::page::{Page, one_line};
use crate::base::message::Message;
use crate::base::units::{Angle, Entry, Length, Quantity, Ratio, SpringRate, display};
use crate::job::{LeftRight, OwnSpring, SpringKind, fields};
use crate::solve::answer::{AxleAnswer, Kept};

const CORNERS: [&str; 4] = ["corner.lf", "corner.rf", "corner.lr", "corner.rr"];
/// A body that is lower on one side by no more is level on a sheet, m.
pub(super) const LEVEL_M: f64 = 0.002;

/// Rate and free length of each side of an axle that has a spring of its own, as typed; the rest is the axle's.
pub(super) fn own_springs(page: &Page<'_>, axle: &AxleAnswer) -> Vec<(&'static str, String)> {
    let data = page.job.axle(axle.side);
    let row = |key: &'static str, side: &str, own: &OwnSpring| {
        let rate = page.typed_of(axle, &format!("{side}.rate"), &own.rate);
        let free = page.typed_of(axle, &format!("{side}.free_length"), &own.free_length);
        let number = Some(one_line(&own.number)).filter(|number| !number.is_empty());
        let solid: Option<Length> = page.typed_of(axle, &format!("{side}.solid_length"), &own.solid_length);
        let solid = solid.map(|length| page.say("order.own_solid", &[("length", &page.qty(length))]));
        let all = [number, rate.map(|k: SpringRate| page.qty(k)), free.map(|l: Length| page.qty(l)), solid];
        let said: Vec<String> = all.into_iter().flatten().collect();
        (!said.is_empty()).then(|| (key, said.join(", ")))
    };
    [row("order.own_left", "left", &data.left), row("order.own_right", "right", &data.right)]
        .into_iter()
        .flatten()
        .collect()
}

/// The price of one new spring; of each side where they differ.
pub(super) fn price_each(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let data = page.job.axle(axle.side);
    let of = |path: &str, entry: &Entry<Ratio>| page.typed_of(axle, path, entry).map(|p: Ratio| page.money(p.si()));
    let of_axle = of("taken.price", &data.taken.price);
    let own = [of("left.price", &data.left.price), of("right.price", &data.right.price)];
    match own.map(|own| own.or_else(|| of_axle.clone())) {
        [Some(left), Some(right)] if left != right => {
            Some(page.say("fit.both_sides", &[("left", &left), ("right", &right)]))
        }
        [left, right] => left.or(right),
    }
}

/// What is done to old springs that stay.
fn kept(page: &Page<'_>, axle: &AxleAnswer) -> Option<Kept> {
    page.part(axle)?.parts().kept
}

/// The key of a text about old springs on spacers, or of its twins about bars that are indexed again and about added leaves.
pub(super) fn set_again(page: &Page<'_>, axle: &AxleAnswer, keys: [&'static str; 3]) -> &'static str {
    let [on_spacers, indexed, added_leaf] = keys;
    match kept(page, axle) {
        Some(Kept::Indexed(_)) => indexed,
        Some(Kept::AddedLeaf { .. }) => added_leaf,
        Some(Kept::Spacers(_)) | None => on_spacers,
    }
}

/// The leaf that is added to each old pack, in words; `None` where none is.
pub(super) fn added_leaf_said(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let Kept::AddedLeaf { rate, nip, .. } = kept(page, axle)? else { return None };
    let key = if nip.si() < 0.0 { "added.helper_of" } else { "added.leaf_of" };
    let nip = page.qty(Length::from_si(nip.si().abs()));
    Some(page.say(key, &[("rate", &page.qty(rate)), ("nip", &nip)]))
}

/// How far old bars that stay are indexed again, in words; `None` where they are not.
pub(super) fn index_said(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let Kept::Indexed(LeftRight { left, right }) = kept(page, axle)? else { return None };
    let turned = |angle: Angle| page.mark(&format!("{}°", display::signed(angle.si().to_degrees(), 1)));
    Some(match left == right {
        true => turned(left),
        false => page.say("fit.both_sides", &[("left", &turned(left)), ("right", &turned(right))]),
    })
}

/// The spacers of the springs as they will be fitted; − for a seat that is lowered, none for nothing between.
pub(super) fn spacers(page: &Page<'_>, axle: &AxleAnswer) -> LeftRight<Option<Length>> {
    let data = page.job.axle(axle.side);
    let of = |path: &str, own: &Entry<Length>| {
        let own: Option<Length> = page.typed_of(axle, path, own).filter(|_| axle.kind != SpringKind::TorsionBar);
        own.or_else(|| page.taken_spacer(axle)).filter(|s| s.si() != 0.0)
    };
    match kept(page, axle) {
        Some(Kept::Spacers(both) | Kept::AddedLeaf { blocks: both, .. }) => {
            both.map(|spacer| Some(spacer).filter(|s| s.si() != 0.0))
        }
        Some(Kept::Indexed(_)) => LeftRight::default(),
        None => LeftRight { left: of("left.spacer", &data.left.spacer), right: of("right.spacer", &data.right.spacer) },
    }
}

/// The same in words, one amount where both are alike; `None` without any.
pub(super) fn spacers_said(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    match spacers(page, axle).both() {
        [None, None] => None,
        [Some(left), Some(right)] if left == right => Some(page.qty(left)),
        both => {
            let [left, right] = both.map(|s| s.map_or_else(|| page.plain("fit.no_spacer"), |s| page.qty(s)));
            Some(page.say("fit.both_sides", &[("left", &left), ("right", &right)]))
        }
    }
}

/// What is put under old springs that stay: "spacers of 12 mm", "seats 10 mm lower", "blocks (left 12 mm, right none)"; of
/// bars how far they are indexed again; of a leaf that is added what it is.
pub(super) fn raised_with(page: &Page<'_>, axle: &AxleAnswer) -> String {
    if let Some(said) = index_said(page, axle).or_else(|| added_leaf_said(page, axle)) {
        return said;
    }
    let LeftRight { left, right } = spacers(page, axle);
    match (left.filter(|_| left == right), axle.kind) {
        (Some(lower), _) if lower.si() < 0.0 => {
            page.say("spacers.lower", &[("amount", &page.qty(Length::from_si(-lower.si())))])
        }
        (Some(block), SpringKind::Leaf) => page.say("spacers.blocks_of", &[("amount", &page.qty(block))]),
        (Some(spacer), _) => page.say("spacers.of", &[("amount", &page.qty(spacer))]),
        (None, _) => {
            let each = spacers_said(page, axle).unwrap_or_default();
            page.say("spacers.each_side", &[("spacers", &page.raised_by(axle)), ("each", &each)])
        }
    }
}

/// The fields without which four corners that were weighed are not known on these springs.
pub(super) fn unsolved(page: &Page<'_>) -> Option<String> {
    let missing = page.answer.corners_unsolved();
    let named = Message::row(missing.iter().map(|path| fields::full_label(path)), "; ");
    (!missing.is_empty()).then(|| named.to_string())
}

/// What the corners carry on the springs of the order, as on the fitting sheet; without corner weights, that it is not
/// known.
pub(super) fn corners(page: &Page<'_>) -> Block {
    let targets = page.answer.reweigh.corners.iter().map(|corner| corner.foretold);
    let weights: Vec<String> = CORNERS
        .into_iter()
        .zip(targets)
        .filter_map(|(key, weight)| Some(format!("{} {}", page.plain(key), page.qty(weight?))))
        .collect();
    if weights.is_empty() {
        return match unsolved(page) {
            None => page.text("order.corners_unknown", &[]),
            Some(missing) => page.text("order.corners_unsolved", &[("missing", &missing)]),
        };
    }
    let load = if page.answer.after.corners.is_some() { "order.load_weighed" } else { "order.load_predicted" };
    let (load, weights) = (page.plain(load), weights.join(", "));
    page.text("order.corners", &[("load", &load), ("weights", &weights)])
}
