//! A damper's curve from a test machine or a catalogue: a table of speeds and forces.
//!
//! Two forms are understood, by their headers. Bump and rebound in their own columns next to a speed; or one column of
//! forces, where a sign of the speed, else of the force, tells which way the damper moves. Either may have a column of
//! clicks. Signs only tell the direction: what is given back are sizes.

mod error;

use csv::StringRecord;

use super::cell::{self, Fault, Numbers};
use super::header_words::{BUMP, CLICK, FORCE, REBOUND, SPEED};
use super::text::{self, Table};
use super::{BadRow, ListError};
use crate::base::bounds::CURVE_ROWS;
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::table::{folded, quoted, words};
use crate::base::units::{Amount, DecimalMark, Dim, Force, Quantity, Unit, Velocity, table};
use crate::message;
pub use crate::trade::damper::Direction;
use crate::trade::damper::ForcePoint;
pub use error::CurveTableError;

/// What the file itself does not say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ask {
    /// Unit of bare speeds where the header names none.
    pub speed: Option<&'static Unit>,
    /// Unit of bare forces where the header names none.
    pub force: Option<&'static Unit>,
    /// The direction that plus means, in one column of forces.
    pub plus: Direction,
    /// The decimal mark; guessed when `None`.
    pub decimal: Option<DecimalMark>,
}

impl Default for Ask {
    fn default() -> Self {
        Ask { speed: None, force: None, plus: Direction::Bump, decimal: None }
    }
}

/// One row of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// The line of the file, from 1.
    pub line: usize,
    /// The click it belongs to.
    pub click: Option<f64>,
    /// Speed and forces, without signs.
    pub point: ForcePoint,
}

