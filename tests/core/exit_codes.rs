//! What both programs end with, and that nothing ends with 0 that gave nothing: full disks, closed pipes, empty jobs,
//! overloads without a window, names that steer a terminal.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::folders;

use std::path::Path;
use std::process::{Command, Output, Stdio};

use springwright::job::{Job, Overrule, Plan, Side, file, overrule};
use springwright::shop::presets;
use springwright::solve::solve;

const CLI: &str = env!("CARGO_BIN_EXE_springwright-cli");
const WINDOW: &str = env!("CARGO_BIN_EXE_springwright");

fn program(name: &str, folder: &Path) -> Command {
    let mut program = Command::new(name);
    program.current_dir(folder).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY").env("LANG", "C").env("LC_ALL", "C");
    program
}

fn run(name: &str, folder: &Path, args: &[&str]) -> Output {
    program(name, folder).args(args).output().expect("the program runs")
}

fn code(output: &Output) -> i32 {
    output.status.code().expect("ended by itself")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("UTF-8")
}

fn repository(path: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path).to_str().expect("UTF-8").to_owned()
}

/// Everything that prints, of both programs.
fn all_that_print() -> Vec<(&'static str, Vec<&'static str>)> {
    let headless: [&[&str]; 15] = [
        &["solve", "demo-orchard-van"],
        &["solve", "demo-orchard-van", "--json"],
        &["check", "demo-orchard-van"],
        &["choose", "demo-orchard-van", "--draws", "1000"],
        &["choose", "demo-orchard-van", "--draws", "1000", "--json"],
        &["road", "demo-orchard-van"],
        &["bench", "demo-orchard-van"],
        &["list", "demo"],
        &["presets"],
        &["presets", "demo-orchard-van"],
        &["fields"],
        &["jobs", "."],
        &["sheet", "demo-orchard-van", "--out", "sheet.txt"],
        &["--help"],
        &["--version"],
    ];
    let headless = headless.into_iter().map(|args| (CLI, args.to_vec()));
    headless.chain([(WINDOW, vec!["--no-window"]), (WINDOW, vec!["--help"])]).collect()
}

#[cfg(target_os = "linux")]
#[test]
fn what_cannot_be_printed_is_3_and_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    file::write(&folder.path().join("van.ron"), &presets::demo()).expect("saves");
    for (name, args) in all_that_print() {
        let full = std::fs::File::options().write(true).open("/dev/full").expect("a full disk");
        let out = program(name, folder.path()).args(&args).stdout(full).output().expect("runs");
        assert_eq!(code(&out), 3, "{args:?}");
        let said = text(&out.stderr);
        assert!(said.contains("the answer could not be printed: No space left"), "{args:?}: {said}");
    }
}

