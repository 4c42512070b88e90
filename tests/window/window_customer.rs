//! The customer's view: opened, stepped through and left by keys and by touch, with nothing changed; its words where they
//! belong, in every window; the hump driven in the background, and no frame when nothing moves.
#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

use crate::common::driven;
use crate::common::sheets::everything;
use crate::pictures::Seen;

use std::collections::BTreeSet;
use std::path::Path;
use std::time::{Duration, Instant};

use driven::{press, run, settle, sized, type_text, until_run};
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, Rect, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use springwright::base::language::Language;
use springwright::gui::state::command::{Command, CustomerCommand, RoadCommand};
use springwright::gui::{App, Step};
use springwright::job::{Job, file};
use springwright::report::sheets::{self, Kind, Words};
use springwright::shop::presets;
use springwright::solve::answer::OverRoad;
use springwright::solve::solve;

const SIZE: [f32; 2] = [1280.0, 800.0];

fn open(job: Job, size: [f32; 2]) -> Harness<'static, App> {
    let mut harness = sized(App::on(job), size);
    press(&mut harness, Key::F11);
    assert!(harness.state().view().customer.is_some());
    harness
}

fn at(harness: &Harness<'_, App>) -> Option<usize> {
    harness.state().view().customer.as_ref().map(|shown| shown.at)
}

fn names(harness: &Harness<'_, App>) -> Vec<String> {
    let shown = harness.state().view().customer.as_ref().expect("open");
    shown.showing.stages.iter().map(|stage| stage.name.clone()).collect()
}

#[test]
fn keys_open_it_step_through_it_and_lead_back_with_nothing_changed() {
    let mut harness = sized(App::on(presets::demo()), SIZE);
    run(&mut harness, Command::GoTo("front.travel.stop_gap".into()));
    let (job, solves) = (harness.state().job().clone(), harness.state().solves());
    assert_eq!(at(&harness), None);
    press(&mut harness, Key::F11);
    assert_eq!(at(&harness), Some(0));
    assert_eq!(names(&harness).len(), 4);
    for (key, to) in [
        (Key::ArrowRight, 1),
        (Key::Space, 2),
        (Key::PageDown, 3),
        (Key::ArrowRight, 3),
        (Key::ArrowLeft, 2),
        (Key::PageUp, 1),
        (Key::End, 3),
        (Key::Home, 0),
        (Key::ArrowLeft, 0),
    ] {
        press(&mut harness, key);
        assert_eq!(at(&harness), Some(to), "{key:?}");
    }
    // Nothing is typed, pasted or taken back, and no other command acts.
    type_text(&mut harness, "7");
    harness.event(Event::Paste("LF 463\nRF 445\nLR 337\nRR 328".into()));
    for key in [Key::Z, Key::N, Key::Num3] {
        harness.key_press_modifiers(Modifiers::COMMAND, key);
        settle(&mut harness);
    }
    press(&mut harness, Key::Escape);
    assert_eq!(at(&harness), None);
    assert_eq!(*harness.state().job(), job);
    assert_eq!((harness.state().solves(), harness.state().view().step), (solves, Step::Measure));
    assert!(harness.state().view().paste.is_none());
    // F11 leads back, too.
    press(&mut harness, Key::F11);
    press(&mut harness, Key::F11);
    assert_eq!(at(&harness), None);
}

#[test]
fn it_is_pressed_through_and_left_by_touch() {
    let mut harness = sized(App::on(presets::demo()), SIZE);
    run(&mut harness, Command::Step(Step::Sheet));
    harness.get_by_role_and_label(Role::Button, "Show customer's view (F11)").click();
    settle(&mut harness);
    for (name, to) in [("Next", 1), ("now, new springs", 3), ("Back", 2), ("before", 0)] {
        harness.get_by_role_and_label(Role::Button, name).click();
        settle(&mut harness);
        assert_eq!(at(&harness), Some(to), "{name}");
    }
    // The picture goes on.
    let picture = harness.root().children_recursive().find(|n| n.accesskit_node().role() == Role::Image);
    picture.expect("a picture").click();
    settle(&mut harness);
    assert_eq!(at(&harness), Some(1));
    harness.get_by_role_and_label(Role::Button, "Back to the job").click();
    settle(&mut harness);
    assert_eq!(at(&harness), None);
}

#[test]
fn a_stop_and_what_is_withheld_are_read_as_on_the_sheet() {
    let mut harness = open(presets::find("overloaded-camper").expect("shipped").job(), SIZE);
    press(&mut harness, Key::End);
    assert!(harness.query_by_label_contains("STOP. The rear axle would carry").is_some());
    assert!(harness.query_by_label_contains("So we do not recommend any springs or dampers.").is_some());
    assert!(harness.query_by_label_contains("new springs").is_none());
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/withheld/ratio-turned.ron");
    let mut harness = open(file::read(&path).expect("a job"), SIZE);
    press(&mut harness, Key::End);
    let words = Words::english().say("withheld.customer", &[]);
    assert!(harness.query_by_label(&words).is_some());
    assert!(harness.query_by_label_contains("new springs").is_none());
}

