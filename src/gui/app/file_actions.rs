//! What each command about job files does: open, save, start again, and what to ask before anything could be lost.

use std::path::{Path, PathBuf};

use eframe::egui;

use crate::base::language::{Language, path_text, tr};
use crate::gui::app::App;
use crate::gui::background::jobs::Jobs;
use crate::gui::state::command::{Command, FileCommand, ListCommand, Loading, RecordCommand};
use crate::gui::state::files::{Purpose, Question};
use crate::gui::state::step::Step;
use crate::job::file::{self, Backup, FileError};
use crate::job::{Job, Level};
use crate::report::print;
use crate::report::write::page::Paper;
use crate::say;
use crate::shop::jobs_folder::start_from;
use crate::shop::presets;

/// Where the settings hold the language, two letters.
pub(in crate::gui) const LANGUAGE: &str = "language";
/// Where the settings say that the guide was gone through or closed.
pub(in crate::gui) const GUIDED: &str = "guided";
/// Where the settings say that hints are hidden.
pub(in crate::gui) const HIDE_HINTS: &str = "hide_hints";
pub(in crate::gui) const PAPER: &str = "paper";
/// How the settings name that paper.
pub(in crate::gui) const LETTER: &str = "Letter";
/// Where the settings hold the jobs used last.
pub(in crate::gui) const RECENT: &str = "recent_jobs";
/// Where the settings hold the job that was open when the window was closed; none for one in no file.
pub(in crate::gui) const LAST_JOB: &str = "last_job";
/// Their number.
const RECENT_MOST: usize = 10;
/// What two windows on one job mean.
pub(in crate::gui) fn who_saves() -> &'static str {
    tr("Whoever saves second is asked before anything is overwritten.")
}

/// The language that the settings name, if it ships.
pub(in crate::gui) fn remembered_language(storage: Option<&dyn eframe::Storage>) -> Option<Language> {
    Language::of(&eframe::get_value::<String>(storage?, LANGUAGE)?)
}

/// The job that was open when the window was closed last.
pub(in crate::gui) fn remembered_job(storage: Option<&dyn eframe::Storage>) -> Option<PathBuf> {
    eframe::get_value::<Option<PathBuf>>(storage?, LAST_JOB)?
}

impl App {
    /// Takes what the settings say. What they do not say, or say in a way not understood, is as at the first start.
    pub fn remember(&mut self, storage: Option<&dyn eframe::Storage>) {
        let Some(storage) = storage else { return };
        self.view.hide_hints = eframe::get_value(storage, HIDE_HINTS).unwrap_or_default();
        self.view.guide = if eframe::get_value(storage, GUIDED).unwrap_or(false) { None } else { Some(0) };
        self.view.recent = eframe::get_value(storage, RECENT).unwrap_or_default();
        self.view.recent.truncate(RECENT_MOST);
        let is_letter = eframe::get_value::<String>(storage, PAPER).is_some_and(|name| name == LETTER);
        self.view.paper = if is_letter { Paper::Letter } else { Paper::A4 };
    }

    /// Keeps unsaved work in this folder, and goes on with what lies there.
    pub fn keep_in(&mut self, folder: Option<&Path>) {
        if let Some((level, text)) = self.begin_keeping(folder) {
            self.say_also(level, text);
        }
    }

    /// The same, with its notice.
    fn begin_keeping(&mut self, folder: Option<&Path>) -> Option<(Level, String)> {
        let Some(folder) = folder else {
            let text = tr("This system has no folder for unsaved work. Save often.");
            return Some((Level::Doubt, text.to_owned()));
        };
        match self.doc.keep_in(folder) {
            Ok(words) => words.map(|w| (Level::Note, w)),
            Err(error) => {
                let folder = path_text(folder);
                let text = say!("Unsaved work cannot be kept in {folder}: {error}. Save often.", error, folder);
                Some((Level::Doubt, text))
            }
        }
    }

