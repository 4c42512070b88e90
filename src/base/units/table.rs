//! The units the program accepts, with exact factors.
//!
//! Factors follow from five exact definitions (source `SP811`, appendix B.8):
//! 1 lb = 0.45359237 kg, 1 in = 25.4 mm, standard gravity 9.80665 m/s²,
//! 1 mile = 1609.344 m, 1 bar = 100 kPa. `uom`'s own pound-force is rounded at
//! the seventh digit, so it is not used.

use super::{Dim, G_M_PER_S2};
use crate::say;

const LB_KG: f64 = 0.453_592_37;
const IN_M: f64 = 0.025_4;
const LBF_N: f64 = LB_KG * G_M_PER_S2;

/// One unit: how it is written, what it measures, and its size in SI.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// The spelling shown on screen and in files.
    pub symbol: &'static str,
    /// Other spellings that are accepted.
    pub also: &'static [&'static str],
    /// What it measures.
    pub dim: Dim,
    /// Its size in the coherent SI unit.
    pub si: f64,
}

/// No size is NaN.
impl Eq for Unit {}

const fn unit(dim: Dim, symbol: &'static str, si: f64, also: &'static [&'static str]) -> Unit {
    Unit { symbol, also, dim, si }
}

/// Every accepted unit. The first of each dimension is its coherent or customary SI unit.
pub static UNITS: &[Unit] = &[
    unit(Dim::Mass, "kg", 1.0, &["kgs", "kilogram", "kilograms"]),
    unit(Dim::Mass, "lb", LB_KG, &["lbs", "lbm", "pound", "pounds", "#"]),
    unit(Dim::Mass, "g", 1e-3, &[]),
    unit(Dim::Mass, "t", 1e3, &["tonne"]),
    unit(Dim::Length, "mm", 1e-3, &[]),
    unit(Dim::Length, "in", IN_M, &["\"", "inch", "inches", "″", "”", "''"]),
    unit(Dim::Length, "cm", 1e-2, &[]),
    unit(Dim::Length, "m", 1.0, &[]),
    unit(Dim::Length, "ft", 12.0 * IN_M, &["foot", "feet"]),
    unit(Dim::SpringRate, "N/mm", 1e3, &["n/mm"]),
    unit(Dim::SpringRate, "lb/in", LBF_N / IN_M, &["lbf/in", "lbs/in", "lb/inch", "#/in"]),
    unit(Dim::SpringRate, "kN/m", 1e3, &["kn/m"]),
    unit(Dim::SpringRate, "N/m", 1.0, &["n/m"]),
    unit(Dim::SpringRate, "kgf/mm", 1e3 * G_M_PER_S2, &["kg/mm", "kp/mm"]),
    unit(Dim::DampingRate, "N·s/m", 1.0, &["Ns/m", "N s/m", "N*s/m", "N.s/m"]),
    unit(
        Dim::DampingRate,
        "lb·s/in",
        LBF_N / IN_M,
        &["lbf·s/in", "lb s/in", "lb*s/in", "lb.s/in", "lbs/(in/s)", "lb/(in/s)"],
    ),
    unit(Dim::DampingRate, "kN·s/m", 1e3, &["kNs/m", "kN s/m"]),
    unit(Dim::Frequency, "Hz", 1.0, &["hz", "1/s"]),
    unit(Dim::Frequency, "cpm", 1.0 / 60.0, &["/min", "1/min"]),
    unit(Dim::Ratio, "", 1.0, &[]),
    unit(Dim::Ratio, "%", 1e-2, &["percent"]),
    unit(Dim::Velocity, "m/s", 1.0, &[]),
    unit(Dim::Velocity, "km/h", 1.0 / 3.6, &["kph", "kmh"]),
    unit(Dim::Velocity, "mph", 1_609.344 / 3_600.0, &[]),
    unit(Dim::Velocity, "in/s", IN_M, &["ips"]),
    unit(Dim::Velocity, "mm/s", 1e-3, &[]),
    unit(Dim::DamperSpeed, "m/s", 1.0, &[]),
    unit(Dim::DamperSpeed, "mm/s", 1e-3, &[]),
    unit(Dim::DamperSpeed, "in/s", IN_M, &["ips"]),
    unit(Dim::Force, "N", 1.0, &["n"]),
    unit(Dim::Force, "lbf", LBF_N, &["lb", "lbs"]),
    unit(Dim::Force, "kN", 1e3, &["kn"]),
    unit(Dim::Force, "kgf", G_M_PER_S2, &["kp"]),
    unit(Dim::Pressure, "bar", 1e5, &[]),
    unit(Dim::Pressure, "psi", LBF_N / (IN_M * IN_M), &[]),
    unit(Dim::Pressure, "kPa", 1e3, &["kpa"]),
    unit(Dim::Pressure, "MPa", 1e6, &["mpa"]),
    unit(Dim::Angle, "°", std::f64::consts::PI / 180.0, &["deg", "degree", "degrees"]),
    unit(Dim::Angle, "rad", 1.0, &[]),
    unit(Dim::Stress, "MPa", 1e6, &["N/mm²", "N/mm2", "mpa"]),
    unit(Dim::Stress, "ksi", 1e3 * LBF_N / (IN_M * IN_M), &["kpsi"]),
    unit(Dim::Stress, "GPa", 1e9, &["gpa", "kN/mm²", "kN/mm2"]),
    unit(Dim::Stress, "Mpsi", 1e6 * LBF_N / (IN_M * IN_M), &["Msi"]),
    unit(Dim::Stress, "psi", LBF_N / (IN_M * IN_M), &[]),
    unit(Dim::TwistRate, "N·m/°", 180.0 / std::f64::consts::PI, &["Nm/°", "Nm/deg", "N·m/deg"]),
    unit(
        Dim::TwistRate,
        "lbf·ft/°",
        12.0 * LBF_N * IN_M * 180.0 / std::f64::consts::PI,
        &["lbf ft/°", "lb·ft/°", "lb-ft/deg", "lbf·ft/deg"],
    ),
    unit(Dim::TwistRate, "N·m/rad", 1.0, &["Nm/rad"]),
    unit(Dim::Area, "cm²", 1e-4, &["cm2"]),
    unit(Dim::Area, "in²", IN_M * IN_M, &["in2", "sq in", "sq.in."]),
    unit(Dim::Area, "mm²", 1e-6, &["mm2"]),
    unit(Dim::Area, "m²", 1.0, &["m2"]),
    unit(Dim::Volume, "cm³", 1e-6, &["cm3", "ccm", "cc", "ml"]),
    unit(Dim::Volume, "in³", IN_M * IN_M * IN_M, &["in3", "cu in", "cu.in."]),
    unit(Dim::Volume, "L", 1e-3, &["l", "dm³", "dm3"]),
    unit(Dim::Volume, "m³", 1.0, &["m3"]),
    unit(Dim::Time, "s", 1.0, &["sec", "seconds"]),
    unit(Dim::Time, "min", 60.0, &[]),
    unit(Dim::Energy, "J", 1.0, &["Nm"]),
    unit(Dim::Energy, "ft·lbf", 12.0 * LBF_N * IN_M, &["ft-lb", "ft·lb", "ft lb"]),
    unit(Dim::Energy, "kJ", 1e3, &[]),
    unit(Dim::Acceleration, "m/s²", 1.0, &["m/s2"]),
    unit(Dim::Acceleration, "ft/s²", 12.0 * IN_M, &["ft/s2"]),
    unit(Dim::RatioSlope, "1/m", 1.0, &["/m", "per m"]),
    unit(Dim::RatioSlope, "1/in", 1.0 / IN_M, &["/in", "per in"]),
];

/// The units of one dimension, in table order.
pub fn of(dim: Dim) -> impl Iterator<Item = &'static Unit> {
    UNITS.iter().filter(move |u| u.dim == dim)
}

