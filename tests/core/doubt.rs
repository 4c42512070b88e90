//! What every ± does to results of the whole vehicle, and how sure a field is that says nothing of it.
//!
//! The vehicle is invented. Every expected ± is worked out here by the first-order formula (GUM 5.1.2: the root of the
//! sum of (∂f/∂x · u)²) from what is typed, with derivatives taken by hand: DERIVED. The program takes half of what lies
//! between x + u and x − u instead; for a power p of x the two differ by about (p−1)(p−2)/6 · (u/x)² of the ±. With u/x
//! of 3 % and less and |p| of 4 and less that stays below 1e-3, the tolerance unless another one is said.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::collections::HashMap;

use crate::common::loaded;
use crate::common::properties;

use std::f64::consts::PI;

use loaded::*;
use properties::{config, near};
use proptest::prelude::*;
use springwright::base::math::spread::{Measured, propagate};
use springwright::base::units::entry::AnyEntry;
use springwright::base::units::{Origin, Quantity, Spread, UnitChoice, table};
use springwright::job::{Again, AxleKind, Job, Load, Side, Walk, Weighing, how_sure};
use springwright::report::results::{Figure, figures};
use springwright::report::sheets::sheet;
use springwright::report::write::json;
use springwright::report::write::text;
use springwright::solve::answer::{Answer, Roll, State, Vehicle};
use springwright::solve::solve;

const FIRST_ORDER: f64 = 1e-3;
/// Sprung masses after, front and rear: 345 − 40 and 270 − 45 kg.
const SPRUNG_KG: [f64; 2] = [305.0, 225.0];
const TRACKS: &str = "front.track 1400 mm; rear.track 1500 mm; chassis.cg_height 560 mm; front.roll_centre 50 mm;
    front.unsprung_height 290 mm; rear.roll_centre 250 mm; rear.unsprung_height 310 mm;
    front.roll_bar.diameter 20 mm; front.roll_bar.length 900 mm; front.roll_bar.blade 200 mm;
    front.roll_bar.ratio 0.7; front.roll_bar.shear_modulus 80 GPa; vehicle.lamp_distance 8 m";

fn at<'a>(job: &'a mut Job, path: &str) -> &'a mut dyn AnyEntry {
    job.at_mut(path).unwrap_or_else(|| panic!("no field {path}"))
}

/// "path value; path value".
fn set(job: &mut Job, fields: &str) {
    for field in fields.split(';').map(str::trim).filter(|f| !f.is_empty()) {
        let (path, typed) = field.split_once(' ').unwrap_or((field, ""));
        let mark = job.decimal;
        let entry = at(job, path);
        let unit = table::of(entry.dim()).next().expect("a unit");
        entry.type_text(typed, unit, mark);
    }
}

/// The plain vehicle with tracks and a bar, one case, and what else is typed.
fn vehicle(more: &str) -> Job {
    let mut job = plain();
    job.cases = vec![case("hay", false, vec![load(200.0, 1.75)])];
    set(&mut job, TRACKS);
    set(&mut job, more);
    job
}

/// Every ± zero, but those given: "path ±; path ±", each one standard uncertainty.
fn only(mut job: Job, spreads: &str) -> Job {
    job.walk_mut(&mut String::new(), &mut |_, entry| entry.set_pm("0 %", Spread::Standard));
    for (path, pm) in spreads.split(';').filter_map(|s| s.trim().split_once(' ')) {
        at(&mut job, path).set_pm(pm, Spread::Standard);
    }
    job
}

type ResultOf = fn(&Vehicle) -> Option<f64>;

fn u(answer: &Answer, result: ResultOf) -> f64 {
    answer.moved.u_of(result).expect("it has a ±")
}

#[track_caller]
fn close(what: &str, got: f64, by_hand: f64, relative: f64) {
    assert!(near(got, by_hand, relative), "{what}: {got}, by hand {by_hand}");
}

// ---- by hand ---------------------------------------------------------------------------------------------------

