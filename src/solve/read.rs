//! Reads fields as quantities: typed if typed, else the default, which is noted.
//!
//! Every text is read once, when the reader is made; after that a field is found by where
//! it stands in memory. Fields can be moved, one by its ± or all at once, to see what moves with them.

use std::cell::{Cell, RefCell};

use super::answer::{Unmeasured, UsedDefault};
use super::loads;
use super::old_rate::OldRate;
use crate::job::fields::{self, Possible};
use crate::job::how_sure::HowSure;
use crate::job::{Job, MotionRatio, RatioBy, RatioRow, Side, Walk, Weighing};
use crate::math::spread::Measured;
use crate::units::entry::{AnyEntry, Spread};
use crate::units::parse::{self, DecimalMark};
use crate::units::{Entry, Length, Origin, Quantity};
use crate::wheel::{LengthCurve, RowFit, Rows};

/// One field that has a number.
struct Number {
    /// Where its entry stands; the job is borrowed, so it stays there.
    address: usize,
    path: String,
    si: f64,
    possible: Possible,
    /// Standard uncertainty, SI.
    u_si: f64,
    /// What its ± means: a normal law, or surely inside.
    spread: Spread,
    /// The field of the job's certainty from which that is, if it is from one.
    u_from: Option<&'static str>,
    /// The default's text and reason, when nothing was typed.
    default: Option<(&'static str, &'static str)>,
    /// Where it comes from, if that is said and it can be measured.
    origin: Option<Origin>,
}

/// What is asked of a number again and again, kept close together.
struct Now {
    /// As moved at present, SI; NaN for a size that must be above zero and is moved below.
    si: Cell<f64>,
    /// As read, SI.
    read_si: f64,
    /// A size that must be above zero.
    above_zero: bool,
    typed: bool,
    /// It was asked for.
    used: Cell<bool>,
}

impl Now {
    fn of(number: &Number) -> Self {
        Now {
            si: Cell::new(number.si),
            read_si: number.si,
            above_zero: number.possible == Possible::AboveZero,
            typed: number.default.is_none(),
            used: Cell::new(false),
        }
    }

    #[inline]
    fn si(&self) -> Option<f64> {
        self.used.set(true);
        Some(self.si.get()).filter(|si| !si.is_nan())
    }

    fn move_by(&self, by_si: f64) {
        let si = self.read_si + by_si;
        let lost = self.above_zero && si <= 0.0 && by_si != 0.0;
        self.si.set(if lost { f64::NAN } else { si });
    }
}

/// Reads one job. Never reports a bad text: [`crate::job::check`] has done so; it is "not known" here.
pub(super) struct Reader<'a> {
    pub job: &'a Job,
    /// In the order of the file.
    numbers: Vec<Number>,
    /// The same numbers as they are now.
    now: Vec<Now>,
    /// For each eight bytes of the job itself: which number begins there.
    places: Vec<u32>,
    /// Rows of lists stand elsewhere.
    elsewhere: Elsewhere,
    /// What the rows of a motion ratio say: spring, damper of each axle, front first.
    pub rows: [[Option<Rows>; 2]; 2],
    /// The fit through those rows, ready for other lengths.
    fits: [[Option<RowFit>; 2]; 2],
    noted: RefCell<Vec<UsedDefault>>,
    /// The field that was moved last.
    moved: Cell<usize>,
    /// Which rate of the old spring counts, front and rear.
    pub old_rates: [OldRate; 2],
}

impl<'a> Reader<'a> {
    pub fn new(job: &'a Job) -> Self {
        let mut numbers = Vec::with_capacity(160);
        let sure = HowSure::of(job);
        job.walk(&mut String::with_capacity(64), &mut |path, entry| numbers.extend(number(&sure, path, entry)));
        let mut elsewhere = Vec::new();
        let mut places = vec![NOWHERE; size_of::<Job>() / PLACE + 1];
        for (i, n) in numbers.iter().enumerate() {
            match (place(job, n.address), u32::try_from(i)) {
                (Some(place), Ok(i)) => places[place] = i,
                _ => elsewhere.push((n.address, i)),
            }
        }
        let elsewhere = Elsewhere::of(&elsewhere);
        let (noted, rows) = (RefCell::default(), Default::default());
        let now = numbers.iter().map(Now::of).collect();
        let (fits, moved) = (Default::default(), Cell::new(0));
        let old_rates = Default::default();
        let mut reader = Reader { job, numbers, now, places, elsewhere, rows, fits, noted, moved, old_rates };
        reader.rows = Side::BOTH.map(|side| {
            let axle = job.axle(side);
            [&axle.ratio, &axle.damper_ratio].map(|ratio| reader.fit_rows(ratio))
        });
        reader.fits = Side::BOTH.map(|side| {
            let rows = &reader.rows[side as usize];
            [0, 1].map(|i| RowFit::of(&rows[i].as_ref()?.points_m))
        });
        for side in Side::BOTH {
            let axle = job.axle(side);
            for (i, ratio) in [&axle.ratio, &axle.damper_ratio].into_iter().enumerate() {
                let known = reader.rows[side as usize][i].as_ref().zip(reader.fits[side as usize][i].as_ref());
                if let Some(sure) = known.and_then(|(rows, fit)| reader.sure_of_rows(ratio, rows, fit)) {
                    reader.take(sure);
                }
            }
        }
        reader.take_repeats(&job.before);
        reader.take_repeats(&job.after);
        reader
    }

