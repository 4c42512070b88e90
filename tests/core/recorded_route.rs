//! A recorded bounce as a route to the wheel rate, and its damping by the damper's curve: forward by the quarter car's
//! polynomial or by hand, back by the program.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use springwright::base::math::spread::Measured;
use springwright::base::units::{Frequency, Mass, Quantity, Ratio, Spread, SpringRate, Velocity};
use springwright::job::{Job, Side, Walk, file};
use springwright::report::pictures::motion;
use springwright::report::results::{Results, figures};
use springwright::solve::answer::{Answer, AxleAnswer, RouteKind, State};
use springwright::solve::recorded::{Bounce, of_axle};
use springwright::solve::solve;
use springwright::trade::recording::BodyMode;
use springwright::trade::road::Corner;

const SPRUNG: f64 = 355.0;
const UNSPRUNG: f64 = 40.0;
const TYRE: f64 = 210e3;

/// The mode of a corner with this wheel rate and damping ratio on springs.
fn mode(wheel_rate: f64, ratio: f64) -> BodyMode {
    let c = 2.0 * ratio * (wheel_rate * SPRUNG).sqrt();
    let corner = Corner {
        sprung: Mass::from_si(SPRUNG),
        unsprung: Mass::from_si(UNSPRUNG),
        wheel_rate: SpringRate::from_si(wheel_rate),
        tyre_rate: SpringRate::from_si(TYRE),
        damping: Quantity::from_si(c),
    };
    BodyMode::of(&corner).expect("it swings")
}

/// Both axles; `front` and `rest` as they stand in the file.
fn job(front: &str, rest: &str) -> Job {
    file::parse(&format!(
        r#"(version: 1, job: (
            before: (front: "{} kg", rear: "600 kg"), after: (front: "900 kg", rear: "640 kg"), {rest}
            front: (unsprung: "{UNSPRUNG} kg", tyre_rate: "{} N/mm", {front}),
            rear: (unsprung: "40 kg"),
        ))"#,
        2.0 * (SPRUNG + UNSPRUNG),
        TYRE / 1e3,
    ))
    .expect("a job")
}

fn recorded(mode: &BodyMode) -> String {
    let (hz, ratio) = (mode.frequency.si(), mode.damping.si());
    format!("bounce: (before: (frequency: \"{hz} Hz\", damping: \"{ratio}\")),")
}

fn front(answer: &Answer) -> &AxleAnswer {
    answer.axle(Side::Front)
}

fn close(found: f64, truth: f64, relative: f64) {
    assert!((found / truth - 1.0).abs() <= relative, "{found} of {truth}");
}

/// A straight spring: k_w = k r², and nothing else is needed than the bounce.
#[test]
fn a_bounce_alone_gives_the_rate() {
    let ratio = "ratio: (wheel_moved: \"100 mm\", part_moved: \"65 mm\"),";
    let answer = solve(&job(&format!("{ratio} {}", recorded(&mode(16_900.0, 0.27))), ""));
    close(front(&answer).old_spring.rate.expect("a rate").si(), 40e3, 1e-9);
    let by = answer.checked(Side::Front).by_routes.expect("worked out");
    assert_eq!(by.routes(), [(RouteKind::Recorded, 1.0)]);
}

/// Masses and tyre are enough for the wheel rate: no motion ratio, no spring, no damper; in the job, and of a recording that
/// is not in it yet.
#[test]
fn without_a_motion_ratio_the_wheel_rate_is_still_told() {
    let truth = mode(16_900.0, 0.27);
    let answer = solve(&job(&recorded(&truth), ""));
    assert!(front(&answer).motion_ratio.is_none() && front(&answer).old_spring.rate.is_none());
    close(front(&answer).bounce.before.wheel_rate.expect("told").si(), 16_900.0, 1e-9);
    let results: Results = figures(&answer).into();
    let told = results.find("front.bounce.measured.before.wheel_rate").expect("a result");
    assert!(
        told.si.is_some_and(|k| (k / 16_900.0 - 1.0).abs() < 1e-9) && told.u_si.is_some_and(|u| u > 0.0),
        "{told:?}"
    );

    let found = |value: f64, u: f64| Some(Measured { value, u });
    let bounce = Bounce {
        frequency_hz: found(truth.frequency.si(), 0.01),
        damping: found(truth.damping.si(), 0.01),
        ..Bounce::default()
    };
    let bare = solve(&job("", ""));
    let of = of_axle(&bare, Side::Front, State::Before, &bounce).expect("masses and tyre are known");
    close(of.wheel_rate.expect("told").value, 16_900.0, 1e-9);
    assert!(!of.is_compared(), "the job predicts nothing of it: {of:?}");
    let mut unknown = job("", "");
    unknown.before = Default::default();
    assert!(of_axle(&solve(&unknown), Side::Front, State::Before, &bounce).is_none(), "nothing is known before");
}

