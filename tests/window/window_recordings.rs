//! Recorded bounces in the window, driven without a display.

use crate::common::driven;

use driven::{run, settle, until};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use springwright::base::language::Language;
use springwright::base::units::entry::AnyEntry as _;
use springwright::base::units::{DecimalMark, Origin, Quantity as _};
use springwright::choose::draws::Draws;
use springwright::gui::background::record_reader::Of;
use springwright::gui::state::command::{Command, Loading, RecordCommand};
use springwright::gui::state::section::Section;
use springwright::gui::{App, Step};
use springwright::job::{Job, Side, file};
use springwright::shop::lists::Shop;
use springwright::shop::presets;
use springwright::shop::recordings::Ask;

const BEFORE: Of = Of { side: Side::Front, is_before: true };
const AFTER: Of = Of { side: Side::Front, is_before: false };

fn window(job: Job) -> Harness<'static, App> {
    let mut harness = driven::window(App::on(job), 3000.0);
    run(&mut harness, Command::Step(Step::Road));
    run(&mut harness, Command::Section(Section::Bounce));
    harness
}

/// Opens the demo's recording by its button.
fn try_demo(harness: &mut Harness<'_, App>, of: Of) {
    run(harness, Command::Record(RecordCommand::Before(of.is_before)));
    harness.get_by_label("Open the demo recording").click();
    settle(harness);
    until(harness, "the recording", |app| app.records().said(of).is_some());
}

#[test]
fn a_bounce_before_the_swap_says_the_old_dampers_ratio() {
    let mut harness = window(presets::demo());
    try_demo(&mut harness, BEFORE);
    let typed = harness.state().job().clone();
    assert_eq!(typed, presets::demo(), "nothing goes into the job by itself");
    harness.get_by_label("Use this result").click();
    settle(&mut harness);
    let found = harness.state().job().front.bounce.before.clone();
    assert_eq!(found.damping.origin(), Some(Origin::Measured));
    assert!(found.about.contains("decays: 4") && found.file == "demo-bounce-before", "{found:?}");
    assert!(!found.checksum.is_empty());
    let read = |entry: &springwright::base::units::Entry<springwright::base::units::Ratio>| {
        let value = entry.read(DecimalMark::Point).expect("a number").expect("typed").si();
        (value, entry.standard_uncertainty_si(DecimalMark::Point).expect("a number").expect("stated"))
    };
    let (mode, _) = read(&found.damping);
    harness.get_by_label("Use as damping ratio before the change").click();
    settle(&mut harness);
    let (on_springs, u) = read(&harness.state().job().front.damper.ratio_before);
    // The mode's damping ratio is smaller than that on springs; both were a tenth below the 0.27 of the demo.
    assert!(mode < on_springs && (on_springs / (0.9 * 0.27) - 1.0).abs() < 0.1 && u > 0.0, "{mode} {on_springs} {u}");
    for _ in 0..2 {
        run(&mut harness, Command::Undo);
    }
    assert_eq!(*harness.state().job(), typed, "both can be undone");
}

#[test]
fn a_bounce_after_the_work_is_accepted_or_named() {
    let mut harness = window(presets::demo());
    try_demo(&mut harness, AFTER);
    run(&mut harness, Command::Record(RecordCommand::Bounce(Loading::Take)));
    let rules = |harness: &Harness<'_, App>| -> Vec<&'static str> {
        harness.state().answer().findings.iter().map(|f| f.rule).filter(|r| r.starts_with("bounce-")).collect()
    };
    assert!(rules(&harness).is_empty(), "{:?}", rules(&harness));
    harness.get_by_label_contains("Recorded bounce tests");
    harness.state_mut().job_mut().front.bounce.after.damping = "0.5".into();
    settle(&mut harness);
    assert_eq!(rules(&harness), ["bounce-damping"]);
}

