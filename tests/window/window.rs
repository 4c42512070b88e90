//! The window, driven without a display: by keyboard, and against the command line.

#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

use crate::common::driven;

use driven::{press, run, settle, type_and_enter, type_text};
use eframe::egui::{self, Event, Key, Modifiers, accesskit::Role};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use springwright::base::units::{Quantity as _, UnitChoice};
use springwright::gui::app::document::Document;
use springwright::gui::state::command::Command;
use springwright::gui::state::files::Purpose;
use springwright::gui::{App, Step};
use springwright::job::{Job, LeafBy, Plan, RateBy, RatioBy, Side, SpringKind, file};
use springwright::report::write::json;
use springwright::shop::presets;
use springwright::solve;

fn window(job: Job) -> Harness<'static, App> {
    driven::window(App::on(job), 800.0)
}

#[test]
fn the_demo_typed_from_an_empty_job_by_keyboard_gives_the_same_answer() {
    let mut typed = window(Job::default());
    // Ctrl+1 is the step Weigh; Tab reaches the first corner; Enter walks LF, RF, LR, RR, before then after.
    typed.key_press_modifiers(Modifiers::COMMAND, Key::Num1);
    settle(&mut typed);
    let demo = presets::demo();
    let mut tabs = 0;
    while typed.state().view().at.as_deref() != Some("before.lf") {
        press(&mut typed, Key::Tab);
        tabs += 1;
        assert!(tabs < 60, "Tab never reached the first corner");
    }
    let weights = [
        &demo.before.lf,
        &demo.before.rf,
        &demo.before.lr,
        &demo.before.rr,
        &demo.after.lf,
        &demo.after.rf,
        &demo.after.lr,
        &demo.after.rr,
    ];
    for entry in weights {
        // Without the unit: it takes the unit shown.
        type_text(&mut typed, entry.text.trim_end_matches(" kg"));
        press(&mut typed, Key::Enter);
    }
    assert_eq!(typed.state().job().before.lf.text, demo.before.lf.text);
    assert_eq!(typed.state().job().after.rr.text, demo.after.rr.text);

    typed.key_press_modifiers(Modifiers::COMMAND, Key::Num2);
    settle(&mut typed);
    let mut tabs = 0;
    while typed.state().view().at.as_deref() != Some("front.ratio.wheel_moved") {
        press(&mut typed, Key::Tab);
        tabs += 1;
        assert!(tabs < 60, "Tab never reached the motion ratio");
    }
    for text in ["100", "62.1", &demo.front.spring.rate.text] {
        type_text(&mut typed, text);
        press(&mut typed, Key::Enter);
    }
    let answer = solve::solve(typed.state().job());
    let front = &answer.axles.front;
    assert!(front.missing.is_empty(), "{:?}", front.missing);
    let first = answer.released(Side::Front).expect("released").spring.expect("a first answer").pick;
    assert!(first.value > 0.0);
    // The rest of the demo refines it; the answer at the top is the demo's own sentence in the end.
    typed.state_mut().command(Command::OpenPreset(0));
    settle(&mut typed);
    let sentence = springwright::report::sections::sentence::axle(
        &solve::solve(&demo),
        &solve::solve(&demo).axles.front,
        &demo.units,
    );
    assert!(typed.query_by_label(&sentence.answer).is_some());
}

#[test]
fn enter_walks_left_front_right_front_left_rear_right_rear() {
    let mut harness = window(Job::default());
    run(&mut harness, Command::GoTo("after.lf".into()));
    let mut walked = Vec::new();
    for _ in 0..4 {
        walked.push(harness.state().view().at.clone().unwrap_or_default());
        press(&mut harness, Key::Enter);
    }
    assert_eq!(walked, ["after.lf", "after.rf", "after.lr", "after.rr"]);
}

