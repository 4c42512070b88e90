//! The catalogue of results: each once, with its key, label, quantity, convention, formula, numbers and source.
//!
//! JSON, the working, the tables on screen and on paper name keys of it and nothing else. To add a result, add a row.

pub mod as_json;
mod axles;
mod collect;
mod evaluate;
mod listed;
mod measured;
mod results_table;
mod row;
mod said;
mod vehicle;

use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::base::language::tr;
use crate::base::units::{Dim, display};
use crate::job::Side;
use crate::solve::answer::{self, Answer};
pub(in crate::report) use axles::routes_words;
pub use collect::CORNERS;
use collect::{Out, Wants};
pub use evaluate::evaluate;
pub use listed::{choice, damper_name, dampers_of_list, spring_name, what_again};
pub use measured::{plate_runs, recorded};
pub use results_table::{Column, Results, before_after, head, of_states, row, row_called};
pub use said::{Say, chance};
pub use vehicle::{corners_key, runs};

/// A symbol of a formula with the number put in for it, SI.
pub type Substitution = (&'static str, f64, Dim);

/// How a result comes about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// Its formula, with the numbers put in next to it.
    Formula,
    /// It was read off a table or a curve, typed or named: no numbers are put in.
    Reading,
    /// Step by step until it holds: the formula says what does.
    Solving,
    /// Sought among what is sold.
    Seeking,
}

impl By {
    /// The key in JSON.
    pub fn key(self) -> &'static str {
        match self {
            By::Formula => "formula",
            By::Reading => "reading",
            By::Solving => "solving",
            By::Seeking => "seeking",
        }
    }
}

/// Why a result is not known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// Its axle is withheld.
    Withheld,
    /// These fields are missing, by path.
    Missing(Vec<String>),
    /// In words: nothing could be chosen, or no run was made.
    Told(String),
}

/// One result.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Its path among the results: `front.old_springs.frequency`.
    pub key: String,
    /// What it is, in words: of what, and its label.
    pub name: String,
    /// What precedes it in a table.
    pub label: Cow<'static, str>,
    /// The label of the whole band, of one of its ends.
    pub band: Option<Cow<'static, str>>,
    /// The value in the coherent SI unit; `None` when not known.
    pub si: Option<f64>,
    /// Its standard uncertainty, SI, from the ± of every field it depends on; `None` when none has one.
    pub u_si: Option<f64>,
    /// What it measures.
    pub dim: Dim,
    /// Sign, place and reference of the value.
    pub convention: &'static str,
    /// The formula, in symbols.
    pub formula: &'static str,
    /// The numbers put into the formula; none where it is not evaluated by it.
    pub with: Vec<Substitution>,
    /// Key into [`crate::base::sources::SOURCES`].
    pub source: &'static str,
    /// How it comes about.
    pub by: By,
    /// How a table says it.
    pub say: Say,
    /// What a table says in place of the value.
    pub instead: Option<&'static str>,
    /// What a table says behind the value: ", extrapolated".
    pub remark: String,
    /// It rests on a damping ratio before that was not measured.
    pub assumed: bool,
    /// Why it is not known, if there is a text for it.
    pub why: Option<Why>,
    /// The part of the answer that it belongs to is there.
    pub is_there: bool,
    /// How far it moves for one standard uncertainty of each field that moves it, by path, SI; only
    /// with [`with_steps`].
    pub steps: Vec<(String, f64)>,
}

impl Figure {
    /// False for a difference whose ± is over a third of it; see [`display::is_determined`].
    pub fn is_determined(&self) -> bool {
        let differs = self.key.starts_with("whole.flat_ride_speed.") || self.key.ends_with(".node");
        !differs || self.si.zip(self.u_si).is_none_or(|(si, u)| display::is_determined(si, u))
    }

    /// What is shown with the value; `None` for most.
    pub fn note(&self) -> Option<&'static str> {
        (!self.is_determined()).then(|| tr(NOT_DETERMINED))
    }

    /// Which field brings how much of its variance, by path, largest first, from a hundredth on; empty unless made with
    /// [`with_steps`].
    pub fn shares(&self) -> Vec<(&str, f64)> {
        const LEAST: f64 = 0.01;
        let shares = answer::shares(self.steps.iter().map(|(path, step)| (path.as_str(), Some(*step))));
        shares.into_iter().filter(|(_, share)| *share >= LEAST).collect()
    }

    /// Its formula worked out with the numbers put in; `None` when there are none.
    pub fn evaluated(&self) -> Option<f64> {
        let with: Vec<(&str, f64)> = self.with.iter().map(|(symbol, value, _)| (*symbol, *value)).collect();
        evaluate(self.formula, &with).filter(|_| !with.is_empty())
    }
}

/// Why a result that has a value is not shown.
pub const NOT_DETERMINED: &str = "Not determined: the ± is more than a third of the value. The value depends on a small difference between front and rear; measure both more accurately.";

/// Every result of an answer, in the order of the work. Which there are does not hang on what is known, but on the
/// job's load cases alone.
pub fn figures(answer: &Answer) -> Vec<Figure> {
    collected(answer, Wants::Spreads)
}

/// The same, each with how far the fields move it.
pub fn with_steps(answer: &Answer) -> Vec<Figure> {
    collected(answer, Wants::Steps)
}

/// The same of the results with these keys alone, as far as they are there.
pub fn some_with_steps(answer: &Answer, keys: &[String]) -> Vec<Figure> {
    let mut collected: BTreeMap<usize, Vec<Figure>> = BTreeMap::new();
    let mut found = |key: &String| {
        parts_with(key).find_map(|at| {
            let part = collected.entry(at).or_insert_with(|| PARTS[at].collect(answer, Out::with_steps_of(keys)));
            part.iter().find(|figure| figure.key == *key).cloned()
        })
    };
    keys.iter().filter_map(&mut found).collect()
}