#[test]
fn what_is_no_recording_gets_words_and_changes_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("prices.csv");
    file::write_text(&path, "part,price\nspring,45\nspring,50\n").expect("written");
    let mut harness = window(presets::demo());
    run(&mut harness, Command::Record(RecordCommand::Bounce(Loading::Read(path))));
    until(&mut harness, "the refusal", |app| app.records().trouble().is_some());
    assert!(harness.query_all_by_label_contains("prices.csv").count() > 0);
    run(&mut harness, Command::Record(RecordCommand::Bounce(Loading::Take)));
    assert_eq!(*harness.state().job(), presets::demo());
    // The next one that can be read takes its place.
    try_demo(&mut harness, BEFORE);
    assert_eq!(harness.state().records().trouble(), None);
}

/// What was read is said again in the language that is switched to.
#[test]
fn a_recording_speaks_the_language_of_the_window() {
    let mut harness = window(presets::demo());
    try_demo(&mut harness, BEFORE);
    let told =
        |harness: &Harness<'_, App>| format!("{:?}", harness.state().records().said(BEFORE).expect("said").blocks);
    let english = told(&harness);
    run(&mut harness, Command::Language(Language::German));
    settle(&mut harness);
    let german = told(&harness);
    run(&mut harness, Command::Language(Language::English));
    settle(&mut harness);
    assert!(english.contains("damping ratio") && !german.contains("damping ratio"), "{german}");
    assert!(german.contains("Dämpfungsgrad"), "{german}");
    assert_eq!(told(&harness), english);
}

/// The axis that was named counts: across there was no bounce.
#[test]
fn another_column_can_be_named_as_the_vertical() {
    let mut harness = window(presets::demo());
    try_demo(&mut harness, BEFORE);
    let (columns, asked) = harness.state().records().columns(BEFORE).expect("columns");
    assert_eq!((columns.len(), asked), (4, &Ask::default()), "time and three axes");
    let across = Ask { axis: Some(columns[2].clone()), ..Ask::default() };
    run(&mut harness, Command::Record(RecordCommand::Bounce(Loading::Columns(across.clone()))));
    until(&mut harness, "the other axis", |app| {
        app.records().said(BEFORE).is_some()
            && app.records().columns(BEFORE).is_some_and(|(_, as_asked)| *as_asked == across)
    });
    assert!(harness.state().records().said(BEFORE).expect("said").picture.is_none(), "no decay across");
}

