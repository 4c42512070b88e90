//! What left and right have of their own, and what the axle then does.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::base::units::Quantity;
use springwright::job::{Job, OwnSpring, Plan, Side};
use springwright::report::results::Results;
use springwright::report::sections::sentence;
use springwright::report::sheets::{self, Kind};
use springwright::solve::answer::Answer;
use springwright::solve::{solve, solve_values};

fn demo() -> Job {
    springwright::shop::presets::find("demo-orchard-van").expect("a preset").job()
}

/// The demo on a spring from a list, or on its old springs.
fn on(plan: Plan) -> Job {
    let mut job = demo();
    job.front.plan = plan;
    if plan == Plan::NewSprings {
        (job.front.taken.rate, job.front.taken.free_length) = ("60 N/mm".into(), "360 mm".into());
    }
    job
}

fn spacer(text: &str) -> OwnSpring {
    OwnSpring { spacer: text.into(), ..OwnSpring::default() }
}

fn si(answer: &Answer, key: &str) -> f64 {
    Results::values_of(answer).find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key} is not known"))
}

fn sheet(kind: Kind, job: &Job) -> String {
    format!("{:?}", sheets::build(kind, job, &solve(job), None))
}

/// The same on both sides is the axle's, in every result.
#[test]
fn spacers_on_both_sides_are_the_spacer_of_the_axle() {
    for plan in [Plan::NewSprings, Plan::Keep] {
        let (mut by_side, mut by_axle) = (on(plan), on(plan));
        (by_side.front.left, by_side.front.right) = (spacer("20 mm"), spacer("20 mm"));
        match plan {
            Plan::NewSprings => by_axle.front.taken.spacer = "20 mm".into(),
            Plan::Keep => by_axle.front.spacer = "20 mm".into(),
        }
        let (by_side, by_axle) = (solve_values(&by_side), solve_values(&by_axle));
        let (found, wanted) = (Results::values_of(&by_side), Results::values_of(&by_axle));
        let mut count = 0;
        for figure in wanted.iter() {
            let is = found.find(&figure.key).unwrap_or_else(|| panic!("{} is gone", figure.key));
            match (is.si, figure.si) {
                (Some(is), Some(was)) => {
                    assert!((is - was).abs() <= 1e-9 * was.abs().max(1.0), "{plan:?} {}: {is} and {was}", figure.key);
                    count += 1;
                }
                (is, was) => assert_eq!(is, was, "{plan:?} {}", figure.key),
            }
        }
        assert!(count > 200, "{count} results");
    }
}

/// An axle stands where its corners stand on the mean.
#[test]
fn an_axle_is_the_mean_of_its_corners() {
    for plan in [Plan::NewSprings, Plan::Keep] {
        for [left, right] in [["20 mm", "0 mm"], ["0 mm", "12 mm"], ["-5 mm", "8 mm"]] {
            let mut job = on(plan);
            let alike = solve_values(&job);
            (job.front.left, job.front.right) = (spacer(left), spacer(right));
            let answer = solve_values(&job);
            let rise = |of: &Answer, key: &str| si(of, key);
            // What the axle's curve leaves to the corners, whatever the springs: leaning, weight shifted to the other axle.
            let off = |of: &Answer| {
                let corners = ["lf", "rf"].map(|corner| rise(of, &format!("whole.corners.new.{corner}.rise")));
                0.5 * (corners[0] + corners[1]) - rise(of, "front.new_springs.height_change")
            };
            assert!((off(&answer) - off(&alike)).abs() < 3e-4, "{plan:?} {left} {right}: {}", off(&answer));
        }
    }
}

/// Two coils side by side carry by the sum of their rates: k = (k₁ + k₂)/2, F = k₁ (L₁ − L) = k₂ (L₂ − L) in the mean.
/// DERIVED.
#[test]
fn two_rates_carry_as_their_mean() {
    let mut job = on(Plan::NewSprings);
    job.front.stock.settle = "0 mm".into();
    (job.front.left.rate, job.front.left.free_length) = ("66 N/mm".into(), "355 mm".into());
    let answer = solve_values(&job);
    let stands = answer.axle(Side::Front).standing.new.as_ref().expect("it stands");
    assert!((stands.spring_rate.si() - 63e3).abs() < 1e-6);
    let (force, length) = (stands.spring_force.si(), stands.spring_length.expect("a length").si());
    let mean = 0.5 * (66e3 * (0.355 - length) + 60e3 * (0.360 - length));
    assert!((force - mean).abs() < 1e-6 * force, "{force} and {mean}");
    // What is ordered stays the axle's own: its length under that load.
    let own = si(&answer, "front.room.own_at_ride");
    assert!((60e3 * (0.360 - own) - force).abs() < 1e-6 * force, "{own}");
}

/// A side that is on a thicker spacer binds first, one on a thinner is loose first.
#[test]
fn the_worse_side_has_the_least_room() {
    let mut job = on(Plan::NewSprings);
    let alike = solve_values(&job);
    job.front.left = spacer("10 mm");
    let answer = solve_values(&job);
    let less = |key: &str| si(&alike, key) - si(&answer, key);
    assert!((less("front.room.to_bind") - 0.010).abs() < 1e-9);
    assert!(less("front.room.seat").abs() < 1e-9);
}

/// Sentence, customer, order and fitting sheet say one height, and all parts.
#[test]
fn every_sheet_says_the_height_on_own_spacers() {
    let mut job = demo();
    (job.front.left, job.front.right) = (spacer("20 mm"), spacer("20 mm"));
    let answer = solve(&job);
    let said = sentence::axle(&answer, answer.axle(Side::Front), &job.units).answer;
    assert!(said.contains("30 mm higher than before") && !said.contains("Left"), "{said}");
    let customer = sheet(Kind::Customer, &job);
    assert!(customer.contains("30 mm higher") && customer.contains("20 mm thick"), "{customer}");
    assert!(sheet(Kind::Order, &job).contains("20 mm"));
    // Under old springs that stay they are no less sold.
    job.front.plan = Plan::Keep;
    job.front.right = OwnSpring::default();
    let answer = solve(&job);
    let said = sentence::axle(&answer, answer.axle(Side::Front), &job.units).answer;
    assert!(said.contains("spacers (left 20 mm, right none)"), "{said}");
    for kind in [Kind::Customer, Kind::Order, Kind::Fitting] {
        let text = sheet(kind, &job);
        assert!(text.contains("left 20 mm, right none"), "{kind:?}: {text}");
    }
    let gap = answer.axle(Side::Front).standing.new.as_ref().and_then(|s| s.stop_room).map(Quantity::si);
    assert!(gap.is_some_and(|gap| gap > 0.045), "{gap:?}");
}

/// Where left and right are not alike, the fitting sheet has a target for each: the mean would be neither.
#[test]
fn the_fitting_sheet_has_a_target_for_each_side() {
    let mut job = on(Plan::NewSprings);
    job.front.left = spacer("20 mm");
    let answer = solve(&job);
    let travel = answer.whole.corners.new.expect("corners").travel;
    let gap = |corner: springwright::base::units::Length| format!("{:.0} mm", 1e3 * (0.055 - corner.si()));
    let said = format!("left {}, right {}", gap(travel.lf), gap(travel.rf));
    let text = sheet(Kind::Fitting, &job);
    assert!(text.contains(&said), "{said}: {text}");
}
