//! One row: a spring, a damper, or what is wrong with it.

use csv::StringRecord;

use super::cell::{self, Fault, Numbers, Tolerance};
use super::columns::no_unit;
use super::meaning::{Meaning, is_same_speed};
use super::text::Row;
use super::{Damper, ForcePoint, List, ListError, Spring, header_words};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Dim, Force, Length, Quantity, Ratio, SpringRate, Unit, Velocity};
use crate::message;

/// A column that is read.
pub(super) struct Slot {
    pub at: usize,
    pub header: String,
    pub means: Meaning,
    pub unit: Option<&'static Unit>,
}

/// How the rows of a file are read.
pub(super) struct Plan {
    pub slots: Vec<Slot>,
    /// How many different speeds the force columns have.
    pub speed_count: usize,
    pub numbers: Numbers,
    /// Cells with nothing but a dash.
    pub dashes: usize,
    /// Rows whose ends are named by a word that is not understood.
    pub unknown_ends: usize,
    /// Cells in columns that their row's kind of part does not have.
    pub left_out: usize,
}

/// The cells of one row as read.
#[derive(Default)]
struct Found {
    /// Number, description, price and stock of a damper are here too.
    spring: Spring,
    damper: Damper,
    tolerance: Option<Tolerance>,
}

impl Plan {
    /// Reads one row into the list; what is wrong with it goes to `reasons`, all of it, and the list is left as it is.
    ///
    /// # Errors
    /// [`ListError::NoUnit`] for a bare number in a column without a unit: an error of the columns, not of the row.
    pub fn read(&mut self, row: &Row<'_, '_>, list: &mut List, reasons: &mut Vec<Message>) -> Result<(), ListError> {
        let cells = row.cells;
        let (mut is_spring, mut is_damper) = (false, false);
        for slot in self.slots.iter().filter(|s| !text_of(s, cells).is_empty()) {
            match slot.means {
                Meaning::Rate => is_spring = true,
                Meaning::ClosedLength | Meaning::OpenLength | Meaning::Bump(_) | Meaning::Rebound(_) => {
                    is_damper = true;
                }
                _ => {}
            }
        }
        match (is_spring, is_damper) {
            (true, true) => {
                reasons.push(Word("the row has a spring rate and damper values; split it into two rows").into())
            }
            (false, false) => {
                reasons.push(Word("the row has neither a spring rate nor damper lengths or forces").into())
            }
            _ => {}
        }
        if !reasons.is_empty() {
            return Ok(());
        }
        let found = self.cells(cells, is_spring, reasons)?;
        if is_spring {
            let spring = Spring { line: row.line, ..found.spring(reasons) };
            list.springs.extend(reasons.is_empty().then_some(spring));
        } else {
            let damper = Damper { line: row.line, ..found.damper(reasons) };
            list.dampers.extend(reasons.is_empty().then_some(damper));
        }
        Ok(())
    }

    fn cells(&mut self, cells: &StringRecord, is_spring: bool, reasons: &mut Vec<Message>) -> Result<Found, ListError> {
        let mut found = Found::default();
        for slot in &self.slots {
            let text = text_of(slot, cells);
            if text.is_empty() {
                self.dashes += usize::from(cells.get(slot.at).is_some_and(|c| !c.trim().is_empty()));
                continue;
            }
            if is_of_the_other_kind(slot.means, is_spring) {
                self.left_out += 1;
                continue;
            }
            if slot.means == Meaning::Ends {
                found.spring.ends = header_words::ends(text);
                self.unknown_ends += usize::from(found.spring.ends.is_none());
                continue;
            }
            match found.take(slot, text, &mut self.numbers, self.speed_count) {
                Ok(()) => {}
                Err(Fault::NoUnit) => return Err(no_unit(&slot.header, slot.means)),
                Err(Fault::Wrong(reason)) => {
                    reasons.push(message!("column \"{header}\": {reason}", reason, header = &slot.header))
                }
            }
        }
        Ok(found)
    }
}

/// The text of a cell; blank when a number is only a dash.
fn text_of<'r>(slot: &Slot, cells: &'r StringRecord) -> &'r str {
    let text = cells.get(slot.at).unwrap_or_default().trim();
    if matches!(text, "-" | "\u{2013}" | "\u{2014}") && (cell::is_number(slot.means) || slot.means == Meaning::Ends) {
        return "";
    }
    text
}

fn is_of_the_other_kind(means: Meaning, is_spring: bool) -> bool {
    match means {
        Meaning::Number | Meaning::What | Meaning::Price | Meaning::Stock => false,
        Meaning::ClosedLength | Meaning::OpenLength | Meaning::Mounts | Meaning::Bump(_) | Meaning::Rebound(_) => {
            is_spring
        }
        _ => !is_spring,
    }
}

fn above_zero(si: f64, text: &str) -> Result<f64, Fault> {
    if si > 0.0 { Ok(si) } else { Err(Fault::Wrong(message!("\"{text}\" must be above zero", text))) }
}