#[test]
fn undo_takes_back_typing_units_and_opening() {
    let mut harness = window(presets::demo());
    let rate = harness.state().job().front.spring.rate.text.clone();
    type_and_enter(&mut harness, "front.spring.rate", &["77 N/mm"]);
    assert_eq!(harness.state().job().front.spring.rate.text, "77 N/mm");
    // Undo points are made when typing rests for a second.
    harness.input_mut().time = Some(5.0);
    settle(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    settle(&mut harness);
    assert_eq!(harness.state().job().front.spring.rate.text, rate);

    run(&mut harness, Command::Units(UnitChoice::pound_inch()));
    assert_eq!(harness.state().job().units, UnitChoice::pound_inch());
    run(&mut harness, Command::Undo);
    assert_eq!(harness.state().job().units, UnitChoice::metric());

    run(&mut harness, Command::New);
    assert!(harness.state().job().before.is_blank());
    run(&mut harness, Command::Undo);
    assert_eq!(*harness.state().job(), presets::demo());
}

#[test]
fn a_bad_file_leaves_the_open_job_and_says_why() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("bad.ron");
    file::write_text(&path, "(version: 1, job: (fnord: 3))").expect("writes");
    let mut harness = window(presets::demo());
    run(&mut harness, Command::OpenFile(path));
    assert_eq!(*harness.state().job(), presets::demo());
    let (_, text) = harness.state().view().notice.clone().expect("a notice");
    assert!(text.starts_with("Not opened: line 1, column "), "{text}");
    assert!(text.contains("fnord") && text.contains("The open job is unchanged"), "{text}");
    assert!(harness.query_by_label(&text).is_some(), "the notice is on screen");
}

#[test]
fn without_a_file_dialog_a_path_can_be_typed() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("typed.ron");
    let mut harness = window(presets::demo());
    run(&mut harness, Command::NoDialog(Purpose::SaveJob));
    harness
        .get_by_role_and_label(Role::TextInput, "The file dialog could not be opened. Path for saving the job:")
        .focus();
    settle(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    type_text(&mut harness, path.to_str().expect("UTF-8"));
    press(&mut harness, Key::Enter);
    assert_eq!(file::read(&path).expect("saved"), presets::demo());
}

#[test]
fn unsaved_work_comes_back_and_is_put_aside_when_another_job_is_opened() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut dead = Document::new(presets::demo());
    dead.keep_in(folder.path()).expect("kept");
    dead.now.job.front.spring.rate = "half typed".into();
    dead.tick(0.0).expect("ticks");
    dead.tick(2.0).expect("writes the kept copy");
    drop(dead); // As a crash does: no goodbye, the lock is gone.

    let mut next = Document::new(presets::demo());
    let words = next.keep_in(folder.path()).expect("kept").expect("work comes back");
    assert!(words.starts_with("Unsaved work on "), "{words}");
    assert_eq!(next.now.job.front.spring.rate.text, "half typed");

    let aside = next.replace(Job::default()).expect("replaces").expect("put aside");
    assert_eq!(file::read(&aside).expect("a job file").front.spring.rate.text, "half typed");
    assert!(next.undo(), "and undo has it, too");
    assert_eq!(next.now.job.front.spring.rate.text, "half typed");
}

#[test]
fn undo_past_a_save_knows_what_is_in_the_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("job.ron");
    let mut document = Document::new(presets::demo());
    document.now.job.front.spring.rate = "52 N/mm".into();
    document.checkpoint();
    document.now.job.front.spring.rate = "53 N/mm".into();
    document.save(&path).expect("saves");
    assert!(!document.is_dirty());
    assert!(document.undo());
    assert_eq!(document.now.job.front.spring.rate.text, "52 N/mm");
    assert!(document.is_dirty(), "the file says 53 N/mm");
    assert_eq!(document.disk().path.as_deref(), Some(path.as_path()), "and it is still this job's file");
}

