//! The steps until the spring is out.

use super::step::{Held, Step, Support};
use super::{Construction, Part, Renew, Unit};
use crate::job::{BagFitted, SpringKind, Suspension};

type Steps = Vec<&'static Step>;

pub(super) static MEASURE: Step = Step::supporting("proc.measure", &[Support::Chocks]);
pub(super) static CHOCK: Step = Step::supporting("proc.chock", &[Support::Chocks]);
static STAND: Step = Step::supporting("proc.stand", &[Support::Stands]);
static WHEELS_OFF: Step = Step::freeing("proc.wheels_off", &[Held::Wheel]);

static CARRY_TWO_ARMS: Step = Step::supporting("proc.carry.two_arms", &[Support::Jack]);
static CARRY_STRUT: Step = Step::supporting("proc.carry.strut", &[Support::Jack]);
static CARRY_TRAILING: Step = Step::supporting("proc.carry.trailing", &[Support::Jack]);
static CARRY_SEMI: Step = Step::supporting("proc.carry.semi", &[Support::Jack]);
static CARRY_BEAM: Step = Step::supporting("proc.carry.beam", &[Support::Jack]);
static CARRY_TWIST: Step = Step::supporting("proc.carry.twist", &[Support::Jack]);
static CARRY_OTHER: Step = Step::supporting("proc.carry.other", &[Support::Jack]);
static CARRY_UNKNOWN: Step = Step::supporting("proc.carry.unknown", &[Support::Jack]);
static TIE: Step = Step::supporting("proc.tie", &[Support::Tie]);
pub(super) static TIE_UNKNOWN: Step = Step::supporting("proc.tie_unknown", &[Support::Tie]);

static BAG_EMPTY: Step = Step::of("proc.bag_empty");
pub(super) static NOTE_HELPER: Step = Step::of("proc.note.helper");
static NOTE_PROGRESSIVE: Step = Step::of("proc.note.progressive");
static LOOK: Step = Step::of("proc.look");
static HOLD_SPRING: Step = Step::supporting("proc.hold_spring", &[Support::SpringHeld]);
static HOLD_SEPARATE: Step = Step::supporting("proc.hold_separate", &[Support::SpringHeld]);
static LINKS_OFF: Step = Step::freeing("proc.links_off", &[Held::Links]);
static ROLL_BAR_OFF: Step = Step::freeing("proc.roll_bar_off", &[Held::RollBar]);
static SIDE_ROD_OFF: Step = Step::freeing("proc.side_rod_off", &[Held::SideRod]);
static DAMPER_OFF: Step = Step::freeing("proc.damper_off", &[Held::Damper]);
/// Only where the dampers are renewed.
pub(super) static DAMPER_OUT: Step = Step::of("proc.damper_out");
/// Only where it is open whether the old ones stay.
pub(super) static DAMPER_TEST: Step = Step::of("proc.damper_test");
static DAMPERS_OFF: Step = Step::freeing("proc.dampers_off", &[Held::Damper]);
static EITHER_OFF: Step = Step::freeing("proc.either_off", &[Held::Damper, Held::UnitFoot, Held::UnitTop]);
static BALL_JOINT: Step = Step::freeing("proc.ball_joint", &[Held::BallJoint]);
static OTHER_JOINT: Step = Step::freeing("proc.other_joint", &[Held::BallJoint]);
static LOWER_ARM: Step = Step::lowering("proc.lower_arm");
static LOWER_AXLE: Step = Step::lowering("proc.lower_axle");
/// Where the spring may be one unit with its damper, already free.
static LOWER_EITHER: Step = Step::lowering("proc.lower_either");
static LOWER_EITHER_AXLE: Step = Step::lowering("proc.lower_either_axle");
static COIL_OUT: Step = Step::freeing("proc.coil_out", &[Held::Coil]);
/// Where both sides are lowered together.
static COIL_OUT_BOTH: Step = Step::freeing("proc.coil_out_both", &[Held::Coil]);
static COIL_OUT_HELD: Step = Step::freeing("proc.coil_out_held", &[Held::Coil]).removing(&[Support::SpringHeld]);
static COIL_OUT_EITHER: Step =
    Step::freeing("proc.coil_out_either", &[Held::Coil]).removing(&[Support::SpringHeld, Support::Bench]);

