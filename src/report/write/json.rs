//! Writes every result as JSON: name, value in SI, unit, convention.

use serde_json::{Map, Value, json};

use crate::base::sources;
use crate::base::units::Dim;
use crate::job::{Finding, Job, Mend, Side, Walk, bounded};
use crate::report::results::{self, Figure, Why};
use crate::report::sections::reweigh_table;
use crate::report::sections::sentence;
use crate::solve::answer::{Answer, CaseAnswer};

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

/// A finding, with the fields that each of its mends sets.
fn finding(f: &Finding) -> Value {
    let set = |m: &Mend| m.edits.iter().map(|(path, text)| (path.clone(), json!(text))).collect::<Map<_, _>>();
    let mends: Vec<Value> = f.mends.iter().map(|m| json!({"label": m.label, "set": set(m)})).collect();
    json!({"level": f.level.key(), "rule": f.rule, "field": f.field, "text": f.text, "mends": mends})
}

/// The version of what [`value`], choosing and runs write: it grows when a name changes or goes.
pub const VERSION: u32 = 2;

/// A result as JSON, the same wherever one stands.
fn result(figure: &Figure, is_blank: &mut dyn FnMut(&str) -> bool) -> Value {
    let with =
        figure.with.iter().map(|(symbol, si, dim)| json!({"symbol": symbol, "value": si, "unit": si_unit(*dim)}));
    let shares = figure.shares.iter().map(|(field, share)| json!({"field": field, "share": share}));
    let why = match &figure.why {
        Some(Why::Withheld) => json!({"reason": "withheld"}),
        Some(Why::Missing(fields)) => {
            let blank: Vec<&String> = fields.iter().filter(|f| is_blank(f.as_str())).collect();
            if blank.is_empty() { Value::Null } else { json!({"reason": "missing", "fields": blank}) }
        }
        None => Value::Null,
    };
    json!({
        "name": figure.key, "what": figure.name, "value": figure.si, "u": figure.u_si, "unit": si_unit(figure.dim),
        "convention": figure.convention, "formula": figure.formula, "with": with.collect::<Vec<_>>(),
        "by": figure.by.key(), "source": sources::cite(figure.source), "note": figure.note(), "why": why,
        "shares": shares.collect::<Vec<_>>(),
    })
}

/// Every result, whether it is known or not.
fn results(job: &Job, answer: &Answer) -> Vec<Value> {
    let mut read = bounded::used(job).into_owned();
    // A field that is not there, as a row of a list, is as blank as one with nothing in it.
    let mut is_blank = |path: &str| read.at_mut(path).is_none_or(|entry| entry.text().trim().is_empty());
    let one = |figure: Figure| {
        let mut value = result(&figure, &mut is_blank);
        value["assumed"] = json!(on_assumed_damper(answer, &figure.key));
        value
    };
    results::with_shares(answer).into_iter().map(one).collect()
}

/// The load cases by the key that their results begin with.
fn cases(answer: &Answer) -> Vec<Value> {
    let one = |c: &CaseAnswer| json!({"key": c.key(), "name": c.name, "sized": c.sized, "what_if": c.what_if});
    answer.cases.iter().map(one).collect()
}

/// The answer as one JSON object. A value that is not known is `null`, never zero.
pub fn value(job: &Job, answer: &Answer) -> Value {
    let results = results(job, answer);
    let findings: Vec<Value> = answer.findings.iter().map(finding).collect();
    let defaults: Vec<Value> = answer
        .defaults
        .iter()
        .map(|d| json!({"field": d.path, "value": d.text, "si": d.si, "assumed": true, "reason": d.reason}))
        .collect();
    let unmeasured: Vec<Value> =
        answer.unmeasured.iter().map(|u| json!({"field": u.path, "origin": u.origin.key()})).collect();
    let sentences: Vec<Value> = Side::BOTH
        .map(|side| {
            let said = sentence::axle(answer, answer.axle(side), &job.units);
            json!({"axle": side.key(), "answer": said.answer, "certainty": said.certainty})
        })
        .to_vec();
    let withheld = Side::BOTH.map(|side| answer.released(side).err().map_or_else(Vec::new, |r| r.rules()));
    json!({
        "program": "springwright", "version": env!("CARGO_PKG_VERSION"), "json_version": VERSION,
        "job_version": crate::job::file::VERSION, "cases": cases(answer),
        "vehicle": bounded::used(job).vehicle.name, "answer": sentences, "withheld": {"front": withheld[0], "rear": withheld[1]}, "results": results, "findings": findings, "defaults": defaults,
        "not_measured": unmeasured, "reweigh": reweigh_table::json(answer),
    })
}

/// A result rests on a damping ratio before that nobody measured: those of the old damper, and of rough roads before
/// it is replaced.
fn on_assumed_damper(answer: &Answer, key: &str) -> bool {
    let is_assumed = |side: Side| answer.axle(side).old_damper.as_ref().is_some_and(|old| old.is_assumed);
    let of_damper = ["old_damper", "old_hop_ratio", "old_at_wheel", "before.road.", "old_springs.road."];
    match Side::BOTH.into_iter().find(|side| key.split('.').next() == Some(side.key())) {
        Some(side) => is_assumed(side) && of_damper.iter().any(|part| key.contains(part)),
        None => key.contains("old_damping") && Side::BOTH.into_iter().any(is_assumed),
    }
}
