//! Plans: one job, several things that can be done about it, each with every result by the same key.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use std::path::Path;

use springwright::base::units::Quantity;
use springwright::base::units::entry::AnyEntry as _;
use springwright::job::{DamperPlan, Job, Level, OtherPlan, Plan, RatioBy, Side, Which, file};
use springwright::report::results::{Results, figures};
use springwright::report::sheets::plan_table::Plans;
use springwright::report::sheets::{self, Kind};
use springwright::solve::answer::Answer;
use springwright::solve::planned::{self, Against, u_of_difference};
use springwright::solve::solve;

use crate::common::kept::{self, Kept};

fn kept_demo() -> &'static Kept {
    kept::named("demo-orchard-van")
}

fn demo() -> Job {
    kept_demo().job.clone()
}

fn planned() -> Job {
    file::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/versions/2-plans.ron")).expect("a job")
}

fn compared(job: &Job) -> Plans {
    compared_with(job, &solve(job))
}

fn compared_with(job: &Job, answer: &Answer) -> Plans {
    Plans::of(job, answer, || true).expect("wanted to the end")
}

fn si(answer: &Answer, key: &str) -> f64 {
    Results::values_of(answer).find(key).and_then(|f| f.si).unwrap_or_else(|| panic!("{key} is not known"))
}

/// A spacer lengthens what is between the seats; the load on the spring stays, and so does its own length: the wheel goes
/// down by the spacer over the motion ratio. Statics; DERIVED.
#[test]
fn a_spacer_under_an_old_spring_raises_the_body_by_its_thickness_over_the_ratio() {
    let mut job = demo();
    for side in Side::BOTH {
        let axle = job.axle_mut(side);
        axle.plan = Plan::Keep;
        axle.ratio.by = RatioBy::Number;
        (axle.ratio.number, axle.ratio.confirm) = ("0.64".into(), "0.64".into());
        axle.parallel.rate = "0 N/mm".into();
    }
    let as_it_is = solve(&job);
    job.front.spacer = "16 mm".into();
    let on_spacer = solve(&job);
    let rise = |key: &str| si(&on_spacer, key) - si(&as_it_is, key);
    assert!((rise("front.new_springs.height_change") - 0.016 / 0.64).abs() < 1e-9);
    assert!((rise("front.new_springs.stop_room") - 0.016 / 0.64).abs() < 1e-9);
    assert!(rise("front.new_springs.frequency").abs() < 1e-9, "a spacer restores no frequency");
    assert!(rise("rear.new_springs.height_change").abs() < 1e-12, "the other axle is left alone");
    // Both corners of it rise by as much, but for the weight that the nose-up body moves to the rear.
    for corner in ["lf", "rf"] {
        assert!((rise(&format!("whole.corners.new.{corner}.rise")) - 0.016 / 0.64).abs() < 2e-4, "{corner}");
    }
}

/// The plan says of a spacer what the solver says of the remedy.
#[test]
fn old_springs_on_spacers_are_the_remedy_of_that_name() {
    let (job, answer) = (&kept_demo().job, kept_demo().answer());
    let thickness = answer.released(Side::Front).expect("released").spacer.expect("offered").thickness.si();
    let mut raised = job.clone();
    (raised.front.plan, raised.front.spacer) = (Plan::Keep, format!("{} m", thickness).as_str().into());
    let raised = solve(&raised);
    for (of_plan, of_remedy) in [
        ("height_change", "above_before"),
        ("frequency", "frequency"),
        ("stop_room", "stop_room"),
        ("reserve", "reserve"),
    ] {
        let plan = si(&raised, &format!("front.new_springs.{of_plan}"));
        let remedy = si(answer, &format!("front.remedies.spacer.as_weighed.{of_remedy}"));
        assert!((plan - remedy).abs() < 1e-9, "{of_plan}: {plan} {remedy}");
    }
    let all = compared_with(job, answer).all;
    let added = all.iter().find(|plan| plan.planned.which.is_none()).expect("the program adds it");
    assert_eq!(added.planned.job.front.spacer.text, format!("{} mm", (1e3 * thickness).round()));
    assert_eq!(added.price, Some(24.0 + 180.0), "spacers and the work");
}

