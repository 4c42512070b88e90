//! Plans in the window: added, named, chosen, removed and taken back; compared in the background; one step each to undo.
#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

use crate::common::driven;

use std::path::Path;

use driven::{press, run, settle, until};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use springwright::base::language::Language;
use springwright::gui::state::command::Command;
use springwright::gui::state::section::Section;
use springwright::gui::{App, Step};
use springwright::job::{DamperPlan, Job, Plan, Which, file};
use springwright::shop::presets;

fn planned() -> Job {
    file::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/versions/2-plans.ron")).expect("a job")
}

fn window(job: Job) -> Harness<'static, App> {
    let mut harness = driven::window(App::on(job), 2400.0);
    run(&mut harness, Command::Step(Step::Choose));
    run(&mut harness, Command::Section(Section::Plans));
    until(&mut harness, "the plans", |app| app.planning.plans().is_some());
    settle(&mut harness);
    harness
}

fn click(harness: &mut Harness<'_, App>, label: &str) {
    harness.get_by_label(label).click();
    settle(harness);
}

fn undo(harness: &mut Harness<'_, App>) {
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    settle(harness);
}

#[test]
fn nothing_done_and_spacers_are_compared_with_what_is_planned() {
    let harness = window(presets::demo());
    let plans = harness.state().planning.plans().expect("compared");
    let names: Vec<String> = plans.all.iter().map(|plan| plan.planned.name.to_string()).collect();
    assert_eq!(names, ["nothing done", "old springs with spacers", "as planned"], "from the cheapest up");
    for shown in ["Plans side by side", "as planned (chosen)", "Parts and labour"] {
        assert!(harness.query_all_by_label(shown).next().is_some(), "{shown}");
    }
}

#[test]
fn the_spacers_that_are_offered_become_the_chosen_plan_and_can_be_taken_back() {
    let mut harness = window(presets::demo());
    let was = harness.state().job().clone();
    click(&mut harness, "Try old springs on spacers");
    let job = harness.state().job();
    assert_eq!((job.front.plan, job.rear.plan, job.front.dampers), (Plan::Keep, Plan::Keep, DamperPlan::Keep));
    assert!(job.front.spacer.text.ends_with(" mm"), "{}", job.front.spacer.text);
    assert_eq!((job.plan_name.as_str(), job.plans[0].name.as_str()), ("old springs with spacers", "as planned"));
    assert_eq!(job.plans[0].front.plan, Plan::NewSprings);
    let brief = &harness.state().answer().axles.front;
    assert!(brief.is_set_again());
    undo(&mut harness);
    assert_eq!(*harness.state().job(), was);
}

