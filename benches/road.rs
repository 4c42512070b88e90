//! A minute on a rough road, beside the same model in scipy's `solve_ivp`, on the same numbers in the same run.
//!
//! Quarter car and half car, with a two-slope damper, a stop, a spring that comes loose, a rising rate and a wheel that can leave
//! the ground; scipy with its own interpolation, and with tables in plain Python, tuned by hand. All are held against a
//! run of the script that is far tighter, by the rms of the difference in travel over the rms of the travel. Aim: 1/200
//! of scipy's time, 1/500 of the tuned one's. Without python3 and scipy only our own times are told.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a benchmark says why it stops")]

#[path = "common/timing.rs"]
#[allow(dead_code, reason = "what others need")]
mod timing;

use std::io::Write;
use std::process::{Command, Stdio};

use serde_json::{Value, json};
use springwright::base::math::ode::Pace;
use springwright::base::units::{G_M_PER_S2, Length, Mass, Quantity, SpringRate, Velocity, weight};
use springwright::trade::road::half::Half;
use springwright::trade::road::quarter::Quarter;
use springwright::trade::road::run::{Drive, EVERY_S};
use springwright::trade::road::{Damper, Ends, Profile, RoadClass, Run, Suspension, Wheel};
use springwright::trade::spring::{Coil, Spring};
use springwright::trade::wheel::{BumpStop, ForceTravel, LengthCurve, StopForce};
use timing::{Against, Measured, Table, timed};

const RUNS: usize = 7;
const SPEED_M_PER_S: f64 = 50.0 / 3.6;
const LASTS_S: f64 = 60.0;
const WHEELBASE_M: f64 = 2.6;
/// Error that scipy may make in a step, relative; a hundredth of it absolute.
const SCIPY_ERROR: f64 = 1e-5;
/// Speed and force at the damper: two slopes each way.
const DAMPER: [(f64, f64); 5] = [(-0.26, -790.1), (-0.13, -585.3), (0.0, 0.0), (0.13, 292.6), (0.26, 395.1)];
/// Damper ratio and how it changes with travel, 1/m.
const DAMPER_RATIO: [f64; 2] = [0.74, 0.2];

/// An invented estate's corner with everything that is not straight.
fn wheel(sprung_kg: f64, rate_n_per_m: f64) -> Wheel {
    let m = Length::from_si;
    let rows = [-0.08, -0.04, 0.0, 0.04, 0.08].map(|z: f64| (m(z), m(0.3 - 0.68 * z - 0.25 * z * z)));
    let curve = |rows: &[(Length, Length)]| LengthCurve::from_rows(rows).expect("a curve");
    let damper_rows =
        rows.map(|(z, _)| (z, m(0.45 - DAMPER_RATIO[0] * z.si() - 0.5 * DAMPER_RATIO[1] * z.si() * z.si())));
    let sprung = Mass::from_si(sprung_kg);
    let load = weight(sprung);
    let mut travel = ForceTravel {
        spring: Spring::Coil(Coil::by_rate(SpringRate::from_si(rate_n_per_m), m(0.42), None)),
        spring_length: curve(&rows),
        parallel_rate_n_per_m: 800.0,
        parallel_neutral_m: 0.0,
        gas_force_n: 150.0,
        damper_length: curve(&damper_rows),
        helper: None,
        stop: Some(BumpStop { gap_m: 0.045, ratio: 1.0, force: StopForce::Rate(120e3) }),
    };
    let force = travel.spring_force_for(load, m(0.0));
    travel.spring = travel.spring.carrying(force, m(0.3)).expect("it carries");
    let ends = Ends { stop: Some(m(0.045)), metal: Some(m(0.09)), droop: Some(m(0.11)) };
    let tyre_rate = SpringRate::from_si(205e3);
    Wheel {
        sprung,
        unsprung: Mass::from_si(44.0),
        tyre_rate,
        suspension: Suspension::sample(&travel, load, ends, tyre_rate).expect("it stands"),
        damper: Damper::through(&DAMPER).expect("a damper"),
    }
}

