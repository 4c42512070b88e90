//! Hands on the keyboard: Enter keeps the cursor, lists grow by it, and a file's name says what is in it.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::driven;

use driven::{press, run, settle, type_text};
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, Rect, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use springwright::base::language::Language;
use springwright::base::units::Origin;
use springwright::base::units::entry::AnyEntry as _;
use springwright::gui::state::command::Command;
use springwright::gui::state::files::Purpose;
use springwright::gui::state::section::Section;
use springwright::gui::widgets::field;
use springwright::gui::{App, Step};
use springwright::job::{Job, RatioBy, Side};
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
    let name = harness.get_by_role_and_label(eframe::egui::accesskit::Role::TextInput, "Part 1: description");
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
    let name = harness.get_by_label("Customer name");
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

/// Readings pasted in one line come as a block with their corners, and are echoed before they are taken.
#[test]
fn readings_of_one_line_are_found() {
    let mut harness = driven::window(App::on(Job::default()), 800.0);
    run(&mut harness, Command::GoTo("after.lf".into()));
    harness.event(Event::Paste("VL 402 VR 391 HL 372 HR 375".into()));
    settle(&mut harness);
    assert!(harness.query_by_label("Read as: LF 402 kg, RF 391 kg, LR 372 kg, RR 375 kg.").is_some());
    harness.get_by_label("Use as weights after the change").click();
    settle(&mut harness);
    assert_eq!(harness.state().job().after.rr.text, "375 kg");
    // One number stays in its field.
    run(&mut harness, Command::GoTo("before.lf".into()));
    harness.event(Event::Paste("1155".into()));
    settle(&mut harness);
    assert_eq!(harness.state().job().before.lf.text, "1155 kg");
    assert!(harness.state().view().paste.is_none());
}

#[test]
fn a_load_at_a_usual_place_is_a_guess_to_type_over() {
    let mut job = presets::demo();
    job.cases.clear();
    let mut harness = driven::window(App::on(job), 1400.0);
    run(&mut harness, Command::Step(Step::Vehicle));
    run(&mut harness, Command::AddRow("cases".into()));
    let before = harness.state().job().cases[0].loads.len();
    harness.get_by_label("passenger").click();
    settle(&mut harness);
    let loads = &harness.state().job().cases[0].loads;
    assert_eq!(loads.len(), before + 1);
    let load = &loads[before];
    assert_eq!((load.what.as_str(), load.mass.origin()), ("passenger", Some(Origin::Guessed)));
    let at = format!("cases[0].loads[{before}].mass");
    assert_eq!(harness.state().view().at.as_deref(), Some(at.as_str()), "the cursor is in its mass");
    type_text(&mut harness, "82");
    assert_eq!(harness.state().job().cases[0].loads[before].mass.text, "82 kg");
}

/// A hand on the keyboard; every key counts, one with Ctrl held as one.
struct Keyboard {
    harness: Harness<'static, App>,
    pressed: usize,
}

impl Keyboard {
    fn types(&mut self, text: &str) {
        for letter in text.chars() {
            type_text(&mut self.harness, &letter.to_string());
            self.pressed += 1;
        }
    }

    fn presses(&mut self, key: Key) {
        press(&mut self.harness, key);
        self.pressed += 1;
    }

    fn with_ctrl(&mut self, key: Key) {
        self.harness.key_press_modifiers(Modifiers::COMMAND, key);
        settle(&mut self.harness);
        self.pressed += 1;
    }

    /// Types into the field with the cursor, then Enter.
    fn fills(&mut self, text: &str) {
        self.types(text);
        self.presses(Key::Enter);
    }
}