/// C = (RF + LR)/m: ∂C/∂RF = ∂C/∂LR = (1 − C)/m, ∂C/∂LF = ∂C/∂RR = −C/m, and so for the other shares. Each scale is
/// within these limits 1 kg, so 1/√3 (GUM 4.3.7). 1e-6: what is left of a quotient over 1 kg in 1230 kg.
#[test]
fn shares_of_four_readings() {
    let mut job = only(plain(), "");
    for corner in ["lf", "rf", "lr", "rr"] {
        at(&mut job, &format!("after.{corner}")).set_pm("1 kg", Spread::Limits);
    }
    let answer = solve(&job);
    let (one, total) = (1.0 / 3.0_f64.sqrt(), 1230.0);
    let by_hand = |share: f64| one / total * (2.0 * (1.0 - share).powi(2) + 2.0 * share * share).sqrt();
    let shares: [(&str, ResultOf, f64); 3] = [
        ("cross weight", |v| v.after.cross_weight.map(Quantity::si), (340.0 + 275.0) / total),
        ("left share", |v| v.after.left_share.map(Quantity::si), (350.0 + 275.0) / total),
        ("front share", |v| v.after.front_share.map(Quantity::si), 690.0 / total),
    ];
    for (what, result, share) in shares {
        close(what, result(&answer.vehicle).expect("weighed"), share, 1e-12);
        close(what, u(&answer, result), by_hand(share), 1e-6);
        let parts = answer.moved.shares(result);
        close("all shares", parts.iter().map(|p| p.1).sum(), 1.0, 1e-12);
        assert!(parts.len() == 4 && parts.windows(2).all(|w| w[0].1 >= w[1].1), "{what}: {parts:?}");
    }
    close("total", u(&answer, |v| v.after.total.map(Quantity::si)), 2.0 * one, 1e-9);
    let before: ResultOf = |v| v.before.cross_weight.map(Quantity::si);
    assert_eq!(answer.moved.u_of(before), Some(0.0), "the weighing before says that it is exact");
}

/// f = √(k r²/m)/2π: rear over front goes with √(k_R/k_F). New springs in front are bought: the old rate is not in them.
#[test]
fn rear_over_front() {
    let answer = solve(&only(plain(), "front.spring.rate 3 %; rear.spring.rate 2 %"));
    let ratio = |s: State| (*answer.rear_over_front.of(s)).expect("both stand").si();
    let old = u(&answer, |v| v.rear_over_front.old.map(Quantity::si));
    close("old springs", old, ratio(State::OldSprings) * 0.5 * 0.03_f64.hypot(0.02), FIRST_ORDER);
    let new = u(&answer, |v| v.rear_over_front.new.map(Quantity::si));
    close("new springs", new, ratio(State::NewSprings) * 0.5 * 0.02, FIRST_ORDER);
    // v = L/(1/f_F − 1/f_R): ∂v/∂f_F = v²/(L f_F²), with the other sign for f_R; u(f) = f/2 · u(k)/k.
    let v = answer.flat_ride.old.expect("the rear is quicker").si();
    let [front, rear] = [0, 1].map(|i| hz(OLD_N_PER_M[i], SPRUNG_KG[i]));
    let by_hand = v * v / WHEELBASE_M * 0.5 * (0.03 / front).hypot(0.02 / rear);
    // 1e-2: the ± is 8 % of the flat-ride speed, and 1/(a − x) is bent: (8 %)² and its like.
    close("flat ride", u(&answer, |o| o.flat_ride.old.map(Quantity::si)), by_hand, 1e-2);
    let shares = answer.moved.shares(|v| v.rear_over_front.old.map(Quantity::si));
    assert_eq!([shares[0].0, shares[1].0], ["front.spring.rate", "rear.spring.rate"]);
    close("9 of 13", shares[0].1, 9.0 / 13.0, FIRST_ORDER);
}

/// 100 kg ± 10 kg aboard in the middle are taken out of both axles at once: ρ = √(k_R m_F/(k_F m_R)) is moved by
/// ρ/2 · (u/4)(1/m_R − 1/m_F), far less than if each axle were moved alone.
#[test]
fn what_both_axles_share_moves_both() {
    let mut job = plain();
    job.after.loads = vec![load(100.0, 1.25)];
    let answer = solve(&only(job, "after.loads[0].mass 10 kg"));
    let [front, rear] = [305.0 - 25.0, 225.0 - 25.0];
    let ratio = hz(OLD_N_PER_M[1], rear) / hz(OLD_N_PER_M[0], front);
    let old: ResultOf = |v| v.rear_over_front.old.map(Quantity::si);
    close("ratio", old(&answer.vehicle).expect("both stand"), ratio, 1e-9);
    close("±", u(&answer, old), ratio / 2.0 * 2.5 * (1.0 / rear - 1.0 / front), FIRST_ORDER);
}