/// A logger whose header says nothing: time and vertical are chosen once; its next file is read the same way.
#[test]
fn columns_chosen_by_hand_are_remembered() {
    let folder = tempfile::tempdir().expect("a folder");
    let row = |i: u32| {
        let t = f64::from(i) / 100.0;
        let bounce = if t > 1.0 { (-1.2 * (t - 1.0)).exp() * (7.8 * (t - 1.0)).cos() } else { 0.0 };
        format!("{},{t:.3},{:.4}\n", 20 + i % 3, bounce)
    };
    let text = |head: &str| format!("{head}\n{}", (0..900).map(row).collect::<String>());
    let [first, second, other] = ["a.csv", "b.csv", "c.csv"].map(|name| folder.path().join(name));
    file::write_text(&first, &text("channel 1,channel 2,channel 3")).expect("written");
    file::write_text(&second, &text("channel 1,channel 2,channel 3")).expect("written");
    file::write_text(&other, &text("channel 1,channel 2,channel 4")).expect("written");
    let shop = Shop::at(folder.path().join("lists"));
    let app = App::on(presets::demo()).choosing_from(shop, Draws::default());
    let mut harness = driven::window(app, 3000.0);
    run(&mut harness, Command::Step(Step::Road));
    run(&mut harness, Command::Section(Section::Bounce));
    let refused = |harness: &mut Harness<'_, App>, path: &std::path::Path| {
        run(harness, Command::Record(RecordCommand::Bounce(Loading::Read(path.to_owned()))));
        until(harness, "the refusal", |app| app.records().trouble().is_some());
    };
    refused(&mut harness, &first);
    let (columns, _) = harness.state().records().columns(BEFORE).expect("columns to choose from");
    assert_eq!(columns, ["channel 1", "channel 2", "channel 3"]);
    harness.get_by_label("Time column");
    let chosen = Ask {
        time: Some("channel 2".into()),
        axis: Some("channel 3".into()),
        unit: Some("m/s2".into()),
        time_unit: Some("s".into()),
        ..Ask::default()
    };
    run(&mut harness, Command::Record(RecordCommand::Bounce(Loading::Columns(chosen.clone()))));
    let read = |app: &App| app.records().said(BEFORE).is_some() && app.records().trouble().is_none();
    until(&mut harness, "the first", read);
    run(&mut harness, Command::Record(RecordCommand::Bounce(Loading::Take)));
    let first_found = harness.state().job().front.bounce.before.clone();
    assert!(!first_found.damping.is_blank(), "{first_found:?}");
    run(&mut harness, Command::Record(RecordCommand::Bounce(Loading::Read(second))));
    until(&mut harness, "the second", |app| {
        app.records().columns(BEFORE).is_some_and(|(_, asked)| *asked == chosen) && app.records().share().is_none()
    });
    settle(&mut harness);
    run(&mut harness, Command::Record(RecordCommand::Bounce(Loading::Take)));
    let second_found = harness.state().job().front.bounce.before.clone();
    assert!(second_found.file.ends_with("b.csv") && second_found.damping == first_found.damping, "{second_found:?}");
    // Other columns are another file.
    refused(&mut harness, &other);
}

/// Two drives over the same stretch: read, shown side by side, taken over; declared alike they are on the customer's sheet.
#[test]
fn drives_before_and_after_are_compared() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, size: f64| {
        let row = |i: u32| {
            let t = f64::from(i) / 200.0;
            let shake = (7.9 * t).sin() * (0.31 * t).sin() + 0.5 * (71.0 * t).sin() * (0.17 * t).cos();
            format!("{t:.3},{:.4}\n", 9.81 + size * shake)
        };
        let path = folder.path().join(name);
        let text = format!("time_s,az_m_s2\n{}", (0..9_000).map(row).collect::<String>());
        file::write_text(&path, &text).expect("written");
        path
    };
    let mut harness = driven::window(App::on(presets::demo()), 3000.0);
    run(&mut harness, Command::Step(Step::Road));
    run(&mut harness, Command::Section(Section::Drive));
    let drive = |harness: &mut Harness<'_, App>, is_before: bool, path| {
        run(harness, Command::Record(RecordCommand::Before(is_before)));
        run(harness, Command::Record(RecordCommand::Drive(Loading::Read(path))));
        until(harness, "the drive", move |app| app.records().drives().has(is_before));
        harness.get_by_label("Use this drive").click();
        settle(harness);
    };
    drive(&mut harness, true, write("before.csv", 1.0));
    drive(&mut harness, false, write("after.csv", 0.5));
    let job = harness.state().job();
    assert!(job.drive.before.file.ends_with("before.csv") && job.drive.after.file.ends_with("after.csv"));
    assert_eq!(job.drive.after.felt.origin(), Some(Origin::Measured));
    let ratio = harness.state().answer().whole.drives.ratio().expect("both").si();
    assert!((ratio - 0.5).abs() < 1e-3, "{ratio}");
    let said = harness.state().records().drives().said().expect("read");
    assert!(said.picture.as_ref().is_some_and(|p| p.lines.len() == 2 && p.title.contains("0.500")));
    assert!(!harness.state().answer().whole.drives.are_alike);
    harness.get_by_label("the same stretch at the same speed both times").click();
    harness.get_by_label("the sensor in the same place both times").click();
    settle(&mut harness);
    assert!(harness.state().answer().whole.drives.are_alike);
}
