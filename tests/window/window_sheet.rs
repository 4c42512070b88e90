//! The step Sheet: pages as they will be printed, drawn once per change; files; the logo; plots copied and saved.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "here a failed expectation is the finding")]

use crate::common::driven;

use std::time::{Duration, Instant};

use driven::{run, settle, window};
use eframe::egui::OutputCommand;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use springwright::choose::draws::Draws;
use springwright::gui::state::command::{Command, PlotTo, SheetCommand};
use springwright::gui::{App, Step};
use springwright::report::pictures::plot::Export;
use springwright::report::sheets::Kind;
use springwright::report::write::page::Paper;
use springwright::shop::lists::Shop;
use springwright::shop::presets;

fn drawn(harness: &mut Harness<'_, App>) {
    let start = Instant::now();
    while !harness.state().pages().is_current() {
        harness.step();
        std::thread::sleep(Duration::from_millis(5));
        assert!(start.elapsed() < Duration::from_secs(180), "the pages were never drawn");
    }
    settle(harness);
}

/// Steps until the logo is read; gives back the longest frame.
fn logo_read(harness: &mut Harness<'_, App>) -> Duration {
    let (start, mut longest) = (Instant::now(), Duration::ZERO);
    while harness.state().is_reading_logo() {
        let frame = Instant::now();
        harness.step();
        longest = longest.max(frame.elapsed());
        std::thread::sleep(Duration::from_millis(5));
        assert!(start.elapsed() < Duration::from_secs(120), "the logo was never read");
    }
    longest
}

/// As many segments as a logo may have: drawn in the background or given up after its time, while the window goes on.
#[test]
fn a_logo_that_takes_long_keeps_nobody_waiting() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(App::on(presets::demo()), 1100.0);
    settle(&mut harness);
    let way: String = (0..springwright::base::bounds::LOGO_SEGMENTS.count() - 5)
        .map(|i| format!("L{} {}", i * 37 % 300, i * 53 % 200))
        .collect();
    let svg = folder.path().join("ring.svg");
    let text = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='300' height='200'><path d='M0 0{way}' stroke='#000' fill='#c33'/></svg>"
    );
    springwright::job::file::write_text(&svg, &text).unwrap();
    run(&mut harness, SheetCommand::TakeLogo(svg).into());
    let longest = logo_read(&mut harness);
    assert!(longest < Duration::from_secs(4), "a frame took {longest:?}: the window waited for the logo");
    let slow = harness.state().view().notice.as_ref().is_some_and(|n| n.1.contains("takes longer than 5 s to draw"));
    let drawn = harness.state().has_logo();
    assert!(slow || drawn, "{:?}", harness.state().view().notice);
}

#[test]
fn the_pages_are_shown_as_printed_and_drawn_once_per_change() {
    let mut harness = window(App::on(presets::demo()), 1100.0);
    settle(&mut harness);
    assert_eq!(harness.state().pages().drawn(), 0, "nothing is drawn before the step is shown");
    run(&mut harness, Command::Step(Step::Sheet));
    drawn(&mut harness);
    assert!(harness.query_by_label("One A4 page.").is_some(), "the customer's sheet comes first");
    run(&mut harness, Command::Sheet(SheetCommand::Kind(Kind::Full)));
    drawn(&mut harness);
    let count = harness.state().pages().count();
    assert!(count > 1);
    assert!(harness.query_by_label(&format!("{count} A4 pages.")).is_some());
    assert!(harness.query_by_label_contains(&format!("Page 1 of {count}. Pendulum Yard")).is_some());
    let before = harness.state().pages().drawn();
    for _ in 0..5 {
        settle(&mut harness);
    }
    assert_eq!(harness.state().pages().drawn(), before, "an idle window draws no pages");
    run(&mut harness, SheetCommand::Paper(Paper::Letter).into());
    drawn(&mut harness);
    assert_eq!(harness.state().pages().drawn(), before + 1);
    assert!(harness.query_by_label_contains("Letter pages.").is_some());
    for button in ["Print…", "Save as PDF…", "Save as PNG…", "Save as text…", "Logo…"] {
        assert!(harness.query_by_label(button).is_some(), "{button}");
    }
}

#[test]
fn sheets_logo_and_names_are_kept() {
    let folder = tempfile::tempdir().unwrap();
    let shop = Shop::at(folder.path().join("lists"));
    let app = App::on(presets::demo()).choosing_from(shop.clone(), Draws::default());
    let mut harness = window(app, 1100.0);
    run(&mut harness, Command::Step(Step::Sheet));
    let pdf = folder.path().join("sheet.pdf");
    run(&mut harness, SheetCommand::Write(pdf.clone()).into());
    assert!(std::fs::read(&pdf).unwrap().starts_with(b"%PDF-1.7"));
    // A file that is no logo changes nothing, and says so.
    run(&mut harness, SheetCommand::TakeLogo(pdf).into());
    logo_read(&mut harness);
    assert!(harness.state().view().notice.as_ref().unwrap().1.contains("neither a PNG nor an SVG"));
    assert_eq!(shop.logo(), None);
    let svg = folder.path().join("mark.svg");
    let text =
        r##"<svg xmlns="http://www.w3.org/2000/svg" width="30" height="10"><rect width="30" height="10"/></svg>"##;
    springwright::job::file::write_text(&svg, text).unwrap();
    run(&mut harness, SheetCommand::TakeLogo(svg).into());
    logo_read(&mut harness);
    assert!(shop.logo().is_some());
    run(&mut harness, SheetCommand::RememberNames.into());
    let names = harness.state().job().shop.clone();
    run(&mut harness, Command::New);
    assert_eq!(harness.state().job().shop, names);
    run(&mut harness, SheetCommand::NoLogo.into());
    assert_eq!(shop.logo(), None);
}

#[test]
fn a_plot_goes_to_the_clipboard_and_to_a_file() {
    let mut harness = window(App::on(presets::demo()), 1100.0);
    run(&mut harness, Command::Step(Step::Springs));
    assert!(harness.query_all_by_label("Copy or save").count() >= 2);
    let data = springwright::report::pictures::picture::load_travel(
        &harness.state().answer().axles.front,
        &presets::demo().units,
    );
    let data = Box::new(Export::of(&data.expect("a picture"), &presets::demo().units));
    harness.state_mut().command(Command::Plot(PlotTo::CopyData(data.clone())));
    harness.step();
    let copied = harness
        .output()
        .platform_output
        .commands
        .iter()
        .any(|c| matches!(c, OutputCommand::CopyText(text) if text.starts_with("what,name,")));
    assert!(copied, "{:?}", harness.output().platform_output.commands);
    harness.state_mut().command(Command::Plot(PlotTo::CopyPicture(data)));
    harness.step();
    let is_picture = |c: &OutputCommand| matches!(c, OutputCommand::CopyImage(image) if image.size[0] > 1000);
    assert!(harness.output().platform_output.commands.iter().any(is_picture));
}
