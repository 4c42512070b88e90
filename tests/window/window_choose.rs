//! Choosing from the parts list in the window, driven without a display.
#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

use crate::common::driven;

use std::path::Path;
use std::time::{Duration, Instant};

use driven::{press, run, settle, type_and_enter, type_text, until};
use eframe::egui::{self, Key, Modifiers, accesskit::Role};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use springwright::base::progress::Watch;
use springwright::base::units::entry::AnyEntry as _;
use springwright::base::units::{DecimalMark, Origin, Quantity as _, Spread, UnitChoice};
use springwright::choose;
use springwright::choose::draws::Draws;
use springwright::gui::background::choosing::{Counts, Listed, Progress, Sort};
use springwright::gui::state::command::{Command, ListCommand};
use springwright::gui::{App, Step};
use springwright::job::{Job, Plan, Side, file};
use springwright::report::results;
use springwright::report::sections::choose as words;
use springwright::shop::lists::Shop;
use springwright::shop::presets;
use springwright::solve::solve;

/// Few draws: tests are not about the third figure.
const DRAWS: Draws = Draws { count: 1_000, seed: 1 };

/// A window of that height at the step Choose, its lists in `folder`.
fn window_of(job: Job, folder: &Path, draws: Draws, height: f32) -> Harness<'static, App> {
    let app = App::on(job).choosing_from(Shop::at(folder.to_owned()), draws);
    let mut harness = driven::window(app, height);
    run(&mut harness, Command::Step(Step::Choose));
    harness
}

/// Tall enough that the whole step is on screen.
fn window(job: Job, folder: &Path) -> Harness<'static, App> {
    window_of(job, folder, DRAWS, 4400.0)
}

fn until_chosen(harness: &mut Harness<'_, App>) {
    until(harness, "a choice", |app| app.choosing().progress() == Progress::Current);
}

/// What the file holds by the columns that are being said.
fn tried(app: &App) -> Option<Result<Counts, String>> {
    let tried = app.view().mapping.as_ref().and_then(|m| app.choosing().tried(m))?;
    Some(match tried {
        Ok(counts) => Ok(counts.clone()),
        Err(trouble) => Err(trouble.to_string()),
    })
}

fn click(harness: &mut Harness<'_, App>, label: &str) {
    harness.get_by_label(label).click();
    settle(harness);
}

fn has(harness: &Harness<'_, App>, label: &str) -> bool {
    harness.query_all_by_label(label).next().is_some()
}

/// The number of the spring to take in front.
fn pick(app: &App) -> Option<String> {
    let found = app.choosing().found()?;
    let choice = found.axle(Side::Front)?.choice.as_ref().ok()?;
    Some(found.list.springs()[choice.picked()?.row].number.clone())
}

/// A list of so many springs around what the demo needs, every tenth of them "painted".
fn long_list(count: usize) -> String {
    let mut text = String::from("number;description;spring rate (N/mm);free length (mm);price;pieces in stock\n");
    for i in 0..count {
        let what = if i % 10 == 0 { "front coil painted" } else { "front coil" };
        let (rate, length) = (45.0 + (i * 7919 % 1009) as f64 * 0.03, 330 + i * 104_729 % 61);
        text += &format!("L-{i:06};{what};{rate:.2};{length};{};{}\n", 30 + i % 17, i % 5);
    }
    text
}

fn with_list(name: &str) -> Job {
    Job { list: name.into(), ..presets::demo() }
}

#[test]
fn the_spring_to_take_is_shown_when_it_is_worked_out() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(presets::demo(), folder.path());
    until_chosen(&mut harness);
    let app = harness.state();
    let Listed::Open(list) = app.choosing().list() else { panic!("no list") };
    let answer = solve(app.job());
    let own = choose::choose(app.job(), &answer, Side::Front, list.springs(), DRAWS, &Watch::default());
    let own = own.expect("can be chosen").expect("not cancelled");
    let sentence = words::answer(&own, list.springs(), &app.job().units);
    let is_said = has(&harness, &sentence.springs) && has(&harness, &sentence.why);
    assert!(is_said && !sentence.why.is_empty(), "the answer is on screen: {sentence}");
    assert!(has(&harness, "65 springs, 14 dampers, 0 unusable rows"));
    for drafted in &own.drafted {
        let spring = &list.springs()[drafted.row];
        assert!(has(&harness, &format!("Use {}", spring.number)), "{}", spring.number);
        assert!(has(&harness, &words::chance(drafted.chance)));
    }
    let first = own.redo.first().expect("something is worth measuring");
    assert!(has(&harness, &results::what_again(first)));
    assert!(has(&harness, &words::redo_title(&own)));
}

