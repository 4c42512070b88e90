//! The numbers on the sheets are those of the answer, and the working can be followed with a pocket calculator.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test says why it stops")]

use std::collections::BTreeMap;
use std::f64::consts::PI;

use springwright::base::units::{Entry, Length, Mass, Quantity, display};
use springwright::job::{Job, Side};
use springwright::report::pictures::drawing::{Anchor, Drawing, Shape, Stroke};
use springwright::report::results::evaluate;
use springwright::report::sheets::Kind;
use springwright::report::{Block, Report};
use springwright::solve::answer::{Answer, RemedyKind, State};
use springwright::solve::solve;

use crate::common::kept;
use crate::common::sheets as common;
use common::{customer, english, plain, preset, sheet, tables};

#[test]
fn the_customers_numbers_are_the_answers() {
    let mut compared = 0;
    for shipped in kept::shipped() {
        let (job, answer, report) = (&shipped.job, shipped.answer(), shipped.sheet(Kind::Customer));
        for side in Side::BOTH {
            let axle = answer.axle(side);
            // What leads in place of the new springs has its own column: `leads` looks at it.
            if answer.lead(side).is_some_and(|lead| lead.leads()) {
                continue;
            }
            let name = if side == Side::Front { "Front axle" } else { "Rear axle" };
            let Some((head, rows)) = tables(report).into_iter().find(|t| t.0[0] == name) else { continue };
            for (column, words) in head.iter().enumerate().skip(1) {
                let state = match words.as_str() {
                    w if w == english("column.before") => State::Before,
                    w if ["", ".ahead"].iter().any(|t| w == english(&format!("column.new_springs{t}"))) => {
                        State::NewSprings
                    }
                    _ if head.len() == 3 && axle.plan == springwright::job::Plan::Keep && !axle.overloaded => {
                        State::NewSprings
                    }
                    _ => State::OldSprings,
                };
                let cell = |key: &str| rows.iter().find(|r| r[0] == english(key)).unwrap()[column].clone();
                let number = |key: &str| cell(key).split(',').next().unwrap().to_owned();
                let Some(stands) = axle.standing.of(state) else {
                    assert_eq!(cell("row.bounces"), "not known", "{}", shipped.name);
                    continue;
                };
                assert_eq!(number("row.bounces"), format!("{:.2}", stands.frequency.si()), "{}", shipped.name);
                let weight = answer.compared.weighed.of(state).axle(side);
                assert_eq!(
                    number("row.weight"),
                    weight.map_or("not known".into(), |m| display::rounded(m, &job.units))
                );
                let room = stands.stop_room.map_or("not known".into(), |r| match r.si() {
                    r if r <= 0.0 => "none".into(),
                    _ => display::rounded(r, &job.units),
                });
                assert_eq!(number("row.room"), room, "{}", shipped.name);
                let amount = stands.height_change.map(|h| display::rounded(Length::from_si(h.si().abs()), &job.units));
                let level = ["as it was", "as before", "not known"].contains(&number("row.height").as_str());
                assert!(
                    level || number("row.height").starts_with(&amount.unwrap()),
                    "{}: {}",
                    shipped.name,
                    cell("row.height")
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 50, "{compared}");
}

#[test]
fn prices_are_those_of_the_remedies() {
    let kept = kept::named("demo-orchard-van");
    let front = |answer: &Answer, kind| answer.remedies.front.iter().find(|r| r.kind == kind).unwrap().price.unwrap();
    let text = plain(kept.sheet(Kind::Customer));
    for kind in [RemedyKind::SpringsAndDampers, RemedyKind::Spacer] {
        assert!(text.contains(&format!("{:.2} EUR", front(kept.answer(), kind))), "{text}");
    }
    let mut job = kept.job.clone();
    // Dampers that suit are not sold.
    job.front.damper.rows.clear();
    job.front.damper.ratio_before = "0.34".into();
    let answer = solve(&job);
    let text = customer(&job, &answer);
    assert!(text.contains("The front dampers stay") && !text.contains("New front dampers"), "{text}");
    let line = |price: &str| format!("Price parts and labour, front axle {price}");
    assert!(text.contains(&line(&format!("{:.2} EUR", front(&answer, RemedyKind::Springs)))), "{text}");
    // One price missing: no sum is made up, and there is a line to write it on.
    job.prices.work = Entry::default();
    let text = customer(&job, &solve(&job));
    assert!(text.contains("Price: ____") && !text.contains(" EUR"), "{text}");
}

/// Both axles are sold: a line for each, and one for both; without one of them no sum.
#[test]
fn the_price_of_both_axles_is_their_sum() {
    let (mut job, _) = preset("open-two-seater");
    (job.prices.springs, job.prices.work, job.prices.dampers) = ("130".into(), "180".into(), "240".into());
    job.prices.damper_work = "90".into();
    let answer = solve(&job);
    let prices = |job: &Job, answer: &Answer| {
        let report = sheet(Kind::Customer, job, answer);
        let found = tables(&report).into_iter().find(|t| t.0[0] == english("pay.price")).map(|t| t.1.clone());
        found.expect("prices")
    };
    let rows = prices(&job, &answer);
    let number = |row: &[String]| row[1].split(' ').next().unwrap().parse::<f64>().unwrap();
    assert_eq!(rows.len(), 3, "{rows:?}");
    assert!((number(&rows[0]) + number(&rows[1]) - number(&rows[2])).abs() < 0.006, "{rows:?}");
    let axle = |side: Side, price: f64| answer.remedies[side].iter().any(|r| r.price == Some(price));
    assert!(axle(Side::Front, number(&rows[0])) && axle(Side::Rear, number(&rows[1])), "{rows:?}");
    // Of one axle it is not known: a blank for it, and for the sum.
    job.rear.taken.price = Entry::default();
    job.prices.springs = Entry::default();
    job.front.taken.price = "60".into();
    job.front.taken.rate = "40 N/mm".into();
    let rows = prices(&job, &solve(&job));
    let open: Vec<bool> = rows.iter().map(|row| row[1] == english("pay.price_open")).collect();
    assert_eq!(open, [false, true, true], "{rows:?}");
}

#[test]
fn dampers_on_the_edge_are_tested_first() {
    let (mut job, _) = preset("demo-orchard-van");
    // 0.285 before is just below 0.25 on the new springs, with a ± of a tenth.
    job.front.damper.rows.clear();
    job.front.damper.ratio_before = "0.285".into();
    let answer = solve(&job);
    let found = answer.axle(Side::Front).standing.new.as_ref().unwrap().old_damper_ratio.unwrap().si();
    assert!((0.235..0.25).contains(&found), "{found}");
    let open = english("open.at_limit");
    assert!(customer(&job, &answer).contains(&open));
    assert!(plain(&sheet(Kind::Order, &job, &answer)).contains(&open));
}

fn drawing(report: &Report) -> &Drawing {
    report
        .blocks
        .iter()
        .find_map(|b| match b {
            Block::Drawing(d) => Some(d),
            _ => None,
        })
        .expect("a picture")
}

/// Lower faces of the body, by how their outline is drawn: 18 mm wide, 2.5 mm thick.
fn bodies(drawing: &Drawing) -> Vec<(Stroke, f32, f32)> {
    let found = drawing.shapes.iter().filter_map(|s| match s {
        Shape::Area { corners, stroke, .. } if corners.len() == 4 => {
            let (wide, thick) = (corners[1][0] - corners[0][0], corners[2][1] - corners[1][1]);
            ((wide - 18.0).abs() < 1e-3 && (thick - 2.5).abs() < 1e-3).then(|| (*stroke, corners[0][0], corners[2][1]))
        }
        _ => None,
    });
    found.collect()
}

/// Lengths of the heavy line that stands in the gap.
fn gaps(drawing: &Drawing) -> Vec<f32> {
    let found = drawing.shapes.iter().filter_map(|s| match s {
        Shape::Line { through, stroke: Stroke::Heavy } if through.len() == 2 => Some(through[1][1] - through[0][1]),
        _ => None,
    });
    found.collect()
}

#[test]
fn the_picture_is_true_to_heights_and_gaps() {
    for name in ["demo-orchard-van", "lighter-engine", "strut-front", "us-units-wagon", "open-two-seater"] {
        let kept = kept::named(name);
        let answer = kept.answer();
        let axles: Vec<Side> =
            Side::BOTH.into_iter().filter(|s| answer.axle(*s).plan == springwright::job::Plan::NewSprings).collect();
        let drawing = drawing(kept.sheet(Kind::Customer));
        let (bodies, gaps) = (bodies(drawing), gaps(drawing));
        assert_eq!(bodies.len(), 3 * axles.len(), "{name}");
        for (i, side) in axles.into_iter().enumerate() {
            let own = &bodies[3 * i..3 * i + 3];
            assert_eq!(
                own.iter().map(|b| b.0).collect::<Vec<_>>(),
                [Stroke::Dotted, Stroke::Dashed, Stroke::Full],
                "{name}"
            );
            let of = |s: State| answer.axle(side).standing.of(s).as_ref().unwrap();
            let room_mm = State::ALL.map(|s| of(s).stop_room.unwrap().si() * 1e3);
            let height_mm = State::ALL.map(|s| of(s).height_change.unwrap().si() * 1e3);
            assert!(room_mm.iter().all(|r| *r > 1.0), "{name}: a gap is open");
            let scale = f64::from(gaps[3 * i]) / room_mm[0];
            assert!(scale >= 0.05 - 1e-6 && drawing.words.contains("actual size ("));
            for n in 0..3 {
                assert!((f64::from(gaps[3 * i + n]) / room_mm[n] / scale - 1.0).abs() < 1e-3, "{name}: gap {n}");
                // Down is + in the picture.
                let moved = f64::from(own[0].2 - own[n].2);
                assert!((moved - scale * height_mm[n]).abs() < 2e-3, "{name}: {moved} for {} at {scale}", height_mm[n]);
            }
        }
    }
}

#[test]
fn a_stop_that_is_touched_leaves_no_gap_in_the_picture() {
    let (mut job, _) = preset("demo-orchard-van");
    job.front.travel.stop_gap = "20 mm".into();
    let report = sheet(Kind::Customer, &job, &solve(&job));
    let drawing = drawing(&report);
    assert_eq!(gaps(drawing).len(), 2, "none on the old springs");
    assert!(drawing.words.contains("no gap"), "{}", drawing.words);
    assert!(plain(&report).contains("The vehicle now rests on the bump stop."));
}

#[test]
fn everything_drawn_is_inside_the_picture() {
    for shipped in kept::shipped() {
        for drawing in shipped.sheet(Kind::Customer).blocks.iter().filter_map(|b| match b {
            Block::Drawing(d) => Some(d),
            _ => None,
        }) {
            let places = drawing.flat().into_iter().flat_map(|s| match s {
                Shape::Line { through, .. } => through.clone(),
                Shape::Area { corners, .. } => corners.clone(),
                Shape::Circle { centre: [x, y], radius_mm: r, .. } => vec![[x - r, y - r], [x + r, y + r]],
                // Half of the type's height is a letter's width, about.
                Shape::Words { at: [x, y], size_mm, text, anchor, .. } => {
                    let half = 0.25 * size_mm * text.chars().count() as f32;
                    let middle = match anchor {
                        Anchor::Start => x + half,
                        Anchor::Middle => *x,
                        Anchor::End => x - half,
                    };
                    vec![[middle - half, y - size_mm], [middle + half, *y]]
                }
                Shape::OfState(..) => Vec::new(),
            });
            for [x, y] in places {
                let inside =
                    (-0.01..=drawing.width_mm + 0.01).contains(&x) && (-0.01..=drawing.height_mm + 0.01).contains(&y);
                assert!(inside, "{}: {x}, {y}", shipped.name);
            }
        }
    }
}

#[test]
fn this_springs_force_and_energy_by_hand() {
    let kept = kept::named("demo-orchard-van");
    let text = plain(kept.sheet(Kind::Fitting));
    let new = kept.answer().axle(Side::Front).standing.new.as_ref().unwrap();
    // A coil of 60 N/mm: what compresses it, and half of force times compression.
    let pressed_m = new.spring_force.si() / 60e3;
    let energy_j = 0.5 * new.spring_force.si() * pressed_m;
    // The same energy as a fall of one metre: E / g.
    let (force_n, mass_kg) = (new.spring_force.si(), energy_j / 9.80665);
    let row = format!("new, front, at ride height {force_n:.0} N {energy_j:.0} J {mass_kg:.0} kg");
    assert!(text.contains(&row) && text.contains("as a mass falling 1 m"), "{row}: {text}");
    assert!(text.contains("hub to arch: expect 23 mm more than measured in step 1"), "{text}");
    assert!(plain(kept::named("us-units-wagon").sheet(Kind::Fitting)).contains("falling 3 ft"));
}

#[test]
fn an_order_says_what_the_axle_needs() {
    let kept = kept::named("demo-orchard-van");
    let (mut job, answer) = (kept.job.clone(), kept.answer());
    let text = plain(kept.sheet(Kind::Order));
    let axle = answer.axle(Side::Front);
    let sizing = axle.sizing.as_ref().unwrap();
    // By hand: length at metal contact 196.5 mm less 6 mm; damper 330 mm at the reference, 0.68 a wheel's travel.
    for part in [
        "2, both sides alike",
        "60 N/mm",
        "55 N/mm (372 mm) to 65 N/mm (354 mm)",
        "362 mm",
        "190 mm",
        "267 mm",
        "386 mm",
        "0.52 m/s",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    assert!((axle.room.longest_solid.unwrap().si() - (axle.room.spring_at_metal.unwrap().si() - 0.006)).abs() < 1e-12);
    assert!((axle.room.damper_closed_most.unwrap().si() - (0.330 - 0.68 * 0.085 - 0.005)).abs() < 1e-9);
    assert!((axle.room.damper_open_least.unwrap().si() - (0.330 + 0.68 * 0.075 + 0.005)).abs() < 1e-9);
    assert!(text.contains(&display::rounded(sizing.spring_force, &job.units)));
    assert!(text.contains("60 N/mm ± 5 %") && text.contains("362 mm ± 3 mm"), "{text}");
    // From the list, with number, price and spacer.
    let taken = &mut job.front.taken;
    (taken.number, taken.what) = ("TT-60-360".into(), "a coil".into());
    (taken.rate, taken.free_length) = ("60 N/mm".into(), "360 mm".into());
    (taken.spacer, taken.price) = ("4 mm".into(), "58".into());
    let text = plain(&sheet(Kind::Order, &job, &solve(&job)));
    for part in ["TT-60-360, a coil", "58.00 EUR", "360 mm", "4 mm"] {
        assert!(text.contains(part), "{part}: {text}");
    }
    // To have it wound: the outside diameter of the old one.
    job.front.taken = Default::default();
    job.front.spring.wire.outside_diameter = "130 mm".into();
    job.front.stock.preset = true;
    let answer = solve(&job);
    let part = answer.released(Side::Front).unwrap();
    let wound = part.wound.expect("a wire is found");
    // τ = K 8 F D/(π d³) with Wahl's factor, by hand; F = k (L0 − L_solid).
    let (d, mean) = (wound.wire.diameter_m, wound.wire.mean_m);
    let c = mean / d;
    let wahl = (4.0 * c - 1.0) / (4.0 * c - 4.0) + 0.615 / c;
    let order_m = part.spring.unwrap().order_length.unwrap().si();
    let force_n = 60e3 * (order_m - wound.solid_length.si());
    let by_hand = wahl * 8.0 * force_n * mean / (PI * d.powi(3));
    assert!((wound.stress_solid.unwrap().si() / by_hand - 1.0).abs() < 1e-9);
    let text = plain(&sheet(Kind::Order, &job, &answer));
    for key in [
        "wound.wire",
        "wound.mean",
        "wound.active",
        "wound.total",
        "wound.ends",
        "order.stress_bump",
        "wound.stress_solid",
    ] {
        assert!(text.contains(&english(key)), "{key}: {text}");
    }
}

/// What the solver refuses is printed by no sheet.
#[test]
fn a_refused_price_is_not_printed() {
    let (mut job, _) = preset("demo-orchard-van");
    let taken = &mut job.front.taken;
    (taken.number, taken.rate, taken.free_length) = ("TT-60-360".into(), "60 N/mm".into(), "360 mm".into());
    taken.price = "58".into();
    assert!(plain(&sheet(Kind::Order, &job, &solve(&job))).contains("58.00 EUR"));
    job.front.taken.price = "-58".into();
    let answer = solve(&job);
    assert!(answer.refuses("front.taken.price"));
    let text = plain(&sheet(Kind::Order, &job, &answer));
    assert!(text.contains("TT-60-360") && !text.contains("58.00"), "{text}");
}

#[test]
fn weights_and_heights_come_back() {
    let (mut job, _) = preset("demo-orchard-van");
    job.front.checks.arch_before = "400 mm".into();
    let kg = |kg: f64| Entry::<Mass>::from(format!("{kg} kg").as_str());
    (job.fitted.lf, job.fitted.rf, job.fitted.lr, job.fitted.rr) = (kg(466.0), kg(444.0), kg(336.0), kg(329.0));
    (job.fitted.arch.lf, job.fitted.arch.rf) = ("398 mm".into(), "393 mm".into());
    let answer = solve(&job);
    let found = &answer.reweigh;
    assert!(
        (found.corners[0].difference().unwrap().si() - 3.0).abs() < 0.02 && found.corners[0].inside() == Some(true)
    );
    assert!((found.axles.front.difference().unwrap().si() - 2.0).abs() < 1e-9);
    // By the corners: heavier on the left, so lower there, and back at the old height between both.
    let arch = [0, 1].map(|i| found.arch[i].foretold.unwrap().si());
    assert!((arch[0] + arch[1] - 0.800).abs() < 2e-5 && arch[1] - arch[0] > 0.007, "back at the old height: {arch:?}");
    assert_eq!(
        [found.arch[0].inside(), found.arch[1].inside(), found.arch[2].inside()],
        [Some(true), Some(false), None]
    );
    assert!((found.cross_weight.found.unwrap().si() - (444.0 + 336.0) / 1575.0).abs() < 1e-12);
    let said: Vec<&str> =
        answer.findings.iter().filter(|f| f.rule.starts_with("fitted-")).map(|f| f.field.as_str()).collect();
    assert_eq!(said, ["fitted.arch.rf"], "only what is off");
    let fitting = plain(&sheet(Kind::Fitting, &job, &answer));
    assert!(fitting.contains("466 kg, within tolerance") && fitting.contains("393 mm, off by −11 mm"), "{fitting}");
    assert!(plain(&sheet(Kind::Full, &job, &answer)).contains("393 mm, off by −11 mm"));
    // The customer then sees what was measured: 395.5 mm is 4.5 mm below.
    let text = customer(&job, &answer);
    assert!(text.contains("910 kg, measured") && text.contains("5 mm lower, measured"), "{text}");
    // An axle that is too heavy is a matter of the load, not of its corners.
    (job.fitted.lf, job.fitted.rf) = (kg(486.0), kg(470.0));
    let answer = solve(&job);
    let rules: Vec<&str> = answer.findings.iter().filter(|f| f.rule.starts_with("fitted-")).map(|f| f.rule).collect();
    assert_eq!(rules, ["fitted-axle", "fitted-height"]);
}

/// A line, "name = shown (value). formula; numbers", with the value in front; of a job in inches the numbers without their
/// brackets.
fn metric_first(line: &str, in_inches: bool) -> String {
    let (name, rest) = line.split_once(" = ").unwrap();
    let rest = match in_inches {
        true => rest.replacen("; (", "; ", 1).replacen("). Meaning", ". Meaning", 1),
        false => rest.to_owned(),
    };
    match rest.split_once(" (").zip(rest.split_once("). ")) {
        Some(((shown, _), (told, behind))) if told.contains(" (") && !shown.contains(". ") => {
            format!("{name} = {} ({shown}). {behind}", &told[shown.len() + 2..])
        }
        _ => format!("{name} = {rest}"),
    }
}

/// "466 kg" of "LF = 466 kg": every number put into a formula, by its symbol.
fn put_in(line: &str) -> BTreeMap<String, f64> {
    // A name may have a "; " of its own: what stands behind it is read.
    let inside = line.split_once(". Meaning: ").unwrap().0.split_once(" = ").unwrap().1;
    let Some((_, list)) = inside.rsplit_once("; ").filter(|(_, l)| l.contains(" = ")) else { return BTreeMap::new() };
    let pair = |p: &str| {
        let (symbol, number) = p.rsplit_once(" = ")?;
        Some((symbol.to_owned(), number.split(' ').next()?.replace('−', "-").parse().ok()?))
    };
    list.split(", ").filter_map(pair).collect()
}

/// The result, and half of its last digit.
fn result(line: &str) -> (f64, f64) {
    let number = line.split_once(" = ").unwrap().1.split(' ').next().unwrap().trim_end_matches('.');
    let value: f64 = number.replace('−', "-").parse().unwrap_or_else(|_| panic!("{number} in {line}"));
    // Five figures are meant; zeros at the end are left out.
    (value, if value == 0.0 { 1e-9 } else { 0.51 * 10f64.powi(value.abs().log10().floor() as i32 - 4) })
}

/// A formula as it stands in the working, worked out; `None` without numbers.
fn worked_out(formula: &str, v: &BTreeMap<String, f64>) -> Option<f64> {
    let with: Vec<(&str, f64)> = v.iter().map(|(symbol, value)| (symbol.as_str(), *value)).collect();
    evaluate(formula, &with).filter(|_| !with.is_empty())
}

#[test]
fn a_pocket_calculator_gives_the_same() {
    let (mut checked, mut formulas) = (0, BTreeMap::<String, usize>::new());
    let mut with_numbers = BTreeMap::<String, usize>::new();
    for shipped in kept::shipped() {
        for line in shipped
            .sheet(Kind::Working)
            .blocks
            .iter()
            .filter_map(|b| match b {
                Block::List(l) => Some(l),
                _ => None,
            })
            .flatten()
        {
            if !line.contains(". Meaning: ") {
                continue;
            }
            let line = &metric_first(line, shipped.job.units.in_inches());
            let Some((before, _)) = line.split_once(". Meaning: ") else { continue };
            // "name = value ± u (shown). formula; numbers"
            let rest = before.split_once(" = ").unwrap().1;
            let after_value = rest.split_once(". ").unwrap_or(("", "")).1;
            let numbers = put_in(line);
            let formula = if numbers.is_empty() { after_value } else { after_value.rsplit_once("; ").unwrap().0 };
            if !numbers.is_empty() {
                *with_numbers.entry(formula.to_owned()).or_default() += 1;
            }
            let Some(by_hand) = worked_out(formula, &numbers) else { continue };
            let (value, half_digit) = result(line);
            // Every number put in is rounded to its seventh figure: how far that may move the result.
            let moved = numbers.iter().map(|(symbol, v)| {
                let half = if *v == 0.0 { 0.0 } else { 0.5 * 10f64.powi(v.abs().log10().floor() as i32 - 6) };
                let with = |by: f64| {
                    let mut all = numbers.clone();
                    all.insert(symbol.clone(), v + by);
                    worked_out(formula, &all).unwrap()
                };
                // What is rounded to a whole step does not move with it.
                if formula.contains("round") { 0.0 } else { (with(half) - by_hand).abs() }
            });
            let slack: f64 = moved.sum();
            let off = (by_hand - value).abs();
            assert!(off <= half_digit + slack, "{}: {by_hand} by hand\n{line}", shipped.name);
            checked += 1;
            *formulas.entry(formula.to_owned()).or_default() += 1;
        }
    }
    let never: Vec<&String> = with_numbers.keys().filter(|f| !formulas.contains_key(*f)).collect();
    assert!(never.is_empty(), "numbers, but no formula to put them in: {never:?}");
    assert!(checked > 1500 && formulas.len() >= 60, "{checked} results by {} formulas: {formulas:?}", formulas.len());
}

#[test]
fn seats_are_moved_the_way_that_sets_the_cross_weight_right() {
    let (mut job, _) = preset("demo-orchard-van");
    let kg = |kg: f64| Entry::<Mass>::from(format!("{kg} kg").as_str());
    // Too heavy at LF and RR: RF and LR must be raised.
    (job.after.lf, job.after.rf, job.after.lr, job.after.rr) = (kg(490.0), kg(418.0), kg(315.0), kg(350.0));
    (job.front.thread_pitch, job.rear.thread_pitch) = ("2 mm".into(), Entry::default());
    let answer = solve(&job);
    let text = plain(&sheet(Kind::Fitting, &job, &answer));
    assert!(text.contains("Front: right seat up, left seat down, each by"), "{text}");
    assert!(text.contains("Rear: left seat up, right seat down, each by"), "{text}");
    assert!(text.contains("turns of the collar") && text.contains("of shims"), "{text}");
    let foretold = answer.reweigh.corners.map(|c| c.foretold.unwrap().si());
    let total: f64 = foretold.iter().sum();
    assert!(((foretold[1] + foretold[2]) / total - 0.5).abs() < 1e-9, "{foretold:?}");
    assert!((foretold[0] + foretold[1] - 908.0).abs() < 1e-6, "an axle keeps its weight: {foretold:?}");
    // The other way round.
    (job.after.lf, job.after.rf, job.after.lr, job.after.rr) = (kg(418.0), kg(490.0), kg(350.0), kg(315.0));
    let text = plain(&sheet(Kind::Fitting, &job, &solve(&job)));
    assert!(text.contains("Front: left seat up, right seat down, each by"), "{text}");
    // Within the shop's limit nothing is moved.
    let kept = kept::named("demo-orchard-van");
    assert!(!plain(kept.sheet(Kind::Fitting)).contains("seat up"));
    assert!(!kept.answer().reweigh.cross_set);
}

#[test]
fn a_german_sheet_has_the_same_numbers_with_a_comma() {
    let kept = kept::named("demo-orchard-van");
    let digits = |text: &str| {
        let number = |w: &str| w.trim_matches(|c: char| !c.is_ascii_digit()).replace(',', ".");
        let all = text.split_whitespace().map(number).filter(|n| n.contains('.') && n.parse::<f64>().is_ok());
        all.collect::<std::collections::BTreeSet<_>>()
    };
    let mut job = kept.job.clone();
    job.shop.language = "de".into();
    let told = |kind: Kind| plain(&sheet(kind, &job, kept.answer()));
    for kind in Kind::ALL {
        assert_eq!(digits(&plain(kept.sheet(kind))), digits(&told(kind)), "{kind:?}");
    }
    let german = told(Kind::Full);
    assert!(german.contains("1,24") && !german.contains("1.24"), "{german}");
    let german = told(Kind::Customer);
    assert!(german.contains("1,24") && !german.contains("1.24") && german.contains("616,00 EUR"), "{german}");
}
