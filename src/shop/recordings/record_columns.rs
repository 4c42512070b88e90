//! What the columns of a recording mean, by their headers, in English, German, French and Spanish.

use crate::base::table::{folded, words};
use crate::base::units::G_M_PER_S2;
use crate::trade::recording::Signal;

/// The spellings of a unit, and its size in SI.
type Spelled = (&'static [&'static str], f64);

/// Units of time.
const TIMES: &[Spelled] = &[
    (&["s", "sec", "secs", "second", "seconds", "sekunden"], 1.0),
    (&["ms", "msec", "milliseconds", "millis"], 1e-3),
    (&["us", "µs", "μs", "microseconds"], 1e-6),
    (&["ns", "nanoseconds"], 1e-9),
    (&["min"], 60.0),
];
/// Units of acceleration.
const ACCELERATIONS: &[Spelled] = &[
    (&["m/s2", "m/s/s", "ms-2", "m s-2", "m*s-2", "mss", "mps2"], 1.0),
    (&["g", "g0", "gs"], G_M_PER_S2),
    (&["mg"], 1e-3 * G_M_PER_S2),
    (&["ft/s2"], 0.3048),
    (&["cm/s2"], 1e-2),
    (&["mm/s2"], 1e-3),
];
/// Units of displacement.
const LENGTHS: &[Spelled] =
    &[(&["m"], 1.0), (&["mm"], 1e-3), (&["cm"], 1e-2), (&["um", "µm"], 1e-6), (&["in"], 0.0254)];

/// What a user may name a unit of acceleration or displacement.
pub const MOTION_UNITS: &str = "m/s2, g, mg, ft/s2, mm, cm, m, in";
/// What a user may name a unit of time.
pub const TIME_UNITS: &str = "s, ms, us, ns, min";

/// Words of the time that hold neither "time" nor "zeit".
const TIME: &[&str] =
    &["t", "temps", "tiempo", "elapsed", "seconds", "clock", "epoch", "dt", "hora", "heure", "millis", "delta"];
/// Parts of words of acceleration.
const ACCELERATION: &[&str] = &["acc", "beschl", "acel", "gforce"];
/// Parts of words of displacement.
const DISPLACEMENT: &[&str] = &["displ", "weg", "hohe", "height", "deplac", "desplaz", "travel", "elongation"];
/// Parts of words of what is no motion along an axis.
const OTHER: &[&str] = &[
    "gyr", "rot", "omega", "mag", "angl", "winkel", "lat", "lon", "gps", "speed", "veloc", "geschw", "grav", "orient",
    "quat", "pitch", "roll", "yaw", "press", "temp", "abs", "total", "norm", "betrag", "count", "index", "sample",
];

/// What a unit measures, and its size in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct MotionUnit {
    pub signal: Signal,
    pub si: f64,
}

/// A unit of acceleration or displacement by its spelling.
pub(super) fn motion_unit(text: &str) -> Option<MotionUnit> {
    let of = |units, signal| size(units, text).map(|si| MotionUnit { signal, si });
    of(ACCELERATIONS, Signal::Acceleration).or_else(|| of(LENGTHS, Signal::Displacement))
}

/// A unit of time by its spelling, s.
pub(super) fn time_unit(text: &str) -> Option<f64> {
    size(TIMES, text)
}

/// The size in SI of the unit that is spelled so.
fn size(units: &[Spelled], text: &str) -> Option<f64> {
    units.iter().find(|(names, _)| names.contains(&text)).map(|(_, si)| *si)
}

/// A unit as people type it: small letters, "²" as "2".
pub(super) fn plain(text: &str) -> String {
    let mut plain = folded(text.trim());
    for (long, short) in [("s^2", "s2"), ("s**2", "s2"), ("s^-2", "s-2"), ("s⁻²", "s-2"), ("²", "2"), ("·", "*")] {
        plain = plain.replace(long, short);
    }
    plain
}

/// What one header says.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Means {
    /// The time: its unit, s, and whether each row holds the step since the row before.
    Time { unit: Option<f64>, steps: bool },
    /// A motion: the name without its axis, the axis (0 to 2) if it has one, the unit.
    Motion { stem: String, axis: Option<usize>, signal: Signal, unit: Option<f64> },
    /// Something else.
    Other,
}

/// A header of more bytes says nothing.
const LONGEST: usize = 400;

