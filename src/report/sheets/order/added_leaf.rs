//! What a leaf shop would add to the old leaves instead of making new ones.

use super::lines::Lines;
use crate::base::units::{Length, Quantity, SpringRate, display};
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::both_sides;
use crate::report::sheets::page::{Page, SPRINGS};
use crate::solve::answer::{AddedLeaf, AxleAnswer};

/// The leaves to add, and on which condition; that they are not named where they are not known well enough.
pub(super) fn blocks(page: &Page<'_>, axle: &AxleAnswer, added: &AddedLeaf) -> Vec<Block> {
    let rate = added.beside.rate;
    let part = page.part(axle);
    let u = part.and_then(|part| part.u_of(|parts| Some(parts.added_leaf?.beside.rate.si()))).unwrap_or(0.0);
    if !display::is_determined(rate.si(), u) {
        let springs = phrases::upper_first(&page.plain(SPRINGS[axle.side]));
        let (rate, u) = (page.qty(rate), page.qty(SpringRate::from_si(u)));
        return vec![page.text("added.doubt", &[("springs", &springs), ("rate", &rate), ("u", &u)])];
    }
    vec![
        Block::Table { head: vec![page.plain("added.head"), String::new()], rows: rows(page, axle, added) },
        page.on(axle.side).text("added.note", &[]),
    ]
}

/// The leaves for old springs that stay.
pub(super) fn lines(page: &Page<'_>, axle: &AxleAnswer, lines: &mut Lines<'_, '_>) {
    let Some(said) = both_sides::added_leaf_said(page, axle) else { return };
    lines.push("order.pieces", Some(page.plain("order.two_leaves")));
    lines.push("added.to_add", Some(said));
    lines.push("added.leaves_by_maker", Some(page.plain("added.by_maker")));
    let width = &page.job.axle(axle.side).spring.leaf.width;
    lines.ask_typed("order.leaf_width", "spring.leaf.width", width, Page::fine);
}

fn rows(page: &Page<'_>, axle: &AxleAnswer, added: &AddedLeaf) -> Vec<Vec<String>> {
    let nip = page.qty(Length::from_si(added.beside.nip.si().abs()));
    let what = if added.is_helper() { "added.helper" } else { "added.leaf" };
    let what = page.say(what, &[("nip", &nip)]);
    let u = page.part(axle).and_then(|part| part.u_of(|parts| Some(parts.added_leaf?.beside.nip.si())));
    let what = match u {
        Some(u) => page.say("added.known_to", &[("what", &what), ("u", &page.qty(Length::from_si(u)))]),
        None => what,
    };
    let load = page.qty(added.beside.load);
    let whole = page.qty(added.load);
    let share = page.of(axle, "added_leaf.share").unwrap_or_default();
    let camber = &page.job.axle(axle.side).order.camber;
    let at_ride: Option<Length> = page.typed_of(axle, "order.camber", camber);
    let each = added.pack.map(|pack| {
        let thickness = page.fine(Length::from_si(pack.thickness_m));
        page.say("added.each", &[("count", &format!("{:.0}", pack.leaves)), ("thickness", &thickness)])
    });
    let width: Option<Length> = page.typed_of(axle, "spring.leaf.width", &page.job.axle(axle.side).spring.leaf.width);
    let span = added.pack.map(|pack| page.qty(Length::from_si(pack.working_span_m)));
    let by_maker = each.is_none().then(|| page.plain("added.by_maker"));
    page.rows([
        ("order.pieces", Some(page.plain("order.two_instead"))),
        ("added.what", Some(what)),
        ("added.rate", page.of(axle, "added_leaf.rate")),
        ("added.share", Some(page.say("added.of", &[("load", &load), ("whole", &whole), ("share", &share)]))),
        ("added.camber", page.of(axle, "added_leaf.camber")),
        ("added.camber_free", at_ride.map(|camber| page.qty(camber + added.beside.gives_way))),
        ("added.over", Some(page.plain("added.over_eyes"))),
        ("added.leaves", each),
        ("added.leaves_by_maker", by_maker),
        ("order.leaf_width", width.map(|l| page.fine(l))),
        ("added.span", span),
        ("added.stack", added.stack().map(|stack| page.fine(stack))),
        ("added.stress", page.of(axle, "added_leaf.stress_bump")),
    ])
}
