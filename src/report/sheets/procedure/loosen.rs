//! The steps until the spring is out.

use super::step::{Held, Step, Support};
use super::{Construction, Part, Renew, Unit};
use crate::job::{BagFitted, SpringKind, Suspension};

type Steps = Vec<Step>;

pub(super) const MEASURE: Step = Step::supporting("proc.measure", &[Support::Chocks]);
pub(super) const CHOCK: Step = Step::supporting("proc.chock", &[Support::Chocks]);
pub(super) const TIE_UNKNOWN: Step = Step::supporting("proc.tie_unknown", &[Support::Tie]);

pub(super) const NOTE_HELPER: Step = Step::of("proc.note.helper");
const HOLD_SPRING: Step = Step::supporting("proc.hold_spring", &[Support::SpringHeld]);
const LINKS_OFF: Step = Step::freeing("proc.links_off", &[Held::Links]);
const ROLL_BAR_OFF: Step = Step::freeing("proc.roll_bar_off", &[Held::RollBar]);
const SIDE_ROD_OFF: Step = Step::freeing("proc.side_rod_off", &[Held::SideRod]);
const DAMPER_OFF: Step = Step::freeing("proc.damper_off", &[Held::Damper]);
/// Only where the dampers are renewed.
pub(super) const DAMPER_OUT: Step = Step::of("proc.damper_out");
/// Only where it is open whether the old ones stay.
pub(super) const DAMPER_TEST: Step = Step::of("proc.damper_test");
const DAMPERS_OFF: Step = Step::freeing("proc.dampers_off", &[Held::Damper]);
const BALL_JOINT: Step = Step::freeing("proc.ball_joint", &[Held::BallJoint]);
const OTHER_JOINT: Step = Step::freeing("proc.other_joint", &[Held::BallJoint]);
const LOWER_ARM: Step = Step::lowering("proc.lower_arm");
const LOWER_AXLE: Step = Step::lowering("proc.lower_axle");
/// Where the spring may be one unit with its damper, already free.
const LOWER_EITHER: Step = Step::lowering("proc.lower_either");
/// Where both sides are lowered together.
const COIL_OUT_BOTH: Step = Step::freeing("proc.coil_out_both", &[Held::Coil]);
const COIL_OUT_HELD: Step = Step::freeing("proc.coil_out_held", &[Held::Coil]).removing(&[Support::SpringHeld]);

const STRUT_MARKS: Step = Step::of("proc.strut_marks");
/// Only where it may be a strut.
pub(super) const PERHAPS_MARKS: Step = Step::of("proc.perhaps_marks");
const STRUT_FOOT: Step = Step::freeing("proc.strut_foot", &[Held::UnitFoot]);
const STRUT_TOP: Step = Step::freeing("proc.strut_top", &[Held::UnitTop]);
const STRUT_LOWER: Step = Step::of("proc.strut_lower");
/// Only where it is open whether the damper of a unit stays.
const UNIT_TEST: Step = Step::of("proc.unit_test");

/// Every step until old springs, dampers or both are out.
pub(super) fn steps(construction: Construction, renew: Renew) -> Steps {
    let Construction { suspension, kind, unit } = construction;
    let stand = Step::supporting("proc.stand", &[Support::Stands]);
    let mut steps = vec![MEASURE, stand, Step::freeing("proc.wheels_off", &[Held::Wheel]), carry(suspension)];
    if renew.is_roll_bar_alone() {
        steps.push(ROLL_BAR_OFF);
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
        steps.push(Step::of("proc.bag_empty"));
    }
    steps.extend(note(kind, renew.springs));
    steps.extend(marked(suspension, apart));
    // Not before the spring carries nothing.
    if construction.turns_pivots(renew) {
        steps.push(slacken(construction));
    }
    steps.extend(renew.roll_bar.then_some(ROLL_BAR_OFF));
    steps
}

/// What may be a strut is marked before it comes off.
fn marked(suspension: Suspension, mut apart: Steps) -> Steps {
    let comes_off = |step: &Step| step.frees.iter().any(|h| matches!(h, Held::Damper | Held::UnitFoot));
    if let Some(first) = apart.iter().position(comes_off).filter(|_| suspension == Suspension::NotSaid) {
        apart.insert(first, PERHAPS_MARKS);
    }
    apart
}

