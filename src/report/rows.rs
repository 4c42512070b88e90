//! "Is the ratio constant?": length against wheel travel, what the rows leave over, and the wheel rate beneath.

use super::picture::{Axis, Dot, Line, Picture};
use crate::solve::answer::{AxleAnswer, Checked, State};
use crate::units::{Dim, Length, Quantity, UnitChoice, display};

const POINTS: usize = 40;
const TRAVEL: Axis = Axis { name: "wheel travel from the reference height, up is +", dim: Dim::Length };

/// The three pictures of the spring's rows; `None` when the ratio was not found by rows.
pub fn pictures(axle: &AxleAnswer, checked: &Checked, units: &UnitChoice) -> Option<[Picture; 3]> {
    let rows = checked.ratio_rows.as_ref()?;
    let travels = rows.points_m.iter().map(|p| p.0);
    let (low_m, high_m) = (travels.clone().fold(f64::MAX, f64::min), travels.fold(f64::MIN, f64::max));
    let along = |f: &dyn Fn(f64) -> f64| -> Vec<[f64; 2]> {
        let step_m = (high_m - low_m) / (POINTS - 1) as f64;
        (0..POINTS).map(|i| low_m + step_m * i as f64).map(|z| [z, f(z)]).collect()
    };
    let line = |state: Option<State>, label: &str, points| Line { state, label: label.to_owned(), points };
    let odd = rows.off.and_then(|(row, _)| row);
    let named = |i: usize| if odd == Some(i) { format!("row {}", i + 1) } else { String::new() };
    let fitted = along(&|z| rows.curve.length(Length::from_si(z)).si());
    let length = Picture {
        title: length_title(axle, checked, units),
        x: TRAVEL,
        y: Axis { name: "spring length", dim: Dim::Length },
        lines: vec![line(None, "fitted", fitted)],
        dots: rows.points_m.iter().enumerate().map(|(i, p)| Dot { at: [p.0, p.1], label: named(i) }).collect(),
        ..blank()
    };
    let left = rows.residuals_m.iter().zip(&rows.points_m).enumerate();
    let residuals = Picture {
        title: residual_title(axle, checked, units),
        x: TRAVEL,
        y: Axis { name: "left over", dim: Dim::Length },
        lines: vec![line(None, "", vec![[low_m, 0.0], [high_m, 0.0]])],
        dots: left.map(|(i, (r, p))| Dot { at: [p.0, *r], label: named(i) }).collect(),
        ..blank()
    };
    let mut rates = Vec::new();
    for (state, label) in [(State::OldSprings, "old spring"), (State::NewSprings, "new spring")] {
        if let Some(s) = axle.standing.of(state) {
            rates.push(line(Some(state), label, along(&|z| s.curve.rate_n_per_m(z))));
        }
    }
    let wheel_rate = Picture {
        title: format!("{}: the wheel rate over the travel measured", axle.side.word()),
        x: TRAVEL,
        y: Axis { name: "wheel rate", dim: Dim::SpringRate },
        lines: rates,
        ..blank()
    };
    Some([length, residuals, wheel_rate])
}

fn blank() -> Picture {
    Picture {
        title: String::new(),
        x: TRAVEL,
        y: TRAVEL,
        lines: Vec::new(),
        marks: Vec::new(),
        dots: Vec::new(),
        wanted: None,
        uprights: Vec::new(),
        ticks: Vec::new(),
    }
}

fn length_title(axle: &AxleAnswer, checked: &Checked, units: &UnitChoice) -> String {
    let r = axle.motion_ratio.map_or(0.0, Quantity::si);
    let u = checked.u_of(|a| a.motion_ratio.map(Quantity::si)).unwrap_or(0.0);
    let ratio = display::measured_si(r, u, Dim::Ratio, units);
    let who = axle.side.word();
    let slope = axle.ratio_slope.map_or(0.0, |s| s.value);
    let u = checked.u_of(|a| a.ratio_slope.map(|s| s.value)).unwrap_or(0.0);
    // A change within twice its uncertainty is none that was measured.
    match () {
        () if slope.abs() <= 2.0 * u => {
            format!("{who}: the spring moves {ratio} of the wheel; no change with travel is seen")
        }
        () if slope > 0.0 => format!("{who}: the spring moves {ratio} of the wheel, more in bump"),
        () => format!("{who}: the spring moves {ratio} of the wheel, less in bump"),
    }
}

fn residual_title(axle: &AxleAnswer, checked: &Checked, units: &UnitChoice) -> String {
    let who = axle.side.word();
    let rows = checked.ratio_rows.as_ref();
    let said = |l: Length| display::full_si((l.si() * 1e4).round() / 1e4, Dim::Length, units);
    match rows.map(|r| (r.off, r.scatter)) {
        Some((Some((Some(row), by)), _)) => {
            format!(
                "{who}: row {} is {} off the others; measure it again",
                row + 1,
                said(Length::from_si(by.si().abs()))
            )
        }
        Some((Some((None, by)), _)) => {
            format!(
                "{who}: the rows lie up to {} off; one more row would tell which",
                said(Length::from_si(by.si().abs()))
            )
        }
        Some((None, Some(scatter))) => format!("{who}: the rows scatter by {}", said(scatter)),
        _ => format!("{who}: what the rows leave over"),
    }
}