#[test]
fn choosing_a_plan_and_the_former_one_again_changes_nothing() {
    let job = planned();
    let mut changed = job.clone();
    for which in [Which::Other(1), Which::Other(1), Which::Other(0), Which::Other(0), Which::Chosen, Which::Other(7)] {
        changed.choose_plan(which);
    }
    assert_eq!(changed, job);
    changed.choose_plan(Which::Nothing);
    assert!(changed.does_nothing() && !job.does_nothing());
    assert_eq!(changed.plans.last().expect("kept").name, "Harder front springs");
    let other = changed.plans.len() - 1;
    changed.choose_plan(Which::Other(other));
    assert_eq!(changed, job, "nothing done is not kept beside: it is always there");
    // What was typed while nothing was done is kept.
    changed.choose_plan(Which::Nothing);
    changed.front.new_damper.what = "soft one".into();
    changed.choose_plan(Which::Other(other));
    assert!(changed.plans.iter().any(|plan| plan.front.new_damper.what == "soft one"));
}

/// Every result of a plan, with its ±, is that of a job in which nothing else was ever planned.
#[test]
fn a_plan_is_solved_as_if_it_stood_alone() {
    let job = planned();
    for which in job.every_plan() {
        let mut alone = job.on_plan(which);
        alone.plans.clear();
        assert_eq!(figures(&solve(&job.on_plan(which))), figures(&solve(&alone)), "{which:?}");
    }
    assert_eq!(
        figures(&solve(&job)),
        figures(&solve(&Job { plans: Vec::new(), ..job.clone() })),
        "the chosen one, too"
    );
}

#[test]
fn nothing_done_is_always_one_and_sells_nothing() {
    let mut job = demo();
    job.rear.damper.ratio_before = "0.12".into();
    let plans = compared(&job);
    let nothing = plans.all.iter().find(|plan| plan.planned.which == Some(Which::Nothing)).expect("always one");
    let answer = solve(&nothing.planned.job);
    assert_eq!(nothing.price, Some(0.0));
    let text = sheets::build(Kind::Customer, &nothing.planned.job, &answer, None);
    assert!(format!("{text:?}").contains("Springs and dampers stay as they are"), "{text:?}");
    let stands = |key: &str| si(&answer, key);
    assert_eq!(stands("front.new_springs.frequency"), stands("front.old_springs.frequency"));
    // Where nothing is what was chosen, it stands there once.
    job.choose_plan(Which::Nothing);
    job.plans.clear();
    assert_eq!(job.every_plan(), [Which::Chosen]);
}

/// The ± of a difference by brute force: every field moved by its own in both jobs at once. GUM, 5.1.3, 5.2.
#[test]
fn the_uncertainty_of_a_difference_is_that_of_both_plans_moved_together() {
    let mut job = demo();
    // A spring that is at hand: nothing is decided anew when a field moves.
    (job.front.taken.rate, job.front.taken.free_length) = ("60 N/mm".into(), "359 mm".into());
    let mut other = job.clone();
    (other.front.plan, other.front.spacer, other.front.dampers) = (Plan::Keep, "16 mm".into(), DamperPlan::Keep);
    let answers = [solve(&job), solve(&other)];
    let key = "front.new_springs.frequency";
    let with: Vec<Results> = answers.iter().map(|a| springwright::report::results::with_steps(a).into()).collect();
    let [is, was] = [&with[0], &with[1]].map(|r| r.find(key).expect("there"));
    let u = u_of_difference(&is.steps, &was.steps);
    // Unsprung mass moves both: what it does to the difference is far less than to either.
    let of = |steps: &[(String, f64)], path: &str| steps.iter().filter(|s| s.0 == path).map(|s| s.1).sum::<f64>();
    let path = "front.unsprung";
    let by_hand: Vec<f64> = ["+", "-"]
        .iter()
        .map(|sign| {
            let moved = |job: &Job| {
                let mut job = job.clone();
                // 38 ± 4 kg are limits: the standard uncertainty is that over the root of three.
                let by = 4.0 / 3f64.sqrt() * if *sign == "+" { 1.0 } else { -1.0 };
                job.front.unsprung.text = format!("{} kg", 38.0 + by);
                job
            };
            si(&solve(&moved(&job)), key) - si(&solve(&moved(&other)), key)
        })
        .collect();
    let expected = 0.5 * (by_hand[0] - by_hand[1]);
    let found = of(&is.steps, path) - of(&was.steps, path);
    assert!((expected - found).abs() < 0.05 * found.abs().max(1e-5), "{expected} {found}");
    assert!(u < is.u_si.unwrap().hypot(was.u_si.unwrap()), "{u}: what both share does not count twice");
}

