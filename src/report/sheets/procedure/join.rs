//! The steps from the new part to the road test.

use super::loosen::{DAMPER_OUT, DAMPER_TEST, NOTE_HELPER, PERHAPS_MARKS, TIE_UNKNOWN};
use super::step::{Held, Place, Step, Support};
use crate::job::{BagFitted, Suspension};

static BENCH_NEW: Step = Step::supporting("proc.bench_new", &[Support::Bench]);
static BENCH_IN: Step = Step::joining("proc.bench_in", &[Held::Coil]);
static NUT_ON: Step = Step::joining("proc.nut_on", &[Held::CentreNut]).tightening(&[Place::CentreNut]);
static BENCH_RELEASE: Step = Step::of("proc.bench_release").removing(&[Support::Bench]);
static STRUT_UP: Step = Step::joining("proc.strut_up", &[Held::UnitTop]).tightening(&[Place::StrutTop]);
static STRUT_DOWN: Step = Step::joining("proc.strut_down", &[Held::UnitFoot]).tightening(&[Place::StrutFoot]);
static UNIT_UP: Step = Step::joining("proc.unit_up", &[Held::UnitTop]).tightening(&[Place::UnitTop]);
static UNIT_DOWN: Step = Step::joining("proc.unit_down", &[Held::UnitFoot]);
static EITHER_NEW: Step = Step::supporting("proc.either_new", &[Support::SpringHeld, Support::Bench]);
static EITHER_IN: Step = Step::joining("proc.either_in", &[Held::Coil, Held::CentreNut])
    .removing(&[Support::Bench])
    .tightening(&[Place::CentreNut]);
static EITHER_ON: Step =
    Step::joining("proc.either_on", &[Held::Damper, Held::UnitFoot, Held::UnitTop]).tightening(&[Place::UnitTop]);
static HOLD_NEW: Step = Step::supporting("proc.hold_new", &[Support::SpringHeld]);
static COIL_IN: Step = Step::joining("proc.coil_in", &[Held::Coil]);
static COIL_IN_BOTH: Step = Step::joining("proc.coil_in_both", &[Held::Coil]);
static RAISE_ARM: Step = Step::joining("proc.raise_arm", &[Held::BallJoint]).tightening(&[Place::BallJoint]);
static RAISE_OTHER: Step = Step::joining("proc.raise_other", &[Held::BallJoint]).tightening(&[Place::OtherJoint]);
static RAISE_AXLE: Step = Step::of("proc.raise_axle");
static RAISE_TRAILING: Step = Step::of("proc.raise_trailing");
static LET_SPRING: Step = Step::of("proc.let_spring").removing(&[Support::SpringHeld]);
static LET_SEPARATE: Step = Step::of("proc.let_separate").removing(&[Support::SpringHeld]);
static HELPER_IN: Step = Step::of("proc.helper_in");
static DAMPER_NEW: Step = Step::joining("proc.damper_new", &[Held::Damper]);
static DAMPER_AGAIN: Step = Step::joining("proc.damper_again", &[Held::Damper]);
static DAMPER_ON: Step = Step::joining("proc.damper_on", &[Held::Damper]);
static SIDE_ROD_ON: Step = Step::joining("proc.side_rod_on", &[Held::SideRod]);
static SHAFT_ON: Step = Step::of("proc.shaft_on").tightening(&[Place::Shaft]);
static ROLL_BAR_IN: Step = Step::joining("proc.roll_bar_in", &[Held::RollBar]);
static LINKS_ON: Step = Step::joining("proc.links_on", &[Held::Links]);
static PERHAPS_STRUT: Step = Step::of("proc.perhaps_strut").tightening(&[Place::PerhapsStrut]);
static RECONNECT: Step = Step::joining("proc.reconnect", &[Held::TooShort]).tightening(&[Place::TooShort]);
static UNTIE: Step = Step::of("proc.untie").removing(&[Support::Tie]);
static UNTIE_UNKNOWN: Step = Step::of("proc.untie_unknown").removing(&[Support::Tie]);
static BAR_IN: Step = Step::joining("proc.bar_in", &[Held::Bar]);
static WIND: Step = Step::of("proc.wind").removing(&[Support::BarHeld]);
static LEAF_IN: Step = Step::joining("proc.leaf_in", &[Held::LeafEyes]);
static LEAF_CLAMPED: Step = Step::joining("proc.leaf_clamped", &[Held::LeafClamp]).tightening(&[Place::UBolts]);
pub(super) static WHEELS_ON: Step = Step::joining("proc.wheels_on", &[Held::Wheel])
    .removing(&[Support::Jack, Support::Stands, Support::Chocks])
    .tightening(&[Place::WheelNuts]);
static SETTLE: Step = Step::of("proc.settle");
static BAG_IN: Step = Step::of("proc.bag_in");
static BAG_FILL: Step = Step::of("proc.bag_fill");
static BAR_HEIGHT: Step = Step::of("proc.bar_height");
pub(super) static BAR_LOCK: Step = Step::of("proc.bar_lock").tightening(&[Place::BarLock]);
/// The same, where another axle still changes the height.
pub(super) static BAR_LOCK_LATER: Step = Step::of("proc.bar_lock_later").tightening(&[Place::BarLock]);
pub(super) static WEIGH: Step = Step::of("proc.weigh");
pub(super) static CHECKS: Step = Step::of("proc.checks");
static U_BOLTS_AGAIN: Step = Step::of("proc.u_bolts_again").tightening(&[Place::UBoltsAgain]);

