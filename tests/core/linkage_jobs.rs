//! Linkages through whole jobs: worked cases C5 to C7 as job files, every ±, points beside rows, what is named.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use crate::common::kept::of_folder;

use std::path::Path;
use std::time::Instant;

use springwright::base::units::{Quantity, Spread};
use springwright::job::{Job, Level, RatioBy, RatioRow, Side, Suspension, Walk};
use springwright::report::results::{Figure, figures};
use springwright::solve::answer::Answer;
use springwright::solve::{solve, solve_values};

fn job(case: &str) -> Job {
    of_folder(&format!("cases/{case}")).job.clone()
}

fn expected(case: &str) -> serde_json::Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/measuring.json");
    let all: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(path).expect("the cases")).expect("JSON");
    all[case]["expected"].clone()
}

/// Every coordinate of an axle's linkage known to 2 mm, standard.
fn two_millimetres(job: &mut Job, side: Side) {
    let linkage = format!("{}.linkage.", side.key());
    job.walk_mut(&mut String::new(), &mut |path, entry| {
        if path.starts_with(&linkage) && (path.ends_with(".out") || path.ends_with(".up")) {
            entry.set_pm("2 mm", Spread::Standard);
        }
    });
}

fn figure<'a>(figures: &'a [Figure], key: &str) -> &'a Figure {
    figures.iter().find(|f| f.key == key).unwrap_or_else(|| panic!("no result {key}"))
}

#[track_caller]
fn near(what: &str, got: Option<f64>, want: f64, relative: f64, absolute: f64) {
    let got = got.unwrap_or_else(|| panic!("{what} is not known"));
    assert!((got - want).abs() <= relative * want.abs() + absolute, "{what}: got {got}, want {want}");
}

/// C5, C6 and the rear of C7: ratio, wheel rate, frequency, roll centre and every ± as in the case.
#[test]
fn worked_cases_from_job_files() {
    for (name, case, side) in [("c5", "C5", Side::Front), ("c6", "C6", Side::Front), ("c7", "C7", Side::Rear)] {
        let mut job = job(name);
        two_millimetres(&mut job, side);
        let (answer, want) = (solve(&job), expected(case));
        let number = |key: &str| want[key].as_f64().unwrap_or_else(|| panic!("{case} {key}"));
        let figures = figures(&answer);
        let of = |key: &str| figure(&figures, &format!("{}.{key}", side.key()));
        near(case, of("motion_ratio").si, number("z+0mm.spring_ratio"), 0.0, 1e-5);
        near(case, of("linkage.spring.by_points").si, number("z+0mm.spring_ratio"), 0.0, 1e-5);
        near(case, of("damper_motion_ratio").si, number("z+0mm.damper_ratio"), 0.0, 1e-5);
        near(case, of("ratio_slope").si, number("z+0mm.spring_ratio_slope_per_m"), 1e-3, 1e-4);
        near(case, of("motion_ratio").u_si, number("u.spring_ratio"), 2e-3, 0.0);
        near(case, of("linkage.reference.roll_centre").si, number("z+0mm.roll_centre_height_m"), 1e-3, 2e-5);
        let swing_arm = 1.0 / number("z+0mm.swing_arm_per_m");
        near(case, of("linkage.reference.swing_arm").si, swing_arm, 1e-3, 0.0);
        if case == "C5" {
            near(case, of("linkage.reference.roll_centre").u_si, number("u.roll_centre_height_m"), 5e-3, 0.0);
        }
        near(case, of("old_springs.wheel_rate").si, number("wheel_rate_N_per_m"), 1e-3, 0.0);
        near(case, of("old_springs.frequency").si, number("frequency_hz"), 1e-3, 0.0);
    }
    let (answer, want) = (of_folder("cases/c7").answer(), expected("C7"));
    let figures = figures(answer);
    let front = figure(&figures, "front.motion_ratio");
    near("arm", front.si, want["arm.ratio_centre_unknown"].as_f64().expect("r"), 0.0, 1e-5);
    near("arm", front.u_si, want["arm.u_centre_unknown"].as_f64().expect("u"), 2e-3, 0.0);
    assert_eq!(figure(&figures, "front.ratio_slope").si, None, "an arm says nothing about r′");
}

