//! The dampers of one axle as an enquiry: lengths, mounts, and forces old and wanted as a revalve sheet.

use super::lines::{Blanks, Lines};
use crate::base::units::{DamperSpeed, Dim, Force, Quantity, Ratio};
use crate::job::{Suspension, fields};
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::judged::{Dampers, Verdict};
use crate::report::sheets::open;
use crate::report::sheets::page::{DAMPERS, Page};
use crate::report::sheets::procedure::{Construction, Unit};
use crate::solve::answer::{AxleAnswer, OldDamperBy, Part};
use crate::trade::damper::TEST_SPEEDS_M_PER_S;

/// The dampers that are decided: bought, or old ones that stay. What is open is listed at the end.
pub(super) fn blocks(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>, blanks: &mut Blanks) -> Vec<Block> {
    // What stays and suits needs no word.
    let says = match page.verdict(axle) {
        Verdict::New | Verdict::OnSpacers | Verdict::Fine => true,
        Verdict::Stays => page.needs_dampers(axle),
        Verdict::MeasureFirst | Verdict::Unanswered => false,
    };
    if !says || open::is_open(page, axle) {
        return Vec::new();
    }
    let verdict = verdict(page, axle);
    let ratio = ratio(page, axle);
    if !are_ordered(page, axle, part) {
        return verdict.into_iter().chain(ratio).chain(stay_by_assumption(page, axle)).collect();
    }
    // The table follows what it is announced by.
    let mut blocks: Vec<Block> = ratio.into_iter().chain(verdict).chain([sizes(page, axle, blanks)]).collect();
    if part.damper.is_none() {
        let why = page.plain(why_no_forces(axle));
        blocks.push(page.on(axle.side).text("order.no_forces", &[("reason", &why)]));
        return blocks;
    }
    let caption = page.on(axle.side).say("order.revalve", &[]);
    let caption = match assumed_ratio(page, axle, "order.assumed_ratio") {
        Some(assumed) => format!("{caption} {assumed}"),
        None => caption,
    };
    blocks.extend([Block::Text(caption), forces(page, axle, part)]);
    blocks
}

/// Tables say what to buy: forces, or, where new dampers are planned, as much as is known.
pub(super) fn are_ordered(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>) -> bool {
    let says = page.verdict(axle) != Verdict::Stays || page.needs_dampers(axle);
    let has_data = part.damper.is_some() || page.dampers(axle) == Dampers::Wished;
    says && has_data && page.needs_dampers(axle)
}

/// What becomes of the old dampers; with a colon where the table of new ones follows. Nothing of those that are open.
fn verdict(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    let key = match page.dampers(axle) {
        Dampers::Unknown | Dampers::Doubtful => return None,
        Dampers::Stay => "order.dampers_stay",
        Dampers::TooSoft => "order.dampers_soft",
        Dampers::TooStiff => "order.dampers_stiff",
        Dampers::Wished => "order.dampers_wished",
        Dampers::Kept | Dampers::KeptTooSoft | Dampers::KeptTooStiff => "order.dampers_kept",
    };
    Some(page.on(axle.side).text(key, &[]))
}

/// The damping ratio of the old dampers on these springs, unless it comes from the default.
fn ratio(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    axle.old_damper.as_ref().filter(|old| !old.is_assumed)?;
    let ratio = page.of(axle, "new_springs.old_damper_ratio")?;
    let target = page.range::<Ratio>(axle, "damping.ratio.low", "damping.ratio.high")?;
    Some(page.on(axle.side).text("order.dampers_ratio", &[("ratio", &ratio), ("target", &target)]))
}

/// Why no forces can be asked for: the motion ratio is missing, or the damping that is to be as before.
fn why_no_forces(axle: &AxleAnswer) -> &'static str {
    if axle.damper_motion_ratio.is_none() { "order.why_ratio" } else { "order.why_damping" }
}

/// That the motion ratio of the dampers is taken from the springs, where it was not measured.
fn assumed_ratio(page: &Page<'_>, axle: &AxleAnswer, key: &str) -> Option<String> {
    let of_axle = |field: &str| format!("{}.{field}", axle.side.key());
    page.answer.defaults.iter().find(|default| default.path == of_axle("damper_ratio"))?;
    let ratio = page.of(axle, "damper_motion_ratio")?;
    let field = fields::full_label(&of_axle("damper_ratio.number"));
    Some(page.on(axle.side).say(key, &[("ratio", &ratio), ("field", &field.to_string())]))
}

