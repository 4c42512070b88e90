//! The step Road in the window, driven without a display.
#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

#[allow(dead_code, reason = "other windows type more")]
use crate::common::driven;

use std::time::Duration;

use driven::{run, settle, until, until_run};
use eframe::egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use springwright::gui::background::riding::Progress;
use springwright::gui::state::command::{Command, RoadCommand};
use springwright::gui::{App, Step};
use springwright::job::Job;
use springwright::shop::presets;
use springwright::solve::answer::{OverRoad, State};
use springwright::solve::road::NoRuns;

fn window(job: Job) -> Harness<'static, App> {
    let mut harness = driven::window(App::on(job), 3000.0);
    run(&mut harness, Command::Step(Step::Road));
    harness
}

#[test]
fn runs_come_by_themselves_and_once() {
    let mut harness = driven::window(App::on(presets::demo()), 3000.0);
    for step in Step::ALL.into_iter().filter(|s| *s != Step::Road) {
        run(&mut harness, Command::Step(step));
    }
    assert_eq!(harness.state().riding().started(), 0, "nothing runs before the step was shown");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num7);
    settle(&mut harness);
    assert_eq!(harness.state().view().step, Step::Road);
    until_run(&mut harness);
    let driven = harness.state().riding().found().expect("found").as_ref().expect("it ran");
    for over in OverRoad::ALL {
        for state in State::ALL {
            let ride = driven.over[over as usize].of(state).as_ref().expect("a ride");
            assert!(ride.said.iter().all(Option::is_some), "{over:?} {state:?}");
        }
    }
    for _ in 0..20 {
        harness.step();
    }
    assert_eq!(harness.state().riding().started(), 1);
    // The table of every option, the picture, the trade-off.
    harness.get_by_label("Bump stop hits per km");
    harness.get_by_label("springs and dampers");
    harness.get_by_label("Bump stop hit");
    assert!(harness.query_all_by_label_contains("Front axle, damping").count() > 0);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num8);
    settle(&mut harness);
    assert_eq!(harness.state().view().step, Step::Sheet);
}

#[test]
fn a_change_is_run_again_and_marked_until_then() {
    let mut harness = window(presets::demo());
    until_run(&mut harness);
    harness.state_mut().job_mut().chassis.speed = "40 km/h".into();
    harness.step();
    harness.step();
    assert_ne!(harness.state().riding().progress(), Progress::Current);
    until_run(&mut harness);
    let driven = harness.state().riding().found().expect("found").as_ref().expect("it ran");
    assert!((driven.speed.value - 40.0 / 3.6).abs() < 1e-12);
    assert_eq!(harness.state().riding().started(), 2);
}

#[test]
fn runs_can_be_stopped_and_taken_up_again() {
    let mut harness = window(presets::demo());
    until(&mut harness, "a run", |app| matches!(app.riding().progress(), Progress::Running(_)));
    run(&mut harness, Command::Road(RoadCommand::Stop));
    until(&mut harness, "the stop", |app| app.riding().progress() == Progress::Stopped);
    assert!(harness.state().riding().found().is_none());
    harness.get_by_label("Simulate").click();
    settle(&mut harness);
    until_run(&mut harness);
}

#[test]
fn the_picture_plays_pauses_and_steps() {
    let mut harness = window(presets::demo());
    until_run(&mut harness);
    harness.get_by_label("Next frame").click();
    settle(&mut harness);
    let at = harness.state().riding().at_s();
    assert!(at > 0.0);
    harness.get_by_label("Play").click();
    settle(&mut harness);
    assert!(harness.state().riding().is_playing());
    for _ in 0..8 {
        harness.step();
    }
    let later = harness.state().riding().at_s();
    assert!(later > at, "{later} after {at}");
    harness.get_by_label("Pause").click();
    settle(&mut harness);
    let held = harness.state().riding().at_s();
    for _ in 0..10 {
        harness.step();
    }
    assert_eq!(harness.state().riding().at_s(), held);
    harness.get_by_label("Previous frame").click();
    settle(&mut harness);
    assert!(harness.state().riding().at_s() < held);
    // To the end: it stops there by itself.
    run(&mut harness, Command::Road(RoadCommand::Play(true)));
    until(&mut harness, "the end", |app| !app.riding().is_playing());
}

/// Only a picture that plays asks for frames.
#[test]
fn idle_it_draws_nothing() {
    let mut harness = window(presets::demo());
    until_run(&mut harness);
    harness.run_ok().expect("it comes to rest");
    let asked = |harness: &Harness<'_, App>| {
        harness.output().viewport_output[&eframe::egui::ViewportId::ROOT].repaint_delay < Duration::from_secs(3600)
    };
    for _ in 0..3 {
        harness.step();
        assert!(!asked(&harness));
    }
    run(&mut harness, Command::Road(RoadCommand::Play(true)));
    harness.step();
    assert!(asked(&harness));
    run(&mut harness, Command::Road(RoadCommand::Play(false)));
    harness.run_ok().expect("it comes to rest again");
    assert!(!asked(&harness));
}

/// Without weights there is nothing to run, and that is said.
#[test]
fn an_empty_job_says_what_is_missing() {
    let mut harness = window(Job::default());
    until_run(&mut harness);
    assert_eq!(harness.state().riding().found().expect("an end").as_ref().err(), Some(&NoRuns::NotKnown));
    harness.get_by_label_contains("Not simulated: ");
}
