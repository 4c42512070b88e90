//! Files in the window: what somebody else changed, two windows, disks that refuse, settings of any kind, the list of
//! jobs, files dropped on it.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::driven;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use driven::{run, settle};
use eframe::egui::accesskit::Role;
use eframe::egui::{self, Event, Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use springwright::base::language::Language;
use springwright::base::units::entry::AnyEntry as _;
use springwright::base::units::{DecimalMark, Origin, UnitChoice};
use springwright::choose::draws::Draws;
use springwright::gui::app::document::Document;
use springwright::gui::state::command::{Command, FileCommand, PlotTo};
use springwright::gui::state::files::Purpose;
use springwright::gui::state::files::Question;
use springwright::gui::{App, Step};
use springwright::job::kept::{Keeper, KeptJob};
use springwright::job::{Job, Level, file};
use springwright::report::pictures::picture::load_travel;
use springwright::report::pictures::plot::Export;
use springwright::shop::lists::Shop;
use springwright::shop::presets;

fn noted(notes: &str) -> Job {
    Job { notes: notes.into(), ..presets::demo() }
}

/// A window on a job in a file, which keeps its work.
fn window_on(folder: &Path, notes: &str) -> (Harness<'static, App>, PathBuf) {
    let path = folder.join("van.ron");
    file::write(&path, &noted(notes)).expect("saves");
    let mut app = App::on(Job::default());
    app.keep_in(Some(&folder.join("kept")));
    let mut harness = driven::window(app, 800.0);
    run(&mut harness, Command::OpenFile(path.clone()));
    (harness, path)
}

fn notice(harness: &Harness<'_, App>) -> (Level, String) {
    harness.state().view().notice.clone().expect("a notice")
}

fn notes_of(path: &Path) -> String {
    file::read(path).expect("a job").notes
}

/// A job edited here and saved after somebody else changed its file: the question is open.
fn saved_where_somebody_was(folder: &Path) -> (Harness<'static, App>, PathBuf) {
    let (mut harness, path) = window_on(folder, "opened");
    harness.state_mut().job_mut().notes = "mine".into();
    settle(&mut harness);
    file::write(&path, &noted("theirs")).expect("saves");
    run(&mut harness, Command::Save);
    (harness, path)
}

/// The file that a message names at its end.
fn named(text: &str) -> PathBuf {
    text.split_whitespace().last().expect("a path").into()
}

#[test]
fn what_somebody_else_saved_is_not_saved_over_unasked() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = saved_where_somebody_was(folder.path());
    assert_eq!(notes_of(&path), "theirs", "not saved yet");
    assert!(
        harness.query_by_label("Open the other version").is_some()
            && harness.query_by_label("Save my version elsewhere…").is_some()
    );
    harness.get_by_label("Not now").click();
    settle(&mut harness);
    assert!(harness.query_by_label("Open the other version").is_none());
    assert_eq!((notes_of(&path).as_str(), harness.state().job().notes.as_str()), ("theirs", "mine"));

    // Mine over it: theirs stays, too.
    run(&mut harness, Command::Save);
    harness.get_by_label("Save my version").click();
    settle(&mut harness);
    assert_eq!(notes_of(&path), "mine");
    assert_eq!(notes_of(&named(&notice(&harness).1)), "theirs");
    assert_eq!(notes_of(&file::backup_of(&path)), "theirs");

    // Theirs: mine is put aside, and one step back.
    harness.state_mut().job_mut().notes = "mine again".into();
    settle(&mut harness);
    file::write(&path, &noted("theirs again")).expect("saves");
    run(&mut harness, Command::Save);
    harness.get_by_label("Open the other version").click();
    settle(&mut harness);
    assert_eq!(harness.state().job().notes, "theirs again");
    assert_eq!(notes_of(&named(&notice(&harness).1)), "mine again");
    run(&mut harness, Command::Undo);
    assert_eq!(harness.state().job().notes, "mine again");
}

/// A comment that somebody typed into the file is theirs, too, though the job is the same.
#[test]
fn every_letter_in_the_file_counts_and_a_file_that_is_gone_is_saved_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_on(folder.path(), "opened");
    let text = std::fs::read_to_string(&path).expect("text");
    file::write_text(&path, &format!("// a word of mine\n{text}")).expect("writes");
    run(&mut harness, Command::Save);
    assert!(harness.query_by_label("Open the other version").is_some());
    run(&mut harness, Command::File(FileCommand::NotNow));
    std::fs::remove_file(&path).expect("removes");
    run(&mut harness, Command::Save);
    assert_eq!(notes_of(&path), "opened");
}