    /// As [`App::keep_in`], then opens the job that the window was started with. Unsaved work on this very job stays
    /// open; other work is moved to a separate file, and everything is reported.
    pub fn start(&mut self, ctx: &egui::Context, folder: Option<&Path>, job: Option<&Path>) {
        let mut said = self.begin_keeping(folder);
        let came_back = self.doc.is_dirty();
        let mut then = None;
        if let Some(path) = job.filter(|path| !(came_back && self.doc.is_own(path))) {
            match self.open_named(ctx, path) {
                Ok(aside) if came_back => {
                    said = self.doc.kept_elsewhere().map(|words| (Level::Note, words.to_owned()));
                    then = aside.map(|path| (Level::Note, came_back_words(&path)));
                }
                Ok(_) => {}
                Err(text) => then = Some((Level::Error, text)),
            }
        }
        for (level, text) in said.into_iter().chain(then) {
            self.say_also(level, text);
        }
    }

    /// Opens the job that was open last. Work that came back goes before it; where the file is gone or cannot be read,
    /// the shipped job stays open, with a notice.
    pub fn open_last(&mut self, ctx: &egui::Context, last: Option<&Path>) {
        let came_back = self.doc.is_dirty() || self.doc.disk().path.is_some();
        let Some(path) = last.filter(|_| !came_back) else { return };
        if let Err(text) = self.open_file(ctx, path) {
            let text = if path.exists() {
                text
            } else {
                say!(
                    "The job that was open last was not found: {path}. The demo job is open instead.",
                    path = path_text(path)
                )
            };
            self.say_also(Level::Doubt, text);
        }
    }

    pub(in crate::gui) fn run_file(&mut self, ctx: &egui::Context, command: FileCommand) {
        match command {
            FileCommand::Write(purpose, path) => self.write(purpose, path),
            FileCommand::WriteOver(purpose, path) => {
                self.view.question = None;
                self.commands.push(purpose.command(path));
            }
            FileCommand::SaveOver(path) => self.save_over(&path),
            FileCommand::SaveWithoutComments(path) => self.save_without_comments(&path),
            FileCommand::NotNow => self.view.question = None,
            FileCommand::QuitAnyway => {
                self.view.quit_anyway = true;
                ctx.send_viewport_cmd(egui::ViewportCommand::Close);
            }
            FileCommand::Jobs(None) if self.view.jobs.is_some() => self.view.jobs = None,
            FileCommand::Jobs(folder) => {
                (self.view.glossary, self.view.changes) = (None, false);
                self.view.focus_first = true;
                let folder = folder.unwrap_or_else(|| self.usual_folder());
                let words = self.view.jobs.take().map(|j| j.words).unwrap_or_default();
                self.view.jobs = Some(Jobs::of(folder, words));
            }
            FileCommand::JobsNot => self.view.jobs = None,
            FileCommand::StartFrom(path) => self.start_from(ctx, &path),
        }
    }

    /// The folder in which jobs were used last.
    fn usual_folder(&self) -> PathBuf {
        let shown = self.view.jobs.as_ref().map(|j| j.folder.clone());
        let last = self.doc.disk().path.as_deref().or(self.view.recent.first().map(PathBuf::as_path));
        let here = || std::env::current_dir().unwrap_or_default();
        shown.or_else(|| last.and_then(Path::parent).map(Path::to_owned)).unwrap_or_else(here)
    }

    /// Puts a job without a file in place of the open one. True when it went well.
    pub(in crate::gui) fn replace(&mut self, ctx: &egui::Context, job: Job) -> bool {
        match self.doc.replace(job) {
            Ok(aside) => {
                self.another_job(ctx);
                let back = tr("Undo brings back the previous job.");
                let text = aside.map_or(back.to_owned(), |path| format!("{back} {}", aside_words(&path)));
                self.say(Level::Note, text);
                true
            }
            Err(error) => {
                self.say(Level::Error, put_aside_words(&error));
                false
            }
        }
    }

