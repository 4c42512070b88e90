//! Anti-roll bars: the new one of a plan counts in everything that the plan does; and bars the other way round: worked
//! case C10, and that every bar found gives back what was wanted.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::path::Path;

use crate::common::properties::{config, near};
use proptest::prelude::*;
use springwright::base::units::{Angle, G_M_PER_S2, Length, Mass, Quantity, TwistRate};
use springwright::job::{DamperPlan, Job, OtherPlan, Plan, Side, Which, file};
use springwright::report::results::Results;
use springwright::report::sheets::plan_table::Plans;
use springwright::report::sheets::{self, Kind};
use springwright::solve::answer::Answer;
use springwright::solve::planned::Against;
use springwright::solve::solve;
use springwright::trade::roll::wanted::{AxleForBar, NoBar, bar_alone, both_bars, front_transfer, gradient};
use springwright::trade::roll::{AntiRollBar, AxleInRoll, Body, independent};

fn axle([sprung, unsprung, track, roll_centre, unsprung_height, springs, tyre]: [f64; 7]) -> AxleForBar {
    let m = Length::from_si;
    AxleForBar {
        axle: AxleInRoll {
            stiffness: TwistRate::from_si(springs),
            sprung: Mass::from_si(sprung),
            roll_centre: m(roll_centre),
            unsprung: Mass::from_si(unsprung),
            unsprung_height: m(unsprung_height),
            track: m(track),
        },
        tyres: independent(springwright::base::units::SpringRate::from_si(tyre), m(track)),
    }
}

fn c10() -> ([AxleForBar; 2], Body, AntiRollBar) {
    let front = axle([853.0, 84.0, 1.55, 0.06, 0.31, 36e3, 210e3]);
    let rear = axle([925.0, 156.0, 1.5, 0.36, 0.32, 29_500.0, 230e3]);
    let body = Body { sprung: Mass::from_si(1778.0), above_axis: Length::from_si(0.47) };
    let bar = AntiRollBar {
        diameter_m: 0.02,
        inside_m: 0.0,
        length_m: 0.9,
        blade_m: 0.22,
        link_ratio: 0.6,
        shear_modulus_pa: 79e9,
    };
    ([front, rear], body, bar)
}

const NONE: fn() -> TwistRate = || TwistRate::from_si(0.0);

#[test]
fn worked_case_c10() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/measuring.json");
    let all: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(path).expect("the cases")).expect("JSON");
    let close = |key: &str, got: f64| {
        let want = all["C10"]["expected"][format!("bars.{key}")].as_f64().expect("a number");
        assert!(near(got, want, 1e-9), "{key}: {got}, wanted {want}");
    };
    let (axles, body, bar) = c10();
    let fitted = [TwistRate::from_si(14e3), NONE()];
    let was = gradient(&axles, fitted, body).expect("it stands up");
    close("gradient_rad_per_m_s2", was);
    let share = front_transfer(&axles, fitted, body).expect("it stands up");
    close("front_share", share.si());
    let wanted = 0.9 * was;
    let alone = bar_alone(&axles, body, wanted, 0, NONE()).expect("a bar does it");
    close("front_alone_Nm_per_rad", alone.si());
    let track = Length::from_si(1.55);
    let diameter = bar.diameter_for(alone, track);
    close("front_alone_diameter_m", diameter.si());
    close("front_alone_share", front_transfer(&axles, [alone, NONE()], body).expect("it stands up").si());
    let thick = AntiRollBar { diameter_m: diameter.si(), ..bar };
    assert!(near(thick.roll_stiffness(track).si(), alone.si(), 1e-12));
    close("front_alone_stress_at_3deg_Pa", thick.stress(track, Angle::from_si(3.0_f64.to_radians())).si());
    close("front_alone_one_wheel_N_per_m", thick.one_wheel_n_per_m());
    let both = both_bars(&axles, body, wanted, share).map(|bar| bar.expect("a bar does it").si());
    close("both_front_Nm_per_rad", both[0]);
    close("both_rear_Nm_per_rad", both[1]);
}

