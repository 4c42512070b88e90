//! ± that are true: rows of lengths, a change of the motion ratio that nobody measured, what is bought, and the same ± by
//! the solver, by choosing and on the sheet.
//!
//! Vehicles are invented. By hand: worked out here from what is typed, with derivatives taken by hand (GUM 5.1.2), DERIVED.
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use approx::assert_relative_eq;
use springwright::base::progress::Watch;
use springwright::base::units::entry::AnyEntry;
use springwright::base::units::{G_M_PER_S2, Length, Quantity, Spread, SpringRate};
use springwright::choose::draws::Draws;
use springwright::choose::{Limit, choose};
use springwright::job::{AxleKind, Job, RatioRow, Side, Suspension, Walk, file};
use springwright::shop::parts::{self, Spring};
use springwright::shop::presets;
use springwright::solve::answer::{Answer, AxleAnswer};
use springwright::solve::drawn;
use springwright::solve::solve;

const ROOT3: f64 = 1.732_050_807_568_877_2;
/// Half of what lies between x + u and x − u instead of the derivative: see `tests/core/doubt.rs`.
const FIRST_ORDER: f64 = 2e-3;

/// A front axle on coils, 400 kg sprung a corner before and after, ratio 0.6, 250 mm fitted; every ± is zero.
fn exact(more: &str) -> Job {
    let text = format!(
        r#"(version: 1, job: (
            before: (lf: "440 kg", rf: "440 kg", lr: "300 kg", rr: "300 kg"),
            after: (lf: "440 kg", rf: "440 kg", lr: "300 kg", rr: "300 kg"),
            front: (unsprung: "40 kg", ratio: (wheel_moved: "100 mm", part_moved: "60 mm"),
                spring: (rate: "60 N/mm", fitted_length: "250 mm"),
                travel: (stop_gap: "60 mm", metal: "90 mm", droop: "80 mm"),
                damper: (ratio_before: "0.3"), target: (low: "1.2 Hz", high: "1.3 Hz"),
                stock: (step: "70 N/mm", settle: "3 mm"), {more})))"#
    );
    let mut job = file::parse(&text).unwrap_or_else(|e| panic!("{e} in {text}"));
    job.walk_mut(&mut String::new(), &mut |path, entry| {
        // Limits say the ± of other fields.
        if !path.starts_with("limits.") && entry.pm().0.is_empty() {
            entry.set_pm("0 %", Spread::Standard);
        }
    });
    job
}

/// The same, with the usual ± of these fields.
fn usual(mut job: Job, paths: &[&str]) -> Job {
    for path in paths {
        job.at_mut(path).unwrap_or_else(|| panic!("no field {path}")).set_pm("", Spread::Limits);
    }
    job
}

const BOUGHT: [&str; 3] = ["front.stock.rate_factor", "front.stock.length_off", "front.stock.settle"];

fn u(answer: &Answer, of: fn(&AxleAnswer) -> Option<f64>) -> f64 {
    answer.checked(Side::Front).nudged.u_of(of).unwrap_or(0.0)
}

fn frequency(a: &AxleAnswer) -> Option<f64> {
    Some(a.standing.new.as_ref()?.frequency.si())
}

fn height(a: &AxleAnswer) -> Option<f64> {
    Some(a.standing.new.as_ref()?.height_change?.si())
}

fn ratio(a: &AxleAnswer) -> Option<f64> {
    a.motion_ratio.map(Quantity::si)
}

// ---- rows --------------------------------------------------------------------------------------------------------

