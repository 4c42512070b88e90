//! The order of work of every construction: nothing is freed before what holds it is held otherwise.
//!
//! What must be supported before what is freed is common practice, no source; it is written here and not in the sources,
//! so that a slip in their order fails.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test says why it stops")]

use std::collections::{BTreeMap, BTreeSet};

use springwright::base::language::{Language, speak};
use springwright::job::{BagFitted, Coaxial, DamperPlan, SpringKind, Suspension};
use springwright::report::Block;
use springwright::report::pictures::drawing::{Shape, Stroke};
use springwright::report::sheets::procedure::{
    Construction, Held, Part, Place, Procedure, Renew, Step, Support, Unit, drawing,
};
use springwright::report::sheets::{Kind, Words};
use springwright::solve::solve;

use crate::common::sheets::{plain, preset, sheet};

const SPRINGS: Renew = Renew { springs: Part::New, dampers: Part::Stays, bags: BagFitted::No, roll_bar: false };
const BOTH: Renew = Renew { springs: Part::New, dampers: Part::New, bags: BagFitted::No, roll_bar: false };
const DAMPERS: Renew = Renew { springs: Part::Stays, dampers: Part::New, bags: BagFitted::No, roll_bar: false };
const SPACERS: Renew = Renew { springs: Part::Again, dampers: Part::Stays, bags: BagFitted::No, roll_bar: false };
const ROLL_BAR: Renew = Renew { springs: Part::Stays, dampers: Part::Stays, bags: BagFitted::No, roll_bar: true };
const SPRINGS_AND_ROLL_BAR: Renew = Renew { roll_bar: true, ..SPRINGS };
const TESTED: Renew = Renew { springs: Part::New, dampers: Part::Again, bags: BagFitted::No, roll_bar: false };

/// Every construction, each once.
fn constructions() -> Vec<Construction> {
    let mut all = Vec::new();
    for suspension in Suspension::ALL {
        for kind in SpringKind::ALL {
            for coaxial in Coaxial::ALL {
                let one = Construction::new(suspension, kind, coaxial);
                if !all.contains(&one) {
                    all.push(one);
                }
            }
        }
    }
    all
}

/// What must be in place before this comes off.
fn needs(held: Held, of: Construction, is_unloaded: bool) -> Vec<Support> {
    use Support::{BarHeld, Bench, Chocks, Jack, SpringHeld, Stands, Tie};
    let mut needs = vec![Chocks, Stands];
    let ends_the_droop = [
        Held::Damper,
        Held::UnitFoot,
        Held::UnitTop,
        Held::BallJoint,
        Held::SideRod,
        Held::LeafClamp,
        Held::LeafEyes,
        Held::Bar,
    ];
    if ends_the_droop.contains(&held) {
        needs.push(Jack);
    }
    // A joint that a loaded coil presses apart, which no unit with its damper holds.
    if held == Held::BallJoint && of.kind.is_coil() && of.unit != Unit::One && !is_unloaded {
        needs.push(SpringHeld);
    }
    if held == Held::UnitFoot && of.suspension == Suspension::Strut || held == Held::BallJoint {
        needs.push(Tie);
    }
    if held == Held::CentreNut || held == Held::Coil && of.unit == Unit::One {
        needs.push(Bench);
    }
    if held == Held::Bar {
        needs.push(BarHeld);
    }
    needs
}

/// The coil of this order of work is held by a compressor in the vehicle.
fn held_coil(steps: &[Step]) -> bool {
    let frees = |step: &&Step| step.frees.contains(&Held::Coil);
    steps.iter().take_while(|s| !frees(s)).any(|s| s.supports.contains(&Support::SpringHeld))
}

