//! Numbers rounded as a fitter would say them, and in full, with the decimal mark that is spoken.

use super::{Dim, Length, Quantity, Unit, UnitChoice};
use crate::base::bounds::Bound;
use crate::base::language::{MINUS, mark, no_sign_on_zero};
use crate::say;

const INCH_M: f64 = 0.0254;

/// The number and unit as a fitter would say them: `500 lb/in`, `1 1/8 in`, `28 mm`.
pub fn rounded<Q: Quantity>(quantity: Q, units: &UnitChoice) -> String {
    rounded_si(quantity.si(), Q::DIM, units)
}

/// As [`rounded`], for a value in SI of dimension `dim`.
pub fn rounded_si(si: f64, dim: Dim, units: &UnitChoice) -> String {
    rounded_in(si, units.unit(dim))
}

/// As [`rounded_si`], in a unit.
pub fn rounded_in(si: f64, unit: &Unit) -> String {
    with_unit(&rounded_number(si, unit), unit.symbol)
}

/// Six significant figures and the unit, for a hand check.
pub fn full_si(si: f64, dim: Dim, units: &UnitChoice) -> String {
    full_in(si, units.unit(dim))
}

/// As [`full_si`], in a unit.
pub fn full_in(si: f64, unit: &Unit) -> String {
    with_unit(&significant(si / unit.si, 6), unit.symbol)
}

/// The diameter of a wire or bar as it is sold, its size in the units shown behind it: `24.5 mm`, `23/32 in (0.719 in)`,
/// `0.669 in (17 mm)`.
pub fn as_sold(diameter: Length, units: &UnitChoice) -> String {
    as_sold_among(diameter.si(), units.unit(Dim::Length))
}

/// As [`as_sold`], of a diameter in metres, where lengths are shown in this unit.
pub fn as_sold_among(diameter_m: f64, lengths: &Unit) -> String {
    // Sizes that agree to this are the same, m.
    const SAME_M: f64 = 1e-7;
    let whole = |step_m: f64| ((diameter_m / step_m).round() * step_m - diameter_m).abs() < SAME_M;
    let (mm, inches) = (diameter_m / 1e-3, diameter_m / INCH_M);
    let thousandths = || format!("{} in", fixed(inches, 3));
    let shows_inches = lengths.symbol == "in";
    let sold_in_mm = || format!("{} mm", significant(mm, 6));
    match (whole(INCH_M / 64.0), whole(5e-5)) {
        (true, _) if shows_inches => format!("{} in ({})", fraction(inches, 64), thousandths()),
        (false, true) if shows_inches => format!("{} ({})", thousandths(), sold_in_mm()),
        (false, false) if shows_inches => format!("{} in", significant(inches, 4)),
        (_, true) => sold_in_mm(),
        (true, false) => format!("{} in ({} mm)", fraction(inches, 64), fixed(mm, 2)),
        (false, false) => format!("{} mm", significant(mm, 4)),
    }
}

/// A value with its standard uncertainty, both to the uncertainty's second figure: `37.42 ± 0.72 N/mm`.
///
/// Four significant figures without an uncertainty, or with one that does not matter ([`u_that_matters`]).
pub fn measured_si(si: f64, u_si: f64, dim: Dim, units: &UnitChoice) -> String {
    let unit = units.unit(dim);
    with_unit(&measured_number(si, u_si, unit), unit.symbol)
}

/// The number and its ± of [`measured_si`], without the unit.
pub fn measured_number(si: f64, u_si: f64, unit: &Unit) -> String {
    let value = si / unit.si;
    let Some(u) = u_that_matters(si, u_si, unit) else { return significant(value, 4) };
    let places = (1 - u.log10().floor() as i32).clamp(0, 6) as usize;
    let said = fixed(u, places);
    // Of what is this small nobody asks for the ±.
    if is_zero(&said) { significant(value, 4) } else { format!("{} ± {said}", fixed(value, places)) }
}

/// A number rounded to this number of figures, in front of its decimal mark too: 17,032 to two is 17,000.
pub fn to_figures(value: f64, figures: u32) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let step = 10f64.powi(value.abs().log10().floor() as i32 + 1 - figures as i32);
    (value / step).round() * step
}