/// 200 kg ± 20 kg of cargo 1.75 m behind the front axle: 0.3 of it in front, half of that on a corner.
#[test]
fn a_load_case_under_an_unsure_cargo() {
    let answer = solve(&only(vehicle(""), "cases[0].loads[0].mass 20 kg"));
    for (i, share) in [0.3, 0.7].into_iter().enumerate() {
        let (sprung, u_kg) = (SPRUNG_KG[i] + 100.0 * share, 10.0 * share);
        let of = |result: fn(&springwright::solve::answer::CaseStanding) -> f64| {
            answer.moved.u_of(|v| v.cases[1].standing[Side::BOTH[i]].old.as_ref().map(result)).expect("it stands")
        };
        let f = hz(OLD_N_PER_M[i], sprung);
        close("sprung", of(|s| s.on.sprung.si()), u_kg, 1e-9);
        close("frequency", of(|s| s.on.frequency().si()), f / 2.0 * u_kg / sprung, FIRST_ORDER);
        close("height", of(|s| s.rise.si()), u_kg * G / OLD_N_PER_M[i], 1e-6);
        close("room", of(|s| s.on.stop_room().expect("a gap").si()), u_kg * G / OLD_N_PER_M[i], 1e-6);
        let scales = answer.moved.u_of(|v| v.cases[1].on_scales[Side::BOTH[i]].map(Quantity::si));
        close("scales", scales.expect("weighed"), 2.0 * u_kg, 1e-9);
        let weighed =
            answer.moved.u_of(|v| v.cases[0].standing[Side::BOTH[i]].old.as_ref().map(|s| s.on.frequency().si()));
        assert_eq!(weighed, Some(0.0), "as weighed nothing is carried");
    }
    // Lamps: D tan(nose up), nose up by (h_F − h_R)/L; springs and tyres, 200 N/mm, of both ends at once.
    let sinks = |i: usize, share: f64| 10.0 * share * G * (1.0 / OLD_N_PER_M[i] + 1.0 / 200e3);
    let beam = 8.0 / WHEELBASE_M * (sinks(1, 0.7) - sinks(0, 0.3));
    close("beam", u(&answer, |v| v.cases[1].beam.old.map(Quantity::si)), beam, FIRST_ORDER);
}

/// φ = M/(ΣK − M g) with the moment M = m h per unit of lateral g, so ∂φ/∂K = −φ²/M. Front springs and bar both go with
/// the square of the track, the bar with d⁴.
#[test]
fn roll_gradient_under_one_unsure_length() {
    let bar = PI * 80e9 * 0.02_f64.powi(4) / (32.0 * 0.9) * (0.7 * 1.4 / 0.2_f64).powi(2);
    let front = 0.5 * OLD_N_PER_M[0] * 1.4 * 1.4 + bar;
    let all = front + 0.5 * OLD_N_PER_M[1] * 1.5 * 1.5;
    for (field, moved) in
        [("front.track 20 mm", front * 2.0 * 0.02 / 1.4), ("front.roll_bar.diameter 0.2 mm", bar * 4.0 * 0.01)]
    {
        let answer = solve(&only(vehicle(""), field));
        let phi = answer.whole.roll.old.and_then(|r| r.gradient_rad_s2_per_m).expect("a height");
        let moment = phi * all / (1.0 + phi * G);
        let roll = |result: fn(&Roll) -> Option<f64>| {
            answer.moved.u_of(|v| v.whole.roll.old.as_ref().and_then(result)).expect("tracks")
        };
        close(field, roll(|r| r.gradient_rad_s2_per_m), phi * phi / moment * moved, 2.0 * FIRST_ORDER);
        // s = K_F/ΣK: ∂s/∂K_F = K_R/ΣK².
        close(field, roll(|r| r.front_share.map(Quantity::si)), (all - front) / (all * all) * moved, 2.0 * FIRST_ORDER);
        assert_eq!(answer.moved.shares(|v| v.whole.roll.old?.gradient_rad_s2_per_m).len(), 1);
    }
}