fn collected(answer: &Answer, wants: Wants) -> Vec<Figure> {
    PARTS.iter().flat_map(|part| part.collect(answer, Out::new(wants))).collect()
}

/// Some of the results, collected together when the first of them is needed.
struct Part {
    /// What their keys begin with, of an axle behind its own name.
    keys: &'static [&'static str],
    add: Adding,
}

/// What adds them.
enum Adding {
    OfVehicle(fn(&mut Out, &Answer)),
    OfAxle(Side, fn(&mut Out, &Answer, Side)),
}

/// Some of an axle: what their keys begin with behind its name, and what adds them.
type OfAxle = (&'static [&'static str], fn(&mut Out, &Answer, Side));

/// Every result of an axle, in the order of the work, but for remedies and roads.
const PARTS_OF_AXLE: [OfAxle; 5] = [
    (&[""], axles::standing),
    (&["linkage."], axles::linkage),
    (
        &["old_spring.", "bar.", "cut.", "routes.", "sizing.", "offered.", "wound.", "levelled.", "added_leaf."],
        axles::springs,
    ),
    (&["old_damper.", "damping.", "new_damper."], axles::dampers),
    (&["body_mode.", "bounce.", "bench."], axles::measured),
];

/// All of them, in the order of the work: what the scales say, each axle, all else.
const PARTS: [Part; 21] = [
    of_vehicle(&["before.", "after.", "change."], vehicle::weights),
    of_axle(Side::Front, PARTS_OF_AXLE[0]),
    of_axle(Side::Front, PARTS_OF_AXLE[1]),
    of_axle(Side::Front, PARTS_OF_AXLE[2]),
    of_axle(Side::Front, PARTS_OF_AXLE[3]),
    of_axle(Side::Front, PARTS_OF_AXLE[4]),
    of_axle(Side::Rear, PARTS_OF_AXLE[0]),
    of_axle(Side::Rear, PARTS_OF_AXLE[1]),
    of_axle(Side::Rear, PARTS_OF_AXLE[2]),
    of_axle(Side::Rear, PARTS_OF_AXLE[3]),
    of_axle(Side::Rear, PARTS_OF_AXLE[4]),
    of_vehicle(&["whole.rear_over_front.", "whole.flat_ride_speed."], vehicle::front_and_rear),
    of_vehicle(&["compared.", "ledger.", "as_weighed.", "cases["], vehicle::loads),
    of_axle(Side::Front, (&["remedies."], vehicle::remedies)),
    of_axle(Side::Rear, (&["remedies."], vehicle::remedies)),
    of_vehicle(&["whole."], vehicle::whole),
    of_vehicle(&["whole.corners.", "whole.levelling.", "as_weighed.", "cases["], vehicle::corners),
    of_vehicle(&["fitted."], vehicle::reweigh),
    of_axle(Side::Front, ON_ROAD),
    of_axle(Side::Rear, ON_ROAD),
    of_vehicle(&["drive."], vehicle::drives),
];

const ON_ROAD: OfAxle = (&["before.road.", "old_springs.road.", "new_springs.road."], vehicle::road);

const fn of_vehicle(keys: &'static [&'static str], add: fn(&mut Out, &Answer)) -> Part {
    Part { keys, add: Adding::OfVehicle(add) }
}

const fn of_axle(side: Side, (keys, add): OfAxle) -> Part {
    Part { keys, add: Adding::OfAxle(side, add) }
}

impl Part {
    /// How many letters of a key tell that it can be here; nothing if it cannot.
    fn begins(&self, key: &str) -> Option<usize> {
        let key = match self.add {
            Adding::OfVehicle(_) => key,
            Adding::OfAxle(side, _) => key.strip_prefix(side.key())?.strip_prefix('.')?,
        };
        self.keys.iter().filter(|begin| key.starts_with(**begin)).map(|begin| begin.len()).max()
    }

    fn collect(&self, answer: &Answer, mut out: Out) -> Vec<Figure> {
        match self.add {
            Adding::OfVehicle(add) => add(&mut out, answer),
            Adding::OfAxle(side, add) => add(&mut out, answer, side),
        }
        for figure in &mut out.figures {
            figure.assumed = is_on_assumed_damper(answer, &figure.key);
        }
        out.figures
    }
}

/// The places in [`PARTS`] where a result of this key can be, the likeliest first.
fn parts_with(key: &str) -> impl Iterator<Item = usize> {
    let mut found: Vec<(usize, usize)> =
        PARTS.iter().enumerate().filter_map(|(at, part)| Some((part.begins(key)?, at))).collect();
    found.sort_by_key(|(letters, _)| std::cmp::Reverse(*letters));
    found.into_iter().map(|(_, at)| at)
}

/// A result rests on a damping ratio before that was not measured: those of the old damper, and of rough roads before
/// it is replaced.
fn is_on_assumed_damper(answer: &Answer, key: &str) -> bool {
    let is_assumed = |side: Side| answer.axle(side).old_damper.as_ref().is_some_and(|old| old.is_assumed);
    let of_damper = [
        "old_damper",
        "old_hop_ratio",
        "old_at_wheel",
        "before.road.",
        "old_springs.road.",
        "bench.before.",
        "bench.old_springs.",
        "body_mode.before.",
        "body_mode.old_springs.",
    ];
    match Side::BOTH.into_iter().find(|side| key.split('.').next() == Some(side.key())) {
        Some(side) => is_assumed(side) && of_damper.iter().any(|part| key.contains(part)),
        None => key.contains("old_damping") && Side::BOTH.into_iter().any(is_assumed),
    }
}
