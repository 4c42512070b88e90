//! One row: a spring, a damper, or what is wrong with it.

use csv::StringRecord;

use super::cell::{self, Fault, Numbers, Tolerance};
use super::columns::no_unit;
use super::meaning::{Meaning, is_same_speed};
use super::{Damper, ForcePoint, ListError, Spring, header_words};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::units::{Dim, Force, Length, Quantity, Ratio, SpringRate, Unit, Velocity};
use crate::message;
use crate::trade::spring::Ends;

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

/// What a row is.
pub(super) enum Part {
    Spring(Spring),
    Damper(Damper),
}

/// The cells of one row as read, in SI.
#[derive(Default)]
struct Found<'r> {
    number: &'r str,
    what: &'r str,
    mounts: &'r str,
    rate: Option<f64>,
    tolerance: Option<Tolerance>,
    free: Option<f64>,
    solid: Option<f64>,
    inside: Option<f64>,
    outside: Option<f64>,
    wire: Option<f64>,
    coils: Option<f64>,
    ends: Option<Ends>,
    max_load: Option<f64>,
    closed: Option<f64>,
    open: Option<f64>,
    price: Option<f64>,
    stock: Option<u32>,
    points: Vec<ForcePoint>,
}

impl Plan {
    /// Reads one row; what is wrong with it goes to `reasons`, all of it.
    ///
    /// # Errors
    /// [`ListError::NoUnit`] for a bare number in a column without a unit: an error of the columns, not of the row.
    pub fn part(&mut self, cells: &StringRecord, reasons: &mut Vec<Message>) -> Result<Option<Part>, ListError> {
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
            return Ok(None);
        }
        let found = self.cells(cells, is_spring, reasons)?;
        if is_spring {
            let spring = found.spring(reasons);
            return Ok(spring.filter(|_| reasons.is_empty()).map(Part::Spring));
        }
        let damper = found.damper(reasons);
        Ok(Some(Part::Damper(damper)).filter(|_| reasons.is_empty()))
    }

    fn cells<'r>(
        &mut self,
        cells: &'r StringRecord,
        is_spring: bool,
        reasons: &mut Vec<Message>,
    ) -> Result<Found<'r>, ListError> {
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
                found.ends = header_words::ends(text);
                self.unknown_ends += usize::from(found.ends.is_none());
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

fn above_zero(si: f64, text: &str) -> Result<Option<f64>, Fault> {
    if si > 0.0 { Ok(Some(si)) } else { Err(Fault::Wrong(message!("\"{text}\" must be above zero", text))) }
}

fn not_negative(si: f64, text: &str) -> Result<Option<f64>, Fault> {
    if si >= 0.0 { Ok(Some(si)) } else { Err(Fault::Wrong(message!("\"{text}\" must not be below zero", text))) }
}

impl<'r> Found<'r> {
    /// Reads one cell that is not blank.
    fn take(&mut self, slot: &Slot, text: &'r str, numbers: &mut Numbers, speed_count: usize) -> Result<(), Fault> {
        let unit = slot.unit;
        let length = |numbers: &mut Numbers| above_zero(numbers.quantity(text, Dim::Length, unit)?, text);
        match slot.means {
            Meaning::Number => self.number = text,
            Meaning::What => self.what = text,
            Meaning::Mounts => self.mounts = text,
            Meaning::Rate => self.rate = above_zero(numbers.quantity(text, Dim::SpringRate, unit)?, text)?,
            Meaning::RateTolerance => self.tolerance = Some(numbers.tolerance(text, unit)?),
            Meaning::FreeLength => self.free = length(numbers)?,
            Meaning::SolidLength => self.solid = length(numbers)?,
            Meaning::InsideDiameter => self.inside = length(numbers)?,
            Meaning::OutsideDiameter => self.outside = length(numbers)?,
            Meaning::Wire => self.wire = length(numbers)?,
            Meaning::ClosedLength => self.closed = length(numbers)?,
            Meaning::OpenLength => self.open = length(numbers)?,
            Meaning::TotalCoils => self.coils = above_zero(numbers.count(text)?, text)?,
            Meaning::MaxLoad => self.max_load = above_zero(numbers.quantity(text, Dim::Force, unit)?, text)?,
            Meaning::Price => self.price = not_negative(numbers.price(text)?, text)?,
            Meaning::Stock => self.stock = Some(numbers.pieces(text)?),
            Meaning::Bump(speed) => {
                let force = not_negative(numbers.quantity(text, Dim::Force, unit)?, text)?;
                self.point(speed, speed_count).bump = force.map(Force::from_si);
            }
            Meaning::Rebound(speed) => {
                let force = not_negative(numbers.quantity(text, Dim::Force, unit)?, text)?;
                self.point(speed, speed_count).rebound = force.map(Force::from_si);
            }
            Meaning::Ends => self.ends = header_words::ends(text),
        }
        Ok(())
    }