    /// A corner that was read more than once is known no better than its readings scatter.
    fn take_repeats(&mut self, weighing: &Weighing) {
        if weighing.repeats.is_empty() {
            return;
        }
        for ((first, again), scatter) in loads::corners(weighing).into_iter().zip(loads::scatter(self, weighing)) {
            let Some(scatter) = scatter else { continue };
            for entry in std::iter::once(first).chain(weighing.repeats.iter().map(again)) {
                if let Some(i) = self.at(address(entry)).filter(|i| self.numbers[*i].u_si < scatter) {
                    let number = &mut self.numbers[i];
                    (number.u_si, number.spread, number.u_from) = (scatter, Spread::Standard, None);
                }
            }
        }
    }

    /// How sure each entry of rows is, once there are readings to spare: by how the rows scatter, or by the ± that they
    /// state where that makes the ratio less sure. A ± that nobody stated does not count then.
    fn sure_of_rows(&self, ratio: &MotionRatio, rows: &Rows, fit: &RowFit) -> Option<Vec<(usize, f64)>> {
        let by_scatter = rows.u_of_row()?.si();
        let stated = |entry: &Entry<Length>| match entry.pm() {
            (pm, _) if pm.trim().is_empty() => 0.0,
            _ => self.at(address(entry)).map_or(0.0, |i| self.numbers[i].u_si),
        };
        let (mut by_stated, mut scattered) = (0.0, 0.0);
        let mut sure = Vec::with_capacity(2 * rows.typed_at.len());
        for ((row, weight), (z, _)) in rows.typed_at.iter().zip(fit.ratio_by_length()).zip(&rows.points_m) {
            let row = ratio.rows.get(*row)?;
            let by_wheel = rows.curve.ratio(Length::from_si(*z)).si();
            by_stated += (weight * stated(&row.length).hypot(by_wheel * stated(&row.wheel))).powi(2);
            scattered += (weight * by_scatter).powi(2);
            sure.extend([(address(&row.wheel), stated(&row.wheel)), (address(&row.length), stated(&row.length))]);
        }
        if scattered > by_stated {
            sure.chunks_exact_mut(2).for_each(|row| (row[0].1, row[1].1) = (0.0, by_scatter));
        }
        let keep = |(address, u): (usize, f64)| self.at(address).map(|i| (i, u));
        sure.into_iter().map(keep).collect()
    }

    /// Takes the standard uncertainties of some numbers; one that its own ± says already stays as it is.
    fn take(&mut self, sure: Vec<(usize, f64)>) {
        for (i, u_si) in sure {
            let number = &mut self.numbers[i];
            if number.u_si != u_si {
                (number.u_si, number.spread, number.u_from) = (u_si, Spread::Standard, None);
            }
        }
    }

    /// Adds an error around nothing, moved like a field and told under its path; `None` when it has no ±.
    pub fn add_error(&mut self, path: String, u_si: f64, spread: Spread) -> Option<usize> {
        let number = Number {
            address: NO_ENTRY,
            path,
            si: 0.0,
            possible: Possible::Any,
            u_si,
            spread,
            u_from: None,
            default: None,
            origin: None,
        };
        (u_si.is_finite() && u_si > 0.0).then(|| {
            let now = Now::of(&number);
            now.used.set(true);
            self.now.push(now);
            self.numbers.push(number);
            self.numbers.len() - 1
        })
    }

    /// What an error is moved by now.
    pub fn error(&self, index: usize) -> f64 {
        self.now.get(index).and_then(Now::si).unwrap_or(0.0)
    }