/// A job in which the spring that would be bought is the old one again: a spacer does it all, and leads.
fn same_rate() -> Job {
    let mut job = demo();
    (job.front.target.low, job.front.target.high) = ("1.09 Hz".into(), "1.18 Hz".into());
    job.front.stock.step = "7 N/mm".into();
    job.front.spring.solid_length.text = "165 mm".into();
    job.front.dampers = DamperPlan::Keep;
    job
}

#[test]
fn a_spacer_that_does_the_same_leads() {
    let job = same_rate();
    let answer = solve(&job);
    assert!((si(&answer, "front.sizing.pick") - 49e3).abs() < 1.0, "the old spring's rate");
    let plans = compared_with(&job, &answer);
    let cheaper = plans.cheaper().expect("spacers do the same");
    assert!(cheaper.planned.which.is_none(), "{}", cheaper.planned.name);
    let said = plans.advice().expect("it is said");
    assert!(said.starts_with("\"old springs with spacers\"") && said.contains("less"), "{said}");
    let sheet = sheets::build(Kind::Full, &job, &answer, None);
    assert!(format!("{sheet:?}").contains(&said.replace('"', "\\\"")), "it stands in the full report");
    // Where the spring does something else, the dearer plan is not talked down.
    assert!(compared_with(&kept_demo().job, kept_demo().answer()).cheaper().is_none());
}

#[test]
fn plans_are_the_same_only_when_the_uncertainty_of_the_difference_allows_it() {
    let job = same_rate();
    let chosen = solve(&job);
    let all = compared_with(&job, &chosen).all;
    let spacers = all.iter().find(|plan| plan.planned.which.is_none()).expect("added");
    assert_ne!(spacers.against, Against::Differs);
    assert_eq!(
        planned::against(&chosen, &chosen),
        Against::Unclear,
        "two pairs of new springs are never sure to be alike"
    );
    let kept = solve(&job.on_plan(Which::Nothing));
    assert_eq!(planned::against(&kept, &kept), Against::Same);
    assert_eq!(planned::against(&kept, &chosen), Against::Differs, "it sits lower");
}

#[test]
fn a_field_of_another_plan_that_cannot_be_read_is_an_error_that_withholds_nothing() {
    let mut job = planned();
    job.plans[1].front.taken.rate = "sixty".into();
    let answer = solve(&job);
    let error = answer.findings.iter().find(|f| f.field == "plans[1].front.taken.rate").expect("said");
    assert_eq!(error.level, Level::Error);
    assert!(
        error.text.to_string().contains("Plan 2: Front, ") && error.text.to_string().contains("sixty"),
        "{}",
        error.text
    );
    for side in Side::BOTH {
        assert!(answer.released(side).is_ok(), "{side:?}");
    }
    let its_own = solve(&job.on_plan(Which::Other(1)));
    assert!(its_own.released(Side::Front).is_err(), "chosen, it does");
}

#[test]
fn more_plans_than_a_job_has_room_for_stay_in_the_file_and_count_for_nothing() {
    let mut job = demo();
    job.plans = (0..9).map(|i| OtherPlan { name: format!("number {i}"), ..OtherPlan::default() }).collect();
    let answer = solve(&job);
    assert!(answer.findings.iter().any(|f| f.rule == "too-many-rows" && f.field == "plans"), "{:?}", answer.findings);
    let job = springwright::job::bounded::used(&job).into_owned();
    assert_eq!(compared(&job).all.len(), 8, "nothing, the chosen one, five others, spacers");
}

/// A blank plan is three characters of a file and 3 kB of memory.
#[test]
fn a_file_with_more_plans_than_memory_has_room_for_is_refused_in_words() {
    let of = |count: usize| format!("(version: 2, job: (plans: [{}]))", "(),".repeat(count));
    assert_eq!(file::parse(&of(1_000)).expect("the most").plans.len(), 1_000);
    for count in [1_001, 600_000] {
        let said = file::parse(&of(count)).expect_err("refused").to_string();
        assert!(said.contains(&count.to_string()) && said.contains("at most 1000"), "{said}");
    }
    let all = planned::every(&file::parse(&of(1_000)).expect("a job"), &solve(&Job::default()));
    assert_eq!(all.len(), 2 + 5, "those beyond the bound count for nothing");
}