#[test]
fn a_hollow_bar_keeps_its_bore() {
    let (_, _, bar) = c10();
    let hollow = AntiRollBar { diameter_m: 0.03, inside_m: 0.022, ..bar };
    let track = Length::from_si(1.55);
    let found = AntiRollBar { diameter_m: 0.0, ..hollow }.diameter_for(hollow.roll_stiffness(track), track);
    assert!(near(found.si(), 0.03, 1e-12), "{found:?}");
    // By hand, of the same stiffness: a solid bar is thinner by (1 − (22/30)⁴)^¼.
    let solid = bar.diameter_for(hollow.roll_stiffness(track), track);
    assert!(near(solid.si(), 0.03 * (1.0 - (22.0_f64 / 30.0).powi(4)).powf(0.25), 1e-12), "{solid:?}");
}

#[test]
fn no_bar_is_said() {
    let (axles, body, _) = c10();
    let bare = gradient(&axles, [NONE(), NONE()], body).expect("it stands up");
    assert_eq!(bar_alone(&axles, body, 1.01 * bare, 0, NONE()), Err(NoBar::NoneNeeded));
    assert_eq!(bar_alone(&axles, body, 0.01 * bare, 0, NONE()), Err(NoBar::BeyondTyres));
    // Two bars of no thickness give the springs back.
    let share = front_transfer(&axles, [NONE(), NONE()], body).expect("it stands up");
    assert!(both_bars(&axles, body, 1.001 * bare, share).contains(&Err(NoBar::NoneNeeded)));
}

fn demo() -> Job {
    springwright::shop::presets::demo()
}

/// The demo as planned; and the same with a front bar of 26 mm in place of 20 mm, as another plan.
fn two_bars() -> Job {
    let mut job = demo();
    let mut bar = OtherPlan { name: "thick bar".into(), ..job.chosen_plan() };
    bar.front.roll_bar.new_diameter = "26 mm".into();
    job.plans = vec![bar];
    job
}

fn si(answer: &Answer, key: &str) -> f64 {
    let results = Results::values_of(answer);
    results.find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key} is not known"))
}

/// Of the new state alone; before it, and where nothing is done, the old bar is there.
#[test]
fn the_bar_of_a_plan_counts_in_its_new_state() {
    let job = two_bars();
    let [chosen, barred, nothing] =
        [Which::Chosen, Which::Other(0), Which::Nothing].map(|which| solve(&job.on_plan(which)));
    let bar = |answer: &Answer, state: &str| si(answer, &format!("whole.roll.{state}.front.bar"));
    // k ∝ d⁴.
    let thicker = (26.0_f64 / 20.0).powi(4);
    assert!(near(bar(&barred, "new_springs"), thicker * bar(&chosen, "new_springs"), 1e-12));
    for state in ["before", "old_springs"] {
        assert_eq!(bar(&barred, state).to_bits(), bar(&chosen, state).to_bits(), "{state}");
    }
    assert_eq!(bar(&nothing, "new_springs").to_bits(), bar(&chosen, "old_springs").to_bits(), "nothing done");
    assert_eq!(barred.whole.old_bars, chosen.whole.roll.new, "what the new springs alone would do");
    assert_eq!(chosen.whole.old_bars, None);
    let gradient = |answer: &Answer| si(answer, "whole.roll.new_springs.gradient");
    assert!(gradient(&barred) < 0.7 * gradient(&chosen));
    // What is aboard off the centreline leans the body less on the thicker bar, its links connected.
    let with_driver = |job: &Job| {
        let mut job = job.clone();
        job.cases[0].loads[0].y = "400 mm".into();
        solve(&job).whole.in_cases[0].new.expect("four corners").lean.si()
    };
    assert!(with_driver(&job.on_plan(Which::Other(0))) < 0.99 * with_driver(&job));
    // It carries nothing straight ahead.
    assert_eq!(si(&barred, "front.new_springs.frequency"), si(&chosen, "front.new_springs.frequency"));
}

