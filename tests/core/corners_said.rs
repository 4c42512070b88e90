//! What is said of four corners: why they are not known, what their arches tell, what the parts explain, what a cure does.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use crate::common::kept::of_folder;
use crate::common::loaded;
use loaded::{kg, m, part, plain};
use springwright::base::units::Quantity;
use springwright::job::{Job, Level, Plan, Side, Way, Weighing};
use springwright::report::results::{Results, Why};
use springwright::report::sections::corner_tables::corners;
use springwright::report::sheets::{self, Kind};
use springwright::solve::answer::{Answer, RouteKind};
use springwright::solve::solve;

fn si(answer: &Answer, key: &str) -> f64 {
    Results::values_of(answer).find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key} is not known"))
}

fn foretold(answer: &Answer) -> [Option<f64>; 4] {
    answer.reweigh.corners.each_ref().map(|corner| corner.foretold.map(Quantity::si))
}

/// A weigh-in is no target for other springs: what is missing is said instead.
#[test]
fn corners_that_are_not_solved_say_what_is_missing() {
    let kept = of_folder("doubtful/corners-not-solved");
    let answer = kept.answer();
    assert_eq!(answer.whole.corners_missing, ["rear.track"]);
    assert_eq!(foretold(answer), [None; 4]);
    let figures = Results::values_of(answer);
    for key in ["whole.corners.new.lf.weight", "whole.corners.after.right_lower", "whole.corners.before.rr.arch"] {
        let why = figures.find(key).expect(key).why.clone();
        assert_eq!(why, Some(Why::Missing(vec!["rear.track".to_owned()])), "{key}");
    }
    for kind in [Kind::Order, Kind::Fitting] {
        let text = format!("{:?}", sheets::build(kind, &kept.job, answer, None));
        assert!(text.contains("without: Rear, track"), "{kind:?}: {text}");
    }
    // Where no spring is touched, the scales will show the same again.
    let mut job = kept.job.clone();
    job.front.plan = Plan::Keep;
    let after = [351.0, 332.0, 308.0, 297.0].map(Some);
    assert_eq!(foretold(&solve(&job)), after);
    job.front.left.spacer = "5 mm".into();
    assert_eq!(foretold(&solve(&job)), [None; 4]);
    // Without corner weights those are what is missing.
    job.before = Weighing { front: kg(595.0), rear: kg(525.0), ..Weighing::default() };
    job.after = Weighing { front: kg(683.0), rear: kg(605.0), ..Weighing::default() };
    assert_eq!(solve(&job).whole.corners_missing, ["after.lf", "after.rf", "after.lr", "after.rr"]);
}

/// The mean of an axle and its two corners are one measurement: the same route, the same contradiction.
#[test]
fn corner_arches_are_the_arches_of_the_axle() {
    let mut by_mean = springwright::shop::presets::find("demo-orchard-van").expect("a preset").job();
    let mut by_corner = by_mean.clone();
    let checks = &mut by_mean.front.checks;
    (checks.arch_before, checks.arch_after) = ("420 mm".into(), "385 mm".into());
    let (before, after) = (&mut by_corner.before.arch, &mut by_corner.after.arch);
    (before.lf, before.rf, after.lf, after.rf) = ("422 mm".into(), "418 mm".into(), "384 mm".into(), "386 mm".into());
    let (by_mean, by_corner) = (solve(&by_mean), solve(&by_corner));
    let route = |answer: &Answer| {
        let list = &answer.checked(Side::Front).routes.list;
        list.iter().find(|route| route.kind == RouteKind::Swap).expect("a route").wheel_rate
    };
    assert!((route(&by_mean).value - route(&by_corner).value).abs() < 1e-6);
    // Two readings of each mean are better than one.
    assert!(route(&by_corner).u < route(&by_mean).u, "{:?} {:?}", route(&by_corner), route(&by_mean));
    let odd = |answer: &Answer, field: &str| {
        answer.findings.iter().any(|f| f.rule == "routes-disagree" && f.field == field && f.level >= Level::Doubt)
    };
    assert!(odd(&by_mean, "front.checks.arch_after"));
    assert!(odd(&by_corner, "after.arch.lf"));
}

#[test]
fn the_corner_that_is_missing_to_an_arch_is_asked_for() {
    let mut job = springwright::shop::presets::find("demo-orchard-van").expect("a preset").job();
    let old = &mut job.front.spring;
    (old.rate, old.free_length, old.fitted_length) = Default::default();
    (job.before.arch.lf, job.before.arch.rf) = ("420 mm".into(), "420 mm".into());
    job.after.arch.lf = "397 mm".into();
    let ways = solve(&job).axle(Side::Front).instead.clone();
    assert!(ways.contains(&vec!["after.arch.rf".to_owned()]), "{ways:?}");
}

