//! Results as JSON: key, value in SI, unit, convention, formula and what is put into it.

use serde_json::{Value, json};

use super::{Figure, Why};
use crate::base::sources;
use crate::base::units::Dim;
use crate::job::{Job, Walk, bounded};

/// The coherent SI unit in which JSON gives a dimension.
pub fn si_unit(dim: Dim) -> &'static str {
    match dim {
        Dim::Mass => "kg",
        Dim::Length => "m",
        Dim::SpringRate => "N/m",
        Dim::DampingRate => "N·s/m",
        Dim::Frequency => "Hz",
        Dim::Ratio => "1",
        Dim::Velocity | Dim::DamperSpeed => "m/s",
        Dim::Force => "N",
        Dim::Pressure | Dim::Stress => "Pa",
        Dim::Angle => "rad",
        Dim::TwistRate => "N·m/rad",
        Dim::Area => "m²",
        Dim::Volume => "m³",
        Dim::Time => "s",
        Dim::Energy => "J",
        Dim::Acceleration => "m/s²",
        Dim::RatioSlope => "1/m",
    }
}

/// The version of what `solve`, choosing and runs write: it grows when a name changes or goes.
///
/// 3: `name` and `what` of a result became `key` and `label`; what is chosen and run is among results of the same
/// shape; of the re-weigh only what is accepted is added.
pub const VERSION: u32 = 3;

/// A result as JSON, the same wherever one is.
fn result(figure: &Figure, is_blank: &mut dyn FnMut(&str) -> bool) -> Value {
    let with =
        figure.with.iter().map(|(symbol, si, dim)| json!({"symbol": symbol, "value": si, "unit": si_unit(*dim)}));
    let shares = figure.shares().into_iter().map(|(field, share)| json!({"field": field, "share": share}));
    let why = match &figure.why {
        Some(Why::Withheld) => json!({"reason": "withheld"}),
        Some(Why::Told(text)) => json!({"reason": "not_done", "text": text}),
        Some(Why::Missing(fields)) => {
            let blank: Vec<&String> = fields.iter().filter(|f| is_blank(f.as_str())).collect();
            if blank.is_empty() { Value::Null } else { json!({"reason": "missing", "fields": blank}) }
        }
        None => Value::Null,
    };
    json!({
        "key": figure.key, "label": figure.name, "value": figure.si, "u": figure.u_si, "unit": si_unit(figure.dim),
        "convention": figure.convention, "formula": figure.formula, "with": with.collect::<Vec<_>>(),
        "by": figure.by.key(), "source": sources::cite(figure.source), "note": figure.note(), "why": why,
        "assumed": figure.assumed, "shares": shares.collect::<Vec<_>>(),
    })
}

/// What every command begins with: which program, which versions, whose job, and its results, whether they are known or
/// not.
pub fn head(job: &Job, figures: &[Figure]) -> Value {
    let mut read = bounded::used(job).into_owned();
    let vehicle = read.vehicle.name.clone();
    // A field that is not there, as a row of a list, is as blank as one with nothing in it.
    let mut is_blank = |path: &str| read.at_mut(path).is_none_or(|entry| entry.text().trim().is_empty());
    let results: Vec<Value> = figures.iter().map(|figure| result(figure, &mut is_blank)).collect();
    json!({
        "program": "springwright", "version": env!("CARGO_PKG_VERSION"), "json_version": VERSION,
        "job_version": crate::job::file::VERSION, "vehicle": vehicle, "results": results,
    })
}
