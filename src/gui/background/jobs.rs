//! The list of jobs in a folder, read in the background.

use std::path::PathBuf;

use eframe::egui;

use crate::base::language::tr;
use crate::gui::background::texts::{Search, Texts};
use crate::gui::background::worker::{Ended, Worker};
use crate::shop::jobs_folder::{self, Record};

/// Jobs in a folder, or why there are none.
struct Found {
    records: Result<Vec<Record>, String>,
    texts: Texts,
}

/// The open list.
#[derive(Debug, Default)]
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
    /// Jobs in a folder that are yet to be read.
    pub fn of(folder: PathBuf, words: String) -> Self {
        Jobs { typed: folder.display().to_string(), folder, words, ..Jobs::default() }
    }

    /// Takes what was read of its folder.
    fn take(&mut self, found: Found) {
        (self.records, self.texts) = (Some(found.records), found.texts);
        (self.search, self.with_words) = (Search::default(), None);
    }

    /// They could not be read.
    fn failed(&mut self, why: String) {
        self.take(Found { records: Err(why), texts: Texts::default() });
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

/// Reads the jobs of folders in the background, one folder at a time; one that is no longer wanted is left at once.
#[derive(Default)]
pub(in crate::gui) struct Listing {
    worker: Worker<Found>,
    folder: Option<PathBuf>,
}

impl Listing {
    /// Once a frame: hands over what was read for the open list, and reads what it waits for.
    pub fn update(&mut self, mut jobs: Option<&mut Jobs>, ctx: &egui::Context) {
        let wanted = jobs.as_ref().filter(|j| j.records.is_none()).map(|j| j.folder.clone());
        if self.folder.is_some() && self.folder != wanted {
            self.worker.cancel();
        }
        if let Some(ended) = self.worker.ended() {
            self.folder = None;
            match (ended, &mut jobs) {
                (Ended::Done(found), Some(jobs)) => jobs.take(found),
                (Ended::Died, Some(jobs)) => jobs.failed(tr("reading ended without a result").into()),
                _ => {}
            }
        }
        let Some(jobs) = jobs.filter(|j| j.records.is_none() && !self.worker.is_busy()) else { return };
        let folder = jobs.folder.clone();
        self.folder = Some(folder.clone());
        let read = move |watch: &crate::base::progress::Watch| {
            let records =
                jobs_folder::list_while(&folder, &|| !watch.is_cancelled()).map_err(|error| error.to_string());
            let texts = Texts::new(records.iter().flatten().map(Record::text));
            Found { records, texts }
        };
        if let Err(error) = self.worker.start(ctx, "list of jobs", read) {
            jobs.failed(error.to_string());
        }
    }
}