/// Dive ½ m a h/(L k): goes with the height of the centre of gravity. κ² = a b: each end swings at its own frequency.
#[test]
fn dive_and_pitch() {
    let answer = solve(&only(vehicle(""), "chassis.cg_height 14 mm; rear.spring.rate 2 %"));
    let dive = answer.whole.dive.old.expect("a height").front.si();
    close("dive", u(&answer, |v| v.whole.dive.old.map(|d| d.front.si())), dive * 14.0 / 560.0, 1e-9);
    let modes =
        [0, 1].map(|i| answer.moved.u_of(|v| Some(v.whole.pitch.old?.modes[i].frequency.si())).expect("both stand"));
    assert!(modes[0] < 1e-9, "the front's own swing rests on the front alone: {}", modes[0]);
    close("quicker swing", modes[1], 0.01 * hz(OLD_N_PER_M[1], SPRUNG_KG[1]), FIRST_ORDER);
}

/// Left front read as 350 and 356 kg: s = 6/√2, and the mean of both is known to s/√2 = 3 kg, however exact each is said
/// to be; a mean has the slope 1/2 for each of them.
#[test]
fn readings_that_scatter() {
    let mut job = plain();
    job.after.repeats = vec![Again { lf: kg(356.0), ..Again::default() }];
    let answer = solve(&only(job, ""));
    close("front axle", u(&answer, |v| v.after.front.map(Quantity::si)), 3.0, 1e-9);
    assert_eq!(answer.moved.shares(|v| v.after.front.map(Quantity::si)).len(), 2);
    close(
        "sprung",
        answer.checked(Side::Front).nudged.u_of(|a| a.masses.sprung.after.map(Quantity::si)).expect("±"),
        1.5,
        1e-9,
    );
}

/// 40 kg ± 400 kg unsprung: moved, nothing is sprung any more, and no ± can be told.
#[test]
fn a_result_that_is_lost_has_no_spread() {
    let answer = solve(&only(vehicle(""), "front.unsprung 400 kg"));
    assert!(answer.rear_over_front.old.is_some() && answer.cases[1].standing.front.old.is_some());
    assert_eq!(answer.moved.u_of(|v| v.rear_over_front.old.map(Quantity::si)), None);
    assert_eq!(answer.moved.u_of(|v| v.cases[1].standing.front.old.as_ref().map(|s| s.on.frequency().si())), None);
    assert!(answer.moved.shares(|v| v.rear_over_front.old.map(Quantity::si)).is_empty());
    let sheet = text::write(&sheet::build(&vehicle(""), &answer), text::Markup::Plain);
    let line = sheet.lines().find(|l| l.starts_with("Rear ÷ front frequency")).expect("it is known");
    assert!(!line.contains('±'), "{line}");
}

/// GUM 4.3.7, a/√3 within ± a; and 5.1.6, (u_c/y)² = Σ (p_i u_i/x_i)² for y = c Π x_i^p_i, both FROM MEMORY, here for
/// a bar: d⁴ r² t²/(l a²).
#[test]
fn guide_to_uncertainty_rectangle_and_powers() {
    let limits = |pm: &str, spread| {
        let mut job = only(plain(), "");
        at(&mut job, "front.spring.rate").set_pm(pm, spread);
        u(&solve(&job), |v| v.rear_over_front.old.map(Quantity::si))
    };
    let standard = format!("{} N/mm", 2.0 / 3.0_f64.sqrt());
    close("limits", limits("2 N/mm", Spread::Limits), limits(&standard, Spread::Standard), 1e-9);
    let with_u = |value: f64, share: f64| Measured { value, u: value * share };
    let inputs = [with_u(0.02, 0.005), with_u(0.7, 0.02), with_u(1.4, 0.004), with_u(0.9, 0.01), with_u(0.2, 0.01)];
    let found = propagate(inputs, |[d, r, t, l, a]| d.powi(4) * r * r * t * t / (l * a * a));
    let by_hand =
        [4.0 * 0.005, 2.0 * 0.02, 2.0 * 0.004, 0.01, 2.0 * 0.01].map(|p: f64| p * p).iter().sum::<f64>().sqrt();
    close("powers", found.u / found.value, by_hand, FIRST_ORDER);
}

// ---- when nothing is said --------------------------------------------------------------------------------------

/// The ± of the old spring's rate as used, when only that field has one; 50 N/mm read to 5 %.
fn rate_u(origin: Option<Origin>, certainty: &str) -> f64 {
    let mut job = only(plain(), "");
    at(&mut job, "front.spring.rate").set_pm("", Spread::Limits);
    at(&mut job, "front.spring.rate").set_origin(origin);
    set(&mut job, certainty);
    let rate = |a: &springwright::solve::answer::AxleAnswer| a.old_spring.rate.map(Quantity::si);
    solve(&job).checked(Side::Front).nudged.u_of(rate).expect("a ±")
}

