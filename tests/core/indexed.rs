//! Old torsion bars that stay and are indexed again: where the body then stands, and that they lead where they do what new
//! bars would. Invented vehicles; by hand.

use crate::common::sheets::{plain, preset, sheet};

use springwright::base::units::Quantity as _;
use springwright::job::{Job, Plan, Side, file};
use springwright::report::sections::{brief, sentence};
use springwright::report::sheets::Kind;
use springwright::report::sheets::plan_table::Plans;
use springwright::report::write::json;
use springwright::solve::answer::{Answer, Kept, RemedyKind};
use springwright::solve::solve;

const G: f64 = 9.806_65;
/// Of the bar in [`job`]: arm, its angle at the height before, twist rate π G d⁴ / (32 l).
const ARM_M: f64 = 0.38;
const ANGLE_RAD: f64 = 10.0 * std::f64::consts::PI / 180.0;

fn twist_rate() -> f64 {
    std::f64::consts::PI * 78.5e9 * 0.027_f64.powi(4) / (32.0 * 1.15)
}

/// 360 kg sprung a corner before, 400 kg after, on bars of 27 mm: 1.22 Hz. The only bar in steps of 0.5 mm between 1.20
/// and 1.24 Hz is one of 27 mm: half a millimetre is 3.7 % of the frequency.
fn job() -> Job {
    let text = r#"(version: 3, job: (before: (front: (text: "800 kg", pm: "1 kg"), rear: "600 kg"), after: (front: (text: "880 kg", pm: "1 kg"), rear: "600 kg"),
        front: (unsprung: (text: "40 kg", pm: "1 kg"), suspension: TwoArms,
            spring: (kind: TorsionBar, bar: (diameter: (text: "27 mm", pm: "0.02 mm"), length: (text: "1150 mm", pm: "1 mm"),
                arm: (text: "380 mm", pm: "0.5 mm"), angle: (text: "10°", pm: "0.2°"), shear_modulus: "78.5 GPa", allowed_stress: "900 MPa")),
            parallel: (rate: "0 N/mm"),
            travel: (stop_gap: "60 mm", metal: "90 mm", droop: "80 mm"),
            damper: (ratio_before: (text: "0.30", pm: "3 %")),
            target: (low: "1.20 Hz", high: "1.24 Hz"), stock: (bar_step: "0.5 mm")),
        rear: (plan: Keep, dampers: Keep),
        prices: (currency: "EUR", spacers: "30", springs: "200", dampers: "300", work: "100", damper_work: "50")))"#;
    file::parse(text).expect("a job")
}

fn kept(index: &str) -> Job {
    let mut job = job();
    (job.front.plan, job.front.index) = (Plan::Keep, index.into());
    job
}

fn first_line(job: &Job, answer: &Answer) -> String {
    sentence::axle(answer, answer.axle(Side::Front), &job.units).answer
}

/// What the wheel carries `travel_m` above the height before, by statics: T = k_θ (θ0 + δ − α) on the lever R cos α.
fn carries_n(travel_m: f64, index_rad: f64) -> f64 {
    let free_rad = ANGLE_RAD + 360.0 * G * ARM_M * ANGLE_RAD.cos() / twist_rate();
    let angle_rad = (ANGLE_RAD.sin() - travel_m / ARM_M).asin();
    twist_rate() * (free_rad + index_rad - angle_rad) / (ARM_M * angle_rad.cos())
}

#[test]
fn it_stands_where_statics_says() {
    for (text, degrees) in [("2.5°", 2.5_f64), ("-1°", -1.0), ("0.07 rad", 0.07_f64.to_degrees())] {
        let answer = solve(&kept(text));
        let new = answer.axle(Side::Front).standing.new.as_ref().expect("stands");
        let index_rad = degrees.to_radians();
        let (mut low_m, mut high_m) = (-0.1, 0.1);
        for _ in 0..60 {
            let middle_m = 0.5 * (low_m + high_m);
            if carries_n(middle_m, index_rad) < 400.0 * G { low_m = middle_m } else { high_m = middle_m }
        }
        assert!((new.travel.si() - low_m).abs() < 1e-9, "{text}: {} {low_m}", new.travel.si());
        let slope = (carries_n(low_m + 1e-6, index_rad) - carries_n(low_m - 1e-6, index_rad)) / 2e-6;
        let hz = (slope / 400.0).sqrt() / std::f64::consts::TAU;
        assert!((new.frequency.si() / hz - 1.0).abs() < 1e-6, "{text}: {} {hz}", new.frequency.si());
    }
}

