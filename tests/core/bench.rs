//! The suspension bench: case C9, an independent linear solve, what the phase angle says of damping, whole jobs.
//!
//! `cases/measuring.json` was computed by an independent script; it is arithmetic, not a measurement of real vehicles.

use std::path::Path;

use approx::assert_relative_eq;
use nalgebra::{Matrix2, Vector2};
use proptest::prelude::*;
use realfft::num_complex::Complex64;
use serde_json::Value;
use springwright::base::units::{DampingRate, Mass, Quantity, Ratio, SpringRate, weight};
use springwright::job::{Job, file};
use springwright::report::results::Results;
use springwright::solve::answer::Answer;
use springwright::solve::solve;
use springwright::trade::bench::{self, AMPLITUDE_M, FASTEST_HZ, plate};
use springwright::trade::damper::{BumpRebound, Curve, ForcePoint};
use springwright::trade::road::{Corner, Damper, Ends, Suspension, Wheel};

use crate::common::kept::Kept;
use crate::common::kept::of_folder;
use crate::common::told::cli;

fn corner(of: &Value) -> Corner {
    let number = |key: &str| of[key].as_f64().expect(key);
    Corner {
        sprung: Mass::from_si(number("ms")),
        unsprung: Mass::from_si(number("mu")),
        wheel_rate: SpringRate::from_si(number("k")),
        tyre_rate: SpringRate::from_si(number("kt")),
        damping: DampingRate::from_si(number("c")),
    }
}

fn c9() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/measuring.json");
    let all: Value = serde_json::from_str(&std::fs::read_to_string(path).expect("the cases")).expect("JSON");
    all["C9"].clone()
}

#[test]
fn c9_by_closed_form() {
    let case = c9();
    let expected = |key: String| case["expected"][&key].as_f64().unwrap_or_else(|| panic!("{key}"));
    for state in ["before", "old", "new", "rear_worn"] {
        let corner = corner(&case["input"]["states"][state]);
        let found = bench::reading(&corner).expect("sound");
        let is =
            |key: &str, value: f64| assert_relative_eq!(value, expected(format!("{state}.{key}")), max_relative = 1e-3);
        assert!((found.adhesion.si() - expected(format!("{state}.adhesion"))).abs() < 1e-6, "{state}: {found:?}");
        let unbounded = 1.0 - AMPLITUDE_M * found.stiffness_n_per_m / weight(corner.sprung + corner.unsprung).si();
        assert!((unbounded - expected(format!("{state}.adhesion_unbounded"))).abs() < 1e-6, "{state}");
        assert_eq!(found.lifts, state == "rear_worn");
        is("peak_hz", found.at.si());
        is("least_phase_rad", found.phase.si());
        is("least_phase_hz", found.phase_at.si());
        let hot = Corner { damping: corner.damping * 0.8, ..corner };
        let hot = bench::reading(&hot).expect("sound").adhesion.si();
        assert!((hot - expected(format!("{state}.adhesion_hot"))).abs() < 1e-6, "{state} hot: {hot}");
    }
}

/// The wheel of a corner with this damper, springs straight.
fn wheel(corner: &Corner, damper: Damper) -> Wheel {
    let suspension =
        Suspension::straight(corner.wheel_rate, weight(corner.sprung), Ratio::from_si(1.0), Ends::default());
    let Corner { sprung, unsprung, tyre_rate, .. } = *corner;
    Wheel { sprung, unsprung, tyre_rate, suspension, damper }
}

fn straight(c: f64) -> Damper {
    Damper::through(&[(-1.0, -c), (1.0, c)]).expect("a line")
}

#[test]
fn c9_in_time() {
    let case = c9();
    let new = corner(&case["input"]["states"]["new"]);
    let run = |damper: Damper| plate::shake(&wheel(&new, damper), |_| true).expect("followed").adhesion.si();
    let two = &case["input"]["run"]["new"];
    let number = |key: &str| two[key].as_f64().expect(key);
    let low = BumpRebound::split(DampingRate::from_si(number("c_low")), Ratio::from_si(number("split")));
    let at = |v: f64| {
        let slope = number("knee").min(v) + number("upper") * (v - number("knee")).max(0.0);
        let force = |rate: DampingRate| Some(Quantity::from_si(rate.si() * slope));
        ForcePoint { speed: Quantity::from_si(v), bump: force(low.bump), rebound: force(low.rebound) }
    };
    let curve = Curve::through(&[at(number("knee")), at(1.0)]).expect("a curve");
    // ± 0.3 points, as the case states.
    let expected = |key: &str| case["expected"][key].as_f64().expect(key);
    assert!((run(straight(2310.0)) - expected("new.adhesion_run_linear")).abs() < 0.003);
    assert!((run(Damper::of(&curve).expect("rising")) - expected("new.adhesion_run_two_slope")).abs() < 0.003);
}