    fn another_job(&mut self, ctx: &egui::Context) {
        self.choosing.forget();
        self.fresh_texts(ctx);
        (self.view.question, self.view.jobs, self.view.paste) = (None, None, None);
        // It leads through the invented job; what comes now is one's own.
        self.view.guide = None;
    }

    pub(in crate::gui) fn open(&mut self, ctx: &egui::Context, path: &Path) {
        match self.open_file(ctx, path) {
            Ok(aside) => self.view.notice = aside.map(|path| (Level::Note, aside_words(&path))),
            Err(text) => self.say(Level::Error, text),
        }
    }

    /// Opens the file or the shipped job of this name; gives back as [`App::open_file`] does.
    fn open_named(&mut self, ctx: &egui::Context, name: &Path) -> Result<Option<PathBuf>, String> {
        let Some(preset) = presets::named(name) else { return self.open_file(ctx, name) };
        let aside = self.doc.replace(preset.job_in(self.language)).map_err(|error| put_aside_words(&error))?;
        self.another_job(ctx);
        Ok(aside)
    }

    /// Opens a file; gives back where unsaved work was put, or what to say when it could not be opened.
    fn open_file(&mut self, ctx: &egui::Context, path: &Path) -> Result<Option<PathBuf>, String> {
        let aside = self.doc.open(path).map_err(|error| {
            say!("Not opened: {error}. The open job is unchanged. File: {path}", error, path = path_text(path))
        })?;
        self.another_job(ctx);
        self.used(path);
        Ok(aside)
    }

    fn start_from(&mut self, ctx: &egui::Context, path: &Path) {
        match file::read(path) {
            Ok(old) => {
                if self.replace(ctx, start_from(&old)) {
                    self.view.step = Step::Weigh;
                    let text = tr(
                        "New job from an old one: customer, number, weigh-ins and notes are blank. Values measured on the old vehicle count as quoted until you measure this vehicle. Undo brings back the previous job.",
                    );
                    self.say(Level::Note, text);
                }
            }
            Err(error) => {
                self.say(Level::Error, say!("Not opened: {error}. File: {path}", error, path = path_text(path)))
            }
        }
    }

    /// Saves, unless someone else changed the file meanwhile, its content is not known, or it says more than a job
    /// can: then that is asked first.
    pub(in crate::gui) fn save(&mut self, path: &Path) {
        if self.doc.is_own(path) && self.doc.was_changed_by_others() {
            self.view.question = Some(Question::ChangedByOthers(path.to_owned()));
            return;
        }
        if self.doc.is_own(path) && self.doc.never_read_its_file() {
            self.view.question = Some(Question::Exists(path.to_owned()));
            return;
        }
        if self.doc.is_own(path) && self.doc.has_comments() {
            self.view.question = Some(Question::Comments(path.to_owned()));
            return;
        }
        self.save_now(path, "");
    }

    /// The file with its comments gets another name, the job its own.
    fn save_without_comments(&mut self, path: &Path) {
        match file::keep_original(path) {
            Ok(original) => {
                let words = file::original_kept(&original);
                self.save_now(path, &format!(" {words}"));
            }
            Err(error) => {
                let text =
                    say!("Not saved: the original with its comments could not be kept ({error}). Use Save as.", error);
                self.say(Level::Error, text);
            }
        }
    }

    fn save_over(&mut self, path: &Path) {
        let theirs = if self.doc.is_own(path) { self.doc.put_theirs_aside() } else { Ok(None) };
        match theirs {
            Ok(None) => self.save_now(path, ""),
            Ok(Some(aside)) => {
                let theirs = say!("The version saved by someone else is in {path}", path = path_text(&aside));
                self.save_now(path, &format!(" {theirs}"));
            }
            Err(error) => {
                let text = say!(
                    "Not saved: the version saved by someone else could not be kept ({error}). Use Save as.",
                    error
                );
                self.say(Level::Error, text);
            }
        }
    }

