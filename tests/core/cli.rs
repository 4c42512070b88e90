//! The headless program as its users call it: output, exit codes, files.

#![allow(clippy::expect_used, reason = "here a failed expectation is the finding")]

use std::path::Path;
use std::process::{Command, Output};

use springwright::base::sources;
use springwright::report;
use springwright::shop::presets;
use springwright::solve;

fn cli(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_springwright-cli")).args(args).output().expect("the program runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("UTF-8")
}

fn code(output: &Output) -> i32 {
    output.status.code().expect("ended by itself")
}

#[test]
fn help_shows_examples_and_exit_codes() {
    let out = text(&cli(&["--help"]).stdout);
    for wanted in ["solve", "check", "sheet", "presets", "Examples:", "Exit code: 0 fine, 1"] {
        assert!(out.contains(wanted), "{wanted} is not in:\n{out}");
    }
}

#[test]
fn results_are_in_english_until_another_language_is_asked_for() {
    let said = |asked: &[&str], system: &str| {
        let mut program = Command::new(env!("CARGO_BIN_EXE_springwright-cli"));
        let out = program.arg("presets").args(asked).env("LANG", system).env("LC_ALL", system).output();
        text(&out.expect("the program runs").stdout)
    };
    let english = said(&[], "C");
    assert!(english.contains("Battery moved to the rear"), "{english}");
    assert_eq!(said(&[], "de_AT.UTF-8"), english);
    assert_eq!(said(&["--language", "en"], "de_AT.UTF-8"), english);
    assert!(!said(&["--language", "de"], "C").contains("Battery moved to the rear"));
    assert_eq!(code(&cli(&["--language", "xx", "presets"])), 2);
}

#[test]
fn exit_codes_tell_findings_usage_and_files_apart() {
    assert_eq!(code(&cli(&["check", "demo-orchard-van"])), 0);
    assert_eq!(code(&cli(&["check", "tests/bad/unit-wrong.ron"])), 1, "an error in the job");
    assert_eq!(code(&cli(&["solve", "tests/doubtful/over-rating.ron"])), 1, "over its rating");
    assert_eq!(code(&cli(&["nonsense"])), 2);
    assert_eq!(code(&cli(&["presets", "no-such-job"])), 2);
    let missing = cli(&["solve", "no/such/file.ron"]);
    assert_eq!(code(&missing), 3);
    let said = text(&missing.stderr);
    assert!(said.contains("could not be read") && said.trim_end().ends_with("file: no/such/file.ron"), "{said}");
    assert_eq!(code(&cli(&["solve", "tests/bad/cut-off.ron"])), 3);
}

#[test]
fn json_names_every_result_with_unit_and_convention() {
    let out = cli(&["solve", "demo-orchard-van", "--json"]);
    let json: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
    let results = json["results"].as_array().expect("a list");
    let mut names: Vec<&str> = results.iter().map(|r| r["key"].as_str().expect("a name")).collect();
    for wanted in [
        "after.cross_weight",
        "front.old_springs.height_change",
        "front.old_springs.height_change_at_ground",
        "front.sizing.spring_rate.aim",
        "front.sizing.pick",
        "front.sizing.free_length",
        "front.sizing.spacer.thickness",
        "front.new_springs.frequency",
        "front.new_springs.frequency_with_tyre",
        "front.room.to_bind",
        "front.damping.bump_force.0.13.aim",
        "front.new_springs.old_damper_ratio",
        "whole.rear_over_front.new_springs",
        "whole.flat_ride_speed.new_springs",
    ] {
        assert!(names.contains(&wanted), "{wanted}");
    }
    let count = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), count, "a name stands for two results");
    for result in results {
        for key in ["label", "unit", "convention", "formula", "source"] {
            assert!(result[key].as_str().is_some_and(|s| !s.is_empty()), "{key} of {}", result["key"]);
        }
        assert!(result["value"].is_null() || result["value"].as_f64().is_some_and(f64::is_finite));
    }
}

#[test]
fn every_figure_cites_a_source_that_exists() {
    for preset in presets::PRESETS {
        for figure in report::results::figures(&solve::solve(&preset.job())) {
            assert!(sources::find(figure.source).is_some(), "{}: {}", figure.key, figure.source);
        }
    }
}