/// A worn damper lets the wheel leave the plate: the run says so as the closed form does, and the watch stops it.
#[test]
fn a_wheel_that_lifts_and_a_run_that_is_stopped() {
    let worn = corner(&c9()["input"]["states"]["rear_worn"]);
    let wheel = wheel(&worn, straight(420.0));
    assert_eq!(plate::shake(&wheel, |_| true).expect("followed").adhesion.si(), 0.0);
    assert!(plate::shake(&wheel, |share| share < 0.5).is_err());
}

/// Least phase 12, 35, 68 and 87° at hop damping ratios of 0.03, 0.09, 0.2 and 0.3. Derived, for an ordinary corner.
#[test]
fn the_phase_angle_grows_with_damping() {
    let new = corner(&c9()["input"]["states"]["new"]);
    let critical = 2.0 * ((new.wheel_rate + new.tyre_rate).si() * new.unsprung.si()).sqrt();
    let phase = |ratio: f64| {
        let corner = Corner { damping: DampingRate::from_si(ratio * critical), ..new };
        bench::reading(&corner).expect("sound").phase.si().to_degrees()
    };
    for (ratio, degrees) in [(0.03, 12.0), (0.09, 35.0), (0.2, 68.0), (0.3, 87.0)] {
        assert!((phase(ratio) - degrees).abs() < 3.0, "{ratio}: {}", phase(ratio));
    }
    let all: Vec<f64> = (1..40).map(|i| phase(0.01 * f64::from(i))).collect();
    assert!(all.windows(2).all(|w| w[1] > w[0]), "{all:?}");
}

/// |F/x_plate| by solving both equations of motion for the amplitudes.
fn by_solving(corner: &Corner, hz: f64) -> Complex64 {
    let [ms, mu] = [corner.sprung.si(), corner.unsprung.si()];
    let [k, kt] = [corner.wheel_rate.si(), corner.tyre_rate.si()];
    let w = std::f64::consts::TAU * hz;
    let spring = Complex64::new(k, corner.damping.si() * w);
    let square = -w * w;
    let equations = Matrix2::new(spring + mu * square + kt, -spring, -spring, spring + ms * square);
    let amplitudes = equations.lu().solve(&Vector2::new(Complex64::from(kt), Complex64::from(0.0))).expect("regular");
    kt * (1.0 - amplitudes[0])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn no_frequency_reads_lower_than_the_closed_form(
        ms in 80.0..900.0_f64, mu in 18.0..130.0_f64, k in 8e3..120e3_f64, kt in 90e3..500e3_f64, ratio in 0.02..1.2_f64
    ) {
        let corner = Corner {
            sprung: Mass::from_si(ms), unsprung: Mass::from_si(mu), wheel_rate: SpringRate::from_si(k),
            tyre_rate: SpringRate::from_si(kt), damping: DampingRate::from_si(2.0 * ratio * (k * ms).sqrt()),
        };
        let found = bench::reading(&corner).expect("sound");
        let at = by_solving(&corner, found.at.si()).norm();
        prop_assert!((at / found.stiffness_n_per_m - 1.0).abs() < 1e-9);
        let hop = ((k + kt) / mu).sqrt() / std::f64::consts::TAU;
        for i in 0..2000 {
            let share = f64::from(i) / 1999.0;
            let hz = 0.5 + share * (FASTEST_HZ - 0.5);
            prop_assert!(by_solving(&corner, hz).norm() <= found.stiffness_n_per_m * (1.0 + 1e-6), "{hz} Hz");
            let hz = hop * (1.0 + 2.0 * share) / 3.0;
            let phase = std::f64::consts::PI - by_solving(&corner, hz).arg();
            prop_assert!(phase >= found.phase.si() - 1e-6, "{hz} Hz: {phase} under {}", found.phase.si());
        }
    }
}

#[test]
fn what_is_no_corner_has_no_reading() {
    let new = corner(&c9()["input"]["states"]["new"]);
    let none = [
        Corner { sprung: Mass::from_si(0.0), ..new },
        Corner { unsprung: Mass::from_si(-1.0), ..new },
        Corner { wheel_rate: SpringRate::from_si(f64::NAN), ..new },
        Corner { tyre_rate: SpringRate::from_si(f64::INFINITY), ..new },
        Corner { damping: DampingRate::from_si(-1.0), ..new },
    ];
    assert!(none.iter().all(|corner| bench::reading(corner).is_none()));
    let undamped = bench::reading(&Corner { damping: DampingRate::from_si(0.0), ..new }).expect("a reading");
    assert!(undamped.lifts && undamped.adhesion.si() == 0.0 && undamped.phase.si() < 0.01);
}

/// C9's front axle as a job.
fn quenby() -> &'static Kept {
    of_folder("cases/c9")
}