#[test]
fn plans_are_added_chosen_and_removed() {
    let mut harness = window(presets::demo());
    click(&mut harness, "Add plan");
    let names =
        |app: &App| (app.job().plan_name.clone(), app.job().plans.iter().map(|p| p.name.clone()).collect::<Vec<_>>());
    assert_eq!(names(harness.state()), ("plan 2".into(), vec!["plan 1".into()]));
    // The copy does what it was copied from, until it is changed.
    harness.state_mut().job_mut().front.plan = Plan::Keep;
    settle(&mut harness);
    click(&mut harness, "Choose plan 1");
    assert_eq!(names(harness.state()), ("plan 1".into(), vec!["plan 2".into()]));
    assert_eq!(harness.state().job().front.plan, Plan::NewSprings);
    click(&mut harness, "Choose nothing done");
    assert!(harness.state().job().does_nothing());
    assert_eq!(names(harness.state()).1, ["plan 2", "plan 1"]);
    undo(&mut harness);
    harness.get_by_label("Remove").click();
    settle(&mut harness);
    assert_eq!(names(harness.state()), ("plan 1".into(), Vec::new()));
    undo(&mut harness);
    assert_eq!(names(harness.state()).1, ["plan 2"]);
    // The name is typed where it stands.
    let name = harness
        .get_all_by_role(Role::TextInput)
        .find(|node| node.accesskit_node().label().is_some_and(|label| label == "Name of plan 2"));
    name.expect("a field for the name").focus();
    settle(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    driven::type_text(&mut harness, "softer");
    assert_eq!(names(harness.state()).1, ["softer"]);
}

#[test]
fn step_springs_switches_between_plans_where_there_are_several() {
    let mut harness = window(presets::demo());
    run(&mut harness, Command::Step(Step::Springs));
    assert!(harness.query_by_label("Plan").is_none(), "one plan needs no choice");
    let mut harness = window(planned());
    run(&mut harness, Command::Step(Step::Springs));
    harness.get_by_label("Plan: Harder front springs").click();
    settle(&mut harness);
    harness.get_by_label("Spacers only").click();
    settle(&mut harness);
    let job = harness.state().job();
    assert_eq!((job.plan_name.as_str(), job.front.spacer.text.as_str()), ("Spacers only", "12 mm"));
    assert!(harness.query_all_by_label_contains("Spacer under the old spring").next().is_some());
}

#[test]
fn nothing_is_compared_while_nothing_changes() {
    let mut harness = window(planned());
    let started = harness.state().planning.started();
    for _ in 0..20 {
        harness.step();
    }
    assert_eq!(harness.state().planning.started(), started);
    harness.state_mut().job_mut().front.stock.settle = "4 mm".into();
    until(&mut harness, "another comparison", |app| app.planning.started() > started);
}

/// A job beyond its bounds is compared as it is used, and once.
#[test]
fn a_job_beyond_its_bounds_is_compared_once() {
    let mut job = planned();
    job.front.damper.rows = vec![job.front.damper.rows[0].clone(); 300];
    let mut harness = window(job);
    let started = harness.state().planning.started();
    for _ in 0..20 {
        harness.step();
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    assert_eq!(harness.state().planning.started(), started);
}

#[test]
fn the_customer_is_shown_what_each_plan_comes_to() {
    for (language, steps) in [(Language::English, 3), (Language::German, 3)] {
        let mut harness = driven::sized(App::on(planned()).speaking(language), [1280.0, 800.0]);
        press(&mut harness, Key::F11);
        let shown = harness.state().view().customer.as_ref().expect("open");
        let names: Vec<&str> = shown.showing.stages.iter().map(|stage| stage.name.as_str()).collect();
        assert_eq!(
            names[names.len() - steps..],
            ["Harder front springs", "Spacers only", "Firm, dampers too"],
            "{names:?}"
        );
        let prices: Vec<bool> = shown.showing.stages.iter().map(|stage| !stage.prices.is_empty()).collect();
        assert_eq!(prices[prices.len() - steps..], [true; 3], "each with its price");
        let last = names.len() - 1;
        press(&mut harness, Key::End);
        let at = harness.state().view().customer.as_ref().expect("open").at;
        assert_eq!(at, last);
    }
    // What is only a plan of the job's changes nothing of it.
    let job = planned();
    assert_eq!(job.every_plan().len(), 4);
    assert_eq!(job.plan_words(Which::Other(1)).to_string(), "Firm, dampers too");
}

/// Other plans are in the picture of the job and in that of the hump, named where they are, and their words touch nothing.
#[test]
fn pictures_show_the_other_plans_by_name() {
    let mut harness = driven::window(App::on(planned()), 3600.0);
    let names: Vec<String> = harness.state().job().plans.iter().map(|plan| plan.name.clone()).collect();
    for step in [Step::Springs, Step::Vehicle] {
        run(&mut harness, Command::Step(step));
        until(&mut harness, "the plans", |app| app.planning.plans().is_some());
        settle(&mut harness);
        let seen = crate::pictures::Seen::of(&harness);
        let is_named = |name: &String| seen.words.iter().any(|(words, _)| words.split(", ").any(|part| part == name));
        assert!(names.iter().any(is_named), "{step:?}: {names:?}");
        for (name, rect) in crate::pictures::pictures(&harness) {
            let found = seen.touching(rect);
            assert!(found.is_empty(), "{step:?}, {name}: {found:?}");
        }
    }
}
