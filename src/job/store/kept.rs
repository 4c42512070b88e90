//! Work that is in no file yet, kept in case the machine dies.
//!
//! Every window holds one numbered place in the user's folder, locked for as long as it lives: `unsaved-N.ron` is its
//! kept copy, `unsaved-N.open` names the file it has open, so that a second window on the same job is noticed.

use std::fs::{File, TryLockError};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::JoinHandle;

use serde::{Deserialize, Serialize};

use super::file::{self, FileError};
use super::reading::{self, ReadError};
use crate::base::bounds::{KEPT_FILE, SETTINGS_FILE};
use crate::base::language::path_text;
use crate::job::Job;
use crate::say;

/// An edit is in the kept copy this number of seconds later, at the latest when the next frame is drawn.
pub const KEEP_WITHIN_S: f64 = 1.0;
/// Seconds until a copy that could not be written is tried again.
const AGAIN_AFTER_S: f64 = 10.0;
/// Windows that may be open at once.
const PLACES: usize = 16;

/// What a kept copy holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct KeptJob {
    /// The file it belongs to; `None`: not saved yet.
    pub path: Option<PathBuf>,
    /// The work.
    pub job: Job,
    /// What stood in that file when it was last read or saved; `None`: not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen: Option<String>,
}

/// When the kept copy has to be written: soon after the first edit that is not in it, however long typing goes on.
#[derive(Debug, Default)]
pub struct Due {
    at_s: Option<f64>,
}

impl Due {
    /// Something was edited.
    pub fn edited(&mut self, time_s: f64) {
        self.at_s.get_or_insert(time_s + KEEP_WITHIN_S);
    }

    /// Seconds until it is due, 0 for now; `None`: all is kept.
    pub fn in_s(&self, time_s: f64) -> Option<f64> {
        self.at_s.map(|at| (at - time_s).max(0.0))
    }

    /// It is being written, with every edit so far.
    pub fn begun(&mut self) {
        self.at_s = None;
    }

    /// It could not be written; it is tried again later.
    pub fn failed(&mut self, time_s: f64) {
        self.at_s = Some(time_s + AGAIN_AFTER_S);
    }
}

/// What the thread in the background does, in this order: a disk may take seconds, and typing goes on meanwhile.
enum Order {
    Keep(Box<KeptJob>, Sender<std::io::Result<()>>),
    Forget,
}

/// This window's place.
#[derive(Debug)]
pub struct Keeper {
    folder: PathBuf,
    number: usize,
    _lock: File,
    orders: Option<Sender<Order>>,
    thread: Option<JoinHandle<()>>,
}

/// What dead windows left.
#[derive(Debug, Default)]
pub struct Found {
    /// Work to go on with.
    pub work: Option<KeptJob>,
    /// More such work, now job files of their own.
    pub aside: Vec<PathBuf>,
    /// Copies that cannot be read, and where they lie.
    pub unreadable: Vec<PathBuf>,
}

impl Keeper {
    /// Takes the first free place in `folder`, and gathers what dead windows left in it; `None` when every place is
    /// taken.
    ///
    /// # Errors
    /// Whatever the disk says; then nothing can be kept there.
    pub fn start(folder: &Path) -> std::io::Result<Option<(Keeper, Found)>> {
        std::fs::create_dir_all(folder)?;
        let mut keeper: Option<Keeper> = None;
        let mut found = Found::default();
        for number in 1..=PLACES {
            let Some(lock) = lock(folder, number)? else { continue };
            let at = copy(folder, number);
            let left = found.read(&at, number);
            let is_ours = keeper.is_none();
            if is_ours {
                keeper = Some(Keeper::at(folder, number, lock)?);
            }
            let (Some(place), Some(left)) = (&keeper, left) else { continue };
            if found.work.is_some() {
                found.put_aside(place, &at, &left);
            } else {
                if !is_ours {
                    std::fs::rename(&at, copy(folder, place.number))?;
                }
                found.work = Some(left);
            }
        }
        if let Some(keeper) = &keeper {
            keeper.has_open(None)?;
        }
        Ok(keeper.map(|k| (k, found)))
    }

    fn at(folder: &Path, number: usize, lock: File) -> std::io::Result<Keeper> {
        let (sender, orders) = channel();
        let path = copy(folder, number);
        let thread = std::thread::Builder::new().name("kept copy".into()).spawn(move || carry_out(&path, &orders))?;
        Ok(Keeper { folder: folder.to_owned(), number, _lock: lock, orders: Some(sender), thread: Some(thread) })
    }

    /// Writes the kept copy in the background; whether that went well comes later. The copy before stays until then.
    pub fn keep(&self, kept: KeptJob) -> Receiver<std::io::Result<()>> {
        let (sender, said) = channel();
        self.order(Order::Keep(Box::new(kept), sender));
        said
    }

    /// The work is in its file: the kept copy has done its duty, once what is being written is there.
    pub fn forget(&self) {
        self.order(Order::Forget);
    }

    fn order(&self, order: Order) {
        if let Some(orders) = &self.orders {
            // A thread that is gone answers nothing, which counts as a failure.
            let _ = orders.send(order);
        }
    }