static STRUT_MARKS: Step = Step::of("proc.strut_marks");
/// Only where it may be a strut.
pub(super) static PERHAPS_MARKS: Step = Step::of("proc.perhaps_marks");
static STRUT_FOOT: Step = Step::freeing("proc.strut_foot", &[Held::UnitFoot]);
static STRUT_TOP: Step = Step::freeing("proc.strut_top", &[Held::UnitTop]);
static UNIT_FOOT: Step = Step::freeing("proc.unit_foot", &[Held::UnitFoot]);
static STRUT_LOWER: Step = Step::of("proc.strut_lower");
static UNIT_LOWER: Step = Step::of("proc.unit_lower");
static UNIT_LOWER_AXLE: Step = Step::of("proc.unit_lower_axle");
static UNIT_TOP: Step = Step::freeing("proc.unit_top", &[Held::UnitTop]);
static BENCH: Step = Step::supporting("proc.bench", &[Support::Bench]);
static BENCH_EITHER: Step = Step::supporting("proc.bench_either", &[Support::Bench]);
static CENTRE_NUT: Step = Step::freeing("proc.centre_nut", &[Held::CentreNut]);
static CENTRE_NUT_EITHER: Step = Step::freeing("proc.centre_nut_either", &[Held::CentreNut]);
static BENCH_OUT: Step = Step::freeing("proc.bench_out", &[Held::Coil]).removing(&[Support::Bench]);
/// Only where the damper of a unit is renewed.
static UNIT_DAMPER: Step = Step::of("proc.unit_damper");
static EITHER_DAMPER: Step = Step::of("proc.either_damper");
/// Only where it is open whether the damper of a unit stays.
static UNIT_TEST: Step = Step::of("proc.unit_test");
static EITHER_TEST: Step = Step::of("proc.either_test");
static SLACKEN: Step = Step::of("proc.slacken");
static SLACKEN_BAR: Step = Step::of("proc.slacken_bar");
static SLACKEN_BOTH: Step = Step::of("proc.slacken_both");

static BAR_MARKS: Step = Step::of("proc.bar_marks");
static HOLD_BAR: Step = Step::supporting("proc.hold_bar", &[Support::BarHeld]);
static UNWIND: Step = Step::unloading("proc.unwind");
static BAR_OUT: Step = Step::freeing("proc.bar_out", &[Held::Bar]);

static REST_LEAF: Step = Step::lowering("proc.rest_leaf");
static REST_LEAF_ACROSS: Step = Step::lowering("proc.rest_leaf_across");
static LEAF_CLAMP: Step = Step::freeing("proc.leaf_clamp", &[Held::LeafClamp]);
static LEAF_EYES: Step = Step::freeing("proc.leaf_eyes", &[Held::LeafEyes]);

/// Every step until old springs, dampers or both are out.
pub(super) fn steps(construction: Construction, renew: Renew) -> Steps {
    let Construction { suspension, kind, unit } = construction;
    let mut steps = vec![&MEASURE, &STAND, &WHEELS_OFF, carry(suspension)];
    if renew.is_roll_bar_alone() {
        steps.push(&ROLL_BAR_OFF);
        return steps;
    }
    let apart = match (kind, unit) {
        (SpringKind::TorsionBar, _) if renew.springs.is_out() => bar(construction, renew),
        (SpringKind::Leaf, _) if renew.springs.is_out() => leaf(suspension, renew),
        (SpringKind::TorsionBar | SpringKind::Leaf, _) => damper(suspension, renew),
        (_, Unit::One) => whole(suspension, renew),
        (_, Unit::NotSaid) => either(suspension, renew),
        (_, Unit::Apart) if renew.springs.is_out() => apart(suspension, renew),
        (_, Unit::Apart) => damper(suspension, renew),
    };
    steps.extend(tie(suspension, &apart));
    if renew.bags == BagFitted::Always {
        steps.push(&BAG_EMPTY);
    }
    steps.extend(note(kind, renew.springs));
    steps.extend(marked(suspension, apart));
    // Not before the spring carries nothing.
    if construction.turns_pivots(renew) {
        steps.push(slacken(construction));
    }
    steps.extend(renew.roll_bar.then_some(&ROLL_BAR_OFF));
    steps
}