/// Whoever reads has read enough: no word, no panic, and the code of the job.
#[cfg(unix)]
#[test]
fn a_closed_pipe_is_quiet() {
    let folder = tempfile::tempdir().expect("a folder");
    file::write(&folder.path().join("van.ron"), &presets::demo()).expect("saves");
    for (name, args) in all_that_print() {
        let mut child = program(name, folder.path());
        let mut child = child.args(&args).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("runs");
        drop(child.stdout.take());
        let out = child.wait_with_output().expect("ends");
        assert_eq!((code(&out), text(&out.stderr).as_str()), (0, ""), "{args:?}");
    }
    let mut stop = program(CLI, folder.path());
    let stop = stop.args(["solve", "overloaded-camper"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn();
    let mut stop = stop.expect("runs");
    drop(stop.stdout.take());
    let out = stop.wait_with_output().expect("ends");
    assert_eq!((code(&out), text(&out.stderr).as_str()), (1, ""), "a stop stays a stop");
}

#[test]
fn an_overload_ends_with_1_also_without_a_window() {
    let folder = tempfile::tempdir().expect("a folder");
    let job = folder.path().join("van.ron");
    std::fs::copy(repository("tests/doubtful/over-rating.ron"), &job).expect("copies");
    let out = run(WINDOW, folder.path(), &["--no-window", "van.ron"]);
    assert_eq!(code(&out), 1, "{}", text(&out.stderr));
    assert!(text(&out.stdout).contains("STOP") && folder.path().join("van.md").exists());
    assert_eq!(code(&run(WINDOW, folder.path(), &["--no-window"])), 0);
    assert_eq!(code(&run(WINDOW, folder.path(), &["--no-window", "gone.ron"])), 3);
    assert_eq!(code(&run(WINDOW, folder.path(), &["--nonsense"])), 2);
}

/// Every job that is withheld ends with 1, its sheet is written and says so; every odd but sound one with 0.
#[test]
fn what_is_withheld_ends_with_1_also_without_a_window() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut ended = [0, 0];
    for (kind, ends) in [("withheld", 1), ("released", 0)] {
        for path in folders::job_files(kind) {
            std::fs::copy(&path, folder.path().join("van.ron")).expect("copies");
            let out = run(WINDOW, folder.path(), &["--no-window", "van.ron"]);
            assert_eq!(code(&out), ends, "{}: {}", path.display(), text(&out.stderr));
            let sheet = folder.path().join("van.md");
            let written = std::fs::read_to_string(&sheet).expect("the sheet is written");
            let said = text(&out.stdout);
            for text in [&written, &said] {
                let is_withheld =
                    ["do not order", "STOP", "the springs stay, but", "still needed"].iter().any(|w| text.contains(w));
                assert!(is_withheld || ends == 0, "{}: {text}", path.display());
                assert!(ends == 1 || !text.to_lowercase().contains("do not order"), "{}: {text}", path.display());
            }
            std::fs::remove_file(sheet).expect("removes");
            ended[ends as usize] += 1;
        }
    }
    assert!(ended[0] >= 8 && ended[1] >= 27, "{ended:?}");
    // Signed for, it ends with 0.
    let mut job = file::read(Path::new(&repository("tests/withheld/ratio-turned.ron"))).expect("a job");
    let asked: Vec<Overrule> = solve(&job)
        .findings
        .iter()
        .filter(|f| f.can_be_overruled())
        .map(|f| Overrule { rule: f.rule.into(), values: overrule::values(&job, &f.rests_on), initials: "JT".into() })
        .collect();
    job.overrules.extend(asked);
    file::write(&folder.path().join("signed.ron"), &job).expect("saves");
    let out = run(WINDOW, folder.path(), &["--no-window", "signed.ron"]);
    assert_eq!(code(&out), 0, "{}", text(&out.stderr));
}

#[test]
fn a_job_without_an_answer_ends_with_1_and_says_what_it_needs() {
    let folder = tempfile::tempdir().expect("a folder");
    file::write(&folder.path().join("empty.ron"), &Job::default()).expect("saves");
    for args in [
        &["solve", "empty.ron"][..],
        &["solve", "empty.ron", "--json"],
        &["check", "empty.ron"],
        &["sheet", "empty.ron", "--out", "empty.txt"],
    ] {
        let out = run(CLI, folder.path(), args);
        assert_eq!(code(&out), 1, "{args:?}");
        let said = text(&out.stderr);
        assert!(said.contains("this job has no answer yet: enter the four scale readings"), "{args:?}: {said}");
    }
    assert!(folder.path().join("empty.txt").exists(), "the sheet is written all the same");
    for args in [&["road", "empty.ron"][..], &["choose", "empty.ron", "--list", "demo"]] {
        let out = run(CLI, folder.path(), args);
        assert_eq!(code(&out), 1, "{args:?}");
        assert!(!out.stdout.is_empty(), "{args:?}");
    }
    let out = run(WINDOW, folder.path(), &["--no-window", "empty.ron"]);
    assert_eq!(code(&out), 1);
    assert!(text(&out.stderr).contains("no answer yet"));
    // The least that is an answer is one.
    assert_eq!(code(&run(CLI, folder.path(), &["solve", "first-answer"])), 0);
}

#[test]
fn nothing_to_choose_and_nothing_found_are_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut job = presets::demo();
    Side::BOTH.into_iter().for_each(|side| job.axle_mut(side).plan = Plan::Keep);
    file::write(&folder.path().join("kept.ron"), &job).expect("saves");
    let out = run(CLI, folder.path(), &["choose", "kept.ron", "--list", "demo"]);
    assert_eq!(code(&out), 1);
    assert!(text(&out.stderr).contains("no axle of this job has the plan NewSprings"), "{}", text(&out.stderr));
    let out = run(CLI, folder.path(), &["jobs", ".", "--find", "nobody"]);
    assert!(text(&out.stderr).contains("none of the 1 jobs in . contains these words"), "{}", text(&out.stderr));
    std::fs::create_dir(folder.path().join("none")).expect("a folder");
    assert!(text(&run(CLI, folder.path(), &["jobs", "none"]).stderr).contains("there are no jobs in none"));
}

