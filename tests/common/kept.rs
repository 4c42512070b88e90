//! Jobs that ship and jobs kept beside the tests: each read once, solved once and printed once for all tests of a program.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use springwright::base::language::{Voice, speak};
use springwright::job::{Job, file};
use springwright::report::Report;
use springwright::report::sheets::Kind;
use springwright::shop::presets::PRESETS;
use springwright::solve::answer::Answer;
use springwright::solve::solve;

use super::{folders, sheets};

/// A job with what follows from it; both are as they were read, whatever a test does to its own copy.
pub struct Kept {
    /// The name of a shipped job, the path of another.
    pub name: String,
    pub job: Job,
    answer: OnceLock<Answer>,
    sheets: [OnceLock<Report>; Kind::ALL.len()],
}

impl Kept {
    fn new(name: String, job: Job) -> Self {
        Kept { name, job, answer: OnceLock::new(), sheets: Default::default() }
    }

    pub fn answer(&self) -> &Answer {
        self.answer.get_or_init(|| {
            let _english = speak(Voice::default());
            solve(&self.job)
        })
    }

    /// As [`sheets::sheet`] prints it.
    pub fn sheet(&self, kind: Kind) -> &Report {
        let at = Kind::ALL.iter().position(|k| *k == kind).expect("a sheet");
        self.sheets[at].get_or_init(|| sheets::sheet(kind, &self.job, self.answer()))
    }
}

/// Every shipped job.
pub fn shipped() -> &'static [Kept] {
    static SHIPPED: OnceLock<Vec<Kept>> = OnceLock::new();
    SHIPPED.get_or_init(|| {
        let job = |text| file::parse(text).expect("a shipped job");
        PRESETS.iter().map(|p| Kept::new(p.name.to_owned(), job(p.text))).collect()
    })
}

/// The shipped job of this name.
#[track_caller]
pub fn named(name: &str) -> &'static Kept {
    shipped().iter().find(|kept| kept.name == name).expect(name)
}

/// Every job of these folders; of `bad`, whose files are wrong on purpose, those that can be read.
pub fn in_folders(folders: &[&str]) -> impl Iterator<Item = &'static Kept> {
    const NAMES: [&str; 6] = ["bad", "cases", "doubtful", "kinds", "released", "withheld"];
    static READ: [OnceLock<Vec<Kept>>; NAMES.len()] = [const { OnceLock::new() }; NAMES.len()];
    let of = |name: &str| {
        let read = &READ[NAMES.iter().position(|known| *known == name).expect("a folder of jobs")];
        let job = |path: PathBuf| match (file::read(&path), path.display().to_string()) {
            (Ok(job), of) => Some(Kept::new(of, job)),
            (Err(_), _) if name == "bad" => None,
            (Err(why), of) => panic!("{of} is no job: {why}"),
        };
        read.get_or_init(|| folders::job_files(name).into_iter().filter_map(job).collect()).iter()
    };
    folders.iter().flat_map(|name| of(name)).collect::<Vec<_>>().into_iter()
}

/// A job of a folder beside the tests: "withheld/ratio-turned".
#[track_caller]
pub fn of_folder(name: &str) -> &'static Kept {
    let (folder, file) = name.split_once('/').expect("a folder and a name");
    let is_it = |kept: &&Kept| Path::new(&kept.name).file_stem() == Some(OsStr::new(file));
    in_folders(&[folder]).find(is_it).expect(name)
}

/// The shipped ones and those of these folders.
pub fn with_shipped(folders: &[&str]) -> impl Iterator<Item = &'static Kept> {
    shipped().iter().chain(in_folders(folders))
}