#[test]
fn c9_through_a_job() {
    let results = Results::of(quenby().answer());
    let case = c9();
    let expected = |key: &str| case["expected"][key].as_f64().expect(key);
    for (state, key) in [("before", "before"), ("old_springs", "old"), ("new_springs", "new")] {
        for (row, of) in [
            ("adhesion", "adhesion"),
            ("adhesion_hot", "adhesion_hot"),
            ("frequency", "peak_hz"),
            ("phase", "least_phase_rad"),
        ] {
            let result = results.find(&format!("front.bench.{state}.{row}")).expect("always there");
            assert_relative_eq!(result.si.expect("known"), expected(&format!("{key}.{of}")), max_relative = 1e-3);
            assert!(result.u_si.is_some_and(|u| u > 0.0), "{state} {row} has its ±");
        }
    }
    let rear = results.find("rear.bench.before.adhesion").expect("always there");
    assert_eq!(rear.si, None, "nothing is known of the rear axle");
}

#[test]
fn readings_are_compared_with_what_was_predicted() {
    let mut job = quenby().job.clone();
    let rules = |answer: &Answer| -> Vec<(String, String)> {
        let findings = answer.findings.iter().filter(|f| f.rule.starts_with("bench-"));
        findings.map(|f| (f.rule.to_owned(), f.field.clone())).collect()
    };
    (job.front.bench.before.left, job.front.bench.before.right) = ("70 %".into(), "72 %".into());
    let answer = solve(&job);
    assert_eq!(rules(&answer), [], "as predicted");
    let found = |answer: &Answer, key: &str| Results::of(answer).find(key).expect(key).si;
    let off = found(&answer, "front.bench.measured.before.adhesion_off").expect("both are known");
    assert!((off - (0.71 - 0.714_026)).abs() < 1e-4, "{off}");
    job.front.bench.before.right = "45 %".into();
    let answer = solve(&job);
    let apart = found(&answer, "front.bench.measured.before.left_right").expect("both are known");
    assert!((apart - 25.0 / 70.0).abs() < 1e-12, "{apart}");
    assert_eq!(
        rules(&answer),
        [
            ("bench-left-right".to_owned(), "front.bench.before.right".to_owned()),
            ("bench-off".to_owned(), "front.bench.before.left".to_owned())
        ]
    );
    job.limits.bench_left_right = "40 %".into();
    (job.front.bench.before.left, job.front.bench.before.right) = ("20 %".into(), "21 %".into());
    let answer = solve(&job);
    assert_eq!(rules(&answer), [("bench-off".to_owned(), "front.bench.before.left".to_owned())]);
    assert_eq!(found(&answer, "front.bench.measured.after.left_right"), None, "nothing was measured after");
}

/// A stiff tyre under a light axle reads low with dampers in the target range, and that is said.
#[test]
fn a_light_axle_reads_low_with_sound_dampers() {
    let mut job = quenby().job.clone();
    (job.before.front, job.after.front) = ("420 kg".into(), "420 kg".into());
    (job.front.unsprung, job.front.tyre_rate) = ("60 kg".into(), "320 N/mm".into());
    job.front.plan = springwright::job::Plan::Keep;
    (job.front.target.damping_low, job.front.target.damping_high) = ("0.3".into(), "0.6".into());
    (job.front.bench.after.left, job.front.bench.after.right) = ("30 %".into(), "32 %".into());
    let answer = solve(&job);
    let predicted = answer.axle(springwright::job::Side::Front).bench.as_fitted().expect("known").cold;
    assert!(predicted.adhesion.si() < 0.6, "{predicted:?}");
    assert!(answer.findings.iter().any(|f| f.rule == "bench-light-axle"), "{:?}", answer.findings);
    job.front.tyre_rate = "120 N/mm".into();
    assert!(!solve(&job).findings.iter().any(|f| f.rule == "bench-light-axle"));
}

#[test]
fn the_command_gives_text_and_json() {
    let (code, text) = cli(&["bench", "demo-orchard-van"]);
    assert_eq!(code, Some(0), "{text}");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in
        ["Suspension bench", "adhesion", "phase angle", "simulated over time", "licensed inspector", "Usual grading"]
    {
        assert!(text.contains(wanted), "{wanted} is not in:\n{text}");
    }
    let (code, json) = cli(&["bench", "demo-orchard-van", "--json"]);
    assert_eq!(code, Some(0));
    let json: Value = serde_json::from_str(&json).expect("JSON");
    let results = json["results"].as_array().expect("a list");
    let value =
        |key: &str| results.iter().find(|r| r["key"] == key).unwrap_or_else(|| panic!("{key}"))["value"].as_f64();
    let closed = value("front.bench.before.adhesion").expect("known");
    let run = value("bench_runs.front.before.adhesion").expect("run");
    // The demo's front damper gives way beyond its knee, so that the run shakes it harder than one rate does.
    assert!((0.05..0.3).contains(&(closed - run)), "{closed} by closed form, {run} over time");
    let (code, text) = cli(&["bench", "tests/cases/no-such.ron"]);
    assert_eq!(code, Some(3), "{text}");
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("blank.ron");
    file::write(&path, &Job::default()).expect("written");
    let (code, text) = cli(&["bench", path.to_str().expect("UTF-8")]);
    assert_eq!(code, Some(1));
    assert!(text.contains("not known yet") && text.contains("No bench simulation"), "{text}");
}