/// The unit of `dim` that `text` spells, spelling forgiving, meaning not.
///
/// Exact spelling wins; a different case is then accepted where it is not
/// ambiguous (`KG`, `LB/IN`), so that `Mpa` is not read as something else.
pub fn find(dim: Dim, text: &str) -> Option<&'static Unit> {
    let spells = |u: &&Unit, eq: &dyn Fn(&str) -> bool| eq(u.symbol) || u.also.iter().any(|a| eq(a));
    of(dim).find(|u| spells(u, &|s| s == text)).or_else(|| {
        let mut loose = of(dim).filter(|u| spells(u, &|s| s.eq_ignore_ascii_case(text)));
        match (loose.next(), loose.next()) {
            (Some(only), None) => Some(only),
            _ => None,
        }
    })
}

/// Any unit of any dimension with this spelling, for messages about a wrong one.
pub fn find_any(text: &str) -> Option<&'static Unit> {
    UNITS.iter().find(|u| u.symbol == text || u.also.contains(&text)).filter(|u| !u.symbol.is_empty())
}

/// "kg, lb, g or t": the symbols of a dimension as a phrase.
pub fn phrase(dim: Dim) -> String {
    let symbols: Vec<&str> = of(dim).map(|u| u.symbol).filter(|s| !s.is_empty()).collect();
    match symbols.split_last() {
        Some((last, [])) => (*last).to_owned(),
        Some((last, rest)) => say!("{others} or {last}", others = rest.join(", "), last),
        None => String::new(),
    }
}
