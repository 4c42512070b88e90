//! The order list: what to buy, per axle and side.

use super::header;
use super::judged::{Dampers, Verdict};
use super::page::{Page, one_line};
use super::{Block, Report};
use crate::base::units::{DamperSpeed, Dim, Force, Length, Quantity, Ratio, SpringRate, display};
use crate::job::{BagFitted, HeldBy, SpringKind};
use crate::report::sections::sentence;
use crate::solve::answer::{AxleAnswer, Part};
use crate::trade::damper::TEST_SPEEDS_M_PER_S;
use crate::trade::spring::{COLD_UP_TO_M, Material, WindingLimit, Wound};

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks: Vec<Block> = header::names(page).into_iter().collect();
    if page.is_stopped() {
        blocks.extend(page.stops());
        blocks.push(page.text("order.stopped", &[]));
    } else {
        for axle in &page.answer.axles {
            blocks.extend(one_axle(page, axle));
        }
        blocks.push(page.text("order.note", &[]));
        let coils = page.renewed().iter().any(|a| a.kind.is_coil());
        blocks.extend(coils.then(|| {
            page.text(
                "order.note_coils",
                &[
                    ("rate", &page.said("limits.rate_tolerance", &page.job.limits.rate_tolerance)),
                    ("length", &page.said("limits.length_tolerance", &page.job.limits.length_tolerance)),
                ],
            )
        }));
    }
    Report { title: page.plain("order.title"), blocks }
}

fn one_axle(page: &Page<'_>, axle: &AxleAnswer) -> Vec<Block> {
    let springs = page.springs_words(axle.side);
    let mut blocks = vec![Block::Heading(sentence::upper_first(&page.axle_words(axle.side)))];
    match page.verdict(axle) {
        Verdict::Unanswered => blocks.push(page.text("order.unanswered", &[("springs", &springs)])),
        Verdict::Stays => blocks.push(page.text("order.stays", &[("springs", &springs)])),
        Verdict::Fine if page.part(axle).is_some() => {
            let key = if axle.standing.before.is_some() { "order.fine" } else { "order.fine_no_before" };
            blocks.push(page.text(key, &[("springs", &springs)]));
        }
        Verdict::New | Verdict::Fine => {}
    }
    let Some(part) = page.part(axle) else {
        blocks.extend(page.withheld(axle));
        blocks.extend(page.overruled(axle));
        return blocks;
    };
    if matches!(page.verdict(axle), Verdict::New | Verdict::Fine) && axle.sizing.is_some() && part.spring.is_some() {
        blocks.push(spring(page, axle, part));
        blocks.extend(droop(page, axle));
        blocks.extend(part.wound.as_ref().map(|w| wound(page, axle, w)));
    }
    blocks.extend(dampers(page, axle, part));
    blocks.extend(page.overruled(axle));
    blocks
}

/// A spring that is loose at full droop is ordered on a condition, until the job says what holds it.
fn droop(page: &Page<'_>, axle: &AxleAnswer) -> Option<Block> {
    let loose: Length = page.value(axle, "room.seat").filter(|left: &Length| left.si() < 0.0)?;
    let springs = sentence::upper_first(&page.springs_words(axle.side));
    let (amount, held) = (page.qty(Length::from_si(-loose.si())), page.job.axle(axle.side).held_by);
    Some(match held {
        HeldBy::NotSaid => page.caution("order.loose", &[("springs", &springs), ("amount", &amount)]),
        held => page.text("order.held", &[("springs", &springs), ("by", held.words())]),
    })
}

type Rows = Vec<Vec<String>>;

fn push(rows: &mut Rows, page: &Page<'_>, key: &str, text: Option<String>) {
    rows.extend(text.map(|t| vec![page.plain(key), t]));
}

/// The spring to buy.
fn spring(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>) -> Block {
    let data = page.job.axle(axle.side);
    let mut rows = Rows::new();
    let shelf = page.typed_of(axle, "taken.in_stock", &data.taken.in_stock).map(|n: Ratio| n.si());
    let shelf = shelf.filter(|n| part.taken.is_some() && *n < 2.0);
    let pieces = match shelf {
        Some(n) => page.say("order.two_in_stock", &[("count", &page.mark(&display::significant(n, 3)))]),
        None => page.plain("order.two"),
    };
    push(&mut rows, page, "order.pieces", Some(pieces));
    if let Some(taken) = &part.taken {
        let named = [&data.taken.number, &data.taken.what].map(|n| one_line(n));
        let named: Vec<String> = named.into_iter().filter(|n| !n.is_empty()).collect();
        let named = if named.is_empty() { one_line(taken) } else { named.join(", ") };
        push(&mut rows, page, "order.number", Some(named));
        let currency = one_line(&page.job.prices.currency);
        let price = page.typed_of(axle, "taken.price", &data.taken.price);
        let price = price.map(|p: Ratio| page.mark(&format!("{:.2}", p.si())));
        push(&mut rows, page, "order.price", price.map(|p| format!("{p} {currency}").trim_end().to_owned()));
    }
    match axle.kind {
        SpringKind::TorsionBar => bar(page, axle, &mut rows),
        SpringKind::Leaf => leaf(page, axle, &mut rows),
        SpringKind::Coil | SpringKind::WithHelper | SpringKind::Progressive => {
            rate(page, axle, &mut rows);
            coil(page, axle, part, &mut rows);
        }
    }
    push(&mut rows, page, "order.load", page.of(axle, "sizing.spring_force"));
    let bag = data.bag.fitted == BagFitted::WithNew;
    push(
        &mut rows,
        page,
        "fit.bag",
        page.typed_of(axle, "bag.pressure", &data.bag.pressure).filter(|_| bag).map(|p| page.qty(p)),
    );
    let helper = axle.kind == SpringKind::WithHelper;
    push(&mut rows, page, "order.helper", helper.then(|| page.plain("order.helper_stays")));
    Block::Table { head: vec![sentence::upper_first(&page.springs_words(axle.side)), String::new()], rows }
}