#[test]
fn coming_back_to_the_window_says_that_the_file_was_changed() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_on(folder.path(), "opened");
    harness.event(Event::WindowFocused(true));
    settle(&mut harness);
    assert!(harness.state().view().notice.is_none());
    file::write(&path, &noted("theirs")).expect("saves");
    harness.event(Event::WindowFocused(true));
    settle(&mut harness);
    assert!(notice(&harness).1.starts_with("van.ron was changed by someone else after you opened it."));
}

#[test]
fn a_second_window_on_the_same_job_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut first, path) = window_on(folder.path(), "opened");
    let (mut second, _) = window_on(folder.path(), "opened");
    assert!(notice(&second).1.starts_with("van.ron is also open in another window."), "{:?}", notice(&second));
    assert!(first.state().view().notice.is_none());
    for (window, notes) in [(&mut first, "first"), (&mut second, "second")] {
        window.state_mut().job_mut().notes = notes.into();
        settle(window);
        run(window, Command::Save);
    }
    assert_eq!(notes_of(&path), "first");
    assert!(second.query_by_label("Save my version").is_some(), "whoever saves second is asked");
}

#[cfg(unix)]
#[test]
fn a_file_that_refuses_keeps_the_text_and_says_what_to_do() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_on(folder.path(), "opened");
    harness.state_mut().job_mut().notes = "mine".into();
    settle(&mut harness);
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o444)).expect("protects");
    run(&mut harness, Command::Save);
    let (level, text) = notice(&harness);
    assert_eq!(level, Level::Error);
    for words in ["Not saved: ", "write-protected", "Save as", "Your work is kept"] {
        assert!(text.contains(words), "{text}");
    }
    assert_eq!((notes_of(&path).as_str(), harness.state().job().notes.as_str()), ("opened", "mine"));
    assert!(harness.state_mut().may_close(), "it is kept");
    drop(harness);

    let mut next = Document::new(Job::default());
    next.keep_in(&folder.path().join("kept")).expect("kept").expect("comes back");
    assert_eq!((next.now.job.notes.as_str(), next.disk().path.as_deref()), ("mine", Some(path.as_path())));
}

#[test]
fn work_that_can_be_kept_nowhere_is_asked_about_before_the_window_closes() {
    let folder = tempfile::tempdir().expect("a folder");
    let in_the_way = folder.path().join("a-file");
    file::write_text(&in_the_way, "").expect("writes");
    let mut app = App::on(presets::demo());
    app.keep_in(Some(&in_the_way));
    let mut harness = driven::window(app, 800.0);
    assert!(notice(&harness).1.starts_with("Unsaved work cannot be kept in "), "{}", notice(&harness).1);
    assert!(harness.state_mut().may_close(), "nothing was typed");
    harness.state_mut().job_mut().notes = "typed".into();
    settle(&mut harness);
    assert!(!harness.state_mut().may_close());
    settle(&mut harness);
    assert!(harness.query_by_label("Save…").is_some());
    harness.get_by_label("Close without saving").click();
    settle(&mut harness);
    assert!(harness.state_mut().may_close());
}

#[test]
fn a_typed_path_replaces_no_other_file_unasked() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("other.ron");
    file::write(&path, &noted("other")).expect("saves");
    let mut harness = driven::window(App::on(noted("mine")), 800.0);
    run(&mut harness, Command::NoDialog(Purpose::SaveJob));
    harness
        .get_by_role_and_label(Role::TextInput, "The file dialog could not be opened. Path for saving the job:")
        .focus();
    settle(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    driven::type_text(&mut harness, &path.display().to_string());
    driven::press(&mut harness, Key::Enter);
    assert_eq!(notes_of(&path), "other");
    harness.get_by_label("Replace file").click();
    settle(&mut harness);
    assert_eq!(notes_of(&path), "mine");
    assert_eq!(notes_of(&file::backup_of(&path)), "other");
}