fn asked(wheels: &[Wheel; 2], profile: &Profile, pace: Pace, samples: usize) -> Value {
    let of = |w: &Wheel| {
        let (low, per_m, cells) = w.suspension.table();
        json!({
            "low": low, "per_m": per_m, "cells": cells, "rest": w.suspension.rest().si(), "load": w.suspension.load().si(),
            "damper": DAMPER.map(|(v, f)| [v, f]), "ratio": DAMPER_RATIO, "sprung": w.sprung.si(), "unsprung": w.unsprung.si(), "tyre": w.tyre_rate.si(),
            "g": G_M_PER_S2,
        })
    };
    let (spacing, pieces) = profile.pieces();
    json!({
        "road": {"spacing": spacing, "pieces": pieces}, "wheels": wheels.each_ref().map(of), "speed": SPEED_M_PER_S,
        "wheelbase": WHEELBASE_M, "until": pace.until_s, "every": pace.every_s, "samples": samples, "runs": 2,
        "method": "RK45", "rtol": SCIPY_ERROR, "atol": 0.01 * SCIPY_ERROR,
    })
}

fn main() {
    let profile = Profile::rough(RoadClass::D, Length::from_si(SPEED_M_PER_S * LASTS_S), 7);
    let drive = Drive { profile: &profile, speed: Velocity::from_si(SPEED_M_PER_S) };
    let wheels = [wheel(428.0, 48e3), wheel(370.0, 52e3)];
    let pace = Pace { until_s: LASTS_S, ..drive.pace(0.0) };
    let quarter = Quarter::new(&wheels[0], drive);
    let half = Half::new(wheels.each_ref(), Length::from_si(WHEELBASE_M), None, drive);
    let (quarter_took, quarter) = timed(RUNS, || quarter.run_at(pace, |_| true).expect("it runs"));
    let (half_took, half) = timed(RUNS, || half.run_at(pace, |_| true).expect("it runs"));
    let said = quarter.said(0, &wheels[0].suspension).expect("samples");
    println!(
        "{LASTS_S} s on a road of class D at 50 km/h, samples {:.1} ms apart, {} and {} steps",
        EVERY_S * 1e3,
        quarter.steps,
        half.steps
    );
    println!(
        "the quarter car meets its stop {} times, metal {} times, is off the ground {:.2} % of the time",
        said.stop_hits.unwrap_or(0),
        said.metal_hits.unwrap_or(0),
        said.in_the_air.si() * 100.0
    );
    let answer = by_scipy(&asked(&wheels, &profile, pace, quarter.tracks[0].pressed_m.len()));
    if answer.is_none() {
        println!("python3 with scipy is not here: no comparison");
    }
    let mut table = Table::of("road");
    for (key, took, run) in [("quarter", &quarter_took, &quarter), ("half", &half_took, &half)] {
        let what = format!("{LASTS_S} s of a {key} car");
        match &answer {
            Some(answer) => compare(&mut table, &what, took, run, &answer[key]),
            None => table.row(&what, took, Against::Nothing),
        }
    }
    table.end();
}

fn compare(table: &mut Table, what: &str, took: &Measured, run: &Run, theirs: &Value) {
    let numbers = |v: &Value| -> Vec<f64> {
        v.as_array().expect("a list").iter().map(|x| x.as_f64().expect("a number")).collect()
    };
    let reference = numbers(&theirs["reference"]["travel"]);
    let rms = |v: &mut dyn Iterator<Item = f64>| v.map(|x| x * x).sum::<f64>().sqrt();
    let size = rms(&mut reference.iter().copied());
    let off = |found: &[f64]| rms(&mut found.iter().zip(&reference).map(|(a, b)| a - b)) / size;
    let ours = off(&run.tracks[0].pressed_m);
    for (how, name, wanted) in [("library", "scipy", 1.0 / 200.0), ("hand", "scipy tuned by hand", 1.0 / 500.0)] {
        let its = Measured::new(numbers(&theirs[how]["ms"]), "ms");
        table.row(what, took, Against::Other(name, &its, wanted));
        let scipys = off(&numbers(&theirs[how]["travel"]));
        let verdict = if ours <= scipys { "no farther off" } else { "FARTHER OFF" };
        println!("off the reference by {ours:.1e}, {name} by {scipys:.1e}: {verdict}");
    }
}

fn by_scipy(asked: &Value) -> Option<Value> {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/road_scipy.py");
    let python = Command::new("python3").arg(script).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn();
    let mut python = python.ok()?;
    python.stdin.take()?.write_all(asked.to_string().as_bytes()).ok()?;
    let out = python.wait_with_output().ok()?;
    serde_json::from_slice(&out.stdout).ok()
}