/// Why an order of work is none; `Ok` where every step is held and all is joined at the end.
fn check(steps: &[Step], of: Construction) -> Result<(), String> {
    let (mut supports, mut open) = (BTreeSet::<Support>::new(), BTreeSet::<Held>::new());
    let mut is_unloaded = false;
    for step in steps {
        let fault = |why: String| Err(format!("{of:?}, {}: {why}", step.text));
        if !step.supports.is_empty() && !step.frees.is_empty() {
            return fault("supports and frees at once".into());
        }
        supports.extend(step.supports);
        for held in step.frees {
            if let Some(lacking) = needs(*held, of, is_unloaded).iter().find(|s| !supports.contains(*s)) {
                return fault(format!("{held:?} without {lacking:?}"));
            }
            let needs_rest = matches!(held, Held::Bar | Held::LeafClamp | Held::LeafEyes)
                || *held == Held::Coil && !(of.unit == Unit::One || supports.contains(&Support::SpringHeld));
            if needs_rest && !is_unloaded {
                return fault(format!("{held:?} under load"));
            }
            if !open.insert(*held) {
                return fault(format!("{held:?} twice"));
            }
        }
        if step.unloads && !(supports.contains(&Support::Jack) || supports.contains(&Support::BarHeld)) {
            return fault("unloads what nothing carries".into());
        }
        is_unloaded |= step.unloads;
        for held in step.joins {
            // A coil that is compressed goes in as it came out: in a compressor; else it is loaded by what is raised under it.
            let presses = match held {
                Held::Coil if of.unit == Unit::One => Some(Support::Bench),
                Held::Coil if held_coil(steps) => Some(Support::SpringHeld),
                Held::CentreNut => Some(Support::Bench),
                _ => None,
            };
            if let Some(lacking) = presses.filter(|s| !supports.contains(s)) {
                return fault(format!("joins {held:?} without {lacking:?}"));
            }
            if !open.remove(held) {
                return fault(format!("joins {held:?}, which is not open"));
            }
        }
        for support in step.removes {
            // Where the coil is out, nothing is pressed apart.
            let is_out = open.contains(&Held::Coil) && [Support::SpringHeld, Support::Bench].contains(support);
            let carries = open.iter().find(|h| !is_out && needs(**h, of, false).contains(support));
            if let Some(held) = carries {
                return fault(format!("takes {support:?} away from {held:?}"));
            }
            if !supports.remove(support) {
                return fault(format!("takes {support:?} away, which is not there"));
            }
        }
    }
    match (open.is_empty(), supports.is_empty()) {
        (true, true) => Ok(()),
        _ => Err(format!("{of:?}: left open {open:?}, left in place {supports:?}")),
    }
}

fn texts(procedure: &Procedure) -> Vec<&'static str> {
    procedure.steps.iter().map(|s| s.text).collect()
}

#[test]
fn nothing_is_freed_before_it_is_held_in_any_construction() {
    let all = constructions();
    assert_eq!(all.len(), 7 * (3 * 3 + 2) + (3 * 2 + 2), "a blank strut is one unit; bars and leaves never are");
    for one in all {
        for renew in [SPRINGS, BOTH, DAMPERS, SPACERS, TESTED, ROLL_BAR, SPRINGS_AND_ROLL_BAR] {
            let procedure = one.procedure(renew);
            check(&procedure.steps, one).unwrap_or_else(|why| panic!("{renew:?}: {why}"));
            assert_eq!(procedure.steps[0].text, "proc.measure", "heights are measured before anything");
        }
    }
}

/// The check can fail: a jack that comes behind what it should carry is found, in every construction.
#[test]
fn a_support_that_comes_too_late_is_found() {
    for one in constructions() {
        let procedure = one.procedure(SPRINGS);
        let jack = procedure.steps.iter().position(|s| s.supports.contains(&Support::Jack)).expect("a jack");
        let freed = |s: &Step| s.frees.iter().any(|h| needs(*h, one, true).contains(&Support::Jack));
        let first = procedure.steps.iter().position(freed).expect("something ends the droop");
        assert!(jack < first);
        let mut late = procedure.steps.clone();
        let step = late.remove(jack);
        late.insert(first, step);
        assert!(check(&late, one).is_err(), "{one:?}: {:?}", texts(&procedure));
        // So is one that never comes.
        for (i, step) in procedure.steps.iter().enumerate().filter(|(_, s)| !s.supports.is_empty()) {
            let mut without = procedure.steps.clone();
            without.remove(i);
            let found = check(&without, one);
            let is_only_tie = step.supports.iter().all(|s| matches!(s, Support::SpringHeld));
            assert!(found.is_err() || is_only_tie, "{one:?}: {}", step.text);
        }
    }
}