#[test]
fn kept_work_that_cannot_be_read_is_left_in_place_and_said() {
    let folder = tempfile::tempdir().expect("a folder");
    file::write_text(&folder.path().join("unsaved-1.ron"), "(path: None, job: (from_the_future: 1))").expect("writes");
    let mut document = Document::new(presets::demo());
    let words = document.keep_in(folder.path()).expect("kept").expect("says so");
    let place = words.strip_prefix("Unsaved work was kept but cannot be read; it is in ").expect("where");
    let place = place.strip_suffix('.').expect("a sentence");
    assert!(std::fs::read_to_string(place).expect("still there").contains("from_the_future"));
}

#[test]
fn no_bad_file_loses_the_open_job() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad");
    let mut files: Vec<_> = std::fs::read_dir(folder).expect("tests/bad").flatten().map(|f| f.path()).collect();
    files.retain(|f| f.extension().is_some_and(|e| e == "ron"));
    assert!(files.len() >= 30);
    let mut harness = window(presets::demo());
    for path in files {
        let refused = file::read(&path).is_err();
        run(&mut harness, Command::OpenFile(path.clone()));
        if !refused {
            // It opened, with its errors marked; the job before is one step back.
            run(&mut harness, Command::Undo);
        }
        assert_eq!(*harness.state().job(), presets::demo(), "{}", path.display());
    }
}

#[test]
fn no_input_is_without_a_name_at_any_step() {
    let mut job = presets::demo();
    job.front.damper_ratio.by = RatioBy::Rows;
    job.rear.plan = Plan::NewSprings;
    let mut harness = window(job);
    for step in Step::ALL {
        run(&mut harness, Command::Step(step));
        let mut inputs = 0;
        for node in harness.root().children_recursive() {
            let access = node.accesskit_node();
            if matches!(
                access.role(),
                Role::TextInput | Role::MultilineTextInput | Role::Button | Role::RadioButton | Role::CheckBox
            ) {
                inputs += 1;
                let name = access.label().unwrap_or_default();
                let value = access.value().unwrap_or_default();
                assert!(!name.trim().is_empty(), "{step:?}: a {:?} showing \"{value}\" has no name", access.role());
            }
        }
        assert!(inputs > 5, "{step:?}");
    }
}

#[test]
fn an_idle_window_neither_repaints_nor_solves() {
    let mut harness = window(presets::demo());
    run(&mut harness, Command::GoTo("front.spring.rate".into()));
    type_text(&mut harness, "52 N/mm");
    // Let the undo point and the kept copy settle.
    for second in 1..8 {
        harness.input_mut().time = Some(f64::from(second) * 2.0);
        settle(&mut harness);
    }
    let solves = harness.state().solves();
    for second in 0..20 {
        harness.input_mut().time = Some(20.0 + f64::from(second));
        harness.step();
        let delay = harness.output().viewport_output[&egui::ViewportId::ROOT].repaint_delay;
        assert!(delay > std::time::Duration::from_secs(3600), "asks to be drawn again in {delay:?}");
    }
    assert_eq!(harness.state().solves(), solves, "solved although nothing changed");
}

#[test]
fn typing_one_number_solves_once_per_change() {
    let mut harness = window(presets::demo());
    let before = harness.state().solves();
    run(&mut harness, Command::GoTo("front.spring.rate".into()));
    type_text(&mut harness, "6");
    assert_eq!(harness.state().solves(), before + 1);
}

#[test]
fn pasted_readings_are_echoed_before_they_are_taken() {
    let mut harness = window(Job::default());
    run(&mut harness, Command::GoTo("after.lf".into()));
    harness.event(Event::Paste("RR 328\nLF 463\nLR 337 kg\nRF 445\nTotal 1573".into()));
    settle(&mut harness);
    assert!(harness.state().job().after.is_blank(), "not taken yet");
    assert!(harness.query_by_label("Read as: LF 463 kg, RF 445 kg, LR 337 kg, RR 328 kg.").is_some());
    harness.get_by_label("Use as weights after the change").click();
    settle(&mut harness);
    assert_eq!(harness.state().job().after.rr.text, "328 kg");
}

