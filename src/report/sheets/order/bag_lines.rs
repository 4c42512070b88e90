//! The air bags that are fitted with the new springs of one axle, as an enquiry.

use super::lines::{Blanks, Lines};
use crate::job::BagFitted;
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::page::Page;
use crate::solve::answer::AxleAnswer;

/// Nothing where no bag is sold.
pub(super) fn table(page: &Page<'_>, axle: &AxleAnswer, blanks: &mut Blanks) -> Option<Block> {
    let data = page.job.axle(axle.side);
    if data.bag.fitted != BagFitted::WithNew {
        return None;
    }
    let mut lines = Lines::of(page, Some(axle.side), blanks);
    lines.push("order.pieces", Some(page.plain("order.two_alike")));
    lines.push("order.bag.load", page.of(axle, "bag.force"));
    lines.ask_typed("fit.bag", "bag.pressure", &data.bag.pressure, Page::qty);
    lines.ask("order.bag.bump", page.of(axle, "bag.pressure_at_metal"), &["travel.metal"]);
    lines.ask_typed("order.bag.area", "bag.area", &data.bag.area, Page::qty);
    lines.ask_typed("order.bag.volume", "bag.volume", &data.bag.volume, Page::qty);
    lines.ask_typed("order.bag.height", "order.bag_height", &data.order.bag_height, Page::qty);
    lines.ask_typed("order.bag.room", "order.bag_room", &data.order.bag_room, Page::qty);
    lines.ask_text("order.bag_fittings", &data.order.bag_fittings, "bag_fittings");
    lines.ask("order.bag.shortens", page.of(axle, "bag.shortens"), &["travel.metal"]);
    lines.ask("order.bag.lengthens", page.of(axle, "bag.lengthens"), &["travel.droop"]);
    Some(lines.table(phrases::upper_first(&page.on(axle.side).say("order.bag", &[]))))
}
