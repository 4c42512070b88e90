//! The steps from the new part to the road test.

use super::loosen::{DAMPER_OUT, DAMPER_TEST, NOTE_HELPER, PERHAPS_MARKS, TIE_UNKNOWN};
use super::step::{Held, Place, Step, Support};
use crate::job::{BagFitted, Suspension};

const EITHER_IN: Step = Step::joining("proc.either_in", &[Held::Coil, Held::CentreNut])
    .removing(&[Support::Bench])
    .tightening(&[Place::CentreNut]);
const EITHER_ON: Step =
    Step::joining("proc.either_on", &[Held::Damper, Held::UnitFoot, Held::UnitTop]).tightening(&[Place::UnitTop]);
const HELPER_IN: Step = Step::of("proc.helper_in");
pub(super) const WHEELS_ON: Step = Step::joining("proc.wheels_on", &[Held::Wheel])
    .removing(&[Support::Jack, Support::Stands, Support::Chocks])
    .tightening(&[Place::WheelNuts]);
pub(super) const BAR_LOCK: Step = Step::of("proc.bar_lock").tightening(&[Place::BarLock]);
/// The same, where another axle still changes the height.
pub(super) const BAR_LOCK_LATER: Step = Step::of("proc.bar_lock_later").tightening(&[Place::BarLock]);
pub(super) const WEIGH: Step = Step::of("proc.weigh");
pub(super) const CHECKS: Step = Step::of("proc.checks");

/// Where rubber is tightened; its places go by the construction.
pub(super) const RIDE_HEIGHT: Step = Step::of("proc.ride_height");
/// The same, of two axles of different construction.
pub(super) const RIDE_HEIGHT_BOTH: Step = Step::of("proc.ride_height_both");
/// The same, where another axle still changes the height.
pub(super) const RIDE_HEIGHT_LATER: Step = Step::of("proc.ride_height_later");

/// Every step that joins again what these have taken apart, to the last check.
pub(super) fn steps(taken_apart: &[Step], suspension: Suspension, bags: BagFitted) -> Vec<Step> {
    let open = |held: Held| taken_apart.iter().any(|step| step.frees.contains(&held));
    let ends = vec![
        (true, WHEELS_ON),
        (bags != BagFitted::No, Step::of("proc.bag_fill")),
        (true, Step::of("proc.settle")),
        (open(Held::Bar), Step::of("proc.bar_height")),
        (true, WEIGH),
        (open(Held::Bar), BAR_LOCK),
        (true, RIDE_HEIGHT),
        (true, CHECKS),
        (open(Held::LeafClamp), Step::of("proc.u_bolts_again").tightening(&[Place::UBoltsAgain])),
    ];
    let chosen = |steps: Vec<(bool, Step)>| steps.into_iter().filter(|s| s.0).map(|s| s.1);
    let (springs, rest) = (springs(taken_apart, suspension), rest(taken_apart, suspension, bags));
    [springs, rest, ends].into_iter().flat_map(chosen).collect()
}