    /// Writes work next to the kept copy, as a job file of its own, and says where.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn put_aside(&self, job: &Job) -> Result<PathBuf, FileError> {
        let path = self.free_name();
        file::write(&path, job)?;
        Ok(path)
    }

    /// Copies a file next to the kept copy before it is saved over, and says where.
    ///
    /// # Errors
    /// Whatever the disk says.
    pub fn put_copy_aside(&self, of: &Path) -> std::io::Result<PathBuf> {
        let path = self.free_name();
        file::write_bytes(&path, &file::read_bytes(of)?)?;
        Ok(path)
    }

    fn free_name(&self) -> PathBuf {
        free_name(&self.folder, "put-aside", self.number)
    }

    /// Notes which file this window has open; true when another window has it open, too.
    ///
    /// # Errors
    /// Whatever the disk says; then other windows do not know.
    pub fn has_open(&self, path: Option<&Path>) -> std::io::Result<bool> {
        let whole = path.map(|p| std::fs::canonicalize(p).unwrap_or_else(|_| p.to_owned()));
        let name = whole.as_deref().and_then(Path::to_str).unwrap_or_default();
        file::write_text(&open_name(&self.folder, self.number), name)?;
        let others = (1..=PLACES).filter(|n| *n != self.number);
        Ok(!name.is_empty()
            && others
                .filter(|n| reading::text(&open_name(&self.folder, *n), &SETTINGS_FILE).is_ok_and(|open| open == name))
                .any(|n| matches!(lock(&self.folder, n), Ok(None))))
    }
}

impl Drop for Keeper {
    /// Waits for what is being written, before the place is another window's.
    fn drop(&mut self) {
        self.orders = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

/// Carries out orders until the window is gone.
fn carry_out(path: &Path, orders: &Receiver<Order>) {
    for order in orders {
        match order {
            Order::Keep(kept, said) => {
                // Nobody may be waiting for the answer.
                let _ = said.send(text_of(*kept).and_then(|text| file::write_text(path, &text)));
            }
            // Already gone is fine, too.
            Order::Forget => drop(std::fs::remove_file(path)),
        }
    }
}

/// The text of a kept copy, never more than is read again. The content of the job's file goes first: it can be asked
/// again.
fn text_of(mut kept: KeptJob) -> std::io::Result<String> {
    let text = |kept: &KeptJob| file::options().to_string(kept).map_err(std::io::Error::other);
    let mut whole = text(&kept)?;
    if whole.len() as u64 > KEPT_FILE.bytes() && kept.seen.take().is_some() {
        whole = text(&kept)?;
    }
    if whole.len() as u64 > KEPT_FILE.bytes() {
        let (bytes, most) = (whole.len(), KEPT_FILE.bytes());
        return Err(std::io::Error::other(say!("it needs {bytes} bytes; the maximum is {most}", bytes, most)));
    }
    Ok(whole)
}

impl Found {
    /// The kept copy there, if there is one; one that cannot be read is moved out of the way, never over.
    fn read(&mut self, at: &Path, number: usize) -> Option<KeptJob> {
        let text = match reading::text(at, &KEPT_FILE) {
            Err(ReadError::Disk(error)) if error.kind() == ErrorKind::NotFound => return None,
            text => text.ok(),
        };
        let kept = text.and_then(|text| file::options().from_str::<KeptJob>(&text).ok());
        if kept.is_none() {
            let aside = free_name(at.parent().unwrap_or(Path::new(".")), "unreadable", number);
            let is_moved = std::fs::rename(at, &aside).is_ok();
            self.unreadable.push(if is_moved { aside } else { at.to_owned() });
        }
        kept
    }

    /// Makes kept work a job file of its own; where that fails it stays what it is, for the next start.
    fn put_aside(&mut self, keeper: &Keeper, at: &Path, left: &KeptJob) {
        if let Ok(path) = keeper.put_aside(&left.job) {
            self.aside.push(path);
            let _ = std::fs::remove_file(at);
        }
    }

    /// What there is to say about it.
    pub fn words(&self) -> Option<String> {
        let work = self.work.as_ref().map(|work| match &work.path {
            Some(path) => say!(
                "Unsaved work on {path} has been restored. Save it, or choose File, New to start another job.",
                path = path_text(path)
            ),
            None => say!(
                "Unsaved work on a job that was never saved has been restored. Save it, or choose File, New to start another job."
            ),
        });
        let words: Vec<String> = work.into_iter().chain(self.words_elsewhere()).collect();
        (!words.is_empty()).then(|| words.join(" "))
    }

    /// What there is to say about work that is not the one to go on with.
    pub fn words_elsewhere(&self) -> Option<String> {
        let mut words = Vec::new();
        words.extend(self.aside.iter().map(|p| say!("More unsaved work is in {path}.", path = path_text(p))));
        let unreadable = self.unreadable.iter();
        words.extend(
            unreadable.map(|p| say!("Unsaved work was kept but cannot be read; it is in {path}.", path = path_text(p))),
        );
        (!words.is_empty()).then(|| words.join(" "))
    }
}

/// A name that no file in the folder has: what for, when, and whose.
fn free_name(folder: &Path, what: &str, number: usize) -> PathBuf {
    (now_ms()..)
        .map(|ms| folder.join(format!("{what}-{ms}-{number}.ron")))
        .find(|p| !p.exists())
        .unwrap_or_else(|| folder.join(format!("{what}.ron")))
}

fn copy(folder: &Path, number: usize) -> PathBuf {
    folder.join(format!("unsaved-{number}.ron"))
}

fn open_name(folder: &Path, number: usize) -> PathBuf {
    folder.join(format!("unsaved-{number}.open"))
}

/// The lock of a place; `None` when a living window holds it.
fn lock(folder: &Path, number: usize) -> std::io::Result<Option<File>> {
    let path = folder.join(format!("unsaved-{number}.lock"));
    let lock = File::options().create(true).truncate(false).write(true).open(path)?;
    match lock.try_lock() {
        Ok(()) => Ok(Some(lock)),
        Err(TryLockError::WouldBlock) => Ok(None),
        Err(TryLockError::Error(error)) => Err(error),
    }
}

/// Milliseconds since 1970, for names that do not repeat.
fn now_ms() -> u128 {
    std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default().as_millis()
}