#[test]
fn a_sheet_is_written_as_markdown_or_text_and_a_bad_place_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, start) in [("sheet.md", "# Springs and dampers"), ("sheet.txt", "Springs and dampers")] {
        let path = folder.path().join(name);
        let out = cli(&["sheet", "demo-orchard-van", "--out", path.to_str().expect("UTF-8")]);
        assert_eq!(code(&out), 0);
        let sheet = std::fs::read_to_string(&path).expect("written");
        assert!(sheet.starts_with(start), "{sheet}");
        assert!(sheet.contains("A compressed spring holds enough energy to kill"));
    }
    let out = cli(&["sheet", "demo-orchard-van", "--out", "no/such/folder/sheet.md"]);
    assert_eq!(code(&out), 3);
    assert!(text(&out.stderr).contains("file: no/such/folder/sheet.md"));
}

/// A mistyped name must not cost a job: neither by its ending nor because a job is in the file.
#[test]
fn a_sheet_never_takes_the_place_of_a_job() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["my.ron", "MY.RON", "my.ron~", "job-without-ending"] {
        let path = folder.path().join(name);
        let path = path.to_str().expect("UTF-8");
        let job = presets::PRESETS[0].text;
        springwright::job::file::write_text(Path::new(path), job).expect("written");
        let out = cli(&["sheet", path, "--out", path]);
        assert_eq!(code(&out), 3, "{name}");
        let said = text(&out.stderr);
        assert!(said.contains("this is a job file") && said.contains(".pdf, .png, .md or .txt"), "{said}");
        assert!(said.trim_end().ends_with(&format!("file: {path}")), "{said}");
        assert_eq!(std::fs::read_to_string(path).expect("still there"), job);
    }
    let new = folder.path().join("new.ron");
    assert_eq!(code(&cli(&["sheet", "demo-orchard-van", "--out", new.to_str().expect("UTF-8")])), 3);
    assert!(!new.exists());
}

/// A new file is as private as the user's other new files; one that is replaced stays as it was.
#[cfg(unix)]
#[test]
fn a_new_file_obeys_the_umask() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder");
    let written = |umask: &str, name: &str| {
        let path = folder.path().join(name);
        let done = Command::new("sh")
            .args(["-c", "umask $0; exec \"$@\"", umask, env!("CARGO_BIN_EXE_springwright-cli")])
            .args(["sheet", "demo-orchard-van", "--out"])
            .arg(&path)
            .output();
        assert_eq!(code(&done.expect("the program runs")), 0);
        std::fs::metadata(&path).expect("written").permissions().mode() & 0o777
    };
    assert_eq!(written("022", "a.txt"), 0o644);
    assert_eq!(written("077", "b.txt"), 0o600);
    assert_eq!(written("002", "c.txt"), 0o664);
    assert_eq!(written("022", "b.txt"), 0o600, "it was private");
}

#[test]
fn an_overloaded_axle_prints_the_stop_and_recommends_nothing() {
    let out = text(&cli(&["solve", "tests/doubtful/over-rating.ron"]).stdout);
    assert!(out.contains("!! Front: STOP."), "{out}");
    assert!(!out.contains("nearest stock rate") && !out.contains("(free length "), "no part is named: {out}");
    assert!(out.contains("withheld; see the first line of this axle for the reason"), "{out}");
    assert!(!out.contains("any stock rate from"), "{out}");
}

#[test]
fn presets_are_listed_print_as_they_stand_and_have_no_errors() {
    let list = text(&cli(&["presets"]).stdout);
    assert!(presets::PRESETS.len() >= 6);
    for preset in presets::PRESETS {
        assert!(list.contains(preset.name), "{}", preset.name);
        assert_eq!(text(&cli(&["presets", preset.name]).stdout), preset.text);
        let job = springwright::job::file::parse(preset.text).expect(preset.name);
        let answer = solve::solve(&job);
        // One is there to show the stop.
        let stop = i32::from(preset.name == "overloaded-camper");
        assert_eq!(code(&cli(&["check", preset.name])), stop, "{}", preset.name);
        assert!(answer.findings.iter().all(|f| f.level != springwright::job::Level::Error), "{}", preset.name);
        assert!(answer.axles.iter().all(|a| a.standing.new.is_some()), "{} has an answer", preset.name);
        assert!(preset.text.starts_with("//"), "{} says where its values come from", preset.name);
    }
}

