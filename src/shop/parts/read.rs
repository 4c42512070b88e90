//! A file to a list: the columns are settled, then its rows are read one by one.

use super::cell::{self, Numbers};
use super::columns::{Columns, headers};
use super::meaning::Meaning;
use super::row::{Plan, Slot};
use super::text::{self, Row, Table};
use super::{BadRow, List, ListError};
use crate::base::bounds::{CELL, LIST_ROWS};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::table::Decoded;
use crate::base::units::{Amount, DecimalMark};
use crate::message;

/// Reads a parts list. `columns` says what each column means; see [`super::guess`].
///
/// # Errors
/// [`ListError`] when the file cannot be read by these columns at all. A row that cannot be used is no error: it is
/// listed in [`List::bad`].
pub fn read(bytes: &[u8], columns: &Columns) -> Result<List, ListError> {
    let decoded = text::decode(bytes)?;
    let table = Table::open(&decoded.text, columns.delimiter)?;
    let names = headers(&table)?;
    let (mut plan, mut notes) = plan(&names, columns)?;
    let mark = columns.decimal.unwrap_or_else(|| {
        let numbers = plan.slots.iter().filter(|s| cell::is_number(s.means)).map(|s| s.at);
        cell::guess_mark(&table, &numbers.collect::<Vec<_>>())
    });
    plan.numbers = Numbers::new(mark);
    let mut list = List::default();
    let mut rows = table.rows();
    rows.next();
    let mut reasons = Vec::new();
    while let Some(row) = rows.next() {
        list.rows += 1;
        if list.rows > LIST_ROWS.count() {
            return Err(ListError::TooManyRows { most: LIST_ROWS.count() });
        }
        match shape(&row, names.len()) {
            Some(reason) => reasons.push(reason),
            None => plan.read(&row, &mut list, &mut reasons)?,
        }
        if !reasons.is_empty() {
            list.bad.push(BadRow {
                line: row.line,
                reason: Message::row(reasons.drain(..), "; "),
                text: crate::base::table::quoted(row.text),
            });
        }
    }
    list.notes = how_read(&decoded, &table, mark);
    list.notes.append(&mut notes);
    list.notes.append(&mut counted(&plan));
    Ok(list)
}

/// Settles where each column is, and its unit; notes say what is left out or read against the header.
fn plan(names: &[String], columns: &Columns) -> Result<(Plan, Vec<Message>), ListError> {
    let places = columns.places(names).map_err(|error| match error {
        ListError::DoesNotFit { .. } if names.iter().any(|n| cell::is_bare_number(n)) => ListError::NoHeader,
        other => other,
    })?;
    let (mut slots, mut notes) = (Vec::new(), Vec::new());
    for (at, column, means) in places {
        let unit = column.settled_unit(means)?;
        let said = super::header::unit_for(&column.header, means);
        if let (Some(unit), Some(said)) = (unit, said.unit.or(said.odd))
            && unit.symbol != said.symbol
        {
            let (header, given) = (&column.header, said.symbol);
            notes.push(message!(
                "Column \"{header}\": numbers taken as {symbol}, although the header says {given}",
                header,
                given,
                symbol = unit.symbol
            ));
        }
        slots.push(Slot { at, header: column.header.trim().to_owned(), means, unit });
    }
    let is_read = |i: &usize| slots.iter().any(|s| s.at == *i);
    let unread: Vec<String> = (0..names.len())
        .filter(|i| !is_read(i) && !names[*i].is_empty())
        .map(|i| format!("\"{}\"", names[i]))
        .collect();
    if !unread.is_empty() {
        notes.push(message!("Columns not read: {unread}", unread = unread.join(", ")));
    }
    let numbers = Numbers::new(DecimalMark::Point);
    Ok((Plan { speed_count: speed_count(&slots), slots, numbers, dashes: 0, unknown_ends: 0, left_out: 0 }, notes))
}

/// How many different speeds the force columns have.
fn speed_count(slots: &[Slot]) -> usize {
    let mut speeds: Vec<f64> = slots
        .iter()
        .filter_map(|s| match s.means {
            Meaning::Bump(speed) | Meaning::Rebound(speed) => Some(speed),
            _ => None,
        })
        .collect();
    speeds.sort_by(f64::total_cmp);
    speeds.dedup();
    speeds.len()
}

/// What is wrong with the shape of a row.
fn shape(row: &Row, wanted: usize) -> Option<Message> {
    if row.torn {
        let reason = Word(
            "a quotation mark is not closed, or text follows the closing one; inside a cell, write quotation marks twice",
        );
        return Some(reason.into());
    }
    if let Some(count) = row.cells.iter().find_map(crate::base::table::beyond_cell) {
        return Some(message!(
            "a cell has {count} characters; at most {most} are possible",
            count,
            most = CELL.count()
        ));
    }
    let found = row.cells.len();
    (found != wanted)
        .then(|| message!("{wanted} cells are expected, as in the header; the row has {found}", found, wanted))
}

fn how_read(decoded: &Decoded, table: &Table, mark: DecimalMark) -> Vec<Message> {
    let mark = match mark {
        DecimalMark::Point => Word("Decimal mark: point, as in 12.5"),
        DecimalMark::Comma => Word("Decimal mark: comma, as in 12,5"),
    };
    vec![decoded.note.clone(), table.parted_by(), mark.into()]
}

/// What was met while the rows were read.
fn counted(plan: &Plan) -> Vec<Message> {
    let mut notes = Vec::new();
    if let Some((text, number)) = &plan.numbers.example {
        let number = Amount::significant(*number, 15);
        notes.push(match plan.numbers.ambiguous {
            1 => message!(
                "1 cell could be read in two ways: \"{text}\" was read as {number}, with a thousands separator",
                text,
                number
            ),
            count => message!(
                "{count} cells could be read in two ways; for example, \"{text}\" was read as {number}, with a thousands separator",
                count,
                text,
                number
            ),
        });
    }
    match plan.unknown_ends {
        0 => {}
        1 => notes.push(Word("1 row: end type not understood").into()),
        count => notes.push(message!("{count} rows: end type not understood", count)),
    }
    match plan.dashes {
        0 => {}
        1 => notes.push(Word("1 cell containing only a dash was read as not known").into()),
        count => notes.push(message!("{count} cells containing only a dash were read as not known", count)),
    }
    match plan.left_out {
        0 => {}
        1 => notes.push(Word("1 cell ignored: a spring has no damper values, a damper no spring values").into()),
        count => notes
            .push(message!("{count} cells ignored: a spring has no damper values, a damper no spring values", count)),
    }
    notes
}
