//! The customer's sheet: one page in plain words.

mod aim;
mod felt;
mod paid;
mod recorded;
mod sheet_table;
mod side_view;
mod silhouette;
mod stages;
mod sure;

use super::both_sides;
use super::header;
use super::judged::Verdict;
use super::open;
use super::page::Page;
use super::{Block, Report};
use crate::base::units::{Dim, Length, Mass, Quantity, display};
use crate::job::Side;
use crate::report::sections::unchecked;
use crate::report::sheets::header::check_again_after;
use crate::solve::answer::{AxleAnswer, State};
pub(super) use paid::price;
pub use silhouette::Outline;
pub(super) use stages::build as showing;
pub use stages::{Controls, End, Showing, Stage};

pub(super) fn build(page: &Page<'_>) -> Report {
    let mut blocks: Vec<Block> = header::names(page).into_iter().collect();
    blocks.push(Block::Text(weighed(page)));
    blocks.extend(page.load_words().map(Block::Text));
    // "Nothing to pay for" is said only where every axle is answered.
    let is_answered = |a: &AxleAnswer| !matches!(page.verdict(a), Verdict::Unanswered | Verdict::MeasureFirst);
    let answered = page.answer.axles.iter().all(is_answered);
    if page.is_stopped() {
        blocks.extend(page.stops().into_iter().map(Block::Caution));
        blocks.push(page.text("stop.what", &[]));
    } else if page.answer.sold_is_withheld() {
        blocks.push(page.caution("withheld.customer", &[]));
        blocks.extend(page.answer.axles.iter().map(|a| Block::Text(change(page, a))));
    } else {
        blocks.extend(page.answer.axles.iter().map(|a| Block::Text(story(page, a))));
    }
    let shown = shown(page);
    blocks.extend(side_view::draw(page, &shown));
    let tables = shown.iter().map(|a| sheet_table::four_rows(page, a));
    blocks.extend(tables.map(|(head, rows)| Block::Table { head, rows }));
    if !shown.is_empty() {
        blocks.push(page.text("table.note", &[]));
    }
    let is_paid = !page.names_nothing() && (answered || !page.refitted().is_empty());
    if is_paid {
        blocks.extend([page.heading("pay.head"), Block::List(paid::paid_for(page))]);
        blocks.extend(paid::prices(page));
    }
    blocks.extend(open::said(page).filter(|_| !page.names_nothing()));
    if is_paid {
        blocks.extend([page.heading("feel.head"), Block::List(felt::felt(page))]);
    }
    let recorded = recorded::said(page);
    if !recorded.is_empty() {
        blocks.extend([page.heading("measured.head"), Block::Text(recorded::how(page)), Block::List(recorded)]);
    }
    blocks.extend([page.heading("mind.head"), Block::Text(minded(page)), page.caution(compliance(page), &[])]);
    blocks.extend([page.heading("sure.head"), Block::Text(sure::sure(page))]);
    blocks.extend(unchecked::in_one(page.job, page.answer).map(Block::Text));
    blocks.push(Block::Blanks(["sign.customer", "sign.shop", "sign.date"].map(|k| page.plain(k)).to_vec()));
    Report { title: page.plain("customer.title"), blocks }
}

/// Who decides on road approval, and what the parts were chosen for where some are.
fn compliance(page: &Page<'_>) -> &'static str {
    let nothing_sized = page.names_nothing() || page.refitted().is_empty() && page.redamped().is_empty();
    if nothing_sized { "mind.approval" } else { "mind.compliance" }
}

/// The axles whose table is shown: what is renewed; else what is over; else all.
fn shown<'a>(page: &Page<'a>) -> Vec<&'a AxleAnswer> {
    let renewed = page.refitted();
    if !renewed.is_empty() {
        return renewed;
    }
    let standing = |a: &&AxleAnswer| a.standing.old.is_some() || a.standing.before.is_some();
    page.answer.axles.iter().filter(standing).collect()
}

