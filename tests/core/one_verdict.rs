//! One verdict: the sentence, every sheet and the choice from a list name the same part, with its length, for the same
//! reason. Vehicles and parts are invented; expectations are worked out beside each test (DERIVED).
#![allow(clippy::expect_used, clippy::panic, reason = "a test says why it stops")]

use crate::common::kept::{self, Kept};
use crate::common::sheets as on_paper;

use on_paper::{plain, sheet};
use springwright::base::progress::Watch;
use springwright::base::units::{G_M_PER_S2, Length, Quantity, SpringRate, display};
use springwright::choose::draws::Draws;
use springwright::choose::{Choice, Decided, choose};
use springwright::job::{Job, Plan, Side, Taken, file};
use springwright::report::sections::choose as choosing;
use springwright::report::sections::sentence;
use springwright::report::sheets::Kind;
use springwright::shop::parts::{self, Spring};
use springwright::solve::answer::{Answer, Band, SpringToBuy};
use springwright::solve::solve;

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
    sentence_of(job, &solve(job))
}

fn sentence_of(job: &Job, answer: &Answer) -> String {
    sentence::axle(answer, answer.axle(Side::Front), &job.units).answer
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
        assert!(said.contains("is needed. With F-2720 (27 N/mm, free length 397 mm), "), "{said}");
        assert_eq!(
            (said.contains(", inside this range,"), said.contains(", outside this range,")),
            (inside, !inside),
            "{said}"
        );
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
        let said = sentence_of(&job, &answer);
        assert!(said.contains("27 N/mm") && said.contains("free length 397 mm"), "{said}");
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

fn chosen(job: &Job, answer: &Answer, springs: &[Spring]) -> Choice {
    let draws = Draws { count: 5_000, seed: 1 };
    choose(job, answer, Side::Front, springs, draws, &Watch::default()).expect("able").expect("not cancelled")
}

/// What the report of a list says for this job.
fn said_of(job: &Job) -> impl Fn(&[Spring]) -> String + use<> {
    let (job, answer) = (job.clone(), solve(job));
    move |springs: &[Spring]| choosing::answer(&chosen(&job, &answer, springs), springs, &job.units).to_string()
}

/// The list's report says how its spring relates to the rate that the sentence names.
#[test]
fn the_choice_says_how_it_relates_to_the_sized_rate() {
    let job = job(hz(24.0), hz(28.0), "5 N/mm");
    assert!((sizing(&job).0.pick.si() - 25_000.0).abs() < 1e-6);
    let said = said_of(&job);
    let same = said(&[spring("S-25", 25.0, Some(2))]);
    assert!(
        same.contains("use S-25") && same.contains("Its rate is the stock rate from the calculation, 25 N/mm."),
        "{same}"
    );
    let other = said(&[spring("S-26", 26.0, Some(2))]);
    assert!(
        other.starts_with("Front: the stock rate from the calculation is 25 N/mm, but S-26 (26 N/mm, ")
            && other.contains("leads this list: no spring on this list has that rate. Neither is final until"),
        "{other}"
    );
    assert!(!other.contains(": use "), "{other}");
    let short = Spring { free_length: Some(Length::from_si(0.300)), ..spring("S-25", 25.0, Some(2)) };
    let rejected = said(&[spring("S-26", 26.0, Some(2)), short]);
    assert!(rejected.contains("leads this list: S-25 does not fit: the vehicle sits "), "{rejected}");
}

/// Chances 5 of 100 apart decide, and the report names both: the sized rate and why the other is recommended.
#[test]
fn a_likelier_spring_is_recommended_with_its_reason() {
    let job = job(hz(24.8), hz(28.8), "5 N/mm");
    let springs = [spring("S-25", 25.0, Some(2)), spring("S-267", 26.7, Some(2))];
    let choice = chosen(&job, &solve(&job), &springs);
    let said = choosing::answer(&choice, &springs, &job.units).to_string();
    let [first, second] = [&choice.drafted[0], &choice.drafted[1]];
    assert!(first.chance > second.chance + 0.05 && first.row == 1, "{} {}", first.chance, second.chance);
    assert!(
        said.starts_with("Front: the stock rate from the calculation is 25 N/mm, but S-267 (26.7 N/mm, "),
        "{said}"
    );
    assert!(
        said.contains("leads this list: S-25 meets every limit in ")
            && said.contains("trials, the leading spring in more. Neither"),
        "{said}"
    );
}

/// A spring selected in the job is compared with the recommended one.
#[test]
fn the_choice_says_whether_it_is_the_selected_spring() {
    let mut job = job(hz(24.0), hz(28.0), "5 N/mm");
    job.front.taken = f2720(0.0);
    let said = said_of(&job);
    assert!(said(&[spring("F-2720", 27.0, None)]).contains("It is the spring selected in the job."));
    let other = said(&[spring("S-26", 26.0, None)]);
    assert!(other.starts_with("Front: F-2720 (27 N/mm) is selected in the job, but S-26 (26 N/mm, "), "{other}");
    assert!(
        other.contains("leads this list: the selected spring is not on this list. Keep the selected spring or select"),
        "{other}"
    );
    // Of two that tie, the one selected leads, though the softer one keeps more grip at droop.
    let both = [spring("S-26", 26.0, None), Spring { ..spring("F-2720", 27.0, None) }];
    (job.front.target.low, job.front.target.high) = ("1.1 Hz".into(), "1.5 Hz".into());
    let choice = chosen(&job, &solve(&job), &both);
    assert_eq!(choice.pick.as_ref().map(|p| p.by), Some(Decided::Named), "{:?}", choice.pick);
    assert!(choice.agrees(&both));
}

/// The rate that was sized leads among those that hold as often, even where a softer spring keeps more grip at droop:
/// sentence, sheets and list then name the same part.
#[test]
fn the_rate_that_was_sized_leads_a_tie() {
    let job = job(hz(19.0), hz(31.0), "5 N/mm");
    assert!((sizing(&job).0.pick.si() - 25_000.0).abs() < 1e-6);
    let springs = [spring("S-24", 24.0, Some(2)), spring("S-25", 25.0, Some(2))];
    let choice = chosen(&job, &solve(&job), &springs);
    assert_eq!(choice.picked().map(|p| p.row), Some(1));
    assert_eq!(choice.pick.as_ref().map(|p| (p.by, p.tie.len())), Some((Decided::Named, 2)));
    let said = choosing::answer(&choice, &springs, &job.units).to_string();
    assert!(
        said.starts_with("Front: use S-25 (25 N/mm, ") && said.contains("; this one has the calculated rate."),
        "{said}"
    );
    // Without its rate on the sentence the grip at droop decides.
    let mut other = job.clone();
    other.front.stock.step = "7 N/mm".into();
    let choice = chosen(&other, &solve(&other), &springs);
    assert_eq!(
        choice.pick.as_ref().map(|p| (p.by, p.of)),
        Some((Decided::Seat, choice.drafted.iter().position(|d| d.row == 0).expect("drawn")))
    );
}

/// What the answer names is looked at even where eight others fit better.
#[test]
fn the_rate_that_was_sized_is_always_drawn() {
    let job = job(hz(19.0), hz(31.0), "5 N/mm");
    let mut springs: Vec<Spring> =
        (0..20).map(|i| spring(&format!("N-{i}"), 24.0 + 0.03 * f64::from(i), Some(2))).collect();
    let long = Spring { free_length: Some(Length::from_si(0.415)), ..spring("S-25", 25.0, Some(2)) };
    springs.push(long);
    let choice = chosen(&job, &solve(&job), &springs);
    assert!(choice.drafted.iter().any(|d| springs[d.row].number == "S-25"), "{:?}", choice.ranking.fitting);
    assert!(choice.drafted.len() <= 10);
}

/// Every shipped job beside the shipped list: the list leads with what the sentence names, or its first sentence names
/// both, says why they differ, and calls neither final.
#[test]
fn no_shipped_job_has_two_verdicts() {
    let list = parts::read(parts::demo(), &parts::guess(parts::demo()).expect("columns")).expect("the shipped list");
    let mut seen = [0, 0];
    for kept in kept::shipped() {
        let (Kept { name, job, .. }, answer) = (kept, kept.answer());
        for side in Side::BOTH {
            let draws = Draws { count: 500, seed: 1 };
            let Ok(Some(choice)) = choose(job, answer, side, &list.springs, draws, &Watch::default()) else {
                continue;
            };
            let Some(named) = choice.picked().and(choice.named.as_ref()) else { continue };
            let said = choosing::answer(&choice, &list.springs, &job.units).to_string();
            let rate = display::rounded(SpringRate::from_si(named.rate_n_per_m), &job.units);
            let sentence = sentence::axle(answer, answer.axle(side), &job.units).answer;
            // Old springs that meet the target stay, whatever the rate of new ones.
            let stays = answer.axle(side).plan == Plan::Keep || answer.lead(side).is_some_and(|lead| lead.does_wanted);
            assert!(sentence.contains(&rate) || stays, "{name}: {sentence}");
            let agrees = choice.agrees(&list.springs);
            seen[usize::from(agrees)] += 1;
            assert_eq!(agrees, said.contains(": use "), "{name}: {said}");
            assert_eq!(!agrees, said.contains("Neither is final until"), "{name}: {said}");
            assert!(said.contains(&rate), "{name}: {said}");
        }
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
}

/// One piece on the shelf is not a pair: it ranks below those that come as one, and that is said. Where nothing else
/// fits it leads, and the rest is to be ordered first.
#[test]
fn one_piece_in_stock_ranks_below_a_pair() {
    let job = job(hz(19.0), hz(31.0), "5 N/mm");
    let said = said_of(&job);
    let sized = said(&[spring("S-25", 25.0, Some(1)), spring("S-26", 26.0, Some(2))]);
    assert!(sized.starts_with("Front: the stock rate from the calculation is 25 N/mm, but S-26 (26 N/mm, "), "{sized}");
    assert!(sized.contains("leads this list: only 1 of S-25 in stock, and an axle needs two. Neither"), "{sized}");
    // Softer, with more grip at droop: it would lead the two that have not the rate that was sized.
    let other = said(&[spring("S-24", 24.0, Some(1)), spring("S-26", 26.0, Some(2))]);
    assert!(other.contains("but S-26 (26 N/mm, ") && other.contains(" S-24 meets every limit in "), "{other}");
    assert!(other.contains("with only 1 in stock it ranks below springs with a pair in stock."), "{other}");
    let alone = said(&[spring("S-25", 25.0, Some(1))]);
    assert!(alone.contains("use S-25 ") && alone.contains("Only 1 in stock, and an axle needs two: order"), "{alone}");
    // A pair that hardly ever holds does not come before it.
    let poor = said(&[spring("S-25", 25.0, Some(1)), spring("S-308", 30.8, Some(2))]);
    assert!(poor.contains("use S-25 "), "{poor}");
    let pair = said(&[spring("S-25", 25.0, Some(2)), spring("S-26", 26.0, None)]);
    assert!(pair.contains("use S-25 ") && !pair.contains("in stock"), "{pair}");
}