/// That dampers stay by a motion ratio that was not measured. It does not count where their damping is known as a ratio.
pub(super) fn stay_by_assumption(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    axle.old_damper.as_ref().filter(|old| !matches!(old.by, OldDamperBy::RatioBefore(_)))?;
    let stays = page.dampers(axle) == Dampers::Stay;
    stays.then(|| assumed_ratio(page, axle, "order.stay_by_assumption"))?.map(Block::Text)
}

/// Lengths, mounts, bore and gas.
fn sizes(page: &Page<'_>, axle: &AxleAnswer, blanks: &mut Blanks) -> Block {
    let data = page.job.axle(axle.side);
    let mut lines = Lines::of(page, Some(axle.side), blanks);
    let is_strut = data.suspension == Suspension::Strut;
    let pieces = if is_strut { "order.two_struts" } else { "order.two_alike" };
    lines.push("order.pieces", Some(page.plain(pieces)));
    if is_strut {
        lines.ask_text("order.strut_points", &data.order.damper_points, "damper_points");
    } else {
        lines.push("order.damper_points", Some(page.plain("order.damper_points_are")));
    }
    let at_ride = page.of(axle, "room.damper_at_ride");
    // By rows or by points, lengths are known without the one at ride height.
    let of_length = at_ride.is_none().then_some("damper.fitted_length");
    let of_ratio = axle.damper_motion_ratio.is_none().then_some("damper_ratio.number");
    let missing = |travel: &'static str| of_length.into_iter().chain(of_ratio).chain([travel]).collect::<Vec<_>>();
    lines.push("order.damper_at_ride", at_ride);
    let closed = page.value(axle, "room.damper_closed_most").map(|l| page.at_most(l));
    lines.ask("order.closed", closed, &missing("travel.metal"));
    let open = page.value(axle, "room.damper_open_least").map(|l| page.at_least(l));
    lines.ask("order.open", open, &missing("travel.droop"));
    lines.ask_text("order.upper_mount", &data.order.upper_mount, "upper_mount");
    lines.ask_text("order.lower_mount", &data.order.lower_mount, "lower_mount");
    lines.ask_typed("order.body", "order.body", &data.order.body, Page::fine);
    if Construction::of(data).unit == Unit::One {
        lines.ask_typed("order.spring_plate", "order.spring_plate", &data.order.spring_plate, Page::qty);
    }
    lines.ask_typed("order.bore", "order.bore", &data.order.bore, Page::fine);
    lines.ask_typed("order.gas", "damper.gas_pressure", &data.damper.gas_pressure, |page, p| {
        if p.si() > 0.0 { page.qty(p) } else { page.plain("order.no_gas") }
    });
    lines.table(phrases::upper_first(&page.plain(DAMPERS[axle.side])))
}

/// Forces at the customary test speeds: old, where its curve is known, and wanted, from the least to the most.
fn forces(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>) -> Block {
    // Test benches are set in metres per second.
    let speed = |si: f64| match page.units().unit(Dim::DamperSpeed).symbol {
        "m/s" => page.mark(&format!("{si:.2} m/s")),
        _ => page.mark(&format!("{} ({si:.2} m/s)", page.qty(DamperSpeed::from_si(si)))),
    };
    // The curve of two slopes where one is wanted, else straight lines.
    let is_bent = part.damper.as_ref().is_some_and(|targets| targets.two_slope_forces.is_some());
    let curve = if is_bent { "damping.two_slope" } else { "damping" };
    let row = |v: f64| {
        let old = |direction: &str| page.of_or_unknown(axle, &format!("old_damper.{direction}_force.{v:.2}"));
        let wanted = |direction: &str| {
            let [low, high] = ["low", "high"].map(|end| format!("{curve}.{direction}_force.{v:.2}.{end}"));
            page.range::<Force>(axle, &low, &high).unwrap_or_default()
        };
        vec![speed(v), old("bump"), wanted("bump"), old("rebound"), wanted("rebound")]
    };
    let head = ["order.speed", "order.bump_old", "order.bump", "order.rebound_old", "order.rebound"];
    Block::Table {
        head: head.map(|k| page.plain(k)).to_vec(),
        rows: TEST_SPEEDS_M_PER_S.into_iter().map(row).collect(),
    }
}
