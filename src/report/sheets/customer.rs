//! The customer's sheet: one page in plain words.

use super::header;
use super::page::{Dampers, Page, Verdict};
use super::{Block, Report, sheet_table, side_view};
use crate::base::units::{Dim, Frequency, Length, Mass, Quantity, Ratio, UnitChoice, display};
use crate::job::BagFitted;
use crate::report::sections::sentence;
use crate::report::sections::unchecked;
use crate::report::sheets::sheet::check_again_after;
use crate::solve::answer::{AxleAnswer, RemedyKind, State};
use crate::solve::drawn;

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks: Vec<Block> = header::names(page).into_iter().collect();
    blocks.push(weighed(page));
    blocks.extend(page.load_words().map(Block::Text));
    // "Nothing to pay for" is said only where every axle is answered.
    let answered = page.answer.axles.iter().all(|a| page.verdict(a) != Verdict::Unanswered);
    if page.is_stopped() {
        blocks.extend(page.stops());
        blocks.push(page.text("stop.what", &[]));
    } else if page.answer.sold_is_withheld() {
        blocks.push(page.caution("withheld.customer", &[]));
        blocks.extend(page.answer.axles.iter().map(|a| Block::Text(change(page, a))));
    } else {
        blocks.extend(page.answer.axles.iter().map(|a| Block::Text(story(page, a))));
    }
    let shown = shown(page);
    blocks.extend(side_view::draw(page, &shown));
    blocks.extend(shown.iter().map(|a| sheet_table::four_rows(page, a)));
    if !shown.is_empty() {
        blocks.push(page.text("table.note", &[]));
    }
    if !page.names_nothing() && (answered || !page.renewed().is_empty()) {
        blocks.extend([page.heading("pay.head"), Block::List(paid_for(page))]);
        blocks.extend([page.heading("feel.head"), Block::List(felt(page))]);
    }
    blocks.extend([page.heading("mind.head"), Block::Text(minded(page)), page.caution("mind.compliance", &[])]);
    blocks.extend([page.heading("sure.head"), Block::Text(doubts(page))]);
    blocks.push(Block::Blanks(["sign.customer", "sign.shop", "sign.date"].map(|k| page.plain(k)).to_vec()));
    Report { title: page.plain("customer.title"), blocks }
}

/// The axles whose table is shown: what is renewed; else what is over; else all.
fn shown<'a>(page: &Page<'a>) -> Vec<&'a AxleAnswer> {
    let renewed = page.renewed();
    if !renewed.is_empty() {
        return renewed;
    }
    let standing = |a: &&AxleAnswer| a.standing.old.is_some() || a.standing.before.is_some();
    page.answer.axles.iter().filter(standing).collect()
}

/// One sentence with the weights.
fn weighed(page: &Page<'_>) -> Block {
    use crate::job::Side::{Front, Rear};
    let both = |when: usize| Some((page.read_weight(when, Front)?, page.read_weight(when, Rear)?));
    let said = |m: Mass| page.qty(m);
    match (both(0), both(1)) {
        (Some(((fb, fb_read), (rb, rb_read))), Some(((fa, fa_read), (ra, ra_read)))) => {
            let key = match (fb_read && rb_read, fa_read && ra_read) {
                (true, true) => "weights.measured",
                (false, true) => "weights.before_estimated",
                (true, false) => "weights.after_estimated",
                (false, false) => "weights.estimated",
            };
            let fill = [("fb", said(fb)), ("rb", said(rb)), ("fa", said(fa)), ("ra", said(ra))];
            page.text(key, &fill.each_ref().map(|(k, v)| (*k, v.as_str())))
        }
        (None, Some(((fa, fa_read), (ra, ra_read)))) => {
            let key = if fa_read && ra_read { "weights.after_only" } else { "weights.after_only_estimated" };
            page.text(key, &[("fa", &said(fa)), ("ra", &said(ra))])
        }
        _ => page.text("weights.unknown", &[]),
    }
}