#[test]
fn an_axle_that_keeps_its_springs_is_said_and_costs_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(presets::demo(), folder.path());
    until_chosen(&mut harness);
    run(&mut harness, Command::Axle(Side::Rear));
    assert!(has(
        &harness,
        "The rear axle keeps its springs, so no spring is chosen for it. The Springs step shows which axle gets new springs."
    ));
    let mut job = presets::demo();
    job.front.plan = Plan::Keep;
    let mut harness = window(job, folder.path());
    until(&mut harness, "the list", |app| matches!(app.choosing().list(), Listed::Open(_)));
    assert_eq!(harness.state().choosing().progress(), Progress::Nothing);
    assert_eq!(harness.state().choosing().worked().1, 1, "the list was read, nothing else");
}

#[test]
fn take_fills_the_fields_and_one_undo_takes_all_back() {
    let folder = tempfile::tempdir().expect("a folder");
    for (units, mark) in [
        (UnitChoice::metric(), DecimalMark::Point),
        (UnitChoice::pound_inch(), DecimalMark::Point),
        (UnitChoice::metric(), DecimalMark::Comma),
    ] {
        let mut job = presets::demo();
        (job.units, job.decimal) = (units, mark);
        // Texts of the demo are in points.
        let mut harness = window(job.clone(), folder.path());
        until_chosen(&mut harness);
        let number = pick(harness.state()).expect("one fits");
        click(&mut harness, &format!("Use {number}"));
        let app = harness.state();
        let Listed::Open(list) = app.choosing().list() else { panic!("no list") };
        let spring = list.springs().iter().find(|s| s.number == number).expect("it is of the list");
        let taken = &app.job().front.taken;
        assert_eq!((&taken.number, &taken.what), (&spring.number, &spring.what));
        let near = |read: f64, stated: f64| (read - stated).abs() <= 1e-5 * stated.abs();
        let rate = taken.rate.read(mark).expect("reads").expect("filled").si();
        assert!(near(rate, spring.rate.si()), "{} against {:?}", taken.rate.text, spring.rate);
        let length = taken.free_length.read(mark).expect("reads").expect("filled").si();
        assert!(near(length, spring.free_length.expect("stated").si()), "{}", taken.free_length.text);
        let price = taken.price.read(mark).expect("reads").expect("filled").si();
        assert!(near(price, spring.price.expect("stated")), "{}", taken.price.text);
        assert!(taken.spacer.read(mark).expect("reads").is_some(), "{}", taken.spacer.text);
        assert_eq!(taken.rate.origin(), Some(Origin::Quoted));
        let tolerance = spring.rate_tolerance.expect("stated").si();
        assert_eq!(taken.rate.pm().1, Spread::Limits);
        let u = taken.rate.standard_uncertainty_si(mark).expect("reads").expect("stated");
        assert!(near(u, tolerance * spring.rate.si() / 3.0_f64.sqrt()), "{:?}", taken.rate.pm());
        let sized = app.answer().released(Side::Front).expect("released").spring.expect("sized").pick.value;
        assert!(near(sized, spring.rate.si()), "everything is sized on it: {sized}");

        harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        settle(&mut harness);
        assert_eq!(*harness.state().job(), job, "one step back is all");
    }
}

#[test]
fn take_none_clears_what_was_taken() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(presets::demo(), folder.path());
    until_chosen(&mut harness);
    let number = pick(harness.state()).expect("one fits");
    click(&mut harness, &format!("Use {number}"));
    click(&mut harness, "Clear selection");
    assert_eq!(*harness.state().job(), presets::demo());
    run(&mut harness, Command::Undo);
    assert_eq!(harness.state().job().front.taken.number, number);
}

