//! Files that are not this program's: not swept, not replaced unasked, not renamed over; links, owners and permissions
//! stay, devices and pipes stay what they are.
#![cfg(unix)]
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::io::Read as _;
use std::os::unix::fs::{FileTypeExt as _, MetadataExt as _, PermissionsExt as _, chown, symlink};
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant, SystemTime};

use springwright::job::file::{self, Backup};
use springwright::job::kept::Keeper;
use springwright::job::{Job, Side};
use springwright::report::print::{self, Over};
use springwright::report::sheets::{self, Kind, Printed};
use springwright::report::write::page::{Fonts, Paper};
use springwright::shop::presets;
use springwright::solve::solve;

use crate::common::effort::some;

const CLI: &str = env!("CARGO_BIN_EXE_springwright-cli");
const WINDOW: &str = env!("CARGO_BIN_EXE_springwright");

fn noted(notes: &str) -> Job {
    Job { notes: notes.into(), ..presets::demo() }
}

fn code(output: &Output) -> i32 {
    output.status.code().expect("ended by itself")
}

fn sheet(out: &Path, more: &[&str]) -> Output {
    Command::new(CLI).args(["sheet", "first-answer", "--out"]).arg(out).args(more).output().expect("runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn age(path: &Path, by: Duration, is_past: bool) {
    let now = SystemTime::now();
    let at = if is_past { now - by } else { now + by };
    std::fs::File::options().write(true).open(path).expect("opens").set_modified(at).expect("sets its time");
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("a folder")
        .map(|e| e.expect("an entry").file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

fn fifo(path: &Path) {
    assert!(Command::new("mkfifo").arg(path).status().expect("mkfifo runs").success());
}

#[test]
fn only_what_this_program_left_half_written_is_swept() {
    const HOURS: Duration = Duration::from_secs(3 * 3600);
    let folder = tempfile::tempdir().expect("a folder");
    let theirs = [
        ".springwright-my-notes.txt",
        ".springwright-",
        ".springwright-abcdef",
        ".springwright-abcdefghijkl",
        ".springwright-my-notes-12.part",
        ".springwright-abcdefghijkl.part~",
        "springwright-abcdefghijkl.part",
    ];
    let ours = ".springwright-aB3dEf9hIjK2.part";
    // A clock that went backwards: what is from tomorrow is not old.
    let tomorrow = ".springwright-aaaaaaaaaaaa.part";
    for name in theirs.iter().chain([&ours, &tomorrow]) {
        file::write_text(&folder.path().join(name), "words").expect("writes");
        age(&folder.path().join(name), HOURS, *name != tomorrow);
    }
    // A folder and a link of such a name are nobody's half-written file.
    std::fs::create_dir(folder.path().join(".springwright-bbbbbbbbbbbb.part")).expect("a folder");
    symlink("away", folder.path().join(".springwright-cccccccccccc.part")).expect("a link");
    // One that a living program holds, however old it looks.
    let held = folder.path().join(".springwright-dddddddddddd.part");
    let holder = std::fs::File::create(&held).expect("a file");
    holder.lock().expect("held");
    age(&held, HOURS, true);
    let before = names(folder.path());
    assert_eq!(code(&sheet(&folder.path().join("sheet.txt"), &[])), 0);
    let mut left = names(folder.path());
    left.retain(|n| n != "sheet.txt");
    let expected: Vec<String> = before.into_iter().filter(|n| n != ours).collect();
    assert_eq!(left, expected);
}

/// Files of others by every ending that a sheet can have.
fn files_of_others(folder: &Path) -> Vec<PathBuf> {
    let newer = format!("(version: {}, job: (by_then: 1))", file::VERSION + 1);
    let files: [(&str, &[u8]); 9] = [
        ("shelf.csv", b"number,rate (N/mm)\nA-1,50\n"),
        ("notes.txt", b"Bought from springwright 0.1.0 users.\n"),
        ("van.md", b"# My van\n"),
        ("broken-job", b"(version: 1, job: (front: (spring: (rate: \"42"),
        ("newer-job", newer.as_bytes()),
        ("theirs.pdf", b"%PDF-1.4\n/Creator (another program)\n%%EOF\n"),
        ("theirs.png", b"\x89PNG\r\n\x1a\nSoftware\0another program"),
        ("not-text.txt", b"\xff\xfe\x00"),
        ("empty.txt", b""),
    ];
    files
        .map(|(name, bytes)| {
            let path = folder.join(name);
            file::write_bytes(&path, bytes).expect("writes");
            path
        })
        .into()
}

#[test]
fn a_sheet_takes_the_place_of_a_file_of_others_by_force_only() {
    let folder = tempfile::tempdir().expect("a folder");
    for path in some(files_of_others(folder.path())) {
        let before = std::fs::read(&path).expect("reads");
        let out = sheet(&path, &[]);
        assert_eq!(code(&out), 3, "{}", path.display());
        let words = said(&out);
        assert!(words.contains("is not a sheet of this program") && words.contains("--force"), "{words}");
        assert_eq!(std::fs::read(&path).expect("reads"), before, "{}", path.display());
        assert_eq!(code(&sheet(&path, &["--force"])), 0, "{}", path.display());
        assert_ne!(std::fs::read(&path).expect("reads"), before, "{}", path.display());
        assert_eq!(code(&sheet(&path, &[])), 0, "now it is a sheet: {}", path.display());
    }
}

/// Every sheet, in each language and by each ending, is known again.
#[test]
fn a_sheet_of_this_program_is_printed_anew_unasked() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut job = presets::demo();
    for language in ["", "de", "xx"] {
        job.shop.language = language.into();
        let answer = solve(&job);
        for kind in some(Kind::ALL) {
            // Drawing takes its time; its metadata knows no language.
            let endings: &[&str] = if language.is_empty() { &["pdf", "png", "md", "txt"] } else { &["md", "txt"] };
            for ending in endings {
                let path = folder.path().join(format!("{}{language}.{ending}", kind.key()));
                assert!(print::is_free(&path));
                let printed =
                    Printed { date: Some("2026-11-28"), on_pages: print::is_paged(&path), ..Printed::default() };
                let (report, fit) = print::sheet(kind, &job, &answer, printed, sheets::words_of(&job));
                let printing = print::printing(&job, Paper::A4, fit, None, "van.ron", "2026-11-28");
                match print::write(&report, &printing, &mut Fonts::shipped(), &path, Over::Sheets) {
                    Ok(_) => assert!(print::is_free(&path), "{} is not known again", path.display()),
                    Err(error) => assert!(error.to_string().contains("a PNG holds at most"), "{error}"),
                }
            }
        }
    }
}

#[test]
fn no_force_puts_a_sheet_in_place_of_a_job() {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in [
        ("van.ron", presets::PRESETS[0].text),
        ("broken.ron", "(version: 1"),
        ("van.ron~", "anything"),
        ("a-job.txt", presets::PRESETS[0].text),
    ] {
        let path = folder.path().join(name);
        file::write_text(&path, text).expect("writes");
        let out = sheet(&path, &["--force"]);
        assert_eq!(code(&out), 3, "{name}");
        assert!(said(&out).contains("this is a job file"), "{}", said(&out));
        assert_eq!(std::fs::read_to_string(&path).expect("reads"), text);
    }
}

#[test]
fn the_sheet_without_a_window_goes_beside_what_is_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let job = folder.path().join("van.ron");
    file::write(&job, &noted("mine")).expect("saves");
    file::write_text(&folder.path().join("van.md"), "# My van\n").expect("writes");
    let run = || {
        let mut program = Command::new(WINDOW);
        program.current_dir(folder.path()).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY");
        program.args(["--no-window", "van.ron"]).output().expect("runs")
    };
    for _ in 0..2 {
        let out = run();
        assert_eq!(code(&out), 0, "{}", said(&out));
        assert!(String::from_utf8_lossy(&out.stdout).trim_end().ends_with("van-sheet-1.md"));
        assert_eq!(
            names(folder.path()),
            ["van-sheet-1.md", "van.md", "van.ron"],
            "the second takes the place of the first"
        );
        assert_eq!(std::fs::read_to_string(folder.path().join("van.md")).expect("reads"), "# My van\n");
    }
    std::fs::remove_file(folder.path().join("van.md")).expect("removes");
    run();
    assert!(folder.path().join("van.md").exists(), "the plain name, when it is free");
}

#[test]
fn desktop_replaces_no_file_that_says_something_else() {
    let folder = tempfile::tempdir().expect("a folder");
    let share = folder.path().join("share");
    let own = share.join("applications/springwright.desktop");
    std::fs::create_dir_all(own.parent().expect("a folder")).expect("a folder");
    file::write_text(&own, "[Desktop Entry]\nName=mine\n").expect("writes");
    let desktop = |more: &[&str]| Command::new(CLI).arg("desktop").arg(&share).args(more).output().expect("runs");
    let out = desktop(&[]);
    assert_eq!(code(&out), 3);
    assert!(said(&out).contains("springwright.desktop") && said(&out).contains("--force"), "{}", said(&out));
    assert_eq!(std::fs::read_to_string(&own).expect("reads"), "[Desktop Entry]\nName=mine\n");
    assert_eq!(names(&share), ["applications"], "nothing was written");
    assert_eq!(code(&desktop(&["--force"])), 0);
    assert_ne!(std::fs::read_to_string(&own).expect("reads"), "[Desktop Entry]\nName=mine\n");
    assert_eq!(code(&desktop(&[])), 0, "the same once more takes nobody anything");
}

#[test]
fn what_goes_to_standard_output_is_the_sheet_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut piped = Command::new(CLI);
    let out = piped.args(["sheet", "demo-orchard-van", "--out", "/dev/stdout"]).output().expect("runs");
    assert_eq!(code(&out), 0, "{}", said(&out));
    assert!(out.stdout.starts_with(b"Springs and dampers"), "{}", String::from_utf8_lossy(&out.stdout));
    assert!(said(&out).contains("Sheet saved: /dev/stdout"));
    // The same into a file that the shell opened: behind what stands there.
    let path = folder.path().join("all.txt");
    file::write_text(&path, "before\n").expect("writes");
    let inode = std::fs::metadata(&path).expect("there").ino();
    let file = std::fs::File::options().append(true).open(&path).expect("opens");
    let mut piped = Command::new(CLI);
    piped.args(["sheet", "demo-orchard-van", "--out", "/dev/stdout"]).stdout(file);
    assert_eq!(code(&piped.output().expect("runs")), 0);
    let text = std::fs::read(&path).expect("reads");
    assert_eq!(text, [b"before\n".as_slice(), &out.stdout].concat());
    assert_eq!(std::fs::metadata(&path).expect("there").ino(), inode, "not another file");
}