/// What happened to one axle, and what is done about it.
fn story(page: &Page<'_>, axle: &AxleAnswer) -> String {
    let (end, springs) = (page.end_words(axle.side), page.springs_words(axle.side));
    let mut said = vec![change(page, axle)];
    match page.verdict(axle) {
        Verdict::Unanswered => {
            let key = if axle.nothing_left { "story.nothing_left" } else { "story.unanswered" };
            said.push(page.say(key, &[("springs", &springs)]));
        }
        Verdict::Stays => {
            let key = match axle.old_will_do {
                Some(true) => "story.stays_well",
                _ => "story.stays",
            };
            said.push(page.say(key, &[("springs", &springs)]));
        }
        Verdict::Fine => {
            let key = if axle.standing.before.is_some() { "story.fine" } else { "story.fine_no_before" };
            said.push(page.say(key, &[("springs", &springs)]));
        }
        Verdict::New => said.extend(renewal(page, axle, &end, &springs)),
    }
    said.join(" ")
}

/// "The front now carries 98 kg more."
fn change(page: &Page<'_>, axle: &AxleAnswer) -> String {
    let end = page.end_words(axle.side);
    let masses = page.axle_weight(0, axle.side).zip(page.axle_weight(1, axle.side));
    let Some(((before, _), (after, _))) = masses else {
        return page.say("change.unknown", &[("end", &end)]);
    };
    let change = after - before;
    let amount = page.qty(Mass::from_si(change.si().abs()));
    let none = display::rounded_number(change.si(), page.units().unit(Dim::Mass)) == "0";
    let key = match change.si() {
        _ if none => "change.none",
        kg if kg > 0.0 => "change.heavier",
        _ => "change.lighter",
    };
    page.say(key, &[("end", &end), ("amount", &amount)])
}

/// Where it stands on the old springs, what the new ones are, where it stands then.
fn renewal(page: &Page<'_>, axle: &AxleAnswer, end: &str, springs: &str) -> Vec<String> {
    let states = sheet_table::states(page, axle);
    let of = |state: State| states.iter().find(|s| s.state == state);
    let mut said = Vec::new();
    if let Some((rise, _)) = of(State::OldSprings).and_then(|s| s.height) {
        said.push(page.say("story.old_height", &[("height", &page.height(rise))]));
    }
    if let Some((room, _)) = of(State::OldSprings).and_then(|s| s.room) {
        let before = of(State::Before).and_then(|s| s.room).filter(|r| page.qty(r.0) != page.qty(room));
        said.push(match before {
            _ if room.si() <= 0.0 => page.plain("story.on_stop"),
            Some((was, _)) => page.say("story.room", &[("room", &page.qty(room)), ("before", &page.qty(was))]),
            None => page.say("story.room_only", &[("room", &page.qty(room))]),
        });
    }
    let rates = axle.old_spring.rate.zip(axle.standing.new.as_ref().map(|s| s.spring_rate));
    let percent = rates.map(|(old, new)| 100.0 * (new.si() / old.si() - 1.0)).filter(|p| p.abs() >= 1.0);
    let kind = match percent {
        Some(p) => page.say(
            if p > 0.0 { "story.stiffer" } else { "story.softer" },
            &[("springs", springs), ("percent", &format!("{:.0}", p.abs()))],
        ),
        None => page.say("story.like_old", &[("springs", springs)]),
    };
    said.push(kind);
    let frequency = |state: State| of(state).and_then(|s| s.frequency);
    said.extend(frequency(State::Before).zip(frequency(State::NewSprings)).and_then(|(was, new)| {
        let key = match change_felt(was, new)? {
            true => "story.aim_quicker",
            false => "story.aim_slower",
        };
        Some(page.plain(key))
    }));
    let height = of(State::NewSprings).and_then(|s| s.height);
    said.extend(height.map(|(rise, _)| page.say("story.new_height", &[("end", end), ("height", &page.height(rise))])));
    said
}

