//! What can be asked of the parts list.

use std::path::PathBuf;

use super::open_list::Filter;
use crate::job::Side;
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
    /// Take this spring.
    Take(Box<Taking>),
    /// Take this pair.
    TakePair(Box<TakingPair>),
    /// Take none.
    TakeNone(Side),
}

/// A spring to take from the list.
#[derive(Debug, Clone)]
pub struct Taking {
    /// For which axle.
    pub side: Side,
    /// The spring.
    pub spring: Spring,
    /// The spacer that goes with it, m; `None` when it was not judged.
    pub spacer_m: Option<f64>,
}

/// A pair to take from the list, left and right.
#[derive(Debug, Clone)]
pub struct TakingPair {
    /// For which axle.
    pub side: Side,
    /// The springs.
    pub springs: [Spring; 2],
    /// The spacer of each, m.
    pub spacers_m: [f64; 2],
}