/// Many draws, so that it surely still runs when it is looked at.
fn slow() -> Draws {
    Draws { count: 50_000_000, seed: 1 }
}

#[test]
fn what_runs_shows_how_far_it_is_and_can_be_stopped_and_started() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window_of(presets::demo(), folder.path(), slow(), 1200.0);
    until(&mut harness, "it runs", |app| matches!(app.choosing().progress(), Progress::Running(_)));
    let bar = harness.get_by_role(Role::ProgressIndicator);
    assert!(bar.accesskit_node().numeric_value().is_some(), "the bar says how far");
    // Other work that ends in the meantime may be shown at once.
    let mut delays: Vec<Duration> = (0..9)
        .map(|_| {
            harness.step();
            harness.output().viewport_output[&egui::ViewportId::ROOT].repaint_delay
        })
        .collect();
    delays.sort();
    assert!(delays[4] >= Duration::from_millis(90), "drawn anew ten times a second, not more: {delays:?}");
    click(&mut harness, "Stop");
    until(&mut harness, "it stops", |app| app.choosing().progress() == Progress::Stopped);
    assert!(has(&harness, "Stopped."));
    // It stays so: nothing starts by itself.
    let started = harness.state().choosing().worked().1;
    for _ in 0..20 {
        settle(&mut harness);
    }
    assert_eq!(harness.state().choosing().worked().1, started);
    click(&mut harness, "Calculate");
    until(&mut harness, "it runs again", |app| matches!(app.choosing().progress(), Progress::Running(_)));
    // A change starts it anew, too.
    click(&mut harness, "Stop");
    type_and_enter(&mut harness, "front.target.high", &["1.4"]);
    run(&mut harness, Command::Step(Step::Choose));
    until(&mut harness, "it runs anew", |app| matches!(app.choosing().progress(), Progress::Running(_)));
}

#[test]
fn what_an_older_job_gave_is_never_shown_as_new() {
    let folder = tempfile::tempdir().expect("a folder");
    // Enough of them that frames are drawn in the meantime.
    let draws = Draws { count: 100_000, seed: 1 };
    let mut harness = window_of(presets::demo(), folder.path(), draws, 3400.0);
    until_chosen(&mut harness);
    let before = harness.state().choosing().found().map(|f| format!("{:?}", f.axle(Side::Front)));
    // Softer: another spring is to be taken.
    type_and_enter(&mut harness, "front.target.low", &["1.0", "1.1"]);
    run(&mut harness, Command::Step(Step::Choose));
    let mut seen_old = false;
    let start = Instant::now();
    while harness.state().choosing().progress() != Progress::Current {
        let app = harness.state();
        assert!(!app.choosing().is_current());
        // The old one stands, or the one between the two values that were typed: neither is of this job.
        assert!(app.choosing().found().is_some(), "until the new one is there an older one stands");
        seen_old |= has(&harness, "Result from before your last change:");
        let number = pick(harness.state()).expect("the old one");
        assert!(harness.get_by_label(&format!("Use {number}")).accesskit_node().is_disabled(), "not to be taken");
        assert!(start.elapsed() < Duration::from_secs(60));
        harness.step();
    }
    settle(&mut harness);
    assert!(seen_old, "it was marked");
    assert!(!has(&harness, "Result from before your last change:"));
    let after = harness.state().choosing().found().map(|f| format!("{:?}", f.axle(Side::Front)));
    assert_ne!(after, before);

    // Back by undo: what is shown is worked out for that job.
    run(&mut harness, Command::OpenPreset(0));
    assert!(harness.state().choosing().found().is_none(), "another job: nothing is known of it");
    until_chosen(&mut harness);
    let again = harness.state().choosing().found().map(|f| format!("{:?}", f.axle(Side::Front)));
    assert_eq!(again, before);
}

#[test]
fn names_and_notes_start_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(presets::demo(), folder.path());
    until_chosen(&mut harness);
    let worked = harness.state().choosing().worked();
    harness.state_mut().job_mut().customer.name = "somebody else".into();
    harness.state_mut().job_mut().notes.push_str(" And more.");
    for _ in 0..10 {
        settle(&mut harness);
    }
    assert_eq!(harness.state().choosing().progress(), Progress::Current);
    assert_eq!(harness.state().choosing().worked(), worked);
}