#[test]
fn every_origin_has_its_own_default() {
    let share = |percent: f64| 50e3 * percent / 100.0 / 3.0_f64.sqrt();
    for (origin, certainty, percent) in [
        (None, "", 5.0),
        (None, "certainty.guessed 40 %", 5.0),
        (Some(Origin::Measured), "certainty.quoted 40 %", 5.0),
        (Some(Origin::Guessed), "", 15.0),
        (Some(Origin::Guessed), "certainty.guessed 30 %", 30.0),
        (Some(Origin::Guessed), "certainty.guessed 1 %", 5.0),
        (Some(Origin::Guessed), "certainty.quoted 30 %", 15.0),
        (Some(Origin::Quoted), "", 5.0),
        (Some(Origin::Quoted), "certainty.quoted 12 %", 12.0),
        (Some(Origin::Ledger), "", 5.0),
        (Some(Origin::Ledger), "certainty.ledger 7 %", 7.0),
        // Not used, since it cannot be read; a finding says so.
        (Some(Origin::Guessed), "certainty.guessed many", 5.0),
    ] {
        close(&format!("{origin:?} {certainty}"), rate_u(origin, certainty), share(percent), 1e-9);
    }
    let mut job = plain();
    set(&mut job, "certainty.guessed many");
    assert!(solve(&job).findings.iter().any(|f| f.field == "certainty.guessed" && f.rule == "unreadable"));
}

/// Four scales make the cross weight, two of them an axle that is weighed as a whole; a tape gives the fitted length.
#[test]
fn scales_and_tape() {
    let with = |certainty: &str| {
        let mut job = only(plain(), "");
        job.before = Weighing::default();
        (job.before.front, job.before.rear) = ("600 kg".into(), "500 kg".into());
        for path in ["after.lf", "after.rf", "after.lr", "after.rr", "front.spring.fitted_length"] {
            at(&mut job, path).set_pm("", Spread::Limits);
        }
        set(&mut job, certainty);
        let answer = solve(&job);
        let free =
            answer.checked(Side::Front).nudged.u_of(|a| a.old_free_length.map(Quantity::si)).expect("a fitted length");
        let cross = u(&answer, |v| v.after.cross_weight.map(Quantity::si));
        (cross, u(&answer, |v| v.before.front.map(Quantity::si)), free)
    };
    let (cross, axle, free) = with("");
    close("twice 1 kg", axle, 2.0 / 3.0_f64.sqrt(), 1e-9);
    let (cross_3, axle_3, free_3) = with("certainty.scales 3 kg");
    close("cross weight", cross_3, 3.0 * cross, 1e-4);
    close("axle", axle_3, 3.0 * axle, 1e-9);
    close("in pounds", with("certainty.scales 2 lb").1, 2.0 * 0.907_184_74 / 3.0_f64.sqrt(), 1e-9);
    // The reference height is that of before, so the free length rests on the fitted length and the weights before.
    assert!(free_3 > free && with("certainty.tape 4 mm").2 > free && with("certainty.tape 0 mm").2 < free);
}

