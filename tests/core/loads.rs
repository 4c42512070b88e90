//! The ledger of parts, what was aboard, load cases and ratings, as whole jobs through `solve`.
//!
//! The vehicle is invented; beside each number stands where it comes from. Tolerances are those of the arithmetic: 1e-9
//! where one closed form stands against another, 1e-9 m where a height was found by solving for it.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::loaded;
use crate::common::properties;

use std::process::Command;

use loaded::*;
use properties::{config, near, same};
use proptest::prelude::*;
use springwright::base::units::{Origin, Quantity, UnitChoice};
use springwright::job::{Job, Level, Load, LoadCase, Part, PartOn, Plan, Side, Way, Weighing, file};
use springwright::report::sections::sentence;
use springwright::report::sheets::sheet;
use springwright::report::write::json;
use springwright::report::write::text;
use springwright::solve::answer::{RatedPart, State};
use springwright::solve::solve;

/// Rows and cases that carry nothing leave both axles as they were, to the last bit; so do a case that springs are not
/// sized on, and parts where both weigh-ins spoke.
#[test]
fn lists_without_numbers_change_nothing() {
    let wanted = solve(&plain()).axles;
    for (what, fill) in [
        ("a case", (|j| j.cases = vec![case("", false, vec![])]) as fn(&mut Job)),
        ("a sized case", |j| j.cases = vec![case("", true, vec![])]),
        ("a sized case with a blank row", |j| j.cases = vec![case("", true, vec![Load::default()])]),
        ("a blank part", |j| j.parts = vec![Part::default()]),
        ("blank rows aboard", |j| (j.before.loads, j.after.loads) = (vec![Load::default()], vec![Load::default()])),
        ("a case that is not sized on", |j| j.cases = vec![case("", false, vec![load(200.0, 2.0)])]),
        ("a part between two weigh-ins", |j| j.parts = vec![part(Way::In, 90.0, 0.1)]),
    ] {
        let mut job = plain();
        fill(&mut job);
        assert!(solve(&job).axles == wanted, "{what}");
    }
}

/// Model 11: ΔF = m (1 − x/L), ΔR = m x/L, which on an axle's own line is all or nothing; an unsprung part sits there,
/// whatever is typed as its place.
#[test]
fn a_part_on_an_axle_line_loads_that_axle_alone() {
    for (on, x_m, wanted) in [
        (PartOn::Body, 0.0, [-30.0, 0.0]),
        (PartOn::Body, WHEELBASE_M, [0.0, -30.0]),
        (PartOn::FrontAxle, 1.9, [-30.0, 0.0]),
        (PartOn::RearAxle, 1.9, [0.0, -30.0]),
    ] {
        let mut job = plain();
        job.after = Weighing::default();
        job.parts = vec![Part { on, ..part(Way::Out, 30.0, x_m) }];
        let answer = solve(&job);
        let ledger = answer.ledger.as_ref().expect("a part");
        assert_eq!(ledger.axles.change.map(|c| c.value), wanted, "{on:?} at {x_m}");
        // By hand: 600 and 500 kg before, less 30 on the one axle.
        assert_eq!(compared_kg(&answer)[1], [600.0 + wanted[0], 500.0 + wanted[1]]);
        assert_eq!(answer.compared.origins.both(), [Some(Origin::Measured), Some(Origin::Ledger)]);
    }
}

