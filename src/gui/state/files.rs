//! What files are asked for, and what must be decided about them.

use std::path::PathBuf;

/// What the file is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A job to open.
    OpenJob,
    /// A place to save the job.
    SaveJob,
    /// A place for the sheet.
    WriteSheet,
    /// A parts list to open.
    OpenList,
    /// A damper's curve to put into the paste area.
    OpenCurve,
    /// A recording of bounces to open.
    OpenRecording,
    /// A recording of a drive to open.
    OpenDrive,
    /// A logo to open.
    OpenLogo,
    /// A place for the data of a plot.
    PlotData,
    /// A place for the picture of a plot.
    PlotPicture,
}

impl Purpose {
    /// The usual ending of such a file.
    pub fn ending(self) -> &'static str {
        match self {
            Purpose::OpenJob | Purpose::SaveJob => "ron",
            Purpose::WriteSheet => "pdf",
            Purpose::OpenList | Purpose::OpenCurve | Purpose::PlotData => "csv",
            Purpose::OpenRecording | Purpose::OpenDrive => "csv",
            Purpose::OpenLogo | Purpose::PlotPicture => "png",
        }
    }

    /// A file is written, not read.
    pub fn writes(self) -> bool {
        matches!(self, Purpose::SaveJob | Purpose::WriteSheet | Purpose::PlotData | Purpose::PlotPicture)
    }

    /// The path with the usual ending, where it has none and needs one.
    pub fn complete(self, path: PathBuf) -> PathBuf {
        let is_complete = path.extension().is_some() || !(self.writes() || self == Purpose::OpenJob);
        if is_complete { path } else { path.with_extension(self.ending()) }
    }
}

/// What must be decided before anything else happens to a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Question {
    /// Someone else changed the job's file: whose is to stand there?
    ChangedByOthers(PathBuf),
    /// The job's file holds comments, which no job has room for: save without them?
    Comments(PathBuf),
    /// A file of that name is there: replace it by the job?
    Exists(PathBuf),
    /// A file of that name is there: replace it by what is written for this purpose?
    Taken(Purpose, PathBuf),
    /// The window is to close, and unsaved work cannot be kept.
    NotKept,
}