#[test]
fn no_two_constructions_share_all_their_steps() {
    let mut seen: BTreeMap<Vec<&str>, Construction> = BTreeMap::new();
    for one in constructions() {
        // A progressive spring that is replaced goes as a linear one does.
        let renew = if one.kind == SpringKind::Progressive { SPACERS } else { SPRINGS };
        if let Some(other) = seen.insert(texts(&one.procedure(renew)), one) {
            panic!("{one:?} and {other:?} are worked on alike");
        }
    }
}

/// The five sentences of the trade, each at a construction that it is about.
#[test]
fn the_order_is_that_of_the_trade() {
    let of = |suspension, kind, coaxial| texts(&Construction::new(suspension, kind, coaxial).procedure(SPRINGS));
    let in_order = |steps: &[&str], wanted: &[&str]| {
        let at: Vec<usize> = wanted.iter().map(|w| steps.iter().position(|s| s == w).expect(w)).collect();
        assert!(at.is_sorted(), "{wanted:?} in {steps:?}");
    };
    let arms = of(Suspension::TwoArms, SpringKind::Coil, Coaxial::No);
    in_order(
        &arms,
        &["proc.carry.two_arms", "proc.hold_spring", "proc.damper_off", "proc.ball_joint", "proc.lower_arm"],
    );
    let strut = of(Suspension::Strut, SpringKind::Coil, Coaxial::NotSaid);
    in_order(&strut, &["proc.carry.strut", "proc.strut_foot", "proc.strut_top", "proc.bench", "proc.centre_nut"]);
    assert!(!strut.contains(&"proc.ball_joint"), "a strut comes out whole: {strut:?}");
    let leaf = of(Suspension::Beam, SpringKind::Leaf, Coaxial::NotSaid);
    in_order(&leaf, &["proc.carry.beam", "proc.dampers_off", "proc.rest_leaf", "proc.leaf_clamp", "proc.leaf_eyes"]);
    let bar = of(Suspension::TwoArms, SpringKind::TorsionBar, Coaxial::NotSaid);
    in_order(&bar, &["proc.carry.two_arms", "proc.bar_marks", "proc.hold_bar", "proc.unwind", "proc.bar_out"]);
    let open = Construction::new(Suspension::TwoArms, SpringKind::TorsionBar, Coaxial::NotSaid).procedure(BOTH);
    in_order(&texts(&open), &["proc.unwind", "proc.damper_off", "proc.bar_out"]);
}

/// Dampers that are bought go in, whatever the construction; a shaft that may have been taken off goes on again; rubber is
/// slackened where it is tightened.
#[test]
fn what_comes_off_goes_on_again() {
    let puts_in = ["proc.damper_new", "proc.unit_damper", "proc.either_damper"];
    for one in constructions() {
        let steps = texts(&one.procedure(BOTH));
        let is_strut = one.suspension == Suspension::Strut && one.unit != Unit::NotSaid;
        assert!(is_strut || steps.iter().any(|s| puts_in.contains(s)), "{one:?}: {steps:?}");
        let is_semi = one.suspension == Suspension::SemiTrailingArm;
        assert_eq!(steps.contains(&"proc.shaft_on"), is_semi, "{one:?}");
        let pivots = [
            Place::LowerPivots,
            Place::UpperPivots,
            Place::ArmPivots,
            Place::AxleLinks,
            Place::BeamPivots,
            Place::OtherPivots,
        ];
        for renew in [SPRINGS, DAMPERS, BOTH] {
            let procedure = one.procedure(renew);
            // Nothing is slackened while the spring still presses on it.
            let at = |wanted: &dyn Fn(&Step) -> bool| procedure.steps.iter().position(wanted);
            let is_spring = |held: &Held| matches!(held, Held::Coil | Held::Bar | Held::LeafEyes);
            let (out, slack) = (at(&|s| s.frees.iter().any(is_spring)), at(&|s| s.text.starts_with("proc.slacken")));
            assert!(slack.is_none_or(|slack| out.is_some_and(|out| out < slack)), "{one:?}, {renew:?}");
            let tightened = procedure.at_ride_height.iter().any(|place| pivots.contains(place));
            assert_eq!(slack.is_some(), tightened, "{one:?}, {renew:?}");
        }
    }
}