/// A curve as read.
#[derive(Debug, Clone, PartialEq)]
pub struct CurveTable {
    /// Its rows, in the order of the file.
    pub rows: Vec<Row>,
    /// The unit of its speeds, and that of its forces.
    pub units: [&'static Unit; 2],
    /// What was interpreted.
    pub notes: Vec<Message>,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Holds {
    Speed,
    Force,
    Bump,
    Rebound,
    Click,
}

impl Holds {
    fn dim(self) -> Dim {
        match self {
            Holds::Speed => Dim::DamperSpeed,
            Holds::Click => Dim::Ratio,
            _ => Dim::Force,
        }
    }

    fn words(self) -> Word {
        match self {
            Holds::Speed => Word("the speed"),
            Holds::Force => Word("the force"),
            Holds::Bump => Word("the bump force"),
            Holds::Rebound => Word("the rebound force"),
            Holds::Click => Word("the click setting"),
        }
    }
}

struct Column {
    at: usize,
    header: String,
    holds: Holds,
    unit: Option<&'static Unit>,
}

/// Reads a curve.
///
/// # Errors
/// [`CurveTableError`]: what is wrong, with line and value, and what is allowed.
pub fn read(bytes: &[u8], ask: &Ask) -> Result<CurveTable, CurveTableError> {
    let decoded = text::decode(bytes)?;
    let table = Table::open_for(&decoded.text, |header| holds(header).is_some())?;
    let names = super::columns::headers(&table)?;
    let columns = columns(&names, ask)?;
    let sign =
        ask.decimal.unwrap_or_else(|| cell::guess_mark(&table, &columns.iter().map(|c| c.at).collect::<Vec<_>>()));
    let raw = raw_rows(&table, &columns, names.len(), Numbers::new(sign))?;
    let mut notes = vec![decoded.note.clone(), table.parted_by()];
    let rows = if columns.iter().any(|c| c.holds == Holds::Force) {
        by_sign(&raw, ask.plus, &mut notes)?
    } else {
        side_by_side(&raw)?
    };
    if rows.is_empty() {
        return Err(ListError::Empty.into());
    }
    let unit = |holds: &[Holds]| columns.iter().find(|c| holds.contains(&c.holds)).and_then(|c| c.unit);
    let or_si = |unit: Option<&'static Unit>, dim| unit.or_else(|| table::of(dim).next()).ok_or(ListError::Empty);
    let speed = or_si(unit(&[Holds::Speed]), Dim::DamperSpeed)?;
    let force = or_si(unit(&[Holds::Force, Holds::Bump, Holds::Rebound]), Dim::Force)?;
    Ok(CurveTable { rows, units: [speed, force], notes })
}

/// What a header says a column holds; the longest of several words counts.
fn holds(text: &str) -> Option<Holds> {
    let small: Vec<String> = words(text).iter().map(|w| folded(w)).collect();
    let has = |known: &[&str]| small.iter().any(|w| known.contains(&w.as_str()));
    match (has(BUMP), has(REBOUND)) {
        (true, false) => Some(Holds::Bump),
        (false, true) => Some(Holds::Rebound),
        (true, true) => None,
        _ if has(CLICK) => Some(Holds::Click),
        _ if has(SPEED) => Some(Holds::Speed),
        _ => has(FORCE).then_some(Holds::Force),
    }
}

/// The unit that ends a header, and whether one of something else does.
fn unit_in(text: &str, dim: Dim) -> (Option<&'static Unit>, bool) {
    let words = words(text);
    let ending = |n: usize| ["/", " ", "·", ""].map(|between| words[words.len() - n..].join(between));
    // A header of one word is that word, and no unit.
    let longest = words.len().saturating_sub(1).min(3);
    let found = (1..=longest).rev().find_map(|n| ending(n).iter().find_map(|s| table::find(dim, s)));
    let odd = || (1..=longest).any(|n| ending(n).iter().any(|s| table::find_any(s).is_some_and(|u| u.dim != dim)));
    (found, found.is_none() && odd())
}

fn columns(names: &[String], ask: &Ask) -> Result<Vec<Column>, CurveTableError> {
    let mut found: Vec<Column> = Vec::new();
    for (at, name) in names.iter().enumerate() {
        let Some(holds) = holds(name) else { continue };
        if let Some(first) = found.iter().find(|c| c.holds == holds) {
            return Err(CurveTableError::Twice(first.header.clone(), name.clone(), holds.words()));
        }
        let (unit, odd) = if holds == Holds::Click { (None, false) } else { unit_in(name, holds.dim()) };
        if odd {
            let (wanted, allowed) = (holds.dim().noun(), Message::Units(holds.dim()));
            return Err(CurveTableError::WrongUnit { column: name.clone(), wanted, allowed });
        }
        let chosen = if holds == Holds::Speed { ask.speed } else { ask.force };
        found.push(Column { at, header: name.clone(), holds, unit: unit.or(chosen) });
    }
    let has = |holds| found.iter().any(|c| c.holds == holds);
    if found.is_empty() && names.iter().any(|n| cell::is_bare_number(n)) {
        return Err(ListError::NoHeader.into());
    }
    if !has(Holds::Speed) {
        return Err(CurveTableError::Missing(Holds::Speed.words()));
    }
    match (has(Holds::Bump), has(Holds::Rebound), has(Holds::Force)) {
        (true, true, false) | (false, false, true) => Ok(found),
        (true, true, true) => {
            found.retain(|c| c.holds != Holds::Force);
            Ok(found)
        }
        (true, false, _) => Err(CurveTableError::Missing(Holds::Rebound.words())),
        (false, true, _) => Err(CurveTableError::Missing(Holds::Bump.words())),
        (false, false, false) => Err(CurveTableError::Missing(Holds::Force.words())),
    }
}

/// One line as numbers, signs as they stand.
#[derive(Default)]
struct Raw<'t> {
    line: usize,
    text: &'t str,
    click: Option<f64>,
    speed: f64,
    bump: Option<f64>,
    rebound: Option<f64>,
    force: Option<f64>,
}

impl Raw<'_> {
    fn bad(&self, reason: Message) -> BadRow {
        BadRow { line: self.line, reason, text: quoted(self.text) }
    }
}

