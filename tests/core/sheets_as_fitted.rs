//! Sheets of what is fitted and of what stays: targets that the fitter can read off, parts that are ordered as they are
//! sold, pictures and working of old springs that stay.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::base::language::{Language, Voice, speak};
use springwright::base::units::Quantity;
use springwright::job::{BagFitted, Coaxial, Plan, Side, SpringKind, Suspension};
use springwright::report::Block;
use springwright::report::pictures::drawing::{Fill, Shape, spring_line};
use springwright::report::results::{Results, figures};
use springwright::report::sheets::Kind;
use springwright::report::sheets::procedure::{Construction, Part, Renew};
use springwright::solve::solve;

use crate::common::kept;
use crate::common::sheets::{everything, plain, sheet, tables};

/// "1059 lb" as a number; `None` for a blank.
fn number(cell: &str) -> Option<f64> {
    cell.split_whitespace().next()?.replace('−', "-").replace('+', "").parse().ok()
}

/// The springs of this job are sized on a load that is not on the scales when the fitter measures.
#[test]
fn targets_are_those_of_the_load_on_the_scales() {
    let kept = kept::named("tow-load");
    let results: Results = figures(kept.answer()).into();
    let of = |key: &str| results.find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key}"));
    for (springs, state) in [("old", "old_springs"), ("new", "new_springs")] {
        let case = of(&format!("as_weighed.front.{state}.stop_room"));
        let own = of(&format!("front.on_scales.{springs}_stop_room"));
        assert!((case - own).abs() < 1e-9, "{springs}: {case} {own}");
        assert!((of(&format!("front.{state}.stop_room")) - own).abs() > 2e-3, "{springs}: sized with more aboard");
    }
    let length = of("front.on_scales.new_spring_length") - of("front.new_springs.spring_length");
    let travel = of("front.on_scales.new_stop_room") - of("front.new_springs.stop_room");
    assert!((length / travel - of("front.motion_ratio")).abs() < 0.01, "{length} {travel}");
    let text = plain(kept.sheet(Kind::Fitting));
    assert!(text.contains("as wheel travel 1 5/8 in 2 9/16 in"), "{text}");
}

#[test]
fn without_another_load_targets_are_the_results() {
    let mut seen = 0;
    for shipped in kept::shipped() {
        let answer = shipped.answer();
        let results: Results = figures(answer).into();
        let of = |key: String| results.find(&key).and_then(|f| f.si);
        for axle in answer.axles.iter().filter(|a| a.masses.stood.after == a.masses.sprung.after) {
            let side = axle.side.key();
            for what in ["stop_room", "spring_length"] {
                let own = of(format!("{side}.new_springs.{what}"));
                let target = of(format!("{side}.on_scales.new_{what}"));
                let Some((own, target)) = own.zip(target) else { continue };
                assert!((own - target).abs() < 1e-9, "{}, {side}, {what}: {own} {target}", shipped.name);
                seen += 1;
            }
        }
    }
    assert!(seen > 20, "{seen}");
}