/// A job that changes below the view (a file dropped on the window) is shown as it then is.
#[test]
fn it_shows_the_job_as_it_is() {
    let mut harness = open(presets::demo(), SIZE);
    press(&mut harness, Key::End);
    let preset = presets::PRESETS.iter().position(|p| p.name == "overloaded-camper").expect("shipped");
    run(&mut harness, Command::OpenPreset(preset));
    if harness.state().view().customer.is_some() {
        assert!(harness.query_by_label_contains("STOP. The rear axle would carry").is_some());
    }
    assert!(harness.query_by_label_contains("now, new springs").is_none());
}

/// All that the customer's sheet says, and the words of what is pressed.
fn sayable(job: &Job) -> String {
    let words = sheets::words_of(job);
    let pressed = words.texts().filter(|(key, _)| key.starts_with("view.")).map(|(_, text)| text.to_lowercase());
    let on_paper = everything(sheets::build(Kind::Customer, job, &solve(job), None));
    let below = ["view.scale", "view.slow"].map(|key| words.say(key, &[]).to_lowercase()).join(" ");
    pressed.chain([below, on_paper]).collect::<Vec<_>>().join("\n")
}

/// Labels, buttons and painted words of every step of every shipped job.
#[test]
fn every_text_in_view_is_on_the_sheet_or_is_pressed() {
    let (mut strange, mut count) = (BTreeSet::new(), 0);
    for preset in presets::PRESETS {
        for language in Language::ALL {
            let job = preset.job_in(language);
            let sayable = sayable(&job);
            let mut harness = open(job, SIZE);
            for _ in names(&harness) {
                for (words, _) in Seen::of(&harness).words {
                    count += 1;
                    let words = words.to_lowercase();
                    let number = words.split(", ").next().unwrap_or_default();
                    let bounces = ["times a second", "mal pro sekunde", "schwingungen pro sekunde"]
                        .map(|often| format!("{number} {often}"));
                    let is_number = number.replace(',', ".").parse::<f64>().is_ok();
                    let is_there = sayable.contains(&words) || is_number && bounces.iter().any(|b| sayable.contains(b));
                    if !is_there {
                        strange.insert(format!("{} {language:?}: \"{words}\"", preset.name));
                    }
                }
                press(&mut harness, Key::ArrowRight);
            }
        }
    }
    assert!(count > 1_500, "only {count}");
    assert!(strange.is_empty(), "{strange:#?}");
}

/// A job whose texts are as long as somebody may type them.
fn wordy() -> Job {
    let mut job = presets::find("overloaded-camper").expect("shipped").job();
    job.vehicle.name = "Gannet camper van with a high roof and a long wheelbase, ".repeat(4);
    for case in &mut job.cases {
        case.name = format!("{}, all water tanks full, both bicycles, the awning and the whole family", case.name);
    }
    job
}

/// Words in their place: inside the window, clear of each other, of lines and of marks, in windows of every form.
#[test]
fn words_touch_nothing_in_any_window() {
    let (mut off, mut looked_at) = (BTreeSet::new(), 0);
    let few: [&str; 6] =
        ["demo-orchard-van", "overloaded-camper", "strut-front", "lighter-engine", "torsion-bar-front", "leaf-rear"];
    let windows = [SIZE, [800.0, 1100.0], [3840.0, 2160.0], [640.0, 400.0], [1024.0, 768.0]];
    for size in windows {
        for language in Language::ALL {
            let shipped = few.iter().map(|name| presets::find(name).expect("shipped").job_in(language));
            let mut jobs: Vec<Job> = shipped.collect();
            jobs.extend([wordy(), Job::default()]);
            for job in jobs {
                let name = job.vehicle.name.chars().take(12).collect::<String>();
                let mut harness = open(job, size);
                for stage in names(&harness) {
                    let window = Rect::from_min_size(pos2(0.0, 0.0), size.into());
                    let seen = Seen::of(&harness);
                    looked_at += seen.words.len();
                    let place = format!("{size:?} {language:?} {name}, {stage}");
                    off.extend(seen.touching(window).into_iter().map(|f| format!("{place}: {f}")));
                    for (words, rect) in &seen.words {
                        if !window.expand(0.5).contains_rect(*rect) {
                            off.insert(format!("{place}: \"{words}\" leaves the window: {rect:?}"));
                        }
                    }
                    press(&mut harness, Key::ArrowRight);
                }
            }
        }
    }
    assert!(looked_at > 3_000, "only {looked_at}");
    assert!(off.is_empty(), "{} of {looked_at}: {off:#?}", off.len());
}

