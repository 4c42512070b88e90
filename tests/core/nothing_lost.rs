//! Saving, kept copies, backups, write-protected files, a small disk, files of every version: nothing typed is lost.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::path::Path;
use std::time::{Duration, SystemTime};

use springwright::job::file::{self, Backup, FileError};
use springwright::job::kept::{Due, KEEP_WITHIN_S, Keeper, KeptJob};
use springwright::job::{Job, finding::worst};
use springwright::shop::presets;
use springwright::solve::solve;

fn noted(notes: &str) -> Job {
    Job { notes: notes.into(), ..presets::demo() }
}

fn keep(keeper: &Keeper, notes: &str) -> std::io::Result<()> {
    keeper.keep(KeptJob { path: None, job: noted(notes), seen: None }).recv().expect("an answer")
}

#[test]
fn a_save_keeps_one_backup_of_what_it_replaces() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("van.ron");
    assert!(matches!(file::write(&path, &noted("one")).expect("saves"), Backup::NotNeeded));
    let Backup::Kept(backup) = file::write(&path, &noted("two")).expect("saves") else { panic!("no backup") };
    assert_eq!(backup, folder.path().join("van.ron~"));
    assert_eq!(file::read(&backup).expect("a job"), noted("one"));
    // The same once more takes the backup nothing.
    assert!(matches!(file::write(&path, &noted("two")).expect("saves"), Backup::NotNeeded));
    assert_eq!(file::read(&backup).expect("a job"), noted("one"));
    file::write(&path, &noted("three")).expect("saves");
    assert_eq!(file::read(&backup).expect("a job"), noted("two"));
    assert_eq!(std::fs::read_dir(folder.path()).expect("a folder").count(), 2, "one file, one backup, nothing else");
}

#[test]
fn what_a_dead_program_left_half_written_is_swept_and_what_is_under_way_is_not() {
    let folder = tempfile::tempdir().expect("a folder");
    let [old, now] = [".springwright-abcdef123456.part", ".springwright-ABCDEF123456.part"];
    for (name, age_s) in [(old, 7200), (now, 5)] {
        let path = folder.path().join(name);
        file::write_text(&path, "half").expect("writes");
        let file = std::fs::File::options().write(true).open(&path).expect("opens");
        file.set_modified(SystemTime::now() - Duration::from_secs(age_s)).expect("sets its time");
    }
    file::write(&folder.path().join("van.ron"), &noted("one")).expect("saves");
    assert!(!folder.path().join(old).exists());
    assert!(folder.path().join(now).exists());
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_a_protected_file_stays_as_it_is() {
    use std::os::unix::fs::{PermissionsExt as _, symlink};
    let folder = tempfile::tempdir().expect("a folder");
    let (path, link) = (folder.path().join("van.ron"), folder.path().join("link.ron"));
    file::write(&path, &noted("one")).expect("saves");
    symlink(&path, &link).expect("links");
    file::write(&link, &noted("two")).expect("saves");
    assert!(link.is_symlink());
    assert_eq!(file::read(&path).expect("a job"), noted("two"));

    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o444)).expect("protects");
    let error = file::write(&path, &noted("three")).expect_err("is protected");
    assert_eq!(
        error.to_string(),
        "the file could not be saved: the file is write-protected. The file or folder is write-protected: remove the protection, or save under another name or in another folder with Save as"
    );
    assert_eq!(file::read(&path).expect("a job"), noted("two"));

    let error = file::write(&folder.path().join("gone/van.ron"), &noted("one")).expect_err("no folder");
    assert!(error.to_string().contains("The folder cannot be found"), "{error}");
}

/// What is saved can be opened again: a job that is too large for that is refused, and the text to shorten is named.
#[test]
fn a_job_too_large_to_open_again_is_refused_in_words() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("van.ron");
    file::write(&path, &noted("small")).expect("saves");
    let mut job = noted("large");
    job.front.spring.rate = "9".repeat(3_000_000).as_str().into();
    let said = file::write(&path, &job).expect_err("is refused").to_string();
    for words in ["a job file has at most 2000000", "Front, old spring rate, with 3000000 characters: shorten it"] {
        assert!(said.contains(words), "{said}");
    }
    assert_eq!(file::read(&path).expect("whole"), noted("small"));
    let notes = file::write(&path, &noted(&"\u{1}".repeat(400_000))).expect_err("is refused").to_string();
    assert!(notes.contains("the notes, with 400000 characters"), "counted as they stand in the file: {notes}");
    // The most that may be written is the most that is read.
    let most = file::MOST_BYTES as usize - file::text(&noted("")).expect("writes").len();
    file::write(&path, &noted(&"n".repeat(most - 32))).expect("saves");
    assert_eq!(file::read(&path).expect("opens").notes.len(), most - 32);
}