#[test]
fn a_finding_goes_to_its_field() {
    let mut job = presets::demo();
    job.front.spring.rate = "49 lb".into();
    let mut harness = window(job);
    let text = solve::solve(harness.state().job()).findings[0].text.clone();
    assert!(text.to_string().starts_with("Front, old spring rate: \"49 lb\" is a mass"), "{text}");
    run(&mut harness, Command::Findings);
    harness.get_all_by_label(&text.to_string()).last().expect("in the list").click();
    settle(&mut harness);
    assert_eq!(harness.state().view().step, Step::Measure);
    assert_eq!(harness.state().view().at.as_deref(), Some("front.spring.rate"));
}

#[test]
fn window_and_command_line_give_the_same_results() {
    for preset in presets::PRESETS {
        let harness = window(preset.job());
        let shown = json::value(harness.state().job(), harness.state().answer());
        let cli = std::process::Command::new(env!("CARGO_BIN_EXE_springwright-cli"))
            .args(["solve", preset.name, "--json"])
            .output()
            .expect("the program runs");
        let mut printed: serde_json::Value = serde_json::from_slice(&cli.stdout).expect("JSON");
        // In the window plans are compared where they are shown.
        printed.as_object_mut().and_then(|all| all.remove("plans")).expect("plans side by side");
        let printed = serde_json::to_string_pretty(&printed).expect("JSON") + "\n";
        let shown: serde_json::Value = serde_json::from_str(&shown.to_string()).expect("JSON");
        let shown = serde_json::to_string_pretty(&shown).expect("JSON") + "\n";
        if let Some((ours, theirs)) = shown.lines().zip(printed.lines()).find(|(a, b)| a != b) {
            panic!("{}: the window has {ours}, the command line {theirs}", preset.name);
        }
        assert_eq!(shown.len(), printed.len(), "{}", preset.name);
    }
}

#[test]
fn every_preset_and_step_draws_in_both_themes_and_at_800_points() {
    for preset in presets::PRESETS {
        let mut harness = window(preset.job());
        for theme in [egui::Theme::Light, egui::Theme::Dark] {
            harness.ctx.set_theme(theme);
            for width in [1280.0, 800.0] {
                harness.set_size(egui::vec2(width, 900.0));
                for step in Step::ALL {
                    run(&mut harness, Command::Step(step));
                    for shape in &harness.output().shapes {
                        // An empty text covers nothing, and says so with NaN.
                        if matches!(&shape.shape, egui::Shape::Text(text) if text.galley.text().is_empty()) {
                            continue;
                        }
                        let rect = shape.shape.visual_bounding_rect();
                        assert!(
                            !rect.any_nan(),
                            "{} {step:?}: a shape that is not finite: {:?}",
                            preset.name,
                            shape.shape
                        );
                    }
                }
            }
        }
    }
}

/// Every kind of spring and every way to measure it: all fields are there, named, and reached by their path.
#[test]
fn every_kind_of_spring_shows_what_a_first_answer_still_needs() {
    for kind in SpringKind::ALL {
        for (rate_by, leaf_by) in
            [(RateBy::Stated, LeafBy::Stated), (RateBy::Wire, LeafBy::Test), (RateBy::Together, LeafBy::Sizes)]
        {
            let mut job = Job::default();
            (job.front.spring.kind, job.front.spring.rate_by, job.front.spring.leaf.by) = (kind, rate_by, leaf_by);
            let mut harness = window(job);
            let missing = harness.state().answer().axles.front.missing.clone();
            assert!(missing.len() >= 2, "{kind:?} {rate_by:?} {leaf_by:?}: {missing:?}");
            for path in missing {
                run(&mut harness, Command::GoTo(path.clone()));
                assert_eq!(
                    harness.state().view().at.as_deref(),
                    Some(path.as_str()),
                    "{kind:?} {rate_by:?} {leaf_by:?}"
                );
            }
        }
    }
}

