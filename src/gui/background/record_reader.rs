//! Recordings of bounces, read and analysed in the background, and what of them goes into the job.

use std::path::{Path, PathBuf};

use eframe::egui;

use crate::base::language::{path_text, tr, with_mark};
use crate::base::progress::Watch;
use crate::base::units::entry::AnyEntry;
use crate::base::units::{DecimalMark, Dim, Origin, Spread, UnitChoice, display};
use crate::gui::background::worker::{DRAWN_EVERY, Ended, Worker};
use crate::job::{BounceReading, Job, Side};
use crate::report::Block;
use crate::report::pictures::motion;
use crate::report::pictures::picture::Picture;
use crate::report::sections::record_tables::{self, Told};
use crate::say;
use crate::shop::recordings::{self, Ask, RecordFileError, Recording};
use crate::solve::answer::{Answer, Measured, State};
use crate::solve::recorded::{self, Analysed};

/// What can be done with recordings.
#[derive(Debug, Clone)]
pub enum RecordCommand {
    /// Recordings are of before the swap, or of after the work.
    Before(bool),
    /// Ask for a recording of the axle shown.
    Open,
    /// Read this one.
    Read(PathBuf),
    /// Read it again with this column as the vertical; `None`: found by itself.
    Vertical(Option<String>),
    /// Stop reading.
    Stop,
    /// Put what was found into the job.
    Take,
    /// Put the damping ratio that it comes to into the field of the old damper.
    TakeRatio,
}

/// Of which axle, and when.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Of {
    /// The axle that was bounced.
    pub side: Side,
    /// Before the swap; else after the work.
    pub is_before: bool,
}

impl Of {
    /// The state of the job that it is compared with: after the work on the springs that were fitted.
    fn state(self, answer: &Answer) -> State {
        let on_new = answer.axle(self.side).bench.predicted.new.is_some();
        match (self.is_before, on_new) {
            (true, _) => State::Before,
            (false, true) => State::NewSprings,
            (false, false) => State::OldSprings,
        }
    }

    /// What the job holds of it.
    pub fn reading(self, job: &Job) -> &BounceReading {
        let bounce = &job.axle(self.side).bounce;
        if self.is_before { &bounce.before } else { &bounce.after }
    }

    fn reading_mut(self, job: &mut Job) -> &mut BounceReading {
        let bounce = &mut job.axle_mut(self.side).bounce;
        if self.is_before { &mut bounce.before } else { &mut bounce.after }
    }
}

/// One recording as read and analysed.
struct Found {
    of: Of,
    path: PathBuf,
    vertical: Option<String>,
    recording: Recording,
    analysed: Analysed,
    /// The day on which the file was written last.
    day: Option<String>,
}

/// Its texts for the current job.
pub struct Said {
    /// In words and tables.
    pub blocks: Vec<Block>,
    /// Its motion with the decays that count.
    pub picture: Option<Picture>,
    /// The damping ratio on springs that it comes to; only before the swap.
    pub on_springs: Option<Measured>,
}

type Read = Result<Box<Found>, RecordFileError>;

/// Reads recordings, one at a time.
pub struct RecordReader {
    worker: Worker<Read>,
    wanted: Option<(Of, PathBuf, Option<String>)>,
    found: Option<Box<Found>>,
    said: Option<(Job, Said)>,
    trouble: Option<String>,
    is_before: bool,
}

impl RecordReader {
    pub(in crate::gui) fn new() -> Self {
        let worker = Worker::new();
        RecordReader { worker, wanted: None, found: None, said: None, trouble: None, is_before: true }
    }

    /// Recordings are of before the swap.
    pub fn is_before(&self) -> bool {
        self.is_before
    }

    /// Texts of this axle's recording, if one was read.
    pub fn said(&self, of: Of) -> Option<&Said> {
        self.found.as_ref().filter(|found| found.of == of)?;
        Some(&self.said.as_ref()?.1)
    }

    /// Its columns, and the one that was named as the vertical.
    pub fn columns(&self, of: Of) -> Option<(&[String], Option<&str>)> {
        let found = self.found.as_ref().filter(|found| found.of == of)?;
        Some((&found.recording.axes, found.vertical.as_deref()))
    }

    /// How far reading has come, 0 to 1; `None` when nothing is read.
    pub fn share(&self) -> Option<f32> {
        self.worker.is_busy().then(|| self.worker.share())
    }

    /// Why there is no text.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// Runs what needs no job; `side` is the axle shown.
    pub(in crate::gui) fn run(&mut self, command: &RecordCommand, side: Side) {
        let of = Of { side, is_before: self.is_before };
        match command {
            RecordCommand::Before(is_before) => self.is_before = *is_before,
            RecordCommand::Read(path) => self.want(of, path.clone(), None),
            RecordCommand::Vertical(column) => {
                if let Some((of, path)) = self.found.as_ref().map(|f| (f.of, f.path.clone())) {
                    self.want(of, path, column.clone());
                }
            }
            RecordCommand::Stop => {
                self.wanted = None;
                self.worker.cancel();
            }
            RecordCommand::Open | RecordCommand::Take | RecordCommand::TakeRatio => {}
        }
    }