/// What is pressed has room for a finger: 44 points, in every window that is not smaller than the least.
#[test]
fn what_is_pressed_is_large_enough() {
    for size in [SIZE, [800.0, 1100.0], [3840.0, 2160.0], [640.0, 480.0]] {
        let harness = open(presets::demo(), size);
        let mut count = 0;
        for node in harness.root().children_recursive() {
            let access = node.accesskit_node();
            let Some(at) = access.bounding_box().filter(|_| access.role() == Role::Button) else { continue };
            count += 1;
            let name = access.label().unwrap_or_default();
            assert!(at.height() >= 43.9 && at.width() >= 43.9, "{size:?}: {name} is {at:?}");
        }
        assert_eq!(count, 8, "back, next, four steps, the drive, the way back");
    }
}

/// Type grows with the window.
#[test]
fn type_follows_the_window() {
    let high = |size| {
        let harness = open(presets::demo(), size);
        let seen = Seen::of(&harness);
        let name = seen.words.iter().filter(|(words, _)| words == "before").map(|(_, rect)| rect.height());
        name.fold(0.0, f32::max)
    };
    let (small, large) = (high(SIZE), high([3840.0, 2400.0]));
    assert!(small > 40.0, "{small}");
    assert!((large / small - 3.0).abs() < 0.1, "{large} after {small}");
}

#[test]
fn the_hump_is_driven_in_the_background_and_ends_by_itself() {
    let mut harness = sized(App::on(presets::demo()), SIZE);
    assert_eq!(harness.state().riding().started(), 0);
    run(&mut harness, CustomerCommand::Show.into());
    until_run(&mut harness);
    assert_eq!(harness.state().riding().started(), 1);
    assert!(!harness.state().riding().is_playing());
    let asks = |harness: &Harness<'_, App>| {
        harness.output().viewport_output[&eframe::egui::ViewportId::ROOT].repaint_delay < Duration::from_secs(3600)
    };
    harness.run_ok().expect("it comes to rest");
    harness.step();
    assert!(!asks(&harness), "an idle view asks for no frame");
    let still = format!("{:?}", Seen::of(&harness).marks);
    harness.get_by_role_and_label(Role::Button, "Drive over a bump").click();
    settle(&mut harness);
    for _ in 0..12 {
        harness.step();
    }
    assert!(harness.state().riding().is_playing() && asks(&harness));
    assert_ne!(format!("{:?}", Seen::of(&harness).marks), still, "something moves");
    let start = Instant::now();
    while harness.state().riding().is_playing() {
        assert!(start.elapsed() < Duration::from_secs(120), "it never ends");
        harness.step();
    }
    harness.run_ok().expect("it comes to rest again");
    assert!(!asks(&harness));
    assert_eq!(format!("{:?}", Seen::of(&harness).marks), still, "it stands where it stood");
    assert_eq!(harness.state().riding().started(), 1, "one run shows it all");
    // Another step ends a drive; spacers are not driven.
    press(&mut harness, Key::H);
    assert!(harness.state().riding().is_playing());
    press(&mut harness, Key::ArrowRight);
    assert!(!harness.state().riding().is_playing());
    press(&mut harness, Key::ArrowRight);
    assert!(harness.query_by_label("Drive over a bump").is_none());
}

/// What step Road showed is there again.
#[test]
fn the_step_road_stays_as_it_was() {
    let mut harness = sized(App::on(presets::demo()), SIZE);
    run(&mut harness, Command::Step(Step::Road));
    until_run(&mut harness);
    run(&mut harness, Command::Road(RoadCommand::Over(OverRoad::Hole)));
    run(&mut harness, Command::Road(RoadCommand::At(0.5)));
    press(&mut harness, Key::F11);
    press(&mut harness, Key::H);
    press(&mut harness, Key::Escape);
    let riding = harness.state().riding();
    assert_eq!((riding.over(), riding.at_s(), riding.is_playing()), (OverRoad::Hole, 0.5, false));
}

/// Nothing that can be pressed is without a name; names are those of the steps.
#[test]
fn everybody_hears_where_they_are() {
    let mut harness = open(presets::demo(), SIZE);
    for name in names(&harness) {
        let node = harness.get_by_role_and_label(Role::Button, &name);
        assert_eq!(node.accesskit_node().toggled(), Some(eframe::egui::accesskit::Toggled::True), "{name}");
        let picture = harness.root().children_recursive().find(|n| n.accesskit_node().role() == Role::Image);
        let said = picture.and_then(|p| p.accesskit_node().label()).unwrap_or_default();
        assert!(said.to_lowercase().contains(&name), "{name}: {said}");
        press(&mut harness, Key::ArrowRight);
    }
}
