//! What the customer pays for, and what it would cost to do less.

use crate::base::units::{Quantity, Ratio};
use crate::job::BagFitted;
use crate::report::sheets::page::{Page, one_line};
use crate::solve::answer::{AxleAnswer, RemedyKind};

/// What is being paid for.
pub(super) fn paid_for(page: &Page<'_>) -> Vec<String> {
    let (renewed, redamped) = (page.renewed(), page.redamped());
    if renewed.is_empty() && redamped.is_empty() {
        return vec![page.plain("pay.nothing")];
    }
    let mut items = Vec::new();
    let (mut total, mut all) = (0.0, true);
    for axle in &renewed {
        let (springs, dampers) = (page.springs_words(axle.side), page.dampers_words(axle.side));
        let part = page.bought(axle).unwrap_or_else(|| page.plain("unknown"));
        items.push(page.say("pay.springs", &[("springs", &springs), ("part", &part)]));
        let on = page.taken_spacer(axle).filter(|s| s.si() > 0.0).map(|s| page.qty(s));
        items.extend(on.map(|s| page.say("pay.taken_spacer", &[("springs", &springs), ("amount", &s)])));
        if page.job.axle(axle.side).bag.fitted == BagFitted::WithNew {
            items.push(page.say("pay.bag", &[("springs", &springs)]));
        }
        let changed = page.needs_dampers(axle);
        if changed {
            items.push(page.say("pay.dampers", &[("dampers", &dampers)]));
        }
        let kind = if changed { RemedyKind::SpringsAndDampers } else { RemedyKind::Springs };
        let remedies = &page.answer.remedies[axle.side as usize];
        match remedies.iter().find(|r| r.kind == kind).and_then(|r| r.price) {
            Some(price) => {
                total += price;
                let fill = [("axle", page.axle_words(axle.side)), ("price", money(page, price))];
                items.push(page.say("pay.price", &fill.each_ref().map(|(k, v)| (*k, v.as_str()))));
            }
            None => all = false,
        }
        items.extend(spacer(page, axle));
    }
    for axle in &redamped {
        items.push(page.say("pay.dampers_alone", &[("dampers", &page.dampers_words(axle.side))]));
        let price = |path, entry| page.typed(path, entry).map(|p: Ratio| p.si());
        let prices = &page.job.prices;
        match price("prices.dampers", &prices.dampers).zip(price("prices.damper_work", &prices.damper_work)) {
            Some((parts, work)) => {
                total += parts + work;
                let fill = [("axle", page.axle_words(axle.side)), ("price", money(page, parts + work))];
                items.push(page.say("pay.price", &fill.each_ref().map(|(k, v)| (*k, v.as_str()))));
            }
            None => all = false,
        }
    }
    items.push(page.plain("pay.why"));
    if all && renewed.len() + redamped.len() > 1 {
        items.push(page.say("pay.total", &[("price", &money(page, total))]));
    }
    items
}

fn money(page: &Page<'_>, price: f64) -> String {
    let amount = page.mark(&format!("{price:.2}"));
    format!("{amount} {}", one_line(&page.job.prices.currency)).trim_end().to_owned()
}

/// What a spacer alone would have done, or a bar that is only set up again; nothing where the coils would then bind, or
/// the bar would be over its stress.
fn spacer(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let spacer = page.part(axle)?.spacer?;
    if spacer.to_bind.is_some_and(|left| left.si() < 0.0) || !spacer.holds_stress() {
        return None;
    }
    let [plain, priced] = match spacer.index {
        Some(_) => ["pay.set_up", "pay.set_up_priced"],
        None => ["pay.spacer", "pay.spacer_priced"],
    };
    let remedy = page.answer.remedies[axle.side as usize].iter().find(|r| r.kind == RemedyKind::Spacer)?;
    let stands = remedy.cases.get(page.answer.compared_case()).copied().flatten()?;
    let (end, bounces) = (page.end_words(axle.side), page.two_places(stands.frequency.si()));
    Some(match remedy.price {
        Some(price) => page.say(priced, &[("end", &end), ("price", &money(page, price)), ("bounces", &bounces)]),
        None => page.say(plain, &[("end", &end), ("bounces", &bounces)]),
    })
}