#[test]
fn an_idle_window_neither_repaints_nor_works_after_the_result() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(presets::demo(), folder.path());
    until_chosen(&mut harness);
    for second in 1..8 {
        harness.input_mut().time = Some(1000.0 + f64::from(second) * 2.0);
        settle(&mut harness);
    }
    let (worked, solves) = (harness.state().choosing().worked(), harness.state().solves());
    for second in 0..20 {
        harness.input_mut().time = Some(1020.0 + f64::from(second));
        harness.step();
        let delay = harness.output().viewport_output[&egui::ViewportId::ROOT].repaint_delay;
        assert!(delay > Duration::from_secs(3600), "asks to be drawn again in {delay:?}");
    }
    assert_eq!(harness.state().choosing().worked(), worked);
    assert_eq!(harness.state().solves(), solves);
}

#[test]
fn elsewhere_no_list_is_opened() {
    let folder = tempfile::tempdir().expect("a folder");
    let app = App::on(presets::demo()).choosing_from(Shop::at(folder.path().to_owned()), DRAWS);
    let mut harness = driven::window(app, 800.0);
    for step in Step::ALL.into_iter().filter(|s| *s != Step::Choose) {
        run(&mut harness, Command::Step(step));
    }
    assert_eq!(harness.state().choosing().worked(), (0, 0));
}

#[test]
fn a_job_without_a_list_says_what_one_is_and_offers_the_demo() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(with_list(""), folder.path());
    assert!(has(&harness, "No parts list selected"));
    click(&mut harness, "Try the demo list");
    assert_eq!(harness.state().job().list, "demo");
    until_chosen(&mut harness);
    run(&mut harness, Command::Undo);
    assert_eq!(harness.state().job().list, "");
}

#[test]
fn a_list_that_is_not_there_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(with_list("vanished.csv"), folder.path());
    until(&mut harness, "a reason", |app| matches!(app.choosing().list(), Listed::Failed(_)));
    let Listed::Failed(why) = harness.state().choosing().list() else { panic!("it is not there") };
    let why = why.to_string();
    assert!(why.contains("vanished.csv") && why.contains("demo"), "{why}");
    assert!(has(&harness, &why));
    // It comes to be there.
    file::write_text(&folder.path().join("vanished.csv"), &long_list(50)).expect("writes");
    click(&mut harness, "Read again");
    until_chosen(&mut harness);
}

#[test]
fn bad_rows_are_shown_with_line_and_reason() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "number,spring rate (N/mm),free length (mm)\nA-1,52,350\nA-2,fifty,350\nA-3,55\n";
    file::write_text(&folder.path().join("some.csv"), text).expect("writes");
    let mut harness = window(with_list("some.csv"), folder.path());
    until_chosen(&mut harness);
    assert!(has(&harness, "1 spring, 0 dampers, 2 unusable rows"));
    click(&mut harness, "How the list was read");
    settle(&mut harness);
    let Listed::Open(list) = harness.state().choosing().list() else { panic!("no list") };
    let bad = list.opened.list.bad.clone();
    assert_eq!(bad.iter().map(|b| b.line).collect::<Vec<_>>(), [3, 4]);
    for row in bad {
        assert!(has(&harness, &format!("line {}: {}", row.line, row.reason)), "{}", row.reason);
        assert!(has(&harness, &row.text));
    }
}

/// Opens a choice by its name and picks a word in it, all by keyboard.
fn choose_by_keys(harness: &mut Harness<'_, App>, combo: &str, word: &str) {
    harness.get_by_role_and_label(Role::ComboBox, combo).focus();
    settle(harness);
    press(harness, Key::Space);
    for _ in 0..40 {
        let is_there = harness.get_all_by_label(word).any(|n| n.accesskit_node().is_focused());
        if is_there {
            press(harness, Key::Space);
            settle(harness);
            return;
        }
        press(harness, Key::Tab);
    }
    panic!("Tab never reached \"{word}\"");
}