#[test]
fn a_list_is_named_or_a_file_and_what_is_neither_is_told_in_words() {
    let folder = tempfile::tempdir().expect("a folder");
    let choose =
        |list: &str| run(CLI, folder.path(), &["choose", "demo-orchard-van", "--draws", "1000", "--list", list]);
    assert_eq!(code(&choose("demo")), 0, "the name of the one that ships");
    std::fs::copy(repository("presets/demo-parts.csv"), folder.path().join("shelf.csv")).expect("copies");
    assert_eq!(code(&choose("shelf.csv")), 0, "a file");
    for out in [choose("gone.csv"), run(CLI, folder.path(), &["list", "gone.csv"])] {
        assert_eq!(code(&out), 3);
        let said = text(&out.stderr);
        assert!(said.contains("no parts list \"gone.csv\" was found") && !said.contains("os error"), "{said}");
    }
    for args in [&["curve", "gone.csv"][..], &["jobs", "gone"], &["solve", "gone.ron"]] {
        let said = text(&run(CLI, folder.path(), args).stderr);
        assert!(said.contains("cannot be read") || said.contains("could not be read"), "{args:?}: {said}");
    }
}

#[test]
fn both_programs_take_the_name_of_a_shipped_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = run(WINDOW, folder.path(), &["--no-window", "lighter-engine"]);
    assert_eq!(code(&out), 0, "{}", text(&out.stderr));
    assert!(folder.path().join("lighter-engine.md").exists());
    // A folder of that name is no job, and no list.
    for name in ["first-answer", "demo"] {
        std::fs::create_dir(folder.path().join(name)).expect("a folder");
    }
    assert_eq!(code(&run(CLI, folder.path(), &["solve", "first-answer"])), 0);
    assert_eq!(code(&run(CLI, folder.path(), &["list", "demo"])), 0);
    // A file of that name comes first.
    file::write(&folder.path().join("lighter-engine"), &Job::default()).expect("saves");
    assert_eq!(code(&run(WINDOW, folder.path(), &["--no-window", "lighter-engine"])), 1);
}

/// The sheet in a language without texts is not printed; everything else is.
#[test]
fn an_unknown_language_stops_only_its_sheet() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut job = presets::demo();
    job.shop.language = "xx".into();
    file::write(&folder.path().join("van.ron"), &job).expect("saves");
    let out = run(CLI, folder.path(), &["check", "van.ron"]);
    assert_eq!(code(&out), 0);
    assert!(text(&out.stdout).contains("Language of the sheets: \"xx\" is not supplied"), "{}", text(&out.stdout));
    for (kind, ends) in [("customer", 1), ("fitting", 1), ("order", 1), ("working", 1), ("full", 0)] {
        let name = format!("{kind}.txt");
        let out = run(CLI, folder.path(), &["sheet", "van.ron", "--kind", kind, "--out", &name]);
        assert_eq!((code(&out), folder.path().join(&name).exists()), (ends, ends == 0), "{kind}");
        assert!(ends == 0 || text(&out.stderr).contains("there are no sheet texts in the language \"xx\""));
    }
    // With texts of the shop's own it is known.
    let home = folder.path().join("home");
    std::fs::create_dir_all(home.join("springwright/lists")).expect("a folder");
    file::write_text(&home.join("springwright/lists/sheets.xx.ron"), "{}").expect("writes");
    let mut own = program(CLI, folder.path());
    own.env("XDG_DATA_HOME", &home).args(["sheet", "van.ron", "--kind", "customer", "--out", "own.txt"]);
    assert_eq!(code(&own.output().expect("runs")), 0);
    // A text that leaves out a number is refused by its name.
    file::write_text(&home.join("springwright/lists/sheets.xx.ron"), r#"{ "change.heavier": "Heavier." }"#)
        .expect("writes");
    let out = own.output().expect("runs");
    assert_eq!(code(&out), 3);
    assert!(text(&out.stderr).contains("the text \"change.heavier\" has no {amount}"), "{}", text(&out.stderr));
}