fn raw_rows<'t>(
    table: &Table<'t>,
    columns: &[Column],
    wanted: usize,
    mut numbers: Numbers,
) -> Result<Vec<Raw<'t>>, CurveTableError> {
    let (mut found, mut bad) = (Vec::new(), Vec::new());
    let mut rows = table.rows();
    rows.next();
    while let Some(row) = rows.next() {
        let mut raw = Raw { line: row.line, text: row.text, ..Raw::default() };
        let mut reasons = Vec::new();
        if row.torn || row.cells.len() != wanted {
            reasons.push(message!(
                "{wanted} cells are expected, as in the header; the row has {found}",
                found = row.cells.len(),
                wanted
            ));
        } else {
            raw.fill(row.cells, columns, &mut numbers, &mut reasons)?;
        }
        if reasons.is_empty() {
            found.push(raw);
        } else {
            bad.push(raw.bad(Message::row(reasons, "; ")));
        }
        if found.len() + bad.len() > CURVE_ROWS.count() {
            return Err(ListError::TooManyRows { most: CURVE_ROWS.count() }.into());
        }
    }
    if bad.is_empty() { Ok(found) } else { Err(CurveTableError::Rows(bad)) }
}

impl Raw<'_> {
    /// Reads the cells of one line; what is wrong with them goes to `reasons`.
    fn fill(
        &mut self,
        cells: &StringRecord,
        columns: &[Column],
        numbers: &mut Numbers,
        reasons: &mut Vec<Message>,
    ) -> Result<(), CurveTableError> {
        let mut speed = None;
        for column in columns {
            let text = cells.get(column.at).unwrap_or_default().trim();
            if text.is_empty() {
                continue;
            }
            let number = match column.holds {
                Holds::Click => numbers.count(text),
                holds => numbers.quantity(text, holds.dim(), column.unit),
            };
            let place = match column.holds {
                Holds::Speed => &mut speed,
                Holds::Force => &mut self.force,
                Holds::Bump => &mut self.bump,
                Holds::Rebound => &mut self.rebound,
                Holds::Click => &mut self.click,
            };
            match number {
                Ok(si) => *place = Some(si),
                Err(Fault::NoUnit) => {
                    let (column, allowed) = (column.header.clone(), Message::Units(column.holds.dim()));
                    return Err(CurveTableError::NoUnit { column, allowed });
                }
                Err(Fault::Wrong(reason)) => {
                    reasons.push(message!("column \"{header}\": {reason}", reason, header = &column.header));
                }
            }
        }
        match speed {
            Some(speed) => self.speed = speed,
            None if reasons.is_empty() => reasons.push(Word("the speed is missing").into()),
            None => {}
        }
        if reasons.is_empty() && self.bump.or(self.rebound).or(self.force).is_none() {
            reasons.push(Word("the force is missing").into());
        }
        Ok(())
    }
}

fn newtons(n: f64) -> Message {
    Message::row([Amount::significant(n, 6).into(), Message::Symbol("N")], " ")
}

/// Bump and rebound in columns of their own: each column has one sign, whichever.
fn side_by_side(raw: &[Raw<'_>]) -> Result<Vec<Row>, CurveTableError> {
    let mut bad = Vec::new();
    type Pick = for<'r, 't> fn(&'r Raw<'t>) -> Option<f64>;
    let columns: [(Direction, Pick); 2] = [(Direction::Bump, |r| r.bump), (Direction::Rebound, |r| r.rebound)];
    for (direction, of) in columns {
        let signed = raw.iter().filter_map(|r| Some((r, of(r)?)));
        let first = signed.clone().map(|s| s.1).find(|n| *n != 0.0).unwrap_or(1.0);
        let other = signed.filter(|(_, n)| n * first < 0.0);
        bad.extend(other.map(|(r, n)| r.bad(other_sign_than_above(direction, newtons(n)))));
    }
    let away = raw.iter().filter(|r| r.speed < 0.0);
    bad.extend(away.map(|r| {
        r.bad(message!(
            "the speed {speed} m/s is negative; with separate bump and rebound columns, speeds have no sign",
            speed = Amount::significant(r.speed, 15)
        ))
    }));
    if !bad.is_empty() {
        bad.sort_by_key(|b| b.line);
        return Err(CurveTableError::Rows(bad));
    }
    let size = |n: Option<f64>| n.map(|n| Force::from_si(n.abs()));
    let row = |r: &Raw<'_>| Row {
        line: r.line,
        click: r.click,
        point: ForcePoint { speed: Velocity::from_si(r.speed), bump: size(r.bump), rebound: size(r.rebound) },
    };
    Ok(raw.iter().map(row).collect())
}

