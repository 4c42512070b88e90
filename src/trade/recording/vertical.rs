//! Which way is up in a recording of acceleration.

use super::evenly::{Record, Stretch};
use crate::base::units::G_M_PER_S2;

/// How the vertical was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Direction {
    /// Along gravity, which is in the data: its size at rest, m/s².
    Gravity(f64),
    /// The axis with the most motion, 0 to 2, its sign not known: gravity is not in the data.
    Strongest(usize),
    /// The only axis there is, or the one that was named, 0 to 2; its sign is taken as it is.
    Named(usize),
}

/// The body's motion upward.
#[derive(Debug, Clone, PartialEq)]
pub struct Vertical {
    /// How up was found.
    pub direction: Direction,
    /// Plus is up: gravity tells.
    pub is_signed: bool,
    /// Where each stretch begins, s, and its samples without gravity: acceleration upward, m/s².
    pub stretches: Vec<(f64, Vec<f64>)>,
    /// By how much gravity turned between beginning and end, rad; `None` without gravity or rest in both.
    pub turned_rad: Option<f64>,
}

/// Length of a piece checked for rest, s.
const WINDOW_S: f64 = 0.5;
/// The stillest share of the record shows gravity.
const STILLEST: f64 = 0.1;
/// Gravity is in the data when the acceleration at rest is as large as it within this share.
const GRAVITY_WITHIN: f64 = 0.12;

/// One piece of a record: mean of each axis, and variance of all.
struct Piece {
    at_s: f64,
    mean: [f64; 3],
    variance: f64,
}

/// Finds the vertical of an acceleration, m/s²; `named` is the axis that someone named.
pub fn vertical(record: &Record, named: Option<usize>) -> Vertical {
    let axes = record.stretches.first().map_or(0, |s| s.axes.len());
    let pieces = pieces(record);
    let rest = mean_of_stillest(&pieces, |_| true).unwrap_or_default();
    let size = rest.iter().map(|a| a * a).sum::<f64>().sqrt();
    let has_gravity = (size / G_M_PER_S2 - 1.0).abs() < GRAVITY_WITHIN;
    if let Some(axis) = named.or((axes == 1).then_some(0)).filter(|axis| *axis < axes) {
        let turn = if rest[axis] < -0.5 * G_M_PER_S2 { -1.0 } else { 1.0 };
        let up = |s: &Stretch| s.axes[axis].iter().map(|a| turn * (a - rest[axis])).collect();
        let is_signed = rest[axis].abs() > 0.5 * G_M_PER_S2;
        return found(record, Direction::Named(axis), is_signed, None, up);
    }
    if has_gravity {
        let unit = rest.map(|a| a / size);
        let up = |s: &Stretch| {
            let along = |i: usize| s.axes.iter().zip(unit).map(|(axis, u)| axis[i] * u).sum::<f64>() - size;
            (0..s.len()).map(along).collect()
        };
        return found(record, Direction::Gravity(size), true, turned(&pieces), up);
    }
    let spread = |axis: usize| {
        record.stretches.iter().map(|s| s.axes[axis].iter().map(|a| (a - rest[axis]).powi(2)).sum::<f64>()).sum::<f64>()
    };
    let axis = (0..axes).max_by(|a, b| spread(*a).total_cmp(&spread(*b))).unwrap_or(0);
    found(record, Direction::Strongest(axis), false, None, |s| s.axes[axis].iter().map(|a| a - rest[axis]).collect())
}

fn found(
    record: &Record,
    direction: Direction,
    is_signed: bool,
    turned_rad: Option<f64>,
    up: impl Fn(&Stretch) -> Vec<f64>,
) -> Vertical {
    let stretches = record.stretches.iter().map(|s| (s.from_s, up(s))).collect();
    Vertical { direction, is_signed, stretches, turned_rad }
}

fn pieces(record: &Record) -> Vec<Piece> {
    let width = ((WINDOW_S / record.every_s).round() as usize).max(4);
    let mut pieces = Vec::new();
    for stretch in &record.stretches {
        for from in (0..stretch.len().saturating_sub(width - 1)).step_by(width) {
            let (mut mean, mut variance) = ([0.0; 3], 0.0);
            for (axis, mean) in stretch.axes.iter().zip(&mut mean) {
                let part = &axis[from..from + width];
                *mean = part.iter().sum::<f64>() / width as f64;
                variance += part.iter().map(|a| (a - *mean).powi(2)).sum::<f64>() / width as f64;
            }
            pieces.push(Piece { at_s: stretch.from_s + from as f64 * record.every_s, mean, variance });
        }
    }
    pieces
}

/// Mean of the stillest of these pieces; `None` when there are none.
fn mean_of_stillest(pieces: &[Piece], wanted: impl Fn(&Piece) -> bool) -> Option<[f64; 3]> {
    let mut still: Vec<&Piece> = pieces.iter().filter(|p| wanted(p)).collect();
    let count = ((still.len() as f64 * STILLEST).ceil() as usize).clamp(usize::from(!still.is_empty()), still.len());
    still.sort_by(|a, b| a.variance.total_cmp(&b.variance));
    let mean = |axis: usize| still[..count].iter().map(|p| p.mean[axis]).sum::<f64>() / count as f64;
    (count > 0).then(|| [mean(0), mean(1), mean(2)])
}

/// Angle between gravity in the first and in the last third.
fn turned(pieces: &[Piece]) -> Option<f64> {
    let (from_s, to_s) = (pieces.first()?.at_s, pieces.last()?.at_s);
    let third_s = (to_s - from_s) / 3.0;
    let first = mean_of_stillest(pieces, |p| p.at_s <= from_s + third_s)?;
    let last = mean_of_stillest(pieces, |p| p.at_s >= to_s - third_s)?;
    let dot = |a: &[f64; 3], b: &[f64; 3]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let cosine = dot(&first, &last) / (dot(&first, &first) * dot(&last, &last)).sqrt();
    Some(cosine.clamp(-1.0, 1.0).acos())
}
