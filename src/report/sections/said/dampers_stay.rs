//! What becomes of the old dampers of an axle, in one sentence: the title of their step, above their table and in text.

use super::needed;
use crate::base::language::tr;
use crate::base::units::{Dim, Quantity, Ratio, UnitChoice, display};
use crate::job::Side;
use crate::say;
use crate::solve::answer::{Answer, AxleAnswer, DampersOpen, OldDampers, State};

/// Whether the old dampers can stay, with their damping ratio now and before: "The old front dampers can stay: damping
/// ratio 0.57 ± 0.06, was 0.62." Where that is not known, what would say it.
pub fn title(answer: &Answer, side: Side, units: &UnitChoice) -> String {
    let (axle, end) = (answer.axle(side), side.word_inside());
    let verdict = answer.old_dampers(side);
    let (is_soft, is_sure) = match verdict {
        OldDampers::Open(open) => return not_known(axle, open),
        OldDampers::Suit { is_near: false } => {
            return say!("The old {end} dampers can stay: {found}.", end, found = found(answer, axle, units));
        }
        OldDampers::Suit { is_near: true } => {
            return say!(
                "The old {end} dampers can probably stay: {found}; {target}, a limit within the ±.",
                end,
                found = found(answer, axle, units),
                target = target(axle)
            );
        }
        OldDampers::Soft { is_sure } => (true, is_sure),
        OldDampers::Stiff { is_sure } => (false, is_sure),
    };
    let (found, target) = (found(answer, axle, units), target(axle));
    match (is_soft, is_sure, was_so(axle, is_soft)) {
        (true, false, _) => {
            say!("The old {end} dampers may be too soft: {found}; {target}. Test them.", end, found, target)
        }
        (false, false, _) => {
            say!("The old {end} dampers may be too stiff: {found}; {target}. Test them.", end, found, target)
        }
        (true, true, true) => {
            say!("The old {end} dampers are too soft, as before the change: {found}; {target}.", end, found, target)
        }
        (false, true, true) => {
            say!("The old {end} dampers are too stiff, as before the change: {found}; {target}.", end, found, target)
        }
        (true, true, false) => {
            say!("The old {end} dampers are too soft now: {found}; {target}.", end, found, target)
        }
        (false, true, false) => {
            say!("The old {end} dampers are too stiff now: {found}; {target}.", end, found, target)
        }
    }
}

/// "damping ratio 0.57 ± 0.06, was 0.62".
fn found(answer: &Answer, axle: &AxleAnswer, units: &UnitChoice) -> String {
    let of_new = |a: &AxleAnswer| a.standing.new.as_ref()?.old_damper_ratio.map(Quantity::si);
    let u = answer.checked(axle.side).nudged.u_of(of_new);
    let is = of_new(axle).map_or_else(String::new, |si| display::rounded_with_u(si, u, Dim::Ratio, units));
    match ratio(axle, State::Before) {
        Some(was) => say!("damping ratio {is}, was {was}", is, was = display::rounded(was, units)),
        None => say!("damping ratio {is}", is),
    }
}

/// "the target is 0.25 to 0.35".
fn target(axle: &AxleAnswer) -> String {
    let Some(damping) = &axle.damping else { return String::new() };
    let [low, high] = [damping.ratio.low, damping.ratio.high].map(Quantity::si);
    say!("the target is {low:.2} to {high:.2}", low, high)
}

/// They were off to the same side before the change.
fn was_so(axle: &AxleAnswer, is_soft: bool) -> bool {
    let limits = axle.damping.as_ref().map(|d| d.ratio);
    ratio(axle, State::Before).zip(limits).is_some_and(|(was, limits)| match is_soft {
        true => was < limits.low,
        false => was > limits.high,
    })
}

/// The old dampers' damping ratio in a state.
fn ratio(axle: &AxleAnswer, state: State) -> Option<Ratio> {
    axle.standing.of(state).as_ref()?.old_damper_ratio
}

/// What would say whether they can stay.
fn not_known(axle: &AxleAnswer, open: DampersOpen) -> String {
    let end = axle.side.word_inside();
    let needed = match open {
        DampersOpen::Springs if axle.missing.is_empty() => tr("springs that can be calculated").to_owned(),
        DampersOpen::Springs => needed::words(axle),
        DampersOpen::MotionRatio => tr("the motion ratio of the dampers").to_owned(),
        DampersOpen::Damper => {
            tr("the damping ratio before the change, the damper rates or the damper curve").to_owned()
        }
        DampersOpen::Before => tr("the weights before the change and the old spring").to_owned(),
        DampersOpen::Target => tr("a target range that can be used").to_owned(),
    };
    say!("It is not known whether the old {end} dampers can stay. Still needed: {needed}.", end, needed)
}
