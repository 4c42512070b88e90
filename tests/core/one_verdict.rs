//! One verdict: the sentence, every sheet and the choice from a list name the same part, with its length, for the same
//! reason. Vehicles and parts are invented; expectations are worked out beside each test (DERIVED).
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use crate::common::sheets as on_paper;

use on_paper::{plain, sheet};
use springwright::choose::draws::Draws;
use springwright::choose::{Choice, choose};
use springwright::job::{Job, Side, Taken, file};
use springwright::parts::Spring;
use springwright::progress::Watch;
use springwright::report::choose as choosing;
use springwright::report::sentence;
use springwright::report::sheets::Kind;
use springwright::solve::answer::{Band, SpringToBuy};
use springwright::solve::solve;
use springwright::units::{G_M_PER_S2, Length, Quantity, SpringRate};

/// 400 kg sprung a corner on ratio 1, 250 mm long at ride: the rate is the wheel rate, 400 (2π f)².
fn job(low_hz: f64, high_hz: f64, step: &str) -> Job {
    let text = format!(
        r#"(version: 1, job: (before: (lf: "400 kg", rf: "400 kg", lr: "300 kg", rr: "300 kg"),
            after: (lf: "440 kg", rf: "440 kg", lr: "300 kg", rr: "300 kg"),
            front: (unsprung: "40 kg", ratio: (wheel_moved: "100 mm", part_moved: "100 mm"),
                spring: (rate: "22 N/mm", fitted_length: "250 mm"), travel: (stop_gap: "60 mm", metal: "80 mm", droop: "80 mm"),
                target: (low: "{low_hz} Hz", high: "{high_hz} Hz"), stock: (step: "{step}", settle: "2 mm")),
            rear: (plan: Keep)))"#
    );
    file::parse(&text).unwrap_or_else(|e| panic!("{e} in {text}"))
}

/// The frequency at which 400 kg ask for this rate.
fn hz(n_per_mm: f64) -> f64 {
    (n_per_mm * 1e3 / 400.0).sqrt() / std::f64::consts::TAU
}

/// The spring to buy, and the band of rates it was picked from.
fn sizing(job: &Job) -> (SpringToBuy, Band<SpringRate>) {
    let answer = solve(job);
    let band = answer.axle(Side::Front).sizing.expect("weights and ratio are known").spring_rate;
    (answer.released(Side::Front).expect("released").spring.expect("sized"), band)
}

fn sentence(job: &Job) -> String {
    let answer = solve(job);
    sentence::axle(&answer, answer.axle(Side::Front), &job.units).answer
}

/// Step 28.5 N/mm, 28.9 to 58.0 N/mm wanted: the middle frequency asks for 42.2, nearest to 28.5, which lies outside;
/// 57 is inside.
#[test]
fn the_pick_of_a_range_lies_inside_it() {
    let job = job(hz(28.9), hz(58.0), "28.5 N/mm");
    let (sizing, band) = sizing(&job);
    assert!((band.low.si() - 28_900.0).abs() < 1.0 && (band.high.si() - 58_000.0).abs() < 1.0);
    assert!((sizing.pick.si() - 57_000.0).abs() < 1e-6 && sizing.pick_inside, "{:?}", sizing.pick);
    let said = sentence(&job);
    assert!(said.contains("57 N/mm is the only stock rate that works. With 57 N/mm ("), "{said}");
    assert!(!said.contains("28.5") && !said.contains("nearest"), "{said}");
}

/// One frequency takes the nearest rate on either side; an empty range takes the nearest and says so once.
#[test]
fn a_single_frequency_and_an_empty_range_take_the_nearest() {
    for (wanted, pick) in [(42.0, 28.5), (43.5, 57.0)] {
        let (sizing, _) = sizing(&job(hz(wanted), hz(wanted), "28.5 N/mm"));
        assert!((sizing.pick.si() / 1e3 - pick).abs() < 1e-9, "{wanted}: {:?}", sizing.pick);
    }
    let said = sentence(&job(hz(30.0), hz(40.0), "28.5 N/mm"));
    assert!(said.contains("no stock rate lies between 30 and 40 N/mm. With 28.5 N/mm"), "{said}");
    assert_eq!(said.matches("nearest").count(), 1, "{said}");
}

