//! A result as tables say it: rounded as a fitter would, with its ± as far as that is seen there.

use super::{Figure, Why};
use crate::base::language::tr;
use crate::base::units::{Dim, Length, Quantity, UnitChoice, display};
use crate::report::phrases::{height_or, upper_first};
use crate::say;

/// How a result is formatted in a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Say {
    /// Number, ± and unit: "1.34 ± 0.03 Hz".
    #[default]
    Plain,
    /// "28 ± 4 mm lower"; these words of one that stays.
    Height(&'static str),
    /// "23 ± 4 mm up".
    Beam,
    /// "0.84 ± 0.03 g".
    InG,
    /// In per cent, to this number of places.
    Percent(usize),
    /// With its sign: "+1118 mm", "−1.2 %".
    Signed,
    /// "12 mm too little" below zero.
    Lacking,
    /// As measured: value and ± to the second figure of that.
    Measured,
    /// A plain number to this number of places.
    Places(usize),
    /// Stop hits, by the kilometre or the mile.
    Hits,
    /// A diameter as it is sold.
    Sold,
    /// Six figures.
    Full,
    /// "× 1.23".
    Factor,
    /// "+2.5°".
    Turned,
    /// As a number is written: "7".
    Number,
    /// "once", "3 times".
    Times,
    /// "97 of 100".
    Chance,
    /// To two figures, either way: "± 1.2 N/mm".
    Either,
}

/// A mile, in kilometres. Source `SP811`.
const MILE_KM: f64 = 1.609_344;

impl Figure {
    /// What precedes it in a table.
    pub fn head(&self, units: &UnitChoice) -> String {
        let in_miles = self.say == Say::Hits && units.in_miles();
        upper_first(if in_miles { tr("bump stop hits per mile") } else { &self.label })
    }

    /// The value with its ±, or why there is none.
    pub fn said(&self, units: &UnitChoice) -> String {
        let (number, unit) = self.parts(units);
        match self.is_number() {
            true => display::with_unit(&number, unit) + &self.remark,
            false => number,
        }
    }

    /// The same without its unit and the text after it, for a table that gives the unit once.
    pub fn said_bare(&self, units: &UnitChoice) -> String {
        self.parts(units).0
    }

    /// The unit it is shown in; blank for a plain number or one among words, `None` where words stand instead.
    pub fn unit_said(&self, units: &UnitChoice) -> Option<&'static str> {
        self.is_number().then(|| self.parts(units).1)
    }

    /// Whether a value is shown, not a text in its place.
    fn is_number(&self) -> bool {
        self.is_determined() && self.instead.is_none() && self.si.is_some()
    }

    /// The text, and the unit after it.
    fn parts(&self, units: &UnitChoice) -> (String, &'static str) {
        let words = |said: &str| (said.to_owned(), "");
        if !self.is_determined() {
            return words(tr("not determined"));
        }
        match (self.instead, self.si, &self.why) {
            (Some(instead), ..) => words(instead),
            (None, Some(si), _) => self.value_parts(si, units),
            (None, None, Some(Why::Withheld)) => words(tr("withheld")),
            (None, None, _) => words(tr("not known")),
        }
    }

    /// It has a text: it is known, or words stand instead.
    pub fn is_told(&self) -> bool {
        self.si.is_some() || self.instead.is_some()
    }

    fn value_parts(&self, si: f64, units: &UnitChoice) -> (String, &'static str) {
        let (u, unit) = (self.u_si, units.unit(self.dim));
        let percent = |value: String, places| (value + &display::plus_minus(u.map(|u| 100.0 * u), places), "%");
        match self.say {
            Say::Plain => (display::number_with_u(si, u, unit), unit.symbol),
            Say::Height(stays) => (height_or(tr(stays), Length::from_si(si), u, units), ""),
            Say::Beam => (beam(si, u, units), ""),
            Say::InG => (display::fixed(si, 2) + &display::plus_minus(u, 2), "g"),
            Say::Percent(places) => percent(display::fixed(100.0 * si, places), places),
            Say::Signed if self.dim == Dim::Ratio => percent(display::signed(100.0 * si, 1), 1),
            Say::Signed => {
                let number = display::number_with_u(si, u, unit);
                let is_none = number == "0" || number.starts_with("0 ");
                (if si > 0.0 && !is_none { format!("+{number}") } else { number }, unit.symbol)
            }
            Say::Lacking if si < 0.0 => {
                (say!("{amount} too little", amount = display::rounded_with_u(-si, u, self.dim, units)), "")
            }
            Say::Lacking => (display::number_with_u(si, u, unit), unit.symbol),
            Say::Measured => (display::measured_number(si, u.unwrap_or(0.0), unit), unit.symbol),
            Say::Places(places) => (display::fixed(si, places) + &display::plus_minus(u, places), ""),
            Say::Hits => (hits(si, u, units), ""),
            Say::Sold => (display::as_sold(Length::from_si(si), units), ""),
            Say::Full => (display::significant(si / unit.si, 6), unit.symbol),
            Say::Factor => (format!("× {}{}", display::fixed(si, 2), display::plus_minus(u, 2)), ""),
            Say::Turned => {
                let u = display::plus_minus(u.map(f64::to_degrees), 1);
                (display::signed(si.to_degrees(), 1) + &u, "°")
            }
            Say::Number => (display::significant(si, 6), ""),
            Say::Times => (times(si), ""),
            Say::Chance => (chance(si), ""),
            Say::Either => (format!("± {}", display::significant(si / unit.si, 2)), unit.symbol),
        }
    }
}

/// "23 ± 4 mm up".
fn beam(shift_m: f64, u_m: Option<f64>, units: &UnitChoice) -> String {
    let text = display::rounded_with_u(shift_m.abs(), u_m, Dim::Length, units);
    match text.strip_prefix("0 ") {
        Some(u) if u.starts_with('±') => format!("{}, {u}", tr("unchanged")),
        Some(_) => tr("unchanged").to_owned(),
        None if shift_m > 0.0 => say!("{amount} up", amount = text),
        None => say!("{amount} down", amount = text),
    }
}

/// "0.83", "70", "less than 0.01": hits per kilometre, shown per kilometre or per mile.
fn hits(per_km: f64, u_per_km: Option<f64>, units: &UnitChoice) -> String {
    let distance_km = if units.in_miles() { MILE_KM } else { 1.0 };
    match per_km * distance_km {
        h if h < 0.01 => say!("less than {least}", least = display::fixed(0.01, 2)),
        h => {
            let places = if h < 1.0 { 2 } else { usize::from(h < 10.0) };
            display::fixed(h, places) + &display::plus_minus(u_per_km.map(|u| u * distance_km), places)
        }
    }
}

/// "once", "3 times".
fn times(count: f64) -> String {
    if count == 1.0 { tr("once").to_owned() } else { say!("{count} times", count = display::fixed(count, 0)) }
}

/// "97 of 100".
pub fn chance(share: f64) -> String {
    match (share * 100.0).round() {
        100.0 if share < 1.0 => tr("over 99 of 100").to_owned(),
        0.0 if share > 0.0 => tr("under 1 of 100").to_owned(),
        share => say!("{share:.0} of 100", share),
    }
}