    /// The defaults that were used, in the order of the file.
    pub fn into_defaults(self) -> Vec<UsedDefault> {
        let mut defaults = self.noted.take();
        let asked = |i: usize| self.now[i].used.get();
        let relied_on: Vec<&str> =
            self.numbers.iter().enumerate().filter(|(i, _)| asked(*i)).filter_map(|(_, n)| n.u_from).collect();
        let counted =
            self.numbers.iter().enumerate().filter(|(i, n)| asked(*i) || relied_on.contains(&n.path.as_str()));
        defaults.extend(counted.filter_map(|(_, n)| {
            let (text, reason) = n.default?;
            let (field, _) = fields::by_path(&n.path)?;
            let text = field.in_units(text, &self.job.units);
            Some(UsedDefault { path: n.path.clone(), text, si: Some(n.si), reason: reason.to_owned() })
        }));
        defaults
    }

    /// What was asked for until now, but not measured, in the order of the file.
    pub fn unmeasured(&self) -> Vec<Unmeasured> {
        let asked = self.numbers.iter().zip(&self.now).filter(|(n, now)| now.used.get() && n.default.is_none());
        asked
            .filter_map(|(n, _)| {
                let origin = n.origin.filter(|o| *o != Origin::Measured)?;
                Some(Unmeasured { path: n.path.clone(), origin })
            })
            .collect()
    }

    /// What was typed, if it can be read and is possible.
    pub fn typed<Q: Quantity>(&self, entry: &Entry<Q>) -> Option<Q> {
        let now = &self.now[self.at(address(entry))?];
        if now.typed { now.si().map(Q::from_si) } else { None }
    }

    /// What was typed, or the default of a blank field; that is then noted.
    pub fn known<Q: Quantity>(&self, entry: &Entry<Q>) -> Option<Q> {
        self.now[self.at(address(entry))?].si().map(Q::from_si)
    }

    /// As [`Reader::known`] was before anything was moved.
    pub fn as_read<Q: Quantity>(&self, entry: &Entry<Q>) -> Option<Q> {
        self.at(address(entry)).map(|i| Q::from_si(self.now[i].read_si))
    }

    /// As [`Reader::known`], with its standard uncertainty.
    pub fn measured<Q: Quantity>(&self, entry: &Entry<Q>) -> Option<Measured> {
        let value = self.known(entry)?.si();
        let u = self.at(address(entry)).map_or(0.0, |i| self.numbers[i].u_si);
        Some(Measured { value, u })
    }

    /// Standard uncertainty of a field, SI, and what it means.
    pub fn law<Q: Quantity>(&self, entry: &Entry<Q>) -> Option<(f64, Spread)> {
        self.at(address(entry)).map(|i| (self.numbers[i].u_si, self.numbers[i].spread))
    }

    /// What was typed, with its standard uncertainty.
    pub fn typed_with_u<Q: Quantity>(&self, entry: &Entry<Q>) -> Option<Measured> {
        self.typed(entry).and_then(|_| self.measured(entry))
    }

