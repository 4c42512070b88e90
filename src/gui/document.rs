//! The open job: its file, its past, and the copy kept in case the machine dies.

use std::fs::{File, TryLockError};
use std::path::{Path, PathBuf};

use eframe::egui::util::undoer::Undoer;
use serde::{Deserialize, Serialize};

use crate::job::Job;
use crate::job::file::{self, FileError};

/// Seconds without an edit after which the kept copy is written.
const KEEP_AFTER_S: f64 = 1.5;
/// Windows that may be open at once, each with a kept copy of its own.
const SLOTS: usize = 16;

/// A job as it stands in a file.
#[derive(Debug, Clone, PartialEq)]
pub struct OnDisk {
    /// Where; `None` for a new or shipped job.
    pub path: Option<PathBuf>,
    /// What stands there.
    pub job: Job,
}

/// One moment: the job, and which of the window's files it belongs to. Undo goes back through
/// opens, too; what stands in a file is not part of the past, since undo does not change the disk.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment {
    /// The job as edited.
    pub job: Job,
    file: usize,
}

/// The open job.
pub struct Document {
    /// Now.
    pub now: Moment,
    files: Vec<OnDisk>,
    undoer: Undoer<Moment>,
    kept: Option<Kept>,
    changed_at: Option<f64>,
    last: Job,
}

/// The place of the kept copy, locked for as long as this window is open.
struct Kept {
    path: PathBuf,
    _lock: File,
}

/// What a kept copy holds.
#[derive(Serialize, Deserialize)]
struct KeptJob {
    path: Option<PathBuf>,
    job: Job,
}

impl Document {
    /// A document on a job that needs no saving, without a kept copy.
    pub fn new(job: Job) -> Self {
        Document {
            last: job.clone(),
            files: vec![OnDisk { path: None, job: job.clone() }],
            now: Moment { job, file: 0 },
            undoer: Undoer::default(),
            kept: None,
            changed_at: None,
        }
    }

    /// Keeps copies in `folder` from now on; gives back work that a dead window left there.
    ///
    /// # Errors
    /// Whatever the disk says; then no copy is kept, and the caller should say so.
    pub fn keep_in(&mut self, folder: &Path) -> std::io::Result<Option<String>> {
        std::fs::create_dir_all(folder)?;
        for slot in 1..=SLOTS {
            let path = folder.join(format!("unsaved-{slot}.ron"));
            let lock = File::options().create(true).truncate(false).write(true).open(path.with_extension("lock"))?;
            match lock.try_lock() {
                Ok(()) => {}
                Err(TryLockError::WouldBlock) => continue,
                Err(TryLockError::Error(error)) => return Err(error),
            }
            let words = self.recover(&path);
            self.kept = Some(Kept { path, _lock: lock });
            return Ok(words);
        }
        Ok(None)
    }

    fn recover(&mut self, path: &Path) -> Option<String> {
        let text = std::fs::read_to_string(path).ok()?;
        let Ok(kept) = file::options().from_str::<KeptJob>(&text) else {
            let aside = path.with_file_name(format!("unreadable-{}.ron", now_ms()));
            let place = if std::fs::rename(path, &aside).is_ok() { aside } else { path.to_owned() };
            return Some(format!("Unsaved work was kept but cannot be read; it lies in {}", place.display()));
        };
        let disk = kept.path.as_deref().and_then(|p| file::read(p).ok()).unwrap_or_default();
        let name = kept.path.as_ref().map_or("a job not yet saved".to_owned(), |p| p.display().to_string());
        self.last = kept.job.clone();
        self.belongs_to(OnDisk { path: kept.path, job: disk }, kept.job);
        Some(format!("Your unsaved work on {name} was kept and is open again. Save it, or use File, New to leave it."))
    }

    /// Makes `job` the open one, in a file of its own among this window's.
    fn belongs_to(&mut self, disk: OnDisk, job: Job) {
        self.files.push(disk);
        self.now = Moment { job, file: self.files.len() - 1 };
    }

    /// The open job's file, as last read or saved.
    pub fn disk(&self) -> &OnDisk {
        &self.files[self.now.file]
    }

    /// There is something that is in no file.
    pub fn is_dirty(&self) -> bool {
        self.now.job != self.disk().job
    }

