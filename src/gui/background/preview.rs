//! The pages of the sheet as they will be printed, drawn in the background when anything in them changed.

use std::sync::Arc;

use eframe::egui::{self, ColorImage, TextureHandle, TextureOptions};

use crate::base::language::{Language, tr};
use crate::gui::background::worker::{Ended, Worker};
use crate::job::Job;
use crate::report::Report;
use crate::report::print;
use crate::report::sheets::Kind;
use crate::report::write::page::logo::Logo;
use crate::report::write::page::raster::{self, Picture};
use crate::report::write::page::{Fit, Fonts, Pages, Paper, lay_out};
use crate::say;

/// Pages that are shown; the rest are only in the file.
pub const MOST_SHOWN: usize = 12;

/// What a preview depends on, in the job's folder.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::gui) struct Asked {
    /// Which solved job.
    pub solves: u64,
    /// The language of what is shown with the pages.
    pub language: Language,
    /// Which sheet.
    pub kind: Kind,
    /// The job's name.
    pub name: String,
    /// The paper.
    pub paper: Paper,
    /// The logo.
    pub logo: Option<Arc<Logo>>,
    /// Pixels for a point of the page.
    pub px_per_pt: f32,
}

struct Drawn {
    asked: Asked,
    pages: Pages,
    pictures: Vec<Picture>,
    fonts: Fonts,
}

/// A page on screen.
pub struct Shown {
    /// Its picture.
    pub texture: TextureHandle,
    /// What it says.
    pub words: String,
}

/// The preview, and the work that makes it.
#[derive(Default)]
pub struct Preview {
    worker: Worker<Drawn>,
    fonts: Option<Fonts>,
    asked: Option<Asked>,
    shown: Option<(Asked, Vec<Shown>)>,
    notes: Vec<String>,
    count: usize,
    trouble: Option<String>,
}

impl Preview {
    pub(in crate::gui) fn new(fonts: Fonts) -> Self {
        Preview { fonts: Some(fonts), ..Preview::default() }
    }

    /// The pages, as far as they are drawn.
    pub fn pages(&self) -> &[Shown] {
        self.shown.as_ref().map_or(&[], |(_, pages)| pages)
    }

    /// How many pages the sheet has.
    pub fn count(&self) -> usize {
        self.count
    }

    /// Their notices.
    pub fn notes(&self) -> &[String] {
        &self.notes
    }

    /// Why there are none.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// What is shown belongs to the current job.
    pub fn is_current(&self) -> bool {
        self.shown.as_ref().is_some_and(|(of, _)| self.asked.as_ref() == Some(of))
    }

    /// How often pages were drawn; for tests.
    pub fn drawn(&self) -> u64 {
        self.worker.started()
    }

    /// Once a frame while the sheet is shown: takes what was drawn, and has drawn what changed.
    pub(in crate::gui) fn update(
        &mut self,
        ctx: &egui::Context,
        asked: Asked,
        job: &Job,
        sheet: impl FnOnce(&Job) -> ((Report, Fit), Option<String>) + Send + 'static,
    ) {
        self.collect(ctx);
        if self.asked.as_ref() == Some(&asked) || self.worker.is_busy() {
            return;
        }
        let mut fonts = self.fonts.take().unwrap_or_else(Fonts::with_system);
        self.asked = Some(asked.clone());
        let job = job.clone();
        let work = move |_: &crate::base::progress::Watch| {
            let ((report, fit), trouble) = sheet(&job);
            let mut printing = print::printing(&job, asked.paper, fit, None, &asked.name, &print::today());
            printing.letterhead.logo.clone_from(&asked.logo);
            let mut pages = lay_out(&report, &printing, &mut fonts);
            pages.notes.extend(trouble);
            let count = pages.pages.len().min(MOST_SHOWN);
            let pictures = (0..count).filter_map(|at| raster::page(&pages, at, asked.px_per_pt).ok()).collect();
            Drawn { asked, pages, pictures, fonts }
        };
        if let Err(error) = self.worker.start(ctx, "draw pages", work) {
            self.trouble =
                Some(say!("The pages could not be drawn: the background task did not start ({error}).", error));
        }
    }

    fn collect(&mut self, ctx: &egui::Context) {
        match self.worker.ended() {
            Some(Ended::Done(Drawn { asked, pages, pictures, fonts })) => {
                let shown = pictures.iter().zip(&pages.pages).enumerate().map(|(n, (picture, page))| {
                    let size = [picture.width as usize, picture.height as usize];
                    let image = ColorImage::from_rgb(size, &picture.rgb);
                    let texture = ctx.load_texture(format!("page {n}"), image, TextureOptions::LINEAR);
                    Shown { texture, words: pages.words(page) }
                });
                self.shown = Some((asked, shown.collect()));
                (self.count, self.notes, self.fonts) = (pages.pages.len(), pages.notes, Some(fonts));
                self.trouble = None;
                ctx.request_repaint();
            }
            Some(Ended::Died | Ended::Unwanted) => {
                self.trouble =
                    Some(tr("The pages could not be drawn. The text of the sheet can still be saved.").into());
            }
            None => {}
        }
        if self.worker.is_busy() {
            ctx.request_repaint_after(std::time::Duration::from_millis(50));
        }
    }
}