#[test]
fn comments_are_seen_wherever_they_stand() {
    for (text, has) in [
        ("(version: 1, job: ())", false),
        ("(version: 1, job: (notes: \"// none /* here */\"))", false),
        ("(version: 1, job: (notes: \"a \\\" // none\"))", false),
        ("(version: 1, job: (notes: r#\"raw \" // none\"#))", false),
        ("// above\n(version: 1, job: ())", true),
        ("(version: 1, /* inside */ job: ())", true),
        ("(version: 1, job: ()) // behind", true),
        ("\u{FEFF}// first\r(version: 1, job: ())", true),
    ] {
        assert!(file::parse(text).is_ok(), "{text}");
        assert_eq!(file::has_comments(text), has, "{text}");
    }
    assert!(presets::PRESETS.iter().all(|p| file::has_comments(p.text)));
    assert!(!file::has_comments(&file::text(&presets::demo()).expect("writes")));
}

/// As editors of other systems save it: a mark in front, and the line ends of today's and of old machines.
#[test]
fn a_job_opens_with_a_byte_order_mark_and_with_line_ends_of_any_system() {
    let demo = presets::demo();
    for ends in ["\n", "\r\n", "\r"] {
        for mark in ["", "\u{FEFF}"] {
            let text = format!("{mark}{}", presets::PRESETS[0].text.replace('\n', ends));
            assert_eq!(file::parse(&text).unwrap_or_else(|e| panic!("{ends:?} {mark:?}: {e}")), demo);
            let record = springwright::shop::jobs_folder::from_text(&text);
            assert_eq!((record.vehicle, record.wrong), (demo.vehicle.name.clone(), None));
        }
    }
    let said = file::parse("\u{FEFF}(\rversion: 1,\rjob: (fron: ()),\r)").expect_err("is refused").to_string();
    assert!(said.starts_with("line 3, column "), "lines are counted as they end: {said}");
}

/// Every reason a disk gives has its advice; a full disk says so.
#[test]
fn a_full_or_read_only_disk_says_what_to_do() {
    for (kind, words) in [
        (std::io::ErrorKind::StorageFull, "The disk is full: free some space and save again"),
        (std::io::ErrorKind::QuotaExceeded, "The disk is full: free some space and save again"),
        (std::io::ErrorKind::ReadOnlyFilesystem, "This disk is read-only: save to another disk"),
        (std::io::ErrorKind::TimedOut, "Save again, or save in another folder"),
    ] {
        let said = FileError::Save { source: kind.into() }.to_string();
        assert!(said.contains(words), "{said}");
    }
}

#[test]
fn an_edit_is_due_soon_however_long_typing_goes_on() {
    let mut due = Due::default();
    assert_eq!(due.in_s(0.0), None);
    for tenth in 0..=9 {
        due.edited(f64::from(tenth) / 10.0);
    }
    assert_eq!(due.in_s(KEEP_WITHIN_S), Some(0.0), "the first edit is what counts");
    due.begun();
    assert_eq!(due.in_s(1.0), None);
    due.edited(1.25);
    assert_eq!(due.in_s(1.25), Some(KEEP_WITHIN_S), "an edit while it is being written");
    due.failed(3.0);
    assert_eq!(due.in_s(3.0), Some(10.0), "tried again, not forgotten");
}

#[test]
fn all_work_of_dead_windows_comes_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let start = || Keeper::start(folder.path()).expect("a folder to write").expect("a free place");
    let windows: Vec<Keeper> = (0..3).map(|_| start().0).collect();
    for (window, notes) in windows.iter().zip(["one", "two", "three"]) {
        keep(window, notes).expect("kept");
    }
    // A living window's work is its own.
    let (fourth, found) = start();
    assert!(found.work.is_none() && found.aside.is_empty());
    drop((windows, fourth));

    let (_next, found) = start();
    assert_eq!(found.work.as_ref().expect("the first").job.notes, "one");
    let aside: Vec<String> = found.aside.iter().map(|p| file::read(p).expect("a job file").notes).collect();
    assert_eq!(aside, ["two", "three"]);
    let words = found.words().expect("it is said");
    assert!(words.contains("has been restored") && words.contains("More unsaved work is in "), "{words}");
    let (_, found) = start();
    assert!(found.work.is_none() && found.aside.is_empty(), "nothing comes back twice");
}

