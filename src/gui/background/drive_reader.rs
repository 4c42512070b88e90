//! Recordings of drives, one before the change and one after the work, and what of them goes into the job.

use eframe::egui;

use crate::base::language::{Voice, spoken};
use crate::base::units::entry::AnyEntry;
use crate::base::units::{UnitChoice, display};
use crate::gui::background::record_loader::{Loaded, Loading, RecordLoader, put};
use crate::job::{DriveReading, Job};
use crate::report::Block;
use crate::report::pictures::motion;
use crate::report::pictures::picture::Picture;
use crate::report::sections::record_tables::{self, Told};
use crate::shop::lists::Shop;
use crate::shop::recordings::Ask;
use crate::solve::answer::{BeforeAfter, Measured};
use crate::solve::recorded::Drive;

/// What was read, for the units shown.
pub struct Said {
    /// Each in words and tables.
    pub blocks: BeforeAfter<Vec<Block>>,
    /// Their spectra.
    pub picture: Option<Picture>,
}

/// Reads recordings of drives, one at a time.
pub struct DriveReader {
    /// Of the drive before, else of the one after.
    loader: RecordLoader<bool>,
    found: BeforeAfter<Option<Box<Loaded>>>,
    said: Option<(UnitChoice, Voice, Said)>,
}

impl DriveReader {
    /// Columns chosen by hand are remembered in this shop.
    pub(in crate::gui) fn new(shop: Shop) -> Self {
        let found = BeforeAfter { before: None, after: None };
        DriveReader { loader: RecordLoader::new(shop, true), found, said: None }
    }

    fn of(&self, is_before: bool) -> Option<&Loaded> {
        if is_before { self.found.before.as_deref() } else { self.found.after.as_deref() }
    }

    /// What was read.
    pub fn said(&self) -> Option<&Said> {
        self.said.as_ref().map(|said| &said.2)
    }

    /// Something to take was read.
    pub fn has(&self, is_before: bool) -> bool {
        self.of(is_before).is_some_and(|loaded| loaded.analysed.drive.is_some())
    }

    /// The columns of the file, and as which they were read; those of a file that gave no recording come first.
    pub fn columns(&self, is_before: bool) -> Option<(&[String], &Ask)> {
        self.loader.columns(is_before, self.of(is_before))
    }

    /// How far reading has come, 0 to 1; `None` when nothing is read.
    pub fn share(&self) -> Option<f32> {
        self.loader.share()
    }

    /// Why there is no recording.
    pub fn trouble(&self) -> Option<&str> {
        self.loader.trouble()
    }

    /// Runs what needs no job; `is_before`: the recording shown is that of before the change.
    pub(in crate::gui) fn run(&mut self, command: &Loading, is_before: bool) {
        let found = if is_before { &self.found.before } else { &self.found.after };
        self.loader.run(command, is_before, found.as_deref().map(|loaded| (is_before, loaded)));
    }

    /// Once a frame: takes what has come, starts what is wanted, says it again in other units or another language.
    pub(in crate::gui) fn update(&mut self, job: &Job, ctx: &egui::Context) {
        if let Some((is_before, loaded)) = self.loader.update(ctx) {
            let found = if is_before { &mut self.found.before } else { &mut self.found.after };
            (*found, self.said) = (Some(loaded), None);
        }
        let is_old = self.said.as_ref().is_none_or(|(units, voice, _)| (*units, *voice) != (job.units, spoken()));
        let is_some = self.found.before.is_some() || self.found.after.is_some();
        if is_old && is_some {
            self.said = Some((job.units, spoken(), self.say(&job.units)));
        }
    }

    fn drive(&self, is_before: bool) -> Option<&Drive> {
        self.of(is_before)?.analysed.drive.as_ref()
    }

    fn say(&self, units: &UnitChoice) -> Said {
        let (before, after) = (self.drive(true), self.drive(false));
        let ratio = before.zip(after).and_then(|(before, after)| after.ratio_to(before));
        let told = |is_before: bool| {
            let Some(loaded) = self.of(is_before) else { return Vec::new() };
            let (recording, analysed) = (&loaded.recording, &loaded.analysed);
            let ratio = ratio.filter(|_| !is_before);
            let told = Told { file: &loaded.path, recording, analysed, of: None, axle: None, ratio };
            record_tables::drive_in_window(&told, units)
        };
        Said {
            blocks: BeforeAfter { before: told(true), after: told(false) },
            picture: motion::drives([before, after], ratio, units),
        }
    }

    /// Puts what was found into the job; false when there is nothing.
    pub(in crate::gui) fn take(&self, job: &mut Job, is_before: bool) -> bool {
        let (Some(loaded), Some(drive)) = (self.of(is_before), self.drive(is_before)) else { return false };
        let (units, mark) = (job.units, job.decimal);
        let reading = if is_before { &mut job.drive.before } else { &mut job.drive.after };
        let [file, checksum, about] = loaded.named();
        *reading = DriveReading { file, about, checksum, ..DriveReading::default() };
        let entries: [(&mut dyn AnyEntry, Option<Measured>); 2] =
            [(&mut reading.felt, drive.felt_with_u()), (&mut reading.rms, drive.rms_with_u())];
        for (entry, value) in entries {
            if let Some(value) = value {
                put(entry, value, |si, dim| display::full_si(si, dim, &units), &units, mark);
            }
        }
        true
    }
}
