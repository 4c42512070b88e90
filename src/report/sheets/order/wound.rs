//! The same spring, to have it wound.

use crate::base::units::{Length, Quantity};
use crate::job::Ends;
use crate::report::Block;
use crate::report::phrases;
use crate::report::sheets::page::Page;
use crate::solve::answer::AxleAnswer;
use crate::trade::spring::{COLD_UP_TO_M, Material, WindingLimit, Wound};

type Rows = Vec<Vec<String>>;

fn push(rows: &mut Rows, page: &Page<'_>, key: &str, text: Option<String>) {
    rows.extend(text.map(|t| vec![page.plain(key), t]));
}

/// The same spring, to have it wound; where no wire meets every limit, that instead.
pub(super) fn table(page: &Page<'_>, axle: &AxleAnswer, wound: &Wound) -> Block {
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
    push(&mut rows, page, "wound.strength", page.of(axle, "wound.strength"));
    push(&mut rows, page, "wound.mean", page.value(axle, "wound.mean_diameter").map(|l| page.fine(l)));
    let across = |sign: f64| wound.wire.mean_m + sign * wound.wire.diameter_m;
    push(&mut rows, page, "wound.outside", Some(page.fine(Length::from_si(across(1.0)))));
    push(&mut rows, page, "wound.inside", Some(page.fine(Length::from_si(across(-1.0)))));
    push(&mut rows, page, "wound.active", page.of(axle, "wound.active"));
    push(&mut rows, page, "wound.total", page.of(axle, "wound.total"));
    let ends = page.plain(match wound.wire.ends {
        Ends::Plain => "ends.plain",
        Ends::PlainGround => "ends.plain_ground",
        Ends::Closed => "ends.closed",
        Ends::ClosedGround => "ends.closed_ground",
        Ends::Counted => "ends.counted",
    });
    push(&mut rows, page, "wound.ends", Some(ends));
    push(&mut rows, page, "wound.solid", page.of(axle, "wound.solid_length"));
    let hot = || page.say("wound.hot", &[("limit", &page.qty(Length::from_si(COLD_UP_TO_M)))]);
    push(&mut rows, page, "wound.coiled", wound.is_hot().then(hot));
    let against = |limit| Some(against(page, axle, limit));
    push(&mut rows, page, "order.stress_bump", against(WindingLimit::Bump));
    let solid = wound.plain_solid.and_then(|_| against(WindingLimit::Solid));
    push(&mut rows, page, "wound.stress_solid", solid);
    let open: Vec<String> = wound.not_checked().iter().map(|l| page.plain(limit_key(*l))).collect();
    push(&mut rows, page, "wound.not_checked", (!open.is_empty()).then(|| open.join(", ")));
    Block::Table { head: vec![phrases::upper_first(&wound_head), String::new()], rows }
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