/// The path typed for this purpose, as it would be where no dialog can be shown.
fn type_path(harness: &mut Harness<'_, App>, purpose: Purpose, words: &str, path: &Path) {
    run(harness, Command::NoDialog(purpose));
    harness.get_by_role_and_label(Role::TextInput, words).focus();
    settle(harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    driven::type_text(harness, &path.display().to_string());
    driven::press(harness, Key::Enter);
}

#[test]
fn a_sheet_or_plot_replaces_no_file_unasked_and_never_a_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("old.txt");
    file::write_text(&path, "of somebody").expect("writes");
    let text = || std::fs::read_to_string(&path).expect("it is there");
    let mut harness = driven::window(App::on(noted("mine")), 800.0);
    let words = "The file dialog could not be opened. Path for saving the sheet:";
    type_path(&mut harness, Purpose::WriteSheet, words, &path);
    assert_eq!(text(), "of somebody");
    harness.get_by_label("Not now").click();
    settle(&mut harness);
    assert_eq!((text().as_str(), harness.query_by_label("Replace file").is_some()), ("of somebody", false));
    type_path(&mut harness, Purpose::WriteSheet, words, &path);
    harness.get_by_label("Replace file").click();
    settle(&mut harness);
    assert!(text().contains("Orchard") || text().len() > 100, "{}", text());
    assert!(harness.state().view().question.is_none());

    let job = folder.path().join("theirs.ron");
    file::write(&job, &noted("theirs")).expect("saves");
    type_path(&mut harness, Purpose::WriteSheet, words, &job);
    assert!(notice(&harness).1.contains("this is a job file"), "{:?}", notice(&harness));
    let answer = harness.state().answer().clone();
    let units = harness.state().job().units;
    let plot = Export::of(&load_travel(&answer.axles.front, &units).expect("a picture"), &units);
    for (purpose, words, to) in [
        (
            Purpose::PlotData,
            "The file dialog could not be opened. Path for saving the data:",
            PlotTo::SaveData(Box::new(plot.clone())),
        ),
        (
            Purpose::PlotPicture,
            "The file dialog could not be opened. Path for saving the picture:",
            PlotTo::SavePicture(Box::new(plot.clone())),
        ),
    ] {
        file::write_text(&path, "of somebody").expect("writes");
        run(&mut harness, Command::Plot(to.clone()));
        type_path(&mut harness, purpose, words, &path);
        assert_eq!(text(), "of somebody");
        harness.get_by_label("Replace file").click();
        settle(&mut harness);
        assert_ne!(text(), "of somebody");
        run(&mut harness, Command::Plot(to));
        type_path(&mut harness, purpose, words, &job);
        assert!(notice(&harness).1.contains("this is a job file"), "{:?}", notice(&harness));
    }
    assert_eq!(notes_of(&job), "theirs");
}

/// What was asked about one job is not answered for another that Undo brings back.
#[test]
fn an_open_question_does_not_survive_undo_to_another_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = saved_where_somebody_was(folder.path());
    assert!(harness.query_by_label("Save my version").is_some());
    while harness.state().job().notes != Job::default().notes {
        run(&mut harness, Command::Undo);
    }
    assert!(harness.query_by_label("Save my version").is_none());
    assert!(harness.state().view().question.is_none());
    assert_eq!(notes_of(&path), "theirs");
}

/// The text of everything that is said at the start, with this job given, or none.
fn said_at_start(kept: &Path, job: Option<&Path>) -> (Harness<'static, App>, String) {
    let mut app = App::on(Job::default());
    app.start(&egui::Context::default(), Some(kept), job);
    let harness = driven::window(app, 800.0);
    let said = harness.state().view().notice.clone().map(|n| n.1).unwrap_or_default();
    (harness, said)
}

/// Work that a dead window left, on this file, with these notes.
fn dead_window(kept: &Path, path: Option<&Path>, notes: &str) {
    let (dead, _) = Keeper::start(kept).expect("kept").expect("a place");
    let copy = KeptJob { path: path.map(Path::to_owned), job: noted(notes), seen: None };
    dead.keep(copy).recv().expect("an answer").expect("keeps");
}

#[test]
fn what_was_said_before_stays_when_there_is_nothing_to_say_of_kept_work() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = driven::window(App::on(Job::default()), 800.0);
    run(&mut harness, Command::OpenFile(folder.path().join("gone.ron")));
    let before = notice(&harness).1;
    harness.state_mut().keep_in(Some(&folder.path().join("kept")));
    assert_eq!(notice(&harness).1, before);
}

/// Kept work, and a job to open: both are said, and neither is lost.
#[test]
fn a_start_with_a_job_says_where_kept_work_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let (kept, path) = (folder.path().join("kept"), folder.path().join("van.ron"));
    file::write(&path, &noted("saved")).expect("saves");
    dead_window(&kept, None, "unsaved");
    let (mut harness, said) = said_at_start(&kept, Some(&path));
    assert!(said.starts_with("Earlier unsaved work was kept. Undo opens it"), "{said}");
    assert_eq!((harness.state().job().notes.as_str(), notes_of(&named(&said)).as_str()), ("saved", "unsaved"));
    run(&mut harness, Command::Undo);
    assert_eq!(harness.state().job().notes, "unsaved");
}

/// The second start opens the job that was open last; one that is gone is named, and the demo stays.
#[test]
fn the_next_start_opens_the_last_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("van.ron");
    file::write(&path, &noted("saved")).expect("saves");
    let started = |last: Option<&Path>| {
        let mut app = App::on(presets::demo());
        app.open_last(&egui::Context::default(), last);
        driven::window(app, 800.0)
    };
    let harness = started(Some(&path));
    assert_eq!(harness.state().job().notes, "saved");
    assert!(harness.state().view().notice.is_none());
    assert_eq!(*started(None).state().job(), presets::demo());
    let gone = started(Some(&folder.path().join("gone.ron")));
    assert_eq!(*gone.state().job(), presets::demo());
    let (level, text) = notice(&gone);
    assert_eq!(level, Level::Doubt);
    assert!(text.starts_with("The job that was open last was not found: ") && text.contains("gone.ron"), "{text}");
    // Work that came back stays open.
    let mut app = App::on(Job::default());
    app.job_mut().notes = "mine".into();
    app.open_last(&egui::Context::default(), Some(&path));
    assert_eq!(app.job().notes, "mine");
}

