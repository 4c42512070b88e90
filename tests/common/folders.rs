//! What the tests over folders of job files share.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use springwright::job::{Finding, file};

/// The job files of a folder beside the tests, sorted by name.
pub fn job_files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(folder);
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| entry.expect("an entry of the folder").path())
        .filter(|path| path.extension().is_some_and(|e| e == "ron"))
        .collect();
    files.sort();
    files
}

/// Fails unless the folder holds exactly these job files, by name without ending.
#[allow(dead_code, reason = "each test program uses its own part of this")]
#[track_caller]
pub fn holds_exactly<'a>(folder: &str, names: impl IntoIterator<Item = &'a str>) {
    let stem = |path: &PathBuf| path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let there: BTreeSet<String> = job_files(folder).iter().map(stem).collect();
    let named: BTreeSet<String> = names.into_iter().map(str::to_owned).collect();
    let only = |these: &BTreeSet<String>, those: &BTreeSet<String>| these - those;
    assert_eq!(
        (only(&there, &named), only(&named, &there)),
        Default::default(),
        "tests/{folder}: files that no test names, and names without a file"
    );
}

/// What mends a finding, a line each below it.
#[allow(dead_code, reason = "each test program uses its own part of this")]
pub fn mends(f: &Finding) -> String {
    f.mends.iter().map(|m| format!("  {}\n", m.for_file())).collect()
}

/// Compares what was found for `job_file` with the `.txt` beside it; with `UPDATE=1` writes it instead.
///
/// Returns the difference, if any.
#[allow(dead_code, reason = "each test program uses its own part of this")]
pub fn differs(job_file: &Path, found: &str) -> Option<String> {
    let beside = job_file.with_extension("txt");
    if std::env::var_os("UPDATE").is_some_and(|v| v == "1") {
        file::write_text(&beside, found).expect("the expected text can be written");
        return None;
    }
    let expected = std::fs::read_to_string(&beside).unwrap_or_default();
    (expected != found).then(|| {
        format!("{}\n--- expected\n{expected}--- found\n{found}", job_file.file_name().unwrap_or_default().display())
    })
}