/// The rate, and what else would do.
fn rate(page: &Page<'_>, axle: &AxleAnswer, rows: &mut Rows) {
    push(rows, page, "order.rate", page.of(axle, "sizing.pick"));
    let [lowest, highest] = ["sizing.stock_lowest", "sizing.stock_highest"];
    let is_range = page.value::<SpringRate>(axle, lowest) < page.value(axle, highest);
    let also = page.range::<SpringRate>(axle, lowest, highest).filter(|_| is_range);
    push(rows, page, "order.rate_also", also);
}

fn coil(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>, rows: &mut Rows) {
    let data = page.job.axle(axle.side);
    push(rows, page, "order.free", Some(page.of_or_unknown(axle, "sizing.bought_length")));
    push(rows, page, "order.settle", page.of(axle, "sizing.allowance").filter(|_| part.taken.is_none()));
    push(rows, page, "order.ride_length", page.of(axle, "room.own_at_ride"));
    let measure = |key, entry| {
        page.typed_of(axle, key, entry).map_or_else(|| page.plain("order.measure"), |l: Length| page.fine(l))
    };
    push(rows, page, "order.inside", Some(measure("choice.inside_least", &data.choice.inside_least)));
    push(rows, page, "order.outside", Some(measure("choice.outside_most", &data.choice.outside_most)));
    let solid = page.of(axle, "room.longest_solid").unwrap_or_else(|| page.plain("order.solid_unknown"));
    push(rows, page, "order.solid", Some(solid));
    push(rows, page, "order.spacer", page.taken_spacer(axle).map(|s| page.qty(s)));
    push(rows, page, "order.force_metal", page.of(axle, "room.force_at_metal"));
}

/// A leaf is ordered by its rate and by its height under the load.
fn leaf(page: &Page<'_>, axle: &AxleAnswer, rows: &mut Rows) {
    push(rows, page, "order.rate", page.of(axle, "sizing.pick"));
    push(rows, page, "order.leaf_height", Some(page.of_or_unknown(axle, "new_springs.spring_length")));
    push(rows, page, "order.leaf_free", page.of(axle, "new_springs.free_length"));
}

fn bar(page: &Page<'_>, axle: &AxleAnswer, rows: &mut Rows) {
    let Some(bar) = page.of(axle, "sizing.bar.pick") else { return };
    push(rows, page, "order.bar", Some(bar));
    push(rows, page, "order.bar_bore", Some(page.bore_words(axle)));
    let typed = page.typed_of(axle, "spring.bar.length", &page.job.axle(axle.side).spring.bar.length);
    push(rows, page, "order.bar_length", typed.map(|l: Length| page.qty(l)));
    push(rows, page, "order.stress_bump", page.of(axle, "bar.stress_bump"));
    push(rows, page, "order.allowed", page.of(axle, "bar.allowed"));
}

