//! The calculation in brief: the same results as in the whole calculation, as far as they decide the order.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::base::units::Quantity;
use springwright::job::{Plan, Side};
use springwright::report::Block;
use springwright::report::Report;
use springwright::report::sheets::Kind;
use springwright::solve::solve;

use crate::common::kept;
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
    for shipped in kept::shipped() {
        let [brief, whole] = [Kind::WorkingBrief, Kind::Working].map(|kind| lines(shipped.sheet(kind)));
        for line in brief {
            let (told, source) = line.rsplit_once('[').expect("a source");
            let source = format!("[{source}");
            let same = whole.iter().any(|l| l.starts_with(told) && l.ends_with(&source));
            assert!(same, "{}: {line}", shipped.name);
            compared += 1;
        }
    }
    assert!(compared > 300, "{compared} lines");
}

/// Weight, ratio, target frequency, rate, length: of each axle that gets new springs, with ± and where that comes from.
#[test]
fn it_leads_from_the_weight_to_the_length() {
    let report = kept::named("demo-orchard-van").sheet(Kind::WorkingBrief);
    let front: Vec<&String> = lines(report).into_iter().filter(|l| l.starts_with("front")).collect();
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
    let text = plain(report);
    assert!(text.contains("Most of the ± of"), "{text}");
    let checks = tables(report).into_iter().filter(|t| t.0[0] == english("work.brief.checks")).count();
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

/// An axle on which nothing is recommended, or whose old springs can stay, is shown on the springs it has. By hand for the
/// stopped one: rear √(27459 / 470) / 2π = 1.2165 Hz, front √(30170 / 486) / 2π = 1.2540 Hz, of which the ratio is 0.97;
/// with the springs that the program would have chosen it was 1.11.
#[test]
fn an_axle_that_is_left_alone_is_shown_on_its_old_springs() {
    let ratio = |name: &str| {
        let kept = kept::named(name);
        let report = kept.sheet(Kind::WorkingBrief);
        let whole = tables(report).into_iter().find(|t| t.0[0] == english("work.whole"));
        (whole.map(|t| t.1[0][1].clone()), plain(report), kept.answer())
    };
    let (said, text, _) = ratio("overloaded-camper");
    assert!(said.is_some_and(|s| s.starts_with("0.97")), "{text}");
    for end in ["front", "rear"] {
        assert!(text.contains(&format!("{end}: on the old springs, ride frequency")), "{end}: {text}");
    }
    // The front can stay.
    let (said, text, answer) = ratio("points-strut");
    let old = |side: Side| answer.axle(side).standing.old.as_ref().unwrap().frequency.si();
    let by_hand = format!("{:.2}", old(Side::Rear) / old(Side::Front));
    assert!(said.is_some_and(|s| s.starts_with(&by_hand)), "{by_hand}: {text}");
    assert!(text.contains("The front springs can stay."), "{text}");
    // New ones in front, old ones at the rear though new ones were sized: no result is of both.
    let (said, text, _) = ratio("first-answer");
    assert_eq!(said, None, "{text}");
}

/// Two ways to the motion ratio that are further apart than their ± allows: to be checked before anything is ordered, and
/// the customer is told. The same vehicle with an arm that is right: neither.
#[test]
fn measurements_that_disagree_are_said() {
    for (name, apart) in [("arm-off", true), ("points-two-arms", false)] {
        let kept = kept::named(name);
        let text = plain(kept.sheet(Kind::WorkingBrief));
        assert_eq!(text.contains("To check before ordering: Front: the motion ratio is"), apart, "{name}: {text}");
        let text = plain(kept.sheet(Kind::Customer));
        assert_eq!(text.contains("Two of our measurements do not agree well."), apart, "{name}: {text}");
        assert_eq!(text.contains("We know the old parts well."), !apart, "{name}: {text}");
    }
}

/// A default that brings most of the ± of the rate is no number taken from the vehicle: of lighter-engine it is the change
/// of the motion ratio, which nobody measured.
#[test]
fn a_default_that_decides_is_counted_as_assumed() {
    let text = plain(kept::named("lighter-engine").sheet(Kind::Customer));
    assert!(text.contains("For one number that we did not measure, we used the usual value."), "{text}");
    assert!(!text.contains("All the numbers that count most were taken from your vehicle."), "{text}");
}
