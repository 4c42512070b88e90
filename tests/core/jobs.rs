//! The jobs of a folder: found by their names, each as its own file says, whatever else lies there.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use std::path::Path;
use std::process::Command;
use std::time::{Duration, SystemTime};

use springwright::base::units::Origin;
use springwright::base::units::entry::AnyEntry as _;
use springwright::job::{Job, Weighing, file};
use springwright::shop::jobs_folder;
use springwright::shop::presets;

fn job(customer: &str, vehicle: &str, date: &str) -> Job {
    let mut job = presets::demo();
    (job.customer.name, job.vehicle.name) = (customer.into(), vehicle.into());
    job.after = Weighing { date: date.into(), ..job.after };
    job
}

fn save(folder: &Path, name: &str, job: &Job, age_s: u64) {
    let path = folder.join(name);
    std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
    file::write(&path, job).expect("saves");
    let opened = std::fs::File::options().write(true).open(&path).expect("opens");
    opened.set_modified(SystemTime::now() - Duration::from_secs(age_s)).expect("sets its time");
}

/// Skimming a file and reading it say the same, for every job there is in this repository, as it is and as it is saved.
#[test]
fn a_skimmed_file_says_what_the_read_job_says() {
    let mut seen = 0;
    for folder in ["presets", "tests/cases", "tests/kinds", "tests/doubtful", "tests/bad", "tests/versions"] {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
        for path in std::fs::read_dir(folder).expect("a folder").flatten().map(|e| e.path()) {
            let Ok(text) = std::fs::read_to_string(&path) else { continue };
            let Ok(job) = file::parse(&text) else { continue };
            for text in [text, file::text(&job).expect("writes")] {
                let record = jobs_folder::from_text(&text);
                let names = [&record.customer, &record.vehicle, &record.identification, &record.change];
                let own = [&job.customer.name, &job.vehicle.name, &job.vehicle.identification, &job.vehicle.change];
                assert_eq!(names, own, "{}", path.display());
                assert_eq!((&record.before, &record.after), (&job.before.date, &job.after.date), "{}", path.display());
                assert_eq!(record.wrong, None);
                seen += 1;
            }
        }
    }
    assert!(seen > 200, "{seen}");
}

#[test]
fn strange_texts_in_names_come_back_as_typed() {
    for name in ["\"quoted\" \\ (and) [brackets]", "Ωμέγα: 北\nline", "// no comment", "", "customer: (name: \"no\")"]
    {
        let text = file::text(&job(name, "van", "2026-01-02")).expect("writes");
        assert_eq!(jobs_folder::from_text(&text).customer, name);
    }
    for text in [
        "(version: 1, job: (customer : (name /* here */ : r#\"Ra\"w\"#), notes: \"x\"))",
        "(version: 1, job: (notes: \"customer: (name: \\\"no\\\")\", customer: (name: 'x')))",
    ] {
        let wanted = file::parse(text).map(|j| j.customer.name);
        let record = jobs_folder::from_text(text);
        match wanted {
            Ok(name) => assert_eq!(record.customer, name),
            Err(error) => assert_eq!(record.wrong, Some(error.to_string())),
        }
    }
}

