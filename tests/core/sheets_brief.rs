//! The working in brief: the same results as in the whole working, as far as they decide the order.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::job::{Plan, Side};
use springwright::report::Block;
use springwright::report::Report;
use springwright::report::sheets::Kind;
use springwright::shop::presets::PRESETS;
use springwright::solve::solve;

use crate::common::sheets::{english, plain, preset, sheet, tables};

fn lines(report: &Report) -> Vec<&String> {
    let lists = report.blocks.iter().filter_map(|block| match block {
        Block::List(lines) => Some(lines),
        _ => None,
    });
    lists.flatten().filter(|line| line.contains(" = ")).collect()
}

/// Each of its lines is one of the whole working, word for word up to what the result means.
#[test]
fn it_says_nothing_that_the_whole_does_not() {
    let mut compared = 0;
    for shipped in PRESETS {
        let job = shipped.job();
        let answer = solve(&job);
        let [brief, whole] = [Kind::WorkingBrief, Kind::Working].map(|kind| sheet(kind, &job, &answer));
        for line in lines(&brief) {
            let (told, source) = line.rsplit_once('[').expect("a source");
            let same = lines(&whole).into_iter().any(|l| l.starts_with(told) && l.ends_with(&format!("[{source}")));
            assert!(same, "{}: {line}", shipped.name);
            compared += 1;
        }
    }
    assert!(compared > 300, "{compared} lines");
}

/// Weight, ratio, target frequency, rate, length: of each axle that gets new springs, with ± and where that comes from.
#[test]
fn it_leads_from_the_weight_to_the_length() {
    let (job, answer) = preset("demo-orchard-van");
    let report = sheet(Kind::WorkingBrief, &job, &answer);
    let front: Vec<&String> = lines(&report).into_iter().filter(|l| l.starts_with("front")).collect();
    let at = |part: &str| front.iter().position(|l| l.contains(part)).unwrap_or_else(|| panic!("{part}: {front:?}"));
    let chain = [
        "sprung mass after",
        "motion ratio of the spring",
        "target ride frequency",
        "wheel rate for the target frequency",
        "spring rate for the target frequency",
        "stock rate nearest the target",
        "free length to order",
    ]
    .map(at);
    assert!(chain.is_sorted(), "{chain:?}: {front:?}");
    assert!(front[chain[4]].contains(" ± "), "{}", front[chain[4]]);
    let text = plain(&report);
    assert!(text.contains("Most of the ± of"), "{text}");
    let checks = tables(&report).into_iter().filter(|t| t.0[0] == english("work.brief.checks")).count();
    assert_eq!(checks, 2, "of both axles");
}

/// What would be chosen for an axle that is withheld is not in it.
#[test]
fn over_a_rating_it_names_no_part() {
    let (mut job, _) = preset("overloaded-camper");
    job.front.plan = Plan::NewSprings;
    let answer = solve(&job);
    assert!(answer.released(Side::Front).is_err());
    let text = plain(&sheet(Kind::WorkingBrief, &job, &answer));
    assert!(text.contains("STOP.") && text.contains("sprung mass after"), "{text}");
    for word in
        ["stock rate", "spring rate for the target frequency", "free length", "on the new springs", "damper rate"]
    {
        assert!(!text.to_lowercase().contains(word), "{word}: {text}");
    }
}
