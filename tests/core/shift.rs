//! The picture of the job: its marks are the states of the answer, and what is withheld is not in it.

use std::collections::BTreeMap;

use springwright::base::units::{Quantity, UnitChoice};
use springwright::job::{Job, Side, file};
use springwright::report::Block;
use springwright::report::pictures::drawing::Shape;
use springwright::report::pictures::motion::hump;
use springwright::report::pictures::picture::Picture;
use springwright::report::pictures::plans;
use springwright::report::pictures::plans::PLAN_MARKS;
use springwright::report::pictures::plot;
use springwright::report::pictures::shift;
use springwright::report::sheets::plan_table::Plans;
use springwright::solve;
use springwright::solve::answer::{Answer, State};

use crate::common::kept::of_folder;
use crate::common::kept::{self, Kept};

fn demo() -> &'static Kept {
    kept::named("demo-orchard-van")
}

fn points(kept: &Kept, side: Side) -> Vec<(State, [f64; 2])> {
    let picture = shift::shift(kept.answer(), side, &kept.job.units).expect("a picture");
    picture.marks.iter().map(|m| (m.state, m.at)).collect()
}

#[test]
fn the_marks_are_the_states_of_the_answer() {
    for preset in kept::shipped() {
        let answer = preset.answer();
        for side in Side::BOTH {
            let Some(picture) = shift::shift(answer, side, &preset.job.units) else { continue };
            let lead = answer.lead(side).filter(|lead| lead.leads());
            for mark in &picture.marks {
                // What leads in place of new springs is the last one, and has their place.
                if let Some(lead) = lead.filter(|_| mark.state == State::NewSprings) {
                    let stands = lead.stands.expect("known");
                    assert!(lead.raised.is_some(), "{}: nothing is done", preset.name);
                    assert_eq!(mark.at, [stands.frequency.0.si(), stands.height_change.expect("known").0.si()]);
                    assert_eq!(mark.label, "on spacers", "{}", preset.name);
                    continue;
                }
                let stands = answer.axle(side).standing.of(mark.state).as_ref().expect("a state that is known");
                let height = stands.height_change.expect("a height that is known");
                assert_eq!(mark.at, [stands.frequency.si(), height.si()], "{} {side:?}", preset.name);
            }
            assert_eq!(picture.arrows.len() + 1, picture.marks.len(), "{}: from state to state", preset.name);
            for (arrow, pair) in picture.arrows.iter().zip(picture.marks.windows(2)) {
                assert_eq!(*arrow, [pair[0].at, pair[1].at]);
            }
        }
    }
}

/// The demo's front axle: lower and slower on the old springs, back at the old height on the new ones.
#[test]
fn the_load_takes_the_demo_down_and_slows_it() {
    let [(_, before), (_, old), (_, new)] = points(demo(), Side::Front)[..] else { panic!("three states") };
    assert!(old[0] < before[0] && old[1] < before[1] - 0.01, "{before:?} to {old:?}");
    assert!(new[0] > old[0] && (new[1] - before[1]).abs() < 1e-3, "{old:?} to {new:?}");
}

/// The stop lies where the gap ends, whichever state it is measured from: before, the demo has 55 mm left.
#[test]
fn the_stop_is_one_height() {
    let (job, answer) = (&demo().job, demo().answer());
    let (at_m, _) = shift::shift(answer, Side::Front, &job.units).and_then(|p| p.below).expect("a stop");
    for state in State::ALL {
        let stands = answer.axle(Side::Front).standing.of(state).as_ref().expect("known");
        let here = stands.height_change.expect("known").si() - stands.stop_room.expect("known").si();
        assert!((here - at_m).abs() < 1e-9, "{state:?}: {here} instead of {at_m}");
    }
}

#[test]
fn what_is_withheld_or_kept_has_no_mark_of_new_springs() {
    for (kept, side) in [(of_folder("withheld/ratio-turned"), Side::Front), (demo(), Side::Rear)] {
        assert!(points(kept, side).iter().all(|(state, _)| *state != State::NewSprings), "{side:?}");
    }
}