#[test]
fn the_chosen_plan_is_surely_like_itself() {
    let plans = compared(&planned());
    assert_eq!(plans.chosen().expect("one").against, Against::Same);
    let json = plans.json();
    let chosen = json["all"].as_array().expect("plans").iter().find(|plan| plan["chosen"] == true).expect("one");
    for result in chosen["results"].as_array().expect("results").iter().filter(|r| !r["difference_u"].is_null()) {
        assert_eq!((&result["difference"], &result["difference_u"]), (&0.0.into(), &0.0.into()), "{result}");
    }
}

/// What is withheld is like nothing: no plan is recommended in its place.
#[test]
fn nothing_is_recommended_in_place_of_a_plan_that_is_withheld() {
    let mut job = same_rate();
    let mut spacers = compared(&job).added().expect("offered").planned.job.chosen_plan();
    spacers.name = "on spacers".into();
    job.plans = vec![spacers];
    assert!(compared(&job).cheaper().is_some());
    (job.front.taken.rate, job.front.taken.free_length) = ("49 N/mm".into(), "much".into());
    assert!(solve(&job).released(Side::Front).is_err());
    assert!(compared(&job).cheaper().is_none());
}

#[test]
fn spacers_come_in_sizes_as_lengths_are_shown() {
    let mut job = demo();
    job.units = springwright::base::units::UnitChoice::pound_inch();
    let answer = solve(&job);
    let plans = compared_with(&job, &answer);
    let spacer = &plans.added().expect("offered").planned.job.front.spacer.text;
    assert!(spacer.ends_with("/16 in") || spacer.ends_with("/8 in"), "{spacer}");
    let exact = answer.released(Side::Front).expect("released").spacer.expect("offered").thickness.si();
    let read = spacer.as_str();
    let entry: springwright::base::units::Entry<springwright::base::units::Length> = read.into();
    let si = entry.number(job.decimal).expect("a length").expect("typed").si();
    assert!((si - exact).abs() <= 0.0254 / 32.0, "{si} {exact}");
}

#[test]
fn a_spacer_where_it_means_nothing_is_said_not_used() {
    let mut job = demo();
    job.front.spacer = "10 mm".into();
    let rules = |job: &Job| solve(job).findings.iter().map(|f| (f.rule, f.field.clone())).collect::<Vec<_>>();
    assert!(rules(&job).contains(&("spacer-not-used", "front.spacer".to_owned())), "new springs go in");
    let mut bar = kept::named("torsion-bar-front").job.clone();
    (bar.front.plan, bar.front.spacer) = (Plan::Keep, "10 mm".into());
    assert!(rules(&bar).contains(&("spacer-not-used", "front.spacer".to_owned())));
    bar.front.spacer = "0 mm".into();
    assert!(!rules(&bar).iter().any(|(rule, _)| *rule == "spacer-not-used"));
}

/// Sheets name what was decided: the spacers with their price, no new spring.
#[test]
fn sheets_of_a_plan_name_its_parts_alone() {
    let job = planned().on_plan(Which::Other(0));
    let answer = solve(&job);
    let of = |kind| format!("{:?}", sheets::build(kind, &job, &answer, None));
    for kind in [Kind::Customer, Kind::Fitting, Kind::Order] {
        let text = of(kind);
        assert!(text.contains("12 mm"), "{kind:?}: {text}");
        assert!(!text.contains("60 N/mm") && !text.contains("New front springs"), "{kind:?}: {text}");
    }
    assert!(of(Kind::Customer).contains("204.00 EUR"));
    assert!(of(Kind::Fitting).contains("Remove the spring in its compressor"), "a spacer needs the spring out");
    let firm = planned().on_plan(Which::Other(1));
    let text = format!("{:?}", sheets::build(Kind::Order, &firm, &solve(&firm), None));
    assert!(text.contains("New front dampers, as planned"), "{text}");
}