/// Where rubber is tightened; its places go by the construction.
pub(super) static RIDE_HEIGHT: Step = Step::of("proc.ride_height");
/// The same, of two axles of different construction.
pub(super) static RIDE_HEIGHT_BOTH: Step = Step::of("proc.ride_height_both");
/// The same, where another axle still changes the height.
pub(super) static RIDE_HEIGHT_LATER: Step = Step::of("proc.ride_height_later");

/// Every step that joins again what these have taken apart, to the last check.
pub(super) fn steps(taken_apart: &[&'static Step], suspension: Suspension, bags: BagFitted) -> Vec<&'static Step> {
    let open = |held: Held| taken_apart.iter().any(|step| step.frees.contains(&held));
    let ends: [(bool, &'static Step); 9] = [
        (true, &WHEELS_ON),
        (bags != BagFitted::No, &BAG_FILL),
        (true, &SETTLE),
        (open(Held::Bar), &BAR_HEIGHT),
        (true, &WEIGH),
        (open(Held::Bar), &BAR_LOCK),
        (true, &RIDE_HEIGHT),
        (true, &CHECKS),
        (open(Held::LeafClamp), &U_BOLTS_AGAIN),
    ];
    let chosen = |steps: Vec<(bool, &'static Step)>| steps.into_iter().filter(|s| s.0).map(|s| s.1);
    let (springs, rest) = (springs(taken_apart, suspension), rest(taken_apart, suspension, bags));
    [springs, rest, ends.to_vec()].into_iter().flat_map(chosen).collect()
}

/// Until the springs are in and carry.
fn springs(taken_apart: &[&'static Step], suspension: Suspension) -> Vec<(bool, &'static Step)> {
    let open = |held: Held| taken_apart.iter().any(|step| step.frees.contains(&held));
    let in_place = |support: Support| taken_apart.iter().any(|step| step.supports.contains(&support));
    let is_strut = suspension == Suspension::Strut;
    // One that is not said is joined by steps of its own.
    let is_either = open(Held::UnitFoot) && open(Held::Damper);
    let is_whole = open(Held::CentreNut) && !is_either;
    let has_joint = open(Held::BallJoint);
    let is_named = matches!(suspension, Suspension::Other | Suspension::NotSaid);
    let is_on_axle = open(Held::Coil) && !is_whole && !has_joint;
    let is_beam = matches!(suspension, Suspension::Beam | Suspension::TwistBeam);
    let is_held = in_place(Support::SpringHeld) && !is_either;
    let is_apart = open(Held::Coil) && !is_whole && !is_either;
    let has_helper = taken_apart.contains(&&NOTE_HELPER);
    vec![
        (is_whole, &BENCH_NEW),
        (is_whole && has_helper, &HELPER_IN),
        (is_whole, &BENCH_IN),
        (is_whole, &NUT_ON),
        (is_whole, &BENCH_RELEASE),
        (is_either, &EITHER_NEW),
        (is_either && has_helper, &HELPER_IN),
        (is_either, &EITHER_IN),
        (open(Held::Bar), &BAR_IN),
        (open(Held::LeafEyes), &LEAF_IN),
        (open(Held::LeafClamp), &LEAF_CLAMPED),
        (open(Held::UnitTop) && !is_strut && !is_either, &UNIT_UP),
        (open(Held::UnitFoot) && !is_strut && !is_either, &UNIT_DOWN),
        (is_held, &HOLD_NEW),
        (is_apart && has_helper, &HELPER_IN),
        (is_apart && !is_beam, &COIL_IN),
        (is_apart && is_beam, &COIL_IN_BOTH),
        (has_joint && !is_named, &RAISE_ARM),
        (has_joint && is_named, &RAISE_OTHER),
        (is_on_axle && is_beam, &RAISE_AXLE),
        (is_on_axle && !is_beam, &RAISE_TRAILING),
        // On an arm that carries its upright again, before the spring is let go.
        (open(Held::UnitTop) && is_strut && !is_either, &STRUT_UP),
        (open(Held::UnitFoot) && is_strut && !is_either, &STRUT_DOWN),
        (is_held, &LET_SPRING),
        (in_place(Support::SpringHeld) && is_either, &LET_SEPARATE),
    ]
}

/// Dampers, shafts, rods, links and bags.
fn rest(taken_apart: &[&'static Step], suspension: Suspension, bags: BagFitted) -> Vec<(bool, &'static Step)> {
    let open = |held: Held| taken_apart.iter().any(|step| step.frees.contains(&held));
    let in_place = |support: Support| taken_apart.iter().any(|step| step.supports.contains(&support));
    let is_either = open(Held::UnitFoot) && open(Held::Damper);
    let (is_new, is_tested) = (taken_apart.contains(&&DAMPER_OUT), taken_apart.contains(&&DAMPER_TEST));
    let is_unknown = taken_apart.contains(&&TIE_UNKNOWN);
    vec![
        (open(Held::Damper) && is_new, &DAMPER_NEW),
        (open(Held::Damper) && is_tested, &DAMPER_AGAIN),
        (open(Held::Damper) && !is_either && !is_new && !is_tested, &DAMPER_ON),
        (is_either, &EITHER_ON),
        (taken_apart.contains(&&PERHAPS_MARKS), &PERHAPS_STRUT),
        (suspension == Suspension::SemiTrailingArm, &SHAFT_ON),
        (open(Held::SideRod), &SIDE_ROD_ON),
        (in_place(Support::BarHeld), &WIND),
        (open(Held::RollBar), &ROLL_BAR_IN),
        (open(Held::Links), &LINKS_ON),
        (open(Held::TooShort), &RECONNECT),
        (in_place(Support::Tie) && !is_unknown, &UNTIE),
        (in_place(Support::Tie) && is_unknown, &UNTIE_UNKNOWN),
        (bags == BagFitted::WithNew, &BAG_IN),
    ]
}
