//! Every kind of spring, bag, bump stop and situation, as a whole job: the answer in plain text, word for word.
//!
//! For each `kinds/NAME.ron`, and for the shipped jobs named here, the answer stands in `kinds/NAME.txt`: per axle the
//! sentence and the figures that tell the kinds apart, in SI; then the findings. Run with `UPDATE=1` to write these
//! texts anew, then read every changed line. All vehicles are invented. Expected values are what the program gives;
//! the main ones were worked again by hand from the closed forms of the model and from numerical slopes.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::folders;
use crate::common::kept;
use crate::common::kept::of_folder;

use std::path::{Path, PathBuf};

use springwright::base::units::display::significant;
use springwright::job::{Finding, Job, Level, Side};
use springwright::report::results::as_json::si_unit;
use springwright::report::results::{Figure, figures};
use springwright::report::sections::sentence;
use springwright::solve::answer::Answer;

/// The shipped jobs that show a kind of spring.
const KINDS: [&str; 12] = [
    "bag-always",
    "beam-axle-lean",
    "cut-coils",
    "front-stiffer-than-rear",
    "leaf-by-sizes",
    "loose-at-droop",
    "lowering",
    "motion-ratio-varies",
    "no-before-weights-torsion-bar",
    "stop-touched-at-ride",
    "very-stiff",
    "wound-spring",
];
const SHIPPED: [&str; 7] = [
    "torsion-bar-front",
    "strut-front",
    "leaf-rear",
    "air-helper-bag",
    "helper-coil-over",
    "progressive-rear",
    "unknown-spring",
];

/// Parts of the keys of the figures that are written down.
const WRITTEN: [&str; 16] = [
    "motion_ratio",
    "ratio_slope",
    "roll_ratio",
    ".old_spring.",
    ".cut.",
    ".routes.",
    ".sizing.pick",
    ".sizing.bar.",
    ".sizing.free_length",
    ".sizing.spacer.",
    ".offered.rate",
    ".room.seat",
    ".room.to_bind",
    ".levelled.",
    ".added_leaf.",
    ".wound.",
];

/// And of those in each state.
const OF_EACH_STATE: [&str; 4] = ["frequency", "height_change", "wheel_rate", "reserve"];

fn is_written(key: &str) -> bool {
    let (state, last) = key.rsplit_once('.').unwrap_or_default();
    let standing = ["before", "old_springs", "new_springs"].iter().any(|s| state.ends_with(s));
    WRITTEN.iter().any(|part| key.contains(part)) || (standing && OF_EACH_STATE.contains(&last))
}

/// To so many figures, what only the solver's tolerance leaves as nothing.
fn number(value: f64, places: usize) -> String {
    if value.abs() < 1e-9 {
        return "0".to_owned();
    }
    let rounded: f64 = format!("{value:.*e}", places - 1).parse().expect("a number");
    significant(rounded, places)
}

fn line(f: &Figure) -> Option<String> {
    let value = number(f.si?, 5);
    let unit = si_unit(f.dim);
    let u = f.u_si.map(|u| number(u, 2)).filter(|u| u != "0").map_or(String::new(), |u| format!(" ± {u}"));
    Some(format!("{} = {value}{u} {unit}\n", f.key))
}

fn told(job: &Job, answer: &Answer, figures: &[Figure]) -> String {
    let mut out = String::new();
    for side in Side::BOTH {
        out += &format!("{}\n", sentence::axle(answer, answer.axle(side), &job.units).answer);
        let own = figures.iter().filter(|f| f.key.starts_with(side.key()) && is_written(&f.key));
        out.extend(own.filter_map(line));
        out += "\n";
    }
    let line = |f: &Finding| format!("{} {} {}: {}\n{}", f.level.word(), f.rule, f.field, f.text, folders::mends(f));
    out.extend(answer.findings.iter().map(line));
    out
}

/// Solved without errors, both axles answered, every number finite.
fn is_sound(name: &str, answer: &Answer, figures: &[Figure]) {
    let errors: Vec<_> = answer.findings.iter().filter(|f| f.level >= Level::Error).collect();
    assert!(errors.is_empty(), "{name}: {errors:?}");
    for axle in Side::BOTH.map(|side| answer.axle(side)).into_iter().filter(|a| a.masses.sprung.after.is_some()) {
        let (side, standing) = (axle.side.word(), &axle.standing);
        assert!(standing.old.is_some() && standing.new.is_some(), "{name}: {side} does not stand anywhere");
        assert!(
            axle.masses.sprung.before.is_none() || standing.before.is_some(),
            "{name}: {side} did not stand anywhere"
        );
    }
    for f in figures {
        let finite = f.si.is_none_or(f64::is_finite) && f.u_si.is_none_or(f64::is_finite);
        assert!(finite, "{name}: {} is {:?} ± {:?}", f.key, f.si, f.u_si);
    }
}

#[test]
fn every_kind_is_answered_as_expected() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kinds");
    let shipped = SHIPPED.iter().map(|name| (folder.join(format!("{name}.ron")), kept::named(name)));
    folders::holds_exactly("kinds", KINDS);
    let files = kept::in_folders(&["kinds"]).map(|kept| (PathBuf::from(&kept.name), kept));
    let mut differences = Vec::new();
    for (path, kept) in shipped.chain(files) {
        let answer = kept.answer();
        let figures = figures(answer);
        is_sound(&path.display().to_string(), answer, &figures);
        differences.extend(folders::differs(&path, &told(&kept.job, answer, &figures)));
    }
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

/// What each job is there to show is in its findings.
#[test]
fn each_situation_is_met() {
    for (name, rule) in [
        ("cut-coils", "cut"),
        ("loose-at-droop", "seat"),
        ("stop-touched-at-ride", "on-stop"),
        ("front-stiffer-than-rear", "rear-front"),
        ("no-before-weights-torsion-bar", "no-before"),
    ] {
        let answer = of_folder(&format!("kinds/{name}")).answer();
        assert!(answer.findings.iter().any(|f| f.rule == rule), "{name}: no {rule} among its findings");
    }
}