/// What may be a strut is marked before it comes off.
fn marked(suspension: Suspension, mut apart: Steps) -> Steps {
    let comes_off = |step: &&'static Step| step.frees.iter().any(|h| matches!(h, Held::Damper | Held::UnitFoot));
    if let Some(first) = apart.iter().position(comes_off).filter(|_| suspension == Suspension::NotSaid) {
        apart.insert(first, &PERHAPS_MARKS);
    }
    apart
}

/// An upright that nothing would hold is strapped to the body.
fn tie(suspension: Suspension, apart: &[&'static Step]) -> Option<&'static Step> {
    let opens = |held: Held| apart.iter().any(|step| step.frees.contains(&held));
    match suspension {
        Suspension::Other | Suspension::NotSaid => Some(&TIE_UNKNOWN),
        Suspension::Strut => (opens(Held::BallJoint) || opens(Held::UnitFoot)).then_some(&TIE),
        _ => opens(Held::BallJoint).then_some(&TIE),
    }
}

/// What carries the wheel is carried by a jack before anything else.
fn carry(suspension: Suspension) -> &'static Step {
    match suspension {
        Suspension::TwoArms => &CARRY_TWO_ARMS,
        Suspension::Strut => &CARRY_STRUT,
        Suspension::TrailingArm => &CARRY_TRAILING,
        Suspension::SemiTrailingArm => &CARRY_SEMI,
        Suspension::Beam => &CARRY_BEAM,
        Suspension::TwistBeam => &CARRY_TWIST,
        Suspension::Other => &CARRY_OTHER,
        Suspension::NotSaid => &CARRY_UNKNOWN,
    }
}

/// Pivots are slackened while the springs are out: of a beam both at once, but leaf springs one by one.
fn slacken(construction: Construction) -> &'static Step {
    let is_beam = matches!(construction.suspension, Suspension::Beam | Suspension::TwistBeam);
    match construction.kind {
        kind if is_beam && kind != SpringKind::Leaf => &SLACKEN_BOTH,
        SpringKind::TorsionBar => &SLACKEN_BAR,
        _ => &SLACKEN,
    }
}

/// What only the old springs show. A progressive one that is replaced is replaced by a linear one.
fn note(kind: SpringKind, springs: Part) -> Option<&'static Step> {
    match (kind, springs) {
        (SpringKind::WithHelper, Part::Again | Part::New) => Some(&NOTE_HELPER),
        (SpringKind::Progressive, Part::Again) => Some(&NOTE_PROGRESSIVE),
        _ => None,
    }
}

/// A damper alone; of a strut that is not a unit with its spring, the strut.
fn damper(suspension: Suspension, renew: Renew) -> Steps {
    let mut steps: Steps = match suspension {
        Suspension::Strut => return [&LINKS_OFF].into_iter().chain(strut(renew)).collect(),
        Suspension::Beam | Suspension::TwistBeam => vec![&LINKS_OFF, &DAMPERS_OFF],
        _ => vec![&LINKS_OFF, &DAMPER_OFF],
    };
    steps.extend(out(renew));
    steps
}

/// A strut with no spring on it.
fn strut(renew: Renew) -> impl Iterator<Item = &'static Step> {
    let test = (renew.dampers == Part::Again).then_some(&UNIT_TEST);
    [&STRUT_MARKS, &STRUT_FOOT, &STRUT_LOWER, &STRUT_TOP].into_iter().chain(test)
}

/// Dampers that are renewed or tested come out whole.
fn out(renew: Renew) -> Option<&'static Step> {
    match renew.dampers {
        Part::Stays => None,
        Part::Again => Some(&DAMPER_TEST),
        Part::New => Some(&DAMPER_OUT),
    }
}

