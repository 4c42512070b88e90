//! Why a file gives no recording.

use std::path::PathBuf;

use thiserror::Error;

use crate::base::bounds::RECORD_ROWS;
use crate::base::language::{Word, path_text, tr};
use crate::base::message::Message;
use crate::base::table::NotText;
use crate::base::units::Amount;
use crate::job::reading::ReadError;
use crate::say;
use crate::trade::recording::Uneven;

/// What is wrong with what is in the file.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum RecordError {
    /// Nothing in it.
    #[error("{}", tr("the file is empty"))]
    Empty,
    /// Bytes that are no text.
    #[error(transparent)]
    NotText(#[from] NotText),
    /// No rows of numbers.
    #[error(
        "{}",
        tr(
            "no rows of numbers were found. Save the recording as a text table: time, then one to three axes of acceleration"
        )
    )]
    NoRows,
    /// No column of time.
    #[error(
        "{}",
        say!("no column gives the time: {columns}. Choose the time column, or name it in the header (command line: --time, or the sampling rate with --rate)", columns)
    )]
    NoTime {
        /// What the columns are called.
        columns: String,
    },
    /// No column of motion.
    #[error(
        "{}",
        say!("no column gives an acceleration or a displacement: {columns}. Name such a column in the header, for instance az (m/s²)", columns)
    )]
    NoMotion {
        /// What the columns are called.
        columns: String,
    },
    /// An axis that was named is not there.
    #[error("{}", say!("there is no column \"{wanted}\"; the columns are {columns}", wanted, columns))]
    NoSuchColumn {
        /// What was asked for.
        wanted: String,
        /// What the columns are called.
        columns: String,
    },
    /// A unit that is none.
    #[error("{}", say!("\"{unit}\" is not a unit for {wanted}; use {allowed}", unit, wanted, allowed))]
    Unit {
        /// What was asked for.
        unit: String,
        /// Of what.
        wanted: Word,
        /// Which there are.
        allowed: &'static str,
    },
    /// More rows than a recording has.
    #[error("{}", say!("the file has more than {most} rows, the maximum. Split it", most = RECORD_ROWS.count()))]
    TooManyRows,
    /// Too many rows cannot be used.
    #[error(
        "{}",
        say!("{bad} of {rows} rows cannot be used, the first in line {line}: {reason}. The file is damaged, or its columns are misread", bad, rows, line, reason)
    )]
    Damaged {
        /// How many.
        bad: usize,
        /// Of how many.
        rows: usize,
        /// The first of them.
        line: usize,
        /// What is wrong with that.
        reason: Message,
    },
    /// Values beyond any sensor.
    #[error(
        "{}",
        say!("values up to {value} {unit} are beyond the range of any sensor on a vehicle. Check the unit of the columns", value, unit)
    )]
    TooLarge {
        /// The largest value.
        value: Amount,
        /// Its unit.
        unit: &'static str,
    },
    /// Nothing moves.
    #[error("{}", tr("every sample has the same value: nothing was recorded"))]
    Constant,
    /// No unit of time gives a rate that a sensor has.
    #[error(
        "{}",
        say!("steps of {step} in the time column do not give a plausible sampling rate in s, ms, µs or ns. Check the time column, and choose its unit (command line: --time-unit, or the sampling rate with --rate)", step)
    )]
    NoTimeUnit {
        /// A usual step, as it is.
        step: Amount,
    },
    /// Times do not give an even grid.
    #[error(transparent)]
    Uneven(#[from] Uneven),
    /// It was stopped.
    #[error("{}", tr("stopped"))]
    Stopped,
}

/// Why a file gives no recording, with the file.
#[derive(Debug, Error)]
pub enum RecordFileError {
    /// It cannot be read, is no ordinary file, or is too large.
    #[error("{}\n  {}", say!("the file could not be read: {reason}", reason = source), say!("file: {path}", path = path_text(path)))]
    Read {
        /// Why.
        source: ReadError,
        /// Which file.
        path: PathBuf,
    },
    /// What is in it.
    #[error("{}", say!("{source}\n  file: {path}", source, path = path_text(path)))]
    Record {
        /// What is wrong.
        source: RecordError,
        /// Which file.
        path: PathBuf,
    },
}
