//! Text to samples: every row's time and axes, what they are in, and what is doubtful about them.

use super::record_columns::{self, Layout, MOTION_UNITS, TIME_UNITS, TimeColumn, motion_unit, time_unit};
use super::record_plan::{Plan, plan};
use super::record_rows::{Form, cells, clock, form, is_passed_over, not_a_number, number};
use super::{Ask, RecordError, Recording};
use crate::base::bounds::{ACCELERATION, LENGTH, RECORD_ROWS};
use crate::base::language::Word;
use crate::base::message::Message;
use crate::base::progress::Watch;
use crate::base::units::{Amount, G_M_PER_S2};
use crate::trade::recording::evenly::{FASTEST_HZ, SLOWEST_HZ, evenly};
use crate::trade::recording::{Record, Signal};
use crate::{message, say};

/// This number of unusable rows does not matter; beyond, and above a hundredth of all, the file is damaged.
const BAD_AT_MOST: usize = 10;
const BAD_SHARE: f64 = 0.01;
/// Lines between two looks at whether it is still wanted.
const NOW_AND_THEN: usize = 8192;

/// Reads a text.
pub(super) fn read(text: &str, ask: &Ask, watch: &Watch) -> Result<Recording, RecordError> {
    let form = form(lines(text).map(|(_, line)| line)).ok_or(RecordError::NoRows)?;
    let names = names(&form);
    let mut plan = plan(&form, &names, ask)?;
    let mut rows = Rows::of(text, &form, &plan);
    rows.read(text, &form, &plan, watch)?;
    let mut notes = vec![Message::from(separated_by(form.separator))];
    if form.header.is_none() {
        notes.push(Word("No header was found: the columns were read as time, then axes").into());
    }
    let times_s = rows.times(&mut plan, ask, &mut notes)?;
    let Rows { mut axes, bad, first_bad, count, .. } = rows;
    let unit = unit(&axes, &plan.layout, ask, &mut notes)?;
    axes.iter_mut().for_each(|axis| axis.iter_mut().for_each(|v| *v *= unit.1));
    within_bounds(&axes, unit.0)?;
    let mut cautions = Vec::new();
    if let Some((line, reason)) = first_bad {
        if bad > BAD_AT_MOST && bad as f64 > BAD_SHARE * count as f64 {
            return Err(RecordError::Damaged { bad, rows: count, line, reason });
        }
        cautions.push(message!("Rows left out: {bad}, the first in line {line}: {reason}", bad, line, reason));
    }
    doubts(&axes, &plan, &names, &mut cautions)?;
    let record = evenly(&times_s, axes)?;
    even_notes(&record, &mut notes, &mut cautions);
    let taken = plan.layout.axes.iter().map(|at| names[*at].clone()).collect();
    let (signal, named) = (unit.0, plan.named);
    Ok(Recording {
        record,
        signal,
        axes: taken,
        columns: names,
        asked: Ask::default(),
        named,
        notes,
        cautions,
        checksum: 0,
    })
}

/// The names of all columns; none in a text without rows of numbers.
pub(super) fn columns(text: &str) -> Vec<String> {
    form(lines(text).map(|(_, line)| line)).map(|form| names(&form)).unwrap_or_default()
}

/// Every line with its number, from 1, however lines end.
fn lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let old = !text.contains('\n');
    text.split(move |c| c == '\n' || old && c == '\r')
        .map(|line| line.trim_end_matches('\r'))
        .enumerate()
        .map(|(i, l)| (i + 1, l))
}

fn names(form: &Form) -> Vec<String> {
    let given = form.header.clone().unwrap_or_default();
    let name = |i: usize| {
        let named = given.get(i).filter(|name| !name.is_empty()).cloned();
        named.unwrap_or_else(|| say!("column {number}", number = i + 1))
    };
    (0..form.cells).map(name).collect()
}

fn separated_by(separator: char) -> Word {
    match separator {
        ';' => Word("Columns separated by semicolons"),
        ',' => Word("Columns separated by commas"),
        '\t' => Word("Columns separated by tabs"),
        _ => Word("Columns separated by spaces"),
    }
}

/// What the rows hold, as it is.
struct Rows {
    times: Vec<f64>,
    axes: Vec<Vec<f64>>,
    /// Times are of a clock.
    by_clock: bool,
    bad: usize,
    first_bad: Option<(usize, Message)>,
    count: usize,
}

impl Rows {
    /// With room for as many rows as lines of the first one's length.
    fn of(text: &str, form: &Form, plan: &Plan) -> Rows {
        let first = lines(text).nth(form.first).map_or(16, |(_, line)| line.len() + 1);
        let room = || Vec::with_capacity((text.len() / first.max(4) + 16).min(RECORD_ROWS.count()));
        Rows {
            times: if plan.layout.time.is_some() { room() } else { Vec::new() },
            axes: plan.layout.axes.iter().map(|_| room()).collect(),
            by_clock: false,
            bad: 0,
            first_bad: None,
            count: 0,
        }
    }