    /// Fields with a ± that this axle depends on: its own, its weights, and what was taken out of or put into them. Only
    /// those that were asked for until now: ask when the axle has been solved.
    pub fn uncertain(&self, side: Side) -> impl Iterator<Item = Uncertain<'_>> {
        let corners = match side {
            Side::Front => ["lf", "rf", "front"],
            Side::Rear => ["lr", "rr", "rear"],
        };
        let reckoned = !self.job.parts.is_empty() && (self.job.before.is_blank() || self.job.after.is_blank());
        let sized = self.job.cases.iter().position(|c| c.sized).map(|i| format!("cases[{i}]"));
        let loads = [&self.job.before, &self.job.after].iter().any(|w| !w.loads.is_empty());
        let by_wheelbase = reckoned || sized.is_some() || loads;
        let own = move |path: &str| match path.split_once('.') {
            Some(("before" | "after", field)) => {
                let last = field.rsplit_once('.').map_or(field, |(_, last)| last);
                let read = !field.starts_with("pads") && (corners.contains(&last) || reckoned && !field.contains('.'));
                read || field.starts_with("loads")
            }
            Some(("vehicle", "wheelbase" | "hitch")) => by_wheelbase,
            Some((head, _)) => {
                head == side.key() || reckoned && head.starts_with("parts[") || sized.as_deref() == Some(head)
            }
            None => false,
        };
        let numbers = self.numbers.iter().enumerate();
        numbers.filter(move |(i, n)| n.u_si > 0.0 && self.now[*i].used.get() && own(&n.path)).map(|(i, n)| Uncertain {
            index: i,
            path: &n.path,
            value_si: n.si,
            u_si: n.u_si,
            spread: n.spread,
        })
    }

    /// Every field with a ± that was asked for until now, whatever it belongs to.
    pub fn all_uncertain(&self) -> impl Iterator<Item = Uncertain<'_>> {
        let asked = self.numbers.iter().enumerate().filter(|(i, n)| n.u_si > 0.0 && self.now[*i].used.get());
        asked.map(|(index, n)| Uncertain { index, path: &n.path, value_si: n.si, u_si: n.u_si, spread: n.spread })
    }

    /// Moves one field by so much until it is moved again; by 0 it stands as it was read.
    pub fn nudge(&self, field: &Uncertain<'_>, by_si: f64) {
        self.move_at(field.index, by_si);
    }

    /// As [`Reader::nudge`], by the field's index.
    pub fn move_at(&self, index: usize, by_si: f64) {
        self.moved.set(index);
        self.now[index].move_by(by_si);
    }

    /// The field that was moved last is one of these.
    pub fn has_moved(&self, part: &str) -> bool {
        self.numbers.get(self.moved.get()).is_some_and(|n| n.path.contains(part))
    }

    #[inline]
    fn at(&self, address: usize) -> Option<usize> {
        match place(self.job, address) {
            Some(place) => Some(self.places[place]).filter(|i| *i != NOWHERE).map(|i| i as usize),
            None => self.elsewhere.find(address),
        }
    }

    /// Notes a default that is no field's own, once for each side.
    pub fn note_default(&self, side: Side, what: &str, text: &str, reason: &str) {
        let is_it = |path: &str| path.split_once('.') == Some((side.key(), what));
        let mut noted = self.noted.borrow_mut();
        if !noted.iter().any(|d| is_it(&d.path)) {
            let path = format!("{}.{what}", side.key());
            noted.push(UsedDefault { path, text: text.to_owned(), si: None, reason: reason.to_owned() });
        }
    }

    /// A motion ratio by whichever way the job says; the length at the reference is 0 when rows do not give it.
    pub fn length_curve(&self, ratio: &MotionRatio) -> Option<LengthCurve> {
        let none = Length::from_si(0.0);
        let turning = |curve: LengthCurve| Some(curve.with_slope(self.known(&ratio.slope)?));
        match ratio.by {
            RatioBy::Moved => {
                LengthCurve::from_movement(self.typed(&ratio.wheel_moved)?, self.typed(&ratio.part_moved)?, none)
                    .and_then(turning)
            }
            RatioBy::Number => turning(LengthCurve::constant(self.typed(&ratio.number)?, none)),
            RatioBy::Lean => turning(LengthCurve::from_lean(self.typed(&ratio.lean)?, self.known(&ratio.arm)?, none)),
            RatioBy::Rows => {
                let points = self.points(ratio)?;
                match self.fit_of(ratio) {
                    Some(fit) => fit.curve(&points),
                    None => LengthCurve::from_points(&points),
                }
            }
        }
        .filter(|curve| curve.ratio(none).si() > 0.0)
    }

    /// What the rows of a motion ratio say, if it is found by rows.
    fn fit_rows(&self, ratio: &MotionRatio) -> Option<Rows> {
        let points = self.points(ratio).filter(|_| ratio.by == RatioBy::Rows)?;
        // A wheel that stands a little off is a length that is a little off, by the ratio.
        let by_wheel = LengthCurve::from_points(&points)?.ratio_at_reference();
        let read = |r: &RatioRow| Some(self.measured(&r.length)?.u.hypot(by_wheel * self.measured(&r.wheel)?.u));
        let read = ratio.rows.iter().filter_map(read).fold(0.0, f64::max);
        let filled = ratio.rows.iter().enumerate().filter(|(_, r)| !is_blank(r));
        let typed_at = filled.map(|(i, _)| i).collect();
        Some(Rows { typed_at, ..Rows::fit_points(points, Length::from_si(read))? })
    }

    fn fit_of(&self, ratio: &MotionRatio) -> Option<&RowFit> {
        let ratios = Side::BOTH.map(|side| [&self.job.axle(side).ratio, &self.job.axle(side).damper_ratio]);
        let found = ratios.iter().flatten().position(|r| std::ptr::eq(*r, ratio))?;
        self.fits[found / 2][found % 2].as_ref()
    }

    /// Wheel travel and length of every row that is not blank, m; `None` when one of them cannot be read.
    pub fn points(&self, ratio: &MotionRatio) -> Option<Vec<(f64, f64)>> {
        let mut points = Vec::with_capacity(ratio.rows.len());
        for row in &ratio.rows {
            match (self.typed(&row.wheel), self.typed(&row.length)) {
                (Some(wheel), Some(length)) => points.push((wheel.si(), length.si())),
                _ if is_blank(row) => {}
                _ => return None,
            }
        }
        Some(points)
    }
}