/// Seven rows of an independent least-squares script: scatter 0.1358 mm with four readings to spare, u(r) = 0.0010269 by
/// scatter alone; Student's factor for four is 1.14 (GUM, table G.2; from memory).
#[test]
fn seven_rows_are_as_sure_as_they_scatter() {
    let mut job = exact("");
    job.front.ratio.by = springwright::job::RatioBy::Rows;
    job.front.ratio.rows = [
        ("-75", "295.4"),
        ("-50", "276.1"),
        ("-25", "256.6"),
        ("0", "237.4"),
        ("25", "218.0"),
        ("50", "198.7"),
        ("75", "179.9"),
    ]
    .map(|(z, l)| RatioRow { wheel: format!("{z} mm").as_str().into(), length: format!("{l} mm").as_str().into() })
    .to_vec();
    let answer = solve(&job);
    let checked = answer.checked(Side::Front);
    assert_relative_eq!(u(&answer, ratio), 0.001_026_9 * 1.142, max_relative = 2e-3);
    let slope = checked.nudged.u_of(|a| a.ratio_slope.map(|s| s.value)).expect("rows");
    // −2 c2, and c2 is known to 2.3714e-5 per mm by the same script.
    assert_relative_eq!(slope, 2.0 * 2.371_4e-5 * 1e3 * 1.142, max_relative = 2e-3);
    // Where the rows state more than they scatter, that counts, with Σz² = 17,500 mm²: whatever a moved row looks like,
    // the parabola stays a parabola.
    for row in &mut job.front.ratio.rows {
        row.length.set_pm("1 mm", Spread::Standard);
    }
    assert_relative_eq!(u(&solve(&job), ratio), 1.0 / 17_500.0_f64.sqrt(), max_relative = 1e-6);
    // Less than they scatter: they scatter.
    for row in &mut job.front.ratio.rows {
        row.length.set_pm("0.05 mm", Spread::Standard);
    }
    assert_relative_eq!(u(&solve(&job), ratio), 0.001_026_9 * 1.142, max_relative = 2e-3);
}

/// The demo's five rows scatter by 0.085 mm, but state ± 0.5 mm: u(r) = 0.5/√3 ÷ √(2 · 35² + 2 · 70²) mm.
#[test]
fn a_stated_spread_of_rows_counts_when_it_is_larger() {
    let answer = solve(&presets::demo());
    assert_relative_eq!(u(&answer, ratio), 0.5 / ROOT3 / 12_250.0_f64.sqrt(), max_relative = 1e-6);
}

/// Three rows leave nothing to spare: the tape's usual ± 1 mm of lengths and of travels counts, of −60, 0 and 60 mm.
#[test]
fn a_usual_spread_counts_while_rows_leave_nothing_to_spare() {
    let mut job = exact("");
    job.front.ratio.by = springwright::job::RatioBy::Rows;
    job.front.ratio.rows = [("-60", "286"), ("0", "250"), ("60", "214")]
        .map(|(z, l)| RatioRow { wheel: format!("{z} mm").as_str().into(), length: format!("{l} mm").as_str().into() })
        .to_vec();
    let of_one = (1.0_f64 + 0.36).sqrt() / ROOT3;
    // The travels move the parabola's place as well: a first order only.
    assert_relative_eq!(u(&solve(&job), ratio), of_one / 7_200.0_f64.sqrt(), max_relative = 1e-3);
}

// ---- a change of the ratio that nobody measured ------------------------------------------------------------------

/// k_w = k r² + F r′ with F = m g/r: u(f) = f/2 · F u(r′)/k_w, by each suspension's limits.
#[test]
fn an_unknown_change_of_the_ratio_is_followed() {
    let old = |a: &AxleAnswer| Some(a.standing.before.as_ref()?.frequency.si());
    let force_n = 400.0 * G_M_PER_S2 / 0.6;
    let wheel_rate = 60e3 * 0.36;
    for (kind, suspension, limit) in [
        (AxleKind::Independent, Suspension::NotSaid, 0.8),
        (AxleKind::Independent, Suspension::Strut, 0.8),
        (AxleKind::Independent, Suspension::TwoArms, 0.3),
        (AxleKind::Independent, Suspension::SemiTrailingArm, 0.3),
        (AxleKind::Independent, Suspension::Beam, 0.8),
        (AxleKind::Beam, Suspension::NotSaid, 0.0),
        (AxleKind::Beam, Suspension::Beam, 0.0),
        (AxleKind::Beam, Suspension::TwistBeam, 0.3),
        (AxleKind::Beam, Suspension::Strut, 0.0),
    ] {
        let mut job = usual(exact(""), &["front.ratio.slope"]);
        (job.front.kind, job.front.suspension) = (kind, suspension);
        let answer = solve(&job);
        let f = old(answer.axle(Side::Front)).expect("it stood");
        let by_hand = f / 2.0 * force_n * limit / ROOT3 / wheel_rate;
        assert_relative_eq!(u(&answer, old), by_hand, max_relative = 5e-3, epsilon = 1e-12);
        // It counts in the rate that is needed, too: k = (k_w − F r′)/r².
        let needed = |a: &AxleAnswer| Some(a.sizing.as_ref()?.spring_rate.aim.si());
        assert_relative_eq!(u(&answer, needed), force_n * limit / ROOT3 / 0.36, max_relative = 1e-6, epsilon = 1e-6);
        assert!(answer.axle(Side::Front).ratio_slope.is_none(), "it is not known");
    }
}