/// An upright that nothing would hold is strapped to the body.
fn tie(suspension: Suspension, apart: &[Step]) -> Option<Step> {
    let opens = |held: Held| apart.iter().any(|step| step.frees.contains(&held));
    let is_loose = match suspension {
        Suspension::Other | Suspension::NotSaid => return Some(TIE_UNKNOWN),
        Suspension::Strut => opens(Held::BallJoint) || opens(Held::UnitFoot),
        _ => opens(Held::BallJoint),
    };
    is_loose.then_some(Step::supporting("proc.tie", &[Support::Tie]))
}

/// What carries the wheel is carried by a jack before anything else.
fn carry(suspension: Suspension) -> Step {
    let text = match suspension {
        Suspension::TwoArms => "proc.carry.two_arms",
        Suspension::Strut => "proc.carry.strut",
        Suspension::TrailingArm => "proc.carry.trailing",
        Suspension::SemiTrailingArm => "proc.carry.semi",
        Suspension::Beam => "proc.carry.beam",
        Suspension::TwistBeam => "proc.carry.twist",
        Suspension::Other => "proc.carry.other",
        Suspension::NotSaid => "proc.carry.unknown",
    };
    Step::supporting(text, &[Support::Jack])
}

/// Pivots are slackened while the springs are out: of a beam both at once, but leaf springs one by one.
fn slacken(construction: Construction) -> Step {
    let is_beam = matches!(construction.suspension, Suspension::Beam | Suspension::TwistBeam);
    Step::of(match construction.kind {
        kind if is_beam && kind != SpringKind::Leaf => "proc.slacken_both",
        SpringKind::TorsionBar => "proc.slacken_bar",
        _ => "proc.slacken",
    })
}

/// What only the old springs show. A progressive one that is replaced is replaced by a linear one.
fn note(kind: SpringKind, springs: Part) -> Option<Step> {
    match (kind, springs) {
        (SpringKind::WithHelper, Part::Again | Part::New) => Some(NOTE_HELPER),
        (SpringKind::Progressive, Part::Again) => Some(Step::of("proc.note.progressive")),
        _ => None,
    }
}

/// A damper alone; of a strut that is not a unit with its spring, the strut.
fn damper(suspension: Suspension, renew: Renew) -> Steps {
    let mut steps = match suspension {
        Suspension::Strut => return [LINKS_OFF].into_iter().chain(strut(renew)).collect(),
        Suspension::Beam | Suspension::TwistBeam => vec![LINKS_OFF, DAMPERS_OFF],
        _ => vec![LINKS_OFF, DAMPER_OFF],
    };
    steps.extend(out(renew, DAMPER_TEST, DAMPER_OUT));
    steps
}

/// A strut with no spring on it.
fn strut(renew: Renew) -> impl Iterator<Item = Step> {
    let test = (renew.dampers == Part::Again).then_some(UNIT_TEST);
    [STRUT_MARKS, STRUT_FOOT, STRUT_LOWER, STRUT_TOP].into_iter().chain(test)
}

/// Dampers that are renewed or tested come out whole.
fn out(renew: Renew, tested: Step, renewed: Step) -> Option<Step> {
    match renew.dampers {
        Part::Stays => None,
        Part::Again => Some(tested),
        Part::New => Some(renewed),
    }
}

/// Strut or coil-over: it comes out whole, and its spring is let out on the bench.
fn whole(suspension: Suspension, renew: Renew) -> Steps {
    let foot = Step::freeing("proc.unit_foot", &[Held::UnitFoot]);
    let top = Step::freeing("proc.unit_top", &[Held::UnitTop]);
    let mut steps = match suspension {
        Suspension::Strut => vec![LINKS_OFF, STRUT_MARKS, STRUT_FOOT, STRUT_LOWER, STRUT_TOP],
        Suspension::Beam | Suspension::TwistBeam => vec![LINKS_OFF, foot, Step::of("proc.unit_lower_axle"), top],
        _ => vec![LINKS_OFF, foot, Step::of("proc.unit_lower"), top],
    };
    steps.extend([
        Step::supporting("proc.bench", &[Support::Bench]),
        Step::freeing("proc.centre_nut", &[Held::CentreNut]),
        Step::freeing("proc.bench_out", &[Held::Coil]).removing(&[Support::Bench]),
    ]);
    steps.extend(out(renew, UNIT_TEST, Step::of("proc.unit_damper")));
    steps
}

