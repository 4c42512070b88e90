//! What each corner does by itself, how the links of the bars are when it is weighed again, and tyres that hardly give.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::f64::consts::TAU;
use std::path::Path;

use springwright::base::units::Quantity;
use springwright::job::{BarLinks, Job, LinksAgain, OwnSpring, Side, file};
use springwright::report::results::Results;
use springwright::report::sheets::{self, Kind};
use springwright::solve::answer::Answer;
use springwright::solve::{solve, solve_values};

/// Worked case C10, as a job.
fn c10() -> Job {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/c10.ron");
    file::read(&path).expect("the case is a job")
}

fn demo() -> Job {
    springwright::shop::presets::demo()
}

fn si(answer: &Answer, key: &str) -> f64 {
    Results::values_of(answer).find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key} is not known"))
}

fn frequencies(answer: &Answer, state: &str) -> [f64; 4] {
    ["lf", "rf", "lr", "rr"].map(|corner| si(answer, &format!("whole.corners.{state}.{corner}.frequency")))
}

/// f = √(k/m)/2π with the wheel rate of a straight spring and what each corner's scale shows less its unsprung mass.
/// DERIVED.
#[test]
fn a_corner_swings_by_its_own_load() {
    let answer = solve_values(&c10());
    for (axle, corners) in [(Side::Front, ["lf", "rf"]), (Side::Rear, ["lr", "rr"])] {
        let rate = answer.axle(axle).standing.old.as_ref().expect("it stands").wheel_rate.si();
        let unsprung = answer.axle(axle).masses.unsprung.after.expect("unsprung mass").si();
        for corner in corners {
            let sprung = si(&answer, &format!("whole.corners.after.{corner}.weight")) - unsprung;
            let by_hand = (rate / sprung).sqrt() / TAU;
            let found = si(&answer, &format!("whole.corners.after.{corner}.frequency"));
            assert!((found / by_hand - 1.0).abs() < 1e-9, "{corner}: {found}, by hand {by_hand}");
        }
    }
}

/// Corners that are alike are the axle.
#[test]
fn equal_corners_swing_as_their_axle() {
    let mut job = demo();
    for weighing in [&mut job.before, &mut job.after] {
        (weighing.rf, weighing.rr) = (weighing.lf.clone(), weighing.lr.clone());
    }
    let answer = solve_values(&job);
    for (state, key) in [("before", "before"), ("after", "old_springs"), ("new", "new_springs")] {
        let axles = ["front", "rear"].map(|side| si(&answer, &format!("{side}.{key}.frequency")));
        for (i, found) in frequencies(&answer, state).into_iter().enumerate() {
            assert!((found / axles[i / 2] - 1.0).abs() < 1e-3, "{state} {i}: {found}, axle {}", axles[i / 2]);
        }
    }
}

/// What is found again are the corners with the links as they will be then; blank is as at the weigh-in after.
#[test]
fn links_when_weighed_again() {
    let targets = |again: LinksAgain, after: BarLinks| {
        let mut job = c10();
        (job.fitted.bar_links, job.after.bar_links) = (again, after);
        // Beyond it the cross weight would be set first, which is done with the links off.
        job.limits.cross = "20 %".into();
        let answer = solve_values(&job);
        ["lf", "rf", "lr", "rr"].map(|corner| si(&answer, &format!("fitted.weight.{corner}.foretold")))
    };
    assert_eq!(targets(LinksAgain::AsAfter, BarLinks::Off), targets(LinksAgain::Off, BarLinks::Off));
    assert_eq!(targets(LinksAgain::AsAfter, BarLinks::On), targets(LinksAgain::On, BarLinks::On));
    let apart = targets(LinksAgain::On, BarLinks::On)[0] - targets(LinksAgain::Off, BarLinks::On)[0];
    assert!(apart.abs() > 1.0, "the bar carries: {apart} kg");
}

/// The fitting sheet says how to weigh.
#[test]
fn the_fitting_sheet_says_how_the_links_are() {
    let said = |links: LinksAgain| {
        let mut job = c10();
        job.fitted.bar_links = links;
        // Beyond it the cross weight would be set first, which is done with the links off.
        job.limits.cross = "20 %".into();
        format!("{:?}", sheets::build(Kind::Fitting, &job, &solve(&job), None))
    };
    assert!(said(LinksAgain::Off).contains("links disconnected"));
    assert!(said(LinksAgain::On).contains("links connected"));
}

/// A tyre that hardly gives changes nothing: with and without tyre are one frequency.
#[test]
fn a_solid_tyre_is_typed_as_a_high_rate() {
    let mut job = demo();
    job.front.tyre_rate = "100000 N/mm".into();
    job.rear.tyre_rate = "100000 N/mm".into();
    let answer = solve_values(&job);
    for side in ["front", "rear"] {
        let of = |key: &str| si(&answer, &format!("{side}.new_springs.{key}"));
        let (with, without) = (of("frequency_with_tyre"), of("frequency"));
        assert!((with / without - 1.0).abs() < 1e-3, "{side}: {with} and {without}");
        assert!((of("height_change_at_ground") - of("height_change")).abs() < 1e-4, "{side}");
    }
    frequencies(&answer, "new");
}

/// A spring for each side as the list has it: solid length and price of its own.
#[test]
fn own_springs_bind_and_cost_by_themselves() {
    let mut job = demo();
    (job.front.taken.rate, job.front.taken.free_length) = ("60 N/mm".into(), "360 mm".into());
    (job.front.taken.solid_length, job.front.taken.price) = ("170 mm".into(), "48".into());
    job.prices.work = "100".into();
    let alike = solve_values(&job);
    let own = |solid: &str, price: &str| OwnSpring {
        solid_length: solid.into(),
        price: price.into(),
        ..OwnSpring::default()
    };
    (job.front.left, job.front.right) = (own("182 mm", "55"), own("160 mm", ""));
    let answer = solve(&job);
    let less = si(&alike, "front.room.to_bind") - si(&answer, "front.room.to_bind");
    assert!((less - 0.012).abs() < 1e-9, "the longer solid length binds first: {less}");
    let price = |of: &Answer| of.remedies.front.iter().filter_map(|remedy| remedy.price).fold(0.0, f64::max);
    assert!((price(&answer) - price(&alike) - (55.0 - 48.0)).abs() < 1e-9, "{} {}", price(&answer), price(&alike));
    let order = format!("{:?}", sheets::build(Kind::Order, &job, &answer, None));
    assert!(order.contains("solid length 182 mm") && order.contains("left 55.00 EUR, right 48.00 EUR"), "{order}");
}