/// A kept copy in another place than the first is not left behind.
#[test]
fn work_of_a_second_window_alone_comes_back_in_the_first() {
    let folder = tempfile::tempdir().expect("a folder");
    let start = || Keeper::start(folder.path()).expect("a folder to write").expect("a free place");
    let (first, (second, _)) = (start(), start());
    keep(&second, "second").expect("kept");
    drop((first, second));
    let (next, found) = start();
    assert_eq!(found.work.expect("comes back").job.notes, "second");
    drop(next);
    let (_, found) = start();
    assert_eq!(found.work.expect("and again after the next crash").job.notes, "second");
}

#[test]
fn kept_copies_that_cannot_be_read_are_moved_never_written_over() {
    let deep = format!("(path: None, job: {})", "(".repeat(100_000));
    let future = "(path: None, job: (from_the_future: 1), new: 2)".to_owned();
    for (bytes, what) in [
        (deep.as_bytes(), "deep"),
        (future.as_bytes(), "of a newer program"),
        (&b"\xff\xfe\x00"[..], "no text"),
        (&b""[..], "empty"),
    ] {
        let folder = tempfile::tempdir().expect("a folder");
        file::write_bytes(&folder.path().join("unsaved-1.ron"), bytes).expect("writes");
        let (keeper, found) = Keeper::start(folder.path()).expect("starts").expect("a place");
        assert!(found.work.is_none(), "{what}");
        assert_eq!(std::fs::read(&found.unreadable[0]).expect("still there"), bytes, "{what}");
        keep(&keeper, "new").expect("kept");
        assert_eq!(std::fs::read(&found.unreadable[0]).expect("still there"), bytes, "{what}");
    }
}

/// As large as it may be it comes back; beyond that what the file said is left out, for it can be read again; what is
/// typed is refused only when it could not be read either, and the copy before stays. A larger one is moved, not read.
#[test]
fn a_kept_copy_has_a_bound_and_loses_nothing_typed() {
    let most = springwright::base::bounds::KEPT_FILE.bytes() as usize;
    let folder = tempfile::tempdir().expect("a folder");
    let (keeper, _) = Keeper::start(folder.path()).expect("starts").expect("a place");
    let path = Some("/no/van.ron".into());
    let keep = |notes: usize, seen: usize| {
        let seen = Some("\"".repeat(seen));
        keeper.keep(KeptJob { path: path.clone(), job: noted(&"n".repeat(notes)), seen }).recv().expect("an answer")
    };
    let kept = || std::fs::metadata(folder.path().join("unsaved-1.ron")).expect("there").len() as usize;
    // The largest job there can be, and the largest file, of quotation marks alone.
    keep(1_900_000, 2_000_000).expect("kept");
    assert!((5_900_000..most).contains(&kept()), "{}", kept());
    keep(4_000_000, 3_000_000).expect("kept without what the file said");
    assert!((4_000_000..4_100_000).contains(&kept()), "{}", kept());
    let said = keep(most, 0).expect_err("is refused").to_string();
    assert!(said.ends_with(&format!("bytes; the maximum is {most}")), "{said}");
    assert!((4_000_000..4_100_000).contains(&kept()), "the copy before is there");
    drop(keeper);
    let (keeper, found) = Keeper::start(folder.path()).expect("starts").expect("a place");
    let work = found.work.expect("comes back");
    assert_eq!((work.job.notes.len(), work.seen), (4_000_000, None));
    drop(keeper);
    // A terabyte, without its disk: looked at by its size.
    let large = std::fs::File::create(folder.path().join("unsaved-1.ron")).expect("writes");
    large.set_len(1 << 40).expect("a file with holes");
    let (_, found) = Keeper::start(folder.path()).expect("starts").expect("a place");
    assert!(found.work.is_none());
    assert_eq!(std::fs::metadata(&found.unreadable[0]).expect("moved").len(), 1 << 40);
}