/// More of the load transfer at the front, at the same weight: said as what it tends to, with what counts as much.
#[test]
fn what_a_front_bar_does_to_the_balance_is_said_without_a_promise() {
    let job = two_bars().on_plan(Which::Other(0));
    let answer = solve(&job);
    let share = |of: &str, key: &str| si(&answer, &format!("whole.roll.{of}.{key}"));
    assert!(share("new_springs", "front_transfer") > share("old_bars", "front_transfer") + 0.05);
    assert_eq!(share("new_springs", "front_weight").to_bits(), share("old_bars", "front_weight").to_bits());
    let said = |job: &Job| format!("{:?}", sheets::build(Kind::Full, job, &solve(job), None));
    let text = said(&job);
    assert!(text.contains("the vehicle will tend more to run wide") && text.contains("only a road test"), "{text}");
    let mut rear = job.clone();
    (rear.front.roll_bar.diameter, rear.rear.roll_bar) = ("".into(), job.front.roll_bar.clone());
    rear.front.roll_bar.new_diameter = "".into();
    assert!(said(&rear).contains("the tail will tend more to step out"));
    rear.rear.roll_bar.new_diameter = "".into();
    let (same, text) = ("this balance stays about the same", said(&rear));
    assert!(text.contains(same) || text.contains("will tend more"), "{text}");
    rear.chassis.lift = Default::default();
    assert!(!said(&rear).contains("run wide"), "without the height of the centre of gravity nothing is known of it");
}

/// There and back through a whole job: what a plan's bars do, wanted of the job without them, gives their diameters.
#[test]
fn the_bars_for_what_bars_do_are_those_bars() {
    let mut job = demo();
    job.rear.roll_bar = job.front.roll_bar.clone();
    job.rear.roll_bar.diameter = "16 mm".into();
    let mut barred = job.clone();
    barred.front.roll_bar.new_diameter = "26 mm".into();
    let answer = solve(&barred);
    let degrees = si(&answer, "whole.roll.new_springs.gradient_on_tyres").to_degrees();
    let wanted = &mut job.chassis.roll;
    wanted.gradient_low = format!("{degrees}°").as_str().into();
    wanted.front_high = format!("{}", si(&answer, "whole.roll.new_springs.front_transfer_on_tyres")).as_str().into();
    let answer = solve(&job);
    for (key, diameter_m) in
        [("front.thinnest", 0.026), ("front.thickest", 0.026), ("front.both", 0.026), ("rear.both", 0.016)]
    {
        assert!(near(si(&answer, &format!("whole.bars.{key}")), diameter_m, 1e-9), "{key}");
    }
    assert!(si(&answer, "whole.bars.rear.thinnest") > 0.016, "alone it must do what the front bar did");
    assert!(near(si(&answer, "whole.bars.front.stock"), 0.026, 1e-12), "whole millimetres");
    let text = format!("{:?}", sheets::build(Kind::Full, &job, &answer, None));
    assert!(text.contains("Anti-roll bars for the target roll") && text.contains("Target: roll gradient"), "{text}");
    // The bar's own numbers, by hand: G d r_b t φ/(2 a l) at 3°, and π G d⁴/(32 l) r_b²/a².
    let (g, [d, ratio, t, a, l]) = (78.5e9, [0.020, 0.7, 1.48, 0.23, 0.82]);
    let stress = g * d * ratio * t * 3.0_f64.to_radians() / (2.0 * a * l);
    assert!(near(si(&answer, "whole.roll.new_springs.front.bar_stress"), stress, 1e-12));
    let one_wheel = std::f64::consts::PI * g * d.powi(4) / (32.0 * l) * ratio * ratio / (a * a);
    assert!(near(si(&answer, "whole.roll.new_springs.front.bar_one_wheel"), one_wheel, 1e-12));
}