/// A standard uncertainty in a unit; `None` when it is not known, none, or below a hundredth of the last place to which
/// the value is rounded: what a calculation leaves over is no uncertainty.
pub fn u_that_matters(si: f64, u_si: f64, unit: &Unit) -> Option<f64> {
    let u = u_si / unit.si;
    let number = rounded_number(si, unit);
    let last_place = match (unit.symbol, number.split_once(['.', ','])) {
        ("in", _) => 1.0 / 16.0,
        (_, Some((_, decimals))) => 0.1_f64.powi(decimals.len() as i32),
        (_, None) => 1.0,
    };
    (u.is_finite() && u >= 0.01 * last_place).then_some(u)
}

/// A value whose standard uncertainty is no more than a third of it. A difference that is not so is not determined: it
/// could as well be half or twice as much.
pub fn is_determined(si: f64, u_si: f64) -> bool {
    3.0 * u_si <= si.abs()
}

/// As [`rounded_si`], with its standard uncertainty to the same place: `1.34 ± 0.03 Hz`. A ± too small to be seen there
/// is left out.
pub fn rounded_with_u(si: f64, u_si: Option<f64>, dim: Dim, units: &UnitChoice) -> String {
    rounded_with_u_in(si, u_si, units.unit(dim))
}

/// As [`rounded_with_u`], in a unit.
pub fn rounded_with_u_in(si: f64, u_si: Option<f64>, unit: &Unit) -> String {
    with_unit(&number_with_u(si, u_si, unit), unit.symbol)
}

/// A change with its sign, its size rounded as [`rounded`]; none that rounds to nothing is below zero.
pub fn change_in(si: f64, unit: &Unit) -> String {
    let size = rounded_in(si.abs(), unit);
    let is_below = si < 0.0 && size != rounded_in(0.0, unit);
    format!("{}{size}", if is_below { MINUS } else { "+" })
}

/// The number and its ± of [`rounded_with_u`], without the unit.
pub fn number_with_u(si: f64, u_si: Option<f64>, unit: &Unit) -> String {
    let number = rounded_number(si, unit);
    let u = u_si.map(|u| u / unit.si);
    let u = match (unit.symbol, number.split_once(['.', ','])) {
        ("in", _) => u.map(sixteenths).filter(|u| u != "0").map_or(String::new(), |u| format!(" ± {u}")),
        (_, decimals) => plus_minus(u, decimals.map_or(0, |d| d.1.len())),
    };
    number + &u
}

/// " ± 0.03" to this number of places; nothing when it is not known or too small to be seen there.
pub fn plus_minus(u: Option<f64>, places: usize) -> String {
    let text = u.filter(|u| u.is_finite()).map(|u| fixed(u, places)).unwrap_or_default();
    if is_zero(&text) { String::new() } else { format!(" ± {text}") }
}

/// The value that [`rounded_number`] shows, in SI.
pub fn as_shown(si: f64, unit: &Unit) -> f64 {
    let shown = match unit.symbol {
        "in" => (16.0 * si / unit.si).round() / 16.0,
        _ => rounded_number(si, unit).replace(MINUS, "-").replace(',', ".").parse().unwrap_or(si / unit.si),
    };
    shown * unit.si
}

/// The number alone, rounded as [`rounded`], in `unit`.
pub fn rounded_number(si: f64, unit: &Unit) -> String {
    let value = si / unit.si;
    match (unit.dim, unit.symbol) {
        (Dim::Length, "in") => sixteenths(value),
        (Dim::Length, "mm") | (Dim::Mass, "kg" | "lb" | "g") => fixed(value, 0),
        (Dim::Length, "cm") | (Dim::Velocity, "km/h" | "mph" | "in/s" | "mm/s") => fixed(value, 1),
        (Dim::DamperSpeed, "mm/s") => fixed(value, 0),
        (Dim::DamperSpeed, "in/s") => fixed(value, 1),
        (Dim::DamperSpeed, _) => fixed(value, 2),
        (Dim::Frequency, "Hz") | (Dim::Ratio, "") | (Dim::Velocity, _) | (Dim::Acceleration, _) => fixed(value, 2),
        (Dim::Frequency, _)
        | (Dim::Force, "N" | "lbf" | "kgf")
        | (Dim::Stress, "MPa")
        | (Dim::Energy, "J" | "ft·lbf")
        | (Dim::Volume, "cm³") => fixed(value, 0),
        (Dim::Ratio, _) | (Dim::Angle, _) => fixed(value, 1),
        _ => significant(value, 3),
    }
}