/// A finding that names a field can be clicked: the field is then there and has the cursor.
#[test]
fn the_field_of_every_finding_can_be_reached() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    let mut unreachable = Vec::new();
    for folder in ["doubtful", "kinds", "cases"] {
        for entry in std::fs::read_dir(root.join(folder)).expect("a folder of jobs") {
            let path = entry.expect("an entry").path();
            if path.extension().is_none_or(|e| e != "ron") {
                continue;
            }
            let mut harness = window(file::read(&path).expect("a job"));
            let fields: std::collections::BTreeSet<String> =
                harness.state().answer().findings.iter().map(|f| f.field.clone()).filter(|f| !f.is_empty()).collect();
            for field in fields {
                run(&mut harness, Command::GoTo(field.clone()));
                if harness.state().view().at.as_deref() != Some(field.as_str()) {
                    unreachable.push(format!("{}: {field}", path.display()));
                }
            }
        }
    }
    assert!(unreachable.is_empty(), "{}", unreachable.join("\n"));
}

/// A step begins in its first field that takes a number, whatever list to choose from is above it.
#[test]
fn a_step_begins_in_its_first_field() {
    for step in [Step::Weigh, Step::Measure, Step::Springs, Step::Choose, Step::Dampers, Step::Vehicle, Step::Road] {
        let mut harness = window(presets::demo());
        run(&mut harness, Command::Step(step));
        let at = harness.state().view().at.clone();
        let is_field = at.as_deref().is_some_and(|path| springwright::job::fields::by_path(path).is_some());
        assert!(is_field, "{}: {at:?}", step.key());
    }
}

#[test]
fn rows_pasted_into_a_row_are_echoed_and_keep_order_and_text() {
    let mut job = presets::demo();
    job.front.ratio.by = RatioBy::Rows;
    let old_rows = job.front.ratio.rows.len();
    let mut harness = window(job);
    run(&mut harness, Command::GoTo("front.ratio.rows[1].length".into()));
    harness.event(Event::Paste("travel (in)\tlength (in)\n1.5\t8.8\n0\t9 3/4 in\n-1.5\t10.7".into()));
    settle(&mut harness);
    assert_eq!(harness.state().job().front.ratio.rows.len(), old_rows, "not taken yet");
    let echo = "Read as 3 rows: 1.5 in, 8.8 in; 0 in, 9 3/4 in; -1.5 in, 10.7 in.";
    assert!(harness.query_by_label(echo).is_some(), "the echo is shown");
    harness.get_by_label("Replace the rows").click();
    settle(&mut harness);
    let texts =
        |app: &App| -> Vec<String> { app.job().front.ratio.rows.iter().map(|r| r.length.text.clone()).collect() };
    assert_eq!(texts(harness.state()), ["8.8 in", "9 3/4 in", "10.7 in"]);
    harness.get_by_label("Remove row 1").click();
    settle(&mut harness);
    assert_eq!(texts(harness.state()), ["9 3/4 in", "10.7 in"]);
    run(&mut harness, Command::Undo);
    run(&mut harness, Command::Undo);
    assert_eq!(harness.state().job().front.ratio.rows.len(), old_rows, "both steps can be undone");
}

#[test]
fn the_picture_of_rows_names_the_one_that_is_off() {
    let mut job = presets::demo();
    job.front.ratio.rows[3].length = "231 mm".into();
    let harness = window(job);
    let findings = &harness.state().answer().findings;
    let off = findings.iter().find(|f| f.rule == "row-off").expect("the row is named");
    assert_eq!(off.field, "front.ratio.rows[3].length");
    assert!(off.text.to_string().contains("row 4 is 3 mm off"), "{}", off.text);
}

