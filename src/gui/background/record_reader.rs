//! Recordings of bounces, read and analysed in the background, and what of them goes into the job.

use eframe::egui;

use crate::base::language::{Voice, spoken, with_mark};
use crate::base::units::entry::AnyEntry;
use crate::base::units::{Dim, Origin, display};
use crate::gui::background::drive_reader::DriveReader;
use crate::gui::background::record_loader::{Loaded, Loading, RecordLoader, put};
use crate::job::{BounceReading, Job, Side};
use crate::report::Block;
use crate::report::pictures::motion;
use crate::report::pictures::picture::Picture;
use crate::report::sections::record_tables::{self, Told};
use crate::say;
use crate::shop::lists::Shop;
use crate::shop::recordings::Ask;
use crate::solve::answer::{Answer, Measured, State};
use crate::solve::recorded;

/// What can be done with recordings.
#[derive(Debug, Clone)]
pub enum RecordCommand {
    /// Recordings are of before the change, or of after the work.
    Before(bool),
    /// Something with recordings of bounces of the axle shown.
    Bounce(Loading),
    /// Something with recordings of drives.
    Drive(Loading),
    /// Put the damping ratio that it comes to into the field of the old damper.
    TakeRatio,
}

/// The axle, and when.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Of {
    /// The axle that was bounced.
    pub side: Side,
    /// Before the change; else after the work.
    pub is_before: bool,
}

