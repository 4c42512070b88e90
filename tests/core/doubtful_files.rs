//! Jobs that can be solved but make a good engineer ask: every finding, word for word.
//!
//! For each `doubtful/NAME.ron` the findings stand in `doubtful/NAME.txt`, worst first, as `LEVEL rule field: text`,
//! each with what mends it below.
//! Run with `UPDATE=1` to write these texts anew, then read every changed line. All vehicles are invented; they differ
//! from `nothing-doubtful.ron`, which has no findings, in what their name says.
#![allow(clippy::expect_used, reason = "a test says why it stops")]

use crate::architecture::source_files;
use crate::common::folders;
use crate::common::kept;
use crate::common::kept::of_folder;

use std::collections::BTreeSet;
use std::path::Path;

use springwright::job::{Finding, Job, Level, Side};
use springwright::solve::answer::Answer;
use springwright::solve::solve;

fn findings(answer: &Answer) -> String {
    let line = |f: &Finding| format!("{} {} {}: {}\n{}", f.level.word(), f.rule, f.field, f.text, folders::mends(f));
    answer.findings.iter().map(line).collect()
}

fn named(name: &str) -> (&'static Job, &'static Answer) {
    let kept = of_folder(&format!("doubtful/{name}"));
    (&kept.job, kept.answer())
}