#[test]
fn a_list_outside_the_job_s_folder_is_pointed_out() {
    let folder = tempfile::tempdir().expect("a folder");
    for (list, is_outside) in [("../shelf.csv", true), ("/srv/shelf.csv", true), ("shelf.csv", false), ("demo", false)]
    {
        let job = Job { list: list.into(), ..presets::demo() };
        file::write(&folder.path().join("van.ron"), &job).expect("saves");
        let said = text(&run(CLI, folder.path(), &["check", "van.ron"]).stdout);
        assert_eq!(said.contains(&format!("Parts list: {list} is outside the job's folder")), is_outside, "{said}");
    }
}

/// Names come from others: no line of theirs, no colour, nothing that turns letters round.
#[cfg(unix)]
#[test]
fn file_names_print_as_one_harmless_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let name = "a\nfile: b\u{1b}[31m\u{202e}.ron";
    file::write(&folder.path().join(name), &presets::demo()).expect("saves");
    let broken = "c\ndqx\u{7}.ron";
    file::write_text(&folder.path().join(broken), "(").expect("writes");
    let gone = "e\n\u{1b}f";
    for (program, args) in [
        (CLI, vec!["jobs", "."]),
        (CLI, vec!["solve", broken]),
        (CLI, vec!["solve", gone]),
        (CLI, vec!["choose", name, "--list", gone]),
        (CLI, vec!["list", broken]),
        (CLI, vec!["curve", broken]),
        (CLI, vec!["sheet", name, "--out", "g\nhqx.txt"]),
        (CLI, vec!["desktop", "i\njqx"]),
        (CLI, vec!["jobs", "k\nlqx"]),
        (WINDOW, vec!["--no-window", name]),
        (WINDOW, vec!["--no-window", broken]),
    ] {
        let out = run(program, folder.path(), &args);
        let said = text(&out.stdout) + &text(&out.stderr);
        assert!(!said.contains(|c: char| c.is_control() && c != '\n' && c != '\t'), "{args:?}: {said:?}");
        assert!(!said.contains('\u{202e}'), "{args:?}: {said:?}");
        for broken_line in ["\nfile: b", "\ndqx", "\nhqx", "\njqx", "\nlqx"] {
            assert!(!said.contains(broken_line), "{args:?}: {said}");
        }
        assert!(args[1] != "." || said.contains("a\\nfile: b\\u{1b}[31m\\u{202e}.ron"), "{said}");
    }
}

#[test]
fn a_change_that_rounds_to_nothing_has_no_sign() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut job = presets::demo();
    job.after = job.before.clone();
    // A thousandth of a kilogram less in front.
    let lf = springwright::base::units::parse::number(
        &job.before.lf.text,
        springwright::base::units::Dim::Mass,
        job.decimal,
    );
    job.after.lf = format!("{:.3} kg", lf.expect("a mass").si() - 0.001).as_str().into();
    file::write(&folder.path().join("van.ron"), &job).expect("saves");
    for args in [&["solve", "van.ron"][..], &["check", "van.ron"]] {
        let said = text(&run(CLI, folder.path(), args).stdout);
        for zero in ["-0.0 ", "−0.0 ", "-0 ", "−0 ", "+0.0 %"] {
            assert!(!said.contains(zero), "{zero}: {said}");
        }
    }
}

/// Homes that cannot be written, or are none: the headless program and the answer without a window need none.
#[test]
fn a_home_that_cannot_be_written_stops_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    for home in ["/dev/null/home", "/proc/self/no-home", ""] {
        for (name, args) in [
            (CLI, &["solve", "demo-orchard-van"][..]),
            (CLI, &["choose", "demo-orchard-van", "--draws", "1000"]),
            (CLI, &["sheet", "demo-orchard-van", "--out", "sheet.pdf"]),
            (WINDOW, &["--no-window"]),
        ] {
            let mut program = program(name, folder.path());
            program.env("HOME", home).env("XDG_DATA_HOME", home).env("XDG_CONFIG_HOME", home).args(args);
            let out = program.output().expect("runs");
            assert_eq!(code(&out), 0, "{home} {args:?}: {}", text(&out.stderr));
        }
    }
}