/// A ratio that changes: what was recorded before the swap is brought to the height at which lengths were measured. The
/// truth is the wheel rate of the same spring, where it is known.
#[test]
fn the_height_before_is_brought_to_the_reference() {
    let rows: String = [-80.0_f64, -40.0, 0.0, 40.0, 80.0]
        .iter()
        .map(|z| format!("(wheel: \"{z} mm\", length: \"{} mm\"),", 260.0 - 0.62 * z - 0.45e-3 * z * z))
        .collect();
    for measured_at in ["Before", "After"] {
        let rest = format!("measured_at: {measured_at},");
        let ratio = format!("ratio: (by: Rows, rows: [{rows}]),");
        let known = solve(&job(&format!("{ratio} spring: (rate: \"44 N/mm\"),"), &rest));
        let before = front(&known).standing.before.as_ref().expect("stands").wheel_rate.si();
        let bounce = recorded(&mode(before, 0.27));
        let answer = solve(&job(&format!("{ratio} {bounce}"), &rest));
        close(front(&answer).old_spring.rate.expect("a rate").si(), 44e3, 1e-7);
        let at_reference = front(&answer).route_rates[RouteKind::Recorded as usize].expect("a route").si();
        let is_moved = (at_reference / before - 1.0).abs() > 0.02;
        assert_eq!(is_moved, measured_at == "After", "{at_reference} of {before}");
    }
}

/// u by hand: central differences of the polynomial, by the frequency's ± and by what the other end takes part. Of a body
/// whose κ² is not known that is a fifth of a/(a + b), as limits; of the sprung 1,230 kg before, 520 are behind.
#[test]
fn the_spread_counts_the_other_end() {
    let truth = mode(16_900.0, 0.27);
    let rate_of = |hz: f64, sprung: f64| {
        let mode = BodyMode { frequency: Frequency::from_si(hz), damping: truth.damping };
        let found = mode.rate_and_damping(Mass::from_si(sprung), Mass::from_si(UNSPRUNG), SpringRate::from_si(TYRE));
        found.expect("a corner").0.si()
    };
    let hz = truth.frequency.si();
    let by_frequency = (rate_of(hz + 0.02, SPRUNG) - rate_of(hz - 0.02, SPRUNG)) / 2.0;
    let behind = 520.0 / (520.0 + 2.0 * SPRUNG);
    let u_of = |rest: &str| {
        let ratio = "ratio: (wheel_moved: \"100 mm\", part_moved: \"65 mm\"),";
        let mut job = job(&format!("{ratio} {}", recorded(&truth)), rest);
        job.walk_mut(&mut String::new(), &mut |_, entry| entry.set_pm("0 %", Spread::Standard));
        job.at_mut("front.bounce.before.frequency").expect("a field").set_pm("0.02 Hz", Spread::Standard);
        let answer = solve(&job);
        let route = answer.checked(Side::Front).routes.list.iter().find(|r| r.kind == RouteKind::Recorded).copied();
        route.expect("a route").wheel_rate.u
    };
    let by_hand = |share: f64| {
        let moved = SPRUNG * share / 3.0_f64.sqrt();
        by_frequency.hypot((rate_of(hz, SPRUNG + moved) - rate_of(hz, SPRUNG - moved)) / 2.0)
    };
    close(u_of(""), by_hand(0.2 * behind), 0.01);
    // κ = 1.3 m over 2.5 m: κ²/b − a of the wheelbase.
    let rest = "vehicle: (wheelbase: \"2500 mm\"), chassis: (pitch_radius: \"1300 mm\"),";
    let share = (1.3_f64 / 2.5).powi(2) / (1.0 - behind) - behind;
    assert!(share.abs() < 0.2 * behind, "{share}");
    close(u_of(rest), by_hand(share), 0.01);
}

