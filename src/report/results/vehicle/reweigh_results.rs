//! Figures of the springs as fitted: predicted, found, and the difference.

use crate::base::language::tr;
use crate::base::units::Quantity;
use crate::report::results::collect::{CORNERS, Out};
use crate::report::results::row::{like, put, si};
use crate::report::results::{By, Say};
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
        one(out, &format!("weight.{key}"), tr(words), ["scale reading", formula], weight);
    }
    let formula = ["(right front + left rear) ÷ total", "(RF + LR) / m"];
    one(out, "cross_weight", tr("cross weight"), formula, &found.cross_weight);
    for ((key, words), arch) in CORNERS.into_iter().zip(&found.arch) {
        let convention = "hub centre to wheel arch, vehicle rolled back and forth and settled, loaded as weighed";
        one(out, &format!("arch.{key}"), tr(words), [convention, "arch before + z_before − z"], arch);
    }
}

fn one<Q: Quantity>(out: &mut Out, key: &str, words: &str, [convention, formula]: [&'static str; 2], again: &Again<Q>) {
    let said = |part: &str, name: &str, formula: &'static str, by: By| {
        let name = format!("{words}, {name}");
        like(format!("fitted.{key}.{part}"), name, Q::DIM, convention, formula, "DERIVED").by(by)
    };
    out.put(said("foretold", tr("predicted value, as fitted"), formula, By::Solving), si(again.foretold), None);
    out.put(said("found", tr("measured value, as fitted"), "as read", By::Reading), si(again.found), None);
    let difference = said("difference", tr("measured minus predicted"), "found − predicted", By::Formula);
    let with = || put!["found": again.found?, "predicted": again.foretold?];
    out.put(difference.say(Say::Signed).with(with), si(again.difference()), None);
    out.put(said("within", tr("tolerance"), "the shop's limit", By::Reading), si(again.within), None);
}