fn other_sign_than_above(direction: Direction, force: Message) -> Message {
    match direction {
        Direction::Bump => message!("the sign of the bump force {force} differs from that in the rows above", force),
        Direction::Rebound => {
            message!("the sign of the rebound force {force} differs from that in the rows above", force)
        }
    }
}

/// One column of forces: signs of the speeds, else of the forces, tell the direction.
fn by_sign(raw: &[Raw<'_>], plus: Direction, notes: &mut Vec<Message>) -> Result<Vec<Row>, CurveTableError> {
    let force = |r: &Raw<'_>| r.force.unwrap_or(0.0);
    let by_speed = raw.iter().any(|r| r.speed < 0.0);
    let sign = |r: &Raw<'_>| if by_speed && r.speed != 0.0 { r.speed } else { force(r) };
    if !by_speed && raw.iter().all(|r| force(r) >= 0.0) {
        return Err(CurveTableError::NoSign);
    }
    // Each direction pushes one way only.
    let mut bad = Vec::new();
    for up in [true, false] {
        let side = raw.iter().filter(|r| r.speed != 0.0 && (sign(r) > 0.0) == up);
        let first = side.clone().map(force).find(|n| *n != 0.0).unwrap_or(1.0);
        bad.extend(side.filter(|r| force(r) * first < 0.0).map(|r| {
            r.bad(message!(
                "the sign of the force {force} differs from that of the other forces in this direction",
                force = newtons(force(r))
            ))
        }));
    }
    if !bad.is_empty() {
        bad.sort_by_key(|b| b.line);
        return Err(CurveTableError::Rows(bad));
    }
    let other = if plus == Direction::Bump { Direction::Rebound } else { Direction::Bump };
    let row = |r: &Raw<'_>| {
        let direction = if sign(r) >= 0.0 { plus } else { other };
        let size = Some(Force::from_si(force(r).abs()));
        let (bump, rebound) = match direction {
            _ if r.speed == 0.0 && force(r) == 0.0 => (size, size),
            Direction::Bump => (size, None),
            Direction::Rebound => (None, size),
        };
        Row {
            line: r.line,
            click: r.click,
            point: ForcePoint { speed: Velocity::from_si(r.speed.abs()), bump, rebound },
        }
    };
    notes.push(how_signs_were_taken(by_speed, plus).into());
    let rows: Vec<Row> = raw.iter().map(row).collect();
    let most =
        |of: fn(&ForcePoint) -> Option<Force>| rows.iter().filter_map(|r| Some(of(&r.point)?.si())).fold(0.0, f64::max);
    if most(|p| p.bump) > most(|p| p.rebound) {
        notes.push(Word("This makes bump stiffer than rebound, which is rare: are the signs reversed?").into());
    }
    Ok(rows)
}

fn how_signs_were_taken(by_speed: bool, plus: Direction) -> Word {
    match (by_speed, plus) {
        (true, Direction::Bump) => Word("Positive speeds read as bump, negative as rebound"),
        (true, Direction::Rebound) => Word("Positive speeds read as rebound, negative as bump"),
        (false, Direction::Bump) => Word("Positive forces read as bump, negative as rebound"),
        (false, Direction::Rebound) => Word("Positive forces read as rebound, negative as bump"),
    }
}