/// What is being paid for.
fn paid_for(page: &Page<'_>) -> Vec<String> {
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
    format!("{amount} {}", super::page::one_line(&page.job.prices.currency)).trim_end().to_owned()
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

/// What will feel different, and what will not.
fn felt(page: &Page<'_>) -> Vec<String> {
    let (renewed, redamped) = (page.renewed(), page.redamped());
    let mut items = Vec::new();
    if renewed.is_empty() && redamped.is_empty() {
        items.push(page.plain("feel.nothing"));
    }
    items.extend(redamped.iter().map(|axle| {
        let key = if page.dampers(axle) == Dampers::TooSoft { "feel.dampers_soft" } else { "feel.dampers_stiff" };
        page.say(key, &[("end", &page.end_words(axle.side))])
    }));
    for axle in renewed {
        let states = sheet_table::states(page, axle);
        let of = |state: State| states.iter().find(|s| s.state == state);
        let (old, new) = (of(State::OldSprings), of(State::NewSprings));
        let end = page.end_words(axle.side);
        let heights = old.and_then(|s| s.height).zip(new.and_then(|s| s.height));
        items.extend(heights.and_then(|((old, _), (new, _))| moved(page, new - old, &end)));
        let rooms = old.and_then(|s| s.room).zip(new.and_then(|s| s.room));
        let more = rooms.is_some_and(|((old, _), (new, _))| (new - old).si() > 2e-3);
        items.extend(more.then(|| page.plain("feel.room")).filter(|said| !items.contains(said)));
        let less = of(State::Before).and_then(|s| s.room).zip(new.and_then(|s| s.room));
        items.extend(less.filter(|((was, _), (new, _))| (*was - *new).si() > 2e-3).map(|((was, _), (new, _))| {
            page.say("feel.less_room", &[("end", &end), ("room", &page.qty(new)), ("before", &page.qty(was))])
        }));
        let was = of(State::Before).and_then(|s| s.frequency);
        items.extend(was.zip(new.and_then(|s| s.frequency)).map(|(was, new)| quicker(page, was, new, &end)));
        items.push(match page.dampers(axle) {
            Dampers::TooSoft => page.say("feel.dampers_soft", &[("end", &end)]),
            Dampers::TooStiff => page.say("feel.dampers_stiff", &[("end", &end)]),
            Dampers::Stay => page.say("feel.dampers_stay", &[("dampers", &page.dampers_words(axle.side))]),
            Dampers::Doubtful => page.say("feel.dampers_doubtful", &[("dampers", &page.dampers_words(axle.side))]),
            Dampers::Unknown => page.say("feel.dampers_unknown", &[("dampers", &page.dampers_words(axle.side))]),
        });
    }
    items.push(page.plain("feel.same_load"));
    items
}

fn moved(page: &Page<'_>, rise: Length, end: &str) -> Option<String> {
    let amount = Length::from_si(rise.si().abs());
    (display::rounded_number(amount.si(), page.units().unit(Dim::Length)) != "0").then_some(())?;
    let key = if rise.si() > 0.0 { "feel.higher" } else { "feel.lower" };
    Some(page.say(key, &[("end", end), ("amount", &page.qty(amount))]))
}

/// Quicker (true) or slower by so much that a driver can tell.
fn change_felt(was: Frequency, new: Frequency) -> Option<bool> {
    // Less than this share is hardly felt; common practice, no source.
    const FELT: f64 = 0.04;
    let share = new.si() / was.si() - 1.0;
    (share.abs() > FELT).then_some(share > 0.0)
}

/// Bounces per second against before, as a driver would tell them apart.
fn quicker(page: &Page<'_>, was: Frequency, new: Frequency, end: &str) -> String {
    let key = match change_felt(was, new) {
        Some(true) => "feel.quicker",
        Some(false) => "feel.slower",
        None => "feel.as_before",
    };
    let (was, new) = (page.two_places(was.si()), page.two_places(new.si()));
    page.say(key, &[("end", end), ("was", &was), ("new", &new)])
}

fn minded(page: &Page<'_>) -> String {
    let mut keys = vec!["mind.limit", "mind.local"];
    if !page.renewed().is_empty() {
        keys.extend(["mind.force", "mind.checks"]);
    }
    let distance = check_again_after(page.units());
    let mut said: Vec<String> = keys.into_iter().map(|k| page.say(k, &[("distance", distance)])).collect();
    for case in page.answer.cases.iter().filter(|c| c.index.is_some()) {
        let on_stop = |axle: &&AxleAnswer| case.standing[axle.side as usize].new.is_some_and(|s| s.on_stop);
        let ends: Vec<String> = page.answer.axles.iter().filter(on_stop).map(|a| page.end_words(a.side)).collect();
        said.extend(
            ends.iter()
                .map(|end| page.say("mind.on_stop", &[("end", end), ("case", &super::page::one_line(&case.name))])),
        );
    }
    said.join(" ")
}

/// How sure it all is, and what was not checked.
fn doubts(page: &Page<'_>) -> String {
    [Some(sure(page)), unchecked::in_one(page.job, page.answer)].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// How sure it all is, in words.
fn sure(page: &Page<'_>) -> String {
    use crate::job::Side;
    let weighed = Side::BOTH.map(|s| page.read_weight(1, s).map(|w| w.1));
    let before = Side::BOTH.map(|s| page.read_weight(0, s).map(|w| w.1));
    let mut said = vec![page.plain(match (weighed, before) {
        ([Some(true), Some(true)], [Some(true), Some(true)]) if page.load_words().is_some() => "sure.weighed_loaded",
        ([Some(true), Some(true)], [Some(true), Some(true)]) => "sure.weighed",
        ([Some(true), Some(true)], [None, _] | [_, None]) => "sure.weighed_after_only",
        ([Some(true), Some(true)], _) => "sure.before_by_list",
        ([None, _] | [_, None], _) => "sure.not_weighed",
        _ => "sure.by_list",
    })];
    let renewed = page.renewed();
    if renewed.is_empty() {
        return said.join(" ");
    }
    said.push(page.plain("sure.worked_out"));
    said.extend(known_how_well(page, &renewed));
    said.extend(renewed.iter().filter_map(|a| spread(page, a)));
    let assumed = page.answer.defaults.iter().filter(|d| {
        let own = renewed.iter().any(|a| d.path.starts_with(a.side.key()));
        own && sentence::WEIGHTY.iter().any(|key| d.path.ends_with(&format!(".{key}")))
    });
    let not_measured = renewed.iter().flat_map(|a| page.answer.not_measured(a.side)).count();
    match (assumed.count(), not_measured) {
        (0, 0) => said.push(page.plain("sure.own_numbers")),
        (0, _) => {}
        (1, _) => said.push(page.plain("sure.one_assumed")),
        (n, _) => said.push(page.say("sure.assumed", &[("count", &n.to_string())])),
    }
    match not_measured {
        0 => {}
        1 => said.push(page.plain("sure.one_quoted")),
        n => said.push(page.say("sure.quoted", &[("count", &n.to_string())])),
    }
    said.join(" ")
}

/// ± of the ride frequency on the new springs, Hz.
fn frequency_u(page: &Page<'_>, axle: &AxleAnswer) -> Option<f64> {
    let checked = page.answer.checked(axle.side);
    checked.u_of(|a| Some(a.standing.new.as_ref()?.frequency.si())).filter(|u| *u > 0.0)
}

/// In words, by the axle that is known worst.
fn known_how_well(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Option<String> {
    let share = |a: &&AxleAnswer| Some(frequency_u(page, a)? / a.standing.new.as_ref()?.frequency.si());
    Some(page.plain(match renewed.iter().filter_map(share).reduce(f64::max)? {
        share if share < 0.03 => "sure.close",
        share if share < 0.07 => "sure.fair",
        _ => "sure.rough",
    }))
}

/// "Two times in three the front comes out within 4 mm of this height and within 0.03 of these bounces per second": drawn,
/// and rounded up, so that it holds.
fn spread(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let within = drawn::two_in_three(page.job, axle)?;
    let bounces = page.two_places((within.frequency.si() * 100.0).ceil() / 100.0);
    let end = page.end_words(axle.side);
    Some(match within.height {
        Some(height) => {
            let amount = page.qty(rounded_up(height, page.units()));
            page.say("sure.within", &[("end", &end), ("height", &amount), ("bounces", &bounces)])
        }
        None => page.say("sure.within_bounces", &[("end", &end), ("bounces", &bounces)]),
    })
}

/// The next length above that a fitter would say.
fn rounded_up(length: Length, units: &UnitChoice) -> Length {
    let unit = units.unit(Dim::Length);
    let step = unit.si
        * match unit.symbol {
            "in" => 1.0 / 16.0,
            "mm" => 1.0,
            "cm" => 0.1,
            _ => 0.001,
        };
    Length::from_si((length.si() / step).ceil() * step)
}