/// Kept copies of the first program knew path and job only.
#[test]
fn a_kept_copy_of_the_first_version_comes_back() {
    let folder = tempfile::tempdir().expect("a folder");
    file::write_text(&folder.path().join("unsaved-1.ron"), r#"(path: Some("/no/van.ron"), job: (notes: "typed"))"#)
        .expect("writes");
    let (_, found) = Keeper::start(folder.path()).expect("starts").expect("a place");
    assert_eq!(found.work.expect("comes back").job.notes, "typed");
}

#[test]
fn a_job_that_two_windows_have_open_is_noticed() {
    let folder = tempfile::tempdir().expect("a folder");
    let job = folder.path().join("van.ron");
    file::write(&job, &noted("one")).expect("saves");
    let start = || Keeper::start(folder.path()).expect("a folder to write").expect("a free place").0;
    let (first, second) = (start(), start());
    assert!(!first.has_open(Some(&job)).expect("noted"));
    assert!(second.has_open(Some(&folder.path().join("./van.ron"))).expect("noted"), "the same by another name");
    drop(first);
    assert!(!second.has_open(Some(&job)).expect("noted"), "that window is gone");
    assert!(!second.has_open(None).expect("noted"));
}

/// `tests/versions/V-NAME.ron`: jobs as programs of the past wrote them. They open, are solved, and survive being saved.
#[test]
fn files_of_every_version_open_and_newer_ones_are_refused_in_words() {
    let mut seen = Vec::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/versions");
    for path in std::fs::read_dir(folder).expect("tests/versions").flatten().map(|f| f.path()) {
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        let version: u32 = name.split('-').next().and_then(|v| v.parse().ok()).expect("V-NAME.ron");
        let job = file::read(&path).unwrap_or_else(|e| panic!("{name}: {e}"));
        assert!(worst(&solve(&job).findings) < Some(springwright::job::Level::Error), "{name}");
        assert_eq!(file::parse(&file::text(&job).expect("writes")).expect("reads"), job, "{name}");
        seen.push(version);
    }
    for version in 1..=file::VERSION {
        assert!(seen.contains(&version), "no sample of version {version} is kept in tests/versions");
    }
    let newer = format!("(version: {}, job: (by_then: (known: 3)), more: [1])", file::VERSION + 1);
    let said = file::parse(&newer).expect_err("is refused").to_string();
    assert_eq!(
        said,
        "this job has file version 4; this program reads version 3. Open it with the program version that saved it"
    );
}

/// Run by `tests/full-disk` on a disk of a few kilobytes, which it names in `SMALL_DISK`.
#[test]
#[ignore = "needs a small disk: run tests/full-disk"]
fn on_a_full_disk_the_old_file_and_the_kept_copy_stay() {
    let disk = std::env::var_os("SMALL_DISK").expect("SMALL_DISK names a folder on a small disk");
    let disk = Path::new(&disk);
    let path = disk.join("van.ron");
    file::write(&path, &noted("old")).expect("there is room for one");
    let keeper = Keeper::start(&disk.join("kept")).expect("starts").expect("a place").0;
    keep(&keeper, "old").expect("there is room for that");
    let mut ballast = Vec::new();
    for i in 0.. {
        let more = disk.join(format!("ballast-{i}"));
        match file::write_bytes(&more, &[7; 4096]) {
            Ok(()) => ballast.push(more),
            Err(error) => {
                assert_eq!(error.kind(), std::io::ErrorKind::StorageFull);
                break;
            }
        }
    }
    let said = file::write(&path, &noted("new")).expect_err("is full").to_string();
    assert!(said.contains("The disk is full: free some space and save again"), "{said}");
    assert_eq!(file::read(&path).expect("whole"), noted("old"));
    assert!(keep(&keeper, "new").is_err());
    let litter = std::fs::read_dir(disk).expect("a folder").flatten();
    assert!(!litter.into_iter().any(|e| e.file_name().to_string_lossy().starts_with('.')), "nothing half written");
    // A sheet in place of an older one, by the program itself.
    let sheet = disk.join("sheet.txt");
    let litter = |name: &str| name.starts_with('.');
    std::fs::remove_file(&ballast[0]).expect("makes room for the name");
    file::write_text(&sheet, "Printed: by springwright 0.1.0; check value 0123abcd.\n")
        .expect("there is room for that");
    let before = std::fs::read(&sheet).expect("reads");
    for out in [&sheet, &disk.join("new.pdf")] {
        let mut program = std::process::Command::new(env!("CARGO_BIN_EXE_springwright-cli"));
        let done = program.args(["sheet", "demo-orchard-van", "--out"]).arg(out).output().expect("runs");
        let said = String::from_utf8_lossy(&done.stderr);
        assert_eq!(done.status.code(), Some(3), "{said}");
        assert!(said.contains("the sheet could not be saved: No space left"), "{said}");
    }
    assert_eq!(std::fs::read(&sheet).expect("whole"), before);
    assert!(!disk.join("new.pdf").exists());
    let left = std::fs::read_dir(disk).expect("a folder").flatten();
    assert!(!left.into_iter().any(|e| litter(&e.file_name().to_string_lossy())), "nothing half written");
    for file in ballast.iter().skip(1).take(8) {
        std::fs::remove_file(file).expect("makes room");
    }
    keep(&keeper, "new").expect("there is room again");
    file::write(&path, &noted("new")).expect("and saving works again");
    assert_eq!(file::read(&path).expect("whole"), noted("new"));
}
