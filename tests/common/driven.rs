//! The window, driven without a display.

use std::time::{Duration, Instant};

use eframe::egui::{Event, Key};
use egui_kittest::Harness;
use springwright::gui::App;
use springwright::gui::background::riding::Progress;
use springwright::gui::state::command::Command;
use springwright::gui::widgets::theme;

/// A window of that height.
pub fn window(app: App, height: f32) -> Harness<'static, App> {
    sized(app, [1280.0, height])
}

/// A window of that size in points: the screen's size over the zoom.
pub fn sized(app: App, size: [f32; 2]) -> Harness<'static, App> {
    let mut harness = Harness::builder()
        .with_size(size)
        .with_context_setup(theme::install)
        .build_ui_state(|ui, app: &mut App| app.frame(ui), app);
    harness.run_ok();
    harness
}

pub fn settle(harness: &mut Harness<'_, App>) {
    for _ in 0..4 {
        harness.step();
    }
}

pub fn run(harness: &mut Harness<'_, App>, command: Command) {
    harness.state_mut().command(command);
    settle(harness);
}

pub fn type_text(harness: &mut Harness<'_, App>, text: &str) {
    harness.event(Event::Text(text.to_owned()));
    settle(harness);
}

pub fn press(harness: &mut Harness<'_, App>, key: Key) {
    harness.key_press(key);
    settle(harness);
}

/// Types into fields one after the other, Enter behind each.
pub fn type_and_enter(harness: &mut Harness<'_, App>, first: &str, texts: &[&str]) {
    run(harness, Command::GoTo(first.to_owned()));
    for text in texts {
        type_text(harness, text);
        press(harness, Key::Enter);
    }
}

/// Draws frames until it holds; what does not come within two minutes never comes.
pub fn until(harness: &mut Harness<'_, App>, what: &str, holds: impl Fn(&App) -> bool) {
    let start = Instant::now();
    while !holds(harness.state()) {
        assert!(start.elapsed() < Duration::from_secs(120), "never came: {what}");
        harness.step();
        std::thread::sleep(Duration::from_millis(2));
    }
    settle(harness);
}

/// Draws frames until the runs over roads are there.
pub fn until_run(harness: &mut Harness<'_, App>) {
    until(harness, "runs", |app| app.riding().progress() == Progress::Current);
}
