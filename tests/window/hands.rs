//! Hands on the keyboard: Enter keeps the cursor, lists grow by it, and a file's name says what is in it.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::driven;

use driven::{press, run, settle, type_text};
use eframe::egui::Key;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use springwright::gui::state::command::Command;
use springwright::gui::state::files::Purpose;
use springwright::gui::{App, Step};
use springwright::job::RatioBy;
use springwright::shop::presets;

#[test]
fn enter_behind_the_last_cell_of_a_list_begins_the_next_row() {
    let mut job = presets::demo();
    job.front.ratio.by = RatioBy::Rows;
    let rows = job.front.ratio.rows.len();
    let mut harness = driven::window(App::on(job), 800.0);
    run(&mut harness, Command::GoTo(format!("front.ratio.rows[{}].length", rows - 1)));
    press(&mut harness, Key::Enter);
    settle(&mut harness);
    assert_eq!(harness.state().job().front.ratio.rows.len(), rows + 1);
    assert_eq!(harness.state().view().at.as_deref(), Some(format!("front.ratio.rows[{rows}].wheel").as_str()));
    // What is typed goes there; an empty row ends the list, and the cursor goes on to the next field.
    for text in ["90", "193"] {
        type_text(&mut harness, text);
        press(&mut harness, Key::Enter);
        settle(&mut harness);
    }
    let last = harness.state().job().front.ratio.rows.len() - 1;
    assert_eq!(harness.state().job().front.ratio.rows[last - 1].length.text, "193 mm");
    for _ in 0..2 {
        press(&mut harness, Key::Enter);
    }
    assert_eq!(harness.state().job().front.ratio.rows.len(), last + 1, "an empty row begins no other");
    let at = harness.state().view().at.clone().expect("a cursor");
    assert!(!at.contains(".rows["), "{at}");
}

#[test]
fn a_row_that_is_added_gets_the_cursor() {
    let mut harness = driven::window(App::on(presets::demo()), 800.0);
    run(&mut harness, Command::Step(Step::Weigh));
    run(&mut harness, Command::AddRow("parts".into()));
    settle(&mut harness);
    let name = harness.get_by_role_and_label(eframe::egui::accesskit::Role::TextInput, "Part 1, what it is");
    assert!(name.accesskit_node().is_focused(), "unfolded, too");
}

#[test]
fn enter_never_drops_the_cursor() {
    let mut harness = driven::window(App::on(presets::demo()), 800.0);
    // The last field of a form, and one before what is folded.
    for path in ["front.travel.droop", "rear.travel.droop", "front.stock.solid_length"] {
        run(&mut harness, Command::GoTo(path.into()));
        press(&mut harness, Key::Enter);
        assert!(harness.ctx.memory(|m| m.focused()).is_some(), "{path}");
    }
    run(&mut harness, Command::Step(Step::Sheet));
    let name = harness.get_by_label("Name of the customer");
    let id = name.accesskit_node().id();
    name.focus();
    settle(&mut harness);
    type_text(&mut harness, "Jo Sample");
    press(&mut harness, Key::Enter);
    settle(&mut harness);
    let focused = harness.root().children_recursive().find(|n| n.accesskit_node().is_focused()).expect("a cursor");
    assert_ne!(focused.accesskit_node().id(), id, "it went on");
    assert!(harness.state().job().customer.name.ends_with("Jo Sample"));
}

#[test]
fn the_name_of_a_sheet_says_which_for_whom_and_of_what() {
    let mut job = presets::demo();
    (job.customer.name, job.vehicle.name) = ("Jo Sample".into(), "Van no. 7".into());
    let mut harness = driven::window(App::on(job), 800.0);
    run(&mut harness, Command::NoDialog(Purpose::WriteSheet));
    let (_, path) = harness.state().view().typed_path.clone().expect("a path is asked for");
    assert!(path.ends_with("customer-sheet-jo-sample-van-no-7.pdf"), "{path}");
}