/// The instant centre of C7's front arm, typed.
#[test]
fn the_instant_centre_says_how_far_the_joint_rises() {
    let mut job = job("c7");
    let at = &mut job.front.linkage;
    (at.lower_outer.out, at.wheel.out, at.instant_centre) = ("680 mm".into(), "780 mm".into(), "-1100 mm".into());
    let r = solve(&job).axle(Side::Front).motion_ratio.map(Quantity::si);
    near("r", r, expected("C7")["arm.ratio"].as_f64().expect("r"), 0.0, 1e-5);
}

/// A job by points and no rows gives every result that the same job by rows gives: lengths of the same linkage.
#[test]
fn points_give_what_rows_give() {
    let by_points = of_folder("cases/c5");
    let curve = &by_points.answer().axle(Side::Front).standing.old.as_ref().expect("it stands").curve;
    let mut by_rows = by_points.job.clone();
    let rows = |of: &springwright::trade::wheel::LengthCurve| {
        [-75.0, -50.0, -25.0, 0.0, 25.0, 50.0, 75.0]
            .map(|mm| {
                let z = springwright::base::units::Length::from_si(mm / 1e3);
                let length = format!("{:.4} mm", of.length(z).si() * 1e3);
                RatioRow { wheel: format!("{mm} mm").as_str().into(), length: length.as_str().into() }
            })
            .to_vec()
    };
    (by_rows.front.ratio.by, by_rows.front.ratio.rows) = (RatioBy::Rows, rows(&curve.spring_length));
    (by_rows.front.damper_ratio.by, by_rows.front.damper_ratio.rows) = (RatioBy::Rows, rows(&curve.damper_length));
    by_rows.front.linkage = Default::default();
    let known = |answer: &Answer| -> Vec<String> {
        figures(answer).into_iter().filter(|f| f.si.is_some()).map(|f| f.key).collect()
    };
    let (with_points, with_rows) = (known(by_points.answer()), known(&solve(&by_rows)));
    let lacking: Vec<_> = with_rows.iter().filter(|k| !with_points.contains(k)).collect();
    assert!(lacking.is_empty(), "known by rows, not by points: {lacking:?}");
    // And more: the wheel.
    assert!(with_points.iter().any(|k| k == "front.linkage.new_springs.camber"));
}

/// Rows of another linkage beside the points: both are told, and the coordinate that would explain it.
#[test]
fn points_and_rows_that_disagree_are_named() {
    let mut job = job("c5");
    job.front.ratio.rows = [-60.0, -30.0, 0.0, 30.0, 60.0]
        .map(|mm| RatioRow {
            wheel: format!("{mm} mm").as_str().into(),
            length: format!("{:.2} mm", 342.6 - 0.63 * mm).as_str().into(),
        })
        .to_vec();
    let answer = solve(&job);
    let finding = answer.findings.iter().find(|f| f.rule == "ratio-ways-apart").expect("they disagree");
    assert!(
        finding.text.to_string().contains("Measure first: Front, ") && finding.text.to_string().contains("13 %"),
        "{}",
        finding.text
    );
    // The same rows as the points say: nothing to be said.
    for (row, mm) in job.front.ratio.rows.iter_mut().zip([-60.0, -30.0, 0.0, 30.0, 60.0]) {
        row.length = format!("{:.2} mm", 342.63 - 0.5594 * mm - 0.5 * 0.0587 * mm * mm / 1e3).as_str().into();
    }
    let answer = solve(&job);
    assert!(answer.findings.iter().all(|f| f.rule != "ratio-ways-apart"));
}

fn rules(answer: &Answer) -> Vec<&str> {
    answer.findings.iter().map(|f| f.rule).collect()
}

