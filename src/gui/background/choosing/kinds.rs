//! What the step Choose knows, wants, and is at.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::open_list::{Filter, OpenList};
use crate::job::{Job, Side};
use crate::shop::lists::ShopError;
use crate::shop::parts::Columns;

/// What the columns of a file mean, while the user says so.
#[derive(Debug, Clone, PartialEq)]
pub struct Mapping {
    /// The file.
    pub path: PathBuf,
    /// It is no list of the shop's yet.
    pub is_new: bool,
    /// What its columns mean.
    pub columns: Columns,
}

/// The list that the job names.
#[derive(Debug, Default)]
pub enum Listed {
    /// It names none.
    #[default]
    None,
    /// It is being read.
    Waiting,
    /// Here it is.
    Open(Arc<OpenList>),
    /// It cannot be used, and why.
    Failed(ShopError),
    /// Reading it ended without a result.
    Unread,
}

/// How far the choice has come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Progress {
    /// What is shown belongs to the current job.
    Current,
    /// The job was changed a moment ago.
    Resting,
    /// Progress, 0 to 1.
    Running(f32),
    /// The user stopped it.
    Stopped,
    /// Nothing can be chosen: no list, or no axle that gets springs.
    Nothing,
}

/// The window at the moment of a frame.
#[derive(Debug)]
pub(in crate::gui) struct Now<'a> {
    pub job: &'a Job,
    /// The job's own file.
    pub beside: Option<&'a Path>,
    /// The step is on screen.
    pub is_shown: bool,
    pub time_s: f64,
}

/// What is asked of the list in this frame.
#[derive(Debug)]
pub(in crate::gui) struct Asked<'a> {
    /// Which rows are shown.
    pub filter: &'a Filter,
    /// The axle shown.
    pub side: Side,
    /// What the columns mean, while this is being chosen.
    pub mapping: &'a mut Option<Mapping>,
}