    fn read(&mut self, text: &str, form: &Form, plan: &Plan, watch: &Watch) -> Result<(), RecordError> {
        let (mut parts, mut read) = (Vec::with_capacity(form.cells), 0_usize);
        for (line, row) in lines(text).skip(form.first) {
            read += row.len() + 1;
            if line.is_multiple_of(NOW_AND_THEN) {
                watch.tell(read as f64 / text.len() as f64);
                if watch.is_cancelled() {
                    return Err(RecordError::Stopped);
                }
            }
            if is_passed_over(row) {
                continue;
            }
            self.count += 1;
            if self.count > RECORD_ROWS.count() {
                return Err(RecordError::TooManyRows);
            }
            cells(row, form.separator, &mut parts);
            if let Err(reason) = self.add(&parts, form, plan) {
                self.bad += 1;
                self.first_bad.get_or_insert((line, reason));
            }
        }
        Ok(())
    }

    /// Takes one row whole, or says why not.
    fn add(&mut self, parts: &[&str], form: &Form, plan: &Plan) -> Result<(), Message> {
        let cell = |at: usize| parts.get(at).copied().unwrap_or_default();
        if parts.len() != form.cells {
            return Err(message!(
                "{wanted} cells are expected, as in the other rows; the row has {found}",
                found = parts.len(),
                wanted = form.cells
            ));
        }
        let time = match plan.layout.time {
            Some(TimeColumn { at, steps, .. }) => {
                let plain = number(cell(at), form.comma);
                self.by_clock |= plain.is_none() && self.times.is_empty();
                let time = if self.by_clock { clock(cell(at)) } else { plain };
                let time = time.ok_or_else(|| not_a_number(cell(at)))?;
                Some(self.onward(time, steps)?)
            }
            None => None,
        };
        let mut values = [0.0; 3];
        for (value, at) in values.iter_mut().zip(&plan.layout.axes) {
            *value = number(cell(*at), form.comma).ok_or_else(|| not_a_number(cell(*at)))?;
        }
        self.times.extend(time);
        self.axes.iter_mut().zip(values).for_each(|(axis, value)| axis.push(value));
        Ok(())
    }

    /// The time of a row after those before it: steps added up, midnight passed.
    fn onward(&self, time: f64, steps: bool) -> Result<f64, Message> {
        const HALF_A_DAY_S: f64 = 43_200.0;
        let Some(last) = self.times.last() else { return Ok(if steps { 0.0 } else { time }) };
        let time = match (steps, self.by_clock) {
            (true, _) => last + time,
            // Whole days passed at midnight.
            (false, true) => {
                let days = ((last - time) / (2.0 * HALF_A_DAY_S)).round().max(0.0);
                time + days * 2.0 * HALF_A_DAY_S
            }
            (false, false) => time,
        };
        if time > *last { Ok(time) } else { Err(Word("the time is not later than in the row before").into()) }
    }

    /// Times in s, from the first row on.
    fn times(&mut self, plan: &mut Plan, ask: &Ask, notes: &mut Vec<Message>) -> Result<Vec<f64>, RecordError> {
        let count = self.axes.first().map_or(0, Vec::len);
        if let Some(rate) = ask.rate_hz {
            notes.push(message!(
                "Times calculated from the sampling rate given, {rate} Hz",
                rate = Amount::significant(rate, 4)
            ));
            return Ok((0..count).map(|i| i as f64 / rate).collect());
        }
        let mut times = std::mem::take(&mut self.times);
        if times.len() < 2 {
            return Err(self.first_bad.take().map_or(RecordError::NoRows, |(line, reason)| RecordError::Damaged {
                bad: self.bad,
                rows: self.count,
                line,
                reason,
            }));
        }
        let wanted = ask.time_unit.as_deref().map(|unit| {
            time_unit(&record_columns::plain(unit)).ok_or_else(|| RecordError::Unit {
                unit: unit.to_owned(),
                wanted: Word("time"),
                allowed: TIME_UNITS,
            })
        });
        let said = wanted.transpose()?.or(plan.layout.time.and_then(|t| t.unit));
        let unit = if self.by_clock { 1.0 } else { said.map_or_else(|| likely_unit(&times, notes), Ok)? };
        let from = times[0];
        times.iter_mut().for_each(|t| *t = (*t - from) * unit);
        Ok(times)
    }
}

/// The unit under which the usual step is that of a sensor: no two of them fit.
fn likely_unit(times: &[f64], notes: &mut Vec<Message>) -> Result<f64, RecordError> {
    const UNITS: [(&str, f64); 4] = [("s", 1.0), ("ms", 1e-3), ("µs", 1e-6), ("ns", 1e-9)];
    let mut steps: Vec<f64> = times.windows(2).take(10_000).map(|w| w[1] - w[0]).collect();
    let middle = steps.len() / 2;
    let step = *steps.select_nth_unstable_by(middle, f64::total_cmp).1;
    let fits = |(_, si): &&(&str, f64)| (SLOWEST_HZ..=SLOWEST_HZ * 500.0).contains(&(1.0 / (step * si)));
    let Some((name, si)) = UNITS.iter().find(fits) else {
        let in_s = (SLOWEST_HZ / 10.0..=FASTEST_HZ).contains(&(1.0 / step));
        // A rate that is slow, not one in another unit: it is said for what it is.
        return if in_s { Ok(1.0) } else { Err(RecordError::NoTimeUnit { step: Amount::significant(step, 4) }) };
    };
    notes.push(message!("Time taken as {unit}, judging by the time step", unit = *name));
    Ok(*si)
}

