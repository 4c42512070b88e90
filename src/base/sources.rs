//! The published sources that formulas and checks cite, by key.

use crate::base::language::{Word, tr};

/// How far the source was seen by the authors of this program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// The formula or figure was read in a public text.
    Seen,
    /// Cited from memory; no original was at hand.
    FromMemory,
    /// Derived here; nothing was published.
    Derived,
}

impl Seen {
    /// The word printed with a citation.
    pub fn word(self) -> Word {
        match self {
            Seen::Seen => Word("seen"),
            Seen::FromMemory => Word("source not checked"),
            Seen::Derived => Word("derived here"),
        }
    }
}

/// One source.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// The key used in doc comments, reports and job files.
    pub key: &'static str,
    /// Who wrote it.
    pub author: &'static str,
    /// What it is called, with its edition.
    pub title: &'static str,
    /// The year of the edition meant.
    pub year: &'static str,
    /// How far it was seen.
    pub seen: Seen,
}

const fn source(
    key: &'static str,
    author: &'static str,
    title: &'static str,
    year: &'static str,
    seen: Seen,
) -> Source {
    Source { key, author, title, year, seen }
}

/// Every source, by key.
pub static SOURCES: &[Source] = &[
    source("DERIVED", "this project", "derived for this program, checked by a second route", "2026", Seen::Derived),
    source(
        "R8608",
        "ISO",
        "ISO 8608, Mechanical vibration: Road surface profiles, Reporting of measured data (table of classes)",
        "1995",
        Seen::Seen,
    ),
    source(
        "R2631",
        "ISO",
        "ISO 2631-1, Mechanical vibration and shock: Evaluation of human exposure to whole-body vibration (W_k and reactions as public texts quote them)",
        "1997",
        Seen::Seen,
    ),
    source(
        "96/53",
        "Council of the European Communities",
        "Directive 96/53/EC, annex II: damping D from successive amplitudes of a bounce",
        "1996",
        Seen::Seen,
    ),
    source(
        "AITKEN",
        "A. C. Aitken",
        "On least squares and linear combinations of observations, Proceedings of the Royal Society of Edinburgh 55, 42–48",
        "1935",
        Seen::FromMemory,
    ),
    source(
        "BENCH",
        "EUSAMA",
        "TS-02-76, suspension test on the vehicle (described in Klapka et al., Engineering Mechanics 2016, seen in abstract)",
        "-",
        Seen::FromMemory,
    ),
    source(
        "BF",
        "D. C. Barton, J. D. Fieldhouse",
        "Automotive Chassis Engineering, Springer, p. 174",
        "2018",
        Seen::Seen,
    ),
    source(
        "BHA",
        "V. B. Bhandari (attribution not checked)",
        "Design of Machine Elements, springs chapter, worked examples in a public textbook companion",
        "-",
        Seen::Seen,
    ),
    source(
        "BIRGE",
        "R. T. Birge",
        "The calculation of errors by the method of least squares, Physical Review 40, 207–227",
        "1932",
        Seen::FromMemory,
    ),
    source("DIX", "J. C. Dixon", "The Shock Absorber Handbook, 2nd ed.", "2007", Seen::FromMemory),
    source("DIX2", "J. C. Dixon", "Suspension Geometry and Computation, Wiley", "2009", Seen::FromMemory),
    source("EN", "CEN", "EN 13906-1, Cylindrical helical springs, compression springs", "2013", Seen::FromMemory),
    source("GIL", "T. D. Gillespie", "Fundamentals of Vehicle Dynamics, SAE", "1992", Seen::FromMemory),
    source(
        "GUM",
        "JCGM",
        "JCGM 100:2008, Guide to the expression of uncertainty in measurement",
        "2008",
        Seen::FromMemory,
    ),
    source(
        "GUM1",
        "JCGM",
        "JCGM 101:2008, Supplement 1 to the GUM: propagation of distributions by a Monte Carlo method",
        "2008",
        Seen::FromMemory,
    ),
    source("ISO8855", "ISO", "ISO 8855, Road vehicles, vehicle dynamics, vocabulary", "2011", Seen::FromMemory),
    source(
        "JIN",
        "U. C. Jindal (attribution not checked)",
        "Machine Design, springs chapter, worked examples in a public textbook companion",
        "-",
        Seen::Seen,
    ),
    source(
        "LI",
        "tyre standards (ETRTO, ISO 4000-1; attribution not checked)",
        "Load index and load capacity, table as publicly reproduced",
        "-",
        Seen::Seen,
    ),
    source(
        "LIFT",
        "public derivations (physicsforums.com, openbooks.link)",
        "Height of the centre of gravity from the load change when one axle is lifted",
        "-",
        Seen::Seen,
    ),
    source(
        "MH",
        "Industrial Press",
        "Machinery's Handbook, table of shear moduli as publicly reproduced",
        "-",
        Seen::Seen,
    ),
    source("MIL", "W. F. and D. L. Milliken", "Race Car Vehicle Dynamics, SAE", "1995", Seen::FromMemory),
    source(
        "PHASE",
        "Tsymberov",
        "SAE 960735, minimum phase angle between plate and tyre force (limit of 35° from secondary sources)",
        "1996",
        Seen::FromMemory,
    ),
    source("PRACTICE", "workshop practice", "common practice, no source", "-", Seen::FromMemory),
    source(
        "SHI",
        "R. G. Budynas, J. K. Nisbett",
        "Shigley's Mechanical Engineering Design, springs chapter",
        "2015",
        Seen::FromMemory,
    ),
    source(
        "SP811",
        "NIST",
        "SP 811, Guide for the Use of the International System of Units, appendix B.8",
        "2008",
        Seen::FromMemory,
    ),
];

/// The source with this key.
pub fn find(key: &str) -> Option<&'static Source> {
    SOURCES.iter().find(|s| s.key == key)
}

/// "T. D. Gillespie, Fundamentals of Vehicle Dynamics, SAE (1992), source not checked".
pub fn cite(key: &str) -> String {
    match find(key) {
        // No titles of somebody's, but words of this program.
        Some(s) if s.key == "PRACTICE" || s.seen == Seen::Derived => tr(s.title).to_owned(),
        Some(s) => format!("{}, {} ({}), {}", s.author, s.title, s.year, s.seen.word()),
        None => key.to_owned(),
    }
}