#[test]
fn columns_are_said_by_keyboard_counted_and_remembered() {
    let folder = tempfile::tempdir().expect("a folder");
    let elsewhere = tempfile::tempdir().expect("another folder");
    let path = elsewhere.path().join("odd.csv");
    // Nothing in these headers says what they mean.
    file::write_text(&path, "code;stiff;tall\nK-1;52;350\nK-2;54;352\nK-3;x;352\n").expect("writes");
    let mut harness = window(with_list(""), folder.path());
    run(&mut harness, Command::List(ListCommand::Look(path.clone())));
    until(&mut harness, "its columns", |app| app.view().mapping.is_some());
    until(&mut harness, "a count", |app| tried(app).is_some());
    assert!(matches!(tried(harness.state()), Some(Err(_))), "it cannot be read yet");
    assert!(harness.get_by_label("Use these columns").accesskit_node().is_disabled());
    choose_by_keys(&mut harness, "Meaning of stiff: not used", "spring rate");
    choose_by_keys(&mut harness, "Unit of stiff: as given", "N/mm");
    choose_by_keys(&mut harness, "Meaning of tall: not used", "free length");
    choose_by_keys(&mut harness, "Unit of tall: as given", "mm");
    until(&mut harness, "a count", |app| matches!(tried(app), Some(Ok(_))));
    assert!(has(&harness, "With these columns: 2 springs, 0 dampers, 1 unusable row"));
    harness.get_by_label("Use these columns").focus();
    settle(&mut harness);
    press(&mut harness, Key::Space);
    until(&mut harness, "the list", |app| matches!(app.choosing().list(), Listed::Open(_)));
    assert_eq!(harness.state().job().list, "odd.csv");
    assert!(harness.state().view().mapping.is_none());
    until_chosen(&mut harness);
    // Another window, another day.
    let harness2 = &mut window(with_list("odd.csv"), folder.path());
    until(harness2, "the list", |app| matches!(app.choosing().list(), Listed::Open(_)));
    let Listed::Open(list) = harness2.state().choosing().list() else { panic!("no list") };
    assert!(list.opened.said, "what its columns mean is remembered");
    assert_eq!(list.springs().len(), 2);
    run(&mut harness, Command::Undo);
    assert_eq!(harness.state().job().list, "", "naming the list is a step that can be undone");
}

/// Two files with the same headers, and one of them corrected meanwhile: each is counted as it stands now.
#[test]
fn what_one_file_holds_is_not_said_of_another() {
    let folder = tempfile::tempdir().expect("a folder");
    let file_of = |name: &str, rows: &str| {
        let path = folder.path().join(name);
        file::write_text(&path, &format!("number;rate (N/mm)\n{rows}")).expect("writes");
        path
    };
    let (first, second) = (file_of("a.csv", "A;50\nB;60\nC;x\n"), file_of("b.csv", "D;70\n"));
    let lists = tempfile::tempdir().expect("another folder");
    let mut harness = window(with_list(""), lists.path());
    let mut counted = |path: &Path| {
        run(&mut harness, Command::List(ListCommand::Look(path.to_owned())));
        until(&mut harness, "its count", |app| {
            app.view().mapping.as_ref().is_some_and(|m| m.path == path) && tried(app).is_some()
        });
        let counts = tried(harness.state()).expect("counted").expect("it can be read");
        (counts.springs, counts.bad.len())
    };
    assert_eq!(counted(&first), (2, 1));
    assert_eq!(counted(&second), (1, 0));
    file_of("b.csv", "D;70\nE;x\nF;80\n");
    assert_eq!(counted(&second), (2, 1));
}

/// A choice that ends just when another job is opened is of the job before.
#[test]
fn a_choice_for_the_job_before_does_not_come_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window_of(presets::demo(), folder.path(), Draws { count: 1, seed: 1 }, 1200.0);
    let start = Instant::now();
    while !matches!(harness.state().choosing().progress(), Progress::Running(_)) {
        assert!(start.elapsed() < Duration::from_secs(60), "it never ran");
        harness.step();
    }
    // It ends while nobody looks.
    std::thread::sleep(Duration::from_secs(1));
    let mut other = presets::demo();
    other.list.clear();
    other.vehicle.name = "another".into();
    let path = folder.path().join("another.ron");
    file::write(&path, &other).expect("saves");
    run(&mut harness, Command::OpenFile(path));
    assert_eq!(harness.state().job().vehicle.name, "another");
    assert!(harness.state().choosing().found().is_none(), "nothing was chosen for this one");
}

