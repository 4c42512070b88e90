//! Every kind of spring, bag, bump stop and situation, as a whole job: the answer in plain text, word for word.
//!
//! For each `kinds/NAME.ron`, and for the shipped jobs named here, the answer stands in `kinds/NAME.txt`: per axle the
//! sentence and the figures that tell the kinds apart, in SI; then the findings. Run with `UPDATE=1` to write these
//! texts anew, then read every changed line. All vehicles are invented. Expected values are what the program gives;
//! the main ones were worked again by hand from the closed forms of the model and from numerical slopes.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::common::folders;

use std::path::Path;

use springwright::base::units::display::significant;
use springwright::job::{Finding, Job, Level, Side, file};
use springwright::report::results::as_json::si_unit;
use springwright::report::results::{Figure, figures};
use springwright::report::sections::sentence;
use springwright::shop::presets;
use springwright::solve::answer::Answer;
use springwright::solve::solve;

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

fn told(job: &Job, answer: &Answer) -> String {
    let figures = figures(answer);
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
fn is_sound(name: &str, answer: &Answer) {
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
    for f in figures(answer) {
        let finite = f.si.is_none_or(f64::is_finite) && f.u_si.is_none_or(f64::is_finite);
        assert!(finite, "{name}: {} is {:?} ± {:?}", f.key, f.si, f.u_si);
    }
}

#[test]
fn every_kind_is_answered_as_expected() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kinds");
    let shipped = SHIPPED.iter().map(|name| {
        let preset = presets::find(name).expect("the job is shipped");
        (folder.join(format!("{name}.ron")), file::parse(preset.text).expect("the file is a job"))
    });
    folders::holds_exactly("kinds", KINDS);
    let files = folders::job_files("kinds").into_iter().map(|path| {
        let job = file::read(&path).expect("the file is a job");
        (path, job)
    });
    let mut differences = Vec::new();
    for (path, job) in shipped.chain(files) {
        let answer = solve(&job);
        is_sound(&path.display().to_string(), &answer);
        differences.extend(folders::differs(&path, &told(&job, &answer)));
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
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/kinds/{name}.ron"));
        let answer = solve(&file::read(&path).expect("the file is a job"));
        assert!(answer.findings.iter().any(|f| f.rule == rule), "{name}: no {rule} among its findings");
    }
}