/// A damper of two slopes, 3 kN·s/m up to 0.05 m/s, then 1 kN·s/m: by equal work at a peak of 0.05 m/s the mean rate is
/// 3 kN·s/m, at 0.13 m/s 3 − 2(1 − N(0.05/0.13)), N(a) = (2/π)(asin a + a√(1 − a²)).
#[test]
fn damping_at_one_speed_fills_that_at_another_by_the_curve() {
    let rows = r#"rows: [(speed: "0.05 m/s", bump: "150 N", rebound: "150 N"), (speed: "0.55 m/s", bump: "650 N", rebound: "650 N")]"#;
    let text = format!(
        "ratio: (wheel_moved: \"100 mm\", part_moved: \"100 mm\"), spring: (rate: \"20 N/mm\"), damper: ({rows}),"
    );
    let answer = solve(&job(&text, ""));
    let axle = front(&answer);
    let a: f64 = 0.05 / 0.13;
    let share = std::f64::consts::FRAC_2_PI * (a.asin() + a * (1.0 - a * a).sqrt());
    let [slow, own] = [3e3, 3e3 - 2e3 * (1.0 - share)];
    let rate = axle.rate_at(State::Before, Velocity::from_si(0.05)).expect("known").si();
    close(rate, slow / own, 1e-9);
    // The bounce at that speed shows the mode with 3 kN·s/m; the job's damping ratio is that at its own speed.
    let critical = 2.0 * (20e3 * SPRUNG).sqrt();
    let exact = |value: f64| Some(Measured { value, u: 0.01 * value });
    let shown = mode(20e3, slow / critical);
    let bounce = Bounce {
        frequency_hz: exact(shown.frequency.si()),
        damping: exact(shown.damping.si()),
        peak_speed_m_per_s: Some(0.05),
        ..Bounce::default()
    };
    let found = of_axle(&answer, Side::Front, State::Before, &bounce).expect("known");
    close(found.damping_rate.expect("known").value, slow, 1e-6);
    close(found.on_springs.expect("known").value, own / critical, 1e-6);
    close(found.damping.expect("known").predicted.value, shown.damping.si(), 1e-9);
    // What the job holds of it is compared at the bounce's speed, too; without one at the job's.
    let held = |speed: &str| {
        let hz = shown.frequency.si();
        let held = format!("bounce: (before: (frequency: \"{hz} Hz\", damping: \"{}\", {speed})),", shown.damping.si());
        let answer = solve(&job(&format!("{text} {held}"), ""));
        front(&answer).bounce.before.damping_off().expect("predicted").si()
    };
    assert!(held("speed: \"0.05 m/s\"").abs() < 1e-9);
    let off = shown.damping.si() - mode(20e3, own / critical).damping.si();
    close(held(""), off, 1e-9);
    // A damper known by its damping ratio alone is straight.
    let plain =
        solve(&job("ratio: (wheel_moved: \"100 mm\", part_moved: \"100 mm\"), spring: (rate: \"20 N/mm\"),", ""));
    assert_eq!(front(&plain).rate_at(State::Before, Velocity::from_si(0.05)), Some(Ratio::from_si(1.0)));
}

/// From one top to the next a decay falls by e^(−2πζ/√(1 − ζ²)), in 1/(f√(1 − ζ²)); before, after and predicted are on one axis.
#[test]
fn decays_before_and_after_are_on_one_axis() {
    let text = "ratio: (wheel_moved: \"100 mm\", part_moved: \"65 mm\"), spring: (rate: \"40 N/mm\"), bounce: (before: (frequency: \"1.2 Hz\", damping: \"0.1\"), after: (frequency: \"1.3 Hz\", damping: \"0.3\")),";
    let answer = solve(&job(text, ""));
    let picture = motion::decays(&answer, Side::Front).expect("recorded");
    let labels: Vec<(&str, bool)> = picture.lines.iter().map(|l| (l.label.as_str(), l.broken)).collect();
    assert_eq!(labels, [("before, measured", false), ("after, measured", false), ("predicted", true)]);
    for (line, [hz, ratio]) in picture.lines.iter().zip([[1.2, 0.1], [1.3, 0.3]]) {
        let root = (1.0_f64 - ratio * ratio).sqrt();
        let top = line.points.windows(3).find(|w| w[1][1] > w[0][1] && w[1][1] >= w[2][1]).expect("a second top")[1];
        assert!((top[0] * hz * root - 1.0).abs() < 0.02, "{top:?}");
        assert!((top[1] / (-std::f64::consts::TAU * ratio / root).exp() - 1.0).abs() < 0.01, "{top:?}");
        assert!(line.points[0] == [0.0, 1.0] && line.points[1][1] < 1.0);
    }
    assert!(motion::decays(&answer, Side::Rear).is_none());
}