#[test]
fn another_delimiter_guesses_the_columns_anew() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("tabs.txt");
    file::write_text(&path, "number;rate (N/mm)\nA;50\nB;60\n").expect("writes");
    let mut harness = window(with_list("tabs.txt"), folder.path());
    until(&mut harness, "the list", |app| matches!(app.choosing().list(), Listed::Open(_)));
    click(&mut harness, "How the list was read");
    settle(&mut harness);
    choose_by_keys(&mut harness, "Columns separated by: semicolons", "commas");
    until(&mut harness, "one column", |app| app.view().mapping.as_ref().is_some_and(|m| m.columns.columns.len() == 1));
    click(&mut harness, "Keep previous columns");
    assert!(harness.state().view().mapping.is_none());
}

#[test]
fn the_whole_list_is_searched_and_sorted() {
    let folder = tempfile::tempdir().expect("a folder");
    file::write_text(&folder.path().join("long.csv"), &long_list(3_000)).expect("writes");
    let mut harness = window(with_list("long.csv"), folder.path());
    until_chosen(&mut harness);
    click(&mut harness, "The whole list: 3000 springs");
    settle(&mut harness);
    let springs = |app: &App| {
        let Listed::Open(list) = app.choosing().list() else { panic!("no list") };
        app.choosing().rows().iter().map(|r| list.springs()[*r].clone()).collect::<Vec<_>>()
    };
    let all = springs(harness.state());
    assert_eq!(all.len(), 3_000);
    assert_eq!(Some(&all[0].number), best(harness.state()).as_ref(), "what suits best comes first");

    harness.get_by_role_and_label(Role::TextInput, "Find").focus();
    settle(&mut harness);
    type_text(&mut harness, "PAINTED l-0012");
    let found = springs(harness.state());
    assert_eq!(found.len(), 10, "L-001200, L-001210 … L-001290");
    assert!(found.iter().all(|s| s.number.starts_with("L-0012") && s.what.ends_with("painted")));
    assert!(has(&harness, "10 of 3000 springs"));

    click(&mut harness, "only springs that fit");
    let fitting = springs(harness.state());
    assert!(fitting.len() < 10);
    harness.get_by_role_and_label(Role::TextInput, "Find").focus();
    settle(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    press(&mut harness, Key::Backspace);
    let fitting = springs(harness.state());
    let count = ranking(harness.state(), |r| r.fitting);
    assert_eq!(fitting.len(), count);
    assert!(fitting.iter().all(|s| ranking(harness.state(), |r| r.judge(s).holds())));

    for (sort, rising) in [
        (Sort::Rate, (|s| s.rate.si()) as fn(&springwright::shop::parts::Spring) -> f64),
        (Sort::FreeLength, |s| s.free_length.map_or(f64::INFINITY, |l| l.si())),
        (Sort::Price, |s| s.price.unwrap_or(f64::INFINITY)),
    ] {
        harness.get_by_role_and_label(Role::RadioButton, sort.words().said()).click();
        settle(&mut harness);
        let sorted = springs(harness.state());
        assert_eq!(sorted.len(), count);
        assert!(sorted.is_sorted_by_key(rising), "{sort:?}");
    }
    let filtered = harness.state().choosing().worked().0;
    for _ in 0..10 {
        settle(&mut harness);
    }
    assert_eq!(harness.state().choosing().worked().0, filtered, "not in every frame");
}

fn ranking<T>(app: &App, ask: impl Fn(&choose::Ranking) -> T) -> T {
    let found = app.choosing().found().expect("a choice");
    ask(&found.axle(Side::Front).and_then(|a| a.choice.as_ref().ok()).expect("for the front").ranking)
}

fn best(app: &App) -> Option<String> {
    let row = ranking(app, |r| r.ranked.first().map(|r| r.row))?;
    Some(app.choosing().found()?.list.springs()[row].number.clone())
}

#[test]
fn of_100_000_rows_only_those_on_screen_are_laid_out_and_tab_scrolls() {
    let folder = tempfile::tempdir().expect("a folder");
    file::write_text(&folder.path().join("long.csv"), &long_list(100_000)).expect("writes");
    let start = Instant::now();
    let mut harness = window(with_list("long.csv"), folder.path());
    until(&mut harness, "the list", |app| matches!(app.choosing().list(), Listed::Open(_)));
    let opened = start.elapsed();
    if !cfg!(debug_assertions) {
        assert!(opened < Duration::from_secs(1), "{opened:?}");
    }
    until_chosen(&mut harness);
    click(&mut harness, "The whole list: 100000 springs");
    settle(&mut harness);
    let laid_out = harness.state().view().rows_laid_out.len();
    assert!((5..=20).contains(&laid_out), "{laid_out}");
    // Tab walks from row to row and the list follows.
    let numbers: Vec<String> = {
        let Listed::Open(list) = harness.state().choosing().list() else { panic!("no list") };
        harness.state().choosing().rows()[..40].iter().map(|r| list.springs()[*r].number.clone()).collect()
    };
    let button = |number: &str| format!("Use {number} from the whole list");
    harness.get_by_label(&button(&numbers[0])).focus();
    settle(&mut harness);
    for (i, number) in numbers.iter().enumerate().skip(1) {
        press(&mut harness, Key::Tab);
        let label = button(number);
        let node = harness.query_by_label(&label);
        assert!(node.is_some_and(|n| n.accesskit_node().is_focused()), "row {i} has the focus");
        assert!(harness.state().view().rows_laid_out.len() <= 20);
    }
    harness.key_press_modifiers(Modifiers::SHIFT, Key::Tab);
    settle(&mut harness);
    let label = button(&numbers[38]);
    let node = harness.get_by_label(&label);
    assert!(node.accesskit_node().is_focused(), "and back");
    press(&mut harness, Key::Space);
    assert_eq!(harness.state().job().front.taken.number, numbers[38], "taken by keyboard");
}

/// Inside a page that scrolls the list does not shrink to a line or two.
#[test]
fn in_a_low_window_the_list_shows_ten_rows() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window_of(presets::demo(), folder.path(), DRAWS, 800.0);
    until_chosen(&mut harness);
    run(&mut harness, Command::List(ListCommand::Whole(true)));
    assert!(harness.state().view().rows_laid_out.len() >= 10, "{:?}", harness.state().view().rows_laid_out);
}