    fn want(&mut self, of: Of, path: PathBuf, vertical: Option<String>) {
        (self.wanted, self.trouble) = (Some((of, path, vertical)), None);
        self.worker.cancel();
    }

    /// Once a frame: takes what has come, starts what is wanted, says it again for another job.
    /// `whole` gives the job's answer once every ± is there: what was found is compared by it.
    pub(in crate::gui) fn update<'a>(
        &mut self,
        job: &Job,
        whole: impl FnOnce() -> Option<&'a Answer>,
        ctx: &egui::Context,
    ) {
        if let Some(ended) = self.worker.ended() {
            self.arrived(ended);
        }
        if !self.worker.is_busy()
            && let Some((of, path, vertical)) = self.wanted.take()
        {
            let work = move |watch: &Watch| read(of, &path, vertical, watch).map(Box::new);
            let begun = self.worker.start(ctx, "recording", work);
            self.trouble =
                begun.err().map(|e| say!("Nothing can be calculated in the background: {error}.", error = e));
        }
        if self.worker.is_busy() {
            ctx.request_repaint_after(DRAWN_EVERY);
        }
        let Some(found) = &self.found else { return };
        let is_old = self.said.as_ref().is_none_or(|(told, _)| told != job);
        if let Some(answer) = is_old.then(whole).flatten() {
            self.said = Some((job.clone(), said(found, job, answer)));
        }
    }

    fn arrived(&mut self, ended: Ended<Read>) {
        match ended {
            Ended::Done(Ok(found)) => (self.found, self.said) = (Some(found), None),
            Ended::Done(Err(error)) => self.trouble = Some(format!("{error}.")),
            Ended::Died => self.trouble = Some(tr("The recording could not be analysed.").to_owned()),
            Ended::Unwanted => {}
        }
    }

    /// Puts what was found into the job; false when there is nothing.
    pub(in crate::gui) fn take(&self, job: &mut Job) -> bool {
        let Some(found) = &self.found else { return false };
        let (units, mark, bounce) = (job.units, job.decimal, &found.analysed.bounce);
        let reading = found.of.reading_mut(job);
        *reading = BounceReading {
            file: path_text(&found.path).to_string(),
            about: about(found),
            checksum: format!("{:08x}", found.recording.checksum),
            ..BounceReading::default()
        };
        let text = |si: f64, dim: Dim| display::full_si(si, dim, &units);
        let entries: [(&mut dyn AnyEntry, _); 2] =
            [(&mut reading.frequency, bounce.frequency_hz), (&mut reading.damping, bounce.damping)];
        for (entry, value) in entries {
            if let Some(value) = value {
                put(entry, value, text, &units, mark);
            }
        }
        true
    }

    /// Puts the damping ratio on springs that it comes to into the field of the old damper; false when there is none.
    pub(in crate::gui) fn take_ratio(&self, job: &mut Job) -> bool {
        let ratio = self.said.as_ref().and_then(|(_, said)| said.on_springs);
        let (Some(found), Some(ratio)) = (&self.found, ratio) else { return false };
        let (units, mark) = (job.units, job.decimal);
        let entry = &mut job.axle_mut(found.of.side).damper.ratio_before;
        put(entry, ratio, |value, _| display::fixed(value, 3), &units, mark);
        true
    }
}

/// Types a measured value with its ± into a field.
fn put(
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

fn read(of: Of, path: &Path, vertical: Option<String>, watch: &Watch) -> Result<Found, RecordFileError> {
    let ask = Ask { axis: vertical.clone(), ..Ask::default() };
    let recording = recordings::open(path, &ask, watch)?;
    let analysed = recorded::analyse(&recording.record, recording.signal, recording.named);
    let written = std::fs::metadata(path).and_then(|m| m.modified()).ok();
    let day = written.and_then(|at| jiff::ZonedDateTime::try_from(at).ok()).map(|at| at.date().to_string());
    Ok(Found { of, path: path.to_owned(), vertical, recording, analysed, day })
}

fn said(found: &Found, job: &Job, answer: &Answer) -> Said {
    let (of, bounce) = (found.of, &found.analysed.bounce);
    let state = of.state(answer);
    let axle = recorded::of_axle(answer, of.side, state, bounce);
    let told = Told {
        file: &found.path,
        recording: &found.recording,
        analysed: &found.analysed,
        of: Some((of.side, state, answer)),
        axle,
        ratio: None,
    };
    Said {
        blocks: record_tables::in_window(&told, &job.units),
        picture: motion::bounce(&found.recording, &found.analysed, of.side, &job.units),
        on_springs: axle.and_then(|a| a.on_springs).filter(|_| of.is_before),
    }
}

/// Date, length, rate and decays of a recording, for the job.
fn about(found: &Found) -> String {
    let record = &found.recording.record;
    let text = say!(
        "{length} s at {rate} Hz, {decays} decays",
        length = display::fixed(record.length_s(), 1),
        rate = display::significant(record.rate_hz(), 4),
        decays = found.analysed.bounce.decays.len()
    );
    found.day.iter().cloned().chain([text]).collect::<Vec<_>>().join(", ")
}
