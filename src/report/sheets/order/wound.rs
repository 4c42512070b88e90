//! The same spring, to have it wound.

use crate::base::units::{Length, Quantity};
use crate::job::Ends;
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::page::Page;
use crate::solve::answer::AxleAnswer;
use crate::trade::spring::{COLD_UP_TO_M, Material, WindingLimit, Wound};

/// The same spring, to have it wound; where no wire meets every limit, that instead.
pub(super) fn table(page: &Page<'_>, axle: &AxleAnswer, wound: &Wound) -> Block {
    let sold = page.of_or_unknown(axle, "wound.wire");
    if !wound.holds() {
        let limits: Vec<String> = wound.gives_way().iter().map(|l| gives_way(page, axle, *l)).collect();
        return page.caution("wound.none", &[("wire", &sold), ("limits", &limits.join("; "))]);
    }
    let steel = page.plain(match page.job.axle(axle.side).stock.coil.material {
        Material::OilTempered => "steel.oil_tempered",
        Material::MusicWire => "steel.music_wire",
        Material::HardDrawn => "steel.hard_drawn",
        Material::ChromeVanadium => "steel.chrome_vanadium",
        Material::ChromeSilicon => "steel.chrome_silicon",
        Material::SiliconManganese => "steel.silicon_manganese",
    });
    let across = |sign: f64| Some(page.fine(Length::from_si(wound.wire.mean_m + sign * wound.wire.diameter_m)));
    let ends = page.plain(match wound.wire.ends {
        Ends::Plain => "ends.plain",
        Ends::PlainGround => "ends.plain_ground",
        Ends::Closed => "ends.closed",
        Ends::ClosedGround => "ends.closed_ground",
        Ends::Counted => "ends.counted",
    });
    let hot = || page.say("wound.hot", &[("limit", &page.qty(Length::from_si(COLD_UP_TO_M)))]);
    let against = |limit| Some(against(page, axle, limit));
    let solid = wound.plain_solid.and_then(|_| against(WindingLimit::Solid));
    let open: Vec<String> = wound.not_checked().iter().map(|l| page.plain(limit_key(*l))).collect();
    let rows = page.rows([
        ("wound.wire", Some(sold)),
        ("wound.steel", Some(steel)),
        ("wound.strength", page.of(axle, "wound.strength")),
        ("wound.mean", page.value(axle, "wound.mean_diameter").map(|l| page.fine(l))),
        ("wound.outside", across(1.0)),
        ("wound.inside", across(-1.0)),
        ("wound.active", page.of(axle, "wound.active")),
        ("wound.total", page.of(axle, "wound.total")),
        ("wound.ends", Some(ends)),
        ("wound.solid", page.of(axle, "wound.solid_length")),
        ("wound.coiled", wound.is_hot().then(hot)),
        ("order.stress_bump", against(WindingLimit::Bump)),
        ("wound.stress_solid", solid),
        ("wound.not_checked", (!open.is_empty()).then(|| open.join(", "))),
    ]);
    let head = phrases::upper_first(&page.on(axle.side).say("wound.head", &[]));
    Block::Table { head: vec![head, String::new()], rows }
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