/// New, four weights, two lengths and the old rate of each axle: that is a first answer. DERIVED: our own measure.
#[test]
fn a_first_answer_for_both_axles_takes_sixty_keys() {
    for language in Language::ALL {
        let harness = driven::window(App::on(presets::demo()).speaking(language), 800.0);
        let mut hand = Keyboard { harness, pressed: 0 };
        hand.with_ctrl(Key::N);
        // The weights before stay blank.
        for _ in 0..4 {
            hand.presses(Key::Enter);
        }
        for weight in ["463", "445", "337", "328"] {
            hand.fills(weight);
        }
        hand.with_ctrl(Key::Num2);
        for text in ["100", "62", "50"] {
            hand.fills(text);
        }
        hand.with_ctrl(Key::R);
        for text in ["100", "95", "30"] {
            hand.fills(text);
        }
        let answer = hand.harness.state().answer();
        for side in Side::BOTH {
            assert!(answer.axle(side).missing.is_empty(), "{side:?}: {:?}", answer.axle(side).missing);
            let part = answer.released(side).expect("released");
            assert!(part.spring.is_some(), "{side:?} {language:?}");
        }
        println!("{language:?}: {} keys", hand.pressed);
        assert!(hand.pressed <= 60, "{language:?}: {} keys", hand.pressed);
    }
}

/// What a new user looks for, and where the rail leads to it.
enum Wanted {
    Field(&'static str),
    Picture(&'static str),
    Button(&'static str),
}

/// A new user's ten tasks on the demo at 1280×800: the step, the section pressed in the rail, and what must then be in
/// view; what is not counts the screens one must scroll. DERIVED: our own tasks and measure.
#[test]
fn ten_tasks_take_at_most_twelve_scrolls() {
    use Wanted::{Button, Field, Picture};
    let tasks = [
        (Step::Weigh, None, vec![Field("after.lf"), Picture("The vehicle from above")]),
        (Step::Weigh, Some(Section::Ledger), vec![Button("Add a row")]),
        (
            Step::Measure,
            Some(Section::Ratio),
            vec![Field("front.ratio.rows[0].wheel"), Field("front.ratio.rows[4].length")],
        ),
        (Step::Measure, Some(Section::Travel), vec![Field("front.travel.stop_gap"), Field("front.travel.droop")]),
        (Step::Measure, Some(Section::Routes), vec![Picture("wheel rate")]),
        (Step::Springs, None, vec![Field("front.target.low"), Picture("on old springs")]),
        (Step::Choose, Some(Section::Fit), vec![Field("front.choice.spacer_most")]),
        (Step::Dampers, Some(Section::Damping), vec![Field("front.target.damping_low")]),
        (Step::Vehicle, Some(Section::Roll), vec![Field("chassis.cg_height"), Field("front.roll_bar.diameter")]),
        (Step::Sheet, None, vec![Button("Print…"), Button("Save as PDF…")]),
    ];
    let window = [1280.0, 800.0];
    let mut harness = driven::sized(App::on(presets::demo()), window);
    let (mut scrolls, mut total) = (Vec::new(), 0);
    for (step, section, wanted) in tasks {
        run(&mut harness, Command::Step(step));
        if let Some(section) = section {
            run(&mut harness, Command::Section(section));
        }
        for _ in 0..8 {
            harness.step();
        }
        for what in wanted {
            let (name, at) = match what {
                Field(path) => (path, harness.ctx.read_response(field::id(path)).map(|r| r.rect)),
                Picture(name) => (name, node_at(&harness, Role::Image, name)),
                Button(name) => (name, node_at(&harness, Role::Button, name)),
            };
            let at = at.unwrap_or_else(|| panic!("{step:?} {section:?}: no {name}"));
            // Of a picture its upper part is enough.
            let bottom = at.bottom().min(at.top() + 200.0);
            let off = (bottom - (window[1] - 26.0)).max(80.0 - at.top()).max(0.0);
            let count = (off / 600.0).ceil() as usize;
            total += count;
            if count > 0 {
                scrolls.push(format!("{step:?} {section:?} {name}: {count}, at {at:?}"));
            }
        }
    }
    println!("{total} scrolls: {scrolls:#?}");
    assert!(total <= 12, "{scrolls:#?}");
}

/// Where the first such thing with this in its name is.
fn node_at(harness: &Harness<'_, App>, role: Role, name: &str) -> Option<Rect> {
    let node = harness.root().children_recursive().find(|n| {
        let access = n.accesskit_node();
        access.role() == role && access.label().is_some_and(|l| l.contains(name))
    })?;
    let at = node.accesskit_node().bounding_box()?;
    Some(Rect::from_min_max(pos2(at.x0 as f32, at.y0 as f32), pos2(at.x1 as f32, at.y1 as f32)))
}