    /// The point at this speed, among those sorted by speed.
    fn point(&mut self, speed_m_per_s: f64, speed_count: usize) -> &mut ForcePoint {
        if let Some(at) = self.points.iter().position(|p| is_same_speed(p.speed.si(), speed_m_per_s)) {
            return &mut self.points[at];
        }
        let at = self.points.partition_point(|p| p.speed.si() < speed_m_per_s);
        self.points.reserve_exact(speed_count.saturating_sub(self.points.len()));
        self.points.insert(at, ForcePoint { speed: Velocity::from_si(speed_m_per_s), bump: None, rebound: None });
        &mut self.points[at]
    }

    fn spring(self, reasons: &mut Vec<Message>) -> Option<Spring> {
        let mut wrong = |is_wrong: bool, reason: Word| {
            if is_wrong {
                reasons.push(reason.into());
            }
        };
        let both =
            |a: Option<f64>, b: Option<f64>, test: fn(f64, f64) -> bool| a.zip(b).is_some_and(|(a, b)| test(a, b));
        wrong(
            both(self.solid, self.free, |s, f| s >= f),
            Word("the solid length must be shorter than the free length"),
        );
        wrong(
            both(self.inside, self.outside, |i, o| i >= o),
            Word("the inside diameter must be smaller than the outside diameter"),
        );
        let no_room = both(self.outside, self.wire, |o, w| o <= 2.0 * w);
        wrong(no_room, Word("the outside diameter must be more than twice the wire diameter"));
        let rate = self.rate?;
        let share = self.tolerance.map(|t| match t {
            Tolerance::Share(share) => share,
            Tolerance::Rate(rate_n_per_m) => rate_n_per_m / rate,
        });
        let allowed = share.is_none_or(|share| (0.0..1.0).contains(&share));
        wrong(!allowed, Word("the ± of the rate must be 0 % or more and below 100 %"));
        let length = |m: Option<f64>| m.map(Length::from_si);
        Some(Spring {
            line: 0,
            number: self.number.to_owned(),
            what: self.what.to_owned(),
            rate: SpringRate::from_si(rate),
            rate_tolerance: share.map(Ratio::from_si),
            free_length: length(self.free),
            solid_length: length(self.solid),
            inside_diameter: length(self.inside),
            outside_diameter: length(self.outside),
            wire: length(self.wire),
            total_coils: self.coils,
            ends: self.ends,
            max_load: self.max_load.map(Force::from_si),
            price: self.price,
            stock: self.stock,
        })
    }

    fn damper(self, reasons: &mut Vec<Message>) -> Damper {
        if self.open.zip(self.closed).is_some_and(|(open, closed)| open <= closed) {
            reasons.push(Word("the open length must be greater than the closed length").into());
        }
        Damper {
            line: 0,
            number: self.number.to_owned(),
            what: self.what.to_owned(),
            closed_length: self.closed.map(Length::from_si),
            open_length: self.open.map(Length::from_si),
            points: self.points,
            mounts: self.mounts.to_owned(),
            price: self.price,
            stock: self.stock,
        }
    }
}
