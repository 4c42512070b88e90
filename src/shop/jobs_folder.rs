//! The folder of jobs as the shop's record: all jobs below a folder, found by customer, vehicle or date.
//!
//! Only a few names are wanted of each file, so a file is skimmed for them and not read as a job; one that cannot be
//! skimmed is read in full, and if it is no job, this is reported. Nothing is kept between two listings.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use crate::base::bounds::FOLDER_FILES;
use crate::base::language::{speak, spoken};
use crate::base::units::Origin;
use crate::job::{Job, Predicted, Walk as _, Weighing, file};
use crate::say;

/// Folders inside folders that are looked into.
const DEEPEST: usize = 6;
/// Files one thread takes before another thread is worth starting.
const SHARE: usize = 64;

/// What is shown of a job in a list.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Record {
    /// Its file.
    pub path: PathBuf,
    /// The customer's name.
    pub customer: String,
    /// The vehicle.
    pub vehicle: String,
    /// Registration or chassis number.
    pub identification: String,
    /// What was changed.
    pub change: String,
    /// Date of the weigh-in before, as typed.
    pub before: String,
    /// Date of the weigh-in after, as typed.
    pub after: String,
    /// When the file was written last.
    pub written: Option<SystemTime>,
    /// Why the file is no job.
    pub wrong: Option<String>,
    /// No file: the folder holds more than are listed.
    pub is_over: bool,
}

impl Record {
    /// The later weigh-in's date, as typed.
    pub fn date(&self) -> &str {
        if self.after.trim().is_empty() { &self.before } else { &self.after }
    }

    /// The day on which its file was written last, as year, month and day.
    pub fn saved_on(&self) -> Option<String> {
        let at = jiff::ZonedDateTime::try_from(self.written?).ok()?;
        Some(at.date().to_string())
    }

    /// All that it can be found by.
    pub fn text(&self) -> String {
        let name = self.path.file_name().unwrap_or_default().to_string_lossy();
        let all = [&self.customer, &self.vehicle, &self.identification, &self.change, &self.before, &self.after];
        all.into_iter().map(String::as_str).chain([&*name]).collect::<Vec<_>>().join("\n")
    }

    /// Every word of `words` occurs in it somewhere, in capitals or not.
    pub fn has(&self, words: &str) -> bool {
        let all = self.text().to_lowercase();
        words.to_lowercase().split_whitespace().all(|word| all.contains(word))
    }

    /// The field that is at this path in a job file.
    fn field(&mut self, path: [&str; 3]) -> Option<&mut String> {
        match path {
            ["job", "customer", "name"] => Some(&mut self.customer),
            ["job", "vehicle", "name"] => Some(&mut self.vehicle),
            ["job", "vehicle", "identification"] => Some(&mut self.identification),
            ["job", "vehicle", "change"] => Some(&mut self.change),
            ["job", "before", "date"] => Some(&mut self.before),
            ["job", "after", "date"] => Some(&mut self.after),
            _ => None,
        }
    }
}

/// All jobs below a folder, the one written last first.
///
/// # Errors
/// When the folder itself cannot be read. What cannot be read in it is in the list, and says why.
pub fn list(folder: &Path) -> std::io::Result<Vec<Record>> {
    list_while(folder, &|| true)
}

/// As [`list`], as long as it is wanted: from then on nothing more is read, and what was found until then is given back.
///
/// # Errors
/// As [`list`].
pub fn list_while(folder: &Path, is_wanted: &(dyn Fn() -> bool + Sync)) -> std::io::Result<Vec<Record>> {
    let (mut files, mut unread) = (Vec::new(), Vec::new());
    gather(folder, DEEPEST, is_wanted, &mut files, &mut unread)?;
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let share = files.len().div_ceil(threads).max(SHARE);
    let mut records: Vec<Record> = std::thread::scope(|scope| {
        let voice = spoken();
        let read = move |paths: &[PathBuf]| {
            let _voice = speak(voice);
            paths.iter().take_while(|_| is_wanted()).map(|p| record(p)).collect::<Vec<_>>()
        };
        let parts: Vec<_> = files.chunks(share).map(|paths| scope.spawn(move || read(paths))).collect();
        let joined = parts.into_iter().map(|part| part.join().unwrap_or_else(|e| std::panic::resume_unwind(e)));
        joined.flatten().chain(unread).collect()
    });
    records.sort_by(|a, b| b.written.cmp(&a.written).then_with(|| a.path.cmp(&b.path)));
    Ok(records)
}

