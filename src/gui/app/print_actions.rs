//! What the commands of the sheet, of the shop's letterhead and of plots do.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use eframe::egui::{self, ColorImage};

use crate::base::language::{path_text, tr};
use crate::gui::app::App;
use crate::gui::background::preview::Asked;
use crate::gui::state::command::{PlotTo, SheetCommand};
use crate::gui::state::files::Purpose;
use crate::gui::state::step::Step;
use crate::job::{Job, Level, file};
use crate::report::pictures::plot::Export;
use crate::report::print;
use crate::report::print::Over;
use crate::report::sheets::{self, Kind, Printed, Words};
use crate::report::write::page::{Fonts, Printing, raster};
use crate::say;
use crate::shop::lists::Shop;

/// Dots per inch of a plot's picture.
const PLOT_DPI: f32 = 200.0;

/// The texts of the job's language, with the shop's own where it has some; or what is wrong with those.
pub(super) fn words_of(shop: &Shop, job: &Job) -> Result<Words, String> {
    let language = &job.shop.language;
    let own = shop.sheet_texts(language).map_err(|e| e.to_string())?;
    Words::of(language, own.as_deref()).map_err(|e| e.to_string())
}

/// Writing there might wait for ever for someone to read it.
fn not_a_file(path: &Path) -> String {
    say!("Not saved: {path} is a device or a pipe, not a file. Choose a file.", path = path_text(path))
}

impl App {
    pub(in crate::gui) fn run_sheet(&mut self, ctx: &egui::Context, command: SheetCommand) {
        if matches!(command, SheetCommand::Write(_) | SheetCommand::Print) {
            self.memo.update(&self.doc.now.job, ctx);
            self.memo.finish();
        }
        match command {
            SheetCommand::As(ending) => {
                let name = self.sheet_name(ending);
                self.ask(ctx, Purpose::WriteSheet, &name);
            }
            SheetCommand::Write(path) => self.write_sheet(&path),
            SheetCommand::Print => self.print(),
            SheetCommand::Kind(kind) => self.view.kind = kind,
            SheetCommand::Paper(paper) => self.view.paper = paper,
            SheetCommand::ChooseLogo => self.ask(ctx, Purpose::OpenLogo, ""),
            SheetCommand::TakeLogo(path) => self.take_logo(&path),
            SheetCommand::NoLogo => match self.shop.forget_logo() {
                Ok(()) => self.drop_logo(),
                Err(error) => self.say(Level::Error, say!("The logo could not be removed: {error}", error)),
            },
            SheetCommand::RememberNames => match self.shop.remember_names(&self.doc.now.job.shop) {
                Ok(original) => {
                    let words = original.map(|path| format!(" {}.", file::original_kept(&path))).unwrap_or_default();
                    self.say(Level::Note, format!("{}{words}", tr("The shop details are saved for new jobs.")));
                }
                Err(error) => self.say(Level::Error, say!("The shop details could not be saved: {error}", error)),
            },
        }
    }

    /// The preview of the sheet, while it is shown.
    pub(in crate::gui) fn preview(&mut self, ctx: &egui::Context) {
        // What is printed is never half known.
        if self.view.step != Step::Sheet || !self.memo.is_whole() {
            return;
        }
        let job = self.memo.job();
        let asked = Asked {
            solves: self.memo.solves(),
            language: self.language,
            kind: self.view.kind,
            name: self.printed_name(),
            paper: self.view.paper,
            logo: self.logos.shown.clone(),
            // Sharp at the width of most windows, without more pixels than a page needs.
            px_per_pt: (1.25 * ctx.pixels_per_point()).clamp(1.0, 3.0),
        };
        let (kind, shop, answer) = (asked.kind, self.shop.clone(), Arc::clone(&self.memo.shown().answer));
        // What it was printed from stands in the foot.
        let printed = Printed { on_pages: true, ..Printed::default() };
        self.preview.update(ctx, asked, job, move |job| {
            let (words, trouble) = match words_of(&shop, job) {
                Ok(words) => (words, None),
                Err(error) => {
                    let trouble = say!("The preview uses the texts that ship with the program: {error}.", error);
                    (sheets::words_of(job).clone(), Some(trouble))
                }
            };
            (print::sheet(kind, job, &answer, printed, &words), trouble)
        });
    }

    /// The job's name as it is printed: what is not in its file says so.
    fn printed_name(&self) -> String {
        let name = self.doc.name();
        let has_file = self.doc.disk().path.is_some();
        if has_file && self.doc.is_dirty() { say!("{name}, with unsaved changes", name) } else { name }
    }