/// A job that cannot be opened leaves the kept work open, and both are said.
#[test]
fn a_start_with_a_job_that_is_gone_says_so_beside_kept_work() {
    let folder = tempfile::tempdir().expect("a folder");
    let kept = folder.path().join("kept");
    dead_window(&kept, None, "unsaved");
    let (harness, said) = said_at_start(&kept, Some(&folder.path().join("gone.ron")));
    assert!(said.contains("has been restored") && said.contains("Not opened: "), "{said}");
    assert_eq!(harness.state().job().notes, "unsaved");
}

#[test]
fn a_start_with_the_job_that_was_worked_on_goes_on_with_that_work() {
    let folder = tempfile::tempdir().expect("a folder");
    let (kept, path) = (folder.path().join("kept"), folder.path().join("van.ron"));
    file::write(&path, &noted("saved")).expect("saves");
    dead_window(&kept, Some(&path), "unsaved");
    let (harness, said) = said_at_start(&kept, Some(&path));
    assert!(said.starts_with("Unsaved work on "), "{said}");
    assert_eq!(harness.state().job().notes, "unsaved");
}

#[test]
fn a_new_job_has_the_mark_of_the_language_and_says_what_went_wrong_with_the_names() {
    let shop = tempfile::tempdir().expect("a folder");
    std::fs::create_dir(shop.path().join("letterhead")).expect("a folder");
    file::write_text(&shop.path().join("letterhead/shop.ron"), "(name: ").expect("writes");
    let app = App::on(Job { decimal: DecimalMark::Point, ..Job::default() })
        .choosing_from(Shop::at(shop.path().to_owned()), Draws::default())
        .speaking(Language::German);
    let mut harness = driven::window(app, 800.0);
    run(&mut harness, Command::Step(Step::Road));
    run(&mut harness, Command::New);
    assert_eq!(harness.state().job().decimal, DecimalMark::Comma);
    let (level, text) = notice(&harness);
    assert!(level == Level::Doubt && text.contains("shop.ron"), "{text}");
    assert_eq!(harness.state().view().step, Step::Weigh);
}

/// A window that died between saving and forgetting its kept copy has nothing unsaved.
#[test]
fn a_kept_copy_that_says_what_the_file_says_is_no_unsaved_work() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("van.ron");
    file::write(&path, &noted("saved")).expect("saves");
    let mut dead = Document::new(noted("saved"));
    dead.keep_in(&folder.path().join("kept")).expect("kept");
    dead.open(&path).expect("opens");
    dead.now.job.notes = "more".into();
    dead.keep_now().expect("keeps");
    file::write(&path, &noted("more")).expect("saves");
    drop(dead);
    let mut next = Document::new(Job::default());
    assert_eq!(next.keep_in(&folder.path().join("kept")).expect("kept"), None);
    assert_eq!((next.now.job.notes.as_str(), next.is_dirty()), ("more", false));
}

/// A kept copy that names a file, but not what it said: whatever stands there now was never seen.
#[test]
fn a_file_that_was_never_read_is_not_saved_over_unasked() {
    let folder = tempfile::tempdir().expect("a folder");
    let (path, kept) = (folder.path().join("van.ron"), folder.path().join("kept"));
    file::write(&path, &noted("theirs")).expect("saves");
    let (dead, _) = Keeper::start(&kept).expect("kept").expect("a place");
    let copy = KeptJob { path: Some(path.clone()), job: noted("mine"), seen: None };
    dead.keep(copy).recv().expect("an answer").expect("keeps");
    drop(dead);
    let mut app = App::on(Job::default());
    app.keep_in(Some(&kept));
    let mut harness = driven::window(app, 800.0);
    assert_eq!(harness.state().job().notes, "mine");
    run(&mut harness, Command::Save);
    assert_eq!(notes_of(&path), "theirs", "it is asked first");
    assert_eq!(harness.state().view().question, Some(Question::Exists(path.clone())));
    run(&mut harness, Command::File(FileCommand::SaveOver(path.clone())));
    assert_eq!(notes_of(&path), "mine");
}

/// Settings as text by key, as the window keeps them.
#[derive(Default)]
struct Settings(BTreeMap<String, String>);

impl eframe::Storage for Settings {
    fn get_string(&self, key: &str) -> Option<String> {
        self.0.get(key).cloned()
    }
    fn set_string(&mut self, key: &str, value: String) {
        self.0.insert(key.into(), value);
    }
    fn remove_string(&mut self, key: &str) {
        self.0.remove(key);
    }
    fn flush(&mut self) {}
}