proptest! {
    #![proptest_config(config(48))]

    /// After = before + ledger, before = after − ledger: either weigh-in alone gives what both give.
    #[test]
    fn forward_and_backward_are_inverse(
        before in [450.0..800.0, 350.0..700.0],
        parts in proptest::collection::vec((any::<bool>(), 1.0..60.0, -0.8..3.2, 0..3_usize), 1..4),
    ) {
        let mut job = plain();
        job.before = weighed(before);
        job.after = Weighing::default();
        job.parts = parts.into_iter().map(|(out, mass, x, on)| Part {
            on: [PartOn::Body, PartOn::FrontAxle, PartOn::RearAxle][on],
            ..part(if out { Way::Out } else { Way::In }, mass, x)
        }).collect();
        let forward = solve(&job);
        let foretold = forward.ledger.as_ref().and_then(|l| l.axles.foretold).expect("weighed before").map(|m| m.value);
        job.after = weighed(foretold);
        let both = solve(&job);
        job.before = Weighing::default();
        let backward = solve(&job);
        let back = backward.ledger.as_ref().and_then(|l| l.axles.reconstructed).expect("weighed after");
        for side in Side::BOTH {
            same!("before", back[side as usize].value, before[side as usize], 1e-9);
            same_axle("forward", &forward, &both, side, true)?;
            same_axle("backward", &backward, &both, side, true)?;
        }
        prop_assert_eq!(backward.compared.origins.both(), [Some(Origin::Ledger), Some(Origin::Measured)]);
    }

    /// A person on the scales at both weigh-ins, listed as aboard, is taken out again. What was measured at the height
    /// as it stood was measured lower, by δ = (share/2) g/k_w: lengths and gaps typed as read with the person in give
    /// the same springs. Typed as if nobody had been in, all free lengths come out too long by r δ.
    #[test]
    fn what_is_aboard_is_taken_out(mass in 50.0..120.0, x in 0.4..2.4, rubber in 0.0..4e3) {
        let mut job = plain();
        job.front.parallel.rate = format!("{rubber} N/m").as_str().into();
        job.front.parallel.neutral = m(0.01);
        let alone = solve(&job);
        let share = [1.0 - x / WHEELBASE_M, x / WHEELBASE_M];
        for (weighing, axles) in [(&mut job.before, [600.0, 500.0]), (&mut job.after, [690.0, 540.0])] {
            *weighing = weighed([0, 1].map(|i| axles[i] + mass * share[i]));
            weighing.loads = vec![load(mass, x)];
        }
        let rates = [OLD_N_PER_M[0] + rubber, OLD_N_PER_M[1]];
        let lower = [0, 1].map(|i| 0.5 * mass * share[i] * G / rates[i]);
        job.front.parallel.neutral = m(0.01 - lower[0]);
        let as_if_nobody = solve(&job);
        for side in Side::BOTH {
            let (i, axle) = (side as usize, job.axle_mut(side));
            axle.spring.fitted_length = m([0.25, 0.26][i] - RATIO[i] * lower[i]);
            axle.travel.stop_gap = m([0.07, 0.09][i] - lower[i]);
            axle.travel.metal = m([0.095, 0.11][i] - lower[i]);
            axle.travel.droop = m([0.08, 0.09][i] + lower[i]);
        }
        let with = solve(&job);
        let weights = |a| compared_kg(a).concat();
        for (a, b) in weights(&with).into_iter().zip(weights(&alone)) {
            same!("weight compared", a, b, 1e-12);
        }
        for side in Side::BOTH {
            let i = side as usize;
            same_axle("measured with the person in", &with, &alone, side, true)?;
            same_axle("without lengths", &as_if_nobody, &alone, side, false)?;
            let free = [&as_if_nobody, &alone].map(|a| free_lengths(a, side)).concat();
            prop_assert!(free.len() >= 2, "the old spring's at least");
            for kind in 0..free.len() / 2 {
                let own = free[kind + free.len() / 2];
                same!("free length, too long", free[kind], own + RATIO[i] * lower[i], 1e-9);
            }
        }
    }

    /// Seen in a mirror an axle is the same axle. Sums of two are the same in either order: to the last bit.
    #[test]
    fn a_mirrored_vehicle_has_the_same_axles(corners in proptest::array::uniform4(150.0..400.0), y in -0.7..0.7) {
        let job = |[lf, rf, lr, rr]: [f64; 4], y: f64| {
            let mut job = plain();
            job.before = Weighing { lf: kg(lf), rf: kg(rf), lr: kg(lr), rr: kg(rr), ..Weighing::default() };
            job.before.loads = vec![Load { y: m(y), ..load(70.0, 1.2) }];
            job.parts = vec![Part { y: m(y), ..part(Way::Out, 40.0, 0.3) }];
            job.cases = vec![case("crew", true, vec![Load { y: m(-y), ..load(160.0, 1.4) }])];
            solve(&job)
        };
        let [lf, rf, lr, rr] = corners;
        let (one, other) = (job(corners, y), job([rf, lf, rr, lr], -y));
        prop_assert!(one.axles == other.axles && one.cases == other.cases && one.ledger == other.ledger);
        let left = [one, other].map(|a| a.before.left_share.expect("corners").si());
        same!("left share", left[0] + left[1], 1.0, 1e-12);
    }
}

