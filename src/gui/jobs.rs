//! The list of jobs of a folder, read beside the window.

use std::path::PathBuf;
use std::sync::mpsc::Sender;

use eframe::egui;

use super::command::{Command, FileCommand};
use super::texts::{Search, Texts};
use crate::jobs::{self, Record};
use crate::language::{speak, spoken};

/// Jobs of a folder, or why there are none.
#[derive(Debug, Clone)]
pub struct Found {
    folder: PathBuf,
    records: Result<Vec<Record>, String>,
    texts: Texts,
}

/// The open list.
#[derive(Debug)]
pub struct Jobs {
    /// Whose jobs are shown.
    pub folder: PathBuf,
    /// Another folder, as it is typed.
    pub typed: String,
    /// Words that a job must have.
    pub words: String,
    /// `None` while they are being read.
    records: Option<Result<Vec<Record>, String>>,
    texts: Texts,
    search: Search,
    /// Places of those that have these words.
    with_words: Option<(String, Vec<usize>)>,
}

impl Jobs {
    /// Jobs of a folder that are yet to be read.
    pub fn of(folder: PathBuf, words: String) -> Self {
        Jobs {
            typed: folder.display().to_string(),
            folder,
            words,
            records: None,
            texts: Texts::default(),
            search: Search::default(),
            with_words: None,
        }
    }

    /// Takes what was read, unless it is of another folder by now.
    pub fn take(&mut self, found: Found) {
        if found.folder == self.folder {
            (self.records, self.texts) = (Some(found.records), found.texts);
            (self.search, self.with_words) = (Search::default(), None);
        }
    }

    /// All jobs; `None` while they are being read.
    pub fn records(&self) -> Option<&Result<Vec<Record>, String>> {
        self.records.as_ref()
    }

    /// Looks for the words, if they are others than last time.
    pub fn search(&mut self) {
        if self.with_words.as_ref().is_some_and(|(words, _)| *words == self.words) {
            return;
        }
        let has_words = self.search.rows_with(&self.words, &self.texts);
        let found = (0..has_words.len()).filter(|i| has_words[*i]).collect();
        self.with_words = Some((self.words.clone(), found));
    }

    /// Jobs that have the words, as last searched.
    pub fn found(&self) -> Vec<&Record> {
        let (Some(Ok(records)), Some((_, found))) = (&self.records, &self.with_words) else { return Vec::new() };
        found.iter().filter_map(|i| records.get(*i)).collect()
    }
}

/// Reads the jobs of the folder on a thread of its own; they arrive as a command.
///
/// # Errors
/// When the system starts no thread.
pub(super) fn read(jobs: &Jobs, sender: Sender<Command>, ctx: &egui::Context) -> std::io::Result<()> {
    let (folder, ctx, voice) = (jobs.folder.clone(), ctx.clone(), spoken());
    std::thread::Builder::new().name("list of jobs".into()).spawn(move || {
        let _voice = speak(voice);
        let records = jobs::list(&folder).map_err(|error| error.to_string());
        let texts = Texts::new(records.iter().flatten().map(Record::text));
        // The window may be gone by now.
        let _ = sender.send(Command::File(FileCommand::JobsFound(Box::new(Found { folder, records, texts }))));
        ctx.request_repaint();
    })?;
    Ok(())
}
