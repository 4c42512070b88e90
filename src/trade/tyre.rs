//! What a tyre may carry: load index and inflation.

use crate::base::units::{Mass, Pressure, Quantity, Ratio};

/// The lowest load index of the table.
pub const LOWEST_INDEX: u32 = 70;
/// The highest one.
pub const HIGHEST_INDEX: u32 = LOWEST_INDEX + CAPACITY_KG.len() as u32 - 1;

/// Load capacity by load index from [`LOWEST_INDEX`] on, kg. Source `LI`; list C51.
const CAPACITY_KG: [f64; 57] = [
    335.0, 345.0, 355.0, 365.0, 375.0, 387.0, 400.0, 412.0, 425.0, 437.0, // 70
    450.0, 462.0, 475.0, 487.0, 500.0, 515.0, 530.0, 545.0, 560.0, 580.0, // 80
    600.0, 615.0, 630.0, 650.0, 670.0, 690.0, 710.0, 730.0, 750.0, 775.0, // 90
    800.0, 825.0, 850.0, 875.0, 900.0, 925.0, 950.0, 975.0, 1000.0, 1030.0, // 100
    1060.0, 1090.0, 1120.0, 1150.0, 1180.0, 1215.0, 1250.0, 1285.0, 1320.0, 1360.0, // 110
    1400.0, 1450.0, 1500.0, 1550.0, 1600.0, 1650.0, 1700.0, // 120
];

/// Capacity goes with inflation to this power below the reference. Practice puts it between 0.65 (light trucks) and 0.8
/// (cars); the higher one gives the lower load and is used for every tyre. Source `PRACTICE` (from memory; list C52).
pub const INFLATION_EXPONENT: f64 = 0.8;

/// What one tyre of a load index may carry at its reference inflation, kg. `None` outside the table (70 to 126).
/// Source `LI`.
///
/// ```
/// use springwright::trade::tyre::table_capacity;
/// use springwright::base::units::{Mass, Quantity};
/// assert_eq!(table_capacity(113), Some(Mass::from_si(1_150.0)));
/// assert_eq!(table_capacity(127), None);
/// ```
pub fn table_capacity(load_index: u32) -> Option<Mass> {
    let row = usize::try_from(load_index.checked_sub(LOWEST_INDEX)?).ok()?;
    CAPACITY_KG.get(row).copied().map(Mass::from_si)
}

/// A load index as typed, a plain number. `None` when it is not a whole number or not in the table.
pub fn load_index(typed: Ratio) -> Option<u32> {
    (LOWEST_INDEX..=HIGHEST_INDEX).find(|index| f64::from(*index) == typed.si())
}

/// What one tyre may carry at an inflation, kg: C (p/p_ref)^0.8 below the reference, never more than C above it.
///
/// Both are gauge pressures. Without a pressure the tyre counts as inflated to its reference. It holds for one tyre at
/// ordinary speed: for the highest speed symbols makers allow less, and twin tyres carry an index of their own.
/// `None` outside the table, without a reference to scale by, or for a pressure that is not a number.
/// Source `LI`; the exponent `PRACTICE` (from memory).
pub fn capacity(load_index: u32, pressure: Option<Pressure>, reference: Pressure) -> Option<Mass> {
    let full = table_capacity(load_index)?;
    let Some(pressure) = pressure else { return Some(full) };
    let share = pressure.si() / reference.si();
    let known = reference.si() > 0.0 && share.is_finite();
    known.then(|| full * share.clamp(0.0, 1.0).powf(INFLATION_EXPONENT))
}
