//! The program is killed 200 times while it types, keeps and saves: each time every file is whole, and nothing older
//! than two seconds is gone.
//!
//! What is killed is this test program once more, running the window's own document without the window. So that 200
//! rounds are quick, its clock runs ahead: each edit moves it on by some tenths of a second. One round runs by the true
//! clock. `SIGKILL` stops the program, not the machine: what a power cut does to the disk is not tried here.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::io::{BufRead as _, BufReader, Read as _};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use rand_distr::{Distribution as _, Uniform};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng as _;
use springwright::gui::app::document::Document;
use springwright::job::file;
use springwright::job::kept::KeptJob;
use springwright::shop::presets;

const ROUNDS: u64 = 200;
const LOST_AT_MOST_S: f64 = 2.0;

/// The number of an edit, as it stands in the notes.
fn number(notes: &str) -> u64 {
    notes.parse().unwrap_or(0)
}

/// The program that is killed. It says each edit with its time after the frame it was drawn in, and each save before
/// and after.
#[test]
#[ignore = "started, and killed, by the tests beside it"]
fn the_program() {
    let folder = std::env::var("KILLED_IN").expect("a folder");
    let folder = Path::new(&folder);
    let seed = std::env::var("KILLED_SEED").expect("a seed").parse().expect("a number");
    let by_clock = std::env::var_os("KILLED_BY_CLOCK").is_some();
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(seed);
    let mut below = |end: f64| Uniform::new(0.0, end).expect("a range").sample(&mut rng);
    let path = folder.join("van.ron");
    let mut document = Document::new(presets::demo());
    if path.exists() {
        document.open(&path).expect("the file is whole");
    }
    document.keep_in(&folder.join("kept")).expect("a folder to keep in");
    let (start, mut time_s) = (Instant::now(), 0.0);
    let mut edit = number(&document.now.job.notes);
    loop {
        time_s = if by_clock { start.elapsed().as_secs_f64() } else { time_s + below(0.6) };
        edit += 1;
        document.now.job.notes = edit.to_string();
        document.tick(time_s).expect("keeps");
        if !by_clock {
            // The disk cannot be hurried as the clock is.
            document.finish_keeping().expect("keeps");
        }
        println!("edit {edit} {time_s}");
        if below(1.0) < 0.15 {
            println!("save {edit} {time_s}");
            document.save(&path).expect("saves");
            println!("saved {edit} {time_s}");
        }
        if by_clock {
            std::thread::sleep(Duration::from_millis(40));
        }
    }
}

/// What one round left, from what the program had said before it died.
#[derive(Default)]
struct Said {
    edits: Vec<(u64, f64)>,
    saving: Option<u64>,
    saved: Option<u64>,
}

