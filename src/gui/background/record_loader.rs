//! Reads a recording and analyses it in the background; its columns as found, as remembered, or as chosen by hand.

use std::path::PathBuf;

use eframe::egui;

use crate::base::language::{path_text, tr, with_mark};
use crate::base::progress::Watch;
use crate::base::units::entry::AnyEntry;
use crate::base::units::{DecimalMark, Dim, Origin, Spread, UnitChoice, display};
use crate::gui::background::worker::{DRAWN_EVERY, Ended, Worker};
use crate::say;
use crate::shop::lists::Shop;
use crate::shop::recordings::{self, Ask, RecordFileError, Recording};
use crate::solve::answer::Measured;
use crate::solve::recorded::{self, Analysed};

/// What can be done with recordings of one kind: of bounces, or of drives.
#[derive(Debug, Clone)]
pub enum Loading {
    /// Ask for a recording.
    Open,
    /// Read this one.
    Read(PathBuf),
    /// Read it again with these columns, and such files from now on.
    Columns(Ask),
    /// Stop reading.
    Stop,
    /// Put what was found into the job.
    Take,
}

/// One recording as read and analysed.
pub(in crate::gui) struct Loaded {
    pub path: PathBuf,
    pub recording: Recording,
    pub analysed: Analysed,
    /// The day on which the file was written last.
    pub day: Option<String>,
}

impl Loaded {
    /// The file, its checksum, and date, length and rate of the recording, for the job.
    pub fn named(&self) -> [String; 3] {
        let record = &self.recording.record;
        let text = say!(
            "{length} s at {rate} Hz",
            length = display::fixed(record.length_s(), 1),
            rate = display::significant(record.rate_hz(), 4)
        );
        let about = self.day.iter().cloned().chain([text]).collect::<Vec<_>>().join(", ");
        [path_text(&self.path).to_string(), format!("{:08x}", self.recording.checksum), about]
    }
}

/// A file that gave no recording.
struct Refused {
    path: PathBuf,
    why: String,
    columns: Vec<String>,
    asked: Ask,
}

type Read = Result<Box<Loaded>, Box<Refused>>;

/// Reads recordings, one at a time; each is of one thing, an axle or a drive.
pub(in crate::gui) struct RecordLoader<Of> {
    shop: Shop,
    worker: Worker<Read>,
    /// Of what the recording wanted last is.
    of: Of,
    wanted: Option<(PathBuf, Option<Ask>)>,
    refused: Option<Box<Refused>>,
    trouble: Option<String>,
}

impl<Of: Copy + PartialEq> RecordLoader<Of> {
    /// Columns chosen by hand are remembered in this shop.
    pub fn new(shop: Shop, of: Of) -> Self {
        RecordLoader { shop, worker: Worker::default(), of, wanted: None, refused: None, trouble: None }
    }

    /// Runs what needs no job. A file is read soon, with columns as remembered or as found; one that is read again is
    /// the one that was refused, else the one found.
    pub fn run(&mut self, command: &Loading, of: Of, found: Option<(Of, &Loaded)>) {
        match command {
            Loading::Read(path) => self.read(of, path.clone(), None),
            Loading::Columns(chosen) => {
                let refused = self.refused().map(|refused| (self.of, refused.path.clone()));
                if let Some((of, path)) = refused.or(found.map(|(of, loaded)| (of, loaded.path.clone()))) {
                    self.read(of, path, Some(chosen.clone()));
                }
            }
            Loading::Stop => {
                self.wanted = None;
                self.worker.cancel();
            }
            Loading::Open | Loading::Take => {}
        }
    }

    fn read(&mut self, of: Of, path: PathBuf, chosen: Option<Ask>) {
        self.of = of;
        (self.wanted, self.refused, self.trouble) = (Some((path, chosen)), None, None);
        self.worker.cancel();
    }

    /// How far reading has come, 0 to 1; `None` when nothing is read.
    pub fn share(&self) -> Option<f32> {
        self.worker.is_busy().then(|| self.worker.share())
    }

    /// Why there is no recording.
    pub fn trouble(&self) -> Option<&str> {
        self.refused.as_ref().map(|refused| refused.why.as_str()).or(self.trouble.as_deref())
    }

    /// The columns of a file of this, and as which they were read: of one that was refused, else of the one found.
    pub fn columns<'a>(&'a self, of: Of, found: Option<&'a Loaded>) -> Option<(&'a [String], &'a Ask)> {
        let refused = self.refused().filter(|_| self.of == of).map(|r| (&r.columns[..], &r.asked));
        refused.or_else(|| found.map(|loaded| (&loaded.recording.columns[..], &loaded.recording.asked)))
    }

    /// The file that was refused; `None` when it is no table.
    fn refused(&self) -> Option<&Refused> {
        self.refused.as_deref().filter(|refused| !refused.columns.is_empty())
    }

    /// Once a frame: starts what is wanted, and hands over what has come, and of what it is.
    pub fn update(&mut self, ctx: &egui::Context) -> Option<(Of, Box<Loaded>)> {
        let come = self.worker.ended();
        if !self.worker.is_busy()
            && let Some((path, chosen)) = self.wanted.take()
        {
            let shop = self.shop.clone();
            let work = move |watch: &Watch| read(&shop, path, chosen, watch);
            let begun = self.worker.start(ctx, "recording", work);
            self.trouble =
                begun.err().map(|e| say!("The background calculation could not be started: {error}.", error = e));
        }
        if self.worker.is_busy() {
            ctx.request_repaint_after(DRAWN_EVERY);
        }
        match come? {
            Ended::Done(Ok(found)) => return Some((self.of, found)),
            Ended::Done(Err(refused)) => self.refused = Some(refused),
            Ended::Died => self.trouble = Some(tr("The recording could not be analysed.").to_owned()),
            Ended::Unwanted => {}
        }
        None
    }
}

fn read(shop: &Shop, path: PathBuf, chosen: Option<Ask>, watch: &Watch) -> Read {
    let opened = match &chosen {
        Some(ask) => recordings::open(&path, ask, watch),
        None => recordings::open_as(&path, &Ask::default(), &shop.recording_mappings(), watch),
    };
    let recording = opened.map_err(|error: RecordFileError| {
        let (why, asked) = (format!("{error}."), chosen.clone().unwrap_or_default());
        Box::new(Refused { why, columns: recordings::columns_of(&path), asked, path: path.clone() })
    })?;
    if let Some(ask) = &chosen {
        // Where nothing can be kept, nothing is remembered.
        let _ = shop.remember_recording(&recording.columns, ask);
    }
    let analysed = recorded::analyse(&recording.record, recording.signal, recording.named);
    let written = std::fs::metadata(&path).and_then(|m| m.modified()).ok();
    let day = written.and_then(|at| jiff::ZonedDateTime::try_from(at).ok()).map(|at| at.date().to_string());
    Ok(Box::new(Loaded { path, recording, analysed, day }))
}

/// Types a measured value with its ± into a field.
pub(in crate::gui) fn put(
    entry: &mut dyn AnyEntry,
    Measured { value, u }: Measured,
    text: impl Fn(f64, Dim) -> String,
    units: &UnitChoice,
    mark: DecimalMark,
) {
    let dim = entry.dim();
    let text = |si: f64| with_mark(text(si, dim), mark);
    entry.type_text(&text(value), units.unit(dim), mark);
    entry.set_origin(Some(Origin::Measured));
    entry.set_pm(&text(u), Spread::Standard);
}
