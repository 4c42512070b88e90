//! Every kind of spring in a whole job, with every field of its kind typed: it survives its file, it is solved, its rate
//! is the one its own sizes give, and the units shown change no number.
//!
//! Nothing here is a published figure. The rate is worked out beside each job from the closed form of its kind (SHI, DERIVED);
//! 1e-6 is left for solved heights and numbers typed as text.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::properties;

use std::f64::consts::PI;

use properties::{config, same};
use proptest::prelude::*;
use springwright::base::units::{G_M_PER_S2, Quantity, UnitChoice};
use springwright::job::{Job, RatioBy, RatioRow, Side, Walk, file};
use springwright::solve::answer::Answer;
use springwright::solve::solve;

/// A job whose front spring is of one kind, with the rate that its own sizes give at ride height before.
#[derive(Debug, Clone)]
struct Typed {
    text: String,
    /// Fields that must all be typed for this kind.
    fields: &'static [&'static str],
    rate_n_per_m: f64,
    /// Force along the spring at ride height before.
    force_n: f64,
}

/// What is the same for every kind: weights of 800 and 900 kg, 40 kg unsprung, two lengths for the ratio.
#[derive(Debug, Clone, Copy)]
struct Around {
    ratio: f64,
    /// Rate by whatever way counts.
    k: f64,
    /// Part of the load that an old bag carries, N at the wheel.
    bag_n: f64,
}

impl Around {
    /// Force along the spring before, N.
    fn force_n(&self) -> f64 {
        (360.0 * G_M_PER_S2 - self.bag_n) / self.ratio
    }

    fn typed(&self, spring: &str, more: &str, fields: &'static [&'static str], rate_n_per_m: f64) -> Typed {
        let bag = match self.bag_n {
            0.0 => "fitted: No, pressure: \"0 bar\"".to_owned(),
            n => format!("fitted: Always, pressure: \"{} kPa\"", n / 0.8 / 100e-4 / 1e3),
        };
        let text = format!(
            r#"(version: 1, job: (
              before: (front: "800 kg"),
              rear: (unsprung: "40 kg", tyre_rate: "200 N/mm"),
              after: (front: (text: "900 kg", origin: Measured, pm: "1 kg", spread: Standard)),
              front: (
                unsprung: "40 kg", tyre_rate: "200 N/mm", damper_ratio: (by: Number, number: "0.8", confirm: "0.8"),
                spring: ({spring}),
                stop: (rows: [(squeeze: "0 mm", load: "0 N"), (squeeze: "20 mm", load: "900 N")], ratio: "0.8"),
                travel: (stop_gap: "90 mm", metal: "110 mm", droop: "80 mm"),
                bag: ({bag}, area: "100 cm²", area_growth: "12 mm", volume: "1200 cm³", ratio: "0.8", exponent: "1.2"),
                stock: (step: "1 N/mm", settle: "2 mm", wire_step: "0.1 mm", bar_step: "0.1 mm"),
                {more}
              ))
            )"#
        );
        Typed { text, fields, rate_n_per_m, force_n: self.force_n() }
    }

    fn ratio(&self) -> String {
        format!(r#"ratio: (wheel_moved: "100 mm", part_moved: "{} mm")"#, 100.0 * self.ratio)
    }

    /// Lengths of a coil of rate `k` that carries the load before at 250 mm, so much of which a helper takes.
    fn lengths(&self, helper_mm: f64) -> String {
        let free_mm = 250.0 - helper_mm + 1e3 * self.force_n() / self.k;
        format!(r#"fitted_length: "250 mm", free_length: "{free_mm} mm", solid_length: "100 mm""#)
    }

    /// The active coils that make the rate: k = G d⁴/(8 D³ N).
    fn wire(&self) -> String {
        let coils = 78e9 * 0.013_f64.powi(4) / (8.0 * 0.110_f64.powi(3) * self.k);
        format!(
            r#"wire: (material: ChromeSilicon, ends: ClosedGround, diameter: (text: "13 mm", pm: "0.05 mm"),
               outside_diameter: "123 mm", active_coils: "{coils}", total_coils: "{}", shear_modulus: "78 GPa",
               tensile_strength: "1500 MPa", allowed_share: "45 %"), cut: "0.5""#,
            coils + 2.0
        )
    }

    /// A gauge that shows 2 % too little.
    fn press(&self) -> String {
        let load_n = |length_m: f64| (self.force_n() + self.k * (0.25 - length_m)) / 1.02;
        format!(
            r#"press: (first_length: "270 mm", first_load: "{} N", second_length: "230 mm", second_load: "{} N",
               gauge_factor: (text: "1.02", pm: "0.01"))"#,
            load_n(0.27),
            load_n(0.23)
        )
    }
}

