//! What each column of a file means, and in which unit.

use serde::{Deserialize, Serialize};

use super::header::{self, Header};
use super::meaning::Meaning;
use super::text::{self, Table};
use super::{ListError, MOST_COLUMNS, cell};
use crate::base::units::{Amount, DecimalMark, Dim, Unit, parse, table};

/// Rows read to find the unit of a column in its cells.
const LOOKED_AT: usize = 200;

/// One column of a file.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Column {
    /// Its header, as it is in the file.
    pub header: String,
    /// What it means; `None` leaves the column out.
    #[serde(default)]
    pub means: Option<Meaning>,
    /// The unit of its bare numbers, by symbol; `None` when the header or the cells say it.
    #[serde(default)]
    pub unit: Option<String>,
}

/// What the columns of a file mean. Kept with the program's settings, so that the next such file is read at once.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Columns {
    /// The columns, in the order of the file.
    pub columns: Vec<Column>,
    /// What parts columns; guessed when `None`.
    #[serde(default)]
    pub delimiter: Option<char>,
    /// The decimal mark; guessed when `None`.
    #[serde(default)]
    pub decimal: Option<DecimalMark>,
}

impl Column {
    /// The unit of its bare numbers: chosen, else named in the header.
    pub(super) fn settled_unit(&self, means: Meaning) -> Result<Option<&'static Unit>, ListError> {
        let wrong = |unit: &str| ListError::WrongUnit { column: self.header.clone(), unit: unit.to_owned(), means };
        if let Some(chosen) = self.unit.as_deref().map(str::trim) {
            let found = means.dims().iter().find_map(|dim| table::find(*dim, chosen));
            return if found.is_none() { Err(wrong(chosen)) } else { Ok(found) };
        }
        match header::unit_for(&self.header, means) {
            Header { unit: None, odd: Some(odd), .. } => Err(wrong(odd.symbol)),
            said => Ok(said.unit),
        }
    }
}

impl Columns {
    /// True when the file has these headers, in any order: what was chosen for them still holds.
    pub fn fits(&self, bytes: &[u8]) -> bool {
        let Ok(decoded) = text::decode(bytes) else { return false };
        let Ok(table) = Table::open(&decoded.text, self.delimiter) else { return false };
        let mut rows = table.rows();
        let Some(header) = rows.next() else { return false };
        let mut found: Vec<&str> = header.cells.iter().map(str::trim).collect();
        let mut wanted: Vec<&str> = self.columns.iter().map(|c| c.header.trim()).collect();
        found.sort_unstable();
        wanted.sort_unstable();
        found == wanted
    }

    /// Where each column is in the file, by its header; of equal headers the first is the first.
    ///
    /// # Errors
    /// [`ListError`]: a column with a meaning is not there, means what another means, or nothing makes a part.
    pub(super) fn places(&self, headers: &[String]) -> Result<Vec<(usize, &Column, Meaning)>, ListError> {
        let mut taken = vec![false; headers.len()];
        let (mut places, mut absent) = (Vec::<(usize, &Column, Meaning)>::new(), Vec::new());
        for column in &self.columns {
            let name = column.header.trim();
            let at = headers.iter().zip(&taken).position(|(h, taken)| !taken && h == name);
            if let Some(at) = at {
                taken[at] = true;
            }
            match (at, column.means) {
                (Some(at), Some(means)) => {
                    if let Some((_, first, _)) = places.iter().find(|(_, _, m)| m.is_same(means)) {
                        return Err(twice(means, first, column));
                    }
                    wrong_speed(column).map_or(Ok(()), Err)?;
                    places.push((at, column, means));
                }
                (None, Some(_)) => absent.push(format!("\"{name}\"")),
                (_, None) => {}
            }
        }
        if !absent.is_empty() {
            return Err(ListError::DoesNotFit { columns: absent.join(", ") });
        }
        self.nothing_usable().map_or(Ok(places), Err)
    }

    fn nothing_usable(&self) -> Option<ListError> {
        let usable = self.columns.iter().filter_map(|c| c.means).any(Meaning::makes_a_part);
        (!usable).then_some(ListError::NothingUsable)
    }
}

/// The column holds bare numbers and no unit is known for them.
pub(super) fn no_unit(header: &str, means: Meaning) -> ListError {
    ListError::NoUnit { column: header.to_owned(), means }
}

fn twice(means: Meaning, first: &Column, second: &Column) -> ListError {
    let (first, second) = (first.header.clone(), second.header.clone());
    ListError::Twice { means, first, second }
}

/// A force column whose speed no damper has.
fn wrong_speed(column: &Column) -> Option<ListError> {
    let (Meaning::Bump(speed) | Meaning::Rebound(speed)) = column.means? else { return None };
    let is_speed = speed > 0.0 && speed <= 100.0;
    (!is_speed).then(|| ListError::Speed { column: column.header.clone(), speed: Amount::significant(speed, 15) })
}