/// Strut or coil-over: it comes out whole, and its spring is let out on the bench.
fn whole(suspension: Suspension, renew: Renew) -> Steps {
    let out: Steps = match suspension {
        Suspension::Strut => vec![&LINKS_OFF, &STRUT_MARKS, &STRUT_FOOT, &STRUT_LOWER, &STRUT_TOP],
        Suspension::Beam | Suspension::TwistBeam => vec![&LINKS_OFF, &UNIT_FOOT, &UNIT_LOWER_AXLE, &UNIT_TOP],
        _ => vec![&LINKS_OFF, &UNIT_FOOT, &UNIT_LOWER, &UNIT_TOP],
    };
    let damper = match renew.dampers {
        Part::Stays => None,
        Part::Again => Some(&UNIT_TEST),
        Part::New => Some(&UNIT_DAMPER),
    };
    out.into_iter().chain([&BENCH, &CENTRE_NUT, &BENCH_OUT]).chain(damper).collect()
}

/// A coil on arm or axle, its damper apart from it.
fn apart(suspension: Suspension, renew: Renew) -> Steps {
    let mut steps: Steps = match suspension {
        Suspension::TwoArms => vec![&HOLD_SPRING, &LINKS_OFF, &DAMPER_OFF, &BALL_JOINT, &LOWER_ARM, &COIL_OUT_HELD],
        Suspension::Strut => {
            let mut steps: Steps = vec![&HOLD_SPRING, &LINKS_OFF, &BALL_JOINT, &LOWER_ARM, &COIL_OUT_HELD];
            // The arm is down already, and off the upright.
            let strut = strut(renew).filter(|step| **step != STRUT_LOWER);
            steps.extend(renew.dampers.is_out().then_some(strut).into_iter().flatten());
            return steps;
        }
        Suspension::TrailingArm | Suspension::SemiTrailingArm => {
            vec![&LINKS_OFF, &DAMPER_OFF, &LOWER_ARM, &COIL_OUT]
        }
        Suspension::Beam => vec![&LINKS_OFF, &SIDE_ROD_OFF, &DAMPERS_OFF, &LOWER_AXLE, &COIL_OUT_BOTH],
        Suspension::TwistBeam => vec![&LINKS_OFF, &DAMPERS_OFF, &LOWER_AXLE, &COIL_OUT_BOTH],
        Suspension::Other | Suspension::NotSaid => {
            vec![&HOLD_SPRING, &LINKS_OFF, &DAMPER_OFF, &OTHER_JOINT, &LOWER_ARM, &COIL_OUT_HELD]
        }
    };
    steps.extend(out(renew));
    steps
}

/// A coil that may or may not sit on the damper: held as if it were apart, and never let out but on the
/// bench.
fn either(suspension: Suspension, renew: Renew) -> Steps {
    let joint: Steps = match suspension {
        Suspension::TwoArms | Suspension::Strut => vec![&BALL_JOINT, &LOWER_EITHER],
        Suspension::TrailingArm | Suspension::SemiTrailingArm => vec![&LOWER_EITHER],
        Suspension::Beam | Suspension::TwistBeam => vec![&LOWER_EITHER_AXLE],
        Suspension::Other | Suspension::NotSaid => vec![&OTHER_JOINT, &LOWER_EITHER],
    };
    let before: Steps = vec![&LOOK, &HOLD_SEPARATE, &LINKS_OFF, &EITHER_OFF];
    let damper = match renew.dampers {
        Part::Stays => None,
        Part::Again => Some(&EITHER_TEST),
        Part::New => Some(&EITHER_DAMPER),
    };
    before.into_iter().chain(joint).chain([&BENCH_EITHER, &CENTRE_NUT_EITHER, &COIL_OUT_EITHER]).chain(damper).collect()
}

/// A torsion bar is unwound first.
fn bar(construction: Construction, renew: Renew) -> Steps {
    let dampers = if renew.dampers.is_out() { damper(construction.suspension, renew) } else { Steps::new() };
    let before: Steps = vec![&BAR_MARKS, &HOLD_BAR, &UNWIND];
    before.into_iter().chain(dampers).chain([&BAR_OUT]).collect()
}

/// A leaf's load is off before U-bolts and shackle.
fn leaf(suspension: Suspension, renew: Renew) -> Steps {
    let rest = match suspension {
        Suspension::Beam | Suspension::TwistBeam | Suspension::Other | Suspension::NotSaid => &REST_LEAF,
        _ => &REST_LEAF_ACROSS,
    };
    damper(suspension, renew).into_iter().chain([rest, &LEAF_CLAMP, &LEAF_EYES]).collect()
}