#[cfg(target_os = "linux")]
#[test]
fn devices_and_pipes_are_written_through_and_stay() {
    let folder = tempfile::tempdir().expect("a folder");
    for (device, ends) in [("/dev/full", 3), ("/dev/null", 0)] {
        for path in [PathBuf::from(device), folder.path().join(format!("link{}", device.replace('/', "-")))] {
            if path != Path::new(device) {
                symlink(device, &path).expect("links");
            }
            let out = sheet(&path, &[]);
            assert_eq!(code(&out), ends, "{}: {}", path.display(), said(&out));
            assert!(std::fs::metadata(device).expect("there").file_type().is_char_device(), "{device} is gone");
        }
    }
    let pipe = folder.path().join("pipe.txt");
    fifo(&pipe);
    let reader = std::thread::spawn({
        let pipe = pipe.clone();
        move || std::fs::read_to_string(pipe).expect("reads")
    });
    let out = sheet(&pipe, &[]);
    assert_eq!(code(&out), 0, "{}", said(&out));
    assert!(reader.join().expect("a reader").starts_with("Springs and dampers"));
    assert!(std::fs::metadata(&pipe).expect("there").file_type().is_fifo());
}

/// Some programs hand sockets to those that they start: these cannot be opened once more.
#[test]
fn a_socket_as_standard_output_gets_the_sheet() {
    let (ours, theirs) = std::os::unix::net::UnixStream::pair().expect("a pair");
    let mut program = Command::new(CLI);
    program.args(["sheet", "demo-orchard-van", "--out", "/dev/stdout"]);
    program.stdout(std::os::fd::OwnedFd::from(theirs)).stderr(Stdio::piped());
    let reader = std::thread::spawn(move || {
        let (mut ours, mut text) = (ours, String::new());
        ours.read_to_string(&mut text).expect("reads");
        text
    });
    let out = program.spawn().expect("runs").wait_with_output().expect("ends");
    drop(program);
    assert_eq!(code(&out), 0, "{}", said(&out));
    assert!(reader.join().expect("a reader").starts_with("Springs and dampers"));
}

