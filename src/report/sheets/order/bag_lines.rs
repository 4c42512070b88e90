//! The air bags that are fitted with the new springs of one axle, as an enquiry.

use super::lines::{Blanks, Lines};
use crate::base::units::{Area, Length, Pressure, Volume};
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
    let path = |field: &str| format!("{}.{field}", axle.side.key());
    let mut lines = Lines::of(page, blanks);
    lines.push("order.pieces", Some(page.plain("order.two_alike")));
    lines.push("order.bag.load", page.of(axle, "bag.force"));
    let pressure: Option<Pressure> = page.typed_of(axle, "bag.pressure", &data.bag.pressure);
    lines.ask("fit.bag", pressure.map(|p| page.qty(p)), &[path("bag.pressure")]);
    lines.ask("order.bag.bump", page.of(axle, "bag.pressure_at_metal"), &[path("travel.metal")]);
    let area: Option<Area> = page.typed_of(axle, "bag.area", &data.bag.area);
    lines.ask("order.bag.area", area.map(|a| page.qty(a)), &[path("bag.area")]);
    let volume: Option<Volume> = page.typed_of(axle, "bag.volume", &data.bag.volume);
    lines.ask("order.bag.volume", volume.map(|v| page.qty(v)), &[path("bag.volume")]);
    let height: Option<Length> = page.typed_of(axle, "order.bag_height", &data.order.bag_height);
    lines.ask("order.bag.height", height.map(|h| page.qty(h)), &[path("order.bag_height")]);
    let room: Option<Length> = page.typed_of(axle, "order.bag_room", &data.order.bag_room);
    lines.ask("order.bag.room", room.map(|d| page.qty(d)), &[path("order.bag_room")]);
    lines.ask_text("order.bag_fittings", &data.order.bag_fittings, axle.side, "bag_fittings");
    lines.ask("order.bag.shortens", page.of(axle, "bag.shortens"), &[path("travel.metal")]);
    lines.ask("order.bag.lengthens", page.of(axle, "bag.lengthens"), &[path("travel.droop")]);
    Some(lines.table(phrases::upper_first(&page.say("order.bag", &[("end", &page.end_words(axle.side))]))))
}