fn around() -> impl Strategy<Value = Around> {
    (0.5..0.9, 40e3..90e3, prop_oneof![Just(0.0), 100.0..900.0]).prop_map(|(ratio, k, bag_n)| Around {
        ratio,
        k,
        bag_n,
    })
}

const COIL: &[&str] = &["spring.fitted_length", "spring.free_length", "spring.solid_length", "spring.rate"];
const WIRE: &[&str] = &["spring.wire.", "spring.cut", "spring.fitted_length", "spring.free_length"];
const PRESS: &[&str] = &["spring.press.", "spring.fitted_length", "spring.free_length"];
const STACK: &[&str] = &["spring.helper.", "spring.rate", "spring.fitted_length"];
const POINTS: &[&str] = &["spring.points[", "spring.fitted_length"];
const BAR: &[&str] = &["spring.bar."];
const LEAF: &[&str] = &["spring.leaf."];

fn coil_job() -> impl Strategy<Value = Typed> {
    (around(), 0..4).prop_map(|(a, by)| {
        let by_word = ["Stated", "Wire", "Press", "Together"][by as usize];
        let stated = format!("{} N/m", if by == 0 { a.k } else { 1.04 * a.k });
        let (lengths, wire, press) = (a.lengths(0.0), a.wire(), a.press());
        let spring = format!(r#"kind: Coil, rate_by: {by_word}, rate: "{stated}", {lengths}, {wire}, {press}"#);
        a.typed(&spring, &a.ratio(), [COIL, WIRE, PRESS, WIRE][by as usize], a.k)
    })
}

/// Closed by the load, or still open: then both coils work in series.
fn stack_job() -> impl Strategy<Value = Typed> {
    (around(), 30.0..80.0, prop_oneof![0.2..0.9, 1.6..2.0]).prop_map(|(a, stroke_mm, closes_at)| {
        let helper = 1e3 * closes_at * a.force_n() / stroke_mm;
        let spring = format!(
            r#"kind: WithHelper, rate: "{} N/m", {}, helper: (rate: "{helper} N/m", free_length: "{} mm",
               solid_length: "20 mm")"#,
            a.k,
            a.lengths(20.0 + if closes_at < 1.0 { 0.0 } else { stroke_mm * (1.0 - 1.0 / closes_at) }),
            20.0 + stroke_mm
        );
        let rate = if closes_at < 1.0 { a.k } else { a.k * helper / (a.k + helper) };
        a.typed(&spring, &a.ratio(), STACK, rate)
    })
}