#[test]
fn its_data_and_its_drawing_hold_range_and_stop() {
    let job = &demo().job;
    let picture = shift::shift(demo().answer(), Side::Front, &job.units).expect("a picture");
    let table = plot::csv(&picture, &UnitChoice::metric()).expect("written");
    assert_eq!(table.lines().filter(|l| l.starts_with("mark,")).count(), 3);
    assert_eq!(table.lines().filter(|l| l.starts_with("range,target,")).count(), 2);
    assert_eq!(table.lines().filter(|l| l.starts_with("limit,")).count(), 1);
    let areas = |picture: &Picture| {
        let shapes = plot::drawing(picture, &job.units).shapes;
        shapes.iter().filter(|s| matches!(s, Shape::Area { .. })).count()
    };
    let mut bare = picture.clone();
    (bare.arrows, bare.below, bare.wanted_across) = (Vec::new(), None, None);
    // Two heads of arrows, the stop, the range.
    assert_eq!(areas(&picture), areas(&bare) + 4);
}

fn planned() -> Job {
    file::read(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/versions/2-plans.ron")).expect("a job")
}

/// Marks of other plans are where those plans, chosen, bring the axle; what coincides with a mark has none of its own.
#[test]
fn other_plans_have_marks_of_their_own_where_they_bring_the_axle() {
    let job = planned();
    let answer = solve::solve(&job);
    let plans = Plans::of(&job, &answer, || true).expect("plans");
    let others = plans.others();
    assert!((1..=PLAN_MARKS.len()).contains(&others.len()), "{}", others.len());
    let (mut marks, mut solved) = (0, BTreeMap::new());
    for side in Side::BOTH {
        let Some(picture) = shift::shift(&answer, side, &job.units) else { continue };
        let with = plans::in_shift(&picture, side, &others);
        assert_eq!((&with.marks, &with.title, &with.arrows), (&picture.marks, &picture.title, &picture.arrows));
        for plan in &with.plans {
            marks += 1;
            let which = job.plan_named(&plan.label).unwrap_or_else(|| panic!("no plan {}", plan.label));
            let own = solved.entry(plan.label.clone()).or_insert_with(|| solve::solve(&job.on_plan(which)));
            let axle = own.axle(side);
            let stands = if axle.is_refitted() { &axle.standing.new } else { &axle.standing.old };
            let stands = stands.as_ref().expect("known");
            assert_eq!(plan.at, [stands.frequency.si(), stands.height_change.expect("known").si()]);
            assert!(!with.marks.iter().any(|mark| mark.at == plan.at), "{} covers a mark", plan.label);
        }
        let table = plot::csv(&with, &job.units).expect("written");
        assert_eq!(table.lines().filter(|l| l.starts_with("plan,")).count(), with.plans.len());
        let drawn = plot::drawing(&with, &job.units);
        for plan in &with.plans {
            let is_said = |s: &&Shape| matches!(s, Shape::Words { text, .. } if *text == plan.label);
            assert!(drawn.flat().iter().any(is_said), "{} is not named", plan.label);
        }
    }
    assert!(marks > 0, "no plan is seen");
    let hump =
        hump::after_hump(&answer, &job.units).map(|picture| plans::after_hump(&picture, &answer, &others).into_owned());
    let hump = hump.expect("a hump");
    assert!(!hump.plans.is_empty() && hump.plans.iter().all(|plan| !plan.lines.is_empty()), "{:?}", hump.plans.len());
    for plan in &hump.plans {
        assert!(plan.lines.iter().any(|line| line.points.contains(&plan.at)), "its mark is on its line");
    }
}

#[test]
fn the_sheet_with_the_table_of_plans_has_their_pictures() {
    let drawings = |job: &Job, answer: &Answer| {
        let report = springwright::report::sheets::sheet::build(job, answer);
        report.blocks.iter().filter(|block| matches!(block, Block::Drawing(_))).count()
    };
    let planned = planned();
    let of_planned = drawings(&planned, &solve::solve(&planned));
    assert_eq!((of_planned, drawings(&demo().job, demo().answer())), (2, 0));
}