/// A change that was typed is used, with its own ±: k_w = 60 · 0.36 + F · 0.4.
#[test]
fn a_typed_change_of_the_ratio_is_used() {
    let mut job = exact("");
    job.front.ratio.slope = "0.4 1/m".into();
    job.front.ratio.slope.set_pm("0.1 1/m", Spread::Standard);
    let answer = solve(&job);
    let before = answer.axle(Side::Front).standing.before.as_ref().expect("it stood");
    let force_n = 400.0 * G_M_PER_S2 / 0.6;
    assert_relative_eq!(before.wheel_rate.si(), 60e3 * 0.36 + force_n * 0.4, max_relative = 1e-9);
    let rate = u(&answer, |a| Some(a.standing.before.as_ref()?.wheel_rate.si()));
    assert_relative_eq!(rate, force_n * 0.1, max_relative = 1e-6);
    assert_relative_eq!(answer.axle(Side::Front).ratio_slope.expect("typed").value, 0.4);
    let imperial = "0.01016 1/in";
    job.front.ratio.slope = imperial.into();
    let again = solve(&job);
    assert_relative_eq!(again.axle(Side::Front).ratio_slope.expect("typed").value, 0.4, max_relative = 1e-9);
}

// ---- what is bought ----------------------------------------------------------------------------------------------

/// 70 N/mm ± 5 % common, free length ± 3 mm, settling 3 ± 1.5 mm, each within these limits; r 0.6, straight: f goes with √k,
/// the wheel sinks by F/(k r) for the whole rate and by 1/r for each millimetre of length.
#[test]
fn what_is_bought_counts_in_everything_after_fitting() {
    let answer = solve(&usual(exact(""), &BOUGHT));
    let front = answer.axle(Side::Front);
    let new = front.standing.new.as_ref().expect("sized");
    let (k, r, load) = (70e3, 0.6, 400.0 * G_M_PER_S2);
    assert_relative_eq!(new.spring_rate.si(), k, max_relative = 1e-12);
    let share = 0.05 / ROOT3;
    assert_relative_eq!(
        u(&answer, |a| Some(a.standing.new.as_ref()?.spring_rate.si())),
        k * share,
        max_relative = 1e-9
    );
    assert_relative_eq!(
        u(&answer, frequency),
        frequency(front).expect("sized") / 2.0 * share,
        max_relative = FIRST_ORDER
    );
    let squeezed = load / r / k;
    let length = 3e-3_f64.hypot(1.5e-3) / ROOT3;
    let high = (squeezed * share).hypot(length) / r;
    assert_relative_eq!(u(&answer, height), high, max_relative = FIRST_ORDER);
    // Reserve: the room to the stop 60 mm − z and k_w over W: (k r² (60 mm − z))/W. What moves the height moves z; the
    // rate moves k as well, so both ways at once: F_stop = k r (L0 − L_stop).
    let free_less_stop = squeezed + r * 0.060;
    let reserve = k * r / load * (free_less_stop * share).hypot(length);
    assert_relative_eq!(
        u(&answer, |a| Some(a.standing.new.as_ref()?.reserve?.si())),
        reserve,
        max_relative = FIRST_ORDER
    );
    // ζ of the old damper goes with 1/√k.
    let zeta = |a: &AxleAnswer| Some(a.standing.new.as_ref()?.old_damper_ratio?.si());
    assert_relative_eq!(u(&answer, zeta), zeta(front).expect("a damper") / 2.0 * share, max_relative = FIRST_ORDER);
    // Grip at droop: free length alone.
    assert_relative_eq!(u(&answer, |a| a.room.seat.map(Quantity::si)), length, max_relative = 1e-6);
    // Not in what is needed, nor in what was there.
    for needed in [
        (|a: &AxleAnswer| Some(a.sizing.as_ref()?.spring_rate.aim.si())) as fn(&AxleAnswer) -> Option<f64>,
        |a| Some(a.standing.old.as_ref()?.frequency.si()),
        |a| Some(a.standing.before.as_ref()?.frequency.si()),
    ] {
        assert_eq!(u(&answer, needed), 0.0);
    }
    let ordered = answer.released(Side::Front).expect("released");
    assert_eq!(ordered.u_of(|p| Some(p.spring?.free_length?.si())), Some(0.0));
}

#[test]
fn springs_that_stay_have_no_tolerance() {
    let mut job = usual(exact(""), &BOUGHT);
    job.front.plan = springwright::job::Plan::Keep;
    let answer = solve(&job);
    assert!(frequency(answer.axle(Side::Front)).is_some());
    assert_eq!((u(&answer, frequency), u(&answer, height)), (0.0, 0.0));
}

