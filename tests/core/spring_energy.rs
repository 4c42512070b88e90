//! Stiffness as the second derivative of the energy that springs store: a beam axle in roll, a coil beyond its table.
//!
//! The numbers are those of two jobs recomputed by an independent reference; beside each stands the derivation (DERIVED).
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use springwright::base::units::{G_M_PER_S2, Quantity};
use springwright::job::{Job, Side, file};
use springwright::solve::solve;
use springwright::trade::spring::{Points, Spring};

/// Rear beam axle: 340 kg sprung a corner, rows −60/348.54, 0/300, 60/249.66 mm, 30 N/mm on a base of 1000 mm.
fn beam(more: &str) -> Job {
    let text = format!(
        r#"(version: 1, job: (vehicle: (wheelbase: "2700 mm"),
            before: (lf: "400 kg", rf: "400 kg", lr: "400 kg", rr: "400 kg"),
            after: (lf: "400 kg", rf: "400 kg", lr: "400 kg", rr: "400 kg"),
            front: (plan: Keep, track: "1500 mm", unsprung: "40 kg", ratio: (wheel_moved: "100 mm", part_moved: "60 mm"),
                spring: (rate: "50 N/mm")),
            rear: (kind: Beam, plan: Keep, track: "1500 mm", spring_base: "1000 mm", unsprung: "60 kg",
                ratio: (by: Rows, rows: [(wheel: "-60 mm", length: "348.54 mm"), (wheel: "0 mm", length: "300 mm"),
                    (wheel: "60 mm", length: "249.66 mm")]),
                spring: (rate: "30 N/mm"), {more})))"#
    );
    file::parse(&text).unwrap_or_else(|e| panic!("{e} in {text}"))
}

fn rear_roll(job: &Job) -> f64 {
    let answer = solve(job);
    let roll = answer.whole.roll.old.expect("tracks, base and wheelbase are typed");
    roll.springs.rear.si()
}

/// Energy of both springs at a roll angle, each at ± φ b/2 of travel along L(z) = 300 − 0.824 z − 0.00025 z² (mm).
fn energy_j(phi: f64, base_m: f64) -> f64 {
    let force_n = 340.0 * G_M_PER_S2 / 0.824;
    let free_m = 0.3 + force_n / 30e3;
    let length_m = |z: f64| 0.3 - 0.824 * z - 0.25 * z * z;
    [1.0, -1.0].into_iter().map(|side| 0.5 * 30e3 * (free_m - length_m(side * phi * base_m / 2.0)).powi(2)).sum()
}

/// k_s r² t_s²/2 = 30 000 · 0.824² · 1²/2 = 10 184.6 and F_s r′ t_s²/2 = 4 046.4 · 0.5 · 1²/2 = 1 011.6 N·m/rad.
#[test]
fn the_geometry_term_of_a_beam_axle_acts_on_the_spring_base() {
    let found = rear_roll(&beam(""));
    assert!((found - 11_196.2).abs() < 0.1, "{found}");
    let h = 1e-3;
    let second = (energy_j(h, 1.0) - 2.0 * energy_j(0.0, 1.0) + energy_j(-h, 1.0)) / (h * h);
    assert!((found - second).abs() < 1e-3 * second, "{found} against {second} by differences of energy");
}