    fn save_now(&mut self, path: &Path, more: &str) {
        self.view.question = None;
        match self.doc.save(path) {
            Ok(Backup::Failed(error)) => {
                self.used(path);
                let text = say!(
                    "Saved: {path}. The previous version could not be kept as a backup: {error}.",
                    error,
                    path = path_text(path)
                );
                self.say(Level::Doubt, text + more);
            }
            Ok(_) => {
                self.used(path);
                self.say(Level::Note, say!("Saved: {path}", path = path_text(path)) + more);
            }
            Err(error) => {
                let kept = if self.doc.is_safe() {
                    tr("Your work is kept and will be restored at the next start")
                } else {
                    tr("Leave this window open until the job is saved")
                };
                self.say(
                    Level::Error,
                    say!("Not saved: {error}. {kept}. File: {path}", error, kept, path = path_text(path)),
                );
            }
        }
    }

    fn used(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.view.recent.retain(|p| *p != path);
        self.view.recent.insert(0, path);
        self.view.recent.truncate(RECENT_MOST);
    }

    /// The path typed because no file dialog could be shown. A dialog asks before it gives a name that is taken.
    pub(in crate::gui) fn take_typed_path(&mut self) {
        let Some((purpose, path)) = self.view.typed_path.take() else { return };
        self.write(purpose, purpose.complete(PathBuf::from(path.trim())));
    }

    /// Uses a path that no dialog has asked about: a file there is replaced only when that is wanted.
    fn write(&mut self, purpose: Purpose, path: PathBuf) {
        let is_there = purpose.writes() && path.exists();
        self.view.question = match purpose {
            Purpose::SaveJob if is_there && !self.doc.is_own(&path) => Some(Question::Exists(path)),
            // What is refused anyway is not asked about.
            purpose if is_there && purpose != Purpose::SaveJob && !print::is_of_a_job(&path) => {
                Some(Question::Taken(purpose, path))
            }
            purpose => return self.commands.push(purpose.command(path)),
        };
    }

    /// Files dropped on the window are opened; a window that is come back to looks whether its file was changed.
    pub(in crate::gui) fn look_at_files(&mut self, ctx: &egui::Context) {
        let dropped = ctx.input(|i| i.raw.dropped_files.iter().map(|f| f.path().to_owned()).collect::<Vec<_>>());
        for path in dropped {
            let ending = path.extension().unwrap_or_default().to_string_lossy().to_lowercase();
            let is_list = matches!(ending.as_str(), "csv" | "tsv" | "txt");
            self.commands.push(match is_list {
                true if self.view.step == Step::Road => Command::Record(RecordCommand::Bounce(Loading::Read(path))),
                true => Command::List(ListCommand::Look(path)),
                false => Command::OpenFile(path),
            });
        }
        let is_back = ctx.input(|i| i.events.iter().any(|e| matches!(e, egui::Event::WindowFocused(true))));
        if is_back && self.doc.was_changed_by_others() {
            let name = self.doc.name();
            self.say(
                Level::Doubt,
                say!("{name} was changed by someone else after you opened it. {advice}", name, advice = who_saves()),
            );
        }
    }

    /// The window may close: all work is in its file or kept. If not, that is asked.
    pub fn may_close(&mut self) -> bool {
        if self.view.quit_anyway || self.doc.is_safe() {
            return true;
        }
        self.view.question = Some(Question::NotKept);
        false
    }
}

/// Why the open job was not replaced by another.
fn put_aside_words(error: &FileError) -> String {
    say!("Unsaved work could not be moved to a separate file, so the job stays open: {error}.", error)
}

/// Where unsaved work of an earlier window went when this one was started with a job.
fn came_back_words(path: &Path) -> String {
    say!("Earlier unsaved work was kept. Undo opens it; a copy is in {path}", path = path_text(path))
}

/// Where unsaved work went when another job was opened.
fn aside_words(path: &Path) -> String {
    say!("The unsaved work on the previous job is also kept in {path}", path = path_text(path))
}
