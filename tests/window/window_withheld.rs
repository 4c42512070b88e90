//! Ways out of what is withheld, in the window: the overrule, its initials, its withdrawal; and the fields that say that
//! something is meant.

use std::path::Path;

use crate::common::driven;

use driven::{press, run, settle, type_text};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use springwright::gui::App;
use springwright::gui::state::command::Command;
use springwright::job::{HeldBy, Job, Level, Side, file};

fn job(name: &str) -> Job {
    file::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(format!("{name}.ron"))).expect(name)
}

fn window(job: Job) -> Harness<'static, App> {
    driven::window(App::on(job), 1000.0)
}

fn rules(harness: &Harness<'_, App>) -> Vec<&'static str> {
    harness.state().answer().released(Side::Front).err().map_or_else(Vec::new, |reasons| reasons.rules())
}

/// By the keyboard, which also brings it into view.
fn click(harness: &mut Harness<'_, App>, role: Role, label: &str) {
    harness.get_by_role_and_label(role, label).focus();
    settle(harness);
    press(harness, Key::Space);
}

/// A button asks for initials, initials put it in force, a changed value lets it lapse, and it can be withdrawn.
#[test]
fn an_overrule_takes_initials_and_can_be_withdrawn() {
    const RULE: &str = "ratio-upside-down";
    let mut harness = window(job("withheld/ratio-turned"));
    run(&mut harness, Command::Findings);
    assert!(rules(&harness).contains(&RULE));
    click(&mut harness, Role::Button, &format!("Overrule {RULE}"));
    harness.get_by_label("Enter your initials below to overrule the finding.");
    assert!(harness.query_by_role_and_label(Role::Button, &format!("Overrule {RULE}")).is_none(), "it is asked once");
    assert!(rules(&harness).contains(&RULE), "nobody signed it yet");

    harness.get_by_role_and_label(Role::TextInput, &format!("Initials for {RULE}")).focus();
    settle(&mut harness);
    type_text(&mut harness, "JT");
    assert_eq!(harness.state().job().overrules[0].initials, "JT");
    assert!(!rules(&harness).contains(&RULE), "signed");
    let answer = harness.state().answer();
    let found = answer.findings.iter().find(|f| f.rule == RULE).expect("it is still said");
    assert!(found.level == Level::Doubt && found.text.to_string().ends_with("Overruled by JT."), "{}", found.text);

    click(&mut harness, Role::Button, &format!("Withdraw the overruling of {RULE}"));
    assert!(harness.state().job().overrules.is_empty());
    assert!(rules(&harness).contains(&RULE), "withdrawn, it withholds again");
    harness.get_by_role_and_label(Role::Button, &format!("Overrule {RULE}"));
}

/// Riding on the stop by design is a box beside the stop's fields.
#[test]
fn a_box_says_that_it_rides_on_the_stop_by_design() {
    const BOX: &str = "body rests on the bump stop by design";
    let mut harness = window(job("withheld/new-on-the-stop"));
    assert!(rules(&harness).contains(&"on-stop"));
    run(&mut harness, Command::GoTo("front.stop.rate".into()));
    click(&mut harness, Role::CheckBox, BOX);
    assert!(harness.state().job().front.stop.by_design);
    assert!(!rules(&harness).contains(&"on-stop"));
    click(&mut harness, Role::CheckBox, BOX);
    assert!(rules(&harness).contains(&"on-stop"));
}

/// What holds a spring that is loose at full droop is asked where the spring is sized; said, it is a note.
#[test]
fn what_holds_a_loose_spring_is_chosen() {
    let mut harness = window(job("released/sport-spring-loose-at-droop"));
    let level = |harness: &Harness<'_, App>| {
        let findings = &harness.state().answer().findings;
        findings.iter().find(|f| f.rule == "seat" && f.field.starts_with("front")).map(|f| f.level)
    };
    assert_eq!(level(&harness), Some(Level::Doubt));
    run(&mut harness, Command::GoTo("front.target.low".into()));
    let by = HeldBy::ALL.into_iter().find(|by| *by != HeldBy::NotSaid).expect("there is a way");
    click(&mut harness, Role::RadioButton, by.words().said());
    assert_eq!(harness.state().job().front.held_by, by);
    assert_eq!(level(&harness), Some(Level::Note));
}

/// A spring to be wound over its stress: presetting is a box, and the overrule a button.
#[test]
fn a_wound_spring_over_its_stress_has_its_ways_out() {
    const BOX: &str = "preset: compressed solid by the maker";
    let mut harness = window(job("withheld/wound-over-stress"));
    assert!(rules(&harness).contains(&"wound-limit"));
    run(&mut harness, Command::GoTo("front.stock.wire_step".into()));
    click(&mut harness, Role::CheckBox, BOX);
    assert!(harness.state().job().front.stock.preset);
    run(&mut harness, Command::Findings);
    click(&mut harness, Role::Button, "Overrule wound-limit");
    harness.get_by_role_and_label(Role::TextInput, "Initials for wound-limit").focus();
    settle(&mut harness);
    type_text(&mut harness, "JT");
    assert!(!rules(&harness).contains(&"wound-limit"));
}