#[test]
fn settings_come_back_and_broken_ones_or_those_of_the_future_stop_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_on(folder.path(), "opened");
    run(&mut harness, Command::HideHints);
    let mut settings = Settings::default();
    eframe::App::save(harness.state_mut(), &mut settings);
    come_back(&settings, &path);
    for broken in ["", "(((((", "\0\u{fffd}", "{\"a\": 1}", "Later(version: 9, of: [])", &"[".repeat(100_000)] {
        starts_with(settings.0.clone(), broken);
    }
}

/// The next window has what was kept.
fn come_back(settings: &Settings, path: &Path) {
    let mut next = App::on(Job::default());
    next.remember(Some(settings));
    assert!(next.view().hide_hints);
    assert_eq!(next.view().recent, [path]);
}

/// The window starts as at first where every setting says this.
fn starts_with(mut settings: BTreeMap<String, String>, broken: &str) {
    settings.values_mut().for_each(|v| *v = broken.to_owned());
    let mut next = App::on(Job::default());
    next.remember(Some(&Settings(settings)));
    assert!(!next.view().hide_hints && next.view().recent.is_empty(), "{broken:.20}");
    driven::window(next, 800.0);
}

#[test]
fn undo_and_redo_go_through_opening_units_and_saving() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_on(folder.path(), "opened");
    let metric = harness.state().job().clone();
    run(&mut harness, Command::Units(UnitChoice::pound_inch()));
    run(&mut harness, Command::Save);
    run(&mut harness, Command::OpenPreset(1));
    let preset = harness.state().job().clone();
    run(&mut harness, Command::Units(UnitChoice::pound_inch()));
    run(&mut harness, Command::New);
    let mut back = Vec::new();
    while harness.state().view().epoch < 1000 {
        let before = harness.state().job().clone();
        harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        settle(&mut harness);
        if *harness.state().job() == before {
            break;
        }
        back.push(harness.state().job().clone());
    }
    assert_eq!(back.last(), Some(&Job::default()), "all the way to the first job");
    for seen in [&preset, &metric] {
        assert!(back.contains(seen));
    }
    assert_eq!(file::read(&path).expect("a job").units, UnitChoice::pound_inch(), "undo changes no file");
    for job in back.iter().rev().skip(1) {
        run(&mut harness, Command::Redo);
        assert_eq!(harness.state().job(), job);
    }
    run(&mut harness, Command::Redo);
    assert!(harness.state().job().before.is_blank(), "and on to the last");
}

/// A file as the system gives it to a window.
#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }
    fn bytes(&self) -> Result<Vec<u8>, String> {
        Err("by its path".into())
    }
}

#[test]
fn a_job_dropped_on_the_window_is_opened() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("dropped.ron");
    file::write(&path, &noted("dropped")).expect("saves");
    let mut harness = driven::window(App::on(Job::default()), 800.0);
    harness.input_mut().dropped_files.push(Arc::new(Dropped(path.clone())));
    settle(&mut harness);
    assert_eq!(harness.state().job().notes, "dropped");
    assert_eq!(harness.state().view().recent, [path]);
}

#[test]
fn jobs_of_a_folder_are_found_opened_and_started_from() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, _) = window_on(folder.path(), "opened");
    for (name, who) in [("a", "Ash & Daughters"), ("b", "B. Quillfeather")] {
        let mut job = presets::demo();
        job.customer.name = who.into();
        file::write(&folder.path().join(format!("{name}.ron")), &job).expect("saves");
    }
    file::write_text(&folder.path().join("broken.ron"), "(version: 1, job: (").expect("writes");
    run(&mut harness, Command::File(FileCommand::Jobs(None)));
    let mut tries = 0;
    while harness.query_by_label_contains("of 4 jobs").is_none() {
        std::thread::sleep(std::time::Duration::from_millis(5));
        harness.step();
        tries += 1;
        assert!(tries < 2000, "the list never came");
    }
    assert!(
        harness.query_by_label_contains("broken.ron: this is not a springwright job").is_some(),
        "a file that is no job is there, with why"
    );
    assert!(harness.query_by_label_contains("Ash & Daughters").is_some(), "the customer stands in it");
    assert!(harness.query_all_by_label_contains("saved 20").next().is_some(), "and the day");
    harness.get_by_label("Find").focus();
    settle(&mut harness);
    driven::type_text(&mut harness, "quill");
    assert!(harness.query_by_label_contains("1 of 4 jobs").is_some());
    harness.get_by_label("New job from b.ron").click();
    settle(&mut harness);
    let job = harness.state().job();
    assert!(job.customer.name.is_empty() && job.before.is_blank() && job.after.is_blank());
    let demo = presets::demo();
    assert_eq!(job.front.spring.rate.text, demo.front.spring.rate.text, "what was measured stays");
    assert_ne!(job.front.spring.rate.origin(), Some(Origin::Measured), "but not as measured here");
    assert!(harness.query_by_label("Back to the job").is_none());
}