/// Job files below a folder, neither hidden ones nor those behind links; and what in it cannot be read.
fn gather(
    folder: &Path,
    deep: usize,
    is_wanted: &dyn Fn() -> bool,
    files: &mut Vec<PathBuf>,
    unread: &mut Vec<Record>,
) -> std::io::Result<()> {
    let wrong = |path: &Path, error: std::io::Error| Record {
        path: path.to_owned(),
        wrong: Some(say!("it cannot be read: {error}", error)),
        ..Record::default()
    };
    for entry in std::fs::read_dir(folder)?.take_while(|_| is_wanted()) {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                unread.push(wrong(folder, error));
                continue;
            }
        };
        let name = entry.file_name();
        let name = name.to_string_lossy();
        if name.starts_with('.') {
            continue;
        }
        let kind = match entry.file_type() {
            Ok(kind) => kind,
            Err(error) => {
                unread.push(wrong(&entry.path(), error));
                continue;
            }
        };
        if kind.is_dir() && deep > 0 {
            if let Err(error) = gather(&entry.path(), deep - 1, is_wanted, files, unread) {
                unread.push(wrong(&entry.path(), error));
            }
        } else if kind.is_file() && name.ends_with(".ron") && !name.ends_with(".columns.ron") {
            if files.len() == FOLDER_FILES.count() {
                if !unread.iter().any(|r| r.is_over) {
                    unread.push(over(folder));
                }
                return Ok(());
            }
            files.push(entry.path());
        }
    }
    Ok(())
}

/// Says that there is more than is listed.
fn over(folder: &Path) -> Record {
    let most = FOLDER_FILES.count();
    let wrong = say!("more than {most} job files: the rest are not listed. Choose a subfolder", most);
    Record { path: folder.to_owned(), wrong: Some(wrong), is_over: true, ..Record::default() }
}

fn record(path: &Path) -> Record {
    let written = std::fs::metadata(path).and_then(|m| m.modified()).ok();
    let mut record = match file::read_text(path) {
        Ok(text) => from_text(&text),
        Err(error) => Record { wrong: Some(error.to_string()), ..Record::default() },
    };
    (record.path, record.written) = (path.to_owned(), written);
    record
}

/// What is shown of a job file with this text; path and time are the caller's to say.
pub fn from_text(text: &str) -> Record {
    skim(&file::plain(text)).unwrap_or_else(|| in_full(text))
}

/// The same from the whole job.
fn in_full(text: &str) -> Record {
    match file::parse(text) {
        Ok(job) => Record {
            customer: job.customer.name,
            vehicle: job.vehicle.name,
            identification: job.vehicle.identification,
            change: job.vehicle.change,
            before: job.before.date,
            after: job.after.date,
            ..Record::default()
        },
        Err(error) => Record { wrong: Some(error.to_string()), ..Record::default() },
    }
}

/// Finds the names without reading the job: keys, brackets and texts, as this program writes them. `None` for whatever
/// it does not know, such as raw texts, and for brackets that do not close: that is then read in full.
///
/// The reader of RON, asked for the same names and skipping the rest, takes a quarter to half a millisecond for a shipped
/// job (released build, busy machine): a second or two for 5,000 in one thread, against 200 ms allowed.
fn skim(text: &str) -> Option<Record> {
    let mut record = Record::default();
    let mut path: Vec<&str> = Vec::new();
    let mut key = "";
    let (bytes, mut at) = (text.as_bytes(), 0);
    let mut version = "";
    while let Some(byte) = bytes.get(at) {
        match byte {
            b'(' | b'[' | b'{' => path.push(std::mem::take(&mut key)),
            b')' | b']' | b'}' => {
                path.pop()?;
                key = "";
            }
            b',' => key = "",
            b'"' => {
                let end = end_of_text(bytes, at)?;
                if let [_, job, part] = path[..]
                    && let Some(field) = record.field([job, part, key])
                {
                    *field = ron::from_str(&text[at..=end]).ok()?;
                }
                at = end;
            }
            b'/' if bytes.get(at + 1) == Some(&b'/') => at += text[at..].find('\n').unwrap_or(text.len() - at),
            b'/' | b'\'' | b'#' => return None,
            b if is_word(*b) => {
                let end = at + bytes[at..].iter().position(|b| !is_word(*b)).unwrap_or(bytes.len() - at);
                let word = &text[at..end];
                let then = bytes[end..].iter().find(|b| !b.is_ascii_whitespace());
                if then == Some(&b':') {
                    key = word;
                } else if path.len() == 1 && key == "version" {
                    version = word;
                }
                at = end - 1;
            }
            _ => {}
        }
        at += 1;
    }
    (path.is_empty() && version.parse() == Ok(file::VERSION)).then_some(record)
}

fn is_word(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || byte == b'_'
}

/// Where the text that begins at `start` ends: its closing quotation mark.
fn end_of_text(bytes: &[u8], start: usize) -> Option<usize> {
    let mut at = start + 1;
    loop {
        match bytes.get(at)? {
            b'\\' => at += 2,
            b'"' => return Some(at),
            _ => at += 1,
        }
    }
}

/// A new job from an old one: shop, vehicle and what was measured on its axles stay; whose it is, its number, the
/// weigh-ins, what was predicted and taken, and the notes are blank. What was measured on the old vehicle is only quoted
/// for this one; each such reading also stays as an earlier one.
#[must_use]
pub fn start_from(old: &Job) -> Job {
    let mut job = old.clone();
    job.customer = Default::default();
    job.vehicle.identification.clear();
    (job.before, job.after, job.predicted) = (Weighing::default(), Weighing::default(), Predicted::default());
    (job.front.taken, job.rear.taken) = Default::default();
    job.notes.clear();
    job.walk_mut(&mut String::new(), &mut |_, entry| {
        if entry.origin() == Some(Origin::Measured) {
            entry.set_origin(Some(Origin::Quoted));
        }
    });
    job
}