    /// The name for the title.
    pub fn name(&self) -> String {
        match &self.disk().path {
            Some(path) => {
                path.file_name().map_or_else(|| path.display().to_string(), |n| n.to_string_lossy().into_owned())
            }
            None if self.now.job.vehicle.name.trim().is_empty() => "new job".into(),
            None => format!("{} (not saved)", self.now.job.vehicle.name.trim()),
        }
    }

    /// Replaces the job; the one before can be had back by undo. Unsaved work is also put
    /// aside as a job file of its own, and its path given back.
    ///
    /// # Errors
    /// Whatever keeps unsaved work from being put aside; then nothing is replaced.
    pub fn replace(&mut self, job: Job, path: Option<PathBuf>) -> Result<Option<PathBuf>, FileError> {
        let aside = self.put_aside()?;
        self.undoer.add_undo(&self.now);
        self.belongs_to(OnDisk { path, job: job.clone() }, job);
        self.undoer.add_undo(&self.now);
        Ok(aside)
    }

    /// Writes unsaved work beside the kept copy, under a name of its own.
    fn put_aside(&self) -> Result<Option<PathBuf>, FileError> {
        let Some(folder) = self.kept.as_ref().and_then(|k| k.path.parent()).filter(|_| self.is_dirty()) else {
            return Ok(None);
        };
        let path = folder.join(format!("put-aside-{}.ron", now_ms()));
        file::write(&path, &self.now.job)?;
        Ok(Some(path))
    }

    /// Opens a file. On error the open job stays as it is.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn open(&mut self, path: &Path) -> Result<Option<PathBuf>, FileError> {
        self.replace(file::read(path)?, Some(path.to_owned()))
    }

    /// Saves to a file, which becomes the job's file.
    ///
    /// # Errors
    /// [`FileError`]; nothing typed is lost.
    pub fn save(&mut self, path: &Path) -> Result<(), FileError> {
        file::write(path, &self.now.job)?;
        self.files[self.now.file] = OnDisk { path: Some(path.to_owned()), job: self.now.job.clone() };
        self.forget_kept();
        Ok(())
    }

    /// Marks a large change as one step that can be undone.
    pub fn checkpoint(&mut self) {
        self.undoer.add_undo(&self.now);
    }

    /// One step back. False when there is none.
    pub fn undo(&mut self) -> bool {
        let Some(past) = self.undoer.undo(&self.now).cloned() else { return false };
        self.now = past;
        true
    }

    /// One step forward again. False when there is none.
    pub fn redo(&mut self) -> bool {
        let Some(next) = self.undoer.redo(&self.now).cloned() else { return false };
        self.now = next;
        true
    }

    /// There is a step back.
    pub fn can_undo(&self) -> bool {
        self.undoer.has_undo(&self.now)
    }

    /// There is a step forward.
    pub fn can_redo(&self) -> bool {
        self.undoer.has_redo(&self.now)
    }

    /// Notes changes; call once a frame. Says in how many seconds to call again, if work is left.
    ///
    /// # Errors
    /// Whatever the disk says when the kept copy cannot be written.
    pub fn tick(&mut self, time_s: f64) -> std::io::Result<Option<f64>> {
        self.undoer.feed_state(time_s, &self.now);
        if self.last != self.now.job {
            self.last = self.now.job.clone();
            self.changed_at = Some(time_s);
        }
        let mut again = self.undoer.is_in_flux().then_some(1.0);
        if let Some(changed) = self.changed_at {
            if time_s - changed >= KEEP_AFTER_S {
                self.changed_at = None;
                self.keep_now()?;
            } else {
                again = Some(again.unwrap_or(KEEP_AFTER_S).min(KEEP_AFTER_S));
            }
        }
        Ok(again)
    }

    /// Writes the kept copy at once.
    ///
    /// # Errors
    /// Whatever the disk says.
    pub fn keep_now(&mut self) -> std::io::Result<()> {
        let Some(kept) = &self.kept else { return Ok(()) };
        if !self.is_dirty() {
            self.forget_kept();
            return Ok(());
        }
        let copy = KeptJob { path: self.disk().path.clone(), job: self.now.job.clone() };
        let text = file::options().to_string(&copy).map_err(std::io::Error::other)?;
        file::write_text(&kept.path, &text)
    }

    /// The work is in its file: the kept copy has done its duty.
    fn forget_kept(&self) {
        if let Some(kept) = &self.kept {
            // Already gone is fine, too.
            let _ = std::fs::remove_file(&kept.path);
        }
    }
}

/// Milliseconds since 1970, for names that do not repeat.
fn now_ms() -> u128 {
    std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default().as_millis()
}