/// The load of a case that is sized on stands in both weights; its frequency is √(k_w/m)/2π of that load.
#[test]
fn springs_are_sized_on_the_case_that_says_so() {
    let mut job = plain();
    job.cases = vec![case("empty", false, vec![]), case("harvest", true, vec![load(300.0, 1.0), load(80.0, 2.0)])];
    let answer = solve(&job);
    // By hand: 300 · 1.5/2.5 + 80 · 0.5/2.5 = 196 kg in front, 300 · 1/2.5 + 80 · 2/2.5 = 184 kg behind.
    for (got, wanted) in compared_kg(&answer).concat().into_iter().zip([796.0, 684.0, 886.0, 724.0]) {
        assert!(near(got, wanted, 1e-12), "{got}, by hand {wanted}");
    }
    let front = answer.axle(Side::Front);
    let sizing = answer.released(Side::Front).expect("released").spring.expect("sized");
    let by_hand = hz(sizing.pick.si() * 0.36, 886.0 / 2.0 - 40.0);
    assert!((1.2..=1.4).contains(&by_hand) && sizing.pick_inside, "{by_hand} Hz");
    let in_case = answer.cases[2].standing.front.new.as_ref().expect("stands");
    for found in [standing(front, State::NewSprings).frequency, in_case.on.frequency()] {
        assert!(near(found.si(), by_hand, 1e-9), "{found:?}, by hand {by_hand}");
    }
    assert!([0, 1].iter().all(|i| !answer.cases[*i].sized) && answer.cases[2].sized);
    // By hand: the middle, 1.3 Hz, of 403 kg wants 403 (2π 1.3)²/0.36 = 74.7 N/mm; of 305 kg as weighed 56.5.
    assert_eq!(sizing.pick.si(), 75e3);
    assert_eq!(solve(&plain()).released(Side::Front).expect("released").spring.expect("sized").pick.si(), 57e3);
}

/// T = 80 kg at o = 1 m behind L = 2.5 m: by hand T (L + o)/L = 112 kg on the rear axle, −T o/L = −32 kg on the front.
/// It presses, so heights have it; it does not swing, so the frequency's mass has not.
#[test]
fn a_load_on_the_hitch_is_a_force_and_no_mass() {
    let mut job = plain();
    job.rear.plan = Plan::NewSprings;
    job.cases = vec![LoadCase { tongue: kg(80.0), ..case("trailer", false, vec![load(100.0, 2.5)]) }];
    let answer = solve(&job);
    for (i, on_scales, mass, presses) in [(0, 658.0, 305.0, -16.0), (1, 752.0, 275.0, 50.0 + 56.0)] {
        let found = &answer.cases[1];
        assert!(near(found.on_scales[Side::BOTH[i]].expect("known").si(), on_scales, 1e-12), "{:?}", found.on_scales);
        let old = found.standing[Side::BOTH[i]].old.as_ref().expect("stands");
        assert!(near(old.on.sprung.si(), mass, 1e-12), "{:?}", old.on.sprung);
        assert!(near(old.on.frequency().si(), hz(OLD_N_PER_M[i], mass), 1e-9), "{:?}", old.on.frequency());
        // By hand: half of what the axle gained, × g / k_w, down; at the ground the tyre's 200 N/mm gives, too.
        let sinks = presses * G / OLD_N_PER_M[i];
        let (rise, at_ground) = (old.rise.si(), old.rise_at_ground.expect("a tyre").si());
        assert!((rise + sinks).abs() < 1e-9, "{rise}, by hand {}", -sinks);
        assert!((at_ground + sinks + presses * G / 200e3).abs() < 1e-9, "{at_ground}");
    }
    job.cases[0].sized = true;
    let answer = solve(&job);
    let rear = answer.axle(Side::Rear);
    let (sizing, new) = (rear.sizing.as_ref().expect("sized"), standing(rear, State::NewSprings));
    // By hand, r = 1: the spring carries (275 + 56) g; the middle, 1.35 Hz, of 275 kg wants 19.8 N/mm.
    assert!(near(sizing.spring_force.si(), 331.0 * G, 1e-9), "{:?}", sizing.spring_force);
    assert_eq!(answer.released(Side::Rear).expect("released").spring.expect("sized").pick.si(), 20e3);
    assert!(near(new.frequency.si(), hz(20e3, 275.0), 1e-9), "{:?}", new.frequency);
    // At equal load: before, too, it stood with load and trailer, 255 + 56 kg on 22 N/mm, and the new spring is as high.
    assert!(new.height_change.expect("weighed before").si().abs() < 1e-9);
    let before = standing(rear, State::Before).travel.si();
    assert!((before - (50.0 + 56.0) * G / 22e3).abs() < 1e-9, "{before}");
}

