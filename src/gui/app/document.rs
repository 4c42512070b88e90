//! The open job: its file, its past, and the copy kept in case the machine dies.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError};

use eframe::egui::util::undoer::Undoer;

use crate::base::language::{path_text, tr};
use crate::job::Job;
use crate::job::file::{self, Backup, FileError};
use crate::job::kept::{Due, Keeper, KeptJob};
use crate::say;

/// A job as written in a file.
#[derive(Debug, Clone, PartialEq)]
pub struct OnDisk {
    /// Where; `None` for a new or shipped job.
    pub path: Option<PathBuf>,
    /// What is there.
    pub job: Job,
    /// The same, letter by letter, as last read or saved; `None`: not known, or no file.
    pub text: Option<String>,
}

/// One moment: the job, and which of the window's files it belongs to. Undo goes back through opens, too; what is in a
/// file is not part of the past, since undo does not change the disk.
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
    kept: Option<Keeper>,
    due: Due,
    keeping: Option<Receiver<std::io::Result<()>>>,
    last: Job,
    /// The file announced to other windows.
    told: Option<PathBuf>,
    /// The notice about kept work that is not open here.
    elsewhere: Option<String>,
}

impl Document {
    /// A document on a job that needs no saving, without a kept copy.
    pub fn new(job: Job) -> Self {
        Document {
            last: job.clone(),
            files: vec![OnDisk { path: None, job: job.clone(), text: None }],
            now: Moment { job, file: 0 },
            undoer: Undoer::default(),
            kept: None,
            due: Due::default(),
            keeping: None,
            told: None,
            elsewhere: None,
        }
    }

    /// Keeps copies in `folder` from now on; gives back work that a dead window left there, and what to say of it.
    ///
    /// # Errors
    /// Whatever the disk says; then no copy is kept, and the caller should say so.
    pub fn keep_in(&mut self, folder: &Path) -> std::io::Result<Option<String>> {
        let Some((keeper, mut found)) = Keeper::start(folder)? else {
            return Err(std::io::Error::other(tr("the maximum number of windows is open")));
        };
        let words = found.words();
        (self.kept, self.elsewhere) = (Some(keeper), found.words_elsewhere());
        if let Some(KeptJob { path, job, seen }) = found.work.take() {
            self.last = job.clone();
            let now = path.as_deref().and_then(|p| file::read_text(p).ok());
            let read = |text: &String| file::parse(text).ok();
            if now.as_ref().and_then(read).is_some_and(|saved| saved == job) {
                // The window died between saving and forgetting: all is in the file.
                self.belongs_to(OnDisk { path, job: job.clone(), text: now }, job);
                self.forget_kept();
                found.work = None;
                return Ok(found.words());
            }
            let disk = seen.as_ref().or(now.as_ref()).and_then(read).unwrap_or_default();
            self.belongs_to(OnDisk { path, job: disk, text: seen }, job);
        }
        Ok(words)
    }