fn run_and_kill(folder: &Path, seed: u64, by_clock: bool, after: Duration) -> Said {
    let mut command = Command::new(std::env::current_exe().expect("this program"));
    command
        .args(["--ignored", "--exact", "killed::the_program", "--nocapture"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    command.env("KILLED_IN", folder).env("KILLED_SEED", seed.to_string());
    if by_clock {
        command.env("KILLED_BY_CLOCK", "1");
    }
    let mut child = command.spawn().expect("starts");
    let mut lines = BufReader::new(child.stdout.take().expect("its output"));
    let mut said = Said::default();
    let mut text = String::new();
    // From the first edit on: starting is not what is tried.
    while !text.contains("edit ") {
        let more = lines.read_line(&mut text).expect("reads");
        assert!(more > 0, "it ended by itself: {text}");
    }
    let reader = std::thread::spawn(move || {
        // Until the pipe closes with the program.
        let _ = lines.read_to_string(&mut text);
        text
    });
    std::thread::sleep(after);
    child.kill().expect("is killed");
    let output = child.wait_with_output().expect("ends");
    let words = String::from_utf8_lossy(&output.stderr);
    assert!(!words.contains("panicked"), "it ended by itself: {words}");
    // The last line may be cut off.
    for line in reader.join().expect("reads").split_inclusive('\n').filter(|l| l.ends_with('\n')) {
        let mut parts = line.split_whitespace();
        let (what, edit) = (parts.next(), parts.next().and_then(|n| n.parse().ok()));
        let time = parts.next().and_then(|t| t.parse().ok());
        match (what, edit, time) {
            (Some("edit"), Some(edit), Some(time)) => said.edits.push((edit, time)),
            (Some("save"), Some(edit), _) => said.saving = Some(edit),
            (Some("saved"), Some(edit), _) => said.saved = Some(edit),
            _ => {}
        }
    }
    said
}

/// Looks at every file; gives back how far the work in the folder goes.
fn check(folder: &Path, said: &Said, round: u64, saved_before: Option<u64>) -> (u64, Option<u64>) {
    let path = folder.join("van.ron");
    let in_file = path.exists().then(|| file::read(&path).unwrap_or_else(|e| panic!("round {round}: {e}")));
    let in_file = in_file.map(|job| number(&job.notes));
    let whole = [said.saved.or(saved_before), said.saving.or(saved_before)];
    assert!(whole.contains(&in_file), "round {round}: the file says {in_file:?}, neither old nor new of {whole:?}");
    let backup = file::backup_of(&path);
    if backup.exists() {
        file::read(&backup).unwrap_or_else(|e| panic!("round {round}, backup: {e}"));
    }
    let kept = std::fs::read_to_string(folder.join("kept/unsaved-1.ron")).ok().map(|text| {
        let kept: KeptJob =
            file::options().from_str(&text).unwrap_or_else(|e| panic!("round {round}, kept copy: {e}\n{text}"));
        number(&kept.job.notes)
    });
    let have = kept.max(in_file).unwrap_or(0);
    let last_s = said.edits.last().expect("it typed").1;
    let due = said.edits.iter().filter(|(_, time)| *time <= last_s - LOST_AT_MOST_S).map(|(edit, _)| *edit).max();
    assert!(
        Some(have) >= due,
        "round {round}: edit {due:?} is older than {LOST_AT_MOST_S} s, but only {have} is there"
    );
    (have, in_file)
}

#[test]
fn killed_two_hundred_times_every_file_is_whole() {
    let started = Instant::now();
    let folder = tempfile::tempdir().expect("a folder");
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(11);
    let mut delay = || Duration::from_micros(Uniform::new(0, 90_000).expect("a range").sample(&mut rng));
    let (mut edits, mut saves, mut mid_save, mut saved, mut have) = (0, 0, 0, None, 0);
    for round in 0..ROUNDS {
        let said = run_and_kill(folder.path(), round, false, delay());
        let first = said.edits.first().expect("it typed").0;
        assert_eq!(first, have + 1, "round {round}: the next start goes on where the work ended");
        (have, saved) = check(folder.path(), &said, round, saved);
        edits += said.edits.len();
        saves += usize::from(said.saved.is_some());
        mid_save += usize::from(said.saving != said.saved);
    }
    let litter = std::fs::read_dir(folder.path()).expect("the folder").flatten();
    let half_written = litter.filter(|e| e.file_name().to_string_lossy().starts_with('.')).count();
    println!(
        "{ROUNDS} rounds, {edits} edits, {saves} with a save, {mid_save} killed inside one, {half_written} half-written files, {:.1?}",
        started.elapsed()
    );
    assert!(mid_save > 0 && saves > 0, "no kill met a save: the rounds are too short");
    assert!(
        !folder
            .path()
            .join("kept")
            .read_dir()
            .expect("kept")
            .flatten()
            .any(|e| { e.file_name().to_string_lossy().starts_with("unreadable") })
    );
}

#[test]
fn by_the_true_clock_nothing_older_than_two_seconds_is_lost() {
    let folder = tempfile::tempdir().expect("a folder");
    let said = run_and_kill(folder.path(), 3, true, Duration::from_millis(4300));
    check(folder.path(), &said, 0, None);
}