/// What a header says.
pub(super) fn means(header: &str) -> Means {
    if header.len() > LONGEST {
        return Means::Other;
    }
    let header = plain(header);
    let all = words(&header);
    let (name, unit) = name_and_unit(&all);
    let has = |parts: &[&str]| parts.iter().any(|part| name.contains(part));
    let is_time = all.iter().any(|w| TIME.contains(w)) || name.contains("time") || name.contains("zeit");
    if is_time && !has(ACCELERATION) {
        let steps = all.iter().any(|w| ["dt", "delta", "diff", "step"].contains(w)) || name.contains("delta");
        // "seconds_elapsed", "millis": the name is the unit.
        let unit = unit
            .as_deref()
            .and_then(time_unit)
            .or_else(|| all.iter().find_map(|w| time_unit(w).filter(|_| w.len() > 2)));
        return Means::Time { unit, steps };
    }
    if has(OTHER) && !has(ACCELERATION) {
        return Means::Other;
    }
    let measured = unit.as_deref().and_then(motion_unit);
    let axis = ["x", "y", "z"].iter().position(|letter| name.ends_with(letter));
    let bare = matches!(name.as_str(), "x" | "y" | "z" | "a" | "ax" | "ay" | "az" | "gfx" | "gfy" | "gfz");
    let upright = ["vertical", "vertikal", "up"].contains(&name.as_str());
    let signal = match measured {
        Some(unit) => unit.signal,
        None if has(DISPLACEMENT) => Signal::Displacement,
        None => Signal::Acceleration,
    };
    if !(bare || upright || has(ACCELERATION) || has(DISPLACEMENT) || measured.is_some()) {
        return Means::Other;
    }
    // "gFx": the name is the unit.
    let by_name = (name.starts_with("gf")).then_some(G_M_PER_S2);
    let stem = axis.map_or(name.as_str(), |_| &name[..name.len() - 1]).to_owned();
    Means::Motion { stem, axis, signal, unit: measured.map(|u| u.si).or(by_name) }
}

/// The words in front put together, and the unit that the last words spell.
fn name_and_unit(all: &[&str]) -> (String, Option<String>) {
    for count in (1..=all.len().saturating_sub(1).min(3)).rev() {
        let (name, ending) = all.split_at(all.len() - count);
        let spelled = ["/", " ", ""].map(|between| ending.join(between));
        let is_unit = |text: &&String| motion_unit(text).is_some() || time_unit(text).is_some();
        if let Some(unit) = spelled.iter().find(is_unit) {
            return (name.concat(), Some(unit.clone()));
        }
    }
    (all.concat(), None)
}

/// Which columns are read.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Layout {
    /// The column of the time.
    pub time: Option<TimeColumn>,
    /// One to three columns of motion.
    pub axes: Vec<usize>,
    pub signal: Signal,
    /// Size of their unit in SI.
    pub unit: Option<f64>,
    /// Other motions in the file, which are not read.
    pub ignored: Vec<usize>,
}

/// The column of the time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct TimeColumn {
    pub at: usize,
    pub unit: Option<f64>,
    pub steps: bool,
}

/// Which columns are read, by their headers: the first time, the motion with the most axes, acceleration before
/// displacement. `None` when no header says a motion.
pub(super) fn layout(headers: &[String]) -> Option<Layout> {
    let all: Vec<Means> = headers.iter().map(|h| means(h)).collect();
    let time = all.iter().enumerate().find_map(|(at, means)| match means {
        Means::Time { unit, steps } => Some(TimeColumn { at, unit: *unit, steps: *steps }),
        _ => None,
    });
    let mut groups: Vec<(String, Signal, Option<f64>, Vec<usize>)> = Vec::new();
    for (at, means) in all.iter().enumerate() {
        let Means::Motion { stem, axis, signal, unit } = means else { continue };
        let same = |g: &&mut (String, Signal, Option<f64>, Vec<usize>)| {
            axis.is_some() && g.0 == *stem && g.1 == *signal && g.3.len() < 3
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.3.push(at),
            None => groups.push((stem.clone(), *signal, *unit, vec![at])),
        }
    }
    let worth = |g: &(String, Signal, Option<f64>, Vec<usize>)| (g.1 == Signal::Acceleration, g.3.len());
    // The first of equals.
    let best = groups.iter().rev().max_by_key(|g| worth(g))?.clone();
    let ignored = groups.iter().filter(|g| **g != best).flat_map(|g| g.3.clone()).collect();
    Some(Layout { time, axes: best.3, signal: best.1, unit: best.2, ignored })
}