/// Every step and range, small and large: the pick is inside whenever a stock rate is, and then the nearest to the aim.
#[test]
fn whenever_a_stock_rate_is_inside_the_nearest_to_the_middle_is_taken() {
    for step in [0.5, 3.0, 7.0, 28.5] {
        for (low, high) in [(20.0, 21.0), (28.9, 58.0), (25.0, 27.5), (31.0, 34.0)] {
            let (sizing, band) = sizing(&job(hz(low), hz(high), &format!("{step} N/mm")));
            let aim = band.aim.si() / 1e3;
            let inside: Vec<f64> =
                (1..200).map(|n| step * f64::from(n)).filter(|k| (low - 1e-9..=high + 1e-9).contains(k)).collect();
            let want = inside.iter().copied().min_by(|a, b| (a - aim).abs().total_cmp(&(b - aim).abs()));
            assert_eq!(sizing.pick_inside, want.is_some(), "{step} in {low} to {high}");
            if let Some(want) = want {
                assert!((sizing.pick.si() / 1e3 - want).abs() < 1e-9, "{step} in {low} to {high}: {:?}", sizing.pick);
            }
        }
    }
}

/// F-2720: 27 N/mm, its free length that which stands at the wanted height, less so many mm.
fn f2720(shorter_mm: f64) -> Taken {
    let free_mm = 250.0 + 400.0 * G_M_PER_S2 / 27.0 + 2.0 - shorter_mm;
    Taken {
        number: "F-2720".into(),
        rate: "27 N/mm".into(),
        free_length: format!("{free_mm:.0} mm").as_str().into(),
        ..Taken::default()
    }
}

/// A selected spring is said once to be inside or outside, never beside a stock rate that contradicts it.
#[test]
fn a_selected_spring_and_the_range_agree() {
    // 24.5 to 25.5: 25 N/mm is the only stock rate; F-2720 is outside. 26 to 28: it is inside.
    for (low, high, inside) in [(24.5, 25.5, false), (26.0, 28.0, true)] {
        let mut job = job(hz(low), hz(high), "5 N/mm");
        job.front.taken = f2720(0.0);
        let said = sentence(&job);
        assert!(said.contains("is wanted. With F-2720 (27 N/mm, 397 mm long), "), "{said}");
        assert_eq!((said.contains(", inside that,"), said.contains(", outside that,")), (inside, !inside), "{said}");
        assert!(!said.contains("works") && !said.contains("25 N/mm"), "{said}");
    }
}

/// The rate stands with its free length, the same on the sentence and on every sheet that names the part.
#[test]
fn every_sheet_names_the_part_with_its_length() {
    let plain_job = job(hz(26.0), hz(28.0), "1 N/mm");
    let mut taken = plain_job.clone();
    taken.front.taken = Taken { in_stock: "1".into(), ..f2720(0.0) };
    for (job, number) in [(plain_job, None), (taken, Some("F-2720"))] {
        let answer = solve(&job);
        let said = sentence(&job);
        assert!(said.contains("27 N/mm") && said.contains("397 mm long"), "{said}");
        for kind in [Kind::Customer, Kind::Order, Kind::Fitting, Kind::Full] {
            let paper = plain(&sheet(kind, &job, &answer));
            assert!(paper.contains("27 N/mm") && paper.contains("397 mm"), "{kind:?}: {paper}");
            assert_eq!(paper.contains("F-2720"), number.is_some(), "{kind:?}: {paper}");
        }
        let order = plain(&sheet(Kind::Order, &job, &answer));
        assert_eq!(order.contains("only 1 in stock"), number.is_some(), "{order}");
    }
}

