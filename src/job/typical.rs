//! Masses of typical assemblies, to begin a ledger with, and usual places of loads. Common practice, no source: weigh and
//! measure the real ones.

use super::{Load, Part};
use crate::base::language::{Word, with_mark, worded};
use crate::base::units::entry::AnyEntry;
use crate::base::units::{DecimalMark, Dim, Origin, Spread, UnitChoice, display};

/// What it is, kg, ± kg that surely holds most of them.
pub const TYPICAL: [(&str, f64, f64); 22] = [
    ("four-cylinder petrol engine, aluminium, dressed, with fluids", 125.0, 25.0),
    ("four-cylinder petrol engine, iron, dressed, with fluids", 160.0, 30.0),
    ("four-cylinder turbodiesel, dressed, with fluids", 195.0, 35.0),
    ("six-cylinder petrol engine, dressed, with fluids", 215.0, 45.0),
    ("eight-cylinder petrol engine, aluminium, dressed, with fluids", 235.0, 45.0),
    ("eight-cylinder petrol engine, iron, dressed, with fluids", 295.0, 50.0),
    ("electric motor with reduction gear and inverter", 95.0, 30.0),
    ("battery pack, per 10 kWh", 75.0, 20.0),
    ("charger and cables", 20.0, 8.0),
    ("manual gearbox with oil", 45.0, 15.0),
    ("automatic gearbox with fluid", 85.0, 20.0),
    ("transfer case", 42.0, 15.0),
    ("radiator with coolant", 14.0, 5.0),
    ("turbocharger with pipes and intercooler", 22.0, 8.0),
    ("exhaust system, complete", 26.0, 10.0),
    ("starter battery", 18.0, 5.0),
    ("fuel tank, empty", 12.0, 5.0),
    ("fuel, per 10 litres", 7.8, 0.6),
    ("winch with mounting", 48.0, 15.0),
    ("steel bumper", 35.0, 15.0),
    ("hitch", 24.0, 8.0),
    ("roof rack or roof tent", 45.0, 25.0),
];

/// The typical part as a row, in the unit shown: a guess with its ±, its place still to be measured.
pub fn part(index: usize, units: &UnitChoice) -> Option<Part> {
    let (what, kg, plus_minus) = *TYPICAL.get(index)?;
    let unit = units.unit(Dim::Mass);
    let said = |kg: f64| display::significant_with_unit(kg, 3, unit);
    let mut part = Part { what: Word(what).to_string(), ..Part::default() };
    part.mass.type_text(&said(kg), unit, DecimalMark::Point);
    part.mass.set_origin(Some(Origin::Guessed));
    part.mass.set_pm(&said(plus_minus), Spread::Limits);
    Some(part)
}

worded! {
    /// A usual place of a load.
    #[derive(Debug, Clone, Copy, PartialEq, Eq)]
    pub enum Place {
        /// Behind the wheel, on the left.
        Driver => Word("driver"),
        /// In front, on the right.
        Passenger => Word("passenger"),
        /// On the seats behind, in the middle.
        RearSeats => Word("rear seats"),
        /// Behind the rear axle.
        Boot => Word("boot"),
    }
}

/// Wheelbase of a usual car, m, for places in one whose own is not typed.
const USUAL_WHEELBASE_M: f64 = 2.6;

impl Place {
    /// Mass, kg; behind the front axle, share of the wheelbase; right of the middle, m. A person counts 75 kg (68 kg and
    /// 7 kg of luggage; ISO 2416, from memory), the rest is common practice, no source.
    fn usual(self) -> (f64, f64, f64) {
        match self {
            Place::Driver => (75.0, 0.5, -0.37),
            Place::Passenger => (75.0, 0.5, 0.37),
            Place::RearSeats => (150.0, 0.85, 0.0),
            Place::Boot => (50.0, 1.15, 0.0),
        }
    }

    /// A row with this load in the units shown: guesses with their ±, to be typed over. Places go by the wheelbase, m, or
    /// by that of a usual car.
    pub fn load(self, wheelbase_m: Option<f64>, units: &UnitChoice, mark: DecimalMark) -> Load {
        let (kg, share, y_m) = self.usual();
        let x_m = share * wheelbase_m.unwrap_or(USUAL_WHEELBASE_M);
        let mut load = Load { what: self.words().to_string(), ..Load::default() };
        let guess = |entry: &mut dyn AnyEntry, si: f64, pm_si: f64| {
            let unit = units.unit(entry.dim());
            let text = |si: f64| with_mark(display::significant_with_unit(si, 3, unit), mark);
            entry.type_text(&text(si), unit, mark);
            entry.set_origin(Some(Origin::Guessed));
            entry.set_pm(&text(pm_si), Spread::Limits);
        };
        guess(&mut load.mass, kg, 0.2 * kg);
        guess(&mut load.x, x_m, 0.25);
        guess(&mut load.y, y_m, 0.1);
        load
    }
}