/// What happens in one frame, in this order; then some more frames.
fn in_one_frame(harness: &mut Harness<'_, App>, events: Vec<Event>) {
    harness.input_mut().events.extend(events);
    settle(harness);
}

fn typed(text: &str) -> Event {
    Event::Text(text.to_owned())
}

fn key(key: Key) -> Event {
    Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers: Modifiers::COMMAND }
}

/// A window on a saved job with the cursor in an empty field.
fn window_at(folder: &Path, field: &str) -> (Harness<'static, App>, PathBuf) {
    let (mut harness, path) = window_on(folder, "opened");
    run(&mut harness, Command::GoTo(field.to_owned()));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    settle(&mut harness);
    (harness, path)
}

#[test]
fn what_was_typed_before_a_key_is_in_what_the_key_does() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_at(folder.path(), "after.lf");
    in_one_frame(&mut harness, vec![typed("5"), key(Key::S), typed("6")]);
    assert_eq!(file::read(&path).expect("a job").after.lf.text, "5 kg", "what stood before the key");
    assert_eq!(harness.state().job().after.lf.text, "56 kg", "what came behind it is typed, too");
    // Saved twice in one frame, with typing between.
    in_one_frame(&mut harness, vec![typed("7"), key(Key::S), typed("8"), key(Key::S)]);
    assert_eq!(file::read(&path).expect("a job").after.lf.text, "5678 kg");
    // In the order in which they were pressed: first undone, then saved.
    let mut before = harness.state().job().clone();
    before.notes = "typed".into();
    *harness.state_mut().job_mut() = before;
    settle(&mut harness);
    in_one_frame(&mut harness, vec![key(Key::Z), key(Key::S)]);
    assert_eq!(notes_of(&path), "opened");
}

#[test]
fn a_new_job_in_the_frame_of_typing_leaves_it_in_the_old_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, _) = window_at(folder.path(), "after.lf");
    in_one_frame(&mut harness, vec![typed("77"), key(Key::N), typed("88")]);
    assert_ne!(harness.state().job().after.lf.text, "77 kg", "a new job");
    let aside = file::read(&named(&notice(&harness).1)).expect("put aside");
    assert_eq!(aside.after.lf.text, "77 kg");
    run(&mut harness, Command::Undo);
    assert!(harness.state().job().after.lf.text.starts_with("77"), "{}", harness.state().job().after.lf.text);
}

#[test]
fn a_job_dropped_in_the_frame_of_typing_leaves_it_in_the_old_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, _) = window_at(folder.path(), "after.lf");
    let dropped = folder.path().join("dropped.ron");
    file::write(&dropped, &noted("dropped")).expect("saves");
    harness.input_mut().dropped_files.push(Arc::new(Dropped(dropped)));
    in_one_frame(&mut harness, vec![typed("77")]);
    assert_eq!(harness.state().job().notes, "dropped");
    assert_eq!(file::read(&named(&notice(&harness).1)).expect("put aside").after.lf.text, "77 kg");
}

/// Several at once, and what is no job: each is said, and no work is lost.
#[test]
fn whatever_is_dropped_loses_no_work() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, _) = window_on(folder.path(), "opened");
    harness.state_mut().job_mut().notes = "mine".into();
    settle(&mut harness);
    let drop_all = |harness: &mut Harness<'_, App>, paths: &[PathBuf]| {
        for path in paths {
            harness.input_mut().dropped_files.push(Arc::new(Dropped(path.clone())));
        }
        settle(harness);
    };
    let broken = folder.path().join("broken.ron");
    file::write_text(&broken, "(version: 1, job: (").expect("writes");
    for path in [broken, folder.path().to_owned(), folder.path().join("gone.ron"), PathBuf::from("/dev/zero")] {
        drop_all(&mut harness, std::slice::from_ref(&path));
        assert!(notice(&harness).1.starts_with("Not opened: "), "{}: {:?}", path.display(), notice(&harness));
        assert_eq!(harness.state().job().notes, "mine");
    }
    let two = ["one", "two"].map(|notes| {
        let path = folder.path().join(format!("{notes}.ron"));
        file::write(&path, &noted(notes)).expect("saves");
        path
    });
    drop_all(&mut harness, &two);
    assert_eq!(harness.state().job().notes, "two", "the last one");
    run(&mut harness, Command::Undo);
    run(&mut harness, Command::Undo);
    assert_eq!(harness.state().job().notes, "mine");
}

