//! An answer as JSON: its findings, cases, plans and what leads, with every result.

use serde_json::{Map, Value, json};

use crate::base::units::Quantity;
use crate::job::{Finding, Job, Mend, Side};
use crate::report::results::{self, as_json};
use crate::report::sections::dampers_stay;
use crate::report::sections::reweigh_table;
use crate::report::sections::sentence;
use crate::solve::answer::{Answer, CaseAnswer, Lead, Raised};

/// A finding, with the fields that each of its mends sets.
fn finding(f: &Finding) -> Value {
    let set = |m: &Mend| m.edits.iter().map(|(path, text)| (path.clone(), json!(text))).collect::<Map<_, _>>();
    let mends: Vec<Value> = f.mends.iter().map(|m| json!({"label": m.label, "set": set(m)})).collect();
    json!({"level": f.level.key(), "rule": f.rule, "field": f.field, "text": f.text, "mends": mends})
}

/// The load cases by the key that their results begin with.
fn cases(answer: &Answer) -> Vec<Value> {
    let one = |c: &CaseAnswer| json!({"key": c.key(), "name": c.name, "sized": c.sized, "what_if": c.what_if});
    answer.cases.iter().map(one).collect()
}

/// What leads in place of an axle's new springs, or is measured first.
fn lead(lead: &Lead) -> Value {
    let (spacer, index) = match lead.raised {
        Some(Raised::Spacer(thickness)) => (Some(thickness.si()), None),
        Some(Raised::Index(index)) => (None, Some(index.si())),
        None => (None, None),
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
    let mut value = as_json::head(job, &results::with_steps(answer));
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