#[test]
fn old_bars_that_do_the_same_lead_everywhere() {
    let job = job();
    let answer = solve(&job);
    let lead = answer.lead(Side::Front).expect("alike");
    assert_eq!((lead.kind, lead.leads()), (RemedyKind::Spacer, true), "{lead:?}");
    // 392 N · 0.38 m · cos 10° / 3561 N·m/rad = 2.36°, by half degrees.
    let index_rad = 2.5_f64.to_radians();
    let Some(Kept::Indexed(both)) = lead.kept() else { panic!("{lead:?}") };
    assert!(both.both().iter().all(|index| (index.value - index_rad).abs() < 1e-12), "{lead:?}");
    let said = first_line(&job, &answer);
    let wanted =
        "Front: the old torsion bars stay, wound up by 2.5°; they do the same as new ones of 27 mm. The body bounces";
    assert!(said.starts_with(wanted), "{said}");
    let strip = brief::axle(&answer, Side::Front, &job.units);
    assert_eq!(strip.pick, Ok("old torsion bars, wound up by 2.5°".to_owned()));
    let json = json::value(&job, &answer);
    assert_eq!(json["lead"]["front"]["remedy"], "spacer");
    assert!((json["lead"]["front"]["index"].as_f64().expect("an angle") - index_rad).abs() < 1e-12);
    assert_eq!(json["lead"]["front"]["spacer"], serde_json::Value::Null);
    let on = |kind| plain(&sheet(kind, &job, &answer));
    let (customer, order, fitting) = (on(Kind::Customer), on(Kind::Order), on(Kind::Fitting));
    for text in [&customer, &order, &fitting] {
        assert!(text.contains("+2.5°"), "{text}");
        assert!(!text.contains("27 mm torsion bars") && !text.to_lowercase().contains("spacer"), "{text}");
    }
    // Work alone, nothing is bought.
    assert!(customer.contains("100.00 EUR") && !customer.contains("130.00"), "{customer}");
    assert!(customer.contains("the same as new ones would, for less"), "{customer}");
    assert!(order.contains("re-indexed like this, they do the same as new ones"), "{order}");
    // The bar is unloaded before anything else is freed.
    assert!(fitting.contains("Unwind a torsion bar before") && fitting.contains("nearest spline"), "{fitting}");
}

#[test]
fn what_its_stress_allows_decides() {
    let mut unknown = job();
    unknown.front.travel.metal = "".into();
    let answer = solve(&unknown);
    let lead = answer.lead(Side::Front).expect("may be alike");
    assert!(lead.measure.contains(&"front.travel.metal".to_owned()), "{lead:?}");
    assert!(first_line(&unknown, &answer).starts_with("Front: measure first: "));
    // At full bump the bar sees 16 T / (π d³), about 600 MPa.
    let mut over = job();
    over.front.spring.bar.allowed_stress = "550 MPa".into();
    assert!(solve(&over).lead(Side::Front).is_none());
    let mut anyway = job();
    anyway.front.new_anyway = true;
    assert!(solve(&anyway).lead(Side::Front).is_none());
}

#[test]
fn left_and_right_may_be_indexed_differently() {
    let index = |left: &str, right: &str| {
        let mut job = preset("torsion-bar-front").0;
        (job.front.plan, job.front.dampers) = (Plan::Keep, springwright::job::DamperPlan::Keep);
        job.rear.spring_base = "1050 mm".into();
        (job.front.left.index, job.front.right.index) = (left.into(), right.into());
        (solve(&job), job)
    };
    let lean = |answer: &Answer| answer.whole.corners.new.as_ref().expect("corners").right_lower.si();
    let ((alike, _), (left, job), (right, _)) = (index("2°", "2°"), index("3°", "1°"), index("1°", "3°"));
    let (by_left, by_right) = (lean(&left) - lean(&alike), lean(&right) - lean(&alike));
    assert!(by_left > 0.002, "the left bar is wound up more: {by_left}");
    assert!((by_left + by_right).abs() < 0.02 * by_left, "{by_left} {by_right}");
    // For the axle they are one bar, indexed by the mean.
    let travel = |answer: &Answer| answer.axle(Side::Front).standing.new.as_ref().expect("stands").travel.si();
    assert!((travel(&left) - travel(&alike)).abs() < 1e-9, "{} {}", travel(&left), travel(&alike));
    let said = first_line(&job, &left);
    assert!(said.contains("the old torsion bars stay, re-indexed (left +3.0°, right +1.0°)."), "{said}");
    let order = plain(&sheet(Kind::Order, &job, &left));
    assert!(order.contains("left +3.0°, right +1.0°"), "{order}");
}

#[test]
fn where_it_means_nothing_is_said_not_used() {
    let rules = |job: &Job| solve(job).findings.iter().map(|f| (f.rule, f.field.clone())).collect::<Vec<_>>();
    let not_used = ("index-not-used", "front.index".to_owned());
    assert!(!rules(&kept("2°")).contains(&not_used));
    let mut new = job();
    (new.front.index, new.front.left.index) = ("2°".into(), "1°".into());
    assert!(rules(&new).contains(&not_used), "new bars go in");
    assert!(rules(&new).contains(&("side-not-used", "front.left.index".to_owned())));
    let mut coil = preset("demo-orchard-van").0;
    (coil.front.plan, coil.front.index) = (Plan::Keep, "2°".into());
    assert!(rules(&coil).contains(&not_used), "coils are not indexed");
}

#[test]
fn the_plan_that_the_program_adds_is_named_after_bars() {
    let (job, answer) = preset("torsion-bar-front");
    let plans = Plans::of(&job, &answer, || true).expect("wanted").json();
    let names: Vec<&str> = plans["all"].as_array().expect("plans").iter().filter_map(|p| p["name"].as_str()).collect();
    assert!(names.contains(&"old torsion bars, re-indexed"), "{names:?}");
}