/// The unit of the motion: as asked, as the header says, as gravity shows, else m/s².
fn unit(axes: &[Vec<f64>], layout: &Layout, ask: &Ask, notes: &mut Vec<Message>) -> Result<(Signal, f64), RecordError> {
    if let Some(unit) = &ask.unit {
        let found = motion_unit(&record_columns::plain(unit)).ok_or_else(|| RecordError::Unit {
            unit: unit.clone(),
            wanted: Word("acceleration or displacement"),
            allowed: MOTION_UNITS,
        })?;
        return Ok((found.signal, found.si));
    }
    if let Some(si) = layout.unit {
        return Ok((layout.signal, si));
    }
    if layout.signal == Signal::Displacement {
        notes.push(
            Word("No unit given: displacements taken as mm. If that is wrong, choose the unit (command line: --unit)")
                .into(),
        );
        return Ok((layout.signal, 1e-3));
    }
    let mean = |axis: &Vec<f64>| axis.iter().sum::<f64>() / axis.len().max(1) as f64;
    let size = axes.iter().map(|a| mean(a).powi(2)).sum::<f64>().sqrt();
    const UNITS: [(&str, f64); 3] = [("m/s²", 1.0), ("g", G_M_PER_S2), ("mg", 1e-3 * G_M_PER_S2)];
    let by_gravity = UNITS.iter().find(|(_, si)| (size * si / G_M_PER_S2 - 1.0).abs() < 0.15);
    let (name, si) = by_gravity.unwrap_or(&UNITS[0]);
    notes.push(match by_gravity {
        Some(_) => message!("Acceleration taken as {unit}, judging by the gravity it contains", unit = *name),
        None => {
            Word("No unit given, and gravity is not included: acceleration taken as m/s². If that is wrong, choose the unit (command line: --unit)").into()
        }
    });
    Ok((Signal::Acceleration, *si))
}

/// What no sensor shows is refused: sums of its powers would not be finite.
fn within_bounds(axes: &[Vec<f64>], signal: Signal) -> Result<(), RecordError> {
    let (bound, unit) = match signal {
        Signal::Acceleration => (&ACCELERATION, "m/s²"),
        Signal::Displacement => (&LENGTH, "m"),
    };
    let largest = axes.iter().flatten().fold(0.0_f64, |most, v| most.max(v.abs()));
    let value = || Amount::significant(largest, 3);
    if largest > bound.most { Err(RecordError::TooLarge { value: value(), unit }) } else { Ok(()) }
}

/// Nothing moves, or a sensor at its end.
fn doubts(axes: &[Vec<f64>], plan: &Plan, names: &[String], cautions: &mut Vec<Message>) -> Result<(), RecordError> {
    let ends = |axis: &Vec<f64>| {
        axis.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(*v), high.max(*v)))
    };
    if axes.iter().all(|axis| ends(axis).0 >= ends(axis).1) {
        return Err(RecordError::Constant);
    }
    for (axis, at) in axes.iter().zip(&plan.layout.axes) {
        let (low, high) = ends(axis);
        let clipped = [low, high].map(|end| plateaus(axis, end, high - low)).iter().sum::<usize>();
        if clipped > 0 {
            cautions.push(message!(
                "\"{name}\" stays at its maximum or minimum for several samples (occurrences: {clipped}): the sensor seems to have reached the end of its range. Set a larger range and record again",
                name = &names[*at], clipped
            ));
        }
    }
    Ok(())
}

/// How often an axis runs into a value and stays there for three samples or more.
fn plateaus(axis: &[f64], end: f64, span: f64) -> usize {
    const LONG: usize = 3;
    /// It gets there and leaves by a step of this share of the span: a slow top that is rounded does not.
    const STEEP: f64 = 0.04;
    let (mut found, mut run) = (0, 0);
    for (i, value) in axis.iter().enumerate() {
        if *value == end {
            run += 1;
            continue;
        }
        let before = i.checked_sub(run + 1).map(|k| axis[k]);
        let is_steep = before.is_some_and(|b| (b - end).abs() > STEEP * span) && (value - end).abs() > STEEP * span;
        found += usize::from(run >= LONG && is_steep);
        run = 0;
    }
    found
}

fn even_notes(record: &Record, notes: &mut Vec<Message>, cautions: &mut Vec<Message>) {
    let rate = Amount::significant(record.rate_hz(), 4);
    if record.interpolated {
        notes.push(message!("Uneven time steps: resampled at {rate} Hz by linear interpolation", rate));
    }
    if record.gaps > 0 {
        cautions.push(message!("Gaps in the samples: {gaps}; each part is evaluated separately", gaps = record.gaps));
    }
}