    /// The sheet and how it is printed; or why it has no texts. The engineer's needs hardly any of them.
    fn printing(&self, path: &Path) -> Result<(crate::report::Report, Printing), String> {
        let job = &self.doc.now.job;
        let (date, name) = (print::today(), self.printed_name());
        let words = match words_of(&self.shop, job) {
            Err(_) if self.view.kind == Kind::Full => sheets::words_of(job).clone(),
            words => words?,
        };
        let printed = Printed {
            date: Some(&date),
            file: Some(&name),
            saved: Some(!self.doc.is_dirty()),
            on_pages: print::is_paged(path),
        };
        let (report, fit) = print::sheet(self.view.kind, job, &self.memo.shown().answer, printed, &words);
        let mut printing = print::printing(job, self.view.paper, fit, None, &name, &date);
        printing.letterhead.logo.clone_from(&self.logos.shown);
        Ok((report, printing))
    }

    fn write_sheet(&mut self, path: &Path) {
        if file::is_stream(path) {
            return self.say(Level::Error, not_a_file(path));
        }
        let (report, printing) = match self.printing(path) {
            Ok(printing) => printing,
            Err(error) => return self.say(Level::Error, say!("The sheet was not saved: {error}.", error)),
        };
        // Whoever chose the name was asked.
        match print::write(&report, &printing, &mut Fonts::with_system(), path, Over::AnyFile) {
            Ok(notes) if notes.is_empty() => self.say(Level::Note, say!("Sheet saved: {path}", path = path_text(path))),
            Ok(notes) => {
                self.say(
                    Level::Doubt,
                    say!("Sheet saved: {path}. {notes}", path = path_text(path), notes = notes.join(" ")),
                );
            }
            Err(error) => self.say(Level::Error, error.to_string()),
        }
    }

    /// Hands a PDF to the viewer of the system, which prints it.
    fn print(&mut self) {
        let folder = match tempfile::Builder::new().prefix("springwright-").tempdir() {
            Ok(folder) => folder,
            Err(error) => {
                return self.say(Level::Error, say!("The file for printing could not be created: {error}.", error));
            }
        };
        let path = folder.path().join(self.sheet_name("pdf"));
        self.printed.push(folder);
        self.write_sheet(&path);
        if !path.is_file() {
            return;
        }
        if let Err(error) = open::that_detached(&path) {
            let text = say!(
                "The PDF could not be opened ({error}). Open {path} and print it from there, or choose \"Save as PDF…\".",
                error,
                path = path_text(&path)
            );
            self.say(Level::Error, text);
        }
    }

    pub(in crate::gui) fn run_plot(&mut self, ctx: &egui::Context, to: PlotTo) {
        match to {
            PlotTo::CopyData(plot) => match plot.table {
                Ok(text) => {
                    ctx.copy_text(text);
                    self.say(Level::Note, tr("Plot data copied to the clipboard as CSV."));
                }
                Err(error) => self.say(Level::Error, error),
            },
            PlotTo::CopyPicture(plot) => match pixels(&plot) {
                Ok(pixels) => {
                    let size = [pixels.width as usize, pixels.height as usize];
                    ctx.copy_image(ColorImage::from_rgb(size, &pixels.rgb));
                    self.say(Level::Note, tr("Plot copied to the clipboard as a picture."));
                }
                Err(error) => self.say(Level::Error, error.to_string()),
            },
            PlotTo::SaveData(plot) => self.ask_for_plot(ctx, *plot, Purpose::PlotData),
            PlotTo::SavePicture(plot) => self.ask_for_plot(ctx, *plot, Purpose::PlotPicture),
            PlotTo::Write(path) => self.write_plot(path),
        }
    }

    fn ask_for_plot(&mut self, ctx: &egui::Context, plot: Export, purpose: Purpose) {
        self.view.plot = Some(plot);
        let name = self.file_name(purpose.ending());
        self.ask(ctx, purpose, &name);
    }

    /// As its ending says: .png a picture, else the data.
    fn write_plot(&mut self, path: PathBuf) {
        let Some(plot) = self.view.plot.take() else { return };
        if file::is_stream(&path) {
            return self.say(Level::Error, not_a_file(&path));
        }
        let bytes = if print::is_of_a_job(&path) {
            let refused = tr("this is a job file, which a plot must not replace; use a name that ends in .png or .csv");
            Err(refused.to_owned())
        } else if path.extension().is_some_and(|e| e.eq_ignore_ascii_case("png")) {
            let png = pixels(&plot).and_then(|pixels| raster::encode(&pixels, PLOT_DPI));
            png.map_err(|e| e.to_string())
        } else {
            plot.table.map(String::into_bytes)
        };
        let written = bytes.and_then(|b| file::write_bytes(&path, &b).map_err(|e| e.to_string()));
        match written {
            Ok(()) => self.say(Level::Note, say!("Plot saved: {path}", path = path_text(&path))),
            Err(error) => self.say(
                Level::Error,
                say!("The plot was not saved: {error}. File: {path}", error, path = path_text(&path)),
            ),
        }
    }
}

/// A plot's picture as it is copied or saved.
fn pixels(plot: &Export) -> Result<raster::Picture, raster::PngError> {
    raster::drawing(&plot.drawing, PLOT_DPI, &mut Fonts::with_system())
}