    /// The notice about kept work that [`Document::keep_in`] found but did not open.
    pub fn kept_elsewhere(&self) -> Option<&str> {
        self.elsewhere.as_deref()
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
            Some(path) => path_text(path.file_name().map_or(path.as_path(), Path::new)),
            None if self.now.job.vehicle.name.trim().is_empty() => tr("new job").into(),
            None => say!("{vehicle} (not saved)", vehicle = self.now.job.vehicle.name.trim()),
        }
    }

    /// Replaces the job by one that is in no file; the one before can be had back by undo. Unsaved work is also saved
    /// as a separate job file, and its path given back.
    ///
    /// # Errors
    /// Whatever keeps unsaved work from being saved separately; then nothing is replaced.
    pub fn replace(&mut self, job: Job) -> Result<Option<PathBuf>, FileError> {
        self.become_the(OnDisk { path: None, job, text: None })
    }

    fn become_the(&mut self, disk: OnDisk) -> Result<Option<PathBuf>, FileError> {
        let aside = self.put_aside()?;
        self.undoer.add_undo(&self.now);
        let job = disk.job.clone();
        self.belongs_to(disk, job);
        self.undoer.add_undo(&self.now);
        Ok(aside)
    }

    fn put_aside(&self) -> Result<Option<PathBuf>, FileError> {
        let keeper = self.kept.as_ref().filter(|_| self.is_dirty());
        keeper.map(|k| k.put_aside(&self.now.job)).transpose()
    }

    /// Opens a file. On error the open job stays as it is.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn open(&mut self, path: &Path) -> Result<Option<PathBuf>, FileError> {
        let text = file::read_text(path)?;
        self.become_the(OnDisk { path: Some(whole(path)), job: file::parse(&text)?, text: Some(text) })
    }

    /// The job's own file does not say any more what was last read from it or saved to it: someone else changed it.
    /// A file that is gone, or whose text never was known, says nothing that saving could lose.
    pub fn was_changed_by_others(&self) -> bool {
        let OnDisk { path: Some(path), text: Some(text), .. } = self.disk() else { return false };
        match std::fs::metadata(path) {
            Ok(about) if about.len() == text.len() as u64 => {
                file::read_bytes(path).is_ok_and(|now| now != text.as_bytes())
            }
            Ok(_) => true,
            Err(_) => false,
        }
    }

    /// The job's own file holds comments, which a save would lose.
    pub fn has_comments(&self) -> bool {
        self.disk().text.as_deref().is_some_and(file::has_comments)
    }

    /// The job's own file is there, but what it says was never known: a kept copy of long ago names it.
    pub fn never_read_its_file(&self) -> bool {
        let OnDisk { path, text, .. } = self.disk();
        text.is_none() && path.as_ref().is_some_and(|p| p.exists())
    }

    /// This is the open job's own file.
    pub fn is_own(&self, path: &Path) -> bool {
        self.disk().path.as_deref() == Some(whole(path).as_path())
    }

    /// Saves to a file, which becomes the job's file. The file's previous content is kept next to it as its backup.
    ///
    /// # Errors
    /// [`FileError`]; nothing typed is lost, and the kept copy is up to date if it can be.
    pub fn save(&mut self, path: &Path) -> Result<Backup, FileError> {
        let path = whole(path);
        // Should the machine die between saving and forgetting, the kept copy is no older than the file.
        let _ = self.keep_now();
        let text = file::text(&self.now.job)?;
        let backup = file::write(&path, &self.now.job)?;
        self.files[self.now.file] = OnDisk { path: Some(path), job: self.now.job.clone(), text: Some(text) };
        self.forget_kept();
        Ok(backup)
    }

    /// Puts aside what others wrote into the job's own file, before it is saved over; `None` when no copies are kept.
    ///
    /// # Errors
    /// Whatever the disk says; then nothing should be saved over it.
    pub fn put_theirs_aside(&self) -> std::io::Result<Option<PathBuf>> {
        let (Some(keeper), Some(path)) = (&self.kept, &self.disk().path) else { return Ok(None) };
        keeper.put_copy_aside(path).map(Some)
    }

    /// Tells other windows which file is open here. True, once, when one of them has it open, too.
    pub fn is_newly_shared(&mut self) -> bool {
        let path = self.disk().path.clone();
        if path == self.told {
            return false;
        }
        self.told = path;
        // That others do not know is no reason to stop: before saving the file itself is looked at.
        self.kept.as_ref().is_some_and(|k| k.has_open(self.told.as_deref()).unwrap_or(false))
    }

    /// Marks a large change as one step that can be undone.
    pub fn checkpoint(&mut self) {
        self.undoer.add_undo(&self.now);
    }

    /// Undoes one change. False when there is none.
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

    /// Whether there is a change to undo.
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
    /// Whatever the disk says when the kept copy cannot be written; it is tried again later.
    pub fn tick(&mut self, time_s: f64) -> std::io::Result<Option<f64>> {
        self.undoer.feed_state(time_s, &self.now);
        if self.last != self.now.job {
            self.last = self.now.job.clone();
            self.due.edited(time_s);
        }
        let kept = self.keeping.as_ref().map(Receiver::try_recv);
        let kept = match kept {
            None | Some(Err(TryRecvError::Empty)) => Ok(()),
            Some(kept) => {
                self.keeping = None;
                kept.unwrap_or_else(|gone| Err(std::io::Error::other(gone)))
            }
        };
        if kept.is_err() {
            self.due.failed(time_s);
        } else if self.keeping.is_none() && self.due.in_s(time_s) == Some(0.0) {
            self.due.begun();
            self.keeping = self.keep();
        }
        kept?;
        let undo = self.undoer.is_in_flux().then_some(1.0);
        let keeping = self.keeping.as_ref().map(|_| 0.2);
        Ok(self.due.in_s(time_s).into_iter().chain(undo).chain(keeping).reduce(f64::min))
    }

    /// Starts to write the kept copy, or to forget it when all is in a file.
    fn keep(&self) -> Option<Receiver<std::io::Result<()>>> {
        let keeper = self.kept.as_ref()?;
        if !self.is_dirty() {
            keeper.forget();
            return None;
        }
        let OnDisk { path, text, .. } = self.disk().clone();
        // A path that is no text cannot stand in a text file; the work counts for more than its place.
        let path = path.filter(|p| p.to_str().is_some());
        Some(keeper.keep(KeptJob { path, job: self.now.job.clone(), seen: text }))
    }

    /// Writes the kept copy, and waits for it.
    ///
    /// # Errors
    /// Whatever the disk says.
    pub fn keep_now(&mut self) -> std::io::Result<()> {
        self.keep().map_or(Ok(()), |kept| kept.recv().unwrap_or_else(|gone| Err(std::io::Error::other(gone))))
    }

    /// Waits until what is being kept is kept.
    ///
    /// # Errors
    /// Whatever the disk says.
    pub fn finish_keeping(&mut self) -> std::io::Result<()> {
        let kept = self.keeping.take().map(|kept| kept.recv());
        kept.map_or(Ok(()), |kept| kept.unwrap_or_else(|gone| Err(std::io::Error::other(gone))))
    }

    /// All work is in its file or in the kept copy, as of now.
    pub fn is_safe(&mut self) -> bool {
        !self.is_dirty() || (self.kept.is_some() && self.keep_now().is_ok())
    }

    fn forget_kept(&self) {
        if let Some(kept) = &self.kept {
            kept.forget();
        }
    }
}

/// The path from the root: the folder the program was started in means nothing at the next start.
fn whole(path: &Path) -> PathBuf {
    std::path::absolute(path).unwrap_or_else(|_| path.to_owned())
}