/// A reading in pounds in a job in kilograms: the button stands beside the field and in the list of findings, is reached
/// by Tab, names what it does, mends in one step, and one Ctrl+Z takes that back.
#[test]
fn a_slip_is_mended_by_one_button_and_one_undo() {
    let mut job = presets::demo();
    let meant = job.after.lr.text.clone();
    let kg: f64 = meant.trim_end_matches(" kg").parse().expect("a plain reading");
    job.after.lr = format!("{:.0} kg", kg / 0.453_592_37).as_str().into();
    let slipped = job.clone();
    let label = format!("Use {:.0} lb for LR, weighed after the change", kg / 0.453_592_37);
    let mut harness = window(job);
    run(&mut harness, Command::GoTo("after.lr".into()));
    let beside = harness.get_by_role_and_label(Role::Button, &label);
    let description = beside.accesskit_node().data().description().map(str::to_owned);
    assert_eq!(description.as_deref(), Some(&*format!("After, left rear: {:.0} lb", kg / 0.453_592_37)));

    let mut tabs = 0;
    while !harness.get_by_role_and_label(Role::Button, &label).accesskit_node().is_focused() {
        press(&mut harness, Key::Tab);
        tabs += 1;
        assert!(tabs < 60, "Tab never reached the button");
    }
    press(&mut harness, Key::Enter);
    assert_eq!(harness.state().job().after.lr.text, format!("{:.0} lb", kg / 0.453_592_37));
    assert!(harness.query_by_role_and_label(Role::Button, &label).is_none(), "the finding is gone");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    settle(&mut harness);
    assert_eq!(*harness.state().job(), slipped, "one step back");

    run(&mut harness, Command::Findings);
    let shown = harness.query_all_by_role_and_label(Role::Button, &label).count();
    assert_eq!(shown, 2, "beside the field, and in the list");
    harness.query_all_by_role_and_label(Role::Button, &label).last().expect("in the list").click();
    settle(&mut harness);
    assert_eq!(harness.state().job().after.lr.text, format!("{:.0} lb", kg / 0.453_592_37));
}

/// A rate that nobody stated stands below its blank field, with what it was worked out from.
#[test]
fn a_rate_worked_out_is_said_below_its_blank_field() {
    let unknown = presets::PRESETS.iter().position(|p| p.name == "unknown-spring").expect("shipped");
    let mut harness = window(Job::default());
    run(&mut harness, Command::OpenPreset(unknown));
    run(&mut harness, Command::GoTo("front.spring.rate".to_owned()));
    let answer = solve::solve(harness.state().job());
    let units = &harness.state().job().units;
    let words =
        springwright::report::sections::sentence::old_rate(answer.checked(Side::Front), units).expect("worked out");
    assert!(words.starts_with("The old spring's rate, 45"), "{words}");
    harness.get_by_label(&words);
}

/// Beside the frames, as in a real window: until every ± is there nothing is released, and what then stands there is what
/// a solve of the whole job says.
#[test]
fn until_every_uncertainty_is_there_nothing_is_released() {
    let mut harness = driven::window(App::on(presets::demo()).solving_beside(), 800.0);
    run(&mut harness, Command::GoTo("front.spring.rate".into()));
    let mut seen_coming = 0;
    for rate in 40..60 {
        harness.state_mut().job_mut().front.spring.rate = format!("{rate} N/mm").as_str().into();
        for _ in 0..5_000 {
            harness.step();
            let app = harness.state();
            let released = Side::BOTH.map(|side| app.answer().released(side).is_ok());
            if !app.answer().is_coming {
                break;
            }
            seen_coming += 1;
            assert_eq!(released, [false, false], "nothing is ordered by half an answer");
            assert!(
                app.answer()
                    .checked(Side::Front)
                    .nudged
                    .u_of(|a| Some(a.standing.new.as_ref()?.frequency.si()))
                    .is_none_or(|u| u == 0.0)
            );
            std::thread::sleep(std::time::Duration::from_millis(1));
        }
        let app = harness.state();
        assert!(!app.answer().is_coming, "it never came");
        assert_eq!(format!("{:?}", app.answer()), format!("{:?}", solve::solve(app.job())));
    }
    assert!(seen_coming > 0, "no frame came before its ±");
}
