//! The step Dampers in the window: curves typed, pasted and undone, driven without a display.
#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

use crate::common::driven;

use driven::{run, settle, type_and_enter};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use springwright::gui::state::command::Command;
use springwright::gui::{App, PasteInto, Step};
use springwright::job::{Job, file};
use springwright::shop::presets;
use springwright::solve::answer::OldDamperBy;

fn demo() -> Job {
    presets::PRESETS[0].job()
}

fn window(job: Job) -> Harness<'static, App> {
    let mut harness = driven::window(App::on(job), 2600.0);
    run(&mut harness, Command::Step(Step::Dampers));
    harness
}

fn settled(harness: &mut Harness<'_, App>) {
    for _ in 0..4 {
        settle(harness);
    }
}

#[test]
fn the_picture_says_what_the_old_damper_gives() {
    let harness = window(demo());
    let title =
        "Front: the old damper gives ζ 0.23 on the new springs, the candidate damper 0.32; the target is 0.25 to 0.35";
    assert_eq!(harness.query_all_by_label(title).count(), 2, "above the picture, and as its name for a screen reader");
    assert!(harness.query_by_label("Copy or save").is_some(), "as with any plot");
    assert!(harness.query_all_by_label_contains("A stiffer spring alone does not help").count() >= 1);
}

/// A test sheet in another convention and other units, from a file into the paste area, echoed, taken, undone.
#[test]
fn a_curve_from_a_file_is_shown_taken_and_undone() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sheet.csv");
    let text = "speed (in/s);force (lbf)\n2;30\n10;70\n-2;-60\n-10;-140\n";
    file::write_text(&path, text).expect("written");
    let mut job = demo();
    job.front.damper.rows.clear();
    let mut harness = window(job);
    run(&mut harness, Command::Paste(PasteInto::Rows("front.damper.rows".into())));
    run(&mut harness, Command::CurveFrom(path));
    settled(&mut harness);
    let echo = "Read as 4 rows: 2 in/s, 30 lbf, ; 10 in/s, 70 lbf, ; 2 in/s, , 60 lbf; 10 in/s, , 140 lbf.";
    assert_eq!(harness.query_all_by_label(echo).count(), 1, "the echo");
    run(&mut harness, Command::TakePastedRows { add: false });
    settled(&mut harness);
    assert_eq!(harness.state().job().front.damper.rows.len(), 4);
    let old = harness.state().answer().axles.front.old_damper.clone().expect("known");
    assert_eq!(old.by, OldDamperBy::Curve);
    let curve = old.curve.expect("a curve");
    let lbf = 4.448_221_615_260_5;
    assert!((curve.force_n(0.254) - 70.0 * lbf).abs() < 1e-6 && (curve.force_n(-0.0508) + 60.0 * lbf).abs() < 1e-6);
    run(&mut harness, Command::Undo);
    settled(&mut harness);
    assert!(harness.state().job().front.damper.rows.is_empty());
}

/// A file that is no curve is answered with its line, and nothing is taken.
#[test]
fn a_bad_curve_is_answered_with_its_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sheet.csv");
    file::write_text(&path, "speed (m/s),bump (N),rebound (N)\n0.1,100,200\n0.2,-150,300\n").expect("written");
    let mut harness = window(demo());
    let rows = harness.state().job().front.damper.rows.clone();
    run(&mut harness, Command::Paste(PasteInto::Rows("front.damper.rows".into())));
    run(&mut harness, Command::CurveFrom(path));
    settled(&mut harness);
    let said = "Not read: Line 3: the sign of the bump force −150 N differs from that in the rows above";
    assert!(harness.query_all_by_label_contains(said).count() >= 1);
    run(&mut harness, Command::TakePastedRows { add: false });
    assert_eq!(harness.state().job().front.damper.rows, rows);
}

/// A file far too large for a curve is told by its size, without being read.
#[test]
fn a_file_too_large_for_a_curve_is_refused_by_its_size() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("huge.csv");
    // Not even text: whoever reads it says so.
    std::fs::File::create(&path).and_then(|f| f.set_len(190_000_000)).expect("a sparse file");
    let mut harness = window(demo());
    run(&mut harness, Command::Paste(PasteInto::Rows("front.damper.rows".into())));
    run(&mut harness, Command::CurveFrom(path));
    let (_, text) = harness.state().view().notice.clone().expect("a notice");
    assert!(text.contains("this file is larger than the maximum of 200000 bytes"), "{text}");
    assert!(harness.state().view().paste.as_ref().is_some_and(|p| p.text.is_empty()));
}

/// A row is typed in place; a bare number takes the unit shown, and the answer follows.
#[test]
fn a_row_of_the_curve_is_typed() {
    let mut harness = window(demo());
    let force = |h: &Harness<'_, App>| {
        let old = h.state().answer().axles.front.old_damper.clone().and_then(|d| d.curve);
        old.expect("a curve").force_n(0.13)
    };
    assert!((force(&harness) - 270.0).abs() < 1e-9);
    type_and_enter(&mut harness, "front.damper.rows[1].bump", &["300"]);
    assert_eq!(harness.state().job().front.damper.rows[1].bump.text, "300 N");
    assert!((force(&harness) - 300.0).abs() < 1e-9);
}