/// Bag, gas and stop act on bases of their own: what each adds goes with the square of its base; twist is added.
#[test]
fn bags_stops_and_gas_of_a_beam_axle_act_on_their_own_bases() {
    for (part, field) in [
        (r#"bag: (fitted: Always, area: "50 cm²", volume: "900 cm³", pressure: "2 bar""#, "base"),
        (r#"travel: (stop_gap: "-10 mm"), stop: (rate: "40 N/mm""#, "base"),
    ] {
        let on = |base: &str| rear_roll(&beam(&format!(r#"{part}, {field}: "{base}")"#)));
        let (narrow, springs, wide) = (on("500 mm"), on("1000 mm"), on("1500 mm"));
        // K = rest + ½ k b²: equal second differences in b².
        let half_k = (springs - narrow) / (1.0 - 0.25);
        assert!(half_k > 1_000.0, "{part}: {half_k}");
        assert!((wide - springs - half_k * (2.25 - 1.0)).abs() < 1e-6 * wide, "{part}: {narrow} {springs} {wide}");
        let blank = rear_roll(&beam(&format!("{part})")));
        assert!((blank - springs).abs() < 1e-9 * springs, "{part}: blank is as the springs");
    }
    let twisted = rear_roll(&beam(r#"twist: "4000 N·m/rad""#));
    assert!((twisted - rear_roll(&beam("")) - 4_000.0).abs() < 1e-6, "{twisted}");
}

/// Rubber acts at the wheels: 4 N/mm on the track of 1500 mm adds 4 000 · 1.5²/2 = 4 500 N·m/rad.
#[test]
fn rubber_of_a_beam_axle_acts_on_the_track() {
    let (bare, with) = (rear_roll(&beam("")), rear_roll(&beam(r#"parallel: (rate: "4 N/mm")"#)));
    assert!((with - bare - 4_500.0).abs() < 0.5, "{bare} to {with}");
}

fn table() -> Points {
    Points::through(&[(0.3, 0.0), (0.25, 1_000.0), (0.2, 3_000.0)]).expect("the loads rise")
}

/// The end slope of the monotone cubic through equal steps is (3 · 40 − 20)/2 = 50 N/mm; the last two points make 40.
#[test]
fn beyond_its_table_a_coil_goes_on_with_its_own_end_slope() {
    let points = table();
    for length_m in [0.2 + 1e-9, 0.2, 0.2 - 1e-9, 0.19, 0.15] {
        let rate = points.rate_n_per_m(length_m);
        assert!((rate - 50e3).abs() < 0.1, "at {length_m} m: {rate}");
    }
    assert!((points.force_n(0.19) - 3_500.0).abs() < 1e-6, "{}", points.force_n(0.19));
    let spring = Spring::Points(points);
    let h = 1e-4;
    for length_m in [0.28, 0.23, 0.19, 0.17] {
        let energy = |l: f64| spring.energy_j(l);
        let second = (energy(length_m + h) - 2.0 * energy(length_m) + energy(length_m - h)) / (h * h);
        let rate = spring.rate_n_per_m(length_m);
        assert!((rate - second).abs() < 1e-3 * rate, "at {length_m} m: {rate} against {second}");
        let back = spring.length_for_m(spring.force_n(length_m)).expect("it carries that");
        assert!((back - length_m).abs() < 1e-9, "{back} for {length_m}");
    }
}

/// A table that starts level (10, then 70 N/mm) has no slope at its long end: there the line through the first two
/// points goes on, and the free length stays where a press would find it.
#[test]
fn a_table_that_ends_level_goes_on_along_its_last_two_points() {
    let points = Points::through(&[(0.3, 100.0), (0.25, 600.0), (0.2, 4_100.0)]).expect("the loads rise");
    assert!((points.free_length_m() - 0.31).abs() < 1e-9, "{}", points.free_length_m());
    assert!((points.rate_n_per_m(0.305) - 10e3).abs() < 1e-6);
}

/// Riding beyond the last point is said.
#[test]
fn riding_beyond_the_table_is_said() {
    let job = file::parse(
        r#"(version: 1, job: (after: (lf: "400 kg", rf: "400 kg", lr: "300 kg", rr: "300 kg"), front: (
            unsprung: "40 kg", ratio: (wheel_moved: "100 mm", part_moved: "60 mm"),
            spring: (kind: Progressive, fitted_length: "190 mm", points: [(length: "300 mm", load: "0 N"),
                (length: "250 mm", load: "1000 N"), (length: "200 mm", load: "3000 N")]))))"#,
    )
    .expect("a job");
    let answer = solve(&job);
    let says = |rule: &str| answer.findings.iter().any(|f| f.rule == rule && f.field.starts_with(Side::Front.key()));
    assert!(says("outside-points"), "{:?}", answer.findings);
}