/// GUM 5.1.2, by hand: each part u² = (u_m share)² + (m u_x/L)²; a scale with ± s standard gives √2 s on an axle.
#[test]
fn the_ledger_s_plus_and_minus() {
    let mut job = plain();
    let text = r#"(version: 1, job: (
        vehicle: (wheelbase: "2500 mm"),
        parts: [
            (way: Out, mass: (text: "150 kg", pm: "6 kg", spread: Standard), x: (text: "500 mm", pm: "50 mm", spread: Standard)),
            (on: RearAxle, mass: (text: "40 kg", pm: "3 kg"), x: (text: "9 m", pm: "1 m")),
        ]))"#;
    job.parts = file::parse(text).expect("two parts").parts;
    let reading = r#"(version: 1, job: (before: (lf: (text: "300 kg", pm: "2 kg", spread: Standard))))"#;
    job.before.lf = file::parse(reading).expect("a reading").before.lf;
    job.after.lf = job.before.lf.clone();
    let ledger = solve(&job).ledger.expect("two parts");
    // 6 · 0.8 = 4.8 and 150 · 0.05/2.5 = 3 in front; 6 · 0.2 = 1.2, 3, and 3/√3 = √3 of the axle part behind.
    let change = [(4.8_f64 * 4.8 + 9.0).sqrt(), (1.44_f64 + 9.0 + 3.0).sqrt()];
    // Front scales 2 kg as stated, and 1 kg within limits where nothing is stated: u² = 4 + 1/3; rear twice 1/3.
    let scales = [4.0 + 1.0 / 3.0, 2.0 / 3.0];
    let (foretold, residual) = (ledger.axles.foretold.expect("before"), ledger.axles.residual.expect("both"));
    for i in 0..2 {
        let (once, twice) = ((change[i].powi(2) + scales[i]).sqrt(), (change[i].powi(2) + 2.0 * scales[i]).sqrt());
        for (found, wanted) in [(ledger.axles.change[i].u, change[i]), (foretold[i].u, once), (residual[i].u, twice)] {
            assert!(near(found, wanted, 1e-9), "axle {i}: {found}, by hand {wanted}");
        }
    }
    // By hand: −150 · 0.8 and −150 · 0.2 + 40.
    let change = ledger.axles.change.map(|c| c.value);
    assert!(near(change[0], -120.0, 1e-12) && near(change[1], 10.0, 1e-12), "{change:?}");
}

/// The scales say +90 and +40 kg. By hand: 100 kg at 0.85 m and 30 kg at 0.5 m are 66 + 24 and 34 + 6 kg and agree; with
/// the latter forgotten 24 and 6 kg are left over: r_F + r_R = 30 kg at L r_R/30 = 0.5 m.
#[test]
fn what_the_ledger_misses_is_named_with_its_place() {
    let mut job = plain();
    job.parts = vec![part(Way::In, 100.0, 0.85), part(Way::In, 30.0, 0.5)];
    let answer = solve(&job);
    let residual = answer.ledger.as_ref().and_then(|l| l.axles.residual).expect("both weighed");
    assert!(residual.iter().all(|r| r.value.abs() < 1e-9), "{residual:?}");
    assert_eq!(said(&answer, "ledger-residual"), [""; 0]);

    job.parts.pop();
    let answer = solve(&job);
    let (mass, place) = answer.ledger.as_ref().and_then(|l| l.missing).expect("some is missing");
    assert!(near(mass.si(), 30.0, 1e-9) && near(place.si(), 0.5, 1e-9), "{mass:?} at {place:?}");
    let [text] = &said(&answer, "ledger-residual")[..] else { panic!("it is said once") };
    assert!(text.contains("+66 kg at the front and +34 kg at the rear; the scales show +90 kg and +40 kg"), "{text}");
    assert!(text.contains("30 kg is missing from the parts ledger, at a point 500 mm behind the front axle"), "{text}");
}