/// A reader that has read enough is no error, whatever is written.
#[test]
fn a_sheet_into_a_closed_pipe_is_quiet() {
    let mut child = Command::new(CLI);
    child.args(["sheet", "demo-orchard-van", "--out", "/dev/stdout"]).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = child.spawn().expect("runs");
    let mut first = [0; 1];
    child.stdout.take().expect("a pipe").read_exact(&mut first).expect("reads one");
    let out = child.wait_with_output().expect("ends");
    assert_eq!(code(&out), 0);
    assert!(!said(&out).contains("pipe"), "{}", said(&out));
}

/// A job that goes into a pipe could not be opened again, and waiting for somebody to read it would stop the window.
#[test]
fn a_job_is_saved_to_no_device_or_pipe_and_does_not_wait() {
    let folder = tempfile::tempdir().expect("a folder");
    let pipe = folder.path().join("van.ron");
    fifo(&pipe);
    let link = folder.path().join("link.ron");
    symlink(&pipe, &link).expect("links");
    let began = Instant::now();
    for path in [pipe.as_path(), &link, Path::new("/dev/null")] {
        let error = file::write(path, &noted("mine")).expect_err("is refused");
        assert!(error.to_string().contains("this is a device or a pipe, not a file"), "{error}");
        assert!(file::read(path).is_err());
    }
    assert!(began.elapsed() < Duration::from_secs(5));
    assert!(std::fs::metadata(&pipe).expect("there").file_type().is_fifo());
}

