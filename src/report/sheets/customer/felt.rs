//! What the driver will feel.

use super::{ahead, sheet_table};
use crate::base::units::{Frequency, Length, Quantity};
use crate::report::phrases;
use crate::report::sheets::judged::Dampers;
use crate::report::sheets::page::Page;
use crate::solve::answer::{AxleAnswer, State};

/// What will feel different, and what will not.
pub(super) fn felt(page: &Page<'_>) -> Vec<String> {
    let (renewed, redamped) = (page.refitted(), page.redamped());
    let mut items = Vec::new();
    if renewed.is_empty() && redamped.is_empty() && page.rebarred().is_empty() {
        items.push(page.plain("feel.nothing"));
    }
    items.extend(redamped.iter().filter_map(|axle| of_dampers(page, axle)));
    for axle in renewed {
        let page = &page.on(axle.side);
        let states = sheet_table::states(page, axle);
        let of = |state: State| states.iter().find(|s| s.state == state);
        let (old, new) = (of(State::OldSprings), of(State::NewSprings));
        let heights = old.and_then(|s| s.height).zip(new.and_then(|s| s.height));
        items.extend(heights.and_then(|((old, _), (new, _))| moved(page, new - old)));
        let rooms = old.and_then(|s| s.room).zip(new.and_then(|s| s.room));
        let more = rooms.is_some_and(|((old, _), (new, _))| (new - old).si() > 2e-3);
        items.extend(more.then(|| page.say(ahead(page, "feel.room"), &[])));
        let less = of(State::Before).and_then(|s| s.room).zip(new.and_then(|s| s.room));
        items.extend(less.filter(|((was, _), (new, _))| (*was - *new).si() > 2e-3).map(|((was, _), (new, _))| {
            page.say("feel.less_room", &[("room", &page.qty(new)), ("before", &page.qty(was))])
        }));
        let was = of(State::Before).and_then(|s| s.frequency);
        items.extend(was.zip(new.and_then(|s| s.frequency)).map(|(was, new)| quicker(page, was, new)));
        items.extend(of_dampers(page, axle));
    }
    items.extend(leans(page));
    items.push(page.plain("feel.same_load"));
    items
}

/// How much less, or more, the body leans in bends with the new anti-roll bars than it would on the old ones.
fn leans(page: &Page<'_>) -> Option<String> {
    let whole = &page.answer.whole;
    let bars = page.rebarred().len();
    (bars > 0).then_some(())?;
    let [old, new] = [whole.old_bars, whole.roll.new].map(|roll| roll?.on_tyres_rad_s2_per_m);
    let percent = 100.0 * (new? / old? - 1.0);
    let key = match (percent.round(), bars) {
        (0.0, _) => return None,
        (less, 1) if less < 0.0 => "feel.leans_less",
        (_, 1) => "feel.leans_more",
        (less, _) if less < 0.0 => "feel.leans_less_both",
        _ => "feel.leans_more_both",
    };
    Some(page.say(key, &[("percent", &format!("{:.0}", percent.abs()))]))
}

/// What the dampers do, old or new; nothing of those that are still open.
fn of_dampers(page: &Page<'_>, axle: &AxleAnswer) -> Option<String> {
    let key = match page.dampers(axle) {
        Dampers::TooSoft => "feel.dampers_soft",
        Dampers::TooStiff => "feel.dampers_stiff",
        Dampers::Stay => "feel.dampers_stay",
        Dampers::Doubtful | Dampers::Unknown => return None,
        Dampers::Wished => "feel.dampers_wished",
        Dampers::Kept => "feel.dampers_kept",
        Dampers::KeptTooSoft => "feel.dampers_kept_soft",
        Dampers::KeptTooStiff => "feel.dampers_kept_stiff",
    };
    Some(page.on(axle.side).say(key, &[]))
}

/// Change of height, on the page of the axle.
fn moved(page: &Page<'_>, rise: Length) -> Option<String> {
    let amount = page.mark(&phrases::amount(rise, page.units())?);
    let key = if rise.si() > 0.0 { "feel.higher" } else { "feel.lower" };
    Some(page.say(ahead(page, key), &[("amount", &amount)]))
}

/// Quicker (true) or slower by enough that a driver can tell.
pub(super) fn change_felt(was: Frequency, new: Frequency) -> Option<bool> {
    // Less than this share is hardly felt; common practice, no source.
    const FELT: f64 = 0.04;
    let share = new.si() / was.si() - 1.0;
    (share.abs() > FELT).then_some(share > 0.0)
}

/// Change of bounces per second from before, by what a driver notices, on the page of the axle.
fn quicker(page: &Page<'_>, was: Frequency, new: Frequency) -> String {
    let key = match change_felt(was, new) {
        Some(true) => "feel.quicker",
        Some(false) => "feel.slower",
        None => "feel.as_before",
    };
    let (was, new) = (page.two_places(was.si()), page.two_places(new.si()));
    page.say(key, &[("was", &was), ("new", &new)])
}
