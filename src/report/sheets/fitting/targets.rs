//! What is weighed and measured again: before fitting, target, tolerance, and what was found or room to write it.

use super::{BLANK, corrected};
use crate::base::units::{Length, Mass, Quantity, Ratio, display};
use crate::job::{BarLinks, LeftRight, LinksAgain, Side, SpringKind, Suspension};
use crate::report::Block;
use crate::report::phrases;
use crate::report::pictures::corners::Aim;
use crate::report::pictures::corners::from_above::from_above;
use crate::report::sheets::both_sides;
use crate::report::sheets::page::Page;
use crate::solve::answer::{Again, AxleAnswer, Corners, cross_weight};

/// Width of the picture: no wider than the frame of any paper.
const WIDE_MM: f32 = 178.0;
const CORNERS: [&str; 4] = ["corner.lf", "corner.rf", "corner.lr", "corner.rr"];

/// Weights; heights, gaps and lengths; alignment.
pub(super) fn blocks(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<Block> {
    let head =
        |first: &str| [first, "fit.before", "fit.target", "fit.within", "fit.found"].map(|k| page.plain(k)).to_vec();
    let is_weighed = Side::BOTH.into_iter().all(|side| page.answer.after.axle(side).is_some());
    let note = if is_weighed { "fit.reweigh.note" } else { "fit.reweigh.note_calculated" };
    let mut blocks = vec![page.heading("fit.reweigh"), page.text(note, &[])];
    // Sized with more aboard than is on the scales.
    let sized = page.sized_case_words("fit.case").filter(|_| is_weighed);
    blocks.extend(sized.map(|_| page.text("fit.reweigh.as_weighed", &[])));
    let unsolved = both_sides::unsolved(page);
    blocks.extend(unsolved.map(|missing| page.text("fit.reweigh.corners_unsolved", &[("missing", &missing)])));
    blocks.extend(links(page));
    // Before its table: a page may end behind it.
    blocks.extend(rounded_apart(page));
    blocks.push(Block::Table { head: head("fit.weights"), rows: weights(page) });
    blocks.push(Block::Table { head: head("fit.heights"), rows: heights(page, renewed) });
    blocks.extend(seen_from_above(page, renewed));
    let rows = alignment(page, renewed);
    if !rows.is_empty() {
        blocks.push(Block::Table { head: head("fit.alignment"), rows });
    }
    let said: Vec<String> = expected(page, renewed).into_iter().chain(corrected::lines(page, renewed)).collect();
    blocks.extend((!said.is_empty()).then_some(Block::List(said)));
    blocks
}

/// How the links of the anti-roll bars are while the corners are weighed again, where there is a bar.
fn links(page: &Page<'_>) -> Option<Block> {
    let has_bar = |side: Side| !page.job.axle(side).roll_bar.diameter.is_blank();
    let has_targets = page.answer.reweigh.corners.iter().any(|corner| corner.foretold.is_some());
    (has_targets && Side::BOTH.into_iter().any(has_bar)).then_some(())?;
    let is_off = match page.job.fitted.bar_links {
        // The cross weight is set with the links off.
        _ if page.answer.reweigh.cross_set => true,
        LinksAgain::AsAfter => page.job.after.bar_links == BarLinks::Off,
        again => again == LinksAgain::Off,
    };
    Some(page.text(if is_off { "fit.reweigh.links_off" } else { "fit.reweigh.links_on" }, &[]))
}

/// The corners from above, with the targets of the tables; nothing where they are not known.
fn seen_from_above(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Option<Block> {
    let seen = from_above(page.answer, page.results, page.units(), Aim::Corrected).ok()?;
    (!renewed.is_empty()).then(|| Block::Drawing(seen.drawing(WIDE_MM, true)))
}

/// Where the cross weight of the rounded corners is not the one that is aimed at, that rounding is why.
fn rounded_apart(page: &Page<'_>) -> Option<Block> {
    let found = &page.answer.reweigh;
    let shown = |i: usize| -> Option<Mass> {
        let unit = page.units().unit(Mass::DIM);
        Some(Mass::from_si(display::as_shown(found.corners[i].foretold?.si(), unit)))
    };
    let rounded = Corners { lf: shown(0)?, rf: shown(1)?, lr: shown(2)?, rr: shown(3)? };
    let differs = percent(cross_weight(&rounded)) != percent(found.cross_weight.foretold?);
    differs.then(|| page.text("fit.cross.unrounded", &[]))
}

/// Corner weights as far as they are known, side to side, axles.
fn weights(page: &Page<'_>) -> Vec<Vec<String>> {
    let (found, after) = (&page.answer.reweigh, &page.answer.after);
    let mut rows = Vec::new();
    let before = after.corners.map(|c| c.walk());
    let is_known = |i: usize| before.is_some() || found.corners[i].foretold.is_some();
    for (i, key) in CORNERS.into_iter().enumerate().filter(|(i, _)| is_known(*i)) {
        rows.push(row(page, page.plain(key), before.map(|b| page.qty(b[i])), &found.corners[i]));
    }
    for side in Side::BOTH {
        let [left, right] = side.corners();
        let difference = |l: Option<Mass>, r: Option<Mass>| Some(apart(page, l?, r?));
        let of = |pick: fn(&Again<Mass>) -> Option<Mass>| {
            difference(pick(&found.corners[left]), pick(&found.corners[right]))
        };
        if let Some(target) = of(|a| a.foretold) {
            let was = before.and_then(|b| difference(Some(b[left]), Some(b[right])));
            let found = of(|a| a.found).unwrap_or_else(|| BLANK.to_owned());
            let what = page.on(side).say("fit.side_to_side", &[]);
            rows.push(vec![phrases::upper_first(&what), was.unwrap_or_default(), target, String::new(), found]);
        }
    }
    for side in Side::BOTH {
        let was = after.axle(side).map(|m| page.qty(m));
        rows.push(row(page, page.axle_words(side), was, &found.axles[side]));
    }
    rows.extend(cross_row(page));
    rows
}

/// The cross weight, where the corners are known.
fn cross_row(page: &Page<'_>) -> Option<Vec<String>> {
    let cross = &page.answer.reweigh.cross_weight;
    let said = |c: Option<Ratio>| c.map_or_else(|| BLANK.to_owned(), |c| page.mark(&percent(c)));
    let target = cross.foretold?;
    let within = cross.within.map_or_else(String::new, |w| page.mark(&format!("± {}", percent(w))));
    let was = said(page.answer.after.cross_weight);
    Some(vec![page.plain("fit.cross_weight"), was, said(Some(target)), within, said(cross.found)])
}

fn percent(share: Ratio) -> String {
    format!("{:.1} %", 100.0 * share.si())
}

/// Hub to arch of a corner as measured on the old springs, after the change.
fn arch_of_corner(page: &Page<'_>, corner: usize) -> Option<Length> {
    let arch = &page.job.after.arch;
    let own = [
        ("after.arch.lf", &arch.lf),
        ("after.arch.rf", &arch.rf),
        ("after.arch.lr", &arch.lr),
        ("after.arch.rr", &arch.rr),
    ];
    let (path, own) = own.get(corner)?;
    page.typed(path, own)
}

/// The same of an axle, mean of both sides.
fn arch_of_axle(page: &Page<'_>, side: Side) -> Option<Length> {
    page.answer.axle(side).arch.after
}

/// Hub to arch at every corner; of axles with new springs the gap to the stop and the lengths at ride height.
fn heights(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    for (i, key) in CORNERS.into_iter().enumerate() {
        let what = page.say("fit.arch", &[("place", &page.plain(key))]);
        let mean = || Some(page.say("fit.mean", &[("amount", &page.qty(arch_of_axle(page, Side::BOTH[i / 2])?))]));
        let was = arch_of_corner(page, i).map(|now| page.qty(now)).or_else(mean);
        rows.push(row(page, what, was, &page.answer.reweigh.arch[i]));
    }
    for side in Side::BOTH {
        let [left, right] = side.corners().map(|corner| &page.answer.reweigh.arch[corner]);
        let difference = |l: Option<Length>, r: Option<Length>| Some(apart(page, l?, r?));
        if let Some(target) = difference(left.foretold, right.foretold) {
            let found = difference(left.found, right.found).unwrap_or_else(|| BLANK.to_owned());
            let what = page.on(side).say("fit.arch_side_to_side", &[]);
            let [left, right] = side.corners().map(|corner| arch_of_corner(page, corner));
            let was = difference(left, right).unwrap_or_else(|| BLANK.to_owned());
            rows.push(vec![phrases::upper_first(&what), was, target, String::new(), found]);
        }
    }
    for axle in renewed {
        let is_strut = page.job.axle(axle.side).suspension == Suspension::Strut;
        let damper = if is_strut { "fit.strut_at_ride" } else { "fit.damper_at_ride" };
        let measured = [
            ("fit.gap", "stop_room", Some(1.0)),
            (
                if axle.kind == SpringKind::Leaf { "fit.leaf_at_ride" } else { "fit.spring_at_ride" },
                "spring_length",
                axle.motion_ratio.map(Ratio::si),
            ),
            (damper, "damper_length", axle.damper_motion_ratio.map(Ratio::si)),
        ];
        // As far off as the height may be.
        let height = page.answer.reweigh.arch[axle.side.corners()[0]].within;
        let has_length = axle.kind != SpringKind::TorsionBar;
        for (key, what_is, share) in measured.into_iter().filter(|(_, what, _)| has_length || *what != "spring_length")
        {
            let what = phrases::upper_first(&page.on(axle.side).say(key, &[]));
            // With what is on the scales, whatever the springs are sized on.
            let known = |springs: &str| page.of(axle, &format!("on_scales.{springs}_{what_is}"));
            let [was, target] = ["old", "new"].map(known);
            let target = each_side(page, axle, what_is).or(target);
            let within = target.as_ref().and_then(|_| Some(page.within(Length::from_si(height?.si() * share?))));
            let [was, target] = [was, target].map(|cell| cell.unwrap_or_else(|| BLANK.to_owned()));
            rows.push(vec![what, was, target, within.unwrap_or_default(), BLANK.to_owned()]);
        }
    }
    rows
}

/// A target left and right, where what is fitted differs and the corners are known.
fn each_side(page: &Page<'_>, axle: &AxleAnswer, what: &str) -> Option<String> {
    let LeftRight { left, right } = both_sides::spacers(page, axle);
    let differ = left != right || !both_sides::own_springs(page, axle).is_empty();
    let corners = page.answer.whole.corners.new.filter(|_| differ)?.travel.walk();
    let curve = &axle.standing.new.as_ref()?.curve;
    let is_known: Length = page.value(axle, &format!("on_scales.new_{what}"))?;
    let at = |travel: Length| match what {
        "spring_length" => curve.spring_length.length(travel),
        "damper_length" => curve.damper_length.length(travel),
        _ => axle.travel.stop.map_or(is_known, |gap| gap - travel),
    };
    let [left, right] = axle.side.corners().map(|corner| page.qty(at(corners[corner])));
    Some(page.say("fit.both_sides", &[("left", &left), ("right", &right)]))
}

/// Camber and toe left and right, for whoever sets them; the targets are in the vehicle's manual. A beam axle that steers
/// has toe and castor, any other none to set.
fn alignment(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<Vec<String>> {
    // Kept in one line.
    let pair = || "_____\u{a0}/\u{a0}_____".to_owned();
    let line = |axle: &AxleAnswer, key: &str| {
        let what = phrases::upper_first(&page.on(axle.side).say(key, &[]));
        vec![what, pair(), BLANK.to_owned(), BLANK.to_owned(), pair()]
    };
    let keys = |axle: &AxleAnswer| match (page.job.axle(axle.side).suspension, axle.side) {
        (Suspension::Beam, Side::Front) => vec!["fit.castor", "fit.toe"],
        (Suspension::Beam, Side::Rear) => Vec::new(),
        _ => vec!["fit.camber", "fit.toe"],
    };
    renewed.iter().flat_map(|axle| keys(axle).into_iter().map(|key| line(axle, key))).collect()
}

/// How far the body rises or falls, and how far it still settles.
fn expected(page: &Page<'_>, renewed: &[&AxleAnswer]) -> Vec<String> {
    let rise = renewed.iter().filter_map(|a| {
        let calculated = page.value(a, "room.rise_as_weighed").filter(|_: &Length| super::is_placed(a))?;
        let measured = rise_measured(page, a.side);
        let rise = measured.unwrap_or(calculated);
        let key = match (rise.si() < 0.0, measured) {
            (true, None) => "fit.falls",
            (false, None) => "fit.rises",
            (true, Some(_)) => "fit.falls_from_before",
            (false, Some(_)) => "fit.rises_from_before",
        };
        let amount = page.qty(Length::from_si(rise.si().abs()));
        Some(page.on(a.side).say(key, &[("amount", &amount)]))
    });
    let settle = renewed.iter().filter(|a| !a.is_set_again()).filter_map(|a| {
        let amount = page.of(a, "sizing.settling")?;
        Some(page.on(a.side).say("fit.settle", &[("amount", &amount)]))
    });
    rise.chain(settle).map(|t| phrases::upper_first(&t)).collect()
}

/// From the arches as measured on the old springs to those aimed at, mean of both sides, as both are shown.
fn rise_measured(page: &Page<'_>, side: Side) -> Option<Length> {
    let shown = |length: Length| display::as_shown(length.si(), page.units().unit(Length::DIM));
    let of = |corner: usize| {
        let was = arch_of_corner(page, corner).or_else(|| arch_of_axle(page, side))?;
        Some(shown(page.answer.reweigh.arch[corner].foretold?) - shown(was))
    };
    let [left, right] = side.corners().map(of);
    Some(Length::from_si(0.5 * (left? + right?)))
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
    vec![phrases::upper_first(&what), was.unwrap_or_else(blank), target, within, found]
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