/// What is not stated gets all supports and all cautions that any such construction gets.
#[test]
fn what_is_not_stated_gets_the_strictest() {
    let supports = |c: Construction| -> BTreeSet<Support> {
        c.procedure(SPRINGS).steps.iter().flat_map(|s| s.supports.iter().copied()).collect()
    };
    for kind in SpringKind::ALL {
        let blank = Construction::new(Suspension::NotSaid, kind, Coaxial::NotSaid);
        for one in constructions().into_iter().filter(|c| c.kind == kind) {
            assert!(supports(one).is_subset(&supports(blank)), "{one:?}");
            for renew in [SPRINGS, BOTH] {
                let strict = blank.cautions(renew);
                assert!(one.cautions(renew).iter().all(|c| strict.contains(c)), "{one:?}: {strict:?}");
            }
        }
    }
    let few = Construction::new(Suspension::Beam, SpringKind::Leaf, Coaxial::No).cautions(SPRINGS);
    for foreign in ["fit.caution.joint", "fit.caution.compressor", "fit.caution.centre_nut", "fit.caution.bar"] {
        assert!(!few.contains(&foreign), "{foreign} at a leaf");
    }
}

#[test]
fn torques_are_those_of_the_construction() {
    for one in constructions() {
        let procedure = one.procedure(BOTH);
        let torques = procedure.torques();
        let places: Vec<Place> = torques.iter().map(|t| t.place).collect();
        let unique: BTreeSet<Place> = places.iter().copied().collect();
        assert_eq!(unique.len(), places.len(), "{one:?}: a place twice in {places:?}");
        assert!(torques.iter().all(|t| (1..=procedure.steps.len()).contains(&t.step)), "{torques:?}");
        let opens = |held: Held| procedure.steps.iter().any(|s| s.frees.contains(&held));
        let has = |place: Place| places.contains(&place);
        assert!(has(Place::WheelNuts));
        assert_eq!(has(Place::CentreNut), opens(Held::CentreNut), "{one:?}");
        assert_eq!(has(Place::UBolts), opens(Held::LeafClamp), "{one:?}");
        assert_eq!(has(Place::UBoltsAgain), opens(Held::LeafClamp), "{one:?}");
        assert_eq!(has(Place::BallJoint) || has(Place::OtherJoint), opens(Held::BallJoint), "{one:?}");
        assert_eq!(has(Place::BarLock), opens(Held::Bar), "{one:?}");
    }
    let leaf = Construction::new(Suspension::Beam, SpringKind::Leaf, Coaxial::NotSaid).procedure(SPRINGS).torques();
    assert!(leaf.iter().all(|t| t.place != Place::BallJoint && t.place != Place::LowerPivots), "{leaf:?}");
    assert!(
        leaf.iter().any(|t| t.place == Place::Shackle && t.is_at_ride_height),
        "a shackle's rubber at ride height: {leaf:?}"
    );
}