/// Each rating at 94.9, 95.3 and 100.4 %: nothing, a doubt, the stop.
#[test]
fn every_rating_is_green_amber_and_stop() {
    type Set = fn(&mut Job, f64);
    let rated: [(&str, &str, Set); 6] = [
        ("front.rating", "Front axle is loaded to", |j, share| j.front.rating = kg(690.0 / share)),
        ("rear.rating", "Rear axle is loaded to", |j, share| j.rear.rating = kg(540.0 / share)),
        // The heavier wheel counts: 350 kg of the front, 275 kg of the rear axle.
        ("front.wheel_rating", "A front wheel is loaded to", |j, share| j.front.wheel_rating = kg(350.0 / share)),
        ("vehicle.rating", "The vehicle is loaded to", |j, share| j.vehicle.rating = kg(1230.0 / share)),
        // By hand: 500 kg at load index 84, at 2.0 of 2.5 bar 500 · 0.8^0.8 = 500 · e^(−0.178515) = 418.256 kg.
        ("front.load_index", "A front tyre is loaded to", |j, share| {
            (j.front.load_index, j.front.tyre_pressure) = ("84".into(), "2 bar".into());
            (j.after.lf, j.after.rf) = (kg(share * 418.256), kg(300.0));
        }),
        // Above its reference a tyre carries no more than the table: 487 kg at 83, 2.5 bar.
        ("rear.load_index", "A rear tyre is loaded to", |j, share| {
            (j.rear.load_index, j.rear.tyre_pressure) = ("83".into(), "3.1 bar".into());
            (j.after.lr, j.after.rr) = (kg(300.0), kg(share * 487.0));
        }),
    ];
    let (amber, stop) = (Some((Level::Doubt, "near-rating")), Some((Level::Stop, "over-rating")));
    for (field, who, set) in rated {
        for (share, wanted) in [(0.949, None), (0.953, amber), (1.004, stop)] {
            let mut job = plain();
            set(&mut job, share);
            let answer = solve(&job);
            let found: Vec<_> = answer.findings.iter().filter(|f| f.rule.ends_with("-rating")).collect();
            assert_eq!(found.first().map(|f| (f.level, f.rule)), wanted, "{field} at {share}");
            assert_eq!(found.len(), usize::from(wanted.is_some()), "{field} at {share}: {found:?}");
            for f in found {
                let said = format!("{who} {:.1} % of ", share * 100.0);
                assert!(f.field == field && f.text.to_string().starts_with(&said), "{field}: {}", f.text);
            }
            let over = Side::BOTH.map(|s| answer.axle(s).overloaded);
            let concerned = ["front", "rear"].map(|s| field.starts_with(s) || field.starts_with("vehicle"));
            assert_eq!(over, if share > 1.0 { concerned } else { [false; 2] }, "{field} at {share}");
            // Over one rating, nothing is recommended anywhere on the vehicle.
            let released = Side::BOTH.map(|s| answer.released(s).is_ok());
            assert_eq!(released, [share <= 1.0; 2], "{field} at {share}");
        }
    }
}

/// One finding for a rating however many cases are over it, and it names the worst of them.
#[test]
fn the_worst_case_of_several_is_named() {
    let mut job = plain();
    job.rear.rating = "600 kg".into();
    let hay = |name, mass| case(name, false, vec![load(mass, 2.5)]);
    job.cases = vec![hay("two", 70.0), hay("six", 120.0), hay("one", 65.0)];
    let answer = solve(&job);
    // By hand: 540 + 120 = 660 kg of 600.
    let [text] = &said(&answer, "over-rating")[..] else { panic!("it is said once") };
    assert!(text.starts_with("In \"six\" the rear axle is loaded to 110.0 % of its rating."), "{text}");
    let (worst, rated) = answer.worst_rated(Side::Rear).expect("rated");
    assert_eq!((worst.index, rated.part), (Some(1), RatedPart::Axle(Side::Rear)));
}