/// Three equal steps of rate `k` behind a soft one; the load lies within the middle one, which is straight.
fn points_job() -> impl Strategy<Value = Typed> {
    (around(), 0.05..0.95, 0.2..0.9).prop_map(|(a, share, softer)| {
        let step_n = a.k * 0.008;
        let middle_n = a.force_n() - share * step_n;
        let rows = [(0.008 + 0.008 / softer, -2.0), (0.008, -1.0), (0.0, 0.0), (-0.008, 1.0), (-0.016, 2.0)];
        let rows = rows.map(|(l, n)| format!(r#"(length: "{} m", load: "{} N")"#, 0.26 + l, middle_n + n * step_n));
        let spring = format!(r#"kind: Progressive, {}, points: [{}]"#, a.lengths(0.0), rows.join(", "));
        a.typed(&spring, &a.ratio(), POINTS, a.k)
    })
}

/// k_θ = π G (d⁴ − d_i⁴)/(32 l); k = k_θ/(R² cos² α) − F tan α/(R cos α) at the arm's end.
fn bar_job() -> impl Strategy<Value = Typed> {
    (around(), 0.022..0.03_f64, 0.0..0.4_f64, 0.3..0.45_f64, -0.2..0.4_f64).prop_map(|(mut a, d, hollow, arm, angle)| {
        a.ratio = 1.0;
        let twist = PI * 79e9 * (d.powi(4) - (hollow * d).powi(4)) / (32.0 * 1.1);
        let spring = format!(
            r#"kind: TorsionBar, bar: (diameter: "{d} m", inside_diameter: "{} m", length: "1100 mm", arm: "{arm} m",
               angle: "{angle} rad", shear_modulus: "79 GPa", allowed_stress: "900 MPa")"#,
            hollow * d
        );
        let across = arm * angle.cos();
        let rate = twist / (across * across) - a.force_n() * angle.tan() / across;
        a.typed(&spring, "plan: NewSprings", BAR, rate)
    })
}

/// Stated, by a test with friction, by sizes: k = 8 E n b t³/(3 L³) · (3 n_f + 2 n_g)/(2 n).
fn leaf_job() -> impl Strategy<Value = Typed> {
    (around(), 0..3, 3..9, 0.0..0.02).prop_map(|(mut a, by, leaves, friction_m)| {
        (a.ratio, a.k) = (1.0, 0.5 * a.k);
        let n = f64::from(leaves);
        let span = 1.2 - 0.1;
        let by_sizes =
            8.0 * 206e9 * n * 0.06 * 0.007_f64.powi(3) / (3.0 * span * span * span) * (2.0 * n + 2.0) / (2.0 * n);
        let row = |load_n: f64| {
            let height_m = 0.6 - load_n / a.k;
            let (down, up) = (height_m + friction_m, height_m - friction_m);
            format!(r#"(load: "{load_n} N", loading: "{down} m", unloading: "{up} m")"#)
        };
        let rows = [0.0, 500.0, 1_000.0, 1_500.0].map(row).join(", ");
        let (word, rate) = [("Stated", 1.1 * a.k), ("Test", a.k), ("Sizes", by_sizes)][by as usize];
        let spring = format!(
            r#"kind: Leaf, rate: "{} N/m", leaf: (by: {word}, rows: [{rows}], span: "1200 mm", clamped: "100 mm",
               width: "60 mm", thickness: "7 mm", leaves: "{leaves}", full_length: "2", modulus: "206 GPa")"#,
            1.1 * a.k
        );
        a.typed(&spring, "kind: Beam", LEAF, rate)
    })
}

proptest! {
    #![proptest_config(config(150))]

    /// It survives its file, it stands on old and new springs, its rate is its own, and units shown change no number.
    #[test]
    fn every_kind_of_spring_in_a_job(typed in prop_oneof![coil_job(), stack_job(), points_job(), bar_job(), leaf_job()]) {
        let job = file::parse(&typed.text).expect("a job");
        for field in typed.fields {
            prop_assert_eq!(blanks(&job, &format!("front.{field}")), Vec::<String>::new());
        }
        prop_assert_eq!(&file::parse(&file::text(&job).expect("it can be written")).expect("it can be read"), &job);
        let json = serde_json::to_string(&job).expect("it can be written");
        prop_assert_eq!(&serde_json::from_str::<Job>(&json).expect("it can be read"), &job);
        let answer = solve(&job);
        let front = answer.axle(Side::Front);
        same!("rate", front.old_spring.rate.expect("all is typed").si(), typed.rate_n_per_m, 1e-6);
        let before = front.standing.before.as_ref().expect("all is typed");
        prop_assert!(before.travel.si().abs() <= 1e-9, "lengths were taken there: {:?}", before.travel);
        same!("spring force", before.spring_force.si(), typed.force_n, 1e-6);
        same!("rate before", before.spring_rate.si(), typed.rate_n_per_m, 1e-6);
        prop_assert!(front.standing.old.as_ref().is_some_and(|old| old.travel > before.travel), "100 kg heavier");
        prop_assert!(front.standing.new.as_ref().is_some_and(|new| new.travel.si().abs() <= 1e-9), "at the old height");
        let mut job = job;
        // Their defaults go by the units shown.
        (job.certainty.scales, job.certainty.tape) = ("1 kg".into(), "1 mm".into());
        (job.limits.length_tolerance, job.front.stock.settle) = ("3 mm".into(), "3 mm".into());
        let metric = solve(&job);
        job.units = UnitChoice::pound_inch();
        prop_assert_eq!(properties::without_words(metric), properties::without_words(solve(&job)));
    }
}

/// Fields below a path in which nothing was typed, or the path itself if there is no such field.
fn blanks(job: &Job, path: &str) -> Vec<String> {
    let (mut blank, mut found) = (Vec::new(), false);
    job.walk(&mut String::new(), &mut |at, entry| {
        if at.starts_with(path) {
            found = true;
            if entry.text().is_empty() {
                blank.push(at.to_owned());
            }
        }
    });
    if found { blank } else { vec![path.to_owned()] }
}

/// Equal rows that change places in memory are still the same job.
#[test]
fn the_same_job_gives_the_same_answer() {
    let row = |wheel: &str, length: &str| RatioRow { wheel: wheel.into(), length: length.into() };
    let mut job = file::parse(include_str!("../cases/c1.ron")).expect("the worked case is a job");
    for ratio in [&mut job.front.ratio, &mut job.front.damper_ratio] {
        ratio.by = RatioBy::Rows;
        ratio.rows = vec![row("-40 mm", "304 mm"), row("0 mm", "280 mm"), row("40 mm", "257 mm")];
    }
    let (same, first) = (job.clone(), solve(&job));
    let front = &mut job.front;
    std::mem::swap(&mut front.ratio.rows, &mut front.damper_ratio.rows);
    assert_eq!(job, same, "the rows are equal");
    let second = solve(&job);
    let paths = |answer: &Answer| answer.checked(Side::Front).nudged.iter().map(|n| n.path.clone()).collect::<Vec<_>>();
    assert_eq!(paths(&first), paths(&second), "the order of the fields that were moved by their ±");
    assert_eq!(first, second);
}