/// Axle by axle, 200 and 240 kg on the left before; a mass of 60 kg at 0.3 m to the right goes in.
fn with_engine() -> Job {
    let mut job = plain();
    (job.front.track, job.rear.track) = (m(1.5), m(1.5));
    job.parts = vec![part(Way::In, 60.0, 0.0)];
    job.parts[0].y = m(0.3);
    let pair = |front: f64, rear: f64| Weighing {
        lf: kg(front),
        rf: kg(front),
        lr: kg(rear),
        rr: kg(rear),
        ..Weighing::default()
    };
    (job.before, job.after) = (pair(300.0, 250.0), Weighing::default());
    job
}

/// An engine off the centreline explains left and right; a wedge across remains.
#[test]
fn the_parts_explain_left_and_right_and_a_wedge_remains() {
    let mut job = with_engine();
    let answer = solve(&job);
    let foretold = ["lf", "rf", "lr", "rr"].map(|c| si(&answer, &format!("ledger.foretold.{c}")));
    let weighed = |wedge: f64| Weighing {
        lf: kg(foretold[0] + wedge),
        rf: kg(foretold[1] - wedge),
        lr: kg(foretold[2] - wedge),
        rr: kg(foretold[3] + wedge),
        ..Weighing::default()
    };
    job.after = weighed(0.0);
    let answer = solve(&job);
    let moment: f64 =
        ["front", "rear"].map(|end| si(&answer, &format!("ledger.left_right.{end}.explained"))).iter().sum();
    // Σ m y over half the track: what the right side gains beyond the left.
    assert!((moment - 2.0 * 60.0 * 0.3 / 1.5).abs() < 1e-9, "{moment}");
    for end in ["front", "rear"] {
        assert!(si(&answer, &format!("ledger.left_right.{end}.remains")).abs() < 1e-9);
    }
    job.after = weighed(12.0);
    let answer = solve(&job);
    assert!((si(&answer, "ledger.left_right.front.remains") + 24.0).abs() < 1e-9);
    assert!((si(&answer, "ledger.left_right.rear.remains") - 24.0).abs() < 1e-9);
}

/// The finding about an uneven axle is a doubt only where the parts do not explain it, and says both.
#[test]
fn an_uneven_axle_says_what_the_parts_explain() {
    let mut job = with_engine();
    job.parts[0].mass = kg(200.0);
    job.parts[0].y = m(0.7);
    let answer = solve(&job);
    let foretold = ["lf", "rf", "lr", "rr"].map(|c| si(&answer, &format!("ledger.foretold.{c}")));
    let weighed = |more: f64| Weighing {
        lf: kg(foretold[0] - more),
        rf: kg(foretold[1] + more),
        lr: kg(foretold[2] + more),
        rr: kg(foretold[3] - more),
        ..Weighing::default()
    };
    let said = |job: &Job| {
        let findings = solve(job).findings;
        let found = findings.into_iter().find(|f| f.rule == "left-right" && f.field == "after.lf").expect("uneven");
        (found.level, found.text)
    };
    job.after = weighed(0.0);
    let (level, text) = said(&job);
    assert!(level == Level::Note && text.to_string().contains("the parts listed explain that"), "{level:?} {text}");
    job.after = weighed(25.0);
    let (level, text) = said(&job);
    assert!(level == Level::Doubt && text.to_string().contains("the remaining 50"), "{level:?} {text}");
}

/// Seats that set the cross weight right tilt the body: the cure says how far, and what would level it.
#[test]
fn the_cure_of_cross_weight_says_the_lean() {
    let answer = of_folder("cases/c10").answer();
    let blocks = format!("{:?}", corners(answer, &Results::of(answer), &Default::default()));
    let lower = answer.whole.cross.expect("seats").right_lower.si();
    let side = if lower > 0.0 { "right" } else { "left" };
    assert!(blocks.contains(&format!("The body is then {:.0} mm lower on the {side}.", lower.abs() * 1e3)), "{blocks}");
    assert!(blocks.contains("Body, after the cross weight correction") && blocks.contains("To level the body instead"));
}

/// A lean that is not the one that was weighed is shown too small until the height of the centre of gravity is known.
#[test]
fn a_lean_without_height_is_said_to_be_too_small() {
    let kept = of_folder("doubtful/lean-without-height");
    let said = |answer: &Answer| answer.findings.iter().any(|f| f.rule == "lean-without-height");
    assert!(said(kept.answer()));
    let mut job = kept.job.clone();
    job.chassis.cg_height = "550 mm".into();
    assert!(!said(&solve(&job)));
}