#[test]
fn without_a_display_the_window_program_prints_the_answer_and_writes_the_sheet() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = Command::new(env!("CARGO_BIN_EXE_springwright"))
        .current_dir(folder.path())
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .output()
        .expect("the program runs");
    assert_eq!(code(&out), 0);
    let said = text(&out.stdout);
    assert!(said.contains("Front: ") && said.contains("Sheet saved: "), "{said}");
    assert!(folder.path().join("springwright-sheet.md").exists());
}

#[test]
fn the_file_documentation_holds_every_field() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/job-format.md");
    let doc = std::fs::read_to_string(path).expect("assets/job-format.md");
    let table = text(&cli(&["fields"]).stdout);
    for line in table.lines() {
        assert!(doc.contains(line), "assets/job-format.md lacks this line of `springwright-cli fields`:\n{line}");
    }
    let rows = |text: &str| text.lines().filter(|l| l.starts_with("| `")).map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(rows(&doc), rows(&table), "each field once, and none that is no more");
}

/// What stands outside brackets before a colon: "  shop: (...)   notes: text", "  before, after: (...)".
fn named_in(line: &str) -> Vec<&str> {
    let (mut depth, mut named) = (0, Vec::new());
    for (at, c) in line.char_indices() {
        match c {
            '(' | '[' => depth += 1,
            ')' | ']' => depth -= 1,
            ':' if depth == 0 => {
                let before = line[..at].rsplit(|c: char| !(c.is_alphanumeric() || "_, ".contains(c))).next();
                let last = before.unwrap_or_default().rsplit("  ").next().unwrap_or_default();
                named.extend(last.trim().split(", "));
            }
            _ => {}
        }
    }
    named
}

/// The tree of the documentation names every part of a job once.
/// Where a blank field counts as something else in pounds and inches, both stand there.
#[test]
fn the_file_description_prints_the_defaults_of_both_systems() {
    use springwright::job::{Defaults, Job, Side};
    let [metric, pound_inch] =
        [Defaults::Metric, Defaults::PoundInch].map(|defaults| Job { defaults, ..Job::default() });
    let table = text(&cli(&["fields"]).stdout);
    let mut differing = Vec::new();
    for field in springwright::job::fields::FIELDS {
        let [mm, inch] = [&metric, &pound_inch].map(|job| field.when_blank(job, Side::Front).map(|(said, _)| said));
        let (Some(mm), Some(inch)) = (mm, inch) else { continue };
        if mm != inch {
            let row = table.lines().find(|l| l.starts_with(&format!("| `{}` |", field.key))).expect("a row");
            assert!(row.contains(&format!("| {mm}, in pounds and inches {inch} (")), "{row}");
            differing.push(field.key);
        }
    }
    assert!(differing.contains(&"stock.bar_step") && differing.contains(&"stock.step"), "{differing:?}");
}

#[test]
fn the_file_documentation_s_tree_holds_every_part_once() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/job-format.md");
    let doc = std::fs::read_to_string(path).expect("assets/job-format.md");
    let tree = doc.split("```text\n").nth(1).and_then(|t| t.split("```").next()).expect("the tree");
    let parts: Vec<&str> =
        tree.lines().filter(|l| l.starts_with("  ") && !l.starts_with("   ")).flat_map(named_in).collect();
    // All that a job can say, by saying something else than nothing in each part.
    let refused = springwright::job::file::parse("(version: 1, job: (no_such_part: 1))").expect_err("no such part");
    let said = refused.to_string();
    let known: Vec<&str> = said.split('`').skip(3).step_by(2).filter(|w| !w.contains(' ') && *w != "Job").collect();
    assert!(known.len() > 15, "{said}");
    for part in known {
        let times = parts.iter().filter(|p| **p == part).count();
        assert_eq!(times, 1, "{part} stands {times} times in the tree of assets/job-format.md: {parts:?}");
    }
}