/// Guesses by its headers what each column of a file means, its unit, the delimiter and the decimal mark.
///
/// Of two columns with one meaning the first keeps it. A unit that the header does not name is taken from the cells
/// when each of them says one.
///
/// # Errors
/// [`ListError`]: the file is empty, no text, or has no header.
pub fn guess(bytes: &[u8]) -> Result<Columns, ListError> {
    guess_parted(bytes, None)
}

/// As [`guess`], its columns separated by this delimiter; by the one that fits best when `None`.
///
/// # Errors
/// As [`guess`].
pub fn guess_parted(bytes: &[u8], delimiter: Option<char>) -> Result<Columns, ListError> {
    let decoded = text::decode(bytes)?;
    let table = Table::open(&decoded.text, delimiter)?;
    let headers = headers(&table)?;
    let mut read: Vec<Header> = headers.iter().map(|h| header::read(h)).collect();
    if read.iter().all(|h| h.means.is_none()) && headers.iter().any(|h| cell::is_bare_number(h)) {
        return Err(ListError::NoHeader);
    }
    settle_id(&headers, &mut read);
    for i in 1..read.len() {
        let is_taken = |means: Meaning| read[..i].iter().filter_map(|h| h.means).any(|m| m.is_same(means));
        if read[i].means.is_some_and(is_taken) {
            read[i] = Header::default();
        }
    }
    let numbers: Vec<usize> = (0..read.len()).filter(|i| read[*i].means.is_some_and(cell::is_number)).collect();
    let decimal = cell::guess_mark(&table, &numbers);
    let from_cells = units_in_cells(&table, &read, decimal);
    let columns = headers
        .into_iter()
        .zip(read.iter().zip(from_cells))
        .map(|(header, (said, in_cells))| {
            let unit = said.unit.or(in_cells).map(|u| u.symbol.to_owned());
            Column { header, means: said.means, unit }
        })
        .collect();
    Ok(Columns { columns, delimiter: Some(char::from(table.delimiter)), decimal: Some(decimal) })
}

/// The headers of a table, without the space around them.
pub(super) fn headers(table: &Table) -> Result<Vec<String>, ListError> {
    let mut rows = table.rows();
    let header = rows.next().ok_or(ListError::Empty)?;
    if header.torn {
        return Err(ListError::NoHeader);
    }
    if header.cells.len() > MOST_COLUMNS {
        return Err(ListError::TooManyColumns { count: header.cells.len() });
    }
    if let Some(count) = header.cells.iter().find_map(crate::base::table::beyond_cell) {
        return Err(ListError::LongName { count });
    }
    Ok(header.cells.iter().map(|c| c.trim().to_owned()).collect())
}

/// A bare "ID" among columns without a number and without an outside diameter is the part's number.
fn settle_id(headers: &[String], read: &mut [Header]) {
    let has = |read: &[Header], means| read.iter().any(|h| h.means == Some(means));
    if has(read, Meaning::Number) || has(read, Meaning::OutsideDiameter) {
        return;
    }
    if let Some(i) = headers.iter().position(|h| h.eq_ignore_ascii_case("id")) {
        read[i].means = Some(Meaning::Number);
    }
}

/// The unit most cells of a column say, when the header says none and each of them says one.
fn units_in_cells(table: &Table, read: &[Header], mark: DecimalMark) -> Vec<Option<&'static Unit>> {
    let open = |h: &Header| h.unit.is_none() && h.means.is_some_and(|m| !m.dims().is_empty());
    let mut said: Vec<Option<Vec<&'static Unit>>> = read.iter().map(|h| open(h).then(Vec::new)).collect();
    let mut rows = table.rows();
    rows.next();
    let mut seen = 0;
    while let Some(row) = rows.next().filter(|_| seen < LOOKED_AT) {
        seen += 1;
        for ((cell, said), header) in row.cells.iter().zip(&mut said).zip(read) {
            let (Some(units), Some(means)) = (said.as_mut(), header.means) else { continue };
            let cell = cell::without_plus_minus(cell.trim());
            let named = |d: &Dim| parse::number(cell, *d, mark).ok().map(|n| n.unit).filter(|u| !u.symbol.is_empty());
            match means.dims().iter().find_map(named) {
                Some(unit) => units.push(unit),
                None if parse::is_bare(cell, mark) => *said = None,
                None => {}
            }
        }
    }
    let most = |units: Vec<&'static Unit>| {
        units.iter().max_by_key(|u| units.iter().filter(|o| o.symbol == u.symbol).count()).copied()
    };
    said.into_iter().map(|units| units.and_then(most)).collect()
}
