//! The shop's logo is read and drawn in the background: a large SVG does not block typing.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use eframe::egui;

use crate::base::language::tr;
use crate::gui::app::App;
use crate::gui::background::worker::{DRAWN_EVERY, Ended, Worker};
use crate::job::Level;
use crate::report::print::{self, LogoFileError};
use crate::report::write::page::logo::Logo;
use crate::say;

/// The logo that is printed, and the one that is being read.
#[derive(Default)]
pub(in crate::gui) struct Logos {
    /// Printed on the sheets.
    pub shown: Option<Arc<Logo>>,
    worker: Worker<Result<(Logo, Vec<u8>), LogoFileError>>,
    asked: Option<Asked>,
    reads: Option<Asked>,
}

/// A file to read, and whether it becomes the shop's.
struct Asked {
    path: PathBuf,
    is_chosen: bool,
}

impl App {
    /// The shop's logo, as it was chosen last.
    pub(in crate::gui) fn read_logo(&mut self) {
        let path = self.shop.logo();
        self.logos.asked = path.map(|path| Asked { path, is_chosen: false });
    }

    pub(in crate::gui) fn take_logo(&mut self, path: &Path) {
        self.logos.asked = Some(Asked { path: path.to_owned(), is_chosen: true });
        self.logos.worker.cancel();
    }

    /// No logo is printed any more, whatever is still being read.
    pub(in crate::gui) fn drop_logo(&mut self) {
        (self.logos.shown, self.logos.asked) = (None, None);
        self.logos.worker.cancel();
    }

    /// A logo is printed on the sheets.
    pub fn has_logo(&self) -> bool {
        self.logos.shown.is_some()
    }

    /// A logo is being read, or waits for its turn.
    pub fn is_reading_logo(&self) -> bool {
        self.logos.asked.is_some() || self.logos.worker.is_busy()
    }

    /// Once a frame: starts to read what was asked for, takes what was read.
    pub(in crate::gui) fn logos(&mut self, ctx: &egui::Context) {
        match self.logos.worker.ended() {
            Some(Ended::Done(read)) => self.logo_was_read(read),
            Some(Ended::Died) => {
                self.say(Level::Error, tr("The logo could not be drawn. Save it as a PNG and try again."));
            }
            Some(Ended::Unwanted) | None => {}
        }
        if self.logos.worker.is_busy() {
            ctx.request_repaint_after(DRAWN_EVERY);
            return;
        }
        let Some(asked) = self.logos.asked.take() else { return };
        let path = asked.path.clone();
        if let Err(error) = self.logos.worker.start(ctx, "logo", move |_| print::read_logo(&path)) {
            self.say(
                Level::Error,
                say!("The logo could not be drawn: the background task did not start ({error}).", error),
            );
        }
        self.logos.reads = Some(asked);
    }

    fn logo_was_read(&mut self, read: Result<(Logo, Vec<u8>), LogoFileError>) {
        let is_chosen = self.logos.reads.take().is_some_and(|asked| asked.is_chosen);
        match read {
            Ok((logo, bytes)) => {
                self.logos.shown = Some(Arc::new(logo));
                if is_chosen && let Err(error) = self.shop.keep_logo(&bytes) {
                    self.say(
                        Level::Doubt,
                        say!("The logo is on this sheet, but could not be saved for other jobs: {error}", error),
                    );
                }
            }
            Err(error) => self.say(if is_chosen { Level::Error } else { Level::Doubt }, error.to_string()),
        }
    }
}