/// The same spring, to have it wound; where no wire meets every limit, that instead.
fn wound(page: &Page<'_>, axle: &AxleAnswer, wound: &Wound) -> Block {
    let sold = page.of_or_unknown(axle, "wound.wire");
    if !wound.holds() {
        let limits: Vec<String> = wound.gives_way().iter().map(|l| gives_way(page, axle, *l)).collect();
        return page.caution("wound.none", &[("wire", &sold), ("limits", &limits.join("; "))]);
    }
    let wound_head = page.say("wound.head", &[("springs", &page.springs_words(axle.side))]);
    let mut rows = Rows::new();
    push(&mut rows, page, "wound.wire", Some(sold));
    let steel = page.plain(match page.job.axle(axle.side).stock.coil.material {
        Material::OilTempered => "steel.oil_tempered",
        Material::MusicWire => "steel.music_wire",
        Material::HardDrawn => "steel.hard_drawn",
        Material::ChromeVanadium => "steel.chrome_vanadium",
        Material::ChromeSilicon => "steel.chrome_silicon",
        Material::SiliconManganese => "steel.silicon_manganese",
    });
    push(&mut rows, page, "wound.steel", Some(steel));
    push(&mut rows, page, "wound.mean", page.value(axle, "wound.mean_diameter").map(|l| page.fine(l)));
    push(&mut rows, page, "wound.active", page.of(axle, "wound.active"));
    push(&mut rows, page, "wound.total", page.of(axle, "wound.total"));
    let ends = page.plain(match wound.wire.ends {
        crate::job::Ends::Plain => "ends.plain",
        crate::job::Ends::PlainGround => "ends.plain_ground",
        crate::job::Ends::Closed => "ends.closed",
        crate::job::Ends::ClosedGround => "ends.closed_ground",
        crate::job::Ends::Counted => "ends.counted",
    });
    push(&mut rows, page, "wound.ends", Some(ends));
    push(&mut rows, page, "order.free", Some(page.of_or_unknown(axle, "sizing.order_length")));
    push(&mut rows, page, "wound.solid", page.of(axle, "wound.solid_length"));
    let preset = if wound.is_preset { "wound.preset_yes" } else { "wound.preset_no" };
    push(&mut rows, page, "wound.preset", Some(page.plain(preset)));
    let hot = || page.say("wound.hot", &[("limit", &page.qty(Length::from_si(COLD_UP_TO_M)))]);
    push(&mut rows, page, "wound.coiled", wound.is_hot().then(hot));
    let against = |limit| Some(against(page, axle, limit));
    push(&mut rows, page, "order.stress_bump", against(WindingLimit::Bump));
    let solid = wound.plain_solid.and_then(|_| against(WindingLimit::Solid));
    push(&mut rows, page, "wound.stress_solid", solid);
    let open: Vec<String> = wound.not_checked().iter().map(|l| page.plain(limit_key(*l))).collect();
    push(&mut rows, page, "wound.not_checked", (!open.is_empty()).then(|| open.join(", ")));
    Block::Table { head: vec![sentence::upper_first(&wound_head), String::new()], rows }
}

fn limit_key(limit: WindingLimit) -> &'static str {
    match limit {
        WindingLimit::Bump => "order.stress_bump",
        WindingLimit::Solid => "wound.stress_solid",
        WindingLimit::Room => "wound.solid",
    }
}

/// A limit of winding: what there is, and what is allowed.
fn against(page: &Page<'_>, axle: &AxleAnswer, limit: WindingLimit) -> String {
    let [stress, allowed] = match limit {
        WindingLimit::Bump => ["wound.stress", "wound.allowed"],
        WindingLimit::Solid => ["wound.plain_solid", "wound.allowed_solid"],
        WindingLimit::Room => {
            let lacking = page.known(page.value(axle, "wound.spare").map(|spare: Length| -spare));
            let solid = page.of_or_unknown(axle, "wound.solid_length");
            return page.say("wound.lacking", &[("solid", &solid), ("by", &lacking)]);
        }
    };
    let [stress, allowed] = [stress, allowed].map(|key| page.of_or_unknown(axle, key));
    page.say("wound.against", &[("stress", &stress), ("allowed", &allowed)])
}

/// By how much one limit gives way.
fn gives_way(page: &Page<'_>, axle: &AxleAnswer, limit: WindingLimit) -> String {
    format!("{}: {}", page.plain(limit_key(limit)), against(page, axle, limit))
}

/// The dampers, when the old ones do not suit or are not known.
fn dampers(page: &Page<'_>, axle: &AxleAnswer, part: Part<'_>) -> Vec<Block> {
    let words = page.dampers_words(axle.side);
    // What stays and suits needs no word.
    let says = match page.verdict(axle) {
        Verdict::New | Verdict::Fine => true,
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
    };
    let mut blocks = vec![page.text(key, &[("dampers", &words)])];
    let changed = !matches!(page.dampers(axle), Dampers::Stay);
    let Some(targets) = part.damper.as_ref().filter(|_| changed) else { return blocks };
    let length = |key: &str| page.of(axle, key).unwrap_or_else(|| page.plain("order.measure"));
    let rows = vec![
        vec![page.plain("order.pieces"), page.plain("order.two")],
        vec![page.plain("order.closed"), length("room.damper_closed_most")],
        vec![page.plain("order.open"), length("room.damper_open_least")],
    ];
    blocks.push(Block::Table { head: vec![sentence::upper_first(&words), String::new()], rows });
    // Test benches are set in metres per second.
    let speed = |si: f64| match page.units().unit(Dim::DamperSpeed).symbol {
        "m/s" => page.mark(&format!("{si:.2} m/s")),
        _ => page.mark(&format!("{} ({si:.2} m/s)", page.qty(DamperSpeed::from_si(si)))),
    };
    // The curve of two slopes where one is wanted, else straight lines.
    let curve = if targets.two_slope_forces.is_some() { "damping.two_slope" } else { "damping" };
    let rows = TEST_SPEEDS_M_PER_S.into_iter().map(|v| {
        let band = |direction: &str| {
            let [low, high] = ["low", "high"].map(|end| format!("{curve}.{direction}_force.{v:.2}.{end}"));
            page.range::<Force>(axle, &low, &high).unwrap_or_default()
        };
        vec![speed(v), band("bump"), band("rebound")]
    });
    let rows = rows.collect();
    let head = ["order.speed", "order.bump", "order.rebound"].map(|k| page.plain(k)).to_vec();
    blocks.push(Block::Table { head, rows });
    blocks
}
