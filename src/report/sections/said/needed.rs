//! What an axle's answer still needs, by the names of the fields, and what weights alone say until then.

use crate::base::language::{inside, tr};
use crate::base::units::{Quantity, UnitChoice, display};
use crate::job::{Plan, fields};
use crate::say;
use crate::solve::answer::{AxleAnswer, SameFactor};

/// What is needed for an answer, and what weights alone give until then, if it may be shown.
pub(in crate::report) fn unanswered(axle: &AxleAnswer, by_factor: Option<&SameFactor>, units: &UnitChoice) -> String {
    let side = axle.side.word();
    if axle.missing.is_empty() {
        return say!(
            "{side}: no answer can be calculated from these values. Correct the values marked as errors.",
            side
        );
    }
    let needed = words(axle);
    match by_factor.filter(|_| axle.plan == Plan::NewSprings).and_then(|f| same_factor(side.said(), f, units)) {
        Some(answer) => {
            say!(
                "{answer} Ride frequency, lengths and dampers are not known yet; still needed: {needed}.",
                answer,
                needed = needed
            )
        }
        None => say!("{side}: still needed for a first answer: {needed}.", side, needed = needed),
    }
}

/// What weights alone say of the spring, when nothing is known of how it moves; `None` when they did not change.
fn same_factor(side: &str, rule: &SameFactor, units: &UnitChoice) -> Option<String> {
    let factor = display::fixed(rule.factor.si(), 3);
    let rate = rule.spring_rate.map(|k| display::rounded(k, units));
    Some(match (rate, rule.exact) {
        (Some(rate), true) => say!(
            "{side}: a rate of {rate} (old rate × {factor}) with the old free length restores the old height and ride frequency.",
            side,
            rate,
            factor
        ),
        (Some(rate), false) => say!(
            "{side}: a rate of about {rate} (old rate × {factor}) with the old free length restores the old height and ride frequency.",
            side,
            rate,
            factor
        ),
        (None, _) => say!(
            "{side}: springs {factor} times as stiff as the old ones, with the same free length, restore the old height and ride frequency.",
            side,
            factor
        ),
    })
}

/// A field by its name on the screen.
fn named(path: &str) -> String {
    fields::by_path(path).map_or(String::new(), |(field, _)| format!("\"{}\"", field.label()))
}

/// What is missing, by the names of the fields.
pub(in crate::report) fn words(axle: &AxleAnswer) -> String {
    let needed: Vec<String> = axle
        .missing
        .iter()
        .map(|path| match path.rsplit_once('.') {
            Some((weighing, corner @ ("lf" | "lr"))) => say!(
                "the weights after the change ({left} and {right})",
                left = named(path),
                right = named(&format!("{weighing}.{}", corner.replace('l', "r")))
            ),
            Some((ratio, "wheel_moved")) => both(&[path.clone(), format!("{ratio}.part_moved")]),
            _ if path.contains("ratio.rows[") => tr("two or more rows of wheel travel and length").to_owned(),
            _ if path.contains("points[") => tr("two or more points of the progressive spring").to_owned(),
            _ if path.contains("leaf.rows[") => tr("two or more rows of the leaf spring test").to_owned(),
            _ => named(path),
        })
        .collect();
    let needed = listed(&needed);
    let instead: Vec<String> = axle.instead.iter().map(|fields| both(fields)).collect();
    match instead.is_empty() {
        true => needed,
        false => {
            say!("{needed} (any one of these replaces the old rate: {others})", needed, others = instead.join("; "))
        }
    }
}

/// What is missing, each in a word or two: "weights after, motion ratio".
pub(in crate::report) fn in_short(axle: &AxleAnswer) -> String {
    fields_in_short(&axle.missing)
}

/// Fields, each in a word or two.
pub(in crate::report) fn fields_in_short(paths: &[String]) -> String {
    let short = |path: &String| match path.rsplit_once('.') {
        Some(("after", _)) => tr("weights after the change").to_owned(),
        Some(("before", _)) => tr("weights before the change").to_owned(),
        Some((_, "wheel_moved" | "part_moved")) => tr("motion ratio").to_owned(),
        Some((_, "rate")) if path.ends_with(".spring.rate") => tr("old rate").to_owned(),
        _ if path.contains("rows[") || path.contains("points[") => tr("rows of the table").to_owned(),
        _ => fields::by_path(path).map_or(String::new(), |(field, _)| inside(field.label().said())),
    };
    let mut needed: Vec<String> = paths.iter().map(short).filter(|word| !word.is_empty()).collect();
    needed.dedup();
    needed.join(", ")
}

/// "\"Hub to arch before\" and \"Hub to arch after\"".
fn both(paths: &[String]) -> String {
    let named: Vec<String> = paths.iter().map(|path| when_weighed(path).unwrap_or_else(|| named(path))).collect();
    listed(&named)
}

/// The weights of an axle, not one corner of them.
fn when_weighed(path: &str) -> Option<String> {
    path.starts_with("before.").then(|| tr("the weights before the change").to_owned())
}

/// "a, b and c".
fn listed(items: &[String]) -> String {
    match items.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => say!("{rest} and {last}", last, rest = rest.join(", ")),
        None => String::new(),
    }
}