/// As before where nothing is typed; a size on offer inside the range, where one is; and what no bar does is said.
#[test]
fn a_target_that_no_bar_reaches_is_said() {
    let mut job = demo();
    let of = |job: &Job| {
        let figure = |key: &str| Results::values_of(&solve(job)).find(key).cloned().expect("a result");
        (figure("whole.bars.front.thinnest"), figure("whole.bars.front.stock"))
    };
    let before = of(&job).0.si.expect("the bar that restores the roll before");
    job.chassis.roll.gradient_low =
        format!("{}°", si(&solve(&job), "whole.roll.before.gradient_on_tyres").to_degrees()).as_str().into();
    assert!(near(of(&job).0.si.expect("the same as a number"), before, 1e-9));
    let said = |job: &Job| format!("{:?}", sheets::build(Kind::Full, job, &solve(job), None));
    job.chassis.roll.gradient_low = "40°".into();
    assert_eq!((of(&job).0.si, of(&job).0.instead, of(&job).1.si), (None, Some("none needed"), None));
    assert!(said(&job).contains("a bar stiffness below zero is no answer"));
    job.chassis.roll.gradient_low = "0.5°".into();
    assert_eq!((of(&job).0.si, of(&job).0.instead), (None, Some("not possible")));
    assert!(said(&job).contains("the tyres alone give way by more than that"));
    // From one end to the other: a whole size between them.
    (job.chassis.roll.gradient_low, job.chassis.roll.gradient_high) = ("5°".into(), "7°".into());
    let answer = solve(&job);
    let [thinnest, stock, thickest] =
        ["thinnest", "stock", "thickest"].map(|key| si(&answer, &format!("whole.bars.front.{key}")));
    assert!(
        thinnest < stock && stock < thickest && (1e3 * stock - (1e3 * stock).round()).abs() < 1e-9,
        "{thinnest} {stock} {thickest}"
    );
    // Swapped ends give none.
    (job.chassis.roll.gradient_low, job.chassis.roll.gradient_high) = ("7°".into(), "5°".into());
    let answer = solve(&job);
    assert!(answer.whole.bars.is_none() && answer.findings.iter().any(|f| f.rule == "roll-range"));
    assert!(answer.released(Side::Front).is_ok(), "springs rest on it nowhere");
}

/// The difference of two plans has the ± of both; the bar that one of them has of its own moves that one alone.
#[test]
fn plans_with_other_bars_differ() {
    let job = two_bars();
    assert!(!OtherPlan::eq(&job.plans[0], &job.chosen_plan()) && !job.on_plan(Which::Other(0)).does_nothing());
    let plans = Plans::of(&job, &solve(&job), || true).expect("wanted to the end");
    let json = plans.json();
    let all = json["all"].as_array().expect("plans");
    let of = |key: &str| all.iter().find(|plan| plan["key"] == key).expect("there");
    let gradient = |key: &str| {
        let results = of(key)["results"].as_array().expect("results");
        results.iter().find(|r| r["key"] == "whole.roll.new_springs.gradient").expect("compared").clone()
    };
    let (own, other) = (gradient("chosen"), gradient("plans[0]"));
    let number = |of: &serde_json::Value, what: &str| of[what].as_f64().expect("a number");
    assert!(near(number(&other, "difference"), number(&other, "value") - number(&own, "value"), 1e-12));
    let (u, apart) = (number(&other, "difference_u"), number(&own, "u").hypot(number(&other, "u")));
    assert!(u > 0.0 && u < apart, "{u}: what moves both alike does not count twice, {apart}");
    assert_eq!(of("plans[0]")["against_chosen"], "differs");
    // Even where roll is not known, another bar is no cheaper way to the same.
    let mut unknown = job.on_plan(Which::Other(0));
    unknown.front.track = "".into();
    let plans = Plans::of(&unknown, &solve(&unknown), || true).expect("wanted to the end");
    let without = plans.all.iter().find(|plan| plan.planned.which == Some(Which::Other(0))).expect("there");
    assert_eq!(without.against, Against::Differs);
}