#[test]
fn a_dangling_link_stays_a_link_to_the_new_file() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::create_dir(folder.path().join("far")).expect("a folder");
    for (link, to) in [("van.ron", "far/van.ron"), ("twice.ron", "once.ron"), ("once.ron", "far/two.ron")] {
        symlink(to, folder.path().join(link)).expect("links");
    }
    for (link, file) in [("van.ron", "far/van.ron"), ("twice.ron", "far/two.ron")] {
        let link = folder.path().join(link);
        file::write(&link, &noted("mine")).expect("saves");
        assert!(link.is_symlink());
        assert_eq!(file::read(&folder.path().join(file)).expect("a job").notes, "mine");
    }
    assert!(folder.path().join("once.ron").is_symlink());
    symlink("far/sheet.txt", folder.path().join("sheet.txt")).expect("links");
    assert_eq!(code(&sheet(&folder.path().join("sheet.txt"), &[])), 0);
    assert!(folder.path().join("sheet.txt").is_symlink() && folder.path().join("far/sheet.txt").is_file());
    symlink("round.ron", folder.path().join("round.ron")).expect("links");
    assert!(file::write(&folder.path().join("round.ron"), &noted("mine")).is_err());
    assert!(folder.path().join("round.ron").is_symlink());
}

#[test]
fn owner_and_permissions_stay() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("van.ron");
    file::write(&path, &noted("old")).expect("saves");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o640)).expect("sets");
    let is_root = chown(&path, Some(1234), Some(1235)).is_ok();
    let state = |path: &Path| {
        let about = std::fs::metadata(path).expect("there");
        (about.uid(), about.gid(), about.permissions().mode() & 0o7777)
    };
    let before = state(&path);
    let backup = file::write(&path, &noted("new")).expect("saves");
    assert_eq!(state(&path), before);
    let Backup::Kept(backup) = backup else { panic!("{backup:?}") };
    assert_eq!(state(&backup), before);
    if !is_root {
        println!("not root: another owner was not tried");
        return;
    }
    // Somebody else's sheet that this user may write, but not give away: it stays theirs.
    let shared = folder.path().join("shared");
    std::fs::create_dir(&shared).expect("a folder");
    std::fs::set_permissions(folder.path(), std::fs::Permissions::from_mode(0o755)).expect("sets");
    std::fs::set_permissions(&shared, std::fs::Permissions::from_mode(0o777)).expect("sets");
    let theirs = shared.join("sheet.txt");
    assert_eq!(code(&sheet(&theirs, &["--date", "2026-01-01"])), 0);
    std::fs::set_permissions(&theirs, std::fs::Permissions::from_mode(0o666)).expect("sets");
    let before = (state(&theirs), std::fs::read(&theirs).expect("reads"));
    let copy = shared.join("cli");
    std::fs::copy(CLI, &copy).expect("where everybody may start it");
    let mut other = Command::new(&copy);
    other.uid(1234).gid(1234).current_dir(&shared).env("HOME", &shared);
    let out = other.args(["sheet", "demo-orchard-van", "--date", "2026-01-02", "--out", "sheet.txt"]).output();
    let out = out.expect("runs");
    assert_eq!(code(&out), 0, "{}", said(&out));
    assert_eq!(state(&theirs), before.0);
    assert_ne!(std::fs::read(&theirs).expect("reads"), before.1);
    assert_eq!(names(&shared), ["cli", "sheet.txt"], "nothing is left beside it");
}