/// The shop's limits are what is used; a spring taken from a list states its own rate's ±.
#[test]
fn the_tolerance_is_the_shops_or_the_lists() {
    let share = |job: &Job| {
        let answer = solve(job);
        2.0 * u(&answer, frequency) / frequency(answer.axle(Side::Front)).expect("sized") * ROOT3
    };
    let mut job = usual(exact(""), &BOUGHT);
    job.limits.rate_tolerance = "8 %".into();
    assert_relative_eq!(share(&job), 0.08, max_relative = 5e-3);
    let mut taken = usual(exact(""), &["front.taken.rate", "front.taken.free_length"]);
    (taken.front.taken.rate, taken.front.taken.free_length) = ("70 N/mm".into(), "345 mm".into());
    assert_relative_eq!(share(&taken), 0.05, max_relative = 5e-3);
    taken.front.taken.rate.set_pm("3 %", Spread::Limits);
    assert_relative_eq!(share(&taken), 0.03, max_relative = 5e-3);
    let answer = solve(&taken);
    let squeezed = 400.0 * G_M_PER_S2 / 0.6 / 70e3;
    let by_hand = (squeezed * 0.03).hypot(3e-3) / ROOT3 / 0.6;
    assert_relative_eq!(u(&answer, height), by_hand, max_relative = FIRST_ORDER);
}

/// Springs that were pressed and measured as they came: 73.5 N/mm and 4 mm long.
#[test]
fn what_was_delivered_can_be_said() {
    let mut job = exact("");
    (job.front.stock.rate_factor, job.front.stock.length_off) = ("1.05".into(), "4 mm".into());
    for entry in [&mut job.front.stock.rate_factor as &mut dyn AnyEntry, &mut job.front.stock.length_off] {
        entry.set_pm("0 %", Spread::Standard);
    }
    let (ordered, delivered) = (solve(&exact("")), solve(&job));
    let new = |a: &Answer| a.axle(Side::Front).standing.new.clone().expect("sized");
    assert_relative_eq!(new(&delivered).spring_rate.si(), 73.5e3, max_relative = 1e-12);
    let force_n = 400.0 * G_M_PER_S2 / 0.6;
    let rise = (force_n / 70e3 - force_n / 73.5e3 + 4e-3) / 0.6;
    assert_relative_eq!((new(&ordered).travel - new(&delivered).travel).si(), rise, max_relative = 1e-6);
    let of = |a: &Answer| {
        let part = a.released(Side::Front).expect("released");
        part.spring.map(|s| (s.pick, s.order_length)).expect("sized")
    };
    assert_eq!(of(&ordered), of(&delivered), "what is ordered stays");
}

// ---- one number is one number ------------------------------------------------------------------------------------

/// A spring drawn by choosing, and the same spring taken: first order beside draws, so 3 %.
#[test]
fn choosing_and_solving_state_the_same_spread() {
    let mut job = presets::demo();
    let columns = parts::guess(parts::demo()).expect("columns");
    let list = parts::read(parts::demo(), &columns).expect("a list");
    let answer = solve(&job);
    let draws = Draws { count: 40_000, seed: 1 };
    let choice =
        choose(&job, &answer, Side::Front, &list.springs, draws, &Watch::default()).expect("able").expect("done");
    let picked = choice.picked().expect("one fits");
    let spring = &list.springs[picked.row];
    job.front.taken.rate = format!("{} N/mm", spring.rate.si() / 1e3).as_str().into();
    job.front.taken.free_length = format!("{} mm", spring.free_length.expect("a length").si() * 1e3).as_str().into();
    job.front.taken.spacer = format!("{} mm", picked.judged.spacer_m * 1e3).as_str().into();
    if let Some(share) = spring.rate_tolerance {
        job.front.taken.rate.set_pm(&format!("{} %", share.si() * 100.0), Spread::Limits);
    }
    let solved = solve(&job);
    assert_relative_eq!(u(&solved, frequency), picked.as_fitted.frequency.sd(), max_relative = 0.03);
    assert_relative_eq!(u(&solved, height), picked.as_fitted.above.sd(), max_relative = 0.03);
    assert!(picked.tally.above.sd() < picked.as_fitted.above.sd(), "a spacer that is cut again takes up most of it");
}