#[test]
fn every_doubtful_job_is_solved_and_questioned_as_expected() {
    let mut differences = Vec::new();
    for kept in kept::in_folders(&["doubtful"]) {
        let (name, answer) = (&kept.name, kept.answer());
        assert!(answer.axle(Side::Front).sizing.is_some(), "{name}: the front axle is not sized");
        assert!(answer.findings.iter().all(|f| f.level != Level::Error), "{name}: doubtful, not wrong");
        assert!(answer.findings.windows(2).all(|w| w[0].level >= w[1].level), "{name}: worst first");
        differences.extend(folders::differs(Path::new(name), &findings(answer)));
    }
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

/// What each file is there to show. It is named after the rule, or after what is wrong with it.
const SHOWN: [(&str, Level, &str); 132] = [
    ("language-unknown", Level::Note, "language"),
    ("geometry-large", Level::Doubt, "geometry-large"),
    ("sinks-through", Level::Doubt, "sinks-through"),
    ("list-outside", Level::Doubt, "list-outside"),
    ("taken-outside", Level::Doubt, "taken-outside"),
    ("corners-not-solved", Level::Doubt, "corners-not-solved"),
    ("lean-without-height", Level::Note, "lean-without-height"),
    ("roll-range", Level::Doubt, "roll-range"),
    ("bench-left-right", Level::Doubt, "bench-left-right"),
    ("bench-off", Level::Note, "bench-off"),
    ("bounce-damping", Level::Doubt, "bounce-damping"),
    ("bounce-frequency", Level::Doubt, "bounce-frequency"),
    ("bench-light-axle", Level::Note, "bench-light-axle"),
    ("linkage-locks", Level::Doubt, "linkage-locks"),
    ("ratio-ways-apart", Level::Doubt, "ratio-ways-apart"),
    ("points-not-at-ride-height", Level::Doubt, "points-not-at-ride-height"),
    ("ratio-upside-down", Level::Withheld, "ratio-upside-down"),
    ("ratio-squared", Level::Doubt, "ratio-squared"),
    ("ratio-unusual", Level::Doubt, "ratio-unusual"),
    ("ratio-unconfirmed", Level::Doubt, "ratio-unconfirmed"),
    ("ratio-contradicted", Level::Withheld, "ratio-contradicted"),
    ("left-right", Level::Doubt, "left-right"),
    ("cross-weight", Level::Doubt, "cross-weight"),
    ("frequency", Level::Withheld, "frequency"),
    ("frequency-low", Level::Withheld, "frequency"),
    ("unit-factor", Level::Withheld, "routes-disagree"),
    ("lengths-contradict", Level::Withheld, "lengths-contradict"),
    ("routes-disagree", Level::Withheld, "routes-disagree"),
    ("unusual-value", Level::Doubt, "unusual"),
    ("number-read-one-way", Level::Note, "read-as"),
    ("aboard-differs", Level::Doubt, "aboard"),
    ("seat-loose", Level::Doubt, "seat"),
    ("seat-little", Level::Doubt, "seat"),
    ("bind", Level::Doubt, "bind"),
    ("damper-soft", Level::Doubt, "damper-soft"),
    ("damper-stiff", Level::Doubt, "damper-stiff"),
    ("damper-is-the-stop", Level::Doubt, "damper-closed"),
    ("damper-is-the-stop", Level::Doubt, "damper-open"),
    ("damper-little-left", Level::Doubt, "damper-closed"),
    ("damper-little-left", Level::Doubt, "damper-open"),
    ("near-rating", Level::Doubt, "near-rating"),
    ("over-rating", Level::Stop, "over-rating"),
    ("no-before-weights", Level::Note, "no-before"),
    ("axle-weighed-twice", Level::Doubt, "axle-twice"),
    ("unsprung-large", Level::Doubt, "unsprung-share"),
    ("on-the-stop", Level::Doubt, "on-stop"),
    ("stop-after-metal", Level::Doubt, "stop-after-metal"),
    ("no-gap", Level::Note, "no-gap"),
    ("no-stock-inside", Level::Doubt, "no-stock-inside"),
    ("loose-at-ride-height", Level::Doubt, "loose"),
    ("rear-slower", Level::Doubt, "rear-front"),
    ("rear-harsh", Level::Note, "rear-front"),
    ("row-off", Level::Doubt, "row-off"),
    ("rows-off", Level::Doubt, "rows-off"),
    ("dead-coils-counted", Level::Withheld, "routes-disagree"),
    ("stress", Level::Doubt, "stress"),
    ("stress", Level::Note, "strength-extrapolated"),
    ("coil-on-offer", Level::Doubt, "offer-outside"),
    ("gaps-and-slender", Level::Note, "gaps"),
    ("gaps-and-slender", Level::Note, "slender"),
    ("cut-coils", Level::Doubt, "cut"),
    ("cut-unknown", Level::Note, "cut-unknown"),
    ("wound-too-long", Level::Withheld, "wound-limit"),
    ("coil-on-offer", Level::Doubt, "wound-limit"),
    ("stop-carries", Level::Doubt, "on-stop"),
    ("helper-open", Level::Doubt, "helper-open"),
    ("bar-stress", Level::Withheld, "bar-stress"),
    ("bar-arm-steep", Level::Doubt, "arm-steep"),
    ("bar-arm-steep", Level::Note, "damper-ratio-needed"),
    ("leaf-friction", Level::Doubt, "leaf-friction"),
    ("outside-points", Level::Doubt, "outside-points"),
    ("bag-carries-all", Level::Doubt, "others-carry"),
    ("bag-carries-all", Level::Note, "bag-carries"),
    ("bag-pressure", Level::Doubt, "bag-pressure"),
    ("stamp-against-wire", Level::Doubt, "stamp-against-wire"),
    ("press-elsewhere", Level::Doubt, "press-elsewhere"),
    ("coils-contradict", Level::Doubt, "coils-contradict"),
    ("leaf-changed-over", Level::Doubt, "leaf-loop"),
    ("arch-against-weight", Level::Doubt, "arch-against-weight"),
    ("bounce-too-fast", Level::Doubt, "bounce-too-fast"),
    ("case-over-tyres", Level::Stop, "over-rating"),
    ("case-near-vehicle", Level::Doubt, "near-rating"),
    ("wheel-over", Level::Stop, "over-rating"),
    ("load-index", Level::Doubt, "load-index"),
    ("sized-twice", Level::Withheld, "sized-twice"),
    ("after-foretold", Level::Note, "after-foretold"),
    ("before-reckoned", Level::Note, "before-reckoned"),
    ("ledger-misses", Level::Doubt, "ledger-residual"),
    ("ledger-misplaced", Level::Doubt, "ledger-residual"),
    ("coaxial-kind", Level::Doubt, "coaxial-kind"),
    ("half-part", Level::Doubt, "half-row"),
    ("dive", Level::Note, "dive"),
    ("roll-bar-incomplete", Level::Doubt, "roll-bar-incomplete"),
    ("roll-bar-bore", Level::Doubt, "roll-bar-bore"),
    ("roll-needs-base", Level::Note, "roll-needs-base"),
    ("falls-over", Level::Doubt, "falls-over"),
    ("leans-far", Level::Doubt, "leans-far"),
    ("pads", Level::Note, "pads"),
    ("pads-need-track", Level::Note, "pads-need-track"),
    ("scatter", Level::Doubt, "scatter"),
    ("lift-level", Level::Doubt, "lift-level"),
    ("lift-gains", Level::Doubt, "lift-gains"),
    ("lift-little", Level::Note, "lift-little"),
    ("side-not-used", Level::Doubt, "side-not-used"),
    ("sides", Level::Note, "sides"),
    ("fitted-off", Level::Doubt, "fitted-corner"),
    ("fitted-off", Level::Doubt, "fitted-height"),
    ("fitted-axle", Level::Doubt, "fitted-axle"),
    ("fitted-changed-over", Level::Doubt, "fitted-corner"),
    ("damper-columns", Level::Doubt, "damper-columns"),
    ("part-the-other-way", Level::Doubt, "ledger-residual"),
    ("unsprung-both-sides", Level::Doubt, "unsprung-share"),
    ("ratio-in-inches", Level::Withheld, "ratio-impossible"),
    ("ballast-one-side", Level::Doubt, "routes-disagree"),
    ("outside-points-in-a-case", Level::Doubt, "outside-points"),
    ("outside-points-at-the-stop", Level::Note, "outside-points"),
    ("bar-stress", Level::Note, "bar-index-stress"),
    ("ratio-in-inches", Level::Doubt, "bind-before-stop"),
    ("case-over-tyres", Level::Doubt, "case-on-stop"),
    ("damper-beyond", Level::Doubt, "damper-beyond"),
    ("damper-floats", Level::Doubt, "damper-soft"),
    ("damper-hot", Level::Note, "damper-hot"),
    ("damper-twice", Level::Note, "damper-twice"),
    ("ratio-in-inches", Level::Withheld, "frequency-impossible"),
    ("offered-hot-and-beyond", Level::Doubt, "offered-beyond"),
    ("offered-hot-and-beyond", Level::Note, "offered-hot"),
    ("offered-soft-and-short", Level::Doubt, "offered-soft"),
    ("offered-soft-and-short", Level::Doubt, "offered-closed"),
    ("offered-soft-and-short", Level::Doubt, "offered-open"),
    ("offered-stiff", Level::Doubt, "offered-stiff"),
    ("bag-carries-all", Level::Withheld, "rate-uncertain"),
    ("cross-weight", Level::Doubt, "readings-swapped"),
];

/// Files that are there because nothing is asked about them.
const QUIET: [&str; 4] = ["aboard-taken-out", "axle-weights-only", "measured-after", "nothing-doubtful"];

#[test]
fn each_file_meets_its_rule() {
    for (file, level, rule) in SHOWN {
        let (_, answer) = named(file);
        let met = answer.findings.iter().any(|f| f.level == level && f.rule == rule);
        assert!(met, "{file}: no {rule} among\n{}", findings(answer));
    }
}

/// No file without a purpose, and no rule met by the way that no row shows.
#[test]
fn every_file_and_every_rule_is_shown() {
    folders::holds_exactly("doubtful", SHOWN.iter().map(|row| row.0).chain(QUIET));
    let jobs = kept::in_folders(&["doubtful"]);
    let met: BTreeSet<&str> = jobs.flat_map(|kept| &kept.answer().findings).map(|f| f.rule).collect();
    assert_eq!(met, SHOWN.iter().map(|row| row.2).collect());
}

/// A finding that no job of the tests meets, and that no test names, may never come.
#[test]
fn every_rule_is_met_by_a_job_or_named_in_a_test() {
    let jobs = kept::in_folders(&["bad", "doubtful", "kinds", "released", "withheld"]);
    let met: BTreeSet<&str> = jobs.flat_map(|kept| &kept.answer().findings).map(|f| f.rule).collect();
    let named = quoted_in("tests/core");
    let rules = quoted_in("src/solve/findings");
    assert!(rules.len() > 100, "{}", rules.len());
    let never: Vec<&String> =
        rules.iter().filter(|rule| !met.contains(rule.as_str()) && !named.contains(*rule)).collect();
    assert!(never.is_empty(), "{never:?}");
}

/// Words joined by hyphens that the sources of a folder quote: names of rules.
fn quoted_in(folder: &str) -> BTreeSet<String> {
    let is_rule = |word: &&str| word.contains('-') && word.chars().all(|c| c == '-' || c.is_ascii_lowercase());
    let files = source_files(&Path::new(env!("CARGO_MANIFEST_DIR")).join(folder));
    let texts = files.iter().map(|file| std::fs::read_to_string(file).expect("a source"));
    texts.flat_map(|text| text.split('"').filter(is_rule).map(str::to_owned).collect::<Vec<_>>()).collect()
}

#[test]
fn a_plain_job_has_nothing_to_ask() {
    assert_eq!(findings(named("nothing-doubtful").1), "");
    assert_eq!(findings(named("axle-weights-only").1), "", "axle weights are enough");
    assert_eq!(findings(named("measured-after").1), "", "the same vehicle, measured after the swap");
    let (job, answer) = named("aboard-taken-out");
    assert!(!findings(answer).contains("aboard"), "what was aboard is listed: {}", findings(answer));
    assert_eq!(
        answer.before.total,
        solve(&Job { parts: Vec::new(), ..job.clone() }).before.total,
        "readings stay as read"
    );
}

#[test]
fn over_rating_stops_the_recommendation_but_not_the_figures() {
    let (_, answer) = named("over-rating");
    let front = answer.axle(Side::Front);
    let sizing = front.sizing.expect("figures stay visible");
    assert!(front.overloaded && answer.released(Side::Front).is_err_and(|r| r.rules() == ["over-rating"]));
    assert_eq!(answer.findings[0].level, Level::Stop, "worst first");
    let (_, near) = named("near-rating");
    assert!(near.released(Side::Front).is_ok(), "amber is no stop");
    assert_eq!(near.axle(Side::Front).sizing, Some(sizing), "a rating changes no figure");
}

#[test]
fn without_before_weights_it_sizes_but_knows_no_change() {
    let (_, answer) = named("no-before-weights");
    let front = answer.axle(Side::Front);
    assert!(front.standing.before.is_none() && answer.before.total.is_none());
    for standing in [&front.standing.old, &front.standing.new].into_iter().flatten() {
        assert!(standing.height_change.is_none() && standing.height_change_at_ground.is_none());
    }
    let sizing = front.sizing.expect("sized");
    assert!(sizing.same_frequency.is_none() && front.same_factor.is_none());
    assert!(answer.rear_over_front.before.is_none() && answer.rear_over_front.new.is_some());
}

#[test]
fn axle_weights_alone_give_the_same_springs_but_no_corners() {
    let (_, corners) = named("nothing-doubtful");
    let (_, axles) = named("axle-weights-only");
    for weighed in [axles.before, axles.after] {
        assert!(weighed.corners.is_none() && weighed.left_share.is_none() && weighed.cross_weight.is_none());
        assert_eq!(weighed.left_right.both(), [None, None]);
        assert!(weighed.front_share.is_some());
    }
    for side in Side::BOTH {
        assert_eq!(axles.axle(side), corners.axle(side), "the mean of the sides is all that sizing uses");
    }
}

/// Lengths and travels of `measured-after.ron` are those of `nothing-doubtful.ron`, taken at the height after the swap
/// (27.33 mm lower at the wheel, 16.95 mm at the spring: ΔW/k_w by hand) to a hundredth of a millimetre, so the spring comes out the same and its length within 0.1 mm.
#[test]
fn measured_after_gives_the_spring_that_measured_before_gives() {
    let (_, before) = named("nothing-doubtful");
    let (_, after) = named("measured-after");
    let sizing = |answer: &Answer| answer.released(Side::Front).expect("released").spring.expect("sized");
    assert_eq!(sizing(before).pick, sizing(after).pick);
    let length = |answer: &Answer| sizing(answer).free_length.expect("lengths are typed").value;
    assert!((length(before) - length(after)).abs() < 1e-4, "{} {}", length(before), length(after));
    let sinks = |answer: &Answer| {
        answer
            .axle(Side::Front)
            .standing
            .old
            .as_ref()
            .and_then(|s| s.height_change)
            .expect("weighed before and after")
            .value
    };
    // The lengths, which say the rate, are typed to a hundredth of a millimetre.
    assert!((sinks(before) - sinks(after)).abs() < 1e-5, "{} {}", sinks(before), sinks(after));
}