#[test]
fn a_new_bar_is_ordered_fitted_and_paid_for() {
    let mut job = two_bars().on_plan(Which::Other(0));
    let with_springs = solve(&job);
    let said = |job: &Job, kind| format!("{:?}", sheets::build(kind, job, &solve(job), None));
    for kind in [Kind::Customer, Kind::Order, Kind::Fitting] {
        assert!(said(&job, kind).contains("26 mm"), "{kind:?}: {}", said(&job, kind));
    }
    // Alone: nothing else is sold, and what it costs is what it costs.
    for side in Side::BOTH {
        (job.axle_mut(side).plan, job.axle_mut(side).dampers) = (Plan::Keep, DamperPlan::Keep);
    }
    job.prices.roll_bar = "310".into();
    assert!(!job.does_nothing());
    let customer = said(&job, Kind::Customer);
    for words in ["anti-roll bar at the front, 26 mm thick", "310.00 EUR", "% less in bends"] {
        assert!(customer.contains(words), "{words}: {customer}");
    }
    assert!(!customer.contains("will ride as it does now") && !customer.contains("stay as they are"), "{customer}");
    let order = said(&job, Kind::Order);
    for words in ["Front anti-roll bar", "26 mm", "820 mm", "230 mm", "none (solid bar)"] {
        assert!(order.contains(words), "{words}: {order}");
    }
    let fitting = said(&job, Kind::Fitting);
    for words in ["26 mm in diameter, the old one 20 mm", "take it out", "Anti-roll bar brackets", "finger-tight"] {
        assert!(fitting.contains(words), "{words}: {fitting}");
    }
    assert!(!fitting.contains("spring compressor") && !fitting.contains("Remove the damper"), "{fitting}");
    assert!(with_springs.released(Side::Front).is_ok());
    // Over a rating nothing is named, this neither.
    job.front.rating = "500 kg".into();
    assert!(!said(&job, Kind::Order).contains("26 mm"));
}

/// Files of a program that only thought of another bar: what was chosen gives what it gave, the other bar is a plan.
#[test]
fn a_bar_that_was_only_thought_of_becomes_a_plan_of_its_own() {
    let text = |version: u32, plans: &str| {
        let bar = "front: (roll_bar: (diameter: \"20 mm\", new_diameter: \"26 mm\"))";
        format!("(version: {version}, job: ({bar}{plans}))")
    };
    let old = file::parse(&text(2, "")).expect("a job");
    assert!(old.front.roll_bar.new_diameter.is_blank());
    assert_eq!(old.plans.len(), 1);
    assert_eq!(old.plans[0].front.roll_bar.new_diameter.text, "26 mm");
    assert_eq!(file::parse(&file::text(&old).expect("writes")).expect("reads"), old, "only once");
    let own = file::parse(&text(3, "")).expect("a job");
    assert!(own.plans.is_empty() && own.front.roll_bar.new_diameter.text == "26 mm");
    let planned = file::parse(&text(2, ", plans: [(name: \"B\")]")).expect("a job");
    assert!(planned.plans.len() == 1 && planned.front.roll_bar.new_diameter.text == "26 mm", "plans were there");
}

proptest! {
    #![proptest_config(config(64))]

    /// With the bars that were found the body rolls, and shares its transfer, as wanted. DERIVED.
    #[test]
    fn there_and_back(front in 2e3..4e4_f64, rear in 1e3..3e4_f64, which in 0..2_usize) {
        let (axles, body, _) = c10();
        let bars = [TwistRate::from_si(front), TwistRate::from_si(rear)];
        let (rolls, share) = (gradient(&axles, bars, body).expect("stiff"), front_transfer(&axles, bars, body).expect("stiff"));
        let alone = bar_alone(&axles, body, rolls, which, bars[1 - which]).expect("there is one");
        prop_assert!(near(alone.si(), bars[which].si(), 1e-9));
        let both = both_bars(&axles, body, rolls, share).map(|b| b.expect("there is one").si());
        prop_assert!(near(both[0], front, 1e-9) && near(both[1], rear, 1e-9), "{both:?}");
        prop_assert!(rolls > 0.0 && rolls * G_M_PER_S2 < 1.0);
    }
}
