//! The dampers of one axle as an enquiry: lengths, mounts, and forces old and wanted as a revalve sheet.

use super::lines::Lines;
use crate::base::units::{DamperSpeed, Dim, Force, Length, Pressure, Quantity, Ratio};
use crate::job::Suspension;
use crate::report::Block;
use crate::report::sections::sentence;
use crate::report::sheets::judged::{Dampers, Verdict};
use crate::report::sheets::page::Page;
use crate::report::sheets::procedure::{Construction, Unit};
use crate::solve::answer::{AxleAnswer, Part};
use crate::trade::damper::TEST_SPEEDS_M_PER_S;

/// The dampers, when the old ones do not suit or are not known.
pub(super) fn blocks(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>) -> Vec<Block> {
    let words = page.dampers_words(axle.side);
    // What stays and suits needs no word.
    let says = match page.verdict(axle) {
        Verdict::New | Verdict::OnSpacers | Verdict::Fine => true,
        Verdict::Stays => page.needs_dampers(axle),
        Verdict::Unanswered => false,
    };
    if !says {
        return Vec::new();
    }
    let key = match page.dampers(axle) {
        Dampers::Unknown => "order.dampers_unknown",
        Dampers::Stay => "order.dampers_stay",
        Dampers::Doubtful => "order.dampers_doubtful",
        Dampers::TooSoft => "order.dampers_soft",
        Dampers::TooStiff => "order.dampers_stiff",
        Dampers::Wished => "order.dampers_wished",
        Dampers::Kept | Dampers::KeptTooSoft | Dampers::KeptTooStiff => "order.dampers_kept",
    };
    let mut blocks = vec![page.text(key, &[("dampers", &words)])];
    let ratio = page.of(axle, "new_springs.old_damper_ratio").filter(|_| key != "order.dampers_unknown");
    let target = page.range::<Ratio>(axle, "damping.ratio.low", "damping.ratio.high");
    blocks.extend(ratio.zip(target).map(|(ratio, target)| {
        page.text("order.dampers_ratio", &[("dampers", &words), ("ratio", &ratio), ("target", &target)])
    }));
    if part.damper.is_none() || page.dampers(axle).is_to_stay() {
        return blocks;
    }
    blocks.extend(sizes(page, axle));
    blocks.extend([page.text("order.revalve", &[("dampers", &words)]), forces(page, axle, part)]);
    blocks
}

/// Lengths, mounts, bore and gas.
fn sizes(page: &Page<'_>, axle: &AxleAnswer) -> Vec<Block> {
    let (data, side) = (page.job.axle(axle.side), axle.side);
    let path = |field: &str| format!("{}.{field}", side.key());
    let mut lines = Lines::of(page);
    let is_strut = data.suspension == Suspension::Strut;
    let pieces = match page.dampers(axle) {
        Dampers::Doubtful => "order.two_if_tested",
        Dampers::Unknown => "order.two_if_needed",
        _ if is_strut => "order.two_struts",
        _ => "order.two_alike",
    };
    lines.push("order.pieces", Some(page.plain(pieces)));
    let between = if is_strut { "order.strut_points_are" } else { "order.damper_points_are" };
    lines.push("order.damper_points", Some(page.plain(between)));
    let closed = page.value(axle, "room.damper_closed_most").map(|l| page.at_most(l));
    lines.ask("order.closed", closed, &path("damper.fitted_length"));
    let open = page.value(axle, "room.damper_open_least").map(|l| page.at_least(l));
    lines.ask("order.open", open, &path("damper.fitted_length"));
    lines.ask_text("order.upper_mount", &data.order.upper_mount, side, "upper_mount");
    lines.ask_text("order.lower_mount", &data.order.lower_mount, side, "lower_mount");
    let bore: Option<Length> = page.typed_of(axle, "order.bore", &data.order.bore);
    let body: Option<Length> = page.typed_of(axle, "order.body", &data.order.body);
    lines.ask("order.body", body.map(|l| page.fine(l)), &path("order.body"));
    if Construction::of(data).unit == Unit::One {
        let seat: Option<Length> = page.typed_of(axle, "order.spring_plate", &data.order.spring_plate);
        lines.ask("order.spring_plate", seat.map(|l| page.qty(l)), &path("order.spring_plate"));
    }
    lines.ask("order.bore", bore.map(|l| page.fine(l)), &path("order.bore"));
    let gas: Option<Pressure> = page.typed_of(axle, "damper.gas_pressure", &data.damper.gas_pressure);
    let gas = gas.map(|p| if p.si() > 0.0 { page.qty(p) } else { page.plain("order.no_gas") });
    lines.ask("order.gas", gas, &path("damper.gas_pressure"));
    lines.blocks(sentence::upper_first(&page.dampers_words(side)))
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