/// Each construction that differs in what is seen has its own drawing, inside its frame in every language.
#[test]
fn drawings_stay_inside_and_differ() {
    let mut drawn: Vec<(Construction, Vec<Shape>)> = Vec::new();
    for one in constructions() {
        for key in ["en", "de"] {
            let _voice = speak(Language::spoken_as(key));
            let picture = drawing::of(Words::shipped(key).unwrap(), one);
            assert!(!picture.words.contains('['), "{}", picture.words);
            for shape in &picture.shapes {
                for [x, y] in places(shape) {
                    let inside = (-0.01..=picture.width_mm + 0.01).contains(&x)
                        && (-0.01..=picture.height_mm + 0.01).contains(&y);
                    assert!(inside, "{one:?}, {key}: {shape:?} reaches {x}, {y}");
                }
            }
            if key == "en" {
                drawn.push((one, picture.shapes));
            }
        }
    }
    for (i, (a, shapes)) in drawn.iter().enumerate() {
        for (b, others) in &drawn[i + 1..] {
            let is_same_view = a.kind.is_coil() && b.kind.is_coil() && a.suspension == b.suspension
                || [a.suspension, b.suspension].iter().all(|s| matches!(s, Suspension::Other | Suspension::NotSaid))
                || [a, b].iter().all(|c| {
                    c.kind == SpringKind::Leaf && matches!(c.suspension, Suspension::Beam | Suspension::TwistBeam)
                });
            assert!(is_same_view || shapes != others, "{a:?} and {b:?} are drawn alike");
        }
    }
}

/// Lines from words to what they name do not cross, in any construction.
#[test]
fn lines_of_labels_do_not_cross() {
    let side = |[a, b]: [[f32; 2]; 2], p: [f32; 2]| (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
    let mut lines = 0;
    for one in constructions() {
        let picture = drawing::of(Words::shipped("en").unwrap(), one);
        let leaders: Vec<[[f32; 2]; 2]> = picture
            .shapes
            .iter()
            .filter_map(|shape| match shape {
                Shape::Line { through, stroke: Stroke::Dotted } => Some([through[0], through[1]]),
                _ => None,
            })
            .collect();
        lines += leaders.len();
        for (i, a) in leaders.iter().enumerate() {
            for b in &leaders[i + 1..] {
                let apart = side(*a, b[0]) * side(*a, b[1]) >= 0.0 || side(*b, a[0]) * side(*b, a[1]) >= 0.0;
                assert!(apart, "{one:?}: {a:?} {b:?}");
            }
        }
    }
    assert!(lines > 300, "{lines}");
}

fn places(shape: &Shape) -> Vec<[f32; 2]> {
    match shape {
        Shape::Line { through, .. } => through.clone(),
        Shape::Area { corners, .. } => corners.clone(),
        Shape::Circle { centre: [x, y], radius_mm: r, .. } => vec![[x - r, y - r], [x + r, y + r]],
        // Noto Sans: a letter is about 0.55 of the type's height wide.
        Shape::Words { at: [x, y], size_mm, text, .. } => {
            vec![[*x, y - size_mm], [x + 0.55 * size_mm * text.chars().count() as f32, *y]]
        }
        Shape::OfState(_, shapes) => shapes.iter().flat_map(places).collect(),
    }
}

/// Two axles of different construction have an order of work each; two alike share one.
#[test]
fn each_construction_has_its_own_order_on_the_sheet() {
    let (mut job, _) = preset("leaf-rear");
    job.front.plan = springwright::job::Plan::NewSprings;
    job.after.lf = "520 kg".into();
    job.after.rf = "512 kg".into();
    let report = sheet(Kind::Fitting, &job, &solve(&job));
    let orders = |blocks: &[Block]| blocks.iter().filter(|b| matches!(b, Block::Steps(_))).count();
    assert_eq!(orders(&report.blocks), 2, "{}", plain(&report));
    let text = plain(&report);
    assert!(text.contains("Order of work: front axle") && text.contains("Order of work: rear axle"), "{text}");
    assert!(text.contains("U-bolts, new (step") && text.contains("Ball joint, new nut (step"), "{text}");
    job.rear = job.front.clone();
    (job.front.dampers, job.rear.dampers) = (DamperPlan::Keep, DamperPlan::Keep);
    let report = sheet(Kind::Fitting, &job, &solve(&job));
    assert!(orders(&report.blocks) <= 1, "{}", plain(&report));
}