/// Over a rating nothing is recommended in any words: sentence, sheet, JSON, and the program ends with 1.
#[test]
fn an_overload_in_one_case_takes_every_recommendation_away() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut job = plain();
    job.cases = vec![case("hay", false, vec![load(300.0, 0.5)])];
    // By hand: 690 + 300 · 2/2.5 = 930 kg on the axle, 465 kg on a wheel.
    for (rating, who, over) in [("1000 kg", "", false), ("900 kg", "103 % of the axle rating", true)] {
        job.front.rating = rating.into();
        let answer = solve(&job);
        let path = folder.path().join(format!("{over}.ron"));
        file::write(&path, &job).expect("writes");
        let mut cli = Command::new(env!("CARGO_BIN_EXE_springwright-cli"));
        let out = cli.args(["solve", "--json"]).arg(&path).output().expect("runs");
        assert_eq!(out.status.code(), Some(i32::from(over)), "{rating}");
        let printed = String::from_utf8(out.stdout).expect("UTF-8");
        let value = json::value(&job, &answer);
        let mut all: serde_json::Value = serde_json::from_str(&printed).expect("JSON");
        let plans = all.as_object_mut().and_then(|all| all.remove("plans")).expect("plans side by side");
        // Both as they are read again: the last digit of a number may be lost on the way.
        let value_read: serde_json::Value = serde_json::from_str(&value.to_string()).expect("JSON");
        assert!(all == value_read, "{rating}: but for the plans what is written is the answer");
        for plan in plans["all"].as_array().expect("a list") {
            assert_eq!(plan["withheld"]["front"].as_array().expect("rules").is_empty(), !over, "{plan}");
            assert_eq!(plan["price"].is_null(), over || plan["key"] != "nothing", "{plan}");
        }
        let findings = value["findings"].as_array().expect("a list").iter();
        let stops: Vec<_> = findings.filter(|f| f["level"] == "STOP").map(|f| &f["field"]).collect();
        assert_eq!(stops, vec!["front.rating"; usize::from(over)]);
        let said = sentence::axle(&answer, answer.axle(Side::Front), &job.units).answer;
        assert_eq!(value["answer"][0]["answer"], said);
        let sheet = text::write(&sheet::build(&job, &answer), text::Markup::Plain);
        for order in ["any stock rate from", "(free length ", "Free length to order"] {
            assert_eq!(sheet.contains(order), !over, "{order} with {rating}:\n{sheet}");
        }
        assert_eq!(said.contains("any stock rate from"), !over, "{said}");
        if over {
            assert_eq!(said, format!("Front: STOP. 930 kg in \"hay\" is {who}. No spring is recommended."));
            for words in [
                "Spring to buy",
                "withheld; see the first line of this axle for the reason",
                "No spring is recommended",
            ] {
                assert!(sheet.contains(words), "{words}:\n{sheet}");
            }
        }
    }
}

/// Units say how numbers are shown; a result never changes with them.
#[test]
fn units_shown_change_no_case_and_no_ledger() {
    let mut job = laden();
    let metric = solve(&job);
    job.units = UnitChoice::pound_inch();
    let pounds = solve(&job);
    let ledger = metric.ledger.as_ref().expect("parts");
    assert!(ledger.axles.residual.is_some() && ledger.axles.kept.is_some() && metric.cases.len() == 3);
    assert!(metric.cases == pounds.cases && metric.ledger == pounds.ledger, "cases and ledger");
    assert!(metric.compared == pounds.compared && metric.axles == pounds.axles, "weights and axles");
}

#[test]
fn parts_cases_loads_and_what_was_foretold_survive_the_file() {
    let job = laden();
    let again = file::parse(&file::text(&job).expect("writes")).expect("reads");
    assert_eq!(again, job);
    assert!(again.cases[1].sized && again.parts[1].on == PartOn::FrontAxle && again.parts[0].way == Way::Out);
    assert_eq!((again.cases[1].tongue.text.as_str(), again.predicted.date.as_str()), ("150 lb", "2026-03-01"));
}

/// A row with a mass and no place, or a place and no mass, is left out, and its blank field is named.
#[test]
fn half_typed_rows_are_left_out_and_named() {
    let mut job = plain();
    job.parts = vec![
        part(Way::Out, 50.0, 1.0),
        Part { mass: kg(70.0), ..Part::default() },
        Part { x: m(1.0), ..Part::default() },
    ];
    job.before.loads = vec![Load { mass: kg(80.0), ..Load::default() }];
    job.after.loads = vec![Load { x: m(2.0), ..Load::default() }];
    job.cases = vec![case("", true, vec![load(10.0, 0.0), Load { mass: kg(90.0), ..Load::default() }])];
    let answer = solve(&job);
    let half = answer.findings.iter().filter(|f| f.rule == "half-row").map(|f| f.field.as_str());
    // Loads without mass or place are errors and stand first: what an axle carries rests on them. The ledger is only
    // compared, as both weigh-ins are there.
    let wanted = ["before.loads[0].x", "after.loads[0].mass", "cases[0].loads[1].x", "parts[1].x", "parts[2].mass"];
    assert_eq!(half.collect::<Vec<_>>(), wanted);
    let ledger = answer.ledger.as_ref().expect("one row can be read");
    // By hand: −50 · 1.5/2.5 and −50 · 1/2.5; of the case its 10 kg in front alone.
    assert_eq!((ledger.rows, ledger.axles.change.map(|c| c.value)), (1, [-30.0, -20.0]));
    assert_eq!(compared_kg(&answer), [[610.0, 500.0], [700.0, 540.0]]);
}