/// A blank field rests on a guess, 15 % unless the job says otherwise; a handbook's modulus does not; a wish has no ±.
#[test]
fn blank_fields_count_as_guessed() {
    let with = |certainty: &str| {
        let mut job = only(vehicle("front.tyre_rate; front.roll_bar.shear_modulus; front.target.low 1.2 Hz"), "");
        for path in ["front.tyre_rate", "front.roll_bar.shear_modulus", "front.target.low", "limits.cross"] {
            at(&mut job, path).set_pm("", Spread::Limits);
            at(&mut job, path).set_origin(Some(Origin::Guessed));
        }
        at(&mut job, "front.roll_bar.shear_modulus").set_origin(None);
        set(&mut job, certainty);
        solve(&job)
    };
    let [usual, wide] = ["", "certainty.guessed 30 %"].map(with);
    let tyre = |answer: &Answer| {
        let frequency = |a: &springwright::solve::answer::AxleAnswer| {
            a.standing.old.as_ref()?.frequency_with_tyre.map(Quantity::si)
        };
        answer.checked(Side::Front).nudged.u_of(frequency).expect("a tyre")
    };
    // 2e-2: 30 % either way is wide for a first order.
    close("tyre", tyre(&wide), 2.0 * tyre(&usual), 2e-2);
    let bar = |answer: &Answer| u(answer, |v| Some(v.whole.roll.old?.bars.front.si()));
    close("bar", bar(&wide), bar(&usual), 1e-9);
    let wanted =
        |answer: &Answer| answer.checked(Side::Front).nudged.u_of(|a| Some(a.sizing.as_ref()?.frequency.low.si()));
    assert_eq!(wanted(&wide).unwrap_or(0.0), 0.0, "a wish is no measurement");
    let mut job = vehicle("front.tyre_rate");
    let said = |job: &mut Job, path: &str| how_sure::words(job, path).map(|words| words.to_string());
    assert_eq!(said(&mut job, "front.tyre_rate").as_deref(), Some("15 %"));
    assert_eq!(said(&mut job, "after.lf").as_deref(), Some("1 kg"));
    assert_eq!(how_sure::words(&mut job, "limits.cross"), None);
    // Read to 10 %, guessed to 15 %: the default for guesses is one that the answer rests on, and is told as such.
    let used = |job: &Job| solve(job).defaults.iter().any(|d| d.path == "certainty.guessed");
    assert!(used(&vehicle("front.unsprung")));
    assert!(!used(&vehicle("front.unsprung; certainty.guessed 20 %")), "typed is no default");
}

// ---- properties ------------------------------------------------------------------------------------------------

/// A vehicle with everything that is looked at; every ± as it is when nothing is said.
fn full() -> Job {
    let mut job = vehicle("after.lf 352 kg; after.rf 338 kg; chassis.pitch_radius 1.2 m; rear.spring_base 1100 mm");
    job.rear.kind = AxleKind::Beam;
    job.before.loads = vec![Load { y: m(0.3), ..load(76.0, 1.2) }];
    job
}

/// Fields that are measured in it.
const FIELDS: [&str; 16] = [
    "before.lf",
    "before.rr",
    "after.rf",
    "after.lr",
    "before.loads[0].mass",
    "before.loads[0].x",
    "vehicle.wheelbase",
    "cases[0].loads[0].mass",
    "cases[0].loads[0].x",
    "front.unsprung",
    "front.spring.rate",
    "rear.ratio.part_moved",
    "front.track",
    "rear.spring_base",
    "front.roll_bar.diameter",
    "chassis.cg_height",
];

fn told(job: &Job) -> Vec<Figure> {
    figures(&solve(job))
}

proptest! {
    #![proptest_config(config(24))]

    /// One ± made larger makes no result surer, of axles, cases or vehicle.
    #[test]
    fn a_larger_spread_never_narrows(which in 0..FIELDS.len(), kg_or_share in 1.0..2.0_f64, more in 1.05..2.0_f64) {
        let job = |times: f64| {
            let mut job = full();
            // About as wide as usual, so that results move in proportion.
            at(&mut job, FIELDS[which]).set_pm(&format!("{} %", kg_or_share * times), Spread::Standard);
            told(&job)
        };
        let mut wider = 0;
        for (less, more) in job(1.0).iter().zip(&job(more)) {
            prop_assert_eq!(&less.key, &more.key);
            if let (Some(less_u), Some(more_u)) = (less.u_si, more.u_si) {
                prop_assert!(more_u >= less_u * (1.0 - 1e-9) - 1e-15, "{}: ± {} became ± {} by {}", less.key, less_u, more_u, FIELDS[which]);
                wider += usize::from(more_u > less_u);
            }
        }
        prop_assert!(wider > 0, "{} moves something", FIELDS[which]);
    }

    /// Left and right changed over: every ± is the same.
    #[test]
    fn seen_in_a_mirror(corners in proptest::array::uniform4(250.0..350.0)) {
        let job = |[lf, rf, lr, rr]: [f64; 4], y: f64| {
            let mut job = full();
            (job.after.lf, job.after.rf, job.after.lr, job.after.rr) = (kg(lf), kg(rf), kg(lr), kg(rr));
            (job.before.lf, job.before.rf) = if y > 0.0 { (kg(305.0), kg(295.0)) } else { (kg(295.0), kg(305.0)) };
            (job.before.lr, job.before.rr) = if y > 0.0 { (kg(255.0), kg(245.0)) } else { (kg(245.0), kg(255.0)) };
            job.before.loads[0].y = m(y);
            told(&job)
        };
        let [lf, rf, lr, rr] = corners;
        let in_mirror = |key: &str| {
            let corner = |part: &str| match part {
                "lf" => "rf",
                "rf" => "lf",
                "lr" => "rr",
                "rr" => "lr",
                part => part,
            }
            .to_owned();
            key.split('.').map(corner).collect::<Vec<String>>().join(".")
        };
        let others: HashMap<String, Figure> =
            job([rf, lf, rr, lr], -0.3).into_iter().map(|f| (f.key.clone(), f)).collect();
        for one in &job(corners, 0.3) {
            let other = &others[&in_mirror(&one.key)];
            let same = one.u_si.zip(other.u_si).is_some_and(|(a, b)| near(a, b, 1e-6) || (a - b).abs() < 1e-12);
            prop_assert!(same || one.u_si.or(other.u_si).is_none(), "{}: {:?} {:?}", one.key, one.u_si, other.u_si);
        }
    }
}