/// Three million digits are no number: they are not pasted, and what is saved opens again.
#[test]
fn an_endless_paste_is_refused_and_the_saved_job_opens() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_at(folder.path(), "after.lf");
    let before = harness.state().job().after.lf.text.clone();
    for paste in [Event::Paste("9".repeat(3_000_000)), typed(&"9".repeat(3_000_000)), Event::Paste("9".repeat(65))] {
        in_one_frame(&mut harness, vec![paste, key(Key::S)]);
        assert_eq!(harness.state().job().after.lf.text, before);
        assert_eq!(file::read(&path).expect("opens again").after.lf.text, before);
    }
    harness.state_mut().job_mut().notes = "said once more".into();
    settle(&mut harness);
    in_one_frame(&mut harness, vec![Event::Paste("9".repeat(65))]);
    let (level, text) = notice(&harness);
    assert_eq!(level, Level::Error);
    assert_eq!(text, "Nothing was pasted: the text has 65 characters, and at most 64 fit here.");
    // What a number can be is pasted.
    in_one_frame(&mut harness, vec![Event::Paste("1,155.5 lb".into())]);
    assert_eq!(harness.state().job().after.lf.text, "1,155.5 lb");
    // Typing ends where pasting does.
    for _ in 0..80 {
        in_one_frame(&mut harness, vec![typed("9")]);
    }
    assert!(harness.state().job().after.lf.text.chars().count() <= 64 + " kg".len());
}

#[test]
fn notes_and_names_end_somewhere_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_on(folder.path(), "opened");
    run(&mut harness, Command::Step(Step::Sheet));
    for (label, most) in [("Customer name", 300), ("Other notes", 20_000)] {
        harness.get_by_label(label).focus();
        settle(&mut harness);
        in_one_frame(&mut harness, vec![Event::Paste("n".repeat(3_000_000))]);
        assert!(notice(&harness).1.ends_with(&format!("and at most {most} fit here.")), "{:?}", notice(&harness));
        in_one_frame(&mut harness, vec![Event::Paste("n".repeat(most - 10))]);
    }
    assert_eq!(harness.state().job().customer.name.matches('n').count() / 100, 2);
    run(&mut harness, Command::Save);
    assert_eq!(file::read(&path).expect("opens again"), *harness.state().job());
}

/// A window on a job whose file somebody wrote comments into.
fn window_on_comments(folder: &Path) -> (Harness<'static, App>, PathBuf, String) {
    let path = folder.join("van.ron");
    let text = format!("// Weighed with a full tank.\n{}", file::text(&noted("opened")).expect("writes"));
    file::write_text(&path, &text).expect("writes");
    let mut app = App::on(Job::default());
    app.keep_in(Some(&folder.join("kept")));
    let mut harness = driven::window(app, 800.0);
    run(&mut harness, Command::OpenFile(path.clone()));
    harness.state_mut().job_mut().notes = "mine".into();
    settle(&mut harness);
    (harness, path, text)
}

#[test]
fn comments_are_asked_about_before_a_save_loses_them_and_their_file_is_kept() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path, text) = window_on_comments(folder.path());
    let now = || std::fs::read_to_string(&path).expect("there");
    run(&mut harness, Command::Save);
    assert_eq!((now(), &harness.state().view().question), (text.clone(), &Some(Question::Comments(path.clone()))));
    harness.get_by_label("Not now").click();
    settle(&mut harness);
    assert_eq!(now(), text);
    run(&mut harness, Command::Save);
    harness.get_by_label("Keep original and save").click();
    settle(&mut harness);
    assert_eq!(notes_of(&path), "mine");
    let original = named(&notice(&harness).1);
    assert_eq!(original, folder.path().join("van.ron.original"));
    // Saves that follow are not asked about, and leave it alone.
    for notes in ["more", "still more"] {
        harness.state_mut().job_mut().notes = notes.into();
        settle(&mut harness);
        run(&mut harness, Command::Save);
        assert_eq!(notes_of(&path), notes);
    }
    assert_eq!(std::fs::read_to_string(&original).expect("kept"), text);
    // A second such file of the same name gets a name of its own.
    file::write_text(&path, &text).expect("writes");
    run(&mut harness, Command::OpenFile(path.clone()));
    run(&mut harness, Command::File(FileCommand::SaveWithoutComments(path.clone())));
    assert_eq!(named(&notice(&harness).1), folder.path().join("van.ron.original2"));
}

#[test]
fn a_job_with_comments_saved_elsewhere_is_not_asked_about() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path, text) = window_on_comments(folder.path());
    let other = folder.path().join("other.ron");
    run(&mut harness, Command::SaveTo(other.clone()));
    assert_eq!(notes_of(&other), "mine");
    assert_eq!(std::fs::read_to_string(&path).expect("there"), text);
}