/// One sentence with the weights.
fn weighed(page: &Page<'_>) -> String {
    use Side::{Front, Rear};
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
            let [fb, rb, fa, ra] = [fb, rb, fa, ra].map(said);
            page.say(key, &[("fb", &fb), ("rb", &rb), ("fa", &fa), ("ra", &ra)])
        }
        (None, Some(((fa, fa_read), (ra, ra_read)))) => {
            let key = if fa_read && ra_read { "weights.after_only" } else { "weights.after_only_estimated" };
            page.say(key, &[("fa", &said(fa)), ("ra", &said(ra))])
        }
        _ => page.plain("weights.unknown"),
    }
}

/// What happened to one axle, and what is done about it.
fn story(page: &Page<'_>, axle: &AxleAnswer) -> String {
    let page = &page.on(axle.side);
    let mut said = vec![change(page, axle)];
    let does_wanted = page.lead(axle).is_some_and(|lead| lead.does_wanted);
    let key = match page.verdict(axle) {
        Verdict::Unanswered if axle.nothing_left => "story.nothing_left",
        Verdict::Unanswered => "story.unanswered",
        Verdict::Stays if axle.old_will_do == Some(true) => "story.stays_well",
        Verdict::Stays => "story.stays",
        Verdict::Fine if !does_wanted => "story.fine_same",
        Verdict::Fine if axle.standing.before.is_some() => "story.fine",
        Verdict::Fine => "story.fine_no_before",
        Verdict::MeasureFirst => "story.measure_first",
        Verdict::New | Verdict::OnSpacers => {
            said.extend(renewal(page, axle));
            return said.join(" ");
        }
    };
    said.push(page.say(key, &[]));
    if key == "story.stays" {
        said.extend(stays(page, axle));
    }
    said.join(" ")
}

/// Where an axle sits on springs that stay, and how much room it has left, where that is not as it was.
fn stays(page: &Page<'_>, axle: &AxleAnswer) -> Vec<String> {
    let states = sheet_table::states(page, axle);
    let Some(now) = states.last().filter(|_| states.len() > 1) else { return Vec::new() };
    let height = now.height.map(|(rise, _)| page.height(rise)).filter(|h| *h != page.plain("height.same"));
    let was = states.first().and_then(|before| before.room);
    let rooms = now.room.zip(was).filter(|(room, was)| page.qty(room.0) != page.qty(was.0));
    let said_room = rooms.map(|((room, _), (was, _))| room_left(page, room, Some(was)));
    let said_height = height.map(|h| page.say(ahead(page, "story.old_height"), &[("height", &h)]));
    said_height.into_iter().chain(said_room).collect()
}

/// The room to the bump stop, and what it was.
fn room_left(page: &Page<'_>, room: Length, was: Option<Length>) -> String {
    match was {
        _ if room.si() <= 0.0 => page.plain(ahead(page, "story.on_stop")),
        Some(was) => page.say(ahead(page, "story.room"), &[("room", &page.qty(room)), ("before", &page.qty(was))]),
        None => page.say(ahead(page, "story.room_only"), &[("room", &page.qty(room))]),
    }
}

/// "The front now carries 98 kg more."
fn change(page: &Page<'_>, axle: &AxleAnswer) -> String {
    let page = &page.on(axle.side);
    let masses = page.axle_weight(0, axle.side).zip(page.axle_weight(1, axle.side));
    let Some(((before, _), (after, _))) = masses else { return page.say("change.unknown", &[]) };
    let change = after - before;
    let amount = page.qty(Mass::from_si(change.si().abs()));
    let none = display::rounded_number(change.si(), page.units().unit(Dim::Mass)) == "0";
    let key = match change.si() {
        _ if none => "change.none",
        kg if kg > 0.0 => "change.heavier",
        _ => "change.lighter",
    };
    page.say(ahead(page, key), &[("amount", &amount)])
}

