//! Masses of typical assemblies, to begin a ledger with. Common practice, no source: weigh the real part.

use super::Part;
use crate::base::language::tr;
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
    ("battery box, for each 10 kWh", 75.0, 20.0),
    ("charger and cables", 20.0, 8.0),
    ("manual gearbox with oil", 45.0, 15.0),
    ("automatic gearbox with fluid", 85.0, 20.0),
    ("transfer case", 42.0, 15.0),
    ("radiator with coolant", 14.0, 5.0),
    ("turbocharger with pipes and intercooler", 22.0, 8.0),
    ("exhaust, whole", 26.0, 10.0),
    ("starter battery", 18.0, 5.0),
    ("fuel tank, empty", 12.0, 5.0),
    ("fuel, for each 10 litres", 7.8, 0.6),
    ("winch with its mounting", 48.0, 15.0),
    ("steel bumper", 35.0, 15.0),
    ("hitch", 24.0, 8.0),
    ("roof rack or roof tent", 45.0, 25.0),
];

/// The typical part as a row, in the unit shown: a guess with its ±, its place still to be measured.
pub fn part(index: usize, units: &UnitChoice) -> Option<Part> {
    let (what, kg, plus_minus) = *TYPICAL.get(index)?;
    let unit = units.unit(Dim::Mass);
    let said = |kg: f64| display::significant_with_unit(kg, 3, unit);
    let mut part = Part { what: tr(what).to_owned(), ..Part::default() };
    part.mass.type_text(&said(kg), unit, DecimalMark::Point);
    part.mass.set_origin(Some(Origin::Guessed));
    part.mass.set_pm(&said(plus_minus), Spread::Limits);
    Some(part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_can_be_read_and_is_a_guess() {
        for i in 0..TYPICAL.len() {
            let part = part(i, &UnitChoice::pound_inch()).expect("a row");
            assert!(
                part.mass.number(DecimalMark::Point).is_ok_and(|n| n.is_some_and(|n| n.si() > 0.0)),
                "{}",
                part.what
            );
            assert_eq!(part.mass.origin(), Some(Origin::Guessed));
            assert!(part.mass.stated_si(100.0, DecimalMark::Point).is_some_and(|u| u > 0.0));
        }
        assert_eq!(part(TYPICAL.len(), &UnitChoice::metric()), None);
    }
}
