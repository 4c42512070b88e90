//! Figures of the springs as fitted: predicted, found, and the difference.

use crate::base::language::tr;
use crate::base::units::{Dim, Quantity};
use crate::report::results::collect::{CORNERS, Out, like};
use crate::report::results::{By, Figure, Say};
use crate::solve::answer::{Again, Answer};

const AXLES: [(&str, &str); 2] = [("front", "front axle"), ("rear", "rear axle")];

/// All of them.
pub(in crate::report::results) fn add(out: &mut Out, answer: &Answer) {
    let found = &answer.reweigh;
    for ((key, words), weight) in CORNERS.into_iter().zip(&found.corners).chain(AXLES.into_iter().zip(&found.axles)) {
        let balanced = found.cross_set || answer.whole.corners.new.is_some();
        let formula = if weight.foretold.is_some() && balanced && key.len() == 2 {
            "four corners in balance"
        } else {
            "as weighed after the change"
        };
        one(out, &format!("weight.{key}"), tr(words), Dim::Mass, ["scale reading", formula], weight);
    }
    let formula = ["(right front + left rear) ÷ total", "(RF + LR) / m"];
    one(out, "cross_weight", tr("cross weight"), Dim::Ratio, formula, &found.cross_weight);
    for ((key, words), arch) in CORNERS.into_iter().zip(&found.arch) {
        let convention = "hub centre to wheel arch, vehicle rolled back and forth and settled, loaded as weighed";
        one(out, &format!("arch.{key}"), tr(words), Dim::Length, [convention, "arch before + z_before − z"], arch);
    }
}

fn one<Q: Quantity>(
    out: &mut Out,
    key: &str,
    words: &str,
    dim: Dim,
    [convention, formula]: [&'static str; 2],
    again: &Again<Q>,
) {
    let said = |part: &str, name: &str, formula: &'static str, by: By| Figure {
        by,
        ..like(&format!("fitted.{key}.{part}"), format!("{words}, {name}"), dim, convention, formula, "DERIVED")
    };
    let si = |q: Option<Q>| q.map(Quantity::si);
    out.put(said("foretold", tr("predicted value, as fitted"), formula, By::Solving), si(again.foretold), None);
    out.put(said("found", tr("measured value, as fitted"), "as read", By::Reading), si(again.found), None);
    let mut difference = said("difference", tr("measured minus predicted"), "found − predicted", By::Formula);
    difference.say = Say::Signed;
    difference.with = si(again.found)
        .zip(si(again.foretold))
        .map_or_else(Vec::new, |(found, foretold)| vec![("found", found, dim), ("predicted", foretold, dim)]);
    out.put(difference, si(again.difference()), None);
    out.put(said("within", tr("tolerance"), "the shop's limit", By::Reading), si(again.within), None);
}