/// Nobody reads the pipe: waiting for that would stop the window for ever.
#[cfg(unix)]
#[test]
fn saving_and_writing_to_a_pipe_is_refused_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut harness, path) = window_on(folder.path(), "opened");
    let pipe = folder.path().join("pipe.ron");
    assert!(std::process::Command::new("mkfifo").arg(&pipe).status().expect("mkfifo runs").success());
    let began = std::time::Instant::now();
    type_path(&mut harness, Purpose::SaveJob, "The file dialog could not be opened. Path for saving the job:", &pipe);
    harness.get_by_label("Replace file").click();
    settle(&mut harness);
    assert!(notice(&harness).1.contains("this is a device or a pipe, not a file"), "{:?}", notice(&harness));
    run(&mut harness, Command::Sheet(springwright::gui::state::command::SheetCommand::Write(pipe.clone())));
    assert!(notice(&harness).1.contains("is a device or a pipe, not a file"), "{:?}", notice(&harness));
    let units = harness.state().job().units;
    let picture = load_travel(&harness.state().answer().axles.front, &units).expect("a picture");
    run(&mut harness, Command::Plot(PlotTo::SaveData(Box::new(Export::of(&picture, &units)))));
    run(&mut harness, Command::Plot(PlotTo::Write(pipe.clone())));
    assert!(notice(&harness).1.contains("is a device or a pipe, not a file"), "{:?}", notice(&harness));
    run(&mut harness, Command::OpenFile(pipe.clone()));
    assert!(notice(&harness).1.starts_with("Not opened: "), "{:?}", notice(&harness));
    // The job's own file turns into one while it is open.
    std::fs::remove_file(&path).expect("removes");
    std::fs::rename(&pipe, &path).expect("renames");
    harness.state_mut().job_mut().notes = "mine".into();
    settle(&mut harness);
    run(&mut harness, Command::Save);
    run(&mut harness, Command::File(FileCommand::SaveOver(path.clone())));
    assert_eq!(notice(&harness).0, Level::Error);
    assert!(began.elapsed() < std::time::Duration::from_secs(60));
}

#[test]
fn the_window_starts_on_a_shipped_job_by_its_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let (harness, said) = said_at_start(&folder.path().join("kept"), Some(Path::new("lighter-engine")));
    assert_eq!(said, "");
    assert_eq!(harness.state().job(), &presets::find("lighter-engine").expect("it ships").job());
}

/// In a language without texts no sheet is printed, but the engineer's.
#[test]
fn a_sheet_in_an_unknown_language_is_not_written() {
    use springwright::gui::state::command::SheetCommand;
    use springwright::report::sheets::Kind;
    let folder = tempfile::tempdir().expect("a folder");
    let mut job = noted("mine");
    job.shop.language = "xx".into();
    let mut harness = driven::window(App::on(job), 800.0);
    let path = folder.path().join("sheet.txt");
    run(&mut harness, Command::Sheet(SheetCommand::Kind(Kind::Customer)));
    run(&mut harness, Command::Sheet(SheetCommand::Write(path.clone())));
    let (level, text) = notice(&harness);
    assert!(level == Level::Error && text.contains("there are no sheet texts in the language \"xx\""), "{text}");
    assert!(!path.exists());
    run(&mut harness, Command::Sheet(SheetCommand::Kind(Kind::Full)));
    run(&mut harness, Command::Sheet(SheetCommand::Write(path.clone())));
    assert!(path.exists());
}

/// `--size` counts, whatever the settings remember of the window: from the command line to what the system is asked for
/// last. `.ci/deb` looks at the real window, where there is a display.
#[test]
fn the_size_that_is_asked_for_comes_last() {
    use clap::Parser as _;
    let asked = |args: &[&str]| {
        let args = springwright::cli::window::WindowArgs::try_parse_from(args).expect("is understood");
        springwright::gui::native(&springwright::gui::Options { size: args.size, ..Default::default() })
    };
    let remembered = egui::ViewportBuilder::default()
        .with_inner_size([2000.0, 1500.0])
        .with_position([300.0, 200.0])
        .with_maximized(true)
        .with_fullscreen(true);
    let native = asked(&["springwright", "--size", "900x700"]);
    assert_eq!(native.viewport.inner_size, Some(egui::vec2(900.0, 700.0)));
    assert!(!native.persist_window, "a size that was asked for once is not remembered");
    let window = native.window_builder.expect("what is asked last")(remembered);
    assert_eq!(window.inner_size, Some(egui::vec2(900.0, 700.0)));
    assert_eq!(
        (window.position, window.maximized, window.fullscreen),
        (Some(egui::Pos2::ZERO), Some(false), Some(false))
    );
    let native = asked(&["springwright"]);
    assert!(native.persist_window && native.window_builder.is_none(), "otherwise what is remembered counts");
    assert_eq!(native.viewport.inner_size, Some(egui::vec2(1280.0, 800.0)));
}
