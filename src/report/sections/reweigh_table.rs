//! The vehicle weighed and measured again on the springs as fitted: predicted, found, accepted or not.

use serde_json::{Value, json};

use crate::base::language::tr;
use crate::base::units::{Length, Mass, Quantity, UnitChoice, display};
use crate::report::Block;
use crate::report::or_unknown;
use crate::say;
use crate::solve::answer::{Again, Answer};

/// Everything found after fitting, each with its key and its words.
struct Found<'a> {
    weights: Vec<(String, String, &'a Again<Mass>)>,
    heights: Vec<(String, String, &'a Again<Length>)>,
}

fn found(answer: &Answer) -> Found<'_> {
    let corners =
        [("lf", tr("Left front")), ("rf", tr("Right front")), ("lr", tr("Left rear")), ("rr", tr("Right rear"))];
    let axles = [("front", tr("Front axle")), ("rear", tr("Rear axle"))];
    let again = &answer.reweigh;
    let weights = corners.into_iter().zip(&again.corners).chain(axles.into_iter().zip(&again.axles));
    Found {
        weights: weights
            .filter(|(_, a)| a.found.is_some())
            .map(|((key, place), a)| (format!("fitted.weight.{key}"), say!("Weight, {place}", place), a))
            .collect(),
        heights: corners
            .into_iter()
            .zip(&again.arch)
            .filter(|(_, a)| a.found.is_some())
            .map(|((key, place), a)| (format!("fitted.arch.{key}"), say!("Hub to arch, {place}", place), a))
            .collect(),
    }
}

/// The table of what was found; nothing before anything was weighed or measured after fitting.
pub fn blocks(answer: &Answer, units: &UnitChoice) -> Vec<Block> {
    if !answer.reweigh.is_known() {
        return Vec::new();
    }
    let found = found(answer);
    let weights = found.weights.iter().map(|(_, what, again)| row(what, again, units));
    let heights = found.heights.iter().map(|(_, what, again)| row(what, again, units));
    let head = [tr("After fitting"), tr("predicted"), tr("tolerance"), tr("found")].map(str::to_owned).to_vec();
    let table = Block::Table { head, rows: weights.chain(heights).collect() };
    vec![Block::Heading(tr("Re-weigh").into()), table]
}

fn row<Q: Quantity>(what: &str, again: &Again<Q>, units: &UnitChoice) -> Vec<String> {
    let found = again.found.map_or_else(String::new, |f| display::rounded(f, units));
    let judged = match (again.inside(), again.difference()) {
        (Some(true), _) => say!("{found}, accepted", found),
        (Some(false), Some(off)) => {
            let sign = if off.si() > 0.0 { "+" } else { "−" };
            let off = format!("{sign}{}", display::rounded_si(off.si().abs(), Q::DIM, units));
            say!("{found}, off by {off}", found, off)
        }
        _ => found,
    };
    let within = or_unknown(again.within, |w| format!("± {}", display::rounded(w, units)));
    vec![what.to_owned(), or_unknown(again.foretold, |p| display::rounded(p, units)), within, judged]
}

/// The same as JSON, SI; an empty list before anything was weighed or measured after fitting.
pub fn json(answer: &Answer) -> Value {
    let found = found(answer);
    let weights = found.weights.iter().map(|(key, what, again)| one(key, what, again, "kg"));
    let heights = found.heights.iter().map(|(key, what, again)| one(key, what, again, "m"));
    weights.chain(heights).collect()
}

fn one<Q: Quantity>(key: &str, what: &str, again: &Again<Q>, unit: &str) -> Value {
    let si = |q: Option<Q>| q.map(Quantity::si);
    json!({
        "name": key, "what": what, "unit": unit, "predicted": si(again.foretold), "found": si(again.found),
        "difference": si(again.difference()), "tolerance": si(again.within), "accepted": again.inside(),
    })
}