/// Nothing is unsure but the length as bought, evenly ± 3 mm, and the height may be off by 4 mm: as fitted it holds while
/// the length is within 4 mm · 0.6 of what was ordered, 80 of 100; a spacer cut again takes up all of it.
#[test]
fn a_chance_is_stated_as_fitted_and_with_the_spacer_cut_again() {
    let mut job = exact("");
    (job.limits.rate_tolerance, job.front.choice.height_band) = ("0 %".into(), "4 mm".into());
    job.front.choice.spacer_most = "20 mm".into();
    let wanted_mm = 250.0 + 400.0 * G_M_PER_S2 / 0.6 / 65.0 + 3.0;
    let spring = |short_mm: f64| Spring {
        rate: SpringRate::from_si(65e3),
        free_length: Some(Length::from_si((wanted_mm - short_mm) / 1e3)),
        ..Spring::numbered(1, "a")
    };
    let chances = |job: &Job, short_mm: f64| {
        let answer = solve(job);
        let draws = Draws { count: 50_000, seed: 2 };
        let list = [spring(short_mm)];
        let choice = choose(job, &answer, Side::Front, &list, draws, &Watch::default()).expect("able").expect("done");
        let drafted = choice.drafted.first().expect("drawn").clone();
        (drafted.chance_as_fitted, drafted.chance, drafted.as_fitted.broken[Limit::Height as usize])
    };
    let (fitted, again, broken) = chances(&job, 10.0);
    // Five sampling errors of 50,000 draws.
    assert!((fitted.expect("a spacer may be cut") - 0.8).abs() < 5.0 * (0.8 * 0.2 / 50_000.0_f64).sqrt(), "{fitted:?}");
    assert!((1.0 - again).abs() < 1e-12 && broken > 0, "{again}");
    job.front.choice.spacer_most = "0 mm".into();
    let (fitted, again, _) = chances(&job, 0.0);
    assert_eq!(fitted, None, "nothing can be cut: there is one chance");
    assert!((again - 0.8).abs() < 5.0 * (0.8 * 0.2 / 50_000.0_f64).sqrt(), "{again}");
}

/// What is not known of a ratio by two lengths is how it changes: rows tell it, to 0.13 1/m, instead of 0.8/√3.
#[test]
fn rows_are_what_tells_a_change_of_the_ratio() {
    let mut job = usual(exact(""), &["front.ratio.slope", "front.ratio.part_moved"]);
    (job.front.target.low, job.front.target.high) = ("1.1 Hz".into(), "1.4 Hz".into());
    let spring = Spring {
        rate: SpringRate::from_si(70e3),
        free_length: Some(Length::from_si(0.347)),
        ..Spring::numbered(1, "a")
    };
    let answer = solve(&job);
    let draws = Draws { count: 4_000, seed: 2 };
    let choice = choose(&job, &answer, Side::Front, &[spring], draws, &Watch::default()).expect("able").expect("done");
    let redo = choice.redo.first().expect("something is not known");
    assert_eq!(redo.paths, ["front.ratio.slope"], "longer lengths do not tell it");
    assert_relative_eq!(redo.shrinks_to, 0.13 * ROOT3 / 0.8, max_relative = 1e-9);
    assert!(matches!(redo.how, springwright::choose::Again::Rows { .. }), "{redo:?}");
    let [now, then] = redo.chance.expect("it was tried");
    assert!(then > now, "{now} {then}");
}

/// Only the rate as bought is unsure, evenly ± 5 %: two in three lie within two thirds of that, where one standard
/// uncertainty would be 1/√3 of it. Frequency and height go together. Sampling of 1,000 draws: 4 %.
#[test]
fn two_times_in_three_is_drawn() {
    let answer = solve(&usual(exact(""), &["front.stock.rate_factor"]));
    let front = answer.axle(Side::Front);
    let within = drawn::two_in_three(&usual(exact(""), &["front.stock.rate_factor"]), front).expect("a tolerance");
    let two_thirds = 2.0 / 3.0 * 0.05;
    assert_relative_eq!(
        within.frequency.si(),
        front.standing.new.as_ref().expect("sized").frequency.si() / 2.0 * two_thirds,
        max_relative = 0.04
    );
    let squeezed = 400.0 * G_M_PER_S2 / 0.6 / 70e3;
    assert_relative_eq!(
        within.height.expect("lengths are known").si(),
        squeezed / 0.6 * two_thirds,
        max_relative = 0.04
    );
    assert_eq!(drawn::two_in_three(&exact(""), solve(&exact("")).axle(Side::Front)), None, "nothing scatters");
}