#[test]
fn the_step_is_reached_and_a_spring_taken_by_keyboard() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(presets::demo(), folder.path());
    run(&mut harness, Command::Step(Step::Weigh));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num4);
    settle(&mut harness);
    assert_eq!(harness.state().view().step, Step::Choose);
    until_chosen(&mut harness);
    let number = pick(harness.state()).expect("one fits");
    let label = format!("Use {number}");
    for tabs in 0.. {
        assert!(tabs < 120, "Tab never reached the button");
        press(&mut harness, Key::Tab);
        if harness.get_by_label(&label).accesskit_node().is_focused() {
            break;
        }
    }
    press(&mut harness, Key::Space);
    assert_eq!(harness.state().job().front.taken.number, number);
}

#[test]
fn fields_of_the_step_are_reached_by_their_path() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(presets::demo(), folder.path());
    for path in [
        "front.choice.laden",
        "rear.choice.seat_down",
        "front.taken.rate",
        "prices.work",
        "limits.rate_tolerance",
        "limits.length_tolerance",
    ] {
        run(&mut harness, Command::Step(Step::Weigh));
        run(&mut harness, Command::GoTo(path.into()));
        assert_eq!(harness.state().view().step, Step::Choose, "{path}");
        assert_eq!(harness.state().view().at.as_deref(), Some(path));
    }
}