/// Until the springs are in and carry.
fn springs(taken_apart: &[Step], suspension: Suspension) -> Vec<(bool, Step)> {
    let open = |held: Held| taken_apart.iter().any(|step| step.frees.contains(&held));
    let in_place = |support: Support| taken_apart.iter().any(|step| step.supports.contains(&support));
    let is_strut = suspension == Suspension::Strut;
    // One that is not said is joined by steps of its own.
    let is_either = open(Held::UnitFoot) && open(Held::Damper);
    let is_whole = open(Held::CentreNut) && !is_either;
    let (has_top, has_foot) = (open(Held::UnitTop) && !is_either, open(Held::UnitFoot) && !is_either);
    let has_joint = open(Held::BallJoint);
    let is_named = matches!(suspension, Suspension::Other | Suspension::NotSaid);
    let is_on_axle = open(Held::Coil) && !is_whole && !has_joint;
    let is_beam = matches!(suspension, Suspension::Beam | Suspension::TwistBeam);
    let is_held = in_place(Support::SpringHeld) && !is_either;
    let is_apart = open(Held::Coil) && !is_whole && !is_either;
    let has_helper = taken_apart.contains(&NOTE_HELPER);
    vec![
        (is_whole, Step::supporting("proc.bench_new", &[Support::Bench])),
        (is_whole && has_helper, HELPER_IN),
        (is_whole, Step::joining("proc.bench_in", &[Held::Coil])),
        (is_whole, Step::joining("proc.nut_on", &[Held::CentreNut]).tightening(&[Place::CentreNut])),
        (is_whole, Step::of("proc.bench_release").removing(&[Support::Bench])),
        (is_either, Step::supporting("proc.either_new", &[Support::SpringHeld, Support::Bench])),
        (is_either && has_helper, HELPER_IN),
        (is_either, EITHER_IN),
        (open(Held::Bar), Step::joining("proc.bar_in", &[Held::Bar])),
        (open(Held::LeafEyes), Step::joining("proc.leaf_in", &[Held::LeafEyes])),
        (open(Held::LeafClamp), Step::joining("proc.leaf_clamped", &[Held::LeafClamp]).tightening(&[Place::UBolts])),
        (has_top && !is_strut, Step::joining("proc.unit_up", &[Held::UnitTop]).tightening(&[Place::UnitTop])),
        (has_foot && !is_strut, Step::joining("proc.unit_down", &[Held::UnitFoot])),
        (is_held, Step::supporting("proc.hold_new", &[Support::SpringHeld])),
        (is_apart && has_helper, HELPER_IN),
        (is_apart && !is_beam, Step::joining("proc.coil_in", &[Held::Coil])),
        (is_apart && is_beam, Step::joining("proc.coil_in_both", &[Held::Coil])),
        (has_joint && !is_named, Step::joining("proc.raise_arm", &[Held::BallJoint]).tightening(&[Place::BallJoint])),
        (has_joint && is_named, Step::joining("proc.raise_other", &[Held::BallJoint]).tightening(&[Place::OtherJoint])),
        (is_on_axle && is_beam, Step::of("proc.raise_axle")),
        (is_on_axle && !is_beam, Step::of("proc.raise_trailing")),
        // On an arm that carries its upright again, before the spring is let go.
        (has_top && is_strut, Step::joining("proc.strut_up", &[Held::UnitTop]).tightening(&[Place::StrutTop])),
        (has_foot && is_strut, Step::joining("proc.strut_down", &[Held::UnitFoot]).tightening(&[Place::StrutFoot])),
        (is_held, Step::of("proc.let_spring").removing(&[Support::SpringHeld])),
        (in_place(Support::SpringHeld) && is_either, Step::of("proc.let_separate").removing(&[Support::SpringHeld])),
    ]
}

/// Dampers, shafts, rods, links and bags.
fn rest(taken_apart: &[Step], suspension: Suspension, bags: BagFitted) -> Vec<(bool, Step)> {
    let open = |held: Held| taken_apart.iter().any(|step| step.frees.contains(&held));
    let in_place = |support: Support| taken_apart.iter().any(|step| step.supports.contains(&support));
    let is_either = open(Held::UnitFoot) && open(Held::Damper);
    let (is_new, is_tested) = (taken_apart.contains(&DAMPER_OUT), taken_apart.contains(&DAMPER_TEST));
    let is_unknown = taken_apart.contains(&TIE_UNKNOWN);
    vec![
        (open(Held::Damper) && is_new, Step::joining("proc.damper_new", &[Held::Damper])),
        (open(Held::Damper) && is_tested, Step::joining("proc.damper_again", &[Held::Damper])),
        (open(Held::Damper) && !is_either && !is_new && !is_tested, Step::joining("proc.damper_on", &[Held::Damper])),
        (is_either, EITHER_ON),
        (taken_apart.contains(&PERHAPS_MARKS), Step::of("proc.perhaps_strut").tightening(&[Place::PerhapsStrut])),
        (suspension == Suspension::SemiTrailingArm, Step::of("proc.shaft_on").tightening(&[Place::Shaft])),
        (open(Held::SideRod), Step::joining("proc.side_rod_on", &[Held::SideRod])),
        (in_place(Support::BarHeld), Step::of("proc.wind").removing(&[Support::BarHeld])),
        (open(Held::RollBar), Step::joining("proc.roll_bar_in", &[Held::RollBar])),
        (open(Held::Links), Step::joining("proc.links_on", &[Held::Links])),
        (open(Held::TooShort), Step::joining("proc.reconnect", &[Held::TooShort]).tightening(&[Place::TooShort])),
        (in_place(Support::Tie) && !is_unknown, Step::of("proc.untie").removing(&[Support::Tie])),
        (in_place(Support::Tie) && is_unknown, Step::of("proc.untie_unknown").removing(&[Support::Tie])),
        (bags == BagFitted::WithNew, Step::of("proc.bag_in")),
    ]
}