/// Two saves at the same instant: one is the file, the other its backup; neither is gone.
#[test]
fn two_saves_at_the_same_instant_lose_neither() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("van.ron");
    for round in some(0..60) {
        file::write(&path, &noted("old")).expect("saves");
        let both = ["one", "two"].map(|who| format!("{who} {round}"));
        let start = std::sync::Barrier::new(2);
        std::thread::scope(|scope| {
            for notes in &both {
                let (start, path) = (&start, &path);
                scope.spawn(move || {
                    start.wait();
                    file::write(path, &noted(notes)).expect("saves");
                });
            }
        });
        let mut left = [&path, &file::backup_of(&path)].map(|p| file::read(p).expect("whole").notes);
        left.sort();
        assert_eq!(left, both, "round {round}");
    }
    assert_eq!(names(folder.path()), ["van.ron", "van.ron~"]);
}

/// Copies that are put aside in the same millisecond, or after the clock went back, do not take each other's name.
#[test]
fn copies_put_aside_at_the_same_instant_are_all_there() {
    let folder = tempfile::tempdir().expect("a folder");
    for number in 1..=9 {
        file::write_text(&folder.path().join(format!("unsaved-{number}.ron")), &format!("broken {number}"))
            .expect("writes");
    }
    let (keeper, found) = Keeper::start(folder.path()).expect("starts").expect("a place");
    let mut texts: Vec<String> =
        found.unreadable.iter().map(|p| std::fs::read_to_string(p).expect("still there")).collect();
    texts.sort();
    assert_eq!(texts, (1..=9).map(|n| format!("broken {n}")).collect::<Vec<_>>());
    let aside: Vec<PathBuf> = (0..9).map(|n| keeper.put_aside(&noted(&n.to_string())).expect("kept")).collect();
    let notes: Vec<String> = aside.iter().map(|p| file::read(p).expect("a job").notes).collect();
    assert_eq!(notes, (0..9).map(|n| n.to_string()).collect::<Vec<_>>());
}

/// No font of the system is needed for a sheet.
#[test]
fn without_fonts_of_the_system_sheets_are_whole() {
    let folder = tempfile::tempdir().expect("a folder");
    let job = presets::demo();
    let answer = solve(&job);
    assert!(answer.axle(Side::Front).sizing.is_some());
    for ending in ["pdf", "png"] {
        let path = folder.path().join(format!("sheet.{ending}"));
        let printed = Printed { on_pages: true, ..Printed::default() };
        let (report, fit) = print::sheet(Kind::Customer, &job, &answer, printed, sheets::words_of(&job));
        let printing = print::printing(&job, Paper::A4, fit, None, "van.ron", "2026-11-28");
        let notes = print::write(&report, &printing, &mut Fonts::shipped(), &path, Over::Sheets).expect("writes");
        assert_eq!(notes, Vec::<String>::new());
    }
    let pdf = lopdf::Document::load(folder.path().join("sheet.pdf")).expect("a PDF");
    assert_eq!(pdf.get_pages().len(), 1);
}