#[test]
fn side_to_side_is_the_difference_of_the_rows_above() {
    let mut seen = 0;
    for shipped in kept::shipped() {
        for (_, rows) in tables(shipped.sheet(Kind::Fitting)) {
            for (end, name) in [("front", "Front, left minus right"), ("rear", "Rear, left minus right")] {
                let Some(apart) = rows.iter().find(|row| row[0] == name) else { continue };
                let row = |side: &str| rows.iter().find(|row| row[0] == format!("{side} {end}")).expect("both sides");
                for column in [1, 2] {
                    let [left, right] = ["Left", "Right"].map(|side| number(&row(side)[column]));
                    let Some((left, right)) = left.zip(right) else { continue };
                    assert_eq!(number(&apart[column]), Some(left - right), "{}: {name}: {rows:?}", shipped.name);
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 10, "{seen}");
}

#[test]
fn order_and_fitting_sheet_have_the_same_corners() {
    let mut seen = 0;
    for shipped in kept::shipped() {
        let answer = shipped.answer();
        let rows: Vec<_> = tables(shipped.sheet(Kind::Fitting)).into_iter().flat_map(|t| t.1).collect();
        let Some(target) = rows.iter().find(|row| row[0] == "Left front").and_then(|row| number(&row[2])) else {
            continue;
        };
        let text = plain(shipped.sheet(Kind::Order));
        if !text.contains("Notes") || !answer.axles.iter().any(|a| a.sizing.is_some()) {
            continue;
        }
        let said = text.contains(&format!("left front {target} ")) || answer.axles.iter().all(|a| a.keeps());
        assert!(said || !text.contains("should carry"), "{}: {target}: {text}", shipped.name);
        assert!(!text.contains("load on each corner is not known"), "{}: {text}", shipped.name);
        seen += usize::from(said);
    }
    assert!(seen > 5, "{seen}");
    let order = |name: &str| plain(kept::named(name).sheet(Kind::Order));
    assert!(order("ledger-first").contains("with the predicted load"));
    assert!(order("axle-weights-only").contains("load on each corner is not known"));
}

/// Pressure times area at the height at which it was set, with constant area.
#[test]
fn an_air_bag_that_is_sold_is_ordered_and_fitted() {
    let kept = kept::named("air-helper-bag");
    let answer = kept.answer();
    let results: Results = figures(answer).into();
    let of = |key: &str| results.find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key}"));
    let helper = answer.axle(Side::Rear).standing.new.as_ref().unwrap().curve.helper.unwrap();
    let at = answer.axle(Side::Rear).standing.new.as_ref().unwrap().travel.si();
    assert!((helper.set_at_m - at).abs() < 1e-6, "set at ride height");
    assert!((of("rear.bag.force") - helper.bag.gauge_pa * helper.bag.area_m2).abs() < 0.5);
    assert!((of("rear.bag.pressure") - helper.bag.gauge_pa).abs() < 1.0);
    // p V^n constant: at full bump it has lost area times its own travel.
    let volume_m3 = helper.bag.volume_m3 - helper.bag.area_m2 * of("rear.bag.shortens")
        + 0.5 * helper.bag.area_slope_m * of("rear.bag.shortens").powi(2);
    let bump_pa = (helper.bag.gauge_pa + 101_325.0) * (helper.bag.volume_m3 / volume_m3).powf(helper.bag.exponent);
    assert!((of("rear.bag.pressure_at_metal") / (bump_pa - 101_325.0) - 1.0).abs() < 1e-6, "{bump_pa}");
    let [order, fitting] = [Kind::Order, Kind::Fitting].map(|kind| plain(kept.sheet(kind)));
    assert!(order.contains("Rear air bags") && order.contains("1.5 bar"), "{order}");
    assert!(fitting.contains("fill them to the maker's minimum pressure"), "{fitting}");
    let mut job = kept.job.clone();
    job.rear.bag.fitted = BagFitted::No;
    let answer = solve(&job);
    for kind in [Kind::Order, Kind::Fitting] {
        let text = plain(&sheet(kind, &job, &answer));
        assert!(!text.contains("Rear air bags") && !text.contains("Fit the air bags"), "{text}");
    }
}

/// Common practice, no source: a bag that is there is empty before anything is freed, and filled on the wheels only.
#[test]
fn air_bags_are_empty_while_anything_is_loose() {
    for suspension in Suspension::ALL {
        for kind in SpringKind::ALL {
            let construction = Construction::new(suspension, kind, Coaxial::NotSaid);
            let of =
                |bags| construction.procedure(Renew { springs: Part::New, dampers: Part::New, bags, roll_bar: false });
            let there = of(BagFitted::Always);
            let at = |text: &str| there.steps.iter().position(|s| s.text == text);
            let first_freed = there.steps.iter().position(|s| s.frees.iter().any(|f| format!("{f:?}") != "Wheel"));
            assert!(at("proc.bag_empty").expect("emptied") < first_freed.expect("freed"), "{construction:?}");
            let new = of(BagFitted::WithNew);
            let at = |text: &str| new.steps.iter().position(|s| s.text == text).expect(text);
            assert!(at("proc.bag_in") < at("proc.wheels_on") && at("proc.wheels_on") < at("proc.bag_fill"));
            assert!(at("proc.bag_fill") < at("proc.weigh"));
            assert!(of(BagFitted::No).steps.iter().all(|s| !s.text.starts_with("proc.bag")));
            let has_bar_height = new.steps.iter().any(|s| s.text == "proc.bar_height");
            assert_eq!(has_bar_height, kind == SpringKind::TorsionBar, "{construction:?}");
        }
    }
}

#[test]
fn the_brief_of_springs_that_stay_names_none_to_buy() {
    let mut seen = 0;
    for shipped in kept::shipped() {
        let (job, report) = (&shipped.job, shipped.sheet(Kind::WorkingBrief));
        for (head, rows) in tables(report) {
            let mut names: Vec<_> = rows.iter().map(|row| &row[0]).collect();
            names.sort();
            names.dedup();
            assert_eq!(names.len(), rows.len(), "{}: {head:?}: {rows:?}", shipped.name);
        }
        let items: Vec<&String> = report
            .blocks
            .iter()
            .filter_map(|b| if let Block::List(items) = b { Some(items) } else { None })
            .flatten()
            .collect();
        for side in Side::BOTH.into_iter().filter(|s| job.axle(*s).plan == Plan::Keep) {
            if !job.axle(side).spacer.is_blank() {
                continue;
            }
            let own: Vec<_> = items.iter().filter(|i| i.starts_with(&format!("{}: ", side.key()))).collect();
            let bought =
                own.iter().find(|i| ["to order", "nearest the", "the new springs"].iter().any(|w| i.contains(w)));
            assert!(bought.is_none(), "{}: {bought:?}", shipped.name);
            seen += usize::from(!own.is_empty());
        }
    }
    assert!(seen > 5, "{seen}");
}

/// Words of the zone on the bump stop stand inside it, in both languages, on every customer's sheet that shows it.
#[test]
fn words_of_the_stop_stand_in_its_zone() {
    let mut seen = 0;
    for language in [Language::English, Language::German] {
        let _voice = speak(Voice { language, ..Voice::default() });
        for shipped in kept::shipped() {
            let mut job = shipped.job.clone();
            job.shop.language = language.key().to_owned();
            for block in sheet(Kind::Customer, &job, shipped.answer()).blocks {
                let Block::Drawing(drawing) = block else { continue };
                let zone = drawing.shapes.iter().find_map(|shape| match shape {
                    Shape::Area { corners, fill: Fill::Middle, .. } => Some(corners.clone()),
                    _ => None,
                });
                let Some(zone) = zone else { continue };
                let (top, bottom) = (zone[0][1], zone[2][1]);
                let words = drawing.shapes.iter().find_map(|shape| match shape {
                    Shape::Words { text, at, .. }
                        if ["on the bump stop", "auf dem Puffer"].contains(&text.as_str()) =>
                    {
                        Some(*at)
                    }
                    _ => None,
                });
                let [x, y] = words.expect("its words");
                let is_inside = y <= bottom && y - 2.0 >= top && x >= zone[0][0];
                assert!(is_inside, "{} {language:?}: {y} in {top} to {bottom}", shipped.name);
                seen += 1;
            }
        }
    }
    assert!(seen > 6, "{seen}");
}

#[test]
fn a_spring_is_drawn_as_its_kind_between_body_and_axle() {
    for kind in SpringKind::ALL {
        let lines = spring_line(kind, [10.0, 15.0], [20.0, 34.0]);
        let points: Vec<[f32; 2]> = lines.iter().flatten().copied().collect();
        let (top, bottom) = points.iter().fold((f32::MAX, f32::MIN), |(t, b), p| (t.min(p[1]), b.max(p[1])));
        assert!((top - 20.0).abs() < 0.01 && (bottom - 34.0).abs() < 0.01, "{kind:?}: {top} {bottom}");
        let count = match kind {
            SpringKind::Leaf => 4,
            SpringKind::TorsionBar => 2,
            _ => 1,
        };
        assert_eq!(lines.len(), count, "{kind:?}");
    }
}

/// The full diamond is the mark of springs to buy.
#[test]
fn springs_that_stay_have_the_mark_of_the_old_ones() {
    let kept = kept::named("points-strut");
    assert_eq!(kept.job.rear.plan, Plan::Keep);
    for block in &kept.sheet(Kind::Customer).blocks {
        let Block::Drawing(drawing) = block else { continue };
        let black = drawing.shapes.iter().filter(|s| matches!(s, Shape::Area { fill: Fill::Black, .. })).count();
        assert_eq!(black, 0, "nothing new on this vehicle");
    }
    let text = everything(kept::named("leaf-rear").sheet(Kind::Customer).clone());
    assert!(!text.contains("spacer"), "a leaf is raised by blocks: {text}");
}

/// New springs of unknown length are at no height yet.
#[test]
fn a_height_that_is_not_known_is_not_promised() {
    let text = plain(kept::named("first-answer").sheet(Kind::Fitting));
    assert!(!text.contains("0 mm more") && !text.contains("0 mm less"), "{text}");
}

/// Two axles of different construction: measured before the first is lifted, weighed and checked after the last.
#[test]
fn two_axles_are_measured_once_and_weighed_once() {
    let fitting = kept::named("strut-front").sheet(Kind::Fitting);
    let orders: Vec<&Vec<String>> =
        fitting.blocks.iter().filter_map(|b| if let Block::Steps(steps) = b { Some(steps) } else { None }).collect();
    assert_eq!(orders.len(), 2, "an order of work for each axle");
    let says = |order: usize, key: &str| orders[order].contains(&crate::common::sheets::english(key));
    assert!(says(0, "proc.measure") && !says(1, "proc.measure") && says(1, "proc.chock"));
    for key in ["proc.weigh", "proc.checks"] {
        assert!(!says(0, key) && says(1, key), "{key}");
    }
}

/// Common practice, no source: a helper and its ring go back where they were; a bar's adjuster is locked once it is set.
#[test]
fn what_was_noted_goes_back_and_what_is_set_is_locked() {
    let renew = Renew { springs: Part::New, dampers: Part::Stays, bags: BagFitted::No, roll_bar: false };
    for suspension in Suspension::ALL {
        let of = |kind| Construction::new(suspension, kind, Coaxial::NotSaid).procedure(renew);
        let helper = of(SpringKind::WithHelper);
        let at = |text: &str| helper.steps.iter().position(|s| s.text == text);
        assert!(at("proc.note.helper").expect("noted") < at("proc.helper_in").expect("fitted"), "{suspension:?}");
        let bar = of(SpringKind::TorsionBar);
        let set = bar.steps.iter().position(|s| s.text == "proc.bar_lock").expect("set") + 1;
        let locked = bar.torques().into_iter().find(|t| t.place.key() == "torque.bar_lock").expect("locked");
        assert_eq!(locked.step, set, "{suspension:?}");
    }
}
