//! The vehicle weighed and measured again on the springs as fitted: predicted, found, accepted or not.

use serde_json::{Value, json};

use crate::base::language::tr;
use crate::base::units::{Quantity, UnitChoice, display};
use crate::report::Block;
use crate::report::results::{CORNERS, Figure, Results};
use crate::say;
use crate::solve::answer::{Again, Answer};

/// What was found after fitting: its key, and whether it is accepted.
fn accepted(answer: &Answer) -> Vec<(String, Option<bool>)> {
    let corners = CORNERS.map(|(key, _)| key);
    let again = &answer.reweigh;
    let places = corners.into_iter().zip(&again.corners).chain(["front", "rear"].into_iter().zip(&again.axles));
    let weights = places.map(|(key, weight)| one(format!("fitted.weight.{key}"), weight));
    let heights = corners.into_iter().zip(&again.arch).map(|(key, arch)| one(format!("fitted.arch.{key}"), arch));
    weights.chain(heights).flatten().collect()
}

fn one<Q: Quantity>(key: String, again: &Again<Q>) -> Option<(String, Option<bool>)> {
    again.found.map(|_| (key, again.inside()))
}

/// The table of what was found; nothing before anything was weighed or measured after fitting.
pub fn blocks(answer: &Answer, results: &Results, units: &UnitChoice) -> Vec<Block> {
    if !answer.reweigh.is_known() {
        return Vec::new();
    }
    let rows = accepted(answer).into_iter().map(|(key, is_accepted)| row(results, &key, is_accepted, units)).collect();
    let head = [tr("After fitting"), tr("predicted"), tr("tolerance"), tr("measured")];
    vec![Block::Heading(tr("Re-weigh").into()), Block::table(head, rows)]
}

fn row(results: &Results, key: &str, is_accepted: Option<bool>, units: &UnitChoice) -> Vec<String> {
    let of = |part: &str| results.find(&format!("{key}.{part}"));
    let said = |part: &str| of(part).map_or_else(String::new, |figure| figure.said(units));
    let found = said("found");
    let judged = match is_accepted {
        Some(true) => say!("{found}, within tolerance", found),
        Some(false) => {
            let off = |figure: &Figure| {
                let (sign, size) = (if figure.si? > 0.0 { "+" } else { "−" }, figure.si?.abs());
                Some(format!("{sign}{}", display::rounded_si(size, figure.dim, units)))
            };
            say!("{found}, off by {off}", found, off = of("difference").and_then(off).unwrap_or_default())
        }
        None => found,
    };
    let within = match of("within").filter(|figure| figure.si.is_some()) {
        Some(figure) => format!("± {}", figure.said(units)),
        None => said("within"),
    };
    let place = match key.rsplit('.').next().unwrap_or_default() {
        "lf" => tr("Left front"),
        "rf" => tr("Right front"),
        "lr" => tr("Left rear"),
        "rr" => tr("Right rear"),
        "front" => tr("Front axle"),
        _ => tr("Rear axle"),
    };
    let what = match key.starts_with("fitted.arch") {
        true => say!("Hub to arch, {place}", place),
        false => say!("Weight, {place}", place),
    };
    vec![what, said("foretold"), within, judged]
}

/// Which of the results that were found are accepted; an empty list before anything was weighed or measured after fitting.
pub fn json(answer: &Answer) -> Value {
    accepted(answer).into_iter().map(|(key, is_accepted)| json!({ "key": key, "accepted": is_accepted })).collect()
}