/// Addresses of entries in rows, found by hash: a table at most half full, the next free seat being taken.
struct Elsewhere {
    seats: Vec<Option<(usize, usize)>>,
}

impl Elsewhere {
    fn of(all: &[(usize, usize)]) -> Self {
        let mut table = Elsewhere { seats: vec![None; (2 * all.len() + 1).next_power_of_two()] };
        for (address, number) in all {
            let seat = table.seats_for(*address).find(|i| table.seats[*i].is_none());
            if let Some(seat) = seat {
                table.seats[seat] = Some((*address, *number));
            }
        }
        table
    }

    fn find(&self, address: usize) -> Option<usize> {
        self.seats_for(address).map_while(|i| self.seats[i]).find(|(a, _)| *a == address).map(|(_, number)| number)
    }

    /// All seats, beginning with the one that an address would have.
    fn seats_for(&self, address: usize) -> impl Iterator<Item = usize> + use<> {
        let last = self.seats.len() - 1;
        let first = (((address / PLACE) as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 32) as usize;
        (0..=last).map(move |i| first.wrapping_add(i) & last)
    }
}

/// No entry of a job stands here.
const NO_ENTRY: usize = usize::MAX;

/// No number begins in such a place.
const NOWHERE: u32 = u32::MAX;

/// Entries begin on multiples of this.
const PLACE: usize = align_of::<usize>();

/// Where in the job itself an address lies, in steps of [`PLACE`]; `None` for a row of a list.
#[inline]
fn place(job: &Job, address: usize) -> Option<usize> {
    let offset = address.wrapping_sub(std::ptr::from_ref(job).addr());
    (offset < size_of::<Job>()).then_some(offset / PLACE)
}

/// A field with a ±.
pub(super) struct Uncertain<'r> {
    pub index: usize,
    pub path: &'r str,
    pub value_si: f64,
    pub u_si: f64,
    /// What its ± means.
    pub spread: Spread,
}

/// The number of one field: typed and possible, or the default of a blank one.
fn number(sure: &HowSure<'_>, path: &str, entry: &dyn AnyEntry) -> Option<Number> {
    let job = sure.job;
    let blank = entry.text().trim().is_empty();
    let (field, place) = fields::by_path(path)?;
    let side = place.scope.side();
    let default = if blank { Some(field.when_blank(job, side)?) } else { None };
    let si = match default {
        Some((text, _)) => parse::number(text, field.dim, DecimalMark::Point).ok()?.si(),
        None => entry.number(job.decimal).ok()??.si(),
    };
    // A ± that cannot be read is not used; a finding says so.
    let (u_si, u_from) = match entry.pm().0.trim() {
        "" => sure
            .unstated(field, side, entry.origin(), default.is_some(), si)
            .map_or((0.0, None), |u| (u.standard_si(), u.from)),
        _ => (entry.stated_si(si, job.decimal).unwrap_or(0.0), None),
    };
    field.allows(si).then(|| Number {
        address: std::ptr::from_ref(entry).cast::<()>().addr(),
        path: path.to_owned(),
        si,
        possible: field.possible,
        u_si,
        u_from,
        spread: match entry.pm() {
            (pm, spread) if !pm.trim().is_empty() => spread,
            _ => Spread::Limits,
        },
        default,
        origin: entry.origin().filter(|_| field.reading.is_some()),
    })
}

fn address<Q>(entry: &Entry<Q>) -> usize {
    std::ptr::from_ref(entry).addr()
}

/// Nothing was typed in this row.
fn is_blank(row: &RatioRow) -> bool {
    row.wheel.text.trim().is_empty() && row.length.text.trim().is_empty()
}

/// Nothing was typed for this ratio, by the way that counts.
pub(super) fn ratio_is_blank(ratio: &MotionRatio) -> bool {
    let blank = |text: &str| text.trim().is_empty();
    match ratio.by {
        RatioBy::Moved => blank(&ratio.wheel_moved.text) && blank(&ratio.part_moved.text),
        RatioBy::Number => blank(&ratio.number.text),
        RatioBy::Lean => blank(&ratio.lean.text),
        RatioBy::Rows => ratio.rows.iter().all(is_blank),
    }
}
