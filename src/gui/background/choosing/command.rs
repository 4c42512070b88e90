//! What can be asked of the parts list.

use std::path::PathBuf;

use super::open_list::Filter;
use crate::job::{LeftRight, Side};
use crate::shop::parts::Spring;

/// What can be done with the parts list.
#[derive(Debug, Clone)]
pub enum ListCommand {
    /// The job uses the list of this name; blank: none.
    Name(String),
    /// Ask for a file.
    Open,
    /// Look at this file, to say what its columns mean.
    Look(PathBuf),
    /// Guess again what the columns mean, separated by this; `None`: by what fits best.
    PartedBy(Option<char>),
    /// Use the chosen meaning of the columns: remember it, and use the list.
    UseColumns,
    /// Say where the older columns with their comments are.
    OriginalKept(PathBuf),
    /// Forget the chosen meaning of the columns.
    LeaveColumns,
    /// Read the list again: the file was changed.
    ReadAgain,
    /// Show the whole list, or fold it.
    Whole(bool),
    /// Show these rows of it.
    Rows(Filter),
    /// Stop choosing.
    Stop,
    /// Choose.
    WorkOut,
    /// Take a spring for an axle, with the spacer that goes with it, m; `None` when it was not judged.
    Take(Side, Box<Spring>, Option<f64>),
    /// Take a pair, with the spacer of each side, m.
    TakePair(Side, Box<LeftRight<Spring>>, LeftRight<f64>),
    /// Take none.
    TakeNone(Side),
}
