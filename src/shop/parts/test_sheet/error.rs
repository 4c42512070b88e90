//! Why a table gives no curve.

use thiserror::Error;

use crate::base::language::{Word, tr};
use crate::base::message::Message;
use crate::shop::parts::{BadRow, ListError};
use crate::{message, say};

/// Why a file is no curve.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CurveTableError {
    /// As with a parts list.
    #[error(transparent)]
    List(#[from] ListError),
    /// A column is missing.
    #[error(
        "{}",
        say!(
            "No column gives {what}. Name the columns in the first row: speed, bump, rebound; or speed and force, with signs",
            what = .0
        )
    )]
    Missing(Word),
    /// Two columns of one kind.
    #[error(
        "{}",
        say!("Columns \"{first}\" and \"{second}\" both give {what}. Keep one", first = .0, second = .1, what = .2)
    )]
    Twice(String, String, Word),
    /// A bare number and no unit.
    #[error(
        "{}",
        say!("Column \"{column}\" has no unit. Give it in the header, or choose one: {allowed}", column, allowed)
    )]
    NoUnit {
        /// The header.
        column: String,
        /// The units it takes.
        allowed: Message,
    },
    /// A unit of something else.
    #[error("{}", say!("Column \"{column}\": the unit given is not a unit for {wanted}; use {allowed}", column, wanted, allowed))]
    WrongUnit {
        /// The header.
        column: String,
        /// What the column holds.
        wanted: Word,
        /// The units it takes.
        allowed: Message,
    },
    /// One column of forces without any sign.
    #[error(
        "{}",
        tr(
            "Neither speeds nor forces have a sign, so bump and rebound cannot be distinguished. Use two columns, bump and rebound, or give signs"
        )
    )]
    NoSign,
    /// Rows that cannot be used; all of them.
    #[error("{}", said(.0))]
    Rows(Vec<BadRow>),
}

fn said(rows: &[BadRow]) -> Message {
    Message::row(rows.iter().map(|r| message!("Line {line}: {reason}", line = r.line, reason = &r.reason)), "\n")
}