/// Exact fields make exact results.
#[test]
fn no_spread_no_uncertainty() {
    let job = only(full(), "");
    let answer = solve(&job);
    assert!(answer.moved.is_empty() && answer.cases[1].standing.front.old.is_some());
    for f in figures(&answer) {
        assert_eq!(f.u_si.unwrap_or(0.0), 0.0, "{}", f.key);
    }
    let sheet = text::write(&sheet::build(&job, &answer), text::Markup::Plain);
    // Words about what a ± is, or depends on, are none.
    let is_shown = |l: &str| l.replace("the ± depends on the suspension", "").contains('±') && !l.starts_with("A ± is");
    let shown: Vec<&str> = sheet.lines().filter(|l| is_shown(l)).collect();
    assert!(shown.is_empty(), "{shown:?}");
}

/// The units shown change no ± of the figures; how well scales and a tape read is typed, and how true what is bought is.
#[test]
fn units_shown_change_no_spread() {
    let mut job = full();
    set(&mut job, "limits.length_tolerance 3 mm; front.stock.settle 3 mm; rear.stock.settle 3 mm");
    let metric = told(&job);
    job.units = UnitChoice::pound_inch();
    for (a, b) in metric.iter().zip(&told(&job)) {
        assert_eq!((&a.key, a.u_si), (&b.key, b.u_si));
    }
}

/// What carried no ± before does so now: in the figures, in JSON and on the sheet.
#[test]
fn spreads_are_shown() {
    let job = full();
    let answer = solve(&job);
    let value = json::value(&job, &answer);
    let results = value["results"].as_array().expect("a list");
    for key in [
        "after.cross_weight",
        "after.left_share",
        "whole.rear_over_front.new_springs",
        "whole.flat_ride_speed.old_springs",
        "whole.pitch.new_springs.slower.frequency",
        "whole.roll.old_springs.gradient",
        "whole.roll.new_springs.front_share",
        "whole.corners.new.lean",
        "whole.corners.after.lf.weight",
        "cases[0].corners.new_springs.rr.rise",
        "whole.beam.old_springs",
        "whole.dive.old_springs.front",
        "cases[0].front.new_springs.rise",
        "cases[0].rear.old_springs.frequency",
        "cases[0].front.old_springs.reserve",
        "cases[0].rear.old_springs.stop_room",
        "cases[0].front.old_springs.old_damper_ratio",
        "cases[0].rear.on_scales",
        "cases[0].rear_over_front.old_springs",
        "compared.before.front",
    ] {
        let found = results.iter().find(|r| r["key"] == key).unwrap_or_else(|| panic!("no {key}"));
        assert!(found["u"].as_f64().is_some_and(|u| u > 0.0), "{key}: {found}");
    }
    let sheet = text::write(&sheet::build(&job, &answer), text::Markup::Plain);
    for words in [
        "Rear ÷ front frequency, without tyre",
        "Roll gradient, suspension only",
        "Lower body mode",
        "Reserve to the bump stop",
        "Ride frequency, without tyre",
    ] {
        let lines: Vec<&str> = sheet.lines().filter(|l| l.starts_with(words)).collect();
        assert!(!lines.is_empty() && lines.iter().all(|l| l.contains(" ± ")), "{words}: {lines:?}");
    }
}