fn spring(number: &str, rate_n_mm: f64, stock: Option<u32>) -> Spring {
    let free_mm = 250.0 + 400.0 * G_M_PER_S2 / rate_n_mm + 2.0;
    Spring {
        rate: SpringRate::from_si(rate_n_mm * 1e3),
        free_length: Some(Length::from_si(free_mm / 1e3)),
        stock,
        ..Spring::numbered(1, number)
    }
}

fn chosen(job: &Job, springs: &[Spring]) -> Choice {
    let answer = solve(job);
    let draws = Draws { count: 5_000, seed: 1 };
    choose(job, &answer, Side::Front, springs, draws, &Watch::default()).expect("able").expect("not cancelled")
}

/// The list's report says how its spring relates to the rate that the sentence names.
#[test]
fn the_choice_says_how_it_relates_to_the_sized_rate() {
    let job = job(hz(24.0), hz(28.0), "5 N/mm");
    assert!((sizing(&job).0.pick.si() - 25_000.0).abs() < 1e-6);
    let said = |springs: &[Spring]| choosing::answer(&chosen(&job, springs), springs, &job.units);
    let same = said(&[spring("S-25", 25.0, Some(2))]);
    assert!(same.contains("take S-25") && same.contains("It has the stock rate that was sized, 25 N/mm."), "{same}");
    let other = said(&[spring("S-26", 26.0, Some(2))]);
    assert!(
        other.contains("take S-26") && other.contains("sized is 25 N/mm; no spring of this list has it"),
        "{other}"
    );
    let short = Spring { free_length: Some(Length::from_si(0.300)), ..spring("S-25", 25.0, Some(2)) };
    let rejected = said(&[spring("S-26", 26.0, Some(2)), short]);
    assert!(rejected.contains("sized is 25 N/mm; S-25 has it: sits"), "{rejected}");
}

/// Chances 5 of 100 apart decide, and the report names both: the sized rate and why the other is recommended.
#[test]
fn a_likelier_spring_is_recommended_with_its_reason() {
    let job = job(hz(24.8), hz(28.8), "5 N/mm");
    let springs = [spring("S-25", 25.0, Some(2)), spring("S-267", 26.7, Some(2))];
    let choice = chosen(&job, &springs);
    let said = choosing::answer(&choice, &springs, &job.units);
    let [first, second] = [&choice.drafted[0], &choice.drafted[1]];
    assert!(first.chance > second.chance + 0.05 && first.row == 1, "{} {}", first.chance, second.chance);
    assert!(said.contains("take S-267") && said.contains("sized is 25 N/mm; S-25 has it and holds in"), "{said}");
    assert!(said.contains("this one holds more often"), "{said}");
}

/// A spring selected in the job is compared with the recommended one.
#[test]
fn the_choice_says_whether_it_is_the_selected_spring() {
    let mut job = job(hz(24.0), hz(28.0), "5 N/mm");
    job.front.taken = f2720(0.0);
    let said = |springs: &[Spring]| choosing::answer(&chosen(&job, springs), springs, &job.units);
    assert!(said(&[spring("F-2720", 27.0, None)]).contains("It is the spring selected in the job."));
    let other = said(&[spring("S-26", 26.0, None)]);
    assert!(other.contains("The job has F-2720 (27 N/mm) selected"), "{other}");
}

/// One piece on the shelf is not a pair, and that is said where it is recommended.
#[test]
fn one_piece_in_stock_is_said() {
    let job = job(hz(24.0), hz(28.0), "5 N/mm");
    let said = |stock: Option<u32>| {
        let springs = [spring("S-26", 26.0, stock)];
        choosing::answer(&chosen(&job, &springs), &springs, &job.units)
    };
    assert!(said(Some(1)).contains("Only 1 in stock, and an axle takes two."), "{}", said(Some(1)));
    assert!(!said(Some(2)).contains("in stock") && !said(None).contains("in stock"));
}