/// Rounded to this number of significant figures, with the unit.
pub fn significant_with_unit(si: f64, figures: usize, unit: &Unit) -> String {
    with_unit(&significant(si / unit.si, figures), unit.symbol)
}

/// A number with the symbol of its unit behind it; a blank one leaves the number alone.
pub fn with_unit(number: &str, symbol: &str) -> String {
    match symbol {
        "" => number.to_owned(),
        "°" => format!("{number}°"),
        symbol => format!("{number} {symbol}"),
    }
}

/// A number to this number of places behind its decimal mark, never "-0".
pub fn fixed(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    mark(match text.strip_prefix('-') {
        Some(zero) if is_zero(zero) => zero.to_owned(),
        _ => text,
    })
}

/// A change: with its sign, none where it rounds to nothing.
pub fn signed(value: f64, places: usize) -> String {
    mark(no_sign_on_zero(format!("{value:+.places$}")))
}

fn is_zero(digits: &str) -> bool {
    digits.bytes().all(|b| matches!(b, b'0' | b'.' | b','))
}

/// A number of `figures` significant figures without trailing zeros behind the point.
pub fn significant(value: f64, figures: usize) -> String {
    // What a calculation leaves over is nothing.
    const NOTHING: f64 = 1e-12;
    if value.abs() < NOTHING || !value.is_finite() {
        return fixed(value, 0);
    }
    let magnitude = value.abs().log10().floor() as i32;
    let places = (figures as i32 - 1 - magnitude).max(0) as usize;
    let text = fixed(value, places);
    match text.contains(['.', ',']) {
        true => text.trim_end_matches('0').trim_end_matches(['.', ',']).to_owned(),
        false => text,
    }
}

/// Inches to the nearest sixteenth: `14 5/8`, `1/16`, `−3/4`.
pub fn sixteenths(inches: f64) -> String {
    fraction(inches, 16)
}

/// Inches to the nearest of this number of parts, a power of two.
fn fraction(inches: f64, parts: u64) -> String {
    if !inches.is_finite() || inches.abs() > 1e6 {
        return significant(inches, 6);
    }
    let total = (inches.abs() * parts as f64).round() as u64;
    let sign = if inches < 0.0 && total > 0 { MINUS } else { "" };
    let (whole, mut top, mut bottom) = (total / parts, total % parts, parts);
    while top != 0 && top % 2 == 0 {
        (top, bottom) = (top / 2, bottom / 2);
    }
    match (whole, top) {
        (w, 0) => format!("{sign}{w}"),
        (0, t) => format!("{sign}{t}/{bottom}"),
        (w, t) => format!("{sign}{w} {t}/{bottom}"),
    }
}

/// A length to the next step that a fitter would say (a sixteenth of an inch, a millimetre), up or down by `to`.
pub fn stepped(length: Length, units: &UnitChoice, to: fn(f64) -> f64) -> Length {
    // Room for rounding in the last digits.
    const SLACK: f64 = 1e-9;
    let unit = units.unit(Dim::Length);
    let step = unit.si
        * match unit.symbol {
            "in" => 1.0 / 16.0,
            "mm" => 1.0,
            "cm" => 0.1,
            _ => 0.001,
        };
    let count = length.si() / step;
    let whole = count.round();
    Length::from_si(if (count - whole).abs() < SLACK * count.abs() { whole } else { to(count) } * step)
}

/// "1 to 540 km/h": what a bound in SI allows, in a unit.
pub(crate) fn range(bound: &Bound, unit: &Unit) -> String {
    let [least, most] = [bound.least, bound.most].map(|si| significant(si / unit.si, 6));
    let symbol = if unit.symbol.is_empty() { String::new() } else { format!(" {}", unit.symbol) };
    if bound.least > 0.0 {
        say!("{least} to {most}{unit}", least, most, unit = symbol)
    } else {
        say!("up to {most}{unit}", most, unit = symbol)
    }
}