impl Of {
    /// The state of the job that it is compared with: after the work on the springs that were fitted.
    fn state(self, answer: &Answer) -> State {
        if self.is_before { State::Before } else { answer.axle(self.side).bench.fitted_state() }
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

/// A recording of an axle.
struct Found {
    of: Of,
    loaded: Box<Loaded>,
}

/// Its texts for the current job.
pub struct Said {
    /// In words and tables.
    pub blocks: Vec<Block>,
    /// Its motion with the decays that count.
    pub picture: Option<Picture>,
    /// The damping ratio on springs that it comes to; only before the change.
    pub on_springs: Option<Measured>,
}

/// Reads recordings of bounces, one at a time.
pub struct RecordReader {
    loader: RecordLoader<Of>,
    found: Option<Found>,
    /// With the job that it was worked out for, and the voice of its note; apart, since a job takes much of a stack.
    said: Option<Box<(Job, Voice, Said)>>,
    is_before: bool,
    drives: DriveReader,
}

impl RecordReader {
    /// Columns chosen by hand are remembered in this shop.
    pub(in crate::gui) fn new(shop: Shop) -> Self {
        let wanted = Of { side: Side::Front, is_before: true };
        let (loader, drives) = (RecordLoader::new(shop.clone(), wanted), DriveReader::new(shop));
        RecordReader { loader, found: None, said: None, is_before: true, drives }
    }

    /// Recordings of drives.
    pub fn drives(&self) -> &DriveReader {
        &self.drives
    }

    /// Recordings are of before the change.
    pub fn is_before(&self) -> bool {
        self.is_before
    }

    /// Texts of this axle's recording, if one was read.
    pub fn said(&self, of: Of) -> Option<&Said> {
        self.found.as_ref().filter(|found| found.of == of)?;
        Some(&self.said.as_ref()?.2)
    }

    /// The columns of its file, and as which they were read; those of a file that gave no recording come first.
    pub fn columns(&self, of: Of) -> Option<(&[String], &Ask)> {
        let found = self.found.as_ref().filter(|found| found.of == of);
        self.loader.columns(of, found.map(|found| &*found.loaded))
    }

    /// How far reading has come, 0 to 1; `None` when nothing is read.
    pub fn share(&self) -> Option<f32> {
        self.loader.share()
    }

    /// Why there is no text.
    pub fn trouble(&self) -> Option<&str> {
        self.loader.trouble()
    }

    /// Runs what needs no job; `side` is the axle shown.
    pub(in crate::gui) fn run(&mut self, command: &RecordCommand, side: Side) {
        match command {
            RecordCommand::Before(is_before) => self.is_before = *is_before,
            RecordCommand::Bounce(command) => {
                let found = self.found.as_ref().map(|found| (found.of, &*found.loaded));
                self.loader.run(command, Of { side, is_before: self.is_before }, found);
            }
            RecordCommand::Drive(command) => self.drives.run(command, self.is_before),
            RecordCommand::TakeRatio => {}
        }
    }

    /// Once a frame: takes what has come, starts what is wanted, says it again for another job or in another language.
    /// `whole` gives the job's answer once every ± is there: what was found is compared by it.
    pub(in crate::gui) fn update<'a>(
        &mut self,
        job: &Job,
        whole: impl FnOnce() -> Option<&'a Answer>,
        ctx: &egui::Context,
    ) {
        self.drives.update(job, ctx);
        if let Some((of, loaded)) = self.loader.update(ctx) {
            (self.found, self.said) = (Some(Found { of, loaded }), None);
        }
        let Some(found) = &self.found else { return };
        let is_old = self.said.as_ref().is_none_or(|said| said.0 != *job || said.1 != spoken());
        if let Some(answer) = is_old.then(whole).flatten() {
            self.said = Some(Box::new((job.clone(), spoken(), said(found, job, answer))));
        }
    }

    /// Puts the drive into the job; false when there is none.
    pub(in crate::gui) fn take_drive(&self, job: &mut Job) -> bool {
        self.drives.take(job, self.is_before)
    }

    /// Puts what was found into the job; false when there is nothing.
    pub(in crate::gui) fn take(&self, job: &mut Job) -> bool {
        let Some(found) = &self.found else { return false };
        let (units, mark, bounce) = (job.units, job.decimal, &found.loaded.analysed.bounce);
        let reading = found.of.reading_mut(job);
        let [file, checksum, about] = found.loaded.named();
        let about = say!("{about}, decays: {decays}", about, decays = bounce.decays.len());
        *reading = BounceReading { file, about, checksum, ..BounceReading::default() };
        let text = |si: f64, dim: Dim| display::full_si(si, dim, &units);
        let entries: [(&mut dyn AnyEntry, _); 2] =
            [(&mut reading.frequency, bounce.frequency_hz), (&mut reading.damping, bounce.damping)];
        for (entry, value) in entries {
            if let Some(value) = value {
                put(entry, value, text, &units, mark);
            }
        }
        if let Some(speed) = bounce.peak_speed_m_per_s {
            let said = with_mark(display::rounded_si(speed, Dim::DamperSpeed, &units), mark);
            reading.speed.type_text(&said, units.unit(Dim::DamperSpeed), mark);
            reading.speed.set_origin(Some(Origin::Measured));
        }
        true
    }

    /// Puts the damping ratio on springs that it comes to into the field of the old damper; false when there is none.
    pub(in crate::gui) fn take_ratio(&self, job: &mut Job) -> bool {
        let ratio = self.said.as_ref().and_then(|said| said.2.on_springs);
        let (Some(found), Some(ratio)) = (&self.found, ratio) else { return false };
        let (units, mark) = (job.units, job.decimal);
        let entry = &mut job.axle_mut(found.of.side).damper.ratio_before;
        put(entry, ratio, |value, _| display::fixed(value, 3), &units, mark);
        true
    }
}

fn said(found: &Found, job: &Job, answer: &Answer) -> Said {
    let (of, loaded) = (found.of, &found.loaded);
    let bounce = &loaded.analysed.bounce;
    let state = of.state(answer);
    let axle = recorded::of_axle(answer, of.side, state, bounce);
    let told = Told {
        file: &loaded.path,
        recording: &loaded.recording,
        analysed: &loaded.analysed,
        of: Some((of.side, state, answer)),
        axle,
        ratio: None,
    };
    Said {
        blocks: record_tables::in_window(&told, &job.units),
        picture: motion::bounce(&loaded.recording, &loaded.analysed, of.side, &job.units),
        on_springs: axle.and_then(|a| a.on_springs).filter(|_| of.is_before),
    }
}
