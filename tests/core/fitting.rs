//! The fitting sheet says what its job asks for, and its order of work keeps what its first page promises. Common
//! practice, no source, unless a test says more.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use springwright::job::{BagFitted, Coaxial, SpringKind, Suspension};
use springwright::report::Block;
use springwright::report::sheets::procedure::{Construction, Held, Part, Renew, Step};
use springwright::report::sheets::{Kind, Words};
use springwright::solve::solve;

use crate::common::kept;
use crate::common::sheets::{plain, preset, sheet};

fn renew(springs: Part, dampers: Part) -> Renew {
    Renew { springs, dampers, bags: BagFitted::No, roll_bar: false }
}

/// Every construction.
fn constructions() -> impl Iterator<Item = Construction> {
    Suspension::ALL.into_iter().flat_map(|suspension| {
        SpringKind::ALL
            .into_iter()
            .flat_map(move |kind| Coaxial::ALL.map(|coaxial| Construction::new(suspension, kind, coaxial)))
    })
}

fn fitting(name: &str) -> String {
    plain(kept::named(name).sheet(Kind::Fitting))
}

fn at(steps: &[Step], wanted: impl Fn(&Step) -> bool) -> Option<usize> {
    steps.iter().position(wanted)
}

/// Dampers in question come off, are tested, and go on again, in this order; others are not tested.
#[test]
fn dampers_in_question_are_tested_in_a_step() {
    let tests = ["proc.damper_test", "proc.unit_test", "proc.either_test"];
    for one in constructions() {
        for springs in [Part::New, Part::Again] {
            let steps = one.procedure(renew(springs, Part::Again)).steps;
            let is_damper = |held: &Held| matches!(held, Held::Damper | Held::UnitFoot);
            let off = at(&steps, |s| s.frees.iter().any(is_damper)).expect("off");
            let test = at(&steps, |s| tests.contains(&s.text)).expect("tested");
            let on = at(&steps, |s| s.joins.iter().any(is_damper)).expect("on again");
            assert!(off < test && test < on, "{one:?}: {off} {test} {on}");
        }
        for dampers in [Part::Stays, Part::New] {
            let steps = one.procedure(renew(Part::New, dampers)).steps;
            assert!(at(&steps, |s| tests.contains(&s.text)).is_none(), "{one:?}, {dampers:?}");
        }
    }
    let first = ["air-helper-bag", "arm-off", "battery-to-the-back", "leaf-rear", "points-trailing", "points-two-arms"];
    for name in first {
        let text = fitting(name);
        assert!(text.contains("at top and bottom and test them") && text.contains("Decide now"), "{name}: {text}");
    }
    // Nothing is loosened of what may be a unit but in its order of work.
    for name in ["helper-coil-over", "lighter-engine", "tow-load"] {
        let text = fitting(name);
        assert!(text.contains("when no spring is on them") && text.contains("Decide now"), "{name}: {text}");
        assert!(!text.contains("at top and bottom and test them"), "{name}: {text}");
    }
    assert!(["us-units-wagon", "first-answer"].into_iter().all(|name| fitting(name).contains("Decide now")));
    for name in ["demo-orchard-van", "progressive-rear", "open-two-seater"] {
        let text = fitting(name);
        assert!(!text.contains("and test them") && !text.contains("Decide now"), "{name}: {text}");
    }
    let text = fitting("first-answer");
    assert!(text.contains("Order of work: rear axle"), "they come off to be tested: {text}");
    assert!(text.contains("whether the rear dampers can stay (see the order list). Test them before you decide (see the order of work)"), "as the order says: {text}");
}

/// What is tightened to a torque says so in its step, in every language.
#[test]
fn a_step_that_tightens_names_the_torque() {
    for (language, torque) in [("en", "torque"), ("de", "Drehmoment")] {
        let words = Words::shipped(language).unwrap();
        for step in constructions().flat_map(|one| one.procedure(renew(Part::New, Part::New)).steps) {
            let text = words.say(step.text, &[]);
            assert!(step.tightens.is_empty() || text.contains(torque), "{text}");
        }
    }
}

/// Two axles by one list: the rubber of both after the second, a line of torque for each.
#[test]
fn two_axles_by_one_list_keep_their_rubber_loose_and_have_a_torque_each() {
    let report = kept::named("open-two-seater").sheet(Kind::Fitting);
    let steps: Vec<&Vec<String>> =
        report.blocks.iter().filter_map(|b| if let Block::Steps(steps) = b { Some(steps) } else { None }).collect();
    let wheels_on = steps[0].iter().position(|s| s.starts_with("Fit the wheels")).unwrap() + 1;
    let text = plain(report);
    assert_eq!(steps.len(), 1);
    assert!(text.contains(&format!("Do steps 2 to {wheels_on} on one axle, then on the other")), "{text}");
    assert!(text.contains(&format!("Steps {} and after come once, for both axles", wheels_on + 1)), "{text}");
    for place in
        [format!("Wheel nuts (step {wheels_on}), front"), "Rubber bushes, front".into(), "Rubber bushes, rear".into()]
    {
        assert!(text.contains(&place), "{place}: {text}");
    }
    // By two lists, the rubber of both is tightened after the second.
    assert!(fitting("strut-front").contains("tighten the rubber bushes listed under the torques, of both axles"));
}