#[test]
fn impossible_linkages_are_said_and_nothing_is_ordered() {
    let mut swapped = job("c5");
    let at = &mut swapped.front.linkage;
    std::mem::swap(&mut at.lower_inner, &mut at.lower_outer);
    let answer = solve(&swapped);
    let found = answer.findings.iter().find(|f| f.rule == "linkage-impossible").expect("said");
    assert_eq!((found.level, found.field.as_str()), (Level::Error, "front.linkage.lower_inner.out"));
    assert!(found.text.to_string().contains('C') && found.text.to_string().contains('D'), "{}", found.text);
    assert!(answer.axle(Side::Front).motion_ratio.is_none());
    // One click puts each into the other's place.
    assert_eq!(found.mends.iter().map(|m| m.label.to_string()).collect::<Vec<_>>(), ["Swap C and D"]);
    swapped.mend(&found.mends[0]).expect("applies");
    assert_eq!(swapped, job("c5"));
    // Not offered where it would leave no linkage either.
    let mut inside_out = job("c5");
    let at = &mut inside_out.front.linkage;
    std::mem::swap(&mut at.lower_inner, &mut at.lower_outer);
    at.upper_outer = at.upper_inner.clone();
    let answer = solve(&inside_out);
    let found = answer.findings.iter().find(|f| f.rule == "linkage-impossible").expect("said");
    assert!(found.mends.is_empty(), "{:?}", found.mends);
    // What guides the wheel is not said.
    let mut unsaid = job("c5");
    unsaid.front.suspension = Suspension::NotSaid;
    assert!(rules(&solve(&unsaid)).contains(&"linkage-unknown"));
    // A short upper arm locks inside the travel.
    let mut locks = job("c5");
    locks.front.linkage.upper_inner = springwright::job::Place { out: "22.4 in".into(), up: "19.9 in".into() };
    let answer = solve(&locks);
    assert!(rules(&answer).contains(&"linkage-locks"), "{:?}", rules(&answer));
    // The spring's fitted length is another one.
    let mut settled = job("c5");
    settled.front.spring.fitted_length = "12 1/2 in".into();
    assert!(rules(&solve(&settled)).contains(&"points-not-at-ride-height"));
}

/// The ± of r by moving each coordinate agrees with solving again with the coordinate itself retyped, within 2 %.
#[test]
fn every_coordinate_moves_the_ratio_as_solving_again_does() {
    let mut base = job("c5");
    two_millimetres(&mut base, Side::Front);
    let answer = solve(&base);
    let ratio = |answer: &Answer| answer.axle(Side::Front).motion_ratio.expect("r").si();
    let mut looked_at = 0;
    for nudged in answer.checked(Side::Front).nudged.iter() {
        if !nudged.path.starts_with("front.linkage.") || nudged.path.contains("rod_") {
            continue;
        }
        let by_moving = nudged.up.motion_ratio.expect("r").si() - nudged.down.motion_ratio.expect("r").si();
        let again = [2e-3, -2e-3].map(|by| {
            let mut job = base.clone();
            let decimal = job.decimal;
            let metres =
                job.at_mut(&nudged.path).expect("a field").number(decimal).expect("a number").expect("typed").si();
            assert!(job.set_text(&nudged.path, &format!("{:.6} m", metres + by)));
            ratio(&solve(&job))
        });
        let by_solving = again[0] - again[1];
        assert!((by_moving - by_solving).abs() <= 0.02 * by_solving.abs() + 1e-9, "{}", nudged.path);
        looked_at += 1;
    }
    assert!(looked_at >= 18, "{looked_at} coordinates");
}

/// Not a bound: what it takes in this build, printed. The bound is that of `cargo bench --bench solve`.
#[test]
fn points_on_both_axles_take_little_time() {
    let mut job = job("c5");
    job.rear = job.front.clone();
    let time = |run: &dyn Fn()| {
        let start = Instant::now();
        (0..5).for_each(|_| run());
        start.elapsed() / 5
    };
    let values = time(&|| drop(solve_values(&job)));
    let all = time(&|| drop(solve(&job)));
    println!("points on both axles: values {values:?}, every ± {all:?}");
    assert!(values.as_millis() < 100 && all.as_secs() < 5);
}