#[test]
fn the_folder_is_searched_and_sorted_and_what_is_no_job_says_why() {
    let folder = tempfile::tempdir().expect("a folder");
    save(folder.path(), "old.ron", &job("A. Marrow", "Orchard van", "2019-05-06"), 3000);
    save(folder.path(), "2026/new.ron", &job("Söderlund & Co", "Flatbed", "2026-02-03"), 10);
    save(folder.path(), "mid.ron", &job("B. Marrow", "Camper", "2026-02-04"), 500);
    for (name, text) in [
        ("cut.ron", "(version: 1, job: (notes: \"x\""),
        ("future.ron", "(version: 7, job: (customer: (name: \"later\")))"),
        (".hidden.ron", "("),
        ("shelf.csv.columns.ron", "("),
        ("new.ron~", "("),
    ] {
        file::write_text(&folder.path().join(name), text).expect("writes");
    }
    let records = jobs_folder::list(folder.path()).expect("lists");
    let (good, wrong): (Vec<_>, Vec<_>) = records.iter().partition(|r| r.wrong.is_none());
    let names: Vec<&str> = good.iter().map(|r| r.customer.as_str()).collect();
    assert_eq!(names, ["Söderlund & Co", "B. Marrow", "A. Marrow"], "the one saved last first");
    assert_eq!(wrong.len(), 2);
    let future = wrong.iter().find(|r| r.path.ends_with("future.ron")).and_then(|r| r.wrong.as_deref());
    assert!(future.is_some_and(|w| w.starts_with("this job has file version 7;")), "{future:?}");
    let found = |words: &str| records.iter().filter(|r| r.has(words)).count();
    for (words, count) in [
        ("marrow", 2),
        ("MARROW 2019", 1),
        ("söder", 1),
        ("2026-02", 2),
        ("camper b.", 1),
        ("nobody", 0),
        ("new.ron", 1),
    ] {
        assert_eq!(found(words), count, "{words}");
    }
    assert!(jobs_folder::list(&folder.path().join("none")).is_err());
}

/// A listing that is no longer wanted reads nothing more.
#[test]
fn a_listing_stops_when_it_is_no_longer_wanted() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["a.ron", "b/c.ron", "b/d/e.ron"] {
        save(folder.path(), name, &job("Ash", "Van", ""), 0);
    }
    let asked = std::sync::atomic::AtomicUsize::new(0);
    let wanted = |times: usize| {
        asked.store(0, std::sync::atomic::Ordering::Relaxed);
        let is_wanted = || asked.fetch_add(1, std::sync::atomic::Ordering::Relaxed) < times;
        jobs_folder::list_while(folder.path(), &is_wanted).expect("a folder").len()
    };
    assert_eq!(wanted(usize::MAX), 3);
    assert_eq!(wanted(0), 0);
    assert!(wanted(6) < 3);
}

#[test]
fn the_command_line_lists_them() {
    let folder = tempfile::tempdir().expect("a folder");
    save(folder.path(), "old.ron", &job("A. Marrow", "Orchard van", "2019-05-06"), 3000);
    save(folder.path(), "2026/new.ron", &job("Two\nlines", "Flatbed", "2026-02-03"), 10);
    let run = |args: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_springwright-cli"));
        command.arg("jobs").args(args).current_dir(folder.path()).output().expect("runs")
    };
    let all = String::from_utf8(run(&[]).stdout).expect("text");
    assert_eq!(
        all,
        "2026-02-03   Two lines                Flatbed                                  2026/new.ron\n\
         2019-05-06   A. Marrow                Orchard van                              old.ron\n"
    );
    let found = String::from_utf8(run(&[".", "--find", "marrow VAN"]).stdout).expect("text");
    assert!(found.ends_with("old.ron\n") && found.lines().count() == 1, "{found}");
    let none = run(&["none"]);
    assert_eq!(none.status.code(), Some(3));
    assert!(String::from_utf8_lossy(&none.stderr).trim_end().ends_with("folder: none"));
}

#[test]
fn a_job_started_from_another_measures_nothing_it_did_not_measure() {
    let old = presets::demo();
    let new = jobs_folder::start_from(&old);
    assert!(new.customer.name.is_empty() && new.vehicle.identification.is_empty() && new.notes.is_empty());
    assert!(new.before == Weighing::default() && new.after == Weighing::default());
    assert_eq!((&new.shop, &new.vehicle.name), (&old.shop, &old.vehicle.name));
    assert_eq!(old.vehicle.wheelbase.origin(), Some(Origin::Measured));
    assert_eq!(
        (new.vehicle.wheelbase.origin(), &new.vehicle.wheelbase.text),
        (Some(Origin::Quoted), &old.vehicle.wheelbase.text)
    );
    assert_eq!(new.vehicle.wheelbase.earlier().len(), 1, "what was measured there stays, too");
    springwright::solve::solve(&new);
}