/// "As listed above" only where something is listed.
#[test]
fn spacers_are_named_where_they_are_listed() {
    for name in ["arm-off", "points-trailing", "battery-to-the-back", "demo-orchard-van", "progressive-rear"] {
        let text = fitting(name);
        assert!(text.contains("Fit the insulators") && !text.contains("as listed above"), "{name}: {text}");
        let mut job = kept::named(name).job.clone();
        for axle in [&mut job.front, &mut job.rear] {
            axle.left.spacer = "5 mm".into();
        }
        let text = plain(&sheet(Kind::Fitting, &job, &solve(&job)));
        assert!(text.contains("the spacers as listed above"), "{name}: {text}");
    }
    assert!(Words::shipped("en").unwrap().say("proc.side_rod_on", &[]).contains("if there is one"));
}

/// Nothing is said of what is not there: no strap where none is put on, no steering rod at a rear axle, no end to mark of a
/// spring that does not go in again.
#[test]
fn a_list_speaks_only_of_what_is_there() {
    for name in ["points-trailing", "progressive-rear", "leaf-rear", "beam-axle-front", "torsion-bar-front"] {
        let text = fitting(name).to_lowercase();
        assert!(!text.contains("strap") && !text.contains("the tie"), "{name}: {text}");
    }
    assert!(fitting("arm-off").contains("Take the strap off the upright"));
    for (name, steers) in [("points-trailing", false), ("air-helper-bag", false), ("beam-axle-front", true)] {
        assert_eq!(fitting(name).contains("steering rod"), steers, "{name}");
    }
    let notes = |springs, kind| {
        let one = Construction::new(Suspension::SemiTrailingArm, kind, Coaxial::No);
        let steps = one.procedure(renew(springs, Part::Stays)).steps;
        at(&steps, |s| s.text.starts_with("proc.note")).is_some()
    };
    assert!(notes(Part::Again, SpringKind::Progressive) && !notes(Part::New, SpringKind::Progressive));
    // Helper and main spring go in together, in the step after what was written down is laid out.
    for one in constructions().filter(|one| one.kind == SpringKind::WithHelper) {
        let steps = one.procedure(renew(Part::New, Part::Stays)).steps;
        let laid_out = at(&steps, |s| s.text == "proc.helper_in").expect("laid out");
        assert!(steps[laid_out + 1].joins.contains(&Held::Coil), "{one:?}");
        assert!(at(&steps, |s| s.text == "proc.note.helper").expect("noted") < laid_out);
    }
}

#[test]
fn what_springs_out_is_said_by_kind() {
    for (name, danger) in [
        ("arm-off", "line of the spring"),
        ("torsion-bar-front", "swing of the lever"),
        ("leaf-rear", "would spring out"),
    ] {
        let text = fitting(name);
        for other in ["out of the line of the spring.", "swing of the lever", "would spring out"] {
            assert_eq!(text.contains(other), other.contains(danger), "{name}, {other}: {text}");
        }
    }
    // 1 J is the fall of a tenth of a kilogram.
    let text = fitting("open-two-seater");
    assert!(text.contains("1 J under 1 kg") && !text.contains(" 0 kg new"), "{text}");
    let leaf = fitting("leaf-rear");
    assert!(leaf.contains("U-bolts, again after the road test (step 21)"), "{leaf}");
}

/// What was measured is the ground of what is expected; what is calculated says so.
#[test]
fn what_is_measured_again_starts_from_what_was_measured() {
    // 418 mm before the change, 400 mm after it; back to 418 mm.
    let bar = fitting("torsion-bar-front");
    assert!(bar.contains("Left front, hub to arch 400 mm (mean) 418 mm ± 8 mm"), "{bar}");
    assert!(bar.contains("Front, hub to arch: expect 18 mm more than before fitting."), "{bar}");
    assert!(fitting("ledger-first").contains("The targets are calculated, not weighed"));
    assert!(fitting("arm-off").contains("the same load and people aboard as at the last weigh-in"));
    let beam = fitting("beam-axle-front");
    assert!(beam.contains("Front, castor, left / right") && !beam.contains("camber, left"), "{beam}");
    assert!(!fitting("leaf-rear").contains("left / right"));
    let strut = fitting("strut-front");
    assert!(strut.contains("Front, strut, lower bolt hole") && !strut.contains("Front, damper, eye"), "{strut}");
}

/// A tolerance that is narrower than the forecast says what corrects the height.
#[test]
fn a_narrow_tolerance_says_with_what_it_is_met() {
    let arm = fitting("arm-off");
    assert!(
        arm.contains("right to within 11 mm two times out of three, and the tolerance is narrower (± 8 mm)"),
        "{arm}"
    );
    assert!(arm.contains("with spacers at the spring seats"), "{arm}");
    let leaf = fitting("leaf-rear");
    assert!(
        !leaf.contains("tolerance is narrower") && leaf.contains("with blocks between leaf spring and axle"),
        "{leaf}"
    );
    assert!(fitting("torsion-bar-front").contains("with the adjuster screws"));
    // Four targets as before fitting, and another cross weight: 49.949 % of what is not rounded.
    assert!(leaf.contains("the cross weight is calculated before rounding"), "{leaf}");
    assert!(leaf.contains("As calculated, the body will then be 5 mm lower on the left."), "{leaf}");
    assert!(arm.contains("compared with now, the body will sit 24 mm higher: check toe and camber"), "{arm}");
    // Nothing is nothing in every language.
    let (mut job, answer) = preset("arm-off");
    job.shop.language = "de".into();
    let text = plain(&sheet(Kind::Fitting, &job, &answer));
    assert!(text.contains("24 mm höher: Spur und Sturz prüfen") && !text.contains("0,0°"), "{text}");
}
