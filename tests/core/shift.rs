//! The picture of the job: its marks are the states of the answer, and what is withheld is not in it.

use springwright::base::units::{Quantity, UnitChoice};
use springwright::job::{Job, Side, file};
use springwright::report::pictures::drawing::Shape;
use springwright::report::pictures::picture::Picture;
use springwright::report::pictures::plot;
use springwright::report::pictures::shift;
use springwright::shop::presets;
use springwright::solve;
use springwright::solve::answer::State;

fn points(job: &Job, side: Side) -> Vec<(State, [f64; 2])> {
    let answer = solve::solve(job);
    let picture = shift::shift(&answer, side, &job.units).expect("a picture");
    picture.marks.iter().map(|m| (m.state, m.at)).collect()
}

#[test]
fn the_marks_are_the_states_of_the_answer() {
    for preset in presets::PRESETS {
        let job = preset.job();
        let answer = solve::solve(&job);
        for side in Side::BOTH {
            let Some(picture) = shift::shift(&answer, side, &job.units) else { continue };
            for mark in &picture.marks {
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
    let [(_, before), (_, old), (_, new)] = points(&presets::demo(), Side::Front)[..] else { panic!("three states") };
    assert!(old[0] < before[0] && old[1] < before[1] - 0.01, "{before:?} to {old:?}");
    assert!(new[0] > old[0] && (new[1] - before[1]).abs() < 1e-3, "{old:?} to {new:?}");
}

/// The stop lies where the gap ends, whichever state it is measured from: before, the demo has 55 mm left.
#[test]
fn the_stop_is_one_height() {
    let job = presets::demo();
    let answer = solve::solve(&job);
    let (at_m, _) = shift::shift(&answer, Side::Front, &job.units).and_then(|p| p.below).expect("a stop");
    for state in State::ALL {
        let stands = answer.axle(Side::Front).standing.of(state).as_ref().expect("known");
        let here = stands.height_change.expect("known").si() - stands.stop_room.expect("known").si();
        assert!((here - at_m).abs() < 1e-9, "{state:?}: {here} instead of {at_m}");
    }
}

#[test]
fn what_is_withheld_or_kept_has_no_mark_of_new_springs() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/withheld/ratio-turned.ron");
    let withheld = file::read(&path).expect("a job");
    for (job, side) in [(withheld, Side::Front), (presets::demo(), Side::Rear)] {
        assert!(points(&job, side).iter().all(|(state, _)| *state != State::NewSprings), "{side:?}");
    }
}

#[test]
fn its_data_and_its_drawing_hold_range_and_stop() {
    let job = presets::demo();
    let picture = shift::shift(&solve::solve(&job), Side::Front, &job.units).expect("a picture");
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
