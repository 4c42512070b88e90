//! Writes every result as JSON: name, value in SI, unit, convention.

use serde_json::{Map, Value, json};

use crate::base::sources;
use crate::base::units::{Dim, Quantity};
use crate::job::{Finding, Job, Mend, Side, Walk, bounded};
use crate::report::results::{self, Figure, Why};
use crate::report::sections::dampers_stay;
use crate::report::sections::reweigh_table;
use crate::report::sections::sentence;
use crate::solve::answer::{Answer, CaseAnswer, Kept, Lead};

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

/// The load cases by the key that their results begin with.
fn cases(answer: &Answer) -> Vec<Value> {
    let one = |c: &CaseAnswer| json!({"key": c.key(), "name": c.name, "sized": c.sized, "what_if": c.what_if});
    answer.cases.iter().map(one).collect()
}

/// What leads in place of an axle's new springs, or is measured first.
fn lead(lead: &Lead) -> Value {
    let (spacer, index) = match lead.kept {
        Some(Kept::Spacers([each, _])) => (Some(each.si()), None),
        Some(Kept::Indexed([each, _])) => (None, Some(each.si())),
        None | Some(Kept::AddedLeaf { .. }) => (None, None),
    };
    json!({"remedy": lead.kind.key(), "spacer": spacer, "index": index, "measure_first": lead.measure})
}

/// The answer as one JSON object. A value that is not known is `null`, never zero.
pub fn value(job: &Job, answer: &Answer) -> Value {
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
            let dampers = dampers_stay::title(answer, side, &job.units);
            json!({"axle": side.key(), "answer": said.answer, "certainty": said.certainty, "dampers": dampers})
        })
        .to_vec();
    let withheld = Side::BOTH.map(|side| answer.released(side).err().map_or_else(Vec::new, |r| r.rules()));
    let mut value = head(job, &results::with_steps(answer));
    value["cases"] = cases(answer).into();
    value["answer"] = sentences.into();
    value["withheld"] = json!({"front": withheld[0], "rear": withheld[1]});
    let [front, rear] = Side::BOTH.map(|side| answer.lead(side).map(lead));
    value["lead"] = json!({"front": front, "rear": rear});
    value["findings"] = findings.into();
    value["defaults"] = defaults.into();
    value["not_measured"] = unmeasured.into();
    value["reweigh"] = reweigh_table::json(answer);
    value
}
