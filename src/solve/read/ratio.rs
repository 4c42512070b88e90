//! Motion ratios: the rows they are found by, the fit through them, and the curve of a length.

use super::{Moves, Reading};
use crate::base::units::{Length, Quantity};
use crate::job::read::{MotionRatio, RatioRow};
use crate::job::{RatioBy, Side};
use crate::trade::wheel::{LengthCurve, RowFit, Rows};

/// What the rows of one motion ratio say.
pub(in super::super) struct RatioRows {
    pub rows: Rows,
    /// The fit through them, its degree decided, ready for other lengths.
    fit: Option<RowFit>,
}

/// What the rows of an axle's two motion ratios say; `None` where a ratio is not found by rows.
#[derive(Default)]
pub(in super::super) struct AxleRows {
    pub spring: Option<RatioRows>,
    pub damper: Option<RatioRows>,
}

impl AxleRows {
    fn of(&self, moves: Moves) -> Option<&RatioRows> {
        match moves {
            Moves::Spring => self.spring.as_ref(),
            Moves::Damper => self.damper.as_ref(),
        }
    }
}

impl Reading<'_> {
    /// Fits all rows, and takes how sure each of them is from how they scatter.
    pub(super) fn read_rows(&mut self) {
        for side in Side::BOTH {
            let axle = self.job.axle(side);
            self.rows[side] =
                AxleRows { spring: self.fit_rows(&axle.ratio), damper: self.fit_rows(&axle.damper_ratio) };
        }
        for side in Side::BOTH {
            let axle = self.job.axle(side);
            let [spring, damper] =
                Moves::BOTH.map(|moves| self.sure_of_rows(moves.ratio(axle), self.rows[side].of(moves)?));
            for (number, u_si) in spring.into_iter().chain(damper).flatten() {
                // One that its own ± says already stays as it is.
                if self.numbers[number].u_si != u_si {
                    self.numbers[number].scatters(u_si);
                }
            }
        }
    }

    /// A motion ratio by whichever way the job says; the length at the reference is 0 when rows do not give it.
    pub fn length_curve(&self, side: Side, moves: Moves) -> Option<LengthCurve> {
        let ratio = moves.ratio(self.job.axle(side));
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
                match self.rows[side].of(moves).and_then(|rows| rows.fit.as_ref()) {
                    Some(fit) => fit.curve(&points),
                    None => LengthCurve::from_points(&points),
                }
            }
            RatioBy::Arm => turning(LengthCurve::constant(self.by_arm(side, moves)?.ok()?, none)),
            RatioBy::Points => self.by_points(side, moves)?.ok().map(|(curve, _)| curve),
        }
        .filter(|curve| curve.ratio(none).si() > 0.0)
    }

    /// Wheel travel and length of every row that is not blank, m; `None` when one of them cannot be read.
    pub fn points(&self, ratio: &MotionRatio) -> Option<Vec<(f64, f64)>> {
        let mut points = Vec::with_capacity(ratio.rows.len());
        for row in &ratio.rows {
            match (self.typed(&row.wheel), self.typed(&row.length)) {
                (Some(wheel), Some(length)) => points.push((wheel.si(), length.si())),
                _ if row.is_blank() => {}
                _ => return None,
            }
        }
        Some(points)
    }

    /// What the rows of a motion ratio say, if it is found by rows.
    fn fit_rows(&self, ratio: &MotionRatio) -> Option<RatioRows> {
        // Beside points or an arm they are another way to the same ratio.
        let fitted = matches!(ratio.by, RatioBy::Rows | RatioBy::Points | RatioBy::Arm);
        let points = self.points(ratio).filter(|_| fitted)?;
        // A wheel that stands a little off is a length that is a little off, by the ratio.
        let by_wheel = LengthCurve::from_points(&points)?.ratio_at_reference();
        let read = |r: &RatioRow| Some(self.measured(&r.length)?.u.hypot(by_wheel * self.measured(&r.wheel)?.u));
        let read = ratio.rows.iter().filter_map(read).fold(0.0, f64::max);
        let filled = ratio.rows.iter().enumerate().filter(|(_, r)| !r.is_blank());
        let typed_at = filled.map(|(i, _)| i).collect();
        let rows = Rows { typed_at, ..Rows::fit_points(points, Length::from_si(read))? };
        Some(RatioRows { fit: RowFit::of(&rows.points_m), rows })
    }

    /// How sure each number of rows is, once there are readings to spare: by how the rows scatter, or by the ± that they
    /// state where that makes the ratio less sure. A ± that is not stated does not count then.
    fn sure_of_rows(&self, ratio: &MotionRatio, of: &RatioRows) -> Option<Vec<(usize, f64)>> {
        let (rows, fit) = (&of.rows, of.fit.as_ref()?);
        let by_scatter = rows.u_of_row()?.si();
        let (mut by_stated, mut scattered) = (0.0, 0.0);
        let mut sure = Vec::with_capacity(2 * rows.typed_at.len());
        for ((row, weight), (z, _)) in rows.typed_at.iter().zip(fit.ratio_by_length()).zip(&rows.points_m) {
            let row = ratio.rows.get(*row)?;
            let [wheel, length] = [&row.wheel, &row.length].map(|field| {
                let number = field.number()?;
                Some((number, if field.states_pm() { self.numbers[number].u_si } else { 0.0 }))
            });
            let (wheel, length) = (wheel?, length?);
            let by_wheel = rows.curve.ratio(Length::from_si(*z)).si();
            by_stated += (weight * length.1.hypot(by_wheel * wheel.1)).powi(2);
            scattered += (weight * by_scatter).powi(2);
            sure.extend([wheel, length]);
        }
        if scattered > by_stated {
            sure.chunks_exact_mut(2).for_each(|row| (row[0].1, row[1].1) = (0.0, by_scatter));
        }
        Some(sure)
    }
}

/// Nothing was typed for this ratio, by the way that counts.
pub(in super::super) fn ratio_is_blank(ratio: &MotionRatio) -> bool {
    match ratio.by {
        RatioBy::Moved => ratio.wheel_moved.is_blank() && ratio.part_moved.is_blank(),
        RatioBy::Number => ratio.number.is_blank(),
        RatioBy::Lean => ratio.lean.is_blank(),
        RatioBy::Rows => ratio.rows.iter().all(RatioRow::is_blank),
        RatioBy::Arm => ratio.seat_arm.is_blank(),
        // The points stand elsewhere: this way was chosen, so they are asked for.
        RatioBy::Points => false,
    }
}