#[test]
fn nothing_leaves_the_window_at_its_right_edge_in_either_language() {
    use springwright::base::language::Language;
    let folder = tempfile::tempdir().expect("a folder");
    for (language, width) in Language::ALL.into_iter().flat_map(|l| [(l, 1280.0), (l, 800.0)]) {
        let app = App::on(with_list("demo")).choosing_from(Shop::at(folder.path().to_owned()), DRAWS);
        let mut harness = driven::sized(app.speaking(language), [width, 5000.0]);
        run(&mut harness, Command::Step(Step::Choose));
        until_chosen(&mut harness);
        let edge = f64::from(width) - 4.0;
        let boxes = harness.root().children_recursive().filter_map(|n| {
            let node = n.accesskit_node();
            let right = node.bounding_box()?.x1;
            let is_text = matches!(node.role(), Role::Label | Role::Button);
            (is_text && right > edge).then(|| format!("{right}: {:?}", node.label().or_else(|| node.value())))
        });
        let over: Vec<String> = boxes.collect();
        assert!(over.is_empty(), "{language:?} at {width}: {over:#?}");
    }
}

/// A list without units: the likely ones are proposed together, confirmed by one press, and remembered.
#[test]
fn units_that_no_header_names_are_proposed_and_confirmed_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("bare.csv");
    file::write_text(&path, "number;rate;free length\na;48;350\nb;52;345\nc;56;340\n").expect("writes");
    let lists = folder.path().join("lists");
    let mut harness = window(with_list(""), &lists);
    run(&mut harness, Command::List(ListCommand::Look(path)));
    until(&mut harness, "its columns", |app| matches!(tried(app), Some(Err(_))));
    let asked =
        "These columns have no unit. Judging by the numbers, the units are most likely: rate N/mm, free length mm.";
    assert!(has(&harness, asked));
    assert!(has(&harness, "nothing can be read with these columns"), "why the button is grey");
    click(&mut harness, "Use these units");
    harness.input_mut().time = Some(10.0);
    until(&mut harness, "a count", |app| tried(app).is_some_and(|t| t.is_ok_and(|c| c.springs == 3)));
    assert!(!has(&harness, asked));
    click(&mut harness, "Use these columns");
    until(&mut harness, "the list", |app| matches!(app.choosing().list(), Listed::Open(_)));
    let Listed::Open(list) = harness.state().choosing().list() else { panic!("no list") };
    assert!(list.opened.said && (list.springs()[0].rate.si() - 48e3).abs() < 1.0);
}

/// A list beside a job is found again when the job is saved elsewhere, and every job is offered it.
#[test]
fn a_list_used_once_is_found_from_everywhere() {
    let folder = tempfile::tempdir().expect("a folder");
    let (here, there) = (folder.path().join("here"), folder.path().join("there"));
    for place in [&here, &there] {
        std::fs::create_dir(place).expect("a folder");
    }
    file::write_text(&here.join("own.csv"), &long_list(20)).expect("writes");
    file::write(&here.join("van.ron"), &with_list("own.csv")).expect("saves");
    let mut harness = window(presets::demo(), &folder.path().join("lists"));
    run(&mut harness, Command::OpenFile(here.join("van.ron")));
    run(&mut harness, Command::Step(Step::Choose));
    let is_open = |app: &App| matches!(app.choosing().list(), Listed::Open(list) if list.springs().len() == 20);
    until(&mut harness, "the list", is_open);
    run(&mut harness, Command::SaveTo(there.join("van.ron")));
    settle(&mut harness);
    until(&mut harness, "the list again", is_open);
    assert!(harness.state().choosing().names().contains(&"own.csv".to_owned()));
    // Two of the same name cannot be told apart: both are named.
    file::write_text(&there.join("own.csv"), &long_list(10)).expect("writes");
    run(&mut harness, Command::List(ListCommand::ReadAgain));
    until(
        &mut harness,
        "the nearer one",
        |app| matches!(app.choosing().list(), Listed::Open(l) if l.springs().len() == 10),
    );
    let shop = Shop::at(folder.path().join("lists"));
    let error = shop.open("own.csv", Some(&folder.path().join("van.ron"))).expect_err("two of them").to_string();
    assert!(error.starts_with("several parts lists are called \"own.csv\": "), "{error}");
}
