//! What is ordered, kept or not recommended for each kind of spring.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use springwright::base::units::Quantity;
use springwright::job::{Job, Side, file};
use springwright::report::sheets::sheet;
use springwright::report::write::text;
use springwright::solve::answer::{Answer, RouteKind};
use springwright::solve::solve;

/// A front axle of 400 kg a corner before and 450 kg after, unsprung 40 kg, spring ratio 0.75; the rest from `more`.
fn job(more: &str) -> Job {
    let text = format!(
        r#"(version: 1, job: (before: (front: "800 kg"), after: (front: "900 kg"), front: (
            unsprung: "40 kg", ratio: (wheel_moved: "60 mm", part_moved: "45 mm"),
            travel: (stop_gap: "60 mm", metal: "90 mm", droop: "80 mm"), {more})))"#
    );
    file::parse(&text).unwrap_or_else(|e| panic!("{e} in {text}"))
}

/// In one line: no phrase is broken by the end of a line.
fn sheet_text(job: &Job, answer: &Answer) -> String {
    let text = text::write(&sheet::build(job, answer), text::Markup::Plain);
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

const HELPER: &str = r#"helper: (rate: "20 N/mm", free_length: "60 mm", solid_length: "20 mm")"#;

/// A helper that stays is in the length to order, whether the old main coil's rate is known or not: by hand
/// 250 − 20 + F / k with F = 410 kg · g / 0.75 = 5 361 N and k = 50 N/mm, 337.2 mm.
#[test]
fn a_helper_that_stays_is_in_the_length_to_order() {
    for rate in [r#"rate: "47 N/mm", "#, ""] {
        let job = job(&format!(
            r#"spring: (kind: WithHelper, {rate}fitted_length: "250 mm", {HELPER}), target: (low: "1.2 Hz", high: "1.4 Hz"), stock: (step: "5 N/mm")"#
        ));
        let answer = solve(&job);
        let released = answer.released(Side::Front).expect("released");
        let sizing = released.spring.expect("weights, ratio and helper are known");
        assert_eq!(sizing.pick.si(), 50e3);
        let free_mm = sizing.free_length.expect("a fitted length is typed").si() * 1e3;
        assert!((free_mm - 337.2).abs() < 0.1, "{rate}: {free_mm}");
    }
    let half =
        job(r#"spring: (kind: WithHelper, rate: "47 N/mm", fitted_length: "250 mm", helper: (rate: "20 N/mm"))"#);
    let answer = solve(&half);
    let front = answer.axle(Side::Front);
    assert!(front.sizing.is_none(), "without the helper's lengths nothing can be ordered");
    assert_eq!(front.missing, ["front.spring.helper.free_length", "front.spring.helper.solid_length"]);
}

/// A helper stiffer than the stack should be stays open: the main coil is chosen so that both in series make the rate.
#[test]
fn an_open_helper_is_counted_in_the_rate() {
    let job = job(
        r#"spring: (kind: WithHelper, rate: "60 N/mm", fitted_length: "250 mm", helper: (rate: "200 N/mm", free_length: "120 mm", solid_length: "40 mm")), target: (low: "1.2 Hz", high: "1.4 Hz"), stock: (step: "1 N/mm")"#,
    );
    let answer = solve(&job);
    let front = answer.axle(Side::Front);
    let hz = front.standing.new.as_ref().expect("sized").frequency.si();
    assert!((1.29..1.31).contains(&hz), "the middle of 1.2 to 1.4 Hz: {hz}");
    assert!(answer.released(Side::Front).expect("released").spring.expect("sized").pick_inside);
}

/// The ± of the helper's solid length reaches the height on the new springs: 10 mm / 0.75 = 13.3 mm at the wheel.
#[test]
fn the_helper_is_as_it_was_measured_when_a_plus_and_minus_is_followed() {
    let job = job(
        r#"spring: (kind: WithHelper, rate: "47 N/mm", fitted_length: (text: "250 mm", pm: "0 mm"), helper: (rate: "20 N/mm", free_length: "60 mm", solid_length: (text: "20 mm", pm: "10 mm", spread: Standard)))"#,
    );
    let answer = solve(&job);
    let height = |a: &springwright::solve::answer::AxleAnswer| Some(a.standing.new.as_ref()?.height_change?.si());
    let u_mm = answer.checked(Side::Front).nudged.u_of(height).expect("a ± is known") * 1e3;
    assert!((13.0..16.0).contains(&u_mm), "{u_mm}");
}

#[test]
fn springs_that_stay_buy_nothing() {
    let coil = job(
        r#"plan: Keep, spring: (rate: "47 N/mm", fitted_length: "250 mm"), stock: (coil: (diameter: "13 mm", outside_diameter: "120 mm", active_coils: "5"))"#,
    );
    let answer = solve(&coil);
    let front = answer.axle(Side::Front);
    assert!(front.offered.is_none());
    assert!(answer.released(Side::Front).expect("released").wound.is_none());
    let bar = job(
        r#"plan: Keep, spring: (kind: TorsionBar, bar: (diameter: "26 mm", length: "1000 mm", arm: "330 mm", angle: "8°"))"#,
    );
    let said = sheet_text(&bar, &solve(&bar));
    assert!(!said.contains("Spring to buy") && !said.contains("Index angle of the new bar"), "{said}");
}

#[test]
fn over_its_rating_no_sheet_orders_anything() {
    for spring in [
        r#"spring: (rate: "47 N/mm", fitted_length: "250 mm", free_length: "360 mm"), stock: (preset: true, coil: (outside_diameter: "140 mm"))"#,
        r#"spring: (kind: TorsionBar, bar: (diameter: "26 mm", length: "1000 mm", arm: "330 mm", angle: "8°"))"#,
        r#"spring: (rate: "47 N/mm", fitted_length: "250 mm"), bag: (area: "80 cm²", volume: "1200 cm³")"#,
    ] {
        let fine = job(spring);
        let over = job(&format!(r#"rating: "850 kg", {spring}"#));
        let (fine, over) = (sheet_text(&fine, &solve(&fine)), sheet_text(&over, &solve(&over)));
        let orders = [
            "spring to be wound --",
            "Index angle of the new bar",
            "to order",
            "alternative: air bag with the old springs",
            "(free length ",
        ];
        assert!(orders.iter().any(|o| fine.contains(o)), "the comparison is of something:\n{fine}");
        for order in orders {
            assert!(!over.contains(order), "{order} on the sheet of an axle over its rating:\n{over}");
        }
    }
}

/// Ballast on a progressive coil gives a secant; brought back to the reference height it is the rate there. The drop is
/// what the table itself gives: 1 471 N at the wheel are 1 961 N at the spring, from 5 361 N (the weight before is
/// 360 kg a corner sprung: 4 707 N) on.
#[test]
fn ballast_on_a_progressive_coil_agrees_with_its_table() {
    let points = r#"points: [(length: "330 mm", load: "0 N"), (length: "290 mm", load: "1200 N"), (length: "260 mm", load: "3000 N"), (length: "240 mm", load: "5000 N"), (length: "220 mm", load: "7600 N"), (length: "205 mm", load: "10000 N")]"#;
    let spring = format!(r#"spring: (kind: Progressive, fitted_length: "243 mm", {points})"#);
    let plain = job(&spring);
    let answer = solve(&plain);
    let standing = answer.axle(Side::Front).standing.before.clone().expect("weighed before");
    let added_n = 150.0 * 9.806_65;
    let loaded =
        standing.curve.ride_height(Quantity::from_si(standing.sprung.si() * 9.806_65 + added_n)).expect("stands");
    let drop_mm = (loaded.travel - standing.travel).si() * 1e3;
    let with = job(&format!(r#"{spring}, checks: (ballast: "300 kg", ballast_drop: "{drop_mm} mm")"#));
    let answer = solve(&with);
    let list = &answer.checked(Side::Front).routes.list;
    let rate = |kind| list.iter().find(|r| r.kind == kind).expect("a route").wheel_rate.value;
    let off = rate(RouteKind::Ballast) / rate(RouteKind::Spring) - 1.0;
    assert!(off.abs() < 1e-6, "off by {off}");
}

/// Without the old spring the new one is placed at the height at which lengths were measured, and the words say so.
#[test]
fn without_the_old_spring_the_words_name_the_height() {
    let job = job(r#"spring: (fitted_length: "250 mm")"#);
    let answer = solve(&job);
    let said = springwright::report::sections::sentence::axle(&answer, answer.axle(Side::Front), &job.units);
    assert!(said.answer.ends_with("at the measured height."), "{}", said.answer);
    assert!(
        said.certainty.contains("The old spring is not known; still needed: \"Old spring rate\""),
        "{}",
        said.certainty
    );
}