fn not_negative(si: f64, text: &str) -> Result<f64, Fault> {
    if si >= 0.0 { Ok(si) } else { Err(Fault::Wrong(message!("\"{text}\" must not be below zero", text))) }
}

impl Found {
    /// Reads one cell that is not blank.
    fn take(&mut self, slot: &Slot, text: &str, numbers: &mut Numbers, speed_count: usize) -> Result<(), Fault> {
        let (spring, damper) = (&mut self.spring, &mut self.damper);
        let mut si = |dim| numbers.quantity(text, dim, slot.unit);
        let mut length = || above_zero(si(Dim::Length)?, text).map(|m| Some(Length::from_si(m)));
        match slot.means {
            Meaning::Number => spring.number = text.to_owned(),
            Meaning::What => spring.what = text.to_owned(),
            Meaning::Mounts => damper.mounts = text.to_owned(),
            Meaning::Rate => spring.rate = SpringRate::from_si(above_zero(si(Dim::SpringRate)?, text)?),
            Meaning::RateTolerance => self.tolerance = Some(numbers.tolerance(text, slot.unit)?),
            Meaning::FreeLength => spring.free_length = length()?,
            Meaning::SolidLength => spring.solid_length = length()?,
            Meaning::InsideDiameter => spring.inside_diameter = length()?,
            Meaning::OutsideDiameter => spring.outside_diameter = length()?,
            Meaning::Wire => spring.wire = length()?,
            Meaning::ClosedLength => damper.closed_length = length()?,
            Meaning::OpenLength => damper.open_length = length()?,
            Meaning::TotalCoils => spring.total_coils = Some(above_zero(numbers.count(text)?, text)?),
            Meaning::MaxLoad => spring.max_load = Some(Force::from_si(above_zero(si(Dim::Force)?, text)?)),
            Meaning::Price => spring.price = Some(not_negative(numbers.price(text)?, text)?),
            Meaning::Stock => spring.stock = Some(numbers.pieces(text)?),
            Meaning::Bump(speed) => {
                let force = Force::from_si(not_negative(si(Dim::Force)?, text)?);
                point(&mut damper.points, speed, speed_count).bump = Some(force);
            }
            Meaning::Rebound(speed) => {
                let force = Force::from_si(not_negative(si(Dim::Force)?, text)?);
                point(&mut damper.points, speed, speed_count).rebound = Some(force);
            }
            Meaning::Ends => spring.ends = header_words::ends(text),
        }
        Ok(())
    }

    fn spring(self, reasons: &mut Vec<Message>) -> Spring {
        let Found { spring, tolerance, .. } = self;
        let mut wrong = |is_wrong: bool, reason: Word| {
            if is_wrong {
                reasons.push(reason.into());
            }
        };
        let both = |a: Option<Length>, b: Option<Length>, test: fn(f64, f64) -> bool| {
            a.zip(b).is_some_and(|(a, b)| test(a.si(), b.si()))
        };
        wrong(
            both(spring.solid_length, spring.free_length, |s, f| s >= f),
            Word("the solid length must be shorter than the free length"),
        );
        wrong(
            both(spring.inside_diameter, spring.outside_diameter, |i, o| i >= o),
            Word("the inside diameter must be smaller than the outside diameter"),
        );
        let no_room = both(spring.outside_diameter, spring.wire, |o, w| o <= 2.0 * w);
        wrong(no_room, Word("the outside diameter must be more than twice the wire diameter"));
        let rate = spring.rate.si();
        let share = tolerance.map(|t| match t {
            Tolerance::Share(share) => share,
            Tolerance::Rate(rate_n_per_m) => rate_n_per_m / rate,
        });
        // Of a rate that could not be read, no ± is judged.
        let allowed = rate == 0.0 || share.is_none_or(|share| (0.0..1.0).contains(&share));
        wrong(!allowed, Word("the ± of the rate must be 0 % or more and below 100 %"));
        Spring { rate_tolerance: share.map(Ratio::from_si), ..spring }
    }

    fn damper(self, reasons: &mut Vec<Message>) -> Damper {
        let Found { spring, damper, .. } = self;
        if damper.open_length.zip(damper.closed_length).is_some_and(|(open, closed)| open.si() <= closed.si()) {
            reasons.push(Word("the open length must be greater than the closed length").into());
        }
        Damper { number: spring.number, what: spring.what, price: spring.price, stock: spring.stock, ..damper }
    }
}

/// The point at this speed, among those sorted by speed.
fn point(points: &mut Vec<ForcePoint>, speed_m_per_s: f64, speed_count: usize) -> &mut ForcePoint {
    if let Some(at) = points.iter().position(|p| is_same_speed(p.speed.si(), speed_m_per_s)) {
        return &mut points[at];
    }
    let at = points.partition_point(|p| p.speed.si() < speed_m_per_s);
    points.reserve_exact(speed_count.saturating_sub(points.len()));
    points.insert(at, ForcePoint { speed: Velocity::from_si(speed_m_per_s), bump: None, rebound: None });
    &mut points[at]
}