/// A coil on arm or axle, its damper apart from it.
fn apart(suspension: Suspension, renew: Renew) -> Steps {
    let mut steps = match suspension {
        Suspension::TwoArms => vec![HOLD_SPRING, LINKS_OFF, DAMPER_OFF, BALL_JOINT, LOWER_ARM, COIL_OUT_HELD],
        Suspension::Strut => {
            let mut steps = vec![HOLD_SPRING, LINKS_OFF, BALL_JOINT, LOWER_ARM, COIL_OUT_HELD];
            // The arm is down already, and off the upright.
            let strut = strut(renew).filter(|step| *step != STRUT_LOWER);
            steps.extend(renew.dampers.is_out().then_some(strut).into_iter().flatten());
            return steps;
        }
        Suspension::TrailingArm | Suspension::SemiTrailingArm => {
            vec![LINKS_OFF, DAMPER_OFF, LOWER_ARM, Step::freeing("proc.coil_out", &[Held::Coil])]
        }
        Suspension::Beam => vec![LINKS_OFF, SIDE_ROD_OFF, DAMPERS_OFF, LOWER_AXLE, COIL_OUT_BOTH],
        Suspension::TwistBeam => vec![LINKS_OFF, DAMPERS_OFF, LOWER_AXLE, COIL_OUT_BOTH],
        Suspension::Other | Suspension::NotSaid => {
            vec![HOLD_SPRING, LINKS_OFF, DAMPER_OFF, OTHER_JOINT, LOWER_ARM, COIL_OUT_HELD]
        }
    };
    steps.extend(out(renew, DAMPER_TEST, DAMPER_OUT));
    steps
}

/// A coil that may or may not sit on the damper: held as if it were apart, and never let out but on the
/// bench.
fn either(suspension: Suspension, renew: Renew) -> Steps {
    let mut steps = vec![
        Step::of("proc.look"),
        Step::supporting("proc.hold_separate", &[Support::SpringHeld]),
        LINKS_OFF,
        Step::freeing("proc.either_off", &[Held::Damper, Held::UnitFoot, Held::UnitTop]),
    ];
    steps.extend(match suspension {
        Suspension::TwoArms | Suspension::Strut => vec![BALL_JOINT, LOWER_EITHER],
        Suspension::TrailingArm | Suspension::SemiTrailingArm => vec![LOWER_EITHER],
        Suspension::Beam | Suspension::TwistBeam => vec![Step::lowering("proc.lower_either_axle")],
        Suspension::Other | Suspension::NotSaid => vec![OTHER_JOINT, LOWER_EITHER],
    });
    steps.extend([
        Step::supporting("proc.bench_either", &[Support::Bench]),
        Step::freeing("proc.centre_nut_either", &[Held::CentreNut]),
        Step::freeing("proc.coil_out_either", &[Held::Coil]).removing(&[Support::SpringHeld, Support::Bench]),
    ]);
    steps.extend(out(renew, Step::of("proc.either_test"), Step::of("proc.either_damper")));
    steps
}

/// A torsion bar is unwound first.
fn bar(construction: Construction, renew: Renew) -> Steps {
    let dampers = if renew.dampers.is_out() { damper(construction.suspension, renew) } else { Steps::new() };
    let hold = Step::supporting("proc.hold_bar", &[Support::BarHeld]);
    let before = [Step::of("proc.bar_marks"), hold, Step::unloading("proc.unwind")];
    before.into_iter().chain(dampers).chain([Step::freeing("proc.bar_out", &[Held::Bar])]).collect()
}

/// A leaf's load is off before U-bolts and shackle.
fn leaf(suspension: Suspension, renew: Renew) -> Steps {
    let rest = match suspension {
        Suspension::Beam | Suspension::TwistBeam | Suspension::Other | Suspension::NotSaid => "proc.rest_leaf",
        _ => "proc.rest_leaf_across",
    };
    let mut steps = damper(suspension, renew);
    steps.extend([
        Step::lowering(rest),
        Step::freeing("proc.leaf_clamp", &[Held::LeafClamp]),
        Step::freeing("proc.leaf_eyes", &[Held::LeafEyes]),
    ]);
    steps
}
