//! What is weighed and measured again: before fitting, target, tolerance, and what was found or room to write it.

use super::BLANK;
use crate::base::units::{Length, Mass, Quantity, Ratio, display};
use crate::job::{Side, SpringKind, Suspension};
use crate::report::Block;
use crate::report::sections::sentence;
use crate::report::sheets::page::Page;
use crate::solve::answer::{Again, AxleAnswer};

const CORNERS: [&str; 4] = ["corner.lf", "corner.rf", "corner.lr", "corner.rr"];

/// Weights; heights, gaps and lengths; alignment.
pub(super) fn blocks(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<Block> {
    let head =
        |first: &str| [first, "fit.before", "fit.target", "fit.within", "fit.found"].map(|k| page.plain(k)).to_vec();
    let mut blocks = vec![page.heading("fit.reweigh"), page.text("fit.reweigh.note", &[])];
    // Sized with more aboard than is on the scales.
    blocks.extend(page.sized_case_words("fit.case").map(|_| page.text("fit.reweigh.as_weighed", &[])));
    blocks.extend([
        Block::Table { head: head("fit.weights"), rows: weights(page) },
        Block::Table { head: head("fit.heights"), rows: heights(page, renewed) },
    ]);
    let rows = alignment(page, renewed);
    if !rows.is_empty() {
        blocks.push(Block::Table { head: head("fit.alignment"), rows });
    }
    blocks.extend(expected(page, renewed));
    blocks
}

/// Corner weights as far as they are known, side to side, axles.
fn weights(page: &Page<'_>) -> Vec<Vec<String>> {
    let (found, after) = (&page.answer.reweigh, &page.answer.after);
    let mut rows = Vec::new();
    let before = after.corners.map(|c| c.walk());
    for (i, key) in CORNERS.into_iter().enumerate().filter(|(i, _)| found.corners[*i].foretold.is_some()) {
        rows.push(row(page, page.plain(key), before.map(|b| page.qty(b[i])), &found.corners[i]));
    }
    for side in Side::BOTH {
        let (left, right) = (2 * side as usize, 2 * side as usize + 1);
        let difference = |l: Option<Mass>, r: Option<Mass>| Some(apart(page, l?, r?));
        let of = |pick: fn(&Again<Mass>) -> Option<Mass>| {
            difference(pick(&found.corners[left]), pick(&found.corners[right]))
        };
        if let Some(target) = of(|a| a.foretold) {
            let was = before.and_then(|b| difference(Some(b[left]), Some(b[right])));
            let found = of(|a| a.found).unwrap_or_else(|| BLANK.to_owned());
            let what = page.say("fit.side_to_side", &[("end", &page.end_words(side))]);
            rows.push(vec![sentence::upper_first(&what), was.unwrap_or_default(), target, String::new(), found]);
        }
    }
    for side in Side::BOTH {
        let was = after.axle(side).map(|m| page.qty(m));
        rows.push(row(page, page.axle_words(side), was, &found.axles[side as usize]));
    }
    rows.extend(cross_weight(page));
    rows
}

/// The cross weight, where the corners are known.
fn cross_weight(page: &Page<'_>) -> Option<Vec<String>> {
    let cross = &page.answer.reweigh.cross_weight;
    let percent = |c: Ratio| format!("{:.1} %", 100.0 * c.si());
    let said = |c: Option<Ratio>| c.map_or_else(|| BLANK.to_owned(), |c| page.mark(&percent(c)));
    let target = cross.foretold?;
    let within = cross.within.map_or_else(String::new, |w| page.mark(&format!("± {}", percent(w))));
    let was = said(page.answer.after.cross_weight);
    Some(vec![page.plain("fit.cross"), was, said(Some(target)), within, said(cross.found)])
}

/// Hub to arch at every corner; of axles with new springs the gap to the stop and the lengths at ride height.
fn heights(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    for (i, key) in CORNERS.into_iter().enumerate() {
        let what = page.say("fit.arch", &[("place", &page.plain(key))]);
        rows.push(row(page, what, None, &page.answer.reweigh.arch[i]));
    }
    for side in Side::BOTH {
        let [left, right] = [0, 1].map(|i| &page.answer.reweigh.arch[2 * side as usize + i]);
        let difference = |l: Option<Length>, r: Option<Length>| Some(apart(page, l?, r?));
        if let Some(target) = difference(left.foretold, right.foretold) {
            let found = difference(left.found, right.found).unwrap_or_else(|| BLANK.to_owned());
            let what = page.say("fit.arch_side_to_side", &[("end", &page.end_words(side))]);
            rows.push(vec![sentence::upper_first(&what), BLANK.to_owned(), target, String::new(), found]);
        }
    }
    for axle in renewed {
        let measured = [
            ("fit.gap", "stop_room", Some(1.0)),
            (
                if axle.kind == SpringKind::Leaf { "fit.leaf_at_ride" } else { "fit.spring_at_ride" },
                "spring_length",
                axle.motion_ratio.map(Ratio::si),
            ),
            ("fit.damper_at_ride", "damper_length", axle.damper_motion_ratio.map(Ratio::si)),
        ];
        // As far off as the height may be.
        let height = page.answer.reweigh.arch[2 * axle.side as usize].within;
        let has_length = axle.kind != SpringKind::TorsionBar;
        for (key, what_is, share) in measured.into_iter().filter(|(_, what, _)| has_length || *what != "spring_length")
        {
            let what = sentence::upper_first(&page.say(key, &[("end", &page.end_words(axle.side))]));
            // With what is on the scales, whatever the springs are sized on.
            let known = |springs: &str| page.of(axle, &format!("on_scales.{springs}_{what_is}"));
            let [was, target] = ["old", "new"].map(known);
            let within = target.as_ref().and_then(|_| Some(page.within(Length::from_si(height?.si() * share?))));
            let [was, target] = [was, target].map(|cell| cell.unwrap_or_else(|| BLANK.to_owned()));
            rows.push(vec![what, was, target, within.unwrap_or_default(), BLANK.to_owned()]);
        }
    }
    rows
}

/// Camber and toe left and right, for whoever sets them; the targets are in the vehicle's manual. A beam axle has none to
/// set.
fn alignment(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<Vec<String>> {
    // Kept in one line.
    let pair = || "_____\u{a0}/\u{a0}_____".to_owned();
    let line = |axle: &&AxleAnswer, key: &str| {
        let what = sentence::upper_first(&page.say(key, &[("end", &page.end_words(axle.side))]));
        vec![what, pair(), BLANK.to_owned(), BLANK.to_owned(), pair()]
    };
    let is_set = |axle: &&&AxleAnswer| page.job.axle(axle.side).suspension != Suspension::Beam;
    renewed.iter().filter(is_set).flat_map(|axle| [line(axle, "fit.camber"), line(axle, "fit.toe")]).collect()
}

/// How far the body rises or falls, and how far it still settles.
fn expected(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Option<Block> {
    let rise = renewed.iter().filter_map(|a| {
        // A coil whose length is not known is at no height yet.
        let is_placed = !a.kind.is_coil() || a.standing.new.as_ref()?.spring_length.is_some();
        let rise = page.value(a, "room.rise_as_weighed").filter(|_: &Length| is_placed)?;
        let key = if rise.si() < 0.0 { "fit.falls" } else { "fit.rises" };
        let amount = page.qty(Length::from_si(rise.si().abs()));
        Some(page.say(key, &[("end", &page.end_words(a.side)), ("amount", &amount)]))
    });
    let settle = renewed.iter().filter(|a| !a.is_on_spacers()).filter_map(|a| {
        let amount = page.of(a, "sizing.settling")?;
        Some(page.say("fit.settle", &[("end", &page.end_words(a.side)), ("amount", &amount)]))
    });
    let more: Vec<String> = rise.chain(settle).map(|t| sentence::upper_first(&t)).collect();
    (!more.is_empty()).then_some(Block::List(more))
}

/// One row: what was there before fitting, or room to write it; what is aimed at; how far it may be off; what was found.
fn row<Q: Quantity>(page: &Page<'_>, what: String, was: Option<String>, again: &Again<Q>) -> Vec<String> {
    let blank = || BLANK.to_owned();
    let found = match (again.found, again.inside()) {
        (None, _) => blank(),
        (Some(found), Some(true)) => page.say("fit.inside", &[("found", &page.qty(found))]),
        (Some(found), Some(false)) => {
            let off = again.difference().map_or_else(String::new, |d| signed(page, d));
            page.say("fit.outside", &[("found", &page.qty(found)), ("off", &off)])
        }
        (Some(found), None) => page.qty(found),
    };
    let within = again.within.filter(|_| again.foretold.is_some());
    let within = within.map_or_else(String::new, |w| page.within(w));
    let target = again.foretold.map_or_else(blank, |q| page.qty(q));
    vec![sentence::upper_first(&what), was.unwrap_or_else(blank), target, within, found]
}

/// How much more the left is than the right, as both are shown.
fn apart<Q: Quantity>(page: &Page<'_>, left: Q, right: Q) -> String {
    let shown = |q: Q| display::as_shown(q.si(), page.units().unit(Q::DIM));
    signed(page, Q::from_si(shown(left) - shown(right)))
}

/// "+3 kg", "−12 mm".
fn signed<Q: Quantity>(page: &Page<'_>, difference: Q) -> String {
    let sign = match difference.si() {
        _ if display::rounded_number(difference.si(), page.units().unit(Q::DIM)) == "0" => "",
        si if si > 0.0 => "+",
        _ => "−",
    };
    format!("{sign}{}", page.mark(&display::rounded_si(difference.si().abs(), Q::DIM, page.units())))
}