/// Of a change that is still to come, until the vehicle is weighed after it.
fn ahead(page: &Page<'_>, key: &'static str) -> &'static str {
    let was_weighed = |side: Side| page.read_weight(1, side).is_some_and(|(_, read)| read);
    if Side::BOTH.into_iter().any(was_weighed) {
        return key;
    }
    match key {
        "change.heavier" => "change.heavier.ahead",
        "change.lighter" => "change.lighter.ahead",
        "change.none" => "change.none.ahead",
        "column.new_springs" => "column.new_springs.ahead",
        "column.now" => "column.now.ahead",
        "column.old_springs" => "column.old_springs.ahead",
        "column.on_blocks" => "column.on_blocks.ahead",
        "column.on_spacers" => "column.on_spacers.ahead",
        "column.indexed" => "column.indexed.ahead",
        "column.added_leaf" => "column.added_leaf.ahead",
        "feel.higher" => "feel.higher.ahead",
        "feel.lower" => "feel.lower.ahead",
        "feel.room" => "feel.room.ahead",
        "story.old_height" => "story.old_height.ahead",
        "story.on_stop" => "story.on_stop.ahead",
        "story.room" => "story.room.ahead",
        "story.room_only" => "story.room_only.ahead",
        key => key,
    }
}

/// Its height on the old springs, the new ones, its height on those; on the page of the axle.
fn renewal(page: &Page<'_>, axle: &AxleAnswer) -> Vec<String> {
    let states = sheet_table::states(page, axle);
    let of = |state: State| states.iter().find(|s| s.state == state);
    let mut said = Vec::new();
    if let Some((rise, _)) = of(State::OldSprings).and_then(|s| s.height) {
        said.push(page.say(ahead(page, "story.old_height"), &[("height", &page.height(rise))]));
    }
    if let Some((room, _)) = of(State::OldSprings).and_then(|s| s.room) {
        let before = of(State::Before).and_then(|s| s.room).filter(|r| page.qty(r.0) != page.qty(room));
        said.push(room_left(page, room, before.map(|(was, _)| was)));
    }
    if axle.is_set_again() {
        let key = both_sides::set_again(page, axle, ["story.on_spacers", "story.indexed", "story.added_leaf"]);
        said.push(page.say(key, &[("spacers", &both_sides::raised_with(page, axle))]));
        said.extend(page.lead(axle).map(|_| page.plain("story.led")));
        said.extend(new_height(page, &states));
        return said;
    }
    let rates = axle.old_spring.rate.zip(axle.standing.new.as_ref().map(|s| s.spring_rate));
    let percent = rates.map(|(old, new)| 100.0 * (new.si() / old.si() - 1.0)).filter(|p| p.abs() >= 1.0);
    let key = match percent {
        Some(p) if p > 0.0 => "story.stiffer",
        Some(_) => "story.softer",
        None => "story.like_old",
    };
    said.push(page.say(key, &[("percent", &format!("{:.0}", percent.unwrap_or_default().abs()))]));
    let frequency = |state: State| of(state).and_then(|s| s.frequency);
    said.extend(frequency(State::Before).zip(frequency(State::NewSprings)).and_then(|(was, new)| {
        let key = match felt::change_felt(was, new)? {
            true => "story.aim_quicker",
            false => "story.aim_slower",
        };
        Some(page.plain(key))
    }));
    said.extend(new_height(page, &states));
    said
}

/// Where it sits as it will be fitted, on the page of the axle.
fn new_height(page: &Page<'_>, states: &[sheet_table::Shown]) -> Option<String> {
    let (rise, _) = states.iter().find(|s| s.state == State::NewSprings)?.height?;
    Some(page.say("story.new_height", &[("height", &page.height(rise))]))
}

fn minded(page: &Page<'_>) -> String {
    let mut keys = vec!["mind.limit", "mind.local"];
    if !page.refitted().is_empty() {
        keys.extend(["mind.force", "mind.checks"]);
    }
    let distance = check_again_after(page.units());
    let mut said: Vec<String> = keys.into_iter().map(|k| page.say(k, &[("distance", distance)])).collect();
    for case in page.answer.cases.iter().filter(|c| c.index.is_some()) {
        let on_stop = |axle: &&AxleAnswer| case.standing[axle.side].new.as_ref().is_some_and(|s| s.on.on_stop);
        let name = super::page::one_line(&case.name.to_string());
        let axles = page.answer.axles.iter().filter(on_stop);
        said.extend(axles.map(|axle| page.on(axle.side).say("mind.on_stop", &[("case", &name)])));
    }
    said.join(" ")
}
