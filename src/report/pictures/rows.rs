//! "Is the ratio constant?": length against wheel travel, what the rows leave over, and the wheel rate beneath.

use crate::base::language::tr;
use crate::base::units::{Dim, Length, Quantity, UnitChoice, display};
use crate::report::pictures::picture::{Dot, Line, Picture};
use crate::say;
use crate::solve::answer::{AxleAnswer, Checked, State};
use crate::trade::wheel::Rows;

const POINTS: usize = 40;

/// Whose rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The spring's.
    Spring,
    /// The damper's.
    Damper,
}

impl Part {
    fn word(self) -> &'static str {
        match self {
            Part::Spring => tr("spring"),
            Part::Damper => tr("damper"),
        }
    }

    fn rows(self, checked: &Checked) -> Option<&Rows> {
        match self {
            Part::Spring => checked.ratio_rows.as_ref(),
            Part::Damper => checked.damper_rows.as_ref(),
        }
    }

    fn ratio(self, axle: &AxleAnswer) -> Option<f64> {
        match self {
            Part::Spring => axle.motion_ratio.map(Quantity::si),
            Part::Damper => axle.damper_motion_ratio.map(Quantity::si),
        }
    }

    fn slope(self, axle: &AxleAnswer) -> Option<f64> {
        match self {
            Part::Spring => axle.ratio_slope.map(|s| s.value),
            Part::Damper => axle.damper_ratio_slope.map(|s| s.value),
        }
    }
}

/// The pictures of a part's rows, none when its ratio was not found by rows: lengths, what is left over, and for
/// the spring the wheel rate.
pub fn pictures(axle: &AxleAnswer, checked: &Checked, part: Part, units: &UnitChoice) -> Vec<Picture> {
    part.rows(checked).map_or(Vec::new(), |rows| of(axle, checked, part, rows, units))
}

fn of(axle: &AxleAnswer, checked: &Checked, part: Part, rows: &Rows, units: &UnitChoice) -> Vec<Picture> {
    let travels = rows.points_m.iter().map(|p| p.0);
    let (low_m, high_m) = (travels.clone().fold(f64::MAX, f64::min), travels.fold(f64::MIN, f64::max));
    let along = |f: &dyn Fn(f64) -> f64| -> Vec<[f64; 2]> {
        let step_m = (high_m - low_m) / (POINTS - 1) as f64;
        (0..POINTS).map(|i| low_m + step_m * i as f64).map(|z| [z, f(z)]).collect()
    };
    let odd = rows.off.and_then(|(row, _)| row);
    let named = |i: usize| if odd == Some(i) { say!("row {row}", row = rows.typed_at[i] + 1) } else { String::new() };
    let fitted = along(&|z| rows.curve.length(Length::from_si(z)).si());
    let length = Picture {
        lines: vec![Line::new(None, tr("fitted curve"), fitted)],
        dots: rows.points_m.iter().enumerate().map(|(i, p)| Dot { at: [p.0, p.1], label: named(i) }).collect(),
        ..Picture::over_travel(length_title(axle, checked, part, units), tr("length"), Dim::Length)
    };
    let left = rows.residuals_m.iter().zip(&rows.points_m).enumerate();
    let residuals = Picture {
        lines: vec![Line::new(None, "", vec![[low_m, 0.0], [high_m, 0.0]])],
        dots: left.map(|(i, (r, p))| Dot { at: [p.0, *r], label: named(i) }).collect(),
        ..Picture::over_travel(residual_title(axle, part, rows, units), tr("residual"), Dim::Length)
    };
    if part == Part::Damper {
        return vec![length, residuals];
    }
    let mut rates = Vec::new();
    for (state, label) in [(State::OldSprings, tr("old spring")), (State::NewSprings, tr("new spring"))] {
        if let Some(s) = axle.standing.of(state) {
            rates.push(Line::new(Some(state), label, along(&|z| s.curve.rate_n_per_m(z))));
        }
    }
    let title = say!("{side}: wheel rate over the measured travel", side = axle.side.word());
    let wheel_rate = Picture { lines: rates, ..Picture::over_travel(title, tr("wheel rate"), Dim::SpringRate) };
    vec![length, residuals, wheel_rate]
}

fn length_title(axle: &AxleAnswer, checked: &Checked, part: Part, units: &UnitChoice) -> String {
    let u = checked.nudged.u_of(|a| part.ratio(a)).unwrap_or(0.0);
    let ratio = display::measured_si(part.ratio(axle).unwrap_or(0.0), u, Dim::Ratio, units);
    let slope = part.slope(axle).unwrap_or(0.0);
    let u = checked.nudged.u_of(|a| part.slope(a)).unwrap_or(0.0);
    let side = axle.side.word();
    let moves = match part {
        Part::Spring => say!("{side}: spring travel is {ratio} × wheel travel", side, ratio),
        Part::Damper => say!("{side}: damper travel is {ratio} × wheel travel", side, ratio),
    };
    // A change within twice its uncertainty is none that was measured.
    match () {
        () if slope.abs() <= 2.0 * u => say!("{moves}; no change with travel detected", moves),
        () if slope > 0.0 => say!("{moves}, more in bump", moves),
        () => say!("{moves}, less in bump", moves),
    }
}

fn residual_title(axle: &AxleAnswer, part: Part, rows: &Rows, units: &UnitChoice) -> String {
    let whose = format!("{}, {}", axle.side.word(), part.word());
    let unit = units.unit(Dim::Length);
    let said = |l: Length| format!("{} {}", display::significant(l.si().abs() / unit.si, 2), unit.symbol);
    match (rows.off, rows.scatter) {
        (Some((Some(row), by)), _) => {
            let row = rows.typed_at[row] + 1;
            say!("{whose}: row {row} differs from the others by {by}; measure it again", whose, row, by = said(by))
        }
        (Some((None, by)), _) => {
            say!(
                "{whose}: the rows disagree by up to {by}; one more row would show which is wrong",
                whose,
                by = said(by)
            )
        }
        (None, Some(scatter)) => say!("{whose}: the rows scatter by {scatter}", whose, scatter = said(scatter)),
        (None, None) => say!("{whose}: residuals of the rows", whose),
    }
}
